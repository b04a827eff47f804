"""Saw lines as the first page tells them: numbered, each by one figure where it runs true.

A line that runs square across, or along, the datum needs one figure; one that is skew needs one at
each end. A line's figures and its guide's are rounded off the top, never towards it.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum

from ..cutting.cut import CornerCut, EdgePoint, StraightCut, Support, Trim, TrimKind
from ..geometry import Path, Point
from ..geometry.tolerance import SAME_FIGURE
from ..marking.marks import MarkSet
from ..panel.datum import Datum
from ..plan.plan import Plan
from ..units import Tape
from .lying import Lying
from .say import Cell, Say

BESIDE, BEYOND = "▼", "◄"
"""Stand before a figure that counts to the far side of the datum, and back past its start."""

_SKEW = math.tan(math.radians(20))
"""A line that leans more than this runs neither along nor across."""

_SLIGHT = 0.02
"""A coordinate that moves a line by no more than this share of itself is rounded to the nearest:
that is a fiftieth of a division at most."""

_TOLD_FROM = 4.0
"""A falling piece is told by its mass from here, kg (our choice)."""


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


def rounds_of(plan: Plan) -> tuple[Round, ...]:
    """Return what is set out at one time and what is set out at the next."""
    again, panel = plan.cuts.again, plan.job.panel
    rough = [trim for trim in plan.cuts.trims if trim.kind is TrimKind.ROUGH]
    rest = [trim for trim in plan.cuts.trims if trim.kind is not TrimKind.ROUGH]
    loose = [cut for cut in plan.cuts.corner_cuts if _leg(cut) is None]
    if again is None:
        lines = _numbered([*plan.cuts.trims, *loose], 1)
        corners = _corners(plan, 1 + len(lines))
        return (Round(plan.datum, panel.boundary, plan.marks, lines, corners),)
    first = _numbered(rough, 1)
    lines = _numbered([*rest, *loose], 1 + len(first))
    corners = _corners(plan, 1 + len(first) + len(lines))
    full = Round(again.datum, again.boundary, again.marks, lines, corners)
    short = Round(plan.datum, panel.boundary, None, first, last=False)
    return (short, full) if first else (full,)


def _numbered(cuts: Sequence[StraightCut], first: int) -> tuple[SawLine, ...]:
    return tuple(saw_line(n, cut) for n, cut in enumerate(cuts, start=first))


def saw_line(number: int, cut: StraightCut) -> SawLine:
    """Return a straight cut with its number and the way it runs."""
    along, square = _offset(cut)
    runs = Runs.SLANT
    if along <= _SKEW * square:
        runs = Runs.ACROSS
    elif square <= _SKEW * along:
        runs = Runs.ALONG

    def ordered(start: EdgePoint, end: EdgePoint) -> tuple[EdgePoint, EdgePoint]:
        back = (runs is Runs.ACROSS and start.square > end.square) or (
            runs is Runs.ALONG and start.along > end.along
        )
        return (end, start) if back else (start, end)

    guide = None if cut.guide is None else ordered(cut.guide.start, cut.guide.end)
    return SawLine(number, cut, runs, ordered(cut.start, cut.end), guide)


def _offset(cut: StraightCut) -> tuple[float, float]:
    """Return how far one end of a cut lies from the other, along the datum and square to it, mm."""
    return abs(cut.end.along - cut.start.along), abs(cut.end.square - cut.start.square)


def _corners(plan: Plan, number: int) -> tuple[CornerLine, ...]:
    told = ((cut, _leg(cut)) for cut in plan.cuts.corner_cuts)
    held = [(cut, plan.job.tape.towards(leg, -1.0)) for cut, leg in told if leg is not None]
    if not held:
        return ()
    cuts, legs = zip(*held, strict=True)
    return (CornerLine(number, cuts, legs),)


def _leg(cut: CornerCut) -> float | None:
    """Return how far each way a corner cut lies from its corner, mm; None where that differs."""
    along, square = _offset(cut)
    if cut.leg is None and abs(along - square) <= SAME_FIGURE:
        return along
    return cut.leg


def numbers_of(plan: Plan) -> dict[str, int]:
    """Return the number of each straight cut by its label."""
    held: dict[str, int] = {}
    for each in rounds_of(plan):
        held |= {line.cut.label: line.number for line in each.lines}
        held |= {cut.label: corner.number for corner in each.corners for cut in corner.cuts}
    return held


def signed(value: float, tape: Tape, sign: str) -> str:
    """Return a figure; one below nothing has a sign of its own in place of a minus."""
    figure = tape.figure(value)
    return f"{sign}{figure[1:]}" if figure.startswith("−") else figure


def _offsets(place: EdgePoint, waste: Point, say: Say) -> tuple[float, float]:
    """Return the offsets of a place on a line as they are told, mm: off the top."""
    way = waste.turned(-say.datum.frame.turn)
    return _off(place.along, way.x, say), _off(place.square, way.y, say)


def _off(length: float, way: float, say: Say) -> float:
    return say.tape.towards(length, way if abs(way) > _SLIGHT else 0.0)


def figures_of(line: SawLine, ends: tuple[EdgePoint, EdgePoint], say: Say) -> tuple[Cell, Cell]:
    """Return what a line is found by, from the first end to the second; alike ones are told once.

    Each cell names its axis: ``along``, ``square``, the letter of a corner, or ``both``.
    """
    waste = line.cut.waste
    told = [_offsets(end, waste, say) for end in ends]
    if line.runs is Runs.SLANT:
        cells = [_place(end, line, say) for end in ends]
        return cells[0], cells[1]
    axis, sign = (0, BEYOND) if line.runs is Runs.ACROSS else (1, BESIDE)
    name = ("along", "square")[axis]
    values = [offsets[axis] for offsets in told]
    true = abs(ends[0].along - ends[1].along), abs(ends[0].square - ends[1].square)
    if true[axis] <= SAME_FIGURE or say.tape.figure(values[0]) == say.tape.figure(values[1]):
        cell = Cell(signed(values[0], say.tape, sign), "", name)
        return cell, Cell("", line.runs.value)
    first, last = say.datum.names
    notes = ("near", "far") if axis == 0 else (f"at {first}", f"at {last}")
    return tuple(  # type: ignore[return-value]
        Cell(signed(value, say.tape, sign), note, name)
        for value, note in zip(values, notes, strict=True)
    )


def _place(end: EdgePoint, line: SawLine, say: Say) -> Cell:
    if end.corner:
        corners = (r.point for r in say.datum.references if r.name == end.corner)
        way = end.point - next(corners, end.point)
        told = _off(end.distance, way.dot(line.cut.waste) / max(way.norm, 1.0), say)
        return Cell(say.tape.figure(told), f"from {end.corner}", end.corner)
    along, square = _offsets(end, line.cut.waste, say)
    both = f"{signed(along, say.tape, BEYOND)} | {signed(square, say.tape, BESIDE)}"
    return Cell(both, "", "both")


def falls_words(line: SawLine, lying: Lying, tape: Tape) -> str:
    """Return what falls at a line, how much of it, and how it is held."""
    cut = line.cut
    side = lying.side(cut.waste)
    if isinstance(cut, Trim) and cut.kind.stops:
        return "stops at the hollow corner; nothing falls yet"
    size = tape.figure(cut.widest)
    ends = line.runs is Runs.ACROSS
    what = f"{side} end, {size} long" if ends else f"{side} strip, {size} wide"
    if isinstance(cut, CornerCut):
        what = "corner"
    mass = f", {tape.mass(cut.heaviest)}" if cut.heaviest >= _TOLD_FROM else ""
    held = {Support.PEOPLE: ": two people", Support.BOARDS: "; boards under it"}
    held_by = ": carry both ends" if cut.wall is not None else held.get(cut.support, "")
    return f"{what}{mass}{held_by}"
