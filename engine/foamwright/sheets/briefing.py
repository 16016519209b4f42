"""The cautions of every task on one page, to be read aloud before work."""

from typing import Final

from foamwright.reader import N_
from foamwright.sheets.cautions import TASKS, cautions
from foamwright.sheets.desk import Block, Desk

ID: Final = "briefing"
SECTION: Final = "site"
TITLE: Final = N_("Before work: what can hurt you")


def blocks(desk: Desk) -> list[Block]:
    """Return the blocks of the sheet."""
    # Where nothing is poured, its cautions would only bury the others.
    poured = bool(desk.e.structure.pours)
    return [cautions(desk, tuple(task for task in TASKS if task != "pouring" or poured))]
