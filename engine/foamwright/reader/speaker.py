"""The Speaker: words, numbers, units, money, lists and dates for one Reader.

Bidirectional text, one rule: where the language runs from right to left, every figure and every
parameter of a sentence stands between FIRST STRONG ISOLATE and POP DIRECTIONAL ISOLATE (Unicode
Standard Annex 9), so that neither scrambles the other; where it runs from left to right, only a
parameter that holds right-to-left letters does.
"""

from collections.abc import Sequence
from datetime import date
from decimal import Decimal
from functools import lru_cache
from typing import Any, Final, Literal, NamedTuple
from unicodedata import bidirectional

from attrs import evolve, frozen
from babel import Locale
from babel.dates import format_date
from babel.lists import format_list

from foamwright.reader import numerals
from foamwright.reader.catalogs import (
    PSEUDO,
    SOURCE,
    Catalog,
    catalog_tag,
    cldr_forms,
    load,
    tag_parents,
)
from foamwright.reader.markers import Message
from foamwright.reader.money import Currency, currency
from foamwright.reader.preferences import Reader, locale_of
from foamwright.reader.units import KINDS, UNITS, Kind, Unit, to_base

_FSI: Final = "\u2068"
_PDI: Final = "\u2069"
_WITHOUT_ISOLATES: Final = dict.fromkeys((0x2066, 0x2067, 0x2068, 0x2069))
_NBSP: Final = "\u00a0"

#: CLDR's names of plural categories, in the order in which catalogs write their forms.
Category = Literal["zero", "one", "two", "few", "many", "other"]


class Parts(NamedTuple):
    """A quantity in pieces: the number, the symbol of its unit, and the unit's name to be read aloud."""

    number: str
    symbol: str
    spoken: str


class Caution(NamedTuple):
    """A caution as the reader sees it; ``source`` where nobody has confirmed the translation."""

    text: str
    source: str | None


@frozen(eq=False)
class _Unit:
    """What stands before and after a number for one unit, by plural category."""

    before: str
    after: str
    by_category: dict[str, tuple[str, str]] | None
    symbol: str
    name: str
    #: A second unit that follows in brackets: its factor to the base, and itself.
    also: "tuple[float, _Unit] | None" = None


def _balanced(text: str) -> bool:
    """Tell whether every isolate in a text ends inside it, so that it cannot reach beyond."""
    depth = 0
    for mark in text:
        if "\u2066" <= mark <= "\u2068":
            depth += 1
        elif mark == _PDI:
            depth -= 1
            if depth < 0:
                return False
    return depth == 0


def _pairs(patterns: Any) -> dict[str, tuple[str, str]]:
    """Split CLDR's patterns of one unit and width into what stands before and after the number."""
    other = patterns.get("other", "")
    if "{0}" not in other:
        return {}
    pairs = {}
    for category in ("zero", "one", "two", "few", "many", "other"):
        # Some languages write "two days" without the number; a figure must always show.
        pattern = patterns.get(category, other)
        before, _, after = (pattern if "{0}" in pattern else other).partition("{0}")
        pairs[category] = (before.replace(" ", _NBSP), after.replace(" ", _NBSP))
    return pairs


class Speaker:
    """Says everything that one Reader reads; made by :func:`speaker`, never changed afterwards.

    The methods ``_``, ``n_``, ``p_`` and ``np_`` take literal texts only, for ``pybabel`` must find them;
    a text that was marked elsewhere goes through :meth:`say`. Parameters are texts: a number is written
    by :meth:`number`, :meth:`quantity` or their like first, since only they know the reader's digits.
    """

    def __init__(self, reader: Reader, extra: Catalog | None = None) -> None:
        served = extra.tag if extra is not None else catalog_tag(reader.language) or SOURCE
        chain = [extra] if extra is not None else []
        chain += [found for tag in tag_parents(served) if (found := load(tag)) is not None]
        self.reader: Final = reader
        self.locale: Final[Locale] = locale_of(reader.language)
        self.style: Final = numerals.number_style(reader)
        self._chain: Final[tuple[Catalog, ...]] = tuple(chain)
        self._source: Final = served.split("-")[0] == SOURCE and served not in PSEUDO
        spoken = reader.language if reader.language.split("-")[0] == served.split("-")[0] else served
        #: What ``<html lang>`` is to say: the language of the words.
        self.tag: Final = spoken
        rtl = locale_of(served).text_direction == "rtl"
        #: ``"ltr"`` or ``"rtl"``: what ``<html dir>`` is to say.
        self.dir: Final[Literal["ltr", "rtl"]] = "rtl" if rtl else "ltr"
        self._rtl: Final = rtl
        self._category: Final = self.locale.plural_form
        self._forms: Final = cldr_forms(served)
        self._units: Final[dict[str, _Unit]] = {}
        self._kinds: Final[dict[str, tuple[Kind, Unit, float, float, int, _Unit]]] = {}

    # Words

    def _(self, text: str, /, **params: str) -> str:
        """Translate a literal text.

        Source: GNU gettext manual, "Plural forms" and "Contexts".

        Parameters
        ----------
        text : str
            A literal text [-]
        **params : str
            Its named places, already written as text [-]

        Returns
        -------
        str
            The text in the reader's language, else in the source language [-]

        Raises
        ------
        KeyError
            If a named place is not given: the engine's own fault.

        Examples
        --------
        >>> speaker(Reader("en"))._("%(name)s, drawn", name="North dome")
        'North dome, drawn'
        """
        return self._fill(self._find(text), text, params)

    def p_(self, context: str, text: str, /, **params: str) -> str:
        """Translate a literal text whose meaning depends on where it stands.

        Source: GNU gettext manual, "Plural forms" and "Contexts".

        Parameters
        ----------
        context : str
            What tells its meanings apart [-]
        text : str
            A literal text [-]
        **params : str
            Its named places, already written as text [-]

        Returns
        -------
        str
            The text in the reader's language, else in the source language [-]

        Raises
        ------
        KeyError
            If a named place is not given: the engine's own fault.

        Examples
        --------
        >>> speaker(Reader("en")).p_("unit symbol", "kg/m³")
        'kg/m³'
        """
        return self._fill(self._find(f"{context}\x04{text}"), text, params)

    def n_(self, singular: str, plural: str, count: float | Decimal, /, **params: str) -> str:
        """Translate a literal text that changes with a number.

        Source: GNU gettext manual, "Plural forms" and "Contexts".

        Parameters
        ----------
        singular : str
            The literal text for one [-]
        plural : str
            The literal text for any other number [-]
        count : float | Decimal
            The number that chooses the form [-]
        **params : str
            Its named places; ``n`` is the number itself unless given [-]

        Returns
        -------
        str
            The form that the number asks for [-]

        Raises
        ------
        KeyError
            If a named place is not given: the engine's own fault.

        Examples
        --------
        >>> s = speaker(Reader("en"))
        >>> s.n_("%(n)s bag", "%(n)s bags", 1), s.n_("%(n)s bag", "%(n)s bags", 1200)
        ('1 bag', '1,200 bags')
        """
        return self._plural(singular, singular, plural, count, params)

    def np_(self, context: str, singular: str, plural: str, count: float | Decimal, /, **params: str) -> str:
        """Translate a literal text that changes with a number and with where it stands.

        Source: GNU gettext manual, "Plural forms" and "Contexts".

        Parameters
        ----------
        context : str
            What tells its meanings apart [-]
        singular : str
            The literal text for one [-]
        plural : str
            The literal text for any other number [-]
        count : float | Decimal
            The number that chooses the form [-]
        **params : str
            Its named places; ``n`` is the number itself unless given [-]

        Returns
        -------
        str
            The form that the number asks for [-]

        Raises
        ------
        KeyError
            If a named place is not given: the engine's own fault.

        Examples
        --------
        >>> speaker(Reader("en")).np_("masonry", "%(n)s course", "%(n)s courses", 3)
        '3 courses'
        """
        return self._plural(f"{context}\x04{singular}", singular, plural, count, params)

    def say(self, message: Message | str, /, count: float | Decimal | None = None, **params: str) -> str:
        """Translate a text that a marker made.

        Source: GNU gettext manual, "Plural forms" and "Contexts".

        Parameters
        ----------
        message : Message | str
            What ``N_``, ``NP_``, ``NN_`` or ``NNP_`` returned, or a text of the source language [-]
        count : float | Decimal | None
            The number that chooses the form of one that has a plural [-]
        **params : str
            Its named places, already written as text [-]

        Returns
        -------
        str
            The text in the reader's language, else in the source language [-]

        Raises
        ------
        KeyError
            If a named place is not given: the engine's own fault.

        Examples
        --------
        >>> speaker(Reader("en")).say(Message("%(n)s bag", None, "%(n)s bags"), count=2)
        '2 bags'
        """
        text, context, plural = (message, None, None) if isinstance(message, str) else message
        key = text if context is None else f"{context}\x04{text}"
        if plural is not None and count is not None:
            return self._plural(key, text, plural, count, params)
        return self._fill(self._find(key), text, params)

    def caution(self, message: Message | str, /, **params: str) -> Caution:
        """Translate a caution, and show its source where nobody has confirmed the translation.

        Source: GNU gettext manual, "Plural forms" and "Contexts".

        Parameters
        ----------
        message : Message | str
            What ``NP_("caution", ...)`` returned [-]
        **params : str
            Its named places, already written as text [-]

        Returns
        -------
        Caution
            The text, and the source text or None [-]

        Raises
        ------
        KeyError
            If a named place is not given: the engine's own fault.

        Examples
        --------
        >>> speaker(Reader("en")).caution(Message("Wear gloves.", "caution"))
        Caution(text='Wear gloves.', source=None)
        """
        text = message if isinstance(message, str) else message.text
        key = f"caution\x04{text}"
        said = self._fill(self._find(key), text, params)
        if self._source:
            return Caution(said, None)
        for catalog in self._chain:
            if key in catalog.texts:
                if key in catalog.confirmed:
                    return Caution(said, None)
                return Caution(said, self._fill(None, text, params))
        return Caution(said, None)

    def isolate(self, text: str, /) -> str:
        """Keep a text that a person typed from scrambling what stands around it.

        Source: Unicode Standard Annex 9, section 2.4 (isolates).

        Parameters
        ----------
        text : str
            Any text [-]

        Returns
        -------
        str
            The same, between isolates where it could scramble [-]

        Examples
        --------
        >>> speaker(Reader("en")).isolate("North dome")
        'North dome'
        """
        if text.isascii() and not self._rtl:
            return text
        if not _balanced(text):
            text = text.translate(_WITHOUT_ISOLATES)
        elif text[:1] == _FSI and text.find(_PDI) == len(text) - 1:
            return text
        if text and (self._rtl or any(bidirectional(mark) in ("R", "AL", "AN") for mark in text)):
            return f"{_FSI}{text}{_PDI}"
        return text

    def _find(self, key: str) -> str | None:
        for catalog in self._chain:
            forms = catalog.texts.get(key)
            if forms is not None:
                return forms[0]
        return None

    def _fill(self, found: str | None, source: str, params: dict[str, str]) -> str:
        if not params:
            return found or source
        safe = {name: self.isolate(value) for name, value in params.items()}
        return (found or source) % safe

    def _plural(
        self, key: str, singular: str, plural: str, count: float | Decimal, params: dict[str, str]
    ) -> str:
        whole = count == int(count)
        if "n" not in params:
            params["n"] = self.number(count, decimals=0) if whole else self._shortest(count)
        for catalog in self._chain:
            forms = catalog.texts.get(key)
            if forms is not None:
                if whole:
                    index = catalog.form(abs(int(count)))
                elif len(forms) == len(self._forms):
                    index = self._forms.index(self._category(Decimal(repr(abs(count)))))
                else:
                    index = len(forms) - 1
                return self._fill(forms[index], plural, params)
        return self._fill(None, singular if abs(count) == 1 else plural, params)

    # Numbers

    def number(
        self,
        value: float | Decimal,
        *,
        decimals: int | None = None,
        significant: int | None = None,
        trim: bool = False,
    ) -> str:
        """Write a number with groups.

        Whole digits are never rounded away, so three significant digits of 1234.5 are 1,235.

        Source: Unicode CLDR (number symbols and patterns) as packed in Babel.

        Parameters
        ----------
        value : float | Decimal
            A finite number [-]
        decimals : int | None
            Digits after the decimal separator, 0 to 20 [-]
        significant : int | None
            Or: digits that count, 1 to 17 [-]
        trim : bool
            Whether zeros at the end of the decimals are left out [-]

        Returns
        -------
        str
            The text, isolated where the language runs from right to left [-]

        Raises
        ------
        ValueError
            If the number is not finite: a figure that is not known has no digits.

        Examples
        --------
        >>> s = speaker(Reader("es"))
        >>> s.number(12345.678, decimals=1), s.number(0.020349, significant=3)
        ('12.345,7', '0,0203')
        """
        return self._figure(self._digits(value, decimals, significant, trim)[1])

    def whole(self, value: float | Decimal) -> str:
        """Write a number without decimals.

        Source: Unicode CLDR (number symbols and patterns) as packed in Babel.

        Parameters
        ----------
        value : float | Decimal
            A finite number [-]

        Returns
        -------
        str
            The text [-]

        Raises
        ------
        ValueError
            If the number is not finite: a figure that is not known has no digits.

        Examples
        --------
        >>> speaker(Reader("en-IN")).whole(1234567)
        '12,34,567'
        """
        return self.number(value, decimals=0)

    def plain(self, value: float, kind: str | None = None, *, significant: int | None = None) -> str:
        """Write a number for a field: no groups, no isolates, readable in one way only.

        Where the reader's unit is not the base, six digits say enough: the project keeps the value, not the text.

        Source: arithmetic.

        Parameters
        ----------
        value : float
            A finite number [base unit of the kind, or - without a kind]
        kind : str | None
            One of ``KINDS``; the text is then in the reader's unit [-]
        significant : int | None
            Digits that count, 1 to 17 [-]

        Returns
        -------
        str
            The text [-]

        Raises
        ------
        ValueError
            If the number is not finite: a figure that is not known has no digits.
        KeyError
            If there is no such kind.

        Examples
        --------
        >>> s = speaker(Reader("de", units="us"))
        >>> s.plain(1500.0), s.plain(1.5), s.plain(0.3048, "length")
        ('1500', '1,5', '1')
        """
        if kind is None:
            return numerals.plain(value, self.style, significant or 12)
        _, _, factor, offset, _, _ = self._kind(kind)
        usual = 12 if (factor, offset) == (1.0, 0.0) else 6
        return numerals.plain((value - offset) / factor, self.style, significant or usual)

    def percent(self, fraction: float, *, decimals: int = 0) -> str:
        """Write a fraction as a percentage.

        Source: Unicode CLDR as packed in Babel.

        Parameters
        ----------
        fraction : float
            A finite fraction, 1 for the whole [-]
        decimals : int
            Digits after the decimal separator, 0 to 20 [-]

        Returns
        -------
        str
            The text [-]

        Raises
        ------
        ValueError
            If the number is not finite: a figure that is not known has no digits.

        Examples
        --------
        >>> speaker(Reader("en")).percent(0.05)
        '5%'
        """
        return self.quantity(fraction, "fraction", decimals=decimals)

    def _shortest(self, value: float | Decimal) -> str:
        return self.number(value, significant=6, trim=True)

    def _digits(
        self, value: float | Decimal, decimals: int | None, significant: int | None, trim: bool
    ) -> tuple[Decimal, str]:
        made = numerals.rounded(value, decimals, significant)
        if trim:
            made = numerals.trimmed(made)
        return made, numerals.grouped(made, self.style)

    def _figure(self, text: str) -> str:
        return f"{_FSI}{text}{_PDI}" if self._rtl and not text.isdecimal() else text

    # Units

    def quantity(
        self,
        value: float,
        kind: str,
        *,
        decimals: int | None = None,
        significant: int | None = None,
        trim: bool | None = None,
    ) -> str:
        """Write a value of the estimate in the reader's unit, with the symbol.

        Source: Unicode CLDR for symbols; NIST Special Publication 811:2008, appendix B.8, for factors.

        Parameters
        ----------
        value : float
            A finite number [base unit of the kind]
        kind : str
            One of ``KINDS`` [-]
        decimals : int | None
            Digits after the decimal separator, 0 to 20 [-]
        significant : int | None
            Or: digits that count, 1 to 17 [-]
        trim : bool | None
            Whether zeros at the end of the decimals are left out; None as the kind has it [-]

        Returns
        -------
        str
            The text; the number and its symbol do not part at the end of a line [-]

        Raises
        ------
        ValueError
            If the number is not finite: a figure that is not known has no digits.
        KeyError
            If there is no such kind.

        Examples
        --------
        >>> speaker(Reader("en")).quantity(14.0283, "volume") == "14.03\\xa0m³"
        True
        """
        made, text, unit = self._measured(value, kind, decimals, significant, trim)
        before, after = unit.before, unit.after
        if unit.by_category is not None:
            before, after = unit.by_category[self._category(abs(made))]
        if unit.also is not None:
            return self._figure(f"{before}{text}{after} ({self._second(value, *unit.also)})")
        return self._figure(f"{before}{text}{after}")

    def _second(self, value: float, factor: float, unit: _Unit) -> str:
        made, text = self._digits(value / factor, None, 3, False)
        before, after = unit.before, unit.after
        if unit.by_category is not None:
            before, after = unit.by_category[self._category(abs(made))]
        return f"{before}{text}{after}"

    def quantity_parts(
        self,
        value: float,
        kind: str,
        *,
        decimals: int | None = None,
        significant: int | None = None,
        trim: bool | None = None,
    ) -> Parts:
        """Write a value in the reader's unit in pieces.

        Source: Unicode CLDR for symbols and names; NIST Special Publication 811:2008, appendix B.8, for factors.

        Parameters
        ----------
        value : float
            A finite number [base unit of the kind]
        kind : str
            One of ``KINDS`` [-]
        decimals : int | None
            Digits after the decimal separator, 0 to 20 [-]
        significant : int | None
            Or: digits that count, 1 to 17 [-]
        trim : bool | None
            Whether zeros at the end of the decimals are left out; None as the kind has it [-]

        Returns
        -------
        Parts
            The number, the symbol of its unit, the unit's name to be read aloud [-]

        Raises
        ------
        ValueError
            If the number is not finite: a figure that is not known has no digits.
        KeyError
            If there is no such kind.

        Examples
        --------
        >>> speaker(Reader("en")).quantity_parts(14.0283, "volume")
        Parts(number='14.03', symbol='m³', spoken='cubic meters')
        """
        _, text, unit = self._measured(value, kind, decimals, significant, trim)
        return Parts(self._figure(text), unit.symbol, unit.name)

    def to_si(self, value: float, kind: str) -> float:
        """Turn a value in the reader's unit into the base unit of the project file.

        Source: NIST Special Publication 811:2008, appendix B.8.

        Parameters
        ----------
        value : float
            A finite number [the reader's unit of the kind]
        kind : str
            One of ``KINDS`` [-]

        Returns
        -------
        float
            The value [base unit of the kind]

        Raises
        ------
        KeyError
            If there is no such kind.

        Examples
        --------
        >>> speaker(Reader("en", units="us")).to_si(94.0, "mass")
        42.63768278
        """
        _, _, factor, offset, _, _ = self._kind(kind)
        return value * factor + offset

    def from_si(self, value: float, kind: str) -> float:
        """Turn a value in the base unit of the project file into the reader's unit.

        Source: NIST Special Publication 811:2008, appendix B.8.

        Parameters
        ----------
        value : float
            A finite number [base unit of the kind]
        kind : str
            One of ``KINDS`` [-]

        Returns
        -------
        float
            The value [the reader's unit of the kind]

        Raises
        ------
        KeyError
            If there is no such kind.

        Examples
        --------
        >>> speaker(Reader("en", units="us")).from_si(0.3048, "length")
        1.0
        """
        _, _, factor, offset, _, _ = self._kind(kind)
        return (value - offset) / factor

    def unit_symbol(self, kind: str) -> str:
        """Name the symbol of the reader's unit.

        Source: Unicode CLDR as packed in Babel.

        Parameters
        ----------
        kind : str
            One of ``KINDS`` [-]

        Returns
        -------
        str
            The symbol, empty where the kind has no unit [-]

        Raises
        ------
        KeyError
            If there is no such kind.

        Examples
        --------
        >>> speaker(Reader("en")).unit_symbol("length_small")
        'cm'
        """
        return self._kind(kind)[5].symbol

    def unit_name(self, kind: str) -> str:
        """Name the reader's unit in full, to be read aloud.

        Source: Unicode CLDR as packed in Babel.

        Parameters
        ----------
        kind : str
            One of ``KINDS`` [-]

        Returns
        -------
        str
            The name, empty where the kind has no unit [-]

        Raises
        ------
        KeyError
            If there is no such kind.

        Examples
        --------
        >>> speaker(Reader("en")).unit_name("length_small")
        'centimeters'
        """
        return self._kind(kind)[5].name

    def _measured(
        self, value: float, kind: str, decimals: int | None, significant: int | None, trim: bool | None
    ) -> tuple[Decimal, str, _Unit]:
        stated, _, factor, offset, usual, unit = self._kind(kind)
        if decimals is None and significant is None:
            decimals = usual
            trim = stated.trim if trim is None else trim
        made, text = self._digits((value - offset) / factor, decimals, significant, bool(trim))
        return made, text, unit

    def _kind(self, kind: str) -> tuple[Kind, Unit, float, float, int, _Unit]:
        found = self._kinds.get(kind)
        if found is None:
            stated = KINDS[kind]
            unit = stated.unit(self.reader.units)
            factor, offset = to_base(unit.key, stated.base)
            decimals, shown = stated.decimals, self._unit(unit)
            if self.reader.units != "metric":
                decimals = stated.decimals_us
                if stated.also is not None:
                    second = self._unit(UNITS[stated.also])
                    shown = evolve(shown, also=(to_base(stated.also, stated.base)[0], second))
            found = self._kinds[kind] = (stated, unit, factor, offset, decimals, shown)
        return found

    def _unit(self, unit: Unit) -> _Unit:
        if unit.key == "none":
            return _Unit("", "", None, "", "")
        if unit.key == "percent":
            pattern = self.locale.percent_formats[None]
            before = pattern.prefix[0].replace("%", self.style.percent)
            after = pattern.suffix[0].replace("%", self.style.percent)
            return _Unit(before, after, None, self.style.percent.strip("\u200e\u061c"), self.p_("unit name", "percent"))
        if unit.cldr is None:
            symbol = self.say(unit.symbol or unit.key)
            after = ("" if unit.attached else _NBSP) + symbol.replace(" ", _NBSP)
            return _Unit("", after, None, symbol, self.say(unit.name or unit.key))
        # Babel's format_unit picks one of these patterns on each call; they are picked once here.
        widths = self.locale._data["unit_patterns"][unit.cldr]
        found = [made for width in ("short", "narrow", "long") if (made := _pairs(widths.get(width, {})))]
        # A symbol that changes with the number is a word: Arabic "short" metres are. Then the narrow one
        # serves, except for spans of time, which people do write as words.
        steady = [pairs for pairs in found if len(set(pairs.values())) == 1]
        pairs = steady[0] if steady and not unit.cldr.startswith("duration") else found[0]
        before, after = pairs["other"]
        symbol = (before + after).replace(_NBSP, " ").strip(" \u202f")
        name: str = self.locale.unit_display_names.get(unit.cldr, {}).get("long") or symbol
        return _Unit(before, after, None if len(set(pairs.values())) == 1 else pairs, symbol, name)

    # Money

    def money(self, value: float, code: str, *, decimals: int | None = None, iso: bool = False) -> str:
        """Write an amount in a currency.

        Source: Unicode CLDR (patterns, symbols, decimals, currencySpacing) as packed in Babel.

        Parameters
        ----------
        value : float
            A finite amount [the currency]
        code : str
            Currency code of three letters [-]
        decimals : int | None
            Digits after the decimal separator; None as the currency has them [-]
        iso : bool
            Whether the code stands in place of the symbol [-]

        Returns
        -------
        str
            The text [-]

        Raises
        ------
        ValueError
            If the number is not finite: a figure that is not known has no digits.

        Examples
        --------
        >>> speaker(Reader("en")).money(1234.5, "USD")
        '$1,234.50'
        """
        known = self.currency(code)
        made, text = self._digits(abs(value), known.decimals if decimals is None else decimals, None, False)
        pattern = self.locale.currency_formats["standard"]
        sign = 1 if value < 0 and made else 0
        symbol = code if iso else known.symbol
        before = pattern.prefix[sign].replace("-", self.style.minus)
        after = pattern.suffix[sign].replace("-", self.style.minus)
        # CLDR, currencySpacing: letters do not touch digits.
        if before.endswith("¤") and symbol[-1:].isalpha():
            before += _NBSP
        if after.startswith("¤") and symbol[:1].isalpha():
            after = _NBSP + after
        return self._figure(f"{before}{text}{after}".replace("¤", symbol))

    def money_per(self, value: float, code: str, kind: str, *, decimals: int | None = None) -> str:
        """Write an amount for each unit of a kind.

        Source: Unicode CLDR as packed in Babel; NIST Special Publication 811:2008, appendix B.8.

        Parameters
        ----------
        value : float
            A finite amount [the currency / base unit of the kind]
        code : str
            Currency code of three letters [-]
        kind : str
            One of ``KINDS`` [-]
        decimals : int | None
            Digits after the decimal separator; None as the currency has them [-]

        Returns
        -------
        str
            The text [-]

        Raises
        ------
        ValueError
            If the number is not finite: a figure that is not known has no digits.
        KeyError
            If there is no such kind.

        Examples
        --------
        >>> speaker(Reader("en")).money_per(31.5, "EUR", "area")
        '€31.50 per m²'
        """
        _, _, factor, _, _, unit = self._kind(kind)
        amount = self.money(value * factor, code, decimals=decimals)
        return self.p_("price for each unit", "%(amount)s per %(unit)s", amount=amount, unit=unit.symbol)

    def currency(self, code: str) -> Currency:
        """Describe a currency.

        Source: Unicode CLDR as packed in Babel.

        Parameters
        ----------
        code : str
            Currency code of three letters [-]

        Returns
        -------
        Currency
            Code, name, symbol and decimals [-]

        Examples
        --------
        >>> speaker(Reader("es")).currency("MXN").name
        'peso mexicano'
        """
        return currency(code, self.reader)

    def country(self, code: str) -> str:
        """Name a country; an unknown code stands for itself.

        Source: Unicode CLDR as packed in Babel.

        Parameters
        ----------
        code : str
            Two letters (ISO 3166-1) [-]

        Returns
        -------
        str
            The name [-]

        Examples
        --------
        >>> speaker(Reader("es")).country("MX")
        'México'
        """
        name: str = self.locale.territories.get(code, code)
        return name

    # Lists, spans, dates

    def list_join(self, items: Sequence[str], style: Literal["standard", "or", "unit"] = "standard") -> str:
        """Join texts as the language lists them.

        Source: Unicode CLDR as packed in Babel.

        Parameters
        ----------
        items : Sequence[str]
            The texts [-]
        style : str
            ``standard`` (and), ``or``, or ``unit`` (no word) [-]

        Returns
        -------
        str
            The list [-]

        Examples
        --------
        >>> speaker(Reader("es")).list_join(["agua", "cemento"])
        'agua y cemento'
        """
        return format_list([self.isolate(item) for item in items], style=style, locale=self.locale)

    def span(
        self, low: float, high: float, kind: str, *, decimals: int | None = None, significant: int | None = None
    ) -> str:
        """Write a range in the reader's unit, the symbol once; one figure where both ends look alike.

        Source: Unicode CLDR as packed in Babel for the symbols; the dash is common
        practice, no source.

        Parameters
        ----------
        low : float
            The lower end [base unit of the kind]
        high : float
            The upper end [base unit of the kind]
        kind : str
            One of ``KINDS`` [-]
        decimals : int | None
            Digits after the decimal separator, 0 to 20 [-]
        significant : int | None
            Or: digits that count, 1 to 17 [-]

        Returns
        -------
        str
            The text [-]

        Raises
        ------
        ValueError
            If the number is not finite: a figure that is not known has no digits.
        KeyError
            If there is no such kind.

        Examples
        --------
        >>> speaker(Reader("en")).span(90.0, 100.0, "foam_density") == "90–100\\xa0g/L"
        True
        """
        first, start, unit = self._measured(low, kind, decimals, significant, None)
        last, end, _ = self._measured(high, kind, decimals, significant, None)
        if start == end:
            return self.quantity(high, kind, decimals=decimals, significant=significant)
        before, after = unit.before, unit.after
        if unit.by_category is not None:
            before, after = unit.by_category[self._category(abs(last))]
        dash = f"{_NBSP}–{_NBSP}" if first < 0 or last < 0 else "–"
        return self._figure(f"{before}{start}{dash}{end}{after}")

    def date(self, day: date, style: Literal["short", "medium", "long"] = "medium") -> str:
        """Write a date.

        Source: Unicode CLDR as packed in Babel.

        Parameters
        ----------
        day : date
            The day [-]
        style : str
            ``short``, ``medium`` or ``long`` [-]

        Returns
        -------
        str
            The text [-]

        Examples
        --------
        >>> speaker(Reader("es")).date(date(2026, 3, 15), "long")
        '15 de marzo de 2026'
        """
        text = format_date(day, style, locale=self.locale)
        zero = ord(self.style.zero)
        if zero != ord("0"):
            text = text.translate({ord("0") + i: chr(zero + i) for i in range(10)})
        return self._figure(text)


@lru_cache(maxsize=32)
def speaker(reader: Reader, extra: Catalog | None = None) -> Speaker:
    """Make the Speaker of a Reader; ``extra`` is a translator's own catalog, heard first.

    Source: arithmetic.

    Parameters
    ----------
    reader : Reader
        The reader's choices [-]
    extra : Catalog | None
        What :func:`foamwright.reader.catalogs.load_catalog` made [-]

    Returns
    -------
    Speaker
        The same one for the same arguments [-]

    Examples
    --------
    >>> speaker(Reader("en", units="us")).quantity(42.63768278, "mass")
    '94.0\\xa0lb'
    """
    return Speaker(reader, extra)
