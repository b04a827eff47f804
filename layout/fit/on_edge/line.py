"""The line that a long side lies on, and the frame of a search that stands on it.

No edge is dead straight. The line is parallel to the taut string from end to end and touches the
edge where it runs farthest into the wood, so the whole of the top on it is wood and proved to be.
What stands proud of the line, never more than `STRAIGHT` for each way that the edge may bow, is not
cut: the edge stays as it is.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from ...errors import LayoutError
from ...geometry.placement import Placement
from ...geometry.tolerance import ROUNDING
from ...panel.edges import Edge
from ...panel.named_edges import require_straight, turn_along
from ..wish import STRAIGHT_SIDED, Limits, Wish

_ANGLE = 1e-9
"""What an edge may turn past the limit by rounding, radians."""


@dataclass(frozen=True, slots=True)
class KeptLine:
    """A frame on a kept edge: x along it, y square into the wood."""

    frame: Placement
    """From the frame onto the panel."""
    length: float
    """How far the edge reaches along x from the origin, mm."""

    @classmethod
    def of(cls, wish: Wish, shape: str) -> KeptLine:
        """Return the line of the one edge that a wish keeps.

        Raises
        ------
        LayoutError
            If that shape has no long straight side, more than one edge is kept, the edge is not
            straight or runs too far off the grain, or the top is to be lipped.
        """
        assert wish.keeping is not None
        if shape not in STRAIGHT_SIDED:
            raise LayoutError(
                f"no long straight side of a top of shape {shape!r} can lie on an edge that is "
                f"kept: wish for {', '.join(STRAIGHT_SIDED)} or a piece as found"
            )
        if len(wish.keeping.edges) != 1:
            raise LayoutError(
                f"a {shape} has one long side on one kept edge, not on {len(wish.keeping.edges)}: "
                "keep one edge, or wish for a piece as found"
            )
        if wish.lipping > 0:
            raise LayoutError(
                "a lipping goes all round, so no edge of the panel can be kept: leave out one of "
                "the two"
            )
        edge = Edge(wish.keeping.edges[0].segments)
        require_straight(edge, "the kept edge")
        require_turn(turn_along(edge), wish.limits)
        deepest = edge.hollow if edge.hollow > ROUNDING else 0.0
        along = edge.direction
        return cls(Placement(edge.start + along.left * deepest, along.angle), edge.chord)


def require_turn(turn: float, limits: Limits) -> None:
    """Raise a `LayoutError` if a turn is farther from the grain than the limits allow."""
    off = abs(limits.off_grain(turn))
    if off > limits.most_turn + _ANGLE:
        raise LayoutError(
            f"the kept edge runs {math.degrees(off):.1f}° off the grain, and the top may turn "
            f"{math.degrees(limits.most_turn):g}° at most: allow more turn, or keep another edge"
        )
