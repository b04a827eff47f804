"""Lipping and edging: how much goes round, and how thin a strip must be to bend."""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..geometry import Line
from ..geometry.tolerance import SAME_FIGURE
from .bench import Bench
from .straight import StraightCuts
from .tools import SPARE

OVER_THICKNESS = 4.0
"""A lipping is cut this much wider than the panel is thick, and flushed, mm (common practice)."""

BENDS_COLD = 100.0
"""A strip bends cold round a radius of this many times its thickness: what hardwood laminations of
curved beams may (American Wood Council, *National Design Specification*, section 5.3.8, from
memory)."""


@dataclass(frozen=True, slots=True)
class Edging:
    """What goes round the sawn edges of a top."""

    around: float
    """Length of all edges but those that are kept, mm; for a lipping round the core."""
    kept: float
    """Length of the panel's own edges that are kept, mm."""
    cut_length: float
    """`around` and a tenth more, mm."""
    strip_width: float
    """Before it is flushed, mm."""
    thickness: float
    """Of the lipping, mm; 0 for a thin edging."""
    tightest: float | None
    """Least radius that it must follow, mm; None for straight edges, with mitred corners."""
    layers: int
    """A lipping too thick to bend cold there is laminated of so many strips."""
    on_straights: bool
    """Whether a joint can lie on a straight part of it."""

    @property
    def layer(self) -> float:
        """Thickness of one strip, mm."""
        return self.thickness / self.layers


def edging_of(bench: Bench, cuts: StraightCuts) -> Edging | None:
    """Return what goes round a top that is lipped, or whose build has a raw edge; else None."""
    if not bench.top.lipping and not bench.top.panel.build.kind.is_board:
        return None
    kept = _kept(bench, cuts)
    around = bench.top.core.length - kept
    tightest = bench.top.outline.tightest(bench.top.lipping)
    layers = 1
    if bench.top.lipping and tightest:
        layers = max(1, math.ceil(bench.top.lipping * BENDS_COLD / tightest - 1e-9))
    return Edging(
        around,
        kept,
        cut_length=around * SPARE,
        strip_width=bench.top.thickness + OVER_THICKNESS,
        thickness=bench.top.lipping,
        tightest=tightest,
        layers=layers,
        on_straights=any(isinstance(segment, Line) for segment in bench.top.runs.segments),
    )


def _kept(bench: Bench, cuts: StraightCuts) -> float:
    """Return the length of edges of the top that are edges of the panel."""
    stay = math.fsum(path.length for path in bench.top.runs.kept)
    kept = [side.waste for side in cuts.skipped if side.strip <= SAME_FIGURE]
    lines = [segment for segment in bench.top.runs.segments if isinstance(segment, Line)]
    return stay + math.fsum(
        line.length for line in lines for waste in kept if (-line.direction.left).dot(waste) > 0.999
    )
