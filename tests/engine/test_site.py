"""Drums, batches, blocks and lifts."""

import math

import pytest
from attrs import evolve
from foamwright.estimate import Estimate, estimate
from foamwright.material.mix import solve
from foamwright.project.model import (
    Batch,
    Block,
    Foam,
    Mark,
    Market,
    Mix,
    Opening,
    Part,
    Project,
    Waste,
)
from foamwright.site.batches import FRACTIONS, Batches, ceiling, plan
from foamwright.site.drum import height_calibrated, height_straight, height_tapered, marks, order
from hypothesis import given
from hypothesis import strategies as st
from properties import cases
from scipy.integrate import quad

MIX = solve(Mix())[0]
assert MIX is not None
NO_WASTE = Waste(0.0, 0.0, 0.0, 0.0)


def _plan(volume: float = 13.4349, **changes: object) -> Batches:
    """Plan the default job with some of its groups replaced."""
    groups = {"market": Market(), "batch": Batch(), "foam": Foam(), "waste": Waste()} | changes
    made = plan(volume, MIX, **groups)[0]  # type: ignore[arg-type]
    assert made is not None
    return made


def _codes(batch: Batch, market: Market | None = None) -> dict[str, str]:
    notes = plan(13.4349, MIX, market or Market(), batch, Foam(), Waste())[2]
    return {note.code: note.severity for note in notes}


# --- the drum ---------------------------------------------------------------------------------


@given(st.floats(0.1, 1.0), st.floats(0.1, 1.0), st.floats(0.2, 1.5), st.floats(0.01, 1.0))
@cases
def test_tapered_mark_holds_its_volume(
    bottom: float, top: float, depth: float, share: float
) -> None:
    """The frustum below the mark has the volume asked; oracle: scipy.integrate.quad of the discs."""
    mark = depth * share

    def disc(z: float) -> float:
        return math.pi / 4 * (bottom + (top - bottom) * z / depth) ** 2

    litres = quad(disc, 0, mark, epsabs=1e-13, epsrel=1e-12)[0] * 1000
    assert height_tapered(litres, bottom, top, depth) == pytest.approx(mark, rel=1e-9)


def test_no_taper_is_straight() -> None:
    """A drum with equal ends is a straight drum, and a hair of taper changes it by a hair."""
    straight = height_straight(159.0, 0.57)
    assert height_tapered(159.0, 0.57, 0.57, 0.85) == pytest.approx(straight, rel=1e-12)
    assert height_tapered(159.0, 0.57, 0.57 + 1e-7, 0.85) == pytest.approx(straight, rel=1e-6)


def test_a_drum_that_narrows_to_a_point_holds_no_more() -> None:
    """Beyond the point of the cone there is no height."""
    assert height_tapered(200.0, 0.6, 0.1, 0.85) == math.inf


CALIBRATED = ((20.0, 0.10), (60.0, 0.24), (120.0, 0.44), (170.0, 0.62))


@given(st.floats(0, 170), st.floats(0, 170))
@cases
def test_calibrated_marks_rise_with_volume(one: float, other: float) -> None:
    """More litres stand higher, and at a mark they stand at the mark."""
    low, high = sorted((one, other))
    below, above = height_calibrated(low, CALIBRATED), height_calibrated(high, CALIBRATED)
    assert below is not None and above is not None and below <= above
    assert all(height_calibrated(v, CALIBRATED) == pytest.approx(h) for v, h in CALIBRATED)


def test_calibration_that_is_missing_or_too_low() -> None:
    """Too few marks, or none so high: no mark is made up, and it is said."""
    few = Batch(drum_form="calibrated", drum_marks=(Mark(100.0, 0.4),))
    assert marks(few, (50.0,))[0] == (None,)
    assert _codes(few)["drum_marks_missing"] == "caution"
    low = Batch(drum_form="calibrated", drum_marks=(Mark(20.0, 0.1), Mark(100.0, 0.4)))
    heights, notes = marks(low, (36.0, 159.0))
    assert heights[0] == pytest.approx(0.1 + 0.3 * 16 / 80) and heights[1] is None
    assert [note.code for note in notes] == ["drum_marks_beyond"]
    shallow = Batch(drum_depth_m=0.5)
    assert marks(shallow, (36.0, 159.0))[0][1] is None
    assert "drum_marks_beyond" in _codes(shallow)


def test_calibration_that_contradicts_itself() -> None:
    """More water standing lower names the mark; the order in which marks were typed is no matter."""
    wrong = Batch(drum_form="calibrated", drum_marks=(Mark(50.0, 0.3), Mark(100.0, 0.2)))
    made, problems, _ = plan(1.0, MIX, Market(), wrong, Foam(), Waste())
    assert made is None
    assert [(p.path, p.code) for p in problems] == [
        ("batch.drum_marks[1].height_m", "drum_marks_order")
    ]
    assert order((Mark(100.0, 0.4), Mark(50.0, 0.2))) == ()
    assert order((Mark(50.0, 0.2), Mark(50.0, 0.3)))[0].path == "batch.drum_marks[1].volume_l"


# --- the batch --------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "drum,bags,batches",
    [(170, 1, 1), (167, 3, 4), (125, 2, 3), (111, 1, 2), (83, 1, 3), (55, 1, 4)],
)
def test_largest_fraction_that_fits(drum: float, bags: int, batches: int) -> None:
    """The drum less 5 % holds 159 L x the fraction that is taken and not the next larger one."""
    made = _plan(batch=Batch(drum_l=drum))
    assert (made.batch.bags, made.batch.bags_batches) == (bags, batches)
    assert made.batch.yield_l <= drum * 0.95
    larger = [f for f in FRACTIONS if f > FRACTIONS[-1].__class__(bags, batches)]
    assert all(float(f) * MIX.yield_l > drum * 0.95 for f in larger)


def test_nothing_fits() -> None:
    """With a drum too small for a quarter bag the quarter is still computed, with a warning."""
    made = _plan(batch=Batch(drum_l=30.0))
    assert (made.batch.bags, made.batch.bags_batches, made.batch.fits) == (1, 4, False)
    assert _codes(Batch(drum_l=30.0))["no_fraction_fits"] == "warning"
    assert "no_fraction_fits" not in _codes(Batch(drum_l=30.0, bags_each=0.1))
    assert _codes(Batch(drum_l=30.0, bags_each=1.0))["no_fraction_fits"] == "warning"


def test_stated_bags_that_do_not_fit() -> None:
    """The figures stand as stated, and the note names yield, limit and what would fit."""
    market = Market(cement_bag_kg=50.0)
    made, _, notes = plan(13.4349, MIX, market, Batch(bags_each=1.0), Foam(), Waste())
    assert made is not None and made.batch.cement_kg == 50.0 and not made.batch.fits
    note = next(note for note in notes if note.code == "batch_does_not_fit")
    assert note.severity == "warning"
    assert note.params["yield_l"] == pytest.approx(186.44, abs=0.005)
    assert note.params["limit"] == pytest.approx(161.5)
    assert (note.params["bags"], note.params["batches"]) == (3, 4)


@pytest.mark.parametrize(
    "each,bags,batches",
    [(1.5, 3, 2), (0.333, 1, 3), (2.0, 2, 1), (0.6, 3, 5), (0.437, None, None)],
)
def test_bags_make_batches(each: float, bags: int | None, batches: int | None) -> None:
    """Simple fractions are told as n bags in m batches, others only as kilograms."""
    made = _plan(batch=Batch(bags_each=each)).batch
    assert (made.bags, made.bags_batches) == (bags, batches)
    assert made.cement_kg == pytest.approx(each * Market().cement_bag_kg)


@given(st.floats(5, 2000), st.floats(20, 5000))
@cases
def test_another_bag_changes_no_proportion(bag: float, drum: float) -> None:
    """Whatever the bag and the drum, ratio, foam density and wet density are those of the mix."""
    made = _plan(market=Market(cement_bag_kg=bag), batch=Batch(drum_l=drum)).batch
    assert made.water_l / made.cement_kg == pytest.approx(MIX.water_cement_ratio)
    assert made.foam_mass_kg / made.foam_l * 1000 == pytest.approx(MIX.foam_density_kg_m3)
    assert made.mass_kg / made.yield_l * 1000 == pytest.approx(MIX.wet_density_kg_m3)
    assert made.slurry_volume_l + made.foam_l == pytest.approx(made.yield_l)


def test_minutes() -> None:
    """The latest pour is slurry, folding and the time to pour, one after the other."""
    timing = _plan(batch=Batch(slurry_minutes=4, fold_minutes=3, pour_within_minutes=8)).timing
    assert (timing.made_minutes, timing.latest_pour_minutes) == (7, 15)


# --- the whole job ----------------------------------------------------------------------------


@given(st.floats(0.1, 500), st.floats(5, 1500))
@cases
def test_totals_balance(volume: float, bag: float) -> None:
    """What goes in makes what comes out: volume, cement in bags, water and agent, mass."""
    made = _plan(volume, market=Market(cement_bag_kg=bag))
    assert made.count == pytest.approx(made.net_count + sum(w.batches for w in made.waste))
    assert made.net_count * made.batch.yield_l == pytest.approx(volume * 1000)
    assert made.mixed_volume_m3 * MIX.wet_density_kg_m3 == pytest.approx(made.mass_kg)
    assert made.cement_kg + made.water_l + made.concentrate_l == pytest.approx(made.mass_kg)
    assert made.cement_bags * bag == pytest.approx(made.cement_kg + made.cement_left_kg)
    assert 0 <= made.cement_left_kg < bag * (1 + 1e-6)
    assert made.foam_solution_l == pytest.approx(made.concentrate_l * 41)
    assert made.to_mix - 1 < made.count <= made.to_mix + 1e-6
    assert made.to_mix - 1 + made.last_batch_fraction == pytest.approx(made.count, abs=1e-6)


@given(st.floats(0.1, 100), st.floats(0, 0.5), st.floats(0, 50))
@cases
def test_waste_only_adds(volume: float, share: float, trial: float) -> None:
    """No item of waste makes anything fewer, and with none the count is shell over yield."""
    plain = _plan(volume, waste=NO_WASTE)
    assert plain.count == pytest.approx(volume * 1000 / plain.batch.yield_l)
    for waste in (
        Waste(share, 0, 0, 0),
        Waste(0, share, 0, 0),
        Waste(0, 0, share, 0),
        Waste(0, 0, 0, trial),
    ):
        more = _plan(volume, waste=waste)
        assert more.count >= plain.count
        assert more.cement_bags >= plain.cement_bags
        assert more.concentrate_l >= plain.concentrate_l


def test_waste_by_hand() -> None:
    """Common practice, no source: 3 % of the blocks cut, 3 % of what is cast broken and 3 % lost, and a batch."""
    made = _plan(13.43493530326654)
    assert made.count == pytest.approx(84.5032 * 1.03 * 1.06 + 1, abs=1e-4)
    assert [item.basis for item in made.waste] == ["typed", "typed", "by_volume", "typed"]
    assert [item.code for item in made.waste] == [
        "lost_batches",
        "breakage",
        "cutting",
        "calibration",
    ]


@pytest.mark.parametrize("value,whole", [(3.0, 3), (3.0 + 1e-12, 3), (3.001, 4), (0.2, 1), (0, 0)])
def test_ceiling_forgives_rounding_only(value: float, whole: int) -> None:
    """A whole number stays itself; anything that a scale could show goes up."""
    assert ceiling(value) == whole


# --- blocks and lifts -------------------------------------------------------------------------


def _estimate(**changes: object) -> Estimate:
    made = estimate(Project(**changes)).estimate  # type: ignore[arg-type]
    assert made is not None
    return made


@given(st.floats(0.05, 0.5), st.floats(0.05, 0.5), st.floats(0.05, 0.5))
@cases
def test_blocks_fill_the_shell(length: float, height: float, thickness: float) -> None:
    """By volume, so many blocks are enough and one fewer is not; larger blocks are never more."""
    parts = (Part(thickness_m=thickness, openings=(Opening(),)),)
    made = _estimate(parts=parts, block=Block(length, height))
    volume, one = made.shape.shell_volume_m3, length * height * thickness
    counted = made.blocks.by_volume
    assert counted.count * one >= volume * (1 - 1e-9)
    assert (counted.count - 1) * one < volume
    assert counted.to_cast >= counted.count
    larger = _estimate(parts=parts, block=Block(length * 1.1, height))
    assert larger.blocks.by_volume.count <= counted.count


def test_parts_of_two_thicknesses_have_two_blocks() -> None:
    """Each thickness is counted for itself; equal ones share their last block."""
    one, two = Part(), Part(id="b", thickness_m=0.3, at_m=(20.0, 0.0))
    made = _estimate(parts=(one, two, evolve(one, id="c", at_m=(40.0, 0.0)))).blocks
    assert [size.thickness_m for size in made.sizes] == [0.2, 0.3]
    assert made.count == sum(size.count for size in made.sizes)
    assert made.fresh_mass_kg == made.sizes[1].fresh_mass_kg
    counted = made.by_volume
    assert [size.thickness_m for size in counted.sizes] == [0.2, 0.3]
    assert counted.count == sum(size.count for size in counted.sizes)


def test_a_full_drum_is_never_a_lift() -> None:
    """Whichever way it is emptied, no lift is as heavy as the batch; buckets hold at most 15 L."""
    for way in ("in_place", "tip", "bottom_outlet", "buckets"):
        outcome = estimate(Project(batch=Batch(emptying=way)))
        assert outcome.estimate is not None
        site = outcome.estimate.site
        assert all("drum" not in lift.code for lift in site.lifts)
        assert all(lift.mass_kg < site.emptying.full_drum_kg for lift in site.lifts)
        assert "full_drum_not_lifted" in {note.code for note in outcome.notes}
        assert (site.emptying.buckets is not None) == (way == "buckets")
    assert site.emptying.buckets == 11  # 158.99 L by 15 L
    assert site.emptying.bucket_l is not None and site.emptying.bucket_l <= 15
    assert site.emptying.bucket_kg == pytest.approx(77.010 / 11, abs=1e-3)
    assert "pour_bucket" in {lift.code for lift in site.lifts}


@pytest.mark.parametrize("side,severity", [(0.4, None), (0.42, "info"), (0.5, "caution")])
def test_heavy_blocks_are_said(side: float, severity: str | None) -> None:
    """484.4 kg/m3 x 0.20 m x side^2: 15.5 kg is no word, 17.1 kg a word, 24.2 kg a caution."""
    notes = estimate(Project(block=Block(side, side))).notes
    found = [note.severity for note in notes if note.code == "lift_heavy_block"]
    assert found == ([severity] if severity else [])
