"""Portions by true symmetry, and the edge of the panel that a template is laid on."""

from __future__ import annotations

import pytest
import strategies
from hypothesis import given, settings

from panelwright.layout.geometry.path import Path
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.symmetry import is_symmetric
from panelwright.layout.outlines import Freeform, Outline, Rectangle, RegularPolygon, Superellipse
from panelwright.layout.template.content import TemplateContent, ordinates
from panelwright.layout.template.portions import portions
from panelwright.layout.units import Tape

GABLE = Freeform.through(
    [Point(0, 0), Point(900, 0), Point(900, 400), Point(450, 620), Point(0, 400)]
)
CORNER = Freeform.through(
    [Point(0, 0), Point(1200, 0), Point(1200, 380), Point(520, 380), Point(520, 700), Point(0, 700)]
)


def content_of(outline: Outline) -> TemplateContent:
    """Return a template of an outline alone, its symmetry looked at."""
    path = outline.path()
    return TemplateContent(
        "top", path, symmetric_x=is_symmetric(path, "x"), symmetric_y=is_symmetric(path, "y")
    )


@pytest.mark.parametrize(
    ("outline", "names"),
    [
        (RegularPolygon(8, 900), {"whole", "half", "quarter", "end", "corner", "none"}),
        (RegularPolygon(6, 600), {"whole", "half", "quarter", "end", "none"}),
        (Superellipse(1400, 700, 2.5), {"whole", "half", "quarter"}),
        (GABLE, {"whole", "half", "none"}),
        (CORNER, {"whole", "none"}),
    ],
)
def test_a_portion_is_had_where_the_top_is_alike(outline: Outline, names: set[str]) -> None:
    """A gable is alike left and right only, a corner desk nowhere; an octagon all ways."""
    assert {portion.name for portion in portions(content_of(outline))} == names


def test_a_gable_is_flipped_on_the_cross_centreline() -> None:
    """Its left half is its right one turned over; its lower half is not its upper one."""
    half = portions(content_of(GABLE))[1]
    assert (half.flip_x, half.flip_y) == (True, False)


def test_no_end_is_printed_of_a_top_whose_middle_is_not_straight() -> None:
    """A top with a straight upper edge and a bent lower one has no end to print alone."""
    bent = Freeform.through(
        [Point(0, 80), Point(600, 0), Point(1200, 80), Point(1000, 500), Point(200, 500)]
    )
    assert [portion.name for portion in portions(content_of(bent))] == ["whole", "half", "none"]


@given(strategies.symmetrical_outlines.filter(lambda o: len(set(getattr(o, "radii", (0,)))) == 1))
@settings(max_examples=25)
def test_tops_about_both_axes_are_seen_to_be_so(outline: Outline) -> None:
    """Whatever its sizes, such a top is found to be its own mirror image both ways."""
    assert is_symmetric(outline.path(), "x")
    assert is_symmetric(outline.path(), "y")


def test_a_kept_edge_is_not_drawn_as_a_line_to_cut() -> None:
    """The finish line is drawn on three sides; from the underside it is the same three."""
    path = Rectangle(1400, 600).path()
    kept = (Path(path.segments[:1]),)
    content = TemplateContent("top", path, kept=kept)
    for seen in (content, content.from_underside()):
        (line,) = seen.drawn(seen.finish)
        assert line.length == pytest.approx(1400 + 2 * 600)
        assert seen.kept[0].length == 1400
    plain = TemplateContent("top", path)
    assert plain.drawn(path) == (path,)


def test_ordinates_of_a_superellipse_lie_on_it() -> None:
    """Each station of the sheet satisfies |2x/L|ⁿ + |2y/W|ⁿ = 1."""
    top = Superellipse(1400, 700, 2.5)
    table = ordinates(top.path(), Tape(), symmetric_x=True, symmetric_y=True)
    assert len(table.along) >= 8
    for station in table.along:
        level = abs(station.at / 700) ** 2.5 + abs(station.high / 350) ** 2.5
        assert level == pytest.approx(1.0, abs=2e-4)


def test_ordinates_of_a_hollow_outline_give_every_crossing() -> None:
    """A bay cut into the upper edge is crossed by lines along the top at both its walls."""
    ring = [(0, 0), (900, 0), (900, 500), (600, 500), (600, 300), (300, 300), (300, 500), (0, 500)]
    bay = Freeform.through(Point(x, y) for x, y in ring)
    table = ordinates(bay.path(), Tape())
    (across,) = [station for station in table.across if station.at == 150.0]
    assert (across.low, across.high) == (-450, 450)
    assert across.between == (-150, 150)
    assert all(station.between == () for station in table.along if abs(station.at) > 160)
