"""Keys of the tables within [panel]: its outline, cut-outs, datum and defects."""

from __future__ import annotations

from ...keys.figures import ABOVE_0, ANY_LENGTH, FROM_0, count
from ...keys.key import Key, Section, keys_of
from ...keys.plane import At, Four, Pair, Ring, Table
from ...panel.spot import Spot
from ...panel.told import Told

OUTLINE = Section(
    "[panel.outline]",
    "Either `length` and `width`, with corners rounded or clipped, or `points`; each edge may bow. "
    "A round panel has a `diameter`, an oval one two `axes`: their box starts at the origin.",
    (
        Key("length", ABOVE_0, "Along x", example="1981"),
        Key("width", ABOVE_0, "Along y", example="838"),
        Key("diameter", ABOVE_0, "Of a round panel, in place of both", example="900"),
        Key(
            "axes",
            Pair(ABOVE_0),
            "Of an oval panel, in place of both: along x and along y",
            None,
            "",
            "[1400, 800]",
        ),
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

CUT_OUT = Section(
    "[[panel.cutouts]]", "A cut-out that is round, rectangular or has corners.", keys_of(Spot)
)

DEFECT = Section("[[panel.defects]]", "One defect: where it is, and what it spoils.", keys_of(Told))
