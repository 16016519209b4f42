"""The batch on the scales: what it weighs, what puts it right, and when nothing does.

A bucket of fresh foamed concrete says whether there is enough foam in it. Whether the foam is good
it cannot say, and slurry does not cure bad foam: a batch whose height falls is not corrected.
"""

import math
from typing import Final

from attrs import frozen

from foamwright.material.density import FoamDensity, WetDensity
from foamwright.material.foam import wet_density_at
from foamwright.material.mix import MixResult
from foamwright.project.notes import Note, Problem, Scalar

#: How far the wet density may be off and still be poured (common practice, no source) [-].
WITHIN: Final = 0.05
#: Minutes after foaming up to which a batch is still put right (common practice, no source) [min].
LATEST_MIN: Final = 20.0
#: A correction greater than this share of the batch is a mix gone wrong (common practice, no source) [-].
LARGE: Final = 0.25
#: Height lost after an hour that bleeding and settling explain (common practice, no source) [-].
SETTLED: Final = 0.01
#: Most air that the standard batch may lose in pumping (ASTM C869-91 (R1999), Table 1) [-].
AIR_LOSS: Final = 0.045
#: What a reading may have been mistaken for: the figure as typed is so many times what was meant.
SLIPS: Final = {
    "ounces": 1 / 0.028349523125,
    "pounds": 1 / 0.45359237,
    "grams": 1000.0,
    "ten_times": 10.0,
    "a_tenth": 0.1,
}
#: A slip is thought of where it brings the reading so near the target (common practice, no source) [-].
SLIP_WITHIN: Final = 0.15
#: Coverage factor of the uncertainties (JCGM 100:2008, 6.2) [-].
COVERAGE: Final = 2.0


@frozen
class WetReading:
    """A bucket of fresh foamed concrete as weighed.

    Attributes
    ----------
    net_kg : float
        Gross less empty [kg]
    density_kg_m3 : WetDensity
        Wet density [kg/m3]
    uncertainty_kg_m3 : float
        Expanded uncertainty of it, coverage factor 2 [kg/m3]
    """

    net_kg: float
    density_kg_m3: WetDensity
    uncertainty_kg_m3: float


@frozen
class Doubt:
    """What a strange reading may have been.

    Attributes
    ----------
    slip : str
        ``ounces``, ``pounds`` or ``grams`` typed as kilograms, ``ten_times``, ``a_tenth`` or ``empty_taken_off_twice`` [-]
    density_kg_m3 : WetDensity
        Wet density if it was that [kg/m3]
    """

    slip: str
    density_kg_m3: WetDensity


@frozen
class Drum:
    """The batch as it stands in the drum.

    Attributes
    ----------
    litres : float or None
        How much is in it; none where it is taken from the batch's mass and the reading [L]
    usable_l : float
        How much it holds with room to stir [L]
    minutes : float
        Since the foam went in [min]
    falling : bool
        Whether its height is seen to fall [-]
    foam_ok : bool
        Whether the foam of this batch was on its weight and stood [-]
    """

    litres: float | None = None
    usable_l: float = 200.0
    minutes: float = 0.0
    falling: bool = False
    foam_ok: bool = True


@frozen
class Correction:
    """What puts a batch right.

    Attributes
    ----------
    verdict : str
        ``pour``, ``fold_in_foam``, ``add_slurry``, ``weigh_again`` or ``do_not_pour`` [-]
    reason : str
        Code of the reason, where it is not the weight [-]
    wet_density_kg_m3 : WetDensity
        As read [kg/m3]
    target_kg_m3 : WetDensity
        As wanted [kg/m3]
    off : float
        How far it is off, over the target; heavy is above 0 [-]
    in_drum_l : float
        What is in the drum [L]
    yield_l : float
        What the batch makes at the density read, by its mass [L]
    yield_off : float
        That over the planned yield, less 1 [-]
    foam_l : float
        Foam to fold in [L]
    slurry_l : float
        Slurry to add [L]
    slurry_kg : float
        The same [kg]
    slurry_cement_kg : float
        Cement in it [kg]
    slurry_water_l : float
        Water in it [L]
    add_low_l : float
        Least to add, by the uncertainty of the reading [L]
    add_high_l : float
        Most to add [L]
    take_out_l : float
        To take out first where there is no room [L]
    after_l : float
        In the drum afterwards [L]
    after_kg_m3 : WetDensity
        Wet density afterwards, by mass and volume [kg/m3]
    """

    verdict: str
    reason: str
    wet_density_kg_m3: WetDensity
    target_kg_m3: WetDensity
    off: float
    in_drum_l: float
    yield_l: float
    yield_off: float
    foam_l: float
    slurry_l: float
    slurry_kg: float
    slurry_cement_kg: float
    slurry_water_l: float
    add_low_l: float
    add_high_l: float
    take_out_l: float
    after_l: float
    after_kg_m3: WetDensity


@frozen
class Sight:
    """How much one check moves when one thing is off.

    Attributes
    ----------
    check : str
        ``wet_bucket`` or ``foam_bucket`` [-]
    of : str
        ``foam_density`` over the window, or ``foam_quantity`` a tenth too small [-]
    moves : float
        How far its reading moves, over the reading; 0 is blind [-]
    """

    check: str
    of: str
    moves: float


@frozen
class HeightLoss:
    """Height that a filled mould or drum lost.

    Attributes
    ----------
    lost_m : float
        Height lost; below 0 where it rose [m]
    share : float
        Over the height filled [-]
    volume_lost_l : float
        Volume lost, sides upright [L]
    density_kg_m3 : WetDensity
        Mean wet density of what stands, nothing having run out [kg/m3]
    verdict : str
        ``holds``, ``sinks`` or ``collapsed`` [-]
    """

    lost_m: float
    share: float
    volume_lost_l: float
    density_kg_m3: WetDensity
    verdict: str


def _bad(*named: tuple[str, float, float]) -> list[Problem]:
    """Name readings that are no numbers, or not above their limit."""
    problems: list[Problem] = []
    for name, value, limit in named:
        if not math.isfinite(value):
            problems.append(Problem(f"check.{name}", None, None, "not_finite"))
        elif value <= limit:
            problems.append(Problem(f"check.{name}", value, limit, "too_small"))
    return problems


def weigh_wet(
    gross: float, empty: float, bucket: float, step: float = 0.005, bucket_uncertainty: float = 0.0
) -> tuple[WetReading | None, tuple[Problem, ...]]:
    """Return the wet density of a bucket of fresh foamed concrete, with its uncertainty.

    Source: arithmetic; uncertainty by JCGM 100:2008, 4.3.7 (a scale's step is a rectangle) and
    5.1.2, coverage factor 2. How full the bucket was struck off is not in it.

    Parameters
    ----------
    gross : float
        Bucket and foamed concrete [kg]
    empty : float
        Bucket, 0 or more [kg]
    bucket : float
        Volume of the bucket, struck off level, above 0 [L]
    step : float
        Step of the scale, 0 or more [kg]
    bucket_uncertainty : float
        Standard uncertainty of the bucket's volume, 0 or more [L]

    Returns
    -------
    tuple of (WetReading or None, tuple of Problem)
        The reading, absent where the gross weight is not above the empty one [-]

    Examples
    --------
    >>> reading = weigh_wet(5.45, 0.60, 10.0)[0]
    >>> round(reading.density_kg_m3, 1), round(reading.uncertainty_kg_m3, 2)
    (485.0, 0.41)
    >>> weigh_wet(0.5, 0.6, 10.0)[1][0].code
    'too_small'
    """
    problems = _bad(
        ("gross_kg", gross, 0.0),
        ("bucket_l", bucket, 0.0),
        ("empty_kg", empty, -1e-12),
        ("step_kg", step, -1e-12),
        ("bucket_uncertainty_l", bucket_uncertainty, -1e-12),
    )
    if not problems and gross <= empty:
        problems.append(Problem("check.gross_kg", gross, empty, "too_small"))
    if problems:
        return None, tuple(problems)
    net = gross - empty
    density = net / bucket * 1000
    weight = math.sqrt(2) * step / math.sqrt(12) / net
    spread = density * math.hypot(weight, bucket_uncertainty / bucket)
    if not math.isfinite(density + spread):
        return None, (Problem("check.bucket_l", bucket, None, "too_small"),)
    return WetReading(net, WetDensity(density), COVERAGE * spread), ()


def doubts(
    gross: float, empty: float, bucket: float, target: WetDensity
) -> tuple[Doubt, ...]:
    """Return what a reading far off its target may have been, for asking and never for taking.

    Source: arithmetic; the bounds are common practice, no source. Nothing is said of a reading within
    40 % of its target.

    Parameters
    ----------
    gross : float
        Bucket and foamed concrete as typed [kg]
    empty : float
        Bucket as typed [kg]
    bucket : float
        Volume of the bucket [L]
    target : WetDensity
        Wet density wanted, above 0 [kg/m3]

    Returns
    -------
    tuple of Doubt
        Likely slips, the nearest to the target first [-]

    Examples
    --------
    >>> [(d.slip, round(d.density_kg_m3)) for d in doubts(192.2, 21.2, 10.0, WetDensity(484.0))]
    [('ounces', 485)]
    >>> doubts(5.45, 0.60, 10.0, WetDensity(484.0))
    ()
    """
    if not all(math.isfinite(v) and v > 0 for v in (gross, bucket, target)) or not 0 <= empty < math.inf:
        return ()
    net = gross - empty
    if abs(net / bucket * 1000 / target - 1) <= 0.4:
        return ()
    guesses = {slip: net / times for slip, times in SLIPS.items()}
    if empty > 0:
        guesses["empty_taken_off_twice"] = gross
    found = [
        (abs(weight / bucket * 1000 / target - 1), Doubt(slip, WetDensity(weight / bucket * 1000)))
        for slip, weight in guesses.items()
    ]
    return tuple(doubt for off, doubt in sorted(found, key=lambda f: f[0]) if off <= SLIP_WITHIN)


def foam_to_fold_in(litres: float, density: float, target: float, foam: float) -> float:
    """Return the foam that brings a heavy batch down to its density.

    Source: arithmetic (mass and volume balance: ``rho V + f x = rho_t (V + x)``).

    Parameters
    ----------
    litres : float
        In the drum, above 0 [L]
    density : float
        Its wet density [kg/m3]
    target : float
        Wet density wanted, above that of the foam [kg/m3]
    foam : float
        Density of the foam [kg/m3]

    Returns
    -------
    float
        Foam; below 0 where the batch is light [L]

    Examples
    --------
    >>> round(foam_to_fold_in(100.0, 540.0, 480.0, 95.0), 2)
    15.58
    """
    return litres * (density - target) / (target - foam)


def slurry_to_add(litres: float, density: float, target: float, slurry: float) -> float:
    """Return the slurry that brings a light batch up to its density.

    Source: arithmetic (mass and volume balance: ``rho V + s x = rho_t (V + x)``).

    Parameters
    ----------
    litres : float
        In the drum, above 0 [L]
    density : float
        Its wet density [kg/m3]
    target : float
        Wet density wanted, below that of the slurry [kg/m3]
    slurry : float
        Density of the slurry [kg/m3]

    Returns
    -------
    float
        Slurry; below 0 where the batch is heavy [L]

    Examples
    --------
    >>> round(slurry_to_add(100.0, 420.0, 480.0, 1800.0), 2)
    4.55
    """
    return litres * (target - density) / (slurry - target)


def correct(
    reading: WetReading,
    mix: MixResult,
    drum: Drum = Drum(),  # noqa: B008 - frozen
    within: float = WITHIN,
    latest: float = LATEST_MIN,
) -> tuple[Correction | None, tuple[Problem, ...], tuple[Note, ...]]:
    """Return what puts a batch right, or that it is not to be poured.

    Source: arithmetic (mass and volume balance). How far it may be off, how late it may be put
    right, and that a falling height or failed foam is not corrected, are common practice, no source.

    Parameters
    ----------
    reading : WetReading
        The bucket as weighed [-]
    mix : MixResult
        The batch as planned; its wet density is the target, its slurry and foam are what is added [-]
    drum : Drum
        The batch as it stands [-]
    within : float
        How far off it may be, over the target, 0 or more [-]
    latest : float
        Minutes after foaming up to which it is put right [min]

    Returns
    -------
    tuple of (Correction or None, tuple of Problem, tuple of Note)
        Verdict and quantities, absent where the drum as stated cannot be [-]

    Examples
    --------
    >>> from foamwright.material.mix import solve
    >>> from foamwright.project.model import Mix
    >>> mix = solve(Mix())[0]
    >>> heavy = weigh_wet(6.00, 0.60, 10.0)[0]
    >>> one = correct(heavy, mix, Drum(litres=140.0))[0]
    >>> one.verdict, round(one.foam_l, 1), round(one.after_kg_m3, 1)
    ('fold_in_foam', 20.0, 484.4)
    >>> correct(heavy, mix, Drum(falling=True))[0].verdict
    'do_not_pour'
    """
    litres: float = (
        drum.litres if drum.litres is not None else mix.mass_kg / reading.density_kg_m3 * 1000
    )
    problems = _bad(
        ("in_drum_l", litres, 0.0),
        ("usable_l", drum.usable_l, 0.0),
        ("minutes", drum.minutes, -1e-12),
    )
    if problems:
        return None, tuple(problems), ()
    density, target = float(reading.density_kg_m3), float(mix.wet_density_kg_m3)
    foam, slurry = float(mix.foam_density_kg_m3), mix.slurry_density_kg_m3
    off = density / target - 1
    notes: list[Note] = []

    def answer(
        verdict: str, reason: str, foam_l: float = 0.0, slurry_l: float = 0.0, ends: tuple[float, float] = (0.0, 0.0)
    ) -> Correction:
        added = foam_l + slurry_l
        share = added / litres
        # With no room, so much goes out first that the rest and its own correction fill the drum.
        kept = litres if litres + added <= drum.usable_l else min(litres, drum.usable_l / (1 + share))
        part = kept / litres if added > 0 else 1.0
        kept = kept if added > 0 else litres
        foam_l, slurry_l = foam_l * part, slurry_l * part
        after = kept + foam_l + slurry_l
        mass = kept * density + foam_l * foam + slurry_l * slurry
        weight = slurry_l * slurry / 1000
        made = mix.mass_kg / density * 1000
        slurry_mass = mix.slurry_density_kg_m3 * mix.slurry_volume_l / 1000
        return Correction(
            verdict=verdict,
            reason=reason,
            wet_density_kg_m3=reading.density_kg_m3,
            target_kg_m3=mix.wet_density_kg_m3,
            off=off,
            in_drum_l=litres,
            yield_l=made,
            yield_off=made / mix.yield_l - 1,
            foam_l=foam_l,
            slurry_l=slurry_l,
            slurry_kg=weight,
            slurry_cement_kg=weight * mix.cement_kg / slurry_mass,
            slurry_water_l=weight * mix.water_l / slurry_mass,
            add_low_l=ends[0] * part,
            add_high_l=ends[1] * part,
            take_out_l=litres - kept,
            after_l=after,
            after_kg_m3=WetDensity(mass / after),
        )

    params: dict[str, Scalar]
    if drum.falling:
        notes.append(Note("batch_height_falling", "warning", "check.falling", {}, "practice_falling"))
    if not drum.foam_ok:
        notes.append(Note("foam_failed", "warning", "check.foam_ok", {}, "practice_foam_failed"))
    if notes:
        if density < target:
            notes.append(Note("slurry_cures_no_foam", "warning", "check", {}, "practice_foam_failed"))
        return answer("do_not_pour", "height_falling" if drum.falling else "foam_failed"), (), tuple(notes)
    if not min(foam, target) <= density <= max(slurry, target):
        # Lighter than foam or heavier than slurry, this batch cannot be: the reading is asked about.
        params = {"value": density, "low": foam, "high": slurry}
        notes.append(Note("reading_doubtful", "warning", "check.gross_kg", params, "arithmetic"))
        return answer("weigh_again", "reading_doubtful"), (), tuple(notes)
    allowed = max(within, 0.0) * target
    uncertain = reading.uncertainty_kg_m3
    if abs(density - target) <= allowed:
        if abs(density - target) + uncertain > allowed:
            params = {"uncertainty_kg_m3": uncertain, "allowed_kg_m3": allowed}
            notes.append(Note("bucket_cannot_tell", "info", "check", params, "jcgm_100"))
        return answer("pour", ""), (), tuple(notes)
    if abs(density - target) - uncertain <= allowed and uncertain > allowed:
        params = {"uncertainty_kg_m3": uncertain, "allowed_kg_m3": allowed}
        notes.append(Note("bucket_cannot_tell", "caution", "check", params, "jcgm_100"))
        return answer("weigh_again", "bucket_cannot_tell"), (), tuple(notes)
    if drum.minutes > latest:
        params = {"minutes": drum.minutes, "latest": latest}
        notes.append(Note("batch_too_late", "warning", "check.minutes", params, "practice_latest"))
        return answer("do_not_pour", "too_late"), (), tuple(notes)
    if not foam < target < slurry:
        params = {"target": target, "foam": foam, "slurry": slurry}
        notes.append(Note("correction_out_of_reach", "warning", "check", params, "arithmetic"))
        return answer("do_not_pour", "out_of_reach"), (), tuple(notes)

    def needed(wet: float) -> float:
        by_foam = density > target
        litre = (
            foam_to_fold_in(litres, wet, target, foam)
            if by_foam
            else slurry_to_add(litres, wet, target, slurry)
        )
        return max(litre, 0.0)

    both = sorted((needed(density - uncertain), needed(density + uncertain)))
    ends = (both[0], both[1])
    if density > target:
        correction = answer("fold_in_foam", "", foam_l=needed(density), ends=ends)
    else:
        correction = answer("add_slurry", "", slurry_l=needed(density), ends=ends)
        # The foam is said to be good; whether too much of it went in, or it grew, is not seen here.
        notes.append(Note("slurry_cures_no_foam", "caution", "check.foam_ok", {}, "practice_foam_failed"))
    if correction.take_out_l > 0:
        params = {"take_out_l": correction.take_out_l, "usable_l": drum.usable_l}
        notes.append(Note("take_out_first", "caution", "check.usable_l", params, "arithmetic"))
    added = correction.foam_l + correction.slurry_l
    if added > LARGE * litres:
        params = {"share": added / litres, "limit": LARGE}
        notes.append(Note("correction_large", "caution", "check", params, "practice_correction"))
    return correction, (), tuple(notes)


def sights(mix: MixResult, low: FoamDensity, high: FoamDensity) -> tuple[Sight, ...]:
    """Return what each of the two buckets can see of this batch.

    Source: arithmetic (absolute volumes).

    Parameters
    ----------
    mix : MixResult
        The batch as planned [-]
    low : FoamDensity
        Least of the window of foam densities, above 0 [kg/m3]
    high : FoamDensity
        Most of it [kg/m3]

    Returns
    -------
    tuple of Sight
        Both buckets, over the window of foam densities and for a tenth of the foam missing [-]

    Examples
    --------
    >>> from foamwright.material.mix import solve
    >>> from foamwright.project.model import Mix
    >>> [(s.check, s.of, round(s.moves, 4)) for s in sights(solve(Mix())[0], FoamDensity(90.0), FoamDensity(100.0))]
    [('wet_bucket', 'foam_density', 0.0159), ('foam_bucket', 'foam_density', 0.1053), ('wet_bucket', 'foam_quantity', 0.0673), ('foam_bucket', 'foam_quantity', 0.0)]
    """
    window = (wet_density_at(mix, high) - wet_density_at(mix, low)) / mix.wet_density_kg_m3
    missing = 0.1 * mix.foam_volume_l
    short = (mix.mass_kg - 0.1 * mix.foam_mass_kg) / (mix.yield_l - missing) * 1000
    return (
        Sight("wet_bucket", "foam_density", window),
        Sight("foam_bucket", "foam_density", (high - low) / ((low + high) / 2)),
        Sight("wet_bucket", "foam_quantity", short / mix.wet_density_kg_m3 - 1),
        Sight("foam_bucket", "foam_quantity", 0.0),
    )


def height_loss(
    filled: float, after: float, litres: float, wet: WetDensity
) -> tuple[HeightLoss | None, tuple[Problem, ...]]:
    """Return what a mould or drum lost in height after an hour, and what that says.

    Source: arithmetic; up to 1 % is bleeding and settling (common practice, no source), more than
    4.5 % is more than ASTM C869-91 (R1999), Table 1, allows in pumping, set here as the bound of a
    collapse.

    Parameters
    ----------
    filled : float
        Height when filled, above 0 [m]
    after : float
        Height after an hour, 0 or more [m]
    litres : float
        Volume filled, above 0 [L]
    wet : WetDensity
        Wet density when filled, above 0 [kg/m3]

    Returns
    -------
    tuple of (HeightLoss or None, tuple of Problem)
        What was lost, absent where a height cannot be [-]

    Examples
    --------
    >>> loss = height_loss(0.60, 0.57, 150.0, WetDensity(480.0))[0]
    >>> loss.verdict, round(loss.volume_lost_l, 1), round(loss.density_kg_m3, 1)
    ('collapsed', 7.5, 505.3)
    """
    problems = _bad(
        ("filled_m", filled, 0.0), ("after_m", after, 0.0), ("litres", litres, 0.0), ("wet_density_kg_m3", wet, 0.0)
    )
    if problems:
        return None, tuple(problems)
    share = 1 - after / filled
    verdict = "holds" if share <= SETTLED else "sinks" if share <= AIR_LOSS else "collapsed"
    density = wet * (filled / after)
    if not math.isfinite(density + share):
        return None, (Problem("check.after_m", after, filled, "too_small"),)
    return HeightLoss(filled - after, share, share * litres, WetDensity(density), verdict), ()
