"""The cautions of every task on one page, to be read aloud before work."""

from typing import Final

from foamwright.reader import N_
from foamwright.sheets.cautions import cautions
from foamwright.sheets.desk import Block, Desk

ID: Final = "briefing"
SECTION: Final = "site"
TITLE: Final = N_("Before work: what can hurt you")


def blocks(desk: Desk) -> list[Block]:
    """Return the blocks of the sheet."""
    return [cautions(desk)]
