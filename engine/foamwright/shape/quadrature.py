"""Integrals of smooth functions by Gauss-Legendre rules, in plain Python."""

import math
from collections.abc import Callable
from functools import cache

Vector = tuple[float, ...]

#: Nodes of the rule that every piece is tried with; doubled by halving the piece.
_ORDER = 10
#: A piece is halved at most so often: the root at the end of a piece is then below any tolerance here.
_DEPTH = 25


@cache
def gauss_legendre(order: int) -> tuple[tuple[float, float], ...]:
    """Return the nodes and weights of the Gauss-Legendre rule on [-1, 1].

    Source: Abramowitz and Stegun, Handbook of Mathematical Functions (1964), 25.4.29; the roots
    of the Legendre polynomial by Newton's method.

    Parameters
    ----------
    order : int
        Number of nodes, at least 1 [-]

    Returns
    -------
    tuple of (float, float)
        Each node with its weight [-]

    Examples
    --------
    >>> [(round(x, 6), round(w, 6)) for x, w in gauss_legendre(2)]
    [(-0.57735, 1.0), (0.57735, 1.0)]
    """
    pairs = []
    for i in range(order):
        x = -math.cos(math.pi * (i + 0.75) / (order + 0.5))
        slope = 1.0
        for _ in range(100):
            before, here = 1.0, x
            for k in range(2, order + 1):
                before, here = here, ((2 * k - 1) * x * here - (k - 1) * before) / k
            slope = order * (x * here - before) / (x * x - 1)
            step = here / slope
            x -= step
            if abs(step) < 1e-15:
                break
        pairs.append((x, 2 / ((1 - x * x) * slope * slope)))
    return tuple(pairs)


def integrate(
    function: Callable[[float], Vector], low: float, high: float, tolerance: float = 1e-10
) -> Vector:
    """Integrate several functions of one variable at once, halving where they are not smooth.

    Source: arithmetic (adaptive Gauss-Legendre; a piece stands when its two halves confirm it).

    Parameters
    ----------
    function : Callable
        Gives all integrands at one abscissa [any]
    low : float
        Lower limit [any]
    high : float
        Upper limit [any]
    tolerance : float
        Relative difference at which a piece stands [-]

    Returns
    -------
    tuple of float
        The integrals, in the order of the integrands [any]

    Examples
    --------
    >>> [round(v, 9) for v in integrate(lambda x: (x * x, x ** 0.5), 0.0, 1.0)]
    [0.333333333, 0.666666667]
    """
    rule = gauss_legendre(_ORDER)

    def once(a: float, b: float) -> Vector:
        half, middle = (b - a) / 2, (a + b) / 2
        total = [0.0] * width
        for node, weight in rule:
            for i, value in enumerate(function(middle + half * node)):
                total[i] += weight * value
        return tuple(half * value for value in total)

    def settle(a: float, b: float, whole: Vector, depth: int) -> Vector:
        middle = (a + b) / 2
        left, right = once(a, middle), once(middle, b)
        both = tuple(p + q for p, q in zip(left, right, strict=True))
        if depth == 0 or all(
            abs(p - q) <= tolerance * s for p, q, s in zip(whole, both, scale, strict=True)
        ):
            return both
        sides = settle(a, middle, left, depth - 1), settle(middle, b, right, depth - 1)
        return tuple(p + q for p, q in zip(*sides, strict=True))

    width = len(function((low + high) / 2))
    first = once(low, high)
    scale = tuple(abs(value) + 1e-300 for value in first)
    return settle(low, high, first, _DEPTH)
