"""The panel as it lies while it is marked and sawn: the drawing of the first page.

Two drawn tapes carry all figures, hooked at the first point of the datum: one along it, one square
from it. Every saw line runs out over a tape to its label; labels stand in lanes, and lanes are
spread, so that none touches another.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from ...cutting import StraightCut
from ...drawing import layers
from ...drawing.kit.areas import areas_of
from ...drawing.kit.frame import DrawingFrame
from ...drawing.kit.labels import LabelSetter
from ...drawing.kit.lanes import spread
from ...drawing.lettering import text_box, text_width
from ...drawing.scene import Area, Group, Item, Layer, Mark, Scene, Stroke, Text
from ...geometry.bounds import Bounds
from ...geometry.path import Path, circle
from ...geometry.point import Point
from ...geometry.polygon import Region
from ...job.plan import Plan
from ...marking.instruments import Swing
from ...marking.mark import Kind
from ...units import MM_PER_INCH, Tape
from ...words.defect_letters import letters_of
from ...words.first_page import drawn_marks, shown_marks
from ...words.lying import Lying
from ...words.saw_lines import BESIDE, BEYOND, Round, Runs, SawLine, figures_of, signed
from ...words.say import Say

WIDTH = 190.0
"""Of the picture, paper mm: A4 between margins of 10."""

RING = 2.7
"""Radius of the ring round the number of a saw line, paper mm."""

_SAW, _MARK, _NAME, _CORNER = 3.8, 3.3, 3.0, 5.0
"""Heights of capitals: figures of saw lines and of marks, names of marks, letters of corners."""

_BODY, _OFF = 2.0, 1.2
"""How wide a drawn tape is, and how far it lies off the wood, paper mm."""

_GAP = 2.2
"""Between two labels of a lane, paper mm."""

_FREE = 9.2
"""Kept on the sides that have no tape, paper mm."""

_LANE = 11.5
"""From the foot of a tape to that of its labels, paper mm."""

_ROW = 6.2
"""From one row of labels to the next, paper mm."""

_TRIANGLE = 2.4

_NAMED_FROM = 80.0
"""A narrower picture has lines and their starts alone."""


@dataclass(slots=True)
class _Label:
    """What stands at the end of a line, in a lane."""

    wanted: float
    figure: str
    height: float
    number: int = 0
    """In a ring before it; 0 for none."""
    name: str = ""

    @property
    def width(self) -> float:
        """With its ring and its gap, paper mm."""
        wide = text_width(self.figure, self.height, bold=self.number > 0) * 1.04
        name = text_width(f"{self.name} ", _NAME, bold=True) if self.name else 0.0
        return wide + name + (2 * RING + 0.6 if self.number else 0.0) + _GAP


@dataclass(slots=True)
class LyingPicture:
    """What the drawing holds so far."""

    plan: Plan
    lying: Lying
    rounds: tuple[Round, ...]
    frame: DrawingFrame
    box: Bounds
    """Of the panel, paper mm."""
    setter: LabelSetter
    plain: bool
    """Whether it has names only: no tapes, no figures."""
    groups: list[Group] = field(default_factory=list)

    def add(self, layer: Layer, *items: Item) -> None:
        """Put items on top of what is there."""
        if items:
            self.groups.append(Group(layer, items))


def lying_scene(
    plan: Plan,
    lying: Lying,
    rounds: tuple[Round, ...],
    *,
    tallest: float,
    width: float = WIDTH,
    plain: bool = False,
) -> Scene:
    """Return the drawing.

    Parameters
    ----------
    tallest : float
        Height that it may have at most, paper mm.
    width : float
        paper mm.
    plain : bool
        Leave tapes and figures out, for a narrow screen.
    """
    picture = _begun(plan, lying, rounds, tallest, width, plain)
    _wood(picture)
    _lines(picture)
    low = _lanes(picture)
    _names(picture)
    high = picture.box.top + 10.0
    title = f"The panel as it lies: {plan.job.name}"
    return Scene(title, Bounds(0.0, low, width, high), tuple(picture.groups))


def _begun(
    plan: Plan, lying: Lying, rounds: tuple[Round, ...], tallest: float, width: float, plain: bool
) -> LyingPicture:
    """Return the empty picture, its panel as large as width and height allow."""
    seen = DrawingFrame(*_NOWHERE, lying.mirrored, lying.turn)
    extent = seen.of(plan.job.panel.boundary).bounds
    tape_side = _FREE if plain else (33.0 if plan.job.tape.imperial else 23.5)
    below = 11.0 if plain else 1.0 + len(rounds) * (_BODY + _OFF + _LANE + 0.5)
    wide, high = width - tape_side - _FREE, tallest - 10.0 - below
    scale = max(extent.width / wide, extent.height / high)
    left = tape_side if lying.hand == "left" else _FREE
    spare = wide - extent.width / scale
    corner = Point(left + spare / 2, 0.0) - Point(extent.left, extent.bottom) * (1 / scale)
    sheet = Bounds(0.0, -200.0, width, 400.0)
    frame = DrawingFrame(sheet, scale, corner, sheet, sheet, lying.mirrored, lying.turn)
    box = frame.of(plan.job.panel.boundary).bounds
    return LyingPicture(plan, lying, rounds, frame, box, LabelSetter(box), plain)


_NO_SHEET = Bounds(0.0, 0.0, 1.0, 1.0)
_NOWHERE = (_NO_SHEET, 1.0, Point(0.0, 0.0), _NO_SHEET, _NO_SHEET)


def _wood(picture: LyingPicture) -> None:
    """Draw what falls, what is wrong with it, its edges and cut-outs."""
    plan, frame = picture.plan, picture.frame
    panel = plan.job.panel
    waste = panel.region().minus(Region.of(plan.cuts.finish, "outside"))
    picture.add(layers.BENCH_FALLS, *areas_of(waste, frame, edged=False))
    for defect in panel.defects:
        picture.add(layers.BENCH_DEFECT, Area(frame.of(defect.place)))
    picture.add(layers.PAPER, *(Area(frame.of(hole), edged=False) for hole in panel.cut_outs))
    rings = [
        ring for area in areas_of(panel.region(), frame) for ring in (area.boundary, *area.holes)
    ]
    picture.add(layers.BENCH_PANEL, *(Stroke(ring) for ring in rings))


def _lines(picture: LyingPicture) -> None:
    """Draw the finished edge, the core where it shows, centrelines, saw lines and guides."""
    plan, frame = picture.plan, picture.frame
    cuts = plan.cuts
    held = picture.rounds[-1].marks or plan.marks
    for kind in (Kind.CENTRELINE, Kind.CROSS_CENTRELINE):
        ends = [frame.at(mark.point) for mark in held.of(kind)]
        if len(ends) == 2:
            picture.add(layers.BENCH_CENTRE, Stroke(Path.through(ends)))
    if plan.top.lipping / frame.scale > 0.8:
        picture.add(layers.BENCH_CORE, *(Stroke(frame.of(p)) for p in cuts.drawn(cuts.core)))
    finish = [frame.of(path) for path in cuts.drawn(cuts.finish)]
    picture.add(layers.BENCH_FINISH, *(Stroke(path) for path in finish))
    for path in finish:
        picture.setter.keep_clear_along(path, half=0.9, step=1.2)
    for each in picture.rounds:
        for line in each.lines:
            _saw_line(picture, line)
        for corner in each.corners:
            for cut in corner.cuts:
                _thin(picture, cut.start.point, cut.end.point)


def _thin(picture: LyingPicture, start: Point, end: Point) -> None:
    line = Path.through((picture.frame.at(start), picture.frame.at(end)))
    picture.add(layers.BENCH_SAW, Stroke(line))
    picture.setter.keep_clear_along(line, half=0.4, step=1.5)


def _saw_line(picture: LyingPicture, line: SawLine) -> None:
    """Draw a line, and its guide as a bar at both of its ends."""
    cut, frame = line.cut, picture.frame
    _thin(picture, cut.start.point, cut.end.point)
    if cut.guide is None:
        return
    one, other = frame.at(cut.guide.start.point), frame.at(cut.guide.end.point)
    along = (other - one).unit() * 6.0
    bars = (Path.through((one, one + along)), Path.through((other - along, other)))
    picture.add(layers.BENCH_GUIDE, *(Stroke(bar) for bar in bars))
    for bar in bars:
        picture.setter.keep_clear_along(bar, half=0.8, step=1.5)


# lanes


def _lanes(picture: LyingPicture) -> float:
    """Draw tapes, starts and labels round the panel; return how far down they reach."""
    lying, box = picture.lying, picture.box
    low = box.bottom
    stacked = 0.0
    starts: dict[str, list[tuple[SawLine, Point]]] = {}
    for each in picture.rounds:
        for line in each.lines:
            side = _side_of(picture, line.cut)
            starts.setdefault(side, []).append((line, picture.frame.at(line.cut.start.point)))
    if not picture.plain:
        for each in picture.rounds:
            foot = box.bottom - stacked
            low = min(low, _foot_lane(picture, each, foot, starts.get("lower", [])))
            if each is picture.rounds[-1]:
                _hand_lane(picture, each, starts.get(lying.hand, []))
            stacked = box.bottom - low + 0.5
    else:
        _rings(picture, "lower", starts.get("lower", []))
        _rings(picture, lying.hand, starts.get(lying.hand, []))
        low = box.bottom - 10.0
    other = "left" if lying.hand == "right" else "right"
    for side in ("upper", other):
        _rings(picture, side, starts.get(side, []))
    _letters(picture)
    return low - 1.0


def _side_of(picture: LyingPicture, cut: StraightCut) -> str:
    """Return the side of the page at which a saw starts."""
    return picture.lying.side(cut.start.point - cut.end.point)


def _triangle(picture: LyingPicture, tip: Point, way: Point) -> None:
    """Draw the triangle that points the way the saw is pushed."""
    back = tip - way * _TRIANGLE
    half = way.left * (_TRIANGLE * 0.5)
    picture.add(layers.INK, Area(Path.through((tip, back + half, back - half), closed=True)))


def _ring(picture: LyingPicture, at: Point, number: int, radius: float = RING) -> None:
    """Draw a ring with its number."""
    height = 2.5 if radius < RING else 3.0
    picture.add(layers.PAPER, Area(circle(at, radius), edged=False))
    picture.add(layers.BENCH_MARK, Stroke(circle(at, radius)))
    number_text = Text(at + Point(0.0, -height / 2), f"{number}", height, "middle", bold=True)
    picture.add(layers.LETTERING, number_text)
    picture.setter.keep_clear(Bounds.about(at, radius))


_OUT = {"upper": Point(0, 1), "lower": Point(0, -1), "left": Point(-1, 0), "right": Point(1, 0)}


def _edge(picture: LyingPicture, side: str) -> float:
    box = picture.box
    return {"upper": box.top, "lower": box.bottom, "left": box.left, "right": box.right}[side]


def _rings(picture: LyingPicture, side: str, lines: Sequence[tuple[SawLine, Point]]) -> None:
    """Draw the starts on a side without figures: a triangle at the wood, its ring behind."""
    level = side in ("upper", "lower")
    wanted = [at.x if level else at.y for _, at in lines]
    box = picture.box
    low, high = (box.left, box.right) if level else (box.bottom + RING, box.top - RING)
    places = spread(wanted, [2 * RING + 0.7] * len(lines), low - RING, high + RING)
    edge, out = _edge(picture, side), _OUT[side]
    for (line, at), place in zip(lines, places, strict=True):
        start = Point(at.x, edge) if level else Point(edge, at.y)
        off = out * (_TRIANGLE + RING + 0.5)
        ring = (Point(place, edge) if level else Point(edge, place)) + off
        tip = start + out * 0.2
        _reach(picture, at, start)
        _triangle(picture, tip, -out)
        if abs(place - (at.x if level else at.y)) > 0.3:
            picture.add(layers.THIN, Stroke(Path.through((tip + out * _TRIANGLE, ring))))
        _ring(picture, ring, line.number)


def _reach(picture: LyingPicture, at: Point, edge: Point) -> None:
    """Run a line out from the wood to the side of the page where its start is drawn."""
    if at.distance_to(edge) > 0.3:
        picture.add(layers.THIN, Stroke(Path.through((at, edge))))


def _foot_lane(
    picture: LyingPicture, each: Round, edge: float, starts: Sequence[tuple[SawLine, Point]]
) -> float:
    """Draw the tape under the panel with its labels; return how far down they reach."""
    lying = picture.lying
    axis = "square" if lying.upright else "along"
    runs = Runs.ALONG if lying.upright else Runs.ACROSS
    own = {line.number for line, _ in starts}
    lines = [line for line in each.lines if line.runs is runs]
    labels = _labels(picture, each, lines, axis)
    body = edge - _OFF - _BODY
    _tape(picture, each, "lower", edge)
    room = (2.0, picture.frame.sheet.right - 2.0)
    labels = _thinned(labels, room)
    rows = _dealt(labels, room)
    for row, members in enumerate(rows):
        y = body - _LANE + _MARK + 1.0 - row * _ROW
        places = spread([m.wanted for m in members], [m.width for m in members], *room)
        for label, place in zip(members, places, strict=True):
            top = y + _SAW + 1.0
            bend = Path.through(
                [
                    *_apart(
                        Point(label.wanted, edge),
                        Point(label.wanted, body - 2.6 - (label.number in own) * 0.4),
                        Point(place, top),
                        Point(place, top - 0.2),
                    )
                ]
            )
            picture.add(layers.THIN, Stroke(bend))
            _set(picture, label, place, y)
    for line, at in starts:
        if line in each.lines:
            _triangle(picture, Point(at.x, body + 0.1), Point(0.0, 1.0))
    for line in [line for line, _ in starts if line.runs is not runs and line in each.lines]:
        _ring(
            picture,
            Point(picture.frame.at(line.cut.start.point).x, body - _TRIANGLE - RING),
            line.number,
        )
    return body - _LANE - (max(len(rows), 1) - 1) * _ROW


def _apart(*points: Point) -> Iterator[Point]:
    """Yield points without one that lies where the last did."""
    last: Point | None = None
    for point in points:
        if last is None or point.distance_to(last) > 0.01:
            last = point
            yield point


def _hand_lane(picture: LyingPicture, each: Round, starts: Sequence[tuple[SawLine, Point]]) -> None:
    """Draw the tape at the hand of the datum's first point with its labels."""
    lying, box = picture.lying, picture.box
    axis = "along" if lying.upright else "square"
    runs = Runs.ACROSS if lying.upright else Runs.ALONG
    out = _OUT[lying.hand]
    edge = _edge(picture, lying.hand)
    body = edge + out.x * (_OFF + _BODY)
    _tape(picture, each, lying.hand, edge)
    lines = [line for line in each.lines if line.runs is runs]
    labels = _labels(picture, each, lines, axis)
    if len(labels) * _ROW > box.height + 2 * _ROW:
        labels = [label for label in labels if label.number]  # the table has the marks
    own = {line.number for line, _ in starts}
    places = spread([m.wanted for m in labels], [_ROW] * len(labels), box.bottom, box.top + 6.0)
    for label, place in zip(labels, places, strict=True):
        foot = body + out.x * (_TRIANGLE if label.number in own else 0.4)
        near = body + out.x * (_TRIANGLE + 1.0)
        line = Path.through(
            [
                *_apart(
                    Point(edge, label.wanted), Point(foot, label.wanted), Point(near + out.x, place)
                )
            ]
        )
        picture.add(layers.THIN, Stroke(line))
        wide = label.width - _GAP
        middle = near + out.x * (1.2 + wide / 2)
        _set(picture, label, middle, place - (_SAW if label.number else _MARK) / 2)
    for line, at in starts:
        _triangle(picture, Point(body, at.y), -out)
        if line.number not in {label.number for label in labels}:
            _ring(picture, Point(body + out.x * (_TRIANGLE + RING), at.y), line.number)


def _labels(
    picture: LyingPicture, each: Round, lines: Sequence[SawLine], axis: str
) -> list[_Label]:
    """Return the labels of a lane: saw lines by number and figure, marks by name and figure."""
    plan, lying, frame = picture.plan, picture.lying, picture.frame
    say = Say(plan.job.tape, each.datum, lying.mirrored)
    foot = (axis == "along") != lying.upright
    labels = []
    for line in lines:
        cells = [c for c in figures_of(line, line.ends, say) if c.figure]
        at = frame.at(line.ends[0].point)
        labels.append(_Label(at.x if foot else at.y, cells[0].figure, _SAW, line.number))
    if each.marks is None:
        return labels
    found: dict[str, _Label] = {}
    sign = BEYOND if axis == "along" else BESIDE
    for mark in shown_marks(plan, each.marks):
        figure = signed(getattr(mark, axis), plan.job.tape, sign)
        at = frame.at(mark.point)
        if figure in found:
            found[figure].name = (
                "" if found[figure].name.count(" ") else f"{found[figure].name} {mark.label}"
            )
        else:
            found[figure] = _Label(at.x if foot else at.y, figure, _MARK, name=mark.label)
    if not foot:
        for label in found.values():
            label.name = ""  # a side lane is narrow: the table names them
    return labels + list(found.values())


def _thinned(labels: list[_Label], room: tuple[float, float]) -> list[_Label]:
    """Return the labels; where they fill the lane, marks keep their name alone."""
    if sum(label.width for label in labels) > 0.85 * (room[1] - room[0]):
        for label in labels:
            if not label.number and label.name:
                label.figure, label.name = label.name, ""
    return labels


def _dealt(labels: list[_Label], room: tuple[float, float]) -> list[list[_Label]]:
    """Return the labels in as many rows as they need, dealt out in turn along the lane."""
    held = sorted(labels, key=lambda label: label.wanted)
    wide = sum(label.width for label in held)
    rows = max(1, -(-int(wide) // int(0.95 * (room[1] - room[0]))))
    return [held[i::rows] for i in range(rows)]


def _set(picture: LyingPicture, label: _Label, middle: float, y: float) -> None:
    """Write a label about its middle, its baseline at y."""
    x = middle - (label.width - _GAP) / 2
    if label.number:
        _ring(picture, Point(x + RING, y + label.height / 2), label.number)
        x += 2 * RING + 0.6
    if label.name:
        picture.add(layers.LETTERING, Text(Point(x, y), label.name, _NAME, bold=True))
        x += text_width(f"{label.name} ", _NAME, bold=True)
    words = Text(Point(x, y), label.figure, label.height, bold=label.number > 0)
    picture.add(layers.LETTERING, words)
    picture.setter.keep_clear(text_box(words))


def _tape(picture: LyingPicture, each: Round, side: str, edge: float) -> None:
    """Draw a tape with its hook at the first point of the datum, ticked by the tape's own unit."""
    box, frame, tape = picture.box, picture.frame, picture.plan.job.tape
    level = side == "lower"
    out = _OUT[side]
    hook = frame.at(each.datum.start)
    start = hook.x if level else hook.y
    ends = (box.left, box.right) if level else (box.bottom, box.top)
    end = ends[1] if abs(ends[1] - start) > abs(ends[0] - start) else ends[0]
    far = edge + (out.x + out.y) * (_OFF + _BODY)
    near = edge + (out.x + out.y) * _OFF

    def at(along: float, across: float) -> Point:
        return Point(along, across) if level else Point(across, along)

    ring = Path.through((at(start, near), at(end, near), at(end, far), at(start, far)), closed=True)
    ticks = [*_ticks(tape, frame.scale, start, end, near, far)]
    picture.add(
        layers.THIN, Stroke(ring), *(Stroke(Path.through((at(*a), at(*b)))) for a, b in ticks)
    )
    bar = Path.through((at(start, edge), at(start, far + (far - near) * 0.4)))
    picture.add(layers.BENCH_HOOK, Stroke(bar))
    if len(each.datum.first.name) > 1 or each.datum.first.name in "PQ":
        way = -1 if end > start else 1
        if level:
            anchor = "end" if way < 0 else "start"
            words = Text(
                Point(start + way * 1.2, far), each.datum.first.name, _MARK, anchor, bold=True
            )
            picture.add(layers.LETTERING, words)
            picture.setter.keep_clear(text_box(words))


def _ticks(
    tape: Tape, scale: float, start: float, end: float, near: float, far: float
) -> Iterator[tuple[tuple[float, float], tuple[float, float]]]:
    """Yield a tick each 100 mm or 4 in, a long one each fifth."""
    step = (4 * MM_PER_INCH if tape.imperial else 100.0) / scale
    way = 1.0 if end > start else -1.0
    for i in range(1, int(abs(end - start) / step) + 1):
        x = start + way * i * step
        yield (x, near), (x, far if i % 5 == 0 else near + (far - near) * 0.45)


def _letters(picture: LyingPicture) -> None:
    """Write the letters of the corners, clear of both lanes, and of a struck line's ends."""
    middle = picture.box.middle
    for name, point in sorted(picture.plan.datum.places.items()):
        at = picture.frame.at(point)
        corner = next((c for c in picture.plan.datum.corners if c.name == name), None)
        if corner is None:
            continue
        x = 1.0 if at.x > middle.x else -1.0
        up = at.y > middle.y
        outside = Point(at.x + x * 1.3, at.y + (2.0 if up else -_CORNER - 1.3))
        anchor = "start" if x > 0 else "end"
        words = Text(outside, name, _CORNER, anchor, bold=True)
        picture.add(layers.LETTERING, words)


# inside


def _names(picture: LyingPicture) -> None:
    """Write what stands inside: names of marks, letters of defects, numbers of corner cuts."""
    plan, frame, setter = picture.plan, picture.frame, picture.setter
    if picture.frame.sheet.width < _NAMED_FROM:
        return
    held = picture.rounds[-1].marks
    marks = () if held is None else drawn_marks(plan, held)
    for mark in marks:
        at = frame.at(mark.point)
        picture.add(layers.BENCH_MARK, Mark(at, arm=1.6))
        setter.keep_clear(Bounds.about(at, 1.7))
    for each in picture.rounds:
        for corner in each.corners:
            for cut in corner.cuts:
                _corner_ring(picture, cut, corner.number)
    if not picture.plain:
        _radius(picture)
    letters = letters_of(plan)
    for defect in plan.job.panel.defects:
        if defect.name in letters:
            _boxed(picture, frame.at(defect.place.bounds.middle), letters[defect.name])
    centre = frame.at(plan.top.placement.centre)
    for mark in marks if not picture.plain else marks[:1]:
        at = frame.at(mark.point)
        for item in setter.set(at, mark.label, _NAME, bold=True, towards=centre - at):
            layer = layers.LETTERING if isinstance(item, Text) else layers.THIN
            picture.add(layer, _haloed(item))


def _radius(picture: LyingPicture) -> None:
    """Draw the radius that a curve is swung with, where it has room on the page."""
    plan, frame = picture.plan, picture.frame
    figures = plan.methods[0].figures if plan.methods else None
    if not isinstance(figures, Swing) or figures.radius / frame.scale < _RADIUS_FROM:
        return
    own = figures.centres[0]
    place = plan.top.placement
    words = f"R {plan.job.tape.figure(figures.radius)}"
    out = own.unit() if own.norm > 0 else Point(1.0, 0.0)
    start = frame.at(place(own))
    for turn in (40, -40, 65, -65, 25, -25):
        end = frame.at(place(own + out.turned(math.radians(turn)) * figures.radius))
        at = start + (end - start) * 0.55 - Point(0.0, _NAME / 2)
        text = Text(at, words, _NAME, "middle", bold=True, halo=0.9)
        spoilt = [frame.of(defect.place).bounds for defect in plan.job.panel.defects]
        if not any(min(text_box(text).shared(box)) > 0 for box in spoilt):
            break
    picture.add(layers.THIN, Stroke(Path.through((start, end))))
    picture.add(layers.LETTERING, text)
    picture.setter.keep_clear(text_box(text))


_RADIUS_FROM = 12.0
"""A radius is drawn where it is so long on paper, mm."""


def _haloed(item: Item) -> Item:
    if isinstance(item, Text):
        return Text(item.at, item.words, item.height, item.anchor, item.turn, item.bold, halo=0.7)
    return item


def _corner_ring(picture: LyingPicture, cut: StraightCut, number: int) -> None:
    """Draw the number of a corner cut in the triangle that falls, or beside it."""
    frame = picture.frame
    middle = frame.at(cut.start.point.midpoint(cut.end.point))
    out = frame.way(cut.waste)
    for reach in (3.4, 2.9, 4.5, -3.6, -5.0, 6.0):
        at = middle + out * reach
        if picture.setter.is_free(Bounds.about(at, 2.3)):
            break
    _ring(picture, at, number, radius=2.2)


def _boxed(picture: LyingPicture, at: Point, letter: str) -> None:
    """Write a letter in a box on a defect, or beside it with a leader."""
    words = picture.setter.boxed(at, letter, 2.8, half=2.1)
    middle, leader = words
    picture.add(layers.PAPER, Area(Path.round_box(Bounds.about(middle, 2.1)), edged=False))
    picture.add(layers.BENCH_MARK, Stroke(Path.round_box(Bounds.about(middle, 2.1))))
    if leader is not None:
        picture.add(layers.THIN, Stroke(leader))
    text = Text(middle + Point(0.0, -1.3), letter, 2.7, "middle", bold=True)
    picture.add(layers.LETTERING, text)
