"""The families by the name that a job file gives them, and how one of them is searched.

A search loads the room of its own family and no other.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from importlib import import_module
from typing import Any

from ..geometry import Points, Region
from ..geometry.polygon import convex_hull
from ..geometry.tolerance import PROOF_ALLOWANCE, ROUNDING
from ..outlines import OWN_OUTLINE, PIECE_AS_FOUND, Outline
from ..panel.sound import SoundWood
from .branch_and_bound import Family, Progress, search
from .found import Bound, Fit
from .points import are_parted, clear_of, least_width, lost
from .stand import Elsewhere
from .tie_breaking import settled
from .wish import Span, Wish
from .wood.edges import diameter

FAMILIES = {
    **dict.fromkeys(("circle", "oval", "capsule", "D end"), "convex.entry"),
    **dict.fromkeys(("superellipse", "hexagon", "octagon"), "convex.entry"),
    **dict.fromkeys(("rectangle", "rounded rectangle"), "rectangles.entry"),
    OWN_OUTLINE: "rigid.places",
    PIECE_AS_FOUND: "live_edge.round_ends",
}
"""What can be wished for, by name, and the module whose `make` makes it ready."""

_FOR_THE_PROOF = 5e-5
"""Share of the gap that is kept back for what the proof takes off the top afterwards: 0.005 mm each
way is less than this of any top wider than a needle."""
_COARSE = 0.05
"""Tolerance of a polygon that is only compared by its reach, mm."""
_MUCH = 1.1
"""How many times as far as the wood an outline may reach and still be searched for."""


@dataclass(frozen=True, slots=True)
class Entry:
    """A family ready to be searched."""

    family: Family[Any, Any]
    finish: Callable[[Any], Fit | None]
    """Makes a proved fit, or None, from the family's own kind of top."""
    elsewhere: Elsewhere[Any] | None = None
    """Looks for other places than the best; None where the family has no choice of them."""
    base: float = 0.0
    """What the family adds to what the goal counts, so that its scores are positive."""
    gap: float | None = None
    """Share of its scores at which the search ends; None for that of the wish."""
    enough: float = 0.0
    """Score up to which tops are of no interest."""


@dataclass(frozen=True, slots=True)
class Answer:
    """What a search came to: a proved top, if any was found, and a bound for all."""

    fit: Fit | None
    bound: float
    steps: int
    looks: float = 0.0
    """What it took: see `Family.looks`."""


def entry_for(wood: SoundWood, wish: Wish, shape: str, held: Sequence[Region] = ()) -> Entry | None:
    """Return a family ready to be searched; None where no top can lie in the wood.

    Its tops hold all of `held` and the points to cover, and none of the points to avoid.
    """
    wood = clear_of(wood, wish.avoids)
    if is_ruled_out(wood, wish, shape):
        return None
    held, limits = _to_hold(wish, held), wish.limits
    if shape not in (OWN_OUTLINE, PIECE_AS_FOUND) and least_width(held) > limits.width.least:
        least, greatest = least_width(held), limits.width.greatest
        if least > greatest:
            return None
        wish = replace(wish, limits=replace(limits, width=Span(least, greatest)))
    on_edge = wish.keeping is not None and shape != PIECE_AS_FOUND
    room = "on_edge.tops" if on_edge else FAMILIES[shape]
    entry: Entry = import_module(f"..{room}", __name__).make(wood, wish, shape, held)
    return entry


def is_ruled_out(wood: SoundWood, wish: Wish, shape: str) -> bool:
    """Return whether no top of a shape can be, whatever its place, before any search."""
    if wood.outer.is_empty or wood.inner.is_empty or lost(wood, wish.covers):
        return True
    if shape == OWN_OUTLINE and wish.own is not None and not wish.scaled:
        return is_longer_than(wood.outer, wish.own)
    if shape == "circle" and not wish.limits.ratio.holds(1.0):
        return True
    if shape in (OWN_OUTLINE, PIECE_AS_FOUND):
        return False
    # a lipping adds twice its thickness, and more at mitred corners
    limits, less = wish.limits, 4 * wish.lipping + PROOF_ALLOWANCE + ROUNDING
    long, wide = (max(span.least - less, 0.0) for span in (limits.length, limits.width))
    least = math.hypot(long, wide) if shape == "rectangle" else max(long, wide)
    return (least > 0 and least > _reach(wood.outer.corners)) or are_parted(wood, wish)


def is_longer_than(wood: Region, own: Outline) -> bool:
    """Return whether an outline reaches much farther than the wood does at its longest.

    One that is only a little too long is searched for, so that what it lacks can be told.
    """
    return wood.is_empty or _reach(own.inner(_COARSE)) > _MUCH * _reach(wood.corners)


def _reach(points: Points) -> float:
    return diameter(convex_hull(points))


def _to_hold(wish: Wish, held: Sequence[Region]) -> tuple[Region, ...]:
    return (*held, *(Region.at(point) for point in wish.covers))


def answered(
    wood: SoundWood,
    wish: Wish,
    shape: str,
    held: Sequence[Region] = (),
    progress: Progress | None = None,
) -> Answer:
    """Return the best top of a family that holds all of `held`, proved, and a bound for all.

    And all points that the wish says to cover, and none of those to avoid.
    """
    # a family may drop what is within the gap by itself, so it must hear of the same gap
    wish = replace(wish, gap=wish.gap - min(wish.gap / 2, _FOR_THE_PROOF))
    entry = entry_for(wood, wish, shape, held)
    if entry is None:
        return Answer(None, 0.0, 0)
    base = entry.base

    def told(steps: int, score: float, bound: float) -> bool:
        return progress is None or progress(steps, max(0.0, score - base), max(0.0, bound - base))

    outcome = search(
        entry.family,
        gap=wish.gap if entry.gap is None else entry.gap,
        most_steps=wish.most_steps,
        most_looks=wish.most_effort,
        enough=base + wish.beats if wish.beats > 0 else entry.enough,
        progress=progress and told,
    )
    bound = outcome.bound - base
    fit = None if outcome.top is None else entry.finish(outcome.top)
    if fit is not None:
        if wish.keeping is None and shape != PIECE_AS_FOUND:
            inner, parts = clear_of(wood, wish.avoids).inner, _to_hold(wish, held)
            fit = settled(fit, inner, wish.limits, parts, mirrors=shape != OWN_OUTLINE)
        bound = max(bound, fit.score)
        fit = replace(fit, bound=Bound(bound), steps=outcome.steps)
    return Answer(fit, bound, outcome.steps, outcome.looks)
