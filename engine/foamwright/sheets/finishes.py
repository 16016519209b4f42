"""Base and skins: what they take, how the coats are made, how the mesh is cut."""

from typing import Any, Final

from foamwright.finishes import OTHERS, PUBLISHED, FrameSteel, Steel, has_mesh
from foamwright.finishes.mesh import spreads
from foamwright.reader import NP_, Message, N_
from foamwright.sheets.cautions import cautions
from foamwright.sheets.desk import Block, Desk
from foamwright.sheets.fields import CHOICES, WITHIN
from foamwright.sheets.problems import notes_block
from foamwright.sheets.sources import BASES, SOURCES
from foamwright.sheets.unrolled import Labels, unrolled

ID: Final = "finishes"
SECTION: Final = "base"
TITLE: Final = N_("Base and skins")

SIDES: Final[dict[str, Message]] = {
    "outside": N_("Outside"),
    "inside": N_("Inside"),
    "reveals": N_("Reveals"),
}
COATS: Final[dict[str, Message]] = {
    "scratch": NP_("plaster", "Scratch coat"),
    "brown": NP_("plaster", "Brown coat"),
    "finish": NP_("plaster", "Finish coat"),
}
_STRIPS: Final[dict[str, Message]] = {
    "gore": N_("Upwards"),
    "band": N_("Level"),
    "cap": N_("Square over the crown"),
    "reveal": N_("Round the openings"),
    "hood": N_("Round the hoods"),
}
_BASES: Final[dict[str, Message]] = {
    **{code: CHOICES["skins.outside.kind"][code] for code in PUBLISHED},
    "lath_handbook": NP_("plaster", "Three coats on lath, older handbook"),
    "cast_concrete": NP_("plaster", "Two coats on cast concrete"),
}


def _cell(desk: Desk, name: str) -> dict[str, Any]:
    """A cell that answers why, or an empty one where there is nothing to tell."""
    return {"text": ""} if desk.value(name) is None else desk.cell(name)


def _head(*words: tuple[str, bool]) -> list[dict[str, Any]]:
    return [{"text": text, "number": number} for text, number in words]


def _base(desk: Desk) -> list[Block]:
    s, finishes = desk.s, desk.e.finishes
    out: list[Block] = [{"kind": "heading", "text": s._("Base")}]
    if finishes is None or finishes.base is None:
        text = s._("The base is not stated yet: choose what the shell stands on.")
        return [*out, {"kind": "missing", "path": "base.kind", "text": text}]
    if finishes.base.kind == "none":
        return [*out, {"kind": "text", "tone": "plain", "text": s._("The base is there already: nothing is counted for it.")}]
    base = desk.project.base
    remarks = {
        "excavation_m3": s._("As it lies in the ground; loose it fills %(loose)s", loose=desk.text("finishes.base.loose_m3")),
        "concrete_m3": s._("Ready-mixed, to order") if base.concrete == "ready" else s._(
            "One part of cement to %(sand)s of sand and %(gravel)s of gravel, by volume",
            sand=s.number(base.sand_parts, significant=4, trim=True), gravel=s.number(base.gravel_parts, significant=4, trim=True)),
        "floor_finish_m3": s._("One part of cement to %(sand)s of sand, by volume",
                               sand=s.number(base.floor_finish_sand_parts, significant=4, trim=True)),
        "damp_course_m": s._("As wide as the wall"),
    }  # fmt: skip
    rows = []
    for name in (
        "length_m", "excavation_m3", "gravel_fill_m3", "beam_m3", "slab_m3", "concrete_m3", "insulation_m3",
        "floor_finish_m3", "damp_course_m",
    ):  # fmt: skip
        figure = f"finishes.base.{name}"
        if desk.value(figure) is not None:
            label = desk.say(desk.figure(figure)[0].label)
            rows.append([{"text": label, "head": True}, desk.cell(figure), {"text": remarks.get(name, "")}])
    out += [
        notes_block(desk, desk.notes(
            "footing_not_designed", "frost_depth_unasked", "trench_above_frost", "beam_narrow", "trench_narrow")),
        {"kind": "table", "caption": s._("What the base takes"), "rows": rows,
         "head": _head((s._("What"), False), (s._("How much"), True), (s._("Remark"), False))},
        notes_block(desk, desk.notes(
            "steel_unsized", "steel_incomplete", "steel_placeholder", "steel_sized_by_missing", "steel_typed")),
    ]  # fmt: skip
    if finishes.base.steel is not None:
        out.append({"kind": "text", "tone": "plain", "text": _bars(desk)})
        out.append(desk.figures(
            "finishes.base.steel.lap_m", "finishes.base.steel.length_m", "finishes.base.steel.mass_kg",
            "finishes.base.steel.to_buy"))  # fmt: skip
    return out


def _bars(desk: Desk) -> str:
    """Bars and laps in a sentence."""
    s = desk.s
    assert desk.e.finishes is not None and desk.e.finishes.base is not None and desk.e.finishes.base.steel is not None
    steel = desk.e.finishes.base.steel
    return s.n_(
        "%(number)s bar of %(diameter)s along the middle of the wall.",
        "%(number)s bars of %(diameter)s along the middle of the wall.",
        steel.bars, number=s.whole(steel.bars), diameter=s.quantity(steel.diameter_m, "length_fine", trim=True),
    ) + " " + s.np_(
        "joining bars",
        "%(number)s lap in all.",
        "%(number)s laps in all.",
        steel.laps, number=s.whole(steel.laps),
    )  # fmt: skip


def _skins(desk: Desk) -> list[Block]:
    s, finishes = desk.s, desk.e.finishes
    out: list[Block] = [{"kind": "heading", "text": s._("Skins")}]
    for side in ("outside", "inside"):
        if getattr(desk.project.skins, side).kind == "unstated":
            words = {
                "outside": N_("The outside skin is not stated yet: choose its kind."),
                "inside": N_("The inside skin is not stated yet: choose its kind."),
            }[side]
            out.append({"kind": "missing", "path": f"skins.{side}.kind", "text": desk.say(words)})
    if finishes is None or not finishes.skins:
        return [*out, _published(desk)]
    rows: list[list[dict[str, Any]]] = [
        [
            {"text": desk.say(SIDES[skin.side]), "head": True},
            {"text": desk.say(CHOICES["skins.outside.kind"][skin.kind])},
            *(_cell(desk, f"skin.{name}#{i}") for name in ("area", "thickness", "mass")),
        ]
        for i, skin in enumerate(finishes.skins)
    ]
    out += [
        notes_block(desk, desk.notes("skin_thin", "skins_add_load")),
        {"kind": "table", "caption": s._("What covers each face"), "rows": rows,
         "head": _head((s._("Side"), False), (s._("Kind"), False), (s._("Area"), True),
                       (s.p_("plaster", "All coats together"), True), (s._("Mass"), True))},
        desk.figures("finishes.skins_mass_kg", "finishes.shell_mass_kg", "finishes.reveals_m2"),
    ]  # fmt: skip
    if finishes.coats:
        out += [_coats(desk), _mixes(desk)]
    out.append(_published(desk))
    if finishes.paints:
        out += _paints(desk)
    if finishes.mesh_rolls:
        out += _mesh(desk)
    return out


def _coats(desk: Desk) -> Block:
    s, finishes = desk.s, desk.e.finishes
    assert finishes is not None
    names = ("thickness", "volume", "cement", "sand", "lime", "water")
    rows = []
    for i, coat in enumerate(finishes.coats):
        first = s._("%(side)s: %(what)s", side=desk.say(SIDES[coat.side]), what=desk.say(COATS[coat.coat]))
        rows.append([{"text": first, "head": True}, *(_cell(desk, f"coat.{name}#{i}") for name in names)])
    words = [(s.p_("plaster", "Coat"), False)]
    words += [(desk.say(desk.figure(f"coat.{name}")[0].label), True) for name in names]
    return {"kind": "table", "caption": s.p_("plaster", "Coats, waste counted"), "head": _head(*words), "rows": rows}


def _mixes(desk: Desk) -> Block:
    """How each coat is mixed, in parts."""
    s, finishes, skins = desk.s, desk.e.finishes, desk.project.skins
    assert finishes is not None
    words = {
        "volume": NP_("plaster", "%(coat)s: one part of cement to %(sand)s of sand and %(lime)s of lime, by loose volume."),
        "mass": NP_("plaster", "%(coat)s: one part of cement to %(sand)s of sand and %(lime)s of lime, by mass."),
    }[skins.mix_by]
    items = []
    for coat in finishes.coats:
        name = s._("%(side)s: %(what)s", side=desk.say(SIDES[coat.side]), what=desk.say(COATS[coat.coat]))
        sand, lime = (
            s.number(getattr(getattr(skins, coat.side), f"{coat.coat}_{what}_parts"), significant=4, trim=True) for what in ("sand", "lime")
        )
        items.append(desk.say(words, coat=name, sand=sand, lime=lime))
    return {"kind": "points", "items": items}


def _published(desk: Desk) -> Block:
    """The published thicknesses, which disagree."""
    s = desk.s
    rows = []
    for basis in (*PUBLISHED.values(), *OTHERS):
        parts = [m for m in (basis.scratch_m, basis.brown_m, basis.finish_m) if m > 0]
        source = SOURCES[basis.source]
        rows.append([
            {"text": desk.say(_BASES[basis.code]), "head": True},
            {"text": " + ".join(s.quantity(part, "length_coat") for part in parts)},
            {"text": s.quantity(basis.total_m, "length_coat")},
            {"text": s._("%(document)s. %(basis)s.", document=source.document, basis=desk.say(BASES[source.kind]))},
        ])  # fmt: skip
    return {
        "kind": "table",
        "caption": s._("Published thicknesses; they disagree"),
        "rows": rows,
        "head": _head((s._("Kind"), False), (s.p_("plaster", "Coats"), False), (s._("Together"), False), (s._("Source"), False)),
    }


def _paints(desk: Desk) -> list[Block]:
    s, finishes = desk.s, desk.e.finishes
    assert finishes is not None
    rows = []
    for i, paint in enumerate(finishes.paints):
        what = desk.say(CHOICES["market.prices[].item"][paint.what])
        litres = desk.cell(f"paint.litres#{i}") if paint.litres else {"text": s._("coverage not typed"), "number": True}
        rows.append([
            {"text": s._("%(side)s: %(what)s", side=desk.say(SIDES[paint.side]), what=what), "head": True},
            {"text": s.np_("plaster", "%(number)s coat", "%(number)s coats", paint.coats, number=s.whole(paint.coats))},
            litres,
        ])  # fmt: skip
    head = _head((s._("What"), False), (s.p_("plaster", "Coats"), False), (s._("How much"), True))
    return [
        {"kind": "table", "caption": s._("Waterproofing and paint"), "head": head, "rows": rows},
        notes_block(desk, desk.notes("coverage_unasked")),
    ]


def _mesh(desk: Desk) -> list[Block]:
    s, finishes, skins = desk.s, desk.e.finishes, desk.project.skins
    assert finishes is not None
    several = len(desk.project.parts) > 1
    rows = []
    for i, cut in enumerate(finishes.mesh_cuts):
        side = desk.say(SIDES[cut.side])
        where = s._("%(part)s: %(what)s", part=cut.part, what=side) if several else side
        rows.append([
            {"text": where, "head": True},
            {"text": desk.say(_STRIPS[cut.kind])},
            desk.cell(f"mesh.count#{i}"),
            desk.cell(f"mesh.length#{i}"),
        ])  # fmt: skip
    q = s.quantity
    out: list[Block] = [
        {"kind": "heading", "text": s.p_("reinforcement", "Mesh")},
        notes_block(desk, desk.notes("mesh_alkali_unasked", "mesh_alkali_weak")),
        desk.figures("finishes.mesh_m2", "finishes.mesh_rolls", "finishes.mesh_rolls_other"),
        {"kind": "points", "items": [
            s._("Neighbouring strips overlap by %(lap)s. Nothing is taken off for openings: cut them out after the strips are laid.",
                lap=q(skins.lap_m, "length_small")),
            s._("At the foot each strip goes on over the base by %(turn)s.", turn=q(skins.foot_return_m, "length_small")),
            s._("Round each opening a strip of its own lines the reveal and laps onto the face."),
            s._("Where the face narrows, strips are lapped further or trimmed; where its girth has halved, every other one ends."),
        ]},
        {"kind": "table", "caption": s._("What is cut from the rolls, waste counted"), "rows": rows,
         "head": _head((s._("Where"), False), (s._("Which way"), False), (s._("Strips"), True), (s._("Cut each"), True))},
    ]  # fmt: skip
    return [*out, *_drawings(desk)]


def _drawings(desk: Desk) -> list[Block]:
    """Each face with its strips, spread out flat; parts alike are drawn once."""
    s, skins = desk.s, desk.project.skins
    made: list[Block] = []
    seen: set[str] = set()
    for n, part in desk.parts:
        for side in ("outside", "inside"):
            if not has_mesh(getattr(skins, side)):
                continue
            for k, spread in enumerate(spreads(part, side == "outside")):
                girth, length = (s.quantity(m, "length") for m in (spread.girth(0.0), spread.length_m))
                words = s._(
                    "%(side)s, spread out flat: %(girth)s round the foot, %(length)s from the foot along the curve.",
                    side=desk.say(WITHIN[f"skins.{side}."]), girth=girth, length=length,
                )  # fmt: skip
                svg = unrolled(spread, skins, Labels(words, girth, length))
                if svg in seen:
                    continue
                seen.add(svg)
                made.append({
                    "kind": "drawing", "id": f"unrolled-{n}-{side}-{k}", "title": words, "words": words, "svg": svg,
                    "touch": False,
                })  # fmt: skip
    return made


def _bought(desk: Desk) -> list[Block]:
    """What base and skins take in all."""
    if desk.e.finishes is None:
        return []
    return [{"kind": "heading", "text": desk.s._("All together")}, to_buy(desk)]


def _bar_remarks(desk: Desk) -> dict[str, str]:
    """What each kind of bar to buy is, and who sized it."""
    s, finishes = desk.s, desk.e.finishes
    assert finishes is not None
    frame = finishes.frame.parts if finishes.frame is not None else ()
    steel: dict[str, list[Steel | FrameSteel | None]] = {
        "finishes.base.steel.to_buy": [finishes.base.steel if finishes.base is not None else None],
        "finishes.frame.steel_to_buy": [part.steel for part in frame],
    }
    out = {}
    for figure, bars in steel.items():
        told = []
        for bar in bars:
            if bar is None:
                continue
            params = {
                "length": s.quantity(desk.project.base.bar_length_m, "length"),
                "diameter": s.quantity(bar.diameter_m, "length_fine", trim=True),
            }
            if bar.sized == "placeholder":
                told.append(s._("Bars of %(length)s, %(diameter)s thick; placeholder, not sized", **params))
            elif bar.sized_by:
                told.append(s._("Bars of %(length)s, %(diameter)s thick; typed, sized by %(by)s", by=bar.sized_by, **params))
            else:
                told.append(s._("Bars of %(length)s, %(diameter)s thick; typed, nobody is named who sized them", **params))
        out[figure] = s.list_join(list(dict.fromkeys(told)))
    return out


def to_buy(desk: Desk) -> Block:
    """Return what to buy for base and skins as a table."""
    s = desk.s
    rows = []
    bag = s.quantity(desk.project.market.cement_bag_kg, "mass")
    remarks = {
        "finishes.cement_bags": s._("Bags of %(mass)s", mass=bag),
        "finishes.mesh_rolls": s._(
            "Rolls of %(width)s by %(length)s",
            width=s.quantity(desk.project.skins.roll_width_m, "length"),
            length=s.quantity(desk.project.skins.roll_length_m, "length"),
        ),
        "finishes.base.concrete_m3": s._("Ready-mixed, to order"),
        "finishes.frame.concrete_m3": s._("Ready-mixed, to order"),
    } | _bar_remarks(desk)
    for figure in (
        "finishes.cement_bags", "finishes.sand_m3", "finishes.gravel_m3", "finishes.lime_kg", "finishes.water_l",
        "finishes.base.concrete_m3", "finishes.frame.concrete_m3", "finishes.base.steel.to_buy", "finishes.frame.steel_to_buy",
        "finishes.base.damp_course_m", "finishes.base.insulation_m3", "finishes.mesh_rolls",
    ):  # fmt: skip
        if figure.endswith("concrete_m3") and desk.project.base.concrete != "ready":
            continue
        if desk.value(figure) is not None:
            label = desk.say(desk.figure(figure)[0].label)
            rows.append([{"text": label, "head": True}, desk.cell(figure), {"text": remarks.get(figure, "")}])
    head = _head((s._("What"), False), (s._("How much"), True), (s._("Remark"), False))
    return {"kind": "table", "caption": s._("For base and skins, waste counted"), "head": head, "rows": rows}


def blocks(desk: Desk) -> list[Block]:
    """Return the blocks of the sheet."""
    out = [
        notes_block(desk, desk.notes("foamed_concrete_only", "base_unstated", "skins_unstated")),
        *_bought(desk),
        *_base(desk),
        *_skins(desk),
    ]
    if desk.e.finishes is not None:
        out.append(cautions(desk, ("digging", "coating")))
    return out
