"""Which sheets of a grid hang together, and which to add so that all do."""

from __future__ import annotations

from .grid import Grid

Place = tuple[int, int]
"""A row and a column of a grid."""

Places = frozenset[Place]


def tied_together(kept: Places, grid: Grid) -> Places:
    """Return the places with more added until all of them join, edge to edge.

    Island after island is tied to the rest by a shortest way: the fewest sheets for two islands,
    and for more of them near it.
    """
    joined = set(kept)
    while True:
        island = reached({min(joined)}, joined)
        if len(island) == len(joined):
            return frozenset(joined)
        joined |= _bridge(island, joined - island, grid)


def reached(start: set[Place], within: set[Place]) -> set[Place]:
    """Return the places that can be come to from some of them, edge over edge."""
    held, edge = set(start), set(start)
    while edge:
        edge = {n for place in edge for n in beside(place)} & within - held
        held |= edge
    return held


def beside(place: Place) -> set[Place]:
    """Return the four places that share an edge with a place."""
    row, column = place
    return {(row, column - 1), (row, column + 1), (row - 1, column), (row + 1, column)}


def _bridge(island: set[Place], others: set[Place], grid: Grid) -> set[Place]:
    """Return a shortest way, place by place, from an island to any of the others."""
    came: dict[Place, Place] = {}
    edge, seen, every = sorted(island), set(island), set(grid.places)
    while edge:
        after: list[Place] = []
        for place in edge:
            for near in sorted(beside(place) & every - seen):
                came[near] = place
                seen.add(near)
                if near in others:
                    return _way_back(near, came, island)
                after.append(near)
        edge = after
    raise AssertionError("a grid is in one piece")


def _way_back(
    place: Place,
    came: dict[Place, Place],
    island: set[Place],
) -> set[Place]:
    way = set()
    while place not in island:
        way.add(place)
        place = came[place]
    return way
