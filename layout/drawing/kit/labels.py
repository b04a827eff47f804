"""Labels that keep out of each other's way.

A drawing is crowded where it matters most. Each label tries places round its point, near ones
first, and takes the first that is free of everything already set down; from farther off a thin
leader joins it to its point. Nothing random: the same drawing comes out the same.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field

import numpy as np

from ...geometry.alike import at_most, first_of_best, ranked
from ...geometry.bounds import Bounds
from ...geometry.path import Path
from ...geometry.placement import Points
from ...geometry.point import Point
from ...geometry.tolerance import ROUNDING
from ..lettering import text_box
from ..scene import Anchor, Item, Stroke, Text

_DIRECTIONS: tuple[tuple[float, Anchor], ...] = (
    (45, "start"), (135, "end"), (-45, "start"), (-135, "end"),
    (0, "start"), (180, "end"), (90, "middle"), (-90, "middle"),
    (20, "start"), (160, "end"), (-20, "start"), (-160, "end"),
    (70, "start"), (110, "end"), (-70, "start"), (-110, "end"),
)  # fmt: skip
"""Ways a label may stand from its point, in degrees, and the end that it is then held by."""

_REACHES = (3.0, 4.0, 5.5, 8.0, 11.0, 15.0, 20.0, 26.0, 33.0, 42.0)
"""How far it may stand off, paper mm, tried in this order."""

_OUT = 1e-4
"""A label that sticks out of its room by less than this, mm², does not."""

_LEADER_FROM = 5.0
"""Farther off than this a leader is drawn, paper mm."""


@dataclass(slots=True)
class LabelSetter:
    """Remembers what stands on a sheet and finds room for the next label."""

    room: Bounds
    """Labels stay within it, paper mm."""
    taken: list[Bounds] = field(default_factory=list)
    """Boxes that no label may cover."""
    _sides: Points | None = field(default=None, repr=False)

    def keep_clear(self, box: Bounds) -> None:
        """Let no later label cover the box."""
        self.taken.append(box)

    def keep_clear_along(self, path: Path, half: float = 0.6, step: float = 2.0) -> None:
        """Let no later label cover the line along a path, as far as that can be had."""
        for segment in path.segments:
            count = max(1, math.ceil(segment.length / step - ROUNDING))
            for i in range(count + 1):
                self.taken.append(Bounds.about(segment.at(i / count), half))

    def set(
        self,
        at: Point,
        words: str,
        height: float = 2.5,
        *,
        bold: bool = False,
        towards: Point | None = None,
    ) -> list[Item]:
        """Return the label for a point, with its leader where it stands far off.

        Parameters
        ----------
        towards : Point, optional
            The way in which it had best stand from its point.
        """
        tried: list[tuple[float, Text, float]] = []
        ways = _DIRECTIONS if towards is None else _ordered(towards)
        for reach in _REACHES:
            for degrees, anchor in ways:
                foot = _foot(at, height, reach, degrees)
                text = Text(foot, words, height, anchor, bold=bold)
                cost = self.cost(text_box(text).grown(0.4))
                if at_most(cost, 0.0):
                    return self._settle(at, text, reach)
                tried.append((cost, text, reach))
        _, text, reach = first_of_best(tried, lambda found: -found[0], tolerance=ROUNDING)
        return self._settle(at, text, reach)

    def is_free(self, box: Bounds) -> bool:
        """Return whether nothing stands in a box, which lies in the room."""
        return at_most(self.cost(box), 0.0)

    def boxed(self, at: Point, words: str, height: float, half: float) -> tuple[Point, Path | None]:
        """Return the middle of a box for a letter, on its point if that is free or else beside it.

        With the leader to it where it stands off.

        Parameters
        ----------
        half : float
            Half the side of the box, paper mm.
        """
        tried: list[tuple[float, Point]] = []
        for reach in (0.0, *(r + half for r in _REACHES)):
            for degrees, _ in _DIRECTIONS if reach else _DIRECTIONS[:1]:
                middle = at + Point.polar(reach, math.radians(degrees))
                cost = self.cost(Bounds.about(middle, half + 0.3))
                tried.append((cost, middle))
                if at_most(cost, 0.0):
                    break
            else:
                continue
            break
        _, middle = first_of_best(tried, lambda found: -found[0], tolerance=ROUNDING)
        self.taken.append(Bounds.about(middle, half))
        away = middle.distance_to(at)
        leader = Path.through((at, middle + (at - middle).unit() * half)) if away > 4.0 else None
        return middle, leader

    def cost(self, box: Bounds) -> float:
        """Return the area that a box shares with what is taken, or sticks out of the room."""
        if self._sides is None or len(self._sides) != len(self.taken):
            self._sides = np.array([(t.left, t.bottom, t.right, t.top) for t in self.taken])
        out = box.width * box.height - float(_shared(box, _sides_of(self.room))[0])
        beyond = 0.0 if at_most(out, 0.0, _OUT) else 50 * out
        return beyond + (float(_shared(box, self._sides).sum()) if self.taken else 0.0)

    def _settle(self, at: Point, text: Text, reach: float) -> list[Item]:
        box = text_box(text)
        self.taken.append(box)
        if reach < _LEADER_FROM:
            return [text]
        near = Point(min(max(at.x, box.left), box.right), min(max(at.y, box.bottom), box.top))
        return [Stroke(Path.through((at, near))), text]


def _ordered(towards: Point) -> list[tuple[float, Anchor]]:
    """Return the ways a label may stand, those nearest to a wished-for one first."""
    return ranked(
        _DIRECTIONS,
        lambda way: Point.polar(1.0, math.radians(way[0])).dot(towards),
        tolerance=ROUNDING * towards.norm,
    )


def _foot(at: Point, height: float, reach: float, degrees: float) -> Point:
    """Return where the baseline is held so that the label stands `reach` from its point."""
    way = Point.polar(reach, math.radians(degrees))
    below = height if degrees < 0 else height / 2 if degrees in (0, 180) else 0.0
    return at + way + Point(0.0, -below)


def _sides_of(box: Bounds) -> Points:
    return np.array([(box.left, box.bottom, box.right, box.top)])


def _shared(box: Bounds, sides: Points) -> Points:
    """Return the area that a box shares with each of others, (n, 4): left, bottom, right, top."""
    wide = np.minimum(box.right, sides[:, 2]) - np.maximum(box.left, sides[:, 0])
    high = np.minimum(box.top, sides[:, 3]) - np.maximum(box.bottom, sides[:, 1])
    shared: Points = np.maximum(wide - ROUNDING, 0.0) * np.maximum(high - ROUNDING, 0.0)
    return shared
