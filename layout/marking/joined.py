"""The way that straight sides are drawn: from mark to mark."""

from __future__ import annotations

from dataclasses import dataclass

from .method import HandTool, Method


@dataclass(frozen=True, slots=True)
class JoinedCorners:
    """Corners that are marked from the datum and joined."""

    sides: int
    """How many straight sides are drawn."""
    all_round: bool = True
    """Whether they are all the sides; else the rest of the edge stays."""


def joined_corners(sides: int, *, all_round: bool = True) -> Method:
    """Return the way that joins marks: each stands where two offsets were read."""
    return Method("corners joined", (HandTool.TAPE,), JoinedCorners(sides, all_round))
