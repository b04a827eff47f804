"""The top: as asked, as long and wide as told, in the panel, clear of what spoils it."""

from __future__ import annotations

import math

import shapely
from checker.ideal import ideal
from checker.ledger import Ledger
from checker.plan import Plan
from checker.plane import Frame, grown, signed
from shapely import LineString, Polygon

PROOF = 0.006
"""A found top is proved to within 0.005 mm; that and the rounding of the record is let through."""


def the_shape_is_one_that_was_asked_for(plan: Plan, ledger: Ledger) -> None:
    """The top has a shape that the job names, and its numbers are those of that shape."""
    shape, asked = plan.record.made["shape"], plan.job.shapes
    plain = {"circle", "rectangle", "rounded rectangle", "capsule", "oval"}
    ledger.hold(
        shape in (asked if "any" not in asked else plain), f"{shape} where {asked} is asked"
    )
    due = ideal(plan)
    if due is not None:
        own = plan.record.own.taken(plan.record.finish)
        apart = shapely.hausdorff_distance(due.exterior, own.exterior)
        ledger.hold(apart < 0.05, f"the finish line is {apart:.3f} off the {shape}")


def lengths_areas_and_edges_agree(plan: Plan, ledger: Ledger) -> None:
    """Length, width, area and perimeter are those of the finish line as drawn."""
    made, finish = plan.record.made, plan.record.finish
    own = plan.record.own.taken(finish)
    left, low, right, high = own.bounds
    ledger.near("length", right - left, made["length"], 0.01)
    ledger.near("width", high - low, made["width"], 0.01)
    ledger.near("area", finish.area, made["area"], 2e-5 * made["area"])
    ledger.near("perimeter", finish.length, made["perimeter"], 2e-5 * made["perimeter"])


def sizes_are_rounded_down_and_no_further(plan: Plan, ledger: Ledger) -> None:
    """A size is the found one or the next whole step below it, never above."""
    made, found = plan.record.made, plan.record.found
    keys = ("across_flats",) if "across_flats" in made else ("length", "width")
    for key in keys:
        lost = found[key] - made[key]
        steps = max(1.0, plan.job.table("top").get("most_ratio", 1.0) if key == "length" else 1.0)
        steps += plan.job.keeps_edges  # held by an edge it may need room at its other side
        most = plan.job.step * steps + 0.011  # a ratio takes more of the length with the width
        ledger.hold(-0.011 <= lost <= most, f"{key} loses {lost:.3f}")


def the_top_keeps_its_limits(plan: Plan, ledger: Ledger) -> None:
    """Ratio, turn from the grain and given sizes are those that the job allows."""
    made, top = plan.record.found, plan.job.table("top")
    if top.get("most_ratio") and top.get("shape") not in ("own outline", "piece as found"):
        ratio = made["length"] / made["width"]
        ledger.hold(ratio <= top["most_ratio"] * 1.0001, f"ratio {ratio:.4f}")
    if "most_turn" in top and made["length"] > made["width"] * 1.001:
        off = math.degrees(abs(math.remainder(plan.record.own.turn - plan.job.grain, math.pi)))
        ledger.hold(off <= top["most_turn"] + 1e-4, f"turned {off:.4f}° from the grain")
    for key in ("length", "width"):
        for least, name in ((True, f"least_{key}"), (False, f"most_{key}")):
            given = plan.job.given("top", name)
            if given is not None:
                kept = made[key] >= given - 0.01 if least else made[key] <= given + 0.01
                ledger.hold(kept, f"{name} {given:.1f}: {made[key]:.3f}")


def the_core_is_the_finish_drawn_in_by_the_lipping(plan: Plan, ledger: Ledger) -> None:
    """Every point of the line that is cut lies the lipping's thickness inside the finished edge."""
    core, finish, lipping = plan.record.core, plan.record.finish, plan.job.lipping
    ledger.near("lipping", plan.record.lipping, lipping, 1e-6)
    if not lipping:
        off = core.boundary.hausdorff_distance(finish.boundary)
        ledger.hold(off < 0.01, f"core is {off:.3f} off the finish line")
        return
    for corner in list(core.exterior.coords)[:: max(1, len(core.exterior.coords) // 60)]:
        ledger.near("lipping at the core", signed(finish, corner), lipping, 0.01)
    drawn_in = finish.buffer(-lipping, quad_segs=64, join_style="mitre")
    ledger.near("area of the core", core.area, drawn_in.area, 1e-4 * core.area)


def the_core_lies_in_sound_wood(plan: Plan, ledger: Ledger) -> None:
    """What is cut from the panel keeps the margin to its edges and each clearance to what shows."""
    core, job = plan.record.core, plan.job
    margin = (job.given("top", "margin", 0.0) or 0.0) + job.tape_error
    if not job.keeps_edges:
        beyond = core.difference(grown(job.wood, PROOF - margin)).area
        ledger.hold(beyond < 0.5, f"{beyond:.2f} mm² of the core lie in the margin")
    else:
        beyond = core.difference(grown(job.wood, 0.1)).area
        ledger.hold(beyond < 0.5, f"{beyond:.2f} mm² of the core lie off the panel")
    for item in job.blemishes:
        if item.shows:
            away = core.distance(item.place)
            due = item.clear + job.tape_error - PROOF
            ledger.hold(away >= due, f"{item.name} is {away:.3f} away, {due:.3f} is kept clear")


def the_edge_runs_through_nothing_that_stays_whole(plan: Plan, ledger: Ledger) -> None:
    """Metal, pockets, plugs and patches lie wholly inside the core or wholly outside."""
    edge = LineString(plan.record.core.exterior.coords)
    for item in plan.job.blemishes:
        if not item.stays_whole or not plan.job.wood.intersects(item.place):
            continue
        away = edge.distance(item.place)
        due = item.clear + plan.job.tape_error - PROOF
        ledger.hold(away >= due, f"the edge passes {item.name} at {away:.3f}, due {due:.3f}")


def points_are_covered_and_avoided(plan: Plan, ledger: Ledger) -> None:
    """The top holds the points that it must cover and none that it must avoid."""
    for key, inside in (("covers", True), ("avoids", False)):
        for x, y in plan.job.table("top").get(key, ()):
            depth = signed(plan.record.finish, (plan.job.mm(x), plan.job.mm(y)))
            ledger.hold((depth > -0.02) if inside else (depth < 0.02), f"{key}: {depth:.3f} inside")


def an_outline_of_ones_own_keeps_its_form(plan: Plan, ledger: Ledger) -> None:
    """A free outline is the one of the job, turned and shifted but neither scaled nor mirrored."""
    table = plan.job.table("top")
    if plan.record.made["shape"] != "own outline" or table.get("scaled"):
        return
    mm = plan.job.mm
    given = Polygon([(mm(x), mm(y)) for x, y in table["outline"]])
    own = plan.record.own.taken(plan.record.finish)
    ledger.near("area", own.area, given.area, 1e-4 * given.area)
    left, low, right, high = given.bounds
    best = min(
        shapely.hausdorff_distance(
            Frame(((left + right) / 2, (low + high) / 2), quarter * math.pi / 2)
            .taken(given)
            .exterior,
            own.exterior,
        )
        for quarter in range(4)
    )
    ledger.hold(best < 0.05, f"it is {best:.3f} off the outline of the job")


def the_sides_of_a_piece_are_the_panels_own(plan: Plan, ledger: Ledger) -> None:
    """A kept edge of the top lies on the edge of the panel."""
    edge = LineString(plan.job.boundary.exterior.coords)
    for held in plan.record.kept_edges:
        off = max(edge.distance(shapely.Point(p)) for p in held)
        ledger.hold(off <= 0.11, f"a kept edge stands {off:.3f} off the panel's")
