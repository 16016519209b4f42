"""Runs in the page's own Python at build time: strip and compile the sources it will carry.

Docstrings and comments are left out of what is packed, line numbers stay true. Byte code loads without
the parser, which keeps the parser's litter out of the memory snapshot.
"""

import ast
import importlib.util
import io
import tokenize
from importlib._bootstrap_external import _code_to_hash_pyc
from pathlib import Path


def _cut(lines: list[bytes], start: tuple[int, int], end: tuple[int, int], put: bytes) -> None:
    """Replace a stretch by `put`, keeping every line break. Lines from 1, columns in UTF-8 bytes."""
    (top, left), (bottom, right) = start, end
    if top == bottom:
        lines[top - 1] = lines[top - 1][:left] + put + lines[top - 1][right:]
        return
    lines[top - 1] = lines[top - 1][:left] + put + b"\n"
    for line in range(top, bottom - 1):
        lines[line] = b"\n"
    lines[bottom - 1] = lines[bottom - 1][right:].lstrip(b" \t")


def strip(source: bytes) -> bytes:
    """The same program without comments and docstrings, its statements on the same lines."""
    text = importlib.util.decode_source(source)
    tree = ast.parse(text)
    cuts = []
    rows = text.split("\n")
    for node in ast.walk(tree):
        if isinstance(node, ast.Module | ast.ClassDef | ast.FunctionDef | ast.AsyncFunctionDef) and node.body:
            first = node.body[0]
            if isinstance(first, ast.Expr) and isinstance(first.value, ast.Constant) and isinstance(first.value.value, str):
                value = first.value
                cuts.append(((value.lineno, value.col_offset), (value.end_lineno, value.end_col_offset), b'""'))
    for token in tokenize.generate_tokens(io.StringIO(text).readline):
        if token.type == tokenize.COMMENT:
            left = len(rows[token.start[0] - 1][: token.start[1]].encode())
            cuts.append(((token.start[0], left), (token.start[0], left + len(token.string.encode())), b""))
    lines = [row + b"\n" for row in text.encode().split(b"\n")]
    for start, end, put in sorted(cuts, reverse=True):
        _cut(lines, start, end, put)
    stripped = b"".join(lines)
    _same(text, stripped)
    return stripped


def _same(text: str, stripped: bytes) -> None:
    """Refuse a stripping that changed the program."""
    want, got = ast.parse(text), ast.parse(stripped)
    for tree in (want, got):
        for node in ast.walk(tree):
            if isinstance(node, ast.Module | ast.ClassDef | ast.FunctionDef | ast.AsyncFunctionDef) and node.body:
                first = node.body[0]
                if isinstance(first, ast.Expr) and isinstance(first.value, ast.Constant) and isinstance(first.value.value, str):
                    first.value.value = ""
    if ast.dump(want) != ast.dump(got):
        raise ValueError("stripping comments changed the program")


def compiled(source: bytes, path: str) -> bytes:
    """Byte code that is never checked against its source."""
    code = compile(source, path, "exec", dont_inherit=True)
    return bytes(_code_to_hash_pyc(code, importlib.util.source_hash(source), checked=False))


def write_both(path: str, out: str) -> None:
    """Write `out`.py and `out`.pyc for the source at `path`."""
    stripped = strip(Path(path).read_bytes())
    Path(f"{out}.py").write_bytes(stripped)
    Path(f"{out}.pyc").write_bytes(compiled(stripped, path))
