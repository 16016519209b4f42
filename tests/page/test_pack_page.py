"""What stands in the packed page, without a browser."""

import json
import re
import subprocess

import page as packer
import pytest
import text
from hypothesis import example, given, strategies

from build import BUILD, ROOT, node

POLICY = (
    "default-src 'none'; script-src 'unsafe-inline' 'wasm-unsafe-eval' blob:; worker-src blob:; connect-src data: blob:; "
    "style-src 'unsafe-inline'; img-src data: blob:; base-uri 'none'; form-action 'none'"
)
# The aim was 12 MB; web/pack/codec/CODEC.md says what stands above it, and why.
LIMIT = 12_500_000


@pytest.fixture(scope="module")
def page_text(packed_page):
    return packed_page.read_text()


@pytest.fixture(scope="module")
def about(page_text):
    return json.loads(re.search(r'<script type="application/json" id="parts">(.*?)</script>', page_text)[1])


@pytest.fixture(scope="module")
def blocks(page_text):
    found = {}
    for name, block in re.findall(r'<script type="text/plain" data-part="([^"]+)">([^<]*)</script>', page_text):
        found.setdefault(name, []).append(block)
    return found


def test_the_policy_is_the_promise(page_text):
    assert f'<meta http-equiv="Content-Security-Policy" content="{POLICY}">' in page_text
    assert page_text.index("Content-Security-Policy") < page_text.index("<script")


def test_the_page_is_small_enough(packed_page):
    assert packed_page.stat().st_size <= LIMIT


def test_every_part_is_there_in_short_blocks(about, blocks):
    listed = {name for name, part in about.items() if name != "release"}
    assert listed == set(blocks)
    assert {"worker", "wasm", "heap", "index", "engine", "library"} <= listed
    assert max(len(block) for part in blocks.values() for block in part) <= 16_000


def test_large_blocks_stand_behind_the_page(page_text):
    assert page_text.index('id="page"') < page_text.index('data-part="wasm"')
    assert page_text.index('data-part="wasm"') < page_text.index('data-part="heap"')


def test_data_over_50_kb_is_a_part_of_its_own(packed_page):
    index = json.loads((BUILD / "tree" / "index.json").read_text())
    for part, files in index.items():
        large = [path for path, length in files if length > 50_000 and not path.endswith(".py")]
        assert len(large) <= 1, part
        if large:
            assert part not in ("engine", "library"), large


def test_nothing_tells_of_the_machine_it_was_made_on(page_text):
    assert str(ROOT) not in page_text


@pytest.mark.parametrize(
    "markup",
    [
        '<img src="picture.png">',
        '<script src="https://foamwright.invalid/a.js"></script>',
        '<link rel="icon" href="icon.svg">',
        "<iframe src='frame.html'></iframe>",
        '<object data="thing"></object>',
    ],
)
def test_what_is_not_inlined_stops_the_packing(markup, tmp_path):
    with pytest.raises(packer.NotPacked):
        packer.assemble(f"<!doctype html><body>{markup}</body>", tmp_path, [], [], {})


@pytest.mark.parametrize("style", ["@import 'more.css';", "a { background: url(picture.png) }", "a::after { content: '</style>' }"])
def test_a_style_that_asks_for_more_stops_the_packing(style, tmp_path):
    (tmp_path / "style.css").write_text(style)
    with pytest.raises(packer.NotPacked):
        packer.assemble('<link rel="stylesheet" href="style.css">', tmp_path, [], [], {})


def test_scripts_cannot_end_their_element(tmp_path):
    (tmp_path / "app.js").write_text('const a = "</script><b>"; const b = "<!--";')
    made = packer.assemble('<script src="app.js"></script>', tmp_path, [], [], {})
    assert made.count("</script") == 1
    assert "<!--" not in made


READ = """
import { bytesOf } from "./web/pack/runtime/text.js";
import { checkOf } from "./web/pack/runtime/codec.js";
let given = "";
for await (const chunk of process.stdin) given += chunk;
console.log(JSON.stringify(JSON.parse(given).map(([encoding, texts, length]) => {
  const bytes = bytesOf(encoding, texts, length);
  return [Array.from(bytes), checkOf(bytes)];
})));
"""


def read_back(asked):
    done = subprocess.run(
        [str(node()), "--input-type=module", "-e", READ], input=json.dumps(asked), capture_output=True, text=True, cwd=ROOT, check=True
    )
    return json.loads(done.stdout)


def test_text_reads_back_as_the_bytes():
    """One start of Node for all lengths around the groups of 13 bytes, and for every value of a byte."""
    cases = [bytes((7 * i + n) % 256 for i in range(n)) for n in range(120)] + [bytes(range(256)), b"\xff" * 50, bytes(50)]
    asked = [[encoding, _cut(write(data)), len(data)] for data in cases for encoding, write in text.WRITE.items()]
    told = read_back(asked)
    wanted = [[list(data), packer.check_of(data)] for data in cases for _ in text.WRITE]
    assert told == wanted


def _cut(written):
    # 16 characters are a whole number of groups in either way of writing.
    return [written[at : at + 16] for at in range(0, len(written), 16)]


@given(strategies.binary(max_size=300))
@example(b"")
def test_text_is_printable_and_plain(data):
    written = text.base91(data)
    assert set(written) <= {chr(code) for code in range(0x21, 0x7F)} - set("&<>")
    assert len(written) <= -(-len(data) * 8 // 13) * 2
