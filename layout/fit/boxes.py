"""A box of the search for tops of two sizes: spans of turn and shape, and cells of centres."""

from __future__ import annotations

import math
from dataclasses import dataclass, field, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from .pose import Array, turned
from .relaxed import Patch


@dataclass(slots=True)
class Box:
    """Tops between two turns and two shapes, centred in any of the cells.

    Attributes
    ----------
    turn, half_turn : float
        The middle of the turns and half their span, radians.
    low, high : float
        The shapes.
    centres : (m, 2) array
        Middles of the square cells, mm.
    half : float
        Half the side of a cell, mm.
    clear : (m,) array of bool
        Whether a cell is known to lie wholly inside the wood.
    near : (k,) array of int
        The edges that can still be nearest to a cell.
    fine : float
        How small the cells are made, as a multiple of what the gap asks.
    radius, most : float
        The largest radius seen in a cell's middle, and a bound of all, mm; once bounded.
    spot : (2,) array
        The middle of that cell.
    hint : tuple or None
        Centre, turn and shape of a top that may be good.
    """

    turn: float
    half_turn: float
    low: float
    high: float
    centres: Array
    half: float
    clear: NDArray[np.bool_]
    near: NDArray[np.intp]
    fine: float = 0.5
    radius: float = 0.0
    most: float = 0.0
    spot: Array = field(default_factory=lambda: np.zeros(2))
    hint: tuple[Array, float, float] | None = None

    def part(self, **changes: Any) -> Box:
        """Return a smaller box, not yet bounded."""
        return replace(self, hint=None, **changes)


def patch_of(box: Box) -> Patch:
    """Return the rectangle, along the turn of the box, round its cells."""
    seen = turned(box.centres, box.turn)
    low, high = seen.min(axis=0), seen.max(axis=0)
    corner = box.half * (abs(math.cos(box.turn)) + abs(math.sin(box.turn)))
    middle = turned((low + high)[None] / 2, -box.turn)[0]
    along, across = (high - low) / 2 + corner
    return Patch(middle, float(along), float(across))
