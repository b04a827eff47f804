"""Straight cuts in order: which sides are sawn, which are kept, and the corners of the blank.

A corner cut of 45° off the blank halves the work of sawing a curve. A slab is marked again once it
is short and flat: its first marks and their ends are gone. The line P–Q was carried down the edges:
where it meets the new ends stand P′ and Q′, and everything is measured anew from those.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from ..geometry import Line, Path, Point, Region, at_least, at_most, first_of_best, ranked
from ..geometry.distance import longest_of
from ..geometry.intersect import meeting_of_lines
from ..geometry.tolerance import ALIKE_AREA, SAME_FIGURE, SAME_PLACE, SAME_WAY, SIZE_SLACK
from ..marking.marks import MarkSet
from ..panel.datum import Datum, Reason
from ..panel.edges import Found, Reference
from ..panel.named_edges import named_edges
from ..units import nearest_whole
from .bench import Bench
from .cut import CornerCut, SkippedTrim, SkipReason, Trim, TrimKind
from .sawn import Ends, SawLine, Sawn, extent_of, line_of, strip_beyond
from .sides import Side, box_of, sides_of
from .tools import Stroke

FREEING_SHARE = 0.15
"""What takes off this share of the panel comes first: the rest is lighter (common practice)."""

ROUGH_LENGTH, LEAST_SHORTER = 10.0, 25.0
"""A slab is cut to length so far outside the line before it is flattened, farther by whole 5 mm
where its end cut needs more later (common practice); not where it gets shorter by less than the
second, mm (our choice)."""

_FACING = math.cos(math.radians(45))
"""The first rip runs along the datum's line, within 45°, on the side where that lies."""

MOSTLY_THIN = 0.25
"""A cut that takes off too little over more than this share of its length is warned of: at its
ends alone a slanting cut always does."""

LEAST_STOPPED, LEAST_STRIP = 100.0, 5.0
"""Left to the jigsaw: a shorter cut into a hollow corner; on a top that it goes round, a straight
cut that takes off no more beside its kerf, mm (our choice)."""

LEAST_DEEP = 12.0
"""A corner cut that takes off less than this beside its kerf is not worth setting up, mm: about 20
along both edges (common practice)."""

LEAST_RUN = 200.0
"""A shorter one gives a saw's base no run along a guide, mm: it is made with a handsaw (our choice:
bases are 250 to 300 long)."""


@dataclass(frozen=True, slots=True)
class MarkedAgain:
    """The second setting out of a slab."""

    boundary: Path
    """Of what is left of it."""
    found: float
    thickness: float
    """Before it is flattened, and after, mm."""
    datum: Datum
    marks: MarkSet


@dataclass(frozen=True, slots=True)
class StraightCuts:
    """The trims in order, what they leave, and the sides that are not sawn."""

    trims: tuple[Trim, ...]
    skipped: tuple[SkippedTrim, ...]
    blank: Region
    bench: Bench
    """With panel and datum that the last were marked by: a slab is marked again."""
    is_hollow: bool = False
    """Whether a straight-sided top is hollow somewhere, so that they cannot free all of it."""


def straight_cuts(bench: Bench) -> StraightCuts:
    """Return the straight cuts of a job.

    A slab gets its rough length first, and is marked again; a panel without a straight edge gets
    the first rip, then its ends square to it. Elsewhere what takes off a large part comes
    first, then ends, then long edges. No cut is made that takes off less than the kerf and 3 mm.
    """
    start = StraightCuts((), (), bench.top.panel.region(), bench, sides_of(bench).is_hollow)
    if bench.is_slab:
        start = _made(start, [(side, TrimKind.ROUGH) for side in box_of(bench)[0]])
        start = replace(start, bench=_shortened(bench, start.trims, start.blank))
    return _made(start, _in_order(start.bench, start.blank))


def _made(before: StraightCuts, sides: Iterable[tuple[Side, TrimKind]]) -> StraightCuts:
    """Return the cuts so far with those along more sides, where they can be made."""
    bench, blank = before.bench, before.blank
    trims, skipped = list(before.trims), list(before.skipped)
    for side, kind in sides:
        cut = _sawn(bench, side, kind, blank)
        reason = _reason(cut, kind)
        if reason is not None:
            if kind is not TrimKind.ROUGH and not kind.stops:
                skipped.append(_skipped(cut, side, kind, reason))
        elif not kind.stops or math.fsum(a.distance_to(b) for a, b in cut.spans) >= LEAST_STOPPED:
            thin = sum(width < bench.tools.thinnest for width in cut.strip.widths)
            wanders = thin > MOSTLY_THIN * len(cut.strip.widths)
            fields = cut.fields(f"Cut {len(trims) + 1}")
            trims.append(Trim(**fields, guide=cut.guide, kind=kind, wanders=wanders))
            blank = cut.left
    return replace(before, trims=tuple(trims), skipped=tuple(skipped), blank=blank)


def _sawn(bench: Bench, side: Side, kind: TrimKind, blank: Region) -> Sawn:
    """Return the cut along a side: a slab's rough length is as thick as it was found."""
    allowance, thickness = _left_by(bench, side), bench.top.thickness
    if kind is TrimKind.ROUGH:
        thickness = bench.top.panel.thickness
        allowance = max(ROUGH_LENGTH, 5.0 * math.ceil((allowance + bench.tools.thinnest) / 5.0))
    line = side.line(bench.top.placement.centre, allowance)
    return Sawn(bench, line, blank, allowance, thickness)


def _left_by(bench: Bench, side: Side) -> float:
    return bench.left_by(Stroke.END if side.end else Stroke.SIDE)


def _reason(cut: Sawn, kind: TrimKind) -> SkipReason | None:
    """Return why no saw runs along a line; None where it does.

    What frees much of the panel is sawn whatever lies in its line, as a side is that nothing but a
    saw takes: sheets warn of it. Elsewhere the jigsaw passes by on its way round the top.
    """
    bench = cut.bench
    lines = (s for s in bench.top.runs.segments if isinstance(s, Line))
    straight = any((-s.direction.left).dot(cut.line.waste) > 1 - SAME_WAY for s in lines)
    least = LEAST_SHORTER if kind is TrimKind.ROUGH else bench.tools.thinnest
    if not at_least(cut.strip.widest, least, SIZE_SLACK):
        return SkipReason.TOO_THIN if straight else SkipReason.TO_JIGSAW
    if straight and (bench.top.outline.is_boxed or bench.top.runs.is_straight):
        return None
    if cut.left.area > (1 - FREEING_SHARE) * cut.wood.area and cut.crossed:
        return SkipReason.IN_THE_WAY
    needed = kind in (TrimKind.ROUGH, TrimKind.FIRST_RIP)
    return SkipReason.TO_JIGSAW if not needed and at_most(cut.off, LEAST_STRIP) else None


def _in_order(bench: Bench, face: Region) -> Iterator[tuple[Side, TrimKind]]:
    sides, kind = sides_of(bench), TrimKind.FIRST_RIP
    through = (*sides.ends, *sides.longs, *sides.own)

    def beyond(side: Side) -> Region:
        line = side.line(bench.top.placement.centre, _left_by(bench, side))
        return face.meet(line.beyond(extent_of(face)))

    def clean_area(side: Side) -> float:
        """Return the area of the largest part beyond a side without defects, mm²."""
        clean = beyond(side).minus(*(defect.reach() for defect in bench.top.panel.defects))
        return max((part.area for part in clean.pieces), default=0.0)

    if bench.datum.struck:
        down = Point.polar(-1.0, bench.datum.frame.turn + math.pi / 2)
        first = [side for side in (*sides.longs, *sides.own) if side.outwards.dot(down) > _FACING]
        first = first[:1]
    else:
        kind = TrimKind.FREEING
        first = [side for side in through if beyond(side).area >= FREEING_SHARE * face.area]
        if len(first) > 1:  # the largest clean piece comes off whole, before others cut into it
            first = ranked(first, clean_area, tolerance=ALIKE_AREA)
    yield from ((side, kind) for side in first)
    yield from ((side, side.kind) for side in through if side not in first)
    yield from ((side, side.kind) for side in sides.stopped)


def _skipped(cut: Sawn, side: Side, kind: TrimKind, reason: SkipReason) -> SkippedTrim:
    bench, centre = cut.bench, cut.bench.top.placement.centre
    strip = strip_beyond(cut.wood, side.line(centre, 0.0)).widest
    if strip <= SAME_FIGURE:
        reason = SkipReason.KEPT
    needed = _left_by(bench, side) + bench.tools.thinnest
    place = Region.at(centre + side.outwards * side.half)
    edges = named_edges(bench.top.panel)
    off = {held.name: Region.line(held.path.points(1.0)).distance_to(place) for held in edges}
    edge = first_of_best(off, lambda name: -off[name], tolerance=SAME_PLACE) if off else ""
    in_the_way = cut.crossed if reason is SkipReason.IN_THE_WAY else ()
    return SkippedTrim(kind, side.outwards, edge, strip, needed, reason, in_the_way)


def corner_cuts_of(cuts: StraightCuts) -> tuple[tuple[CornerCut, ...], Region]:
    """Return the corner cuts, from the corner nearest the datum's start, and what they leave.

    None where the saw would cross what no blade may, or where little stands outside the line.
    """
    bench, blank, made = cuts.bench, cuts.blank, list[CornerCut]()
    if bench.top.runs.is_straight:
        return (), blank
    left, top = bench.left_by(Stroke.CORNER), bench.top
    around = [Point(-1, -1), Point(1, -1), Point(1, 1), Point(-1, 1)]
    nearest = -nearest_whole((bench.turn - bench.datum.frame.turn) / (math.pi / 2)) % 4
    for corner in (*around[nearest:], *around[:nearest]):
        waste = Point.polar(1.0, corner.angle + bench.turn)
        reach = top.outline.support(corner.angle) - top.lipping + left
        line = SawLine(top.placement.centre + waste * reach, waste)
        cut = Sawn(bench, line, blank, left, top.thickness, in_blank=True)
        if not at_least(cut.off, LEAST_DEEP, SIZE_SLACK) or cut.crossed:
            continue
        handsaw = cut.spans[0][0].distance_to(cut.spans[-1][1]) < LEAST_RUN
        ends, guide = cut.ends(line), None if handsaw else cut.guide
        assert ends is not None  # or nothing would fall off
        fields, leg = cut.fields(f"Corner cut {len(made) + 1}"), _leg(cuts, ends)
        made.append(CornerCut(**fields, guide=guide, leg=leg, handsaw=handsaw))
        blank = cut.left
    return tuple(made), blank


def _leg(cuts: StraightCuts, ends: Ends) -> float | None:
    """Return how far both ends lie from the corner of the blank, where that is sawn and there."""
    through = [trim for trim in cuts.trims if not trim.kind.stops]
    sides = [
        [trim for trim in through if abs(line_of(trim).past(end.point)) <= SAME_PLACE]
        for end in ends
    ]
    if not all(len(held) == 1 for held in sides):
        return None
    (one,), (other,) = sides
    at, far = one.start.point, other.start.point
    corner = meeting_of_lines(at, one.waste.left, far, other.waste.left)
    if corner is None:
        return None
    legs = [corner.distance_to(end.point) for end in ends]
    in_wood = cuts.blank.distance_to(Region.at(corner)) <= SAME_PLACE
    return legs[0] if in_wood and abs(legs[0] - legs[1]) <= SAME_PLACE else None


def _shortened(bench: Bench, rough: Sequence[Trim], left: Region) -> Bench:
    """Return the bench with what the rough cuts have left of the slab, and the datum on that."""
    panel, datum = bench.top.panel, bench.datum
    piece = left.piece_at(bench.top.placement.centre)
    if rough:
        holes = tuple(Path.through_ring(hole[::-1]) for hole in piece.holes)
        panel = replace(panel, boundary=Path.through_ring(piece.exterior), cut_outs=holes)

    def stays(point: Point) -> bool:
        return all((point - trim.start.point).dot(trim.waste) <= 0 for trim in rough)

    reach = (datum.end - datum.start).unit() * extent_of(piece)
    ends = longest_of(piece.chord(datum.start - reach, datum.end + reach))
    first, last = (
        Reference(f"{reference.name}′", end, Found.CARRIED)
        for reference, end in zip((datum.first, datum.last), ends, strict=True)
    )
    others = (r for r in datum.references if r.name not in datum.names and stays(r.point))
    again = replace(
        datum,
        first=first,
        last=last,
        why=Reason.AGAIN,
        corners=tuple(corner for corner in datum.corners if stays(corner.point)),
        references=(first, last, *others),
    )
    return replace(bench, top=replace(bench.top, panel=panel), datum=again)
