"""The bucket and the foam in it: what was weighed, how far it can be trusted, what to change.

Uncertainties follow the GUM (JCGM 100:2008): each influence as a rectangular distribution, added in
quadrature, told as an interval with coverage factor 2. Weights are taken as the scale shows them: a
litre of air weighs 1.2 g, but the windows for foam are stated for weights as read.
"""

import math
from typing import Final

from attrs import frozen

from foamwright.diary.notes import note, problem
from foamwright.material.density import FoamDensity
from foamwright.material.foam import density_weighed
from foamwright.material.mix import FOAM_ATTRIBUTED
from foamwright.project.model import Bucket
from foamwright.project.notes import Note, Problem, Severity

#: Coverage factor, about 95 % (JCGM 100:2008, 6.3.3) [-].
COVERAGE: Final = 2.0
#: Where the formula for the density of water holds [degrees C].
WATER_RANGE: Final = (0.0, 40.0)
#: Half-width of what a thermometer on site is off (common practice, no source) [K].
THERMOMETER: Final = 1.0
#: Half-width of what a brimful of water is off, of the volume (common practice, no source) [-].
BRIM: Final = 0.003
#: Water is weighed in air and stands 0.11 % higher than read; not corrected, counted as a half-width [-].
BUOYANCY: Final = 0.0011
#: Half-width of what foam struck off level is off, of the volume (common practice, no source) [-].
STRIKE: Final = 0.01
#: A net weight below so many steps of the scale says nothing (common practice, no source) [-].
LEAST_STEPS: Final = 20.0
#: A setting is led no further beyond those tried than this share of their span (common practice, no source) [-].
BEYOND: Final = 0.5
#: Most readings that the generator is learnt from, newest first (common practice, no source).
MOST_TRIED: Final = 8
#: Half-width of a start or a stop by hand (common practice, no source) [s].
REACTION: Final = 0.5
#: Numbers beyond these are no weights, volumes or times on a site [g, L, s, -].
SMALLEST: Final = 1e-6
LARGEST: Final = 1e9
#: Half-width of the volume of a drum that nobody measured, of the volume (common practice, no source) [-].
DRUM: Final = 0.02


@frozen
class Measured:
    """A value with its uncertainty.

    Attributes
    ----------
    value : float
        Best estimate [unit of the quantity]
    standard : float
        Standard uncertainty [unit of the quantity]
    low : float
        Lower end of the interval with coverage factor 2 [unit of the quantity]
    high : float
        Upper end [unit of the quantity]
    """

    value: float
    standard: float
    low: float
    high: float


@frozen
class Window:
    """One window for the density of foam, as published or typed.

    Attributes
    ----------
    code : str
        Code of the window [-]
    low_kg_m3 : float
        Lower limit [kg/m3]
    high_kg_m3 : float
        Upper limit [kg/m3]
    basis : str
        Density that it speaks of; always foam as weighed, ``foam_as_weighed`` [-]
    source : str
        Code of the source [-]
    """

    code: str
    low_kg_m3: float
    high_kg_m3: float
    basis: str
    source: str


@frozen
class Judged:
    """A window beside a reading.

    Attributes
    ----------
    window : Window
        The window [-]
    verdict : str
        ``below``, ``within``, ``above`` or ``cannot_tell`` [-]
    """

    window: Window
    verdict: str


@frozen
class FoamReading:
    """Foam that was weighed.

    Attributes
    ----------
    net_g : float
        Weight of the foam [g]
    density_kg_m3 : Measured
        Its density [kg/m3]
    verdict : str
        ``below``, ``within``, ``above`` or ``cannot_tell``, against the wanted window [-]
    straddles : str
        The limit that the interval straddles: ``low``, ``high``, ``both`` or empty [-]
    off_g : float
        What the bucket is off the weight aimed at; positive is too heavy [g]
    windows : tuple of Judged
        The wanted window and the published ones [-]
    """

    net_g: float
    density_kg_m3: Measured
    verdict: str
    straddles: str
    off_g: float
    windows: tuple[Judged, ...]


@frozen
class Tried:
    """One setting of the generator and the foam that came of it.

    Attributes
    ----------
    air : float
        Setting of the air, in whatever the builder reads it [builder's own unit]
    liquid : float
        Setting of the liquid [builder's own unit]
    density_kg_m3 : float
        Density of the foam [kg/m3]
    """

    air: float
    liquid: float
    density_kg_m3: float


@frozen
class Advice:
    """One way to bring the foam to its weight.

    Attributes
    ----------
    control : str
        ``air`` or ``liquid`` [-]
    direction : str
        ``more`` or ``less`` [-]
    by : float
        How much, 0 or more [builder's own unit]
    to : float
        Setting that follows [builder's own unit]
    expected_kg_m3 : float
        Density to expect there [kg/m3]
    limited : bool
        Whether the step was cut short, so that the foam will not be right at once [-]
    slope : float
        Change of density by one unit of the setting [kg/m3 per builder's own unit]
    readings : int
        Readings that it was learnt from [-]
    """

    control: str
    direction: str
    by: float
    to: float
    expected_kg_m3: float
    limited: bool
    slope: float
    readings: int


@frozen
class Output:
    """What the generator delivers.

    Attributes
    ----------
    l_per_min : Measured
        Foam per minute [L/min]
    seconds : Measured
        How long to foam for the batch [s]
    """

    l_per_min: Measured
    seconds: Measured


@frozen
class Concentrate:
    """Foaming agent for a batch and for the job.

    Attributes
    ----------
    share : float
        Concentrate in the solution [-]
    per_batch_l : float
        Concentrate for one batch [L]
    solution_per_batch_l : float
        Solution for one batch [L]
    per_job_l : float
        Concentrate for the job [L]
    containers : int
        Containers to buy for the job [-]
    batches_per_container : float
        Batches that one container serves [-]
    days_per_container : float
        Days that one container lasts [d]
    """

    share: float
    per_batch_l: float
    solution_per_batch_l: float
    per_job_l: float
    containers: int
    batches_per_container: float
    days_per_container: float


#: What others ask of foam; they do not agree, so each is shown.
WINDOWS: Final = (
    Window("common_practice", 90.0, 100.0, "foam_as_weighed", "practice_foam_window"),
    Window("attributed_c796", *FOAM_ATTRIBUTED, "foam_as_weighed", "memory_astm_c796"),
    Window("british_practice", 20.0, 90.0, "foam_as_weighed", "memory_british_practice"),
)


def measured(value: float, standard: float) -> Measured:
    """Give a value with its interval.

    Source: JCGM 100:2008 (GUM), 6.2.1, with coverage factor 2.

    Parameters
    ----------
    value : float
        Best estimate [unit of the quantity]
    standard : float
        Standard uncertainty, 0 or more [unit of the quantity]

    Returns
    -------
    Measured
        Both, and the interval [unit of the quantity]

    Examples
    --------
    >>> measured(95.0, 0.5).high
    96.0
    """
    return Measured(value, standard, value - COVERAGE * standard, value + COVERAGE * standard)


def rectangular(half_width: float) -> float:
    """Return the standard uncertainty of what lies evenly between two bounds.

    Source: JCGM 100:2008 (GUM), 4.3.7: half-width over the root of three.

    Parameters
    ----------
    half_width : float
        Half the distance between the bounds, 0 or more [unit of the quantity]

    Returns
    -------
    float
        Standard uncertainty [unit of the quantity]

    Examples
    --------
    >>> round(rectangular(0.5), 4)
    0.2887
    """
    return half_width / math.sqrt(3)


def water_density(temperature: float) -> float:
    """Return the density of pure water at ordinary pressure.

    Source: Tanaka et al., Metrologia 38 (2001) 301, from memory; agrees with IAPWS-IF97 to
    0.01 kg/m3. Valid from 0 to 40 degrees C; beyond, the nearer end is taken.

    Parameters
    ----------
    temperature : float
        Temperature [degrees C]

    Returns
    -------
    float
        Density [kg/m3]

    Examples
    --------
    >>> round(water_density(20.0), 2)
    998.21
    """
    t = min(max(temperature, WATER_RANGE[0]), WATER_RANGE[1])
    return 999.97495 * (1 - (t - 3.983035) ** 2 * (t + 301.797) / (522528.9 * (t + 69.34881)))


def calibrate(
    gross: float, empty: float, temperature: float, resolution: float
) -> tuple[Measured | None, tuple[Problem, ...], tuple[Note, ...]]:
    """Return the volume of a bucket that was weighed empty and brimful of water.

    Source: arithmetic; uncertainty by JCGM 100:2008 (GUM), 4.3.7, 5.1.2 and F.2.2.1. Counted are two
    readings of the scale, the thermometer, the brim and the air; the scale is taken as true. Valid for
    weights above 0 that differ by 20 steps of the scale or more.

    Parameters
    ----------
    gross : float
        Bucket with water [g]
    empty : float
        Empty bucket [g]
    temperature : float
        Of the water [degrees C]
    resolution : float
        Step of the scale, above 0 [g]

    Returns
    -------
    tuple of (Measured or None, tuple of Problem, tuple of Note)
        Volume [L], absent where the weights cannot be [-]

    Examples
    --------
    >>> volume, _, _ = calibrate(20464.0, 500.0, 20.0, 1.0)
    >>> round(volume.value, 2), round(volume.standard, 2)
    (20.0, 0.04)
    """
    faults = _weights(gross, empty, resolution)
    if not math.isfinite(temperature):
        faults += (problem("water_temperature_c", str(temperature), WATER_RANGE[1], "not_finite"),)
    if faults:
        return None, faults, ()
    density = water_density(temperature)
    slope = (water_density(temperature + 0.5) - water_density(temperature - 0.5)) / density
    net = gross - empty
    relative = math.hypot(
        _net_standard(resolution) / net,
        rectangular(slope * THERMOMETER),
        rectangular(BRIM),
        rectangular(BUOYANCY),
    )
    remarks = _coarse(net, resolution)
    if not WATER_RANGE[0] <= temperature <= WATER_RANGE[1]:
        remarks += (
            note(
                "water_temperature_outside",
                "caution",
                "water_temperature_c",
                "tanaka_2001",
                value=temperature,
                low=WATER_RANGE[0],
                high=WATER_RANGE[1],
            ),
        )
    volume = net / density
    return measured(volume, volume * relative), (), remarks


def weigh_foam(
    gross: float, empty: float, volume: Measured, resolution: float, window: Bucket
) -> tuple[FoamReading | None, tuple[Problem, ...], tuple[Note, ...]]:
    """Return the density of foam in the bucket, and what can be said of it.

    Source: arithmetic; uncertainty by JCGM 100:2008 (GUM), 4.3.7 and 5.1.2. The verdict stands only
    where the whole interval lies on one side of each limit. Valid for weights above 0.

    Parameters
    ----------
    gross : float
        Bucket full of foam, struck off level [g]
    empty : float
        Empty bucket [g]
    volume : Measured
        Volume of the bucket, above 0 [L]
    resolution : float
        Step of the scale, above 0 [g]
    window : Bucket
        The project's bucket, of which the window is used [-]

    Returns
    -------
    tuple of (FoamReading or None, tuple of Problem, tuple of Note)
        The reading, absent where the weights cannot be [-]

    Examples
    --------
    >>> reading, _, _ = weigh_foam(590.0, 500.0, measured(0.946, 0.002), 1.0, Bucket())
    >>> round(reading.density_kg_m3.value, 1), reading.verdict
    (95.1, 'within')
    >>> weigh_foam(586.0, 500.0, measured(0.946, 0.002), 1.0, Bucket())[0].verdict
    'cannot_tell'
    """
    faults = _weights(gross, empty, resolution)
    faults += _amounts((("bucket.volume_l", volume.value),), (("bucket.volume_standard_l", volume.standard),))
    if faults:
        return None, faults, ()
    net = gross - empty
    density = density_weighed(net, volume.value)
    relative = math.hypot(
        _net_standard(resolution) / net, volume.standard / volume.value, rectangular(STRIKE)
    )
    found = measured(density, density * relative)
    wanted = Window(
        "wanted", window.foam_low_kg_m3, window.foam_high_kg_m3, "foam_as_weighed", "typed"
    )
    verdict = judge(found, wanted.low_kg_m3, wanted.high_kg_m3)
    straddles = _straddled(found, wanted) if verdict == "cannot_tell" else ""
    reading = FoamReading(
        net_g=net,
        density_kg_m3=found,
        verdict=verdict,
        straddles=straddles,
        off_g=net - window.foam_aim_kg_m3 * volume.value,
        windows=tuple(
            Judged(each, judge(found, each.low_kg_m3, each.high_kg_m3)) for each in (wanted, *WINDOWS)
        ),
    )
    return reading, (), _coarse(net, resolution) + _said(reading, wanted)


def judge(found: Measured, low: float, high: float) -> str:
    """Say where a value lies against a window, its uncertainty counted.

    Source: arithmetic; the guard band of JCGM 106:2012, 8.3, with the expanded uncertainty, from memory.

    Parameters
    ----------
    found : Measured
        The value [unit of the quantity]
    low : float
        Lower limit, included [unit of the quantity]
    high : float
        Upper limit, included [unit of the quantity]

    Returns
    -------
    str
        ``below``, ``within``, ``above`` or ``cannot_tell`` where the interval straddles a limit [-]

    Examples
    --------
    >>> judge(measured(91.0, 1.0), 90.0, 100.0)
    'cannot_tell'
    """
    if found.high < low:
        return "below"
    if found.low > high:
        return "above"
    if found.low >= low and found.high <= high:
        return "within"
    return "cannot_tell"


def change(
    tried: tuple[Tried, ...], aim: float, uncertainty: float
) -> tuple[tuple[Advice, ...], tuple[Note, ...]]:
    """Say what to change on the generator, learnt from what was tried.

    Source: arithmetic (least squares of density on the settings that were varied; a secant where two
    readings stand), from the last eight readings at most. More air must make lighter foam and more
    liquid heavier, else nothing is advised. No setting is led beyond those tried by more than half
    their span, nor below 0 (common practice, no source).

    Parameters
    ----------
    tried : tuple of Tried
        Settings and what came of them, in order; the last is where the generator stands [-]
    aim : float
        Density aimed at, above 0 [kg/m3]
    uncertainty : float
        Standard uncertainty of one reading, 0 or more [kg/m3]

    Returns
    -------
    tuple of (tuple of Advice, tuple of Note)
        Ways to get there, one for each control that was learnt; none where nothing was [-]

    Examples
    --------
    >>> tried = (Tried(3.0, 2.0, 110.0), Tried(4.0, 2.0, 104.0))
    >>> advice, _ = change(tried, 101.0, 0.5)
    >>> advice[0].control, advice[0].direction, advice[0].by, advice[0].to
    ('air', 'more', 0.5, 4.5)
    >>> change(tried[:1], 101.0, 0.5)[1][0].code
    'generator_settings_too_few'
    """
    last = tuple(
        each
        for each in tried
        if all(
            math.isfinite(v) and abs(v) < 1e9 for v in (each.air, each.liquid, each.density_kg_m3)
        )
    )[-MOST_TRIED:]
    settings = {(each.air, each.liquid) for each in last}
    if len(settings) < 2:
        return (), (note("generator_settings_too_few", have=len(settings), need=2),)
    slopes = _slopes(last)
    if slopes is None:
        return (), (note("generator_settings_together", have=len(settings)),)
    advice: list[Advice] = []
    remarks: list[Note] = []
    for control, slope in slopes.items():
        values = [getattr(each, control) for each in last]
        span = max(values) - min(values)
        if abs(slope) * span <= COVERAGE * math.sqrt(2) * uncertainty or slope == 0:
            remarks.append(note("generator_no_effect", "caution", control=control))
            continue
        if (slope > 0) == (control == "air"):
            remarks.append(note("generator_contrary", "warning", control=control, slope=slope))
            continue
        here, now = values[-1], last[-1].density_kg_m3
        least, most = max(0.0, min(values) - BEYOND * span), max(values) + BEYOND * span
        wanted = here + (aim - now) / slope
        to = min(max(wanted, least), most)
        limited = to != wanted
        if limited and abs(to - here) <= 1e-9 * span:
            remarks.append(
                note("generator_setting_out_of_reach", "caution", control=control, low=least, high=most)
            )
            continue
        if limited:
            remarks.append(
                note("generator_step_limited", "caution", control=control, low=least, high=most)
            )
        advice.append(
            Advice(
                control=control,
                direction="more" if to >= here else "less",
                by=abs(to - here),
                to=to,
                expected_kg_m3=now + slope * (to - here),
                limited=limited,
                slope=slope,
                readings=len(last),
            )
        )
    return tuple(advice), tuple(remarks)


def output(
    drum: float, seconds: float, foam: float, drum_standard: float | None = None
) -> tuple[Output | None, tuple[Problem, ...]]:
    """Return what the generator delivers, from the time that it takes to fill a known drum.

    Source: arithmetic; uncertainty by JCGM 100:2008 (GUM), 4.3.7 and 5.1.2. Start and stop by hand are
    each off by half a second at most (common practice, no source).

    Parameters
    ----------
    drum : float
        Volume of the drum, above 0 [L]
    seconds : float
        Time to fill it, above 0 [s]
    foam : float
        Foam that a batch takes, 0 or more [L]
    drum_standard : float or None
        Standard uncertainty of the drum; two in a hundred at most where nobody measured it [L]

    Returns
    -------
    tuple of (Output or None, tuple of Problem)
        Foam per minute and seconds for the batch [-]

    Examples
    --------
    >>> found, _ = output(60.0, 40.0, 120.0)
    >>> round(found.l_per_min.value, 9), round(found.seconds.value, 9)
    (90.0, 80.0)
    """
    rest = (("foam_l", foam), ("drum_standard_l", drum_standard or 0.0))
    faults = _amounts((("drum_l", drum), ("seconds", seconds)), rest)
    if faults:
        return None, faults
    of_drum = rectangular(DRUM) if drum_standard is None else drum_standard / drum
    relative = math.hypot(of_drum, math.sqrt(2) * rectangular(REACTION) / seconds)
    rate = drum / seconds * 60
    needed = foam / drum * seconds
    # The hand is late again when the batch is foamed.
    again = math.sqrt(2) * rectangular(REACTION) if foam else 0.0
    return (
        Output(measured(rate, rate * relative), measured(needed, math.hypot(needed * relative, again))),
        (),
    )


def concentrate(
    dilution: float,
    foam: float,
    density: FoamDensity,
    batches: float,
    container: float,
    batches_per_day: float,
) -> tuple[Concentrate | None, tuple[Problem, ...]]:
    """Return how much concentrate a batch and the job take, and how long a container lasts.

    Source: arithmetic; parts of water to one part of concentrate by volume, both as heavy as water.

    Parameters
    ----------
    dilution : float
        Parts of water to one part of concentrate, above 0 [-]
    foam : float
        Foam of one batch, above 0 [L]
    density : FoamDensity
        Its density, above 0 [kg/m3]
    batches : float
        Batches of the job, 0 or more [-]
    container : float
        Volume of a container, above 0 [L]
    batches_per_day : float
        Batches that a day makes, above 0 [1/d]

    Returns
    -------
    tuple of (Concentrate or None, tuple of Problem)
        Use, and the days of a container [-]

    Examples
    --------
    >>> found, _ = concentrate(40.0, 123.0, FoamDensity(100.0), 94.0, 20.0, 8.0)
    >>> round(found.per_batch_l, 3), found.containers, round(found.days_per_container, 1)
    (0.3, 2, 8.3)
    """
    faults = _amounts(
        (
            ("foam.agent_dilution", dilution),
            ("foam_l", foam),
            ("foam_density_kg_m3", density),
            ("container_l", container),
            ("batches_per_day", batches_per_day),
        ),
        (("batches", batches),),
    )
    if faults:
        return None, faults
    solution = foam * density / 1000
    share = 1 / (1 + dilution)
    each = solution * share
    job = each * batches
    serves = container / each
    return (
        Concentrate(
            share=share,
            per_batch_l=each,
            solution_per_batch_l=solution,
            per_job_l=job,
            containers=math.ceil(job / container - 1e-9),
            batches_per_container=serves,
            days_per_container=serves / batches_per_day,
        ),
        (),
    )


def _amounts(
    above: tuple[tuple[str, float], ...], least: tuple[tuple[str, float], ...]
) -> tuple[Problem, ...]:
    """Return what is wrong with numbers that must lie above 0, and with those that may be 0."""
    found = []
    for (path, value), low in (*((each, SMALLEST) for each in above), *((each, 0.0) for each in least)):
        if not math.isfinite(value):
            found.append(problem(path, str(value), LARGEST, "not_finite"))
        elif value < low:
            found.append(problem(path, value, low, "too_small"))
        elif value > LARGEST:
            found.append(problem(path, value, LARGEST, "too_big"))
    return tuple(found)


def _weights(gross: float, empty: float, resolution: float) -> tuple[Problem, ...]:
    asked = (("gross_g", gross), ("empty_g", empty))
    faults = _amounts((("resolution_g", resolution),), asked)
    if not faults and gross - empty < SMALLEST:
        return (problem("gross_g", gross, empty, "gross_below_empty"),)
    return faults


def _net_standard(resolution: float) -> float:
    return math.sqrt(2) * rectangular(resolution / 2)


def _coarse(net: float, resolution: float) -> tuple[Note, ...]:
    if net >= LEAST_STEPS * resolution:
        return ()
    return (
        note(
            "scale_too_coarse",
            "caution",
            "resolution_g",
            "jcgm_100",
            net=net,
            resolution=resolution,
            least=LEAST_STEPS * resolution,
        ),
    )


def _straddled(found: Measured, window: Window) -> str:
    low = found.low < window.low_kg_m3 <= found.high
    high = found.low <= window.high_kg_m3 < found.high
    return "both" if low and high else "low" if low else "high"


def _said(reading: FoamReading, window: Window) -> tuple[Note, ...]:
    if reading.verdict == "within":
        return ()
    code = "foam_cannot_tell" if reading.verdict == "cannot_tell" else f"foam_{reading.verdict}_window"
    severity: Severity = "caution" if reading.verdict == "cannot_tell" else "warning"
    return (
        note(
            code,
            severity,
            "gross_g",
            "typed",
            value=reading.density_kg_m3.value,
            interval_low=reading.density_kg_m3.low,
            interval_high=reading.density_kg_m3.high,
            low=window.low_kg_m3,
            high=window.high_kg_m3,
        ),
    )


def _slopes(tried: tuple[Tried, ...]) -> dict[str, float] | None:
    """Return the slope for each control that was varied; none where both always moved together."""
    count = len(tried)
    means = [
        math.fsum(getattr(each, name) for each in tried) / count
        for name in ("air", "liquid", "density_kg_m3")
    ]
    rows = [
        (each.air - means[0], each.liquid - means[1], each.density_kg_m3 - means[2]) for each in tried
    ]

    def total(i: int, j: int) -> float:
        return math.fsum(row[i] * row[j] for row in rows)

    varied = [len({getattr(each, name) for each in tried}) > 1 for name in ("air", "liquid")]
    air, liquid, both = total(0, 0), total(1, 1), total(0, 1)
    if varied == [True, False]:
        return {"air": total(0, 2) / air} if air > 0 else None
    if varied == [False, True]:
        return {"liquid": total(1, 2) / liquid} if liquid > 0 else None
    determinant = air * liquid - both * both
    if not determinant > 1e-6 * air * liquid:
        return None
    return {
        "air": (total(0, 2) * liquid - total(1, 2) * both) / determinant,
        "liquid": (total(1, 2) * air - total(0, 2) * both) / determinant,
    }
