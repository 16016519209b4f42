"""What may be expected at this mix's density, and which density to choose for what is wanted."""

from typing import Final

from foamwright.material.expect import resistance_per_inch
from foamwright.material.row import Row
from foamwright.material.wish import Wish
from foamwright.reader import NP_, Message, N_
from foamwright.sheets.desk import Block, Desk
from foamwright.sheets.fields import CHOICES, FIELDS
from foamwright.sheets.problems import note_text, notes_block
from foamwright.sheets.sources import BASES, SOURCES

ID: Final = "expect"
SECTION: Final = "mix"
TITLE: Final = N_("What to expect of it")

#: What is told of the mix: its table, and the kind of its figures.
_PROPERTIES: Final[tuple[tuple[str, Message, str], ...]] = (
    ("strength_mpa", N_("Strength in compression at 28 days"), "stress"),
    ("conductivity_w_mk", N_("Conductivity"), "conductivity"),
    ("shrinkage_percent", N_("Drying shrinkage"), "shrinkage"),
    ("weight_kg_m3", N_("Weight of a cubic metre"), "density"),
)
#: What a density or a state refers to.
BASIS: Final[dict[str, Message]] = {
    "fresh": NP_("state of foamed concrete", "As cast"),
    "oven_dry": NP_("state of foamed concrete", "Oven-dry"),
    "in_use": NP_("state of foamed concrete", "In use, with some moisture"),
    "-": NP_("state of foamed concrete", "Nobody says"),
}
_REMARKS: Final[dict[str, Message]] = {
    "least_of_class": N_("the least of its class"),
    "least_of_test_batch": N_("the least of a test batch"),
    "whole_range": NP_("weight", "over all densities"),
    "average_of_blocks": N_("the mean of blocks"),
    "moist_design": N_("to design with, moist"),
    "aerated_not_foamed": N_("aerated, not foamed"),
    "autoclaved_not_foamed": N_("autoclaved, not foamed"),
    "expect_outside_published": NP_("weight", "nearest row: no row reaches this density"),
    "trade_r_value": N_("trade talk"),
}


def span(desk: Desk, kind: str, low: float, high: float) -> str:
    """Return a range in words, or the one figure where both ends are shown alike."""
    if kind == "shrinkage":
        ends = [desk.s.quantity(value / 100, "fraction", decimals=2) for value in (low, high)]
    else:
        ends = [desk.show(kind, value) for value in (low, high)]
    return ends[0] if ends[0] == ends[1] else desk.s._("%(low)s to %(high)s", low=ends[0], high=ends[1])


def named(desk: Desk, source: str) -> str:
    """Return a source as a table names it: its document and how it is known, or that there is none."""
    found = SOURCES[source]
    if not found.document:
        return desk.say(BASES[found.kind])
    return found.document if found.kind == "published" else desk.s._("%(document)s (from memory)", document=found.document)


def _table(desk: Desk, name: str, title: Message, kind: str) -> Block:
    s = desk.s
    heat = name == "conductivity_w_mk"
    head = [{"text": desk.say(title)}, {"text": s._("R per inch")}, {"text": s.p_("density of foamed concrete", "Stated for")}, {"text": s._("Who says so")}]
    rows = []
    for row in desk.e.ahead.expected:
        if row.quantity != name:
            continue
        rows.append([
            {"text": span(desk, kind, row.low, row.high), "head": True},
            {"text": _r(desk, row)},
            {"text": desk.say(BASIS[row.basis])},
            {"text": _who(desk, row)},
        ])  # fmt: skip
    if not heat:
        head, rows = [cell for i, cell in enumerate(head) if i != 1], [[cell for i, cell in enumerate(row) if i != 1] for row in rows]
    return {"kind": "table", "caption": desk.say(title), "head": [cell | {"number": False} for cell in head], "rows": rows}


def _r(desk: Desk, row: Row) -> str:
    if row.quantity != "conductivity_w_mk":
        return ""
    return span(desk, "decimal2", resistance_per_inch(row.high), resistance_per_inch(row.low))


def _who(desk: Desk, row: Row) -> str:
    who = named(desk, row.source)
    remark = _REMARKS.get(row.note)
    return who if remark is None else desk.s._("%(source)s: %(remark)s", source=who, remark=desk.say(remark))


def _wished(desk: Desk, wish: Wish, title: str, lightest: bool) -> list[Block]:
    """Which densities are published to meet a wish, and what to type where."""
    s = desk.s
    rows = [
        [
            {"text": "" if reach.sure_kg_m3 is None else s.quantity(reach.sure_kg_m3, "density"), "head": True},
            {"text": "" if reach.may_kg_m3 is None else s.quantity(reach.may_kg_m3, "density")},
            {"text": desk.say(BASIS[reach.density])},
            {"text": named(desk, reach.source)},
        ]
        for reach in wish.reaches
        if reach.reaches
    ]
    out: list[Block] = []
    if rows:
        texts = (s._("Surely from"), s._("Perhaps from")) if lightest else (s._("Surely up to"), s._("Perhaps up to"))
        head = [*({"text": text, "number": False} for text in texts), {"text": s._("Which density"), "number": False}, {"text": s._("Who says so"), "number": False}]
        out.append({"kind": "table", "caption": title, "head": head, "rows": rows})
    if wish.low_kg_m3 is not None and wish.high_kg_m3 is not None:
        out.append({"kind": "text", "tone": "plain", "text": s._(
            "Under “%(question)s” choose “%(choice)s” and type %(range)s under “%(field)s”. The tables disagree: make trial specimens and have them crushed.",
            question=desk.say(FIELDS["mix.given"].label),
            choice=desk.say(CHOICES["mix.given"]["cement_kg+water_cement_ratio+foam_density_kg_m3+oven_dry_density_kg_m3"]),
            range=span(desk, "density", wish.low_kg_m3, wish.high_kg_m3), field=desk.say(FIELDS["mix.oven_dry_density_kg_m3"].label))})  # fmt: skip
    return out


def blocks(desk: Desk) -> list[Block]:
    """Return the blocks of the sheet."""
    s, ahead = desk.s, desk.e.ahead
    out: list[Block] = [
        {"kind": "text", "tone": "lead", "text": s.p_(
            "weight", "What is published of foamed concrete as heavy as this mix. The sources disagree; each stands in a row of its own.")},
        desk.figures("mix.wet_density_kg_m3", "mix.oven_dry_density_kg_m3"),
        *(_table(desk, *each) for each in _PROPERTIES),
        {"kind": "points", "items": list(dict.fromkeys(note_text(desk, note) for note in ahead.expected_notes))},
        {"kind": "heading", "text": s._("Choose a density by what is wanted")},
    ]  # fmt: skip
    if ahead.strength is None and ahead.conductivity is None:
        out.append({"kind": "missing", "path": "wish.strength_mpa", "text": s._(
            "Type a strength or a conductivity that is wanted, and the densities that are published to reach it stand here.")})  # fmt: skip
    if ahead.strength is not None:
        out += _wished(desk, ahead.strength, s._("Lightest for a strength of %(wanted)s", wanted=desk.show("stress", ahead.strength.wanted)), True)
    if ahead.conductivity is not None:
        wanted = desk.show("conductivity", ahead.conductivity.wanted)
        out += _wished(desk, ahead.conductivity, s._("Heaviest, and so strongest, for a conductivity of %(wanted)s", wanted=wanted), False)
    out += [
        notes_block(desk, desk.notes("no_published_row_reaches", "additions_not_published")),
        {"kind": "text", "tone": "small", "text": s._("Nothing of this is a design. Strength that somebody's safety hangs on is shown by specimens of the job, and judged by a licensed engineer.")},
    ]  # fmt: skip
    return out
