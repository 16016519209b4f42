"""The outside plans of parts on the ground, and whether they share some of it."""

import math
from functools import lru_cache

from attrs import frozen

from foamwright.project.model import Part
from foamwright.shape.meridian import meridian
from foamwright.shape.vault import end_thickness, walled
from foamwright.shape.wall import Point, pieces


@frozen
class Plan:
    """A circle, a rectangle or the pieces of a wall on the ground.

    Attributes
    ----------
    at_m : tuple of (float, float)
        Its middle [m]
    radius_m : float
        Radius of a circle; 0 for a rectangle [m]
    half_m : tuple of (float, float)
        Half the length along its axis and half the width; 0 for a circle [m]
    bearing_deg : float
        Direction of its axis, anticlockwise from +x [deg]
    pieces : tuple of tuple
        Corners of the convex pieces of a wall; none of other parts [m]
    """

    at_m: tuple[float, float]
    radius_m: float
    half_m: tuple[float, float]
    bearing_deg: float
    pieces: tuple[tuple[Point, ...], ...] = ()

    @property
    def axes(self) -> tuple[tuple[float, float], tuple[float, float]]:
        """Directions along the axis and across it [-]."""
        turn = math.radians(self.bearing_deg)
        c, s = math.cos(turn), math.sin(turn)
        return (c, s), (-s, c)


@lru_cache(maxsize=512)
def plan_of(part: Part) -> Plan:
    """Return the outside plan of a part, its end walls with it.

    Source: arithmetic.

    Parameters
    ----------
    part : Part
        The part [-]

    Returns
    -------
    Plan
        Where it stands on the ground [-]

    Examples
    --------
    >>> plan_of(Part()).radius_m, plan_of(Part(shape="vault")).half_m
    (3.2, (3.2, 2.2))
    """
    if part.shape == "wall":
        return _wall(part)
    if part.shape in ("fill", "blocks"):
        return Plan((part.at_m[0], part.at_m[1]), 0.0, (0.0, 0.0), 0.0)
    outside = meridian(part).outside
    far = outside.radius(outside.foot_m)
    x, y = part.at_m
    if part.shape != "vault":
        return Plan((x, y), far, (0.0, 0.0), part.bearing_deg)
    ends, thick = walled(part), end_thickness(part)
    turn = math.radians(part.bearing_deg)
    shift = thick / 2 * (("end_b" in ends) - ("end_a" in ends))
    middle = (x + shift * math.cos(turn), y + shift * math.sin(turn))
    return Plan(middle, 0.0, ((part.length_m + thick * len(ends)) / 2, far), part.bearing_deg)


def _wall(part: Part) -> Plan:
    """The pieces of a wall, with the upright rectangle round them all."""
    found = pieces(part)
    xs, ys = zip(*(point for piece in found for point in piece), strict=True)
    low, high = (min(xs), min(ys)), (max(xs), max(ys))
    middle = ((low[0] + high[0]) / 2, (low[1] + high[1]) / 2)
    return Plan(middle, 0.0, ((high[0] - low[0]) / 2, (high[1] - low[1]) / 2), 0.0, found)


def shared_depth(first: Plan, second: Plan) -> float:
    """Return how far one of two plans must move so that they no longer share ground.

    Source: arithmetic (separating axes).

    Parameters
    ----------
    first : Plan
        One plan [-]
    second : Plan
        The other [-]

    Returns
    -------
    float
        Least way that parts them; 0 or less where they are apart [m]

    Examples
    --------
    >>> dome, vault = plan_of(Part()), plan_of(Part(shape="vault", at_m=(6.0, 0.0)))
    >>> round(shared_depth(dome, vault), 9)
    0.4
    """
    if first.pieces or second.pieces:
        return _deepest(first, second)
    if first.radius_m and second.radius_m:
        return first.radius_m + second.radius_m - math.dist(first.at_m, second.at_m)
    if first.radius_m or second.radius_m:
        circle, box = (first, second) if first.radius_m else (second, first)
        away = [abs(_along(axis, box.at_m, circle.at_m)) for axis in box.axes]
        beyond = [a - half for a, half in zip(away, box.half_m, strict=True)]
        if max(beyond) <= 0:
            return circle.radius_m - max(beyond)
        return circle.radius_m - math.hypot(*(max(0.0, b) for b in beyond))
    return min(
        _half_along(axis, first)
        + _half_along(axis, second)
        - abs(_along(axis, first.at_m, second.at_m))
        for axis in (*first.axes, *second.axes)
    )


def near(plans: tuple[Plan, ...]) -> tuple[tuple[int, int], ...]:
    """Return which plans may share ground: those whose upright rectangles meet, the earlier place first.

    Source: arithmetic; swept along x, so that plans far apart are never laid beside each other.

    Parameters
    ----------
    plans : tuple of Plan
        All plans [-]

    Returns
    -------
    tuple of (int, int)
        Pairs of places, in order [-]

    Examples
    --------
    >>> near((plan_of(Part()), plan_of(Part(at_m=(30.0, 0.0))), plan_of(Part(at_m=(5.0, 5.0)))))
    ((0, 2),)
    """
    reach = [_reaches(plan) for plan in plans]
    left = [plan.at_m[0] - wide for plan, (wide, _) in zip(plans, reach, strict=True)]
    pairs: list[tuple[int, int]] = []
    open_: list[int] = []
    for j in sorted(range(len(plans)), key=left.__getitem__):
        open_ = [i for i in open_ if plans[i].at_m[0] + reach[i][0] >= left[j]]
        (_, y), (_, tall) = plans[j].at_m, reach[j]
        pairs += [(min(i, j), max(i, j)) for i in open_ if abs(plans[i].at_m[1] - y) <= reach[i][1] + tall]
        open_.append(j)
    return tuple(sorted(pairs))


def _deepest(first: Plan, second: Plan) -> float:
    """The deepest that any piece of one stands in any piece of the other."""
    if _boxes_apart(first, second) > 0:
        return -_boxes_apart(first, second)
    return max(_apart(a, b) for a in _shapes(first) for b in _shapes(second))


def _boxes_apart(first: Plan, second: Plan) -> float:
    """How far the upright rectangles round two plans are apart, along x or y; 0 or less where they meet."""
    (ax, ay), (bx, by) = (plan.at_m for plan in (first, second))
    (aw, ah), (bw, bh) = (_reaches(plan) for plan in (first, second))
    return max(abs(ax - bx) - aw - bw, abs(ay - by) - ah - bh)


def _reaches(plan: Plan) -> tuple[float, float]:
    if plan.radius_m:
        return plan.radius_m, plan.radius_m
    return _half_along((1.0, 0.0), plan), _half_along((0.0, 1.0), plan)


def _shapes(plan: Plan) -> tuple[tuple[tuple[Point, ...], float], ...]:
    """Convex outlines, each with a margin round it: the radius of a circle about its one corner."""
    if plan.pieces:
        return tuple((piece, 0.0) for piece in plan.pieces)
    if plan.radius_m:
        return ((((plan.at_m[0], plan.at_m[1]),), plan.radius_m),)
    (x, y), (u, v), (a, b) = plan.at_m, plan.axes, plan.half_m
    signs = ((1, 1), (-1, 1), (-1, -1), (1, -1))
    box = tuple((x + i * a * u[0] + j * b * v[0], y + i * a * u[1] + j * b * v[1]) for i, j in signs)
    return ((box, 0.0),)


def _apart(first: tuple[tuple[Point, ...], float], second: tuple[tuple[Point, ...], float]) -> float:
    """Least overlap of the shadows of two outlines (separating axes)."""
    (one, r), (two, q) = first, second
    axes = [_normal(a, b) for ring in (one, two) if len(ring) > 1
            for a, b in zip(ring, (*ring[1:], ring[0]), strict=True)]  # fmt: skip
    for lone, ring in ((one, two), (two, one)):
        if len(lone) == 1:
            near = min(ring, key=lambda corner: math.dist(corner, lone[0]))
            if math.dist(near, lone[0]) > 0:
                axes.append(_unit(lone[0], near))
    least = math.inf
    for x, y in axes:
        a = [x * px + y * py for px, py in one]
        b = [x * px + y * py for px, py in two]
        least = min(least, max(a) - min(b) + r + q, max(b) - min(a) + r + q)
    return least


def _unit(a: Point, b: Point) -> Point:
    length = math.dist(a, b) or 1.0
    return (b[0] - a[0]) / length, (b[1] - a[1]) / length


def _normal(a: Point, b: Point) -> Point:
    x, y = _unit(a, b)
    return -y, x


def _along(
    axis: tuple[float, float], start: tuple[float, float], end: tuple[float, float]
) -> float:
    return axis[0] * (end[0] - start[0]) + axis[1] * (end[1] - start[1])


def _half_along(axis: tuple[float, float], box: Plan) -> float:
    """Return half the shadow of a rectangle on a direction."""
    origin = (0.0, 0.0)
    return sum(
        abs(_along(axis, origin, own)) * half for own, half in zip(box.axes, box.half_m, strict=True)
    )
