"""Corners and struck points that tapes are held to, and offsets from a reference line."""

from __future__ import annotations

from dataclasses import dataclass

from ..geometry.point import Point


@dataclass(frozen=True, slots=True)
class Offsets:
    """Where a point lies from the datum, mm: `along` from its first point, `square` from it."""

    along: float
    square: float


@dataclass(frozen=True, slots=True)
class Corner:
    """A corner of the panel."""

    name: str
    """A letter: A at the maker's datum corner, the others anticlockwise, show face up."""
    point: Point
    """Where it is, or where its edges would meet."""
    usable: bool = True
    """Whether a tape may be held to it."""
    why: str = ""
    """Why not; empty where it may."""


@dataclass(frozen=True, slots=True)
class Reference:
    """A point that tapes are held to."""

    name: str
    """The letter of a corner, or P or Q for a struck point."""
    point: Point
    how: str
    """Where it is, in words; ``{distance}`` stands for the length below."""
    distance: float = 0.0
    """mm; 0 where `how` needs none."""
