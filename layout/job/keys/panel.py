"""Keys of the top of the file and of the old panel."""

from __future__ import annotations

from ...keys.figures import Counts, Number, Range
from ...keys.key import Key, Section, keys_of
from ...keys.kinds import Choice, Text, names
from ...keys.plane import Table
from ...legs.movement import SWING
from ...panel.build import Build
from ...panel.panel import Panel
from ...units import Units
from ..job import DAMAGED, UNITS

HEAD = Section(
    "",
    "The top of the file, above all tables.",
    (
        Key(
            "units",
            UNITS,
            "What a length counts in that is written as a bare number; the sheets use inches and "
            "fractions for `in` and `ft`, millimetres otherwise",
            Units.MM,
            '"mm"',
            '"in"',
        ),
        Key(
            "name",
            Text(),
            "What the sheets are headed with",
            None,
            "the panel's name",
            '"hall table"',
        ),
        Key("panel", Table("table"), "The old panel", example="{ }"),
        Key("top", Table("table"), "The tops to look for", example="{ }"),
        Key("legs", Table("table"), "The legs; leave the table out for a top alone", example="{ }"),
        Key("tools", Table("table"), "What it is cut with", example="{ }"),
        Key("template", Table("table"), "The printed template", example="{ }"),
        Key("materials", Table("table"), "Finish and materials", example="{ }"),
        Key("work", Table("table"), "Hours", example="{ }"),
        Key("money", Table("table"), "What to ask for the piece", example="{ }"),
    ),
)

PANEL = Section(
    "[panel]",
    "The old panel as it lies, show face up: the origin at its datum corner A, x along the datum "
    "edge, y up; corners A, B, C, D run anticlockwise. An outline given by points has "
    "a corner where it turns by 30° or more between edges that are not short; A is the one nearest "
    "the lower left. An edge is called by its two corners, `AB`.",
    (
        *keys_of(Panel),
        *keys_of(Build),
        Key(
            "moisture",
            Counts(Number("percent", Range(0, 30)), rising=True),
            "Of solid wood: least and most that its moisture comes to over the year, where the "
            "table will stand; between 6 and 14 in rooms",
            None,
            f"a swing of {SWING:g}, as in heated rooms",
            "[8, 12]",
        ),
        Key(
            "sawn",
            Choice(names("flat", "quarter"), {"plain": "flat", "quarter-sawn": "quarter"}),
            "How solid wood is sawn: on the quarter it moves about half as much",
            "flat",
            '"flat"',
            '"quarter"',
        ),
        Key(
            "datum",
            Table("table, see `[panel.datum]`"),
            "A struck line to measure from",
            None,
            "the datum edge",
            "{ from = [100, 50], to = [1900, 50] }",
        ),
        Key(
            "damaged",
            DAMAGED,
            "Corners that are missing, or that no tape should be held to",
            (),
            "none",
            '["A", "C"]',
        ),
    ),
)
