"""Wet and oven-dry densities are different types, and the type checker holds them apart."""

import os
import re
import subprocess
import sys
from pathlib import Path

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
