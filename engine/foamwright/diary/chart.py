"""The control chart of the foam's density: individuals and their moving range, and the tests for drift.

Limits are taken from the first 20 readings of a run and then held, so that a drift does not widen
the limits that should show it. A run is what one generator made with one agent at one dilution.
"""

import math
from collections.abc import Sequence
from typing import Final

from attrs import frozen

from foamwright.diary.notes import note
from foamwright.project.notes import Note

#: Mean range of two over the standard deviation, d2 for n = 2 (2 over the root of pi) [-].
D2: Final = 1.128
#: Limits of individuals by the mean moving range, 3 / d2 [-].
E2: Final = 2.660
#: Upper limit of the moving range by its mean, D4 for n = 2 [-].
D4: Final = 3.267
#: Below so many readings the fixed window alone judges (common practice, no source).
LEAST: Final = 20
#: What is denser is no reading and is left out [kg/m3].
LARGEST: Final = 1e6
#: Tests that tell of drift or of a jump; the others ask only to look.
STOPPING: Final = (1, 2, 3, 5, 6)
#: Points that each of the eight tests looks at.
LENGTHS: Final = {1: 1, 2: 9, 3: 6, 4: 14, 5: 3, 6: 5, 7: 15, 8: 8}


@frozen
class Point:
    """One reading as the chart takes it.

    Attributes
    ----------
    id : str
        Entry of the diary [-]
    at : str
        Date and time, ISO 8601 [-]
    generator : str
        Which generator [-]
    agent : str
        Which agent [-]
    dilution : float
        Parts of water to one of concentrate [-]
    density_kg_m3 : float
        Density of the foam [kg/m3]
    """

    id: str
    at: str
    generator: str
    agent: str
    dilution: float
    density_kg_m3: float


@frozen
class Limits:
    """Limits of a chart of individuals.

    Attributes
    ----------
    mean : float
        Centre line [kg/m3]
    moving_range : float
        Mean moving range of two [kg/m3]
    sigma : float
        Standard deviation that the moving range speaks of [kg/m3]
    low : float
        Lower limit of the individuals [kg/m3]
    high : float
        Upper limit of the individuals [kg/m3]
    range_high : float
        Upper limit of the moving range; its lower is 0 [kg/m3]
    readings : int
        Readings that they were taken from [-]
    """

    mean: float
    moving_range: float
    sigma: float
    low: float
    high: float
    range_high: float
    readings: int


@frozen
class Signal:
    """A test that fired.

    Attributes
    ----------
    test : int
        1 to 8 as Nelson numbers them; 0 is a moving range above its limit [-]
    first : int
        Place of the first reading that it rests on, from 0 [-]
    last : int
        Place of the last [-]
    side : str
        ``above``, ``below``, ``rising``, ``falling`` or empty [-]
    """

    test: int
    first: int
    last: int
    side: str


@frozen
class Chart:
    """A run of readings and what it says.

    Attributes
    ----------
    points : tuple of Point
        The run, in order [-]
    judged_by : str
        ``window`` below 20 readings, else ``chart``; the window counts in either case [-]
    limits : Limits or None
        Absent below two readings [-]
    signals : tuple of Signal
        Tests that fired, by their last reading; none below 20 readings [-]
    verdict : str
        ``go_on``, ``look`` or ``stop``; ``none`` without a reading [-]
    outside_window : bool
        Whether the last reading lies outside the fixed window [-]
    """

    points: tuple[Point, ...]
    judged_by: str
    limits: Limits | None
    signals: tuple[Signal, ...]
    verdict: str
    outside_window: bool


def run(points: Sequence[Point]) -> tuple[Point, ...]:
    """Return the readings since the generator, the agent or the dilution last changed.

    Source: common practice, no source: readings of one generator, agent and dilution are pooled across
    days, and any change starts anew.

    Parameters
    ----------
    points : sequence of Point
        Readings in order [-]

    Returns
    -------
    tuple of Point
        The last of them that share all three [-]

    Examples
    --------
    >>> points = [Point(str(i), "", "a", agent, 40.0, 95.0) for i, agent in enumerate("xxyx")]
    >>> [point.id for point in run(points)]
    ['3']
    """
    kept: list[Point] = []
    for point in reversed(points):
        if not abs(point.density_kg_m3) <= LARGEST:
            continue
        if kept and _made_by(point) != _made_by(kept[0]):
            break
        kept.append(point)
    return tuple(reversed(kept))


def limits(values: Sequence[float]) -> Limits | None:
    """Return the limits of a chart of individuals and moving range.

    Source: ISO 7870-2 (Shewhart control charts), individuals; the constants 2.660, 3.267 and 1.128 from
    memory, in agreement with ``3 sqrt(pi) / 2``, ``1 + 3 sqrt(pi / 2 - 1)`` and ``2 / sqrt(pi)``.
    NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2, works the same with 3 over 1.128.

    Parameters
    ----------
    values : sequence of float
        Readings in order [kg/m3]

    Returns
    -------
    Limits or None
        None below two readings [kg/m3]

    Examples
    --------
    >>> found = limits([49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1])
    >>> round(found.mean, 2), round(found.moving_range, 4)
    (50.81, 1.8778)
    """
    if len(values) < 2:
        return None
    # A mean of equal numbers must be that number, or equal readings would lie off their own mean.
    mean = min(max(math.fsum(values) / len(values), min(values)), max(values))
    ranges = _ranges(values)
    moving = math.fsum(ranges) / len(ranges)
    return Limits(
        mean=mean,
        moving_range=moving,
        sigma=moving / D2,
        low=mean - E2 * moving,
        high=mean + E2 * moving,
        range_high=D4 * moving,
        readings=len(values),
    )


def tests(values: Sequence[float], mean: float, sigma: float) -> tuple[Signal, ...]:
    """Run the eight tests for special causes over readings.

    Source: Nelson, "The Shewhart Control Chart - Tests for Special Causes", Journal of Quality
    Technology 16 (1984) 237: one beyond 3 sigma; nine on one side; six rising or falling; fourteen
    alternating; two of three beyond 2 sigma on one side; four of five beyond 1 sigma on one side;
    fifteen within 1 sigma; eight beyond 1 sigma on either side. The editions of ISO 7870-2 list fewer,
    some with runs of seven (from memory).

    Parameters
    ----------
    values : sequence of float
        Readings in order [kg/m3]
    mean : float
        Centre line [kg/m3]
    sigma : float
        Standard deviation, above 0 [kg/m3]

    Returns
    -------
    tuple of Signal
        Each window of readings that a test fires on, by last reading and test [-]

    Raises
    ------
    ValueError
        Sigma is not above 0.

    Examples
    --------
    >>> tests([0.1, -0.2, 3.2], 0.0, 1.0)
    (Signal(test=1, first=2, last=2, side='above'),)
    """
    if not sigma > 0:
        raise ValueError(f"sigma={sigma}; must be > 0")
    z = [(value - mean) / sigma for value in values]
    found = []
    for last in range(len(z)):
        for test, length in LENGTHS.items():
            first = last - length + 1
            side = _fires(test, z[first : last + 1]) if first >= 0 else None
            if side is not None:
                found.append(Signal(test, first, last, side))
    return tuple(found)


def chart(points: Sequence[Point], low: float, high: float) -> tuple[Chart, tuple[Note, ...]]:
    """Chart the last run of readings, and say whether to go on.

    Source: ISO 7870-2 for the limits, Nelson (1984) for the tests. That the fixed window alone judges
    below 20 readings, and which tests stop the work, is common practice, no source. Only what fires on
    the last reading decides; what fired before is listed.

    Parameters
    ----------
    points : sequence of Point
        Readings in order, of any run [-]
    low : float
        Lower limit of the fixed window [kg/m3]
    high : float
        Upper limit [kg/m3]

    Returns
    -------
    tuple of (Chart, tuple of Note)
        The chart and what to say beside it [-]

    Examples
    --------
    >>> off = (0.1, -0.8, 1.2, -0.3, 0.6, -1.5, 0.4, 0.9, -0.6, -0.2) * 2
    >>> points = [Point(str(i), "", "a", "x", 40.0, 95 + each) for i, each in enumerate(off)]
    >>> found, _ = chart(points, 90.0, 100.0)
    >>> found.judged_by, found.verdict
    ('chart', 'go_on')
    >>> chart([*points, Point("20", "", "a", "x", 40.0, 99.9)], 90.0, 100.0)[0].verdict
    'stop'
    """
    own = run(points)
    values = [point.density_kg_m3 for point in own]
    if not own:
        return Chart((), "window", None, (), "none", False), (
            note("chart_too_few", have=0, need=LEAST),
        )
    outside = not low <= values[-1] <= high
    known = limits(values[:LEAST])
    if len(own) < LEAST or known is None:
        verdict = "stop" if outside else "go_on"
        early = [note("chart_too_few", "info", "", "practice_chart", have=len(own), need=LEAST)]
        if outside:
            early.append(_stop("window", own[-1]))
        return Chart(own, "window", known, (), verdict, outside), tuple(early)
    remarks: list[Note] = []
    signals: tuple[Signal, ...] = ()
    if known.sigma > 1e-12 * abs(known.mean):
        wide = tuple(
            Signal(0, place, place + 1, "")
            for place, each in enumerate(_ranges(values))
            if each > known.range_high
        )
        found = tests(values, known.mean, known.sigma)
        signals = tuple(sorted((*wide, *found), key=lambda signal: (signal.last, signal.test)))
    else:
        remarks.append(note("chart_no_spread", "caution", "", "iso_7870_2", have=len(own)))
    now = [signal for signal in signals if signal.last == len(own) - 1]
    stopping = [signal for signal in now if signal.test in (0, *STOPPING)]
    verdict = "stop" if outside or stopping else "look" if now else "go_on"
    if outside:
        remarks.append(_stop("window", own[-1]))
    for signal in now:
        if signal in stopping:
            remarks.append(_stop(f"test_{signal.test}", own[-1], signal))
        else:
            remarks.append(
                note("chart_look", "caution", "", "nelson_1984", test=signal.test, side=signal.side)
            )
    return Chart(own, "chart", known, signals, verdict, outside), tuple(remarks)


def _made_by(point: Point) -> tuple[str, str, float]:
    return point.generator, point.agent, point.dilution


def _ranges(values: Sequence[float]) -> list[float]:
    return [abs(after - before) for before, after in zip(values, values[1:], strict=False)]


def _stop(reason: str, point: Point, signal: Signal | None = None) -> Note:
    source = "typed" if signal is None else "iso_7870_2" if signal.test == 0 else "nelson_1984"
    return note(
        "chart_stop",
        "warning",
        "",
        source,
        reason=reason,
        value=point.density_kg_m3,
        side=signal.side if signal else "",
        readings=signal.last - signal.first + 1 if signal else 1,
    )


def _fires(test: int, z: list[float]) -> str | None:
    """Return the side that a test fires on over its own window, none where it does not."""
    last = z[-1]
    side = "above" if last > 0 else "below"
    same = [value if last > 0 else -value for value in z]
    steps = [after - before for before, after in zip(z, z[1:], strict=False)]
    if test == 1:
        return side if same[-1] > 3 else None
    if test == 2:
        return side if last != 0 and min(same) > 0 else None
    if test == 3:
        if min(steps) > 0:
            return "rising"
        return "falling" if max(steps) < 0 else None
    if test == 4:
        turns = all(a * b < 0 for a, b in zip(steps, steps[1:], strict=False))
        return "" if turns else None
    if test in (5, 6):
        beyond, need = (2, 2) if test == 5 else (1, 4)
        # The last point must be one of them, or a window would fire for what is past.
        enough = same[-1] > beyond and sum(value > beyond for value in same) >= need
        return side if enough else None
    if test == 7:
        return "" if max(map(abs, z)) < 1 else None
    return "" if min(map(abs, z)) > 1 and min(z) < 0 < max(z) else None
