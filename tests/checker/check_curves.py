"""Corner cuts, jigsaw, router and hand: outside the line, no wider than there is room for."""

from __future__ import annotations

import math

import shapely
from checker.ledger import Ledger
from checker.plan import Plan
from checker.plane import Pair, corners, distance, farthest
from shapely import Point


def a_corner_cut_stays_outside_the_rough_line(plan: Plan, ledger: Ledger) -> None:
    """What the jigsaw is to follow is still there when the corners are off."""
    rough = plan.record.rough
    for step in plan.sawing:
        if step.cut.is_corner_cut:
            taken = step.kerf.intersection(rough.buffer(-0.01)).area
            ledger.hold(
                taken < 0.5, f"{step.cut.label} takes {taken:.1f} mm² within the rough line"
            )


def a_corner_cut_is_worth_its_setting_up(plan: Plan, ledger: Ledger) -> None:
    """Nobody saws off what the jigsaw takes anyway: more falls than the kerf and 3 mm."""
    for step in plan.sawing:
        if step.cut.is_corner_cut:
            off = farthest(step.before, step.cut.start.at, step.cut.waste)
            ledger.hold(off >= step.cut.kerf + 2.99, f"{step.cut.label} takes off {off:.2f}")


def a_corner_cut_is_found_from_what_is_there(plan: Plan, ledger: Ledger) -> None:
    """The corner of the blank that a leg is measured from is one of the wood at that moment."""
    for step in plan.sawing:
        cut = step.cut
        if cut.leg is None:
            continue
        start, end = cut.start.at, cut.end.at
        middle = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
        half = distance(start, end) / 2
        corner = (middle[0] + cut.waste[0] * half, middle[1] + cut.waste[1] * half)
        away = min(distance(corner, at) for at in corners(step.before))
        ledger.hold(away < 0.1, f"{cut.label} is measured from a corner {away:.1f} off the wood")
        for at in (start, end):
            ledger.near(f"leg of {cut.label}", distance(at, corner), cut.leg, 0.1)


def the_rough_line_stays_its_allowance_outside(plan: Plan, ledger: Ledger) -> None:
    """The line of jigsaw or saw lies what it leaves outside the core, all round where it is cut."""
    rough, core, due = plan.record.rough, plan.record.core, plan.record.rough_allowance
    if any(cut.tool == "jigsaw" for cut in plan.record.curves):
        straight_only = plan.record.made["shape"] in ("rectangle", "hexagon", "octagon")
        asked = plan.job.left_by_jigsaw()
        if straight_only or plan.record.made["shape"] in ("own outline", "piece as found"):
            asked = min(asked, plan.job.left_by_saw(end=False))
        ledger.hold(due >= asked - 1e-6, f"it leaves {due:.3f} where {asked:.3f} is asked")
    if plan.record.kept_edges:
        lost = core.difference(rough.buffer(0.15)).area
        ledger.hold(lost < 1.0, f"{lost:.1f} mm² of the core lie outside the rough line")
        return
    gap = core.exterior.distance(rough.exterior)
    ledger.near("least from core to rough line", gap, due, 0.02)
    ledger.hold(rough.covers(core), "the core sticks out of the rough line")


def a_tool_goes_where_there_is_wood(plan: Plan, ledger: Ledger) -> None:
    """A jigsaw's line lies on or within the blank's reach, and the router's is the core itself."""
    for cut in plan.record.curves:
        line = plan.record.rough if cut.tool == "jigsaw" else plan.record.core
        off = shapely.hausdorff_distance(cut.line.exterior, line.exterior)
        ledger.hold(off < 0.05, f"{cut.tool} runs {off:.3f} off its line")
        wood = plan.blank if cut.tool == "jigsaw" else plan.routed_from
        if cut.tool != "jigsaw" and not plan.record.kept_edges:
            lost = plan.record.core.difference(wood.buffer(0.01)).area
            ledger.hold(lost < 0.5, f"{cut.tool} finds {lost:.1f} mm² of the core gone")
        ledger.near(f"waste for {cut.tool}", cut.most_waste, _most_outside(plan, cut.tool), 0.2)


def passes_reach_through(plan: Plan, ledger: Ledger) -> None:
    """So many passes of that depth come through the thickness, and no fewer would."""
    thick = plan.job.made_thickness
    for cut in plan.record.curves:
        if cut.passes is None or cut.depth is None:
            continue
        reach = cut.passes * cut.depth
        ledger.hold(reach >= thick - 1e-3, f"{cut.tool}: {cut.passes} passes reach {reach:.2f}")
        if cut.tool == "router":
            usual = 10.0 if cut.most_waste <= 5.0 else 6.0
            most = plan.job.given("tools", "pass_depth", usual) or usual
            ledger.near("passes", cut.passes, max(1, math.ceil(thick / most - 1e-6)), 0.1)


def radii_are_those_of_the_line(plan: Plan, ledger: Ledger) -> None:
    """A pin at each named centre, set to its radius, draws an arc of the tool's line."""
    setting = plan.record.settings[-1]
    bit = plan.job.given("tools", "bit", 12.0) or 12.0
    for cut in plan.record.curves:
        for swung in cut.radii:
            ledger.hold(bool(swung["centres"]), f"{cut.tool}: a radius about no centre")
            for name in swung["centres"]:
                at = setting.points.get(name)
                ledger.hold(at is not None, f"{cut.tool} names {name}, which is no mark")
                if at is not None:
                    _swung(ledger, f"{cut.tool} about {name}", cut.line, at, swung["radius"])
            if swung["to_far_edge"] is not None:
                ledger.near(
                    "to the bit's middle", swung["to_bit_middle"] - swung["radius"], bit / 2, 0.01
                )
                ledger.near("to its far edge", swung["to_far_edge"] - swung["radius"], bit, 0.01)


def a_template_stands_off_by_half_the_difference(plan: Plan, ledger: Ledger) -> None:
    """A bush rides the template, which stands (bush - cutter) / 2 inside what the bit leaves."""
    for cut in plan.record.curves:
        held = cut.template
        if held is None:
            continue
        due = (held["bush"] - held["cutter"]) / 2
        ledger.near("offset of the template", held["offset"], due, 1e-4)
        inside = plan.record.own.taken(plan.record.finish)
        line = inside.buffer(-(due + plan.job.lipping), quad_segs=64, join_style="mitre")
        left, low, right, high = line.bounds
        ledger.near("length of the template", held["length"], right - left, 0.05)
        ledger.near("width of the template", held["width"], high - low, 0.05)


def _most_outside(plan: Plan, tool: str) -> float:
    if tool != "jigsaw" and any(cut.tool == "jigsaw" for cut in plan.record.curves):
        return plan.record.rough_allowance
    core = plan.record.core
    outside = [core.distance(Point(at)) for at in corners(plan.blank)]
    return max(outside, default=0.0)


def _swung(ledger: Ledger, what: str, line: shapely.Polygon, at: Pair, radius: float) -> None:
    rows = shapely.get_coordinates(line.exterior)
    away = abs(((rows[:, 0] - at[0]) ** 2 + (rows[:, 1] - at[1]) ** 2) ** 0.5 - radius)
    ledger.hold(int((away < 0.02).sum()) >= 3, f"{what}: no arc of {radius:.2f} in its line")
