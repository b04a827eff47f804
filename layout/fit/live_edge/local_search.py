"""A piece with half-round ends moved to where it is best: each end pushed out until it touches."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from ...geometry.scalar import last_where
from .piece import Cuts

if TYPE_CHECKING:
    from .round_ends import HalfRoundPieces

_SHARE, _FINER, _FINEST = 1 / 16, 2.5, 1e-4
"""The first step as a share of the band, how much finer each is than the one before, and the step,
mm, that it ends with."""

_FINELY = 1e-3
"""Of a step: how near it is found where an end stops fitting."""


def settled(pieces: HalfRoundPieces, score: float, cuts: Cuts) -> tuple[float, Cuts]:
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


def _moves(pieces: HalfRoundPieces, cuts: Cuts, step: float) -> list[Cuts]:
    """Return the piece as it is, moved along, its ripped side moved, and its ends moved in."""
    lifts = (-step, 0.0, step) if pieces.ripped else (0.0,)
    return [
        Cuts(cuts.left + left, cuts.right + right, cuts.top + lift)
        for lift in lifts
        for left, right in ((0, 0), (step, step), (-step, -step), (step, 0), (0, -step))
    ]


def _pushed_out(pieces: HalfRoundPieces, cuts: Cuts, step: float) -> Cuts:
    """Return a piece with its ends, the right one first, as far out as they get within a step."""
    return _out(pieces, _out(pieces, cuts, "right", step), "left", -step)


def _out(pieces: HalfRoundPieces, cuts: Cuts, name: str, step: float) -> Cuts:
    def moved(by: float) -> Cuts:
        return replace(cuts, **{name: getattr(cuts, name) + by * step})

    def fits(by: float) -> bool:
        return pieces.can_be(moved(by))

    return moved(last_where(fits, -2.0, 2.0, _FINELY)) if fits(-2.0) else cuts
