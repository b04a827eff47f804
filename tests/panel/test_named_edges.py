"""Edges are found by the letters of their corners, and no margin is kept to the ones kept."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from strategies import star_rings

from panelwright.layout.errors import PanelError
from panelwright.layout.geometry.path import Path
from panelwright.layout.geometry.placement import Placement
from panelwright.layout.geometry.point import Point
from panelwright.layout.panel import (
    Panel,
    Spoils,
    outline_through,
    rectangular_outline,
    round_place,
)
from panelwright.layout.panel.datum import choose_datum
from panelwright.layout.panel.edges import Edge
from panelwright.layout.panel.named_edges import (
    are_opposite,
    edge_named,
    named_edges,
    require_opposite,
    require_straight,
    turn_along,
)

BOARD = Panel(rectangular_outline(1400, 600), 30)


@given(
    st.floats(500, 2500),
    st.floats(300, 900),
    st.tuples(*[st.sampled_from([0.0, 40.0, 60.0])] * 4),
)
def test_edges_bear_the_letters_of_the_datum(
    length: float, width: float, radii: tuple[float, float, float, float]
) -> None:
    """Edge AB runs from where the datum has corner A to where it has corner B, and so on round."""
    panel = Panel(rectangular_outline(length, width, radii=radii), 30)
    edges = named_edges(panel)
    assert [held.name for held in edges] == ["AB", "BC", "CD", "DA"]
    datum = choose_datum(panel)
    for held in edges:
        for letter in held.name:
            (corner,) = (c for c in datum.corners if c.name == letter)
            off = (corner.point - held.start).cross(held.direction)
            assert abs(off) < 1e-9
        assert held.path.segments == held.segments


def test_an_edge_may_be_called_from_either_end() -> None:
    """BA is AB; what is no edge is answered with all there are."""
    assert edge_named(BOARD, "ba") == edge_named(BOARD, "AB")
    with pytest.raises(PanelError, match=r"no edge 'AC'; there are: AB, BC, CD, DA"):
        edge_named(BOARD, "AC")
    with pytest.raises(PanelError, match="cannot be told apart"):
        edge_named(Panel(round_place(Point(0, 0), 900), 30), "AB")


def test_opposite_edges_share_no_corner_and_face_each_other() -> None:
    """AB faces CD on a board; on an L-shaped panel it faces CD and EF, and not DE beside them."""
    by_name = {held.name: held for held in named_edges(BOARD)}
    assert are_opposite(by_name["AB"], by_name["CD"])
    assert not are_opposite(by_name["AB"], by_name["BC"])
    corners = [(0, 0), (1500, 0), (1500, 500), (800, 500), (800, 1000), (0, 1000)]
    ell = Panel(outline_through([Point(*p) for p in corners]), 30)
    held = {edge.name: edge for edge in named_edges(ell)}
    assert are_opposite(held["AB"], held["CD"])
    assert are_opposite(held["AB"], held["EF"])
    assert not are_opposite(held["AB"], held["DE"])
    with pytest.raises(PanelError, match=r"AB and DE are not .* opposite AB lies CD or EF; or"):
        require_opposite(held["AB"], held["DE"], ell)


@pytest.mark.parametrize("bow", [0.9, -0.9, 1.1, -1.1])
def test_a_long_side_lies_on_an_edge_that_a_taut_string_lies_along(bow: float) -> None:
    """A bow of up to 1 mm either way is straight, a greater one is not."""
    panel = Panel(rectangular_outline(1400, 600, bows=(bow, 0, 0, 0)), 30)
    edge = edge_named(panel, "AB")
    assert edge.off_straight == pytest.approx(abs(bow), abs=1e-3)
    if abs(bow) < 1:
        require_straight(edge)
    else:
        with pytest.raises(PanelError, match=r"AB stands 1\.1 mm off a taut string"):
            require_straight(edge, "AB")


@given(st.floats(-3.1, 3.1))
def test_the_turn_along_an_edge_turns_with_the_panel(turn: float) -> None:
    """Turning a panel turns what is parallel to its edges, but for half turns."""
    path = rectangular_outline(1400, 600).placed(Placement(Point(300, -200), turn))
    edge = Edge(path.segments[:1])
    assert math.remainder(turn_along(edge) - turn, math.pi) == pytest.approx(0, abs=1e-9)
    assert -math.pi / 2 < turn_along(edge) <= math.pi / 2


@given(star_rings(), st.floats(2, 40), st.integers(0, 4), st.floats(0, 1))
def test_the_margin_is_kept_to_every_edge_but_those_kept(
    ring: tuple[Point, ...], margin: float, which: int, share: float
) -> None:
    """A point just inside is sound where, and only where, no other edge is too near."""
    panel = Panel(outline_through(ring), 30)
    segments = panel.boundary.segments
    kept = Path((segments[which],))
    wood = panel.sound_for(Spoils.SHOWING, margin=margin, kept=[kept])
    at = segments[which].at(share)
    point = at + (segments[which].end - segments[which].start).unit().left * 0.01
    others = [s for s in segments if s != segments[which]]
    away = min(_distance(np.array(tuple(point)), s.start, s.end) for s in others)
    if not panel.region().holds_point(point):
        return
    if away > margin * 1.0002:
        assert wood.inner.holds_point(point)
    if away < margin * 0.9998:
        assert not wood.outer.holds_point(point)


def test_no_tape_is_out_at_a_kept_edge() -> None:
    """The margin and the tape's error keep off three sides and a cut-out, not off the fourth."""
    hole = round_place(Point(700, 300), 100)
    panel = Panel(rectangular_outline(1400, 600), 30, cut_outs=(hole,))
    kept = edge_named(panel, "AB").path
    wood = panel.sound_for(Spoils.SHOWING, margin=6, tape_error=2, kept=[kept])
    bounds = wood.inner.bounds
    assert bounds.bottom == 0
    assert (bounds.left, bounds.right, bounds.top) == pytest.approx((8, 1392, 592), abs=2e-3)
    left = (1400 - 16) * (600 - 8) - math.pi * 58**2
    assert wood.inner.area <= left <= wood.outer.area
    assert wood.outer.area - wood.inner.area < 5
    with pytest.raises(PanelError, match="no edge of this panel"):
        panel.sound_for(Spoils.SHOWING, kept=[Path.through([Point(0, 0), Point(9, 9)])])


def _distance(point: np.ndarray, start: Point, end: Point) -> float:
    a, b = np.array(tuple(start)), np.array(tuple(end))
    along = np.clip((point - a) @ (b - a) / ((b - a) @ (b - a)), 0, 1)
    return float(np.hypot(*(point - a - along * (b - a))))
