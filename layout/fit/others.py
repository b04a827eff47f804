"""Second opinions: other places and turns for the top, so that the maker can choose by the grain.

Of many tops set down roughly the best that is clearly different from all chosen before
(`Stand.difference`) climbs to the best that can be reached from it without coming too near to
those. Those that end at a place of their own, where no small move makes them better, come first;
others would slide back, and stop as near as a clearly different top may. Where many places are
equally good, the next is the one farthest from all chosen before.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from typing import Any

import numpy as np

from ..geometry import Point, Region, first_of_best, ranked
from ..panel.sound import SoundWood
from .coarse import coarser
from .families import entry_for
from .found import Fit
from .local_search import climbed
from .points import Ground, clear_of, without
from .stand import AT_THE_END, CLEARLY, MOVED, TURNED, Elsewhere, Stand, period_of
from .tie_breaking import SIDEWAYS, Tried
from .wish import Wish

MOST = 5
"""Second opinions that are told."""
LEAST_SHARE = 0.75
"""Of the best score, that one must reach."""

_CLIMBS = 8
"""Starts that are climbed from at most."""
_FAR = 4.0
"""How different, however turned, every other one of them must be, if any is: where a round top may
be turned as one likes, there may be another part of the wood for it."""
_FIRST_STEP = 0.05
"""Of the width: how far a start may move at once."""
_ROUGHLY, _CLOSE, _FINELY = 0.01, 1.0, 1e-4
"""mm: so well a top is known on its way, at whose end none is the very best; and the first and the
last step of those that come to rest."""
_STEPS = 24
"""Steps over the wood in which the best top is moved as it is."""
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
    held = tuple(filter(best.within.holds, ground.islands))
    wood = without(ground.wood, [part for part in ground.islands if part not in held])
    alone, period = replace(wish, shapes=(shape,), beats=0.0), period_of(best.core)
    # an outline of one size may lie wherever it fits
    whole = best.score if best.clearance is None else -math.inf

    def on(wood: SoundWood) -> Elsewhere[Any] | None:
        entry = entry_for(wood, alone, shape, held)
        return None if entry is None else entry.elsewhere

    rough, elsewhere = on(coarser(wood, _ROUGH)), on(coarser(wood))
    if rough is None or elsewhere is None:
        return ()
    parts = (*held, *(Region.at(point) for point in wish.covers))
    likely = [*_moved(best, clear_of(wood, wish.avoids).inner, parts)]
    likely += [start for start in rough.starts() if start.score >= _HOPE * whole]
    starts = _Starts(likely, period, one_size=best.clearance is not None)
    chosen = [Stand.of(best)]
    starts.leave(chosen[0])
    found: list[tuple[Fit, bool]] = []

    def away(stand: Stand) -> float:
        """Return how clearly a top differs from all that are chosen."""
        return min(stand.difference(other, period) for other in chosen)

    for climb in range(_CLIMBS):
        start = (starts.next(0.0, _FAR) if climb % 2 else None) or starts.next(period, CLEARLY)
        if start is None:
            break
        reached = _reached(elsewhere, start, away, LEAST_SHARE * whole)
        if reached is None:
            continue
        stand, fit = reached
        starts.leave(stand)
        if fit is None or fit.score < LEAST_SHARE * whole or away(stand) < CLEARLY:
            continue
        if any(_holds(other, fit, period) for other in (best, *(one for one, _ in found))):
            continue
        found = [pair for pair in found if not _holds(fit, pair[0], period)]
        found.append((fit, away(stand) <= AT_THE_END))
        chosen.append(stand)
    # alike ones as they were found, for so they are spread
    unit = best.score or 1.0
    order = ranked(
        found, lambda pair: (-float(pair[1]), pair[0].score / unit), tolerance=(0.0, _ALIKE)
    )
    return tuple(fit for fit, _ in order[:MOST])


def _reached(
    elsewhere: Elsewhere[Any], start: Stand, away: Callable[[Stand], float], least: float
) -> tuple[Stand, Fit | None] | None:
    """Return the best top that can be reached from a start by ways on which it stays `away`.

    Only where it stands, where it does not come to the score `least`.
    """
    tops = elsewhere.tops

    def stays(top: Any) -> float:  # noqa: ANN401 - of any family
        return away(elsewhere.stand(top)) - CLEARLY

    found = tops.fitted(elsewhere.like(start))
    if found is None or stays(found[1]) < 0:
        return None
    found = climbed(tops, found, (_FIRST_STEP * start.width, _ROUGHLY), away=stays)
    stand = elsewhere.stand(found[1])
    if stand.score < least:
        return stand, None
    rests = away(stand) > AT_THE_END
    if rests:
        found = climbed(tops, found, (_CLOSE, _FINELY), away=stays)
    fit = elsewhere.finished(found[1], rests=rests)
    return None if fit is None else (Stand.of(fit), fit)


def _moved(best: Fit, inner: Region, held: Sequence[Region]) -> Iterator[Stand]:
    """Yield the best top as it is, in even steps along what it is nearest to and away from that.

    So of places that are equally good along a slide the maker has a choice.
    """
    tried, stand, bounds = Tried(best, inner, held), Stand.of(best), inner.bounds
    far = math.hypot(bounds.width, bounds.height)
    step = max(MOVED * best.core.length, far / _STEPS)
    count = math.ceil(far / step)
    away = tried.nearest_way(best.placement)
    onto = step * np.array([away, away @ SIDEWAYS])
    grid = np.stack(np.meshgrid(*[np.arange(-count, count + 1)] * 2), axis=-1).reshape(-1, 2)
    centres = np.array([*best.placement.centre]) + grid @ onto
    for centre in centres[inner.holds_points(centres)]:
        place = replace(best.placement, centre=Point.of(centre))
        if tried.is_as_good(place):
            yield replace(stand, placement=place)


def _holds(one: Fit, other: Fit, period: float) -> bool:
    """Return whether another top lies in one and is hardly turned: only the one made smaller."""
    off = one.placement.turn - other.placement.turn
    if period and abs(math.remainder(off, period)) > TURNED * CLEARLY:
        return False
    around = Region.from_rings(one.placement.of(one.core.outer(_ABOUT))).grown(_IN_VAIN)
    return around.holds(Region.from_rings(other.placement.of(other.core.inner(_ABOUT))))


class _Starts:
    """Rough tops, and how clearly each differs from all that are chosen."""

    def __init__(self, stands: Sequence[Stand], period: float, *, one_size: bool) -> None:
        """Take them; of an outline in `one_size` all that fit are equally good."""
        self.stands, self.one_size = stands, one_size
        self.away = {counted: [math.inf] * len(self.stands) for counted in (0.0, period)}

    def leave(self, chosen: Stand) -> None:
        """Take note of one more that is chosen."""
        for period, away in self.away.items():
            for i, stand in enumerate(self.stands):
                away[i] = min(away[i], stand.difference(chosen, period))

    def next(self, period: float, least: float) -> Stand | None:
        """Return the best that differs so much, of equals the most different, only once."""
        away = self.away[period]
        clear = [i for i, own in enumerate(away) if own >= least]
        if not clear:
            return None
        most = max(self.stands[i].score for i in clear)
        enough = 0.0 if self.one_size and most > 0 else most - (_EQUAL + _ALIKE) * abs(most)
        good = [i for i in clear if self.stands[i].score >= enough]
        chosen = first_of_best(good, lambda i: away[i], tolerance=_ALIKE)
        for every in self.away.values():
            every[chosen] = 0.0
        return self.stands[chosen]
