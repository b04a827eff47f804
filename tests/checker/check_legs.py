"""Legs: feet on wood that bears, inside the top, apart; their mass, screws, and seats."""

from __future__ import annotations

import math
from itertools import combinations

from checker.feet import head_of, plate_of, plate_size, print_of
from checker.ledger import Ledger
from checker.plan import Plan
from checker.plane import distance, dot, sub
from checker.record_paths import polygon_of

LEG_DENSITIES = {"oak": 761.6, "ash": 672.0, "beech": 716.8, "pine": 448.0, "steel": 7850.0,
                 "brick": 1900.0, "fired clay": 1900.0, "concrete": 2350.0}  # fmt: skip


def a_foot_is_as_asked_where_it_is_told(plan: Plan, ledger: Ledger) -> None:
    """A leg's print on the panel has the job's form and size, turned as the top."""
    for leg in (plan.record.legs or {}).get("legs", ()):
        name = f"leg {leg['number']}"
        ledger.met(name, tuple(leg["on_panel"]), plan.record.own.out(leg["middle"]))
        due = plan.record.own.placed(print_of(plan, leg["middle"]))
        off = polygon_of(leg["print"]).symmetric_difference(due).area
        ledger.hold(off < 1e-3 * due.area + 0.5, f"{name}: its print is {off:.1f} mm² off")
        if leg["plate"] is not None:
            due = plate_of(plan, leg["middle"])
            assert due is not None
            plate = plan.record.own.placed(due)
            off = polygon_of(leg["plate"]).symmetric_difference(plate).area
            ledger.hold(off < 1.0, f"{name}: its plate is {off:.1f} mm² off")


def feet_stand_on_sound_wood(plan: Plan, ledger: Ledger) -> None:
    """What lies under the top at a foot or plate bears: no split, rot, metal, edge, unless told."""
    if plan.record.legs is None:
        return
    sound = plan.job.sound("bearing", "cutting").buffer(0.01)
    told = plan.record.leg_concerns("poor bearing", "beyond the edge")
    for leg in plan.record.legs["legs"]:
        head = plan.record.own.placed(head_of(plan, leg["middle"]))
        poor = head.difference(sound).area
        ledger.hold(
            poor < 0.5 or leg["number"] in told, f"leg {leg['number']}: {poor:.1f} mm² poor"
        )
        if poor < 1e-6:
            ledger.hold(
                leg["number"] not in plan.record.leg_concerns("poor bearing")
                or head.distance(sound.boundary) < 0.05,
                f"leg {leg['number']} is told to stand badly and does not",
            )


def feet_stand_inside_and_apart(plan: Plan, ledger: Ledger) -> None:
    """Heads lie inside the top and do not overlap, unless the plan says so."""
    if plan.record.legs is None:
        return
    top = plan.record.own.taken(plan.record.finish).buffer(0.01)
    past = plan.record.leg_concerns("beyond the edge")
    for leg in plan.record.legs["legs"]:
        out = head_of(plan, leg["middle"]).difference(top).area
        ledger.hold(out < 0.05 or leg["number"] in past, f"leg {leg['number']}: {out:.1f} mm² out")
    told = plan.record.leg_concerns("overlap")
    for one, other in combinations(plan.record.legs["legs"], 2):
        shared = head_of(plan, one["middle"]).intersection(head_of(plan, other["middle"])).area
        both = {one["number"], other["number"]}
        ledger.hold(shared < 1.0 or both <= told, f"legs {both} share {shared:.1f} mm²")


def feet_land_where_the_legs_lean(plan: Plan, ledger: Ledger) -> None:
    """A splayed leg lands its height times the tangent of its splay from under its head."""
    asked = plan.job.table("legs")
    splay = math.radians(asked.get("splay", 0))
    for leg in (plan.record.legs or {}).get("legs", ()):
        plate = plate_size(plan)
        rise = plan.record.legs["height"] - (plate[2] if plate else 0.0)
        out = distance(leg["floor"], leg["middle"])
        ends = math.hypot(*leg["middle"]) < 1e-6
        due = (plan.record.legs["height"] * math.tan(splay), rise * math.tan(splay))
        near = min(abs(out - d) for d in due) < 0.01
        ledger.hold(near or ends or out == 0, f"leg {leg['number']} lands {out:.2f} out, due {due}")
        if out > 0.01:
            leans = sub(tuple(leg["floor"]), tuple(leg["middle"]))
            ledger.hold(dot(leans, leg["middle"]) > -1e-3, f"leg {leg['number']} leans inwards")


def overhangs_are_distances_to_the_edge(plan: Plan, ledger: Ledger) -> None:
    """How far a head stays inside the edge, and the top reaches past the feet, is as measured."""
    if plan.record.legs is None:
        return
    top = plan.record.own.taken(plan.record.finish)
    for leg in plan.record.legs["legs"]:
        head = head_of(plan, leg["middle"])
        inside = head.difference(top).area < 1e-9
        due = head.exterior.distance(top.exterior)
        if inside:
            ledger.near(f"overhang of leg {leg['number']}", leg["overhang"], due, 0.02)
        else:
            ledger.hold(leg["overhang"] < 0.01, f"leg {leg['number']} overhangs {leg['overhang']}")
    told = plan.record.legs["overhang"]
    least = min(leg["overhang"] for leg in plan.record.legs["legs"])
    ledger.near("least overhang", told["least"], least, 1e-6)
    left, low, right, high = top.bounds
    feet = [print_of(plan, leg["middle"]).bounds for leg in plan.record.legs["legs"]]
    if plan.record.made["shape"] not in ("own outline", "piece as found"):
        sides = (min(b[1] for b in feet) - low, high - max(b[3] for b in feet))
        ends = (min(b[0] for b in feet) - left, right - max(b[2] for b in feet))
        ledger.near("overhang at a side", told["side"], max(sides), 0.02)
        ledger.near("overhang at an end", told["end"], max(ends), 0.02)


def legs_weigh_what_their_wood_weighs(plan: Plan, ledger: Ledger) -> None:
    """A leg has the mass of its section, its length and its density; the table that of all."""
    legs, asked = plan.record.legs, plan.job.table("legs")
    if legs is None or "mass" in asked:
        return
    density = LEG_DENSITIES.get(asked.get("material", ""), asked.get("density", 650.0))
    plate = plate_size(plan)
    section = print_of(plan, (0.0, 0.0)).area
    if asked.get("wall"):
        section -= print_of(plan, (0.0, 0.0), plan.job.mm(asked["wall"])).area
    long = (legs["height"] - (plate[2] if plate else 0.0)) / math.cos(
        math.radians(asked.get("splay", 0))
    )
    due = section * long * density * 1e-9 + (
        plate[0] * plate[1] * plate[2] * 7850e-9 if plate else 0.0
    )
    ledger.near("length of a leg", legs["leg_length"], long, 0.01)
    ledger.near("mass of a leg", legs["leg_mass"], due, 0.002 + 0.002 * due)
    whole = legs["top_mass"] + legs["leg_mass"] * len(legs["legs"])
    ledger.near("mass of the table", legs["mass"], whole, 1e-4)
