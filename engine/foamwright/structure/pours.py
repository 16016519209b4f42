"""Thick pours and void fills: how warm the cement makes them, how deep a lift, how long to wait for the next.

Foamed concrete holds little matter and much air: so much cement warms so little mass that a pour which keeps its heat can come
near boiling. What is cast as small blocks loses its heat within hours and is not looked at.
"""

import math
from typing import Final

from attrs import frozen

from foamwright.material import MixResult
from foamwright.project.model import Part
from foamwright.project.notes import Note, Scalar, Severity
from foamwright.shape.measure import Shape
from foamwright.structure.membrane import GRAVITY

#: A thermochemical calorie per gram, exact by definition [kJ/kg].
CALORIE: Final = 4.184
#: Heat of 13 portland cements after 180 days, 72.5 to 115.9 cal/g (Woods, Steinour and Starke, Industrial and Engineering Chemistry 24
#: (1932), as public data sets keep it) [kJ/kg].
_PORTLAND: Final = (72.5 * CALORIE, 115.9 * CALORIE)
#: Most that a cement of moderate heat gives in seven days (ASTM C150-07, Table 4) [kJ/kg].
_MODERATE: Final = 290.0
#: Cements with a fifth, and with more, of something else: from memory; slag gives up to 461 kJ/kg in the end [kJ/kg].
_LITTLE_BLENDED: Final = 240.0
_BLENDED: Final = (200.0, 461.0)
#: Heat that cements give, low and high; a type that is not here may be any of them [kJ/kg].
HEAT_KJ_KG: Final[dict[str, tuple[float, float]]] = {
    "cem_i": _PORTLAND,
    "astm_i": _PORTLAND,
    "astm_iii": _PORTLAND,
    "astm_v": _PORTLAND,
    "astm_ii": (_MODERATE, _PORTLAND[1]),
    "cem_ii_a": (_LITTLE_BLENDED, _PORTLAND[1]),
    "astm_il": (_LITTLE_BLENDED, _PORTLAND[1]),
    "cem_ii_b": _BLENDED,
    "cem_iii_a": _BLENDED,
    "cem_iii_b": _BLENDED,
    "cem_iv": _BLENDED,
    "cem_v": _BLENDED,
    "astm_ip": _BLENDED,
    "astm_is": _BLENDED,
}
ANY_KJ_KG: Final = (_BLENDED[0], _PORTLAND[1])
#: Specific heat of dry foamed concrete not cured in steam: 850 +- 50 J/(kg K) at 840 kg/m3, 980 +- 50 at 245 kg/m3 (Investigation into
#: non-autoclaved foam concrete heat engineering properties, Journal of Civil Engineering and Management, 1996, abstract) [kJ/(kg K)].
DRY_KJ_KG_K: Final = (0.80, 1.03)
#: Specific heat of water about 40 degrees C (IAPWS-IF97) [kJ/(kg K)].
WATER_KJ_KG_K: Final = 4.18
#: Warmer than this no mass concrete may become, for fear of delayed ettringite (ACI 301-20, as the ACI answers it in public) [C].
LIMIT_C: Final = 70.0
#: Where the water in it boils, at sea level [C].
BOILS_C: Final = 100.0
#: A pour of at most this depth, open at its top, loses most of its heat within a day or so: 0.19 W/(m K) as measured moist at
#: 500 kg/m3 (source as for the dry specific heat) over some 950 kJ/(m3 K) [m].
THIN_M: Final = 0.20
#: Depth of a lift, and wait for the next one: common practice, no source [m, h].
LIFT_M: Final = (0.30, 0.60)
WAIT_H: Final = (12.0, 24.0)


@frozen
class Pour:
    """What must be known of one pour before it is made.

    Attributes
    ----------
    part : str
        Name of the part in the project [-]
    depth_m : float or None
        Greatest depth; absent of a void whose depth is not typed [m]
    thick : bool
        Whether it is deeper than what loses its heat by itself; so is taken what is not known [-]
    cement_kg_m3 : float
        Cement in a cubic metre in place [kg/m3]
    heat_low_kj_kg : float
        Least heat that such a cement gives [kJ/kg]
    heat_high_kj_kg : float
        Most heat likewise [kJ/kg]
    rise_low_k : float
        How much warmer it becomes at least, if no heat is lost and no water boils [K]
    rise_high_k : float
        The same at most [K]
    start_c : float or None
        How warm it is placed, as typed [C]
    peak_low_c : float or None
        Start and least rise together; absent until the start is typed [C]
    peak_high_c : float or None
        Start and greatest rise together [C]
    lift_depth_low_m : float
        Depth of a lift, the careful one [m]
    lift_depth_high_m : float
        Depth of a lift, the most [m]
    lifts_low : int or None
        Lifts of the greatest depth; absent where the depth is not known [-]
    lifts_high : int or None
        Lifts of the careful depth [-]
    wait_low_h : float
        Wait until the next lift at least [h]
    wait_high_h : float
        Wait of the careful [h]
    lift_pressure_kpa : float
        What a fresh lift of the greatest depth weighs on the one below, and presses sideways at its foot [kPa]
    """

    part: str
    depth_m: float | None
    thick: bool
    cement_kg_m3: float
    heat_low_kj_kg: float
    heat_high_kj_kg: float
    rise_low_k: float
    rise_high_k: float
    start_c: float | None
    peak_low_c: float | None
    peak_high_c: float | None
    lift_depth_low_m: float
    lift_depth_high_m: float
    lifts_low: int | None
    lifts_high: int | None
    wait_low_h: float
    wait_high_h: float
    lift_pressure_kpa: float


def adiabatic_rise(cement: float, heat: float, capacity: float) -> float:
    """Return how much warmer a body of concrete becomes if it keeps all the heat of its cement.

    Source: conservation of heat, ``dT = C Q / (rho c)``, the form of CIRIA C766 (as a public transcription of its formulas has it).

    Valid while no water boils.

    Parameters
    ----------
    cement : float
        Cement in a cubic metre [kg/m3]
    heat : float
        Heat that it gives [kJ/kg]
    capacity : float
        Heat that a cubic metre takes up for each kelvin, above 0 [kJ/(m3 K)]

    Returns
    -------
    float
        Rise [K]

    Examples
    --------
    >>> round(adiabatic_rise(350.0, 350.0, 2400.0 * 1.0), 2)
    51.04
    """
    return cement * heat / capacity


def heat_capacity(wet: float, oven_dry: float, dry: float) -> float:
    """Return the heat that a cubic metre of fresh foamed concrete takes up for each kelvin.

    Source: arithmetic: what stays in the oven at the specific heat of dry foamed concrete, the rest of the fresh mass as water; the air in
    it takes up next to nothing.

    Parameters
    ----------
    wet : float
        Density as cast [kg/m3]
    oven_dry : float
        Density dried in the oven, with the water that cement binds [kg/m3]
    dry : float
        Specific heat of the dry material [kJ/(kg K)]

    Returns
    -------
    float
        Heat capacity [kJ/(m3 K)]

    Examples
    --------
    >>> heat_capacity(500.0, 300.0, 1.0)
    1136.0
    """
    return oven_dry * dry + max(0.0, wet - oven_dry) * WATER_KJ_KG_K


def heat_of(cement_type: str) -> tuple[float, float]:
    """Return the least and the most heat that a type of cement gives while it hardens.

    Source: Woods, Steinour and Starke (1932) for portland cements; ASTM C150-07, Table 4 for moderate heat; blended cements from memory.
    EN 197-1 calls a cement of low heat that gives at most 270 kJ/kg in seven days (from memory).

    Parameters
    ----------
    cement_type : str
        Code of the type in the project [-]

    Returns
    -------
    tuple of (float, float)
        Low and high [kJ/kg]

    Examples
    --------
    >>> [round(heat) for heat in heat_of("cem_i")], heat_of("unstated")[0]
    ([303, 485], 200.0)
    """
    return HEAT_KJ_KG.get(cement_type, ANY_KJ_KG)


def lifts_of(depth: float, lift: float) -> int:
    """Return in how many lifts a depth is poured.

    Source: arithmetic.

    Parameters
    ----------
    depth : float
        Depth of the pour, above 0 [m]
    lift : float
        Depth of a lift, above 0 [m]

    Returns
    -------
    int
        Lifts [-]

    Examples
    --------
    >>> lifts_of(1.2, 0.6), lifts_of(1.21, 0.6)
    (2, 3)
    """
    return max(1, math.ceil(depth / lift - 1e-9))


def pours(
    parts: tuple[Part, ...], shape: Shape, mix: MixResult, cement_type: str
) -> tuple[tuple[Pour, ...], tuple[Note, ...]]:
    """Look at every part that is poured in place.

    Source: `adiabatic_rise` with both ends of every range; lifts and waiting are common practice, no source.

    Parameters
    ----------
    parts : tuple of Part
        The parts as stated [-]
    shape : Shape
        The same, measured [-]
    mix : MixResult
        The foamed concrete [-]
    cement_type : str
        Type of cement as stated [-]

    Returns
    -------
    tuple of (tuple of Pour, tuple of Note)
        One for each fill, in the order of the project; what must be said of thick ones [-]

    Examples
    --------
    >>> from foamwright.material import solve
    >>> from foamwright.project.model import Fill, Mix
    >>> from foamwright.shape.measure import measure
    >>> pit = (Part(shape="fill", fill=Fill(kind="void", void_depth_m=1.5)),)
    >>> (one,), notes = pours(pit, measure(pit)[0], solve(Mix())[0], "cem_i")
    >>> one.lifts_low, one.lifts_high, round(one.rise_low_k), round(one.rise_high_k), notes[0].code
    (3, 5, 80, 139, 'pour_heat')
    """
    cement = mix.cement_kg / (mix.yield_l / 1000)
    wet, dry = float(mix.wet_density_kg_m3), float(mix.oven_dry_density_kg_m3)
    low, high = heat_of(cement_type)
    light, heavy = (heat_capacity(wet, dry, specific) for specific in DRY_KJ_KG_K)
    rises = adiabatic_rise(cement, low, heavy), adiabatic_rise(cement, high, light)
    found: list[Pour] = []
    notes: list[Note] = []
    for i, part, seen in shape.beside(parts):
        if seen.fill is None:
            continue
        fill = part.fill
        depth = fill.void_depth_m if fill.kind == "void" else seen.fill.greatest_m
        start = fill.placed_c
        one = Pour(
            part=part.id,
            depth_m=depth,
            thick=depth is None or depth > THIN_M,
            cement_kg_m3=cement,
            heat_low_kj_kg=low,
            heat_high_kj_kg=high,
            rise_low_k=rises[0],
            rise_high_k=rises[1],
            start_c=start,
            peak_low_c=None if start is None else start + rises[0],
            peak_high_c=None if start is None else start + rises[1],
            lift_depth_low_m=LIFT_M[0],
            lift_depth_high_m=LIFT_M[1],
            lifts_low=None if depth is None else lifts_of(depth, LIFT_M[1]),
            lifts_high=None if depth is None else lifts_of(depth, LIFT_M[0]),
            wait_low_h=WAIT_H[0],
            wait_high_h=WAIT_H[1],
            lift_pressure_kpa=wet * GRAVITY * LIFT_M[1] / 1000,
        )
        found.append(one)
        if one.thick:
            notes.extend(_notes(one, f"parts[{i}].fill"))
    return tuple(found), tuple(notes)


def _notes(pour: Pour, path: str) -> list[Note]:
    """What must be said of a thick pour."""
    names: dict[str, Scalar] = {"part": pour.part}
    notes: list[Note] = []
    if pour.start_c is None or pour.peak_high_c is None:
        params = names | {"rise_low_k": pour.rise_low_k, "rise_high_k": pour.rise_high_k, "limit": LIMIT_C}
        notes.append(Note("pour_heat", "caution", path + ".kind", params, "pour_limit"))
        notes.append(Note("pour_start_unasked", "info", path + ".placed_c", dict(names), "typed"))
    else:
        grave: Severity = "caution" if pour.peak_high_c > LIMIT_C else "info"
        params = names | {
            "start_c": pour.start_c, "peak_low_c": pour.peak_low_c, "peak_high_c": pour.peak_high_c,
            "limit": LIMIT_C, "boils_c": BOILS_C,
        }  # fmt: skip
        notes.append(Note("pour_peak", grave, path + ".placed_c", params, "pour_limit"))
    if pour.depth_m is None:
        notes.append(Note("pour_depth_unasked", "info", path + ".void_depth_m", dict(names), "typed"))
    return notes
