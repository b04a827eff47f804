"""Branch and bound: the one driver that every family of tops is searched by.

The box with the highest bound is taken first; when even that bound is hardly above the best top
found, nothing better is left anywhere, and that is the proof.
"""

from __future__ import annotations

import heapq
import math
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from itertools import count
from typing import Generic, Protocol, TypeVar

_HOPE = 0.85
"""Share of a score in hand that a sample must have to be polished: polishing gains the rest."""
_NEAR = 0.995
"""The same once there is a top: polished from so near it may end at another, better local best."""

Progress = Callable[[int, float, float], bool]
"""Called now and then with steps, score and bound; the search stops where it returns False."""

Box = TypeVar("Box")
Top = TypeVar("Top")


class Family(Protocol[Box, Top]):
    """One family of tops on one piece of wood, within limits. Scores are positive."""

    looks: float
    """How much was reckoned so far: about how often one edge was looked at, some 50 ns each.
    Counted and not timed, so that a search ends at the same box everywhere."""

    def first_boxes(self) -> Iterable[Box]:
        """Return boxes that together hold every top allowed."""

    def bound(self, box: Box, enough: float) -> float:
        """Return a score that no top in the box beats; it need be no sharper than `enough`."""

    def sample(self, box: Box) -> tuple[float, Top] | None:
        """Return the score of a real top found from the middle of the box, and the top."""

    def split(self, box: Box) -> Iterable[Box]:
        """Return smaller boxes that together hold every top of the box."""

    def polish(self, score: float, top: Top) -> tuple[float, Top]:
        """Return the top moved to a local best, never a worse one."""


@dataclass(frozen=True, slots=True)
class Outcome(Generic[Top]):
    """What a search came to."""

    score: float
    top: Top | None
    """The best, and what it scores: what was in hand where no better one was found."""
    bound: float
    """No top of the family beats this score."""
    steps: int
    """Boxes looked at."""
    looks: float
    """The family's, at the end."""


def search(
    family: Family[Box, Top],
    *,
    gap: float,
    most_steps: int,
    most_looks: float = math.inf,
    enough: float = 0.0,
    progress: Progress | None = None,
) -> Outcome[Top]:
    """Return the best top of a family that is better than `enough`, and a bound of them all.

    It ends when the bound is within the gap, a share, of the score, ``score >= (1 - gap) * bound``,
    after so many boxes or looks at an edge, or where progress, told of it, says so.
    """
    score, sampled, steps, left = enough, 0.0, 0, 0.0
    top: Top | None = None

    def look(box: Box) -> None:
        """Polish the sample of a box: each better one may lead to another local best."""
        nonlocal score, sampled, top
        found = family.sample(box)
        if found is None or found[0] <= max(sampled, (_HOPE if top is None else _NEAR) * score):
            return
        sampled = found[0]
        polished = family.polish(*found)
        if polished[0] > score:
            score, top = polished

    ticket = count()
    heap: list[tuple[float, int, Box]] = []
    for box in family.first_boxes():
        limit = family.bound(box, score)
        heapq.heappush(heap, (-limit, next(ticket), box))
        if top is None and limit > score:
            look(box)
    while heap:
        bound = -heap[0][0]
        stopped = progress and steps % 16 == 15 and not progress(steps + 1, score, bound)
        ended = steps >= most_steps or family.looks >= most_looks
        if score >= (1 - gap) * bound or ended or stopped:
            break
        steps += 1
        _, _, box = heapq.heappop(heap)
        look(box)
        needed = score / (1 - gap)
        for part in family.split(box):
            limit = min(bound, family.bound(part, needed))
            if limit > needed:
                heapq.heappush(heap, (-limit, next(ticket), part))
            else:
                left = max(left, limit)
    bound = -heap[0][0] if heap else score
    return Outcome(score, top, max(bound, left, score), steps, family.looks)
