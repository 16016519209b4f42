"""Quantities as people type them into a field: a number, and what a tape measure in feet makes of it.

A plain number is read by :func:`foamwright.reader.parsing.parse_number`. Beyond that a field takes the
symbol of its own unit after the number, and a length in feet and inches takes ``5' 6"``, ``5 ft 6 in``,
``6 1/2`` and ``6-1/2"``. Any other unit is refused: a number in the wrong unit is a wrong wall.
"""

import re
from fractions import Fraction
from typing import Final

from foamwright.reader.parsing import LONGEST, Parsed, normal, parse_number
from foamwright.reader.speaker import Speaker
from foamwright.reader.units import KINDS, to_base

_NUMBER: Final = r"(?:\d+[ -]\d+/\d+|\d+/\d+|\d+(?:[.,٫]\d+)?)"
_FEET: Final = r"(?:'(?!')|′|ft\b\.?|feet\b|foot\b)"
_INCHES: Final = r"(?:\"|″|”|''|in\b\.?|inch(?:es)?\b)"
_TAPE: Final = re.compile(
    rf"(?:(?P<feet>{_NUMBER}) ?{_FEET}(?: ?-? ?(?P<rest>{_NUMBER}) ?{_INCHES}?)?|(?P<inches>{_NUMBER}) ?{_INCHES})",
    re.ASCII | re.IGNORECASE,
)
_FRACTION: Final = re.compile(r"(?:(\d{1,4})[ -])?(\d{1,3})/(\d{1,3})", re.ASCII)
#: What tapes are divided into.
_PARTS_OF_INCH: Final = frozenset({2, 4, 8, 16, 32, 64})


def parse_quantity(text: str, kind: str, s: Speaker, *, measure: bool = True) -> Parsed:
    """Read a quantity as it was typed into a field.

    Source: common practice, no source, for feet and inches; else see :mod:`foamwright.reader.parsing`.

    Parameters
    ----------
    text : str
        What was typed [-]
    kind : str
        Kind of the field, one of ``KINDS`` [-]
    s : Speaker
        Whose units and conventions count [-]
    measure : bool
        Whether three digits after one separator must be asked about [-]

    Returns
    -------
    Parsed
        As from ``parse_number``; values in the reader's own unit [as shown beside the field]

    Examples
    --------
    >>> from foamwright.reader import Reader, speaker
    >>> us = speaker(Reader("en", units="us"))
    >>> parse_quantity("5' 6\\"", "length", us).value, parse_quantity("6 1/2", "length_small", us).value
    (5.5, 6.5)
    >>> parse_quantity("20 cm", "length_small", speaker(Reader("en"))).value
    20.0
    """
    body = normal(text)
    unit = KINDS[kind].unit(s.reader.units)
    if len(body) <= LONGEST and unit.key in ("ft", "in"):
        inches = _inches(body, unit.key, s)
        if inches is not None:
            factor = to_base("in", "m")[0] / to_base(unit.key, "m")[0]
            return Parsed(value=round(inches * factor, 9))
    for symbol in (s.unit_symbol(kind), unit.key):
        wanted = normal(symbol).casefold()
        if wanted and body.casefold().endswith(wanted) and body[-len(wanted) - 1 : -len(wanted)].strip().isdigit():
            body = body[: -len(wanted)].rstrip()
            break
        if wanted and body.casefold().endswith(f" {wanted}"):
            body = body[: -len(wanted) - 1].rstrip()
            break
    return parse_number(body, s.reader, measure=measure)


def _inches(body: str, unit: str, s: Speaker) -> float | None:
    """Read a length off a tape measure [in]; None where it is not written like one."""
    bare = _FRACTION.fullmatch(body)
    if bare is not None:
        value = _part(body, s)
        return None if value is None else value * (12 if unit == "ft" else 1)
    found = _TAPE.fullmatch(body)
    if found is None:
        return None
    if found["inches"]:
        return _part(found["inches"], s)
    feet = _part(found["feet"], s)
    rest = _part(found["rest"], s) if found["rest"] else 0.0
    # 5' 14" is no length, and 5.5' 6" says the same thing twice.
    if feet is None or rest is None or rest >= 12 or (found["rest"] and feet != int(feet)):
        return None
    return feet * 12 + rest


def _part(text: str, s: Speaker) -> float | None:
    found = _FRACTION.fullmatch(text)
    if found is None:
        return parse_number(text, s.reader).value
    top, bottom = int(found[2]), int(found[3])
    if bottom not in _PARTS_OF_INCH or top >= bottom:
        return None
    return int(found[1] or 0) + float(Fraction(top, bottom))
