"""Meridians: the curves that, turned about the vertical axis, make the faces of a shell.

A face is a chain of pieces from its foot to its crown. A new profile brings, where the pieces here
do not serve, a new Piece, and one builder in PROFILES; nothing that measures or draws knows which
profile it has before it.
"""

import math
from collections.abc import Callable
from typing import Final, Protocol

from attrs import field, frozen

from foamwright.project.model import Part


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


@frozen
class Meridian:
    """The section of a shell of revolution on one side of its axis.

    Attributes
    ----------
    inside : Face
        Inside face, from the floor to the inside crown [-]
    outside : Face
        Outside face: the parallel curve at the shell's thickness. Where the inside face leans at the
        foot, the outside one begins higher, and a skewback cut square to the inside joins them [-]
    """

    inside: Face
    outside: Face

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
        if height >= foot:
            return self.outside.radius(height)
        near, far = self.inside.radius(low), self.outside.radius(foot)
        return near + (far - near) * (height - low) / (foot - low)

    def volume(self) -> float:
        """Return the volume of the whole shell, nothing taken out, in cubic metres."""
        near, far = self.inside.radius(self.inside.foot_m), self.outside.radius(self.outside.foot_m)
        rise = self.outside.foot_m - self.inside.foot_m
        skewback = math.pi * rise / 3 * (near * near + near * far + far * far)
        return self.outside.volume() + skewback - self.inside.volume()


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

    def face(radius: float) -> Face:
        cap = Sphere(radius, stem, stem, stem + radius)
        return Face((Upright(radius, 0.0, stem), cap) if stem > 0 else (cap,))

    return Meridian(face(diameter / 2), face(diameter / 2 + thickness))


#: How each profile of the project is built from its part.
PROFILES: Final[dict[str, Callable[[Part], Meridian]]] = {
    "hemisphere": lambda part: hemisphere(
        part.inside_diameter_m, part.stem_height_m, part.thickness_m
    ),
}


def meridian(part: Part) -> Meridian:
    """Return the section of a part, for measuring and for drawing.

    Source: arithmetic.

    Parameters
    ----------
    part : Part
        The part as it is stated [-]

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
    return PROFILES[part.profile](part)
