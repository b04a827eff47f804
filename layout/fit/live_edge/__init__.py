"""Pieces as found: between one or two kept edges of the panel, with square or half-round ends."""
