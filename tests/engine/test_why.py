"""Every figure of every sheet answers "why?", and its listed inputs are the ones that really move it."""

import json
from typing import Any

import attrs
import pytest
from foamwright.estimate import estimate
from foamwright.project.model import (
    BASE_KINDS,
    FACES,
    HOODS,
    MIX_QUANTITIES,
    PLAN_FORMS,
    PRICE_ITEMS,
    PROFILES,
    SKIN_KINDS,
    Addition,
    Base,
    Fill,
    Mark,
    Mix,
    Opening,
    Part,
    Price,
    Project,
    Skin,
    Skins,
    Wall,
    Weather,
)
from foamwright.project.read import read_project
from foamwright.project.write import as_data
from foamwright.reader import Reader, speaker
from foamwright.sheets.desk import Desk, pattern
from foamwright.sheets.figures import FIGURES, VIA
from foamwright.sheets.view import view
from foamwright.sheets.sources import BASES, SOURCES
from foamwright.sheets.why import why

_PRICES = (
    Price(item="cement", unit="bag", price=11.0),
    Price(item="cement", unit="kg", price=0.3),
    Price(item="agent", unit="L", price=9.0),
    Price(item="water", unit="m3", price=2.0),
    Price(item="other", unit="piece", price=4.0, label="Tarpaulin", quantity=3.0),
)


#: Shapes that between them use every field of a part.
_PARTS = (
    Part(profile="parabola", stem_height_m=0.0, rise_m=3.0, crown_thickness_m=0.12, openings=(Opening(form="arched", hood="around"),)),
    Part(profile="segment", rise_m=1.6, crown_opening_m=1.0),
    Part(profile="pointed", rise_m=4.0, crown_thickness_m=0.15),
    Part(
        shape="vault", profile="catenary", rise_m=2.5, end_thickness_m=1.0,
        openings=(
            Opening(form="pointed", width_m=0.7, height_m=1.9, face="end_a", hood="around", hood_thickness_m=0.03),
            Opening(
                form="round", diameter_m=0.85, sill_m=0.7, azimuth_deg=16.0, count=2, spacing_deg=60.0, hood="head", hood_thickness_m=0.03,
            ),
            Opening(height_m=1.0, width_m=0.6, face="side_b", along_m=2.0, count=2, hood="head"),
        ),
    ),
    Part(shape="vault", stem_height_m=0.0, ends="open", openings=(Opening(face="side_a", height_m=0.9, width_m=0.5),)),
    Part(shape="vault", profile="ellipse", rise_m=2.5, stem_height_m=0.3, ends="one", end_thickness_m=0.3),
)  # fmt: skip


#: A thick pour of which everything is typed.
_PIT = Part(id="pit", shape="fill", fill=Fill(kind="void", volume_m3=3.0, void_depth_m=1.5, placed_c=25.0))

_SWITCHES: dict[str, tuple[str, ...]] = {
    "market.cement_type": ("unstated", "cem_i", "cem_iii_b", "astm_ii"),
    "parts[].openings[].hood": HOODS,
    "base.kind": BASE_KINDS,
    "base.steel_sized": ("unsized", "placeholder", "typed"),
    "base.damp_course": ("yes", "no"),
    "base.floor": ("slab", "no"),
    "base.concrete": ("site", "ready"),
    "skins.outside.kind": SKIN_KINDS,
    "skins.inside.kind": SKIN_KINDS,
    "skins.outside.mesh": ("by_kind", "yes", "no"),
    "skins.inside.mesh": ("by_kind", "yes", "no"),
    "skins.reveals": ("outside", "inside", "no"),
    "skins.mix_by": ("volume", "mass"),
    "skins.lay": ("gores", "bands"),
    "parts[].wall.steel_sized": ("unsized", "placeholder", "typed"),
    "parts[].fill.kind": ("falls", "layer", "void"),
}


#: Fields of base and skins, and fields that have nothing to do with them.
_FINISH = ("base.", "skins.", "aggregate.")
_SITE = ("batch.", "bucket.", "block.", "waste.", "foam.", "permit.", "place.", "wish.")


def _bases() -> list[Project]:
    """Projects that between them use every field that a figure can depend on."""
    plain = attrs.evolve(Project(), market=attrs.evolve(Project().market, prices=_PRICES))
    solved = estimate(plain).estimate
    assert solved is not None
    values: dict[str, Any] = {name: float(getattr(solved.mix, name)) for name in (
        "cement_kg", "water_l", "foam_density_kg_m3", "yield_l", "wet_density_kg_m3", "oven_dry_density_kg_m3",
        "water_cement_ratio", "total_water_cement_ratio")}  # fmt: skip
    givens = (
        ("cement_kg", "water_l", "foam_density_kg_m3", "wet_density_kg_m3"),
        ("cement_kg", "water_cement_ratio", "foam_density_kg_m3", "oven_dry_density_kg_m3"),
        ("cement_kg", "total_water_cement_ratio", "foam_density_kg_m3", "yield_l"),
        ("cement_kg", "total_water_cement_ratio", "foam_density_kg_m3", "wet_density_kg_m3"),
        ("cement_kg", "total_water_cement_ratio", "foam_density_kg_m3", "oven_dry_density_kg_m3"),
        ("cement_kg", "water_l", "yield_l", "wet_density_kg_m3"),
        ("cement_kg", "water_l", "oven_dry_density_kg_m3", "total_water_cement_ratio"),
        ("yield_l", "water_cement_ratio", "foam_density_kg_m3", "wet_density_kg_m3"),
        ("yield_l", "total_water_cement_ratio", "foam_density_kg_m3", "oven_dry_density_kg_m3"),
        ("yield_l", "water_l", "foam_density_kg_m3", "wet_density_kg_m3"),
        ("water_l", "water_cement_ratio", "foam_density_kg_m3", "oven_dry_density_kg_m3"),
        ("water_l", "total_water_cement_ratio", "foam_density_kg_m3", "yield_l"),
        ("water_l", "total_water_cement_ratio", "wet_density_kg_m3", "yield_l"),
    )
    out = [plain]
    for given in givens:
        # What is not given is a little off, as it is where it was typed once and left: it must not count.
        stale = {name: value if name in given else value * 1.04 for name, value in values.items()}
        skins = Skins(outside=Skin(kind="lath"))
        out.append(attrs.evolve(plain, mix=Mix(given=given, **stale), skins=skins))
    for changes in (
        {"drum_form": "tapered"},
        {"drum_form": "calibrated", "drum_marks": (Mark(10, 0.05), Mark(60, 0.3), Mark(170, 0.7))},
        {"emptying": "buckets"},
        {"bags_each": 0.5},
        {"drum_l": 168.0},
        {"drum_l": 90.0},
    ):
        out.append(attrs.evolve(plain, batch=attrs.evolve(plain.batch, **changes)))
    # A drum that a bag only just fits, under a recipe whose yield follows from its densities.
    tight = {"given": givens[0]} | values
    out.append(attrs.evolve(plain, mix=Mix(**tight), batch=attrs.evolve(plain.batch, drum_l=168.0)))
    many = attrs.evolve(plain.waste, calibration_batches=30.0)
    out.append(attrs.evolve(plain, waste=many, batch=attrs.evolve(plain.batch, drum_l=168.0)))
    out.append(attrs.evolve(plain, mix=Mix(**(tight | {"yield_l": 200.0})), batch=attrs.evolve(plain.batch, drum_l=168.0)))
    rectangular = Part(openings=(Opening(form="rectangular", azimuth_deg=180.0),))
    out += [attrs.evolve(plain, parts=(part,)) for part in (rectangular, *_PARTS)]
    out.append(attrs.evolve(plain, parts=(*plain.parts, _PIT)))
    return [*out, *_finished(plain), *_laid(plain), *_walled(plain, givens, values), *_joined(plain)]


#: Something by the cement and something by the foamed concrete made.
_ADDED = (
    Addition(kg_per_kg=0.04, moisture_fraction=0.06, absorption_fraction=0.01),
    Addition("fly_ash", "yield", kg_per_m3=8.0, moisture_fraction=0.02, absorption_fraction=0.005, grain_kg_m3=2200.0),
)
#: Weather of which all is known, dry and windy enough to evaporate.
_SKY = Weather(
    air_c=28.0, night_c=12.0, water_c=18.0, cement_c=31.0, mix_wanted_c=20.0, humidity_fraction=0.3, wind_m_s=6.0, hardness=150.0
)


def _walled(plain: Project, givens: tuple[tuple[str, ...], ...], values: dict[str, Any]) -> list[Project]:
    """Projects of walls, fills and blocks to order that between them use every field of theirs.

    Their names say which fields are changed in them: those of parts and base, or those of the mix.
    """
    units = {"sand": "m3", "gravel": "m3", "bar": "piece", "ready_concrete": "m3", "cement": "bag", "mesh_roll": "piece"}
    prices = tuple(Price(item=item, unit=unit, price=3.0) for item, unit in units.items())
    priced = attrs.evolve(plain, name="parts", market=attrs.evolve(plain.market, prices=prices, cement_bag_kg=1.0))
    lath = Skin(kind="lath", paint_coats=1, paint_coverage_m2_l=8.0)
    skins = Skins(outside=lath, inside=lath, roll_length_m=1.1, roll_width_m=0.25)
    infill = Wall(
        build="infill", gable_rise_m=1.0, gable_sides=(1, 3), ring_beams=2, steel_sized="typed", steel_sized_by="N. N.",
        bar_diameter_m=0.010, post_bars=13, beam_bars=17, gust_m_s=25.0, brace_kn=0.8, post_spacing_m=0.4, post_width_m=0.1,
    )  # fmt: skip
    holes = (
        Opening(form="arched", width_m=0.6, height_m=1.5, side=1, along_m=1.4, hood="head"),
        Opening(form="round", diameter_m=0.4, sill_m=0.8, side=2, count=2, azimuth_deg=120.0, spacing_deg=70.0, hood="around"),
    )
    room, plan = Part(shape="wall", inside_span_m=3.0, length_m=4.0), ((0.0, 0.0), (3.0, 0.0), (4.0, 2.5), (0.0, 3.0))
    parts = (
        attrs.evolve(room, wall=infill, openings=holes),
        attrs.evolve(room, plan_form="polygon", plan=plan, wall=attrs.evolve(infill, build="blocks"), openings=holes),
        attrs.evolve(room, plan_form="circle", inside_diameter_m=3.0, wall=infill, openings=holes),
        attrs.evolve(room, plan_form="run", plan=plan, wall=infill, openings=holes[1:]),
        Part(shape="fill", fill=Fill(depth_m=0.5, slope_fraction=0.1, fall_deg=30.0)),
        Part(shape="fill", plan_form="polygon", plan=plan, fill=Fill(kind="layer")),
        Part(shape="fill", plan_form="polygon", plan=plan, fill=Fill(depth_m=0.2, slope_fraction=0.1)),
        Part(shape="fill", plan_form="circle", fill=Fill(depth_m=0.3, slope_fraction=0.1)),
    )  # fmt: skip
    base = Base(
        kind="footing", bar_length_m=2.0, slab_insulation_m=0.05, steel_sized="typed", steel_sized_by="N. N.",
        bar_diameter_m=0.010, bars=17,
    )  # fmt: skip
    bases = (base, base, Base(), attrs.evolve(base, concrete="ready"), base, Base(), base, base)
    found = [attrs.evolve(priced, parts=(part,), base=under, skins=skins) for part, under in zip(parts, bases, strict=True)]
    found.append(attrs.evolve(priced, parts=(parts[0],)))
    bare = tuple(attrs.evolve(hole, hood="none") for hole in holes)
    found.append(attrs.evolve(priced, parts=(attrs.evolve(parts[1], openings=bare),), skins=attrs.evolve(skins, lay="bands", roll_width_m=1.0)))
    all_kinds = (
        parts[0], Part(id="b", shape="fill"), Part(id="c", shape="fill", fill=Fill(kind="void", volume_m3=3.0)),
        Part(id="d", shape="blocks"), Part(id="e", at_m=(20.0, 0.0), openings=()),
        attrs.evolve(parts[1], id="f", at_m=(-20.0, 0.0)),
    )  # fmt: skip
    found.append(attrs.evolve(priced, parts=all_kinds, block=attrs.evolve(plain.block, moulds=2), skins=Skins(outside=lath)))
    for given in (plain.mix.given, *givens):
        stale = {name: value if name in given else value * 1.04 for name, value in values.items()}
        wall = attrs.evolve(room, wall=Wall(gust_m_s=25.0, brace_kn=0.8))
        vault = Part(id="v", shape="vault", stem_height_m=0.0, at_m=(30.0, 0.0))
        found.append(
            attrs.evolve(priced, name="mix", parts=(wall, vault, _PIT), base=Base(kind="footing"), mix=Mix(given=given, **stale), weather=_SKY)
        )
        # The same mixes with what else may go in: all of it priced alike, in a drum that shows every mark and only just
        # holds a batch of a whole bag, and under skins.
        more = tuple(Price(item=item, unit="kg", price=3.0) for item in ("lime", "fly_ash", "fibres", "accelerator"))
        market = attrs.evolve(priced.market, prices=(*prices, *more, *(Price(unit="piece", price=3.0, quantity=1.0),) * 12))
        added = attrs.evolve(found[-1], mix=attrs.evolve(found[-1].mix, additions=_ADDED), market=market)
        whole = attrs.evolve(added, market=attrs.evolve(market, cement_bag_kg=plain.market.cement_bag_kg), batch=attrs.evolve(plain.batch, drum_l=5000.0))
        made = estimate(whole).estimate
        assert made is not None
        batch = attrs.evolve(
            plain.batch, drum_form="calibrated", drum_marks=(Mark(1, 0.05), Mark(60, 0.3), Mark(400, 1.2)),
            drum_l=made.batches.batch.yield_l * 1.0001 / 0.95,
        )  # fmt: skip
        found += [added, attrs.evolve(whole, batch=batch), attrs.evolve(added, parts=plain.parts, skins=skins)]
    return found


def _joined(plain: Project) -> list[Project]:
    """Projects of parts that passages join, so that place, bearing and what openings lead to are among the inputs."""
    units = {"sand": "m3", "gravel": "m3", "bar": "piece", "ready_concrete": "m3", "cement": "bag", "mesh_roll": "piece"}
    prices = tuple(Price(item=item, unit=unit, price=3.0) for item, unit in units.items())
    lath = Skin(kind="lath", paint_coats=1, paint_coverage_m2_l=8.0)
    whole = attrs.evolve(
        plain, name="joined", market=attrs.evolve(plain.market, prices=prices, cement_bag_kg=1.0),
        base=Base(kind="footing", slab_insulation_m=0.05),
        skins=Skins(outside=lath, inside=lath, roll_length_m=1.1, roll_width_m=0.25),
        block=attrs.evolve(plain.block, moulds=1, joint_m=0.008),
    )  # fmt: skip
    door = Opening(form="arched", width_m=0.8, height_m=1.8, to="b")
    slit = Opening(form="round", diameter_m=0.7, sill_m=0.4, azimuth_deg=-60.0, count=2, spacing_deg=60.0, to="b")
    flat = Opening(width_m=0.8, height_m=1.5, side=2, along_m=1.6, to="main")
    pairs = (
        (Part(inside_diameter_m=4.0, openings=(door,)), Part(id="b", inside_diameter_m=4.0, at_m=(2.5, 0.2))),
        (Part(inside_diameter_m=4.0, profile="parabola", rise_m=2.3, crown_thickness_m=0.15, openings=(slit,)), Part(id="b", shape="vault", length_m=3.0, inside_span_m=3.0, bearing_deg=20.0, at_m=(3.8, 0.1))),
        (
            Part(shape="vault", length_m=3.0, bearing_deg=8.0, end_thickness_m=0.25, openings=(attrs.evolve(door, face="end_b", along_m=1.4),)),
            Part(id="b", shape="vault", length_m=3.0, bearing_deg=90.0, at_m=(2.6, 0.1)),
        ),
        (Part(inside_diameter_m=4.0, at_m=(4.1, 0.1)), Part(id="b", shape="wall", inside_span_m=3.0, length_m=4.0, openings=(flat,))),
    )  # fmt: skip
    bare = attrs.evolve(whole, parts=pairs[2], base=Base(), skins=Skins())
    return [*(attrs.evolve(whole, parts=pair) for pair in pairs), bare]


def _laid(plain: Project) -> list[Project]:
    """Projects whose blocks have joints, with prices for what fills them, and one mould, so that days show every block."""
    priced = tuple(Price(item=f"joint_{name}", unit=unit, price=0.4) for name, unit in (("mortar", "L"), ("adhesive", "m3")))
    base = attrs.evolve(
        plain, block=attrs.evolve(plain.block, joint_m=0.008, moulds=1),
        market=attrs.evolve(plain.market, prices=(*_PRICES, *priced)),
    )  # fmt: skip
    # A window that reaches into the gable, so that blocks of its rows are left out.
    gabled = Part(shape="wall", wall=Wall(gable_rise_m=1.5), openings=(Opening(side=2, sill_m=1.0),))
    bays = Part(
        shape="wall", plan_form="polygon", plan=((0.0, 0.0), (3.0, 0.0), (4.0, 2.5), (0.0, 3.0)),
        wall=Wall(build="infill", gable_rise_m=1.0, gable_sides=(1, 3), post_spacing_m=0.8), openings=(Opening(width_m=0.4, along_m=1.1),),
    )  # fmt: skip
    return [base, *(attrs.evolve(base, parts=(part,)) for part in (_PARTS[0], _PARTS[1], _PARTS[3], _PARTS[5], gabled, bays))]


def _finished(plain: Project) -> list[Project]:
    """Projects with base and skins that between them use every field of both.

    Bags of a kilogram and rolls of little more than a metre show what a figure that is rounded up hides.
    """
    units = {"cement": "bag", "gravel": "t", "lime": "kg", "mesh_roll": "piece", "bar": "piece", "damp_course": "m",
             "waterproofing": "L", "paint": "L"}  # fmt: skip
    prices = tuple(
        Price(item=item, unit=units.get(item, "m3"), price=3.0) for item in PRICE_ITEMS if item not in ("agent", "other")
    )
    priced = attrs.evolve(plain, market=attrs.evolve(plain.market, prices=prices, cement_bag_kg=1.0))
    ring = Base(
        kind="ring_beam", steel_sized="typed", steel_sized_by="N. N.", bar_diameter_m=0.012, bars=59, bar_length_m=1.0, lap_diameters=80.0,
        slab_insulation_m=0.05,
    )  # fmt: skip
    bare = attrs.evolve(ring, concrete="ready", trench_gravel_m=0.0, slab_gravel_m=0.0, floor_finish_m=0.0)
    lath = Skin(kind="lath", waterproofing_coats=2, waterproofing_coverage_m2_l=4.0, paint_coats=2, paint_coverage_m2_l=8.0)
    typed = Skin(
        kind="thin_mesh", scratch_thickness_m=0.006, brown_thickness_m=0.004, finish_thickness_m=0.002,
        waterproofing_coats=1, waterproofing_coverage_m2_l=3.0, paint_coats=1, paint_coverage_m2_l=6.0,
    )  # fmt: skip
    nothing, solid = Skin(kind="none"), attrs.evolve(lath, kind="solid_base")
    only_mesh = Skin(kind="thin_mesh", scratch_thickness_m=0.0)
    taper, holed, vault, last = _PARTS[0], _PARTS[1], _PARTS[3], _PARTS[5]
    small = Part(shape="vault", inside_span_m=0.8, length_m=0.9, stem_height_m=0.1, openings=())
    short: dict[str, Any] = {"roll_length_m": 1.1}
    thick = Part(
        inside_diameter_m=2.0, stem_height_m=1.2, thickness_m=0.40,
        openings=(
            Opening(form="arched", width_m=0.6, height_m=1.5),
            Opening(
                form="round", diameter_m=0.4, sill_m=1.4, azimuth_deg=60.0, count=3, spacing_deg=60.0, hood="around", hood_thickness_m=0.05,
            ),
        ),
    )  # fmt: skip

    def with_(part: Part | None, base: Base, **skins: Any) -> Project:
        parts = priced.parts if part is None else (part,)
        return attrs.evolve(priced, parts=parts, base=base, skins=Skins(**skins))

    return [
        with_(None, ring, outside=lath, inside=attrs.evolve(typed, mesh="yes"), **short),
        with_(None, ring, outside=attrs.evolve(typed, mesh="no"), inside=lath, lay="bands", reveals="inside", **short),
        with_(attrs.evolve(taper, thickness_m=0.9), ring, outside=lath, inside=typed, roll_width_m=0.25, **short),
        with_(thick, ring, outside=lath, inside=nothing, roll_width_m=0.25),
        with_(taper, ring, outside=lath, inside=nothing, roll_width_m=0.53, lay="bands"),
        with_(holed, ring, outside=lath, inside=typed, **short),
        with_(vault, ring, outside=lath, inside=nothing, **short),
        with_(vault, bare, outside=solid, inside=only_mesh, reveals="inside", mix_by="mass", lay="bands", **short),
        with_(attrs.evolve(last, crown_thickness_m=0.15), ring, outside=typed, inside=lath, lay="bands", **short),
        with_(small, ring, outside=nothing, inside=only_mesh, lay="bands"),
        with_(None, Base(), outside=typed),
        with_(None, Base(), inside=typed),
        with_(None, ring),
        with_(None, attrs.evolve(bare, floor="no"), outside=nothing, inside=nothing),
        with_(None, attrs.evolve(bare, steel_sized="unsized"), outside=nothing, inside=nothing),
        with_(None, Base(kind="none"), outside=attrs.evolve(lath, kind="none"), inside=attrs.evolve(typed, kind="none")),
        with_(None, Base(kind="none"), outside=only_mesh, inside=nothing, **short),
    ]  # fmt: skip


def _leaves(data: Any, path: str = "") -> list[str]:
    if isinstance(data, dict):
        return [leaf for key, value in data.items() for leaf in _leaves(value, f"{path}.{key}" if path else key)]
    if isinstance(data, list) and data and isinstance(data[0], dict):
        return [leaf for i, value in enumerate(data) for leaf in _leaves(value, f"{path}[{i}]")]
    return [path]


def _put(data: dict[str, Any], path: str, value: Any) -> dict[str, Any]:
    copy = json.loads(json.dumps(data))
    at, steps = copy, path.replace("[", ".[").split(".")
    for step in steps[:-1]:
        at = at[int(step[1:-1])] if step.startswith("[") else at[step]
    at[steps[-1]] = value
    return copy


def _get(data: Any, path: str) -> Any:
    for step in path.replace("[", ".[").split("."):
        data = data[int(step[1:-1])] if step.startswith("[") else data[step]
    return data


def _others(path: str, value: Any) -> list[Any]:
    """Other values that a field could have; those that are not allowed are skipped by reading."""
    choices = {
        "form": ["rectangular", "arched", "pointed", "round"],
        "shape": ["dome", "vault", "wall", "fill", "blocks"],
        "plan_form": list(PLAN_FORMS),
        "build": ["blocks", "infill"],
        "profile": list(PROFILES),
        "ends": ["both", "one", "open"],
        "face": list(FACES),
        "item": list(PRICE_ITEMS[:6]),
        "unit": ["bag", "kg", "t", "L", "m3", "piece"],
        "drum_form": ["straight", "tapered", "calibrated"],
        "emptying": ["in_place", "tip", "bottom_outlet", "buckets"],
        "joint_material": ["mortar", "adhesive"],
        "kind": ["sand", "fly_ash", "lime", "fibres"],
        "per": ["cement", "yield"],
    }
    name = path.rsplit(".", 1)[-1]
    if name == "at_m":
        return [[value[0] + 0.04, value[1]], [value[0], value[1] - 0.03]]
    if name == "to":
        return [] if value is None else [None]
    if name == "plan":
        return [[[x * 1.1, y] for x, y in value], [[x, y * 0.9] for x, y in value], value[:-1]]
    if name == "gable_sides":
        return [[1], [2, 3], []]
    if path == "mix.given":
        recipe = ["cement_kg", "water_l", "foam_density_kg_m3"]
        return [[*recipe, "wet_density_kg_m3"], [*recipe, "yield_l"]]
    found = _SWITCHES.get(pattern(path))
    if found:
        return [other for other in found if other != value]
    if name in choices:
        return [other for other in choices[name] if other != value]
    if path == "batch.bags_each":
        return [None, 0.25, 0.5, 1.0]
    if path == "waste.cutting_fraction":
        return [other for other in (None, 0.0, 0.3) if other != value]
    if isinstance(value, bool) or value is None or isinstance(value, str | list):
        return []
    if name in ("count", "side", "ring_beams", "post_bars", "beam_bars"):
        return [value + 1]
    if pattern(path).endswith("_coats"):
        return [0, value + 1]
    if name == "bars":
        return [value + 1]
    return [value * by for by in (1.01, 0.97, 1.25, 0.75, 0.6, 1.9, 3)] if value else [0.1, 1.0]


def _values(project: Project) -> dict[str, list[float | None]] | None:
    outcome = estimate(project)
    if outcome.estimate is None or outcome.left_out:
        return None  # A part that cannot be built moves everything, whatever field is at fault.
    desk = Desk(project, outcome, speaker(Reader()))
    out: dict[str, list[float | None]] = {}
    for name, figure in FIGURES.items():
        found: list[float | None] = []
        try:
            figure.get(desk, 999)
        except IndexError:
            # One figure for each row of a table: the first rows say enough.
            for index in range(16):
                try:
                    found.append(figure.get(desk, index))
                except IndexError:
                    break
        else:
            found.append(figure.get(desk, 0))
        # A price belongs to what is bought: it stays what it is where a line before it comes or goes.
        out[name] = sorted({price for price in found if price is not None}) if name == "money.price" else found
    return out


def _moved(before: list[float | None], after: list[float | None]) -> bool:
    """Whether a figure changed by more than the rounding of its last bits."""
    if len(before) != len(after):
        return True
    return any(
        (a is None) != (b is None) or (a is not None and b is not None and abs(a - b) > 1e-11 * max(abs(a), abs(b)))
        for a, b in zip(before, after, strict=True)
    )


#: Figures of joints between parts.
_OF_JOINTS = ("joint.", "shape.joints", "shape.necks")


@pytest.fixture(scope="module")
def moved() -> dict[str, set[str]]:
    """For each figure, the patterns of the fields whose change moved it in at least one base project."""
    seen: dict[str, set[str]] = {name: set() for name in FIGURES}
    bases = _bases()
    for base in bases:
        finished = base.market.cement_bag_kg == 1.0
        before = _values(base)
        assert before is not None
        data = as_data(base, full=True)
        for path in _leaves(data):
            if path.startswith(_FINISH) and not finished and base is not bases[0]:
                continue  # What is not stated moves nothing; the first project shows it.
            if path.startswith(_SITE) and finished and not (base.name == "parts" and path.startswith("waste.")):
                continue
            portioned = ("batch.", "market.cement_bag") if base.mix.additions else ()
            if base.name == "mix" and not path.startswith(("mix.", "weather.", *portioned)):
                continue
            # What else gives a part its form is varied in parts that stand alone; here it shows what joints follow from.
            whole = base.name != "joined" or any(field in path for field in (".at_m", ".bearing_deg", ".openings[", ".ends"))
            if base.name == "joined" and not path.startswith("parts"):
                continue
            if base.name == "parts" and not path.startswith(("parts", "base.", "waste.")):
                continue
            for other in _others(path, _get(data, path)):
                reading = read_project(_put(data, path, other))
                after = None if reading.project is None else _values(reading.project)
                if after is None:
                    continue
                for name in FIGURES:
                    if (whole or name.startswith(_OF_JOINTS)) and _moved(before[name], after[name]):
                        seen[name].add(pattern(path))
    return seen


@pytest.mark.parametrize("name", FIGURES)
def test_inputs_are_those_that_move_the_figure(name: str, moved: dict[str, set[str]]) -> None:
    listed = set(FIGURES[name].inputs)
    assert listed - moved[name] == set(), "listed, but their change leaves the figure unchanged"
    assert moved[name] - listed == set(), "not listed, but they change the figure"


def _shown_figures(project: Project) -> set[str]:
    found: set[str] = set()

    def walk(node: Any) -> None:
        if isinstance(node, dict):
            if "figure" in node:
                found.add(node["figure"])
            for value in node.values():
                walk(value)
        elif isinstance(node, list):
            for value in node:
                walk(value)

    made = view(project, speaker(Reader()))
    walk(made["sheets"])
    walk(made["strip"])
    return found


@pytest.mark.parametrize("index", range(len(_bases())))
def test_every_shown_figure_answers_why(index: int) -> None:
    project = _bases()[index]
    desk = Desk(project, estimate(project), speaker(Reader()))
    for name in sorted(_shown_figures(project)):
        answer = why(desk, name)
        assert answer["title"] and answer["rule"] and answer["source"] and answer["basis"], name
        assert answer["inputs"], f"{name} lists no input"
        assert answer["value"] == desk.text(name) != "", name


def test_every_number_in_a_table_or_figure_answers_why() -> None:
    """A cell that is a number without a figure id would be a figure that nobody can ask about."""
    bare = []
    for module in view(_bases()[0], speaker(Reader()))["sheets"]:
        for block in module["blocks"]:
            if block["kind"] == "figures":
                bare += [item for item in block["items"] if not item.get("figure")]
            if block["kind"] == "table" and block["head"]:
                for row in block["rows"] + block.get("foot", []):
                    bare += [c for c in row if c.get("number") and not c.get("figure") and c["text"]]
    typed = [c for c in bare if c["text"] not in {_money(p) for p in _PRICES}]
    assert typed == []


def _money(price: Price) -> str:
    assert price.price is not None
    return speaker(Reader()).money(price.price, "USD")


def test_sources_are_of_a_known_kind() -> None:
    used = {figure.source for figure in FIGURES.values()}
    for project in _bases():
        used |= {note.source for note in estimate(project).notes if note.source}
    assert used <= set(SOURCES)
    assert {source.kind for source in SOURCES.values()} == set(BASES)
    for name, source in SOURCES.items():
        assert bool(source.document) == (source.kind in ("published", "memory")), name


def test_figures_go_by_way_of_figures_that_depend_on_less() -> None:
    """What stands between a figure and its fields follows from some of the same fields and from no others."""
    for name, between in VIA.items():
        for near in between:
            assert set(FIGURES[near].inputs) <= set(FIGURES[name].inputs), (name, near)


def test_mix_quantities_are_all_inputs_of_the_mix() -> None:
    assert {f"mix.{name}" for name in MIX_QUANTITIES} <= set(FIGURES["mix.yield_l"].inputs)
