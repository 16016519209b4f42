"""Meridians, openings, and the volumes, faces and floors that follow from them."""

from foamwright.shape.fill import FillMeasures
from foamwright.shape.measure import (
    OrderedBlocks,
    PartShape,
    PermitArea,
    Shape,
    measure,
    measure_part,
    numbered,
    permit_area,
)
from foamwright.shape.meridian import Face, Meridian, half_width, meridian, rise
from foamwright.shape.openings import azimuths, cut
from foamwright.shape.vault import spots
from foamwright.shape.wall import Frame, Outline, WallMeasures, frame, outline

__all__ = [
    "Face",
    "FillMeasures",
    "Frame",
    "Meridian",
    "OrderedBlocks",
    "Outline",
    "PartShape",
    "PermitArea",
    "Shape",
    "WallMeasures",
    "azimuths",
    "cut",
    "frame",
    "half_width",
    "measure",
    "measure_part",
    "meridian",
    "numbered",
    "outline",
    "permit_area",
    "rise",
    "spots",
]
