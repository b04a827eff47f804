"""Plugs, keys and patches: their sizes, where they go, and what a mended fault still spoils."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from told import told
from worked_panels import BENCH_TOP, SLAB

from panelwright.layout.cutting.mending import Mended, mends_for, plug_bore
from panelwright.layout.cutting.plan import CutPlan
from panelwright.layout.errors import LayoutError
from panelwright.layout.geometry.placement import Placement
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.polygon import Region
from panelwright.layout.geometry.tolerance import CHORD
from panelwright.layout.geometry.turned_box import TurnedBox
from panelwright.layout.panel import (
    Build,
    Coat,
    Defect,
    Face,
    Kind,
    Mend,
    Panel,
    Spoils,
    rectangular_outline,
    rectangular_place,
    round_place,
)
from panelwright.layout.panel.datum import choose_datum
from panelwright.layout.units import MM_PER_INCH, Tape
from panelwright.layout.words.panel import mend_words
from panelwright.layout.words.say import Say

SEEN = frozenset({Spoils.SHOWING, Spoils.BEARING})
BOARD = Panel(rectangular_outline(2000, 800), 26, grain_deg=17)
SAY = Say(Tape(), choose_datum(BOARD))


def hole(diameter: float, **more: object) -> Defect:
    """Return a hole that is plugged, unless told otherwise."""
    told = {"mend": Mend.PLUG, **more}
    return Defect("hole", round_place(Point(640, 180), diameter), SEEN, **told)  # type: ignore[arg-type]


def order(cuts: CutPlan, title: str) -> int:
    """Return where the step of this title comes."""
    titles = [getattr(step, "title", "") for step in cuts.steps]
    return titles.index(title)


def mended(panel: Panel, defect: Defect, tape: Tape | None = None) -> Mended:
    """Return the one mend of a panel all of which is kept."""
    (found,) = mends_for(panel.with_defect(defect), panel.region(), tape or Tape())
    return found


def test_the_hole_in_the_lab_bench_is_plugged() -> None:
    """A hole of 35 is bored clean to 38, right through 26, and left 1 proud for 24 h (by hand)."""
    job = replace(BENCH_TOP, panel=BENCH_TOP.panel.with_defect(hole(35.0)))
    (plug,) = job.cuts.mends
    assert (plug.length, plug.depth, plug.through) == (38.0, 26.0, True)
    assert (plug.proud, plug.wait) == (1.0, 24.0)
    (mend,) = told(job.cuts, job.datum, title="Mend hole")
    assert "ore clean to 38, 26 deep" in mend.words[0] and "face-grain plug" in mend.words[0]
    titles = [step.title for step in told(job.cuts, job.datum)]
    assert titles.index("Mend hole") < min(
        i for i, t in enumerate(titles) if t.startswith("Saw line")
    )


def test_the_check_in_the_slab_is_keyed() -> None:
    """A check 180 long in elm of 42 takes two keys 90 × 35 × 14 across it, after flattening."""
    check = Defect(
        "check",
        rectangular_place(Point(1250, 300), 180, 30),
        frozenset({Spoils.BEARING}),
        mend=Mend.KEY,
    )
    cuts = replace(SLAB, panel=SLAB.panel.with_defect(check)).cuts
    (keys,) = cuts.mends
    assert (keys.length, keys.width, keys.depth) == (90.0, 35.0, 14.0)
    assert [place.centre for place in keys.places] == [Point(1205, 300), Point(1295, 300)]
    assert all(math.cos(place.turn) == pytest.approx(0.0, abs=1e-9) for place in keys.places)
    titles = [step.title for step in told(cuts, SLAB.datum)]
    assert titles.index("Flatten") < titles.index("Mend check") < titles.index("Rest, mark again")


@given(st.floats(1.0, 78.0), st.booleans())
def test_a_plug_bores_clean_and_takes_the_next_bit(diameter: float, imperial: bool) -> None:
    """At least 1 mm is bored away all round, by a bit that is sold in the tape's unit."""
    bore = plug_bore(diameter, Tape(imperial=imperial))
    if bore is None:
        assert imperial and diameter > 48 / 16 * MM_PER_INCH - 2 - 1e-9
        return
    assert bore >= diameter + 2 - 1e-9
    assert bore <= diameter + 2 + (8 / 16 * MM_PER_INCH if imperial else 6.0)
    if imperial:
        assert bore / MM_PER_INCH * 16 == pytest.approx(round(bore / MM_PER_INCH * 16))


@pytest.mark.parametrize(
    ("depth", "bored", "through"), [(3.0, 8.0, False), (12.0, 13.0, False), (23.0, 26.0, True)]
)
def test_a_shallow_hole_is_not_bored_through(depth: float, bored: float, through: bool) -> None:
    """A plug is 8 deep at least and leaves a floor of 3, or it goes right through."""
    plug = mended(BOARD, hole(20.0, face=Face.UP, depth=depth))
    assert (plug.depth, plug.through) == (bored, through)


def test_a_hole_larger_than_any_bit() -> None:
    """It is refused with what to do in place of a plug."""
    with pytest.raises(LayoutError, match="patch"):
        mended(BOARD, hole(120.0))


@pytest.mark.parametrize(
    ("how", "depth", "layers"),
    [(Mend.FILLER, 5.0, 1), (Mend.FILLER, 5.1, 2), (Mend.RESIN, 10.0, 1), (Mend.RESIN, None, 3)],
)
def test_filler_and_resin_go_in_by_layers(how: Mend, depth: float | None, layers: int) -> None:
    """Filler by 5 mm, resin by 10 (common practice), through 26 mm where no depth is given."""
    face = Face.THROUGH if depth is None else Face.UP
    mend = mended(BOARD, hole(12.0, mend=how, depth=depth, face=face))
    assert (mend.layers, mend.through) == (layers, depth is None)
    assert mend.depth == (depth or 26.0)
    told = mend_words(mend, SAY).words[0]
    assert ("layers" in told) is (layers > 1)
    assert ("tape and a board under it" in told) is (how is Mend.RESIN and depth is None)


@pytest.mark.parametrize("kind", Kind)
@pytest.mark.parametrize("how", [Mend.PLUG, Mend.PATCH, Mend.SAND])
def test_a_mend_follows_a_grain_that_is_there(kind: Kind, how: Mend) -> None:
    """MDF, particleboard and the skins of a hollow door show none (common practice)."""
    panel = replace(BOARD, build=Build(kind))
    mend = mended(panel, hole(20.0, mend=how, face=Face.UP, depth=0.2))
    told = mend_words(mend, SAY).words[0]
    grained = kind not in (Kind.MDF, Kind.PARTICLEBOARD, Kind.HOLLOW)
    assert ("grain" in told) is grained


def test_filler_falls_out_of_a_wide_hole() -> None:
    """Over 15 mm across it is refused with what to do in place of it (common practice)."""
    assert mended(BOARD, hole(15.0, mend=Mend.FILLER, face=Face.UP, depth=4.0))
    with pytest.raises(LayoutError, match="patch"):
        mended(BOARD, hole(15.5, mend=Mend.FILLER, face=Face.UP, depth=4.0))


def test_a_stain_is_sanded_out_so_that_no_hollow_is_felt() -> None:
    """0.4 deep and 60 across is faded over 140: 40 all round, a slope of 1 in 100 (by hand)."""
    spot = mended(BOARD, hole(60.0, mend=Mend.SAND, face=Face.UP, depth=0.4))
    assert (spot.length, spot.width) == pytest.approx((140.0, 140.0), abs=0.1)
    assert (spot.depth, spot.proud) == (0.4, 0.0)
    told = mend_words(spot, SAY).words[0]
    assert "Sand 0.40 mm off" in told and "proud" not in told


@pytest.mark.parametrize("kind", Kind)
@pytest.mark.parametrize(
    ("depth", "wood", "veneer"),
    [(0.2, True, True), (0.3, True, False), (1.0, True, False), (1.1, False, False)],
)
def test_nobody_sands_through_a_veneer(kind: Kind, depth: float, wood: bool, veneer: bool) -> None:
    """A veneer is 0.5 to 0.6 mm when new (common practice): 0.2 may go, of solid wood 1."""
    panel = replace(BOARD, build=Build(kind))
    spot = hole(60.0, mend=Mend.SAND, face=Face.UP, depth=depth)
    has_veneer = kind in (Kind.VENEERED, Kind.PLYWOOD, Kind.BLOCKBOARD, Kind.HOLLOW)
    if veneer if has_veneer else wood:
        assert mended(panel, spot).depth == depth
    else:
        with pytest.raises(LayoutError, match="through a veneer" if has_veneer else "hollow"):
            mended(panel, spot)


def test_laminate_is_not_sanded() -> None:
    """However shallow the spot is: its colour is a printed sheet (common practice)."""
    panel = replace(BOARD, build=Build(Kind.PARTICLEBOARD), finish=(Coat.LAMINATE,))
    with pytest.raises(LayoutError, match="laminate"):
        mended(panel, hole(60.0, mend=Mend.SAND, face=Face.UP, depth=0.05))


def test_sanding_asks_how_deep() -> None:
    """Without a depth nobody can say whether it may be sanded."""
    with pytest.raises(LayoutError, match="give depth"):
        mended(BOARD, hole(60.0, mend=Mend.SAND, face=Face.UP))


def test_a_face_is_sanded_when_all_is_level() -> None:
    """Whatever the order in the job, plugs and patches come first."""
    spot = hole(60.0, mend=Mend.SAND, face=Face.UP, depth=0.4)
    plug = replace(hole(20.0), name="other")
    both = tuple(mends_for(BOARD.with_defect(spot).with_defect(plug), BOARD.region(), Tape()))
    assert [mend.how for mend in both] == [Mend.PLUG, Mend.SAND]


@settings(max_examples=30)
@given(st.floats(30.0, 300.0), st.floats(30.0, 120.0), st.floats(-1.5, 1.5), st.booleans())
def test_a_patch_covers_what_it_mends_along_the_grain(
    length: float, width: float, turn: float, imperial: bool
) -> None:
    """However the stain lies, the patch holds it with 3 mm all round, its sides along the grain."""
    stain = Defect(
        "stain",
        rectangular_place(Point(900, 400), length, width, turn),
        frozenset({Spoils.SHOWING}),
        mend=Mend.PATCH,
    )
    patch = mended(BOARD, stain, Tape(imperial=imperial))
    (place,) = patch.prints
    assert Region.from_rings(place.points(CHORD)).holds(stain.extent.grown(2.99))
    assert math.sin(2 * (patch.places[0].turn - BOARD.grain)) == pytest.approx(0.0, abs=1e-9)
    step = MM_PER_INCH / 4 if imperial else 5.0
    assert patch.length / step == pytest.approx(round(patch.length / step))


def test_a_patch_in_veneer_is_thin() -> None:
    """Veneer is patched by veneer, solid wood 8 deep."""
    stain = Defect("stain", round_place(Point(900, 400), 60), SEEN, mend=Mend.PATCH)
    veneered = replace(BOARD, build=Build(Kind.VENEERED))
    assert mended(veneered, stain).depth == 1.0
    assert mended(BOARD, stain).depth == 8.0


@settings(max_examples=30)
@given(st.floats(80.0, 900.0), st.floats(2.0, 20.0), st.floats(0.0, 40.0), st.floats(-1.5, 1.5))
def test_keys_stand_across_the_split(
    seen: float, width: float, drawn_out: float, turn: float
) -> None:
    """Keys lie on the split as it is seen, square to it, none beyond its ends, none on another."""
    place = rectangular_place(Point(1000, 400), seen + 2 * drawn_out, width, turn)
    split = Defect("split", place, SEEN, mend=Mend.KEY, drawn_out=drawn_out)
    keys = mended(BOARD.with_defect(hole(9.0, mend=None)), split)
    along = Point.polar(1.0, turn)
    reaches = sorted((p.centre - Point(1000, 400)).dot(along) for p in keys.places)
    assert all(abs(reach) < seen / 2 for reach in reaches)
    assert all(abs((p.centre - Point(1000, 400)).cross(along)) < 1e-6 for p in keys.places)
    assert all(abs(Point.polar(1.0, p.turn).dot(along)) < 1e-6 for p in keys.places)
    assert all(b - a > keys.width for a, b in pairwise(reaches))
    assert keys.depth == pytest.approx(26 / 3)


def test_only_the_part_of_a_split_that_stays_is_keyed() -> None:
    """A split that runs out of the top takes keys inside it only; one outside takes none."""
    place = rectangular_place(Point(1000, 400), 400, 4)
    split = Defect("split", place, SEEN, mend=Mend.KEY)
    kept = Region.from_rings(rectangular_place(Point(1400, 400), 800, 600).points(CHORD))
    (keys,) = mends_for(BOARD.with_defect(split), kept, Tape())
    assert all(p.centre.x > 1000 for p in keys.places)
    elsewhere = Region.from_rings(rectangular_place(Point(1700, 400), 200, 200).points(CHORD))
    assert not [*mends_for(BOARD.with_defect(split), elsewhere, Tape())]


@pytest.mark.parametrize(
    ("mend", "stays_whole"),
    [
        (Mend.PLUG, True),
        (Mend.PATCH, True),
        (Mend.FILLER, True),
        (Mend.KEY, False),
        (Mend.RESIN, False),
        (Mend.SAND, False),
    ],
)
def test_what_is_mended_may_lie_inside_the_top(mend: Mend, stays_whole: bool) -> None:
    """It spoils showing no longer and bearing still; the edge of the top may not cut a plug."""
    panel = BOARD.with_defect(hole(35.0, mend=mend))
    at = Point(640, 180)
    assert panel.sound_for(Spoils.SHOWING).inner.holds_point(at)
    assert not panel.sound_for(Spoils.BEARING).outer.holds_point(at)
    assert [d.name for d in panel.islands] == (["hole"] if stays_whole else [])
    unmended = BOARD.with_defect(hole(35.0, mend=None))
    assert not unmended.sound_for(Spoils.SHOWING).outer.holds_point(at)
    assert unmended.islands == ()


@settings(max_examples=30)
@given(st.floats(50.0, 900.0), st.floats(1.0, 49.0), st.floats(-3.0, 3.0))
def test_the_least_box_of_a_turned_rectangle_is_itself(
    length: float, width: float, turn: float
) -> None:
    """However it lies, its length, width and direction are found."""
    points = rectangular_place(Point(3, 4), length, width, turn).points(CHORD)
    box = TurnedBox.around(points)
    assert (box.length, box.width) == pytest.approx((length, width))
    assert math.sin(box.turn - turn) == pytest.approx(0.0, abs=1e-6)
    assert box.centre.distance_to(Point(3, 4)) < 1e-9
    same = TurnedBox.turned(Placement().of(points), turn)
    assert (same.length, same.width) == pytest.approx((length, width))
