"""What the maker wrote: a job file as one value."""

from __future__ import annotations

import math
from dataclasses import dataclass, field

from ..cutting.profile import EdgeProfile
from ..cutting.tools import Tools
from ..errors import LayoutError, Problem
from ..fit.wish import Wish
from ..geometry.point import Point
from ..geometry.tolerance import SAME_POINT
from ..legs.table_wish import TableWish
from ..legs.wish import LegsWish
from ..panel.panel import Panel
from ..template.wish import TemplateWish
from ..units import MM_PER_INCH, Tape, Units

STAND_IN_THICKNESS = 18.0
"""Thickness, mm, that a panel carries where the file gives none: a fit never looks at it, and a
plan refuses it (`Job.missing`). It is the commonest board (common practice)."""

STEP = 5.0
"""What sheets round a size down to, mm (common practice)."""

STEP_IMPERIAL = MM_PER_INCH / 4
"""The same where the maker's tape is in inches: a quarter of an inch (common practice)."""


@dataclass(frozen=True, slots=True)
class Job:
    """A panel, and what the maker wishes to make of it.

    Raises
    ------
    LayoutError
        If a length is out of its limits, or P and Q are one point.
    """

    panel: Panel
    wish: Wish
    """The tops to look for."""
    tools: Tools = field(default_factory=Tools)
    profile: EdgeProfile = field(default_factory=EdgeProfile)
    """What the edge of the finished top looks like."""
    template: TemplateWish = field(default_factory=TemplateWish)
    legs: LegsWish | None = None
    """None where the job is only a top."""
    table: TableWish = field(default_factory=TableWish)
    """What is asked of the table on those legs."""
    units: Units = Units.MM
    """What the file is written in."""
    name: str = "job"
    """What the sheets are headed with."""
    margin: float = 0.0
    """Kept between the top and the panel's edges, mm."""
    tape_error: float = 0.0
    """How far any tape may have been out, mm."""
    step: float = STEP
    """What the sheets round the size of the top down to, mm."""
    datum: tuple[Point, Point] | None = None
    """Two struck points P and Q to measure from, where the datum edge does not serve."""
    damaged: tuple[str, ...] = ()
    """Letters of corners of the panel, as its datum names them, that are missing or that no tape
    should be held to."""
    missing: tuple[Problem, ...] = ()
    """What a plan needs and the file does not say; empty where it says all."""

    def __post_init__(self) -> None:
        for name in ("margin", "tape_error"):
            value = getattr(self, name)
            if not 0 <= value < math.inf:
                raise LayoutError(f"{name} of {value:g} mm is below 0")
        if not 0 < self.step < math.inf:
            raise LayoutError(f"a step of {self.step:g} mm is not above 0")
        if self.datum and self.datum[0].distance_to(self.datum[1]) <= SAME_POINT:
            raise LayoutError("P and Q are one point: strike them far apart")

    @property
    def tape(self) -> Tape:
        """How the sheets of this job write a length."""
        return Tape.for_units(self.units)

    @staticmethod
    def usual_step(units: Units) -> float:
        """Return what sizes are rounded down to where the job does not say, mm."""
        return STEP_IMPERIAL if units.is_imperial else STEP
