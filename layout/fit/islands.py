"""Islands: parts that the edge of a top may not cross, each wholly inside it or wholly outside.

First the best top is sought as if there were none. Where it crosses an island, the question is
asked twice: with that island taken out of the wood, and with tops that must hold it. It ends when
no open question, the one with the highest bound first, can beat the best top in hand.
"""

from __future__ import annotations

import heapq
import math
from collections.abc import Callable, Sequence
from dataclasses import replace
from itertools import count

from ..geometry.polygon import Region
from ..geometry.tolerance import PROOF_ALLOWANCE
from ..panel.sound import SoundWood
from .branch_and_bound import Progress
from .families import Answer, answered
from .found import Bound, Fit
from .points import crosses, without
from .wish import Wish

_MOST_QUESTIONS = 64
"""Questions after which the best top in hand is returned with the bound reached."""
_LEAST_SHARE = 0.02
"""Of the effort, that a question takes at least: it is made ready and its top proved. Each may take
half of what is left; what is not asked any more keeps the bound of the question it came from."""

Ask = Callable[[SoundWood, tuple[Region, ...]], Answer]
"""Answers a question about a wood, of tops that hold some parts."""


def best_round_islands(
    wood: SoundWood,
    wish: Wish,
    islands: Sequence[Region],
    progress: Progress | None = None,
) -> Answer:
    """Return the best top of the first shape whose edge crosses no island, and a bound for all.

    Where there is none in it and the bound is above 0, the search ended before it knew.
    """
    looks = 0.0

    def ask(left: SoundWood, held: tuple[Region, ...]) -> Answer:
        nonlocal looks
        rest = wish.most_effort - looks
        if rest < _LEAST_SHARE * wish.most_effort:
            return Answer(None, math.inf, 0)
        part = replace(wish, most_effort=rest / 2 if islands else rest)
        answer = answered(left, part, wish.shapes[0], held, progress)
        looks += answer.looks + _LEAST_SHARE * wish.most_effort
        return answer

    return replace(round_islands(wood, islands, wish.gap, ask), looks=looks)


def round_islands(wood: SoundWood, islands: Sequence[Region], gap: float, ask: Ask) -> Answer:
    """Return what a question comes to where no edge may cross an island."""
    heap: list[tuple[float, int, frozenset[int], frozenset[int], Answer]] = []
    ticket = count()

    def put(outside: frozenset[int], inside: frozenset[int], most: float) -> None:
        apart, held = ([islands[i] for i in sorted(part)] for part in (outside, inside))
        answer = ask(without(wood, apart), tuple(held))
        answer = replace(answer, bound=min(most, answer.bound))
        heapq.heappush(heap, (-answer.bound, next(ticket), outside, inside, answer))

    put(frozenset(), frozenset(), math.inf)
    best: Fit | None = None
    steps, bound = 0, 0.0
    while heap:
        _, _, outside, inside, answer = heapq.heappop(heap)
        fit = answer.fit
        if best is not None and answer.bound * (1 - gap) <= best.score:
            bound = max(bound, answer.bound)
            break
        steps += answer.steps
        undecided = [i for i in range(len(islands)) if fit and i not in outside | inside]
        crossed = next((i for i in undecided if fit and crosses(fit, islands[i])), None)
        if crossed is None or next(ticket) > _MOST_QUESTIONS:
            bound = max(bound, answer.bound)
            if crossed is None and fit is not None and (best is None or fit.score > best.score):
                best = fit
            continue
        put(outside | {crossed}, inside, answer.bound)
        # the wood must go all round an island, so that a top can
        if wood.outer.shrunk(PROOF_ALLOWANCE, around=True).holds(islands[crossed]):
            put(outside, inside | {crossed}, answer.bound)
    if best is None:
        return Answer(None, bound, steps)
    bound = max(bound, best.score)
    return Answer(replace(best, bound=Bound(bound), steps=steps), bound, steps)
