"""Keys of the legs: how many, of what shape, and where."""

from __future__ import annotations

from ...keys.figures import ABOVE_0, FROM_0, Counts, Number, Range, count, degrees
from ...keys.key import Key, Section
from ...keys.kinds import Choice, YesNo, names
from ...keys.plane import Pair, Points
from ...legs.heights import DINED_AT, SITTER
from ...legs.materials import LEG_MATERIALS
from ...legs.stability import SAT_ON
from ...legs.stance import COUNTS
from ...legs.tipping import EDGE
from ...legs.wish import FootShape, Goal, Lean, LegsWish
from .legs_held import HELD

_USUAL = LegsWish()

_PLACES = (
    Key(
        "count",
        count(2, 100, "fewer than 3 do not stand, but for 2 slabs or trestles"),
        "How many, placed by inset, or by `goal` where that is given",
        None,
        "the best of `counts`, or as many as `at` places",
        "6",
    ),
    Key(
        "counts",
        Counts(count(2, 100, "fewer than 3 do not stand, but for 2 slabs or trestles")),
        "Where `count` is left out: how many are compared",
        None,
        ", ".join(str(n) for n in COUNTS) + "; 2 of slabs",
        "[4, 6]",
    ),
    Key(
        "goal",
        Choice(
            {goal.value: goal for goal in Goal},
            {"firmest": "most stable", "stands firmest": "most stable", "knees": "most knee room"},
        ),
        "What makes legs the best. Whatever it is, the load is held first if any stance holds it",
        None,
        '"most stable" where `count` is left out',
        '"most knee room"',
    ),
    Key(
        "at",
        Points(2),
        "The middle of each leg's head, from the centre of the top, x along its length",
        (),
        "by inset, or proposed",
        "[[-500, -200], [500, -200], [0, 250]]",
    ),
    Key(
        "inset",
        FROM_0,
        "From the top's edge to the outside of a foot, all round",
        None,
        "what is usual for the size of the top, or proposed",
        "80",
    ),
    Key("inset_side", FROM_0, "The same, at the long sides only", None, "as `inset`", "80"),
    Key("inset_end", FROM_0, "The same, at the ends only", None, "as `inset`", "250"),
)

_LEG = (
    Key(
        "foot",
        Choice(
            {shape.value: shape for shape in FootShape},
            {
                "hollow": "ring",
                "tube": "ring",
                "pipe": "ring",
                "rectangular tube": "square tube",
                "box section": "square tube",
                "hexagon": "hexagonal",
                "circular": "round",
                "circle": "round",
                "rectangle": "rectangular",
                "oblong": "rectangular",
                "trestle": "slab",
                "block": "rectangular",
            },
            {
                "hairpin": 'stands on thin rods: write "round" with the size of what touches the '
                "floor, and give the plate on its head as plate = [length, width]",
            },
        ),
        "What a foot looks like from above; a slab or trestle carries the top along its length, "
        "and two of them stand",
        _USUAL.foot.shape,
        '"square"',
        '"round"',
    ),
    Key(
        "size",
        Pair(ABOVE_0, one_will_do=True),
        "Side or diameter of a foot, of a hexagonal one across its flats; for a rectangular one, a "
        "tube or a slab its length along the top and its width across it",
        (_USUAL.foot.length,),
        "60 mm",
        "70",
    ),
    Key(
        "wall",
        ABOVE_0,
        "Thickness of the wall of a ring or a tube; must be given for one",
        example="3",
    ),
    Key(
        "height",
        ABOVE_0,
        "From the floor to the underside of the top",
        _USUAL.height,
        "700 mm",
        "690",
    ),
    Key(
        "table_height",
        ABOVE_0,
        "From the floor to the upper face, in place of `height`: the legs follow from it, the top "
        "and the plate",
        None,
        "from `height`",
        "740",
    ),
    Key(
        "splay",
        degrees(0, 30, "a leg leans no farther"),
        "How far the legs lean from upright, so that the feet land elsewhere than their heads",
        _USUAL.splay_deg,
        "0",
        "10",
    ),
    Key(
        "lean",
        Choice(
            {lean.value: lean for lean in Lean},
            {"ends": "towards the ends", "sides": "towards the sides"},
        ),
        "Which way splayed legs lean: away from the middle of the top, or along or across it only",
        _USUAL.lean,
        '"outwards"',
        '"towards the ends"',
    ),
    Key("mass", Number("kg", Range(0, 1000)), "Of one leg", None, "from its size", "2.5"),
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
        Choice(
            names(*LEG_MATERIALS),
            {"clay": "fired clay", "terracotta": "fired clay", "iron": "steel"},
            described="a material, listed below",
        ),
        "Of the legs, in place of a density",
        None,
        "none",
        '"beech"',
    ),
    Key(
        "load",
        Number("N", Range(0, 100_000)),
        "Downward force at the edge that the table is held against: at the very edge of one up to "
        f"{SAT_ON:.0f} mm high, where somebody may sit down, else {EDGE:.0f} mm inside it; who "
        "sits on it brings 600 to 1000",
        None,
        f"{_USUAL.load:.0f}, or {SITTER:.0f} where the table is lower than {DINED_AT:.0f} mm",
        "800",
    ),
    Key(
        "seated",
        YesNo(),
        "Whether people sit at it: then a long top overhangs more at its ends, for their knees",
        None,
        f"true, false where the table is lower than {DINED_AT:.0f} mm",
        "false",
    ),
)

LEGS = Section(
    "[legs]",
    "The legs. Without this table the job is a top alone.",
    (*_PLACES, *_LEG, *HELD),
)
