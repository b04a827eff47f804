"""The last touch on a place found: straight, and in the middle of where it can slide.

Where turning or sliding costs no clearance, or none that a rule could tell, the place that looks
best is taken: turned to the grain, to an axis or to an edge of the panel, and half way between the
ends of its slide.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from ...geometry.alike import greatest_first
from ...geometry.scalar import last_where
from ...geometry.tolerance import SAME_PLACE
from ..goal import Ends
from ..wood.edges import Array, turned
from .limits import within
from .local_search import Climber

_NEGLIGIBLE = 0.01
"""mm of clearance that a straight turn may cost."""

_NEXT_TO_NOTHING = 0.002
"""mm of clearance that sliding may cost."""

_NEAR = 0.02
"""Radians from which a straight turn is tried."""

_EDGES = 12
"""How many of the longest edges a turn is compared with."""

_FINE = 0.01
"""mm to which the ends of a slide are found."""


def climbed(
    climber: Climber, value: float, pose: Array, spans: list[Ends], plenty: float = math.inf
) -> tuple[float, Array]:
    """Return the clearance and pose of a local best near a pose, within the spans of turns.

    Or of the first place on the way with `plenty` of clearance, mm.
    """
    value, pose = climber.climbed(pose, value, plenty=plenty)
    kept = within(float(pose[2]), spans)
    if kept != pose[2]:
        pose = np.array([pose[0], pose[1], kept])
        value, pose = climber.climbed(pose, climber.clearance(pose), turns=False)
    return value, pose


def settled(climber: Climber, pose: Array, spans: list[Ends], grain: float) -> Array:
    """Return the pose straightened and moved to the middle of its slide, where that is as good."""
    value = climber.clearance(pose)
    for there in _less_turned(climber, pose, grain):
        if within(float(there[2]), spans) == there[2]:
            near, moved = climbed(climber, climber.clearance(there), there, spans)
            if near >= value - _NEGLIGIBLE:
                pose, value = moved, near
                break
    for turn in _straight(climber, float(pose[2]), grain):
        if within(turn, spans) != turn:
            continue
        there = np.array([pose[0], pose[1], turn])
        near, there = climber.climbed(there, climber.clearance(there), turns=False)
        if near >= value - _NEGLIGIBLE:
            pose, value = there, near
            break
    for way in climber.slides(pose):
        ahead, back = (_slide(climber, pose, side * way, value) for side in (1.0, -1.0))
        moved = pose + np.append((ahead - back) / 2 * way, 0.0)
        if climber.clearance(moved) >= value - _NEXT_TO_NOTHING:
            pose = moved
    return pose


def _less_turned(climber: Climber, pose: Array, grain: float) -> Iterator[Array]:
    """Yield poses turned back towards the grain by quarters: about the top's middle, the wood's."""
    middle = np.array([*climber.ground.region.bounds.middle])
    off = math.remainder(float(pose[2]) - grain, math.tau)
    quarters = round(off / (math.pi / 2))
    for back in range(abs(quarters), 0, -1):
        turn = -math.copysign(back * math.pi / 2, off)
        moved = turned((pose[:2] - middle)[None], -turn)[0] + middle
        for centre in (pose[:2], moved):
            yield np.append(centre, pose[2] + turn)


def _straight(climber: Climber, turn: float, grain: float) -> Iterator[float]:
    """Yield turns close by that lie along the grain, an axis, or an edge of the panel."""
    way = climber.ground.edges[:, 1] - climber.ground.edges[:, 0]
    longest = greatest_first(np.hypot(*way.T), tolerance=SAME_PLACE)[:_EDGES]
    edges = np.arctan2(way[longest, 1], way[longest, 0])
    quarter = math.pi / 2
    for direction in (grain, 0.0, *(float(edge) for edge in edges)):
        off = math.remainder(direction - turn, quarter)
        if abs(off) < _NEAR:
            yield direction + round((turn + off - direction) / quarter) * quarter


def _slide(climber: Climber, pose: Array, way: Array, value: float) -> float:
    """Return how far the outline can slide along a way at no cost, mm."""

    def free(distance: float) -> bool:
        moved = pose + np.append(distance * way, 0.0)
        return climber.clearance(moved) >= value - _NEXT_TO_NOTHING

    far = 1.0
    while far < climber.shape.reach * 8 and free(far):
        far *= 2
    return last_where(free, far / 2 if far > 1 else 0.0, far, _FINE)
