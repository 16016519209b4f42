"""Work on site: batches, drums, blocks, and what is lifted."""

from foamwright.site.ahead import Ahead, addition_needs, additions_of, look_ahead, middle
from foamwright.site.batches import Batches, Casting, Option, SiteBatch, plan, stated_differs
from foamwright.site.blocks import Blocks, count_blocks
from foamwright.site.lifting import Emptying, Lift, Site, lifting
from foamwright.site.laid import Masonry, MouldSet, Pattern, casting, joint_need, masonry

__all__ = [
    "Ahead",
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
    "addition_needs",
    "additions_of",
    "casting",
    "count_blocks",
    "joint_need",
    "lifting",
    "look_ahead",
    "masonry",
    "middle",
    "plan",
    "stated_differs",
]
