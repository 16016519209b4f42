"""Plans to scale: each part in its own frame, and the whole project with every part at its place, never mirrored.

The plan lies as it is stated: azimuth 0 to the right, azimuths and corners anticlockwise. Where lines and labels stand
depends on the project alone; the reader's language and unit change the words only.
"""

import math
from collections.abc import Sequence
from typing import Final

from attrs import frozen

from foamwright.project.model import SHELLS, Part
from foamwright.shape.views import Gap, Ring, gaps, placed, radii, rings
from foamwright.shape.wall import Point, Side, frame, outline, posts_along
from foamwright.sheets.fields import CHOICES
from foamwright.sheets.paper import ROW_MM, SCALES, Box, Hand, Paper, fits, slot, turned, wide

_MARK_MM: Final = ROW_MM + 0.6
#: Where along a line its length may stand, the middle first.
_ALONG: Final = (0.5, 0.45, 0.55, 0.4, 0.6, 0.35, 0.65, 0.3, 0.7, 0.25, 0.75, 0.2, 0.8, 0.15, 0.85)
#: Tenths of a metre in which a passage must meet the part that it leads to.
_REACH: Final = 100
#: Where the thickness of a round wall may be told, away from its openings [deg].
_THICK_AT: Final = (67.5, 112.5, 22.5, 157.5, 202.5, 337.5, 247.5, 292.5, 52.5, 127.5, 37.5, 142.5)


@frozen
class Measure:
    """A dimension line: both ends on the page about the frame's origin, y upwards, the length that it tells, its fields."""

    start: Point
    end: Point
    told_m: float
    paths: tuple[str, ...]

    @property
    def middle(self) -> Point:
        """Where its label stands [mm]."""
        return (self.start[0] + self.end[0]) / 2, (self.start[1] + self.end[1]) / 2


def is_round(part: Part) -> bool:
    """Say whether the plan of a part is a circle."""
    return part.shape == "dome" or (part.shape != "vault" and part.plan_form == "circle")


def _side_path(part: Part, path: str, index: int) -> str:
    if part.plan_form == "rectangle":
        return f"{path}.{'inside_span_m' if index % 2 else 'length_m'}"
    return f"{path}.plan[{index}]"


def _measures(part: Part, path: str, mm: float, found: Sequence[Gap]) -> list[Measure]:
    """The dimension lines outside a plan, at one scale."""
    if is_round(part):
        far = radii(part)[1]
        y = -far * mm - 2 * ROW_MM - 2.0
        return [Measure((-far * mm, y), (far * mm, y), 2 * far, (f"{path}.inside_diameter_m",))]
    out = []
    if part.shape == "vault":
        half, far = radii(part)
        x = part.length_m / 2
        outer = rings(part)[0].corners_m
        y = -far * mm - 3.0 - ROW_MM - (_MARK_MM if any(gap.wall == "side_b" for gap in found) else 0.0)
        out.append(Measure((-x * mm, y), (x * mm, y), part.length_m, (f"{path}.length_m",)))
        y -= ROW_MM + 2.0
        left, right = outer[0][0], outer[1][0]
        out.append(Measure((left * mm, y), (right * mm, y), right - left, (f"{path}.end_thickness_m", f"{path}.length_m")))
        out.append(Measure((0.0, -half * mm), (0.0, half * mm), 2 * half, (f"{path}.inside_span_m",)))
        return out
    return _beside(part, path, mm, found)


def _beside(part: Part, path: str, mm: float, found: Sequence[Gap]) -> list[Measure]:
    """The lengths of the sides of a straight wall: outside each, or inside it where another is told there."""
    line = outline(part)
    low, high = (0.0, part.thickness_m) if line.closed else (-part.thickness_m / 2, part.thickness_m / 2)
    out: list[Measure] = []
    taken: list[tuple[Box, Box]] = []
    for i in (0, 1) if part.plan_form == "rectangle" else range(len(line.sides)):
        side = line.sides[i]
        marked = any(gap.wall == str(i + 1) for gap in found)
        # Beside an upright side the label lies across its line and needs more room.
        width = slot(side.length_m)
        across = abs(side.out[0]) * width / 2 + abs(side.out[1]) * ROW_MM / 2
        tried: list[tuple[Measure, Box, Box]] = []
        outside, inside = (high, 2.0 + across + (_MARK_MM if marked else 0.0)), (low, -2.0 - across)
        order = (inside, outside) if line.closed and abs(side.out[0]) > 0.7 else (outside, inside)
        for face, off in (*order, (high, 2.0 + across + width)):
            ends = [
                (p[0] * mm + side.out[0] * off, p[1] * mm + side.out[1] * off)
                for p in (side.at(0.0, face), side.at(side.length_m, face))
            ]
            one = Measure(ends[0], ends[1], side.length_m, (_side_path(part, path, i),))
            (x, y), (ax, ay), (bx, by) = one.middle, one.start, one.end
            label = (x - width / 2, y - ROW_MM / 2, x + width / 2, y + ROW_MM / 2)
            if off < 0 and line.closed and not _box_within(label, mm, line.inside_ring):
                continue
            tried.append((one, label, (min(ax, bx) - 2, min(ay, by) - 2, max(ax, bx) + 2, max(ay, by) + 2)))
        clear = (
            (one, label, way) for one, label, way in tried
            if not any(_meet(label, box) or _meet(label, run) or _meet(way, box) for box, run in taken)
        )  # fmt: skip
        one, label, way = next(clear, tried[0])
        out.append(one)
        taken.append((label, way))
    return out


def _box_within(box: Box, mm: float, ring: Sequence[Point]) -> bool:
    """Say whether the corners of a box about the frame's origin, in millimetres, lie within a ring of corners."""
    return all(_within((x / mm, y / mm), ring) for x in (box[0], box[2]) for y in (box[1], box[3]))


def _meet(a: Box, b: Box) -> bool:
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]


def _turn_place(gap: Gap, mm: float, far: float) -> Point:
    """Where the azimuth of an opening stands about the middle of a round part [mm]."""
    away = far * mm + 1.5
    return gap.out[0] * (away + turned(gap.azimuth_deg or 0.0) / 2), gap.out[1] * (away + ROW_MM / 2)


def _extent(part: Part) -> tuple[Point, Point]:
    outer = rings(part)[0]
    if outer.radius_m:
        return (-outer.radius_m, -outer.radius_m), (outer.radius_m, outer.radius_m)
    xs, ys = zip(*outer.corners_m, strict=True)
    return (min(xs), min(ys)), (max(xs), max(ys))


def _room(part: Part, path: str, mm: float, found: Sequence[Gap]) -> Box:
    """What all that stands outside the plan takes beyond it: left, right, above, below [mm]."""
    low, high = _extent(part)
    boxes: list[tuple[Point, float, float]] = []
    for one in _measures(part, path, mm, found):
        boxes.append((one.middle, slot(one.told_m), ROW_MM))
    for gap in found:
        if gap.azimuth_deg is not None:
            boxes.append((_turn_place(gap, mm, high[0]), turned(gap.azimuth_deg), ROW_MM))
        else:
            boxes.append((_mark_place(gap, mm), _MARK_MM, _MARK_MM))
    thick = 3.0 + ROW_MM
    left, right, above, below = 3.0, 3.0, thick + 2.0, 3.0
    for (x, y), across, up in boxes:
        left = max(left, low[0] * mm - x + across / 2 + 0.5)
        right = max(right, x + across / 2 - high[0] * mm + 0.5)
        above = max(above, y + up / 2 - high[1] * mm + 0.5)
        below = max(below, low[1] * mm - y + up / 2 + 0.5)
    return left, right, above, below


def _mark_place(gap: Gap, mm: float) -> Point:
    """Where the number of an opening in a straight wall stands, outside it, about the frame's origin [mm]."""
    x, y = gap.outside_m
    away = _MARK_MM / 2 + 0.8
    return x * mm + gap.out[0] * away, y * mm + gap.out[1] * away


def _rings(paper: Paper, parts: Sequence[Part], *, placed_: bool) -> None:
    """The faces of parts: first all walls, then all rooms, since what stands in the room of another is not built."""

    def d(part: Part, ring: Ring) -> str:
        if ring.radius_m:
            return paper.circle(placed(part, ring.middle_m) if placed_ else ring.middle_m, ring.radius_m)
        return paper.d([placed(part, p) if placed_ else p for p in ring.corners_m])

    for part in parts:
        shown = rings(part)
        kind = "headroom" if any(ring.kind == "fill" for ring in shown) else "shell"
        paper.line(kind, "".join(d(part, ring) for ring in shown), ' fill-rule="evenodd"' if kind == "shell" else "")
    for part in parts:
        for ring in rings(part):
            if ring.kind == "inside":
                paper.line("room", d(part, ring))


def passage(part: Part, gap: Gap, other: Part) -> float | None:
    """Return how far a passage runs beyond its own wall until it stands in the room of another part.

    Source: arithmetic, in steps of a hand's breadth.

    Parameters
    ----------
    part : Part
        The part whose opening it is [m]
    gap : Gap
        The opening on its plan [m]
    other : Part
        The part that it leads to [m]

    Returns
    -------
    float or None
        The way from the outside face [m]; absent where it does not meet the other's room

    Examples
    --------
    >>> from foamwright.project.model import Opening
    >>> first = Part(openings=(Opening(to="b"),))
    >>> passage(first, gaps(first)[0], Part(at_m=(7.0, 0.0)))
    0.9
    """
    inner = [ring for ring in rings(other) if ring.kind == "inside"]
    if not inner:
        return None
    ring = inner[0]
    corners = [placed(other, p) for p in ring.corners_m]
    start, end = placed(part, gap.outside_m), placed(part, (gap.outside_m[0] + gap.out[0], gap.outside_m[1] + gap.out[1]))
    for step in range(_REACH):
        way = step * 0.1
        point = (start[0] + (end[0] - start[0]) * way, start[1] + (end[1] - start[1]) * way)
        if ring.radius_m:
            if math.dist(point, placed(other, ring.middle_m)) < ring.radius_m:
                return round(way, 1)
        elif _within(point, corners):
            return round(way, 1)
    return None


def _posts(part: Part) -> list[list[Point]]:
    """The posts of an infill wall with straight sides."""
    if part.shape != "wall" or part.plan_form == "circle" or frame(part) is None:
        return []
    line = outline(part)
    low, high = (0.0, part.thickness_m) if line.closed else (-part.thickness_m / 2, part.thickness_m / 2)
    return [
        [side.at(a, low), side.at(b, low), side.at(b, high), side.at(a, high)]
        for i, side in enumerate(line.sides)
        for a, b in posts_along(part, i)
    ]


def _holes(paper: Paper, part: Part, path: str, hand: Hand, found: Sequence[Gap], *, placed_: bool) -> None:
    """The openings: doors as gaps, those above the floor with a broken edge."""
    for gap in found:
        opening = part.openings[gap.opening]
        corners = [placed(part, p) if placed_ else p for p in gap.corners_m]
        kind = "jamb" if opening.sill_m > 0 else "hole"
        named = hand.s._("Opening %(number)s", number=hand.whole(gap.opening + 1))
        paper.touch(hand.field(f"{path}.openings[{gap.opening}].form"), named, f'<path class="{kind}" d="{paper.d(corners)}"/>')


def plan(part: Part, path: str, hand: Hand, title: str, stamp: bool) -> str:
    """Draw the plan of one part at the largest scale that fits the page.

    Source: `foamwright.shape.views`; drawn at the foot, each opening as wide as it is at its widest.

    Parameters
    ----------
    part : Part
        A dome, a vault or a wall [m]
    path : str
        Its path in the project [-]
    hand : Hand
        The reader's words and numbers [-]
    title : str
        What the drawing shows [-]
    stamp : bool
        Whether the part must not be built [-]

    Returns
    -------
    str
        An SVG element [-]
    """
    found = gaps(part)
    low, high = _extent(part)
    for scale in SCALES:
        mm = 1000.0 / scale
        room = _room(part, path, mm, found)
        if fits((high[0] - low[0]) * mm + room[0] + room[1], (high[1] - low[1]) * mm + room[2] + room[3], stamp):
            break
    paper = Paper(scale, low, high, room)
    _rings(paper, [part], placed_=False)
    for post in _posts(part):
        paper.line("jamb", paper.d(post))
    _holes(paper, part, path, hand, found, placed_=False)
    origin = paper.at((0.0, 0.0))

    def on(place: Point) -> Point:
        return origin[0] + place[0], origin[1] - place[1]

    measures = _measures(part, path, paper.mm, found)
    for one in measures:
        paper.keep(*on(one.middle), slot(one.told_m))
        # Names keep off its line too.
        across, up = abs(one.end[0] - one.start[0]), abs(one.end[1] - one.start[1])
        paper.keep(*on(one.middle), across + 0.5, up + 0.5)
    for one in measures:
        x, y = on(one.middle)
        body = paper.dimension(on(one.start), on(one.end)) + paper.label(x, y, hand.length(one.told_m))
        paper.touch(hand.field(*one.paths), hand.full(one.told_m), body)
    if is_round(part):
        _inside_round(paper, part, path, hand, found)
    else:
        for gap in found:
            paper.add(paper.mark([on(_mark_place(gap, paper.mm))], hand.whole(gap.opening + 1)))
        _names(paper, part, hand)
    _thickness(paper, part, path, hand, found)
    return hand.page(paper, title, planned=True, stamp=stamp)


def _inside_round(paper: Paper, part: Part, path: str, hand: Hand, found: Sequence[Gap]) -> None:
    """Inside diameter, and azimuth and number of every opening."""
    near, far = radii(part)
    x, y = paper.at((0.0, 0.0))
    ends = [(x + way * near * paper.mm, y) for way in (-1, 1)]
    paper.keep(x, y, slot(2 * near))
    body = paper.dimension(ends[0], ends[1]) + paper.label(x, y, hand.length(2 * near))
    paper.touch(hand.field(f"{path}.inside_diameter_m"), hand.full(2 * near), body)
    paper.line("springing", paper.stroke([((x + way * far * paper.mm, y), (x + way * far * paper.mm, y + far * paper.mm + 2 * ROW_MM + 2)) for way in (-1, 1)]))
    for gap in found:
        if gap.azimuth_deg is None:
            continue
        side, up = _turn_place(gap, paper.mm, far)
        if paper.free(x + side, y - up, turned(gap.azimuth_deg)):
            paper.keep(x + side, y - up, turned(gap.azimuth_deg))
            told = hand.turn(gap.azimuth_deg)
            paper.touch(hand.field(f"{path}.openings[{gap.opening}].azimuth_deg"), told, paper.label(x + side, y - up, told, plate=False))
        away = near * paper.mm - 1.0 - _MARK_MM / 2
        paper.add(paper.mark([(x + gap.out[0] * away, y - gap.out[1] * away)], hand.whole(gap.opening + 1)))


def _names(paper: Paper, part: Part, hand: Hand) -> None:
    """The names of the walls of a vault, or the numbers of a wall's sides, inside."""
    x0, y0 = paper.at((0.0, 0.0))
    if part.shape == "vault":
        width = wide(8)
        half, x = radii(part)[0], part.length_m / 2
        up, side = half * paper.mm - ROW_MM / 2 - 1.0, x * paper.mm - width / 2 - 1.0
        beside = max(width / 2, x * paper.mm / 2) + 1.0
        for wall, place in (("side_a", (-beside, up)), ("side_b", (-beside, -up)), ("end_a", (-side, 0.0)), ("end_b", (side, 0.0))):
            named = hand.s.say(CHOICES["parts[].openings[].face"][wall])
            within = abs(place[0]) + width / 2 <= x * paper.mm and abs(place[1]) + ROW_MM / 2 <= half * paper.mm
            if within and paper.free(x0 + place[0], y0 - place[1], width):
                paper.keep(x0 + place[0], y0 - place[1], width)
                paper.add(paper.label(x0 + place[0], y0 - place[1], named, plate=False, more=' class="faint"'))
        return
    _side_names(paper, part, hand)


def _side_names(paper: Paper, part: Part, hand: Hand) -> None:
    """The sides of a straight wall by their names, or where one of these finds no room all by their numbers."""
    s, line = hand.s, outline(part)
    low, high = (0.0, part.thickness_m) if line.closed else (-part.thickness_m / 2, part.thickness_m / 2)
    x0, y0 = paper.at((0.0, 0.0))

    def room(one: Side, width: float) -> Point | None:
        for face, way in ((low, -1.0), (high, 1.0)):
            for share in (0.5, 0.25, 0.75, 0.12, 0.88):
                at = one.at(one.length_m * share, face)
                away = abs(one.out[0]) * width / 2 + abs(one.out[1]) * ROW_MM / 2 + 1.0
                x, y = at[0] * paper.mm + way * one.out[0] * away, at[1] * paper.mm + way * one.out[1] * away
                box = (x - width / 2, y - ROW_MM / 2, x + width / 2, y + ROW_MM / 2)
                inside = way > 0 or not line.closed or _box_within(box, paper.mm, line.inside_ring)
                if inside and paper.free(x0 + x, y0 - y, width):
                    return x0 + x, y0 - y
            if width > wide(2):
                return None
        return None

    named = [s._("Side %(side)s", side=s.whole(i + 1)) for i in range(len(line.sides))]
    numbers = [s.whole(i + 1) for i in range(len(line.sides))]
    before = list(paper.taken)
    for told, width in ((named, wide(8)), (numbers, wide(2))):
        found: list[str] = []
        for one, words in zip(line.sides, told, strict=True):
            place = room(one, width)
            if place is None:
                continue
            paper.keep(*place, width)
            found.append(paper.label(*place, words, plate=False, more=' class="faint"'))
        if len(found) == len(told) or told is numbers:
            paper.add("".join(found))
            return
        paper.taken = list(before)


def _within(point: Point, ring: Sequence[Point]) -> bool:
    """Say whether a point lies within a ring of corners (crossings of a level line)."""
    x, y = point
    inside = False
    for (ax, ay), (bx, by) in zip(ring, (*ring[1:], ring[0]), strict=True):
        if (ay > y) != (by > y) and x < ax + (y - ay) / (by - ay) * (bx - ax):
            inside = not inside
    return inside


def _thickness(paper: Paper, part: Part, path: str, hand: Hand, found: Sequence[Gap]) -> None:
    """The thickness of the wall, where there is room for it."""
    width, told = slot(part.thickness_m), hand.length(part.thickness_m)
    tried: list[tuple[Point, Point, Point]] = []
    if is_round(part):
        near, far = radii(part)
        for azimuth in _THICK_AT:
            turn = math.radians(azimuth)
            if any(gap.azimuth_deg is not None and abs((gap.azimuth_deg - azimuth + 180) % 360 - 180)
                   < 3 + math.degrees(math.dist(*gap.corners_m[:2]) / near / 2) for gap in found):  # fmt: skip
                continue
            c, s = math.cos(turn), math.sin(turn)
            tried.append(((near * c, near * s), (far * c, far * s), (c, s)))
    elif part.shape == "vault":
        half, far = radii(part)
        for share in (-0.38, 0.38, -0.25, 0.25, -0.12, 0.12, 0.0):
            x = share * part.length_m
            if not any(gap.wall == "side_a" and gap.corners_m[0][0] - 0.1 < x < gap.corners_m[1][0] + 0.1 for gap in found):
                tried.append(((x, half), (x, far), (0.0, 1.0)))
    else:
        line = outline(part)
        low, high = (0.0, part.thickness_m) if line.closed else (-part.thickness_m / 2, part.thickness_m / 2)
        for i, side in reversed(list(enumerate(line.sides))):
            for share in (0.12, 0.88, 0.3, 0.7):
                along = side.length_m * share
                if not any(gap.wall == str(i + 1) and abs((gap.along_m or 0.0) - along) < 0.7 for gap in found):
                    tried.append((side.at(along, low), side.at(along, high), side.out))
    for a, b, out in tried:
        near_mm, far_mm = paper.at(a), paper.at(b)
        away = 2.0 + abs(out[0]) * width / 2 + abs(out[1]) * ROW_MM / 2
        at = (far_mm[0] + out[0] * away, far_mm[1] - out[1] * away)
        if paper.free(*at, width):
            paper.keep(*at, width)
            paper.touch(hand.field(f"{path}.thickness_m"), hand.full(part.thickness_m),
                        paper.dimension(near_mm, far_mm) + paper.label(*at, told))  # fmt: skip
            return


# --- the whole project ------------------------------------------------------------------------


def centred(part: Part) -> bool:
    """Say whether a part's place is the middle of its plan."""
    return part.shape in SHELLS or (part.shape == "wall" and part.plan_form in ("rectangle", "circle"))


def distances(parts: Sequence[Part]) -> list[tuple[int, int, float]]:
    """Return between which middles the distance is told: where a passage leads, else from each part to the nearest before it.

    Source: arithmetic.

    Parameters
    ----------
    parts : Sequence of Part
        All parts [m]

    Returns
    -------
    list of (int, int, float)
        Places of both parts in the project, and the distance [m]

    Examples
    --------
    >>> distances((Part(), Part(at_m=(9.0, 0.0)), Part(at_m=(9.0, 12.0))))
    [(0, 1, 9.0), (1, 2, 12.0)]
    """
    standing = [i for i, part in enumerate(parts) if centred(part)]
    ids = {parts[i].id: i for i in standing}
    pairs: list[tuple[int, int]] = []
    for i in standing:
        pairs += [(i, ids[one.to]) for one in parts[i].openings if one.to in ids]
    for k, i in enumerate(standing):
        if k and not any(i in pair for pair in pairs):
            pairs.append((min(standing[:k], key=lambda j: math.dist(parts[i].at_m, parts[j].at_m)), i))
    found = dict.fromkeys((min(pair), max(pair)) for pair in pairs if pair[0] != pair[1])
    return [(i, j, apart) for i, j in found if (apart := math.dist(parts[i].at_m, parts[j].at_m)) > 1e-6]


def whole_extent(parts: Sequence[Part]) -> tuple[Point, Point]:
    """Return the lowest and the highest x and y that the parts reach in the project [m]."""
    xs: list[float] = []
    ys: list[float] = []
    for part in parts:
        for ring in rings(part):
            points = [placed(part, p) for p in ring.corners_m] or [placed(part, ring.middle_m)]
            for x, y in points:
                xs += [x - ring.radius_m, x + ring.radius_m]
                ys += [y - ring.radius_m, y + ring.radius_m]
    return (min(xs), min(ys)), (max(xs), max(ys))


def whole(shown: Sequence[tuple[int, Part]], hand: Hand, title: str, stamp: bool) -> str:
    """Draw all parts at their places, with the distances between their middles and the size of the whole.

    Source: `foamwright.shape.views`; arithmetic.

    Parameters
    ----------
    shown : Sequence of (int, Part)
        The parts that have a plan, at least one, each with its place in the project [m]
    hand : Hand
        The reader's words and numbers [-]
    title : str
        What the drawing shows [-]
    stamp : bool
        Whether a part must not be built [-]

    Returns
    -------
    str
        An SVG element [-]
    """
    parts = [part for _, part in shown]
    low, high = whole_extent(parts)
    for scale in SCALES:
        fitting, upright, room = _whole_room(parts, low, high, scale, stamp)
        if fitting:
            break
    paper = Paper(scale, low, high, room)
    _rings(paper, parts, placed_=True)
    ids = {part.id: part for part in parts}
    for i, part in shown:
        for gap in gaps(part):
            other = ids.get(part.openings[gap.opening].to or "")
            way = passage(part, gap, other) if other is not None else None
            if way is not None:
                a, b, c, d = gap.corners_m
                run = (gap.out[0] * way, gap.out[1] * way)
                c, d = (c[0] + run[0], c[1] + run[1]), (d[0] + run[0], d[1] + run[1])
                paper.line("room", paper.d([placed(part, p) for p in (a, b, c, d)]))
                paper.line("springing", paper.segments([(placed(part, a), placed(part, d)), (placed(part, b), placed(part, c))]))
        _holes(paper, part, f"parts[{i}]", hand, gaps(part), placed_=True)
    _extents(paper, low, high, hand, upright)
    for i, j, apart in distances(parts):
        ends = [paper.at(placed(parts[k], (0.0, 0.0))) for k in (i, j)]
        paper.add(paper.dimension(ends[0], ends[1]))
    _name_all(paper, shown, hand)
    for i, j, apart in distances(parts):
        _distance(paper, shown, i, j, apart, hand)
    for i, part in shown:
        _turns(paper, part, i, hand)
    return hand.page(paper, title, planned=True, stamp=stamp)


def _whole_room(parts: Sequence[Part], low: Point, high: Point, scale: int, stamp: bool) -> tuple[bool, bool, tuple[float, float, float, float]]:
    """Say whether all parts fit at a scale, whether the height of the whole is told beside them, and the margins [mm]."""
    mm = 1000.0 / scale
    across, up = (high[0] - low[0]) * mm, (high[1] - low[1]) * mm
    left = right = above = below = 3.0
    for part in parts:
        for x, y, width in _turn_places(part, mm):
            left = max(left, low[0] * mm - x + width / 2 + 0.5)
            right = max(right, x + width / 2 + 0.5 - high[0] * mm)
            above = max(above, y + ROW_MM / 2 + 0.5 - high[1] * mm)
            below = max(below, low[1] * mm - y + ROW_MM / 2 + 0.5)
    beside = slot(high[1] - low[1]) + 2.0
    room = (left, right, above, below + ROW_MM + 4.0)
    tall = up + room[2] + room[3]
    if fits(across + left + right + beside, tall, stamp):
        return True, True, (left, right + beside, *room[2:])
    return fits(across + left + right, tall, stamp), False, room


def _extents(paper: Paper, low: Point, high: Point, hand: Hand, upright: bool) -> None:
    """The width of the whole below it, and its height beside it where there is room."""
    (x0, y0), (x1, y1) = paper.at(low), paper.at(high)
    across, up = high[0] - low[0], high[1] - low[1]
    y = paper.drawn_mm - ROW_MM / 2 - 1.0
    paper.keep((x0 + x1) / 2, y, slot(across))
    paper.add(paper.dimension((x0, y), (x1, y)) + paper.label((x0 + x1) / 2, y, hand.length(across)))
    if upright:
        x = x1 + paper.right_mm - slot(up) / 2 - 0.5
        paper.keep(x, (y0 + y1) / 2, slot(up))
        paper.add(paper.dimension((x, y0), (x, y1)) + paper.label(x, (y0 + y1) / 2, hand.length(up)))


def _turn_places(part: Part, mm: float) -> list[tuple[float, float, float]]:
    """Where the directions of the openings of a round part stand on the plan of the whole, about the project's origin, and their widths [mm]."""
    if not is_round(part) or part.shape == "fill":
        return []
    (x, y), far = placed(part, (0.0, 0.0)), radii(part)[1]
    out = []
    for gap in gaps(part):
        azimuth = (gap.azimuth_deg or 0.0) + part.bearing_deg
        turn, away, width = math.radians(azimuth), far * mm + 1.5, turned(azimuth)
        out.append((x * mm + math.cos(turn) * (away + width / 2), y * mm + math.sin(turn) * (away + ROW_MM / 2), width))
    return out


def _name_place(part: Part) -> Point:
    """A place for the name of a part: its middle, or the middle of its first side."""
    ring = rings(part)[-1]
    if ring.radius_m or centred(part) or ring.kind == "fill":
        corners = ring.corners_m or ((0.0, 0.0),)
        return placed(part, (sum(p[0] for p in corners) / len(corners), sum(p[1] for p in corners) / len(corners)))
    side = outline(part).sides[0]
    return placed(part, side.at(side.length_m / 2))


def _span(part: Part) -> float:
    """The least clear way across a part's middle [m]."""
    if is_round(part):
        return 2 * (part.inside_diameter_m / 2)
    return min(part.inside_span_m, part.length_m) if centred(part) or part.plan_form == "rectangle" else 0.0


def _name_all(paper: Paper, shown: Sequence[tuple[int, Part]], hand: Hand) -> None:
    """The names of the parts where all have room within them, else their numbers."""
    short = all(wide(len(part.id)) + 2.0 <= _span(part) * paper.mm for _, part in shown)
    for i, part in shown:
        x, y = paper.at(_name_place(part))
        told = hand.s.isolate(part.id) if short else hand.whole(i + 1)
        width = wide(len(part.id)) if short else _MARK_MM
        for step in (1, -1, 0, 2, -2):
            at = (x, y + step * ROW_MM * 0.75)
            if short and paper.free(*at, width):
                paper.keep(*at, width)
                paper.touch(hand.field(f"parts[{i}].id"), told, paper.label(*at, told))
                break
            if not short and (body := paper.mark([at], told)):
                paper.touch(hand.field(f"parts[{i}].id"), f"{told} {part.id}", body)
                break


def _covers(paper: Paper, parts: Sequence[Part], at: Point, width: float) -> bool:
    """Say whether a label would cover the wall of a part."""
    left, right, top, bottom = at[0] - width / 2, at[0] + width / 2, at[1] - ROW_MM / 2, at[1] + ROW_MM / 2
    for part in parts:
        for ring in rings(part):
            if ring.radius_m:
                x, y = paper.at(placed(part, ring.middle_m))
                nearest = math.hypot(max(left - x, 0.0, x - right), max(top - y, 0.0, y - bottom))
                farthest = math.hypot(max(abs(left - x), abs(right - x)), max(abs(top - y), abs(bottom - y)))
                if nearest <= ring.radius_m * paper.mm <= farthest:
                    return True
                continue
            corners = [paper.at(placed(part, p)) for p in ring.corners_m]
            for a, b in zip(corners, (*corners[1:], corners[0]), strict=True):
                steps = max(1, int(math.dist(a, b) / 6.0))
                for k in range(steps + 1):
                    x, y = a[0] + (b[0] - a[0]) * k / steps, a[1] + (b[1] - a[1]) * k / steps
                    if left <= x <= right and top <= y <= bottom:
                        return True
    return False


def _distance(paper: Paper, shown: Sequence[tuple[int, Part]], i: int, j: int, apart: float, hand: Hand) -> None:
    """The length of a line from middle to middle, where it covers no wall if there is such a place."""
    parts, width, index = [part for _, part in shown], slot(apart), shown[j][0]
    a, b = paper.at(placed(parts[i], (0.0, 0.0))), paper.at(placed(parts[j], (0.0, 0.0)))
    tried = [(a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share) for share in _ALONG]
    open_ = [at for at in tried if paper.free(*at, width)]
    best = next((at for at in open_ if not _covers(paper, parts, at, width)), open_[0] if open_ else None)
    if best is not None:
        paper.keep(*best, width)
        label = paper.label(*best, hand.length(apart))
        paper.touch(hand.field(f"parts[{index}].at_m[0]", f"parts[{index}].at_m"), hand.full(apart), label)


def _turns(paper: Paper, part: Part, index: int, hand: Hand) -> None:
    """The directions of the openings of a round part, its bearing with them."""
    x, y = paper.at((0.0, 0.0))
    for gap, place in zip(gaps(part), _turn_places(part, paper.mm), strict=False):
        at = (x + place[0], y - place[1])
        if paper.free(*at, place[2]):
            paper.keep(*at, place[2])
            told = hand.turn((gap.azimuth_deg or 0.0) + part.bearing_deg)
            paper.touch(hand.field(f"parts[{index}].openings[{gap.opening}].azimuth_deg"), told, paper.label(*at, told, plate=False))
