"""A top in a search: where its centre lies, how it is turned, and half of each size."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from ..wood.edges import Array


class Pose(NamedTuple):
    """A core within a search; mm and radians, in the frame of the search."""

    x: float
    y: float
    turn: float
    half_length: float
    half_width: float


class Contacts(NamedTuple):
    """How far a top stands from what it must not cross, and how that changes as it moves."""

    clear: Array
    """(m,) array: distance left, mm; negative where it crosses."""
    slopes: Array
    """(m, 5) array: change of `clear` with each number of the pose."""
    edges: NDArray[np.intp]
    """(m,) array of int: which edge each belongs to."""
