"""Openings that cannot be built, each with its path, value and limit."""

import math
import time

import pytest
from attrs import evolve
from foamwright.project.model import Opening, Part
from foamwright.shape.measure import measure, measure_part
from foamwright.shape.meridian import hemisphere
from foamwright.shape.openings import azimuths, check, cut, fit, half_angle

INSIDE = hemisphere(6.0, 0.5, 0.2).inside
#: Limits follow from circles: the inside radius at height z is sqrt(9 - (z - 0.5)^2).
HOPELESS = [
    # a rectangle of 0.9 m meets the sphere at 0.5 + sqrt(9 - 0.45^2)
    (Opening(height_m=3.6), "height_m", "opening_too_high", 0.5 + math.sqrt(9 - 0.45**2)),
    # at 2.0 m the sphere is sqrt(9 - 1.5^2) from the axis
    (Opening(width_m=6.0), "width_m", "opening_too_wide", 2 * math.sqrt(9 - 1.5**2)),
    # whatever its height, nothing wider than the floor stands on the floor
    (
        Opening(form="arched", width_m=7.0, height_m=6.0),
        "width_m",
        "opening_too_wide",
        6.0,
    ),
    (Opening(sill_m=3.5), "sill_m", "opening_too_high", 3.5),
    (Opening(form="round", sill_m=2.5, diameter_m=2.0), "diameter_m", "opening_too_high", 1.0),
    # the head of an arch touches the crown when it is as high as the dome
    (Opening(form="arched", height_m=3.5), "height_m", "opening_too_high", 3.5),
    (Opening(form="arched", width_m=2.0, height_m=0.9), "height_m", "arch_head_too_low", 1.0),
    (Opening(sill_m=-0.1), "sill_m", "opening_below_floor", 0.0),
]


@pytest.mark.parametrize("opening,name,code,limit", HOPELESS)
def test_hopeless_openings(opening: Opening, name: str, code: str, limit: float) -> None:
    """The problem names the field, the value and the greatest value that fits."""
    problem = fit(INSIDE, opening, "parts[0].openings[3]")
    assert problem is not None
    assert (problem.path, problem.code) == (f"parts[0].openings[3].{name}", code)
    assert problem.value == getattr(opening, name)
    assert problem.limit == pytest.approx(limit, abs=1e-6)


@pytest.mark.parametrize("opening,name,code,limit", HOPELESS[:2])
def test_the_limit_fits_and_no_more(opening: Opening, name: str, code: str, limit: float) -> None:
    """A hair below the limit fits; a hair above does not."""
    problem = fit(INSIDE, opening, "")
    assert problem is not None and isinstance(problem.limit, float)
    assert fit(INSIDE, evolve(opening, **{name: problem.limit - 1e-6}), "") is None
    assert fit(INSIDE, evolve(opening, **{name: problem.limit + 1e-6}), "") is not None


def test_a_part_with_a_problem_has_no_measures() -> None:
    """There is no shell around a door that is taller than the dome."""
    shape, problems, _ = measure_part(Part(openings=(Opening(height_m=4.0),)), "parts[2]")
    assert shape is None
    assert [problem.path for problem in problems] == ["parts[2].openings[0].height_m"]


def test_overlap_names_both_and_how_far_apart_they_must_be() -> None:
    """Two doors of 0.9 m at stem height need 2 asin(0.45 / 3) and more where the dome leans in."""
    pair = (Opening(height_m=0.5), Opening(height_m=0.5, azimuth_deg=10.0))
    problems, _ = check(INSIDE, pair, "parts[0]")
    assert len(problems) == 1
    assert problems[0].path == "parts[0].openings[1].azimuth_deg"
    assert problems[0].params["first"] == "parts[0].openings[0]"
    assert problems[0].params["second"] == "parts[0].openings[1]"
    least = math.degrees(2 * math.asin(0.45 / 3))
    assert problems[0].limit == pytest.approx(least, abs=1e-9)
    assert problems[0].params["apart_deg"] == pytest.approx(10.0)


@pytest.mark.parametrize("azimuth", [17.4, -17.4, 342.6, 377.4])
def test_neighbours_just_apart(azimuth: float) -> None:
    """At 17.4 degrees two doors clear each other (they need 17.25), whichever way round it is said."""
    pair = (Opening(height_m=0.5), Opening(height_m=0.5, azimuth_deg=azimuth))
    assert check(INSIDE, pair, "") == ((), ())
    nearer = (pair[0], Opening(height_m=0.5, azimuth_deg=azimuth * 0.99))
    if abs(azimuth) < 180:
        assert check(INSIDE, nearer, "")[0][0].code == "openings_overlap"


def test_the_nearest_two_round_windows_may_stand() -> None:
    """The angle needed is the greatest over all heights both share; oracle: a fine comb of heights."""

    def half(z: float, sill: float, radius: float) -> float:
        width = math.sqrt(max(0.0, radius**2 - (z - sill - radius) ** 2))
        return math.asin(width / math.sqrt(9 - max(0.0, z - 0.5) ** 2))

    pair = (
        Opening(form="round", diameter_m=1.0, sill_m=0.6),
        Opening(form="round", diameter_m=0.8, sill_m=0.93, azimuth_deg=5.0),
    )
    heights = [0.93 + 0.67 * i / 100_000 for i in range(100_001)]
    needed = math.degrees(max(half(z, 0.6, 0.5) + half(z, 0.93, 0.4) for z in heights))
    problem = check(INSIDE, pair, "")[0][0]
    assert problem.limit == pytest.approx(needed, abs=1e-7)
    apart = (pair[0], evolve(pair[1], azimuth_deg=needed + 1e-5))
    assert check(INSIDE, apart, "")[0] == ()


def test_an_opening_as_wide_as_the_face_takes_half_of_it() -> None:
    """Where the circle is no wider than the opening, the opening takes the whole front of it."""
    assert half_angle(INSIDE, cut(Opening(width_m=6.0)), 0.0) == math.pi / 2


def test_one_above_the_other_is_no_overlap() -> None:
    """A window that begins where the door ends shares no height with it."""
    above = Opening(form="round", diameter_m=0.5, sill_m=2.0)
    assert check(INSIDE, (Opening(), above), "")[0] == ()
    lower = Opening(form="round", diameter_m=0.5, sill_m=1.99)
    assert check(INSIDE, (Opening(), lower), "")[0][0].code == "openings_overlap"


def test_more_openings_than_fit() -> None:
    """Doors of 0.9 m at the height of the stem take 17.25 degrees each: twenty go round, not 21."""
    door = Opening(height_m=0.5, count=20)
    assert check(INSIDE, (door,), "")[0] == ()
    problem = check(INSIDE, (Opening(height_m=0.5, count=21),), "p")[0][0]
    assert (problem.path, problem.value, problem.limit) == ("p.openings[0].count", 21, 20)
    assert problem.code == "openings_too_many"


def test_repeats_at_a_stated_spacing() -> None:
    """Too close is a matter of the spacing; come round to the first is a matter of the count."""
    close = check(INSIDE, (Opening(count=3, spacing_deg=-5.0),), "p")[0][0]
    assert (close.path, close.code) == ("p.openings[0].spacing_deg", "openings_overlap")
    assert close.params["first"] == close.params["second"] == "p.openings[0]"
    round_again = check(INSIDE, (Opening(count=7, spacing_deg=60.0),), "p")[0][0]
    assert (round_again.path, round_again.limit) == ("p.openings[0].count", 6)
    assert round_again.code == "openings_too_many"
    assert check(INSIDE, (Opening(count=6, spacing_deg=60.0),), "p")[0] == ()


def test_azimuths_go_round_evenly_unless_a_spacing_is_stated() -> None:
    """Repeats stand every 360/count degrees, or at the stated spacing, anticlockwise."""
    assert azimuths(Opening(count=3, azimuth_deg=-30.0)) == (330.0, 90.0, 210.0)
    assert azimuths(Opening(count=3, spacing_deg=20.0)) == (0.0, 20.0, 40.0)


def test_the_widest_angle_is_on_the_inside_face() -> None:
    """A prism takes a larger angle of the inside face than of the outside face."""
    shell = hemisphere(6.0, 0.5, 0.2)
    door = cut(Opening())
    assert half_angle(shell.inside, door, 1.0) > half_angle(shell.outside, door, 1.0)


def test_many_faults_are_told_in_bounded_time() -> None:
    """Thirty-six hundred openings in one another are answered at once and in few words."""
    crowd = tuple(Opening(width_m=0.05, height_m=0.1, sill_m=0.1, count=60) for _ in range(60))
    begun = time.perf_counter()
    problems, _ = check(hemisphere(30.0, 0.5, 0.2).inside, crowd, "")
    assert time.perf_counter() - begun < 2
    assert 1 <= len(problems) <= 20


def test_notes_of_a_part() -> None:
    """Near the crown, low, on another's ground, joined to another: each is said, none stops the work."""
    high = Opening(form="round", diameter_m=0.5, sill_m=2.8)
    codes = {note.code for note in measure_part(Part(openings=(high,)))[2]}
    assert codes == {"opening_near_crown"}
    low = measure_part(Part(inside_diameter_m=2.0, stem_height_m=0.9))
    assert low[0] is not None and low[0].headroom_area_m2 == 0
    assert [note.code for note in low[2]] == ["headroom_none"]
    pair = (Part(), Part(id="b", at_m=(6.3, 0.0)))
    assert "parts_overlap" in {note.code for note in measure(pair)[2]}
    apart = (Part(), Part(id="b", at_m=(6.4, 0.0)))
    assert {note.code for note in measure(apart)[2]} == {"shell_not_checked"}
    leading = (Part(openings=(Opening(to="b"),)), pair[1])
    assert {note.code for note in measure(leading)[2]} == {"joint_not_checked", "shell_not_checked"}
