"""Work on site: batches, drums, blocks, and what is lifted."""

from foamwright.site.batches import Batches, Casting, Option, SiteBatch, plan, stated_differs
from foamwright.site.blocks import Blocks, count_blocks
from foamwright.site.lifting import Emptying, Lift, Site, lifting
from foamwright.site.laid import Masonry, MouldSet, Pattern, casting, joint_need, masonry

__all__ = [
    "Batches",
    "Blocks",
    "Casting",
    "Emptying",
    "Lift",
    "Masonry",
    "MouldSet",
    "Option",
    "Pattern",
    "Site",
    "SiteBatch",
    "casting",
    "count_blocks",
    "joint_need",
    "lifting",
    "masonry",
    "plan",
    "stated_differs",
]
