"""All marks of a top on a panel, made before the first cut."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from ..geometry.intersect import crossings
from ..geometry.placement import Placement
from ..geometry.point import Point
from ..geometry.tolerance import SAME_PLACE
from ..outlines import Freeform, Outline, Oval, Superellipse
from ..panel.datum import Datum
from ..panel.defect import Spoils
from ..panel.panel import Panel
from ..units import Tape
from .checks import checks_for
from .freeform_places import FreeformPlaces
from .instruments import Ordinate, StringCompass, TrammelRod, oval_checks
from .mark import Check, Kind, Mark
from .off_wood import Ground
from .places import Group, arc_radii, groups_for
from .string_loop import StringLoop
from .superellipse_methods import superellipse_checks
from .ties import cross_measure

_PINNED = (Kind.CENTRE, Kind.ARC_CENTRE, Kind.NAIL)
"""Marks that take a nail, a pin or a compass point."""

_ON_PANEL_EDGE = (Kind.CENTRELINE, Kind.CROSS_CENTRELINE)


@dataclass(frozen=True, slots=True)
class StringKit:
    """What an oval is drawn with.

    Attributes
    ----------
    nail, pencil : float
        Diameters, mm; a pencil notched to the nail's size draws a true ellipse.
    stretch : float
        Share by which the string gives.
    """

    nail: float = 3.0
    pencil: float = 3.0
    stretch: float = 0.0


@dataclass(frozen=True, slots=True)
class MarkSet:
    """Everything that is set out on the panel.

    Attributes
    ----------
    marks : tuple of Mark
        In the order in which they are made.
    checks : tuple of Check
        Distances that would show a slip.
    compasses : tuple of StringCompass
    loop : StringLoop or None
    rod : TrammelRod or None
        For an oval.
    ordinates : tuple of Ordinate
        Points of a quarter of an oval or a superellipse that prove its line.
    """

    marks: tuple[Mark, ...]
    checks: tuple[Check, ...]
    compasses: tuple[StringCompass, ...] = ()
    loop: StringLoop | None = None
    rod: TrammelRod | None = None
    ordinates: tuple[Ordinate, ...] = ()

    def mark(self, label: str) -> Mark:
        """Return the mark of that label; a `KeyError` where there is none."""
        for mark in self.marks:
            if mark.label == label:
                return mark
        raise KeyError(label)

    def rounding_error(self, tape: Tape) -> float:
        """Return how far rounding every figure to the tape's division can move the line, mm.

        The worst mark, and half a division for the radius or length that is set from it.
        """
        worst = max((mark.rounding_error(tape) for mark in self.marks), default=0.0)
        return worst + tape.division / 2

    def of(self, kind: Kind) -> tuple[Mark, ...]:
        """Return the marks of one kind, in order."""
        return tuple(mark for mark in self.marks if mark.kind is kind)


def marks_for(
    outline: Outline,
    placement: Placement,
    datum: Datum,
    panel: Panel,
    lipping: float = 0.0,
    kit: StringKit | None = None,
) -> MarkSet:
    """Return the marks of a finished top, from the datum and from two reference points.

    Parameters
    ----------
    outline : Outline
        The finished top.
    placement : Placement
        Where it lies on the panel.
    datum : Datum
    panel : Panel
    lipping : float
        Thickness of the lipping, mm: the core line runs this far inside the finish line.
    kit : StringKit, optional
        Nails, pencil and string for an oval.
    """
    turn = placement.turn - datum.frame.turn
    ground = Ground.of(panel, datum, placement)
    groups = (*groups_for(outline, lipping, ground), *_centrelines(panel, outline, placement))
    marks = tuple(
        _mark(label, group.kind, placement(point), ground)
        for group in groups
        for label, point in group.seen(turn)
    )
    compasses = compasses_for(outline, turn, lipping, ground)
    checks = checks_for(outline, datum, {mark.label: mark.point for mark in marks})
    if isinstance(outline, Superellipse):
        return MarkSet(marks, checks, ordinates=superellipse_checks(outline))
    if not isinstance(outline, Oval):
        return MarkSet(marks, checks, compasses)
    kit = kit or StringKit()
    size = (outline.length, outline.width)
    loop = StringLoop.for_oval(*size, kit.nail, kit.pencil, kit.stretch)
    rod = TrammelRod.for_oval(*size)
    return MarkSet(marks, checks, compasses, loop, rod, oval_checks(*size))


def compasses_for(
    outline: Outline, turn: float, lipping: float, ground: Ground | None = None
) -> tuple[StringCompass, ...]:
    """Return the radii that a top's arcs are swung with, and the marks to swing them about.

    Parameters
    ----------
    outline : Outline
        The finished top.
    turn : float
        Radians from the datum to the top's long axis.
    lipping : float
        mm.
    ground : Ground, optional
        The panel under it.
    """
    groups = groups_for(outline, ground=ground)
    named = [
        (label, point)
        for kind in (Kind.ARC_CENTRE, Kind.CENTRE)
        for group in groups
        if group.kind is kind
        for label, point in group.seen(turn)
    ]
    compasses = []
    for radius, core, centres in _radii(outline, lipping, ground):
        labels = [
            name for name, at in named if any(at.distance_to(c) <= SAME_PLACE for c in centres)
        ]
        compasses.append(StringCompass(tuple(labels[: len(centres)]), radius, core))
    return tuple(compasses)


def _radii(
    outline: Outline, lipping: float, ground: Ground | None
) -> Iterator[tuple[float, float, tuple[Point, ...]]]:
    """Yield each radius of the finish line, that of the core line, and their centres, mm."""
    if isinstance(outline, Freeform):
        for swept in FreeformPlaces.of(outline, ground).swept:
            core = swept.radius + lipping if swept.hollow else swept.radius - lipping
            yield swept.radius, core, swept.centres
        return
    for radius, centres in arc_radii(outline):
        yield radius, radius - lipping, centres


def _centrelines(panel: Panel, outline: Outline, placement: Placement) -> list[Group]:
    """Return where both centrelines leave the panel, in the outline's own frame."""
    groups = []
    for kind, prefix, half, way in (
        (Kind.CENTRELINE, "L", outline.length / 2, Point(1, 0)),
        (Kind.CROSS_CENTRELINE, "M", outline.width / 2, Point(0, 1)),
    ):
        found = crossings(panel.boundary, placement.centre, way.turned(placement.turn))
        below = [c.reach for c in found if c.reach <= -half + SAME_PLACE]
        above = [c.reach for c in found if c.reach >= half - SAME_PLACE]
        if below and above:
            groups.append(Group(kind, prefix, (way * max(below), way * min(above))))
    return groups


def _mark(label: str, kind: Kind, point: Point, ground: Ground) -> Mark:
    offsets = ground.datum.coordinates(point)
    if kind in _ON_PANEL_EDGE:
        return Mark(label, kind, point, offsets.along, offsets.square)
    cross = cross_measure(point, ground.datum.references)
    missing = ground.missing_at(point)
    if missing is None:
        advice = _in_defect(ground.panel, point) if kind in _PINNED else ""
        return Mark(label, kind, point, offsets.along, offsets.square, cross, True, advice)
    advice = missing.advice if kind in _PINNED else "no wood here, the nearest is {distance} away"
    return Mark(
        label,
        kind,
        point,
        offsets.along,
        offsets.square,
        cross,
        on_wood=False,
        advice=advice,
        off_by=missing.distance,
    )


def _in_defect(panel: Panel, point: Point) -> str:
    """Return what to do where a nail or compass point would stand in a defect."""
    for defect in panel.defects:
        if defect.spoils - {Spoils.SHOWING} and defect.extent.holds_point(point):
            return f"lies in {defect.name}: bridge it with a thin board"
    return ""
