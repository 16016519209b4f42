"""What is lifted by hand. A full drum never is."""

from typing import Final

from attrs import frozen

from foamwright.project.model import Batch, Market
from foamwright.project.notes import Note, Scalar, Severity
from foamwright.site.batches import Batches, ceiling
from foamwright.site.laid import Masonry

#: Load constant of the revised lifting equation: the most in the best posture (NIOSH 94-110, p. 7) [kg].
LOAD_CONSTANT_KG: Final = 23.0
#: Guideline filter at waist height close to the body (HSE INDG143, from memory): men, women [kg].
FILTER_KG: Final = (25.0, 16.0)
#: Largest bucket that a batch is emptied with: the project's own choice [L].
BUCKET_L: Final = 15.0


@frozen
class Lift:
    """One thing that is lifted by hand.

    Attributes
    ----------
    code : str
        ``cement_bag``, ``pour_bucket`` or ``block_fresh`` [-]
    mass_kg : float
        Its mass, containers not counted [kg]
    count : int
        How many times over the whole job, at least [-]
    load_ratio : float
        Mass over the load constant of NIOSH 94-110; above 1 it is too much even in the best posture [-]
    """

    code: str
    mass_kg: float
    count: int
    load_ratio: float


@frozen
class Emptying:
    """How the concrete leaves the drum.

    Attributes
    ----------
    way : str
        ``in_place``, ``tip``, ``bottom_outlet`` or ``buckets`` [-]
    full_drum_kg : float
        Mass of the full batch, which is not lifted [kg]
    buckets : int or None
        Buckets a batch is emptied with, where it is [-]
    bucket_l : float or None
        Concrete in each [L]
    bucket_kg : float or None
        Mass of it [kg]
    """

    way: str
    full_drum_kg: float
    buckets: int | None
    bucket_l: float | None
    bucket_kg: float | None


@frozen
class Site:
    """Work on site.

    Attributes
    ----------
    lifts : tuple of Lift
        What is lifted by hand [-]
    emptying : Emptying
        How the concrete leaves the drum [-]
    """

    lifts: tuple[Lift, ...]
    emptying: Emptying


def lifting(
    batches: Batches, blocks: Masonry, market: Market, batch: Batch
) -> tuple[Site, tuple[Note, ...]]:
    """List what is lifted by hand, with its mass.

    Source: load constant 23 kg, NIOSH 94-110 (Rev. 9/2021), p. 7; guideline filter 25 and 16 kg,
    HSE INDG143 (from memory); HSE recommends no weight limits, the figures call for a fuller
    assessment. Not valid for one hand, kneeling, barrows, shovels or unstable loads.

    Parameters
    ----------
    batches : Batches
        The planned batches [-]
    blocks : Masonry
        The counted blocks [-]
    market : Market
        The bag [-]
    batch : Batch
        How the drum is emptied [-]

    Returns
    -------
    tuple of (Site, tuple of Note)
        Lifts and how the drum is emptied [-]

    Examples
    --------
    >>> from foamwright.estimate import estimate
    >>> from foamwright.project import Project
    >>> [lift.code for lift in estimate(Project()).estimate.site.lifts]
    ['cement_bag', 'block_fresh']
    """
    made = batches.batch
    lifts = [_lift("cement_bag", market.cement_bag_kg, batches.cement_bags)]
    notes = []
    params: dict[str, Scalar] = {
        "mass_kg": made.mass_kg,
        "way": batch.emptying,
    }
    buckets: int | None = None
    bucket_l = bucket_kg = None
    if batch.emptying == "buckets":
        buckets = ceiling(made.yield_l / BUCKET_L)
        bucket_l, bucket_kg = made.yield_l / buckets, made.mass_kg / buckets
        lifts.append(_lift("pour_bucket", bucket_kg, buckets * batches.to_mix))
        params |= {"buckets": buckets, "bucket_l": bucket_l, "bucket_kg": bucket_kg}
    if blocks.to_cast:
        lifts.append(_lift("block_fresh", blocks.fresh_mass_kg, blocks.to_cast))
    notes.append(
        Note("full_drum_not_lifted", "info", "batch.emptying", params, "practice_full_drum")
    )
    bag = market.cement_bag_kg
    if bag > FILTER_KG[1]:
        params = {
            "mass_kg": bag,
            "load_constant_kg": LOAD_CONSTANT_KG,
            "ratio": bag / LOAD_CONSTANT_KG,
        }
        notes.append(Note("lift_heavy_bag", "info", "market.cement_bag_kg", params, "niosh_94_110"))
    block = blocks.fresh_mass_kg
    if block > FILTER_KG[1]:
        severe = block > LOAD_CONSTANT_KG
        params = {"mass_kg": block, "men_kg": FILTER_KG[0], "women_kg": FILTER_KG[1]}
        params |= {"load_constant_kg": LOAD_CONSTANT_KG}
        source = "niosh_94_110" if severe else "hse_indg143"
        severity: Severity = "caution" if severe else "info"
        notes.append(Note("lift_heavy_block", severity, "block.length_m", params, source))
    emptying = Emptying(batch.emptying, made.mass_kg, buckets, bucket_l, bucket_kg)
    return Site(tuple(lifts), emptying), tuple(notes)


def _lift(code: str, mass: float, count: int) -> Lift:
    return Lift(code, mass, count, mass / LOAD_CONSTANT_KG)
