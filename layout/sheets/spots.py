"""Finding free room on a template sheet: many lines, few words, and quick."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from typing import TypeVar

import numpy as np

from ..drawing.lettering import text_box
from ..drawing.scene import Anchor, Stroke, Text
from ..geometry.alike import at_most, first_of_best
from ..geometry.bounds import Bounds
from ..geometry.path import Path
from ..geometry.placement import Points
from ..geometry.point import Point
from ..geometry.tolerance import ROUNDING

Held = TypeVar("Held")

_OVER_A_BOX = 1000.0
"""Covering other words is worse than covering any line."""


@dataclass(slots=True)
class Spots:
    """What stands on a sheet, and where something more may stand."""

    room: Bounds
    """Everything stays within it, sheet mm."""
    points: Points
    """(n, 2) array: points along the drawn lines, which words had better not cover."""
    taken: list[Bounds] = field(default_factory=list)
    """Boxes that are in use."""

    def cost(self, box: Bounds) -> float:
        """Return how much a box would cover: 0 for free, infinite outside the room."""
        if not self.room.holds_box(box):
            return float("inf")
        covered = sum(_share(box, other) for other in self.taken)
        return self.drawn_in(box) + _OVER_A_BOX * covered

    def is_clear(self, way: Path) -> bool:
        """Return whether a path crosses no box that is in use."""
        places = points_along((way,), step=0.5)
        return not any(box.holds_points(places).any() for box in self.taken)

    def drawn_in(self, box: Bounds) -> int:
        """Return how many points of drawn lines lie in a box."""
        inner = box.grown(-2 * ROUNDING)  # what runs along its side is not in it
        return int(np.count_nonzero(inner.holds_points(self.points)))

    def best(self, offers: Iterable[tuple[Held, Bounds]]) -> Held | None:
        """Return the first offer whose box is free, or else the one that covers least, and take it.

        None where no offer lies in the room.
        """
        tried: list[tuple[float, Held, Bounds]] = []
        for held, box in offers:
            cost = self.cost(box)
            if cost != float("inf"):
                tried.append((cost, held, box))
            if at_most(cost, 0.0):
                break
        if not tried:
            return None
        _, chosen, box = first_of_best(tried, lambda offer: -offer[0], tolerance=ROUNDING)
        self.taken.append(box)
        return chosen


_WAYS: tuple[tuple[float, Anchor], ...] = (
    (45, "start"), (135, "end"), (-45, "start"), (-135, "end"),
    (0, "start"), (180, "end"), (90, "middle"), (-90, "middle"),
    (20, "start"), (160, "end"), (-20, "start"), (-160, "end"),
    (80, "start"), (100, "end"), (-80, "start"), (-100, "end"),
)  # fmt: skip
"""Ways that words may stand from their point, degrees, and the end they are held by."""


_FARTHER = (0.0, 3.0, 7.0, 13.0, 20.0, 28.0, 38.0)
"""How much farther than asked words may stand off, mm, where nearer places are taken."""


def leader(at: Point, text: Text, arm: float) -> tuple[Stroke, ...]:
    """Return a line from beside a point to the words that name it, where they stand far off."""
    box = text_box(text)
    near = Point(min(max(at.x, box.left), box.right), min(max(at.y, box.bottom), box.top))
    if near.distance_to(at) < _LEADER_FROM:
        return ()
    start = at + (near - at).unit() * arm
    return (Stroke(Path.through((start, near))),)


_LEADER_FROM = 9.0
"""Words farther off than this, mm, are joined to their point by a line."""


def labels_round(at: Point, words: str, height: float, off: float) -> Iterator[tuple[Text, Bounds]]:
    """Yield offers of words round a point, from `off` mm away outwards, each with its box."""
    for reach in (off + farther for farther in _FARTHER):
        for degrees, anchor in _WAYS:
            way = Point.polar(reach, math.radians(degrees))
            drop = height if degrees < 0 else height / 2 if degrees in (0, 180) else 0.0
            text = Text(at + way + Point(0.0, -drop), words, height, anchor)
            yield text, text_box(text).grown(0.5)


def points_along(paths: Iterable[Path], step: float = 1.5) -> Points:
    """Return points along paths, no two neighbours more than `step` mm apart, (n, 2)."""
    held: list[Points] = []
    for path in paths:
        corners = path.points(step / 4)
        if path.is_closed:
            corners = np.vstack([corners, corners[:1]])
        gaps = np.hypot(*np.diff(corners, axis=0).T)
        along = np.concatenate([[0.0], np.cumsum(gaps)])
        count = max(2, math.ceil(along[-1] / step) + 1)
        even = np.linspace(0.0, along[-1], count)
        held.append(np.column_stack([np.interp(even, along, corners[:, k]) for k in (0, 1)]))
    return np.concatenate(held) if held else np.empty((0, 2))


def _share(box: Bounds, other: Bounds) -> float:
    """Return what share of a box another one covers."""
    wide, high = box.shared(other)
    return wide * high / (box.width * box.height) if wide > ROUNDING and high > ROUNDING else 0.0
