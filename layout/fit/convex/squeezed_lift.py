"""Tops that are one ball, squeezed and turned: how they stand to the edges round them."""

from __future__ import annotations

import math
from abc import abstractmethod

import numpy as np
from numpy.typing import NDArray

from ..wood.edges import Array
from .boxes import Box
from .gauge import PowerBody, nearest_places
from .lift import Lift
from .relaxation import WIDE, Edges, Patch, Rows, nearest_all_round
from .sight import angle_of, facing, near_angle, outward, stays_between


class SqueezedLift(Lift):
    """Ovals or superellipses, in whichever unknowns."""

    def __init__(self, body: PowerBody, box: Box, patch: Patch) -> None:
        super().__init__(box, patch)
        self.body = body
        self.p = p = (box.low + box.high) / 2
        self.squeeze = np.array([math.exp(-p / 2), math.exp(p / 2)])

    @abstractmethod
    def parting(self, way: Array, feet: Array, normal: Array) -> Array:
        """Return what share of its reach along a normal keeps each top off a point; 0 if unknown.

        The normal parts the two in the middle of the box; `way` leads there to the point as seen by
        the ball, `feet` as it is, all (n, 2).
        """

    @abstractmethod
    def reaching(self, normal: Array, unit: Array) -> Array:
        """Return rows: ways of the centre along normals, and reaches by places on the ball."""

    @abstractmethod
    def holding(self, unit: Array, normal: Array) -> Array:
        """Return what share of the reach along normals places on the ball have at least."""

    def held(self, seen: Array) -> Rows:
        """Return rows by which the tops hold points.

        A top reaches as far along a normal as the place of the ball that lies farthest, so at most
        as any place does over its least share.
        """
        seen = seen[seen.any(axis=1)]
        unit = seen * self.squeeze
        unit = unit / self.body.gauge(unit)[:, None]
        normal = self.body.normals(unit) * self.squeeze
        normal /= np.hypot(normal[:, 0], normal[:, 1])[:, None]
        share = self.holding(unit, normal)
        use = share > math.cos(WIDE)
        normal, reach = normal[use], unit[use] / share[use, None]
        return Rows(-self.reaching(normal, reach), -(normal * seen[use]).sum(axis=1))

    def contacts(self, local: Edges, cap: float) -> Rows:
        """Return a half-plane for each of the nearest edges all round."""
        body, squeeze = self.body, self.squeeze
        places = nearest_places(body, local.ends * squeeze)
        distance = body.gauge(places)
        chosen = nearest_all_round(places, distance)
        chosen = chosen[distance[chosen] > 1e-6]
        ends, distance = local.ends[chosen], distance[chosen]
        outermost = local.outermost[chosen] & (ends[:, 0] != ends[:, 1]).any(axis=1)
        way = places[chosen] / distance[:, None]
        feet = places[chosen] / squeeze
        normal, flat, parting = outward(ends), outermost.copy(), np.ones(len(way))
        within = np.flatnonzero(~outermost)
        if len(within):
            normal[within] = facing(ends[within])
            flat[within] = self._lies_along(ends[within], normal[within])
            round_it = np.flatnonzero(~flat)
            parted = body.normals(way[round_it]) * squeeze
            normal[round_it] = parted / np.hypot(parted[:, :1], parted[:, 1:])
            parting[round_it] = self.parting(
                way[round_it] * distance[round_it, None], feet[round_it], normal[round_it]
            )
        way[flat] = body.touch(normal[flat] / squeeze).places
        use = parting > 0
        limits = np.einsum("ij,ij->i", normal, np.where(flat[:, None], ends[:, 0], feet))
        return Rows(self.reaching(normal[use], way[use] * parting[use, None]), limits[use])

    def _lies_along(self, local: Array, normal: Array) -> NDArray[np.bool_]:
        """Return which edges a top of the box can only touch between their ends.

        Where the normal lies at ω + φ, the touching point lies in the direction σ + φ, with
        tan σ = tan(ω)^(q−1) / kᵠ and k the ratio: σ turns with ω, and one way with k.
        """
        q = self.body.exponent / (self.body.exponent - 1)
        lean, delta = angle_of(normal), self.box.half_turn
        ratios = np.exp([self.box.low, self.box.high])
        turned = lean + np.array([[-delta], [delta]])
        (first, last), (also_first, also_last) = _touching(turned, ratios[:, None, None], q) - lean
        slides = np.minimum(first, also_first) - delta, np.maximum(last, also_last) + delta
        return stays_between(local, normal, slides, self.patch)


def _touching(omega: Array, ratio: Array, q: float) -> Array:
    """Return the direction of the point of superellipses with their normal at ω."""
    cos, sin = np.cos(omega), np.sin(omega)
    x = np.sign(cos) * np.abs(cos) ** (q - 1) * ratio**q
    seen = np.arctan2(np.sign(sin) * np.abs(sin) ** (q - 1), x)
    return near_angle(seen, omega)
