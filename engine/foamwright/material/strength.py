"""How old the concrete is for its temperature, when it may be touched, and what crushed specimens say.

All curves of hardening here were made for dense concrete; none was measured on light foamed
concrete. They are shown beside common practice, and the specimens of the job stand above both.
"""

import math
from typing import Final

from attrs import frozen

from foamwright.material.density import OvenDryDensity, WetDensity
from foamwright.material.expect import expect
from foamwright.material.row import Row
from foamwright.project.notes import Note, Problem, Scalar

#: Coefficient s by class of cement (EN 1992-1-1:2004, 3.1.2(6)) [-].
S: Final = {"rapid": 0.20, "normal": 0.25, "slow": 0.38}
#: Temperatures for which EN 1992-1-1, B.1(3), states its age [C].
TEMPERATURES: Final = (0.0, 80.0)
#: Datum temperatures of Nurse and Saul: Saul's, and that of ASTM C1074 for Type I cement (from memory) [C].
DATUMS: Final = (-10.0, 0.0)
#: Energy of activation over the gas constant: 41.5 kJ/mol (ASTM C1074, from memory) and 8.314 J/(mol K) [K].
ACTIVATION: Final = 41500.0 / 8.314
#: Reference of equivalent ages [C].
REFERENCE: Final = 20.0
#: Share of the 28-day strength at seven days as the trade says it (common practice, no source) [-].
SEVEN_DAYS: Final = 0.80
#: Stages with the least and most hours or days at 20 C, and the share of the 28-day strength that a
#: curve must show beside it: common practice, no source, both [h at 20 C, -].
STAGES: Final[dict[str, tuple[tuple[float, float], float]]] = {
    "demould": ((18.0, 36.0), 0.20),
    "handle": ((48.0, 96.0), 0.50),
    "build_on": ((120.0, 168.0), 0.75),
    "load": ((504.0, 672.0), 1.00),
}
#: No stage is said to take longer [d].
LONGEST_D: Final = 365.0
#: Factor k_n of a characteristic value, 5 % fractile, coefficient of variation unknown (EN 1990:2002,
#: Table D1): Student's t at 95 % times sqrt(1 + 1/n); n from 3 up, the table's own ends at 30.
STUDENT_95: Final = (
    2.9200, 2.3534, 2.1318, 2.0150, 1.9432, 1.8946, 1.8595, 1.8331, 1.8125, 1.7959, 1.7823, 1.7709, 1.7613, 1.7531,
    1.7459, 1.7396, 1.7341, 1.7291, 1.7247, 1.7207, 1.7171, 1.7139, 1.7109, 1.7081, 1.7056, 1.7033, 1.7011, 1.6991,
)  # fmt: skip

#: Time of each stretch and its temperature [h, C].
History = tuple[tuple[float, float], ...]


@frozen
class Ages:
    """How old concrete is for its temperature, by each method.

    Attributes
    ----------
    hours : float
        By the clock [h]
    en_days : float
        EN 1992-1-1, B.10: at 20 degrees C it runs 0.2 % slow by its own constants [d]
    arrhenius_days : float
        ASTM C1074, equivalent age at 20 degrees C [d]
    saul_low_days : float
        ASTM C1074, temperature-time factor over that of an hour at 20 degrees C; the lesser of both datums [d]
    saul_high_days : float
        The greater [d]
    saul_c_h : tuple of float
        Temperature-time factors with datum -10 and 0 degrees C [C h]
    """

    hours: float
    en_days: float
    arrhenius_days: float
    saul_low_days: float
    saul_high_days: float
    saul_c_h: tuple[float, ...]


@frozen
class Stage:
    """When something may be done with it.

    Attributes
    ----------
    stage : str
        ``demould``, ``handle``, ``build_on`` or ``load`` [-]
    low_days : float
        Soonest, at the temperature stated [d]
    high_days : float
        Latest that one of the ways comes to [d]
    curve_days : float
        By EN 1992-1-1 for the share of the 28-day strength named beside it [d]
    share : float
        That share: common practice, no source [-]
    practice_low_days : float
        Common practice, brought to the temperature [d]
    practice_high_days : float
        The same, longest [d]
    """

    stage: str
    low_days: float
    high_days: float
    curve_days: float
    share: float
    practice_low_days: float
    practice_high_days: float


@frozen
class Crushed:
    """What specimens of one age and mix say.

    Attributes
    ----------
    count : int
        Specimens [-]
    mean_mpa : float
        Mean [MPa]
    deviation_mpa : float or None
        Standard deviation of the sample; none of one specimen [MPa]
    variation : float or None
        That over the mean [-]
    least_mpa : float
        Weakest [MPa]
    characteristic_mpa : float or None
        5 % fractile by EN 1990, normal distribution, not below 0; none under three specimens [MPa]
    characteristic_log_mpa : float or None
        The same, lognormal [MPa]
    against : tuple of Row
        Expected rows; the note says ``below``, ``within`` or ``above`` [MPa]
    """

    count: int
    mean_mpa: float
    deviation_mpa: float | None
    variation: float | None
    least_mpa: float
    characteristic_mpa: float | None
    characteristic_log_mpa: float | None
    against: tuple[Row, ...]


def share(days: float, s: float) -> float:
    """Return the strength at an age over that at 28 days.

    Source: EN 1992-1-1:2004, eq. 3.2: ``exp(s (1 - sqrt(28 / t)))``, for dense concrete at 20
    degrees C.

    Parameters
    ----------
    days : float
        Age at 20 degrees C, 0 or more [d]
    s : float
        Coefficient of the cement: 0.20, 0.25 or 0.38 [-]

    Returns
    -------
    float
        Share [-]

    Examples
    --------
    >>> [round(share(t, 0.25), 5) for t in (1, 3, 7, 28, 90)]
    [0.34202, 0.59824, 0.7788, 1.0, 1.1169]
    >>> share(0.0, 0.25)
    0.0
    """
    # Ages under a millisecond have no strength; so small a number has no square root of its inverse either.
    return math.exp(s * (1 - math.sqrt(28 / days))) if days > 1e-8 else 0.0


def days_to(part: float, s: float) -> float:
    """Return the age at which a share of the 28-day strength is reached.

    Source: EN 1992-1-1:2004, eq. 3.2, turned round.

    Parameters
    ----------
    part : float
        Share, above 0 and below ``exp(s)`` [-]
    s : float
        Coefficient of the cement, above 0 [-]

    Returns
    -------
    float
        Age at 20 degrees C; infinite where the curve never reaches it [d]

    Examples
    --------
    >>> round(days_to(0.75, 0.25), 2)
    6.05
    """
    root = 1 - math.log(part) / s
    return 28 / root**2 if root > 0 else math.inf


def rate_en(celsius: float) -> float:
    """Return how fast concrete ages at a temperature, over 20 degrees C.

    Source: EN 1992-1-1:2004, eq. B.10, and fib Model Code 2010, eq. 5.1-85:
    ``exp(13.65 - 4000 / (273 + T))``, for 0 to 80 degrees C; its constants give 0.9981 at 20.

    Parameters
    ----------
    celsius : float
        Temperature, above -273 [C]

    Returns
    -------
    float
        Rate [-]

    Examples
    --------
    >>> [round(rate_en(t), 3) for t in (0, 5, 10, 15, 20, 30, 40)]
    [0.367, 0.478, 0.616, 0.788, 0.998, 1.566, 2.388]
    """
    return math.exp(13.65 - 4000 / (273 + celsius))


def rate_arrhenius(celsius: float) -> float:
    """Return how fast concrete ages at a temperature, over 20 degrees C.

    Source: ASTM C1074, equivalent age, form from memory; 41.5 kJ/mol, from memory.

    Parameters
    ----------
    celsius : float
        Temperature, above -273.15 [C]

    Returns
    -------
    float
        Rate [-]

    Examples
    --------
    >>> [round(rate_arrhenius(t), 3) for t in (5, 10, 30, 40)]
    [0.399, 0.548, 1.754, 2.967]
    """
    return math.exp(ACTIVATION * (1 / (273.15 + REFERENCE) - 1 / (273.15 + celsius)))


def saul(history: History, datum: float) -> float:
    """Return the temperature-time factor of Nurse and Saul.

    Source: ASTM C1074, form from memory: the sum of hours times degrees above the datum; colder
    stretches count nothing.

    Parameters
    ----------
    history : tuple of (float, float)
        Hours and temperatures [h, C]
    datum : float
        Datum temperature [C]

    Returns
    -------
    float
        Factor [C h]

    Examples
    --------
    >>> saul(((72.0, 10.0), (96.0, 20.0)), -10.0), saul(((72.0, 10.0), (96.0, 20.0)), 0.0)
    (4320.0, 2640.0)
    """
    return sum(hours * max(celsius - datum, 0.0) for hours, celsius in history)


def ages(
    history: History,
) -> tuple[Ages | None, tuple[Problem, ...], tuple[Note, ...]]:
    """Return the age of concrete for its temperature, by each method.

    Source: EN 1992-1-1:2004, eq. B.10; ASTM C1074, Arrhenius and Nurse-Saul, from memory. All for
    dense concrete. EN 1992-1-1 states its age for 0 to 80 degrees C; below 0 hardening is taken to
    stand still here, which is arithmetic and no claim.

    Parameters
    ----------
    history : tuple of (float, float)
        Hours, 0 or more, and temperatures of the concrete in the order they were [h, C]

    Returns
    -------
    tuple of (Ages or None, tuple of Problem, tuple of Note)
        The ages, absent where a reading cannot be [-]

    Examples
    --------
    >>> one = ages(((28 * 24.0, 10.0),))[0]
    >>> round(one.en_days, 3), round(one.arrhenius_days, 2)
    (17.252, 15.35)
    """
    problems: list[Problem] = []
    for i, (hours, celsius) in enumerate(history):
        for name, value, low, high in (
            ("hours", hours, 0.0, 1e6),
            ("celsius", celsius, -60.0, 100.0),
        ):
            path = f"strength.history[{i}].{name}"
            if not math.isfinite(value):
                problems.append(Problem(path, None, None, "not_finite"))
            elif value < low:
                problems.append(Problem(path, value, low, "too_small"))
            elif value > high:
                problems.append(Problem(path, value, high, "too_big"))
    if problems:
        return None, tuple(problems), ()
    warm = tuple((hours, celsius) for hours, celsius in history if celsius >= 0)
    factors = tuple(saul(warm, datum) for datum in DATUMS)
    equivalent = sorted(
        factor / (REFERENCE - datum) / 24 for factor, datum in zip(factors, DATUMS, strict=True)
    )
    result = Ages(
        sum(hours for hours, _ in history),
        sum(hours * rate_en(celsius) for hours, celsius in warm) / 24,
        sum(hours * rate_arrhenius(celsius) for hours, celsius in warm) / 24,
        equivalent[0],
        equivalent[-1],
        factors,
    )
    notes = [Note("made_for_dense_concrete", "info", "strength", {}, "en_1992_b10")]
    outside = [t for _, t in history if not TEMPERATURES[0] <= t <= TEMPERATURES[1]]
    if outside:
        params: dict[str, Scalar] = {
            "value": outside[0],
            "low": TEMPERATURES[0],
            "high": TEMPERATURES[1],
        }
        notes.append(
            Note("temperature_outside_range", "caution", "strength.history", params, "en_1992_b10")
        )
    return result, (), tuple(notes)


def developed(age: Ages, s: float) -> tuple[Row, ...]:
    """Return the share of the 28-day strength that each method comes to.

    Source: EN 1992-1-1:2004, eq. 3.2, at the ages of ``ages``; for dense concrete.

    Parameters
    ----------
    age : Ages
        Ages for the temperature [-]
    s : float
        Coefficient of the cement [-]

    Returns
    -------
    tuple of Row
        A share by each method of ageing [-]

    Examples
    --------
    >>> [(r.source, round(r.low, 2)) for r in developed(ages(((24.0, 20.0),))[0], S["normal"])]
    [('en_1992_b10', 0.34), ('astm_c1074_arrhenius', 0.34), ('astm_c1074_saul', 0.34)]
    """
    note = "made_for_dense_concrete"
    return (
        Row("share_of_28_days", *(share(age.en_days, s),) * 2, "en_1992_b10", "-", note),
        Row("share_of_28_days", *(share(age.arrhenius_days, s),) * 2, "astm_c1074_arrhenius", "-", note),
        Row(
            "share_of_28_days",
            share(age.saul_low_days, s),
            share(age.saul_high_days, s),
            "astm_c1074_saul",
            "-",
            note,
        ),
    )


def seven_days() -> tuple[tuple[Row, ...], tuple[Note, ...]]:
    """Set the trade's 80 % at seven days beside the curves.

    Source: common practice, no source; EN 1992-1-1:2004, eq. 3.2, for dense concrete; ACI 209R-92,
    Table 2.2.1, ``t / (4 + 0.85 t)``, from memory.

    Returns
    -------
    tuple of (tuple of Row, tuple of Note)
        A share by each [-]

    Examples
    --------
    >>> [(r.source, round(r.low, 3)) for r in seven_days()[0]][:2]
    [('practice_seven_days', 0.8), ('en_1992_rapid', 0.819)]
    """
    quantity, note = "share_at_7_days", "made_for_dense_concrete"
    rows = [Row(quantity, SEVEN_DAYS, SEVEN_DAYS, "practice_seven_days")]
    rows += [
        Row(quantity, share(7.0, s), share(7.0, s), f"en_1992_{name}", "-", note) for name, s in S.items()
    ]
    rows.append(Row(quantity, 7 / (4 + 0.85 * 7), 7 / (4 + 0.85 * 7), "aci_209r", "-", note))
    params: dict[str, Scalar] = {"low": min(r.low for r in rows[1:]), "high": max(r.high for r in rows[1:])}
    params["practice"] = SEVEN_DAYS
    return tuple(rows), (Note("seven_days_differ", "info", "strength", params, "practice_seven_days"),)


def touch(
    celsius: float, cement: str = "normal"
) -> tuple[tuple[Stage, ...], tuple[Problem, ...], tuple[Note, ...]]:
    """Return when it may be demoulded, handled, built on and loaded at a steady temperature.

    Source: hours at 20 degrees C and the shares of strength are common practice, no source (demould
    the next day); they are brought to the temperature by the rates of EN 1992-1-1:2004, eq. B.10,
    and ASTM C1074 (from memory), and set beside the curve of EN 1992-1-1, eq. 3.2, all for dense
    concrete. A stage is no leave to load: a specimen or a licensed engineer says so.

    Parameters
    ----------
    celsius : float
        Temperature of the concrete, 0 to 80 [C]
    cement : str
        ``rapid``, ``normal`` or ``slow`` [-]

    Returns
    -------
    tuple of (tuple of Stage, tuple of Problem, tuple of Note)
        Stages in order, none where the temperature lies outside [-]

    Examples
    --------
    >>> [(s.stage, round(s.low_days, 1), round(s.high_days, 1)) for s in touch(20.0)[0]]
    [('demould', 0.5, 1.5), ('handle', 2.0, 4.0), ('build_on', 5.0, 7.0), ('load', 21.0, 28.1)]
    """
    if cement not in S:
        return (), (Problem("strength.cement", cement, ",".join(S), "not_a_choice"),), ()
    if not math.isfinite(celsius):
        return (), (Problem("strength.celsius", None, None, "not_finite"),), ()
    if celsius < TEMPERATURES[0]:
        return (), (Problem("strength.celsius", celsius, TEMPERATURES[0], "too_small"),), ()
    if celsius > TEMPERATURES[1]:
        return (), (Problem("strength.celsius", celsius, TEMPERATURES[1], "too_big"),), ()
    rates = sorted((rate_en(celsius), rate_arrhenius(celsius)))
    stages: list[Stage] = []
    before = 0.0
    for name, (hours, part) in STAGES.items():
        practice = (hours[0] / 24 / rates[1], hours[1] / 24 / rates[0])
        curve = days_to(part, S[cement]) / rate_en(celsius)
        low = max(min(practice[0], curve), before)
        high = min(max(practice[1], curve), LONGEST_D)
        stages.append(Stage(name, min(low, high), high, curve, part, *practice))
        before = stages[-1].low_days
    return tuple(stages), (), (Note("made_for_dense_concrete", "caution", "strength", {}, "en_1992_3_2"),)


def factor(count: int) -> float:
    """Return the factor by which a characteristic value lies below the mean of so many specimens.

    Source: EN 1990:2002, Table D1, coefficient of variation unknown (from memory; the table prints
    the same within 0.012): ``t(0.95, n - 1) sqrt(1 + 1 / n)``.

    Parameters
    ----------
    count : int
        Specimens, 3 or more; above 30 as 30, which is on the safe side [-]

    Returns
    -------
    float
        Factor [-]

    Raises
    ------
    ValueError
        Fewer than three specimens.

    Examples
    --------
    >>> [round(factor(n), 2) for n in (3, 4, 5, 6, 8, 10, 20, 30)]
    [3.37, 2.63, 2.34, 2.18, 2.01, 1.92, 1.77, 1.73]
    """
    if count < 3:
        raise ValueError(f"count={count} is below 3")
    used = min(count, len(STUDENT_95) + 2)
    return STUDENT_95[used - 3] * math.sqrt(1 + 1 / used)


def crushed(
    strengths: tuple[float, ...],
    wet: WetDensity | None = None,
    oven_dry: OvenDryDensity | None = None,
    shape: str = "cube",
) -> tuple[Crushed | None, tuple[Problem, ...], tuple[Note, ...]]:
    """Return what crushed cubes or cylinders say, and set it against what is published.

    Source: EN 1990:2002, D7.2 and Table D1 (from memory), normal and lognormal. The criteria of
    EN 206 add whole megapascals to the class and were made for dense concrete; on concrete of a
    megapascal they say nothing and are not used. Cubes and cylinders are not converted: no published
    factor for light foamed concrete was found.

    Parameters
    ----------
    strengths : tuple of float
        Strength of each specimen of one mix and age, 0 or more [MPa]
    wet : WetDensity, optional
        Density as cast of that mix [kg/m3]
    oven_dry : OvenDryDensity, optional
        Density dried in the oven [kg/m3]
    shape : str
        ``cube`` or ``cylinder`` [-]

    Returns
    -------
    tuple of (Crushed or None, tuple of Problem, tuple of Note)
        Mean, spread and characteristic value, absent where a reading cannot be [-]

    Examples
    --------
    >>> one = crushed((1.2, 1.4, 1.3))[0]
    >>> round(one.mean_mpa, 2), round(one.deviation_mpa, 2), round(one.characteristic_mpa, 2)
    (1.3, 0.1, 0.96)
    """
    problems: list[Problem] = []
    for i, value in enumerate(strengths):
        path = f"strength.specimens[{i}]"
        if not math.isfinite(value):
            problems.append(Problem(path, None, None, "not_finite"))
        elif value < 0:
            problems.append(Problem(path, value, 0.0, "too_small"))
        elif value > 300:
            problems.append(Problem(path, value, 300.0, "too_big"))
    if not strengths:
        problems.append(Problem("strength.specimens", 0, 1, "too_few"))
    if problems:
        return None, tuple(problems), ()
    count = len(strengths)
    mean = math.fsum(strengths) / count
    notes: list[Note] = []
    deviation = characteristic = logarithmic = None
    if count > 1:
        deviation = math.sqrt(math.fsum((v - mean) ** 2 for v in strengths) / (count - 1))
    if deviation is not None and count >= 3:
        k = factor(count)
        characteristic = mean - k * deviation
        if characteristic <= 0:
            params: dict[str, Scalar] = {"value": characteristic, "number": count}
            notes.append(
                Note("characteristic_not_positive", "caution", "strength.specimens", params, "en_1990_d7")
            )
            characteristic = 0.0
        if min(strengths) > 0:
            logs = [math.log(v) for v in strengths]
            middle = math.fsum(logs) / count
            spread = math.sqrt(math.fsum((v - middle) ** 2 for v in logs) / (count - 1))
            logarithmic = math.exp(middle - k * spread)
    else:
        params = {"number": count, "least": 3}
        notes.append(Note("few_specimens", "caution", "strength.specimens", params, "en_1990_d7"))
    against: list[Row] = []
    if wet is not None and oven_dry is not None:
        for row in expect(wet, oven_dry)[0]:
            if row.quantity == "strength_mpa":
                word = "below" if mean < row.low else "above" if mean > row.high else "within"
                against.append(Row(row.quantity, row.low, row.high, row.source, row.basis, word))
        params = {"shape": shape}
        notes.append(
            Note("specimen_shape_unconverted", "info", "strength.specimens", params, "arithmetic")
        )
    return (
        Crushed(
            count,
            mean,
            deviation,
            deviation / mean if deviation is not None and mean > 0 else None,
            min(strengths),
            characteristic,
            logarithmic,
            tuple(against),
        ),
        (),
        tuple(notes),
    )
