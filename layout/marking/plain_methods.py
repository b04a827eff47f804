"""The ways that need no instrument: marks joined, or a printed template pricked through."""

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


@dataclass(frozen=True, slots=True)
class FullSize:
    """A template as large as the top."""

    length: float
    width: float
    """Of the top, mm."""


def full_size_template(length: float, width: float) -> Method:
    """Return how a printed template, `length` by `width` mm, draws an outline.

    The paper is laid, and the line pricked through it, each as well as a tape is read.
    """
    return Method("full-size template", (HandTool.PAPER,), FullSize(length, width))
