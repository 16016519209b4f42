"""Wet and oven-dry densities are different types, and the type checker holds them apart."""

import os
import re
import subprocess
import sys
from pathlib import Path

import pytest
from foamwright.material.density import WATER
from iapws import IAPWS97

ENGINE = Path(__file__).parents[2] / "engine"

MIXED = """
from foamwright.material.density import FoamDensity, OvenDryDensity, WetDensity, oven_dry_density
from foamwright.site.blocks import block_mass, block_mass_dry

wet, dry, foam = WetDensity(484.0), OvenDryDensity(322.0), FoamDensity(95.0)
block_mass(0.02, wet)
block_mass(0.02, dry)  # refused
block_mass(0.02, foam)  # refused
block_mass(0.02, 484.0)  # refused
block_mass_dry(0.02, dry)
block_mass_dry(0.02, wet)  # refused
oven_dry_density(wet, 0.6)
oven_dry_density(dry, 0.6)  # refused
"""


@pytest.mark.parametrize("celsius,lighter", [(4, 0.0000), (20, 0.0018), (40, 0.0078)])
def test_water_is_as_the_trade_rounds_it(celsius: float, lighter: float) -> None:
    """Water taken as 1000 kg/m3 is right within 0.8 % up to 40 degrees C; oracle: iapws, IAPWS-IF97."""
    density = IAPWS97(T=celsius + 273.15, P=0.101325).rho
    assert 1 - density / WATER == pytest.approx(lighter, abs=5e-5)


def test_densities_cannot_be_mixed(tmp_path: Path) -> None:
    """mypy --strict refuses a density of another kind, line by line, and nothing else."""
    source = tmp_path / "mixed.py"
    source.write_text(MIXED)
    done = subprocess.run(
        [
            sys.executable,
            "-m",
            "mypy",
            "--strict",
            "--cache-dir",
            str(tmp_path / "cache"),
            str(source),
        ],
        capture_output=True,
        text=True,
        env={**os.environ, "MYPYPATH": str(ENGINE)},
        cwd=tmp_path,
    )
    refused = {int(line) for line in re.findall(r"mixed\.py:(\d+): error", done.stdout)}
    expected = {n for n, line in enumerate(MIXED.splitlines(), 1) if line.endswith("# refused")}
    assert refused == expected, done.stdout + done.stderr
