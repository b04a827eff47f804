"""[top]: what ties the top to the panel: edges that it runs along or keeps, points in it or out."""

from __future__ import annotations

import math
from dataclasses import replace

from ..errors import PanelError
from ..fit.wish import AS_FOUND, Keeping, Wish
from ..keys.key import Values
from ..panel.edges import Edge
from ..panel.named_edges import edge_named, require_opposite, require_straight, turn_along
from ..panel.panel import Panel


def tied(wish: Wish, panel: Panel, values: Values | None = None) -> Wish:
    """Return the wish with the panel's grain, edges and points.

    What the panel has not is refused; of a job file it is noted at its `values`.
    """
    if wish.limits.grain_deg is not None and bool(wish.keep) == (wish.keeping is not None):
        return wish
    values = Values.of(wish, "top").with_those_of(wish.limits) if values is None else values
    values.not_with("parallel_to", ("most_turn",), "parallel is no turn at all")
    values.not_with("keep", ("parallel_to",), "the top runs along the edge that is kept")
    values.not_with("keep", ("lipping",), "nothing is glued on a kept edge")
    for edge in _edges(values, "parallel_to", panel):
        turn = math.degrees(turn_along(edge))
        wish = replace(wish, limits=replace(wish.limits, grain_deg=turn, most_turn_deg=0.0))
    wish, face = _keeping(wish, values, panel), panel.region("outside")
    for key in ("covers", "avoids"):
        for i, point in enumerate(values[key] or ()):
            if not face.holds_point(point):
                (values.at(key) / i).wrong(
                    "it lies off the panel or in a cut-out: give a point of its face"
                )
    for i, point in enumerate(wish.avoids):
        if point in wish.covers:
            (values.at("avoids") / i).wrong("the top cannot both cover and avoid it: drop one")
    if wish.limits.grain_deg is None:
        wish = replace(wish, limits=replace(wish.limits, grain_deg=panel.grain_deg))
    return wish


def _keeping(wish: Wish, values: Values, panel: Panel) -> Wish:
    edges = _edges(values, "keep", panel)
    if not edges or len(edges) < len(values["keep"]):
        return wish
    place = values.at("keep")
    beside = [shape for shape in wish.shapes if shape != AS_FOUND]
    try:
        if len(edges) == 2 and beside:
            place.wrong(
                f'a "{beside[0]}" lies on one edge: keep one, or wish for a {AS_FOUND} alone'
            )
        elif len(edges) == 2:
            require_opposite(edges[0], edges[1], panel)
        elif beside:
            require_straight(edges[0], edges[0].name)
    except PanelError as error:
        place.wrong(str(error))
    return replace(wish, keeping=Keeping(tuple(edge.path for edge in edges), values["ends"]))


def _edges(values: Values, key: str, panel: Panel) -> list[Edge]:
    """Return the edges that a key names; note those that the panel has not."""
    names, found = values[key] or (), []
    for name in (names,) if isinstance(names, str) else names:
        try:
            found.append(edge_named(panel, name))
        except PanelError as error:
            values.at(key).wrong(str(error))
    return found
