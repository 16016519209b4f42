"""Hoods of openings that a section cuts: what is cut, and the cheek that is seen beyond."""

from foamwright.project.model import Opening, Part
from foamwright.shape.hoods import collar, front, hooded

Points = list[tuple[float, float]]


def cut_hood(part: Part, opening: Opening) -> tuple[list[tuple[float, float]], list[tuple[float, float]], float] | None:
    """Return the heights between which a section through the middle of an opening cuts its hood, or sees it.

    Source: arithmetic (`collar`).

    Parameters
    ----------
    part : Part
        A dome or a vault [-]
    opening : Opening
        An opening that the section cuts [-]

    Returns
    -------
    tuple or None
        Stretches that are cut, stretches that are seen, and how far out the front stands; none without a hood [m]

    Examples
    --------
    >>> door = Opening(form="arched", hood="around", hood_projection_m=0.2, hood_thickness_m=0.1)
    >>> cut_hood(Part(), door)
    ([(2.0, 2.1)], [(0.0, 2.0)], 3.4000000000000004)
    """
    if not hooded(opening):
        return None
    outer, inner = collar(opening)
    solid = [(low, high) for low, high in ((outer.low_m, inner.low_m), (inner.high_m, outer.high_m)) if high - low > 1e-9]
    open_ = [(inner.low_m, inner.high_m)] if inner.high_m - inner.low_m > 1e-9 else []
    return solid, open_, front(part, opening)
