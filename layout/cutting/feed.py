"""Which way to rout each quarter of a solid top: downhill, from the long grain towards the end.

Seen from above, a router is fed anticlockwise round the outside of the work, against the turn of
its bit. In two of the four quarters that runs uphill and tears the grain; turned over, the same two
run downhill. So two quarters are routed with the show face up and two with it down. A trammel
cannot be turned over: the holes of its pin are in the face that the top was marked on. There the
two quarters that run uphill are taken by light passes.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..geometry.point import Point
from ..marking.mark import Kind as MarkKind
from ..marking.places import groups_for
from ..panel.build import Kind
from .bench import Bench

ALONG = math.radians(30)
"""Grain that lies within this of an axis of the top is taken to run along it."""


@dataclass(frozen=True, slots=True)
class QuarterFeed:
    """One quarter of the edge."""

    start: str
    end: str
    """Labels of the marks between which it is routed, in the direction of feed."""
    show_face_up: bool
    """How the work lies, so that the feed is against the bit."""
    uphill: bool = False
    """Whether it runs from the end towards the long grain, and is taken by light passes."""


def quarter_feeds(bench: Bench, *, pinned: bool) -> tuple[QuarterFeed, ...]:
    """Return the four quarters of the edge, where they are alike and it is routed all round.

    None for board, or where the grain runs slantwise to the top.

    Parameters
    ----------
    pinned : bool
        Whether it is swung about pins, so that the work stays as it was marked.
    """
    if bench.top.panel.build.kind is not Kind.SOLID or bench.top.runs.kept:
        return ()
    if not bench.top.outline.free_sizes:
        return ()
    slant = bench.top.grain % math.pi
    along = min(slant, math.pi - slant) <= ALONG
    across = abs(slant - math.pi / 2) <= ALONG
    if not along and not across and not bench.top.outline.is_round:
        return ()
    marks = _axis_ends(bench)
    grainwise = {MarkKind.END: along or not across, MarkKind.SIDE: across}
    ends = [(label, point) for kind, label, point in marks if grainwise[kind]]
    sides = [(label, point) for kind, label, point in marks if not grainwise[kind]]
    up = not bench.face.mirrored
    feeds = []
    for side, at_side in sides:
        for end, at_end in ends:
            downhill_up = at_side.cross(at_end) > 0
            if not pinned or downhill_up is up:
                feeds.append(QuarterFeed(side, end, show_face_up=downhill_up))
            else:
                feeds.append(QuarterFeed(end, side, show_face_up=up, uphill=True))
    return tuple(feeds)


def _axis_ends(bench: Bench) -> list[tuple[MarkKind, str, Point]]:
    turn = bench.top.turn_from(bench.datum)
    return [
        (group.kind, label, point)
        for group in groups_for(bench.top.outline)
        if group.kind in (MarkKind.END, MarkKind.SIDE)
        for label, point in group.seen(turn)
    ]
