"""A first look at stability, and what laying asks for; never a design."""

from foamwright.structure.laying import Bed, Laying
from foamwright.structure.stability import PartStructure, Structure, look

__all__ = ["Bed", "Laying", "PartStructure", "Structure", "look"]
