"""How one reader writes numbers: separators, grouping, digits; and the writing itself.

Babel holds the CLDR symbols; the writing is done here, because Babel's own takes several times as long,
writes Latin digits where a reader wants native ones, and knows no reader who reads Spanish but
writes 1,234.5.
"""

from decimal import ROUND_HALF_UP, Context, Decimal
from functools import lru_cache
from typing import Final

from attrs import frozen

from foamwright.reader.preferences import Reader, locale_of

#: First digit of each decimal numbering system that CLDR names for a language
#: (Unicode CLDR, numberingSystems.xml; the digits of each follow one another in Unicode).
ZEROS: Final = {
    "adlm": "\U0001e950", "arab": "\u0660", "arabext": "\u06f0", "beng": "\u09e6",
    "cakm": "\U00011136", "deva": "\u0966", "gujr": "\u0ae6", "guru": "\u0a66",
    "hmnp": "\U0001e140", "java": "\ua9d0", "khmr": "\u17e0", "knda": "\u0ce6",
    "laoo": "\u0ed0", "mlym": "\u0d66", "mong": "\u1810", "mtei": "\uabf0",
    "mymr": "\u1040", "nkoo": "\u07c0", "olck": "\u1c50", "orya": "\u0b66",
    "tamldec": "\u0be6", "telu": "\u0c66", "thai": "\u0e50", "tibt": "\u0f20",
    "vaii": "\ua620",
}  # fmt: skip

#: Decimal and group separator of each number style.
STYLES: Final = {
    "point": (".", ","),
    "comma": (",", "."),
    "space": (",", "\u202f"),
    "quote": (".", "\u2019"),
}

#: Where a group sign stands only from five digits on: 1234 but 12.345 (Unicode CLDR 48,
#: minimumGroupingDigits 2). Spanish and Portuguese have it in some countries only.
_LONE_FOUR: Final = frozenset(
    {
        "be", "bg", "es", "et", "hu", "hy", "ia", "ie", "it", "ka", "lv", "pl", "ru-UA", "sl", "sq",
        "es-EA", "es-ES", "es-GQ", "es-IC", "es-PH",
        "pt-CH", "pt-CV", "pt-GQ", "pt-GW", "pt-LU", "pt-MO", "pt-MZ", "pt-PT", "pt-ST", "pt-TL",
    }
)  # fmt: skip

_ROOMY: Final = Context(prec=800)
_EXPONENTS: Final = tuple(Decimal(1).scaleb(-i) for i in range(21))


@frozen(eq=False)
class NumberStyle:
    """How one reader writes numbers.

    Attributes
    ----------
    decimal : str
        Decimal separator [-]
    group : str
        Group separator [-]
    minus : str
        Minus sign with its marks of direction [-]
    percent : str
        Percent sign with its marks of direction [-]
    zero : str
        The digit nought; the others follow it in Unicode [-]
    indian : bool
        Whether groups are of two after the first three [-]
    lone_four : bool
        Whether four digits stand ungrouped [-]
    own : frozenset[tuple[str, str]]
        Pairs of decimal and group separator in which this reader types, spaces and apostrophes plain [-]
    table : dict[int, str] | None
        What turns Python's signs and digits into these; None where they are the same [-]
    """

    decimal: str
    group: str
    minus: str
    percent: str
    zero: str
    indian: bool
    lone_four: bool
    own: frozenset[tuple[str, str]]
    table: dict[int, str] | None

    def write(self, text: str) -> str:
        """Turn a number as Python writes it, groups by comma, into this reader's.

        Source: arithmetic.

        Parameters
        ----------
        text : str
            Digits with ``-``, ``,`` and ``.`` [-]

        Returns
        -------
        str
            The same in the reader's signs and digits [-]

        Examples
        --------
        >>> number_style(Reader("de")).write("1,234.5")
        '1.234,5'
        """
        return text if self.table is None else text.translate(self.table)


def plain_separator(mark: str) -> str:
    """Write every kind of space as one and every apostrophe as ``'``.

    Source: arithmetic.

    Parameters
    ----------
    mark : str
        One character [-]

    Returns
    -------
    str
        The plainest that looks like it [-]

    Examples
    --------
    >>> plain_separator("\u202f"), plain_separator("\u2019"), plain_separator(".")
    (' ', "'", '.')
    """
    if mark.isspace():
        return " "
    return "'" if mark in "\u2019\u02bc\u2018" else mark


@lru_cache(maxsize=64)
def number_style(reader: Reader) -> NumberStyle:
    """Settle how a reader writes numbers, from the language, the number style and the digits.

    Source: Unicode CLDR (number symbols, default and native numbering systems) as packed in Babel.

    Parameters
    ----------
    reader : Reader
        The reader's choices [-]

    Returns
    -------
    NumberStyle
        Separators, signs and digits [-]

    Examples
    --------
    >>> number_style(Reader("es")).decimal, number_style(Reader("es", numbers="point")).decimal
    (',', '.')
    """
    locale = locale_of(reader.language)
    latin = locale.number_symbols["latn"]
    default = locale.default_numbering_system
    native = locale.other_numbering_systems.get("native", default)
    system = {"auto": default, "latin": "latn", "native": native}[reader.digits]
    if system not in ZEROS:
        system = "latn"
    # A numbering system without symbols of its own borrows those of the Latin one (CLDR aliases).
    symbols = {**latin, **dict(locale.number_symbols.get(system, {}))}
    if reader.numbers == "auto":
        decimal, group = symbols["decimal"], symbols["group"]
        own = {(latin["decimal"], plain_separator(latin["group"]))}
        for name in {default, native, system}:
            theirs = {**latin, **dict(locale.number_symbols.get(name, {}))}
            own.add((theirs["decimal"], plain_separator(theirs["group"])))
    else:
        decimal, group = STYLES[reader.numbers]
        own = {(decimal, plain_separator(group))}
    pattern = locale.decimal_formats[None]
    table: dict[int, str] = {ord("."): decimal, ord(","): group, ord("-"): symbols["minusSign"]}
    zero = ZEROS.get(system, "0")
    if zero != "0":
        table |= {ord("0") + i: chr(ord(zero) + i) for i in range(10)}
    return NumberStyle(
        decimal=decimal,
        group=group,
        minus=symbols["minusSign"],
        percent=symbols["percentSign"],
        zero=zero,
        indian=pattern.grouping == (3, 2) and reader.numbers in ("auto", "point"),
        lone_four=reader.numbers == "auto" and _lone_four(str(locale).replace("_", "-")),
        own=frozenset(own),
        table=None if all(chr(k) == v for k, v in table.items()) else table,
    )


def _lone_four(tag: str) -> bool:
    language, _, region = tag.partition("-")
    return tag in _LONE_FOUR or (bool(region) and language in _LONE_FOUR and language != "es")


def rounded(value: float | Decimal, decimals: int | None, significant: int | None) -> Decimal:
    """Round half away from zero, as people do by hand, what the shortest writing of the number says.

    Source: arithmetic.

    Parameters
    ----------
    value : float | Decimal
        A finite number [-]
    decimals : int | None
        Digits after the decimal separator, 0 to 20 [-]
    significant : int | None
        Or: digits that count, 1 to 17; whole digits are never rounded away [-]

    Returns
    -------
    Decimal
        The number with exactly the digits to be shown [-]

    Raises
    ------
    ValueError
        If the number is not finite: a figure that is not known has no digits.

    Examples
    --------
    >>> rounded(2.675, 2, None), rounded(1234.5, None, 3), rounded(0.020349, None, 3)
    (Decimal('2.68'), Decimal('1235'), Decimal('0.0203'))
    """
    exact = value if isinstance(value, Decimal) else Decimal(repr(value))
    if not exact.is_finite():
        raise ValueError(f"value={value} is not a finite number")
    if decimals is None:
        places = (significant or 3) - 1 - exact.adjusted() if exact else (significant or 3) - 1
        decimals = min(20, max(0, places))
        # 9.996 to three digits is 10.0, not 10.00.
        made = exact.quantize(_EXPONENTS[decimals], ROUND_HALF_UP, _ROOMY)
        if decimals and made and made.adjusted() > exact.adjusted():
            decimals -= 1
    made = exact.quantize(_EXPONENTS[decimals], ROUND_HALF_UP, _ROOMY)
    return made if made else made.copy_abs()


def trimmed(number: Decimal) -> Decimal:
    """Drop the zeros at the end of a decimal part.

    Source: arithmetic.

    Parameters
    ----------
    number : Decimal
        Any number [-]

    Returns
    -------
    Decimal
        The same number [-]

    Examples
    --------
    >>> trimmed(Decimal("30.50")), trimmed(Decimal("30.00"))
    (Decimal('30.5'), Decimal('30'))
    """
    text = f"{number:f}"
    return Decimal(text.rstrip("0").rstrip(".")) if "." in text else number


def grouped(number: Decimal, style: NumberStyle) -> str:
    """Write a number with groups, in this reader's signs and digits.

    Source: Unicode CLDR, decimal pattern of the locale (``#,##0.###`` or ``#,##,##0.###``) and the least
    number of digits that it groups.

    Parameters
    ----------
    number : Decimal
        The number with exactly the digits to be shown [-]
    style : NumberStyle
        How the reader writes [-]

    Returns
    -------
    str
        The text [-]

    Examples
    --------
    >>> grouped(Decimal("1234567.50"), number_style(Reader("en-IN")))
    '12,34,567.50'
    """
    text = f"{number:,f}"
    if "," in text:
        if style.indian:
            text = _indian(f"{number:f}")
        elif style.lone_four and text.find(",") == len(text) - len(text.lstrip("-")) + 1 and text.count(",") == 1:
            text = text.replace(",", "")
    return text if style.table is None else text.translate(style.table)


def _indian(text: str) -> str:
    whole, dot, part = text.partition(".")
    sign = whole[:1] if whole[:1] == "-" else ""
    whole = whole[len(sign) :]
    head, groups = whole[:-3], [whole[-3:]]
    while head:
        groups.insert(0, head[-2:])
        head = head[:-2]
    return sign + ",".join(groups) + dot + part


def plain(value: float, style: NumberStyle, significant: int = 12) -> str:
    """Write a number for a field: no groups, no zeros at the end, and never readable in two ways.

    One separator followed by exactly three digits can be taken for a group by whoever reads it, and is
    asked about when it is typed (see :mod:`foamwright.reader.parsing`). So three decimals become four.

    Source: arithmetic.

    Parameters
    ----------
    value : float
        A finite number [-]
    style : NumberStyle
        How the reader writes [-]
    significant : int
        Digits that count, 1 to 17 [-]

    Returns
    -------
    str
        The text [-]

    Examples
    --------
    >>> style = number_style(Reader("de"))
    >>> plain(1.5, style), plain(1500.0, style), plain(1.234, style), plain(0.305, style)
    ('1,5', '1500', '1,2340', '0,305')
    """
    exact = Decimal(repr(value))
    number = trimmed(rounded(exact, None, significant))
    text = f"{number:f}"
    whole, _, part = text.lstrip("-").partition(".")
    if len(part) == 3 and len(whole) <= 3 and whole != "0":
        text = f"{rounded(exact, 4, None):f}"
    return style.write(text)
