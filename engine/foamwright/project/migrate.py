"""Bring data of an older format up to the current one, a step at a time.

A step takes data of format n and returns data of format n + 1. When a default changes, or a field is
renamed, moved or taken out, ``FORMAT`` goes up and a step is added here: a file states only what
differs from the defaults of its own format, so the step writes out what used to be left unsaid.
"""

import copy
from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import Any, Final

from foamwright.project.model import FORMAT
from foamwright.project.notes import Problem, Scalar
from foamwright.project.quote import quote

Step = Callable[[dict[str, Any]], dict[str, Any]]
Steps = Mapping[int, Step]

#: The steps by the format that each starts from; none yet, format 1 is the first.
STEPS: Final[Steps] = MappingProxyType({})


def to_current(data: Mapping[str, Any], steps: Steps = STEPS) -> tuple[dict[str, Any], list[Problem]]:
    """Bring data up to the current format.

    Source: arithmetic (the steps are applied in order).

    Parameters
    ----------
    data : mapping
        A project of any format, as JSON gives it; it is left as it is [-]
    steps : mapping
        The steps by the format that each starts from [-]

    Returns
    -------
    tuple
        Data of the current format, and the problems that kept it from getting there [-]

    Notes
    -----
    Valid for formats from the oldest step to the current one. Raises nothing.

    Examples
    --------
    >>> to_current({"format": 1, "name": "Lindenhof"})
    ({'format': 1, 'name': 'Lindenhof'}, [])
    >>> to_current({"format": 99})[1][0].code
    'format_newer'
    """
    if "format" not in data:
        return {}, [Problem("format", None, FORMAT, "format_missing")]
    found = data["format"]
    if isinstance(found, bool) or not isinstance(found, int):
        return {}, [Problem("format", quote(found), FORMAT, "format_unknown")]
    if found > FORMAT:
        return {}, [Problem("format", quote(found), FORMAT, "format_newer")]
    if found < 0 or any(start not in steps for start in range(found, FORMAT)):
        return {}, [Problem("format", quote(found), FORMAT, "format_unknown")]
    if found == FORMAT:
        return dict(data), []
    start = found
    try:
        current = copy.deepcopy(dict(data))
        for start in range(found, FORMAT):
            current = {**steps[start](current), "format": start + 1}
    # A step meets data that nothing has checked yet; whatever it stumbles on is the file's fault.
    except Exception:
        where: dict[str, Scalar] = {"step": start}
        return {}, [Problem("format", quote(found), FORMAT, "format_unknown", where)]
    return current, []
