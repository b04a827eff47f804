"""plan.json and `fit --json` tell of each outline what it needs to be drawn, and no more."""

import json
import math

import pytest

from panelwright.layout.fit.found import Fit
from panelwright.layout.geometry.path import Path
from panelwright.layout.geometry.placement import Placement
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.segments import Arc
from panelwright.layout.outlines import (
    Circle,
    Freeform,
    Outline,
    Oval,
    RegularPolygon,
    RoundedRectangle,
    Superellipse,
)
from panelwright.layout.plan.serialise import fit_record, plain, to_json

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


def test_a_long_arc_ends_where_it_ended() -> None:
    """An arc of 150 m, drawn from the text of the record, ends within 0.0001 mm of its end."""
    arc = Arc(Point(0.0, 0.0), 150_000.0, math.radians(33.3333333333), math.radians(0.0123456789))
    ((_, held),) = json.loads(to_json({"path": plain(Path((arc,)))}))["path"][0].items()
    end = math.radians(held["from_deg"] + held["sweep_deg"])
    found = Point(held["radius"] * math.cos(end), held["radius"] * math.sin(end))
    assert found.distance_to(arc.end) < 1e-4
