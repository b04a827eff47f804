"""A piece with half-round ends moved to where it is best: each end pushed out until it touches."""

from __future__ import annotations

from dataclasses import replace
from typing import Protocol

from .band import Band
from .piece import Cuts

_SHARE, _FINER, _FINEST = 1 / 16, 2.5, 1e-4
"""The first step as a share of the band, how much finer each is than the one before, and the step,
mm, that it ends with."""

_HALVINGS = 12
"""Times that a stretch is halved to find where an end stops fitting."""


class Pieces(Protocol):
    """What settling needs to know of a family of pieces."""

    band: Band
    ripped: bool

    def worth(self, cuts: Cuts) -> float:
        """Return the score of a piece; 0 where it does not fit or breaks a limit."""
        ...

    def can_be(self, cuts: Cuts) -> bool:
        """Return whether a piece fits and keeps the limits."""
        ...


def settled(pieces: Pieces, score: float, cuts: Cuts) -> tuple[float, Cuts]:
    """Return a piece at least as good, at a local best to `_FINEST`."""
    step = (pieces.band.right - pieces.band.left) * _SHARE
    while step > _FINEST:
        better = False
        for moved in _moves(pieces, cuts, step):
            found = _pushed_out(pieces, moved, step)
            worth = pieces.worth(found)
            if worth > score:
                score, cuts, better = worth, found, True
        step /= 1.0 if better and step > 1.0 else _FINER
    return score, cuts


def _moves(pieces: Pieces, cuts: Cuts, step: float) -> list[Cuts]:
    """Return the piece as it is, moved along, its ripped side moved, and its ends moved in."""
    lifts = (-step, 0.0, step) if pieces.ripped else (0.0,)
    return [
        Cuts(cuts.left + left, cuts.right + right, cuts.top + lift)
        for lift in lifts
        for left, right in ((0, 0), (step, step), (-step, -step), (step, 0), (0, -step))
    ]


def _pushed_out(pieces: Pieces, cuts: Cuts, step: float) -> Cuts:
    """Return a piece with its ends, the right one first, as far out as they get within a step."""
    for name, way in (("right", 1.0), ("left", -1.0)):
        start = getattr(cuts, name)
        inside, outside = -2 * step, 2 * step
        if not pieces.can_be(replace(cuts, **{name: start + way * inside})):
            continue
        for _ in range(_HALVINGS):
            middle = (inside + outside) / 2
            if pieces.can_be(replace(cuts, **{name: start + way * middle})):
                inside = middle
            else:
                outside = middle
        cuts = replace(cuts, **{name: start + way * inside})
    return cuts
