"""A box of the search for tops of two sizes: spans of turn and shape, and cells of centres."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from .pose import Array


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
    best : Pose or None
        The top in the middle of the box, once bounded.
    """

    turn: float
    half_turn: float
    low: float
    high: float
    centres: Array
    half: float
    clear: NDArray[np.bool_]
    near: NDArray[np.intp]
    radius: float = field(default=0.0)
