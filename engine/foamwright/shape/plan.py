"""The outside plans of parts on the ground, and whether they share some of it."""

import math

from attrs import frozen

from foamwright.project.model import Part
from foamwright.shape.meridian import meridian
from foamwright.shape.vault import end_thickness, walled


@frozen
class Plan:
    """A circle or a rectangle on the ground.

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
    """

    at_m: tuple[float, float]
    radius_m: float
    half_m: tuple[float, float]
    bearing_deg: float

    @property
    def axes(self) -> tuple[tuple[float, float], tuple[float, float]]:
        """Directions along the axis and across it [-]."""
        turn = math.radians(self.bearing_deg)
        c, s = math.cos(turn), math.sin(turn)
        return (c, s), (-s, c)


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
