"""What a top touches: edges of the panel, cut-outs and defects, and where.

Where the line that is cut comes as near as margin or clearance allow, it touches. A stretch of it
that does is one contact: a place, or, where the room hardly changes along it, a run with two ends.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from enum import Enum

import numpy as np

from ...geometry import Path, Point, Region
from ...geometry.beside import Way
from ...geometry.tolerance import CHORD, PROOF_CHORD
from ...panel.defect import Defect
from ...panel.defect_kinds import Spoils
from ...panel.panel import Panel
from ..found import Fit

TOUCHING = 0.05
"""A top that has no more room than this, mm, touches: no tape or saw could tell."""

_FLAT = 0.25
"""Share of `TOUCHING` within which the room may change along a run."""
_MOSTLY = 0.75
"""Share of a touching stretch that has such even room where the top lies along it: where a round
top meets a straight edge it is half, at a corner a quarter."""
_ONE_PLACE = 0.01
"""Share of the way round within which two contacts with one thing are one place."""


class Touched(Enum):
    """What a top can touch; the value is what JSON says."""

    EDGE = "edge"
    CUT_OUT = "cut-out"
    DEFECT = "defect"
    POINT = "point"


@dataclass(frozen=True, slots=True)
class Side:
    """A part of the panel's boundary under the name that the maker gives it."""

    name: str
    """``edge A–B``."""
    path: Path
    kept: bool = False
    """Whether it stays as it is, so that no margin is kept to it."""


@dataclass(frozen=True, slots=True)
class Contact:
    """Where the line that is cut comes as near to something as is allowed."""

    what: Touched
    name: str
    """Of the edge, cut-out or defect."""
    points: tuple[Point, ...]
    """On the line that is cut: one, or the two ends of a run along the thing."""
    clear: float
    """What is kept there, mm: the margin or clearance, and the error of the tape."""
    room: float
    """What is left beyond that at the nearest place, mm."""

    @property
    def middle(self) -> Point:
        """The place of the contact; of a run, half way between its ends."""
        return self.points[0].midpoint(self.points[-1])


@dataclass(frozen=True, slots=True)
class _Thing:
    """Something that a top must stay clear of, as the line round it or a point."""

    what: Touched
    name: str
    line: Region
    clear: float


def contacts_of(
    fit: Fit,
    panel: Panel,
    *,
    margin: float = 0.0,
    tape_error: float = 0.0,
    sides: Sequence[Side] = (),
    points: Iterable[Point] = (),
) -> tuple[Contact, ...]:
    """Return what the core of a fit touches, in the order of the way round it.

    The margin, mm, is kept to edges and cut-outs, the error of the tape, mm, everywhere. The sides
    are the parts of the panel's boundary by name; the points what the top must cover or leave out.
    """
    margin += tape_error
    sides = sides or (Side("the edge", panel.boundary),)
    things = [
        _Thing(Touched.EDGE, side.name, _line(side.path), 0.0 if side.kept else margin)
        for side in sides
    ]
    for number, cut_out in enumerate(panel.cut_outs, 1):
        name = f"cut-out {number}" if len(panel.cut_outs) > 1 else "the cut-out"
        things.append(_Thing(Touched.CUT_OUT, name, _line(cut_out), margin))
    things += [
        _Thing(Touched.DEFECT, one.name, _line(one.place), one.clear + tape_error)
        for one in panel.defects
        if matters(one, panel)
    ]
    things += [_Thing(Touched.POINT, "the point", Region.at(point), 0.0) for point in points]
    way = Way(fit.placement.of(fit.core.outer(PROOF_CHORD)))
    found = [pair for thing in things for pair in _touching(way, thing)]
    return tuple(contact for _, contact in sorted(found, key=lambda pair: pair[0]))


def matters(defect: Defect, panel: Panel) -> bool:
    """Return whether a defect can stand in the way of a top's edge."""
    return defect.shows or Spoils.CUTTING in defect.spoils or defect in panel.islands


def _line(path: Path) -> Region:
    corners = path.points(CHORD)
    return Region.line(np.vstack([corners, corners[:1]]) if path.is_closed else corners)


def _touching(way: Way, thing: _Thing) -> Iterator[tuple[float, Contact]]:
    """Yield the contacts with one thing, each with how far round it lies."""
    one_place = _ONE_PLACE * way.whole.length
    for run in way.beside(thing.line, thing.clear + TOUCHING, way.whole, one_place):
        least = run.lines.distance_to(thing.line)
        parts = way.beside(thing.line, least + _FLAT * TOUCHING, run)
        even = max(parts, key=lambda part: part.length, default=run)
        share = sum(part.length for part in parts) / run.length if run.length > one_place else 0.0
        places = (parts[0].start, parts[-1].end) if share >= _MOSTLY else (even.middle,)
        points = tuple(way.at(place) for place in places)
        room = max(0.0, least - thing.clear)
        yield even.middle, Contact(thing.what, thing.name, points, thing.clear, room)
