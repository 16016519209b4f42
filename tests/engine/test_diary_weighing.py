"""The diary's scales: bucket, foam, generator, chart and drainage, against other libraries and by property."""

import math
import random

import pytest
from hypothesis import given
from hypothesis import strategies as st
from iapws import IAPWS97
from properties import cases
from scipy import stats

from foamwright.diary import asked
from foamwright.diary.bucket import (
    Measured,
    Tried,
    calibrate,
    change,
    concentrate,
    judge,
    measured,
    output,
    water_density,
    weigh_foam,
)
from foamwright.diary.chart import LEAST, Point, chart, limits, run, tests as run_tests
from foamwright.diary.drain import Mark, drain
from foamwright.material.density import FoamDensity
from foamwright.project.model import Bucket

wild = st.floats(allow_nan=True, allow_infinity=True)
sane = st.floats(0.001, 1e5)


# --- bucket -----------------------------------------------------------------------------------


def test_water_agrees_with_iapws() -> None:
    """Tanaka's formula against IAPWS-IF97 from the library iapws, 0 to 40 degrees C."""
    for temperature in range(1, 41):
        oracle = IAPWS97(T=273.15 + temperature, P=0.101325).rho
        assert water_density(temperature) == pytest.approx(oracle, abs=0.015)


def test_a_bucket_off_by_temperature_is_told() -> None:
    volume, faults, remarks = calibrate(1500.0, 500.0, 55.0, 1.0)
    assert volume is not None and not faults
    assert [remark.code for remark in remarks] == ["water_temperature_outside"]


def test_uncertainty_of_the_bucket_against_chance() -> None:
    """A hundred thousand draws from the same rectangular distributions spread as the GUM's sum says."""
    volume, _, _ = calibrate(1444.0, 500.0, 20.0, 5.0)
    assert volume is not None
    draw = random.Random(4)
    found = []
    for _ in range(100_000):
        net = 944.0 + draw.uniform(-2.5, 2.5) - draw.uniform(-2.5, 2.5)
        density = water_density(20 + draw.uniform(-1, 1))
        share = 1 + draw.uniform(-0.003, 0.003) + draw.uniform(-0.0011, 0.0011)
        found.append(net / density * share)
    mean = math.fsum(found) / len(found)
    spread = math.sqrt(math.fsum((each - mean) ** 2 for each in found) / len(found))
    assert volume.standard == pytest.approx(spread, rel=0.02)


def test_verdicts() -> None:
    volume = measured(1.0, 0.001)
    expected = {
        85.0: ("below", ""),
        90.0: ("cannot_tell", "low"),
        95.0: ("within", ""),
        100.0: ("cannot_tell", "high"),
        105.0: ("above", ""),
    }
    for net, (verdict, straddles) in expected.items():
        reading, _, remarks = weigh_foam(500 + net, 500.0, volume, 1.0, Bucket())
        assert reading is not None
        assert (reading.verdict, reading.straddles) == (verdict, straddles)
        assert bool(remarks) == (verdict != "within")
        assert reading.off_g == pytest.approx(net - 95.0)
    coarse, _, remarks = weigh_foam(590.0, 500.0, volume, 50.0, Bucket())
    assert coarse is not None and (coarse.verdict, coarse.straddles) == ("cannot_tell", "both")
    assert {remark.code for remark in remarks} == {"scale_too_coarse", "foam_cannot_tell"}


def test_published_windows_stand_beside_the_wanted_one() -> None:
    reading, _, _ = weigh_foam(595.0, 500.0, measured(1.0, 0.001), 1.0, Bucket())
    assert reading is not None
    assert {each.window.code: each.verdict for each in reading.windows} == {
        "wanted": "within",
        "common_practice": "within",
        "attributed_c796": "above",
        "british_practice": "above",
    }
    assert all(each.window.source for each in reading.windows)


def test_gross_below_empty_is_a_problem() -> None:
    for found in (
        calibrate(500.0, 600.0, 20.0, 1.0),
        weigh_foam(500.0, 600.0, measured(1.0, 0.01), 1.0, Bucket()),
    ):
        assert found[0] is None and found[1][0].code == "gross_below_empty"


@cases
@given(wild, wild, wild, wild)
def test_wild_weights_never_raise(gross: float, empty: float, third: float, step: float) -> None:
    volume, faults, _ = calibrate(gross, empty, third, step)
    assert (volume is None) == bool(faults)
    reading, faults, _ = weigh_foam(
        gross, empty, Measured(third, step, third, third), step, Bucket()
    )
    assert (reading is None) == bool(faults)
    for each in (volume, reading.density_kg_m3 if reading else None):
        if each is not None:
            assert each.low <= each.value <= each.high
    made, faults = output(gross, empty, third, step)
    assert (made is None) == bool(faults)
    agent, faults = concentrate(gross, empty, FoamDensity(third), step, gross, empty)
    assert (agent is None) == bool(faults)


@cases
@given(st.floats(10, 200), st.floats(0, 5), st.floats(20, 200), st.floats(1.0, 2.0))
def test_within_is_never_said_where_a_limit_is_straddled(
    value: float, standard: float, low: float, factor: float
) -> None:
    found = measured(value, standard)
    verdict = judge(found, low, low * factor)
    if verdict == "within":
        assert low <= found.low and found.high <= low * factor
    if verdict in ("below", "above"):
        assert not (found.low <= low * factor and found.high >= low)


# --- generator --------------------------------------------------------------------------------


@cases
@given(
    st.lists(st.tuples(st.floats(1, 10), st.floats(1, 10)), min_size=4, max_size=8, unique=True),
    st.floats(-9, -2),
    st.floats(2, 9),
    st.floats(60, 140),
)
def test_a_straight_generator_is_learnt_exactly(
    settings: list[tuple[float, float]], air: float, liquid: float, aim: float
) -> None:
    """Advice that is not cut short, followed on a generator that really is straight, hits the aim."""

    def foam(a: float, b: float) -> float:
        return 95 + air * (a - 5) + liquid * (b - 5)

    tried = tuple(Tried(a, b, foam(a, b)) for a, b in settings)
    advice, _ = change(tried, aim, 0.0)
    for each in advice:
        a, b = settings[-1]
        made = foam(each.to, b) if each.control == "air" else foam(a, each.to)
        assert made == pytest.approx(each.expected_kg_m3, abs=1e-3)
        if not each.limited:
            assert made == pytest.approx(aim, abs=1e-3)
        values = [setting[each.control == "liquid"] for setting in settings]
        span = max(values) - min(values)
        assert max(0, min(values) - span / 2) <= each.to <= max(values) + span / 2


def test_the_slope_is_that_of_scipy() -> None:
    air, density = (2.0, 2.5, 3.0, 3.5), (112.0, 107.5, 103.5, 98.0)
    tried = tuple(Tried(a, 1.0, d) for a, d in zip(air, density, strict=True))
    advice, _ = change(tried, 95.0, 0.5)
    assert advice[0].slope == pytest.approx(stats.linregress(air, density).slope, rel=1e-12)
    assert (advice[0].control, advice[0].direction, advice[0].limited) == ("air", "more", False)


def test_no_advice_where_nothing_can_be_learnt() -> None:
    def codes(*tried: Tried) -> list[str]:
        advice, remarks = change(tried, 95.0, 0.8)
        assert advice == ()
        return [remark.code for remark in remarks]

    assert codes() == ["generator_settings_too_few"]
    assert codes(Tried(3, 2, 110), Tried(3, 2, 104)) == ["generator_settings_too_few"]
    assert codes(Tried(3, 2, 110), Tried(4, 1, 104)) == ["generator_settings_together"]
    assert codes(Tried(3, 2, 110), Tried(4, 2, 109.5)) == ["generator_no_effect"]
    assert codes(Tried(3, 2, 104), Tried(4, 2, 110)) == ["generator_contrary"]
    assert codes(Tried(3, 2, 110), Tried(3, 3, 104)) == ["generator_contrary"]


def test_no_setting_is_led_far_beyond_what_was_tried() -> None:
    advice, remarks = change((Tried(3, 2, 140), Tried(4, 2, 135)), 95.0, 0.5)
    assert advice[0].to == 4.5 and advice[0].limited
    assert advice[0].expected_kg_m3 == pytest.approx(132.5)
    assert [remark.code for remark in remarks] == ["generator_step_limited"]


@cases
@given(st.lists(st.tuples(wild, wild, wild), max_size=10))
def test_wild_settings_never_raise(tried: list[tuple[float, float, float]]) -> None:
    advice, _ = change(tuple(Tried(*each) for each in tried), 95.0, 0.5)
    assert all(math.isfinite(each.to) and each.to >= 0 for each in advice)


def test_output_and_concentrate() -> None:
    made, _ = output(100.0, 50.0, 123.0, 0.5)
    assert made is not None
    assert made.l_per_min.value == pytest.approx(120.0)
    assert made.seconds.value == pytest.approx(61.5)
    assert made.seconds.low < 61.5 < made.seconds.high
    agent, _ = concentrate(40.0, 123.0, FoamDensity(95.0), 94.0, 20.0, 8.0)
    assert agent is not None
    solution = 123.0 * 95.0 / 1000
    assert agent.per_batch_l == pytest.approx(solution / 41)
    assert agent.per_job_l == pytest.approx(94 * solution / 41)
    assert (agent.containers, agent.days_per_container) == (2, pytest.approx(20 / (solution / 41) / 8))


# --- chart ------------------------------------------------------------------------------------


def fires(values: list[float]) -> set[int]:
    return {each.test for each in run_tests(values, 0.0, 1.0) if each.last == len(values) - 1}


#: Least patterns that fire each of Nelson's eight tests, written from their wording.
PATTERNS = {
    1: [3.1],
    2: [0.2] * 9,
    3: [-0.5, -0.3, -0.1, 0.1, 0.3, 0.5],
    4: [0.3, -0.3] * 7,
    5: [2.1, 0.0, 2.1],
    6: [1.1, 1.2, 0.0, 1.1, 1.2],
    7: [0.3, -0.2, 0.5, -0.6, -0.1] * 3,
    8: [1.2, -1.3, 1.4, -1.2, -1.5, 1.3, 1.1, -1.2],
}


@pytest.mark.parametrize("test", PATTERNS)
def test_each_test_fires_on_its_pattern_and_not_one_point_sooner(test: int) -> None:
    pattern = PATTERNS[test]
    assert test in fires(pattern)
    assert test in fires([-value for value in pattern])
    assert test not in fires(pattern[1:] if len(pattern) > 1 else [2.9])


def test_limits_are_not_passed_at_their_very_value() -> None:
    assert fires([3.0]) == set()
    assert 2 not in fires([0.2] * 8 + [0.0])


def readings(values: list[float], agent: str = "x", dilution: float = 40.0) -> list[Point]:
    return [Point(f"a-{i}", "2026-05-01T08:00", "g", agent, dilution, v) for i, v in enumerate(values)]


STEADY = [95 + each for each in (0.1, -0.8, 1.2, -0.3, 0.6, -1.5, 0.4, 0.9, -0.6, -0.2) * 2]


def test_below_twenty_the_window_alone_judges() -> None:
    found, remarks = chart(readings(STEADY[:19]), 90.0, 100.0)
    assert (found.judged_by, found.verdict, found.signals) == ("window", "go_on", ())
    assert remarks[0].code == "chart_too_few"
    wandering = [*STEADY[:18], 99.9]
    assert chart(readings(wandering), 90.0, 100.0)[0].verdict == "go_on"
    found, remarks = chart(readings([*STEADY[:5], 101.0]), 90.0, 100.0)
    assert found.verdict == "stop" and remarks[-1].params["reason"] == "window"


def test_the_chart_stops_a_drift_that_the_window_does_not_see() -> None:
    slide = [94.6, 94.1, 93.6, 93.0, 92.4, 91.8]
    assert chart(readings([*STEADY, slide[0]]), 90.0, 100.0)[0].verdict == "go_on"
    found, remarks = chart(readings([*STEADY, *slide]), 90.0, 100.0)
    assert (found.judged_by, found.verdict, found.outside_window) == ("chart", "stop", False)
    assert "test_3" in {remark.params.get("reason") for remark in remarks}
    # The limits are those of the first twenty: the slide has not widened them.
    assert found.limits == limits(STEADY)


def test_any_change_starts_anew_and_days_are_pooled() -> None:
    assert len(run(readings(STEADY))) == LEAST
    mixed = readings(STEADY) + readings([95.0], agent="y")
    assert chart(mixed, 90.0, 100.0)[0].judged_by == "window"
    assert len(run(readings(STEADY) + readings([95.0], dilution=35.0))) == 1


def test_equal_readings_fire_nothing() -> None:
    found, remarks = chart(readings([95.1] * 25), 90.0, 100.0)
    assert found.verdict == "go_on" and found.signals == ()
    assert [remark.code for remark in remarks] == ["chart_no_spread"]


@cases
@given(st.lists(wild, max_size=40))
def test_wild_readings_never_break_the_chart(values: list[float]) -> None:
    found, _ = chart(readings(values), 90.0, 100.0)
    assert found.verdict in ("go_on", "look", "stop", "none")


# --- drainage ---------------------------------------------------------------------------------


def test_drainage_of_a_known_curve() -> None:
    """Foam that drains evenly, half in forty minutes: a quarter in twenty."""
    found, _, _ = drain(100.0, tuple(Mark(float(t), 1.25 * t) for t in range(5, 65, 5)), 40.0)
    assert found is not None
    assert (found.quarter_minutes, found.half_minutes) == (20.0, 40.0)
    assert found.hour_share == pytest.approx(0.75) and found.hour_grade == "qualified"
    assert found.own_ratio == 0.5


def test_drainage_verdicts() -> None:
    def verdict(*marks: tuple[float, float]) -> tuple[str, list[str]]:
        found, faults, remarks = drain(100.0, tuple(Mark(*each) for each in marks))
        assert found is not None and not faults
        return found.verdict, [remark.code for remark in remarks]

    assert verdict((4.0, 30.0)) == ("soon", ["drain_soon"])
    assert verdict((10.0, 26.0)) == ("middling", [])
    assert verdict((10.0, 5.0)) == ("cannot_tell", ["drain_not_reached"])
    assert verdict((20.0, 5.0)) == ("holds", ["drain_not_reached"])


def test_drainage_that_cannot_be() -> None:
    def codes(*marks: tuple[float, float]) -> set[str]:
        return {each.code for each in drain(100.0, tuple(Mark(*mark) for mark in marks))[1]}

    assert codes() == {"too_few"}
    assert codes((5, 30), (4, 40)) == {"drain_not_rising"}
    assert codes((5, 30), (6, 20)) == {"drain_not_rising"}
    assert codes((5, 130)) == {"drain_more_than_liquid"}
    assert drain(100.0, (Mark(5, 30),), 1.0)[2][-1].code != "drain_worse_than_own"
    assert drain(100.0, (Mark(5, 30),), 20.0)[2][-1].code == "drain_worse_than_own"


@cases
@given(wild, st.lists(st.tuples(wild, wild), max_size=6), st.none() | wild)
def test_wild_drainage_never_raises(
    net: float, marks: list[tuple[float, float]], own: float | None
) -> None:
    found, faults, _ = drain(net, tuple(Mark(*each) for each in marks), own)
    assert (found is None) == bool(faults)


# --- questions --------------------------------------------------------------------------------


def codes(*args: float, others: tuple[asked.Known, ...] = ()) -> list[str]:
    return [each.code for each in asked.ask(*args, others=others)]


def test_slips_are_asked_about() -> None:
    assert codes(500.0, 595.0, 1.0, 90.0, 100.0) == ["gross_below_empty"]
    assert codes(500.0, 595.0, 9.0, 90.0, 100.0)[0] == "gross_below_empty"
    assert codes(95.0, 500.0, 1.0, 90.0, 100.0) == ["gross_below_empty", "net_typed_as_gross"]
    assert codes(20.99, 17.64, 1.0, 90.0, 100.0) == ["scale_in_ounces"]
    assert codes(950.0, 0.0, 1.0, 90.0, 100.0) == ["typed_ten_times"]
    assert codes(9.5, 0.0, 1.0, 90.0, 100.0) == ["typed_a_tenth"]
    assert codes(0.595, 0.5, 1.0, 90.0, 100.0) == ["scale_in_kilograms"]
    assert codes(400.0, 0.0, 1.0, 90.0, 100.0) == ["reading_far_off"]
    # A miss of 15 % is a reading to be judged and not a slip.
    assert codes(77.0, 0.0, 1.0, 90.0, 100.0) == codes(114.0, 0.0, 1.0, 90.0, 100.0) == []
    assert codes(76.0, 0.0, 1.0, 90.0, 100.0) == ["reading_far_off"]
    assert codes(116.0, 0.0, 1.0, 90.0, 100.0) == ["reading_far_off"]
    large = asked.Known("large", 5.0, 700.0)
    question, = asked.ask(1175.0, 500.0, 1.0, 90.0, 100.0, (large,))
    assert question.code == "other_bucket" and question.meant is not None
    assert (question.meant.bucket, question.meant.density_kg_m3) == ("large", 95.0)


@cases
@given(st.floats(91, 99), st.floats(0.5, 5), st.floats(100, 1000))
def test_every_slip_of_a_good_reading_leads_back_to_it(
    density: float, volume: float, empty: float
) -> None:
    """A true reading is typed wrongly; the question offers the true one again."""
    gross = empty + density * volume
    typed = {
        "scale_in_ounces": (gross / 28.349523125, empty / 28.349523125),
        "scale_in_kilograms": (gross / 1000, empty / 1000),
        "gross_below_empty": (empty, gross),
        "typed_ten_times": (gross * 10, empty),
    }
    assert asked.ask(gross, empty, volume, 90.0, 100.0) == ()
    for code, (full, bare) in typed.items():
        found = {each.code: each for each in asked.ask(full, bare, volume, 90.0, 100.0)}
        meant = found[code].meant  # type: ignore[index]
        assert meant is not None and meant.density_kg_m3 == pytest.approx(density, rel=1e-6)


@cases
@given(st.floats(-1e6, 1e6), st.floats(-1e6, 1e6), st.floats(0.1, 50))
def test_a_reading_is_taken_or_asked_about(gross: float, empty: float, volume: float) -> None:
    questions = asked.ask(gross, empty, volume, 90.0, 100.0)
    near = gross > empty and 76.5 <= (gross - empty) / volume <= 115.0
    assert near == (questions == ())
