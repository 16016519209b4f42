"""Which cements serve for foamed concrete, as far as common practice says."""

from typing import Any, Final

from attrs import frozen

from foamwright.data import load
from foamwright.project.model import CEMENT_TYPES, Market
from foamwright.project.notes import Note, Scalar, Severity

_TABLE: Final[dict[str, Any]] = load("cement_types")
#: Note and its severity for each verdict that needs a word.
_WORDS: Final[dict[str, tuple[str, Severity]]] = {
    "unstated": ("cement_unstated", "info"),
    "serves_slow": ("cement_slow", "caution"),
    "not_suited": ("cement_not_suited", "warning"),
}


@frozen
class CementType:
    """One type of cement as standards call it.

    Attributes
    ----------
    code : str
        Code of the type in the project [-]
    standard : str
        Standard that defines it [-]
    designation : str
        Its designation there, as printed on the bag [-]
    verdict : str
        ``serves``, ``serves_slow``, ``not_suited`` or ``unstated`` [-]
    reason : str
        Code of the reason [-]
    source : str
        Source of the verdict [-]
    """

    code: str
    standard: str
    designation: str
    verdict: str
    reason: str
    source: str


@frozen
class CementChoice:
    """The cement that was stated, and all others beside it.

    Attributes
    ----------
    type : str
        Code of the type [-]
    strength_class : str
        Strength class, or ``unstated`` [-]
    verdict : str
        Whether it serves [-]
    reason : str
        Code of the reason [-]
    types : tuple of CementType
        The whole table, for whoever buys [-]
    """

    type: str
    strength_class: str
    verdict: str
    reason: str
    types: tuple[CementType, ...]


#: The table in the order of the project's choices.
TYPES: Final = tuple(CementType(code=code, **_TABLE[code]) for code in CEMENT_TYPES)


def choose(market: Market) -> tuple[CementChoice, tuple[Note, ...]]:
    """Say whether the stated cement serves.

    Source: designations by EN 197-1, ASTM C150, C595 and C91; suitability is common practice, no
    source.

    Parameters
    ----------
    market : Market
        What is sold where the landowner lives [-]

    Returns
    -------
    tuple of (CementChoice, tuple of Note)
        The verdict with its reason [-]

    Examples
    --------
    >>> choose(Market(cement_type="masonry"))[0].verdict
    'not_suited'
    """
    kind = next(kind for kind in TYPES if kind.code == market.cement_type)
    choice = CementChoice(kind.code, market.strength_class, kind.verdict, kind.reason, TYPES)
    if kind.verdict not in _WORDS:
        return choice, ()
    code, severity = _WORDS[kind.verdict]
    params: dict[str, Scalar] = {"type": kind.code, "reason": kind.reason}
    return choice, (Note(code, severity, "market.cement_type", params, kind.source),)
