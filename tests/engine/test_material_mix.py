"""The mix: closure, every sufficient set, and what is said where a set does not serve."""

from itertools import combinations

import numpy as np
import pytest
from attrs import evolve
from foamwright.material.mix import MixResult, from_parts, solve
from foamwright.project.model import MIX_QUANTITIES, Mix
from hypothesis import given
from hypothesis import strategies as st
from properties import cases

#: Batches that a crew could make: slurry ratio, foam density, foam over slurry by volume, size.
batches = st.builds(
    lambda cement, ratio, density, share: from_parts(
        cement,
        cement * ratio,
        density * share * (cement / 3150 + cement * ratio / 1000),
        share * (cement / 3150 + cement * ratio / 1000) * 1000,
        3150.0,
    ),
    st.floats(1, 500),
    st.floats(0.3, 1.0),
    st.floats(25, 150),
    st.floats(0.3, 6),
)


def _rank(names: tuple[str, ...]) -> int:
    """Count what is independent in a set, by numpy's singular values of numeric derivatives.

    The batch is written as a function of four free numbers, anew and without the engine's equations.
    """

    def quantities(x: np.ndarray) -> np.ndarray:
        cement, water, density, foam = np.exp(x)
        volume = cement / 3.15 + water + foam
        mass = foam * density / 1000
        total = cement + water + mass
        values = {
            "cement_kg": cement,
            "water_l": water,
            "foam_density_kg_m3": density,
            "yield_l": volume,
            "wet_density_kg_m3": total / volume * 1000,
            "oven_dry_density_kg_m3": 1.2 * cement / volume * 1000,
            "water_cement_ratio": water / cement,
            "total_water_cement_ratio": (water + mass) / cement,
        }
        return np.log([values[name] for name in names])

    at = np.log([41.0, 22.0, 70.0, 133.0])
    step = 1e-5
    slopes = [
        (quantities(at + step * unit) - quantities(at - step * unit)) / (2 * step)
        for unit in np.eye(4)
    ]
    return int(np.linalg.matrix_rank(np.array(slopes), tol=1e-6))


_SIZES = ("cement_kg", "water_l", "yield_l")
SUBSETS = [subset for count in range(0, 9) for subset in combinations(MIX_QUANTITIES, count)]
SUFFICIENT = [
    subset
    for subset in SUBSETS
    if _rank(subset) == (4 if any(name in subset for name in _SIZES) else 3)
]


def _mix(batch: MixResult, names: tuple[str, ...]) -> Mix:
    return Mix(given=names, **{name: float(getattr(batch, name)) for name in MIX_QUANTITIES})


REFERENCE = solve(Mix())[0]
assert REFERENCE is not None


@pytest.mark.parametrize("subset", SUBSETS, ids="+".join)
def test_every_set_is_solved_or_refused(subset: tuple[str, ...]) -> None:
    """A set is solved just where the derivatives of its quantities are independent enough.

    Oracle: numpy.linalg.matrix_rank of numeric derivatives.
    """
    result, problems, _ = solve(_mix(REFERENCE, subset))
    if subset in SUFFICIENT:
        assert result is not None, problems
        size = 1.0 if any(name in subset for name in _SIZES) else 1000 / REFERENCE.yield_l
        for name in MIX_QUANTITIES:
            scale = size if name in _SIZES else 1.0
            assert getattr(result, name) == pytest.approx(
                getattr(REFERENCE, name) * scale, rel=1e-9
            )
    else:
        assert [problem.code for problem in problems] == ["mix_underdetermined"]
        missing = problems[0].params["missing"]
        assert missing == problems[0].limit - problems[0].value > 0


@pytest.mark.parametrize(
    "subset", [s for s in SUBSETS if s not in SUFFICIENT and len(s) > 1], ids="+".join
)
def test_what_would_help_does_help(subset: tuple[str, ...]) -> None:
    """Each quantity that a refusal proposes brings the batch one nearer to being solved."""
    problem = solve(_mix(REFERENCE, subset))[1][0]
    proposed = str(problem.params["any_of"]).split(",")
    assert proposed != [""]
    for name in proposed:
        assert name not in subset
        assert _rank((*subset, name)) == _rank(subset) + 1


@given(batches, st.sampled_from(SUFFICIENT))
@cases
def test_a_batch_solved_from_its_own_answer_is_itself(
    batch: MixResult, subset: tuple[str, ...]
) -> None:
    """Any sufficient set of a batch's own figures gives the batch back."""
    result, problems, _ = solve(_mix(batch, subset))
    assert result is not None, problems
    size = 1.0 if any(name in subset for name in _SIZES) else 1000 / batch.yield_l
    for name in MIX_QUANTITIES:
        scale = size if name in _SIZES else 1.0
        assert getattr(result, name) == pytest.approx(getattr(batch, name) * scale, rel=1e-8)


@given(batches)
@cases
def test_volumes_and_masses_close(batch: MixResult) -> None:
    """Check value 1.16: absolute volumes make the yield, masses the wet density, to 1e-9."""
    volume = batch.cement_kg / 3.15 + batch.water_l + batch.foam_volume_l
    assert volume == pytest.approx(batch.yield_l, rel=1e-9)
    mass = batch.cement_kg + batch.water_l + batch.foam_mass_kg
    assert mass / batch.yield_l * 1000 == pytest.approx(batch.wet_density_kg_m3, rel=1e-9)
    assert batch.mass_kg == pytest.approx(mass, rel=1e-9)
    assert batch.oven_dry_density_kg_m3 == pytest.approx(
        1.2 * batch.cement_kg / batch.yield_l * 1000, rel=1e-9
    )
    assert batch.air_fraction == pytest.approx(
        (batch.foam_volume_l - batch.foam_mass_kg) / batch.yield_l, rel=1e-9
    )


@given(batches)
@cases
def test_oven_dry_is_lighter_than_wet(batch: MixResult) -> None:
    """Where there is more water than the fifth that stays, drying takes mass away."""
    assert batch.total_water_cement_ratio > 0.2
    assert batch.oven_dry_density_kg_m3 < batch.wet_density_kg_m3


@given(batches, st.floats(0.1, 10))
@cases
def test_size_changes_no_density(batch: MixResult, factor: float) -> None:
    """A batch times a factor keeps its densities and ratios and multiplies the rest."""
    made = batch.times(factor)
    assert made.wet_density_kg_m3 == batch.wet_density_kg_m3
    assert made.water_cement_ratio == batch.water_cement_ratio
    assert made.mass_kg == pytest.approx(batch.mass_kg * factor)
    assert made.yield_l / made.cement_kg == pytest.approx(batch.yield_l / batch.cement_kg)


def test_fields_that_are_not_given_are_not_looked_at() -> None:
    """Stale figures beside the given ones change nothing."""
    stale = evolve(Mix(), wet_density_kg_m3=1900.0, water_cement_ratio=2.0)
    assert solve(stale)[0] == solve(Mix())[0]


def test_a_given_quantity_without_a_value_is_missing() -> None:
    """The problem names the field that was promised and is empty."""
    mix = Mix(given=("wet_density_kg_m3", "water_cement_ratio", "foam_density_kg_m3"))
    result, problems, _ = solve(mix)
    assert result is None
    assert [(p.path, p.code) for p in problems] == [
        ("mix.wet_density_kg_m3", "missing"),
        ("mix.water_cement_ratio", "missing"),
    ]


def test_more_than_enough_must_agree() -> None:
    """Within 0.5 % what is stated twice agrees; beyond, the problem names value and implied value."""
    names = (*Mix().given, "wet_density_kg_m3")
    near = Mix(given=names, wet_density_kg_m3=484.38 * 1.004)
    assert solve(near)[0] is not None
    for factor in (1.006, 0.994):
        far = Mix(given=names, wet_density_kg_m3=484.38 * factor)
        result, problems, _ = solve(far)
        assert result is None
        assert (problems[0].path, problems[0].code) == (
            "mix.wet_density_kg_m3",
            "mix_contradiction",
        )
        assert problems[0].value == 484.38 * factor
        assert problems[0].limit == pytest.approx(484.38, abs=0.01)


def test_what_was_stated_stands_to_the_last_digit() -> None:
    """No rounding creeps into figures that were typed."""
    result = solve(Mix())[0]
    assert result is not None
    assert all(getattr(result, name) == getattr(Mix(), name) for name in Mix().given)


IMPOSSIBLE = [
    # slurry alone is 42.64 / 3.15 + 22.71 = 36.25 L
    (Mix(yield_l=30.0), "mix.yield_l", 36.25),
    # slurry alone weighs (42.64 + 22.71) / 36.25 L
    (
        Mix(
            given=("cement_kg", "water_l", "foam_density_kg_m3", "wet_density_kg_m3"),
            wet_density_kg_m3=1850.0,
        ),
        "mix.wet_density_kg_m3",
        1802.85,
    ),
    # foam cannot be as heavy as water
    (
        Mix(given=("cement_kg", "water_l", "yield_l", "wet_density_kg_m3"), wet_density_kg_m3=1200),
        "mix.given",
        1000.0,
    ),
]


@pytest.mark.parametrize("mix,path,limit", IMPOSSIBLE)
def test_impossible_batches(mix: Mix, path: str, limit: float) -> None:
    """The problem names the quantity that breaks a bound, and the bound."""
    result, problems, _ = solve(mix)
    assert result is None
    assert (problems[0].path, problems[0].code) == (path, "mix_impossible")
    assert problems[0].limit == pytest.approx(limit, abs=0.01)


@given(
    st.sets(st.sampled_from(MIX_QUANTITIES)),
    st.fixed_dictionaries(
        {
            "cement_kg": st.floats(0.1, 5000),
            "water_l": st.floats(0.1, 5000),
            "foam_density_kg_m3": st.floats(10, 400),
            "yield_l": st.floats(1, 20000),
            "wet_density_kg_m3": st.floats(150, 1900),
            "oven_dry_density_kg_m3": st.floats(100, 1700),
            "water_cement_ratio": st.floats(0.2, 2),
            "total_water_cement_ratio": st.floats(0.2, 3),
            "cement_density_kg_m3": st.floats(2000, 4000),
        }
    ),
)
@cases
def test_any_statement_has_an_answer(names: set[str], values: dict[str, float]) -> None:
    """Whatever the limits of the fields allow gives a batch of positive parts or named problems."""
    result, problems, _ = solve(Mix(given=tuple(names), **values))
    assert (result is None) == bool(problems)
    if result is not None:
        assert min(result.cement_kg, result.water_l, result.foam_volume_l, result.yield_l) > 0
        assert result.foam_density_kg_m3 < 1000


NOTES = [
    ({"wet_density_kg_m3": 310.0}, {"wet_density_outside_published": "caution"}),
    ({"wet_density_kg_m3": 320.0}, {}),
    ({"water_cement_ratio": 0.34}, {"water_cement_outside_common": "caution"}),
    ({"water_cement_ratio": 0.81}, {"water_cement_outside_common": "caution"}),
    ({"foam_density_kg_m3": 70.0}, {"foam_density_outside_common": "info"}),
    ({"foam_density_kg_m3": 121.0}, {"foam_density_outside_common": "caution"}),
    ({"foam_density_kg_m3": 64.0}, {}),
]


@pytest.mark.parametrize("change,expected", NOTES)
def test_notes_outside_the_ranges(change: dict[str, float], expected: dict[str, str]) -> None:
    """A figure outside what was published or is common is computed and said, each with its range."""
    values = {"wet_density_kg_m3": 500.0, "water_cement_ratio": 0.5, "foam_density_kg_m3": 50.0}
    result, _, notes = solve(Mix(given=tuple(values), **values | change))
    assert result is not None
    assert {note.code: note.severity for note in notes} == expected
    for note in notes:
        value = float(note.params["value"])
        assert not note.params["low"] <= value <= note.params["high"]
