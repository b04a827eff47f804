"""Tops that keep edges of the panel: a long side on a straight one, and pieces as found.

A kept edge fixes the turn, so little is left to search: how deep a top goes, and where along the
edge it lies.
"""
