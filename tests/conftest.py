"""What every test shares: Hypothesis searches the same examples on every machine, however slow it is."""

from __future__ import annotations

import gc
import os

from hypothesis import HealthCheck, settings

_ANY_SPEED = [HealthCheck.too_slow]

settings.register_profile("ci", derandomize=True, deadline=None, suppress_health_check=_ANY_SPEED)
# For a long search by hand: HYPOTHESIS_PROFILE=search pytest tests/properties
settings.register_profile(
    "search", derandomize=False, deadline=None, suppress_health_check=_ANY_SPEED, max_examples=5_000
)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "ci"))


def pytest_collection_finish() -> None:
    """Spare the collector of cycles what stays anyhow, and let it run seldom: it took a fifth of the wizard's tests."""
    gc.collect()
    gc.freeze()
    gc.set_threshold(10_000, 20, 20)
