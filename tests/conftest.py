"""Settings that hold for every test."""

from hypothesis import HealthCheck, settings

# The same examples on every machine: a failure that one maker sees, another can see too.
settings.register_profile(
    "repeatable",
    derandomize=True,
    deadline=None,
    max_examples=60,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much],
)
settings.load_profile("repeatable")
