"""Write a project as JSON: only what differs from the defaults, always in the same order."""

import hashlib
import json
from functools import cache
from typing import Any, Final

import attrs

from foamwright.project.model import FORMAT, Project

#: Above this a float is written as it is; below it, a whole float is written without its ".0".
_WHOLE: Final = 1e15


def write_project(project: Project, *, full: bool = False) -> str:
    """Write a project as the text of a project file.

    Source: RFC 8259 (JSON).

    Parameters
    ----------
    project : Project
        The project [-]
    full : bool
        Whether to state every field, defaults too [-]

    Returns
    -------
    str
        JSON with a line break at its end; reading it gives the same project to the last bit [-]

    Notes
    -----
    Valid for every project that ``read_project`` returns. Raises nothing.

    Examples
    --------
    >>> print(write_project(Project(name="Lindenhof")), end="")
    {
      "format": 1,
      "name": "Lindenhof"
    }
    """
    return json.dumps(as_data(project, full=full), ensure_ascii=False, indent=2, allow_nan=False) + "\n"


def as_data(project: Project, *, full: bool = False) -> dict[str, Any]:
    """Give a project as the plain data that JSON can hold.

    Source: RFC 8259 (JSON).

    Parameters
    ----------
    project : Project
        The project [-]
    full : bool
        Whether to state every field, defaults too [-]

    Returns
    -------
    dict
        Objects, lists, texts, numbers and null, nothing shared with the project [-]

    Notes
    -----
    Valid for every project that ``read_project`` returns. Raises nothing.

    Examples
    --------
    >>> as_data(Project(name="Lindenhof"))
    {'format': 1, 'name': 'Lindenhof'}
    """
    return {"format": FORMAT, **_group(project, full)}


def project_hash(project: Project) -> str:
    """Give a short fingerprint that is the same for equal projects and no others.

    Source: FIPS 180-4 (SHA-256), its first 128 bits.

    Parameters
    ----------
    project : Project
        The project [-]

    Returns
    -------
    str
        32 hexadecimal digits [-]

    Notes
    -----
    Valid for every project that ``read_project`` returns. Raises nothing.

    Examples
    --------
    >>> project_hash(Project()) == project_hash(Project(name=""))
    True
    >>> len(project_hash(Project()))
    32
    """
    text = json.dumps(as_data(project), separators=(",", ":"), allow_nan=False)
    return hashlib.sha256(text.encode("ascii")).hexdigest()[:32]


@cache
def _default(cls: type[Any]) -> Any:
    """A group in which nothing is stated; groups are frozen, so one serves for all."""
    return cls()


def _group(instance: Any, full: bool) -> dict[str, Any]:
    cls: Any = type(instance)
    default = _default(cls)
    written = {}
    for attribute in attrs.fields(cls):
        value = getattr(instance, attribute.name)
        if full or value != getattr(default, attribute.name):
            written[attribute.name] = _value(attribute.metadata["kind"], value, full)
    return written


def _value(kind: str, value: Any, full: bool) -> Any:
    if kind == "group":
        return _group(value, full)
    if kind == "many":
        return [_group(item, full) for item in value]
    if kind in ("row", "names", "numbers"):
        return [_plain(item) for item in value]
    if kind == "points":
        return [[_plain(number) for number in point] for point in value]
    return _plain(value)


def _plain(value: Any) -> Any:
    if isinstance(value, float) and abs(value) < _WHOLE and value == int(value):
        return int(value)
    return value
