"""Tipping by statics: W·d = P·e over each side of the polygon of the feet."""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
import shapely
from checker.feet import head_of, print_of
from checker.ledger import Ledger
from checker.plan import Plan
from checker.plane import Pair, corners, distance, sub, unit
from shapely import MultiPoint, Polygon

GRAVITY = 9.80665
IN = 50.0
"""How far in from the edge the force presses, mm (ISO 7172:1988)."""


def the_least_force_is_that_of_statics(plan: Plan, ledger: Ledger) -> None:
    """Pressed down near the edge, a table tips where weight times arm is overcome first."""
    if plan.record.legs is None:
        return
    told = plan.record.legs["tipping"]
    weight, centre, ground = _held_down(plan)
    ledger.near("weight", told["weight"], weight, 0.001 * weight)
    top = plan.record.own.taken(plan.record.finish)
    pressed = min(IN, plan.record.made["width"] / 4)
    ledger.near("pressed so far in", told["edge"], pressed, 0.01)
    for held in (told["least"], *told["around"][::6]):
        due = _force(ground, weight, centre, held["place"])
        if held["force"] is None or not math.isfinite(due):
            ledger.hold(
                held["force"] is None and due > 1e6 * weight, f"force {held['force']}: {due}"
            )
        else:
            ledger.near("force that tips", held["force"], due, 0.5 + 0.005 * due)
    if plan.record.made["shape"] == "own outline":
        return
    line = top.buffer(-told["edge"], quad_segs=32).exterior
    rows = [line.interpolate(i / 720, normalized=True).coords[0] for i in range(720)]
    least = min(_force(ground, weight, centre, row) for row in (*rows, *corners(line)))
    if told["least"]["force"] is not None:
        share = told["least"]["force"] / least if least else 1.0
        ledger.hold(share <= 1.002, f"the least force is {share:.4f} of the least on the line")


def the_least_push_is_that_of_statics(plan: Plan, ledger: Ledger) -> None:
    """Pushed level a table tips over its nearest side, W·d / height, or loose legs lie down."""
    if plan.record.legs is None:
        return
    feet = _hull([print_of(plan, leg["floor"]) for leg in plan.record.legs["legs"]])
    weight, centre = _whole(plan)
    high = plan.record.legs["height"] + plan.job.made_thickness
    arms = [
        offset - normal[0] * centre[0] - normal[1] * centre[1] for normal, offset in _sides(feet)
    ]
    due = max(0.0, weight * min(arms) / high)
    if plan.record.legs["tipping"].get("rocks"):
        due = min(due, _rocking(plan))
    ledger.near("push", plan.record.legs["tipping"]["push"], due, 0.2 + 0.005 * due)


def the_feet_are_the_ground_it_stands_on(plan: Plan, ledger: Ledger) -> None:
    """The polygon that is told is the convex hull of all feet on the floor."""
    if plan.record.legs is None:
        return
    feet = _hull([print_of(plan, leg["floor"]) for leg in plan.record.legs["legs"]])
    told = Polygon(plan.record.legs["feet"])
    off = feet.symmetric_difference(told).area
    ledger.hold(off < 1e-4 * feet.area + 5.0, f"the feet's polygon is {off:.1f} mm² off")


def a_load_that_tips_it_is_told(plan: Plan, ledger: Ledger) -> None:
    """Where the least force is below the job's load, or nothing, the plan says so."""
    legs = plan.record.legs
    if legs is None or legs["tipping"]["least"]["force"] is None:
        return
    least = (legs.get("weakest") or legs["tipping"]["least"])["force"]
    if least is None:
        return
    told = {"tips under the load", "tips by itself"} & set(plan.record.leg_matters)
    if abs(least - legs["load"]) > 0.01 * legs["load"]:  # no estimate is better than that
        ledger.hold((least < legs["load"]) == bool(told), f"least {least}: {told}")


def _held_down(plan: Plan) -> tuple[float, Pair, Polygon]:
    """Return weight, its middle and the ground: of a loose top its own, on its heads."""
    legs = plan.record.legs
    assert legs is not None
    if plan.job.table("legs").get("fixing", "screwed") != "loose":
        return (*_whole(plan), _hull([print_of(plan, leg["floor"]) for leg in legs["legs"]]))
    heads = _hull([head_of(plan, leg["middle"]) for leg in legs["legs"]])
    middle = plan.record.own.taken(plan.record.finish).centroid.coords[0]
    return legs["top_mass"] * GRAVITY, middle, heads


def _rocking(plan: Plan) -> float:
    """Return the push under which a loose top and its loose legs lie down as a parallelogram."""
    legs = plan.record.legs
    assert legs is not None
    left, low, right, high = print_of(plan, (0.0, 0.0)).bounds
    weight = (legs["top_mass"] + legs["leg_mass"] * len(legs["legs"]) / 2) * GRAVITY
    return float(weight * min(right - left, high - low) / legs["height"])


def _whole(plan: Plan) -> tuple[float, Pair]:
    legs = plan.record.legs
    assert legs is not None
    middle = plan.record.own.taken(plan.record.finish).centroid.coords[0]
    parts = [(legs["top_mass"], middle)]
    for leg in legs["legs"]:
        half = ((leg["middle"][0] + leg["floor"][0]) / 2, (leg["middle"][1] + leg["floor"][1]) / 2)
        parts.append((legs["leg_mass"], half))
    mass = sum(m for m, _ in parts)
    centre = tuple(sum(m * at[i] for m, at in parts) / mass for i in (0, 1))
    return mass * GRAVITY, (centre[0], centre[1])


def _hull(shapes: list[Polygon]) -> Polygon:
    hull = MultiPoint([p for shape in shapes for p in corners(shape)]).convex_hull
    assert isinstance(hull, Polygon)
    return shapely.normalize(hull)


def _sides(hull: Polygon) -> list[tuple[Pair, float]]:
    """Return the outward unit vector of each side of a polygon and how far out it lies."""
    ring = list(shapely.orient_polygons(hull).exterior.coords)
    found = []
    for a, b in pairwise(ring):
        if distance(a, b) > 1e-9:
            way = unit(sub(b, a))
            normal = (way[1], -way[0])
            found.append((normal, normal[0] * a[0] + normal[1] * a[1]))
    return found


def _force(ground: Polygon, weight: float, centre: Pair, place: Pair) -> float:
    """Return the force at a place that tips over the first side; endless inside the ground."""
    normals, offsets = zip(*_sides(ground), strict=True)
    n, o = np.array(normals), np.array(offsets)
    inside, outside = o - n @ np.array(centre), n @ np.array(place) - o
    if (inside <= 0).any():
        return 0.0
    over = outside > 1e-9
    return float((weight * inside[over] / outside[over]).min()) if over.any() else math.inf
