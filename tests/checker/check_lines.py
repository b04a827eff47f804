"""Straight cuts: outside what is kept, through wood that is there, marked by true figures."""

from __future__ import annotations

from checker.ledger import Ledger
from checker.plan import Plan, Sawn, beside, kerf_of, line_through
from checker.plane import FINE, Pair, add, cross, distance, dot, farthest, stretches, sub, unit
from checker.record_cuts import End, Straight
from shapely import LineString, Point, Polygon
from shapely.geometry.base import BaseGeometry

ROUGH_LENGTH = 10.0
"""A slab is cut to length this far outside the line before it is flattened, mm."""


def a_saw_line_stays_its_allowance_outside(plan: Plan, ledger: Ledger) -> None:
    """No part of the core reaches nearer to a saw line than the allowance that the job asks for."""
    for cut in plan.record.straight:
        asked = min(plan.job.left_by_saw(end=True), plan.job.left_by_saw(end=False))
        least = ROUGH_LENGTH if cut.kind == "to rough length" else asked
        least = plan.job.left_by_jigsaw() if cut.is_corner_cut else least
        ledger.hold(cut.allowance >= least - 1e-6, f"{cut.label} leaves {cut.allowance:.3f}")
        gap = _gap(plan, cut)
        ledger.hold(gap >= cut.allowance - 0.02, f"{cut.label} stands {gap:.3f} out")


def a_kerf_is_taken_from_the_waste(plan: Plan, ledger: Ledger) -> None:
    """The strip that a saw turns to dust is as wide as the job says and spares the core."""
    for step in plan.sawing:
        cut = step.cut
        ledger.near(f"kerf of {cut.label}", cut.kerf, plan.job.given("tools", "kerf", 2.4), 1e-4)
        lost = kerf_of(cut).intersection(plan.record.core).area
        ledger.hold(lost < 0.05, f"{cut.label} takes {lost:.2f} mm² of the core")


def a_saw_runs_where_there_is_wood(plan: Plan, ledger: Ledger) -> None:
    """A saw line starts, runs and ends on wood that no earlier cut has taken away."""
    for step in plan.sawing:
        cut = step.cut
        a, b = line_through(cut)
        there = stretches(step.before, a, b)
        sawn = sum(distance(p, q) for p, q in cut.spans)
        ledger.hold(sawn > 0, f"{cut.label} is in the air")
        for p, q in cut.spans:
            own = LineString([p, q])
            in_air = own.difference(step.before.buffer(0.02)).length
            ledger.hold(in_air < 0.05, f"{cut.label} runs {in_air:.2f} mm in the air")
        whole = sum(distance(p, q) for p, q in there)
        if not cut.stops and not cut.is_corner_cut:
            ledger.near(f"wood along {cut.label}", sawn, whole, 0.1 + 2e-4 * whole)
        if cut.is_corner_cut:
            for end in (cut.start, cut.end):
                away = step.before.boundary.distance(Point(end.at))
                ledger.hold(
                    away < 0.05, f"{cut.label} starts {away:.2f} mm off the edge that is there"
                )


def what_falls_is_told(plan: Plan, ledger: Ledger) -> None:
    """The pieces beside a cut, their greatest width and their mass are those that fall."""
    density = _density(plan)
    for step in plan.sawing:
        cut = step.cut
        if cut.stops:
            continue
        told = sum(piece.area for piece in cut.fallen)
        fell = sum(piece.area for piece in step.fallen)
        chords = FINE * sum(piece.length for piece in step.fallen)
        ledger.near(f"area that {cut.label} takes off", told, fell, chords + 1e-4 * fell)
        if step.fallen:
            due = farthest(_beside_the_saw(step), cut.start.at, cut.waste) - cut.kerf
            ledger.near(f"widest of {cut.label}", cut.widest, due, 0.5 + 0.01 * due)
        if step.fallen:
            thick = _thickness(plan, cut)
            due = max(piece.area for piece in step.fallen) * thick * density
            ledger.near(f"heaviest of {cut.label}", cut.heaviest, due, 0.001 + 1e-3 * due)
        if cut.depths:
            below = plan.job.given("tools", "below", 4.0) or 0.0
            ledger.near(
                f"depth of {cut.label}", cut.depths[-1], _thickness(plan, cut) + below, 0.01
            )


def the_ends_of_a_line_lie_on_the_edge(plan: Plan, ledger: Ledger) -> None:
    """The places that a line is drawn from lie on the panel's edge and on that line."""
    for cut in plan.record.straight:
        if cut.is_corner_cut:
            continue
        short = cut.kind != "to rough length" and plan.record.shortened
        edge = (short or plan.job.boundary).exterior
        ends = [("", cut.start), ("", cut.end)]
        if cut.guide:
            ends += [(" guide", cut.guide.start), (" guide", cut.guide.end)]
        for i, (what, end) in enumerate(ends):
            inner = cut.stops and not what and i == (1 if cut.kind.startswith("into") else 0)
            away = edge.distance(Point(end.at))
            ledger.hold(inner or away < 0.02, f"{cut.label}{what} ends {away:.3f} off the edge")
            off = dot(sub(end.at, cut.start.at), cut.waste)
            due = -cut.guide.offset if what and cut.guide else 0.0
            ledger.near(f"{cut.label}{what} off the saw line", off, due, 0.005)


def the_figures_of_a_line_are_its_coordinates(plan: Plan, ledger: Ledger) -> None:
    """Along, square and the distance from a corner are those of the place on the panel."""
    for cut in plan.record.straight:
        ends = [cut.start, cut.end, *((cut.guide.start, cut.guide.end) if cut.guide else ())]
        for end in ends:
            _figures(plan, ledger, cut, end)


def a_guide_is_where_the_sole_runs(plan: Plan, ledger: Ledger) -> None:
    """A guide stands on the kept side, as far off as that side of the saw's base was measured."""
    for cut in plan.record.straight:
        if cut.guide is None:
            continue
        side = cut.guide.side
        measured = plan.job.given("tools", f"guide_{side}")
        ledger.near(f"guide of {cut.label}", cut.guide.offset, measured, 1e-4)
        way = unit(sub(cut.end.at, cut.start.at))
        on_left = cross(way, cut.waste) < 0
        seen_left = on_left != plan.record.face_down
        words = f"{cut.label}: pushed from its first place to its second, as it lies"
        seen = "left" if seen_left else "right"
        ledger.hold(seen == side, f"{words}, the guide is on the {seen}, told is {side}")


def _gap(plan: Plan, cut: Straight) -> float:
    """Return how far the core stays behind a saw line, or away from one that stops."""
    if cut.stops:
        return float(plan.record.core.distance(kerf_of(cut)))
    return beside(cut, plan.record.core)


def _beside_the_saw(step: Sawn) -> BaseGeometry:
    """Return the wood square beside the stretch on which a saw is in wood."""
    spans, waste = step.cut.spans, step.cut.waste
    a, b = spans[0][0], spans[-1][1]
    return step.before.intersection(Polygon([a, b, add(b, waste, 1e4), add(a, waste, 1e4)]))


def _thickness(plan: Plan, cut: Straight) -> float:
    rough = cut.kind == "to rough length"
    return plan.job.thickness if rough else plan.job.made_thickness


def _density(plan: Plan) -> float:
    """Return the mass of a mm² of the top for each mm of its thickness, kg."""
    mass: float = plan.record.data["top_mass"]
    return mass / plan.record.made["area"] / plan.job.made_thickness


def _figures(plan: Plan, ledger: Ledger, cut: Straight, end: End) -> None:
    reference = plan.record.reference_of(cut)
    own: Pair = reference.frame.own(end.at)
    ledger.near(f"{cut.label} along", end.along, own[0], 0.001)
    ledger.near(f"{cut.label} square", end.square, own[1], 0.001)
    if end.corner:
        named = reference.points.get(end.corner)
        ledger.hold(named is not None, f"{cut.label} names {end.corner}, which is no corner")
        if named is not None:
            due = distance(named, end.at)
            ledger.near(f"{cut.label} from {end.corner}", end.distance, due, 0.001)
