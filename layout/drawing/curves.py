"""What the writers need to know of curves."""

from __future__ import annotations

import math

from ..geometry import Arc, EllipticArc, Line, Path, Point, Segment
from ..geometry.tolerance import SAME_POINT


def cubic_controls(segment: Segment) -> tuple[Point, Point]:
    """Return the inner control points of the cubic for an arc.

    They lie on the end tangents at 4/3·tan(sweep/4) of the radius; an ellipse is a circle seen
    askew, so the same holds in its own frame (Goldapp, *CAGD* 8, 1991).
    """
    assert not isinstance(segment, Line)
    reach = 4 / 3 * math.tan(segment.sweep / 4) / segment.sweep
    return segment.start + segment.pace(0.0) * reach, segment.end - segment.pace(1.0) * reach


def whole_turn(path: Path) -> Arc | EllipticArc | None:
    """Return the one arc of a whole turn that a path is, if it is one."""
    first = path.segments[0]
    if isinstance(first, Line) or not path.is_closed:
        return None
    kin = [s for s in path.segments if isinstance(s, Arc | EllipticArc) and _same_curve(first, s)]
    sweep = sum(s.sweep for s in kin)
    if len(kin) < len(path.segments) or abs(abs(sweep) - math.tau) > SAME_POINT:
        return None
    if isinstance(first, Arc):
        return Arc(first.centre, first.radius, first.from_angle, sweep)
    return EllipticArc(
        first.centre, first.half_length, first.half_width, first.turn, first.from_angle, sweep
    )


def _same_curve(one: Arc | EllipticArc, other: Arc | EllipticArc) -> bool:
    def numbers(arc: Arc | EllipticArc) -> tuple[float, ...]:
        if isinstance(arc, Arc):
            return (arc.centre.x, arc.centre.y, arc.radius)
        return (arc.centre.x, arc.centre.y, arc.half_length, arc.half_width, arc.turn)

    pairs = zip(numbers(one), numbers(other), strict=False)
    return type(one) is type(other) and all(abs(a - b) <= SAME_POINT for a, b in pairs)


def long_axis_first(arc: EllipticArc) -> EllipticArc:
    """Return the same arc described from its longer half-axis."""
    if arc.half_length >= arc.half_width:
        return arc
    quarter = math.pi / 2
    return EllipticArc(
        arc.centre,
        arc.half_width,
        arc.half_length,
        arc.turn + quarter,
        arc.from_angle - quarter,
        arc.sweep,
    )
