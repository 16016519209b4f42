"""Weather and hardening: how warm the mix is, what cold, heat and wind ask for, when it may be touched, how it dries."""

from typing import Final

from foamwright.reader import NP_, Message, N_
from foamwright.sheets.desk import Block, Desk
from foamwright.sheets.expected import named, span
from foamwright.sheets.problems import note_text, notes_block
from foamwright.site.ahead import AGES, middle

ID: Final = "weather"
SECTION: Final = "site"
TITLE: Final = N_("Weather, hardening and drying")

_STAGES: Final[dict[str, Message]] = {
    "demould": NP_("stage of hardening", "Take it out of the mould"),
    "handle": NP_("stage of hardening", "Carry it"),
    "build_on": NP_("stage of hardening", "Build on it"),
    "load": NP_("stage of hardening", "Load it fully"),
}
_WEIGHTS: Final[dict[str, Message]] = {
    "cast": NP_("stage of drying", "Fresh"),
    "lay": NP_("stage of drying", "To be laid"),
    "skin": NP_("stage of drying", "To be skinned"),
    "seal": NP_("stage of drying", "To be sealed or painted"),
    "in_use": NP_("stage of drying", "In use"),
    "oven_dry": NP_("stage of drying", "Oven-dry"),
}
HARD: Final[dict[str, Message]] = {
    "soft": NP_("water", "soft"),
    "moderate": NP_("water", "moderately hard"),
    "hard": NP_("water", "hard"),
    "very_hard": NP_("water", "very hard"),
}
TRY: Final[dict[str, Message]] = {
    "stand_and_drain": N_("Let a litre of foam stand, and see how soon it drains."),
    "rain_water_for_foam": N_("Make the foam with rain water; the slurry may keep the hard water."),
    "bottled_water_test": N_("Make one bucket of foam with bottled soft water, to see whether the water is at fault."),
    "more_concentrate": N_("Try a little more concentrate."),
    "other_agent": N_("Ask the maker for an agent that bears hard water."),
}


def _cells(*texts: str) -> list[Block]:
    return [{"text": text, "head": True} if i == 0 else {"text": text} for i, text in enumerate(texts)]


def _head(*texts: str) -> list[Block]:
    return [{"text": text, "number": False} for text in texts]


def _temperature(desk: Desk) -> list[Block]:
    s, sky, ahead = desk.s, desk.project.weather, desk.e.ahead
    out: list[Block] = [{"kind": "heading", "text": s._("Temperature of the mix")}]
    if ahead.mix_c is None:
        path, text = ("weather.water_c", s._("Type how warm the water is.")) if sky.air_c is not None else ("weather.air_c", s._("Type how warm air and water are."))
        out.append({"kind": "missing", "path": path, "text": text})
    out += [
        desk.figures("weather.mix_c", "weather.water_for_c"),
        notes_block(desk, desk.notes("mix_hot", "mix_cold", "ice_needed", "water_too_hot", "air_cold", "night_freezes")),
    ]
    return out


def _evaporation(desk: Desk) -> list[Block]:
    s = desk.s
    out: list[Block] = [{"kind": "heading", "text": s._("Wind and sun on the fresh surface")}]
    if not desk.e.ahead.evaporation:
        return [*out, {"kind": "missing", "path": "weather.humidity_fraction", "text": s._("Type air, humidity and wind, and it stands here how fast a wet surface dries.")}]
    return [
        *out,
        desk.figures("weather.evaporation", "weather.evaporation_menzel"),
        notes_block(desk, desk.notes("evaporation_high")),
        {"kind": "text", "tone": "small", "text": s._("Both formulas were made for dense concrete that bleeds. Where it was not measured, the surface is taken as warm as the air.")},
    ]  # fmt: skip


def _water(desk: Desk) -> list[Block]:
    s, found = desk.s, desk.e.ahead.hardness
    out: list[Block] = [{"kind": "heading", "text": s._("Hardness of the water")}]
    if not found:
        return [*out, {"kind": "missing", "path": "weather.hardness", "text": s._("Type what a test strip or the waterworks say of the water.")}]
    out.append({"kind": "table", "caption": s._("How hard it is called"), "head": _head(s._("Class"), s._("Who says so")),
                "rows": [_cells(desk.say(HARD[each.word]), named(desk, each.source)) for each in found]})  # fmt: skip
    out.append(notes_block(desk, desk.notes("hardness_classes_differ")))
    attempts = max((each.attempts for each in found), key=len)
    if attempts:
        out.append({"kind": "points", "items": [desk.say(TRY[each]) for each in attempts]})
    out.append({"kind": "text", "tone": "small", "text": s._(
        "No published figure says which hardness foam bears; what to try is common practice, no source. Minerals in the water are a usual reason why foam fails.")})  # fmt: skip
    return out


def _hardens(desk: Desk) -> list[Block]:
    s, ahead = desk.s, desk.e.ahead
    out: list[Block] = [{"kind": "heading", "text": s._("When it may be touched")}]
    at = s.quantity(ahead.concrete_c, "temperature")
    if not ahead.stages:
        out.append({"kind": "text", "tone": "plain", "text": s._("At %(temperature)s it hardly hardens at all. Keep it warm, or wait for warmer days.", temperature=at)})
    else:
        rows = [_cells(desk.say(_STAGES[each.stage]), _days(desk, each.low_days, each.high_days)) for each in ahead.stages]
        out.append({"kind": "table", "caption": s._("Age at a steady %(temperature)s", temperature=at), "head": _head(s._("To"), s._("Wait")), "rows": rows})
    known = desk.project.weather.air_c is not None or desk.project.weather.night_c is not None
    if not known:
        out.append({"kind": "missing", "path": "weather.air_c", "text": s._("Nobody typed how warm the air is: ages are told for %(temperature)s.", temperature=at)})
    rows = [_cells(s.quantity(float(days), "days"), span(desk, "fraction", row.low, row.high)) for days, row in zip(AGES, ahead.shares, strict=True)]
    out += [
        {"kind": "table", "caption": s._("Share of the strength at 28 days and 20 °C (68 °F), by curves for dense concrete"), "head": _head(s._("Age"), s._("Share")), "rows": rows},
        {"kind": "points", "items": [
            s.p_("weight", "The curves were made for dense concrete. Nobody measured light foamed concrete: crush specimens of the job before anything hangs on it."),
            *(note_text(desk, note) for note in ahead.seven_notes),
            s._("The waiting times are common practice, no source, brought to the temperature by EN 1992-1-1 and ASTM C1074. They are no leave to load: specimens or a licensed engineer say so."),
        ]},
        *_middle(desk),
    ]  # fmt: skip
    return out


def _days(desk: Desk, low: float, high: float) -> str:
    """A time in hours up to two days, else in days."""
    if high < 2:
        ends = [desk.s.quantity(value * 24, "hours", decimals=0) for value in (low, high)]
    else:
        ends = [desk.s.quantity(value, "days", decimals=0 if high >= 10 else 1) for value in (low, high)]
    return ends[0] if ends[0] == ends[1] else desk.s._("%(low)s to %(high)s", low=ends[0], high=ends[1])


def _middle(desk: Desk) -> list[Block]:
    """How hot the middle of the block, and of the thickest pour, may get."""
    s, e = desk.s, desk.e
    block = desk.project.block
    cases: list[tuple[str, float]] = []
    sides = [part.thickness_m for _, part in desk.parts if part.shape != "fill"]
    if sides and e.blocks.to_cast:
        cases.append((s._("A block"), min(block.length_m, block.height_m, max(sides))))
    depths = [pour.depth_m for pour in e.structure.pours if pour.depth_m]
    if depths:
        cases.append((s.p_("concrete", "The deepest pour, poured at once"), min(max(depths), 5.0)))
    rows, notes = [], []
    for name, least in cases:
        found, told = middle(desk.project, e.blend, e.ahead, least)
        if found is not None:
            rows.append(_cells(name, s.quantity(least, "length_small"), span(desk, "temperature", found.peak_low_c, found.peak_high_c), span(desk, "hours", found.hours_low, found.hours_high)))
            notes += [note for note in told if note.code == "core_hot"]
    if not rows:
        return []
    return [
        {"kind": "table", "caption": s._("How hot the middle may get"),
         "head": _head(s._("What"), s._("Least measure"), s._("Hottest"), s._("After")), "rows": rows},
        notes_block(desk, tuple(notes[:1])),
        {"kind": "text", "tone": "small", "text": s._(
            "The cement's heat is a range from memory, and conductivity when wet a guess between wide ends. A hot middle makes the air in it swell: it is one cause of sinking and cracks.")},
    ]  # fmt: skip


def _dries(desk: Desk) -> list[Block]:
    s, ahead = desk.s, desk.e.ahead
    out: list[Block] = [{"kind": "heading", "text": s._("Drying")}, desk.figures("drying.cast_kg", "drying.lose_kg")]
    if ahead.drying is not None and ahead.thickness_m is not None:
        out.append({"kind": "text", "tone": "plain", "text": s._(
            "%(thickness)s thick and open to both sides it takes %(range)s in fair weather until it is as dry as in use. That is rough, from memory, and not measured on foamed concrete. "
            "Open to one side it takes four times as long.",
            thickness=s.quantity(ahead.thickness_m, "length_small"), range=_days(desk, ahead.drying.days_low, ahead.drying.days_high))})  # fmt: skip
    if ahead.weights:
        rows = [_cells(desk.say(_WEIGHTS[each.stage]), span(desk, "mass", each.low_kg, each.high_kg), named(desk, each.source)) for each in ahead.weights]
        out += [
            {"kind": "table", "caption": s._("What the largest block weighs as it dries"), "head": _head(s.p_("stage of drying", "Stage"), s._("Weight"), s._("Who says so")), "rows": rows},
            {"kind": "text", "tone": "small", "text": s._(
                "Mark some blocks, weigh them every few days, and go on when they weigh as little as the table says. Skins and paint over wet foamed concrete come off.")},
        ]  # fmt: skip
    return out


def blocks(desk: Desk) -> list[Block]:
    """Return the blocks of the sheet."""
    return [
        {"kind": "text", "tone": "lead", "text": desk.s._("Nearly every collapse is foam off its weight, minerals in the water, or cold.")},
        *_temperature(desk),
        *_evaporation(desk),
        *_water(desk),
        *_hardens(desk),
        *_dries(desk),
    ]
