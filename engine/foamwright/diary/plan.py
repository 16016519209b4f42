"""Plan against fact: what the diary says of yield, waste and foam, and what the estimate may learn of it.

Nothing is changed here: what was measured is laid down as a list of edits, each with the readings
that it rests on and their spread, for the builder to take or leave.
"""

import math
from collections.abc import Sequence
from typing import Any, Final

import attrs
from attrs import frozen

from foamwright.diary.entries import BatchMade, BlocksMade, Diary, FoamWeighed, standing
from foamwright.diary.notes import note
from foamwright.project.model import Project
from foamwright.project.notes import Note

#: Fewest batches, blocks and readings that anything is learnt from (common practice, no source).
LEAST_BATCHES: Final = 5
LEAST_BLOCKS: Final = 30
LEAST_FOAM: Final = 5
#: Coverage factor of a range, about 95 % [-].
COVERAGE: Final = 2.0


@frozen
class Planned:
    """What the estimate says, as far as the diary is held against it.

    Attributes
    ----------
    batches : float
        Batches to mix, waste included [-]
    bags_per_batch : float
        Bags of cement in one [-]
    yield_l : float
        Foamed concrete of one [L]
    foam_l : float
        Foam of one [L]
    blocks : float
        Sound blocks that the job needs [-]
    days : float or None
        Days that it is to take, where stated [d]
    """

    batches: float
    bags_per_batch: float
    yield_l: float
    foam_l: float
    blocks: float
    days: float | None = None


@frozen
class Sample:
    """Readings of one quantity.

    Attributes
    ----------
    mean : float
        Their mean [unit of the quantity]
    deviation : float
        Standard deviation of one reading; 0 where there is one [unit of the quantity]
    readings : int
        How many [-]
    """

    mean: float
    deviation: float
    readings: int


@frozen
class Facts:
    """What the entries that stand add up to.

    Attributes
    ----------
    poured : int
        Batches poured [-]
    lost : int
        Batches lost [-]
    calibration : int
        Batches made to set up [-]
    bags : float
        Bags that all of them took, as far as it was written down [-]
    made : int
        Blocks made [-]
    broken : int
        Blocks broken [-]
    days : int
        Days on which batches or blocks were made [d]
    bags_each : Sample or None
        Bags of one batch [-]
    yield_l : Sample or None
        Yield of a poured batch [L]
    yield_per_kg : Sample or None
        Yield of a poured batch by its cement [L/kg]
    foam_l : Sample or None
        Foam of a batch [L]
    foam_kg_m3 : Sample or None
        Density of the foam [kg/m3]
    blocks_per_day : Sample or None
        Blocks of a day on which blocks were made, broken ones taken off [1/d]
    dilutions : tuple of float
        Dilutions that were used [-]
    """

    poured: int
    lost: int
    calibration: int
    bags: float
    made: int
    broken: int
    days: int
    bags_each: Sample | None
    yield_l: Sample | None
    yield_per_kg: Sample | None
    foam_l: Sample | None
    foam_kg_m3: Sample | None
    blocks_per_day: Sample | None
    dilutions: tuple[float, ...]


@frozen
class Line:
    """One quantity as planned and as it was.

    Attributes
    ----------
    code : str
        ``yield_l``, ``bags_per_batch``, ``foam_l``, ``bags``, ``batches``, ``blocks``, ``broken`` or ``days`` [-]
    planned : float or None
        As planned; none where the plan says nothing [unit of the quantity]
    fact : float or None
        As it was; none where nothing was written down [unit of the quantity]
    readings : int
        Readings behind the fact [-]
    deviation : float or None
        Standard deviation of one reading, where there are two [unit of the quantity]
    """

    code: str
    planned: float | None
    fact: float | None
    readings: int
    deviation: float | None


@frozen
class Ahead:
    """What is still needed.

    Attributes
    ----------
    code : str
        ``blocks``, ``batches``, ``bags`` or ``days`` [-]
    likely : float
        Best estimate [unit of the quantity]
    low : float
        Lower end of its range [unit of the quantity]
    high : float
        Upper end [unit of the quantity]
    """

    code: str
    likely: float
    low: float
    high: float


@frozen
class Edit:
    """A change to the project that the diary proposes.

    Attributes
    ----------
    path : str
        Field of the project [-]
    old : float or None
        What stands there [unit of the field]
    new : float
        What was measured [unit of the field]
    readings : int
        Readings behind it [-]
    low : float
        Lower end of its range [unit of the field]
    high : float
        Upper end [unit of the field]
    agrees : bool
        Whether what stands there lies in that range, so that nothing presses for the change [-]
    """

    path: str
    old: float | None
    new: float
    readings: int
    low: float
    high: float
    agrees: bool


def facts(diary: Diary) -> Facts:
    """Add up what stands in a diary.

    Source: arithmetic.

    Parameters
    ----------
    diary : Diary
        The diary [-]

    Returns
    -------
    Facts
        Sums and samples [-]

    Examples
    --------
    >>> from foamwright.diary.entries import Entry
    >>> made = Entry("k3-0", "2026-05-01T08:00", BlocksMade(12, 1))
    >>> facts(Diary((made,))).broken
    1
    """
    entries, _ = standing(diary)
    batches = [each.what for each in entries if isinstance(each.what, BatchMade)]
    blocks = [each.what for each in entries if isinstance(each.what, BlocksMade)]
    foams = [each.what for each in entries if isinstance(each.what, FoamWeighed)]
    poured = [each for each in batches if each.outcome == "poured"]
    by_day: dict[str, int] = {}
    for entry in entries:
        if isinstance(entry.what, BlocksMade):
            day = entry.at[:10]
            by_day[day] = by_day.get(day, 0) + entry.what.made - entry.what.broken
    days = {each.at[:10] for each in entries if isinstance(each.what, BatchMade | BlocksMade)}
    yields = [each.yield_l for each in poured if each.yield_l]
    rich = [
        each.yield_l / each.cement_kg for each in poured if each.yield_l and each.cement_kg
    ]
    return Facts(
        poured=len(poured),
        lost=sum(each.outcome == "lost" for each in batches),
        calibration=sum(each.outcome == "calibration" for each in batches),
        bags=math.fsum(each.bags for each in batches if each.bags is not None),
        made=sum(each.made for each in blocks),
        broken=sum(each.broken for each in blocks),
        days=len(days),
        bags_each=_sample([each.bags for each in batches if each.bags]),
        yield_l=_sample(yields),
        yield_per_kg=_sample(rich),
        foam_l=_sample([each.foam_l for each in batches if each.foam_l]),
        foam_kg_m3=_sample(
            [(e.gross_g - e.empty_g) / e.volume_l for e in foams if e.gross_g > e.empty_g]
        ),
        blocks_per_day=_sample([float(count) for count in by_day.values() if count > 0]),
        dilutions=tuple(sorted({e.dilution for e in foams if e.dilution is not None})),
    )


def compare(planned: Planned, found: Facts) -> tuple[Line, ...]:
    """Lay plan and fact side by side.

    Source: arithmetic.

    Parameters
    ----------
    planned : Planned
        What the estimate says [-]
    found : Facts
        What the diary says [-]

    Returns
    -------
    tuple of Line
        One for each quantity [-]

    Examples
    --------
    >>> compare(Planned(94.0, 1.0, 159.0, 123.0, 300.0), facts(Diary()))[0]
    Line(code='yield_l', planned=159.0, fact=None, readings=0, deviation=None)
    """
    batches = found.poured + found.lost + found.calibration
    counted = found.bags_each.readings if found.bags_each else 0

    def of(code: str, plan: float | None, sample: Sample | None) -> Line:
        if sample is None:
            return Line(code, plan, None, 0, None)
        spread = sample.deviation if sample.readings > 1 else None
        return Line(code, plan, sample.mean, sample.readings, spread)

    return (
        of("yield_l", planned.yield_l, found.yield_l),
        of("bags_per_batch", planned.bags_per_batch, found.bags_each),
        of("foam_l", planned.foam_l, found.foam_l),
        Line("bags", planned.batches * planned.bags_per_batch, found.bags, counted, None),
        Line("batches", planned.batches, float(batches), batches, None),
        Line("blocks", planned.blocks, float(found.made - found.broken), found.made, None),
        Line("broken", None, float(found.broken), found.made, None),
        Line("days", planned.days, float(found.days), found.days, None),
    )


def forecast(planned: Planned, found: Facts) -> tuple[tuple[Ahead, ...], tuple[Note, ...]]:
    """Say what is still needed, each with its range.

    Source: arithmetic; ranges by Wilson's interval for shares (Wilson, JASA 22 (1927) 209, from memory)
    and twice the standard error of the yield and of the day's blocks. Batches yet to lose are counted,
    batches to set up are not. Refuses below 5 batches and 30 blocks (common practice, no source).

    Parameters
    ----------
    planned : Planned
        What the estimate says [-]
    found : Facts
        What the diary says [-]

    Returns
    -------
    tuple of (tuple of Ahead, tuple of Note)
        Blocks to make, batches, bags and days; empty where the diary says too little [-]

    Examples
    --------
    >>> forecast(Planned(94.0, 1.0, 159.0, 123.0, 300.0), facts(Diary()))[1][0].code
    'plan_too_few'
    """
    batches = found.poured + found.lost + found.calibration
    remarks = _too_few("batches", batches, LEAST_BATCHES) + _too_few("blocks", found.made, LEAST_BLOCKS)
    if remarks:
        return (), remarks
    sound = found.made - found.broken
    needed = max(0.0, planned.blocks - sound)
    low, share, high = _share(found.broken, found.made)
    if share >= 1:
        # Every block broke: no number of further ones can be told.
        return (), (note("plan_too_few", need=1, have=0, what="sound_blocks"),)
    to_make = Ahead("blocks", needed / (1 - share), needed / (1 - low), needed / (1 - min(high, 0.99)))
    if not found.poured:
        return (), (note("plan_too_few", what="batches", have=0, need=LEAST_BATCHES),)
    few, lost, many = _share(found.lost, found.poured + found.lost)
    per = found.poured / found.made
    off = COVERAGE * _of_mean(found.yield_l) / found.yield_l.mean if found.yield_l else 0.0
    mixed = Ahead(
        "batches",
        to_make.likely * per / (1 - lost),
        to_make.low * per * max(0.0, 1 - off) / (1 - few),
        to_make.high * per * (1 + off) / (1 - min(many, 0.99)),
    )
    ahead = [to_make, mixed]
    if found.bags_each is not None:
        mean, spread = found.bags_each.mean, _of_mean(found.bags_each)
        ahead.append(
            Ahead(
                "bags",
                mixed.likely * mean,
                mixed.low * max(0.0, mean - COVERAGE * spread),
                mixed.high * (mean + COVERAGE * spread),
            )
        )
    rest: list[Note] = []
    pace = found.blocks_per_day
    if pace is None or pace.readings < 2 or pace.mean <= 0:
        rest.append(note("plan_days_unknown", have=pace.readings if pace else 0, need=2))
    else:
        likely = needed / pace.mean
        # Days are whole draws of the pace; its own error and theirs add in quadrature.
        error = COVERAGE * pace.deviation / pace.mean * math.sqrt(likely + likely**2 / pace.readings)
        ahead.append(Ahead("days", likely, max(0.0, likely - error), likely + error))
    return tuple(ahead), tuple(rest)


def propose(project: Project, found: Facts) -> tuple[tuple[Edit, ...], tuple[Note, ...]]:
    """Propose what the project may learn from the diary.

    Source: arithmetic; ranges as in `forecast`. Each quantity needs its own minimum: 5 batches, 30
    blocks or 5 foam readings (common practice, no source). What would break a limit of its field is
    not proposed.

    Parameters
    ----------
    project : Project
        The project as it stands [-]
    found : Facts
        What the diary says [-]

    Returns
    -------
    tuple of (tuple of Edit, tuple of Note)
        Edits, and why some are wanting [-]

    Examples
    --------
    >>> from foamwright.diary.entries import Entry
    >>> made = Entry("k3-0", "2026-05-01T08:00", BlocksMade(100, 8))
    >>> edit, = propose(Project(), facts(Diary((made,))))[0]
    >>> edit.path, edit.old, edit.new, edit.readings
    ('waste.breakage_fraction', 0.03, 0.08, 100)
    """
    edits: list[Edit] = []
    remarks: list[Note] = []

    def offer(path: str, new: float, readings: int, low: float, high: float) -> None:
        group, name = path.split(".")
        old = getattr(getattr(project, group), name)
        meta: Any = attrs.fields_dict(type(getattr(project, group)))[name].metadata
        if not meta["low"] <= new <= meta["high"]:
            remarks.append(
                note("plan_beyond_limit", "caution", path, value=new, low=meta["low"], high=meta["high"])
            )
            return
        agrees = old is not None and low <= old <= high
        edits.append(Edit(path, old, new, readings, low, high, agrees))

    tried = found.poured + found.lost
    remarks += _too_few("batches", tried, LEAST_BATCHES)
    if tried >= LEAST_BATCHES:
        low, share, high = _share(found.lost, tried)
        offer("waste.lost_batches_fraction", share, tried, low, high)
        made = float(found.calibration)
        offer("waste.calibration_batches", made, found.calibration + tried, made, made)
    remarks += _too_few("blocks", found.made, LEAST_BLOCKS)
    if found.made >= LEAST_BLOCKS:
        low, share, high = _share(found.broken, found.made)
        offer("waste.breakage_fraction", share, found.made, low, high)
    mix = project.mix
    sample = found.yield_per_kg
    remarks += _too_few("yields", sample.readings if sample else 0, LEAST_BATCHES)
    if sample and sample.readings >= LEAST_BATCHES:
        if {"yield_l", "cement_kg"} <= set(mix.given) and mix.cement_kg:
            kilograms = mix.cement_kg
            off = COVERAGE * _of_mean(sample)
            offer(
                "mix.yield_l",
                sample.mean * kilograms,
                sample.readings,
                (sample.mean - off) * kilograms,
                (sample.mean + off) * kilograms,
            )
        else:
            remarks.append(note("plan_yield_not_given", path="mix.yield_l"))
    foam = found.foam_kg_m3
    remarks += _too_few("foam", foam.readings if foam else 0, LEAST_FOAM)
    if foam and foam.readings >= LEAST_FOAM:
        off = COVERAGE * _of_mean(foam)
        if "foam_density_kg_m3" in mix.given:
            offer("mix.foam_density_kg_m3", foam.mean, foam.readings, foam.mean - off, foam.mean + off)
        if len(found.dilutions) == 1:
            used = found.dilutions[0]
            offer("foam.agent_dilution", used, foam.readings, used, used)
    return tuple(edit for edit in edits if edit.old != edit.new), tuple(remarks)


def _sample(values: Sequence[float]) -> Sample | None:
    if not values:
        return None
    count = len(values)
    mean = math.fsum(values) / count
    if count == 1:
        return Sample(mean, 0.0, 1)
    squares = math.fsum((value - mean) ** 2 for value in values)
    return Sample(mean, math.sqrt(squares / (count - 1)), count)


def _of_mean(sample: Sample) -> float:
    return sample.deviation / math.sqrt(sample.readings)


def _share(some: int, count: int) -> tuple[float, float, float]:
    """Return a share between the ends of Wilson's interval; more than all counts as all."""
    share = min(1.0, some / count)
    square = COVERAGE**2
    centre = (share + square / (2 * count)) / (1 + square / count)
    half = COVERAGE / (1 + square / count) * math.sqrt(share * (1 - share) / count + square / (4 * count**2))
    return max(0.0, min(share, centre - half)), share, min(1.0, max(share, centre + half))


def _too_few(what: str, have: int, need: int) -> tuple[Note, ...]:
    return (note("plan_too_few", what=what, have=have, need=need),) if have < need else ()
