"""Read a project: text or data in, a checked Project or a list of Problems out, and never a fault.

The rules stand beside the fields in ``model.py``; here each kind of field has one reading function,
so a new field needs nothing here and a new kind needs one function.
"""

import datetime
import json
import math
import re
from collections import Counter
from collections.abc import Callable, Mapping
from difflib import get_close_matches
from functools import cache
from typing import Any, Final, cast

import attrs
from attrs import frozen

from foamwright.project import migrate
from foamwright.project.model import Part, Project
from foamwright.project.notes import Problem, Scalar
from foamwright.project.quote import MAX_QUOTED, UNPRINTABLE, UNPRINTABLE_IN_LINE, quote

#: Longest text of a project file, in bytes of UTF-8.
MAX_BYTES: Final = 8_000_000
#: Deepest nesting of brackets; a project itself needs five.
MAX_DEPTH: Final = 16
#: Most problems told at once; one more then counts the rest.
MAX_PROBLEMS: Final = 50

_STRING_OR_BRACKET: Final = re.compile(r'"(?:[^"\\]++|\\.)*+"?|[\[\]{}]', re.DOTALL)
_CURRENCY: Final = re.compile(r"[A-Z]{3}", re.ASCII)
_DATE: Final = re.compile(r"\d{4}-\d{2}-\d{2}", re.ASCII)


@frozen
class Reading:
    """What came of reading: the project, or why there is none.

    With problems there is no project, save where every problem is an ``unknown_key``: then the
    project is what could be understood.

    Attributes
    ----------
    project : Project or None
        The project, read and checked [-]
    problems : tuple of Problem
        What cannot be taken, by path [-]
    """

    project: Project | None
    problems: tuple[Problem, ...] = ()


class JsonObject(dict[str, Any]):
    """A JSON object that remembers which keys stood in it twice."""

    twice: tuple[str, ...] = ()


class JsonLiteral(str):
    """A JSON number that no float holds, as it was written."""


class _Missing:
    """Stands for a value that could not be read; a problem says why."""


_MISSING: Final = _Missing()


def read_project(
    source: str | bytes | Mapping[str, Any], *, steps: migrate.Steps = migrate.STEPS
) -> Reading:
    """Read a project from a file's text or bytes, or from data already parsed.

    Source: RFC 8259 (JSON) for the text, ``model.py`` for the fields.

    Parameters
    ----------
    source : str, bytes or mapping
        The project: text, UTF-8 bytes, or a mapping as JSON would give it [-]
    steps : mapping
        Migrations by the format that they start from [-]

    Returns
    -------
    Reading
        The project, or its problems; at most 50 and one that counts the rest [-]

    Notes
    -----
    Valid for text of at most 8 000 000 bytes, nested at most 16 deep. Raises nothing.

    Examples
    --------
    >>> read_project('{"format": 1, "name": "Lindenhof"}').project.name
    'Lindenhof'
    >>> problem, = read_project('{"format": 1, "parts": [{"thickness_m": -0.2}]}').problems
    >>> problem.path, problem.value, problem.limit, problem.code
    ('parts[0].thickness_m', -0.2, 0.03, 'too_small')
    """
    data: Any = source
    problems: list[Problem] = []
    if isinstance(source, str | bytes | bytearray):
        data, problems = _parse(source)
    if not problems and not isinstance(data, Mapping):
        problems = [Problem("", quote(data), "object", "not_object")]
    if problems:
        return Reading(None, _first(problems))
    data, problems = migrate.to_current(data, steps)
    if problems:
        return Reading(None, _first(problems))
    data = {key: value for key, value in data.items() if key != "format"}
    project = cast("Project | _Missing", read_group(Project, data, "", problems))
    if not isinstance(project, _Missing) and not _fatal(problems):
        problems += _together(project)
    if isinstance(project, _Missing) or _fatal(problems):
        return Reading(None, _first(problems))
    return Reading(project, _first(problems))


def _fatal(problems: list[Problem]) -> bool:
    return any(problem.code != "unknown_key" for problem in problems)


def _first(problems: list[Problem]) -> tuple[Problem, ...]:
    rest = len(problems) - MAX_PROBLEMS
    if rest <= 0:
        return tuple(problems)
    return (*problems[:MAX_PROBLEMS], Problem("", rest, MAX_PROBLEMS, "more_problems"))


# --- text -------------------------------------------------------------------------------------


def _parse(source: str | bytes | bytearray) -> tuple[Any, list[Problem]]:
    if len(source) > MAX_BYTES:
        return None, [Problem("", len(source), MAX_BYTES, "too_large")]
    if isinstance(source, str):
        text = source
        size = len(text.encode("utf-8", "surrogatepass"))
        if size > MAX_BYTES:
            return None, [Problem("", size, MAX_BYTES, "too_large")]
    else:
        try:
            text = source.decode("utf-8")
        except UnicodeDecodeError as fault:
            byte = f"0x{source[fault.start]:02x}"
            where: dict[str, Scalar] = {"position": fault.start}
            return None, [Problem("", byte, "UTF-8", "not_text", where)]
    text = text.removeprefix("\ufeff")
    depth = depth_of(text)
    if depth > MAX_DEPTH:
        return None, [Problem("", depth, MAX_DEPTH, "too_deep")]
    twice: list[str] = []

    def pairs(items: list[tuple[str, Any]]) -> JsonObject:
        made = JsonObject(items)
        if len(made) < len(items):
            counts = Counter(key for key, _ in items)
            made.twice = tuple(key for key, count in counts.items() if count > 1)
            twice.extend(made.twice)
        return made

    try:
        data = json.loads(
            text, object_pairs_hook=pairs, parse_constant=JsonLiteral, parse_float=json_float, parse_int=json_int
        )
    except json.JSONDecodeError as fault:
        place: dict[str, Scalar] = {"line": fault.lineno, "column": fault.colno}
        return None, [Problem("", quote(text[fault.pos :]), "JSON", "not_json", place)]
    return data, list(named_twice(data, "")) if twice else []


def depth_of(text: str) -> int:
    # Counted before parsing: the parser itself recurses, and must never be led to the end of its stack.
    depth = deepest = 0
    for match in _STRING_OR_BRACKET.finditer(text):
        mark = match[0]
        if mark in "[{":
            depth += 1
            deepest = max(deepest, depth)
        elif mark in "]}":
            depth -= 1
    return deepest


def json_float(literal: str) -> float | JsonLiteral:
    value = float(literal)
    return value if math.isfinite(value) else JsonLiteral(literal)


def json_int(literal: str) -> int | float | JsonLiteral:
    # int() of many digits is slow and, beyond 4300, refused.
    return int(literal) if len(literal) < 20 else json_float(literal)


def named_twice(data: Any, path: str) -> list[Problem]:
    found: list[Problem] = []
    if isinstance(data, JsonObject):
        found += [Problem(_join(path, key), quote(key), 1, "duplicate_key") for key in data.twice]
        for key, value in data.items():
            found += named_twice(value, _join(path, key))
    elif isinstance(data, list):
        for index, value in enumerate(data):
            found += named_twice(value, f"{path}[{index}]")
    return found


def _join(path: str, key: object) -> str:
    name = str(quote(key))
    return f"{path}.{name}" if path else name


# --- fields -----------------------------------------------------------------------------------


@cache
def _fields(cls: type[Any]) -> dict[str, "attrs.Attribute[Any]"]:
    return {attribute.name: attribute for attribute in attrs.fields(cls)}


def read_group(cls: type[Any], data: Any, path: str, problems: list[Problem]) -> object:
    if not isinstance(data, Mapping):
        problems.append(_wrong(path, data, "object"))
        return _MISSING
    fields = _fields(cast(Any, cls))
    values: dict[str, object] = {}
    whole = True
    for key, value in data.items():
        attribute = fields.get(key) if isinstance(key, str) else None
        if attribute is None:
            problems.append(_unknown(path, key, tuple(fields)))
            continue
        meta = attribute.metadata
        # The name of a field needs no quoting.
        taken = _KINDS[meta["kind"]](meta, value, f"{path}.{key}" if path else key, problems)
        whole = whole and taken is not _MISSING
        values[key] = taken
    return cls(**values) if whole else _MISSING


def _unknown(path: str, key: object, known: tuple[str, ...]) -> Problem:
    # difflib takes quadratic time, so only a short key is compared.
    near = get_close_matches(key, known, 1) if isinstance(key, str) and len(key) < MAX_QUOTED else []
    params: dict[str, Scalar] = {"nearest": near[0]} if near else {}
    return Problem(_join(path, key), quote(key), ", ".join(known), "unknown_key", params)


def _wrong(path: str, value: object, kind: str) -> Problem:
    return Problem(path, quote(value), kind, "missing" if value is None else "wrong_kind")


def _group_field(meta: Mapping[str, Any], value: Any, path: str, problems: list[Problem]) -> object:
    return read_group(meta["cls"], value, path, problems)


def _number(meta: Mapping[str, Any], value: Any, path: str, problems: list[Problem]) -> object:
    if value is None and meta["optional"]:
        return None
    problem = _number_problem(meta, value, path)
    if problem:
        problems.append(problem)
        return _MISSING
    # Adding zero turns -0.0 into 0.0, which compares equal but is written otherwise.
    return int(value) if meta["whole"] else float(value) + 0.0


def _number_problem(meta: Mapping[str, Any], value: Any, path: str) -> Problem | None:
    low, high = meta["low"], meta["high"]
    if isinstance(value, JsonLiteral):
        if value in ("NaN", "Infinity", "-Infinity"):
            return Problem(path, str(value), high, "not_finite")
        if value.startswith("-"):
            return Problem(path, quote(str(value)), low, "too_small")
        return Problem(path, quote(str(value)), high, "too_big")
    if isinstance(value, bool) or not isinstance(value, int | float):
        return _wrong(path, value, "number")
    if isinstance(value, float) and not math.isfinite(value):
        return Problem(path, quote(value), high, "not_finite")
    if value < low:
        return Problem(path, quote(value), low, "too_small")
    if value > high:
        return Problem(path, quote(value), high, "too_big")
    if meta.get("whole") and value != int(value):
        return Problem(path, quote(value), "whole", "not_whole")
    return None


def _choice(meta: Mapping[str, Any], value: Any, path: str, problems: list[Problem]) -> object:
    if not isinstance(value, str) or isinstance(value, JsonLiteral):
        problems.append(_wrong(path, value, "text"))
        return _MISSING
    if value not in meta["choices"]:
        problems.append(Problem(path, quote(value), ", ".join(meta["choices"]), "not_a_choice"))
        return _MISSING
    return value


def _text(meta: Mapping[str, Any], value: Any, path: str, problems: list[Problem]) -> object:
    if value is None and meta["optional"]:
        return None
    if not isinstance(value, str) or isinstance(value, JsonLiteral):
        problems.append(_wrong(path, value, "text"))
        return _MISSING
    if len(value) > meta["longest"]:
        length: dict[str, Scalar] = {"length": len(value)}
        problems.append(Problem(path, quote(value), meta["longest"], "text_too_long", length))
        return _MISSING
    if meta["lines"]:
        value = value.replace("\r\n", "\n")
    bad = (UNPRINTABLE if meta["lines"] else UNPRINTABLE_IN_LINE).search(value)
    if bad:
        what: dict[str, Scalar] = {"character": f"U+{ord(bad[0]):04X}", "position": bad.start()}
        problems.append(Problem(path, quote(value), "printable", "text_unprintable", what))
        return _MISSING
    return str(value)


def _many(meta: Mapping[str, Any], value: Any, path: str, problems: list[Problem]) -> object:
    if not isinstance(value, list | tuple):
        problems.append(_wrong(path, value, "list"))
        return _MISSING
    if len(value) > meta["most"]:
        problems.append(Problem(path, len(value), meta["most"], "too_many"))
        return _MISSING
    if len(value) < meta["least"]:
        problems.append(Problem(path, len(value), meta["least"], "too_few"))
        return _MISSING
    items = tuple(
        read_group(meta["cls"], item, f"{path}[{index}]", problems) for index, item in enumerate(value)
    )
    return _MISSING if _MISSING in items else items


def _row(meta: Mapping[str, Any], value: Any, path: str, problems: list[Problem]) -> object:
    if not isinstance(value, list | tuple):
        problems.append(_wrong(path, value, "list"))
        return _MISSING
    if len(value) != meta["length"]:
        code = "too_many" if len(value) > meta["length"] else "too_few"
        problems.append(Problem(path, len(value), meta["length"], code))
        return _MISSING
    each = {**meta, "optional": False, "whole": False}
    items = tuple(_number(each, item, f"{path}[{index}]", problems) for index, item in enumerate(value))
    return _MISSING if _MISSING in items else items


def _points(meta: Mapping[str, Any], value: Any, path: str, problems: list[Problem]) -> object:
    if not isinstance(value, list | tuple):
        problems.append(_wrong(path, value, "list"))
        return _MISSING
    if len(value) > meta["most"]:
        problems.append(Problem(path, len(value), meta["most"], "too_many"))
        return _MISSING
    items = tuple(_row(meta, item, f"{path}[{index}]", problems) for index, item in enumerate(value))
    return _MISSING if _MISSING in items else items


def _numbers(meta: Mapping[str, Any], value: Any, path: str, problems: list[Problem]) -> object:
    if not isinstance(value, list | tuple):
        problems.append(_wrong(path, value, "list"))
        return _MISSING
    if len(value) > meta["most"]:
        problems.append(Problem(path, len(value), meta["most"], "too_many"))
        return _MISSING
    before = len(problems)
    items = tuple(_number(meta, item, f"{path}[{index}]", problems) for index, item in enumerate(value))
    for index, item in enumerate(items):
        if item is not _MISSING and item in items[:index]:
            problems.append(Problem(f"{path}[{index}]", quote(item), 1, "duplicate_key"))
    return _MISSING if len(problems) > before else items


def _names(meta: Mapping[str, Any], value: Any, path: str, problems: list[Problem]) -> object:
    if not isinstance(value, list | tuple):
        problems.append(_wrong(path, value, "list"))
        return _MISSING
    choices: tuple[str, ...] = meta["choices"]
    if len(value) > len(choices):
        problems.append(Problem(path, len(value), len(choices), "too_many"))
        return _MISSING
    before = len(problems)
    for index, item in enumerate(value):
        _choice(meta, item, f"{path}[{index}]", problems)
        if isinstance(item, str) and item in value[:index]:
            problems.append(Problem(f"{path}[{index}]", quote(item), 1, "duplicate_key"))
    # A set is written in one order, so that equal projects compare and hash alike.
    return _MISSING if len(problems) > before else tuple(name for name in choices if name in value)


_Kind = Callable[[Mapping[str, Any], Any, str, list[Problem]], object]
_KINDS: Final[Mapping[str, _Kind]] = {
    "group": _group_field,
    "number": _number,
    "choice": _choice,
    "text": _text,
    "many": _many,
    "row": _row,
    "points": _points,
    "numbers": _numbers,
    "names": _names,
}


# --- fields that must go together -------------------------------------------------------------


def _together(project: Project) -> list[Problem]:
    return [
        *_bucket_order(project),
        *_marks_order(project),
        *_ids(project.parts),
        *_currencies(project),
        *_dates(project),
    ]


def _bucket_order(project: Project) -> list[Problem]:
    low, aim, high = (
        project.bucket.foam_low_kg_m3,
        project.bucket.foam_aim_kg_m3,
        project.bucket.foam_high_kg_m3,
    )
    found = []
    if low > aim:
        found.append(Problem("bucket.foam_low_kg_m3", low, aim, "bucket_window_order"))
    if high < aim:
        found.append(Problem("bucket.foam_high_kg_m3", high, aim, "bucket_window_order"))
    return found


def _marks_order(project: Project) -> list[Problem]:
    found = []
    marks = project.batch.drum_marks
    for index, (below, mark) in enumerate(zip(marks, marks[1:], strict=False), start=1):
        for name in ("volume_l", "height_m"):
            value, least = getattr(mark, name), getattr(below, name)
            if value <= least:
                path = f"batch.drum_marks[{index}].{name}"
                found.append(Problem(path, value, least, "drum_marks_order"))
    return found


def _ids(parts: tuple[Part, ...]) -> list[Problem]:
    seen: set[str] = set()
    found = []
    for index, part in enumerate(parts):
        if part.id in seen:
            found.append(Problem(f"parts[{index}].id", quote(part.id), 1, "duplicate_id"))
        seen.add(part.id)
    return found


def _currencies(project: Project) -> list[Problem]:
    # Whether a code names a currency is the reader room's knowledge; here only its form is checked.
    found = []
    market = project.market
    if not _CURRENCY.fullmatch(market.currency):
        found.append(Problem("market.currency", quote(market.currency), "ISO 4217", "currency_unknown"))
    source = market.converted.from_currency
    if source and not _CURRENCY.fullmatch(source):
        path = "market.converted.from_currency"
        found.append(Problem(path, quote(source), "ISO 4217", "currency_unknown"))
    return found


def _dates(project: Project) -> list[Problem]:
    date = project.market.converted.date
    if not date:
        return []
    try:
        if _DATE.fullmatch(date):
            datetime.date.fromisoformat(date)
            return []
    except ValueError:
        pass
    return [Problem("market.converted.date", quote(date), "YYYY-MM-DD", "date_unreadable")]
