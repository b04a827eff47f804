"""What is the same for every straight cut: its ends as it is pushed, depths, and what falls off."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from ..geometry.alike import at_most
from ..geometry.point import Point
from ..geometry.polygon import Region
from ..geometry.tolerance import CHORD, ROUNDING, SAME_PLACE
from .bench import Bench
from .cut import EdgePoint, Guide, StraightCut, Trim, TrimKind
from .strips import SawLine, Strip, extent_of

ONE_PASS = 50.0
"""A saw set deeper than this cuts in two passes, mm (common practice)."""

THIN_WALL = 20.0
"""Wood beside a hole that is thinner than this breaks when its piece falls, mm (our choice)."""

Ends = tuple[EdgePoint, EdgePoint]


@dataclass(frozen=True, slots=True)
class Sawn:
    """A saw line and what is there when it is sawn."""

    line: SawLine
    wood: Region
    """What is left by then."""
    strip: Strip
    """How wide the wood beyond the line is."""
    allowance: float
    """From the line that is kept to the saw line, mm."""
    thickness: float
    """Of the wood by then, mm."""
    ends: Ends
    """Of the saw line, the kept wood on its left, show face up."""
    falls: bool = True
    """Whether something falls off."""


def fields_of(bench: Bench, sawn: Sawn, label: str) -> dict[str, Any]:
    """Return the fields of a straight cut but for its guide."""
    tools, line, wood = bench.tools, sawn.line, sawn.wood
    extent, depth = extent_of(wood), sawn.thickness + tools.below
    fallen = wood.meet(line.moved(tools.kerf).beyond(extent)).pieces if sawn.falls else ()
    strip = sawn.strip
    heaviest = max((piece.area for piece in fallen), default=0.0)
    start, end = pushed(bench, sawn.ends)
    spans = wood.chord(*line.ends(extent))
    if not bench.keeps_left:
        spans = tuple((b, a) for a, b in reversed(spans))
    half = math.ceil(depth / 2 - ROUNDING)
    return {
        "label": label,
        "start": start,
        "end": end,
        "waste": line.waste,
        "allowance": sawn.allowance,
        "kerf": tools.kerf,
        "depths": (depth,) if at_most(depth, ONE_PASS) else (half, depth),
        "narrowest": max(0.0, strip.narrowest - tools.kerf),
        "widest": strip.widest - tools.kerf,
        "fallen": fallen,
        "heaviest": bench.top.panel.substance.mass(heaviest, sawn.thickness),
        "wall": _wall(bench, line, fallen),
        "spans": spans,
    }


def line_of(cut: StraightCut) -> SawLine:
    """Return the line of a straight cut: endless, but where it stops at a hollow corner."""
    start, end = cut.start.point, cut.end.point
    if not isinstance(cut, Trim) or not cut.kind.stops:
        return SawLine(start, cut.waste)
    corner, free = (start, end) if cut.kind is TrimKind.FROM_CORNER else (end, start)
    ahead = (free - corner).dot(cut.waste.left) > 0
    return SawLine(corner, cut.waste, (0.0, math.inf) if ahead else (-math.inf, 0.0))


def guide_of(bench: Bench, ends: Ends | None) -> Guide | None:
    """Return the guide between two places, the kept wood on its left; None where it has none."""
    offset = bench.tools.guide
    if offset is None or ends is None:
        return None
    return Guide(offset, bench.guide_side, *pushed(bench, ends))


def pushed(bench: Bench, ends: Ends) -> Ends:
    """Return the two ends of a line in the order in which a saw goes along it."""
    return ends if bench.keeps_left else (ends[1], ends[0])


def _wall(bench: Bench, line: SawLine, fallen: tuple[Region, ...]) -> float | None:
    """Return the thinnest wood beside a cut-out in what falls off, mm, where it is thin."""
    walls = list(_walls(bench, line, fallen))
    return min(walls, default=None)


def _walls(bench: Bench, line: SawLine, fallen: tuple[Region, ...]) -> Iterator[float]:
    for hole in bench.top.panel.cut_outs:
        edge = [*map(Point.of, hole.points(CHORD))]
        off = [(p - line.at).dot(line.waste) - bench.tools.kerf for p in edge]
        nearest = min(off)
        beside = (p for p, wall in zip(edge, off, strict=True) if wall <= nearest + SAME_PLACE)
        if SAME_PLACE < nearest < THIN_WALL and any(
            piece.edge_distance(p) <= SAME_PLACE for p in beside for piece in fallen
        ):
            yield nearest
