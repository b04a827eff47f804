"""The first page in words: what is pinned over the bench and read from an arm's length."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from ..cutting import HandCut, JigsawCut, RouterCut
from ..geometry.tolerance import SAME_FIGURE
from ..job.plan import Plan
from ..marking.instruments import Swing, TrammelRod
from ..marking.joined import JoinedCorners
from ..marking.mark import Check, Kind, Mark, Proves
from ..marking.marks import MarkSet
from ..marking.method import HandTool
from ..marking.regular_methods import SquareAndHalfDiagonal, SteppedCircle
from ..marking.string_loop import StringLoop
from ..outlines import Capsule, Circle, Outline, RegularPolygon, RoundedRectangle
from ..units import Tape
from .datum import DIAGONAL
from .legs import in_quarters
from .lying import Lying
from .panel import made_of
from .passage import Cell
from .saw_lines import BESIDE, BEYOND, CornerLine, Round, SawLine, falls_words, figures_of, signed
from .say import Say, listed, thin_words, unit_words

TWO_TAPES = 5.0
"""A mark is told by two tapes where they hold it within this, mm (our choice)."""

CHECKS = 5
"""Distances that are told on the first page."""


@dataclass(frozen=True, slots=True)
class Head:
    """What the page is headed with."""

    name: str
    came: tuple[str, ...]
    size: str
    note: str


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
    """What its signs mean, and which edges no saw takes."""
    after: str = ""
    """What happens before the next round."""
    rest: tuple[tuple[str, str, str], ...] = field(default=())
    """How the outline is cut last: a name, a figure and words."""


def head_words(plan: Plan) -> Head:
    """Return name, origin and size."""
    job, tape = plan.job, plan.job.tape
    panel, box = job.panel, job.panel.boundary.bounds
    most = max(box.width, box.height), min(box.width, box.height)
    sizes = " × ".join(tape.figure(size) for size in (*most, panel.thickness))
    came = [f"from the {panel.name}: {made_of(panel)}, {sizes}"]
    if panel.flattened is not None:
        when = "after the first lines" if plan.cuts.again else "before any mark"
        came.append(f"flattened to {tape.figure(panel.flattened)} {when}")
    outline = plan.top.outline
    parts = [_shape(outline, tape), f"{tape.figure(panel.made_thickness)} thick"]
    if plan.top.lipping:
        lipping = thin_words(plan.top.lipping, tape).removesuffix(f" {tape.unit}")
        parts.insert(1, f"lipping of {lipping} included")
    parts.append(f"all figures in {unit_words(tape)}")
    return Head(job.name, tuple(came), _size(outline, tape), " · ".join(p for p in parts if p))


def _size(outline: Outline, tape: Tape) -> str:
    if isinstance(outline, Circle):
        return f"ø {tape.figure(outline.length)}"
    if isinstance(outline, RegularPolygon):
        return tape.figure(outline.across_flats)
    return f"{tape.figure(outline.length)} × {tape.figure(outline.width)}"


def _shape(outline: Outline, tape: Tape) -> str:
    if isinstance(outline, Capsule):
        return f"round ends, R {tape.figure(outline.width / 2)}"
    if isinstance(outline, RoundedRectangle):
        radii = dict.fromkeys(tape.figure(radius) for radius in outline.radii)
        return f"corners R {listed(radii)}"
    if isinstance(outline, RegularPolygon):
        return f"{outline.name}, across the flats"
    return outline.name


def face_words(plan: Plan, lying: Lying) -> tuple[str, str]:
    """Return which face is up, in capitals, and at which hand the tapes begin."""
    first = plan.datum.first.name
    what = f"Corner {first} lies" if len(first) == 1 and first not in "PQ" else f"{first} lies"
    if lying.mirrored:
        return "SHOW FACE DOWN", f"You look at the underside. {what} at your {lying.hand}."
    return "SHOW FACE UP", f"You look at the show face. {what} at your {lying.hand}."


def lies_words(lying: Lying) -> str:
    """Return the same in short, for the head of a part of the work."""
    up = "DOWN" if lying.mirrored else "UP"
    return f"show face {up}, {lying.datum.first.name} at your {lying.hand}"


def shown_marks(plan: Plan, held: MarkSet) -> tuple[Mark, ...]:
    """Return the marks that the way to draw needs; the others are checked, not set out."""
    kinds = {Kind.CENTRE}
    figures = plan.methods[0].figures if plan.methods else None
    match figures:
        case Swing():
            kinds |= {Kind.ARC_CENTRE}
            kinds |= {Kind.CORNER} if plan.methods[0].joins else set()
        case StringLoop():
            kinds |= {Kind.NAIL}
        case TrammelRod():
            pass
        case JoinedCorners() | None:
            kinds |= {Kind.CORNER}
        case SteppedCircle() | SquareAndHalfDiagonal():
            kinds |= {Kind.END, Kind.SIDE, Kind.CORNER}
        case _:
            kinds |= {Kind.END, Kind.SIDE}
    return tuple(mark for mark in held.marks if mark.kind in kinds)


def drawn_marks(plan: Plan, held: MarkSet) -> tuple[Mark, ...]:
    """Return the marks that stand on the drawing: those, and the few that a check names."""
    shown = shown_marks(plan, held)
    checked = {name for check in held.checks for name in (check.start, check.end)}
    few = [m for m in held.marks if m.kind is Kind.TANGENT]
    extra = few if len(few) <= 4 else []
    if len(shown) == 1:
        extra += [m for m in held.marks if m.kind in (Kind.END, Kind.SIDE) and m.label in checked]
    return tuple(m for m in held.marks if m in shown or m in extra)


def round_table(plan: Plan, each: Round, lying: Lying) -> RoundTable:
    """Return the tables of one setting out."""
    say = Say(plan.job.tape, each.datum, lying.mirrored)
    held = each.marks
    shown = () if held is None else shown_marks(plan, held)
    saws = [_saw_row(line, say, lying) for line in each.lines]
    saws += [_corner_row(corner, say, lying) for corner in each.corners]
    depths = dict.fromkeys(d for line in each.lines for d in line.cut.depths)
    told = "".join(f"{c.figure} {c.note}" for row in saws for c in (row.one, row.other))
    told += "".join(
        f"{m.along.figure}{m.square.figure}" for m in map(lambda m: _mark(m, say), shown)
    )
    return RoundTable(
        "Saw" if each.last else "Saw first",
        each.datum.names,
        tuple(_mark(mark, say) for mark in shown),
        () if held is None else tuple(_curve(plan, held)),
        tuple(saws),
        " then ".join(say.tape.figure(depth) for depth in depths),
        tuple(_notes(plan, each, told)),
        "" if each.last else _between(plan),
        tuple(_last_cuts(plan)) if each.last else (),
    )


def _mark(mark: Mark, say: Say) -> MarkRow:
    tape, ties = say.tape, mark.ties
    tapes = ""
    if ties is not None and ties.error + ties.rounding_error(tape) <= TWO_TAPES:
        tapes = "  ".join(f"{t.name} {tape.figure(t.distance)}" for t in (ties.first, ties.second))
    along = Cell(signed(mark.along, tape, BEYOND), "", "along")
    return MarkRow(mark.label, along, Cell(signed(mark.square, tape, BESIDE), "", "square"), tapes)


def _saw_row(line: SawLine, say: Say, lying: Lying) -> SawRow:
    one, other = figures_of(line, line.ends, say)
    if line.guide is None:
        guide: tuple[Cell, ...] = (Cell("", "by the saw's own offset"),)
    else:
        guide = tuple(c for c in figures_of(line, line.guide, say) if c.figure)
    if one.axis == "square" and not other.figure:
        one, other = other, one  # one figure stands under its own axis
    return SawRow(
        line.number, (line.cut.label,), one, other, guide, falls_words(line, lying, say.tape)
    )


def _corner_row(corner: CornerLine, say: Say, lying: Lying) -> SawRow:
    tape, cuts = say.tape, corner.cuts
    guides = {cut.guide.offset for cut in cuts if cut.guide is not None and not cut.handsaw}
    guide = tuple(Cell(tape.figure(offset), "inside the line") for offset in sorted(guides))
    sawn = guide or (Cell("", "by handsaw, clamped"),)
    where = "from where lines cross, or line and edge; hold the triangle"
    figures = [tape.figure(leg) for leg in corner.legs]
    one, other = Cell(figures[0], "", "leg"), Cell("", "each way from each corner")
    each: tuple[tuple[str, str], ...] = ()
    if len(set(figures)) > 1:
        each = tuple(
            (f, lying.corner(c.start.point, c.waste)) for f, c in zip(figures, cuts, strict=True)
        )
        one, other = Cell("", "each way", "leg"), Cell()
    return SawRow(corner.number, tuple(c.label for c in cuts), one, other, sawn, where, each)


def _curve(plan: Plan, held: MarkSet) -> Iterator[tuple[str, str]]:
    """Yield how the outline is drawn from its marks, as far as figures say it."""
    tape = plan.job.tape
    tangents = [mark for mark in held.marks if mark.kind is Kind.TANGENT]
    if not plan.methods:
        yield "Edge", "pencil from corner to corner"
        return
    best = plan.methods[0]
    same = [m for m in plan.methods if m.name == best.name and m.serves == best.serves]
    joined = "; then T to T" if tangents and best.joins or len(tangents) == 4 else ""
    for method in same:
        match method.figures:
            case Swing() as swing:
                at = centres_of(
                    plan, method.pivots and [p.at for p in method.pivots] or swing.centres
                )
                core = ""
                if plan.top.lipping and swing.core_radius(plan.top.lipping) > 0:
                    core = f"; core R {tape.figure(swing.core_radius(plan.top.lipping))}"
                yield "Curve", f"pencil R {tape.figure(swing.radius)}{core} about {at}{joined}"
            case TrammelRod() as rod:
                yield (
                    "Curve",
                    (
                        f"rod: from the pencil {tape.figure(rod.to_long_axis_pin)} to the pin on the "
                        f"long line, {tape.figure(rod.to_short_axis_pin)} to the pin on the short one"
                    ),
                )
            case StringLoop() as loop:
                yield "Curve", f"loop {tape.figure(loop.loop)}, slack, round N1 and N2"
            case JoinedCorners():
                yield "Edge", "pencil from corner to corner"
            case _:
                yield "Curve", f"{method.name}: in its step"


def centres_of(plan: Plan, places: Sequence[object]) -> str:
    """Return the labels of the marks that a radius is swung about, in short."""
    named = {m.label: plan.top.placement.into(m.point) for m in plan.marks.marks}
    found = [
        next((n for n, at in named.items() if at.distance_to(place) <= SAME_FIGURE), "")  # type: ignore[arg-type]
        for place in places
    ]
    labels = [label for label in dict.fromkeys(found) if label]
    if not labels:
        return "its centre"
    return f"{labels[0]} to {labels[-1]}" if len(labels) > 3 else listed(labels)


def _notes(plan: Plan, each: Round, told: str) -> Iterator[str]:
    first, last = each.datum.names
    if BESIDE in told:
        yield f"{BESIDE} on the side of {each.datum.name} away from the wood."
    if BEYOND in told:
        yield f"{BEYOND} back past {first}, away from {last}."
    if not each.last:
        return
    bare = [side.edge for side in plan.cuts.skipped if side.edge]
    if bare:
        yield f"Edge {listed(bare)}: no saw cut."
    kept = [edge.name for edge in plan.cuts.kept]
    if kept:
        yield f"Kept as it is: edge {listed(name or 'drawn thin' for name in kept)}."


def _between(plan: Plan) -> str:
    again = plan.cuts.again
    assert again is not None
    return (
        f"flatten to {plan.job.tape.figure(again.thickness)}, rest, strike {again.datum.name}; "
        f"all that follows is measured from {again.datum.first.name}"
    )


def _last_cuts(plan: Plan) -> Iterator[tuple[str, str, str]]:
    """Yield how the line itself is cut: with what, its figure, and the rest in words."""
    tape = plan.job.tape
    for cut in plan.cuts.curve_cuts:
        radii = [tape.figure(r.radius) for r in cut.radii] if not isinstance(cut, HandCut) else []
        figure = f"R {radii[0]}" if len(radii) == 1 else ""
        if isinstance(cut, JigsawCut):
            outside = tape.figure(cut.allowance, at_least=True)
            yield "Jigsaw", figure or outside, "outside the line, all the way round"
        elif isinstance(cut, RouterCut):
            line = "inner line" if plan.top.lipping else "line"
            pin = ", pin to the near edge of the bit" if figure else f" to the {line}"
            yield (
                "Rout",
                figure,
                f"{pin.removeprefix(', ').strip()}, {cut.passes} passes of "
                f"{tape.figure(cut.depth, at_least=True)}"
                + ("; straights last, by a straightedge" if cut.straights else ""),
            )
        else:
            yield "By hand", "", "to the line with plane, spokeshave and file"


def checks_words(plan: Plan, held: MarkSet) -> tuple[tuple[tuple[str, str], ...], str]:
    """Return at most five distances, diagonals first, and what to do where one is out."""
    seen = {mark.label for mark in drawn_marks(plan, held)}
    fit = [
        check
        for check in held.checks
        if check.proves is Proves.PANEL or {check.start, check.end} <= seen
    ]
    rows: dict[tuple[Proves, str], list[Check]] = {}
    for check in fit:
        rows.setdefault((check.proves, plan.job.tape.figure(check.distance)), []).append(check)
    told = []
    for (_, figure), checks in list(rows.items())[:CHECKS]:
        pairs = [f"{check.start}–{check.end}" for check in checks[:2]]
        more = " …" if len(checks) > len(pairs) else ""
        told.append((" and ".join(pairs) + more, figure))
    if not any(check.proves is Proves.PANEL for check in fit):
        return tuple(told), "One that is out shows a slip: find it before the first cut."
    limit = plan.job.tape.measure(DIAGONAL)
    return tuple(told), f"A panel diagonal out by over {limit}: stop, it is not as measured."


def legs_words(plan: Plan) -> tuple[tuple[str, str], ...]:
    """Return where the legs stand, by quarters where they stand in pairs: figures and words."""
    legs = plan.legs
    if legs is None:
        return ()
    tape = plan.job.tape
    quarters = in_quarters(plan, legs)
    first = (
        (quarters, "from O to each middle")
        if quarters
        else ("", "numbered in the drawing; their places stand in the step")
    )
    foot, shape = legs.foot, legs.foot.shape.value
    thick = " × ".join(dict.fromkeys(tape.figure(size) for size in (foot.length, foot.width)))
    over = legs.overhang
    return (
        first,
        ("", f"{len(legs.legs)} {shape}, {thick} thick, {tape.figure(legs.leg_length)} long"),
        ("", f"beyond them: end {tape.figure(over.end)}, side {tape.figure(over.side)}"),
    )


def ready_words(plan: Plan) -> tuple[str, ...]:
    """Return what this job needs at hand."""
    tape, cuts = plan.job.tape, plan.cuts
    longest = max((trim.straightedge for trim in cuts.trims), default=0.0)
    held = ["tape", "large square"]
    if longest:
        step = 25.4 if tape.imperial else 100.0
        held.insert(1, f"straightedge of {tape.measure(math.ceil(longest / step) * step)}")
    if plan.methods:
        held += [t.value for t in plan.methods[0].tools if t not in (HandTool.TAPE, HandTool.PAPER)]
    held += ["metal detector"]
    if cuts.trims:
        held += ["saw"]
    tools = {
        JigsawCut: "jigsaw with a fine blade",
        RouterCut: "router with a straight bit",
        HandCut: "plane, spokeshave, file",
    }
    for cut in cuts.curve_cuts:
        held.append(tools[type(cut)])
    held += ["cramps", "four trestles and two long boards", "knife, chalk"]
    return (*held, "ear, eye and dust protection")


def foot_words(tape: Tape) -> str:
    """Return what the figures are rounded to, and where the rest is."""
    step = "1/16" if tape.imperial else "mm"
    return (
        f"Figures to the nearest {step}, saw lines off the top. Letters stand on both faces. "
        "The work step by step: from page 2."
    )
