"""Marks of plan.json: the line they are measured from, each mark, and the checks between them."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

from checker.plane import Frame, Pair

Table = dict[str, Any]


@dataclass(frozen=True)
class Reference:
    """The line that is measured from, and every point that tapes are held to."""

    first: Pair
    last: Pair
    names: tuple[str, str]
    struck: bool
    points: dict[str, Pair]

    @property
    def frame(self) -> Frame:
        """Along the line, and square from it."""
        way = (self.last[0] - self.first[0], self.last[1] - self.first[1])
        return Frame(self.first, math.atan2(way[1], way[0]))


@dataclass(frozen=True)
class Mark:
    """One mark."""

    label: str
    kind: str
    point: Pair
    along: float
    square: float
    tapes: tuple[tuple[str, float], ...]
    """Two tape measurements, each from a named point; none where none is told."""
    crossing: float | None
    """At what angle the two tapes cross, degrees."""
    on_wood: bool


@dataclass(frozen=True)
class Setting:
    """One setting out: where from, and all marks and checks."""

    reference: Reference
    marks: tuple[Mark, ...]
    checks: tuple[Table, ...]
    compasses: tuple[Table, ...]
    ordinates: tuple[Table, ...]
    loop: Table | None

    @property
    def points(self) -> dict[str, Pair]:
        """Every mark by its label."""
        return {mark.label: mark.point for mark in self.marks}


def setting_of(datum: Table, marks: Table) -> Setting:
    """Return one setting out of the record."""
    ends = (datum["first"], datum["last"])
    reference = Reference(
        tuple(ends[0]["point"]),
        tuple(ends[1]["point"]),
        (ends[0]["name"], ends[1]["name"]),
        datum["struck"],
        {held["name"]: tuple(held["point"]) for held in (*datum["corners"], *datum["references"])},
    )
    return Setting(
        reference,
        tuple(map(_mark, marks["marks"])),
        tuple(marks["checks"]),
        tuple(marks["compasses"]),
        tuple(marks["ordinates"]),
        marks["loop"],
    )


def _mark(held: Table) -> Mark:
    ties = held.get("ties") or held.get("cross")
    tapes = (ties["first"], ties["second"]) if ties else ()
    return Mark(
        held["label"],
        held["kind"],
        tuple(held["point"]),
        held["along"],
        held["square"],
        tuple((tape["name"], tape["distance"]) for tape in tapes),
        ties["crossing_deg"] if ties else None,
        held["off"] is None if "off" in held else held["on_wood"],
    )
