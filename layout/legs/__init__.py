"""Legs: where they go, and whether the table stands."""
