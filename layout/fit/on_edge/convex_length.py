"""What no top on a kept edge can beat: a bound for widths and corner radii, and its proof.

A top of width w that stands on the line holds every narrower one with the same straight, and every
rounder one of the same length. So for widths [w₀, w₁] and radii [ρ₀, ρ₁] each top has its straight
in a span that is free at width w₀ and radius q = min(ρ₁, w₀/2), and it reaches at most ρ₁ beyond it
at both ends: it is no longer than the span and 2ρ₁, and no wider than w₁.

That is rough, for it forgets that a wider top is stopped earlier. Take the two edges that end the
span. What is left of an edge between the heights of the top lies on one side of it, for any top of
the box. A point (x, y) of the edge lets the top reach to

    x + ρ·g(y/ρ) + ρ·g((w − y)/ρ),      g(u) = 1 − √(u(2 − u)) for u < 1, else 0.

g is convex, so this is convex in y, w and ρ together (the perspective of g), and its least value
along the edge is convex in w and ρ. So the length that two edges leave lies nowhere above what is
interpolated between its values at the corners of the box, first along w, then along ρ. The same
holds along ρ = s·w/2 with s from 0 to 1: that serves boxes with tops as round as they are wide.
A capsule is such a top with s = 1.
"""

from __future__ import annotations

import numpy as np

from ...geometry.tolerance import ROUNDING
from ..rectangles.sizes import CORNER_LOSS, Sizes
from ..wish import Goal, Wish
from .free_spans import Array
from .ground import Ground
from .standing import Box, Standing, holds

_ACROSS, _ROUND = 16, 6
"""Cells that a box is cut into along its widths and along its radii: in a cell the length is taken
at its greatest, the width too and the radius at its least."""

_SLACK = 16 * ROUNDING
"""What rounding may do to a length, mm."""


def bound(ground: Ground, wish: Wish, box: Box, enough: float) -> float:
    """Return a score that no top of a box beats; 0 where there is none.

    Where it falls below `enough` it is no sharper than that.
    """
    (low, high), (least, greatest) = box.widths, box.radii
    if high < 2 * least - _SLACK:
        return 0.0
    spans = ground.outer.straights(low, min(greatest, low / 2))
    sizes, best = Sizes.of(wish, least), 0.0
    for ends, edges in zip(spans.ends, spans.edges, strict=True):
        if len(ground.held) and not _may_hold(ends, box, ground.held):
            continue
        length = float(ends[1] - ends[0]) + 2 * greatest + _SLACK
        rough = float(sizes.most(np.array(length), np.array(high + _SLACK)))
        if rough > max(enough, best):
            corners = _lengths(ground, (int(edges[0]), int(edges[1])), box)
            rough = min(rough, _closer(wish, box, corners))
        best = max(best, rough)
    return best


def _may_hold(span: Array, box: Box, held: Array) -> bool:
    """Return whether all that must be held lies where the tops of a box on a span may reach."""
    (least, greatest), high = box.radii, box.widths[1]
    length = float(span[1] - span[0]) + 2 * greatest + 2 * _SLACK
    around = Standing(float(span.mean()), length, high + 2 * _SLACK, least)
    return holds(around, held + np.array([0.0, _SLACK]))


def _shares(box: Box) -> tuple[bool, tuple[float, float]]:
    """Return whether radii go by their share of half the width, and from where to where."""
    (low, high), (least, greatest) = box.widths, box.radii
    if 2 * greatest <= low:
        return False, (least, greatest)
    return True, (min(1.0, 2 * least / high), 1.0)


def _lengths(ground: Ground, edges: tuple[int, int], box: Box) -> Array:
    """Return the length that two edges leave at the corners of a box: width, then radius."""
    by_share, spread = _shares(box)
    return np.array(
        [
            [
                ground.outer.overall(edges, width, s * width / 2 if by_share else s)
                for s in (spread if spread[1] > spread[0] else spread[:1] * 2)
            ]
            for width in box.widths
        ]
    )


def _closer(wish: Wish, box: Box, corners: Array) -> float:
    """Return a score that no top beats whose length lies below what is between the corners."""
    by_share, (first, last) = _shares(box)
    across = np.linspace(0.0, 1.0, _ACROSS + 1)
    around = np.linspace(0.0, 1.0, _ROUND + 1) if last > first else np.array([0.0, 0.0])
    widths = box.widths[0] + across * (box.widths[1] - box.widths[0])
    ends = corners[0] + across[:, None] * (corners[1] - corners[0])
    lengths = ends[:, :1] + around * (ends[:, 1:] - ends[:, :1])
    # between the corners it is linear along each side of a cell: greatest at a corner of it
    most = np.maximum(lengths[:-1], lengths[1:])
    most = np.maximum(most[:, :-1], most[:, 1:]) + _SLACK
    radii = first + around[:-1] * (last - first)
    return max(
        _slice(wish, most[:, k], widths, radius * widths[:-1] / 2 if by_share else radius)
        for k, radius in enumerate(radii)
    )


def _slice(wish: Wish, lengths: Array, widths: Array, radii: Array | float) -> float:
    """Return what no top beats in cells of greatest lengths, widths and least radii."""
    least = float(np.min(radii))
    sizes = Sizes.of(wish, least)
    scores = sizes.most(lengths, widths[1:] + _SLACK)
    if wish.goal is Goal.AREA:
        scores = scores - CORNER_LOSS * (np.square(radii) - least**2)
    return max(0.0, float(np.max(scores)))
