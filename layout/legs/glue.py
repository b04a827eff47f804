"""Legs that are glued: how large the joint is, and how long it takes."""

from __future__ import annotations

from dataclasses import dataclass, field

from .foot import Foot, FootShape

CURE = (2.0, 3.0)
"""How far a flexible, moisture-curing adhesive cures in from its edge in a day, mm, least and most
(common practice)."""


@dataclass(frozen=True, slots=True)
class GlueJoint:
    """The joint of one leg and the top."""

    area: float = field(metadata={"unit": "mm2"})
    """mm²; of a ring only its wall."""
    block: float
    """Diameter of a turned block that would fill a ring and more than double its joint, mm; 0 for a
    solid leg."""
    block_area: float = field(metadata={"unit": "mm2"})
    """What that block adds, mm²."""
    least_days: float = field(metadata={"unit": "d"})
    most_days: float = field(metadata={"unit": "d"})
    """Until a flexible adhesive has cured to the middle of the joint, days."""


def glue_joint(foot: Foot) -> GlueJoint:
    """Return the joint under one leg of this section.

    >>> glue_joint(Foot.square(60)).most_days
    15.0
    """
    ring = foot.shape is FootShape.RING
    block = foot.length - 2 * foot.wall if ring else 0.0
    depth = foot.wall / 2 if ring else min(foot.length, foot.width) / 2
    filled = Foot.round(block).section if ring else 0.0
    return GlueJoint(foot.section, block, filled, depth / CURE[1], depth / CURE[0])
