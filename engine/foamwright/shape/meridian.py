"""Meridians: the curves that, turned about the vertical axis, make the faces of a shell.

A face is a chain of pieces from its foot to its crown. A new profile brings, where the pieces here
do not serve, a new Piece, and one builder in PROFILES; nothing that measures or draws knows which
profile it has before it. The same curves, pushed along a level axis, are the cross-section of a vault.
"""

import math
from collections.abc import Callable
from functools import lru_cache
from typing import Any, Final, Protocol, cast

from attrs import evolve, field, frozen

from foamwright.project.model import Part
from foamwright.project.notes import Problem
from foamwright.shape.curves import Catenary, Circle, Curve, Ellipse, Line, Parabola

#: Lengths below this are rounding, not geometry.
_TINY: Final = 1e-9


class Piece(Protocol):
    """A smooth stretch of a meridian that rises from ``low_m`` to ``high_m`` without turning back."""

    @property
    def low_m(self) -> float: ...

    @property
    def high_m(self) -> float: ...

    @property
    def length_m(self) -> float: ...

    def radius(self, height: float) -> float:
        """Return the distance of the face from the axis at a height, both in metres."""

    def ring(self, height: float) -> float:
        """Return face area per radian of turn and metre of rise: radius times ds/dz, in metres."""

    def point(self, length: float) -> tuple[float, float]:
        """Return (radius, height) at a length along the piece from its lower end, in metres."""

    def area(self) -> float:
        """Return the area that the piece sweeps in a full turn, in square metres."""

    def volume(self) -> float:
        """Return the volume between the swept piece and the axis, in cubic metres."""

    def plane(self) -> float:
        """Return the area between the piece and the axis in its own plane, in square metres."""


@frozen
class Upright:
    """A vertical stretch: the stem wall."""

    radius_m: float
    low_m: float
    high_m: float

    @property
    def length_m(self) -> float:
        return self.high_m - self.low_m

    def radius(self, height: float) -> float:
        return self.radius_m

    def ring(self, height: float) -> float:
        return self.radius_m

    def point(self, length: float) -> tuple[float, float]:
        return self.radius_m, self.low_m + length

    def area(self) -> float:
        return 2 * math.pi * self.radius_m * self.length_m

    def volume(self) -> float:
        return math.pi * self.radius_m**2 * self.length_m

    def plane(self) -> float:
        return self.radius_m * self.length_m


@frozen
class Sphere:
    """A stretch of a circle whose centre lies on the axis: a zone of a sphere."""

    radius_m: float
    centre_m: float
    low_m: float
    high_m: float

    @property
    def length_m(self) -> float:
        return self.radius_m * (self._angle(self.high_m) - self._angle(self.low_m))

    def _angle(self, height: float) -> float:
        return math.asin(max(-1.0, min(1.0, (height - self.centre_m) / self.radius_m)))

    def radius(self, height: float) -> float:
        rise = height - self.centre_m
        return math.sqrt(max(0.0, (self.radius_m - rise) * (self.radius_m + rise)))

    def ring(self, height: float) -> float:
        return self.radius_m

    def point(self, length: float) -> tuple[float, float]:
        angle = self._angle(self.low_m) + length / self.radius_m
        return (
            max(0.0, self.radius_m * math.cos(angle)),
            self.centre_m + self.radius_m * math.sin(angle),
        )

    def area(self) -> float:
        return 2 * math.pi * self.radius_m * (self.high_m - self.low_m)

    def volume(self) -> float:
        low, high = self.low_m - self.centre_m, self.high_m - self.centre_m
        return math.pi * (self.radius_m**2 * (high - low) - (high**3 - low**3) / 3)

    def plane(self) -> float:
        low, high = self._angle(self.low_m), self._angle(self.high_m)
        return self.radius_m**2 / 2 * (high - low + (math.sin(2 * high) - math.sin(2 * low)) / 2)


@frozen
class Arc:
    """A stretch of a circle whose centre lies off the axis.

    Attributes
    ----------
    radius_m : float
        Radius [m]
    offset_m : float
        Where the centre lies: below 0 beyond the axis, as in an ogive; above 0 on the near side, as in a
        rounded edge [m]
    centre_m : float
        Height of the centre [m]
    low_m : float
        Height of the lower end [m]
    high_m : float
        Height of the upper end [m]
    """

    radius_m: float
    offset_m: float
    centre_m: float
    low_m: float
    high_m: float

    @property
    def length_m(self) -> float:
        return self.radius_m * (self._angle(self.high_m) - self._angle(self.low_m))

    def _angle(self, height: float) -> float:
        return math.asin(max(-1.0, min(1.0, (height - self.centre_m) / self.radius_m)))

    def _reach(self, height: float) -> float:
        rise = height - self.centre_m
        return math.sqrt(max(0.0, (self.radius_m - rise) * (self.radius_m + rise)))

    def radius(self, height: float) -> float:
        return max(0.0, self.offset_m + self._reach(height))

    def ring(self, height: float) -> float:
        reach = self._reach(height)
        return (self.offset_m + reach) * self.radius_m / reach if reach > 0 else math.inf

    def point(self, length: float) -> tuple[float, float]:
        angle = self._angle(self.low_m) + length / self.radius_m
        return (
            max(0.0, self.offset_m + self.radius_m * math.cos(angle)),
            self.centre_m + self.radius_m * math.sin(angle),
        )

    def area(self) -> float:
        turn = self._angle(self.high_m) - self._angle(self.low_m)
        rise = self.high_m - self.low_m
        return 2 * math.pi * self.radius_m * (self.offset_m * turn + rise)

    def volume(self) -> float:
        low, high = self.low_m - self.centre_m, self.high_m - self.centre_m
        squares = (self.offset_m**2 + self.radius_m**2) * (high - low) - (high**3 - low**3) / 3
        return math.pi * (squares + 2 * self.offset_m * self._wedge())

    def plane(self) -> float:
        return self.offset_m * (self.high_m - self.low_m) + self._wedge()

    def _wedge(self) -> float:
        low, high = self._angle(self.low_m), self._angle(self.high_m)
        return self.radius_m**2 / 2 * (high - low + (math.sin(2 * high) - math.sin(2 * low)) / 2)


@frozen
class Face:
    """One face of a shell, from foot to crown.

    Attributes
    ----------
    pieces : tuple of Piece
        Stretches from the foot upwards, each beginning where the one before ends [-]
    """

    pieces: tuple[Piece, ...] = field()

    @property
    def foot_m(self) -> float:
        """Height of the foot above the floor [m]."""
        return self.pieces[0].low_m

    @property
    def crown_m(self) -> float:
        """Height of the crown above the floor [m]."""
        return self.pieces[-1].high_m

    @property
    def length_m(self) -> float:
        """Length along the meridian from foot to crown [m]."""
        return sum(piece.length_m for piece in self.pieces)

    @property
    def breaks_m(self) -> tuple[float, ...]:
        """Heights at which one stretch gives way to the next [m]."""
        return tuple(piece.low_m for piece in self.pieces[1:])

    def at(self, height: float) -> Piece:
        """Return the stretch that holds a height; heights beyond the face fall to its end stretches.

        Source: arithmetic.

        Parameters
        ----------
        height : float
            Height above the floor [m]

        Returns
        -------
        Piece
            The stretch [-]

        Examples
        --------
        >>> dome = Face((Upright(3.0, 0.0, 0.5), Sphere(3.0, 0.5, 0.5, 3.5)))
        >>> dome.at(0.4).ring(0.4), dome.at(2.0).low_m
        (3.0, 0.5)
        """
        for piece in self.pieces:
            if height <= piece.high_m:
                return piece
        return self.pieces[-1]

    def radius(self, height: float) -> float:
        """Return the distance of the face from the axis.

        Source: arithmetic.

        Parameters
        ----------
        height : float
            Height above the floor, from foot to crown; beyond them the end stretch goes on [m]

        Returns
        -------
        float
            Radius of the horizontal circle there [m]

        Examples
        --------
        >>> round(Face((Sphere(3.0, 0.0, 0.0, 3.0),)).radius(1.8), 12)
        2.4
        """
        return self.at(height).radius(height)

    def radius_and_ring(self, height: float) -> tuple[float, float]:
        """Return the distance from the axis, and face area per radian of turn and metre of rise.

        Source: arithmetic.

        Parameters
        ----------
        height : float
            Height above the floor, from foot to crown [m]

        Returns
        -------
        tuple of (float, float)
            Radius, and radius times ds/dz [m]

        Examples
        --------
        >>> Face((Upright(3.0, 0.0, 0.5),)).radius_and_ring(0.2)
        (3.0, 3.0)
        """
        piece = self.at(height)
        if isinstance(piece, Curve):
            return piece.radius_and_ring(height)
        return piece.radius(height), piece.ring(height)

    def point(self, length: float) -> tuple[float, float]:
        """Return the point at a length along the meridian from the foot.

        Source: arithmetic.

        Parameters
        ----------
        length : float
            Length along the meridian, 0 to ``length_m`` [m]

        Returns
        -------
        tuple of (float, float)
            Radius and height of the point [m]

        Examples
        --------
        >>> Face((Upright(3.0, 0.0, 0.5),)).point(0.25)
        (3.0, 0.25)
        """
        for piece in self.pieces[:-1]:
            if length <= piece.length_m:
                return piece.point(length)
            length -= piece.length_m
        return self.pieces[-1].point(min(length, self.pieces[-1].length_m))

    def points(self, count: int) -> tuple[tuple[float, float], ...]:
        """Return points at equal lengths along the meridian, with every break among them.

        Source: arithmetic.

        Parameters
        ----------
        count : int
            Number of equal lengths, at least 1 [-]

        Returns
        -------
        tuple of (float, float)
            Radius and height of each point, foot first [m]

        Examples
        --------
        >>> Face((Upright(3.0, 0.0, 0.5),)).points(2)
        ((3.0, 0.0), (3.0, 0.25), (3.0, 0.5))
        """
        whole, passed = self.length_m, 0.0
        lengths = {whole * i / count for i in range(count + 1)}
        for piece in self.pieces[:-1]:
            passed += piece.length_m
            lengths.add(passed)
        return tuple(self.point(length) for length in sorted(lengths))

    def area(self) -> float:
        """Return the area of the whole face, nothing taken out, in square metres."""
        return sum(piece.area() for piece in self.pieces)

    def volume(self) -> float:
        """Return the volume that the whole face encloses above its foot, in cubic metres."""
        return sum(piece.volume() for piece in self.pieces)

    def plane(self) -> float:
        """Return the area between the face and the axis, on one side, in square metres."""
        return sum(piece.plane() for piece in self.pieces)

    def below(self, radius: float) -> "Face":
        """Return what is left of the face where all that lies nearer to the axis is cut away.

        Source: arithmetic; the height by halving.

        Parameters
        ----------
        radius : float
            Radius of the upright cut, above 0 and less than that of the foot [m]

        Returns
        -------
        Face
            The face up to the cut [-]

        Examples
        --------
        >>> round(Face((Sphere(3.0, 0.0, 0.0, 3.0),)).below(2.4).crown_m, 12)
        1.8
        """
        kept: list[Piece] = []
        for piece in self.pieces:
            if piece.radius(piece.high_m) >= radius:
                kept.append(piece)
                continue
            low, high = piece.low_m, piece.high_m
            for _ in range(60):
                middle = (low + high) / 2
                low, high = (middle, high) if piece.radius(middle) > radius else (low, middle)
            if low > piece.low_m:
                shorter: Any = evolve(cast(Any, piece), high_m=low)
                kept.append(shorter)
            break
        return Face(tuple(kept))


@frozen
class Meridian:
    """The section of a shell on one side of its axis.

    Attributes
    ----------
    inside : Face
        Inside face, from the floor to the inside crown or to the rim of an opening there [-]
    outside : Face
        Outside face: the parallel curve at the shell's thickness, rounded about the edge where a
        leaning profile springs from its stem wall, and carried on to the axis at a pointed crown.
        Where the inside face leans at the foot, the outside one begins higher, and a skewback cut
        square to the inside joins them [-]
    opening_m : float
        Radius of an opening at the crown, cut upright; 0 where the crown is closed [m]
    """

    inside: Face
    outside: Face
    opening_m: float = 0.0

    @property
    def breaks_m(self) -> tuple[float, ...]:
        """Heights at which either face changes, or the skewback ends [m]."""
        return (*self.inside.breaks_m, self.outside.foot_m, *self.outside.breaks_m)

    def reach(self, height: float) -> float:
        """Return how far the shell reaches from the axis: to its outside face, or to its skewback.

        Source: arithmetic.

        Parameters
        ----------
        height : float
            Height above the floor [m]

        Returns
        -------
        float
            Distance from the axis [m]

        Examples
        --------
        >>> leaning = Meridian(Face((Sphere(5.0, -4.0, 0.0, 1.0),)), Face((Sphere(6.0, -4.0, 0.8, 2.0),)))
        >>> round(leaning.reach(0.4), 12)
        3.3
        """
        foot, low = self.outside.foot_m, self.inside.foot_m
        if height >= foot or foot <= low:
            return self.outside.radius(height)
        near, far = self.inside.radius(low), self.outside.radius(foot)
        return near + (far - near) * (height - low) / (foot - low)

    def reach_and_ring(self, height: float) -> tuple[float, float]:
        """Return how far the shell reaches, and the outside face's area per radian and metre of rise.

        Source: arithmetic; a skewback is no part of the face.

        Parameters
        ----------
        height : float
            Height above the floor [m]

        Returns
        -------
        tuple of (float, float)
            Distance from the axis, and radius times ds/dz, 0 along the skewback [m]

        Examples
        --------
        >>> hemisphere(6.0, 0.5, 0.2).reach_and_ring(0.2)
        (3.2, 3.2)
        """
        if height >= self.outside.foot_m:
            return self.outside.radius_and_ring(height)
        return self.reach(height), 0.0

    def volume(self) -> float:
        """Return the volume of the whole shell of revolution, side openings not taken out, in cubic metres."""
        near, far = self.inside.radius(self.inside.foot_m), self.outside.radius(self.outside.foot_m)
        rise = self.outside.foot_m - self.inside.foot_m
        skewback = math.pi * rise / 3 * (near * near + near * far + far * far)
        hole = math.pi * self.opening_m**2 * (self.outside.crown_m - self.inside.crown_m)
        return self.outside.volume() + skewback - self.inside.volume() - hole

    def plane(self) -> float:
        """Return the area on both sides of the axis under the outside face and the skewback, in square metres."""
        near, far = self.inside.radius(self.inside.foot_m), self.outside.radius(self.outside.foot_m)
        rise = self.outside.foot_m - self.inside.foot_m
        return 2 * self.outside.plane() + rise * (near + far)


def hemisphere(diameter: float, stem: float, thickness: float) -> Meridian:
    """Return the meridian of a hemisphere on a stem wall.

    Source: arithmetic.

    Parameters
    ----------
    diameter : float
        Clear inside diameter, above 0 [m]
    stem : float
        Height of the stem wall, 0 or more [m]
    thickness : float
        Thickness of the shell square to its inside face, above 0 [m]

    Returns
    -------
    Meridian
        Both faces, concentric [-]

    Examples
    --------
    >>> dome = hemisphere(6.0, 0.5, 0.2)
    >>> dome.inside.crown_m, dome.outside.radius(0.0)
    (3.5, 3.2)
    """
    line = Circle(diameter / 2, 0.0, 0.0)
    return build(line, stem, thickness, thickness)


def build(line: Line, stem: float, thickness: float, crown: float) -> Meridian:
    """Return the section of a shell over a line from springing to crown, on a stem wall.

    The thickness is measured square to the inside face. From springing to crown it varies with the
    height of the inside face, so that a tapering shell has a level crown and never a dimple there:
    t(z) = thickness + (crown - thickness) (z - springing) / rise. The stem wall keeps ``thickness``.
    Where a tapering shell is pointed, the outside runs on from the crown's own thickness in a circle
    about the inside's centre until it meets the axis.

    Source: arithmetic.

    Parameters
    ----------
    line : Line
        Inside face from springing to crown, its foot at height 0 [-]
    stem : float
        Height of the stem wall, 0 or more [m]
    thickness : float
        Thickness at the springing, above 0 [m]
    crown : float
        Thickness at the crown, above 0, at most ``thickness`` [m]

    Returns
    -------
    Meridian
        Both faces [-]

    Examples
    --------
    >>> shell = build(Parabola(3.0, 2.0), 0.5, 0.3, 0.2)
    >>> round(shell.outside.radius(0.2), 9), round(shell.outside.crown_m, 9)
    (3.3, 2.7)
    """
    foot = line.at(0.0)
    half, rise = foot.radius_m, line.rise_m
    inside: list[Piece] = [Upright(half, 0.0, stem)] if stem > 0 else []
    inside.append(_inner(line, stem))
    low = stem + thickness * foot.normal_z
    outside: list[Piece] = []
    if stem > 0:
        outside.append(Upright(half + thickness, 0.0, stem))
        if low - stem > _TINY:
            outside.append(Arc(thickness, half, stem, stem, low))
    if low - stem <= _TINY:
        low = stem
    if isinstance(line, Circle) and crown == thickness:
        big = line.radius_m + thickness
        top = math.sqrt(big**2 - line.offset_m**2)
        outside.append(_round(big, line.offset_m, stem - line.depth_m, low, stem - line.depth_m + top))
    else:
        end = line.at(1.0)
        outside.append(Curve(line, stem, thickness, crown, low, stem + rise + crown * end.normal_z))
        if isinstance(line, Circle) and line.offset_m < -_TINY:
            big = line.radius_m + crown
            top = stem - line.depth_m + math.sqrt(big**2 - line.offset_m**2)
            begin = outside[-1].high_m
            outside.append(Arc(big, line.offset_m, stem - line.depth_m, begin, top))
    return Meridian(Face(tuple(inside)), Face(tuple(outside)))


def _inner(line: Line, stem: float) -> Piece:
    if isinstance(line, Circle):
        return _round(line.radius_m, line.offset_m, stem - line.depth_m, stem, stem + line.rise_m)
    return Curve(line, stem, 0.0, 0.0, stem, stem + line.rise_m)


def _round(radius: float, offset: float, centre: float, low: float, high: float) -> Piece:
    if abs(offset) <= _TINY:
        return Sphere(radius, centre, low, high)
    return Arc(radius, offset, centre, low, high)


#: The line of each profile, from half the inside width at the springing and the rise.
PROFILES: Final[dict[str, Callable[[float, float], Line]]] = {
    "hemisphere": lambda half, rise: Circle(half, 0.0, 0.0),
    "semicircle": lambda half, rise: Circle(half, 0.0, 0.0),
    "segment": lambda half, rise: Circle(
        (half**2 + rise**2) / (2 * rise), 0.0, (half**2 - rise**2) / (2 * rise)
    ),
    "pointed": lambda half, rise: Circle(
        (half**2 + rise**2) / (2 * half), (half**2 - rise**2) / (2 * half), 0.0
    ),
    "catenary": Catenary.through,
    "parabola": Parabola,
    "ellipse": Ellipse,
}
#: Rise over half the inside width where none is stated; a pointed arch is then equilateral.
USUAL_RISE: Final[dict[str, float]] = {
    "hemisphere": 1.0, "semicircle": 1.0, "segment": 0.5, "pointed": math.sqrt(3),
    "catenary": 1.0, "parabola": 1.0, "ellipse": 1.25,
}  # fmt: skip


def half_width(part: Part) -> float:
    """Return half the clear inside width of a part at its springing: of its diameter or of its span.

    Source: arithmetic.

    Parameters
    ----------
    part : Part
        The part as it is stated [-]

    Returns
    -------
    float
        Half the width [m]

    Examples
    --------
    >>> half_width(Part()), half_width(Part(shape="vault"))
    (3.0, 2.0)
    """
    return (part.inside_span_m if part.shape == "vault" else part.inside_diameter_m) / 2


def rise(part: Part) -> float:
    """Return the rise of a part from its springing to its inside crown.

    A circle's follows from its width. Where none is stated, others take a usual one: half of the half
    width for a segment, 1.25 of it for an ellipse, as much as it for a catenary or a parabola, and
    for a pointed profile that of the equilateral arch.

    Source: typed; common practice, no source, where it is not.

    Parameters
    ----------
    part : Part
        The part as it is stated [-]

    Returns
    -------
    float
        Rise [m]

    Examples
    --------
    >>> rise(Part()), round(rise(Part(shape="vault", profile="pointed")), 5)
    (3.0, 3.4641)
    """
    if part.rise_m is None or part.profile in ("hemisphere", "semicircle"):
        return USUAL_RISE[part.profile] * half_width(part)
    return part.rise_m


def line(part: Part) -> Line:
    """Return the inside face of a part from springing to crown.

    Source: arithmetic.

    Parameters
    ----------
    part : Part
        The part as it is stated, one in which ``faults`` finds nothing [-]

    Returns
    -------
    Line
        The line, its foot at height 0 [-]

    Examples
    --------
    >>> line(Part(profile="parabola", rise_m=2.0)).rise_m
    2.0
    """
    return PROFILES[part.profile](half_width(part), rise(part))


def faults(part: Part, path: str) -> tuple[Problem, ...]:
    """Say what in a part's own sizes makes no shell.

    Source: arithmetic.

    Parameters
    ----------
    part : Part
        The part as it is stated [-]
    path : str
        Where it stands in the project [-]

    Returns
    -------
    tuple of Problem
        None where the shell can be built [-]

    Examples
    --------
    >>> faults(Part(profile="segment", rise_m=4.0), "parts[0]")[0].code
    'rise_too_high'
    """
    found = []
    half, tall = half_width(part), rise(part)
    names = {"part": part.id}
    if part.profile == "segment" and tall > half + _TINY:
        found.append(Problem(f"{path}.rise_m", tall, half, "rise_too_high", dict(names)))
    if part.profile == "pointed" and tall < half - _TINY:
        found.append(Problem(f"{path}.rise_m", tall, half, "rise_too_low", dict(names)))
    crown = part.crown_thickness_m
    if crown is not None and crown > part.thickness_m:
        limit = part.thickness_m
        where = f"{path}.crown_thickness_m"
        found.append(Problem(where, crown, limit, "crown_thicker_than_foot", dict(names)))
    elif crown is not None and part.thickness_m - crown >= tall - _TINY:
        # The thickness shrinks faster than the inside rises, so the outside face sinks towards the crown and holds water.
        limit = part.thickness_m - tall
        found.append(Problem(f"{path}.crown_thickness_m", crown, limit, "crown_sinks", dict(names)))
    if part.shape == "dome" and part.crown_opening_m >= 2 * half - _TINY:
        where = f"{path}.crown_opening_m"
        found.append(
            Problem(where, part.crown_opening_m, 2 * half, "crown_opening_too_wide", dict(names))
        )
    return tuple(found)


def meridian(part: Part) -> Meridian:
    """Return the section of a part, for measuring and for drawing: of a vault, half its cross-section.

    Source: arithmetic.

    Parameters
    ----------
    part : Part
        The part as it is stated, one in which ``faults`` finds nothing [-]

    Returns
    -------
    Meridian
        Inside and outside face [-]

    Raises
    ------
    KeyError
        The profile is not in PROFILES (reading a project refuses it earlier).

    Examples
    --------
    >>> meridian(Part()).outside.crown_m
    3.7
    """
    crown = part.thickness_m if part.crown_thickness_m is None else part.crown_thickness_m
    hole = part.crown_opening_m / 2 if part.shape == "dome" else 0.0
    return _section(
        part.profile, half_width(part), rise(part), part.stem_height_m, part.thickness_m, crown, hole
    )


@lru_cache(maxsize=512)
def _section(
    profile: str, half: float, tall: float, stem: float, thickness: float, crown: float, hole: float
) -> Meridian:
    """Build a section once for the rooms and sheets that ask for it; it follows from its sizes alone."""
    # A part that `faults` refuses may still be asked for, to name a place beside it.
    if (profile == "segment" and tall > half) or (profile == "pointed" and tall < half):
        tall = half
    hole = min(hole, half * 0.999)
    whole = build(PROFILES[profile](half, tall), stem, thickness, crown)
    if hole <= 0:
        return whole
    return Meridian(whole.inside.below(hole), whole.outside.below(hole), hole)
