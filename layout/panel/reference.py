"""Corners and struck points that tapes are held to, and offsets from a reference line."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from ..geometry.point import Point


@dataclass(frozen=True, slots=True)
class Offsets:
    """Where a point lies from the datum, mm: `along` from its first point, `square` from it."""

    along: float
    square: float


class Flaw(Enum):
    """Why no tape is held to a corner."""

    GONE = "rounded, clipped or notched"
    NOT_CRISP = "not crisp"
    DAMAGED = "damaged"
    CUT_AWAY = "cut away"
    SPOILT = "spoilt"


@dataclass(frozen=True, slots=True)
class Corner:
    """A corner of the panel."""

    name: str
    """A letter: A at the maker's datum corner, the others anticlockwise, show face up."""
    point: Point
    """Where it is, or where its edges would meet."""
    flaw: Flaw | None = None
    """Why no tape may be held to it; None where one may."""
    spoilt_by: str = ""
    """The defect that spoils it, where one does."""

    @property
    def usable(self) -> bool:
        """Whether a tape may be held to it."""
        return self.flaw is None


class Found(Enum):
    """How a point that is measured from is found on the panel."""

    CORNER = "corner"
    PROLONGED = "edges prolonged"
    """Where the edge before it, prolonged past a corner that is not usable, meets the line: there
    may be no wood, so no tape is held to it."""
    ON_EDGE = "on the edge"
    STRUCK = "struck on the face"
    CARRIED = "carried down the end"
    """Where a struck line meets a new end of a slab."""


@dataclass(frozen=True, slots=True)
class Reference:
    """A point that is measured from."""

    name: str
    """The letter of a corner, or P or Q for a struck point."""
    point: Point
    found: Found = Found.CORNER
    edge: str = ""
    """The edge that it lies on, or that is prolonged, by its corners: ``A–B``; empty where it has
    no letters."""
    beside: str = ""
    """The corner, or the other point of the line, that it is measured from along that edge; empty
    where it is measured from the end of what is straight of the edge."""
    distance: float = 0.0
    """From there, mm."""
