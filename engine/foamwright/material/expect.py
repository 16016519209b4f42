"""What foamed concrete of a density may be expected to be, as far as tables were published.

Every source stands in a row of its own. They disagree, by half at some densities, and no average
of them is made.
"""

import math
from typing import Any, Final

from attrs import frozen

from foamwright.data import load
from foamwright.material.density import OvenDryDensity, WetDensity
from foamwright.material.row import Row
from foamwright.project.notes import Note, Scalar

_DATA: Final[dict[str, Any]] = load("expected")
#: Square metre kelvins per watt that make an R of one per inch, over an inch: R = RESISTANCE / conductivity.
RESISTANCE: Final = 0.0254 * 5.678263
#: What is said in the trade of cast densities of 320 to 500 kg/m3 (common practice, no source) [R per inch].
TRADE_R: Final = (1.8, 2.2)
#: Those densities [kg/m3].
TRADE_DENSITIES: Final = (320.0, 500.0)
#: Moisture of aerated concrete in use, by mass (ISO 10456:2007, Table 4, from memory) [-].
IN_USE: Final = (0.026, 0.045)


@frozen
class Table:
    """One published table of one property against density.

    Attributes
    ----------
    quantity : str
        Property, its unit last in the name [-]
    source : str
        Source [-]
    density : str
        Which density leads in: ``fresh`` or ``oven_dry`` [-]
    basis : str
        State in which the property was stated: ``fresh``, ``oven_dry`` or ``in_use`` [-]
    mode : str
        How it is read: ``line`` between rows, ``class`` up to each row, ``span`` from the first to the last, ``valore`` by the formula [-]
    points : tuple of (float, float, float)
        Density, least and most, densities rising [kg/m3, unit of the property]
    note : str
        Code of what must be said beside it, or nothing [-]
    """

    quantity: str
    source: str
    density: str
    basis: str
    mode: str
    points: tuple[tuple[float, float, float], ...]
    note: str


TABLES: Final = tuple(
    Table(**(entry | {"points": tuple(tuple(float(v) for v in point) for point in entry["points"])}))
    for entry in _DATA["tables"]
)


def valore(density: float) -> float:
    """Return the conductivity of oven-dry concrete from its oven-dry density.

    Source: ACI 122R-02, formula of Valore, from memory: ``k = 0.072 exp(0.00125 rho)``. Used for
    320 to 960 kg/m3.

    Parameters
    ----------
    density : float
        Oven-dry density [kg/m3]

    Returns
    -------
    float
        Conductivity [W/(m K)]

    Examples
    --------
    >>> round(valore(320.0), 4)
    0.1074
    """
    return 0.072 * math.exp(0.00125 * density)


def resistance_per_inch(conductivity: float) -> float:
    """Return the R-value of an inch.

    Source: arithmetic (1 m2 K/W is 5.678263 h ft2 F/Btu).

    Parameters
    ----------
    conductivity : float
        Conductivity, above 0 [W/(m K)]

    Returns
    -------
    float
        R per inch [h ft2 F/(Btu in)]

    Examples
    --------
    >>> round(resistance_per_inch(0.12), 2)
    1.2
    """
    return RESISTANCE / conductivity


def read(table: Table, density: float) -> tuple[float, float, float]:
    """Read one table at one density, at its nearest row where the density lies outside.

    Source: the table's own; straight lines between its rows are arithmetic.

    Parameters
    ----------
    table : Table
        The table [-]
    density : float
        Density of the kind that leads into the table [kg/m3]

    Returns
    -------
    tuple of (float, float, float)
        Least, most, and the density that was read: another than asked for where that lies outside [unit of the property, kg/m3]

    Examples
    --------
    >>> ashrae = next(t for t in TABLES if t.source == "ashrae_2021_ch26")
    >>> read(ashrae, 480.0)
    (0.16, 0.16, 480.0)
    >>> read(ashrae, 200.0)
    (0.12, 0.12, 320.0)
    """
    points = table.points
    # A class reaches down from its greatest density; what is lighter than the first meets it too.
    within = min(max(density, 0.0 if table.mode == "class" else points[0][0]), points[-1][0])
    if table.mode == "valore":
        value = valore(within)
        return value, value, within
    if table.mode == "class":
        _, low, high = next(point for point in points if within <= point[0])
        return low, high, within
    if table.mode == "span":
        return points[0][1], points[0][2], within
    for (below, low, high), (above, low2, high2) in zip(points, points[1:], strict=False):
        if within <= above:
            part = (within - below) / (above - below)
            return (
                round(low + part * (low2 - low), 12),
                round(high + part * (high2 - high), 12),
                within,
            )
    raise AssertionError("the greatest density stands in the table")


def published(quantity: str, source: str, density: float) -> Row:
    """Return what one source says at one density.

    Source: the table's own.

    Parameters
    ----------
    quantity : str
        Property, its unit last in the name [-]
    source : str
        Source [-]
    density : float
        Density of the kind that leads into its table [kg/m3]

    Returns
    -------
    Row
        Least and most; the nearest row and a note where the density lies outside [-]

    Raises
    ------
    LookupError
        The source holds no such table.

    Examples
    --------
    >>> published("conductivity_w_mk", "dstu_9191", 500.0).low
    0.16
    """
    for table in TABLES:
        if (table.quantity, table.source) == (quantity, source):
            low, high, found = read(table, density)
            note = table.note if found == density else "expect_outside_published"
            return Row(quantity, low, high, source, table.basis, note)
    raise LookupError(f"{source} holds no table of {quantity}")


def expect(
    wet: WetDensity, oven_dry: OvenDryDensity
) -> tuple[tuple[Row, ...], tuple[Note, ...]]:
    """Return what is published of foamed concrete of a density, source by source.

    Source: each row its own. Conductivities in use are looked up by the oven-dry density, as their
    tables are; weight in use takes the moisture of aerated concrete in ISO 10456:2007, Table 4
    (from memory). The R-value of the trade is common practice, no source.

    Parameters
    ----------
    wet : WetDensity
        Density as cast [kg/m3]
    oven_dry : OvenDryDensity
        Density dried in the oven [kg/m3]

    Returns
    -------
    tuple of (tuple of Row, tuple of Note)
        Rows of strength, conductivity, shrinkage, specific heat and weight; what lies outside a table is its nearest row, and said [-]

    Examples
    --------
    >>> rows, _ = expect(WetDensity(484.0), OvenDryDensity(321.0))
    >>> [(r.source, r.low) for r in rows if r.quantity == "strength_mpa"][:2]
    [('caltrans_19_10', 0.552), ('astm_c869_table', 1.4)]
    """
    densities = {"fresh": float(wet), "oven_dry": float(oven_dry)}
    rows: list[Row] = []
    notes: list[Note] = []
    outside: dict[str, str] = {}
    for table in TABLES:
        asked = densities[table.density]
        row = published(table.quantity, table.source, asked)
        if row.note == "expect_outside_published":
            outside[table.quantity] = ",".join(
                part for part in (outside.get(table.quantity, ""), table.source) if part
            )
        rows.append(row)
    for quantity, sources in outside.items():
        params: dict[str, Scalar] = {"quantity": quantity, "sources": sources, **densities}
        notes.append(Note("expect_outside_published", "caution", "mix", params, "arithmetic"))
    trade = (RESISTANCE / TRADE_R[1], RESISTANCE / TRADE_R[0])
    rows.append(Row("conductivity_w_mk", *trade, "practice_trade_r", "-", "trade_r_value"))
    notes.append(_trade())
    rows += [
        Row("weight_kg_m3", wet, wet, "arithmetic", "fresh"),
        Row("weight_kg_m3", oven_dry, oven_dry, "astm_c869", "oven_dry"),
        Row("weight_kg_m3", oven_dry * (1 + IN_USE[0]), oven_dry * (1 + IN_USE[1]), "iso_10456", "in_use"),
    ]
    return tuple(rows), tuple(notes)


def published_r(density: float, basis: str = "in_use") -> tuple[float, float]:
    """Return the least and the most R per inch that tables of foamed concrete give at a density.

    Source: those tables that reach there; autoclaved material and the trade's own figure left out.

    Parameters
    ----------
    density : float
        Oven-dry density; the nearest row where it lies outside all tables [kg/m3]
    basis : str
        ``in_use`` or ``oven_dry`` [-]

    Returns
    -------
    tuple of (float, float)
        Least and most [h ft2 F/(Btu in)]

    Examples
    --------
    >>> [round(v, 2) for v in published_r(320.0)]
    [1.03, 1.36]
    """
    found = [
        read(table, density)
        for table in TABLES
        if table.quantity == "conductivity_w_mk"
        and table.basis == basis
        and "not_foamed" not in table.note
    ]
    nearest = min(abs(at - density) for _, _, at in found)
    reach = [row for row in found if abs(row[2] - density) <= nearest]
    return RESISTANCE / max(row[1] for row in reach), RESISTANCE / min(row[0] for row in reach)


def _trade() -> Note:
    """Set what is said in the trade beside what is published for the same densities."""
    ends = [published_r(density) for density in TRADE_DENSITIES]
    dry = [published_r(density, "oven_dry") for density in TRADE_DENSITIES]
    params: dict[str, Scalar] = {
        "trade_low": TRADE_R[0],
        "trade_high": TRADE_R[1],
        "published_low": min(low for low, _ in ends),
        "published_high": max(high for _, high in ends),
        "published_dry_high": max(high for _, high in dry),
        "density_low": TRADE_DENSITIES[0],
        "density_high": TRADE_DENSITIES[1],
    }
    return Note("trade_r_value", "caution", "mix", params, "practice_trade_r")
