"""Words: catalogs, plurals, cautions, direction of writing, a translator's own catalog, pseudo-languages."""

import io
import unicodedata
from pathlib import Path
from typing import Any

import polib
import pytest
from babel import Locale
from babel.messages.catalog import Catalog as BabelCatalog
from babel.messages.pofile import read_po, write_po
from hypothesis import example, given
from hypothesis import strategies as st

from foamwright.reader import NN_, NP_, N_, Reader, languages, load_catalog, speaker
from foamwright.reader import catalogs as room
from foamwright.reader import po

LOCALES = Path(__file__).parents[2] / "locales"

ARABIC = r'''
msgid ""
msgstr ""
"Language: ar\n"
"Plural-Forms: nplurals=6; plural=(n == 0 ? 0 : n == 1 ? 1 : n == 2 ? 2 : n % 100 >= 3 && n % 100 <= 10 ? 3 : "
"n % 100 >= 11 && n % 100 <= 99 ? 4 : 5);\n"

msgid "%(n)s bag"
msgid_plural "%(n)s bags"
msgstr[0] "لا أكياس"
msgstr[1] "كيس واحد"
msgstr[2] "كيسان"
msgstr[3] "%(n)s أكياس"
msgstr[4] "%(n)s كيسًا"
msgstr[5] "%(n)s كيس"

msgid "Name: %(name)s"
msgstr "الاسم: %(name)s"

#  confirmed: a builder who reads Arabic, 2026-01-31
msgctxt "caution"
msgid "Wear gloves."
msgstr "البس قفازات."

msgctxt "caution"
msgid "Keep dry."
msgstr "أبقه جافًا."
'''

SPANISH = r'''
msgid ""
msgstr ""
"Language: es\n"
"Plural-Forms: nplurals=3; plural=(n == 1 ? 0 : n != 0 && n % 1000000 == 0 ? 1 : 2);\n"

msgid "%(n)s bag"
msgid_plural "%(n)s bags"
msgstr[0] "%(n)s saco"
msgstr[1] "%(n)s de sacos"
msgstr[2] "%(n)s sacos"
'''


def with_catalog(text: str, **choices: Any) -> Any:
    result = load_catalog(text)
    assert result.catalog is not None and not result.errors, result.errors
    return speaker(Reader(result.catalog.tag, **choices), result.catalog)


@pytest.mark.parametrize(
    ("n", "expected"),
    [
        # Unicode CLDR, plural rules of Arabic: zero, one, two, few (3-10), many (11-99), other.
        (0, "لا أكياس"),
        (1, "كيس واحد"),
        (2, "كيسان"),
        (3, "3 أكياس"),
        (10, "10 أكياس"),
        (11, "11 كيسًا"),
        (99, "99 كيسًا"),
        (100, "100 كيس"),
        (103, "103 أكياس"),
        (1.5, "1.5 كيس"),
    ],
)
def test_plurals_of_arabic(n: float, expected: str) -> None:
    said = with_catalog(ARABIC).n_("%(n)s bag", "%(n)s bags", n)
    assert said.replace("\u2068", "").replace("\u2069", "") == expected


@pytest.mark.parametrize(
    ("n", "expected"),
    [
        (1, "1 saco"),
        (0, "0 sacos"),
        (2, "2 sacos"),
        (1.5, "1,5 sacos"),
        (1_000_000, "1.000.000 de sacos"),
        (1_000_001, "1.000.001 sacos"),
    ],
)
def test_plurals_of_spanish(n: float, expected: str) -> None:
    """Source: Unicode CLDR, plural rules of Spanish: one, many (millions), other."""
    assert with_catalog(SPANISH).n_("%(n)s bag", "%(n)s bags", n) == expected


def test_plurals_of_the_source() -> None:
    s = speaker(Reader("en"))
    assert [s.n_("%(n)s thing-not-in-it", "%(n)s things-not-in-it", n) for n in (0, 1, 2, 1.5, 0.5)] == [
        "0 things-not-in-it",
        "1 thing-not-in-it",
        "2 things-not-in-it",
        "1.5 things-not-in-it",
        "0.5 things-not-in-it",
    ]
    assert s.n_("a %(what)s", "some %(what)s", 2, what="bags") == "some bags"
    assert s.say(NN_("%(n)s x-y", "%(n)s x-ys"), count=3) == "3 x-ys"


@pytest.mark.parametrize("tag", [language.tag for language in languages()])
def test_plural_rules_are_those_of_cldr(tag: str) -> None:
    """Oracle: the CLDR rules in Babel, for every whole number to 1,200 and around the millions."""
    catalog = room.load(tag)
    assert catalog is not None
    forms = room.cldr_forms(tag)
    rule = Locale.parse(tag, sep="-").plural_form
    for n in (*range(1201), 999_999, 1_000_000, 1_000_001, 2_000_000, 10**9):
        assert forms[catalog.form(n)] == rule(n), n


def test_a_missing_text_is_said_in_the_source_language() -> None:
    for language in languages():
        assert speaker(Reader(language.tag))._("no such text") == "no such text"
        assert speaker(Reader(language.tag)).p_("ctx", "no such %(what)s", what="text").endswith(
            "text" if language.dir == "ltr" else "\u2069"
        )


def test_a_parameter_may_hold_anything() -> None:
    s = speaker(Reader("en"))
    assert s._("No such %(what)s", what="100 % <b>%(x)s {y}") == "No such 100 % <b>%(x)s {y}"
    assert s.say(N_("5 % waste")) == "5 % waste"


# Cautions


def test_a_caution_that_nobody_confirmed_shows_its_source() -> None:
    s = with_catalog(ARABIC)
    assert s.caution(NP_("caution", "Wear gloves.")) == ("البس قفازات.", None)
    assert s.caution(NP_("caution", "Keep dry.")) == ("أبقه جافًا.", "Keep dry.")
    assert s.caution(NP_("caution", "Not translated.")) == ("Not translated.", None)
    assert speaker(Reader("en")).caution(NP_("caution", "Wear gloves.")) == ("Wear gloves.", None)


@pytest.mark.parametrize("comment", ["confirmed", "confirmed: ", "confirmed: someone", "not confirmed: x, 2026-01-31 yet"])
def test_half_a_confirmation_is_none(comment: str) -> None:
    text = ARABIC.replace("confirmed: a builder who reads Arabic, 2026-01-31", comment)
    assert with_catalog(text).caution("Wear gloves.").source == "Wear gloves."


def test_cautions_confirmed_are_listed() -> None:
    catalog = load_catalog(ARABIC).catalog
    assert catalog is not None and catalog.confirmed == {"caution\x04Wear gloves."}


# Direction of writing


def test_figures_and_parameters_are_isolated() -> None:
    """Source: Unicode Standard Annex 9, isolates."""
    arabic, english = with_catalog(ARABIC), speaker(Reader("en"))
    assert (arabic.dir, english.dir) == ("rtl", "ltr")
    assert arabic.quantity(5.0, "mass", decimals=0) == "\u20685\u00a0كغم\u2069"
    assert arabic._("Name: %(name)s", name="North (2)") == "الاسم: \u2068North (2)\u2069"
    assert english._("Name: %(name)s", name="قبة (2)") == "Name: \u2068قبة (2)\u2069"
    assert english._("Name: %(name)s", name="North (2)") == "Name: North (2)"
    assert arabic._("Name: %(name)s", name=arabic.number(-5, decimals=0)).count("\u2068") == 1


def test_the_eye_reads_figures_in_order() -> None:
    """Oracle: python-bidi, an implementation of Unicode Standard Annex 9; what stands from left to right."""
    from bidi import get_display

    s = with_catalog(ARABIC)
    invisible = dict.fromkeys((0x2066, 0x2067, 0x2068, 0x2069, 0x200E, 0x200F, 0x061C))

    def seen(text: str) -> str:
        return get_display(f"قبل {text} بعد", base_dir="R").translate(invisible)

    assert "-5.00" in seen(s.number(-5, decimals=2))
    assert "85.2–94.6 g/L" in seen(s.span(85.2, 94.6, "foam_density", decimals=1).replace("غم/لتر", "g/L")).replace(
        "\u00a0", " "
    )
    # An Arabic symbol stands left of its number, as Arabic reads.
    assert seen(s.quantity(85.0, "mass", decimals=0)).index("85") > seen(s.quantity(85.0, "mass", decimals=0)).index("غ")
    quote = with_catalog(ARABIC, numbers="quote")
    assert "1\u2019234.5" in seen(quote.number(1234.5, decimals=1))
    # And without the isolates it would not: the check can fail.
    assert "1\u2019234.5" not in seen(quote.number(1234.5, decimals=1).strip("\u2068\u2069"))


@given(st.text(alphabet="aب5\u2066\u2067\u2068\u2069\u202e", max_size=9), st.sampled_from(["en", "ar"]))
@example("\u2069", "en")
@example("\u2068a\u2069\u2068b\u2069", "ar")
def test_a_name_cannot_reach_beyond_its_place(text: str, language: str) -> None:
    """Source: Unicode Standard Annex 9, BD9: each isolate is ended by its own PDI."""
    said = speaker(Reader(language)).say(N_("no such %(what)s!"), what=text)
    depth = 0
    for mark in said:
        depth += {"FSI": 1, "LRI": 1, "RLI": 1, "PDI": -1}.get(unicodedata.bidirectional(mark), 0)
        assert depth >= 0
        assert mark not in "!n" or depth == 0
    assert depth == 0
    if "ب" in text:
        assert "\u2068" in said


# Languages


def test_the_list_of_languages_is_the_list_of_catalogs() -> None:
    folders = {path.parts[-3].replace("_", "-") for path in LOCALES.glob("*/LC_MESSAGES/foamwright.po")}
    assert {language.tag for language in languages()} == folders
    assert languages()[0].tag == "en"
    named = {language.tag: language for language in languages()}
    assert (named["es"].own_name, named["es"].english_name, named["es"].dir) == ("Español", "Spanish", "ltr")
    assert (named["ar"].own_name, named["ar"].dir) == ("العربية", "rtl")
    assert named["en"].coverage == 1.0
    assert all(0 <= language.coverage <= 1 for language in languages())


def test_a_region_is_served_by_its_language() -> None:
    assert speaker(Reader("es-MX")).tag == "es-MX"
    assert speaker(Reader("es-MX")).unit_name("foam_density") == speaker(Reader("es")).unit_name("foam_density")
    german = speaker(Reader("de"))
    assert (german.tag, german.dir, german.number(1.5, decimals=1)) == ("en", "ltr", "1,5")
    assert speaker(Reader("he")).dir == "ltr"  # its words are English ones


def test_a_build_is_read_before_the_checkout(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    module = tmp_path / "site" / "lib" / "foamwright" / "reader" / "catalogs.py"
    built = tmp_path / "site" / "lib" / "foamwright" / "catalogs" / "xx" / "LC_MESSAGES" / "foamwright.po"
    edited = tmp_path / "site" / "locales" / "yy" / "LC_MESSAGES" / "foamwright.po"
    monkeypatch.setattr(room, "__file__", str(module))
    assert room.catalog_folder() is None
    edited.parent.mkdir(parents=True)
    edited.touch()
    assert room.catalog_folder() == tmp_path / "site" / "locales"
    built.parent.mkdir(parents=True)
    built.touch()
    assert room.catalog_folder() == tmp_path / "site" / "lib" / "foamwright" / "catalogs"


# Pseudo-languages


def test_pseudo_languages_mark_every_text_and_are_not_offered() -> None:
    assert not {"en-XA", "ar-XB"} & {language.tag for language in languages()}
    source = room.load("en")
    assert source is not None
    for tag, direction in (("en-XA", "ltr"), ("ar-XB", "rtl")):
        s = speaker(Reader(tag))
        assert (s.tag, s.dir) == (tag, direction)
        catalog = room.load(tag)
        assert catalog is not None and set(catalog.texts) == set(source.texts)
        for key, forms in catalog.texts.items():
            for form, original in zip(forms, source.texts[key], strict=True):
                assert "⟦" in form and "⟧" in form
                assert room.placeholders(form) == room.placeholders(original) or not room.is_format(original)
    longer = [len(f) / len(source.texts[k][0]) for k, (f, *_) in room.load("en-XA").texts.items() if len(k) > 30]  # type: ignore[union-attr]
    assert 1.35 < sum(longer) / len(longer) < 1.6
    assert speaker(Reader("en-XA"))._("no such text") == "no such text"


# A translator's own catalog


def fault(text: str) -> list[str]:
    return [error.code for error in load_catalog(text).errors]


HEAD = 'msgid ""\nmsgstr "Language: es\\nPlural-Forms: nplurals=3; plural=n==1?0:n!=0&&n%1000000==0?1:2;\\n"\n\n'


@pytest.mark.parametrize(
    ("text", "codes"),
    [
        (HEAD + 'msgid "a"\nmsgstr "b"\n', []),
        (HEAD + 'msgid "a"\nmsgstr ""\n', []),
        (HEAD + 'msgid "%(n)s a"\nmsgstr "%(m)s a"\n', ["placeholder_mismatch"]),
        (HEAD + 'msgid "%(n)s a"\nmsgstr "a"\n', ["placeholder_mismatch"]),
        (HEAD + 'msgid "%(n)s a"\nmsgstr "%(n) a"\n', ["placeholder_mismatch"]),
        (HEAD + 'msgid "%(n)s a"\nmsgstr "%(n)s 5 % a"\n', ["placeholder_mismatch"]),
        (HEAD + 'msgid "5 % a"\nmsgstr "5 % b"\n', []),
        (HEAD + 'msgid "a"\nmsgstr "%(n)s b"\n', ["placeholder_mismatch"]),
        (HEAD + 'msgid "a"\nmsgid_plural "b"\nmsgstr[0] "c"\nmsgstr[1] "d"\n', ["plural_count"]),
        (HEAD + 'msgid "a"\nmsgid_plural "b"\nmsgstr[0] "c"\nmsgstr[1] ""\nmsgstr[2] "d"\n', ["plural_count"]),
        (HEAD + 'msgid "%(n)s a"\nmsgid_plural "%(n)s b"\nmsgstr[0] "un c"\nmsgstr[1] "%(n)s d"\nmsgstr[2] "%(n)s d"\n', []),
        (HEAD.replace("nplurals=3", "nplurals=99"), ["plural_rule"]),
        (HEAD.replace("n==1?0", "__import__?0"), ["plural_rule"]),
        (HEAD.replace("n==1?0", "(" * 900 + "n"), ["plural_rule"]),
        ('msgid "a"\nmsgstr "b"\n', ["not_a_catalog"]),
        ('msgid ""\nmsgstr ""\n', ["language_missing"]),
        ('msgid ""\nmsgstr "Language: <b>\\n"\n', ["language_missing"]),
        ("", ["not_a_catalog"]),
        ("<html>", ["not_a_catalog"]),
        ('"loose"', ["not_a_catalog"]),
        ("#" * 4_000_001, ["too_large"]),
    ],
)
def test_what_is_wrong_with_a_catalog_is_said(text: str, codes: list[str]) -> None:
    assert fault(text) == codes


def test_an_error_names_its_message_and_the_rest_is_used() -> None:
    text = HEAD + 'msgid "good"\nmsgstr "bien"\n\nmsgctxt "ctx"\nmsgid "%(n)s bad"\nmsgstr "%(x)s mal"\n'
    result = load_catalog(text)
    (error,) = result.errors
    assert (error.text, error.context, error.line) == ("%(n)s bad", "ctx", 7)
    assert (result.translated, result.total) == (1, 2)
    s = speaker(Reader("es"), result.catalog)
    assert s._("good") == "bien"
    assert s.p_("ctx", "%(n)s bad", n="1") == "1 bad"
    # What the loaded catalog lacks comes from the one that is built in.
    assert s.unit_name("foam_density") == speaker(Reader("es")).unit_name("foam_density")


def test_a_plural_rule_that_fails_later_is_survived() -> None:
    text = HEAD.replace("n==1?0:n!=0&&n%1000000==0?1:2", "n<1000?2:n==1000?7:1/(n-2000)")
    s = speaker(Reader("es"), load_catalog(text + 'msgid "a"\nmsgid_plural "b"\nmsgstr[0] "c"\nmsgstr[1] "d"\nmsgstr[2] "e"\n').catalog)
    assert [s.n_("a", "b", n) for n in (1, 1000, 2000, 2001, 3000)] == ["e", "e", "e", "d", "c"]


def test_a_catalog_is_read_once() -> None:
    text = HEAD + 'msgid "good"\nmsgstr "bien"\n'
    assert speaker(Reader("es"), load_catalog(text).catalog) is speaker(Reader("es"), load_catalog(text[:9] + text[9:]).catalog)


def test_a_language_that_is_not_built_in_can_be_loaded() -> None:
    text = HEAD.replace("Language: es", "Language: fr") + 'msgid "good"\nmsgstr "bien"\n'
    catalog = load_catalog(text).catalog
    s = speaker(Reader("fr"), catalog)
    assert (s.tag, s._("good"), s.number(1.5, decimals=1)) == ("fr", "bien", "1,5")


@given(st.text(max_size=200))
def test_any_text_may_be_loaded(text: str) -> None:
    load_catalog(text)
    load_catalog(HEAD + text)


def message_of(text: str) -> dict[str, Any]:
    return {(entry.context, entry.text): (entry.plural, entry.forms) for entry in po.entries(text) if entry.text}


words = st.text(
    alphabet=st.characters(exclude_categories=("Cs", "Cc"), include_characters="\n\t\"\\"), min_size=1, max_size=40
)


@given(st.dictionaries(st.tuples(st.none() | words, words), st.tuples(st.none() | words, words), max_size=6))
def test_reading_agrees_with_babel(messages: dict[Any, Any]) -> None:
    """Oracle: Babel's writer and reader of catalogs."""
    theirs = BabelCatalog(locale="en")
    for (context, text), (plural, form) in messages.items():
        ident = text if plural is None else (text, plural)
        theirs.add(ident, form if plural is None else (form, form + "s"), context=context)
    buffer = io.BytesIO()
    write_po(buffer, theirs)
    written = buffer.getvalue().decode("utf-8")
    again = read_po(io.BytesIO(buffer.getvalue()), locale="en")
    expected = {}
    for message in again:
        if message.id:
            text, plural = (message.id, None) if isinstance(message.id, str) else message.id
            forms = (message.string,) if isinstance(message.string, str) else tuple(message.string)
            expected[(message.context, text)] = (plural, forms)
    assert message_of(written) == expected


@pytest.mark.parametrize("path", sorted(LOCALES.glob("*/LC_MESSAGES/*.po")), ids=lambda path: path.parts[-3])
def test_reading_our_catalogs_agrees_with_polib(path: Path) -> None:
    """Oracle: polib."""
    expected = {}
    for entry in polib.pofile(str(path)):
        if not entry.obsolete:
            forms = tuple(entry.msgstr_plural[i] for i in sorted(entry.msgstr_plural)) or (entry.msgstr,)
            expected[(entry.msgctxt, entry.msgid)] = (entry.msgid_plural or None, forms)
    assert message_of(path.read_text(encoding="utf-8")) == expected
