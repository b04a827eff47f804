"""Searches end: by what was reckoned and not by the clock, with a bound that still holds."""

from __future__ import annotations

import math
import os
import resource
from dataclasses import replace

import numpy as np
import pytest

from panelwright.layout.fit import Span, Wish, best_fits
from panelwright.layout.geometry.polygon import Region
from panelwright.layout.jobfile import read_job
from panelwright.layout.panel.sound import SoundWood
from panelwright.layout.plan.fitting import fits_of

SECONDS, BYTES = 40, 1 << 30
"""Of processor time, twice what is asked for since processors differ, and of memory."""

NEEDLE = "[panel]\noutline = { points = [[0, 0], [3000, 0], [6000, 1.5], [3000, 3]] }\n"
SPLIT = (
    "[panel]\noutline = { points = [[0, 0], [1800, 0], [1800, 800], [905, 800], [900, 10], "
    "[895, 800], [0, 800]] }\n"
)


def holes(count: int) -> str:
    """Return screw holes, spread over 1800 by 800 as a sunflower spreads its seeds."""
    golden = math.pi * (3 - math.sqrt(5))
    places = [
        (900 + 870 * math.sqrt(k / count) * math.cos(k * golden),
         400 + 370 * math.sqrt(k / count) * math.sin(k * golden))
        for k in range(count)
    ]  # fmt: skip
    row = '[[panel.defects]]\nkind = "hole"\nat = [{:.1f}, {:.1f}]\ndiameter = {}\n'
    return "".join(row.format(x, y, 6 + k % 7) for k, (x, y) in enumerate(places))


def board() -> SoundWood:
    """Return a board with a hole near its middle."""
    ring = np.array([[0.0, 0.0], [1400.0, 0.0], [1400.0, 600.0], [0.0, 600.0]])
    hole = np.array([[690.0, 290.0], [690.0, 330.0], [720.0, 330.0], [720.0, 290.0]])
    return SoundWood.exact(Region.from_rings(ring, [hole]))


@pytest.mark.parametrize("shape", ["oval", "capsule", "rectangle", "superellipse", "hexagon"])
def test_little_effort_leaves_a_gap_and_a_true_bound(shape: str) -> None:
    """What a short search bounds, a long one does not beat; and it says how far it came."""
    wish = Wish((shape,), limits=replace(Wish(("oval",)).limits, ratio=Span(1.0, 3.0)))
    best = best_fits(board(), wish)[0]
    short = best_fits(board(), replace(wish, most_effort=2e6))[0]
    assert best.bound is not None and short.bound is not None
    assert best.gap is not None and best.gap <= wish.gap
    assert short.steps < best.steps or short.steps == best.steps <= 20
    assert short.score <= best.bound.value and best.score <= short.bound.value
    assert short == best_fits(board(), replace(wish, most_effort=2e6))[0]


def spent(text: str) -> tuple[float, float]:
    """Return processor time, s, and memory, bytes, of a fit in a process of its own."""
    child = os.fork()
    if child == 0:
        code = 1
        try:
            resource.setrlimit(resource.RLIMIT_CPU, (SECONDS + 5, SECONDS + 5))
            code = 0 if fits_of(read_job(text))[0].gap is not None else 2
        finally:
            os._exit(code)
    _, status, used = os.wait4(child, 0)
    assert status == 0
    return used.ru_utime + used.ru_stime, used.ru_maxrss * 1024


@pytest.mark.heavy
def test_needle_shaped_wood_is_left_in_time() -> None:
    """A capsule in a needle six metres long, which took a minute, ends with its gap."""
    seconds, size = spent(NEEDLE + '[top]\nshape = "capsule"\n')
    assert seconds <= SECONDS and size <= BYTES


@pytest.mark.by_hand
@pytest.mark.parametrize("shape", ["circle", "oval", "capsule", "rectangle", "rounded rectangle",
                                   "superellipse", "hexagon", "octagon"])  # fmt: skip
@pytest.mark.parametrize("panel", [NEEDLE, SPLIT + holes(40), SPLIT + holes(300)])
def test_any_panel_is_left_in_time(panel: str, shape: str) -> None:
    """Needles, forty holes beside a needle of air, and three hundred holes."""
    try:
        seconds, size = spent(f'{panel}[top]\nshape = "{shape}"\n')
    except AssertionError:
        assert (panel, shape) == (NEEDLE, "rounded rectangle")  # its corners do not fit
        return
    assert seconds <= SECONDS and size <= BYTES
