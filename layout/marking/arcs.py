"""Curves of arcs: a large one from span and rise, and ovals of four or eight.

All arcs of an oval meet with a common tangent: the distance of two centres is the difference of
their radii. Half-axes are a and b. The end arcs have radius r about (±(a − r), 0), the side arcs
radius R about (0, ∓(R − b)).
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field

import numpy as np

from ..errors import OutlineError
from ..geometry import ORIGIN, Arc, Point, at_least
from ..geometry.intersect import meetings
from ..geometry.scalar import peak
from .instruments import Ordinate

_FEW_SAMPLES, _SAMPLES = 180, 720
"""Points of a quarter of the ellipse at which the distance is taken, to compare it and to tell it:
good to 1e-4 mm."""


@dataclass(frozen=True, slots=True)
class LargeArc:
    """An arc by its chord (span) and its rise."""

    chord: float
    rise: float
    radius: float
    """c²/(8h) + h/2 (Hatfield, *The American House-Carpenter*, art. 518), mm."""
    centre_below: float
    """From the middle of the chord away from the arc, mm; negative where over half a circle."""
    length: float
    """Along the arc, mm."""

    @classmethod
    def from_chord_and_rise(cls, chord: float, rise: float) -> LargeArc:
        """Return the arc over `chord` that stands `rise` off it in the middle, mm.

        Raises an OutlineError if either is not above 0.

        >>> LargeArc.from_chord_and_rise(96.0, 12.0).radius
        102.0
        """
        if not (0 < chord < math.inf and 0 < rise < math.inf):
            raise OutlineError(f"an arc needs a chord and a rise above 0, not {chord:g}, {rise:g}")
        arc = Arc.from_chord_and_rise(ORIGIN, Point(chord, 0.0), rise)
        return cls(chord, rise, arc.radius, arc.radius - rise, arc.length)

    @classmethod
    def from_chord_and_radius(cls, chord: float, radius: float) -> LargeArc:
        """Return the flat arc, mm; an OutlineError if the chord is longer than the diameter."""
        if not 0 < chord <= 2 * radius < math.inf:
            raise OutlineError(
                f"an arc needs 0 < chord <= 2 × radius, not {chord:g} and {radius:g}"
            )
        half = chord / 2
        below = math.sqrt(max((radius - half) * (radius + half), 0.0))
        # as a quotient, since a very flat arc would lose its rise in a difference
        return cls.from_chord_and_rise(chord, half**2 / (radius + below))

    @classmethod
    def from_rise_and_radius(cls, rise: float, radius: float) -> LargeArc:
        """Return the arc, mm; an OutlineError if the rise is not less than the diameter."""
        if not 0 < rise < 2 * radius < math.inf:
            raise OutlineError(f"an arc needs 0 < rise < 2 × radius, not {rise:g} and {radius:g}")
        return cls.from_chord_and_rise(2 * math.sqrt(rise * (2 * radius - rise)), rise)

    @property
    def is_flat(self) -> bool:
        """Whether it is at most half a circle."""
        return at_least(self.centre_below, 0.0)

    def height(self, out: float) -> float:
        """Return its height off the chord so far out, √(R² − x²) − (R − h), mm (Hatfield, 520)."""
        return math.sqrt(max(self.radius**2 - out**2, 0.0)) - (self.radius - self.rise)

    def ordinates(self, stations: int = 6) -> tuple[Ordinate, ...]:
        """Return heights from the middle to the end; an OutlineError where over half a circle."""
        if stations < 1 or not self.is_flat:
            raise OutlineError("ordinates need a station, and an arc of at most half a circle")
        outs = (self.chord / 2 * i / stations for i in range(stations + 1))
        return tuple(Ordinate(out, self.height(out)) for out in outs)


@dataclass(frozen=True, slots=True)
class ArchTrammel:
    """Two laths joined stiffly that slide along two nails while a pencil in their joint draws.

    An angle on a circle over one chord is the same everywhere (Euclid, *Elements* III.21).
    """

    chord: float
    rise: float
    """Between the end nails, and from there to the crown, mm."""
    angle: float = field(metadata={"unit": "rad"})
    """Between the laths, radians: that at the third nail, the crown, where it is set."""
    least_lath: float
    """A lath must reach from the pencil past its nail wherever the pencil stands: the chord, or the
    diameter where the arc is more than half a circle, mm."""

    @classmethod
    def for_arc(cls, arc: LargeArc) -> ArchTrammel:
        """Return the trammel of an arc, its nails at the ends of the chord."""
        longest = arc.chord if arc.is_flat else 2 * arc.radius
        return cls(arc.chord, arc.rise, 2 * math.atan2(arc.chord / 2, arc.rise), longest)


@dataclass(frozen=True, slots=True)
class SprungLath:
    """A thin even lath bent through points of an arc; a line is drawn along it."""

    ordinates: tuple[Ordinate, ...]
    """Where it is held, from the middle to one end, mm."""
    farthest: float
    """The farthest that it lies from the arc, mm."""

    @classmethod
    def for_arc(cls, arc: LargeArc, stations: int = 2) -> SprungLath:
        """Return the lath held in the middle and at stations to both sides.

        Bent a little it takes the shape of the natural cubic spline through its points. Held at the
        ends and the crown only it lies 7.4 % of the rise inside a flat arc.
        """
        from scipy.interpolate import CubicSpline

        held = arc.ordinates(stations)
        xs = [-o.out for o in reversed(held)] + [o.out for o in held[1:]]
        ys = [o.up for o in reversed(held)] + [o.up for o in held[1:]]
        tried = np.linspace(xs[0], xs[-1], 40 * (len(xs) - 1) + 1)
        bent = CubicSpline(xs, ys, bc_type="natural")(tried)
        return cls(held, max(abs(y - arc.height(x)) for x, y in zip(tried, bent, strict=True)))


@dataclass(frozen=True, slots=True)
class FourCentreOval:
    """Four arcs that keep the length and the width."""

    length: float
    width: float
    end_radius: float
    side_radius: float
    end_centre: float
    side_centre: float
    """From the middle along the axes to the centres of an end arc and, away from its arc, of a side
    arc; mm."""
    join: float = field(metadata={"unit": "rad"})
    """From the long axis to the line through both centres, on which the arcs meet, radians."""
    farthest_from_ellipse: float
    """The farthest that the true ellipse of the same axes lies from it, mm."""

    @classmethod
    def joined_at(cls, length: float, width: float, join: float) -> FourCentreOval:
        """Return the oval whose arcs meet on lines at `join` radians to the long axis.

        With e = a − r and f = R − b = e·tan(join), the arcs meet where R − r = e/cos(join), so
        e·(tan(join) + 1 − 1/cos(join)) = a − b. At 45° that is e = (a − b)(1 + √2/2) (Rose,
        *Mechanical Drawing Self-Taught*, 1883). Raises an OutlineError if the ends have no arc.
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
    end_radius: float
    middle_radius: float
    side_radius: float
    """b²/a, (a + b)/2, a²/b (Rose, *Mechanical Drawing Self-Taught*, 1883, figs 81, 82); mm."""
    end_centre: float
    side_centre: float
    """From the middle along the axes, as for four arcs, mm."""
    middle_centre: Point
    """Of the arc between them in the quarter to the right and up, from the middle, mm."""
    farthest_from_ellipse: float

    @classmethod
    def for_oval(cls, length: float, width: float) -> EightCentreOval:
        """Return the eight arcs; an OutlineError if not ``0 < width < length``."""
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
    """Return the farthest that points of a quarter of the ellipse lie from arcs, end to side."""
    worst = 0.0
    for step in range(samples + 1):
        angle = math.pi / 2 * step / samples
        point = Point(a * math.cos(angle), b * math.sin(angle))
        at = 0
        centre, beyond = arcs[0][1], arcs[1:]
        for _, following in beyond:
            if (centre - following).cross(point - centre) <= 0:
                break
            at, centre = at + 1, following
        worst = max(worst, abs(point.distance_to(centre) - arcs[at][0]))
    return worst
