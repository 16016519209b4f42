"""Readings that look like a slip: asked about with the reading that was perhaps meant, never swallowed."""

import math
from collections.abc import Iterator
from typing import Final, Literal

from attrs import frozen

from foamwright.material.foam import density_weighed

#: Off the window by no more than this a reading is taken as it stands (common practice, no source) [-].
NEAR: Final = 0.15
#: An alternative fits where it lies in the window, widened so much for its uncertainty (common practice, no source) [-].
FITS: Final = 0.03
#: Grams in an avoirdupois ounce, in a pound (exact by definition), in a kilogram.
UNITS: Final = (
    ("scale_in_ounces", 28.349523125),
    ("scale_in_pounds", 453.59237),
    ("scale_in_kilograms", 1000.0),
)

Code = Literal[
    "gross_below_empty",
    "scale_in_ounces",
    "scale_in_pounds",
    "scale_in_kilograms",
    "typed_ten_times",
    "typed_a_tenth",
    "net_typed_as_gross",
    "other_bucket",
    "reading_far_off",
]


@frozen
class Weighed:
    """A reading as it was typed, or as it was perhaps meant.

    Attributes
    ----------
    gross_g : float
        Full bucket [g]
    empty_g : float
        Empty bucket [g]
    volume_l : float
        Volume of the bucket [L]
    density_kg_m3 : float
        What follows [kg/m3]
    bucket : str
        Name of another bucket, empty for the one that was chosen [-]
    """

    gross_g: float
    empty_g: float
    volume_l: float
    density_kg_m3: float
    bucket: str


@frozen
class Known:
    """A bucket that the job knows.

    Attributes
    ----------
    name : str
        Its name [-]
    volume_l : float
        Volume [L]
    empty_g : float
        Weight when empty [g]
    """

    name: str
    volume_l: float
    empty_g: float


@frozen
class Question:
    """What to ask about a reading.

    Attributes
    ----------
    code : str
        What the slip would be [-]
    typed : Weighed
        The reading as it was typed; it may be confirmed unless the gross lies below the empty [-]
    meant : Weighed or None
        The reading that would fit; none where none does [-]
    """

    code: Code
    typed: Weighed
    meant: Weighed | None


def ask(
    gross: float,
    empty: float,
    volume: float,
    low: float,
    high: float,
    others: tuple[Known, ...] = (),
) -> tuple[Question, ...]:
    """Return what to ask about a weighed bucket, before it is taken.

    Source: arithmetic; how far off is far is common practice, no source. Serves foam and foamed concrete
    alike. Nothing is asked where the reading lies in the window or within 15 % of it.

    Parameters
    ----------
    gross : float
        Full bucket as typed [g]
    empty : float
        Empty bucket as typed [g]
    volume : float
        Volume of the bucket, above 0 [L]
    low : float
        Lower limit of the window, above 0 [kg/m3]
    high : float
        Upper limit, not below the lower [kg/m3]
    others : tuple of Known
        Other buckets of the job [-]

    Returns
    -------
    tuple of Question
        Questions, each with the reading that was perhaps meant; none where nothing is odd [-]

    Raises
    ------
    ValueError
        A number is not finite, or the volume or the window is not such.

    Examples
    --------
    >>> ask(950.0, 0.0, 1.0, 90.0, 100.0)[0].code
    'typed_ten_times'
    >>> question, = ask(3.35, 0.0, 1.0, 90.0, 100.0)
    >>> question.code, round(question.meant.density_kg_m3, 1)
    ('scale_in_ounces', 95.0)
    >>> ask(95.0, 0.0, 1.0, 90.0, 100.0)
    ()
    """
    if not all(math.isfinite(each) for each in (gross, empty, volume, low, high)):
        raise ValueError("a weight, the volume or the window is not finite")
    if not (volume > 0 and 0 < low <= high):
        raise ValueError(f"volume={volume}, low={low}, high={high}; must be > 0 and in order")
    typed = _weighed(gross, empty, volume)
    density = typed.density_kg_m3
    if gross > empty and low * (1 - NEAR) <= density <= high * (1 + NEAR):
        return ()
    found: dict[Code, Question] = {}
    for code, meant in _meant(gross, empty, volume, others):
        fits = low * (1 - FITS) <= meant.density_kg_m3 <= high * (1 + FITS)
        if fits and code not in found:
            found[code] = Question(code, typed, meant)
    questions = tuple(found.values())
    if gross <= empty and "gross_below_empty" not in found:
        return (Question("gross_below_empty", typed, None), *questions)
    return questions or (Question("reading_far_off", typed, None),)


def _weighed(gross: float, empty: float, volume: float, bucket: str = "") -> Weighed:
    return Weighed(gross, empty, volume, density_weighed(gross - empty, volume), bucket)


def _meant(
    gross: float, empty: float, volume: float, others: tuple[Known, ...]
) -> Iterator[tuple[Code, Weighed]]:
    """Give each slip that is known and the reading that it would have been."""
    if gross <= empty:
        yield "gross_below_empty", _weighed(empty, gross, volume)
        # What hangs on a scale that was set to nothing with the bucket on it.
        yield "net_typed_as_gross", _weighed(gross + empty, empty, volume)
    yield "scale_in_ounces", _weighed(gross * UNITS[0][1], empty * UNITS[0][1], volume)
    yield "scale_in_ounces", _weighed(gross * UNITS[0][1], empty, volume)
    yield "scale_in_pounds", _weighed(gross * UNITS[1][1], empty * UNITS[1][1], volume)
    yield "scale_in_pounds", _weighed(gross * UNITS[1][1], empty, volume)
    yield "scale_in_kilograms", _weighed(gross * UNITS[2][1], empty * UNITS[2][1], volume)
    yield "scale_in_kilograms", _weighed(gross * UNITS[2][1], empty, volume)
    yield "typed_ten_times", _weighed(gross / 10, empty, volume)
    yield "typed_ten_times", _weighed(empty + (gross - empty) / 10, empty, volume)
    yield "typed_a_tenth", _weighed(gross * 10, empty, volume)
    yield "typed_a_tenth", _weighed(empty + (gross - empty) * 10, empty, volume)
    for other in others:
        if other.volume_l > 0 and math.isfinite(other.empty_g):
            yield "other_bucket", _weighed(gross, other.empty_g, other.volume_l, other.name)
            yield "other_bucket", _weighed(gross, empty, other.volume_l, other.name)
