"""Heat, cold, wind and hardness of water, as far as they reach the mix."""

import math
from typing import Final, Literal

from attrs import frozen

from foamwright.material.blend import BlendResult
from foamwright.material.mix import MixResult
from foamwright.material.row import Row
from foamwright.project.notes import Note, Problem, Scalar, Severity

#: Specific heat of cement and of aggregates over that of water (ACI 305R and 306R, from memory) [-].
SOLIDS: Final = 0.22
#: Heat that a litre of air at 1 bar and 20 degrees C holds, over a kilogram of water: 1.2 g/L and 1.005 kJ/(kg K) [-].
AIR: Final = 0.0012 * 1.005 / 4.187
#: Water that is hotter may set the cement at once where they meet (ACI 306R, from memory) [C].
HOTTEST_WATER: Final = 60.0
#: Usual greatest temperature at discharge (ACI 305.1, from memory) [C].
HOT: Final = 35.0
#: Least temperature as placed, sections below 300 mm (ACI 306R, Table 3.1, from memory) [C].
COLD: Final = 13.0
#: Air below which cold weather is spoken of (ACI 306R-16, from memory) [C].
COLD_AIR: Final = 4.0
#: Evaporation from which precautions are asked for (ACI 305R; the paper of Uno quotes it) [kg/(m2 h)].
EVAPORATION: Final = 1.0
#: Temperatures that a site may have; beyond them a reading is asked about [C].
RANGE: Final = (-40.0, 100.0)

#: Classes of hardness: source, and the greatest of each class but the last (USGS; Vermont Department of Health) [mg/L as CaCO3].
HARDNESS: Final[tuple[tuple[str, tuple[float, float, float]], ...]] = (
    ("usgs_hardness", (60.0, 120.0, 180.0)),
    ("vermont_hardness", (75.0, 150.0, 300.0)),
)
HARDNESS_CLASSES: Final = ("soft", "moderate", "hard", "very_hard")
#: Hardness units: grains per US gallon (read), German and French degrees (from memory) [mg/L as CaCO3].
HARDNESS_UNITS: Final = {"mg_l": 1.0, "grain_us_gal": 17.1, "german": 17.8, "french": 10.0}
#: What to try by class, cheapest first (common practice, no source).
TRY: Final = {
    "soft": (),
    "moderate": ("stand_and_drain",),
    "hard": ("stand_and_drain", "rain_water_for_foam"),
    "very_hard": ("stand_and_drain", "rain_water_for_foam", "bottled_water_test", "more_concentrate", "other_agent"),
}


@frozen
class Heat:
    """One thing in the mix, as the heat balance sees it.

    Attributes
    ----------
    what : str
        ``cement``, ``water``, ``foam``, ``air`` or the kind of an addition [-]
    water_kg : float
        Water that holds as much heat [kg]
    celsius : float
        Its temperature [C]
    """

    what: str
    water_kg: float
    celsius: float


@frozen
class Tempered:
    """The temperature of a mix, and the water that would give another.

    Attributes
    ----------
    mix_c : float
        Mix with everything as stated [C]
    parts : tuple of Heat
        What it was worked out from [-]
    wanted_c : float
        Temperature wanted [C]
    water_c : float
        Water poured in that would give it; may lie outside what water can be [C]
    reachable : bool
        Whether water between 0 and 60 degrees C does [-]
    """

    mix_c: float
    parts: tuple[Heat, ...]
    wanted_c: float
    water_c: float
    reachable: bool


@frozen
class Hardness:
    """How hard water is by one source.

    Attributes
    ----------
    source : str
        Whose classes they are [-]
    word : str
        ``soft``, ``moderate``, ``hard`` or ``very_hard`` [-]
    attempts : tuple of str
        What to try, cheapest first: common practice, no source [-]
    """

    source: str
    word: str
    attempts: tuple[str, ...]


def mixed(parts: tuple[Heat, ...]) -> float:
    """Return the temperature that things come to when mixed, no heat lost.

    Source: heat balance of ACI 305R and ACI 306R, from memory: solids hold 0.22 of the heat of
    water; no ice in it.

    Parameters
    ----------
    parts : tuple of Heat
        What is mixed, holding some heat between them [-]

    Returns
    -------
    float
        Temperature [C]

    Raises
    ------
    ZeroDivisionError
        The parts hold no heat at all.

    Examples
    --------
    >>> round(mixed((Heat("cement", 0.22 * 100, 30.0), Heat("water", 50.0, 20.0))), 3)
    23.056
    """
    return sum(p.water_kg * p.celsius for p in parts) / sum(p.water_kg for p in parts)


def slurry_temperature(cement: float, cement_c: float, water: float, water_c: float) -> float:
    """Return the temperature of cement and water when mixed.

    Source: heat balance of ACI 305R and ACI 306R, from memory.

    Parameters
    ----------
    cement : float
        Cement, 0 or more [kg]
    cement_c : float
        Its temperature [C]
    water : float
        Water, above 0 [kg]
    water_c : float
        Its temperature [C]

    Returns
    -------
    float
        Temperature [C]

    Examples
    --------
    >>> round(slurry_temperature(100.0, 5.0, 50.0, 60.0), 3)
    43.194
    """
    return mixed((Heat("cement", SOLIDS * cement, cement_c), Heat("water", water, water_c)))


def water_for(parts: tuple[Heat, ...], wanted: float) -> float:
    """Return the temperature of the poured water that brings a mix to a temperature.

    Source: arithmetic (the heat balance turned round).

    Parameters
    ----------
    parts : tuple of Heat
        What is mixed; the one called ``water`` is turned [-]
    wanted : float
        Temperature wanted [C]

    Returns
    -------
    float
        Temperature of the water, whether or not water can be so [C]

    Raises
    ------
    ZeroDivisionError
        No water is poured in.

    Examples
    --------
    >>> round(water_for((Heat("cement", 0.22 * 100, 5.0), Heat("water", 50.0, 20.0)), 15.0), 1)
    19.4
    """
    water = sum(p.water_kg for p in parts if p.what == "water")
    others = sum(p.water_kg * (wanted - p.celsius) for p in parts if p.what != "water")
    return wanted + others / water


def parts_of(
    batch: MixResult | BlendResult,
    cement_c: float,
    water_c: float,
    air_c: float,
    foam_water_c: float | None = None,
    addition_c: float | None = None,
) -> tuple[Heat, ...]:
    """Return what a batch is mixed from, as the heat balance sees it.

    Source: ACI 305R and ACI 306R, from memory (0.22 for solids); air by its density and specific
    heat at 20 degrees C.

    Parameters
    ----------
    batch : MixResult or BlendResult
        The batch [-]
    cement_c : float
        Cement [C]
    water_c : float
        Water poured in [C]
    air_c : float
        Air that the generator draws [C]
    foam_water_c : float, optional
        Solution of the foam; as the water where none is stated [C]
    addition_c : float, optional
        Sand and the rest; as the air where none is stated [C]

    Returns
    -------
    tuple of Heat
        Cement, water, foam, air and additions [-]

    Examples
    --------
    >>> from foamwright.material.mix import solve
    >>> from foamwright.project.model import Mix
    >>> [(p.what, round(p.water_kg, 2)) for p in parts_of(solve(Mix())[0], 20.0, 15.0, 10.0)]
    [('cement', 9.38), ('water', 22.71), ('foam', 11.66), ('air', 0.03)]
    """
    mix = batch.mix if isinstance(batch, BlendResult) else batch
    parts = [
        Heat("cement", SOLIDS * mix.cement_kg, cement_c),
        Heat("water", mix.water_l, water_c),
        Heat("foam", mix.foam_mass_kg, water_c if foam_water_c is None else foam_water_c),
        Heat("air", AIR * mix.air_fraction * mix.yield_l, air_c),
    ]
    if isinstance(batch, BlendResult):
        at = air_c if addition_c is None else addition_c
        parts += [
            Heat(p.kind, SOLIDS * p.dry_kg + (p.batched_kg - p.dry_kg), at) for p in batch.portions
        ]
    return tuple(parts)


def temper(
    parts: tuple[Heat, ...], wanted: float
) -> tuple[Tempered | None, tuple[Problem, ...], tuple[Note, ...]]:
    """Return the temperature of a mix, and the water that would bring it to another.

    Source: heat balance of ACI 305R and ACI 306R, from memory; the bounds of the mix are those of
    ACI 305.1 and ACI 306R, Table 3.1, from memory, and made for dense concrete.

    Parameters
    ----------
    parts : tuple of Heat
        What is mixed, each at -40 to 100 degrees C [-]
    wanted : float
        Temperature wanted [C]

    Returns
    -------
    tuple of (Tempered or None, tuple of Problem, tuple of Note)
        The temperatures, absent where a stated one cannot be [-]

    Examples
    --------
    >>> one = temper((Heat("cement", 22.0, 5.0), Heat("water", 50.0, 8.0)), 15.0)
    >>> round(one[0].mix_c, 2), round(one[0].water_c, 1), [n.code for n in one[2]]
    (7.08, 19.4, ['mix_cold'])
    """
    problems = [
        problem
        for name, value in (*((p.what, p.celsius) for p in parts), ("wanted", wanted))
        for problem in _outside(f"temper.{name}_c", value)
    ]
    water = sum(p.water_kg for p in parts if p.what == "water")
    if not water > 0:
        problems.append(Problem("temper.water_l", water, 0.0, "too_small"))
    if problems:
        return None, tuple(problems), ()
    mix_c, water_c = mixed(parts), water_for(parts, wanted)
    notes: list[Note] = []
    params: dict[str, Scalar] = {"water_c": water_c, "wanted_c": wanted}
    if water_c < 0:
        notes.append(Note("ice_needed", "caution", "temper.wanted_c", params, "arithmetic"))
    if water_c > HOTTEST_WATER:
        params = {**params, "limit": HOTTEST_WATER}
        notes.append(Note("water_too_hot", "caution", "temper.wanted_c", params, "aci_306r_water"))
    notes += _mix_notes(mix_c)
    return Tempered(mix_c, parts, wanted, water_c, 0 <= water_c <= HOTTEST_WATER), (), tuple(notes)


def _outside(path: str, value: float) -> list[Problem]:
    if not math.isfinite(value):
        return [Problem(path, None, None, "not_finite")]
    if value < RANGE[0]:
        return [Problem(path, value, RANGE[0], "too_small")]
    return [Problem(path, value, RANGE[1], "too_big")] if value > RANGE[1] else []


def _mix_notes(mix_c: float) -> list[Note]:
    if mix_c > HOT:
        return [Note("mix_hot", "caution", "temper", {"value": mix_c, "limit": HOT}, "aci_305_1")]
    if mix_c < COLD:
        severity: Severity = "warning" if mix_c < 5 else "caution"
        return [Note("mix_cold", severity, "temper", {"value": mix_c, "limit": COLD}, "aci_306r_placed")]
    return []


def weather(
    air_c: float, night_c: float, mix_c: float | None = None
) -> tuple[tuple[Problem, ...], tuple[Note, ...]]:
    """Say what heat and cold ask for today and tonight.

    Source: ACI 305.1 (35 degrees C at discharge), ACI 306R, Table 3.1 (13 degrees C as placed) and
    ACI 306R-16 (air at or below 4 degrees C), all from memory and made for dense concrete; that
    fresh foamed concrete must not freeze is common practice, no source.

    Parameters
    ----------
    air_c : float
        Air now [C]
    night_c : float
        Coldest expected before it may be touched [C]
    mix_c : float, optional
        Mix [C]

    Returns
    -------
    tuple of (tuple of Problem, tuple of Note)
        What is wrong with the readings; what to heed [-]

    Examples
    --------
    >>> [note.code for note in weather(8.0, -2.0, 12.0)[1]]
    ['mix_cold', 'air_cold', 'night_freezes']
    """
    stated: list[tuple[str, float]] = [("air", air_c), ("night", night_c)]
    if mix_c is not None:
        stated.append(("mix", mix_c))
    problems = [p for name, value in stated for p in _outside(f"temper.{name}_c", value)]
    if problems:
        return tuple(problems), ()
    notes = _mix_notes(mix_c) if mix_c is not None else []
    coldest = min(air_c, night_c)
    if coldest <= COLD_AIR:
        params: dict[str, Scalar] = {"value": coldest, "limit": COLD_AIR}
        notes.append(Note("air_cold", "caution", "temper.air_c", params, "aci_306r_air"))
    if coldest <= 0:
        params = {"value": coldest, "limit": 0.0}
        notes.append(Note("night_freezes", "warning", "temper.night_c", params, "practice_no_frost"))
    return (), tuple(notes)


def evaporation(concrete_c: float, air_c: float, humidity: float, wind: float) -> float:
    """Return how fast a wet surface dries.

    Source: Uno, "Plastic shrinkage cracking and evaporation formulas", ACI Materials Journal 95
    (1998), no. 95-M34, from the nomograph of ACI 305R after Menzel:
    ``5 ((Tc + 18)^2.5 - r (Ta + 18)^2.5) (V + 4) 1e-6``, V in km/h, read as quoted. Made for bleeding
    dense concrete. From 15 to 38 degrees C it stays near ``menzel``; in the cold it reads low, by a
    quarter at 5. Temperatures below -18 degrees C count as -18.

    Parameters
    ----------
    concrete_c : float
        Surface [C]
    air_c : float
        Air [C]
    humidity : float
        Relative humidity, 0 to 1 [-]
    wind : float
        Wind half a metre above the surface, 0 or more [m/s]

    Returns
    -------
    float
        Evaporation, 0 where dew would fall [kg/(m2 h)]

    Examples
    --------
    >>> round(evaporation(30.0, 30.0, 0.5, 5.0), 2)
    0.88
    """
    surface, air = max(concrete_c + 18, 0.0), max(air_c + 18, 0.0)
    pull = math.pow(surface, 2.5) - humidity * math.pow(air, 2.5)
    return max(5e-6 * pull * (wind * 3.6 + 4), 0.0)


def menzel(concrete_c: float, air_c: float, humidity: float, wind: float) -> float:
    """Return how fast a wet surface dries, by vapour pressures.

    Source: Menzel 1954 as Uno 1998 (ACI Materials Journal 95) gives it, from memory:
    ``0.315 (e0 - r ea) (0.253 + 0.060 V)``, kPa and km/h; vapour pressure by Magnus
    (WMO-No. 8, from memory). The second opinion beside ``evaporation``.

    Parameters
    ----------
    concrete_c : float
        Surface, above -200 [C]
    air_c : float
        Air, above -200 [C]
    humidity : float
        Relative humidity, 0 to 1 [-]
    wind : float
        Wind half a metre above the surface, 0 or more [m/s]

    Returns
    -------
    float
        Evaporation, 0 where dew would fall [kg/(m2 h)]

    Examples
    --------
    >>> round(menzel(30.0, 30.0, 0.5, 5.0), 2)
    0.89
    """
    pull = _vapour_kpa(concrete_c) - humidity * _vapour_kpa(air_c)
    return max(0.315 * pull * (0.253 + 0.060 * wind * 3.6), 0.0)


def _vapour_kpa(celsius: float) -> float:
    return 0.6112 * math.exp(17.62 * celsius / (243.12 + celsius))


def drying_wind(
    concrete_c: float, air_c: float, humidity: float, wind: float
) -> tuple[tuple[Row, ...], tuple[Problem, ...], tuple[Note, ...]]:
    """Return the evaporation by both formulas, and whether precautions are asked for.

    Source: Uno 1998 and Menzel 1954 (see ``evaporation`` and ``menzel``); 1.0 kg/(m2 h) by ACI 305R.

    Parameters
    ----------
    concrete_c : float
        Surface, -40 to 100 [C]
    air_c : float
        Air, -40 to 100 [C]
    humidity : float
        Relative humidity, 0 to 1 [-]
    wind : float
        Wind, 0 to 60 [m/s]

    Returns
    -------
    tuple of (tuple of Row, tuple of Problem, tuple of Note)
        A row by each formula, none where a reading cannot be [-]

    Examples
    --------
    >>> rows, _, notes = drying_wind(35.0, 32.0, 0.3, 7.0)
    >>> [round(r.low, 2) for r in rows], notes[0].code
    ([2.21, 2.33], 'evaporation_high')
    """
    problems = [*_outside("temper.mix_c", concrete_c), *_outside("temper.air_c", air_c)]
    for name, value, high in (("humidity", humidity, 1.0), ("wind_m_s", wind, 60.0)):
        if not math.isfinite(value):
            problems.append(Problem(f"temper.{name}", None, None, "not_finite"))
        elif value < 0:
            problems.append(Problem(f"temper.{name}", value, 0.0, "too_small"))
        elif value > high:
            problems.append(Problem(f"temper.{name}", value, high, "too_big"))
    if problems:
        return (), tuple(problems), ()
    uno = evaporation(concrete_c, air_c, humidity, wind)
    other = menzel(concrete_c, air_c, humidity, wind)
    rows = (
        Row("evaporation_kg_m2_h", uno, uno, "uno_1998"),
        Row("evaporation_kg_m2_h", other, other, "menzel_1954"),
    )
    notes: tuple[Note, ...] = ()
    if max(uno, other) >= EVAPORATION:
        params: dict[str, Scalar] = {"value": max(uno, other), "limit": EVAPORATION}
        notes = (Note("evaporation_high", "caution", "temper.wind_m_s", params, "aci_305r_evaporation"),)
    return rows, (), notes


def hardness(
    value: float, unit: Literal["mg_l", "grain_us_gal", "german", "french"] = "mg_l"
) -> tuple[tuple[Hardness, ...], tuple[Problem, ...], tuple[Note, ...]]:
    """Return how hard water is, by each source, and what to try.

    Source: classes of the US Geological Survey and of the Vermont Department of Health; no published
    figure says which hardness foam bears, so what to try is common practice, no source.

    Parameters
    ----------
    value : float
        Hardness as read, 0 or more [unit of ``unit``]
    unit : str
        ``mg_l`` (as CaCO3), ``grain_us_gal``, ``german`` or ``french`` degrees [-]

    Returns
    -------
    tuple of (tuple of Hardness, tuple of Problem, tuple of Note)
        A class by each source, none where the reading cannot be [-]

    Examples
    --------
    >>> [(h.source, h.word) for h in hardness(130.0)[0]]
    [('usgs_hardness', 'hard'), ('vermont_hardness', 'moderate')]
    >>> hardness(10.0, "grain_us_gal")[0][0].word
    'hard'
    """
    if not math.isfinite(value):
        return (), (Problem("temper.hardness", None, None, "not_finite"),), ()
    if value < 0:
        return (), (Problem("temper.hardness", value, 0.0, "too_small"),), ()
    milligrams = value * HARDNESS_UNITS[unit]
    found = []
    for source, limits in HARDNESS:
        word = HARDNESS_CLASSES[sum(milligrams > limit for limit in limits)]
        found.append(Hardness(source, word, TRY[word]))
    notes: tuple[Note, ...] = ()
    if len({h.word for h in found}) > 1:
        params: dict[str, Scalar] = {"value": milligrams, **{h.source: h.word for h in found}}
        notes = (Note("hardness_classes_differ", "info", "temper.hardness", params, "arithmetic"),)
    return tuple(found), (), notes
