"""Settings of Hypothesis for the property tests of the calculations."""

from hypothesis import HealthCheck, settings

from tests.examples import many

# No deadline: an example may be slow because the machine is busy. Speed is measured elsewhere.
settings.register_profile("calc", max_examples=many(100), deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile("calc")
