"""Whether a path is its own mirror image, or that of another one."""

from __future__ import annotations

from .path import Path
from .point import Point
from .polygon import Region
from .tolerance import SAME_PLACE


def is_symmetric(path: Path, axis: str) -> bool:
    """Return whether a closed path is its own mirror image at x = 0 (`axis` "x") or y = 0 ("y").

    >>> from .path import circle
    >>> is_symmetric(circle(Point(0, 5), 10), "x"), is_symmetric(circle(Point(0, 5), 10), "y")
    (True, False)
    """
    return images(path, path, (-1.0, 1.0) if axis == "x" else (1.0, -1.0))


def images(path: Path, other: Path, flip: tuple[float, float]) -> bool:
    """Return whether a path lies on another one once its x and y are multiplied by `flip`."""
    one, two = path.bounds.middle, other.bounds.middle
    if Point(one.x * flip[0], one.y * flip[1]).distance_to(two) > SAME_PLACE:
        return False
    face = Region.of(other)
    places = (s.at(k / _PROBES) for s in path.segments for k in range(_PROBES + 1))
    return all(
        face.edge_distance(Point(p.x * flip[0], p.y * flip[1])) <= SAME_PLACE for p in places
    )


_PROBES = 8
"""Points tried on each segment: a line or an arc that fits another one at nine is the same."""
