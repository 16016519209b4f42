"""How high so many litres stand in the builder's own drum."""

import math

from foamwright.project.model import Batch, Mark
from foamwright.project.notes import Note, Problem, Scalar


def height_straight(volume: float, diameter: float) -> float:
    """Return how high a volume stands in a straight drum.

    Source: arithmetic (cylinder).

    Parameters
    ----------
    volume : float
        Volume, 0 or more [L]
    diameter : float
        Inside diameter, above 0 [m]

    Returns
    -------
    float
        Height above the bottom [m]

    Examples
    --------
    >>> round(height_straight(159.0, 0.57), 3)
    0.623
    """
    return volume / 1000 / (math.pi * diameter**2 / 4)


def height_tapered(volume: float, bottom: float, top: float, depth: float) -> float:
    """Return how high a volume stands in a drum that widens or narrows evenly.

    Source: arithmetic (frustum of a cone, solved for its height). Valid up to the top of the drum;
    above it the taper is taken to go on.

    Parameters
    ----------
    volume : float
        Volume, 0 or more [L]
    bottom : float
        Inside diameter at the bottom, above 0 [m]
    top : float
        Inside diameter at the top, above 0 [m]
    depth : float
        Inside depth, above 0 [m]

    Returns
    -------
    float
        Height above the bottom; infinite where a narrowing drum ends in its point before [m]

    Examples
    --------
    >>> round(height_tapered(100.0, 0.50, 0.60, 0.85), 4)
    0.4581
    """
    litres = volume / 1000
    slope = (top - bottom) / 2 / depth
    radius = bottom / 2
    if abs(slope) < 1e-9:
        return height_straight(volume, bottom)
    cubed = radius**3 + 3 * slope * litres / math.pi
    if cubed < 0:
        return math.inf
    # (cbrt(a^3 + d) - a) / slope without taking the difference of two nearly equal roots.
    root = math.cbrt(cubed)
    return 3 * litres / math.pi / (root * root + root * radius + radius * radius)


def height_calibrated(volume: float, marks: tuple[tuple[float, float], ...]) -> float | None:
    """Return how high a volume stands in a drum that was marked with measured water.

    Source: arithmetic (straight lines between the marks, and from the empty drum to the first).

    Parameters
    ----------
    volume : float
        Volume, 0 or more [L]
    marks : tuple of (float, float)
        Volume and height of each mark, both rising [L, m]

    Returns
    -------
    float or None
        Height above the bottom; none above the last mark [m]

    Examples
    --------
    >>> round(height_calibrated(75.0, ((50.0, 0.20), (100.0, 0.38))), 9)
    0.29
    """
    known = marks if marks and marks[0][0] == 0 else ((0.0, 0.0), *marks)
    for (below, foot), (above, head) in zip(known, known[1:], strict=False):
        if volume <= above:
            return foot + (head - foot) * (volume - below) / (above - below)
    return None


def order(marks: tuple[Mark, ...]) -> tuple[Problem, ...]:
    """Check that more water stands higher in every pair of marks.

    Source: arithmetic.

    Parameters
    ----------
    marks : tuple of Mark
        Marks in any order [-]

    Returns
    -------
    tuple of Problem
        Marks that stand no higher than one with less water [m]

    Examples
    --------
    >>> order((Mark(50.0, 0.3), Mark(100.0, 0.2)))[0].path
    'batch.drum_marks[1].height_m'
    """
    problems: list[Problem] = []
    params: dict[str, Scalar]
    ranked = sorted(enumerate(marks), key=lambda pair: (pair[1].volume_l, pair[1].height_m))
    for (_, low), (i, high) in zip(ranked, ranked[1:], strict=False):
        if high.height_m <= low.height_m:
            params = {"volume_l": high.volume_l, "below_l": low.volume_l}
            path = f"batch.drum_marks[{i}].height_m"
            problems.append(Problem(path, high.height_m, low.height_m, "drum_marks_order", params))
        elif high.volume_l <= low.volume_l:
            path = f"batch.drum_marks[{i}].volume_l"
            problems.append(Problem(path, high.volume_l, low.volume_l, "drum_marks_order"))
    return tuple(problems)


def marks(
    batch: Batch, volumes: tuple[float, ...]
) -> tuple[tuple[float | None, ...], tuple[Note, ...]]:
    """Return the heights of several volumes in the builder's drum.

    Source: arithmetic, by the form of the drum that was typed.

    Parameters
    ----------
    batch : Batch
        The drum [-]
    volumes : tuple of float
        Volumes to mark [L]

    Returns
    -------
    tuple of (tuple of float or None, tuple of Note)
        Heights in the same order; none where the drum is not known so far up [m]

    Examples
    --------
    >>> marks(Batch(drum_form="calibrated"), (50.0,))[1][0].code
    'drum_marks_missing'
    """
    top = batch.drum_depth_m
    params: dict[str, Scalar]
    if batch.drum_form == "calibrated":
        known = tuple(sorted((mark.volume_l, mark.height_m) for mark in batch.drum_marks))
        if len(known) < 2:
            params = {"marks": len(known), "least": 2}
            note = Note("drum_marks_missing", "caution", "batch.drum_marks", params, "arithmetic")
            return tuple(None for _ in volumes), (note,)
        heights = tuple(height_calibrated(volume, known) for volume in volumes)
        top = known[-1][1]
    elif batch.drum_form == "tapered":
        sizes = (batch.drum_bottom_diameter_m, batch.drum_top_diameter_m, top)
        heights = tuple(height_tapered(volume, *sizes) for volume in volumes)
    else:
        heights = tuple(height_straight(volume, batch.drum_diameter_m) for volume in volumes)
    within = tuple(h if h is not None and h <= top + 1e-9 else None for h in heights)
    beyond = [volume for volume, h in zip(volumes, within, strict=True) if h is None]
    if not beyond:
        return within, ()
    path = "batch.drum_marks" if batch.drum_form == "calibrated" else "batch.drum_depth_m"
    params = {"volume_l": max(beyond), "top_m": top}
    return within, (Note("drum_marks_beyond", "caution", path, params, "arithmetic"),)
