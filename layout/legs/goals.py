"""What makes legs the best, and what each goal counts."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from ..errors import LegsError
from ..geometry.point import Point
from ..geometry.tolerance import CHORD
from ..outlines import Outline
from .people import knee_room
from .sag import bearing_points
from .table import TableTop
from .wish import Goal, LegsWish

MOST_FORCE = 1e6
"""Nothing presses harder than this, N: firmer stances are alike."""


def values_of(
    goal: Goal, wish: LegsWish, table: TableTop, arrangements: Sequence[tuple[Point, ...]]
) -> list[float]:
    """Return what the goal counts of each arrangement; higher is better."""
    outline, foot = table.top.outline, wish.foot
    if goal is Goal.MOST_STABLE:
        force = table.stability(wish).force
        return [min(force(middles), MOST_FORCE) for middles in arrangements]
    if goal is Goal.EVEN_OVERHANG:
        return [-_unevenness(wish, outline, middles) for middles in arrangements]
    if goal is Goal.KNEE_ROOM:
        return [knee_room(outline, foot, middles) for middles in arrangements]
    if table.plate is None:
        raise LegsError("sag cannot count: the stiffness of this top is not known")
    points = [[p for m in middles for p in bearing_points(foot, m)] for middles in arrangements]
    rested = table.plate.on_each(points)
    return [-float(np.abs(plate.under_load(1e-6)).max()) for plate in rested]


def _unevenness(wish: LegsWish, outline: Outline, middles: Sequence[Point]) -> float:
    """Return how far the overhangs round the rim of the feet differ, mm."""
    over = [
        outline.support(middle.angle) - middle.norm - wish.foot.reach(middle.angle)
        for middle in middles
        if middle.norm > CHORD
    ]
    x, y = max(abs(m.x) for m in middles), max(abs(m.y) for m in middles)
    over += [outline.length / 2 - x - wish.foot.reach(0.0)]
    over += [outline.width / 2 - y - wish.foot.reach(math.pi / 2)]
    return max(over) - min(over)
