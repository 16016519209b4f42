"""Drawings of walls and fills as SVG, in centimetres of the building: y grows downwards, and nothing is ever mirrored.

The coordinates depend on the project alone: the same wall drawn for two readers differs in its labels only.
"""

from functools import lru_cache
from html import escape
from itertools import pairwise
from math import cos, hypot, pi, radians, sin

from attrs import frozen

from foamwright.project.model import Opening, Part
from foamwright.shape.fill import centroid
from foamwright.shape.openings import azimuths, cut
from foamwright.shape.views import side_view
from foamwright.shape.wall import Point, Side, area_of, corners, frame, gabled, outline, places, posts_along
from foamwright.sheets.drawing import _cm, _dimension, _label, _outline, _path, _text, _touch

_TURN = 180


@frozen
class Labels:
    """The texts of the drawings of a wall, already in the reader's words and units."""

    title: str
    words: str
    sides: tuple[str, ...]
    numbers: tuple[str, ...]
    thickness: str
    height: str
    gable: str
    openings: tuple[str, ...]


def _ring(radius: float) -> list[Point]:
    return [(radius * cos(2 * pi * i / _TURN), radius * sin(2 * pi * i / _TURN)) for i in range(_TURN)]


def _frame_of(points: list[Point], margin: float, beside: float | None = None) -> str:
    xs, ys = [x for x, _ in points], [y for _, y in points]
    wide = margin if beside is None else beside
    left, top = min(xs) - wide, max(ys) + margin
    return f"{_cm(left)} {_cm(-top)} {_cm(max(xs) + wide - left)} {_cm(top - min(ys) + margin)}"


def _svg(box: str, labels: Labels, body: str) -> str:
    return (
        f'<svg class="section" viewBox="{box}" role="group" aria-label="{escape(labels.title)}">'
        f"<desc>{escape(labels.words)}</desc>{body}</svg>"
    )


def _size(points: list[Point]) -> float:
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return max(max(xs) - min(xs), max(ys) - min(ys), 1.0) * 0.05


def _named(part: Part, path: str, index: int) -> str:
    """The field that says how long a side is."""
    if part.plan_form == "rectangle":
        return f"{path}.{'inside_span_m' if index % 2 else 'length_m'}"
    return f"{path}.plan[{index}]"


@lru_cache(maxsize=256)
def plan(part: Part, path: str, labels: Labels) -> str:
    """Draw the plan of a wall: its faces, openings and posts, the length of every side and its number.

    Source: the outline of the shape room; the plan lies as its corners are stated, x to the right and y upwards.

    Parameters
    ----------
    part : Part
        The wall; lengths inside it are in metres [m]
    path : str
        Its path in the project, for the fields that a touch leads to [-]
    labels : Labels
        The texts [-]

    Returns
    -------
    str
        An SVG element [-]
    """
    if part.plan_form == "circle":
        return _round(part, path, labels)
    line = outline(part)
    near, far = list(line.inside_ring), list(line.outside_ring)
    size = _size([*near, *far])
    if line.closed:
        body = f'<path class="room" d="{_path(near)}"/>'
        body += f'<path class="shell" fill-rule="evenodd" d="{_path(far)}{_path(near)}"/>'
    else:
        body = f'<path class="shell" d="{_path([*near, *reversed(far)])}"/>'
    low, high = (0.0, part.thickness_m) if line.closed else (-part.thickness_m / 2, part.thickness_m / 2)

    def block(side: Side, start: float, end: float) -> str:
        return _path([side.at(start, low), side.at(end, low), side.at(end, high), side.at(start, high)])

    for i, side in enumerate(line.sides):
        if frame(part) is not None:
            body += "".join(f'<path class="jamb" d="{block(side, a, b)}"/>' for a, b in posts_along(part, i))
        # The number stands inside a closed wall, on the left of an open run.
        x, y = side.at(side.length_m / 2, low - size * 0.9)
        body += _text(x, y - size * 0.3, labels.numbers[i], size * 0.8, ' class="faint"')
    for k, opening in enumerate(part.openings):
        side, half = line.sides[opening.side - 1], cut(opening).half_m
        for along in places(part, opening):
            hole = f'<path class="hole" d="{block(side, along - half, along + half)}"/>'
            body += _touch(f"{path}.openings[{k}].form", labels.openings[k], hole)
    shown = (0, 1) if part.plan_form == "rectangle" else range(len(line.sides))
    for i in shown:
        side = line.sides[i]
        # Beside an upright side the label lies across its line and needs more room.
        away = high + size * (1.2 + abs(side.out[0]))
        a, b = side.at(0.0, away), side.at(side.length_m, away)
        at = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
        drawn = _dimension(a, b, size) + _label(at[0], at[1], labels.sides[i], size)
        body += _touch(_named(part, path, i), labels.sides[i], drawn)
    last = line.sides[-1]
    a, b = last.at(last.length_m * 0.12, low), last.at(last.length_m * 0.12, high)
    off = last.at(last.length_m * 0.12, high + size * 2.4)
    lead = f'<path class="dim" d="M{_cm(b[0])} {_cm(-b[1])}L{_cm(off[0])} {_cm(-off[1])}"/>'
    body += _touch(
        f"{path}.thickness_m", labels.thickness, _dimension(a, b, size) + lead + _label(*off, labels.thickness, size)
    )
    return _svg(_frame_of([*near, *far], size * 3.8), labels, body)


def _round(part: Part, path: str, labels: Labels) -> str:
    """The plan of a round wall."""
    radius, thick = part.inside_diameter_m / 2, part.thickness_m
    near, far = _ring(radius), _ring(radius + thick)
    size = _size(far)
    body = f'<path class="room" d="{_path(near)}"/>'
    body += f'<path class="shell" fill-rule="evenodd" d="{_path(far)}{_path(near)}"/>'
    made = frame(part)
    if made is not None:
        middle = radius + thick / 2
        for i in range(made.posts):
            body += f'<path class="jamb" d="{_across(2 * pi * i / made.posts, part.wall.post_width_m / 2, middle, thick)}"/>'
    for k, opening in enumerate(part.openings):
        for azimuth in azimuths(opening):
            hole = f'<path class="hole" d="{_across(radians(azimuth), cut(opening).half_m, radius + thick / 2, thick)}"/>'
            body += _touch(f"{path}.openings[{k}].form", labels.openings[k], hole)
    body += _touch(
        f"{path}.inside_diameter_m", labels.sides[0],
        _dimension((-radius, 0.0), (radius, 0.0), size) + _label(0.0, 0.0, labels.sides[0], size),
    )  # fmt: skip
    turn = radians(60)
    a, b, off = ((r * cos(turn), r * sin(turn)) for r in (radius, radius + thick, radius + thick + size * 2.2))
    lead = f'<path class="dim" d="M{_cm(b[0])} {_cm(-b[1])}L{_cm(off[0])} {_cm(-off[1])}"/>'
    body += _touch(
        f"{path}.thickness_m", labels.thickness, _dimension(a, b, size) + lead + _label(*off, labels.thickness, size)
    )
    return _svg(_frame_of(far, size * 3.6), labels, body)


def _across(turn: float, half: float, middle: float, thick: float) -> str:
    """A block through a round wall, square to the radius at its own middle."""
    c, s = cos(turn), sin(turn)
    corners_ = [(middle + d, u) for d, u in ((-thick / 2, -half), (-thick / 2, half), (thick / 2, half), (thick / 2, -half))]
    return _path([(c * r - s * u, s * r + c * u) for r, u in corners_])


def drawn_sides(part: Part) -> tuple[int, ...]:
    """Return the sides whose elevation says something: those with openings or a gable, or else the first.

    Source: the drawing's own choice.

    Parameters
    ----------
    part : Part
        A wall with straight sides [-]

    Returns
    -------
    tuple of int
        The sides, from 0 [-]

    Examples
    --------
    >>> drawn_sides(Part(shape="wall", openings=(Opening(side=3),)))
    (2,)
    """
    count = len(outline(part).sides)
    found = {opening.side - 1 for opening in part.openings} | {i for i in range(count) if gabled(part, i)}
    return tuple(sorted(found)) or (0,)


@lru_cache(maxsize=1024)
def elevation(part: Part, path: str, index: int, labels: Labels) -> str:
    """Draw one side of a wall as whoever stands outside sees it: outline, gable, openings, posts and beams.

    Source: the outline of the shape room. Seen from outside, the first corner of an anticlockwise plan is on the left; of a
    run, whoever stands on the right of its line sees the first corner on the left as well.

    Parameters
    ----------
    part : Part
        The wall, its sides straight; lengths inside it are in metres [m]
    path : str
        Its path in the project, for the fields that a touch leads to [-]
    index : int
        The side, from 0 [-]
    labels : Labels
        The texts [-]

    Returns
    -------
    str
        An SVG element [-]
    """
    view, tall = side_view(part, index), part.wall.height_m
    size = max(view.right_m - view.left_m, tall) * 0.055
    low_x, high_x = view.left_m, view.right_m
    body = (
        f'<path class="ground" d="M{_cm(low_x - size * 2)} 0L{_cm(high_x + size * 2)} 0"/>'
        f'<path class="shell" d="{_path(list(view.ring))}"/>'
    )
    body += "".join(f'<path class="headroom" d="{_path(list(ring))}"/>' for ring in view.frame)
    for k, _, middle in view.holes:
        hole = [(middle + u, z) for u, z in _outline(cut(part.openings[k]))]
        body += _touch(f"{path}.openings[{k}].form", labels.openings[k], f'<path class="hole" d="{_path(hole)}"/>')
    x = low_x - size * 1.4
    body += _touch(
        f"{path}.wall.height_m", labels.height,
        _dimension((x, 0.0), (x, tall), size) + _label(x - size * 1.6, tall / 2, labels.height, size),
    )  # fmt: skip
    peak = max(z for _, z in view.ring)
    if labels.gable and gabled(part, index):
        x = high_x + size * 1.4
        body += _touch(
            f"{path}.wall.gable_rise_m", labels.gable,
            _dimension((x, tall), (x, peak), size) + _label(x + size * 1.6, (tall + peak) / 2, labels.gable, size),
        )  # fmt: skip
    z = -size * 1.6
    body += _touch(
        _named(part, path, index), labels.sides[index],
        _dimension((view.across(0.0), z), (view.across(view.length_m), z), size)
        + _label(view.across(view.length_m / 2), z, labels.sides[index], size),
    )  # fmt: skip
    points = [(low_x - size * 4.6, -size * 2.8), (high_x + size * 4.6, peak + size * 0.8)]
    return _svg(_frame_of(points, 0.0), labels, body)


def _middle(ring: list[Point]) -> Point:
    """The centre of the area within a ring, or the middle of what has no area."""
    if len(ring) > 2:
        return centroid(tuple(ring))
    return sum(x for x, _ in ring) / len(ring), sum(y for _, y in ring) / len(ring)


@lru_cache(maxsize=256)
def fill_plan(part: Part, path: str, labels: Labels) -> str:
    """Draw the plan of a fill, with an arrow the way that water runs.

    Source: the plan as stated, x to the right and y upwards.

    Parameters
    ----------
    part : Part
        The fill, not a void; lengths inside it are in metres [m]
    path : str
        Its path in the project, for the fields that a touch leads to [-]
    labels : Labels
        The texts: ``thickness`` is the least depth, ``height`` the greatest [-]

    Returns
    -------
    str
        An SVG element [-]
    """
    ring = _ring(part.inside_diameter_m / 2) if part.plan_form == "circle" else list(corners(part))
    size = _size(ring)
    body = f'<path class="shell" d="{_path(ring)}"/>'
    fill = part.fill
    if fill.kind == "falls" and fill.slope_fraction > 0:
        turn = radians(fill.fall_deg)
        c, s = cos(turn), sin(turn)
        downs = [x * c + y * s for x, y in ring]
        x0, y0 = _middle(ring)
        half = (max(downs) - min(downs)) * 0.2
        start, end = (x0 - half * c, y0 - half * s), (x0 + half * c, y0 + half * s)
        tip = [(end[0] - size * (c + k * s * 0.5), end[1] - size * (s - k * c * 0.5)) for k in (1, -1)]
        arrow = f"M{_cm(start[0])} {_cm(-start[1])}L{_cm(end[0])} {_cm(-end[1])}"
        arrow += f"M{_cm(tip[0][0])} {_cm(-tip[0][1])}L{_cm(end[0])} {_cm(-end[1])}L{_cm(tip[1][0])} {_cm(-tip[1][1])}"
        body += _touch(f"{path}.fill.fall_deg", labels.title, f'<path class="dim" d="{arrow}"/>')
        for at, words, name in ((min(downs), labels.height, "slope_fraction"), (max(downs), labels.thickness, "depth_m")):
            x, y = _middle([corner for corner, down in zip(ring, downs, strict=True) if abs(down - at) < 1e-6])
            length = hypot(x0 - x, y0 - y) or 1.0
            inward = (x + (x0 - x) / length * size * 2.0, y + (y0 - y) / length * size * 1.4)
            body += _touch(f"{path}.fill.{name}", words, _label(*inward, words, size))
    else:
        body += _touch(f"{path}.fill.depth_m", labels.thickness, _label(*_middle(ring), labels.thickness, size))
    if part.plan_form == "circle":
        return _svg(_frame_of(ring, size * 3), labels, body)
    legs = tuple(pairwise((*ring, ring[0])))
    outward = 1.0 if area_of(tuple(ring)) > 0 else -1.0
    for i, (a, b) in enumerate(legs[:2] if part.plan_form == "rectangle" else legs):
        mid, length = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2), hypot(b[0] - a[0], b[1] - a[1])
        out = ((b[1] - a[1]) / length * outward, -(b[0] - a[0]) / length * outward)
        lift = size * (1.6 + 2.6 * abs(out[0]))
        drawn = _label(mid[0] + out[0] * lift, mid[1] + out[1] * lift, labels.sides[i], size)
        body += _touch(_named(part, path, i), labels.sides[i], drawn)
    return _svg(_frame_of(ring, size * 4.0, size * 7.5), labels, body)
