"""Large arcs from span and rise: radius, ordinates, arch trammel, and a lath with its error."""

from __future__ import annotations

import math
from dataclasses import dataclass, field

import numpy as np

from ..errors import OutlineError
from ..geometry import ORIGIN, Arc, Point, at_least
from .instruments import Ordinate


@dataclass(frozen=True, slots=True)
class LargeArc:
    """An arc by its chord (span) and its rise."""

    chord: float
    rise: float
    """mm."""
    radius: float
    """c²/(8h) + h/2 (Hatfield, *The American House-Carpenter*, art. 518), mm."""
    centre_below: float
    """From the middle of the chord to the centre, away from the arc, mm; negative where the arc is
    more than half a circle."""
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
        """Return the flat arc over `chord` with this radius, mm.

        Raises an OutlineError if the chord is longer than the diameter, or a length is not above 0.
        """
        if not 0 < chord <= 2 * radius < math.inf:
            raise OutlineError(
                f"an arc needs 0 < chord <= 2 × radius, not {chord:g} and {radius:g}"
            )
        half = chord / 2
        # as a quotient, since a very flat arc would lose its rise in a difference
        return cls.from_chord_and_rise(
            chord, half**2 / (radius + math.sqrt(max((radius - half) * (radius + half), 0.0)))
        )

    @classmethod
    def from_rise_and_radius(cls, rise: float, radius: float) -> LargeArc:
        """Return the arc of this radius that stands `rise` off its chord, mm.

        Raises an OutlineError if the rise is not less than the diameter, or a length is not above
        0.
        """
        if not 0 < rise < 2 * radius < math.inf:
            raise OutlineError(f"an arc needs 0 < rise < 2 × radius, not {rise:g} and {radius:g}")
        return cls.from_chord_and_rise(2 * math.sqrt(rise * (2 * radius - rise)), rise)

    @property
    def is_flat(self) -> bool:
        """Whether it is at most half a circle."""
        return at_least(self.centre_below, 0.0)

    def height(self, out: float) -> float:
        """Return how far it stands off the chord at `out` from the middle, mm.

        √(R² − x²) − (R − h) (Hatfield, art. 520).
        """
        return math.sqrt(max(self.radius**2 - out**2, 0.0)) - (self.radius - self.rise)

    def ordinates(self, stations: int = 6) -> tuple[Ordinate, ...]:
        """Return heights at equal stations from the middle to the end of the chord, mm.

        Raises an OutlineError if the arc is more than half a circle, or there is no station.
        """
        if stations < 1 or not self.is_flat:
            raise OutlineError("ordinates need a station, and an arc of at most half a circle")
        outs = (self.chord / 2 * i / stations for i in range(stations + 1))
        return tuple(Ordinate(out, self.height(out)) for out in outs)


@dataclass(frozen=True, slots=True)
class ArchTrammel:
    """Two laths joined stiffly that slide along two nails while a pencil in their joint draws.

    An angle on a circle over the same chord is the same everywhere (Euclid, *Elements* III.21), so
    the joint stays on the arc.
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

        A lath that is bent a little takes the shape of the natural cubic spline through its points:
        straight at its ends. Held at the ends and the crown only it lies 7.4 % of the rise inside
        a flat arc.
        """
        from scipy.interpolate import CubicSpline

        held = arc.ordinates(stations)
        xs = [-o.out for o in reversed(held)] + [o.out for o in held[1:]]
        ys = [o.up for o in reversed(held)] + [o.up for o in held[1:]]
        tried = np.linspace(xs[0], xs[-1], 40 * (len(xs) - 1) + 1)
        bent = CubicSpline(xs, ys, bc_type="natural")(tried)
        return cls(held, max(abs(y - arc.height(x)) for x, y in zip(tried, bent, strict=True)))
