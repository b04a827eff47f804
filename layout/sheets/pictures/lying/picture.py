"""What the drawing of the first page is made of, and what stands beside the panel.

Measures, rings, triangles and thin lines; tapes, corner letters, and where saws start: a triangle
at the wood, and the ring with the line's number behind it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from math import ceil

from ....cutting.cut import StraightCut
from ....drawing import layers
from ....drawing.kit.lanes import spread
from ....drawing.kit.picture import Stage
from ....drawing.scene import Anchor, Area, Stroke, Text, text_box
from ....geometry import Bounds, Path, Point, circle
from ....plan.plan import Plan
from ....units import MM_PER_INCH, Tape
from ....words.lying import Lying
from ....words.saw_lines import Round, Runs, SawLine

WIDTH = 190.0
"""Of the picture, paper mm: A4 between margins of 10."""

RING = 2.7
"""Radius of the ring round the number of a saw line, paper mm."""

SAW, MARK, NAME, CORNER = 3.8, 3.3, 3.0, 5.0
"""Heights of capitals: figures of saw lines and of marks, names of marks, letters of corners."""

BODY, OFF = 2.0, 1.2
"""How wide a drawn tape is, and how far it lies off the wood, paper mm."""

GAP = 2.2
"""Between two labels of a lane, paper mm."""

FREE = 9.2
"""Kept on the sides that have no tape, paper mm."""

LANE, BEND = 8.6, 3.0
"""From the foot of a tape to that of its labels, and what leaders to labels that stand aside have
more, paper mm."""

ROW = 6.2
"""From one row of labels to the next, paper mm."""

TRIANGLE = 2.4

NAMED_FROM = 80.0
"""A narrower picture has lines and their starts alone."""


OUT = {"upper": Point(0, 1), "lower": Point(0, -1), "left": Point(-1, 0), "right": Point(1, 0)}


@dataclass(slots=True, kw_only=True)
class LyingPicture(Stage):
    """What the drawing holds so far."""

    plan: Plan
    lying: Lying
    rounds: tuple[Round, ...]
    box: Bounds
    """Of the panel, paper mm."""
    plain: bool
    """Whether it has names only: no tapes, no figures."""
    corners: list[Bounds] = field(default_factory=list)
    """Where the letters of corners stand, paper mm."""


def triangle(picture: LyingPicture, tip: Point, way: Point) -> None:
    """Draw the triangle that points the way the saw is pushed."""
    back = tip - way * TRIANGLE
    half = way.left * (TRIANGLE * 0.5)
    picture.add(layers.INK, Area(Path.through((tip, back + half, back - half), closed=True)))


def ring(picture: LyingPicture, at: Point, number: int, radius: float = RING) -> None:
    """Draw a ring with its number."""
    height = 2.5 if radius < RING else 3.0
    picture.add(layers.PAPER, Area(circle(at, radius), edged=False))
    picture.add(layers.BENCH_MARK, Stroke(circle(at, radius)))
    number_text = Text(at + Point(0.0, -height / 2), f"{number}", height, "middle", bold=True)
    picture.add(layers.LETTERING, number_text)
    picture.setter.keep_clear(Bounds.about(at, radius))


_FACING = 0.35
"""Cosine of the widest angle, about 70°, between a line and the way out of a side it starts at."""

REACH = 10.0
"""Farther from every side, paper mm, a start is drawn where it lies."""

_BEHIND = (0.0, 0.5, -0.5, 1.0, -1.0)
"""Turns, radians, by which a ring may stand aside of what lies behind a start, tried in turn."""


def side_of(picture: LyingPicture, cut: StraightCut) -> tuple[str, float]:
    """Return the side of the page at which a saw starts, and how far from it, paper mm.

    Of a slanting line it is the nearest.
    """
    back = picture.lying.way(cut.start.point - cut.end.point).unit()
    at = picture.frame.at(cut.start.point)

    def away(side: str) -> float:
        return round(abs(edge_of(picture, side) - (at.x if OUT[side].x else at.y)), 3)

    side = min((side for side in OUT if OUT[side].dot(back) > _FACING), key=away)
    return side, away(side)


def has_figure(picture: LyingPicture, line: SawLine, side: str) -> bool:
    """Return whether the figure of a line stands at a side of the page."""
    lying = picture.lying
    runs = {"lower": Runs.ACROSS, lying.hand: Runs.ALONG}
    if lying.upright:
        runs = {"lower": Runs.ALONG, lying.hand: Runs.ACROSS}
    return not picture.plain and line.runs is runs.get(side)


def ring_within(picture: LyingPicture, line: SawLine) -> None:
    """Draw the start of a line that begins far from every side: its ring behind it, or aside."""
    start, end = (picture.frame.at(point.point) for point in (line.cut.start, line.cut.end))
    way = (end - start).unit()
    behind = (start - way.turned(turn) * (TRIANGLE + RING + 0.3) for turn in _BEHIND)
    # without tapes there is room round the panel too
    room = picture.box.grown(2 * RING + TRIANGLE if picture.plain else 0.0)
    setter = replace(picture.setter, room=room)
    at = setter.best(((at, Bounds.about(at, RING)) for at in behind), within=False)
    assert at is not None
    triangle(picture, start, way)
    ring(picture, at, line.number)


def edge_of(picture: LyingPicture, side: str) -> float:
    """Return where a side of the panel's box lies, paper mm."""
    box = picture.box
    return {"upper": box.top, "lower": box.bottom, "left": box.left, "right": box.right}[side]


def draw_rings(picture: LyingPicture, side: str, lines: Sequence[tuple[SawLine, Point]]) -> None:
    """Draw the starts on a side without figures: a triangle at the wood, its ring behind."""
    level = side in ("upper", "lower")
    wanted = [at.x if level else at.y for _, at in lines]
    box = picture.box
    low, high = (box.left, box.right) if level else (box.bottom, box.top)
    if level and lines:  # between the letters on either hand, also of an odd panel's corners
        edge = edge_of(picture, side)
        beside = [b for b in picture.corners if b.bottom - LANE < edge < b.top + LANE]
        low = max([low, *(b.right for b in beside if b.middle.x <= min(wanted))])
        high = min([high, *(b.left for b in beside if b.middle.x >= max(wanted))])
    places = spread(wanted, [2 * RING + 0.7] * len(lines), low, high)
    edge, out = edge_of(picture, side), OUT[side]
    for (line, at), place in zip(lines, places, strict=True):
        start = Point(at.x, edge) if level else Point(edge, at.y)
        off = out * (TRIANGLE + RING + 0.5)
        at_ring = (Point(place, edge) if level else Point(edge, place)) + off
        tip = start + out * 0.2
        _reach(picture, at, start)
        triangle(picture, tip, -out)
        if abs(place - (at.x if level else at.y)) > 0.3:
            picture.add(layers.THIN, Stroke(Path.through((tip + out * TRIANGLE, at_ring))))
        ring(picture, at_ring, line.number)


def _reach(picture: LyingPicture, at: Point, edge: Point) -> None:
    """Run a line out from the wood to the side of the page where its start is drawn."""
    if at.distance_to(edge) > 0.3:
        picture.add(layers.THIN, Stroke(Path.through((at, edge))))


def draw_tape(picture: LyingPicture, each: Round, side: str, edge: float) -> None:
    """Draw a tape with its hook at the first point of the datum, ticked by the tape's own unit."""
    box, frame, tape = picture.box, picture.frame, picture.plan.job.tape
    level = side == "lower"
    out = OUT[side]
    hook = frame.at(each.datum.start)
    start = hook.x if level else hook.y
    ends = (box.left, box.right) if level else (box.bottom, box.top)
    end = ends[1] if abs(ends[1] - start) > abs(ends[0] - start) else ends[0]
    far = edge + (out.x + out.y) * (OFF + BODY)
    near = edge + (out.x + out.y) * OFF

    def at(along: float, across: float) -> Point:
        return Point(along, across) if level else Point(across, along)

    body = Path.through((at(start, near), at(end, near), at(end, far), at(start, far)), closed=True)
    ticks = [*_ticks(tape, frame.scale, start, end, near, far)]
    picture.add(
        layers.THIN, Stroke(body), *(Stroke(Path.through((at(*a), at(*b)))) for a, b in ticks)
    )
    bar = Path.through((at(start, edge), at(start, far + (far - near) * 0.4)))
    picture.add(layers.BENCH_HOOK, Stroke(bar))
    if len(each.datum.first.name) > 1 or each.datum.first.name in "PQ":
        way = -1 if end > start else 1
        if level:
            anchor: Anchor = "end" if way < 0 else "start"
            words = Text(
                Point(start + way * 1.2, far), each.datum.first.name, MARK, anchor, bold=True
            )
            met = [b for b in picture.corners if min(b.shared(text_box(words))) > 0]
            for letter in met:  # of a corner at the same end: farther out
                x = (letter.left if way < 0 else letter.right) + way
                words = replace(words, at=Point(x, far))
            picture.add(layers.LETTERING, words)
            picture.setter.keep_clear(text_box(words))


def _ticks(
    tape: Tape, scale: float, start: float, end: float, near: float, far: float
) -> Iterator[tuple[tuple[float, float], tuple[float, float]]]:
    """Yield a tick each 100 mm or 4 in short of the end, a long one each fifth."""
    step = (4 * MM_PER_INCH if tape.imperial else 100.0) / scale
    way = 1.0 if end > start else -1.0
    for i in range(1, ceil(abs(end - start) / step - 1e-6)):  # the end is the body's own line
        x = start + way * i * step
        yield (x, near), (x, far if i % 5 == 0 else near + (far - near) * 0.45)


def corner_letters(picture: LyingPicture) -> None:
    """Write the letters of the corners: over or under the panel, those between inside it."""
    box, setter = picture.box, picture.setter
    datum = picture.plan.datum
    for corner in (corner for corner in datum.corners if corner.name in datum.places):
        at = picture.frame.at(corner.point)
        right, up = at.x > box.middle.x, at.y > box.middle.y
        x, y = at.x + (1.3 if right else -1.3), at.y + (2.0 if up else -CORNER - 1.3)
        anchor: Anchor = "start" if right else "end"
        words = Text(Point(x, y), corner.name, CORNER, anchor, bold=True)
        letter = text_box(words).grown(0.4)
        outside = letter.bottom > box.top or letter.top < box.bottom
        if outside and all(min(letter.shared(other)) <= 0 for other in picture.corners):
            picture.corners.append(letter)
            picture.add(layers.LETTERING, words)
        else:
            size = CORNER * (0.5 if picture.plain else 1.0)  # it may not cover a small top
            inside = Text(at, corner.name, size, bold=True, halo=0.7)
            picture.add(layers.LETTERING, *setter.set(inside, towards=box.middle - at, off=1.0))
