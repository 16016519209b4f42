"""Measure how the large payloads may be packed, and write the tables of CODEC.md beside this file.

    python3 build.py pack && .venv/bin/python web/pack/codec/table.py

Each time is the middle one of several trials, each in a fresh worker of the browser named, so that what the
browser must compile first is counted.
"""

import gzip
import hashlib
import lzma
import statistics
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

ROOT = Path(__file__).resolve().parents[3]
sys.path[:0] = [str(ROOT / "web" / "pack"), str(ROOT / "tests" / "page"), str(ROOT)]

import brotli  # noqa: E402
import browsers  # noqa: E402
import text  # noqa: E402
import zstandard  # noqa: E402

CACHE = ROOT / ".build" / "codec"
DOCUMENT = Path(__file__).with_name("CODEC.md")
BEGIN, END = "<!-- measured -->", "<!-- end -->"
TRIALS = 7
BLOCK = 16_000


def _zstd(raw: bytes) -> bytes:
    settings = zstandard.ZstdCompressionParameters.from_level(22, window_log=25)
    return zstandard.ZstdCompressor(compression_params=settings).compress(raw)


def _xz(raw: bytes) -> bytes:
    return lzma.compress(raw, check=lzma.CHECK_CRC32, filters=[{"id": lzma.FILTER_LZMA2, "preset": 9 | lzma.PRESET_EXTREME}])


PACKERS: dict[str, Callable[[bytes], bytes]] = {
    "gzip": lambda raw: gzip.compress(raw, 9, mtime=0),
    "zstd": _zstd,
    "brotli": lambda raw: brotli.compress(raw, quality=11, lgwin=24),
    "xz": _xz,
}
# Decoder, packer, and the modules that carry the decoder, as esbuild bundles them.
DECODERS = {
    "gzip": ("gzip", ""),
    "zstd, fzstd": ("zstd", 'import {decompress} from "fzstd"; self.x = decompress'),
    "zstd, zstddec": ("zstd", 'import {ZSTDDecoder} from "zstddec"; self.x = ZSTDDecoder'),
    "brotli": (
        "brotli",
        'import {decompress, initSync} from "brotli-dec-wasm/web";'
        'import wasm from "brotli-dec-wasm/web/bg.wasm"; self.x = [decompress, initSync, wasm]',
    ),
    "xz": ("xz", 'import {XzReadableStream} from "xz-decompress"; self.x = XzReadableStream'),
}


def packed(packer: str, raw: bytes) -> bytes:
    kept = CACHE / f"{hashlib.sha256(raw).hexdigest()[:24]}.{packer}"
    if not kept.exists():
        CACHE.mkdir(parents=True, exist_ok=True)
        kept.write_bytes(PACKERS[packer](raw))
    return kept.read_bytes()


def esbuild(*arguments: str, given: str | None = None) -> str:
    """Bundle as the page's own scripts are."""
    return subprocess.run(
        [
            ROOT / "web" / "node_modules" / ".bin" / "esbuild", "--bundle", "--format=iife", "--minify-whitespace", "--loader:.wasm=binary",
            '--define:import.meta.url="about:blank"', "--log-level=error", *arguments,
        ],
        input=given, capture_output=True, text=True, check=True, cwd=ROOT / "web",
    ).stdout  # fmt: skip


def decoder_size(source: str) -> int:
    """Bytes that a decoder adds to the worker script, which is gzipped."""
    return len(gzip.compress(esbuild(given=source).encode(), 9)) if source else 0


def main() -> int:
    payloads = {
        "wasm": (ROOT / "web/node_modules/pyodide/pyodide.asm.wasm").read_bytes(),
        "heap": (ROOT / ".build/heap.bin").read_bytes(),
        "library": (ROOT / ".build/tree/library.bin").read_bytes(),
    }
    blocks = []
    texts: dict[tuple[str, str, str], int] = {}
    for name, raw in payloads.items():
        for packer in PACKERS:
            data = packed(packer, raw)
            for encoding in ["base64", "base91"] if packer == "zstd" else ["base64"]:
                written = text.WRITE[encoding](data)
                texts[name, packer, encoding] = len(written)
                blocks += [
                    f'<script type="text/plain" data-part="{name}-{packer}-{encoding}">{written[at : at + BLOCK]}</script>'
                    for at in range(0, len(written), BLOCK)
                ]
    worker = esbuild("pack/codec/worker.js").replace("</script", "<\\/script").replace("<!--", "<\\!--")
    page = CACHE / "page.html"
    page.write_text(f'<!doctype html><meta charset="utf-8"><script type="text/plain" id="worker">{worker}</script>' + "\n".join(blocks))

    trial = """
        const texts = Array.from(document.querySelectorAll(`script[data-part="${given.part}"]`), (block) => block.textContent);
        const source = document.getElementById("worker").textContent.replaceAll("<\\\\/script", "</script");
        const worker = new Worker(URL.createObjectURL(new Blob([source], {type: "text/javascript"})));
        const times = await new Promise((resolve, reject) => {
          worker.onmessage = (event) => resolve(event.data);
          worker.onerror = (event) => reject(new Error(event.message));
          worker.postMessage({...given, texts});
        });
        worker.terminate();
        return times;
    """
    times: dict[tuple[str, str, str], str] = {}
    encodings: dict[tuple[str, str], str] = {}
    for engine in browsers.NAMES:
        browser = browsers.start(engine)
        browser.open(page)

        def middle(given: dict[str, object], *keys: str, browser: browsers.Browser = browser) -> str:
            runs = [browser.evaluate(trial, given) for _ in range(TRIALS)]
            return " + ".join(f"{statistics.median(run[key] for run in runs):.0f}" for key in keys)

        for name, raw in payloads.items():
            for decoder, (packer, _) in DECODERS.items():
                size = len(packed(packer, raw))
                given = {"part": f"{name}-{packer}-base64", "encoding": "base64", "packed": size, "length": len(raw), "decoder": decoder}
                times[name, decoder, engine] = middle(given, "start", "unpack")
        for encoding in text.WRITE:
            size = len(packed("zstd", payloads["heap"]))
            given = {"part": f"heap-zstd-{encoding}", "encoding": encoding, "packed": size, "length": 0, "decoder": ""}
            encodings[encoding, engine] = middle(given, "text")
        browser.quit()

    rows = [
        f"| {name} | {len(raw):,} | {decoder} | {len(packed(packer, raw)):,} | {decoder_size(source):,} | "
        + " | ".join(times[name, decoder, engine] for engine in browsers.NAMES)
        + " |"
        for name, raw in payloads.items()
        for decoder, (packer, source) in DECODERS.items()
    ]
    lines = [
        "| payload | raw | packed by | bytes | decoder, gzipped | chromium, ms | firefox, ms | webkit, ms |",
        "| --- | --- | --- | --- | --- | --- | --- | --- |",
        *rows,
        "",
        "| the heap's zstd as text | characters | chromium, ms | firefox, ms | webkit, ms |",
        "| --- | --- | --- | --- | --- |",
        *[
            f"| {encoding} | {texts['heap', 'zstd', encoding]:,} | " + " | ".join(encodings[encoding, engine] for engine in browsers.NAMES) + " |"
            for encoding in text.WRITE
        ],
        "",
        "| the three together in the page, with the decoder, MB | as base64 | as base91 |",
        "| --- | --- | --- |",
        *[
            f"| {decoder} | " + " | ".join(f"{(total * factor + decoder_size(source) * 4 / 3) / 1e6:.2f}" for factor in (4 / 3, 16 / 13)) + " |"
            for decoder, (packer, source) in DECODERS.items()
            for total in [sum(len(packed(packer, raw)) for raw in payloads.values())]
        ],
    ]
    told = "\n".join(lines)
    print(told)
    before, rest = DOCUMENT.read_text().split(BEGIN)
    DOCUMENT.write_text(f"{before}{BEGIN}\n\n{told}\n\n{END}{rest.split(END)[1]}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
