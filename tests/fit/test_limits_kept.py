"""A limit that an oval or a capsule comes to is kept to a billionth of a millimetre."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from panelwright.layout.errors import NothingFitsError
from panelwright.layout.fit import Limits, Span, Wish, best_fits
from panelwright.layout.geometry.polygon import Region
from panelwright.layout.panel.sound import SoundWood

SLACK = 1e-9
"""mm, and as a share of a ratio."""


def board(long: float, wide: float) -> SoundWood:
    """Return sound wood of that size with a corner off, so that little is symmetric."""
    cut = min(long, wide) / 5
    corners = [[0.0, 0.0], [long, 0.0], [long, wide - cut], [long - cut, wide], [0.0, wide]]
    return SoundWood.exact(Region.from_rings(np.array(corners)))


@pytest.mark.parametrize(
    "count", [10, pytest.param(150, marks=pytest.mark.by_hand)], ids=["some", "many"]
)
@pytest.mark.parametrize("shape", ["oval", "capsule"])
def test_no_limit_is_overstepped(shape: str, count: int) -> None:
    """Of least and greatest sizes and ratios that bind a top none is passed by rounding."""
    met = 0

    @settings(max_examples=count, phases=[Phase.generate])
    @given(
        st.floats(500.0, 2200.0),
        st.floats(250.0, 900.0),
        st.sampled_from(["longest", "widest", "least width", "least length", "slim", "stout"]),
        st.floats(0.3, 0.95),
    )
    def holds(long: float, wide: float, kind: str, share: float) -> None:
        nonlocal met
        limits = {
            "longest": Limits(length=Span(0.0, long * share)),
            "widest": Limits(width=Span(0.0, wide * share)),
            "least width": Limits(width=Span(wide * share)),
            "least length": Limits(length=Span(long * share)),
            "slim": Limits(ratio=Span(1.0 + share)),
            "stout": Limits(ratio=Span(1.0, 1.0 + share)),
        }[kind]
        try:
            outline = best_fits(board(long, wide), Wish((shape,), limits=limits))[0].outline
        except NothingFitsError:
            return
        for size, span in (
            (outline.length, limits.length),
            (outline.width, limits.width),
            (outline.length / outline.width, limits.ratio),
        ):
            assert span.least - SLACK <= size <= span.greatest + SLACK
            met += min(abs(size - span.least), abs(size - span.greatest)) < 1e-3

    holds()
    assert met >= count / 4, "hardly any limit was met"


def test_a_corner_radius_may_have_no_upper_limit() -> None:
    """Then the largest top has corners as tight as they may be, in its whole board here."""
    wish = Wish(("rounded rectangle",), limits=Limits(corner_radius=Span(20.0, math.inf)))
    ring = np.array([[0, 0], [800, 0], [800, 500], [0, 500.0]])
    fit = best_fits(SoundWood.exact(Region.from_rings(ring)), wish)[0]
    assert fit.score == pytest.approx(800 * 500 - (4 - math.pi) * 20**2, rel=1e-3)


@pytest.mark.parametrize("shape", ["rectangle", "oval", "capsule"])
def test_a_fixed_size_is_met_exactly(shape: str) -> None:
    """Where there is room for it, a top of 700 by 400 is that and not a hair less."""
    wish = Wish((shape,), limits=Limits(Span(700.0, 700.0), Span(400.0, 400.0)))
    outline = best_fits(board(1000.0, 600.0), wish)[0].outline
    assert (outline.length, outline.width) == pytest.approx((700.0, 400.0), abs=1e-9)
