"""Volumes, faces and floors of each part and of the whole."""

import math
from functools import lru_cache
from itertools import combinations
from typing import Final

from attrs import evolve, frozen

from foamwright.project.model import SHELLS, Part, Permit
from foamwright.project.notes import Note, Problem, Scalar
from foamwright.shape.fill import FEATHER_M, FillMeasures, measure_fill
from foamwright.shape.hoods import Hood, check_hoods, hoods
from foamwright.shape.joined import Joint, Share, join
from foamwright.shape.meridian import Meridian, faults, half_width, line, meridian, rise
from foamwright.shape.openings import Cut, Taken, check, cut, taken
from foamwright.shape.plan import near, plan_of, shared_depth
from foamwright.shape.quadrature import integrate
from foamwright.shape.vault import Measures, check_vault, end_thickness, measure_vault, walled
from foamwright.shape.wall import WallMeasures, check_wall, measure_wall, outline, plan_faults, wall_faults

#: Clear height that makes floor count as headroom: the project's own choice, not a code's.
HEADROOM_M: Final = 2.0


@frozen
class OrderedBlocks:
    """Blocks to order, all of one size.

    Attributes
    ----------
    count : int
        How many [-]
    length_m : float
        Length [m]
    height_m : float
        Height [m]
    thickness_m : float
        Thickness [m]
    """

    count: int
    length_m: float
    height_m: float
    thickness_m: float


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
        Floor to inside crown, or to the lower rim of an opening there; of a wall, to its top [m]
    outside_height_m : float
        Floor to outside crown, or to the top of a gable [m]
    outside_diameter_m : float
        Across the outside faces at their widest; of a vault, over its sides; of a straight wall, from corner
        to corner [m]
    shell_volume_m3 : float
        Foamed concrete in place, hoods with it, openings taken out [m3]
    openings_volume_m3 : float
        What the openings take out [m3]
    inside_area_m2 : float
        Inside face, openings taken out, reveals not counted; of an open run of wall, the left face [m2]
    outside_area_m2 : float
        Outside face, openings taken out, hoods with their fronts and outer faces, reveals not counted; of an open run, the right
        face and both ends [m2]
    openings_count : int
        Openings with their repeats [-]
    thickness_m : float
        Thickness of the shell at its springing, or of a wall or an ordered block [m]
    thickness_ratio : float or None
        Thickness over the radius of the middle surface at its widest; absent but of domes and vaults [-]
    shape : str
        ``dome``, ``vault``, ``wall``, ``fill`` or ``blocks`` [-]
    profile : str or None
        The line from springing to crown; absent but of domes and vaults [-]
    rise_m : float or None
        From the springing to the inside crown, before an opening there is cut; absent as above [m]
    mean_thickness_m : float
        Thickness of the shell over its inside face, on average [m]
    crown_opening_area_m2 : float or None
        Opening at the crown, measured level; absent where the crown is closed [m2]
    outside_length_m : float or None
        Of a vault, over its end walls [m]
    end_thickness_m : float or None
        Of a vault's end walls [m]
    end_walls_volume_m3 : float
        Part of the shell volume that stands in a vault's end walls [m3]
    wall : WallMeasures or None
        Of a wall, what else is measured [-]
    fill : FillMeasures or None
        Of a fill, its area and depths [-]
    ordered : OrderedBlocks or None
        Blocks to order [-]
    hoods_volume_m3 : float
        Part of the shell volume that stands in hoods, cast in forms and not laid [m3]
    hoods : tuple of Hood
        Hoods of its openings [-]
    joints_volume_m3 : float
        Foamed concrete that joints with other parts take out of it; the volumes and areas here are without it [m3]
    necks_volume_m3 : float
        Part of the shell volume that stands in necks round its passages, cast in forms and not laid [m3]
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
    thickness_ratio: float | None
    shape: str
    profile: str | None
    rise_m: float | None
    mean_thickness_m: float
    crown_opening_area_m2: float | None
    outside_length_m: float | None
    end_thickness_m: float | None
    end_walls_volume_m3: float
    wall: WallMeasures | None = None
    fill: FillMeasures | None = None
    ordered: OrderedBlocks | None = None
    hoods_volume_m3: float = 0.0
    hoods: tuple[Hood, ...] = ()
    joints_volume_m3: float = 0.0
    necks_volume_m3: float = 0.0


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
    places : tuple of int
        Where each of them stands in the project's list of parts, the first at 0 [-]
    hoods_volume_m3 : float
        Part of the foamed concrete that stands in hoods [m3]
    joints : tuple of Joint
        Where parts are joined through passages [-]
    joints_volume_m3 : float
        Foamed concrete that joints take out of the parts [m3]
    necks_volume_m3 : float
        Part of the foamed concrete that stands in necks round passages [m3]
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
    places: tuple[int, ...]
    hoods_volume_m3: float = 0.0
    joints: tuple[Joint, ...] = ()
    joints_volume_m3: float = 0.0
    necks_volume_m3: float = 0.0

    def beside(self, parts: tuple[Part, ...]) -> tuple[tuple[int, Part, PartShape], ...]:
        """Return the parts that were measured, each with its place in the project and its measures.

        Source: arithmetic.

        Parameters
        ----------
        parts : tuple of Part
            All parts of the project [-]

        Returns
        -------
        tuple of (int, Part, PartShape)
            Place, part as stated, measures [-]

        Examples
        --------
        >>> both = (Part(), Part(id="far", at_m=(9.0, 0.0)))
        >>> [(i, part.id, seen.id) for i, part, seen in measure(both, (1,))[0].beside(both)]
        [(1, 'far', 'far')]
        """
        return tuple((i, parts[i], seen) for i, seen in zip(self.places, self.parts, strict=True))


def numbered(parts: tuple[Part, ...], places: tuple[int, ...] | None = None) -> tuple[tuple[int, Part], ...]:
    """Return parts with their places in the project; those that are left out are not among them.

    Source: arithmetic.

    Parameters
    ----------
    parts : tuple of Part
        All parts of the project [-]
    places : tuple of int or None
        Places of the parts that are taken; None takes them all [-]

    Returns
    -------
    tuple of (int, Part)
        Place and part [-]

    Examples
    --------
    >>> [(i, part.id) for i, part in numbered((Part(id="a"), Part(id="b")), (1,))]
    [(1, 'b')]
    """
    return tuple(enumerate(parts)) if places is None else tuple((i, parts[i]) for i in places)


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
        # Under an opening at the crown nothing is in the way.
        return math.pi * shell.opening_m**2
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
    if part.shape not in SHELLS:
        return {"wall": _wall, "fill": _fill, "blocks": _blocks}[part.shape](part, path)
    problems = faults(part, path)
    if problems:
        return None, problems, ()
    shell = meridian(part)
    inside, outside = shell.inside, shell.outside
    vaulted = part.shape == "vault"
    problems, notes = (
        check_vault(shell, part, path) if vaulted else check(inside, part.openings, path)
    )
    if not problems:
        problems, remarks = check_hoods(part, path)
        notes = (*notes, *remarks)
    if problems:
        return None, problems, notes
    params: dict[str, Scalar]
    made = measure_vault(shell, part) if vaulted else _dome(shell, part)
    floor_radius, outside_radius = inside.radius(0.0), outside.radius(outside.foot_m)
    ratio = part.thickness_m / ((floor_radius + outside_radius) / 2)
    headroom = headroom_area(shell)
    if vaulted:
        clear = 2 * inside.radius(HEADROOM_M) if HEADROOM_M < inside.crown_m else 0.0
        headroom = clear * part.length_m
    if headroom == 0:
        params = {"height_m": inside.crown_m, "limit": HEADROOM_M, "part": part.id}
        notes = (*notes, Note("headroom_none", "info", path, params, "arithmetic"))
    measured = PartShape(
        id=part.id,
        floor_area_m2=made.floor_area_m2,
        footprint_m2=made.footprint_m2,
        headroom_area_m2=headroom,
        height_m=inside.crown_m,
        outside_height_m=outside.crown_m,
        outside_diameter_m=2 * outside_radius,
        shell_volume_m3=made.shell_volume_m3,
        openings_volume_m3=made.openings_volume_m3,
        inside_area_m2=made.inside_area_m2,
        outside_area_m2=made.outside_area_m2,
        openings_count=sum(opening.count for opening in part.openings) + (shell.opening_m > 0),
        thickness_m=part.thickness_m,
        thickness_ratio=ratio,
        shape=part.shape,
        profile=part.profile,
        rise_m=rise(part),
        mean_thickness_m=mean_thickness(part),
        crown_opening_area_m2=math.pi * shell.opening_m**2 if shell.opening_m > 0 else None,
        outside_length_m=made.outside_length_m if vaulted else None,
        end_thickness_m=end_thickness(part) if vaulted and walled(part) else None,
        end_walls_volume_m3=made.end_walls_volume_m3,
    )
    return _with_hoods(part, measured), (), notes


def _with_hoods(part: Part, measured: PartShape) -> PartShape:
    """Add the hoods of a part, which stand out from its outside face."""
    made = hoods(part)
    if not made:
        return measured
    volume = sum(hood.volume_m3 * hood.count for hood in made)
    gained = sum(hood.gained_m2 * hood.count for hood in made)
    return evolve(
        measured,
        shell_volume_m3=measured.shell_volume_m3 + volume,
        outside_area_m2=measured.outside_area_m2 + gained,
        hoods_volume_m3=volume,
        hoods=made,
    )


def _wall(part: Part, path: str) -> tuple[PartShape | None, tuple[Problem, ...], tuple[Note, ...]]:
    """Measure a wall."""
    problems = wall_faults(part, path)
    if problems:
        return None, problems, ()
    problems, notes = check_wall(part, path)
    if not problems:
        problems, remarks = check_hoods(part, path)
        notes = (*notes, *remarks)
    if problems:
        return None, problems, notes
    plan, made, tall = outline(part), measure_wall(part), part.wall.height_m
    gabled = plan.sides and part.wall.gable_rise_m > 0 and part.wall.gable_sides
    ring = (*plan.inside_ring, *plan.outside_ring)
    across = max((math.dist(a, b) for a, b in combinations(ring, 2)), default=0.0)
    measured = PartShape(
        id=part.id,
        floor_area_m2=plan.floor_m2,
        footprint_m2=plan.footprint_m2,
        headroom_area_m2=plan.floor_m2 if tall >= HEADROOM_M else 0.0,
        height_m=tall,
        outside_height_m=tall + (part.wall.gable_rise_m if gabled else 0.0),
        outside_diameter_m=across or part.inside_diameter_m + 2 * part.thickness_m,
        shell_volume_m3=made.shell_volume_m3,
        openings_volume_m3=made.openings_volume_m3,
        inside_area_m2=made.inside_area_m2,
        outside_area_m2=made.outside_area_m2,
        openings_count=sum(opening.count for opening in part.openings),
        thickness_m=part.thickness_m,
        thickness_ratio=None,
        shape=part.shape,
        profile=None,
        rise_m=None,
        mean_thickness_m=part.thickness_m,
        crown_opening_area_m2=None,
        outside_length_m=None,
        end_thickness_m=None,
        end_walls_volume_m3=0.0,
        wall=made,
    )
    return _with_hoods(part, measured), (), notes


def _fill(part: Part, path: str) -> tuple[PartShape | None, tuple[Problem, ...], tuple[Note, ...]]:
    """Measure a fill."""
    problems = () if part.fill.kind == "void" else plan_faults(part, path)
    if problems:
        return None, problems, ()
    made = measure_fill(part)
    notes: tuple[Note, ...] = ()
    if made.least_m is not None and made.least_m < FEATHER_M:
        params: dict[str, Scalar] = {"part": part.id, "least_m": made.least_m, "limit": FEATHER_M}
        notes = (Note("fill_feather_edge", "caution", f"{path}.fill.depth_m", params, "practice_fill"),)
    return evolve(_bare(part), shell_volume_m3=made.volume_m3, thickness_m=made.mean_m or 0.0, fill=made), (), notes


def _blocks(part: Part, _: str) -> tuple[PartShape | None, tuple[Problem, ...], tuple[Note, ...]]:
    """Measure blocks to order."""
    order = part.order
    made = OrderedBlocks(order.count, order.length_m, order.height_m, part.thickness_m)
    volume = order.count * order.length_m * order.height_m * part.thickness_m
    return evolve(_bare(part), shell_volume_m3=volume, ordered=made), (), ()


def _bare(part: Part) -> PartShape:
    """A part that has no room, no face and no opening."""
    return PartShape(
        id=part.id, floor_area_m2=0.0, footprint_m2=0.0, headroom_area_m2=0.0, height_m=0.0, outside_height_m=0.0,
        outside_diameter_m=0.0, shell_volume_m3=0.0, openings_volume_m3=0.0, inside_area_m2=0.0, outside_area_m2=0.0,
        openings_count=0, thickness_m=part.thickness_m, thickness_ratio=None, shape=part.shape, profile=None, rise_m=None,
        mean_thickness_m=part.thickness_m, crown_opening_area_m2=None, outside_length_m=None, end_thickness_m=None,
        end_walls_volume_m3=0.0,
    )  # fmt: skip


def _dome(shell: Meridian, part: Part) -> Measures:
    """Measure a shell of revolution whose openings fit."""
    inside, outside = shell.inside, shell.outside
    whole = shell if shell.opening_m == 0 else meridian(evolve(part, crown_opening_m=0.0))
    volume = shell.volume()
    gone = whole.volume() - volume if shell.opening_m > 0 else 0.0
    face_in, face_out = inside.area(), outside.area()
    known: dict[Cut, Taken] = {}
    for opening in part.openings:
        section = cut(opening)
        one = known.get(section) or known.setdefault(section, taken(shell, section))
        volume -= one.volume_m3 * opening.count
        gone += one.volume_m3 * opening.count
        face_in -= one.inside_area_m2 * opening.count
        face_out -= one.outside_area_m2 * opening.count
    across = 2 * outside.radius(outside.foot_m)
    return Measures(
        floor_area_m2=math.pi * inside.radius(0.0) ** 2,
        footprint_m2=math.pi * (across / 2) ** 2,
        outside_length_m=across,
        shell_volume_m3=volume,
        end_walls_volume_m3=0.0,
        openings_volume_m3=gone,
        inside_area_m2=face_in,
        outside_area_m2=face_out,
    )


def mean_thickness(part: Part) -> float:
    """Return the thickness of a part's shell, averaged over its whole inside face.

    Source: arithmetic; where the shell tapers, the height by quadrature to 1e-10.

    Parameters
    ----------
    part : Part
        The part as stated [-]

    Returns
    -------
    float
        Thickness; of a shell of one thickness, that thickness to the last bit [m]

    Examples
    --------
    >>> round(mean_thickness(Part(stem_height_m=0.0, thickness_m=0.3, crown_thickness_m=0.2)), 12)
    0.25
    """
    thin, thick = part.crown_thickness_m, part.thickness_m
    if thin is None or thin == thick:
        return thick
    inner, flat = line(part), part.shape == "vault"

    def each(share: float) -> tuple[float, float]:
        place = inner.at(share)
        size = place.speed_m * (1.0 if flat else place.radius_m)
        return size, size * (thick + (thin - thick) * place.height_m / inner.rise_m)

    area, swept = integrate(each, 0.0, 1.0)
    stem = part.stem_height_m * (1.0 if flat else half_width(part))
    return (swept + stem * thick) / (area + stem)


@lru_cache(maxsize=512)
def _known(
    part: Part, path: str
) -> tuple[PartShape | None, tuple[Problem, ...], tuple[Note, ...]]:
    """Measure a part once: an edit changes one, and the others follow from themselves alone."""
    return measure_part(part, path)


def _joined(shape: PartShape, share: Share) -> PartShape:
    """A part without what its joints take from it, and with its necks."""
    if share == Share():
        return shape
    return evolve(
        shape,
        shell_volume_m3=shape.shell_volume_m3 - share.volume_m3 + share.neck_m3,
        inside_area_m2=shape.inside_area_m2 - share.inside_area_m2,
        outside_area_m2=shape.outside_area_m2 - share.outside_area_m2 + share.neck_outside_m2,
        floor_area_m2=shape.floor_area_m2 - share.floor_area_m2,
        footprint_m2=shape.footprint_m2 - share.footprint_m2 + share.neck_footprint_m2,
        headroom_area_m2=shape.headroom_area_m2 - share.headroom_area_m2,
        joints_volume_m3=share.volume_m3,
        necks_volume_m3=share.neck_m3,
    )


def measure(
    parts: tuple[Part, ...],
    places: tuple[int, ...] | None = None,
) -> tuple[Shape | None, tuple[Problem, ...], tuple[Note, ...]]:
    """Measure all parts and add them up; what joined parts have twice is counted once, other parts that share ground each for itself.

    Source: arithmetic; joints as `join` says.

    Parameters
    ----------
    parts : tuple of Part
        The parts as stated, at least one [-]
    places : tuple of int or None
        Places of those that are measured, at least one; None measures them all [-]

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
    taken = numbered(parts, places)
    for i, part in taken:
        shape, found, remarks = _known(part, f"parts[{i}]")
        problems.extend(found)
        notes.extend(remarks)
        if shape:
            shapes.append(shape)
    if problems:
        return None, tuple(problems), tuple(notes)
    joints: tuple[Joint, ...] = ()
    if any(opening.to for _, part in taken for opening in part.openings):
        there = {i: part for i, part in taken}
        left_out = tuple(part.id for i, part in enumerate(parts) if i not in there)
        shares, joints, faulty, remarks = join(tuple(there.values()), HEADROOM_M, tuple(there), left_out)
        if faulty:
            return None, faulty, tuple(notes)
        notes.extend(remarks)
        shapes = [_joined(shape, share) for shape, share in zip(shapes, shares, strict=True)]
    joined = {frozenset((joint.part, joint.to)) for joint in joints}
    plans = [(i, plan_of(part)) for i, part in taken if part.shape in (*SHELLS, "wall")]
    for first, second in near(tuple(found for _, found in plans)):
        (i, a), (j, b) = plans[first], plans[second]
        if {parts[i].id, parts[j].id} in joined:
            continue
        deep = shared_depth(a, b)
        if deep > 1e-9:
            params: dict[str, Scalar] = {
                "first": parts[i].id,
                "second": parts[j].id,
                "apart_m": math.dist(parts[i].at_m, parts[j].at_m),
                "limit": math.dist(parts[i].at_m, parts[j].at_m) + deep,
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
        places=tuple(i for i, _ in taken),
        hoods_volume_m3=sum(s.hoods_volume_m3 for s in shapes),
        joints=joints,
        joints_volume_m3=sum(s.joints_volume_m3 for s in shapes),
        necks_volume_m3=sum(s.necks_volume_m3 for s in shapes),
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
