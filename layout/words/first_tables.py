"""The tables of the first page: marks, saw lines, and how the outline is drawn and cut."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from ..cutting.cut import CornerCut, HandCut, JigsawCut, RouterCut
from ..geometry.point import Point
from ..geometry.tolerance import SAME_FIGURE
from ..marking.instruments import StringLoop, Swing, TrammelRod
from ..marking.mark import Kind, Mark
from ..marking.marks import MarkSet
from ..marking.method import JoinedCorners
from ..marking.methods import SquareAndHalfDiagonal, SteppedCircle
from ..plan.plan import Plan
from ..units import Tape
from . import saw_lines as saw
from .say import Cell, Say, listed

_OWN_OFFSET = "by the saw's own offset"
_BY_HAND = "by handsaw, clamped"
TWO_TAPES = 5.0  # a mark is told by two tapes where they hold it within this, mm (our choice)


@dataclass(frozen=True, slots=True)
class MarkRow:
    """A mark by its two offsets, and by two tapes where they hold it."""

    name: str
    along: Cell
    square: Cell
    tapes: str


@dataclass(frozen=True, slots=True)
class SawRow:
    """A saw line in the table."""

    number: int
    labels: tuple[str, ...]
    """What its cuts are called elsewhere."""
    one: Cell
    other: Cell
    guide: tuple[Cell, ...]
    falls: str
    each: tuple[tuple[str, str], ...] = ()
    """Of corner cuts that differ, the figure of each with its corner."""


@dataclass(frozen=True, slots=True)
class RoundTable:
    """What is set out at one time, in tables."""

    title: str
    names: tuple[str, str]
    """Ends of the datum."""
    marks: tuple[MarkRow, ...]
    curve: tuple[tuple[str, str], ...]
    """Further lines under the marks: a name and words."""
    saws: tuple[SawRow, ...]
    depth: str
    notes: tuple[str, ...] = ()
    before: str = ""
    """What its signs mean and which edges no saw takes; what happens before it to a slab."""
    rest: tuple[tuple[str, str, str], ...] = ()
    """How the outline is cut last: a name, a figure and words."""


_ENDS = (Kind.END, Kind.SIDE)
_SHOWN: dict[type, tuple[Kind, ...]] = {
    Swing: (Kind.ARC_CENTRE,),
    StringLoop: (Kind.NAIL,),
    JoinedCorners: (Kind.CORNER,),
    SteppedCircle: (*_ENDS, Kind.CORNER),
    SquareAndHalfDiagonal: (*_ENDS, Kind.CORNER),
}
"""What each way to draw needs besides the centre; the others need the ends of both axes."""


def shown_marks(plan: Plan, held: MarkSet) -> tuple[Mark, ...]:
    """Return the marks that the way to draw needs; the others are checked, not set out."""
    kinds: tuple[Kind, ...] = (Kind.CORNER,)
    if plan.methods:
        best = plan.methods[0]
        kinds = _SHOWN.get(type(best.figures), _ENDS)
        if kinds == (Kind.ARC_CENTRE,) and not held.of(Kind.ARC_CENTRE):
            kinds = _ENDS  # of a circle, whose centre is O
        kinds += (Kind.CORNER,) * (isinstance(best.figures, Swing) and best.joins > 0)
    return tuple(mark for mark in held.marks if mark.kind in (Kind.CENTRE, *kinds))


def round_table(plan: Plan, each: saw.Round, lying: saw.Lying) -> RoundTable:
    """Return the tables of one setting out."""
    say = Say.of(plan, each.datum)
    tape, held, again = say.tape, each.marks, plan.cuts.again
    marks = [] if held is None else [_mark(mark, tape) for mark in shown_marks(plan, held)]
    saws = [_saw_row(line, say, lying) for line in each.lines]
    saws += [_corner_row(corner, tape, lying) for corner in each.corners]
    cuts = [line.cut for line in each.lines]
    cuts += [cut for corner in each.corners for cut in corner.cuts if not cut.handsaw]
    depths = dict.fromkeys(tape.figure(depth) for cut in cuts for depth in cut.depths)
    told = "".join(f"{c.figure} {c.note}" for row in saws for c in (row.one, row.other))
    told += "".join(f"{mark.along.figure}{mark.square.figure}" for mark in marks)
    before = "Flatten to {thickness:figure}, rest, strike {datum.name}: all that follows is "
    before += "measured from {datum.first.name}."
    return RoundTable(
        "Saw" if each.last else "Saw first",
        each.datum.names,
        tuple(marks),
        () if held is None else tuple(_curve(plan)),
        tuple(saws),
        " then ".join(depths),
        tuple(_notes(plan, each, told)),
        tape.fill(before, again) if each.last and again is not None else "",
        tuple(_last_cuts(plan)) if each.last else (),
    )


def _mark(mark: Mark, tape: Tape) -> MarkRow:
    ties, tapes = mark.ties, ""
    if ties is not None and ties.error + ties.rounding_error(tape) <= TWO_TAPES:
        tapes = "  ".join(f"{t.name} {tape.figure(t.distance)}" for t in (ties.first, ties.second))
    along = Cell(saw.signed(mark.along, tape, saw.BEYOND), "", "along")
    return MarkRow(
        mark.label, along, Cell(saw.signed(mark.square, tape, saw.BESIDE), "", "square"), tapes
    )


def _saw_row(line: saw.SawLine, say: Say, lying: saw.Lying) -> SawRow:
    one, other = saw.figures_of(line, line.ends, say)
    by_hand = isinstance(line.cut, CornerCut) and line.cut.handsaw
    guide: tuple[Cell, ...] = (Cell("", _BY_HAND if by_hand else _OWN_OFFSET),)
    if line.guide is not None:
        guide = tuple(c for c in saw.figures_of(line, line.guide, say) if c.figure)
    if one.axis == "square" and not other.figure:
        one, other = other, one  # one figure stands under its own axis
    falls = saw.falls_words(line, lying, say.tape)
    return SawRow(line.number, (line.cut.label,), one, other, guide, falls)


def _corner_row(corner: saw.CornerLine, tape: Tape, lying: saw.Lying) -> SawRow:
    cuts, figures = corner.cuts, [tape.figure(leg) for leg in corner.legs]
    guides = {cut.guide.offset for cut in cuts if cut.guide is not None and not cut.handsaw}
    guide = tuple(Cell(tape.figure(offset), "inside the line") for offset in sorted(guides))
    by_hand = all(cut.handsaw for cut in cuts)
    guide = guide or (Cell("", _BY_HAND if by_hand else _OWN_OFFSET),)
    one, other = Cell(figures[0], "", "leg"), Cell("", "each way from each corner")
    each = [(f, lying.corner(c.start.point, c.waste)) for f, c in zip(figures, cuts, strict=True)]
    if len(set(figures)) > 1:
        one, other = Cell("", "each way", "leg"), Cell()
    else:
        each = []
    labels, falls = tuple(c.label for c in cuts), "from where lines or edges meet; boards under it"
    return SawRow(corner.number, labels, one, other, guide, falls, tuple(each))


def _curve(plan: Plan) -> Iterator[tuple[str, str]]:
    """Yield how the outline is drawn from its marks, as far as figures say it."""
    tape, corners = plan.job.tape, ("Edge", "pencil from corner to corner")
    if not plan.methods:
        yield corners
        return
    best = plan.methods[0]
    tangents = sum(mark.kind is Kind.TANGENT for mark in plan.marks.marks)
    joined = "; then T to T" if (tangents and best.joins) or tangents == 4 else ""
    if best.joins and plan.top.outline.free_sizes:
        joined = "; then X to X and X to T"
    for method in plan.methods:
        if method.name != best.name or method.serves != best.serves:
            continue
        match method.figures:
            case Swing() as swing:
                at = _centres(plan, [p.at for p in method.pivots] or swing.centres)
                radius = swing.core_radius(plan.top.lipping) if plan.top.lipping else 0.0
                core = f"; core R {tape.figure(radius)}" if radius > 0 else ""
                yield "Curve", f"pencil R {tape.figure(swing.radius)}{core} about {at}{joined}"
            case TrammelRod() as rod:
                words = (
                    "rod: from the pencil {to_long_axis_pin:figure} to the pin on the long line, "
                    "{to_short_axis_pin:figure} to the pin on the short one"
                )
                yield "Curve", tape.fill(words, rod)
            case StringLoop() as loop:
                yield "Curve", f"loop {tape.figure(loop.loop)}, slack, round N1 and N2"
            case JoinedCorners():
                yield corners
            case _:
                yield "Curve", f"{method.name}: in its step"


def _centres(plan: Plan, places: Sequence[Point]) -> str:
    """Return the labels of the marks that a radius is swung about, in short."""
    named = {m.label: plan.top.placement.into(m.point) for m in plan.marks.marks}
    found = (
        next((n for n, at in named.items() if at.distance_to(place) <= SAME_FIGURE), "")
        for place in places
    )
    labels = [label for label in dict.fromkeys(found) if label]
    return f"{labels[0]} to {labels[-1]}" if len(labels) > 3 else listed(labels) or "its centre"


def _notes(plan: Plan, each: saw.Round, told: str) -> Iterator[str]:
    first, last = each.datum.names
    if saw.BESIDE in told:
        yield f"{saw.BESIDE} on the side of {each.datum.name} away from the wood."
    if saw.BEYOND in told:
        yield f"{saw.BEYOND} back past {first}, away from {last}."
    bare = list(dict.fromkeys(side.edge for side in plan.cuts.skipped if side.edge))
    kept = [edge.name or "drawn thin" for edge in plan.cuts.kept]
    if each.last and bare:
        yield f"Edge{'s' * (len(bare) > 1)} {listed(bare)}: no saw cut."
    if each.last and kept:
        yield f"Kept as it is: edge{'s' * (len(kept) > 1)} {listed(kept)}."


def _last_cuts(plan: Plan) -> Iterator[tuple[str, str, str]]:
    """Yield how the line itself is cut: with what, its figure, and the rest in words."""
    tape = plan.job.tape
    for cut in plan.cuts.curve_cuts:
        match cut:
            case HandCut():
                yield "By hand", "", "to the line with plane, spokeshave and file"
            case JigsawCut():  # no rough line is told nearer than it is
                radius = f"R {tape.at_least(cut.radii[0].radius)}" if len(cut.radii) == 1 else ""
                outside = radius or tape.at_least(cut.allowance)
                yield "Jigsaw", outside, "outside the line, wherever no saw has been"
            case RouterCut():
                radius = f"R {tape.figure(cut.radii[0].radius)}" if len(cut.radii) == 1 else ""
                line = "to the inner line" if plan.top.lipping else "to the line"
                pin = "pin to the near edge of the bit" if radius else line
                last = "; straights last, by a straightedge" if cut.straights else ""
                depth = tape.at_least(cut.depth)
                yield "Rout", radius, f"{pin}, {cut.passes} passes of {depth}{last}"
