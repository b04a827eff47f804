"""What the writers need to know of curves and of areas.

Hatch lines are real and cut to an area: they look the same in every viewer and on every printer.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np

from ..geometry import Arc, EllipticArc, Line, Path, Point, Points, Segment
from ..geometry.tolerance import SAME_PLACE, SAME_POINT
from .scene import SPACING, Area, Hatching, Layer, Mark, Stroke, mark_lines


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
    first, swept = path.segments[0], [segment.swept for segment in path.segments]
    alike = all(
        one.distance_to(other) <= SAME_POINT
        for curve in swept
        for one, other in zip(curve[:3], swept[0][:3], strict=True)
    )
    sweep = sum(curve[-1] for curve in swept)
    if isinstance(first, Line) or not alike or abs(abs(sweep) - math.tau) > SAME_POINT:
        return None
    return replace(first, sweep=sweep)


def long_axis_first(arc: EllipticArc) -> EllipticArc:
    """Return the same arc described from its longer half-axis."""
    if arc.half_length >= arc.half_width:
        return arc
    quarter = math.pi / 2
    return replace(
        arc,
        half_length=arc.half_width,
        half_width=arc.half_length,
        turn=arc.turn + quarter,
        from_angle=arc.from_angle - quarter,
    )


@dataclass(frozen=True, slots=True)
class Trace:
    """Paths that are drawn in one go: what pages (SVG, PDF) make of any item but words."""

    paths: tuple[Path, ...]
    stroked: bool = True
    filled: bool = False
    """With its layer's colour, by the even-odd rule."""
    dashed: bool = True
    """Whether its layer's dashes count, and how far into them it begins, mm."""
    phase: float = 0.0
    width: float = 0.0
    """Of its line, mm on paper; 0 for its layer's own."""
    name: str = ""


def traces(item: Stroke | Area | Mark, layer: Layer) -> Iterator[Trace]:
    """Yield what is drawn of an item of a layer, hatching under the edge of its area."""
    match item:
        case Mark():
            yield Trace(mark_lines(item), dashed=False, name=item.name)
        case Stroke():
            yield Trace((item.path,), phase=item.phase)
        case Area():
            spacing, width = layer.hatch
            lines = hatch_lines(item, layer.hatching, spacing)
            if lines:
                yield Trace(tuple(map(Path.through, lines)), dashed=False, width=width)
            solid = layer.hatching == "solid"
            if solid or item.edged:
                yield Trace((item.boundary, *item.holes), stroked=item.edged, filled=solid)


_CHORD = 0.02  # hatch lines may end this far from a curved edge, mm: less than any line is wide

_SLOPES: dict[Hatching, tuple[float, ...]] = {
    "none": (),
    "solid": (),
    "diagonal": (math.pi / 4,),
    "cross": (math.pi / 4, -math.pi / 4),
}


def hatch_lines(
    area: Area, hatching: Hatching, spacing: float = SPACING
) -> tuple[tuple[Point, Point], ...]:
    """Return the hatch lines of an area, each by its ends, paper mm.

    They lie at whole multiples of `spacing` from the origin: areas carry on each other's hatching.
    """
    rings = [path.points(_CHORD) for path in (area.boundary, *area.holes)]
    return tuple(line for slope in _SLOPES[hatching] for line in _scanned(rings, slope, spacing))


def _scanned(rings: list[Points], slope: float, spacing: float) -> list[tuple[Point, Point]]:
    """Turn the rings until the hatching is level, and pair the crossings of each level line."""
    cos, sin = math.cos(slope), math.sin(slope)
    levelling = np.array([[cos, -sin], [sin, cos]])
    level = [ring @ levelling for ring in rings]
    starts = np.concatenate(level)
    ends = np.concatenate([np.roll(ring, -1, axis=0) for ring in level])
    low, high = starts[:, 1].min(), starts[:, 1].max()
    lines: list[tuple[Point, Point]] = []
    for step in range(math.ceil(low / spacing), math.floor(high / spacing) + 1):
        y = step * spacing
        crossed = (starts[:, 1] <= y) != (ends[:, 1] <= y)
        one, other = starts[crossed], ends[crossed]
        share = (y - one[:, 1]) / (other[:, 1] - one[:, 1])
        xs = np.sort(one[:, 0] + share * (other[:, 0] - one[:, 0]))
        lines += [
            (Point(float(a), y).turned(slope), Point(float(b), y).turned(slope))
            for a, b in zip(xs[::2], xs[1::2], strict=True)
            if b - a > SAME_PLACE  # a corner that a line only touches is none
        ]
    return lines
