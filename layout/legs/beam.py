"""The top as a plain beam on two supports, both its ends overhanging: a figure to check sag by.

Closed forms of the elementary beam (Euler and Bernoulli); moments and deflections by superposition
of the handbook cases. A deflection counts downwards.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field

from ..errors import LegsError

AIRY = (1 - 1 / math.sqrt(3)) / 2
"""Supports this share of the length from each end leave the ends of a bar level (Airy)."""

LEAST_MOMENT = (math.sqrt(2) - 1) / 2
"""At this share the greatest bending moment is least: w·a²/2 = w(l²/8 − a²/2)."""


@dataclass(frozen=True, slots=True)
class OverhangingBeam:
    """An even beam on two supports, the same overhang at both ends.

    Attributes
    ----------
    length : float
        Over all, mm.
    overhang : float
        From each end to its support, mm, from 0 to below half the length.
    stiff : float
        E·I, N·mm².

    Raises
    ------
    LegsError
        If the overhang is out of its limits.
    """

    length: float
    overhang: float
    stiff: float = field(metadata={"unit": "N*mm2"})

    def __post_init__(self) -> None:
        if not 0 <= self.overhang < self.length / 2:
            raise LegsError(
                f"a beam {self.length:g} mm long overhangs from 0 to below half its length, "
                f"not {self.overhang:g} mm"
            )

    @property
    def span(self) -> float:
        """Between the supports, mm."""
        return self.length - 2 * self.overhang

    def middle_under(self, load: float) -> float:
        """Return how far the middle goes down under an even load, N/mm: mm.

        w l² (5 l² − 24 a²)/(384 EI): the simple beam less what the overhangs lift.
        """
        a, span = self.overhang, self.span
        return load * span**2 * (5 * span**2 - 24 * a**2) / (384 * self.stiff)

    def tip_under(self, load: float) -> float:
        """Return how far the tips go down under an even load, N/mm: mm; negative where they rise.

        w a (3 a² (a + 2 l) − l³)/(24 EI).
        """
        a, span = self.overhang, self.span
        return load * a * (3 * a**2 * (a + 2 * span) - span**3) / (24 * self.stiff)

    def tip_slope_under(self, load: float) -> float:
        """Return how steeply the tips lean under an even load, N/mm: radians, down outwards.

        w (4 a³ + 6 a² l − l³)/(24 EI): none at the Airy points.
        """
        a, span = self.overhang, self.span
        return load * (4 * a**3 + 6 * a**2 * span - span**3) / (24 * self.stiff)

    def tip_under_force(self, force: float) -> float:
        """Return how far one tip goes down under a force on it alone, N: mm.

        P a² (a + l)/(3 EI).
        """
        return force * self.overhang**2 * self.length_to_far_support / (3 * self.stiff)

    @property
    def length_to_far_support(self) -> float:
        """From a tip to the support beyond, mm."""
        return self.overhang + self.span

    def moment_at_support(self, load: float) -> float:
        """Return the bending moment over a support under an even load, N·mm; it hogs."""
        return -load * self.overhang**2 / 2

    def moment_in_middle(self, load: float) -> float:
        """Return the bending moment in the middle under an even load, N·mm."""
        return load * self.span**2 / 8 + self.moment_at_support(load)
