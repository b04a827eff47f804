"""Keys of the legs: how they hold the top, and what the table has to carry."""

from __future__ import annotations

from ...keys.figures import ABOVE_0, Length, Number, Range
from ...keys.key import Key
from ...keys.kinds import Choice, YesNo
from ...keys.plane import Pair
from ...legs.table_wish import Glue, TableWish
from ...legs.wish import Fixing

PLATE_THICKNESS = 4.0
"""Of a fixing plate where the file gives none, mm (common practice)."""

_TABLE = TableWish()

HELD = (
    Key(
        "fixing",
        Choice({fixing.value: fixing for fixing in Fixing}, {"screws": "screwed", "glue": "glued"}),
        "How they are held to the top; on a loose one nothing but its own weight holds it down",
        None,
        '"screwed"; "loose" on brick, fired clay and concrete',
        '"loose"',
    ),
    Key(
        "plate",
        Pair(ABOVE_0, one_will_do=True),
        "A steel plate on the head of each leg that takes its screws",
        None,
        "none",
        "[90, 90]",
    ),
    Key(
        "plate_thickness",
        ABOVE_0,
        "Its thickness",
        PLATE_THICKNESS,
        f"{PLATE_THICKNESS:g} mm",
        "5",
    ),
    Key(
        "plate_holes",
        Pair(ABOVE_0, one_will_do=True, form="[along, across]"),
        "How far its outer holes lie apart, middle to middle",
        None,
        "12 mm inside its edges",
        "[65, 65]",
    ),
    Key(
        "screw",
        Pair(ABOVE_0, form="[diameter, length]"),
        "The screws; one that comes through the top is refused",
        None,
        "the longest 5 mm one that is sold and leaves enough under its tip",
        "[5, 30]",
    ),
    Key(
        "glue",
        Choice({glue.value: glue for glue in Glue}, {"elastic": "flexible"}),
        "What holds legs that are glued: wood glue is rigid; a flexible "
        "construction adhesive lets solid wood move, holds metal and masonry, and takes days",
        None,
        '"rigid" for wood, "flexible" for other legs',
        '"flexible"',
    ),
    Key(
        "apron",
        YesNo(),
        "Whether an apron or rails join the legs: then all fixings of a solid top are slotted but "
        "one row",
        _TABLE.framed,
        "false",
        "true",
    ),
    Key(
        "spread",
        Number("kg/m²", Range(0, 10_000)),
        "What lies on the table for years, for its sag",
        _TABLE.long_term,
        "20",
        "50",
    ),
    Key(
        "press",
        Number("N", Range(0, 100_000)),
        "What presses on it for a while at the worst place, for its sag",
        _TABLE.point,
        "300",
        "800",
    ),
    Key(
        "creep",
        Number("", Range(1, 10)),
        "How many times its first sag a lasting load makes in the end",
        None,
        "by material, EN 1995-1-1 table 3.2: 1.6 for solid wood, 1.8 for plywood and blockboard, "
        "3.25 for other boards",
        "1.8",
    ),
    Key(
        "place",
        Length(Range(200.0, 2000.0), "a diner takes about 600 mm, or 24 in, of the edge"),
        "Edge that a diner takes",
        None,
        "600 mm, or 24 in",
        "650",
    ),
)
