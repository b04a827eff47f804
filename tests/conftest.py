"""Settings that hold for every test."""

import importlib
import pkgutil

from hypothesis import HealthCheck, settings

import panelwright

# The same examples on every machine: a failure that one maker sees, another can see too.
settings.register_profile(
    "repeatable",
    derandomize=True,
    deadline=None,
    max_examples=60,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much],
)
settings.load_profile("repeatable")

# hypothesis also tries the numbers that it reads in modules loaded so far: with all of them loaded,
# what a test draws does not hang on which tests ran before it in the same process
for module in pkgutil.walk_packages(panelwright.__path__, "panelwright."):
    importlib.import_module(module.name)
