"""Keys of the tops to look for: which shapes, and what in the plane they are tied to."""

from __future__ import annotations

from ...fit.wish import Ends, Wish
from ...keys.figures import Number, Range
from ...keys.key import Key
from ...keys.kinds import Choice, YesNo, names
from ...keys.plane import Choices, Points, Ring
from .edges import EdgeName, EdgeNames

OWN, AS_FOUND = "own outline", "piece as found"
"""Shapes that need more keys than their name."""

FAMILIES = (
    "circle",
    "rectangle",
    "rounded rectangle",
    "capsule",
    "oval",
    "superellipse",
    "hexagon",
    "octagon",
)
"""The shapes that need no other key."""

ANY = "any"
"""Stands for all of them."""

SHAPES = (
    Key(
        "shape",
        Choices(
            Choice(
                names(*FAMILIES, OWN, AS_FOUND, ANY),
                {
                    **dict.fromkeys(("round", "circular", "disk", "disc"), "circle"),
                    **dict.fromkeys(("racetrack", "round-ended", "stadium", "pill"), "capsule"),
                    **dict.fromkeys(("ellipse", "elliptical"), "oval"),
                    **dict.fromkeys(("rounded corners", "rounded"), "rounded rectangle"),
                    "live edge": AS_FOUND,
                    "waney edge": AS_FOUND,
                },
                {
                    "square": 'is a rectangle as long as wide: write "rectangle" and '
                    "most_ratio = 1",
                },
            ),
            one_will_do=True,
        ),
        "Which shapes; several are ranked. `any` are those that need no other key; `own outline` "
        "needs `outline`, `piece as found` needs `keep`",
        (ANY,),
        '"any"',
        '["capsule", "oval"]',
    ),
    Key(
        "exponent",
        Number(limits=Range(2, 20)),
        "Of a superellipse: 2 is an oval, and the more the squarer",
        Wish(()).exponent,
        "2.5",
        "3",
    ),
    Key(
        "outline",
        Ring(),
        "Corners of a top of your own, from any origin; it is laid where it has the most clearance",
        None,
        "",
        "[[0, 0], [900, 0], [900, 400], [450, 620], [0, 400]]",
    ),
    Key(
        "scaled",
        YesNo(),
        "Whether `outline` is only a shape, to be had as large as it fits; it must not be hollow "
        "anywhere",
        False,
        "false",
        "true",
    ),
)
"""Which shapes."""

PLACES = (
    Key(
        "parallel_to",
        EdgeName(),
        "The edge of the panel that the top's length runs parallel to",
        None,
        "any way",
        '"AB"',
    ),
    Key(
        "keep",
        EdgeNames(),
        "Edges of the panel that stay as they are. A straight factory edge: a long side of a "
        "rectangle, rounded rectangle or capsule lies on it. One edge or two opposite ones, live "
        "ones too: the sides of a piece as found",
        (),
        "none",
        '["AB", "CD"]',
    ),
    Key(
        "ends",
        Choice({ends.value: ends for ends in Ends}, {"round": Ends.HALF_ROUND.value}),
        "How the ends of a piece as found are cut",
        Ends.SQUARE,
        '"square"',
        '"half-round"',
    ),
    Key(
        "covers",
        Points(),
        "Points of the panel that the top must hold: a fine figure, an inlay",
        (),
        "none",
        "[[820, 400]]",
    ),
    Key(
        "avoids",
        Points(),
        "Points of the panel that must lie outside it",
        (),
        "none",
        "[[300, 120]]",
    ),
)
"""What in the plane the top is tied to."""
