"""Superellipses of a given exponent: turn and ratio outside, place and size inside.

Turned back and squeezed like an oval's, the wood sees every superellipse of one turn and ratio as a
ball of the n-norm: the largest about a centre is found by the gauge of that ball. The shape number
p is ln(length / width). Where the oval's circle is idle to turn, this ball is not.
"""

from __future__ import annotations

import math
from functools import partial

import numpy as np

from ...errors import LayoutError
from ...outlines import Superellipse
from ..goal import Figure
from ..wood.edges import Array
from .gauge import PowerBody
from .kind import Growth
from .marks import contacts_of, first_met, local_of, marks_before
from .oval import OvalKind
from .pose import Contacts, Pose
from .sight import angle_of
from .superellipse_lift import SuperellipseLift

_PARTS = 96
"""Of a quarter of the ball, between which its swelling is bounded."""

_SHARES = np.array([1e-6, 1e-4, 0.003, 0.03, 0.15, 0.5, 0.85, 0.97, 0.997, 1 - 1e-4, 1 - 1e-6])
"""Where the marks lie on a quarter of the unit ball: shares of |y|ⁿ in |x|ⁿ + |y|ⁿ, dense towards
its axes, where for a high exponent the edge is all but straight."""


class SuperellipseKind(OvalKind):
    """Superellipses of any ratio; the radius is the root of half length times half width."""

    name = "superellipse"
    pace = 1.2
    periods = (math.pi / 2, math.pi)

    def __init__(self, exponent: float) -> None:
        self.exponent = exponent
        self.body = PowerBody(exponent)
        self.unit_area = Superellipse(2.0, 2.0, exponent).area
        self.lift = partial(SuperellipseLift, self.body, self.unit_area)
        share = np.sin(np.linspace(0.0, math.pi / 2, _PARTS + 1)) ** 2
        least, most = share[:-1], share[1:]
        self._lean = np.maximum(np.abs(1 - 2 * least), np.abs(1 - 2 * most))
        a, b = 1 - 1 / exponent, 1 / exponent
        self._along = ((1 - most) ** a * least**b, (1 - least) ** a * most**b)
        self._across = (least**a * (1 - most) ** b, most**a * (1 - least) ** b)

    def rim(self, lipping: float) -> tuple[float, float]:
        """Return nothing: the line that far inside a superellipse is none itself."""
        if lipping > 0:
            raise LayoutError("a lipping cannot be bent round a superellipse: leave it out")
        return 0.0, 0.0

    def area(self, half_length: Figure, half_width: Figure) -> Figure:
        """Return the area, mm² (Dirichlet's integral)."""
        return self.unit_area * half_length * half_width

    def growth(self, low: float, high: float, half_turn: float) -> Growth:
        """Return how a radius follows for all between these shapes and so far turned.

        From the middle of the box to any other top of it leads a path on which turn and shape
        change evenly. Where x on the ball has |x|ⁿ = 1 − s and |y|ⁿ = s, its norm then grows at
        most at the rate

            κ/2 |1 − 2 s| + δ |e⁻ᵖ (1 − s)ᵃ sᵇ − eᵖ sᵃ (1 − s)ᵇ|,    a = 1 − 1/n, b = 1/n,

        δ and κ being half the spans of turns and of shapes, so it grows at most by the exponential
        of the greatest rate (the logarithmic norm of the map; Dahlquist 1958, from memory). For
        large boxes the norm between the 1-norm and the greatest entry is less (Riesz and Thorin).
        """
        kappa = (high - low) / 2
        rates = [self._swing(p) for p in (low, high)]
        rate = float((kappa / 2 * self._lean + half_turn * np.maximum(*rates)).max())
        sine = math.sin(min(half_turn, math.pi / 2))
        straight, bent = math.exp(kappa / 2), math.exp((low + high) / 2 + kappa / 2) * sine
        return Growth((low + high) / 2, min(math.exp(min(rate, 50.0)), straight + bent), 0.0)

    def _swing(self, p: float) -> Array:
        """Return the greatest rate of the turn in each part of the quarter."""
        stretch = math.exp(p)
        one = self._along[1] / stretch - self._across[0] * stretch
        other = self._across[1] * stretch - self._along[0] / stretch
        rates: Array = np.maximum(one, other)
        return rates

    def contacts(self, pose: Pose, edges: Array) -> Contacts:
        """Return where each edge is met first, and how marks beside that place stand to it."""
        axes, local = np.array([pose.half_length, pose.half_width]), local_of(pose, edges)
        first, marks = first_met(self.body, pose, local), marks_of(self.body)
        after = np.searchsorted(angle_of(marks), angle_of(first.places / axes)) % len(marks)
        beside = [marks_before(local, marks[after - i] * axes, pose, first.clear) for i in (0, 1)]
        return contacts_of([first, *beside], pose)


def marks_of(body: PowerBody) -> Array:
    """Return places on the unit ball by rising direction, (n, 2)."""
    quarter = np.stack([1 - _SHARES, _SHARES], axis=1) ** (1 / body.exponent)
    signs = np.array([[1, 1], [-1, 1], [-1, -1], [1, -1]])
    marks: Array = (quarter[None] * signs[:, None]).reshape(-1, 2)
    return marks[np.argsort(angle_of(marks))]
