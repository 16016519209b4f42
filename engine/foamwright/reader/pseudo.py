"""Pseudo-languages: made from the source texts, so that a text which is not translated stands out."""

import re
from typing import Final

_PLACE: Final = re.compile(r"(%\(\w+\)s|%%)")
_WORD: Final = re.compile(r"[^\W\d_]+")
_ACCENTS: Final = str.maketrans(
    "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ",
    "åƀçđéƒğĥîĵķļɱñöþǫŕšţûṽŵẋýžÅƁÇĐÉƑĞĤÎĴĶĻṀÑÖÞǪŔŠŢÛṼŴẊÝŽ",
)


def _outside_places(text: str, change: "re.Pattern[str] | None", how: str) -> str:
    pieces = _PLACE.split(text)
    for i in range(0, len(pieces), 2):
        if change is None:
            pieces[i] = pieces[i].translate(_ACCENTS)
        else:
            pieces[i] = change.sub(how, pieces[i])
    return "".join(pieces)


def accented(text: str) -> str:
    """Write a text with accents, in brackets, about 40 % longer.

    Source: common practice, no source.

    Parameters
    ----------
    text : str
        A message; its named places stay as they are [-]

    Returns
    -------
    str
        The same, still legible [-]

    Examples
    --------
    >>> accented("%(n)s bags of cement")
    '⟦%(n)s ƀåğš öƒ çéɱéñţ ẋẋẋẋẋ⟧'
    """
    letters = sum(len(piece) for piece in _PLACE.split(text)[::2])
    longer = max(1, round(letters * 0.4) - 1)
    filler = " ".join("ẋ" * min(8, longer - i) for i in range(0, longer, 8))
    return f"⟦{_outside_places(text, None, '')} {filler}⟧"


def overridden(text: str) -> str:
    """Write each word of a text from right to left, in brackets.

    Source: Unicode Standard Annex 9, section 2.2 (explicit directional overrides).

    Parameters
    ----------
    text : str
        A message; its named places stay as they are [-]

    Returns
    -------
    str
        The same with every word between a right-to-left override and its end [-]

    Examples
    --------
    >>> overridden("%(n)s bags") == "\\u200f⟦%(n)s \\u202ebags\\u202c⟧\\u200f"
    True
    """
    words = _outside_places(text, _WORD, "\u202e\\g<0>\u202c")
    return f"\u200f⟦{words}⟧\u200f"
