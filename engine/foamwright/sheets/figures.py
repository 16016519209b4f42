"""Every figure that a sheet may show, with the answer to "why?".

A figure carries its rule in words, the project fields that it depends on, its source, what kind of
evidence stands behind it and what it leaves out. A test changes every field of a project in turn and
holds the listed inputs against what really moves.
"""

from collections.abc import Callable
from typing import TYPE_CHECKING, Final

from attrs import frozen

from foamwright.project.model import MIX_QUANTITIES
from foamwright.reader import N_, NP_, Message
from foamwright.sheets.fields import NOTHING
from foamwright.structure import Bed

if TYPE_CHECKING:
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
PLAN = (SHAPE, DIAMETER, SPAN, "parts[].length_m")
CROWN = "parts[].crown_opening_m"
ENDS = "parts[].ends"
END_THICKNESS = "parts[].end_thickness_m"
TAPER = "parts[].crown_thickness_m"
OPENINGS = tuple(
    f"parts[].openings[].{name}"
    for name in ("form", "width_m", "height_m", "diameter_m", "sill_m", "count", "azimuth_deg", "spacing_deg", "face")
)
INSIDE = (*PROFILE, *PLAN[1:], STEM, CROWN, ENDS, *OPENINGS)
SHELL = (*INSIDE, THICKNESS, TAPER, END_THICKNESS)
BLOCK = (SHAPE, THICKNESS, ENDS, END_THICKNESS, "block.length_m", "block.height_m")
MIX = ("mix.given", *(f"mix.{name}" for name in MIX_QUANTITIES), "mix.cement_density_kg_m3")
BAG = "market.cement_bag_kg"
FIT = ("batch.bags_each", "batch.drum_l", "batch.freeboard_fraction")
BATCH = (*MIX, BAG, *FIT)
WASTE = (
    "waste.lost_batches_fraction",
    "waste.breakage_fraction",
    "waste.cutting_fraction",
    "waste.calibration_batches",
)
JOB = (*SHELL, *BATCH, *WASTE)
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

_NO_SKIN = NP_("reinforcement", "Base, floor, mesh and stucco are not in it yet.")
_NO_CHECK = N_("It says nothing about whether the shell stands: that is for a licensed engineer.")
_FIRST_LOOK = N_(
    "Openings, skins, wind, snow, earthquake, uneven ground and crushing. It is a first look and never a design: a licensed engineer decides."
)
_SOLVED = N_(
    "Worked out by absolute volumes: the litres of cement grains, water and foam add up to the litres made, and "
    "their masses add up to the mass. The water in the foam is counted."
)


def _mix(name: str, label: Message, kind: str, rule: Message, source: str = "absolute_volume",
         inputs: tuple[str, ...] = MIX, leaves_out: Message = NOTHING) -> Figure:  # fmt: skip
    def get(desk: "Desk", _: int) -> float | None:
        return float(getattr(desk.e.mix, name))

    return Figure(f"mix.{name}", label, kind, get, rule, inputs, source, leaves_out)


def beds(desk: "Desk") -> tuple[Bed, ...]:
    """Return the beds of all courses, part after part."""
    return tuple(bed for part in desk.e.structure.parts for bed in part.laying.beds)


def _ring_span(desk: "Desk", index: int) -> tuple[float, float] | None:
    part = desk.e.structure.parts[index]
    low, high = part.ring_tension_low_kn, part.ring_tension_kn
    return None if low is None or high is None else (low, high)


_ALL: Final[tuple[Figure, ...]] = (
    Figure(
        "shape.floor_area_m2", N_("Clear floor inside"), "area", lambda d, _: d.e.shape.floor_area_m2,
        N_("The circle, or the rectangle of a vault, inside the walls, before any skin."), PLAN, "arithmetic",
    ),
    Figure(
        "shape.footprint_m2", N_("Outside footprint"), "area", lambda d, _: d.e.shape.footprint_m2,
        N_("The circle or the rectangle to the outside of the foamed concrete."),
        (*PROFILE, *PLAN[1:], STEM, THICKNESS, ENDS, END_THICKNESS), "arithmetic",
        N_("The outer skin adds its own thickness."),
    ),
    Figure(
        "shape.headroom_area_m2", N_("Floor with headroom"), "area", lambda d, _: d.e.shape.headroom_area_m2,
        N_("The part of the floor over which the inside face is at least 2.0 m high."),
        (*PROFILE, *PLAN[1:], STEM, CROWN), "arithmetic",
        N_("Other heights are counted in other places: ask."),
    ),
    Figure(
        "shape.height_m", N_("Height inside"), "length", lambda d, _: d.e.shape.height_m,
        N_("From the floor to the inside of the crown, or to the rim of an opening there."),
        (*PROFILE, DIAMETER, SPAN, STEM, CROWN), "arithmetic",
    ),
    Figure(
        "shape.shell_volume_m3", N_("Foamed concrete in place"), "volume", lambda d, _: d.e.shape.shell_volume_m3,
        N_("The shell between its two faces with the end walls of vaults, less every opening cut through it."),
        SHELL, "arithmetic", _NO_SKIN,
    ),
    Figure(
        "shape.inside_area_m2", N_("Inside face"), "area", lambda d, _: d.e.shape.inside_area_m2,
        N_("The inside face of the shell, openings taken out."), INSIDE, "arithmetic",
        N_("The reveals of the openings."),
    ),
    Figure(
        "shape.outside_area_m2", N_("Outside face"), "area", lambda d, _: d.e.shape.outside_area_m2,
        N_("The outside face of the shell, openings taken out."), SHELL, "arithmetic",
        N_("The reveals of the openings."),
    ),
    Figure(
        "blocks.count", N_("Blocks"), "count", lambda d, _: d.e.blocks.count,
        N_("The volume of the shell over the volume of one block, rounded up."),
        (*SHELL, "block.length_m", "block.height_m"), "arithmetic",
        NP_("masonry", "Counted by volume: the courses are not laid out yet, so cut blocks and joints are not in it."),
    ),
    Figure(
        "blocks.to_cast", N_("Blocks to cast, broken and cut ones counted"), "count", lambda d, _: d.e.blocks.to_cast,
        N_("The blocks with the shares that break and that are cut away, rounded up."),
        (*SHELL, "block.length_m", "block.height_m", "waste.breakage_fraction", "waste.cutting_fraction"), "practice_waste",
        NP_("masonry", "Counted by volume: the courses are not laid out yet, so cut blocks and joints are not in it."),
    ),
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
    _mix("foam_mass_kg", NP_("mass", "Foam, weighed"), "mass", N_("The litres of foam times its weight a litre.")),
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
        "foam.net_low_g", N_("Never lighter than"), "mass_small", lambda d, _: d.e.foam.net_low_g,
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
        N_("The shell over what a batch makes, with the waste of each cause added and the batches of calibration."),
        JOB, "practice_waste", _NO_SKIN,
    ),
    Figure(
        "batches.to_mix", N_("Batches to mix"), "count", lambda d, _: d.e.batches.to_mix,
        N_("The batches with their waste, rounded up. The last one may be a part."), JOB, "practice_waste", _NO_SKIN,
    ),
    Figure(
        "batches.last_batch_fraction", N_("The last batch is this part of one"), "fraction",
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
        lambda d, _: d.e.money.allowance and d.e.money.allowance.bags_low,
        N_("A rough allowance until base and skins are worked out: seven tenths of the foamed concrete's cement again."),
        JOB, "practice_base_and_skins", N_("It is no quantity to buy by."),
    ),
    Figure(
        "money.allowance_high_bags", N_("Bags for base and skins, at most"), "count",
        lambda d, _: d.e.money.allowance and d.e.money.allowance.bags_high,
        N_("A rough allowance until base and skins are worked out: as much cement again as the foamed concrete takes."),
        JOB, "practice_base_and_skins", N_("It is no quantity to buy by."),
    ),
    Figure(
        "batch.cement_kg", N_("Cement, weighed"), "mass", lambda d, _: d.e.batches.batch.cement_kg,
        N_("The share of a bag that the drum holds, as kilograms to weigh. Loose cement is never measured by volume."),
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
        "batch.foam_mass_kg", NP_("mass", "Foam, weighed"), "mass", lambda d, _: d.e.batches.batch.foam_mass_kg,
        N_("The litres of foam times its weight a litre."), BATCH, "absolute_volume",
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
        N_("The litres of cement grains and water, as a height in your drum."), (*BATCH, *DRUM), "absolute_volume",
        N_("The paddle and air stirred in raise it a little."),
    ),
    Figure(
        "batch.final_mark_m", N_("Full batch stands at"), "length_small", lambda d, _: d.e.batches.batch.final_mark_m,
        N_("The litres that the batch makes, as a height in your drum."), (*BATCH, *DRUM), "absolute_volume",
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
        N_("This share of the batches that stand in the wall, or the batches that you named."), JOB, "practice_waste",
    ),
    Figure(
        "lift.mass_kg", N_("Mass"), "mass", lambda d, i: d.e.site.lifts[i].mass_kg,
        NP_("something raised by hand", "What one lift weighs without the vessel that holds it."),
        (*BATCH, "batch.emptying", *BLOCK),
        "niosh_94_110", NP_("raising by hand", "Reach, turning, how often, and the person: they lower what is wise to lift."),
    ),
    Figure(
        "structure.thickness_ratio", N_("Thickness over radius"), "ratio3",
        lambda d, i: d.e.structure.parts[i].thickness_ratio,
        N_("The thickness over the radius of the middle of the shell, where the shell is widest."),
        (DIAMETER, THICKNESS), "arithmetic", _FIRST_LOOK,
    ),
    Figure(
        "structure.least_thickness_m", N_("Least thickness without tension"), "length_small",
        lambda d, i: d.e.structure.parts[i].least_thickness_m,
        N_("The thickness at which a line of thrust only just fits into this shape, its springing held. At this thickness it is about to fall."),
        (DIAMETER,), "thrust_line", _FIRST_LOOK,
    ),
    Figure(
        "structure.thrust_kn_m", N_("Outward thrust on each metre of springing"), "line_load",
        lambda d, i: d.e.structure.parts[i].thrust_kn_m,
        N_("The level push of the fresh shell at its springing: for a dome as a thin membrane, for a vault as an arch with hinges at its crown and springings. The low end is the oven-dry shell with the least line of thrust."),
        (DIAMETER, THICKNESS, *MIX), "thrust_base", _FIRST_LOOK,
        span=lambda d, i: (d.e.structure.parts[i].thrust_low_kn_m, d.e.structure.parts[i].thrust_kn_m),
    ),
    Figure(
        "structure.ring_tension_kn", N_("Tension that a ring at the springing takes"), "force",
        lambda d, i: d.e.structure.parts[i].ring_tension_kn,
        N_("The outward thrust on a metre times the radius of the springing, the shell fresh. The low end is the oven-dry shell with the least thrust."),
        (DIAMETER, THICKNESS, *MIX), "thrust_base", _FIRST_LOOK,
        span=_ring_span,
    ),
    Figure(
        "structure.stem_overturning_ratio", N_("Stem wall: weight over overturning thrust"), "ratio",
        lambda d, i: d.e.structure.parts[i].stem_overturning_ratio,
        N_("What the weight on the stem holds about its outer foot, over what the thrust at its head overturns. Below 1.5 it is not counted on."),
        (DIAMETER, STEM, THICKNESS), "thrust_stem", _FIRST_LOOK,
    ),
    Figure(
        "structure.meridian_max_kpa", N_("Greatest pressure down the shell"), "pressure",
        lambda d, i: d.e.structure.parts[i].meridian_max_kpa,
        N_("The force down the shell over its thickness, where it is greatest, the shell fresh."),
        (DIAMETER, STEM, THICKNESS, *MIX), "membrane", _FIRST_LOOK,
    ),
    Figure(
        "structure.hoop_max_kpa", N_("Greatest pull around an uncracked dome"), "pressure",
        lambda d, i: d.e.structure.parts[i].hoop_max_kpa,
        N_("The hoop tension of a thin dome over its thickness, where it is greatest, the shell fresh. If the shell cracks upward, the ring takes it."),
        (DIAMETER, THICKNESS, *MIX), "membrane", _FIRST_LOOK,
    ),
    Figure(
        "structure.props_from_m", N_("Hold fresh blocks from this height on"), "length",
        lambda d, i: d.e.structure.parts[i].laying.props_from_m,
        NP_("masonry", "The height from which the beds lean more than 20 degrees, until each ring closes."),
        (DIAMETER, STEM), "practice_slide",
    ),
    Figure(
        "structure.centring_m", N_("Centring over openings, length of the arches"), "length",
        lambda d, i: d.e.structure.parts[i].laying.centring_m or None,
        N_("The curved part of every opening's edge above its widest, added up."),
        tuple(f"parts[].openings[].{name}" for name in ("form", "width_m", "diameter_m", "count")), "practice_centring",
        N_("How many are made at a time: one centring can serve one opening after another."),
    ),
    Figure(
        "bed.height_m", NP_("masonry", "Height of the bed"), "length", lambda d, i: beds(d)[i].height_m,
        NP_("masonry", "The face from foot to crown, shared evenly by courses that are at most as high as the block."),
        (DIAMETER, STEM, "block.height_m"), "arithmetic",
    ),
    Figure(
        "bed.bed_angle_deg", NP_("masonry", "The bed leans inward"), "angle", lambda d, i: beds(d)[i].bed_angle_deg,
        NP_("masonry", "The bed lies square to the inside face at that height."),
        (DIAMETER, STEM, "block.height_m"), "arithmetic",
    ),
    Figure(
        "money.line", N_("Amount"), "money", lambda d, i: d.e.money.lines[i].amount,
        N_("Quantity, rounded up to what is sold where it is sold in packs, times the price that you typed."),
        (*JOB, "foam.agent_dilution", *PRICES), "typed", N_("Delivery and tax, unless the price has them."),
    ),
    Figure(
        "money.quantity", N_("Quantity"), "decimal", lambda d, i: d.e.money.lines[i].price_quantity,
        N_("What the job takes, in the unit in which it is sold."),
        (*JOB, "foam.agent_dilution", *SOLD), "typed",
    ),
    Figure(
        "money.total", N_("Cost of what is priced"), "money", lambda d, _: d.e.money.total,
        N_("The priced lines added up."), (*JOB, "foam.agent_dilution", *PRICES), "typed", _NO_SKIN,
    ),
    Figure(
        "money.per_floor_area", N_("Cost for each square metre of clear floor"), "money",
        lambda d, _: d.e.money.per_floor_area,
        N_("The total over the clear floor inside."), (*JOB, "foam.agent_dilution", *PRICES), "typed", _NO_SKIN,
    ),
)  # fmt: skip

FIGURES: Final[dict[str, Figure]] = {figure.id: figure for figure in _ALL}
