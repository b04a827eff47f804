"""Legs: where they go, and whether the table stands, holds and stays flat."""
