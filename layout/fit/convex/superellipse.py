"""Superellipses of a given exponent: turn and ratio outside, place and size inside.

What ovals are for circles they are for balls of the n-norm, which are not idle to turn. One is
{c + M s : ‖s‖ₙ <= 1}, M = (l cos φ, −w sin φ; l sin φ, w cos φ), and these four are the unknowns.
"""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np

from ...errors import LayoutError
from ...outlines import Superellipse
from ..wood.edges import Array
from .gauge import PowerBody
from .kind import Kind
from .lift import Figures, Rows
from .oval import OvalKind, OvalLift
from .sight import angle_of, directions, near_angle

_TURN_PARTS = 8
"""Of the span of turns, in each of which u and z are bounded apart."""


class SuperellipseLift(OvalLift):
    """Superellipses by l cos φ, w cos φ, l sin φ and w sin φ."""

    kind: SuperellipseKind

    def span(self, cap: float) -> tuple[Rows, Array, Array]:
        """Return rows, with limit 0, that keep M within the turns and ratios, and its bounds.

        With k the ratio, l sin φ is k w sin φ: within half its span of k in the middle.
        """
        box = self.box
        least, most = math.exp(box.low), math.exp(box.high)
        rows = [[0.0, 0.0, 1.0, -most, 0.0, 0.0], [0.0, 0.0, -1.0, least, 0.0, 0.0]]
        if box.half_turn < math.pi / 4:
            lean, middle = math.tan(box.half_turn), (least + most) / 2
            spread = (most - least) / 2 * lean
            for side in (1.0, -1.0):
                rows.append([0.0, 0.0, -lean, 0.0, side, 0.0])
                rows.append([0.0, 0.0, 0.0, -lean, 0.0, side])
                rows.append([0.0, 0.0, 0.0, -spread, side, -side * middle])
        sizes = cap * np.array([math.exp(box.high / 2), math.exp(-box.low / 2)])
        aside = sizes * math.sin(min(box.half_turn, math.pi / 2))
        within = Rows(np.array(rows), np.zeros(len(rows)))
        return within, np.append(np.zeros(2), -aside), np.append(sizes, aside)

    def figures(self, cap: float, likely: tuple[float, float], lipping: float) -> Figures:
        """Return figures for the half sizes and the area.

        l lies between l cos φ and that over cos δ, w likewise; l w is never more than the square of
        half (g l + w / g), for any g.
        """
        stretch = 1 / math.cos(self.box.half_turn)
        under = np.eye(2, 5)
        g = math.sqrt(likely[1] / likely[0])
        root = np.array([g, 1 / g]) @ under / 2 * stretch * math.sqrt(self.kind.unit_area)
        return Figures(stretch * under, under, root)

    def pose(self, step: Array) -> tuple[float, float]:
        """Return how far a solution of the half-planes leans off the box's turn, and its shape."""
        long, wide, lean = float(step[2]), float(step[3]), float(step[4] + step[5])
        if long <= 0 or wide <= 0:
            return 0.0, self.p
        return math.atan2(lean, long + wide), math.log(long / wide)

    def parting(self, feet: Array, normal: Array) -> Array:
        """Return the least ψ for each point and its normal; 0 where none is known.

        It is least at the least or the greatest p: both norms are log-convex in it, their u·z is
        what it is. In each part of the turns u and z are bounded apart.
        """
        *seen, known = directions(self.patch, feet)
        box, lean = self.box, near_angle(angle_of(normal), angle_of(feet))
        turns = np.linspace(-box.half_turn, box.half_turn, _TURN_PARTS + 1)
        shapes = np.exp([box.low, box.high])
        u = _between(lean, lean, turns, 1 / shapes)
        z = _between(seen[0], seen[1], turns, shapes)
        normals, ways = _unit(self.body.dual, u), _unit(self.body.gauge, z)
        least = np.min([(a * b).sum(axis=-1) for a in normals for b in ways], axis=0)
        wide = np.maximum(u[1] - z[0], z[1] - u[0]) < math.pi / 2
        psi: Array = np.where(known, np.where(wide, least, 0.0).min(axis=(1, 2)), 0.0)
        return psi

    def holding(self, unit: Array, normal: Array) -> Array:
        """Return the least of ŝ·u / ‖u‖ over the ways u that Mᵀν can point.

        As u turns away from where ŝ touches, to either side, the quotient falls.
        """
        box, alpha, psi = self.box, angle_of(normal), np.ones(len(unit))
        for lean in (-box.half_turn, box.half_turn):
            for shape in (box.low, box.high):
                u = np.stack(
                    [np.cos(alpha - lean), math.exp(-shape) * np.sin(alpha - lean)], axis=1
                )
                psi = np.minimum(psi, (unit * u).sum(axis=1) / self.body.dual(u))
        return psi

    def reaching(self, normal: Array, unit: Array) -> Array:
        """Return ν·(way of the centre) + ŝ·Mᵀν as rows."""
        across, up = unit[:, 0] * normal[:, 1], -unit[:, 1] * normal[:, 0]
        return np.column_stack([normal, unit * normal, across, up])


def _between(low: Array, high: Array, turns: Array, stretches: Array) -> Array:
    """Return between which directions, (2, n, t, k), spans lie in parts of turns, stretched.

    After y has grown against x by a factor each direction stays in its quarter.
    """
    spans = np.stack([low[:, None] - turns[1:], high[:, None] - turns[:-1]])[..., None]
    x, y = np.cos(spans), np.sin(spans)
    stretched: Array = near_angle(np.arctan2(y * stretches, x), spans)
    return stretched


def _unit(norm: Callable[[Array], Array], angle: Array) -> Array:
    """Return ways in the given directions, of norm 1."""
    ways = np.stack([np.cos(angle), np.sin(angle)], axis=-1)
    unit: Array = ways / norm(ways)[..., None]
    return unit


class SuperellipseKind(OvalKind):
    """Superellipses of any ratio; the radius is the root of half length times half width."""

    name = "superellipse"
    pace = 1.2
    periods = (math.pi / 2, math.pi)
    lifted = SuperellipseLift
    leans = Kind.leans

    def __init__(self, exponent: float) -> None:
        self.body = PowerBody(exponent)
        self.unit_area = Superellipse(2.0, 2.0, exponent).area

    def rim(self, lipping: float) -> tuple[float, float]:
        """Return nothing: the line that far inside a superellipse is none itself."""
        if lipping > 0:
            raise LayoutError("a lipping cannot be bent round a superellipse: leave it out")
        return 0.0, 0.0
