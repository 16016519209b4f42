"""Store what must never change, for fields that are new: ``python tests/engine/record.py``.

After a field is added to ``model.py`` and has its number in ``link.py``, this adds to

- ``tests/data/defaults_format_<n>.json`` the default of the field,
- ``tests/data/link_numbers.json`` its number, and the number of a new word,
- ``tests/data/codes.json`` a code that states it.

It only ever adds: where a stored value would change, it says so and stores nothing.
"""

import json
import random
import sys
from pathlib import Path
from typing import Any

import attrs

from foamwright.project import link
from foamwright.project.model import FORMAT, Addition, Mark, Opening, Part, Price, Project
from foamwright.project.read import read_project
from foamwright.project.write import as_data
from projects import build, together

DATA = Path(__file__).parents[1] / "data"
DEFAULTS = DATA / f"defaults_format_{FORMAT}.json"
NUMBERS = DATA / "link_numbers.json"
CODES = DATA / "codes.json"


def current_defaults() -> dict[str, Any]:
    """Give every default: of the project, and of the items that its lists take."""
    items = {cls.__name__: _plain(cls()) for cls in (Part, Opening, Price, Mark, Addition)}
    return {"Project": as_data(Project(), full=True), **items}


def current_numbers() -> dict[str, Any]:
    """Give every number that a code may hold."""
    groups = {
        group: {str(number): [name, kind] for number, name, kind in sorted(fields)}
        for group, fields in link.GROUPS.items()
    }
    return {
        "groups": groups,
        "words": {str(n): word for n, word in link.WORDS},
        "letters": link._COMMON,
    }


def stated_fields(projects: list[dict[str, Any]]) -> set[tuple[str, str]]:
    """Give the fields that some of the projects state."""
    found: set[tuple[str, str]] = set()

    def visit(group: str, data: dict[str, Any]) -> None:
        for _, name, kind in link.GROUPS[group]:
            if name not in data:
                continue
            found.add((group, name))
            if kind.rstrip("*") in link.GROUPS:
                for item in data[name] if kind.endswith("*") else [data[name]]:
                    visit(kind.rstrip("*"), item)

    for data in projects:
        visit("Project", data)
    return found


def all_fields() -> set[tuple[str, str]]:
    """Give every field that has a number."""
    return {(group, name) for group, fields in link.GROUPS.items() for _, name, _ in fields}


def full_code() -> dict[str, Any]:
    """Pack a project that states every field, also where it is the default."""
    source = random.Random(7)

    def pick(path: str, attribute: Any) -> Any:
        meta = attribute.metadata
        if meta["kind"] == "many":
            return 2
        if meta["kind"] == "choice":
            return meta["choices"][-1]
        if meta["kind"] == "names":
            return meta["choices"][-3:]
        if meta["kind"] == "row":
            return (1.5, -2.25)
        if meta["kind"] == "points":
            return ((0.0, 0.0), (4.5, 0.0), (4.5, 3.25))
        if meta["kind"] == "numbers":
            return (1, 3)
        if meta["kind"] == "number":
            value = source.uniform(meta["low"], min(meta["high"], meta["low"] + 500))
            return round(value) or 1 if meta["whole"] else round(value, 2)
        said = {"currency": "EUR", "from_currency": "MXN", "date": "2026-03-31", "country": "ES"}
        return said.get(attribute.name, "Tavomira")

    data = as_data(together(build(Project, pick)), full=True)
    body = bytearray()
    link._put_whole(body, FORMAT * 2)
    link._put_group(body, "Project", data, dense=True)
    made = {"project": data, "code": link._seal(bytes(body))}
    assert link.decode(made["code"]) == read_project(data)
    return made


def _plain(item: Any) -> Any:
    return json.loads(json.dumps(attrs.asdict(item)))


def _merge(path: str, old: Any, new: Any, changed: list[str]) -> Any:
    if isinstance(old, dict) and isinstance(new, dict):
        changed += [f"{path}.{key} is gone" for key in old.keys() - new.keys()]
        return {
            key: _merge(f"{path}.{key}", old[key], value, changed) if key in old else value
            for key, value in new.items()
        }
    if isinstance(old, list) and isinstance(new, list) and len(old) == len(new):
        pairs = enumerate(zip(old, new, strict=True))
        return [_merge(f"{path}[{i}]", before, after, changed) for i, (before, after) in pairs]
    if old != new:
        changed.append(f"{path} was {old!r} and would be {new!r}")
    return new


def main() -> int:
    """Add what is new to the three files."""
    changed: list[str] = []
    stored: dict[Path, Any] = {}
    for path, current in ((DEFAULTS, current_defaults()), (NUMBERS, current_numbers())):
        old = json.loads(path.read_text("utf-8")) if path.exists() else {}
        stored[path] = _merge(path.stem, old, current, changed)
    codes = json.loads(CODES.read_text("utf-8"))
    missing = all_fields() - stated_fields([golden["project"] for golden in codes.values()])
    if missing:
        codes[f"everything stated, {len(codes)}"] = full_code()
    stored[CODES] = codes
    if changed:
        print("\n".join(changed), "Nothing was stored; see migrate.py.", sep="\n")
        return 1
    for path, content in stored.items():
        path.write_text(json.dumps(content, ensure_ascii=False, indent=1) + "\n", encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main())
