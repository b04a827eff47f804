"""A slab marked again: once it is short and flat, its first marks and their ends are gone.

The line P–Q was carried down the edges: where it meets the new ends stand P′ and Q′, and everything
is measured anew from those.
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
