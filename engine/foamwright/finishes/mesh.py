"""Mesh laid strip by strip on a face that is spread out flat along its meridian, and cut from rolls.

A strip never stretches: where the face narrows it is lapped further or trimmed. Nothing is taken off for
openings, since the mesh is cut out after it is laid; reveals get strips of their own.
"""

import math
from collections.abc import Callable
from functools import lru_cache
from typing import Final

from attrs import frozen

from foamwright.finishes.packing import Pieces, pack, split
from foamwright.project.model import Part
from foamwright.project.whole import ceiling
from foamwright.shape import Face, meridian, outline
from foamwright.shape.wall import gabled

#: Halvings by which the height is found at which every other strip ends.
_HALVINGS: Final = 30


@frozen
class Spread:
    """A face spread out along its meridian.

    Attributes
    ----------
    girth : Callable
        Length of the face across the meridian, by length along it; it never grows [m]
    length_m : float
        Length along the meridian [m]
    ring : bool
        Whether the girth comes back to its beginning [-]
    pointed : bool
        Whether the face ends in a point, as at the crown of a closed dome [-]
    feet : int
        How many ends of the meridian stand on the ground; 0 of a gable, which stands on its wall [-]
    """

    girth: Callable[[float], float]
    length_m: float
    ring: bool
    pointed: bool
    feet: int


@frozen
class Strip:
    """Strips that are cut alike.

    Attributes
    ----------
    kind : str
        ``gore`` up the meridian, ``band`` across it, ``cap`` over the crown, ``reveal``, ``hood`` [-]
    from_m : float
        Where they begin along the meridian; negative at a return at the foot [m]
    to_m : float
        Where they end along the meridian, laps not counted [m]
    count : int
        How many [-]
    length_m : float
        Length to cut, laps and returns in it, before waste [m]
    """

    kind: str
    from_m: float
    to_m: float
    count: int
    length_m: float


def spreads(part: Part, outside: bool) -> tuple[Spread, ...]:
    """Return the faces of one side of a part, each spread out along its meridian.

    Source: arithmetic. A dome has one face round its axis; a vault its barrel from foot to foot, and
    an end wall where one closes it; a wall its face all along, and each gable.

    Parameters
    ----------
    part : Part
        The part as stated [-]
    outside : bool
        Whether its outside or its inside is meant [-]

    Returns
    -------
    tuple of Spread
        The faces [m]

    Examples
    --------
    >>> face, = spreads(Part(), True)
    >>> round(face.length_m, 3), round(face.girth(0.0), 3)
    (5.527, 20.106)
    """
    if part.shape in ("fill", "blocks"):
        return ()
    if part.shape == "wall":
        return _of_wall(part, outside)
    shell = meridian(part)
    face = shell.outside if outside else shell.inside
    if part.shape == "dome":
        return (Spread(_round(face), face.length_m, True, shell.opening_m <= 0, 1),)
    closed = {"both": 2, "one": 1, "open": 0}[part.ends]
    end = part.thickness_m if part.end_thickness_m is None else part.end_thickness_m
    length = part.length_m + (closed * end if outside else 0.0)
    barrel = Spread(lambda _: length, 2 * face.length_m, False, False, 2)
    low, high = face.foot_m, face.crown_m
    wall = Spread(lambda s: 2 * face.radius(min(low + s, high)), high - low, False, False, 1)
    return (barrel, *([wall] * closed))


def _of_wall(part: Part, outside: bool) -> tuple[Spread, ...]:
    line, rise = outline(part), part.wall.gable_rise_m
    length = line.outside_m if outside else line.inside_m
    if outside and not line.closed:
        length += 2 * part.thickness_m
    gables = tuple(
        Spread(_triangle(side.middle_m, rise), rise, False, False, 0)
        for i, side in enumerate(line.sides)
        if gabled(part, i)
    )
    return (Spread(lambda _: length, part.wall.height_m, line.closed, False, 1), *gables)


def _triangle(length: float, rise: float) -> Callable[[float], float]:
    return lambda s: length * max(0.0, 1 - s / rise)


def _round(face: Face) -> Callable[[float], float]:
    return lambda length: 2 * math.pi * face.point(max(0.0, length))[0]


def _half(spread: Spread, start: float, girth: float) -> float:
    """Where the girth has fallen to a half of itself; the end of the face if it never does."""
    if spread.girth(spread.length_m) > girth / 2:
        return spread.length_m
    low, high = start, spread.length_m
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        if spread.girth(middle) > girth / 2:
            low = middle
        else:
            high = middle
    return high


def gores(spread: Spread, width: float, lap: float, foot: float) -> tuple[Strip, ...]:
    """Lay strips up the meridian; wherever the girth has halved, only as many go on as are needed there.

    Source: arithmetic: a tier has girth over (width - lap) strips, rounded up; a crown that a square
    of the roll's width covers gets one such square.

    Parameters
    ----------
    spread : Spread
        The face [m]
    width : float
        Width of the roll [m]
    lap : float
        Overlap of neighbours, less than half the width [m]
    foot : float
        How far each strip is turned on at a foot [m]

    Returns
    -------
    tuple of Strip
        Tiers from the foot up [m]

    Examples
    --------
    >>> [(s.kind, s.count, round(s.length_m, 2)) for s in gores(spreads(Part(), True)[0], 1.0, 0.1, 0.15)]
    [('gore', 23, 4.1), ('gore', 12, 1.0), ('gore', 6, 0.48), ('cap', 1, 1.0)]
    """
    cover, whole = width - lap, spread.length_m
    cap = whole - (width / 2 - lap) if spread.pointed else whole
    laid: list[Strip] = []
    start = 0.0
    while start < cap:
        girth = spread.girth(start)
        count = max(1, ceiling((girth if spread.ring else girth - lap) / cover))
        end = min(cap, max(_half(spread, start, girth), start + cover))
        if not spread.pointed and whole - end < width:
            end = whole
        more = (foot if spread.feet else lap) if start == 0 else 0.0
        if end < whole:
            more += lap
        elif spread.feet == 2:
            more += foot
        laid.append(Strip("gore", start, end, count, end - start + more))
        start = end
    if spread.pointed:
        laid.append(Strip("cap", start, whole, 1, 2 * (whole - start + lap)))
    return tuple(laid)


def bands(spread: Spread, width: float, lap: float, foot: float) -> tuple[Strip, ...]:
    """Lay strips across the meridian, each as long as the girth at its lower edge.

    Source: arithmetic: one band for every (width - lap) of the meridian, the return at the foot
    counted; a crown that a square of the roll's width covers gets one such square.

    Parameters
    ----------
    spread : Spread
        The face [m]
    width : float
        Width of the roll [m]
    lap : float
        Overlap of neighbours, less than half the width [m]
    foot : float
        How far the mesh is turned on at a foot [m]

    Returns
    -------
    tuple of Strip
        Bands from the foot up [m]

    Examples
    --------
    >>> [round(s.length_m, 2) for s in bands(spreads(Part(), True)[0], 1.0, 0.1, 0.15)]
    [20.21, 20.14, 18.92, 16.22, 12.25, 7.33, 0.75]
    """
    cover, whole = width - lap, spread.length_m
    cap = whole - (width / 2 - lap) if spread.pointed else whole
    end = whole + (foot if spread.feet == 2 else 0.0)
    laid: list[Strip] = []
    start = -foot if spread.feet else -lap
    while start < (cap if spread.pointed else end) - 1e-9:
        stop = min(start + cover, end)
        girth = spread.girth(max(0.0, min(start, whole)))
        laid.append(Strip("band", start, stop, 1, girth + (lap if spread.ring else 0.0)))
        start = stop
    if spread.pointed and start < whole:
        laid.append(Strip("cap", start, whole, 1, 2 * (whole - start + lap)))
    return tuple(laid)


#: Both ways of laying, by name.
WAYS: Final[dict[str, Callable[[Spread, float, float, float], tuple[Strip, ...]]]] = {
    "gores": gores,
    "bands": bands,
}


@lru_cache(maxsize=512)
def lay(
    way: str, part: Part, outside: bool, width: float, lap: float, foot: float
) -> tuple[tuple[Strip, ...], float]:
    """Lay all strips of one side of a part, once for every room and sheet that asks.

    Source: arithmetic (`gores`, `bands`).

    Parameters
    ----------
    way : str
        ``gores`` or ``bands`` [-]
    part : Part
        The part as stated; its openings do not matter [-]
    outside : bool
        Whether its outside or its inside is meant [-]
    width : float
        Width of the roll [m]
    lap : float
        Overlap of neighbours, less than half the width [m]
    foot : float
        How far the mesh is turned on at a foot [m]

    Returns
    -------
    tuple of (tuple of Strip, float)
        The strips, and the area that is turned on at the feet [m, m2]

    Examples
    --------
    >>> strips, turned = lay("gores", Part(), True, 1.0, 0.1, 0.15)
    >>> len(strips), round(turned, 3)
    (4, 3.016)
    """
    strips: list[Strip] = []
    turned = 0.0
    for face in spreads(part, outside):
        ends = (face.girth(0.0) if face.feet else 0.0) + (face.girth(face.length_m) if face.feet == 2 else 0.0)
        turned += ends * foot
        strips += WAYS[way](face, width, lap, foot)
    return tuple(strips), turned


def rows(perimeter: float, depth: float, width: float, lap: float) -> tuple[int, int, float]:
    """Return how the strip round one reveal comes out of the roll's width.

    Source: arithmetic; the strip is as wide as the reveal is deep and a lap on the face.

    Parameters
    ----------
    perimeter : float
        Length of the edges that are covered [m]
    depth : float
        Depth of the reveal [m]
    width : float
        Width of the roll [m]
    lap : float
        Overlap on the face and at joins [m]

    Returns
    -------
    tuple of (int, int, float)
        Strips side by side in the roll; rolls' widths for one reveal; length to cut [m]

    Examples
    --------
    >>> [round(n, 9) for n in rows(1.885, 0.25, 1.0, 0.1)]
    [2, 1, 1.985]
    >>> rows(2.0, 1.4, 1.0, 0.1)[:2]
    (1, 2)
    """
    wanted = depth + lap
    if wanted <= width + 1e-9:
        return int((width + 1e-9) / wanted), 1, perimeter + lap
    return 1, ceiling((wanted - lap) / (width - lap)), perimeter + lap


def rolls(strips: tuple[Strip, ...], stock: float, lap: float, waste: float) -> int:
    """Return how many rolls are opened to cut all strips.

    Source: arithmetic. Every strip is cut longer by the share of waste. Gores, caps and reveals are
    cut in one piece, longest first, from the first roll that still holds them; bands follow each
    other off the roll, and where one ends the next is lapped on.

    Parameters
    ----------
    strips : tuple of Strip
        All strips of the job [m]
    stock : float
        Length of a roll [m]
    lap : float
        Overlap at joins, shorter than the roll [m]
    waste : float
        Share by which every strip is cut longer [-]

    Returns
    -------
    int
        Rolls to buy [-]

    Examples
    --------
    >>> laid = gores(spreads(Part(), True)[0], 1.0, 0.1, 0.15)
    >>> rolls(laid, 50.0, 0.1, 0.05)
    3
    """
    pieces: Pieces = []
    run = 0.0
    for strip in strips:
        length = strip.length_m * (1 + waste)
        if strip.kind == "band":
            run += strip.count * length
        else:
            pieces += [(part, n * strip.count) for part, n in split(length, stock, lap)]
    if run > 0:
        pieces += split(run, stock, lap)
    return pack(pieces, stock)
