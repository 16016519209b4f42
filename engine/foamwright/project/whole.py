"""Counts of whole things."""

import math
from typing import Final

#: Counts are rounded up only when they pass a whole number by more than rounding [-].
ROUNDING: Final = 1e-9


def ceiling(value: float) -> int:
    """Round up, but not for a difference that is only rounding of floats.

    Source: arithmetic.

    Parameters
    ----------
    value : float
        A count, 0 or more [-]

    Returns
    -------
    int
        Least whole number that is not smaller [-]

    Examples
    --------
    >>> ceiling(0.1 * 3 / 0.1), ceiling(84.5)
    (3, 85)
    """
    return math.ceil(value - ROUNDING * max(1.0, value))
