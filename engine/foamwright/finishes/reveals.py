"""Reveals: the sides of an opening between the inside and the outside face."""

import math
from collections.abc import Callable, Iterable, Iterator
from functools import lru_cache
from typing import Final

from attrs import evolve, frozen

from foamwright.project.model import Opening, Part
from foamwright.shape import Meridian, cut, meridian
from foamwright.shape.hoods import Hood, hoods
from foamwright.shape.joined import Passage, Way, depth, passages
from foamwright.shape.openings import Cut, edges
from foamwright.shape.quadrature import gauss_legendre
from foamwright.shape.vault import end_thickness, spots

#: Nodes of the rule along each edge; the depth changes gently along it.
_NODES: Final = 10


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
    kind : str
        ``reveal``; ``hood`` for the inner faces of a hood that goes over the head alone [-]
    """

    perimeter_m: float
    area_m2: float
    depth_m: float
    count: int
    kind: str = "reveal"


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
    around = list(edges(section))
    area = deepest = 0.0
    for length, point in around:
        for node, weight in gauss_legendre(_NODES):
            here = depth(*point((node + 1) / 2))
            area += length * weight / 2 * here
            deepest = max(deepest, here)
    return Reveal(sum(length for length, _ in around), area, deepest, count)


@lru_cache(maxsize=512)
def reveals(part: Part) -> tuple[Reveal, ...]:
    """Return the reveals of all openings of a part, its crown light among them.

    Source: arithmetic. Through a dome the opening runs level along its radius, so that it is the
    deeper the more the shell leans there. A hood all round makes them deeper by its own depth; the inner faces of one over the head
    alone stand by themselves.

    Parameters
    ----------
    part : Part
        The part as stated, its openings checked [-]

    Returns
    -------
    tuple of Reveal
        One for each opening of the part and each kind of wall that it stands in, repeats counted in it [m, m2]

    Examples
    --------
    >>> [round(r.area_m2, 3) for r in reveals(Part())], len(reveals(Part(openings=(Opening(),))))
    ([], 1)
    """
    if part.shape in ("fill", "blocks"):
        return ()
    if part.shape == "wall":
        return tuple(_deeper(part, _of_wall(part)))
    shell = meridian(part)
    plain = (
        (i, reveal(cut(opening), depth, count))
        for i, opening in enumerate(part.openings)
        for depth, count in _depths(part, shell, opening)
    )
    found = tuple(_deeper(part, plain))
    if shell.opening_m <= 0:
        return found
    crown = part.thickness_m if part.crown_thickness_m is None else part.crown_thickness_m
    rim = 2 * math.pi * shell.opening_m
    return (*found, Reveal(rim, rim * crown, crown, 1))


def _deeper(part: Part, found: Iterable[tuple[int, Reveal]]) -> Iterator[Reveal]:
    """Carry reveals on through the hoods of their openings; both come in the same order."""
    made: dict[int, list[Hood]] = {}
    for each in hoods(part):
        made.setdefault(each.opening, []).append(each)
    for index, one in found:
        hood = made[index].pop(0) if made.get(index) else None
        if hood is None:
            yield one
        elif hood.kind == "around":
            yield evolve(one, area_m2=one.area_m2 + hood.inner_m2, depth_m=one.depth_m + hood.depth_m)
        else:
            yield one
            yield Reveal(hood.inner_edge_m, hood.inner_m2, hood.depth_m, hood.count, "hood")


def with_passages(parts: tuple[Part, ...], places: tuple[int, ...]) -> tuple[tuple[Reveal, ...], ...]:
    """Return the reveals of all parts, those of passages from room to room.

    Source: arithmetic (`reveals`); what covers the reveal of a passage covers the inside of a neck likewise. Where openings of both
    parts state one passage, it has one reveal.

    Parameters
    ----------
    parts : tuple of Part
        All parts of the project [-]
    places : tuple of int
        Places of those that are measured, nothing at fault in them [-]

    Returns
    -------
    tuple of tuple of Reveal
        For each of them its reveals [m, m2]

    Examples
    --------
    >>> pair = (Part(openings=(Opening(to="b"),)), Part(id="b", at_m=(7.0, 0.0)))
    >>> round(with_passages(pair, (0, 1))[0][0].area_m2, 1)
    6.7
    """
    there = tuple(parts[place] for place in places)
    if not any(opening.to for part in there for opening in part.openings):
        return tuple(reveals(part) for part in there)
    missing = tuple(part.id for place, part in enumerate(parts) if place not in places)
    found = passages(there, places, missing)[0]
    out: list[list[Reveal]] = []
    for k, part in enumerate(there):
        led = [passage.opening for passage in found if passage.part == k]
        plain = tuple(
            evolve(opening, count=opening.count - led.count(i))
            for i, opening in enumerate(part.openings) if opening.count > led.count(i)
        )  # fmt: skip
        out.append(list(reveals(evolve(part, openings=plain))))
    for p, passage in enumerate(found):
        if not any(_one_passage(passage, other) for other in found[:p]):
            out[passage.part].append(_of_passage(there[passage.part], there[passage.to], passage.way))
    return tuple(tuple(one) for one in out)


@lru_cache(maxsize=512)
def _of_passage(part: Part, other: Part, way: Way) -> Reveal:
    return reveal(way.section, depth(part, other, way))


def _one_passage(first: Passage, second: Passage) -> bool:
    """Whether openings of two parts that lead to each other state one passage."""
    if (first.part, first.to) != (second.to, second.part):
        return False
    (x, y), (u, v) = first.way.start, second.way.along
    away = abs((y - second.way.start[1]) * u - (x - second.way.start[0]) * v)
    against = first.way.along[0] * u + first.way.along[1] * v
    return against < -0.9 and away < max(first.way.section.half_m, second.way.section.half_m)


def collars(part: Part) -> tuple[Reveal, ...]:
    """Return fronts and outer faces of a part's hoods as strips round their openings.

    Source: arithmetic (`hoods`).

    Parameters
    ----------
    part : Part
        The part as stated, its openings and hoods checked [-]

    Returns
    -------
    tuple of Reveal
        Outer edge, area, and the greatest way from the face over the edge to the opening [m, m2]

    Examples
    --------
    >>> hatch = Opening(width_m=1.0, height_m=0.5, sill_m=1.0, hood="around", hood_projection_m=0.2, hood_thickness_m=0.1)
    >>> [round(one.depth_m, 9) for one in collars(Part(shape="wall", openings=(hatch,)))]
    [0.3]
    """
    return tuple(
        Reveal(
            hood.edge_m,
            hood.front_m2 + hood.outer_m2,
            hood.outer_depth_m + part.openings[hood.opening].hood_thickness_m,
            hood.count,
            "hood",
        )
        for hood in hoods(part)
    )


def _of_wall(part: Part) -> Iterator[tuple[int, Reveal]]:
    near = part.inside_diameter_m / 2
    far = near + part.thickness_m
    for i, opening in enumerate(part.openings):
        if part.plan_form == "circle":
            yield i, reveal(cut(opening), lambda u, _: _chord(far, u) - _chord(near, u), opening.count)
        else:
            yield i, reveal(cut(opening), lambda _, __: part.thickness_m, opening.count)


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
