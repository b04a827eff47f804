"""Half-planes for the superellipses of a box.

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
from numpy.typing import NDArray

from .aims import Figure, Figures
from .boxes import Box
from .gauge import PowerBody, nearest_places
from .pose import Array, turned
from .relaxed import WIDE, Edges, HalfPlanes, Patch, nearest_all_round
from .sight import angle_of, directions, facing, near_angle, outward, stays_between

_PARTS = 4
"""Parts of the spans of turn and shape, in each of which u and z are bounded apart."""


def superellipse_half_planes(
    body: PowerBody, box: Box, patch: Patch, edges: Edges, cap: float
) -> HalfPlanes:
    """Return half-planes that all superellipses of a box obey whose centres lie in a patch.

    Parameters
    ----------
    edges : Edges
        Any of the wood's; the more, the sharper.
    cap : float
        No superellipse of the box has a greater radius, mm.
    """
    contacts = _contacts(body, box, patch, edges)
    shapes = _shapes(box)
    long, wide = cap * math.exp(box.high / 2), cap * math.exp(-box.low / 2)
    sine = math.sin(min(box.half_turn, math.pi / 2))
    return HalfPlanes(
        np.vstack([contacts[0], shapes]),
        np.concatenate([contacts[1], np.zeros(len(shapes))]),
        np.array([-patch.along, -patch.across, 0.0, 0.0, -long * sine, -wide * sine]),
        np.array([patch.along, patch.across, long, wide, long * sine, wide * sine]),
    )


def _shapes(box: Box) -> Array:
    """Return rows, with limit 0, that keep M within the turns and ratios of the box.

    With k the ratio, l sin φ is k w sin φ: within half its span of k in the middle.
    """
    least, most = math.exp(box.low), math.exp(box.high)
    rows = [[0.0, 0.0, 1.0, -most, 0.0, 0.0], [0.0, 0.0, -1.0, least, 0.0, 0.0]]
    if box.half_turn < math.pi / 4:
        lean, middle = math.tan(box.half_turn), (least + most) / 2
        spread = (most - least) / 2 * lean
        for side in (1.0, -1.0):
            rows.append([0.0, 0.0, -lean, 0.0, side, 0.0])
            rows.append([0.0, 0.0, 0.0, -lean, 0.0, side])
            rows.append([0.0, 0.0, 0.0, -spread, side, -side * middle])
    return np.array(rows)


def _contacts(body: PowerBody, box: Box, patch: Patch, edges: Edges) -> tuple[Array, Array]:
    """Return a half-plane for each of the nearest edges all round."""
    p = (box.low + box.high) / 2
    squeeze = np.array([math.exp(-p / 2), math.exp(p / 2)])
    local = turned(edges.ends - patch.middle, box.turn)
    places = nearest_places(body, local * squeeze)
    distance = body.gauge(places)
    chosen = nearest_all_round(places, distance)
    chosen = chosen[distance[chosen] > 1e-6]
    local, outermost = local[chosen], edges.outermost[chosen]
    way = places[chosen] / distance[chosen][:, None]
    feet = places[chosen] / squeeze
    normal = body.normals(way) * squeeze
    lies = _lies_along(body, box, patch, local)
    flat = lies | outermost
    normal[flat] = np.where(outermost[:, None], outward(local), facing(local))[flat]
    normal /= np.hypot(normal[:, 0], normal[:, 1])[:, None]
    way[flat] = body.touch(normal[flat] / squeeze).places
    parting = np.ones(len(way))
    parting[~flat] = _parting(body, box, patch, feet[~flat], normal[~flat])
    use = parting > 0
    limits = np.einsum("ij,ij->i", normal, np.where(flat[:, None], local[:, 0], feet))
    return _rows(normal[use], way[use] * parting[use, None]), limits[use]


def _rows(normal: Array, unit: Array) -> Array:
    """Return ν·(way of the centre) + ŝ·Mᵀν as rows."""
    return np.stack(
        [
            normal[:, 0],
            normal[:, 1],
            unit[:, 0] * normal[:, 0],
            unit[:, 1] * normal[:, 1],
            unit[:, 0] * normal[:, 1],
            -unit[:, 1] * normal[:, 0],
        ],
        axis=1,
    )


def _stretched(angle: Array, stretch: Array | float) -> Array:
    """Return the directions after y has grown against x by a factor: each stays in its quarter."""
    seen = np.arctan2(stretch * np.sin(angle), np.cos(angle))
    return near_angle(seen, angle)


def _parting(body: PowerBody, box: Box, patch: Patch, feet: Array, normal: Array) -> Array:
    """Return the least ψ for each point and its normal; 0 where none is known."""
    *seen, known = directions(patch, feet)
    leans = near_angle(angle_of(normal), angle_of(feet))
    turns = np.linspace(-box.half_turn, box.half_turn, _PARTS + 1)
    shapes = np.exp(np.linspace(box.low, box.high, _PARTS + 1))
    # (point, part of the turns, part of the shapes)
    first, last = turns[:-1, None], turns[1:, None]
    slim, long = shapes[:-1], shapes[1:]
    u = (
        _extreme(leans[:, None, None] - last, 1 / slim, 1 / long, np.minimum),
        _extreme(leans[:, None, None] - first, 1 / slim, 1 / long, np.maximum),
    )
    z = (
        _extreme(seen[0][:, None, None] - last, slim, long, np.minimum),
        _extreme(seen[1][:, None, None] - first, slim, long, np.maximum),
    )
    normals, ways = (
        [_unit(body.dual, angle) for angle in u],
        [_unit(body.gauge, angle) for angle in z],
    )
    least = np.min([(a * b).sum(axis=-1) for a in normals for b in ways], axis=0)
    wide = np.maximum(u[1] - z[0], z[1] - u[0]) < math.pi / 2
    psi: Array = np.where(known, np.where(wide, least, 0.0).min(axis=(1, 2)), 0.0)
    return psi


def _unit(norm: Callable[[Array], Array], angle: Array) -> Array:
    """Return ways in the given directions, of norm 1."""
    ways = np.stack([np.cos(angle), np.sin(angle)], axis=-1)
    unit: Array = ways / norm(ways)[..., None]
    return unit


def _extreme(angle: Array, one: Array, other: Array, choose: np.ufunc) -> Array:
    """Return the least or greatest direction between two stretches of a direction."""
    chosen: Array = choose(_stretched(angle, one), _stretched(angle, other))
    return chosen


def _lies_along(body: PowerBody, box: Box, patch: Patch, local: Array) -> NDArray[np.bool_]:
    """Return which edges a top of the box can only touch between their ends.

    Where the normal lies at ω + φ, the touching point lies in the direction σ + φ, with
    tan σ = tan(ω)^(q−1) / kᵠ and k the ratio: σ turns with ω, and one way with k.
    """
    q = body.exponent / (body.exponent - 1)
    normal = facing(local)
    lean, delta = angle_of(normal), box.half_turn
    ratios = math.exp(box.low), math.exp(box.high)
    first = np.minimum(*(_touching(lean - delta, k, q) for k in ratios)) - lean - delta
    last = np.maximum(*(_touching(lean + delta, k, q) for k in ratios)) - lean + delta
    return stays_between(local, normal, (first, last), patch)


def _touching(omega: Array, ratio: float, q: float) -> Array:
    """Return the direction of the point of a superellipse with its normal at ω."""
    cos, sin = np.cos(omega), np.sin(omega)
    x = np.sign(cos) * np.abs(cos) ** (q - 1) * ratio**q
    seen = np.arctan2(np.sign(sin) * np.abs(sin) ** (q - 1), x)
    return near_angle(seen, omega)


def superellipse_figures(unit_area: float, box: Box, likely: tuple[float, float]) -> Figures:
    """Return figures for the half sizes and the area of the superellipses of a box.

    l lies between l cos φ and that over cos δ, w likewise; l w is never more than the square of
    half (g l + w / g), for any g.
    """
    stretch = 1 / math.cos(box.half_turn)
    long, wide = np.array([1.0, 0.0, 0.0, 0.0]), np.array([0.0, 1.0, 0.0, 0.0])
    g = math.sqrt(likely[1] / likely[0])
    return Figures(
        long_over=Figure(long * stretch, 0.0),
        long_under=Figure(long, 0.0),
        wide_over=Figure(wide * stretch, 0.0),
        wide_under=Figure(wide, 0.0),
        root_area=Figure((g * long + wide / g) / 2 * stretch, 0.0),
        unit_area=unit_area,
    )


def superellipse_at(box: Box, step: Array) -> tuple[float, float]:
    """Return the turn and the shape number of a solution of the half-planes."""
    long, wide, lean = float(step[2]), float(step[3]), float(step[4] + step[5])
    if long <= 0 or wide <= 0:
        return box.turn, (box.low + box.high) / 2
    turn = math.atan2(lean, long + wide)
    turn = min(max(turn, -box.half_turn), box.half_turn)
    return box.turn + turn, min(max(math.log(long / wide), box.low), box.high)


def superellipse_held_rows(body: PowerBody, box: Box, seen: Array) -> tuple[Array, Array]:
    """Return rows by which the superellipses of a box hold points.

    As an oval does in the dual norm: ν·P − ν·c <= ŝ·Mᵀν / ψ, ψ the least of ŝ·u / ‖u‖ over the ways
    u that Mᵀν can point. As u turns away from where ŝ touches, to either side, the quotient falls.
    """
    p, power = (box.low + box.high) / 2, body.exponent
    dual = power / (power - 1)
    squeeze = np.array([math.exp(-p / 2), math.exp(p / 2)])
    known = seen.any(axis=1)
    seen, z = seen[known], seen[known] * squeeze
    z = z / (np.abs(z) ** power).sum(axis=1)[:, None] ** (1 / power)
    normal = np.sign(z) * np.abs(z) ** (power - 1) * squeeze
    normal /= np.hypot(normal[:, 0], normal[:, 1])[:, None]
    alpha, psi = np.arctan2(normal[:, 1], normal[:, 0]), np.ones(len(z))
    for lean in (-box.half_turn, box.half_turn):
        for shape in (box.low, box.high):
            x, y = np.cos(alpha - lean), math.exp(-shape) * np.sin(alpha - lean)
            long = (np.abs(x) ** dual + np.abs(y) ** dual) ** (1 / dual)
            psi = np.minimum(psi, (z[:, 0] * x + z[:, 1] * y) / long)
    use = psi > math.cos(WIDE)
    seen, normal, s = seen[use], normal[use], z[use] / psi[use, None]
    n1, n2 = normal.T
    rows = np.column_stack([-normal, -s[:, 0] * n1, -s[:, 1] * n2, -s[:, 0] * n2, s[:, 1] * n1])
    return rows, -(normal * seen).sum(axis=1)
