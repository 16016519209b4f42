"""What the rooms of the site say besides figures: their own codes, and rows that keep sources apart."""

from typing import Final

from attrs import field, frozen

from foamwright.project.notes import Note, Scalar, Severity

#: Every code that the rooms of the site say (Note.code).
REMARK_CODES: Final[frozenset[str]] = frozenset(
    {
        # blend
        "sand_in_light_mix",
        "accelerator_chloride",
        "addition_water_covers",
        "additions_not_published",
        # expect and wish
        "expect_outside_published",
        "trade_r_value",
        "made_for_dense_concrete",
        "no_published_row_reaches",
        # check
        "bucket_cannot_tell",
        "reading_doubtful",
        "batch_height_falling",
        "foam_failed",
        "batch_too_late",
        "correction_out_of_reach",
        "take_out_first",
        "slurry_cures_no_foam",
        "correction_large",
        # temper
        "ice_needed",
        "water_too_hot",
        "mix_hot",
        "mix_cold",
        "air_cold",
        "night_freezes",
        "evaporation_high",
        "temperature_outside_range",
        "hardness_classes_differ",
        # strength
        "seven_days_differ",
        "characteristic_not_positive",
        "few_specimens",
        "specimen_shape_unconverted",
        # core
        "core_hot",
        "heat_from_memory",
        # drying
        "drying_rough",
    }
)


@frozen(kw_only=True)
class Remark(Note):
    """A note of the rooms of the site; a Note in all but the list that its code stands in.

    Attributes
    ----------
    severity : str
        ``info``, ``caution`` or ``warning`` [-]
    path : str
        Field or figure that it is about [-]
    params : dict
        Floats in SI units and codes [-]
    source : str
        Source [-]
    code : str
        Its code [-]
    """

    code: str = field()

    @code.validator
    def _listed(self, _: object, code: str) -> None:
        if code not in REMARK_CODES:
            raise ValueError(f"code={code} is not listed in remark.py")


@frozen
class Row:
    """One published or customary figure, with what it rests on.

    Attributes
    ----------
    quantity : str
        What it is, its unit last in the name [-]
    low : float
        Least [unit of the quantity]
    high : float
        Most; the same where one figure is given [unit of the quantity]
    source : str
        Source [-]
    basis : str
        What density or state it refers to: ``oven_dry``, ``air_dry``, ``in_use``, ``fresh`` or ``-`` [-]
    note : str
        Code of what must be said beside it, or nothing [-]
    """

    quantity: str
    low: float
    high: float
    source: str
    basis: str = "-"
    note: str = ""


def remark(
    code: str, severity: Severity, path: str, source: str, params: dict[str, Scalar] | None = None
) -> Remark:
    """Say something beside a figure.

    Source: arithmetic.

    Parameters
    ----------
    code : str
        Its code [-]
    severity : str
        ``info``, ``caution`` or ``warning`` [-]
    path : str
        Field or figure that it is about [-]
    source : str
        Source [-]
    params : dict, optional
        Floats in SI units and codes [-]

    Returns
    -------
    Remark
        The note [-]

    Raises
    ------
    ValueError
        The code is not listed.

    Examples
    --------
    >>> remark("foam_failed", "warning", "check.foam_ok", "practice_foam_failed").severity
    'warning'
    """
    return Remark(code=code, severity=severity, path=path, params=params or {}, source=source)
