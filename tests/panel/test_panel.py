"""Panels are what the maker measured, and their sound wood lies between two polygons."""

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from strategies import star_rings

from panelwright.layout.errors import PanelError
from panelwright.layout.geometry.path import Path
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.polygon import Region
from panelwright.layout.panel import (
    Build,
    Defect,
    Kind,
    Panel,
    Spoils,
    outline_through,
    polygonal_place,
    rectangular_outline,
    rectangular_place,
    round_place,
)
from panelwright.layout.panel.datum import choose_datum
from panelwright.layout.panel.edges import edges_of
from panelwright.layout.panel.materials import MATERIALS

SHOWING = frozenset({Spoils.SHOWING})


def test_a_bowed_edge_is_the_arc_of_its_rise() -> None:
    """54 × 30 in with an edge 3 in proud: the segment's area joins the rectangle's."""
    inch = 25.4
    flat = rectangular_outline(54 * inch, 30 * inch)
    bowed = rectangular_outline(54 * inch, 30 * inch, bows=(0, 0, 3 * inch, 0))
    radius = 123 * inch  # c²/(8h) + h/2 = 123 in
    half = math.asin(27 / 123)
    segment = radius**2 * (2 * half - math.sin(2 * half)) / 2
    assert bowed.area - flat.area == pytest.approx(segment, rel=1e-9)
    assert bowed.bounds.top == pytest.approx(33 * inch)
    hollow = rectangular_outline(54 * inch, 30 * inch, bows=(0, 0, -3 * inch, 0))
    assert flat.area - hollow.area == pytest.approx(segment, rel=1e-9)


def test_radii_and_clips_take_their_corners() -> None:
    """A radius r takes (1 − π/4) r², a clip c takes c²/2."""
    path = rectangular_outline(1000, 600, radii=(100, 0, 0, 0), clips=(0, 0, 50, 0))
    lost = (1 - math.pi / 4) * 100**2 + 50**2 / 2
    assert path.area == pytest.approx(600_000 - lost)
    assert path.is_closed


@given(star_rings())
def test_an_outline_is_the_same_whichever_way_its_points_run(ring: tuple[Point, ...]) -> None:
    """Given backwards, it has the same area and still runs anticlockwise."""
    there, back = outline_through(ring), outline_through(ring[::-1])
    assert there.area > 0
    assert back.area == pytest.approx(there.area)


def test_bows_of_points_go_outwards_whichever_way_they_run() -> None:
    """The edge that starts at a point bows away from the wood for a positive rise."""
    ring = [Point(0, 0), Point(100, 0), Point(100, 50), Point(0, 50)]
    assert outline_through(ring, {0: 10}).bounds.bottom == pytest.approx(-10)
    assert outline_through(ring[::-1], {2: 10}).bounds.bottom == pytest.approx(-10)


@given(star_rings(), st.floats(min_value=0, max_value=40), st.floats(min_value=1, max_value=150))
def test_sound_wood_lies_between_its_polygons(
    ring: tuple[Point, ...], margin: float, diameter: float
) -> None:
    """The inner polygon lies in the outer; a defect, its clearance and the margin are kept."""
    assume(margin == 0 or margin >= 0.1)
    hole = Defect("hole", round_place(Point(60, 40), diameter), SHOWING, clear=6)
    panel = Panel(outline_through(ring), 30, defects=(hole,))
    wood = panel.sound_for(Spoils.SHOWING, margin=margin)
    assert wood.outer.grown(1e-6).holds(wood.inner)
    assert not wood.inner.touches_or_crosses(hole.extent)
    ring_round_it = Region.disk(Point(60, 40), diameter / 2 + 6, around=False)
    assert wood.inner.meet(ring_round_it).area < 1e-6
    assert panel.sound_for(Spoils.CUTTING).inner.area == pytest.approx(panel.area)


@given(star_rings(), st.floats(min_value=0.1, max_value=5.0))
def test_a_wrong_tape_only_takes_wood_away(ring: tuple[Point, ...], error: float) -> None:
    """With a tape error the sound wood lies within what it was without."""
    panel = Panel(outline_through(ring), 30)
    sure, plain = (panel.sound_for(Spoils.SHOWING, tape_error=e) for e in (error, 0.0))
    assert plain.inner.holds(sure.inner)


def test_cut_outs_may_run_over_an_edge() -> None:
    """A lock pocket open to the edge takes just what of it lies on the panel."""
    pocket = Path.through(
        [Point(900, 748), Point(1090, 748), Point(1090, 900), Point(900, 900)], closed=True
    )
    door = Panel(rectangular_outline(1981, 838), 44, cut_outs=(pocket,))
    assert door.area == pytest.approx(1981 * 838 - 190 * 90)


def test_a_door_weighs_what_doors_weigh() -> None:
    """A solid-core door of 1981 × 838 × 44 weighs about 44 kg (common practice)."""
    door = Panel(rectangular_outline(1981, 838), 44, build=Build(Kind.VENEERED))
    assert door.mass == pytest.approx(44, abs=1)


def test_a_wood_weighs_what_the_handbook_says() -> None:
    """1000·G·(1 + M/100) at 12 %: walnut 616, sugar maple 706, white oak 762 kg/m³.

    Forest Products Laboratory, *Wood Handbook: wood as an engineering material*, FPL-GTR-190
    (Madison 2010), Table 5-3.
    """
    for name, density in (("walnut", 616), ("sugar maple", 706), ("white oak", 762)):
        panel = Panel(rectangular_outline(1000, 1000), 10, material=name)
        assert panel.mass == pytest.approx(density / 100, abs=0.005)


@pytest.mark.parametrize(
    ("make", "says"),
    [
        (lambda: outline_through([Point(0, 0), Point(1, 1)]), "at least 3"),
        (lambda: outline_through([Point(0, 0), Point(9, 9), Point(9, 0), Point(0, 9)]), "order"),
        (lambda: outline_through([Point(0, 0), Point(5, 0), Point(9, 0)]), "meets"),
        (lambda: rectangular_outline(0, 5), "not above 0"),
        (lambda: rectangular_outline(100, 50, radii=(30, 0, 0, 30)), "smaller"),
        (lambda: rectangular_outline(100, 50, radii=(3, 0, 0, 0), clips=(3, 0, 0, 0)), "only|or"),
        (lambda: rectangular_outline(100, 50, bows=(60, 0, 0, 0)), "half of that"),
        (lambda: Panel(rectangular_outline(9, 9), 0), "thickness"),
        (lambda: Panel(rectangular_outline(9, 9), 5, material="adamant"), "not known"),
        (lambda: Build(Kind.SOLID, stile=100), "no rails"),
        (lambda: Build(Kind.HOLLOW, stile=-1), "below 0"),
        (lambda: Defect("x", round_place(Point(0, 0), 1), SHOWING, clear=-1), "below 0"),
        (lambda: Defect("x", round_place(Point(0, 0), 1), SHOWING, depth=0), "depth"),
        (lambda: round_place(Point(0, 0), -4), "diameter"),
        (lambda: rectangular_place(Point(0, 0), 5, 0), "size"),
    ],
)
def test_what_cannot_be_is_refused_in_words(make: object, says: str) -> None:
    """The message names the figure that is wrong."""
    with pytest.raises(PanelError, match=says):
        make()  # type: ignore[operator]


def test_names_of_defects_are_their_own() -> None:
    """Two defects of one name would be mixed up on the sheet."""
    knot = Defect("knot", polygonal_place((Point(1, 1), Point(5, 1), Point(3, 4))), SHOWING)
    panel = Panel(rectangular_outline(10, 10), 5, defects=(knot,))
    with pytest.raises(PanelError, match="knot"):
        panel.with_defect(knot)
    assert panel.without_defect("knot").defects == ()


def test_wood_is_as_soft_across_as_the_handbook_measured() -> None:
    """E_T/E_L runs from 0.050 (yellow birch) to 0.086 (cherry), G_LT/E_L from 0.059 to 0.097.

    Forest Products Laboratory, *Wood Handbook: wood as an engineering material*, FPL-GTR-190
    (Madison 2010), Table 5-1, the figures from memory.
    """
    oak = MATERIALS["oak"].stiffness
    assert oak is not None
    assert 0.050 <= oak.across / oak.along <= 0.086
    assert 0.059 <= oak.shear / oak.along <= 0.097


def test_what_is_only_told_of_spoils_nothing() -> None:
    """A sound glue line leaves all the wood, and a corner under it takes a tape."""
    line = Defect("glue line", rectangular_place(Point(0, 0), 900, 4), frozenset())
    panel = Panel(rectangular_outline(1000, 600), 30, defects=(line,))
    for purpose in Spoils:
        assert panel.sound_for(purpose).inner.area == pytest.approx(600_000)
    assert panel.islands == ()
    assert all(corner.usable for corner in choose_datum(panel).corners)


@pytest.mark.parametrize(("turn", "corners"), [(25.0, 4), (29.5, 4), (30.5, 5), (40.0, 5)])
def test_an_edge_that_turns_by_30_degrees_has_a_corner(turn: float, corners: int) -> None:
    """A bend of less is still one edge, out of straight."""
    rise = 500 * math.tan(math.radians(turn / 2))
    points = [Point(0, 0), Point(1000, 0), Point(1000, 600), Point(500, 600 + rise), Point(0, 600)]
    assert len(edges_of(outline_through(points))) == corners
