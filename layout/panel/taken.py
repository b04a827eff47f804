"""What a program may give for the cut-outs and the defects of a panel."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ..keys.place import Place, shown
from ..keys.plane import Boundary, Table
from .defect import Defect
from .spot import Spot

MOST_PLACES = 300
"""Defects or cut-outs that are worked with: an old bench top has some dozen, and every search looks
at each of them thousands of times."""


def are_too_many(raw: Sequence[object], place: Place) -> bool:
    """Return whether a list holds more places than are worked with; note it."""
    if len(raw) > MOST_PLACES:
        place.wrong(
            f"{len(raw):,} places are more than the {MOST_PLACES} that are worked with: give those "
            "that lie close together as one"
        )
    return len(raw) > MOST_PLACES


@dataclass(frozen=True, slots=True)
class Boundaries(Table):
    """Any number of closed lines: tables of a file; of a program paths, rings, polygons, spots."""

    def parse(self, value: object, at: Place) -> object:
        """Return the closed paths, mm; of a file, what stands there."""
        if not at.held:
            return value
        if not isinstance(value, list):
            value = [value]
        are_too_many(value, at)
        return tuple(
            item.path() if isinstance(item, Spot) else Boundary("").read(item, at / i)
            for i, item in enumerate(value)
        )


@dataclass(frozen=True, slots=True)
class Defects(Table):
    """Any number of defects: tables of a job file, or values of a program."""

    def parse(self, value: object, at: Place) -> object:
        """Return the defects; of a file, what stands there."""
        if not at.held:
            return value
        listed = value if isinstance(value, list) else [value]
        are_too_many(listed, at)
        for i, item in enumerate(listed):
            if not isinstance(item, Defect):
                (at / i).wrong(f"{shown(item)} is no defect: make it by its kind and place")
        return tuple(listed)
