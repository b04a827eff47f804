"""The form of a convex outline that comes in one form: what it is where its radius is 1."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from ...errors import LayoutError
from ...geometry import Line, Region
from ...geometry.polygon import convex_hull
from ...outlines import Outline, RegularPolygon
from ..wood.edges import Array, repeats
from .polygon_gauge import PolygonBody

_CURVES = 1e-4
"""Farthest that the body stands off the curves of an outline, as a share of area over way round
(half a radius or more): far below the gap that a search leaves."""

_NOTCH = 1e-5
"""Depth, as a share of the radius, of what is no dent but rounding."""

_SAME = 1e-7
"""Corners that lie nearer to each other than this share of the radius are one."""


@dataclass(frozen=True, slots=True)
class Form:
    """What a convex outline is, for a radius of 1; its middle is that of its area."""

    name: str
    body: PolygonBody
    """Holds the outline, which holds the body scaled by `held`."""
    half_length: float
    half_width: float
    """Of the upright box of the outline."""
    area: float
    """Of the outline."""
    held: float
    """1 where the sides are straight."""
    origin: tuple[float, float]
    """Of the outline's own frame, seen from the middle."""
    period: float
    """The least turn that brings it onto itself, radians."""
    mitred: bool
    """Whether a lipping round it is a larger one of the same form."""

    def rim(self, lipping: float) -> tuple[float, float]:
        """Return what a lipping adds to half the length and half the width, mm.

        Raises
        ------
        LayoutError
            If it would make another form.
        """
        if lipping > 0 and not self.mitred:
            raise LayoutError(
                f"a lipping of {lipping:g} mm cannot be bent or mitred round an {self.name}: "
                "leave it out"
            )
        return lipping * self.half_length, lipping * self.half_width


def own_form(outline: Outline, farthest: float = math.inf) -> Form:
    """Return the form of any convex outline, whose body stands off its curves by no more, mm.

    Raises
    ------
    LayoutError
        If it is not convex.
    """
    straight = all(isinstance(segment, Line) for segment in outline.path().segments)
    tolerance = min(_CURVES * outline.area / outline.perimeter, farthest)
    points = outline.outer(tolerance)
    hull = convex_hull(points)
    middle = Region.from_rings(hull).centroid
    centre = np.array([middle.x, middle.y])
    body = PolygonBody(_parted(hull - centre, outline.width))
    depth = (body.heights * body.scale - (points - centre) @ body.sides.T).min(axis=1).max()
    if depth > _NOTCH * body.scale:
        raise LayoutError(
            f"the {outline.name}, {outline.length:g} by {outline.width:g} mm, has a dent "
            f"{depth:.3g} mm deep: only a convex one can be scaled to the largest that fits; "
            "ask for it at its own size"
        )
    times, size = repeats(body.corners, _SAME), body.scale
    loose = depth + (0.0 if straight else tolerance) + (size * _SAME if times > 1 else 0.0)
    return Form(
        outline.name,
        body,
        outline.length / 2 / size,
        min(outline.width, outline.length) / 2 / size,
        outline.area / size**2,
        1 - loose / size,
        (-middle.x / size, -middle.y / size),
        math.tau / times,
        mitred=isinstance(outline, RegularPolygon),
    )


def _parted(corners: Array, size: float) -> Array:
    """Return corners without those that lie on the one before."""
    way = corners - np.roll(corners, 1, axis=0)
    kept: Array = corners[np.hypot(way[:, 0], way[:, 1]) > _SAME * size]
    return kept
