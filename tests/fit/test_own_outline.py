"""The maker's own outline at its own size: the clearest place, or the proof that there is none."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any

import numpy as np
import pytest
from numpy.typing import NDArray

from panelwright.layout.errors import LayoutError, NothingFitsError
from panelwright.layout.fit import Fit, Limits, Span, Wish, best_fits
from panelwright.layout.fit.rigid.laid import Ground, Laid, Shape
from panelwright.layout.fit.wood.edges import turned
from panelwright.layout.geometry.placement import Placement
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.polygon import Region
from panelwright.layout.geometry.tolerance import CHORD, PROOF_ALLOWANCE
from panelwright.layout.outlines import Circle, Freeform, Outline, Rectangle
from panelwright.layout.panel.sound import SoundWood

Array = NDArray[np.float64]
Ring = Sequence[tuple[float, float]]

L_TOP: Ring = [(0, 0), (600, 0), (600, 200), (220, 200), (220, 420), (0, 420)]
U_TOP: Ring = [
    (0, 0), (520, 0), (520, 400), (400, 400), (400, 120), (120, 120), (120, 400), (0, 400),
]  # fmt: skip
BOARD: Ring = [(0, 0), (1400, 0), (1400, 600), (0, 600)]
GAP = 0.2
"""mm: above what the default wish allows for these tops, a thousandth of half their width."""


def top(ring: Ring) -> Freeform:
    """Return the outline through the points."""
    return Freeform.through([Point(x, y) for x, y in ring])


def panel(ring: Ring, *holes: Ring) -> Region:
    """Return the panel with these corners and holes."""
    return Region.from_rings(np.array(ring, dtype=float), [np.array(h, dtype=float) for h in holes])


def square(x: float, y: float, half: float) -> Ring:
    """Return a square about a point."""
    return [(x - half, y - half), (x + half, y - half), (x + half, y + half), (x - half, y + half)]


def placed(wood: Region, own: Outline, **changes: Any) -> Fit:  # noqa: ANN401
    """Return the fit found, after its proof and its clearance were checked by geometry alone."""
    wish = Wish(("own outline",), own=own, **changes)
    fit = best_fits(SoundWood.exact(wood), wish)[0]
    whole = Region.from_rings(fit.placement.of(fit.core.outer(CHORD)))
    assert wood.holds(whole.shrunk(PROOF_ALLOWANCE, around=True))
    assert fit.clearance is not None
    assert fit.bound is not None
    assert fit.outline == own
    assert fit.clearance == pytest.approx(wood.edge_distance(whole), abs=PROOF_ALLOWANCE)
    assert 0 <= fit.clearance == fit.score <= fit.bound.value
    assert fit.clearance_gap == fit.bound.value - fit.clearance <= GAP
    return fit


def refused(wood: Region, own: Outline, **changes: Any) -> str:  # noqa: ANN401
    """Return why the outline fits nowhere."""
    with pytest.raises(NothingFitsError) as caught:
        best_fits(SoundWood.exact(wood), Wish(("own outline",), own=own, **changes))
    return str(caught.value)


@pytest.mark.parametrize("turn", [0.0, 0.7, math.pi / 2])
@pytest.mark.parametrize("ring", [BOARD, L_TOP, U_TOP])
def test_an_outline_fits_in_a_panel_of_just_its_form(ring: Ring, turn: float) -> None:
    """A top exactly as large as its panel fits, with a clearance of 0, however the panel lies."""
    there = Placement(Point(120.0, -40.0), turn)
    wood = panel([(p.x, p.y) for p in (there(Point(*q)) for q in ring)])
    fit = placed(wood, top(ring))
    assert fit.clearance == pytest.approx(0.0, abs=PROOF_ALLOWANCE)


@pytest.mark.parametrize("ring", [L_TOP, U_TOP])
def test_a_millimetre_decides(ring: Ring) -> None:
    """Drawn in by 1 mm all round a top has 1 mm of clearance; drawn out by 1 mm it fits nowhere."""
    own, wood = top(ring), panel(ring)
    assert placed(wood, Freeform.of(own.parallel(-1.0))).clearance == pytest.approx(1.0, abs=1e-3)
    words = refused(wood, Freeform.of(own.parallel(1.0)))
    lacks, least = (
        float(part.split(" mm")[0]) for part in words.replace("less than ", "").split(" lacks ")[1:]
    )
    assert 0.8 <= least <= lacks <= 1.5


def test_a_rectangle_lies_in_the_middle_of_a_board() -> None:
    """Half of what a board is wider than a top is left on either side, and the ends are centred."""
    fit = placed(panel(BOARD), Rectangle(1000.0, 500.0))
    assert fit.clearance == pytest.approx(50.0, abs=1e-3)
    assert fit.placement.centre.distance_to(Point(700.0, 300.0)) < 0.01
    assert fit.placement.turn == 0.0


def test_a_top_in_a_round_of_wood_has_the_difference_of_radii() -> None:
    """A round top in a round panel keeps the difference of the two radii."""
    wood = Region.disk(Point(10.0, 20.0), 400.0, around=True)
    assert placed(wood, Circle(600.0)).clearance == pytest.approx(100.0, abs=0.01)


def test_a_circle_keeps_the_difference_to_the_incircle() -> None:
    """A round top in a triangle keeps what the incircle, 2 A / P, is larger by."""
    corners = np.array([(0.0, 0.0), (1300.0, 0.0), (350.0, 820.0)])
    sides = np.hypot(*(np.roll(corners, -1, axis=0) - corners).T)
    inradius = 1300.0 * 820.0 / sides.sum()
    fit = placed(Region.from_rings(corners), Circle(400.0))
    assert fit.clearance == pytest.approx(inradius - 200.0, abs=0.01)
    assert fit.placement.turn == 0.0


def test_a_u_straddles_a_hole() -> None:
    """A U goes round a hole: 40 mm are left to its arms, and below and above its foot."""
    wood = panel([(0, 0), (1000, 0), (1000, 500), (0, 500)], square(500, 300, 100))
    fit = placed(wood, top(U_TOP))
    assert fit.clearance == pytest.approx(40.0, abs=1e-3)


def test_an_e_straddles_two_holes_turned() -> None:
    """An E goes round two holes of a turned panel at once, as far from them as its slots allow."""
    e = [
        (0, 0), (700, 0), (700, 300), (600, 300), (600, 100), (420, 100), (420, 300),
        (280, 300), (280, 100), (100, 100), (100, 300), (0, 300),
    ]  # fmt: skip
    there = Placement(Point(30.0, 70.0), 0.4)

    def moved(ring: Ring) -> Ring:
        return [(p.x, p.y) for p in (there(Point(*q)) for q in ring)]

    outer = [(-25, -25), (725, -25), (725, 400), (-25, 400)]
    wood = panel(moved(outer), moved(square(190, 225, 65)), moved(square(510, 225, 65)))
    fit = placed(wood, top(e))
    assert fit.clearance == pytest.approx(25.0, abs=1e-3)


@pytest.mark.parametrize(("neck", "fits"), [(40.0, True), (80.0, False)])
def test_a_neck_lets_only_a_thinner_one_through(neck: float, fits: bool) -> None:
    """A top with a neck goes through the neck of a panel of two lobes where its own is narrower."""

    def lobes(half: float, size: float, length: float) -> Ring:
        a, b = length / 2, length / 2 + size
        right = [
            (a, -half),
            (a, -size / 2),
            (b, -size / 2),
            (b, size / 2),
            (a, size / 2),
            (a, half),
        ]
        return [*right, *((-x, -y) for x, y in right)]

    wood, own = panel(lobes(30.0, 400.0, 200.0)), top(lobes(neck / 2, 200.0, 240.0))
    if fits:
        assert placed(wood, own).clearance == pytest.approx(10.0, abs=1e-3)
    else:
        assert "lacks 10.0 mm" in refused(wood, own)


def test_a_top_is_never_mirrored() -> None:
    """A top with one show side does not fit in the mirror image of its form."""
    ring = [(0, 0), (900, 0), (200, 500)]
    own = top(ring)
    mirrored = panel([(-x, y) for x, y in reversed(ring)])
    assert placed(panel(ring), own).clearance == pytest.approx(0.0, abs=PROOF_ALLOWANCE)
    refused(mirrored, own)


def test_a_saw_cut_is_never_bridged() -> None:
    """A panel cut in two by 3 mm holds only tops that lie in one of the parts."""
    wood = panel(BOARD).minus(panel([(800, -10), (803, -10), (803, 610), (800, 610)]))
    assert placed(wood, Rectangle(780.0, 580.0)).placement.centre.x < 800
    refused(wood, Rectangle(820.0, 580.0))


def test_a_slit_that_ends_in_the_wood_is_kept_clear_of() -> None:
    """A thin oblique slit within one piece is not crossed, though no corner of the top tells."""
    slit = [(600, 150), (601, 149), (901, 449), (900, 450)]
    wood = panel(BOARD, slit)
    fit = placed(wood, Rectangle(560.0, 400.0))
    assert fit.clearance is not None
    assert fit.clearance > 10.0
    refused(wood, Rectangle(1100.0, 500.0))


def test_of_two_lobes_the_larger_is_taken() -> None:
    """Where a top fits in either lobe of a panel it lies in the one with more room."""
    wood = panel(
        [(0, 0), (500, 0), (500, 220), (620, 220), (620, 0), (1180, 0), (1180, 520), (620, 520),
         (620, 280), (500, 280), (500, 500), (0, 500)]
    )  # fmt: skip
    fit = placed(wood, Rectangle(400.0, 300.0))
    assert fit.placement.centre.x > 620


def test_limits_of_turn_are_kept() -> None:
    """A top that may turn by 5° from the grain lies so, one way round or the other."""
    there = Placement(turn=0.5)
    wood = panel([(p.x, p.y) for p in (there(Point(*q)) for q in BOARD)])
    limits = Limits(grain_deg=math.degrees(0.3), most_turn_deg=5)
    fit = placed(wood, top(L_TOP), limits=limits)
    off = math.remainder(fit.placement.turn - 0.3, math.pi)
    assert abs(off) <= math.radians(5) + 1e-9
    free = placed(wood, top(L_TOP))
    assert fit.clearance is not None
    assert free.bound is not None
    assert fit.clearance <= free.bound.value


def test_limits_of_size_refuse_what_breaks_them() -> None:
    """An outline that is longer or wider than allowed is refused by its size, unsearched."""
    words = refused(panel(BOARD), top(L_TOP), limits=Limits(length=Span(0.0, 550.0)))
    assert "has a length above the limit of 550" in words
    words = refused(panel(BOARD), top(L_TOP), limits=Limits(width=Span(450.0)))
    assert "has a width below the limit of 450" in words


def test_a_lipping_and_a_missing_outline_are_refused() -> None:
    """No lipping goes round an outline of the maker's own, and none is searched without one."""
    wood = SoundWood.exact(panel(BOARD))
    with pytest.raises(LayoutError, match="lipping of 10 mm"):
        best_fits(wood, Wish(("own outline",), own=top(L_TOP), lipping=10.0))
    with pytest.raises(LayoutError, match="needs that outline"):
        best_fits(wood, Wish(("own outline",)))


def test_what_fits_nowhere_is_told_how_much_smaller_it_would_fit() -> None:
    """The share of its size that is proposed does fit, and one of 2 % more does not."""
    wood, own = panel(BOARD), top([(0, 0), (1500, 0), (1500, 620), (0, 500)])
    words = refused(wood, own)
    share = int(words.split("draw it at ")[1].split("%")[0])
    assert placed(wood, own.scaled(share / 100))
    refused(wood, own.scaled((share + 2) / 100))


@pytest.mark.parametrize(("x", "inside"), [(300.0, True), (1100.0, True), (700.0, True)])
def test_points_are_covered_where_they_are_asked_for(x: float, inside: bool) -> None:
    """A top covers the point that it must, at a cost of clearance only where it has to move."""
    wood, own, point = panel(BOARD), top(L_TOP), Point(x, 120.0)
    fit = placed(wood, own, covers=(point,))
    assert Region.from_rings(fit.points()).grown(0.01).holds_point(point) is inside
    off = placed(wood, own, avoids=(point,))
    assert not Region.from_rings(off.points()).holds_point(point)


def test_islands_lie_inside_or_outside() -> None:
    """The edge of a top crosses no island: it goes round it or keeps clear of it."""
    island = panel(square(520, 300, 60))
    wish = Wish(("own outline",), own=top([(0, 0), (900, 0), (900, 420), (300, 520), (0, 300)]))
    fit = best_fits(SoundWood.exact(panel(BOARD)), wish, islands=(island,))[0]
    within = Region.from_rings(fit.points())
    assert within.holds(island) or not within.touches_or_crosses(island)


@pytest.mark.parametrize(("share", "held"), [(1 - 1e-5, True), (1.0, False)])
def test_what_must_be_held_lies_within_by_a_hair(share: float, held: bool) -> None:
    """On the very edge it would be held or not by a last bit, and a proof be lost by it."""
    shape = Shape.of(top([(0, 0), (700, 20), (660, 400), (-30, 330)]))
    pose = np.array([700.0, 300.0, 0.1])
    points = turned(share * shape.corners, -float(pose[2])) + pose[:2]
    clearance = Laid(shape, Ground.of(panel(BOARD)), points).clearance(pose)
    assert (clearance > 0) is held


def test_tops_are_ranked_by_area_not_by_clearance() -> None:
    """Beside others, an outline of one size takes the place that its area gives it."""
    wood = SoundWood.exact(panel(BOARD))
    small = Wish(("own outline", "circle"), own=Rectangle(300.0, 200.0))
    large = Wish(("own outline", "circle"), own=Rectangle(1300.0, 500.0))
    assert [fit.outline.name for fit in best_fits(wood, small)] == ["circle", "rectangle"]
    assert [fit.outline.name for fit in best_fits(wood, large)] == ["rectangle", "circle"]
    assert best_fits(wood, large)[0].gap is None
