"""Shared settings of the suite: one hypothesis profile without deadlines, so a slow machine fails no law."""

from hypothesis import HealthCheck, settings

settings.register_profile("benchside", deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile("benchside")
