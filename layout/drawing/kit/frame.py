"""The sheet that a drawing of a panel stands on: its size, its scale, where the panel lies."""

from __future__ import annotations

from dataclasses import dataclass

from ...geometry import Bounds, Path, Placement, Point
from ...geometry.alike import at_least

SCALES = (1, 2, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50, 100, 500)
"""Whole numbers to draw smaller by: those of ISO 5455 and, so that a panel fills its sheet, a few
between them; nobody measures on this drawing."""

BORDER = 10.0
"""White round the drawing, paper mm: what home printers leave."""

AROUND_PANEL = 22.0
"""Kept round the panel for labels and measures, paper mm."""

STEP_WIDTH, STEP_TALLEST = 62.0, 34.0
"""Width of the drawing of one step, paper mm: it stands beside the words; and height that what is
drawn has in it at most."""

AROUND_STEP = 11.0
"""Kept round that, paper mm: a row of measures."""


@dataclass(frozen=True, slots=True)
class DrawingFrame:
    """How a panel lies on a sheet."""

    sheet: Bounds
    """The paper, mm."""
    scale: float
    """How many mm of the panel are one mm on paper."""
    corner: Point
    """Where the panel's origin lies on paper."""
    room: Bounds
    """Where drawing and labels may stand."""
    legend: Bounds
    """Where title and legend stand."""
    mirrored: bool = False
    """Whether the panel is seen from its underside: left and right are swapped, lettering is not.
    """
    turn: float = 0.0
    """How far it is turned on the paper, before it is mirrored, radians."""

    @classmethod
    def for_panel(
        cls, extent: Bounds, sheet: Bounds, foot: float, *, mirrored: bool = False
    ) -> DrawingFrame:
        """Return the frame in which a panel is drawn on a sheet as large as it may be.

        Parameters
        ----------
        extent : Bounds
            Of the panel, mm.
        sheet : Bounds
            The paper, mm.
        foot : float
            Height kept for title and legend, paper mm.
        """
        if mirrored:
            extent = Bounds(-extent.right, extent.bottom, -extent.left, extent.top)
        inside = sheet.grown(-BORDER)
        room = Bounds(inside.left, inside.bottom + foot, inside.right, inside.top)
        legend = Bounds(inside.left, inside.bottom, inside.right, inside.bottom + foot)
        around = min(AROUND_PANEL, room.height / 6)
        wide, high = room.width - 2 * around, room.height - 2 * around
        least = max(extent.width / wide, extent.height / high)
        scale = float(next((s for s in SCALES if at_least(s, least)), SCALES[-1]))
        middle = extent.middle * (1 / scale)
        return cls(sheet, scale, room.middle - middle, room, legend, mirrored)

    @classmethod
    def for_step(
        cls,
        extent: Bounds,
        *,
        mirrored: bool = False,
        width: float = STEP_WIDTH,
        tallest: float = STEP_TALLEST,
    ) -> DrawingFrame:
        """Return the frame of a picture `width` wide of what has this extent, mm, and no legend."""
        if mirrored:
            extent = Bounds(-extent.right, extent.bottom, -extent.left, extent.top)
        wide = width - 2 * AROUND_STEP
        scale = max(extent.width / wide, extent.height / tallest)
        high = extent.height / scale + 2 * AROUND_STEP
        sheet = Bounds(0.0, 0.0, width, high)
        corner = sheet.middle - extent.middle * (1 / scale)
        return cls(sheet, scale, corner, sheet.grown(-0.5), sheet, mirrored)

    def way(self, direction: Point) -> Point:
        """Return where a direction on the panel points on paper, as a unit vector."""
        return self._seen(direction).unit()

    def at(self, point: Point) -> Point:
        """Return where a point of the panel lies on paper."""
        return self._seen(point) * (1 / self.scale) + self.corner

    def of(self, path: Path) -> Path:
        """Return how a path on the panel lies on paper."""
        turned = path.placed(Placement(turn=self.turn)) if self.turn else path
        seen = turned.mirrored() if self.mirrored else turned
        return seen.scaled(1 / self.scale).placed(Placement(self.corner))

    def _seen(self, point: Point) -> Point:
        turned = point.turned(self.turn) if self.turn else point
        return Point(-turned.x, turned.y) if self.mirrored else turned
