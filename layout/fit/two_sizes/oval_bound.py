"""Half-planes for the ovals of a box.

An oval is {c + B s : |s| <= 1} with B symmetric; in the frame of the box B = (b1, b3; b3, b2). It
lies on its side of a line with normal n when n·(point − c) >= |B n|, and |B n| is at least û·B n
for any unit vector û: a half-plane in c and B, sharp where û points along B n.

A point outside the oval is taken with the normal n that parts the two in the middle of the box. For
another oval of the box that normal is off by an angle ψ, seen where the oval is a circle, so
n·(point − c) >= cos ψ |B n| still holds. With e the direction of the point there, β the tangent of
the angle by which it wanders as the centre moves, and N the map from the middle oval's circle to
the other's,

    tan ψ <= |e·NᵀN e⊥| + β |N e⊥|².
"""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from .aims import Figure, Figures
from .boxes import Box
from .pose import Array, turned
from .relaxed import WIDE, Edges, HalfPlanes, Patch, Seen, nearest_all_round, wandering


def oval_half_planes(box: Box, patch: Patch, edges: Edges, cap: float) -> HalfPlanes:
    """Return half-planes that all ovals of a box obey whose centres lie in a patch.

    Parameters
    ----------
    edges : Edges
        Any of the wood's; the more, the sharper.
    cap : float
        No oval of the box has a greater radius, mm.
    """
    contacts = _contacts(box, patch, edges)
    shapes = _shapes(box)
    stretch, narrow = math.exp(box.high / 2), math.exp(-box.low / 2)
    sine = math.sin(min(box.half_turn, math.pi / 2))
    long = cap * stretch
    wide = min(cap * narrow + long * sine * sine, long)
    skew = 0.5 * long * math.sin(min(2 * box.half_turn, math.pi / 2))
    return HalfPlanes(
        np.vstack([contacts[0], shapes]),
        np.concatenate([contacts[1], np.zeros(len(shapes))]),
        np.array([-patch.along, -patch.across, 0.0, 0.0, -skew]),
        np.array([patch.along, patch.across, long, wide, skew]),
    )


def _shapes(box: Box) -> Array:
    """Return rows, with limit 0, that keep B within the turns and ratios of the box."""
    cos2, sin2 = math.cos(box.half_turn) ** 2, math.sin(box.half_turn) ** 2
    low, high = math.exp(box.low), math.exp(box.high)
    least = (low * cos2 + sin2) / (low * sin2 + cos2)
    rows = [[0.0, 0.0, 1.0, -high, 0.0], [0.0, 0.0, -1.0, least, 0.0]]
    if box.half_turn < math.pi / 4:
        lean = math.tan(2 * box.half_turn) / 2
        rows += [[0.0, 0.0, -lean, lean, 1.0], [0.0, 0.0, -lean, lean, -1.0]]
    return np.array(rows)


def _contacts(box: Box, patch: Patch, edges: Edges) -> tuple[Array, Array]:
    """Return a half-plane for each of the nearest edges all round."""
    p = (box.low + box.high) / 2
    squeeze = np.array([math.exp(-p / 2), math.exp(p / 2)])
    seen = Seen.of(turned(edges.ends - patch.middle, box.turn) * squeeze, edges.outermost)
    seen = seen.take(nearest_all_round(seen.way, seen.distance))
    along, across = patch.along * squeeze[0], patch.across * squeeze[1]
    cosine, known = _parting(box, p, seen, along, across)
    lies = seen.outermost | _lies_along(box, seen, along, across)
    # a foot in the very middle points nowhere; leaving its half-plane out only loosens the bound
    use = (lies | known) & seen.way.any(axis=1)
    return _rows(seen.take(use), np.where(lies, 1.0, cosine)[use], squeeze)


def _rows(seen: Seen, cosine: Array, squeeze: Array) -> tuple[Array, Array]:
    """Return n·(way of the centre) + cos ψ û·B n <= n·(foot), scaled to unit normals.

    The normal is that of the oval through the foot: seen as a circle, the direction of the foot.
    """
    normal = seen.way * squeeze
    normal /= np.hypot(normal[:, 0], normal[:, 1])[:, None]
    unit = seen.way * cosine[:, None]
    rows = np.stack(
        [
            normal[:, 0],
            normal[:, 1],
            unit[:, 0] * normal[:, 0],
            unit[:, 1] * normal[:, 1],
            unit[:, 0] * normal[:, 1] + unit[:, 1] * normal[:, 0],
        ],
        axis=1,
    )
    limits = np.einsum("ij,ij->i", normal, seen.way / squeeze) * seen.distance
    return rows, limits


def _parting(
    box: Box, p: float, seen: Seen, along: float, across: float
) -> tuple[Array, NDArray[np.bool_]]:
    """Return cos ψ for the nearest point of each edge, and where it is known."""
    e = seen.way
    ahead = seen.distance - wandering(e, along, across)
    beside = wandering(np.stack([-e[:, 1], e[:, 0]], axis=1), along, across)
    kappa, delta = (box.high - box.low) / 2, box.half_turn
    sin, cos = math.sin(delta), math.cos(min(delta, math.pi / 4))
    stretched = 2 * math.sinh(kappa) + 2 * sin * sin * math.sinh(2 * p + kappa)
    sheared = 2 * min(sin, math.sqrt(0.5)) * cos * math.sinh(p + kappa)
    skew = np.abs(e[:, 0] * e[:, 1]) * stretched + np.abs(e[:, 0] ** 2 - e[:, 1] ** 2) * sheared
    known = ahead > 0
    tangent = skew + beside / np.where(known, ahead, 1.0) * most_stretch(box) ** 2
    return 1 / np.sqrt(1 + tangent * tangent), known


def most_stretch(box: Box) -> float:
    """Return the most by which the map between two circles of the box lengthens anything."""
    p, kappa = (box.low + box.high) / 2, (box.high - box.low) / 2
    u = (math.cos(box.half_turn) * math.sinh(kappa / 2)) ** 2
    u += (math.sin(box.half_turn) * math.sinh(p + kappa / 2)) ** 2
    return math.exp(math.asinh(math.sqrt(u)))


def _lies_along(box: Box, seen: Seen, along: float, across: float) -> NDArray[np.bool_]:
    """Return which edges the oval can only touch between their ends.

    As the oval grows about its centre it first meets the line of the edge in its touching point.
    Where that stays between the ends for all tops of the box, an oval clear of the edge is clear of
    the whole line.
    """
    stretch = most_stretch(box)
    bend = (stretch * stretch - stretch**-2) / 2 * stretch * stretch
    unit = seen.unit
    rises = wandering(np.stack([-unit[:, 1], unit[:, 0]], axis=1), along, across)
    slack = wandering(unit, along, across) + (seen.distance + rises) * bend
    return seen.square_before(slack) & (seen.distance > rises)


def oval_figures(box: Box, cap: float, likely: tuple[float, float], lipping: float) -> Figures:
    """Return figures for the half sizes and the area of the ovals of a box.

    b1 = l cos² + w sin² of the turn from the box's middle, and b2 the other way round. The area is
    π det(B + t): never more than π (tr(M (B + t)) / 2)² for any positive M of determinant 1.
    """
    cos2, sin2 = math.cos(box.half_turn) ** 2, math.sin(box.half_turn) ** 2
    long, wide = np.array([1.0, 0.0, 0.0]), np.array([0.0, 1.0, 0.0])
    longest = cap * math.exp(box.high / 2)
    g = math.sqrt((likely[1] + lipping) / (likely[0] + lipping))
    return Figures(
        long_over=Figure(long / cos2, 0.0),
        long_under=Figure(long, 0.0),
        wide_over=Figure(wide, 0.0),
        wide_under=Figure(wide, -longest * sin2),
        root_area=Figure((g * long + wide / g) / 2, lipping * (g + 1 / g) / 2),
        unit_area=math.pi,
    )


def oval_at(box: Box, step: Array) -> tuple[float, float]:
    """Return the turn and the shape number of a solution of the half-planes."""
    b1, b2, b3 = (float(v) for v in step[2:])
    lean, spread = math.atan2(2 * b3, b1 - b2) / 2, math.hypot(2 * b3, b1 - b2)
    total = b1 + b2
    if total <= spread:
        return box.turn, (box.low + box.high) / 2
    p = math.log((total + spread) / (total - spread))
    lean = min(max(lean, -box.half_turn), box.half_turn)
    return box.turn + lean, min(max(p, box.low), box.high)


def oval_held_rows(box: Box, patch: Patch, seen: Array) -> tuple[Array, Array]:
    """Return rows by which the ovals of a box hold points.

    An oval {c + B s : |s| <= 1} reaches |B n|, at most û·B n / cos ψ, where û is the direction of
    B n in the middle of the box and ψ bounds how far it wanders. At turn φ and shape p it points to
    φ + atan(exp(−p) tan(α − φ)), α the direction of n.
    """
    p = (box.low + box.high) / 2
    squeeze = np.array([math.exp(-p / 2), math.exp(p / 2)])
    e = seen * squeeze
    far = np.hypot(e[:, 0], e[:, 1])
    known = far > 0
    seen, e = seen[known], e[known] / far[known, None]
    n = e * squeeze
    n /= np.hypot(n[:, 0], n[:, 1])[:, None]
    psi = _wander(box, np.arctan2(n[:, 1], n[:, 0]))
    use = psi < WIDE
    seen, e, n = seen[use], e[use], n[use]
    u = e / np.cos(psi[use])[:, None]
    rows = np.column_stack(
        [-n, -u[:, 0] * n[:, 0], -u[:, 1] * n[:, 1], -u[:, 0] * n[:, 1] - u[:, 1] * n[:, 0]]
    )
    return rows, -(n * seen).sum(axis=1)


def _wander(box: Box, alpha: Array) -> Array:
    """Return how far, as an angle, B n can point from where it does in the middle of a box."""
    delta, p = box.half_turn, (box.low + box.high) / 2

    def lean(shape: float) -> Array:
        return np.arctan2(math.exp(-shape) * np.sin(alpha), np.cos(alpha))

    by_shape = np.maximum(np.abs(lean(box.low) - lean(p)), np.abs(lean(box.high) - lean(p)))
    off = np.abs(np.remainder(alpha + math.pi / 2, math.pi) - math.pi / 2)
    least = np.cos(np.minimum(off + delta, math.pi / 2)) ** 2
    most = np.cos(np.maximum(off - delta, 0.0)) ** 2
    thin, thick = math.exp(-box.high), math.exp(-box.low)
    peak = np.clip(np.sqrt(least / np.maximum(1 - least, 1e-300)), thin, thick)
    fastest = peak / (least + peak**2 * (1 - least))
    slowest = np.minimum(
        thin / (most + thin**2 * (1 - most)), thick / (most + thick**2 * (1 - most))
    )
    turning: Array = delta * np.maximum(np.abs(1 - fastest), np.abs(1 - slowest))
    return by_shape + turning
