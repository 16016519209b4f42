"""What laying asks for: from where on fresh blocks must be held, centring, platforms."""

import math
from functools import lru_cache
from itertools import pairwise
from typing import Final

from attrs import evolve, frozen

from foamwright.project.model import Opening
from foamwright.shape.meridian import Face
from foamwright.shape.openings import cut

#: Lean of a bed from which a fresh block may slide before its ring closes: common practice, no source. The lower one is near
#: the friction of 0.4 that EN 1996-1-1, 3.6.2 gives for hardened joints (from memory); wet mortar that clings holds more [deg].
SLIDES_DEG: Final = (20.0, 30.0)
#: Height that is laid from one level of a platform: common practice, no source [m].
REACH_M: Final = 1.5
_STEPS: Final = 64


@frozen
class Laying:
    """What laying one part asks for.

    Attributes
    ----------
    slides_low_deg : float
        Lean from which careful people prop [deg]
    slides_high_deg : float
        Lean from which every fresh block must be held [deg]
    props_from_course : int or None
        First course that leans more than the lower of both; none where no course does [-]
    props_all_from_course : int or None
        First course that leans more than the higher one [-]
    props_most : int or None
        Blocks of the fullest ring that needs props, each of which is held until it closes; none where no course does [-]
    props_from_m : float or None
        Height at which the beds begin to lean more than the lower of both [m]
    centring_m : float
        Length of all arches over openings that are built on centring [m]
    centring_m2 : float or None
        Inside face of a vault above its springing, if all of it is laid on centring; absent for a dome [m2]
    platform_levels : int
        Levels of platform above the ground, inside and outside [-]
    reach_m : float
        Height from one level to the next [m]
    """

    slides_low_deg: float
    slides_high_deg: float
    props_from_course: int | None
    props_all_from_course: int | None
    props_most: int | None
    props_from_m: float | None
    centring_m: float
    centring_m2: float | None
    platform_levels: int
    reach_m: float


def bed_angle(face: Face, height: float) -> float:
    """Return how far a bed that is square to the inside face leans inward.

    Source: arithmetic.

    Parameters
    ----------
    face : Face
        Inside face [-]
    height : float
        Height above the floor, from foot to crown; at an edge it is the bed that lies on it [m]

    Returns
    -------
    float
        Angle from level; 0 on an upright wall [deg]

    Examples
    --------
    >>> from foamwright.shape.meridian import hemisphere
    >>> round(bed_angle(hemisphere(6.0, 0.0, 0.2).inside, 1.5), 9)
    30.0
    """
    piece = next((piece for piece in face.pieces if height < piece.high_m), face.pieces[-1])
    radius = piece.radius(height)
    if radius <= 0:
        # On the axis the lean is that of just beside it.
        height -= (piece.high_m - piece.low_m) * 1e-9
        radius = piece.radius(height)
    return math.degrees(math.acos(max(-1.0, min(1.0, radius / piece.ring(height)))))


def leans_from(face: Face, angle_deg: float) -> float | None:
    """Return the height from which the beds lean more than an angle.

    Source: arithmetic. Valid for faces that lean ever more towards the crown, as all profiles here do.

    Parameters
    ----------
    face : Face
        Inside face [-]
    angle_deg : float
        Angle from level [deg]

    Returns
    -------
    float or None
        Height above the floor; none where no bed leans so much [m]

    Examples
    --------
    >>> from foamwright.shape.meridian import hemisphere
    >>> round(leans_from(hemisphere(6.0, 0.5, 0.2).inside, 30.0), 6)
    2.0
    """
    low, high = face.foot_m, face.crown_m
    if bed_angle(face, high) < angle_deg:
        return None
    for _ in range(50):
        middle = (low + high) / 2
        low, high = (middle, high) if bed_angle(face, middle) < angle_deg else (low, middle)
    return high


def arch_length(opening: Opening) -> float:
    """Return the length of the arch over an opening: the part of its edge that closes in above its widest.

    Source: arithmetic (a chain of chords).

    Parameters
    ----------
    opening : Opening
        The opening [m]

    Returns
    -------
    float
        Length; 0 under a level head, which takes a lintel [m]

    Examples
    --------
    >>> round(arch_length(Opening(form="arched", width_m=1.0)), 3)
    1.571
    >>> arch_length(Opening(form="rectangular"))
    0.0
    """
    return _arch(evolve(opening, azimuth_deg=0.0, count=1, spacing_deg=None, to=None))


@lru_cache(maxsize=512)
def _arch(opening: Opening) -> float:
    section = cut(opening)
    top = section.high_m
    foot = opening.sill_m + (opening.diameter_m / 2 if opening.form == "round" else 0.0)
    widest = section.half_width(foot)
    above = top
    for _ in range(60):
        middle = (foot + above) / 2
        if section.half_width(middle) < widest * (1 - 1e-9):
            above = middle
        else:
            foot = middle
    if top - foot < 1e-6:
        return 0.0
    # Equal steps of angle along a round head, so that the flat top of it is not lost.
    heights = [foot + (top - foot) * math.sin(math.pi / 2 * i / _STEPS) for i in range(_STEPS + 1)]
    chain = [(section.half_width(height), height) for height in heights]
    return 2 * sum(math.dist(a, b) for a, b in pairwise(chain))


def laying(face: Face, top: float, leans: tuple[float, ...], around: tuple[int, ...]) -> Laying:
    """Return what laying a shell asks for, its openings apart.

    Source: common practice, no source, for the lean at which fresh blocks slide and the height laid from a platform.

    Parameters
    ----------
    face : Face
        Inside face [-]
    top : float
        Height of the outside crown above the floor [m]
    leans : tuple of float
        How far the bed of each course leans inward, the lowest first [deg]
    around : tuple of int
        Blocks of each course, openings not taken out [-]

    Returns
    -------
    Laying
        Props and platforms; no centring [-]

    Examples
    --------
    >>> from foamwright.shape.meridian import hemisphere
    >>> made = laying(hemisphere(6.0, 0.5, 0.2).inside, 3.7, (0.0, 15.0, 25.0), (63, 60, 54))
    >>> made.props_from_course, made.props_most, made.platform_levels
    (3, 54, 2)
    """
    low, high = SLIDES_DEG

    def first(angle: float) -> int | None:
        return next((course for course, lean in enumerate(leans, 1) if lean >= angle), None)

    return Laying(
        slides_low_deg=low,
        slides_high_deg=high,
        props_from_course=first(low),
        props_all_from_course=first(high),
        props_most=max((blocks for lean, blocks in zip(leans, around, strict=True) if lean >= low), default=None),
        props_from_m=leans_from(face, low),
        centring_m=0.0,
        centring_m2=None,
        platform_levels=max(0, math.ceil(top / REACH_M - 1 - 1e-9)),
        reach_m=REACH_M,
    )
