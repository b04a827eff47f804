"""A job file read by the checker itself: what the maker asked for, in millimetres."""

from __future__ import annotations

import math
import tomllib
from dataclasses import dataclass
from functools import cached_property
from typing import Any

from checker.job_panel import Blemish, Table, blemish, outline_of, spot
from checker.lengths import UNITS, length
from checker.plane import Pair, grown
from shapely import Polygon, box
from shapely.geometry.base import BaseGeometry

SHAPES = {"round": "circle", "racetrack": "capsule", "ellipse": "oval"}


@dataclass(frozen=True)
class Job:
    """What the job file says."""

    data: Table

    @classmethod
    def read(cls, text: str) -> Job:
        """Return the job of a file."""
        return cls(tomllib.loads(text))

    def mm(self, value: object) -> float:
        """Return a length of the file in mm."""
        return length(value, UNITS[self.data.get("units", "mm")])

    def table(self, name: str) -> Table:
        """Return a table of the file; an empty one where it is left out."""
        held: Table = self.data.get(name, {})
        return held

    def given(self, table: str, key: str, usual: float | None = None) -> float | None:
        """Return a length that is given, else what is usual."""
        held = self.table(table)
        return self.mm(held[key]) if key in held else usual

    @property
    def imperial(self) -> bool:
        """Whether its sheets count in inches."""
        return self.data.get("units", "mm") in ("in", "ft")

    @cached_property
    def _outline(self) -> tuple[Polygon, tuple[Pair, ...]]:
        return outline_of(self.table("panel")["outline"], self.mm)

    @property
    def boundary(self) -> Polygon:
        """The outline of the panel, cut-outs not taken away."""
        return self._outline[0]

    @property
    def named_corners(self) -> tuple[Pair, ...]:
        """The corners of the panel, were none rounded or clipped, in the order of the file."""
        return self._outline[1]

    @cached_property
    def cut_outs(self) -> tuple[Polygon, ...]:
        """What has been cut out of the panel."""
        return tuple(spot(item, self.mm) for item in self.table("panel").get("cutouts", ()))

    @cached_property
    def wood(self) -> BaseGeometry:
        """The face of the panel."""
        wood: BaseGeometry = self.boundary
        for hole in self.cut_outs:
            wood = wood.difference(hole)
        return wood

    @cached_property
    def blemishes(self) -> tuple[Blemish, ...]:
        """What is wrong with the panel."""
        listed = self.table("panel").get("defects", ())
        held = (self.mm, self.grain, self.blades)
        return tuple(blemish(item, i, *held) for i, item in enumerate(listed, start=1))

    @property
    def blades(self) -> float:
        """How far outside the line a blade or bit comes, mm: what it leaves and its own width."""
        kerf = self.given("tools", "kerf", 2.4) or 0.0
        saws = [self.left_by_saw(end=end) + kerf for end in (True, False)]
        jigsaw = self.left_by_jigsaw()
        jigsawn = jigsaw + (self.given("tools", "jigsaw_kerf", 1.5) or 0.0)
        routed = self.table("tools").get("router", True)
        bit = self.given("tools", "bit", 12.0) if routed else 0.0
        return max(*saws, jigsaw + kerf, jigsawn, bit or 0.0)

    @property
    def thickness(self) -> float:
        """As found, mm."""
        return self.mm(self.table("panel")["thickness"])

    @property
    def made_thickness(self) -> float:
        """Of the top, mm: flattened where the panel is."""
        return self.given("panel", "flattened") or self.thickness

    @property
    def build(self) -> str:
        """How the panel is built."""
        return str(self.table("panel").get("build", "solid"))

    @property
    def shapes(self) -> tuple[str, ...]:
        """The shapes that were asked for."""
        held = self.table("top").get("shape", "any")
        return tuple(SHAPES.get(s, s) for s in ([held] if isinstance(held, str) else held))

    @property
    def tape_error(self) -> float:
        """How far a tape may have been out, mm."""
        return self.given("top", "tape_error", 0.0) or 0.0

    @property
    def lipping(self) -> float:
        """Thickness of the strip round the core, mm."""
        return self.given("top", "lipping", 0.0) or 0.0

    @property
    def keeps_edges(self) -> bool:
        """Whether edges of the panel stay."""
        return bool(self.table("top").get("keep"))

    @property
    def step(self) -> float:
        """What sizes are rounded down to, mm."""
        return self.given("top", "step") or (25.4 / 4 if self.imperial else 5.0)

    @property
    def grain(self) -> float:
        """Radians from x."""
        return math.radians(self.table("panel").get("grain", 0))

    @property
    def frame(self) -> BaseGeometry:
        """Stiles along the long way, rails across it; all of it where widths are unknown."""
        stile, rail = (self.given("panel", key, 0.0) or 0.0 for key in ("stile", "rail"))
        left, bottom, right, top = self.boundary.bounds
        lies = right - left >= top - bottom
        across, along = (rail, stile) if lies else (stile, rail)
        whole = box(left, bottom, right, top)
        if not (stile and rail):
            return whole
        solid = whole.difference(box(left + across, bottom + along, right - across, top - along))
        for middle, width in self.table("panel").get("between", ()):
            low, high = (self.mm(middle) + side * self.mm(width) / 2 for side in (-1, 1))
            bar = (
                box(left + low, bottom, left + high, top)
                if lies
                else box(left, bottom + low, right, bottom + high)
            )
            solid = solid.union(bar)
        return solid

    def sound(self, *purposes: str) -> BaseGeometry:
        """Return the wood that is left for some purposes: clear of what spoils any of them."""
        wood = self.wood
        if "bearing" in purposes and self.build == "framed":
            wood = wood.intersection(self.frame)
        for item in self.blemishes:
            spoilt = item.spoils & set(purposes)
            if "bearing" in purposes and item.mend in ("plug", "patch", "key", "sand"):
                continue  # it bears again
            if spoilt and not (spoilt == {"showing"} and not item.shows):
                wood = wood.difference(grown(item.place, item.clear + self.tape_error))
        return wood

    def left_by_saw(self, *, end: bool) -> float:
        """Return the least that a straight cut leaves outside the line, mm.

        Where nothing is given for it, it may be what the jigsaw is told to leave.
        """
        jigsaw = self.given("tools", "curve_allowance", 2.0)
        assert jigsaw is not None
        usual = self.given("tools", "allowance", min(2.0, jigsaw))
        left = self.given("tools", "end_allowance", usual) if end else usual
        assert left is not None
        return left

    def left_by_jigsaw(self) -> float:
        """Return what the jigsaw leaves outside the line, mm."""
        usual = self.given("tools", "allowance", 5.0 if self.made_thickness > 38 else 3.0)
        left = self.given("tools", "curve_allowance", usual)
        assert left is not None
        return left

    def any_given(self, *path: str) -> Any:  # noqa: ANN401 - a value of the file
        """Return what stands at a place of the file; None where nothing does."""
        held: Any = self.data
        for key in path:
            held = held.get(key) if isinstance(held, dict) else None
        return held
