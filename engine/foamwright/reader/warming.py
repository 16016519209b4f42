"""Everything this room may need, loaded once, so that a memory snapshot holds it."""

from datetime import date
from typing import Final

from foamwright.reader.catalogs import languages, load
from foamwright.reader.entry import parse_quantity
from foamwright.reader.money import currencies
from foamwright.reader.parsing import parse_number
from foamwright.reader.preferences import UNITS, Reader
from foamwright.reader.speaker import speaker
from foamwright.reader.units import KINDS, UNITS as EVERY_UNIT, to_base

#: One number for every plural category of every language.
_SAMPLES: Final = (0.0, 1.0, 2.0, 3.0, 11.0, 100.0, 1.5, 1_000_000.0)


def warm() -> int:
    """Load languages, locale data, plural rules, units, currencies and the unit registry.

    Source: arithmetic.

    Returns
    -------
    int
        How many figures were written on the way [-]

    Examples
    --------
    >>> warm() > 0
    True
    """
    written = 0
    for unit in EVERY_UNIT:
        for kind in KINDS.values():
            if unit in (kind.metric, kind.us, kind.imperial, kind.also):
                to_base(unit, kind.base)
    for language in languages():
        load(language.tag)
        for units in UNITS:
            reader = Reader(language.tag, units)
            s = speaker(reader)
            for kind_key in KINDS:
                for value in _SAMPLES:
                    s.quantity(value, kind_key)
                    written += 1
                s.quantity_parts(1.0, kind_key)
            s.money(1234.5, "USD")
            s.date(date(2000, 1, 2))
            s.list_join(["1", "2", "3"])
            s.span(1.0, 2.0, "mass_small")
            parse_quantity("1", "length", s)
        currencies(Reader(language.tag))
        speaker(Reader(language.tag)).country("MX")
        for style in ("point", "comma", "space", "quote"):
            parse_number("1", Reader(language.tag, numbers=style))
    return written
