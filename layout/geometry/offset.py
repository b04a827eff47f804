"""Shapes grown and shrunk all round, on the side that is asked for; what two share, what is left.

A chord lies on one side of its arc, so a proof and a bound need the arc from different sides. An
offset by shapely may go astray where short edges of an arc run up to a corner, so it is looked
over; where it left something out, what is near an edge is put together edge by edge. GEOS 3.14 may
find that rings that run along each other to a millionth share nothing. Where a place well inside
one lies in the other all the same, it is worked out again on a fine grid.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from .placement import Points

_GRID = 1e-9
"""mm to which points are rounded where an overlay is worked out again."""

NOTHING = 1e-12
"""Share of an area that is none."""


def difference(one: BaseGeometry, others: Sequence[BaseGeometry]) -> BaseGeometry:
    """Return what is left of a shape when others are taken away."""
    other = others[0] if len(others) == 1 else shapely.union_all(others)
    left = one.difference(other)
    still = shapely.point_on_surface([shape for shape in others if not shape.is_empty])
    untouched = left.area >= one.area * (1 - NOTHING) and _share_a_place(one, other)
    if untouched or shapely.contains(left, still).any():
        return shapely.difference(one, other, grid_size=_GRID)
    return left


def intersection(one: BaseGeometry, other: BaseGeometry) -> BaseGeometry:
    """Return what two shapes both hold."""
    both = one.intersection(other)
    if both.area <= NOTHING * one.area and _share_a_place(one, other):
        return shapely.intersection(one, other, grid_size=_GRID)
    return both


def _share_a_place(one: BaseGeometry, other: BaseGeometry) -> bool:
    if one.is_empty or other.is_empty:
        return False
    return bool(
        shapely.contains(one, shapely.point_on_surface(other))
        or shapely.contains(other, shapely.point_on_surface(one))
    )


SEGMENTS = 64
"""Segments a quarter circle in a grown region: sagitta r·7.5e-5, where GEOS makes one of half as
much again r·1.7e-4: 0.003 mm at 15 mm."""


_CROWDED = 4.0
"""Areas of a shape that the strips inside its edges may be together. Beyond it is shrunk in halves:
the first one takes the needles away, whose sides would all cross each other when moved."""


def past_chords(radius: float, segments: int, span: float = 1.5) -> float:
    """Return the radius at which chords of an arc stay out of the circle of a smaller one.

    GEOS divides an arc into as many parts as come nearest to `segments` a quarter: where that is
    one, its chord may span half as much again.
    """
    return float(radius / np.cos(span * np.pi / (4 * segments)))


_HALF_CIRCLE = 1.05
"""The span of the round end of a line: half a circle comes out even, but for what GEOS snaps."""


def grown(shape: BaseGeometry, by: float, *, around: bool) -> BaseGeometry:
    """Return a shape with every point nearer than `by` added, or more (`around`), or less, mm."""
    if shape.is_empty:
        return shape
    moved = shape.buffer(past_chords(by, SEGMENTS) if around else by, quad_segs=SEGMENTS)
    if _is_whole(shape, moved.boundary, by, SEGMENTS):
        return moved
    return shapely.union_all([shape, band(shape, by, around=around, segments=SEGMENTS)])


def shrunk(shape: BaseGeometry, by: float, *, around: bool, segments: int) -> BaseGeometry:
    """Return the points at least `by` inside a shape, or more of them (`around`), or fewer, mm."""
    if not shape.area:  # a line has no inside
        return shapely.Polygon()
    if shape.length * by > _CROWDED * shape.area:
        halved = shrunk(shape, by / 2, around=around, segments=segments)
        return shrunk(halved, by - by / 2, around=around, segments=segments)
    reach = by if around or _is_convex(shape) else past_chords(by, segments)
    moved = shape.buffer(-reach, quad_segs=segments)
    if _is_whole(shape, moved, -by, segments):
        return moved
    return difference(shape, [band(shape, by, around=not around, segments=segments)])


def _is_convex(shape: BaseGeometry) -> bool:
    """Return whether no corner is hollow: then no arc comes of moving the sides inwards."""
    hull = shapely.convex_hull(shape)
    return bool(hull.area - shape.area <= NOTHING * hull.area)


def rings_of(shape: BaseGeometry) -> list[Points]:
    """Return the rings of a shape, the inside to their left, their first points not repeated."""
    oriented = shapely.get_parts(shapely.orient_polygons(shape))
    parts = [p for p in oriented if isinstance(p, shapely.Polygon) and p.area > 0]
    rings = [shapely.get_coordinates(r) for p in parts for r in (p.exterior, *p.interiors)]
    return [r[:-1][np.any(r[1:] != r[:-1], axis=1)] for r in rings]


def edges_of(shape: BaseGeometry) -> NDArray[np.float64]:
    """Return the edges of a shape, (n, 2, 2) mm, the inside to their left."""
    edges = [np.stack([r, np.roll(r, -1, axis=0)], axis=1) for r in rings_of(shape)]
    return np.concatenate([np.zeros((0, 2, 2)), *edges])


def band(shape: BaseGeometry, by: float, *, around: bool, segments: int) -> BaseGeometry:
    """Return what lies within `by`, mm, of the edges of a shape, or more (`around`), or less."""
    reach = past_chords(by, segments, _HALF_CIRCLE) if around else by
    swept = shapely.buffer(shapely.linestrings(edges_of(shape)), reach, quad_segs=segments)
    return shapely.union_all(swept)


def _is_whole(shape: BaseGeometry, moved: BaseGeometry, by: float, segments: int) -> bool:
    """Return whether an offset by shapely has left nothing out.

    Where dense points of an arc run up to a corner that closes, it cuts the arc off for noise
    (GEOS 3.14). So every moved end of an edge that is far enough off must be found again.
    """
    edges = edges_of(shape)
    ways = edges[:, 1] - edges[:, 0]
    right = np.stack([ways[:, 1], -ways[:, 0]], axis=1) / np.hypot(*ways.T)[:, None]
    ends = (edges + by * right[:, None]).reshape(-1, 2)
    shapely.prepare(shape)
    held = shapely.intersects_xy(shape, ends[:, 0], ends[:, 1])
    edge = shape.boundary
    shapely.prepare(edge)
    places = shapely.points(ends[held == (by < 0)])
    true = places[~shapely.dwithin(edge, places, abs(by) * (1 - 1e-9) - 1e-6)]
    shapely.prepare(moved)
    near = 0.01 + abs(by) * 1e-4 + 2 * (past_chords(abs(by), segments) - abs(by))
    return bool(np.all(shapely.dwithin(moved, true, near)))
