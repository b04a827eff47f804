"""The superellipses of a box as matrices.

A superellipse is {c + M s : ‖s‖ₙ <= 1}, M = (l cos φ, −w sin φ; l sin φ, w cos φ) in the frame of
the box; l cos φ, w cos φ, l sin φ and w sin φ are the unknowns. It lies on its side of a line with
normal ν when ν·(point − c) >= ‖Mᵀν‖ in the dual norm, which is at least ŝ·Mᵀν for any ŝ of norm 1:
a half-plane, sharp where ŝ is the place that touches in the middle of the box.

A point P outside is taken with the normal ν that parts it in the middle of the box. Seen from
another top of the box, as a unit ball, P lies at z = M⁻¹(P − c) and the normal is u = Mᵀν. With

    ψ = u·z / (‖u‖ ‖z‖),    ν·(P − c) = u·z >= ψ ‖u‖.

ψ is 1 where u is the normal of the ball towards z. For a given z it falls as u turns away to either
side, and the same for a given u, so that over spans of both it is least where both are at an end.
"""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np

from ..wood.edges import Array
from .aims import Figures
from .boxes import Box
from .gauge import PowerBody
from .relaxation import Patch, Rows
from .sight import angle_of, directions, near_angle
from .squeezed_lift import SqueezedLift

_PARTS = 4
"""Parts of the spans of turn and shape, in each of which u and z are bounded apart."""


class SuperellipseLift(SqueezedLift):
    """Superellipses by l cos φ, w cos φ, l sin φ and w sin φ."""

    def __init__(self, body: PowerBody, unit_area: float, box: Box, patch: Patch) -> None:
        super().__init__(body, box, patch)
        self.unit_area = unit_area

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

    def parting(self, way: Array, feet: Array, normal: Array) -> Array:
        """Return the least ψ for each point and its normal; 0 where none is known."""
        body, box = self.body, self.box
        *seen, known = directions(self.patch, feet)
        leans = near_angle(angle_of(normal), angle_of(feet))
        turns = np.linspace(-box.half_turn, box.half_turn, _PARTS + 1)
        shapes = np.exp(np.linspace(box.low, box.high, _PARTS + 1))
        u = _between(leans, leans, turns, 1 / shapes)
        z = _between(seen[0], seen[1], turns, shapes)
        normals, ways = _unit(body.dual, u), _unit(body.gauge, z)
        least = np.min([(a * b).sum(axis=-1) for a in normals for b in ways], axis=0)
        wide = np.maximum(u[1] - z[0], z[1] - u[0]) < math.pi / 2
        psi: Array = np.where(known, np.where(wide, least, 0.0).min(axis=(1, 2)), 0.0)
        return psi

    def figures(self, cap: float, likely: tuple[float, float], lipping: float) -> Figures:
        """Return figures for the half sizes and the area.

        l lies between l cos φ and that over cos δ, w likewise; l w is never more than the square of
        half (g l + w / g), for any g.
        """
        stretch = 1 / math.cos(self.box.half_turn)
        long, wide = np.eye(2, 5)
        g = math.sqrt(likely[1] / likely[0])
        return Figures(
            long_over=long * stretch,
            long_under=long,
            wide_over=wide * stretch,
            wide_under=wide,
            root_area=(g * long + wide / g) / 2 * stretch,
            unit_area=self.unit_area,
        )

    def pose(self, step: Array) -> tuple[float, float]:
        """Return the turn and the shape number of a solution of the half-planes."""
        box = self.box
        long, wide, lean = float(step[2]), float(step[3]), float(step[4] + step[5])
        if long <= 0 or wide <= 0:
            return box.turn, self.p
        return self.turned(math.atan2(lean, long + wide)), min(
            max(math.log(long / wide), box.low), box.high
        )

    def holding(self, unit: Array, normal: Array) -> Array:
        """Return the least of ŝ·u / ‖u‖ over the ways u that Mᵀν can point.

        As u turns away from where ŝ touches, to either side, the quotient falls.
        """
        box, alpha, psi = self.box, angle_of(normal), np.ones(len(unit))
        for lean in (-box.half_turn, box.half_turn):
            for shape in (box.low, box.high):
                x, y = np.cos(alpha - lean), math.exp(-shape) * np.sin(alpha - lean)
                long = self.body.dual(np.stack([x, y], axis=1))
                psi = np.minimum(psi, (unit[:, 0] * x + unit[:, 1] * y) / long)
        return psi

    def reaching(self, normal: Array, unit: Array) -> Array:
        """Return ν·(way of the centre) + ŝ·Mᵀν as rows."""
        across, up = unit[:, 0] * normal[:, 1], -unit[:, 1] * normal[:, 0]
        return np.column_stack([normal, unit * normal, across, up])


def _between(low: Array, high: Array, turns: Array, stretches: Array) -> Array:
    """Return between which directions, (2, n, t, k), spans lie in parts of turns and stretches.

    After y has grown against x by a factor each direction stays in its quarter.
    """
    spans = np.stack([low[:, None] - turns[1:], high[:, None] - turns[:-1]])[..., None]
    x, y = np.cos(spans), np.sin(spans)
    one, other = (near_angle(np.arctan2(y * k, x), spans) for k in (stretches[:-1], stretches[1:]))
    return np.stack([np.minimum(one[0], other[0]), np.maximum(one[1], other[1])])


def _unit(norm: Callable[[Array], Array], angle: Array) -> Array:
    """Return ways in the given directions, of norm 1."""
    ways = np.stack([np.cos(angle), np.sin(angle)], axis=-1)
    unit: Array = ways / norm(ways)[..., None]
    return unit
