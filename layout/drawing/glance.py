"""A small picture of closed paths as they lie in the plane, for a notebook."""

from __future__ import annotations

from collections.abc import Sequence
from functools import reduce

from ..geometry.bounds import Bounds
from ..geometry.path import Path
from .scene import Area, Group, Layer, Scene
from .svg import to_svg

LONGER = 140.0
"""mm on paper: the longer side of what is shown."""

ROUND = 3.0
"""mm on paper left round it."""


def glance(title: str, shown: Sequence[tuple[Layer, Path, Sequence[Path]]]) -> str:
    """Return paths as an SVG document, later ones on top.

    Parameters
    ----------
    shown : sequence of (Layer, Path, sequence of Path)
        Closed paths with their holes, mm, and what they mean.
    """
    box = reduce(Bounds.joined, (path.bounds for _, path, _ in shown))
    scale = LONGER / max(box.width, box.height)
    groups = tuple(
        Group(layer, (Area(path.scaled(scale), tuple(hole.scaled(scale) for hole in holes)),))
        for layer, path, holes in shown
    )
    frame = Bounds(*(side * scale for side in (box.left, box.bottom, box.right, box.top)))
    return to_svg(Scene(title, frame.grown(ROUND), groups))
