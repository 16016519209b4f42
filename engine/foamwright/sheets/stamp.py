"""What stands at the head of every sheet while a part must not or cannot be built; no field and no reader turns it off."""

from typing import Final

from foamwright.sheets.desk import Block, Desk
from foamwright.sheets.problems import left_out_items, left_out_lines, note_text, notes_block

#: What bars a part: its shell fails, or no stem holds its thrust.
STAMPED: Final = ("not_to_be_built", "ring_to_be_sized")


#: Cards for making concrete, and the page of cautions: a ring that is to be sized bars the laying, not the mixing.
_MIXING: Final = ("mix", "batch", "foam", "briefing")


def stamp(desk: Desk, sheet: str) -> Block:
    """Return the warnings for every part that is left out or fails its first look; the block is empty where none does."""
    block = notes_block(desk, desk.notes(*(STAMPED[:1] if sheet in _MIXING else STAMPED)))
    return block | {"items": left_out_items(desk) + block["items"]}


def stamp_lines(desk: Desk) -> list[str]:
    """Return the same as lines of a message."""
    told = [text for _, text in left_out_lines(desk)]
    return told + [note_text(desk, note) for note in desk.notes(*STAMPED[:1])]
