"""Walls and fills against closed forms, solid modelling (manifold3d, trimesh) and what must hold of all of them."""

import json
import math
import random
from typing import Any

import attrs
import manifold3d as m3
import numpy as np
import pytest
import trimesh
from foamwright import page
from foamwright.estimate import estimate
from foamwright.finishes.ground import plan as base_plan
from foamwright.project.model import Fill, Opening, Order, Part, Project, Wall
from foamwright.project.read import read_project
from foamwright.project.write import write_project
from foamwright.reader import Reader, speaker
from foamwright.shape.fill import measure_fill
from foamwright.shape.measure import measure, measure_part
from foamwright.shape.plan import plan_of, shared_depth
from foamwright.shape.wall import Point, beam_heights, frame, measure_wall, outline, pieces, places, posts_along
from foamwright.sheets.desk import Desk
from foamwright.sheets.drawing_wall import drawn_sides
from foamwright.sheets.problems import problem_text
from foamwright.sheets.view import view
from hypothesis import assume, given
from hypothesis import strategies as st
from properties import cases

ELL = ((0.0, 0.0), (6.0, 0.0), (6.0, 3.0), (3.0, 3.0), (3.0, 5.0), (0.0, 5.0))
SKEW = ((0.0, 0.0), (5.0, -1.0), (6.5, 2.5), (3.5, 2.0), (2.0, 4.5), (-1.0, 3.0))


def _wall(plan: tuple[Point, ...] = ELL, form: str = "polygon", **changes: object) -> Part:
    return attrs.evolve(Part(shape="wall", plan_form=form, plan=plan, thickness_m=0.2), **changes)


# --- closed forms -----------------------------------------------------------------------------


def test_rectangle() -> None:
    """Source: closed form, (a + 2t)(b + 2t) h - a b h with a 6, b 4, t 0.3, h 2.5."""
    made, _, _ = measure_part(Part(shape="wall", thickness_m=0.3, wall=Wall(height_m=2.5)))
    assert made is not None
    assert made.shell_volume_m3 == pytest.approx((6.6 * 4.6 - 24) * 2.5, rel=1e-12)
    assert made.inside_area_m2 == pytest.approx(20 * 2.5, rel=1e-12)
    assert made.outside_area_m2 == pytest.approx(22.4 * 2.5, rel=1e-12)
    assert (made.floor_area_m2, made.headroom_area_m2) == (24.0, 24.0)
    assert made.footprint_m2 == pytest.approx(6.6 * 4.6, rel=1e-12)


def test_ell() -> None:
    """Source: closed form: the L of 24 m2 grows by its outline of 22 m times t and by 4 t2 (five corners out, one in)."""
    made, _, _ = measure_part(_wall(wall=Wall(height_m=2.0)))
    assert made is not None
    assert made.floor_area_m2 == 24.0
    assert made.footprint_m2 == pytest.approx(24 + 22 * 0.2 + 4 * 0.04, rel=1e-12)
    assert made.shell_volume_m3 == pytest.approx((22 * 0.2 + 4 * 0.04) * 2, rel=1e-12)
    assert made.outside_area_m2 == pytest.approx((22 + 8 * 0.2) * 2, rel=1e-12)


def test_circle() -> None:
    """Source: closed form, pi ((r + t)^2 - r^2) h; an opening takes the strips of both discs."""
    hole = Opening(width_m=1.0, height_m=1.0, sill_m=0.5)
    part = Part(shape="wall", plan_form="circle", thickness_m=0.25, openings=(hole,))
    made, _, _ = measure_part(part)
    assert made is not None

    def strip(radius: float) -> float:
        return 0.5 * math.sqrt(radius**2 - 0.25) + radius**2 * math.asin(0.5 / radius)

    gone = strip(3.25) - strip(3.0)
    assert made.openings_volume_m3 == pytest.approx(gone, rel=1e-9)
    assert made.shell_volume_m3 == pytest.approx(math.pi * (3.25**2 - 9) * 2.4 - gone, rel=1e-9)
    assert made.inside_area_m2 == pytest.approx(2 * math.pi * 3 * 2.4 - 2 * 3 * math.asin(0.5 / 3), rel=1e-9)


def test_run_and_its_ends() -> None:
    """Source: closed form: the middle line times thickness times height, whatever the corners; both ends are faces."""
    made, _, _ = measure_part(_wall(((0.0, 0.0), (4.0, 0.0), (4.0, 3.0)), "run", wall=Wall(height_m=2.0)))
    assert made is not None
    assert made.shell_volume_m3 == pytest.approx(7 * 0.2 * 2, rel=1e-12)
    assert made.inside_area_m2 == pytest.approx((7 - 0.2) * 2, rel=1e-12)
    assert made.outside_area_m2 == pytest.approx((7 + 0.2) * 2 + 2 * 0.2 * 2, rel=1e-12)
    assert (made.floor_area_m2, made.headroom_area_m2) == (0.0, 0.0)


def test_gable() -> None:
    """Source: closed form on a straight run, where no corner cuts the gable: half of length times rise times thickness."""
    part = _wall(((0.0, 0.0), (5.0, 0.0)), "run", wall=Wall(height_m=2.0, gable_rise_m=1.2, gable_sides=(1,)))
    assert measure_wall(part).gables_volume_m3 == pytest.approx(5 * 1.2 / 2 * 0.2, rel=1e-12)
    made, _, _ = measure_part(part)
    assert made is not None
    assert made.inside_area_m2 == pytest.approx(10 + 3, rel=1e-12)
    assert (made.height_m, made.outside_height_m) == (2.0, 3.2)


def test_fills() -> None:
    """Source: closed forms: a wedge over a rectangle, a right triangle falling along a leg, a disc, a layer."""
    wedge = Part(shape="fill", fill=Fill(depth_m=0.04, slope_fraction=0.025))
    assert measure_fill(wedge).volume_m3 == pytest.approx(24 * (0.04 + 0.025 * 3), rel=1e-12)
    triangle = Part(
        shape="fill", plan_form="polygon", plan=((0.0, 0.0), (6.0, 0.0), (0.0, 3.0)),
        fill=Fill(depth_m=0.05, slope_fraction=0.02, fall_deg=180.0),
    )  # fmt: skip
    # Lowest on the leg at x = 0; the centre of the area is 2 m from it.
    assert measure_fill(triangle).volume_m3 == pytest.approx(9 * (0.05 + 0.02 * 2), rel=1e-12)
    assert measure_fill(triangle).greatest_m == pytest.approx(0.17, rel=1e-12)
    disc = attrs.evolve(wedge, plan_form="circle")
    assert measure_fill(disc).volume_m3 == pytest.approx(math.pi * 9 * (0.04 + 0.025 * 3), rel=1e-12)
    layer = Part(shape="fill", fill=Fill(kind="layer", depth_m=0.1))
    assert measure_fill(layer).volume_m3 == pytest.approx(2.4, rel=1e-12)
    assert measure_fill(layer).fall_m is None
    assert measure_fill(Part(shape="fill", fill=Fill(kind="void", volume_m3=7.5))).volume_m3 == 7.5


def test_frame_against_counting_by_hand() -> None:
    """Source: worked by hand: a 6 by 4 m room of 0.2 m walls, posts at most 3 m apart.

    Middle lines of 6.2 and 4.2 m take 3 and 2 bays, so 2 (3 + 2) = 10 posts of 0.15 by 0.2 m, 2.2 m high between beams;
    one beam of 20.8 m, 0.2 by 0.2 m.
    """
    part = Part(shape="wall", wall=Wall(build="infill"))
    made = frame(part)
    assert made is not None
    assert (made.posts, made.beams) == (10, 1)
    assert made.posts_m3 == pytest.approx(10 * 0.15 * 0.2 * 2.2, rel=1e-12)
    assert made.beams_m3 == pytest.approx(20.8 * 0.2 * 0.2, rel=1e-12)
    assert measure_wall(part).shell_volume_m3 == pytest.approx(20.8 * 0.2 * 2.4 - 0.66 - 0.832, rel=1e-12)


# --- solid modelling --------------------------------------------------------------------------


def _polygon(ring: list[Point] | tuple[Point, ...]) -> m3.CrossSection:
    return m3.CrossSection([np.array(ring)], m3.FillRule.Positive)


def _offset(part: Part) -> m3.CrossSection:
    """The plan of a closed wall by an independent offset of its inside outline (mitred joins)."""
    inner = _polygon(part.plan)
    return inner.offset(part.thickness_m, m3.JoinType.Miter, 20.0) - inner


def _hole(part: Part, opening: Opening, along: float) -> m3.Manifold:
    """The prism of an opening, square through its side, drawn anew from the words of the project file."""
    side = part.plan[opening.side - 1], part.plan[opening.side % len(part.plan)]
    (x0, y0), (x1, y1) = side
    turn = math.degrees(math.atan2(y1 - y0, x1 - x0))
    if opening.form == "round":
        radius = opening.diameter_m / 2
        angles = np.linspace(0, 2 * math.pi, 256, endpoint=False)
        outline_ = np.c_[np.cos(angles) * radius, opening.sill_m + radius + np.sin(angles) * radius]
    else:
        half, low, high = opening.width_m / 2, opening.sill_m, opening.sill_m + opening.height_m
        corners = [(-half, low), (half, low)]
        if opening.form == "arched":
            corners += [(half * math.cos(a), high - half + half * math.sin(a)) for a in np.linspace(0, math.pi, 129)]
        else:
            corners += [(half, high), (-half, high)]
        outline_ = np.array(corners)
    deep = 1.2 * part.thickness_m
    prism = m3.CrossSection([outline_]).extrude(deep).rotate([90, 0, 0]).translate([along, part.thickness_m * 0.1, 0])
    # Extruded along +z and laid down it reaches towards -y: outward of a side whose plan lies on its left.
    return prism.rotate([0, 0, turn]).translate([x0, y0, 0])


@pytest.mark.parametrize("plan", [ELL, SKEW], ids=["ell", "skew"])
def test_polygon_with_openings_against_solids(plan: tuple[Point, ...]) -> None:
    """Volume and faces agree within 0.5 % with booleans of solids.

    Source: manifold3d (offset by Clipper2, booleans) and trimesh. The solid is flat-sided but for the heads of openings, whose
    128 chords lie within 1e-4 of the arc, so that its own error stays below 1e-5 of the wall.
    """
    openings = (
        Opening(form="arched", side=1, along_m=1.2),
        Opening(form="round", side=3, diameter_m=0.8, sill_m=1.0),
        Opening(side=5, width_m=0.8, height_m=0.9, sill_m=1.0, along_m=1.3),
    )
    part = _wall(plan, openings=openings)
    made, problems, _ = measure_part(part)
    assert made is not None, problems
    solid = _offset(part).extrude(part.wall.height_m)
    for opening in openings:
        for along in places(part, opening):
            solid -= _hole(part, opening, along)
    assert made.shell_volume_m3 == pytest.approx(solid.volume(), rel=5e-3)
    mesh = solid.to_mesh()
    body = trimesh.Trimesh(mesh.vert_properties[:, :3], mesh.tri_verts, process=False)
    flat = np.abs(body.face_normals[:, 2]) < 1e-3
    ring = np.array(plan)
    on_inside = np.zeros(len(body.faces), dtype=bool)
    for a, b in zip(ring, np.roll(ring, -1, axis=0), strict=True):
        way = (b - a) / np.linalg.norm(b - a)
        off = np.abs((body.vertices[:, 0] - a[0]) * way[1] - (body.vertices[:, 1] - a[1]) * way[0])
        along = (body.vertices[:, 0] - a[0]) * way[0] + (body.vertices[:, 1] - a[1]) * way[1]
        near = (off < 1e-5) & (along > -1e-5) & (along < np.linalg.norm(b - a) + 1e-5)
        on_inside |= near[body.faces].all(axis=1)
    assert made.inside_area_m2 == pytest.approx(float(body.area_faces[on_inside & flat].sum()), rel=5e-3)


def test_gables_on_mitres_against_solids() -> None:
    """A gable between slanting corners agrees within 0.5 % with the solid: its mitred foot under two sloping planes.

    Source: manifold3d booleans of flat-sided solids, whose own error is rounding.
    """
    part = _wall(SKEW, wall=Wall(height_m=2.0, gable_rise_m=1.4, gable_sides=(2, 5)))
    whole = 0.0
    for number in (2, 5):
        side = outline(part).sides[number - 1]
        foot = _polygon(tuple(reversed(pieces(part)[number - 1]))).extrude(1.4)
        half = side.middle_m / 2
        roof = m3.CrossSection([np.array([(-half, 0.0), (half, 0.0), (0.0, 1.4)])]).extrude(4.0).rotate([90, 0, 0])
        turn = math.degrees(math.atan2(side.end[1] - side.start[1], side.end[0] - side.start[0]))
        middle = side.at(side.from_m + half)
        roof = roof.translate([0, 2.0, 0]).rotate([0, 0, turn]).translate([*middle, 0])
        whole += (foot ^ roof).volume()
    assert measure_wall(part).gables_volume_m3 == pytest.approx(whole, rel=5e-3)


def test_fill_to_falls_against_solids() -> None:
    """A fill of any outline and direction agrees within 0.5 % with a prism cut by its plane.

    Source: manifold3d; flat-sided, so that its own error is rounding.
    """
    for turn in (0.0, 37.0, 200.0):
        part = Part(shape="fill", plan_form="polygon", plan=SKEW, fill=Fill(slope_fraction=0.05, fall_deg=turn))
        way = np.array([-math.cos(math.radians(turn)), -math.sin(math.radians(turn))])
        low = min(np.array(SKEW) @ way)
        normal = np.array([-0.05 * way[0], -0.05 * way[1], 1.0])
        size = np.linalg.norm(normal)
        solid = _polygon(SKEW).extrude(2.0).trim_by_plane(list(-normal / size), -(0.05 - 0.05 * low) / size)
        assert measure_fill(part).volume_m3 == pytest.approx(solid.volume(), rel=5e-3)


# --- what must hold of all walls --------------------------------------------------------------


@st.composite
def stars(draw: st.DrawFn) -> tuple[Point, ...]:
    """Plans that see their own middle, so that they never cross themselves."""
    count = draw(st.integers(3, 9))
    radii = [draw(st.floats(2.0, 6.0)) for _ in range(count)]
    return tuple(
        (r * math.cos(2 * math.pi * i / count), r * math.sin(2 * math.pi * i / count)) for i, r in enumerate(radii)
    )


def _measured(part: Part) -> tuple[float, float, float, float]:
    made, _, _ = measure_part(part)
    assume(made is not None)
    assert made is not None
    return made.shell_volume_m3, made.inside_area_m2, made.outside_area_m2, made.footprint_m2


@cases
@given(stars(), st.floats(0.05, 0.4), st.floats(0.05, 0.4))
def test_volume_grows_with_thickness(plan: tuple[Point, ...], first: float, second: float) -> None:
    thin, thick = sorted((first, second))
    assume(thick > thin * 1.001)
    assert _measured(_wall(plan, thickness_m=thin))[0] < _measured(_wall(plan, thickness_m=thick))[0]


@cases
@given(stars(), st.floats(0, 360), st.floats(-50, 50), st.integers(0, 8))
def test_turned_shifted_mirrored_and_counted_from_elsewhere(
    plan: tuple[Point, ...], turn: float, shift: float, start: int
) -> None:
    c, s = math.cos(math.radians(turn)), math.sin(math.radians(turn))
    moved = tuple((c * x - s * y + shift, s * x + c * y - shift) for x, y in plan)
    first = start % len(plan)
    whole = _measured(_wall(plan))
    for other in (moved, tuple((-x, y) for x, y in plan), tuple(reversed(plan)), (*plan[first:], *plan[:first])):
        assert _measured(_wall(other)) == pytest.approx(whole, rel=1e-9)
    run = _measured(_wall(plan, "run"))
    turned = _measured(_wall(tuple(reversed(plan)), "run"))
    mirrored = _measured(_wall(tuple((-x, y) for x, y in plan), "run"))
    assert turned[0] == pytest.approx(run[0], rel=1e-9) and mirrored[0] == pytest.approx(run[0], rel=1e-9)
    assert sum(mirrored[1:3]) == pytest.approx(sum(run[1:3]), rel=1e-9)


@cases
@given(stars(), st.floats(0.05, 0.4))
def test_corners_are_counted_once(plan: tuple[Point, ...], thick: float) -> None:
    """The pieces of a wall are as large together as what lies between its outlines, and as its middle line says."""
    part = _wall(plan, thickness_m=thick)
    _measured(part)
    line = outline(part)
    whole = sum(abs(_signed(piece)) / 2 for piece in pieces(part))
    assert whole == pytest.approx(line.footprint_m2 - line.floor_m2, rel=1e-9)
    assert whole == pytest.approx(line.middle_m * thick, rel=1e-9)
    made, _, _ = measure_part(part)
    assert made is not None
    strip = base_plan(part, made)
    assert strip.outline(thick) == pytest.approx(line.footprint_m2, rel=1e-9)
    assert strip.inside(thick) == pytest.approx(line.floor_m2, rel=1e-9) or strip.inside(thick) == 0


def _signed(ring: tuple[Point, ...]) -> float:
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(ring, (*ring[1:], ring[0]), strict=True))


def test_parts_add_up() -> None:
    parts = (
        _wall(id="a"), Part(id="b", shape="fill", fill=Fill(kind="void", volume_m3=2.0)),
        Part(id="c", shape="blocks", order=Order(50, 0.4, 0.2)), Part(id="d", at_m=(40.0, 0.0)),
    )  # fmt: skip
    whole, problems, _ = measure(parts)
    assert whole is not None, problems
    alone = [measure((part,))[0] for part in parts]
    for name in ("shell_volume_m3", "inside_area_m2", "outside_area_m2", "floor_area_m2", "footprint_m2"):
        assert getattr(whole, name) == pytest.approx(sum(getattr(one, name) for one in alone), rel=1e-12)
    assert whole.parts[2].shell_volume_m3 == pytest.approx(50 * 0.4 * 0.2 * 0.2, rel=1e-12)


def test_ordered_blocks_are_counted_as_ordered_and_fills_are_poured() -> None:
    order = Project(parts=(Part(shape="blocks", order=Order(120, 0.4, 0.2), thickness_m=0.1),))
    made = estimate(order).estimate
    assert made is not None
    assert (made.blocks.count, made.blocks.to_cast) == (120, 124)
    assert made.blocks.volume_m3 == pytest.approx(0.008)
    poured = estimate(Project(parts=(Part(shape="fill"),))).estimate
    assert poured is not None
    assert poured.blocks.count == 0 and poured.batches.to_mix > 0 and poured.money.per_floor_area is None


def test_posts_stand_on_their_side_and_share_the_corner() -> None:
    part = _wall(wall=Wall(build="infill", ring_beams=2))
    for i, side in enumerate(outline(part).sides):
        spots = posts_along(part, i)
        gaps = {round(b[0] - a[1], 9) for a, b in zip(spots, spots[1:], strict=False)}
        assert len(gaps) == 1 and gaps.pop() <= part.wall.post_spacing_m
        assert (spots[0][0] + spots[0][1]) / 2 == pytest.approx(side.from_m)
    assert beam_heights(part)[-1][1] == part.wall.height_m


# --- whose ground is whose --------------------------------------------------------------------


def test_shared_ground_against_solids() -> None:
    """Walls are said to share ground with a neighbour just where their plans do.

    Source: manifold3d's cross-sections (Clipper2), 200 random pairs (fixed seed); slivers below 1 cm2 are left out.
    """
    source = random.Random(5)
    told = {True: 0, False: 0}
    for _ in range(200):
        wall = _wall(source.choice((ELL, SKEW)), at_m=(source.uniform(-6, 6), source.uniform(-6, 6)), bearing_deg=source.uniform(0, 360))
        other = source.choice((
            Part(inside_diameter_m=3.0, at_m=(source.uniform(-6, 6), 0.0)),
            Part(shape="vault", ends="open", inside_span_m=2.0, length_m=3.0, bearing_deg=source.uniform(0, 90)),
            _wall(ELL, at_m=(source.uniform(-6, 6), 2.0)),
        ))  # fmt: skip
        area = (_ground(wall) ^ _ground(other)).area()
        if 0 < area < 1e-4:
            continue
        deep = shared_depth(plan_of(wall), plan_of(other))
        assert (deep > 1e-9) == (area > 0), (wall, other, deep, area)
        told[area > 0] += 1
    assert min(told.values()) > 20


def _ground(part: Part) -> m3.CrossSection:
    if part.shape == "wall":
        found = m3.CrossSection()
        for piece in pieces(part):
            found += _polygon(tuple(reversed(piece)) if _signed(piece) < 0 else piece)
        return found
    plan = plan_of(part)
    if plan.radius_m:
        return m3.CrossSection.circle(plan.radius_m, 720).translate(list(plan.at_m))
    return m3.CrossSection.square([2 * h for h in plan.half_m], True).rotate(plan.bearing_deg).translate(list(plan.at_m))


# --- what no wall is --------------------------------------------------------------------------

BAD = {
    "plan_crosses_itself": _wall(((0.0, 0.0), (4.0, 4.0), (4.0, 0.0), (0.0, 4.0))),
    "plan_too_few": _wall(((0.0, 0.0),), "run"),
    "plan_side_short": _wall(((0.0, 0.0), (4.0, 0.0), (4.0, 0.0), (0.0, 4.0))),
    "wall_corner_sharp": _wall(((0.0, 0.0), (4.0, 0.0), (0.0, 0.5))),
    "wall_side_short": _wall(((0.0, 0.0), (6.0, 0.0), (6.0, 4.0), (3.1, 4.0), (3.1, 1.0), (2.9, 1.0), (2.9, 4.0), (0.0, 4.0))),
    "wall_meets_itself": _wall(
        ((0.0, 0.0), (6.0, 0.0), (6.0, 4.0), (3.1, 4.0), (3.5, 1.0), (2.5, 1.0), (2.9, 4.0), (0.0, 4.0))
    ),
    "side_missing": _wall(openings=(Opening(side=7),)),
    "opening_beyond_wall": _wall(openings=(Opening(side=4, along_m=1.9),)),
    "opening_too_wide": _wall(openings=(Opening(side=4, width_m=2.5),)),
    "opening_too_high": _wall(openings=(Opening(side=1, height_m=2.5),)),
    "openings_overlap": _wall(openings=(Opening(side=1, along_m=2.0), Opening(side=1, along_m=2.5))),
    "openings_too_many": _wall(openings=(Opening(side=4, count=3),)),
    "beams_too_high": _wall(wall=Wall(build="infill", ring_beams=3, ring_beam_height_m=0.8)),
    "posts_too_wide": _wall(wall=Wall(build="infill", post_spacing_m=0.3, post_width_m=0.4)),
    "plan_open": Part(shape="fill", plan_form="run"),
}  # fmt: skip


@pytest.mark.parametrize("code", BAD)
def test_bad_walls_get_a_sentence_that_names_the_part(code: str) -> None:
    """The sentence names the part, or the field with its opening; another part beside it changes nothing."""
    part = attrs.evolve(BAD[code], id="shed")
    project = Project(parts=(Part(at_m=(50.0, 0.0)), part))
    outcome = estimate(project)
    assert [problem.code for problem in outcome.problems] == [code]
    said = problem_text(Desk(project, outcome, speaker(Reader())), outcome.problems[0])
    assert "shed" in said or "Part 2" in said, said
    assert "%" not in said and "None" not in said


def test_a_tall_window_fits_under_a_gable_and_not_beside_it() -> None:
    window = Opening(form="arched", side=2, width_m=0.8, height_m=1.0, sill_m=2.0)
    house = Part(shape="wall", openings=(window,), wall=Wall(gable_rise_m=1.5))
    assert measure_part(house)[0] is not None
    aside = attrs.evolve(house, openings=(attrs.evolve(window, along_m=0.6),))
    (problem,) = measure_part(aside)[1]
    assert problem.code == "opening_too_high" and isinstance(problem.limit, float) and problem.limit < 1.0
    lower = attrs.evolve(house, openings=(attrs.evolve(window, along_m=0.6, height_m=problem.limit * 0.98),))
    assert measure_part(lower)[0] is not None or problem.limit < 0.4


@pytest.mark.parametrize("part", [
    _wall(openings=(Opening(side=2), Opening(form="round", side=5, sill_m=1.0))),
    _wall(tuple(reversed(ELL)), openings=(Opening(side=2),), wall=Wall(gable_rise_m=1.0, build="infill")),
    _wall(ELL, "run", openings=(Opening(side=1),)),
    Part(shape="wall", plan_form="circle", openings=(Opening(count=2),), wall=Wall(build="infill")),
    Part(shape="wall", wall=Wall(gable_rise_m=1.5, gust_m_s=20.0, brace_kn=1.0)),
    Part(shape="fill"), Part(shape="fill", plan_form="circle"), Part(shape="fill", fill=Fill(kind="layer")),
    Part(shape="fill", fill=Fill(kind="void")), Part(shape="blocks"),
])  # fmt: skip
@pytest.mark.parametrize("units", ["metric", "us"])
def test_every_shape_has_sheets_drawings_and_form(part: Part, units: str) -> None:
    project = Project(parts=(part,))
    made = view(project, speaker(Reader(units=units)))  # type: ignore[arg-type]
    assert made["sheets"], made["problems"]
    drawn = [block for block in made["sheets"][0]["blocks"] if block["kind"] == "drawing"]
    flat = part.shape == "wall" and part.plan_form != "circle"
    planned = part.shape == "wall" or (part.shape == "fill" and part.fill.kind != "void")
    assert len(drawn) == planned + (len(drawn_sides(part)) if flat else 0)
    assert all(block["words"] and "<svg" in block["svg"] and "nan" not in block["svg"] for block in drawn)
    plain = view(project, speaker(Reader()))["sheets"][0]["blocks"]
    for metric, here in zip([b for b in plain if b["kind"] == "drawing"], drawn, strict=True):
        # The same lines for every reader; labels alone differ.
        assert _lines(metric["svg"]) == _lines(here["svg"])


def _lines(svg: str) -> list[str]:
    return [piece.split('"')[0] for piece in svg.split(' d="')[1:]]


# --- beside shells, and on the page -----------------------------------------------------------


def test_a_thin_vault_after_a_wall_is_the_one_that_must_not_be_built() -> None:
    """Places in the project are kept where walls stand among shells: the stamp lands on the vault's own patterns."""
    vault = Part(id="barn", shape="vault", thickness_m=0.08, at_m=(30.0, 0.0))
    project = Project(parts=(_wall(id="shed"), vault, Part(id="dome", stem_height_m=0.0, at_m=(60.0, 0.0))))
    made = estimate(project).estimate
    assert made is not None
    assert made.structure.stands == (True, False, True)
    assert [part.id for part in made.structure.parts] == ["barn", "dome"]
    assert [wall.id for wall in made.structure.walls] == ["shed"]
    barred = [note.path for note in estimate(project).notes if note.code == "not_to_be_built"]
    assert barred == ["parts[1].thickness_m"]
    stamped = {
        tuple(pattern.parts): "Not to be built" in block["svg"]
        for sheet in view(project, speaker(Reader()))["sheets"]
        for block in sheet["blocks"]
        if block["kind"] == "drawing" and block["id"].startswith("pattern-")
        for pattern in [made.blocks.patterns[int(block["id"].split("-")[1])]]
    }
    assert stamped and all(barred_ == (1 in parts) for parts, barred_ in stamped.items())


def _call(op: str, **args: object) -> dict[str, Any]:
    answer = json.loads(page.call(op, json.dumps({"reader": {}, "want": []} | args)))
    assert answer["ok"], answer
    value: dict[str, Any] = answer["value"]
    return value


def test_corners_and_gables_are_edited_on_the_page_one_number_at_a_time() -> None:
    made = write_project(Project(parts=(_wall(wall=Wall(gable_rise_m=1.0, gable_sides=(2,))),)))
    steps: list[tuple[str, dict[str, object]]] = [
        ("edit", {"path": "parts[0].plan[3][0]", "text": "3.25"}),
        ("act", {"action": {"name": "add", "path": "parts[0].plan"}}),
        ("act", {"action": {"name": "remove", "path": "parts[0].plan[6]"}}),
        ("act", {"action": {"name": "add", "path": "parts[0].wall.gable_sides"}}),
        ("edit", {"path": "parts[0].wall.gable_sides[1]", "text": "4"}),
        ("act", {"action": {"name": "add", "path": "parts[0].openings"}}),
        ("act", {"action": {"name": "add", "path": "parts"}}),
    ]  # fmt: skip
    for op, args in steps:
        value = _call(op, project=made, **args)
        assert value["outcome"] == "taken" and not value["view"]["problems"], (args, value)
        made = value["project"]
    part, added = read_project(made).project.parts  # type: ignore[union-attr]
    assert part.plan[3] == (3.25, 3.0) and len(part.plan) == 6
    assert part.wall.gable_sides == (2, 4) and len(part.openings) == 1 and added.shape == "dome"
    entries = _call("view", project=made)["sections"]["shape"][0]["items"][0]["entries"]
    lists = {entry["path"]: entry for entry in entries if entry["kind"] == "list"}
    corner = lists["parts[0].plan"]["items"][3]["entries"]
    assert [entry["value"] for entry in corner] == ["3.25", "3"] and corner[0]["unit"]["symbol"] == "m"
    assert [e["value"] for item in lists["parts[0].wall.gable_sides"]["items"] for e in item["entries"]] == ["2", "4"]
    refused = _call("edit", project=made, path="parts[0].plan[3][0]", text="5000")
    assert refused["outcome"] == "refused" and "Corner 4" in refused["problem"]["text"]


@pytest.mark.parametrize("shape", ["dome", "vault", "wall", "fill", "blocks"])
def test_the_form_asks_only_what_means_something(shape: str) -> None:
    entries = view(Project(parts=(Part(shape=shape),)), speaker(Reader()), [])["sections"]["shape"][0]["items"][0]["entries"]
    asked = {entry["path"].removeprefix("parts[0].") for entry in entries}
    groups = {name.split(".")[0] for name in asked if "." in name}
    assert groups == {"wall": {"wall"}, "fill": {"fill"}, "blocks": {"order"}}.get(shape, set())
    assert ("profile" in asked) == (shape in ("dome", "vault")) and ("plan_form" in asked) == (shape in ("wall", "fill"))
    assert ("openings" in asked) == (shape in ("dome", "vault", "wall"))
