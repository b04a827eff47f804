"""Keys of the tables within [panel]: its outline, cut-outs, datum and defects."""

from __future__ import annotations

from ...keys.figures import ABOVE_0, ANY_LENGTH, FROM_0, count, degrees
from ...keys.key import Key, Section
from ...keys.kinds import Choice, Text, names
from ...keys.plane import At, Choices, Four, Pair, Ring, Table
from ...panel.defect import Face, Mend, Spoils
from .defect_kinds import DEFECT_KINDS

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
                {
                    **dict.fromkeys(("nail", "screw", "bolt", "staple"), "metal"),
                    **dict.fromkeys(
                        ("screw hole", "nail hole", "bolt hole", "tap hole", "cable hole"), "hole"
                    ),
                    **dict.fromkeys(("crack", "shake", "check"), "split"),
                    **dict.fromkeys(("mortise", "lock", "hinge", "hinge recess"), "pocket"),
                    "frame joint": "joint",
                    "glue line": "glued joint",
                    **dict.fromkeys(
                        ("ring", "ring stain", "water ring", "coffee ring", "heat mark"),
                        "finish stain",
                    ),
                    **dict.fromkeys(("burn", "ink", "water stain"), "stain"),
                    **dict.fromkeys(("scratch", "gouge"), "dent"),
                    **dict.fromkeys(("blister", "loose veneer"), "swelling"),
                    "woodworm": "rot",
                },
                {
                    "knot": 'may be sound or loose: leave a sound one out; write "hole" where it '
                    "is loose or has fallen out",
                },
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
        Key(
            "clear",
            FROM_0,
            "Kept clear all round it",
            None,
            "by kind, else 0; where it spoils cutting, what blades and bit need",
            "6",
        ),
        Key(
            "ends",
            FROM_0,
            "Kept clear past both ends of an oblong `size`, else along the grain, where that is "
            "more than `clear`: a split runs on unseen",
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
        Key(
            "mend",
            Choice(
                {mend.value: mend for mend in Mend},
                {
                    "keys": "key",
                    "butterfly": "key",
                    "bow-tie": "key",
                    "fill": "filler",
                    "epoxy": "resin",
                    "sanding": "sand",
                },
            ),
            "How it is mended: then it may lie inside the top. A `plug`, a `patch` and `filler` "
            "stay whole; a `key` across a split, `resin` and a spot that is sanded out, for which "
            "`depth` is needed, may run out at the edge. No leg stands on filler or resin",
            None,
            "not at all",
            '"plug"',
        ),
    ),
)
