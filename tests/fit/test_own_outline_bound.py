"""The bound on the maker's own outline: attacked by random poses, held to laws of panels."""

from __future__ import annotations

import json
import math
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray
from strategies import placements, star_rings

from panelwright.layout.errors import NothingFitsError
from panelwright.layout.fit import Fit, Wish, best_fits
from panelwright.layout.fit.rigid.bounds import Cells, bounded, held_in
from panelwright.layout.fit.rigid.laid import Ground, Laid, Play
from panelwright.layout.fit.rigid.places import OwnPlaces
from panelwright.layout.fit.wood.edges import turned
from panelwright.layout.geometry.placement import Placement
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.polygon import Region
from panelwright.layout.outlines import Circle, Freeform, Outline, Rectangle
from panelwright.layout.panel.sound import SoundWood

Array = NDArray[np.float64]
CASES: dict[str, Any] = json.loads(
    (Path(__file__).parent / "data" / "fit_cases.json").read_text(encoding="utf-8")
)["cases"]


def top(ring: Any) -> Freeform:  # noqa: ANN401
    """Return the outline through the points."""
    return Freeform.through([Point(float(x), float(y)) for x, y in ring])


def kidney() -> Freeform:
    """Return a kidney of 40 points, 520 mm long."""
    around = np.arange(40) * math.tau / 40
    reach = 180 + 60 * np.cos(2 * around) + 45 * np.sin(around)
    return top(np.column_stack([1.2 * reach * np.cos(around), reach * np.sin(around)]))


OWN: dict[str, Outline] = {
    "L": top([(0, 0), (600, 0), (600, 200), (220, 200), (220, 420), (0, 420)]),
    "five corners": top([(0, 0), (500, 0), (560, 250), (250, 400), (-40, 230)]),
    "kidney": kidney(),
    "U": top(
        [(0, 0), (520, 0), (520, 400), (400, 400), (400, 120), (120, 120), (120, 400), (0, 400)]
    ),
}


def region(name: str) -> Region:
    """Return a reference panel, or a board with a slit from its edge."""
    if name == "slit":
        ring = [(0, 0), (1200, 0), (1200, 700), (640, 700), (602, 150), (598, 150), (560, 700),
                (0, 700)]  # fmt: skip
        return Region.from_rings(np.array(ring, dtype=float))
    case = CASES[name]
    return Region.from_rings(np.array(case["exterior"]), [np.array(h) for h in case["holes"]])


def placed(wood: Region, own: Outline) -> Fit:
    """Return the best place of an outline."""
    return best_fits(SoundWood.exact(wood), Wish(("own outline",), own=own))[0]


@pytest.mark.parametrize("name", ["slit", "T_notch2", "screw_holes8", "L_shape", "star5"])
@pytest.mark.parametrize("own", OWN)
def test_no_pose_in_a_box_beats_its_bounds(name: str, own: str) -> None:
    """In boxes of all sizes round good and bad poses, both bounds stand against random poses."""
    random = np.random.default_rng(len(name) + 100 * len(own))
    family = OwnPlaces(
        SoundWood.exact(region(name)), Wish((), own=OWN[own]), OWN[own], crossing=True
    )
    laid, shape, climber = family.laid[0], family.shape, family.tops
    box = laid.ground.region.bounds
    for _ in range(10):
        pose = random.uniform([box.left, box.bottom, 0.0], [box.right, box.top, math.tau])
        _, pose = climber.climbed(pose)
        half = 10 ** random.uniform(-1, 1.9) * np.array([1.0, random.uniform(0.2, 1.0), 0.0])
        half[2] = half[0] * random.uniform(0.2, 1.5) / shape.reach
        middle = pose + random.uniform(-1, 1, 3) * half
        plain = laid.clear(middle, Play.of(half))
        sharp = bounded(laid, middle, half, math.inf)[0]
        cells = Cells(laid, middle[None], half, np.array([math.inf]))
        cells.bound(-math.inf)
        most = min(plain, sharp, float(cells.most[0]))
        tried = [pose, *(middle + random.uniform(-1, 1, (10, 3)) * half)]
        assert max(climber.clearance(there) for there in tried) <= most + 1e-6


@pytest.mark.parametrize("name", ["T_notch2", "screw_holes8", "L_shape"])
@pytest.mark.parametrize("own", OWN)
def test_no_pose_that_holds_what_it_must_beats_the_bound_on_those(name: str, own: str) -> None:
    """Of poses in a box that hold points near the outline's rim, none clears more than bounded."""
    random = np.random.default_rng(len(name) + 10 * len(own))
    family = OwnPlaces(
        SoundWood.exact(region(name)), Wish((), own=OWN[own]), OWN[own], crossing=True
    )
    laid, shape = family.laid[0], family.shape
    box, told = laid.ground.region.bounds, 0
    for _ in range(30):
        pose = random.uniform([box.left, box.bottom, 0.0], [box.right, box.top, math.tau])
        rim = 0.97 * shape.corners[random.choice(len(shape.corners), 3)]
        climber = Laid(shape, laid.ground, turned(rim, -float(pose[2])) + pose[:2])
        half = 10 ** random.uniform(-1, 1.5) * np.array([1.0, random.uniform(0.2, 1.0), 0.0])
        half[2] = half[0] * random.uniform(0.2, 1.5) / shape.reach
        middle = pose + random.uniform(-1, 1, 3) * half
        held = held_in(laid, climber.held, middle, half)
        free = bounded(laid, middle, half, math.inf)[0]
        most = bounded(laid, middle, half, math.inf, held)[0]
        tried = [pose, *(middle + random.uniform(-1, 1, (60, 3)) * half)]
        assert max(climber.clearance(there) for there in tried) <= most + 1e-6
        told += most < free - 0.1
    assert told


@pytest.mark.parametrize("off", [4.0, 35.0])
def test_a_point_to_hold_near_the_edge_says_how_clear_a_top_can_be(off: float) -> None:
    """A top that holds a point so far from the board's edge is no clearer of it than that."""
    wood = SoundWood.exact(Region.from_rings(np.array([(0, 0), (2000, 0), (2000, 700), (0, 700)])))
    held = (Point(900.0, 700.0 - off),)
    tray = top([(0, 0), (1400, 0), (1400, 450), (1100, 600), (300, 600), (0, 450)])
    wish = Wish(("own outline",), own=tray, covers=held)
    fit = best_fits(wood, wish)[0]
    assert fit.bound is not None
    assert fit.score == pytest.approx(off, abs=0.02)
    assert fit.bound.value <= off + 0.31


@pytest.mark.parametrize("own", OWN)
def test_no_pose_at_the_end_of_a_turn_beats_any_one_of_the_bounds(own: str) -> None:
    """Where a box is next to nothing but turns, each bound alone stands against its very ends."""
    random = np.random.default_rng(len(own))
    wood = region("star5")
    family = OwnPlaces(SoundWood.exact(wood), Wish((), own=OWN[own]), OWN[own], crossing=True)
    laid, climber = family.laid[0], family.tops
    box = laid.ground.region.bounds
    for _ in range(25):
        pose = random.uniform([box.left, box.bottom, 0.0], [box.right, box.top, math.tau])
        _, pose = climber.climbed(pose)
        half = np.array([1e-3, 1e-3, 10 ** random.uniform(-2.5, -0.3)])
        for end in (-1.0, 1.0):
            middle = pose - end * half
            cells = Cells(laid, middle[None], half, np.array([math.inf]))
            cells.bound(-math.inf)
            bounds = (
                laid.clear(middle, Play.of(half)),
                bounded(laid, middle, half, math.inf)[0],
                float(cells.most[0]),
            )
            assert climber.clearance(pose) <= min(bounds) + 1e-6


@pytest.mark.parametrize("own", ["L", "kidney"])
def test_tops_polished_from_random_poses_never_beat_the_bound(own: str) -> None:
    """Climbing from poses all over three panels finds no more clearance than the bound allows."""
    random = np.random.default_rng(7)
    for name in ("T_notch2", "broken_corners", "star5"):
        wood = region(name)
        family = OwnPlaces(SoundWood.exact(wood), Wish((), own=OWN[own]), OWN[own])
        climber = family.tops
        fit = placed(wood, OWN[own])
        assert fit.bound is not None
        box, best = wood.bounds, 0.0
        for _ in range(12):
            pose = random.uniform([box.left, box.bottom, 0.0], [box.right, box.top, math.tau])
            best = max(best, climber.climbed(pose)[0])
        assert best <= fit.bound.value
        assert fit.score >= best - 0.02


def grown(own: Outline, by: float) -> Freeform:
    """Return a straight-sided outline with every point nearer than `by` added."""
    return top(Region.from_rings(own.inner()).grown(by).simplified(0.02).exterior)


@pytest.mark.parametrize(
    ("name", "own"),
    [
        ("trapezoid", "kidney"),
        ("T_notch2", "five corners"),
        ("star5", "five corners"),
        ("L_shape", "L"),
    ],
)
def test_a_millimetre_more_than_the_clearance_fits_nowhere(name: str, own: str) -> None:
    """Grown all round by its clearance less 1 mm a top still fits; by 1 mm more it fits nowhere."""
    wood = region(name)
    fit = placed(wood, OWN[own])
    assert fit.bound is not None
    assert fit.bound.value - fit.score < 0.25
    near = placed(wood, grown(OWN[own], fit.score - 1.0))
    assert near.score == pytest.approx(1.0, abs=0.25)
    with pytest.raises(NothingFitsError, match="fits nowhere"):
        placed(wood, grown(OWN[own], fit.score + 1.0))


@settings(max_examples=6, deadline=None)
@given(ring=star_rings(), there=placements)
def test_a_moved_and_turned_panel_gives_the_same(ring: tuple[Point, ...], there: Placement) -> None:
    """What is found on a panel stays within the bound of the same panel moved and turned."""
    own = Rectangle(150.0, 110.0)
    one = Region.from_rings(np.array([(p.x, p.y) for p in ring]))
    try:
        fit = placed(one, own)
    except NothingFitsError:
        with pytest.raises(NothingFitsError):
            placed(one.placed(there), own)
        return
    other = placed(one.placed(there), own)
    assert fit.bound is not None
    assert other.bound is not None
    assert fit.score <= other.bound.value + 0.01
    assert other.score <= fit.bound.value + 0.01


@settings(max_examples=6, deadline=None)
@given(ring=star_rings(), x=st.floats(-150.0, 150.0), y=st.floats(-150.0, 150.0))
def test_a_defect_never_gives_more_clearance(ring: tuple[Point, ...], x: float, y: float) -> None:
    """With a hole in the panel no more is found than the bound without it allows."""
    wood = Region.from_rings(np.array([(p.x, p.y) for p in ring]))
    own = Circle(120.0)
    whole = placed(wood, own)
    assert whole.bound is not None
    try:
        holed = placed(wood.minus(Region.disk(Point(x, y), 30.0, around=True)), own)
    except NothingFitsError:
        return
    assert holed.score <= whole.bound.value


def test_the_table_of_depths_bounds_every_point() -> None:
    """No point, within the wood or outside it, lies deeper than the table says."""
    random = np.random.default_rng(3)
    for name in ("screw_holes8", "ne50_austria"):
        wood = region(name)
        ground, box = Ground.of(wood.pieces[0]), wood.bounds.grown(200.0)
        points = random.uniform([box.left, box.bottom], [box.right, box.top], (4000, 2))
        assert (ground.depths.most(points) >= ground.region.depths(points)).all()
