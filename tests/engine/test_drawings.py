"""Plans and elevations to scale: every place against its closed form, the same for every reader, nothing on top of another."""

import json
import math
import random
import re
from itertools import combinations
from typing import Any

import attrs
import pytest
from foamwright.estimate import estimate
from foamwright.project.model import FACES, PLAN_FORMS, PROFILES, SHAPES, Fill, Opening, Part, Project, Wall
from foamwright.reader import Reader, languages, speaker
from foamwright.shape.meridian import meridian
from foamwright.shape.openings import cut
from foamwright.shape.views import gaps, placed, radii, rings, seen, sights
from foamwright.shape.wall import cylinder, outline
from foamwright.sheets import drawings
from foamwright.sheets.desk import Desk
from foamwright.sheets.paper import GROWN, LETTER_MM, SCALES, UNITS, apart, bar_length
from hypothesis import given
from hypothesis import strategies as st

DOOR = Opening(form="arched")
WINDOWS = Opening(form="round", sill_m=1.2, azimuth_deg=45.0, count=4)
ELL = ((0.0, 0.0), (6.0, 0.0), (6.0, 3.0), (3.0, 3.0), (3.0, 5.0), (0.0, 5.0))
VAULT = Part(
    shape="vault", thickness_m=0.3, openings=(
        Opening(form="arched", face="end_a", along_m=1.6),
        Opening(width_m=0.8, height_m=0.8, sill_m=0.9, face="side_a", along_m=1.5),
        Opening(width_m=0.6, height_m=0.6, sill_m=0.9, face="side_b", along_m=1.5),
        Opening(form="round", sill_m=1.0, face="end_b", along_m=1.6),
    ),
)  # fmt: skip
WALL = Part(shape="wall", plan_form="polygon", plan=ELL, openings=(
    Opening(side=1, along_m=2.0), Opening(side=2, width_m=1.0, height_m=1.0, sill_m=1.0)))  # fmt: skip
THREE = (
    Part(id="main", openings=(DOOR, WINDOWS)),
    Part(id="annex", at_m=(0.0, 7.0), inside_diameter_m=4.0, openings=(Opening(form="arched", azimuth_deg=160.0, width_m=0.8, height_m=1.8),)),
    Part(id="barn", shape="vault", at_m=(9.0, 1.0), bearing_deg=30.0, thickness_m=0.3, openings=(attrs.evolve(DOOR, face="end_b"),)),
)
PROJECTS: dict[str, tuple[Part, ...]] = {
    "dome": (Part(openings=(DOOR, WINDOWS)),),
    "bare": (Part(),),
    "pointed": (Part(profile="pointed", rise_m=4.0, stem_height_m=0.0, crown_opening_m=0.6, openings=(attrs.evolve(DOOR, azimuth_deg=20.0),)),),
    "twelve": (Part(openings=tuple(
        Opening(form="round", diameter_m=0.3, sill_m=1.0 + 0.05 * i, azimuth_deg=30.0 * i) for i in range(12))),),
    "vault": (VAULT,),
    "open vault": (Part(shape="vault", ends="one", profile="catenary", rise_m=2.6),),
    "ell": (WALL,),
    "clockwise": (attrs.evolve(WALL, plan=tuple(reversed(ELL)), openings=(Opening(side=2),)),),
    "run": (attrs.evolve(WALL, plan_form="run", openings=(Opening(side=1),)),),
    "gable": (Part(shape="wall", wall=Wall(gable_rise_m=1.2, build="infill"), openings=(Opening(side=2),)),),
    "round wall": (Part(shape="wall", plan_form="circle", openings=(Opening(count=3),)),),
    "three": THREE,
    "fill": (Part(), Part(id="roof", shape="fill", at_m=(12.0, 0.0)), Part(id="void", shape="fill", fill=Fill(kind="void"))),
    "tall": (Part(inside_diameter_m=3.5, stem_height_m=5.0, profile="pointed", rise_m=6.0, thickness_m=0.05),),
    "barred": (Part(shape="vault", inside_span_m=4.0, length_m=6.2, thickness_m=0.1, openings=(Opening(face="side_b", height_m=1.2),)),),
    "small": (Part(inside_diameter_m=0.5, stem_height_m=0.0, thickness_m=0.03),),
    "long": (Part(shape="vault", length_m=100.0, thickness_m=0.4, openings=(Opening(face="side_a", height_m=1.5, sill_m=0.4, count=20),)),),
}  # fmt: skip
TAGS = [language.tag for language in languages()]
READERS = [Reader(language=tag, units=units) for tag in TAGS for units in ("metric", "us")]


def _blocks(parts: tuple[Part, ...], **reader: Any) -> list[dict[str, Any]]:
    project = Project(parts=parts)
    outcome = estimate(project)
    assert outcome.estimate is not None, outcome.problems
    return drawings.blocks(Desk(project, outcome, speaker(Reader(**reader))))


def _drawn(parts: tuple[Part, ...], **reader: Any) -> list[dict[str, Any]]:
    return [block for block in _blocks(parts, **reader) if block["kind"] == "drawing"]


def _scale(svg: str) -> int:
    (found,) = re.findall(r"Scale 1:(\d+),", svg)
    return int(found)


def _points(d: str) -> list[tuple[float, float]]:
    out: list[tuple[float, float]] = []
    for letter, first, second in re.findall(r"([MLHV])(-?[\d.]+)(?: (-?[\d.]+))?", d):
        across = float(first) if letter != "V" else out[-1][0]
        up = float(second) if second else float(first) if letter == "V" else out[-1][1]
        out.append((across, up))
    return out


def _of(svg: str, kind: str) -> list[list[tuple[float, float]]]:
    return [_points(d) for d in re.findall(rf'<path class="{kind}" d="([^"]*)"', svg)]


def _holes(svg: str, opening: int, kind: str = "hole") -> list[list[tuple[float, float]]]:
    found = re.findall(rf'data-path="parts\[0\]\.openings\[{opening}\]\.form"[^>]*><path class="{kind}" d="([^"]*)"', svg)
    return [_points(d) for d in found]


class _Frame:
    """Page coordinates back into metres: the shell's own edge is known."""

    def __init__(self, svg: str, left: float) -> None:
        self.unit = 1000.0 / _scale(svg) * UNITS
        (ground,) = _of(svg, "ground")
        self.floor = ground[0][1]
        self.zero = ground[0][0] + 2.0 * UNITS - left * self.unit

    def back(self, points: list[tuple[float, float]]) -> list[tuple[float, float]]:
        return [((x - self.zero) / self.unit, (self.floor - y) / self.unit) for x, y in points]


# --- what is seen, against points in space ----------------------------------------------------


@given(
    azimuth=st.floats(0, 360), viewer=st.sampled_from([0.0, 90.0, 180.0, 270.0]), sill=st.floats(0.0, 1.5), share=st.floats(-1, 1),
    form=st.sampled_from(["rectangular", "arched", "round"]),
)  # fmt: skip
def test_what_is_seen_of_an_opening_agrees_with_points_in_space(azimuth: float, viewer: float, sill: float, share: float, form: str) -> None:
    """A point of the prism on the outside face, turned into the view by vectors, lies within what is drawn where it faces the viewer."""
    part = Part(stem_height_m=0.4)
    shell, section = meridian(part), cut(Opening(form=form, width_m=0.9, height_m=1.2, diameter_m=0.8, sill_m=sill))
    edge = seen(shell, section, azimuth - viewer)
    height = section.low_m + (section.high_m - section.low_m) * (share + 1) / 2
    across = section.half_width(height) * share
    # The sphere or the stem in closed form.
    radius = 3.2 if height < 0.4 else math.sqrt(3.2**2 - (height - 0.4) ** 2)
    deep = math.sqrt(radius**2 - across**2)
    a, v = math.radians(azimuth), math.radians(viewer)
    x, y = deep * math.cos(a) - across * math.sin(a), deep * math.sin(a) + across * math.cos(a)
    towards = x * math.cos(v) + y * math.sin(v)
    right = y * math.cos(v) - x * math.sin(v)
    if towards < 0 and not edge:
        return
    if not edge:
        # Next to nothing of it faces the viewer.
        assert abs((azimuth - viewer + 180) % 360 - 180) > 75
        return
    low = min(px for px, _ in edge)
    high = max(px for px, _ in edge)
    if towards > 0:
        assert low - 1e-9 <= right <= high + 1e-9
        assert min(pz for _, pz in edge) - 1e-9 <= height <= max(pz for _, pz in edge) + 1e-9
        if form == "rectangular":
            assert _inside((right, height), edge, 0.012)


def _inside(point: tuple[float, float], ring: tuple[tuple[float, float], ...], slack: float) -> bool:
    """Whether a point lies in a ring or so near to it that the chords of a curved edge explain it."""
    x, y = point
    within, near = False, math.inf
    for (ax, ay), (bx, by) in zip(ring, (*ring[1:], ring[0]), strict=True):
        if (ay > y) != (by > y) and x < ax + (y - ay) / (by - ay) * (bx - ax):
            within = not within
        long = math.dist((ax, ay), (bx, by)) or 1.0
        share = max(0.0, min(1.0, ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / long**2))
        near = min(near, math.dist((x, y), (ax + share * (bx - ax), ay + share * (by - ay))))
    return within or near <= slack


@pytest.mark.parametrize("turn", [0.0, 30.0, -45.0, 70.0])
def test_edges_of_a_window_in_a_round_wall(turn: float) -> None:
    """R sin(turn -+ asin(w / R)) at every height, since a round wall is upright."""
    part = Part(shape="wall", plan_form="circle")
    shell, radius = cylinder(part), 3.2
    edge = seen(shell, cut(Opening(width_m=1.0, height_m=1.0, sill_m=0.8)), turn)
    half = math.degrees(math.asin(0.5 / radius))
    right, left = (radius * math.sin(math.radians(turn + sign * half)) for sign in (1, -1))
    assert sorted({round(x, 9) for x, _ in edge}) == pytest.approx([left, right])
    assert {min(z for _, z in edge), max(z for _, z in edge)} == {0.8, 1.8}


def test_what_faces_away_is_not_seen() -> None:
    part = PROJECTS["dome"][0]
    turned = [(sight.opening, round(sight.turn_deg)) for sight in sights(part, meridian(part), 0.0)]
    assert turned == [(1, -45), (0, 0), (1, 45)]
    assert [sight.opening for sight in sights(part, meridian(part), 180.0)] == [1, 1]
    # Square to the view a door is a sliver of R (1 - cos(asin(w / R))), three of its ninety centimetres.
    assert seen(meridian(part), cut(DOOR), 90.0) == ()
    assert seen(meridian(part), cut(DOOR), 80.0)


# --- the drawings against closed forms --------------------------------------------------------


def test_a_dome_is_drawn_where_it_stands() -> None:
    plan, _, front, back = _drawn(PROJECTS["dome"])
    assert _scale(front["svg"]) == 50
    frame = _Frame(front["svg"], -3.2)
    (shell,) = _of(front["svg"], "shell")
    for x, z in frame.back(shell):
        radius = 3.2 if z < 0.5 else math.sqrt(max(0.0, 3.2**2 - (z - 0.5) ** 2))
        assert abs(x) == pytest.approx(radius, abs=0.04 if z > 3.6 else 0.004)
    (door,) = _holes(front["svg"], 0)
    xs, zs = zip(*frame.back(door), strict=True)
    # An arched door 0.9 wide on the outside: the foot is on the stem, straight on.
    assert (min(xs), max(xs), min(zs), max(zs)) == pytest.approx((-0.45, 0.45, 0.0, 2.0), abs=0.002)
    for window, sign in zip(_holes(front["svg"], 1), (-1, 1), strict=True):
        xs, zs = zip(*frame.back(window), strict=True)
        assert (min(zs), max(zs)) == pytest.approx((1.2, 1.8), abs=0.002)
        middle = math.sqrt(3.2**2 - (1.5 - 0.5) ** 2)
        half = math.asin(0.3 / middle)
        want = sorted(sign * middle * math.sin(math.radians(45) + k * half) for k in (-1, 1))
        assert _crossed(frame.back(window), 1.5) == pytest.approx(want, abs=0.004)
    assert len(_holes(back["svg"], 0)) == 0 and len(_holes(back["svg"], 1)) == 2
    assert "90°" in back["title"] and "270°" in back["title"] and "180°" in back["title"]
    beds = _of(front["svg"], "springing")[0]
    made = estimate(Project(parts=PROJECTS["dome"])).estimate
    assert made is not None
    heights = [course.outside_height_m for course in made.blocks.courses if course.outside_height_m > 1e-6]
    assert [z for _, z in frame.back(beds)][::2] == pytest.approx(heights, abs=0.002)
    # On the plan the gap stands at its azimuth, as wide as the opening.
    assert _scale(plan["svg"]) == 50
    ends = [_points(d) for d in re.findall(r'inside_diameter_m"[^>]*><path class="dim" d="([^"]*)"', plan["svg"])]
    (x0, y0), (x1, _) = ends[-1][:2]
    centre = ((x0 + x1) / 2, y0)
    assert x1 - x0 == pytest.approx(6.0 * 20 * UNITS, abs=0.11)
    for window, azimuth in zip(_holes(plan["svg"], 1, "jamb"), (45.0, 135.0, 225.0, 315.0), strict=True):
        x = sum(px for px, _ in window) / 4 - centre[0]
        y = centre[1] - sum(py for _, py in window) / 4
        assert math.degrees(math.atan2(y, x)) % 360 == pytest.approx(azimuth, abs=0.1)
        assert math.dist(window[0], window[1]) == pytest.approx(0.6 * 20 * UNITS, abs=0.2)


def _crossed(ring: list[tuple[float, float]], height: float) -> list[float]:
    """Where a level line meets the edge of a ring."""
    out = []
    for (ax, az), (bx, bz) in zip(ring, (*ring[1:], ring[0]), strict=True):
        if (az > height) != (bz > height):
            out.append(ax + (height - az) / (bz - az) * (bx - ax))
    return sorted(out)


@pytest.mark.parametrize("profile", ["hemisphere", "pointed", "catenary", "segment"])
def test_a_section_is_the_shell_cut(profile: str) -> None:
    """Its area is that between both faces, less what the door at azimuth 0 takes; beds lie square in it."""
    part = Part(profile=profile, rise_m={"segment": 1.9, "pointed": 3.6}.get(profile, 2.8), openings=(attrs.evolve(DOOR, height_m=1.7),))
    (made,) = [block for block in _drawn((part,)) if block["id"] == "scale-section-0"]
    shell = meridian(part)
    frame = _Frame(made["svg"], -max(x for x, _ in shell.outside.points(200)))
    (d,) = re.findall(r'<path class="shell" d="([^"]*)"', made["svg"])
    drawn = sum(abs(_area(frame.back(_points("M" + piece)))) for piece in d.split("M")[1:])
    (gone,) = [_area(frame.back(_points(d))) for d in re.findall(r'<path class="jamb" d="([^"]*)"', made["svg"])]
    low, high, steps = 0.0, shell.outside.crown_m, 4000
    want = door = 0.0
    for i in range(steps):
        z = low + (high - low) * (i + 0.5) / steps
        near = shell.inside.radius(z) if z < shell.inside.crown_m else 0.0
        want += 2 * (shell.reach(z) - near) * (high - low) / steps
        if z < 1.7:
            door += (shell.reach(z) - near) * (high - low) / steps
    assert drawn == pytest.approx(want - door, rel=0.012)
    # Its edge is that of the opening's middle and sides, so a little less than the strip at the axis.
    assert abs(gone) == pytest.approx(door, rel=0.15)
    assert f"{shell.inside.crown_m:.2f}" in made["svg"] and f"{shell.inside.crown_m:.2f}" in made["words"]


def _area(ring: list[tuple[float, float]]) -> float:
    return sum(ax * bz - bx * az for (ax, az), (bx, bz) in zip(ring, (*ring[1:], ring[0]), strict=True)) / 2


def test_gaps_stand_on_both_faces() -> None:
    for part in (PROJECTS["dome"][0], PROJECTS["round wall"][0]):
        near, far = radii(part)
        for gap in gaps(part):
            away = [math.hypot(*corner) for corner in gap.corners_m]
            assert away == pytest.approx([near, near, far, far])
            assert gap.azimuth_deg is not None
            middle = math.degrees(math.atan2(gap.outside_m[1], gap.outside_m[0])) % 360
            assert middle == pytest.approx(gap.azimuth_deg % 360)
    for gap in gaps(WALL):
        side = outline(WALL).sides[int(gap.wall or 0) - 1]
        assert math.dist(gap.inside_m, gap.outside_m) == pytest.approx(WALL.thickness_m)
        assert math.dist(gap.inside_m, side.start) == pytest.approx(gap.along_m)


def _vector_view(part: Part, x: float, y: float, out: tuple[float, float]) -> float:
    """How far right a viewer outside, who looks against ``out``, sees a point of the plan."""
    return out[0] * y - out[1] * x


@pytest.mark.parametrize(("wall", "out", "opening"), [
    ("side_a", (0.0, 1.0), 1), ("side_b", (0.0, -1.0), 2), ("end_a", (-1.0, 0.0), 0), ("end_b", (1.0, 0.0), 3),
])  # fmt: skip
def test_a_vault_is_seen_from_the_right_side(wall: str, out: tuple[float, float], opening: int) -> None:
    """Side a is on the left of whoever looks from end a to end b; places count from end a and from side a."""
    names = {"side_a": "Side A", "side_b": "Side B", "end_a": "End A", "end_b": "End B"}
    (made,) = [block for block in _drawn((VAULT,)) if block["title"].endswith(names[wall])]
    long = wall.startswith("side")
    left = -3.3 if long else -2.3
    frame = _Frame(made["svg"], left)
    (hole,) = _holes(made["svg"], opening)
    xs, zs = zip(*frame.back(hole), strict=True)
    x, y = (1.5 - 3.0, 2.0 * out[1]) if long else (3.0 * out[0], 2.0 - 1.6)
    assert (min(xs) + max(xs)) / 2 == pytest.approx(_vector_view(VAULT, x, y, out), abs=0.003)
    section = cut(VAULT.openings[opening])
    assert (min(zs), max(zs)) == pytest.approx((section.low_m, section.high_m), abs=0.003)
    assert max(xs) - min(xs) == pytest.approx(2 * section.half_m, abs=0.01)
    assert all(not _holes(made["svg"], other) for other in range(4) if other != opening)


@pytest.mark.parametrize("plan", [ELL, tuple(reversed(ELL))])
def test_a_wall_is_seen_from_outside(plan: tuple[tuple[float, float], ...]) -> None:
    part = attrs.evolve(WALL, plan=plan, openings=(Opening(side=2, along_m=0.9, width_m=0.6),))
    line = outline(part)
    side = line.sides[1]
    (made,) = [block for block in _drawn((part,)) if "side 2" in block["title"]]
    ends = [_vector_view(part, *point, side.out) for point in (side.start, side.end)]
    left = min(ends)
    reach = [_vector_view(part, *point, side.out) for point in (side.at(-0.2 * side.first_tan), side.at(side.length_m + 0.2 * side.second_tan))]
    frame = _Frame(made["svg"], min(reach) - left)
    (hole,) = _holes(made["svg"], 0)
    xs, _ = zip(*frame.back(hole), strict=True)
    assert (min(xs) + max(xs)) / 2 == pytest.approx(_vector_view(part, *side.at(0.9), side.out) - left, abs=0.003)


def test_the_whole_stands_at_its_places() -> None:
    whole = _drawn(THREE)[0]
    unit = 1000.0 / _scale(whole["svg"]) * UNITS
    circles = [
        tuple(map(float, found))
        for found in re.findall(r"M(-?[\d.]+) (-?[\d.]+)A([\d.]+) ", whole["svg"])
    ]
    middles = {(round(x - r, 1), y, round(r / unit, 2)) for x, y, r in circles}
    main = next((x, y) for x, y, r in middles if r == 3.2)
    annex = next((x, y) for x, y, r in middles if r == 2.2)
    assert (annex[0] - main[0], main[1] - annex[1]) == pytest.approx((0.0, 7.0 * unit), abs=0.3)
    barn = [_points(d) for d in re.findall(r'class="shell" d="(M[^"A]*)"', whole["svg"])][0]
    want = [placed(THREE[2], corner) for corner in rings(THREE[2])[0].corners_m]
    got = [((x - main[0]) / unit, (main[1] - y) / unit) for x, y in barn[:4]]
    for have, right in zip(got, want, strict=True):
        assert have == pytest.approx(right, abs=0.004)
    assert "9.06" in whole["svg"] and "9.06" in whole["words"] and "7.00" in whole["svg"]


def test_a_part_that_is_turned_tells_its_own_azimuths_alone_and_turned_ones_in_the_whole() -> None:
    turned = Part(id="b", at_m=(12.0, 0.0), bearing_deg=30.0, openings=(attrs.evolve(DOOR, azimuth_deg=15.0),))
    drawn = {block["id"]: block for block in _drawn((Part(), turned))}
    assert ">45°<" in drawn["scale-whole"]["svg"] and ">15°<" in drawn["scale-plan-1"]["svg"]


# --- every reader -----------------------------------------------------------------------------


def _coordinates(svg: str) -> list[str]:
    """All that places anything, save the plates behind labels, whose width follows the words, and the foot of the page."""
    body = svg[: svg.index('<g class="foot">')]
    body = re.sub(r'<rect class="plate"[^>]*>', "", body)
    return re.findall(r'(?:\bd|\bx|\by)="([^"]*)"', body)


@pytest.mark.parametrize("name", PROJECTS)
def test_geometry_is_the_same_for_every_reader(name: str) -> None:
    plain = [_coordinates(block["svg"]) for block in _drawn(PROJECTS[name])]
    assert plain and all(len(found) > 5 for found in plain)
    for reader in READERS:
        here = _drawn(PROJECTS[name], language=reader.language, units=reader.units)
        assert [_coordinates(block["svg"]) for block in here] == plain


def _boxes(svg: str) -> list[tuple[float, float, float, float, str]]:
    """Where letters stand once they have grown about the middle of their label [mm]."""
    out = []
    for x, y, size, words in re.findall(r'<text x="([^"]*)" y="([^"]*)" font-size="([^"]*)"[^>]*>([^<]*)<', svg):
        em = float(size) / UNITS * GROWN
        seen_ = "".join(letter for letter in words if letter not in "\u2068\u2069\u200e\u200f\u2066\u2067")
        wide = sum(0.3 if letter in ".,: °'" else 0.58 for letter in seen_) * em
        middle = float(y) / UNITS - float(size) / UNITS * 0.35
        out.append((float(x) / UNITS - wide / 2, middle - em * 0.42, float(x) / UNITS + wide / 2, middle + em * 0.42, words))
    return out


@pytest.mark.parametrize("reader", READERS, ids=str)
@pytest.mark.parametrize("name", PROJECTS)
def test_labels_stand_on_the_page_and_clear_of_each_other(name: str, reader: Reader) -> None:
    for block in _drawn(PROJECTS[name], language=reader.language, units=reader.units):
        _, _, wide, tall = map(float, re.findall(r'viewBox="([^"]*)"', block["svg"])[0].split())
        assert wide / UNITS == 180.0 and tall / UNITS <= 236.0
        assert f'width="{wide / UNITS:g}mm"' in block["svg"] and block["print_mm"] == [180.0, tall / UNITS]
        boxes = _boxes(block["svg"])
        assert len(boxes) >= 3
        for left, top, right, bottom, words in boxes:
            assert left >= -0.5 and right <= 180.5 and top >= -0.5 and bottom <= tall / UNITS + 0.5, (block["title"], words)
        for one, two in combinations(boxes, 2):
            apart_ = one[0] >= two[2] or two[0] >= one[2] or one[1] >= two[3] or two[1] >= one[3]
            assert apart_, (block["title"], one[4], two[4])
        sizes = {float(size) for size in re.findall(r'font-size="([^"]*)"', block["svg"])}
        # 13.5 pixels where the drawing is 307 pixels wide, as on a page of 345.
        assert min(sizes) * GROWN * 307 / 900 >= 13.5 and sizes == {LETTER_MM * UNITS}
        for points in re.findall(r'\bd="([^"]*)"', block["svg"]):
            for x, y in _points(points):
                assert -1 <= x <= wide + 1 and -1 <= y <= tall + 1


def _any_part(source: random.Random, number: int) -> Part:
    shape = source.choice(SHAPES)
    openings = tuple(
        Opening(
            form=source.choice(["rectangular", "arched", "pointed", "round"]), width_m=source.uniform(0.3, 1.4),
            height_m=source.uniform(0.8, 2.2), diameter_m=source.uniform(0.2, 1.0), sill_m=source.choice([0.0, source.uniform(0, 1.5)]),
            azimuth_deg=source.uniform(-360, 360), count=source.choice([1, 1, 2, 3]), face=source.choice(FACES),
            side=source.randint(1, 4), along_m=source.choice([None, source.uniform(0.5, 3)]),
        )
        for _ in range(source.randint(0, 4))
    )  # fmt: skip
    return Part(
        id=f"p{number}", shape=shape, profile=source.choice(PROFILES), inside_diameter_m=source.choice([source.uniform(0.5, 12), 30.0]),
        stem_height_m=source.choice([0.0, source.uniform(0, 2)]), thickness_m=source.uniform(0.05, 0.6),
        at_m=(source.uniform(-30, 30), source.uniform(-30, 30)), bearing_deg=source.uniform(-360, 360),
        inside_span_m=source.uniform(0.5, 9), length_m=source.uniform(0.5, 20), ends=source.choice(["both", "one", "open"]),
        crown_opening_m=source.choice([0.0, source.uniform(0, 1)]), plan_form=source.choice(PLAN_FORMS),
        openings=openings if shape not in ("fill", "blocks") else (),
        wall=Wall(height_m=source.uniform(1, 5), gable_rise_m=source.choice([0.0, 1.5]), build=source.choice(["blocks", "infill"])),
    )  # fmt: skip


@pytest.mark.parametrize("seed", range(4))
def test_labels_stay_clear_in_any_project(seed: int) -> None:
    source, done = random.Random(seed), 0
    while done < 12:
        project = Project(parts=tuple(_any_part(source, i) for i in range(source.choice([1, 1, 2, 4]))))
        outcome = estimate(project)
        if outcome.estimate is None:
            continue
        done += 1
        for block in drawings.blocks(Desk(project, outcome, speaker(Reader(units=source.choice(["metric", "us"]))))):
            if block["kind"] != "drawing":
                continue
            tall = block["print_mm"][1]
            boxes = _boxes(block["svg"])
            assert tall <= 236.0 and "nan" not in block["svg"]
            assert all(b[0] >= -0.5 and b[2] <= 180.5 and b[1] >= -0.5 and b[3] <= tall + 0.5 for b in boxes), (seed, block["title"])
            for one, two in combinations(boxes, 2):
                assert one[0] >= two[2] or two[0] >= one[2] or one[1] >= two[3] or two[1] >= one[3], (seed, block["title"], one[4], two[4])


@pytest.mark.parametrize("units", ["metric", "us"])
@pytest.mark.parametrize("name", PROJECTS)
def test_words_carry_every_dimension(name: str, units: str) -> None:
    """Whatever a drawing tells is in its words too, lengths with their unit; and what is seen stands in each button's own name."""
    for block in _drawn(PROJECTS[name], units=units):
        body = block["svg"][: block["svg"].index('<g class="foot">')]
        told = block["words"].replace("\u00a0", " ")
        for path, label, inner in re.findall(r'<g class="touch" data-path="([^"]*)"[^>]*aria-label="([^"]*)">(.*?)</g>', body):
            if "<text" not in inner:
                continue
            (shown,) = re.findall(r">([^<]+)</text>", inner)
            assert shown in label, (path, shown, label)
            if path.endswith(".id"):
                continue
            if path.endswith(".thickness_m"):
                # The words say it in the unit of a thickness.
                part = PROJECTS[name][int(path[6 : path.index("]")])]
                label = speaker(Reader(units=units)).quantity(part.thickness_m, "length_small")  # type: ignore[arg-type]
            assert label.replace("\u00a0", " ") in told, (block["title"], path, label, told)
        if block["id"] == "scale-whole":
            # What leads to no field is told here alone.
            for number in re.findall(r">(\d+\.\d+)<", body):
                assert number in told, number


def test_the_table_holds_every_opening_and_where_it_leads() -> None:
    blocks = _blocks((VAULT,))
    (table,) = [block for block in blocks if block["kind"] == "table"]
    assert [row[0]["text"] for row in table["rows"]] == ["1", "2", "3", "4"]
    where = [row[4]["text"].replace("\u00a0", " ") for row in table["rows"]]
    assert where[0] == "End A, 1.60 m from the inside of side A" and where[1] == "Side A, 1.50 m from end A"


def test_what_must_not_be_built_says_so_on_its_own_pages_alone() -> None:
    thin = Part(id="thin", shape="vault", thickness_m=0.1, at_m=(20.0, 0.0))
    for block in _drawn((Part(id="good", stem_height_m=0.0), thin)):
        own = block["id"] == "scale-whole" or "thin" in block["title"]
        assert ("Not to be built" in block["svg"]) == own, block["title"]


def test_parts_alike_are_drawn_once_and_touches_lead_to_fields() -> None:
    parts = tuple(attrs.evolve(PROJECTS["dome"][0], id=f"p{i}", at_m=(8.0 * i, 0.0)) for i in range(4))
    drawn = _drawn(parts)
    assert [block["id"] for block in drawn] == ["scale-whole", "scale-plan-0", "scale-section-0", "scale-face-0-0", "scale-face-0-1"]
    assert all(name in drawn[1]["title"] for name in ("p0", "p1", "p2", "p3"))
    project = Project(parts=parts)
    desk = Desk(project, estimate(project), speaker(Reader()))
    paths = {path for block in drawn for path in re.findall(r'data-path="([^"]*)"', block["svg"])}
    assert {"parts[0].stem_height_m", "parts[0].openings[1].sill_m", "parts[0].openings[1].azimuth_deg"} <= paths
    assert all(desk.field_text(path) is not None for path in paths)


def test_a_view_of_many_parts_stays_small() -> None:
    """Twenty different domes with sixty openings: drawings of some 5 kB each."""
    parts = tuple(
        Part(id=f"p{i}", inside_diameter_m=3.0 + 0.1 * i, at_m=(9.0 * i, 0.0), openings=(
            attrs.evolve(DOOR, width_m=0.8, height_m=1.6), attrs.evolve(WINDOWS, count=2, sill_m=0.9))) for i in range(20))  # fmt: skip
    drawn = _drawn(parts)
    assert len(drawn) == 101 and len(json.dumps(drawn)) < 5_500 * len(drawn)


# --- the page ---------------------------------------------------------------------------------


def test_scales_and_bars() -> None:
    for scale in SCALES:
        for unit in (1.0, 0.3048):
            long = bar_length(scale, unit)
            assert 20.0 <= long * 1000 / scale <= 60.0 + 1e-9
            assert f"{long / unit:.6g}".strip("0.") in ("1", "2", "5")


@given(st.lists(st.floats(0, 200), min_size=1, max_size=20))
def test_places_are_parted_and_keep_their_order(wanted: list[float]) -> None:
    places = apart(sorted(wanted), 10.0)
    assert all(b - a >= 10.0 - 1e-6 for a, b in zip(places, places[1:], strict=False))
    assert len(places) == len(wanted)
    if all(b - a >= 10.0 for a, b in zip(sorted(wanted), sorted(wanted)[1:], strict=False)):
        assert places == pytest.approx(sorted(wanted))


def test_a_passage_runs_from_room_to_room() -> None:
    """Two domes six and a half metres apart: from 3.2 m on one side to 3.0 m on the other is 0.3 m, drawn to a tenth."""
    first = Part(id="a", openings=(Opening(form="arched", to="b"),))
    second = Part(id="b", at_m=(6.5, 0.0))
    blocks_ = _blocks((first, second))
    whole = next(block for block in blocks_ if block.get("id") == "scale-whole")
    assert "Opening 1 of a leads to b." in whole["words"] and "6.50" in whole["words"]
    rooms = [points for points in _of(whole["svg"], "room") if len(points) == 4]
    (run,) = rooms
    unit = 1000.0 / _scale(whole["svg"]) * UNITS
    wide = max(x for x, _ in run) - min(x for x, _ in run)
    assert wide / unit == pytest.approx(3.2 * math.cos(math.asin(0.45 / 3.2)) - 3.0 * math.cos(math.asin(0.45 / 3.0)) + 0.4, abs=0.11)
    table = next(block for block in blocks_ if block["kind"] == "table" and "Openings" in block["caption"])
    assert "leads to b" in table["rows"][0][1]["text"]
