"""A first look at stability, and what laying asks for; never a design."""

from foamwright.structure.laying import Laying
from foamwright.structure.pours import Pour, pours
from foamwright.structure.stability import PartStructure, Structure, look
from foamwright.structure.walls import WallStructure

__all__ = ["Laying", "PartStructure", "Pour", "Structure", "WallStructure", "look", "pours"]
