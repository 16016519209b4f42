"""Openings: straight prisms cut horizontally along the radius through their own centre.

At one height the prism is a strip between two parallel lines, so that what it takes from a circle
has a closed form and only the integral over the height is left to quadrature. What vaults do otherwise
stands in `vault`.
"""

import math
from bisect import bisect_left
from collections.abc import Callable, Iterator
from typing import Any, Final

from attrs import evolve, field, frozen

from foamwright.project.model import Opening
from foamwright.project.notes import Note, Problem, Scalar
from foamwright.shape.meridian import Face, Meridian
from foamwright.shape.quadrature import integrate

#: Rise of an equilateral pointed arch over half its width: its arcs are as wide as it.
POINTED_RISE: Final = math.sqrt(3)
#: Head over half the width, for the forms that have one.
_HEADS: Final = {"arched": 1.0, "pointed": POINTED_RISE}
#: Angles and lengths below this are rounding, not geometry.
_TINY: Final = 1e-9
#: Heights tried between two breaks where a greatest value is looked for.
_TRIALS: Final = 8
_GOLDEN: Final = (math.sqrt(5) - 1) / 2
#: A part with more faults than this has been told enough.
_MOST_PROBLEMS: Final = 20


@frozen
class Taken:
    """What one opening takes out of a shell.

    Attributes
    ----------
    volume_m3 : float
        Shell removed [m3]
    inside_area_m2 : float
        Inside face removed [m2]
    outside_area_m2 : float
        Outside face removed [m2]
    """

    volume_m3: float
    inside_area_m2: float
    outside_area_m2: float


@frozen
class Cut:
    """The cross-section of an opening, seen along its radius.

    Attributes
    ----------
    low_m : float
        Lowest point above the floor [m]
    spring_m : float
        Where the straight sides end and the round head begins [m]
    high_m : float
        Highest point above the floor [m]
    half_m : float
        Half of the greatest width [m]
    centre_m : float
        Height of the centre of the round head, or of the whole round opening [m]
    beyond_m : float
        How far beyond the middle the centre of each side of a pointed head lies; else 0 [m]
    """

    low_m: float
    spring_m: float
    high_m: float
    half_m: float
    centre_m: float = field()
    beyond_m: float = 0.0

    @property
    def head_m(self) -> float:
        """Radius of the head's arcs [m]."""
        return self.half_m + self.beyond_m

    def area(self) -> float:
        """Return the area of the cross-section in square metres."""
        big = self.head_m

        def below(rise: float) -> float:
            """What the head holds up to a height above its centre, counted from there."""
            # By the tangent, since at the top of a circle a rounding of its sine is much of its angle.
            across = math.sqrt(max(0.0, (big - rise) * (big + rise)))
            return rise * across + big**2 * math.atan2(rise, across) - 2 * self.beyond_m * rise

        head = below(self.high_m - self.centre_m) - below(self.spring_m - self.centre_m)
        return head + 2 * self.half_m * (self.spring_m - self.low_m)

    def half_width(self, height: float) -> float:
        """Return half the width of the opening at a height within it.

        Source: arithmetic.

        Parameters
        ----------
        height : float
            Height above the floor, from ``low_m`` to ``high_m`` [m]

        Returns
        -------
        float
            Half width [m]

        Examples
        --------
        >>> round(cut(Opening(form="round", diameter_m=1.0, sill_m=1.0)).half_width(1.8), 12)
        0.4
        """
        if height < self.spring_m:
            return self.half_m
        rise, big = height - self.centre_m, self.head_m
        return max(0.0, math.sqrt(max(0.0, (big - rise) * (big + rise))) - self.beyond_m)


def cut(opening: Opening) -> Cut:
    """Return the cross-section of an opening.

    Source: arithmetic; an arched opening is a rectangle under a semicircle as wide as it, a pointed
    one under an equilateral pointed arch, and its height includes the head.

    Parameters
    ----------
    opening : Opening
        The opening as stated [-]

    Returns
    -------
    Cut
        Its cross-section [-]

    Examples
    --------
    >>> cut(Opening(form="arched", width_m=0.9, height_m=2.0)).spring_m
    1.55
    """
    low, half = opening.sill_m, opening.width_m / 2
    if opening.form == "round":
        half = opening.diameter_m / 2
        return Cut(low, low, low + opening.diameter_m, half, low + half)
    high = low + opening.height_m
    if opening.form == "arched":
        return Cut(low, high - half, high, half, high - half)
    if opening.form == "pointed":
        spring = high - half * POINTED_RISE
        return Cut(low, spring, high, half, spring, half)
    return Cut(low, high, high, half, high)


def strip(half: float, radius: float) -> float:
    """Return the area of a half disc within a strip square to its edge and centred on it.

    Source: arithmetic (integral of the circle).

    Parameters
    ----------
    half : float
        Half the width of the strip, 0 to ``radius`` [m]
    radius : float
        Radius of the disc [m]

    Returns
    -------
    float
        Area from the diameter to the arc [m2]

    Examples
    --------
    >>> strip(1.0, 1.0) == math.pi / 2
    True
    """
    return half * math.sqrt(max(0.0, radius * radius - half * half)) + radius * radius * math.asin(
        min(1.0, half / radius)
    )


def taken(shell: Meridian, section: Cut) -> Taken:
    """Return what one opening takes out of a shell.

    Source: arithmetic: at each height the strip of the outside disc less that of the inside disc,
    and the arc of each circle within the strip; the height by quadrature to 1e-10.

    Parameters
    ----------
    shell : Meridian
        Section of the shell [-]
    section : Cut
        Cross-section of the opening; it must pass `fit` [-]

    Returns
    -------
    Taken
        Volume and faces removed [m3, m2]

    Examples
    --------
    >>> from foamwright.shape.meridian import hemisphere
    >>> window = cut(Opening(form="round", diameter_m=0.6, sill_m=1.2))
    >>> round(taken(hemisphere(6.0, 0.5, 0.2), window).inside_area_m2, 4)
    0.3009
    """

    def slice_at(height: float, half: float) -> tuple[float, float, float]:
        r, ring = shell.inside.radius_and_ring(height)
        big, faced = shell.reach_and_ring(height)
        return (
            strip(half, big) - strip(half, r),
            2 * math.asin(min(1.0, half / r)) * ring,
            2 * math.asin(min(1.0, half / big)) * faced,
        )

    return Taken(*over(section, shell.breaks_m, slice_at))


Slice = Callable[[float, float], tuple[float, float, float]]


def over(section: Cut, breaks: tuple[float, ...], slice_at: Slice) -> tuple[float, float, float]:
    """Integrate over the height of an opening what it takes at each height.

    Source: arithmetic; quadrature to 1e-10.

    Parameters
    ----------
    section : Cut
        Cross-section of the opening [-]
    breaks : tuple of float
        Heights at which the shell is not smooth [m]
    slice_at : Callable
        Gives what is taken per metre of rise, from a height and half the opening's width there [any]

    Returns
    -------
    tuple of float
        The three integrals [any]

    Examples
    --------
    >>> window = cut(Opening(form="round", diameter_m=2.0, sill_m=1.0))
    >>> round(over(window, (), lambda height, half: (2 * half, 0.0, 0.0))[0], 9) == round(math.pi, 9)
    True
    """

    def upright(height: float) -> tuple[float, ...]:
        return slice_at(height, section.half_m)

    def round_head(angle: float) -> tuple[float, ...]:
        # The height runs as a sine, so that the ends of the circle are smooth to the quadrature.
        reach = section.head_m * math.cos(angle)
        height = section.centre_m + section.head_m * math.sin(angle)
        half = max(0.0, reach - section.beyond_m)
        return tuple(value * reach for value in slice_at(height, half))

    def angle_of(height: float) -> float:
        return math.asin(max(-1.0, min(1.0, (height - section.centre_m) / section.head_m)))

    sums = [0.0, 0.0, 0.0]
    for low, high in _stretches(section, breaks):
        if high <= section.spring_m + _TINY:
            values = integrate(upright, low, high)
        else:
            values = integrate(round_head, angle_of(low), angle_of(high))
        sums = [a + b for a, b in zip(sums, values, strict=True)]
    return sums[0], sums[1], sums[2]


def _stretches(section: Cut, breaks: tuple[float, ...]) -> Iterator[tuple[float, float]]:
    """Give the heights of an opening cut at every break of its own and of the shell."""
    marks = {section.low_m, section.high_m, section.spring_m, *breaks}
    heights = sorted(mark for mark in marks if section.low_m <= mark <= section.high_m)
    for low, high in zip(heights, heights[1:], strict=False):
        if high - low > _TINY:
            yield low, high


#: A point of an edge, sideways and above the floor, by its share of the edge.
EdgePoint = Callable[[float], tuple[float, float]]


def edges(
    section: Cut, breaks: tuple[float, ...] = (), sill: bool | None = None
) -> Iterator[tuple[float, EdgePoint]]:
    """Give length and points of each edge of an opening; jambs and the sides of a head twice, as one edge.

    Source: arithmetic.

    Parameters
    ----------
    section : Cut
        Cross-section of the opening [-]
    breaks : tuple of float
        Heights at which an edge is parted [m]
    sill : bool or None
        Whether the level edge at the bottom is one; None where the opening stands above the floor [-]

    Returns
    -------
    Iterator of (float, Callable)
        Length of each edge, and its points by their share of it, sideways and above the floor [m]

    Examples
    --------
    >>> door = cut(Opening(form="arched", width_m=1.0, height_m=2.0))
    >>> [round(length, 4) for length, _ in edges(door)], next(edges(door))[1](0.5)
    ([3.0, 1.5708], (0.5, 0.75))
    """
    low, spring, high = section.low_m, section.spring_m, section.high_m
    for start, end in _parted(low, spring, breaks):
        yield 2 * (end - start), lambda t, a=start, b=end: (section.half_m, _between(a, b, t))  # type: ignore[misc]
    for start, end in _parted(spring, high, breaks):
        one, two = (math.asin(max(-1.0, min(1.0, (z - section.centre_m) / section.head_m))) for z in (start, end))
        if two > one:
            yield (
                2 * section.head_m * (two - one),
                lambda t, a=one, b=two: _on_head(section, _between(a, b, t)),  # type: ignore[misc]
            )
    level = low > 0 if sill is None else sill
    top, bottom = section.half_width(high), section.half_width(low) if level else 0.0
    if top > _TINY:
        yield 2 * top, lambda t: (top * t, high)
    if bottom > _TINY:
        yield 2 * bottom, lambda t: (bottom * t, low)


def _parted(low: float, high: float, breaks: tuple[float, ...]) -> Iterator[tuple[float, float]]:
    """Part a stretch of heights at every break within it."""
    marks = sorted({low, high, *(mark for mark in breaks if low < mark < high)})
    for start, end in zip(marks, marks[1:], strict=False):
        yield start, end


def _between(low: float, high: float, share: float) -> float:
    return low + (high - low) * share


def _on_head(section: Cut, angle: float) -> tuple[float, float]:
    big = section.head_m
    return big * math.cos(angle) - section.beyond_m, section.centre_m + big * math.sin(angle)


def half_angle(face: Face, section: Cut, height: float) -> float:
    """Return half the angle that an opening takes of a face at one height, seen from the axis.

    Source: arithmetic.

    Parameters
    ----------
    face : Face
        The face [-]
    section : Cut
        Cross-section of the opening [-]
    height : float
        Height above the floor, within the opening [m]

    Returns
    -------
    float
        Half angle; a right angle where the opening is as wide as the face [rad]

    Examples
    --------
    >>> from foamwright.shape.meridian import hemisphere
    >>> door = cut(Opening(width_m=3.0))
    >>> round(math.degrees(half_angle(hemisphere(6.0, 0.5, 0.2).inside, door, 0.2)), 9)
    30.0
    """
    radius, half = face.radius(height), section.half_width(height)
    return math.asin(half / radius) if half < radius else math.pi / 2


def fit(face: Face, opening: Opening, path: str, aside: float = 0.0) -> Problem | None:
    """Say whether an opening fits under the inside face, and name what is in the way.

    Source: arithmetic; at every height half the width must stay within the inside circle there; in
    the end wall of a vault, within the profile.

    Parameters
    ----------
    face : Face
        Inside face of the shell [-]
    opening : Opening
        The opening as stated [-]
    path : str
        Where the opening stands in the project [-]
    aside : float
        How far its middle stands beside the axis [m]

    Returns
    -------
    Problem or None
        The first fault, with the greatest size that would fit [m]

    Examples
    --------
    >>> from foamwright.shape.meridian import hemisphere
    >>> tall = fit(hemisphere(6.0, 0.5, 0.2).inside, Opening(height_m=4.0), "parts[0].openings[0]")
    >>> tall.path, tall.code, round(tall.limit, 4)
    ('parts[0].openings[0].height_m', 'opening_too_high', 3.4661)
    """
    if opening.sill_m < 0:
        return Problem(f"{path}.sill_m", opening.sill_m, 0.0, "opening_below_floor")
    low = head_too_low(opening, path)
    if low:
        return low
    if _clear(face, opening, aside):
        return None
    if opening.sill_m >= face.crown_m:
        return Problem(f"{path}.sill_m", opening.sill_m, face.crown_m, "opening_too_high")
    if opening.form == "round":
        limit = _most(face, opening, "diameter_m", aside)
        code = (
            "opening_too_high"
            if opening.sill_m + opening.diameter_m >= face.crown_m
            else "opening_too_wide"
        )
        return Problem(f"{path}.diameter_m", opening.diameter_m, limit, code)
    least = max(_TINY, _HEADS.get(opening.form, 0.0) * opening.width_m / 2)
    if _clear(face, _with(opening, "height_m", least), aside):
        limit = _most(face, opening, "height_m", aside)
        return Problem(f"{path}.height_m", opening.height_m, limit, "opening_too_high")
    limit = _most(face, opening, "width_m", aside)
    if limit <= _TINY:
        # No width stands so high; what counts then is the width that stands at all.
        limit = _most(face, _with(opening, "height_m", _TINY), "width_m", aside)
    return Problem(f"{path}.width_m", opening.width_m, limit, "opening_too_wide")


def head_too_low(opening: Opening, path: str) -> Problem | None:
    """Say whether an arched or pointed opening is lower than its own head.

    Source: arithmetic.

    Parameters
    ----------
    opening : Opening
        The opening as stated [-]
    path : str
        Where the opening stands in the project [-]

    Returns
    -------
    Problem or None
        The fault, with the least height [m]

    Examples
    --------
    >>> head_too_low(Opening(form="arched", width_m=2.0, height_m=0.5), "parts[0].openings[0]").limit
    1.0
    """
    limit = _HEADS.get(opening.form, 0.0) * opening.width_m / 2
    if opening.form in _HEADS and opening.height_m < limit - _TINY:
        return Problem(f"{path}.height_m", opening.height_m, limit, "arch_head_too_low")
    return None


def _with(opening: Opening, name: str, value: float) -> Opening:
    sizes: dict[str, Any] = {name: value}
    if name == "width_m" and opening.form in _HEADS:
        sizes["height_m"] = max(opening.height_m, value / 2 * _HEADS[opening.form])
    return evolve(opening, **sizes)


def _most(face: Face, opening: Opening, name: str, aside: float) -> float:
    """Find by halving the greatest size that fits, the others held."""
    low, high = 0.0, float(getattr(opening, name))
    for _ in range(60):
        middle = (low + high) / 2
        if _clear(face, _with(opening, name, middle), aside):
            low = middle
        else:
            high = middle
    return low


def _clear(face: Face, opening: Opening, aside: float) -> bool:
    """Say whether the inside face stands beyond the opening at every height of it."""
    section = cut(opening)
    if section.high_m >= face.crown_m:
        return False

    def spare(height: float) -> float:
        return face.radius(height) - aside - section.half_width(height)

    return all(
        spare(height) > 0
        for low, high in _stretches(section, face.breaks_m)
        for height in _steps(low, high)
    ) and (spare(section.low_m) > 0)


def _steps(low: float, high: float) -> Iterator[float]:
    for i in range(_TRIALS + 1):
        yield low + (high - low) * i / _TRIALS


@frozen
class _Set:
    """An opening with all its repeats."""

    path: str
    section: Cut
    azimuths: tuple[float, ...]
    widest: float


def azimuths(opening: Opening) -> tuple[float, ...]:
    """Return the azimuths of an opening and its repeats.

    Source: arithmetic; `count` openings every `spacing_deg`, or evenly all round.

    Parameters
    ----------
    opening : Opening
        The opening as stated [-]

    Returns
    -------
    tuple of float
        Azimuths anticlockwise from +x, 0 up to 360 [deg]

    Examples
    --------
    >>> azimuths(Opening(azimuth_deg=45.0, count=4))
    (45.0, 135.0, 225.0, 315.0)
    """
    spacing = 360 / opening.count if opening.spacing_deg is None else opening.spacing_deg
    return tuple((opening.azimuth_deg + i * spacing) % 360 for i in range(opening.count))


def check(
    face: Face, openings: tuple[Opening, ...], path: str
) -> tuple[tuple[Problem, ...], tuple[Note, ...]]:
    """Find openings that cannot be built: too high, too wide, too many, or one in another.

    Source: arithmetic; openings overlap where their angles at one height of the inside face do,
    since a prism takes its greatest angle there.

    Parameters
    ----------
    face : Face
        Inside face of the shell [-]
    openings : tuple of Opening
        All openings of the part [-]
    path : str
        Where the part stands in the project [-]

    Returns
    -------
    tuple of (tuple of Problem, tuple of Note)
        Faults, and openings that stand but deserve a word [-]

    Examples
    --------
    >>> from foamwright.shape.meridian import hemisphere
    >>> pair = (Opening(), Opening(azimuth_deg=10.0))
    >>> check(hemisphere(6.0, 0.5, 0.2).inside, pair, "parts[0]")[0][0].code
    'openings_overlap'
    """
    problems: list[Problem] = []
    notes: list[Note] = []
    sets: list[_Set] = []
    base = face.radius(face.foot_m)
    for i, opening in enumerate(openings):
        where = f"{path}.openings[{i}]"
        problem = fit(face, opening, where)
        if problem:
            problems.append(problem)
            continue
        section = cut(opening)
        here = _Set(where, section, azimuths(opening), _widest(face, section, section))
        problem = _repeats(opening, here)
        if problem:
            problems.append(problem)
            continue
        sets.append(here)
        if face.radius(section.high_m) < base / 2:
            share = face.radius(section.high_m) / base
            notes.append(
                Note(
                    "opening_near_crown",
                    "caution",
                    where,
                    {"top_m": section.high_m, "radius_share": share, "limit": 0.5},
                    "practice_opening_near_crown",
                )
            )
    for j, later in enumerate(sets):
        for earlier in sets[:j]:
            if len(problems) >= _MOST_PROBLEMS:
                return tuple(problems), tuple(notes)
            gap = _nearest(earlier.azimuths, later.azimuths)
            if math.degrees(earlier.widest + later.widest) / 2 < gap - _TINY:
                continue
            needed = _widest(face, earlier.section, later.section)
            if math.degrees(needed) >= gap - _TINY:
                problems.append(
                    _overlap(
                        earlier.path, later.path, "azimuth_deg", later.azimuths[0], needed, gap
                    )
                )
    return tuple(problems), tuple(notes)


def _repeats(opening: Opening, here: _Set) -> Problem | None:
    """Say whether an opening and its repeats leave some shell between them."""
    least = math.degrees(here.widest) + _TINY
    most = math.ceil(360 / least) - 1
    if opening.count > most:
        return Problem(f"{here.path}.count", opening.count, most, "openings_too_many")
    if opening.count == 1 or opening.spacing_deg is None:
        return None
    gap = min(_gaps(here.azimuths))
    if gap > least:
        return None
    if abs((opening.spacing_deg + 180) % 360 - 180) <= least:
        spacing = opening.spacing_deg
        return _overlap(here.path, here.path, "spacing_deg", spacing, here.widest, gap)
    # Neighbours are far enough apart; the last ones have come round to the first.
    fitting = (n for n in range(opening.count - 1, 1, -1) if min(_gaps(here.azimuths[:n])) > least)
    most = next(fitting, 1)
    return Problem(f"{here.path}.count", opening.count, most, "openings_too_many")


def _overlap(
    first: str, second: str, name: str, value: float, needed: float, gap: float
) -> Problem:
    least = math.degrees(needed)
    params: dict[str, Scalar] = {
        "first": first,
        "second": second,
        "apart_deg": gap,
        "least_deg": least,
    }
    return Problem(f"{second}.{name}", value, least, "openings_overlap", params)


def _gaps(angles: tuple[float, ...]) -> list[float]:
    ring = sorted(angles)
    return [(b - a) % 360 for a, b in zip(ring, ring[1:], strict=False)] + [
        360 - (ring[-1] - ring[0])
    ]


def _nearest(first: tuple[float, ...], second: tuple[float, ...]) -> float:
    """Return the least angle between two sets of azimuths."""
    ring, least = sorted(first), 360.0
    for angle in second:
        at = bisect_left(ring, angle)
        for other in (ring[at - 1], ring[at % len(ring)]):
            away = (angle - other) % 360
            least = min(least, away, 360 - away)
    return least


def _widest(face: Face, first: Cut, second: Cut) -> float:
    """Return the greatest sum of two half angles at a common height; below 0 where they share none."""
    def both(height: float) -> float:
        return half_angle(face, first, height) + half_angle(face, second, height)

    return greatest(both, first, second, face.breaks_m)


def greatest(
    both: Callable[[float], float], first: Cut, second: Cut, breaks: tuple[float, ...] = ()
) -> float:
    """Return the greatest value of a function over the heights that two openings share.

    Source: arithmetic (golden section between tried heights).

    Parameters
    ----------
    both : Callable
        The function of the height [any]
    first : Cut
        One cross-section [-]
    second : Cut
        The other [-]
    breaks : tuple of float
        Heights at which the function is not smooth [m]

    Returns
    -------
    float
        The greatest value; -1 where the openings share no height [any]

    Examples
    --------
    >>> door = cut(Opening(form="arched", width_m=0.9, height_m=2.0))
    >>> round(greatest(lambda height: 2 * door.half_width(height), door, door), 9)
    0.9
    """
    low, high = max(first.low_m, second.low_m), min(first.high_m, second.high_m)
    if high - low <= _TINY:
        return -1.0
    marks = {low, high, first.spring_m, second.spring_m, *breaks}
    ends = sorted(mark for mark in marks if low <= mark <= high)
    heights = [h for a, b in zip(ends, ends[1:], strict=False) for h in _steps(a, b)]
    values = [both(height) for height in heights]
    at = values.index(max(values))
    left, right = heights[max(0, at - 1)], heights[min(len(heights) - 1, at + 1)]
    best = values[at]
    while right - left > 1e-7:
        a, b = right - _GOLDEN * (right - left), left + _GOLDEN * (right - left)
        at_a, at_b = both(a), both(b)
        best = max(best, at_a, at_b)
        left, right = (left, b) if at_a > at_b else (a, right)
    return best
