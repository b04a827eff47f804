"""Shape and size of a top in words: as it is made, and as it was found."""

from __future__ import annotations

from ..outlines import Circle, Outline, RegularPolygon, Superellipse
from ..units import Tape


def outline_words(outline: Outline, tape: Tape) -> str:
    """Return shape and size as they are made: ``capsule 1400 × 600 mm``."""
    if isinstance(outline, Circle):
        return f"circle ø {tape.measure(outline.length)}"
    if isinstance(outline, RegularPolygon):
        across = f"{outline.name} {tape.measure(outline.across_flats)} across flats"
        return across + _across_corners(outline, tape)
    size = f"{outline.name} {tape.figure(outline.length)} × {tape.measure(outline.width)}"
    return size + _more(outline)


def exact_words(outline: Outline, tape: Tape) -> str:
    """Return the size as it was found, in decimals: ``1403.7 × 602.1 mm``."""
    if isinstance(outline, Circle):
        return f"ø {tape.exact(outline.length, 1)} {tape.unit}"
    if isinstance(outline, RegularPolygon):
        return f"{tape.exact(outline.across_flats, 1)} {tape.unit} across flats"
    sizes = f"{tape.exact(outline.length, 1)} × {tape.exact(outline.width, 1)}"
    return f"{sizes} {tape.unit}"


def _across_corners(outline: RegularPolygon, tape: Tape) -> str:
    """Return a hexagon's length too, for it is no round figure; an octagon is as long as wide."""
    if outline.length == outline.width:
        return ""
    return f", {tape.exact(outline.across_corners, 1)} {tape.unit} across corners"


def _more(outline: Outline) -> str:
    return f", exponent {outline.exponent:g}" if isinstance(outline, Superellipse) else ""
