"""Mortar and dense concrete by absolute volumes: what a cubic metre of a stated mix takes."""

from typing import Final

from attrs import frozen

from foamwright.project.model import Aggregate

#: Loose cement that is measured by volume (common practice; ASTM C270 counts 94 lb to the cubic foot) [kg/m3].
CEMENT_BULK_KG_M3: Final = 1440.0
#: Grains of quartz sand and gravel (common practice, no source) [kg/m3].
GRAIN_KG_M3: Final = 2650.0
#: Grains of hydrated lime (common practice, no source) [kg/m3].
LIME_GRAIN_KG_M3: Final = 2300.0
#: Dry volume over the volume of wet mortar, by which handbooks count cement (rule of thumb, from memory) [-].
DRY_FACTORS: Final = (1.27, 1.33)
#: The same for concrete with gravel: 1.52 to 1.57 (rule of thumb, from memory) [-].
DRY_FACTORS_CONCRETE: Final = (1.52, 1.57)


@frozen
class Blend:
    """One cubic metre of mortar or concrete in place.

    Attributes
    ----------
    cement_kg : float
        Cement [kg/m3]
    sand_kg : float
        Sand, dry [kg/m3]
    sand_m3 : float
        The same as loose volume [m3/m3]
    gravel_kg : float
        Gravel, dry [kg/m3]
    gravel_m3 : float
        The same as loose volume [m3/m3]
    lime_kg : float
        Hydrated lime [kg/m3]
    water_l : float
        Water, that in damp sand included [L/m3]
    mass_kg : float
        All of it fresh [kg/m3]
    """

    cement_kg: float
    sand_kg: float
    sand_m3: float
    gravel_kg: float
    gravel_m3: float
    lime_kg: float
    water_l: float
    mass_kg: float


def blend(
    sand: float,
    gravel: float,
    lime: float,
    water_cement: float,
    by: str = "volume",
    cement_density: float = 3150.0,
    aggregate: Aggregate = Aggregate(),  # noqa: B008 - frozen
    air: float = 0.0,
) -> Blend:
    """Return what a cubic metre takes of a mix that is stated in parts to one part of cement.

    Source: arithmetic by absolute volumes: grains and water fill the cubic metre between them. Loose
    cement 1440 kg/m3, grains of sand and gravel 2650 kg/m3 and of lime 2300 kg/m3 are common
    practice, no source.

    Parameters
    ----------
    sand : float
        Parts of sand, 0 or more [-]
    gravel : float
        Parts of gravel, 0 or more [-]
    lime : float
        Parts of hydrated lime, 0 or more [-]
    water_cement : float
        Water over cement and lime, by mass, above 0 [-]
    by : str
        Whether the parts are loose ``volume`` or ``mass`` [-]
    cement_density : float
        Density of the cement grains [kg/m3]
    aggregate : Aggregate
        Loose densities of what is bought [kg/m3]
    air : float
        Share of the volume that is air, 0 up to 1 [-]

    Returns
    -------
    Blend
        Quantities of one cubic metre [kg, L, m3]

    Examples
    --------
    >>> round(blend(3.0, 0.0, 0.0, 0.50, "mass").cement_kg, 1)
    512.9
    >>> round(blend(2.0, 4.0, 0.0, 0.55).cement_kg)
    305
    """
    if by == "volume":
        sand *= aggregate.sand_bulk_kg_m3 / CEMENT_BULK_KG_M3
        gravel *= aggregate.gravel_bulk_kg_m3 / CEMENT_BULK_KG_M3
        lime *= aggregate.lime_bulk_kg_m3 / CEMENT_BULK_KG_M3
    water = water_cement * (1 + lime)
    litres = 1 / cement_density + (sand + gravel) / GRAIN_KG_M3 + lime / LIME_GRAIN_KG_M3 + water / 1000
    cement = (1 - air) / litres
    return Blend(
        cement_kg=cement,
        sand_kg=cement * sand,
        sand_m3=cement * sand / aggregate.sand_bulk_kg_m3,
        gravel_kg=cement * gravel,
        gravel_m3=cement * gravel / aggregate.gravel_bulk_kg_m3,
        lime_kg=cement * lime,
        water_l=cement * water,
        mass_kg=cement * (1 + sand + gravel + lime + water),
    )


def by_dry_factor(parts: float, factor: float) -> float:
    """Return the cement of a cubic metre as handbooks count it: the dry volume shared out by parts.

    Source: rule of thumb, from memory: 1.27 to 1.33 for mortar, 1.52 to 1.57 for concrete; loose
    cement 1440 kg/m3.

    Parameters
    ----------
    parts : float
        Parts of everything else by volume to one part of cement, 0 or more [-]
    factor : float
        Dry volume over wet volume [-]

    Returns
    -------
    float
        Cement [kg/m3]

    Examples
    --------
    >>> round(by_dry_factor(3.0, 1.33), 1), round(by_dry_factor(3.0, 1.27), 1)
    (478.8, 457.2)
    """
    return CEMENT_BULK_KG_M3 * factor / (1 + parts)
