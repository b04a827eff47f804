"""How the seconds of the best fit grow with corners and with defects: run by hand.

    python tests/benchmarks/best_fit_curves.py           # some minutes
    python tests/benchmarks/best_fit_curves.py --quick   # the shorter half of both curves

A slab with two wavy live edges of 10 to 2,000 corners, and the same slab of 60 corners with 0 to
100 screw holes of eight corners each; the gap is 0.1 %. Beside each, one run of the peer
(`tests/peer.py`), so that what grows with the panel can be told from what grows with the search.
All times are processor seconds of one thread.
"""

from __future__ import annotations

import argparse
import math
import os
import sys
from pathlib import Path
from time import process_time

os.environ.update(OPENBLAS_NUM_THREADS="1", OMP_NUM_THREADS="1")
sys.path.insert(0, str(Path(__file__).parents[1]))

import numpy as np
from peer import Array, Question, area_score, found_by_evolution

from panelwright.layout.fit import Limits, Span, Wish, best_fits
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.polygon import Region
from panelwright.layout.panel.sound import SoundWood

CORNERS = (10, 30, 100, 300, 1000, 2000)
HOLES = (0, 10, 30, 100)
FAMILIES = ("circle", "capsule", "oval", "rounded rectangle", "rectangle")
RADIUS = 30.0


def slab(corners: int) -> Array:
    """Return a bulging slab about 1900 × 700 mm with waves on both long edges, (n, 2)."""
    above = corners // 2
    below = corners - above

    def edge(count: int, waves: tuple[float, float]) -> tuple[Array, Array]:
        x = np.linspace(-950.0, 950.0, count)
        bulge = 350.0 - 90.0 * (x / 950.0) ** 2
        ripple = 14.0 * np.sin(x / waves[0]) + 5.0 * np.sin(x / waves[1] + 1.0)
        return x, bulge + ripple

    x, y = edge(below, (170.0, 41.0))
    lower = np.stack([x, -y], axis=1)
    x, y = edge(above, (140.0, 37.0))
    return np.concatenate([lower, np.stack([x[::-1], y[::-1]], axis=1)])


def bored(wood: Region, holes: int) -> Region:
    """Return the wood less screw holes, 4 to 12 mm across, anywhere on it."""
    rng = np.random.default_rng(11)
    around = np.arange(8) * math.tau / 8
    ring = np.stack([np.cos(around), np.sin(around)], axis=1)
    while holes:
        middle = rng.uniform([-940.0, -340.0], [940.0, 340.0])
        if wood.holds_point(Point(*middle)):
            wood = wood.minus(Region.from_rings(middle + rng.uniform(2.0, 6.0) * ring))
            holes -= 1
    return wood


def measured(region: Region, shape: str) -> str:
    """Return seconds, gap and boxes of the search, and seconds and area of one run of the peer."""
    wish = Wish((shape,), limits=Limits(corner_radius=Span(RADIUS, RADIUS)))
    before = process_time()
    fit = best_fits(SoundWood.exact(region), wish)[0]
    seconds = process_time() - before
    corner = RADIUS if shape == "rounded rectangle" else 0.0
    question = Question(region.edges, shape, area_score(shape, corner), corner)
    before = process_time()
    peer = found_by_evolution(question, 0)
    peer_seconds = process_time() - before
    return (
        f"{shape:18s} {seconds:8.3f} s  gap {100 * (fit.gap or 0):.4f} %  {fit.steps:5d} boxes   "
        f"peer {peer_seconds:7.3f} s, {peer_seconds / seconds:6.2f} times as long, "
        f"area {peer.score / fit.score:.5f} of it"
    )


def main() -> None:
    """Measure and print."""
    parser = argparse.ArgumentParser(description="seconds against corners and defects")
    parser.add_argument("--quick", action="store_true", help="only the shorter half of the curves")
    quick = parser.parse_args().quick
    board = Region.from_rings(np.array([[0, 0], [400, 0], [400, 300], [0, 300.0]]))
    for shape in FAMILIES:  # imports what is imported on first use
        measured(board, shape)
    for count in CORNERS[:3] if quick else CORNERS:
        print(f"\n{count} corners")
        for shape in FAMILIES:
            print(" ", measured(Region.from_rings(slab(count)), shape), flush=True)
    for count in HOLES[:2] if quick else HOLES:
        print(f"\n{count} screw holes in a slab of 60 corners")
        for shape in FAMILIES:
            print(" ", measured(bored(Region.from_rings(slab(60)), count), shape), flush=True)


if __name__ == "__main__":
    main()
