"""The mix by absolute volumes, its densities, the foam and the cement."""

from foamwright.material.blend import BlendResult
from foamwright.material.blend import solve as solve_blend
from foamwright.material.cement import CementChoice, CementType, choose
from foamwright.material.density import FoamDensity, OvenDryDensity, WetDensity, oven_dry_density
from foamwright.material.foam import FoamResult, density_weighed, weigh, wet_density_at
from foamwright.material.mix import MixResult, slurry_density, solve

__all__ = [
    "BlendResult",
    "CementChoice",
    "CementType",
    "FoamDensity",
    "FoamResult",
    "MixResult",
    "OvenDryDensity",
    "WetDensity",
    "choose",
    "density_weighed",
    "oven_dry_density",
    "slurry_density",
    "solve",
    "solve_blend",
    "weigh",
    "wet_density_at",
]
