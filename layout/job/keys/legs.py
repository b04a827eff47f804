"""Keys of the legs."""

from __future__ import annotations

from ...legs.wish import Fixing, FootShape, LegsWish
from ...panel.materials import MATERIALS
from .figures import ABOVE_0, FROM_0, Number, Range, count
from .key import Key, Section
from .kinds import Choice, YesNo, names
from .plane import Pair, Points

_USUAL = LegsWish()

LEGS = Section(
    "[legs]",
    "The legs. Without this table the job is a top alone.",
    (
        Key(
            "count",
            count(3, 100, "fewer than 3 do not stand"),
            "How many",
            None,
            "4, or as many as `at` places",
            "6",
        ),
        Key(
            "foot",
            Choice({shape.value: shape for shape in FootShape}, {"hollow": "ring", "tube": "ring"}),
            "What a foot looks like from above",
            _USUAL.foot.shape,
            '"square"',
            '"round"',
        ),
        Key(
            "size",
            Pair(ABOVE_0, one_will_do=True),
            "Side or diameter of a foot; for a rectangular one its length and width",
            (_USUAL.foot.length,),
            "60 mm",
            "70",
        ),
        Key("wall", ABOVE_0, "Thickness of the wall of a ring; must be given for one", example="3"),
        Key(
            "at",
            Points(3),
            "The middle of each foot, from the centre of the top, x along its length",
            (),
            "by inset",
            "[[-500, -200], [500, -200], [0, 250]]",
        ),
        Key(
            "inset",
            FROM_0,
            "From the top's edge to the outside of a foot, all round",
            None,
            "what is usual for the size of the top",
            "80",
        ),
        Key("inset_side", FROM_0, "The same, at the long sides only", None, "as `inset`", "80"),
        Key("inset_end", FROM_0, "The same, at the ends only", None, "as `inset`", "250"),
        Key("height", ABOVE_0, "Length of a leg", _USUAL.height, "700 mm", "690"),
        Key(
            "mass",
            Number("kg", Range(0, 1000)),
            "Of one leg",
            None,
            "from its size and density",
            "2.5",
        ),
        Key(
            "density",
            Number("kg/m³", Range(0, 25_000, above=True)),
            "Of the legs",
            _USUAL.density,
            "650",
            "7850",
        ),
        Key(
            "material",
            Choice(names(*MATERIALS), described="a material, listed below"),
            "Of the legs, in place of a density",
            None,
            "none",
            '"beech"',
        ),
        Key(
            "fixing",
            Choice(
                {fixing.value: fixing for fixing in Fixing}, {"screws": "screwed", "glue": "glued"}
            ),
            "How they are held to the top",
            _USUAL.fixing,
            '"screwed"',
            '"loose"',
        ),
        Key(
            "load",
            Number("N", Range(0, 100_000)),
            "Downward force at the edge that the table is held "
            "against; a person who sits on it brings 600 to 1000",
            _USUAL.load,
            "600",
            "800",
        ),
        Key(
            "seated",
            YesNo(),
            "Whether people sit at it: then a long top overhangs more at its ends, for their knees",
            _USUAL.seated,
            "true",
            "false",
        ),
    ),
)
