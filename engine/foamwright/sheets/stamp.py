"""What stands at the head of every sheet while a part must not be built; no field and no reader turns it off."""

from foamwright.sheets.desk import Block, Desk
from foamwright.sheets.problems import note_text, notes_block


def stamp(desk: Desk) -> Block:
    """Return the warnings for every part that fails its first look; the block is empty where none does."""
    return notes_block(desk, desk.notes("not_to_be_built"))


def stamp_lines(desk: Desk) -> list[str]:
    """Return the same as lines of a message."""
    return [note_text(desk, note) for note in desk.notes("not_to_be_built")]
