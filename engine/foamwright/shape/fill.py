"""Flat and sloped fills of foamed concrete: screed to falls, layers, voids."""

import math
from typing import Final

from attrs import frozen

from foamwright.project.model import Part
from foamwright.shape.wall import Point, area_of, corners

#: A fill thinner than this somewhere is a feather edge: common practice, no source [m].
FEATHER_M: Final = 0.02


@frozen
class FillMeasures:
    """What is measured of a fill.

    Attributes
    ----------
    volume_m3 : float
        Foamed concrete in place [m3]
    area_m2 : float or None
        Plan area; absent of a void [m2]
    least_m : float or None
        Least depth; absent of a void [m]
    greatest_m : float or None
        Greatest depth [m]
    mean_m : float or None
        Mean depth [m]
    fall_m : float or None
        Way that water runs from the highest point to the lowest, on the plan; absent where nothing falls [m]
    """

    volume_m3: float
    area_m2: float | None
    least_m: float | None
    greatest_m: float | None
    mean_m: float | None
    fall_m: float | None


def centroid(ring: tuple[Point, ...]) -> Point:
    """Return the centre of the area within a ring of corners.

    Source: arithmetic.

    Parameters
    ----------
    ring : tuple of tuple
        Corners of a ring that does not cross itself [m]

    Returns
    -------
    tuple of (float, float)
        The centre [m]

    Examples
    --------
    >>> centroid(((0.0, 0.0), (3.0, 0.0), (0.0, 3.0)))
    (1.0, 1.0)
    """
    x0, y0 = ring[0]
    twice = sx = sy = 0.0
    for (ax, ay), (bx, by) in zip(ring, (*ring[1:], ring[0]), strict=True):
        cross = (ax - x0) * (by - y0) - (bx - x0) * (ay - y0)
        twice += cross
        sx += cross * (ax + bx - 2 * x0)
        sy += cross * (ay + by - 2 * y0)
    return x0 + sx / (3 * twice), y0 + sy / (3 * twice)


def measure_fill(part: Part) -> FillMeasures:
    """Measure a fill whose plan can be followed.

    Source: arithmetic: a screed to falls is an upright prism with a plane on top, so that its volume is the area
    times the depth at the area's centre.

    Parameters
    ----------
    part : Part
        The fill as stated [-]

    Returns
    -------
    FillMeasures
        Volume, area and depths [m3, m2, m]

    Examples
    --------
    >>> made = measure_fill(Part(shape="fill", inside_span_m=4.0, length_m=6.0))
    >>> round(made.volume_m3, 9), round(made.greatest_m, 9), made.fall_m
    (2.64, 0.17, 6.0)
    """
    fill = part.fill
    if fill.kind == "void":
        return FillMeasures(fill.volume_m3, None, None, None, None, None)
    turn = math.radians(fill.fall_deg)
    # Falls run down towards fall_deg, so that the depth grows the other way.
    up = (-math.cos(turn), -math.sin(turn))
    if part.plan_form == "circle":
        radius = part.inside_diameter_m / 2
        area, way, middle = math.pi * radius**2, 2 * radius, radius
    else:
        ring = corners(part)
        area = abs(area_of(ring))
        heights = [x * up[0] + y * up[1] for x, y in ring]
        x, y = centroid(ring)
        way, middle = max(heights) - min(heights), x * up[0] + y * up[1] - min(heights)
    if fill.kind == "layer" or fill.slope_fraction == 0:
        return FillMeasures(area * fill.depth_m, area, fill.depth_m, fill.depth_m, fill.depth_m, None)
    mean = fill.depth_m + fill.slope_fraction * middle
    return FillMeasures(
        volume_m3=area * mean,
        area_m2=area,
        least_m=fill.depth_m,
        greatest_m=fill.depth_m + fill.slope_fraction * way,
        mean_m=mean,
        fall_m=way,
    )
