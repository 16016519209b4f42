"""Walls laid in level courses: whole blocks as they come out of the mould, half a block further in every second course.

What stands in a length between two ends is a run: a side of a straight wall, or what posts leave of it, or
an arc of a round one. Blocks follow each other from the run's beginning; the last is cut to what is left.
"""

import math
from functools import lru_cache
from itertools import pairwise
from typing import Final, NamedTuple

from foamwright.project.model import Block, Part
from foamwright.project.whole import ceiling
from foamwright.shape import courses
from foamwright.shape.courses import SLIVER, Course, Laid, band, place, turned
from foamwright.shape.openings import Cut, azimuths, cut
from foamwright.shape.wall import beam_heights, frame, gabled, gables_volume, outline, places, posts_along

_TINY: Final = 1e-9
#: A piece that lacks less than this of a block is whole [-].
_WHOLE: Final = 1e-6
#: Shapes that are laid in courses.
LAID: Final = ("dome", "vault", "wall")


class Run(NamedTuple):
    """What one course lays between two ends, in metres along the middle of the wall, or along the outside of a round one."""

    start: float
    length: float
    #: Of each opening its middle, half of what it touches, and half of what it takes over the full height.
    gaps: tuple[tuple[float, float, float], ...] = ()
    #: Where the upper edge of a row under a rake begins and ends.
    top: tuple[float, float] | None = None
    #: From where whole blocks are counted.
    origin: float = 0.0
    times: int = 1


class Level(NamedTuple):
    """One course of a wall: from which height to which, within a gable or not, and between beams or not."""

    low: float
    high: float
    gable: bool
    framed: bool


def along(run: Run, pitch: float, shift: float) -> Laid:
    """Lay the blocks of one run beside each other and see what its ends, its gaps and a rake do to each.

    A piece at an end that is shorter than a tenth of a block is not laid; its gap is closed with mortar.

    Source: arithmetic.

    Parameters
    ----------
    run : Run
        From where to where, and what stands in the way [m]
    pitch : float
        A block and a joint [m]
    shift : float
        Where the first upright joint stands, in blocks from the run's origin [-]

    Returns
    -------
    Laid
        Whole blocks, those that openings take, and the shares of the cut ones [-]

    Examples
    --------
    >>> along(Run(0.0, 3.0), 1.0, 0.0), along(Run(0.0, 3.0), 1.0, 0.5)
    (Laid(whole=3, left_out=0, shares=()), Laid(whole=2, left_out=0, shares=(0.5, 0.5)))
    >>> along(Run(0.0, 4.0, ((2.0, 1.25, 1.25),)), 1.0, 0.0)
    Laid(whole=0, left_out=2, shares=(0.75, 0.75))
    >>> along(Run(0.5, 3.0, top=(1.5, 2.5)), 1.0, 0.0)
    Laid(whole=0, left_out=0, shares=(0.5, 1.0, 1.0, 0.5))
    """
    begin, end = (run.start - run.origin) / pitch - shift, (run.start + run.length - run.origin) / pitch - shift
    first, last = math.floor(begin + _WHOLE), math.ceil(end - _WHOLE)

    def reach(i: int) -> float:
        return min(end, i + 1.0) - max(begin, float(i))

    kept: dict[int, float] = {}
    unlaid: set[int] = set()
    for i in {first, last - 1} if last > first else ():
        length = reach(i)
        if length < SLIVER:
            unlaid.add(i)
        elif length < 1 - _WHOLE:
            kept[i] = length
    if run.top is not None:
        left, right = ((edge - run.origin) / pitch - shift for edge in run.top)
        raked = (*range(first, math.ceil(left - _WHOLE)), *range(math.floor(right + _WHOLE), last))
        for i in raked:
            if first <= i < last and i not in unlaid:
                kept.setdefault(i, min(1.0, reach(i)))
    total = last - first - len(unlaid)
    touched: set[int] = set()
    for middle, wide, taken in run.gaps:
        at = (middle - run.origin) / pitch - shift
        wide, taken = wide / pitch, taken / pitch
        for i in range(max(first, math.floor(at - wide + _TINY)), min(last, math.ceil(at + wide - _TINY))):
            if i in unlaid:
                continue
            gone = max(0.0, min(i + 1.0, end, at + taken) - max(float(i), begin, at - taken))
            kept[i] = kept.get(i, 1.0) - gone
            touched.add(i)
    left_out = sum(kept[i] < SLIVER for i in touched)
    shares = tuple(round(kept[i], 9) for i in sorted(kept) if kept[i] >= SLIVER)
    return Laid(total - len(kept), left_out, shares)


def levels(part: Part, block: Block) -> tuple[Level, ...]:
    """Return from which height to which every course of a wall reaches, the lowest first.

    The height below the gables is shared out evenly in courses that are at most as high as the mould and a joint; between ring
    beams each stretch for itself; a gable likewise over its rise.

    Source: arithmetic.

    Parameters
    ----------
    part : Part
        A wall in which nothing is at fault [m]
    block : Block
        The mould, and the thickness of the joints [m]

    Returns
    -------
    tuple of Level
        The courses [m]

    Examples
    --------
    >>> [round(level.high, 3) for level in levels(Part(shape="wall"), Block(0.3, 0.5))]
    [0.48, 0.96, 1.44, 1.92, 2.4]
    """
    wall, pitch = part.wall, block.height_m + block.joint_m
    stretches: list[tuple[float, float, bool, bool]] = []
    floor, framed = 0.0, frame(part) is not None
    for low, high in beam_heights(part):
        stretches.append((floor, low, False, framed))
        floor = high
    stretches.append((floor, wall.height_m, False, framed))
    if any(gabled(part, i) for i in range(len(outline(part).sides))):
        stretches.append((wall.height_m, wall.height_m + wall.gable_rise_m, True, False))
    out = []
    for low, high, gable, within in stretches:
        if high - low <= _TINY:
            continue
        count = max(1, ceiling((high - low) / pitch))
        each = (high - low) / count
        out += [Level(low + each * k, low + each * (k + 1), gable, within) for k in range(count)]
    return tuple(out)


def _gaps(placed: list[tuple[Cut, float]], low: float, high: float) -> tuple[tuple[float, float, float], ...]:
    """What openings whose middles are known take of one course."""
    out = []
    for section, middle in placed:
        widest, _, least = band(section, low, high)
        if widest > 0:
            out.append((middle, widest, least))
    return tuple(out)


def _within(gaps: tuple[tuple[float, float, float], ...], start: float, end: float) -> tuple[tuple[float, float, float], ...]:
    return tuple(gap for gap in gaps if gap[0] + gap[1] > start + _TINY and gap[0] - gap[1] < end - _TINY)


def _alike(runs: list[Run]) -> list[Run]:
    """Put equal runs together: most bays between posts hold no opening and are as long as their neighbours."""
    seen: dict[float, Run] = {}
    out = []
    for run in runs:
        if run.gaps or run.top is not None:
            out.append(run)
            continue
        key = round(run.length, 9)
        seen[key] = seen[key]._replace(times=seen[key].times + 1) if key in seen else run
    return [*out, *seen.values()]


class _Straight:
    """The runs of a wall with straight sides; lengths are along the middle of the wall."""

    def __init__(self, part: Part) -> None:
        self.part, self.plan = part, outline(part)
        self.openings: list[list[tuple[Cut, float]]] = [[] for _ in self.plan.sides]
        for opening in part.openings:
            side = self.plan.sides[opening.side - 1]
            section = cut(opening)
            self.openings[opening.side - 1] += [(section, at - side.from_m) for at in places(part, opening)]
        self.bays: list[list[tuple[float, float]]] = []
        if frame(part) is not None:
            for i, side in enumerate(self.plan.sides):
                posts = [(a - side.from_m, b - side.from_m) for a, b in posts_along(part, i)]
                self.bays.append([(a[1], b[0]) for a, b in pairwise(posts)])

    def runs(self, level: Level) -> list[Run]:
        """Return what one course lays."""
        out: list[Run] = []
        wall = self.part.wall
        for i, side in enumerate(self.plan.sides):
            gaps = _gaps(self.openings[i], level.low, level.high)
            if level.gable:
                if gabled(self.part, i):
                    back = [side.middle_m / 2 * (z - wall.height_m) / wall.gable_rise_m for z in level[:2]]
                    start, end = back[0], side.middle_m - back[0]
                    top = (back[1], side.middle_m - back[1])
                    out.append(Run(start, end - start, _within(gaps, start, end), top))
            elif level.framed:
                out += [Run(a, b - a, _within(gaps, a, b), None, a) for a, b in self.bays[i]]
            else:
                out.append(Run(0.0, side.middle_m, gaps))
        return _alike(out)


class _Round:
    """The runs of a round wall; lengths are along its outside, where blocks are as long as the mould."""

    def __init__(self, part: Part) -> None:
        self.part, self.inside = part, part.inside_diameter_m / 2
        self.outside = self.inside + part.thickness_m
        self.openings = [(cut(opening), math.radians(angle)) for opening in part.openings for angle in azimuths(opening)]
        self.frame = frame(part)

    def gaps(self, level: Level) -> list[tuple[float, float, float]]:
        """Return the angle of each opening, half of what it touches inside and half of what it takes outside."""
        return [
            (middle, turned(widest, self.inside), turned(least, self.outside))
            for middle, widest, least in _gaps(self.openings, level.low, level.high)
        ]

    def runs(self, level: Level) -> list[Run]:
        """Return what one course lays between posts."""
        assert self.frame is not None
        turn = 2 * math.pi / self.frame.posts
        half = self.part.wall.post_width_m / 2 / ((self.inside + self.outside) / 2)
        out = []
        for i in range(self.frame.posts):
            start, end = turn * i + half, turn * (i + 1) - half
            gaps = []
            for middle, wide, taken in self.gaps(level):
                # Seen from this bay an opening near the first direction stands on either side of it.
                for whole in (-2 * math.pi, 0.0, 2 * math.pi):
                    gaps.append(tuple(angle * self.outside for angle in (middle + whole, wide, taken)))
            a, b = start * self.outside, end * self.outside
            out.append(Run(a, b - a, _within(tuple(gaps), a, b), None, a))  # type: ignore[arg-type]
        return _alike(out)


def lay_wall(part: Part, block: Block) -> tuple[Course, ...]:
    """Lay a wall in level courses, posts and beams left out.

    Whole blocks are as long as the mould; courses with an even number begin with half a block. Each side is laid along its middle, so
    that a corner is counted once. A round wall whose ring closes shares its blocks evenly round it.

    Source: arithmetic. What an opening takes of a block is seen at the heights of the course: the least width for what is left out, the
    greatest for what is cut. What the mitres at a gable's feet cut off is shared out over its courses.

    Parameters
    ----------
    part : Part
        A wall in which nothing is at fault [m]
    block : Block
        The mould, and the thickness of the joints [m]

    Returns
    -------
    tuple of Course
        The courses, the lowest first [-]

    Examples
    --------
    >>> made = lay_wall(Part(shape="wall", plan_form="run", plan=((0.0, 0.0), (2.0, 0.0))), Block(0.5, 0.3))
    >>> [(course.whole, course.cut_shares) for course in made[:2]], len(made)
    ([(4, ()), (3, (0.5, 0.5))], 8)
    """
    return _lay_wall(part, Block(block.length_m, block.height_m, block.joint_m))


@lru_cache(maxsize=128)
def _lay_wall(part: Part, block: Block) -> tuple[Course, ...]:
    """Lay a wall once for the rooms and sheets that ask for it."""
    joint, thick, pitch = block.joint_m, part.thickness_m, block.length_m + block.joint_m
    ring = part.plan_form == "circle"
    round_ = _Round(part) if ring else None
    straight = None if ring else _Straight(part)
    near, far = (round_.inside, round_.outside) if round_ else (0.0, 0.0)
    gables, plain = gables_volume(part)
    out: list[Course] = []
    for number, level in enumerate(levels(part, block), 1):
        tall, shift = level.high - level.low, 0.0 if number % 2 else 0.5
        widths, taper = (block.length_m, block.length_m), 0.0
        if round_ and not level.framed:
            around = max(3, ceiling(2 * math.pi * far / pitch))
            turn = 2 * math.pi / around
            laid = [(place(around, shift, True, [(a / turn, b / turn, c / turn) for a, b, c in round_.gaps(level)]), 1)]
            length = math.pi * (near + far)
            widths, taper = (turn * far - joint, max(0.0, turn * near - joint)), math.degrees(turn)
        else:
            runs = round_.runs(level) if round_ else straight.runs(level) if straight else []
            laid = [(along(run, pitch, shift), run.times) for run in runs]
            length = sum(run.length * run.times for run in runs)
            if round_:
                length *= (near + far) / 2 / far
                taper = math.degrees(pitch / far)
                widths = (block.length_m, max(0.0, pitch * near / far - joint))
        shares = tuple(share for one, times in laid for share in one.shares * times)
        whole, left_out = (sum(getattr(one, name) * times for one, times in laid) for name in ("whole", "left_out"))
        around = whole + left_out + len(shares)
        volume = length * thick * tall
        if level.gable:
            above = sum(run.top[1] - run.top[0] for run in runs if run.top)
            volume = (length + above) / 2 * thick * tall * gables / plain
        out.append(
            Course(
                part=part.id, element="wall", course=number, kind="gable" if level.gable else "wall",
                height_m=level.low, radius_m=near,
                arm_m=near if ring else None, arm_angle_deg=0.0 if ring else None, pin_height_m=level.low if ring else None,
                bed_angle_deg=0.0, top_height_m=level.high, top_radius_m=near,
                outside_height_m=level.low, outside_radius_m=far, outside_top_height_m=level.high, outside_top_radius_m=far,
                around=around, count=whole + len(shares), whole=whole, cut=len(shares), left_out=left_out, cut_shares=shares,
                height_outside_m=tall - joint, height_inside_m=tall - joint, thickness_m=thick,
                taper_plan_deg=taper, taper_section_deg=0.0,
                taper_outside_low_m=widths[0], taper_outside_high_m=widths[0],
                taper_inside_low_m=widths[1], taper_inside_high_m=widths[1],
                fits=True, volume_m3=volume,
                joint_m3=min(volume, thick * joint * (length + around * max(0.0, tall - joint))),
                length_m=length,
            )
        )  # fmt: skip
    return tuple(out)


def rakes(part: Part) -> tuple[tuple[int, float], ...]:
    """Return how steep the gables of a wall rise.

    Source: arithmetic.

    Parameters
    ----------
    part : Part
        A wall [m]

    Returns
    -------
    tuple of (int, float)
        The side, from 0, and the angle of its rake from level [deg]

    Examples
    --------
    >>> from foamwright.project.model import Wall
    >>> [(i, round(angle, 2)) for i, angle in rakes(Part(shape="wall", thickness_m=0.4, wall=Wall(gable_rise_m=2.2)))]
    [(1, 45.0), (3, 45.0)]
    """
    return tuple(
        (i, math.degrees(math.atan2(part.wall.gable_rise_m, side.middle_m / 2)))
        for i, side in enumerate(outline(part).sides)
        if gabled(part, i)
    )


def lay(part: Part, block: Block) -> tuple[Course, ...]:
    """Lay any part that is laid in courses.

    Source: arithmetic; `lay_wall` for walls, the courses of shells for the others.

    Parameters
    ----------
    part : Part
        A part whose shape is one of `LAID` [m]
    block : Block
        The mould, and the thickness of the joints [m]

    Returns
    -------
    tuple of Course
        Its courses [-]

    Examples
    --------
    >>> lay(Part(), Block())[0].kind, lay(Part(shape="wall"), Block())[0].kind
    ('stem', 'wall')
    """
    return lay_wall(part, block) if part.shape == "wall" else courses.lay(part, block)
