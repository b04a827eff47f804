"""Edges of the panel that stay: what is done there."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ..geometry.path import Path
from ..panel.edges import Edge
from ..panel.named_edges import named_edges
from ..top import Top


@dataclass(frozen=True, slots=True)
class KeptEdge:
    """A part of the finished edge that is the panel's own."""

    name: str
    """By the letters of its corners: ``AB``."""
    stretch: Path
    """Of the finish line, on the panel, the wood on its left."""
    edge: Path
    """The panel's edge there, as far as the rough line; a straight one may stand a little proud."""
    live: bool
    """Whether it is neither straight nor one even bow."""


def kept_edges(top: Top, rough: Sequence[Path]) -> tuple[KeptEdge, ...]:
    """Return the parts that are kept, with the names of their edges.

    Parameters
    ----------
    rough : sequence of Path
        The panel's edge at each, as far as the rough line.
    """
    runs = top.runs
    names = {held.path: held.name for held in named_edges(top.panel)} if runs.kept else {}
    return tuple(
        KeptEdge(names.get(edge, ""), path, piece, live=not Edge(edge.segments).is_clean)
        for path, edge, piece in zip(runs.kept, runs.edges, rough, strict=True)
    )
