"""The site view's side of the conversation: tools, verdicts, entries, two phones, and what the estimate learns."""

from collections.abc import Sequence
from typing import Any, Final

import attrs

from foamwright.diary.bucket import calibrate
from foamwright.diary.entries import (
    KINDS,
    BucketWeighed,
    Content,
    Diary,
    Entry,
    Undo,
    add,
    as_data,
    merge,
    new_id,
    next_counter,
    read_csv,
    read_diary,
    standing,
    write_csv,
)
from foamwright.diary.plan import Edit, Planned, compare, facts, forecast, propose
from foamwright.estimate import Outcome, estimate
from foamwright.project import edit as edits
from foamwright.project.model import Project
from foamwright.project.notes import Note, Problem
from foamwright.project.write import write_project
from foamwright.reader import KINDS as QUANTITIES
from foamwright.reader import NP_, Message, N_, Speaker, parse_number, parse_quantity
from foamwright.sheets.desk import Block, Desk
from foamwright.sheets.fields import FIELDS
from foamwright.sheets.problems import PROBLEMS, note_text, notes_block
from foamwright.sheets.site_tools import TOOLS, Ground, Look, Spot, Tool, when
from foamwright.sheets.view import view

Args = dict[str, Any]
Answer = dict[str, Any]

_BY_ID: Final = {tool.id: tool for tool in TOOLS}
_BY_CLASS: Final = {tool.cls: tool for tool in TOOLS}
_LINES: Final[dict[str, tuple[Message, str]]] = {
    "yield_l": (NP_("concrete", "Yield of a batch"), "liquid"),
    "bags_per_batch": (N_("Bags of cement in a batch"), "decimal2"),
    "foam_l": (N_("Foam of a batch"), "liquid"),
    "bags": (N_("Bags of cement"), "decimal"),
    "batches": (NP_("concrete", "Batches"), "decimal"),
    "blocks": (N_("Sound blocks"), "count"),
    "broken": (N_("Broken blocks"), "count"),
    "days": (NP_("concrete", "Days of work"), "count"),
}


def _diary(entries: Any) -> Diary:
    """Read the page's entries; one that cannot be read is left out and stays with the page."""
    items = entries if isinstance(entries, list) else []
    taken = read_diary({"format": 1, "entries": items}).diary
    if taken is None:
        taken = Diary()
        for item in items:
            more = add(taken, item if isinstance(item, dict) else {}).diary
            taken = more if more is not None else taken
    return merge(taken, Diary())[0]


def _ground(project: Project, done: Outcome, diary: Diary, s: Speaker) -> Ground:
    return Ground(Desk(project, done, s), standing(diary)[0])


# --- fields -----------------------------------------------------------------------------------


def _value(s: Speaker, spot: Spot, value: Any) -> str:
    if value is None:
        return ""
    if spot.form != "number":
        return str(value)
    plain = float(value) / spot.times
    return s.plain(s.from_si(plain, spot.kind) if spot.kind else plain, significant=6)


def _field(s: Speaker, spot: Spot, known: dict[str, Any]) -> Answer:
    label = s.say(spot.label)
    unit = None
    if spot.kind:
        unit = {"symbol": s.unit_symbol(spot.kind), "name": s.unit_name(spot.kind)}
    entry: Answer = {
        "kind": spot.form, "path": spot.path, "label": label, "help": s.say(spot.help) if spot.help.text else "",
        "spoken": s._("%(label)s, in %(unit)s", label=label, unit=unit["name"]) if unit else label,
        "optional": spot.optional, "unit": unit, "value": _value(s, spot, known.get(spot.path)),
    }  # fmt: skip
    if spot.form == "choice":
        entry["choices"] = [{"value": code, "label": s.say(words)} for code, words in spot.choices.items()]
        entry["value"] = entry["value"] or next(iter(spot.choices))
    if spot.form in ("text", "lines"):
        entry["longest"] = spot.longest
    return entry


def _shown(s: Speaker, spot: Spot | None, value: Any) -> str:
    if isinstance(value, bool) or not isinstance(value, int | float):
        return "" if value is None else str(value)
    if spot is None or not spot.kind:
        return s.number(float(value), significant=6, trim=True)
    return s.quantity(float(value) / spot.times, spot.kind, significant=4, trim=True)


def _told(s: Speaker, tool: Tool | None, problem: Problem) -> Answer:
    spot = next((each for each in tool.spots if each.path == problem.path), None) if tool else None
    label = s.say(spot.label) if spot else problem.path
    text = s.say(PROBLEMS[problem.code], None, field=label, path=problem.path, value=_shown(s, spot, problem.value),
                 limit=_shown(s, spot, problem.limit), part="", to="", side="", other="", corner="")  # fmt: skip
    return {"path": problem.path, "label": label, "text": text, "code": problem.code}


def _reading(s: Speaker, spot: Spot, value: float) -> str:
    if spot.kind:
        return s.quantity(s.to_si(value, spot.kind), spot.kind, significant=12, trim=True)
    return s.number(value, significant=12, trim=True)


def _parse(s: Speaker, tool: Tool, typed: Any) -> tuple[dict[str, Any], list[Problem], list[Answer], bool]:
    """Read what was typed: values as the diary stores them, problems, readings to choose from, whether something is wanting."""
    values: dict[str, Any] = {}
    problems: list[Problem] = []
    readings: list[Answer] = []
    wanting = False
    rules = attrs.fields_dict(tool.cls)
    given = typed if isinstance(typed, dict) else {}
    for spot in tool.spots:
        text = given.get(spot.path)
        text = "" if text is None else str(text)
        meta = rules[spot.path].metadata
        if spot.form == "choice":
            values[spot.path] = text or next(iter(spot.choices))
        elif spot.form in ("text", "lines"):
            values[spot.path] = text.strip()
            wanting = wanting or (not spot.optional and not text.strip())
        elif not text.strip():
            values[spot.path] = None
            wanting = wanting or not spot.optional
        else:
            parsed = parse_quantity(text, spot.kind, s) if spot.kind in QUANTITIES else parse_number(text, s.reader)
            if parsed.readings:
                problems.append(Problem(spot.path, text[:60], None, "number_ambiguous"))
                readings += [{"path": spot.path, "text": each.text, "label": _reading(s, spot, each.value)} for each in parsed.readings]
            elif parsed.value is None:
                problems.append(Problem(spot.path, text[:60], None, parsed.code or "number_unreadable"))
            else:
                value = (s.to_si(parsed.value, spot.kind) if spot.kind else parsed.value) * spot.times
                # What units leave behind the ninth digit was never typed.
                value = float(f"{value:.12g}")
                values[spot.path] = int(value) if meta.get("whole") and value == int(value) else value
    return values, problems, readings, wanting


def _wrong(tool: Tool, values: dict[str, Any]) -> tuple[Problem, ...]:
    """Hold values against the limits of the entry's fields."""
    kind = next(code for code, cls in KINDS.items() if cls is tool.cls)
    stated = {name: value for name, value in values.items() if value is not None}
    return add(Diary(), {"id": "a-0", "at": "2000-01-01T00:00", "kind": kind, **stated}).problems


# --- judging and entering ---------------------------------------------------------------------


def _answer(outcome: str, *, look: Look | None = None, problems: list[Answer] | None = None, readings: list[Answer] | None = None) -> Answer:
    verdict = None
    if look is not None and look.word:
        verdict = {"tone": look.tone, "word": look.word, "text": look.text}
    return {"outcome": outcome, "verdict": verdict, "blocks": list(look.blocks) if look else [], "problems": problems or [], "readings": readings or []}


def _judged(g: Ground, tool: Tool, args: Args) -> tuple[Answer, Content | None]:
    s = g.desk.s
    values, problems, readings, wanting = _parse(s, tool, args.get("typed"))
    if problems:
        told = [_told(s, tool, each) for each in problems]
        return _answer("ask" if len(readings) and all(p.code == "number_ambiguous" for p in problems) else "refused", problems=told, readings=readings), None
    if wanting:
        return _answer("waiting"), None
    confirmed = frozenset(str(each) for each in args.get("confirmed") or [])
    # A reading that is asked about may lie beyond its field's limits as typed, and within as meant.
    wrong = _wrong(tool, values)
    limits = [each for each in wrong if each.code not in ("too_small", "too_big")]
    if limits or (wrong and tool.id not in ("foam", "batch")):
        return _answer("refused", problems=[_told(s, tool, each) for each in wrong]), None
    look = tool.look(g, values, confirmed)
    if look.waiting:
        return _answer("waiting"), None
    if look.problems:
        return _answer("refused", look=look, problems=[_told(s, tool, each) for each in look.problems]), None
    if look.questions:
        readings = [{"path": None, "text": code, "label": label} for code, label in look.questions]
        problem = {"path": "gross_g", "label": "", "text": look.text, "code": look.asked}
        return _answer("ask", look=look, problems=[problem], readings=readings), None
    if look.content is None:
        return _answer("waiting"), None
    wrong = _wrong(tool, attrs.asdict(look.content))
    if wrong:
        return _answer("refused", problems=[_told(s, tool, each) for each in wrong]), None
    return _answer("taken", look=look), look.content


def _no_tool(s: Speaker, name: str) -> Answer:
    return _answer("refused", problems=[_told(s, None, Problem("tool", name[:60], None, "unknown_call"))])


def judge(project: Project, s: Speaker, args: Args) -> Answer:
    """Say what is to be said of what is typed; nothing is saved."""
    tool = _BY_ID.get(str(args.get("tool")))
    if tool is None:
        return _no_tool(s, str(args.get("tool")))
    return _judged(_ground(project, estimate(project), _diary(args.get("entries")), s), tool, args)[0]


def _put(s: Speaker, diary: Diary, args: Args, what: Content) -> tuple[Answer | None, Problem | None]:
    """Make an entry, or say why there is none."""
    device = str(args.get("device") or "")
    counter = args.get("counter")
    number = max(counter, next_counter(diary, device)) if isinstance(counter, int) and not isinstance(counter, bool) else next_counter(diary, device)
    try:
        name = new_id(device, number)
    except ValueError:
        return None, Problem("id", f"{device[:40]}-{number}", "tag-number", "entry_id_unreadable")
    data = as_data(Entry(name, str(args.get("at") or args.get("now") or ""), what))
    taken = add(diary, data)
    return (data, None) if taken.diary is not None else (None, taken.problems[0])


def enter(project: Project, s: Speaker, args: Args) -> Answer:
    """Make an entry of what is typed, unless it is refused or asked about."""
    tool = _BY_ID.get(str(args.get("tool")))
    if tool is None:
        return _no_tool(s, str(args.get("tool"))) | {"entry": None}
    diary = _diary(args.get("entries"))
    answer, what = _judged(_ground(project, estimate(project), diary, s), tool, args)
    if what is None:
        return answer | {"entry": None}
    entry, problem = _put(s, diary, args, what)
    if problem is not None:
        return answer | {"outcome": "refused", "entry": None, "problems": [_told(s, tool, problem)]}
    return answer | {"entry": entry}


def strike(s: Speaker, args: Args) -> Answer:
    """Make the entry that strikes another."""
    diary, target = _diary(args.get("entries")), str(args.get("target") or "")
    if all(each.id != target for each in diary.entries):
        problem: Problem | None = Problem("target", target[:60], None, "missing")
    else:
        entry, problem = _put(s, diary, args, Undo(target))
        if problem is None:
            return {"outcome": "taken", "entry": entry, "problem": None}
    assert problem is not None
    return {"outcome": "refused", "entry": None, "problem": _told(s, None, problem)}


# --- the whole view ---------------------------------------------------------------------------


def _tool(g: Ground, tool: Tool) -> Answer:
    s, known = g.desk.s, tool.known(g)
    return {
        "id": tool.id, "title": s.say(tool.title), "picture": tool.picture, "lead": s.say(tool.lead), "aim": tool.aim(g),
        "fields": [_field(s, spot, known) for spot in tool.spots], "blocks": tool.stands(g),
    }  # fmt: skip


def _summary(s: Speaker, tool: Tool, what: Any) -> str:
    said = []
    for spot in tool.spots:
        value = getattr(what, spot.path)
        if value in (None, "", "no", "unstated"):
            continue
        if spot.form == "choice":
            words = s.say(spot.choices[value]) if value in spot.choices else str(value)
        elif spot.form == "number":
            words = _shown(s, spot, value)
        else:
            words = str(value)
        said.append(words if spot.path == "text" else s._("%(label)s: %(value)s", label=s.say(spot.label), value=words))
    return "; ".join(said)


def _log(diary: Diary, s: Speaker) -> list[Answer]:
    counts = {entry.id for entry in standing(diary)[0]}
    out = []
    for entry in reversed(diary.entries):
        tool = _BY_CLASS.get(type(entry.what))
        if tool is None:
            continue
        out.append({"id": entry.id, "at": entry.at, "title": s.say(tool.title), "text": _summary(s, tool, entry.what),
                    "struck": entry.id not in counts, "when": when(s, entry.at)})  # fmt: skip
    return out


def _planned(desk: Desk) -> Planned | None:
    done = desk.outcome.estimate
    if done is None:
        return None
    b = done.batches
    return Planned(b.count, b.batch.bags_each, b.batch.yield_l, b.batch.foam_l, float(done.blocks.count), done.blocks.days_to_cast)


def _edits(g: Ground, diary: Diary) -> tuple[tuple[Edit, ...], tuple[Note, ...]]:
    project = g.desk.project
    found, notes = propose(project, facts(diary))
    weighed = g.last(BucketWeighed)
    if weighed is not None:
        volume, _, _ = calibrate(weighed.gross_g, weighed.empty_g, weighed.water_temperature_c, weighed.resolution_g)
        old = project.bucket.volume_l
        if volume is not None and 0.1 <= volume.value <= 50 and volume.value != old:
            agrees = volume.low <= old <= volume.high
            found = (*found, Edit("bucket.volume_l", old, volume.value, 1, volume.low, volume.high, agrees))
    return found, notes


def _of(desk: Desk, path: str, value: float | None) -> str:
    if value is None:
        return "–"
    kind = FIELDS[path].kind
    if kind in QUANTITIES and kind not in ("count", "ratio"):
        return desk.s.quantity(value, kind, significant=4, trim=True)
    return desk.s.number(value, significant=4, trim=True)


def _learn(g: Ground, diary: Diary) -> Answer:
    desk, s = g.desk, g.desk.s
    planned = _planned(desk)
    if planned is None or not g.entries:
        return {"blocks": [], "edits": []}
    found = facts(diary)

    def cell(kind: str, value: float | None) -> str:
        return "–" if value is None else desk.show(kind, value)

    def table(caption: str, head: tuple[str, ...], rows: Sequence[tuple[str, ...]]) -> Block:
        return {"kind": "table", "caption": caption, "head": [{"text": text, "number": i > 0} for i, text in enumerate(head)],
                "rows": [[{"text": text, "head": i == 0, "number": i > 0} for i, text in enumerate(row)] for row in rows]}  # fmt: skip

    rows = [
        (desk.say(words), cell(kind, line.planned), cell(kind, line.fact), s.whole(line.readings))
        for line in compare(planned, found)
        for words, kind in (_LINES[line.code],)
    ]
    blocks = [table(s._("Plan and fact"), ("", s._("Planned"), s._("So far"), s._("Readings")), rows)]
    ahead, notes = forecast(planned, found)
    if ahead:
        more = [
            (desk.say(words), cell(kind, each.likely), s._("%(low)s to %(high)s", low=cell(kind, each.low), high=cell(kind, each.high)))
            for each in ahead
            for words, kind in (_LINES[each.code],)
        ]
        blocks.append(table(s._("Still needed"), ("", s._("Likely"), s._("Range")), more))
    offered, why = _edits(g, diary)
    told = tuple({(note.code, str(note.params)): note for note in (*notes, *why)}.values())
    if told:
        blocks.append(notes_block(desk, told))
    return {
        "blocks": blocks,
        "edits": [
            {"id": each.path, "label": desk.label(each.path), "old": _of(desk, each.path, each.old), "new": _of(desk, each.path, each.new), "why": _why(desk, each)}
            for each in offered
        ],
    }


def _why(desk: Desk, each: Edit) -> str:
    s = desk.s
    words = s.n_("%(number)s reading, range %(low)s to %(high)s.", "%(number)s readings, range %(low)s to %(high)s.", each.readings,
                 number=s.whole(each.readings), low=_of(desk, each.path, each.low), high=_of(desk, each.path, each.high))  # fmt: skip
    return f"{words} {s._('What stands there fits too.')}" if each.agrees else words


def site(project: Project, s: Speaker, args: Args) -> Answer:
    """Return the whole site view."""
    diary = _diary(args.get("entries"))
    g = _ground(project, estimate(project), diary, s)
    return {"title": s._("On site"), "tools": [_tool(g, tool) for tool in TOOLS], "log": _log(diary, s), "learn": _learn(g, diary), "words": {}}


# --- two phones, and the estimate -------------------------------------------------------------


def diary_out(project: Project, s: Speaker, args: Args) -> Answer:
    """Return the diary as CSV."""
    kept = "".join(c if c.isalnum() else "-" for c in project.name.strip())[:40].strip("-")
    return {"file_name": f"{kept or 'dome'}.diary.csv", "text": write_csv(_diary(args.get("entries")))}


def diary_in(s: Speaker, args: Args) -> Answer:
    """Return the entries of a CSV that are not here yet."""
    own = _diary(args.get("entries"))
    taken = read_csv(str(args.get("text") or ""))
    if taken.diary is None:
        return {"outcome": "refused", "entries": [], "told": [], "problems": [_told(s, None, each) for each in taken.problems[:20]]}
    both, notes = merge(own, taken.diary)
    have = {(each.id.split("~")[0], each.at, each.what) for each in own.entries}
    fresh = [each for each in both.entries if (each.id.split("~")[0], each.at, each.what) not in have]
    desk = Desk(Project(), Outcome(None, (), ()), s)
    told = [s.n_("%(number)s entry is new.", "%(number)s entries are new.", len(fresh), number=s.whole(len(fresh)))]
    double = len(taken.diary.entries) - len(fresh)
    if double > 0:
        told.append(s.n_("%(number)s entry was here already.", "%(number)s entries were here already.", double, number=s.whole(double)))
    told += [note_text(desk, note) for note in notes]
    return {"outcome": "taken", "entries": [as_data(each) for each in fresh], "told": told, "problems": []}


def take(project: Project, s: Speaker, args: Args) -> Answer:
    """Take what was measured into the project, and say what changed."""
    diary, before = _diary(args.get("entries")), estimate(project)
    g = _ground(project, before, diary, s)
    wanted = [str(each) for each in args.get("edits") or []]
    told, made = [], project
    for each in _edits(g, diary)[0]:
        if each.path not in wanted:
            continue
        reading = edits.set_value(made, each.path, each.new)
        if reading.project is None:
            return {"outcome": "refused", "project": write_project(project), "view": None, "told": [],
                    "problem": _told(s, None, reading.problems[0]), "readings": []}  # fmt: skip
        made = reading.project
        told.append(s._("%(label)s: %(old)s, now %(new)s", label=g.desk.label(each.path), old=_of(g.desk, each.path, each.old), new=_of(g.desk, each.path, each.new)))
    after = estimate(made)
    if before.estimate is not None and after.estimate is not None and told:
        desks = [Desk(project, before, s), Desk(made, after, s)]
        for name in ("batches.cement_bags", "batches.to_mix", "foam.net_aim_g"):
            old, new = (desk.text(name) for desk in desks)
            if old != new:
                told.append(s._("%(label)s: %(old)s, now %(new)s", label=desks[0].item(name)["label"], old=old, new=new))
    return {"outcome": "taken", "project": write_project(made), "view": view(made, s, args.get("want")), "told": told, "problem": None, "readings": []}
