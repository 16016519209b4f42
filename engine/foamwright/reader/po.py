"""A reader of gettext catalogs in text form (.po), small enough to travel with the page.

Source: GNU gettext manual, "The Format of PO Files" and "Plural forms". Babel's own reader is the
check of this one in the tests; it is not used here because it draws in the standard library's mail
parser, which a page has no other use for.
"""

import re
from collections.abc import Iterator
from typing import Final

from attrs import field, frozen

_LINE: Final = re.compile(r'(msgctxt|msgid_plural|msgid|msgstr(?:\[(\d+)\])?)?\s*"((?:[^"\\]|\\.)*)"\s*$')
_ESCAPE: Final = re.compile(r"\\(.)")
_ESCAPED: Final = {"n": "\n", "t": "\t", "r": "\r"}


@frozen
class Entry:
    """One message of a catalog as it stands in the file.

    Attributes
    ----------
    text : str
        The text of the source language [-]
    context : str | None
        What tells its meanings apart [-]
    plural : str | None
        The text for more than one [-]
    forms : tuple[str, ...]
        The translation, one form for each plural [-]
    flags : frozenset[str]
        Such as ``fuzzy`` [-]
    comments : tuple[str, ...]
        What translators noted beside it [-]
    line : int
        Where it begins [-]
    """

    text: str
    context: str | None = None
    plural: str | None = None
    forms: tuple[str, ...] = ()
    flags: frozenset[str] = frozenset()
    comments: tuple[str, ...] = ()
    line: int = 0

    @property
    def key(self) -> str:
        """Name the message as gettext does: context, end-of-transmission, text.

        Source: GNU gettext manual, "Contexts".

        Returns
        -------
        str
            The key [-]

        Examples
        --------
        >>> Entry("bag").key
        'bag'
        """
        return self.text if self.context is None else f"{self.context}\x04{self.text}"


class UnreadableLine(ValueError):
    """A line that is no part of a catalog."""

    def __init__(self, line: int, text: str) -> None:
        super().__init__(f"line={line} is not part of a catalog: {text[:60]}")
        self.line = line


def _unescape(text: str) -> str:
    return _ESCAPE.sub(lambda found: _ESCAPED.get(found[1], found[1]), text)


@frozen
class _Draft:
    parts: dict[str, list[str]] = field(factory=dict)
    flags: set[str] = field(factory=set)
    comments: list[str] = field(factory=list)

    def entry(self, line: int) -> Entry:
        joined = {name: "".join(pieces) for name, pieces in self.parts.items()}
        numbered = {int(name[7:-1]): text for name, text in joined.items() if name.startswith("msgstr[")}
        if numbered:
            # A hole in the numbering is an empty form, so that a later check can name it.
            forms = tuple(numbered.get(i, "") for i in range(min(max(numbered), 20) + 1))
        else:
            forms = (joined.get("msgstr", ""),)
        return Entry(
            text=joined.get("msgid", ""),
            context=joined.get("msgctxt"),
            plural=joined.get("msgid_plural"),
            forms=forms,
            flags=frozenset(self.flags),
            comments=tuple(self.comments),
            line=line,
        )


def entries(text: str) -> Iterator[Entry]:
    """Read a catalog message by message, the header first (its text is empty); obsolete ones are left out.

    Source: GNU gettext manual, "The Format of PO Files".

    Parameters
    ----------
    text : str
        The whole file [-]

    Returns
    -------
    Iterator[Entry]
        Each message as it stands [-]

    Raises
    ------
    UnreadableLine
        On a line that is neither a comment nor a keyword with its text.

    Examples
    --------
    >>> [e.forms for e in entries('msgid "bag"\\nmsgstr "saco"\\n')]
    [('saco',)]
    """
    draft = _Draft()
    current = ""
    started = 0
    for number, raw in enumerate(text.removeprefix("\ufeff").split("\n"), 1):
        line = raw.strip()
        if not line or line.startswith("#"):
            if current:
                yield draft.entry(started)
                draft, current = _Draft(), ""
            if line.startswith("#,"):
                draft.flags.update(flag.strip() for flag in line[2:].split(","))
            elif line.startswith("# "):
                draft.comments.append(line[2:].strip())
            continue
        found = _LINE.match(line)
        if found is None or (found[1] is None and not current):
            raise UnreadableLine(number, line)
        if found[1]:
            if current.startswith("msgstr") and not found[1].startswith("msgstr"):
                yield draft.entry(started)
                draft = _Draft()
            if not draft.parts:
                started = number
            current = found[1]
        draft.parts.setdefault(current, []).append(_unescape(found[3]))
    if current:
        yield draft.entry(started)


def header(entry: Entry) -> dict[str, str]:
    """Split a catalog's header into its fields, names in lower case.

    Source: GNU gettext manual, "Filling in the Header Entry".

    Parameters
    ----------
    entry : Entry
        The entry whose text is empty [-]

    Returns
    -------
    dict[str, str]
        Field name to value [-]

    Examples
    --------
    >>> header(Entry("", forms=("Language: es\\nX-Note: a: b\\n",)))
    {'language': 'es', 'x-note': 'a: b'}
    """
    lines = (line.partition(":") for line in entry.forms[0].splitlines() if ":" in line)
    return {name.strip().lower(): value.strip() for name, _, value in lines}
