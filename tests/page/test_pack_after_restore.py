"""What the snapshot does not hold is still there: every module, language, currency, plural and catalog."""

from pathlib import Path

SOURCE = Path(__file__).with_name("inside_after_restore.py")


def test_everything_works_after_the_restore(run_inside):
    done = run_inside(SOURCE.read_text())
    root = Path(__file__).resolve().parents[2]
    modules = [path for path in (root / "engine" / "foamwright").rglob("*.py") if path.name != "__init__.py"]
    catalogs = list((root / "locales").glob("*/LC_MESSAGES/*.po"))
    assert done["modules"] >= len(modules)
    assert done["catalogs"] == len(catalogs)
    # Three hundred currencies a language, by far.
    assert done["currencies"] >= 250 * len(catalogs)
    assert done["locales"] > 100


def test_a_file_that_was_left_out_is_missed(run_inside):
    """Holds the test above to its word: the page has no locale data of a language that is not offered."""
    told = run_inside("""
from babel import Locale, UnknownLocaleError
try:
    told = str(Locale("xh"))
except UnknownLocaleError as problem:
    told = type(problem).__name__
told
""")
    assert told == "UnknownLocaleError"


def test_standard_modules_come_from_the_page(run_inside):
    """Modules that nothing had imported when the snapshot was taken."""
    told = run_inside("""
import sys, importlib
names = [name for name in ("csv", "difflib", "html.parser", "statistics", "calendar", "graphlib", "pprint", "uuid") if name not in sys.modules]
for name in names:
    importlib.import_module(name)
len(names)
""")
    assert told > 0
