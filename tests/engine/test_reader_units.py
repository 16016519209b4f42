"""Units, money, dates and lists; the oracles are NIST's tables, pint's own registry, and Babel."""

from datetime import date

import pint
import pytest
from babel import Locale
from babel.dates import format_date
from babel.numbers import format_currency, list_currencies
from babel.units import format_unit

from foamwright.reader import (
    KINDS,
    UNITS,
    Reader,
    currencies,
    currencies_in_use,
    currency_known,
    currency_of,
    languages,
    parse_quantity,
    speaker,
    warm,
)
from foamwright.reader.units import UNITS as EVERY_UNIT
from foamwright.reader.units import registry, to_base


@pytest.mark.parametrize(
    ("unit", "base", "factor", "digits"),
    [
        # NIST Special Publication 811 (2008), appendix B.8; exact ones in full, the rest as printed there.
        ("ft", "m", 0.3048, 7),
        ("in", "m", 0.0254, 7),
        ("ft2", "m2", 9.290304e-2, 7),
        ("yd3", "m3", 7.645549e-1, 7),
        ("us_gal", "L", 3.785412, 7),
        ("us_qt", "L", 9.463529e-1, 7),
        ("us_fl_oz", "L", 2.957353e-2, 7),
        ("imp_gal", "L", 4.54609, 7),
        ("imp_fl_oz", "L", 2.841306e-2, 7),
        ("lb", "kg", 4.535924e-1, 7),
        ("oz", "g", 28.34952, 7),
        ("lb_ft3", "kg_m3", 16.01846, 7),
        ("psi", "kPa", 6.894757, 7),
        ("lb_in", "N_mm", 0.1751268, 7),
        # One gram to the litre is one kilogram to the cubic metre: arithmetic.
        ("g_L", "kg_m3", 1.0, 15),
        ("cm", "m", 0.01, 15),
        ("percent", "none", 0.01, 15),
    ],
)
def test_factors(unit: str, base: str, factor: float, digits: int) -> None:
    made, offset = to_base(unit, base)
    assert offset == 0 and float(f"{made:.{digits}g}") == factor


def test_temperature() -> None:
    """Source: NIST Special Publication 811 (2008), appendix B.8: t/C = (t/F - 32)/1.8."""
    us = speaker(Reader("en", units="us"))
    for celsius, fahrenheit in ((0, 32), (100, 212), (-40, -40), (5, 41)):
        assert us.from_si(celsius, "temperature") == pytest.approx(fahrenheit, abs=1e-9)
        assert us.to_si(fahrenheit, "temperature") == pytest.approx(celsius, abs=1e-9)


def test_the_own_registry_agrees_with_pint() -> None:
    """Oracle: pint's default registry, unit by unit."""
    theirs: pint.UnitRegistry[float] = pint.UnitRegistry()
    same = {
        "us_gallon": "gallon",
        "us_quart": "quart",
        "foot ** 2 / us_gallon": "foot ** 2 / gallon",
        "us_fluid_ounce": "fluid_ounce",
        "celsius": "degC",
        "fahrenheit": "degF",
    }
    for kind in KINDS.values():
        for key in (kind.metric, kind.us, kind.imperial):
            unit, base = EVERY_UNIT[key].pint, EVERY_UNIT[kind.base].pint
            if "count" in (unit, base):
                continue
            mine = registry().convert(7.0, unit, base)
            assert mine == pytest.approx(theirs.convert(7.0, same.get(unit, unit), same.get(base, base)), rel=1e-12), key


@pytest.mark.parametrize("units", UNITS)
def test_there_and_back(units: str) -> None:
    s = speaker(Reader("en", units=units))  # type: ignore[arg-type]
    for kind in KINDS:
        for value in (0.0, 0.305, 6.0, 84.5, 1234.5):
            assert s.from_si(s.to_si(value, kind), kind) == pytest.approx(value, rel=1e-15, abs=1e-12)


def test_a_sack_stays_94_pounds() -> None:
    """94 lb x 0.45359237 kg/lb, exact by definition of the pound."""
    s = speaker(Reader("en", units="us"))
    assert s.to_si(94.0, "mass") == 42.63768278
    assert s.plain(42.63768278, "mass") == "94"
    assert s.plain(158.987294928, "liquid") == "42"


def test_figures_of_the_bucket() -> None:
    """A US quart at 90 and 100 g/L: 85.2 g and 94.6 g (common practice, no source; arithmetic)."""
    quart = 3.785411784 / 4
    s = speaker(Reader("en"))
    assert s.span(90 * quart, 100 * quart, "mass_small") == "85.2–94.6\u00a0g"
    # 85.2 g / 28.34952 g = 3.005 (NIST SP 811).
    assert speaker(Reader("en", units="us")).quantity(90 * quart, "mass_small") == "85.2\u00a0g (3.00\u00a0oz)"


@pytest.mark.parametrize("language", ["en", "es", "es-MX", "ar", "ar-EG", "de", "fr"])
def test_unit_symbols_are_those_of_cldr(language: str) -> None:
    """Oracle: Babel's format_unit, with spaces that may not break."""
    locale = Locale.parse(language, sep="-")
    s = speaker(Reader(language, digits="latin"))
    for kind, unit in (("area", "area-square-meter"), ("volume", "volume-cubic-meter"), ("mass", "mass-kilogram")):
        for value in (0.0, 1.0, 2.0, 3.5, 11.0, 1234.5):
            # Four digits stand ungrouped in Spain (Unicode CLDR), which Babel does not know.
            expected = format_unit(value, unit, "short", "0.00" if language == "es" else "#,##0.00", locale)
            assert s.quantity(value, kind, decimals=2).strip("\u2068\u2069") == expected.replace(" ", "\u00a0")


def test_a_figure_always_shows_its_number() -> None:
    """Arabic has words for one and two days that hold no number; a table needs the number."""
    for language in languages():
        for units in UNITS:
            s = speaker(Reader(language.tag, units=units, digits="latin"))
            for kind in KINDS:
                for value in (0, 1, 2, 3, 11, 100, 1000000):
                    text = s.quantity(s.to_si(float(value), kind), kind, decimals=0)
                    assert str(value) in text.replace(",", "").replace(".", ""), (language.tag, kind, text)


def test_days_change_with_the_number() -> None:
    s = speaker(Reader("ar"))
    assert {s.quantity(float(n), "days")[-4:] for n in (3, 11)} == {"يام\u2069", "ومًا\u2069"} or (
        s.quantity(3.0, "days") != s.quantity(11.0, "days").replace("11", "3")
    )
    assert speaker(Reader("en")).quantity(1.0, "days") == "1\u00a0day"
    assert speaker(Reader("en")).quantity(2.0, "days") == "2\u00a0days"


def test_gallons_always_say_whose() -> None:
    for language in languages():
        us = speaker(Reader(language.tag, units="us"))
        imperial = speaker(Reader(language.tag, units="imperial"))
        for kind in ("liquid", "liquid_bucket", "liquid_small"):
            assert us.unit_symbol(kind) != imperial.unit_symbol(kind)


def test_parts() -> None:
    parts = speaker(Reader("en", units="us")).quantity_parts(1.0, "volume")
    assert parts == ("1.31", "yd³", "cubic yards")
    assert speaker(Reader("en")).unit_symbol("length_small") == "cm"
    assert speaker(Reader("en")).unit_name("foam_density") == "grams per liter"


@pytest.mark.parametrize(
    ("text", "kind", "units", "expected"),
    [
        # Twelve inches to the foot: arithmetic.
        ("5' 6\"", "length", "us", 5.5),
        ("5'6", "length", "us", 5.5),
        ("5 ft 6 in", "length", "imperial", 5.5),
        ("5ft 6 1/2in", "length", "us", 5.541666667),
        ("5’ 6”", "length", "us", 5.5),
        ("19 ft", "length", "us", 19.0),
        ("66 in", "length", "us", 5.5),
        ("6 1/2", "length_small", "us", 6.5),
        ("6-1/2\"", "length_small", "us", 6.5),
        ("1/2", "length_small", "us", 0.5),
        ("1 ft", "length_small", "us", 12.0),
        ("5' 6.25\"", "length", "us", 5.520833333),
        ("12.5", "length", "us", 12.5),
        ("20 cm", "length_small", "metric", 20.0),
        ("20cm", "length_small", "metric", 20.0),
        ("5 %", "fraction", "metric", 5.0),
        ("50 kg", "mass", "metric", 50.0),
        ("94 lb", "mass", "us", 94.0),
    ],
)
def test_typed_quantities(text: str, kind: str, units: str, expected: float) -> None:
    s = speaker(Reader("en", units=units))  # type: ignore[arg-type]
    assert parse_quantity(text, kind, s).value == expected


@pytest.mark.parametrize(
    ("text", "kind", "units"),
    [
        ("5' 14\"", "length", "us"),
        ("5.5' 6\"", "length", "us"),
        ("5' 6\"", "length", "metric"),
        ("6 1/3", "length_small", "us"),
        ("6 3/2", "length_small", "us"),
        ("6 1/2", "mass", "us"),
        ("20 mm", "length_small", "metric"),
        ("20 in", "length_small", "metric"),
        ("50 lb", "mass", "metric"),
        ("m", "length", "metric"),
        ("cm", "length_small", "metric"),
    ],
)
def test_typed_quantities_that_are_refused(text: str, kind: str, units: str) -> None:
    s = speaker(Reader("en", units=units))  # type: ignore[arg-type]
    parsed = parse_quantity(text, kind, s)
    assert parsed.value is None and parsed.code == "number_unreadable"


def test_three_digits_are_asked_about_in_quantities_too() -> None:
    s = speaker(Reader("en", units="us"))
    assert parse_quantity("1,500 lb", "mass", s).code == "number_ambiguous"
    assert parse_quantity("1,500 ft", "length", s).code in ("number_ambiguous", "number_unreadable")


# Money


@pytest.mark.parametrize("language", ["en", "en-IN", "es", "es-MX", "ar", "de", "de-CH", "fr", "hi"])
def test_money_agrees_with_babel(language: str) -> None:
    """Oracle: Babel's format_currency; where a code of letters stands for a symbol, CLDR adds a space."""
    locale = Locale.parse(language, sep="-")
    for code in ("USD", "EUR", "MXN", "JPY", "KWD", "INR", "EGP"):
        for value in (0.0, 5.0, -234.56, 123456789.0):
            expected = format_currency(value, code, locale=locale)
            mine = speaker(Reader(language, digits="latin")).money(value, code).strip("\u2068\u2069")
            # Babel leaves the hyphen of the pattern, where CLDR's minus sign of Arabic has a mark before it.
            mine = mine.replace("\u200e-", "-")
            assert mine.replace("\u00a0", "") == expected.replace("\u00a0", ""), (language, code)


def test_letters_do_not_touch_digits() -> None:
    """Source: Unicode CLDR, currencySpacing."""
    assert speaker(Reader("en")).money(5.0, "MXN", iso=True) == "MXN\u00a05.00"
    assert speaker(Reader("en")).money(5.0, "MXN") == "MX$5.00"


def test_every_currency_in_every_language() -> None:
    for language in languages():
        s = speaker(Reader(language.tag, digits="latin"))
        for code in list_currencies():
            assert "1" in s.money(1.0, code)
        names = [one.name for one in currencies(Reader(language.tag))]
        assert len(names) == len(set(names)) == len(currencies_in_use())


def test_decimals_of_currencies() -> None:
    """Source: ISO 4217: none for the yen, three for the Kuwaiti dinar."""
    s = speaker(Reader("en"))
    assert s.money(1234.5678, "JPY") == "¥1,235"
    assert s.money(1234.5678, "KWD") == "KWD\u00a01,234.568"
    assert s.money(1234.5678, "USD", decimals=0) == "$1,235"


def test_unknown_currencies() -> None:
    assert not currency_known("") and not currency_known("$") and not currency_known("ZZZ")
    assert "QQQ" in speaker(Reader("en")).money(1.0, "QQQ")
    assert currency_of("EG") == "EGP" and currency_of("US") == "USD"


def test_money_for_each_unit() -> None:
    """10 a square metre is 10 x 0.09290304 a square foot (NIST SP 811)."""
    assert speaker(Reader("en")).money_per(10.0, "EUR", "area") == "€10.00 per m²"
    assert speaker(Reader("en", units="us")).money_per(10.0, "EUR", "area") == "€0.93 per sq ft"


def test_dates_agree_with_babel() -> None:
    day = date(2026, 3, 15)
    for language in ("en", "es", "ar", "de"):
        expected = format_date(day, "long", locale=Locale.parse(language))
        assert speaker(Reader(language, digits="latin")).date(day, "long").strip("\u2068\u2069") == expected
    assert "١٥" in speaker(Reader("ar-EG")).date(day, "long")


def test_lists() -> None:
    assert speaker(Reader("en")).list_join(["a", "b", "c"]) == "a, b, and c"
    assert speaker(Reader("es")).list_join(["a", "b"], "or") == "a o b"
    assert speaker(Reader("en")).list_join([]) == ""


def test_warm_writes_every_figure() -> None:
    assert warm() == len(languages()) * len(UNITS) * len(KINDS) * 8
