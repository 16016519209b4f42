"""A page for drawings to scale: which scale fits, lines and labels on it, and the bar that checks the print.

A page is as wide as A4 and Letter allow. Its unit is a fifth of a millimetre, so that lines are as thick as in the other
drawings. On a small screen labels grow about their middles by up to `GROWN`; room is kept for that, and for the
longest number that any reader's unit gives, so that the same project has the same lines and places for every reader.
"""

from html import escape
from math import hypot
from typing import Final

from attrs import frozen

from foamwright.reader import Speaker
from foamwright.shape.wall import Point
from foamwright.sheets.desk import pattern
from foamwright.sheets.drawing import _letters
from foamwright.sheets.fields import FIELDS

#: Width of a page, and the tallest that it may be [mm].
WIDE_MM: Final = 180.0
TALL_MM: Final = 236.0
#: Scales that are offered: ISO 5455, and 1:25, which is common practice.
SCALES: Final = (20, 25, 50, 100, 200, 500, 1000, 2000, 5000, 10000, 20000)
#: Units of the drawing in a millimetre of paper.
UNITS: Final = 5.0
LETTER_MM: Final = 4.7
GROWN: Final = 1.7
#: Letters as they are on a small screen, and the height that a line of them takes there [mm].
_EM_MM: Final = LETTER_MM * GROWN
ROW_MM: Final = _EM_MM * 1.25
#: Width of a letter and of a mark between digits, over the size of letters: common of bold letters, no source.
_LETTER: Final = 0.6
_MARK: Final = 0.33
_FOOT_MM: Final = 2 * ROW_MM + 4.0
_FEET: Final = 0.3048

Box = tuple[float, float, float, float]


@frozen
class Hand:
    """Writes on a page what one reader reads."""

    s: Speaker

    def length(self, value: float) -> str:
        """Return a length without its unit: the foot of the page says it."""
        return self.s.quantity_parts(value, "length").number

    def full(self, value: float) -> str:
        """Return a length with its unit."""
        return self.s.quantity(value, "length")

    def whole(self, value: int) -> str:
        """Return a whole number."""
        return self.s.whole(value)

    def turn(self, value: float) -> str:
        """Return an angle to a tenth of a degree."""
        return self.s.quantity(value % 360, "angle_set", trim=True)

    def field(self, *paths: str) -> str | None:
        """Return the first of some paths that the form has a field for."""
        return next((path for path in paths if pattern(path) in FIELDS), None)

    def page(self, paper: "Paper", title: str, *, planned: bool = False, stamp: bool = False) -> str:
        """Return a page with its foot: the scale, a bar to check it, the directions of a plan, and a stamp where it is due."""
        s = self.s
        foot = s.p_("drawing", "Scale %(scale)s, lengths in %(unit)s", scale=self.scale(paper.scale), unit=s.quantity_parts(1.0, "length").symbol)
        unit = 1.0 if s.reader.units == "metric" else _FEET
        bar = bar_length(paper.scale, unit)
        axes = (self.turn(0.0), self.turn(90.0)) if planned else None
        lines = _lines(s._("Not to be built until an engineer has sized ties, buttresses or ring.")) if stamp else []
        return paper.svg(title, foot, bar, s.quantity(bar, "length", trim=True), s.dir == "rtl", axes, lines)

    def scale(self, scale: int) -> str:
        """Return a scale such as 1:50."""
        s = self.s
        return s.isolate(f"{s.plain(1)}:{s.plain(scale)}")


def _lines(words: str) -> list[str]:
    """Break a sentence into lines that fit on the page where letters have grown."""
    most, out = int(WIDE_MM / _EM_MM / 0.58), [""]
    for word in words.split(" "):
        if out[-1] and len(out[-1]) + 1 + len(word) > most:
            out.append("")
        out[-1] = f"{out[-1]} {word}".strip()
    return out


def slot(value_m: float) -> float:
    """Return the width that a length takes on the page, in metres or in feet, whichever is longer.

    Source: arithmetic.

    Parameters
    ----------
    value_m : float
        The length [m]

    Returns
    -------
    float
        Width [mm]

    Examples
    --------
    >>> slot(1.0) < slot(4.0) < slot(40.0)
    True
    """
    digits = len(f"{abs(value_m) / _FEET:.0f}".lstrip("0")) or 1
    return ((digits + 2) * _LETTER + _MARK + 0.3) * _EM_MM


def turned(value_deg: float) -> float:
    """Return the width that an angle takes on the page, to a tenth of a degree where it is no whole number [mm]."""
    text = f"{value_deg % 360:.1f}".removesuffix(".0")
    return (sum(_MARK if letter == "." else _LETTER for letter in text) + 0.4 + 0.3) * _EM_MM


def wide(words: int) -> float:
    """Return the width that so many letters take on the page [mm]."""
    return (words * _LETTER + 0.3) * _EM_MM


def apart(wanted: list[float], pitch: float) -> list[float]:
    """Return places next to those wanted, in the same order, none closer to another than a pitch.

    Source: arithmetic (neighbours that come too close are spread evenly about the middle of what they want).

    Parameters
    ----------
    wanted : list of float
        Places wanted, the lowest first [mm]
    pitch : float
        Least distance [mm]

    Returns
    -------
    list of float
        Places [mm]

    Examples
    --------
    >>> apart([0.0, 1.0, 20.0], 5.0)
    [-2.0, 3.0, 20.0]
    """
    groups: list[tuple[float, int]] = []
    for place in wanted:
        total, count = place, 1
        while groups and groups[-1][0] / groups[-1][1] + groups[-1][1] * pitch / 2 > total / count - count * pitch / 2 + 1e-9:
            more, others = groups.pop()
            total, count = total + more, count + others
        groups.append((total, count))
    return [total / count + (i - (count - 1) / 2) * pitch for total, count in groups for i in range(count)]


def fits(across_mm: float, up_mm: float, stamp: bool) -> bool:
    """Say whether a drawing with its margins fits on a page above its foot, with three lines for a stamp where one is due.

    Source: arithmetic.

    Parameters
    ----------
    across_mm : float
        Width [mm]
    up_mm : float
        Height [mm]
    stamp : bool
        Whether the part must not be built [-]

    Returns
    -------
    bool
        Whether it does [-]

    Examples
    --------
    >>> fits(180.0, 200.0, False), fits(180.0, 200.0, True), fits(181.0, 10.0, False)
    (True, False, False)
    """
    return across_mm <= WIDE_MM and up_mm + _FOOT_MM + 3 * ROW_MM * stamp <= TALL_MM


def _u(value: float) -> str:
    text = f"{value:.1f}"
    text = text[:-2] if text.endswith(".0") else text
    return "0" if text == "-0" else text


class Paper:
    """One page: metres of the building go in, millimetres of paper where a method says so, an SVG comes out."""

    def __init__(self, scale: int, low: Point, high: Point, margins: tuple[float, float, float, float]) -> None:
        """Lay out a page for a drawing from ``low`` to ``high`` [m] with margins left, right, above and below [mm]."""
        self.scale = scale
        self.mm = 1000.0 / scale
        left, right, above, below = margins
        across, up = (high[0] - low[0]) * self.mm, (high[1] - low[1]) * self.mm
        spare = max(0.0, (WIDE_MM - across - left - right) / 2)
        self._x = spare + left - low[0] * self.mm
        self._y = above + high[1] * self.mm
        self.right_mm = right
        self.drawn_mm = above + up + below
        self.tall_mm = self.drawn_mm + _FOOT_MM
        self.body: list[str] = []
        self.taken: list[Box] = []

    # Places

    def at(self, point: Point) -> Point:
        """Return where a point of the building stands on the page [mm]."""
        return self._x + point[0] * self.mm, self._y - point[1] * self.mm

    # Lines

    def d(self, points: list[Point] | tuple[Point, ...], closed: bool = True) -> str:
        """Return the path through points of the building, those left out that lie on a straight line."""
        made: list[Point] = []
        left, top, size = self._x * UNITS, self._y * UNITS, self.mm * UNITS
        for px, py in points:
            x, y = round(left + px * size, 1), round(top - py * size, 1)
            if made and made[-1] == (x, y):
                continue
            if len(made) > 1 and _straight(made[-2], made[-1], (x, y)):
                made.pop()
            made.append((x, y))
        if closed and len(made) > 2 and made[0] == made[-1]:
            made.pop()
        return "M" + "L".join(f"{_u(x)} {_u(y)}" for x, y in made) + ("Z" if closed else "")

    def circle(self, middle: Point, radius: float) -> str:
        """Return the path of a circle of the building."""
        x, y = self.at(middle)
        r = radius * self.mm
        left, right, size = _u((x - r) * UNITS), _u((x + r) * UNITS), _u(r * UNITS)
        return f"M{right} {_u(y * UNITS)}A{size} {size} 0 1 0 {left} {_u(y * UNITS)}A{size} {size} 0 1 0 {right} {_u(y * UNITS)}Z"

    def segments(self, pairs: list[tuple[Point, Point]]) -> str:
        """Return one path of separate lines of the building."""
        return self.stroke([(self.at(a), self.at(b)) for a, b in pairs])

    def stroke(self, pairs: list[tuple[Point, Point]]) -> str:
        """Return one path of separate lines on the page [mm]; level and upright ones say one number less."""
        out = []
        for (x0, y0), (x1, y1) in pairs:
            start, across, up = f"M{_u(x0 * UNITS)} {_u(y0 * UNITS)}", _u(x1 * UNITS), _u(y1 * UNITS)
            out.append(start + (f"H{across}" if abs(y1 - y0) < 1e-9 else f"V{up}" if abs(x1 - x0) < 1e-9 else f"L{across} {up}"))
        return "".join(out)

    def dimension(self, a: Point, b: Point) -> str:
        """Return a dimension line between two places on the page [mm], with a short stroke across each end."""
        (x0, y0), (x1, y1) = a, b
        length = hypot(x1 - x0, y1 - y0) or 1.0
        nx, ny = -(y1 - y0) / length * 1.6, (x1 - x0) / length * 1.6
        ends = [((x - nx, y - ny), (x + nx, y + ny)) for x, y in (a, b)]
        return f'<path class="dim" d="{self.stroke([(a, b), *ends])}"/>'

    def add(self, markup: str) -> None:
        """Put a piece of markup on the page."""
        self.body.append(markup)

    def line(self, kind: str, d: str, more: str = "") -> None:
        """Put a path of one class on the page; nothing where it is empty."""
        if d:
            self.body.append(f'<path class="{kind}" d="{d}"{more}/>')

    # Labels

    def free(self, x: float, y: float, across: float, up: float = ROW_MM) -> bool:
        """Say whether a label about a place of the page would stand clear of all others and within the page [mm]."""
        if x - across / 2 < 0 or x + across / 2 > WIDE_MM or y - up / 2 < 0 or y + up / 2 > self.drawn_mm:
            return False
        return all(
            x + across / 2 <= left or x - across / 2 >= right or y + up / 2 <= top or y - up / 2 >= bottom
            for left, top, right, bottom in self.taken
        )

    def keep(self, x: float, y: float, across: float, up: float = ROW_MM) -> None:
        """Keep a place of the page for a label [mm]."""
        self.taken.append((x - across / 2, y - up / 2, x + across / 2, y + up / 2))

    def label(self, x: float, y: float, words: str, *, plate: bool = True, more: str = "") -> str:
        """Return a label about a place of the page [mm], on a plate of the paper's colour."""
        drawn = ""
        if plate:
            across, up = (_letters(words) * 0.56 + 0.3) * LETTER_MM * UNITS, ROW_MM / GROWN * UNITS
            drawn = (
                f'<rect class="plate" x="{_u(x * UNITS - across / 2)}" y="{_u(y * UNITS - up / 2)}" width="{_u(across)}" '
                f'height="{_u(up)}"/>'
            )
        return drawn + (
            f'<text x="{_u(x * UNITS)}" y="{_u((y + LETTER_MM * 0.35) * UNITS)}" font-size="{_u(LETTER_MM * UNITS)}"'
            f'{more}>{escape(words)}</text>'
        )

    def mark(self, places: list[Point], words: str) -> str:
        """Return a number in a ring at the first of some places [mm] that is free, or nothing; the place is kept."""
        for x, y in places:
            if self.free(x, y, ROW_MM + 0.6, ROW_MM + 0.6):
                self.keep(x, y, ROW_MM + 0.6, ROW_MM + 0.6)
                size = ROW_MM / GROWN * UNITS
                ring = (
                    f'<rect class="plate" x="{_u(x * UNITS - size / 2)}" y="{_u(y * UNITS - size / 2)}" width="{_u(size)}" '
                    f'height="{_u(size)}" rx="{_u(size / 2)}" stroke="currentColor"/>'
                )
                return ring + self.label(x, y, words, plate=False)
        return ""

    def touch(self, path: str | None, words: str, body: str) -> None:
        """Put what belongs to a field on the page; without a path it leads nowhere."""
        if not body:
            return
        if path is None:
            self.body.append(body)
            return
        self.body.append(
            f'<g class="touch" data-path="{escape(path)}" tabindex="0" role="button" aria-label="{escape(words)}">{body}</g>'
        )

    # The whole

    def svg(self, title: str, foot: str, bar_m: float, bar: str, rtl: bool, axes: tuple[str, str] | None, stamp: list[str]) -> str:
        """Return the page: what is drawn, the scale in words, a bar to check it, the directions of a plan, a stamp."""
        top = self.drawn_mm
        turned = ' direction="rtl"' if rtl else ""
        rows = [self.label(WIDE_MM / 2, top + ROW_MM / 2, foot, plate=False, more=turned)]
        y, left = top + 2 * ROW_MM, 6.0
        long = bar_m * self.mm
        ticks = [((left + long * i / 5, y), (left + long * i / 5, y - (3.0 if i % 5 else 5.0))) for i in range(6)]
        rows.append(f'<path class="dim" d="{self.stroke([((left, y), (left + long, y)), *ticks])}"/>')
        rows.append(self.label(left + long + 2.0 + slot(bar_m) / 2, y - 2.0, bar, plate=False))
        tall = self.tall_mm
        if axes is not None:
            x, low = 138.0, tall - 3.0
            arrow = [
                ((x, low), (x + 10, low)), ((x + 10, low), (x + 7.5, low - 1.5)), ((x + 10, low), (x + 7.5, low + 1.5)),
                ((x, low), (x, low - 9)), ((x, low - 9), (x - 1.5, low - 6.5)), ((x, low - 9), (x + 1.5, low - 6.5)),
            ]  # fmt: skip
            rows.append(f'<path class="dim" d="{self.stroke(arrow)}"/>')
            rows.append(self.label(x + 12 + wide(2) / 2, low - 1.5, axes[0], plate=False))
            rows.append(self.label(x - 3 - wide(3) / 2, low - 5, axes[1], plate=False))
        for line in stamp:
            rows.append(self.label(WIDE_MM / 2, tall + ROW_MM / 2, line, plate=False, more=turned))
            tall += ROW_MM
        box = f"0 0 {_u(WIDE_MM * UNITS)} {_u(tall * UNITS)}"
        return (
            f'<svg class="section" width="{_u(WIDE_MM)}mm" height="{_u(tall)}mm" viewBox="{box}" text-anchor="middle" role="group" '
            f'aria-label="{escape(title)}">{"".join(self.body)}<g class="foot">{"".join(rows)}</g></svg>'
        )


def _straight(a: Point, b: Point, c: Point) -> bool:
    """Say whether b lies on the way from a to c, as far as the page can show."""
    cross = (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
    along = (b[0] - a[0]) * (c[0] - b[0]) + (b[1] - a[1]) * (c[1] - b[1])
    return along >= 0 and abs(cross) <= 0.2 * hypot(c[0] - a[0], c[1] - a[1])


def bar_length(scale: int, unit_m: float) -> float:
    """Return the length of a bar for checking a scale: a round number of a unit, 25 to 60 mm on paper.

    Source: the drawing's own choice.

    Parameters
    ----------
    scale : int
        How many times smaller than the building it is drawn [-]
    unit_m : float
        The reader's unit of length [m]

    Returns
    -------
    float
        Length of the building that the bar stands for [m]

    Examples
    --------
    >>> bar_length(50, 1.0), round(bar_length(50, 0.3048) / 0.3048, 9)
    (2.0, 5.0)
    """
    most = 60.0 * scale / 1000 / unit_m
    power = 1.0
    while power * 10 <= most:
        power *= 10
    while power > most:
        power /= 10
    best = max(power * step for step in (1.0, 2.0, 5.0) if power * step <= most)
    return best * unit_m
