"""The datum: which line, which corners, and figures that hold when the panel is turned over."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
import strategies
from hypothesis import given
from hypothesis import strategies as st

from panelwright.layout.errors import PanelError
from panelwright.layout.geometry.path import Path, circle
from panelwright.layout.geometry.placement import Placement
from panelwright.layout.geometry.point import Point
from panelwright.layout.panel import (
    Defect,
    Panel,
    Spoils,
    outline_through,
    rectangular_outline,
    rectangular_place,
)
from panelwright.layout.panel.datum import Datum, Reason, choose_datum
from panelwright.layout.panel.edges import Flaw, Found, Reference


def door(**outline: tuple[float, float, float, float]) -> Panel:
    """Return a door with corners or edges that are not as they were."""
    return Panel(rectangular_outline(1981, 838, **outline), 44)


def mirrored(datum: Datum) -> Datum:
    """Return the same line on a panel that was turned over: it now runs the other way."""
    first, last = (
        replace(r, point=Point(-r.point.x, r.point.y)) for r in (datum.first, datum.last)
    )
    return replace(datum, first=first, last=last, corners=(), references=(first, last))


def test_a_sound_door_is_measured_from_its_edge() -> None:
    """A straight edge A–B along x is the datum, with all four corners in use."""
    datum = choose_datum(door())
    assert (datum.name, datum.struck) == ("A–B", False)
    assert [c.name for c in datum.corners if c.usable] == ["A", "B", "C", "D"]


def test_a_bowed_edge_passes_the_datum_on() -> None:
    """Where A–B bows, the longest straight edge takes its place and keeps its own letters."""
    datum = choose_datum(door(bows=(12.0, 0.0, 0.0, 0.0)))
    assert (datum.name, datum.struck) == ("C–D", False)
    assert datum.coordinates(Point(1981, 838)).along == pytest.approx(0.0)
    assert datum.coordinates(Point(990, 419)).square == pytest.approx(419.0)


def test_a_bow_within_a_string_width_is_straight() -> None:
    """An edge that stands 0.9 mm off a taut string is straight, one that stands 1.1 off is not."""
    assert choose_datum(door(bows=(0.9, 0.0, 0.0, 0.0))).name == "A–B"
    assert choose_datum(door(bows=(1.1, 0.0, 0.0, 0.0))).name == "C–D"


@pytest.mark.parametrize("rise", [-20.0, 20.0])
def test_a_line_is_struck_where_both_long_edges_bow(rise: float) -> None:
    """With no straight edge a line is struck in the wood, parallel to A–B, from end to end."""
    panel = door(bows=(rise, 0.0, rise, 0.0))
    datum = choose_datum(panel)
    assert (datum.name, datum.struck) == ("P–Q", True)
    depth = 5.0 + max(0.0, -rise)
    assert datum.start.y == datum.end.y == pytest.approx(depth)
    assert datum.length == pytest.approx(1981.0)
    assert all(panel.region("outside").grown(0.01).holds_point(p) for p in (datum.start, datum.end))


def test_a_waney_slab_has_no_corner_to_hold_a_tape_to() -> None:
    """Corners between waney edges are lettered but not used, so P and Q are all there is."""
    below = [Point(0, -60), Point(700, -64), Point(1500, -58), Point(2150, -75)]
    above = [Point(2150, 716), Point(1200, 748), Point(600, 771), Point(0, 742)]
    datum = choose_datum(Panel(outline_through(below + above), 55))
    assert datum.struck
    assert [r.name for r in datum.references] == ["P", "Q"]
    assert {c.flaw for c in datum.corners} == {Flaw.NOT_CRISP}


def test_a_round_panel_is_measured_from_a_line_across_it() -> None:
    """A round panel has no corners; P–Q runs through its middle."""
    datum = choose_datum(Panel(circle(Point(500, 500), 500), 20))
    assert datum.corners == ()
    assert datum.coordinates(Point(500, 500)).square == pytest.approx(0.0, abs=1e-6)
    assert datum.length == pytest.approx(1000.0, abs=0.01)


def test_a_round_ended_panel_is_measured_from_its_straight_edge() -> None:
    """Where an edge ends in a curve, points struck on it stand in for the corners."""
    outline = rectangular_outline(2000, 800, radii=(400.0, 400.0, 400.0, 400.0))
    datum = choose_datum(Panel(outline, 20))
    assert (datum.name, datum.struck) == ("P–Q", False)
    assert datum.start == Point(450.0, 0.0)
    assert datum.end == Point(1550.0, 0.0)


@pytest.mark.parametrize(
    ("panel", "name", "flaw"),
    [
        (door(radii=(0.0, 0.0, 60.0, 0.0)), "C", Flaw.GONE),
        (door(clips=(0.0, 40.0, 0.0, 0.0)), "B", Flaw.GONE),
        (
            replace(
                door(),
                cut_outs=(rectangular_place(Point(1981, 838), 100, 80),),
            ),
            "C",
            Flaw.CUT_AWAY,
        ),
        (
            door().with_defect(
                Defect("rot", rectangular_place(Point(0, 838), 90, 90), frozenset({Spoils.SHOWING}))
            ),
            "D",
            Flaw.SPOILT,
        ),
    ],
)
def test_bad_corners_are_not_used(panel: Panel, name: str, flaw: Flaw) -> None:
    """No tape is held to a corner that is rounded, clipped, cut away or spoilt."""
    datum = choose_datum(panel)
    (corner,) = (c for c in datum.corners if c.name == name)
    assert (corner.usable, corner.flaw) == (False, flaw)
    assert name not in {r.name for r in datum.references}


def test_points_are_struck_for_damaged_corners() -> None:
    """P and Q stand in for A and B, 50 mm along the edge; lengths run from D–A prolonged."""
    datum = choose_datum(door(), damaged=frozenset({"A", "B"}))
    assert (datum.names, datum.struck) == (("A", "Q"), False)
    assert (datum.start, datum.first.found, datum.first.edge) == (
        Point(0.0, 0.0),
        Found.PROLONGED,
        "D–A",
    )
    assert [(r.name, r.beside, r.distance) for r in datum.references[:2]] == [
        ("P", "A", pytest.approx(50.0)),
        ("Q", "A", pytest.approx(1931.0)),
    ]
    assert datum.coordinates(Point(450.0, 370.0)).along == pytest.approx(450.0)
    assert {r.name for r in datum.references} == {"P", "Q", "C", "D"}


@pytest.mark.parametrize("corner", [{"radii": (40.0,) * 4}, {"clips": (60.0, 0.0, 0.0, 0.0)}])
def test_no_figure_is_negative_beside_a_lost_corner(
    corner: dict[str, tuple[float, float, float, float]],
) -> None:
    """A table with rounded corners, or a clipped A, has no wood before the start of its datum."""
    panel = Panel(rectangular_outline(1200, 600, **corner), 22)
    datum = choose_datum(panel)
    assert datum.start == Point(0.0, 0.0)
    assert datum.held.name == "P"
    assert datum.held.point.distance_to(datum.start) == pytest.approx(datum.held.distance)
    for row in panel.boundary.points(0.1):
        offsets = datum.coordinates(Point.of(row))
        assert min(offsets.along, offsets.square) > -1e-9


def test_a_short_edge_is_not_prolonged_past_its_own_length() -> None:
    """Where less of D–A is left than would be prolonged, P is struck and found from B."""
    outline = rectangular_outline(1200, 600, radii=(400.0, 0.0, 0.0, 0.0))
    datum = choose_datum(Panel(outline, 22))
    assert (datum.first.name, datum.first.found) == ("P", Found.ON_EDGE)
    assert (datum.first.beside, datum.first.distance) == ("B", pytest.approx(750.0))


def test_a_struck_line_is_found_from_the_ends_of_edges() -> None:
    """P and Q of a waney slab stand so far from the corners at its ends as a tape reads there."""
    points = [Point(0, -60), Point(700, -64), Point(1500, -58), Point(2150, -75)]
    above = [Point(2150, 716), Point(1200, 748), Point(600, 771), Point(0, 742)]
    datum = choose_datum(Panel(outline_through(points + above), 55))
    corners = {c.name: c.point for c in datum.corners}
    for end, edge in ((datum.first, "D–A"), (datum.last, "B–C")):
        assert (end.found, end.edge) == (Found.STRUCK, edge)
        assert end.point.distance_to(corners[end.beside]) == pytest.approx(end.distance)


def test_a_struck_point_moves_on_past_what_is_bad() -> None:
    """A point that stands in for a corner is struck beyond a defect that reaches along the edge."""
    rot = Defect("rot", rectangular_place(Point(0, 0), 300, 90), frozenset({Spoils.SHOWING}))
    datum = choose_datum(door().with_defect(rot))
    assert datum.held.name == "P"
    assert datum.held.point.x > 150.0


def test_a_given_line_has_the_wood_on_its_left() -> None:
    """P is the end from which the wood lies to the left, whichever way the line was given."""
    low = (Point(0.0, 10.0), Point(1981.0, 12.0))
    for ends in (low, low[::-1]):
        datum = choose_datum(door(), given=ends)
        assert (datum.start, datum.end) == low


def test_one_point_is_no_line() -> None:
    """A reference line of no length is refused."""
    with pytest.raises(PanelError, match="farther apart"):
        choose_datum(door(), given=(Point(5.0, 5.0), Point(5.0, 5.0)))


def test_letters_start_at_the_datum_corner() -> None:
    """Whichever point of an outline is given first, A is the corner at the lower left."""
    corners = [Point(0, 0), Point(900, 0), Point(900, 500), Point(0, 500)]
    for first in range(4):
        turned = corners[first:] + corners[:first]
        datum = choose_datum(Panel(outline_through(turned), 18))
        assert [c.point for c in datum.corners] == corners


@given(strategies.coordinates, strategies.coordinates, strategies.angles)
def test_offsets_hold_when_the_panel_is_turned_over(x: float, y: float, turn: float) -> None:
    """On the panel turned over every offset has the same size; only left and right swap."""
    frame = Placement(Point(30.0, -20.0), turn)
    first, last = (Reference(n, frame(Point(d, 0))) for n, d in (("P", 0.0), ("Q", 900.0)))
    datum = Datum(first, last, True, Reason.GIVEN, (), (first, last))
    point = Point(x, y)
    face, back = datum.coordinates(point), mirrored(datum).coordinates(Point(-x, y))
    assert back.along == pytest.approx(face.along, abs=1e-9)
    assert back.square == pytest.approx(-face.square, abs=1e-9)


@given(strategies.coordinates, strategies.coordinates, strategies.angles)
def test_a_point_is_found_again_from_its_offsets(x: float, y: float, turn: float) -> None:
    """What `coordinates` measures, `at` puts back."""
    frame = Placement(Point(5.0, 7.0), turn)
    first, last = (Reference(n, frame(Point(d, 0))) for n, d in (("A", 0.0), ("B", 500.0)))
    datum = Datum(first, last, False, Reason.STRAIGHT)
    offsets = datum.coordinates(Point(x, y))
    back = datum.at(offsets.along, offsets.square)
    assert back.distance_to(Point(x, y)) < 1e-8


@given(st.floats(-0.4, 0.4), st.floats(-0.4, 0.4), st.floats(-0.4, 0.4))
def test_a_four_sided_panel_has_four_corners(a: float, b: float, c: float) -> None:
    """However out of square, a panel with four sides has four corners, each where it was given."""
    corners = [
        Point(0, 0),
        Point(1000, 0),
        Point(1000 + 200 * a, 600 + 200 * b),
        Point(90 * c, 500),
    ]
    panel = Panel(outline_through(corners), 18)
    assert {c.point for c in choose_datum(panel).corners} == set(corners)


def test_small_bends_make_no_corner() -> None:
    """Points along an edge that bend it by less than 30° leave it one edge."""
    outline = outline_through(
        [Point(0, 0), Point(400, 3), Point(900, 0), Point(900, 400), Point(450, 430), Point(0, 400)]
    )
    datum = choose_datum(Panel(outline, 18))
    assert len(datum.corners) == 4
    assert datum.struck


def test_an_oval_panel_is_measured_across() -> None:
    """A boundary of elliptic arcs has no edge, so a line is struck along its length."""
    from panelwright.layout.outlines import Oval

    path: Path = Oval(1200, 700).path()
    datum = choose_datum(Panel(path.placed(Placement(Point(600, 350), math.pi / 2)), 18))
    assert datum.struck
    assert datum.length == pytest.approx(1200.0, abs=0.01)


@pytest.mark.parametrize(("gone", "name"), [(0.45, "A–B"), (0.55, "C–D")])
@pytest.mark.parametrize("gaps", [1, 3])
def test_an_edge_of_which_half_is_left_is_still_measured_from(
    gone: float, name: str, gaps: int
) -> None:
    """A straightedge bridges gaps in less than half of an edge; past that the next edge is used."""
    wide = gone * 1981 / gaps
    places = [1981 * (i + 0.5) / gaps for i in range(gaps)]
    cut_outs = tuple(rectangular_place(Point(x, 0), wide, 60) for x in places)
    datum = choose_datum(replace(door(), cut_outs=cut_outs))
    assert (datum.name, datum.struck) == (name, False)


@pytest.mark.parametrize(("long", "struck"), [(920.0, True), (1080.0, False)])
def test_a_reference_edge_is_half_as_long_as_the_panel(long: float, struck: bool) -> None:
    """A straight edge much shorter than the panel swings what is squared from it, so none is."""
    left = (2000.0 - long) / 2
    corners = [Point(left, 0), Point(left + long, 0), Point(2000, 380), Point(1000, 700)]
    datum = choose_datum(Panel(outline_through([*corners, Point(0, 380)]), 20))
    assert datum.length == pytest.approx(long) if not struck else datum.length > long
