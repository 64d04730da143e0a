"""Shared settings of the suite: hypothesis without deadlines, so a slow machine fails no law.

By hand, a law is tried on other examples at each run; where `CI` is set, as `.ci/run` does, on the same ones each time,
so that a tree that passed passes again, and what fails is reported as it was found, without minutes of shrinking.
"""

import os

from hypothesis import HealthCheck, Phase, settings

settings.register_profile("by_hand", deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.register_profile(
    "gate", settings.get_profile("by_hand"), derandomize=True, phases=(Phase.explicit, Phase.generate)
)
settings.load_profile("gate" if os.environ.get("CI") else "by_hand")
