"""Reveals: the sides of an opening between the inside and the outside face."""

import math
from collections.abc import Callable, Iterator
from functools import lru_cache
from typing import Final

from attrs import frozen

from foamwright.project.model import Opening, Part
from foamwright.shape import Meridian, cut, meridian
from foamwright.shape.openings import Cut
from foamwright.shape.quadrature import gauss_legendre
from foamwright.shape.vault import end_thickness, spots

#: Nodes of the rule along each edge; the depth changes gently along it.
_NODES: Final = 10
_TINY: Final = 1e-9

#: A point of an edge, sideways and above the floor, by its share of the edge.
Point = Callable[[float], tuple[float, float]]


@frozen
class Reveal:
    """The reveal of one opening.

    Attributes
    ----------
    perimeter_m : float
        Length of its edges on the cross-section; the threshold of a door is not one [m]
    area_m2 : float
        Area that a skin covers [m2]
    depth_m : float
        Greatest depth from face to face [m]
    count : int
        Openings alike [-]
    """

    perimeter_m: float
    area_m2: float
    depth_m: float
    count: int


def reveal(section: Cut, depth: Callable[[float, float], float], count: int = 1) -> Reveal:
    """Return the reveal of an opening, its depth followed along the whole edge.

    Source: arithmetic: the integral of the depth along jambs, head and sill by Gauss-Legendre rules.
    An opening that stands on the floor has a threshold, which no skin covers.

    Parameters
    ----------
    section : Cut
        Cross-section of the opening [-]
    depth : Callable
        Depth at a distance sideways and a height above the floor [m]
    count : int
        Openings alike [-]

    Returns
    -------
    Reveal
        Edge, area and greatest depth [m, m2]

    Examples
    --------
    >>> door = reveal(cut(Opening(form="arched", width_m=1.0, height_m=2.0)), lambda u, z: 0.2)
    >>> round(door.perimeter_m, 5) == round(2 * 1.5 + math.pi / 2, 5), round(door.area_m2, 5)
    (True, 0.91416)
    """
    edges = list(_edges(section))
    area = deepest = 0.0
    for length, point in edges:
        for node, weight in gauss_legendre(_NODES):
            here = depth(*point((node + 1) / 2))
            area += length * weight / 2 * here
            deepest = max(deepest, here)
    return Reveal(sum(length for length, _ in edges), area, deepest, count)


def _edges(section: Cut) -> Iterator[tuple[float, Point]]:
    """Give length and points of each edge; jambs and the sides of a head twice, as one edge."""
    low, spring, high = section.low_m, section.spring_m, section.high_m
    if spring > low:
        yield 2 * (spring - low), lambda t: (section.half_m, _between(low, spring, t))
    start, end = _angle(section, spring), _angle(section, high)
    if end > start:
        yield (
            2 * section.head_m * (end - start),
            lambda t: _on_head(section, _between(start, end, t)),
        )
    top, sill = section.half_width(high), section.half_width(low) if low > 0 else 0.0
    if top > _TINY:
        yield 2 * top, lambda t: (top * t, high)
    if sill > _TINY:
        yield 2 * sill, lambda t: (sill * t, low)


def _between(low: float, high: float, share: float) -> float:
    return low + (high - low) * share


def _angle(section: Cut, height: float) -> float:
    return math.asin(max(-1.0, min(1.0, (height - section.centre_m) / section.head_m)))


def _on_head(section: Cut, angle: float) -> tuple[float, float]:
    big = section.head_m
    return big * math.cos(angle) - section.beyond_m, section.centre_m + big * math.sin(angle)


@lru_cache(maxsize=128)
def reveals(part: Part) -> tuple[Reveal, ...]:
    """Return the reveals of all openings of a part, its crown light among them.

    Source: arithmetic. Through a dome the opening runs level along its radius, so that it is the
    deeper the more the shell leans there.

    Parameters
    ----------
    part : Part
        The part as stated, its openings checked [-]

    Returns
    -------
    tuple of Reveal
        One for each opening of the part, repeats counted in it [m, m2]

    Examples
    --------
    >>> [round(r.area_m2, 3) for r in reveals(Part())], len(reveals(Part(openings=(Opening(),))))
    ([], 1)
    """
    if part.shape in ("fill", "blocks"):
        return ()
    if part.shape == "wall":
        return _of_wall(part)
    shell = meridian(part)
    found = tuple(
        reveal(cut(opening), depth, count)
        for opening in part.openings
        for depth, count in _depths(part, shell, opening)
    )
    if shell.opening_m <= 0:
        return found
    crown = part.thickness_m if part.crown_thickness_m is None else part.crown_thickness_m
    rim = 2 * math.pi * shell.opening_m
    return (*found, Reveal(rim, rim * crown, crown, 1))


def _of_wall(part: Part) -> tuple[Reveal, ...]:
    if part.plan_form != "circle":
        return tuple(reveal(cut(o), lambda _, __: part.thickness_m, o.count) for o in part.openings)
    near = part.inside_diameter_m / 2
    far = near + part.thickness_m
    return tuple(reveal(cut(o), lambda u, _: _chord(far, u) - _chord(near, u), o.count) for o in part.openings)


def _depths(
    part: Part, shell: Meridian, opening: Opening
) -> Iterator[tuple[Callable[[float, float], float], int]]:
    """Give the depth wherever an opening and its repeats stand, and how many stand there."""
    if part.shape == "dome":
        yield lambda u, z: _chord(shell.reach(z), u) - _chord(shell.inside.radius(z), u), opening.count
        return
    walls = [spot.wall for spot in spots(part, opening)]
    ends = sum(wall.startswith("end") for wall in walls)
    if ends:
        yield lambda _, __: end_thickness(part), ends
    if len(walls) > ends:
        yield lambda _, z: shell.reach(z) - shell.inside.radius(z), len(walls) - ends


def _chord(radius: float, sideways: float) -> float:
    return math.sqrt(max(0.0, radius * radius - sideways * sideways))
