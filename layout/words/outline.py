"""Shape and size of a top in words: as it is made, and as it was found."""

from __future__ import annotations

from ..outlines import Outline
from ..units import Tape


def outline_words(outline: Outline, tape: Tape) -> str:
    """Return shape and size as they are made: ``capsule 1400 × 600 mm``."""
    if outline.is_round:
        return f"circle ø {tape.measure(outline.length)}"
    across_flats = outline.figures.get("across_flats")
    if across_flats is not None:
        across = f"{outline.name} {tape.measure(across_flats)} across flats"
        return across + _across_corners(outline, tape)
    size = f"{outline.name} {tape.figure(outline.length)} × {tape.measure(outline.width)}"
    return size + _more(outline, tape)


def exact_words(outline: Outline, tape: Tape) -> str:
    """Return the size as it was found, in decimals: ``1403.7 × 602.1 mm``."""
    if outline.is_round:
        return f"ø {tape.exact(outline.length, 1)} {tape.unit}"
    if "across_flats" in outline.figures:
        return f"{tape.exact(outline.width, 1)} {tape.unit} across flats"
    sizes = f"{tape.exact(outline.length, 1)} × {tape.exact(outline.width, 1)}"
    return f"{sizes} {tape.unit}"


def _across_corners(outline: Outline, tape: Tape) -> str:
    """Return a hexagon's length too, for it is no round figure; an octagon is as long as wide."""
    if outline.length == outline.width:
        return ""
    return f", {tape.exact(outline.length, 1)} {tape.unit} across corners"


def _more(outline: Outline, tape: Tape) -> str:
    exponent, radius = (outline.figures.get(name) for name in ("exponent", "corner_radius"))
    if radius is not None:
        return f", its corners {tape.measure(radius)} in radius"
    return "" if exponent is None else f", exponent {exponent:g}"
