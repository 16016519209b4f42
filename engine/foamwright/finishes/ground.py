"""What a part stands on: the line that its base follows, and the floor within it.

Every shape that can be built answers here with the same few numbers; what lies above knows no shape.
"""

import math

from attrs import frozen

from foamwright.project.model import Part
from foamwright.shape import PartShape, meridian, outline


@frozen
class Plan:
    """The foot of a part on the ground.

    Attributes
    ----------
    runs_m : tuple of float
        Lengths of the centre line of the shell at its foot; one where it closes [m]
    closed : bool
        Whether the one run comes back to its beginning [-]
    enclosed_m2 : float
        Area within the centre line, 0 where it does not close [m2]
    corner : float
        What a strip of width w along the line gains at its outside edge, over w squared: pi for a
        circle, 4 for a rectangle, 0 for open runs [-]
    floor_m2 : float
        Clear floor inside [m2]
    footprint_m2 : float
        Outside plan [m2]
    thickness_m : float
        Thickness of the shell at its foot [m]
    """

    runs_m: tuple[float, ...]
    closed: bool
    enclosed_m2: float
    corner: float
    floor_m2: float
    footprint_m2: float
    thickness_m: float

    @property
    def length_m(self) -> float:
        """Length of the centre line [m]."""
        return sum(self.runs_m)

    def strip(self, width: float) -> float:
        """Return the area of a strip along the centre line, half of it on either side.

        Source: arithmetic (the theorem of Pappus in the plane); where the strip is so wide that it
        fills the inside, the inside is counted once.

        Parameters
        ----------
        width : float
            Width of the strip [m]

        Returns
        -------
        float
            Area [m2]

        Examples
        --------
        >>> from foamwright.shape import measure_part
        >>> round(plan(Part(), measure_part(Part())[0]).strip(0.5), 4) == round(2 * math.pi * 3.1 * 0.5, 4)
        True
        """
        if not self.closed:
            return self.length_m * width
        return self.outline(width) - self.inside(width)

    def outline(self, width: float) -> float:
        """Return the whole plan area out to the outside edge of such a strip.

        Source: arithmetic (Steiner's formula).

        Parameters
        ----------
        width : float
            Width of the strip [m]

        Returns
        -------
        float
            Area [m2]

        Examples
        --------
        >>> round(Plan((4.0,) * 4, True, 16.0, 4.0, 9.0, 25.0, 1.0).outline(2.0), 9)
        36.0
        """
        if not self.closed:
            return max(self.footprint_m2, self.floor_m2 + self.strip(width))
        return self.enclosed_m2 + self.length_m * width / 2 + self.corner * width**2 / 4

    def inside(self, width: float) -> float:
        """Return the plan area that such a strip leaves free inside.

        Source: arithmetic; nothing is left where the strip is wider than the line's own width.

        Parameters
        ----------
        width : float
            Width of the strip [m]

        Returns
        -------
        float
            Area [m2]

        Examples
        --------
        >>> round(Plan((4.0,) * 4, True, 16.0, 4.0, 9.0, 25.0, 1.0).inside(2.0), 9)
        4.0
        """
        if not self.closed or width * self.length_m >= 4 * self.enclosed_m2:
            return 0.0
        left = self.enclosed_m2 - self.length_m * width / 2 + self.corner * width**2 / 4
        return max(0.0, left)


def stands_on_base(part: Part) -> bool:
    """Say whether a part stands on a base; fills and blocks to order do not.

    Source: arithmetic.

    Parameters
    ----------
    part : Part
        The part as stated [-]

    Returns
    -------
    bool
        Whether it does [-]

    Examples
    --------
    >>> stands_on_base(Part(shape="wall")), stands_on_base(Part(shape="fill"))
    (True, False)
    """
    return part.shape not in ("fill", "blocks")


def plan(part: Part, shape: PartShape) -> Plan:
    """Return what a part stands on.

    Source: arithmetic. A dome stands on a circle; a vault on a rectangle, or on its two sides where
    an end is open (and on the closed end, if there is one); a wall on the line of its middle.

    Parameters
    ----------
    part : Part
        The part as stated [-]
    shape : PartShape
        The same, measured [-]

    Returns
    -------
    Plan
        Centre line, floor and footprint [m, m2]

    Examples
    --------
    >>> from foamwright.shape import measure_part
    >>> round(plan(Part(), measure_part(Part())[0]).length_m, 4) == round(2 * math.pi * 3.1, 4)
    True
    """
    if part.shape == "wall":
        line = outline(part)
        return Plan(
            (line.middle_m,), line.closed, line.enclosed_m2, line.corner,
            shape.floor_area_m2, shape.footprint_m2, part.thickness_m,
        )  # fmt: skip
    shell = meridian(part)
    near, far = shell.inside.radius(shell.inside.foot_m), shell.outside.radius(shell.outside.foot_m)
    middle, thickness = (near + far) / 2, far - near
    if part.shape == "dome":
        return Plan(
            (2 * math.pi * middle,), True, math.pi * middle**2, math.pi,
            shape.floor_area_m2, shape.footprint_m2, thickness,
        )  # fmt: skip
    end = part.thickness_m if part.end_thickness_m is None else part.end_thickness_m
    if part.ends == "both":
        length = part.length_m + end
        return Plan(
            (2 * (2 * middle + length),), True, 2 * middle * length, 4.0,
            shape.floor_area_m2, shape.footprint_m2, thickness,
        )  # fmt: skip
    length = part.length_m + (end / 2 if part.ends == "one" else 0.0)
    runs = (2 * length + 2 * middle,) if part.ends == "one" else (length, length)
    return Plan(runs, False, 0.0, 0.0, shape.floor_area_m2, shape.footprint_m2, thickness)
