"""How the property tests of the calculations run."""

from hypothesis import HealthCheck, settings

# A busy machine is no fault of a calculation: how long an example takes is measured elsewhere.
settings.register_profile("calc", deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile("calc")
