"""How hot the middle of a block or a pour gets, and when.

A slab of one thickness, heated evenly by its cement and cooled at both faces. The series is that of
a slab in textbooks of heat conduction, its heat source dying away exponentially.
"""

import math
from functools import cache
from typing import Final

from attrs import frozen

from foamwright.material.blend import BlendResult
from foamwright.material.mix import MixResult
from foamwright.project.notes import Note, Problem, Scalar, Severity

#: Specific heat of water at 25 degrees C [kJ/(kg K)], and that of solids by the 0.22 of ACI 305R (from memory).
WATER_HEAT: Final = 4.18
SOLIDS_HEAT: Final = 0.22 * WATER_HEAT
#: Heat that cement gives in its first week, least and most [kJ/kg]: low heat at most 270 by EN 197-1 (from
#: memory); the others are ranges of handbooks, from memory.
HEATS: Final = {
    "rapid": (350.0, 450.0),
    "normal": (300.0, 400.0),
    "slow": (200.0, 300.0),
    "low_heat": (180.0, 270.0),
}
#: Hours in which half of that heat comes, soonest and latest (from memory; hotter cores are faster) [h].
HALF_TIMES: Final = {
    "rapid": (8.0, 14.0),
    "normal": (12.0, 24.0),
    "slow": (20.0, 40.0),
    "low_heat": (24.0, 60.0),
}
#: Temperature above which dense concrete may suffer from delayed ettringite (ACI 201.2R, from memory) [C].
HOTTEST: Final = 70.0
#: Thicknesses for which the series is summed [m].
THICKNESSES: Final = (0.01, 5.0)
#: Terms of the series.
_TERMS: Final = 200
#: How long it is looked at [h].
LONGEST_H: Final = 14 * 24.0


@frozen
class Slab:
    """A block or pour that hardens, as heat sees it.

    Attributes
    ----------
    thickness_m : float
        Thickness between its two faces [m]
    adiabatic_k : float
        Rise of temperature if no heat left [K]
    half_time_h : float
        Hours in which half of the heat comes, above 0 [h]
    diffusivity_m2_s : float
        Thermal diffusivity, above 0 [m2/s]
    biot : float or None
        Film coefficient times half the thickness over the conductivity; none where the faces are at air temperature [-]
    """

    thickness_m: float
    adiabatic_k: float
    half_time_h: float
    diffusivity_m2_s: float
    biot: float | None = None


@frozen
class Core:
    """How hot the middle gets.

    Attributes
    ----------
    adiabatic_low_k : float
        Rise if no heat left, least heat of the cement [K]
    adiabatic_high_k : float
        The same, most [K]
    rise_low_k : float
        Greatest rise of the middle above the temperature of the mix and air: least heat, slowest, faces held at air temperature [K]
    rise_high_k : float
        The same: most heat, fastest, faces warm in still air [K]
    peak_low_c : float
        Hottest of the middle, least [C]
    peak_high_c : float
        The same, most [C]
    hours_low : float
        When it is hottest, soonest [h]
    hours_high : float
        The same, latest [h]
    fourier_day : float
        Fourier number after a day over half the thickness: far below 1 the block keeps its heat [-]
    swell_low : float
        Share by which air in the middle would swell, least [-]
    swell_high : float
        The same, most [-]
    """

    adiabatic_low_k: float
    adiabatic_high_k: float
    rise_low_k: float
    rise_high_k: float
    peak_low_c: float
    peak_high_c: float
    hours_low: float
    hours_high: float
    fourier_day: float
    swell_low: float
    swell_high: float


@cache
def _roots(biot: float | None) -> tuple[tuple[float, float], ...]:
    """Give roots of ``mu tan mu = Bi`` and the weight of each in the middle of the slab."""
    roots = []
    for n in range(_TERMS):
        low, high = n * math.pi, (n + 0.5) * math.pi
        mu = high
        if biot is not None:
            # mu sin mu - Bi cos mu changes its sign once between the two ends.
            sign = (-1) ** n
            for _ in range(80):
                mu = (low + high) / 2
                if sign * (mu * math.sin(mu) - biot * math.cos(mu)) > 0:
                    high = mu
                else:
                    low = mu
        roots.append((mu, 4 * math.sin(mu) / (2 * mu + math.sin(2 * mu))))
    return tuple(roots)


def volumetric_heat(cement: float, water: float, others: float = 0.0) -> float:
    """Return the heat that fresh foamed concrete holds.

    Source: arithmetic; solids hold 0.22 of the heat of water (ACI 305R, from memory), air none.

    Parameters
    ----------
    cement : float
        Cement [kg/m3]
    water : float
        All water, that in the foam included [kg/m3]
    others : float
        Sand and other solids [kg/m3]

    Returns
    -------
    float
        Heat capacity [kJ/(m3 K)]

    Examples
    --------
    >>> round(volumetric_heat(268.2, 216.2), 1)
    1150.4
    """
    return SOLIDS_HEAT * (cement + others) + WATER_HEAT * water


def rise(slab: Slab, hours: float, start_above: float = 0.0) -> float:
    """Return how far the middle of a slab is above the air at an hour.

    Source: series of the slab (Carslaw and Jaeger, Conduction of Heat in Solids, 3.3 to 3.14), the
    heat coming as ``1 - 2^(-t / half time)``; 200 terms. One rate for all temperatures: a hot core
    is in truth faster.

    Parameters
    ----------
    slab : Slab
        The slab [-]
    hours : float
        Since casting, 0 or more [h]
    start_above : float
        Mix above the air when cast [K]

    Returns
    -------
    float
        Above the air [K]

    Examples
    --------
    >>> block = Slab(0.30, 80.0, 18.0, 1.4e-7)
    >>> [round(rise(block, hour), 1) for hour in (0.0, 6.0, 24.0, 96.0)]
    [0.0, 16.0, 29.8, 4.6]
    """
    if hours <= 0:
        return start_above
    seconds = hours * 3600
    dying = math.log(2) / (slab.half_time_h * 3600)
    total = 0.0
    for mu, weight in _roots(slab.biot):
        leaving = (mu / (slab.thickness_m / 2)) ** 2 * slab.diffusivity_m2_s
        if leaving * seconds > 50 and leaving > 1e6 * dying:
            break
        kept = math.exp(-leaving * seconds)
        if abs(leaving - dying) < 1e-9 * dying:
            made = dying * seconds * kept
        else:
            made = dying * (math.exp(-dying * seconds) - kept) / (leaving - dying)
        total += weight * (slab.adiabatic_k * made + start_above * kept)
    return total


def hottest(slab: Slab, start_above: float = 0.0) -> tuple[float, float]:
    """Return how far the middle comes above the air at its hottest, and when.

    Source: arithmetic (the series of ``rise``, looked at hour by hour for a fortnight and then closer).

    Parameters
    ----------
    slab : Slab
        The slab [-]
    start_above : float
        Mix above the air when cast [K]

    Returns
    -------
    tuple of (float, float)
        Above the air, and hours since casting [K, h]

    Examples
    --------
    >>> [round(v, 1) for v in hottest(Slab(0.30, 80.0, 18.0, 1.4e-7))]
    [29.9, 22.2]
    """
    step = 4.0
    best = max((i * step for i in range(int(LONGEST_H / step) + 1)), key=lambda h: rise(slab, h, start_above))
    while step > 0.05:
        step /= 4
        near = [max(best + i * step, 0.0) for i in range(-4, 5)]
        best = max(near, key=lambda h: rise(slab, h, start_above))
    return rise(slab, best, start_above), best


def core(
    batch: MixResult | BlendResult,
    thickness: float,
    mix_c: float = 20.0,
    air_c: float = 20.0,
    cement: str = "normal",
    conductivity: tuple[float, float] = (0.10, 0.30),
    film: float = 8.0,
) -> tuple[Core | None, tuple[Problem, ...], tuple[Note, ...]]:
    """Return how hot the middle of a block or pour gets, as a range.

    Source: series of the slab (Carslaw and Jaeger); heat of the cement and its pace are ranges from
    memory, made for pastes and dense concrete; still air at a face 8 W/(m2 K) as ISO 6946 (1 / 0.13)
    has it. Length and width are taken as much greater than the thickness: a cube stays cooler. Near
    100 degrees C water boils and takes heat with it, so that a peak beyond is a sign and no forecast.

    Parameters
    ----------
    batch : MixResult or BlendResult
        The batch [-]
    thickness : float
        Least measure of the block or pour, 0.01 to 5 [m]
    mix_c : float
        Mix when cast, -10 to 60 [C]
    air_c : float
        Air, -40 to 60 [C]
    cement : str
        ``rapid``, ``normal``, ``slow`` or ``low_heat`` [-]
    conductivity : tuple of (float, float)
        Least and most of the fresh, wet concrete, 0.01 to 5; no published figure was found [W/(m K)]
    film : float
        Heat that a face loses to still air, above 0 [W/(m2 K)]

    Returns
    -------
    tuple of (Core or None, tuple of Problem, tuple of Note)
        The range, absent where something stated cannot be [-]

    Examples
    --------
    >>> from foamwright.material.mix import solve
    >>> from foamwright.project.model import Mix
    >>> one = core(solve(Mix())[0], 0.30)[0]
    >>> one.rise_low_k < one.rise_high_k < one.adiabatic_high_k
    True
    """
    problems: list[Problem] = []
    for name, value, low, high in (
        ("thickness_m", thickness, *THICKNESSES),
        ("mix_c", mix_c, -10.0, 60.0),
        ("air_c", air_c, -40.0, 60.0),
        ("conductivity_low", conductivity[0], 0.01, 5.0),
        ("conductivity_high", conductivity[1], 0.01, 5.0),
        ("film_w_m2k", film, 0.1, 1000.0),
    ):
        if not math.isfinite(value):
            problems.append(Problem(f"core.{name}", None, None, "not_finite"))
        elif value < low:
            problems.append(Problem(f"core.{name}", value, low, "too_small"))
        elif value > high:
            problems.append(Problem(f"core.{name}", value, high, "too_big"))
    if cement not in HEATS:
        problems.append(Problem("core.cement", cement, ",".join(HEATS), "not_a_choice"))
    if problems:
        return None, tuple(problems), ()
    mix = batch.mix if isinstance(batch, BlendResult) else batch
    cubic = mix.yield_l / 1000
    dry = sum(p.dry_kg for p in batch.portions) if isinstance(batch, BlendResult) else 0.0
    per_m3 = mix.cement_kg / cubic
    water = mix.total_water_cement_ratio * per_m3
    holds = volumetric_heat(per_m3, water, dry / cubic)
    adiabatic = [heat * per_m3 / holds for heat in HEATS[cement]]
    leads = sorted(conductivity)
    above = mix_c - air_c
    cool = Slab(thickness, adiabatic[0], HALF_TIMES[cement][1], leads[1] / holds / 1000)
    warm = Slab(
        thickness,
        adiabatic[1],
        HALF_TIMES[cement][0],
        leads[0] / holds / 1000,
        film * thickness / 2 / leads[0],
    )
    low, late = hottest(cool, above)
    high, soon = hottest(warm, above)
    peaks = (air_c + low, air_c + high)
    lifts = (max(peaks[0] - mix_c, 0.0), max(peaks[1] - mix_c, 0.0))
    middle = math.sqrt(leads[0] * leads[1]) / holds / 1000
    result = Core(
        adiabatic[0],
        adiabatic[1],
        lifts[0],
        lifts[1],
        *peaks,
        min(late, soon),
        max(late, soon),
        middle * 86400 / (thickness / 2) ** 2,
        *(lift / (273.15 + mix_c) for lift in lifts),
    )
    notes = [Note("heat_from_memory", "info", "core", {}, "heats_of_hydration")]
    if peaks[1] > HOTTEST:
        params: dict[str, Scalar] = {"low": peaks[0], "high": peaks[1], "limit": HOTTEST}
        severity: Severity = "warning" if peaks[0] > HOTTEST else "caution"
        notes.append(Note("core_hot", severity, "core.thickness_m", params, "aci_201_2r"))
    return result, (), tuple(notes)
