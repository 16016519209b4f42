"""Courses: they cover the meridian, fill the shell to the last litre, fit the mould, and are what closed forms say."""

import json
import math
import re
from itertools import pairwise

import pytest
from attrs import evolve
from foamwright.estimate import Estimate, estimate
from foamwright.project.model import PROFILES, Block, Mix, Opening, Part, Project
from foamwright.reader import Reader, speaker
from foamwright.shape.courses import SLIVER, Course, corners, lay, place, rows
from foamwright.shape.measure import measure_part
from foamwright.shape.meridian import faults, half_width, meridian
from foamwright.sheets.lay_drawing import PAGE_MM
from foamwright.sheets.view import view
from hypothesis import assume, given
from hypothesis import strategies as st

from properties import cases

NAMES = [name for name in PROFILES if name != "semicircle"]


@st.composite
def shells(draw: st.DrawFn, shape: str = "dome") -> Part:
    """Any dome or vault that can be built, with no side openings."""
    profile = draw(st.sampled_from(NAMES))
    half = draw(st.floats(0.6, 8))
    low, high = {"segment": (0.15, 1.0), "pointed": (1.0, 2.5)}.get(profile, (0.3, 2.0))
    foot = draw(st.floats(0.05, 0.5))
    crown = draw(st.none() | st.floats(0.4, 1.0))
    hole = draw(st.just(0.0) | st.floats(0.05, 0.7)) if shape == "dome" else 0.0
    part = Part(
        shape=shape,
        profile=profile,
        inside_diameter_m=2 * half,
        inside_span_m=2 * half,
        rise_m=draw(st.floats(low, high)) * half,
        stem_height_m=draw(st.just(0.0) | st.floats(0.05, 2)),
        thickness_m=foot,
        crown_thickness_m=None if crown is None else max(0.03, crown * foot),
        crown_opening_m=hole * 2 * half,
        length_m=draw(st.floats(0.5, 10)),
        ends=draw(st.sampled_from(("both", "one", "open"))),
        end_thickness_m=draw(st.none() | st.floats(0.1, 0.4)),
    )
    # A low shell whose foot is much thicker than its crown sinks towards it; that is a fault.
    assume(not faults(part, "parts[0]"))
    return part


blocks = st.builds(Block, st.floats(0.1, 0.8), st.floats(0.1, 0.8), st.just(0.0) | st.floats(0.001, 0.03))


@given(shells(), blocks)
@cases
def test_courses_fill_a_dome(part: Part, block: Block) -> None:
    """Wedges summed along the meridian (Pappus) are the discs summed up the axis, which the shape room takes."""
    shape, problems, _ = measure_part(part)
    assert shape is not None, problems
    whole = sum(course.volume_m3 for course in lay(part, block))
    assert whole == pytest.approx(shape.shell_volume_m3, rel=1e-6)


@given(shells("vault"), blocks)
@cases
def test_courses_fill_a_vault_and_its_end_walls(part: Part, block: Block) -> None:
    shape, problems, _ = measure_part(part)
    assert shape is not None, problems
    made = lay(part, block)
    assert sum(course.volume_m3 for course in made) == pytest.approx(shape.shell_volume_m3, rel=1e-6)
    ends = sum(course.volume_m3 for course in made if course.element != "shell")
    assert ends == pytest.approx(shape.end_walls_volume_m3, rel=1e-6)


@given(shells(), blocks)
@cases
def test_courses_cover_both_faces_exactly(part: Part, block: Block) -> None:
    """Each begins where the one below ends; their lengths add up to the meridian inside and outside."""
    shell, made = meridian(part), rows(part, block)
    for low, high in pairwise(made):
        assert low.high.inside_z == pytest.approx(high.low.inside_z, abs=1e-9)
        assert low.high.outside_z == pytest.approx(high.low.outside_z, abs=1e-9)
    assert made[0].low.inside_z == pytest.approx(0.0, abs=1e-9)
    assert made[-1].high.inside_z == pytest.approx(shell.inside.crown_m, abs=1e-9)
    assert sum(row.inside_m for row in made) == pytest.approx(shell.inside.length_m, rel=1e-6)
    assert sum(row.outside_m for row in made) == pytest.approx(shell.outside.length_m, rel=1e-6)


@pytest.mark.parametrize("more", [{}, {"stem_height_m": 0.0, "crown_thickness_m": 0.12}, {"crown_opening_m": 1.1}], ids=str)
@pytest.mark.parametrize("profile", NAMES)
def test_every_course_is_its_own_ring(profile: str, more: dict[str, float]) -> None:
    """The section of each course as a polygon of fine chords, turned by Pappus: each is right, not only their sum."""
    part, block = Part(profile=profile, **more), Block(0.4, 0.3)  # type: ignore[arg-type]
    shell = meridian(part)
    inside, outside = shell.inside.points(3000), shell.outside.points(3000)
    for course, row in zip(lay(part, block), rows(part, block), strict=True):
        near = [p for p in inside if row.low.inside_z < p[1] < row.high.inside_z]
        top = shell.outside.crown_m if row.kind in ("plug", "rim") else row.high.outside_z
        far = [p for p in outside if row.low.outside_z < p[1] < top]
        edge = [(shell.opening_m, top)] if row.kind in ("plug", "rim") else [(row.high.outside_r, row.high.outside_z)]
        ring = [
            (row.low.inside_r, row.low.inside_z), (row.low.outside_r, row.low.outside_z), *far, *edge,
            (row.high.inside_r, row.high.inside_z), *reversed(near),
        ]  # fmt: skip
        moment = sum(
            (x0 * y1 - x1 * y0) * (x0 + x1) / 6 for (x0, y0), (x1, y1) in pairwise([*ring, ring[0]])
        )
        swept = 2 * math.pi * moment
        assert course.volume_m3 == pytest.approx(swept, rel=1e-4)


@given(st.floats(1, 20), st.floats(0, 2), st.floats(0.05, 0.5), blocks)
@cases
def test_a_hemisphere_is_zones_of_two_spheres(diameter: float, stem: float, thick: float, block: Block) -> None:
    """Zone of a ball between two radii: 2 pi / 3 (R2^3 - R1^3) (sin b - sin a); beds rise by equal angles from one centre."""
    part = Part(inside_diameter_m=diameter, stem_height_m=stem, thickness_m=thick)
    radius = diameter / 2
    made = [course for course in lay(part, block) if course.kind != "stem"]
    leans = [math.radians(course.bed_angle_deg) for course in made] + [math.pi / 2]
    for course, (low, high) in zip(made, pairwise(leans), strict=True):
        zone = 2 * math.pi / 3 * ((radius + thick) ** 3 - radius**3) * (math.sin(high) - math.sin(low))
        assert course.volume_m3 == pytest.approx(zone, rel=1e-9)
        assert course.arm_m == pytest.approx(radius, rel=1e-12)
        assert course.arm_angle_deg == pytest.approx(course.bed_angle_deg, abs=1e-9)
        assert course.height_m == pytest.approx(stem + radius * math.sin(low), abs=1e-9)
        assert course.radius_m == pytest.approx(radius * math.cos(low), abs=1e-9)
    steps = [b - a for a, b in pairwise(leans[:-1])]
    assert all(step == pytest.approx(steps[0], abs=1e-9) for step in steps)


@given(shells(), blocks)
@cases
def test_the_arm_reaches_the_bed(part: Part, block: Block) -> None:
    """From its pin on the axis, by its length and angle, the arm ends at the inside edge of every bed."""
    for course in lay(part, block):
        assert course.arm_m is not None and course.arm_angle_deg is not None and course.pin_height_m is not None
        turn = math.radians(course.arm_angle_deg)
        assert course.arm_m * math.cos(turn) == pytest.approx(course.radius_m, abs=1e-9)
        assert course.pin_height_m + course.arm_m * math.sin(turn) == pytest.approx(course.height_m, abs=1e-9)
        assert course.pin_height_m >= 0


@given(shells() | shells("vault"), blocks)
@cases
def test_blocks_come_out_of_the_mould(part: Part, block: Block) -> None:
    """No block is wider or higher than the mould, save the few that say so; narrower joints never take fewer blocks."""
    for course in lay(part, block):
        if course.kind != "plug":
            assert max(course.taper_outside_low_m, course.taper_outside_high_m) <= block.length_m + 1e-9
        if course.fits:
            assert course.height_outside_m <= block.height_m + 1e-6
        else:
            assert course.kind in ("plug", "key", "rim", "springer")
        assert course.taper_inside_low_m <= course.taper_outside_low_m + 1e-9
        assert course.volume_m3 > 0 and 0 <= course.joint_m3 <= course.volume_m3


def test_the_same_line_by_another_name_is_laid_alike() -> None:
    """A segment of full height and a pointed arch of equal radii are the hemisphere; so is an ellipse as high as wide."""
    plain = lay(Part(), Block())
    for profile in ("segment", "pointed", "ellipse"):
        other = lay(Part(profile=profile, rise_m=3.0), Block())
        assert [course.count for course in other] == [course.count for course in plain]
        for a, b in zip(plain, other, strict=True):
            assert a.height_m == pytest.approx(b.height_m, abs=1e-6)
            assert a.volume_m3 == pytest.approx(b.volume_m3, rel=1e-6)


def test_thin_joints_are_their_faces_times_their_thickness() -> None:
    """In the limit: cone pi (r1 + r2) t of every bed, and the section at every upright joint."""
    joint = 1e-6
    part = Part(stem_height_m=0.4)
    for course, row in zip(lay(part, Block(joint_m=joint)), rows(part, Block(joint_m=joint)), strict=True):
        bed = math.pi * (row.low.inside_r + row.low.outside_r) * 0.2
        upright = 0.0 if course.kind == "plug" else course.around * row.section_m2
        assert course.joint_m3 / joint == pytest.approx(bed + upright, rel=1e-4)


def test_a_stem_block_is_what_is_left_between_its_joints() -> None:
    """A ring of height h, its bed joint off the height and n slabs off the circle: by hand."""
    block = Block(joint_m=0.01)
    course = lay(Part(), block)[0]
    height, ring = 0.25, math.pi * (3.2**2 - 3.0**2)
    solid = ring * (height - 0.01) - course.around * 0.01 * 0.2 * (height - 0.01)
    assert course.volume_m3 - course.joint_m3 == pytest.approx(solid, rel=1e-12)
    assert course.around == math.ceil(2 * math.pi * 3.2 / 0.315)
    assert course.taper_outside_low_m == pytest.approx(2 * math.pi * 3.2 / course.around - 0.01)


def _brute(count: int, gaps: list[tuple[float, float, float]]) -> tuple[int, int, int]:
    """Whole, cut and left out of a ring, block by block on a fine grid."""
    grid = 200
    states = [0, 0, 0]
    for i in range(count):
        touched, gone = False, 0
        for k in range(grid):
            at = i + (k + 0.5) / grid
            apart = [abs((at - middle + count / 2) % count - count / 2) for middle, _, _ in gaps]
            touched |= any(d < wide for d, (_, wide, _) in zip(apart, gaps, strict=True))
            gone += any(d < clear for d, (_, _, clear) in zip(apart, gaps, strict=True))
        states[0 if not touched else 2 if 1 - gone / grid < SLIVER else 1] += 1
    return states[0], states[1], states[2]


@given(
    st.integers(12, 60),
    st.lists(st.tuples(st.integers(0, 400), st.integers(10, 160), st.integers(0, 160)), max_size=1),
)
@cases
def test_blocks_at_a_gap_are_whole_cut_or_left_out(count: int, raw: list[tuple[int, int, int]]) -> None:
    # Multiples of 1/40 that fall on no grid point; what is taken lies within what is touched.
    gaps = [(a / 40 + 0.0031, b / 40, min(b, c) / 40) for a, b, c in raw]
    found = place(count, 0.0, True, gaps)
    whole, cut, left = _brute(count, gaps)
    assert found.whole + len(found.shares) + found.left_out == count
    assert abs(found.whole - whole) <= 1 and abs(found.left_out - left) <= 1 and abs(len(found.shares) - cut) <= 2
    assert all(SLIVER <= share <= 1 for share in found.shares)


def test_a_row_that_is_shifted_begins_and_ends_with_a_half() -> None:
    laid = place(7, 0.5, False, [])
    assert laid.whole + sum(laid.shares) == 7 and laid.shares == (0.5, 0.5)


def test_a_door_takes_out_its_width() -> None:
    """In the stem wall a rectangular door takes its angle on the outside face out of the ring."""
    part = Part(openings=(Opening(form="rectangular", width_m=1.4, height_m=2.0, azimuth_deg=33.0),))
    course = lay(part, Block())[0]
    pitch = 2 * math.pi / course.around
    gone = course.left_out + sum(1 - share for share in course.cut_shares)
    assert gone == pytest.approx(2 * math.asin(0.7 / 3.2) / pitch, abs=2 * SLIVER)
    assert course.count == course.whole + course.cut == course.around - course.left_out


def test_only_courses_beside_an_opening_are_cut() -> None:
    window = Opening(form="round", diameter_m=0.6, sill_m=1.2, count=2)
    for course in lay(Part(openings=(window,)), Block()):
        beside = course.height_m < 1.8 and max(course.top_height_m, course.outside_top_height_m) > 1.2
        assert (course.cut + course.left_out > 0) == beside


def test_corners_are_as_far_apart_as_the_edges() -> None:
    """A block seen from its side keeps the lengths of its beds and faces."""
    for part in (Part(profile="catenary", rise_m=4.0, crown_thickness_m=0.12), Part(profile="segment"), Part(shape="vault")):
        for course in lay(part, Block()):
            if course.kind in ("plug", "key", "wall"):
                continue
            low, high, upper, inner = corners(course, 0.0)
            bed = math.hypot(course.outside_radius_m - course.radius_m, course.outside_height_m - course.height_m)
            head = math.hypot(
                course.outside_top_radius_m - course.top_radius_m, course.outside_top_height_m - course.top_height_m
            )
            if course.kind != "springer":
                assert math.dist(low, inner) == pytest.approx(bed)
                assert math.dist(high, upper) == pytest.approx(head)
            assert low == pytest.approx((0, 0)) and high[1] == pytest.approx(0, abs=1e-12)


def _made(**changes: object) -> Estimate:
    made = estimate(Project(**changes)).estimate  # type: ignore[arg-type]
    assert made is not None
    return made


def test_blocks_are_those_of_the_courses() -> None:
    made = _made().blocks
    assert made.basis == "courses" and made.count == sum(course.count for course in made.courses)
    assert made.count == sum(pattern.count for pattern in made.patterns) and made.types == len(made.patterns)
    assert sum(one.count for one in made.mould_sets) + made.offcuts_used == made.count
    assert made.by_volume.basis == "volume" and made.by_volume.count == 723
    assert made.count > made.by_volume.count, "tapered and cut blocks leave more behind"
    assert made.joint_l is None and made.joint_material is None and made.days_to_cast is None


def test_whole_and_cut_blocks_with_joints_are_the_shell() -> None:
    """Blocks, joints and what openings take add up to the gross shell, part by part."""
    for part in (Project().parts[0], Part(shape="vault", openings=(Opening(face="end_a"),)), Part(profile="parabola", crown_opening_m=0.8)):
        made = _made(parts=(part,), block=Block(joint_m=0.012))
        courses, shape = made.blocks.courses, made.shape.parts[0]
        blocks_ = sum((c.volume_m3 - c.joint_m3) / c.around * c.around for c in courses)
        gross = blocks_ + sum(course.joint_m3 for course in courses)
        hole = 0.0
        if part.crown_opening_m:
            bare = _made(parts=(evolve(part, crown_opening_m=0.0),)).shape.parts[0]
            hole = bare.shell_volume_m3 - shape.shell_volume_m3
        assert gross == pytest.approx(shape.shell_volume_m3 + shape.openings_volume_m3 - hole, rel=1e-6)


def test_joints_are_bought_and_taken_from_the_concrete() -> None:
    dry, laid = _made(), _made(block=Block(joint_m=0.01, joint_material="adhesive"))
    litres = laid.blocks.joint_l
    assert litres is not None and litres == pytest.approx(laid.blocks.joint_volume_m3 * 1000)
    line = next(line for line in laid.money.lines if line.code == "joint_adhesive")
    assert line.quantity == litres and line.unit == "L"
    assert not any(line.code.startswith("joint") for line in dry.money.lines)
    saved = (dry.batches.net_count - laid.batches.net_count) * laid.batches.batch.yield_l
    assert saved == pytest.approx(litres, rel=1e-9)


def test_moulds_give_days() -> None:
    made = _made(block=Block(moulds=60)).blocks
    assert made.days_to_cast == math.ceil(made.to_cast / 60)


def test_walls_are_laid_too_and_orders_are_counted_as_ordered() -> None:
    wall = Part(id="wall", shape="wall", at_m=(30.0, 0.0))
    order = Part(id="order", shape="blocks", at_m=(60.0, 0.0))
    made, alone = _made(parts=(Part(), wall, order)).blocks, _made(parts=(wall,)).blocks
    ordered = _made(parts=(order,)).blocks
    assert made.basis == alone.basis == "courses" and ordered.basis == "volume" and ordered.courses == ()
    assert made.count == _made(parts=(Part(),)).blocks.count + alone.count + ordered.count


def _drawn(project: Project, sheet: str) -> list[dict[str, str]]:
    made = view(project, speaker(Reader()), [sheet])["sheets"][0]["blocks"]
    return [block for block in made if block["kind"] == "drawing"]


def test_patterns_print_in_their_true_size() -> None:
    """Width and height in millimetres agree with the view box, so that a unit is a millimetre; the half face is as wide as said."""
    project = Project()
    drawn = _drawn(project, "patterns")
    assert len(drawn) >= 3 * 18
    names = [name for block in drawn for name in re.findall(r'clipPath id="([^"]+)"', block["svg"])]
    assert len(names) == len(set(names))
    for block in drawn:
        assert f'width="{PAGE_MM[0]:g}mm" height="{PAGE_MM[1]:g}mm" viewBox="0 0 {PAGE_MM[0]:g} {PAGE_MM[1]:g}"' in block["svg"]
        assert "h100" in block["svg"], "the bar that checks the print"
    pattern = _made().blocks.patterns[0].course
    widest = max(float(x) for x in re.findall(r"L(\d+\.?\d*) ", drawn[0]["svg"]))
    assert widest == pytest.approx(pattern.taper_outside_low_m * 500, abs=0.01)


def test_what_must_not_be_built_carries_its_stamp_on_every_pattern() -> None:
    words = "Not to be built until an engineer"
    thin = Project(parts=(Part(shape="vault", stem_height_m=0.0, thickness_m=0.1),))
    made = _made(parts=thin.parts)
    assert made.structure.stands == (False,)
    for block in _drawn(thin, "patterns"):
        assert words in block["svg"] and words in block["words"]
    assert not any(words in block["svg"] for block in _drawn(Project(parts=(Part(stem_height_m=0.0),)), "patterns"))
    for sheet in ("lay", "patterns"):
        first = view(thin, speaker(Reader()), [sheet])["sheets"][0]["blocks"][0]
        assert first["kind"] == "notes" and first["items"][0]["severity"] == "warning"


def test_the_lay_plan_says_who_must_stand_where() -> None:
    made = json.dumps(view(Project(), speaker(Reader()), ["lay"]))
    assert "Nobody stands below an open course" in made


def test_parts_keep_their_own_words_behind_a_wall() -> None:
    """The first look counts shells alone; a vault that stands behind a wall still gets its own centring and stamp."""
    parts = (
        Part(id="wall", shape="wall", at_m=(30.0, 0.0)), Part(id="barrel", shape="vault", thickness_m=0.1), Part(id="dome", stem_height_m=0.0, at_m=(-30.0, 0.0)),
    )  # fmt: skip
    made = view(Project(parts=parts), speaker(Reader()), ["lay", "patterns"])["sheets"]
    said = [block.get("text") or str(block.get("items")) for block in made[0]["blocks"]]
    barrel, dome = said.index("barrel"), said.index("dome")
    assert any("No arch of a vault stands" in text for text in said[barrel:dome])
    assert not any("No arch of a vault stands" in text for text in said[dome:])
    drawn = [block for block in made[1]["blocks"] if block["kind"] == "drawing"]
    stamped = ["Not to be built" in block["words"] for block in drawn]
    assert any(stamped) and not all(stamped)


def test_a_mould_that_is_too_low_is_said() -> None:
    """A steep pointed crown wants a plug that no small mould holds."""
    part = Part(profile="pointed", rise_m=3.1, thickness_m=0.9, inside_diameter_m=2.4, stem_height_m=0.0)
    outcome = estimate(Project(parts=(part,), block=Block(0.2, 0.2), mix=Mix()))
    found = [note for note in outcome.notes if note.code == "piece_over_mould"]
    assert found and found[0].params["part"] == part.id


def _course(course: Course) -> tuple[str, int]:
    return course.element, course.course


def test_end_walls_are_laid_from_the_floor_to_the_outside_crown() -> None:
    part = Part(shape="vault", ends="one")
    made = [course for course in lay(part, Block()) if course.element == "end_a"]
    assert [_course(course) for course in made] == [("end_a", k + 1) for k in range(len(made))]
    assert made[-1].top_height_m == pytest.approx(meridian(part).outside.crown_m)
    assert made[0].radius_m == pytest.approx(half_width(part) + part.thickness_m)
