"""What to measure on a panel before it is bought: blanks, what to look for, what to ask."""

from __future__ import annotations

from enum import Enum


class Shape(Enum):
    """What the panel looks like; the value is what the command line calls it."""

    SIDES = "four sides"
    LIVE = "live edge"
    ROUND = "round"


TITLE = "What to measure on this panel"
HEAD = ("Panel", "Where", "Date", "Price asked")  # blanks over the sketch

HOW = {
    Shape.SIDES: "Chalk A at the lower left, show face up, then B, C, D the other way round than a "
    "clock goes. Measure all four sides and both diagonals: sides alone, or diagonals alone, prove "
    "nothing. Rise: how far the middle of an edge stands out (+) or in (−) from a string along it.",
    Shape.LIVE: "Strike a line P–Q inside the lower wane. Square from it measure down to the sound "
    "edge below and up to the sound edge above, at each station.",
    Shape.ROUND: "Four diameters, an eighth of a turn apart: where they differ it is an oval or "
    "has moved. A at the front.",
}

STATIONS = 8  # stretches of a live edge, at both ends of which it is measured
LIVE_ROWS = ("up", "down", "from P")  # written at each station: to the edges, and along the line

FIGURES = (
    ("Thickness", "", "", ""),
    ("Twist by winding sticks", "Hump in the middle", "which face up"),
    ("Moisture in three places, %", "", ""),
    ("Weight", "or one end lifted on a scale (× 2)"),
)
"""Blanks under the sketch, a row each."""

# Headings of the table of defects
DEFECT = ("", "What it is", "Along A–B from A", "Square from A–B", "Size", "Depth, face")
LIVE_DEFECT = ("", "What it is", "Along P–Q from P", "Square from P–Q", "Size", "Depth, face")
DEFECTS = 8  # rows of it

LOOK_FOR = (
    "Look for: nails, screws, staples (metal) · holes, locks, letterboxes, hinges (pockets) · "
    "joints · splits with both tips · rot and worm · stains through the wood · chips · swelling."
)

ASK = (
    "[ ] What was it, and where did it stand?",
    "[ ] Year, as far as known",
    "[ ] What is on it: bare, wax, oil, varnish, paint, laminate; glued to its back?",
    "[ ] Solid, veneer, plywood, chipboard, hollow, framed? Knock on it, look into a hole",
    "[ ] Which way does the grain run?",
    "[ ] Damaged corners, by letter",
    "[ ] A live or factory edge to keep, by letters",
    "[ ] Fire label, stone-cold or mineral core, black glue: leave it there",
)
"""Questions, a blank behind each."""

THEN = (
    "At once: panelwright fit --size LENGTH WIDTH tells the largest tops. At home: panelwright new "
    "asks for all of this and writes the job file."
)

DIAMETERS = ("A–C", "B–D", "between A and B", "between B and C")  # of a round panel
