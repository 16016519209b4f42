"""Lengths cut from stock: how many rolls or bars are really opened."""

import math

#: Lengths that differ by less than this are the same [m].
_SAME_M = 1e-9

#: A length, and how many of it.
Pieces = list[tuple[float, int]]


def split(length: float, stock: float, lap: float) -> Pieces:
    """Return the pieces that make up a length, joined by laps where it is longer than the stock.

    Source: arithmetic: n pieces have n - 1 laps.

    Parameters
    ----------
    length : float
        Length to be covered, above 0 [m]
    stock : float
        Length of one roll or bar [m]
    lap : float
        Overlap of two pieces, 0 or more and shorter than the stock [m]

    Returns
    -------
    list of (float, int)
        Each length and how many of it; together they make the length and its laps [m]

    Examples
    --------
    >>> split(4.0, 6.0, 0.5), split(14.0, 6.0, 0.5)
    ([(4.0, 1)], [(6.0, 2), (3.0, 1)])
    """
    if length <= stock + _SAME_M:
        return [(length, 1)]
    count = math.ceil((length - lap) / (stock - lap) - _SAME_M)
    last = length + (count - 1) * lap - (count - 1) * stock
    return [(stock, count - 1), (last, 1)] if last > _SAME_M else [(stock, count - 1)]


def pack(pieces: Pieces, stock: float) -> int:
    """Return how many rolls or bars are opened to cut all pieces, the longest first.

    Source: arithmetic (first-fit decreasing: each piece comes from the first opened stock that still
    holds it). It never takes less than all pieces need, and at most about 11/9 of the least possible
    number (Johnson 1973, from memory).

    Parameters
    ----------
    pieces : list of (float, int)
        Lengths and how many of each; none longer than the stock [m]
    stock : float
        Length of one roll or bar [m]

    Returns
    -------
    int
        Rolls or bars [-]

    Raises
    ------
    ValueError
        A piece is longer than the stock.

    Examples
    --------
    >>> pack([(4.0, 3), (2.0, 3)], 6.0), pack([(4.0, 2)], 6.0), pack([], 6.0)
    (3, 2, 0)
    """
    opened: list[tuple[float, int]] = []
    for length, count in sorted(pieces, reverse=True):
        if length > stock + _SAME_M:
            raise ValueError(f"a piece of {length} m does not come out of {stock} m")
        kept: list[tuple[float, int]] = []
        for rest, alike in opened:
            each = int((rest + _SAME_M) / length) if length > _SAME_M else count
            whole = min(alike, count // each) if each else 0
            if whole:
                kept.append((rest - each * length, whole))
                count -= whole * each
                alike -= whole
            if alike and each and count:
                kept.append((rest - count * length, 1))
                alike, count = alike - 1, 0
            if alike:
                kept.append((rest, alike))
        opened = kept
        if count:
            each = int((stock + _SAME_M) / length) if length > _SAME_M else count
            whole, over = divmod(count, each)
            if whole:
                opened.append((stock - each * length, whole))
            if over:
                opened.append((stock - over * length, 1))
    return sum(alike for _, alike in opened)
