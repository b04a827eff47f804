"""The way that straight sides are drawn: from mark to mark."""

from __future__ import annotations

from dataclasses import dataclass

from .method import SETTING, HandTool, Method, together
from .step import Step


@dataclass(frozen=True, slots=True)
class JoinedCorners:
    """Corners that are marked from the datum and joined."""

    sides: int
    """How many straight sides are drawn."""


def joined_corners(sides: int, words: str = "") -> Method:
    """Return the way that joins marks: each stands where two offsets were read."""
    step = Step("Join", words or "the corners as marked, one after the other, with a straightedge")
    return Method(
        "corners joined",
        (HandTool.TAPE,),
        JoinedCorners(sides),
        (),
        (step,),
        0.0,
        together(SETTING, SETTING),
        leaves_hole=False,
    )
