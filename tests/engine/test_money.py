"""The bill: units of prices, what is missing, the total and its range."""

import pytest
from attrs import evolve
from foamwright.estimate import Estimate, estimate
from foamwright.money.bill import ALLOWANCE, Money
from foamwright.project.model import Market, Price, Project, Waste
from hypothesis import given
from hypothesis import strategies as st
from properties import cases


def _made(*prices: Price, **changes: object) -> Estimate:
    market = Market(cement_bag_kg=50.0, prices=prices)
    made = estimate(evolve(Project(market=market), **changes)).estimate
    assert made is not None
    return made


def _money(*prices: Price) -> Money:
    return _made(*prices).money


def _codes(*prices: Price) -> list[tuple[str, str]]:
    outcome = estimate(Project(market=Market(prices=prices)))
    return [(n.code, n.path) for n in outcome.notes if n.code.startswith(("price", "no_prices"))]


#: The same cement, agent or water at the same price, said in every unit it is sold in.
SAME_PRICE = {
    "cement": {"bag": 50 * 0.3, "kg": 0.3, "t": 300.0, "lb": 0.3 * 0.45359237},
    "agent": {
        "L": 4.0,
        "kg": 4.0,
        "t": 4000.0,
        "lb": 4.0 * 0.45359237,
        "m3": 4000.0,
        "us_gal": 4.0 * 3.785411784,
        "imp_gal": 4.0 * 4.54609,
    },
    "water": {
        "L": 0.002,
        "m3": 2.0,
        "t": 2.0,
        "us_gal": 0.002 * 3.785411784,
        "imp_gal": 0.002 * 4.54609,
    },
}


@pytest.mark.parametrize("item", SAME_PRICE)
def test_the_unit_of_a_price_is_no_matter(item: str) -> None:
    """One price said per bag, kilogram, tonne, pound, litre or gallon makes one amount."""
    totals = {
        unit: _money(Price(item, unit, price)).total for unit, price in SAME_PRICE[item].items()
    }
    first = next(iter(totals.values()))
    assert first is not None and first > 0
    assert all(total == pytest.approx(first, rel=1e-12) for total in totals.values())


def test_quantities_are_those_to_buy() -> None:
    """Whole bags of cement, the agent as concentrate, water of slurry and foam together."""
    made = _made(Price("cement", "bag", 15.0), Price("agent", "L", 4.0), Price("water", "m3", 2.0))
    cement, agent, water = made.money.lines
    assert cement.packs == made.batches.cement_bags
    assert cement.quantity == made.batches.cement_bags * 50
    assert cement.amount == made.batches.cement_bags * 15.0
    assert agent.amount == pytest.approx(made.batches.concentrate_l * 4.0)
    assert water.amount == pytest.approx(made.batches.water_l / 1000 * 2.0)
    assert made.money.total == pytest.approx(cement.amount + agent.amount + water.amount)
    assert made.money.per_floor_area == pytest.approx(made.money.total / made.shape.floor_area_m2)


def test_nothing_priced_has_no_total() -> None:
    """Without a price there are quantities, no total, and one note."""
    money = _money()
    assert money.total is money.low is money.high is money.per_floor_area is None
    assert [line.code for line in money.lines] == ["cement", "agent", "water"]
    assert all(line.quantity for line in money.lines)
    assert _codes() == [("no_prices", "market.prices")]
    assert _codes(Price("cement", "bag", None)) == [("no_prices", "market.prices")]


def test_what_is_not_priced_is_named() -> None:
    """The total sums what is priced; each of the rest is said."""
    prices = (Price("cement", "bag", 15.0), Price("other", "day", None, "helper", 4.0))
    assert _codes(*prices) == [
        ("price_missing", "market.prices"),
        ("price_missing", "market.prices"),
        ("price_missing", "market.prices[1]"),
    ]
    assert _money(*prices).priced == 1


def test_units_that_do_not_measure_the_item() -> None:
    """Cement by the litre and water by the piece are left out of the total and said."""
    prices = (Price("cement", "L", 1.0), Price("water", "piece", 1.0), Price("agent", "L", 4.0))
    assert ("price_unit_unusable", "market.prices[0].unit") in _codes(*prices)
    assert ("price_unit_unusable", "market.prices[1].unit") in _codes(*prices)
    money = _money(*prices)
    assert money.priced == 1 and money.total == money.lines[1].amount


def test_a_second_price_is_not_counted_twice() -> None:
    """Two quotes for cement: the first counts, the second is said."""
    prices = (Price("cement", "bag", 15.0), Price("cement", "bag", 11.0))
    assert _money(*prices).total == _money(prices[0]).total
    assert ("price_repeated", "market.prices[1]") in _codes(*prices)


def test_lines_of_ones_own() -> None:
    """Quantity times price; a lump sum needs no quantity; without a quantity there is no amount."""
    prices = (
        Price("other", "day", 30.0, "helper", 24.0),
        Price("other", "lump", 200.0, "mixer"),
        Price("other", "piece", 5.0, "tarpaulin"),
    )
    money = _money(*prices)
    assert [line.amount for line in money.lines[3:]] == [720.0, 200.0, None]
    assert [line.label for line in money.lines[3:]] == ["helper", "mixer", "tarpaulin"]
    assert money.total == 920.0
    assert ("price_missing", "market.prices[2]") in _codes(*prices)


@given(
    st.floats(0, 0.5), st.floats(0, 10), st.floats(0.01, 1e6), st.floats(0, 1e6), st.floats(0, 1e6)
)
@cases
def test_range_holds_the_total(
    share: float, trial: float, cement: float, agent: float, own: float
) -> None:
    """The total lies between no waste and twice the waste; lines of one's own do not move."""
    prices = (
        Price("cement", "bag", cement),
        Price("agent", "L", agent),
        Price("other", "day", own, "helper", 1.0),
    )
    money = _made(*prices, waste=Waste(share, share, share, trial)).money
    assert money.total is not None and money.low is not None and money.high is not None
    slack = 1e-9 * money.total
    assert own - slack <= money.low <= money.total + slack <= money.high + 2 * slack
    none = _made(*prices, waste=Waste(0.0, 0.0, 0.0, 0.0)).money
    assert none.total == pytest.approx(money.low)
    twice = _made(*prices, waste=Waste(share, share, share, trial)).money
    assert twice.high == money.high


def test_range_at_twice_the_waste_is_the_estimate_with_twice_the_waste() -> None:
    """The upper figure is what the whole road gives for doubled waste."""
    prices = (Price("cement", "bag", 15.0), Price("agent", "L", 4.0), Price("water", "m3", 2.0))
    stated = _made(*prices, waste=Waste(0.03, 0.02, 0.01, 1.5)).money
    doubled = _made(*prices, waste=Waste(0.06, 0.04, 0.02, 3.0)).money
    assert stated.high == pytest.approx(doubled.total, rel=1e-12)


def test_allowance_for_base_and_skins() -> None:
    """Common practice, no source: 0.7 to 1.0 times the cement again, in bags and in money."""
    made = _made(Price("cement", "bag", 15.0))
    allowance = made.money.allowance
    assert ALLOWANCE == (0.7, 1.0)
    assert allowance.cement_low_kg == pytest.approx(0.7 * made.batches.cement_kg)
    assert allowance.bags_high == made.batches.cement_bags
    assert allowance.low == pytest.approx(allowance.bags_low * 15.0)
    assert allowance.high == pytest.approx(allowance.bags_high * 15.0)
    assert _money(Price("agent", "L", 1.0)).allowance.low is None
