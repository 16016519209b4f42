"""Make dist/foamwright.html, the whole estimator in one file, and say how large each part of it is.

    python3 build.py          everything that is needed, then the page, then open it
    python3 build.py pack     the page alone, from what was set up before
    python3 build.py test     the same as the first, and the browsers, and every test
    python3 build.py bench    the page, and a table of how fast it is
    python3 build.py fuzz     the page, and its bad-input tests with far more random cases

Starts with the standard library of Python 3.11 or newer; the rest goes into .venv, .build and web/node_modules.
"""

import hashlib
import json
import os
import shutil
import subprocess
import sys
import time
import tomllib
import venv
import webbrowser
from collections.abc import Callable
from pathlib import Path

ROOT = Path(__file__).resolve().parent
BUILD = ROOT / ".build"
VENV = ROOT / ".venv"
WEB = ROOT / "web"
PAGE = ROOT / "dist" / "foamwright.html"
PYTHON = VENV / ("Scripts/python.exe" if os.name == "nt" else "bin/python")
CI = os.environ.get("CI", "").lower() in ("1", "true")
SECONDS: dict[str, float] = {}


def stage(name: str) -> Callable[[Callable[..., str]], Callable[..., None]]:
    """Name a step; it prints what the step says it made, and its seconds."""

    def wrap(step: Callable[..., str]) -> Callable[..., None]:
        def run(*given: object) -> None:
            begun = time.monotonic()
            said = step(*given)
            SECONDS[name] = time.monotonic() - begun
            print(f"{name:<12}{SECONDS[name]:7.1f} s  {said}", flush=True)

        return run

    return wrap


def run(*command: str | Path, **more: object) -> str:
    """Run a command and return what it said; where it fails, show the end of that and stop."""
    done = subprocess.run([str(word) for word in command], capture_output=True, text=True, **more)  # type: ignore[call-overload]
    if done.returncode:
        said = "\n".join(line[:300] for line in f"{done.stdout}\n{done.stderr}".strip().splitlines()[-60:])
        sys.exit(f"\n{said}\nstopped: {' '.join(map(str, command))[:300]}")
    return str(done.stdout)


def digest(*paths: Path) -> str:
    """One hash of files and folders, by content."""
    found = hashlib.sha256()
    for path in paths:
        for file in [path] if path.is_file() else sorted(path.rglob("*")):
            if file.is_file() and "__pycache__" not in file.parts:
                found.update(str(file.relative_to(ROOT)).encode() + b"\0" + file.read_bytes() + b"\0")
    return found.hexdigest()[:32]


def done_before(name: str, mark: str) -> bool:
    """Whether a step was finished with these inputs."""
    kept = BUILD / "done" / name
    return kept.exists() and kept.read_text() == mark


def note_done(name: str, mark: str) -> None:
    kept = BUILD / "done" / name
    kept.parent.mkdir(parents=True, exist_ok=True)
    kept.write_text(mark)


def megabytes(size: int) -> str:
    return f"{size / 1e6:.2f} MB"


@stage("python")
def make_venv(extra: str) -> str:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text())["project"]
    wanted = [*project["dependencies"], *project["optional-dependencies"]["build"]]
    if extra == "test":
        wanted += project["optional-dependencies"]["test"]
    if not PYTHON.exists():
        venv.create(VENV, with_pip=True)
    mark = "\n".join([sys.version, *wanted])
    if not done_before(f"venv-{extra}", mark):
        run(PYTHON, "-m", "pip", "install", "--quiet", *wanted)
        own = run(PYTHON, "-c", "import site; print(site.getsitepackages()[0])").strip()
        (Path(own) / "foamwright.pth").write_text(f"{ROOT / 'engine'}\n")
        note_done(f"venv-{extra}", mark)
        if extra == "test":
            note_done("venv-build", "\n".join([sys.version, *project["dependencies"], *project["optional-dependencies"]["build"]]))
    return f"{len(wanted)} pinned packages in .venv"


def node() -> Path:
    """Node 20 or newer: the one installed, else the one that PyPI carries."""
    found = shutil.which("node")
    if found and int(run(found, "--version").lstrip("v").split(".")[0]) >= 20:
        return Path(found)
    carried = PYTHON.parent / ("node.exe" if os.name == "nt" else "node")
    if not carried.exists():
        wheel = tomllib.loads((ROOT / "pyproject.toml").read_text())["project"]["optional-dependencies"]["node"]
        run(PYTHON, "-m", "pip", "install", "--quiet", *wheel)
    return carried


@stage("node")
def get_node_packages() -> str:
    engine = node()
    mark = digest(WEB / "package.json", WEB / "package-lock.json")
    if not (done_before("npm", mark) and (WEB / "node_modules").exists()):
        npm = shutil.which("npm", path=f"{engine.parent}{os.pathsep}{os.environ.get('PATH', '')}")
        if npm is None:
            sys.exit("stopped: npm was not found beside node")
        environment = {**os.environ, "PATH": f"{engine.parent}{os.pathsep}{os.environ.get('PATH', '')}"}
        run(npm, "ci", "--no-audit", "--no-fund", cwd=WEB, env=environment)
        note_done("npm", mark)
    return f"node {run(engine, '--version').strip()}, packages as locked"


@stage("catalogs")
def check_catalogs() -> str:
    """Refuse catalogs with guessed, missing or broken texts; a quick repack takes them as they are."""
    mark = digest(ROOT / "locales", ROOT / "engine")
    if not done_before("catalogs", mark):
        run(PYTHON, ROOT / "locales" / "manage.py", "check")
        note_done("catalogs", mark)
    return "complete: " + ", ".join(sorted(path.parts[-3] for path in (ROOT / "locales").glob("*/LC_MESSAGES/*.po")))


@stage("files")
def lay_tree() -> str:
    """The files Python has in the page, stripped; and their byte code, which only the snapshot is made with."""
    import tree

    found = tree.files(WEB / "node_modules" / "pyodide" / "python_stdlib.zip", tree.site_packages())
    salt = digest(WEB / "pack" / "compile_tree.py", WEB / "pack" / "runtime" / "start.js", WEB / "node_modules" / "pyodide" / "package.json").encode()
    kept = BUILD / "compiled"
    digests = {
        path: hashlib.sha256(salt + path.encode() + b"\0" + data).hexdigest()[:32]
        for path, data in found.items()
        if path.endswith(".py")
    }
    todo = [(path, mark) for path, mark in digests.items() if not (kept / f"{mark}.pyc").exists()]
    if todo:
        tree.lay(found, BUILD / "sources")
        (BUILD / "todo.json").write_text(json.dumps(todo))
        run(node(), WEB / "pack" / "compile.mjs", BUILD / "sources", BUILD / "todo.json", kept)
    stripped = {**found, **{path: (kept / f"{mark}.py").read_bytes() for path, mark in digests.items()}}
    code = {tree.byte_code(path): (kept / f"{mark}.pyc").read_bytes() for path, mark in digests.items()}
    tree.lay(stripped, BUILD / "tree")
    tree.lay(code, BUILD / "bytecode")
    return f"{len(found)} files, {megabytes(sum(map(len, stripped.values())))} stripped, {len(todo)} compiled now"


@stage("snapshot")
def take_snapshot() -> str:
    mark = digest(BUILD / "tree", BUILD / "bytecode", WEB / "pack", WEB / "package-lock.json")
    heap = BUILD / "heap.bin"
    if not (done_before("snapshot", mark) and heap.exists()):
        said = run(node(), WEB / "pack" / "snapshot.mjs", BUILD / "tree", BUILD / "bytecode", heap)
        (BUILD / "heap.json").write_text(said.strip().splitlines()[-1])
        note_done("snapshot", mark)
    about = json.loads((BUILD / "heap.json").read_text())
    return f"{about['modules']} modules, {megabytes(about['kept'])} of memory"


@stage("scripts")
def bundle() -> str:
    out = BUILD / "scripts"
    out.mkdir(parents=True, exist_ok=True)
    for file in out.iterdir():
        file.unlink()
    run(node(), WEB / "pack" / "bundle.mjs", out)
    return ", ".join(f"{file.name} {file.stat().st_size / 1000:.0f} kB" for file in sorted(out.iterdir()))


def first_paint() -> dict[str, str]:
    """The views that stand in the page before Python runs, where the engine makes any."""
    from foamwright import page

    make = getattr(page, "first_paint", None)
    return dict(make()) if make else {}


@stage("page")
def pack() -> str:
    import page

    inputs = page_inputs()
    cache = BUILD / "packed"
    scripts = BUILD / "scripts"
    first = [page.part("worker", (scripts / "worker.js").read_bytes(), cache, wanted_by="page")]
    for name, text in first_paint().items():
        first.append(page.part(f"paint-{name}", text.encode(), cache, wanted_by="page"))
    last = [
        page.part("wasm", (WEB / "node_modules" / "pyodide" / "pyodide.asm.wasm").read_bytes(), cache),
        page.part("index", (BUILD / "tree" / "index.json").read_bytes(), cache),
    ]
    last += [page.part(file.stem, file.read_bytes(), cache) for file in sorted((BUILD / "tree").glob("*.bin"))]
    last.append(page.part("heap", (BUILD / "heap.bin").read_bytes(), cache))
    template = (WEB / "index.html").read_text()
    release = json.loads((scripts / "release.json").read_text())
    try:
        whole = page.assemble(template, scripts, first, last, release)
    except page.NotPacked as why:
        sys.exit(f"stopped: {why}")
    PAGE.parent.mkdir(exist_ok=True)
    PAGE.write_text(whole)
    (BUILD / "sizes.txt").write_text(size_table([*first, *last], whole))
    note_done("page", inputs)
    return f"{PAGE.relative_to(ROOT)}, {megabytes(PAGE.stat().st_size)}"


def page_inputs() -> str:
    """A hash of everything that the page is made from."""
    web = [file for file in sorted(WEB.iterdir()) if file.suffix in (".js", ".css", ".html", ".json")]
    return digest(*web, WEB / "ui", WEB / "pack", ROOT / "engine", ROOT / "locales", ROOT / "pyproject.toml")


def size_table(parts: list, whole: str) -> str:
    rows = [f"{'part':<16}{'raw':>12}{'packed':>12}{'in the page':>12}  codec, text"]
    for one in parts:
        rows.append(f"{one.name:<16}{one.raw:>12,}{len(one.packed):>12,}{len(one.text):>12,}  {one.codec}, {one.encoding}")
    text = len(whole.encode())
    rows.append(f"{'the rest':<16}{'':>12}{'':>12}{text - sum(len(one.text) for one in parts):>12,}")
    rows.append(f"{'the page':<16}{'':>12}{'':>12}{text:>12,}")
    return "\n".join(rows) + "\n"


@stage("restores")
def check_restores(strict: bool) -> str:
    """Start the packed page's Python in Node, from the page itself; if strict, without the snapshot too."""
    return run(node(), WEB / "pack" / "check.mjs", PAGE, *(["plainly"] if strict else [])).strip()


@stage("opens")
def check_opens() -> str:
    """Open the page in a Chromium, where there is one."""
    sys.path.append(str(ROOT / "tests" / "page"))
    import browsers

    browser = browsers.installed_chromium()
    if browser is None:
        return "not tried: no Chromium or Chrome here; `python3 build.py test` gets one"
    return run(node(), WEB / "pack" / "opens.mjs", browser, PAGE).strip()


def make_page(strict: bool) -> None:
    lay_tree()
    take_snapshot()
    bundle()
    pack()
    print((BUILD / "sizes.txt").read_text())
    check_restores(strict)


def open_page() -> None:
    if CI or not (os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY") or sys.platform in ("darwin", "win32")):
        print(f"open it in a browser: {PAGE}")
    else:
        webbrowser.open(PAGE.as_uri())


def pytest(*given: str, **settings: str) -> int:
    begun = time.monotonic()
    done = subprocess.run(
        [str(PYTHON), "-m", "pytest", "--durations=25", *given], cwd=ROOT, env={**os.environ, **settings}
    ).returncode
    SECONDS["pytest"] = time.monotonic() - begun
    return done


@stage("types")
def check_types() -> str:
    return run(PYTHON, "-m", "mypy", cwd=ROOT).strip()


@stage("browsers")
def get_browsers() -> str:
    return run(PYTHON, ROOT / "tests" / "page" / "browsers.py").strip()


def main() -> int:
    what = sys.argv[1] if len(sys.argv) > 1 else "page"
    if what not in ("page", "pack", "test", "bench", "fuzz"):
        print(__doc__)
        return 64
    make_venv("build" if what in ("page", "pack") else "test")
    if Path(sys.prefix).resolve() != VENV.resolve():
        # From here on the packages in .venv are needed.
        return subprocess.run([str(PYTHON), __file__, *sys.argv[1:]]).returncode
    sys.path[:0] = [str(WEB / "pack"), str(ROOT / "engine")]
    get_node_packages()
    if what != "pack":
        check_catalogs()
    make_page(strict=what != "pack")
    if what == "pack":
        return 0
    if what == "page":
        check_opens()
        open_page()
        return 0
    get_browsers()
    if what == "bench":
        return subprocess.run([str(PYTHON), str(WEB / "pack" / "bench" / "bench.py")]).returncode
    if what == "fuzz":
        return pytest("tests/fuzz", *sys.argv[2:], FOAMWRIGHT_FUZZ="1")
    check_types()
    failed = pytest(*sys.argv[2:])
    print("\n" + "\n".join(f"{name:<12}{took:7.1f} s" for name, took in SECONDS.items()))
    return failed


if __name__ == "__main__":
    sys.exit(main())
