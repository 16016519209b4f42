"""How many random cases a property is tried with: 200 from a fixed seed, or far more when asked."""

import os

from hypothesis import HealthCheck, settings

_LONG = os.environ.get("FOAMWRIGHT_HYPOTHESIS") == "long"

#: For every property of the engine.
cases = settings(
    max_examples=5000 if _LONG else 200,
    derandomize=not _LONG,
    deadline=None,
    database=None,
    suppress_health_check=[HealthCheck.filter_too_much, HealthCheck.too_slow],
)
