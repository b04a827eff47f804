"""The stage of one step: a panel drawn small, and tools to put measures and words beside it.

A composer adds lines first and words after them, so that the words find what is left free. Lengths
and places are given on the panel; the frame turns them to paper.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from ...geometry import Bounds, Path, Placement, Point, Points, Region
from ...geometry.simplify import fewer
from .. import layers
from ..scene import Area, Group, Item, Layer, Mark, Scene, Stroke, Text, line, text_box, text_width
from .labels import LabelSetter, text_along

_FINE = 0.02  # so few points draw a shaded area that no edge of it lies farther off, mm on paper
TITLES, SAMPLE = 2.5, 14.0  # height of words, and length of a sample, of a legend, paper mm
ROW = 5.4  # height of a row of a legend, paper mm


@dataclass(frozen=True, slots=True)
class DrawingFrame:
    """How a panel lies on a sheet."""

    sheet: Bounds
    scale: float
    corner: Point
    """The paper, mm; how many mm of the panel are one on it; where the panel's origin lies."""
    mirrored: bool = False
    """Whether it is seen from its underside: left and right are swapped, lettering is not."""
    turn: float = 0.0
    """How far it is turned on the paper, before it is mirrored, radians."""

    def way(self, direction: Point) -> Point:
        """Return where a direction on the panel points on paper, as a unit vector."""
        return self._seen(direction).unit()

    def at(self, point: Point) -> Point:
        """Return where a point of the panel lies on paper."""
        return self._seen(point) * (1 / self.scale) + self.corner

    def of(self, path: Path) -> Path:
        """Return how a path on the panel lies on paper."""
        turned = path.placed(Placement(turn=self.turn)) if self.turn else path
        seen = turned.mirrored() if self.mirrored else turned
        return seen.scaled(1 / self.scale).placed(Placement(self.corner))

    def _seen(self, point: Point) -> Point:
        turned = point.turned(self.turn) if self.turn else point
        return Point(-turned.x, turned.y) if self.mirrored else turned


def areas_of(region: Region, frame: DrawingFrame, *, edged: bool = True) -> tuple[Area, ...]:
    """Return the pieces of a region on the panel as areas on paper; none of crumbs of one place."""

    def drawn(rings: Iterable[Points]) -> tuple[Path, ...]:
        seen = (fewer(ring, _FINE * frame.scale) for ring in rings)
        return tuple(frame.of(Path.through_ring(ring)) for ring in seen if len(ring) > 2)

    pieces = ((drawn([piece.exterior]), piece.holes) for piece in region.pieces)
    return tuple(Area(edge[0], drawn(holes), edged=edged) for edge, holes in pieces if edge)


# Width of the drawing of one step, paper mm: it stands beside the words; and height that what is
# drawn has in it at most
STEP_WIDTH, STEP_TALLEST = 62.0, 34.0
AROUND_STEP = 11.0  # kept round that, paper mm: a row of measures
LETTERS = 2.8  # height of words and figures, paper mm
_ROWS = (4.5, 8.5, 12.5, 2.5)  # how far outside a thing its measures stand, paper mm, in turn
_HEAD = 2.2  # length of an arrow's head, paper mm
_WHITE = 1.0  # kept under the lowest thing of a drawing, paper mm
# Where along a line its figure may stand, tried in this order
_SHARES = (0.5, 0.4, 0.6, 0.32, 0.68, 0.25, 0.75, 0.18, 0.82)


@dataclass(slots=True)
class Stage:
    """What one drawing holds so far."""

    frame: DrawingFrame
    setter: LabelSetter
    heading: str = ""
    letters: float = LETTERS
    """What stands over it, and the height of its words, paper mm."""
    groups: list[Group] = field(default_factory=list)

    @classmethod
    def around(
        cls,
        extent: Bounds,
        *,
        mirrored: bool = False,
        heading: str = "",
        width: float = STEP_WIDTH,
        tallest: float = STEP_TALLEST,
    ) -> Stage:
        """Return an empty stage for what has this extent, mm on the panel.

        The picture is `width` wide and what is drawn in it at most `tallest` high, paper mm.
        """
        if mirrored:
            extent = Bounds(-extent.right, extent.bottom, -extent.left, extent.top)
        scale = max(extent.width / (width - 2 * AROUND_STEP), extent.height / tallest)
        sheet = Bounds(0.0, 0.0, width, extent.height / scale + 2 * AROUND_STEP)
        frame = DrawingFrame(sheet, scale, sheet.middle - extent.middle * (1 / scale), mirrored)
        return cls(frame, LabelSetter(sheet.grown(-0.5)), heading)

    def scene(self, title: str) -> Scene:
        """Return the drawing under its heading, cut to the height of what is on it."""
        groups = list(self.groups)
        boxes = [_box(item) for group in groups for item in group.items]
        low, high = min(box.bottom for box in boxes), max(box.top for box in boxes)
        sheet, top = self.frame.sheet, high + _WHITE
        if self.heading:
            at = Point(sheet.left + _WHITE, top)
            groups.insert(0, Group(layers.LETTERING, (Text(at, self.heading, LETTERS),)))
            top += LETTERS + _WHITE
        return Scene(title, Bounds(sheet.left, low - _WHITE, sheet.right, top), tuple(groups))

    def add(self, layer: Layer, *items: Item) -> None:
        """Put items, in paper mm, on top of what is there."""
        if self.groups and self.groups[-1].layer is layer:
            items = (*self.groups.pop().items, *items)
        if items:
            self.groups.append(Group(layer, items))

    def path(self, layer: Layer, *paths: Path, clear: bool = False) -> None:
        """Draw paths of the panel; with `clear` no later words cover them."""
        drawn = [self.frame.of(path) for path in paths]
        self.add(layer, *(Stroke(path) for path in drawn))
        for path in drawn if clear else ():
            self.setter.keep_clear_along(path)

    def line(self, layer: Layer, start: Point, end: Point, *, past: float = 0.0) -> None:
        """Draw a straight line of the panel, `past` paper mm beyond both ends."""
        one, other = self.frame.at(start), self.frame.at(end)
        beyond = (other - one).unit() * past
        drawn = line(one - beyond, other + beyond)
        self.add(layer, drawn)
        self.setter.keep_clear_along(drawn.path)

    def region(
        self, layer: Layer, *regions: Region, edged: bool = False, clear: bool = False
    ) -> None:
        """Fill regions of the panel; with `clear` no later words cover their edges."""
        areas = [a for region in regions for a in areas_of(region, self.frame, edged=edged)]
        self.add(layer, *areas)
        for edge in (edge for area in areas for edge in (area.boundary, *area.holes) if clear):
            self.setter.keep_clear_along(edge, half=0.3)

    def area(self, layer: Layer, *paths: Path, holes: Iterable[Path] = ()) -> None:
        """Fill closed paths of the panel, which have holes, and draw their edges."""
        drawn, hollow = ([self.frame.of(path) for path in held] for held in (paths, holes))
        self.add(layer, *(Area(path, tuple(hollow)) for path in drawn))
        for path in drawn:
            self.setter.keep_clear_along(path)

    def cross(self, layer: Layer, *points: Point, arm: float = 1.6) -> None:
        """Draw marks at points of the panel."""
        for point in points:
            at = self.frame.at(point)
            self.add(layer, Mark(at, arm))
            self.setter.keep_clear(Bounds.about(at, arm))

    def arrow(self, layer: Layer, points: Iterable[Point]) -> None:
        """Draw an arrow through points on paper, its head at the last."""
        held = list(points)
        tip, back = held[-1], (held[-2] - held[-1]).unit() * _HEAD
        shaft = line(*held)
        self.add(layer, shaft, line(tip + back.turned(0.4), tip, tip + back.turned(-0.4)))
        self.setter.keep_clear_along(shaft.path)

    def label(
        self,
        layer: Layer,
        point: Point,
        words: str,
        *,
        towards: Point | None = None,
        height: float | None = None,
        bold: bool = False,
    ) -> None:
        """Set words beside a point of the panel, `towards` a direction of the panel if possible."""
        way = None if towards is None or towards.norm == 0 else self.frame.way(towards)
        label = Text(self.frame.at(point), words, height or self.letters, bold=bold)
        self.add(layer, *self.setter.set(label, towards=way))

    def figure_along(self, layer: Layer, start: Point, end: Point, words: str) -> None:
        """Write a figure along a line of the panel where there is room, else beside it."""
        one, other = self.frame.at(start), self.frame.at(end)
        places = ((share, off) for share in _SHARES for off in (0.9, -1.3))
        texts = (text_along(one, other, words, LETTERS, *place) for place in places)
        if not self._first_free(layer, texts):
            self.label(layer, start.midpoint(end), words)

    def measured(self, layer: Layer, lines: Sequence[tuple[Point, Point, str]]) -> None:
        """Draw lines of the panel, and then the figure of each along it, where it has one."""
        for start, end, _ in lines:
            self.line(layer, start, end)
        for start, end, words in lines:
            if words:
                self.figure_along(layer, start, end, words)

    def dimension(self, start: Point, end: Point, words: str, outwards: Point) -> None:
        """Draw a measure between two points of the panel, moved off them a way of the panel."""
        one, other, way = self.frame.at(start), self.frame.at(end), self.frame.way(outwards)
        rows = [(one + way * row, other + way * row) for row in _ROWS]
        free = (ends for ends in rows if any(map(self._is_free, _over(*ends, words))))
        a, b = next(free, rows[0])
        ticks = [line(p - way.turned(0.6), p + way.turned(0.6)) for p in (a, b)]
        witnesses = [line(p + way * 0.8, q + way * 1.2) for p, q in ((one, a), (other, b))]
        measure = line(a, b)
        self.add(layers.DIMENSIONS, measure, *ticks, *witnesses)
        placed = self._first_free(layers.DIMENSIONS, _over(a, b, words))
        self.setter.keep_clear_along(measure.path, half=0.3)
        if not placed:  # no room along the measure: beside it, by a leader
            self.add(layers.DIMENSIONS, *self.setter.set(Text(b, words, LETTERS), towards=way))

    def _first_free(self, layer: Layer, texts: Iterable[Text]) -> bool:
        """Write the first text that has room; return whether any has."""
        text = next(filter(self._is_free, texts), None)
        if text is None:
            return False
        self.setter.keep_clear(text_box(text))
        self.add(layer, text)
        return True

    def _is_free(self, text: Text) -> bool:
        return self.setter.is_free(text_box(text).grown(0.3))


def _over(a: Point, b: Point, words: str) -> list[Text]:
    """Return the words over a measure's line, or past either end of one that is short."""
    wide, reach = text_width(words, LETTERS), a.distance_to(b)
    if reach < wide + 1:
        past = (wide / 2 + 1.2) / reach
        shares = [1 + past, -past]
    else:
        edge = (wide / 2 + 0.5) / reach
        shares = [share for share in _SHARES if edge <= share <= 1 - edge] or [0.5]
    return [text_along(a, b, words, LETTERS, share, 0.8) for share in shares]


def _box(item: Item) -> Bounds:
    """Return the upright box round an item, paper mm."""
    match item:
        case Text():
            return text_box(item)
        case Area():
            return item.boundary.bounds
        case Mark():
            return Bounds.about(item.at, max(item.arm, item.diameter / 2))
        case _:
            return item.path.bounds


def legend(used: Iterable[Layer], room: Bounds, columns: int) -> list[Group]:
    """Return the groups of a legend that fills `room` column by column from its upper left."""
    held = list(used)
    rows = -(-len(held) // columns)
    groups: list[Group] = []
    for i, layer in enumerate(held):
        column, row = divmod(i, rows)
        at = Point(room.left + column * room.width / columns, room.top - (row + 0.5) * ROW)
        end, up = at + Point(SAMPLE, 0.0), Point(0.0, 1.6)
        area = Area(Path.round_box(Bounds.around((at - up, end + up))))
        words = Text(end + Point(2.5, -TITLES / 2), layer.title, TITLES)
        groups.append(Group(layer, (line(at, end) if layer.hatching == "none" else area,)))
        groups.append(Group(layers.LETTERING, (words,)))
    return groups
