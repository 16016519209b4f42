"""Lines from springing to crown, and the faces that run along them at a distance."""

import math
from bisect import bisect_right
from functools import cached_property
from typing import Final, Protocol

from attrs import frozen

from foamwright.shape.quadrature import gauss_legendre, integrate

#: Stretches of equal parameter into which a face is divided to find a height or a length on it.
_STRETCHES: Final = 32
#: Nodes of the rule for the length of one stretch.
_ORDER: Final = 6


@frozen
class Place:
    """Where a line stands at one parameter, which way it faces there and how it bends.

    Attributes
    ----------
    radius_m : float
        Distance from the axis [m]
    height_m : float
        Height above the springing [m]
    normal_r : float
        Outward share of the unit normal [-]
    normal_z : float
        Upward share of the unit normal [-]
    speed_m : float
        Length of the line per unit of the parameter [m]
    bend : float
        Curvature, positive where the line bends inward [1/m]
    """

    radius_m: float
    height_m: float
    normal_r: float
    normal_z: float
    speed_m: float
    bend: float


class Line(Protocol):
    """The inside face from its springing, at parameter 0 and height 0, to its crown at parameter 1."""

    @property
    def rise_m(self) -> float: ...

    def at(self, share: float) -> Place:
        """Return the place at a parameter from 0 to 1."""

    def share(self, height: float) -> float:
        """Return the parameter at a height above the springing in metres; the opposite of ``at``."""


def _graph(radius: float, height: float, slope: float, bend: float, half: float) -> Place:
    """Describe a place on the graph of height over radius from its two derivatives."""
    s = math.sqrt(1 + slope * slope)
    return Place(radius, height, -slope / s, 1 / s, half * s, -bend / s**3)


@frozen
class Circle:
    """An arc.

    Attributes
    ----------
    radius_m : float
        Radius [m]
    offset_m : float
        Where its centre lies beside the axis: 0, or below 0 beyond it [m]
    depth_m : float
        How far its centre lies under the springing [m]
    """

    radius_m: float
    offset_m: float
    depth_m: float

    @property
    def rise_m(self) -> float:
        return math.sqrt(self.radius_m**2 - self.offset_m**2) - self.depth_m

    def _ends(self) -> tuple[float, float]:
        low = math.asin(min(1.0, self.depth_m / self.radius_m))
        return low, math.acos(max(-1.0, min(1.0, -self.offset_m / self.radius_m)))

    def at(self, share: float) -> Place:
        low, high = self._ends()
        angle = low + (high - low) * share
        out, up = math.cos(angle), math.sin(angle)
        return Place(
            self.offset_m + self.radius_m * out,
            self.radius_m * up - self.depth_m,
            out,
            up,
            self.radius_m * (high - low),
            1 / self.radius_m,
        )

    def share(self, height: float) -> float:
        low, high = self._ends()
        sine = max(-1.0, min(1.0, (height + self.depth_m) / self.radius_m))
        return (math.asin(sine) - low) / (high - low)


@frozen
class Parabola:
    """z = H (1 - (r / a)^2).

    Attributes
    ----------
    half_m : float
        Half the width at the springing, a [m]
    rise_m : float
        Rise, H [m]
    """

    half_m: float
    rise_m: float

    def at(self, share: float) -> Place:
        part = 1 - share
        slope = -2 * self.rise_m * part / self.half_m
        bend = -2 * self.rise_m / self.half_m**2
        height = self.rise_m * (1 - part * part)
        return _graph(self.half_m * part, height, slope, bend, self.half_m)

    def share(self, height: float) -> float:
        return 1 - math.sqrt(max(0.0, 1 - height / self.rise_m))


@frozen
class Catenary:
    """z = H - k (cosh(r / k) - 1): a hanging chain turned over.

    Attributes
    ----------
    half_m : float
        Half the width at the springing [m]
    rise_m : float
        Rise, H [m]
    scale_m : float
        Radius of curvature at the crown, k [m]
    """

    half_m: float
    rise_m: float
    scale_m: float

    @classmethod
    def through(cls, half: float, rise: float) -> "Catenary":
        """Return the catenary of a half width and a rise.

        Source: arithmetic; k from k (cosh(a / k) - 1) = H by Newton's method.

        Parameters
        ----------
        half : float
            Half the width at the springing, above 0 [m]
        rise : float
            Rise, above 0 [m]

        Returns
        -------
        Catenary
            The line [-]

        Examples
        --------
        >>> round(Catenary.through(2.0, 2.0).scale_m, 9)
        1.237518456
        """
        wanted = rise / half
        # (cosh x - 1) / x rises from 0 ever faster: from the right, Newton's steps only fall.
        x = min(2 * wanted, 2 + 2 * math.log1p(wanted))
        for _ in range(100):
            # 2 sinh(x / 2)^2 is cosh x - 1 without its loss of digits.
            value = 2 * math.sinh(x / 2) ** 2 / x
            step = (value - wanted) / ((math.sinh(x) - value) / x)
            x -= step
            if abs(step) <= 1e-15 * x:
                break
        return cls(half, rise, half / x)

    def at(self, share: float) -> Place:
        radius = self.half_m * (1 - share)
        x = radius / self.scale_m
        height = self.rise_m - 2 * self.scale_m * math.sinh(x / 2) ** 2
        return _graph(radius, height, -math.sinh(x), -math.cosh(x) / self.scale_m, self.half_m)

    def share(self, height: float) -> float:
        fall = max(0.0, self.rise_m - height)
        radius = 2 * self.scale_m * math.asinh(math.sqrt(fall / (2 * self.scale_m)))
        return 1 - radius / self.half_m


@frozen
class Ellipse:
    """Half an ellipse, its axis upright.

    Attributes
    ----------
    half_m : float
        Half the width at the springing [m]
    rise_m : float
        Rise [m]
    """

    half_m: float
    rise_m: float

    def at(self, share: float) -> Place:
        angle = share * math.pi / 2
        # The end of the quarter turn is on the axis, not a rounding error beside it.
        c, s = (math.cos(angle) if share < 1 else 0.0), math.sin(angle)
        a, b = self.half_m, self.rise_m
        w = math.sqrt((b * c) ** 2 + (a * s) ** 2)
        return Place(a * c, b * s, b * c / w, a * s / w, w * math.pi / 2, a * b / w**3)

    def share(self, height: float) -> float:
        return math.asin(max(0.0, min(1.0, height / self.rise_m))) / (math.pi / 2)


@frozen
class Curve:
    """A face along a line, at a distance that runs with the line's height from springing to crown.

    Attributes
    ----------
    line : Line
        The inside face [-]
    spring_m : float
        Height of the springing above the floor [m]
    foot_m : float
        Distance of the face from the line at the springing; 0 for the inside face itself [m]
    top_m : float
        The same at the crown [m]
    low_m : float
        Height of the lower end above the floor [m]
    high_m : float
        Height of the upper end above the floor [m]
    """

    line: Line
    spring_m: float
    foot_m: float
    top_m: float
    low_m: float
    high_m: float

    def _at(self, share: float) -> tuple[float, float, float, float]:
        """Return radius, height above the floor, and their changes with the parameter."""
        p = self.line.at(share)
        swing = (self.top_m - self.foot_m) / self.line.rise_m
        away = self.foot_m + swing * p.height_m
        along = p.speed_m * (1 + away * p.bend)
        away_by = swing * p.speed_m * p.normal_r
        return (
            p.radius_m + away * p.normal_r,
            self.spring_m + p.height_m + away * p.normal_z,
            -along * p.normal_z + away_by * p.normal_r,
            along * p.normal_r + away_by * p.normal_z,
        )

    @cached_property
    def _heights(self) -> tuple[float, ...]:
        """Heights at equal steps of the parameter over the whole line."""
        return tuple(self._at(i / _STRETCHES)[1] for i in range(_STRETCHES + 1))

    @cached_property
    def _ends(self) -> tuple[float, float]:
        return self._share(self.low_m), self._share(self.high_m)

    @cached_property
    def _lengths(self) -> tuple[float, ...]:
        """Length from the lower end at equal steps of the parameter."""
        low, high = self._ends
        passed, out = 0.0, [0.0]
        for i in range(_STRETCHES):
            a = low + (high - low) * i / _STRETCHES
            passed += self._length(a, low + (high - low) * (i + 1) / _STRETCHES)
            out.append(passed)
        # What the table lacks where the line bends sharply is shared out, so that its end is the length.
        whole = self._sums[0] / passed if passed else 1.0
        return tuple(value * whole for value in out)

    @cached_property
    def _sums(self) -> tuple[float, ...]:
        """Length, area per radian, volume over pi and area in the plane."""

        def each(share: float) -> tuple[float, ...]:
            radius, _, across, up = self._at(share)
            run = math.hypot(across, up)
            return run, radius * run, radius * radius * up, radius * up

        return integrate(each, *self._ends)

    def _length(self, low: float, high: float) -> float:
        half, middle = (high - low) / 2, (high + low) / 2
        total = 0.0
        for node, weight in gauss_legendre(_ORDER):
            _, _, across, up = self._at(middle + half * node)
            total += weight * math.hypot(across, up)
        return half * total

    def _share(self, height: float) -> float:
        """Find the parameter at a height by Newton's method, kept between the steps that hold it."""
        if self.foot_m == self.top_m == 0:
            return max(0.0, min(1.0, self.line.share(height - self.spring_m)))
        marks = self._heights
        if height <= marks[0]:
            return 0.0
        if height >= marks[-1]:
            return 1.0
        at = bisect_right(marks, height) - 1
        low, high = at / _STRETCHES, (at + 1) / _STRETCHES
        share = low + (high - low) * (height - marks[at]) / (marks[at + 1] - marks[at])
        for _ in range(60):
            _, here, _, up = self._at(share)
            miss = here - height
            if miss > 0:
                high = share
            else:
                low = share
            after = share - miss / up if up > 0 else (low + high) / 2
            if not low <= after <= high:
                after = (low + high) / 2
            if abs(after - share) <= 1e-15:
                return after
            share = after
        return share

    @property
    def length_m(self) -> float:
        return self._sums[0]

    def radius(self, height: float) -> float:
        return self._at(self._share(height))[0]

    def ring(self, height: float) -> float:
        return self.radius_and_ring(height)[1]

    def radius_and_ring(self, height: float) -> tuple[float, float]:
        """Return both at once, since finding the height is what takes the time."""
        radius, _, across, up = self._at(self._share(height))
        return radius, radius * math.hypot(across, up) / up if up > 0 else math.inf

    def point(self, length: float) -> tuple[float, float]:
        marks = self._lengths
        at = max(0, min(bisect_right(marks, length) - 1, _STRETCHES - 1))
        low, high = self._ends
        step = (high - low) / _STRETCHES
        begin = low + step * at
        left, stretch = length - marks[at], marks[at + 1] - marks[at]
        share = left / stretch if stretch else 0.0
        true = self._length(begin, begin + step) or 1.0
        for _ in range(20):
            miss = self._length(begin, begin + step * share) * stretch / true - left
            _, _, across, up = self._at(begin + step * share)
            after = share - miss / (step * math.hypot(across, up))
            after = max(0.0, min(1.0, after))
            if abs(after - share) <= 1e-13:
                break
            share = after
        radius, height, _, _ = self._at(begin + step * share)
        return radius, height

    def area(self) -> float:
        return 2 * math.pi * self._sums[1]

    def volume(self) -> float:
        return math.pi * self._sums[2]

    def plane(self) -> float:
        return self._sums[3]
