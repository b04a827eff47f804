"""The solid wood of a hollow or framed panel: stiles, rails, and any rail between them."""

from __future__ import annotations

from collections.abc import Iterator

from ..geometry import Bounds, Path, Region, union
from .panel import Panel


def opening_of(panel: Panel) -> Bounds | None:
    """Return the box between rails and stiles, which run the long way; None where none is left."""
    box, (x, y) = panel.boundary.bounds, _widths(panel)
    inside = Bounds(box.left + x, box.bottom + y, box.right - x, box.top - y)
    return inside if min(inside.width, inside.height) > 0 else None


def frame_of(panel: Panel) -> Region | None:
    """Return stiles and rails on the panel; None where their widths are not known."""
    if not (panel.build.stile and panel.build.rail):
        return None
    inside, face = opening_of(panel), panel.region()
    if inside is None:
        return face
    solid = face.minus(Region.of(Path.round_box(inside)))
    rails = (face.meet(Region.of(Path.round_box(rail))) for rail in _between(panel))
    return union((solid, *rails))


def joints_of(panel: Panel) -> Iterator[tuple[str, Path]]:
    """Yield where rails and stiles are joined, each by its name with the show face up."""
    box, (x, y) = panel.boundary.bounds, _widths(panel)
    ends = (("left", box.left, box.left + x), ("right", box.right - x, box.right))
    levels = (("lower", box.bottom, box.bottom + y), ("upper", box.top - y, box.top))
    for side, left, right in ends:
        for level, low, high in levels:
            yield f"{level} {side} corner", Path.round_box(Bounds(left, low, right, high))
    lies = box.width >= box.height
    for number, rail in enumerate(_between(panel), start=1):
        for name, first, last in levels if lies else ends:
            place = (
                Bounds(rail.left, first, rail.right, last)
                if lies
                else Bounds(first, rail.bottom, last, rail.top)
            )
            yield f"{name} end of rail {number} between the ends", Path.round_box(place)


def _widths(panel: Panel) -> tuple[float, float]:
    """Return how wide the frame is at the panel's left and right, and above and below, mm."""
    box, build = panel.boundary.bounds, panel.build
    return (build.rail, build.stile) if box.width >= box.height else (build.stile, build.rail)


def _between(panel: Panel) -> Iterator[Bounds]:
    """Yield the rails between those at the ends, from edge to edge."""
    box = panel.boundary.bounds
    for middle, width in panel.build.between:
        low, high = middle - width / 2, middle + width / 2
        if box.width >= box.height:
            yield Bounds(box.left + low, box.bottom, box.left + high, box.top)
        else:
            yield Bounds(box.left, box.bottom + low, box.right, box.bottom + high)
