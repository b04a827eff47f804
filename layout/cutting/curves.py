"""The curve: a jigsaw along the rough line where much wood stands outside it, then to the line."""

from __future__ import annotations

import math

from ..geometry.path import Path
from ..geometry.placement import Placement
from ..geometry.point import Point
from ..geometry.polygon import Region
from ..geometry.segments import Arc
from ..geometry.tolerance import CHORD
from ..outlines import Outline, Oval, Rectangle, RoundedRectangle
from .bench import Bench
from .cut import CurveCut, SwungRadius
from .feed import QuarterFeed, quarter_feeds
from .strips import extent_of
from .template_line import TemplateGuide
from .tools import THICK

RELIEF = 40.0
"""A jigsaw binds in a tighter curve unless the waste is cut away piece by piece, mm (common
practice)."""

_RING = 0.02
"""How near a polygon of the jigsaw's cut follows it, mm: the blade does not keep to that."""

RELIEF_EVERY = 20.0
"""How far apart relief cuts are along the line, mm: a thumb (common practice)."""


WORTH_RELIEF = 5.0
"""Waste that stands out by less breaks off by itself, mm (our choice)."""


def core_path(outline: Outline, placement: Placement, lipping: float) -> Path:
    """Return the line that is cut, on the panel: the finish line less the lipping."""
    own = outline.parallel(-lipping) if lipping else outline.path()
    return own.placed(placement)


def rough_path(bench: Bench) -> Path:
    """Return the rough line on the panel: parallel to the core line at the jigsaw's allowance.

    A top with square corners and straight edges is sawn at the saw's allowance instead.
    """
    allowance = rough_allowance(bench)
    off = allowance - bench.lipping
    own = bench.outline.parallel(off) if off else bench.outline.path()
    return own.placed(bench.placement)


def rough_allowance(bench: Bench) -> float:
    """Return how far the rough line runs outside the core line, mm."""
    if isinstance(bench.outline, Rectangle):
        return bench.tools.left_by_saw(end=False)
    return bench.tools.left_by_jigsaw(bench.thickness)


def curve_cuts(bench: Bench, blank: Region, core: Path) -> tuple[CurveCut, ...]:
    """Return the cuts along the outline, in order.

    Where no more stands outside the line than its bit is wide, the router needs no jigsaw before
    it (common practice).

    Parameters
    ----------
    blank : Region
        What is left after trims and facets.
    core : Path
        The line that is kept, on the panel.
    """
    kept = Region.from_rings(core.points(CHORD, "inside"))
    most = _most_outside(blank, kept)
    cuts: list[CurveCut] = []
    needs_saw = most > bench.tools.bit or not bench.tools.router
    if needs_saw and not isinstance(bench.outline, Rectangle):
        cuts.append(_jigsaw(bench, blank, most))
        most = cuts[0].allowance
    cuts.append(_router(bench, most, core) if bench.tools.router else _by_hand(bench, most, core))
    return tuple(cuts)


def curve_kerf(bench: Bench, cuts: tuple[CurveCut, ...]) -> Region:
    """Return what the jigsaw turns to dust: a ring outside the rough line; nothing without it."""
    if not any(cut.tool == "jigsaw" for cut in cuts):
        return Region.empty()
    off = rough_allowance(bench) - bench.lipping + bench.tools.jigsaw_kerf
    around = bench.outline.parallel(off).placed(bench.placement).points(_RING, "outside")
    return Region.from_rings(around).minus(rough_region(bench))


def rough_region(bench: Bench) -> Region:
    """Return what lies within the rough line, as a polygon that holds it."""
    return Region.from_rings(rough_path(bench).points(_RING, "outside"))


def _most_outside(blank: Region, kept: Region) -> float:
    """Return the farthest that wood stands outside the kept line, mm: at a corner of the blank."""
    corners = (Point(float(x), float(y)) for piece in blank.pieces for x, y in piece.exterior)
    outside = [kept.edge_distance(p) for p in corners if not kept.holds_point(p)]
    return max(outside, default=0.0)


def _jigsaw(bench: Bench, blank: Region, most: float) -> CurveCut:
    thickness, allowance = bench.thickness, rough_allowance(bench)
    notes = ["square on the first 50 mm, or stop"] if thickness > THICK else []
    if thickness > THICK:
        notes.insert(0, "long blade, slowly: in wood this thick it takes rough waste only")
    line = rough_path(bench)
    relief = _relief(blank, line, RELIEF + allowance)
    if relief:
        notes.append("relief cuts from the edge to the line, a thumb apart, in the tight curve")
    radii = tuple(
        SwungRadius(compass.centres, compass.core_radius + allowance) for compass in bench.compasses
    )
    return CurveCut("jigsaw", line, allowance, most, radii, 1, thickness, tuple(notes), relief)


def _relief(blank: Region, line: Path, tight: float) -> tuple[tuple[Point, Point], ...]:
    """Return cuts from the blank's edge square to the line, wherever its radius is below `tight`.

    None where so little stands outside the line that it breaks off by itself.
    """
    extent = extent_of(blank)
    found = []
    for arc in line.segments:
        if not isinstance(arc, Arc) or not 0 < arc.radius < tight or arc.sweep <= 0:
            continue
        count = 2 * round(arc.length / RELIEF_EVERY / 2) + 1  # one in the middle, where most is
        for i in range(count):
            at = arc.at((i + 0.5) / count)
            outwards = (at - arc.centre).unit()
            spans = blank.chord(at, at + outwards * extent)
            reached = [b for a, b in spans if a.distance_to(at) <= _RING]
            if reached and reached[0].distance_to(at) >= WORTH_RELIEF:
                found.append((reached[0], at))
    return tuple(found)


def _router(bench: Bench, most: float, core: Path) -> CurveCut:
    """Return the router's cut: a disk is measured from the pin to the near edge of the bit."""
    tools, thickness = bench.tools, bench.thickness
    bit = tools.bit
    radii = tuple(
        SwungRadius(c.centres, c.core_radius, c.core_radius + bit / 2, c.core_radius + bit)
        for c in bench.compasses
        if c.core_radius > 0
    )
    passes = max(1, math.ceil(thickness / tools.depth_of_pass(most) - 1e-9))
    notes = [_feed_words(quarter_feeds(bench))]
    template = _template(bench)
    if isinstance(bench.outline, Oval):
        notes.insert(0, "half pattern, flipped on the long centreline, and a bearing bit")
    return CurveCut(
        "router", core, 0.0, most, radii, passes, thickness / passes, tuple(notes), (), template
    )


def _template(bench: Bench) -> TemplateGuide | None:
    """Return the template that a bush or bearing follows; a trammel needs none."""
    tools = bench.tools
    wanted = tools.follower is not None or isinstance(bench.outline, Oval | RoundedRectangle)
    if not wanted or bench.outline.width / 2 <= bench.lipping:
        return None
    follower = tools.bit if tools.follower is None else tools.follower
    return TemplateGuide.of(bench.outline, bench.placement, bench.lipping, follower, tools.bit)


def _by_hand(bench: Bench, most: float, core: Path) -> CurveCut:
    """Return the way to the line without a router."""
    thickness = bench.thickness
    note = "plane, spokeshave and file, from the sides towards the end grain; check it is square"
    return CurveCut("hand", core, 0.0, most, (), 1, thickness, (note,))


def _feed_words(feeds: tuple[QuarterFeed, ...]) -> str:
    """Return which way the router goes: downhill in solid wood, else against the bit."""
    if not feeds:
        return "anticlockwise round the work, seen from above"
    ways = []
    for up in (True, False):
        quarters = " and ".join(f"{f.start} to {f.end}" for f in feeds if f.show_face_up is up)
        ways.append(f"show face {'up' if up else 'down'} {quarters}")
    return f"downhill, towards the end grain: {', '.join(ways)}; straights last"
