"""What a foot and the head of its leg cover, from the figures of the job."""

from __future__ import annotations

import math

from checker.plan import Plan
from checker.plane import Pair, add, disk
from shapely import Polygon


def print_of(plan: Plan, middle: Pair, drawn_in: float = 0.0) -> Polygon:
    """Return what a foot covers, in the frame of the top."""
    asked = plan.job.table("legs")
    size = asked.get("size", 60.0 / (25.4 if plan.job.imperial else 1.0))
    pair = size if isinstance(size, list) else [size, size]
    long, wide = (plan.job.mm(v) - 2 * drawn_in for v in pair)
    shape = asked.get("foot", "square")
    if shape in ("round", "ring", "hollow", "pipe", "tube"):
        return disk(middle, long / 2)
    if shape in ("hexagonal", "hexagon"):
        reach = wide / math.sqrt(3)
        return Polygon([add(middle, (math.cos(k * math.pi / 3), math.sin(k * math.pi / 3)), reach)
                        for k in range(6)])  # fmt: skip
    x, y = long / 2, wide / 2
    return Polygon([add(middle, p) for p in ((-x, -y), (x, -y), (x, y), (-x, y))])


def plate_size(plan: Plan) -> tuple[float, float, float] | None:
    """Return length, width and thickness of the plate on a head; None without one."""
    asked = plan.job.table("legs")
    if "plate" not in asked:
        return None
    size = asked["plate"] if isinstance(asked["plate"], list) else [asked["plate"]] * 2
    thick = plan.job.given("legs", "plate_thickness", 4.0) or 4.0
    return plan.job.mm(size[0]), plan.job.mm(size[1]), thick


def head_of(plan: Plan, middle: Pair) -> Polygon:
    """Return what lies under the top: the foot, and the plate where there is one."""
    plate = plate_of(plan, middle)
    foot = print_of(plan, middle)
    return foot if plate is None else foot.union(plate)


def plate_of(plan: Plan, middle: Pair) -> Polygon | None:
    """Return what a plate covers; None without one."""
    size = plate_size(plan)
    if size is None:
        return None
    x, y = size[0] / 2, size[1] / 2
    return Polygon([add(middle, p) for p in ((-x, -y), (x, -y), (x, y), (-x, y))])
