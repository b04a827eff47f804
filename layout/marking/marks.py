"""All marks of a top on a panel, made before the first cut."""

from __future__ import annotations

from dataclasses import dataclass

from ..geometry.intersect import crossings
from ..geometry.point import Point
from ..geometry.tolerance import SAME_PLACE
from ..panel import Panel, Spoils
from ..panel.datum import Datum
from ..top import Top
from ..units import Tape
from .checks import checks_for
from .mark import Check, Kind, Mark, best_ties
from .method import Workshop
from .off_wood import Ground
from .oval_methods import superellipse_checks
from .places import Group, groups_for, swept_by
from .string_loop import Ordinate, StringCompass, StringLoop, TrammelRod, oval_checks


@dataclass(frozen=True, slots=True)
class MarkSet:
    """Everything that is set out on the panel."""

    marks: tuple[Mark, ...]
    """In the order in which they are made."""
    checks: tuple[Check, ...]
    """Distances that would show a slip."""
    compasses: tuple[StringCompass, ...] = ()
    loop: StringLoop | None = None
    rod: TrammelRod | None = None
    """For an oval."""
    ordinates: tuple[Ordinate, ...] = ()
    """Points of a quarter of an oval or a superellipse that prove its line."""

    def rounding_error(self, tape: Tape) -> float:
        """Return how far rounding every figure to the tape's division can move the line, mm.

        The worst mark, and half a division for the radius or length that is set from it.
        """
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
    """Return the marks of a finished top, from the datum and from two reference points.

    Parameters
    ----------
    workshop : Workshop, optional
        Nails, pencil and string for an oval.
    """
    outline, turn = top.outline, top.turn_from(datum)
    ground = Ground(top, datum)
    groups = (*groups_for(outline, top.lipping, ground), *_centrelines(top))
    marks = tuple(
        _mark(label, group.kind, top.placement(point), ground)
        for group in groups
        for label, point in group.seen(turn)
    )
    compasses = compasses_for(top, datum, ground)
    checks = checks_for(outline, datum, {mark.label: mark.point for mark in marks})
    if outline.on_diagonals:
        return MarkSet(marks, checks, ordinates=superellipse_checks(outline))
    if not outline.bends_everywhere:
        return MarkSet(marks, checks, compasses)
    size = (outline.length, outline.width)
    loop = (workshop or Workshop()).loop(*size)
    rod = TrammelRod.for_oval(*size)
    return MarkSet(marks, checks, compasses, loop, rod, oval_checks(*size))


def compasses_for(
    top: Top, datum: Datum, ground: Ground | None = None
) -> tuple[StringCompass, ...]:
    """Return the radii that a top's arcs are swung with, and the marks to swing them about.

    Parameters
    ----------
    top : Top
    datum : Datum
    ground : Ground, optional
        The panel under it, as for `groups_for`.
    """
    groups = groups_for(top.outline, ground=ground)
    named = [
        (label, point)
        for kind in (Kind.ARC_CENTRE, Kind.CENTRE)
        for group in groups
        if group.kind is kind
        for label, point in group.seen(top.turn_from(datum))
    ]
    compasses = []
    for swept in swept_by(top.outline, ground):
        centres = swept.centres
        labels = [
            name for name, at in named if any(at.distance_to(c) <= SAME_PLACE for c in centres)
        ]
        core = swept.core_radius(top.lipping)
        compasses.append(StringCompass(tuple(labels[: len(centres)]), swept.radius, core))
    return tuple(compasses)


def _centrelines(top: Top) -> list[Group]:
    """Return where both centrelines leave the panel, in the outline's own frame."""
    outline, placement = top.outline, top.placement
    groups = []
    for kind, prefix, half, way in (
        (Kind.CENTRELINE, "L", outline.length / 2, Point(1, 0)),
        (Kind.CROSS_CENTRELINE, "M", outline.width / 2, Point(0, 1)),
    ):
        found = crossings(top.panel.boundary, placement.centre, way.turned(placement.turn))
        below = [c.reach for c in found if c.reach <= -half + SAME_PLACE]
        above = [c.reach for c in found if c.reach >= half - SAME_PLACE]
        if below and above:
            groups.append(Group(kind, prefix, (way * max(below), way * min(above))))
    return groups


def _mark(label: str, kind: Kind, point: Point, ground: Ground) -> Mark:
    offsets = ground.datum.coordinates(point)
    if kind.is_on_panel_edge:
        return Mark(label, kind, point, offsets.along, offsets.square)
    off = ground.missing_at(point)
    return Mark(
        label,
        kind,
        point,
        offsets.along,
        offsets.square,
        best_ties(point, ground.datum.references),
        off,
        _defect_at(ground.top.panel, point) if kind.is_pinned and off is None else "",
    )


def _defect_at(panel: Panel, point: Point) -> str:
    """Return the defect in which a nail or compass point would stand; empty where none."""
    for defect in panel.defects:
        if defect.spoils - {Spoils.SHOWING} and defect.extent.holds_point(point):
            return defect.name
    return ""
