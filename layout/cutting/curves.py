"""The curve: a jigsaw along the rough line where much wood stands outside it, then to the line."""

from __future__ import annotations

import math
from collections.abc import Sequence

from ..geometry import Arc, Line, Path, Point, Region, Segment
from ..panel.build import Kind
from ..top.runs import stays_out
from ..units import nearest_whole
from .bench import Bench
from .cut import CurveCut, CurveTool, HandCut, JigsawCut, RouterCut, SwungRadius
from .rough import RING, rough_allowance, rough_line
from .router import TemplateGuide, quarter_feeds
from .sawn import extent_of
from .tools import THICK

RELIEF, RELIEF_EVERY = 40.0, 20.0
"""A jigsaw binds in a tighter curve unless the waste is cut away piece by piece: how far apart
relief cuts are along the line, a thumb; mm (common practice)."""

WORTH_RELIEF = 5.0
"""Waste that stands out by less breaks off by itself, mm (our choice)."""


def curve_cuts(
    bench: Bench, blank: Region, core: Path, *, is_hollow: bool = False
) -> tuple[CurveCut, ...]:
    """Return the cuts along the outline, in order.

    Where no more stands outside the line than its bit is wide, the router needs no jigsaw before it
    (common practice). `blank` is what all straight cuts leave; they cannot free all of a hollow
    top.
    """
    kept, runs, tools = Region.of(core), bench.top.runs, bench.tools
    corners = (Point.of(row) for piece in blank.pieces for row in piece.exterior)
    outside = [kept.edge_distance(p) for p in corners if not kept.holds_point(p)]
    most = max(outside, default=0.0)  # the farthest that wood stands out is at a corner of it
    jigsaw, needs_saw = None, most > tools.bit or not tools.router
    if (needs_saw and not runs.is_straight) or is_hollow:
        jigsaw = _jigsaw(bench, blank, most, is_hollow=is_hollow)
        most = jigsaw.allowance
    by_hand = HandCut(CurveTool.HAND, core, 0.0, most, runs.kept)
    last = _router(bench, most, core) if tools.router else by_hand
    return (last,) if jigsaw is None else (jigsaw, last)


def _jigsaw(bench: Bench, blank: Region, most: float, *, is_hollow: bool) -> JigsawCut:
    allowance, line = rough_allowance(bench), rough_line(bench)
    return JigsawCut(
        CurveTool.JIGSAW,
        line.closed,
        allowance,
        most,
        line.kept,
        kerf=bench.tools.jigsaw_kerf,
        radii=tuple(
            SwungRadius(compass.centres, compass.core_radius + allowance)
            for compass in bench.compasses
        ),
        thick=bench.top.thickness > THICK,
        after_stopped=is_hollow,
        relief=_relief(blank, line.cut, RELIEF + allowance),
    )


def _relief(blank: Region, lines: Sequence[Path], tight: float) -> tuple[tuple[Point, Point], ...]:
    """Return cuts from the edge of the blank square to the line, where it is `tight`."""
    extent, found = extent_of(blank), []

    def is_tight(segment: Segment) -> bool:
        return isinstance(segment, Arc) and segment.sweep > 0 and 0 < segment.radius < tight

    for curve in (curve for line in lines for curve in line.runs(is_tight)):
        length = curve.length
        count = 2 * nearest_whole(length / RELIEF_EVERY / 2) + 1  # one in the middle, where most is
        for i in range(count):
            arc, share = curve.reached(length * (i + 0.5) / count)
            at = arc.at(share)
            spans = blank.chord(at, at - arc.pace(share).unit().left * extent)
            reached = [b for a, b in spans if a.distance_to(at) <= RING]
            if reached and reached[0].distance_to(at) >= WORTH_RELIEF:
                found.append((reached[0], at))
    return tuple(found)


def _router(bench: Bench, most: float, core: Path) -> RouterCut:
    """Return the router's cut: a disk is measured from the pin to the near edge of the bit."""
    tools, thickness, runs = bench.tools, bench.top.thickness, bench.top.runs
    bit, base, template = tools.bit, tools.router_base, _template(bench)
    radii = tuple(
        SwungRadius(c.centres, c.core_radius, c.core_radius + bit / 2, c.core_radius + bit)
        for c in bench.compasses
        if c.core_radius >= tools.least_trammel
    )
    passes = max(1, math.ceil(thickness / tools.depth_of_pass(most) - 1e-9))
    straights = template is None and any(isinstance(s, Line) for s in runs.segments)
    return RouterCut(
        CurveTool.ROUTER,
        core,
        0.0,
        most,
        runs.kept,
        radii=radii,
        passes=passes,
        depth=thickness / passes,
        template=template,
        half_template=template is not None and bench.top.outline.bends_everywhere,
        straights=straights,
        straightedge=(base - bit) / 2 if straights and base is not None else None,
        bit=bit,
        stays_out=max((o for line in runs.cut for _, o in stays_out(line, bit / 2)), default=0.0),
        all_straight=runs.is_straight,
        feeds=quarter_feeds(bench, pinned=bool(radii) and template is None),
        has_grain=bench.top.panel.build.kind is Kind.SOLID,
    )


def _template(bench: Bench) -> TemplateGuide | None:
    """Return the template that a bush or bearing follows, where no trammel takes all curves."""
    tools, top, own = bench.tools, bench.top, bench.top.outline
    rounded = own.is_boxed and own.marked_corners != own.corners  # no D end: that has its pin
    shaped = own.bends_everywhere or rounded or not own.free_sizes
    small = any(compass.core_radius < tools.least_trammel for compass in bench.compasses)
    wanted = tools.bush is not None or ((shaped or small) and not top.runs.is_straight)
    if not wanted or top.runs.kept or top.outline.width / 2 <= top.lipping:
        return None
    bush = tools.bit if tools.bush is None else tools.bush
    return TemplateGuide.of(top, bush, tools.bit)
