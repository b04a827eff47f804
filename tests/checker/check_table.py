"""The table on its legs: screws in their heads and in sound wood, diners with room."""

from __future__ import annotations

import math
from itertools import combinations

from checker.feet import head_of, plate_size, print_of
from checker.ledger import Ledger
from checker.plan import Plan
from checker.plane import Frame, add, signed
from shapely import LineString, Point, Polygon

KNEES = (400.0, 300.0)
"""Across and from the edge, mm."""


def screws_stand_in_their_legs_and_in_sound_wood(plan: Plan, ledger: Ledger) -> None:
    """Each screw goes through the head or plate of its leg into wood, from the edge as told."""
    table = plan.record.table
    if table is None or plan.record.legs is None:
        return
    top = plan.record.own.taken(plan.record.finish)
    heads = {leg["number"]: head_of(plan, leg["middle"]) for leg in plan.record.legs["legs"]}
    for hole in table["holes"]:
        within = heads[hole["leg"]].buffer(0.01).covers(Point(hole["place"]))
        ledger.hold(within, f"a screw of leg {hole['leg']} misses its head")
        ledger.near("screw from the edge", hole["from_edge"], signed(top, hole["place"]), 0.01)
        ledger.met("screw", tuple(hole["on_panel"]), plan.record.own.out(hole["place"]))
    if table["screw"] is not None:
        held = table["screw"]
        plate = plate_size(plan)
        passed = held.get("through", plate[2] if plate else 0.0)
        ledger.hold(plate is None or passed >= plate[2], "a screw bites in the plate")
        bite = max(held["screw"]["length"] - passed, 0.0)
        left = plan.job.made_thickness - bite
        ledger.near("bite", held["bite"], bite, 0.01)
        ledger.near("left under the tip", held["left"], left, 0.01)
        faults = " ".join(held["faults"])
        ledger.hold(left >= 5.99 or "deep" in faults or "through" in faults, f"{left:.1f} left")
        ledger.hold(held["pilot_depth"] < plan.job.made_thickness, "the pilot comes through")


def seats_are_on_the_edge_with_room_for_knees(plan: Plan, ledger: Ledger) -> None:
    """A diner sits at the edge, faces inwards, has knees clear of legs and nobody in the lap."""
    table = plan.record.table
    if table is None or plan.record.legs is None or table["seating"] is None:
        return
    top = plan.record.own.taken(plan.record.finish)
    seats = table["seating"]["seats"]
    ledger.hold(len(seats) <= table["seating"]["without_legs"], "legs make room for diners")
    feet = [print_of(plan, leg["middle"]) for leg in plan.record.legs["legs"]]
    for seat in seats:
        at, turn = tuple(seat["place"]), math.radians(seat["towards_deg"])
        ledger.hold(top.exterior.distance(Point(at)) < 0.05, f"a seat is off the edge: {at}")
        ahead = add(at, (math.cos(turn), math.sin(turn)), 5.0)
        ledger.hold(signed(top, ahead) > 2.0, f"the diner at {at} faces outwards")
        half = KNEES[0] / 2 - 1.0
        box = [(0.0, -half), (KNEES[1] - 1.0, -half), (KNEES[1] - 1.0, half), (0.0, half)]
        knees = Polygon([Frame(at, turn).out(p) for p in box])
        met = max(foot.intersection(knees).area for foot in feet)
        ledger.hold(met < 1.0, f"a leg takes {met:.0f} mm² of the knees at {at}")
    width = plan.job.given("legs", "place", 609.6 if plan.job.imperial else 600.0) or 600.0
    ring = LineString(top.exterior.coords)
    for one, other in combinations(seats, 2):
        a, b = (ring.project(Point(s["place"])) for s in (one, other))
        along = min(abs(a - b), ring.length - abs(a - b))
        ledger.hold(along >= width - 21.0, f"two diners sit {along:.0f} apart")
