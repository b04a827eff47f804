"""Regions with straight edges, in pieces with holes: the only door to shapely."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from ..errors import GeometryError
from . import offset
from .alike import ranked
from .bounds import Bounds
from .path import Path, circle
from .placement import Placement, Points
from .point import Point
from .stepping import Side
from .tolerance import AREA_BALANCE, CHORD

Polygon = BaseGeometry
"""A shapely polygon, or several of them."""


@dataclass(frozen=True, slots=True)
class Region:
    """A part of the plane bounded by straight edges; may be empty, in pieces, and have holes."""

    shape: BaseGeometry

    @classmethod
    def from_rings(cls, exterior: Points, holes: Sequence[Points] = ()) -> Region:
        """Return the region inside `exterior` and outside each hole; rings are (n, 2) arrays, mm.

        Raises a GeometryError if a ring has under three points or meets itself, or a hole leaves
        the exterior; where.
        """
        for ring in (exterior, *holes):
            if len(ring) < 3:
                raise GeometryError(f"a ring needs at least 3 points, not {len(ring)}")
            if not np.isfinite(ring).all():
                raise GeometryError("a point of a ring has figures that are no numbers")
        shape = shapely.Polygon(exterior, holes)
        if not shape.is_valid:
            raise GeometryError(f"the outline is not simple: {shapely.is_valid_reason(shape)}")
        return cls(shape)

    @classmethod
    def of(cls, path: Path, side: Side = "inside", tolerance: float = CHORD) -> Region:
        """Return what a closed path bounds, its curves as chords that keep to a side of it."""
        return cls.from_rings(path.points(tolerance, side))

    @classmethod
    def empty(cls) -> Region:
        """Return the region that holds nothing."""
        return cls(shapely.Polygon())

    @classmethod
    def disk(cls, centre: Point, radius: float, *, around: bool) -> Region:
        """Return a polygon of a disk that contains it (`around`) or lies within it."""
        return cls.of(circle(centre, radius), "outside" if around else "inside")

    @classmethod
    def along(cls, points: Points, by: float, *, around: bool) -> Region:
        """Return what lies within `by`, mm, of a line through points, or contains it (`around`)."""
        reach = offset.past_chords(by, offset.SEGMENTS) if around else by
        return cls(shapely.LineString(points).buffer(reach, quad_segs=offset.SEGMENTS))

    @classmethod
    def at(cls, place: Point) -> Region:
        """Return the region that is one point, without area or edges: something to be held."""
        return cls(shapely.Point(place.x, place.y))

    @classmethod
    def hull(cls, points: Points) -> Region:
        """Return the convex hull of points, (n, 2) mm; a line or a point where it has no area."""
        return cls(shapely.convex_hull(shapely.MultiPoint(points)))

    @classmethod
    def line(cls, points: Points) -> Region:
        """Return the region that is an open line through points, (n, 2) mm, without area."""
        return cls(shapely.LineString(points))

    @property
    def is_empty(self) -> bool:
        """Whether it holds nothing."""
        return bool(self.shape.is_empty)

    @property
    def area(self) -> float:
        """Its area, mm²."""
        return float(self.shape.area)

    @property
    def perimeter(self) -> float:
        """The length of all its edges, mm."""
        return float(self.shape.length)

    @property
    def bounds(self) -> Bounds:
        """The upright box round it; it must not be empty."""
        return Bounds(*(float(v) for v in self.shape.bounds))

    @property
    def centroid(self) -> Point:
        """The centre of its area."""
        return Point.of(*self.shape.centroid.coords)

    @property
    def round_middle(self) -> Point:
        """The middle of the least circle round it."""
        return Point.of(*shapely.minimum_bounding_circle(self.shape).centroid.coords)

    @property
    def pieces(self) -> tuple[Region, ...]:
        """Its connected pieces, largest first; of pieces alike the one at the left, then below."""
        held = shapely.get_parts(self.shape)
        parts = [p for p in held if isinstance(p, shapely.Polygon) and p.area > 0]
        ordered = ranked(
            parts, lambda p: p.area, lambda p: p.bounds, tolerance=AREA_BALANCE * self.area
        )
        return tuple(Region(p) for p in ordered)

    def piece_at(self, point: Point) -> Region:
        """Return the piece that holds a point, or else the largest."""
        pieces = self.pieces
        return next((piece for piece in pieces if piece.holds_point(point)), pieces[0])

    @property
    def exterior(self) -> Points:
        """The outer ring of a region in one piece, (n, 2), anticlockwise, no point repeated."""
        return _ring(self._one().exterior, anticlockwise=True)

    @property
    def holes(self) -> tuple[Points, ...]:
        """The rings of the holes of a region in one piece, each (n, 2) and clockwise."""
        return tuple(_ring(ring, anticlockwise=False) for ring in self._one().interiors)

    @property
    def edges(self) -> NDArray[np.float64]:
        """All its edges, (n, 2, 2) mm: edge, start or end, x or y; the region is to their left."""
        return offset.edges_of(self.shape)

    @property
    def corners(self) -> Points:
        """All its corners, (n, 2) mm; a single point has one, a ring's first is there twice."""
        return shapely.get_coordinates(self.shape)

    def holds_points(self, points: Points) -> NDArray[np.bool_]:
        """Return for each of the points, (n, 2) mm, whether it lies within or on an edge."""
        shapely.prepare(self.shape)
        held: NDArray[np.bool_] = shapely.intersects_xy(self.shape, points[:, 0], points[:, 1])
        return held

    def _one(self) -> shapely.Polygon:
        if isinstance(self.shape, shapely.Polygon):
            return self.shape
        parts = self.pieces
        if len(parts) != 1:
            raise GeometryError(f"a region in {len(parts)} pieces has no single outline")
        shape = parts[0].shape
        assert isinstance(shape, shapely.Polygon)
        return shape

    def minus(self, *others: Region) -> Region:
        """Return what is left when others are taken away."""
        return Region(offset.difference(self.shape, [o.shape for o in others])) if others else self

    def meet(self, other: Region) -> Region:
        """Return what both hold."""
        return Region(offset.intersection(self.shape, other.shape))

    def joined(self, *others: Region) -> Region:
        """Return what either holds."""
        return union((self, *others))

    def grown(self, by: float, *, around: bool = True) -> Region:
        """Return the region with every point nearer than `by` added (round at corners).

        With `around` the result contains the true parallel region, so it is fit to be taken away
        from what must be clear; without it the result lies within the true one.
        """
        return self if by <= 0 else Region(offset.grown(self.shape, by, around=around))

    def shrunk(self, by: float, *, around: bool = False, segments: int = offset.SEGMENTS) -> Region:
        """Return the points at least `by` inside.

        Without `around` the result lies within the true one (fit for a proof); with it the result
        contains the true one (fit for a bound). `segments` are those of a quarter round a corner.
        """
        if by <= 0:
            return self
        return Region(offset.shrunk(self.shape, by, around=around, segments=segments))

    def roughly(self, by: float, segments: int) -> Region:
        """Return the region grown by `by`, mm, or shrunk where it is below 0, not looked over."""
        return Region(self.shape.buffer(by, quad_segs=segments))

    def simplified(self, tolerance: float) -> Region:
        """Return the region with fewer points, none of its edges moved farther than `tolerance`."""
        return Region(shapely.simplify(self.shape, tolerance))

    def placed(self, placement: Placement) -> Region:
        """Return the region moved and turned."""
        return Region(shapely.transform(self.shape, placement.of))

    def holds(self, other: Region) -> bool:
        """Return whether `other` lies wholly within, edges included."""
        return bool(self.shape.covers(other.shape))

    def holds_point(self, point: Point) -> bool:
        """Return whether the point lies within or on an edge."""
        return bool(shapely.intersects_xy(self.shape, point.x, point.y))

    def touches_or_crosses(self, other: Region) -> bool:
        """Return whether both have a point in common."""
        return bool(self.shape.intersects(other.shape))

    def distance_to(self, other: Region) -> float:
        """Return the least distance between two regions, mm; 0 where they meet."""
        return float(self.shape.distance(other.shape))

    def edge_distance(self, other: Region | Point) -> float:
        """Return the least distance from a point or a region to the edges of this, mm."""
        shape = shapely.Point(*other) if isinstance(other, Point) else other.shape
        return float(shapely.distance(self.shape.boundary, shape))

    def depths(self, points: Points) -> NDArray[np.float64]:
        """Return how far points, (n, 2) mm, lie from the nearest edge; less than 0 outside."""
        far = shapely.distance(self.shape.boundary, shapely.points(points))
        return np.where(self.holds_points(points), far, -far)

    def chord(self, start: Point, end: Point) -> tuple[tuple[Point, Point], ...]:
        """Return the parts of the straight line from `start` to `end` that lie within, in order."""
        cut = self.shape.intersection(shapely.LineString([(start.x, start.y), (end.x, end.y)]))
        parts = shapely.get_parts(cut)
        lines = [p for p in parts if isinstance(p, shapely.LineString) and p.length]
        spans = [(Point(*p.coords[0]), Point(*p.coords[-1])) for p in lines]
        along = (end - start).unit()
        ordered = [(a, b) if (b - a).dot(along) >= 0 else (b, a) for a, b in spans]
        return tuple(sorted(ordered, key=lambda span: (span[0] - start).dot(along)))


def union(regions: Iterable[Region]) -> Region:
    """Return what any of the regions holds."""
    return Region(shapely.union_all([region.shape for region in regions]))


def faces(ring: Points) -> tuple[Region, ...]:
    """Return the bounded parts that a ring, (n, 2) mm, cuts out; it may cross itself."""
    noded = shapely.node(shapely.LinearRing(ring))
    found = shapely.polygonize(list(shapely.get_parts(noded)))
    return tuple(Region(part) for part in shapely.get_parts(found) if part.area > 0)


def convex_hull(points: Points) -> Points:
    """Return the corners of the convex hull of at least three points, (n, 2), anticlockwise."""
    hull = Region.hull(points)
    if not isinstance(hull.shape, shapely.Polygon):
        raise GeometryError("the points lie on one line: there is no polygon round them")
    return hull.exterior


def _ring(ring: shapely.LinearRing, *, anticlockwise: bool) -> Points:
    points = shapely.get_coordinates(ring)[:-1]
    return points if shapely.is_ccw(ring) == anticlockwise else points[::-1].copy()
