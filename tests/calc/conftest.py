"""How the property tests of the calculations run."""

from hypothesis import HealthCheck, settings

from tests.examples import many

# A busy machine is no fault of a calculation: how long an example takes is measured elsewhere.
settings.register_profile("calc", max_examples=many(100), deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile("calc")
