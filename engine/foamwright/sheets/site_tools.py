"""The tools of the site view: what is typed in each, and what the rooms say of it."""

import datetime
from collections.abc import Callable, Mapping, Sequence
from html import escape
from typing import Any, Final

import attrs
from attrs import evolve, field, frozen

from foamwright.diary import asked
from foamwright.diary.bucket import (
    FoamReading,
    Measured,
    WINDOWS,
    calibrate,
    change,
    concentrate,
    measured,
    output,
    rectangular,
    weigh_foam,
)
from foamwright.diary.causes import Evidence, search
from foamwright.diary.chart import Point, chart
from foamwright.diary.drain import Mark, drain
from foamwright.diary.entries import (
    BatchMade,
    BlocksMade,
    BucketWeighed,
    CauseSought,
    Content,
    Crushed,
    Delivery,
    Diary,
    Drained,
    Entry,
    FoamWeighed,
    HeightLost,
    OutputTimed,
    Remark,
    WaterTested,
    Weather,
)
from foamwright.diary.weighed import points, tried
from foamwright.material.check import Drum, correct, doubts, height_loss, sights, weigh_wet
from foamwright.material.check import SLIPS as WET_SLIPS
from foamwright.material.density import FoamDensity
from foamwright.material.foam import net_weight
from foamwright.material.mix import MixResult
from foamwright.material.strength import crushed
from foamwright.material.temper import hardness, weather
from foamwright.project.notes import Note, Problem
from foamwright.reader import NP_, Message, N_
from foamwright.sheets.fields import NOTHING
from foamwright.sheets.desk import Block, Desk
from foamwright.sheets.diary_words import (
    ABOUT,
    BASES,
    CAUSES,
    CERTAINTIES,
    CONTROLS,
    READING_KINDS,
    READINGS,
    SLIPS,
    SYMPTOMS,
    TESTS,
)
from foamwright.sheets.expected import named
from foamwright.sheets.fields import CHOICES
from foamwright.sheets.problems import notes_block
from foamwright.sheets.weather import HARD, TRY

#: Share that the volume of a bucket may be off which nobody weighed (common practice, no source) [-].
UNMEASURED: Final = 0.01
#: A reading so many times off the window is asked about even where no slip explains it (common practice, no source).
FAR: Final = 2.0
#: A batch so far off its target is asked about (common practice, no source) [-].
FAR_BATCH: Final = 0.4
#: Containers and working days that use is told for, where nothing else is stated (common practice, no source).
CONTAINER_L: Final = 20.0
BATCHES_PER_DAY: Final = 8.0


@frozen
class Spot:
    """One field of a tool: its name in the entry, its words, the reader's kind, and what a stored unit is of it."""

    path: str
    label: Message
    kind: str = ""
    times: float = 1.0
    form: str = "number"
    optional: bool = False
    help: Message = NOTHING
    choices: Mapping[str, Message] = field(factory=dict)
    longest: int = 40


@frozen
class Ground:
    """What a tool stands on: the desk, and the entries that count."""

    desk: Desk
    entries: tuple[Entry, ...]

    def of(self, cls: type[Any]) -> list[Any]:
        """Return the contents of one kind, oldest first."""
        return [entry.what for entry in self.entries if isinstance(entry.what, cls)]

    def last(self, cls: type[Any]) -> Any:
        """Return the newest content of one kind, or none."""
        found = self.of(cls)
        return found[-1] if found else None

    @property
    def mix(self) -> MixResult | None:
        """One batch as it is made on site, none without an estimate."""
        found = self.desk.outcome.estimate
        if found is None:
            return None
        times = found.batches.batch.yield_l / found.mix.yield_l
        names = ("cement_kg", "water_l", "foam_volume_l", "foam_mass_kg", "slurry_volume_l", "yield_l", "mass_kg")
        return evolve(found.mix, **{name: getattr(found.mix, name) * times for name in names})

    @property
    def bucket(self) -> Measured:
        """Volume of the measuring bucket: as weighed with water, else as stated [L]."""
        weighed = self.last(BucketWeighed)
        if weighed is not None:
            found, _, _ = calibrate(weighed.gross_g, weighed.empty_g, weighed.water_temperature_c, weighed.resolution_g)
            if found is not None:
                return found
        return volume_of(self.desk.project.bucket.volume_l)


def volume_of(litres: float) -> Measured:
    """Return the volume of a bucket that nobody weighed, with its uncertainty [L]."""
    return measured(litres, litres * rectangular(UNMEASURED))


@frozen
class Look:
    """What a tool says of what was typed; ``content`` is what would be entered."""

    content: Content | None = None
    tone: str = "plain"
    word: str = ""
    text: str = ""
    blocks: tuple[Block, ...] = ()
    problems: tuple[Problem, ...] = ()
    questions: tuple[tuple[str, str], ...] = ()
    asked: str = ""
    waiting: bool = False


Typed = dict[str, Any]
Looker = Callable[[Ground, Typed, frozenset[str]], Look]


@frozen
class Tool:
    """One tool: its name, picture and fields, what it makes of them, and what already stands."""

    id: str
    title: Message
    picture: str
    lead: Message
    cls: type[Any]
    spots: tuple[Spot, ...]
    look: Looker
    stands: Callable[[Ground], list[Block]] = lambda _: []
    aim: Callable[[Ground], dict[str, Any] | None] = lambda _: None
    known: Callable[[Ground], Typed] = lambda _: {}


YES_NO: Final = {"no": NP_("answer", "No"), "yes": NP_("answer", "Yes")}
_OUTCOMES: Final = {
    "poured": NP_("batch", "Poured"), "lost": NP_("batch", "Lost"), "calibration": NP_("batch", "Made to set up"),
}  # fmt: skip
_FORMS: Final = {"cube": N_("Cube"), "cylinder": N_("Cylinder")}
_SKY: Final = {
    "unstated": N_("Not stated"), "sun": N_("Sun"), "cloud": N_("Clouds"), "rain": N_("Rain"), "snow": N_("Snow"), "frost": N_("Frost"),
}  # fmt: skip
_PLACES: Final = {
    "below": NP_("foam", "lighter than this"), "within": NP_("foam", "within this"), "above": NP_("foam", "heavier than this"),
    "cannot_tell": NP_("foam", "on the edge of this"),
}  # fmt: skip


def _table(caption: str, head: list[str], rows: list[list[str]]) -> Block:
    return {
        "kind": "table", "caption": caption, "head": [{"text": text, "number": False} for text in head],
        "rows": [[{"text": text, "head": i == 0} for i, text in enumerate(row)] for row in rows],
    }  # fmt: skip


def _notes(desk: Desk, notes: tuple[Note, ...]) -> list[Block]:
    return [notes_block(desk, notes)] if notes else []


def _small(text: str) -> Block:
    return {"kind": "text", "tone": "small", "text": text}


def _heading(text: str) -> Block:
    return {"kind": "heading", "text": text}


# --- the bucket -------------------------------------------------------------------------------


def _look_bucket(g: Ground, t: Typed, _: frozenset[str]) -> Look:
    s = g.desk.s
    found, problems, notes = calibrate(t["gross_g"], t["empty_g"], t["water_temperature_c"], t["resolution_g"])
    if found is None:
        return Look(problems=problems)
    text = s._("It holds %(volume)s, between %(low)s and %(high)s.", volume=s.quantity(found.value, "liquid_bucket"),
               low=s.quantity(found.low, "liquid_bucket"), high=s.quantity(found.high, "liquid_bucket"))  # fmt: skip
    return Look(BucketWeighed(**t), "good", s._("Measured."), text, tuple(_notes(g.desk, notes)))


def _known_bucket(g: Ground) -> Typed:
    last = g.last(BucketWeighed)
    return {"water_temperature_c": 20.0, "resolution_g": last.resolution_g if last else 1.0}


# --- foam -------------------------------------------------------------------------------------


def _known_foam(g: Ground) -> Typed:
    last, water = g.last(FoamWeighed), g.last(BucketWeighed)
    out: Typed = {"volume_l": g.bucket.value, "resolution_g": 1.0, "dilution": g.desk.project.foam.agent_dilution}
    if water is not None:
        out |= {"empty_g": water.empty_g, "resolution_g": water.resolution_g}
    if last is not None:
        same = ("empty_g", "resolution_g", "generator", "agent", "dilution", "air", "liquid")
        out |= {name: getattr(last, name) for name in same} | ({} if water else {"volume_l": last.volume_l})
    return out


def _aim_foam(g: Ground) -> dict[str, Any]:
    s, wanted = g.desk.s, g.desk.project.bucket
    volume = float(_known_foam(g)["volume_l"])
    low, aim, high = (
        s.quantity(net_weight(FoamDensity(value), volume), "mass_small")
        for value in (wanted.foam_low_kg_m3, wanted.foam_aim_kg_m3, wanted.foam_high_kg_m3)
    )
    return {
        "label": s._("Foam in the bucket, empty bucket taken off"), "text": aim,
        "say": s._("%(aim)s; right from %(low)s to %(high)s", aim=aim, low=low, high=high),
    }  # fmt: skip


def _volume(g: Ground, litres: float) -> Measured:
    """The bucket's volume as typed; it is known as well as it was weighed where it is the one that was weighed."""
    known = g.bucket
    return known if abs(litres / known.value - 1) < 1e-4 else volume_of(litres)


def _buckets(g: Ground) -> tuple[asked.Known, ...]:
    found = {
        (round(each.volume_l, 4), each.empty_g)
        for each in (*g.of(FoamWeighed), *g.of(BatchMade))
        if each.volume_l and each.empty_g is not None
    }
    return tuple(asked.Known(f"{volume:g}", volume, empty) for volume, empty in sorted(found))


def _doubt_foam(g: Ground, t: Typed) -> tuple[asked.Question, ...]:
    wanted = g.desk.project.bucket
    low, high = wanted.foam_low_kg_m3, wanted.foam_high_kg_m3
    others = tuple(each for each in _buckets(g) if abs(each.volume_l / t["volume_l"] - 1) > 1e-3 or each.empty_g != t["empty_g"])
    found = asked.ask(t["gross_g"], t["empty_g"], t["volume_l"], min(low, high), max(low, high), others)
    near = [each for each in found if each.code != "reading_far_off"]
    density = found[0].typed.density_kg_m3 if found else 0.0
    return tuple(near) if near or not found or low / FAR <= density <= high * FAR else found


def _ask(g: Ground, code: str, choices: Sequence[tuple[str, str, float]], typed: float | None, kind: str) -> Look:
    """A question: what was perhaps meant, and as typed where that can be."""
    s = g.desk.s
    out = [
        (f"meant:{name}", s._("%(question)s Then it is %(density)s.", question=g.desk.say(SLIPS[slip]), density=s.quantity(value, kind)))
        for name, slip, value in choices
    ]  # fmt: skip
    if typed is not None:
        out.append(("typed", s._("As typed: %(density)s", density=s.quantity(typed, kind))))
    return Look(tone="unsure", word=s._("Is that right?"), text=g.desk.say(SLIPS[code]), questions=tuple(out), asked=code)


def _look_foam(g: Ground, t: Typed, confirmed: frozenset[str]) -> Look:
    desk, s = g.desk, g.desk.s
    if t["volume_l"] <= 0:
        return Look(problems=(Problem("volume_l", t["volume_l"], 0.1, "too_small"),))
    questions = _doubt_foam(g, t)
    meant = next((each.meant for each in questions if each.meant and f"meant:{each.code}" in confirmed), None)
    if meant is not None:
        t = t | {"gross_g": meant.gross_g, "empty_g": meant.empty_g, "volume_l": meant.volume_l}
    elif questions and ("typed" not in confirmed or t["gross_g"] <= t["empty_g"]):
        can = [(each.code, each.code, each.meant.density_kg_m3) for each in questions if each.meant]
        whole = t["gross_g"] > t["empty_g"]
        if not can and not whole:
            return Look(problems=(Problem("gross_g", t["gross_g"], t["empty_g"], "gross_below_empty"),))
        return _ask(g, questions[0].code, can, questions[0].typed.density_kg_m3 if whole else None, "foam_density")
    volume = _volume(g, t["volume_l"])
    found, problems, notes = weigh_foam(t["gross_g"], t["empty_g"], volume, t["resolution_g"], desk.project.bucket)
    if found is None:
        return Look(problems=problems)
    content = FoamWeighed(**t, volume_standard_l=min(volume.standard, 5.0))
    tone, word = _VERDICTS[found.verdict]
    q = s.quantity
    text = s._("%(net)s of foam: %(density)s, between %(low)s and %(high)s.", net=q(found.net_g, "mass_small"),
               density=q(found.density_kg_m3.value, "foam_density", decimals=1), low=q(found.density_kg_m3.low, "foam_density", decimals=1),
               high=q(found.density_kg_m3.high, "foam_density", decimals=1))  # fmt: skip
    now = Diary((*g.entries, Entry("now-0", g.entries[-1].at if g.entries else "2000-01-01T00:00", content)))
    blocks = [*_notes(desk, notes), *(_advice(desk, now, found) if found.verdict != "within" else []), _windows(desk, found)]
    return Look(content, tone, desk.say(word), text, tuple(blocks))


_VERDICTS: Final = {
    "within": ("good", NP_("weight of foam", "Right.")),
    "below": ("bad", NP_("weight of foam", "Too light.")),
    "above": ("bad", NP_("weight of foam", "Too heavy.")),
    "cannot_tell": ("unsure", N_("Cannot tell.")),
}


def _advice(desk: Desk, diary: Diary, found: FoamReading) -> list[Block]:
    """What to change on the generator, learnt from the settings that were written down."""
    s = desk.s
    advice, notes = change(tried(diary), desk.project.bucket.foam_aim_kg_m3, found.density_kg_m3.standard)
    items = []
    for each in advice:
        turn = {"control": desk.say(CONTROLS[each.control]), "by": s.number(each.by, significant=3, trim=True),
                "to": s.number(each.to, significant=3, trim=True), "density": s.quantity(each.expected_kg_m3, "foam_density")}  # fmt: skip
        if each.direction == "more":
            items.append(s._("More %(control)s: %(by)s up, to %(to)s. Then expect %(density)s.", **turn))
        else:
            items.append(s._("Less %(control)s: %(by)s down, to %(to)s. Then expect %(density)s.", **turn))
    out: list[Block] = [_heading(s._("What to change on the generator"))]
    if items:
        out.append({"kind": "points", "items": items})
    elif not desk.project.bucket.foam_low_kg_m3 <= found.density_kg_m3.value <= desk.project.bucket.foam_high_kg_m3:
        light = found.density_kg_m3.value < desk.project.bucket.foam_low_kg_m3
        out.append({"kind": "points", "items": [s._("Less air or more liquid.") if light else s._("More air or less liquid.")]})
    return [*out, *_notes(desk, notes)]


def _windows(desk: Desk, found: FoamReading | None = None) -> Block:
    """The wanted window and the published ones, and where a reading lies in each."""
    s, bucket = desk.s, desk.project.bucket
    rows = [[_span(desk, bucket.foam_low_kg_m3, bucket.foam_high_kg_m3), s._("wanted")]]
    rows += [[_span(desk, each.low_kg_m3, each.high_kg_m3), named(desk, each.source)] for each in WINDOWS]
    head = [s._("Foam"), s._("Who says so")]
    if found is not None:
        rows = [[*row, desk.say(_PLACES[each.verdict])] for row, each in zip(rows, found.windows, strict=True)]
        head.append(s._("This reading"))
    return _table(s._("Published windows disagree"), head, rows)


def _span(desk: Desk, low: float, high: float) -> str:
    q = desk.s.quantity
    return desk.s._("%(low)s to %(high)s", low=q(low, "foam_density"), high=q(high, "foam_density"))


def _drawn(desk: Desk, run: tuple[Point, ...], low: float, high: float, limits: tuple[float, float, float] | None) -> str:
    """The control chart as a picture: the window, the limits and the readings in order."""
    values = [point.density_kg_m3 for point in run][-40:]
    every = [*values, low, high, *(limits or ())]
    least, most = min(every), max(every)
    pad = (most - least) * 0.08 or 1.0
    least, most = least - pad, most + pad

    def y(value: float) -> float:
        return float(round(180 - (value - least) / (most - least) * 170, 1))

    step = 560 / max(len(values) - 1, 1)
    dots = [(round(20 + i * step, 1), y(value)) for i, value in enumerate(values)]
    lines = [f'<rect x="0" y="{y(high)}" width="600" height="{round(y(low) - y(high), 1)}" fill="currentColor" fill-opacity="0.12"/>']
    for value, dash in zip(limits or (), ("8 6", "", "8 6"), strict=False):
        mark = f' stroke-dasharray="{dash}"' if dash else ""
        lines.append(f'<path d="M0 {y(value)}H600" stroke="currentColor" stroke-width="2" fill="none"{mark}/>')
    lines.append('<path d="M' + "L".join(f"{x} {at}" for x, at in dots) + '" stroke="currentColor" stroke-width="2" fill="none"/>')
    lines += [f'<circle cx="{x}" cy="{at}" r="5" fill="currentColor"/>' for x, at in dots]
    title = escape(desk.s._("Control chart of the foam"))
    return f'<svg viewBox="0 0 600 190" role="img" aria-label="{title}">{"".join(lines)}</svg>'


def _sees(g: Ground) -> list[Block]:
    """What each check can see, by the numbers of this batch."""
    s, mix, bucket = g.desk.s, g.mix, g.desk.project.bucket
    if mix is None:
        return []
    seen = {(each.check, each.of): each.moves for each in sights(mix, FoamDensity(bucket.foam_low_kg_m3), FoamDensity(bucket.foam_high_kg_m3))}
    wet, foam, missing = seen["wet_bucket", "foam_density"], seen["foam_bucket", "foam_density"], seen["wet_bucket", "foam_quantity"]
    p = s.percent
    return [_small(s._(
        "What each check can see: over the whole window the foam bucket moves by %(foam)s, the bucket of wet concrete by %(wet)s only, %(half)s to either side of "
        "the middle. So wet concrete does not show bad foam. A tenth of the foam missing moves wet concrete by %(missing)s, and the foam bucket not at all.",
        foam=p(foam, decimals=1), wet=p(wet, decimals=1), half=p(wet / 2, decimals=1), missing=p(missing, decimals=1)))]  # fmt: skip


def _stands_foam(g: Ground) -> list[Block]:
    desk, s, bucket = g.desk, g.desk.s, g.desk.project.bucket
    out: list[Block] = []
    found, notes = chart(points(Diary(g.entries)), bucket.foam_low_kg_m3, bucket.foam_high_kg_m3)
    if found.points:
        words = {"go_on": s._("Go on."), "look": s._("Look before going on."), "stop": s._("Stop and recalibrate."), "none": ""}[found.verdict]
        lim = None if found.limits is None or found.judged_by == "window" else (found.limits.low, found.limits.mean, found.limits.high)
        out += [
            _heading(s._("Control chart of the foam")),
            {"kind": "text", "tone": "plain", "text": words},
            {"kind": "drawing", "id": "foam-chart", "title": s._("Control chart of the foam"),
             "words": s._("Readings in order; the shaded band is the wanted window, dashed lines are the limits of the chart."),
             "svg": _drawn(desk, found.points, bucket.foam_low_kg_m3, bucket.foam_high_kg_m3, lim), "touch": False},
            *_notes(desk, notes),
            _table(s._("Readings of this generator, agent and dilution, newest first"), [s._("When"), s._("Foam")],
                   [[when(s, point.at), s.quantity(point.density_kg_m3, "foam_density", decimals=1)] for point in reversed(found.points[-20:])]),
        ]  # fmt: skip
    return [*out, _windows(desk), *_concentrate(g), *_sees(g)]


def _concentrate(g: Ground) -> list[Block]:
    desk, s, done = g.desk, g.desk.s, g.desk.outcome.estimate
    if done is None:
        return []
    last = g.last(FoamWeighed)
    dilution = (last.dilution if last else None) or desk.project.foam.agent_dilution
    made = {each.at[:10] for each in g.entries if isinstance(each.what, BatchMade)}
    per_day = len(g.of(BatchMade)) / len(made) if made else BATCHES_PER_DAY
    found, _ = concentrate(dilution, done.batches.batch.foam_l, done.mix.foam_density_kg_m3, done.batches.count, CONTAINER_L, per_day)
    if found is None:
        return []
    q = s.quantity
    pace = s._("%(number)s a day", number=s.number(per_day, decimals=1, trim=True))
    return [
        _table(s._("Concentrate"), [s._("For"), s._("How much")], [
            [s._("One batch"), q(found.per_batch_l, "liquid_small")],
            [s._("Solution of one batch"), q(found.solution_per_batch_l, "liquid")],
            [s.p_("concrete", "The whole job"), q(found.per_job_l, "liquid")],
            [s._("Batches from a container of %(volume)s", volume=q(CONTAINER_L, "liquid")), s.whole(int(found.batches_per_container))],
            [s._("Days that it lasts at %(pace)s", pace=pace), q(found.days_per_container, "days", decimals=1)],
        ]),
        _small(s._("At one part of concentrate to %(water)s of water.", water=s.number(dilution, significant=3, trim=True))),
    ]  # fmt: skip


# --- output and drain -------------------------------------------------------------------------


def _look_output(g: Ground, t: Typed, _: frozenset[str]) -> Look:
    s, mix = g.desk.s, g.mix
    found, problems = output(t["drum_l"], t["seconds"], mix.foam_volume_l if mix else 0.0)
    if found is None:
        return Look(problems=problems)
    rate = s._("%(volume)s of foam a minute.", volume=s.quantity(found.l_per_min.value, "liquid"))
    if mix is None:
        return Look(OutputTimed(**t), "plain", rate)
    need = s.n_("%(number)s second of foam for this batch, between %(low)s and %(high)s.", "%(number)s seconds of foam for this batch, between %(low)s and %(high)s.",
                round(found.seconds.value), number=s.whole(round(found.seconds.value)), low=s.whole(round(found.seconds.low)), high=s.whole(round(found.seconds.high)))  # fmt: skip
    return Look(OutputTimed(**t), "plain", need, rate)


def _stands_output(g: Ground) -> list[Block]:
    last = g.last(OutputTimed)
    if last is None:
        return []
    said = _look_output(g, attrs.asdict(last), frozenset())
    return [{"kind": "text", "tone": "plain", "text": f"{said.word} {said.text}".strip()}]


_DRAIN: Final = {
    "soon": ("bad", N_("It does not stand.")), "middling": ("unsure", N_("Middling.")), "holds": ("good", N_("It stands.")),
    "cannot_tell": ("unsure", N_("Cannot tell.")),
}  # fmt: skip


def _look_drain(g: Ground, t: Typed, _: frozenset[str]) -> Look:
    s, net = g.desk.s, t["net_g"]
    timed = [(t["quarter_minutes"], 0.25), (t["half_minutes"], 0.5)]
    marks = tuple(Mark(minutes, net * share) for minutes, share in timed if minutes is not None)
    watched = max((mark.minutes for mark in marks), default=0.0)
    if t["watched_minutes"] is None and not marks:
        return Look(waiting=True)
    t = t | {"watched_minutes": max(t["watched_minutes"] or 0.0, watched)}
    before = sorted(each.quarter_minutes for each in g.of(Drained) if each.quarter_minutes and each.agent == t["agent"])
    own = before[len(before) // 2] if before else None
    found, problems, notes = drain(net, marks or (Mark(t["watched_minutes"], 0.0),), own)
    if found is None:
        return Look(problems=tuple(evolve(each, path=each.path if each.path in t else "half_minutes" if marks else "watched_minutes") for each in problems))
    tone, word = _DRAIN[found.verdict]
    text = "" if found.quarter_minutes is None else s._("A quarter drained in %(minutes)s.", minutes=s.quantity(found.quarter_minutes, "duration", decimals=1))
    return Look(Drained(**t), tone, g.desk.say(word), text, tuple(_notes(g.desk, notes)))


def _known_agent(g: Ground) -> Typed:
    last = g.last(Drained) or g.last(FoamWeighed)
    return {"agent": last.agent if last else ""}


# --- batch ------------------------------------------------------------------------------------


_CORRECT: Final = {
    "pour": ("good", N_("Pour it.")), "fold_in_foam": ("bad", N_("Too heavy: fold in foam.")), "add_slurry": ("bad", NP_("weight", "Too light: add slurry.")),
    "weigh_again": ("unsure", N_("Weigh it again.")), "do_not_pour": ("bad", N_("Do not pour.")),
}  # fmt: skip


def _aim_batch(g: Ground) -> dict[str, Any] | None:
    s, mix, last = g.desk.s, g.mix, g.last(BatchMade)
    if mix is None:
        return None
    if last is not None and last.volume_l:
        net = s.quantity(mix.wet_density_kg_m3 * last.volume_l / 1000, "mass", decimals=2)
        return {"label": s._("Foamed concrete in the bucket, empty bucket taken off"), "text": net, "say": None}
    return {"label": s._("Fresh foamed concrete"), "text": s.quantity(mix.wet_density_kg_m3, "density"), "say": None}


def _known_batch(g: Ground) -> Typed:
    last = g.last(BatchMade)
    return {"outcome": "poured", "falling": "no", "empty_g": last.empty_g if last else None, "volume_l": last.volume_l if last else None}


def _good_foam(g: Ground) -> bool | None:
    """Whether the last foam was on its weight; none where none was weighed."""
    last = g.last(FoamWeighed)
    if last is None:
        return None
    volume = measured(last.volume_l, last.volume_standard_l)
    found, _, _ = weigh_foam(last.gross_g, last.empty_g, volume, last.resolution_g, g.desk.project.bucket)
    return found is not None and found.verdict not in ("below", "above")


def _look_batch(g: Ground, t: Typed, confirmed: frozenset[str]) -> Look:
    desk, s, mix = g.desk, g.desk.s, g.mix
    gross, empty, volume = t["gross_g"], t["empty_g"], t["volume_l"]
    if None in (gross, empty, volume):
        if t["outcome"] == "poured" or mix is None and gross is not None:
            return Look(waiting=True)
        return Look(BatchMade(**t), "plain", desk.say(_OUTCOMES[t["outcome"]]))
    if mix is None:
        return Look(BatchMade(**t), "plain", s._("Written down."), s._("There is no estimate to hold it against."))
    if volume <= 0:
        return Look(problems=(Problem("volume_l", volume, 0.1, "too_small"),))
    target = mix.wet_density_kg_m3
    if gross <= empty:
        return Look(problems=(Problem("gross_g", gross, empty, "gross_below_empty"),))
    density = (gross - empty) / volume
    if abs(density / target - 1) > FAR_BATCH:
        found_slips = [each for each in doubts(gross / 1000, empty / 1000, volume, target)]
        chosen = next((each for each in found_slips if f"meant:{each.slip}" in confirmed), None)
        if chosen is not None and chosen.slip in WET_SLIPS:
            gross, empty = gross / WET_SLIPS[chosen.slip], empty / WET_SLIPS[chosen.slip]
        elif chosen is not None:
            gross += empty
        elif "typed" not in confirmed:
            can = [(each.slip, _SLIPS[each.slip], float(each.density_kg_m3)) for each in found_slips]
            return _ask(g, can[0][1] if can else "reading_far_off", can, density, "density")
        t = t | {"gross_g": gross, "empty_g": empty}
    reading, problems = weigh_wet(gross / 1000, empty / 1000, volume, 0.005, volume * rectangular(UNMEASURED))
    if reading is None:
        return Look(problems=tuple(evolve(each, path="gross_g", value=gross, limit=empty) for each in problems))
    foam = _good_foam(g)
    drum = Drum(t["in_drum_l"], desk.e.batches.limit_l, t["minutes"] or 0.0, t["falling"] == "yes", foam is not False)
    one, problems, notes = correct(reading, mix, drum)
    if one is None:
        return Look(problems=tuple(evolve(each, path=_DRUM.get(each.path, "in_drum_l")) for each in problems))
    tone, word = _CORRECT[one.verdict]
    q = s.quantity
    share = s.percent(abs(one.off), decimals=1)
    off = s.p_("weight", "%(share)s too heavy", share=share) if one.off > 0 else s.p_("weight", "%(share)s too light", share=share)
    text = s._("%(density)s, wanted %(target)s: %(off)s. This batch makes %(yield)s.", density=q(one.wet_density_kg_m3, "density"),
               target=q(one.target_kg_m3, "density"), off=off, **{"yield": q(one.yield_l, "liquid")})  # fmt: skip
    steps = []
    if one.take_out_l > 0:
        steps.append(s._("Take out %(volume)s first; there is no room.", volume=q(one.take_out_l, "liquid")))
    if one.foam_l > 0:
        steps.append(s._("Fold in %(volume)s of foam.", volume=q(one.foam_l, "liquid")))
    if one.slurry_l > 0:
        steps.append(s._("Add %(volume)s of slurry: %(cement)s of cement with %(water)s of water.", volume=q(one.slurry_l, "liquid"),
                         cement=q(one.slurry_cement_kg, "mass"), water=q(one.slurry_water_l, "liquid")))  # fmt: skip
    if steps:
        steps.append(s._("Weigh it again: it must come to %(density)s.", density=q(one.after_kg_m3, "density")))
    blocks: list[Block] = [{"kind": "steps", "items": steps}] if steps else []
    blocks += _notes(desk, notes)
    if foam is None:
        blocks.append(_small(s._("No foam was weighed before this batch, so its foam is taken to be good.")))
    bags = t["bags"]
    cement = bags * desk.project.market.cement_bag_kg if bags else mix.cement_kg
    made = t["in_drum_l"] or one.yield_l * (cement / mix.cement_kg)
    content = BatchMade(**t | {"cement_kg": cement, "yield_l": min(made, 50_000.0)})
    return Look(content, tone, desk.say(word), text, tuple([*blocks, *_sees(g)]))


_SLIPS: Final = {
    "ounces": "scale_in_ounces", "pounds": "scale_in_pounds", "grams": "scale_in_grams", "ten_times": "typed_ten_times",
    "a_tenth": "typed_a_tenth", "empty_taken_off_twice": "net_typed_as_gross",
}  # fmt: skip
_DRUM: Final = {"check.minutes": "minutes", "check.in_drum_l": "in_drum_l"}

_HEIGHT: Final = {"holds": ("good", N_("It holds.")), "sinks": ("unsure", N_("It sinks.")), "collapsed": ("bad", N_("It collapsed."))}


def _look_height(g: Ground, t: Typed, _: frozenset[str]) -> Look:
    s, mix = g.desk.s, g.mix
    wet = mix.wet_density_kg_m3 if mix else None
    if wet is None:
        return Look(HeightLost(**t), "plain", s._("Written down."))
    assert mix is not None
    found, problems = height_loss(t["filled_m"], t["after_m"], mix.yield_l, wet)
    if found is None:
        return Look(problems=tuple(evolve(each, path=each.path.removeprefix("check.")) for each in problems))
    tone, word = _HEIGHT[found.verdict]
    lost = s._("%(height)s lost, %(share)s of the height.", height=s.quantity(found.lost_m, "length_small"), share=s.percent(found.share, decimals=1))
    return Look(HeightLost(**t), tone, g.desk.say(word), lost)


# --- blocks, specimens, water, weather, delivery, note ----------------------------------------


def _look_blocks(g: Ground, t: Typed, _: frozenset[str]) -> Look:
    s = g.desk.s
    made = sum(each.made - each.broken for each in g.of(BlocksMade)) + t["made"] - t["broken"]
    done = g.desk.outcome.estimate
    words = s.n_("%(number)s sound block so far", "%(number)s sound blocks so far", made, number=s.whole(made))
    text = "" if done is None else s._("of %(need)s that are needed.", need=s.whole(done.blocks.count))
    return Look(BlocksMade(**t), "plain", words, text)


def _strength(each: Crushed) -> float:
    area = each.width_m**2 * (1 if each.form == "cube" else 0.7853981633974483)
    return each.load_kn / area / 1000


def _specimens(g: Ground, more: tuple[Crushed, ...]) -> tuple[list[Block], tuple[Problem, ...]]:
    desk, s = g.desk, g.desk.s
    groups: dict[tuple[str, float], list[float]] = {}
    for each in (*g.of(Crushed), *more):
        if each.width_m > 0:
            groups.setdefault((each.form, each.age_days), []).append(_strength(each))
    rows, notes = [], []
    for (form, age), values in groups.items():
        found, problems, told = crushed(tuple(values), desk.e.mix.wet_density_kg_m3 if desk.outcome.estimate else None, shape=form)
        if found is None:
            return [], problems
        spread = s.quantity(found.deviation_mpa, "stress") if found.deviation_mpa is not None else "–"
        rows.append([desk.say(_FORMS[form]), s.quantity(age, "days"), s.whole(found.count), s.quantity(found.mean_mpa, "stress"), spread, s.quantity(found.least_mpa, "stress")])
        notes += [note for note in told if note not in notes]
    if not rows:
        return [], ()
    head = [s._("Specimen"), s._("Age"), s._("How many"), s._("Mean"), s._("Spread"), s.p_("strength", "Weakest")]
    return [_table(s._("Crushed specimens"), head, rows), *_notes(desk, tuple(notes))], ()


def _look_crushed(g: Ground, t: Typed, _: frozenset[str]) -> Look:
    content = Crushed(**t)
    if content.width_m <= 0:
        return Look(problems=(Problem("width_m", content.width_m, 0.02, "too_small"),))
    blocks, problems = _specimens(g, (content,))
    if problems:
        return Look(problems=tuple(evolve(each, path="load_kn", value=None, limit=None, code="not_finite") for each in problems))
    return Look(content, "plain", g.desk.s.quantity(_strength(content), "stress"), "", tuple(blocks))


def _look_water(g: Ground, t: Typed, _: frozenset[str]) -> Look:
    desk, s = g.desk, g.desk.s
    if t["hardness_mg_l"] is None and t["ph"] is None and t["temperature_c"] is None:
        return Look(waiting=True)
    if t["hardness_mg_l"] is None:
        return Look(WaterTested(**t), "plain", s._("Written down."))
    found, problems, notes = hardness(t["hardness_mg_l"])
    if problems:
        return Look(problems=tuple(evolve(each, path="hardness_mg_l") for each in problems))
    worst = max(found, key=lambda each: len(each.attempts))
    tone = "bad" if worst.word in ("hard", "very_hard") else "good"
    blocks: list[Block] = [_table(s._("How hard it is called"), [s._("Class"), s._("Who says so")], [[desk.say(HARD[each.word]), named(desk, each.source)] for each in found])]
    blocks += _notes(desk, notes)
    if worst.attempts:
        blocks.append({"kind": "points", "items": [desk.say(TRY[each]) for each in worst.attempts]})
    return Look(WaterTested(**t), tone, s._("This water is %(hard)s.", hard=desk.say(HARD[worst.word])), "", tuple(blocks))


def _look_weather(g: Ground, t: Typed, _: frozenset[str]) -> Look:
    s = g.desk.s
    if all(value is None for name, value in t.items() if name != "sky") and t["sky"] == "unstated":
        return Look(waiting=True)
    air, night = t["air_c"], t["night_low_c"]
    notes: tuple[Note, ...] = ()
    if air is not None or night is not None:
        problems, notes = weather(night if air is None else air, air if night is None else night)
        if problems:
            return Look(problems=tuple(evolve(each, path="air_c" if air is not None else "night_low_c") for each in problems))
    tone = "bad" if any(note.severity == "warning" for note in notes) else "unsure" if notes else "good"
    word = s._("Look at this.") if notes else s._("Nothing against it.") if air is not None or night is not None else s._("Written down.")
    return Look(Weather(**t), tone if air is not None or night is not None else "plain", word, "", tuple(_notes(g.desk, notes)))


def _look_plain(cls: type[Any]) -> Looker:
    def look(g: Ground, t: Typed, _: frozenset[str]) -> Look:
        return Look(cls(**t), "plain", g.desk.s._("Ready to be saved."))

    return look


# --- the cause --------------------------------------------------------------------------------


def measured_signs(g: Ground) -> dict[str, float]:
    """Return what the diary and the project say of the signs that were measured, newest first."""
    out: dict[str, float] = {}
    project, mix = g.desk.project, g.mix
    foam, water, stood, batch = g.last(FoamWeighed), g.last(WaterTested), g.last(Drained), g.last(BatchMade)
    sky, height = g.last(Weather), g.last(HeightLost)
    if foam is not None and foam.gross_g > foam.empty_g:
        out["foam_density_ratio"] = (foam.gross_g - foam.empty_g) / foam.volume_l / project.bucket.foam_aim_kg_m3
        if foam.dilution is not None:
            out["agent_dilution_ratio"] = foam.dilution / project.foam.agent_dilution
    if stood is not None:
        if stood.quarter_minutes is not None:
            out["drain_quarter_minutes"] = stood.quarter_minutes
        elif stood.watched_minutes:
            out["drain_quarter_minutes"] = stood.watched_minutes
    if water is not None and water.hardness_mg_l is not None:
        out["water_hardness_mg_l"] = water.hardness_mg_l
    if batch is not None:
        if batch.mix_temperature_c is not None:
            out["mix_temperature_c"] = batch.mix_temperature_c
        if batch.minutes is not None:
            out["minutes_foam_to_pour"] = batch.minutes
        if mix is not None:
            if batch.gross_g is not None and batch.empty_g is not None and batch.volume_l and batch.gross_g > batch.empty_g:
                out["wet_density_ratio"] = (batch.gross_g - batch.empty_g) / batch.volume_l / mix.wet_density_kg_m3
            if batch.foam_l is not None:
                out["foam_volume_ratio"] = batch.foam_l / mix.foam_volume_l
    if sky is not None:
        for name, value in (("night_low_c", sky.night_low_c), ("air_temperature_c", sky.air_c), ("humidity_fraction", sky.humidity_fraction), ("wind_m_s", sky.wind_m_s)):
            if value is not None:
                out[name] = value
    if height is not None and height.filled_m > 0:
        out["height_lost_fraction"] = 1 - height.after_m / height.filled_m
    return out


def _look_cause(g: Ground, t: Typed, _: frozenset[str]) -> Look:
    desk, s = g.desk, g.desk.s
    seen = tuple(name for name in SYMPTOMS if t[name] == "yes")
    if not seen:
        return Look(waiting=True)
    found, notes = search(seen, measured_signs(g))

    def sign(each: Evidence) -> str:
        basis = desk.say(BASES[each.basis])
        if each.value is None:
            return s._("%(sign)s: %(basis)s", sign=desk.say(SYMPTOMS[each.sign]), basis=basis)
        kind = READING_KINDS.get(each.sign)
        value = s.quantity(each.value, kind) if kind else s.number(each.value, significant=3, trim=True)
        return s._("%(sign)s %(value)s: %(basis)s", sign=desk.say(READINGS[each.sign]), value=value, basis=basis)

    blocks: list[Block] = []
    for cause in [each for each in found.causes if each.score > 0][:4]:
        items = [s._("For: %(sign)s", sign=sign(each)) for each in cause.speaks_for]
        items += [s._("Against: %(sign)s", sign=sign(each)) for each in cause.speaks_against]
        items.append(s._("Next: %(test)s", test=desk.say(TESTS[cause.next_test])))
        blocks += [
            _heading(s._("%(cause)s (%(certainty)s)", cause=desk.say(CAUSES[cause.code]), certainty=desk.say(CERTAINTIES[cause.certainty]))),
            _small(desk.say(ABOUT[cause.about])),
            {"kind": "points", "items": items},
        ]
    blocks += _notes(desk, notes)
    blocks.append(_small(s._("The order says where to look first, not what happened. The weights are common practice, no source.")))
    if not found.causes or found.causes[0].score <= 0:
        return Look(CauseSought(**t), "unsure", s._("Nothing points to a cause."), "", tuple(blocks))
    first = found.causes[0]
    return Look(CauseSought(**t), "unsure", s._("Look here first: %(cause)s.", cause=desk.say(CAUSES[first.code])), desk.say(TESTS[first.next_test]), tuple(blocks))


def when(s: Any, at: str) -> str:
    """Return a date and time of an entry in the reader's words and digits."""
    try:
        moment = datetime.datetime.fromisoformat(at)
    except ValueError:
        return at
    zero = ord(s.style.zero)
    clock = moment.strftime("%H:%M").translate({ord("0") + i: chr(zero + i) for i in range(10)})
    return str(s._("%(date)s, %(time)s", date=s.date(moment.date()), time=clock))


# --- the list ---------------------------------------------------------------------------------

_EMPTY: Final = Spot("empty_g", N_("Empty bucket"), "mass_small")
_SCALE: Final = Spot("resolution_g", NP_("weighing", "Step of the scale"), "mass_small", help=N_("The smallest difference that its display shows."))
_AGENT: Final = Spot("agent", N_("Foaming agent"), form="text", optional=True)
_LABEL: Final = Spot("label", N_("Note"), form="text", optional=True, longest=120)

TOOLS: Final = (
    Tool("foam", N_("Weigh foam"), "foam", N_("Fill the bucket, strike it off level, weigh it."), FoamWeighed, (
        Spot("gross_g", N_("Full bucket"), "mass_small"), _EMPTY,
        Spot("volume_l", N_("Volume of the bucket"), "liquid_bucket"), _SCALE,
        Spot("air", N_("Air setting"), optional=True, help=N_("As your generator shows it, in any unit. From two settings on, this page says what to change.")),
        Spot("liquid", N_("Liquid setting"), optional=True, help=N_("As your generator shows it, in any unit.")),
        Spot("generator", N_("Generator"), form="text", optional=True), _AGENT,
        Spot("dilution", N_("Parts of water to one of concentrate"), optional=True),
        Spot("water_temperature_c", N_("Temperature of the solution"), "temperature", optional=True),
    ), _look_foam, _stands_foam, _aim_foam, _known_foam),
    Tool("batch", N_("Check a batch"), "drum", N_("Fill a bucket with fresh foamed concrete, strike it off level, weigh it."), BatchMade, (
        Spot("gross_g", N_("Full bucket"), "mass", 1000, optional=True), Spot("empty_g", N_("Empty bucket"), "mass", 1000, optional=True),
        Spot("volume_l", N_("Volume of the bucket"), "liquid_bucket", optional=True),
        Spot("minutes", N_("Since the foam went in"), "duration", optional=True),
        Spot("falling", N_("Does it sink in the drum?"), form="choice", choices=YES_NO),
        Spot("in_drum_l", N_("How much is in the drum"), "liquid", optional=True),
        Spot("outcome", N_("What became of it"), form="choice", choices=_OUTCOMES),
        Spot("bags", N_("Bags of cement"), optional=True), Spot("foam_l", N_("Foam that went in"), "liquid", optional=True),
        Spot("mix_temperature_c", N_("Temperature of the mix"), "temperature", optional=True),
    ), _look_batch, _sees, _aim_batch, _known_batch),
    Tool("blocks", N_("Count blocks"), "block", N_("What came out of the moulds today."), BlocksMade, (
        Spot("made", N_("Taken out of the moulds, broken ones too")), Spot("broken", N_("Broken, of any day's")),
    ), _look_blocks, known=lambda _: {"broken": 0}),
    Tool("bucket", N_("Measure the bucket"), "bucket", N_("Weigh it empty, and brimful of water. Then any bucket will do."), BucketWeighed, (
        Spot("gross_g", N_("Bucket with water"), "mass_small"), _EMPTY,
        Spot("water_temperature_c", N_("Temperature of the water"), "temperature"), _SCALE,
    ), _look_bucket, known=_known_bucket),
    Tool("output", N_("Time the generator"), "clock", N_("Fill a drum of known volume with foam, and take the time."), OutputTimed, (
        Spot("drum_l", N_("Volume of the drum"), "liquid"), Spot("seconds", N_("Seconds to fill it")),
    ), _look_output, _stands_output),
    Tool("drain", N_("Let foam stand"), "drops", N_("Weigh a litre of foam, let it stand, and pour off what drains. Weight alone misses a bad agent or hard water."), Drained, (
        Spot("net_g", N_("Foam at the start, without the vessel"), "mass_small"),
        Spot("quarter_minutes", N_("Minutes until a quarter had drained"), "duration", optional=True),
        Spot("half_minutes", N_("Minutes until half had drained"), "duration", optional=True),
        Spot("watched_minutes", N_("How long it was watched"), "duration", optional=True), _AGENT,
    ), _look_drain, known=_known_agent),
    Tool("height", N_("Height after an hour"), "ruler", N_("Measure the height when filled, and an hour later."), HeightLost, (
        Spot("filled_m", N_("Height when filled"), "length_small"), Spot("after_m", N_("Height an hour later"), "length_small"),
    ), _look_height),
    Tool("water", N_("Test the water"), "glass", N_("Minerals in the water are a usual reason why foam fails."), WaterTested, (
        Spot("hardness_mg_l", N_("Hardness in mg/L, as calcium carbonate"), optional=True), Spot("ph", N_("pH"), optional=True),
        Spot("temperature_c", N_("Temperature of the water"), "temperature", optional=True), _LABEL,
    ), _look_water),
    Tool("weather", N_("Weather"), "sun", N_("What the thermometer says in the shade."), Weather, (
        Spot("air_c", N_("Air"), "temperature", optional=True), Spot("night_low_c", N_("Coldest of the night"), "temperature", optional=True),
        Spot("humidity_fraction", N_("Relative humidity"), "fraction", optional=True), Spot("wind_m_s", N_("Wind"), "speed", optional=True),
        Spot("sky", N_("Sky"), form="choice", choices=_SKY),
    ), _look_weather, known=lambda _: {"sky": "unstated"}),
    Tool("crushed", N_("Crushed cubes"), "weight", N_("What a laboratory or a press said of a specimen."), Crushed, (
        Spot("load_kn", N_("Load that broke it"), "force"), Spot("form", N_("Form"), form="choice", choices=_FORMS),
        Spot("width_m", N_("Side, or diameter"), "length_small"), Spot("height_m", N_("Height"), "length_small"),
        Spot("mass_kg", N_("Mass"), "mass", optional=True), Spot("age_days", N_("Age in days"), "days"), _LABEL,
    ), _look_crushed, lambda g: _specimens(g, ())[0], known=lambda _: {"form": "cube", "width_m": 0.1, "height_m": 0.1, "age_days": 28.0}),
    Tool("delivery", N_("Delivery"), "lorry", N_("What came to the site."), Delivery, (
        Spot("quantity", N_("How much")), Spot("item", N_("What came"), form="choice", choices=CHOICES["market.prices[].item"]),
        Spot("unit", N_("Counted in"), form="choice", choices=CHOICES["market.prices[].unit"]), _LABEL,
    ), _look_plain(Delivery), known=lambda _: {"item": "cement", "unit": "bag"}),
    Tool("note", N_("Note"), "pencil", N_("Anything worth remembering."), Remark, (
        Spot("text", N_("Note"), form="lines", longest=2000),
    ), _look_plain(Remark)),
    Tool("cause", N_("Find the cause"), "lens", N_("Say what you see. What was measured stands in the diary already."), CauseSought, tuple(
        Spot(name, words, form="choice", choices=YES_NO) for name, words in SYMPTOMS.items()
    ), _look_cause, known=lambda _: dict.fromkeys(SYMPTOMS, "no")),
)  # fmt: skip
