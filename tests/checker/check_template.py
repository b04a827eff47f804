"""Templates: the true line, in portions that cover it all, on sheets that cover the portion."""

from __future__ import annotations

import shapely
from checker.ledger import Ledger
from checker.plan import Plan
from checker.plane import Pair, corners
from checker.record_paths import points_of, polygon_of
from shapely import Polygon, affinity, box


def the_template_is_the_top(plan: Plan, ledger: Ledger) -> None:
    """Finish, core and rough line are those of the plan, mirrored where it is the underside's."""
    for name, line in (("finish", plan.record.finish), ("core", plan.record.core),
                       ("rough", plan.record.rough)):  # fmt: skip
        held = plan.record.template[name]
        if held is None:
            continue
        own = plan.record.own.taken(line)
        if plan.record.template["mirrored"]:
            own = affinity.scale(own, -1.0, 1.0, origin=(0, 0))
        off = shapely.hausdorff_distance(polygon_of(held).exterior, own.exterior)
        ledger.hold(off < 0.05, f"{name} of the template is {off:.3f} off")
    asked = bool(plan.job.table("template").get("mirrored"))
    if asked:
        ledger.hold(plan.record.template["mirrored"], "it is not mirrored as asked")


def marks_on_paper_are_those_on_the_wood(plan: Plan, ledger: Ledger) -> None:
    """A mark of the template lies where the panel has the mark of the same name."""
    side = -1.0 if plan.record.template["mirrored"] else 1.0
    points = plan.record.settings[0].points
    for mark in plan.record.template["marks"]:
        if mark["label"] in points:
            own = plan.record.own.own(points[mark["label"]])
            ledger.met(f"{mark['label']} on paper", tuple(mark["at"]), (side * own[0], own[1]))


def a_portion_flipped_covers_the_outline(plan: Plan, ledger: Ledger) -> None:
    """Laid down and flipped as told, what is printed comes to every point of the line."""
    portion = plan.record.sheets["portion"]
    if portion["name"] in ("curves", "none"):
        return
    window = _box(portion["window"])
    lines = [plan.record.template[name] for name in ("finish", "core", "rough")]
    rows = [p for line in lines if line for p in points_of(line)]
    line = polygon_of(plan.record.template["finish"])
    for x, y in rows[:: max(1, len(rows) // 200)]:
        images = {(x, y)}
        images |= {(-a, b) for a, b in images} if portion["flip_x"] else set()
        images |= {(a, -b) for a, b in images} if portion["flip_y"] else set()
        there = any(window.covers(shapely.Point(at)) for at in images)
        if portion["name"] in ("end", "corner"):
            there = there or line.exterior.distance(shapely.Point(x, y)) < 12.0
        ledger.hold(there, f"({x:.1f}, {y:.1f}) is on no paper")
    if portion["flip_x"] or portion["flip_y"]:
        _symmetric(ledger, portion, line)


def sheets_cover_the_portion(plan: Plan, ledger: Ledger) -> None:
    """Every printed point lies on a sheet, cells leave no gap, and no window outgrows its paper."""
    held = plan.record.sheets
    tiles = held["plan"]["tiles"]
    windows = shapely.union_all([_box(tile["window"]) for tile in tiles])
    cells = shapely.union_all([_box(tile["cell"]) for tile in tiles]).buffer(0.01)
    for row in _printed(plan):
        at = shapely.Point(row)
        ledger.hold(windows.covers(at), f"({row[0]:.1f}, {row[1]:.1f}) is on no sheet")
        ledger.hold(cells.covers(at), f"({row[0]:.1f}, {row[1]:.1f}) is in no sheet's own part")
    sheet = held["plan"]["sheet"]
    margins = sheet["margins"]
    room = (sheet["width"] - margins["left"] - margins["right"],
            sheet["height"] - margins["bottom"] - margins["top"])  # fmt: skip
    for tile in tiles:
        w = tile["window"]
        size = (w["right"] - w["left"], w["top"] - w["bottom"])
        fits = all(s <= r + 1e-6 for s, r in zip(size, room, strict=True))
        ledger.hold(fits, f"a window {size} on a sheet with room for {room}")


def register_marks_lie_on_both_sheets(plan: Plan, ledger: Ledger) -> None:
    """A mark on a seam is shown by the two sheets that it names, which are neighbours."""
    tiles = plan.record.tiles
    for mark in plan.record.sheets["plan"]["register_marks"]:
        for name in mark["tiles"]:
            ledger.hold(name in tiles, f"mark {mark['number']} names sheet {name}")
            if name in tiles:
                shown = _box(tiles[name]["window"]).covers(shapely.Point(mark["at"]))
                ledger.hold(shown, f"mark {mark['number']} is not on sheet {name}")


def _printed(plan: Plan) -> list[Pair]:
    """Return points of every line within the portion."""
    portion = plan.record.sheets["portion"]
    window = _box(portion["window"])
    shown: list[Pair] = []
    for name in ("finish", "core", "rough"):
        held = plan.record.template[name]
        if not held or portion["name"] in ("curves", "none"):
            continue
        inside = polygon_of(held).exterior.intersection(window)
        rows = corners(shapely.segmentize(inside, 20.0))
        shown += list(rows)[:: max(1, len(list(rows)) // 150)]
    return shown


def _symmetric(ledger: Ledger, portion: dict[str, object], line: Polygon) -> None:
    """Hold that a line is its own mirror image wherever paper is flipped."""
    for key, scale in (("flip_x", (-1.0, 1.0)), ("flip_y", (1.0, -1.0))):
        if portion[key]:
            image = affinity.scale(line, *scale, origin=(0, 0))
            off = shapely.hausdorff_distance(image.exterior, line.exterior)
            ledger.hold(off < 0.05, f"flipped ({key}) the line is {off:.3f} off itself")


def _box(held: dict[str, float]) -> Polygon:
    return box(held["left"], held["bottom"], held["right"], held["top"])
