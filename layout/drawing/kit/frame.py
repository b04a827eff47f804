"""How a drawing of a panel lies on its sheet: at which scale, where, seen from which face."""

from __future__ import annotations

from dataclasses import dataclass

from ...geometry import Bounds, Path, Placement, Point


@dataclass(frozen=True, slots=True)
class DrawingFrame:
    """How a panel lies on a sheet."""

    sheet: Bounds
    """The paper, mm."""
    scale: float
    """How many mm of the panel are one mm on paper."""
    corner: Point
    """Where the panel's origin lies on paper."""
    mirrored: bool = False
    """Whether the panel is seen from its underside: left and right are swapped, lettering is not.
    """
    turn: float = 0.0
    """How far it is turned on the paper, before it is mirrored, radians."""

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
