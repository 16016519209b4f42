"""Elevations to scale: a part as whoever stands far away sees it, openings where and as wide as they are seen, never mirrored.

Where lines and labels stand depends on the project alone; the reader's language and unit change the words only.
"""

from collections.abc import Sequence
from math import dist
from typing import Final

from attrs import field, frozen

from foamwright.project.model import Opening, Part
from foamwright.shape.courses import Course
from foamwright.shape.meridian import Meridian, line, meridian
from foamwright.shape.openings import cut
from foamwright.shape.vault import end_thickness, spots, walled
from foamwright.shape.views import SIDES_DEG, Sight, heights, side_view, sights
from foamwright.shape.wall import Point, cylinder
from foamwright.sheets.drawing import between, beyond, holes, jamb
from foamwright.sheets.paper import ROW_MM, SCALES, Hand, Paper, apart, fits, slot

_STEPS: Final = 16
_TINY: Final = 1e-6


@frozen
class Level:
    """A height that is measured from the floor: where its line starts, and the field that sets it."""

    height_m: float
    from_m: float
    path: str


@frozen
class Stand:
    """A place that is measured along a level line: across the drawing, the length that is told, and its field."""

    across_m: float
    told_m: float
    path: str


@frozen
class Face:
    """What one elevation shows, in metres: to the right, and above the floor."""

    solids: tuple[tuple[str, tuple[tuple[Point, ...], ...]], ...]
    lines: tuple[tuple[str, tuple[tuple[Point, Point], ...]], ...]
    sights: tuple[Sight, ...]
    levels: tuple[Level, ...]
    total: Level
    across: tuple[float, float, str]
    stands: tuple[Stand, ...] = ()
    start_m: float = 0.0
    azimuths_deg: tuple[float, ...] = field(default=())
    walls: tuple[str, ...] = field(default=())
    #: Of a section: openings that it cuts, the clear width inside, and where the shell's thickness may be told.
    cuts: tuple[Sight, ...] = ()
    inside: tuple[float, float, str] | None = None
    inside_high: Level | None = None
    thickness: tuple[tuple[Point, Point], ...] = ()


def edge(opening: Opening) -> tuple[Point, ...]:
    """Return the edge of an opening that is seen square: to the right of its middle, and above the floor [m]."""
    section = cut(opening)
    right = [(section.half_width(height), height) for height in heights(section)]
    return (*right, *((-across, height) for across, height in reversed(right)))


def _levels(part: Part, path: str, found: Sequence[Sight]) -> list[Level]:
    """Sills and heads of the openings that are seen."""
    out = []
    for i in dict.fromkeys(sight.opening for sight in found):
        opening, section = part.openings[i], cut(part.openings[i])
        from_m = max(x for sight in found if sight.opening == i for x, _ in sight.edge_m)
        tall = "diameter_m" if opening.form == "round" else "height_m"
        out.append(Level(section.low_m, from_m, f"{path}.openings[{i}].sill_m"))
        out.append(Level(section.high_m, from_m, f"{path}.openings[{i}].{tall}"))
    return out


def _profile(shell: Meridian) -> tuple[Point, ...]:
    """The outside of a shell from its foot on the right over its crown to its foot on the left."""
    right = [(shell.reach(0.0), 0.0), *shell.outside.points(_STEPS)]
    return (*right, *((-x, z) for x, z in reversed(right)))


def _room(shell: Meridian) -> tuple[Point, ...]:
    """The inside of a shell likewise."""
    right = shell.inside.points(_STEPS)
    return (*right, *((-x, z) for x, z in reversed(right)))


def _own(part: Part) -> str:
    """The field that sets how high a shell stands."""
    if part.shape == "wall":
        return "wall.height_m"
    if part.profile not in ("hemisphere", "semicircle"):
        return "rise_m"
    return "inside_span_m" if part.shape == "vault" else "inside_diameter_m"


def round_faces(part: Part, path: str, courses: Sequence[Course]) -> list[Face]:
    """Return the elevations of a dome or a round wall: from four sides, those alike put together, those without openings left out.

    Source: `foamwright.shape.views`.

    Parameters
    ----------
    part : Part
        The part [m]
    path : str
        Its path in the project [-]
    courses : Sequence of Course
        The courses of its shell [m]

    Returns
    -------
    list of Face
        At least one [-]
    """
    dome = part.shape == "dome"
    shell = meridian(part) if dome else cylinder(part)
    top = shell.outside.crown_m
    alike: dict[tuple[tuple[int, float], ...], list[float]] = {}
    views = {azimuth: sights(part, shell, azimuth) for azimuth in SIDES_DEG}
    for azimuth, found in views.items():
        alike.setdefault(tuple((sight.opening, round(sight.turn_deg, 6)) for sight in found), []).append(azimuth)
    if len(alike) > 1:
        alike.pop((), None)
    beds = tuple(
        ((-course.outside_radius_m, course.outside_height_m), (course.outside_radius_m, course.outside_height_m))
        for course in courses
        if course.outside_height_m > _TINY
    )
    far = shell.reach(0.0)
    across = f"{path}.inside_diameter_m"
    out = []
    for azimuths in alike.values():
        found = views[azimuths[0]]
        stem = [Level(part.stem_height_m, far, f"{path}.stem_height_m")] if dome and part.stem_height_m > 0 else []
        out.append(Face(
            solids=(("shell", (_profile(shell),)),),
            lines=(("springing", beds),),
            sights=found,
            levels=(*stem, *_levels(part, path, found)),
            total=Level(top, -far, f"{path}.{_own(part)}"),
            across=(-far, far, across),
            azimuths_deg=tuple(azimuths),
        ))  # fmt: skip
    return out


def vault_faces(part: Part, path: str, courses: Sequence[Course]) -> list[Face]:
    """Return the elevations of a vault: both sides and both ends, two bare ones alike put together.

    Source: arithmetic. Seen from outside, end a is on the left of side b and on the right of side a; side a is on the left
    of end a and on the right of end b.

    Parameters
    ----------
    part : Part
        The vault [m]
    path : str
        Its path in the project [-]
    courses : Sequence of Course
        The courses of its shell and its end walls [m]

    Returns
    -------
    list of Face
        Two to four [-]
    """
    shell = meridian(part)
    standing, half, thick = walled(part), part.length_m / 2, end_thickness(part)
    found: dict[str, list[tuple[int, float]]] = {wall: [] for wall in ("side_a", "side_b", "end_a", "end_b")}
    for i, opening in enumerate(part.openings):
        for spot in spots(part, opening):
            found[spot.wall].append((i, spot.along_m))
    out = []
    for pair in (("side_a", "side_b"), ("end_a", "end_b")):
        bare = not found[pair[0]] and not found[pair[1]]
        alike = bare and (pair[0] == "side_a" or part.ends != "one")
        for walls in ((pair,) if alike else ((pair[0],), (pair[1],))):
            out.append(_vault_face(part, path, shell, walls, found[walls[0]], courses, half, thick, standing))
    return out


def _vault_face(
    part: Part, path: str, shell: Meridian, walls: tuple[str, ...], found: list[tuple[int, float]], courses: Sequence[Course],
    half: float, thick: float, standing: tuple[str, ...],
) -> Face:  # fmt: skip
    wall, top = walls[0], shell.outside.crown_m
    beds = [course for course in courses if course.element == "shell"]
    solids: tuple[tuple[str, tuple[tuple[Point, ...], ...]], ...]
    if wall.startswith("side"):
        # Whoever looks at side a has end a on the right.
        way = -1.0 if wall == "side_a" else 1.0
        left, right = sorted((way * (-half - thick * ("end_a" in standing)), way * (half + thick * ("end_b" in standing))))
        start = -way * half
        solids = (("shell", (((left, 0.0), (right, 0.0), (right, top), (left, top)),)),)
        lines = [((-half, c.outside_height_m), (half, c.outside_height_m)) for c in beds if c.outside_height_m > _TINY]
        lines += [((x, 0.0), (x, top)) for x in (-half, half) if abs(x - left) > _TINY and abs(x - right) > _TINY]
        middles = [(i, start + way * along, along) for i, along in found]
        across = f"{path}.length_m"
    else:
        # Whoever looks at end a has side a on the left.
        way, span = (1.0 if wall == "end_a" else -1.0), part.inside_span_m / 2
        start = -way * span
        right = shell.reach(0.0)
        left = -right
        outer = _profile(shell)
        if wall in standing:
            solids = (("shell", (outer,)),)
            lines = [
                ((-c.outside_radius_m, c.outside_height_m), (c.outside_radius_m, c.outside_height_m))
                for c in courses if c.element == wall and c.outside_height_m > _TINY
            ]  # fmt: skip
        else:
            solids = (("room", (_room(shell),)), ("shell", (outer, _room(shell))))
            lines = [
                ((side * c.radius_m, c.height_m), (side * c.outside_radius_m, c.outside_height_m))
                for c in beds if c.outside_height_m > _TINY for side in (1.0, -1.0)
            ]  # fmt: skip
        middles = [(i, start + way * along, along) for i, along in found]
        across = f"{path}.inside_span_m"
    seen = tuple(
        Sight(i, tuple((middle + x, z) for x, z in edge(part.openings[i])), 0.0, along)
        for i, middle, along in sorted(middles, key=lambda one: one[1])
    )
    stem = [Level(part.stem_height_m, right, f"{path}.stem_height_m")] if part.stem_height_m > 0 else []
    return Face(
        solids=solids,
        lines=(("springing", tuple(lines)),),
        sights=seen,
        levels=(*stem, *_levels(part, path, seen)),
        total=Level(top, left, f"{path}.{_own(part)}"),
        across=(left, right, across),
        stands=tuple(Stand(middle, along, f"{path}.openings[{i}].along_m") for i, middle, along in middles),
        start_m=start,
        walls=walls,
    )


def side_face(part: Part, path: str, index: int, courses: Sequence[Course]) -> Face:
    """Return the elevation of one side of a straight wall, seen from outside.

    Source: the outline of the shape room; where corners run clockwise, the first one is on the right.

    Parameters
    ----------
    part : Part
        The wall [m]
    path : str
        Its path in the project [-]
    index : int
        The side, from 0 [-]
    courses : Sequence of Course
        Its courses; none where its blocks are counted by volume [m]

    Returns
    -------
    Face
        What is seen [-]
    """
    view, tall = side_view(part, index), part.wall.height_m
    left, right = view.left_m, view.right_m
    peak = max(z for _, z in view.ring)
    seen = tuple(Sight(i, tuple((middle + x, z) for x, z in edge(part.openings[i])), 0.0, along) for i, along, middle in view.holes)
    levels = _levels(part, path, seen)
    total = Level(peak, left, f"{path}.wall.height_m")
    if peak > tall + _TINY:
        levels.insert(0, Level(tall, right, f"{path}.wall.height_m"))
        total = Level(peak, left, f"{path}.wall.gable_rise_m")
    beds = sorted({round(c.height_m, 6) for c in courses if _TINY < c.height_m < tall - _TINY})
    named = {"rectangle": "inside_span_m" if index % 2 else "length_m"}.get(part.plan_form, f"plan[{index}]")
    return Face(
        solids=(("shell", (view.ring,)),),
        lines=(
            ("springing", tuple(((left, z), (right, z)) for z in beds)),
            ("headroom", tuple((a, b) for ring in view.frame for a, b in zip(ring, (*ring[1:], ring[0]), strict=True))),
        ),
        sights=seen,
        levels=tuple(levels),
        total=total,
        across=(left, right, f"{path}.{named}"),
        stands=tuple(Stand(middle, along, f"{path}.openings[{i}].along_m") for i, along, middle in view.holes),
        start_m=view.across(0.0),
        walls=(str(index + 1),),
    )


def section_face(part: Part, path: str, courses: Sequence[Course]) -> Face:
    """Return the section through the axis of a dome along azimuth 0, or across a vault, with its beds.

    Source: the profile of the shape room; what is seen beyond the cut lies on the inside face.

    Parameters
    ----------
    part : Part
        A dome or a vault [m]
    path : str
        Its path in the project [-]
    courses : Sequence of Course
        The courses of its shell [m]

    Returns
    -------
    Face
        What is cut, and what is seen beyond [-]
    """
    shell = meridian(part)
    found = holes(part)
    top, far, near = shell.outside.crown_m, shell.reach(max(0.0, shell.outside.foot_m)), shell.inside.radius(0.0)
    solids: list[tuple[str, tuple[tuple[Point, ...], ...]]] = [("room", (_room(shell),))]
    pieces: list[tuple[Point, ...]] = []
    tops: dict[int, tuple[tuple[Point, ...], tuple[Point, ...]]] = {}
    beds: list[tuple[Point, Point]] = []
    cuts: list[Sight] = []
    for side in (1, -1):
        low, spans = 0.0, []
        for a, b, i in sorted(found.through.get(side, [])):
            if a > low:
                spans.append((low, a))
            low = max(low, b)
            cuts.append(Sight(i, tuple((side * x, z) for x, z in jamb(part, shell, cut(part.openings[i]))), 0.0, None))
        for a, b in spans:
            ring = (*beyond(shell, a, b), *reversed(between(shell.inside, a, b)))
            pieces.append(tuple((side * x, z) for x, z in ring))
        tops[side] = (
            tuple((side * x, z) for x, z in beyond(shell, low, top)),
            tuple((side * x, z) for x, z in between(shell.inside, low, shell.inside.crown_m)),
        )
        spans.append((low, top))
        beds += [
            ((side * c.radius_m, c.height_m), (side * c.outside_radius_m, c.outside_height_m))
            for c in courses
            if c.element == "shell" and c.height_m > _TINY and any(a - _TINY <= c.height_m <= b + _TINY for a, b in spans)
        ]  # fmt: skip
    (right_out, right_in), (left_out, left_in) = tops[1], tops[-1]
    if shell.opening_m > 0:
        pieces += [(*right_out, *reversed(right_in)), (*left_out, *reversed(left_in))]
    else:
        pieces.append((*right_out, *reversed(left_out), *left_in, *reversed(right_in)))
    solids.append(("shell", tuple(pieces)))
    inner = line(part)
    marks: list[tuple[Point, Point]] = []
    for share in (0.56, 0.66, 0.46, 0.76, 0.36):
        spot = inner.at(share)
        start = (spot.radius_m, part.stem_height_m + spot.height_m)
        if start[1] < shell.inside.crown_m:
            marks.append((start, (start[0] + part.thickness_m * spot.normal_r, start[1] + part.thickness_m * spot.normal_z)))
    width = f"{path}.{'inside_span_m' if part.shape == 'vault' else 'inside_diameter_m'}"
    stem = [Level(part.stem_height_m, far, f"{path}.stem_height_m")] if part.stem_height_m > 0 else []
    return Face(
        solids=tuple(solids),
        lines=(("springing", tuple(beds)),),
        sights=tuple(Sight(i, tuple(edge_), 0.0, None) for i, edge_ in found.seen),
        levels=tuple(stem),
        inside_high=Level(shell.inside.crown_m, 0.0, f"{path}.{_own(part)}"),
        total=Level(top, -far, f"{path}.{_own(part)}"),
        across=(-far, far, width),
        cuts=tuple({(one.opening, one.edge_m): one for one in cuts}.values()),
        inside=(-near, near, width),
        # A shell that tapers has no one thickness to tell there.
        thickness=tuple(marks) if part.crown_thickness_m in (None, part.thickness_m) else (),
    )


def _kept(face: Face, mm: float) -> list[Level]:
    """The levels that find room beside the drawing, the lowest first."""
    room = max(2, int((face.total.height_m * mm + 2 * ROW_MM) / ROW_MM))
    found: dict[float, Level] = {}
    for level in face.levels:
        if level.height_m > _TINY and abs(level.height_m - face.total.height_m) > 0.0005:
            found.setdefault(round(level.height_m, 3), level)
    return sorted(list(found.values())[:room], key=lambda level: level.height_m)


def _stood(face: Face) -> list[Stand]:
    """The places along the drawing, each once, from left to right."""
    found = {round(stand.across_m, 4): stand for stand in reversed(face.stands)}
    return [found[key] for key in sorted(found)]


def draw(face: Face, hand: Hand, path: str, title: str, stamp: bool) -> str:
    """Draw an elevation to the largest scale that fits the page.

    Heights on the right run from the floor up, places below from the end where the line begins.

    Source: the face; ISO 129-1 for dimensions that run from one origin.

    Parameters
    ----------
    face : Face
        What is seen [m]
    hand : Hand
        The reader's words and numbers [-]
    path : str
        The part's path in the project [-]
    title : str
        What the drawing shows [-]
    stamp : bool
        Whether the part must not be built [-]

    Returns
    -------
    str
        An SVG element [-]
    """
    left, right, across = face.across
    top = face.total.height_m
    stood = _stood(face)
    beside_left = slot(top) + 1.5
    beside_right = 5.9 + max((slot(level.height_m) for level in face.levels), default=0.0)
    row = 7.5 + ROW_MM if stood else 2.0 + ROW_MM if face.inside else 0.0
    below = row + 7.0 + ROW_MM / 2
    for scale in SCALES:
        mm = 1000.0 / scale
        levels = _kept(face, mm)
        spots_mm = apart([level.height_m * mm for level in levels], ROW_MM)
        above = max(4.0, max(spots_mm, default=0.0) + ROW_MM / 2 + 0.5 - top * mm)
        under = max(below, 0.5 + ROW_MM / 2 - min(spots_mm, default=0.0))
        if fits((right - left) * mm + beside_left + beside_right, above + top * mm + under, stamp):
            break
    paper = Paper(scale, (left, 0.0), (right, top), (beside_left, beside_right, above, under))
    paper.line("ground", paper.d(((left - 2 / mm, 0.0), (right + 2 / mm, 0.0)), closed=False))
    for kind, shapes in face.solids:
        paper.line(kind, "".join(paper.d(shape) for shape in shapes), ' fill-rule="evenodd"')
    for kind, pairs in face.lines:
        paper.line(kind, paper.segments(list(pairs)))
    high = _axis(paper, face, hand) if face.inside_high else ""
    _heights(paper, face, levels, spots_mm, hand)
    x0, y0 = paper.at((left, 0.0))
    x1, y1 = paper.at((right, top))
    beside, under_y = x0 - 0.75 - slot(top) / 2, y0 + row + 6.5
    paper.keep(beside, (y0 + y1) / 2, slot(top))
    paper.keep((x0 + x1) / 2, under_y, slot(right - left))
    marks = []
    for sight in face.sights:
        xs, ys = zip(*(paper.at(point) for point in sight.edge_m), strict=True)
        low_x, high_x, high_y, low_y = min(xs), max(xs), min(ys), max(ys)
        middle, size = ((low_x + high_x) / 2, (low_y + high_y) / 2), ROW_MM / 2 + 1.0
        tried = [middle] if min(high_x - low_x, low_y - high_y) > ROW_MM + 1.0 else []
        tried += [place for place in ((middle[0], low_y + size), (middle[0], high_y - size)) if high_y > 0 and place[1] + size <= y0 + 0.5]
        tried += [(high_x + size, middle[1]), (low_x - size, middle[1])]
        marks.append(paper.mark(tried, hand.whole(sight.opening + 1)))
    for sight in face.sights:
        hole = f'<path class="hole" d="{paper.d(sight.edge_m)}"/>'
        named = hand.s._("Opening %(number)s", number=hand.whole(sight.opening + 1))
        paper.touch(hand.field(f"{path}.openings[{sight.opening}].form"), named, hole)
    # The whole height on the left, the whole width below.
    x, y = beside, under_y
    told = hand.length(top)
    paper.touch(hand.field(face.total.path), hand.full(top), paper.dimension((x, y0), (x, y1)) + paper.label(x, (y0 + y1) / 2, told))
    paper.line("springing", paper.stroke([((x, y1), (paper.at((0.0 if left < 0 < right else left, top))[0], y1))]))
    told = hand.length(right - left)
    paper.touch(hand.field(across), hand.full(right - left), paper.dimension((x0, y), (x1, y)) + paper.label((x0 + x1) / 2, y, told))
    for one in face.cuts:
        named = hand.s._("Opening %(number)s", number=hand.whole(one.opening + 1))
        paper.touch(hand.field(f"{path}.openings[{one.opening}].form"), named, f'<path class="jamb" d="{paper.d(one.edge_m)}"/>')
    if face.inside_high:
        paper.touch(hand.field(face.inside_high.path), hand.full(face.inside_high.height_m), high)
    if face.inside:
        _inside(paper, face, path, hand)
    if stood:
        _places(paper, face, stood, y0 + 5.0, hand)
    paper.add("".join(marks))
    return hand.page(paper, title, stamp=stamp)


def _axis(paper: Paper, face: Face, hand: Hand) -> str:
    """The clear height in the axis of a section, told where no opening is seen if there is such a place."""
    assert face.inside_high is not None
    tall = face.inside_high.height_m
    (x, y0), (_, y1) = paper.at((0.0, 0.0)), paper.at((0.0, tall))
    width = slot(tall)

    def clear(y: float) -> bool:
        for sight in face.sights:
            xs, ys = zip(*(paper.at(point) for point in sight.edge_m), strict=True)
            if min(xs) < x + width / 2 and max(xs) > x - width / 2 and min(ys) < y + ROW_MM and max(ys) > y - ROW_MM:
                return False
        return True

    tried = [y0 + (y1 - y0) * share for share in (0.42, 0.3, 0.55, 0.2, 0.7, 0.8)]
    y = next((place for place in tried if clear(place)), tried[0])
    paper.keep(x, y, width)
    return paper.dimension((x, y0), (x, y1)) + paper.label(x, y, hand.length(tall))


def _inside(paper: Paper, face: Face, path: str, hand: Hand) -> None:
    """The clear width below a section, and the thickness where there is room for it."""
    assert face.inside is not None
    near, far, width = face.inside
    (x0, y0), (x1, _) = paper.at((near, 0.0)), paper.at((far, 0.0))
    y = y0 + 6.5
    body = paper.dimension((x0, y), (x1, y)) + paper.label((x0 + x1) / 2, y, hand.length(far - near))
    paper.keep((x0 + x1) / 2, y, slot(far - near))
    paper.touch(hand.field(width), hand.full(far - near), body)
    for a, b in face.thickness:
        long = dist(a, b)
        inner, outer = paper.at(a), paper.at(b)
        run, rise = (b[0] - a[0]) / long, (b[1] - a[1]) / long
        away = 1.5 + run * slot(long) / 2 + rise * ROW_MM / 2
        at = (outer[0] + run * away, outer[1] - rise * away)
        if paper.free(*at, slot(long)):
            paper.keep(*at, slot(long))
            paper.touch(hand.field(f"{path}.thickness_m"), hand.full(long), paper.dimension(inner, outer) + paper.label(*at, hand.length(long)))
            return


def _heights(paper: Paper, face: Face, levels: list[Level], spots_mm: list[float], hand: Hand) -> None:
    """One line on the right with a stroke at every height from the floor up, and the heights beside it."""
    if not levels:
        return
    right, floor = paper.at((face.across[1], 0.0))
    x = right + 2.6
    paper.line("springing", paper.stroke([(paper.at((level.from_m, level.height_m)), (x, floor - level.height_m * paper.mm)) for level in levels]))
    high = floor - levels[-1].height_m * paper.mm
    strokes = [((x, floor), (x, high)), ((x - 1.6, floor), (x + 1.6, floor))]
    paper.line("dim", paper.stroke(strokes))
    for level, spot in zip(levels, spots_mm, strict=True):
        y, width = floor - level.height_m * paper.mm, slot(level.height_m)
        at = x + 2.8 + width / 2
        lead = f'<path class="dim" d="{paper.stroke([((x - 1.6, y), (x, y)), ((x, y), (x + 2.6, floor - spot))])}"/>'
        paper.keep(at, floor - spot, width)
        paper.touch(hand.field(level.path), hand.full(level.height_m), lead + paper.label(at, floor - spot, hand.length(level.height_m)))


def _places(paper: Paper, face: Face, stood: list[Stand], y: float, hand: Hand) -> None:
    """One line below with a stroke at the middle of every opening, and how far it stands from where the line begins."""
    start = paper.at((face.start_m, 0.0))[0]
    ends = [paper.at((stand.across_m, 0.0))[0] for stand in stood]
    far = max(ends, key=lambda x: abs(x - start))
    paper.line("dim", paper.stroke([((start, y), (far, y)), ((start, y - 1.6), (start, y + 1.6))]))
    for stand, x in zip(stood, ends, strict=True):
        body = f'<path class="dim" d="{paper.stroke([((x, y - 1.6), (x, y + 1.6))])}"/>'
        at, width = y + 2.2 + ROW_MM / 2, slot(stand.told_m)
        if paper.free(x, at, width):
            paper.keep(x, at, width)
            body += paper.label(x, at, hand.length(stand.told_m))
        paper.touch(hand.field(stand.path), hand.full(stand.told_m), body)
