"""Keys of the tops to look for."""

from __future__ import annotations

import math

from ...fit.wish import Goal, Wish
from ...keys.figures import ABOVE_0, FROM_0, Length, Number, Range, degrees, percent
from ...keys.key import Key, Section
from ...keys.kinds import Choice
from ...keys.plane import Pair
from .top_shape import PLACES, SHAPES

LARGEST_TAPE_ERROR = 20.0
"""A tape that is out by more, mm, is no longer measuring."""

USUAL_RADIUS = 60.0
"""Corner radius of a rounded rectangle where none is given, mm (common practice)."""

TOP = Section(
    "[top]",
    "The tops to look for, and the limits that the finished top keeps. All sizes are of the "
    "finished "
    "top, lipping included; its length is its longer side.",
    (
        *SHAPES,
        Key(
            "goal",
            Choice({goal.value: goal for goal in Goal}),
            "What counts as best: the area, the "
            "length, the width, or to be nearest to `length` and `width`",
            Goal.AREA,
            '"largest"',
            '"longest"',
        ),
        Key(
            "length",
            ABOVE_0,
            "Exactly this long; with goal `nearest`, about this long",
            example="1400",
        ),
        Key(
            "width",
            ABOVE_0,
            "Exactly this wide; with goal `nearest`, about this wide",
            example="600",
        ),
        Key("least_length", FROM_0, "At least this long", 0.0, "0", "1200"),
        Key("most_length", ABOVE_0, "At most this long", math.inf, "no limit", "1800"),
        Key("least_width", FROM_0, "At least this wide", 0.0, "0", "500"),
        Key("most_width", ABOVE_0, "At most this wide", math.inf, "no limit", "800"),
        Key(
            "least_ratio",
            Number(limits=Range(1, 1000)),
            "Length over width, at least",
            1.0,
            "1",
            "1.5",
        ),
        Key(
            "most_ratio",
            Number(limits=Range(1, 1000)),
            "Length over width, at most",
            math.inf,
            "no limit",
            "2.5",
        ),
        Key("corner_radius", FROM_0, "Of a rounded rectangle", USUAL_RADIUS, "60 mm", "80"),
        Key("least_corner_radius", FROM_0, "In place of a fixed one", 0.0, "0", "40"),
        Key("most_corner_radius", FROM_0, "In place of a fixed one", math.inf, "no limit", "120"),
        Key(
            "margin",
            FROM_0,
            "Kept to the panel's edges and cut-outs: 6 for sound edges, 10 for "
            "damaged ones is usual",
            0.0,
            "0",
            "6",
        ),
        Key(
            "most_turn",
            degrees(0, 90, "90 lets it turn freely"),
            "How far the top's length may turn from the grain",
            math.pi / 2,
            "90: freely",
            "15",
        ),
        *PLACES,
        Key(
            "lipping",
            FROM_0,
            "Thickness of a strip glued round the edge; only the core within it is "
            "cut from the panel. Not round a superellipse, an own outline or a piece as found, "
            "nor with `keep`",
            0.0,
            "0: none",
            "6",
        ),
        Key(
            "round_over",
            Length(Range(0.0, 100.0), "give the radius of the bit"),
            "Radius of its upper arris; 0 leaves it broken only",
            0.0,
            "0",
            "3",
        ),
        Key(
            "bevel",
            Pair(ABOVE_0, form="[in, up]"),
            "A bevel under its edge: how far in from the edge, and how far up it; nothing is fixed "
            "nearer to the edge than 10 mm inside it",
            None,
            "none",
            "[30, 12]",
        ),
        Key(
            "step",
            Length(Range(0.0, 100.0, above=True), "5 or 1/4 in is usual"),
            "The sheets round the size down to this",
            None,
            "5 mm, or 1/4 in",
            "10",
        ),
        Key(
            "gap",
            percent(Range(0.0, 20.0, above=True)),
            "How far the best possible top may stay above the one found when the search stops",
            Wish(()).gap,
            "0.1",
            "0.01",
        ),
        Key(
            "tape_error",
            Length(Range(0.0, LARGEST_TAPE_ERROR), "measure again"),
            "How far any tape may have been out; it widens every margin and clearance",
            0.0,
            "0",
            "2",
        ),
    ),
)
