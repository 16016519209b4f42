"""The whole road: the default project, problems, JSON, and how it answers to every field."""

import json
import math
from collections.abc import Iterator
from typing import Any

import attrs
import pytest
from attrs import evolve
from foamwright.estimate import as_json, estimate
from foamwright.project import Project
from foamwright.project.model import Batch, Block, Bucket, Market, Mix, Opening, Part, Price, Waste
from foamwright.sheets.sources import SOURCES
from hypothesis import given
from hypothesis import strategies as st
from properties import cases

#: The contract of the estimate: names that are never changed.
CONTRACT = {
    "shape": "floor_area_m2 footprint_m2 headroom_area_m2 height_m shell_volume_m3 inside_area_m2 "
    "outside_area_m2 parts",
    "blocks": "count basis",
    "mix": "foam_volume_l foam_mass_kg yield_l mass_kg wet_density_kg_m3 oven_dry_density_kg_m3 "
    "water_cement_ratio",
    "foam": "net_low_g net_aim_g net_high_g",
    "batches": "count to_mix cement_kg cement_bags cement_left_kg water_l foam_l concentrate_l",
    "money": "total low high lines",
    "site": "lifts",
}


def _leaves(data: Any, path: str = "") -> Iterator[tuple[str, Any]]:
    if isinstance(data, dict):
        for key, value in data.items():
            yield from _leaves(value, f"{path}.{key}")
    elif isinstance(data, list):
        for i, value in enumerate(data):
            yield from _leaves(value, f"{path}[{i}]")
    else:
        yield path, data


def test_the_contract_holds() -> None:
    """Every name of the contract stands in the JSON, per part too."""
    priced = Project(market=Market(prices=(Price("cement", "bag", 9.0),)))
    made = as_json(estimate(priced))
    assert set(made) == {"format", "estimate", "problems", "notes"}
    for group, names in CONTRACT.items():
        assert set(names.split()) <= set(made["estimate"][group])
    part = made["estimate"]["shape"]["parts"][0]
    assert set(CONTRACT["shape"].split()) - {"parts"} | {"id"} <= set(part)


def test_json_is_plain_and_finite_and_nothing_is_null() -> None:
    """An absent path is left out; what stands can be written as strict JSON."""
    made = as_json(estimate(Project()))
    text = json.dumps(made, allow_nan=False)
    assert json.loads(text) == made
    assert all(value is not None for _, value in _leaves(made["estimate"]))
    assert "total" not in made["estimate"]["money"]
    assert "days" not in made["estimate"]["site"]


def test_the_default_project_draws_no_warning() -> None:
    """A project that states nothing is a sensible dome: notes inform; what its stem cannot hold is the one caution."""
    outcome = estimate(Project())
    assert outcome.problems == ()
    assert [note.code for note in outcome.notes if note.severity != "info"] == ["ring_to_be_sized"]
    assert "foamed_concrete_only" in {note.code for note in outcome.notes}
    assert outcome.estimate is not None and outcome.estimate.batches.batch.fits


def test_problems_of_every_room_come_together() -> None:
    """A door too tall, a recipe too thin and a drum's marks are told at once, where they can be."""
    project = Project(
        parts=(Part(openings=(Opening(height_m=5.0),)),), mix=Mix(given=("cement_kg",))
    )
    outcome = estimate(project)
    assert outcome.estimate is None
    assert {problem.code for problem in outcome.problems} == {
        "opening_too_high",
        "mix_underdetermined",
    }
    made = as_json(outcome)
    assert made["estimate"] is None
    assert made["problems"][0]["limit"] == pytest.approx(0.5 + math.sqrt(9 - 0.45**2))


def test_every_source_that_a_note_names_is_listed() -> None:
    """Notes of many projects name sources that the sheets can put in words."""
    many = [
        Project(),
        Project(market=Market(cement_type="masonry", prices=(Price("cement", "L", 1.0),) * 2)),
        Project(market=Market(cement_bag_kg=50.0), batch=Batch(bags_each=1, emptying="buckets")),
        Project(batch=Batch(drum_l=20, drum_form="calibrated"), block=Block(0.6, 0.6)),
        Project(bucket=Bucket(foam_low_kg_m3=30, foam_aim_kg_m3=40, foam_high_kg_m3=50)),
        Project(parts=(Part(), Part(id="b", inside_diameter_m=1.5, thickness_m=0.03))),
        Project(
            parts=(Part(thickness_m=0.1, openings=(Opening(height_m=3.2, width_m=0.2, to="x"),)),),
            mix=Mix(yield_l=80.0, foam_density_kg_m3=200.0, water_l=60.0),
            batch=Batch(drum_depth_m=0.2),
        ),
    ]
    notes = [note for project in many for note in estimate(project).notes]
    assert len({note.code for note in notes}) > 20
    assert {note.source for note in notes} <= set(SOURCES)
    for note in notes:
        assert all(isinstance(v, (str, int, float, bool, type(None))) for v in note.params.values())


def test_permit_area_follows_the_answer() -> None:
    """Unasked: said. Asked: the area that counts, and a caution where it is over the limit."""
    project = Project()
    assert "permit_unasked" in {note.code for note in estimate(project).notes}
    areas = {"inside": 28.2743, "footprint": 32.1699, "headroom": 21.2058}
    for counts, area in areas.items():
        permit = evolve(project.permit, counts=counts, limit_m2=30.0)
        outcome = estimate(evolve(project, permit=permit))
        assert outcome.estimate is not None
        assert outcome.estimate.permit.area_m2 == pytest.approx(area, abs=5e-5)
        assert outcome.estimate.permit.over is (area > 30)
        codes = {note.code for note in outcome.notes}
        assert ("permit_over_limit" in codes) is (area > 30)
        assert "permit_unasked" not in codes


domes = st.builds(
    Part,
    inside_diameter_m=st.floats(3.0, 12.0),
    stem_height_m=st.floats(0, 2),
    thickness_m=st.floats(0.05, 0.6),
    openings=st.just(
        (
            Opening(form="arched", width_m=0.7, height_m=1.1),
            Opening(
                form="round", diameter_m=0.4, sill_m=0.5, azimuth_deg=120, count=2, spacing_deg=60
            ),
        )
    ),
)


@given(domes, st.floats(1.001, 1.5))
@cases
def test_volume_grows_with_thickness(part: Part, factor: float) -> None:
    """A thicker shell takes more of everything, and its inside stays what it was."""
    thin = estimate(Project(parts=(part,))).estimate
    thicker = evolve(part, thickness_m=part.thickness_m * factor)
    thick = estimate(Project(parts=(thicker,))).estimate
    assert thin is not None and thick is not None
    assert thick.shape.shell_volume_m3 > thin.shape.shell_volume_m3
    assert thick.shape.outside_area_m2 > thin.shape.outside_area_m2
    assert thick.shape.inside_area_m2 == pytest.approx(thin.shape.inside_area_m2)
    assert thick.shape.floor_area_m2 == thin.shape.floor_area_m2
    assert thick.batches.count > thin.batches.count
    assert thick.batches.cement_bags >= thin.batches.cement_bags


@given(domes, st.floats(1.001, 1.5))
@cases
def test_a_larger_opening_takes_more(part: Part, factor: float) -> None:
    """A wider door leaves less shell and less of both faces."""
    door, windows = part.openings
    wide = evolve(part, openings=(evolve(door, width_m=door.width_m * factor), windows))
    first = estimate(Project(parts=(part,))).estimate
    second = estimate(Project(parts=(wide,))).estimate
    assert first is not None and second is not None
    assert second.shape.shell_volume_m3 < first.shape.shell_volume_m3
    assert second.shape.inside_area_m2 < first.shape.inside_area_m2
    assert second.shape.outside_area_m2 < first.shape.outside_area_m2


@given(domes, st.floats(-360, 360))
@cases
def test_turning_the_dome_changes_nothing(part: Part, turn: float) -> None:
    """Azimuths are only where the openings stand."""
    turned = evolve(
        part, openings=tuple(evolve(o, azimuth_deg=o.azimuth_deg + turn) for o in part.openings)
    )
    first, second = (estimate(Project(parts=(p,))) for p in (part, turned))
    assert first.estimate is not None and second.estimate is not None
    assert first.estimate.shape == second.estimate.shape


@given(domes, st.floats(0.5, 3))
@cases
def test_scaling_the_dome_scales_the_measures(part: Part, factor: float) -> None:
    """All lengths times a factor: areas times its square, volumes times its cube."""
    scaled = evolve(
        part,
        inside_diameter_m=part.inside_diameter_m * factor,
        stem_height_m=part.stem_height_m * factor,
        thickness_m=part.thickness_m * factor,
        openings=tuple(
            evolve(
                o,
                width_m=o.width_m * factor,
                height_m=o.height_m * factor,
                diameter_m=o.diameter_m * factor,
                sill_m=o.sill_m * factor,
            )
            for o in part.openings
        ),
    )
    first, second = (estimate(Project(parts=(p,))).estimate for p in (part, scaled))
    assert first is not None and second is not None
    a, b = first.shape, second.shape
    assert b.shell_volume_m3 == pytest.approx(a.shell_volume_m3 * factor**3, rel=1e-9)
    assert b.openings_volume_m3 == pytest.approx(a.openings_volume_m3 * factor**3, rel=1e-9)
    assert b.inside_area_m2 == pytest.approx(a.inside_area_m2 * factor**2, rel=1e-9)
    assert b.outside_area_m2 == pytest.approx(a.outside_area_m2 * factor**2, rel=1e-9)


def test_parts_add_up() -> None:
    """Two domes take the sum of what each takes; heights and widths are the greatest."""
    one, two = Part(), Part(id="b", inside_diameter_m=4.0, at_m=(20.0, 0.0))
    both = estimate(Project(parts=(one, two))).estimate
    each = [estimate(Project(parts=(part,))).estimate for part in (one, two)]
    assert both is not None and each[0] is not None and each[1] is not None
    for name in ("floor_area_m2", "footprint_m2", "shell_volume_m3", "inside_area_m2"):
        total = sum(getattr(e.shape, name) for e in each if e)
        assert getattr(both.shape, name) == pytest.approx(total)
    assert both.shape.height_m == each[0].shape.height_m
    assert [part.id for part in both.shape.parts] == ["main", "b"]


def test_no_waste_and_no_bags_are_lost_between_rooms() -> None:
    """Cement of the bill, of the batches and of the mix in the shell agree for a job without waste."""
    project = Project(waste=Waste(0, 0, 0, 0), market=Market(prices=(Price("cement", "kg", 1.0),)))
    made = estimate(project).estimate
    assert made is not None
    cement = made.shape.shell_volume_m3 * made.mix.oven_dry_density_kg_m3 / 1.2
    assert made.batches.cement_kg == pytest.approx(cement, rel=1e-12)
    assert made.money.total == pytest.approx(made.batches.cement_bags * 94 * 0.45359237)


def test_estimates_are_values() -> None:
    """The same project gives the same outcome, and nobody can change it."""
    outcome = estimate(Project())
    assert outcome == estimate(Project())
    with pytest.raises(attrs.exceptions.FrozenInstanceError):
        outcome.estimate.shape.height_m = 3.0  # type: ignore[union-attr, misc]
