"""Choose the files that Python has in the page, each with the part of the page that carries it.

The checkout's own layout is kept under /app, so that whatever the engine finds by a path relative to
itself, its catalogs say, is found in the page too.
"""

import json
import pickle
import shutil
import sys
import zipfile
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
STDLIB = "/lib/python3.14"
PACKAGES = f"{STDLIB}/site-packages"
PYTHON_PATH = f"{STDLIB}:/app/engine"
OWN_PART = 50_000

# What a page without network, terminal, debugger or child processes has no use for.
NOT_NEEDED = """
__hello__ __phello__ _pydatetime _pyio _pyrepl antigravity bdb cProfile cmd code compileall ctypes doctest filecmp
fileinput ftplib getopt getpass http idlelib imaplib mailbox mimetypes modulefinder multiprocessing netrc nturl2path
optparse pdb pickletools plistlib poplib profile pstats pty py_compile pyclbr pydoc pydoc_data rlcompleter runpy
sched shelve smtplib socketserver sqlite3 ssl symtable tabnanny tarfile this timeit tomllib trace tty turtledemo
unittest wave webbrowser wsgiref xmlrpc zipapp
""".split()
ENCODINGS = """
__init__ aliases ascii base64_codec charmap cp1252 cp437 hex_codec idna latin_1 punycode raw_unicode_escape undefined
unicode_escape utf_16 utf_16_be utf_16_le utf_32 utf_32_be utf_32_le utf_7 utf_8 utf_8_sig
""".split()

DISTRIBUTIONS = ["attr", "attrs", "pint", "babel", "segno", "flexcache", "flexparser", "platformdirs", "typing_extensions.py"]
NOT_NEEDED_THERE = (
    "babel/messages/", "babel/localtime/_win32.py", "pint/testsuite/", "flexparser/testsuite/", "flexcache/testsuite/", "pint/pint_convert.py", "platformdirs/__main__.py",
    "platformdirs/android.py", "platformdirs/ios.py", "platformdirs/macos.py", "platformdirs/windows.py", "segno/cli.py",
)  # fmt: skip


# Modules that other modules import but nothing in the page can use, put there empty.
EMPTY = ["urllib/request.py"]

# What Babel's data says of time zones: no time is ever written.
ZONES = {"meta_zones", "time_zones", "windows_zone_mapping", "zone_aliases", "zone_formats", "zone_territories", "territory_zones"}


def languages() -> list[str]:
    """The languages that the catalogs offer, and English, which the sources are written in."""
    return sorted({"en"} | {path.parent.parent.name for path in (ROOT / "locales").glob("*/LC_MESSAGES/*.po")})


def _standard_library(archive: Path) -> dict[str, bytes]:
    files = {}
    with zipfile.ZipFile(archive) as bundle:
        for info in bundle.infolist():
            top, _, rest = info.filename.partition("/")
            wanted = top.removesuffix(".py") not in NOT_NEEDED
            if top == "encodings":
                wanted = rest.removesuffix(".py") in ENCODINGS
            if wanted and not info.is_dir():
                files[f"{STDLIB}/{info.filename}"] = b"" if info.filename in EMPTY else bundle.read(info)
    return files


def _own_language(tag: str) -> bool:
    """Whether a locale's name is that of an offered language or of one of its regions."""
    return tag.partition("_")[0] in {language.partition("_")[0] for language in languages()}


def _locale_data(path: Path) -> bytes | None:
    """One of Babel's data files without what the page never asks for, or None where it needs none of it."""
    if path.parent.name == "locale-data":
        if path.stem != "root" and not _own_language(path.stem):
            return None
    elif path.name != "global.dat":
        return path.read_bytes()
    data = {key: value for key, value in pickle.loads(path.read_bytes()).items() if key not in ZONES}
    if path.name == "global.dat":
        data["likely_subtags"] = {
            short: full for short, full in data["likely_subtags"].items() if short.startswith("und_") or _own_language(short)
        }
    return pickle.dumps(data, 4)


def _distributions(site: Path) -> dict[str, bytes]:
    files = {}
    for name in DISTRIBUTIONS:
        top = site / name
        for path in [top] if top.is_file() else sorted(top.rglob("*")):
            inside = path.relative_to(site).as_posix()
            if not path.is_file() or "__pycache__" in path.parts or inside.startswith(NOT_NEEDED_THERE):
                continue
            if path.suffix in (".pyi", ".typed") or path.name == "py.typed":
                continue
            data = _locale_data(path) if path.suffix == ".dat" else path.read_bytes()
            if data is not None:
                files[f"{PACKAGES}/{inside}"] = data
    return files


def _own() -> dict[str, bytes]:
    files = {}
    for path in sorted((ROOT / "engine" / "foamwright").rglob("*")):
        if path.is_file() and "__pycache__" not in path.parts and path.suffix != ".typed":
            files[f"/app/{path.relative_to(ROOT).as_posix()}"] = path.read_bytes()
    for path in sorted((ROOT / "locales").rglob("*.po")):
        files[f"/app/{path.relative_to(ROOT).as_posix()}"] = _without_locations(path.read_bytes())
    return files


def _without_locations(catalog: bytes) -> bytes:
    """A catalog without its notes to translators; who confirmed a caution ("#  ...") stays, for the page shows it."""
    return b"".join(line for line in catalog.splitlines(keepends=True) if not line.startswith((b"#:", b"#.")))


def part_of(path: str, length: int) -> str:
    """The part that carries a file: code together, data over 50 kB each on its own."""
    if path.endswith(".py"):
        return "engine" if path.startswith("/app/") else "library"
    name = Path(path).stem
    if path.endswith(".dat") and "locale-data" in path:
        return f"locale-{name.partition('_')[0]}"
    if path.endswith(".po"):
        return f"catalog-{Path(path).parts[-3]}"
    if length > OWN_PART:
        return f"data-{name}"
    return "engine" if path.startswith("/app/") else "library"


def files(stdlib: Path, site: Path) -> dict[str, bytes]:
    """Every file of the page's Python, by its path there."""
    return {**_standard_library(stdlib), **_distributions(site), **_own()}


def site_packages() -> Path:
    return next(Path(entry) for entry in sys.path if entry.endswith("site-packages"))


def lay(found: dict[str, bytes], folder: Path) -> None:
    """Write one file per part, and `index.json`, which says what lies where."""
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir(parents=True)
    index: dict[str, list[tuple[str, int]]] = {}
    for path in sorted(found):
        index.setdefault(part_of(path, len(found[path])), []).append((path, len(found[path])))
    for part, entries in index.items():
        (folder / f"{part}.bin").write_bytes(b"".join(found[path] for path, _ in entries))
    (folder / "index.json").write_text(json.dumps(index, separators=(",", ":")))


def byte_code(path: str) -> str:
    """Where Python looks for a source's byte code."""
    folder, _, name = path.rpartition("/")
    return f"{folder}/__pycache__/{name.removesuffix('.py')}.cpython-314.pyc"
