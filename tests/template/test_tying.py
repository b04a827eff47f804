"""Sheets that lie apart are tied together with few more."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from panelwright.layout.template.tiles import Grid, Place, beside, reached, tied_together

GRID = Grid(left=0, top=0, width=270, height=180, overlap=12, columns=7, rows=5)

places = st.frozensets(
    st.tuples(st.integers(0, GRID.rows - 1), st.integers(0, GRID.columns - 1)), min_size=1
)


@given(places)
def test_what_is_tied_hangs_together(kept: frozenset[Place]) -> None:
    """Every kept place stays, all lie on the grid, and each is reached from each across edges."""
    tied = tied_together(kept, GRID)
    assert kept <= tied <= set(GRID.places)
    assert reached({min(tied)}, set(tied)) == tied


@given(places)
def test_what_hangs_together_is_left_alone(kept: frozenset[Place]) -> None:
    """Tying what is tied adds nothing."""
    tied = tied_together(kept, GRID)
    assert tied_together(tied, GRID) == tied


@given(st.sampled_from(GRID.places), st.sampled_from(GRID.places))
def test_two_places_are_tied_by_a_shortest_way(one: Place, other: Place) -> None:
    """Between two places there are as many more as their rows and columns lie apart, less one."""
    steps = abs(one[0] - other[0]) + abs(one[1] - other[1])
    assert len(tied_together(frozenset({one, other}), GRID)) == steps + 1


def test_only_edges_join() -> None:
    """Two places that touch at a corner do not hang together."""
    assert (1, 1) not in beside((0, 0))
    assert reached({(0, 0)}, {(0, 0), (1, 1)}) == {(0, 0)}
