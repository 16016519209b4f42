"""Rows that keep published and customary figures apart, source by source."""

from attrs import frozen


@frozen
class Row:
    """One published or customary figure, with what it rests on.

    Attributes
    ----------
    quantity : str
        What it is, its unit last in the name [-]
    low : float
        Least [unit of the quantity]
    high : float
        Most; the same where one figure is given [unit of the quantity]
    source : str
        Source [-]
    basis : str
        What density or state it refers to: ``oven_dry``, ``air_dry``, ``in_use``, ``fresh`` or ``-`` [-]
    note : str
        Code of what must be said beside it, or nothing [-]
    """

    quantity: str
    low: float
    high: float
    source: str
    basis: str = "-"
    note: str = ""
