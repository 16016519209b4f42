"""Free walls while they are fresh: the wind that topples them, the braces they need, a day's height.

A wall here stands on its own weight alone: no skin, no bond to its base, no tension anywhere.
"""

import math
from typing import Final

from attrs import frozen

from foamwright.material.density import OvenDryDensity, WetDensity
from foamwright.project.model import Part
from foamwright.project.notes import Note, Scalar
from foamwright.structure.laying import arch_length
from foamwright.structure.membrane import GRAVITY

#: Half the density of air, 1.226 kg/m3: q = 0.613 v^2 in pascals (BS 6399-2:1997, clause 2.1, from memory).
_AIR: Final = 0.613
#: Net pressure of wind on a wall with open ends, far from its ends and at its ends: zones D and A of
#: EN 1991-1-4:2005, Table 7.9, solid walls, length over height up to 3 (from memory) [-].
WALL_PRESSURE: Final = (1.2, 2.3)
#: Block walls go up so much in a day at most: common practice, no source [m].
DAY_HEIGHT_M: Final = 1.2


def wind_pressure(speed: float) -> float:
    """Return the pressure of wind that is brought to rest.

    Source: Bernoulli with air of 1.226 kg/m3, ``q = 0.613 v^2`` in pascals (BS 6399-2:1997, clause 2.1, from memory).

    Parameters
    ----------
    speed : float
        Speed of the gust [m/s]

    Returns
    -------
    float
        Pressure [kPa]

    Examples
    --------
    >>> round(wind_pressure(40.0), 4)
    0.9808
    """
    return _AIR * speed**2 / 1000


def toppling_wind(height: float, thickness: float, density: float, pressure: float = WALL_PRESSURE[1]) -> float:
    """Return the gust that topples a free wall about its foot.

    Source: moments about the foot: ``q c h^2 / 2 = density g t^2 h / 2``; net pressure coefficient of EN 1991-1-4:2005,
    Table 7.9 (from memory), by default that of the wall's end.

    Valid for a wall that stands loose on its base, without skin, brace or cross wall. A crushing edge and gusts that rock it
    make the real speed lower.

    Parameters
    ----------
    height : float
        Height of the wall, above 0 [m]
    thickness : float
        Thickness of the wall [m]
    density : float
        Density of the wall as it stands; the oven-dry one is the safe choice [kg/m3]
    pressure : float
        Net pressure coefficient, above 0 [-]

    Returns
    -------
    float
        Speed of the gust [m/s]

    Examples
    --------
    >>> round(toppling_wind(2.0, 0.2, 500.0), 1)
    8.3
    """
    resisting = density * GRAVITY * thickness**2 / height
    return math.sqrt(resisting / (pressure * _AIR))


def brace_spacing(
    height: float,
    thickness: float,
    density: float,
    speed: float,
    brace_kn: float,
    pressure: float = WALL_PRESSURE[1],
) -> float | None:
    """Return how far apart braces at the top of a free wall may stand for a gust.

    Source: moments about the foot: what the wall's weight does not hold, braces at its top do.

    Valid where whoever sizes the brace says what it holds; between braces the wall must span by itself, so that no more than
    twice its height is given.

    Parameters
    ----------
    height : float
        Height of the wall, above 0 [m]
    thickness : float
        Thickness of the wall [m]
    density : float
        Density of the wall as it stands [kg/m3]
    speed : float
        Speed of the gust [m/s]
    brace_kn : float
        Level force that one brace holds, pulled or pushed, as whoever sizes it says [kN]
    pressure : float
        Net pressure coefficient, above 0 [-]

    Returns
    -------
    float or None
        Spacing; none where the wall holds this gust without braces [m]

    Examples
    --------
    >>> round(brace_spacing(2.0, 0.2, 500.0, 20.0, 1.0), 2)
    2.15
    >>> brace_spacing(2.0, 0.2, 500.0, 5.0, 1.0) is None
    True
    """
    wind = wind_pressure(speed) * pressure * height**2 / 2
    weight = density * GRAVITY * thickness**2 * height / 2 / 1000
    if wind <= weight:
        return None
    return min(brace_kn * height / (wind - weight), 2 * height)


def day_height(thickness: float, density: float, speed: float, pressure: float = WALL_PRESSURE[1]) -> float:
    """Return the greatest height of a free wall that is laid in a day and left unbraced.

    Source: the height at which the gust would topple it, and at most 1.2 m (common practice, no source).

    Parameters
    ----------
    thickness : float
        Thickness of the wall [m]
    density : float
        Density of the wall as it stands [kg/m3]
    speed : float
        Gust that must be reckoned with before the wall is braced [m/s]
    pressure : float
        Net pressure coefficient, above 0 [-]

    Returns
    -------
    float
        Height [m]

    Examples
    --------
    >>> day_height(0.2, 500.0, 8.0), round(day_height(0.2, 500.0, 20.0), 2)
    (1.2, 0.35)
    """
    if speed <= 0:
        return DAY_HEIGHT_M
    return min(DAY_HEIGHT_M, density * GRAVITY * thickness**2 / (pressure * _AIR * speed**2))


@frozen
class WallStructure:
    """The first look at one wall while it is fresh: loose on its base, without skin, brace or cross wall.

    Attributes
    ----------
    id : str
        Name of the part in the project [-]
    height_m : float
        Height that is looked at, the gable with it [m]
    slenderness : float
        That height over the thickness [-]
    wind_low_m_s : float
        Gust that topples it near a free end, its blocks as dry as an oven makes them [m/s]
    wind_m_s : float
        Gust that topples it far from its ends, as cast [m/s]
    gust_m_s : float or None
        Gust that must be reckoned with, as typed [m/s]
    stands : bool or None
        Whether it takes that gust at its ends without a brace; absent until the gust is typed [-]
    brace_spacing_m : float or None
        How far apart braces at its top may stand; absent where none is needed or their strength is not typed [m]
    day_height_m : float
        The most that is laid in a day and left unbraced; without a gust the common limit of a day [m]
    centring_m : float
        Length of all arches over openings that are built on centring [m]
    """

    id: str
    height_m: float
    slenderness: float
    wind_low_m_s: float
    wind_m_s: float
    gust_m_s: float | None
    stands: bool | None
    brace_spacing_m: float | None
    day_height_m: float
    centring_m: float

    @property
    def fails(self) -> bool:
        """Whether the gust that was typed topples it and nobody has said what a brace holds."""
        return self.stands is False and self.brace_spacing_m is None


def look_at_wall(
    part: Part, path: str, wet: WetDensity, oven_dry: OvenDryDensity
) -> tuple[WallStructure, tuple[Note, ...]]:
    """Take a first look at one wall, as if nothing but its own weight held it.

    Source: `toppling_wind`, `brace_spacing` and `day_height`. Corners, cross walls and posts hold much more once they are built and
    bonded; nothing of that is counted.

    Parameters
    ----------
    part : Part
        The wall as stated [-]
    path : str
        Where it stands in the project [-]
    wet : WetDensity
        Density as cast [kg/m3]
    oven_dry : OvenDryDensity
        Density dried in the oven [kg/m3]

    Returns
    -------
    tuple of (WallStructure, tuple of Note)
        The look, and what must be said of it [-]

    Examples
    --------
    >>> seen, notes = look_at_wall(Part(shape="wall"), "parts[0]", WetDensity(484.0), OvenDryDensity(322.0))
    >>> round(seen.wind_low_m_s, 1), round(seen.wind_m_s, 1), [note.code for note in notes]
    (6.1, 10.4, ['wall_topples', 'gust_unasked'])
    """
    wall, thick = part.wall, part.thickness_m
    tall = wall.height_m + (wall.gable_rise_m if part.plan_form != "circle" and wall.gable_sides else 0.0)
    light, heavy = float(oven_dry), float(wet)
    low, high = toppling_wind(tall, thick, light), toppling_wind(tall, thick, heavy, WALL_PRESSURE[0])
    gust = wall.gust_m_s
    stands = None if gust is None else gust <= low
    braces = None
    if gust is not None and wall.brace_kn is not None:
        braces = brace_spacing(tall, thick, light, gust, wall.brace_kn)
    seen = WallStructure(
        id=part.id,
        height_m=tall,
        slenderness=tall / thick,
        wind_low_m_s=low,
        wind_m_s=high,
        gust_m_s=gust,
        stands=stands,
        brace_spacing_m=braces,
        day_height_m=DAY_HEIGHT_M if gust is None else day_height(thick, light, gust),
        centring_m=sum(arch_length(opening) * opening.count for opening in part.openings),
    )
    params: dict[str, Scalar] = {"part": part.id, "low_m_s": low, "high_m_s": high}
    if stands:
        params |= {"gust_m_s": gust}
        return seen, (Note("wall_holds_gust", "info", f"{path}.wall.gust_m_s", params, "wall_wind"),)
    notes = [Note("wall_topples", "caution", f"{path}.thickness_m", params, "wall_wind")]
    names: dict[str, Scalar] = {"part": part.id}
    if seen.fails:
        barred = params | {"gust_m_s": gust}
        notes.insert(0, Note("not_to_be_built", "warning", f"{path}.wall.brace_kn", barred, "wall_wind"))
    if gust is None:
        notes.append(Note("gust_unasked", "info", f"{path}.wall.gust_m_s", names, "typed"))
    elif wall.brace_kn is None:
        notes.append(Note("brace_unasked", "info", f"{path}.wall.brace_kn", names, "typed"))
    return seen, tuple(notes)
