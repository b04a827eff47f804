"""All marks of a top on a panel, made before the first cut, and distances that show a slip."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from ..geometry.intersect import crossings
from ..geometry.point import Point
from ..geometry.tolerance import SAME_PLACE
from ..outlines import Outline
from ..panel import Spoils
from ..panel.datum import Datum
from ..top import Top
from ..units import Tape
from .instruments import Ordinate, StringCompass, StringLoop, Swing, TrammelRod, oval_checks
from .mark import Check, Ground, Kind, Mark, Proves, best_ties
from .method import Workshop
from .places import Group, groups_for, swept_by


@dataclass(frozen=True, slots=True)
class MarkSet:
    """Everything that is set out on the panel."""

    marks: tuple[Mark, ...]
    """In the order in which they are made."""
    checks: tuple[Check, ...]
    compasses: tuple[StringCompass, ...] = ()
    loop: StringLoop | None = None
    rod: TrammelRod | None = None
    """For an oval."""
    ordinates: tuple[Ordinate, ...] = ()
    """Points of a quarter of an oval or a superellipse that prove its line."""

    def rounding_error(self, tape: Tape) -> float:
        """Return how far rounding marks and a radius to the tape's division moves the line, mm."""
        worst = max((mark.rounding_error(tape) for mark in self.marks), default=0.0)
        return worst + tape.division / 2

    @property
    def tied(self) -> tuple[Mark, ...]:
        """The marks that are worth two tapes: centres and nails, or else corners and ends too."""
        tied = tuple(m for m in self.marks if m.kind.is_pinned and m.ties is not None)
        outer = (Kind.END, Kind.SIDE, Kind.CORNER)
        more = tuple(m for m in self.marks if m.kind in outer and m.ties is not None)
        return tied if len(tied) > 1 else (*tied, *more)

    def of(self, kind: Kind) -> tuple[Mark, ...]:
        """Return the marks of one kind, in order."""
        return tuple(mark for mark in self.marks if mark.kind is kind)


def marks_for(top: Top, datum: Datum, workshop: Workshop | None = None) -> MarkSet:
    """Return the marks of a top; the workshop gives nails, pencil and string for an oval."""
    outline, turn = top.outline, top.turn_from(datum)
    ground = Ground(top, datum)
    groups = (*groups_for(outline, top.lipping, ground), *_centrelines(top))
    marks = tuple(
        _mark(label, group.kind, top.placement(point), ground)
        for group in groups
        for label, point in group.seen(turn)
    )
    checks = checks_for(outline, datum, {mark.label: mark.point for mark in marks})
    held = MarkSet(marks, checks, compasses_for(top, datum, ground))
    if not outline.bends_everywhere:
        return held
    size = (outline.length, outline.width)
    if outline.on_diagonals:
        return replace(held, ordinates=oval_checks(*size, outline.figures["exponent"]))
    loop, rod = (workshop or Workshop()).loop(*size), TrammelRod.for_oval(*size)
    return replace(held, loop=loop, rod=rod, ordinates=oval_checks(*size))


def compasses_for(
    top: Top, datum: Datum, ground: Ground | None = None
) -> tuple[StringCompass, ...]:
    """Return the radii that a top's arcs are swung with, and the marks to swing them about."""
    turn, groups = top.turn_from(datum), groups_for(top.outline, ground=ground)
    kinds = (Kind.ARC_CENTRE, Kind.CENTRE)
    centres = [group for kind in kinds for group in groups if group.kind is kind]
    named = [mark for group in centres for mark in group.seen(turn)]

    def labels(swing: Swing) -> tuple[str, ...]:
        held = (n for n, at in named if any(at.distance_to(c) <= SAME_PLACE for c in swing.centres))
        return tuple(held)[: len(swing.centres)]

    return tuple(
        StringCompass(labels(swing), swing.radius, swing.core_radius(top.lipping))
        for swing in swept_by(top.outline, ground)
    )


def _centrelines(top: Top) -> list[Group]:
    """Return where both centrelines leave the panel, in the outline's own frame."""
    outline, placement = top.outline, top.placement
    groups = []
    for kind, prefix, size, way in (
        (Kind.CENTRELINE, "L", outline.length, Point(1, 0)),
        (Kind.CROSS_CENTRELINE, "M", outline.width, Point(0, 1)),
    ):
        half = size / 2 - top.lipping  # only what is cut need lie on the wood
        found = crossings(top.panel.boundary, placement.centre, way.turned(placement.turn))
        below = [c.reach for c in found if c.reach <= -half + SAME_PLACE]
        above = [c.reach for c in found if c.reach >= half - SAME_PLACE]
        if below and above:
            groups.append(Group(kind, prefix, (way * max(below), way * min(above))))
    return groups


def _mark(label: str, kind: Kind, point: Point, ground: Ground) -> Mark:
    offsets = ground.datum.coordinates(point)
    mark = Mark(label, kind, point, offsets.along, offsets.square)
    if kind.is_on_panel_edge:
        return mark
    ties, off = best_ties(point, ground.datum.references), ground.missing(point)
    spoilt = (
        defect.name
        for defect in ground.top.panel.defects
        if defect.spoils - {Spoils.SHOWING} and defect.extent.holds_point(point)
    )
    stands_in = next(spoilt, "") if kind.is_pinned and off is None else ""
    return replace(mark, ties=ties, off=off, defect=stands_in)


def checks_for(outline: Outline, datum: Datum, marks: Mapping[str, Point]) -> tuple[Check, ...]:
    """Return the check distances of a panel and of a top on it."""
    corners = datum.corners if len(datum.corners) == 4 else ()
    diagonals = (
        Check(one.name, other.name, one.point.distance_to(other.point), Proves.PANEL)
        for one, other in zip(corners[:2], corners[2:], strict=True)
        if one.usable and other.usable
    )
    held = (
        Check(one, end, marks[one].distance_to(marks[end]), *what)
        for one, end, *what in _pairs(outline, marks)
        if one in marks and end in marks
    )
    return (*diagonals, *held)


Pair = tuple[str, str, Proves] | tuple[str, str, Proves, bool]
"""Two labels, what is proved, and whether it is the second diagonal."""


def _pairs(outline: Outline, marks: Mapping[str, Point]) -> Iterator[Pair]:
    """Yield which marks to measure between, and why; the two axes last."""
    if not outline.free_sizes:
        yield from _freeform(marks)
    elif outline.corners and not outline.is_boxed:
        yield from _regular(len(outline.corners), marks)
    elif outline.is_boxed:
        yield from _ROUND_END if "K" in marks and "X3" not in marks else _BOXED
    else:
        yield from _CURVED
    long, short = Proves.LENGTH, Proves.WIDTH
    if outline.free_sizes == 1:
        long = short = Proves.DIAMETER if outline.is_round else Proves.ACROSS_FLATS
        if outline.length > outline.width:
            long = Proves.ACROSS_CORNERS
    yield ("E1", "E2", long)
    yield ("S1", "S2", short)


def _regular(sides: int, marks: Mapping[str, Point]) -> Iterator[Pair]:
    """Yield all sides, all widths across corners, and one width across each pair of flats.

    Two corners that face each other over the top lie across the flats as its sides do.
    """
    names, half = ("X", "E") if sides == 6 else ("X",), sides // 2
    corners = [name for name in marks if name[0] in names]
    ring = sorted(corners, key=lambda name: (marks[name] - marks["O"]).angle)
    first = ring.index("X1")
    ring = [*ring[first:], *ring[:first]]
    for i in range(sides):
        yield (ring[i], ring[(i + 1) % sides], Proves.SIDE)
    for i in range(half):
        if {ring[i], ring[i + half]} != {"E1", "E2"}:
            yield (ring[i], ring[i + half], Proves.ACROSS_CORNERS)
    for i in range(0, 2 * half, 2) if sides == 6 else range(half):
        yield (ring[i], ring[(i + half - 1) % sides], Proves.ACROSS_FLATS)


def _freeform(marks: Mapping[str, Point]) -> Iterator[Pair]:
    """Yield the way from each corner to the next, and diagonals that fix every corner.

    With all sides and the diagonals of one corner a polygon stands as stiff as a lattice girder.
    """
    yield ("K1", "K2", Proves.CENTRES)
    count = sum(1 for name in marks if name[0] == "X" and name[1:].isdigit())
    for i in range(1, count + 1 if count > 2 else count):
        yield (f"X{i}", f"X{i % count + 1}", Proves.NEXT_CORNER)
    for i in range(3, count):
        yield ("X1", f"X{i}", Proves.DIAGONAL)
    if count == 4:
        yield ("X2", "X4", Proves.DIAGONAL, True)


_BOXED: tuple[Pair, ...] = (
    ("X1", "X3", Proves.CORNERS),
    ("X2", "X4", Proves.CORNERS, True),
    ("X1", "X2", Proves.LONG_SIDE),
    ("X4", "X3", Proves.LONG_SIDE),
    ("X1", "X4", Proves.END),
    ("X2", "X3", Proves.END),
    ("K1", "K3", Proves.CORNER_CENTRES),
    ("K2", "K4", Proves.CORNER_CENTRES, True),
)
"""Of tops that are set out from a box, as far as they have these marks."""

_ROUND_END: tuple[Pair, ...] = (
    ("T1", "T2", Proves.STRAIGHTS),
    ("X1", "T2", Proves.TANGENTS),
    ("X2", "T1", Proves.TANGENTS, True),
    ("X1", "X2", Proves.END),
)
"""Where one end is a half circle and the other has corners."""

_CURVED: tuple[Pair, ...] = (
    ("C1", "C2", Proves.CENTRES),
    ("T1", "T4", Proves.STRAIGHTS),
    ("T2", "T3", Proves.STRAIGHTS),
    ("T1", "T3", Proves.TANGENTS),
    ("T2", "T4", Proves.TANGENTS, True),
    ("N1", "N2", Proves.NAILS),
    ("N1", "S1", Proves.NAIL_TO_SIDE),
    ("N2", "S2", Proves.NAIL_TO_SIDE),
    ("D1", "D3", Proves.ON_CURVE),
    ("D2", "D4", Proves.ON_CURVE, True),
)
"""Of the others."""
