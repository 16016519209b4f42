"""The stand-and-drain test: how soon the liquid runs out of a measure of foam.

Weight alone misses a bad agent and hard water, since such foam may weigh what it should when it is
made. How long foam must stand is settled by no standard for this material that could be read, so
the builder's own good foam is the better measure.
"""

import math
from typing import Final

from attrs import frozen

from foamwright.diary.notes import note, problem
from foamwright.project.notes import Note, Problem

#: A quarter drained sooner than this: too soon for the foam to be folded in and set (common practice, no source) [min].
SOON: Final = 5.0
#: A quarter drained no sooner than this holds (common practice, no source) [min].
HOLDS: Final = 15.0
#: Less than this share of the time that the builder's own good foam took is worse (common practice, no source) [-].
OWN: Final = 0.7
#: Share of the liquid that may drain within an hour, JC/T 2199-2013, better and lower grade (from memory) [-].
HOUR: Final = (0.70, 0.80)


@frozen
class Mark:
    """What had drained at a time.

    Attributes
    ----------
    minutes : float
        Since the measure was filled [min]
    drained_ml : float
        Liquid below the foam by then [mL]
    """

    minutes: float
    drained_ml: float


@frozen
class Drain:
    """A test that was read.

    Attributes
    ----------
    liquid_ml : float
        Liquid in the foam at the start [mL]
    quarter_minutes : float or None
        Until a quarter had drained; none where it was not reached [min]
    half_minutes : float or None
        Until half had drained; none where it was not reached [min]
    watched_minutes : float
        How long it was watched [min]
    last_share : float
        Share that had drained by then [-]
    hour_share : float or None
        Share drained at 60 minutes, none where it was not watched so long [-]
    verdict : str
        ``soon``, ``middling``, ``holds`` or ``cannot_tell`` [-]
    own_ratio : float or None
        Quarter time over that of the builder's own good foam [-]
    hour_grade : str
        JC/T 2199-2013 at one hour: ``first``, ``qualified``, ``neither`` or ``unwatched`` [-]
    """

    liquid_ml: float
    quarter_minutes: float | None
    half_minutes: float | None
    watched_minutes: float
    last_share: float
    hour_share: float | None
    verdict: str
    own_ratio: float | None
    hour_grade: str


def drain(
    net: float, marks: tuple[Mark, ...], own_quarter: float | None = None
) -> tuple[Drain | None, tuple[Problem, ...], tuple[Note, ...]]:
    """Return the quarter time and the half-life of foam that stood in a measure.

    Source: arithmetic (straight lines between the readings, from nothing at the start; a gram of
    solution taken as a millilitre). The 25 percent drain time is defined as in USDA Forest Service STP
    8.3 (2006), a test of other foams. The verdict's bands are common practice, no source; the hour is
    JC/T 2199-2013, from memory.

    Parameters
    ----------
    net : float
        Weight of the foam in the measure at the start, above 0 [g]
    marks : tuple of Mark
        Readings in order of time, at least one [-]
    own_quarter : float or None
        Quarter time of the builder's own good foam, where known, above 0 [min]

    Returns
    -------
    tuple of (Drain or None, tuple of Problem, tuple of Note)
        The times, absent where the readings cannot be [-]

    Examples
    --------
    >>> found, _, _ = drain(96.0, (Mark(10.0, 12.0), Mark(20.0, 36.0), Mark(40.0, 60.0)))
    >>> found.quarter_minutes, found.half_minutes, found.verdict
    (15.0, 30.0, 'holds')
    """
    faults = _faults(net, marks, own_quarter)
    if faults:
        return None, faults, ()
    shares = ((0.0, 0.0), *((mark.minutes, mark.drained_ml / net) for mark in marks))
    watched, last = shares[-1]
    quarter, half = _when(shares, 0.25), _when(shares, 0.50)
    hour = _at(shares, 60.0)
    if quarter is not None:
        verdict = "soon" if quarter < SOON else "middling" if quarter < HOLDS else "holds"
    else:
        verdict = "holds" if watched >= HOLDS else "cannot_tell"
    ratio = None if quarter is None or own_quarter is None else quarter / own_quarter
    remarks: list[Note] = []
    if quarter is None:
        remarks.append(note("drain_not_reached", minutes=watched, share=last, asked=0.25))
    if verdict == "soon" and quarter is not None:
        remarks.append(note("drain_soon", "warning", "", "practice_drain", minutes=quarter, least=SOON))
    if ratio is not None and ratio < OWN:
        remarks.append(note("drain_worse_than_own", "warning", "", "practice_drain", ratio=ratio))
    if hour is None:
        grade = "unwatched"
    else:
        grade = "first" if hour <= HOUR[0] else "qualified" if hour <= HOUR[1] else "neither"
    return (
        Drain(net, quarter, half, watched, last, hour, verdict, ratio, grade),
        (),
        tuple(remarks),
    )


def _faults(net: float, marks: tuple[Mark, ...], own: float | None) -> tuple[Problem, ...]:
    found: list[Problem] = []
    if not (math.isfinite(net) and net > 1e-6):
        found.append(problem("net_g", net if math.isfinite(net) else str(net), 0, "too_small"))
    if own is not None and not (math.isfinite(own) and own > 1e-6):
        found.append(problem("own_quarter", own if math.isfinite(own) else str(own), 0, "too_small"))
    if not marks:
        found.append(problem("marks", 0, 1, "too_few"))
    minutes, drained = 0.0, 0.0
    for index, mark in enumerate(marks):
        path = f"marks[{index}]"
        if not (math.isfinite(mark.minutes) and math.isfinite(mark.drained_ml)):
            found.append(problem(path, str((mark.minutes, mark.drained_ml)), "finite", "not_finite"))
            continue
        if mark.minutes <= minutes:
            found.append(problem(f"{path}.minutes", mark.minutes, minutes, "drain_not_rising"))
        if mark.drained_ml < drained:
            found.append(problem(f"{path}.drained_ml", mark.drained_ml, drained, "drain_not_rising"))
        if mark.drained_ml > net:
            found.append(problem(f"{path}.drained_ml", mark.drained_ml, net, "drain_more_than_liquid"))
        minutes, drained = mark.minutes, mark.drained_ml
    return tuple(found)


def _when(shares: tuple[tuple[float, float], ...], share: float) -> float | None:
    for (before, less), (after, more) in zip(shares, shares[1:], strict=False):
        if less < share <= more:
            return before + (after - before) * (share - less) / (more - less)
    return None


def _at(shares: tuple[tuple[float, float], ...], minutes: float) -> float | None:
    for (before, less), (after, more) in zip(shares, shares[1:], strict=False):
        if before <= minutes <= after:
            return less + (more - less) * (minutes - before) / (after - before)
    return None
