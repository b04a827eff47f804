"""Straight cuts in order: which sides are sawn, which are kept, and where the guide stands."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from ..geometry.alike import at_least, at_most, ranked
from ..geometry.point import Point
from ..geometry.polygon import Region
from ..geometry.tolerance import ALIKE_AREA, ROUNDING, SAME_FIGURE, SIZE_SLACK
from ..outlines import RoundedRectangle
from ..panel.defect import Spoils
from .again import shortened
from .bench import Bench
from .cut import EdgePoint, Guide, SkippedTrim, Trim, TrimKind
from .edge_points import edge_points
from .sides import Side, box_ends, sides_of
from .stages import taken
from .strips import SawLine, Strip, extent_of, strip_beyond

FREEING_SHARE = 0.15
"""A cut that takes off this share of the panel comes first: the rest is lighter and safer to
handle (common practice)."""

ROUGH_LENGTH = 10.0
"""A slab is cut to length this far outside the line before it is flattened, mm (common
practice)."""

_FACING = math.cos(math.radians(45))
"""The reference rip runs along the datum's line, within 45°, on the side where that lies."""

LEAST_STOPPED = 100.0
"""A shorter cut into a hollow corner is left to the jigsaw, mm (our choice)."""

MOSTLY_THIN = 0.25
"""A cut that takes off too little over more than this share of its length is warned of: at its
ends alone a slanting cut always does."""

ONE_PASS = 50.0
"""A saw set deeper than this cuts in two passes, mm (common practice)."""


@dataclass(frozen=True, slots=True)
class StraightCuts:
    """The trims in order, what they leave, and the sides that are not sawn."""

    trims: tuple[Trim, ...]
    skipped: tuple[SkippedTrim, ...]
    blank: Region
    """What is left of the panel."""
    bench: Bench
    """With the panel and the datum that the last of them were marked by: a slab is marked again
    once it is short."""
    is_hollow: bool = False
    """Whether a straight-sided top is hollow somewhere, so that they cannot free all of it."""


def straight_cuts(bench: Bench) -> StraightCuts:
    """Return the straight cuts of a job.

    A slab gets its rough length first, and is marked again; a panel without a straight edge gets
    the reference rip, then its ends square to it. Elsewhere what takes off a large part comes
    first, then ends, then long edges. No cut is made that takes off less than the kerf and 3 mm.
    """
    start = StraightCuts((), (), bench.top.panel.region(), bench, sides_of(bench).is_hollow)
    if bench.is_slab:
        start = _made(start, [(side, TrimKind.ROUGH) for side in box_ends(bench)])
        start = replace(start, bench=shortened(bench, start.trims, start.blank))
    return _made(start, _in_order(start.bench, start.blank))


def _made(before: StraightCuts, sides: Iterable[tuple[Side, TrimKind]]) -> StraightCuts:
    """Return the cuts so far with those along more sides, where they can be made."""
    bench, blank = before.bench, before.blank
    trims, skipped = list(before.trims), list(before.skipped)
    for side, kind in sides:
        allowance = (
            ROUGH_LENGTH if kind is TrimKind.ROUGH else bench.tools.left_by_saw(end=side.end)
        )
        line = side.line(bench.top.placement.centre, allowance)
        strip = strip_beyond(blank, line)
        if not at_least(strip.widest, bench.tools.thinnest, SIZE_SLACK):
            if kind is not TrimKind.ROUGH and not kind.stops:
                skipped.append(_skipped(bench, side, kind, blank))
            continue
        if kind.stops and _sawn(blank, line) < LEAST_STOPPED:
            continue
        in_the_way = crossed(bench, line, blank)
        if in_the_way and not _goes_round_corners(bench):
            reason = f"{in_the_way[0]} lies in its line: the jigsaw takes this side, round the top"
            skipped.append(SkippedTrim(kind, side.outwards, strip.widest, reason))
            continue
        trims.append(_trim(bench, kind, line, (allowance, strip, blank), len(trims) + 1))
        blank = blank.minus(taken(line, extent_of(blank), bench.tools.kerf, stops=kind.stops))
    return replace(before, trims=tuple(trims), skipped=tuple(skipped), blank=blank)


def _goes_round_corners(bench: Bench) -> bool:
    """Return whether a top has straight sides that only a saw takes."""
    return isinstance(bench.top.outline, RoundedRectangle) or bench.top.runs.is_straight


def _sawn(blank: Region, line: SawLine) -> float:
    spans = blank.chord(*line.ends(extent_of(blank)))
    return math.fsum(start.distance_to(end) for start, end in spans)


def _in_order(bench: Bench, face: Region) -> Iterator[tuple[Side, TrimKind]]:
    sides = sides_of(bench)
    through = (*sides.ends, *sides.longs, *sides.own)
    if bench.datum.struck:
        down = Point.polar(-1.0, bench.datum.frame.turn + math.pi / 2)
        first = [side for side in (*sides.longs, *sides.own) if side.outwards.dot(down) > _FACING]
        first = first[:1]
        yield from ((side, TrimKind.REFERENCE) for side in first)
        yield from ((side, side.kind) for side in through if side not in first)
    else:
        freeing = [
            side for side in through if _beyond(bench, side, face).area >= FREEING_SHARE * face.area
        ]
        if len(freeing) > 1:  # the largest clean piece comes off whole, before others cut into it
            freeing = ranked(
                freeing,
                lambda side: _clean_area(bench, _beyond(bench, side, face)),
                tolerance=ALIKE_AREA,
            )
        yield from ((side, TrimKind.FREEING) for side in freeing)
        yield from ((side, side.kind) for side in through if side not in freeing)
    yield from ((side, side.kind) for side in sides.stopped)


def _beyond(bench: Bench, side: Side, face: Region) -> Region:
    line = side.line(bench.top.placement.centre, bench.tools.left_by_saw(end=side.end))
    return face.meet(line.beyond(extent_of(face)))


def _clean_area(bench: Bench, piece: Region) -> float:
    """Return the area of the largest part of a piece without defects, mm²."""
    for defect in bench.top.panel.defects:
        piece = piece.minus(defect.reach())
    return max((part.area for part in piece.pieces), default=0.0)


def _skipped(bench: Bench, side: Side, kind: TrimKind, blank: Region) -> SkippedTrim:
    strip = strip_beyond(blank, side.line(bench.top.placement.centre, 0.0)).widest
    if strip <= SAME_FIGURE:
        reason = "the edge is kept: the line runs along it"
    elif bench.tools.router:
        reason = "less than the kerf and 3 mm would fall off: rout or plane to the line"
    else:
        reason = "less than the kerf and 3 mm would fall off: plane to the line"
    return SkippedTrim(kind, side.outwards, strip, reason)


def _trim(
    bench: Bench, kind: TrimKind, line: SawLine, cut: tuple[float, Strip, Region], number: int
) -> Trim:
    allowance, strip, blank = cut
    tools = bench.tools
    extent = extent_of(blank)
    fallen = blank.meet(line.moved(tools.kerf).beyond(extent))
    if kind.stops:
        fallen = Region.empty()
    ends = edge_points(bench.top.panel, bench.datum, line.at, line.way)
    assert ends is not None  # there is wood on both sides of the line
    ends = _stopped(ends, bench, line)
    thickness = bench.top.panel.thickness if kind is TrimKind.ROUGH else bench.top.thickness
    depth = thickness + tools.below
    heaviest = max((piece.area for piece in fallen.pieces), default=0.0)
    return Trim(
        label=f"Cut {number}",
        kind=kind,
        start=ends[0],
        end=ends[1],
        waste=line.waste,
        allowance=allowance,
        kerf=tools.kerf,
        guide=_guide(bench, line),
        depths=(depth,) if at_most(depth, ONE_PASS) else (math.ceil(depth / 2 - ROUNDING), depth),
        narrowest=max(0.0, strip.narrowest - tools.kerf),
        widest=strip.widest - tools.kerf,
        fallen=fallen.pieces,
        heaviest=bench.top.panel.substance.mass(heaviest, thickness),
        spans=blank.chord(*line.ends(extent)),
        warnings=tuple(_warnings(bench, line, blank, strip)),
    )


def _guide(bench: Bench, line: SawLine) -> Guide | None:
    offset = bench.tools.guide
    if offset is None:
        return None
    ends = edge_points(bench.top.panel, bench.datum, line.moved(-offset).at, line.way)
    if ends is None:
        return None
    side = "left" if offset == bench.tools.guide_left else "right"
    return Guide(offset, side, *ends)


def _stopped(
    ends: tuple[EdgePoint, EdgePoint], bench: Bench, line: SawLine
) -> tuple[EdgePoint, EdgePoint]:
    """Return the ends of a cut, at the hollow corner where it stops short of one."""
    start, end = ends
    low, high = line.reach
    if math.isfinite(low):
        start = _point_at(bench, line.at + line.way * low)
    if math.isfinite(high):
        end = _point_at(bench, line.at + line.way * high)
    return start, end


def _point_at(bench: Bench, point: Point) -> EdgePoint:
    offsets = bench.datum.coordinates(point)
    return EdgePoint(point, offsets.along, offsets.square)


def crossed(bench: Bench, line: SawLine, blank: Region) -> tuple[str, ...]:
    """Return the names of what no blade may cross and this cut would."""
    kerf = line.band(bench.tools.kerf, extent_of(blank)).meet(blank)
    spoiling = bench.top.panel.spoiling(Spoils.CUTTING)
    return tuple(d.name for d in spoiling if d.extent.touches_or_crosses(kerf))


def _warnings(bench: Bench, line: SawLine, blank: Region, strip: Strip) -> Iterator[str]:
    kerf = line.band(bench.tools.kerf, extent_of(blank)).meet(blank)
    in_the_way = crossed(bench, line, blank)
    for defect in bench.top.panel.spoiling(Spoils.CUTTING):
        if defect.name in in_the_way:
            yield f"{defect.name} lies in the cut: get it out first, or stop short on both sides"
        elif defect.reach().touches_or_crosses(kerf):
            yield f"passes closer to {defect.name} than its clearance: sweep there again first"
    if strip.share_below(bench.tools.thinnest) > MOSTLY_THIN:
        yield "much of it is thinner than the kerf and 3 mm: start where it is widest, go slowly"
