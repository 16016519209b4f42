"""Measure the packed page against a stock one, in each browser, in one run, and print one table.

    python3 build.py bench

Numbers of different runs or machines cannot be compared: what stands beside each other in the table can.
"""

import base64
import gzip
import io
import json
import os
import platform
import statistics
import subprocess
import sys
import time
import zipfile
from pathlib import Path

ROOT = Path(__file__).resolve().parents[3]
sys.path[:0] = [str(ROOT), str(ROOT / "web" / "pack"), str(ROOT / "tests" / "page"), str(ROOT / "engine")]

import browsers  # noqa: E402
import build  # noqa: E402
import tree  # noqa: E402

from foamwright.project.link import encode  # noqa: E402
from foamwright.project.model import Opening, Part, Project  # noqa: E402

STOCK = build.BUILD / "stock.html"
BLOCK = 16_000
STARTS = 5
EDITS, MANY = 200, 2000
#: Parts of the projects whose cost must grow with their number alone, and how often each is edited.
PARTS, PART_EDITS = (1, 5, 20, 100), 100

READER = {"language": "en", "units": "metric", "digits": "auto", "numbers": "auto"}
CALLS = [
    ["hello", {"languages": ["en"]}],
    ["furniture", {"reader": READER}],
    ["view", {"project": '{"format": 1}', "reader": READER, "want": ["glance"]}],
]


def stock_page() -> Path:
    """The same Python, packages and engine in one file, unpacked and imported at every start."""
    node_modules = ROOT / "web" / "node_modules" / "pyodide"
    files = tree.files(node_modules / "python_stdlib.zip", tree.site_packages())
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as bundle:
        for path, data in files.items():
            if path.startswith(tree.PACKAGES):
                bundle.writestr(f"site-packages{path.removeprefix(tree.PACKAGES)}", data)
            elif path.startswith("/app/"):
                bundle.writestr(path.removeprefix("/app/"), data)
    esbuild = ROOT / "web" / "node_modules" / ".bin" / "esbuild"
    worker = subprocess.run(
        [
            esbuild, "pack/bench/stock_worker.js", "--bundle", "--format=iife", "--minify-whitespace", "--log-level=error",
            "--external:node:*", "--external:ws", '--define:import.meta.url="https://foamwright.invalid/worker.js"',
        ],
        cwd=ROOT / "web", capture_output=True, check=True,
    ).stdout  # fmt: skip
    parts = {
        "worker": worker,
        "wasm": (node_modules / "pyodide.asm.wasm").read_bytes(),
        "stdlib": (node_modules / "python_stdlib.zip").read_bytes(),
        "packages": packed.getvalue(),
    }
    blocks = []
    for name, raw in parts.items():
        text = base64.b64encode(gzip.compress(raw, 9)).decode()
        blocks += [f'<script type="text/plain" data-part="{name}">{text[at : at + BLOCK]}</script>' for at in range(0, len(text), BLOCK)]
    release = (build.BUILD / "scripts" / "release.json").read_text()
    script = """
        const bytes = async (name) => {
          const text = Array.from(document.querySelectorAll(`script[data-part="${name}"]`), (block) => block.textContent).join("");
          const raw = Uint8Array.fromBase64 ? Uint8Array.fromBase64(text) : Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0));
          return new Uint8Array(await new Response(new Response(raw).body.pipeThrough(new DecompressionStream("gzip"))).arrayBuffer());
        };
        (async () => {
          const [source, wasm, stdlib, packages] = await Promise.all(["worker", "wasm", "stdlib", "packages"].map(bytes));
          const worker = new Worker(URL.createObjectURL(new Blob([source], {type: "text/javascript"})));
          worker.onmessage = ({data}) => { performance.mark("stock-live"); document.documentElement.dataset.live = data.join(); };
          worker.postMessage({wasm, stdlib, packages, release: RELEASE, calls: CALLS}, [wasm.buffer, stdlib.buffer, packages.buffer]);
        })();
    """.replace("RELEASE", release).replace("CALLS", json.dumps(CALLS))
    STOCK.write_text(f'<!doctype html><html><meta charset="utf-8"><title>stock</title><body>{"".join(blocks)}<script>{script}</script></body></html>')
    return STOCK


MARKS = """
    const at = (name, kind) => performance.getEntriesByName(name, kind)[0]?.startTime ?? null;
    return {paint: at("first-contentful-paint"), live: at("foamwright-live") ?? at("stock-live"), painted: at("foamwright-painted")};
"""

# From the key stroke to the frame after the one in which the sheets were drawn anew. Fields take turns; each counts up by its step.
EDIT = """
    const fields = given.fields.map(({ path, from, step }) => ({ field: document.querySelector(`input[data-path="${path}"]`), from, step }));
    const times = [];
    for (let i = 0; i < given.edits; i++) {
      const { field, from, step } = fields[i % fields.length];
      if (document.activeElement !== field) field.focus();
      const drawn = new Promise((resolve) => {
        const observer = new PerformanceObserver((list) => {
          if (list.getEntriesByName("foamwright-edit").length) { observer.disconnect(); resolve(); }
        });
        observer.observe({type: "measure"});
      });
      const begun = performance.now();
      field.value = String(from + (i % 40) * step);
      field.dispatchEvent(new InputEvent("input", {bubbles: true}));
      await drawn;
      await new Promise((resolve) => requestAnimationFrame(() => { const {port1, port2} = new MessageChannel(); port1.onmessage = resolve; port2.postMessage(0); }));
      times.push(performance.now() - begun);
      if (given.pause) await new Promise((resolve) => setTimeout(resolve, given.pause));
    }
    return times;
"""

PYTHON_EDITS = """
    let project = '{"format": 1}';
    for (let i = 0; i < given.edits; i++) {
      const text = String(5 + (i % 40) / 20);
      const answer = await window.probe.call("edit", {project, reader: given.reader, path: "parts[0].inside_diameter_m", text, want: ["glance"]});
      project = answer.project ?? project;
    }
    return (await window.probe.call("probe_worker")).heap;
"""

ESTIMATE = """
import json, time
from foamwright import page
reader = json.loads('READER')

def took(want):
    text = json.dumps({"project": '{"format": 1}', "reader": reader, "want": want})
    rounds = []
    for _ in range(8):
        begun = time.perf_counter()
        for _ in range(5):
            page.call("view", text)
        rounds.append((time.perf_counter() - begun) / 5 * 1000)
    return min(rounds)

[took(["glance"]), took(None)]
""".replace("READER", json.dumps(READER))


def in_cpython() -> list[float]:
    *lines, last = ESTIMATE.strip().splitlines()
    names: dict[str, object] = {}
    exec("\n".join(lines), names)
    return list(eval(last, names))


def _processes() -> list[int]:
    """Every process that this one started, directly or not."""
    parents: dict[int, list[int]] = {}
    for entry in Path("/proc").iterdir():
        if entry.name.isdigit():
            try:
                parents.setdefault(int((entry / "stat").read_text().rpartition(")")[2].split()[1]), []).append(int(entry.name))
            except OSError:
                continue
    found, left = [], [os.getpid()]
    while left:
        for child in parents.get(left.pop(), []):
            left.append(child)
            found.append(child)
    return found


def resident(browser: browsers.Browser) -> int | None:
    """Bytes of the largest of the browser's processes, which is the one that holds the page, after it had time to tidy up."""
    if not Path("/proc/self/statm").exists():
        return None
    if isinstance(browser, browsers.Chromium):
        browser.page.context.new_cdp_session(browser.page).send("HeapProfiler.collectGarbage")
    time.sleep(5)
    sizes = []
    for process in _processes():
        try:
            sizes.append(int(Path(f"/proc/{process}/statm").read_text().split()[1]) * os.sysconf("SC_PAGESIZE"))
        except OSError:
            continue
    return max(sizes)


def middle(values: list[float]) -> str:
    return f"{statistics.median(values):.0f}"


def start_times(browser: browsers.Browser, path: Path) -> dict[str, list[float]]:
    found: dict[str, list[float]] = {}
    for _ in range(STARTS):
        browser.open(path)
        browser.wait_for("html[data-live]", 120)
        for name, value in browser.evaluate(MARKS).items():
            if value is not None:
                found.setdefault(name, []).append(value)
    return found


def settlement(count: int) -> Project:
    """Domes of two profiles, vaults and walls in rows, none like another, each with three openings."""
    dome = (Opening(), Opening(form="round", sill_m=1.2, azimuth_deg=90.0), Opening(form="round", sill_m=1.2, azimuth_deg=200.0))
    vault = (Opening(face="end_a"), Opening(form="round", sill_m=1.2, face="end_b"), Opening(form="round", diameter_m=0.4, sill_m=0.6, face="side_a"))
    wall = (Opening(side=1), Opening(form="round", sill_m=1.2, side=2), Opening(form="round", sill_m=1.0, side=3))
    parts = []
    for i in range(count):
        name, at, more = f"part-{i + 1}", (20.0 * (i % 10), 20.0 * (i // 10)), i / 100
        parts.append(
            (
                Part(id=name, at_m=at, inside_diameter_m=5 + more, openings=dome),
                Part(id=name, at_m=at, shape="vault", profile="semicircle", inside_span_m=3.6 + more, openings=vault),
                Part(id=name, at_m=at, shape="wall", length_m=5 + more, openings=wall),
                Part(id=name, at_m=at, profile="catenary", rise_m=3 + more, openings=dome),
            )[i % 4]
        )
    return Project(parts=tuple(parts))


def part_times(name: str, count: int) -> list[float]:
    """Edits of one part's thickness and of one opening's width in turn, while the other parts stay as they are."""
    browser = browsers.start(name)
    try:
        browser.open(build.PAGE, f"p={encode(settlement(count))}")
        browser.wait_for("html[data-live]", 120)
        browser.wait_for(f'input[data-path="parts[{count - 1}].thickness_m"]', 120)
        browser.wait_for("html[data-calm]", 120)
        fields = [
            {"path": "parts[0].thickness_m", "from": 20, "step": 0.05},
            {"path": "parts[0].openings[0].width_m", "from": 0.8, "step": 0.005},
        ]
        return list(browser.evaluate(EDIT, {"edits": PART_EDITS, "fields": fields, "pause": 40}))
    finally:
        browser.quit()


def _width(start: float) -> list[dict[str, object]]:
    return [{"path": "parts[0].inside_diameter_m", "from": start, "step": 0.05}]


def measure(name: str) -> dict[str, str]:
    rows = {}
    browser = browsers.start(name)
    try:
        stock = start_times(browser, STOCK)["live"]
        ours = start_times(browser, build.PAGE)
        rows["stock page: first estimate, ms"] = middle(stock)
        rows["first contentful paint, ms"] = middle(ours["paint"]) if "paint" in ours else "not told"
        rows["first estimate painted (made at build time), ms"] = middle(ours["painted"])
        rows["first live estimate, ms"] = middle(ours["live"])
        rows["first live estimate / stock"] = f"{statistics.median(ours['live']) / statistics.median(stock):.2f}"
        spaced = browser.evaluate(EDIT, {"edits": EDITS, "fields": _width(5), "pause": 40})
        rows[f"edit to repaint over {EDITS}: p50, ms"] = middle(spaced)
        rows["edit to repaint: p95, ms"] = f"{statistics.quantiles(spaced, n=20)[-1]:.0f}"
        after_few = resident(browser)
        for at in range(0, MANY - EDITS, 200):
            browser.evaluate(EDIT, {"edits": 200, "fields": _width(5 + at / 10000), "pause": 0})
        after_many = resident(browser)
        if after_few and after_many:
            rows[f"memory of the page's process after {EDITS} edits, MB"] = f"{after_few / 1e6:.0f}"
            rows[f"after {MANY} edits, MB"] = f"{after_many / 1e6:.0f}"
        browser.evaluate("window.probe = await Foamwright.boot({probe: true}); return null")
        for count in (EDITS, MANY):
            heap = browser.evaluate(PYTHON_EDITS, {"edits": count, "reader": READER})
            rows[f"memory of Python alone after {count} edits, MB"] = f"{heap / 1e6:.1f}"
        inside = browser.evaluate('return await window.probe.call("probe_python", given)', {"code": ESTIMATE})
        rows["one sheet computed and worded, ms"], rows["every sheet, ms"] = (f"{value:.1f}" for value in inside)
    finally:
        browser.quit()
    for count in PARTS:
        times = part_times(name, count)
        label = "1 part" if count == 1 else f"{count} parts"
        rows[f"{label}, 3 openings each: edit of one part to repaint, p50, ms"] = middle(times)
        rows[f"{label}: p95, ms"] = f"{statistics.quantiles(times, n=20)[-1]:.0f}"
    return rows


def main() -> int:
    stock_page()
    begun = time.monotonic()
    cpython = in_cpython()
    columns: dict[str, dict[str, str]] = {}
    for name in browsers.NAMES:
        try:
            columns[name] = measure(name)
        except browsers.Missing as why:
            print(why)
    rows = list(dict.fromkeys(row for column in columns.values() for row in column))
    print(f"{platform.system()} {platform.machine()}, {os.cpu_count()} cores, load {os.getloadavg()[0]:.1f}" if hasattr(os, "getloadavg") else "")
    print(f"| | {' | '.join(columns)} |\n| --- |{' --- |' * len(columns)}")
    print(f"| page, MB (stock {STOCK.stat().st_size / 1e6:.2f}) |{f' {build.PAGE.stat().st_size / 1e6:.2f} |' * len(columns)}")
    for row in rows:
        beside = {"one sheet computed and worded, ms": cpython[0], "every sheet, ms": cpython[1]}.get(row)
        label = row if beside is None else f"{row} (CPython {platform.python_version()}: {beside:.1f})"
        print(f"| {label} | " + " | ".join(column.get(row, "") for column in columns.values()) + " |")
    print(f"in {time.monotonic() - begun:.0f} s")
    return 0


if __name__ == "__main__":
    sys.exit(main())
