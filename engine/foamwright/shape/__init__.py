"""Meridians, openings, and the volumes, faces and floors that follow from them."""

from foamwright.shape.measure import (
    PartShape,
    PermitArea,
    Shape,
    measure,
    measure_part,
    permit_area,
)
from foamwright.shape.meridian import Face, Meridian, half_width, meridian, rise
from foamwright.shape.openings import azimuths, cut
from foamwright.shape.vault import spots

__all__ = [
    "Face",
    "Meridian",
    "PartShape",
    "PermitArea",
    "Shape",
    "azimuths",
    "cut",
    "half_width",
    "measure",
    "measure_part",
    "meridian",
    "permit_area",
    "rise",
    "spots",
]
