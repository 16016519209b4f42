"""Drawings for laying: the section with its courses, and cutting patterns in their true size, as SVG, never mirrored."""

import math
from collections.abc import Iterator
from html import escape
from textwrap import wrap
from typing import Final

from attrs import frozen

from foamwright.project.model import Part
from foamwright.shape.courses import Course
from foamwright.shape.meridian import meridian

#: A page that both A4 and Letter hold within margins of 14 mm, and what of it a drawing may fill [mm].
PAGE_MM: Final = (180.0, 236.0)
_ROOM_MM: Final = (172.0, 154.0)
_TOP_MM: Final = 58.0
_DEEP_MM: Final = 150.0
#: From line to line, and letters that fit on one, where a phone has made them large enough to read [mm].
_LINE_MM: Final = 7.4
_LETTERS: Final = 38
#: How much is shown on either side of an edge in the pattern of a bed [mm].
_BESIDE_MM: Final = 34.0
_STEPS: Final = 48
#: From so many courses on, the section is drawn in chords.
_MANY: Final = 12


def _n(value: float) -> str:
    return f"{value:.2f}".rstrip("0").rstrip(".") if "." in f"{value:.2f}" else f"{value:.2f}"


def _path(points: list[tuple[float, float]], close: bool = False) -> str:
    return "M" + "L".join(f"{_n(x)} {_n(y)}" for x, y in points) + ("Z" if close else "")


def _text(x: float, y: float, words: str, size: float, anchor: str = "start", extra: str = "") -> str:
    return f'<text x="{_n(x)}" y="{_n(y)}" font-size="{_n(size)}" text-anchor="{anchor}"{extra}>{escape(words)}</text>'


def coursed(part: Part, courses: tuple[Course, ...], numbers: tuple[str, ...], title: str, words: str, pin: str) -> str:
    """Draw half the section of a dome or a vault with its beds, and the guide arm at one of them.

    Source: the courses of the shape room.

    Parameters
    ----------
    part : Part
        The part [m]
    courses : tuple of Course
        The courses of its shell [m]
    numbers : tuple of str
        Their numbers in the reader's digits [-]
    title : str
        What the drawing shows [-]
    words : str
        The same for those who do not see it [-]
    pin : str
        The name of the arm's pin [-]

    Returns
    -------
    str
        An SVG element, in centimetres of the building [-]
    """
    shell = meridian(part)
    if len(courses) < _MANY:
        inside, outside = shell.inside.points(_STEPS), shell.outside.points(_STEPS)
    else:
        # Chords from bed to bed are as good as the curve at this scale.
        last = courses[-1]
        rim = (shell.opening_m, shell.outside.crown_m)
        inside = (*((c.radius_m, c.height_m) for c in courses), (last.top_radius_m, last.top_height_m))
        outside = (*((c.outside_radius_m, c.outside_height_m) for c in courses), rim)
    far = max(x for x, _ in outside)
    top = shell.outside.crown_m
    size = max(far, top) * 0.045
    ring = [(x * 100, -z * 100) for x, z in (*inside, *reversed(outside))]
    beds = "".join(
        _path([(c.radius_m * 100, -c.height_m * 100), (c.outside_radius_m * 100, -c.outside_height_m * 100)])
        for c in courses
    )
    labels = ""
    step = max(1, math.ceil(len(courses) / 24))
    for course, number in list(zip(courses, numbers, strict=True))[::step]:
        x = (course.outside_radius_m + course.outside_top_radius_m) / 2
        z = (course.outside_height_m + course.outside_top_height_m) / 2
        lean = math.radians(course.bed_angle_deg)
        x, z = x + size * 1.1 * math.cos(lean), z + size * 1.1 * math.sin(lean)
        labels += _text(x * 100, -(z - size * 0.35) * 100, number, size * 100, "middle")
    arm = ""
    armed = [course for course in courses if course.kind in ("ring", "rim")]
    if armed:
        course = armed[len(armed) * 2 // 3]
        low = course.pin_height_m or 0.0
        ends = [(0.0, -low * 100), (course.radius_m * 100, -course.height_m * 100)]
        arm = (
            f'<path class="dim" d="{_path(ends)}"/><circle cx="0" cy="{_n(-low * 100)}" r="{_n(size * 35)}"/>'
            + _text(size * 70, -(low - size * 1.1) * 100, pin, size * 100)
        )
    left, right = -size * 2, far + size * 3
    box = f"{_n(left * 100)} {_n(-(top + size * 3) * 100)} {_n((right - left) * 100)} {_n((top + size * 5) * 100)}"
    ground = f'<path class="ground" d="M{_n(left * 100)} 0L{_n(right * 100)} 0"/>'
    axis = f'<path class="springing" d="M0 0L0 {_n(-(top + size) * 100)}"/>'
    return (
        f'<svg class="section" viewBox="{box}" role="img" aria-label="{escape(title)}"><desc>{escape(words)}</desc>'
        f'{ground}<path class="shell" d="{_path(ring, True)}"/><path class="springing" d="{beds}"/>{axis}{arm}{labels}</svg>'
    )


@frozen
class PatternWords:
    """The texts of one pattern, already in the reader's words and units."""

    title: str
    centre: str
    outside: str
    inside: str
    bed: str
    upper: str
    scale: str
    scale_mm: float
    stamp: str


def _page(words: PatternWords, keys: tuple[str, ...], body: str, tile: str) -> str:
    """A page in its true size: what it is, the stamp where there is one, the drawing, and a bar to check the print."""
    wide, tall = PAGE_MM
    head = _text(0, 6, words.title, 5.5)
    y = 6.0
    for part, extra in ((words.stamp, ' font-weight="bold"'), (tile, ""), *((key, "") for key in keys)):
        for line in wrap(part, _LETTERS):
            y += _LINE_MM
            head += _text(0, y, line, 4.7, extra=extra)
    foot = tall - 14
    ticks = "".join(
        f"M{_n(words.scale_mm * i / 10)} {_n(foot)}v{'-3' if i % 5 else '-5'}" for i in range(11)
    )
    head += _text(0, tall - 3, words.scale, 4.7)
    bar = f'<path d="M0 {_n(foot)}h{_n(words.scale_mm)}{ticks}"/>'
    return (
        f'<svg class="pattern" width="{_n(wide)}mm" height="{_n(tall)}mm" viewBox="0 0 {_n(wide)} {_n(tall)}" role="img" '
        f'aria-label="{escape(words.title)}"><g fill="none" stroke="currentColor" stroke-width="0.35">{body}{bar}</g>'
        f"<g>{head}</g></svg>"
    )


def _cross(x: float, y: float) -> str:
    return f"M{_n(x - 4)} {_n(y)}h8M{_n(x)} {_n(y - 4)}v8"


def face_pages(
    name: str,
    outer: list[tuple[float, float]],
    inner: list[tuple[float, float]],
    words: PatternWords,
    tiles: list[str],
) -> Iterator[str]:
    """Draw the right half of a block's faces in true size, on as many pages as it takes.

    Source: arithmetic. Where one page does not hold it, pages are laid edge to edge and meet at crosses.

    Parameters
    ----------
    name : str
        A name that no other drawing has, of letters and digits [-]
    outer : list of (float, float)
        The outside face right of its centre line, from the bed upwards: across and up [mm]
    inner : list of (float, float)
        The inside face likewise [mm]
    words : PatternWords
        The texts [-]
    tiles : list of str
        Of each page which it is, in words [-]

    Returns
    -------
    Iterator of str
        SVG elements [-]
    """
    wide = max(x for x, _ in outer)
    tall = max(y for _, y in outer)
    columns, rows = (max(1, math.ceil(size / room - 1e-9)) for size, room in zip((wide, tall), _ROOM_MM, strict=True))
    across, up = wide / columns, tall / rows
    for row in range(rows):
        for column in range(columns):
            left, top = column * across, (rows - row) * up
            # What lies on the page: the drawing pushed so that this tile fills it.
            shift = [[(x - left, top - y) for x, y in line] for line in (outer, inner)]
            clip = f"{name}-{row}-{column}"
            seen = f"M0 0h{_n(across)}v{_n(up)}h{_n(-across)}Z"
            marks = ""
            if rows * columns > 1:
                marks = f'<path d="{"".join(_cross(x, y) for x in (0.0, across) for y in (0.0, up))}"/>'
            centre = f'<path stroke-dasharray="6 2 1 2" d="M0 0v{_n(up)}"/>' if column == 0 else ""
            body = (
                f'<g transform="translate(4 {_n(_TOP_MM + 4)})"><clipPath id="{clip}"><path d="{seen}"/></clipPath>'
                f'<g clip-path="url(#{clip})"><path d="{_path(shift[0])}"/><path stroke-dasharray="3 2" d="{_path(shift[1])}"/></g>'
                f"{centre}{marks}</g>"
            )
            tile = tiles[row * columns + column] if rows * columns > 1 else ""
            yield _page(words, (words.outside, words.inside, words.centre), body, tile)


def tile_count(outer: list[tuple[float, float]]) -> int:
    """Return how many pages the half of a face takes.

    Source: arithmetic.

    Parameters
    ----------
    outer : list of (float, float)
        The outside face right of its centre line [mm]

    Returns
    -------
    int
        Pages [-]

    Examples
    --------
    >>> tile_count([(0.0, 0.0), (152.5, 0.0), (150.0, 305.0), (0.0, 305.0)])
    2
    """
    sizes = (max(x for x, _ in outer), max(y for _, y in outer))
    return math.prod(max(1, math.ceil(size / room - 1e-9)) for size, room in zip(sizes, _ROOM_MM, strict=True))


def bed_page(section: tuple[tuple[float, float], ...], words: PatternWords) -> str:
    """Draw in true size how the bed and the upper edge of a block are bevelled, seen from its side.

    Source: arithmetic. Of a block thicker than the page only the part next to the outside face is drawn; the edges are straight.

    Parameters
    ----------
    section : tuple of (float, float)
        Corners of the block's section: along the outside face from the bed, and depth from that face [mm]
    words : PatternWords
        The texts [-]

    Returns
    -------
    str
        An SVG element [-]
    """
    low, high, upper, inner = section
    deep = min(_DEEP_MM, max(upper[1], inner[1]))

    def at(a: tuple[float, float], b: tuple[float, float]) -> float:
        """Where an edge has come to at the depth that is shown."""
        share = min(1.0, deep / b[1]) if b[1] > 0 else 1.0
        return a[0] + (b[0] - a[0]) * share

    body = ""
    for place, edge, end, inside in ((6.0, low, at(low, inner), 1), (96.0, high, at(high, upper), -1)):
        # The outside face lies at the top; the square line is what the mould made.
        x = place + (6.0 if inside > 0 else _BESIDE_MM * 2 - 6.0)
        slope = end - edge[0]
        face = [(x + inside * _BESIDE_MM * 1.6, 0.0), (x, 0.0), (x + slope, deep), (x + inside * _BESIDE_MM * 1.6, deep)]
        square = f'<path stroke-dasharray="1 1.5" d="M{_n(x)} 0v{_n(deep)}"/>'
        body += f'<path d="{_path(face)}"/>{square}'
        body += _text(place, -2, words.bed if inside > 0 else words.upper, 4.7, extra=' stroke="none" fill="currentColor"')
    return _page(words, (words.outside,), f'<g transform="translate(0 {_n(_TOP_MM + 8)})">{body}</g>', "")
