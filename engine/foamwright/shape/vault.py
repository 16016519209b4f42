"""Barrel vaults: a profile pushed along a level axis from end a to end b, with walls at its ends.

The axis lies along +x of the part, its middle at the part's place; side a is on the left of whoever
looks from end a to end b. End walls stand beyond the clear length and close the profile up to the
outside face.
"""

import math
from bisect import bisect_left
from itertools import pairwise
from typing import Final

from attrs import evolve, frozen

from foamwright.project.model import Opening, Part
from foamwright.project.notes import Note, Problem, Scalar
from foamwright.shape.meridian import Meridian
from foamwright.shape.openings import Cut, Taken, azimuths, cut, fit, greatest, head_too_low, over

_TINY: Final = 1e-9
#: A part with more faults than this has been told enough.
_MOST_PROBLEMS: Final = 20


@frozen
class Spot:
    """Where the middle of one opening stands.

    Attributes
    ----------
    wall : str
        ``side_a``, ``side_b``, ``end_a`` or ``end_b`` [-]
    along_m : float
        On a side, distance from end a; on an end, distance from the inside face of side a [m]
    """

    wall: str
    along_m: float


@frozen
class Measures:
    """What is measured of a vault, openings taken out.

    Attributes
    ----------
    floor_area_m2 : float
        Clear inside floor [m2]
    footprint_m2 : float
        Outside plan [m2]
    outside_length_m : float
        Length over the end walls [m]
    shell_volume_m3 : float
        Barrel and end walls [m3]
    end_walls_volume_m3 : float
        The end walls alone [m3]
    openings_volume_m3 : float
        What the openings take out [m3]
    inside_area_m2 : float
        Inside faces of barrel and end walls, reveals and open edges not counted [m2]
    outside_area_m2 : float
        Outside faces likewise [m2]
    """

    floor_area_m2: float
    footprint_m2: float
    outside_length_m: float
    shell_volume_m3: float
    end_walls_volume_m3: float
    openings_volume_m3: float
    inside_area_m2: float
    outside_area_m2: float


def walled(part: Part) -> tuple[str, ...]:
    """Return the ends of a vault that have a wall; where it is one, it is end a.

    Source: typed.

    Parameters
    ----------
    part : Part
        The vault [-]

    Returns
    -------
    tuple of str
        ``end_a``, ``end_b``, or none [-]

    Examples
    --------
    >>> walled(Part(shape="vault", ends="one"))
    ('end_a',)
    """
    return {"both": ("end_a", "end_b"), "one": ("end_a",), "open": ()}[part.ends]


def end_thickness(part: Part) -> float:
    """Return the thickness of a vault's end walls: as stated, else that of its shell.

    Source: typed.

    Parameters
    ----------
    part : Part
        The vault [-]

    Returns
    -------
    float
        Thickness [m]

    Examples
    --------
    >>> end_thickness(Part(shape="vault", thickness_m=0.25))
    0.25
    """
    return part.thickness_m if part.end_thickness_m is None else part.end_thickness_m


def spots(part: Part, opening: Opening) -> tuple[Spot, ...]:
    """Return where an opening of a vault and its repeats stand.

    On a wall that is named they are spread evenly over it; where a distance is stated, from there
    to as far from the wall's other end. An opening that goes by its azimuth stands where that
    direction, from the middle of the plan, meets a wall.

    Source: arithmetic.

    Parameters
    ----------
    part : Part
        The vault [-]
    opening : Opening
        The opening as stated [-]

    Returns
    -------
    tuple of Spot
        One for each repeat [-]

    Examples
    --------
    >>> vault = Part(shape="vault", inside_span_m=4.0, length_m=6.0)
    >>> spots(vault, Opening(face="side_a", count=2))
    (Spot(wall='side_a', along_m=1.5), Spot(wall='side_a', along_m=4.5))
    >>> [(spot.wall, round(spot.along_m, 9)) for spot in spots(vault, Opening(azimuth_deg=45.0, count=2))]
    [('side_a', 5.0), ('side_b', 1.0)]
    """
    half, middle = part.inside_span_m / 2, part.length_m / 2
    if opening.face == "around":
        return tuple(_met(half, middle, math.radians(angle)) for angle in azimuths(opening))
    whole = part.length_m if opening.face.startswith("side") else part.inside_span_m
    count, first = opening.count, opening.along_m
    if first is None:
        places = [whole * (i + 0.5) / count for i in range(count)]
    elif count == 1:
        places = [first]
    else:
        places = [first + (whole - 2 * first) * i / (count - 1) for i in range(count)]
    return tuple(Spot(opening.face, place) for place in places)


def _met(half: float, middle: float, angle: float) -> Spot:
    """Find the wall that a direction from the middle of the plan meets."""
    x, y = math.cos(angle), math.sin(angle)
    if abs(x) * half >= abs(y) * middle:
        return Spot("end_b" if x > 0 else "end_a", half - middle * y / abs(x))
    return Spot("side_a" if y > 0 else "side_b", middle + half * x / abs(y))


def _azimuth(part: Part, spot: Spot) -> float:
    """Return the direction in which a spot is seen from the middle of the plan [deg]."""
    half, middle = part.inside_span_m / 2, part.length_m / 2
    x, y = spot.along_m - middle, half if spot.wall == "side_a" else -half
    if spot.wall.startswith("end"):
        x, y = middle if spot.wall == "end_b" else -middle, half - spot.along_m
    return math.degrees(math.atan2(y, x)) % 360


def side_taken(shell: Meridian, section: Cut) -> Taken:
    """Return what one opening takes out of a side: a level prism square to the axis, through the shell.

    Source: arithmetic: at each height the width of the opening times the way through the shell, or
    the length of the face there; the height by quadrature to 1e-10.

    Parameters
    ----------
    shell : Meridian
        Half the cross-section of the vault [-]
    section : Cut
        Cross-section of the opening, below the inside crown [-]

    Returns
    -------
    Taken
        Volume and faces removed [m3, m2]

    Examples
    --------
    >>> from foamwright.shape.meridian import meridian
    >>> hatch = cut(Opening(width_m=0.8, height_m=0.5))
    >>> round(side_taken(meridian(Part(shape="vault")), hatch).volume_m3, 9)
    0.08
    """

    def slice_at(height: float, half: float) -> tuple[float, float, float]:
        r, ring = shell.inside.radius_and_ring(height)
        big, faced = shell.reach_and_ring(height)
        return 2 * half * (big - r), 2 * half * ring / r, 2 * half * faced / big

    return Taken(*over(section, shell.breaks_m, slice_at))


def measure_vault(shell: Meridian, part: Part) -> Measures:
    """Measure a vault in which `check_vault` finds no problem.

    Source: arithmetic (area of the cross-section times the length; end walls by their outline).

    Parameters
    ----------
    shell : Meridian
        Half the cross-section [-]
    part : Part
        The vault [-]

    Returns
    -------
    Measures
        Volumes and areas [m3, m2]

    Examples
    --------
    >>> from foamwright.shape.meridian import meridian
    >>> barrel = Part(shape="vault", stem_height_m=0.0, length_m=5.0, ends="open")
    >>> round(measure_vault(meridian(barrel), barrel).shell_volume_m3, 5)
    6.59734
    """
    ends, thick, length = len(walled(part)), end_thickness(part), part.length_m
    near = 2 * shell.inside.radius(shell.inside.foot_m)
    far = 2 * shell.outside.radius(shell.outside.foot_m)
    room, whole = 2 * shell.inside.plane(), shell.plane()
    long = length + ends * thick
    barrel = (whole - room) * length
    walls = ends * whole * thick
    face_in = 2 * shell.inside.length_m * length + ends * room
    face_out = 2 * shell.outside.length_m * long + ends * whole
    gone = gone_ends = 0.0
    known: dict[Cut, Taken] = {}
    for opening in part.openings:
        section = cut(opening)
        places = spots(part, opening)
        sides = sum(spot.wall.startswith("side") for spot in places)
        if sides:
            one = known.get(section) or known.setdefault(section, side_taken(shell, section))
            gone += one.volume_m3 * sides
            face_in -= one.inside_area_m2 * sides
            face_out -= one.outside_area_m2 * sides
        through = (len(places) - sides) * section.area()
        gone_ends += through * thick
        face_in -= through
        face_out -= through
    return Measures(
        floor_area_m2=near * length,
        footprint_m2=far * long,
        outside_length_m=long,
        shell_volume_m3=barrel - gone + walls - gone_ends,
        end_walls_volume_m3=walls - gone_ends,
        openings_volume_m3=gone + gone_ends,
        inside_area_m2=face_in,
        outside_area_m2=face_out,
    )


def check_vault(
    shell: Meridian, part: Part, path: str
) -> tuple[tuple[Problem, ...], tuple[Note, ...]]:
    """Find openings of a vault that cannot be built: too high, too wide, too many, beyond their wall.

    Source: arithmetic; openings of one wall overlap where their widths at one height reach further
    than their middles stand apart.

    Parameters
    ----------
    shell : Meridian
        Half the cross-section [-]
    part : Part
        The vault [-]
    path : str
        Where it stands in the project [-]

    Returns
    -------
    tuple of (tuple of Problem, tuple of Note)
        Faults, and openings that stand but deserve a word [-]

    Examples
    --------
    >>> from foamwright.shape.meridian import meridian
    >>> barn = Part(shape="vault", ends="open", openings=(Opening(face="end_a"),))
    >>> check_vault(meridian(barn), barn, "parts[0]")[0][0].code
    'opening_in_open_end'
    """
    problems: list[Problem] = []
    notes: list[Note] = []
    sets: list[_Set] = []
    base = shell.inside.radius(shell.inside.foot_m)
    for i, opening in enumerate(part.openings):
        if len(problems) >= _MOST_PROBLEMS:
            break
        where = f"{path}.openings[{i}]"
        places = spots(part, opening)
        problem = _misfit(shell, part, opening, places, where)
        if problem:
            problems.append(problem)
            continue
        section = cut(opening)
        sets.append(_Set(where, opening, section, places, _rows(places)))
        share = shell.inside.radius(section.high_m) / base
        if share < 0.5 and any(spot.wall.startswith("side") for spot in places):
            params: dict[str, Scalar] = {
                "top_m": section.high_m,
                "radius_share": share,
                "limit": 0.5,
            }
            source = "practice_opening_near_crown"
            notes.append(Note("opening_near_crown", "caution", where, params, source))
    for j, later in enumerate(sets):
        for earlier in sets[:j]:
            if len(problems) >= _MOST_PROBLEMS:
                return tuple(problems), tuple(notes)
            apart, at = _nearest(earlier.rows, later.rows)
            if apart > earlier.section.half_m + later.section.half_m + _TINY:
                continue
            needed = _reach(earlier.section, later.section)
            if needed < apart - _TINY:
                continue
            spot = later.places[at]
            name, value, _ = _stated(part, later.opening, spot, spot)
            more: dict[str, Scalar] = {
                "first": earlier.path,
                "second": later.path,
                "apart_m": apart,
                "least_m": needed,
            }
            problems.append(Problem(f"{later.path}.{name}", value, needed, "openings_overlap", more))
    return tuple(problems), tuple(notes)


@frozen
class _Set:
    """An opening with all its repeats."""

    path: str
    opening: Opening
    section: Cut
    places: tuple[Spot, ...]
    rows: dict[str, list[tuple[float, int]]]


def _stated(part: Part, opening: Opening, spot: Spot, near: Spot) -> tuple[str, float, float]:
    """Return the field that says where an opening stands, its value, and the value that ``near`` asks for."""
    if opening.face == "around":
        return "azimuth_deg", _azimuth(part, spot), _azimuth(part, near)
    return "along_m", spot.along_m, near.along_m


def _misfit(
    shell: Meridian, part: Part, opening: Opening, places: tuple[Spot, ...], path: str
) -> Problem | None:
    """Say whether an opening with all its repeats fits into its walls."""
    if opening.sill_m < 0:
        return Problem(f"{path}.sill_m", opening.sill_m, 0.0, "opening_below_floor")
    low = head_too_low(opening, path)
    if low:
        return low
    section = cut(opening)
    if _crowded(section, places):
        fitting = (
            n
            for n in range(opening.count - 1, 1, -1)
            if not _crowded(section, spots(part, evolve(opening, count=n)))
        )
        return Problem(f"{path}.count", opening.count, next(fitting, 1), "openings_too_many")
    half = part.inside_span_m / 2
    standing = walled(part)
    for spot in places:
        if spot.wall.startswith("side"):
            problem = _beside(shell, part, opening, section, spot, path)
        elif spot.wall not in standing:
            problem = Problem(f"{path}.face", spot.wall, part.ends, "opening_in_open_end")
        else:
            problem = _in_end(shell, part, opening, spot, half, path)
        if problem:
            return problem
    return None


def _beside(
    shell: Meridian, part: Part, opening: Opening, section: Cut, spot: Spot, path: str
) -> Problem | None:
    """Say whether an opening fits into a side."""
    crown = shell.inside.crown_m
    size = "diameter_m" if opening.form == "round" else "width_m"
    if section.high_m >= crown:
        tall = "diameter_m" if opening.form == "round" else "height_m"
        if opening.sill_m >= crown:
            return Problem(f"{path}.sill_m", opening.sill_m, crown, "opening_too_high")
        value = float(getattr(opening, tall))
        return Problem(f"{path}.{tall}", value, crown - opening.sill_m, "opening_too_high")
    if 2 * section.half_m > part.length_m:
        return Problem(f"{path}.{size}", 2 * section.half_m, part.length_m, "opening_too_wide")
    nearest = min(max(spot.along_m, section.half_m), part.length_m - section.half_m)
    if abs(nearest - spot.along_m) > _TINY:
        name, value, limit = _stated(part, opening, spot, Spot(spot.wall, nearest))
        return Problem(f"{path}.{name}", value, limit, "opening_beyond_wall")
    return None


def _in_end(
    shell: Meridian, part: Part, opening: Opening, spot: Spot, half: float, path: str
) -> Problem | None:
    """Say whether an opening fits into an end wall, under the inside profile."""
    aside = abs(spot.along_m - half)
    if fit(shell.inside, opening, path, aside) is None:
        return None
    centred = fit(shell.inside, opening, path)
    if centred:
        return centred
    low, high = 0.0, aside
    for _ in range(60):
        middle = (low + high) / 2
        fits = fit(shell.inside, opening, path, middle) is None
        low, high = (middle, high) if fits else (low, middle)
    nearest = Spot(spot.wall, half + math.copysign(low, spot.along_m - half))
    name, value, limit = _stated(part, opening, spot, nearest)
    return Problem(f"{path}.{name}", value, limit, "opening_beyond_wall")


def _reach(first: Cut, second: Cut) -> float:
    """Return the greatest sum of two half widths at a common height; below 0 where they share none."""
    return greatest(
        lambda height: first.half_width(height) + second.half_width(height), first, second
    )


def _crowded(section: Cut, places: tuple[Spot, ...]) -> bool:
    """Say whether alike openings leave nothing between them."""
    return any(
        b - a <= 2 * section.half_m + _TINY
        for row in _rows(places).values()
        for (a, _), (b, _) in pairwise(row)
    )


def _rows(places: tuple[Spot, ...]) -> dict[str, list[tuple[float, int]]]:
    """Sort places by wall and along it, each with its number."""
    rows: dict[str, list[tuple[float, int]]] = {}
    for i, spot in enumerate(places):
        rows.setdefault(spot.wall, []).append((spot.along_m, i))
    return {wall: sorted(row) for wall, row in rows.items()}


def _nearest(
    first: dict[str, list[tuple[float, int]]], second: dict[str, list[tuple[float, int]]]
) -> tuple[float, int]:
    """Return the least distance between two sets on the same wall, and which of the second it is."""
    best = (math.inf, 0)
    for wall, row in second.items():
        others = first.get(wall)
        for along, i in row if others else ():
            at = bisect_left(others or [], (along, -1))
            for other, _ in (others or [])[max(0, at - 1) : at + 1]:
                best = min(best, (abs(along - other), i))
    return best
