"""Find the cause: symptoms and readings speak for and against each cause, by rules that are data.

The order says where to look first, not what happened. Causes in the foam itself (``quality``) and in
how much of it went in (``quantity``) are kept apart, since neither bucket sees the other.
"""

import math
from collections.abc import Mapping, Sequence
from typing import Any, Final

from attrs import frozen

from foamwright.data import load
from foamwright.diary.notes import note
from foamwright.project.notes import Note

_TABLE: Final[dict[str, Any]] = load("causes")
#: Symptoms that may be recorded.
SYMPTOMS: Final = tuple(_TABLE["symptoms"])
#: Readings that may be given, with their units.
READINGS: Final[Mapping[str, str]] = {name: each["unit"] for name, each in _TABLE["readings"].items()}
#: Scores of a strong and of a fair certainty (common practice, no source).
STRONG: Final = 5
FAIR: Final = 3
#: A reading that weighs so much is decisive (common practice, no source).
DECISIVE: Final = 3
#: First and second nearer than this are told apart by a further test (common practice, no source).
CLOSE: Final = 1


@frozen
class Evidence:
    """One sign for or against a cause.

    Attributes
    ----------
    sign : str
        Symptom or reading [-]
    value : float or None
        Value of the reading, none for a symptom [unit of the reading]
    weight : int
        How much it speaks for the cause; negative against it [-]
    basis : str
        Code of the reason [-]
    source : str
        Code of the source [-]
    """

    sign: str
    value: float | None
    weight: int
    basis: str
    source: str


@frozen
class Cause:
    """One cause and what speaks for and against it.

    Attributes
    ----------
    code : str
        The cause [-]
    about : str
        ``quality`` or ``quantity`` of foam, ``mix``, ``temperature``, ``handling`` or ``curing`` [-]
    score : int
        Sum of the weights [-]
    certainty : str
        ``strong``, ``fair``, ``weak`` or ``against`` [-]
    speaks_for : tuple of Evidence
        Signs for it, heaviest first [-]
    speaks_against : tuple of Evidence
        Signs against it, heaviest first [-]
    next_test : str
        Cheapest test not yet made that bears on it; empty where all are made [-]
    next_reading : str
        Reading that this test gives [-]
    """

    code: str
    about: str
    score: int
    certainty: str
    speaks_for: tuple[Evidence, ...]
    speaks_against: tuple[Evidence, ...]
    next_test: str
    next_reading: str


@frozen
class Search:
    """All causes in the order in which to look at them.

    Attributes
    ----------
    causes : tuple of Cause
        Every cause, likeliest first [-]
    tell_apart : str
        Test that best tells the first two apart; empty where none is left [-]
    tell_apart_reading : str
        Reading that it gives [-]
    """

    causes: tuple[Cause, ...]
    tell_apart: str
    tell_apart_reading: str


def search(
    symptoms: tuple[str, ...], readings: Mapping[str, float]
) -> tuple[Search, tuple[Note, ...]]:
    """Rank causes by the signs for and against them.

    Source: rules of ``causes.json``, each with its basis; weights are common practice, no source. A
    cause is strong with a score of 5 or more and two readings for it, one of them decisive, and none
    against it; fair with a score of 3 or more and a decisive reading. What is not a known symptom or a
    finite reading of a known name is left aside.

    Parameters
    ----------
    symptoms : tuple of str
        What was seen, of `SYMPTOMS` [-]
    readings : mapping of str to float
        What was measured, of `READINGS` [unit of the reading]

    Returns
    -------
    tuple of (Search, tuple of Note)
        Causes, likeliest first, and what is wanting [-]

    Examples
    --------
    >>> found, _ = search(("sinks",), {"water_hardness_mg_l": 320.0, "drain_quarter_minutes": 3.0})
    >>> found.causes[0].code, found.causes[0].certainty
    ('hard_water', 'strong')
    >>> [sign.sign for sign in found.causes[0].speaks_for]
    ['water_hardness_mg_l', 'drain_quarter_minutes', 'sinks']
    """
    seen = {name for name in symptoms if name in SYMPTOMS}
    known = {
        name: float(value)
        for name, value in readings.items()
        if name in READINGS and math.isfinite(value)
    }
    made = [_cause(code, entry, seen, known) for code, entry in _TABLE["causes"].items()]
    # Sorting is stable: causes of one score keep the order of the table.
    made.sort(key=lambda cause: (-cause.score, -_measured(cause)))
    remarks: list[Note] = []
    if not seen and not known:
        remarks.append(note("cause_nothing_recorded"))
    elif not known:
        remarks.append(note("cause_no_reading", "caution", "", "practice_cause"))
    first, second = made[0], made[1]
    apart = _apart(first.code, second.code, known)
    if first.score > 0 and first.score - second.score <= CLOSE:
        remarks.append(
            note(
                "cause_close",
                "info",
                "",
                "practice_cause",
                first=first.code,
                second=second.code,
                test=_test(apart),
            )
        )
    return Search(tuple(made), _test(apart), apart), tuple(remarks)


def _cause(code: str, entry: dict[str, Any], seen: set[str], known: dict[str, float]) -> Cause:
    signs = []
    for rule in entry["rules"]:
        sign = rule.get("symptom") or rule["reading"]
        if "symptom" in rule:
            holds = sign in seen
        else:
            holds = sign in known and _within(rule, known[sign])
        if holds:
            signs.append(Evidence(sign, known.get(sign), rule["weight"], rule["basis"], rule["source"]))
    score = sum(sign.weight for sign in signs)
    signs.sort(key=lambda sign: -abs(sign.weight))
    good = tuple(sign for sign in signs if sign.weight > 0)
    bad = tuple(sign for sign in signs if sign.weight < 0)
    measured = [sign for sign in good if sign.value is not None]
    decisive = any(sign.weight >= DECISIVE for sign in measured)
    contradicted = any(sign.value is not None for sign in bad)
    if score <= 0:
        certainty = "against" if bad else "weak"
    elif score >= STRONG and decisive and len(measured) > 1 and not contradicted:
        certainty = "strong"
    else:
        certainty = "fair" if score >= FAIR and decisive else "weak"
    reading = _cheapest(code, known)
    return Cause(code, entry["about"], score, certainty, good, bad, _test(reading), reading)


def _within(rule: dict[str, Any], value: float) -> bool:
    """Limits count to the side that ``below`` leaves out, so that neighbouring rules never both hold."""
    return bool(rule.get("above", -math.inf) <= value < rule.get("below", math.inf))


def _measured(cause: Cause) -> int:
    return sum(sign.value is not None for sign in cause.speaks_for)


def _rules(code: str) -> dict[str, list[dict[str, Any]]]:
    found: dict[str, list[dict[str, Any]]] = {}
    for rule in _TABLE["causes"][code]["rules"]:
        if "reading" in rule:
            found.setdefault(rule["reading"], []).append(rule)
    return found


def _cheapest(code: str, known: dict[str, float]) -> str:
    left = [
        name
        for name, rules in _rules(code).items()
        if name not in known and max(abs(rule["weight"]) for rule in rules) >= 2
    ]
    return min(left, key=lambda name: _TABLE["readings"][name]["minutes"], default="")


def _apart(first: str, second: str, known: dict[str, float]) -> str:
    """Return the reading whose outcome can move the two furthest apart, the cheaper of equals."""
    one, other = _rules(first), _rules(second)

    def power(name: str) -> int:
        rules = (*one.get(name, ()), *other.get(name, ()))
        bounds = sorted({rule[end] for rule in rules for end in ("above", "below") if end in rule})
        # Every rule holds or not throughout each stretch between bounds, so their ends show all outcomes.
        leads = [
            _weigh(one.get(name, ()), value) - _weigh(other.get(name, ()), value)
            for value in (-math.inf, *bounds)
        ]
        return max(leads) - min(leads)

    left = [name for name in {**one, **other} if name not in known and power(name) > 0]
    return max(left, key=lambda name: (power(name), -_TABLE["readings"][name]["minutes"]), default="")


def _weigh(rules: Sequence[dict[str, Any]], value: float) -> int:
    return sum(rule["weight"] for rule in rules if _within(rule, value))


def _test(reading: str) -> str:
    return str(_TABLE["readings"][reading]["test"]) if reading else ""
