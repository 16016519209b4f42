"""Work on site: batches, drums, blocks, and what is lifted."""

from foamwright.site.batches import Batches, Option, SiteBatch, plan, stated_differs
from foamwright.site.blocks import Blocks, count_blocks
from foamwright.site.lifting import Emptying, Lift, Site, lifting

__all__ = [
    "Batches",
    "Blocks",
    "Emptying",
    "Lift",
    "Option",
    "Site",
    "SiteBatch",
    "count_blocks",
    "lifting",
    "plan",
    "stated_differs",
]
