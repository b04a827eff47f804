"""What swings a curve: the string compass, the trammel rod, and ordinates to check them by."""

from __future__ import annotations

from dataclasses import dataclass

from ..geometry.point import Point
from ..outlines.base import require_sizes


@dataclass(frozen=True, slots=True)
class StringCompass:
    """A string, or a trammel bar, from a centre to the pencil."""

    centres: tuple[str, ...]
    """Labels of the marks that it swings about."""
    radius: float
    """To the finish line, mm."""
    core_radius: float
    """To the core line inside a lipping, mm; the same where there is none."""


@dataclass(frozen=True, slots=True)
class Swing:
    """A radius and the centres that it is swung about."""

    radius: float
    """mm."""
    centres: tuple[Point, ...]
    """From the middle of the top, mm."""
    hollow: bool = False
    """Whether they lie outside the top: its core then has the larger radius."""

    def core_radius(self, lipping: float) -> float:
        """Return the radius of the core line inside a lipping, mm; none is left where below 0."""
        return self.radius + lipping if self.hollow else self.radius - lipping


@dataclass(frozen=True, slots=True)
class TrammelRod:
    """A rod with two pins that run along the two axes while its end draws the oval.

    Pencil to one pin is half the width, to the other half the length (Rose, *Mechanical Drawing
    Self-Taught*, 1883, fig. 83; Hatfield, *The American House-Carpenter*, art. 549).
    """

    to_long_axis_pin: float
    """From the pencil to the pin that runs on the long axis: half the width, mm."""
    to_short_axis_pin: float
    """From the pencil to the pin that runs on the short axis: half the length, mm."""

    @classmethod
    def for_oval(cls, length: float, width: float) -> TrammelRod:
        """Return the rod of an oval `length` by `width`, mm.

        Raises
        ------
        OutlineError
            If not ``0 < width <= length``.
        """
        require_sizes("an oval", length, width)
        return cls(width / 2, length / 2)

    @property
    def pins_apart(self) -> float:
        """Distance between the pins, mm: the arms of a framing square must reach as far."""
        return self.to_short_axis_pin - self.to_long_axis_pin


@dataclass(frozen=True, slots=True)
class Ordinate:
    """How far out from the middle along the long axis, and how far up from it, mm."""

    out: float
    up: float


_TRIPLES = ((0.6, 0.8), (0.8, 0.6), (0.96, 0.28))
"""Shares of the half-axes that are exact: sides of right triangles 3-4-5 and 7-24-25."""


def oval_checks(length: float, width: float) -> tuple[Ordinate, ...]:
    """Return three points of a quarter of an oval that prove its line, mm.

    >>> oval_checks(50.0, 30.0)[0]
    Ordinate(out=15.0, up=12.0)
    """
    return tuple(Ordinate(out * length / 2, up * width / 2) for out, up in _TRIPLES)
