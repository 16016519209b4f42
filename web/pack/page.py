"""Put the page together: the template, its scripts and style inlined, and the data blocks."""

import gzip
import hashlib
import json
import re
import zlib
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

import zstandard
from text import WRITE

# Long text nodes are slow to parse in WebKit, many short ones are not.
BLOCK = 16_000

_SCRIPT = re.compile(r'<script src="([\w./-]+)"></script>')
_STYLE = re.compile(r'<link rel="stylesheet" href="([\w./-]+)">')
_LEFT_OUT = re.compile(r"""<(?:script|link|img|iframe|source|video|audio|object|embed|use)\b[^>]*?\s(?:src|href|data|srcset)\s*=\s*["']?(?!#|data:)""", re.I)
_STYLE_ADDRESS = re.compile(r"""@import|url\(\s*["']?(?!data:|#)""", re.I)


class NotPacked(Exception):
    """The page would ask for something when opened."""


@dataclass(frozen=True)
class Part:
    """One payload: what it is, how it is packed, and how large it is at each step."""

    name: str
    wanted_by: str
    codec: str
    encoding: str
    raw: int
    packed: bytes
    check: int

    @cached_property
    def text(self) -> str:
        return WRITE[self.encoding](self.packed)

    @property
    def about(self) -> dict[str, object]:
        return {
            "for": self.wanted_by, "codec": self.codec, "text": self.encoding,
            "length": self.raw, "packed": len(self.packed), "check": self.check,
        }  # fmt: skip

    @property
    def blocks(self) -> str:
        text = self.text
        cut = "\n".join(
            f'<script type="text/plain" data-part="{self.name}">{text[at : at + BLOCK]}</script>'
            for at in range(0, len(text), BLOCK)
        )
        return f'{cut}\n<script>Foamwright.arrived("{self.name}")</script>'


def _compress(raw: bytes, codec: str) -> bytes:
    if codec == "gzip":
        return gzip.compress(raw, 9, mtime=0)
    settings = zstandard.ZstdCompressionParameters.from_level(22, window_log=25, write_checksum=False)
    return zstandard.ZstdCompressor(compression_params=settings).compress(raw)


def check_of(packed: bytes) -> int:
    """What web/pack/runtime/codec.js computes before it unpacks."""
    return zlib.adler32(packed)


def part(name: str, raw: bytes, cache: Path, *, wanted_by: str = "worker") -> Part:
    """Pack one payload. What was packed before is taken from the cache, by the hash of what went in."""
    # What the page itself reads it unpacks with what every browser has.
    codec, encoding = ("zstd", "base91") if wanted_by == "worker" else ("gzip", "base64")
    digest = hashlib.sha256(codec.encode() + b"\0" + raw).hexdigest()[:32]
    kept = cache / f"{digest}.{codec}"
    if not kept.exists():
        cache.mkdir(parents=True, exist_ok=True)
        fresh = cache / f"{digest}.new"
        fresh.write_bytes(_compress(raw, codec))
        fresh.replace(kept)
    packed = kept.read_bytes()
    return Part(name, wanted_by, codec, encoding, len(raw), packed, check_of(packed))


def inline_script(source: str) -> str:
    """Script text that cannot end or confuse its element."""
    return source.replace("</script", r"<\/script").replace("<!--", r"<\!--")


def assemble(template: str, folder: Path, first: list[Part], last: list[Part], release: dict[str, str]) -> str:
    """The whole page. `first` are small parts that the first picture needs, `last` are the large ones."""

    def script(match: re.Match[str]) -> str:
        return f"<script>\n{inline_script((folder / match[1]).read_text())}</script>"

    def style(match: re.Match[str]) -> str:
        text = (folder / match[1]).read_text()
        if "</style" in text.lower() or _STYLE_ADDRESS.search(text):
            raise NotPacked(f"{match[1]} asks for another file, or ends its own element")
        return f"<style>\n{text}</style>"

    about: dict[str, object] = {one.name: one.about for one in [*first, *last]}
    about["release"] = release
    listed = json.dumps(about, separators=(",", ":")).replace("<", "\\u003c")
    page = _STYLE.sub(style, template)
    left = _LEFT_OUT.search(_SCRIPT.sub("", page))
    if left:
        raise NotPacked(f"not inlined: {left[0]}")
    page = page.replace("<!-- parts: list -->", f'<script type="application/json" id="parts">{listed}</script>', 1)
    page = page.replace("<!-- parts: first -->", "\n".join(one.blocks for one in first), 1)
    page = page.replace("<!-- parts: last -->", "\n".join(one.blocks for one in last), 1)
    return _SCRIPT.sub(script, page)
