"""Every check value against the engine, within the tolerance that stands beside it."""

import pytest
from runner import FIELDS, KINDS, Check, holds, load, value

CHECKS = load()


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check["id"])
def test_check(check: Check) -> None:
    """The engine makes the expected value."""
    found = value(check)
    assert holds(check, found), (check["what"], check["source"], found, check["expected"])


def test_checks_are_complete() -> None:
    """Every check says where its figure comes from and why its tolerance is what it is."""
    for check in CHECKS:
        assert all(name in check and check[name] != "" for name in FIELDS), check
        assert check["kind"] in KINDS
        assert ("call" in check) != ("project" in check and "path" in check)
    ids = [check["id"] for check in CHECKS]
    assert len(set(ids)) == len(ids)


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check["id"])
def test_check_can_fail(check: Check) -> None:
    """A figure a little beyond the tolerance is refused, so that no check is idle."""
    expected = check["expected"]
    if isinstance(expected, bool):
        wrong = [not expected]
    else:
        step = check["tolerance"] * 1.01 + abs(expected) * 1e-12
        wrong = [expected - step, expected + step]
    assert not any(holds(check, each) for each in wrong)


def test_tolerances_are_tight() -> None:
    """No tolerance is wider than 1 % of its figure but where the source itself prints so."""
    wide = {
        check["id"]
        for check in CHECKS
        if not isinstance(check["expected"], bool)
        and check["tolerance"] > 0.01 * abs(check["expected"])
    }
    assert wide == {"1.02", "1.03"}
