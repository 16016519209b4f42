"""Meridians, openings, and the volumes, faces and floors that follow from them."""

from foamwright.shape.measure import (
    PartShape,
    PermitArea,
    Shape,
    measure,
    measure_part,
    permit_area,
)
from foamwright.shape.meridian import Face, Meridian, meridian
from foamwright.shape.openings import azimuths, cut

__all__ = [
    "Face",
    "Meridian",
    "PartShape",
    "PermitArea",
    "Shape",
    "azimuths",
    "cut",
    "measure",
    "measure_part",
    "meridian",
    "permit_area",
]
