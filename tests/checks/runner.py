"""Run check values that stand as data beside this file.

A check names either a ``call`` (a dotted name of the engine, with ``args``, and ``then`` a chain of
attributes, methods or places in a row) or a ``project`` and a ``path`` in its estimate. A dictionary
with ``call`` among the arguments is called first. Whoever has another engine at hand, such as the
packed page, passes a way to ``estimate`` with it; such an engine need not run the calls.
"""

import inspect
import json
import re
from collections.abc import Callable
from importlib import import_module
from pathlib import Path
from typing import Any

#: What a check must say of itself.
FIELDS = ("id", "what", "source", "kind", "expected", "tolerance", "tolerance_reason")
#: Where its figure comes from; a number that this engine made is a ``regression`` and nothing else.
KINDS = ("published", "derived", "common_practice", "memory", "regression")

Check = dict[str, Any]


def load() -> list[Check]:
    """Read every check, file by file."""
    files = sorted(Path(__file__).parent.glob("*.json"))
    return [check for file in files for check in json.loads(file.read_text("utf-8"))["checks"]]


def estimated(project: dict[str, Any]) -> dict[str, Any]:
    """Estimate a project with the engine of this Python."""
    from foamwright.estimate import as_json, estimate
    from foamwright.project.read import read_project

    reading = read_project(json.dumps({"format": 1} | project))
    assert reading.project is not None, reading.problems
    return as_json(estimate(reading.project))


def value(check: Check, estimate: Callable[[dict[str, Any]], dict[str, Any]] = estimated) -> Any:
    """Return what the engine makes of a check."""
    if "call" in check:
        found = _called(check)
        for step in check.get("then", ()):
            found = found[int(step)] if step.isdigit() else getattr(found, step)
            found = found() if callable(found) else found
        return found
    outcome = estimate(check["project"])
    assert outcome["estimate"] is not None, outcome["problems"]
    return at(outcome["estimate"], check["path"])


def holds(check: Check, found: Any) -> bool:
    """Say whether a value is the expected one within the check's own tolerance."""
    expected = check["expected"]
    if isinstance(expected, (bool, str)) or check["tolerance"] == 0:
        return bool(found == expected)
    return bool(abs(found - expected) <= check["tolerance"])


def at(data: Any, path: str) -> Any:
    """Follow a path such as ``batches.options[0].fits``."""
    for name, place in re.findall(r"(\w+)|\[(\d+)\]", path):
        data = data[int(place)] if place else data[name]
    return data


def _called(check: dict[str, Any]) -> Any:
    names = check["call"].split(".")
    for cut in range(len(names), 0, -1):
        try:
            found = import_module(".".join(names[:cut]))
        except ModuleNotFoundError as error:
            if not check["call"].startswith(f"{error.name}"):
                raise
            continue
        for name in names[cut:]:
            found = getattr(found, name)
        break
    else:
        raise LookupError(check["call"])
    if "args" not in check:
        return found
    args = {
        name: _called(arg) if isinstance(arg, dict) and "call" in arg else arg
        for name, arg in check["args"].items()
    }
    inspect.signature(found).bind(**args)
    return found(**args)
