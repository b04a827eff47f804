"""[top]: what ties the top to the panel: edges that it runs along or keeps, points in it or out."""

from __future__ import annotations

import math
from dataclasses import replace

from ..errors import PanelError
from ..fit.wish import AS_FOUND, Keeping, Wish
from ..keys.key import Values
from ..panel.named_edges import (
    NamedEdge,
    edge_named,
    require_opposite,
    require_straight,
    turn_along,
)
from ..panel.panel import Panel


def tied(wish: Wish, panel: Panel, values: Values | None = None) -> Wish:
    """Return the wish with the panel's grain, edges and points: what the panel has not is refused.

    Parameters
    ----------
    values : Values, optional
        The keys of a job file that the wish comes from: then it is noted there.
    """
    if wish.limits.grain_deg is not None and bool(wish.keep) == (wish.keeping is not None):
        return wish
    values = Values.of(wish, "top").with_those_of(wish.limits) if values is None else values
    values.not_with("parallel_to", ("most_turn",), "parallel is no turn at all")
    values.not_with("keep", ("parallel_to",), "the top runs along the edge that is kept")
    values.not_with("keep", ("lipping",), "nothing is glued on a kept edge")
    wish = _parallel(wish, values, panel)
    wish = _keeping(wish, values, panel)
    for key in ("covers", "avoids"):
        _on_panel(values, key, panel)
    for i, point in enumerate(wish.avoids):
        if point in wish.covers:
            (values.at("avoids") / i).wrong("the top cannot both cover and avoid it: drop one")
    if wish.limits.grain_deg is None:
        wish = replace(wish, limits=replace(wish.limits, grain_deg=panel.grain_deg))
    return wish


def _parallel(wish: Wish, values: Values, panel: Panel) -> Wish:
    name = values["parallel_to"]
    edge = _edge(values, "parallel_to", name, panel) if name else None
    if edge is None:
        return wish
    along = replace(wish.limits, grain_deg=math.degrees(turn_along(edge.edge)), most_turn_deg=0.0)
    return replace(wish, limits=along)


def _keeping(wish: Wish, values: Values, panel: Panel) -> Wish:
    names = values["keep"]
    found = [_edge(values, "keep", name, panel) for name in names or ()]
    edges = [edge for edge in found if edge is not None]
    if not edges or len(edges) < len(found):
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
            require_straight(edges[0].edge, edges[0].name)
    except PanelError as error:
        place.wrong(str(error))
    return replace(wish, keeping=Keeping(tuple(edge.path for edge in edges), values["ends"]))


def _edge(values: Values, key: str, name: str, panel: Panel) -> NamedEdge | None:
    try:
        return edge_named(panel, name)
    except PanelError as error:
        values.at(key).wrong(str(error))
        return None


def _on_panel(values: Values, key: str, panel: Panel) -> None:
    """Note the points that lie off the panel."""
    face = panel.region("outside")
    for i, point in enumerate(values[key] or ()):
        if not face.holds_point(point):
            (values.at(key) / i).wrong(
                "it lies off the panel or in a cut-out: give a point of its face"
            )
