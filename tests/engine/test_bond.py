"""Walls in courses: they fill the wall to the last litre, cover its height, and count as a walk along every row counts."""

import json
import math
from itertools import pairwise

import pytest
from attrs import evolve
from foamwright.estimate import Estimate, estimate
from foamwright.project.link import decode, encode
from foamwright.project.model import Block, Fill, Opening, Order, Part, Project, Wall, Waste
from foamwright.reader import Reader, speaker
from foamwright.shape.bond import Run, along, lay_wall, levels
from foamwright.shape.courses import SLIVER
from foamwright.shape.measure import measure_part
from foamwright.shape.wall import beam_heights, frame, outline
from foamwright.sheets.view import view
from hypothesis import assume, given
from hypothesis import strategies as st

from properties import cases

L_SHAPE = ((0.0, 0.0), (6.0, 0.0), (6.0, 3.0), (3.0, 3.0), (3.0, 5.0), (0.0, 5.0))


@st.composite
def walls(draw: st.DrawFn, build: str = "blocks") -> Part:
    """Any straight or round wall that can be built, without openings."""
    scale = draw(st.floats(0.5, 2.0))
    form = draw(st.sampled_from(("rectangle", "polygon", "run", "circle")))
    return Part(
        shape="wall",
        plan_form=form,
        plan=tuple((x * scale, y * scale) for x, y in L_SHAPE),
        inside_diameter_m=draw(st.floats(2.0, 9.0)),
        inside_span_m=draw(st.floats(1.5, 6.0)),
        length_m=draw(st.floats(1.5, 9.0)),
        thickness_m=draw(st.floats(0.05, 0.35)),
        wall=Wall(
            build=build,
            height_m=draw(st.floats(1.2, 4.0)),
            gable_rise_m=draw(st.just(0.0) | st.floats(0.2, 3.0)),
            gable_sides=(2, 4),
            post_spacing_m=draw(st.floats(0.8, 4.0)),
            ring_beams=draw(st.integers(0, 2)),
            ring_beam_height_m=0.2,
        ),
    )


blocks = st.builds(Block, st.floats(0.15, 0.8), st.floats(0.1, 0.6), st.just(0.0) | st.floats(0.002, 0.02))


@given(walls() | walls("infill"), blocks)
@cases
def test_courses_fill_a_wall(part: Part, block: Block) -> None:
    """Rows by their own lengths are the wall of the shape room, which multiplies the middle line out and takes the posts off."""
    shape, problems, _ = measure_part(part)
    assert shape is not None, problems
    made = lay_wall(part, block)
    assert sum(course.volume_m3 for course in made) == pytest.approx(shape.shell_volume_m3, rel=1e-9)


@given(walls() | walls("infill"), blocks)
@cases
def test_courses_cover_the_height_exactly(part: Part, block: Block) -> None:
    """Each begins where the one below ends, or where the beam between them does; none is higher than the mould and a joint."""
    made = levels(part, block)
    beams = dict(beam_heights(part))
    for low, high in pairwise(made):
        # Where a beam lies between two courses, they are as far apart as it is high.
        under = next((top for bottom, top in beams.items() if bottom == pytest.approx(low.high, abs=1e-9)), low.high)
        assert high.low == pytest.approx(under, abs=1e-9)
    gabled = part.plan_form != "circle" and part.wall.gable_rise_m > 0
    top = part.wall.height_m + (part.wall.gable_rise_m if gabled else 0.0)
    if not gabled and beams:
        top = max(beams)
    assert made[0].low == 0.0 and made[-1].high == pytest.approx(top, abs=1e-9)
    for level in made:
        assert level.high - level.low <= block.height_m + block.joint_m + 1e-9


@given(walls() | walls("infill"), blocks)
@cases
def test_blocks_and_joints_are_the_wall(part: Part, block: Block) -> None:
    """Whole and cut blocks with their joints fill every level course, but for slivers at the ends of its runs."""
    plan, made = outline(part), frame(part)
    runs = made.posts if made else max(1, len(plan.sides))
    for course in lay_wall(part, block):
        if course.kind == "gable":
            continue
        one = (course.taper_outside_low_m + course.taper_inside_low_m) / 2 * course.height_outside_m * course.thickness_m
        laid = one * (course.whole + sum(course.cut_shares)) + course.joint_m3
        face = course.height_outside_m * course.thickness_m
        # At each end of a run less than a tenth of a block is left to mortar, and a cut block has its joint with it.
        slack = runs * 2 * face * (SLIVER * (block.length_m + block.joint_m) + 2 * block.joint_m) + 1e-9
        assert abs(laid - course.volume_m3) <= slack
        assert course.around == course.whole + course.cut + course.left_out == course.count + course.left_out


# --- against a walk along every row -----------------------------------------------------------


def _half_width(opening: Opening, height: float) -> float:
    """Half the width of an opening at a height, written anew; 0 outside it."""
    low = opening.sill_m
    if opening.form == "round":
        radius = opening.diameter_m / 2
        return math.sqrt(max(0.0, radius**2 - (height - low - radius) ** 2))
    if not low < height < low + opening.height_m:
        return 0.0
    half = opening.width_m / 2
    rise = {"rectangular": 0.0, "arched": half, "pointed": half * math.sqrt(3)}[opening.form]
    spring = low + opening.height_m - rise
    if height <= spring or not rise:
        return half
    if opening.form == "arched":
        return math.sqrt(max(0.0, half**2 - (height - spring) ** 2))
    return max(0.0, math.sqrt(max(0.0, (2 * half) ** 2 - (height - spring) ** 2)) - half)


def _walk(
    length: float, low: float, high: float, block: Block, begin: float, holes: list[tuple[Opening, float]], rake: float, foot: float
) -> tuple[int, int, int]:  # fmt: skip
    """Lay one row by hand: put block after block and look at each. ``rake`` is how far a row under a gable steps back per metre of rise."""
    pitch = block.length_m + block.joint_m
    back, over = max(0.0, (low - foot) * rake), max(0.0, (high - foot) * rake)
    heights = [low + (high - low) * (k + 0.5) / 400 for k in range(400)] + [low + 1e-7, high - 1e-7]
    whole = cut = left = 0
    at = -pitch * begin if begin else 0.0
    while at < length - 1e-9:
        start, end = max(at, back), min(at + pitch, length - back)
        own, at = at, at + pitch
        if begin and own < 0:
            start = max(0.0, back)
        if end - start <= 1e-9:
            continue
        size = end - start
        touched, gone = False, 0.0
        for opening, middle in holes:
            widths = [_half_width(opening, z) for z in heights]
            widest, least = max(widths), min(widths)
            touched |= widest > 0 and middle - widest < end - 1e-9 and middle + widest > start + 1e-9
            gone += max(0.0, min(end, middle + least) - max(start, middle - least))
        full = size > pitch - 1e-6 and start >= over - 1e-9 and end <= length - over + 1e-9
        if touched:
            if (size - gone) / pitch < SLIVER:
                left += size / pitch >= SLIVER
            else:
                cut += 1
        elif full:
            whole += 1
        elif size / pitch >= SLIVER:
            cut += 1
    return whole, cut, left


@given(
    st.integers(12, 60), st.integers(15, 40), st.sampled_from(("rectangular", "arched", "pointed", "round")), st.integers(5, 14),
    st.integers(0, 6), st.sampled_from((0.0, 1.37)), st.sampled_from((Block(), Block(0.41, 0.23, 0.01), Block(0.25, 0.19, 0.004))),
)  # fmt: skip
@cases
def test_rows_count_as_a_walk_along_them(
    length: int, tall: int, form: str, width: int, sill: int, gable: float, block: Block
) -> None:
    """A run of one side, with an opening of any form and a gable or none: every course block by block."""
    size = width / 10 + 0.0137
    room = length / 10 + 0.0071
    opening = Opening(form=form, width_m=size, height_m=size * 1.2, diameter_m=size, sill_m=sill / 10, along_m=room / 2 + 0.0173)
    assume(size * 1.3 < room and sill / 10 + size * 1.25 < tall / 10)
    part = Part(
        shape="wall", plan_form="run", plan=((0.0, 0.0), (room, 0.0)), openings=(opening,),
        wall=Wall(height_m=tall / 10, gable_rise_m=gable, gable_sides=(1,)),
    )  # fmt: skip
    assert opening.along_m is not None
    rake = room / 2 / gable if gable else 0.0
    for number, (course, level) in enumerate(zip(lay_wall(part, block), levels(part, block), strict=True), 1):
        begin = 0.0 if number % 2 else 0.5
        found = _walk(room, level.low, level.high, block, begin, [(opening, opening.along_m)], rake if level.gable else 0.0, tall / 10)
        assert (course.whole, course.cut, course.left_out) == found, course.course


def test_a_rectangle_is_its_four_rows() -> None:
    """6 m by 4 m inside, 0.20 m thick: rows of 6.2 m and 4.2 m along the middle of the wall."""
    part, block = Part(shape="wall", openings=(Opening(side=2, width_m=1.0, height_m=2.0),)), Block(0.39, 0.19, 0.01)
    for number, course in enumerate(lay_wall(part, block), 1):
        begin = 0.0 if number % 2 else 0.5
        hole = [(part.openings[0], 2.1)]
        rows = [
            _walk(length, course.height_m, course.top_height_m, block, begin, holes, 0.0, 0.0)
            for length, holes in ((6.2, []), (4.2, hole), (6.2, []), (4.2, []))
        ]
        assert (course.whole, course.cut, course.left_out) == tuple(sum(row[k] for row in rows) for k in range(3))
        assert course.length_m == pytest.approx(20.8)


def test_bays_between_posts_are_laid_one_by_one() -> None:
    """A run of 5 m with posts of 0.15 m at its ends and middle leaves two bays of 2.275 m: seven blocks of 0.3 m and a rest."""
    run = Part(shape="wall", plan_form="run", plan=((0.0, 0.0), (5.0, 0.0)), wall=Wall(build="infill", height_m=2.0, ring_beam_height_m=0.2))
    made = lay_wall(run, Block(0.3, 0.3))
    assert len(made) == 6 and made[-1].top_height_m == pytest.approx(1.8)
    assert (made[0].whole, made[0].cut, made[0].length_m) == (14, 2, pytest.approx(4.55))
    # Half a block, seven whole ones end at 2.25 m; the last 25 mm are less than a tenth of a block.
    assert (made[1].whole, made[1].cut_shares) == (14, (0.5, 0.5))


def test_a_round_wall_is_a_ring_of_blocks_as_long_as_the_mould() -> None:
    made = lay_wall(Part(shape="wall", plan_form="circle", openings=(Opening(width_m=1.4),)), Block())
    around = math.ceil(2 * math.pi * 3.2 / 0.305)
    first = made[0]
    assert first.around == around == first.whole + first.cut + first.left_out
    gone = first.left_out + sum(1 - share for share in first.cut_shares)
    assert gone == pytest.approx(2 * math.asin(0.7 / 3.2) / (2 * math.pi / around), abs=2 * SLIVER)
    assert first.taper_inside_low_m == pytest.approx(2 * math.pi * 3.0 / around)
    assert first.arm_m == 3.0 and first.pin_height_m == first.height_m


def test_two_openings_in_one_block_both_count() -> None:
    laid = along(Run(0.0, 4.0, ((1.2, 0.1, 0.1), (1.7, 0.1, 0.1))), 1.0, 0.0)
    assert laid.whole == 3 and laid.shares == (0.6,)


# --- what is mixed fills what is cast ---------------------------------------------------------


def _made(**changes: object) -> Estimate:
    made = estimate(Project(**changes)).estimate  # type: ignore[arg-type]
    assert made is not None
    return made


SHAPES = (
    Project().parts, (Part(shape="vault"),), (Part(shape="wall", openings=(Opening(side=2),)),),
    (Part(shape="wall", plan_form="circle", wall=Wall(build="infill")),),
)  # fmt: skip


@pytest.mark.parametrize("parts", SHAPES)
def test_the_moulds_are_filled_to_the_last_litre(parts: tuple[Part, ...]) -> None:
    """Every mould that is filled once, by its mass, is what stands and what is sawn off; no offcut is cast twice."""
    made = _made(parts=parts, waste=Waste(0.0, 0.0, None, 0.0))
    moulds = sum(one.count * one.fresh_mass_kg for one in made.blocks.mould_sets)
    assert made.batches.mass_kg == pytest.approx(moulds, rel=1e-9)
    assert made.blocks.cast_m3 * made.mix.wet_density_kg_m3 == pytest.approx(moulds, rel=1e-9)
    assert sum(one.count for one in made.blocks.mould_sets) == made.blocks.count - made.blocks.offcuts_used
    assert sum(course.offcuts for course in made.blocks.courses) == made.blocks.offcuts_used
    assert made.batches.waste[2].basis == "as_laid"


def test_breakage_is_of_what_is_cast_and_lost_batches_of_all() -> None:
    plain, made = _made(waste=Waste(0.0, 0.0, None, 0.0)), _made(waste=Waste(0.04, 0.05, None, 2.0))
    filled = plain.batches.count
    lost, broken, cut, trial = (item.batches for item in made.batches.waste)
    assert (lost, broken, trial) == (pytest.approx(0.04 * filled), pytest.approx(0.05 * filled), 2.0)
    assert cut == pytest.approx(filled - plain.batches.net_count)
    assert made.batches.low_count == pytest.approx(filled)
    assert made.batches.high_count == pytest.approx(filled * (1 + 0.08 + 0.10) + 4)


def test_what_is_poured_is_neither_cut_nor_broken() -> None:
    poured = _made(parts=(Part(shape="fill", fill=Fill(kind="void", volume_m3=5.0)),)).batches
    lost, broken, cut, _ = poured.waste
    assert (broken.batches, cut.batches) == (0.0, 0.0) and lost.fraction == pytest.approx(0.03)
    typed = _made(parts=(Part(shape="fill"),), waste=Waste(cutting_fraction=0.2)).batches
    assert (typed.waste[1].batches, typed.waste[2].batches) == (0.0, 0.0)
    ordered = _made(parts=(Part(shape="blocks", order=Order(40)),)).batches
    assert ordered.waste[2].batches == 0.0 and ordered.waste[1].fraction == pytest.approx(0.03)


def test_a_typed_share_stands_and_one_that_is_too_small_is_said() -> None:
    """Not typed, nothing is said; typed below what the lay plan saws off, bags may run short."""
    quiet = estimate(Project())
    assert quiet.estimate is not None
    sawn = quiet.estimate.blocks.cut_away_fraction
    assert sawn is not None and not any(note.code == "cutting_more_than_stated" for note in quiet.notes)
    for share, said in ((0.0, True), (sawn * 0.99, True), (sawn * 1.01, False)):
        outcome = estimate(Project(waste=Waste(cutting_fraction=share)))
        assert outcome.estimate is not None
        item = outcome.estimate.batches.waste[2]
        assert item.basis == "typed" and item.fraction == pytest.approx(share)
        found = [note for note in outcome.notes if note.code == "cutting_more_than_stated"]
        assert [note.severity for note in found] == (["caution"] if said else [])
    told = json.dumps(view(Project(waste=Waste(cutting_fraction=0.0)), speaker(Reader())))
    assert "bags may run short" in told


def test_codes_keep_a_typed_share_and_leave_out_what_is_not() -> None:
    for waste in (Waste(), Waste(cutting_fraction=0.0), Waste(cutting_fraction=0.03)):
        project = decode(encode(Project(waste=waste))).project
        assert project is not None and project.waste == waste


# --- sheets -----------------------------------------------------------------------------------


def test_the_lay_plan_of_a_wall_is_a_table_of_its_courses() -> None:
    house = Part(shape="wall", wall=Wall(gable_rise_m=1.4), openings=(Opening(),))
    made = view(Project(parts=(house,)), speaker(Reader()), ["lay", "patterns"])["sheets"]
    tables = [block for block in made[0]["blocks"] if block["kind"] == "table" and block["caption"].startswith("Courses of the wall")]
    courses = _made(parts=(house,)).blocks.courses
    assert tables and all(len(table["rows"]) == len(courses) for table in tables)
    told = json.dumps(made[0])
    assert "Gable on side 2" in told and "topples" in told
    drawn = [block for block in made[1]["blocks"] if block["kind"] == "drawing"]
    assert drawn and all(block["id"].startswith("rake-") for block in drawn), "straight blocks come out of the mould as they are laid"
    assert len({block["id"] for block in drawn}) == len(drawn)


def test_a_heavy_block_is_flagged_on_the_lay_plan() -> None:
    """25 kg for men and 16 kg for women at waist height (HSE INDG143, from memory); 23 kg, NIOSH 94-110, p. 7."""
    heavy = Project(block=Block(0.6, 0.6), parts=(evolve(Project().parts[0], thickness_m=0.2),))
    assert "INDG143" in json.dumps(view(heavy, speaker(Reader()), ["lay"]))
    assert "INDG143" not in json.dumps(view(Project(), speaker(Reader()), ["lay"]))
