"""A first look at whether what is laid can stand under its own weight; never a design."""

import math
from functools import lru_cache
from itertools import pairwise
from typing import Final

from attrs import evolve, frozen

from foamwright.material.density import OvenDryDensity, WetDensity
from foamwright.project.model import SHELLS, Base, Block, Part
from foamwright.project.notes import Note, Scalar
from foamwright.project.whole import ceiling
from foamwright.shape.courses import rows
from foamwright.shape.measure import numbered
from foamwright.shape.meridian import Meridian, half_width, meridian, rise
from foamwright.shape.openings import cut
from foamwright.shape.vault import spots
from foamwright.structure.laying import Laying, arch_length, laying
from foamwright.structure.membrane import GRAVITY
from foamwright.structure.pours import Pour
from foamwright.structure.walls import WallStructure, look_at_wall
from foamwright.structure.thrust import Joint, Thrust, joints, least_thickness, search

#: Least thickness over mid radius of a semicircular arch (Milankovitch 1907) and of a hemisphere of orange slices (Heyman 1967),
#: both from memory. Below half of them a shape is slender, whatever its own weight asks for: common practice, no source [-].
CLASSICAL: Final = {"arch": 0.1075, "dome": 0.042}

#: Friction of a mortar bed: EN 1996-1-1:2005, 3.6.2 (from memory) [-].
FRICTION: Final = 0.4
#: Friction of a concrete base on the ground, and mass of its concrete: common practice, no source [-, kg/m3].
GROUND_FRICTION: Final = 0.4
CONCRETE_KG_M3: Final = 2300.0
#: Own weight must hold so many times what overturns or slides a stem: common practice, no source [-].
SAFE: Final = 1.5
#: Thinnest and thickest shell that is tried, over the inside width [-].
_TRIED: Final = (0.002, 0.5)
#: A stem that is lower is none [m].
_TINY: Final = 1e-9
#: A thickness that is told is rounded up to these steps, after half of the coarsest last digit that a reader sees, 0.1 in [m].
_STEP: Final = 0.005
_LAST_DIGIT: Final = 0.0013


@frozen
class PartStructure:
    """The first look at one part.

    Attributes
    ----------
    id : str
        Name of the part in the project [-]
    taken_as : str
        ``dome``: slices whose neighbours may push but never pull; ``arch``: a vault as a strip [-]
    thickness_ratio : float
        Thickness over the radius of the middle surface at its widest [-]
    least_thickness_ratio : float or None
        The ratio at which a line of thrust just fits into this profile; none where every thickness or none does [-]
    least_thickness_m : float or None
        The thickness that goes with it [m]
    shell_stands : bool
        Whether a line of thrust fits within the thickness above the springing, the springing held [-]
    stem_holds : bool or None
        Whether the stem holds the thrust by weight alone, 1.5 times over; absent without a stem [-]
    base_ratio : float or None
        For a vault: what the weight on its base holds over what the higher thrust overturns or slides, the lesser of both, without
        skins; absent for a dome and until a footing or ring beam is stated [-]
    base_skinned_ratio : float or None
        The same with skins as heavy as the shell [-]
    base_holds : bool or None
        Whether both are at least 1.5; absent where only the first one is, since it hangs on the skins [-]
    stands : bool
        The shell stands; for a vault, where no ring can close, stem and base as stated hold as well [-]
    springing_cuts : int
        Openings that cut the shell at its springing [-]
    springing_cut_m : float
        How much of the springing they take [m]
    springing_length_m : float
        Length of the whole springing, along the middle of the shell [m]
    springing_m : float
        Height of the springing above the floor [m]
    springing_deg : float
        Slope of the shell at the springing against the horizontal [deg]
    load_low_kn_m : float
        Weight on a metre of springing, oven-dry [kN/m]
    load_kn_m : float
        The same as cast [kN/m]
    thrust_low_kn_m : float
        Outward thrust on a metre of springing, oven-dry and at its least [kN/m]
    thrust_kn_m : float
        The same as cast: of a dome as a membrane, of an arch with hinges at crown and springings [kN/m]
    ring_tension_low_kn : float or None
        Tension of a ring that holds the lower thrust; absent for a vault [kN]
    ring_tension_kn : float or None
        Tension of a ring that holds the higher thrust [kN]
    stem_overturning_ratio : float or None
        What the weight holds over what the higher thrust overturns, about the stem's outer foot [-]
    stem_sliding_ratio : float or None
        Friction at the stem's foot over the higher thrust [-]
    meridian_max_kpa : float
        Greatest compression down the shell, as cast [kPa]
    hoop_max_kpa : float or None
        Greatest hoop tension of an uncracked dome by membrane theory, as cast; absent for a vault [kPa]
    openings_left_out : int
        Openings that this look does not see [-]
    laying : Laying
        What laying asks for [-]
    """

    id: str
    taken_as: str
    thickness_ratio: float
    least_thickness_ratio: float | None
    least_thickness_m: float | None
    shell_stands: bool
    stem_holds: bool | None
    base_ratio: float | None
    base_skinned_ratio: float | None
    base_holds: bool | None
    stands: bool
    springing_cuts: int
    springing_cut_m: float
    springing_length_m: float
    springing_m: float
    springing_deg: float
    load_low_kn_m: float
    load_kn_m: float
    thrust_low_kn_m: float
    thrust_kn_m: float
    ring_tension_low_kn: float | None
    ring_tension_kn: float | None
    stem_overturning_ratio: float | None
    stem_sliding_ratio: float | None
    meridian_max_kpa: float
    hoop_max_kpa: float | None
    openings_left_out: int
    laying: Laying


@frozen
class Structure:
    """The first look at all parts: own weight alone, no openings, skins, wind, snow or earthquake.

    Attributes
    ----------
    thickness_ratio : float or None
        Of the dome or vault that has least to spare; absent without one [-]
    least_thickness_ratio : float or None
        What that part needs [-]
    stands : tuple of bool
        Whether each part passes, in the order of the project, left out parts too; a wall fails where the gust that was typed topples it and nobody has
        said what a brace holds; fills and blocks to order have nothing to fail here [-]
    barred : tuple of bool
        Of every part: its plan carries the stamp, since it fails or since no stem holds its thrust without a ring [-]
    thrust_kn_m : float or None
        Greatest outward thrust on a metre of springing; absent without a dome or a vault [kN/m]
    ring_tension_kn : float or None
        Greatest ring tension; absent without a dome [kN]
    meridian_max_kpa : float or None
        Greatest compression down a shell; absent without one [kPa]
    hoop_max_kpa : float or None
        Greatest hoop tension by membrane theory; absent without a dome [kPa]
    parts : tuple of PartStructure
        The domes and vaults, in the order of the project [-]
    walls : tuple of WallStructure
        The walls, in the order of the project [-]
    pours : tuple of Pour
        What is poured in place, in the order of the project [-]
    """

    thickness_ratio: float | None
    least_thickness_ratio: float | None
    stands: tuple[bool, ...]
    barred: tuple[bool, ...]
    thrust_kn_m: float | None
    ring_tension_kn: float | None
    meridian_max_kpa: float | None
    hoop_max_kpa: float | None
    parts: tuple[PartStructure, ...]
    walls: tuple[WallStructure, ...]
    pours: tuple[Pour, ...] = ()


@frozen
class _Look:
    """What follows from the shape of a part alone; weights as volumes, of a slice or of a strip."""

    ratio: float
    line: Thrust
    springing: Joint
    foot: Joint
    arm_m: float
    face_m: float
    thrust: float
    squeeze: float
    pull: float | None
    overturning: float | None
    sliding: float | None


def ring_thrusts(chain: tuple[Joint, ...]) -> tuple[float, ...]:
    """Return the level thrust of a dome as a membrane at every joint, as volume per radian of turn.

    Source: vertical equilibrium of what lies above a joint: ``2 pi r N sin(slope) = W``, so that the level part of N over a
    radian is ``W cot(slope)``.

    Parameters
    ----------
    chain : tuple of Joint
        Joints of a dome from the crown down [-]

    Returns
    -------
    tuple of float
        Thrusts; 0 at the crown [m3]

    Examples
    --------
    >>> from foamwright.shape.meridian import hemisphere
    >>> round(ring_thrusts(joints(hemisphere(6.0, 0.0, 0.2), True, lambda height: 0.2))[-1], 3)
    0.0
    """
    return tuple(0.0 if joint.weight == 0 else joint.weight * joint.cotangent for joint in chain)


def hoop_tensions(chain: tuple[Joint, ...]) -> tuple[float, ...]:
    """Return the hoop tension of a dome as a membrane between every two joints, and at the last one.

    Source: level equilibrium of a ring between two joints: its hoops take up what the thrust changes by.

    Parameters
    ----------
    chain : tuple of Joint
        Joints of a dome from the crown to the springing [-]

    Returns
    -------
    tuple of float
        Tension on a metre of meridian, as volume; below 0 the hoops push [m2]

    Examples
    --------
    >>> from foamwright.shape.meridian import hemisphere
    >>> round(hoop_tensions(joints(hemisphere(6.0, 0.0, 0.2), True, lambda height: 0.2))[-1] / (0.2 * 3.1), 2)
    1.0
    """
    thrusts = ring_thrusts(chain)
    out = []
    for (a, at_a), (b, at_b) in pairwise(zip(chain, thrusts, strict=True)):
        middle_a = (a.radius_m, (a.inside[1] + a.outside[1]) / 2)
        middle_b = (b.radius_m, (b.inside[1] + b.outside[1]) / 2)
        apart = math.dist(middle_a, middle_b)
        out.append((at_a - at_b) / apart if apart > _TINY else 0.0)
    if len(out) > 1:
        out.append(out[-1] + (out[-1] - out[-2]) / 2)
    return tuple(out)


def _chain(part: Part, shell: Meridian) -> tuple[Joint, ...]:
    """The joints of a part; between springing and crown its thickness runs with the height of its inside face."""
    foot, stem, tall = part.thickness_m, part.stem_height_m, rise(part)
    taper = 0.0 if part.crown_thickness_m is None else (part.crown_thickness_m - foot) / tall
    return joints(shell, part.shape != "vault", lambda height: foot + taper * max(0.0, height - stem))


@lru_cache(maxsize=512)
def _look(part: Part) -> _Look:
    """Look at one part without openings, at the origin."""
    dome = part.shape != "vault"
    shell, stem = meridian(part), part.stem_height_m
    above = evolve(part, stem_height_m=0.0)
    cap = _chain(above, meridian(above))
    chain = _chain(part, shell) if stem > _TINY else cap
    crown, springing, foot = cap[0], cap[-1], chain[-1]
    line = search(cap, hoops=dome)
    thick = [math.dist(joint.inside, joint.outside) for joint in chain]
    pull = None
    if dome:
        thrust = max(ring_thrusts(cap))
        squeeze = max(
            joint.weight * math.hypot(1.0, joint.cotangent) / joint.radius_m / t
            for joint, t in zip(chain, thick, strict=True)
            if joint.weight > 0
        )
        between = [math.dist(joint.inside, joint.outside) for joint in cap[1:]]
        pull = max(0.0, *(pull / t for pull, t in zip(hoop_tensions(cap), (*between, between[-1]), strict=True)))
    else:
        thrust = (springing.weight * springing.radius_m - springing.moment) / (crown.height_m - springing.height_m)
        squeeze = max(math.hypot(thrust, joint.weight) / t for joint, t in zip(chain, thick, strict=True))
    overturning = sliding = None
    if stem > _TINY and thrust > 0:
        edge = foot.outside[0]
        own = foot.weight - springing.weight
        resisting = springing.weight * (edge - springing.radius_m) + own * edge - (foot.moment - springing.moment)
        overturning = resisting / (thrust * (stem + springing.height_m))
        sliding = FRICTION * foot.weight / thrust
    ratio = _ratio(shell, part.thickness_m)
    arm = stem + springing.height_m
    face = meridian(above).inside.length_m
    return _Look(ratio, line, springing, foot, arm, face, thrust, squeeze, pull, overturning, sliding)


@lru_cache(maxsize=512)
def _laid(part: Part, block: Block) -> Laying:
    """What laying asks for, openings apart."""
    shell = meridian(part)
    courses = rows(part, block)
    leans = tuple(row.low.lean_deg for row in courses)
    around = tuple(
        1 if row.kind == "plug" else ceiling(
            2 * math.pi * max(row.low.outside_r, row.high.outside_r) / (block.length_m + block.joint_m))
        for row in courses
    )  # fmt: skip
    return laying(shell.inside, shell.outside.crown_m, leans, around)


def _ratio(shell: Meridian, thickness: float) -> float:
    """Thickness over the radius of the middle surface where the shell is widest."""
    return 2 * thickness / (shell.inside.radius(0.0) + shell.outside.radius(shell.outside.foot_m))


def _bare(part: Part) -> Part:
    """The part without what the look does not see, so that equal shapes are looked at once."""
    plain = Part()
    vault = part.shape == "vault"
    return evolve(
        part,
        id=plain.id,
        openings=(),
        at_m=plain.at_m,
        bearing_deg=plain.bearing_deg,
        crown_closed_by=plain.crown_closed_by,
        length_m=plain.length_m,
        ends=plain.ends,
        end_thickness_m=plain.end_thickness_m,
        inside_diameter_m=plain.inside_diameter_m if vault else part.inside_diameter_m,
        inside_span_m=part.inside_span_m if vault else plain.inside_span_m,
    )


def _of_unit_size(part: Part) -> tuple[Part, float]:
    """The shell above the springing, its inside width 1 m and 1 m thick at the springing, and that width."""
    width = 2 * half_width(part)
    crown = part.crown_thickness_m
    unit = evolve(
        _bare(part),
        inside_diameter_m=1.0,
        inside_span_m=1.0,
        stem_height_m=0.0,
        rise_m=round(rise(part) / width, 12),
        thickness_m=1.0,
        crown_thickness_m=None if crown is None else round(crown / part.thickness_m, 12),
        crown_opening_m=round(part.crown_opening_m / width, 12),
    )
    return unit, width


@lru_cache(maxsize=512)
def _least(unit: Part) -> tuple[float, float] | None:
    """The least thickness over the inside width of a part of unit size, and that over its mid radius."""

    def thick(thickness: float) -> Part:
        crown = unit.crown_thickness_m
        return evolve(unit, thickness_m=thickness, crown_thickness_m=None if crown is None else crown * thickness)

    def stands(thickness: float) -> bool:
        trial = thick(thickness)
        return search(_chain(trial, meridian(trial)), hoops=unit.shape != "vault").stands

    least = least_thickness(stands, *_TRIED)
    if least is None or least == _TRIED[0]:
        return None
    return least, _ratio(meridian(thick(least)), least)


def thick_enough(least: float) -> float:
    """Return a least thickness rounded up, so that whoever types what a sheet shows has it.

    Source: arithmetic: half a centimetre up, whatever the reader's unit.

    Parameters
    ----------
    least : float
        The least thickness [m]

    Returns
    -------
    float
        A thickness that is no less in centimetres and in tenths of an inch either [m]

    Examples
    --------
    >>> round(thick_enough(0.2271), 9), round(thick_enough(0.2205), 9)
    (0.23, 0.225)
    """
    return math.ceil((least + _LAST_DIGIT) / _STEP) * _STEP


def base_ratio(seen: "_Look", base: Base, wet: WetDensity, skins: float = 0.0) -> float:
    """Return what the weight on a vault's base holds over what the thrust overturns or slides.

    Source: moments about the outer lower edge of the base, and friction of 0.4 under it (common practice, no source). Earth
    beside the base is not counted.

    Parameters
    ----------
    seen : _Look
        The look at the vault's shape, for a metre of its length [-]
    base : Base
        The base as stated: width and height of its beam [-]
    wet : WetDensity
        Density of the shell as cast [kg/m3]
    skins : float
        Mass of the skins over that of the shell [-]

    Returns
    -------
    float
        The lesser of both ratios [-]

    Examples
    --------
    >>> vault = Part(shape="vault", profile="semicircle", inside_span_m=4.0, thickness_m=0.24, stem_height_m=0.0)
    >>> round(base_ratio(_look(_bare(vault)), Base(kind="footing"), WetDensity(484.0)), 2)
    1.69
    """
    beam = base.beam_width_m * base.beam_height_m * CONCRETE_KG_M3 / (float(wet) * (1 + skins))
    edge = seen.foot.radius_m + base.beam_width_m / 2
    own = (seen.foot.weight - seen.springing.weight) * edge - (seen.foot.moment - seen.springing.moment)
    resisting = seen.springing.weight * (edge - seen.springing.radius_m) + own + beam * base.beam_width_m / 2
    overturning = resisting / (seen.thrust * (seen.arm_m + base.beam_height_m))
    return min(overturning, GROUND_FRICTION * (seen.foot.weight + beam) / seen.thrust)


def springing_cuts(part: Part) -> tuple[int, float]:
    """Return how many openings cut a shell at its springing, and how much of it they take.

    Source: arithmetic: the width of an opening where it crosses the springing; without a stem wall, where it
    stands on the ground.

    Parameters
    ----------
    part : Part
        A dome or a vault [-]

    Returns
    -------
    tuple of (int, float)
        Openings, and their widths there added up [-, m]

    Examples
    --------
    >>> from foamwright.project.model import Opening
    >>> door, window = Opening(form="arched"), Opening(form="round", sill_m=1.2, count=4)
    >>> springing_cuts(Part(openings=(door, window)))
    (1, 0.9)
    """
    count, wide = 0, 0.0
    height = part.stem_height_m
    for opening in part.openings:
        section = cut(opening)
        crosses = section.low_m < height < section.high_m if height > _TINY else section.low_m <= _TINY
        if not crosses:
            continue
        width = 2 * section.half_width(max(height, section.low_m))
        met = opening.count
        if part.shape == "vault":
            met = sum(spot.wall.startswith("side") for spot in spots(part, opening))
        if width > _TINY:
            count, wide = count + met, wide + width * met
    return count, wide


@lru_cache(maxsize=512)
def look_at(
    part: Part, block: Block, wet: WetDensity, oven_dry: OvenDryDensity, base: Base | None = None
) -> PartStructure:
    """Take a first look at one part.

    Source: lines of thrust as in `search`; three-hinged arches by moments; membrane forces by vertical and level equilibrium; friction 0.4 of EN 1996-1-1:2005,
    3.6.2 (from memory); 1.5 against overturning and sliding is common practice, no source.

    Valid for own weight alone on a base that does not give way. Openings, skins, wind, snow, earthquake, uneven ground and crushing
    are not in it.

    Parameters
    ----------
    part : Part
        The part as stated [-]
    block : Block
        The mould [-]
    wet : WetDensity
        Density as cast [kg/m3]
    oven_dry : OvenDryDensity
        Density dried in the oven [kg/m3]
    base : Base, optional
        The base as stated; left out, none is [-]

    Returns
    -------
    PartStructure
        The first look [-]

    Examples
    --------
    >>> seen = look_at(Part(), Block(), WetDensity(484.0), OvenDryDensity(322.0))
    >>> seen.stands, seen.stem_holds, round(seen.ring_tension_kn, 2)
    (True, False, 2.74)
    """
    seen = _look(_bare(part))
    unit, width = _of_unit_size(part)
    least = _least(unit)
    dome = part.shape != "vault"
    heavy, light = (density * GRAVITY / 1000 for density in (wet, oven_dry))
    # A slice is measured per radian; on a metre of its springing stands one part in the radius.
    around = seen.springing.radius_m if dome else 1.0
    shell = seen.line.stands
    lower = min(seen.line.least, seen.thrust) if shell else seen.thrust
    stem = None
    if seen.overturning is not None and seen.sliding is not None:
        stem = min(seen.overturning, seen.sliding) >= SAFE
    held = skinned = base_holds = None
    if not dome and base is not None and base.kind in ("footing", "ring_beam") and seen.thrust > 0:
        held, skinned = base_ratio(seen, base, wet), base_ratio(seen, base, wet, 1.0)
        base_holds = False if held < SAFE else True if skinned >= SAFE else None
    cuts, cut_m = springing_cuts(part)
    laid = _laid(_bare(part), block)
    return PartStructure(
        id=part.id,
        taken_as="dome" if dome else "arch",
        thickness_ratio=seen.ratio,
        least_thickness_ratio=None if least is None else least[1],
        least_thickness_m=None if least is None else least[0] * width,
        shell_stands=shell,
        stem_holds=stem,
        base_ratio=held,
        base_skinned_ratio=skinned,
        base_holds=base_holds,
        stands=shell and (dome or (stem is not False and base_holds is not False)),
        springing_cuts=cuts,
        springing_cut_m=cut_m,
        springing_length_m=2 * math.pi * seen.springing.radius_m if dome else 2 * part.length_m,
        springing_m=part.stem_height_m,
        springing_deg=math.degrees(math.atan2(1.0, seen.springing.cotangent)),
        load_low_kn_m=seen.springing.weight * light / around,
        load_kn_m=seen.springing.weight * heavy / around,
        thrust_low_kn_m=lower * light / around,
        thrust_kn_m=seen.thrust * heavy / around,
        ring_tension_low_kn=lower * light if dome else None,
        ring_tension_kn=seen.thrust * heavy if dome else None,
        stem_overturning_ratio=seen.overturning,
        stem_sliding_ratio=seen.sliding,
        meridian_max_kpa=seen.squeeze * heavy,
        hoop_max_kpa=None if seen.pull is None else seen.pull * heavy,
        openings_left_out=sum(opening.count for opening in part.openings),
        laying=evolve(
            laid,
            centring_m=sum(arch_length(opening) * opening.count for opening in part.openings),
            centring_m2=None if dome else 2 * seen.face_m * part.length_m,
            # Centring holds every block of a vault.
            props_most=laid.props_most if dome else None,
        ),
    )


def look(
    parts: tuple[Part, ...], block: Block, wet: WetDensity, oven_dry: OvenDryDensity, base: Base | None = None,
    places: tuple[int, ...] | None = None,
) -> tuple[Structure, tuple[Note, ...]]:
    """Take a first look at all parts, and say which must not be built as they stand.

    Source: as in `look_at`.

    Parameters
    ----------
    parts : tuple of Part
        The parts as stated, at least one [-]
    block : Block
        The mould [-]
    wet : WetDensity
        Density as cast [kg/m3]
    oven_dry : OvenDryDensity
        Density dried in the oven [kg/m3]
    base : Base, optional
        The base as stated; left out, none is [-]
    places : tuple of int or None
        Places of the parts that are looked at; None looks at them all, and what is left out does not stand [-]

    Returns
    -------
    tuple of (Structure, tuple of Note)
        The first look, with ``not_to_be_built`` for every part that fails and ``ring_to_be_sized`` for a dome whose stem does not
        hold its thrust [-]

    Examples
    --------
    >>> thin = (Part(thickness_m=0.1),)
    >>> structure, notes = look(thin, Block(), WetDensity(484.0), OvenDryDensity(322.0))
    >>> structure.stands, notes[0].code, notes[0].severity
    ((False,), 'not_to_be_built', 'warning')
    """
    shells: list[PartStructure] = []
    walls: list[WallStructure] = []
    taken = numbered(parts, places)
    standing = [False] * len(parts)
    barred = [True] * len(parts)
    for i, _ in taken:
        standing[i], barred[i] = True, False
    notes: list[Note] = []
    for i, stated in taken:
        path = f"parts[{i}]"
        if stated.shape in SHELLS:
            shells.append(look_at(stated, block, wet, oven_dry, base))
            standing[i] = shells[-1].stands
            barred[i] = not standing[i] or shells[-1].stem_holds is False
            notes.extend(_notes(shells[-1], stated, path))
        elif stated.shape == "wall":
            wall, remarks = look_at_wall(stated, path, wet, oven_dry)
            walls.append(wall)
            standing[i], barred[i] = not wall.fails, wall.fails
            notes.extend(remarks)
    seen = tuple(shells)
    if not seen:
        return Structure(None, None, tuple(standing), tuple(barred), None, None, None, None, (), tuple(walls)), tuple(notes)

    def spare(part: PartStructure) -> float:
        if part.least_thickness_ratio is None:
            return math.inf if part.shell_stands else -math.inf
        return part.thickness_ratio / part.least_thickness_ratio

    tightest = min(seen, key=spare)
    rings = [part.ring_tension_kn for part in seen if part.ring_tension_kn is not None]
    pulls = [part.hoop_max_kpa for part in seen if part.hoop_max_kpa is not None]
    whole = Structure(
        thickness_ratio=tightest.thickness_ratio,
        least_thickness_ratio=tightest.least_thickness_ratio,
        stands=tuple(standing),
        barred=tuple(barred),
        thrust_kn_m=max(part.thrust_kn_m for part in seen),
        ring_tension_kn=max(rings) if rings else None,
        meridian_max_kpa=max(part.meridian_max_kpa for part in seen),
        hoop_max_kpa=max(pulls) if pulls else None,
        parts=seen,
        walls=tuple(walls),
    )
    return whole, tuple(notes)


def _notes(part: PartStructure, stated: Part, path: str) -> list[Note]:
    """What must be said of one part."""
    notes = []
    params: dict[str, Scalar] = {"part": part.id, "taken_as": part.taken_as, "ratio": part.thickness_ratio}
    if not part.shell_stands:
        source = "thrust_line_none"
        if part.least_thickness_m is not None:
            params |= {"limit": part.least_thickness_ratio, "least_m": thick_enough(part.least_thickness_m)}
            source = "thrust_line" if stated.crown_thickness_m is None else "thrust_line_taper"
        notes.append(Note("not_to_be_built", "warning", f"{path}.thickness_m", params, source))
    elif not part.stands:
        params |= {"thrust_kn_m": part.thrust_kn_m}
        if part.stem_holds is False:
            notes.append(Note("not_to_be_built", "warning", f"{path}.stem_height_m", params, "thrust_stem"))
        else:
            notes.append(Note("not_to_be_built", "warning", "base.beam_width_m", params, "thrust_base_weight"))
    yardstick = CLASSICAL[part.taken_as]
    if part.shell_stands and part.thickness_ratio < yardstick / 2:
        params = {"part": part.id, "ratio": part.thickness_ratio, "limit": yardstick}
        notes.append(Note("slender_shell", "caution", f"{path}.thickness_m", params, "thrust_line"))
    params = {"part": part.id, "thrust_kn_m": part.thrust_kn_m, "ring_tension_kn": part.ring_tension_kn}
    if part.stem_holds:
        notes.append(Note("springing_held", "info", f"{path}.stem_height_m", params, "thrust_stem"))
    elif part.taken_as == "dome":
        if part.stem_holds is False and part.shell_stands:
            notes.append(Note("ring_to_be_sized", "caution", f"{path}.stem_height_m", params, "thrust_stem"))
        elif part.stem_holds is None:
            notes.append(Note("springing_needs_ring", "info", f"{path}.stem_height_m", params, "thrust_base"))
    if part.taken_as == "arch" and part.stem_holds is not False:
        if part.base_holds:
            notes.append(Note("base_holds_thrust", "info", "base.beam_width_m", params, "thrust_base_weight"))
        elif part.base_holds is None:
            source = "thrust_base" if part.base_ratio is None else "thrust_base_weight"
            notes.append(Note("springing_pushes_base", "info", f"{path}.stem_height_m", params, source))
    if part.springing_cuts:
        params = {
            "part": part.id, "number": part.springing_cuts, "cut_m": part.springing_cut_m, "whole_m": part.springing_length_m,
        }  # fmt: skip
        source = "thrust_base" if part.taken_as == "dome" and part.stem_holds is None else "thrust_stem"
        code = "springing_cut_vault" if part.taken_as == "arch" else "springing_cut"
        notes.append(Note(code, "info", f"{path}.openings", params, source))
    if stated.shape == "dome" and stated.crown_opening_m > 0 and stated.crown_closed_by == "glazed":
        params = {"part": part.id}
        notes.append(Note("crown_glass_not_checked", "info", f"{path}.crown_closed_by", params, "thrust_line"))
    if part.openings_left_out:
        params = {"part": part.id, "number": part.openings_left_out}
        notes.append(Note("openings_not_checked", "info", f"{path}.openings", params, "thrust_line"))
    return notes
