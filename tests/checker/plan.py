"""A plan under check: the job, what plan.json says, its bench sheet, and the wood as it shrinks."""

from __future__ import annotations

import json
import re
from dataclasses import dataclass, field
from functools import cached_property
from typing import Any

import shapely
from checker.job import Job
from checker.plane import add, band, distance, half_plane, pieces
from checker.record import Record
from checker.record_cuts import Straight
from checker.sheet import Sheet
from shapely.geometry.base import BaseGeometry

_STEPS = (
    "Saw line",
    "Flatten",
    "Rest",
    "Cut off the corners",
    "Jigsaw",
    "Rout to",
    "To the line",
    "Lipping",
)
"""How the titles of the steps of cutting begin."""


@dataclass(frozen=True)
class Sawn:
    """One moment of the sawing: the cut, the wood before it, its kerf, what fell, what is left."""

    cut: Straight
    before: BaseGeometry
    kerf: BaseGeometry
    fallen: tuple[BaseGeometry, ...]
    left: BaseGeometry


@dataclass(frozen=True)
class Plan:
    """What is held against first principles."""

    job: Job
    record: Record
    sheet: Sheet | None = field(default=None)

    @classmethod
    def of(cls, job: str, plan: str | dict[str, Any], page: str | None = None) -> Plan:
        """Return the plan of a job file, of plan.json and of the bench sheet where there is one."""
        data = json.loads(plan) if isinstance(plan, str) else plan
        read = Job.read(job)
        unit = 25.4 if read.imperial else 1.0
        return cls(read, Record(data), None if page is None else Sheet.of(page, unit))

    @cached_property
    def sawing(self) -> tuple[Sawn, ...]:
        """Every straight cut in order, on the wood that is there at that moment."""
        held: BaseGeometry = hanging(self.job.wood, self.record.core)[0]
        found = []
        for cut in self.record.straight:
            strip = kerf_of(cut)
            rest, fallen = hanging(held.difference(strip), self.record.core)
            found.append(Sawn(cut, held, held.intersection(strip), fallen, rest))
            held = rest
        return tuple(found)

    @property
    def order(self) -> tuple[str, ...]:
        """What the steps of cutting are, in the order in which the sheet has them."""
        if self.sheet is None:
            return ()
        named = {row.number: row.labels[0] for row in self.sheet.saws}
        held: list[str] = []
        for step in self.sheet.steps:
            found = next((word for word in _STEPS if step.title.startswith(word)), "")
            if found == "Saw line":
                first, *last = map(int, re.findall(r"\d+", step.title))
                numbers = range(first, (last or [first])[0] + 1)
                held += [named[number] for number in numbers if number in named]
            elif found and step.number:
                held.append(found)
        return tuple(held)

    @cached_property
    def blank(self) -> BaseGeometry:
        """What is left when all straight cuts are made."""
        return self.sawing[-1].left if self.sawing else hanging(self.job.wood, self.record.core)[0]

    @cached_property
    def jigsaw_ring(self) -> BaseGeometry:
        """What the jigsaw turns to dust: its kerf outside the rough line; nothing without it."""
        if not any(cut.tool == "jigsaw" for cut in self.record.curves):
            return shapely.Polygon()
        kerf = self.job.given("tools", "jigsaw_kerf", 1.5) or 0.0
        rough = self.record.rough
        return rough.buffer(kerf, quad_segs=64).difference(rough).intersection(self.blank)

    @cached_property
    def routed_from(self) -> BaseGeometry:
        """What router or plane finds: the blank, within the rough line if it is jigsawn."""
        jigsawn = any(cut.tool == "jigsaw" for cut in self.record.curves)
        return self.blank.intersection(self.record.rough) if jigsawn else self.blank


def kerf_of(cut: Straight, more: float = 0.0) -> BaseGeometry:
    """Return the strip that a cut turns to dust, through all wood or as far as it goes."""
    strip = band(cut.start.at, cut.waste, cut.kerf + more)
    if not cut.stops:
        return strip
    a, b = cut.bounds
    way = ((b[0] - a[0]) / distance(a, b), (b[1] - a[1]) / distance(a, b))
    low = half_plane(a, way)
    high = half_plane(b, (-way[0], -way[1]))
    inner = _inner_end(cut)
    return strip.intersection(low if inner == a else high)


def _inner_end(cut: Straight) -> tuple[float, float]:
    """Return the end of a stopped cut that lies in the wood."""
    return cut.end.at if cut.kind.startswith("into") else cut.start.at


def hanging(wood: BaseGeometry, top: BaseGeometry) -> tuple[BaseGeometry, tuple[BaseGeometry, ...]]:
    """Return the wood that the top hangs in, and the pieces that are loose."""
    parts = [part for part in pieces(wood) if part.area > 1.0]
    held = [part for part in parts if part.intersection(top).area > 1.0]
    loose = tuple(part for part in parts if part not in held)
    return shapely.union_all(held), loose


def beside(cut: Straight, shape: BaseGeometry) -> float:
    """Return how far a shape stays behind a saw line: below 0 where it reaches over."""
    rows = shapely.get_coordinates(shape)
    at, way = cut.start.at, cut.waste
    return -float(max((rows[:, 0] - at[0]) * way[0] + (rows[:, 1] - at[1]) * way[1]))


def line_through(cut: Straight, reach: float = 2e4) -> tuple[tuple[float, float], ...]:
    """Return the saw line run on both ways."""
    way = (-cut.waste[1], cut.waste[0])
    return add(cut.start.at, way, -reach), add(cut.start.at, way, reach)
