"""Drawings of single steps: the panel, with only what the step is about on it."""
