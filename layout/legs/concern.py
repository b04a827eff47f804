"""What stands against the legs and the table on them, or is worth knowing: `Concern.matter`.

Of `Concern.who` the first is the number of a leg, or all are; what follows a single leg are the
defects that are to blame. `found` and `limit` are mm, but N of a force and kg of a mass.
"""

from __future__ import annotations

from enum import Enum


class LegMatter(Enum):
    """What a concern is about; those up to `TIPS_BY_ITSELF` are grave."""

    BEYOND_EDGE = "beyond the edge"
    POOR_BEARING = "poor bearing"
    OVERLAP = "overlap"
    TIPS_BY_ITSELF = "tips by itself"
    MOVED = "moved off a spoilt place"
    NEAR_EDGE = "near the edge"
    STICKS_OUT = "sticks out"
    TIPS_UNDER_LOAD = "tips under the load"
    CLIMBED_ON = "tips under who climbs on it"
    ROCKS_AS_BLOCKS = "loose legs rock"
    ROCKS = "rocks"
    LOOSE = "loose"
    HEAVY_LEGS = "heavy legs"

    HOLLOW = "nothing to bite"
    FRAME_UNKNOWN = "stiles and rails not known"
    NO_SCREW = "no screw holds"
    SCREW_COMES_THROUGH = "comes through"
    SCREW_TOO_DEEP = "too deep"
    SCREW_HARDLY_BITES = "hardly bites"
    SCREW_NEAR_EDGE = "near the edge of the wood"
    ONE_BOLT = "one bolt in a tall leg"
    GLUE_FIGHTS = "glue fights the wood"
    METAL_GLUED = "rigid glue on metal or masonry"
    HARD_SEAT = "masonry under the top"

    NO_BATTEN = "no room for a batten"
    BATTEN_MISSING = "fewer battens than wished"

    SAGS = "sags"
    SAGS_LATER = "sags in the end"
    SAG_UNKNOWN = "sag not known"
    WAIST = "a waist governs"

    LOW = "knees touch"
    NOBODY_SITS = "nobody sits"


GRAVE = frozenset(
    (LegMatter.BEYOND_EDGE, LegMatter.POOR_BEARING, LegMatter.OVERLAP, LegMatter.TIPS_BY_ITSELF)
)
"""The legs cannot stay as they are; the rest is worth knowing."""
