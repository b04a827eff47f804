"""What is done to the panel until the top is cut out, as a union of types: each finds its words."""

from __future__ import annotations

from dataclasses import dataclass

from .again import MarkedAgain
from .builds import Edging, FrameJoint, KeptEdge, RimLoss, UnknownFrame
from .cut import CornerCut, HandCut, JigsawCut, RouterCut, SkippedTrim, Trim
from .mending import Mended

REST = 7
"""Days that a flattened slab lies before it is trusted (common practice)."""

TWIST_LEFT = 2.0
"""Twist that a flattened slab may have after its rest, mm (common practice)."""


@dataclass(frozen=True, slots=True)
class Flatten:
    """A slab is flattened, once it is cut roughly to length."""

    found: float
    thickness: float
    """Before and after, mm."""


@dataclass(frozen=True, slots=True)
class Rest:
    """A flattened slab rests and is marked again."""

    again: MarkedAgain
    days: int = REST
    twist: float = TWIST_LEFT
    """What it may be wound by then, mm."""


@dataclass(frozen=True, slots=True)
class KnifeLines:
    """Every saw line is knifed on the show face."""

    below: bool
    """Whether that lies down."""


@dataclass(frozen=True, slots=True)
class CornerCuts:
    """All corner cuts, one after the other."""

    cuts: tuple[CornerCut, ...]


Act = (
    Trim
    | Flatten
    | Mended
    | Rest
    | KnifeLines
    | FrameJoint
    | UnknownFrame
    | SkippedTrim
    | KeptEdge
    | CornerCuts
    | JigsawCut
    | RimLoss
    | RouterCut
    | HandCut
    | Edging
)
"""Everything that a cutting plan may ask for."""
