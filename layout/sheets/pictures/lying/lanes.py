"""Labels round the panel: they stand in lanes, which are spread, so that none touches another."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate
from statistics import fmean

from ....drawing import layers
from ....drawing.scene import Stroke, Text, text_box, text_width
from ....geometry import Path, Point, ranked
from ....geometry.tolerance import ROUNDING
from ....marking.mark import Mark as PlacedMark
from ....words.first_tables import shown_marks
from ....words.saw_lines import BESIDE, BEYOND, Round, SawLine, figures_of, signed
from ....words.say import Say
from .picture import BEND, BODY, LANE, MARK, NAME, OFF, OUT, RING, TRIANGLE, LyingPicture

SAW = 3.8  # height of the figure of a saw line, paper mm
GAP = 2.2  # between two labels of a lane, paper mm
ROW = 6.2  # from one row of labels to the next, paper mm
REACH = 10.0  # farther from every side, paper mm, a start is drawn where it lies


def spread(
    wanted: Sequence[float], lengths: Sequence[float], low: float, high: float
) -> tuple[float, ...]:
    """Return where labels stand along a lane, the middle of each, in the order that they came.

    Each has the place wanted for its middle, and its length with its gap. Blocks that overlap merge
    and move to the mean of what their members want; their order is kept, so leaders never cross.
    Labels that are too many for the lane run past its high end. All in mm.

    >>> spread([10.0, 11.0, 40.0], [6.0, 6.0, 6.0], 0.0, 50.0)
    (7.5, 13.5, 40.0)
    """
    order = ranked(range(len(wanted)), lambda i: -wanted[i], tolerance=ROUNDING)
    ends = [0.0, *accumulate(lengths[i] for i in order)]
    blocks: list[list[float]] = []  # where the lane's first label would begin, as each member wants
    for i, before in zip(order, ends, strict=False):
        blocks.append([wanted[i] - lengths[i] / 2 - before])
        while len(blocks) > 1 and fmean(blocks[-2]) >= fmean(blocks[-1]):
            blocks[-2:] = [blocks[-2] + blocks[-1]]
    begun = (max(low, min(fmean(b), high - ends[-1])) for b in blocks for _ in b)
    starts = zip(order, ends, begun, strict=False)
    placed = {i: start + before + lengths[i] / 2 for i, before, start in starts}
    return tuple(placed[i] for i in range(len(wanted)))


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
        name = text_width(f"{self.name} ", NAME, bold=True) if self.name else 0.0
        return wide + name + (2 * RING + 0.6 if self.number else 0.0) + GAP


def draw_lanes(picture: LyingPicture) -> float:
    """Draw tapes, starts and labels round the panel; return how far down they reach."""
    hand, box = picture.lying.hand, picture.box
    low, edge = box.bottom, box.bottom
    picture.corner_letters()
    starts: dict[str, list[SawLine]] = {}
    for line in (line for each in picture.rounds for line in each.lines):
        side, away = picture.side_of(line.cut)
        if away > REACH and not picture.has_figure(line, side):
            side = "within"
        starts.setdefault(side, []).append(line)
    if picture.plain:
        low = box.bottom - 10.0
    for each in () if picture.plain else picture.rounds:
        low = min(low, _foot_lane(picture, each, edge, starts.get("bottom", [])))
        edge = low - 0.5
        if each is picture.rounds[-1]:
            _hand_lane(picture, each, starts.get(hand, []))
    other = "left" if hand == "right" else "right"
    for side in (*(("bottom", hand) if picture.plain else ()), "top", other):
        _draw_rings(picture, side, starts.get(side, []))
    for line in starts.get("within", []):
        picture.ring_within(line)
    return low - 1.0


def _draw_rings(picture: LyingPicture, side: str, starts: Sequence[SawLine]) -> None:
    """Draw the starts on a side without figures: a triangle at the wood, its ring behind."""
    level, edge, out = side in ("top", "bottom"), picture.edge_of(side), OUT[side]

    def at(along: float, off: float = 0.0) -> Point:
        return (Point(along, edge) if level else Point(edge, along)) + out * off

    box = picture.box
    begun = [picture.start_of(saw.cut) for saw in starts]
    wanted = [start.x if level else start.y for start in begun]
    low, high = (box.left, box.right) if level else (box.bottom, box.top)
    if level and starts:  # between the letters on either hand, also of an odd panel's corners
        beside = [b for b in picture.corners if b.bottom - LANE < edge < b.top + LANE]
        low = max([low, *(b.right for b in beside if b.middle.x <= min(wanted))])
        high = min([high, *(b.left for b in beside if b.middle.x >= max(wanted))])
    places = spread(wanted, [2 * RING + 0.7] * len(starts), low, high)
    for saw, own, place in zip(starts, wanted, places, strict=True):
        ring = at(place, TRIANGLE + RING + 0.5)
        back = picture.begin(saw, side, at(own), 0.2)
        if back == at(own) or abs(place - own) > 0.3:
            picture.thin(back, ring)
        picture.ring(ring, saw.number)


def _foot_lane(picture: LyingPicture, each: Round, edge: float, starts: Sequence[SawLine]) -> float:
    """Draw the tape under the panel with its labels; return how far down they reach."""
    starts = [line for line in starts if line in each.lines]
    labels = _labels(picture, each, "bottom", starts)
    body = edge - OFF - BODY
    picture.draw_tape(each, "bottom", edge)
    room = (2.0, picture.frame.sheet.right - 2.0)
    if sum(label.width for label in labels) > 0.85 * (room[1] - room[0]):
        for label in labels:  # the lane is full: marks keep their name alone
            if not label.number and label.name:
                label.figure, label.name = label.name, ""
    # in as many rows as they need, dealt out in turn along the lane
    every = sorted(labels, key=lambda label: label.wanted)
    count = max(1, -(-int(sum(m.width for m in every)) // int(0.95 * (room[1] - room[0]))))
    rows = [
        [*zip(held, spread([m.wanted for m in held], [m.width for m in held], *room), strict=True)]
        for held in (every[i::count] for i in range(count))
    ]
    aside = any(abs(place - label.wanted) > 1.0 for row in rows for label, place in row)
    high = body - LANE + 2 * RING + 0.6
    near = [(b.left, b.right) for b in picture.corners if b.bottom < high and b.middle.y < edge]
    aside = aside or any(
        place - label.width / 2 < right and left < place + label.width / 2
        for label, place in rows[0]
        for left, right in near
    )
    lane = LANE + (BEND if aside else 0.0)
    for k, row in enumerate(rows):
        y = body - lane + RING - SAW / 2 + 0.6 - k * ROW
        for label, place in row:
            top = y + SAW + 1.0
            foot = Point(label.wanted, body - (3.4 if aside else 2.6))
            ends = Point(place, top), Point(place, top - 0.2)
            picture.add(layers.THIN, _leader(Point(label.wanted, edge), foot, *ends))
            _set(picture, label, place, y)
    for line in starts:
        foot = Point(picture.start_of(line.cut).x, edge)
        picture.begin(line, "bottom", foot, OFF + BODY - 0.1)
    return body - lane - (len(rows) - 1) * ROW


def _leader(start: Point, *points: Point) -> Stroke:
    """Return a line through points, without those that lie where the last did."""
    way = [start]
    for point in points:
        if point.distance_to(way[-1]) > 0.01:
            way.append(point)
    return Stroke(Path.through(way))


def _hand_lane(picture: LyingPicture, each: Round, starts: Sequence[SawLine]) -> None:
    """Draw the tape at the hand of the datum's first point with its labels."""
    lying, box = picture.lying, picture.box
    out, edge = OUT[lying.hand], picture.edge_of(lying.hand)
    body = edge + out.x * (OFF + BODY)
    picture.draw_tape(each, lying.hand, edge)
    labels = _labels(picture, each, lying.hand, starts)
    if len(labels) * ROW > box.height + ROW:
        labels = [label for label in labels if label.number]  # the table has the marks
    own = {line.number for line in starts}
    places = spread([m.wanted for m in labels], [ROW] * len(labels), box.bottom, box.top + 6.0)
    for label, place in zip(labels, places, strict=True):
        foot = body + out.x * (TRIANGLE if label.number in own else 0.4)
        near = body + out.x * (TRIANGLE + 1.0)
        start, bend = Point(edge, label.wanted), Point(foot, label.wanted)
        picture.add(layers.THIN, _leader(start, bend, Point(near + out.x, place)))
        wide = label.width - GAP
        middle = near + out.x * (1.2 + wide / 2)
        _set(picture, label, middle, place - (SAW if label.number else MARK) / 2)
    for line in starts:
        foot_at = Point(edge, picture.start_of(line.cut).y)
        picture.begin(line, lying.hand, foot_at, OFF + BODY)


def _labels(
    picture: LyingPicture, each: Round, side: str, starts: Sequence[SawLine]
) -> list[_Label]:
    """Return the labels of a lane: saw lines and marks with figures, other starts as rings."""
    plan, frame, foot = picture.plan, picture.frame, side == "bottom"
    say, axis = Say.of(plan, each.datum), "along" if foot != picture.lying.upright else "square"
    labels = []
    for line in (line for line in each.lines if picture.has_figure(line, side)):
        cells = [c for c in figures_of(line, line.ends, say) if c.figure]
        at = frame.at(line.ends[0].point)
        labels.append(_Label(at.x if foot else at.y, cells[0].figure, SAW, line.number))
    held = {label.number for label in labels}
    found: dict[str, list[PlacedMark]] = {}
    sign = BEYOND if axis == "along" else BESIDE
    for mark in () if each.marks is None else shown_marks(plan, each.marks):
        found.setdefault(signed(getattr(mark, axis), plan.job.tape, sign), []).append(mark)
    for figure, marks in found.items():
        at = frame.at(marks[0].point)
        # a side lane is narrow, and three names too long: the table has them
        name = " ".join(mark.label for mark in marks) if foot and len(marks) < 3 else ""
        labels.append(_Label(at.x if foot else at.y, figure, MARK, name=name))
    for line in (line for line in starts if line.number not in held):
        at = picture.start_of(line.cut)
        labels.append(_Label(at.x if foot else at.y, "", SAW, line.number))
    return labels


def _set(picture: LyingPicture, label: _Label, middle: float, y: float) -> None:
    """Write a label about its middle, its baseline at y."""
    x = middle - (label.width - GAP) / 2
    if label.number:
        picture.ring(Point(x + RING, y + label.height / 2), label.number)
        x += 2 * RING + 0.6
    if label.name:
        picture.add(layers.LETTERING, Text(Point(x, y), label.name, NAME, bold=True))
        x += text_width(f"{label.name} ", NAME, bold=True)
    if not label.figure:
        return
    words = Text(Point(x, y), label.figure, label.height, bold=label.number > 0)
    picture.add(layers.LETTERING, words)
    picture.setter.keep_clear(text_box(words))
