"""Each shape of a top by its definition, about its own middle."""

from __future__ import annotations

import math

from checker.plan import Plan
from checker.plane import disk
from shapely import LineString, Polygon


def ideal(plan: Plan) -> Polygon | None:
    """Return the shape of these numbers about its own middle; None where it has none."""
    made = plan.record.made
    x, y = made["length"] / 2, made["width"] / 2
    turns = [math.tau * i / 4000 for i in range(4000)]
    shape = made["shape"]
    if shape in ("circle", "oval"):
        return Polygon([(x * math.cos(t), y * math.sin(t)) for t in turns])
    if shape == "superellipse":
        n = 2 / made["exponent"]
        ends = [(math.cos(t), math.sin(t)) for t in turns]
        signed_power = [[math.copysign(abs(v) ** n, v) for v in end] for end in ends]
        return Polygon([(x * u, y * v) for u, v in signed_power])
    box = Polygon([(-x, -y), (x, -y), (x, y), (-x, y)])
    if shape == "rectangle":
        return box
    if shape == "capsule":
        line = LineString([(-(x - y), 0), (x - y, 0)])
        return line.buffer(y, quad_segs=500) if x > y else disk((0, 0), y)
    if shape == "rounded rectangle":
        radius = made["corner_radius"]
        return (
            box.buffer(-radius).buffer(radius, quad_segs=500) if isinstance(radius, float) else None
        )
    if shape in ("hexagon", "octagon"):
        sides = 6 if shape == "hexagon" else 8
        reach = made["across_flats"] / 2 / math.cos(math.pi / sides)
        first = 0.0 if sides == 6 else math.pi / 8
        ends = [first + k * math.tau / sides for k in range(sides)]
        return Polygon([(reach * math.cos(t), reach * math.sin(t)) for t in ends])
    return None
