"""What stands in plan.json, by the checker's own names.

Only the files called record know its keys.
"""

from __future__ import annotations

import json
import math
from dataclasses import dataclass
from functools import cached_property
from typing import Any

from checker.plane import Frame, Pair
from checker.record_cuts import CurveLine, Straight, curve_line, straight_cuts
from checker.record_marks import Reference, Setting, setting_of
from checker.record_paths import points_of, polygon_of
from shapely import Polygon

Table = dict[str, Any]


@dataclass(frozen=True)
class Record:
    """plan.json."""

    data: Table

    @classmethod
    def read(cls, text: str) -> Record:
        """Return the record of a file."""
        return cls(json.loads(text))

    @property
    def made(self) -> Table:
        """The outline that is made: shape, length, width, area, perimeter and what its kind has."""
        held: Table = self.data["made"]["outline"]
        return held

    @property
    def found(self) -> Table:
        """The same before its sizes are rounded down."""
        held: Table = self.data["made"]["exact"]
        return held

    @property
    def own(self) -> Frame:
        """The frame of the top on the panel."""
        placed = self.data["made"]["placement"]
        return Frame(tuple(placed["centre"]), math.radians(placed["turn_deg"]))

    @property
    def lipping(self) -> float:
        """Thickness of the strip round the core, mm."""
        return float(self.data["made"]["lipping"])

    @cached_property
    def finish(self) -> Polygon:
        """The finished top on the panel."""
        return polygon_of(self.data["cuts"]["finish"])

    @cached_property
    def core(self) -> Polygon:
        """What is cut from the panel."""
        return polygon_of(self.data["cuts"]["core"])

    @cached_property
    def rough(self) -> Polygon:
        """What lies within the line that the jigsaw follows."""
        return polygon_of(self.data["cuts"]["rough"])

    @property
    def rough_allowance(self) -> float:
        """From the core to that line, mm."""
        return float(self.data["cuts"]["allowance"])

    @cached_property
    def straight(self) -> tuple[Straight, ...]:
        """Every straight cut in the order in which it is made, corner cuts last."""
        return straight_cuts(self.data["cuts"])

    @cached_property
    def curves(self) -> tuple[CurveLine, ...]:
        """Jigsaw, router, hand, in order."""
        return tuple(curve_line(item) for item in self.data["cuts"]["curve_cuts"])

    @property
    def face_down(self) -> bool:
        """Whether the show face lies down while it is marked and sawn."""
        return bool(self.data["cuts"]["face"]["show_face"] == "down")

    @property
    def kept_edges(self) -> tuple[list[Pair], ...]:
        """Stretches of the finished edge that are the panel's own."""
        return tuple(points_of(held["stretch"]) for held in self.data["cuts"]["kept"])

    @property
    def settings(self) -> tuple[Setting, ...]:
        """Every setting out in order: of a slab a second one."""
        again = self.data["cuts"]["again"]
        found = [setting_of(self.data["datum"], self.data["marks"])]
        return tuple(found + ([setting_of(again["datum"], again["marks"])] if again else []))

    @property
    def shortened(self) -> Polygon | None:
        """What is left of a slab that is marked again; None for any other panel."""
        again = self.data["cuts"]["again"]
        return polygon_of(again["boundary"]) if again else None

    def reference_of(self, cut: Straight) -> Reference:
        """Return what a cut is measured from: of a slab that is short already the new marks."""
        return self.settings[-1 if cut.kind != "to rough length" else 0].reference

    def told(self, name: str) -> bool:
        """Return whether it is told that a blade or bit would meet a thing."""
        return any(name in concern["who"] for concern in self.data["blades"])

    @property
    def offcuts(self) -> tuple[Table, ...]:
        """Each piece that falls off."""
        return tuple(self.data["offcuts"]["pieces"])

    @property
    def balance(self) -> Table:
        """Where the area of the panel goes."""
        held: Table = self.data["offcuts"]["balance"]
        return held

    @property
    def legs(self) -> Table | None:
        """The legs as placed; None for a top alone."""
        held: Table | None = self.data["legs"]
        return held

    @property
    def table(self) -> Table | None:
        """What the table does on them."""
        held: Table | None = self.data["table"]
        return held

    def leg_concerns(self, *matters: str) -> set[int]:
        """Return the numbers of the legs that a concern about one of these matters is told of."""
        held = (self.legs or {}).get("problems", ())
        return {int(name) for p in held if p["matter"] in matters for name in p["who"]
                if name.isdigit()}  # fmt: skip

    @property
    def leg_matters(self) -> tuple[str, ...]:
        """What all concerns about the legs are about."""
        return tuple(problem["matter"] for problem in (self.legs or {}).get("problems", ()))

    @property
    def template(self) -> Table:
        """What is drawn at full size, in the frame of the top."""
        held: Table = self.data["template"]
        return held

    @property
    def tiles(self) -> dict[str, Table]:
        """The sheets of paper by the names that they bear."""
        rows = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
        return {
            str(tile["number"])
            if "number" in tile
            else f"{rows[tile['row']]}{tile['column'] + 1}": tile
            for tile in self.sheets["plan"]["tiles"]
        }

    @property
    def sheets(self) -> Table:
        """The portion that is printed, and on which sheets."""
        held: Table = self.data["sheets"]
        return held

    @property
    def subjects(self) -> tuple[str, ...]:
        """What the cautions are about."""
        return tuple(caution["subject"] for caution in self.data["cautions"])
