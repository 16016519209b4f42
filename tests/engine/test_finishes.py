"""Base and skins: held against closed forms, meshes of triangles, and what a roll really covers."""

import math
from itertools import pairwise
from typing import Any

import pytest
from attrs import evolve
from foamwright.estimate import Estimate, Outcome, as_json, estimate
from foamwright.finishes.base import base_part, foundation, steel
from foamwright.finishes.finish import Finishes, finish, stated
from foamwright.finishes.ground import Plan, plan
from foamwright.finishes.mesh import Spread, bands, gores, lay, rolls, rows, spreads
from foamwright.finishes.packing import pack, split
from foamwright.finishes.reveals import reveals
from foamwright.finishes.skins import OTHERS, PUBLISHED, coats
from foamwright.material import solve
from foamwright.material.mortar import DRY_FACTORS, blend, by_dry_factor
from foamwright.project import Project
from foamwright.project.model import (
    PROFILES,
    Aggregate,
    Base,
    Market,
    Opening,
    Part,
    Price,
    Skin,
    Skins,
    Wall,
)
from foamwright.reader import Reader, speaker
from foamwright.sheets import text
from foamwright.sheets.desk import Desk
from foamwright.sheets.finishes import to_buy
from foamwright.sheets.landowner import message
from foamwright.shape import measure, measure_part
from hypothesis import given
from hypothesis import strategies as st
from properties import cases

RING = Base(kind="ring_beam", steel_sized="placeholder", bar_diameter_m=0.012, bars=4)
BOTH = Skins(outside=Skin(kind="lath"), inside=Skin(kind="thin_mesh"))


def _outcome(**changes: Any) -> Outcome:
    return estimate(evolve(Project(), **changes))


def _made(**changes: Any) -> Estimate:
    made = _outcome(**changes).estimate
    assert made is not None
    return made


def _codes(**changes: Any) -> set[str]:
    return {note.code for note in _outcome(**changes).notes}


# --- what is stated, and what is not ----------------------------------------------------------


def test_nothing_stated_changes_nothing() -> None:
    """The default project has its allowance and no finishes at all."""
    made = as_json(estimate(Project()))["estimate"]
    assert "finishes" not in made
    assert made["money"]["cement_bags"] == made["batches"]["cement_bags"]
    assert made["money"]["allowance"]["bags_high"] == made["batches"]["cement_bags"], "as much again at most"
    assert stated(Project()) == (False, False)


def test_the_allowance_goes_only_when_both_are_stated() -> None:
    """One of the two: the note names the other, and what is worked out is taken off the allowance."""
    assert "foamed_concrete_only" in _codes()
    partly = _made(base=RING)
    assert partly.money.allowance is not None and partly.finishes is not None
    rough = 0.7 * partly.batches.cement_kg - partly.finishes.cement_kg
    assert partly.money.allowance.cement_low_kg == pytest.approx(rough)
    assert _codes(base=RING) & {"foamed_concrete_only", "base_unstated", "skins_unstated"} == {"skins_unstated"}
    half = Skins(outside=Skin(kind="lath"))
    assert _codes(base=RING, skins=half) & {"skins_unstated", "base_unstated"} == {"skins_unstated"}
    assert _codes(skins=BOTH) & {"skins_unstated", "base_unstated"} == {"base_unstated"}
    whole = _made(base=RING, skins=BOTH)
    assert whole.money.allowance is None
    assert not _codes(base=RING, skins=BOTH) & {"foamed_concrete_only", "base_unstated", "skins_unstated"}


def test_the_contract_of_the_room() -> None:
    """The names that were promised stand in the JSON, and the foamed concrete's bags stay its own."""
    made = as_json(_outcome(base=RING, skins=BOTH))["estimate"]
    assert {"mesh_m2", "mesh_rolls", "coats", "base", "cement_kg", "cement_bags"} <= set(made["finishes"])
    assert made["batches"]["cement_bags"] == as_json(_outcome())["estimate"]["batches"]["cement_bags"]
    together = made["batches"]["cement_kg"] + made["finishes"]["cement_kg"]
    assert made["money"]["cement_kg"] == pytest.approx(together)
    bag = Project().market.cement_bag_kg
    assert made["money"]["cement_bags"] == math.ceil(together / bag)


def test_what_is_switched_off_takes_nothing() -> None:
    """A base that is there and bare faces are stated, and take nothing."""
    made = _made(base=Base(kind="none"), skins=Skins(Skin(kind="none"), Skin(kind="none")))
    assert made.finishes is not None and made.finishes.cement_kg == 0 and made.finishes.needs == ()
    assert made.money.allowance is None and made.money.cement_bags == _made().money.cement_bags
    off = evolve(BOTH.outside, scratch_thickness_m=0.0, brown_thickness_m=0.0, finish_thickness_m=0.0, mesh="no")
    only = _made(skins=Skins(outside=off, inside=Skin(kind="none"))).finishes
    assert only is not None and only.coats == () and only.mesh_rolls is None


# --- the base ---------------------------------------------------------------------------------


def test_the_ground_of_a_dome_and_of_a_vault() -> None:
    """Centre line and strips against discs and rectangles drawn out."""
    dome = Part(thickness_m=0.3)
    shape = measure_part(dome)[0]
    assert shape is not None
    ring = plan(dome, shape)
    assert ring.length_m == pytest.approx(2 * math.pi * 3.15, rel=1e-12)
    assert ring.strip(0.5) == pytest.approx(math.pi * (3.4**2 - 2.9**2), rel=1e-12)
    assert ring.outline(0.5) == pytest.approx(math.pi * 3.4**2, rel=1e-12)
    vault = Part(shape="vault", thickness_m=0.2, stem_height_m=0.5, openings=())
    shape = measure_part(vault)[0]
    assert shape is not None
    box = plan(vault, shape)
    assert box.length_m == pytest.approx(2 * (4.2 + 6.2), rel=1e-12)
    assert box.strip(0.5) == pytest.approx(4.7 * 6.7 - 3.7 * 5.7, rel=1e-12)
    assert box.outline(0.5) == pytest.approx(4.7 * 6.7, rel=1e-12)
    for ends, runs in (("open", (6.0, 6.0)), ("one", (6.1 + 4.2 + 6.1,))):
        part = evolve(vault, ends=ends)
        shape = measure_part(part)[0]
        assert shape is not None
        assert plan(part, shape).runs_m == pytest.approx(runs)


@given(st.floats(0.5, 30), st.floats(0.03, 1.5), st.floats(0.05, 3), st.floats(0.05, 3))
@cases
def test_a_ring_is_never_more_than_the_disc(diameter: float, thickness: float, width: float, height: float) -> None:
    """A beam wider than its ring fills the disc and no more; a narrower one is Pappus's."""
    radius = (diameter + thickness) / 2
    ring = Plan((2 * math.pi * radius,), True, math.pi * radius**2, math.pi, 1.0, 2.0, thickness)
    made = base_part("a", ring, Base(beam_width_m=width, beam_height_m=height)).beam_m3
    assert made <= math.pi * (radius + width / 2) ** 2 * height * (1 + 1e-12)
    if width / 2 <= radius:
        assert made == pytest.approx(2 * math.pi * radius * width * height, rel=1e-9)


def test_the_base_is_warned_about() -> None:
    """Frost unasked, a trench that ends in the frost, a beam narrower than its wall or its trench."""
    assert "frost_depth_unasked" in _codes(base=RING)
    asked = evolve(RING, frost_depth_m=0.8)
    assert "trench_above_frost" in _codes(base=asked) and "frost_depth_unasked" not in _codes(base=asked)
    assert "trench_above_frost" not in _codes(base=evolve(asked, trench_depth_m=0.8))
    assert "beam_narrow" in _codes(base=evolve(RING, beam_width_m=0.15))
    assert "trench_narrow" in _codes(base=evolve(RING, trench_width_m=0.2))
    assert not _codes(base=RING) & {"beam_narrow", "trench_narrow"}


def test_a_bar_is_never_sized_here() -> None:
    """No bar without a size that was typed; a placeholder and a nameless size are cautioned."""
    bare = Base(kind="ring_beam")
    made = _made(base=bare).finishes
    assert made is not None and made.base is not None and made.base.steel is None
    severities = {n.code: n.severity for n in _outcome(base=bare).notes}
    assert severities["steel_unsized"] == "caution"
    assert {n.code: n.severity for n in _outcome(base=Base(kind="footing")).notes}["steel_unsized"] == "info"
    assert "steel_incomplete" in _codes(base=evolve(bare, steel_sized="typed", bars=4))
    assert "steel_placeholder" in _codes(base=RING)
    nameless = evolve(RING, steel_sized="typed")
    assert "steel_sized_by_missing" in _codes(base=nameless)
    assert "steel_typed" in _codes(base=evolve(nameless, steel_sized_by="A. N. Other, engineer"))
    problems = _outcome(base=evolve(RING, bar_diameter_m=0.06, bar_length_m=2.0)).problems
    assert [(p.path, p.code) for p in problems] == [("base.lap_diameters", "lap_too_long")]
    assert problems[0].limit == pytest.approx(2.0 / 0.06)


@given(st.floats(1, 100), st.booleans(), st.floats(2, 12), st.floats(0.004, 0.03), st.integers(1, 20))
@cases
def test_bars_bought_hold_every_piece_and_its_laps(
    length: float, closed: bool, stock: float, diameter: float, bars: int
) -> None:
    """What is bought is at least what lies in place; what lies in place is the run and its laps."""
    ground = Plan((length,), closed, length**2 / (4 * math.pi) if closed else 0.0, math.pi, 1.0, 2.0, 0.2)
    base = evolve(RING, bar_diameter_m=diameter, bar_length_m=stock, bars=bars, lap_diameters=40.0)
    made, _, _ = steel((ground,), base)
    assert made is not None
    assert made.length_m == pytest.approx(bars * length + made.laps * made.lap_m, rel=1e-9)
    assert made.to_buy * stock >= made.length_m * (1 - 1e-9)
    assert made.bought_kg >= made.mass_kg * (1 - 1e-9)


def test_dropping_the_floor_drops_slab_insulation_and_mortar() -> None:
    """Only the trench's gravel and the beam's concrete are left."""
    made, _, _ = foundation(("a",), (_ring(),), evolve(RING, floor="no", slab_insulation_m=0.1), 0.0)
    assert made is not None
    assert made.slab_m3 == made.insulation_m3 == made.floor_finish_m3 == 0
    assert made.concrete_m3 == made.beam_m3
    assert made.gravel_fill_m3 == pytest.approx(_ring().strip(0.5) * 0.15)


def _ring() -> Plan:
    shape = measure_part(Part())[0]
    assert shape is not None
    return plan(Part(), shape)


# --- mortar and concrete ----------------------------------------------------------------------


@given(
    st.floats(0, 8), st.floats(0, 8), st.floats(0, 2), st.floats(0.3, 1.2), st.sampled_from(["volume", "mass"]), st.floats(0, 0.3)
)
@cases
def test_absolute_volumes_close(sand: float, gravel: float, lime: float, water: float, by: str, air: float) -> None:
    """Grains, water and air fill the cubic metre; masses add up to the mass."""
    one = blend(sand, gravel, lime, water, by, air=air)
    filled = one.cement_kg / 3150 + (one.sand_kg + one.gravel_kg) / 2650 + one.lime_kg / 2300 + one.water_l / 1000
    assert filled + air == pytest.approx(1.0, rel=1e-12)
    assert one.cement_kg + one.sand_kg + one.gravel_kg + one.lime_kg + one.water_l == pytest.approx(one.mass_kg)
    assert one.sand_m3 * 1600 == pytest.approx(one.sand_kg)


def test_absolute_volume_and_dry_factor_agree_roughly() -> None:
    """1:3 by volume: the two ways of counting differ by less than a tenth."""
    low, high = (by_dry_factor(3.0, factor) for factor in DRY_FACTORS)
    assert 0.9 * low < blend(3.0, 0.0, 0.0, 0.5).cement_kg < 1.1 * high


def test_published_thicknesses() -> None:
    """ASTM C926 as quoted: 7/8 in on lath, 5/8 and 1/2 in on solid bases; a handbook's coats are thicker."""
    inch = 0.0254
    totals = {code: basis.total_m / inch for code, basis in PUBLISHED.items()}
    assert totals == pytest.approx({"thin_mesh": 0.125, "solid_base": 0.625, "solid_base_two": 0.5, "lath": 0.875})
    assert {b.code: b.total_m / inch for b in OTHERS} == pytest.approx({"lath_handbook": 1.25, "cast_concrete": 0.375})


def test_a_typed_thickness_goes_before_the_published_one() -> None:
    """Thinner than published is cautioned, thicker is not."""
    thin = Skins(outside=Skin(kind="lath", brown_thickness_m=0.004), inside=Skin(kind="none"))
    assert "skin_thin" in _codes(skins=thin)
    thick = Skins(outside=Skin(kind="lath", brown_thickness_m=0.02), inside=Skin(kind="none"))
    assert "skin_thin" not in _codes(skins=thick)
    made = coats("outside", thick.outside, thick, 10.0, 3150.0, Aggregate())
    assert [(c.coat, c.published) for c in made] == [("scratch", True), ("brown", False), ("finish", True)]


def test_both_skins_take_their_own_face() -> None:
    """Each coat covers its face; reveals go to the side that was chosen and to no other."""
    for side, other in (("outside", "inside"), ("inside", "outside")):
        made = _made(skins=evolve(BOTH, reveals=side))
        assert made.finishes is not None and made.finishes.reveals_m2
        areas = {skin.side: skin.area_m2 for skin in made.finishes.skins}
        assert areas[side] == pytest.approx(getattr(made.shape, f"{side}_area_m2") + made.finishes.reveals_m2)
        assert areas[other] == pytest.approx(getattr(made.shape, f"{other}_area_m2"))
    bare = _made(skins=Skins(Skin(kind="none"), Skin(kind="lath"))).finishes
    assert bare is not None and bare.reveals_m2 == 0


def test_paint_needs_its_coverage() -> None:
    """No litre without a coverage that was typed; then area times coats over coverage, and the waste."""
    asked = Skins(outside=Skin(kind="lath", paint_coats=2, waterproofing_coats=1), inside=Skin(kind="none"))
    made = _made(skins=asked).finishes
    assert made is not None and [paint.litres for paint in made.paints] == [None, None]
    notes = [n for n in _outcome(skins=asked).notes if n.code == "coverage_unasked"]
    assert [n.path for n in notes] == [
        "skins.outside.waterproofing_coverage_m2_l", "skins.outside.paint_coverage_m2_l",
    ]  # fmt: skip
    typed = evolve(asked, outside=evolve(asked.outside, paint_coverage_m2_l=8.0), paint_waste_fraction=0.1)
    made = _made(skins=typed).finishes
    assert made is not None
    assert made.paints[1].litres == pytest.approx(made.skins[0].area_m2 * 2 / 8.0 * 1.1)


def test_how_each_coat_is_mixed_is_said_in_parts() -> None:
    """Cement, sand and lime of every coat that is counted, by volume or by mass as typed."""
    skins = evolve(BOTH, outside=Skin(kind="lath", scratch_sand_parts=4.5, finish_thickness_m=0.0))
    said = text.render(evolve(Project(), skins=skins), Reader())
    assert "Outside: Scratch coat: one part of cement to 4.5 of sand and 0.25 of lime, by loose volume." in said
    assert "Inside: Scratch coat: one part of cement to 4 of sand" in said and "Outside: Finish coat:" not in said
    assert "of lime, by mass." in text.render(evolve(Project(), skins=evolve(skins, mix_by="mass")), Reader())


def test_the_skins_of_shells_are_told_as_a_load() -> None:
    """Their mass over that of the fresh core, of domes and vaults alone; a wall beside them changes nothing."""
    dome, wall = Part(openings=()), Part(id="w", shape="wall", at_m=(30.0, 0.0))
    made = _made(parts=(dome,), skins=BOTH)
    assert made.finishes is not None and made.finishes.skins_mass_kg is not None
    share = made.finishes.skins_mass_kg / (made.shape.shell_volume_m3 * float(made.mix.wet_density_kg_m3))

    def told(**changes: Any) -> list[Any]:
        return [note.params["fraction"] for note in _outcome(**changes).notes if note.code == "skins_add_load"]

    assert told(parts=(dome,), skins=BOTH) == [pytest.approx(share)]
    assert told(parts=(dome, wall), skins=BOTH) == [pytest.approx(share)]
    assert told(parts=(wall,), skins=BOTH) == told() == told(skins=Skins(Skin(kind="none"), Skin(kind="none"))) == []


def test_what_is_bought_names_bars_and_ready_concrete_of_posts_too() -> None:
    """Every bar and every cubic metre that the bill prices stands in the list to buy, with who sized it."""
    frame = Wall(build="infill", steel_sized="placeholder", bar_diameter_m=0.012, post_bars=4, beam_bars=4)
    base = evolve(RING, concrete="ready", steel_sized="typed", steel_sized_by="N. N.", bar_diameter_m=0.01)
    project = evolve(Project(), parts=(Part(shape="wall", wall=frame),), base=base)
    outcome = estimate(project)
    assert outcome.estimate is not None and outcome.estimate.finishes is not None
    desk = Desk(project, outcome, speaker(Reader()))
    rows = {row[1]["figure"]: row for row in to_buy(desk)["rows"]}
    bars = ("finishes.base.steel.to_buy", "finishes.frame.steel_to_buy")
    needs = {need.code: need for need in outcome.estimate.finishes.needs}
    assert sum(desk.value(name) or 0 for name in bars) == needs["bar"].pieces
    concrete = ("finishes.base.concrete_m3", "finishes.frame.concrete_m3")
    assert sum(desk.value(name) or 0 for name in concrete) * 1000 == pytest.approx(needs["ready_concrete"].litres)
    assert set(bars) | set(concrete) <= set(rows)
    said = [rows[name][2]["text"].replace("\xa0", " ") for name in bars]
    assert said == ["Bars of 6.00 m, 10 mm thick; typed, sized by N. N.", "Bars of 6.00 m, 12 mm thick; placeholder, not sized"]
    assert all(text_ in message(desk, "fw1").replace("\xa0", " ") for text_ in said)


# --- mesh -------------------------------------------------------------------------------------


def test_a_reveal_against_a_mesh_of_triangles() -> None:
    """A window cut through the default dome: its reveal against trimesh and manifold3d, 0.5 %."""
    trimesh = pytest.importorskip("trimesh")
    pytest.importorskip("manifold3d")
    window = Opening(form="round", diameter_m=0.6, sill_m=1.2)
    inner = trimesh.creation.icosphere(subdivisions=6, radius=3.0)
    outer = trimesh.creation.icosphere(subdivisions=6, radius=3.2)
    centre = 1.5 - 0.5
    tool = trimesh.creation.cylinder(radius=0.3, height=4.0, sections=512)
    tool.apply_transform(trimesh.transformations.rotation_matrix(math.pi / 2, (0, 1, 0)))
    tool.apply_translation((3.0, 0.0, centre))
    plug = trimesh.boolean.intersection([trimesh.boolean.difference([outer, inner], engine="manifold"), tool], engine="manifold")
    middles = plug.triangles_center
    # Its side alone: the faces that lie on the cylinder.
    side = abs(((middles[:, 1] ** 2 + (middles[:, 2] - centre) ** 2) ** 0.5) - 0.3) < 1e-3
    expected = float(plug.area_faces[side].sum())
    (found,) = reveals(Part(openings=(window,)))
    assert found.area_m2 == pytest.approx(expected, rel=0.005)
    assert found.perimeter_m == pytest.approx(math.pi * 0.6, rel=1e-12)


def test_reveals_of_upright_walls_are_perimeter_times_thickness() -> None:
    """In the end wall of a vault, and of a door whose threshold is the floor."""
    door = Opening(form="rectangular", width_m=0.8, height_m=2.0, face="end_a")
    hatch = Opening(form="rectangular", width_m=0.8, height_m=0.5, sill_m=1.0, face="end_b")
    vault = Part(shape="vault", profile="semicircle", end_thickness_m=0.25, openings=(door, hatch))
    first, second = reveals(vault)
    assert first.area_m2 == pytest.approx((2 * 2.0 + 0.8) * 0.25)
    assert second.area_m2 == pytest.approx(2 * (0.5 + 0.8) * 0.25)
    round_light = Part(crown_opening_m=0.8, openings=())
    assert reveals(round_light)[-1].area_m2 == pytest.approx(math.pi * 0.8 * 0.2)


SHELLS = st.builds(
    Part,
    shape=st.sampled_from(["dome", "vault"]),
    profile=st.sampled_from([p for p in PROFILES if p != "semicircle"]),
    inside_diameter_m=st.floats(1.0, 20.0),
    inside_span_m=st.floats(1.0, 12.0),
    length_m=st.floats(1.0, 20.0),
    stem_height_m=st.floats(0.0, 2.0),
    thickness_m=st.floats(0.05, 0.3),
    ends=st.sampled_from(["both", "one", "open"]),
    openings=st.just(()),
)


def _area(spread: Spread, steps: int = 100) -> float:
    """Area of a face from its girth, by the trapezium rule."""
    along = [spread.length_m * i / steps for i in range(steps + 1)]
    return sum((b - a) * (spread.girth(a) + spread.girth(b)) / 2 for a, b in pairwise(along))


@given(SHELLS, st.booleans(), st.floats(0.3, 3.0), st.floats(0.0, 0.12), st.floats(0.0, 0.5))
@cases
def test_strips_cover_the_face(part: Part, outside: bool, width: float, lap: float, foot: float) -> None:
    """Both ways: what the strips cover without their laps is never less than the face, nor is any ring left open."""
    for spread in spreads(part, outside):
        area = _area(spread)
        for way in (gores, bands):
            strips = way(spread, width, lap, foot)
            cover = width - lap
            covered = 0.0
            for strip in strips:
                low, high = (max(0.0, min(end, spread.length_m)) for end in (strip.from_m, strip.to_m))
                if strip.kind == "gore":
                    across = strip.count * cover + (0.0 if spread.ring else lap)
                    assert across >= spread.girth(low) * (1 - 1e-8)
                    covered += across * (high - low)
                    assert strip.length_m >= strip.to_m - strip.from_m
                elif strip.kind == "band":
                    assert strip.length_m >= spread.girth(low) * (1 - 1e-9)
                    assert strip.to_m - strip.from_m <= cover + 1e-9
                    covered += strip.length_m * (high - low)
                else:
                    assert strip.length_m <= width + 1e-9
                    covered += strip.length_m**2
            assert covered >= area * (1 - 1e-3)
            ends = [strips[0].from_m, *(strip.to_m for strip in strips)]
            assert ends == sorted(ends) and ends[0] <= 0 and ends[-1] >= spread.length_m - 1e-9
            for before, after in pairwise(strips):
                assert after.from_m == pytest.approx(before.to_m, abs=1e-9)


def test_the_spread_of_a_dome_is_its_face() -> None:
    """Girth over the meridian is the area of the face, for every profile (scipy quadrature)."""
    integrate = pytest.importorskip("scipy.integrate")
    for profile in PROFILES:
        rise = None if profile in ("hemisphere", "semicircle") else 3.6 if profile == "pointed" else 2.4
        part = Part(profile=profile, rise_m=rise, openings=())
        shape = measure_part(part)[0]
        assert shape is not None
        for outside in (True, False):
            (spread,) = spreads(part, outside)
            value = integrate.quad(spread.girth, 0, spread.length_m, limit=400, points=(part.stem_height_m,))[0]
            assert value == pytest.approx(shape.outside_area_m2 if outside else shape.inside_area_m2, rel=1e-6), profile


@given(st.lists(st.tuples(st.floats(0.01, 6.0), st.integers(1, 40)), max_size=8))
@cases
def test_packing_holds_every_piece(pieces: list[tuple[float, int]]) -> None:
    """Never fewer than the lengths need, never more than one for each piece; a plain packing agrees."""
    stock = 6.0
    found = pack(pieces, stock)
    whole = sum(length * count for length, count in pieces)
    assert found >= math.ceil(whole / stock - 1e-6)
    assert found <= sum(count for _, count in pieces)
    free: list[float] = []
    for length in sorted((length for length, count in pieces for _ in range(count)), reverse=True):
        for i, rest in enumerate(free):
            if rest + 1e-9 >= length:
                free[i] -= length
                break
        else:
            free.append(stock - length)
    assert found == len(free)


@given(st.floats(0.1, 500), st.floats(1, 50), st.floats(0, 0.4))
@cases
def test_splitting_makes_the_length_and_its_laps(length: float, stock: float, lap: float) -> None:
    """Pieces joined by laps are as long as what they cover, and none is longer than the stock."""
    pieces = split(length, stock, lap)
    count = sum(n for _, n in pieces)
    assert sum(piece * n for piece, n in pieces) - (count - 1) * lap == pytest.approx(length, rel=1e-9)
    assert all(piece <= stock + 1e-6 for piece, _ in pieces)


@given(st.floats(0.3, 3.0), st.floats(5, 100), st.floats(0.0, 0.14), st.floats(0, 0.3), st.sampled_from(["gores", "bands"]))
@cases
def test_the_rolls_are_never_short(width: float, length: float, lap: float, waste: float, way: str) -> None:
    """The rolls spread out hold the faces, the reveals and the returns, for the whole job."""
    skins = evolve(BOTH, roll_width_m=width, roll_length_m=length, lap_m=lap, mesh_waste_fraction=waste, lay=way)
    project = evolve(Project(), skins=skins)
    shape, mix = measure(project.parts)[0], solve(project.mix)[0]
    assert shape is not None and mix is not None
    made = finish(project, shape, mix)[0]
    assert made is not None and made.mesh_rolls and made.mesh_m2 and made.mesh_bought_m2
    assert made.mesh_bought_m2 >= made.mesh_m2
    cut = sum(c.count * c.length_m for c in made.mesh_cuts)
    assert made.mesh_rolls * length >= cut * (1 - 1e-9)


def test_wider_rolls_and_less_lap_take_no_more_strips() -> None:
    """The number of strips falls with the width and grows with the lap."""
    part = Part(openings=())
    counts = [sum(s.count for s in lay("gores", part, True, width, 0.1, 0.15)[0]) for width in (0.5, 1.0, 1.5, 2.0)]
    assert counts == sorted(counts, reverse=True)
    laps = [sum(s.count for s in lay("gores", part, True, 1.0, lap, 0.15)[0]) for lap in (0.0, 0.1, 0.2, 0.3)]
    assert laps == sorted(laps)


def test_a_lap_that_leaves_nothing_of_the_roll_is_refused() -> None:
    """Half the roll's width is the limit; skins without mesh do not care."""
    wide = evolve(BOTH, lap_m=0.5)
    problems = _outcome(skins=wide).problems
    assert [(p.path, p.code, p.limit) for p in problems] == [("skins.lap_m", "lap_too_wide", 0.5)]
    solid = evolve(wide, outside=Skin(kind="solid_base"), inside=Skin(kind="none"))
    assert _outcome(skins=solid).problems == ()


def test_a_reveal_deeper_than_the_roll_takes_several_widths() -> None:
    """Strips side by side in the roll, or several rolls' widths for one reveal."""
    assert rows(2.0, 0.2, 1.0, 0.1)[:2] == (3, 1)
    assert rows(2.0, 0.9, 1.0, 0.1)[:2] == (1, 1)
    beside, across, _ = rows(2.0, 2.0, 1.0, 0.1)
    assert beside == 1 and across * 0.9 + 0.1 >= 2.1


def test_mesh_is_asked_whether_it_lasts() -> None:
    """Unknown: said. Below half its strength or 20 N/mm after ageing: cautioned. Above both: silent."""
    assert "mesh_alkali_unasked" in _codes(skins=BOTH)
    good = evolve(BOTH, mesh_strength_n_mm=25.0, mesh_kept_fraction=0.6)
    assert not _codes(skins=good) & {"mesh_alkali_unasked", "mesh_alkali_weak"}
    poor: tuple[dict[str, Any], ...] = ({"mesh_strength_n_mm": 19.0}, {"mesh_kept_fraction": 0.4})
    for weak in poor:
        assert "mesh_alkali_weak" in _codes(skins=evolve(good, **weak))


def test_reveals_get_strips_of_their_own() -> None:
    """Only where the side that covers them carries mesh."""
    made = _made(skins=BOTH).finishes
    assert made is not None and [c.side for c in made.mesh_cuts].count("reveals") == 2
    plain = _made(skins=evolve(BOTH, reveals="no")).finishes
    assert plain is not None and "reveals" not in {c.side for c in plain.mesh_cuts}
    assert rolls((), 50.0, 0.1, 0.0) == 0


# --- money ------------------------------------------------------------------------------------


def test_every_need_can_be_priced() -> None:
    """Sand by the cubic metre or the tonne, rolls by the piece or the square metre: one amount."""
    base = evolve(RING, concrete="ready", slab_insulation_m=0.05)
    painted = evolve(BOTH, outside=evolve(BOTH.outside, paint_coats=1, paint_coverage_m2_l=8.0))
    same = {
        "sand": {"m3": 40.0, "t": 25.0, "yd3": 40.0 * 0.764554857984},
        "gravel": {"m3": 30.0, "t": 20.0},
        "lime": {"kg": 0.5, "t": 500.0},
        "ready_concrete": {"m3": 120.0, "yd3": 120.0 * 0.764554857984},
        "bar": {"piece": 9.0, "m": 1.5},
        "damp_course": {"m": 2.0, "ft": 2.0 * 0.3048},
        "insulation": {"m3": 100.0, "m2": 5.0, "ft2": 5.0 * 0.09290304},
        "mesh_roll": {"piece": 60.0, "m2": 1.2, "m": 1.2},
        "paint": {"L": 7.0, "us_gal": 7.0 * 3.785411784},
    }
    for item, units in same.items():
        totals = []
        for unit, price in units.items():
            market = Market(prices=(Price(item, unit, price),))
            totals.append(_made(base=base, skins=painted, market=market).money.total)
        assert totals[0] and all(total == pytest.approx(totals[0]) for total in totals), item
    market = Market(prices=(Price("sand", "piece", 1.0), Price("waterproofing", "L", 1.0)))
    codes = [(n.code, n.path) for n in _outcome(base=base, skins=painted, market=market).notes]
    assert ("price_unit_unusable", "market.prices[0].unit") in codes
    assert ("price_unused", "market.prices[1]") in codes


def test_the_range_is_that_of_the_waste() -> None:
    """Twice the stated waste, base and skins too, is the upper figure; none of it the lower."""
    prices = (Price("cement", "bag", 10.0), Price("sand", "m3", 40.0), Price("mesh_roll", "piece", 60.0), Price("bar", "kg", 1.0))
    market = Market(prices=prices)

    def at(times: float) -> Estimate:
        plain = Project()
        waste = evolve(
            plain.waste, lost_batches_fraction=0.03 * times, breakage_fraction=0.03 * times, cutting_fraction=0.03 * times,
            calibration_batches=1.0 * times,
        )  # fmt: skip
        base = evolve(
            RING, damp_waste_fraction=0.1 * times, concrete_waste_fraction=0.05 * times, gravel_waste_fraction=0.1 * times
        )
        skins = evolve(
            BOTH, coat_waste_fraction=0.1 * times, mesh_waste_fraction=0.05 * times, paint_waste_fraction=0.05 * times
        )
        return _made(market=market, waste=waste, base=base, skins=skins)

    stated_waste = at(1.0).money
    assert stated_waste.low is not None and stated_waste.total is not None and stated_waste.high is not None
    assert stated_waste.low <= stated_waste.total <= stated_waste.high
    assert stated_waste.low == pytest.approx(at(0.0).money.total, rel=1e-9)
    assert stated_waste.high == pytest.approx(at(2.0).money.total, rel=1e-9)


@given(st.floats(0.03, 0.4), st.floats(0.0, 0.4))
@cases
def test_thicker_shells_and_more_waste_take_no_less(thickness: float, more: float) -> None:
    """Base and skins grow with the shell outside; every quantity grows with its waste."""
    part = Part(thickness_m=thickness)
    wide = evolve(RING, concrete_waste_fraction=more)
    thin, thick = (_finished(evolve(part, thickness_m=t), wide) for t in (thickness, thickness + 0.1))
    assert thin.cement_kg <= thick.cement_kg
    assert _finished(part, evolve(wide, concrete_waste_fraction=0.0)).cement_kg <= thin.cement_kg


def _finished(part: Part, base: Base) -> Finishes:
    project = Project(parts=(part,), base=base, skins=BOTH)
    shape, mix = measure(project.parts)[0], solve(project.mix)[0]
    assert shape is not None and mix is not None
    made = finish(project, shape, mix)[0]
    assert made is not None
    return made
