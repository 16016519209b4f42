"""Edits: a project in, a checked project or its problems out, nothing changed in place."""

import copy
from typing import Any

import attrs
import pytest

from foamwright.project.edit import (
    add_item,
    clear_prices,
    convert_currency,
    relabel_currency,
    remove_item,
    set_value,
)
from foamwright.project.model import Market, Opening, Part, Price, Project, Rate
from foamwright.project.notes import Problem
from foamwright.project.read import Reading
from projects import paths_of

PRICED = Project(
    market=Market(
        prices=(
            Price(item="cement", unit="bag", price=9.1, label="grey", quantity=2.0),
            Price(item="agent", unit="L", price=None),
            Price(item="water", unit="m3", price=0.1),
        ),
        converted=Rate(from_currency="EUR", rate=1.1, date="2025-01-01"),
    )
)


def taken(reading: Reading) -> Project:
    assert reading.problems == () and reading.project is not None
    return reading.project


def refused(reading: Reading) -> Problem:
    assert reading.project is None
    (problem,) = reading.problems
    return problem


# --- set_value --------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("path", "value"),
    [
        ("name", "قبة"),
        ("place.latitude", -3.5),
        ("place.latitude", None),
        ("parts[0].thickness_m", 0.3),
        ("parts[0].at_m", (1.0, 2.0)),
        ("parts[0].openings[1].count", 3),
        ("parts[0].openings[0].form", "round"),
        ("market.converted.rate", 2.0),
        ("mix.given", ("water_l",)),
    ],
)
def test_a_value_is_put_where_the_path_leads(path: str, value: Any) -> None:
    before = copy.deepcopy(PRICED)
    project = taken(set_value(PRICED, path, value))
    assert before == PRICED
    assert dict(paths_of(project))[path] == value
    others = {key: found for key, found in paths_of(project) if key != path}
    assert others == {key: found for key, found in paths_of(PRICED) if key != path}


def test_an_item_of_a_row_and_a_whole_list_can_be_set() -> None:
    assert taken(set_value(Project(), "parts[0].at_m[1]", 4)).parts[0].at_m == (0.0, 4.0)
    openings = [{"form": "round"}, {"azimuth_deg": 90}]
    found = taken(set_value(Project(), "parts[0].openings", openings)).parts[0].openings
    assert found == (Opening(form="round"), Opening(azimuth_deg=90.0))
    assert taken(set_value(PRICED, "market", {})).market == Market()


@pytest.mark.parametrize(
    ("path", "value", "problem"),
    [
        ("parts[0].thickness_m", -1, ("parts[0].thickness_m", -1, 0.03, "too_small")),
        ("parts[0].thickness_m", "1", ("parts[0].thickness_m", "1", "number", "wrong_kind")),
        ("bucket.foam_low_kg_m3", 99, ("bucket.foam_low_kg_m3", 99.0, 95.0, "bucket_window_order")),
        ("market", {"currencies": 1}, ("market.currencies", "currencies", None, "unknown_key")),
        ("name", "a\ud800", ("name", "a\\ud800", "printable", "text_unprintable")),
    ],
)
def test_a_value_that_breaks_a_rule_is_refused(path: str, value: Any, problem: tuple[Any, ...]) -> None:
    found = refused(set_value(PRICED, path, value))
    assert (found.path, found.value, found.code) == (problem[0], problem[1], problem[3])
    assert problem[2] is None or found.limit == problem[2]


@pytest.mark.parametrize(
    "path",
    [
        "",
        ".",
        "format",
        "thickness_m",
        "parts",
        "parts[1].id",
        "parts[0]",
        "parts[-1].id",
        "parts[0]thickness_m.",
        "parts[0].openings[9].count",
        "name.first",
        "name[0]",
        "place.latitude.x",
        ".name",
        "name ",
        "parts[0].__class__",
        "parts[99999999999999999999].id",
        "x" * 100_000,
        "[0]" * 50,
        "a\ud800",
        None,
        7,
    ],
)
def test_a_path_that_leads_nowhere_is_refused(path: Any) -> None:
    # Whole groups may be set, but not to a number.
    problem = refused(set_value(Project(), path, 5))
    assert problem.code == ("wrong_kind" if path in ("parts", "parts[0]") else "unknown_key")
    assert len(problem.path) <= 60
    problem.path.encode("utf-8")


def test_passages_follow_a_part_that_is_renamed() -> None:
    project = Project(parts=(Part(openings=(Opening(to="b"), Opening(to="c"))), Part(id="b")))
    renamed = taken(set_value(project, "parts[1].id", "kitchen"))
    assert [opening.to for opening in renamed.parts[0].openings] == ["kitchen", "c"]


# --- lists ------------------------------------------------------------------------------------


def test_items_are_added_at_the_end() -> None:
    project = taken(add_item(PRICED, "market.prices"))
    assert project.market.prices == (*PRICED.market.prices, Price())
    stated = {"item": "cement", "unit": "t", "price": 90}
    project = taken(add_item(PRICED, "market.prices", stated))
    assert project.market.prices[-1] == Price(item="cement", unit="t", price=90.0)


def test_a_new_part_has_a_name_of_its_own() -> None:
    project = Project()
    for name in ("part2", "part3"):
        project = taken(add_item(project, "parts"))
        assert project.parts[-1].id == name
    project = taken(remove_item(project, "parts[1]"))
    assert [part.id for part in taken(add_item(project, "parts")).parts] == ["main", "part3", "part4"]
    assert taken(add_item(Project(), "parts", {"id": "b"})).parts[1].id == "b"


def test_a_new_opening_stands_clear_of_the_others() -> None:
    bare = Project(parts=(Part(),))
    turns = []
    for _ in range(4):
        bare = taken(add_item(bare, "parts[0].openings"))
        turns.append(bare.parts[0].openings[-1].azimuth_deg)
    assert turns == [0, 180, 90, 270]
    four = Project(parts=(Part(openings=(Opening(count=4, azimuth_deg=-10),)),))
    assert taken(add_item(four, "parts[0].openings")).parts[0].openings[-1].azimuth_deg == 125
    row = Project(parts=(Part(openings=(Opening(count=3, spacing_deg=20, azimuth_deg=0),)),))
    assert taken(add_item(row, "parts[0].openings")).parts[0].openings[-1].azimuth_deg == 200


def test_new_marks_ascend() -> None:
    project = Project()
    for _ in range(3):
        project = taken(add_item(project, "batch.drum_marks"))
    assert [mark.volume_l for mark in project.batch.drum_marks] == [0, 10, 20]
    assert [mark.height_m for mark in project.batch.drum_marks] == [0, 0.05, 0.1]


def test_a_full_list_takes_no_more() -> None:
    project = Project(parts=tuple(Part(id=str(index)) for index in range(100)))
    problem = refused(add_item(project, "parts"))
    assert (problem.path, problem.value, problem.limit, problem.code) == ("parts", 101, 100, "too_many")


def test_items_are_removed() -> None:
    project = taken(remove_item(PRICED, "market.prices[1]"))
    assert project.market.prices == (PRICED.market.prices[0], PRICED.market.prices[2])
    assert taken(remove_item(Project(), "parts[0].openings[0]")).parts[0].openings[0].form == "round"
    problem = refused(remove_item(Project(), "parts[0]"))
    assert (problem.path, problem.value, problem.limit, problem.code) == ("parts", 0, 1, "too_few")


@pytest.mark.parametrize(
    "path", ["name", "parts[0].at_m", "mix.given", "mix", "zz", "parts[3].openings", "", None]
)
def test_only_lists_of_groups_take_items(path: Any) -> None:
    assert refused(add_item(Project(), path)).code == "unknown_key"


@pytest.mark.parametrize(
    "path", ["parts", "parts[1]", "parts[0].at_m[0]", "mix.given[0]", "name", "parts[0].id", "", None]
)
def test_only_items_of_lists_of_groups_are_removed(path: Any) -> None:
    assert refused(remove_item(Project(), path)).code == "unknown_key"


# --- money ------------------------------------------------------------------------------------


def test_clearing_keeps_the_lines() -> None:
    market = taken(clear_prices(PRICED, "MXN")).market
    assert market.currency == "MXN" and market.converted == Rate()
    assert [line.price for line in market.prices] == [None, None, None]
    assert market.prices[0] == attrs.evolve(PRICED.market.prices[0], price=None)
    assert taken(clear_prices(PRICED)).market.currency == "USD"


def test_relabelling_keeps_the_numbers() -> None:
    market = taken(relabel_currency(PRICED, "MXN")).market
    assert market.currency == "MXN" and market.prices == PRICED.market.prices
    assert market.converted == Rate(), "the old rate said where other numbers came from"


def test_converting_multiplies_and_notes_the_rate() -> None:
    market = taken(convert_currency(PRICED, "MXN", 18.3, "2026-03-31")).market
    assert market.currency == "MXN"
    # By hand: 9.1 * 18.3 = 166.53 and 0.1 * 18.3 = 1.83.
    assert [line.price for line in market.prices] == [166.53, None, 1.83]
    assert market.prices[0].quantity == 2.0, "the price changes, what it is for does not"
    assert market.converted == Rate(from_currency="USD", rate=18.3, date="2026-03-31")


@pytest.mark.parametrize(
    ("currency", "rate", "date", "problem"),
    [
        ("pesos", 18, "2026-03-31", ("market.currency", "pesos", 3, "text_too_long")),
        ("mxn", 18, "2026-03-31", ("market.currency", "mxn", "ISO 4217", "currency_unknown")),
        ("MXN", 0, "2026-03-31", ("market.converted.rate", 0, 1e-9, "too_small")),
        ("MXN", -18, "2026-03-31", ("market.converted.rate", -18, 1e-9, "too_small")),
        ("MXN", float("nan"), "2026-03-31", ("market.converted.rate", "NaN", 1e9, "not_finite")),
        ("MXN", "18", "2026-03-31", ("market.converted.rate", "18", "number", "wrong_kind")),
        ("MXN", True, "2026-03-31", ("market.converted.rate", True, "number", "wrong_kind")),
        ("MXN", None, "2026-03-31", ("market.converted.rate", None, "number", "missing")),
        (
            "MXN",
            18,
            "31.3.2026",
            ("market.converted.date", "31.3.2026", "YYYY-MM-DD", "date_unreadable"),
        ),
        ("MXN", 18, "", ("market.converted.date", None, "YYYY-MM-DD", "missing")),
        ("MXN", 18, None, ("market.converted.date", None, "text", "missing")),
        (None, 18, "2026-03-31", ("market.currency", None, "text", "missing")),
    ],
)
def test_a_conversion_needs_currency_rate_and_day(
    currency: Any, rate: Any, date: Any, problem: tuple[Any, ...]
) -> None:
    found = refused(convert_currency(PRICED, currency, rate, date))
    assert (found.path, found.value, found.limit, found.code) == problem


def test_a_conversion_out_of_range_is_refused_whole() -> None:
    dear = attrs.evolve(
        PRICED, market=attrs.evolve(PRICED.market, prices=(Price(price=1e11), Price(price=5.0)))
    )
    problem = refused(convert_currency(dear, "MXN", 18.3, "2026-03-31"))
    assert (problem.path, problem.code) == ("market.prices[0].price", "too_big")


@pytest.mark.parametrize("currency", ["", "us", "USDX", "U$D", "usd", None, 5, "\ud800"])
def test_a_currency_needs_its_form(currency: Any) -> None:
    assert refused(relabel_currency(PRICED, currency)).path == "market.currency"
    if currency is not None:
        assert refused(clear_prices(PRICED, currency)).path == "market.currency"
