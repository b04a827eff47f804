"""What the build of a panel asks for before it is cut: face, rim, joints, keys across splits."""

from __future__ import annotations

from collections.abc import Iterator

from ..geometry.path import Path
from ..geometry.point import Point
from ..geometry.polygon import Region
from ..geometry.tolerance import CHORD
from ..marking.step import Step
from ..panel.build import Kind
from ..panel.defect import Defect, Spoils, rectangular_place
from ..panel.panel import Panel
from .cut import Trim
from .straight import Bench

_CHIPS = (Kind.PLYWOOD, Kind.BLOCKBOARD, Kind.VENEERED, Kind.HOLLOW, Kind.PARTICLEBOARD, Kind.MDF)

LONG_DEFECT = 2.5
"""A defect this many times longer than wide runs like a split."""

KEY_SHARE = 0.5
"""A key is half as long as the split that it holds (common practice)."""

LEAST_KEY = 60.0
"""A shorter key holds nothing, mm (common practice)."""


def build_steps(bench: Bench, trims: tuple[Trim, ...], core: Path) -> tuple[Step, ...]:
    """Return what is done before the first cut because of how the panel is built."""
    return tuple(_steps(bench, trims, core))


def _steps(bench: Bench, trims: tuple[Trim, ...], core: Path) -> Iterator[Step]:
    panel = bench.panel
    kept = Region.from_rings(core.points(CHORD, "inside"))
    yield from _keys(panel, kept)
    if panel.build.kind in _CHIPS:
        yield Step(
            "Face down",
            "the teeth of saw and jigsaw come up through the work, so the show face lies down and "
            "the sheet is MIRRORED: the figures stay, left and right swap; knife the line on the "
            "show face and tape it, or it chips.",
        )
    if panel.build.kind is Kind.HOLLOW:
        yield from _hollow(panel, core)
    if panel.build.kind is Kind.FRAMED:
        yield from _joints(panel, trims, core)


def _keys(panel: Panel, kept: Region) -> Iterator[Step]:
    """Yield the keys that hold splits which stay inside a solid top."""
    if panel.build.kind is not Kind.SOLID:
        return
    for defect in panel.spoiling(Spoils.BEARING):
        length = _length_of_split(defect)
        if Spoils.SHOWING in defect.spoils or not length or not kept.holds(defect.extent):
            continue
        size = max(LEAST_KEY, KEY_SHARE * length)
        count = max(2, round(length / 100))
        yield Step.of(
            f"Keys across {defect.name}",
            f"{count} bow-tie keys {{length}} long, {{width}} wide and {{depth}} deep, their grain "
            "across it; fill, glue, 24 h, level.",
            length=size,
            width=0.4 * size,
            depth=panel.thickness / 3,
        )


def _length_of_split(defect: Defect) -> float:
    """Return the length of a defect that is long and narrow, mm; 0 for any other.

    From area and girth of the rectangle of the same: for a rectangle it is exact.
    """
    extent = defect.extent
    half_girth, area = extent.perimeter / 2, extent.area
    spread = max(half_girth**2 - 4 * area, 0.0) ** 0.5
    length, width = (half_girth + spread) / 2, (half_girth - spread) / 2
    return length if length >= LONG_DEFECT * width else 0.0


def _hollow(panel: Panel, core: Path) -> Iterator[Step]:
    """Yield what to do where the line runs through the hollow part of a panel."""
    hollow = _inside_frame(panel)
    points = [Point(float(x), float(y)) for x, y in core.points(1.0)]
    lost = 0.0
    for one, other in zip(points, points[1:] + points[:1], strict=True):
        lost += sum(start.distance_to(end) for start, end in hollow.chord(one, other))
    if lost > 0:
        yield Step.of(
            "Hollow core",
            "the line leaves the solid rim over {length}: after the cut rake the core back, glue a "
            "new strip between the skins all along there, 24 h, then go to the line.",
            length=lost,
        )


def _joints(panel: Panel, trims: tuple[Trim, ...], core: Path) -> Iterator[Step]:
    """Yield a warning where a cut runs through a joint of rail and stile."""
    bounds = panel.boundary.bounds
    stile, rail = panel.build.stile, panel.build.rail
    if not stile or not rail:
        yield Step(
            "Frame joints",
            "the widths of stiles and rails are not known: find the joints and keep cuts off them.",
        )
        return
    along, across = (rail, stile) if bounds.width >= bounds.height else (stile, rail)
    line = [Point(float(x), float(y)) for x, y in core.points(1.0)]
    for h in (-1, 1):
        for v in (-1, 1):
            at = Point(
                bounds.middle.x + h * (bounds.width - along) / 2,
                bounds.middle.y + v * (bounds.height - across) / 2,
            )
            place = rectangular_place(at, along, across)
            joint = Region.from_rings(place.points(CHORD))
            sawn = [t.label for t in trims if any(joint.chord(a, b) for a, b in t.spans)]
            if sawn or any(joint.holds_point(p) for p in line):
                where = f"{'lower' if v < 0 else 'upper'} {'left' if h < 0 else 'right'}"
                yield Step(
                    "Frame joint",
                    f"{', '.join(sawn) or 'the curve'} runs through the joint at the {where} "
                    "corner, show face up: it may fall apart or hold a nail or dowel; cramp it, "
                    "sweep for metal, and glue it anew.",
                )


def _inside_frame(panel: Panel) -> Region:
    """Return the part of a hollow panel that has no solid wood in it."""
    bounds = panel.boundary.bounds
    stile, rail = panel.build.stile, panel.build.rail
    along, across = (rail, stile) if bounds.width >= bounds.height else (stile, rail)
    length, width = bounds.width - 2 * along, bounds.height - 2 * across
    if min(length, width) <= 0:
        return Region.empty()
    return Region.from_rings(rectangular_place(bounds.middle, length, width).points(CHORD))
