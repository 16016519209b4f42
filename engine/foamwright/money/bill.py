"""The bill of quantities for the foamed concrete, priced as far as prices were stated."""

from collections.abc import Mapping
from typing import Final

from attrs import frozen

from foamwright.finishes import Finishes, Need
from foamwright.project.model import Market, Price
from foamwright.project.notes import Note, Scalar
from foamwright.project.whole import ceiling
from foamwright.site.batches import Batches

#: How many kilograms, litres, metres or square metres one unit of a price holds; exact by definition.
_KILOGRAMS: Final = {"kg": 1.0, "t": 1000.0, "lb": 0.45359237}
_LITRES: Final = {
    "L": 1.0,
    "m3": 1000.0,
    "us_gal": 3.785411784,
    "imp_gal": 4.54609,
    "yd3": 764.554857984,
}
_METRES: Final = {"m": 1.0, "ft": 0.3048}
_SQUARE_METRES: Final = {"m2": 1.0, "ft2": 0.09290304}
#: Cement of base and skins over that of the shell (common practice, no source) [-].
ALLOWANCE: Final = (0.7, 1.0)


@frozen
class Line:
    """One line of the bill.

    Attributes
    ----------
    code : str
        What it is, as prices name it; ``other`` for a line of the builder's own [-]
    label : str
        The builder's own words, if any [-]
    path : str or None
        Where its price stands in the project; absent where there is none [-]
    quantity : float or None
        How much is bought; absent where the builder did not say [kg, L, m or -]
    unit : str or None
        ``kg``, ``L`` or ``m``, or the unit of the price for lines of the builder's own [-]
    packs : int or None
        Packs to buy, where it is sold in packs [-]
    pack_unit : str or None
        What a pack is: ``bag``, or ``piece`` for a roll or a bar [-]
    price : float or None
        Price of one ``price_unit`` [currency]
    price_unit : str or None
        Unit of the price as quoted [-]
    price_quantity : float or None
        The quantity in units of the price [-]
    amount : float or None
        Price times quantity; absent where either is not known [currency]
    """

    code: str
    label: str
    path: str | None
    quantity: float | None
    unit: str | None
    packs: int | None
    pack_unit: str | None
    price: float | None
    price_unit: str | None
    price_quantity: float | None
    amount: float | None


@frozen
class Allowance:
    """A rough allowance for base and skins, or for the one of them that is not stated yet.

    Attributes
    ----------
    factor_low : float
        Their cement over that of the shell, low [-]
    factor_high : float
        The same, high [-]
    cement_low_kg : float
        Their cement, low [kg]
    cement_high_kg : float
        Their cement, high [kg]
    bags_low : int
        The same in bags [-]
    bags_high : int
        The same in bags [-]
    low : float or None
        Their cement priced, low; absent without a price of cement [currency]
    high : float or None
        Their cement priced, high [currency]
    """

    factor_low: float
    factor_high: float
    cement_low_kg: float
    cement_high_kg: float
    bags_low: int
    bags_high: int
    low: float | None
    high: float | None


@frozen
class Money:
    """The bill for the foamed concrete, and for base and skins as far as they are stated.

    Attributes
    ----------
    currency : str
        Currency of the market [-]
    cement_kg : float
        Cement of the whole job, as far as it is stated [kg]
    cement_bags : int
        The same in bags to buy [-]
    cement_left_kg : float
        Cement left over in them [kg]
    lines : tuple of Line
        Cement, agent and water, what base and skins take, then the builder's own lines [-]
    total : float or None
        Sum of the lines that are priced; absent where none is [currency]
    low : float or None
        The same if nothing were wasted but what sawing takes as the lay plan counts it [currency]
    high : float or None
        The same if twice the stated waste were [currency]
    per_floor_area : float or None
        Total over the clear inside floor; absent where there is none [currency/m2]
    priced : int
        Lines that are priced [-]
    allowance : Allowance or None
        Cement for what is not stated of base and skins, roughly; absent where both are [-]
    """

    currency: str
    cement_kg: float
    cement_bags: int
    cement_left_kg: float
    lines: tuple[Line, ...]
    total: float | None
    low: float | None
    high: float | None
    per_floor_area: float | None
    priced: int
    allowance: Allowance | None


def price_quantity(
    item: str, unit: str, kilograms: float, litres: float, bags: int
) -> float | None:
    """Return a quantity in the unit of its price.

    Source: arithmetic; pound and gallons by their exact definitions, the agent taken as heavy as
    water.

    Parameters
    ----------
    item : str
        ``cement``, ``agent`` or ``water`` [-]
    unit : str
        Unit of the price [-]
    kilograms : float
        Mass to buy [kg]
    litres : float
        Volume to buy; not looked at for cement [L]
    bags : int
        Bags to buy; not looked at but for cement [-]

    Returns
    -------
    float or None
        Quantity, 1 for a lump sum; none where the unit does not measure the item [-]

    Examples
    --------
    >>> price_quantity("water", "m3", 1500.0, 1500.0, 0), price_quantity("water", "bag", 1.0, 1.0, 0)
    (1.5, None)
    """
    if item == "cement":
        return measured(Need(item, kilograms=kilograms, pieces=bags), unit)
    return measured(Need(item, kilograms=kilograms, litres=litres), unit)


def measured(need: Need, unit: str) -> float | None:
    """Return what is bought in the unit of its price.

    Source: arithmetic; pound, foot, yard and gallons by their exact definitions.

    Parameters
    ----------
    need : Need
        What is bought [-]
    unit : str
        Unit of the price [-]

    Returns
    -------
    float or None
        Quantity, 1 for a lump sum; none where the unit does not measure it [-]

    Examples
    --------
    >>> measured(Need("sand", kilograms=3200.0, litres=2000.0), "m3")
    2.0
    >>> measured(Need("mesh_roll", pieces=3), "kg") is None
    True
    """
    if unit == "lump":
        return 1.0
    if unit == ("bag" if need.code == "cement" else "piece"):
        return None if need.pieces is None else float(need.pieces)
    for units, amount in (
        (_KILOGRAMS, need.kilograms),
        (_LITRES, need.litres),
        (_METRES, need.metres),
        (_SQUARE_METRES, need.square_metres),
    ):
        if unit in units:
            return None if amount is None else amount / units[unit]
    return None


def whole_job(
    batches: Batches,
    finishes: Finishes | None,
    bag: float,
    share: float = 1.0,
    more: tuple[Need, ...] = (),
    mixed: tuple[Need, ...] = (),
) -> dict[str, Need]:
    """Return what the job takes of everything, by its name in the prices.

    Source: arithmetic. Cement of the foamed concrete and of base and skins is bought together, in
    whole bags; the agent is taken as heavy as water.

    Parameters
    ----------
    batches : Batches
        The planned batches [-]
    finishes : Finishes or None
        Base and skins, as far as they are stated [-]
    bag : float
        Cement in a bag [kg]
    share : float
        Batches over those planned: 1, or another for the range of the bill [-]
    more : tuple of Need
        What else is bought, such as mortar for the joints [-]
    mixed : tuple of Need
        What goes into the planned batches besides cement, agent and water, by mass [-]

    Returns
    -------
    dict of Need
        Cement, agent and water first [-]

    Examples
    --------
    >>> from foamwright.estimate import estimate
    >>> from foamwright.project import Project
    >>> whole_job(estimate(Project()).estimate.batches, None, 50.0)["cement"].pieces
    88
    """
    cement = batches.cement_kg * share + (finishes.cement_kg if finishes else 0.0)
    water = batches.water_l * share + (finishes.water_l if finishes else 0.0)
    agent, bags = batches.concentrate_l * share, ceiling(cement / bag)
    needs = [
        Need("cement", kilograms=bags * bag, pieces=bags),
        Need("agent", kilograms=agent, litres=agent),
        Need("water", kilograms=water, litres=water),
        *(finishes.needs if finishes else ()),
        *more,
        *(_scaled(need, share) for need in mixed),
    ]
    found: dict[str, Need] = {}
    for need in needs:
        # Sand of mortar and sand of foamed concrete are bought together.
        found[need.code] = _together(found[need.code], need) if need.code in found else need
    return found


def _scaled(need: Need, share: float) -> Need:
    """Give what other batches take of it."""
    kilograms, litres = need.kilograms, need.litres
    return Need(
        need.code, None if kilograms is None else kilograms * share, None if litres is None else litres * share
    )


def _together(one: Need, other: Need) -> Need:
    """Add up what is bought of one thing in two places; a measure that either has not is absent."""

    def both(a: float | None, b: float | None) -> float | None:
        return None if a is None or b is None else a + b

    return Need(one.code, both(one.kilograms, other.kilograms), both(one.litres, other.litres))


def bill(
    batches: Batches,
    market: Market,
    floor_area: float,
    finishes: Finishes | None = None,
    stated: tuple[bool, bool] = (False, False),
    spread: tuple[Finishes | None, Finishes | None] = (None, None),
    more: tuple[Need, ...] = (),
    mixed: tuple[Need, ...] = (),
) -> tuple[Money, tuple[Note, ...]]:
    """Price what the job takes: the foamed concrete, and base and skins as far as they are stated.

    Source: arithmetic on typed prices. Cement is bought in whole bags, whatever unit its price is
    quoted in. The allowance for what is not stated of base and skins is common practice, no source.

    Parameters
    ----------
    batches : Batches
        The planned batches [-]
    market : Market
        Prices and the bag [-]
    floor_area : float
        Clear inside floor [m2]
    finishes : Finishes or None
        Base and skins, as far as they are stated [-]
    stated : tuple of (bool, bool)
        Whether the base, and whether both skins, are stated [-]
    spread : tuple of (Finishes or None, Finishes or None)
        Base and skins if nothing were wasted, and with twice the stated waste [-]
    more : tuple of Need
        What else is bought, such as mortar for the joints [-]
    mixed : tuple of Need
        What goes into the planned batches besides cement, agent and water, by mass [-]

    Returns
    -------
    tuple of (Money, tuple of Note)
        The bill, and what is missing in it [-]

    Examples
    --------
    >>> from foamwright.estimate import estimate
    >>> from foamwright.project import Project
    >>> from foamwright.project.model import Price
    >>> market = Market(prices=(Price("cement", "bag", 10.0),))
    >>> estimate(Project(market=market)).estimate.money.total
    1030.0
    """
    bag = market.cement_bag_kg
    wanted = whole_job(batches, finishes, bag, more=more, mixed=mixed)
    notes: list[Note] = []
    params: dict[str, Scalar]
    lines: list[Line] = []
    for item, need in wanted.items():
        found = [(i, price) for i, price in enumerate(market.prices) if price.item == item]
        for i, _ in found[1:]:
            params = {"item": item, "used": f"market.prices[{found[0][0]}]"}
            notes.append(Note("price_repeated", "caution", f"market.prices[{i}]", params, "typed"))
        line = _line(need, found[:1])
        lines.append(line)
        if line.price is not None and line.amount is None:
            params = {"item": item, "unit": line.price_unit or ""}
            path = f"{line.path}.unit"
            notes.append(Note("price_unit_unusable", "caution", path, params, "typed"))
    for i, price in enumerate(market.prices):
        if price.item == "other":
            lines.append(_own(price, f"market.prices[{i}]"))
        elif price.item not in wanted:
            params = {"item": price.item, "label": price.label}
            notes.append(Note("price_unused", "info", f"market.prices[{i}]", params, "typed"))
    amounts = [line.amount for line in lines if line.amount is not None]
    if not amounts:
        notes.append(Note("no_prices", "info", "market.prices", {}, "typed"))
    else:
        for line in lines:
            missing = "price" if line.price is None else "quantity"
            if line.price is None or line.quantity is None:
                params = {"item": line.code, "label": line.label, "missing": missing}
                path = line.path or "market.prices"
                notes.append(Note("price_missing", "info", path, params, "typed"))
    total = sum(amounts) if amounts else None
    cement = batches.cement_kg + (finishes.cement_kg if finishes else 0.0)
    bags = wanted["cement"].pieces or 0
    allowance = None
    if not all(stated):
        allowance = _allowance(batches, finishes, bag, lines[0], bags)
        params = {
            "cement_kg": batches.cement_kg,
            "bags": bags,
            "bags_low": allowance.bags_low,
            "bags_high": allowance.bags_high,
        }
        code = "foamed_concrete_only"
        if any(stated):
            code = "skins_unstated" if stated[0] else "base_unstated"
        notes.append(Note(code, "info", "", params, "practice_base_and_skins"))
    low = high = None
    if total is not None:
        low = _at(whole_job(batches, spread[0], bag, batches.low_count / batches.count, more, mixed), lines)
        high = _at(whole_job(batches, spread[1], bag, batches.high_count / batches.count, more, mixed), lines)
    money = Money(
        currency=market.currency,
        cement_kg=cement,
        cement_bags=bags,
        cement_left_kg=max(0.0, bags * bag - cement),
        lines=tuple(lines),
        total=total,
        low=low,
        high=high,
        per_floor_area=None if total is None or not floor_area else total / floor_area,
        priced=len(amounts),
        allowance=allowance,
    )
    return money, tuple(notes)


def _at(needs: Mapping[str, Need], lines: list[Line]) -> float:
    """Price the same lines for other quantities; the builder's own lines stay."""
    total = 0.0
    for line in lines:
        if line.amount is None or line.price is None or line.price_unit is None:
            continue
        if line.code == "other":
            total += line.amount
        elif line.code in needs:
            total += line.price * (measured(needs[line.code], line.price_unit) or 0.0)
    return total


def _line(need: Need, found: list[tuple[int, Price]]) -> Line:
    """Make the line of something that the estimate counts, priced if it has a price."""
    price = found[0][1] if found else None
    known = measured(need, price.unit) if price else None
    amount = None
    if price is not None and price.price is not None and known is not None:
        amount = price.price * known
    sizes = {"kg": need.kilograms, "L": need.litres, "m": need.metres}
    if need.code not in ("cement", "lime", "bar", "fly_ash", "fibres", "accelerator"):
        sizes = {"L": need.litres, "m": need.metres}
    unit = next((unit for unit, size in sizes.items() if size is not None), None)
    return Line(
        code=need.code,
        label=price.label if price else "",
        path=f"market.prices[{found[0][0]}]" if found else None,
        quantity=sizes[unit] if unit else None,
        unit=unit,
        packs=need.pieces,
        pack_unit=None if need.pieces is None else "bag" if need.code == "cement" else "piece",
        price=price.price if price else None,
        price_unit=price.unit if price else None,
        price_quantity=known,
        amount=amount,
    )


def _own(price: Price, path: str) -> Line:
    """Make a line of the builder's own: the quantity is theirs, and 1 for a lump sum."""
    quantity = 1.0 if price.quantity is None and price.unit == "lump" else price.quantity
    amount = None if price.price is None or quantity is None else price.price * quantity
    return Line(
        code="other",
        label=price.label,
        path=path,
        quantity=quantity,
        unit=price.unit,
        packs=None,
        pack_unit=None,
        price=price.price,
        price_unit=price.unit,
        price_quantity=quantity,
        amount=amount,
    )


def _allowance(
    batches: Batches, finishes: Finishes | None, bag: float, cement: Line, bags: int
) -> Allowance:
    """Reckon roughly what is not stated; what is worked out of base or skins is taken off."""
    known = finishes.cement_kg if finishes else 0.0
    if finishes and finishes.frame:
        # Posts and beams of walls belong to neither.
        known -= finishes.frame.cement_kg
    low, high = (max(0.0, factor * batches.cement_kg - known) for factor in ALLOWANCE)
    bags_low, bags_high = ceiling(low / bag), ceiling(high / bag)

    def priced(more: int) -> float | None:
        if cement.amount is None or cement.price_unit == "lump" or not bags:
            return None
        return cement.amount / bags * more

    return Allowance(
        factor_low=ALLOWANCE[0],
        factor_high=ALLOWANCE[1],
        cement_low_kg=low,
        cement_high_kg=high,
        bags_low=bags_low,
        bags_high=bags_high,
        low=priced(bags_low),
        high=priced(bags_high),
    )
