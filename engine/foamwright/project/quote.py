"""Show a value of any kind in a problem, short and safe to print."""

import math
import re
from collections.abc import Mapping
from typing import Final

from foamwright.project.notes import Scalar

#: Longest value quoted in a problem, in characters.
MAX_QUOTED: Final = 60

# Listed by hand: the categories of unicodedata change with the Python that runs, a file must not.
_CONTROLS: Final = r"\x00-\x09\x0b-\x1f\x7f-\x9f\u2028\u2029\ufeff\ufffe\uffff"
_DIRECTION: Final = r"\u202a-\u202e\u2066-\u2069"
#: Control characters, marks that turn the direction of writing, halves of surrogate pairs.
UNPRINTABLE: Final = re.compile(rf"[{_CONTROLS}{_DIRECTION}\ud800-\udfff]")
#: The same and the line break.
UNPRINTABLE_IN_LINE: Final = re.compile(rf"[\n{_CONTROLS}{_DIRECTION}\ud800-\udfff]")


def quote(value: object) -> Scalar:
    """Shorten a value of any kind to what a problem can show safely.

    Source: arithmetic.

    Parameters
    ----------
    value : object
        Any value [-]

    Returns
    -------
    str, float, int, bool or None
        The value itself where it is short and printable, else a text of at most 60 characters [-]

    Notes
    -----
    Valid for every value. Raises nothing.

    Examples
    --------
    >>> quote("turn\\u202eover"), quote([1, 2]), quote(float("nan")), quote(10**400)
    ('turn\\\\u202eover', '[…]', 'NaN', '1e400')
    """
    if value is None or isinstance(value, bool):
        return value
    if isinstance(value, int):
        digits = int(abs(value).bit_length() * math.log10(2))
        return int(value) if digits < 18 else f"{'-' if value < 0 else ''}1e{digits}"
    if isinstance(value, float):
        if math.isfinite(value):
            return float(value)
        return "NaN" if math.isnan(value) else "Infinity" if value > 0 else "-Infinity"
    if isinstance(value, str):
        start = UNPRINTABLE_IN_LINE.sub(_escape, value[: MAX_QUOTED + 1])
        return start if len(start) <= MAX_QUOTED else start[: MAX_QUOTED - 1] + "…"
    if isinstance(value, list | tuple):
        return "[…]" if value else "[]"
    if isinstance(value, Mapping):
        return "{…}" if value else "{}"
    return type(value).__name__[:MAX_QUOTED]


def _escape(match: re.Match[str]) -> str:
    return f"\\u{ord(match[0]):04x}"
