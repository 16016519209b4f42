"""What is seen of a part from far away: openings of a round shell from one side, and the plan at its foot.

Views from a side are level and parallel. At one height a shell of revolution is a circle, so that what such a view
sees of an opening has a closed form: the points of the circle between its edges, as far as they face the viewer.
"""

import math
from functools import lru_cache
from typing import Final

from attrs import field, frozen

from foamwright.project.model import SHELLS, Opening, Part
from foamwright.shape.meridian import Meridian, meridian
from foamwright.shape.openings import Cut, azimuths, cut
from foamwright.shape.vault import end_thickness, spots, walled
from foamwright.shape.wall import Point, beam_heights, corners, frame, gabled, outline, places, posts_along, top_at

#: Heights at which the straight and the round stretch of an edge are drawn.
_STEPS: Final = 5
_ROUND: Final = 10
#: An opening of which less than this share of its width is seen counts as hidden: the project's own choice [-].
_SLIT: Final = 0.1
#: Sides from which a round part is drawn [deg].
SIDES_DEG: Final = (0.0, 90.0, 180.0, 270.0)


def heights(section: Cut, breaks: tuple[float, ...] = ()) -> tuple[float, ...]:
    """Return the heights at which the edge of an opening is drawn, from its sill to its head.

    Source: arithmetic.

    Parameters
    ----------
    section : Cut
        Cross-section of the opening [m]
    breaks : tuple of float
        Heights at which the shell is not smooth [m]

    Returns
    -------
    tuple of float
        Heights above the floor, the lowest first [m]

    Examples
    --------
    >>> made = heights(cut(Opening(form="arched")))
    >>> made[0], made[-1], 1.55 in made
    (0.0, 2.0, True)
    """
    low, spring, high = section.low_m, section.spring_m, section.high_m
    found = {low, spring, high, *(mark for mark in breaks if low < mark < high)}
    found |= {low + (spring - low) * i / _STEPS for i in range(1, _STEPS)}
    if spring < high:
        # Close together where the edge runs level: at the head, and at both ends of a round opening.
        rise = section.high_m - section.centre_m
        start = -math.pi / 2 if spring < section.centre_m else 0.0
        for i in range(1, _ROUND):
            found.add(section.centre_m + rise * math.sin(start + (math.pi / 2 - start) * i / _ROUND))
    return tuple(sorted(height for height in found if low <= height <= high))


def seen(shell: Meridian, section: Cut, turn_deg: float) -> tuple[Point, ...]:
    """Return what a viewer sees of the edge of an opening on the outside of a round shell.

    Source: arithmetic: at a height where the outside has the radius R and the opening reaches w to either side, its edges stand at
    the angles turn -+ asin(w / R) from the viewer, and a point at the angle a is seen R sin(a) to the right of the axis; what
    lies beyond a right angle is hidden. Where less than a tenth of its width is seen, as of one that stands square to the view, it counts as hidden.

    Parameters
    ----------
    shell : Meridian
        Section of the shell [-]
    section : Cut
        Cross-section of the opening [m]
    turn_deg : float
        Azimuth of the opening less that of the viewer, who looks at the axis; above 0 it is on the viewer's right [deg]

    Returns
    -------
    tuple of tuple
        Corners of what is seen: to the right of the axis, and above the floor; none where it is hidden [m]

    Examples
    --------
    >>> from foamwright.shape.meridian import hemisphere
    >>> window = cut(Opening(width_m=1.0, height_m=0.5))
    >>> edge = seen(hemisphere(6.0, 0.5, 0.2), window, 0.0)
    >>> round(min(x for x, _ in edge), 9), round(max(x for x, _ in edge), 9)
    (-0.5, 0.5)
    >>> seen(hemisphere(6.0, 0.5, 0.2), window, 180.0)
    ()
    """
    turn, side = math.radians((turn_deg + 180) % 360 - 180), math.pi / 2
    right: list[Point] = []
    left: list[Point] = []
    widest = 0.0
    for height in heights(section, shell.breaks_m):
        radius = shell.reach(height)
        if radius <= 0:
            continue
        half = math.asin(min(1.0, section.half_width(height) / radius))
        low, high = max(turn - half, -side), min(turn + half, side)
        if low > high:
            continue
        right.append((radius * math.sin(high), height))
        left.append((radius * math.sin(low), height))
        widest = max(widest, right[-1][0] - left[-1][0])
    return (*right, *reversed(left)) if widest > _SLIT * 2 * section.half_m else ()


@frozen
class Ring:
    """A closed line on the plan: a circle about a point, or corners.

    Attributes
    ----------
    kind : str
        ``inside``, ``outside``, or ``fill`` of what is poured [-]
    middle_m : tuple of (float, float)
        Middle of a circle [m]
    radius_m : float
        Radius of a circle; 0 where there are corners [m]
    corners_m : tuple of tuple
        Corners; none of a circle [m]
    """

    kind: str
    middle_m: Point = (0.0, 0.0)
    radius_m: float = 0.0
    corners_m: tuple[Point, ...] = field(default=())


@frozen
class Gap:
    """An opening on the plan, drawn through the wall at its foot.

    Attributes
    ----------
    opening : int
        Place of the opening in its part [-]
    azimuth_deg : float or None
        Its direction from the middle of a round part; absent of others [deg]
    wall : str or None
        ``side_a``, ``side_b``, ``end_a`` or ``end_b`` of a vault, or the number of a wall's side; absent of round parts [-]
    along_m : float or None
        Where its middle stands along that wall [m]
    corners_m : tuple of tuple
        Its four corners: both on the inside face, both on the outside [m]
    out : tuple of (float, float)
        Direction in which it leads outside [-]
    """

    opening: int
    azimuth_deg: float | None
    wall: str | None
    along_m: float | None
    corners_m: tuple[Point, ...]
    out: Point

    @property
    def inside_m(self) -> Point:
        """Middle of its inside edge [m]."""
        (ax, ay), (bx, by) = self.corners_m[:2]
        return (ax + bx) / 2, (ay + by) / 2

    @property
    def outside_m(self) -> Point:
        """Middle of its outside edge [m]."""
        (ax, ay), (bx, by) = self.corners_m[2:]
        return (ax + bx) / 2, (ay + by) / 2


def radii(part: Part) -> Point:
    """Return the radii of a round part at its foot, inside and outside.

    Source: arithmetic.

    Parameters
    ----------
    part : Part
        A dome or a round wall [m]

    Returns
    -------
    tuple of (float, float)
        Inside and outside radius [m]

    Examples
    --------
    >>> radii(Part())
    (3.0, 3.2)
    """
    if part.shape == "wall":
        return part.inside_diameter_m / 2, part.inside_diameter_m / 2 + part.thickness_m
    shell = meridian(part)
    return shell.inside.radius(0.0), shell.outside.radius(shell.outside.foot_m)


def rings(part: Part) -> tuple[Ring, ...]:
    """Return the lines of a part on the plan, in its own frame: outside face at the foot, inside face at the floor.

    Source: arithmetic.

    Parameters
    ----------
    part : Part
        The part, nothing at fault in it [m]

    Returns
    -------
    tuple of Ring
        Outside first; none of blocks to order and of a void [-]

    Examples
    --------
    >>> [(ring.kind, ring.radius_m) for ring in rings(Part())]
    [('outside', 3.2), ('inside', 3.0)]
    """
    if part.shape == "blocks" or (part.shape == "fill" and part.fill.kind == "void"):
        return ()
    if part.shape == "fill":
        if part.plan_form == "circle":
            return (Ring("fill", radius_m=part.inside_diameter_m / 2),)
        return (Ring("fill", corners_m=corners(part)),)
    if part.shape == "dome" or (part.shape == "wall" and part.plan_form == "circle"):
        near, far = radii(part)
        return Ring("outside", radius_m=far), Ring("inside", radius_m=near)
    if part.shape == "wall":
        plan = outline(part)
        if not plan.closed:
            return (Ring("outside", corners_m=(*plan.outside_ring, *reversed(plan.inside_ring))),)
        return Ring("outside", corners_m=plan.outside_ring), Ring("inside", corners_m=plan.inside_ring)
    half, far = radii(part)
    low, high = _ends(part)
    x = part.length_m / 2
    outer = ((low, -far), (high, -far), (high, far), (low, far))
    return Ring("outside", corners_m=outer), Ring("inside", corners_m=((-x, -half), (x, -half), (x, half), (-x, half)))


@frozen
class SideView:
    """One side of a straight wall as whoever stands outside sees it.

    Attributes
    ----------
    length_m : float
        Length of its line [m]
    turned : bool
        The first corner is on the right [-]
    left_m : float
        Where it begins on the left [m]
    right_m : float
        Where it ends on the right [m]
    ring : tuple of Point
        Its outline, gable and all [m]
    frame : tuple of tuple of Point
        Posts and ring beams [m]
    holes : tuple of (int, float, float)
        Of each opening in it: place in the part, how far along the side, and how far across the view [-, m, m]
    """

    length_m: float
    turned: bool
    left_m: float
    right_m: float
    ring: tuple[Point, ...]
    frame: tuple[tuple[Point, ...], ...]
    holes: tuple[tuple[int, float, float], ...]

    def across(self, along: float) -> float:
        """Return how far across the view a place along the side is seen [m]."""
        return self.length_m - along if self.turned else along


def side_view(part: Part, index: int) -> SideView:
    """Return one side of a straight wall, seen from outside.

    Source: arithmetic on the outline of the wall. The first corner of an anticlockwise plan is on the left; of a run, whoever
    stands on the right of its line sees the first corner on the left as well.

    Parameters
    ----------
    part : Part
        A wall with straight sides, nothing at fault in it [m]
    index : int
        The side, from 0 [-]

    Returns
    -------
    SideView
        What is seen [-]

    Examples
    --------
    >>> seen = side_view(Part(shape="wall", thickness_m=0.2), 0)
    >>> seen.left_m, seen.right_m, len(seen.ring)
    (-0.2, 6.2, 4)
    """
    plan = outline(part)
    side, tall = plan.sides[index], part.wall.height_m
    turned = side.out[0] * (side.end[1] - side.start[1]) - side.out[1] * (side.end[0] - side.start[0]) < 0
    far = part.thickness_m if plan.closed else part.thickness_m / 2
    begin, end = -far * side.first_tan, side.length_m + far * side.second_tan

    def across(along: float) -> float:
        return side.length_m - along if turned else along

    def box(a: float, b: float, low: float, high: float) -> tuple[Point, ...]:
        return (across(a), low), (across(b), low), (across(b), high), (across(a), high)

    marks = {begin, end}
    if gabled(part, index):
        half = side.middle_m / 2
        marks |= {mark for mark in (side.from_m, side.from_m + half, side.from_m + 2 * half) if begin < mark < end}
    top = [(across(mark), top_at(part, index, mark)) for mark in sorted(marks)]
    built: list[tuple[Point, ...]] = []
    if frame(part) is not None:
        built = [box(max(a, begin), min(b, end), 0.0, tall) for a, b in posts_along(part, index)]
        built += [box(begin, end, low, high) for low, high in beam_heights(part)]
    left, right = sorted((across(begin), across(end)))
    return SideView(
        length_m=side.length_m,
        turned=turned,
        left_m=left,
        right_m=right,
        ring=((across(begin), 0.0), *top, (across(end), 0.0)),
        frame=tuple(built),
        holes=tuple(
            (i, along, across(along))
            for i, one in enumerate(part.openings) if one.side == index + 1
            for along in places(part, one)
        ),
    )  # fmt: skip


def _ends(part: Part) -> Point:
    """Where a vault ends along its axis, its end walls with it."""
    thick, ends, half = end_thickness(part), walled(part), part.length_m / 2
    return -half - thick * ("end_a" in ends), half + thick * ("end_b" in ends)


@lru_cache(maxsize=256)
def gaps(part: Part) -> tuple[Gap, ...]:
    """Return the openings of a part on the plan, with their repeats, in its own frame.

    Source: arithmetic; each as wide as it is at its widest.

    Parameters
    ----------
    part : Part
        The part, nothing at fault in it [m]

    Returns
    -------
    tuple of Gap
        One for each opening and each repeat; none of fills and of blocks to order [-]

    Examples
    --------
    >>> door = gaps(Part(openings=(Opening(azimuth_deg=90.0),)))[0]
    >>> [(round(x, 9), round(y, 3)) for x, y in door.corners_m]
    [(0.45, 2.966), (-0.45, 2.966), (-0.45, 3.168), (0.45, 3.168)]
    """
    if part.shape not in (*SHELLS, "wall"):
        return ()
    found: list[Gap] = []
    for i, opening in enumerate(part.openings):
        half = cut(opening).half_m
        if part.shape == "vault":
            found += _in_vault(part, opening, i, half)
        elif part.shape == "wall" and part.plan_form != "circle":
            plan = outline(part)
            side = plan.sides[opening.side - 1]
            low, high = (0.0, part.thickness_m) if plan.closed else (-part.thickness_m / 2, part.thickness_m / 2)
            for along in places(part, opening):
                a, b = along - half, along + half
                four: tuple[Point, ...] = (side.at(a, low), side.at(b, low), side.at(b, high), side.at(a, high))
                found.append(Gap(i, None, str(opening.side), along, four, side.out))
        else:
            near, far = radii(part)
            for azimuth in azimuths(opening):
                turn = math.radians(azimuth)
                out = (math.cos(turn), math.sin(turn))
                deep, reach = (math.sqrt(max(0.0, r * r - half * half)) for r in (near, far))
                four = tuple(
                    (out[0] * r - out[1] * u, out[1] * r + out[0] * u)
                    for r, u in ((deep, -half), (deep, half), (reach, half), (reach, -half))
                )
                found.append(Gap(i, azimuth, None, None, four, out))
    return tuple(found)


def _in_vault(part: Part, opening: Opening, index: int, half: float) -> list[Gap]:
    near, far = radii(part)
    low, high = _ends(part)
    x = part.length_m / 2
    found: list[Gap] = []
    for spot in spots(part, opening):
        if spot.wall.startswith("side"):
            up = 1.0 if spot.wall == "side_a" else -1.0
            a, b = spot.along_m - x - half, spot.along_m - x + half
            four: tuple[Point, ...] = ((a, up * near), (b, up * near), (b, up * far), (a, up * far))
            out = (0.0, up)
        else:
            inner, outer, way = (-x, low, -1.0) if spot.wall == "end_a" else (x, high, 1.0)
            a, b = near - spot.along_m - half, near - spot.along_m + half
            four = ((inner, a), (inner, b), (outer, b), (outer, a))
            out = (way, 0.0)
        found.append(Gap(index, None, spot.wall, spot.along_m, four, out))
    return found


def placed(part: Part, point: Point) -> Point:
    """Return where a point of a part's own frame stands in the project: turned by its bearing, moved to its place.

    Source: arithmetic.

    Parameters
    ----------
    part : Part
        The part [m]
    point : tuple of (float, float)
        A point of its own frame [m]

    Returns
    -------
    tuple of (float, float)
        The same in the project [m]

    Examples
    --------
    >>> x, y = placed(Part(at_m=(10.0, 0.0), bearing_deg=90.0), (1.0, 0.0))
    >>> round(x, 9), round(y, 9)
    (10.0, 1.0)
    """
    turn = math.radians(part.bearing_deg)
    c, s = math.cos(turn), math.sin(turn)
    return part.at_m[0] + c * point[0] - s * point[1], part.at_m[1] + s * point[0] + c * point[1]


@frozen
class Sight:
    """What one opening shows from one side.

    Attributes
    ----------
    opening : int
        Place of the opening in its part [-]
    edge_m : tuple of tuple
        Corners of what is seen: to the right, and above the floor [m]
    turn_deg : float
        How far it is turned away from the viewer, above 0 to the right; 0 where it is seen square [deg]
    along_m : float or None
        Where its middle stands along a straight wall [m]
    """

    opening: int
    edge_m: tuple[Point, ...]
    turn_deg: float
    along_m: float | None


def sights(part: Part, shell: Meridian, azimuth_deg: float) -> tuple[Sight, ...]:
    """Return what is seen of the openings of a round part by a viewer outside who looks at its axis.

    Source: arithmetic (`seen`).

    Parameters
    ----------
    part : Part
        A dome or a round wall [m]
    shell : Meridian
        Its section [-]
    azimuth_deg : float
        Azimuth at which the viewer stands [deg]

    Returns
    -------
    tuple of Sight
        Those that face the viewer, from left to right [-]

    Examples
    --------
    >>> windows = Part(openings=(Opening(form="round", sill_m=1.2, azimuth_deg=45.0, count=4),))
    >>> [round(sight.turn_deg) for sight in sights(windows, meridian(windows), 0.0)]
    [-45, 45]
    """
    found = []
    for i, opening in enumerate(part.openings):
        section = cut(opening)
        for azimuth in azimuths(opening):
            turn = (azimuth - azimuth_deg + 180) % 360 - 180
            edge = seen(shell, section, turn)
            if edge:
                found.append(Sight(i, edge, turn, None))
    return tuple(sorted(found, key=lambda one: one.turn_deg))
