"""Shape and size of a top in words: as it is made, and as it was found."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..outlines import PIECE_AS_FOUND, Outline
from ..units import Tape

if TYPE_CHECKING:
    from ..plan.plan import Plan


def size_words(plan: Plan) -> str:
    """Return shape and size of the top that is made."""
    words = outline_words(plan.top.outline, plan.job.tape)
    keeping = plan.job.wish.keeping
    if keeping is not None and plan.top.outline.name == PIECE_AS_FOUND:
        return f"{words}, ends {keeping.ends.value}"
    return words


def found_words(plan: Plan) -> str:
    """Return what was found before sizes were rounded down, as one clause."""
    clearance, tape = plan.fit.clearance, plan.job.tape
    if clearance is None and not plan.top.outline.free_sizes:
        return f"as found, {exact_words(plan.fit.outline, tape)}"
    if clearance is None:
        return f"the largest found is {exact_words(plan.fit.outline, tape)}"
    clear = f"{tape.exact(clearance, 1)} {tape.unit}"
    return (
        f"it keeps its own size and lies where it is clearest of edges and of what shows, {clear}"
    )


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
