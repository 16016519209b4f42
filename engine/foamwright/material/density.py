"""Densities that must never be mixed up, each a type of its own."""

from typing import Final, NewType

#: As cast: cement, all water and the foam over the yield [kg/m3].
WetDensity = NewType("WetDensity", float)
#: Dried in the oven: cement with the water it binds for good, over the yield [kg/m3].
OvenDryDensity = NewType("OvenDryDensity", float)
#: Preformed foam as it leaves the lance [kg/m3, the same as g/L].
FoamDensity = NewType("FoamDensity", float)

#: Water, rounded as the trade rounds it: at 40 degrees C it is 0.8 % lighter (IAPWS-IF97) [kg/m3].
WATER: Final = 1000.0
#: Oven-dry mass over cement mass: a fifth of the cement in water stays (ASTM C869, footnote A).
HYDRATED: Final = 1.2


def oven_dry_density(wet: WetDensity, total_water_cement_ratio: float) -> OvenDryDensity:
    """Return the oven-dry density of neat foamed concrete from its wet density.

    Source: ASTM C869-91 (R1999), Table 1, footnote A: ``OD = (C + 0.2 C) / V``; with
    ``wet = C (1 + x) / V`` it follows that ``OD = 1.2 wet / (1 + x)``.

    Parameters
    ----------
    wet : WetDensity
        Wet density [kg/m3]
    total_water_cement_ratio : float
        All water, that in the foam included, over cement by mass; more than 0.2 [-]

    Returns
    -------
    OvenDryDensity
        Oven-dry density [kg/m3]

    Examples
    --------
    >>> round(oven_dry_density(WetDensity(641.0), 0.58))
    487
    """
    return OvenDryDensity(HYDRATED * wet / (1 + total_water_cement_ratio))
