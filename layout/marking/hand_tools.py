"""What there is to draw curves with."""

from __future__ import annotations

from enum import Enum


class HandTool(Enum):
    """What is needed to draw a line; the value is its name on the sheets."""

    STRING = "nails and string"
    BAR = "trammel bar or beam compass"
    ROUTER = "router trammel"
    ROD = "rod with two pins"
    SQUARE = "framing square"
    LATH = "thin even lath"
    LATHS = "two stiff laths"
    TEMPLATE = "corner template"
    TAPE = "tape"
    PAPER = "full-size template"


ALWAYS = frozenset({HandTool.PAPER})
"""Need not be at hand: the sheets of a full-size template are printed."""

ALL_TOOLS = frozenset(HandTool) - ALWAYS

TONGUE = 406.4
"""Tongue of a common framing square, its shorter arm, mm: 16 in."""
