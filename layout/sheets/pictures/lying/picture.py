"""The picture of the first page: what it is made of, and what stands beside the panel."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from math import ceil

from ....cutting.cut import StraightCut
from ....drawing import layers
from ....drawing.kit.labels import LabelSetter
from ....drawing.kit.picture import Stage
from ....drawing.scene import Anchor, Area, Stroke, Text, line, text_box
from ....geometry import Bounds, Path, Point, circle
from ....plan.plan import Plan
from ....units import MM_PER_INCH
from ....words.saw_lines import Lying, Round, Runs, SawLine

WIDTH = 190.0  # of the picture, paper mm: A4 between margins of 10
RING = 2.7  # radius of the ring round the number of a saw line, paper mm
MARK, NAME, CORNER = 3.3, 3.0, 5.0  # heights of capitals: figures, names, letters of corners, mm
BODY, OFF = 2.0, 1.2  # how wide a drawn tape is, and how far it lies off the wood, paper mm
FREE = 9.2  # kept on the sides that have no tape, paper mm
# From the foot of a tape to that of its labels, and what leaders to labels that stand aside have
# more, paper mm
LANE, BEND = 8.6, 3.0
TRIANGLE = 2.4
OUT = {"top": Point(0, 1), "bottom": Point(0, -1), "left": Point(-1, 0), "right": Point(1, 0)}


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

    def thin(self, *points: Point) -> None:
        """Draw a thin line through points on paper."""
        self.add(layers.THIN, line(*points))

    def triangle(self, tip: Point, way: Point) -> None:
        """Draw the triangle that points the way the saw is pushed."""
        back, half = tip - way * TRIANGLE, way.left * (TRIANGLE * 0.5)
        drawn = Path.through((tip, back + half, back - half), closed=True)
        self.add(layers.INK, Area(drawn))
        self.setter.keep_clear(drawn.bounds)

    def ring(self, at: Point, number: int, radius: float = RING) -> None:
        """Draw a ring with its number."""
        height = 2.5 if radius < RING else 3.0
        self.add(layers.PAPER, Area(circle(at, radius), edged=False))
        self.add(layers.BENCH_MARK, Stroke(circle(at, radius)))
        low = at - Point(0.0, height / 2)
        self.add(layers.LETTERING, Text(low, f"{number}", height, "middle", bold=True))
        self.setter.keep_clear(Bounds.about(at, radius))

    def start_of(self, cut: StraightCut) -> Point:
        """Return where the saw enters what is left of the wood, on paper."""
        return self.frame.at(cut.spans[0][0])

    def begin(self, line: SawLine, side: str, foot: Point, off: float) -> Point:
        """Draw the start of a line, `off` the panel's side over a `foot` on it; return its back.

        Where that wood is gone the triangle stands farther in, and a line leads out to its number.
        """
        start, end, out = self.start_of(line.cut), self.frame.at(line.cut.end.point), OUT[side]
        if start.distance_to(foot) <= _INSIDE:
            self.triangle(foot + out * off, -out)
            return foot + out * (off + TRIANGLE)
        self.triangle(start, (end - start).unit())
        if not self.has_figure(line, side):
            self.thin(start, foot)
        return foot

    def off_defects(self, room: Bounds | None = None) -> LabelSetter:
        """Return what stands on the picture with defects, on which no number is read."""
        defects = (self.frame.of(defect.place).bounds for defect in self.plan.job.panel.defects)
        setter = replace(self.setter, room=room or self.setter.room)
        setter.keep_clear(*defects)
        return setter

    def side_of(self, cut: StraightCut) -> tuple[str, float]:
        """Return the nearest side of the page where a saw may start, and how far off, paper mm."""
        back, at = self.lying.way(cut.start.point - cut.end.point).unit(), self.start_of(cut)

        def away(side: str) -> float:
            return round(abs(self.edge_of(side) - (at.x if OUT[side].x else at.y)), 3)

        side = min((side for side in OUT if OUT[side].dot(back) > _FACING), key=away)
        return side, away(side)

    def has_figure(self, line: SawLine, side: str) -> bool:
        """Return whether the figure of a line stands at a side of the page."""
        runs = {"bottom": Runs.ACROSS, self.lying.hand: Runs.ALONG}
        if self.lying.upright:
            runs = {"bottom": Runs.ALONG, self.lying.hand: Runs.ACROSS}
        return not self.plain and line.runs is runs.get(side)

    def ring_within(self, line: SawLine) -> None:
        """Draw the start of a line that begins far from all sides: its ring behind it, or aside."""
        start, end = self.start_of(line.cut), self.frame.at(line.cut.end.point)
        way = (end - start).unit()
        behind = (start - way.turned(turn) * (TRIANGLE + RING + 0.3) for turn in _BEHIND)
        # without tapes there is room round the panel too
        room = self.box.grown(2 * RING + TRIANGLE if self.plain else 0.0)
        self.triangle(start, way)
        offers = ((at, Bounds.about(at, RING)) for at in behind)
        at = self.off_defects(room).best(offers, within=False)
        assert at is not None
        self.ring(at, line.number)

    def edge_of(self, side: str) -> float:
        """Return where a side of the panel's box lies, paper mm."""
        return float(getattr(self.box, side))

    def draw_tape(self, each: Round, side: str, edge: float) -> None:
        """Draw a tape with its hook at the first point of the datum, ticked by its own unit."""
        box, level, out = self.box, side == "bottom", OUT[side]
        hook, name = self.frame.at(each.datum.start), each.datum.first.name
        start = hook.x if level else hook.y
        ends = (box.left, box.right) if level else (box.bottom, box.top)
        end = ends[1] if abs(ends[1] - start) > abs(ends[0] - start) else ends[0]
        ahead = 1.0 if end > start else -1.0

        def at(along: float, off: float) -> Point:
            across = edge + (out.x + out.y) * off
            return Point(along, across) if level else Point(across, along)

        far = OFF + BODY
        corners = at(start, OFF), at(end, OFF), at(end, far), at(start, far)
        self.add(layers.THIN, line(*corners, closed=True))
        # a tick each 100 mm or 4 in, a long one each fifth; the end is the body's own line
        step = (4 * MM_PER_INCH if self.plan.job.tape.imperial else 100.0) / self.frame.scale
        for i in range(1, ceil(abs(end - start) / step - 1e-6)):
            x, deep = start + ahead * i * step, BODY if i % 5 == 0 else 0.45 * BODY
            self.thin(at(x, OFF), at(x, OFF + deep))
        self.add(layers.BENCH_HOOK, line(at(start, 0.0), at(start, far + 0.4 * BODY)))
        if level and (len(name) > 1 or name in "PQ"):
            anchor: Anchor = "end" if ahead > 0 else "start"
            words = Text(at(start - ahead * 1.2, far), name, MARK, anchor, bold=True)
            met = [b for b in self.corners if min(b.shared(text_box(words))) > 0]
            for letter in met:  # of a corner at the same end: farther out
                x = (letter.left if ahead > 0 else letter.right) - ahead
                words = replace(words, at=at(x, far))
            self.add(layers.LETTERING, words)
            self.setter.keep_clear(text_box(words))

    def corner_letters(self) -> None:
        """Write the letters of the corners: over or under the panel, those between inside it."""
        box, datum = self.box, self.plan.datum
        for corner in (corner for corner in datum.corners if corner.name in datum.places):
            at = self.frame.at(corner.point)
            right, up = at.x > box.middle.x, at.y > box.middle.y
            x, y = at.x + (1.3 if right else -1.3), at.y + (2.0 if up else -CORNER - 1.3)
            anchor: Anchor = "start" if right else "end"
            words = Text(Point(x, y), corner.name, CORNER, anchor, bold=True)
            letter = text_box(words).grown(0.4)
            outside = letter.bottom > box.top or letter.top < box.bottom
            if outside and all(min(letter.shared(other)) <= 0 for other in self.corners):
                self.corners.append(letter)
                self.add(layers.LETTERING, words)
            else:
                size = CORNER * (0.5 if self.plain else 1.0)  # it may not cover a small top
                inside = Text(at, corner.name, size, bold=True, halo=0.7)
                way = box.middle - at
                self.add(layers.LETTERING, *self.setter.set(inside, towards=way, off=1.0))


_INSIDE = 1.0  # a start so far from the side of the panel stands where it lies, paper mm
_FACING = 0.35  # cosine of 70°, the widest angle of a line with the way out of its side
_BEHIND = (0.0, 0.5, -0.5, 1.0, -1.0)  # turns, radians, of a ring aside of what lies behind a start
