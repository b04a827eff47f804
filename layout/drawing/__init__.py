"""Scenes that know no wood, and the writers that turn them into files."""
