"""Which unit each kind of figure takes for each reader, and the way there and back.

A value is always in the unit of the project file and the estimate (metres, litres, kilograms: the
suffix of the field's name), called its base here. pint parses the units and yields the factors; the
factors are kept, since a conversion through pint costs 11 us and a sheet holds hundreds.
"""

from collections.abc import Mapping
from functools import lru_cache
from typing import Any, Final

import pint
from attrs import frozen

from foamwright.reader.markers import NP_, Message
from foamwright.reader.preferences import Units

#: The units that readers use and nothing more. Exact by definition: foot, pound and US gallon (NIST
#: Special Publication 811:2008, appendix B.8), imperial gallon (Units of Measurement Regulations 1995,
#: schedule), pound-force with standard gravity 9.80665 m/s2 (CGPM 1901).
_DEFINITIONS: Final = """
milli- = 1e-3
kilo- = 1e3
mega- = 1e6
metre = [length] = m
gram = [mass] = g
second = [time] = s
kelvin = [temperature]; offset: 0 = K
celsius = kelvin; offset: 273.15
fahrenheit = 5 / 9 * kelvin; offset: 459.67 * 5 / 9
rankine = 5 / 9 * kelvin; offset: 0
count = []
percent = 0.01
degree = 0.017453292519943295
minute = 60 * second
hour = 3600 * second
day = 86400 * second
centimetre = 0.01 * metre
millimetre = 0.001 * metre
inch = 0.0254 * metre
foot = 0.3048 * metre
yard = 0.9144 * metre
litre = 0.001 * metre ** 3
millilitre = 0.000001 * metre ** 3
us_gallon = 3.785411784 * litre
us_quart = us_gallon / 4
us_fluid_ounce = us_gallon / 128
imperial_gallon = 4.54609 * litre
imperial_quart = imperial_gallon / 4
imperial_fluid_ounce = imperial_gallon / 160
pound = 453.59237 * gram
ounce = pound / 16
tonne = 1000000 * gram
newton = kilogram * metre / second ** 2
pascal = newton / metre ** 2
pound_force = pound * 9.80665 * metre / second ** 2
psi = pound_force / inch ** 2
kilonewton = 1000 * newton
mile = 5280 * foot
watt = newton * metre / second
international_british_thermal_unit = 1055.05585262 * newton * metre
"""


@frozen(eq=False)
class Unit:
    """One unit: how pint writes it, and its CLDR name or else its own symbol and name.

    Attributes
    ----------
    key : str
        Our short name [-]
    pint : str
        What pint parses [-]
    cldr : str | None
        Its name in CLDR [-]
    symbol : Message | None
        Its symbol, where CLDR has none that serves [-]
    name : Message | None
        Its name, to be read aloud [-]
    attached : bool
        Whether the symbol touches the number [-]
    """

    key: str
    pint: str
    cldr: str | None = None
    symbol: Message | None = None
    name: Message | None = None
    attached: bool = False


@frozen(eq=False)
class Kind:
    """One kind of figure: its base, its unit for each reader, and how many decimals say enough.

    Attributes
    ----------
    key : str
        Name of the kind [-]
    base : str
        Unit of the project file and the estimate [-]
    metric : str
        Unit of metric readers [-]
    us : str
        Unit of US readers [-]
    imperial : str
        Unit of imperial readers [-]
    decimals : int
        Decimals in the metric unit [-]
    decimals_us : int
        Decimals in the other two [-]
    trim : bool
        Whether zeros at the end of the decimals are left out [-]
    also : str | None
        A second unit in brackets, for readers who are not metric [-]
    """

    key: str
    base: str
    metric: str
    us: str
    imperial: str
    decimals: int
    decimals_us: int
    trim: bool = False
    also: str | None = None

    def unit(self, units: Units) -> Unit:
        """Choose the unit for one system.

        Source: common practice, no source.

        Parameters
        ----------
        units : str
            ``metric``, ``us`` or ``imperial`` [-]

        Returns
        -------
        Unit
            The unit [-]

        Examples
        --------
        >>> KINDS["length_small"].unit("us").key
        'in'
        """
        return UNITS[{"metric": self.metric, "us": self.us, "imperial": self.imperial}[units]]


def _own(key: str, pint_text: str, symbol: Message, name: Message) -> Unit:
    return Unit(key, pint_text, None, symbol, name)


# Gallons, quarts and fluid ounces of the two systems differ by a fifth, and a sheet travels: the
# symbol always says which. CLDR's short "gal" would not.
UNITS: Final[Mapping[str, Unit]] = {
    unit.key: unit
    for unit in (
        Unit("m", "metre", "length-meter"),
        Unit("cm", "centimetre", "length-centimeter"),
        Unit("mm", "millimetre", "length-millimeter"),
        Unit("ft", "foot", "length-foot"),
        Unit("in", "inch", "length-inch"),
        Unit("m2", "metre ** 2", "area-square-meter"),
        Unit("ft2", "foot ** 2", "area-square-foot"),
        Unit("m3", "metre ** 3", "volume-cubic-meter"),
        Unit("ft3", "foot ** 3", "volume-cubic-foot"),
        Unit("yd3", "yard ** 3", "volume-cubic-yard"),
        Unit("L", "litre", "volume-liter"),
        Unit("mL", "millilitre", "volume-milliliter"),
        _own("us_gal", "us_gallon", NP_("unit symbol", "US gal"), NP_("unit name", "US gallons")),
        _own("us_qt", "us_quart", NP_("unit symbol", "US qt"), NP_("unit name", "US quarts")),
        _own("us_fl_oz", "us_fluid_ounce", NP_("unit symbol", "US fl oz"), NP_("unit name", "US fluid ounces")),
        _own("imp_gal", "imperial_gallon", NP_("unit symbol", "imp gal"), NP_("unit name", "imperial gallons")),
        _own("imp_qt", "imperial_quart", NP_("unit symbol", "imp qt"), NP_("unit name", "imperial quarts")),
        _own(
            "imp_fl_oz",
            "imperial_fluid_ounce",
            NP_("unit symbol", "imp fl oz"),
            NP_("unit name", "imperial fluid ounces"),
        ),
        Unit("kg", "kilogram", "mass-kilogram"),
        Unit("g", "gram", "mass-gram"),
        Unit("t", "tonne", "mass-tonne"),
        Unit("lb", "pound", "mass-pound"),
        Unit("oz", "ounce", "mass-ounce"),
        _own(
            "kg_m3",
            "kilogram / metre ** 3",
            NP_("unit symbol", "kg/m³"),
            NP_("unit name", "kilograms per cubic meter"),
        ),
        _own("g_L", "gram / litre", NP_("unit symbol", "g/L"), NP_("unit name", "grams per liter")),
        _own(
            "lb_ft3",
            "pound / foot ** 3",
            NP_("unit symbol", "lb/ft³"),
            NP_("unit name", "pounds per cubic foot"),
        ),
        Unit("kPa", "kilopascal", "pressure-kilopascal"),
        Unit("MPa", "megapascal", "pressure-megapascal"),
        Unit("psi", "psi", "pressure-pound-force-per-square-inch"),
        _own(
            "m2_L",
            "metre ** 2 / litre",
            NP_("unit symbol", "m²/L"),
            NP_("unit name", "square meters per liter"),
        ),
        _own(
            "ft2_us_gal",
            "foot ** 2 / us_gallon",
            NP_("unit symbol", "ft²/US gal"),
            NP_("unit name", "square feet per US gallon"),
        ),
        _own(
            "ft2_imp_gal",
            "foot ** 2 / imperial_gallon",
            NP_("unit symbol", "ft²/imp gal"),
            NP_("unit name", "square feet per imperial gallon"),
        ),
        _own("N_mm", "newton / millimetre", NP_("unit symbol", "N/mm"), NP_("unit name", "newtons per millimeter")),
        _own("lb_in", "pound_force / inch", NP_("unit symbol", "lbf/in"), NP_("unit name", "pounds-force per inch")),
        _own("kN", "kilonewton", NP_("unit symbol", "kN"), NP_("unit name", "kilonewtons")),
        _own("lbf", "pound_force", NP_("unit symbol", "lbf"), NP_("unit name", "pounds of force")),
        _own("kN_m", "kilonewton / metre", NP_("unit symbol", "kN/m"), NP_("unit name", "kilonewtons per meter")),
        _own("lbf_ft", "pound_force / foot", NP_("unit symbol", "lbf/ft"), NP_("unit name", "pounds of force per foot")),
        Unit("m_s", "metre / second", "speed-meter-per-second"),
        Unit("mph", "mile / hour", "speed-mile-per-hour"),
        Unit("deg", "degree", None, NP_("unit symbol", "°"), NP_("unit name", "degrees"), attached=True),
        Unit("degC", "celsius", "temperature-celsius"),
        Unit("degF", "fahrenheit", "temperature-fahrenheit"),
        # Differences: a step of a degree, without the scale's zero.
        _own("degC_step", "kelvin", NP_("unit symbol", "°C"), NP_("unit name", "degrees Celsius")),
        _own("degF_step", "rankine", NP_("unit symbol", "°F"), NP_("unit name", "degrees Fahrenheit")),
        Unit("min", "minute", "duration-minute"),
        Unit("h", "hour", "duration-hour"),
        Unit("d", "day", "duration-day"),
        _own(
            "W_mK", "watt / metre / kelvin", NP_("unit symbol", "W/(m·K)"), NP_("unit name", "watts per meter and kelvin")
        ),
        _own(
            "Btu_in", "international_british_thermal_unit * inch / (hour * foot ** 2 * rankine)", NP_("unit symbol", "Btu·in/(h·ft²·°F)"),
            NP_("unit name", "Btu inches per hour, square foot and degree Fahrenheit"),
        ),
        _own(
            "kg_m2_h", "kilogram / metre ** 2 / hour", NP_("unit symbol", "kg/(m²·h)"),
            NP_("unit name", "kilograms per square meter and hour"),
        ),
        _own(
            "lb_ft2_h", "pound / foot ** 2 / hour", NP_("unit symbol", "lb/(ft²·h)"), NP_("unit name", "pounds per square foot and hour")
        ),
        Unit("percent", "percent"),
        Unit("none", "count"),
    )
}

#: Every kind of figure. ``base`` is the unit of the project file and the estimate.
KINDS: Final[Mapping[str, Kind]] = {
    kind.key: kind
    for kind in (
        Kind("length", "m", "m", "ft", "ft", 2, 2),
        Kind("length_small", "m", "cm", "in", "in", 1, 1, trim=True),
        Kind("length_fine", "m", "mm", "in", "in", 0, 2),
        # What is set out with a rod or an arm.
        Kind("length_set", "m", "m", "in", "in", 3, 1),
        Kind("length_coat", "m", "mm", "in", "in", 1, 3, trim=True),
        Kind("area", "m2", "m2", "ft2", "ft2", 1, 0),
        Kind("volume", "m3", "m3", "yd3", "yd3", 2, 2),
        Kind("liquid", "L", "L", "us_gal", "imp_gal", 1, 1),
        Kind("liquid_bucket", "L", "L", "us_qt", "imp_qt", 3, 2, trim=True),
        Kind("liquid_small", "L", "mL", "us_fl_oz", "imp_fl_oz", 0, 1),
        Kind("mass", "kg", "kg", "lb", "lb", 1, 1),
        # Foam is weighed on kitchen and postal scales, which show grams everywhere.
        Kind("mass_small", "g", "g", "g", "g", 1, 1, also="oz"),
        Kind("mass_large", "kg", "t", "lb", "lb", 2, 0),
        Kind("density", "kg_m3", "kg_m3", "lb_ft3", "lb_ft3", 0, 1),
        Kind("foam_density", "kg_m3", "g_L", "lb_ft3", "lb_ft3", 0, 2),
        Kind("pressure", "kPa", "kPa", "psi", "psi", 1, 2),
        Kind("stress", "MPa", "MPa", "psi", "psi", 2, 0),
        Kind("coverage", "m2_L", "m2_L", "ft2_us_gal", "ft2_imp_gal", 1, 0),
        Kind("line_strength", "N_mm", "N_mm", "lb_in", "lb_in", 0, 0),
        Kind("force", "kN", "kN", "lbf", "lbf", 1, 0),
        Kind("line_load", "kN_m", "kN_m", "lbf_ft", "lbf_ft", 2, 0),
        Kind("conductivity", "W_mK", "W_mK", "Btu_in", "Btu_in", 2, 2),
        Kind("evaporation", "kg_m2_h", "kg_m2_h", "lb_ft2_h", "lb_ft2_h", 2, 2),
        Kind("speed", "m_s", "m_s", "mph", "mph", 1, 0),
        Kind("temperature", "degC", "degC", "degF", "degF", 0, 0),
        Kind("temperature_step", "degC_step", "degC_step", "degF_step", "degF_step", 0, 0),
        Kind("angle", "deg", "deg", "deg", "deg", 0, 0),
        Kind("angle_set", "deg", "deg", "deg", "deg", 1, 1),
        Kind("duration", "min", "min", "min", "min", 0, 0),
        Kind("hours", "h", "h", "h", "h", 1, 1, trim=True),
        Kind("days", "d", "d", "d", "d", 0, 0),
        Kind("fraction", "none", "percent", "percent", "percent", 0, 0),
        Kind("ratio", "none", "none", "none", "none", 2, 2),
        Kind("count", "none", "none", "none", "none", 0, 0),
    )
}


@lru_cache(maxsize=1)
def registry() -> "pint.UnitRegistry[Any]":
    """Build the registry of the few units that readers use.

    Source: NIST Special Publication 811:2008, appendix B.8; Units of Measurement Regulations 1995 for the
    imperial gallon.

    Returns
    -------
    pint.UnitRegistry
        The registry [-]

    Examples
    --------
    >>> registry().convert(1.0, "imperial_gallon", "litre")
    4.54609
    """
    made: pint.UnitRegistry[Any] = pint.UnitRegistry(None)
    made.load_definitions(_DEFINITIONS.strip().splitlines())
    return made


@lru_cache(maxsize=256)
def to_base(unit: str, base: str) -> tuple[float, float]:
    """Find factor and offset that turn a value in a unit into its base.

    Source: NIST Special Publication 811:2008, appendix B.8.

    Parameters
    ----------
    unit : str
        Key of the reader's unit [-]
    base : str
        Key of the unit of the project file [-]

    Returns
    -------
    tuple[float, float]
        Factor and offset: base = value * factor + offset [-]

    Examples
    --------
    >>> to_base("lb", "kg"), to_base("m", "m")
    ((0.45359237, 0.0), (1.0, 0.0))
    """
    if unit == base:
        return 1.0, 0.0
    source, target = UNITS[unit].pint, UNITS[base].pint
    convert = registry().convert
    if "temperature" in (UNITS[unit].cldr or ""):
        offset = float(convert(0.0, source, target))
        return (float(convert(100.0, source, target)) - offset) / 100, offset
    return _tidy(float(convert(1.0, source, target))), 0.0


def _tidy(factor: float) -> float:
    """Take the rounding noise of a chain of factors off: 0.01 is 0.01 and not 0.010000000000000002."""
    short = float(f"{factor:.15g}")
    return short if abs(short - factor) <= 4e-16 * abs(factor) else factor
