"""The bill of quantities for the foamed concrete, priced as far as prices were stated."""

from typing import Final

from attrs import frozen

from foamwright.project.model import Market, Price
from foamwright.project.notes import Note, Scalar
from foamwright.site.batches import Batches, ceiling

#: How many kilograms, or litres, one unit of a price holds; exact by definition.
_KILOGRAMS: Final = {"kg": 1.0, "t": 1000.0, "lb": 0.45359237}
_LITRES: Final = {"L": 1.0, "m3": 1000.0, "us_gal": 3.785411784, "imp_gal": 4.54609}
#: Cement of base and skins over that of the shell (common practice, no source) [-].
ALLOWANCE: Final = (0.7, 1.0)


@frozen
class Line:
    """One line of the bill.

    Attributes
    ----------
    code : str
        ``cement``, ``agent``, ``water`` or ``other`` [-]
    label : str
        The builder's own words, if any [-]
    path : str or None
        Where its price stands in the project; absent where there is none [-]
    quantity : float or None
        How much is bought; absent where the builder did not say [kg, L or -]
    unit : str or None
        ``kg`` or ``L``, or the unit of the price for lines of the builder's own [-]
    packs : int or None
        Packs to buy, where it is sold in packs [-]
    pack_unit : str or None
        What a pack is: ``bag`` [-]
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
    """A rough allowance for base and skins, which are not estimated yet.

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
    """The bill for the foamed concrete only.

    Attributes
    ----------
    currency : str
        Currency of the market [-]
    lines : tuple of Line
        Cement, agent and water, then the builder's own lines [-]
    total : float or None
        Sum of the lines that are priced; absent where none is [currency]
    low : float or None
        The same if nothing at all were wasted [currency]
    high : float or None
        The same if twice the stated waste were [currency]
    per_floor_area : float or None
        Total over the clear inside floor [currency/m2]
    priced : int
        Lines that are priced [-]
    allowance : Allowance
        Cement for base and skins, roughly [-]
    """

    currency: str
    lines: tuple[Line, ...]
    total: float | None
    low: float | None
    high: float | None
    per_floor_area: float | None
    priced: int
    allowance: Allowance


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
    if unit == "lump":
        return 1.0
    if unit in _KILOGRAMS:
        return kilograms / _KILOGRAMS[unit]
    if item == "cement":
        return float(bags) if unit == "bag" else None
    return litres / _LITRES[unit] if unit in _LITRES else None


def bill(batches: Batches, market: Market, floor_area: float) -> tuple[Money, tuple[Note, ...]]:
    """Price what the foamed concrete takes.

    Source: arithmetic on typed prices. Cement is bought in whole bags, whatever unit its price is
    quoted in. The allowance for base and skins is common practice, no source.

    Parameters
    ----------
    batches : Batches
        The planned batches [-]
    market : Market
        Prices and the bag [-]
    floor_area : float
        Clear inside floor [m2]

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
    940.0
    """
    bag, bags = market.cement_bag_kg, batches.cement_bags
    wanted = {
        "cement": (bags * bag, 0.0, "kg"),
        "agent": (batches.concentrate_l, batches.concentrate_l, "L"),
        "water": (batches.water_l, batches.water_l, "L"),
    }
    notes: list[Note] = []
    params: dict[str, Scalar]
    lines: list[Line] = []
    for item, (mass, volume, unit) in wanted.items():
        found = [(i, price) for i, price in enumerate(market.prices) if price.item == item]
        for i, _ in found[1:]:
            params = {"item": item, "used": f"market.prices[{found[0][0]}]"}
            notes.append(Note("price_repeated", "caution", f"market.prices[{i}]", params, "typed"))
        line = _line(item, mass if unit == "kg" else volume, unit, bags, found[:1], mass, volume)
        lines.append(line)
        if line.price is not None and line.amount is None:
            params = {"item": item, "unit": line.price_unit or ""}
            path = f"{line.path}.unit"
            notes.append(Note("price_unit_unusable", "caution", path, params, "typed"))
    lines.extend(
        _own(price, f"market.prices[{i}]")
        for i, price in enumerate(market.prices)
        if price.item == "other"
    )
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
    allowance = _allowance(batches, bag, lines[0])
    params = {
        "cement_kg": batches.cement_kg,
        "bags": bags,
        "bags_low": allowance.bags_low,
        "bags_high": allowance.bags_high,
    }
    notes.append(Note("foamed_concrete_only", "info", "", params, "practice_base_and_skins"))
    low, high = _range(batches, bag, lines, total)
    money = Money(
        currency=market.currency,
        lines=tuple(lines),
        total=total,
        low=low,
        high=high,
        per_floor_area=None if total is None else total / floor_area,
        priced=len(amounts),
        allowance=allowance,
    )
    return money, tuple(notes)


def _line(
    item: str,
    quantity: float,
    unit: str,
    bags: int,
    found: list[tuple[int, Price]],
    mass: float,
    volume: float,
) -> Line:
    """Make the line of one of the three materials, priced if it has a price."""
    price = found[0][1] if found else None
    known = price_quantity(item, price.unit, mass, volume, bags) if price else None
    amount = None
    if price is not None and price.price is not None and known is not None:
        amount = price.price * known
    return Line(
        code=item,
        label=price.label if price else "",
        path=f"market.prices[{found[0][0]}]" if found else None,
        quantity=quantity,
        unit=unit,
        packs=bags if item == "cement" else None,
        pack_unit="bag" if item == "cement" else None,
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


def _allowance(batches: Batches, bag: float, cement: Line) -> Allowance:
    low, high = (factor * batches.cement_kg for factor in ALLOWANCE)
    bags_low, bags_high = ceiling(low / bag), ceiling(high / bag)

    def priced(bags: int) -> float | None:
        if cement.amount is None or cement.price_unit == "lump" or not batches.cement_bags:
            return None
        return cement.amount / batches.cement_bags * bags

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


def _range(
    batches: Batches, bag: float, lines: list[Line], total: float | None
) -> tuple[float | None, float | None]:
    """Price the same lines for no waste at all and for twice the stated waste."""
    if total is None:
        return None, None
    wasted = batches.count - batches.net_count

    def at(count: float) -> float:
        share = count / batches.count
        bags = ceiling(batches.cement_kg * share / bag)
        change = 0.0
        for line in lines:
            if line.amount is None or line.code == "other" or line.price_unit == "lump":
                continue
            scale = bags / batches.cement_bags if line.code == "cement" else share
            change += line.amount * (scale - 1)
        return total + change

    return at(batches.net_count), at(batches.count + wasted)
