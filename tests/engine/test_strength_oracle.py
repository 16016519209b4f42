"""Hardening and ageing against structuralcodes, an independent library of EN 1992-1-1 and Model Code 2010."""

import pytest
from foamwright.material import strength
from hypothesis import given
from hypothesis import strategies as st
from properties import cases

ec2 = pytest.importorskip("structuralcodes.codes.ec2_2004", reason="structuralcodes==0.7.2 is not installed")
mc2010 = pytest.importorskip("structuralcodes.codes.mc2010")


@given(st.floats(0.1, 1000), st.sampled_from(sorted(strength.S.values())))
@cases
def test_share(days: float, s: float) -> None:
    """EN 1992-1-1, eq. 3.2."""
    assert strength.share(days, s) == pytest.approx(float(ec2.beta_cc(days, s)), rel=1e-9)


@given(st.lists(st.tuples(st.floats(0.1, 500), st.floats(0, 80)), min_size=1, max_size=6).map(tuple))
@cases
def test_age(history: strength.History) -> None:
    """EN 1992-1-1, eq. B.10, and Model Code 2010, eq. 5.1-85."""
    found = strength.ages(history)[0]
    assert found is not None
    days, celsius = [h / 24 for h, _ in history], [c for _, c in history]
    assert found.en_days == pytest.approx(float(mc2010.t_T(celsius, days)), rel=1e-9)
