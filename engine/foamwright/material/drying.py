"""How much water has to leave, how long that takes, and what a block weighs on the way."""

import math
from typing import Final

from attrs import frozen

from foamwright.material.blend import BlendResult
from foamwright.material.density import HYDRATED, WATER
from foamwright.material.expect import IN_USE
from foamwright.material.mix import MixResult
from foamwright.material.row import Row
from foamwright.project.notes import Note, Problem, Scalar

#: Water that cement binds for good over its mass: a fifth by ASTM C869-91 (R1999), footnote A; a
#: quarter where it hydrates nearly wholly (Powers, from memory) [-].
BOUND: Final = (HYDRATED - 1, 0.25)
#: Days to dry over the square of the thickness in centimetres, a wall open to both sides, of aerated to
#: dense concrete (Cadiergues, as handbooks of the 1950s quote him, from memory, not found again) [d/cm2].
DRYING: Final = (1.2, 1.6)
#: Moisture by mass of the oven-dry block at which the trade goes on (common practice, no source) [-].
STEPS: Final[dict[str, tuple[float, float]]] = {
    "lay": (0.20, 0.35),
    "skin": (0.10, 0.15),
    "seal": (0.04, 0.06),
}


@frozen
class Drying:
    """Water of a shell or block, and where it goes.

    Attributes
    ----------
    cast_kg : float
        All water at casting, that in the foam included [kg]
    bound_low_kg : float
        Bound by the cement, least [kg]
    bound_high_kg : float
        The same, most [kg]
    kept_low_kg : float
        Stays as moisture in use, least [kg]
    kept_high_kg : float
        The same, most [kg]
    lose_low_kg : float
        To lose until in use, least [kg]
    lose_high_kg : float
        The same, most: all that is not bound, to oven-dry at the least moisture [kg]
    days_low : float
        Days until in use, least [d]
    days_high : float
        The same, most [d]
    """

    cast_kg: float
    bound_low_kg: float
    bound_high_kg: float
    kept_low_kg: float
    kept_high_kg: float
    lose_low_kg: float
    lose_high_kg: float
    days_low: float
    days_high: float


@frozen
class Weight:
    """What a block weighs at a stage of drying.

    Attributes
    ----------
    stage : str
        ``cast``, ``lay``, ``skin``, ``seal``, ``in_use`` or ``oven_dry`` [-]
    low_kg : float
        Least [kg]
    high_kg : float
        Most [kg]
    source : str
        Source of the moisture [-]
    """

    stage: str
    low_kg: float
    high_kg: float
    source: str


def _limits(*named: tuple[str, float, float]) -> list[Problem]:
    problems = []
    for name, value, high in named:
        path = f"drying.{name}"
        if not math.isfinite(value):
            problems.append(Problem(path, None, None, "not_finite"))
        elif value <= 0:
            problems.append(Problem(path, value, 0.0, "too_small"))
        elif value > high:
            problems.append(Problem(path, value, high, "too_big"))
    return problems


def _plain(batch: MixResult | BlendResult) -> tuple[MixResult, float]:
    """Give the batch and the water in it that saturated grains hold [kg]."""
    if isinstance(batch, BlendResult):
        held = sum(p.batched_kg - p.dry_kg - p.free_water_l * WATER / 1000 for p in batch.portions)
        return batch.mix, held
    return batch, 0.0


def drying_days(thickness: float, sides: int = 2) -> tuple[float, float]:
    """Return how long concrete of a thickness takes to dry until in use.

    Source: time by the square of the thickness is diffusion; 1.2 to 1.6 days per square centimetre
    of a wall that dries to both sides is Cadiergues's for aerated to dense concrete, from memory and
    not found again. Of a first drying in fair weather; light foamed concrete was not measured.

    Parameters
    ----------
    thickness : float
        Thickness, 0 or more [m]
    sides : int
        Sides that dry, 1 or 2 [-]

    Returns
    -------
    tuple of (float, float)
        Least and most [d]

    Examples
    --------
    >>> [round(d) for d in drying_days(0.10)], [round(d) for d in drying_days(0.10, 1)]
    ([120, 160], [480, 640])
    """
    square = (thickness * 100 * (2 if sides == 1 else 1)) ** 2
    return DRYING[0] * square, DRYING[1] * square


def dry(
    batch: MixResult | BlendResult, volume: float, thickness: float, sides: int = 2
) -> tuple[Drying | None, tuple[Problem, ...], tuple[Note, ...]]:
    """Return the water that a shell or block has to lose, and a range of time for it.

    Source: arithmetic; water bound is 0.20 of the cement (ASTM C869-91 (R1999), footnote A) to 0.25
    (Powers, from memory); moisture in use 2.6 to 4.5 % by mass (ISO 10456:2007, Table 4, aerated
    concrete, from memory); time as ``drying_days``.

    Parameters
    ----------
    batch : MixResult or BlendResult
        The batch [-]
    volume : float
        Foamed concrete in place, above 0, up to 1e5 [m3]
    thickness : float
        Its thickness, above 0, up to 5 [m]
    sides : int
        Sides that dry, 1 or 2 [-]

    Returns
    -------
    tuple of (Drying or None, tuple of Problem, tuple of Note)
        Water and time, absent where something stated cannot be [-]

    Examples
    --------
    >>> from foamwright.material.mix import solve
    >>> from foamwright.project.model import Mix
    >>> one = dry(solve(Mix())[0], 9.0, 0.15)[0]
    >>> round(one.cast_kg), round(one.lose_low_kg), round(one.lose_high_kg)
    (1946, 1212, 1388)
    """
    problems = _limits(("volume_m3", volume, 1e5), ("thickness_m", thickness, 5.0))
    if sides not in (1, 2):
        problems.append(Problem("drying.sides", sides, "1,2", "not_a_choice"))
    if problems:
        return None, tuple(problems), ()
    mix, held = _plain(batch)
    times = volume * 1000 / mix.yield_l
    cast = (mix.total_water_cement_ratio * mix.cement_kg + held) * times
    # No more is bound than is there.
    bound = [min(share * mix.cement_kg * times, cast) for share in BOUND]
    dry_mass = mix.oven_dry_density_kg_m3 * volume
    kept = [min(u * dry_mass, cast - bound[1]) for u in IN_USE]
    days = drying_days(thickness, sides)
    result = Drying(
        cast,
        bound[0],
        bound[1],
        kept[0],
        kept[1],
        max(cast - bound[1] - kept[1], 0.0),
        max(cast - bound[0] - kept[0], 0.0),
        days[0],
        days[1],
    )
    params: dict[str, Scalar] = {"low": days[0], "high": days[1], "thickness_m": thickness}
    return result, (), (Note("drying_rough", "caution", "drying", params, "cadiergues"),)


def weights(
    batch: MixResult | BlendResult, volume: float
) -> tuple[tuple[Weight, ...], tuple[Problem, ...]]:
    """Return what a block weighs when cast, to be laid, skinned and sealed, in use and oven-dry.

    Source: arithmetic; oven-dry by ASTM C869-91 (R1999), footnote A; moisture to lay, skin and seal
    is common practice, no source; in use ISO 10456:2007, Table 4, aerated concrete, from memory. A
    block weighs no more than when it was cast.

    Parameters
    ----------
    batch : MixResult or BlendResult
        The batch [-]
    volume : float
        Volume of the block, above 0, up to 1e5 [m3]

    Returns
    -------
    tuple of (tuple of Weight, tuple of Problem)
        Stages from wet to dry, none where the volume cannot be [-]

    Examples
    --------
    >>> from foamwright.material.mix import solve
    >>> from foamwright.project.model import Mix
    >>> [(w.stage, round(w.low_kg, 1)) for w in weights(solve(Mix())[0], 0.03)[0]]
    [('cast', 14.5), ('lay', 11.6), ('skin', 10.6), ('seal', 10.0), ('in_use', 9.9), ('oven_dry', 9.7)]
    """
    problems = _limits(("volume_m3", volume, 1e5))
    if problems:
        return (), tuple(problems)
    mix, _ = _plain(batch)
    cast, oven = mix.wet_density_kg_m3 * volume, mix.oven_dry_density_kg_m3 * volume
    found = [Weight("cast", cast, cast, "arithmetic")]
    for stage, (low, high) in STEPS.items():
        ends = [min(oven * (1 + u), cast) for u in (low, high)]
        found.append(Weight(stage, ends[0], ends[1], "practice_moisture_steps"))
    found.append(Weight("in_use", oven * (1 + IN_USE[0]), oven * (1 + IN_USE[1]), "iso_10456"))
    found.append(Weight("oven_dry", oven, oven, "astm_c869"))
    return tuple(found), ()


def time_left(
    batch: MixResult | BlendResult, volume: float, weighed: float
) -> tuple[tuple[Row, ...], tuple[Problem, ...]]:
    """Return the moisture of a block that was weighed, and what it may yet lose.

    Source: arithmetic; oven-dry by ASTM C869-91 (R1999), footnote A, and a quarter of the cement bound
    (Powers, from memory).

    Parameters
    ----------
    batch : MixResult or BlendResult
        The batch [-]
    volume : float
        Volume of the block, above 0, up to 1e5 [m3]
    weighed : float
        Block on the scales, above 0 [kg]

    Returns
    -------
    tuple of (tuple of Row, tuple of Problem)
        Moisture by mass and water to lose until in use, none where a reading cannot be; a moisture below 0 says that block and mix are not the same [-]

    Examples
    --------
    >>> from foamwright.material.mix import solve
    >>> from foamwright.project.model import Mix
    >>> [round(r.high, 2) for r in time_left(solve(Mix())[0], 0.03, 12.0)[0]]
    [0.24, 2.09]
    """
    problems = _limits(("volume_m3", volume, 1e5), ("weighed_kg", weighed, 1e8))
    if problems:
        return (), tuple(problems)
    mix, _ = _plain(batch)
    cement = mix.cement_kg / mix.yield_l * 1000 * volume
    oven = float(mix.oven_dry_density_kg_m3) * volume
    ovens = (oven, oven + (BOUND[1] - BOUND[0]) * cement)
    moist = [weighed / each - 1 for each in ovens]
    lose = [max(weighed - each * (1 + u), 0.0) for each, u in zip(ovens, IN_USE, strict=True)]
    return (
        (
            Row("moisture_by_mass", moist[1], moist[0], "astm_c869", "oven_dry"),
            Row("water_to_lose_kg", lose[1], lose[0], "iso_10456", "in_use"),
        ),
        (),
    )
