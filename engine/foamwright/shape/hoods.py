"""Hoods: collars of foamed concrete that stand out from the outside face, round an opening or over its head.

A collar fills what lies between the outline of its opening and the same outline set off by the collar's thickness, from the
outside face to a level plane square to the opening's way, so that its front is flat. On a curved face that plane stands as far
out as is stated from the point under the collar that lies farthest out; higher up, where the face leans back, the collar is
deeper. A collar round a door stands on the ground.
"""

import math
from bisect import bisect_left
from collections.abc import Callable, Iterator
from functools import lru_cache
from itertools import pairwise
from typing import Final

from attrs import evolve, frozen

from foamwright.project.model import Opening, Part
from foamwright.project.notes import Note, Problem, Scalar
from foamwright.shape.meridian import Meridian, meridian
from foamwright.shape.openings import Cut, azimuths, cut, edges, greatest, over, strip
from foamwright.shape.quadrature import gauss_legendre
from foamwright.shape.vault import end_thickness, spots, walled
from foamwright.shape.wall import cylinder, outline, places, top_at

_TINY: Final = 1e-9
#: Nodes of the rule along each stretch of an edge.
_NODES: Final = 10
#: Heights tried between two breaks.
_TRIALS: Final = 8
#: A part with more faults than this has been told enough.
_MOST_PROBLEMS: Final = 20

Rows = dict[str, list[float]]


@frozen
class Hood:
    """The collar of one opening, and how many are alike.

    Attributes
    ----------
    opening : int
        Place of its opening in the part, the first at 0 [-]
    kind : str
        ``head``: over the head alone; ``around``: all round [-]
    count : int
        Collars alike [-]
    front_from_m : float
        Where its front stands: from the axis of a dome or of a round wall, from the middle of a vault, from the face of a flat
        wall [m]
    depth_m : float
        Greatest depth of its inner faces, from the outside face to the front [m]
    outer_depth_m : float
        Greatest depth of its outer faces [m]
    edge_m : float
        Length of its outer edge; where it stands on the ground there is none [m]
    inner_edge_m : float
        Length of its inner edge likewise [m]
    volume_m3 : float
        Foamed concrete of one [m3]
    covered_m2 : float
        Outside face that one covers [m2]
    front_m2 : float
        Its flat front [m2]
    outer_m2 : float
        Its outer faces: sides, top and underside [m2]
    inner_m2 : float
        Its inner faces, which carry the reveal on [m2]
    """

    opening: int
    kind: str
    count: int
    front_from_m: float
    depth_m: float
    outer_depth_m: float
    edge_m: float
    inner_edge_m: float
    volume_m3: float
    covered_m2: float
    front_m2: float
    outer_m2: float
    inner_m2: float

    @property
    def gained_m2(self) -> float:
        """What the outside face gains by one: front and outer faces, less what is covered [m2]."""
        return self.front_m2 + self.outer_m2 - self.covered_m2


@frozen
class _Face:
    """The face that a collar starts on: of a dome or round wall (``round``), of a vault's side (``level``), or flat."""

    kind: str
    shell: Meridian | None = None

    def out(self, sideways: float, height: float) -> float:
        """How far out the face stands at a point of the cross-section."""
        if self.shell is None:
            return 0.0
        reach = self.shell.reach(height)
        return math.sqrt(max(0.0, reach * reach - sideways * sideways)) if self.kind == "round" else reach

    def farthest(self, low: float, high: float) -> float:
        """How far out the face stands at most between two heights; a skewback leans outward up to the foot of the face."""
        if self.shell is None:
            return 0.0
        foot = self.shell.outside.foot_m
        return max(self.out(0.0, height) for height in ((low, foot) if low < foot < high else (low,)))

    def under(self, section: Cut) -> tuple[float, float]:
        """Volume from the axis to the face over a cross-section, and the face within it [m3, m2]."""
        shell = self.shell
        if shell is None:
            return 0.0, section.area()

        def across(height: float, half: float) -> tuple[float, float, float]:
            reach, faced = shell.reach_and_ring(height)
            if self.kind == "round":
                return strip(half, reach), 2 * math.asin(min(1.0, half / reach)) * faced, 0.0
            return 2 * half * reach, 2 * half * faced / reach, 0.0

        volume, face, _ = over(section, shell.breaks_m, across)
        return volume, face

    @property
    def breaks(self) -> tuple[float, ...]:
        return self.shell.breaks_m if self.shell else ()


def hooded(opening: Opening) -> bool:
    """Say whether an opening has a hood; a passage to another part has none.

    Source: typed.

    Parameters
    ----------
    opening : Opening
        The opening as stated [-]

    Returns
    -------
    bool
        Whether it has [-]

    Examples
    --------
    >>> hooded(Opening()), hooded(Opening(hood="head"))
    (False, True)
    """
    return opening.hood != "none" and opening.to is None


def collar(opening: Opening) -> tuple[Cut, Cut]:
    """Return outer and inner outline of an opening's collar, both cut off where it ends.

    Source: arithmetic: the outline set off by the thickness, the corners of a rectangle mitred. Over the head it ends level with
    the springing of the head, with the middle of a round opening, or with the lintel's underside; all round it ends on the floor.

    Parameters
    ----------
    opening : Opening
        An opening with a hood [-]

    Returns
    -------
    tuple of (Cut, Cut)
        Outer and inner outline [-]

    Examples
    --------
    >>> door = Opening(form="arched", width_m=1.0, height_m=2.0, hood="around", hood_thickness_m=0.1)
    >>> outer, inner = collar(door)
    >>> outer.low_m, round(outer.high_m, 9), round(outer.area() - inner.area(), 6)
    (0.0, 2.1, 0.472788)
    """
    inner, thick = cut(opening), opening.hood_thickness_m
    low = max(0.0, inner.low_m - thick)
    high = inner.high_m + thick
    if opening.form == "pointed":
        high = inner.centre_m + math.sqrt((inner.head_m + thick) ** 2 - inner.beyond_m**2)
    centre = high if opening.form == "rectangular" else inner.centre_m
    spring = {"rectangular": high, "round": low}.get(opening.form, inner.spring_m)
    outer = Cut(low, spring, high, inner.half_m + thick, centre, inner.beyond_m)
    if opening.hood == "around":
        return outer, inner
    end = inner.centre_m
    return tuple(evolve(one, low_m=end, spring_m=max(end, one.spring_m)) for one in (outer, inner))  # type: ignore[return-value]


def _faces(part: Part, opening: Opening) -> Iterator[tuple[_Face, int]]:
    """Give the faces on which an opening and its repeats stand, and how many stand there."""
    if part.shape == "dome":
        yield _Face("round", meridian(part)), opening.count
    elif part.shape == "wall" and part.plan_form == "circle":
        yield _Face("round", cylinder(part)), opening.count
    elif part.shape == "wall":
        yield _Face("flat"), opening.count
    elif part.shape == "vault":
        walls = [spot.wall for spot in spots(part, opening)]
        ends = sum(wall.startswith("end") for wall in walls)
        if ends:
            yield _Face("flat"), ends
        if len(walls) > ends:
            yield _Face("level", meridian(part)), len(walls) - ends


def front(part: Part, opening: Opening, wall: str = "side_a") -> float:
    """Return where the front of an opening's collar stands.

    Source: arithmetic.

    Parameters
    ----------
    part : Part
        The part [-]
    opening : Opening
        An opening of it with a hood [-]
    wall : str
        In a vault, the wall in which it stands [-]

    Returns
    -------
    float
        From the axis of a dome or round wall, from the middle of a vault, from a flat face [m]

    Examples
    --------
    >>> front(Part(), Opening(hood="around", hood_projection_m=0.15)) == 3.2 + 0.15
    True
    """
    face = next(one for one, _ in _faces(part, opening) if (one.kind == "flat") == (wall.startswith("end") or one.kind == "flat"))
    outer, _ = collar(opening)
    return face.farthest(outer.low_m, outer.high_m) + opening.hood_projection_m


def _along(section: Cut, face: _Face, plane: float, sill: bool | None) -> tuple[float, float, float]:
    """Length of the edges of an outline, area of the faces along them up to a plane, and their greatest depth."""
    length = area = deepest = 0.0
    for long, point in edges(section, face.breaks, sill):
        length += long
        for node, weight in gauss_legendre(_NODES):
            depth = plane - face.out(*point((node + 1) / 2))
            area += long * weight / 2 * depth
            deepest = max(deepest, depth)
    return length, area, deepest


def _ends(outer: Cut, inner: Cut, face: _Face, plane: float) -> tuple[float, float]:
    """Length and area of the two undersides in which a collar over the head ends."""
    low = outer.low_m
    near, far = inner.half_width(low), outer.half_width(low)
    area = sum(
        weight * (far - near) * (plane - face.out(near + (far - near) * (node + 1) / 2, low))
        for node, weight in gauss_legendre(_NODES)
    )
    return 2 * (far - near), area


def _hood(index: int, opening: Opening, face: _Face, count: int) -> Hood:
    """Measure one collar."""
    outer, inner = collar(opening)
    plane = face.farthest(outer.low_m, outer.high_m) + opening.hood_projection_m
    (whole, all_face), (hole, hole_face) = face.under(outer), face.under(inner)
    ring = outer.area() - inner.area()
    head = opening.hood == "head"
    edge, sides, outermost = _along(outer, face, plane, False if head else None)
    inner_edge, within, deepest = _along(inner, face, plane, False if head else None)
    if head:
        more, below = _ends(outer, inner, face, plane)
        edge, sides = edge + more, sides + below
    return Hood(
        opening=index,
        kind=opening.hood,
        count=count,
        front_from_m=plane,
        depth_m=deepest,
        outer_depth_m=outermost,
        edge_m=edge,
        inner_edge_m=inner_edge,
        volume_m3=plane * ring - (whole - hole),
        covered_m2=all_face - hole_face,
        front_m2=ring,
        outer_m2=sides,
        inner_m2=within,
    )


@lru_cache(maxsize=128)
def hoods(part: Part) -> tuple[Hood, ...]:
    """Measure the hoods of a part.

    Source: arithmetic: on a flat face a ring times the projection; on a curved one the front's distance from the axis times the
    ring, less what lies between axis and face, by quadrature to 1e-10; faces along the edges by Gauss-Legendre rules.

    Parameters
    ----------
    part : Part
        The part as stated, its openings and hoods checked [-]

    Returns
    -------
    tuple of Hood
        One for each opening with a hood and each kind of face on which it stands; repeats are counted in it [-]

    Examples
    --------
    >>> hatch = Opening(width_m=1.0, height_m=0.5, sill_m=1.0, hood="around", hood_projection_m=0.2, hood_thickness_m=0.1)
    >>> one, = hoods(Part(shape="wall", openings=(hatch,)))
    >>> round(one.volume_m3, 9), round(one.outer_m2, 9), round(one.inner_m2, 9)
    (0.068, 0.76, 0.6)
    """
    return tuple(
        _hood(i, opening, face, count)
        for i, opening in enumerate(part.openings)
        if hooded(opening)
        for face, count in _faces(part, opening)
    )


# --- whether they can be built ----------------------------------------------------------------


def _outlines(opening: Opening) -> tuple[Cut, ...]:
    """What an opening takes of the outside face, its collar with it."""
    if not hooded(opening):
        return (cut(opening),)
    outer, _ = collar(opening)
    return (outer,) if opening.hood == "around" else (outer, cut(opening))


def _rows(part: Part, opening: Opening) -> Rows:
    """Where the middles of an opening and its repeats stand: degrees round an axis, metres along a wall."""
    if part.shape == "vault":
        rows: Rows = {}
        for spot in spots(part, opening):
            rows.setdefault(spot.wall, []).append(spot.along_m)
        return {wall: sorted(row) for wall, row in rows.items()}
    if part.shape == "wall" and part.plan_form != "circle":
        return {str(opening.side): sorted(places(part, opening))}
    return {"": sorted(azimuths(opening))}


def _wide(face: _Face, section: Cut, height: float) -> float:
    """Half of what an outline takes at a height: degrees round an axis, metres along a wall."""
    half = section.half_width(height)
    if face.kind != "round":
        return half
    reach = face.out(0.0, height)
    return math.degrees(math.asin(half / reach)) if half < reach else 90.0


def _heights(section: Cut, breaks: tuple[float, ...]) -> Iterator[float]:
    marks = {section.low_m, section.spring_m, section.high_m, *breaks}
    for low, high in pairwise(sorted(mark for mark in marks if section.low_m <= mark <= section.high_m)):
        for i in range(_TRIALS + 1):
            yield low + (high - low) * i / _TRIALS


def _has_room(part: Part, opening: Opening) -> bool:
    """Say whether the face goes on under the whole of a collar, wherever the opening is repeated."""
    outer, _ = collar(opening)
    rows = _rows(part, opening)
    if part.shape == "wall" and part.plan_form != "circle":
        number = opening.side - 1
        side, line = outline(part).sides[number], outline(part)
        far = part.thickness_m if line.closed else part.thickness_m / 2
        low, high = -far * side.first_tan, side.length_m + far * side.second_tan
        return all(
            low - _TINY <= at - outer.half_m
            and at + outer.half_m <= high + _TINY
            and all(
                z <= top_at(part, number, at + sign * outer.half_width(z)) + _TINY
                for z in _heights(outer, ())
                for sign in (-1, 1)
            )
            for at in rows[str(opening.side)]
        )
    if part.shape == "wall":
        return outer.half_m < part.inside_diameter_m / 2 + part.thickness_m and outer.high_m <= part.wall.height_m + _TINY
    shell = meridian(part)
    if outer.high_m >= shell.outside.crown_m:
        return False
    ends = walled(part) if part.shape == "vault" else ()
    thick = end_thickness(part)
    for wall, row in rows.items():
        if wall.startswith("side"):
            low, high = (-thick if "end_a" in ends else 0.0), part.length_m + (thick if "end_b" in ends else 0.0)
            if row[0] - outer.half_m < low - _TINY or row[-1] + outer.half_m > high + _TINY:
                return False
            continue
        aside = max(abs(at - part.inside_span_m / 2) for at in row) if wall else 0.0
        if any(shell.reach(z) - aside - outer.half_width(z) <= 0 for z in _heights(outer, shell.breaks_m)):
            return False
    return True


def _apart(first: Rows, second: Rows, ring: bool) -> float:
    """Least distance between the middles of two sets of openings; without end where they share no wall."""
    best = math.inf
    for wall, row in second.items():
        others = first.get(wall)
        if not others:
            continue
        line = [others[-1] - 360, *others, others[0] + 360] if ring else others
        for at in row:
            k = bisect_left(line, at)
            best = min(best, *(abs(at - other) for other in line[max(0, k - 1) : k + 1]))
    return best


def _repeats_apart(rows: Rows, ring: bool) -> float:
    """Least distance between an opening and its own repeats."""
    best = math.inf
    for row in rows.values():
        line = [*row, row[0] + 360] if ring and len(row) > 1 else row
        best = min(best, *(b - a for a, b in pairwise(line)), math.inf)
    return best


def _at_most(face: _Face, section: Cut) -> float:
    """A bound, quickly found, of what half an outline takes at any height: the face is nowhere nearer than at its top."""
    if face.kind != "round":
        return section.half_m
    least = min(face.out(0.0, section.low_m), face.out(0.0, section.high_m))
    return math.degrees(math.asin(section.half_m / least)) if section.half_m < least else 90.0


def _wide_of_both(face: _Face, first: Cut, second: Cut) -> Callable[[float], float]:
    return lambda height: _wide(face, first, height) + _wide(face, second, height)


def _needs(face: _Face, first: tuple[Cut, ...], second: tuple[Cut, ...]) -> float:
    """How far apart the middles of two outlines must stand at least."""
    most = -1.0
    for a in first:
        for b in second:
            both = _wide_of_both(face, a, b)
            most = max(most, greatest(both, a, b, face.breaks))
    return most


def _most(fits: Callable[[Opening], bool], opening: Opening) -> float:
    """Find by halving the greatest thickness that fits."""
    low, high = 0.0, opening.hood_thickness_m
    for _ in range(50):
        middle = (low + high) / 2
        if fits(evolve(opening, hood_thickness_m=middle)):
            low = middle
        else:
            high = middle
    return low


def check_hoods(part: Part, path: str) -> tuple[tuple[Problem, ...], tuple[Note, ...]]:
    """Find hoods that cannot be built: where the face ends under them, or where they meet another opening.

    Source: arithmetic; outlines meet where their widths at one height reach further than their middles stand apart. That a
    hood over a head should stand out no further than it is thick is common practice, no source.

    Parameters
    ----------
    part : Part
        A part whose openings fit [-]
    path : str
        Where it stands in the project [-]

    Returns
    -------
    tuple of (tuple of Problem, tuple of Note)
        Faults, each with the greatest thickness that fits, and hoods that stand but deserve a word [-]

    Examples
    --------
    >>> window = Opening(form="round", sill_m=1.0, count=2, spacing_deg=14.0, hood="around", hood_thickness_m=0.3)
    >>> found = check_hoods(Part(openings=(window,)), "parts[0]")[0][0]
    >>> found.code, round(found.limit, 3)
    ('hood_no_room', 0.077)
    """
    notes: list[Note] = []
    for i, opening in enumerate(part.openings):
        if opening.hood != "none" and opening.to is not None:
            names: dict[str, Scalar] = {"part": part.id}
            notes.append(Note("hood_on_passage", "caution", f"{path}.openings[{i}].hood", names, "arithmetic"))
    if not any(hooded(opening) for opening in part.openings):
        return (), tuple(notes)
    problems: list[Problem] = []
    ring = part.shape == "dome" or (part.shape == "wall" and part.plan_form == "circle")
    faces = [next(_faces(part, opening))[0] for opening in part.openings]
    rows = [_rows(part, opening) for opening in part.openings]
    shown = [_outlines(opening) for opening in part.openings]
    reach = [max(_at_most(face, section) for section in one) for face, one in zip(faces, shown, strict=True)]
    for i, opening in enumerate(part.openings):
        if len(problems) >= _MOST_PROBLEMS:
            break
        if not hooded(opening):
            continue
        where, thick = f"{path}.openings[{i}].hood_thickness_m", opening.hood_thickness_m
        if not _has_room(part, opening):
            limit = _most(lambda trial: _has_room(part, trial), opening)
            problems.append(Problem(where, thick, limit, "hood_beyond_face"))
            continue
        face, gap = faces[i], _repeats_apart(rows[i], ring)
        if 2 * reach[i] >= gap - _TINY and _needs(face, shown[i], shown[i]) >= gap - _TINY:

            def alone(trial: Opening, face: _Face = face, gap: float = gap) -> bool:
                return _needs(face, _outlines(trial), _outlines(trial)) < gap - _TINY

            problems.append(Problem(where, thick, _most(alone, opening), "hood_no_room"))
            continue
        for j, other in enumerate(part.openings):
            # A pair of hoods is told once, at the later one.
            if j == i or (j > i and hooded(other)):
                continue
            gap = _apart(rows[j], rows[i], ring)
            if reach[i] + reach[j] < gap - _TINY or _needs(face, shown[i], shown[j]) < gap - _TINY:
                continue

            def beside(trial: Opening, face: _Face = face, gap: float = gap, j: int = j) -> bool:
                return _needs(face, _outlines(trial), shown[j]) < gap - _TINY

            params: dict[str, Scalar] = {"beside": f"{path}.openings[{j}]"}
            problems.append(Problem(where, thick, _most(beside, opening), "hood_no_room", params))
            break
        if opening.hood == "head" and opening.hood_projection_m > thick + _TINY:
            far: dict[str, Scalar] = {"part": part.id, "projection_m": opening.hood_projection_m, "limit": thick}
            notes.append(Note("hood_far", "caution", f"{path}.openings[{i}].hood_projection_m", far, "practice_hood"))
    if problems:
        return tuple(problems), tuple(notes)
    number = sum(opening.count for opening in part.openings if hooded(opening))
    told: dict[str, Scalar] = {"part": part.id, "number": number}
    notes.append(Note("hoods_not_checked", "info", f"{path}.openings", told, "practice_hood"))
    return (), tuple(notes)
