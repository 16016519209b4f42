"""Base and skins: what stands under the shell and what covers it, each only where it is stated."""

from foamwright.finishes.base import BaseResult, Steel
from foamwright.finishes.finish import Finishes, Need, finish, stated
from foamwright.finishes.frame import FramePart, FrameResult, FrameSteel
from foamwright.finishes.skins import OTHERS, PUBLISHED, Basis, has_mesh

__all__ = [
    "OTHERS",
    "PUBLISHED",
    "BaseResult",
    "Basis",
    "Finishes",
    "FramePart",
    "FrameResult",
    "FrameSteel",
    "Need",
    "Steel",
    "finish",
    "has_mesh",
    "stated",
]
