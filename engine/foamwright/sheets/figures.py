"""Every figure that a sheet may show, with the answer to "why?".

A figure carries its rule in words, the project fields that it depends on, its source, what kind of
evidence stands behind it and what it leaves out. A test changes every field of a project in turn and
holds the listed inputs against what really moves.
"""

from collections.abc import Callable
from typing import TYPE_CHECKING, Any, Final

from attrs import frozen

from foamwright.project.model import MIX_QUANTITIES
from foamwright.reader import N_, NP_, Message
from foamwright.sheets.fields import NOTHING
from foamwright.structure.stability import thick_enough

if TYPE_CHECKING:
    from foamwright.shape import PartShape
    from foamwright.sheets.desk import Desk

Get = Callable[["Desk", int], float | None]


@frozen
class Figure:
    """One figure: its words, how it is read from the estimate, and why it is what it is."""

    id: str
    label: Message
    kind: str
    get: Get
    rule: Message
    inputs: tuple[str, ...]
    source: str
    leaves_out: Message = NOTHING
    span: Callable[["Desk", int], tuple[float, float] | None] | None = None


DIAMETER = "parts[].inside_diameter_m"
STEM = "parts[].stem_height_m"
THICKNESS = "parts[].thickness_m"
SHAPE = "parts[].shape"
PROFILE = (SHAPE, "parts[].profile", "parts[].rise_m")
SPAN = "parts[].inside_span_m"
PLAN = (SHAPE, DIAMETER, SPAN, "parts[].length_m", "parts[].plan_form", "parts[].plan")
TALL = "parts[].wall.height_m"
GABLES = ("parts[].wall.gable_rise_m", "parts[].wall.gable_sides")
#: Posts and beams of a wall: how many, how large.
FRAME = tuple(
    f"parts[].wall.{name}" for name in ("build", "post_width_m", "post_spacing_m", "ring_beams", "ring_beam_height_m")
)
DEPTH = tuple(f"parts[].fill.{name}" for name in ("kind", "depth_m", "slope_fraction", "fall_deg"))
FILL = (*DEPTH, "parts[].fill.volume_m3")
ORDERED = ("parts[].order.length_m", "parts[].order.height_m")
CROWN = "parts[].crown_opening_m"
#: What makes the line from the foot to the crown.
SECTION = (*PROFILE, DIAMETER, SPAN, CROWN)
ENDS = "parts[].ends"
END_THICKNESS = "parts[].end_thickness_m"
TAPER = "parts[].crown_thickness_m"
OPENINGS = tuple(
    f"parts[].openings[].{name}"
    for name in ("form", "width_m", "height_m", "diameter_m", "sill_m", "count", "azimuth_deg", "spacing_deg", "face")
)
ALONG = "parts[].openings[].along_m"
#: What joins parts to each other.
JOINED = ("parts[].at_m", "parts[].bearing_deg", "parts[].openings[].to")
#: What a joint follows from; its neck and its passage follow from less.
JOINTS = (
    SHAPE, DIAMETER, SPAN, "parts[].length_m", "parts[].plan_form", *PROFILE[1:], STEM, CROWN, ENDS,
    *(name for name in OPENINGS if not name.endswith(".face")), "parts[].openings[].along_m", THICKNESS, TAPER, END_THICKNESS,
    TALL, GABLES[0], *JOINED,
)  # fmt: skip
NECKS = tuple(name for name in JOINTS if name not in (CROWN, END_THICKNESS, "parts[].openings[].count"))
_LED = (
    SHAPE, DIAMETER, SPAN, "parts[].length_m", "parts[].plan_form", STEM, ENDS, "parts[].openings[].along_m",
    *(f"parts[].openings[].{name}" for name in ("azimuth_deg", "sill_m", "spacing_deg")), *JOINED,
)  # fmt: skip
#: What the plan of a neck follows from, besides.
NECK = tuple(f"parts[].openings[].{name}" for name in ("width_m", "diameter_m", "azimuth_deg", "spacing_deg"))
INSIDE = (*PROFILE, *PLAN[1:], STEM, CROWN, ENDS, *OPENINGS, ALONG, TALL, *GABLES, *JOINED)
#: A thicker end wall takes thicker blocks and no more of them.
COUNTED = (*INSIDE, THICKNESS, TAPER, *FRAME, "parts[].order.count")
HOODS = tuple(f"parts[].openings[].hood{name}" for name in ("", "_projection_m", "_thickness_m"))
#: What the faces follow from.
FACES = (*INSIDE, THICKNESS, TAPER, END_THICKNESS, *HOODS)
SHELL = (*COUNTED, END_THICKNESS, *FILL, *ORDERED, *HOODS)
#: What the beds of the courses follow from, what a block's form does, and what laying them out does.
LINES = (*SECTION, STEM, THICKNESS, TAPER, ENDS, "block.length_m", "block.height_m", "block.joint_m")
SAWN = (*LINES, END_THICKNESS)
BONDED = (*LINES, "parts[].length_m", *OPENINGS)
SIDE = "parts[].openings[].side"
#: What the beds of a wall's courses follow from, and what the length of its courses does.
LEVELS = ("parts[].plan_form", TALL, *GABLES, *(f"parts[].wall.{name}" for name in ("build", "ring_beams", "ring_beam_height_m")))
WALLED = ("parts[].plan_form", "parts[].plan", TALL, *GABLES, *FRAME)
#: Which courses there are and where, of shells and of walls; a wall that is built otherwise keeps its place on the plan.
BEDS = (*LINES, *LEVELS)
EDGES = tuple(name for name in BEDS if name != "parts[].wall.build")
#: What the widths of a block follow from: the height of a wall makes more of them and no others.
WIDTHS = (*(name for name in BEDS if name not in (TALL, "parts[].wall.ring_beams")), "parts[].length_m")
ORDERS = ("parts[].order.count",)
BLOCK = (SHAPE, THICKNESS, ENDS, END_THICKNESS, "block.length_m", "block.height_m", *ORDERED)
ADDITIONS = tuple(
    f"mix.additions[].{name}"
    for name in ("kind", "per", "kg_per_kg", "kg_per_m3", "moisture_fraction", "absorption_fraction", "grain_kg_m3")
)
MIX = ("mix.given", *(f"mix.{name}" for name in MIX_QUANTITIES), "mix.cement_density_kg_m3", *ADDITIONS)
#: What the temperature of the mix follows from.
_WARM = (*MIX, "weather.air_c", "weather.water_c", "weather.cement_c")
_WINDY = (*_WARM, "weather.humidity_fraction", "weather.wind_m_s")
BAG = "market.cement_bag_kg"
FIT = ("batch.bags_each", "batch.drum_l", "batch.freeboard_fraction")
BATCH = (*MIX, BAG, *FIT)
WASTE = (
    "waste.lost_batches_fraction",
    "waste.breakage_fraction",
    "waste.cutting_fraction",
    "waste.calibration_batches",
)
#: What the blocks that are laid follow from, one by one.
PLACED = tuple(dict.fromkeys((*BONDED, ALONG, SIDE, *WALLED, *JOINED)))
#: Joints take their volume from the foamed concrete, and what is sawn off adds to it.
JOB = tuple(dict.fromkeys((*SHELL, *PLACED, *BATCH, *WASTE)))
DRUM = (
    "batch.drum_form",
    "batch.drum_diameter_m",
    "batch.drum_bottom_diameter_m",
    "batch.drum_top_diameter_m",
    "batch.drum_depth_m",
    "batch.drum_marks[].volume_l",
    "batch.drum_marks[].height_m",
)
SOLD = ("market.prices[].item", "market.prices[].unit", "market.prices[].quantity")
PRICES = (*SOLD, "market.prices[].price")

def _all_of(*groups: tuple[str, ...]) -> tuple[str, ...]:
    """Join lists of fields, each field once."""
    return tuple(dict.fromkeys(field for fields in groups for field in fields))


#: What the middle of the wall at its foot follows from.
FOOT = (*PLAN, *PROFILE[1:], STEM, THICKNESS, ENDS, END_THICKNESS)
_TRENCH = ("base.kind", *FOOT, "base.trench_width_m")
_BEAM = ("base.kind", *FOOT, "base.beam_width_m", "base.beam_height_m")
_FLOOR = ("base.kind", "base.floor", *PLAN, *JOINED)
_SLAB = (*_FLOOR, "base.slab_thickness_m")
_GRAVEL = (
    *_TRENCH, *JOINED, "base.floor", "base.trench_gravel_m", "base.slab_gravel_m", "base.gravel_waste_fraction",
)  # fmt: skip
_CONCRETE = (*_BEAM, *JOINED, "base.floor", "base.slab_thickness_m", "base.concrete_waste_fraction")
_BARS = (
    "base.kind", *FOOT, "base.steel_sized", "base.bar_diameter_m", "base.bars", "base.bar_length_m", "base.lap_diameters",
)  # fmt: skip
_PARTS = (
    "base.concrete", "base.sand_parts", "base.gravel_parts", "base.water_cement_ratio", "base.floor_finish_m",
    "base.floor_finish_sand_parts", "mix.cement_density_kg_m3", "aggregate.sand_bulk_kg_m3",
    "aggregate.gravel_bulk_kg_m3",
)  # fmt: skip
_JOINT = {
    "taken_m3": JOINTS, "doubled_m3": tuple(name for name in JOINTS if name != "parts[].openings[].count"), "passage_m3": NECKS,
    "neck_m3": NECKS, "passage_length_m": _LED,
}  # fmt: skip
_SIDES = ("outside", "inside")
_SKIN_KINDS = tuple(f"skins.{side}.kind" for side in _SIDES)
_THICK = tuple(f"skins.{side}.{coat}_thickness_m" for side in _SIDES for coat in ("scratch", "brown", "finish"))
_SAND = tuple(f"skins.{side}.{coat}_sand_parts" for side in _SIDES for coat in ("scratch", "brown", "finish"))
_LIME = tuple(f"skins.{side}.{coat}_lime_parts" for side in _SIDES for coat in ("scratch", "brown", "finish"))
_COVERED = (*FACES, "skins.reveals", *_SKIN_KINDS)
_MORTAR = (
    *_COVERED, *_THICK, *_SAND, *_LIME, "skins.mix_by", "skins.water_cement_ratio", "mix.cement_density_kg_m3",
    "aggregate.sand_bulk_kg_m3", "aggregate.lime_bulk_kg_m3",
)  # fmt: skip
_WASTED = (*_MORTAR, "skins.coat_waste_fraction")
_MESHED = (*_COVERED, *(f"skins.{side}.mesh" for side in _SIDES))
_LAID = (*_MESHED, "skins.roll_width_m", "skins.lap_m", "skins.foot_return_m", "skins.mesh_waste_fraction", "skins.lay")
_PAINTED = (
    *_COVERED,
    *(f"skins.{side}.{what}_{name}" for side in _SIDES for what in ("waterproofing", "paint")
      for name in ("coats", "coverage_m2_l")),
    "skins.paint_waste_fraction",
)  # fmt: skip
_BASE_CEMENT = (*_CONCRETE, *_PARTS)
_FINISHES = _all_of(_BASE_CEMENT, _WASTED, FRAME)
#: What the concrete of posts and beams follows from, and their bars.
_POSTS = (*PLAN, THICKNESS, "parts[].wall.build", "parts[].wall.post_spacing_m")
_FRAMED = (*PLAN, THICKNESS, TALL, *FRAME)
_FRAME_BARS = (
    *_POSTS, TALL, "parts[].wall.ring_beams", "parts[].wall.steel_sized", "parts[].wall.bar_diameter_m",
    "parts[].wall.post_bars", "parts[].wall.beam_bars", "base.bar_length_m", "base.lap_diameters",
)  # fmt: skip
#: All that moves what is bought.
_BOUGHT = _all_of(
    _FINISHES, _GRAVEL, _BARS, _LAID, _PAINTED, _FRAME_BARS,
    ("skins.roll_length_m", "base.damp_course", "base.damp_waste_fraction", "base.slab_insulation_m"),
)  # fmt: skip

#: What the volume of hoods follows from.
HOODED = (*PROFILE, DIAMETER, SPAN, "parts[].length_m", "parts[].plan_form", STEM, THICKNESS, TAPER, *OPENINGS, *HOODS)
#: What warms a pour.
_RISE = (SHAPE, *MIX, "market.cement_type")
_KEPT = NP_(
    "concrete",
    "The cement of a cubic metre times the heat that it gives, over what a cubic metre takes up for each degree: its dry mass and its water. Both ends of every range are taken.",
)
_POUR_LEAVES = NP_("concrete", "Heat that is lost through its faces, which is more the thinner the lift; water that boils off.")
#: What topples a loose wall, besides the mix.
_LOOSE = (SHAPE, THICKNESS, TALL, *GABLES, "parts[].plan_form")

_LOOSE_LEAVES = N_(
    "Corners, cross walls, posts, bond, skins: they hold more. Gusts that rock it, a crushing foot, sheets tied to it: they make it fall sooner. It is a first look and never a design."
)
_NO_SKIN = NP_("reinforcement", "Base, floor, mesh and stucco are not in it.")
_NOT_STATED = NP_("reinforcement", "Base, floor, mesh and stucco, where they are not stated.")
_NO_DESIGN = N_("Whether it is wide, deep and strong enough: local codes and a licensed engineer decide that.")
_NO_CHECK = N_("It says nothing about whether the shell stands: that is for a licensed engineer.")
_FIRST_LOOK = N_(
    "Openings, skins, wind, snow, earthquake, uneven ground and crushing. It is a first look and never a design: a licensed engineer decides."
)
_SOLVED = N_(
    "Worked out by absolute volumes: cement grains, water and foam add up to the volume made, and "
    "their masses add up to the mass. The water in the foam is counted."
)


def _mix(name: str, label: Message, kind: str, rule: Message, source: str = "absolute_volume",
         inputs: tuple[str, ...] = MIX, leaves_out: Message = NOTHING) -> Figure:  # fmt: skip
    def get(desk: "Desk", _: int) -> float | None:
        return float(getattr(desk.e.mix, name))

    return Figure(f"mix.{name}", label, kind, get, rule, inputs, source, leaves_out)


def _least_thickness(desk: "Desk", index: int) -> float | None:
    least = desk.e.structure.parts[index].least_thickness_m
    return None if least is None else thick_enough(least)


def _ring_span(desk: "Desk", index: int) -> tuple[float, float] | None:
    part = desk.e.structure.parts[index]
    low, high = part.ring_tension_low_kn, part.ring_tension_kn
    return None if low is None or high is None else (low, high)


def _allowed(desk: "Desk", name: str) -> float | None:
    allowance = desk.e.money.allowance
    return None if allowance is None else float(getattr(allowance, name))


def _stated(value: float | None) -> float | None:
    """Nothing counted is nothing to show."""
    return value or None


def _base(name: str, label: Message, kind: str, rule: Message, inputs: tuple[str, ...], source: str = "practice_base",
          leaves_out: Message = _NO_DESIGN) -> Figure:  # fmt: skip
    def get(desk: "Desk", _: int) -> float | None:
        found: Any = desk.e.finishes and desk.e.finishes.base
        for step in name.split("."):
            found = None if found is None else getattr(found, step)
        return _stated(found)

    return Figure(f"finishes.base.{name}", label, kind, get, rule, inputs, source, leaves_out)


def _finish(name: str, label: Message, kind: str, rule: Message, inputs: tuple[str, ...], source: str,
            leaves_out: Message = NOTHING) -> Figure:  # fmt: skip
    def get(desk: "Desk", _: int) -> float | None:
        return None if desk.e.finishes is None else _stated(getattr(desk.e.finishes, name))

    return Figure(f"finishes.{name}", label, kind, get, rule, inputs, source, leaves_out)


def _frame(name: str, label: Message, kind: str, rule: Message, inputs: tuple[str, ...], source: str,
           leaves_out: Message = _NO_DESIGN) -> Figure:  # fmt: skip
    def get(desk: "Desk", _: int) -> float | None:
        found = desk.e.finishes and desk.e.finishes.frame
        return _stated(getattr(found, name)) if found else None

    return Figure(f"finishes.frame.{name}", label, kind, get, rule, inputs, source, leaves_out)


def _lap(desk: "Desk", index: int) -> float | None:
    found = desk.e.finishes.frame if desk.e.finishes else None
    steel = (found.parts if found else ())[index].steel
    return None if steel is None else steel.lap_m


def _measured(desk: "Desk", place: int) -> "PartShape":
    """The measures of the part at a place of the project."""
    shape = desk.e.shape
    if place not in shape.places:
        raise IndexError(place)
    return shape.parts[shape.places.index(place)]


def _lifts(desk: "Desk", index: int) -> tuple[float, float] | None:
    pour = desk.e.structure.pours[index]
    return None if pour.lifts_low is None or pour.lifts_high is None else (pour.lifts_low, pour.lifts_high)


def _filled(desk: "Desk", index: int, name: str) -> float | None:
    found = _measured(desk, index).fill
    return None if found is None else getattr(found, name)


def _coats(desk: "Desk") -> tuple[Any, ...]:
    return desk.e.finishes.coats if desk.e.finishes else ()


def _cuts(desk: "Desk") -> tuple[Any, ...]:
    return desk.e.finishes.mesh_cuts if desk.e.finishes else ()


def _skin(desk: "Desk", index: int) -> Any:
    return (desk.e.finishes.skins if desk.e.finishes else ())[index]


def _handbooks(desk: "Desk", index: int) -> tuple[float, float]:
    coat = _coats(desk)[index]
    found = (coat.cement_kg, coat.cement_low_kg, coat.cement_high_kg)
    return min(found), max(found)


def _course(name: str, label: Message, kind: str, rule: Message, inputs: tuple[str, ...]) -> Figure:
    """A figure of one course; what a course has none of is absent."""

    def get(desk: "Desk", index: int) -> float | None:
        found = getattr(desk.e.blocks.courses[index], name)
        return None if found is None or (name in ("cut", "left_out", "offcuts") and not found) else float(found)

    return Figure(f"course.{name}", label, kind, get, rule, inputs, "arithmetic")


_SIZES: Final = {
    "outside_low": "taper_outside_low_m", "outside_high": "taper_outside_high_m", "inside_low": "taper_inside_low_m",
    "inside_high": "taper_inside_high_m", "height_outside": "height_outside_m", "height_inside": "height_inside_m",
    "thickness": "thickness_m",
}  # fmt: skip


def _sawn(name: str, label: Message, kind: str, rule: Message, inputs: tuple[str, ...] = SAWN) -> Figure:
    """A figure of one pattern."""

    def get(desk: "Desk", index: int) -> float | None:
        pattern = desk.e.blocks.patterns[index]
        return float(getattr(pattern.course, _SIZES[name]) if name in _SIZES else getattr(pattern, name))

    return Figure(f"pattern.{name}", label, kind, get, rule, inputs, "arithmetic")


def _joint(name: str, label: Message, kind: str, rule: Message) -> Figure:
    """A figure of one joint between two parts; what it has none of is absent."""

    def get(desk: "Desk", index: int) -> float | None:
        found = float(getattr(desk.e.shape.joints[index], name))
        return found if found > 1e-6 else None

    return Figure(f"joint.{name}", label, kind, get, rule, _JOINT[name], "joined", _NO_CHECK)


_EVEN = NP_(
    "masonry",
    "The stem is shared evenly over its height and the rest of the shell over its outside, in courses that are at most as high as the mould and "
    "a joint. The plug at the crown is as wide outside as the lesser side of the mould.",
)
_WIDE = N_("The ring there over its blocks, a joint taken off. The largest face must come out of the mould.")

_ALL: Final[tuple[Figure, ...]] = (
    Figure(
        "portion.batched_kg", N_("Weigh"), "portion", lambda d, i: d.e.ahead.portions[i].batched_kg * d.e.batches.batch.cement_kg / d.e.mix.cement_kg,
        N_("As much to the cement or to the foamed concrete made as you typed; it is weighed damp."), BATCH, "absolute_volume",
    ),
    Figure(
        "weather.mix_c", N_("The mix will be"), "temperature", lambda d, _: d.e.ahead.mix_c,
        N_("Cement, water, foam and what else goes in come to one temperature; cement and sand hold 0.22 of the heat of water. The foam is as warm as the water, additions as the air."),
        _WARM, "aci_heat_balance", N_("Heat that the drum, the paddle and the sun give or take, and the first heat of the cement."),
    ),
    Figure(
        "weather.water_for_c", N_("Water for the mix that is wanted"), "temperature", lambda d, _: d.e.ahead.water_for_c,
        N_("The same sum turned round: how warm the water of the slurry must be."), (*_WARM, "weather.mix_wanted_c"), "aci_heat_balance",
        N_("Heat that the drum, the paddle and the sun give or take, and the first heat of the cement."),
    ),
    Figure(
        "weather.evaporation", N_("A wet surface loses, by temperatures"), "evaporation", lambda d, _: d.e.ahead.evaporation[0].low if d.e.ahead.evaporation else None,
        N_("From the temperatures of surface and air, the humidity and the wind. The surface is as warm as the mix, or as the air where that is not known."),
        _WINDY, "uno_1998",
    ),
    Figure(
        "weather.evaporation_menzel", N_("A wet surface loses, by vapour pressures"), "evaporation", lambda d, _: d.e.ahead.evaporation[1].low if d.e.ahead.evaporation else None,
        N_("From the vapour pressures at surface and in the air, and the wind."), _WINDY, "menzel_1954",
    ),
    Figure(
        "drying.cast_kg", N_("Water in all of it when it is cast"), "mass_large", lambda d, _: d.e.ahead.drying.cast_kg if d.e.ahead.drying else None,
        N_("The water of the slurry, of the foam and of what else goes in, in all the foamed concrete in place."), _all_of(SHELL, MIX), "arithmetic",
    ),
    Figure(
        "drying.lose_kg", N_("Of that has to dry away, at most"), "mass_large", lambda d, _: d.e.ahead.drying.lose_high_kg if d.e.ahead.drying else None,
        N_("All water less what the cement binds (a fifth to a quarter of its mass) and the moisture that stays in use."), _all_of(SHELL, MIX), "iso_10456",
        span=lambda d, _: (d.e.ahead.drying.lose_low_kg, d.e.ahead.drying.lose_high_kg) if d.e.ahead.drying else None,
    ),
    _base(
        "length_m", N_("Centre line of the base"), "length",
        N_("The middle of the wall at its foot, all parts added up."), ("base.kind", *FOOT), "arithmetic",
    ),
    _base(
        "excavation_m3", N_("Soil to dig"), "volume",
        N_("The trench along the centre line, and the topsoil of the rest of the plan, as they lie in the ground."),
        (*_TRENCH, "base.trench_depth_m", "base.topsoil_m"),
    ),
    _base(
        "loose_m3", N_("Soil, dug and loose"), "volume", N_("Soil grows when it is dug, by the share that you typed."),
        (*_TRENCH, "base.trench_depth_m", "base.topsoil_m", "base.bulking_fraction"),
    ),
    _base(
        "beam_m3", N_("Footing or ring beam, concrete in place"), "volume",
        N_("Width times height times the way of its middle round the plan."), _BEAM, "arithmetic",
    ),
    _base(
        "slab_m3", N_("Floor slab, concrete in place"), "volume", N_("The clear floor times the thickness of the slab."),
        _SLAB, "arithmetic",
    ),
    _base(
        "concrete_m3", N_("Concrete, waste counted"), "volume", N_("Footing or ring beam and slab, with the share of waste."),
        _CONCRETE,
    ),
    _base(
        "gravel_fill_m3", N_("Gravel in trench and under the floor"), "volume",
        N_("The strip along the trench and the clear floor, each times its depth of gravel, with the share of waste."), _GRAVEL,
    ),
    _base(
        "insulation_m3", N_("Insulation under the slab"), "volume",
        N_("The clear floor times the thickness of insulation, with the share of waste."),
        (*_FLOOR, "base.slab_insulation_m", "base.gravel_waste_fraction"),
    ),
    _base(
        "floor_finish_m3", N_("Mortar on the slab"), "volume",
        N_("The clear floor times the thickness of mortar, with the share of waste."),
        (*_FLOOR, "base.floor_finish_m", "base.concrete_waste_fraction"),
    ),
    _base(
        "damp_course_m", N_("Damp-proof layer"), "length", N_("The centre line, with the share of laps and waste."),
        ("base.kind", *FOOT, "base.damp_course", "base.damp_waste_fraction"),
    ),
    _base(
        "steel.mass_kg", N_("Bars in place, laps counted"), "mass",
        N_("The length of every bar along the centre line with its laps, times the mass of a metre."), _BARS, "steel_density",
    ),
    _base(
        "steel.length_m", N_("Length of bar in place, laps counted"), "length",
        N_("Each bar runs once round; a ring of so many pieces has as many laps."), _BARS,
    ),
    _base(
        "steel.lap_m", N_("Length of a lap"), "length_small", N_("The diameter of the bar times the number of diameters."),
        ("base.kind", "base.steel_sized", "base.bar_diameter_m", "base.lap_diameters"),
    ),
    _base(
        "steel.to_buy", N_("Bars to buy"), "count",
        N_("The pieces cut from bars as sold, the longest first, each from the first bar that still holds it."), _BARS,
    ),
    _finish(
        "cement_kg", N_("Cement for base and skins"), "mass",
        NP_("plaster", "The cement of concrete, floor mortar and every coat, waste counted."), _FINISHES, "practice_mortar",
    ),
    _finish(
        "cement_bags", N_("Bags for base and skins"), "count", N_("That cement over what one bag holds, rounded up to whole bags."),
        (*_FINISHES, BAG), "practice_mortar",
    ),
    _finish(
        "sand_m3", N_("Sand, loose"), "volume", NP_("plaster", "The sand of concrete, floor mortar and every coat, as it is heaped."),
        _FINISHES, "practice_mortar", N_("Damp sand takes more room than dry."),
    ),
    _finish(
        "gravel_m3", N_("Gravel, loose"), "volume", N_("The gravel of trench and floor, and that of the concrete."),
        _all_of(_GRAVEL, _CONCRETE, _FRAMED, tuple(field for field in _PARTS if "floor_finish" not in field)),
        "practice_concrete",
    ),
    _finish(
        "lime_kg", N_("Lime, hydrated"), "mass", NP_("plaster", "The lime of every coat, waste counted."), _WASTED, "practice_mortar",
    ),
    _finish(
        "water_l", N_("Water for base and skins"), "liquid", NP_("plaster", "The water of concrete, floor mortar and every coat."),
        _FINISHES, "practice_mortar", NP_("concrete", "Water to keep them damp while they cure, and washing water."),
    ),
    _finish(
        "reveals_m2", N_("Reveals of the openings"), "area",
        N_("The edge of each opening times its depth from face to face, followed all the way round; where it has a hood, to the hood's front."),
        tuple(field for field in _COVERED if field not in (TALL, *GABLES, "parts[].plan")), "arithmetic",
    ),
    _finish(
        "mesh_m2", NP_("reinforcement", "Face that carries mesh"), "area",
        NP_("reinforcement", "The faces with mesh, openings taken out, with the reveals and what is turned on at the foot."),
        (*_MESHED, "skins.foot_return_m"), "arithmetic", N_("Laps and waste: see the rolls."),
    ),
    _finish(
        "mesh_rolls", NP_("reinforcement", "Rolls of mesh to buy"), "count",
        NP_("reinforcement", "Strips are laid on each face with their laps and cut from rolls; a roll that is opened is a roll bought."),
        (*_LAID, "skins.roll_length_m"), "practice_mesh",
    ),
    _finish(
        "mesh_rolls_other", NP_("reinforcement", "Rolls if the strips ran the other way"), "count",
        NP_("reinforcement", "The same strips laid level instead of upwards, or the other way round."),
        (*_LAID, "skins.roll_length_m"), "practice_mesh",
    ),
    _finish(
        "skins_mass_kg", N_("Both skins weigh"), "mass",
        NP_("plaster", "Every coat over its area, fresh; they dry a little lighter."), _MORTAR, "practice_mortar",
        NP_("reinforcement", "Mesh, paint and what clings to a rough face."),
    ),
    _finish(
        "shell_mass_kg", N_("The foamed concrete under them weighs, oven-dry"), "mass",
        N_("The foamed concrete in place times its oven-dry density."), (*SHELL, *MIX, *_SKIN_KINDS), "astm_c869",
        N_("In the air it holds some water and is heavier."),
    ),
    Figure(
        "skin.area", N_("Area"), "area", lambda d, i: _stated(_skin(d, i).area_m2),
        N_("The face of the shell, openings taken out, with the reveals where this skin goes round them."), _COVERED, "arithmetic",
        N_("A skin outside is a little larger than the face that it covers."),
    ),
    Figure(
        "skin.thickness", NP_("plaster", "All coats together"), "length_coat", lambda d, i: _stated(_skin(d, i).thickness_m),
        NP_("plaster", "The coats added up, each as typed or as published for the kind."), (SHAPE, *_SKIN_KINDS, *_THICK), "astm_c926_lath",
    ),
    Figure(
        "skin.mass", N_("Mass"), "mass", lambda d, i: _stated(_skin(d, i).mass_kg),
        NP_("plaster", "Every coat of this side over its area, fresh."), _MORTAR, "practice_mortar",
    ),
    Figure(
        "coat.thickness", N_("Thickness"), "length_coat", lambda d, i: _coats(d)[i].thickness_m,
        N_("As typed, or as published for the kind of skin."), (SHAPE, *_SKIN_KINDS, *_THICK), "astm_c926_lath",
    ),
    Figure(
        "coat.volume", N_("Mortar"), "volume", lambda d, i: _coats(d)[i].volume_m3,
        N_("The area times the thickness, with the share of waste."), (*_COVERED, *_THICK, "skins.coat_waste_fraction"), "arithmetic",
    ),
    Figure(
        "coat.cement", N_("Cement"), "mass", lambda d, i: _coats(d)[i].cement_kg,
        N_("The mortar times the cement in a cubic metre of it, by absolute volumes."), _WASTED, "practice_mortar", span=_handbooks,
    ),
    Figure(
        "coat.sand", N_("Sand, loose"), "volume", lambda d, i: _coats(d)[i].sand_m3,
        N_("The mortar times the sand in a cubic metre of it, by absolute volumes."), _WASTED, "practice_mortar",
    ),
    Figure(
        "coat.lime", N_("Lime, hydrated"), "mass", lambda d, i: _stated(_coats(d)[i].lime_kg),
        N_("The mortar times the lime in a cubic metre of it, by absolute volumes."), _WASTED, "practice_mortar",
    ),
    Figure(
        "coat.water", N_("Water"), "liquid", lambda d, i: _coats(d)[i].water_l,
        N_("The mortar times the water in a cubic metre of it."), _WASTED, "practice_mortar",
    ),
    Figure(
        "mesh.count", N_("Strips"), "count", lambda d, i: _cuts(d)[i].count,
        N_("The length to be crossed over the width of the roll less its overlap, rounded up."),
        tuple(field for field in _LAID if field not in ("skins.mesh_waste_fraction", "parts[].bearing_deg")), "practice_mesh",
    ),
    Figure(
        "mesh.length", N_("Cut each"), "length", lambda d, i: _cuts(d)[i].length_m,
        N_("The way along the face, with overlaps, returns and the share of waste."), tuple(field for field in _LAID if field not in ("parts[].openings[].count", "parts[].openings[].hood_projection_m", ALONG, *JOINED)), "practice_mesh",
    ),
    Figure(
        "paint.litres", N_("Litres"), "liquid",
        lambda d, i: _stated((d.e.finishes.paints if d.e.finishes else ())[i].litres),
        NP_("plaster", "The area times the coats over what a litre covers, with the share of waste."), _PAINTED, "typed",
    ),
    Figure(
        "money.cement_bags", N_("Bags of cement for the whole job"), "count", lambda d, _: d.e.money.cement_bags,
        N_("Cement of the foamed concrete and of base and skins together, over what one bag holds, rounded up."),
        _all_of(JOB, _FINISHES), "practice_mortar", _NOT_STATED,
    ),
    Figure(
        "money.cement_left_kg", N_("Cement left over"), "mass", lambda d, _: d.e.money.cement_left_kg,
        N_("What is bought in whole bags, less what is mixed."), _all_of(JOB, _FINISHES), "practice_mortar",
    ),
    Figure(
        "shape.floor_area_m2", N_("Clear floor inside"), "area", lambda d, _: d.e.shape.floor_area_m2,
        N_("What dome, vault or closed wall encloses, before any skin; where rooms run into each other, counted once."), (*PLAN, *JOINED), "arithmetic",
        N_("The floor of passages, from inside face to inside face."),
    ),
    Figure(
        "shape.footprint_m2", N_("Outside footprint"), "area", lambda d, _: d.e.shape.footprint_m2,
        N_("The plan to the outside of the foamed concrete; of an open run of wall, the wall itself."),
        (*PROFILE, *PLAN[1:], STEM, THICKNESS, ENDS, END_THICKNESS, *JOINED, ALONG, *NECK), "arithmetic",
        N_("The outer skin adds its own thickness."),
    ),
    Figure(
        "shape.headroom_area_m2", N_("Floor with headroom"), "area", lambda d, _: d.e.shape.headroom_area_m2,
        N_("The part of the floor over which the inside face is at least as high as a person needs: two metres."),
        (*PROFILE, *PLAN[1:], STEM, CROWN, TALL, *JOINED), "arithmetic",
        N_("Other heights are counted in other places: ask."),
    ),
    Figure(
        "shape.height_m", N_("Height inside"), "length", lambda d, _: d.e.shape.height_m,
        N_("From the floor to the inside of the crown, or to the rim of an opening there; of a wall, to its top."),
        (*PROFILE, DIAMETER, SPAN, STEM, CROWN, TALL), "arithmetic",
    ),
    Figure(
        "shape.shell_volume_m3", N_("Foamed concrete in place"), "volume", lambda d, _: d.e.shape.shell_volume_m3,
        N_("Shells and walls between their two faces, less every opening and less concrete posts and beams; hoods; fills; blocks to order."),
        SHELL, "arithmetic", _NO_SKIN,
    ),
    Figure(
        "shape.inside_area_m2", N_("Inside face"), "area", lambda d, _: d.e.shape.inside_area_m2,
        N_("The inside face of shells and walls, openings taken out; of an open run, its left face."), (*INSIDE, THICKNESS), "arithmetic",
        N_("The reveals of the openings."),
    ),
    Figure(
        "shape.outside_area_m2", N_("Outside face"), "area", lambda d, _: d.e.shape.outside_area_m2,
        N_("The outside face of shells and walls, openings taken out; of hoods their fronts and outer faces, less what they cover; of an open run, its right face and its ends."),
        FACES, "arithmetic", N_("The reveals of the openings, and the inner faces of hoods."),
    ),
    Figure(
        "shape.hoods_volume_m3", N_("of it in hoods"), "volume", lambda d, _: _stated(d.e.shape.hoods_volume_m3),
        N_("Each hood is the ring between its two outlines, from the outside face to its flat front. It is cast in a form and not laid of blocks."),
        HOODED, "arithmetic", N_("What is keyed into the shell behind it."),
    ),
    Figure(
        "shape.joints_volume_m3", N_("Less, where parts are joined"), "volume", lambda d, _: _stated(d.e.shape.joints_volume_m3),
        N_("What both parts have in one place, once; what of one stands in the room of the other; what stands in a passage."), JOINTS, "joined",
    ),
    Figure(
        "shape.necks_volume_m3", N_("In necks between parts"), "volume", lambda d, _: _stated(d.e.shape.necks_volume_m3),
        N_("The ring round each passage wherever no part stands, as thick as the thinner of the two."), NECKS, "joined", _NO_CHECK,
    ),
    _joint("doubled_m3", N_("Doubled, counted once"), "volume", N_("What both parts have in one place; it is counted with the one that is stated first.")),
    _joint("taken_m3", N_("Less in both"), "volume", N_("The doubled once, what of one stands in the room of the other, and what stands in the passage beyond its own opening.")),
    _joint("passage_m3", N_("Passage, clear"), "volume", N_("From inside face to inside face, within the opening's outline.")),
    _joint("passage_length_m", N_("Passage, length"), "length", N_("From inside face to inside face, along the middle of the passage at its foot.")),
    _joint("neck_m3", N_("Neck"), "volume", N_("The ring round the passage wherever neither part stands, as thick as the thinner of the two.")),
    Figure(
        "blocks.count", N_("Blocks"), "count", lambda d, _: d.e.blocks.count,
        NP_("masonry", "The blocks of all courses, one by one: whole ones, and cut ones as one each; those that openings take whole are left out."),
        _all_of(PLACED, ORDERS), "arithmetic",
    ),
    Figure(
        "blocks.by_volume", N_("The same by volume"), "count", lambda d, _: d.e.blocks.by_volume.count,
        N_("The volume of the shell over the volume of one block, rounded up."),
        (*COUNTED, "block.length_m", "block.height_m"), "arithmetic",
        NP_("masonry", "Taper, cut blocks and joints: that is why the courses take more."),
    ),
    Figure(
        "blocks.cut", N_("Blocks that are cut at openings and at the ends of rows"), "count", lambda d, _: d.e.blocks.cut,
        NP_("masonry", "Every block that an opening touches at the heights of its course, and the blocks at both ends of a row that begins with half a block or meets a slope."),
        PLACED, "arithmetic",
    ),
    Figure(
        "blocks.left_out", N_("Blocks left out at openings"), "count", lambda d, _: d.e.blocks.left_out,
        N_("Every block that an opening takes whole, or all but a tenth."),
        tuple(name for name in PLACED if name != "parts[].wall.gable_sides"), "arithmetic",
    ),
    Figure(
        "blocks.offcuts_used", N_("Cut blocks that come from the rest of another"), "count", lambda d, _: d.e.blocks.offcuts_used,
        N_("The pieces of blocks that come out of the mould alike, the longest first, each from the first opened block that still holds it."),
        PLACED, "practice_sawing",
    ),
    Figure(
        "blocks.to_cast", N_("Blocks to cast, broken ones counted"), "count", lambda d, _: d.e.blocks.to_cast,
        N_("The whole blocks and those that are opened for cut ones, with the share that breaks, rounded up."),
        _all_of(PLACED, ORDERS, ("waste.breakage_fraction",)), "practice_waste",
    ),
    Figure(
        "blocks.types", N_("Distinct blocks"), "count", lambda d, _: d.e.blocks.types,
        N_("Blocks that differ by less than a millimetre everywhere are sawn alike."),
        tuple(name for name in BEDS if name != TALL), "practice_sawing",
    ),
    Figure(
        "blocks.days_to_cast", N_("Days of casting"), "count", lambda d, _: d.e.blocks.days_to_cast,
        N_("The blocks to cast over those cast in a day, rounded up."),
        _all_of(PLACED, ORDERS, ("waste.breakage_fraction", "block.moulds")), "practice_waste",
        N_("Days on which nothing is cast, and blocks that stay longer in the mould."),
    ),
    Figure(
        "blocks.cut_away_fraction", N_("Sawn off, over what stands in the wall"), "fraction", lambda d, _: d.e.blocks.cut_away_fraction,
        N_("The blocks as they come out of the mould, less the blocks in place, over the blocks in place."), _all_of(PLACED, (END_THICKNESS,)), "practice_sawing",
        N_("Blocks that break."),
    ),
    Figure(
        "blocks.joint_l", N_("For the joints"), "liquid", lambda d, _: d.e.blocks.joint_l,
        NP_("masonry", "The bed under every course and the upright joints between its blocks, each as thick as typed; the share of the openings is taken out."),
        _all_of(SAWN, ("parts[].length_m", ALONG), OPENINGS, WALLED, JOINED), "arithmetic", N_("What is squeezed out and scraped off."),
    ),
    Figure(
        "blocks.sawn_mass_kg", N_("The heaviest block, sawn, as wet as cast"), "mass", lambda d, _: d.e.blocks.sawn_mass_kg,
        NP_("masonry", "The volume of a block of its course, joints taken off, times the wet density: out of the mould it has hardly dried."),
        (*SAWN, *(name for name in LEVELS if name != "parts[].wall.gable_sides"), "parts[].length_m", *MIX), "absolute_volume",
    ),
    Figure(
        "mould_set.height_m", N_("Height of the block"), "length_fine", lambda d, i: d.e.blocks.mould_sets[i].height_m,
        NP_("masonry", "Stem wall and shell are each shared out in courses of one height, at most that of the mould; the joint is taken off."),
        BEDS, "arithmetic",
    ),
    Figure(
        "mould_set.thickness_m", N_("Thickness"), "length_fine", lambda d, i: d.e.blocks.mould_sets[i].thickness_m,
        NP_("masonry", "The thickness of the shell at the bed of the course."), (*BEDS, END_THICKNESS), "arithmetic",
    ),
    Figure(
        "mould_set.count", N_("Blocks to cast"), "count", lambda d, i: d.e.blocks.mould_sets[i].count,
        N_("Whole blocks, and those that are opened for cut ones."), PLACED, "arithmetic", N_("Blocks that break."),
    ),
    Figure(
        "mould_set.fresh_mass_kg", N_("One, fresh"), "mass", lambda d, i: d.e.blocks.mould_sets[i].fresh_mass_kg,
        N_("The full length of the mould times this height and thickness, times the wet density."), (*BEDS, END_THICKNESS, *MIX), "absolute_volume",
        N_("The mould itself."),
    ),
    _course("count", N_("Blocks"), "count", N_("Those that go all round, or along both sides, less those that openings take whole. Cut ones count as one each."), PLACED),
    _course("cut", N_("of these cut"), "count", NP_("masonry", "Blocks that an opening touches at the heights of the course, and those that end a row with a part of a block."), PLACED),
    _course("left_out", N_("left out"), "count", N_("Blocks that an opening takes whole, or all but a tenth."), PLACED),
    _course("whole", N_("Whole blocks"), "count", N_("Blocks that no opening, no end of a row and no slope cuts."), PLACED),
    _course("offcuts", N_("Cut from what is left of another"), "count", N_("The pieces of blocks that come out of the mould alike, the longest first, each from the first opened block that still holds it."), PLACED),
    _course("length_m", N_("Length"), "length", NP_("masonry", "Along the middle of the wall at the bed of the course, all sides added up, posts left out."), _all_of(PLAN, (*PROFILE[1:], STEM, CROWN, ENDS, THICKNESS, "block.height_m", "block.joint_m"), WALLED)),
    _course("height_m", NP_("masonry", "Height of the bed"), "length_set", _EVEN, BEDS),
    _course("radius_m", N_("Inside edge of the bed, from the middle"), "length_set", N_("Where the bed meets the inside face."), EDGES),
    _course("arm_m", N_("Guide arm"), "length_set", N_("From the pin to the inside edge of the bed."), EDGES),
    _course("arm_angle_deg", N_("Arm rises"), "angle_set", N_("From level, at the pin, to the inside edge of the bed."), EDGES),
    _course("bed_angle_deg", NP_("masonry", "The bed leans inward"), "angle_set", NP_("masonry", "The bed lies square to the inside face at that height."), EDGES),
    _sawn("count", N_("Blocks"), "count", NP_("masonry", "The blocks of every course that takes this pattern, cut ones counted as one each."), PLACED),
    _sawn("outside_low", N_("Outside, at the bed"), "length_fine", _WIDE, WIDTHS),
    _sawn("outside_high", N_("Outside, upper edge"), "length_fine", _WIDE, WIDTHS),
    _sawn("inside_low", N_("Inside, at the bed"), "length_fine", _WIDE, WIDTHS),
    _sawn("inside_high", N_("Inside, upper edge"), "length_fine", _WIDE, WIDTHS),
    _sawn("height_outside", N_("Height outside"), "length_fine", NP_("masonry", "The course on the outside face, a joint taken off."), BEDS),
    _sawn("height_inside", N_("Height inside"), "length_fine", NP_("masonry", "The course on the inside face, a joint taken off."), BEDS),
    _sawn("thickness", N_("Thickness"), "length_fine", NP_("masonry", "The thickness of the shell at the bed of the course."), (*(name for name in WIDTHS if name not in ("parts[].wall.build", "parts[].length_m")), END_THICKNESS)),
    _sawn("fresh_mass_kg", N_("Sawn, as wet as cast"), "mass", N_("The volume of the block, joints taken off, times the wet density."), (*BEDS, END_THICKNESS, "parts[].length_m", *MIX)),
    Figure(
        "blocks.fresh_mass_kg", N_("One block, fresh"), "mass", lambda d, _: d.e.blocks.fresh_mass_kg,
        N_("The volume of the mould times the wet density."),
        (*BLOCK, *MIX), "absolute_volume",
        N_("The mould itself."),
    ),
    Figure(
        "blocks.oven_dry_mass_kg", N_("One block, oven-dry"), "mass", lambda d, _: d.e.blocks.oven_dry_mass_kg,
        N_("The volume of the mould times the oven-dry density. In the air it stays heavier than this."),
        (*BLOCK, *MIX), "astm_c869",
    ),
    _mix("cement_kg", N_("Cement"), "mass", _SOLVED),
    _mix("water_l", N_("Water in the slurry"), "liquid", _SOLVED),
    _mix("foam_volume_l", N_("Foam"), "liquid", _SOLVED),
    _mix("foam_mass_kg", N_("Mass of the foam"), "mass", N_("The volume of the foam times its density.")),
    _mix("yield_l", NP_("volume of foamed concrete that a batch makes", "Makes"), "liquid", _SOLVED),
    _mix("mass_kg", N_("Mass of the batch"), "mass", N_("Cement, water and foam weighed together.")),
    _mix(
        "wet_density_kg_m3", N_("Wet density"), "density",
        N_("The mass of the fresh batch over its volume. Never use it where a dry density is meant."),
        leaves_out=N_("Foam lost while mixing and pouring makes the real one higher: weigh it."),
    ),
    _mix(
        "oven_dry_density_kg_m3", N_("Oven-dry density"), "density",
        N_("The cement and the fifth of its mass in water that it binds, over the volume of the batch."), "astm_c869",
        leaves_out=N_("In the air it holds some water and is heavier."),
    ),
    _mix(
        "water_cement_ratio", N_("Water-cement ratio of the slurry"), "ratio",
        N_("The slurry's water over its cement, by mass."),
    ),
    _mix(
        "total_water_cement_ratio", N_("Water-cement ratio, foam water counted"), "ratio",
        N_("All water, with the foam's, over the cement, by mass."),
    ),
    Figure(
        "foam.net_low_g", NP_("weight", "Never lighter than"), "mass_small", lambda d, _: d.e.foam.net_low_g,
        N_("The bucket's volume times the lightest foam that you accept. The empty bucket is taken off."),
        ("bucket.volume_l", "bucket.foam_low_kg_m3"), "practice_foam_window",
        span=lambda d, _: (d.e.foam.net_low_g, d.e.foam.net_high_g),
    ),
    Figure(
        "foam.net_aim_g", N_("Aim at"), "mass_small", lambda d, _: d.e.foam.net_aim_g,
        N_("The bucket's volume times the foam that you aim at. The empty bucket is taken off."),
        ("bucket.volume_l", "bucket.foam_aim_kg_m3"), "practice_foam_window",
        N_("Weight alone does not show whether the foam lasts: let a litre stand and look."),
        span=lambda d, _: (d.e.foam.net_low_g, d.e.foam.net_high_g),
    ),
    Figure(
        "foam.net_high_g", N_("Never heavier than"), "mass_small", lambda d, _: d.e.foam.net_high_g,
        N_("The bucket's volume times the heaviest foam that you accept. The empty bucket is taken off."),
        ("bucket.volume_l", "bucket.foam_high_kg_m3"), "practice_foam_window",
        span=lambda d, _: (d.e.foam.net_low_g, d.e.foam.net_high_g),
    ),
    Figure(
        "batches.count", N_("Batches, waste counted"), "decimal", lambda d, _: d.e.batches.count,
        N_("The shell over what a batch makes. To that comes what is sawn off, so that all blocks that are cast are filled, then what breaks and is lost of all that, and the batches of calibration."),
        JOB, "practice_waste", _NO_SKIN,
    ),
    Figure(
        "batches.to_mix", N_("Batches to mix"), "count", lambda d, _: d.e.batches.to_mix,
        N_("The batches with their waste, rounded up. The last one may be a part."), JOB, "practice_waste", _NO_SKIN,
    ),
    Figure(
        "batches.last_batch_fraction", N_("Last batch, share of a full one"), "fraction",
        lambda d, _: d.e.batches.last_batch_fraction,
        N_("What is left of the batches after the last whole one."), JOB, "practice_waste",
    ),
    Figure(
        "batches.cement_kg", N_("Cement"), "mass", lambda d, _: d.e.batches.cement_kg,
        N_("Batches times the cement in one, waste counted."), JOB, "practice_waste", _NO_SKIN,
    ),
    Figure(
        "batches.cement_bags", N_("Bags of cement"), "count", lambda d, _: d.e.batches.cement_bags,
        N_("The cement over what one bag holds, rounded up to whole bags."), JOB, "practice_waste", _NO_SKIN,
    ),
    Figure(
        "batches.bags_exact", N_("Bags before rounding"), "decimal", lambda d, _: d.e.batches.bags_exact,
        N_("The cement over what one bag holds."), JOB, "practice_waste", _NO_SKIN,
    ),
    Figure(
        "batches.cement_left_kg", N_("Cement left over"), "mass", lambda d, _: d.e.batches.cement_left_kg,
        N_("What is bought in whole bags, less what is mixed."), JOB, "practice_waste",
    ),
    Figure(
        "batches.water_l", N_("Water"), "liquid", lambda d, _: d.e.batches.water_l,
        N_("The water in the slurry and the water in the foam, over all batches."),
        (*JOB, "foam.agent_dilution"), "practice_waste", NP_("concrete", "Washing, curing and drinking water."),
    ),
    Figure(
        "batches.foam_l", N_("Foam"), "liquid", lambda d, _: d.e.batches.foam_l,
        N_("The foam in a batch times the batches, waste counted."), JOB, "practice_waste",
    ),
    Figure(
        "batches.concentrate_l", N_("Foaming agent, concentrate"), "liquid", lambda d, _: d.e.batches.concentrate_l,
        N_("The mass of all foam, shared between water and concentrate as the dilution says; a litre is taken as a kilogram."),
        (*JOB, "foam.agent_dilution"), "practice_waste", N_("Foam that is thrown away before the mixer."),
    ),
    Figure(
        "money.allowance_low_bags", N_("Bags for base and skins, at least"), "count",
        lambda d, _: _allowed(d, "bags_low"),
        N_("A rough allowance until base and skins are worked out: seven tenths of the foamed concrete's cement again, less what is worked out of them."),
        _all_of(JOB, _FINISHES), "practice_base_and_skins", N_("It is no quantity to buy by."),
    ),
    Figure(
        "money.allowance_high_bags", N_("Bags for base and skins, at most"), "count",
        lambda d, _: _allowed(d, "bags_high"),
        N_("A rough allowance until base and skins are worked out: as much cement again as the foamed concrete takes, less what is worked out of them."),
        _all_of(JOB, _FINISHES), "practice_base_and_skins", N_("It is no quantity to buy by."),
    ),
    Figure(
        "batch.cement_kg", N_("Cement, weighed"), "mass", lambda d, _: d.e.batches.batch.cement_kg,
        N_("The share of a bag that the drum holds, as a mass to weigh. Loose cement is never measured by volume."),
        (*BATCH,), "absolute_volume",
    ),
    Figure(
        "batch.water_l", N_("Water"), "liquid", lambda d, _: d.e.batches.batch.water_l,
        N_("The recipe's water, in the same share as its cement."), BATCH, "absolute_volume",
    ),
    Figure(
        "batch.foam_l", N_("Foam"), "liquid", lambda d, _: d.e.batches.batch.foam_l,
        N_("The recipe's foam, in the same share as its cement."), BATCH, "absolute_volume",
    ),
    Figure(
        "batch.foam_mass_kg", N_("Mass of the foam"), "mass", lambda d, _: d.e.batches.batch.foam_mass_kg,
        N_("The volume of the foam times its density."), BATCH, "absolute_volume",
    ),
    Figure(
        "batch.yield_l", NP_("volume of foamed concrete that a batch makes", "Makes"), "liquid",
        lambda d, _: d.e.batches.batch.yield_l,
        NP_("volume of foamed concrete that a batch makes", "The recipe's yield, in the same share as its cement."), BATCH, "absolute_volume",
        N_("Foam lost on the way makes it less."),
    ),
    Figure(
        "batch.mass_kg", N_("Mass of the batch"), "mass", lambda d, _: d.e.batches.batch.mass_kg,
        N_("Cement, water and foam weighed together."), BATCH, "absolute_volume", N_("The drum itself."),
    ),
    Figure(
        "batch.slurry_mark_m", N_("Slurry stands at"), "length_small", lambda d, _: d.e.batches.batch.slurry_mark_m,
        N_("The volume of cement grains and water, as a height in your drum."), (*BATCH, *DRUM), "absolute_volume",
        N_("The paddle and air stirred in raise it a little."),
    ),
    Figure(
        "batch.final_mark_m", N_("Full batch stands at"), "length_small", lambda d, _: d.e.batches.batch.final_mark_m,
        N_("The volume that the batch makes, as a height in your drum."), (*BATCH, *DRUM), "absolute_volume",
        N_("Below this mark foam was lost; above it there is too much."),
    ),
    Figure(
        "option.cement_kg", N_("Cement, weighed"), "mass", lambda d, i: d.e.batches.options[i].cement_kg,
        N_("This share of the mass in one bag."), (BAG,), "arithmetic",
    ),
    Figure(
        "option.water_l", N_("Water"), "liquid", lambda d, i: d.e.batches.options[i].water_l,
        N_("The recipe's water, in the same share as its cement."), (*MIX, BAG), "absolute_volume",
    ),
    Figure(
        "option.yield_l", NP_("volume of foamed concrete that a batch makes", "Makes"), "liquid",
        lambda d, i: d.e.batches.options[i].yield_l,
        NP_("volume of foamed concrete that a batch makes", "The recipe's yield, in the same share as its cement."), (*MIX, BAG), "absolute_volume",
    ),
    Figure(
        "waste.batches", N_("Batches"), "decimal", lambda d, i: d.e.batches.waste[i].batches,
        N_("Sawn off: the blocks as they are cast less the blocks in place, or your share of those in place. Broken: a share of what is cast; lost: a share of that and of what is poured. Calibration: the batches that you named."), JOB, "practice_waste",
    ),
    Figure(
        "lift.mass_kg", N_("Mass"), "mass", lambda d, i: d.e.site.lifts[i].mass_kg,
        NP_("something raised by hand", "What one lift weighs without the vessel that holds it."),
        (*BATCH, "batch.emptying", *BLOCK),
        "niosh_94_110", NP_("raising by hand", "Reach, turning, how often, and the person: they lower what is wise to lift."),
    ),
    Figure(
        "structure.thickness_ratio", N_("Thickness over radius"), "ratio4",
        lambda d, i: d.e.structure.parts[i].thickness_ratio,
        N_("The thickness over the radius of the middle of the shell, where the shell is widest."),
        (*PROFILE, DIAMETER, SPAN, STEM, THICKNESS), "arithmetic", _FIRST_LOOK,
    ),
    Figure(
        "structure.least_thickness_m", N_("Least thickness without tension"), "length_small",
        _least_thickness,
        N_("The thickness at which a line of thrust only just fits into this shape, its springing held, rounded up to half a centimetre. At this thickness it is about to fall."),
        (*SECTION, THICKNESS, TAPER), "thrust_line", _FIRST_LOOK,
    ),
    Figure(
        "structure.thrust_kn_m", N_("Outward thrust along the springing"), "line_load",
        lambda d, i: d.e.structure.parts[i].thrust_kn_m,
        N_("The level push of the fresh shell at its springing: for a dome as a thin membrane, for a vault as an arch with hinges at its crown and springings. The low end is the oven-dry shell with the least line of thrust."),
        (*SECTION, THICKNESS, TAPER, *MIX), "thrust_base", _FIRST_LOOK,
        span=lambda d, i: (d.e.structure.parts[i].thrust_low_kn_m, d.e.structure.parts[i].thrust_kn_m),
    ),
    Figure(
        "structure.ring_tension_kn", N_("Tension that a ring at the springing takes"), "force",
        lambda d, i: d.e.structure.parts[i].ring_tension_kn,
        N_("The outward thrust on a metre times the radius of the springing, the shell fresh. The low end is the oven-dry shell with the least thrust."),
        (*PROFILE, DIAMETER, CROWN, THICKNESS, TAPER, *MIX), "thrust_base", _FIRST_LOOK,
        span=_ring_span,
    ),
    Figure(
        "structure.stem_overturning_ratio", N_("Stem wall: weight over overturning thrust"), "ratio",
        lambda d, i: d.e.structure.parts[i].stem_overturning_ratio,
        N_("What the weight on the stem holds about its outer foot, over what the thrust at its head overturns. Below 1.5 it is not counted on."),
        (*SECTION, STEM, THICKNESS, TAPER), "thrust_stem", _FIRST_LOOK,
    ),
    Figure(
        "structure.base_ratio", N_("Base: weight over the thrust, no skins"), "ratio",
        lambda d, i: d.e.structure.parts[i].base_ratio,
        N_("What the weight on the base holds over what the vault's thrust overturns or slides, the lesser of both. Below 1.5 it is not counted on."),
        (*PROFILE, SPAN, STEM, THICKNESS, TAPER, "base.kind", "base.beam_width_m", "base.beam_height_m", *MIX), "thrust_base_weight", _FIRST_LOOK,
    ),
    Figure(
        "structure.base_skinned_ratio", N_("The same, skins as heavy as the shell"), "ratio",
        lambda d, i: d.e.structure.parts[i].base_skinned_ratio,
        N_("Skins press on the base and push outward with the shell, and the base's own weight counts for less against both. Below 1.5 it is not counted on."),
        (*PROFILE, SPAN, STEM, THICKNESS, TAPER, "base.kind", "base.beam_width_m", "base.beam_height_m", *MIX), "thrust_base_weight", _FIRST_LOOK,
    ),
    Figure(
        "structure.meridian_max_kpa", N_("Greatest pressure down the shell"), "pressure",
        lambda d, i: d.e.structure.parts[i].meridian_max_kpa,
        N_("The force down the shell over its thickness, where it is greatest, the shell fresh."),
        (*SECTION, STEM, THICKNESS, TAPER, *MIX), "membrane", _FIRST_LOOK,
    ),
    Figure(
        "structure.hoop_max_kpa", N_("Greatest pull around an uncracked dome"), "pressure",
        lambda d, i: d.e.structure.parts[i].hoop_max_kpa,
        N_("The hoop tension of a thin dome over its thickness, where it is greatest, the shell fresh. If the shell cracks upward, the ring takes it."),
        (*PROFILE, DIAMETER, CROWN, THICKNESS, TAPER, *MIX), "membrane", _FIRST_LOOK,
    ),
    Figure(
        "structure.props_from_m", N_("Hold fresh blocks from this height on"), "length",
        lambda d, i: d.e.structure.parts[i].laying.props_from_m,
        NP_("masonry", "The height from which the beds lean more than 20 degrees, until each ring closes."),
        (*SECTION, STEM), "practice_slide",
    ),
    Figure(
        "structure.centring_m", N_("Centring over openings, length of the arches"), "length",
        lambda d, i: d.e.structure.parts[i].laying.centring_m or None,
        N_("The curved part of every opening's edge above its widest, added up."),
        (SHAPE,) + tuple(f"parts[].openings[].{name}" for name in ("form", "width_m", "height_m", "diameter_m", "sill_m", "count")), "practice_centring",
        N_("How many are made at a time: one centring can serve one opening after another."),
    ),
    Figure(
        "structure.centring_m2", N_("Centring under the whole vault"), "area",
        lambda d, i: d.e.structure.parts[i].laying.centring_m2,
        N_("The inside face of the vault above its springing, over its whole length."),
        (*PROFILE, SPAN, "parts[].length_m"), "arithmetic", N_("It can be shorter and be moved along, an arch at a time."),
    ),
    Figure(
        "structure.wall_wind_low", N_("Gust that topples it near an end"), "speed",
        lambda d, i: d.e.structure.walls[i].wind_low_m_s,
        N_("The wall's weight about its foot against the gust on it, its blocks as dry as an oven makes them, loose on its base."),
        (*_LOOSE, *MIX), "wall_wind", _LOOSE_LEAVES,
        span=lambda d, i: (d.e.structure.walls[i].wind_low_m_s, d.e.structure.walls[i].wind_m_s),
    ),
    Figure(
        "structure.wall_wind", N_("Gust that topples it far from its ends, fresh"), "speed",
        lambda d, i: d.e.structure.walls[i].wind_m_s,
        N_("The same for blocks as they are cast, where the wind can press on one face only."),
        (*_LOOSE, *MIX), "wall_wind", _LOOSE_LEAVES,
    ),
    Figure(
        "structure.wall_braces", N_("Braces at most this far apart"), "length",
        lambda d, i: d.e.structure.walls[i].brace_spacing_m,
        N_("What the weight does not hold of the stated gust, braces at the top do, each as much as typed; at most twice the height apart."),
        (*_LOOSE, *MIX, "parts[].wall.gust_m_s", "parts[].wall.brace_kn"), "wall_wind", _LOOSE_LEAVES,
    ),
    Figure(
        "structure.wall_day_height", N_("Laid in a day and left unbraced, at most"), "length",
        lambda d, i: d.e.structure.walls[i].day_height_m,
        N_("The height at which the stated gust would topple it, and never more than 1.2 m."),
        (SHAPE, THICKNESS, "parts[].wall.gust_m_s", *MIX), "wall_wind", _LOOSE_LEAVES,
    ),
    Figure(
        "structure.wall_centring", N_("Centring over openings, length of the arches"), "length",
        lambda d, i: d.e.structure.walls[i].centring_m or None,
        N_("The curved part of every opening's edge above its widest, added up."),
        (SHAPE, *(f"parts[].openings[].{name}" for name in ("form", "width_m", "height_m", "diameter_m", "sill_m", "count"))),
        "practice_centring", N_("How many are made at a time: one centring can serve one opening after another."),
    ),
    Figure(
        "part.volume", N_("Foamed concrete of this part"), "volume", lambda d, i: _measured(d, i).shell_volume_m3,
        N_("As measured between its faces, with its hoods; its area times its depth; or its blocks added up."), SHELL, "arithmetic",
    ),
    Figure(
        "structure.pour_rise", NP_("concrete", "Warms by, if no heat is lost, at most"), "temperature_step", lambda d, i: d.e.structure.pours[i].rise_high_k,
        _KEPT, _RISE, "cement_heat", _POUR_LEAVES, span=lambda d, i: (d.e.structure.pours[i].rise_low_k, d.e.structure.pours[i].rise_high_k),
    ),
    Figure(
        "structure.pour_rise_low", NP_("concrete", "Warms by, if no heat is lost, at least"), "temperature_step", lambda d, i: d.e.structure.pours[i].rise_low_k,
        _KEPT, _RISE, "cement_heat", _POUR_LEAVES, span=lambda d, i: (d.e.structure.pours[i].rise_low_k, d.e.structure.pours[i].rise_high_k),
    ),
    Figure(
        "structure.pour_peak", NP_("concrete", "Warmest core, if no heat is lost, at most"), "temperature", lambda d, i: d.e.structure.pours[i].peak_high_c,
        NP_("concrete", "The temperature when it is poured and the greatest rise together. Past boiling it says only that the water boils."),
        (*_RISE, "parts[].fill.placed_c"), "cement_heat", _POUR_LEAVES,
    ),
    Figure(
        "structure.pour_peak_low", NP_("concrete", "Warmest core, if no heat is lost, at least"), "temperature", lambda d, i: d.e.structure.pours[i].peak_low_c,
        NP_("concrete", "The temperature when it is poured and the least rise together."),
        (*_RISE, "parts[].fill.placed_c"), "cement_heat", _POUR_LEAVES,
    ),
    Figure(
        "structure.pour_cement", N_("Cement in a cubic metre in place"), "density", lambda d, i: d.e.structure.pours[i].cement_kg_m3,
        N_("The cement of a batch over the volume that it makes."), (SHAPE, *MIX), "absolute_volume",
    ),
    Figure(
        "structure.pour_lifts", NP_("concrete", "Lifts, at least"), "count", lambda d, i: d.e.structure.pours[i].lifts_low,
        NP_("concrete", "The greatest depth over the depth of a lift, at most 60 cm (2 ft), rounded up."),
        (*PLAN, *DEPTH, "parts[].fill.void_depth_m"), "practice_lift",
        span=lambda d, i: _lifts(d, i),
    ),
    Figure(
        "structure.pour_pressure", NP_("concrete", "A fresh lift presses at its foot with"), "pressure", lambda d, i: d.e.structure.pours[i].lift_pressure_kpa,
        NP_("concrete", "The wet density times the depth of the deepest lift, as in a liquid: downwards on the lift below and sideways on what holds it."),
        (SHAPE, *MIX), "practice_lift", NP_("concrete", "Pumping and pouring from a height."),
    ),
    Figure(
        "fill.mean", N_("Depth on average"), "length_small", lambda d, i: _filled(d, i, "mean_m"),
        N_("The depth at the middle of the area: where the top is a plane, that is the average."), (*PLAN, *DEPTH), "arithmetic",
    ),
    Figure(
        "fill.greatest", N_("Greatest depth"), "length_small", lambda d, i: _filled(d, i, "greatest_m"),
        N_("The least depth, and the slope times the way that water runs."), (*PLAN, *DEPTH), "practice_fill",
    ),
    _frame(
        "posts", N_("Posts"), "count", N_("One at every corner and end, and between them as many as the stated distance asks for."),
        _POSTS, "practice_frame",
    ),
    _frame(
        "posts_m3", N_("Concrete of the posts"), "volume", N_("Width times the wall's thickness times their height between the beams."),
        _FRAMED, "practice_frame",
    ),
    _frame(
        "beams_m3", N_("Concrete of the ring beams"), "volume",
        N_("The middle line of the wall times its thickness times the height of a beam, for every beam."),
        (*PLAN, THICKNESS, "parts[].wall.build", "parts[].wall.ring_beams", "parts[].wall.ring_beam_height_m"), "practice_frame",
    ),
    _frame(
        "concrete_m3", N_("Concrete of posts and beams, waste counted"), "volume", N_("Both, with the share of waste."),
        (*_FRAMED, "base.concrete_waste_fraction"), "practice_frame",
    ),
    _frame(
        "steel_kg", N_("Bars in place, laps counted"), "mass",
        N_("Every bar of a post is as long as the wall is high and a lap; bars of a beam run along the middle of the wall with their laps."),
        _FRAME_BARS, "steel_density",
    ),
    _frame(
        "steel_to_buy", N_("Bars to buy"), "count",
        N_("The pieces cut from bars as sold, the longest first, each from the first bar that still holds it."), _FRAME_BARS, "practice_base",
    ),
    Figure(
        "frame.lap_m", N_("Length of a lap"), "length_small", lambda d, i: _lap(d, i),
        N_("The diameter of the bar times the number of diameters."),
        (SHAPE, "parts[].wall.build", "parts[].wall.steel_sized", "parts[].wall.bar_diameter_m", "base.lap_diameters"), "practice_base",
    ),
    Figure(
        "money.line", N_("Amount"), "money", lambda d, i: d.e.money.lines[i].amount,
        N_("Quantity, rounded up to what is sold where it is sold in packs, times the price that you typed."),
        _all_of(JOB, ("foam.agent_dilution", "block.joint_material"), PRICES, _BOUGHT), "typed", N_("Delivery and tax, unless the price has them."),
    ),
    Figure(
        "money.price", N_("Price of one"), "money", lambda d, i: d.e.money.lines[i].price,
        N_("The price that you typed for it."), ("market.prices[].item", "market.prices[].price"), "typed",
    ),
    Figure(
        "money.quantity", N_("Quantity"), "packs", lambda d, i: d.e.money.lines[i].price_quantity,
        N_("What the job takes, in the unit in which it is sold."),
        _all_of(JOB, ("foam.agent_dilution", "block.joint_material"), SOLD, _BOUGHT), "typed",
    ),
    Figure(
        "money.total", N_("Cost of what is priced"), "money", lambda d, _: d.e.money.total,
        N_("The priced lines added up."), _all_of(JOB, ("foam.agent_dilution", "block.joint_material"), PRICES, _BOUGHT), "typed", _NOT_STATED,
    ),
    Figure(
        "money.per_floor_area", N_("Cost by clear floor area"), "money_per_area",
        lambda d, _: d.e.money.per_floor_area,
        N_("The total over the clear floor inside."), _all_of(JOB, ("foam.agent_dilution", "block.joint_material"), PRICES, _BOUGHT), "typed", _NOT_STATED,
    ),
)  # fmt: skip

#: Figures that stand between a figure and the fields that it follows from, nearest first.
VIA: Final[dict[str, tuple[str, ...]]] = {
    "blocks.to_cast": ("blocks.count",),
    "blocks.fresh_mass_kg": ("mix.wet_density_kg_m3",),
    "blocks.oven_dry_mass_kg": ("mix.oven_dry_density_kg_m3",),
    "mix.foam_mass_kg": ("mix.foam_volume_l",),
    "mix.mass_kg": ("mix.foam_mass_kg",),
    "mix.wet_density_kg_m3": ("mix.mass_kg", "mix.yield_l"),
    "mix.oven_dry_density_kg_m3": ("mix.cement_kg", "mix.yield_l"),
    "mix.total_water_cement_ratio": ("mix.water_l", "mix.foam_mass_kg", "mix.cement_kg"),
    "batches.count": ("shape.shell_volume_m3", "batch.yield_l"),
    "batches.to_mix": ("batches.count",),
    "batches.last_batch_fraction": ("batches.count",),
    "batches.cement_kg": ("batches.count", "batch.cement_kg"),
    "batches.bags_exact": ("batches.cement_kg",),
    "batches.cement_bags": ("batches.bags_exact", "batches.cement_kg"),
    "batches.cement_left_kg": ("batches.cement_bags", "batches.cement_kg"),
    "batches.water_l": ("batches.count", "batch.water_l", "batch.foam_mass_kg"),
    "batches.foam_l": ("batches.count", "batch.foam_l"),
    "batches.concentrate_l": ("batches.count", "batch.foam_mass_kg"),
    "money.allowance_low_bags": ("batches.cement_kg",),
    "money.allowance_high_bags": ("batches.cement_kg",),
    "money.per_floor_area": ("money.total", "shape.floor_area_m2"),
    "batch.water_l": ("batch.cement_kg", "mix.water_cement_ratio"),
    "batch.foam_mass_kg": ("batch.foam_l",),
    "batch.final_mark_m": ("batch.yield_l",),
    "money.line": ("money.quantity",),
}

FIGURES: Final[dict[str, Figure]] = {figure.id: figure for figure in _ALL}
