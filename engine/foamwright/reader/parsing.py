"""Numbers as people type them: read in one way or asked about, never guessed.

A number that is read wrongly here is a wrong amount of cement. So every reading that any convention
allows is collected first, and the text is taken only where there is one reading and it is this
reader's own. The rules, in order:

====================================== ================================================== ==============
what is typed                          what it can be                                     answer
====================================== ================================================== ==============
nothing but spaces                     nothing                                            number_empty
letters, exponent, ``_``, ``/``, NaN   nothing                                            number_unreadable
digits alone, any script               a whole number                                     taken
``0`` then one separator               a decimal in every convention                      taken
a decimal in the reader's own signs    a decimal                                          taken
groups of three by spaces or ``٬``     groups in every convention (ISO 80000-1, 7.3.1)    taken
groups in the reader's own sign        groups                                             taken
1-3 digits, ``.`` or ``,``, 3 digits   a decimal and a group                              asked, both
signs of another convention            what they are there                                asked
the reader's group sign, wrongly set   a decimal elsewhere, or a slip of the finger       asked, both
groups of 3 and 2 (1,23,456)           Indian groups                                      taken or asked
groups of any other size               nothing                                            number_unreadable
====================================== ================================================== ==============

Where the field is not a measure (a price, a count) the fifth line from the top wins over "asked, both".

Source: ISO 80000-1:2009, 7.3 for the digits and signs; Unicode CLDR for each locale's signs; the
rest is common practice, no source.
"""

import re
import unicodedata
from typing import Final, Literal

from attrs import frozen

from foamwright.reader.numerals import NumberStyle, number_style, plain
from foamwright.reader.preferences import Reader

#: More characters than any number in a project needs.
LONGEST: Final = 40

_UNSEEN: Final = frozenset("\u200b\u200c\u200d\u200e\u200f\u061c\u2060\u2066\u2067\u2068\u2069\ufeff")
_SAME: Final = {
    "\u2212": "-", "\ufe63": "-", "\uff0d": "-", "\uff0b": "+",
    "\u2019": "'", "\u2018": "'", "\u02bc": "'", "\uff07": "'",
    "\uff0e": ".", "\uff0c": ",", "\u060c": ",",
}  # fmt: skip
_BODY: Final = re.compile(r"[.,٫]?\d+(?:[.,' ٫٬]\d+)*", re.ASCII)
_DECIMALS: Final = frozenset(".,٫")
#: Signs that mean the same in every convention.
_UNIVERSAL_GROUPS: Final = frozenset(" ٬")

Code = Literal["", "number_empty", "number_unreadable", "number_ambiguous"]


@frozen
class Reading:
    """One way to read what was typed.

    Attributes
    ----------
    text : str
        How this reader would write it, so that it is read in one way only [-]
    value : float
        Its value [as typed]
    """

    text: str
    value: float


@frozen
class Parsed:
    """What became of a typed number: a value, or readings to choose from, or neither.

    Attributes
    ----------
    value : float | None
        The number, where there is one reading and it is this reader's own [as typed]
    readings : tuple[Reading, ...]
        What to ask about, this reader's own first [-]
    code : str
        Empty, or why there is no value [-]
    """

    value: float | None = None
    readings: tuple[Reading, ...] = ()
    code: Code = ""


def parse_number(text: str, reader: Reader, *, measure: bool = True) -> Parsed:
    """Read a number as it was typed, or say what must be asked.

    Source: the table at the head of this module.

    Parameters
    ----------
    text : str
        What was typed [-]
    reader : Reader
        Whose conventions count as their own [-]
    measure : bool
        Whether it is a measure, where three digits after one separator must be asked about [-]

    Returns
    -------
    Parsed
        A value; or at least one reading and ``number_ambiguous``; or ``number_empty`` or
        ``number_unreadable`` [-]

    Examples
    --------
    >>> parse_number("1 234,5", Reader("fr")).value
    1234.5
    >>> [r.value for r in parse_number("30.00", Reader("de")).readings]
    [30.0, 3000.0]
    >>> parse_number("1e5", Reader("en")).code
    'number_unreadable'
    """
    body = normal(text)
    if not body:
        return Parsed(code="number_empty")
    sign = 1.0
    if body[0] in "+-":
        sign = -1.0 if body[0] == "-" else 1.0
        body = body[1:].lstrip(" ")
    if len(body) > LONGEST or not _BODY.fullmatch(body):
        return Parsed(code="number_unreadable")
    style = number_style(reader)
    found = _readings(body, style)
    if not found:
        return Parsed(code="number_unreadable")
    own = {value for value, is_own in found if is_own}
    every = {value for value, _ in found}
    if len(own) == 1 and (len(every) == 1 or not measure):
        return Parsed(value=_signed(own.pop(), sign))
    ordered = [value for value, is_own in found if is_own] + [value for value, _ in found]
    readings = tuple(
        Reading(plain(_signed(value, sign), style, 17), _signed(value, sign)) for value in dict.fromkeys(ordered)
    )
    return Parsed(readings=readings, code="number_ambiguous")


def _signed(value: float, sign: float) -> float:
    return sign * value if value else 0.0


def normal(text: str) -> str:
    """Write digits of every script as ASCII, spaces as one, and the signs that look alike as one.

    Source: the Unicode Character Database (decimal digits).

    Parameters
    ----------
    text : str
        What was typed [-]

    Returns
    -------
    str
        The same, plainer; ``?`` where it is far too long to be a number [-]

    Examples
    --------
    >>> normal("\u0661\u0662\u00a0\u2212 5")
    '12 - 5'
    """
    text = text.strip()
    if len(text) > 4 * LONGEST:
        return "?"
    made = []
    for mark in text:
        if mark in _UNSEEN:
            continue
        digit = unicodedata.decimal(mark, None)
        if digit is not None:
            made.append(str(digit))
        elif mark.isspace():
            made.append(" ")
        else:
            made.append(_SAME.get(mark, mark))
    return "".join(made).strip(" ")


def _readings(body: str, style: NumberStyle) -> list[tuple[float, bool]]:
    """List each value that some convention reads, and whether it is this reader's own."""
    runs = re.split(r"[.,' ٫٬]", body)
    seps = re.findall(r"[.,' ٫٬]", body)
    if not seps:
        return [(float(body), True)]
    found: list[tuple[float, bool]] = []
    mark = seps[-1]
    own_groups = {group for _, group in style.own} | _UNIVERSAL_GROUPS
    # As a decimal: the last separator once, all before it the same other sign.
    if mark in _DECIMALS and seps.count(mark) == 1 and len(set(seps[:-1])) <= 1:
        group = seps[0] if len(seps) > 1 else None
        size = _grouping(runs[:-1]) if group else "west"
        if size:
            found.append(
                (
                    float(f"{''.join(runs[:-1]) or '0'}.{runs[-1]}"),
                    _own_decimal(runs[0], mark, group, style) and (size == "west" or style.indian),
                )
            )
    # As groups: one sign throughout.
    if len(set(seps)) == 1 and mark != "٫":
        size = _grouping(runs)
        if size:
            found.append((float("".join(runs)), mark in own_groups and (size == "west" or style.indian)))
        elif len(seps) == 1 and found and not found[0][1] and mark in own_groups:
            found.append((float("".join(runs)), False))
    return found


def _own_decimal(whole: str, mark: str, group: str | None, style: NumberStyle) -> bool:
    if group is None and not whole.strip("0"):
        return True
    if mark == "٫" and (group is None or group in _UNIVERSAL_GROUPS):
        return True
    return any(
        decimal == mark and (group is None or group == theirs or group in _UNIVERSAL_GROUPS)
        for decimal, theirs in style.own
    )


def _grouping(runs: list[str]) -> Literal["", "west", "indian"]:
    """Tell how the digits are grouped, or ``""`` where that is no grouping."""
    first, rest = runs[0], runs[1:]
    if not 1 <= len(first) <= 3 or first[0] == "0":
        return ""
    if all(len(run) == 3 for run in rest):
        return "west"
    if len(first) <= 2 and len(rest[-1]) == 3 and all(len(run) == 2 for run in rest[:-1]):
        return "indian"
    return ""
