"""A record of schema 1 as one of schema 2: the samples are kept in it until they are renewed."""

from __future__ import annotations

import math
from typing import Any

from checker.plane import Frame, Pair

Table = dict[str, Any]


def upgraded(data: Table) -> Table:
    """Return a record with corner cuts and concerns as schema 2 has them."""
    legs: Table | None = data["legs"]
    if legs is not None:
        legs = {**legs, "problems": [_concern(problem) for problem in legs["problems"]]}
    cuts: Table = data["cuts"]
    if "corner_cuts" in cuts:
        return {**data, "legs": legs}
    datum = (cuts["again"] or data)["datum"]
    first, last = (tuple(datum[key]["point"]) for key in ("first", "last"))
    frame = Frame(first, math.atan2(last[1] - first[1], last[0] - first[0]))
    corners = [_corner_cut(facet, cuts["kerf"], frame) for facet in cuts["facets"]]
    texts = [text for trim in cuts["trims"] for text in trim["warnings"]]
    names = [defect["name"] for defect in data["job"]["panel"]["defects"]]
    told = [{"who": [name]} for name in names if any(name in text for text in texts)]
    return {**data, "cuts": {**cuts, "corner_cuts": corners}, "blades": told, "legs": legs}


def _concern(problem: Table) -> Table:
    if "matter" in problem:
        return problem
    return {"matter": problem["concern"], "who": [str(number) for number in problem["legs"]]}


def _corner_cut(facet: Table, kerf: float, frame: Frame) -> Table:
    return {
        **facet,
        "start": _end(facet["start"], frame),
        "end": _end(facet["end"], frame),
        "allowance": facet["clear"],
        "kerf": kerf,
        "guide": None,
        "depths": [],
        "widest": 0.0,
        "heaviest": 0.0,
        "spans": [[facet["start"], facet["end"]]],
    }


def _end(at: Pair, frame: Frame) -> Table:
    along, square = frame.own(at)
    return {"point": list(at), "along": along, "square": square, "corner": "", "distance": 0.0}
