"""Foam in the bucket, and the table of cements."""

import pytest
from foamwright.data import load
from foamwright.material.cement import TYPES, choose
from foamwright.material.foam import FoamDensity, density_weighed, net_weight, weigh, wet_density_at
from foamwright.material.mix import solve
from foamwright.project.model import CEMENT_TYPES, Bucket, Market, Mix
from hypothesis import given
from hypothesis import strategies as st
from properties import cases

MIX = solve(Mix())[0]
assert MIX is not None


@given(st.floats(10, 400), st.floats(0.1, 50))
@cases
def test_weighing_gives_the_density_back(density: float, volume: float) -> None:
    """A bucket that weighs what foam of a density must weigh holds foam of that density."""
    net = net_weight(FoamDensity(density), volume)
    assert density_weighed(net, volume) == pytest.approx(density, rel=1e-12)


def test_heavier_foam_makes_heavier_concrete() -> None:
    """The same litres of heavier foam: the batch recomputed from its masses agrees."""
    heavy = wet_density_at(MIX, FoamDensity(100.0))
    mass = MIX.cement_kg + MIX.water_l + MIX.foam_volume_l * 0.100
    assert heavy == pytest.approx(mass / MIX.yield_l * 1000, rel=1e-12)


@pytest.mark.parametrize(
    "bucket,path",
    [
        (Bucket(foam_low_kg_m3=96.0), "bucket.foam_low_kg_m3"),
        (Bucket(foam_high_kg_m3=94.0), "bucket.foam_high_kg_m3"),
    ],
)
def test_window_out_of_order(bucket: Bucket, path: str) -> None:
    """A window whose low is above its aim, or its high below, is named."""
    result, problems, _ = weigh(bucket, MIX)
    assert result is None
    assert [(p.path, p.code, p.limit) for p in problems] == [(path, "bucket_window_order", 95.0)]


def test_window_beside_the_mix() -> None:
    """The mix counts on a foam that the window turns away: said; at the very edge: not."""
    beside = Bucket(foam_low_kg_m3=40.0, foam_aim_kg_m3=50.0, foam_high_kg_m3=60.0)
    assert [note.code for note in weigh(beside, MIX)[2]] == ["foam_window_excludes_mix"]
    edge = Bucket(foam_low_kg_m3=95.0)
    assert weigh(edge, MIX)[2] == ()


def test_every_cement_has_a_verdict_and_a_standard() -> None:
    """The table holds each choice of the project, and only those."""
    assert set(load("cement_types")) == set(CEMENT_TYPES)
    for kind in TYPES[1:]:
        assert kind.verdict in ("serves", "serves_slow", "not_suited")
        assert kind.standard.startswith(("EN ", "ASTM "))
        assert kind.designation and kind.reason


@pytest.mark.parametrize(
    "code,note,severity",
    [
        ("unstated", "cement_unstated", "info"),
        ("cem_i", None, None),
        ("astm_il", None, None),
        ("cem_iii_a", "cement_slow", "caution"),
        ("masonry", "cement_not_suited", "warning"),
    ],
)
def test_verdict_makes_its_note(code: str, note: str | None, severity: str | None) -> None:
    """What does not serve is a warning, what is slow a caution, what serves says nothing."""
    choice, notes = choose(Market(cement_type=code))
    assert choice.type == code and len(choice.types) == len(CEMENT_TYPES)
    assert [(n.code, n.severity) for n in notes] == ([(note, severity)] if note else [])
