"""Change a project: a project in, a checked project or its problems out; the one given stays as it is.

Every edit is made on the plain data and read again, so that an edit, a file and a link meet the same
rules. Numbers as people type them are turned into floats before, by the reader.
"""

import math
import re
from collections.abc import Callable, Mapping
from decimal import Decimal
from typing import Any, Final

import attrs

from foamwright.project.model import Project
from foamwright.project.notes import Problem
from foamwright.project.quote import MAX_QUOTED, quote
from foamwright.project.read import Reading, read_project
from foamwright.project.write import as_data

_STEP: Final = re.compile(r"\.?([a-z][a-z0-9_]*)|\[([0-9]{1,6})\]", re.ASCII)
#: Longest path that leads anywhere in a project.
_LONGEST_PATH: Final = 200


def set_value(project: Project, path: str, value: object) -> Reading:
    """Put a value where a path leads.

    Source: arithmetic.

    Parameters
    ----------
    project : Project
        The project as it is [-]
    path : str
        Where, such as ``parts[0].openings[1].width_m`` [-]
    value : object
        The value in SI, as JSON would give it; a list of groups or a whole group serves too [-]

    Returns
    -------
    Reading
        The project with the value, or why it cannot be taken [-]

    Notes
    -----
    Valid for every path of a field that the project has. A part that is renamed takes along the
    passages that lead to it. Raises nothing.

    Examples
    --------
    >>> set_value(Project(), "parts[0].thickness_m", 0.25).project.parts[0].thickness_m
    0.25
    >>> set_value(Project(), "parts[0].thickness_m", 25).problems[0].code
    'too_big'
    >>> set_value(Project(), "parts[0].thickness", 0.25).problems[0].code
    'unknown_key'
    """
    steps = _steps(path)

    def change(data: dict[str, Any]) -> Problem | None:
        holder, problem = _walk(data, steps[:-1], path)
        if problem or not steps or not _stands(holder, steps[-1]):
            return problem or _no_such(path)
        old = holder[steps[-1]]
        holder[steps[-1]] = value
        if len(steps) == 3 and steps[0] == "parts" and steps[2] == "id":
            _lead_to(data, old, value)
        return None

    return _edit(project, change)


def add_item(project: Project, path: str, item: Mapping[str, Any] | None = None) -> Reading:
    """Add an item at the end of a list.

    Source: arithmetic.

    Parameters
    ----------
    project : Project
        The project as it is [-]
    path : str
        The list, such as ``parts[0].openings`` [-]
    item : mapping, optional
        What the new item states; the rest are defaults, chosen so that it stands clear of its
        neighbours: a part has a name of its own, an opening the middle of the widest gap, a
        calibration mark a place above the last [-]

    Returns
    -------
    Reading
        The project with the item, or why there is none [-]

    Notes
    -----
    Valid for lists of groups that are not full. Raises nothing.

    Examples
    --------
    >>> added = add_item(Project(), "parts[0].openings").project.parts[0].openings
    >>> len(added), added[-1].azimuth_deg
    (3, 90.0)
    """
    steps = _steps(path)

    def change(data: dict[str, Any]) -> Problem | None:
        items, problem = _walk(data, steps, path)
        cls = _item_class(steps)
        if not problem and _bare_list(steps):
            part, _ = _walk(data, steps[:2], path)
            items.append(_next_corner(items, part["plan_form"]) if steps[-1] == "plan" else _next_side(items))
            return None
        if problem or cls is None:
            return problem or _no_such(path)
        place = _PLACES.get(cls.__name__)
        items.append({**(place(items) if place else {}), **(item or {})})
        return None

    return _edit(project, change)


def remove_item(project: Project, path: str) -> Reading:
    """Take an item out of a list.

    Source: arithmetic.

    Parameters
    ----------
    project : Project
        The project as it is [-]
    path : str
        The item, such as ``parts[0].openings[1]`` [-]

    Returns
    -------
    Reading
        The project without the item, or why it stays [-]

    Notes
    -----
    Valid for lists that may be shorter by one. Raises nothing.

    Examples
    --------
    >>> len(remove_item(Project(), "parts[0].openings[1]").project.parts[0].openings)
    1
    >>> remove_item(Project(), "parts[0]").problems[0].code
    'too_few'
    """
    steps = _steps(path)

    def change(data: dict[str, Any]) -> Problem | None:
        items, problem = _walk(data, steps[:-1], path)
        listed = _item_class(steps[:-1]) is not None or _bare_list(steps[:-1])
        if problem or not listed or not _stands(items, steps[-1]):
            return problem or _no_such(path)
        gone = items[steps[-1]]
        del items[steps[-1]]
        if steps[:-1] == ["parts"]:
            # Nothing leads to what is no longer there.
            _lead_to(data, gone["id"], None)
        return None

    return _edit(project, change)


def clear_prices(project: Project, currency: str | None = None) -> Reading:
    """Blank every price; what is bought, in which unit and how much, stays.

    Source: arithmetic.

    Parameters
    ----------
    project : Project
        The project as it is [-]
    currency : str, optional
        The currency that new prices will be in, as ISO 4217 writes it; left out, it stays [-]

    Returns
    -------
    Reading
        The project without prices, or what is wrong with the currency [-]

    Notes
    -----
    Valid for every project. Raises nothing.

    Examples
    --------
    >>> priced = add_item(Project(), "market.prices", {"item": "cement", "unit": "bag", "price": 9})
    >>> cleared = clear_prices(priced.project, "EUR").project.market
    >>> cleared.currency, cleared.prices[0].item, cleared.prices[0].price
    ('EUR', 'cement', None)
    """

    def change(data: dict[str, Any]) -> None:
        market = data["market"]
        market["converted"] = {}
        market["currency"] = market["currency"] if currency is None else currency
        for line in market["prices"]:
            line["price"] = None

    return _edit(project, change)


def relabel_currency(project: Project, currency: str) -> Reading:
    """Say that the prices were in another currency all along; the numbers stay.

    Source: arithmetic.

    Parameters
    ----------
    project : Project
        The project as it is [-]
    currency : str
        The currency, as ISO 4217 writes it [-]

    Returns
    -------
    Reading
        The project in that currency, or what is wrong with it [-]

    Notes
    -----
    Valid for every project. Raises nothing.

    Examples
    --------
    >>> relabel_currency(Project(), "MXN").project.market.currency
    'MXN'
    >>> relabel_currency(Project(), "pesos").problems[0].code
    'text_too_long'
    """

    def change(data: dict[str, Any]) -> None:
        data["market"] |= {"currency": currency, "converted": {}}

    return _edit(project, change)


def convert_currency(project: Project, currency: str, rate: float, date: str) -> Reading:
    """Turn every price into another currency by a rate that somebody typed, and note the rate.

    Source: arithmetic.

    Parameters
    ----------
    project : Project
        The project as it is [-]
    currency : str
        The new currency, as ISO 4217 writes it [-]
    rate : float
        Units of the new currency for one unit of the old [-]
    date : str
        The day of the rate, as ISO 8601 writes it: 2026-03-31 [-]

    Returns
    -------
    Reading
        The project in the new currency, or what is wrong with currency, rate or date [-]

    Notes
    -----
    Valid for rates from 1e-9 to 1e9. Raises nothing.

    Examples
    --------
    >>> priced = add_item(Project(), "market.prices", {"item": "cement", "unit": "bag", "price": 9.1})
    >>> market = convert_currency(priced.project, "MXN", 18.3, "2026-03-31").project.market
    >>> market.prices[0].price, market.converted.from_currency, market.converted.rate
    (166.53, 'USD', 18.3)
    """
    noted = {"from_currency": project.market.currency, "rate": rate, "date": date}
    problems = _edit(project, lambda data: _into(data["market"], currency, noted)).problems
    for path, missing in (("market.converted.rate", rate is None), ("market.converted.date", not date)):
        if missing and not any(problem.path == path for problem in problems):
            kind = "number" if path.endswith("rate") else "YYYY-MM-DD"
            problems = (*problems, Problem(path, None, kind, "missing"))
    if problems:
        return Reading(None, problems)

    def change(data: dict[str, Any]) -> None:
        _into(data["market"], currency, noted)
        for line in data["market"]["prices"]:
            if line["price"] is not None:
                line["price"] = _times(line["price"], rate)

    return _edit(project, change)


def _into(market: dict[str, Any], currency: str, noted: dict[str, Any]) -> None:
    market["currency"] = currency
    market["converted"] = noted


def _times(price: float, rate: float) -> float:
    # In decimals, as people reckon money: 9.1 at 18.3 is 166.53, in binary 166.52999999999997.
    return float(Decimal(repr(price)) * Decimal(repr(rate)))


# --- paths ------------------------------------------------------------------------------------


def _edit(project: Project, change: Callable[[dict[str, Any]], Problem | None]) -> Reading:
    data = as_data(project, full=True)
    problem = change(data)
    if problem:
        return Reading(None, (problem,))
    reading = read_project(data)
    # A file may hold keys that are not understood; an edit that brings one is a slip.
    return Reading(None, reading.problems) if reading.problems else reading


def _steps(path: str) -> list[str | int]:
    """Split a path into keys and places; an empty list for what is no path."""
    if not isinstance(path, str) or len(path) > _LONGEST_PATH or path.startswith("."):
        return []
    steps: list[str | int] = []
    at = 0
    while at < len(path):
        match = _STEP.match(path, at)
        if match is None:
            return []
        steps.append(match[1] if match[1] else int(match[2]))
        at = match.end()
    return steps


def _stands(holder: Any, step: str | int) -> bool:
    if isinstance(holder, dict):
        return step in holder and step != "format"
    return isinstance(holder, list) and isinstance(step, int) and step < len(holder)


def _walk(data: dict[str, Any], steps: list[str | int], path: str) -> tuple[Any, Problem | None]:
    holder: Any = data
    for step in steps:
        if not _stands(holder, step):
            return None, _no_such(path)
        holder = holder[step]
    return holder, None


def _no_such(path: object) -> Problem:
    shown = quote(path)
    return Problem(str(shown), shown, MAX_QUOTED, "unknown_key")


def _bare_list(steps: list[str | int]) -> bool:
    """Say whether a path leads to a list of points or of numbers: corners of a plan, or sides with a gable."""
    return len(steps) >= 3 and steps[0] == "parts" and steps[2:] in (["plan"], ["wall", "gable_sides"])


def _item_class(steps: list[str | int]) -> type[Any] | None:
    """Find the class of the items in the list that a path leads to."""
    cls: type[Any] | None = Project
    kind = "group"
    for step in steps:
        if isinstance(step, int):
            kind = "group"
            continue
        meta = (
            {attribute.name: attribute.metadata for attribute in attrs.fields(cls)}.get(step)
            if cls
            else None
        )
        if meta is None:
            return None
        cls, kind = meta.get("cls"), meta["kind"]
    return cls if kind == "many" else None


def _lead_to(data: dict[str, Any], old: object, new: object) -> None:
    for part in data["parts"]:
        for opening in part["openings"]:
            if opening["to"] == old:
                opening["to"] = new


# --- where a new item stands ------------------------------------------------------------------


def _part_place(parts: list[dict[str, Any]]) -> dict[str, Any]:
    taken = {part["id"] for part in parts}
    number = len(parts) + 1
    while f"part{number}" in taken:
        number += 1
    # Clear of all that stands already, whatever way that is turned.
    edge = max((part["at_m"][0] + _reach(part) for part in parts), default=-_NEW_REACH_M)
    return {"id": f"part{number}", "at_m": [min(1000.0, float(math.ceil(edge + _NEW_REACH_M))), 0.0]}


#: Half of what a new part takes on the plan, with room to walk round it [m].
_NEW_REACH_M: Final = 4.5


def _reach(part: dict[str, Any]) -> float:
    """How far a part may reach from its middle."""
    corners = [math.hypot(*corner) for corner in part["plan"]] if part["plan_form"] in ("polygon", "run") else []
    sides = max(part["inside_diameter_m"] / 2, math.hypot(part["length_m"], part["inside_span_m"]) / 2, *corners)
    return float(sides + part["thickness_m"])


def _opening_place(openings: list[dict[str, Any]]) -> dict[str, Any]:
    turns = set()
    for opening in openings:
        count, spacing = opening["count"], opening["spacing_deg"]
        step = 360 / count if spacing is None else spacing
        turns |= {(opening["azimuth_deg"] + index * step) % 360 for index in range(count)}
    if not turns:
        return {}
    ordered = sorted(turns)
    gaps = [
        (after - before, before)
        for before, after in zip(ordered, [*ordered[1:], ordered[0] + 360], strict=True)
    ]
    widest = max(gap for gap, _ in gaps)
    before = next(before for gap, before in gaps if gap > widest - 1)
    return {"azimuth_deg": round(before + widest / 2) % 360}


def _next_corner(corners: list[list[float]], form: str) -> list[float]:
    """A new corner halfway back to the first one, or as far on as the last side of a line is long."""
    if len(corners) < 2:
        return [corners[0][0] + 3, corners[0][1]] if corners else [0, 0]
    (x0, y0), (x1, y1) = corners[-2], corners[-1]
    if form == "run" or len(corners) == 2:
        ahead = (x1 - x0, y1 - y0) if form == "run" else (-(y1 - y0), x1 - x0)
        return [round(x1 + ahead[0], 3), round(y1 + ahead[1], 3)]
    return [round((x1 + corners[0][0]) / 2, 3), round((y1 + corners[0][1]) / 2, 3)]


def _next_side(sides: list[int]) -> int:
    return next(side for side in range(1, 99) if side not in sides)


def _mark_place(marks: list[dict[str, Any]]) -> dict[str, Any]:
    if not marks:
        return {}
    return {"volume_l": marks[-1]["volume_l"] + 10, "height_m": round(marks[-1]["height_m"] + 0.05, 3)}


_PLACES: Final[Mapping[str, Callable[[list[dict[str, Any]]], dict[str, Any]]]] = {
    "Part": _part_place,
    "Opening": _opening_place,
    "Mark": _mark_place,
}
