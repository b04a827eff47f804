"""The first look for good rectangles: over the whole wood, at the turns of its edges and others."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from ...geometry.alike import greatest_first
from ...geometry.polygon import Region
from ...geometry.tolerance import SAME_PLACE
from ..wish import Wish
from .gaps import Array
from .holding import NOTHING, Points
from .inner import Inner
from .offset_wood import Recipe
from .sampling import Found, Windows, rectangles

_EVEN_TURNS = 16
_LONGEST_EDGES = 16
_LEVELS = 9
"""Heights across the wood between any two of which a strip is looked at."""
_MOST_EDGES = 120
"""As many edges as are taken in; more are simplified, for what is found is made to fit anyhow."""

_DOUBLINGS = 8
"""Of the tolerance, up to a fortieth of the wood's diagonal: coarser says nothing any more."""


def seeds(recipe: Recipe, turns: tuple[float, float], most: int, held: Points = NOTHING) -> Found:
    """Return the best rectangles of a coarse look, no two with the same turn.

    Parameters
    ----------
    turns : tuple of two floats
        Least and greatest direction of x, radians.
    held : Points
        What they should hold.
    """
    edges = _coarse(recipe.ground)
    directions = directions_of(edges, *turns)
    windows = Windows.across(directions, _LEVELS, edges)
    return rectangles(windows, edges, recipe.sizes, recipe.inset, most, held)


def thinnest(recipe: Recipe, turns: tuple[float, float]) -> Iterator[Inner]:
    """Yield tops two corner radii long and wide, to grow from where no strip is seen.

    They lie well within the largest piece of the ground, least, middle and greatest turned.
    """
    place = np.array([*recipe.ground.pieces[0].inner_point])
    for turn in (turns[0], (turns[0] + turns[1]) / 2, turns[1]):
        yield Inner(turn, place, np.zeros(2), recipe.radii[1])


def directions_of(edges: Array, low: float, high: float) -> Array:
    """Return directions of x worth looking at: even ones, and those of the longest edges."""
    even = low + (high - low) * np.arange(_EVEN_TURNS) / _EVEN_TURNS
    way = edges[:, 2:] - edges[:, :2]
    longest = greatest_first(np.hypot(*way.T), tolerance=SAME_PLACE)[:_LONGEST_EDGES]
    along = np.arctan2(way[longest, 1], way[longest, 0])
    along = low + (np.concatenate([along, along + math.pi / 2]) - low) % math.pi
    directions: Array = np.unique(np.concatenate([even, along[along <= high]]).round(12))
    return directions


def turns_of(wish: Wish) -> tuple[float, float]:
    """Return the least and greatest turn of the short axis; infinite where any will do."""
    limits = wish.limits
    if limits.most_turn >= math.pi / 2:
        return -math.inf, math.inf
    middle = limits.grain - math.pi / 2
    return middle - limits.most_turn, middle + limits.most_turn


def _coarse(region: Region) -> Array:
    """Return the edges of a region, (e, 4), with details left out where it has very many."""
    bounds = region.bounds
    tolerance = 1e-4 * math.hypot(bounds.width, bounds.height)
    edges = region.edges
    for _ in range(_DOUBLINGS):  # holes keep some edges however coarse: it may stay above
        if len(edges) <= _MOST_EDGES:
            break
        tolerance *= 2
        simpler = region.simplified(tolerance).edges
        if len(simpler) == 0:
            break
        edges = simpler
    return edges.reshape(-1, 4)
