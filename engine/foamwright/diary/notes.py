"""Notes and problems of the diary, made with fewer words."""

from foamwright.project.notes import Note, Problem, Scalar, Severity


def note(
    code: str, severity: Severity = "info", path: str = "", source: str = "", **params: Scalar
) -> Note:
    """Make a note.

    Source: arithmetic.

    Parameters
    ----------
    code : str
        Code [-]
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


def problem(path: str, value: Scalar, limit: Scalar, code: str, **params: Scalar) -> Problem:
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
        Code [-]
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
