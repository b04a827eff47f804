"""The solid wood of a framed door: its stiles, its rails, and any rail between them."""

from __future__ import annotations

from ..geometry.bounds import Bounds
from ..geometry.path import Path
from ..geometry.polygon import Region
from .panel import Panel


def frame_of(panel: Panel) -> Region | None:
    """Return stiles and rails on the panel; None where their widths are not known.

    Stiles run along its long way; what lies between stiles and rails is thin.
    """
    build, box = panel.build, panel.boundary.bounds
    if not (build.stile and build.rail):
        return None
    lies = box.width >= box.height
    x, y = (build.rail, build.stile) if lies else (build.stile, build.rail)
    inside = Bounds(box.left + x, box.bottom + y, box.right - x, box.top - y)
    face = panel.region()
    if inside.width <= 0 or inside.height <= 0:
        return face
    solid = face.minus(Region.of(Path.round_box(inside)))
    for middle, width in build.between:
        low, high = middle - width / 2, middle + width / 2
        rail = (
            Bounds(box.left + low, box.bottom, box.left + high, box.top)
            if lies
            else Bounds(box.left, box.bottom + low, box.right, box.bottom + high)
        )
        solid = solid.joined(face.meet(Region.of(Path.round_box(rail))))
    return solid
