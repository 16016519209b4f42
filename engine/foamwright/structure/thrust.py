"""Lines of thrust: whether a shell without tension can carry its own weight within its thickness.

The shell is cut into joints square to its inside face. Of a dome a slice is taken, whose neighbours may
push on it around the ring but never pull; of a vault a strip of arch. Everything that weighs is measured
in volume here, for a slice per radian of turn and for a strip per metre of length, so that the answer is
one of shape alone.
"""

import math
from collections.abc import Callable
from itertools import pairwise
from typing import Final

from attrs import frozen

from foamwright.shape.meridian import Face, Meridian, Upright

Point = tuple[float, float]

#: Joints from springing to crown: from about 60 on the semicircular arch gives its 0.1075.
JOINTS: Final = 80
#: Joints down a stem wall.
_UPRIGHT_JOINTS: Final = 4
#: Steps in which the thickness turns about an edge between two stretches of the face.
_FAN: Final = 8
#: A joint that leans less from upright at the crown is upright [-].
_UPRIGHT: Final = 1e-4
#: A least thickness is found to this share.
_FINE: Final = 1e-4


@frozen
class Joint:
    """One joint through the shell, and what the shell from the crown down to it weighs.

    Attributes
    ----------
    inside : tuple of (float, float)
        Radius and height of its inside end [m]
    outside : tuple of (float, float)
        Radius and height of its outside end [m]
    weight : float
        Volume from the crown to the joint: of a slice per radian, of a strip per metre [m3]
    moment : float
        That volume times the radius of its middle [m4]
    """

    inside: Point
    outside: Point
    weight: float
    moment: float

    @property
    def radius_m(self) -> float:
        """Radius of its middle [m]."""
        return (self.inside[0] + self.outside[0]) / 2

    @property
    def height_m(self) -> float:
        """Height of its middle [m]."""
        return (self.inside[1] + self.outside[1]) / 2

    @property
    def cotangent(self) -> float:
        """Rise over run of the joint: the cotangent of the slope of the middle surface [-]."""
        return (self.outside[1] - self.inside[1]) / (self.outside[0] - self.inside[0])


@frozen
class Thrust:
    """The lines of thrust that fit within the thickness.

    Attributes
    ----------
    stands : bool
        Whether there is one [-]
    least : float
        The least level thrust of one at the lowest joint; 0 where there is none [m3]
    most : float
        The greatest one [m3]
    """

    stands: bool
    least: float
    most: float


def _sides(face: Face) -> list[tuple[Point, Point]]:
    """Points of the inside face from the crown down, each with the direction square to it and outwards."""
    out: list[tuple[Point, Point]] = []
    for piece in reversed(face.pieces):
        tall = piece.high_m - piece.low_m
        steps = _UPRIGHT_JOINTS if isinstance(piece, Upright) else JOINTS
        for k in range(steps + 1):
            # Close together towards the crown, where a little height is a long way along the face.
            share = math.cos(math.pi / 2 * k / steps)
            height = piece.low_m + tall * share
            near = piece.low_m + tall * min(share, 1 - 1e-10)
            radius = piece.radius(near)
            level = radius / piece.ring(near) if radius > 0 else 0.0
            square = (level, math.sqrt(max(0.0, 1 - level * level)))
            if k == 0 and out:
                # About an edge the thickness turns from one direction to the other.
                (edge, (r, z)) = out[-1]
                start, end = math.atan2(z, r), math.atan2(square[1], square[0])
                for i in range(1, _FAN):
                    angle = start + (end - start) * i / _FAN
                    if abs(end - start) > 1e-6:
                        out.append((edge, (math.cos(angle), math.sin(angle))))
            out.append(((piece.radius(height), height), square))
    return out


def joints(shell: Meridian, lune: bool, thick: Callable[[float], float]) -> tuple[Joint, ...]:
    """Cut a shell into joints square to its inside face and weigh it down to each of them.

    Source: arithmetic (area and moments of polygons by Green's theorem).

    Parameters
    ----------
    shell : Meridian
        Section of the shell on one side of its middle [-]
    lune : bool
        Whether it is a slice of a dome; otherwise it is a strip of a vault [-]
    thick : Callable
        Thickness square to the inside face at a height on it [m]

    Returns
    -------
    tuple of Joint
        The joints from the crown to the foot, each with what it carries [-]

    Examples
    --------
    >>> from foamwright.shape.meridian import hemisphere
    >>> import math
    >>> shell = hemisphere(6.0, 0.0, 0.3)
    >>> round(joints(shell, True, lambda height: 0.3)[-1].weight * 2 * math.pi / shell.volume(), 3)
    1.0
    """
    ends: list[tuple[Point, Point]] = []
    for (radius, height), (r, z) in _sides(shell.inside):
        if not ends:
            # The crown ends upright: on the axis, or at the rim of an opening.
            ends.append(((radius, height), (radius, shell.outside.crown_m)))
            if r < _UPRIGHT:
                continue
        t = thick(height)
        ends.append(((radius, height), (radius + t * r, height + t * z)))
    out = [Joint(*ends[0], 0.0, 0.0)]
    weight = moment = 0.0
    for above, below in pairwise(ends):
        ring = (above[0], below[0], below[1], above[1])
        for (x0, z0), (x1, z1) in zip(ring, (*ring[1:], ring[0]), strict=True):
            turn = x0 * z1 - x1 * z0
            if lune:
                weight += turn * (x0 + x1) / 6
                moment += turn * (x0 * x0 + x0 * x1 + x1 * x1) / 12
            else:
                weight += turn / 2
                moment += turn * (x0 + x1) / 6
        out.append(Joint(*below, weight, moment))
    return tuple(out)


def _clipped(area: list[Point], slope: float, height: float, above: bool) -> list[Point]:
    """Keep what lies above or below the straight line ``moment = slope * thrust + height``."""
    out: list[Point] = []
    sign = 1.0 if above else -1.0
    before = area[-1]
    left = sign * (before[1] - slope * before[0] - height)
    for here in area:
        right = sign * (here[1] - slope * here[0] - height)
        if (left < 0) != (right < 0):
            share = left / (left - right)
            out.append((before[0] + share * (here[0] - before[0]), before[1] + share * (here[1] - before[1])))
        if right >= 0:
            out.append(here)
        before, left = here, right
    return out


def _pushed(area: list[Point], slope: float, far: float) -> list[Point]:
    """Let the thrust grow from every point of an area, its moment along with it at a slope."""
    over = [moment - slope * thrust for thrust, moment in area]
    top, bottom = over.index(max(over)), over.index(min(over))
    kept = [area[top]]
    while top != bottom:
        top = (top + 1) % len(area)
        kept.append(area[top])
    (h0, m0), (h1, m1) = kept[-1], kept[0]
    return [*kept, (h0 + far, m0 + slope * far), (h1 + far, m1 + slope * far)]


def search(chain: tuple[Joint, ...], hoops: bool) -> Thrust:
    """Search for the lines of thrust that stay within the thickness at every joint.

    A line is known by its level thrust H and by its moment m about the floor's middle. It passes a joint where
    ``H zi + W ri - M <= m <= H zo + W ro - M``. All lines that pass the joints so far are a convex area of (H, m); a ring that
    pushes between two joints adds to H, and to m in proportion to its height.

    Source: J. Heyman, The Stone Skeleton (1995), the safe theorem (from memory): a structure without tension stands if one
    line of thrust within it can be found.

    Valid for own weight and stiff abutments; joints that slide, a crushing material and openings are not in it.

    Parameters
    ----------
    chain : tuple of Joint
        Joints from the crown to the abutment [-]
    hoops : bool
        Whether neighbours may push, as in a dome [-]

    Returns
    -------
    Thrust
        Whether there is a line, and the thrusts of those that there are [-]

    Examples
    --------
    >>> from foamwright.shape.meridian import hemisphere
    >>> search(joints(hemisphere(4.0, 0.0, 0.20), False, lambda height: 0.20), hoops=False).stands
    False
    >>> search(joints(hemisphere(4.0, 0.0, 0.24), False, lambda height: 0.24), hoops=False).stands
    True
    """
    crown, foot = chain[0], chain[-1]
    tightest = min(math.dist(joint.inside, joint.outside) for joint in chain)
    # Above this thrust no line bends enough to stay inside.
    far = 4 * foot.weight * foot.outside[0] / tightest
    area: list[Point] = [(0.0, 0.0), (far, far * crown.inside[1]), (far, far * crown.outside[1])]
    for before, joint in pairwise(chain):
        if hoops:
            area = _pushed(area, (before.height_m + joint.height_m) / 2, far)
        (ri, zi), (ro, zo) = joint.inside, joint.outside
        area = _clipped(area, zo, joint.weight * ro - joint.moment, above=False)
        if area:
            area = _clipped(area, zi, joint.weight * ri - joint.moment, above=True)
        if not area:
            return Thrust(False, 0.0, 0.0)
    thrusts = [thrust for thrust, _ in area]
    return Thrust(True, min(thrusts), max(thrusts))


def least_thickness(stands: Callable[[float], bool], low: float, high: float) -> float | None:
    """Return the least thickness that stands, by halving.

    Source: arithmetic.

    Parameters
    ----------
    stands : Callable
        Whether a thickness stands; every thicker one must as well [-]
    low : float
        Thinnest that is tried, above 0 [m]
    high : float
        Thickest that is tried [m]

    Returns
    -------
    float or None
        The least thickness, to a ten-thousandth of itself; ``low`` where that stands already, none where even ``high`` does
        not [m]

    Examples
    --------
    >>> round(least_thickness(lambda t: t * t > 0.04, 0.01, 1.0), 3)
    0.2
    """
    if not stands(high):
        return None
    if stands(low):
        return low
    while high - low > _FINE * low:
        middle = math.sqrt(low * high)
        low, high = (low, middle) if stands(middle) else (middle, high)
    return high
