"""Lengths as a job file or a sheet writes them, in millimetres."""

from __future__ import annotations

import re
from fractions import Fraction

UNITS = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "in": 25.4, "ft": 304.8, '"': 25.4, "'": 304.8}

_TOKEN = re.compile(r"(?P<figure>\d+\s*/\s*\d+|\d+(?:\.\d+)?)|(?P<unit>mm|cm|m|in|ft|\"|')")


def length(value: object, unit: float) -> float:
    """Return a length in mm: a number in the file's unit, or a text like ``6' 6"`` or ``1 3/4``."""
    if isinstance(value, int | float):
        return value * unit
    return written(str(value), unit)


def written(text: str, unit: float) -> float:
    """Return a length in mm that is written out: whole numbers and fractions add up."""
    total, figure, sign = 0.0, 0.0, -1.0 if text.strip()[:1] in ("-", "−") else 1.0
    for token in _TOKEN.finditer(text):
        if token["unit"]:
            total, figure = total + figure * UNITS[token["unit"]], 0.0
        else:
            figure += float(Fraction(token["figure"].replace(" ", "")))
    return sign * (total + figure * unit)
