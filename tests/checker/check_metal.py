"""Metal, pockets and joints: no blade, bit or screw goes there."""

from __future__ import annotations

import shapely
from checker.ledger import Ledger
from checker.plan import Plan
from checker.plane import disk


def nothing_crosses_what_must_not_be_cut(plan: Plan, ledger: Ledger) -> None:
    """No kerf, bit or screw meets metal, pocket or joint, unless told to be taken out."""
    swept = [(step.cut.label, step.kerf) for step in plan.sawing]
    swept.append(("jigsaw", plan.jigsaw_ring))
    bit = plan.job.given("tools", "bit", 12.0) or 12.0
    if any(cut.tool == "router" for cut in plan.record.curves):
        ring = plan.record.core.buffer(bit, quad_segs=64).difference(plan.record.core)
        swept.append(("router", ring.intersection(plan.routed_from)))
    else:
        swept.append(("plane", plan.routed_from.difference(plan.record.core)))
    swept += _screws(plan)
    for item in plan.job.blemishes:
        if "cutting" not in item.spoils or plan.record.told(item.name):
            continue
        for tool, ground in swept:
            met = ground.intersection(item.place).area
            ledger.hold(met < 0.1, f"{tool} crosses {item.name} by {met:.1f} mm²")


def _screws(plan: Plan) -> list[tuple[str, shapely.Polygon]]:
    table = plan.record.table or {}
    radius = table["screw"]["screw"]["diameter"] / 2 if table.get("screw") else 2.5
    own = plan.record.own
    poor = plan.record.leg_concerns("poor bearing")  # told to be moved, or the place mended first
    held = [hole for hole in table.get("holes", ()) if hole["leg"] not in poor]
    holes = [("screw", hole["place"]) for hole in held]
    holes += [
        ("batten screw", at) for batten in table.get("battens", ()) for at in batten["screws"]
    ]
    return [(what, disk(own.out(at), radius)) for what, at in holes]
