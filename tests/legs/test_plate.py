"""The plate: by published plates, by convergence, and by laws of scale and turning."""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy.interpolate import CubicSpline

from panelwright.layout.geometry.path import Path
from panelwright.layout.geometry.placement import Placement
from panelwright.layout.geometry.point import Point
from panelwright.layout.legs.plate import CELLS, Plate, RestedPlate, rigidity
from panelwright.layout.outlines import Capsule, Circle, Oval, Rectangle, Superellipse
from panelwright.layout.panel.materials import MATERIALS, Stiffness

BOARD = Stiffness.alike_both_ways(3000.0, "test")
STIFF = rigidity(BOARD, 20.0)
D = float(STIFF[0, 0])
PRESSURE = 1e-4


def _corners(x: float, y: float) -> list[Point]:
    return [Point(-x, -y), Point(x, -y), Point(x, y), Point(-x, y)]


def _edges(length: float, width: float, count: int) -> list[Point]:
    """Return points close together all round a rectangle: simple supports, for a plate."""
    steps = np.arange(count) / count - 0.5
    x, y = length / 2, width / 2
    sides = [[(s * length, -y), (x, s * width), (-s * length, y), (-x, -s * width)] for s in steps]
    return [Point(*place) for side in sides for place in side]


def _down_at(rested: RestedPlate, down: np.ndarray, x: float, y: float) -> float:
    places = rested.plate.places
    k = int(np.argmin(np.hypot(places[:, 0] - x, places[:, 1] - y)))
    assert math.hypot(places[k, 0] - x, places[k, 1] - y) < 1e-6
    return float(down[k])


def _under_force(rested: RestedPlate, at: Point, force: float) -> np.ndarray:
    """Return how far it goes down at its places, mm, under a force, N, at one of them."""
    plate = rested.plate
    k = int(np.argmin(np.hypot(*(plate.places - np.array(tuple(at))).T)))
    assert math.dist(plate.places[k], tuple(at)) < 1e-6
    down: np.ndarray = plate.reading @ rested._answers(plate.reading[k][:, None])[:, 0]
    return down * force


def test_the_stiffness_of_a_board_is_that_of_the_handbook_plate() -> None:
    """D = E t³/(12 (1 − ν²)), and a board alike both ways is stiff alike at any turn."""
    assert pytest.approx(3000 * 20**3 / (12 * (1 - 0.09))) == D
    assert rigidity(BOARD, 20.0, 0.7) == pytest.approx(STIFF, abs=1e-6 * D)


@pytest.mark.parametrize("cells", [100, 400])
def test_a_square_on_its_corners_bends_as_ritz_says(cells: int) -> None:
    """Middle 0.02551, middle of an edge 0.01775 q a⁴/D at ν 0.3 (computed, Ritz)."""
    side = 1000.0
    rested = Plate.cut(Rectangle(side, side).path(), STIFF, cells).on(_corners(500, 500))
    down = rested.under_load(PRESSURE) * D / (PRESSURE * side**4)
    assert _down_at(rested, down, 0, 0) == pytest.approx(0.02551, abs=1e-5)
    assert _down_at(rested, down, 0, 500) == pytest.approx(0.01775, abs=1e-5)


@pytest.mark.parametrize(
    ("ratio", "alpha"), [(1.0, 0.00406), (1.5, 0.00772), (2.0, 0.01013), (3.0, 0.01223)]
)
def test_a_plate_on_its_edges_bends_as_timoshenko_says(ratio: float, alpha: float) -> None:
    """Even load: α q a⁴/D (TWK Table 8: quoted, 3.0 computed; 0.6 %)."""
    a = 600.0
    plate = Plate.cut(Rectangle(a * ratio, a).path(), STIFF)
    rested = plate.on(_edges(a * ratio, a, 16))
    down = rested.under_load(PRESSURE) * D / (PRESSURE * a**4)
    assert float(down.max()) == pytest.approx(alpha, rel=0.006)


@pytest.mark.parametrize(("ratio", "alpha"), [(1.0, 0.01160), (1.4, 0.01486), (2.0, 0.01652)])
def test_a_force_in_the_middle_bends_it_as_timoshenko_says(ratio: float, alpha: float) -> None:
    """Force in the middle: α P a²/D (TWK Table 23: quoted, 2.0 computed)."""
    a = 600.0
    plate = Plate.cut(Rectangle(a * ratio, a).path(), STIFF, 800)
    down = _under_force(plate.on(_edges(a * ratio, a, 16)), Point(0, 0), 100.0)
    assert float(down.max()) * D / (100.0 * a * a) == pytest.approx(alpha, rel=0.01)


@pytest.mark.parametrize(("ratio", "alpha"), [(1.0, 0.0444), (1.2, 0.0616), (1.6, 0.0906)])
def test_a_plate_on_its_edges_bends_as_roark_says(ratio: float, alpha: float) -> None:
    """Even load: α q b⁴/(E t³), *Roark*, 7th ed., Table 11.4 case 1 (read)."""
    b = 600.0
    plate = Plate.cut(Rectangle(b * ratio, b).path(), STIFF)
    down = plate.on(_edges(b * ratio, b, 16)).under_load(PRESSURE)
    assert float(down.max()) * 3000 * 20**3 / (PRESSURE * b**4) == pytest.approx(alpha, rel=0.01)


def test_a_round_plate_on_its_rim_bends_as_the_handbook_says() -> None:
    """0.063702 q a⁴/D at ν 0.3 (Chen (ed.), *Civil Engineering Handbook*, eqs 47.72–47.76)."""
    a = 500.0
    plate = Plate.cut(Circle(2 * a).path(), STIFF, 800)
    rim = [Point.polar(a, math.tau * k / 32) for k in range(32)]
    down = plate.on(rim).under_load(PRESSURE) * D / (PRESSURE * a**4)
    assert float(down.max()) == pytest.approx(0.063702, rel=0.01)


def _navier(terms: int) -> float:
    """Return α of a square plate on its edges with a force in the middle: w = α P a²/D (Navier)."""
    odd = np.arange(1, 2 * terms, 2, dtype=np.float64) ** 2
    return float(4 / math.pi**4 * (1 / (odd[:, None] + odd[None, :]) ** 2).sum())


def test_it_converges_as_fast_as_a_force_at_a_point_allows() -> None:
    """Under a force the error falls with the square of the cells' size (r² log r)."""
    side, exact = 600.0, _navier(400)
    errors = []
    for cells in (64, 256, 1024):
        rested = Plate.cut(Rectangle(side, side).path(), STIFF, cells).on(_edges(side, side, 16))
        down = _under_force(rested, Point(0, 0), 100.0)
        errors.append(abs(float(down.max()) * D / (100 * side**2) - exact))
    assert errors[0] > 3 * errors[1] > 9 * errors[2]


def test_the_usual_number_of_cells_gives_sag_to_a_third_of_a_percent() -> None:
    """On four legs inside the rim, four times the cells change the sag by less than 0.3 %."""
    for outline in (Capsule(1800, 720), Oval(1270, 762), Rectangle(1200, 700)):
        feet = _corners(outline.length * 0.3, outline.width * 0.28)
        few = Plate.cut(outline.path(), STIFF).on(feet).under_load(PRESSURE)
        many = Plate.cut(outline.path(), STIFF, 4 * CELLS).on(feet).under_load(PRESSURE)
        assert float(few.max()) == pytest.approx(float(many.max()), rel=0.003)


def test_a_support_past_the_rim_counts_as_on_it() -> None:
    """A foot given past the edge bends the top as if it stood on the edge."""
    plate = Plate.cut(Rectangle(1000, 600).path(), STIFF, 200)
    on = plate.on(_corners(500, 200)).under_load(PRESSURE)
    past = plate.on(_corners(550, 200)).under_load(PRESSURE)
    assert past == pytest.approx(on, rel=1e-6, abs=1e-9)


def test_twice_the_size_sags_sixteen_times_and_twice_the_thickness_an_eighth() -> None:
    """Sag goes as q L⁴/D, and D as t³: everything scaled scales the answer."""
    small = Plate.cut(Oval(900, 500).path(), STIFF, 200).on(_corners(250, 120))
    large = Plate.cut(Oval(1800, 1000).path(), STIFF, 200).on(_corners(500, 240))
    thick = Plate.cut(Oval(900, 500).path(), rigidity(BOARD, 40.0), 200).on(_corners(250, 120))
    down = small.under_load(PRESSURE)
    assert large.under_load(PRESSURE) == pytest.approx(16 * down, rel=1e-6, abs=1e-9)
    assert thick.under_load(PRESSURE) == pytest.approx(down / 8, rel=1e-6, abs=1e-9)
    assert large.give.max() == pytest.approx(4 * small.give.max(), rel=1e-6)


def test_turning_top_feet_and_grain_together_changes_nothing() -> None:
    """A plate of wood bends alike however it lies, as long as its grain turns with it."""
    turn, oak = 0.6, MATERIALS["oak"].stiffness
    assert oak is not None
    straight = Plate.cut(Rectangle(1200, 600).path(), rigidity(oak, 25.0))
    path = Rectangle(1200, 600).path().placed(Placement(turn=turn))
    turned = Plate.cut(path, rigidity(oak, 25.0, turn))
    feet = _corners(400, 200)
    one = straight.on(feet).under_load(PRESSURE)
    other = turned.on([p.turned(turn) for p in feet]).under_load(PRESSURE)
    assert float(other.max()) == pytest.approx(float(one.max()), rel=0.002)


def test_wood_across_its_span_sags_more() -> None:
    """With the grain across the long way the same top sags several times as much."""
    oak, feet = MATERIALS["oak"].stiffness, _corners(560, 240)
    assert oak is not None
    path = Rectangle(1400, 600).path()
    along = Plate.cut(path, rigidity(oak, 25.0)).on(feet).under_load(PRESSURE).max()
    across = Plate.cut(path, rigidity(oak, 25.0, math.pi / 2)).on(feet).under_load(PRESSURE).max()
    assert across > 3 * along


def test_a_narrow_board_finds_the_points_of_airy_and_bessel() -> None:
    """Its ends lie level on the Airy points, and it shortens least on Bessel's, 0.22031 L in."""
    strip = Stiffness(3000.0, 3000.0, 1500.0, 0.0, "test")
    plate = Plate.cut(Rectangle(2000, 100).path(), rigidity(strip, 20.0), 200)
    middle = np.flatnonzero(np.abs(plate.places[:, 1]) < 1e-6)
    along = middle[np.unique(np.round(plate.places[middle, 0], 6), return_index=True)[1]]
    xs = plate.places[along, 0]

    def slopes(share: float) -> np.ndarray:
        feet = [Point(sx * (1000 - share * 2000), y) for sx in (-1, 1) for y in (-50, 0, 50)]
        down = CubicSpline(xs, plate.on(feet).under_load(PRESSURE)[along])
        return np.diff(down(np.linspace(-1000, 1000, 201)))

    def end(share: float) -> float:
        return float(slopes(share)[-1])

    assert end(0.2) < 0 < end(0.2226)
    level = 0.2 + 0.0226 * end(0.2) / (end(0.2) - end(0.2226))
    assert level == pytest.approx(0.211325, abs=0.0015)
    shares = np.linspace(0.205, 0.235, 7)
    lost = [float((slopes(share) ** 2).sum()) for share in shares]
    a, b, _ = np.polyfit(shares, lost, 2)
    assert -b / (2 * a) == pytest.approx(0.22031, abs=0.001)


def test_a_force_anywhere_gives_way_most_where_the_plate_is_softest() -> None:
    """Give at a point is what a force there does there, and no force elsewhere does more."""
    rested = Plate.cut(Oval(1270, 762).path(), STIFF, 200).on(_corners(368, 200))
    places = rested.plate.places
    for k in (0, 5, len(places) - 1):
        down = _under_force(rested, Point(*places[k]), 1.0)
        assert down[k] == pytest.approx(rested.give[k], rel=1e-5, abs=1e-12)
        assert float(np.abs(down).max()) <= rested.give.max() * (1 + 1e-6)


def test_the_answer_of_one_place_to_another_is_mutual() -> None:
    """What a force at A does at B, the same force at B does at A (Maxwell and Betti)."""
    rested = Plate.cut(Capsule(1400, 600).path(), STIFF, 200).on(_corners(400, 180))
    places = rested.plate.places
    a, b = 3, len(places) // 2
    there = _under_force(rested, Point(*places[a]), 1.0)[b]
    back = _under_force(rested, Point(*places[b]), 1.0)[a]
    assert there == pytest.approx(back, rel=1e-6)


def test_a_narrow_board_bends_as_a_beam() -> None:
    """A strip without sideways contraction is the elementary beam: 5/384 w l⁴/EI."""
    strip = Stiffness(3000.0, 3000.0, 1500.0, 0.0, "test")
    length, width, thick = 2000.0, 100.0, 20.0
    plate = Plate.cut(Rectangle(length, width).path(), rigidity(strip, thick))
    feet = [Point(x, y) for x in (-1000, 1000) for y in (-50, 0, 50)]
    down = plate.on(feet).under_load(PRESSURE)
    expected = 5 / 384 * PRESSURE * width * length**4 / (3000 * width * thick**3 / 12)
    assert float(down.max()) == pytest.approx(expected, rel=0.002)


def test_a_rim_of_many_short_arcs_makes_no_other_plate() -> None:
    """A superellipse of exponent 2 is the oval, and so it bends, though its path has 400 arcs."""
    smooth, many = Oval(1500, 800).path(), Superellipse(1500, 800, 2).path()
    assert len(many.segments) > 200
    feet = _corners(450, 240)
    one, other = (Plate.cut(path, STIFF).on(feet).under_load(PRESSURE) for path in (smooth, many))
    assert float(other.max()) == pytest.approx(float(one.max()), rel=5e-4)


@pytest.mark.parametrize("gap", [0.5, 20.0, 100.0])
def test_what_lies_across_a_slit_does_not_bend_with_it(gap: float) -> None:
    """Beside a slit each arm bends alone, be the slit narrower than a cell: 0.93 mm, not 0.42."""
    x, ring = gap / 2, [(-600, -300), (600, -300), (600, 300)]
    slit = [*ring, (x, 300), (x, -100), (-x, -100), (-x, 300), (-600, 300)]
    mdf = MATERIALS["MDF"].stiffness
    assert mdf is not None
    path = Path.through([Point(*p) for p in slit], closed=True)
    down = Plate.cut(path, rigidity(mdf, 22.0)).on(_corners(500, 250)).under_load(PRESSURE)
    fine = {0.5: 0.916, 20.0: 0.930, 100.0: 0.915}[gap]  # by triangles ten times as many as it had
    assert float(down.max()) == pytest.approx(fine, rel=0.16 if gap < 1 else 0.07)


def test_edges_on_the_lines_of_cells_leave_no_slivers_to_give_way() -> None:
    """Of teeth 100 wide the outermost, 450 long, gives 0.56 mm under 1 N (computed, triangles)."""
    comb = [(-600.0, -150.0), (-600.0, -300.0), (600.0, -300.0), (600.0, 300.0)]
    for x in (500.0, 300.0, 100.0, -100.0, -300.0):
        comb += [(x, 300.0), (x, -150.0), (x - 100, -150.0), (x - 100, 300.0)]
    comb += [(-500.0, 300.0), (-500.0, -150.0)]
    oak = MATERIALS["oak"].stiffness
    assert oak is not None
    plate = Plate.cut(Path.through_ring(np.array(comb)), rigidity(oak, 25.0))
    feet = [Point(-480, -240), Point(480, -240), Point(540, 240), Point(-360, 240)]
    assert float(plate.on(feet).give.max()) == pytest.approx(0.56, rel=0.02)
