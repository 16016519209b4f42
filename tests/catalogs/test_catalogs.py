"""What must hold before catalogs are packed, and that each check stops the packing when it does not."""

import importlib.util
import os
import shutil
import subprocess
import sys
from pathlib import Path
from types import ModuleType

import polib
import pytest
from babel.messages.pofile import read_po

ROOT = Path(__file__).parents[2]
LOCALES = ROOT / "locales"
TAGS = sorted(path.parts[-3] for path in LOCALES.glob("*/LC_MESSAGES/foamwright.po"))


def _manage() -> ModuleType:
    spec = importlib.util.spec_from_file_location("manage", LOCALES / "manage.py")
    assert spec is not None and spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


manage = _manage()


def test_the_template_is_what_the_engine_says() -> None:
    assert list(manage.template_faults()) == []


def test_the_engine_marks_its_texts_so_that_they_are_found() -> None:
    assert list(manage.code_faults()) == []


def test_the_catalogs_are_complete_and_nothing_is_guessed() -> None:
    assert list(manage.catalog_faults()) == []


def test_words_with_two_meanings_have_a_context_and_an_entry() -> None:
    assert list(manage.glossary_faults()) == []


@pytest.mark.parametrize("tag", TAGS)
def test_babel_finds_no_fault(tag: str) -> None:
    """Oracle: Babel's own checkers (placeholders by format flag, number of plural forms)."""
    with (LOCALES / tag / "LC_MESSAGES" / "foamwright.po").open("rb") as file:
        catalog = read_po(file, locale=tag)
    assert [(message.id, errors) for message, errors in catalog.check()] == []


@pytest.mark.parametrize("tag", TAGS)
def test_polib_counts_nothing_open(tag: str) -> None:
    """Oracle: polib's count of what is fuzzy or untranslated."""
    found = polib.pofile(str(LOCALES / tag / "LC_MESSAGES" / "foamwright.po"))
    assert found.fuzzy_entries() == []
    assert [entry.msgid for entry in found.untranslated_entries()] == []


# Each check can fail, and then the command does.


@pytest.fixture
def copy(tmp_path: Path) -> Path:
    """A small engine with its catalogs, in which everything holds."""
    engine = tmp_path / "engine" / "foamwright"
    engine.mkdir(parents=True)
    (engine / "words.py").write_text(
        'def say(s):\n    s._("Bags")\n    s.n_("%(n)s bag", "%(n)s bags", 2)\n    s.p_("plaster", "One coat")\n'
    )
    folder = tmp_path / "locales"
    folder.mkdir()
    for name in ("babel.cfg", "glossary.json"):
        shutil.copy(LOCALES / name, folder / name)
    template = manage.extract(tmp_path)
    (folder / "foamwright.pot").write_text(manage.serialise(template), encoding="utf-8")
    for tag in ("en", "es", "ar"):
        manage.new_catalog(tag, template, folder)
    for tag, forms in (("es", 3), ("ar", 6)):
        path = folder / tag / "LC_MESSAGES" / "foamwright.po"
        text = path.read_text(encoding="utf-8")
        assert text.count('msgstr ""') == 3  # the header, and two texts that nobody has translated yet
        text = text.replace('msgid "Bags"\nmsgstr ""', 'msgid "Bags"\nmsgstr "X"')
        text = text.replace('msgid "One coat"\nmsgstr ""', 'msgid "One coat"\nmsgstr "Y"')
        for i in range(forms):
            text = text.replace(f'msgstr[{i}] ""', f'msgstr[{i}] "%(n)s Z"')
        path.write_text(text, encoding="utf-8")
    return tmp_path


def run(root: Path, *command: str) -> tuple[int, str]:
    done = subprocess.run(
        [sys.executable, str(LOCALES / "manage.py"), *command, "--root", str(root)],
        capture_output=True, text=True, timeout=120, encoding="utf-8", env={**os.environ, "PYTHONUTF8": "1"},
    )  # fmt: skip
    return done.returncode, done.stdout + done.stderr


def test_a_sound_copy_passes_and_compiles(copy: Path, tmp_path: Path) -> None:
    assert run(copy, "check") == (0, "0 faults\n")
    out = tmp_path / "out"
    assert run(copy, "compile", str(out))[0] == 0
    written = (out / "es" / "LC_MESSAGES" / "foamwright.po").read_text(encoding="utf-8")
    assert "#:" not in written and len(polib.pofile(written)) == 3


def test_updating_again_changes_nothing_and_guesses_nothing(copy: Path) -> None:
    folder = copy / "locales"
    before = {path: path.read_bytes() for path in folder.rglob("*.po*")}
    assert run(copy, "update")[0] == 0
    assert {path: path.read_bytes() for path in folder.rglob("*.po*")} == before
    words = copy / "engine" / "foamwright" / "words.py"
    words.write_text(words.read_text() + '    s._("Bags!")\n')
    assert run(copy, "update")[0] == 0
    text = (folder / "es" / "LC_MESSAGES" / "foamwright.po").read_text(encoding="utf-8")
    assert 'msgid "Bags!"\nmsgstr ""' in text and "fuzzy" not in text and 'msgid "Bags"\nmsgstr "X"' in text


@pytest.mark.parametrize(
    ("file", "old", "new", "told"),
    [
        ("engine/foamwright/words.py", '"Bags"', '"Sacks"', "not what the engine says"),
        ("engine/foamwright/words.py", '"Bags"', 'f"Bags"', "not a literal"),
        ("engine/foamwright/words.py", 's._("Bags")', 's._("Bags".format())', "not a literal"),
        ("engine/foamwright/words.py", 's._("Bags")', 's._("Bags").format()', ".format after"),
        ("engine/foamwright/words.py", 's._("Bags")', 's._("Bags") % {}', "% after"),
        ("engine/foamwright/words.py", 's._("Bags")', 's._("Bags %s" % 1)', "not a literal"),
        ("engine/foamwright/words.py", '"Bags"', '"Bags %s"', "named"),
        ("engine/foamwright/words.py", '"Bags"', '"Bags {n}"', "named"),
        ("engine/foamwright/words.py", '"Bags"', '"%(n)s Bags, 5 % more"', "named"),
        ("engine/foamwright/words.py", 's._("Bags")', 's.say("Bags")', "takes a marked text"),
        ("engine/foamwright/words.py", 's._("Bags")', 's.caution(f"Bags")', "takes a marked text"),
        ("locales/es/LC_MESSAGES/foamwright.po", 'msgstr "X"', 'msgstr ""', "empty"),
        ("locales/es/LC_MESSAGES/foamwright.po", 'msgid "Bags"\nmsgstr "X"', "", "missing"),
        ("locales/es/LC_MESSAGES/foamwright.po", 'msgid "Bags"', '#, fuzzy\nmsgid "Bags"', "fuzzy"),
        ("locales/es/LC_MESSAGES/foamwright.po", 'msgstr[1] "%(n)s Z"', 'msgstr[1] "%(m)s Z"', "placeholder_mismatch"),
        ("locales/ar/LC_MESSAGES/foamwright.po", 'msgstr[5] "%(n)s Z"\n', "", "plural_count"),
        ("locales/es/LC_MESSAGES/foamwright.po", "nplurals=3", "nplurals=2", "plural"),
        ("locales/es/LC_MESSAGES/foamwright.po", 'msgid_plural "%(n)s bags"', 'msgid_plural "%(n)s sacks"', "plural"),
        ("locales/glossary.json", '"term": "yield"', '"term": "yields"', "has two meanings and no entry"),
        ("locales/glossary.json", '"capa"', '""', "has no es"),
        ("locales/glossary.json", '["plaster", "caution"]', '["caution"]', "no entry for the context"),
    ],
)
def test_each_fault_stops_the_packing(copy: Path, tmp_path: Path, file: str, old: str, new: str, told: str) -> None:
    path = copy / file
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), encoding="utf-8")
    status, said = run(copy, "check")
    assert status == 1 and told in said, said
    assert run(copy, "compile", str(tmp_path / "out"))[0] == 1
    assert not (tmp_path / "out").exists()


def test_a_word_with_two_meanings_needs_a_context(copy: Path) -> None:
    words = copy / "engine" / "foamwright" / "words.py"
    words.write_text(words.read_text().replace('s.p_("plaster", "One coat")', 's._("One coat")'))
    run(copy, "extract")
    status, said = run(copy, "check")
    assert status == 1 and "'coat' without a context" in said
