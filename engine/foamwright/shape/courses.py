"""Courses: how a shell is laid in rings or rows of blocks, each bed square to the inside face.

What stands above the springing is shared out along its outside, so that every block of it comes out of
the mould at one height; a stem wall and an end wall likewise over their heights. A plug closes the crown
of a dome, a row of keys that of a vault. Upright joints of a dome run through its axis.
"""

import math
from bisect import bisect_right
from functools import lru_cache
from typing import Any, Final, cast

from attrs import evolve, frozen

from foamwright.project.model import Block, Part
from foamwright.project.whole import ceiling
from foamwright.shape.curves import Circle, Line
from foamwright.shape.meridian import Arc, Face, Meridian, line, meridian
from foamwright.shape.openings import Cut, azimuths, cut
from foamwright.shape.quadrature import gauss_legendre
from foamwright.shape.vault import end_thickness, spots, walled

#: Lengths below this are rounding, not geometry.
_TINY: Final = 1e-9
#: Stretches of equal parameter into which the outside is divided to find a length on it.
_STRETCHES: Final = 32
#: Nodes of the rules for lengths, and for the section of a course, of which no panel is longer than this share of the line.
_LENGTH_ORDER: Final = 4
_ORDER: Final = 6
_PANEL: Final = 0.125
#: A ring has at least so many blocks.
_LEAST_ROUND: Final = 3
#: What is left of a block is laid only where it is longer than this share of it; a narrower gap is closed with mortar [-].
SLIVER: Final = 0.1


@frozen
class Joint:
    """A bed of the section, square to the inside face: from inside to outside.

    Attributes
    ----------
    inside_r : float
        Distance of its inside edge from the axis [m]
    inside_z : float
        Height of its inside edge above the floor [m]
    outside_r : float
        Distance of its outside edge from the axis [m]
    outside_z : float
        Height of its outside edge above the floor [m]
    lean_deg : float
        How far it leans inward from level [deg]
    """

    inside_r: float
    inside_z: float
    outside_r: float
    outside_z: float
    lean_deg: float

    @property
    def thickness_m(self) -> float:
        """From inside to outside edge [m]."""
        return math.hypot(self.outside_r - self.inside_r, self.outside_z - self.inside_z)


@frozen
class Row:
    """The section of one course on one side of the axis.

    Attributes
    ----------
    kind : str
        ``stem``; ``springer``, the wedge between a level stem and a leaning bed; ``ring``; ``rim``, the last course under an
        opening at the crown; ``plug`` or ``key``, which close the crown [-]
    low : Joint
        Its bed [-]
    high : Joint
        The bed above it; at the crown the axis, or the edge of the opening there [-]
    inside_m : float
        Length on the inside face [m]
    outside_m : float
        Length on the outside face; of a plug or a key, half of what it spans [m]
    section_m2 : float
        Area of the section [m2]
    swept_m3 : float
        Volume that it sweeps per radian of turn [m3]
    """

    kind: str
    low: Joint
    high: Joint
    inside_m: float
    outside_m: float
    section_m2: float
    swept_m3: float


@frozen
class Course:
    """One course of one part, openings taken into account.

    Heights, radii, arms and leans are those of the inside edge of its bed; that of its upper edge stands with the course above it.

    Attributes
    ----------
    part : str
        Name of the part in the project [-]
    element : str
        ``shell``, or ``end_a`` or ``end_b`` of a vault, or ``wall`` [-]
    course : int
        Number of the course within its element, the lowest is 1 [-]
    kind : str
        ``stem``, ``springer``, ``ring``, ``rim``, ``plug``, ``key``, ``wall`` or ``gable`` [-]
    height_m : float
        Height of the bed above the floor [m]
    radius_m : float
        Distance from the axis of a dome or round wall, or from the upright middle plane of a vault; 0 of a straight wall [m]
    arm_m : float or None
        Length of the guide arm from its pin to the edge of the bed; absent for end walls and straight walls [m]
    arm_angle_deg : float or None
        How far the arm rises from level [deg]
    pin_height_m : float or None
        Height of the arm's pin above the floor; it is always on the axis, or in the middle plane [m]
    bed_angle_deg : float
        How far the bed leans inward from level [deg]
    top_height_m : float
        Height of the upper inside edge above the floor [m]
    top_radius_m : float
        Distance of the upper inside edge from the axis [m]
    outside_height_m : float
        Height of the outside edge of the bed [m]
    outside_radius_m : float
        Distance of the outside edge of the bed from the axis [m]
    outside_top_height_m : float
        Height of the upper outside edge [m]
    outside_top_radius_m : float
        Distance of the upper outside edge from the axis [m]
    around : int
        Blocks of the course if no opening met it [-]
    count : int
        Blocks laid: whole ones, and cut ones as one each [-]
    whole : int
        Blocks that no opening and no end of a row cuts [-]
    cut : int
        Blocks that an opening or the end of a row cuts [-]
    left_out : int
        Blocks that an opening takes whole, or all but a tenth [-]
    cut_shares : tuple of float
        Of each cut block, the share of its length that is needed [-]
    height_outside_m : float
        Height of a block on its outside face; across a plug or a key [m]
    height_inside_m : float
        Height of a block on its inside face; across a plug or a key [m]
    thickness_m : float
        Thickness of the shell at the bed [m]
    taper_plan_deg : float
        Angle between the two upright joints of a block [deg]
    taper_section_deg : float
        Angle between the bed and the bed above it [deg]
    taper_outside_low_m : float
        Width of a block on its outside face at the bed [m]
    taper_outside_high_m : float
        The same at its upper edge [m]
    taper_inside_low_m : float
        Width of a block on its inside face at the bed [m]
    taper_inside_high_m : float
        The same at its upper edge [m]
    fits : bool
        Whether a block comes out of the mould; where not, it is cast in a form of its own [-]
    volume_m3 : float
        The whole course, its joints in it, no opening taken out [m3]
    joint_m3 : float
        Its bed joint and upright joints [m3]
    length_m : float or None
        Length at its bed along the middle of a wall, posts left out; absent for shells and their ends [m]
    offcuts : int
        Cut blocks among them that come from the rest of another block; known once all parts are laid [-]
    """

    part: str
    element: str
    course: int
    kind: str
    height_m: float
    radius_m: float
    arm_m: float | None
    arm_angle_deg: float | None
    pin_height_m: float | None
    bed_angle_deg: float
    top_height_m: float
    top_radius_m: float
    outside_height_m: float
    outside_radius_m: float
    outside_top_height_m: float
    outside_top_radius_m: float
    around: int
    count: int
    whole: int
    cut: int
    left_out: int
    cut_shares: tuple[float, ...]
    height_outside_m: float
    height_inside_m: float
    thickness_m: float
    taper_plan_deg: float
    taper_section_deg: float
    taper_outside_low_m: float
    taper_outside_high_m: float
    taper_inside_low_m: float
    taper_inside_high_m: float
    fits: bool
    volume_m3: float
    joint_m3: float
    length_m: float | None = None
    offcuts: int = 0


class _Skin:
    """The shell above its springing, by the share of its line."""

    def __init__(self, inner: Line, stem: float, foot: float, crown: float) -> None:
        self.line, self.stem, self.foot = inner, stem, foot
        self.swing = (crown - foot) / inner.rise_m

    def joint(self, share: float) -> Joint:
        """Return the bed at a share of the line."""
        p = self.line.at(share)
        away = self.foot + self.swing * p.height_m
        near = max(0.0, p.radius_m)
        return Joint(
            near,
            self.stem + p.height_m,
            near + away * p.normal_r,
            self.stem + p.height_m + away * p.normal_z,
            math.degrees(math.atan2(p.normal_z, p.normal_r)),
        )

    def speed(self, share: float) -> float:
        """Return the length of the outside per unit of the share."""
        p = self.line.at(share)
        away = self.foot + self.swing * p.height_m
        return p.speed_m * math.hypot(1 + away * p.bend, self.swing * p.normal_r)

    def length(self, low: float, high: float) -> float:
        """Return the length of the outside between two near shares."""
        half, middle = (high - low) / 2, (high + low) / 2
        return half * sum(w * self.speed(middle + half * x) for x, w in gauss_legendre(_LENGTH_ORDER))

    def lengths(self, end: float) -> list[float]:
        """Return the length of the outside up to equal steps of the share."""
        out = [0.0]
        for i in range(_STRETCHES):
            out.append(out[-1] + self.length(end * i / _STRETCHES, end * (i + 1) / _STRETCHES))
        return out

    def share(self, marks: list[float], end: float, length: float) -> float:
        """Return the share at a length of the outside: between two steps, then one of Newton's."""
        at = max(0, min(bisect_right(marks, length) - 1, _STRETCHES - 1))
        begin, step = end * at / _STRETCHES, end / _STRETCHES
        share = begin + step * (length - marks[at]) / (marks[at + 1] - marks[at])
        share += (length - marks[at] - self.length(begin, share)) / self.speed(share)
        return max(0.0, min(end, share))

    def between(self, low: float, high: float) -> tuple[float, float, float, float]:
        """Return inside length, outside length, section and what it sweeps per radian between two shares.

        Across the thickness the integrals have closed forms: an element of the section at a distance q from the inside face is
        as large as ``(1 + q bend) dq ds`` and ``radius + q normal_r`` from the axis.
        """
        count = max(1, math.ceil((high - low) / _PANEL))
        inside = outside = section = swept = 0.0
        for i in range(count):
            a, b = low + (high - low) * i / count, low + (high - low) * (i + 1) / count
            half, middle = (b - a) / 2, (a + b) / 2
            for node, weight in gauss_legendre(_ORDER):
                p = self.line.at(middle + half * node)
                t = self.foot + self.swing * p.height_m
                size = half * weight * p.speed_m
                inside += size
                outside += size * math.hypot(1 + t * p.bend, self.swing * p.normal_r)
                section += size * (t + p.bend * t * t / 2)
                swept += size * (
                    p.radius_m * t
                    + (p.normal_r + p.bend * p.radius_m) * t * t / 2
                    + p.bend * p.normal_r * t**3 / 3
                )
        return inside, outside, section, swept


def _level(radius: float, thickness: float, height: float) -> Joint:
    return Joint(radius, height, radius + thickness, height, 0.0)


def _stem(radius: float, thickness: float, tall: float, pitch: float) -> list[Row]:
    """Share a stem wall out in courses of one height."""
    if tall <= _TINY:
        return []
    count = max(1, ceiling(tall / pitch))
    each, section = tall / count, thickness * tall / count
    return [
        Row(
            "stem",
            _level(radius, thickness, each * k),
            _level(radius, thickness, each * (k + 1)),
            each,
            each,
            section,
            section * (radius + thickness / 2),
        )
        for k in range(count)
    ]


def _springer(foot: Joint, thickness: float) -> Row:
    """The wedge between the level top of a stem wall and a bed that leans; its outside is a circle about the inner edge."""
    near, low = foot.inside_r, foot.inside_z
    turn = math.radians(foot.lean_deg)
    section = thickness**2 * turn / 2
    swept = near * section + thickness**3 * math.sin(turn) / 3
    return Row("springer", _level(near, thickness, low), foot, 0.0, thickness * turn, section, swept)


def _slice(face: Face, low: float) -> tuple[float, float, float]:
    """Length, plane area and volume of a face above a height."""
    pieces: list[Any] = [
        piece if piece.low_m >= low else evolve(cast(Any, piece), low_m=low)
        for piece in face.pieces
        if piece.high_m > low + _TINY
    ]
    upper = Face(tuple(pieces))
    return (upper.length_m, upper.plane(), upper.volume()) if pieces else (0.0, 0.0, 0.0)


def _beyond_rim(shell: Meridian, edge: Joint) -> tuple[float, float, float]:
    """What lies outside an upright cut at the crown and above the bed through its inside edge: length, section, swept."""
    hole, top, bottom = shell.opening_m, shell.outside.crown_m, edge.inside_z
    length, plane, volume = _slice(shell.outside, edge.outside_z)
    far, step = edge.outside_r, edge.outside_z - bottom
    section = plane + (hole + far) / 2 * step - hole * (top - bottom)
    round_ = volume / math.pi + step / 3 * (hole**2 + hole * far + far**2) - hole**2 * (top - bottom)
    return length, section, round_ / 2


def _beyond_point(inner: Line, top: Joint, crown: float) -> tuple[float, float, float]:
    """What lies between the last bed of a pointed shell and its axis: length of the outside, section, swept."""
    if not isinstance(inner, Circle) or top.outside_r <= _TINY:
        return 0.0, 0.0, 0.0
    big = inner.radius_m + crown
    centre = top.inside_z - math.sqrt(inner.radius_m**2 - inner.offset_m**2)
    arc = Arc(big, inner.offset_m, centre, top.outside_z, centre + math.sqrt(big**2 - inner.offset_m**2))
    step = top.outside_z - top.inside_z
    section = top.outside_r * step / 2 + arc.plane()
    swept = top.outside_r**2 * step / 6 + arc.volume() / (2 * math.pi)
    return arc.length_m, section, swept


def rows(part: Part, block: Block) -> tuple[Row, ...]:
    """Return the sections of all courses of a shell, from its foot to its crown.

    The stem is shared out evenly over its height, what stands above it over its outside length, in whole courses that are never
    higher than the mould. At the crown stays a plug as wide on its outside as the mould's lesser side, or of a vault a row of keys as
    wide as the mould is high; a pointed crown may need a wider one. An open crown has none.

    Source: arithmetic.

    Parameters
    ----------
    part : Part
        A dome or a vault in which `faults` finds nothing [m]
    block : Block
        The mould, and the thickness of the joints [m]

    Returns
    -------
    tuple of Row
        The courses, the lowest first [-]

    Examples
    --------
    >>> made = rows(Part(), Block())
    >>> [row.kind for row in made[:3]], made[-1].kind, len(made)
    (['stem', 'stem', 'ring'], 'plug', 19)
    """
    crown = part.thickness_m if part.crown_thickness_m is None else part.crown_thickness_m
    vault = part.shape == "vault"
    lesser = block.height_m if vault else min(block.length_m, block.height_m)
    hole = 0.0 if vault else part.crown_opening_m
    return _rows(
        cast(Any, line(part)), part.stem_height_m, part.thickness_m, crown, hole,
        None if hole <= 0 else meridian(part), vault, lesser, block.height_m + block.joint_m, block.joint_m,
    )  # fmt: skip


@lru_cache(maxsize=512)
def _rows(
    inner: Any, stem: float, foot: float, crown: float, hole: float, shell: Meridian | None,
    vault: bool, lesser: float, pitch: float, joint: float,
) -> tuple[Row, ...]:  # fmt: skip
    """Lay out one section once for all that ask for it; it follows from its sizes alone."""
    skin = _Skin(inner, stem, foot, crown)
    springing = skin.joint(0.0)
    out = _stem(springing.inside_r, foot, stem, pitch)
    if stem > _TINY and springing.lean_deg > 1e-6:
        out.append(_springer(springing, foot))
    if shell is not None:
        end = inner.share(shell.inside.crown_m - stem)
        more = _beyond_rim(shell, skin.joint(end))
    else:
        end = 1.0
        more = _beyond_point(inner, skin.joint(1.0), crown)
    marks = skin.lengths(end)
    whole = marks[-1]
    if shell is not None:
        count = max(1, ceiling(whole / pitch))
        places = [whole * k / count for k in range(count)]
        last = "rim"
    else:
        half = max(lesser / 2, more[0] + lesser / 4) + joint / 2
        left = whole + more[0] - half
        count = max(0, ceiling(left / pitch)) if left > _TINY else 0
        places = [left * k / count for k in range(count)] + [max(0.0, left)]
        last = "key" if vault else "plug"
    shares = [skin.share(marks, end, place) for place in places] + [end]
    beds = [skin.joint(share) for share in shares]
    beds[0] = springing
    for k in range(len(places)):
        inside, outside, section, swept = skin.between(shares[k], shares[k + 1])
        final = k == len(places) - 1
        if final:
            outside, section, swept = outside + more[0], section + more[1], swept + more[2]
        out.append(Row(last if final else "ring", beds[k], beds[k + 1], inside, outside, section, swept))
    return tuple(out)


@frozen
class Laid:
    """What the openings and the ends of a row leave of a course.

    Attributes
    ----------
    whole : int
        Whole blocks [-]
    left_out : int
        Blocks that are left out [-]
    shares : tuple of float
        Of each cut block, the share of its length that is needed [-]
    """

    whole: int
    left_out: int
    shares: tuple[float, ...]


def place(
    count: int, shift: float, ring: bool, gaps: list[tuple[float, float, float]], ends_cut: bool = False
) -> Laid:
    """Lay the blocks of one course beside each other and see what its gaps do to each.

    Source: arithmetic. Lengths are counted in blocks.

    Parameters
    ----------
    count : int
        Blocks that the course takes where nothing is left out [-]
    shift : float
        Where the first upright joint stands; a row that is not a ring then begins and ends with a part of a block [-]
    ring : bool
        Whether the course closes on itself [-]
    gaps : list of (float, float, float)
        Of each opening its middle, half of what it touches, and half of what it takes over the full height [-]
    ends_cut : bool
        Whether the blocks at both ends of a row are cut to a slope [-]

    Returns
    -------
    Laid
        Whole blocks, those left out, and the cut ones [-]

    Examples
    --------
    >>> place(10, 0.0, True, [(2.0, 1.4, 1.2)])
    Laid(whole=6, left_out=2, shares=(0.8, 0.8))
    >>> place(4, 0.5, False, [])
    Laid(whole=3, left_out=0, shares=(0.5, 0.5))
    """
    kept: dict[int, float] = {}
    total = count
    # A block of number i reaches from i to i + 1; a shifted row has a part of a block before and behind.
    first = -1 if shift > 0 and not ring else 0
    if not ring:
        total = count - first
        if first < 0:
            kept[-1], kept[count - 1] = shift, 1 - shift
        elif ends_cut:
            kept[0] = kept[count - 1] = 1.0
    for middle, touched, taken in gaps:
        at = middle - shift
        low, high = math.floor(at - touched + _TINY), math.ceil(at + touched - _TINY)
        if ring and high - low >= count:
            low, high = 0, count
        for i in range(low, high):
            number = i % count if ring else i
            if not ring and not first <= i < count:
                continue
            gone = max(0.0, min(i + 1.0, at + taken) - max(float(i), at - taken))
            kept[number] = kept.get(number, 1.0) - gone
    left_out = sum(share < SLIVER for share in kept.values())
    shares = tuple(round(share, 9) for share in kept.values() if share >= SLIVER)
    return Laid(total - len(kept), left_out, shares)


def band(section: Cut, low: float, high: float) -> tuple[float, float, float]:
    """Return the greatest half width of an opening between two heights, where that is, and its least if it spans both.

    Source: arithmetic.

    Parameters
    ----------
    section : Cut
        The opening's cross-section [m]
    low : float
        Lower height [m]
    high : float
        Upper height [m]

    Returns
    -------
    tuple of (float, float, float)
        Greatest half width, the height where that is, and the least half width; 0 where the opening does not span both heights [m]

    Examples
    --------
    >>> from foamwright.project.model import Opening
    >>> band(cut(Opening(form="arched", width_m=1.0, height_m=2.0)), 1.0, 1.5)
    (0.5, 1.5, 0.5)
    """
    bottom, top = max(section.low_m, low), min(section.high_m, high)
    if top <= bottom + 1e-6:
        return 0.0, bottom, 0.0
    widest = min(max(section.centre_m, bottom), top)
    least = 0.0
    if section.low_m <= low + 1e-6 and section.high_m >= high - 1e-6:
        least = min(section.half_width(max(low, section.low_m)), section.half_width(min(high, section.high_m)))
    return section.half_width(widest), widest, least


def _along(row: Row, height: float) -> float:
    """Return about how far the inside of a course stands from the axis at a height."""
    low, high = row.low, row.high
    step = high.inside_z - low.inside_z
    if step <= _TINY:
        return low.inside_r
    share = min(1.0, max(0.0, (height - low.inside_z) / step))
    return low.inside_r + (high.inside_r - low.inside_r) * share


def turned(half: float, radius: float) -> float:
    """Return half the angle that an opening takes of a circle.

    Source: arithmetic.

    Parameters
    ----------
    half : float
        Half the opening's width [m]
    radius : float
        Radius of the circle [m]

    Returns
    -------
    float
        Angle, at most a quarter turn [rad]

    Examples
    --------
    >>> round(turned(0.5, 1.0), 4)
    0.5236
    """
    return math.asin(half / radius) if half < radius else math.pi / 2


def _pin(part: Part) -> float:
    """Height of the guide arm's pin above the floor: the centre of a circle where it is not under ground, else the springing."""
    inner = line(part)
    centred = isinstance(inner, Circle) and abs(inner.offset_m) <= _TINY
    if centred and cast(Circle, inner).depth_m <= part.stem_height_m:
        return part.stem_height_m - cast(Circle, inner).depth_m
    return part.stem_height_m


def one_length(part: Part) -> bool:
    """Say whether the guide arm keeps its length above the springing: where its pin is the centre of the profile.

    Source: arithmetic.

    Parameters
    ----------
    part : Part
        A dome or a vault [-]

    Returns
    -------
    bool
        True for a circle whose centre is on the axis and not under the floor [-]

    Examples
    --------
    >>> one_length(Part()), one_length(Part(profile="parabola")), one_length(Part(profile="segment"))
    (True, False, False)
    """
    inner = line(part)
    centred = isinstance(inner, Circle) and abs(inner.offset_m) <= _TINY
    return centred and cast(Circle, inner).depth_m <= part.stem_height_m


def lay(part: Part, block: Block) -> tuple[Course, ...]:
    """Lay a dome or a vault in courses.

    Blocks are sawn to shape from the mould's full block, so that every joint is as thick inside as outside: the outside face is the larger
    and must come out of the mould. Upright joints of odd courses begin at azimuth 0, or with a whole block at end a; those of
    even ones stand half a block further. A block that an opening only touches is cut and counts as one; one that it takes whole is left out.

    Source: arithmetic (Pappus for the volumes). What an opening takes of a block is seen at the heights of the course: the least width for what is left out, the
    greatest for what is cut.

    Parameters
    ----------
    part : Part
        A dome or a vault in which nothing is at fault [m]
    block : Block
        The mould, and the thickness of the joints [m]

    Returns
    -------
    tuple of Course
        The courses of the shell, then those of end walls, the lowest first [-]

    Examples
    --------
    >>> made = lay(Part(), Block())
    >>> made[2].arm_m, round(made[5].bed_angle_deg, 3) == round(made[5].arm_angle_deg, 3)
    (3.0, True)
    >>> made[-1].kind, made[-1].count
    ('plug', 1)
    """
    return _lay(part, Block(block.length_m, block.height_m, block.joint_m))


@lru_cache(maxsize=512)
def _lay(part: Part, block: Block) -> tuple[Course, ...]:
    """Lay a part once for the rooms and sheets that ask for it; it follows from the part and the mould alone."""
    found = _shell(part, block)
    if part.shape == "vault":
        for wall in walled(part):
            found += _end(part, block, wall)
    return tuple(found)


def _placed(part: Part, wall: str) -> list[tuple[Cut, float]]:
    """Return every opening of a wall with the place of its middle: radians of a dome, metres of a vault."""
    if wall == "around":
        return [
            (section, math.radians(angle))
            for opening in part.openings
            for section in (cut(opening),)
            for angle in azimuths(opening)
        ]
    return [
        (cut(opening), spot.along_m)
        for opening in part.openings
        for spot in spots(part, opening)
        if spot.wall == wall
    ]


def _shell(part: Part, block: Block) -> list[Course]:
    """The courses of the shell itself."""
    vault, joint = part.shape == "vault", block.joint_m
    pin, steady = _pin(part), part.stem_height_m
    sides = [_placed(part, wall) for wall in (("side_a", "side_b") if vault else ("around",))]
    out: list[Course] = []
    for number, row in enumerate(rows(part, block), 1):
        low, high = row.low, row.high
        far = max(low.outside_r, high.outside_r)
        closing = row.kind in ("plug", "key")
        if vault:
            run = part.length_m
            around = ceiling(run / (block.length_m + joint))
        elif row.kind == "plug":
            run, around = 2 * math.pi * far, 1
        else:
            run = 2 * math.pi * far
            around = max(_LEAST_ROUND, ceiling(run / (block.length_m + joint)))
        bottom, top = low.inside_z, max(high.inside_z, high.outside_z)
        laid = [_of_row(row, side, around, number, vault, run, bottom, top) for side in sides]
        if vault and row.kind == "key":
            laid = laid[:1]
        total = around * len(laid)
        shares = tuple(share for one in laid for share in one.shares)
        whole, left_out = sum(one.whole for one in laid), sum(one.left_out for one in laid)
        in_stem = low.inside_z < steady - _TINY
        at = low.inside_z if in_stem else pin
        arm = math.hypot(low.inside_r, low.inside_z - at)
        volume = 2 * part.length_m * row.section_m2 if vault else 2 * math.pi * row.swept_m3
        both = 2 if closing else 1
        widths = _widths(row, vault, run, around, joint, closing)
        tall = both * row.outside_m - joint
        room = min(block.length_m, block.height_m) if row.kind == "plug" else block.height_m
        out.append(
            Course(
                part=part.id,
                element="shell",
                course=number,
                kind=row.kind,
                height_m=low.inside_z,
                radius_m=low.inside_r,
                arm_m=arm,
                arm_angle_deg=math.degrees(math.atan2(low.inside_z - at, low.inside_r)) if arm > 0 else 0.0,
                pin_height_m=at,
                bed_angle_deg=low.lean_deg,
                top_height_m=high.inside_z,
                top_radius_m=high.inside_r,
                outside_height_m=low.outside_z,
                outside_radius_m=low.outside_r,
                outside_top_height_m=high.outside_z,
                outside_top_radius_m=high.outside_r,
                around=total,
                count=whole + len(shares),
                whole=whole,
                cut=len(shares),
                left_out=left_out,
                cut_shares=shares,
                height_outside_m=tall,
                height_inside_m=max(0.0, both * row.inside_m - joint),
                thickness_m=round(low.thickness_m, 12),
                taper_plan_deg=0.0 if vault or closing else 360 / around,
                taper_section_deg=2 * (90 - low.lean_deg) if closing else high.lean_deg - low.lean_deg,
                taper_outside_low_m=widths[0],
                taper_outside_high_m=widths[1],
                taper_inside_low_m=widths[2],
                taper_inside_high_m=widths[3],
                fits=tall <= room + 1e-6,
                volume_m3=volume,
                joint_m3=min(volume, _joints(row, vault, part.length_m, around, joint)),
            )
        )
    return out


def _widths(
    row: Row, vault: bool, run: float, around: int, joint: float, closing: bool
) -> tuple[float, float, float, float]:
    """Widths of a block outside and inside, at its bed and at its upper edge, its joint taken off; of a plug across it."""
    low, high = row.low, row.high
    if vault:
        each = run / around - joint
        return each, each, each, each
    if closing:
        out, near = 2 * low.outside_r - joint, max(0.0, 2 * low.inside_r - joint)
        return out, out, near, near
    turn = 2 * math.pi / around
    radii = (low.outside_r, high.outside_r, low.inside_r, high.inside_r)
    a, b, c, d = (max(0.0, turn * radius - joint) for radius in radii)
    return a, b, c, d


def _joints(row: Row, vault: bool, length: float, around: int, joint: float) -> float:
    """Volume of the bed joint under a course and of its upright joints: slabs of the joint's thickness."""
    if joint <= 0:
        return 0.0
    low, thick = row.low, row.low.thickness_m
    lean = math.radians(low.lean_deg)
    out, up = math.cos(lean), math.sin(lean)
    if row.kind == "springer":
        # Where the wedge is thinner than the joint, the joint is all there is.
        turn = math.radians(row.high.lean_deg)
        thin = min(thick, joint / math.tan(turn))
        bed = joint * (thick - thin) + math.tan(turn) * thin**2 / 2
        swept = bed * low.inside_r + joint * (thick**2 - thin**2) / 2 + math.tan(turn) * thin**3 / 3
    else:
        bed = joint * thick
        swept = joint * (low.inside_r * thick + out * thick**2 / 2) - up * thick * joint**2 / 2
    upright = around * joint * max(0.0, row.section_m2 - bed)
    if vault:
        return 2 * length * bed + 2 * upright
    return 2 * math.pi * swept + (0.0 if row.kind == "plug" else upright)


def _of_row(
    row: Row, side: list[tuple[Cut, float]], around: int, number: int, vault: bool, run: float, bottom: float, top: float
) -> Laid:  # fmt: skip
    """What the openings leave of one course on one side."""
    gaps: list[tuple[float, float, float]] = []
    for section, middle in side:
        widest, height, least = band(section, bottom, top)
        if widest <= 0:
            continue
        if vault:
            each = run / around
            gaps.append((middle / each, widest / each, least / each))
        else:
            each = 2 * math.pi / around
            touched = turned(widest, _along(row, height))
            taken = turned(least, max(row.low.outside_r, row.high.outside_r))
            gaps.append((middle / each, touched / each, taken / each))
    if row.kind == "plug":
        return Laid(0, 0, (1.0,)) if gaps else Laid(1, 0, ())
    return place(around, 0.0 if number % 2 else 0.5, not vault, gaps)


def _area(shell: Meridian, low: float, high: float) -> float:
    """Area under the outside of a vault between two heights, on both sides; near the crown the height runs as a square."""
    crown = shell.outside.crown_m
    marks = sorted({low, high, *(mark for mark in shell.breaks_m if low < mark < high)})
    total = 0.0
    for a, b in zip(marks, marks[1:], strict=False):
        if crown - b < (b - a):
            near, far = math.sqrt(max(0.0, crown - b)), math.sqrt(crown - a)
            half, middle = (far - near) / 2, (far + near) / 2
            for node, weight in gauss_legendre(10):
                x = middle + half * node
                total += half * weight * 2 * x * shell.reach(crown - x * x)
        else:
            half, middle = (b - a) / 2, (b + a) / 2
            for node, weight in gauss_legendre(10):
                total += half * weight * shell.reach(middle + half * node)
    return 2 * total


@lru_cache(maxsize=512)
def _areas(bare: Part, count: int) -> tuple[float, ...]:
    shell = meridian(bare)
    tall = shell.outside.crown_m
    return tuple(_area(shell, tall * k / count, tall * (k + 1) / count) for k in range(count))


def _end(part: Part, block: Block, wall: str) -> list[Course]:
    """The courses of one end wall: level, cut to the outside profile at both ends."""
    joint, thick = block.joint_m, end_thickness(part)
    shell = meridian(part)
    tall = shell.outside.crown_m
    count = max(1, ceiling(tall / (block.height_m + joint)))
    each = tall / count
    plain = Part()
    bare = evolve(
        part, id=plain.id, openings=(), at_m=plain.at_m, bearing_deg=0.0, length_m=plain.length_m, ends=plain.ends,
        end_thickness_m=None, inside_diameter_m=plain.inside_diameter_m,
    )  # fmt: skip
    areas = _areas(bare, count)
    side = _placed(part, wall)
    out: list[Course] = []
    for k in range(count):
        low, high = each * k, each * (k + 1)
        near, far = shell.reach(low), shell.reach(high)
        foot = shell.outside.foot_m
        half = max(near, far, shell.reach(foot) if low < foot < high else 0.0)
        around = ceiling(2 * half / (block.length_m + joint))
        pitch = 2 * half / around
        gaps = []
        for section, along in side:
            widest, _, least = band(section, low, high)
            if widest > 0:
                middle = (along - part.inside_span_m / 2 + half) / pitch
                gaps.append((middle, widest / pitch, least / pitch))
        sloped = abs(near - far) > 1e-6
        laid = place(around, 0.0 if k % 2 == 0 else 0.5, False, gaps, sloped)
        volume = areas[k] * thick
        upright = around * joint * max(0.0, each - joint) * thick
        width = pitch - joint
        out.append(
            Course(
                part=part.id,
                element=wall,
                course=k + 1,
                kind="wall",
                height_m=low,
                radius_m=near,
                arm_m=None,
                arm_angle_deg=None,
                pin_height_m=None,
                bed_angle_deg=0.0,
                top_height_m=high,
                top_radius_m=far,
                outside_height_m=low,
                outside_radius_m=near,
                outside_top_height_m=high,
                outside_top_radius_m=far,
                around=around,
                count=laid.whole + len(laid.shares),
                whole=laid.whole,
                cut=len(laid.shares),
                left_out=laid.left_out,
                cut_shares=laid.shares,
                height_outside_m=each - joint,
                height_inside_m=each - joint,
                thickness_m=thick,
                taper_plan_deg=0.0,
                taper_section_deg=0.0,
                taper_outside_low_m=width,
                taper_outside_high_m=width,
                taper_inside_low_m=width,
                taper_inside_high_m=width,
                fits=True,
                volume_m3=volume,
                joint_m3=min(volume, 2 * near * joint * thick + upright),
            )
        )
    return out


def corners(course: Course, joint: float) -> tuple[tuple[float, float], ...]:
    """Return the section of one block of a course, seen from its side, as it lies on its outside face.

    Source: arithmetic. The faces are taken as flat between their edges; a block of a course of height h on a circle of radius R
    bulges by about h^2 / (8 R) between them, which is left to the skins.

    Parameters
    ----------
    course : Course
        The course [m]
    joint : float
        Thickness of the joints; the bed joint is taken off at the bed [m]

    Returns
    -------
    tuple of (float, float)
        Place along the outside face from the bed upwards, and depth from that face: outside edge of the bed, upper outside edge, upper
        inside edge, inside edge of the bed [m]

    Examples
    --------
    >>> ring = lay(Part(stem_height_m=0.0), Block())[0]
    >>> [round(along, 3) for along, _ in corners(ring, 0.0)]
    [0.0, 0.305, 0.295, 0.01]
    """
    thick = course.thickness_m
    if course.kind in ("wall", "gable"):
        tall = course.height_outside_m
        return (0.0, 0.0), (tall, 0.0), (tall, thick), (0.0, thick)
    if course.kind in ("plug", "key"):
        out, near = course.taper_outside_low_m, course.taper_inside_low_m
        if course.kind == "key":
            out, near = course.height_outside_m, course.height_inside_m
        edge = (out - near) / 2
        return (0.0, 0.0), (out, 0.0), (out - edge, thick), (edge, thick)
    lean = math.radians(course.bed_angle_deg)
    up = (-math.sin(lean) * joint, math.cos(lean) * joint)
    low = (course.outside_radius_m + up[0], course.outside_height_m + up[1])
    inner = (course.radius_m + up[0], course.height_m + up[1])
    high = (course.outside_top_radius_m, course.outside_top_height_m)
    upper = (course.top_radius_m, course.top_height_m)
    if course.kind == "springer":
        inner = upper
    length = math.dist(low, high) or 1.0
    along = ((high[0] - low[0]) / length, (high[1] - low[1]) / length)
    inward = (-along[1], along[0])

    def seen(point: tuple[float, float]) -> tuple[float, float]:
        step = (point[0] - low[0], point[1] - low[1])
        return step[0] * along[0] + step[1] * along[1], step[0] * inward[0] + step[1] * inward[1]

    return seen(low), seen(high), seen(upper), seen(inner)
