"""Discs and polygons laid over each other on the plan: what their edges leave uncovered, and the area of their union.

An edge is a circle, told by its angle, or the sides of a polygon, told by the number of the side and the share of it.
What the others cover of it has a closed form, and by Green's theorem what they leave uncovered gives the area of the union.
"""

import math
from collections.abc import Iterable
from typing import Final

from attrs import frozen

Point = tuple[float, float]
Span = tuple[float, float]

_TURN: Final = 2 * math.pi


@frozen
class Disc:
    """A disc.

    Attributes
    ----------
    x : float
        Middle [m]
    y : float
        Middle [m]
    radius : float
        Radius, above 0 [m]
    lean : float
        Area of the face that stands on its edge, per metre of edge and metre of rise [-]
    """

    x: float
    y: float
    radius: float
    lean: float = 1.0

    @property
    def box(self) -> tuple[float, float, float, float]:
        """Least and greatest x, least and greatest y [m]."""
        return self.x - self.radius, self.x + self.radius, self.y - self.radius, self.y + self.radius


@frozen
class Polygon:
    """A polygon whose corners run anticlockwise.

    Attributes
    ----------
    corners : tuple of tuple
        Corners [m]
    leans : tuple of float
        Of each side, the area of the face that stands on it, per metre of side and metre of rise [-]
    convex : bool
        Whether no corner recedes [-]
    box : tuple of float
        Least and greatest x, least and greatest y [m]
    """

    corners: tuple[Point, ...]
    leans: tuple[float, ...]
    convex: bool
    box: tuple[float, float, float, float]


def polygon(corners: tuple[Point, ...], leans: tuple[float, ...] = (), convex: bool = True) -> Polygon:
    """Return a polygon of corners that run either way round.

    Source: arithmetic.

    Parameters
    ----------
    corners : tuple of tuple
        Corners [m]
    leans : tuple of float
        Face per metre of each side and metre of rise; upright where none are given [-]
    convex : bool
        Whether no corner recedes [-]

    Returns
    -------
    Polygon
        The polygon [-]

    Examples
    --------
    >>> polygon(((0.0, 0.0), (0.0, 1.0), (2.0, 0.0))).corners
    ((2.0, 0.0), (0.0, 1.0), (0.0, 0.0))
    """
    leans = leans or (1.0,) * len(corners)
    x0, y0 = corners[0]
    turned = sum(
        (a[0] - x0) * (b[1] - y0) - (b[0] - x0) * (a[1] - y0)
        for a, b in zip(corners, (*corners[1:], corners[0]), strict=True)
    )
    if turned < 0:
        # Side i runs from corner i to the next; turned round, the last side comes first but one.
        corners, leans = corners[::-1], (*leans[-2::-1], leans[-1])
    xs, ys = [p[0] for p in corners], [p[1] for p in corners]
    return Polygon(corners, leans, convex, (min(xs), max(xs), min(ys), max(ys)))


Form = Disc | Polygon


def inside(form: Form, x: float, y: float) -> bool:
    """Say whether a point lies within a form.

    Source: arithmetic; of a polygon, whether a ray crosses its sides an odd number of times.

    Parameters
    ----------
    form : Disc or Polygon
        The form [-]
    x : float
        The point [m]
    y : float
        The point [m]

    Returns
    -------
    bool
        Whether it does [-]

    Examples
    --------
    >>> inside(Disc(0.0, 0.0, 1.0), 0.6, 0.7), inside(polygon(((0.0, 0.0), (1.0, 0.0), (0.0, 1.0))), 0.6, 0.7)
    (True, False)
    """
    if isinstance(form, Disc):
        return (x - form.x) ** 2 + (y - form.y) ** 2 < form.radius**2
    odd = False
    ax, ay = form.corners[-1]
    for bx, by in form.corners:
        if (ay > y) != (by > y) and x < ax + (y - ay) * (bx - ax) / (by - ay):
            odd = not odd
        ax, ay = bx, by
    return odd


def crossed(a: Point, b: Point, form: Form) -> list[Span]:
    """Return the shares of a straight way from a to b that lie within a form.

    Source: arithmetic.

    Parameters
    ----------
    a : tuple of (float, float)
        Where it begins [m]
    b : tuple of (float, float)
        Where it ends [m]
    form : Disc or Polygon
        The form [-]

    Returns
    -------
    list of (float, float)
        From where to where, 0 at a and 1 at b [-]

    Examples
    --------
    >>> crossed((-2.0, 0.0), (2.0, 0.0), Disc(0.0, 0.0, 1.0))
    [(0.25, 0.75)]
    """
    ax, ay = a
    dx, dy = b[0] - ax, b[1] - ay
    if isinstance(form, Disc):
        ax, ay = ax - form.x, ay - form.y
        size = dx * dx + dy * dy
        way = ax * dx + ay * dy
        left = way * way - size * (ax * ax + ay * ay - form.radius * form.radius)
        if left <= 0 or size <= 0:
            return []
        root = math.sqrt(left)
        low, high = max(0.0, (-way - root) / size), min(1.0, (root - way) / size)
        return [(low, high)] if high > low else []
    px, py = form.corners[-1]
    if form.convex:
        low, high = 0.0, 1.0
        for qx, qy in form.corners:
            ex, ey = qx - px, qy - py
            gain = ex * dy - ey * dx
            depth = ex * (ay - py) - ey * (ax - px)
            px, py = qx, qy
            if gain == 0:
                if depth < 0:
                    return []
            elif gain > 0:
                low = max(low, -depth / gain)
            else:
                high = min(high, -depth / gain)
            if low >= high:
                return []
        return [(low, high)]
    marks = [0.0, 1.0]
    for qx, qy in form.corners:
        ex, ey = qx - px, qy - py
        gain = ex * dy - ey * dx
        if gain != 0:
            at = ((px - ax) * ey - (py - ay) * ex) / -gain
            share = ((px - ax) * dy - (py - ay) * dx) / -gain
            if 0 < at < 1 and -1e-9 <= share <= 1 + 1e-9:
                marks.append(at)
        px, py = qx, qy
    marks.sort()
    return [
        (low, high)
        for low, high in zip(marks, marks[1:], strict=False)
        if high > low and inside(form, ax + dx * (low + high) / 2, ay + dy * (low + high) / 2)
    ]


def _arc(middle: float, half: float) -> list[Span]:
    """An arc about a direction, cut where the angle starts anew."""
    low = (middle - half) % _TURN
    high = low + 2 * half
    return [(low, high)] if high <= _TURN else [(low, _TURN), (0.0, high - _TURN)]


_ALL_ROUND: Final = [(0.0, _TURN)]


def _around(disc: Disc, form: Form) -> list[Span]:
    """The angles at which the edge of a disc lies within a form."""
    r = disc.radius
    if isinstance(form, Disc):
        dx, dy = form.x - disc.x, form.y - disc.y
        apart = math.hypot(dx, dy)
        if apart >= r + form.radius or apart <= r - form.radius:
            return []
        if apart <= form.radius - r:
            return _ALL_ROUND
        share = (apart * apart + r * r - form.radius * form.radius) / (2 * apart * r)
        return _arc(math.atan2(dy, dx), math.acos(max(-1.0, min(1.0, share))))
    px, py = form.corners[-1]
    if form.convex:
        beyond: list[Span] = []
        for qx, qy in form.corners:
            ex, ey = qx - px, qy - py
            size = math.hypot(ex, ey)
            # How far the middle stands within the side.
            depth = (ex * (disc.y - py) - ey * (disc.x - px)) / size
            px, py = qx, qy
            if depth >= r:
                continue
            if depth <= -r:
                return []
            beyond += _arc(math.atan2(-ex, ey), math.acos(depth / r))
        return left(beyond, _TURN) if beyond else _ALL_ROUND
    marks = [0.0, _TURN]
    for qx, qy in form.corners:
        for low, high in crossed((px, py), (qx, qy), disc):
            for share in (low, high):
                if 0 < share < 1:
                    x, y = px + (qx - px) * share - disc.x, py + (qy - py) * share - disc.y
                    marks.append(math.atan2(y, x) % _TURN)
        px, py = qx, qy
    marks.sort()
    found = []
    for low, high in zip(marks, marks[1:], strict=False):
        middle = (low + high) / 2
        if high > low and inside(form, disc.x + r * math.cos(middle), disc.y + r * math.sin(middle)):
            found.append((low, high))
    return found


def covered(edge: Form, form: Form) -> list[Span]:
    """Return what a form covers of the edge of another: angles of a disc, sides and shares of a polygon.

    Source: arithmetic.

    Parameters
    ----------
    edge : Disc or Polygon
        The form whose edge is asked for [-]
    form : Disc or Polygon
        What may lie over it [-]

    Returns
    -------
    list of (float, float)
        From where to where: radians, or the number of the side and the share of it [-]

    Examples
    --------
    >>> unit = polygon(((0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0)))
    >>> covered(unit, polygon(((0.5, -1.0), (3.0, -1.0), (3.0, 0.5), (0.5, 0.5))))
    [(0.5, 1.0), (1.0, 1.5)]
    """
    a, b = edge.box, form.box
    if a[0] >= b[1] or b[0] >= a[1] or a[2] >= b[3] or b[2] >= a[3]:
        return []
    if isinstance(edge, Disc):
        return _around(edge, form)
    found = []
    ring = edge.corners
    for i, p in enumerate(ring):
        q = ring[i + 1] if i + 1 < len(ring) else ring[0]
        if max(p[0], q[0]) < b[0] or min(p[0], q[0]) > b[1] or max(p[1], q[1]) < b[2] or min(p[1], q[1]) > b[3]:
            continue
        found += [(i + low, i + high) for low, high in crossed(p, q, form)]
    return found


def left(spans: list[Span], whole: float) -> list[Span]:
    """Return what spans leave of a way from 0 to its whole length.

    Source: arithmetic.

    Parameters
    ----------
    spans : list of (float, float)
        What is covered, in any order [any]
    whole : float
        Length of the way [any]

    Returns
    -------
    list of (float, float)
        What is left, in order [any]

    Examples
    --------
    >>> left([(2.0, 3.0), (0.0, 1.0), (0.5, 1.5)], 4.0)
    [(1.5, 2.0), (3.0, 4.0)]
    """
    if not spans:
        return [(0.0, whole)]
    out, at = [], 0.0
    for low, high in sorted(spans):
        if low > at:
            out.append((at, low))
        if high > at:
            at = high
    if at < whole:
        out.append((at, whole))
    return out


class Overlay:
    """Forms that lie over each other; sets of them are told by bits, so that what one covers of another is asked once.

    Source: arithmetic.
    """

    def __init__(self, forms: list[Form]) -> None:
        self.forms = forms
        self._boxes: list[tuple[float, float, float, float]] = []
        self._rows: dict[int, tuple[int, list[tuple[int, list[Span]]]]] = {}
        self._known: dict[tuple[int, int], tuple[float, float]] = {}

    def _row(self, i: int) -> tuple[int, list[tuple[int, list[Span]]]]:
        """What the others cover of the edge of form i: the set of those that cover some, and what each does."""
        edge, touching, found = self.forms[i], 0, []
        if len(self._boxes) < len(self.forms):
            self._boxes = [form.box for form in self.forms]
        a0, a1, a2, a3 = self._boxes[i]
        for j, form in enumerate(self.forms):
            b0, b1, b2, b3 = self._boxes[j]
            if j == i or a0 >= b1 or b0 >= a1 or a2 >= b3 or b2 >= a3:
                continue
            spans = covered(edge, form)
            if spans:
                touching |= 1 << j
                found.append((1 << j, spans))
        self._rows[i] = touching, found
        return touching, found

    def _left(self, i: int, others: int) -> tuple[float, float]:
        """Twice the area, by Green's theorem, and the face, that belong to what a set of others leaves of the edge of form i."""
        touching, row = self._rows.get(i) or self._row(i)
        others &= touching
        known = self._known.get((i, others))
        if known is not None:
            return known
        form = self.forms[i]
        spans = [span for bit, found in row if others & bit for span in found]
        area = face = 0.0
        if isinstance(form, Disc):
            r = form.radius
            for low, high in left(spans, _TURN):
                area += r * r * (high - low)
                face += r * form.lean * (high - low)
                if spans:
                    area += r * (form.x * (math.sin(high) - math.sin(low)) - form.y * (math.cos(high) - math.cos(low)))
        else:
            ring, leans = form.corners, form.leans
            count = len(ring)
            for low, high in left(spans, float(count)):
                for k in range(int(low), min(count, math.ceil(high))):
                    (ax, ay), (bx, by) = ring[k], ring[k + 1 if k + 1 < count else 0]
                    share = (high if high < k + 1 else k + 1) - (low if low > k else k)
                    area += share * (ax * by - bx * ay)
                    if leans[k]:
                        face += share * leans[k] * math.hypot(bx - ax, by - ay)
        self._known[i, others] = area, face
        return area, face

    def area(self, chosen: int) -> float:
        """Return the area of the union of the chosen forms in square metres."""
        total, i, rest = 0.0, 0, chosen
        while rest:
            if rest & 1:
                total += self._left(i, chosen)[0]
            rest >>= 1
            i += 1
        return total / 2

    def face(self, i: int, others: int) -> float:
        """Return the face on the edge of a form that others leave uncovered, per metre of rise, in metres."""
        return self._left(i, others)[1]


def union(forms: Iterable[Form]) -> float:
    """Return the area that forms cover together, each place counted once.

    Source: arithmetic (Green's theorem on the uncovered edges). Edges that lie on each other must not be the same to the last
    bit; whoever places forms sets them apart by less than matters.

    Parameters
    ----------
    forms : iterable of Disc or Polygon
        The forms [-]

    Returns
    -------
    float
        Area [m2]

    Examples
    --------
    >>> round(union((Disc(0.0, 0.0, 1.0), Disc(1.0, 0.0, 1.0))), 9) == round(4 * math.pi / 3 + math.sqrt(3) / 2, 9)
    True
    """
    chosen = list(forms)
    return Overlay(chosen).area((1 << len(chosen)) - 1)
