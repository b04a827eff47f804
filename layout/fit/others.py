"""Second opinions: other places and turns for the top, so that the maker can choose by the grain.

Many tops are set down roughly, at many places, turns and shapes. The best of them that is clearly
different from all chosen before (`Stand.difference`) climbs to the best that can be reached from it
without coming too near to those. So some end at a place of their own, where no small move makes
them better; others would slide back to the winner, and stop as near to it as a clearly different
top may. The former come first. Where limits make many places equally good, the next is always the
one farthest from all chosen before, so that they spread over the wood.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from ..geometry import Region, first_of_best, ranked
from ..geometry.tolerance import CHORD
from ..panel.sound import SoundWood
from .coarse import coarser
from .families import entry_for
from .found import Fit
from .ground import Ground
from .stand import AT_THE_END, CLEARLY, Away, Elsewhere, Stand, period_of
from .wish import Wish

MOST = 5
"""Second opinions that are told."""

LEAST_SHARE = 0.75
"""Of the best score, that one must reach."""

_CLIMBS = 8
"""Starts that are climbed from at most."""

_HOPE = 0.45
"""Share of the best score that a rough start must have: climbing gains the rest."""

_EQUAL = 0.02
"""Rough starts within this share of the best one left are equally good: then the farthest goes."""

_ROUGH = 1e-3
"""Share of the wood's diagonal that may be lost where tops are only set down roughly."""

_ALIKE = 1e-6
"""Shares of the best score, and differences, within which two are equal: rounding must not tell
which comes first."""

_IN_VAIN = 1.0
"""mm by which a top may stand out of another and is still a part of it."""

_ABOUT = 0.2
"""mm: outlines need be no finer to see that."""


def others(best: Fit, wish: Wish, shape: str, ground: Ground) -> tuple[Fit, ...]:
    """Return clearly different tops of the best one's family, next in rank, `MOST` at most.

    Each is proved inside the wood, polished in a wood that is drawn in by some hundredths of a mm
    at most (`coarser`), and carries no bound. A family without a choice of places gives none.
    """
    wood, held = _beside(best, ground)
    alone, period = replace(wish, shapes=(shape,), beats=0.0), period_of(best.core)
    # an outline of one size may lie wherever it fits
    whole = best.score if best.clearance is None else -math.inf

    def on(wood: SoundWood) -> Elsewhere | None:
        entry = entry_for(wood, alone, shape, held)
        return None if entry is None else entry.elsewhere

    rough, elsewhere = on(coarser(wood, _ROUGH)), on(coarser(wood))
    if rough is None or elsewhere is None:
        return ()
    found: list[tuple[bool, Fit]] = []
    chosen = [Stand.of(best)]
    likely = [start for start in rough.starts() if start.score >= _HOPE * whole]
    starts = _Starts(likely, period, one_size=best.clearance is not None)
    starts.leave(chosen[0])
    for _ in range(_CLIMBS):
        start = starts.next()
        if start is None:
            break
        away = _away_from(tuple(chosen), period)
        reached = elsewhere.climbed(start, away, LEAST_SHARE * whole)
        if reached is None:
            continue
        stand = reached if isinstance(reached, Stand) else Stand.of(reached)
        starts.leave(stand)
        if isinstance(reached, Fit) and reached.score >= LEAST_SHARE * whole:
            within = any(_holds(other, reached) for other in (best, *(f for _, f in found)))
            found.append((within or away(stand) <= AT_THE_END, reached))
            chosen.append(stand)
    # alike ones as they were found, for so they are spread
    unit = best.score or 1.0
    order = ranked(
        found, lambda one: (float(not one[0]), one[1].score / unit), tolerance=(0.0, _ALIKE)
    )
    return tuple(fit for _, fit in order[:MOST])


def _beside(best: Fit, ground: Ground) -> tuple[SoundWood, tuple[Region, ...]]:
    """Return the wood with islands as the best top has them, and those that lie in it."""
    core = Region.from_rings(best.placement.of(best.core.inner(CHORD)))
    held = tuple(part for part in ground.islands if core.holds(part))
    apart = [part for part in ground.islands if part not in held]
    return SoundWood(ground.wood.inner.minus(*apart), ground.wood.outer.minus(*apart)), held


def _away_from(chosen: Sequence[Stand], period: float) -> Away:
    return lambda stand: min(stand.difference(other, period) for other in chosen)


def _holds(one: Fit, other: Fit) -> bool:
    """Return whether a top lies in another, so that it needs no place of its own."""
    around = Region.from_rings(one.placement.of(one.core.outer(_ABOUT))).grown(_IN_VAIN)
    return around.holds(Region.from_rings(other.placement.of(other.core.inner(_ABOUT))))


class _Starts:
    """Rough tops, and how clearly each differs from all that are chosen."""

    def __init__(self, stands: Sequence[Stand], period: float, *, one_size: bool) -> None:
        """Take them; of an outline in `one_size` all that fit are equally good."""
        self.stands, self.period, self.one_size = list(stands), period, one_size
        self.away = [math.inf] * len(self.stands)

    def leave(self, chosen: Stand) -> None:
        """Take note of one more that is chosen."""
        for i, stand in enumerate(self.stands):
            self.away[i] = min(self.away[i], stand.difference(chosen, self.period))

    def next(self) -> Stand | None:
        """Return the best that is clearly different, of equals the most different, only once."""
        clear = [i for i, away in enumerate(self.away) if away >= CLEARLY]
        if not clear:
            return None
        most = max(self.stands[i].score for i in clear)
        enough = 0.0 if self.one_size and most > 0 else most - (_EQUAL + _ALIKE) * abs(most)
        good = [i for i in clear if self.stands[i].score >= enough]
        chosen = first_of_best(good, lambda i: self.away[i], tolerance=_ALIKE)
        self.away[chosen] = 0.0
        return self.stands[chosen]
