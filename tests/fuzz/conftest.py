"""How long the fuzz tests look: the same 200 examples on every run, or many new ones.

``FOAMWRIGHT_FUZZ=1`` takes 5000 new examples a test, ``FOAMWRIGHT_FUZZ=50000`` as many as it says.
"""

import os
import sys
from pathlib import Path

from hypothesis import HealthCheck, settings

sys.path.insert(0, str(Path(__file__).parents[1] / "engine"))

_ASKED = os.environ.get("FOAMWRIGHT_FUZZ", "")
# Time is held by the tests themselves, which allow for a slow and busy machine.
_SLOW = (HealthCheck.too_slow, HealthCheck.data_too_large)

settings.register_profile(
    "ci", max_examples=200, derandomize=True, database=None, deadline=None, suppress_health_check=_SLOW
)
settings.register_profile(
    "fuzz",
    max_examples=int(_ASKED) if _ASKED.isdecimal() and int(_ASKED) > 1 else 5000,
    deadline=None,
    print_blob=True,
    suppress_health_check=_SLOW,
)
settings.load_profile("fuzz" if _ASKED not in ("", "0") else "ci")
