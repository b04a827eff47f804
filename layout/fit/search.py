"""Best fits: for each wished-for shape the best top the wood can give, and its bound."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import partial

import numpy as np

from ..errors import LayoutError, NothingFitsError, UndecidedError
from ..geometry.alike import greatest_first
from ..geometry.polygon import Region
from ..geometry.tolerance import PROOF_ALLOWANCE
from ..outlines import PIECE_AS_FOUND
from ..panel.sound import SoundWood
from ..units import Tape
from .branch_and_bound import Progress
from .coarse import coarser
from .families import FAMILIES, Answer, is_ruled_out
from .found import Fit
from .goal import worth
from .islands import best_round_islands
from .misfit import reason, undecided
from .points import clear_of
from .wish import Goal, Span, Wish

_THIN = (Goal.LENGTH, Goal.WIDTH)
_ROUGH, _STEPS = 0.005, 300
"""Gap and boxes at which the search for the largest of the longest or widest tops ends."""
_MANY_EDGES, _FINE = 10_000, 5e-6
"""A wood of more edges (some dozen round holes) is searched by polygons a little farther from it,
at most 0.02 mm on 2 m, with a sixth of the edges."""
_SEVERAL_EDGES = 500
"""A wood of more edges, a round panel say, is bounded by an outer polygon with a third of them, at
most 0.04 mm farther out on 2 m; tops stay in the true inner one."""
_ALIKE = 1e-5
"""Share by which tops of several shapes are alike: a capsule of a circle's width is no larger."""

METRIC = Tape()


def best_fits(
    wood: SoundWood,
    wish: Wish,
    *,
    islands: Sequence[Region] = (),
    progress: Progress | None = None,
    tape: Tape = METRIC,
) -> tuple[Fit, ...]:
    """Return the best top of each wished-for shape that fits, best first, each with its bound.

    The edge of a top may cross no island: each lies wholly inside it or wholly outside, with its
    clearance. Progress is told of each shape's search in turn.

    A NothingFitsError says, in the units of the tape, why no top fits within the limits, an
    UndecidedError that the search ended before all were ruled out; a LayoutError is raised for a
    shape without such a name, or a wish that cannot be searched.
    """
    unknown = [shape for shape in wish.shapes if shape not in FAMILIES]
    if unknown:
        raise LayoutError(f"no top is called {unknown[0]!r}; there are: {', '.join(FAMILIES)}")
    true, edges = wood, len(wood.outer.edges)
    if edges > _SEVERAL_EDGES and wish.keeping is None:  # a kept edge stays where it is
        many = edges > _MANY_EDGES
        wood = coarser(wood, _FINE if many else 2 * _FINE, outer_only=not many)
    ask = partial(best_round_islands, wood, islands=islands, progress=progress)
    fits: list[Fit] = []
    reasons: list[str] = []
    proved = True
    shapes, looks = tuple(dict.fromkeys(wish.shapes)), 0.0
    for done, shape in enumerate(shapes):
        share = max(wish.most_effort - looks, 0.0) / (len(shapes) - done)
        alone = replace(wish, shapes=(shape,), most_effort=share)
        answer = Answer(None, 0.0, 0)
        if wood is true or not is_ruled_out(clear_of(true, wish.avoids), alone, shape):
            answer = ask(alone)
        looks += answer.looks
        if answer.fit is not None:
            fits.append(_fullest(alone, answer.fit, ask))
        elif answer.bound > 0:
            proved = False
            reasons.append(undecided(alone, shape, answer.bound, tape))
        else:
            reasons.append(reason(wood, alone, shape, tape))
    if not fits:
        raise (NothingFitsError if proved else UndecidedError)("; ".join(reasons))
    counted = [_counted(fit, wish) for fit in fits]
    order = greatest_first(np.array(counted), tolerance=_ALIKE * max(counted))
    return tuple(fits[k] for k in order)


def _fullest(wish: Wish, fit: Fit, ask: Callable[[Wish], Answer]) -> Fit:
    """Return, of the longest or widest tops, the largest that is found: a length alone is thin.

    It is as long or wide to within the tolerance of a proof, and keeps the bound of what was asked.
    """
    if fit.bound is None or fit.clearance is not None or wish.goal not in _THIN:
        return fit
    limits, reached = wish.limits, fit.score - PROOF_ALLOWANCE / 2
    long = wish.goal is Goal.LENGTH
    span = limits.length if long else limits.width
    span = Span(reached, max(span.greatest, reached))
    limits = replace(limits, length=span) if long else replace(limits, width=span)
    again = replace(wish, goal=Goal.AREA, limits=limits, gap=_ROUGH, most_steps=_STEPS)
    fuller = ask(again).fit
    if fuller is None or fuller.outline.area <= fit.outline.area:
        return fit
    outline = fuller.outline
    score = outline.length if long else outline.width
    if score < fit.score - PROOF_ALLOWANCE:
        return fit
    # of a piece as found the least width counts, which its outline does not tell
    most = fit.score if outline.name == PIECE_AS_FOUND else fit.bound.value
    return replace(fuller, score=min(score, most), bound=fit.bound, steps=fit.steps)


def _counted(fit: Fit, wish: Wish) -> float:
    """Return what the goal counts of a top, also of one whose score is its clearance."""
    sizes = fit.outline.length, fit.outline.width
    asked = replace(wish, wanted=wish.wanted or sizes)
    return fit.score if fit.clearance is None else worth(asked, *sizes, fit.outline.area)
