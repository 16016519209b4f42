"""Bringing files of older formats up, with pretend formats, since the first real one is the oldest."""

from typing import Any

import pytest

from foamwright.project import migrate
from foamwright.project.link import decode
from foamwright.project.model import FORMAT
from foamwright.project.read import read_project


def feet_to_metres(data: dict[str, Any]) -> dict[str, Any]:
    """Pretend that format 0 gave one dome its diameter in feet at the top level."""
    feet = data.pop("diameter_ft")
    data["parts"] = [{"inside_diameter_m": feet * 0.3048}]
    return data


STEPS = {0: feet_to_metres}


def test_an_older_file_is_read_through_its_step() -> None:
    reading = read_project('{"format": 0, "name": "Old", "diameter_ft": 20}', steps=STEPS)
    assert reading.problems == () and reading.project is not None
    assert reading.project.name == "Old"
    # 20 ft, exact by definition of the foot
    assert reading.project.parts[0].inside_diameter_m == pytest.approx(6.096, abs=1e-12)


def test_a_migrated_file_meets_the_same_rules() -> None:
    (problem,) = read_project({"format": 0, "diameter_ft": 200}, steps=STEPS).problems
    assert (problem.path, problem.code) == ("parts[0].inside_diameter_m", "too_big")


def test_duplicate_keys_are_told_before_a_step_can_lose_them() -> None:
    reading = read_project('{"format": 0, "diameter_ft": 20, "diameter_ft": 10}', steps=STEPS)
    assert [problem.code for problem in reading.problems] == ["duplicate_key"]


def test_steps_are_chained_and_the_data_given_is_left_alone(monkeypatch: pytest.MonkeyPatch) -> None:
    def rename(data: dict[str, Any]) -> dict[str, Any]:
        assert data["format"] == 0
        data["diameter_ft"] = data.pop("inner")["feet"]
        return data

    # A format below zero is refused, so the chain is lengthened at its other end.
    monkeypatch.setattr(migrate, "FORMAT", 2)
    given = {"format": 0, "inner": {"feet": 10}}
    current, problems = migrate.to_current(given, {0: rename, 1: feet_to_metres})
    assert not problems
    assert current == {"format": 2, "parts": [{"inside_diameter_m": 3.048}]}
    assert given == {"format": 0, "inner": {"feet": 10}}


@pytest.mark.parametrize(
    "data", [{"format": 0}, {"format": 0, "diameter_ft": "wide"}, {"format": 0, "diameter_ft": None}]
)
def test_a_step_that_stumbles_is_a_problem(data: dict[str, Any]) -> None:
    reading = read_project(data, steps=STEPS)
    assert reading.project is None
    (problem,) = reading.problems
    assert (problem.path, problem.value, problem.limit) == ("format", 0, FORMAT)
    assert problem.code == "format_unknown" and problem.params == {"step": 0}


def test_data_nested_without_end_is_a_problem() -> None:
    deep: list[Any] = []
    for _ in range(100_000):
        deep = [deep]
    reading = read_project({"format": 0, "diameter_ft": 20, "zz": deep}, steps=STEPS)
    assert [problem.code for problem in reading.problems] == ["format_unknown"]


def test_without_a_step_an_older_format_is_unknown() -> None:
    assert read_project({"format": 0, "diameter_ft": 20}).problems[0].code == "format_unknown"
    gap = {0: feet_to_metres}
    assert migrate.to_current({"format": -1}, gap)[1][0].code == "format_unknown"


def test_every_format_before_this_one_has_its_step() -> None:
    assert sorted(migrate.STEPS) == list(range(1, FORMAT))


def test_an_older_code_is_read_through_the_same_steps() -> None:
    from foamwright.project import link

    body = bytes([0 * 2]) + bytes([1]) + bytes([1 + 3 * 3]) + b"Old"

    def widen(data: dict[str, Any]) -> dict[str, Any]:
        return {**data, "parts": [{"inside_diameter_m": 9}]}

    reading = decode(link._seal(body), steps={0: widen})
    assert reading.project is not None, reading.problems
    assert (reading.project.name, reading.project.parts[0].inside_diameter_m) == ("Old", 9.0)
