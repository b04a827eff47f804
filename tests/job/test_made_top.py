"""The top that is made keeps what the found one holds."""

from __future__ import annotations

import pytest

from panelwright.layout.geometry.polygon import Region
from panelwright.layout.job.fitting import fits_of
from panelwright.layout.job.made import made_top
from panelwright.layout.job.reading import read_job

BOARD = """
[panel]
outline = { length = 1603, width = 703 }
thickness = 27
[top]
shape = "rectangle"
"""


def test_sizes_are_rounded_down_where_nothing_is_lost() -> None:
    """A plain board gives a top in whole steps."""
    job = read_job(BOARD)
    top = made_top(job, fits_of(job)[0])
    assert (top.outline.length, top.outline.width) == (1600.0, 700.0)


def test_a_covered_point_stays_under_the_top() -> None:
    """A point half a millimetre inside the corner would be lost by rounding, so nothing is."""
    job = read_job(BOARD + "covers = [[0.5, 0.5]]")
    top = made_top(job, fits_of(job)[0])
    assert top.outline.length == pytest.approx(1603, abs=0.02)
    within = Region.from_rings(top.finish_line.points(0.001))
    assert within.distance_to(Region.at(job.wish.covers[0])) < 0.02


def test_a_point_just_past_the_rounded_size_is_not_let_go() -> None:
    """Rounded down to 700 wide a top would miss this point by 0.4 mm, so it stays 703."""
    job = read_job(BOARD.replace("1603", "1600") + "covers = [[800, 351.5], [800, 1.1]]")
    top = made_top(job, fits_of(job)[0])
    within = Region.from_rings(top.finish_line.points(0.001))
    assert all(within.distance_to(Region.at(point)) < 0.02 for point in job.wish.covers)
    assert top.outline.width == pytest.approx(703, abs=0.02)


def test_the_edge_does_not_come_to_run_through_a_defect_that_lies_inside() -> None:
    """A screw wholly inside the found top, close to its edge, stays wholly inside the one made."""
    screw = '[[panel.defects]]\nname = "screw"\nat = [800, 5.3]\ndiameter = 8\n'
    screw += 'spoils = ["cutting"]\nclear = 1\n'
    job = read_job(BOARD.replace("[top]", f"{screw}[top]"))
    fit = fits_of(job)[0]
    island = job.panel.islands[0].reach()
    assert Region.from_rings(fit.points()).holds(island)
    top = made_top(job, fit)
    assert Region.from_rings(top.finish_line.points(0.001)).holds(island)
