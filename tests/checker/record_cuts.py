"""Cuts of plan.json: straight ones, corner cuts among them, and those along the outline."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from checker.plane import Pair, cross, sub
from checker.record_paths import polygon_of, regions_of
from shapely import Polygon

Table = dict[str, Any]


@dataclass(frozen=True)
class End:
    """Where a saw line or a guide meets an edge, and the figures that find the place."""

    at: Pair
    along: float
    square: float
    corner: str
    """The nearer corner of the panel on the same edge; empty where there is none."""
    distance: float


@dataclass(frozen=True)
class Guide:
    """Where the straightedge is clamped."""

    offset: float
    side: str
    start: End
    end: End


@dataclass(frozen=True)
class Straight:
    """One straight cut."""

    label: str
    kind: str
    start: End
    end: End
    waste: Pair
    allowance: float
    """From the line that is kept, mm."""
    kerf: float
    guide: Guide | None
    depths: tuple[float, ...]
    widest: float
    fallen: tuple[Polygon, ...]
    heaviest: float
    spans: tuple[tuple[Pair, Pair], ...]
    leg: float | None = None
    """Of a corner cut: from the corner of the blank along both its edges, mm."""

    @property
    def is_corner_cut(self) -> bool:
        """Whether it takes a corner off the blank."""
        return self.kind == "corner cut"

    @property
    def stops(self) -> bool:
        """Whether it ends in the wood, short of a hollow corner."""
        return "hollow corner" in self.kind

    @property
    def bounds(self) -> tuple[Pair, Pair]:
        """Its two ends in the order that has the kept wood on the left of the way."""
        a, b = self.start.at, self.end.at
        return (a, b) if cross(sub(b, a), self.waste) < 0 else (b, a)


@dataclass(frozen=True)
class CurveLine:
    """A cut along the outline."""

    tool: str
    line: Polygon
    path: tuple[Table, ...]
    allowance: float
    most_waste: float
    radii: tuple[Table, ...]
    passes: int | None
    depth: float | None
    """Of a router only."""
    template: Table | None


def straight_cuts(cuts: Table) -> tuple[Straight, ...]:
    """Return every straight cut in the order of sawing."""
    return tuple(map(_straight, (*cuts["trims"], *cuts["corner_cuts"])))


def curve_line(held: Table) -> CurveLine:
    """Return a cut along the outline."""
    return CurveLine(
        held["tool"],
        polygon_of(held["line"]),
        tuple(held["line"]),
        held["allowance"],
        held["most_waste"],
        tuple(held.get("radii", ())),
        held.get("passes"),
        held.get("depth"),
        held.get("template"),
    )


def _end(held: Table) -> End:
    return End(
        tuple(held["point"]), held["along"], held["square"], held["corner"], held["distance"]
    )


def _straight(held: Table) -> Straight:
    guide = held["guide"]
    return Straight(
        label=held["label"],
        kind=held.get("kind", "corner cut"),
        start=_end(held["start"]),
        end=_end(held["end"]),
        waste=tuple(held["waste"]),
        allowance=held["allowance"],
        kerf=held["kerf"],
        guide=guide
        and Guide(guide["offset"], guide["blade_side"], _end(guide["start"]), _end(guide["end"])),
        depths=tuple(held["depths"]),
        widest=held["widest"],
        fallen=tuple(piece for region in held["fallen"] for piece in regions_of(region)),
        heaviest=held["heaviest"],
        spans=tuple((tuple(a), tuple(b)) for a, b in held["spans"]),
        leg=held.get("leg"),
    )
