"""What a program may give for the cut-outs and the defects of a panel."""

from __future__ import annotations

from dataclasses import dataclass

from ..keys.place import Place, shown
from ..keys.plane import Boundary, Table
from .defect import Defect
from .spot import Spot


@dataclass(frozen=True, slots=True)
class Boundaries(Table):
    """Any number of closed lines: tables of a file; of a program paths, rings, polygons, spots."""

    def parse(self, value: object, at: Place) -> object:
        """Return the closed paths, mm; of a file, what stands there."""
        if not at.held:
            return value
        if not isinstance(value, list):
            value = [value]
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
        for i, item in enumerate(listed):
            if not isinstance(item, Defect):
                (at / i).wrong(f"{shown(item)} is no defect: make it by its kind and place")
        return tuple(listed)
