"""Notes and problems of the diary, with the codes that only the diary has."""

from typing import Final

from attrs import field, frozen

from foamwright.project import notes
from foamwright.project.codes import NOTE_CODES, PROBLEM_CODES
from foamwright.project.notes import Scalar, Severity

#: What the diary wants said beside its figures.
DIARY_NOTE_CODES: Final[frozenset[str]] = frozenset(
    {
        "water_temperature_outside",  # of the density formula; the nearest end was taken
        "scale_too_coarse",
        "foam_cannot_tell",
        "foam_below_window",
        "foam_above_window",
        "generator_settings_too_few",
        "generator_settings_together",
        "generator_no_effect",
        "generator_contrary",
        "generator_step_limited",
        "generator_setting_out_of_reach",
        "chart_too_few",
        "chart_stop",
        "chart_look",
        "chart_no_spread",
        "drain_not_reached",
        "drain_soon",
        "drain_worse_than_own",
        "diary_conflict",
        "undo_without_target",
        "undo_in_circle",
        "plan_too_few",
        "plan_yield_not_given",
        "plan_beyond_limit",
        "plan_days_unknown",
        "cause_nothing_recorded",
        "cause_no_reading",
        "cause_close",
    }
)
#: Why something of the diary cannot be taken, where no code of the project says it.
DIARY_PROBLEM_CODES: Final[frozenset[str]] = frozenset(
    {
        "gross_below_empty",
        "drain_not_rising",
        "drain_more_than_liquid",
        "entry_id_unreadable",
        "csv_separator",
        "csv_damaged",
    }
)


@frozen(kw_only=True)
class Note(notes.Note):
    """A note of the diary.

    Attributes
    ----------
    severity : str
        ``info``, ``caution`` or ``warning`` [-]
    path : str
        Field that it belongs to [-]
    params : dict
        SI floats and codes [-]
    source : str
        Source [-]
    code : str
        Code, of the diary or of the project [-]
    """

    code: str = field()

    @code.validator
    def _listed(self, _: object, code: str) -> None:
        if code not in DIARY_NOTE_CODES | NOTE_CODES:
            raise ValueError(f"code={code} is not listed")


@frozen(kw_only=True)
class Problem(notes.Problem):
    """A value of the diary that cannot be taken.

    Attributes
    ----------
    path : str
        Where it stands [-]
    value : str, float, int, bool or None
        What it was [-]
    limit : str, float, int, bool or None
        What it broke [-]
    params : dict
        What else is to be said [-]
    code : str
        Code, of the diary or of the project [-]
    """

    code: str = field()

    @code.validator
    def _listed(self, _: object, code: str) -> None:
        if code not in DIARY_PROBLEM_CODES | PROBLEM_CODES:
            raise ValueError(f"code={code} is not listed")


def note(
    code: str, severity: Severity = "info", path: str = "", source: str = "", **params: Scalar
) -> notes.Note:
    """Make a note.

    Source: arithmetic.

    Parameters
    ----------
    code : str
        Code, of the diary or of the project [-]
    severity : str
        ``info``, ``caution`` or ``warning`` [-]
    path : str
        Field that it belongs to [-]
    source : str
        Source [-]
    params : str, float, int, bool or None
        SI floats and codes by name [-]

    Returns
    -------
    Note
        The note [-]

    Raises
    ------
    ValueError
        The code is not listed.

    Examples
    --------
    >>> note("chart_too_few", have=3).params
    {'have': 3}
    """
    return Note(code=code, severity=severity, path=path, params=params, source=source)


def problem(path: str, value: Scalar, limit: Scalar, code: str, **params: Scalar) -> notes.Problem:
    """Make a problem.

    Source: arithmetic.

    Parameters
    ----------
    path : str
        Where the value stands [-]
    value : str, float, int, bool or None
        What it was [-]
    limit : str, float, int, bool or None
        What it broke [-]
    code : str
        Code, of the diary or of the project [-]
    params : str, float, int, bool or None
        What else is to be said, by name [-]

    Returns
    -------
    Problem
        The problem [-]

    Raises
    ------
    ValueError
        The code is not listed.

    Examples
    --------
    >>> problem("gross_g", 1.0, 2.0, "gross_below_empty").limit
    2.0
    """
    return Problem(path=path, value=value, limit=limit, code=code, params=params)
