"""Bytes as text that stands unchanged in an HTML script element; web/pack/runtime/text.js reads it back."""

import base64
from collections.abc import Callable

_ALPHABET = "".join(chr(code) for code in range(0x21, 0x7F) if chr(code) not in "&<>")
_PAIRS = [_ALPHABET[value % 91] + _ALPHABET[value // 91] for value in range(1 << 13)]


def base91(data: bytes) -> str:
    """13 bits in two characters, lowest first."""
    out = []
    # 13 bytes are eight pairs.
    padded = data + bytes(-len(data) % 13)
    for at in range(0, len(padded), 13):
        group = int.from_bytes(padded[at : at + 13], "little")
        out.append("".join(_PAIRS[group >> shift & 0x1FFF] for shift in range(0, 104, 13)))
    text = "".join(out)
    bits = len(data) * 8
    return text[: 2 * -(-bits // 13)]


def base64_(data: bytes) -> str:
    return base64.b64encode(data).decode()


WRITE: dict[str, Callable[[bytes], str]] = {"base64": base64_, "base91": base91}
