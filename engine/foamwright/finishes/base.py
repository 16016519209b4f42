"""The base: trench, gravel, footing or ring beam with its bars as typed, damp-proof layer, floor."""

import math
from typing import Final

from attrs import frozen

from foamwright.finishes.ground import Plan
from foamwright.finishes.packing import Pieces, pack
from foamwright.finishes.steel import bar_mass, hoop, laps
from foamwright.material.mortar import Blend, blend
from foamwright.project.model import Aggregate, Base
from foamwright.project.notes import Note, Problem, Scalar

_NOTHING: Final = (0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0)
#: Kinds of base that are built, and so counted.
BUILT: Final = ("footing", "ring_beam")


@frozen
class BasePart:
    """The base of one part, as it stands; no waste is in it.

    Attributes
    ----------
    id : str
        Name of the part in the project [-]
    length_m : float
        Centre line of the shell at its foot [m]
    trench_m3 : float
        Trench below the ground as it is found [m3]
    topsoil_m3 : float
        Topsoil taken off the whole plan, the trench left out where it goes deeper [m3]
    gravel_m3 : float
        Gravel in the trench and under the slab, in place [m3]
    beam_m3 : float
        Concrete of the footing or ring beam [m3]
    slab_m3 : float
        Concrete of the floor slab [m3]
    insulation_m3 : float
        Insulation under the slab [m3]
    floor_finish_m3 : float
        Mortar on the slab [m3]
    damp_course_m : float
        Damp-proof layer between base and shell [m]
    """

    id: str
    length_m: float
    trench_m3: float
    topsoil_m3: float
    gravel_m3: float
    beam_m3: float
    slab_m3: float
    insulation_m3: float
    floor_finish_m3: float
    damp_course_m: float


@frozen
class Steel:
    """Bars as typed.

    Attributes
    ----------
    sized : str
        ``placeholder`` or ``typed`` [-]
    sized_by : str
        Who sized them, as typed [-]
    diameter_m : float
        Nominal diameter [m]
    bars : int
        Bars side by side in the beam [-]
    lap_m : float
        Length of a lap [m]
    laps : int
        Laps in all [-]
    length_m : float
        Bar in place, laps in it [m]
    mass_kg : float
        The same [kg]
    to_buy : int
        Bars of the stated length to buy [-]
    bought_kg : float
        What those weigh [kg]
    """

    sized: str
    sized_by: str
    diameter_m: float
    bars: int
    lap_m: float
    laps: int
    length_m: float
    mass_kg: float
    to_buy: int
    bought_kg: float


@frozen
class BaseResult:
    """The base of all parts.

    Attributes
    ----------
    kind : str
        ``none``, ``footing`` or ``ring_beam`` [-]
    length_m : float
        Centre line of the shells at their feet [m]
    excavation_m3 : float
        Trench and topsoil, as they lie in the ground [m3]
    loose_m3 : float
        The same when it is dug and loose [m3]
    beam_m3 : float
        Concrete of footings or ring beams in place [m3]
    slab_m3 : float
        Concrete of the slabs in place [m3]
    concrete_m3 : float
        Concrete to order or mix, waste counted [m3]
    gravel_fill_m3 : float
        Gravel in trenches and under slabs, waste counted [m3]
    insulation_m3 : float
        Insulation under the slabs, waste counted [m3]
    floor_finish_m3 : float
        Mortar on the slabs, waste counted [m3]
    damp_course_m : float
        Damp-proof layer, waste and laps counted [m]
    steel : Steel or None
        Bars; absent where nobody typed any [-]
    parts : tuple of BasePart
        The parts, in the order of the project [-]
    """

    kind: str
    length_m: float
    excavation_m3: float
    loose_m3: float
    beam_m3: float
    slab_m3: float
    concrete_m3: float
    gravel_fill_m3: float
    insulation_m3: float
    floor_finish_m3: float
    damp_course_m: float
    steel: Steel | None
    parts: tuple[BasePart, ...]


def base_part(id: str, plan: Plan, base: Base) -> BasePart:
    """Return the base of one part.

    Source: arithmetic; along a circle the volumes are those of Pappus: section times the way of its
    centre. The trench is measured from the ground as it is found.

    Parameters
    ----------
    id : str
        Name of the part [-]
    plan : Plan
        What the part stands on [-]
    base : Base
        The base as stated [-]

    Returns
    -------
    BasePart
        Quantities in place [m, m3]

    Examples
    --------
    >>> ring = Plan((2 * math.pi * 3.15,), True, math.pi * 3.15**2, math.pi, 28.274, 34.212, 0.3)
    >>> round(base_part("main", ring, Base(beam_width_m=0.3, beam_height_m=0.4)).beam_m3, 5)
    2.37504
    """
    trench = plan.strip(base.trench_width_m)
    beyond = max(0.0, plan.outline(base.trench_width_m) - trench)
    stripped = beyond * base.topsoil_m + trench * max(0.0, base.topsoil_m - base.trench_depth_m)
    floor = plan.floor_m2 if base.floor == "slab" else 0.0
    return BasePart(
        id=id,
        length_m=plan.length_m,
        trench_m3=trench * base.trench_depth_m,
        topsoil_m3=stripped,
        gravel_m3=trench * base.trench_gravel_m + floor * base.slab_gravel_m,
        beam_m3=plan.strip(base.beam_width_m) * base.beam_height_m,
        slab_m3=floor * base.slab_thickness_m,
        insulation_m3=floor * base.slab_insulation_m,
        floor_finish_m3=floor * base.floor_finish_m,
        damp_course_m=plan.length_m if base.damp_course == "yes" else 0.0,
    )


def steel(
    plans: tuple[Plan, ...], base: Base
) -> tuple[Steel | None, tuple[Problem, ...], tuple[Note, ...]]:
    """Return bars, laps and mass of what was typed; nothing is sized here.

    Source: typed; laps of 40 diameters are common practice, no source. All bars are taken along the
    centre line: those outside it are longer, those inside it shorter by as much.

    Parameters
    ----------
    plans : tuple of Plan
        What the parts stand on [-]
    base : Base
        The base as stated [-]

    Returns
    -------
    tuple of (Steel or None, tuple of Problem, tuple of Note)
        The bars, absent where none are typed [-]

    Examples
    --------
    >>> ring = Plan((19.4779,), True, 30.191, math.pi, 28.274, 32.17, 0.2)
    >>> made, _, notes = steel((ring,), Base(steel_sized="placeholder", bar_diameter_m=0.012, bars=4))
    >>> made.laps, round(made.mass_kg, 1), made.to_buy, notes[0].code
    (16, 76.0, 16, 'steel_placeholder')
    """
    if base.steel_sized == "unsized" or base.bar_diameter_m is None or base.bars is None:
        grave = "caution" if base.kind == "ring_beam" else "info"
        code = "steel_unsized" if base.steel_sized == "unsized" else "steel_incomplete"
        where = {"steel_unsized": "base.steel_sized", "steel_incomplete": "base.bar_diameter_m"}
        if code == "steel_incomplete" and base.bar_diameter_m is not None:
            where[code] = "base.bars"
        return None, (), (Note(code, grave, where[code], {}, "typed"),)  # type: ignore[arg-type]
    lap = base.lap_diameters * base.bar_diameter_m
    if lap >= base.bar_length_m:
        limit = base.bar_length_m / base.bar_diameter_m
        return None, (Problem("base.lap_diameters", base.lap_diameters, limit, "lap_too_long"),), ()
    notes: tuple[Note, ...] = ()
    if base.steel_sized == "placeholder":
        notes = (Note("steel_placeholder", "caution", "base.steel_sized", {}, "typed"),)
    elif not base.steel_sized_by.strip():
        notes = (Note("steel_sized_by_missing", "caution", "base.steel_sized_by", {}, "typed"),)
    else:
        said: dict[str, Scalar] = {"by": base.steel_sized_by.strip()}
        notes = (Note("steel_typed", "info", "base.steel_sized_by", said, "typed"),)
    pieces: Pieces = []
    joins = 0
    for plan in plans:
        for run in plan.runs_m:
            one = hoop(run, plan.closed, base.bar_length_m, lap)
            pieces += [(length, count * base.bars) for length, count in one]
            joins += laps(one, plan.closed) * base.bars
    length = sum(length * count for length, count in pieces)
    to_buy = pack(pieces, base.bar_length_m)
    each = bar_mass(base.bar_diameter_m)
    return (
        Steel(
            sized=base.steel_sized,
            sized_by=base.steel_sized_by.strip(),
            diameter_m=base.bar_diameter_m,
            bars=base.bars,
            lap_m=lap,
            laps=joins,
            length_m=length,
            mass_kg=length * each,
            to_buy=to_buy,
            bought_kg=to_buy * base.bar_length_m * each,
        ),
        (),
        notes,
    )


def foundation(
    ids: tuple[str, ...], plans: tuple[Plan, ...], base: Base, waste: float = 1.0
) -> tuple[BaseResult | None, tuple[Problem, ...], tuple[Note, ...]]:
    """Return the base of all parts, and what must be said about it.

    Source: arithmetic; the defaults of depths, widths and waste are common practice, no source.

    Parameters
    ----------
    ids : tuple of str
        Names of the parts [-]
    plans : tuple of Plan
        What they stand on [-]
    base : Base
        The base as stated, its kind chosen [-]
    waste : float
        Multiple of the stated waste: 1, or 0 and 2 for the range of the bill [-]

    Returns
    -------
    tuple of (BaseResult or None, tuple of Problem, tuple of Note)
        The base, absent where a lap does not go with its bar [-]

    Examples
    --------
    >>> ring = Plan((19.4779,), True, 30.191, math.pi, 28.274, 32.17, 0.2)
    >>> made, _, notes = foundation(("main",), (ring,), Base(kind="footing"))
    >>> round(made.beam_m3, 3), [note.code for note in notes]
    (1.753, ['footing_not_designed', 'frost_depth_unasked', 'steel_unsized'])
    """
    if base.kind not in BUILT:
        return BaseResult(base.kind, *_NOTHING, None, ()), (), ()
    parts = tuple(base_part(id, plan, base) for id, plan in zip(ids, plans, strict=True))
    bars, problems, remarks = steel(plans, base)
    if problems:
        return None, problems, ()

    def sums(name: str, share: float = 0.0) -> float:
        return sum(float(getattr(part, name)) for part in parts) * (1 + waste * share)

    dug = sums("trench_m3") + sums("topsoil_m3")
    beam, slab = sums("beam_m3"), sums("slab_m3")
    result = BaseResult(
        kind=base.kind,
        length_m=sums("length_m"),
        excavation_m3=dug,
        loose_m3=dug * (1 + base.bulking_fraction),
        beam_m3=beam,
        slab_m3=slab,
        concrete_m3=(beam + slab) * (1 + waste * base.concrete_waste_fraction),
        gravel_fill_m3=sums("gravel_m3", base.gravel_waste_fraction),
        insulation_m3=sums("insulation_m3", base.gravel_waste_fraction),
        floor_finish_m3=sums("floor_finish_m3", base.concrete_waste_fraction),
        damp_course_m=sums("damp_course_m", base.damp_waste_fraction),
        steel=bars,
        parts=parts,
    )
    return result, (), (*_ground_notes(plans, base), *remarks)


def _ground_notes(plans: tuple[Plan, ...], base: Base) -> tuple[Note, ...]:
    notes = [Note("footing_not_designed", "info", "base.beam_width_m", {}, "derived_no_structure")]
    params: dict[str, Scalar]
    if base.frost_depth_m is None:
        notes.append(Note("frost_depth_unasked", "info", "base.frost_depth_m", {}, "typed"))
    elif base.frost_depth_m > base.trench_depth_m + 1e-9:
        params = {"depth_m": base.trench_depth_m, "limit": base.frost_depth_m}
        notes.append(Note("trench_above_frost", "caution", "base.trench_depth_m", params, "typed"))
    wall = max((plan.thickness_m for plan in plans), default=0.0)
    if base.beam_width_m < wall - 1e-9:
        params = {"width_m": base.beam_width_m, "limit": wall}
        notes.append(Note("beam_narrow", "caution", "base.beam_width_m", params, "arithmetic"))
    if base.trench_width_m < base.beam_width_m - 1e-9:
        params = {"width_m": base.trench_width_m, "limit": base.beam_width_m}
        notes.append(Note("trench_narrow", "caution", "base.trench_width_m", params, "arithmetic"))
    return tuple(notes)


def concrete(base: Base, cement_density: float, aggregate: Aggregate) -> Blend:
    """Return what a cubic metre of the base's own concrete takes.

    Source: arithmetic by absolute volumes on typed parts; 1:2:4 is common practice, no source.

    Parameters
    ----------
    base : Base
        Parts by loose volume to one of cement [-]
    cement_density : float
        Density of the cement grains [kg/m3]
    aggregate : Aggregate
        Loose densities [kg/m3]

    Returns
    -------
    Blend
        One cubic metre [kg, L, m3]

    Examples
    --------
    >>> round(concrete(Base(), 3150.0, Aggregate()).cement_kg)
    305
    """
    return blend(
        base.sand_parts, base.gravel_parts, 0.0, base.water_cement_ratio,
        cement_density=cement_density, aggregate=aggregate,
    )  # fmt: skip


def floor_mortar(base: Base, cement_density: float, aggregate: Aggregate) -> Blend:
    """Return what a cubic metre of the mortar on the slab takes.

    Source: arithmetic by absolute volumes on typed parts; 1:3 is common practice, no source.

    Parameters
    ----------
    base : Base
        Parts of sand by loose volume to one of cement [-]
    cement_density : float
        Density of the cement grains [kg/m3]
    aggregate : Aggregate
        Loose densities [kg/m3]

    Returns
    -------
    Blend
        One cubic metre [kg, L, m3]

    Examples
    --------
    >>> round(floor_mortar(Base(), 3150.0, Aggregate()).cement_kg)
    471
    """
    return blend(
        base.floor_finish_sand_parts, 0.0, 0.0, base.water_cement_ratio,
        cement_density=cement_density, aggregate=aggregate,
    )  # fmt: skip
