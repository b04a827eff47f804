"""Legs that are glued: what with, how large the joint is, how much of it, and how long it takes."""

from __future__ import annotations

import math
from dataclasses import dataclass, field

from .foot import Foot
from .table_wish import Glue

CURE = (2.0, 3.0)
"""How far a flexible, moisture-curing adhesive cures in from its edge in a day, mm, least and most
(common practice)."""

BED = {Glue.RIGID: 0.2, Glue.FLEXIBLE: 2.0}
"""How thick it lies, mm (common practice: 200 g of wood glue a square metre; an adhesive that gives
and is squeezed thinner has nothing left to give)."""

SPARE = 1.2
"""What is bought is so many times what lies in the joints: the rest is squeezed out (ours)."""

CARTRIDGE = 310.0
"""What a cartridge of adhesive holds, ml (common practice: 290 to 310)."""

RIGID_DAYS = 1.0
"""Until a joint of wood glue is loaded, days (common practice)."""


@dataclass(frozen=True, slots=True)
class Bed:
    """Adhesive in its joints, with a fifth more for what is squeezed out."""

    area: float
    """cm²."""
    bed: float
    """mm."""
    pack: float = 0.0
    """What a cartridge holds, ml; 0 where it is counted in ml."""

    @property
    def volume(self) -> float:
        """In ml."""
        return self.area * self.bed / 10 * SPARE

    @property
    def need(self) -> float:
        """Cartridges, or ml."""
        return math.ceil(self.volume / self.pack - 1e-9) if self.pack else self.volume


@dataclass(frozen=True, slots=True)
class GlueJoint:
    """The joint of one leg and the top."""

    area: float = field(metadata={"unit": "mm2"})
    """mm²; of a ring or a tube only its wall."""
    block: tuple[float, float] | None
    """Length and width, or twice the diameter, of a block that would fill a hollow leg and more
    than double its joint, mm; None for a solid leg."""
    block_area: float = field(metadata={"unit": "mm2"})
    """What that block adds, mm²."""
    bed: float
    """How thick the adhesive lies, mm."""
    volume: float = field(metadata={"unit": "ml"})
    """To buy for all legs, ml."""
    cartridges: int
    """So many of a flexible adhesive; 0 of wood glue, which comes in bottles."""
    least_days: float = field(metadata={"unit": "d"})
    most_days: float = field(metadata={"unit": "d"})
    """Until it may be loaded, days: a flexible adhesive has then cured to the middle of the widest
    joint, a filled leg's block among them."""


def glue_joint(foot: Foot, legs: int = 4, glue: Glue = Glue.FLEXIBLE) -> GlueJoint:
    """Return the joint under each of so many legs of this section.

    >>> glue_joint(Foot.square(60)).most_days
    15.0
    """
    hollow, flexible = foot.shape.has_wall, glue is Glue.FLEXIBLE
    filled = (math.pi / 4 if foot.is_round else 1.0) * foot.inside[0] * foot.inside[1]
    block_area = filled if hollow else 0.0
    bought = Bed((foot.section + block_area) * legs / 100, BED[glue], CARTRIDGE)
    depth = min(foot.length, foot.width) / 2
    return GlueJoint(
        foot.section,
        foot.inside if hollow else None,
        block_area,
        BED[glue],
        bought.volume,
        int(bought.need) if flexible else 0,
        depth / CURE[1] if flexible else RIGID_DAYS,
        depth / CURE[0] if flexible else RIGID_DAYS,
    )
