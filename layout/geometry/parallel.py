"""The line parallel to any closed path.

Lines and arcs are moved aside; an arc about a corner that opens joins them, where one closes they
are cut where they meet. That is exact wherever no part of the path is used up. Where one is, all
the faces that the moved pieces bound are looked at, and those kept that lie far enough away.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

import numpy as np

from ..errors import GeometryError
from .alike import first_of_best
from .intersect import meetings, share_of, turn_at
from .oval_parallels import arcs_along
from .path import Path
from .placement import Points
from .point import Point
from .polygon import Region, faces, union
from .segments import Arc, EllipticArc, Line
from .tolerance import SAME_POINT

Piece = Line | Arc


def parallel_of_path(path: Path, distance: float, tolerance: float) -> Path:
    """Return the closed line `distance` outside (negative: inside) a closed, anticlockwise path.

    Exact for lines and circular arcs of which nothing is used up; elsewhere within `tolerance`, mm.
    Raises a GeometryError if nothing is left so far inside, or the line falls into several.
    """
    if distance == 0:
        return path
    pieces = [
        piece
        for segment in path.segments
        for piece in (
            arcs_along(segment, tolerance / 4) if isinstance(segment, EllipticArc) else (segment,)
        )
    ]
    face = Region.of(path, tolerance=tolerance / 4)
    drawn = _cut_at_corners(pieces, distance)
    if drawn is not None and _keeps_away(drawn, face, distance, tolerance):
        return drawn
    return _from_faces(pieces, face, distance, tolerance)


def _moved(piece: Piece, distance: float) -> Piece | None:
    """Return a piece moved to the right; an arc that is more than used up lies beyond its centre.

    None for one that is just used up.
    """
    if isinstance(piece, Line):
        return piece.parallel(distance)
    radius = piece.radius + _bulge(piece, distance)
    if abs(radius) < SAME_POINT:
        return None
    beyond = math.pi if radius < 0 else 0.0
    return replace(piece, radius=abs(radius), from_angle=piece.from_angle + beyond)


def _cut_at_corners(pieces: Sequence[Piece], distance: float) -> Path | None:
    """Return the moved pieces joined or cut corner by corner; None where one is used up."""
    if any(isinstance(p, Arc) and p.radius + _bulge(p, distance) < SAME_POINT for p in pieces):
        return None
    moved = [p for p in (_moved(piece, distance) for piece in pieces) if p is not None]
    count = len(moved)
    first, last = [0.0] * count, [1.0] * count
    joints: list[Arc | None] = [None] * count
    for i in range(count):
        after = (i + 1) % count
        one, other, corner = moved[i], moved[after], pieces[i].end
        if one.end.distance_to(other.start) <= SAME_POINT / 2:
            continue
        turn = turn_at(pieces[i], pieces[after])
        if turn * distance > 0:
            joints[i] = Arc(corner, abs(distance), (one.end - corner).angle, turn)
            continue
        found = meetings(one, other)
        if not found:
            return None
        away = [(corner.distance_to(p), p) for p in found]
        _, nearest = first_of_best(
            away, lambda met: -met[0], lambda met: tuple(met[1]), tolerance=SAME_POINT
        )
        last[i], first[after] = share_of(one, nearest), share_of(other, nearest)
    if any(end - start <= 0 for start, end in zip(first, last, strict=True)):
        return None
    kept = [piece.part(*cut) for piece, *cut in zip(moved, first, last, strict=True)]
    joined = [part for pair in zip(kept, joints, strict=True) for part in pair if part is not None]
    try:
        return Path(tuple(joined))
    except GeometryError:
        return None


def _bulge(arc: Arc, distance: float) -> float:
    return math.copysign(distance, distance * arc.sweep)


def _keeps_away(drawn: Path, face: Region, distance: float, tolerance: float) -> bool:
    """Return whether a line is simple and no place of it is too near to the edge of a face."""
    try:
        Region.of(drawn, tolerance=tolerance)
    except GeometryError:
        return False
    places = (segment.at(share) for segment in drawn.segments for share in (0.0, 0.5))
    return drawn.is_closed and all(_is_away(p, face, distance, tolerance) for p in places)


def _is_away(point: Point, face: Region, distance: float, tolerance: float) -> bool:
    within = face.holds_point(point)
    return within == (distance < 0) and face.edge_distance(point) >= abs(distance) - tolerance


def _from_faces(pieces: Sequence[Piece], face: Region, distance: float, tolerance: float) -> Path:
    """Return the parallel as the edge of those faces of the moved pieces that lie right."""
    ring = np.concatenate(list(_raw(pieces, distance, tolerance / 2)))
    kept = [part for part in faces(ring) if _lies_right(part, face, distance, tolerance)]
    left = union(kept if distance < 0 else [*kept, face]).pieces
    if len(left) != 1 or left[0].holes:
        far = f"{abs(distance):g} mm {'inside' if distance < 0 else 'outside'} the outline"
        raise GeometryError(
            f"{far} is nothing" if not left else f"the line {far} falls into several"
        )
    return Path.through_ring(left[0].simplified(tolerance / 4).exterior)


def _raw(pieces: Sequence[Piece], distance: float, tolerance: float) -> Iterator[Points]:
    """Yield the points of all moved pieces, and of the arcs about the corners between them."""
    for i, piece in enumerate(pieces):
        moved = _moved(piece, distance)
        if moved is not None:
            yield Path((moved,)).points(tolerance)
        turn = turn_at(piece, pieces[(i + 1) % len(pieces)])
        if abs(turn) > SAME_POINT / abs(distance):
            out = -piece.pace(1.0).left * math.copysign(1.0, distance)
            yield Path((Arc(piece.end, abs(distance), out.angle, turn),)).points(tolerance)


def _lies_right(part: Region, face: Region, distance: float, tolerance: float) -> bool:
    inner = Point.of(*part.shape.representative_point().coords)
    if distance < 0:
        return _is_away(inner, face, distance, tolerance)
    return face.holds_point(inner) or face.edge_distance(inner) <= distance + tolerance
