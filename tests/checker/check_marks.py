"""Marks: where figures put them, what they are marks of, what tapes between them read."""

from __future__ import annotations

import math

import shapely
from checker.ledger import Ledger
from checker.plan import Plan
from checker.plane import Pair, distance, dot, signed, sub, unit
from checker.record_marks import Setting
from shapely import Point

ON_EDGE = ("centreline at the panel's edge", "cross centreline at the panel's edge")


def the_datum_is_what_the_job_has(plan: Plan, ledger: Ledger) -> None:
    """Corners are the panel's own, and a struck line is the one that the maker gives."""
    setting = plan.record.settings[0]
    named = plan.job.named_corners
    plain = not {"points", "bows", "clips"} & set(plan.job.table("panel")["outline"])
    if plain:
        for name, due in zip("ABCD", named, strict=False):
            if name in setting.reference.points:
                ledger.met(f"corner {name}", setting.reference.points[name], due)
    given = plan.job.any_given("panel", "datum")
    if given:
        due = [tuple(plan.job.mm(v) for v in given[key]) for key in ("from", "to")]
        ends = (setting.reference.first, setting.reference.last)
        off = max(min(distance(end, point) for point in due) for end in ends)
        ledger.hold(off < 1e-3, f"the struck line runs {ends}, given {due}")
    line = sub(setting.reference.last, setting.reference.first)
    centre = plan.job.boundary.centroid.coords[0]
    towards = sub(centre, setting.reference.first)
    ledger.hold(line[0] * towards[1] - line[1] * towards[0] > -1.0, "the wood lies on its right")


def offsets_are_coordinates(plan: Plan, ledger: Ledger) -> None:
    """Along and square of every mark are its coordinates from the line that is measured from."""
    for setting in plan.record.settings:
        frame = setting.reference.frame
        for mark in setting.marks:
            own = frame.own(mark.point)
            ledger.near(f"along of {mark.label}", mark.along, own[0], 0.001)
            ledger.near(f"square of {mark.label}", mark.square, own[1], 0.001)


def no_offset_is_negative_beside_an_edge(plan: Plan, ledger: Ledger) -> None:
    """Measured from a straight edge of the panel, no mark on the wood has a minus figure."""
    for setting in plan.record.settings:
        if setting.reference.struck:
            continue
        for mark in setting.marks:
            if mark.on_wood and not plan.job.any_given("panel", "outline", "points"):
                least = min(mark.along, mark.square)
                ledger.hold(least > -9.0, f"{mark.label} lies at {least:.1f}")


def two_tapes_meet_at_the_mark(plan: Plan, ledger: Ledger) -> None:
    """Each tape measurement is the distance from its corner, and they cross at the angle told."""
    for setting in plan.record.settings:
        for mark in setting.marks:
            ways = []
            for name, told in mark.tapes:
                at = setting.reference.points.get(name)
                ledger.hold(at is not None, f"{mark.label} is measured from {name}, no corner")
                if at is not None:
                    due = distance(at, mark.point)
                    ledger.near(f"{mark.label} from {name}", told, due, 0.001)
                    ways.append(unit(sub(at, mark.point)))
            if len(ways) == 2:
                angle = math.degrees(math.acos(max(-1.0, min(1.0, dot(*ways)))))
                ledger.near(f"crossing at {mark.label}", mark.crossing, angle, 0.01)


def checks_are_distances(plan: Plan, ledger: Ledger) -> None:
    """Each check distance is the one between the two marks or corners that it names."""
    for setting in plan.record.settings:
        places = {**setting.reference.points, **setting.points}
        for check in setting.checks:
            ends = [places.get(check[key]) for key in ("start", "end")]
            ledger.hold(None not in ends, f"check {check['start']}–{check['end']} names no mark")
            if ends[0] is not None and ends[1] is not None:
                what = f"check {check['start']}–{check['end']}"
                ledger.near(what, check["distance"], distance(*ends), 0.001)


def marks_are_what_they_are_called(plan: Plan, ledger: Ledger) -> None:
    """Ends, corners, tangent points, nails and points of the curve lie where the top has them."""
    for setting in plan.record.settings:
        _called(plan, ledger, setting)


def a_mark_is_on_wood_where_it_is_told(plan: Plan, ledger: Ledger) -> None:
    """Whether there is wood under a mark is told as it is on the panel of that moment."""
    for i, setting in enumerate(plan.record.settings):
        wood = (plan.record.shortened if i else None) or plan.job.wood
        for mark in setting.marks:
            depth = signed(wood, mark.point)
            if mark.kind not in ON_EDGE and abs(depth) > 0.05:
                ledger.hold(mark.on_wood == (depth > 0), f"{mark.label}: {depth:.2f} inside")
            if mark.kind in ON_EDGE:
                edge = (plan.record.shortened if i else None) or plan.job.boundary
                away = edge.exterior.distance(Point(mark.point))
                ledger.hold(away < 0.02, f"{mark.label} is {away:.3f} off the panel's edge")


def a_pin_at_each_centre_draws_the_curve(plan: Plan, ledger: Ledger) -> None:
    """From the centres that are named, the radius comes to points of the finish and core lines."""
    for setting in plan.record.settings:
        for held in setting.compasses:
            for name in held["centres"]:
                at = setting.points.get(name)
                ledger.hold(at is not None, f"a radius is swung about {name}, which is no mark")
                if at is None:
                    continue
                for key, line in (
                    ("radius", plan.record.finish),
                    ("core_radius", plan.record.core),
                ):
                    if held[key] > 0:
                        rows = shapely.get_coordinates(line.exterior) - at
                        off = abs((rows**2).sum(axis=1) ** 0.5 - held[key])
                        hits = int((off < 0.01).sum())
                        ledger.hold(hits >= 3, f"{key} {held[key]:.2f} about {name} meets no arc")


def ordinates_lie_on_the_curve(plan: Plan, ledger: Ledger) -> None:
    """Each pair, out along the axis and up from it, is a point of the outline."""
    line = plan.record.own.taken(plan.record.finish).exterior
    for setting in plan.record.settings:
        for held in setting.ordinates:
            away = line.distance(Point(held["out"], held["up"]))
            ledger.hold(away < 0.02, f"out {held['out']:.1f}, up {held['up']:.1f}: {away:.3f} off")


def _called(plan: Plan, ledger: Ledger, setting: Setting) -> None:
    own, made = plan.record.own, plan.record.made
    x, y = made["length"] / 2, made["width"] / 2
    due: dict[str, list[Pair]] = {
        "centre": [(0.0, 0.0)],
        "end of the long axis": [(-x, 0.0), (x, 0.0)],
        "end of the short axis": [(0.0, -y), (0.0, y)],
    }
    if made["shape"] in ("rectangle", "rounded rectangle"):
        due["corner"] = [(a, b) for a in (-x, x) for b in (-y, y)]
    if made["shape"] == "oval" and x > y:
        due["nail"] = [(-math.sqrt(x * x - y * y), 0.0), (math.sqrt(x * x - y * y), 0.0)]
    line = own.taken(plan.record.finish).exterior
    for mark in setting.marks:
        at = own.own(mark.point)
        places = due.get(mark.kind)
        if places:
            away = min(distance(at, place) for place in places)
            ledger.hold(away < 0.01, f"{mark.label} ({mark.kind}) is {away:.3f} off")
        elif mark.kind in (
            "where straight meets curve",
            "on the curve, on the diagonal",
            "corner",
        ):
            away = line.distance(Point(at))
            ledger.hold(away < 0.02, f"{mark.label} ({mark.kind}) is {away:.3f} off the line")
