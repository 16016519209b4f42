"""Straight and round walls: a line on the plan, followed by a wall of one thickness and one height.

A closed wall follows its inside face, an open run its middle. Corners are mitred, so that each is
counted once: the plan area of a wall is its middle line times its thickness, whatever its corners. A
gable is a triangle over the middle line of its side, as thick as the wall and cut on the same mitres.
"""

import math
from functools import lru_cache
from itertools import combinations, pairwise
from typing import Final

from attrs import evolve, field, frozen

from foamwright.project.model import Opening, Part
from foamwright.project.notes import Note, Problem, Scalar
from foamwright.shape.meridian import Face, Meridian, Upright
from foamwright.shape.openings import Cut, Taken, check, cut, greatest, head_too_low, taken

Point = tuple[float, float]

_TINY: Final = 1e-9
#: Shorter sides are slips of the hand [m].
LEAST_SIDE_M: Final = 0.01
#: A corner whose sides come closer than this has a mitre too long to build [deg].
LEAST_CORNER_DEG: Final = 20.0
#: A part with more faults than this has been told enough.
_MOST_PROBLEMS: Final = 20
#: Straight pieces by which a round wall is told apart from what stands beside it.
_PIECES: Final = 72


@frozen
class Side:
    """One straight side of a wall, from its first corner to its second.

    Attributes
    ----------
    start : tuple of (float, float)
        First corner on the stated line [m]
    end : tuple of (float, float)
        Second corner on the stated line [m]
    length_m : float
        Along the stated line: the inside face of a closed wall, the middle of an open run [m]
    middle_m : float
        Along the middle of the wall [m]
    from_m : float
        Where the middle of the wall begins, along the stated line from the first corner [m]
    inside_m : float
        Along its inside face; of a run, the one on the left of whoever walks it [m]
    outside_m : float
        Along its outside face [m]
    low_m : float
        Where both faces have begun, along the stated line from the first corner [m]
    high_m : float
        Where one of them ends [m]
    first_tan : float
        Tangent of half the turn at the first corner, above 0 where the plan bulges [-]
    second_tan : float
        The same at the second corner [-]
    out : tuple of (float, float)
        Direction from the inside face to the outside face [-]
    """

    start: Point
    end: Point
    length_m: float
    middle_m: float
    from_m: float
    inside_m: float
    outside_m: float
    low_m: float
    high_m: float
    first_tan: float
    second_tan: float
    out: Point

    def at(self, along: float, out: float = 0.0) -> Point:
        """Return the point at a distance along the stated line and so far outward from it.

        Source: arithmetic.

        Parameters
        ----------
        along : float
            Distance from the first corner [m]
        out : float
            Distance towards the outside [m]

        Returns
        -------
        tuple of (float, float)
            The point [m]

        Examples
        --------
        >>> outline(Part(shape="wall")).sides[0].at(1.0, 0.2)
        (-2.0, -2.2)
        """
        (x, y), (x1, y1) = self.start, self.end
        share = along / self.length_m
        return x + (x1 - x) * share + self.out[0] * out, y + (y1 - y) * share + self.out[1] * out


@frozen
class Outline:
    """The plan of a wall.

    Attributes
    ----------
    corners : tuple of tuple
        Corners of the stated line; none of a round wall [m]
    closed : bool
        Whether the wall comes back to its beginning [-]
    sides : tuple of Side
        The sides in the order of the corners; none of a round wall [-]
    middle_m : float
        Length along the middle of the wall [m]
    inside_m : float
        Length of the inside face; of a run, the left one [m]
    outside_m : float
        Length of the outside face, without the two ends of a run [m]
    floor_m2 : float
        Plan area that a closed wall encloses; 0 of a run [m2]
    footprint_m2 : float
        Plan area out to the outside face; of a run, that of the wall itself [m2]
    enclosed_m2 : float
        Plan area within the middle line; 0 of a run [m2]
    corner : float
        What a strip of width w along the middle line gains at its outside edge, over w squared: pi
        for a circle, 4 for a rectangle, 0 for a run [-]
    inside_ring : tuple of tuple
        Corners of the inside face, or left face of a run [m]
    outside_ring : tuple of tuple
        Corners of the outside face, or right face of a run [m]
    """

    corners: tuple[Point, ...]
    closed: bool
    sides: tuple[Side, ...]
    middle_m: float
    inside_m: float
    outside_m: float
    floor_m2: float
    footprint_m2: float
    enclosed_m2: float
    corner: float
    inside_ring: tuple[Point, ...]
    outside_ring: tuple[Point, ...]


def corners(part: Part) -> tuple[Point, ...]:
    """Return the corners of a plan as stated, those of a rectangle round its middle.

    Source: typed. The first side of a rectangle runs along its length; a corner that repeats the first one
    at the end of a closed plan is dropped.

    Parameters
    ----------
    part : Part
        The part as stated [-]

    Returns
    -------
    tuple of tuple
        Corners; none of a circle [m]

    Examples
    --------
    >>> corners(Part(shape="wall"))
    ((-3.0, -2.0), (3.0, -2.0), (3.0, 2.0), (-3.0, 2.0))
    """
    if part.plan_form == "circle":
        return ()
    if part.plan_form == "rectangle":
        x, y = part.length_m / 2, part.inside_span_m / 2
        return (-x, -y), (x, -y), (x, y), (-x, y)
    plan = tuple((float(x), float(y)) for x, y in part.plan)
    if part.plan_form == "polygon" and len(plan) > 1 and math.dist(plan[0], plan[-1]) < _TINY:
        return plan[:-1]
    return plan


def area_of(ring: tuple[Point, ...]) -> float:
    """Return the area within a closed ring of corners, above 0 where they run anticlockwise.

    Source: arithmetic (the surveyor's formula).

    Parameters
    ----------
    ring : tuple of tuple
        Corners [m]

    Returns
    -------
    float
        Area [m2]

    Examples
    --------
    >>> area_of(((0.0, 0.0), (2.0, 0.0), (2.0, 1.0), (0.0, 1.0)))
    2.0
    """
    if not ring:
        return 0.0
    # Taken from the first corner, so that a plan far from its origin loses no digits.
    x0, y0 = ring[0]
    return sum(
        (ax - x0) * (by - y0) - (bx - x0) * (ay - y0)
        for (ax, ay), (bx, by) in zip(ring, (*ring[1:], ring[0]), strict=True)
    ) / 2


def outline(part: Part) -> Outline:
    """Return the plan of a wall in which `wall_faults` finds nothing.

    Source: arithmetic: each face is the stated line set off by the thickness, its corners on the mitres.

    Parameters
    ----------
    part : Part
        The wall as stated [-]

    Returns
    -------
    Outline
        Its plan [-]

    Examples
    --------
    >>> plan = outline(Part(shape="wall", thickness_m=0.5))
    >>> plan.inside_m, plan.outside_m, plan.floor_m2, plan.footprint_m2
    (20.0, 24.0, 24.0, 35.0)
    """
    if part.plan_form == "circle":
        return _circle(part.inside_diameter_m / 2, part.thickness_m)
    return _outline(corners(part), part.plan_form != "run", part.thickness_m)


def _circle(radius: float, thick: float) -> Outline:
    middle, far = radius + thick / 2, radius + thick
    return Outline(
        (), True, (), 2 * math.pi * middle, 2 * math.pi * radius, 2 * math.pi * far,
        math.pi * radius**2, math.pi * far**2, math.pi * middle**2, math.pi, (), (),
    )  # fmt: skip


@lru_cache(maxsize=512)
def _outline(line: tuple[Point, ...], closed: bool, thick: float) -> Outline:
    turn = -1.0 if closed and area_of(line) < 0 else 1.0
    near, far = (0.0, thick) if closed else (-thick / 2, thick / 2)
    ends = (*line[1:], line[0]) if closed else line[1:]
    legs = tuple(zip(line, ends, strict=False))
    lengths = [math.dist(a, b) for a, b in legs]
    ways = [((b[0] - a[0]) / n, (b[1] - a[1]) / n) for (a, b), n in zip(legs, lengths, strict=True)]
    bends = [turn * _half_tan(a, b) for a, b in zip(ways, (*ways[1:], ways[0]), strict=True)]
    if not closed:
        bends[-1] = 0.0
    sides = []
    for i, ((a, b), length, (x, y)) in enumerate(zip(legs, lengths, ways, strict=True)):
        first = bends[i - 1] if i or closed else 0.0
        both = first + bends[i]
        sides.append(
            Side(
                start=a,
                end=b,
                length_m=length,
                middle_m=length + (near + far) / 2 * both,
                from_m=-(near + far) / 2 * first,
                inside_m=length + near * both,
                outside_m=length + far * both,
                low_m=max(-near * first, -far * first),
                high_m=length + min(near * bends[i], far * bends[i]),
                first_tan=first,
                second_tan=bends[i],
                out=(turn * y, -turn * x),
            )
        )
    rings = []
    for off in (near, far):
        ring = [side.at(-off * side.first_tan, off) for side in sides]
        if not closed:
            ring.append(sides[-1].at(sides[-1].length_m, off))
        rings.append(tuple(ring))
    middle = sum(side.middle_m for side in sides)
    inside, enclosed = abs(area_of(line)) if closed else 0.0, 0.0
    corner = 0.0
    if closed:
        corner = sum(bends)
        enclosed = inside + sum(lengths) * thick / 2 + corner * thick**2 / 4
    return Outline(
        corners=line,
        closed=closed,
        sides=tuple(sides),
        middle_m=middle,
        inside_m=sum(side.inside_m for side in sides),
        outside_m=sum(side.outside_m for side in sides),
        floor_m2=inside,
        footprint_m2=inside + middle * thick,
        enclosed_m2=enclosed,
        corner=corner,
        inside_ring=rings[0],
        outside_ring=rings[1],
    )


def _half_tan(before: Point, after: Point) -> float:
    """Tangent of half the turn from one direction to the next, above 0 to the left."""
    cross = before[0] * after[1] - before[1] * after[0]
    dot = before[0] * after[0] + before[1] * after[1]
    return cross / max(1 + dot, 1e-12)


# --- whether it can be built ------------------------------------------------------------------


def plan_faults(part: Part, path: str) -> tuple[Problem, ...]:
    """Say what in the line of a plan makes no wall and no fill: too few corners, a side of no length, a crossing.

    Source: arithmetic.

    Parameters
    ----------
    part : Part
        The part as stated [-]
    path : str
        Where it stands in the project [-]

    Returns
    -------
    tuple of Problem
        None where the line can be followed [-]

    Examples
    --------
    >>> bow = ((0.0, 0.0), (4.0, 4.0), (4.0, 0.0), (0.0, 4.0))
    >>> plan_faults(Part(shape="wall", plan_form="polygon", plan=bow), "parts[0]")[0].code
    'plan_crosses_itself'
    """
    names: dict[str, Scalar] = {"part": part.id}
    if part.plan_form == "run" and part.shape == "fill":
        return (Problem(f"{path}.plan_form", "run", "polygon", "plan_open", names),)
    if part.plan_form in ("circle", "rectangle"):
        return ()
    line, closed = corners(part), part.plan_form == "polygon"
    least = 3 if closed else 2
    if len(line) < least:
        return (Problem(f"{path}.plan", len(line), least, "plan_too_few", names),)
    legs = _legs(line, closed)
    for i, (a, b) in enumerate(legs):
        length = math.dist(a, b)
        if length < LEAST_SIDE_M:
            where = f"{path}.plan[{(i + 1) % len(line)}]"
            return (Problem(where, length, LEAST_SIDE_M, "plan_side_short", names | {"side": i + 1}),)
    crossing = _crossing(line, closed)
    if crossing:
        i, j = crossing
        more: dict[str, Scalar] = names | {"side": i + 1, "other": j + 1}
        return (Problem(f"{path}.plan[{j}]", j + 1, i + 1, "plan_crosses_itself", more),)
    return ()


def _legs(line: tuple[Point, ...], closed: bool) -> tuple[tuple[Point, Point], ...]:
    return tuple(pairwise((*line, line[0]) if closed else line))


def _crossing(line: tuple[Point, ...], closed: bool) -> tuple[int, int] | None:
    """Find two sides that share a point which is not their common corner."""
    legs = _legs(line, closed)
    boxes = [
        (min(a[0], b[0]), max(a[0], b[0]), min(a[1], b[1]), max(a[1], b[1])) for a, b in legs
    ]
    for i, j in combinations(range(len(legs)), 2):
        if (
            boxes[i][0] > boxes[j][1] + _TINY
            or boxes[j][0] > boxes[i][1] + _TINY
            or boxes[i][2] > boxes[j][3] + _TINY
            or boxes[j][2] > boxes[i][3] + _TINY
        ):
            continue
        if j == i + 1 or (closed and i == 0 and j == len(legs) - 1):
            (a, b), (_, c) = (legs[i], legs[j]) if j == i + 1 else (legs[j], legs[i])
            # Neighbours share a corner; they share more only where the second runs back on the first.
            if _side_of(a, b, c) == 0 and _dot(a, b, b, c) < 0:
                return i, j
        elif _meet(*legs[i], *legs[j]):
            return i, j
    return None


def _side_of(a: Point, b: Point, c: Point) -> int:
    cross = (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
    return 0 if abs(cross) <= _TINY * math.dist(a, b) else 1 if cross > 0 else -1


def _dot(a: Point, b: Point, c: Point, d: Point) -> float:
    return (b[0] - a[0]) * (d[0] - c[0]) + (b[1] - a[1]) * (d[1] - c[1])


def _meet(a: Point, b: Point, c: Point, d: Point) -> bool:
    one, two, three, four = _side_of(a, b, c), _side_of(a, b, d), _side_of(c, d, a), _side_of(c, d, b)
    if one * two < 0 and three * four < 0:
        return True
    return any(
        side == 0 and -_TINY <= _dot(p, q, p, r) <= math.dist(p, q) ** 2 + _TINY
        for side, p, q, r in ((one, a, b, c), (two, a, b, d), (three, c, d, a), (four, c, d, b))
    )


def wall_faults(part: Part, path: str) -> tuple[Problem, ...]:
    """Say what makes no wall: its line, corners too sharp or sides too short for its thickness, gables, posts.

    Source: arithmetic; the sharpest corner is the project's own choice.

    Parameters
    ----------
    part : Part
        The wall as stated [-]
    path : str
        Where it stands in the project [-]

    Returns
    -------
    tuple of Problem
        None where the wall can be built [-]

    Examples
    --------
    >>> slot = ((0.0, 0.0), (6.0, 0.0), (6.0, 4.0), (3.1, 4.0), (3.5, 1.0), (2.5, 1.0), (2.9, 4.0), (0.0, 4.0))
    >>> wall_faults(Part(shape="wall", plan_form="polygon", plan=slot), "parts[0]")[0].code
    'wall_meets_itself'
    """
    found = plan_faults(part, path)
    if found:
        return found
    names: dict[str, Scalar] = {"part": part.id}
    wall = part.wall
    if part.plan_form != "circle":
        sharp = _sharp(part, path)
        if sharp:
            return (sharp,)
        plan = outline(part)
        for i, side in enumerate(plan.sides):
            short = min(side.inside_m, side.outside_m)
            if short < LEAST_SIDE_M:
                limit = side.length_m - short + LEAST_SIDE_M
                where = f"{path}.plan[{i}]" if part.plan_form in ("polygon", "run") else f"{path}.thickness_m"
                more = names | {"side": i + 1}
                return (Problem(where, side.length_m, limit, "wall_side_short", more),)
        rings = [(plan.outside_ring, True)]
        if not plan.closed:
            rings = [((*plan.outside_ring, *reversed(plan.inside_ring)), True)]
        for ring, closed in rings:
            if _crossing(ring, closed):
                return (Problem(f"{path}.thickness_m", part.thickness_m, "apart", "wall_meets_itself", names),)
        if wall.gable_rise_m > 0:
            for k, number in enumerate(wall.gable_sides):
                if number > len(plan.sides):
                    where = f"{path}.wall.gable_sides[{k}]"
                    return (Problem(where, number, len(plan.sides), "side_missing", names),)
    return _frame_faults(part, path)


def _sharp(part: Part, path: str) -> Problem | None:
    line, closed = corners(part), part.plan_form != "run"
    count = len(line)
    for i in range(count) if closed else range(1, count - 1):
        a, b, c = line[i - 1], line[i], line[(i + 1) % count]
        back = math.degrees(math.acos(max(-1.0, min(1.0, _dot(b, a, b, c) / math.dist(a, b) / math.dist(b, c)))))
        if back < LEAST_CORNER_DEG:
            more: dict[str, Scalar] = {"part": part.id, "corner": i + 1}
            return Problem(f"{path}.plan[{i}]", back, LEAST_CORNER_DEG, "wall_corner_sharp", more)
    return None


def _frame_faults(part: Part, path: str) -> tuple[Problem, ...]:
    wall = part.wall
    if wall.build != "infill":
        return ()
    names: dict[str, Scalar] = {"part": part.id}
    beams = wall.ring_beams * wall.ring_beam_height_m
    if beams >= wall.height_m - _TINY:
        where = f"{path}.wall.ring_beam_height_m"
        limit = wall.height_m / max(1, wall.ring_beams)
        return (Problem(where, wall.ring_beam_height_m, limit, "beams_too_high", names),)
    made = frame(part)
    if made is not None and made.posts_m >= outline(part).middle_m - _TINY:
        where = f"{path}.wall.post_width_m"
        limit = outline(part).middle_m / made.posts
        return (Problem(where, wall.post_width_m, limit, "posts_too_wide", names),)
    return ()


# --- posts and beams --------------------------------------------------------------------------


@frozen
class Frame:
    """The concrete posts and ring beams of an infill wall, as thick as the wall; no waste is in it.

    Attributes
    ----------
    posts : int
        Posts: at every corner and end, and between them as far apart as stated at most [-]
    posts_m : float
        Length of the middle line that they take [m]
    post_height_m : float
        Height of a post between beams, all stretches together [m]
    posts_m3 : float
        Concrete of the posts between the beams [m3]
    beams : int
        Ring beams, the uppermost at the top, the others evenly below it [-]
    beam_length_m : float
        Length of one beam along the middle of the wall [m]
    beams_m3 : float
        Concrete of the beams, through the posts [m3]
    spans_m : tuple of float
        Clear way from post to post on each side, or round a circle [m]
    """

    posts: int
    posts_m: float
    post_height_m: float
    posts_m3: float
    beams: int
    beam_length_m: float
    beams_m3: float
    spans_m: tuple[float, ...]

    @property
    def concrete_m3(self) -> float:
        """Concrete of posts and beams together [m3]."""
        return self.posts_m3 + self.beams_m3


def _bays(length: float, spacing: float) -> int:
    return max(1, math.ceil(length / spacing - 1e-9))


def frame(part: Part) -> Frame | None:
    """Return the posts and ring beams of an infill wall.

    Source: arithmetic: a post at every corner takes half its width on either side, one at the end of a run all of
    it on its own side; on mitred corners the plan area is the way along the middle line times the thickness.

    Parameters
    ----------
    part : Part
        The wall as stated [-]

    Returns
    -------
    Frame or None
        Posts and beams; none of a wall of load-bearing blocks [-]

    Examples
    --------
    >>> from foamwright.project.model import Wall
    >>> made = frame(Part(shape="wall", wall=Wall(build="infill")))
    >>> made.posts, round(made.posts_m3, 6), round(made.beams_m3, 6)
    (10, 0.66, 0.832)
    """
    wall, plan = part.wall, outline(part)
    if wall.build != "infill":
        return None
    width = wall.post_width_m
    if plan.sides:
        bays = [_bays(side.middle_m, wall.post_spacing_m) for side in plan.sides]
        count = sum(bays) + (0 if plan.closed else 1)
        spans = []
        for i, (side, n) in enumerate(zip(plan.sides, bays, strict=True)):
            ends = 0 if plan.closed else (i == 0) + (i == len(bays) - 1)
            spans.append((side.middle_m - n * width - ends * width / 2) / n)
    else:
        count = _bays(plan.middle_m, wall.post_spacing_m)
        spans = [plan.middle_m / count - width]
    tall = wall.height_m - wall.ring_beams * wall.ring_beam_height_m
    return Frame(
        posts=count,
        posts_m=count * width,
        post_height_m=tall,
        posts_m3=count * width * part.thickness_m * tall,
        beams=wall.ring_beams,
        beam_length_m=plan.middle_m,
        beams_m3=wall.ring_beams * plan.middle_m * part.thickness_m * wall.ring_beam_height_m,
        spans_m=tuple(spans),
    )


def posts_along(part: Part, number: int) -> tuple[tuple[float, float], ...]:
    """Return where the posts of one side stand: from where to where along its stated line.

    Source: arithmetic.

    Parameters
    ----------
    part : Part
        An infill wall with straight sides [-]
    number : int
        The side, from 0 [-]

    Returns
    -------
    tuple of (float, float)
        Both edges of each post, measured from the side's first corner [m]

    Examples
    --------
    >>> from foamwright.project.model import Wall
    >>> run = Part(shape="wall", plan_form="run", plan=((0.0, 0.0), (5.0, 0.0)), wall=Wall(build="infill"))
    >>> [(round(a, 9), round(b, 9)) for a, b in posts_along(run, 0)]
    [(0.0, 0.15), (2.425, 2.575), (4.85, 5.0)]
    """
    plan, width = outline(part), part.wall.post_width_m
    side = plan.sides[number]
    bays = _bays(side.middle_m, part.wall.post_spacing_m)
    first = 0.0 if plan.closed or number else width / 2
    last = 0.0 if plan.closed or number < len(plan.sides) - 1 else width / 2
    middles = [
        side.from_m + first + (side.middle_m - first - last) * i / bays for i in range(bays + 1)
    ]
    return tuple((middle - width / 2, middle + width / 2) for middle in middles)


def beam_heights(part: Part) -> tuple[tuple[float, float], ...]:
    """Return from which height to which each ring beam runs, the lowest first.

    Source: arithmetic; the uppermost ends at the top of the wall, the others share the height evenly.

    Parameters
    ----------
    part : Part
        The wall as stated [-]

    Returns
    -------
    tuple of (float, float)
        Lower and upper edge of each beam above the floor [m]

    Examples
    --------
    >>> from foamwright.project.model import Wall
    >>> beam_heights(Part(shape="wall", wall=Wall(build="infill", height_m=3.0, ring_beams=2)))
    ((1.3, 1.5), (2.8, 3.0))
    """
    wall = part.wall
    if wall.build != "infill":
        return ()
    tops = [wall.height_m * (k + 1) / wall.ring_beams for k in range(wall.ring_beams)]
    return tuple((top - wall.ring_beam_height_m, top) for top in tops)


# --- openings ---------------------------------------------------------------------------------


def places(part: Part, opening: Opening) -> tuple[float, ...]:
    """Return where the middles of an opening and its repeats stand along their side.

    Spread evenly over the stretch where both faces run; where a distance is stated, from there to as far from the
    side's other end.

    Source: arithmetic.

    Parameters
    ----------
    part : Part
        A wall with straight sides [-]
    opening : Opening
        The opening as stated, on a side that there is [-]

    Returns
    -------
    tuple of float
        Distances from the side's first corner along the stated line [m]

    Examples
    --------
    >>> places(Part(shape="wall"), Opening(side=2, count=2)), places(Part(shape="wall"), Opening(along_m=1.0, count=3))
    ((1.0, 3.0), (1.0, 3.0, 5.0))
    """
    side = outline(part).sides[opening.side - 1]
    count, first = opening.count, opening.along_m
    if first is None:
        whole = side.high_m - side.low_m
        return tuple(side.low_m + whole * (i + 0.5) / count for i in range(count))
    if count == 1:
        return (first,)
    return tuple(first + (side.length_m - 2 * first) * i / (count - 1) for i in range(count))


def cylinder(part: Part) -> Meridian:
    """Return the section of a round wall.

    Source: arithmetic.

    Parameters
    ----------
    part : Part
        A wall whose plan is a circle [-]

    Returns
    -------
    Meridian
        Two upright faces [-]

    Examples
    --------
    >>> round(cylinder(Part(shape="wall", plan_form="circle")).inside.area(), 4)
    45.2389
    """
    radius, tall = part.inside_diameter_m / 2, part.wall.height_m
    return Meridian(
        Face((Upright(radius, 0.0, tall),)), Face((Upright(radius + part.thickness_m, 0.0, tall),))
    )


def top_at(part: Part, number: int, along: float) -> float:
    """Return how high a side stands at a distance along it, its gable with it.

    Source: arithmetic.

    Parameters
    ----------
    part : Part
        A wall with straight sides [-]
    number : int
        The side, from 0 [-]
    along : float
        Distance from the side's first corner along the stated line [m]

    Returns
    -------
    float
        Height above the floor [m]

    Examples
    --------
    >>> from foamwright.project.model import Wall
    >>> house = Part(shape="wall", thickness_m=0.4, wall=Wall(gable_rise_m=1.1))
    >>> [round(top_at(house, 1, along), 9) for along in (-0.2, 2.0)], top_at(house, 0, 3.0)
    ([2.4, 3.5], 2.4)
    """
    wall, side = part.wall, outline(part).sides[number]
    if not gabled(part, number):
        return wall.height_m
    middle, half = _gable(side)
    return wall.height_m + wall.gable_rise_m * max(0.0, 1 - abs(along - middle) / half)


def gabled(part: Part, number: int) -> bool:
    """Say whether a side carries a gable.

    Source: typed.

    Parameters
    ----------
    part : Part
        The wall as stated [-]
    number : int
        The side, from 0 [-]

    Returns
    -------
    bool
        Whether it does [-]

    Examples
    --------
    >>> gabled(Part(shape="wall"), 1)
    False
    """
    return part.plan_form != "circle" and part.wall.gable_rise_m > 0 and number + 1 in part.wall.gable_sides


def _gable(side: Side) -> tuple[float, float]:
    """Middle and half length of the middle line of a side, along the stated line."""
    return side.from_m + side.middle_m / 2, side.middle_m / 2


def check_wall(part: Part, path: str) -> tuple[tuple[Problem, ...], tuple[Note, ...]]:
    """Find openings of a wall that cannot be built, and those that cut its posts or beams.

    Source: arithmetic; openings of one side overlap where their widths at one height reach further than
    their middles stand apart.

    Parameters
    ----------
    part : Part
        A wall in which `wall_faults` finds nothing [-]
    path : str
        Where it stands in the project [-]

    Returns
    -------
    tuple of (tuple of Problem, tuple of Note)
        Faults, and openings that stand but deserve a word [-]

    Examples
    --------
    >>> hut = Part(shape="wall", openings=(Opening(side=2, along_m=3.8),))
    >>> check_wall(hut, "parts[0]")[0][0].code
    'opening_beyond_wall'
    """
    if part.plan_form == "circle":
        return check(cylinder(part).inside, part.openings, path)
    problems: list[Problem] = []
    notes: list[Note] = []
    stands: list[tuple[str, Opening, Cut, tuple[float, ...]]] = []
    sides = outline(part).sides
    for i, opening in enumerate(part.openings):
        if len(problems) >= _MOST_PROBLEMS:
            return tuple(problems), tuple(notes)
        where = f"{path}.openings[{i}]"
        if opening.side > len(sides):
            names: dict[str, Scalar] = {"part": part.id}
            problems.append(Problem(f"{where}.side", opening.side, len(sides), "side_missing", names))
            continue
        problem = _misfit(part, opening, where)
        if problem:
            problems.append(problem)
            continue
        section, at = cut(opening), places(part, opening)
        stands.append((where, opening, section, at))
        if _cuts_frame(part, opening, section, at):
            notes.append(Note("opening_cuts_frame", "caution", where, {"part": part.id}, "arithmetic"))
    for (a, one, first, here), (b, two, second, there) in combinations(stands, 2):
        if one.side != two.side or len(problems) >= _MOST_PROBLEMS:
            continue
        apart, along = min((abs(x - y), y) for x in here for y in there)
        needed = greatest(lambda z, f=first, s=second: f.half_width(z) + s.half_width(z), first, second)  # type: ignore[misc]
        if needed >= apart - _TINY:
            more: dict[str, Scalar] = {"first": a, "second": b, "apart_m": apart, "least_m": needed}
            problems.append(Problem(f"{b}.along_m", along, needed, "openings_overlap", more))
    return tuple(problems), tuple(notes)


def _misfit(part: Part, opening: Opening, path: str) -> Problem | None:
    """Say whether an opening with all its repeats fits into its side."""
    if opening.sill_m < 0:
        return Problem(f"{path}.sill_m", opening.sill_m, 0.0, "opening_below_floor")
    low = head_too_low(opening, path)
    if low:
        return low
    number = opening.side - 1
    side, section = outline(part).sides[number], cut(opening)
    size, tall = ("diameter_m", "diameter_m") if opening.form == "round" else ("width_m", "height_m")
    room = side.high_m - side.low_m
    if 2 * section.half_m > room:
        return Problem(f"{path}.{size}", 2 * section.half_m, room, "opening_too_wide")
    at = places(part, opening)
    gaps = [b - a for a, b in pairwise(sorted(at))]
    if gaps and min(gaps) <= 2 * section.half_m + _TINY:
        fitting = (
            n
            for n in range(opening.count - 1, 1, -1)
            if min(b - a for a, b in pairwise(sorted(places(part, evolve(opening, count=n)))))
            > 2 * section.half_m + _TINY
        )
        return Problem(f"{path}.count", opening.count, next(fitting, 1), "openings_too_many")
    for along in at:
        nearest = min(max(along, side.low_m + section.half_m), side.high_m - section.half_m)
        if abs(nearest - along) > _TINY:
            return Problem(f"{path}.along_m", along, nearest, "opening_beyond_wall")
        over = _over_top(part, number, section, along)
        if over > -_TINY:
            if opening.sill_m >= top_at(part, number, along):
                return Problem(f"{path}.sill_m", opening.sill_m, top_at(part, number, along), "opening_too_high")
            value = float(getattr(opening, tall))
            return Problem(f"{path}.{tall}", value, max(0.0, value - over), "opening_too_high")
    return None


def _over_top(part: Part, number: int, section: Cut, along: float) -> float:
    """How far an opening reaches above the top of its side, at worst; below 0 where it stays under it."""
    tall = part.wall.height_m
    if not gabled(part, number) or section.high_m <= tall:
        return section.high_m - tall
    middle, half = _gable(outline(part).sides[number])
    slope, aside = part.wall.gable_rise_m / half, abs(along - middle)

    def over(height: float) -> float:
        return height - tall - part.wall.gable_rise_m + slope * (aside + section.half_width(height))

    return max(over(section.high_m), greatest(lambda z: over(z) + 1e3, section, section) - 1e3)


def _cuts_frame(part: Part, opening: Opening, section: Cut, at: tuple[float, ...]) -> bool:
    """Say whether an opening cuts a post or a ring beam."""
    if part.wall.build != "infill":
        return False
    if any(section.low_m < top - _TINY and section.high_m > low + _TINY for low, top in beam_heights(part)):
        return True
    posts = posts_along(part, opening.side - 1)
    return any(
        along - section.half_m < high - _TINY and along + section.half_m > low + _TINY
        for along in at
        for low, high in posts
    )


# --- measures ---------------------------------------------------------------------------------


@frozen
class WallMeasures:
    """What is measured of a wall, openings taken out.

    Attributes
    ----------
    shell_volume_m3 : float
        Foamed concrete, posts and beams not in it [m3]
    openings_volume_m3 : float
        What the openings take out [m3]
    inside_area_m2 : float
        Inside face, gables with it; of a run, the left face [m2]
    outside_area_m2 : float
        Outside face, gables with it; of a run, the right face and both ends [m2]
    gables_volume_m3 : float
        Part of the volume that stands in gables [m3]
    frame : Frame or None
        Posts and beams of an infill wall [-]
    """

    shell_volume_m3: float
    openings_volume_m3: float
    inside_area_m2: float
    outside_area_m2: float
    gables_volume_m3: float
    frame: Frame | None = field(default=None)


def measure_wall(part: Part) -> WallMeasures:
    """Measure a wall in which `wall_faults` and `check_wall` find no problem.

    Source: arithmetic: the middle line times thickness and height; a gable is half its length times its rise times
    the thickness, less the slivers that its mitres cut off.

    Parameters
    ----------
    part : Part
        The wall as stated [-]

    Returns
    -------
    WallMeasures
        Volumes and areas [m3, m2]

    Examples
    --------
    >>> made = measure_wall(Part(shape="wall", thickness_m=0.2))
    >>> round(made.shell_volume_m3, 6), round(made.inside_area_m2, 6), round(made.outside_area_m2, 6)
    (9.984, 48.0, 51.84)
    """
    wall, plan, thick = part.wall, outline(part), part.thickness_m
    volume = plan.middle_m * thick * wall.height_m
    inside, outside = plan.inside_m * wall.height_m, plan.outside_m * wall.height_m
    if not plan.closed:
        outside += 2 * thick * wall.height_m
    gables = 0.0
    for i, side in enumerate(plan.sides):
        if not gabled(part, i):
            continue
        body, near, far = _gable_sizes(side, thick, wall.gable_rise_m)
        gables += body
        inside += near
        outside += far
    gone = 0.0
    if plan.sides:
        through = sum(cut(opening).area() * opening.count for opening in part.openings)
        gone = through * thick
        inside -= through
        outside -= through
    else:
        shell = cylinder(part)
        known: dict[Cut, Taken] = {}
        for opening in part.openings:
            section = cut(opening)
            one = known.get(section) or known.setdefault(section, taken(shell, section))
            gone += one.volume_m3 * opening.count
            inside -= one.inside_area_m2 * opening.count
            outside -= one.outside_area_m2 * opening.count
    made = frame(part)
    return WallMeasures(
        shell_volume_m3=max(0.0, volume + gables - gone - (made.concrete_m3 if made else 0.0)),
        openings_volume_m3=gone,
        inside_area_m2=inside,
        outside_area_m2=outside,
        gables_volume_m3=gables,
        frame=made,
    )


def gables_volume(part: Part) -> tuple[float, float]:
    """Return the volume of a wall's gables, and what it would be if no mitre cut their feet.

    Source: arithmetic.

    Parameters
    ----------
    part : Part
        A wall [m]

    Returns
    -------
    tuple of (float, float)
        Volume, and volume without mitres [m3]

    Examples
    --------
    >>> from foamwright.project.model import Wall
    >>> [round(volume, 4) for volume in gables_volume(Part(shape="wall", wall=Wall(gable_rise_m=1.0)))]
    [0.8397, 0.84]
    """
    rise, thick = part.wall.gable_rise_m, part.thickness_m
    sides = [side for i, side in enumerate(outline(part).sides) if gabled(part, i)]
    return (
        sum(_gable_sizes(side, thick, rise)[0] for side in sides),
        sum(thick * rise * side.middle_m / 2 for side in sides),
    )


def _gable_sizes(side: Side, thick: float, rise: float) -> tuple[float, float, float]:
    """Volume and both faces of a gable over the middle line of a side, cut on the side's mitres."""
    length = side.middle_m
    tans = (side.first_tan, side.second_tan)
    body = thick * rise * length / 2 - rise * thick**3 * sum(k * k for k in tans) / (24 * length)
    near = rise * length / 2
    far = near
    for k in tans:
        sliver = rise * (thick / 2 * k) ** 2 / length
        # At a corner that bulges the inside face begins later than the middle, at one that recedes the outside.
        near -= sliver if k > 0 else 0.0
        far -= sliver if k < 0 else 0.0
    return body, near, far


def pieces(part: Part) -> tuple[tuple[Point, ...], ...]:
    """Return the plan of a wall as convex pieces, where the project has it.

    Source: arithmetic; a round wall as 72 straight pieces.

    Parameters
    ----------
    part : Part
        A wall in which `wall_faults` finds nothing [-]

    Returns
    -------
    tuple of tuple
        Corners of each piece [m]

    Examples
    --------
    >>> len(pieces(Part(shape="wall"))), len(pieces(Part(shape="wall", plan_form="circle")))
    (4, 72)
    """
    plan = outline(part)
    turn = math.radians(part.bearing_deg)
    c, s, (x0, y0) = math.cos(turn), math.sin(turn), part.at_m

    def placed(point: Point) -> Point:
        return x0 + c * point[0] - s * point[1], y0 + s * point[0] + c * point[1]

    if plan.sides:
        near, far = plan.inside_ring, plan.outside_ring
        count = len(near)
        return tuple(
            tuple(placed(p) for p in (near[i], near[(i + 1) % count], far[(i + 1) % count], far[i]))
            for i in range(len(plan.sides))
        )
    radius = part.inside_diameter_m / 2
    angles = [2 * math.pi * i / _PIECES for i in range(_PIECES + 1)]
    return tuple(
        tuple(placed((r * math.cos(t), r * math.sin(t))) for r, t in (
            (radius, a), (radius, b), (radius + part.thickness_m, b), (radius + part.thickness_m, a)))
        for a, b in pairwise(angles)
    )  # fmt: skip
