"""Edges of a panel by the letters of their two corners, from either end: BA is AB."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass

from ..errors import PanelError
from ..geometry.turned_box import half_turn
from ..keys.kinds import Kind
from ..keys.place import Place, shown
from .edges import LETTERS, STRAIGHT, Edge, lettered
from .panel import Panel

_FACING = math.radians(45)
"""Two opposite edges run against each other within this (common practice: beyond it a board between
them is a wedge and no board)."""


def named_edges(panel: Panel) -> tuple[Edge, ...]:
    """Return the edges of a panel by name, anticlockwise from A; none where corners have none."""
    return tuple(edge for edge in lettered(panel)[0] if edge.name)


def edge_named(panel: Panel, name: str) -> Edge:
    """Return the edge between two corners, in either order; the error lists those there are."""
    edges = named_edges(panel)
    if not edges:
        raise PanelError("this panel has no edge with a name: its corners cannot be told apart")
    wanted = name.strip().upper()
    for held in edges:
        if wanted in (held.name, held.name[::-1]):
            return held
    listed = ", ".join(held.name for held in edges)
    raise PanelError(f"the panel has no edge {name!r}; there are: {listed}")


def are_opposite(one: Edge, other: Edge) -> bool:
    """Return whether two edges share no corner and face each other across the panel."""
    if set(one.name) & set(other.name):
        return False
    return one.direction.dot(other.direction) <= -math.cos(_FACING)


def require_opposite(one: Edge, other: Edge, panel: Panel) -> None:
    """Raise a `PanelError` unless two edges face each other across the panel."""
    if not are_opposite(one, other):
        across = [held.name for held in named_edges(panel) if are_opposite(one, held)]
        raise PanelError(
            f"{one.name} and {other.name} are not opposite edges: a piece is kept between two that "
            f"share no corner and run alike within 45°; opposite {one.name} "
            f"lies {' or '.join(across) or 'none'}; or keep one alone"
        )


def require_straight(edge: Edge, name: str = "the edge") -> None:
    """Raise a `PanelError` unless a taut string lies along an edge, within `STRAIGHT`."""
    if not edge.is_straight:
        raise PanelError(
            f"{name} stands {edge.off_straight:.1f} mm off a taut string and may stand {STRAIGHT:g}"
            " mm off: a long side cannot lie on it; joint it straight first, keep another edge, or"
            " wish for a piece as found"
        )


def turn_along(edge: Edge) -> float:
    """Return the turn of a top whose length runs along an edge: radians, above −π/2 to π/2."""
    return half_turn(edge.direction.angle)


_WRITTEN = re.compile(rf"([{LETTERS}])\s*[-–]?\s*([{LETTERS}])", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class EdgeName(Kind):
    """An edge between two neighbouring corners; which come first does not matter."""

    def _parse(self, value: object, at: Place) -> str | None:
        found = _WRITTEN.fullmatch(value.strip()) if isinstance(value, str) else None
        if found is None:
            at.wrong(f'{shown(value)} is not an edge: name its two corners, like "AB"')
            return None
        return (found[1] + found[2]).upper()


@dataclass(frozen=True, slots=True)
class EdgeNames(Kind):
    """One edge, or two; each is held once."""

    def _parse(self, value: object, at: Place) -> tuple[str, ...] | None:
        listed = value if isinstance(value, list) else [value]
        if not 1 <= len(listed) <= 2:
            at.wrong(f"{len(listed)} edges are named: keep one, or two opposite ones")
            return None
        places = [at / i for i in range(len(listed))] if isinstance(value, list) else [at]
        names = [EdgeName().read(item, place) for item, place in zip(listed, places, strict=True)]
        return None if None in names else tuple(dict.fromkeys(names))
