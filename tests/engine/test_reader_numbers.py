"""Numbers as people type them and as they are written; the oracle for writing is Babel, the CLDR library."""

import json
import unicodedata
from decimal import ROUND_HALF_UP, Decimal
from pathlib import Path
from typing import Any

import pytest
from babel import Locale, localedata
from babel.numbers import format_decimal, format_percent
from hypothesis import given
from hypothesis import strategies as st

from foamwright.reader import DIGITS, NUMBERS, Reader, default_reader, parse_number, read_reader, speaker
from foamwright.reader.numerals import ZEROS, number_style, rounded

TABLE = json.loads((Path(__file__).parents[1] / "data" / "numbers.json").read_text(encoding="utf-8"))["rows"]
LANGUAGES = ("en", "en-IN", "es", "es-MX", "ar", "ar-EG", "ar-MA", "de", "de-CH", "fr", "sv", "hi", "fa", "pl", "pt")

#: Babel writes the hyphen and the percent sign of its patterns where CLDR has other signs or marks.
SIGNS = str.maketrans({"\u200e": "", "\u061c": "", "\u2068": "", "\u2069": "", "\u2212": "-", "٪": "%"})

readers = st.builds(
    Reader,
    language=st.sampled_from(LANGUAGES),
    digits=st.sampled_from(DIGITS),
    numbers=st.sampled_from(NUMBERS),
)


def outcome(row: dict[str, Any]) -> Any:
    reader = Reader(row["language"], digits=row.get("digits", "auto"), numbers=row.get("numbers", "auto"))
    parsed = parse_number(row["text"], reader, measure=row.get("measure", True))
    if parsed.value is not None:
        assert not parsed.readings and not parsed.code
        return parsed.value
    if parsed.readings:
        assert parsed.code == "number_ambiguous"
        return [reading.value for reading in parsed.readings]
    return parsed.code


@pytest.mark.parametrize("row", TABLE, ids=lambda row: f"{row['language']}-{row['text'][:12]!a}")
def test_typed_numbers(row: dict[str, Any]) -> None:
    assert outcome(row) == row.get("value", row.get("readings", row.get("code")))


def test_the_table_is_wide() -> None:
    assert len(TABLE) >= 80
    assert {"de", "fr", "es", "es-MX", "ar", "ar-EG", "hi", "fa", "en", "en-IN", "sv", "de-CH"} <= {
        row["language"] for row in TABLE
    }
    assert {"value", "readings", "code"} <= {key for row in TABLE for key in row}


@given(st.text(max_size=60), readers, st.booleans())
def test_any_text_has_an_answer(text: str, reader: Reader, measure: bool) -> None:
    parsed = parse_number(text, reader, measure=measure)
    answers = (parsed.value is not None, bool(parsed.readings), parsed.code in ("number_empty", "number_unreadable"))
    assert sum(answers) == 1


@given(st.text(alphabet="0123456789.,' \u00a0\u2019٫٬-+٣", max_size=24), readers)
def test_texts_of_digits_and_signs_have_an_answer(text: str, reader: Reader) -> None:
    parsed = parse_number(text, reader)
    for reading in parsed.readings:
        # Choosing a reading puts its text into the field: it must then be taken as that value.
        assert parse_number(reading.text, reader).value == reading.value


@pytest.mark.parametrize("text", ["9" * 1_000_000, "1," * 500_000, "5" + " " * 1_000_000 + "5", "x" * 1_000_000])
def test_a_huge_text_is_answered(text: str) -> None:
    assert parse_number(text, Reader()).code == "number_unreadable"
    assert parse_number(" " * 1_000_000, Reader()).code == "number_empty"


values = st.one_of(
    st.integers(-(10**9), 10**9).map(float),
    st.integers(-(10**10), 10**10).map(lambda n: n / 1000),
    st.floats(-1e9, 1e9).filter(lambda x: abs(x) > 1e-8).map(lambda x: float(f"{x:.9g}")),
)


@given(values, readers)
def test_what_a_field_shows_reads_back_as_itself(value: float, reader: Reader) -> None:
    text = speaker(reader).plain(value)
    parsed = parse_number(text, reader)
    assert parsed.value == value, (text, parsed)


@given(values, readers)
def test_what_a_sheet_shows_reads_back_or_is_asked_about(value: float, reader: Reader) -> None:
    text = speaker(reader).number(value, decimals=2)
    shown = float(rounded(value, 2, None))
    parsed = parse_number(text, reader)
    assert parsed.value == shown or shown in [reading.value for reading in parsed.readings], (text, parsed)


@given(st.integers(-(10**10), 10**10), st.integers(0, 4), st.sampled_from(LANGUAGES))
def test_writing_agrees_with_babel(thousandths: int, decimals: int, language: str) -> None:
    """Oracle: Babel's format_decimal, handed the number that is already rounded."""
    value = Decimal(thousandths).scaleb(-3)
    exact = value.quantize(Decimal(1).scaleb(-decimals), ROUND_HALF_UP)
    locale = Locale.parse(language, sep="-")
    grouping = "#,##,##0" if locale.decimal_formats[None].grouping == (3, 2) else "#,##0"
    pattern = grouping + ("." + "0" * decimals if decimals else "")
    system = locale.default_numbering_system
    expected = format_decimal(exact + 0, pattern, locale, numbering_system="default")
    if system != "latn":
        expected = expected.translate({ord("0") + i: chr(ord(ZEROS[system]) + i) for i in range(10)})
    if not exact:
        expected = expected.lstrip("-")
    if language in ("es", "pl") and 1000 <= abs(exact) < 10000:
        # Babel does not know that four digits stand ungrouped there; the next test holds that.
        expected = expected.replace(locale.number_symbols["latn"]["group"], "")
    mine = speaker(Reader(language)).number(value, decimals=decimals)
    assert mine.translate(SIGNS) == expected.translate(SIGNS)


@pytest.mark.parametrize(
    ("language", "four", "five"),
    [
        # Unicode CLDR 48, minimumGroupingDigits: 2 in Spain, Poland and Portugal, 1 in Latin America.
        ("es", "1234,5", "12.345,5"),
        ("es-ES", "1234,5", "12.345,5"),
        ("es-MX", "1,234.5", "12,345.5"),
        ("es-AR", "1.234,5", "12.345,5"),
        ("pl", "1234,5", "12\u00a0345,5"),
        ("pt-PT", "1234,5", "12\u00a0345,5"),
        ("pt", "1.234,5", "12.345,5"),
        ("it-CH", "1234.5", "12’345.5"),
        ("en", "1,234.5", "12,345.5"),
    ],
)
def test_four_digits(language: str, four: str, five: str) -> None:
    s = speaker(Reader(language))
    assert (s.number(1234.5, decimals=1), s.number(-12345.5, decimals=1).lstrip("-\u2212")) == (four, five)
    assert s.number(-1234.5, decimals=1).lstrip("-\u2212") == four


def test_percent_agrees_with_babel() -> None:
    for language in LANGUAGES:
        for value in (0.05, 0.5, 3.34):
            locale = Locale.parse(language, sep="-")
            expected = format_percent(value, locale=locale, numbering_system="default")
            zero = ord(ZEROS.get(locale.default_numbering_system, "0"))
            expected = expected.translate({ord("0") + i: chr(zero + i) for i in range(10)})
            assert speaker(Reader(language)).percent(value).translate(SIGNS) == expected.translate(SIGNS), language


@pytest.mark.parametrize(
    ("language", "minus", "percent"),
    [
        # Unicode CLDR as packed in Babel 2.18, symbols of ar (arab and latn), fa, sv.
        ("ar-EG", "\u061c-", "٪\u061c"),
        ("ar", "\u200e-", "\u200e%\u200e"),
        ("fa", "\u200e\u2212", "٪"),
        ("sv", "\u2212", "\u00a0%"),
    ],
)
def test_signs_are_those_of_cldr(language: str, minus: str, percent: str) -> None:
    s = speaker(Reader(language))
    assert s.number(-5, decimals=0).strip("\u2068\u2069").startswith(minus)
    assert s.percent(0.5).strip("\u2068\u2069").endswith(percent)


def test_every_numbering_system_of_cldr_has_its_digits() -> None:
    """Source: Unicode CLDR for the systems, the Unicode Character Database for the digits."""
    named = set()
    for name in localedata.locale_identifiers():
        locale = Locale.parse(name)
        named |= {locale.default_numbering_system, locale.other_numbering_systems.get("native", "latn")}
    # Han decimals are no run of digits in Unicode; readers of Chinese and Japanese write Latin ones.
    assert named - {"latn", "hanidec"} <= set(ZEROS)
    for zero in ZEROS.values():
        assert [unicodedata.decimal(chr(ord(zero) + i)) for i in range(10)] == list(range(10))


@pytest.mark.parametrize(
    ("language", "digits", "expected"),
    [
        # Unicode CLDR, default numbering systems: arab in Egypt, latn in Arabic at large and in Hindi.
        ("ar-EG", "auto", "٥"),
        ("ar-EG", "latin", "5"),
        ("ar", "auto", "5"),
        ("ar", "native", "٥"),
        ("fa", "auto", "۵"),
        ("hi", "auto", "5"),
        ("hi", "native", "५"),
        ("en", "native", "5"),
    ],
)
def test_digits(language: str, digits: Any, expected: str) -> None:
    assert speaker(Reader(language, digits=digits)).whole(5) == expected


def test_number_style_is_chosen_apart_from_the_language() -> None:
    assert speaker(Reader("es")).number(1234567.5, decimals=1) == "1.234.567,5"
    assert speaker(Reader("es", numbers="point")).number(1234567.5, decimals=1) == "1,234,567.5"
    assert speaker(Reader("es", numbers="comma")).number(1234.5, decimals=1) == "1.234,5"
    assert speaker(Reader("en", numbers="space")).number(1234567.5, decimals=1) == "1\u202f234\u202f567,5"
    assert speaker(Reader("en", numbers="quote")).number(1234567.5, decimals=1) == "1\u2019234\u2019567.5"
    assert speaker(Reader("en", numbers="comma")).number(1234567.5, decimals=1) == "1.234.567,5"


@pytest.mark.parametrize(
    ("value", "decimals", "significant", "expected"),
    [
        # Half away from zero on the decimal writing, worked by hand; binary rounding would give 2.67 and 0.12.
        (2.675, 2, None, "2.68"),
        (0.125, 2, None, "0.13"),
        (-0.125, 2, None, "-0.13"),
        (-0.001, 2, None, "0.00"),
        (0.0, None, 3, "0.00"),
        (9.996, None, 3, "10.0"),
        (99.96, None, 3, "100"),
        (0.00099996, None, 3, "0.00100"),
        (1234.5, None, 3, "1,235"),
        (14.0283, None, 4, "14.03"),
        (1e22, 0, None, "10,000,000,000,000,000,000,000"),
    ],
)
def test_rounding(value: float, decimals: int | None, significant: int | None, expected: str) -> None:
    assert speaker(Reader()).number(value, decimals=decimals, significant=significant) == expected


@pytest.mark.parametrize("value", [float("nan"), float("inf"), float("-inf")])
def test_a_figure_that_is_no_number_is_refused(value: float) -> None:
    with pytest.raises(ValueError, match="finite"):
        speaker(Reader()).number(value, decimals=1)


def test_plain_avoids_what_would_be_asked_about() -> None:
    en, de = speaker(Reader("en")), speaker(Reader("de"))
    assert (en.plain(1500), en.plain(1.5), en.plain(1.234), en.plain(-12.345)) == ("1500", "1.5", "1.2340", "-12.3450")
    assert (de.plain(0.305), de.plain(1234.567), de.plain(0.1 + 0.2)) == ("0,305", "1234,567", "0,3")
    assert speaker(Reader("ar-EG")).plain(12.5) == "١٢٫٥"


# The Reader itself

json_like = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=12),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=8), inner, max_size=3),
    max_leaves=6,
)
parts = st.fixed_dictionaries(
    {}, optional={name: json_like for name in ("language", "units", "digits", "numbers", "more")}
)


@given(json_like | parts)
def test_a_reader_comes_of_anything(data: object) -> None:
    reader, _ = read_reader(data)
    assert reader == Reader.from_json(data)
    assert read_reader(reader.to_json()) == (reader, ())
    assert speaker(reader).quantity(1.0, "length")


@given(st.text(max_size=20))
def test_a_reader_comes_of_any_language(tag: str) -> None:
    assert speaker(Reader.from_json({"language": tag})).whole(1)
    assert default_reader([tag]).language


def test_what_was_not_taken_is_said() -> None:
    reader, problems = read_reader({"language": "tlh", "units": "feet", "digits": 3, "numbers": "comma"})
    assert reader == Reader(numbers="comma")
    assert [(p.path, p.code) for p in problems] == [
        ("reader.language", "not_a_choice"),
        ("reader.units", "not_a_choice"),
        ("reader.digits", "not_a_choice"),
    ]


@pytest.mark.parametrize(
    ("languages", "expected"),
    [
        ([], Reader("en")),
        (["en-US", "en"], Reader("en-US", units="us")),
        (["en-GB"], Reader("en-GB")),
        (["es-MX", "en-US"], Reader("es-MX")),
        (["ar-EG-u-nu-latn"], Reader("ar-EG")),
        (["fr-CA", "en-US"], Reader("en-US")),
        (["es-PR"], Reader("es-PR", units="us")),
        (["xx-YY", "*", ""], Reader("en")),
    ],
)
def test_the_first_choice_for_someone_new(languages: list[str], expected: Reader) -> None:
    """Source: Unicode CLDR, supplemental measurementData, for the regions of US units."""
    assert default_reader(languages) == expected


def test_own_conventions_cover_both_ways_to_write_arabic() -> None:
    assert number_style(Reader("ar-EG")).own == {(".", ","), ("٫", "٬")}
