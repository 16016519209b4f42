"""A batch with more in it than cement, water and foam, solved from whatever was stated of it.

The unknowns and the equations are those of ``material.mix``. Each addition is stated per kilogram
of cement or per cubic metre of foamed concrete, so that it only adds to the coefficients of the
cement or of the yield, and everything stays linear. Without additions the numbers are the same.
"""

import math
from functools import cache
from typing import Final

from attrs import evolve, frozen

from foamwright.material.density import (
    HYDRATED,
    WATER,
    FoamDensity,
    OvenDryDensity,
    WetDensity,
)
from foamwright.material.mix import AGREEMENT, UNIT_YIELD_L, MixResult, Row, eliminate
from foamwright.material.mix import remarks as plain
from foamwright.material.mix import solve as solve_plain
from foamwright.project.model import MIX_QUANTITIES, Mix
from foamwright.project.notes import Note, Problem, Scalar

KINDS: Final = ("sand", "fly_ash", "lime", "fibres", "accelerator")
#: Density of the grains where none is stated: quartz sand, saturated and surface-dry; fly ash and
#: hydrated lime (common practice, no source); polypropylene fibres and calcium chloride (from memory) [kg/m3].
GRAIN_KG_M3: Final = {
    "sand": 2650.0,
    "fly_ash": 2300.0,
    "lime": 2300.0,
    "fibres": 910.0,
    "accelerator": 2150.0,
}
#: Additions that count as binder beside the cement.
BINDERS: Final = ("fly_ash", "lime")
#: Sand is usually left out below this density (Concrete Society, note on foamed concrete) [kg/m3].
SAND_FROM: Final = 1000.0


@frozen
class Addition:
    """Something that goes into the slurry beside cement and water.

    Attributes
    ----------
    kind : str
        ``sand``, ``fly_ash``, ``lime``, ``fibres`` or ``accelerator`` [-]
    amount : float
        How much of it, as it is weighed, damp [kg per kg of cement or per m3 of foamed concrete]
    per : str
        ``cement`` or ``yield`` [-]
    moisture : float
        All water in it over its oven-dry mass; of a solution the water over the solids [-]
    absorption : float
        Water that its grains drink until saturated, over the oven-dry mass [-]
    grain_kg_m3 : float or None
        Density of the grains, saturated and surface-dry [kg/m3]
    """

    kind: str
    amount: float
    per: str = "cement"
    moisture: float = 0.0
    absorption: float = 0.0
    grain_kg_m3: float | None = None


@frozen
class Portion:
    """How much of one addition goes into the batch.

    Attributes
    ----------
    kind : str
        What it is [-]
    batched_kg : float
        As it is weighed, damp [kg]
    dry_kg : float
        Oven-dry [kg]
    free_water_l : float
        Water that it brings; below 0 where it drinks [L]
    grain_volume_l : float
        Room that its saturated grains take [L]
    """

    kind: str
    batched_kg: float
    dry_kg: float
    free_water_l: float
    grain_volume_l: float


@frozen
class BlendResult:
    """One batch with its additions, as stated or as solved.

    Attributes
    ----------
    mix : MixResult
        The batch; water of the slurry is what is poured in, water over cement counts the free water of the additions too [-]
    portions : tuple of Portion
        Additions in the order stated [-]
    free_water_l : float
        Water that all additions bring; below 0 where they drink [L]
    effective_water_l : float
        Water of the slurry that the cement can use: poured and free [L]
    water_binder_ratio : float
        Effective water over cement, fly ash and lime, by mass [-]
    """

    mix: MixResult
    portions: tuple[Portion, ...]
    free_water_l: float
    effective_water_l: float
    water_binder_ratio: float


@frozen
class _Sum:
    """What all additions of one reference (a kilogram of cement, a cubic metre) come to."""

    mass: float = 0.0  # damp [kg]
    dry: float = 0.0  # [kg]
    free: float = 0.0  # [kg of water]
    grains: float = 0.0  # [m3]


def _shares(addition: Addition) -> _Sum:
    dry = addition.amount / (1 + addition.moisture)
    grain = addition.grain_kg_m3 or GRAIN_KG_M3[addition.kind]
    return _Sum(
        addition.amount,
        dry,
        dry * (addition.moisture - addition.absorption),
        dry * (1 + addition.absorption) / grain,
    )


def _sum(additions: tuple[Addition, ...], per: str) -> _Sum:
    parts = [_shares(a) for a in additions if a.per == per]
    return _Sum(
        sum(p.mass for p in parts),
        sum(p.dry for p in parts),
        sum(p.free for p in parts),
        sum(p.grains for p in parts),
    )


def _row(name: str, v: float, c: _Sum, y: _Sum) -> Row:
    """Write down an equation: cement [kg], poured water [kg], foam [kg], foam [m3], yield [m3] = right side."""
    rows: dict[str, Row] = {
        "cement_kg": [1, 0, 0, 0, 0, v],
        "water_l": [0, 1, 0, 0, 0, v * WATER / 1000],
        "foam_density_kg_m3": [0, 0, 1, -v, 0, 0],
        "yield_l": [0, 0, 0, 0, 1, v / 1000],
        "wet_density_kg_m3": [1 + c.mass, 1, 1, 0, y.mass - v, 0],
        "oven_dry_density_kg_m3": [HYDRATED + c.dry, 0, 0, 0, y.dry - v, 0],
        "water_cement_ratio": [c.free - v, 1, 0, 0, y.free, 0],
        "total_water_cement_ratio": [c.free - v, 1, 1, 0, y.free, 0],
    }
    return rows[name]


def _closure(cement_density: float, c: _Sum, y: _Sum) -> Row:
    """Cement, water, grains and foam fill the yield between them."""
    return [
        1 / cement_density + c.grains + c.free / WATER,
        1 / WATER,
        0,
        1,
        y.grains + y.free / WATER - 1,
        0,
    ]


def blend(
    cement: float,
    water: float,
    foam: float,
    foam_volume: float,
    cement_density: float,
    additions: tuple[Addition, ...] = (),
) -> BlendResult:
    """Put a batch together from what goes into it.

    Source: arithmetic (absolute volumes; sand by its saturated and surface-dry grains, free water
    is moisture less absorption, both over the oven-dry mass); oven-dry density by ASTM C869-91
    (R1999), footnote A, the additions counted dry.

    Parameters
    ----------
    cement : float
        Cement, above 0 [kg]
    water : float
        Water poured in [L]
    foam : float
        Foam, above 0 [kg]
    foam_volume : float
        Foam, above 0 [L]
    cement_density : float
        Density of the cement grains [kg/m3]
    additions : tuple of Addition
        What else goes in; stated per yield it must leave room for the rest [-]

    Returns
    -------
    BlendResult
        The batch [-]

    Raises
    ------
    ZeroDivisionError
        Additions per cubic metre fill the whole cubic metre.

    Examples
    --------
    >>> one = blend(100.0, 50.0, 5.0, 60.0, 3150.0, (Addition("sand", 1.0, moisture=0.05, absorption=0.01),))
    >>> round(one.free_water_l, 2), round(one.mix.water_cement_ratio, 4), round(one.mix.yield_l, 1)
    (3.81, 0.5381, 181.9)
    """
    c, y = _sum(additions, "cement"), _sum(additions, "yield")
    room = 1 - y.grains - y.free / WATER
    poured = water * WATER / 1000
    volume = (
        cement * (1 / cement_density + c.grains + c.free / WATER) + poured / WATER + foam_volume / 1000
    ) / room
    return _result((cement, poured, foam, foam_volume / 1000, volume), cement_density, additions)


def _result(unknowns: tuple[float, ...], cement_density: float, additions: tuple[Addition, ...]) -> BlendResult:
    cement, poured, foam, foam_m3, volume = unknowns
    portions: list[Portion] = []
    for addition in additions:
        part = _shares(addition)
        times = cement if addition.per == "cement" else volume
        portions.append(
            Portion(
                addition.kind,
                part.mass * times,
                part.dry * times,
                part.free * times * 1000 / WATER,
                part.grains * times * 1000,
            )
        )
    batched = sum(p.batched_kg for p in portions)
    dry = sum(p.dry_kg for p in portions)
    free = sum(p.free_water_l for p in portions)
    effective = poured + free * WATER / 1000
    binder = cement + sum(p.dry_kg for p in portions if p.kind in BINDERS)
    slurry = volume - foam_m3
    slurry_mass = cement + poured + batched
    mass = slurry_mass + foam
    mix = MixResult(
        cement_kg=cement,
        water_l=poured * 1000 / WATER,
        foam_density_kg_m3=FoamDensity(foam / foam_m3),
        foam_volume_l=foam_m3 * 1000,
        foam_mass_kg=foam,
        slurry_volume_l=slurry * 1000,
        slurry_density_kg_m3=slurry_mass / slurry,
        yield_l=volume * 1000,
        mass_kg=mass,
        wet_density_kg_m3=WetDensity(mass / volume),
        oven_dry_density_kg_m3=OvenDryDensity((HYDRATED * cement + dry) / volume),
        water_cement_ratio=effective / cement,
        total_water_cement_ratio=(effective + foam) / cement,
        air_fraction=(foam_m3 - foam / WATER) / volume,
    )
    return BlendResult(mix, tuple(portions), free, effective * 1000 / WATER, effective / binder)


def solve(
    mix: Mix, additions: tuple[Addition, ...] = ()
) -> tuple[BlendResult | None, tuple[Problem, ...], tuple[Note, ...]]:
    """Solve a batch with additions from the quantities that were stated of it.

    Source: arithmetic (absolute volumes, as ``material.mix.solve``); oven-dry density by ASTM
    C869-91 (R1999), footnote A, the additions counted dry. Stated water is what is poured in; water
    over cement counts the free water of the additions too (effective water, as EN 206 and ACI
    211.1 use it, from memory). What is stated twice must agree within 0.5 %.

    Parameters
    ----------
    mix : Mix
        The recipe; quantities not named in ``given`` are not looked at [-]
    additions : tuple of Addition
        What else goes in [-]

    Returns
    -------
    tuple of (BlendResult or None, tuple of Problem, tuple of Note)
        The batch, absent where too little, contradictory or impossible things were stated [-]

    Examples
    --------
    >>> plain = solve(Mix())[0]
    >>> round(plain.mix.wet_density_kg_m3, 1)
    484.4
    >>> fibred = solve(Mix(), (Addition("fibres", 0.9, "yield"),))[0]
    >>> round(fibred.portions[0].batched_kg, 3), round(fibred.mix.wet_density_kg_m3, 1)
    (0.143, 485.2)
    """
    problems = list(_wrong(additions))
    if problems:
        return None, tuple(problems), ()
    if not additions:
        plain, faults, notes = solve_plain(mix)
        if plain is None:
            return None, faults, notes
        return BlendResult(plain, (), 0.0, plain.water_l, plain.water_cement_ratio), faults, notes
    stated: dict[str, float] = {}
    for name in MIX_QUANTITIES:
        if name in mix.given:
            value = getattr(mix, name)
            if value is None:
                problems.append(Problem(f"mix.{name}", None, "number", "missing"))
            else:
                stated[name] = float(value)
    if problems:
        return None, tuple(problems), ()
    chosen, spare = _independent(tuple(stated), additions)
    sized = any(name in chosen for name in ("cement_kg", "water_l", "yield_l"))
    needed = 4 if sized else 3
    if len(chosen) < needed:
        useful = [
            name
            for name in MIX_QUANTITIES
            if name in _independent((*chosen, name), additions)[0][len(chosen) :]
        ]
        params: dict[str, Scalar] = {"missing": needed - len(chosen), "any_of": ",".join(useful)}
        return None, (Problem("mix.given", len(chosen), needed, "mix_underdetermined", params),), ()
    equations = {name: stated[name] for name in chosen}
    if not sized:
        equations["yield_l"] = UNIT_YIELD_L
    c, y = _sum(additions, "cement"), _sum(additions, "yield")
    unknowns = eliminate(
        [
            _closure(mix.cement_density_kg_m3, c, y),
            *(_row(name, value, c, y) for name, value in equations.items()),
        ]
    )
    impossible = _impossible(unknowns, stated)
    if impossible or unknowns is None:
        return None, (impossible,) if impossible else (), ()
    result = _result(tuple(unknowns), mix.cement_density_kg_m3, additions)
    if result.effective_water_l <= 0:
        # Dry grains may drink all that is poured; nothing is left for the cement.
        params = {"quantity": "water_l", "implied": result.effective_water_l}
        return None, (Problem("mix.additions", result.effective_water_l, 0.0, "mix_impossible", params),), ()
    for name in spare:
        implied = float(getattr(result.mix, name))
        if abs(stated[name] - implied) > AGREEMENT * abs(implied):
            params = {"quantity": name, "implied": implied, "agreement": AGREEMENT}
            problems.append(Problem(f"mix.{name}", stated[name], implied, "mix_contradiction", params))
    if problems:
        return None, tuple(problems), ()
    # What was stated stands to the last digit.
    as_stated = {name: stated[name] for name in chosen}
    result = evolve(result, mix=evolve(result.mix, **as_stated))  # type: ignore[arg-type]
    return result, (), _remarks(result)


def _wrong(additions: tuple[Addition, ...]) -> list[Problem]:
    """Name what no addition can be."""
    problems: list[Problem] = []
    for i, addition in enumerate(additions):
        at = f"mix.additions[{i}]"
        if addition.kind not in KINDS:
            problems.append(Problem(f"{at}.kind", addition.kind, ",".join(KINDS), "not_a_choice"))
        if addition.per not in ("cement", "yield"):
            problems.append(Problem(f"{at}.per", addition.per, "cement,yield", "not_a_choice"))
        limits = (
            ("amount", addition.amount, 0.0, 20.0 if addition.per == "cement" else 2500.0),
            ("moisture", addition.moisture, 0.0, 20.0),
            ("absorption", addition.absorption, 0.0, 1.0),
            ("grain_kg_m3", addition.grain_kg_m3, 100.0, 10000.0),
        )
        for name, value, low, high in limits:
            if value is None:
                continue
            if not math.isfinite(value):
                problems.append(Problem(f"{at}.{name}", None, None, "not_finite"))
            elif value < low:
                problems.append(Problem(f"{at}.{name}", value, low, "too_small"))
            elif value > high:
                problems.append(Problem(f"{at}.{name}", value, high, "too_big"))
    return problems


#: Sizes of the unknowns in a batch like no special case: cement, water, foam [kg], foam [m3].
_REFERENCE: Final = (100.0, 53.7, 7.9, 0.1713)


@cache
def _independent(
    names: tuple[str, ...], additions: tuple[Addition, ...]
) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Split quantities into those that say something new, in order, and those that repeat it."""
    c, y = _sum(additions, "cement"), _sum(additions, "yield")
    cement, poured, foam, foam_m3 = _REFERENCE
    closure = _closure(3150.0, c, y)
    # The reference is sized so that additions per cubic metre leave its slurry and foam some room.
    volume = (cement * closure[0] + poured / WATER + foam_m3) / max(-closure[4], 0.01)
    size = (cement, poured, foam, foam_m3, volume)
    reference = _result(size, 3150.0, additions).mix
    basis: list[Row] = []
    chosen: list[str] = []
    spare: list[str] = []

    def new(row: Row) -> bool:
        row = [a * s for a, s in zip(row[:5], size, strict=True)]
        largest = max(abs(v) for v in row)
        for known in basis:
            lead = max(range(5), key=lambda k: abs(known[k]))
            factor = row[lead] / known[lead]
            row = [a - factor * b for a, b in zip(row, known, strict=True)]
            row[lead] = 0.0
        scale = max(abs(v) for v in row)
        if scale <= 1e-9 * largest:
            return False
        basis.append([v / scale for v in row])
        return True

    new(closure)
    for name in names:
        (chosen if new(_row(name, float(getattr(reference, name)), c, y)) else spare).append(name)
    return tuple(chosen), tuple(spare)


def _impossible(unknowns: Row | None, stated: dict[str, float]) -> Problem | None:
    """Name what no batch can have."""
    if unknowns is None:
        return Problem("mix.given", None, None, "mix_impossible", {"quantity": "yield_l"})
    names = ("cement_kg", "water_l", "foam_mass_kg", "foam_volume_l", "yield_l")
    for name, value in zip(names, unknowns, strict=True):
        # Damp sand may bring all the water, so that none is poured; the others are above nothing.
        if value > 1e-9 or (name == "water_l" and value >= -1e-9):
            continue
        implied = value * (1000 if name in names[3:] else 1)
        params: dict[str, Scalar] = {"quantity": name, "implied": implied}
        path = f"mix.{name}" if name in stated else "mix.given"
        return Problem(path, implied, 0.0, "mix_impossible", params)
    foam = unknowns[2] / unknowns[3]
    if foam >= WATER:
        params = {"quantity": "foam_density_kg_m3", "implied": foam}
        return Problem("mix.given", foam, WATER, "mix_impossible", params)
    return None


def _remarks(result: BlendResult) -> tuple[Note, ...]:
    """Say what is uncommon, and what the published tables do not hold."""
    notes = list(plain(result.mix))
    kinds = {p.kind for p in result.portions if p.batched_kg > 0}
    wet: float = result.mix.wet_density_kg_m3
    if "sand" in kinds and wet < SAND_FROM:
        params: dict[str, Scalar] = {"value": wet, "limit": SAND_FROM}
        notes.append(Note("sand_in_light_mix", "info", "mix.additions", params, "concrete_society"))
    if "accelerator" in kinds:
        notes.append(Note("accelerator_chloride", "caution", "mix.additions", {}, "en_206_chloride"))
    if kinds:
        params = {"kinds": ",".join(sorted(kinds))}
        notes.append(
            Note("additions_not_published", "info", "mix.additions", params, "derived_tables_neat")
        )
    if result.mix.water_l < 0.1 * result.effective_water_l:
        params = {"free_water_l": result.free_water_l}
        notes.append(Note("addition_water_covers", "caution", "mix.additions", params, "arithmetic"))
    return tuple(notes)
