"""A top of the search, and a box of it: spans of turn and shape, and cells of centres."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from ...geometry.tolerance import ROUNDING
from ..wood.edges import Array, turned
from ..wood.round_holes import Disks

_WORTH_A_LOOK = 0.9
"""Share of the cells left, below which half-planes are tried again."""


class Pose(NamedTuple):
    """A core within a search; mm and radians, in the frame of the search."""

    x: float
    y: float
    turn: float
    half_length: float
    half_width: float


class Patch(NamedTuple):
    """A rectangle of centres, in the frame of a box."""

    middle: Array
    """(2,) array: in the frame of the search, mm."""
    sides: tuple[float, float]
    """Half of them, along the turn of the box and across it, mm."""


@dataclass(slots=True)
class Box:
    """Tops between two turns and two shapes, centred in any of the cells."""

    turn: float
    half_turn: float
    """The middle of the turns and half their span, radians."""
    low: float
    high: float
    """The shapes."""
    centres: Array
    """(m, 2) array: middles of the cells, mm."""
    frame: float
    """Direction of the cells' sides, radians."""
    half: tuple[float, float]
    """Half the sides of a cell, mm."""
    clear: NDArray[np.bool_]
    """(m,) array of bool: whether a cell is known to lie wholly inside the wood."""
    near: NDArray[np.intp]
    """(k,) array of int: the edges that can still be nearest to a cell."""
    disks: Disks = field(default_factory=Disks.none)
    """and the round holes that can, beside those edges."""
    hopeless: float = 0.0
    """By what share its half-planes gave more than enough, or may give."""
    waits: bool = False
    """Whether it is one to start with that is not looked into as long as others promise more."""
    fine: float = 0.5
    """How small the cells are made, as a multiple of what the gap asks."""
    radius: float = 0.0
    most: float = 0.0
    """The largest radius seen in a cell's middle, and a bound of all, mm; once bounded."""
    least: float = 0.0
    """A radius that all tops of interest have, mm."""
    spot: Array = field(default_factory=lambda: np.zeros(2))
    """(2,) array: the middle of that cell."""
    places: Array | None = None
    """Where centres of good tops lie, seen from the middle of its cells; least and greatest, mm."""
    hint: tuple[Array, float, float] | None = None
    """Centre, turn and shape of a top that may be good."""

    @property
    def likely_radius(self) -> float:
        """A radius to measure the box by, mm: none may have been seen yet in wide cells."""
        return max(self.radius, self.most / 4, 1e-9)

    @property
    def middle(self) -> float:
        """The shape in the middle."""
        return (self.low + self.high) / 2

    @property
    def edges(self) -> NDArray[np.intp]:
        """All edges that can still be nearest to a cell, those of round holes among them."""
        return np.concatenate([self.near, self.disks.edges])

    def part(self, **changes: Any) -> Box:  # noqa: ANN401 - fields of a box
        """Return a smaller box, not yet bounded."""
        return replace(self, hint=None, **changes)

    def keep(self, which: NDArray[np.bool_]) -> None:
        """Drop the other cells."""
        self.centres, self.clear = self.centres[which], self.clear[which]


def cell_corners(box: Box) -> Array:
    """Return two neighbouring corners of a cell about its middle, along and across the turn, mm."""
    along, across = box.half
    return turned(np.array([[along, across], [along, -across]]), box.turn - box.frame)


def halve_cells(box: Box, along: bool) -> None:
    """Cut every cell of the box in two, along its frame or across it."""
    one, other = box.half
    box.half = half = (one / 2, other) if along else (one, other / 2)
    shift = np.array([half[0], 0.0] if along else [0.0, half[1]])
    shifts = turned(np.stack([-shift, shift]), -box.frame)
    box.centres, box.clear = (box.centres[:, None] + shifts).reshape(-1, 2), np.repeat(box.clear, 2)


def patch_of(box: Box) -> Patch:
    """Return the rectangle, along the turn of the box, round its cells."""
    seen = turned(box.centres, box.turn)
    low, high = seen.min(axis=0), seen.max(axis=0)
    along, across = (high - low) / 2 + np.abs(cell_corners(box)).max(axis=0)
    return Patch(turned((low + high)[None] / 2, -box.turn)[0], (float(along), float(across)))


def drop_aside(box: Box) -> bool:
    """Drop the cells where no top is worth enough; return whether that were many."""
    if box.places is None:
        return False
    corner = np.abs(cell_corners(box)).max(axis=0) + ROUNDING
    seen, (low, high) = turned(box.centres - patch_of(box).middle, box.turn), box.places
    near = ((seen + corner >= low) & (seen - corner <= high)).all(axis=1)
    box.places = None
    if near.mean() > _WORTH_A_LOOK or not near.any():
        return False
    box.keep(near)
    return True


def split_places(box: Box, *, along: bool) -> list[Box]:
    """Return two halves of the box's cells, parted along the turn or across it."""
    middle = patch_of(box).middle
    if len(box.centres) < 4:
        halve_cells(box, along=True)
        halve_cells(box, along=False)
    first = turned(box.centres - middle, box.turn)[:, 0 if along else 1] < 0
    return [
        box.part(centres=box.centres[part], clear=box.clear[part], fine=box.fine / 2)
        for part in (first, ~first)
        if part.any()
    ]
