"""A slab marked again: once it is short and flat, its first marks and their ends are gone.

The line P–Q was carried down the edges, and the rough cuts have made new ends: where the line meets
them stand P′ and Q′, and everything is measured anew from those.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from ..geometry import Path, Point, Region
from ..geometry.distance import longest_of
from ..marking.marks import MarkSet
from ..panel.datum import Datum, Reason
from ..panel.edges import Found, Reference
from .bench import Bench
from .cut import Trim
from .sawn import extent_of


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


def shortened(bench: Bench, rough: Sequence[Trim], left: Region) -> Bench:
    """Return the bench with what the rough cuts have left of the slab, and the datum on that."""
    panel, datum = bench.top.panel, bench.datum
    piece = left.piece_at(bench.top.placement.centre)
    boundary = Path.through_ring(piece.exterior) if rough else panel.boundary
    holes = tuple(Path.through_ring(hole[::-1]) for hole in piece.holes)
    cut_outs = holes if rough else panel.cut_outs
    kept = [corner for corner in datum.corners if not _cut_off(corner.point, rough)]
    first, last = _ends(datum, piece)
    others = [
        reference
        for reference in datum.references
        if reference.name not in datum.names and not _cut_off(reference.point, rough)
    ]
    return replace(
        bench,
        top=replace(bench.top, panel=replace(panel, boundary=boundary, cut_outs=cut_outs)),
        datum=replace(
            datum,
            first=first,
            last=last,
            why=Reason.AGAIN,
            corners=tuple(kept),
            references=(first, last, *others),
        ),
    )


def _cut_off(point: Point, rough: Sequence[Trim]) -> bool:
    return any((point - trim.start.point).dot(trim.waste) > 0 for trim in rough)


def _ends(datum: Datum, piece: Region) -> tuple[Reference, Reference]:
    """Return where the line meets both ends of what is left: only there it outlives flattening."""
    along = (datum.end - datum.start).unit()
    reach = along * extent_of(piece)
    spans = piece.chord(datum.start - reach, datum.end + reach)
    start, end = longest_of(spans)
    return (
        Reference(f"{datum.first.name}′", start, Found.CARRIED),
        Reference(f"{datum.last.name}′", end, Found.CARRIED),
    )
