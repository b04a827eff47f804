"""The form of all that is given to machines: its version."""

SCHEMA = 3
"""It grows when a key changes its meaning or goes away."""
