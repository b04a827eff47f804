"""Wood that is left: areas close, masses follow from them, offcuts and their clean rectangles."""

from __future__ import annotations

import math

import shapely
from checker.grid import largest_on_a_grid
from checker.ledger import Ledger
from checker.plan import Plan
from checker.plane import Frame
from checker.record_paths import regions_of
from shapely import Polygon
from shapely.geometry.base import BaseGeometry

DENSITIES = {  # kg/m³ at 12 % moisture: 1120 × the specific gravities of Wood Handbook table 5-3
    "oak": 761.6, "ash": 672.0, "beech": 716.8, "pine": 448.0, "walnut": 616.0,
    "elm": 550.0, "iroko": 640.0, "teak": 650.0,
}  # fmt: skip
BY_BUILD = {"plywood": 550.0, "MDF": 780.0, "particleboard": 680.0, "blockboard": 500.0,
            "veneered board": 600.0, "hollow": 265.0, "framed": 500.0}  # fmt: skip

PROMISED = 0.96
"""A clean rectangle is at least this share of the best that there is."""


def areas_close(plan: Plan, ledger: Ledger) -> None:
    """Top, trimming, kerfs, offcuts and cut-outs add up to the panel, each as reckoned anew."""
    held = plan.record.balance
    panel = plan.job.boundary.area
    within = 1e-5 * panel
    ledger.near("area of the panel", held["panel"], panel, within)
    parts = ("top", "trimming", "kerf", "offcuts", "cut_outs")
    ledger.near("sum of the parts", sum(held[part] for part in parts), held["panel"], within)
    ledger.near("cut-outs", held["cut_outs"], panel - plan.job.wood.area, within)
    left = plan.routed_from.difference(plan.jigsaw_ring)
    core = plan.record.core
    ledger.near("top", held["top"], core.intersection(plan.job.wood.buffer(0.1)).area, 2 * within)
    if not plan.record.kept_edges:
        chords = 0.005 * core.length
        ledger.near("trimming", held["trimming"], left.difference(core).area, 3 * within + chords)
        fallen = sum(p.area for step in plan.sawing for p in step.fallen)
        ring = plan.jigsaw_ring.area
        dust = sum(step.kerf.area for step in plan.sawing) + ring
        beyond = plan.blank.area - plan.routed_from.area - ring
        ledger.near("kerfs", held["kerf"], dust, 3 * within + 0.01 * dust)
        loose = plan.job.wood.area - (
            plan.sawing[0].before.area if plan.sawing else plan.blank.area
        )
        due = fallen + max(beyond, 0.0) + loose
        ledger.near("offcuts", held["offcuts"], due, 3 * within + 0.01 * dust)


def masses_are_area_times_thickness_times_density(plan: Plan, ledger: Ledger) -> None:
    """Whatever is weighed has the mass of its area, its thickness and the density of its wood."""
    named = plan.job.any_given("panel", "material")
    density = DENSITIES.get(named) if named else BY_BUILD.get(plan.job.build)
    mass, area = plan.record.data["top_mass"], plan.record.made["area"]
    if density is not None:
        due = area * plan.job.made_thickness * density * 1e-9
        ledger.near("mass of the top", mass, due, 1e-4 + 0.001 * due)
    rough = sum(cut.kind == "to rough length" for cut in plan.record.straight)
    for held in plan.record.offcuts:
        found = held["cut"] <= rough
        thick = plan.job.thickness if found else plan.job.made_thickness
        due = held["area"] * mass / area * thick / plan.job.made_thickness
        ledger.near(f"mass of offcut {held['number']}", held["mass"], due, 1e-3 + 0.001 * due)
    if plan.record.legs:
        ledger.near("mass of the top on its legs", plan.record.legs["top_mass"], mass, 1e-5)


def offcuts_are_pieces_of_the_panel(plan: Plan, ledger: Ledger) -> None:
    """An offcut lies in the panel, off the top and every other; its area is that of its ring."""
    taken: BaseGeometry = plan.record.core
    for held in plan.record.offcuts:
        piece = shapely.union_all(regions_of(held["piece"]))
        name = f"offcut {held['number']}"
        ledger.near(f"area of {name}", held["area"], piece.area, 0.5 + 1e-5 * piece.area)
        beyond = piece.difference(plan.job.wood.buffer(0.05)).area
        ledger.hold(beyond < 1.0, f"{name}: {beyond:.1f} mm² of it lie off the panel")
        shared = piece.intersection(taken).area
        ledger.hold(shared < 1.0, f"{name} shares {shared:.1f} mm² with the top or another")
        taken = taken.union(piece)
        ledger.hold(
            bool(_cut_of(plan, held)), f"{name} is freed by cut {held['cut']}, there is none"
        )


def clean_rectangles_are_clean_and_nearly_the_largest(plan: Plan, ledger: Ledger) -> None:
    """An offcut's rectangle lies in its sound wood, and a grid finds none much larger."""
    for held in plan.record.offcuts:
        piece = shapely.union_all(regions_of(held["piece"]))
        clean = piece
        for item in plan.job.blemishes:
            if item.spoils:
                clean = clean.difference(item.reach)
        told = held["clean"]
        name = f"offcut {held['number']}"
        area = 0.0
        if told is not None:
            box = _box(told)
            beyond = box.difference(clean.buffer(0.02)).area
            ledger.hold(beyond < 1.0, f"{name}: {beyond:.1f} mm² of its rectangle are not clean")
            area = told["length"] * told["width"]
        promised = held["worth"] == "board"  # of scrap nothing is promised
        if promised and clean.area > 3000 and area < PROMISED * clean.area:
            best = largest_on_a_grid(clean)
            share = area / best if best else 1.0
            ledger.hold(share >= PROMISED, f"{name}: its rectangle is {share:.3f} of one on a grid")


def _cut_of(plan: Plan, held: dict[str, object]) -> bool:
    cuts = len(plan.record.straight) + (1 if plan.jigsaw_ring.area else 0)
    return 0 <= int(str(held["cut"])) <= cuts


def _box(told: dict[str, object]) -> Polygon:
    x, y = float(str(told["length"])) / 2, float(str(told["width"])) / 2
    at, turn = told["centre"], float(str(told["turn_deg"]))
    assert isinstance(at, list)
    frame = Frame((at[0], at[1]), math.radians(turn))
    return Polygon([frame.out(p) for p in ((-x, -y), (x, -y), (x, y), (-x, y))])
