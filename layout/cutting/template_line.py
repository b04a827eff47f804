"""The line of a router template: the true parallel of the outline at a bush's offset."""

from __future__ import annotations

from ..errors import LayoutError
from ..geometry.path import Path
from ..outlines import Outline


def follower_offset(follower: float, cutter: float) -> float:
    """Return how far a guide bush or bearing keeps the cutter from its template, mm.

    Half the difference of the diameters (common practice): positive for a guide bush, 0 for a
    bearing of the cutter's own size, negative for a smaller one.

    Raises
    ------
    LayoutError
        If a diameter is not above 0.

    Examples
    --------
    >>> follower_offset(follower=24.0, cutter=12.0)
    6.0
    """
    if min(follower, cutter) <= 0:
        raise LayoutError(f"a bush of {follower:g} and a cutter of {cutter:g} mm are above 0 both")
    return (follower - cutter) / 2


def template_line(outline: Outline, follower: float, cutter: float) -> Path:
    """Return the template inside a top, in the top's own frame, that leaves it true to size.

    A line parallel to an oval is no oval, so it is the parallel curve itself.

    Raises
    ------
    LayoutError
        If a diameter is not above 0, or nothing is left of the outline so far inside.
    """
    offset = follower_offset(follower, cutter)
    return outline.parallel(-offset) if offset else outline.path()
