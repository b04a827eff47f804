"""Labels that keep out of each other's way.

Each tries places round its point, near ones first, and takes the first that is free of everything
already set down; from farther off a thin leader joins it to its point.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field, replace
from typing import TypeVar

import numpy as np

from ...geometry import Bounds, Path, Point, Points, at_most, ranked
from ...geometry.tolerance import ROUNDING
from ..scene import Anchor, Item, Stroke, Text, text_box

Held = TypeVar("Held")

_DIRECTIONS: tuple[tuple[float, Anchor], ...] = (
    (45, "start"), (135, "end"), (-45, "start"), (-135, "end"),
    (0, "start"), (180, "end"), (90, "middle"), (-90, "middle"),
    (20, "start"), (160, "end"), (-20, "start"), (-160, "end"),
    (70, "start"), (110, "end"), (-70, "start"), (-110, "end"),
)  # fmt: skip
"""Ways a label may stand from its point, in degrees, and the end that it is then held by."""

# How much farther it may stand off, paper mm, tried in this order
_FARTHER = (0.0, 1.0, 2.5, 5.0, 8.0, 12.0, 17.0, 23.0, 30.0, 39.0)
# Where along a line its words may stand, as shares, from its middle outwards
ALONG = (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8)
_LED = 2.0  # farther than this off the nearest place a leader is drawn, paper mm
_APART = 0.2  # kept free round the letters of a label, paper mm
# Words and rings are worse covered than a line that is drawn; leaving the room is worse still
_WORSE = 1000.0


@dataclass(slots=True)
class LabelSetter:
    """Remembers what stands on a sheet and finds room for the next label."""

    room: Bounds
    """Labels stay within it, paper mm."""
    taken: Points = field(default_factory=lambda: np.empty((0, 4)))
    """Boxes that no label may cover, (n, 4): left, bottom, right, top."""
    _drawn: Points = field(default_factory=lambda: np.empty((0, 4)), repr=False)
    """Small boxes along drawn lines, in the same form."""

    def keep_clear(self, *boxes: Bounds) -> None:
        """Let no later label cover the boxes."""
        self.taken = np.vstack([self.taken, *map(_sides_of, boxes)])

    def keep_clear_along(self, path: Path, half: float = 0.6, step: float = 2.0) -> None:
        """Let no later label cover the line along a path, as far as that can be had."""
        self.keep_clear_at(points_along((path,), step), half)

    def keep_clear_at(self, points: Points, half: float) -> None:
        """Let no later label come near to points, (n, 2), as far as that can be had."""
        self._drawn = np.vstack([self._drawn, np.hstack([points - half, points + half])])

    def drawn_in(self, box: Bounds) -> int:
        """Return how many points of drawn lines lie in a box."""
        inner = box.grown(-2 * ROUNDING)  # what runs along its side is not in it
        points = (self._drawn[:, :2] + self._drawn[:, 2:]) / 2
        return int(np.count_nonzero(inner.holds_points(points)))

    def cost(self, box: Bounds) -> float:
        """Return how much a box covers of words, of lines and beyond the room; 0 for free."""
        covered = _WORSE * _shared(box, self.taken) + _shared(box, self._drawn)
        return covered + _WORSE**2 * self._beyond(box)

    def _beyond(self, box: Bounds) -> float:
        """Return the area by which a box leaves the room."""
        if self.room.holds_box(box):
            return 0.0
        return box.width * box.height - _shared(box, np.array([_sides_of(self.room)]))

    def is_free(self, box: Bounds) -> bool:
        """Return whether nothing stands in a box, which lies in the room."""
        return at_most(self.cost(box), 0.0)

    def best(
        self,
        offers: Iterable[tuple[Held, Bounds]],
        *,
        within: bool = True,
        kept: bool = True,
        leader: Callable[[Held], Path | None] = lambda held: None,
    ) -> Held | None:
        """Return the first offer whose box is free, or else the one that covers least.

        Of alike ones that goes first whose leader crosses no words. Later labels keep off its
        leader, and its box if `kept`. None where all leave the room that they lie `within`.
        """
        tried: list[tuple[float, Held, Bounds]] = []
        for held, box in offers:
            if within and self._beyond(box):
                continue
            tried.append((self.cost(box), held, box))
            if at_most(tried[-1][0], 0.0) and not self._crosses(leader(held)):
                break
        if not tried:
            return None
        least = min(cost for cost, _, _ in tried)
        alike = [offer for offer in tried if at_most(offer[0], least)]
        clear = (offer for offer in alike if not self._crosses(leader(offer[1])))
        _, held, box = next(clear, alike[0])
        if kept:
            self.keep_clear(box)
        way = leader(held)
        if way is not None:
            self.keep_clear_along(way, half=0.2, step=0.5)
        return held

    def placed(self, texts: Iterable[Text], apart: float = 0.0) -> list[Text]:
        """Return the text that finds the best room, `apart` from others, mm, or none in no room."""
        text = self.best((text, text_box(text).grown(apart)) for text in texts)
        return [] if text is None else [text]

    def set(
        self,
        *labels: Text,
        towards: Point | None = None,
        off: float = 3.0,
        ring: float = 0.0,
        on: bool = False,
        within: bool = False,
    ) -> list[Item]:
        """Return a label beside its point, with its leader where it stands far off.

        Each label is for where there is no room for the one before; best `towards` some way from
        its point, `off` a `ring` of that radius, paper mm, or where it can be `on` the point, and
        else always led to it; none where all leave the room `within`.
        """
        best = towards or Point(0.0, 0.0)
        ways = ranked(  # nearest to the way that is wished for
            _DIRECTIONS,
            lambda way: Point.polar(1.0, math.radians(way[0])).dot(best),
            tolerance=ROUNDING * best.norm,
        )
        near = ring + off
        places = [(near + farther, *way) for farther in _FARTHER for way in ways]
        if on:
            places.insert(0, (0.0, 0.0, "middle"))
        led = 0.0 if on else near + _LED
        offers = (
            ((text, _leader(label.at, box, ring) if reach > led else None), box.grown(_APART))
            for label in labels
            for reach, degrees, anchor in places
            for text in [_beside(label, reach, degrees, anchor)]
            for box in [text_box(text)]
        )
        chosen = self.best(offers, within=within, leader=lambda held: held[1])
        if chosen is None:
            return []
        text, leader = chosen
        return [text] if leader is None else [Stroke(leader), text]

    def boxed(self, at: Point, half: float) -> tuple[Point, Path | None]:
        """Return the middle of a box for a letter, on its point, or beside it and its leader."""
        offers = (
            ((middle, _leader(at, box, 0.0) if reach > half + 2.0 else None), box.grown(_APART))
            for reach in (0.0, *(half + 3.0 + farther for farther in _FARTHER))
            for degrees, _ in (_DIRECTIONS if reach else _DIRECTIONS[:1])
            for middle in [at + Point.polar(reach, math.radians(degrees))]
            for box in [Bounds.about(middle, half)]
        )
        chosen = self.best(offers, within=False, leader=lambda held: held[1])
        assert chosen is not None
        return chosen

    def _crosses(self, way: Path | None) -> bool:
        """Return whether a path crosses a box that is taken, but the one it begins in."""
        if way is None:
            return False
        x, y = points_along((way,), step=0.5).T[:, :, None]
        left, bottom, right, top = self.taken.T
        met = (left < x) & (x < right) & (bottom < y) & (y < top)
        return bool((met.any(axis=0) & ~met[0]).any())


def points_along(paths: Iterable[Path], step: float) -> Points:
    """Return points along paths, no two neighbours more than `step` mm apart, (n, 2)."""
    held = [np.empty((0, 2))]
    for path in paths:
        corners = path.points(step / 4)
        if path.is_closed:
            corners = np.vstack([corners, corners[:1]])
        gaps = np.hypot(*np.diff(corners, axis=0).T)
        along = np.concatenate([[0.0], np.cumsum(gaps)])
        count = max(2, math.ceil(along[-1] / step - ROUNDING) + 1)
        even = np.linspace(0.0, along[-1], count)
        held.append(np.column_stack([np.interp(even, along, corners[:, k]) for k in (0, 1)]))
    return np.concatenate(held)


def text_along(start: Point, end: Point, words: str, size: float, share: float, off: float) -> Text:
    """Return words `off` mm above (or below) a place on a line, read from below or the right."""
    turn = math.remainder((end - start).angle, math.pi)
    if turn < ROUNDING - math.pi / 2:
        turn = math.pi / 2
    at = start + (end - start) * share + Point.polar(off if off > 0 else off - size, turn).left
    return Text(at, words, size, "middle", turn)


def _leader(at: Point, box: Bounds, ring: float) -> Path:
    """Return the line from the ring round a point to the box that names it."""
    near = Point(min(max(at.x, box.left), box.right), min(max(at.y, box.bottom), box.top))
    return Path.through((at + (near - at).unit() * ring, near))


def _beside(label: Text, reach: float, degrees: float, anchor: Anchor) -> Text:
    """Return a label moved so that it stands `reach` from its point."""
    below = label.height if degrees < 0 else label.height / 2 if degrees in (0, 180) else 0.0
    foot = label.at + Point.polar(reach, math.radians(degrees)) + Point(0.0, -below)
    return replace(label, at=foot, anchor=anchor)


def _sides_of(box: Bounds) -> tuple[float, float, float, float]:
    return box.left, box.bottom, box.right, box.top


def _shared(box: Bounds, sides: Points) -> float:
    """Return the area that a box shares with others, (n, 4): left, bottom, right, top."""
    wide = np.minimum(box.right, sides[:, 2]) - np.maximum(box.left, sides[:, 0]) - ROUNDING
    high = np.minimum(box.top, sides[:, 3]) - np.maximum(box.bottom, sides[:, 1]) - ROUNDING
    return float((np.maximum(wide, 0.0) * np.maximum(high, 0.0)).sum())
