"""Where a sheet is written: one project's estimate in front of one reader."""

import re
from functools import lru_cache
from typing import Any, Final

from attrs import frozen

from foamwright.estimate import Estimate, Outcome
from foamwright.project.model import Part, Project
from foamwright.project.notes import Note
from foamwright.reader import Message, N_, Speaker
from foamwright.shape import numbered
from foamwright.sheets.fields import FIELDS, LISTS, NOTHING, WITHIN, FieldText
from foamwright.sheets.figures import FIGURES, Figure

Block = dict[str, Any]

#: Columns that fit side by side where a sheet is not a phone's width, the first of them saying which row it is.
_MOST_COLUMNS: Final = 6


def narrow(table: Block) -> list[Block]:
    """Part a table of many columns into tables of few, each of which starts with the first column again.

    Source: arithmetic.

    Parameters
    ----------
    table : Block
        A block of the kind table [-]

    Returns
    -------
    list of Block
        The table itself, or its parts from first column to last [-]

    Examples
    --------
    >>> wide = {"kind": "table", "caption": "", "head": [{"text": str(i)} for i in range(9)], "rows": []}
    >>> ["".join(cell["text"] for cell in part["head"]) for part in narrow(wide)]
    ['012345', '0678']
    """
    step = _MOST_COLUMNS - 1
    if len(table["head"]) <= _MOST_COLUMNS:
        return [table]

    def part(cells: list[Any], start: int) -> list[Any]:
        return [cells[0], *cells[start : start + step]]

    return [
        table
        | {"head": part(table["head"], start), "rows": [part(row, start) for row in table["rows"]]}
        | ({"foot": [part(row, start) for row in table["foot"]]} if table.get("foot") else {})
        for start in range(1, len(table["head"]), step)
    ]

#: From here on a tenth of a litre says nothing.
_PLAIN_LITRES: Final = 1000.0
_INDEX: Final = re.compile(r"\[(\d+)\]")
#: The place of an item in a list; x and y of a point keep theirs.
_PLACE: Final = re.compile(r"(?<!\])(?<!at_m)\[\d+\]")


@lru_cache(maxsize=8192)
def pattern(path: str) -> str:
    """Return a path with its indexes left out.

    Source: the project file's own paths.

    Parameters
    ----------
    path : str
        A path such as ``parts[0].openings[1].width_m`` [-]

    Returns
    -------
    str
        Its pattern [-]

    Examples
    --------
    >>> pattern("parts[0].openings[1].width_m")
    'parts[].openings[].width_m'
    >>> pattern("parts[0].plan[3][1]")
    'parts[].plan[][1]'
    """
    return _PLACE.sub("[]", path)


@frozen
class Desk:
    """An estimate and the reader that it is written for; sheets only read from it."""

    project: Project
    outcome: Outcome
    s: Speaker

    @property
    def e(self) -> Estimate:
        """The estimate; sheets are written only where there is one."""
        assert self.outcome.estimate is not None
        return self.outcome.estimate

    @property
    def parts(self) -> tuple[tuple[int, Part], ...]:
        """The parts that the estimate holds, each with its place in the project."""
        return numbered(self.project.parts, self.e.shape.places)

    def say(self, message: Message, **params: str) -> str:
        """Return a message in the reader's words."""
        return self.s.say(message, None, **params) if message.text else ""

    def money(self, value: float) -> str:
        """Return an amount in the market's currency."""
        return self.s.money(value, self.project.market.currency)

    def show(self, kind: str, value: float) -> str:
        """Return a value in the reader's units and digits."""
        if kind == "money":
            return self.money(value)
        if kind == "money_per_area":
            return self.s.money_per(value, self.project.market.currency, "area")
        if kind == "count":
            return self.s.whole(round(value))
        if kind == "decimal":
            return self.s.number(value, decimals=1)
        if kind == "decimal2":
            return self.s.number(value, decimals=2)
        if kind == "portion":
            # Fibres weigh grams, sand kilograms.
            return self.s.quantity(value, "mass") if value >= 1 else self.s.quantity(value * 1000, "mass_small", decimals=0)
        if kind == "packs":
            return self.s.number(value, decimals=2, trim=True)
        if kind == "ratio4":
            return self.s.number(value, decimals=4)
        if kind == "liquid" and value >= _PLAIN_LITRES:
            return self.s.quantity(value, kind, decimals=0)
        return self.s.quantity(value, kind)

    def figure(self, name: str) -> tuple[Figure, int]:
        """Return the figure behind an id such as ``option.yield_l#2`` and its index."""
        base, _, index = name.partition("#")
        return FIGURES[base], int(index or 0)

    def value(self, name: str) -> float | None:
        """Return a figure's value [as its kind]."""
        figure, index = self.figure(name)
        return figure.get(self, index)

    def text(self, name: str) -> str:
        """Return a figure's value as text, empty where there is none."""
        figure, index = self.figure(name)
        value = figure.get(self, index)
        return "" if value is None else self.show(figure.kind, value)

    def item(self, name: str, label: Message = NOTHING, *, big: bool = False, note: str = "") -> Block:
        """Return one item of a block of figures."""
        figure, _ = self.figure(name)
        item: Block = {"figure": name, "label": self.say(label if label.text else figure.label), "text": self.text(name)}
        if big:
            item["big"] = True
        if note:
            item["note"] = note
        return item

    def figures(self, *names: str) -> Block:
        """Return a block of figures; those without a value are left out."""
        return {"kind": "figures", "items": [self.item(n) for n in names if self.value(n) is not None]}

    def cell(self, name: str) -> Block:
        """Return a table cell that answers why."""
        return {"text": self.text(name), "figure": name, "number": True}

    def field_text(self, path: str) -> FieldText | None:
        """Return the words of a field."""
        return FIELDS.get(pattern(path))

    def label(self, path: str, part: str | None = None) -> str:
        """Return where a path leads, in words, such as "Opening 2: Width"; ``part`` stands for the number of a part."""
        words = []
        for match in _INDEX.finditer(path):
            entry = LISTS.get(pattern(path[: match.start()]))
            before = path[: match.start()]
            if before == "parts" and part is not None:
                words += [part] if part else []
                continue
            several = match.group(1) != "0" or before != "parts"
            if entry and several:
                words.append(self.say(entry[1], number=self.s.whole(int(match.group(1)) + 1)))
        words += [self.say(before) for group, before in WITHIN.items() if path.startswith(group)]
        found = self.field_text(path)
        if found:
            words.append(self.say(found.label))
        elif pattern(path) in LISTS:
            words.append(self.say(LISTS[pattern(path)][0]))
        elif not words:
            words.append(path or self.say(N_("Project")))
        return ": ".join(words)

    def notes(self, *codes: str) -> tuple[Note, ...]:
        """Return the estimate's notes with one of these codes."""
        return tuple(note for note in self.outcome.notes if note.code in codes)
