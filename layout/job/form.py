"""The version of the form of all that is given to machines."""

SCHEMA = 3
"""Version of the form; it grows when a key changes its meaning or goes away."""
