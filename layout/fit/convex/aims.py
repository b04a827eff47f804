"""What a wish asks, said in the shape unknowns of a small linear program.

A size or an area is no linear figure of them, but over a small box each lies close under, or over,
one. A bound may only ever ask too little: a least size is held against a figure above it, a
greatest one against a figure below it.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from ..goal import Row, nearness, wanted
from ..wish import Goal, Wish
from ..wood.edges import Array
from .relaxation import Aim, HalfPlanes, Rows

Linear = Array
"""A linear figure of the shape unknowns, mm: its slopes, and last its value where all are 0."""


@dataclass(frozen=True, slots=True)
class Figures:
    """Figures that hold the half sizes of the core between them, and one above its area."""

    long_over: Linear
    long_under: Linear
    wide_over: Linear
    wide_under: Linear
    """Half the length and half the width lie below the first of each pair and above the second."""
    root_area: Linear
    """The area of the finished top is at most `unit_area` times the square of this."""
    unit_area: float


def within_limits(planes: HalfPlanes, figures: Figures, limits: list[Row]) -> HalfPlanes:
    """Return the half-planes with those that limits on the half sizes of the core add."""
    rows = np.array(
        [
            a * (figures.long_under if a > 0 else figures.long_over)
            + b * (figures.wide_under if b > 0 else figures.wide_over)
            for a, b, _ in limits
        ]
    )
    scale = np.abs(rows[:, :-1]).max(axis=1, keepdims=True)
    most = np.array([c for _, _, c in limits]) - rows[:, -1]
    rows = np.hstack([np.zeros((len(rows), 2)), rows[:, :-1]])
    asks = scale[:, 0] > 0  # what is as long as wide is so at every size: that row asks nothing
    return planes.and_also(Rows(rows[asks] / scale[asks], most[asks] / scale[asks, 0]))


def aim_of(
    figures: Figures, wish: Wish, rim: tuple[float, float], likely: tuple[float, float]
) -> Aim:
    """Return what is to be maximised for the goal of a wish.

    `rim` is added to half the length and width of a core, mm; those of the box's best are about
    `likely`, mm: the nearer, the sharper.
    """
    match wish.goal:
        case Goal.AREA:
            figure, unit = figures.root_area, figures.unit_area
            return Aim(
                figure,
                lambda value: unit * max(value, 0.0) ** 2,
                lambda score: math.sqrt(score / unit),
            )
        case Goal.LENGTH:
            return Aim(2 * raised(figures.long_over, rim[0]), float, float)
        case Goal.WIDTH:
            return Aim(2 * raised(figures.wide_over, rim[1]), float, float)
        case Goal.NEAREST:
            return _nearest(figures, wish, rim, likely)


def raised(figure: Linear, by: float) -> Linear:
    """Return a figure with `by` added."""
    return np.append(figure[:-1], figure[-1] + by)


def _nearest(
    figures: Figures, wish: Wish, rim: tuple[float, float], likely: tuple[float, float]
) -> Aim:
    """Return minus the miss, as far as it lies on the way from the wanted size to the likely."""
    size, (length, width) = math.hypot(*wanted(wish)), wanted(wish)
    dx, dy = 2 * (likely[0] + rim[0]) - length, 2 * (likely[1] + rim[1]) - width
    miss = math.hypot(dx, dy)
    across, up = (dx / miss, dy / miss) if miss > 0 else (-1.0, 0.0)
    long = figures.long_under if across > 0 else figures.long_over
    wide = figures.wide_under if up > 0 else figures.wide_over
    figure = 2 * across * raised(long, rim[0] - length / 2)
    figure += 2 * up * raised(wide, rim[1] - width / 2)
    return Aim(
        -figure,
        lambda value: nearness(wish, max(0.0, -value)),
        lambda score: size - size / score,
    )
