"""Public functions of the rooms say what they are, where they come from, and every unit."""

import doctest
import importlib
import inspect
import pkgutil
import re
from collections.abc import Iterator
from types import ModuleType
from typing import Any

import attrs
import pytest

ROOMS = ("shape", "material", "structure", "finishes", "site", "money", "diary", "estimate", "data")
_UNIT = re.compile(r"\[[^\[\]]+\]$")


def _modules() -> Iterator[ModuleType]:
    for room in ROOMS:
        module = importlib.import_module(f"foamwright.{room}")
        yield module
        for found in pkgutil.iter_modules(getattr(module, "__path__", [])):
            yield importlib.import_module(f"{module.__name__}.{found.name}")


MODULES = list(_modules())


def _own(module: ModuleType) -> Iterator[tuple[str, Any]]:
    for name, thing in vars(module).items():
        if not name.startswith("_") and getattr(thing, "__module__", "") == module.__name__:
            yield f"{module.__name__}.{name}", thing


def _functions() -> Iterator[tuple[str, Any]]:
    """Give public functions, and public methods that take something and say more than one line."""
    for module in MODULES:
        for name, thing in _own(module):
            if inspect.isfunction(thing) or hasattr(thing, "__wrapped__"):
                yield name, inspect.unwrap(thing)
            elif attrs.has(thing):
                for method, code in vars(thing).items():
                    wordy = inspect.isfunction(code) and "\n" in (code.__doc__ or "")
                    if wordy and not method.startswith("_"):
                        yield f"{name}.{method}", code


FUNCTIONS = dict(_functions())
RECORDS = {name: thing for module in MODULES for name, thing in _own(module) if attrs.has(thing)}
#: Pieces of a meridian do what the Piece protocol says, and carry no words of their own.
PIECES = {"foamwright.shape.meridian.Upright", "foamwright.shape.meridian.Sphere"}


def _section(doc: str, title: str) -> list[tuple[str, str]]:
    """Return name and text of each entry of a numpydoc section."""
    match = re.search(rf"^{title}\n-+\n(.*?)(?=^\S[^\n]*\n-+\n|\Z)", doc, re.MULTILINE | re.DOTALL)
    entries: list[tuple[str, str]] = []
    for line in (match.group(1) if match else "").splitlines():
        if line and not line.startswith(" "):
            entries.append((line.split(" : ")[0].strip(), ""))
        elif line.strip() and entries:
            name, text = entries[-1]
            entries[-1] = (name, f"{text} {line.strip()}".strip())
    return entries


def test_there_is_something_to_look_at() -> None:
    """The walk finds the functions that the rooms are known for."""
    assert {"foamwright.material.mix.solve", "foamwright.shape.meridian.Face.radius"} <= set(
        FUNCTIONS
    )
    assert len(FUNCTIONS) > 40 and len(RECORDS) > 20


@pytest.mark.parametrize("name", FUNCTIONS)
def test_functions(name: str) -> None:
    """One sentence, a source, each parameter in order with its unit, a result with its unit, an example."""
    code = FUNCTIONS[name]
    doc = inspect.getdoc(code) or ""
    assert re.match(r"[A-Z][^\n]*\.(\n|$)", doc), "one sentence on the first line"
    assert "Source: " in doc
    expected = [p for p in inspect.signature(code).parameters if p != "self"]
    entries = _section(doc, "Parameters")
    assert [entry for entry, _ in entries] == expected
    for entry, text in entries:
        assert _UNIT.search(text), f"{entry} ends with no unit"
    results = _section(doc, "Returns")
    assert results and all(_UNIT.search(text) for _, text in results)
    assert ">>> " in doc


@pytest.mark.parametrize("name", sorted(set(RECORDS) - PIECES))
def test_records(name: str) -> None:
    """Each attribute stands in the docstring, in order, with its unit."""
    record = RECORDS[name]
    entries = _section(inspect.getdoc(record) or "", "Attributes")
    assert [entry for entry, _ in entries] == [a.name for a in attrs.fields(record)]
    for entry, text in entries:
        assert _UNIT.search(text), f"{entry} ends with no unit"


@pytest.mark.parametrize("module", MODULES, ids=lambda module: module.__name__)
def test_examples(module: ModuleType) -> None:
    """Every example in the module gives what it says."""
    found = doctest.testmod(module)
    assert found.failed == 0
