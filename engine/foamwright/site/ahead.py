"""What lies ahead of a batch: what to expect of it, what the weather asks for, when it may be touched, how it dries."""

from typing import Final

from attrs import evolve, frozen

from foamwright.finishes import Need
from foamwright.material.blend import Addition, BlendResult, Portion
from foamwright.material.core import Core, core
from foamwright.material.drying import Drying, Weight, dry, weights
from foamwright.material.expect import expect
from foamwright.material.row import Row
from foamwright.material.strength import Stage, ages, developed, seven_days, touch
from foamwright.material.strength import S as SLOWNESS
from foamwright.material.temper import Hardness, drying_wind, hardness, mixed, parts_of, temper, weather
from foamwright.material.wish import Wish, heaviest, lightest
from foamwright.project.model import Aggregate, Market, Mix, Project
from foamwright.project.notes import Note
from foamwright.site.batches import Batches

#: Temperature that ages are stated for where none was measured [C].
REFERENCE: Final = 20.0
#: Ages at which the share of the strength is told [d].
AGES: Final = (1, 3, 7, 14, 28)
#: Class of hardening by the strength class on the bag (EN 1992-1-1:2004, 3.1.2(6), from memory).
_BY_CLASS: Final = {
    "32.5N": "slow", "32.5R": "normal", "42.5N": "normal", "42.5R": "rapid", "52.5N": "rapid", "52.5R": "rapid",
}  # fmt: skip
#: The same by the type where the class is not stated (common practice, no source).
_BY_TYPE: Final = {
    "astm_iii": "rapid", "cem_iii_a": "slow", "cem_iii_b": "slow", "cem_iv": "slow", "cem_v": "slow", "astm_is": "slow", "astm_ip": "slow",
}  # fmt: skip
#: Where notes of the rooms lead in the form.
_PATHS: Final = {
    "temper": "weather.water_c",
    "temper.wanted_c": "weather.mix_wanted_c",
    "temper.air_c": "weather.air_c",
    "temper.night_c": "weather.night_c",
    "temper.wind_m_s": "weather.wind_m_s",
    "temper.hardness": "weather.hardness",
}


@frozen
class Ahead:
    """What lies ahead of a batch.

    Attributes
    ----------
    portions : tuple of Portion
        Additions of one batch as the recipe states it [-]
    expected : tuple of Row
        What is published of its densities [-]
    expected_notes : tuple of Note
        What must be said beside it [-]
    strength : Wish or None
        Densities that reach the strength wanted [-]
    conductivity : Wish or None
        Densities that stay below the conductivity wanted [-]
    mix_c : float or None
        Temperature of the fresh mix; absent where air or water was not measured [C]
    water_for_c : float or None
        Temperature of the water that brings the mix to the one wanted [C]
    evaporation : tuple of Row
        Evaporation by each formula, none where air, humidity or wind was not measured [-]
    hardness : tuple of Hardness
        Hardness of the water by each source, none where it was not measured [-]
    hardening : str
        ``rapid``, ``normal`` or ``slow`` [-]
    concrete_c : float
        Temperature that ages are told for: that of the air, with the night where both are known, else 20 [C]
    stages : tuple of Stage
        When it may be touched, none where it stands still in the cold [-]
    shares : tuple of Row
        Share of the 28-day strength at the ages told, least and most of all ways [-]
    seven_days : tuple of Row
        Share at seven days and 20 degrees C by each source [-]
    seven_notes : tuple of Note
        What must be said beside it [-]
    thickness_m : float or None
        Greatest thickness that dries; absent where no part has one [m]
    drying : Drying or None
        Water of all foamed concrete in place, and where it goes [-]
    weights : tuple of Weight
        What a block weighs as it dries, none where no block is made [-]
    """

    portions: tuple[Portion, ...]
    expected: tuple[Row, ...]
    expected_notes: tuple[Note, ...]
    strength: Wish | None
    conductivity: Wish | None
    mix_c: float | None
    water_for_c: float | None
    evaporation: tuple[Row, ...]
    hardness: tuple[Hardness, ...]
    hardening: str
    concrete_c: float
    stages: tuple[Stage, ...]
    shares: tuple[Row, ...]
    seven_days: tuple[Row, ...]
    seven_notes: tuple[Note, ...]
    thickness_m: float | None
    drying: Drying | None
    weights: tuple[Weight, ...]


def additions_of(mix: Mix) -> tuple[Addition, ...]:
    """Return the additions of a recipe as a batch takes them; those of which nothing goes in are left out.

    Source: arithmetic.

    Parameters
    ----------
    mix : Mix
        The recipe [-]

    Returns
    -------
    tuple of Addition
        Additions in the order stated [-]

    Examples
    --------
    >>> from foamwright.project import model
    >>> additions_of(Mix(additions=(model.Addition(kg_per_kg=0.5), model.Addition("lime"))))[0].amount
    0.5
    """
    found = []
    for item in mix.additions:
        amount = item.kg_per_kg if item.per == "cement" else item.kg_per_m3
        if amount > 0:
            found.append(
                Addition(item.kind, amount, item.per, item.moisture_fraction, item.absorption_fraction, item.grain_kg_m3)
            )
    return tuple(found)


def hardening(market: Market) -> str:
    """Return how fast the cement of a market hardens.

    Source: EN 1992-1-1:2004, 3.1.2(6), by strength class (from memory); by type where the class is
    not stated: common practice, no source.

    Parameters
    ----------
    market : Market
        Type and class of the cement [-]

    Returns
    -------
    str
        ``rapid``, ``normal`` or ``slow`` [-]

    Examples
    --------
    >>> hardening(Market()), hardening(Market(strength_class="32.5N"))
    ('normal', 'slow')
    """
    return _BY_CLASS.get(market.strength_class) or _BY_TYPE.get(market.cement_type, "normal")


def addition_needs(batches: Batches, blend: BlendResult, aggregate: Aggregate) -> tuple[Need, ...]:
    """Return what is bought of the additions for the whole job, waste counted.

    Source: arithmetic; sand and lime by the litre as loose as the builder weighed them.

    Parameters
    ----------
    batches : Batches
        The planned batches [-]
    blend : BlendResult
        The batch with its additions [-]
    aggregate : Aggregate
        What a cubic metre of loose sand and lime weighs [-]

    Returns
    -------
    tuple of Need
        One for each kind, as it is weighed, damp [-]

    Examples
    --------
    >>> from foamwright.estimate import estimate
    >>> from foamwright.material.blend import solve
    >>> found = solve(Mix(), (Addition("sand", 1.0),))[0]
    >>> made = estimate(Project()).estimate.batches
    >>> need = addition_needs(made, found, Aggregate())[0]
    >>> round(need.kilograms / made.cement_kg, 6), round(need.kilograms / need.litres, 6)
    (1.0, 1.6)
    """
    times = batches.cement_kg / blend.mix.cement_kg
    loose = {"sand": aggregate.sand_bulk_kg_m3, "lime": aggregate.lime_bulk_kg_m3}
    totals: dict[str, float] = {}
    for portion in blend.portions:
        totals[portion.kind] = totals.get(portion.kind, 0.0) + portion.batched_kg * times
    return tuple(
        Need(kind, kilograms=mass, litres=mass / loose[kind] * 1000 if kind in loose else None) for kind, mass in totals.items()
    )


def _thickness(project: Project, places: tuple[int, ...]) -> float | None:
    """Give the greatest thickness that dries through its faces."""
    found = [
        project.parts[i].fill.depth_m if project.parts[i].shape == "fill" else project.parts[i].thickness_m
        for i in places
        if project.parts[i].shape != "fill" or project.parts[i].fill.kind == "layer"
    ]
    return max(found) if found else None


def look_ahead(
    project: Project, blend: BlendResult, volume: float, block_mass: float, places: tuple[int, ...]
) -> tuple[Ahead, tuple[Note, ...]]:
    """Return what lies ahead of a batch, as far as it was measured what that follows from.

    Source: each room its own; what nobody measured is not guessed, save that ages are told for 20
    degrees C where the air is not known.

    Parameters
    ----------
    project : Project
        The project [-]
    blend : BlendResult
        The batch [-]
    volume : float
        Foamed concrete in place, above 0 [m3]
    block_mass : float
        A fresh block; 0 where none is made [kg]
    places : tuple of int
        Places of the parts that are built [-]

    Returns
    -------
    tuple of (Ahead, tuple of Note)
        What lies ahead; what the weather and the wishes ask to be told [-]

    Examples
    --------
    >>> from foamwright.material.blend import solve
    >>> ahead, notes = look_ahead(Project(), solve(Mix())[0], 9.0, 14.5, (0,))
    >>> round(ahead.drying.cast_kg), [s.stage for s in ahead.stages], notes
    (1946, ['demould', 'handle', 'build_on', 'load'], ())
    """
    mix, sky = blend.mix, project.weather
    notes: list[Note] = []
    expected, expected_notes = expect(mix.wet_density_kg_m3, mix.oven_dry_density_kg_m3)
    strength = conductivity = None
    if project.wish.strength_mpa is not None:
        strength, _, said = lightest(project.wish.strength_mpa)
        notes += [evolve(note, path="wish.strength_mpa") for note in said]
    if project.wish.conductivity_w_mk is not None:
        conductivity, _, said = heaviest(project.wish.conductivity_w_mk)
        notes += [evolve(note, path="wish.conductivity_w_mk") for note in said]
    mix_c = water_for_c = None
    if sky.air_c is not None and sky.water_c is not None:
        parts = parts_of(blend, sky.air_c if sky.cement_c is None else sky.cement_c, sky.water_c, sky.air_c)
        mix_c = mixed(parts)
        if sky.mix_wanted_c is not None:
            tempered, _, said = temper(parts, sky.mix_wanted_c)
            water_for_c = tempered.water_c if tempered else None
            notes += [note for note in said if note.code in ("ice_needed", "water_too_hot")]
    evaporation: tuple[Row, ...] = ()
    if sky.air_c is not None:
        notes += weather(sky.air_c, sky.air_c if sky.night_c is None else sky.night_c, mix_c)[1]
        if sky.humidity_fraction is not None and sky.wind_m_s is not None:
            surface = sky.air_c if mix_c is None else mix_c
            evaporation, _, said = drying_wind(surface, sky.air_c, sky.humidity_fraction, sky.wind_m_s)
            notes += said
    elif sky.night_c is not None:
        # Without the air of the day only what the night asks for is said.
        notes += weather(sky.night_c, sky.night_c)[1]
    water: tuple[Hardness, ...] = ()
    if sky.hardness is not None:
        water, _, said = hardness(sky.hardness, sky.hardness_unit)  # type: ignore[arg-type]
        notes += said
    pace = hardening(project.market)
    felt = [value for value in (sky.air_c, sky.night_c) if value is not None]
    concrete_c = sum(felt) / len(felt) if felt else REFERENCE
    shares = []
    for days in AGES:
        age = ages(((days * 24.0, concrete_c),))[0]
        assert age is not None
        ways = developed(age, SLOWNESS[pace])
        shares.append(Row("share_of_28_days", min(w.low for w in ways), max(w.high for w in ways), "en_1992_3_2"))
    sevens, seven_notes = seven_days()
    thickness = _thickness(project, places)
    drying = dry(blend, volume, thickness)[0] if thickness is not None else None
    block = weights(blend, block_mass / mix.wet_density_kg_m3)[0] if block_mass > 0 else ()
    ahead = Ahead(
        blend.portions,
        expected,
        expected_notes,
        strength,
        conductivity,
        mix_c,
        water_for_c,
        evaporation,
        water,
        pace,
        concrete_c,
        touch(concrete_c, pace)[0],
        tuple(shares),
        sevens,
        seven_notes,
        thickness,
        drying,
        block,
    )
    return ahead, tuple(evolve(note, path=_PATHS.get(note.path, note.path)) for note in notes)


def middle(
    project: Project, blend: BlendResult, ahead: Ahead, least: float
) -> tuple[Core | None, tuple[Note, ...]]:
    """Return how hot the middle of a block or pour gets in the weather that was measured.

    Source: as ``material.core.core``; slow cements with most of their clinker replaced by slag are
    taken as of low heat.

    Parameters
    ----------
    project : Project
        The project [-]
    blend : BlendResult
        The batch [-]
    ahead : Ahead
        What lies ahead of it [-]
    least : float
        Least measure of the block or pour, 0.01 to 5 [m]

    Returns
    -------
    tuple of (Core or None, tuple of Note)
        The range, absent where it cannot be told [-]

    Examples
    --------
    >>> from foamwright.material.blend import solve
    >>> batch = solve(Mix())[0]
    >>> ahead = look_ahead(Project(), batch, 9.0, 14.5, (0,))[0]
    >>> found = middle(Project(), batch, ahead, 0.2)[0]
    >>> found.peak_low_c < found.peak_high_c
    True
    """
    air = project.weather.air_c if project.weather.air_c is not None else REFERENCE
    kind = "low_heat" if project.market.cement_type == "cem_iii_b" else ahead.hardening
    fresh = min(max(air if ahead.mix_c is None else ahead.mix_c, -10.0), 60.0)
    found, _, notes = core(blend, least, fresh, air, kind)
    return found, notes
