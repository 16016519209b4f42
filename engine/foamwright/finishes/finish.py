"""The room itself: base and skins of the whole project, and what they take to buy."""

from typing import Final

from attrs import evolve, field, frozen

from foamwright.finishes.base import BUILT, BaseResult, concrete, floor_mortar, foundation
from foamwright.finishes.frame import FrameResult, frames
from foamwright.finishes.ground import plan, stands_on_base
from foamwright.finishes.mesh import WAYS, Strip, lay, rolls, rows
from foamwright.finishes.reveals import Reveal, collars, with_passages
from foamwright.finishes.skins import PUBLISHED, Coat, Paint, SkinResult, coats, has_mesh, paints, skin_notes
from foamwright.material import MixResult
from foamwright.project.model import SHELLS, Project, Skin
from foamwright.project.notes import Note, Problem
from foamwright.project.whole import ceiling
from foamwright.shape import Shape, numbered

SIDES: Final = ("outside", "inside")


@frozen
class Cut:
    """Strips of mesh that are cut alike.

    Attributes
    ----------
    part : str
        Name of the part in the project [-]
    side : str
        ``outside``, ``inside`` or ``reveals`` [-]
    kind : str
        ``gore``, ``band``, ``cap``, ``reveal`` or ``hood`` [-]
    count : int
        How many [-]
    length_m : float
        Length to cut, laps, returns and waste in it [m]
    """

    part: str
    side: str
    kind: str
    count: int
    length_m: float


@frozen
class Need:
    """Something to buy, in each way in which it can be measured; what does not measure it is absent.

    Attributes
    ----------
    code : str
        What it is, as prices name it [-]
    kilograms : float or None
        Mass [kg]
    litres : float or None
        Volume, loose where it is poured [L]
    metres : float or None
        Length [m]
    square_metres : float or None
        Area [m2]
    pieces : int or None
        Whole rolls or bars [-]
    """

    code: str
    kilograms: float | None = None
    litres: float | None = None
    metres: float | None = None
    square_metres: float | None = None
    pieces: int | None = None


@frozen
class Finishes:
    """Base and skins; what was not stated is absent.

    Attributes
    ----------
    base : BaseResult or None
        The base; absent until its kind is chosen [-]
    skins : tuple of SkinResult
        The skins whose kind is chosen, outside first [-]
    coats : tuple of Coat
        All coats, from the shell outwards [-]
    paints : tuple of Paint
        Waterproofing and paint [-]
    reveals_m2 : float or None
        Reveals that a skin covers; absent without skins [m2]
    mesh_m2 : float or None
        Area that carries mesh: faces, reveals and returns at the foot [m2]
    mesh_bought_m2 : float or None
        The rolls spread out [m2]
    mesh_rolls : int or None
        Rolls to buy [-]
    mesh_rolls_other : int or None
        Rolls that the other way of laying would take [-]
    mesh_cuts : tuple of Cut
        What is cut from the rolls [-]
    skins_mass_kg : float or None
        All coats on the faces, fresh [kg]
    shell_mass_kg : float or None
        The foamed concrete that they hang on, oven-dry [kg]
    cement_kg : float
        Cement of base and skins, waste counted [kg]
    cement_bags : int
        The same in bags of its own [-]
    sand_m3 : float
        Sand, loose [m3]
    sand_kg : float
        The same, dry [kg]
    gravel_m3 : float
        Gravel of trench, floor and concrete, loose [m3]
    lime_kg : float
        Hydrated lime [kg]
    water_l : float
        Water of concrete and mortar; curing and washing are not counted [L]
    needs : tuple of Need
        What is bought besides cement and water [-]
    frame : FrameResult or None
        Posts and ring beams of infill walls; absent without them [-]
    """

    base: BaseResult | None
    skins: tuple[SkinResult, ...]
    coats: tuple[Coat, ...]
    paints: tuple[Paint, ...]
    reveals_m2: float | None
    mesh_m2: float | None
    mesh_bought_m2: float | None
    mesh_rolls: int | None
    mesh_rolls_other: int | None
    mesh_cuts: tuple[Cut, ...]
    skins_mass_kg: float | None
    shell_mass_kg: float | None
    cement_kg: float
    cement_bags: int
    sand_m3: float
    sand_kg: float
    gravel_m3: float
    lime_kg: float
    water_l: float
    needs: tuple[Need, ...] = field(default=())
    frame: FrameResult | None = None


def stated(project: Project) -> tuple[bool, bool]:
    """Say whether the base, and whether both skins, are stated.

    Source: typed.

    Parameters
    ----------
    project : Project
        The project [-]

    Returns
    -------
    tuple of (bool, bool)
        The base; the skins [-]

    Examples
    --------
    >>> stated(Project())
    (False, False)
    """
    skins = project.skins
    return project.base.kind != "unstated", "unstated" not in (skins.outside.kind, skins.inside.kind)


def finish(
    project: Project, shape: Shape, mix: MixResult, waste: float = 1.0
) -> tuple[Finishes | None, tuple[Problem, ...], tuple[Note, ...]]:
    """Return what base and skins take, as far as they are stated.

    Source: arithmetic on what is typed and on published thicknesses; each function names its own.

    Parameters
    ----------
    project : Project
        The project [-]
    shape : Shape
        The same, measured [-]
    mix : MixResult
        The foamed concrete, for the mass of the core [-]
    waste : float
        Multiple of the stated waste: 1, or 0 and 2 for the range of the bill [-]

    Returns
    -------
    tuple of (Finishes or None, tuple of Problem, tuple of Note)
        Base and skins; absent where neither is stated or a lap does not go with its roll or bar [-]

    Examples
    --------
    >>> from foamwright.material import solve
    >>> from foamwright.project.model import Base, Skins
    >>> from foamwright.shape import measure
    >>> whole = Project(base=Base(kind="footing"), skins=Skins(Skin(kind="lath"), Skin(kind="none")))
    >>> made = finish(whole, measure(whole.parts)[0], solve(whole.mix)[0])[0]
    >>> made.mesh_rolls, round(made.base.beam_m3, 3)
    (3, 1.753)
    >>> finish(Project(), measure(Project().parts)[0], solve(Project().mix)[0])
    (None, (), ())
    """
    base_stated = project.base.kind != "unstated"
    kinds = [getattr(project.skins, side).kind for side in SIDES]
    frame, problems_found, remarks_found = frames(project.parts, project.base, waste, shape.places)
    if not base_stated and kinds == ["unstated", "unstated"] and frame is None:
        return None, problems_found, ()
    made = Finishes(
        None, (), (), (), None, None, None, None, None, (), None, None, 0.0, 0, 0.0, 0.0, 0.0, 0.0, 0.0
    )
    made = evolve(made, frame=frame)
    problems: list[Problem] = list(problems_found)
    notes: list[Note] = list(remarks_found)
    if base_stated:
        standing = [
            (part, s) for _, part, s in shape.beside(project.parts) if stands_on_base(part)
        ]
        plans = tuple(plan(part, s) for part, s in standing)
        ids = tuple(part.id for part, _ in standing)
        base, faults, remarks = foundation(ids, plans, project.base, waste)
        problems.extend(faults)
        notes.extend(remarks)
        made = evolve(made, base=base)
    if kinds != ["unstated", "unstated"]:
        made, faults = _skins(project, shape, mix, made, waste)
        problems.extend(faults)
        notes.extend(skin_notes(project.skins))
        notes.extend(load_notes(project, shape, mix, made))
    if problems:
        return None, tuple(problems), ()
    return _bought(project, made), (), tuple(notes)


def load_notes(project: Project, shape: Shape, mix: MixResult, made: Finishes) -> tuple[Note, ...]:
    """Return how much the skins of domes and vaults add to what the first look at stability weighed.

    Source: arithmetic: the skins' mass on their faces over the fresh foamed concrete under them.

    Parameters
    ----------
    project : Project
        The project [-]
    shape : Shape
        The same, measured [-]
    mix : MixResult
        The foamed concrete [-]
    made : Finishes
        The skins [-]

    Returns
    -------
    tuple of Note
        One note, or none without skins on a dome or a vault [-]

    Examples
    --------
    >>> from foamwright.material import solve
    >>> from foamwright.project.model import Skins
    >>> from foamwright.shape import measure
    >>> whole = Project(skins=Skins(Skin(kind="lath"), Skin(kind="thin_mesh")))
    >>> shape, mix = measure(whole.parts)[0], solve(whole.mix)[0]
    >>> note, = load_notes(whole, shape, mix, finish(whole, shape, mix)[0])
    >>> note.code, round(note.params["fraction"], 2)
    ('skins_add_load', 0.64)
    """
    names = {part.id for part in project.parts if part.shape in SHELLS}
    shells = [part for part in shape.parts if part.id in names]
    volume = sum(part.shell_volume_m3 for part in shells)
    skins = sum(
        skin.mass_kg / skin.area_m2 * getattr(part, f"{skin.side}_area_m2")
        for skin in made.skins if skin.area_m2 > 0 for part in shells
    )  # fmt: skip
    if volume <= 0 or skins <= 0:
        return ()
    share = skins / (volume * float(mix.wet_density_kg_m3))
    return (Note("skins_add_load", "info", "skins.outside.kind", {"fraction": share}, "arithmetic"),)


def _skins(
    project: Project, shape: Shape, mix: MixResult, made: Finishes, waste: float
) -> tuple[Finishes, tuple[Problem, ...]]:
    """Add coats, paint and mesh."""
    skins, density = project.skins, project.mix.cement_density_kg_m3
    edges = with_passages(project.parts, shape.places)
    covering: Skin | None = getattr(skins, skins.reveals) if skins.reveals in SIDES else None
    covered = covering is not None and covering.kind in PUBLISHED
    sides = sum(r.area_m2 * r.count for found in edges for r in found) if covered else 0.0
    results: list[SkinResult] = []
    all_coats: list[Coat] = []
    all_paints: list[Paint] = []
    for side in SIDES:
        skin: Skin = getattr(skins, side)
        if skin.kind == "unstated":
            continue
        around = sides if skins.reveals == side else 0.0
        area = getattr(shape, f"{side}_area_m2") + around
        if area <= 0:
            # Fills and blocks to order have no face.
            continue
        found = coats(side, skin, skins, area, density, project.aggregate, waste)
        basis = PUBLISHED.get(skin.kind)
        results.append(
            SkinResult(
                side=side,
                kind=skin.kind,
                source=basis.source if basis else None,
                published_m=basis.total_m if basis else 0.0,
                thickness_m=sum(coat.thickness_m for coat in found),
                area_m2=area if basis else 0.0,
                reveals_m2=around,
                mass_kg=sum(coat.mass_kg for coat in found),
            )
        )
        all_coats.extend(found)
        all_paints.extend(paints(side, skin, skins, area, waste))
    made = evolve(
        made,
        skins=tuple(results),
        coats=tuple(all_coats),
        paints=tuple(all_paints),
        reveals_m2=sides,
        skins_mass_kg=sum(result.mass_kg for result in results),
        shell_mass_kg=shape.shell_volume_m3 * float(mix.oven_dry_density_kg_m3),
    )
    return _mesh(project, shape, made, edges, waste)


def _mesh(
    project: Project, shape: Shape, made: Finishes, edges: tuple[tuple[Reveal, ...], ...], waste: float
) -> tuple[Finishes, tuple[Problem, ...]]:
    """Lay the mesh both ways, and cut the one that was chosen."""
    skins = project.skins
    meshed = [side for side in SIDES if has_mesh(getattr(skins, side))]
    if not meshed:
        return made, ()
    width, lap, share = skins.roll_width_m, skins.lap_m, waste * skins.mesh_waste_fraction
    if lap >= width / 2:
        return made, (Problem("skins.lap_m", lap, width / 2, "lap_too_wide"),)
    if lap >= skins.roll_length_m:
        return made, (Problem("skins.lap_m", lap, skins.roll_length_m, "lap_too_wide"),)
    area = 0.0
    laid: dict[str, list[tuple[str, str, Strip]]] = {way: [] for way in WAYS}
    for side in meshed:
        area += getattr(shape, f"{side}_area_m2")
        for _, part in numbered(project.parts, shape.places):
            bare = evolve(part, openings=())
            for way in WAYS:
                strips, turned = lay(way, bare, side == "outside", width, lap, skins.foot_return_m)
                laid[way] += [(part.id, side, strip) for strip in strips]
            area += turned
            if side == "outside":
                for way in WAYS:
                    laid[way] += [(part.id, side, strip) for strip in _reveal_strips(collars(part), width, lap)]
    if skins.reveals in meshed:
        area += made.reveals_m2 or 0.0
        for (_, part), found in zip(numbered(project.parts, shape.places), edges, strict=True):
            sides = [(part.id, "reveals", strip) for strip in _reveal_strips(found, width, lap)]
            for way in WAYS:
                laid[way] += sides
    counts = {
        way: rolls(tuple(strip for _, _, strip in found), skins.roll_length_m, lap, share)
        for way, found in laid.items()
    }
    other = "bands" if skins.lay == "gores" else "gores"
    chosen = tuple(
        Cut(id, side, strip.kind, strip.count, strip.length_m * (1 + share))
        for id, side, strip in laid[skins.lay]
    )
    return (
        evolve(
            made,
            mesh_m2=area,
            mesh_bought_m2=counts[skins.lay] * width * skins.roll_length_m,
            mesh_rolls=counts[skins.lay],
            mesh_rolls_other=counts[other],
            mesh_cuts=chosen,
        ),
        (),
    )


def _reveal_strips(found: tuple[Reveal, ...], width: float, lap: float) -> list[Strip]:
    strips = []
    for one in found:
        beside, across, length = rows(one.perimeter_m, one.depth_m, width, lap)
        strips.append(Strip(one.kind, 0.0, one.depth_m, ceiling(one.count * across / beside), length))
    return strips


def _bought(project: Project, made: Finishes) -> Finishes:
    """Add up cement, sand, gravel, lime and water, and list what else is bought."""
    base, density, aggregate = made.base, project.mix.cement_density_kg_m3, project.aggregate
    cement = sum(coat.cement_kg for coat in made.coats)
    sand = sum(coat.sand_kg for coat in made.coats)
    lime = sum(coat.lime_kg for coat in made.coats)
    water = sum(coat.water_l for coat in made.coats)
    gravel = ready = 0.0
    if base is not None and base.kind in BUILT:
        gravel += base.gravel_fill_m3
        mixed = [(base.floor_finish_m3, floor_mortar(project.base, density, aggregate))]
        if project.base.concrete == "site":
            mixed.append((base.concrete_m3, concrete(project.base, density, aggregate)))
        else:
            ready = base.concrete_m3
        for volume, one in mixed:
            cement += volume * one.cement_kg
            sand += volume * one.sand_kg
            gravel += volume * one.gravel_m3
            water += volume * one.water_l
    if made.frame is not None:
        one = concrete(project.base, density, aggregate)
        volume = made.frame.concrete_m3
        if project.base.concrete == "site":
            made = evolve(made, frame=evolve(made.frame, cement_kg=volume * one.cement_kg))
            cement += volume * one.cement_kg
            sand += volume * one.sand_kg
            gravel += volume * one.gravel_m3
            water += volume * one.water_l
        else:
            ready += volume
    made = evolve(
        made,
        cement_kg=cement,
        cement_bags=ceiling(cement / project.market.cement_bag_kg),
        sand_kg=sand,
        sand_m3=sand / aggregate.sand_bulk_kg_m3,
        gravel_m3=gravel,
        lime_kg=lime,
        water_l=water,
    )
    return evolve(made, needs=_needs(project, made, ready))


def _needs(project: Project, made: Finishes, ready: float) -> tuple[Need, ...]:
    base, aggregate = made.base, project.aggregate
    needs = [
        Need("sand", kilograms=made.sand_kg, litres=made.sand_m3 * 1000),
        Need(
            "gravel",
            kilograms=made.gravel_m3 * aggregate.gravel_bulk_kg_m3,
            litres=made.gravel_m3 * 1000,
        ),
        Need(
            "lime", kilograms=made.lime_kg, litres=made.lime_kg / aggregate.lime_bulk_kg_m3 * 1000
        ),
        Need("ready_concrete", litres=ready * 1000),
    ]
    bars, heavy = 0, 0.0
    if base is not None and base.kind in BUILT and base.steel is not None:
        bars, heavy = base.steel.to_buy, base.steel.bought_kg
    if made.frame is not None and made.frame.steel_to_buy is not None:
        bars += made.frame.steel_to_buy
        heavy += made.frame.steel_bought_kg or 0.0
    if bars:
        metres = bars * project.base.bar_length_m
        needs.append(Need("bar", kilograms=heavy, metres=metres, pieces=bars))
    if base is not None and base.kind in BUILT:
        needs.append(Need("damp_course", metres=base.damp_course_m))
        thick = project.base.slab_insulation_m
        needs.append(
            Need(
                "insulation",
                litres=base.insulation_m3 * 1000,
                square_metres=base.insulation_m3 / thick if thick > 0 else 0.0,
            )
        )
    if made.mesh_rolls:
        length = made.mesh_rolls * project.skins.roll_length_m
        needs.append(
            Need("mesh_roll", metres=length, square_metres=made.mesh_bought_m2, pieces=made.mesh_rolls)
        )
    for what in ("waterproofing", "paint"):
        needs.append(Need(what, litres=sum(p.litres or 0.0 for p in made.paints if p.what == what)))
    return tuple(need for need in needs if _some(need))


def _some(need: Need) -> bool:
    sizes = (need.kilograms, need.litres, need.metres, need.square_metres, need.pieces)
    return any(size for size in sizes)
