"""Thousands of tops, polished from random poses by a climber of our own, try to beat the bound."""

from __future__ import annotations

import math

import numpy as np
import pytest
import shapely
from numpy.typing import NDArray
from peer import Question, area_score, polished

from panelwright.layout.fit import Fit, Limits, Span, Wish, best_fits
from panelwright.layout.geometry.polygon import Region
from panelwright.layout.geometry.tolerance import PROOF_ALLOWANCE
from panelwright.layout.panel.sound import SoundWood

Array = NDArray[np.float64]
ALL = ("circle", "oval", "capsule", "rounded rectangle", "rectangle")
CORNER = 25.0
EASED = PROOF_ALLOWANCE / 2
"""mm that a top two corner radii wide may lose of either for its proof: in a sliver that makes it
longer by far more, and the peer may do so too."""

TOPS = 200
"""Climbers on each panel for each family: with the panels and families below, 6,000."""

ROUNDS = 160
POLISHED = 2

GAP = 2e-4
"""Fine, so that a bound too low by a hair would show."""

HAIR = 1e-9
"""Share of an area that rounding may account for."""


def star(rng: np.random.Generator, corners: int, least: float) -> Region:
    """Return a star-shaped panel, squeezed in one direction."""
    angles = (np.arange(corners) + rng.uniform(0, 0.9, corners)) * math.tau / corners
    reach = rng.uniform(least, 1.0, corners) * rng.uniform(500, 1100)
    ring = np.stack([reach * np.cos(angles), reach * np.sin(angles)], axis=1)
    return Region.from_rings(ring * [1.0, rng.uniform(0.3, 1.0)])


def squeezed(panel: Region) -> Region:
    """Return a panel made six times thinner."""
    return Region.from_rings(panel.exterior * [1.0, 1 / 6])


def holed(panel: Region, rng: np.random.Generator, holes: int) -> Region:
    """Return the largest piece left by round holes and slits of random size."""
    for _ in range(holes):
        middle = rng.uniform(-0.7, 0.7, 2) * [panel.bounds.width / 2, panel.bounds.height / 2]
        angles = np.arange(6) * math.tau / 6 + rng.uniform(0, 1)
        ring = np.stack([np.cos(angles), np.sin(angles) * rng.choice([1.0, 0.1])], axis=1)
        panel = panel.minus(Region.from_rings(middle + rng.uniform(2, 45) * ring))
    return panel.pieces[0]


PANELS = {
    "a star": lambda rng: star(rng, 9, 0.3),
    "a jagged slab": lambda rng: star(rng, 40, 0.7),
    "a star with slits": lambda rng: holed(star(rng, 7, 0.5), rng, 5),
    "a slab full of holes": lambda rng: holed(star(rng, 12, 0.8), rng, 24),
    "a few holes": lambda rng: holed(star(rng, 5, 0.7), rng, 4),
    "a sliver": lambda rng: holed(squeezed(star(rng, 6, 0.9)), rng, 2),
}


def panel_of(kind: str) -> Region:
    """Return the panel of a kind, the same on every machine."""
    rng = np.random.default_rng(sorted(PANELS).index(kind) + 4)
    return PANELS[kind](rng)


def best(region: Region, shape: str) -> Fit:
    """Return the largest top of a shape."""
    wish = Wish((shape,), limits=Limits(corner_radius=Span(CORNER, CORNER)), gap=GAP)
    return best_fits(SoundWood.exact(region), wish)[0]


def question(region: Region, shape: str) -> Question:
    """Return the peer's question of the largest top of a shape."""
    corner = CORNER if shape == "rounded rectangle" else 0.0
    return Question(region.edges, shape, area_score(shape, corner), max(corner - EASED, 0.0))


def climbed(asked: Question, rng: np.random.Generator) -> Array:
    """Return the unknowns, (unknown, top), of tops that have climbed from anywhere.

    Half of the steps are random, longer after one that led upwards and shorter after one that did
    not; the others are a share of the way between two of the higher tops, so that a ridge is
    followed along its own direction.
    """
    spans = np.array(asked.spans)[:, :, None]
    scale = spans[:, 1] - spans[:, 0]
    at = spans[:, 0] + scale * rng.uniform(size=(len(spans), TOPS))
    step = np.full(TOPS, 0.1)
    value = asked.values(at)
    for _ in range(ROUNDS):
        high = np.argsort(value)[: TOPS // 4]
        one, other = at[:, rng.choice(high, TOPS)], at[:, rng.choice(high, TOPS)]
        free = rng.uniform(size=TOPS) < 0.5
        way = np.where(free, rng.normal(size=at.shape) * scale * step, (one - other) * rng.normal())
        tried_at = np.clip(at + way, spans[:, 0], spans[:, 1])
        tried = asked.values(tried_at)
        better = tried < value
        at, value = np.where(better, tried_at, at), np.where(better, tried, value)
        step = np.where(free, np.maximum(step * np.where(better, 1.7, 0.85), 1e-7), step)
    return at


def drawn(shape: str, length: float, width: float, at: Array, share: float) -> shapely.Geometry:
    """Return a fine polygon of a top, with all sizes times a share, by shapely's own means."""
    a, b = share * length / 2, share * width / 2
    corner = {"capsule": b, "rounded rectangle": min(CORNER * share, b)}.get(shape, 0.0)
    if shape in ("circle", "oval"):
        round_one = shapely.Point(0, 0).buffer(1.0, quad_segs=180)
        top = shapely.affinity.scale(round_one, a, b, origin=(0, 0))
    elif shape == "rectangle":
        top = shapely.box(-a, -b, a, b)
    else:
        core = shapely.box(-a + corner, -b + corner, a - corner, b - corner)
        flat = shapely.LineString([(-a + corner, 0.0), (a - corner, 0.0)])
        top = (flat if shape == "capsule" else core).buffer(corner, quad_segs=180)
    turned = shapely.affinity.rotate(top, at[2] if len(at) > 2 else 0.0, (0, 0), use_radians=True)
    return shapely.affinity.translate(turned, at[0], at[1])


def own_pose(fit: Fit, shape: str) -> Array:
    """Return the unknowns that the peer would know a found top by."""
    centre, turn = fit.placement.centre, fit.placement.turn % math.pi
    length, width = fit.outline.length, fit.outline.width
    least = CORNER - EASED if shape == "rounded rectangle" else 0.0
    last = {"circle": [], "oval": [turn, math.log(length / width)]}
    return np.array([centre.x, centre.y, *last.get(shape, [turn, max(width / 2, least)])])


@pytest.mark.parametrize("shape", ALL)
@pytest.mark.parametrize("kind", PANELS)
def test_no_polished_top_beats_the_bound(kind: str, shape: str) -> None:
    """Of 200 climbers on each panel none gets above the bound, and the best of them lies inside.

    The highest climbers, and the found top itself, are polished to their true contacts first.
    """
    region = panel_of(kind)
    fit = best(region, shape)
    assert fit.bound is not None
    asked = question(region, shape)
    tops = climbed(asked, np.random.default_rng(17))
    high = np.argsort(asked.values(tops))[:POLISHED]
    starts = [*tops[:, high].T, own_pose(fit, shape)]
    tops = np.column_stack([tops, *(polished(asked, start, 400) for start in starts)])
    values = asked.values(tops)
    assert -values.min() <= fit.bound.value * (1 + HAIR)
    assert -values.min() >= fit.score * (1 - 1e-4)
    highest = tops[:, int(np.argmin(values))]
    _, length, width = (float(v[0]) for v in asked.sizes(highest[:, None]))
    assert shapely.covers(region.shape, drawn(shape, length, width, highest, 1 - 1e-4))
