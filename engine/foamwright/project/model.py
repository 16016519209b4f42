"""What the builder states: frozen, SI, every field with a default that makes a sensible small dome.

Each attribute carries its own rules (kind, quantity, limits, choices) as metadata. Reading a file,
the form on the page, the link codec and the fuzz tests all follow these rules, so a new field is
one line here.
"""

from typing import Any, Final

from attrs import field, frozen

FORMAT: Final = 1

#: 94 lb and 6 and 42 US gallons: exact by definition of the pound and the gallon.
_SACK_KG: Final = 94 * 0.45359237
_GALLON_L: Final = 3.785411784

CEMENT_TYPES: Final = (
    "unstated",
    "cem_i", "cem_ii_a", "cem_ii_b", "cem_iii_a", "cem_iii_b", "cem_iv", "cem_v",
    "astm_i", "astm_ii", "astm_iii", "astm_v", "astm_il", "astm_ip", "astm_is",
    "masonry",
)  # fmt: skip
STRENGTH_CLASSES: Final = ("unstated", "32.5N", "32.5R", "42.5N", "42.5R", "52.5N", "52.5R")
SHAPES: Final = ("dome", "vault", "wall", "fill", "blocks")
#: Shapes whose section is a meridian.
SHELLS: Final = ("dome", "vault")
#: What a wall or a fill follows: a rectangle, corners one by one, a circle, or an open line of corners.
PLAN_FORMS: Final = ("rectangle", "polygon", "circle", "run")
#: A circle is the hemisphere of a dome and the semicircle of a vault; either name serves for both.
PROFILES: Final = (
    "hemisphere", "semicircle", "segment", "pointed", "catenary", "parabola", "ellipse",
)  # fmt: skip
#: Where an opening stands: at its azimuth, or in a wall of a vault whose axis runs from end a to end b.
FACES: Final = ("around", "side_a", "side_b", "end_a", "end_b")
#: A collar of foamed concrete that stands out from the face, over the head of an opening or all round it.
HOODS: Final = ("none", "head", "around")
PRICE_UNITS: Final = (
    "bag", "kg", "t", "lb", "L", "m3", "us_gal", "imp_gal", "piece", "day", "lump",
    "m", "m2", "ft", "ft2", "yd3",
)  # fmt: skip
#: What the estimate finds the quantity of by itself; ``other`` is a line of the builder's own.
PRICE_ITEMS: Final = (
    "cement", "agent", "water", "other",
    "sand", "gravel", "lime", "ready_concrete", "bar", "damp_course", "insulation", "mesh_roll",
    "waterproofing", "paint", "joint_mortar", "joint_adhesive", "fly_ash", "fibres", "accelerator",
)  # fmt: skip
BASE_KINDS: Final = ("unstated", "none", "footing", "ring_beam")
SKIN_KINDS: Final = ("unstated", "none", "thin_mesh", "solid_base", "solid_base_two", "lath")


def number(
    default: float | None,
    low: float,
    high: float,
    quantity: str,
    *,
    optional: bool = False,
    whole: bool = False,
) -> Any:
    """State a number with its limits (both included), its quantity and whether it may be absent."""
    meta = {"kind": "number", "low": low, "high": high, "quantity": quantity}
    return field(default=default, metadata=meta | {"optional": optional, "whole": whole})


def choice(default: str, choices: tuple[str, ...]) -> Any:
    """State a choice from a closed list of codes."""
    return field(default=default, metadata={"kind": "choice", "choices": choices})


def text(default: str, longest: int, *, optional: bool = False, lines: bool = False) -> Any:
    """State a text of at most ``longest`` characters, line breaks only where ``lines`` says so."""
    meta = {"kind": "text", "longest": longest, "optional": optional, "lines": lines}
    return field(default=default, metadata=meta)


def group(cls: type) -> Any:
    """State a nested group of fields."""
    return field(factory=cls, metadata={"kind": "group", "cls": cls})


def many(cls: type, most: int, default: tuple[Any, ...] = (), *, least: int = 0) -> Any:
    """State a list of groups."""
    return field(default=default, metadata={"kind": "many", "cls": cls, "most": most, "least": least})


def row(default: tuple[float, ...], low: float, high: float, quantity: str, length: int) -> Any:
    """State a fixed row of numbers, such as a point."""
    meta = {"kind": "row", "low": low, "high": high, "quantity": quantity, "length": length}
    return field(default=default, metadata=meta)


def points(default: tuple[tuple[float, ...], ...], low: float, high: float, quantity: str, most: int) -> Any:
    """State a list of points on the plan, each as x and y."""
    meta = {"kind": "points", "low": low, "high": high, "quantity": quantity, "length": 2}
    return field(default=default, metadata=meta | {"most": most, "least": 0})


def numbers(default: tuple[int, ...], low: int, high: int, most: int) -> Any:
    """State a list of whole numbers."""
    meta = {"kind": "numbers", "low": low, "high": high, "quantity": "count", "whole": True}
    return field(default=default, metadata=meta | {"most": most, "least": 0, "optional": False})


def names(default: tuple[str, ...], choices: tuple[str, ...]) -> Any:
    """State a set of names out of a closed list."""
    return field(default=default, metadata={"kind": "names", "choices": choices})


@frozen
class Place:
    """Where it is to stand."""

    name: str = text("", 80)
    latitude: float | None = number(None, -90, 90, "angle", optional=True)
    longitude: float | None = number(None, -180, 180, "angle", optional=True)
    elevation_m: float | None = number(None, -450, 6000, "length", optional=True)


@frozen
class Price:
    """One price as it is quoted where the landowner buys."""

    item: str = choice("other", PRICE_ITEMS)
    unit: str = choice("piece", PRICE_UNITS)
    price: float | None = number(None, 0, 1e12, "money", optional=True)
    label: str = text("", 80)
    quantity: float | None = number(None, 0, 1e9, "count", optional=True)


@frozen
class Rate:
    """An exchange rate that somebody typed, kept so that converted prices say where they come from."""

    from_currency: str = text("", 3)
    rate: float | None = number(None, 1e-9, 1e9, "ratio", optional=True)
    date: str = text("", 10)


@frozen
class Market:
    """What is sold where the landowner lives."""

    country: str = text("", 2)
    currency: str = text("USD", 3)
    cement_bag_kg: float = number(_SACK_KG, 1, 2000, "mass")
    cement_type: str = choice("unstated", CEMENT_TYPES)
    strength_class: str = choice("unstated", STRENGTH_CLASSES)
    prices: tuple[Price, ...] = many(Price, 60)
    converted: Rate = group(Rate)


@frozen
class Opening:
    """A straight prism cut horizontally along the radius through its own centre."""

    form: str = choice("rectangular", ("rectangular", "arched", "pointed", "round"))
    width_m: float = number(0.9, 0.05, 20, "length")
    height_m: float = number(2.0, 0.05, 20, "length")
    diameter_m: float = number(0.6, 0.05, 20, "length")
    sill_m: float = number(0.0, 0, 20, "length")
    azimuth_deg: float = number(0.0, -360, 360, "angle")
    count: int = number(1, 1, 60, "count", whole=True)
    spacing_deg: float | None = number(None, -360, 360, "angle", optional=True)
    to: str | None = text(None, 40, optional=True)  # type: ignore[arg-type]
    face: str = choice("around", FACES)
    along_m: float | None = number(None, 0, 100, "length", optional=True)
    side: int = number(1, 1, 40, "count", whole=True)
    hood: str = choice("none", HOODS)
    hood_projection_m: float = number(0.15, 0.01, 2, "length")
    hood_thickness_m: float = number(0.10, 0.03, 1, "length")


@frozen
class Wall:
    """A straight or round wall: its height and gables, how it is built, and what it meets while it is fresh."""

    height_m: float = number(2.4, 0.1, 12, "length")
    gable_rise_m: float = number(0.0, 0, 10, "length")
    gable_sides: tuple[int, ...] = numbers((2, 4), 1, 40, 40)
    build: str = choice("blocks", ("blocks", "infill"))
    post_width_m: float = number(0.15, 0.05, 1, "length")
    post_spacing_m: float = number(3.0, 0.3, 20, "length")
    ring_beams: int = number(1, 0, 6, "count", whole=True)
    ring_beam_height_m: float = number(0.20, 0.05, 1, "length")
    steel_sized: str = choice("unsized", ("unsized", "placeholder", "typed"))
    steel_sized_by: str = text("", 80)
    bar_diameter_m: float | None = number(None, 0.003, 0.06, "length", optional=True)
    post_bars: int | None = number(None, 1, 60, "count", optional=True, whole=True)
    beam_bars: int | None = number(None, 1, 60, "count", optional=True, whole=True)
    gust_m_s: float | None = number(None, 1, 80, "speed", optional=True)
    brace_kn: float | None = number(None, 0.01, 100, "force", optional=True)


@frozen
class Fill:
    """Foamed concrete poured where it stays."""

    kind: str = choice("falls", ("falls", "layer", "void"))
    depth_m: float = number(0.05, 0.005, 5, "length")
    slope_fraction: float = number(0.02, 0, 0.5, "fraction")
    fall_deg: float = number(0.0, -360, 360, "angle")
    volume_m3: float = number(1.0, 0.001, 10000, "volume")
    void_depth_m: float | None = number(None, 0.01, 100, "length", optional=True)
    placed_c: float | None = number(None, -10, 60, "temperature", optional=True)


@frozen
class Order:
    """Blocks to order; their thickness is the part's own."""

    count: int = number(100, 1, 100000, "count", whole=True)
    length_m: float = number(0.305, 0.05, 2, "length")
    height_m: float = number(0.305, 0.05, 2, "length")


#: An L, so that whoever chooses corners one by one has some to change.
_CORNERS: Final = ((0.0, 0.0), (6.0, 0.0), (6.0, 3.0), (3.0, 3.0), (3.0, 5.0), (0.0, 5.0))


@frozen
class Part:
    """One part of the project: a shell, a wall, a fill, or blocks to order."""

    id: str = text("main", 40)
    shape: str = choice("dome", SHAPES)
    profile: str = choice("hemisphere", PROFILES)
    inside_diameter_m: float = number(6.0, 0.5, 30, "length")
    stem_height_m: float = number(0.5, 0, 5, "length")
    thickness_m: float = number(0.20, 0.03, 1.5, "length")
    at_m: tuple[float, ...] = row((0.0, 0.0), -1000, 1000, "length", 2)
    bearing_deg: float = number(0.0, -360, 360, "angle")
    openings: tuple[Opening, ...] = many(Opening, 60)
    rise_m: float | None = number(None, 0.05, 30, "length", optional=True)
    crown_thickness_m: float | None = number(None, 0.03, 1.5, "length", optional=True)
    crown_opening_m: float = number(0.0, 0, 30, "length")
    crown_closed_by: str = choice("open", ("open", "glazed"))
    inside_span_m: float = number(4.0, 0.5, 30, "length")
    length_m: float = number(6.0, 0.5, 100, "length")
    ends: str = choice("both", ("both", "one", "open"))
    end_thickness_m: float | None = number(None, 0.03, 1.5, "length", optional=True)
    plan_form: str = choice("rectangle", PLAN_FORMS)
    plan: tuple[tuple[float, ...], ...] = points(_CORNERS, -1000, 1000, "length", 40)
    wall: Wall = group(Wall)
    fill: Fill = group(Fill)
    order: Order = group(Order)


_DOOR: Final = Opening(form="arched")
_WINDOWS: Final = Opening(form="round", sill_m=1.2, azimuth_deg=45.0, count=4)

MIX_QUANTITIES: Final = (
    "cement_kg", "water_l", "foam_density_kg_m3", "yield_l",
    "wet_density_kg_m3", "oven_dry_density_kg_m3", "water_cement_ratio", "total_water_cement_ratio",
)  # fmt: skip


#: What may go into the slurry beside cement and water.
ADDITIONS: Final = ("sand", "fly_ash", "lime", "fibres", "accelerator")


@frozen
class Addition:
    """Something that goes into the slurry, by the cement or by the foamed concrete made; weighed damp."""

    kind: str = choice("sand", ADDITIONS)
    per: str = choice("cement", ("cement", "yield"))
    kg_per_kg: float = number(0.0, 0, 20, "ratio")
    kg_per_m3: float = number(0.0, 0, 2500, "density")
    moisture_fraction: float = number(0.0, 0, 20, "fraction")
    absorption_fraction: float = number(0.0, 0, 1, "fraction")
    grain_kg_m3: float | None = number(None, 100, 10000, "density", optional=True)


@frozen
class Mix:
    """The recipe; ``given`` names the quantities that were stated, the rest is solved."""

    given: tuple[str, ...] = names(
        ("cement_kg", "water_l", "foam_density_kg_m3", "yield_l"), MIX_QUANTITIES
    )
    cement_kg: float | None = number(_SACK_KG, 0.1, 5000, "mass", optional=True)
    water_l: float | None = number(6 * _GALLON_L, 0.1, 5000, "volume", optional=True)
    foam_density_kg_m3: float | None = number(95.0, 10, 400, "density", optional=True)
    yield_l: float | None = number(42 * _GALLON_L, 1, 20000, "volume", optional=True)
    wet_density_kg_m3: float | None = number(None, 150, 1900, "density", optional=True)
    oven_dry_density_kg_m3: float | None = number(None, 100, 1700, "density", optional=True)
    water_cement_ratio: float | None = number(None, 0.2, 2, "ratio", optional=True)
    total_water_cement_ratio: float | None = number(None, 0.2, 3, "ratio", optional=True)
    cement_density_kg_m3: float = number(3150.0, 2000, 4000, "density")
    additions: tuple[Addition, ...] = many(Addition, 8)


@frozen
class Wish:
    """What the foamed concrete should do, for choosing its density; nothing is worked out from it."""

    strength_mpa: float | None = number(None, 0.01, 60, "stress", optional=True)
    conductivity_w_mk: float | None = number(None, 0.01, 5, "conductivity", optional=True)


@frozen
class Weather:
    """What the thermometer, the sky and the water say where the mix is made; all of it may be left out."""

    air_c: float | None = number(None, -40, 60, "temperature", optional=True)
    night_c: float | None = number(None, -40, 60, "temperature", optional=True)
    water_c: float | None = number(None, 0, 90, "temperature", optional=True)
    cement_c: float | None = number(None, -40, 90, "temperature", optional=True)
    mix_wanted_c: float | None = number(None, 0, 50, "temperature", optional=True)
    humidity_fraction: float | None = number(None, 0, 1, "fraction", optional=True)
    wind_m_s: float | None = number(None, 0, 60, "speed", optional=True)
    hardness: float | None = number(None, 0, 10000, "count", optional=True)
    hardness_unit: str = choice("mg_l", ("mg_l", "grain_us_gal", "german", "french"))


@frozen
class Bucket:
    """The bucket that foam is weighed in, and the window its foam must keep."""

    volume_l: float = number(_GALLON_L / 4, 0.1, 50, "volume")
    foam_low_kg_m3: float = number(90.0, 10, 400, "density")
    foam_aim_kg_m3: float = number(95.0, 10, 400, "density")
    foam_high_kg_m3: float = number(100.0, 10, 400, "density")


@frozen
class Mark:
    """A water calibration of the builder's drum: so much water stands so high."""

    volume_l: float = number(0.0, 0, 5000, "volume")
    height_m: float = number(0.0, 0, 5, "length")


@frozen
class Batch:
    """How a batch is made: bags in it, the drum, how it leaves the drum."""

    bags_each: float | None = number(None, 0.01, 100, "count", optional=True)
    drum_l: float = number(170.0, 5, 5000, "volume")
    freeboard_fraction: float = number(0.05, 0, 0.5, "fraction")
    drum_form: str = choice("straight", ("straight", "tapered", "calibrated"))
    drum_diameter_m: float = number(0.57, 0.1, 5, "length")
    drum_bottom_diameter_m: float = number(0.50, 0.1, 5, "length")
    drum_top_diameter_m: float = number(0.60, 0.1, 5, "length")
    drum_depth_m: float = number(0.85, 0.1, 5, "length")
    drum_marks: tuple[Mark, ...] = many(Mark, 40)
    emptying: str = choice("in_place", ("in_place", "tip", "bottom_outlet", "buckets"))
    slurry_minutes: float = number(3.0, 0.5, 60, "minutes")
    fold_minutes: float = number(2.0, 0.5, 60, "minutes")
    pour_within_minutes: float = number(10.0, 1, 120, "minutes")


@frozen
class Foam:
    """The foaming agent: parts of water to one part of concentrate."""

    agent_dilution: float = number(40.0, 1, 500, "ratio")


@frozen
class Block:
    """The mould, on the face of the shell; the third side is the shell's thickness."""

    length_m: float = number(0.305, 0.05, 2, "length")
    height_m: float = number(0.305, 0.05, 2, "length")
    joint_m: float = number(0.0, 0, 0.05, "length")
    joint_material: str = choice("mortar", ("mortar", "adhesive"))
    moulds: int | None = number(None, 1, 5000, "count", optional=True, whole=True)


@frozen
class Waste:
    """What is mixed and never stands in the wall, by cause; cutting that is not typed is as counted from the lay plan."""

    lost_batches_fraction: float = number(0.03, 0, 0.5, "fraction")
    breakage_fraction: float = number(0.03, 0, 0.5, "fraction")
    cutting_fraction: float | None = number(None, 0, 0.5, "fraction", optional=True)
    calibration_batches: float = number(1.0, 0, 50, "count")


@frozen
class Base:
    """What the shells stand on, with the floor; nothing is counted until a kind is chosen."""

    kind: str = choice("unstated", BASE_KINDS)
    frost_depth_m: float | None = number(None, 0, 5, "length", optional=True)
    trench_depth_m: float = number(0.50, 0.05, 5, "length")
    trench_width_m: float = number(0.50, 0.05, 5, "length")
    trench_gravel_m: float = number(0.15, 0, 4, "length")
    beam_width_m: float = number(0.30, 0.05, 3, "length")
    beam_height_m: float = number(0.30, 0.05, 3, "length")
    steel_sized: str = choice("unsized", ("unsized", "placeholder", "typed"))
    steel_sized_by: str = text("", 80)
    bar_diameter_m: float | None = number(None, 0.003, 0.06, "length", optional=True)
    bars: int | None = number(None, 1, 60, "count", optional=True, whole=True)
    bar_length_m: float = number(6.0, 1, 24, "length")
    lap_diameters: float = number(40.0, 10, 120, "ratio")
    damp_course: str = choice("yes", ("yes", "no"))
    damp_waste_fraction: float = number(0.10, 0, 1, "fraction")
    floor: str = choice("slab", ("slab", "no"))
    slab_gravel_m: float = number(0.10, 0, 2, "length")
    slab_insulation_m: float = number(0.0, 0, 1, "length")
    slab_thickness_m: float = number(0.10, 0, 1, "length")
    floor_finish_m: float = number(0.03, 0, 0.3, "length")
    floor_finish_sand_parts: float = number(3.0, 0, 12, "ratio")
    topsoil_m: float = number(0.15, 0, 2, "length")
    bulking_fraction: float = number(0.25, 0, 1, "fraction")
    concrete: str = choice("site", ("site", "ready"))
    sand_parts: float = number(2.0, 0, 12, "ratio")
    gravel_parts: float = number(4.0, 0, 16, "ratio")
    water_cement_ratio: float = number(0.55, 0.3, 1.5, "ratio")
    concrete_waste_fraction: float = number(0.05, 0, 1, "fraction")
    gravel_waste_fraction: float = number(0.10, 0, 1, "fraction")


@frozen
class Skin:
    """What covers one face: its kind first; a thickness that is not stated is the published one."""

    kind: str = choice("unstated", SKIN_KINDS)
    mesh: str = choice("by_kind", ("by_kind", "yes", "no"))
    scratch_thickness_m: float | None = number(None, 0, 0.1, "length", optional=True)
    scratch_sand_parts: float = number(4.0, 0, 12, "ratio")
    scratch_lime_parts: float = number(0.25, 0, 4, "ratio")
    brown_thickness_m: float | None = number(None, 0, 0.1, "length", optional=True)
    brown_sand_parts: float = number(4.0, 0, 12, "ratio")
    brown_lime_parts: float = number(0.25, 0, 4, "ratio")
    finish_thickness_m: float | None = number(None, 0, 0.1, "length", optional=True)
    finish_sand_parts: float = number(3.0, 0, 12, "ratio")
    finish_lime_parts: float = number(0.25, 0, 4, "ratio")
    waterproofing_coats: int = number(0, 0, 12, "count", whole=True)
    waterproofing_coverage_m2_l: float | None = number(None, 0.05, 100, "coverage", optional=True)
    paint_coats: int = number(0, 0, 12, "count", whole=True)
    paint_coverage_m2_l: float | None = number(None, 0.05, 100, "coverage", optional=True)


@frozen
class Skins:
    """Both skins, the mesh that is cut for them, and what is wasted."""

    outside: Skin = group(Skin)
    inside: Skin = group(Skin)
    reveals: str = choice("outside", ("outside", "inside", "no"))
    mix_by: str = choice("volume", ("volume", "mass"))
    water_cement_ratio: float = number(0.50, 0.3, 2, "ratio")
    roll_width_m: float = number(1.0, 0.1, 10, "length")
    roll_length_m: float = number(50.0, 1, 500, "length")
    lap_m: float = number(0.10, 0, 1, "length")
    foot_return_m: float = number(0.15, 0, 2, "length")
    lay: str = choice("gores", ("gores", "bands"))
    mesh_strength_n_mm: float | None = number(None, 0, 1000, "line_strength", optional=True)
    mesh_kept_fraction: float | None = number(None, 0, 1, "fraction", optional=True)
    coat_waste_fraction: float = number(0.10, 0, 1, "fraction")
    mesh_waste_fraction: float = number(0.05, 0, 1, "fraction")
    paint_waste_fraction: float = number(0.05, 0, 1, "fraction")


@frozen
class Aggregate:
    """What a cubic metre of loose sand, gravel and lime weighs where they are bought."""

    sand_bulk_kg_m3: float = number(1600.0, 1000, 2100, "density")
    gravel_bulk_kg_m3: float = number(1500.0, 1000, 2100, "density")
    lime_bulk_kg_m3: float = number(640.0, 300, 1300, "density")


@frozen
class Permit:
    """What the local building department said about floor area, once it was asked."""

    counts: str = choice("unasked", ("unasked", "inside", "footprint", "headroom"))
    limit_m2: float | None = number(None, 0, 100000, "area", optional=True)
    answer: str = text("", 300, lines=True)


@frozen
class Project:
    """All that is stated about one job; language, units and digits belong to the reader."""

    name: str = text("", 80)
    note: str = text("", 1000, lines=True)
    place: Place = group(Place)
    permit: Permit = group(Permit)
    market: Market = group(Market)
    parts: tuple[Part, ...] = many(Part, 100, (Part(openings=(_DOOR, _WINDOWS)),), least=1)
    mix: Mix = group(Mix)
    bucket: Bucket = group(Bucket)
    batch: Batch = group(Batch)
    foam: Foam = group(Foam)
    block: Block = group(Block)
    waste: Waste = group(Waste)
    base: Base = group(Base)
    skins: Skins = group(Skins)
    aggregate: Aggregate = group(Aggregate)
    wish: Wish = group(Wish)
    weather: Weather = group(Weather)
