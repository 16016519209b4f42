"""Volumes, faces and floors of each part and of the whole."""

import math
from itertools import combinations
from typing import Final

from attrs import frozen

from foamwright.project.model import Part, Permit
from foamwright.project.notes import Note, Problem, Scalar
from foamwright.shape.meridian import Meridian, meridian
from foamwright.shape.openings import Cut, Taken, check, cut, taken

#: Clear height that makes floor count as headroom: the project's own choice, not a code's.
HEADROOM_M: Final = 2.0


@frozen
class PartShape:
    """One part, measured.

    Attributes
    ----------
    id : str
        Name of the part in the project [-]
    floor_area_m2 : float
        Clear inside floor [m2]
    footprint_m2 : float
        Outside plan [m2]
    headroom_area_m2 : float
        Floor with 2.0 m of headroom [m2]
    height_m : float
        Floor to inside crown [m]
    outside_height_m : float
        Floor to outside crown [m]
    outside_diameter_m : float
        Across the outside faces at their widest [m]
    shell_volume_m3 : float
        Foamed concrete in place, openings taken out [m3]
    openings_volume_m3 : float
        What the openings take out [m3]
    inside_area_m2 : float
        Inside face, openings taken out, reveals not counted [m2]
    outside_area_m2 : float
        Outside face, openings taken out, reveals not counted [m2]
    openings_count : int
        Openings with their repeats [-]
    thickness_m : float
        Thickness of the shell [m]
    thickness_ratio : float
        Thickness over the radius of the middle surface at its widest [-]
    """

    id: str
    floor_area_m2: float
    footprint_m2: float
    headroom_area_m2: float
    height_m: float
    outside_height_m: float
    outside_diameter_m: float
    shell_volume_m3: float
    openings_volume_m3: float
    inside_area_m2: float
    outside_area_m2: float
    openings_count: int
    thickness_m: float
    thickness_ratio: float


@frozen
class Shape:
    """The whole project, measured: sums over its parts, and the greatest heights and widths.

    Attributes
    ----------
    floor_area_m2 : float
        Clear inside floor [m2]
    footprint_m2 : float
        Outside plan [m2]
    headroom_area_m2 : float
        Floor with 2.0 m of headroom [m2]
    height_m : float
        Floor to the highest inside crown [m]
    outside_height_m : float
        Floor to the highest outside crown [m]
    outside_diameter_m : float
        Widest part across its outside faces [m]
    shell_volume_m3 : float
        Foamed concrete in place, openings taken out [m3]
    openings_volume_m3 : float
        What the openings take out [m3]
    inside_area_m2 : float
        Inside faces, openings taken out [m2]
    outside_area_m2 : float
        Outside faces, openings taken out [m2]
    parts : tuple of PartShape
        The parts, in the order of the project [-]
    """

    floor_area_m2: float
    footprint_m2: float
    headroom_area_m2: float
    height_m: float
    outside_height_m: float
    outside_diameter_m: float
    shell_volume_m3: float
    openings_volume_m3: float
    inside_area_m2: float
    outside_area_m2: float
    parts: tuple[PartShape, ...]


def headroom_area(shell: Meridian, headroom: float = HEADROOM_M) -> float:
    """Return the floor area above which the inside face stands at least so high.

    Source: arithmetic. Valid for faces that lean inward or stand upright, as all profiles here do.

    Parameters
    ----------
    shell : Meridian
        Section of the shell [-]
    headroom : float
        Clear height asked, 0 or more [m]

    Returns
    -------
    float
        Area; 0 where the crown is lower [m2]

    Examples
    --------
    >>> from foamwright.shape.meridian import hemisphere
    >>> round(headroom_area(hemisphere(6.0, 0.5, 0.2)), 1)
    21.2
    """
    if headroom >= shell.inside.crown_m:
        return 0.0
    return math.pi * shell.inside.radius(headroom) ** 2


def measure_part(
    part: Part, path: str = "parts[0]"
) -> tuple[PartShape | None, tuple[Problem, ...], tuple[Note, ...]]:
    """Measure one part: volume by solids of revolution less what its openings take.

    Source: arithmetic (Pappus and Archimedes for the whole faces, quadrature for the openings).

    Parameters
    ----------
    part : Part
        The part as stated [-]
    path : str
        Where it stands in the project [-]

    Returns
    -------
    tuple of (PartShape or None, tuple of Problem, tuple of Note)
        The measures, absent where an opening cannot be built [-]

    Examples
    --------
    >>> shape, _, _ = measure_part(Part())
    >>> round(shape.shell_volume_m3, 4), round(shape.outside_area_m2, 4)
    (14.0283, 74.3929)
    """
    shell = meridian(part)
    inside, outside = shell.inside, shell.outside
    problems, notes = check(inside, part.openings, path)
    if problems:
        return None, problems, notes
    volume = face_in = face_out = 0.0
    count = 0
    known: dict[Cut, Taken] = {}
    params: dict[str, Scalar]
    for i, opening in enumerate(part.openings):
        if opening.to is not None:
            params = {"to": opening.to}
            where = f"{path}.openings[{i}].to"
            notes = (*notes, Note("passage_not_counted", "info", where, params, "typed"))
        section = cut(opening)
        gone = known.get(section) or known.setdefault(section, taken(shell, section))
        volume += gone.volume_m3 * opening.count
        face_in += gone.inside_area_m2 * opening.count
        face_out += gone.outside_area_m2 * opening.count
        count += opening.count
    floor_radius, outside_radius = inside.radius(0.0), outside.radius(outside.foot_m)
    ratio = part.thickness_m / ((floor_radius + outside_radius) / 2)
    headroom = headroom_area(shell)
    if headroom == 0:
        params = {"height_m": inside.crown_m, "limit": HEADROOM_M, "part": part.id}
        notes = (*notes, Note("headroom_none", "info", path, params, "arithmetic"))
    measured = PartShape(
        id=part.id,
        floor_area_m2=math.pi * floor_radius**2,
        footprint_m2=math.pi * outside_radius**2,
        headroom_area_m2=headroom,
        height_m=inside.crown_m,
        outside_height_m=outside.crown_m,
        outside_diameter_m=2 * outside_radius,
        shell_volume_m3=shell.volume() - volume,
        openings_volume_m3=volume,
        inside_area_m2=inside.area() - face_in,
        outside_area_m2=outside.area() - face_out,
        openings_count=count,
        thickness_m=part.thickness_m,
        thickness_ratio=ratio,
    )
    return measured, (), notes


def measure(
    parts: tuple[Part, ...],
) -> tuple[Shape | None, tuple[Problem, ...], tuple[Note, ...]]:
    """Measure all parts and add them up; parts that share ground are counted each for itself.

    Source: arithmetic.

    Parameters
    ----------
    parts : tuple of Part
        The parts as stated, at least one [-]

    Returns
    -------
    tuple of (Shape or None, tuple of Problem, tuple of Note)
        The measures, absent where a part has a problem [-]

    Examples
    --------
    >>> measure((Part(), Part(id="far", at_m=(9.0, 0.0))))[0].height_m
    3.5
    """
    problems: list[Problem] = []
    notes: list[Note] = []
    shapes: list[PartShape] = []
    for i, part in enumerate(parts):
        shape, faults, remarks = measure_part(part, f"parts[{i}]")
        problems.extend(faults)
        notes.extend(remarks)
        if shape:
            shapes.append(shape)
    if problems:
        return None, tuple(problems), tuple(notes)
    for (i, a), (j, b) in combinations(enumerate(shapes), 2):
        apart = math.dist(parts[i].at_m, parts[j].at_m)
        least = (a.outside_diameter_m + b.outside_diameter_m) / 2
        if apart < least - 1e-9:
            params: dict[str, Scalar] = {
                "first": a.id,
                "second": b.id,
                "apart_m": apart,
                "limit": least,
            }
            notes.append(Note("parts_overlap", "caution", f"parts[{j}].at_m", params, "arithmetic"))
    notes.append(Note("shell_not_checked", "info", "", {}, "derived_no_structure"))
    whole = Shape(
        floor_area_m2=sum(s.floor_area_m2 for s in shapes),
        footprint_m2=sum(s.footprint_m2 for s in shapes),
        headroom_area_m2=sum(s.headroom_area_m2 for s in shapes),
        height_m=max(s.height_m for s in shapes),
        outside_height_m=max(s.outside_height_m for s in shapes),
        outside_diameter_m=max(s.outside_diameter_m for s in shapes),
        shell_volume_m3=sum(s.shell_volume_m3 for s in shapes),
        openings_volume_m3=sum(s.openings_volume_m3 for s in shapes),
        inside_area_m2=sum(s.inside_area_m2 for s in shapes),
        outside_area_m2=sum(s.outside_area_m2 for s in shapes),
        parts=tuple(shapes),
    )
    return whole, (), tuple(notes)


@frozen
class PermitArea:
    """The floor area that the local department counts, once it was asked.

    Attributes
    ----------
    counts : str
        Which area counts, or ``unasked`` [-]
    area_m2 : float or None
        That area; absent until it was asked [m2]
    limit_m2 : float or None
        The area up to which no permit is needed, as the department said; absent if not stated [m2]
    over : bool or None
        Whether the area is over the limit; absent unless both are known [-]
    """

    counts: str
    area_m2: float | None
    limit_m2: float | None
    over: bool | None


def permit_area(shape: Shape, permit: Permit) -> tuple[PermitArea, tuple[Note, ...]]:
    """Return the area that counts for the permit, and say so if nobody asked or it is too large.

    Source: typed (the answer of the local department); which area counts differs by place.

    Parameters
    ----------
    shape : Shape
        The measured project [-]
    permit : Permit
        What the department said [-]

    Returns
    -------
    tuple of (PermitArea, tuple of Note)
        The area with its limit [m2]

    Examples
    --------
    >>> shape = measure((Part(),))[0]
    >>> permit_area(shape, Permit(counts="inside", limit_m2=18.58))[0].over
    True
    """
    areas = {
        "inside": shape.floor_area_m2,
        "footprint": shape.footprint_m2,
        "headroom": shape.headroom_area_m2,
    }
    area, limit = areas.get(permit.counts), permit.limit_m2
    if area is None:
        return PermitArea(permit.counts, None, limit, None), (
            Note("permit_unasked", "info", "permit.counts", {}, "typed"),
        )
    if limit is None:
        return PermitArea(permit.counts, area, None, None), ()
    over = area > limit
    notes: tuple[Note, ...] = ()
    if over:
        params: dict[str, Scalar] = {"area_m2": area, "limit": limit, "counts": permit.counts}
        notes = (Note("permit_over_limit", "caution", "permit.limit_m2", params, "typed"),)
    return PermitArea(permit.counts, area, limit, over), notes
