"""One batch by absolute volumes, solved from whatever was stated of it.

Cement, slurry water, foam mass, foam volume and yield are the unknowns. Whatever may be stated of a
batch is a linear equation between them once its value is known, so that any sufficient set is
solved by one elimination. Which sets are sufficient is a property of the quantities and not of
their values; it is read off the equations of a reference batch.
"""

from collections.abc import Callable
from functools import cache
from typing import Any, Final

from attrs import evolve, frozen

from foamwright.material.density import (
    HYDRATED,
    WATER,
    FoamDensity,
    OvenDryDensity,
    WetDensity,
    oven_dry_density,
)
from foamwright.project.model import MIX_QUANTITIES, Mix
from foamwright.project.notes import Note, Problem, Scalar, Severity

#: Two statements of one quantity may differ by so much: people round what they write down.
AGREEMENT: Final = 0.005
#: Yield that a mix is solved for where only densities and ratios were stated [L].
UNIT_YIELD_L: Final = 1000.0

#: Wet densities of the abstract of ACI 523.3R-14 [kg/m3].
WET_PUBLISHED: Final = (320.0, 1920.0)
#: Slurry water over cement that crews work with (common practice, no source) [-].
RATIO_COMMON: Final = (0.35, 0.80)
#: Foam density commonly attributed to ASTM C796 (from memory) [kg/m3].
FOAM_ATTRIBUTED: Final = (32.0, 64.0)
#: Foam density beyond which nobody is known to work (common practice, no source) [kg/m3].
FOAM_COMMON: Final = (20.0, 120.0)

Row = list[float]
#: Unknowns in order: cement [kg], slurry water [kg], foam [kg], foam [m3], yield [m3]; then the right side.
_EQUATIONS: Final[dict[str, Callable[[float], Row]]] = {
    "cement_kg": lambda v: [1, 0, 0, 0, 0, v],
    "water_l": lambda v: [0, 1, 0, 0, 0, v * WATER / 1000],
    "foam_density_kg_m3": lambda v: [0, 0, 1, -v, 0, 0],
    "yield_l": lambda v: [0, 0, 0, 0, 1, v / 1000],
    "wet_density_kg_m3": lambda v: [1, 1, 1, 0, -v, 0],
    "oven_dry_density_kg_m3": lambda v: [HYDRATED, 0, 0, 0, -v, 0],
    "water_cement_ratio": lambda v: [-v, 1, 0, 0, 0, 0],
    "total_water_cement_ratio": lambda v: [-v, 1, 1, 0, 0, 0],
}


@frozen
class MixResult:
    """One batch, as stated or as solved.

    Attributes
    ----------
    cement_kg : float
        Cement [kg]
    water_l : float
        Water of the slurry, that in the foam not counted [L]
    foam_density_kg_m3 : FoamDensity
        Density of the foam [kg/m3]
    foam_volume_l : float
        Foam [L]
    foam_mass_kg : float
        Foam, which is water but for the agent [kg]
    slurry_volume_l : float
        Cement and water before the foam [L]
    slurry_density_kg_m3 : float
        Density of the slurry [kg/m3]
    yield_l : float
        Foamed concrete made [L]
    mass_kg : float
        Mass of the batch [kg]
    wet_density_kg_m3 : WetDensity
        Density as cast [kg/m3]
    oven_dry_density_kg_m3 : OvenDryDensity
        Density dried in the oven [kg/m3]
    water_cement_ratio : float
        Water of the slurry over cement, by mass [-]
    total_water_cement_ratio : float
        All water, that in the foam included, over cement, by mass [-]
    air_fraction : float
        Air of the foam over the yield [-]
    """

    cement_kg: float
    water_l: float
    foam_density_kg_m3: FoamDensity
    foam_volume_l: float
    foam_mass_kg: float
    slurry_volume_l: float
    slurry_density_kg_m3: float
    yield_l: float
    mass_kg: float
    wet_density_kg_m3: WetDensity
    oven_dry_density_kg_m3: OvenDryDensity
    water_cement_ratio: float
    total_water_cement_ratio: float
    air_fraction: float

    def times(self, factor: float) -> "MixResult":
        """Return the same mix in another size.

        Source: arithmetic.

        Parameters
        ----------
        factor : float
            New size over this one, above 0 [-]

        Returns
        -------
        MixResult
            Masses and volumes multiplied, densities and ratios held [-]

        Examples
        --------
        >>> mix = solve(Mix())[0]
        >>> mix.times(2.0).water_cement_ratio == mix.water_cement_ratio
        True
        """
        return MixResult(
            cement_kg=self.cement_kg * factor,
            water_l=self.water_l * factor,
            foam_density_kg_m3=self.foam_density_kg_m3,
            foam_volume_l=self.foam_volume_l * factor,
            foam_mass_kg=self.foam_mass_kg * factor,
            slurry_volume_l=self.slurry_volume_l * factor,
            slurry_density_kg_m3=self.slurry_density_kg_m3,
            yield_l=self.yield_l * factor,
            mass_kg=self.mass_kg * factor,
            wet_density_kg_m3=self.wet_density_kg_m3,
            oven_dry_density_kg_m3=self.oven_dry_density_kg_m3,
            water_cement_ratio=self.water_cement_ratio,
            total_water_cement_ratio=self.total_water_cement_ratio,
            air_fraction=self.air_fraction,
        )


def slurry_density(water_cement_ratio: float, cement_density: float = 3150.0) -> float:
    """Return the density of cement and water without foam or trapped air.

    Source: arithmetic (absolute volumes).

    Parameters
    ----------
    water_cement_ratio : float
        Water over cement, by mass, 0 or more [-]
    cement_density : float
        Density of the cement grains [kg/m3]

    Returns
    -------
    float
        Density [kg/m3]

    Examples
    --------
    >>> round(slurry_density(0.5), 1)
    1835.0
    """
    return (1 + water_cement_ratio) / (1 / cement_density + water_cement_ratio / WATER)


def from_parts(
    cement: float, water: float, foam: float, foam_volume: float, cement_density: float
) -> MixResult:
    """Put a batch together from what goes into it.

    Source: arithmetic (absolute volumes); oven-dry density by ASTM C869-91 (R1999), footnote A.

    Parameters
    ----------
    cement : float
        Cement, above 0 [kg]
    water : float
        Water of the slurry, above 0 [L]
    foam : float
        Foam, above 0 [kg]
    foam_volume : float
        Foam, above 0 [L]
    cement_density : float
        Density of the cement grains [kg/m3]

    Returns
    -------
    MixResult
        The batch [-]

    Examples
    --------
    >>> round(from_parts(42.64, 22.71, 11.66, 122.74, 3150.0).yield_l, 1)
    159.0
    """
    slurry = cement / cement_density * 1000 + water * 1000 / WATER
    slurry_mass = cement + water * WATER / 1000
    total, volume = slurry_mass + foam, slurry + foam_volume
    wet = WetDensity(total / volume * 1000)
    ratio = (slurry_mass - cement + foam) / cement
    return MixResult(
        cement_kg=cement,
        water_l=water,
        foam_density_kg_m3=FoamDensity(foam / foam_volume * 1000),
        foam_volume_l=foam_volume,
        foam_mass_kg=foam,
        slurry_volume_l=slurry,
        slurry_density_kg_m3=slurry_mass / slurry * 1000,
        yield_l=volume,
        mass_kg=total,
        wet_density_kg_m3=wet,
        oven_dry_density_kg_m3=oven_dry_density(wet, ratio),
        water_cement_ratio=(slurry_mass - cement) / cement,
        total_water_cement_ratio=ratio,
        air_fraction=(foam_volume - foam * 1000 / WATER) / volume,
    )


def solve(mix: Mix) -> tuple[MixResult | None, tuple[Problem, ...], tuple[Note, ...]]:
    """Solve a batch from the quantities that were stated of it.

    Source: arithmetic (absolute volumes, the water in the foam counted); oven-dry density by ASTM
    C869-91 (R1999), footnote A. Three independent densities or ratios fix the proportions; a mass
    or volume fixes the size, else the batch is 1000 L. What is stated twice must agree within 0.5 %.

    Parameters
    ----------
    mix : Mix
        The recipe; quantities not named in ``given`` are not looked at [-]

    Returns
    -------
    tuple of (MixResult or None, tuple of Problem, tuple of Note)
        The batch, absent where too little, contradictory or impossible things were stated [-]

    Examples
    --------
    >>> batch = solve(Mix())[0]
    >>> round(batch.foam_volume_l, 2), round(batch.wet_density_kg_m3, 1)
    (122.74, 484.4)
    """
    stated: dict[str, float] = {}
    problems: list[Problem] = []
    for name in MIX_QUANTITIES:
        if name in mix.given:
            value = getattr(mix, name)
            if value is None:
                problems.append(Problem(f"mix.{name}", None, "number", "missing"))
            else:
                stated[name] = float(value)
    if problems:
        return None, tuple(problems), ()
    chosen, spare = _independent(tuple(stated))
    sized = any(name in chosen for name in ("cement_kg", "water_l", "yield_l"))
    needed = 4 if sized else 3
    if len(chosen) < needed:
        return None, (_too_little(chosen, needed),), ()
    equations = {name: stated[name] for name in chosen}
    if not sized:
        equations["yield_l"] = UNIT_YIELD_L
    unknowns = eliminate(
        [
            [1 / mix.cement_density_kg_m3, 1 / WATER, 0, 1, -1, 0],
            *(_EQUATIONS[name](value) for name, value in equations.items()),
        ]
    )
    impossible = _impossible(unknowns, stated, mix.cement_density_kg_m3)
    if impossible or unknowns is None:
        return None, (impossible,) if impossible else (), ()
    cement, water, foam, volume, _ = unknowns
    result = from_parts(cement, water * 1000 / WATER, foam, volume * 1000, mix.cement_density_kg_m3)
    # What was stated stands to the last digit, so that a limit equal to it is not missed by rounding.
    as_stated: dict[str, Any] = {name: stated[name] for name in chosen}
    result = evolve(result, **as_stated)
    for name in spare:
        implied = float(getattr(result, name))
        if abs(stated[name] - implied) > AGREEMENT * abs(implied):
            params: dict[str, Scalar] = {"quantity": name, "implied": implied}
            params["agreement"] = AGREEMENT
            problems.append(
                Problem(f"mix.{name}", stated[name], implied, "mix_contradiction", params)
            )
    if problems:
        return None, tuple(problems), ()
    return result, (), remarks(result)


def _too_little(chosen: tuple[str, ...], needed: int) -> Problem:
    """Say how many more quantities a batch needs, and which of them would say something new."""
    useful = [
        name for name in MIX_QUANTITIES if name in _independent((*chosen, name))[0][len(chosen) :]
    ]
    params: dict[str, Scalar] = {"missing": needed - len(chosen), "any_of": ",".join(useful)}
    return Problem("mix.given", len(chosen), needed, "mix_underdetermined", params)


#: A batch like no special case; its equations show which quantities say something new.
_REFERENCE: Final = from_parts(100.0, 53.7, 7.9, 171.3, 3150.0)


@cache
def _independent(names: tuple[str, ...]) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Split quantities into those that say something new, in order, and those that repeat it."""
    basis: list[Row] = []
    chosen: list[str] = []
    spare: list[str] = []

    def new(row: Row) -> bool:
        largest = max(abs(v) for v in row)
        for known in basis:
            lead = next(i for i, v in enumerate(known) if abs(v) > 1e-9)
            factor = row[lead] / known[lead]
            row = [a - factor * b for a, b in zip(row, known, strict=True)]
            row[lead] = 0.0
        if max(abs(v) for v in row) <= 1e-9 * largest:
            return False
        scale = max(abs(v) for v in row)
        basis.append([v / scale if abs(v) > 1e-12 * scale else 0.0 for v in row])
        return True

    # Unknowns are measured in their reference size, so that all coefficients are of one order. The
    # right side of a reference equation is dropped: it is the same for all sizes of the batch.
    size = (100.0, 53.7, 7.9, 0.1713, _REFERENCE.yield_l / 1000)

    def scaled(row: Row) -> Row:
        return [a * s for a, s in zip(row[:5], size, strict=True)]

    new(scaled([1 / 3150.0, 1 / WATER, 0, 1, -1, 0]))
    for name in names:
        row = scaled(_EQUATIONS[name](float(getattr(_REFERENCE, name))))
        (chosen if new(row) else spare).append(name)
    return tuple(chosen), tuple(spare)


def eliminate(rows: list[Row]) -> Row | None:
    """Solve linear equations by elimination with the largest pivot.

    Source: arithmetic.

    Parameters
    ----------
    rows : list of list of float
        Coefficients of each equation, then its right side [-]

    Returns
    -------
    list of float or None
        The unknowns in order; none where the equations do not settle them [-]

    Examples
    --------
    >>> eliminate([[1.0, 1.0, 3.0], [1.0, -1.0, 1.0]])
    [2.0, 1.0]
    """
    rows = [[v / max(abs(w) for w in row[:-1]) for v in row] for row in rows]
    size = len(rows)
    for i in range(size):
        pivot = max(range(i, size), key=lambda k: abs(rows[k][i]))
        if abs(rows[pivot][i]) < 1e-13:
            return None
        rows[i], rows[pivot] = rows[pivot], rows[i]
        for k in range(size):
            if k != i:
                factor = rows[k][i] / rows[i][i]
                rows[k] = [a - factor * b for a, b in zip(rows[k], rows[i], strict=True)]
    return [rows[i][-1] / rows[i][i] for i in range(size)]


def _impossible(
    unknowns: Row | None, stated: dict[str, float], cement_density: float
) -> Problem | None:
    """Name what no batch can have, with the bound that was broken where one is known."""
    if unknowns is None:
        return Problem("mix.given", None, None, "mix_impossible", {"quantity": "yield_l"})
    names = ("cement_kg", "water_l", "foam_mass_kg", "foam_volume_l", "yield_l")
    for name, value in zip(names, unknowns, strict=True):
        if value > 1e-9:
            continue
        params: dict[str, Scalar] = {
            "quantity": name,
            "implied": value * (1000 if name in names[3:] else 1),
        }
        cement, water = unknowns[0], unknowns[1]
        if cement > 0 and water > 0:
            slurry = (cement / cement_density + water / WATER) * 1000
            if "yield_l" in stated:
                return Problem("mix.yield_l", stated["yield_l"], slurry, "mix_impossible", params)
            if "wet_density_kg_m3" in stated:
                limit = (cement + water) / slurry * 1000
                wet = stated["wet_density_kg_m3"]
                return Problem("mix.wet_density_kg_m3", wet, limit, "mix_impossible", params)
        return Problem("mix.given", params["implied"], 0.0, "mix_impossible", params)
    foam = unknowns[2] / unknowns[3]
    if foam >= WATER:
        params = {"quantity": "foam_density_kg_m3", "implied": foam}
        return Problem("mix.given", foam, WATER, "mix_impossible", params)
    return None


def remarks(result: MixResult) -> tuple[Note, ...]:
    """Say which figures of a batch lie outside what was published or is common.

    Source: ACI 523.3R-14, abstract (wet density); common practice, no source (water over cement,
    foam); ASTM C796, from memory (foam).

    Parameters
    ----------
    result : MixResult
        The batch [-]

    Returns
    -------
    tuple of Note
        What lies outside, none where nothing does [-]

    Examples
    --------
    >>> [note.code for note in remarks(solve(Mix())[0])]
    ['foam_density_outside_common']
    """
    checks: tuple[tuple[str, str, float, tuple[float, float], str], ...] = (
        ("wet_density_outside_published", "wet_density_kg_m3", result.wet_density_kg_m3, WET_PUBLISHED, "aci_523_3r_14"),
        ("water_cement_outside_common", "water_cement_ratio", result.water_cement_ratio, RATIO_COMMON, "practice_water_cement"),
    )  # fmt: skip
    notes = [
        Note(code, "caution", f"mix.{name}", {"value": value, "low": low, "high": high}, source)
        for code, name, value, (low, high), source in checks
        if not low <= value <= high
    ]
    foam: float = result.foam_density_kg_m3
    severity: Severity = "info"
    (low, high), source = FOAM_ATTRIBUTED, "astm_c796_foam_window"
    if not FOAM_COMMON[0] <= foam <= FOAM_COMMON[1]:
        severity, (low, high), source = "caution", FOAM_COMMON, "practice_foam_density"
    if not low <= foam <= high:
        params: dict[str, Scalar] = {"value": foam, "low": low, "high": high}
        path = "mix.foam_density_kg_m3"
        notes.append(Note("foam_density_outside_common", severity, path, params, source))
    return tuple(notes)
