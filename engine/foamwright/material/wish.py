"""Choose a density by what is wished for, as far as tables were published."""

from typing import Final

from attrs import frozen

from foamwright.material.expect import TABLES, Table, read
from foamwright.project.notes import Note, Problem, Scalar

#: Steps to which a density is looked for [kg/m3].
STEP: Final = 1.0


@frozen
class Reach:
    """Which densities meet a wish by one table.

    Attributes
    ----------
    source : str
        The table [-]
    density : str
        Which density is meant: ``fresh`` or ``oven_dry`` [-]
    basis : str
        State in which the property was stated [-]
    reaches : bool
        Whether any row of it meets the wish [-]
    sure_kg_m3 : float or None
        Lightest (or heaviest) at which all of its range meets the wish [kg/m3]
    may_kg_m3 : float or None
        Lightest (or heaviest) at which some of its range does [kg/m3]
    best : float
        The best that the table holds at all [unit of the property]
    """

    source: str
    density: str
    basis: str
    reaches: bool
    sure_kg_m3: float | None
    may_kg_m3: float | None
    best: float


@frozen
class Wish:
    """What meets a wish, source by source.

    Attributes
    ----------
    quantity : str
        Property wished for, its unit last in the name [-]
    wanted : float
        The least (strength) or the most (conductivity) wanted [unit of the property]
    reaches : tuple of Reach
        Tables of foamed concrete [-]
    low_kg_m3 : float or None
        Least density that any table names, by the kind of density that most tables know: oven-dry [kg/m3]
    high_kg_m3 : float or None
        Greatest [kg/m3]
    """

    quantity: str
    wanted: float
    reaches: tuple[Reach, ...]
    low_kg_m3: float | None
    high_kg_m3: float | None


def _edges(table: Table) -> list[float]:
    """Give the densities of a table to whole steps, its rows among them."""
    first, last = table.points[0][0], table.points[-1][0]
    steps = int((last - first) / STEP)
    return sorted({first + i * STEP for i in range(steps + 1)} | {p[0] for p in table.points})


def _wish(quantity: str, wanted: float, most: bool) -> tuple[Wish, tuple[Note, ...]]:
    reaches: list[Reach] = []
    for table in TABLES:
        if table.quantity != quantity or "not_foamed" in table.note or table.note == "whole_range":
            continue
        rows = [(density, *read(table, density)[:2]) for density in _edges(table)]
        if most:
            sure = [d for d, _, high in rows if high <= wanted]
            may = [d for d, low, _ in rows if low <= wanted]
            best = min(low for _, low, _ in rows)
        else:
            sure = [d for d, low, _ in rows if low >= wanted]
            may = [d for d, _, high in rows if high >= wanted]
            best = max(high for _, _, high in rows)
        pick = max if most else min
        reaches.append(
            Reach(
                table.source,
                table.density,
                table.basis,
                bool(may),
                pick(sure) if sure else None,
                pick(may) if may else None,
                best,
            )
        )
    named = [
        d
        for reach in reaches
        if reach.density == "oven_dry"
        for d in (reach.sure_kg_m3, reach.may_kg_m3)
        if d is not None
    ]
    wish = Wish(
        quantity,
        wanted,
        tuple(reaches),
        min(named) if named else None,
        max(named) if named else None,
    )
    if any(reach.reaches for reach in reaches):
        return wish, ()
    bests = [reach.best for reach in reaches]
    params: dict[str, Scalar] = {
        "quantity": quantity,
        "wanted": wanted,
        "best": min(bests) if most else max(bests),
    }
    return wish, (Note("no_published_row_reaches", "warning", "wish", params, "arithmetic"),)


def lightest(strength: float) -> tuple[Wish | None, tuple[Problem, ...], tuple[Note, ...]]:
    """Return the lightest densities that are published to reach a compressive strength.

    Source: the strength tables of ``material.expect``, read between their rows and not beyond.

    Parameters
    ----------
    strength : float
        Strength wanted, above 0 [MPa]

    Returns
    -------
    tuple of (Wish or None, tuple of Problem, tuple of Note)
        Densities by source; a note where no row reaches [-]

    Examples
    --------
    >>> wish = lightest(1.0)[0]
    >>> [(r.source, r.sure_kg_m3, r.may_kg_m3) for r in wish.reaches if r.source == "bca_1994"]
    [('bca_1994', 600.0, 400.0)]
    >>> lightest(30.0)[2][0].code
    'no_published_row_reaches'
    """
    if not strength > 0:
        return None, (Problem("wish.strength_mpa", strength, 0.0, "too_small"),), ()
    wish, notes = _wish("strength_mpa", strength, most=False)
    return wish, (), notes


def heaviest(conductivity: float) -> tuple[Wish | None, tuple[Problem, ...], tuple[Note, ...]]:
    """Return the heaviest, and so the strongest, densities that are published to stay below a conductivity.

    Source: the conductivity tables of ``material.expect``, read between their rows and not beyond.

    Parameters
    ----------
    conductivity : float
        Most that is wanted, above 0 [W/(m K)]

    Returns
    -------
    tuple of (Wish or None, tuple of Problem, tuple of Note)
        Densities by source; a note where no row reaches [-]

    Examples
    --------
    >>> wish = heaviest(0.16)[0]
    >>> [(r.source, r.sure_kg_m3) for r in wish.reaches if r.basis == "in_use"]
    [('ashrae_2021_ch26', 480.0), ('dstu_9191', 500.0), ('jcem_1996', 392.0)]
    """
    if not conductivity > 0:
        return None, (Problem("wish.conductivity_w_mk", conductivity, 0.0, "too_small"),), ()
    wish, notes = _wish("conductivity_w_mk", conductivity, most=True)
    return wish, (), notes


def heaviest_for_resistance(
    resistance: float, thickness: float
) -> tuple[Wish | None, tuple[Problem, ...], tuple[Note, ...]]:
    """Return the heaviest densities that give a wall of a thickness its thermal resistance.

    Source: arithmetic (thickness over resistance), then as ``heaviest``; the wall alone, no air films.

    Parameters
    ----------
    resistance : float
        Resistance wanted, above 0 [m2 K/W]
    thickness : float
        Thickness of the wall, above 0 [m]

    Returns
    -------
    tuple of (Wish or None, tuple of Problem, tuple of Note)
        Densities by source; a note where no row reaches [-]

    Examples
    --------
    >>> round(heaviest_for_resistance(2.5, 0.30)[0].wanted, 3)
    0.12
    >>> heaviest_for_resistance(10.0, 0.30)[2][0].code
    'no_published_row_reaches'
    """
    if not resistance > 0:
        return None, (Problem("wish.resistance_m2k_w", resistance, 0.0, "too_small"),), ()
    if not thickness > 0:
        return None, (Problem("wish.thickness_m", thickness, 0.0, "too_small"),), ()
    return heaviest(thickness / resistance)
