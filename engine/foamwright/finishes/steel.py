"""Bars as typed: laps, mass and how many are bought. Nothing here sizes a bar."""

import math
from typing import Final

from foamwright.finishes.packing import Pieces, split
from foamwright.project.whole import ceiling

#: Density of steel by which the mass of bars is reckoned (EN 10080, from memory) [kg/m3].
STEEL_KG_M3: Final = 7850.0


def bar_mass(diameter: float) -> float:
    """Return the mass of one metre of bar.

    Source: round section at 7850 kg/m3 (EN 10080, from memory).

    Parameters
    ----------
    diameter : float
        Nominal diameter, above 0 [m]

    Returns
    -------
    float
        Mass [kg/m]

    Examples
    --------
    >>> round(bar_mass(0.012), 3)
    0.888
    """
    return math.pi * diameter**2 / 4 * STEEL_KG_M3


def hoop(length: float, closed: bool, stock: float, lap: float) -> Pieces:
    """Return the pieces of one bar that runs along the base and is lapped wherever it is joined.

    Source: arithmetic; a ring of n pieces has n laps, an open run n - 1.

    Parameters
    ----------
    length : float
        Length of the run, above 0 [m]
    closed : bool
        Whether it comes back to its beginning [-]
    stock : float
        Length of a bar as sold [m]
    lap : float
        Length of a lap, shorter than the bar [m]

    Returns
    -------
    list of (float, int)
        Each length and how many of it [m]

    Examples
    --------
    >>> [(round(length, 2), count) for length, count in hoop(19.48, True, 6.0, 0.48)]
    [(6.0, 3), (3.4, 1)]
    """
    if not closed:
        return split(length, stock, lap)
    count = max(1, ceiling(length / (stock - lap)))
    last = length + count * lap - (count - 1) * stock
    return [(stock, count - 1), (last, 1)] if count > 1 else [(last, 1)]


def laps(pieces: Pieces, closed: bool) -> int:
    """Return how many laps one such bar has.

    Source: arithmetic.

    Parameters
    ----------
    pieces : list of (float, int)
        Its pieces [m]
    closed : bool
        Whether it comes back to its beginning [-]

    Returns
    -------
    int
        Laps [-]

    Examples
    --------
    >>> laps([(6.0, 3), (3.4, 1)], True), laps([(6.0, 3), (3.4, 1)], False)
    (4, 3)
    """
    count = sum(count for _, count in pieces)
    return count if closed else count - 1
