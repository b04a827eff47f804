"""plan.json and `fit --json` tell of each outline what it needs to be drawn, and no more."""

import pytest

from panelwright.layout.fit.found import Fit
from panelwright.layout.geometry.placement import Placement
from panelwright.layout.job.fits import fit_record
from panelwright.layout.job.serialise import plain
from panelwright.layout.outlines import (
    Circle,
    Freeform,
    Outline,
    Oval,
    RegularPolygon,
    RoundedRectangle,
    Superellipse,
)

COMMON = {"shape", "length", "width", "corner_radius", "area", "perimeter"}


@pytest.mark.parametrize(
    ("outline", "own"),
    [
        (Circle(600), {}),
        (Oval(1200, 700), {}),
        (RoundedRectangle.with_radius(1200, 700, 60), {}),
        (Superellipse(1200, 700, 2.5), {"exponent": 2.5}),
        (
            RegularPolygon(8, 700),
            {"sides": 8, "across_flats": 700.0, "across_corners": 757.67454},
        ),
        (Freeform.of(RegularPolygon(6, 700).path()), {}),
    ],
)
def test_only_its_own_figures_are_told_of_an_outline(
    outline: Outline, own: dict[str, float]
) -> None:
    """An exponent is a superellipse's alone, sides and both widths a regular top's."""
    record = plain(outline)
    assert set(record) == COMMON | set(own)
    assert record["shape"] == outline.name
    found = fit_record(Fit(outline, outline, Placement(), outline.area, None, 1))
    for name, value in own.items():
        assert record[name] == found[name] == pytest.approx(value, abs=1e-5)
    assert set(own) == set(found) & {"exponent", "sides", "across_flats", "across_corners"}
