"""Joined parts: a dome, a vault or a wall that leads into another through an opening.

What both have in one place is counted once, with the part that is stated first. What of one stands in the room of the other, and
what stands in the passage from room to room, is not there at all. Where the bodies leave a gap round the passage, a neck closes it:
a short barrel as thick as the thinner of the two, in the form of the opening.

Method: at each height every body, room and passage is a disc or a polygon, and their unions have closed forms (`overlay`); the height
is left to Gauss-Legendre rules of fixed order between the heights at which something begins or ends. Against the same with four times the nodes, and against
solid modelling, that keeps within `METHOD_ERROR` of what it finds.
"""

import math
from collections.abc import Callable
from functools import lru_cache
from typing import Final

from attrs import evolve, field, frozen

from foamwright.project.model import SHELLS, Opening, Part
from foamwright.project.notes import Note, Problem, Scalar
from foamwright.shape.meridian import meridian
from foamwright.shape.openings import Cut, azimuths, cut
from foamwright.shape.overlay import Disc, Form, Overlay, Point, Polygon, covered, crossed, polygon
from foamwright.shape.quadrature import gauss_legendre
from foamwright.shape.vault import end_thickness, spots, walled
from foamwright.shape.wall import cylinder, gabled, outline, places

#: Stated error of volumes and faces found here, of what a joint takes out: the project's own bound, held by the tests [-].
METHOD_ERROR: Final = 0.003
#: Shapes that can be joined.
JOINED: Final = (*SHELLS, "wall")
#: A neck longer than this is a vault of its own: the project's own choice [m].
LONG_NECK_M: Final = 2.0
#: Parts are set apart by so little, so that no two edges lie on each other [m].
_APART: Final = (1.3e-7, 0.9e-7)
#: A passage reaches so far into the rooms that it joins [m].
_INTO: Final = 1e-3
_ORDER: Final = 5
_TRIES: Final = 8
_HALVINGS: Final = 10
_TINY: Final = 1e-9


# --- bodies at a height -----------------------------------------------------------------------


@frozen
class Slice:
    """A part at one height.

    Attributes
    ----------
    bodies : tuple of Disc or Polygon
        Out to the outside face, the room with them [-]
    rooms : tuple of Disc or Polygon
        The clear inside [-]
    insides : tuple of Disc or Polygon
        Edges that carry the inside face where there is no room: the left face of an open run, gables [-]
    """

    bodies: tuple[Form, ...] = ()
    rooms: tuple[Form, ...] = ()
    insides: tuple[Form, ...] = ()


def placed(part: Part, points: tuple[Point, ...]) -> tuple[Point, ...]:
    """Return points of a part where the project has them.

    Source: arithmetic.

    Parameters
    ----------
    part : Part
        The part; its place and bearing count [-]
    points : tuple of tuple
        Points about its own middle [m]

    Returns
    -------
    tuple of tuple
        The same on the plan of the project [m]

    Examples
    --------
    >>> placed(Part(at_m=(5.0, 1.0)), ((1.0, 2.0),))
    ((6.0, 3.0),)
    """
    turn = math.radians(part.bearing_deg)
    c, s, (x0, y0) = math.cos(turn), math.sin(turn), part.at_m
    return tuple((x0 + c * x - s * y, y0 + s * x + c * y) for x, y in points)


def slicer(part: Part, beyond: float = 1e-6) -> Callable[[float], Slice]:
    """Return what gives a part at any height.

    Source: arithmetic.

    Parameters
    ----------
    part : Part
        A dome, a vault or a wall in which nothing is at fault [-]
    beyond : float
        How far the room goes on through an open end, so that its edge does not lie on the body's [m]

    Returns
    -------
    Callable
        Its body and its room at a height above the floor in metres, 0 or more [-]

    Examples
    --------
    >>> at = slicer(Part())
    >>> at(0.2).bodies[0].radius, at(3.6).rooms
    (3.2, ())
    """
    if part.shape == "wall" and part.plan_form != "circle":
        return _wall_slicer(part)
    shell = meridian(part) if part.shape in SHELLS else cylinder(part)
    round_, roofed = _vault_slicer(part, beyond) if part.shape == "vault" else _round_slicer(part), part.shape in SHELLS
    crown, ceiling, hole = shell.outside.crown_m, shell.inside.crown_m, shell.opening_m

    def at(height: float) -> Slice:
        if height > crown:
            return Slice()
        big, faced = shell.reach_and_ring(height)
        if big <= _TINY:
            return Slice()
        if height < ceiling or not roofed:
            near, ring = shell.inside.radius_and_ring(height)
        else:
            near, ring = hole, 0.0
        return round_(big, faced / big, near, ring / near if near > _TINY else 0.0)

    return at


Made = Callable[[float, float, float, float], Slice]


def _round_slicer(part: Part) -> Made:
    x, y = part.at_m

    def made(big: float, faced: float, near: float, lean: float) -> Slice:
        return Slice((Disc(x, y, big, faced),), (Disc(x, y, near, lean),) if near > _TINY else ())

    return made


def _vault_slicer(part: Part, beyond: float) -> Made:
    ends, thick, half = walled(part), end_thickness(part), part.length_m / 2
    low, high = (half + thick if end in ends else half for end in ("end_a", "end_b"))
    first, last = (half if end in ends else half + beyond for end in ("end_a", "end_b"))
    a, b = (1.0 if end in ends else 0.0 for end in ("end_a", "end_b"))

    def made(big: float, faced: float, near: float, lean: float) -> Slice:
        body = placed(part, ((-low, -big), (high, -big), (high, big), (-low, big)))
        outer = polygon(body, (faced, b, faced, a))
        if near <= _TINY:
            return Slice((outer,))
        room = placed(part, ((-first, -near), (last, -near), (last, near), (-first, near)))
        return Slice((outer,), (polygon(room, (lean, b, lean, a)),))

    return made


def _wall_slicer(part: Part) -> Callable[[float], Slice]:
    plan, thick, tall = outline(part), part.thickness_m, part.wall.height_m
    near = 0.0 if plan.closed else -thick / 2
    convex = all(side.first_tan >= 0 for side in plan.sides)
    if plan.closed:
        outer, inner = (polygon(placed(part, ring), (), convex) for ring in (plan.outside_ring, plan.inside_ring))
        below = Slice((outer,), (inner,))
    else:
        count = len(plan.outside_ring)
        ring = placed(part, (*plan.outside_ring, *reversed(plan.inside_ring)))
        outside = (1.0,) * count + (0.0,) * (count - 1) + (1.0,)
        inside = (0.0,) * count + (1.0,) * (count - 1) + (0.0,)
        below = Slice((polygon(ring, outside, count == 2),), (), (polygon(ring, inside, count == 2),))
    sides = [side for i, side in enumerate(plan.sides) if gabled(part, i)]

    def at(height: float) -> Slice:
        if height <= tall:
            return below
        share = 1 - (height - tall) / part.wall.gable_rise_m if sides else 0.0
        if share <= 0:
            return Slice()
        found, faces = [], []
        for side in sides:
            middle, half = side.from_m + side.middle_m / 2, side.middle_m / 2 * share
            corners = []
            for off in (near, near + thick):
                first, last = -off * side.first_tan, side.length_m + off * side.second_tan
                corners += [side.at(max(middle - half, first), off), side.at(min(middle + half, last), off)]
            ring = placed(part, (corners[0], corners[1], corners[3], corners[2]))
            found.append(polygon(ring, (0.0, 0.0, 1.0, 0.0)))
            faces.append(polygon(ring, (1.0, 0.0, 0.0, 0.0)))
        return Slice(tuple(found), (), tuple(faces))

    return at


def top(part: Part) -> float:
    """Return how high a part stands, its gables with it.

    Source: arithmetic.

    Parameters
    ----------
    part : Part
        A dome, a vault or a wall [-]

    Returns
    -------
    float
        Height above the floor [m]

    Examples
    --------
    >>> top(Part()), top(Part(shape="wall"))
    (3.7, 2.4)
    """
    if part.shape in SHELLS:
        return meridian(part).outside.crown_m
    some = part.plan_form != "circle" and any(gabled(part, i) for i in range(len(outline(part).sides)))
    return part.wall.height_m + (part.wall.gable_rise_m if some else 0.0)


def _foot(part: Part) -> float:
    """Height at which the outside is widest."""
    return meridian(part).outside.foot_m if part.shape in SHELLS else 0.0


def _breaks(part: Part) -> tuple[float, ...]:
    """Heights at which a part changes its form."""
    if part.shape in SHELLS:
        shell = meridian(part)
        return (*shell.breaks_m, shell.inside.crown_m, shell.outside.crown_m)
    return part.wall.height_m, top(part)


# --- passages ---------------------------------------------------------------------------------


@frozen
class Way:
    """The axis of one opening: level, square to its wall or along the radius.

    Attributes
    ----------
    section : Cut
        Cross-section of the opening [-]
    start : tuple of (float, float)
        Where distances along it begin: the axis of a shell, the inside face of a wall [m]
    along : tuple of (float, float)
        Its direction outward [-]
    face_m : float or None
        Distance of the inside face; absent where it changes with the height [m]
    round_ : bool
        Whether the face is round, so that it is nearer beside the axis [-]
    """

    section: Cut
    start: Point
    along: Point
    face_m: float | None = None
    round_: bool = False

    def at(self, distance: float, aside: float) -> Point:
        """Return the point at a distance along and so far to the left, both in metres."""
        (x, y), (u, v) = self.start, self.along
        return x + distance * u - aside * v, y + distance * v + aside * u


def ways(part: Part, opening: Opening) -> tuple[Way, ...]:
    """Return the axis of an opening and of its repeats; of an open run of wall, both ways through it.

    Source: arithmetic.

    Parameters
    ----------
    part : Part
        The part with the opening, which fits [-]
    opening : Opening
        The opening [-]

    Returns
    -------
    tuple of Way
        One for each repeat; of an open run two, leftward last [-]

    Examples
    --------
    >>> way, = ways(Part(at_m=(1.0, 0.0)), Opening(azimuth_deg=90.0))
    >>> way.start, [round(x, 9) for x in way.along]
    ((1.0, 0.0), [0.0, 1.0])
    """
    section = cut(opening)

    def way(start: Point, along: Point, face: float | None = None, round_: bool = False) -> Way:
        a, b = placed(part, (start, (start[0] + along[0], start[1] + along[1])))
        return Way(section, a, (b[0] - a[0], b[1] - a[1]), face, round_)

    if part.shape == "vault":
        half, wide, found = part.length_m / 2, part.inside_span_m / 2, []
        for spot in spots(part, opening):
            if spot.wall.startswith("side"):
                found.append(way((spot.along_m - half, 0.0), (0.0, 1.0 if spot.wall == "side_a" else -1.0)))
            else:
                found.append(way((0.0, wide - spot.along_m), (1.0 if spot.wall == "end_b" else -1.0, 0.0), half))
        return tuple(found)
    if part.shape == "wall" and part.plan_form != "circle":
        plan, thick = outline(part), part.thickness_m
        side, found = plan.sides[opening.side - 1], []
        near = 0.0 if plan.closed else -thick / 2
        for along in places(part, opening):
            found.append(way(side.at(along, near), side.out, 0.0))
            if not plan.closed:
                back = (-side.out[0], -side.out[1])
                found.append(way(side.at(along, near + thick), back, 0.0))
        return tuple(found)
    turns = [math.radians(angle) for angle in azimuths(opening)]
    return tuple(way((0.0, 0.0), (math.cos(turn), math.sin(turn)), None, True) for turn in turns)


def leaving(part: Part, way: Way) -> Callable[[float, float], float]:
    """Return what tells where a passage leaves the room that it begins in.

    Source: arithmetic.

    Parameters
    ----------
    part : Part
        The part with the opening [-]
    way : Way
        Its axis [-]

    Returns
    -------
    Callable
        Distance of the inside face along the axis, at a height within the opening and so far to the left of the axis [m]

    Examples
    --------
    >>> way, = ways(Part(), Opening(width_m=3.6))
    >>> round(leaving(Part(), way)(0.2, 1.8), 9)
    2.4
    """
    face = way.face_m
    if face is not None:
        return lambda height, aside: face
    inside = (meridian(part) if part.shape in SHELLS else cylinder(part)).inside
    if way.round_:
        return lambda height, aside: math.sqrt(max(0.0, inside.radius(height) ** 2 - aside * aside))
    return lambda height, aside: inside.radius(height)


def through(part: Part, way: Way) -> float:
    """Return where an opening has left its own shell at every height.

    Source: arithmetic.

    Parameters
    ----------
    part : Part
        The part with the opening [-]
    way : Way
        Its axis [-]

    Returns
    -------
    float
        Distance along the axis [m]

    Examples
    --------
    >>> through(Part(), ways(Part(), Opening())[0])
    3.2
    """
    if way.face_m is not None:
        return way.face_m + (end_thickness(part) if part.shape == "vault" else part.thickness_m)
    shell = meridian(part) if part.shape in SHELLS else cylinder(part)
    return max(shell.reach(height) for height in _heights(way.section))


def enters(part: Part, seen: Slice, way: Way, aside: float, after: float) -> tuple[float, float] | None:
    """Return where a passage enters the room that it leads to, and where it would leave it again.

    Source: arithmetic. An open run of wall has no room: the passage leads through it, to its far face.

    Parameters
    ----------
    part : Part
        The part that it leads to [-]
    seen : Slice
        The same at a height within the opening [-]
    way : Way
        Its axis [-]
    aside : float
        Distance to the left of the axis [m]
    after : float
        Where it leaves the room that it begins in [m]

    Returns
    -------
    tuple of (float, float) or None
        Distances along the axis; none where it misses [m]

    Examples
    --------
    >>> (way,), other = ways(Part(), Opening()), Part(at_m=(6.4, 0.0))
    >>> [round(d, 9) for d in enters(other, slicer(other)(0.2), way, 0.0, 3.0)]
    [3.4, 9.4]
    """
    through = part.shape == "wall" and part.plan_form == "run"
    for form in seen.bodies if through else seen.rooms:
        for first, last in _met(way, form, aside):
            if last > after + _TINY:
                return (last, math.inf) if through else (first, last)
    return None


def _met(way: Way, form: Form, aside: float) -> list[tuple[float, float]]:
    """From where to where a line along a passage lies within a form."""
    x0, x1, y0, y1 = form.box
    (u, v), (x, y) = way.along, way.start
    middle = ((x0 + x1) / 2 - x) * u + ((y0 + y1) / 2 - y) * v
    half = math.hypot(x1 - x0, y1 - y0)
    spans = crossed(way.at(middle - half, aside), way.at(middle + half, aside), form)
    return [(middle + half * (2 * low - 1), middle + half * (2 * high - 1)) for low, high in spans]


@frozen
class Passage:
    """A passage from one part to another.

    Attributes
    ----------
    part : int
        Place in the project of the part with the opening [-]
    to : int
        Place of the part that it leads to [-]
    opening : int
        Number of the opening in its part, from 0 [-]
    way : Way
        Its axis [-]
    from_m : float
        Where it begins, within the one room at every height [m]
    to_m : float
        Where it ends, within the other room at every height [m]
    neck_to_m : float
        Where a neck round it ends, within the other body at every height [m]
    thickness_m : float
        Of the neck [m]
    number : int
        Which of the ways of the opening it takes, from 0 [-]
    slack_m : float
        By so little it is narrower than stated, and its neck wider, so that two on one line have no edge in common [m]
    """

    part: int
    to: int
    opening: int
    way: Way
    from_m: float
    to_m: float
    neck_to_m: float
    thickness_m: float
    number: int = 0
    slack_m: float = 0.0

    def void(self, height: float) -> Polygon | None:
        """Return its clear section at a height in metres, from room to room."""
        section = self.way.section
        if not section.low_m <= height <= section.high_m:
            return None
        return self.strip(section.half_width(height) - self.slack_m)

    def hull(self, height: float) -> Polygon | None:
        """Return the outside of its neck at a height in metres."""
        low, high = self.hull_m
        if not low <= height <= high:
            return None
        section, t = self.way.section, self.thickness_m
        curved = section.high_m > section.spring_m and (height > section.spring_m or section.low_m == section.spring_m)
        if not curved:
            return self.strip(section.half_m + t + self.slack_m, 1.0, True)
        rise, big = height - section.centre_m, section.head_m + t
        reach = math.sqrt(max(0.0, (big - rise) * (big + rise)))
        return self.strip(reach - section.beyond_m + self.slack_m, big / reach if reach > 0 else 0.0, True)

    @property
    def hull_m(self) -> tuple[float, float]:
        """From which height to which the neck reaches [m]."""
        section, t = self.way.section, self.thickness_m
        low = max(0.0, section.low_m - t)
        if section.beyond_m > 0:
            return low, section.centre_m + math.sqrt((section.head_m + t) ** 2 - section.beyond_m**2)
        return low, section.high_m + t

    @property
    def breaks_m(self) -> tuple[float, ...]:
        """Heights at which it changes its form [m]."""
        section = self.way.section
        return (section.low_m, section.spring_m, section.centre_m, section.high_m, *self.hull_m)

    def strip(self, half: float, lean: float = 0.0, neck: bool = False) -> Polygon | None:
        """Return a strip along it of so many metres' half width, as long as it or as its neck; none where it has no width."""
        if half <= 1e-7:
            return None
        way, a, b = self.way, self.from_m, self.neck_to_m if neck else self.to_m
        a += _INTO / 2 if neck else 0.0
        if b <= a:
            # Rooms that run into each other leave nothing to close.
            return None
        ring = (way.at(a, -half), way.at(b, -half), way.at(b, half), way.at(a, half))
        return polygon(ring, (lean, 0.0, lean, 0.0))


def _heights(section: Cut) -> list[float]:
    """Heights at which a passage is held against what stands at its ends."""
    low, high = section.low_m, section.high_m
    tried = {low + (high - low) * k / _TRIES for k in range(_TRIES)} | {section.spring_m, high - 1e-9 * (high - low)}
    return sorted(h for h in tried if low <= h < high)


def _meets(part: Part, other: Part, way: Way) -> tuple[float, float, float] | None:
    """Where a passage begins and ends, and where a neck round it does; none where it does not lead from room to room all over its section."""
    begins, ends, lasts = [], [], []
    leave, at = leaving(part, way), slicer(other)
    for height in _heights(way.section):
        half, seen = way.section.half_width(height), at(height)
        for aside in (0.0,) if half <= 0 else (-half, 0.0, half):
            start = leave(height, aside)
            found = enters(other, seen, way, aside, start)
            if found is None:
                return None
            begins.append(start)
            ends.append(found[0])
            lasts.append(found[1])
    # At least through its own shell, also where the other room begins within that.
    begin, neck = min(begins) - _INTO, max(ends) + _INTO / 10
    end = max(neck, through(part, way)) + _INTO
    return (begin, end, neck) if end < min(lasts) else None


def _scaled(way: Way, wide: float, tall: float) -> Way:
    """The same axis with a section narrower and lower by these shares; a round one by one share."""
    c = way.section
    head = (c.high_m - c.spring_m) * wide
    if c.low_m == c.spring_m < c.centre_m:
        return evolve(way, section=Cut(c.low_m, c.low_m, c.low_m + 2 * c.half_m * wide, c.half_m * wide, c.low_m + c.half_m * wide))
    high = c.low_m + (c.high_m - c.low_m) * tall
    spring = max(c.low_m, high - head)
    return evolve(way, section=Cut(c.low_m, spring, high, c.half_m * wide, spring, c.beyond_m * wide))


def _misfit(part: Part, other: Part, opening: Opening, found: tuple[Way, ...], path: str) -> Problem:
    """Say why no repeat of an opening leads into the part that it names."""
    names: dict[str, Scalar] = {"part": part.id, "to": other.id}
    for way in found:
        thin = _scaled(way, 1e-3, 1e-3)
        if _meets(part, other, thin) is None:
            continue
        low, high = 1e-3, 1.0
        if opening.form == "round":
            for _ in range(20):
                middle = (low + high) / 2
                low, high = (middle, high) if _meets(part, other, _scaled(way, middle, middle)) else (low, middle)
            return Problem(f"{path}.diameter_m", opening.diameter_m, low * opening.diameter_m, "passage_too_wide", names)
        if _meets(part, other, _scaled(way, 1e-3, 1.0)):
            for _ in range(20):
                middle = (low + high) / 2
                low, high = (middle, high) if _meets(part, other, _scaled(way, middle, 1.0)) else (low, middle)
            return Problem(f"{path}.width_m", opening.width_m, low * opening.width_m, "passage_too_wide", names)
        for _ in range(20):
            middle = (low + high) / 2
            low, high = (middle, high) if _meets(part, other, _scaled(way, 1e-3, middle)) else (low, middle)
        return Problem(f"{path}.height_m", opening.height_m, low * opening.height_m, "passage_too_high", names)
    return Problem(f"{path}.to", other.id, part.id, "passage_misses", names)


@lru_cache(maxsize=512)
def _led(part: Part, other: Part, opening: Opening) -> tuple[tuple[int, Way, tuple[float, float, float]], ...]:
    """The ways of an opening that lead into another part, once for all that ask: an edit leaves most of them as they are."""
    tried = ((n, way, _meets(part, other, way)) for n, way in enumerate(ways(part, opening)))
    return tuple((n, way, ends) for n, way, ends in tried if ends is not None)


@lru_cache(maxsize=64)
def passages(
    parts: tuple[Part, ...], numbers: tuple[int, ...] | None = None, left_out: tuple[str, ...] = ()
) -> tuple[tuple[Passage, ...], tuple[Problem, ...]]:
    """Find the passages that openings of parts lead through, and those that cannot be built.

    An opening that leads to a part which is left out stays a plain opening. Where an opening is repeated, each repeat that leads into the named part is a passage and the others are plain openings.

    Source: arithmetic.

    Parameters
    ----------
    parts : tuple of Part
        Parts in which nothing is at fault [-]
    numbers : tuple of int or None
        Their places in the project, for the paths of problems; None where they are all of it [-]
    left_out : tuple of str
        Names of parts of the project that are not among them [-]

    Returns
    -------
    tuple of (tuple of Passage, tuple of Problem)
        The passages in the order of the project [-]

    Examples
    --------
    >>> pair = (Part(openings=(Opening(to="b"),)), Part(id="b", at_m=(6.4, 0.0)))
    >>> found, problems = passages(pair)
    >>> found[0].to, problems
    (1, ())
    >>> passages((pair[0], evolve(pair[1], at_m=(0.0, 6.4))))[1][0].code
    'passage_misses'
    """
    found: list[Passage] = []
    problems: list[Problem] = []
    ids = {part.id: k for k, part in enumerate(parts)}
    for i, part in enumerate(parts):
        if part.shape not in JOINED:
            continue
        for k, opening in enumerate(part.openings):
            if not opening.to or opening.to in left_out:
                continue
            path = f"parts[{numbers[i] if numbers else i}].openings[{k}]"
            j = ids.get(opening.to)
            if j is None or j == i or parts[j].shape not in JOINED:
                names: dict[str, Scalar] = {"part": part.id, "to": opening.to}
                problems.append(Problem(f"{path}.to", opening.to, "", "passage_to_nowhere", names))
                continue
            led = _led(part, parts[j], opening)
            thick = min(part.thickness_m, parts[j].thickness_m)
            for n, way, ends in led:
                found.append(Passage(i, j, k, way, *ends, thick, n, 1e-7 * len(found)))
            if not led:
                problems.append(_misfit(part, parts[j], opening, ways(part, opening), path))
    return tuple(found), tuple(problems)


# --- what a joint takes out ---------------------------------------------------------------------


@frozen
class Joint:
    """Two parts that one or more passages join.

    Attributes
    ----------
    part : str
        The part whose opening leads on [-]
    to : str
        The part that it leads to [-]
    openings : tuple of int
        Numbers of the openings that lead from the one to the other, from 1; of the other's own, below 0 [-]
    doubled_m3 : float
        Concrete that both have in one place, counted once, with the part stated first [m3]
    taken_m3 : float
        All that the two are less by: the doubled, what stands in the other's room, and the passage through the other's shell [m3]
    passage_m3 : float
        Clear passage between the two rooms [m3]
    passage_length_m : float
        From inside face to inside face, along the axis at the passage's foot; 0 where the rooms run into each other [m]
    gap_m : float
        From outside face to outside face there; 0 where the bodies touch [m]
    neck_m3 : float
        Foamed concrete of the neck round the passage [m3]
    neck_outside_m2 : float
        Outside face of the neck [m2]
    error_fraction : float
        Stated error of the method, of the volumes and faces found [-]
    """

    part: str
    to: str
    openings: tuple[int, ...]
    doubled_m3: float
    taken_m3: float
    passage_m3: float
    passage_length_m: float
    gap_m: float
    neck_m3: float
    neck_outside_m2: float
    error_fraction: float = field(default=METHOD_ERROR)


@frozen
class Share:
    """What joints take from a part; what a neck adds to the part whose opening it is stands apart.

    Attributes
    ----------
    volume_m3 : float
        Shell taken out [m3]
    inside_area_m2 : float
        Inside face taken out [m2]
    outside_area_m2 : float
        Outside face taken out [m2]
    floor_area_m2 : float
        Floor that is counted with an earlier part [m2]
    footprint_m2 : float
        Plan that is counted with an earlier part [m2]
    headroom_area_m2 : float
        Floor with headroom that is counted with an earlier part [m2]
    neck_m3 : float
        Foamed concrete of its necks [m3]
    neck_outside_m2 : float
        Outside face of its necks [m2]
    neck_footprint_m2 : float
        Plan of its necks beyond both parts [m2]
    """

    volume_m3: float = 0.0
    inside_area_m2: float = 0.0
    outside_area_m2: float = 0.0
    floor_area_m2: float = 0.0
    footprint_m2: float = 0.0
    headroom_area_m2: float = 0.0
    neck_m3: float = 0.0
    neck_outside_m2: float = 0.0
    neck_footprint_m2: float = 0.0


class _Scene:
    """Some joined parts at one height, ready to be laid over each other."""

    def __init__(
        self, ats: list[Callable[[float], Slice]], found: tuple[Passage, ...], own: tuple[tuple[int, Passage], ...], height: float
    ) -> None:
        forms: list[Form] = []

        def put(new: tuple[Form | None, ...]) -> int:
            mask = 0
            for form in new:
                if form is not None:
                    mask |= 1 << len(forms)
                    forms.append(form)
            return mask

        slices = [at(height) for at in ats]
        self.rooms = [put(one.rooms) for one in slices]
        self.bodies = [put(one.bodies) for one in slices]
        self.insides = [put(one.insides) for one in slices]
        self.voids = [put((passage.void(height),)) for passage in found]
        self.hulls = [put((passage.hull(height),)) for passage in found]
        self.own = [0] * len(ats)
        for k, passage in own:
            self.own[k] |= put((passage.void(height),))
        self.over = Overlay(forms)

    def masks(self, k: int, found: tuple[Passage, ...]) -> tuple[int, int, int, int]:
        """Of one part: its own voids; with those of its joints; with the bodies that are counted before it; with all that it meets."""
        mine = self.rooms[k] | self.own[k]
        gone, before, others = mine, 0, 0
        for p, passage in enumerate(found):
            if k not in (passage.part, passage.to):
                continue
            mate = passage.to if passage.part == k else passage.part
            if passage.part == k:
                mine |= self.voids[p]
            gone |= self.voids[p] | self.rooms[mate] | self.own[mate]
            others |= self.bodies[mate] | self.hulls[p]
            if mate < k:
                before |= self.bodies[mate]
        gone |= mine
        return mine, gone, gone | before, gone | others

    def face(self, edges: int, others: int) -> float:
        """Face on a set of edges that others leave uncovered, per metre of rise."""
        total, i = 0.0, 0
        while edges >> i:
            if edges >> i & 1:
                total += self.over.face(i, others)
            i += 1
        return total


def _count(
    ats: list[Callable[[float], Slice]], found: tuple[Passage, ...], own: tuple[tuple[int, Passage], ...], height: float
) -> list[float]:
    """All integrands at one height: per part what is taken of volume, inside and outside; per pair doubled; per passage void, neck, its face."""
    scene = _Scene(ats, found, own, height)
    area = scene.over.area
    out: list[float] = []
    pairs = _pairs(found)
    for k in range(len(ats)):
        mine, gone, before, others = scene.masks(k, found)
        body, room, faces = scene.bodies[k], scene.rooms[k], scene.insides[k]
        alone = area(mine | body) - area(mine)
        out.append(alone - (area(before | body) - area(before)))
        inner = scene.face(room, mine) - scene.face(room, gone & ~room)
        out.append(inner + scene.face(faces, mine) - scene.face(faces, others))
        out.append(scene.face(body, mine) - scene.face(body, others & ~body))
    for a, b in pairs:
        gone = scene.rooms[a] | scene.rooms[b] | scene.own[a] | scene.own[b]
        for p, passage in enumerate(found):
            if {passage.part, passage.to} == {a, b}:
                gone |= scene.voids[p]
        one, two = scene.bodies[a], scene.bodies[b]
        out.append(area(gone | one) + area(gone | two) - area(gone) - area(gone | one | two))
    for p, passage in enumerate(found):
        rooms = scene.rooms[passage.part] | scene.rooms[passage.to]
        out.append(area(rooms | scene.voids[p]) - area(rooms))
        solid = rooms | scene.bodies[passage.part] | scene.bodies[passage.to]
        hulls = 0
        for q in range(len(found)):
            solid |= scene.voids[q]
            hulls |= scene.hulls[q] if q != p else 0
        before = solid
        for q in range(p):
            before |= scene.hulls[q]
        out.append(area(before | scene.hulls[p]) - area(before))
        out.append(scene.face(scene.hulls[p], solid | hulls))
    return out


def _pairs(found: tuple[Passage, ...]) -> list[tuple[int, int]]:
    """Parts that are joined, each pair once, the earlier first."""
    return sorted({(min(p.part, p.to), max(p.part, p.to)) for p in found})


def _highest(parts: tuple[Part, ...], first: str, second: str) -> float | None:
    """About the height up to which bodies or rooms of two parts meet; none where they never do."""
    a, b = parts
    most = min(top(a), top(b))
    at_a, at_b = slicer(a), slicer(b)

    def meet(height: float) -> bool:
        one, two = getattr(at_a(height), first), getattr(at_b(height), second)
        for p in one:
            for q in two:
                if covered(p, q) or covered(q, p):
                    return True
        return False

    steps = [most * k / _TRIES for k in range(_TRIES, -1, -1)]
    for high, low in zip(steps, steps[1:], strict=False):
        if meet(low + 1e-9):
            if high == most and meet(most - 1e-9):
                return most
            for _ in range(_HALVINGS):
                middle = (low + high) / 2
                low, high = (middle, high) if meet(middle) else (low, middle)
            return high
    return None


def _panels(parts: tuple[Part, ...], found: tuple[Passage, ...]) -> list[tuple[float, float]]:
    """Stretches of height between which everything changes smoothly, up to where no two bodies meet and no neck stands."""
    marks = {0.0}
    most = 0.0
    for passage in found:
        marks |= set(passage.breaks_m)
        most = max(most, passage.hull_m[1])
    for part in parts:
        marks |= set(_breaks(part))
    for a, b in _pairs(found):
        for first in ("bodies", "rooms"):
            for second in ("bodies", "rooms"):
                height = _highest((parts[a], parts[b]), first, second)
                if height is not None:
                    marks.add(height)
                    if first == second == "bodies":
                        most = max(most, height)
    kept: list[float] = []
    for mark in sorted(mark for mark in marks if mark < most):
        if not kept or mark - kept[-1] > 1e-4:
            kept.append(mark)
    kept.append(most)
    return list(zip(kept, kept[1:], strict=False))


def _near(parts: tuple[Part, ...], found: tuple[Passage, ...], all_of: int = -1) -> tuple[tuple[int, Passage], ...]:
    """Other openings of joined parts, each as far as it goes through its own shell, where another part stands; of one part all."""
    out = []
    passing = {(p.part, p.opening, p.number) for p in found}
    for k, part in enumerate(parts):
        mates = [parts[a if b == k else b] for a, b in _pairs(found) if k in (a, b)]
        boxes = [form.box for mate in mates for form in slicer(mate)(_foot(mate)).bodies]
        for i, opening in enumerate(part.openings):
            for n, way in enumerate(ways(part, opening)):
                if (k, i, n) in passing:
                    continue
                leave = leaving(part, way)
                near = min(leave(h, way.section.half_width(h)) for h in _heights(way.section)) - _INTO
                far = through(part, way) + _INTO
                one = Passage(k, k, 0, way, near, far, far, 0.0)
                form = one.strip(way.section.half_m)
                if form and (k == all_of or any(_cross(form.box, box) for box in boxes)):
                    out.append((k, one))
    return tuple(out)


def _cross(a: tuple[float, float, float, float], b: tuple[float, float, float, float]) -> bool:
    return a[0] < b[1] and b[0] < a[1] and a[2] < b[3] and b[2] < a[3]


def _zone(parts: tuple[Part, ...], pair: tuple[int, int], found: tuple[Passage, ...]) -> list[tuple[float, float, float, float]]:
    """Rectangles round what a joint may touch on the plan."""
    out = []
    one, two = (slicer(parts[k])(_foot(parts[k])).bodies for k in pair)
    for p in one:
        for q in two:
            a, b = p.box, q.box
            if _cross(a, b):
                out.append((max(a[0], b[0]), min(a[1], b[1]), max(a[2], b[2]), min(a[3], b[3])))
    for passage in found:
        if {passage.part, passage.to} == set(pair):
            strip = passage.strip(passage.way.section.half_m + passage.thickness_m, neck=True)
            if strip:
                out.append(strip.box)
    return out


def _groups(parts: tuple[Part, ...], found: tuple[Passage, ...]) -> list[tuple[Passage, ...]]:
    """Put joints together that touch the same place; each group is counted for itself."""
    pairs = _pairs(found)
    zones = {pair: _zone(parts, pair, found) for pair in pairs}
    groups: list[set[tuple[int, int]]] = []
    for pair in pairs:
        near = [
            group for group in groups
            if any(set(pair) & set(other) and any(_cross(a, b) for a in zones[pair] for b in zones[other]) for other in group)
        ]  # fmt: skip
        merged = {pair}.union(*near)
        groups = [group for group in groups if group not in near] + [merged]
    return [
        tuple(p for p in found if (min(p.part, p.to), max(p.part, p.to)) in group) for group in groups
    ]


@lru_cache(maxsize=256)
def _integrated(parts: tuple[Part, ...], found: tuple[Passage, ...], order: int = _ORDER) -> tuple[float, ...]:
    """Integrate a group of joints over the height; near the ends of a stretch the nodes stand closer, where edges only begin to touch."""
    own, ats = _near(parts, found), [slicer(part) for part in parts]
    sums: list[float] = []
    for low, high in _panels(parts, found):
        for node, weight in gauss_legendre(order):
            t = (node + 1) / 2
            height = low + (high - low) * t * t * (3 - 2 * t)
            size = weight / 2 * (high - low) * 6 * t * (1 - t)
            values = _count(ats, found, own, height)
            sums = [s + size * v for s, v in zip(sums or [0.0] * len(values), values, strict=True)]
    for p, passage in enumerate(found):
        # The flat top of a rectangular neck.
        if passage.way.section.spring_m == passage.way.section.high_m:
            values = _count(ats, found, own, passage.hull_m[1] - 1e-9)
            sums[-3 * len(found) + 3 * p + 2] += values[-3 * len(found) + 3 * p + 1]
    return tuple(sums)


def _still(part: Part, number: int, origin: Point) -> Part:
    """A part as its joints see it: only what gives it its form, about a common origin."""
    x, y = part.at_m
    at = (x - origin[0] + number * _APART[0], y - origin[1] + number * _APART[1])
    kept = tuple(evolve(opening, to=None) for opening in part.openings)
    return evolve(part, id="", at_m=at, openings=kept)


@lru_cache(maxsize=64)
def join(
    parts: tuple[Part, ...], headroom: float, numbers: tuple[int, ...] | None = None, left_out: tuple[str, ...] = ()
) -> tuple[tuple[Share, ...], tuple[Joint, ...], tuple[Problem, ...], tuple[Note, ...]]:
    """Find what joints take from each part, and what their necks add.

    Source: arithmetic; closed forms on the plan, fixed quadrature over the height, as the module says.

    Parameters
    ----------
    parts : tuple of Part
        Parts in which nothing is at fault, in the order of the project [-]
    headroom : float
        Height above which floor has headroom [m]
    numbers : tuple of int or None
        Places of the parts in the project, for paths; None where they are all of it [-]
    left_out : tuple of str
        Names of parts of the project that are not among them [-]

    Returns
    -------
    tuple of (tuple of Share, tuple of Joint, tuple of Problem, tuple of Note)
        A share for each part; the joints; passages that cannot be built; what must be said [-]

    Examples
    --------
    >>> pair = (Part(openings=(Opening(to="b"),)), Part(id="b", at_m=(6.2, 0.0)))
    >>> shares, joints, _, _ = join(pair, 2.0)
    >>> round(joints[0].passage_length_m, 6), shares[0].volume_m3 < shares[1].volume_m3
    (0.2, True)
    """
    nothing = tuple(Share() for _ in parts)
    if not any(opening.to for part in parts for opening in part.openings):
        return nothing, (), (), ()
    found, problems = passages(parts, numbers, left_out)
    if problems or not found:
        return nothing, (), problems, ()
    shares, joints = list(nothing), []
    notes: list[Note] = []
    for group in _groups(parts, found):
        shares, more, said = _join_group(parts, group, headroom, shares, numbers)
        joints += more
        notes += said
    joints.sort(key=lambda joint: [part.id for part in parts].index(joint.part))
    return tuple(shares), tuple(joints), (), tuple(notes)


def _local(parts: tuple[Part, ...], group: tuple[Passage, ...]) -> tuple[tuple[Part, ...], tuple[Passage, ...], list[int]]:
    """The parts of a group, and its passages told by their places among them."""
    places_ = sorted({k for p in group for k in (p.part, p.to)})
    origin = (parts[places_[0]].at_m[0], parts[places_[0]].at_m[1])
    near = tuple(_still(parts[k], n, origin) for n, k in enumerate(places_))
    moved = []
    for p in group:
        a = places_.index(p.part)
        shift = (near[a].at_m[0] - parts[p.part].at_m[0], near[a].at_m[1] - parts[p.part].at_m[1])
        way = evolve(p.way, start=(p.way.start[0] + shift[0], p.way.start[1] + shift[1]))
        moved.append(evolve(p, part=a, to=places_.index(p.to), way=way))
    return near, tuple(moved), places_


def _join_group(
    parts: tuple[Part, ...], group: tuple[Passage, ...], headroom: float, shares: list[Share],
    numbers: tuple[int, ...] | None,
) -> tuple[list[Share], list[Joint], list[Note]]:
    near, moved, where = _local(parts, group)
    values = _integrated(near, moved)
    pairs, count = _pairs(moved), len(near)
    plans = _plans(near, moved, headroom)
    for n, k in enumerate(where):
        old, (volume, inner, outer) = shares[k], values[3 * n : 3 * n + 3]
        floor, foot, tall, neck_plan = plans[n]
        base = 3 * count + len(pairs)
        necks = [values[base + 3 * q + 1 : base + 3 * q + 3] for q, p in enumerate(moved) if p.part == n]
        shares[k] = Share(
            old.volume_m3 + volume,
            old.inside_area_m2 + inner,
            old.outside_area_m2 + outer,
            old.floor_area_m2 + floor,
            old.footprint_m2 + foot,
            old.headroom_area_m2 + tall,
            old.neck_m3 + sum(neck for neck, _ in necks),
            old.neck_outside_m2 + sum(face for _, face in necks),
            old.neck_footprint_m2 + neck_plan,
        )
    joints, notes = [], []
    for n, pair in enumerate(pairs):
        mine = [q for q, p in enumerate(moved) if {p.part, p.to} == set(pair)]
        taken = values[3 * pair[0]] + values[3 * pair[1]]
        doubled = values[3 * count + n]
        if len(pairs) > 1:
            only, chosen, _ = _local(parts, tuple(group[q] for q in mine))
            alone = _integrated(only, chosen)
            taken, doubled = alone[0] + alone[3], alone[6]
        base = 3 * count + len(pairs)
        first = group[mine[0]]
        a, b = parts[first.part], parts[first.to]
        length, gap = lengths(a, b, first.way)
        led = {(p.opening + 1) * (1 if p.part == first.part else -1) for p in (group[q] for q in mine)}
        joint = Joint(
            part=a.id,
            to=b.id,
            openings=tuple(sorted(led)),
            doubled_m3=max(0.0, doubled),
            taken_m3=taken,
            passage_m3=sum(values[base + 3 * q] for q in mine),
            passage_length_m=length,
            gap_m=gap,
            neck_m3=sum(values[base + 3 * q + 1] for q in mine),
            neck_outside_m2=sum(values[base + 3 * q + 2] for q in mine),
        )
        joints.append(joint)
        path = f"parts[{numbers[first.part] if numbers else first.part}].openings[{first.opening}].to"
        names: dict[str, Scalar] = {"part": a.id, "to": b.id}
        notes.append(Note("joint_not_checked", "caution", path, names, "derived_no_structure"))
        if gap > LONG_NECK_M:
            notes.append(Note("neck_long", "caution", path, names | {"gap_m": gap, "limit": LONG_NECK_M}, "practice_neck"))
    return shares, joints, notes


def lengths(part: Part, other: Part, way: Way) -> tuple[float, float]:
    """Return how long a passage is between the two inside faces, and the gap between the outside faces.

    Source: arithmetic, along the axis at the foot of the opening.

    Parameters
    ----------
    part : Part
        The part with the opening [-]
    other : Part
        The part that it leads to [-]
    way : Way
        Its axis, which meets both [-]

    Returns
    -------
    tuple of (float, float)
        Length and gap, 0 where there is none [m]

    Examples
    --------
    >>> a, b = Part(), Part(at_m=(7.0, 0.0))
    >>> [round(d, 9) for d in lengths(a, b, ways(a, Opening())[0])]
    [1.0, 0.6]
    """
    low = way.section.low_m
    begin, seen = leaving(part, way)(low, 0.0), slicer(other)(low)
    found = enters(other, seen, way, 0.0, begin)
    end = begin if found is None else found[0]
    own = (last for form in slicer(part)(low).bodies for _, last in _met(way, form, 0.0))
    out = min((last for last in own if last > begin), default=begin)
    into = max((first for form in seen.bodies for first, _ in _met(way, form, 0.0) if first < end), default=end)
    return max(0.0, end - begin), max(0.0, into - out)


def depth(part: Part, other: Part, way: Way) -> Callable[[float, float], float]:
    """Return how deep a passage is at a place of its section: from inside face to inside face.

    Source: arithmetic.

    Parameters
    ----------
    part : Part
        The part with the opening [-]
    other : Part
        The part that it leads to [-]
    way : Way
        Its axis, which meets both [-]

    Returns
    -------
    Callable
        Depth at a distance sideways and a height above the floor, the mean of both sides [m]

    Examples
    --------
    >>> a, b = Part(), Part(at_m=(7.0, 0.0))
    >>> round(depth(a, b, ways(a, Opening())[0])(0.0, 0.2), 9)
    1.0
    """

    leave, seen_at = leaving(part, way), slicer(other)

    def at(aside: float, height: float) -> float:
        total, seen = 0.0, seen_at(height)
        for side in (aside, -aside):
            begin = leave(height, side)
            found = enters(other, seen, way, side, begin)
            total += 0.0 if found is None else max(0.0, found[0] - begin) / 2
        return total

    return at


def _plans(
    parts: tuple[Part, ...], found: tuple[Passage, ...], headroom: float
) -> list[tuple[float, float, float, float]]:
    """Per part what earlier ones have of its floor, plan and headroom already, and the plan of its necks."""
    pairs = _pairs(found)
    ats = [slicer(part, 0.0) for part in parts]
    floors, talls = [at(0.0).rooms for at in ats], [at(headroom).rooms for at in ats]
    feet = [at(_foot(part)).bodies for at, part in zip(ats, parts, strict=True)]
    out = []
    for k in range(len(parts)):
        mates = [a for a, b in pairs if b == k]
        twice = [_shared(forms[k], [form for m in mates for form in forms[m]]) for forms in (floors, feet, talls)]
        neck = 0.0
        for p, passage in enumerate(found):
            if passage.part == k:
                earlier = [hull for q in found[:p] if (hull := q.strip(q.way.section.half_m + q.thickness_m, neck=True))]
                hull = passage.strip(passage.way.section.half_m + passage.thickness_m, neck=True)
                solid = [form for m in (passage.part, passage.to) for form in feet[m]] + earlier
                if hull is not None:
                    neck += Overlay([*solid, hull]).area((2 << len(solid)) - 1) - Overlay([*solid]).area((1 << len(solid)) - 1)
        out.append((twice[0], twice[1], twice[2], neck))
    return out


def _shared(mine: tuple[Form, ...], others: list[Form]) -> float:
    if not mine or not others:
        return 0.0
    over = Overlay([*mine, *others])
    a, both = (1 << len(mine)) - 1, (1 << len(mine) + len(others)) - 1
    return over.area(a) + over.area(both & ~a) - over.area(both)


def kept(parts: tuple[Part, ...], number: int, found: tuple[Passage, ...]) -> Callable[[float], dict[str, float]]:
    """Return what joints leave of a part at a height, over what stands there without them.

    Source: arithmetic, as the module says.

    Parameters
    ----------
    parts : tuple of Part
        Parts in which nothing is at fault [-]
    number : int
        The part among them [-]
    found : tuple of Passage
        The passages, as `passages` finds them [-]

    Returns
    -------
    Callable
        Shares from 0 to 1 of ``shell``, and of ``end_a`` and ``end_b`` of a vault, at a height above the floor; 1 where nothing
        stands [-]

    Examples
    --------
    >>> pair = (Part(openings=(Opening(to="b"),)), Part(id="b", at_m=(6.2, 0.0)))
    >>> at = kept(pair, 1, passages(pair)[0])
    >>> round(at(0.2)["shell"], 2), round(at(3.0)["shell"], 2)
    (0.94, 1.0)
    """
    mine = tuple(p for p in found if number in (p.part, p.to))
    near, moved, where = _local(parts, mine)
    k = where.index(number)
    part, ats, own = near[k], [slicer(one) for one in near], _near(near, moved, k)
    ends = walled(part) if part.shape == "vault" else ()
    meeting = [_highest((near[a], near[b]), "bodies", "bodies") or 0.0 for a, b in _pairs(moved) if k in (a, b)]
    most = max(*meeting, *(passage.hull_m[1] for passage in moved))

    def at(height: float) -> dict[str, float]:
        if height > most:
            return {"shell": 1.0}
        scene = _Scene(ats, moved, own, height)
        walls = {}
        for end in ends:
            big = meridian(part).reach(height)
            side = 1.0 if end == "end_b" else -1.0
            near_, far = side * (part.length_m / 2 + 1e-6), side * (part.length_m / 2 + end_thickness(part))
            if big > _TINY:
                scene.over.forms.append(polygon(placed(part, ((near_, -big), (far, -big), (far, big), (near_, big)))))
                walls[end] = 1 << len(scene.over.forms) - 1
        own_voids, _, before, _ = scene.masks(k, moved)
        area = scene.over.area

        def both(form: int) -> tuple[float, float]:
            return area(own_voids | form) - area(own_voids), area(before | form) - area(before)

        stood, stays = both(scene.bodies[k])
        out = {}
        for end, form in walls.items():
            stood_end, stays_end = both(form)
            out[end] = stays_end / stood_end if stood_end > 1e-6 else 1.0
            stood, stays = stood - stood_end, stays - stays_end
        out["shell"] = min(1.0, max(0.0, stays / stood)) if stood > 1e-6 else 1.0
        return out

    return at
