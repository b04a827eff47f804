"""A top that stands on a line, and boxes of such tops."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from .free_spans import Array

LOOKS_A_BOX = 50_000
"""Looks at an edge (`Family.looks`) that a box of tops on kept edges takes: as measured."""


@dataclass(frozen=True, slots=True)
class Standing:
    """A rectangle with round corners whose lower side lies on y = 0."""

    middle: float
    """Where its middle lies along the line, mm."""
    length: float
    width: float
    radius: float
    """mm; a capsule's radius is half its width."""


@dataclass(frozen=True, slots=True)
class Box:
    """Tops of some widths and corner radii, mm, from the least to the greatest."""

    widths: tuple[float, float]
    radii: tuple[float, float]


def holds(top: Standing, points: Array) -> bool:
    """Return whether a top holds all the points, (n, 2) mm in the frame of its line."""
    off = np.abs(points - np.array([top.middle, top.width / 2]))
    half = np.array([top.length, top.width]) / 2
    over = np.maximum(off - (half - top.radius), 0.0)
    within = np.hypot(over[:, 0], over[:, 1]) <= top.radius
    return bool(np.all(within & (off <= half).all(axis=1)))
