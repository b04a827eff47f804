"""Cuts in order: trims, curves, guides, and what the saw may not do."""
