"""Ovals drawn with a compass alone: four or eight arcs that keep both axes, near the ellipse.

All arcs meet with a common tangent: the distance of two centres is the difference of their radii.
Half-axes are a and b. The end arcs have radius r about (±(a − r), 0), the side arcs radius R about
(0, ∓(R − b)).
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field

from ..errors import OutlineError
from ..geometry import Arc, Point
from ..geometry.intersect import meetings
from ..geometry.scalar import peak

_FEW_SAMPLES, _SAMPLES = 180, 720
"""Points of a quarter of the ellipse at which the distance is taken, to compare it and to tell it:
good to 1e-4 mm."""


@dataclass(frozen=True, slots=True)
class FourCentreOval:
    """Four arcs that keep the length and the width."""

    length: float
    width: float
    """mm."""
    end_radius: float
    side_radius: float
    """mm."""
    end_centre: float
    """From the middle along the long axis to the centre of an end arc, mm."""
    side_centre: float
    """From the middle along the short axis, away from its arc, to the centre of a side arc, mm."""
    join: float = field(metadata={"unit": "rad"})
    """Angle from the long axis to the line through both centres, on which the arcs meet, radians.
    """
    farthest_from_ellipse: float
    """The farthest that the true ellipse of the same axes lies from it, mm."""

    @classmethod
    def joined_at(cls, length: float, width: float, join: float) -> FourCentreOval:
        """Return the oval whose arcs meet on lines at `join` radians to the long axis.

        With e = a − r and f = R − b = e·tan(join), the arcs meet where R − r = e/cos(join), so
        e·(tan(join) + 1 − 1/cos(join)) = a − b. At 45° that is e = (a − b)(1 + √2/2) (Rose,
        *Mechanical Drawing Self-Taught*, 1883). Raises an OutlineError if no arc is left at the
        ends, or not ``0 < width < length``.
        """
        a, b = _half_axes(length, width)
        inset = (a - b) / (math.tan(join) + 1 - 1 / math.cos(join))
        if inset >= a:
            raise OutlineError(
                f"arcs that meet at {math.degrees(join):.0f}° leave no end on an oval {length:g} "
                f"by {width:g} mm: it is too long for its width"
            )
        return cls._with_end_radius(length, width, a - inset)

    @classmethod
    def best(cls, length: float, width: float) -> FourCentreOval:
        """Return the oval that lies nearest to the true ellipse.

        As the end radius grows, the ends move outside the ellipse and the shoulders inside, so the
        farthest distance first falls and then rises.
        """
        a, b = _half_axes(length, width)

        def nearness(end: float) -> float:
            return -_farthest_from_ellipse(a, b, _four(a, b, end), _FEW_SAMPLES)

        return cls._with_end_radius(length, width, peak(nearness, 1e-3 * b, (1 - 1e-6) * b))

    @classmethod
    def _with_end_radius(cls, length: float, width: float, end: float) -> FourCentreOval:
        a, b = length / 2, width / 2
        arcs = _four(a, b, end)
        side = arcs[1][0]
        return cls(
            length,
            width,
            end_radius=end,
            side_radius=side,
            end_centre=a - end,
            side_centre=side - b,
            join=math.atan2(side - b, a - end),
            farthest_from_ellipse=_farthest_from_ellipse(a, b, arcs, _SAMPLES),
        )


@dataclass(frozen=True, slots=True)
class EightCentreOval:
    """Eight arcs that keep the length and the width and both true radii of the ellipse's ends."""

    length: float
    width: float
    """mm."""
    end_radius: float
    middle_radius: float
    side_radius: float
    """b²/a, (a + b)/2 and a²/b (Rose, *Mechanical Drawing Self-Taught*, 1883, figs 81 and 82); mm.
    """
    end_centre: float
    side_centre: float
    """From the middle along the axes, as for four arcs, mm."""
    middle_centre: Point
    """Of the arc between them in the quarter to the right and up, from the middle, mm."""
    farthest_from_ellipse: float
    """mm."""

    @classmethod
    def for_oval(cls, length: float, width: float) -> EightCentreOval:
        """Return the eight arcs for an oval.

        Raises an OutlineError if not ``0 < width < length``.
        """
        a, b = _half_axes(length, width)
        end, middle, side = b * b / a, (a + b) / 2, a * a / b
        at_end, at_side = Point(a - end, 0.0), Point(0.0, b - side)
        # at these distances from both centres, on the side nearer the middle
        reached = meetings(
            Arc(at_end, middle - end, 0.0, math.tau), Arc(at_side, side - middle, 0.0, math.tau)
        )
        between = min(reached, key=lambda p: p.norm)
        arcs = ((end, at_end), (middle, between), (side, at_side))
        farthest = _farthest_from_ellipse(a, b, arcs, _SAMPLES)
        return cls(length, width, end, middle, side, a - end, side - b, between, farthest)


def _half_axes(length: float, width: float) -> tuple[float, float]:
    if not 0 < width < length < math.inf:
        raise OutlineError(f"arcs make an oval of 0 < width < length, not {width:g} by {length:g}")
    return length / 2, width / 2


Arcs = tuple[tuple[float, Point], ...]
"""Radii and centres of the arcs of the quarter to the right and up, from the end to the side."""


def _four(a: float, b: float, end: float) -> Arcs:
    """Return the arcs of an end radius: that of the sides from (a − r)² + (R − b)² = (R − r)²."""
    side = (a * a - 2 * a * end + b * b) / (2 * (b - end))
    return (end, Point(a - end, 0.0)), (side, Point(0.0, b - side))


def _farthest_from_ellipse(a: float, b: float, arcs: Arcs, samples: int) -> float:
    """Return the farthest that points of a quarter of the ellipse lie from arcs about centres.

    From the end to the side; an arc reaches to the line through its centre and the next one.
    """
    worst = 0.0
    for step in range(samples + 1):
        angle = math.pi / 2 * step / samples
        point = Point(a * math.cos(angle), b * math.sin(angle))
        at = 0
        while at + 1 < len(arcs) and _past(point, arcs[at][1], arcs[at + 1][1]):
            at += 1
        radius, centre = arcs[at]
        worst = max(worst, abs(point.distance_to(centre) - radius))
    return worst


def _past(point: Point, centre: Point, following: Point) -> bool:
    """Return whether a point lies beyond the line on which two arcs meet."""
    return (centre - following).cross(point - centre) > 0
