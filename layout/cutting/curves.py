"""The curve: a jigsaw along the rough line where much wood stands outside it, then to the line."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from ..geometry.path import Path
from ..geometry.point import Point
from ..geometry.polygon import Region
from ..geometry.segments import Arc, Segment
from ..outlines import Freeform, Oval, RegularPolygon, RoundedRectangle, Superellipse
from ..panel.build import Kind
from ..units import nearest_whole
from .bench import Bench
from .cut import CurveCut, SwungRadius
from .feed import QuarterFeed, quarter_feeds
from .rough import RING, jigsaw_kerf, rough_allowance, rough_line
from .strips import extent_of
from .template_line import TemplateGuide
from .tools import THICK

RELIEF = 40.0
"""A jigsaw binds in a tighter curve unless the waste is cut away piece by piece, mm (common
practice)."""

RELIEF_EVERY = 20.0
"""How far apart relief cuts are along the line, mm: a thumb (common practice)."""


WORTH_RELIEF = 5.0
"""Waste that stands out by less breaks off by itself, mm (our choice)."""


def curve_cuts(
    bench: Bench, blank: Region, core: Path, *, is_hollow: bool = False
) -> tuple[CurveCut, ...]:
    """Return the cuts along the outline, in order.

    Where no more stands outside the line than its bit is wide, the router needs no jigsaw before
    it (common practice).

    Parameters
    ----------
    blank : Region
        What is left after trims and facets.
    core : Path
        The line that is kept, on the panel.
    is_hollow : bool
        Whether straight cuts cannot free all of it.
    """
    kept = Region.of(core)
    most = _most_outside(blank, kept)
    cuts: list[CurveCut] = []
    needs_saw = most > bench.tools.bit or not bench.tools.router
    if (needs_saw and not bench.top.runs.is_straight) or is_hollow:
        cuts.append(_jigsaw(bench, blank, most, is_hollow=is_hollow))
        most = cuts[0].allowance
    if bench.tools.router:
        cuts.append(_router(bench, most, core, is_hollow=is_hollow))
    else:
        cuts.append(_by_hand(bench, most, core))
    return tuple(cuts)


def curve_kerf(bench: Bench, cuts: tuple[CurveCut, ...]) -> Region:
    """Return what the jigsaw turns to dust; nothing without it."""
    return jigsaw_kerf(bench) if any(cut.tool == "jigsaw" for cut in cuts) else Region.empty()


def _most_outside(blank: Region, kept: Region) -> float:
    """Return the farthest that wood stands outside the kept line, mm: at a corner of the blank."""
    corners = (Point.of(row) for piece in blank.pieces for row in piece.exterior)
    outside = [kept.edge_distance(p) for p in corners if not kept.holds_point(p)]
    return max(outside, default=0.0)


def _jigsaw(bench: Bench, blank: Region, most: float, *, is_hollow: bool) -> CurveCut:
    thickness, allowance = bench.top.thickness, rough_allowance(bench)
    notes = ["square on the first 50 mm, or stop"] if thickness > THICK else []
    if thickness > THICK:
        notes.insert(0, "long blade, slowly: in wood this thick it takes rough waste only")
    if is_hollow:
        notes.append("where a saw cut stops short of a hollow corner, a handsaw, held upright, "
                     "does as well")  # fmt: skip
    line = rough_line(bench)
    relief = _relief(blank, line.cut, RELIEF + allowance)
    if relief:
        notes.append("relief cuts from the edge to the line, a thumb apart, in the tight curve")
    if line.kept:
        notes.append("it starts and ends in the air past the kept edge")
    radii = tuple(
        SwungRadius(compass.centres, compass.core_radius + allowance) for compass in bench.compasses
    )
    return CurveCut(
        "jigsaw",
        line.closed,
        allowance,
        most,
        radii,
        1,
        thickness,
        tuple(notes),
        relief,
        kept=line.kept,
    )


def _relief(blank: Region, lines: Sequence[Path], tight: float) -> tuple[tuple[Point, Point], ...]:
    """Return cuts from the blank's edge square to the line, wherever its radius is below `tight`.

    None where so little stands outside the line that it breaks off by itself.
    """
    extent = extent_of(blank)
    found = []
    for curve in (Path(tuple(arcs)) for line in lines for arcs in _tight_curves(line, tight)):
        length = curve.length
        count = 2 * nearest_whole(length / RELIEF_EVERY / 2) + 1  # one in the middle, where most is
        for i in range(count):
            arc, share = curve.reached(length * (i + 0.5) / count)
            assert isinstance(arc, Arc)
            at = arc.at(share)
            outwards = (at - arc.centre).unit()
            spans = blank.chord(at, at + outwards * extent)
            reached = [b for a, b in spans if a.distance_to(at) <= RING]
            if reached and reached[0].distance_to(at) >= WORTH_RELIEF:
                found.append((reached[0], at))
    return tuple(found)


def _tight_curves(line: Path, tight: float) -> list[list[Arc]]:
    """Return the arcs of a line that bulge out below a radius, neighbours together."""
    curves: list[list[Arc]] = []
    before: Segment | None = None
    for arc in line.segments:
        if isinstance(arc, Arc) and 0 < arc.radius < tight and arc.sweep > 0:
            if before is not None and curves and curves[-1][-1] is before:
                curves[-1].append(arc)
            else:
                curves.append([arc])
        before = arc
    return curves


def _router(bench: Bench, most: float, core: Path, *, is_hollow: bool) -> CurveCut:
    """Return the router's cut: a disk is measured from the pin to the near edge of the bit."""
    tools, thickness = bench.tools, bench.top.thickness
    bit = tools.bit
    radii = tuple(
        SwungRadius(c.centres, c.core_radius, c.core_radius + bit / 2, c.core_radius + bit)
        for c in bench.compasses
        if c.core_radius > 0
    )
    passes = max(1, math.ceil(thickness / tools.depth_of_pass(most) - 1e-9))
    return CurveCut(
        "router",
        core,
        0.0,
        most,
        radii,
        passes,
        thickness / passes,
        tuple(_router_notes(bench, is_hollow=is_hollow)),
        (),
        _template(bench),
        bench.top.runs.kept,
    )


def _router_notes(bench: Bench, *, is_hollow: bool) -> Iterator[str]:
    if isinstance(bench.top.outline, Oval | Superellipse):
        yield "half pattern, flipped on the long centreline, and a bearing bit"
    elif isinstance(bench.top.outline, RegularPolygon | Freeform) and bench.top.runs.is_straight:
        yield "side by side along a straightedge"
    if is_hollow:
        yield "in a hollow corner the bit leaves its own round: pare it with a chisel"
    yield _feed_words(bench, quarter_feeds(bench))
    if bench.top.runs.kept and bench.top.runs.is_straight:
        yield "cramp a strip behind the kept edge where the bit leaves it, or that breaks out"
    elif bench.top.runs.kept:
        yield "lift the router off before it comes to the kept edge; fair the last of it by hand"


def _template(bench: Bench) -> TemplateGuide | None:
    """Return the template that a bush or bearing follows; a trammel needs none."""
    tools = bench.tools
    shaped = isinstance(bench.top.outline, Oval | Superellipse | RoundedRectangle | Freeform)
    shaped = shaped and not bench.top.runs.is_straight
    wanted = tools.follower is not None or shaped
    if not wanted or bench.top.runs.kept or bench.top.outline.width / 2 <= bench.top.lipping:
        return None
    follower = tools.bit if tools.follower is None else tools.follower
    return TemplateGuide.of(bench.top, follower, tools.bit)


def _by_hand(bench: Bench, most: float, core: Path) -> CurveCut:
    """Return the way to the line without a router."""
    thickness = bench.top.thickness
    note = "plane, spokeshave and file, from the sides towards the end grain; check it is square"
    return CurveCut("hand", core, 0.0, most, (), 1, thickness, (note,), kept=bench.top.runs.kept)


def _feed_words(bench: Bench, feeds: tuple[QuarterFeed, ...]) -> str:
    """Return which way the router goes: downhill in solid wood, else against the bit."""
    if not feeds and bench.top.panel.build.kind is Kind.SOLID and _is_free(bench):
        return (
            "downhill, from the long grain towards the end grain; where that runs with the turn of "
            "the bit, turn the work over"
        )
    if not feeds:
        return "anticlockwise round the work, seen from above"
    ways = []
    for up in (True, False):
        quarters = " and ".join(f"{f.start} to {f.end}" for f in feeds if f.show_face_up is up)
        ways.append(f"show face {'up' if up else 'down'} {quarters}")
    return f"downhill, towards the end grain: {', '.join(ways)}; straights last"


def _is_free(bench: Bench) -> bool:
    """Return whether a top has no quarters that are alike."""
    return bool(bench.top.runs.kept) or isinstance(bench.top.outline, Freeform)
