"""Batches that fit a bag or a simple fraction of it and the drum, and what the whole job takes."""

from fractions import Fraction
from typing import Final

from attrs import frozen

from foamwright.material.mix import MixResult
from foamwright.project.model import Batch, Foam, Market, Waste
from foamwright.project.notes import Note, Problem, Scalar
from foamwright.project.whole import ROUNDING
from foamwright.project.whole import ceiling as ceiling
from foamwright.site.drum import marks, order

#: Fractions of a bag that are offered, largest first.
FRACTIONS: Final = tuple(
    Fraction(n, d) for n, d in ((1, 1), (3, 4), (2, 3), (1, 2), (1, 3), (1, 4))
)
#: A stated batch that is nearer than this to the one made on site is the same batch.
SAME: Final = 0.005
#: People type 0.333 for a third [-].
_AS_TYPED: Final = 2e-3
#: Cut away of what is counted by volume, over what stands: common practice, no source [-].
CUTTING_BY_VOLUME: Final = 0.03
#: Bags per batch are told as "n bags make m batches" up to this m.
_MOST_BATCHES: Final = 12


@frozen
class Option:
    """A batch made from a fraction of a bag.

    Attributes
    ----------
    numerator : int
        Bags that go into ``denominator`` batches [-]
    denominator : int
        Batches that ``numerator`` bags make [-]
    cement_kg : float
        Cement, weighed [kg]
    water_l : float
        Water of the slurry [L]
    foam_l : float
        Foam [L]
    foam_mass_kg : float
        Foam [kg]
    yield_l : float
        Foamed concrete made [L]
    mass_kg : float
        Mass of the batch [kg]
    fits : bool
        Whether the yield leaves the stated freeboard in the drum [-]
    """

    numerator: int
    denominator: int
    cement_kg: float
    water_l: float
    foam_l: float
    foam_mass_kg: float
    yield_l: float
    mass_kg: float
    fits: bool


@frozen
class SiteBatch:
    """The batch that is made on site.

    Attributes
    ----------
    bags_each : float
        Bags in a batch [-]
    bags : int or None
        Bags that make ``bags_batches`` batches; absent where that is no simple fraction [-]
    bags_batches : int or None
        Batches that ``bags`` bags make [-]
    cement_kg : float
        Cement, weighed [kg]
    water_l : float
        Water of the slurry [L]
    foam_l : float
        Foam [L]
    foam_mass_kg : float
        Foam [kg]
    slurry_volume_l : float
        Cement and water before the foam [L]
    yield_l : float
        Foamed concrete made [L]
    mass_kg : float
        Mass of the batch, drum not counted [kg]
    fits : bool
        Whether the yield leaves the stated freeboard in the drum [-]
    slurry_mark_m : float or None
        Height of the slurry in the drum; absent where the drum is not known so far up [m]
    final_mark_m : float or None
        Height of the finished batch in the drum [m]
    """

    bags_each: float
    bags: int | None
    bags_batches: int | None
    cement_kg: float
    water_l: float
    foam_l: float
    foam_mass_kg: float
    slurry_volume_l: float
    yield_l: float
    mass_kg: float
    fits: bool
    slurry_mark_m: float | None
    final_mark_m: float | None


@frozen
class Timing:
    """Minutes of one batch, counted from the cement meeting the water.

    Attributes
    ----------
    slurry_minutes : float
        Mixing the slurry [min]
    fold_minutes : float
        Folding in the foam [min]
    made_minutes : float
        When the batch is made [min]
    pour_within_minutes : float
        Time to pour once it is made [min]
    latest_pour_minutes : float
        When the pour must be done [min]
    """

    slurry_minutes: float
    fold_minutes: float
    made_minutes: float
    pour_within_minutes: float
    latest_pour_minutes: float


@frozen
class WasteItem:
    """One cause of waste.

    Attributes
    ----------
    code : str
        ``lost_batches``, ``breakage``, ``cutting`` or ``calibration`` [-]
    fraction : float
        Of the net volume in place [-]
    batches : float
        The same in batches [-]
    basis : str
        ``typed``; of cutting also ``as_laid``, counted from the lay plan, ``by_volume``, the usual share of what is not laid in
        courses, or ``mixed``, both [-]
    """

    code: str
    fraction: float
    batches: float
    basis: str


@frozen
class Casting:
    """How the foamed concrete in place comes there; what is none of these is counted in blocks by volume.

    Attributes
    ----------
    laid_m3 : float
        Blocks laid in courses, joints left out [m3]
    cast_m3 : float
        Blocks cast for them, broken ones not counted: every block that is opened, as it comes out of the mould [m3]
    ordered_m3 : float
        Blocks to order, which are not cut [m3]
    poured_m3 : float
        Fills, poured where they stay: nothing of them is cut or breaks [m3]
    """

    laid_m3: float = 0.0
    cast_m3: float = 0.0
    ordered_m3: float = 0.0
    poured_m3: float = 0.0


@frozen
class Batches:
    """The whole job in batches.

    Attributes
    ----------
    batch : SiteBatch
        The batch made on site [-]
    options : tuple of Option
        What other fractions of a bag would make [-]
    limit_l : float
        Most that the drum may hold with the stated freeboard [L]
    timing : Timing
        Minutes of a batch [min]
    net_count : float
        Batches that stand in the shell, nothing wasted [-]
    waste : tuple of WasteItem
        What is mixed besides, by cause [-]
    count : float
        Batches, waste included, not rounded [-]
    low_count : float
        The same if nothing were wasted but what sawing takes as the lay plan counts it [-]
    high_count : float
        The same with twice the typed waste [-]
    to_mix : int
        Batches to mix, the last one perhaps in part [-]
    last_batch_fraction : float
        Size of the last batch over a whole one [-]
    mixed_volume_m3 : float
        Foamed concrete mixed, waste included [m3]
    cement_kg : float
        Cement that goes into the batches [kg]
    bags_exact : float
        The same in bags, not rounded [-]
    cement_bags : int
        Bags to buy [-]
    cement_left_kg : float
        Cement left over in them [kg]
    water_l : float
        Water of the slurry and of the foam; washing down is not counted [L]
    slurry_water_l : float
        Water of the slurry alone [L]
    foam_l : float
        Foam [L]
    foam_solution_l : float
        Solution of agent in water that makes the foam [L]
    concentrate_l : float
        Foaming agent as bought [L]
    mass_kg : float
        Mass of all that is mixed [kg]
    """

    batch: SiteBatch
    options: tuple[Option, ...]
    limit_l: float
    timing: Timing
    net_count: float
    waste: tuple[WasteItem, ...]
    count: float
    low_count: float
    high_count: float
    to_mix: int
    last_batch_fraction: float
    mixed_volume_m3: float
    cement_kg: float
    bags_exact: float
    cement_bags: int
    cement_left_kg: float
    water_l: float
    slurry_water_l: float
    foam_l: float
    foam_solution_l: float
    concentrate_l: float
    mass_kg: float


def options(mix: MixResult, bag: float, limit: float) -> tuple[Option, ...]:
    """Return the batches that simple fractions of a bag make, proportions held.

    Source: arithmetic; the fractions are those that can be told as "n bags make m batches".

    Parameters
    ----------
    mix : MixResult
        The mix; only its proportions count [-]
    bag : float
        Cement in a bag [kg]
    limit : float
        Most that the drum may hold [L]

    Returns
    -------
    tuple of Option
        Largest first [-]

    Examples
    --------
    >>> from foamwright.material.mix import solve
    >>> from foamwright.project.model import Mix
    >>> [round(o.yield_l, 1) for o in options(solve(Mix())[0], 50.0, 161.5) if o.fits][0]
    139.8
    """
    found = []
    for fraction in FRACTIONS:
        batch = mix.times(float(fraction) * bag / mix.cement_kg)
        found.append(
            Option(
                numerator=fraction.numerator,
                denominator=fraction.denominator,
                cement_kg=batch.cement_kg,
                water_l=batch.water_l,
                foam_l=batch.foam_volume_l,
                foam_mass_kg=batch.foam_mass_kg,
                yield_l=batch.yield_l,
                mass_kg=batch.mass_kg,
                fits=_fits(batch.yield_l, limit),
            )
        )
    return tuple(found)


def _fits(volume: float, limit: float) -> bool:
    return volume <= limit * (1 + ROUNDING)


def _simple(bags: float) -> tuple[int, int] | tuple[None, None]:
    """Return bags per batch as a simple fraction, where it is one to the digits people type."""
    fraction = Fraction(bags).limit_denominator(_MOST_BATCHES)
    if fraction and abs(float(fraction) - bags) <= _AS_TYPED * bags:
        return fraction.numerator, fraction.denominator
    return None, None


def waste_items(
    waste: Waste, net: float, volume: float = 1.0, casting: Casting | None = None, times: float = 1.0
) -> tuple[WasteItem, ...]:
    """Return the waste by cause, in batches.

    Source: typed; the defaults are common practice, no source. Cutting that is not typed is what is cast less what is laid. A typed
    share of cutting is one of all blocks in place. Breakage is a share of what is cast, lost batches one of that and of what is
    poured; calibration is whole batches.

    Parameters
    ----------
    waste : Waste
        The fractions as stated [-]
    net : float
        Batches that stand in the shell [-]
    volume : float
        Foamed concrete in place [m3]
    casting : Casting or None
        How it comes there; absent where all of it is blocks that are counted by volume [-]
    times : float
        How many times the typed waste is reckoned; what the lay plan counts stays [-]

    Returns
    -------
    tuple of WasteItem
        One for each cause [-]

    Examples
    --------
    >>> [round(item.batches, 2) for item in waste_items(Waste(), 100.0)]
    [3.09, 3.09, 3.0, 1.0]
    >>> laid = Casting(laid_m3=6.0, cast_m3=7.0, poured_m3=4.0)
    >>> [round(item.batches, 2) for item in waste_items(Waste(), 100.0, 10.0, laid)]
    [3.3, 2.1, 10.0, 1.0]
    """
    how = casting or Casting()
    poured, ordered, laid = how.poured_m3 / volume, how.ordered_m3 / volume, how.laid_m3 / volume
    counted = max(0.0, 1 - poured - ordered - laid)
    if counted < ROUNDING:
        counted = 0.0
    if waste.cutting_fraction is not None:
        basis, cutting = "typed", times * waste.cutting_fraction * (laid + counted)
    else:
        basis = "as_laid" if not counted else "mixed" if laid else "by_volume"
        cutting = max(0.0, how.cast_m3 / volume - laid) + times * CUTTING_BY_VOLUME * counted
    cast = 1 - poured + cutting
    shares = (
        ("lost_batches", times * waste.lost_batches_fraction * (cast + poured), "typed"),
        ("breakage", times * waste.breakage_fraction * cast, "typed"),
        ("cutting", cutting, basis),
    )
    items = tuple(WasteItem(code, share, share * net, origin) for code, share, origin in shares)
    trial = times * waste.calibration_batches
    return (*items, WasteItem("calibration", trial / net, trial, "typed"))


def plan(
    volume: float, mix: MixResult, market: Market, batch: Batch, foam: Foam, waste: Waste, casting: Casting | None = None
) -> tuple[Batches | None, tuple[Problem, ...], tuple[Note, ...]]:
    """Plan the batches of the whole job.

    Source: arithmetic: volume over yield, and the waste of `waste_items`; the agent's solution taken as heavy as water. The bag sets the size of a batch: water-cement
    ratio, foam density and wet density are held.

    Parameters
    ----------
    volume : float
        Foamed concrete in place [m3]
    mix : MixResult
        The mix as solved [-]
    market : Market
        The bag [-]
    batch : Batch
        The drum, and bags in a batch if that was stated [-]
    foam : Foam
        Dilution of the agent [-]
    waste : Waste
        What is mixed besides [-]
    casting : Casting or None
        How the concrete comes into place; absent where all of it is blocks that are counted by volume [-]

    Returns
    -------
    tuple of (Batches or None, tuple of Problem, tuple of Note)
        The plan, absent where the drum's marks contradict each other [-]

    Examples
    --------
    >>> from foamwright.material.mix import solve
    >>> from foamwright.project.model import Mix
    >>> none = Waste(0.0, 0.0, 0.0, 0.0)
    >>> job = plan(13.4349, solve(Mix())[0], Market(), Batch(), Foam(), none)[0]
    >>> round(job.count, 1), job.cement_bags
    (84.5, 85)
    """
    problems = order(batch.drum_marks) if batch.drum_form == "calibrated" else ()
    if problems:
        return None, problems, ()
    bag, limit = market.cement_bag_kg, batch.drum_l * (1 - batch.freeboard_fraction)
    offered = options(mix, bag, limit)
    fitting = [option for option in offered if option.fits]
    notes: list[Note] = []
    if batch.bags_each is not None:
        bags_each = batch.bags_each
        numerator, denominator = _simple(bags_each)
    else:
        best = fitting[0] if fitting else offered[-1]
        numerator, denominator = best.numerator, best.denominator
        bags_each = numerator / denominator
    made = mix.times(bags_each * bag / mix.cement_kg)
    fits = _fits(made.yield_l, limit)
    size: dict[str, Scalar] = {"yield_l": made.yield_l, "limit": limit}
    if not fitting and not (fits and batch.bags_each is not None):
        notes.append(Note("no_fraction_fits", "warning", "batch.drum_l", size, "arithmetic"))
    elif not fits:
        share: dict[str, Scalar] = {"bags": fitting[0].numerator, "batches": fitting[0].denominator}
        notes.append(
            Note("batch_does_not_fit", "warning", "batch.bags_each", size | share, "arithmetic")
        )
    slurry, final = 0, 1
    heights, remarks = marks(batch, (made.slurry_volume_l, made.yield_l))
    notes.extend(remarks)
    site = SiteBatch(
        bags_each=bags_each,
        bags=numerator,
        bags_batches=denominator,
        cement_kg=made.cement_kg,
        water_l=made.water_l,
        foam_l=made.foam_volume_l,
        foam_mass_kg=made.foam_mass_kg,
        slurry_volume_l=made.slurry_volume_l,
        yield_l=made.yield_l,
        mass_kg=made.mass_kg,
        fits=fits,
        slurry_mark_m=heights[slurry],
        final_mark_m=heights[final],
    )
    net = volume * 1000 / made.yield_l
    items = waste_items(waste, net, volume, casting)
    count = net + sum(item.batches for item in items)
    low, high = (
        net + sum(item.batches for item in waste_items(waste, net, volume, casting, times)) for times in (0.0, 2.0)
    )
    to_mix = ceiling(count)
    cement = count * made.cement_kg
    cement_bags = ceiling(cement / bag)
    solution = count * made.foam_mass_kg
    concentrate = solution / (1 + foam.agent_dilution)
    last = min(1.0, count - (to_mix - 1))
    if 0.02 < last < 0.98:
        part: dict[str, Scalar] = {"fraction": last, "cement_kg": last * made.cement_kg}
        notes.append(Note("last_batch_is_part", "info", "", part, "arithmetic"))
    return (
        Batches(
            batch=site,
            options=offered,
            limit_l=limit,
            timing=timing(batch),
            net_count=net,
            waste=items,
            count=count,
            low_count=low,
            high_count=high,
            to_mix=to_mix,
            last_batch_fraction=last,
            mixed_volume_m3=count * made.yield_l / 1000,
            cement_kg=cement,
            bags_exact=cement / bag,
            cement_bags=cement_bags,
            cement_left_kg=max(0.0, cement_bags * bag - cement),
            water_l=count * made.water_l + solution - concentrate,
            slurry_water_l=count * made.water_l,
            foam_l=count * made.foam_volume_l,
            foam_solution_l=solution,
            concentrate_l=concentrate,
            mass_kg=count * made.mass_kg,
        ),
        (),
        tuple(notes),
    )


def timing(batch: Batch) -> Timing:
    """Return the minutes of one batch.

    Source: typed; the defaults are common practice, no source.

    Parameters
    ----------
    batch : Batch
        Minutes as stated [-]

    Returns
    -------
    Timing
        Minutes counted from the cement meeting the water [min]

    Examples
    --------
    >>> timing(Batch()).latest_pour_minutes
    15.0
    """
    made = batch.slurry_minutes + batch.fold_minutes
    return Timing(
        slurry_minutes=batch.slurry_minutes,
        fold_minutes=batch.fold_minutes,
        made_minutes=made,
        pour_within_minutes=batch.pour_within_minutes,
        latest_pour_minutes=made + batch.pour_within_minutes,
    )


def stated_differs(stated: float | None, made: SiteBatch) -> tuple[Note, ...]:
    """Say so where the recipe's batch is not the one that is made on site.

    Source: arithmetic.

    Parameters
    ----------
    stated : float or None
        Cement of the recipe, where it was stated [kg]
    made : SiteBatch
        The batch made on site [-]

    Returns
    -------
    tuple of Note
        One, or none where they agree within 0.5 % [-]

    Examples
    --------
    >>> from foamwright.material.mix import solve
    >>> from foamwright.project.model import Mix
    >>> job = plan(1.0, solve(Mix())[0], Market(), Batch(), Foam(), Waste())[0]
    >>> stated_differs(42.6, job.batch), stated_differs(50.0, job.batch)[0].code
    ((), 'stated_batch_differs')
    """
    if stated is None or abs(stated - made.cement_kg) <= SAME * made.cement_kg:
        return ()
    params: dict[str, Scalar] = {
        "stated_kg": stated,
        "site_kg": made.cement_kg,
        "bags_each": made.bags_each,
    }
    return (Note("stated_batch_differs", "info", "mix.cement_kg", params, "arithmetic"),)
