"""A neutral drawing: what a sheet shows, before any file format.

A scene is in paper millimetres at true size, y up. Whoever composes it has already scaled what it
shows, so a writer only translates; a writer whose format counts y downwards turns it there.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from ..geometry import Bounds, Line, Path, Point, circle

Anchor = Literal["start", "middle", "end"]
"""Which end of its words a text is held by."""

Hatching = Literal["none", "solid", "diagonal", "cross"]
"""How an area is filled."""


SPACING = 3.0
"""Distance between hatch lines, mm on paper: open enough to read what lies under them."""

HATCH_WIDTH = 0.18
"""Width of a hatch line, mm: the finest of ISO 128-2's common series."""


@dataclass(frozen=True, slots=True)
class Layer:
    """One meaning on a drawing, and how its lines look."""

    key: str
    """Lower-case words joined by hyphens: ``finish-line``. An SVG group, a DXF layer and a PDF
    layer are named by it."""
    title: str
    """The same for people: ``Finish line``."""
    colour: str = "#000000"
    """``#rrggbb``."""
    line_width: float = 0.25
    """mm on paper, from the ISO 128-2 series (0.18, 0.25, 0.35, 0.5, 0.7, 1)."""
    dashes: tuple[float, ...] = ()
    """Drawn and empty lengths in turn, mm on paper; empty for a continuous line."""
    hatching: Hatching = "none"
    """How the areas of the layer are filled."""
    hatch: tuple[float, float] = (SPACING, HATCH_WIDTH)
    """Distance between its hatch lines, and their width, mm on paper."""


Sign = Literal["point", "middle", "centre", "nail", "hole"]
"""What a mark is for, told by its shape where no letters can be read."""


@dataclass(frozen=True, slots=True)
class Stroke:
    """A line along a path."""

    path: Path
    phase: float = 0.0
    """How far into its layer's dashes the line begins, mm: where it carries on another one."""


@dataclass(frozen=True, slots=True)
class Area:
    """A closed boundary with holes, filled as its layer says; its edge is drawn where `edged`."""

    boundary: Path
    holes: tuple[Path, ...] = ()
    edged: bool = True


@dataclass(frozen=True, slots=True)
class Mark:
    """A place that is pricked or drilled: a cross whose arms are `arm` long, mm on paper.

    With `diameter` a circle of that size, at the scale of the drawing, is drawn round it.
    """

    at: Point
    arm: float = 3.0
    diameter: float = 0.0
    sign: Sign = "point"
    """Lines are added to the cross by what it is for."""
    name: str = ""
    """What it is called, for a file format that can hold it beside the lines."""


@dataclass(frozen=True, slots=True)
class Text:
    """Words in one line."""

    at: Point
    """The baseline's start, middle or end, as `anchor` says."""
    words: str
    height: float = 2.5
    """Height of a capital letter, mm on paper (ISO 3098: 1.8, 2.5, 3.5, 5, 7, 10)."""
    anchor: Anchor = "start"
    turn: float = 0.0
    """Direction of the baseline, radians."""
    bold: bool = False
    halo: float = 0.0
    """How wide the paper's colour is kept round the letters, mm; only SVG heeds it."""


Item = Stroke | Area | Mark | Text


@dataclass(frozen=True, slots=True)
class Group:
    """Items of one layer that belong together; later groups lie on top of earlier ones."""

    layer: Layer
    items: tuple[Item, ...]


@dataclass(frozen=True, slots=True)
class Scene:
    """One sheet."""

    title: str
    """What it is, for the file's own title."""
    frame: Bounds
    """The sheet of paper (or the extent of an endless one), paper mm."""
    groups: tuple[Group, ...]
    """From the bottom to the top."""
    stretch: tuple[float, float] = (1.0, 1.0)
    """How much wider and higher than true a page must be written so that a printer which is off by
    the same comes out true; about the middle of the frame. Only pages (PDF) heed it."""

    def on(self, layer: Layer) -> tuple[Item, ...]:
        """Return every item of a layer, in order."""
        return tuple(item for group in self.groups if group.layer == layer for item in group.items)


_CORNERS: dict[Sign, tuple[float, ...]] = {
    "point": (),
    "nail": (),
    "middle": (45.0, 135.0, 225.0, 315.0),
    "centre": (90.0, 210.0, 330.0),
    "hole": (0.0, 90.0, 180.0, 270.0),
}
"""Directions, degrees, in which the corners of the figure round a mark lie: a square round the
middle, a triangle round the centre of an arc, a diamond round a hole; nothing round a point, and
round a nail only the ring of its own size."""


def mark_lines(mark: Mark) -> tuple[Path, ...]:
    """Return a mark as lines: its cross, the ring of its diameter, the figure of its sign.

    >>> [len(mark_lines(Mark(Point(0, 0), sign=sign))) for sign in ("point", "hole")]
    [2, 3]
    """
    along, up = Point(mark.arm, 0.0), Point(0.0, mark.arm)
    cross = tuple(Path((Line(mark.at - arm, mark.at + arm),)) for arm in (along, up))
    ring = (circle(mark.at, mark.diameter / 2),) if mark.diameter else ()
    corners = [mark.at + Point.polar(mark.arm, math.radians(d)) for d in _CORNERS[mark.sign]]
    figure = (Path.through(corners, closed=True),) if corners else ()
    return (*cross, *ring, *figure)
