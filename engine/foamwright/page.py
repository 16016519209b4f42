"""The few calls that the page makes: JSON text in, JSON text out, no state between calls."""

import io
import json
from collections.abc import Callable
from math import hypot
from typing import Any, Final

import segno
from attrs import evolve

from foamwright import __version__
from foamwright.estimate import Outcome, estimate, part_of
from foamwright.project import edit as edits
from foamwright.project.link import decode, encode
from foamwright.project.model import FORMAT, MIX_QUANTITIES, Part, Project
from foamwright.project.notes import Problem
from foamwright.project.read import Reading, read_project
from foamwright.project.write import write_project
from foamwright.reader import (
    DIGITS,
    KINDS,
    NUMBERS,
    UNITS,
    N_,
    Reader,
    Speaker,
    currencies,
    currency_known,
    default_reader,
    languages,
    load_catalog,
    parse_number,
    parse_quantity,
    speaker,
)
from foamwright.shape.measure import measure_part
from foamwright.shape.plan import plan_of
from foamwright.shape.wall import corners, wall_faults
from foamwright.sheets import landowner
from foamwright.sheets.desk import Desk, pattern
from foamwright.sheets.fields import FIELDS
from foamwright.sheets.form import field_value, lookup, metadata, share_value
from foamwright.sheets.problems import CATALOG_FAULTS, problem_block, problem_text, without
from foamwright.sheets.view import section_list, sheet_list, title, view
from foamwright.sheets.why import why
from foamwright.sheets.words import WORDS

Args = dict[str, Any]
Answer = dict[str, Any]

#: Net masses of cement bags that are sold somewhere: from memory, so the builder reads the own bag.
BAGS_KG: Final = (20.0, 25.0, 35.0, 40.0, 42.5, 94 * 0.45359237, 50.0)

_UNIT_WORDS: Final = {
    "metric": N_("Metric"),
    "us": N_("US: feet, pounds, US gallons"),
    "imperial": N_("Imperial: feet, pounds, imperial gallons"),
}
_DIGIT_WORDS: Final = {
    "auto": N_("As the language has them"),
    "latin": N_("0 1 2 3"),
    "native": N_("The language's own digits"),
}


class _Refused(Exception):
    """A call that cannot be answered; carries its problem."""

    def __init__(self, problem: Problem) -> None:
        super().__init__(problem.code)
        self.problem = problem


def _speaker(data: object) -> Speaker:
    extra = None
    if isinstance(data, dict) and data.get("catalog"):
        extra = load_catalog(str(data["catalog"])).catalog
    return speaker(Reader.from_json(data), extra)


def _project(source: str) -> Project:
    reading = read_project(source)
    if reading.project is None:
        raise _Refused(reading.problems[0])
    return reading.project


def _desk(project: Project, s: Speaker) -> Desk:
    return Desk(project, estimate(project), s)


def _taken(project: Project, s: Speaker, want: list[str] | None) -> Answer:
    return {"outcome": "taken", "project": write_project(project), "view": view(project, s, want),
            "problem": None, "readings": []}  # fmt: skip


def _not_taken(outcome: str, source: str, problem: dict[str, str] | None = None,
               readings: list[dict[str, str]] | None = None) -> Answer:  # fmt: skip
    return {"outcome": outcome, "project": source, "view": None, "problem": problem, "readings": readings or []}


def _result(reading: Reading, source: str, old: Project, s: Speaker, want: list[str] | None) -> Answer:
    if reading.project is None:
        return _not_taken("refused", source, problem_block(_bare(old, s), reading.problems[0]))
    return _taken(reading.project, s, want)


def _bare(project: Project, s: Speaker) -> Desk:
    """A desk for wording problems only, where no estimate is needed."""
    return Desk(project, Outcome(None, (), ()), s)


def _hello(args: Args) -> Answer:
    reader = default_reader(list(args.get("languages") or []))
    return {"version": __version__, "format": FORMAT, "reader": reader.to_json()}


def _furniture(args: Args) -> Answer:
    s = _speaker(args.get("reader"))
    reader = s.reader
    samples = {
        style: speaker(evolve(reader, numbers=style)).number(1234.5, decimals=1) for style in NUMBERS
    }
    return {
        "reader": reader.to_json(),
        "dir": s.dir,
        "lang": s.tag,
        "words": {key: s.say(words) for key, words in WORDS.items()},
        "sections": section_list(s),
        "sheets": sheet_list(s),
        "languages": [
            {"value": language.tag, "label": language.own_name, "dir": language.dir, "coverage": language.coverage}
            for language in languages()
        ],
        "units": [{"value": unit, "label": s.say(_UNIT_WORDS[unit])} for unit in UNITS],
        "digits": [{"value": digit, "label": s.say(_DIGIT_WORDS[digit])} for digit in DIGITS],
        "numbers": [
            {"value": style, "label": s._("As the language has them") if style == "auto" else samples[style]}
            for style in NUMBERS
        ],
        "currencies": [{"value": c.code, "label": f"{c.code} · {c.name}"} for c in currencies(reader)],
        "bags": [{"value": repr(kg), "label": s.quantity(kg, "mass")} for kg in BAGS_KG],
    }


def _view(args: Args) -> Answer:
    return view(_project(args["project"]), _speaker(args.get("reader")), args.get("want"))


def _edit(args: Args) -> Answer:
    source, path, text = args["project"], args["path"], args["text"]
    s, want = _speaker(args.get("reader")), args.get("want")
    project = _project(source)
    try:
        meta = metadata(path)
    except KeyError:
        return _not_taken("refused", source, problem_block(_bare(project, s), Problem(path, text, None, "unknown_key")))
    if path == "mix.given":
        return _given(project, source, text, s, want)
    if path == "batch.bags_each":
        try:
            value: Any = share_value(text)
        except ValueError:
            problem = Problem(path, text[:60], None, "not_a_choice")
            return _not_taken("refused", source, problem_block(_bare(project, s), problem))
    elif meta["kind"] == "number":
        return _number(project, source, path, text, s, want)
    else:
        value = None if text == "" and meta.get("optional") else text
    return _result(edits.set_value(project, path, value), source, project, s, want)


def _number(project: Project, source: str, path: str, text: str, s: Speaker, want: list[str] | None) -> Answer:
    meta, kind = metadata(path), FIELDS[pattern(path)].kind
    if text.strip() == "" and meta.get("optional"):
        return _result(edits.set_value(project, path, None), source, project, s, want)
    if text == field_value(s, FIELDS[pattern(path)], lookup(project, path)):
        return _taken(project, s, want)
    if kind in KINDS:
        parsed = parse_quantity(text, kind, s)
    else:
        parsed = parse_number(text, s.reader, measure=kind != "money")
    if parsed.readings:
        problem = Problem(path, text[:60], None, "number_ambiguous")
        readings = [
            {"text": reading.text, "label": _reading_words(s, kind, reading.value)} for reading in parsed.readings
        ]
        return _not_taken("ask", source, problem_block(_bare(project, s), problem), readings)
    if parsed.value is None:
        problem = Problem(path, text[:60], None, parsed.code or "number_unreadable")
        return _not_taken("refused", source, problem_block(_bare(project, s), problem))
    value: float = parsed.value if kind in ("", "money") else s.to_si(parsed.value, kind)
    if meta.get("whole") and value == int(value):
        value = int(value)
    return _result(edits.set_value(project, path, value), source, project, s, want)


def _reading_words(s: Speaker, kind: str, value: float) -> str:
    """One reading of an ambiguous number as it would stand on a sheet, with its unit."""
    if kind in ("", "money"):
        return s.number(value, significant=12, trim=True)
    return s.quantity(s.to_si(value, kind), kind, significant=12, trim=True)


def _given(project: Project, source: str, text: str, s: Speaker, want: list[str] | None) -> Answer:
    """Change which quantities the recipe states; the newly stated take the values worked out so far."""
    names = tuple(name for name in text.split("+") if name in MIX_QUANTITIES)
    done = estimate(project)
    changes: dict[str, Any] = {"given": names}
    if done.estimate is not None:
        solved = done.estimate.mix
        worked = {
            "cement_kg": solved.cement_kg,
            "water_l": solved.water_l,
            "foam_density_kg_m3": solved.foam_density_kg_m3,
            "yield_l": solved.yield_l,
            "wet_density_kg_m3": float(solved.wet_density_kg_m3),
            "oven_dry_density_kg_m3": float(solved.oven_dry_density_kg_m3),
            "water_cement_ratio": solved.water_cement_ratio,
            "total_water_cement_ratio": solved.total_water_cement_ratio,
        }
        for name in names:
            if name not in project.mix.given:
                changes[name] = worked[name]
    made = evolve(project, mix=evolve(project.mix, **changes))
    return _result(read_project(write_project(made)), source, project, s, want)


def _act(args: Args) -> Answer:
    source, action = args["project"], args["action"]
    s, want = _speaker(args.get("reader")), args.get("want")
    project = _project(source)
    name = action.get("name")
    if name == "add":
        return _result(_added(project, action["path"]), source, project, s, want)
    if name == "remove":
        return _result(edits.remove_item(project, action["path"]), source, project, s, want)
    if name == "bag":
        kg = action["kg"]
        if isinstance(kg, str):
            try:
                kg = float(kg)
            except ValueError:
                return _number(project, source, "market.cement_bag_kg", action["kg"], s, want)
        return _result(edits.set_value(project, "market.cement_bag_kg", kg), source, project, s, want)
    if name == "currency":
        return _currency(project, source, action, s, want)
    raise _Refused(Problem("action", str(name)[:60], None, "unknown_call"))


def _added(project: Project, path: str) -> Reading:
    """Add an item; a new opening goes where it meets no other, a new part beside the last one."""
    if pattern(path) == "parts[].openings":
        window: dict[str, Any] = {"form": "round", "sill_m": 1.2}
        part = project.parts[part_of(path) or 0]
        ways: list[dict[str, Any]] = [{"azimuth_deg": float(azimuth)} for azimuth in range(0, 360, 15)]
        if part.shape == "wall" and part.plan_form != "circle":
            ways = [{"side": side + 1} for side in range(len(corners(part)))]
        for way in ways:
            reading = edits.add_item(project, path, window | way)
            place = part_of(path) or 0
            if reading.project is None or not measure_part(reading.project.parts[place])[1]:
                return reading
    if path == "parts":
        last, taken = project.parts[-1], {part.id for part in project.parts}
        name = next(f"dome-{i}" for i in range(2, 99) if f"dome-{i}" not in taken)
        if last.shape == "wall" and wall_faults(last, ""):
            last = Part(at_m=last.at_m)
        reach = [plan.radius_m or hypot(*plan.half_m) for plan in (plan_of(last), plan_of(Part()))]
        beside = last.at_m[0] + sum(reach) + 1.0
        return edits.add_item(project, path, {"id": name, "at_m": [beside, last.at_m[1]]})
    return edits.add_item(project, path)


def _currency(project: Project, source: str, action: Args, s: Speaker, want: list[str] | None) -> Answer:
    code, how = str(action.get("currency", "")).strip().upper(), action.get("how")
    path = "market.currency"
    if not currency_known(code):
        problem = Problem(path, code[:60], None, "currency_unknown")
        return _not_taken("refused", source, problem_block(_bare(project, s), problem))
    priced = any(price.price is not None for price in project.market.prices)
    if not priced or how == "relabel" or code == project.market.currency:
        return _result(edits.relabel_currency(project, code), source, project, s, want)
    if how == "clear":
        cleared = edits.clear_prices(project).project or project
        return _result(edits.relabel_currency(cleared, code), source, project, s, want)
    if how == "convert":
        parsed = parse_number(str(action.get("rate", "")), s.reader, measure=True)
        if parsed.value is None:
            wanted = "number_ambiguous" if parsed.readings else parsed.code or "number_unreadable"
            problem = Problem("market.converted.rate", str(action.get("rate", ""))[:60], None, wanted)
            readings = [{"text": r.text, "label": s.number(r.value, significant=12, trim=True)} for r in parsed.readings]
            outcome = "ask" if readings else "refused"
            return _not_taken(outcome, source, problem_block(_bare(project, s), problem), readings)
        made = edits.convert_currency(project, code, parsed.value, str(action.get("date", "")))
        return _result(made, source, project, s, want)
    old = project.market.currency
    readings = [
        {"how": "relabel", "label": s._("Keep the numbers and call them %(currency)s", currency=code)},
        {"how": "convert", "label": s._("Convert from %(currency)s at a rate that I type", currency=old)},
        {"how": "clear", "label": s._("Clear the prices")},
    ]
    return _not_taken("ask", source, None, readings)


def _why(args: Args) -> Answer:
    project = _project(args["project"])
    desk = _desk(project, _speaker(args.get("reader")))
    if desk.outcome.estimate is None:
        raise _Refused(desk.outcome.problems[0])
    try:
        return why(desk, args["figure"])
    except (KeyError, IndexError, ValueError):
        raise _Refused(Problem("figure", str(args["figure"])[:60], None, "unknown_call")) from None


def _file_name(project: Project) -> str:
    kept = "".join(c if c.isalnum() else "-" for c in project.name.strip())[:40].strip("-")
    return f"{kept or 'dome'}.foamwright.json"


def _share(args: Args) -> Answer:
    project, s = _project(args["project"]), _speaker(args.get("reader"))
    to = _speaker(args["to"]) if args.get("to") else s
    code = encode(project)
    desk = _desk(project, to)
    if desk.outcome.estimate is None:
        message = code
    else:
        message = landowner.message(desk, code)
    drawn = io.BytesIO()
    segno.make(code, error="m", micro=False).save(
        drawn, kind="svg", xmldecl=False, svgns=True, border=4, dark="#000", light="#fff", nl=False, omitsize=True
    )
    return {
        "code": code,
        "fragment": f"#p={code}",
        "message": message,
        "qr": drawn.getvalue().decode("utf-8"),
        "qr_title": s._("The code as a picture that a camera reads"),
        "file_name": _file_name(project),
        "file": write_project(project),
    }


def _opened(reading: Reading, s: Speaker) -> Answer:
    desk = _bare(reading.project or Project(), s)
    problems = [problem_block(desk, problem) for problem in reading.problems[:20]]
    if reading.project is None:
        return {"outcome": "refused", "project": None, "name": "", "summary": "", "problems": problems}
    full = _desk(reading.project, s)
    summary = ""
    if full.outcome.estimate is not None:
        blocks = full.e.blocks.count
        words = s.n_("%(number)s block", "%(number)s blocks", blocks, number=s.whole(blocks))
        summary = s.list_join([words, landowner.bags_words(full, full.e.batches.cement_bags)])
        if full.outcome.left_out:
            summary = f"{summary}. {without(full)}"
    return {
        "outcome": "taken",
        "project": write_project(reading.project),
        "name": title(s, reading.project),
        "summary": summary,
        "problems": problems + [problem_block(full, problem) for problem in full.outcome.problems],
    }


def _open_code(args: Args) -> Answer:
    return _opened(decode(str(args["code"])), _speaker(args.get("reader")))


def _open_file(args: Args) -> Answer:
    return _opened(read_project(args["text"]), _speaker(args.get("reader")))


def _try_catalog(args: Args) -> Answer:
    result = load_catalog(str(args["text"]))
    s = _speaker(args.get("reader"))
    problems = [
        {"path": "", "label": fault.text[:80], "text": s.say(CATALOG_FAULTS[fault.code], line=s.whole(fault.line))}
        for fault in result.errors[:100]
    ]
    if result.catalog is None:
        return {"outcome": "refused", "language": "", "coverage": 0.0, "problems": problems}
    return {"outcome": "taken", "language": result.catalog.tag,
            "coverage": result.translated / max(result.total, 1), "problems": problems}  # fmt: skip


_CALLS: Final[dict[str, Callable[[Args], Answer]]] = {
    "hello": _hello,
    "furniture": _furniture,
    "view": _view,
    "edit": _edit,
    "act": _act,
    "why": _why,
    "share": _share,
    "open_code": _open_code,
    "open_file": _open_file,
    "try_catalog": _try_catalog,
}


def call(op: str, args: str) -> str:
    """Answer one message of the page.

    Source: the contract between page and engine in DEVELOPERS.md.

    Parameters
    ----------
    op : str
        Name of the call [-]
    args : str
        Its arguments as JSON [-]

    Returns
    -------
    str
        ``{"ok": true, "value": ...}`` or ``{"ok": false, "problem": {...}}`` as JSON [-]

    Examples
    --------
    >>> json.loads(call("hello", '{"languages": ["es-MX"]}'))["value"]["reader"]["language"]
    'es-MX'
    """
    given = json.loads(args) if args else {}
    try:
        made = _CALLS.get(op)
        if made is None:
            raise _Refused(Problem("op", op[:60], None, "unknown_call"))
        return json.dumps({"ok": True, "value": made(given)}, ensure_ascii=False)
    except _Refused as refused:
        problem = refused.problem
        told = problem_text(_bare(Project(), _speaker(given.get("reader"))), problem)
        return json.dumps({
            "ok": False,
            "problem": {"code": problem.code, "path": problem.path,
                        "params": {"value": problem.value, "limit": problem.limit, "text": told}},
        })  # fmt: skip


def first_paint() -> dict[str, str]:
    """Return what the page shows before Python is up: the default project, for each language and usual units.

    Returns
    -------
    dict[str, str]
        Name of the part -> JSON of its furniture and view [-]
    """
    source = write_project(Project())
    out = {}
    for language in languages():
        for units in ("metric", "us") if language.tag == "en" else ("metric",):
            reader = Reader(language=language.tag, units=units).to_json()
            made = {
                "furniture": _furniture({"reader": reader}),
                "view": _view({"project": source, "reader": reader, "want": None}),
                "project": source,
            }
            name = language.tag if units == "metric" else f"{language.tag}-{units}"
            out[name] = json.dumps(made, ensure_ascii=False, separators=(",", ":"))
    return out


def warm() -> None:
    """Run everything once, so that a memory snapshot holds it ready."""
    from foamwright import reader as room

    room.warm()
    for name in first_paint().values():
        json.loads(name)
    share = {"project": write_project(Project()), "reader": Reader().to_json()}
    call("share", json.dumps(share))
    call("why", json.dumps(share | {"figure": "batches.cement_bags"}))
    call("edit", json.dumps(share | {"path": "parts[0].thickness_m", "text": "20", "want": ["glance"]}))
