"""The picture of a search in DEVELOPERS.md: its boxes, its cells and how bound and top meet."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field, replace

import numpy as np
from numpy.typing import NDArray

from panelwright.layout.drawing.scene import Area, Group, Item, Layer, Scene, Stroke, Text
from panelwright.layout.drawing.svg import to_svg
from panelwright.layout.fit import Wish
from panelwright.layout.fit.branch_and_bound import search
from panelwright.layout.fit.convex.boxes import Box, Pose, cell_corners
from panelwright.layout.fit.convex.family import TwoSizes
from panelwright.layout.fit.families import entry_for
from panelwright.layout.fit.wood.edges import turned
from panelwright.layout.geometry import Bounds, Path, Placement, Point
from panelwright.layout.geometry.polygon import Region
from panelwright.layout.outlines import Capsule
from panelwright.layout.panel.sound import SoundWood

BOARD = [(0, 0), (1500, 0), (1500, 620), (1120, 620), (1120, 480), (640, 480), (640, 700), (0, 640)]
"""A stage board that a stair was let into, mm."""

HOLES = [(280, 330), (760, 150), (1010, 300), (1330, 420)]
"""Middles of its bolt holes, 36 mm wide."""

GAP = 0.001

WIDE, HIGH, LEFT, FOOT, BESIDE = 62.0, 44.0, 12.0, 14.0, 15.0
"""mm on paper: each of the three pictures, what is left of it and under it, and between them."""

SHADES = ("#e9eef1", "#c5d3da", "#93aebb", "#56798a", "#1f4254")
"""From the first boxes to the last."""

AXES = Layer("axes", "Axes", "#000000", 0.18)
WORDS = Layer("words", "Words", "#202020", 0.18)
WOOD = Layer("wood", "Sound wood", "#a9855f", 0.25)
BEST = Layer("best", "Top in hand", "#b3321c", 0.35)
BOUND = Layer("bound", "Bound", "#1f4254", 0.35)


Spans = tuple[float, float, float, float]
"""Least and greatest turn, radians, and straight, as a multiple of the radius."""


@dataclass
class Watched:
    """A family that keeps a record of what the driver asks of it."""

    family: TwoSizes
    taken: list[Spans] = field(default_factory=list)
    """Every box that was looked into, in order."""
    cells: list[NDArray[np.float64]] = field(default_factory=list)
    """Their cells, each an (m, 4, 2) array of corners, mm from the middle of the wood."""
    highest: list[float] = field(default_factory=list)
    hand: list[float] = field(default_factory=list)
    """The highest bound left and the best top found when each was taken, mm²."""
    values: dict[int, tuple[Box, float]] = field(default_factory=dict)
    best: float = 0.0
    looks: float = 0.0

    def first_boxes(self) -> Iterable[Box]:
        """Hand on."""
        return self.family.first_boxes()

    def bound(self, box: Box, enough: float) -> float:
        """Hand on, and remember the value."""
        value = self.family.bound(box, enough)
        self.values[id(box)], self.looks = (box, value), self.family.looks
        return value

    def sample(self, box: Box) -> tuple[float, Pose] | None:
        """Hand on."""
        return self.family.sample(box)

    def split(self, box: Box) -> Iterable[Box]:
        """Hand on, and keep what is looked into."""
        if not box.waits:
            turns = box.turn - box.half_turn, box.turn + box.half_turn
            self.taken.append((*turns, box.low, box.high))
            one, other = turned(cell_corners(box), -box.turn)
            self.cells.append(box.centres[:, None] + np.array([one, other, -one, -other]))
            self.highest.append(min(self.values[id(box)][1], *self.highest[-1:] or [math.inf]))
            self.hand.append(self.best)
        return self.family.split(box)

    def polish(self, score: float, top: Pose) -> tuple[float, Pose]:
        """Hand on, and remember the best."""
        found = self.family.polish(score, top)
        self.best = max(self.best, found[0])
        return found


def search_picture() -> str:
    """Return the picture as SVG, from a search made for it."""
    ways = np.linspace(0, math.tau, 24, endpoint=False)
    ring = 18 * np.column_stack([np.cos(ways), np.sin(ways)])
    wood = SoundWood.exact(Region.from_rings(np.array(BOARD, float), [ring + h for h in HOLES]))
    entry = entry_for(wood, Wish(("capsule",), gap=GAP), "capsule")
    assert entry is not None and isinstance(entry.family, TwoSizes)
    watched = Watched(entry.family)
    pose = search(watched, gap=GAP, most_steps=3000).top
    assert pose is not None
    frame = Bounds(0, 0, 3 * WIDE + 2 * BESIDE + LEFT + 6, HIGH + FOOT + 8)
    groups = (*_boxes(watched), *_wood(watched, wood, pose), *_course(watched))
    return to_svg(Scene("How a search closes in on the best capsule", frame, groups))


def _place(k: int) -> Callable[[float, float], Point]:
    """Return where a point of the k-th picture lies, both given from 0 to 1."""
    left = LEFT + k * (WIDE + BESIDE)
    return lambda x, y: Point(left + x * WIDE, FOOT + y * HIGH)


def _axes(k: int, title: str, under: str, ticks: Sequence[tuple[float, float, str]]) -> list[Group]:
    """Return frame and words of a picture; ticks with y = 0 stand below it, others left of it."""
    at = _place(k)
    words: list[Item] = [Text(at(0, 1) + Point(0, 3), title, 2.5, bold=True)]
    words += [Text(at(0.5, 0) + Point(0, -10), under, 2.2, "middle")] if under else []
    for x, y, word in ticks:
        below = Text(at(x, 0) + Point(0, -5), word, 2.2, "middle")
        words.append(below if y == 0 else Text(at(0, y) + Point(-1.5, -1), word, 2.2, "end"))
    frame = Path.through([at(0, 0), at(1, 0), at(1, 1), at(0, 1)], closed=True)
    return [Group(AXES, (Stroke(frame),)), Group(WORDS, tuple(words))]


def _boxes(watched: Watched) -> list[Group]:
    """Return every box that was looked into, the later the darker."""
    at = _place(0)
    spans = np.array(watched.taken)
    first, last = spans[:, 0].min(), spans[:, 1].max()
    high = spans[:, 3].max()
    groups = []
    for shade, part in zip(SHADES, np.array_split(spans, len(SHADES)), strict=True):
        areas = []
        for turn, to, low, top in part:
            left, right = (turn - first) / (last - first), (to - first) / (last - first)
            ring = [(left, low), (right, low), (right, top), (left, top)]
            areas.append(Area(Path.through([at(x, y / high) for x, y in ring], closed=True)))
        layer = Layer(f"boxes-{shade[1:]}", "Boxes", shade, 0.18, hatching="solid")
        groups.append(Group(layer, tuple(replace(area, edged=False) for area in areas)))
        edges = replace(layer, key=f"edges-{shade[1:]}", colour="#ffffff", hatching="none")
        groups.append(Group(edges, tuple(areas)))
    degrees = [(x - math.degrees(first)) / math.degrees(last - first) for x in (0, 45, 90, 135)]
    ticks = [(x, 0.0, f"{45 * k}°") for k, x in enumerate(degrees)]
    title = f"{len(spans)} boxes, the later the darker"
    return groups + _axes(0, title, "turn across, straight upwards", ticks)


def _wood(watched: Watched, wood: SoundWood, pose: Pose) -> list[Group]:
    """Return the wood with the cells of some boxes and the best top."""
    at = _place(1)
    scale = max(x for x, _ in BOARD)
    lift = (1 - max(y for _, y in BOARD) / scale * WIDE / HIGH) / 2
    middle = watched.family.wood.middle

    def there(point: Point) -> Point:
        return at(point.x / scale, lift + point.y / scale * WIDE / HIGH)

    groups = []
    count = len(watched.cells)
    shown = [0, count // 2, count - 1]
    for shade, k in zip(SHADES[1:4], shown, strict=True):
        rings = [[there(Point.of(row) + middle) for row in cell] for cell in watched.cells[k]]
        layer = Layer(f"cells-{shade[1:]}", "Cells of places", shade, 0.18, hatching="solid")
        areas = tuple(Area(Path.through(ring, closed=True), edged=False) for ring in rings)
        groups.append(Group(layer, areas))
    outline = Capsule(2 * pose.half_length, 2 * pose.half_width)
    place = Placement(Point(pose.x, pose.y) + middle, pose.turn)
    stations = [there(place(point)) for point in map(Point.of, outline.path().points(0.5))]
    lines = tuple(
        Stroke(Path.through([there(Point.of(p)) for p in r], closed=True))
        for r in (wood.outer.exterior, *wood.outer.holes)
    )
    groups += [Group(WOOD, lines), Group(BEST, (Stroke(Path.through(stations, closed=True)),))]
    steps = ", ".join(f"{k + 1}" for k in shown)
    title = f"cells of centres left in boxes {steps}"
    return groups + [group for group in _axes(1, title, "", []) if group.layer is WORDS]


def _course(watched: Watched) -> list[Group]:
    """Return how the highest bound falls and the best top rises, box by box."""
    at = _place(2)
    most = watched.highest[0]
    groups = []
    for layer, values in ((BOUND, watched.highest), (BEST, watched.hand)):
        count = len(values) - 1
        points = [at(k / count, value / most) for k, value in enumerate(values)]
        groups.append(Group(layer, (Stroke(Path.through(points)),)))
    best = watched.best / most
    ticks = [(0.0, 0.0, "1"), (1.0, 0.0, f"{len(watched.hand)}")]
    ticks += [(0.0, y, f"{y * most / 1e6:.2f}") for y in (best, 1.0)]
    return groups + _axes(2, "m²: bound above, top in hand", "boxes", ticks)
