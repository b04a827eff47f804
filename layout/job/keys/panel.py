"""Keys of the old panel: the top of the file, [panel] and the tables within it."""

from __future__ import annotations

from ...panel.build import Kind as BuildKind
from ...panel.datum import LETTERS
from ...panel.defect import Face, Spoils
from ...panel.materials import MATERIALS
from ...units import Units
from .defect_kinds import DEFECT_KINDS
from .key import Key, Section
from .kinds import ABOVE_0, ANY_LENGTH, FROM_0, Choice, Text, count, degrees, names
from .plane import At, Choices, Four, Pair, Ring, Table

HEAD = Section(
    "",
    "The top of the file, above all tables.",
    (
        Key(
            "units",
            Choice(
                {unit.value: unit for unit in Units},
                {"inch": "in", "inches": "in", "feet": "ft", "foot": "ft", "millimetres": "mm"},
            ),
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
    ),
)

PANEL = Section(
    "[panel]",
    "The old panel as it lies, show face up: the origin at its datum corner A, x along the datum "
    "edge, y up; corners A, B, C, D run anticlockwise.",
    (
        Key("name", Text(), "What the maker calls it", "panel", '"panel"', '"north door"'),
        Key(
            "outline",
            Table("table, see `[panel.outline]`"),
            "Its outline; must be given",
            example="{ length = 1981, width = 838 }",
        ),
        Key(
            "cutouts",
            Table("list of rings `[[x, y], …]` or of tables, see `[[panel.cutouts]]`"),
            "What has been cut out of it; a cut-out may run over an edge",
            (),
            "none",
            "[[[900, 748], [1090, 748], [1090, 838], [900, 838]]]",
        ),
        Key(
            "defects",
            Table("list of tables, see `[[panel.defects]]`"),
            "What is wrong with it",
            (),
            "none",
            "[{ at = [60, 400], diameter = 8 }]",
        ),
        Key("thickness", ABOVE_0, "Its thickness; a plan needs it, a fit does not", example="44"),
        Key(
            "build",
            Choice(
                {kind.value: kind for kind in BuildKind},
                {
                    "solid wood": "solid",
                    "ply": "plywood",
                    "chipboard": "particleboard",
                    "lumber core": "blockboard",
                    "veneered": "veneered board",
                    "solid core": "veneered board",
                    "hollow core": "hollow",
                    "frame and panel": "framed",
                },
            ),
            "How it is built",
            BuildKind.SOLID,
            '"solid"',
            '"veneered board"',
        ),
        Key(
            "stile",
            FROM_0,
            "Solid wood along its long edges, for a hollow or framed build",
            0.0,
            "0",
            "100",
        ),
        Key(
            "rail",
            FROM_0,
            "Solid wood along its short edges, for a hollow or framed build",
            0.0,
            "0",
            "120",
        ),
        Key(
            "material",
            Choice(names(*MATERIALS), described="a material, listed below"),
            "What it is weighed as",
            "",
            "what is usual for the build",
            '"oak"',
        ),
        Key(
            "grain",
            degrees(-360, 360),
            "Direction of the grain of its show face, from x",
            0.0,
            "0",
            "90",
        ),
        Key("finish", Text(), "What is on it, as far as known", "", "not known", '"old varnish"'),
        Key(
            "year",
            count(1000, 2200, "write the year in four figures"),
            "When it was made, as far as known",
            None,
            "not known",
            "1962",
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
            "chewed",
            Choices(Choice(names(*LETTERS), described='letters, `"A"` to `"O"`')),
            "Corners that are missing, or that no tape should be held to",
            (),
            "none",
            '["A", "C"]',
        ),
    ),
)

OUTLINE = Section(
    "[panel.outline]",
    "Either `length` and `width`, with corners rounded or clipped, or `points`. Each edge may bow.",
    (
        Key("length", ABOVE_0, "Along x", example="1981"),
        Key("width", ABOVE_0, "Along y", example="838"),
        Key("radius", FROM_0, "Radius of all four corners", 0.0, "0", "25"),
        Key(
            "radii",
            Four(FROM_0),
            "Radius of each corner; 0 for a square one",
            None,
            "all 0",
            "[0, 0, 300, 300]",
        ),
        Key("clip", FROM_0, "What all four corners have lost along both edges", 0.0, "0", "40"),
        Key(
            "clips",
            Four(FROM_0),
            "The same for each corner; 0 for a whole one",
            None,
            "all 0",
            "[0, 60, 0, 0]",
        ),
        Key(
            "points",
            Ring(),
            "Its corners in order, whichever way round",
            example="[[0, 0], [1600, 0], [1580, 640], [15, 610]]",
        ),
        Key(
            "bows",
            Table("list of four lengths: AB, BC, CD, DA; or of tables `{ from = 2, rise = -8 }`"),
            "How far edges bow outwards (negative: inwards) from the "
            "straight line between their corners; `from` is the number of the point, from 1, at "
            "which the edge starts",
            None,
            "none",
            "[{ from = 2, rise = -8 }]",
        ),
    ),
)

BOW = Section(
    "[[panel.outline.bows]]",
    "An edge that bows; with `points`, or for single edges of a panel given by its sides.",
    (
        Key(
            "from",
            count(1, 100_000, "count the points from 1"),
            "Number of the corner, from 1, at "
            "which the edge starts, in the order of the file; must be given",
            example="2",
        ),
        Key(
            "rise",
            ANY_LENGTH,
            "How far its middle lies outside the straight line between its "
            "corners; negative inside; must be given",
            example="-8",
        ),
    ),
)

DATUM = Section(
    "[panel.datum]",
    "Two struck points P and Q to measure from where the edge or its corners do not serve.",
    (
        Key("from", At(), "P; must be given", example="[100, 50]"),
        Key("to", At(), "Q; must be given", example="[1900, 50]"),
    ),
)

_SHAPE = (
    Key("at", At(), "Its middle, with `diameter` or `size`", example="[990, 300]"),
    Key("diameter", ABOVE_0, "Of a round one", example="35"),
    Key(
        "size",
        Pair(ABOVE_0, one_will_do=True),
        "Of a rectangular one; a single length is the side of a square",
        example="[250, 40]",
    ),
    Key("turn", degrees(-360, 360), "Of the length of a rectangular one, from x", 0.0, "0", "30"),
    Key(
        "points", Ring(), "Its corners, in place of all that", example="[[0, 0], [80, 0], [0, 60]]"
    ),
)

CUT_OUT = Section(
    "[[panel.cutouts]]", "A cut-out that is round, rectangular or has corners.", _SHAPE
)

DEFECT = Section(
    "[[panel.defects]]",
    "One defect: where it is, and what it spoils.",
    (
        Key(
            "name",
            Text(),
            "What the maker calls it, each name once",
            None,
            "its kind and number",
            '"letterbox"',
        ),
        Key(
            "kind",
            Choice(
                names(*DEFECT_KINDS),
                {"nail": "metal", "screw": "metal", "crack": "split", "mortise": "pocket"},
            ),
            "What it is; gives the usual `spoils`, `clear` and `ends`",
            None,
            "none",
            '"split"',
        ),
        *_SHAPE,
        Key(
            "spoils",
            Choices(Choice({spoilt.value: spoilt for spoilt in Spoils}), one_will_do=True),
            "`showing`: it must lie outside the top. `cutting`: no blade, bit or screw may "
            "cross it, "
            "and it lies wholly inside or wholly outside the top. `bearing`: no leg or "
            "fixing stands "
            "there",
            None,
            'by kind, else `["showing", "bearing"]`; without showing where `face` is `"down"`',
            '["cutting", "bearing"]',
        ),
        Key("clear", FROM_0, "Kept clear all round it", None, "by kind, else 0", "6"),
        Key(
            "ends",
            FROM_0,
            "Kept clear past both ends of a length given by `size`, where that is more "
            "than `clear`: a split runs on unseen",
            None,
            "by kind, else 0",
            "50",
        ),
        Key(
            "face",
            Choice({face.value: face for face in Face}, {"both": "through"}),
            "The face that shows it",
            None,
            '`"through"`; `"up"` where a depth is given',
            '"down"',
        ),
        Key(
            "depth",
            ABOVE_0,
            "How deep it goes, where it does not go through",
            None,
            "not known",
            "12",
        ),
    ),
)
