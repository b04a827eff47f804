"""How the panel lies while it is marked and sawn, and its saw lines as the first page tells them.

A line's figures and its guide's are rounded off the top, never towards it.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import Enum

from ..cutting.cut import CornerCut, EdgePoint, StraightCut, Support, Trim, TrimKind
from ..geometry import Path, Point
from ..geometry.tolerance import SAME_FIGURE
from ..marking.marks import MarkSet
from ..panel.datum import Datum
from ..plan.plan import Plan
from ..units import Tape
from .say import Cell, Say

BESIDE, BEYOND = "▼", "◄"  # before a figure beyond the datum, or back past its start
_SKEW = math.tan(math.radians(20))  # a line that leans more than this runs neither along nor across
# A coordinate that moves a line by no more than this share of itself is rounded to the nearest:
# that is a fiftieth of a division at most
_SLIGHT = 0.02
_TOLD_FROM = 4.0  # a falling piece is told by its mass from here, kg (our choice)
# A panel that reaches farther from its datum than this, by what it reaches along it, is turned a
# quarter, so that its long way lies across the page
_UPRIGHT = 1.15


@dataclass(frozen=True, slots=True)
class Lying:
    """The view that the first page has of the panel; all of the sheet's left and right are its."""

    datum: Datum
    mirrored: bool
    upright: bool
    """Whether the show face lies down; whether the datum runs up the page, not along its foot."""

    @property
    def turn(self) -> float:
        """How far the panel is turned before it is mirrored, radians."""
        return math.pi / 2 * self.upright - (self.datum.end - self.datum.start).angle

    def way(self, direction: Point) -> Point:
        """Return where a direction of the panel points on the page."""
        turned = direction.turned(self.turn)
        return Point(-turned.x, turned.y) if self.mirrored else turned

    @property
    def hand(self) -> str:
        """At which hand the first point of the datum lies."""
        return "right" if self.mirrored != self.upright else "left"

    @property
    def words(self) -> str:
        """Which face is up, and where the tapes begin."""
        up = "DOWN" if self.mirrored else "UP"
        return f"show face {up}, {self.datum.first.name} at your {self.hand}"

    def side(self, direction: Point) -> str:
        """Return the side of the page that a direction of the panel points to."""
        seen = self.way(direction)
        if abs(seen.x) >= abs(seen.y):
            return "right" if seen.x > 0 else "left"
        return "upper" if seen.y > 0 else "lower"

    def corner(self, at: Point, direction: Point) -> str:
        """Return the letter of the corner next to a place, of four, or else that of the page."""
        corners = self.datum.corners
        if len(corners) == 4:
            near = min(corners, key=lambda corner: round(corner.point.distance_to(at), 3))
            return f"at {near.name}"
        seen = self.way(direction)
        return f"{'upper' if seen.y > 0 else 'lower'} {'right' if seen.x > 0 else 'left'}"


def lying_of(plan: Plan) -> Lying:
    """Return how the panel of a plan lies."""
    datum = plan.datum
    level = datum.frame.inverse.of(plan.job.panel.boundary.points(1.0))
    along, across = level.max(axis=0) - level.min(axis=0)
    return Lying(datum, plan.cuts.face.mirrored, bool(across > _UPRIGHT * along))


class Runs(Enum):
    """Which way a line runs, seen from the datum."""

    ACROSS = "right across"
    ALONG = "whole length"
    SLANT = "from place to place"


@dataclass(frozen=True, slots=True)
class SawLine:
    """A straight cut with its number."""

    number: int
    cut: StraightCut
    runs: Runs
    ends: tuple[EdgePoint, EdgePoint]
    """Nearest to the datum first, or nearest to its start; of a slant as it is sawn."""
    guide: tuple[EdgePoint, EdgePoint] | None
    """Of the guide, in the same order."""


@dataclass(frozen=True, slots=True)
class CornerLine:
    """All corner cuts that lie as far off both sides of their corner."""

    number: int
    cuts: tuple[CornerCut, ...]
    legs: tuple[float, ...]
    """Of each, each way from its corner, mm: as it is told, off the top."""


@dataclass(frozen=True, slots=True)
class Round:
    """What is set out at one time: a slab is marked once more when it is short and flat."""

    datum: Datum
    boundary: Path
    """Of the wood by then."""
    marks: MarkSet | None
    """None where only its saw lines are struck."""
    lines: tuple[SawLine, ...]
    corners: tuple[CornerLine, ...] = ()
    last: bool = True

    @property
    def numbers(self) -> tuple[int, ...]:
        """Of its lines in working order, corners last."""
        lines = tuple(line.number for line in self.lines)
        return lines + tuple(corner.number for corner in self.corners)

    @property
    def before(self) -> str:
        """Before what it is checked: a line that is not the first is told by its number."""
        first = next(iter(self.numbers), 1)
        return "the first cut" if first == 1 else f"line {first}"


def rounds_of(plan: Plan) -> tuple[Round, ...]:
    """Return what is set out at one time and what is set out at the next."""
    again, panel, trims = plan.cuts.again, plan.job.panel, plan.cuts.trims
    loose = [cut for cut in plan.cuts.corner_cuts if _leg(cut) is None]
    rough = [trim for trim in trims if again is not None and trim.kind is TrimKind.ROUGH]
    rest = [trim for trim in trims if trim not in rough]
    cuts = [saw_line(number, cut) for number, cut in enumerate([*rough, *rest, *loose], start=1)]
    first, lines = tuple(cuts[: len(rough)]), tuple(cuts[len(rough) :])
    told = [(cut, leg) for cut in plan.cuts.corner_cuts if (leg := _leg(cut)) is not None]
    legs = tuple(plan.job.tape.towards(leg, -1.0) for _, leg in told)
    corners = (CornerLine(1 + len(cuts), tuple(cut for cut, _ in told), legs),) if told else ()
    if again is None:
        return (Round(plan.datum, panel.boundary, plan.marks, lines, corners),)
    full = Round(again.datum, again.boundary, again.marks, lines, corners)
    short = Round(plan.datum, panel.boundary, None, first, last=False)
    return (short, full) if first else (full,)


def saw_line(number: int, cut: StraightCut) -> SawLine:
    """Return a straight cut with its number and the way it runs."""
    along, square = _offset(cut)
    runs, axis = Runs.SLANT, ""
    if along <= _SKEW * square:
        runs, axis = Runs.ACROSS, "square"
    elif square <= _SKEW * along:
        runs, axis = Runs.ALONG, "along"

    def ordered(start: EdgePoint, end: EdgePoint) -> tuple[EdgePoint, EdgePoint]:
        back = axis and getattr(start, axis) > getattr(end, axis)
        return (end, start) if back else (start, end)

    guide = None if cut.guide is None else ordered(cut.guide.start, cut.guide.end)
    return SawLine(number, cut, runs, ordered(cut.start, cut.end), guide)


def _offset(cut: StraightCut) -> tuple[float, float]:
    """Return how far one end of a cut lies from the other, along the datum and square to it, mm."""
    return abs(cut.end.along - cut.start.along), abs(cut.end.square - cut.start.square)


def _leg(cut: CornerCut) -> float | None:
    """Return how far each way a corner cut lies from its corner, mm; None where that differs."""
    along, square = _offset(cut)
    return along if cut.leg is None and abs(along - square) <= SAME_FIGURE else cut.leg


def numbers_of(plan: Plan) -> dict[str, int]:
    """Return the number of each straight cut by its label."""
    held: dict[str, int] = {}
    for each in rounds_of(plan):
        held |= {line.cut.label: line.number for line in each.lines}
        held |= {cut.label: corner.number for corner in each.corners for cut in corner.cuts}
    return held


def signed(value: float, tape: Tape, sign: str) -> str:
    """Return a figure; one below nothing has a sign of its own in place of a minus."""
    return tape.figure(value).replace("−", sign)


def _offsets(place: EdgePoint, waste: Point, say: Say) -> tuple[float, float]:
    """Return the offsets of a place on a line as they are told, mm: off the top."""
    way = waste.turned(-say.datum.frame.turn)
    return _off(place.along, way.x, say), _off(place.square, way.y, say)


def _off(length: float, way: float, say: Say) -> float:
    return say.tape.towards(length, way if abs(way) > _SLIGHT else 0.0)


def figures_of(line: SawLine, ends: tuple[EdgePoint, EdgePoint], say: Say) -> tuple[Cell, Cell]:
    """Return what a line is found by, end by end, alike ones once.

    Each cell names its axis: ``along``, ``square``, the letter of a corner, or ``both``.
    """
    one, other = ends
    if line.runs is Runs.SLANT:
        return _place(one, line, say), _place(other, line, say)
    axis, sign = (0, BEYOND) if line.runs is Runs.ACROSS else (1, BESIDE)
    name = ("along", "square")[axis]
    figures = [signed(_offsets(end, line.cut.waste, say)[axis], say.tape, sign) for end in ends]
    true = abs(one.along - other.along), abs(one.square - other.square)
    if true[axis] <= SAME_FIGURE or figures[0] == figures[1]:
        return Cell(figures[0], "", name), Cell("", line.runs.value)
    first, last = say.datum.names
    notes = ("near", "far") if axis == 0 else (f"at {first}", f"at {last}")
    near, far = (
        Cell(figure, note, name) if _crosses(end, axis, say) else _both(end, line, say)
        for end, figure, note in zip(ends, figures, notes, strict=True)
    )
    return near, far


def _crosses(end: EdgePoint, axis: int, say: Say) -> bool:
    """Return whether one figure finds an end: its edge of the panel runs the way of the figure."""
    corner = next((r.point for r in say.datum.references if r.name == end.corner), end.point)
    from_corner = say.datum.coordinates(corner)
    run = abs(end.along - from_corner.along), abs(end.square - from_corner.square)
    return run[axis] >= run[1 - axis]


def _place(end: EdgePoint, line: SawLine, say: Say) -> Cell:
    waste = line.cut.waste
    if end.corner:
        corners = (r.point for r in say.datum.references if r.name == end.corner)
        way = end.point - next(corners, end.point)
        told = _off(end.distance, way.dot(waste) / max(way.norm, 1.0), say)
        return Cell(say.tape.figure(told), f"from {end.corner}", end.corner)
    return _both(end, line, say)


def _both(end: EdgePoint, line: SawLine, say: Say) -> Cell:
    along, square = _offsets(end, line.cut.waste, say)
    both = f"{signed(along, say.tape, BEYOND)} | {signed(square, say.tape, BESIDE)}"
    return Cell(both, "", "both")


def falls_words(line: SawLine, lying: Lying, tape: Tape) -> str:
    """Return what falls at a line, how much of it, and how it is held."""
    cut, size, side = line.cut, tape.figure(line.cut.widest), lying.side(line.cut.waste)
    if isinstance(cut, Trim) and cut.kind.stops:
        return "stops at the hollow corner; nothing falls yet"
    what = f"{side} strip, {size} wide"
    if isinstance(cut, CornerCut):
        what = "corner"
    elif line.runs is Runs.ACROSS:
        what = f"{side} end, {size} long"
    mass = f", {tape.mass(cut.heaviest)}" if cut.heaviest >= _TOLD_FROM else ""
    held = {Support.PEOPLE: ": two people", Support.BOARDS: "; boards under it"}
    held_by = ": boards under both ends" if cut.wall is not None else held.get(cut.support, "")
    return f"{what}{mass}{held_by}"
