"""Python starts from the packed page by file://, in three browsers, and from nothing else."""

import re

import pytest
from conftest import damaged


def test_starts_from_the_snapshot(engine_page):
    probe = engine_page.evaluate('return {snapshot: probe.snapshot, why: probe.why, hello: await probe.call("hello", {languages: ["en"]})}')
    assert probe["why"] is None
    assert probe["snapshot"] is True
    assert re.fullmatch(r"\d+\.\d+\.\d+.*", probe["hello"]["version"])


def test_the_page_starts_by_itself(browser, packed_page):
    browser.open(packed_page)
    browser.wait_for('html[data-live="1"]')


def test_nothing_is_asked_for(browser, packed_page):
    browser.open(packed_page)
    browser.wait_for('html[data-live="1"]')
    assert browser.requests() == []


def test_a_request_would_be_seen(browser, altered):
    """Holds the test above to its word: the same page with one picture from elsewhere is caught."""
    browser.open(altered(lambda page: page.replace("<body>", '<body><img alt="" src="https://foamwright.invalid/seen.png">', 1)))
    browser.evaluate("await new Promise((go) => setTimeout(go, 300))")
    refused = browser.evaluate("""
        return await new Promise((resolve) => {
          document.addEventListener("securitypolicyviolation", (event) => resolve(event.blockedURI));
          document.body.append(Object.assign(new Image(), {src: "https://foamwright.invalid/later.png"}));
        });
    """)
    assert "foamwright.invalid" in refused
    assert any("foamwright.invalid" in name for name in browser.requests())


def test_the_call_trampoline_is_the_engines_own(engine_page):
    """The snapshot holds no index into the table of the engine that made it, and this engine's own is put back."""
    trampoline = engine_page.evaluate('return (await probe.call("probe_worker")).trampoline')
    assert trampoline["restored"] == 0
    assert trampoline["fresh"] != 0
    assert trampoline["now"] == trampoline["fresh"]


def test_random_numbers_are_not_those_of_the_snapshot(engine_page):
    drawn = engine_page.evaluate("""
        const other = await Foamwright.boot({probe: true});
        const code = "import random; random.random()";
        const both = [await probe.call("probe_python", {code}), await other.call("probe_python", {code})];
        other.end();
        return both;
    """)
    assert drawn[0] != drawn[1]


BOOT = """
    try {
      const engine = await Foamwright.boot(given);
      const hello = await engine.call("hello", {languages: ["en"]});
      engine.end();
      return {snapshot: engine.snapshot, why: engine.why, version: hello.version};
    } catch (problem) {
      return {problem};
    }
"""


def test_starts_without_the_snapshot(engine_page):
    booted = engine_page.evaluate(BOOT, {"snapshot": False})
    assert booted["snapshot"] is False
    assert booted["version"]


def test_a_damaged_snapshot_is_left_alone(browser, altered):
    browser.open(altered(lambda page: damaged(page, "heap")))
    booted = browser.evaluate(BOOT, {})
    assert booted["why"]["code"] == "page_damaged"
    assert booted["why"]["params"] == {"part": "heap"}
    assert booted["snapshot"] is False
    assert booted["version"]


def _with_heap(page: str, change) -> str:
    """The page with another snapshot, its checksum true: only restoring it can fail."""
    import json

    import page as packer
    import zstandard

    blocks = re.compile(r'<script type="text/plain" data-part="heap">[^<]*</script>\n?')
    listed = re.search(r'<script type="application/json" id="parts">(.*?)</script>', page)
    about = json.loads(listed[1])
    from build import BUILD

    heap = bytearray((BUILD / "heap.bin").read_bytes())
    change(heap)
    packed = zstandard.ZstdCompressor(level=1).compress(bytes(heap))
    made = packer.Part("heap", "worker", "zstd", "base91", len(heap), packed, packer.check_of(packed))
    about["heap"] = made.about
    at = blocks.search(page).start()
    page = blocks.sub("", page)
    page = page[:at] + made.blocks + page[at:]
    return page.replace(listed[0], f'<script type="application/json" id="parts">{json.dumps(about)}</script>', 1)


def test_a_snapshot_that_will_not_restore_is_left_alone(chromium, altered):
    """In one browser, as is the next: starting plainly takes long, and the road to it is the same in all."""

    def break_magic(heap: bytearray) -> None:
        # The header, which begins with Pyodide's own mark, stands behind the table of runs.
        runs = int.from_bytes(heap[8:12], "little")
        heap[-(-4 * (3 + 2 * runs) // 16) * 16] ^= 0xFF

    chromium.open(altered(lambda page: _with_heap(page, break_magic)))
    booted = chromium.evaluate(BOOT, {})
    assert booted["why"]["code"] == "boot_failed"
    assert booted["snapshot"] is False
    assert booted["version"]


def test_a_start_that_stands_still_is_given_up(chromium, packed_page):
    chromium.open(packed_page)
    booted = chromium.evaluate(BOOT, {"patience": {"snapshot": 1}})
    assert booted["why"]["code"] == "boot_timeout"
    assert booted["snapshot"] is False
    assert booted["version"]


def test_no_start_at_all_is_said(engine_page):
    booted = engine_page.evaluate(BOOT, {"patience": {"snapshot": 1, "plain": 1}})
    assert booted["problem"]["code"] == "boot_timeout"


@pytest.mark.parametrize("part", ["worker", "wasm", "index"])
def test_a_page_damaged_where_nothing_helps_says_so(browser, altered, part):
    browser.open(altered(lambda page: damaged(page, part)))
    booted = browser.evaluate(BOOT, {})
    assert booted["problem"]["code"] == "page_damaged"
    assert booted["problem"]["params"] == {"part": part}


def test_damaged_machine_code_is_said(browser, altered):
    """Where the checksum is true and the module will not compile, Pyodide by itself would wait for ever."""
    import json

    import page as packer
    import zstandard

    def change(page: str) -> str:
        listed = re.search(r'<script type="application/json" id="parts">(.*?)</script>', page)
        about = json.loads(listed[1])
        raw = b"\0asm\1\0\0\0" + b"\xff" * 64
        packed = zstandard.ZstdCompressor(level=1).compress(raw)
        made = packer.Part("wasm", "worker", "zstd", "base91", len(raw), packed, packer.check_of(packed))
        about["wasm"] = made.about
        blocks = re.compile(r'<script type="text/plain" data-part="wasm">[^<]*</script>\n?')
        at = blocks.search(page).start()
        page = blocks.sub("", page)
        page = page[:at] + made.blocks + page[at:]
        return page.replace(listed[0], f'<script type="application/json" id="parts">{json.dumps(about)}</script>', 1)

    browser.open(altered(change))
    booted = browser.evaluate(BOOT, {})
    assert booted["problem"]["code"] == "boot_failed"
    assert "Compile" in booted["problem"]["params"]["detail"]


def test_a_file_damaged_in_the_page_is_an_error_in_python(browser, altered):
    """It is unpacked only when somebody reads it, and must not bring Python down then."""
    browser.open(altered(lambda page: damaged(page, "data-global")))
    told = browser.evaluate("""
        const engine = await Foamwright.boot({probe: true});
        const code = "from pathlib import Path; import babel; len((Path(babel.__file__).parent / 'global.dat').read_bytes())";
        const told = {};
        await engine.call("probe_python", {code}).catch((problem) => { told.problem = problem; });
        told.hello = await engine.call("hello", {languages: []});
        engine.end();
        return told;
    """)
    assert told["problem"]["code"] == "engine_fault"
    assert "OSError" in told["problem"]["params"]["detail"]
    assert told["hello"]["version"]
