"""Tops with a long side on a straight kept edge, which fixes the turn: little is left to search."""
