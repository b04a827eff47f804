"""Offcuts: what falls off when, what is clean, and that nothing is lost."""

from __future__ import annotations

import math

import numpy as np
import pytest
import strategies
from hypothesis import Phase, given, settings
from hypothesis import strategies as st
from worked_panels import SLAB

from panelwright.layout.cutting.cut import TrimKind
from panelwright.layout.errors import LayoutError
from panelwright.layout.geometry.placement import Placement
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.polygon import Region
from panelwright.layout.geometry.tolerance import AREA_BALANCE, CHORD
from panelwright.layout.offcuts.plan import (
    Clean,
    OffcutPlan,
    Worth,
    largest_clean_rectangle,
    may_hold,
    offcuts_of,
)
from panelwright.layout.offcuts.wish import OffcutWish
from panelwright.layout.outlines import Capsule, Outline, RoundedRectangle
from panelwright.layout.panel import (
    Build,
    Defect,
    Kind,
    Panel,
    Spoils,
    outline_through,
    rectangular_outline,
    rectangular_place,
    round_place,
)
from panelwright.layout.units import Tape
from panelwright.layout.words.panel import offcuts_words


def _box(left: float, bottom: float, right: float, top: float) -> Region:
    ring = [(left, bottom), (right, bottom), (right, top), (left, top)]
    return Region.from_rings(np.array(ring, dtype=np.float64))


def _polygon(*corners: tuple[float, float]) -> Region:
    return Region.from_rings(np.array(corners, dtype=np.float64))


def _curve_kerf(core: Outline, placement: Placement, outside: float, kerf: float) -> Region:
    outer = core.parallel(outside + kerf).points(CHORD, "outside")
    inner = core.parallel(outside).points(CHORD, "inside")
    return Region.from_rings(placement.of(outer)).minus(Region.from_rings(placement.of(inner)))


def clean_in(piece: Region) -> Clean:
    """Return the largest clean rectangle of a piece that has one."""
    found = largest_clean_rectangle(piece)
    assert found is not None
    return found


def _bench_top() -> OffcutPlan:
    """Return the lab bench top 2100 × 700 cut to a capsule 1400 × 600 in the worked order."""
    sink = rectangular_place(Point(1750, 350), 500, 400)
    panel = Panel(rectangular_outline(2100, 700), 28, cut_outs=(sink,), material="iroko")
    core, placement = Capsule(1400, 600), Placement(Point(740, 322))
    kerfs = [
        _box(1442, -50, 1444.4, 750),
        _box(35.6, -50, 38, 750),
        _box(-50, 17.6, 2150, 20),
        _box(-50, 624, 2150, 626.4),
        _curve_kerf(core, placement, 3.0, 2.4),
    ]
    return offcuts_of(panel, core.path().placed(placement), kerfs)


def test_the_bench_top_leaves_its_sink_end_whole() -> None:
    """Cut 1 frees the sink end, 656 × 700 (worked); later cuts that overrun do not touch it."""
    (sink_end,) = [o for o in _bench_top().pieces if o.cut == 1]
    bounds = sink_end.piece.bounds
    assert (round(bounds.width), round(bounds.height)) == (656, 700)
    assert sink_end.area == pytest.approx(655.6 * 700 - 500 * 400)


def test_each_cut_of_the_bench_top_frees_its_strip() -> None:
    """Two end cuts, two long cuts and the curve free one, one, one, one and four pieces."""
    plan = _bench_top()
    assert sorted(o.cut for o in plan.pieces) == [1, 2, 3, 4, 5, 5, 5, 5]
    assert [o.number for o in plan.pieces] == list(range(1, 9))
    back = next(o for o in plan.pieces if o.cut == 4)
    assert back.clean is not None
    assert (back.clean.length, back.clean.width) == pytest.approx((1404.0, 73.6))
    assert back.worth is Worth.BATTENS  # of iroko 28 thick


def test_the_bench_top_balances() -> None:
    """Top, trimming, kerf, offcuts and cut-outs add up to the panel."""
    balance = _bench_top().balance
    assert abs(balance.error) < AREA_BALANCE
    assert balance.panel == pytest.approx(2100 * 700)
    assert balance.cut_outs == pytest.approx(500 * 400)
    assert balance.top == pytest.approx(Capsule(1400, 600).area)
    straight, ends = 2.4 * (700 + 700 + (1442 - 38) * 2), 2.4 * math.pi * 2 * 304.2
    assert straight < balance.kerf < straight + ends
    assert 2.0 < balance.trimming / Capsule(1400, 600).perimeter < 3.0


@settings(max_examples=30)
@given(st.data())
def test_the_balance_closes_on_any_panel(data: st.DataObject) -> None:
    """Whatever panel, top and cuts are drawn, the parts add up to the whole within 1e-6."""
    corners = data.draw(strategies.star_rings())
    panel = Panel(outline_through(corners), 20.0)
    size = data.draw(st.floats(20.0, 90.0))
    core = data.draw(
        st.sampled_from(
            [Capsule(2 * size, size), RoundedRectangle.with_radius(2 * size, size, size / 5)]
        )
    )
    placement = Placement(Point(0, 0), data.draw(strategies.angles))
    kerf = data.draw(st.floats(0.5, 6.0))
    turns = data.draw(st.lists(strategies.angles, max_size=4))
    straights = [
        _box(-3000, size * 1.2, 3000, size * 1.2 + kerf).placed(Placement(turn=turn))
        for turn in turns
    ]
    kerfs = [*straights, _curve_kerf(core, placement, 3.0, kerf)]
    nothing = OffcutWish(least_length=1e6, leg_length=1e6)  # so that few boxes are looked at
    plan = offcuts_of(panel, core.path().placed(placement), kerfs, nothing)
    assert abs(plan.balance.error) < AREA_BALANCE
    for offcut in plan.pieces:
        if offcut.clean is not None:
            clean = Region.from_rings(offcut.clean.corners)
            assert clean.minus(offcut.piece).area < 1e-3


def test_without_cuts_everything_hangs_on_the_top() -> None:
    """Before the first cut there are no offcuts, only wood round the top."""
    panel = Panel(rectangular_outline(1000, 500), 20)
    plan = offcuts_of(panel, Capsule(600, 300).path().placed(Placement(Point(500, 250))), [])
    assert plan.pieces == ()
    assert plan.balance.trimming == pytest.approx(500_000 - Capsule(600, 300).area)


def test_an_offcut_weighs_by_area_thickness_and_density() -> None:
    """Iroko 28 mm thick at 640 kg/m³ weighs 17.92 kg a square metre (density from memory)."""
    for offcut in _bench_top().pieces:
        assert offcut.mass == pytest.approx(offcut.area * 28 * 640e-9)


def test_a_strip_as_wide_as_asked_for_is_kept() -> None:
    """Board of 100 × 300 is worth keeping, 99 × 300 is not (common practice, a setting)."""
    for width, kept in ((100.0, True), (99.0, False)):
        panel = Panel(rectangular_outline(300, 402 + width), 20, build=Build(Kind.MDF))
        core, placement = Capsule(280, 200), Placement(Point(150, 150))
        (offcut,) = offcuts_of(
            panel, core.path().placed(placement), [_box(-9, 400, 309, 402)]
        ).pieces
        assert offcut.kept is kept
    looser = OffcutWish(least_width=50.0)
    assert (
        offcuts_of(panel, core.path().placed(placement), [_box(-9, 400, 309, 402)], looser)
        .pieces[0]
        .kept
    )


@pytest.mark.parametrize(
    ("length", "kept"), [(300.0, True), (299.0, False), (250.0, False), (151.0, False)]
)
def test_a_wide_offcut_is_only_kept_as_long_as_asked_for(length: float, kept: bool) -> None:
    """However wide it is, a piece shorter than 300 mm is scrap (common practice, a setting)."""
    panel = Panel(rectangular_outline(402 + length, 150), 20, build=Build(Kind.MDF))
    core, placement = Capsule(280, 120), Placement(Point(200, 75))
    (offcut,) = offcuts_of(panel, core.path().placed(placement), [_box(400, -9, 402, 159)]).pieces
    assert offcut.kept is kept
    if kept:
        assert offcut.clean is not None
        assert (offcut.clean.length, offcut.clean.width) == pytest.approx((length, 150), abs=0.01)


@pytest.mark.parametrize(
    ("kind", "stile", "worth"),
    [
        (Kind.SOLID, 0.0, Worth.LEGS),
        (Kind.FRAMED, 95.0, Worth.LEGS),
        (Kind.FRAMED, 90.0, Worth.SCRAP),
        (Kind.FRAMED, 0.0, Worth.SCRAP),
        (Kind.VENEERED, 0.0, Worth.SCRAP),
    ],
)
def test_a_stile_makes_legs(kind: Kind, stile: float, worth: Worth) -> None:
    """1981 × 92 × 40 of solid wood is no scrap; of a frame it must lie within a stile."""
    panel = Panel(rectangular_outline(1981, 494), 40, build=Build(kind, stile))
    core = Capsule(1900, 380).path().placed(Placement(Point(990, 200)))
    (strip,) = offcuts_of(panel, core, [_box(-9, 400, 1990, 402)]).pieces
    assert strip.worth is worth
    if worth is Worth.LEGS:
        assert strip.clean is not None
        assert (strip.clean.length, strip.clean.width) == pytest.approx((1981, 92), abs=0.02)


@pytest.mark.parametrize(
    ("length", "width", "thickness", "worth"),
    [
        (400.0, 35.0, 35.0, Worth.LEGS),
        (399.0, 40.0, 35.0, Worth.BATTENS),
        (400.0, 34.0, 35.0, Worth.SCRAP),
        (400.0, 40.0, 34.0, Worth.BATTENS),
        (300.0, 40.0, 18.0, Worth.BATTENS),
        (299.0, 40.0, 18.0, Worth.SCRAP),
        (300.0, 39.0, 18.0, Worth.SCRAP),
        (300.0, 40.0, 17.0, Worth.SCRAP),
    ],
)
def test_solid_strips_make_legs_or_battens(
    length: float, width: float, thickness: float, worth: Worth
) -> None:
    """By length, width and thickness, each of them at its limit (common practice, settings)."""
    panel = Panel(rectangular_outline(length, 202 + width), thickness)
    core = Capsule(250, 150).path().placed(Placement(Point(150, 90)))
    (strip,) = offcuts_of(panel, core, [_box(-9, 200, length + 9, 202)]).pieces
    assert strip.worth is worth


def test_an_offcut_knows_the_cut_that_freed_it() -> None:
    """By the name that its step has on the sheet."""
    panel = Panel(rectangular_outline(800, 450), 20)
    kerfs = [_box(480, -9, 482, 459), _box(-9, 300, 489, 302)]
    core = Capsule(400, 250).path().placed(Placement(Point(240, 150)))
    plan = offcuts_of(panel, core, kerfs, names=("Cut 1", "Jigsaw"))
    assert [(o.cut, o.freed_by) for o in plan.pieces] == [(1, "Cut 1"), (2, "Jigsaw")]
    told = offcuts_words(plan, Tape()).tables[0]
    assert [row[1] for row in told.rows] == ["Cut 1", "Jigsaw"]
    assert {o.freed_by for o in offcuts_of(panel, core, kerfs).pieces} == {""}


def test_the_areas_of_the_offcuts_are_reckoned_by_hand() -> None:
    """Strips are rectangles; of each corner a square of 302 is left outside a circle of 305.4.

    That circle is the far side of the jigsaw's kerf, 3 and 2.4 outside a radius of 300, about a
    centre 302 from the saw lines: 302² − ∫ min(302, √(305.4² − u²)) du from 0 to 302, in closed
    form.
    """
    plan = _bench_top()
    areas = [sorted(o.area for o in plan.pieces if o.cut == n) for n in range(1, 6)]
    assert areas[0] == pytest.approx([(2100 - 1444.4) * 700 - 500 * 400])
    assert areas[1] == pytest.approx([35.6 * 700])
    assert areas[2] == pytest.approx([(1442 - 38) * 17.6])
    assert areas[3] == pytest.approx([(1442 - 38) * (700 - 626.4)])
    side, radius = 302.0, 305.4
    flat = math.sqrt(radius**2 - side**2)

    def under(u: float) -> float:
        return (u * math.sqrt(radius**2 - u**2) + radius**2 * math.asin(u / radius)) / 2

    corner = side**2 - (side * flat + under(side) - under(flat))
    assert areas[4] == pytest.approx([corner] * 4, rel=1e-3)


def test_a_defect_that_spoils_nothing_leaves_its_offcut_clean() -> None:
    """A sound glue line in an offcut is no fault of its wood."""
    line = Defect("glue line", rectangular_place(Point(500, 700), 900, 4), frozenset())
    panel = Panel(rectangular_outline(1000, 902), 20, defects=(line,))
    core, placement = Capsule(900, 400), Placement(Point(500, 250))
    (offcut,) = offcuts_of(panel, core.path().placed(placement), [_box(-9, 500, 1009, 502)]).pieces
    assert offcut.defects == ()
    assert offcut.clean is not None
    assert offcut.clean.area == pytest.approx(1000 * 400, rel=1e-4)


def test_an_offcut_of_a_slab_is_as_thick_as_when_it_falls() -> None:
    """Found 55 thick and flattened to 42 after two rough cuts: density, area and that thickness."""
    cuts = SLAB.cuts
    rough = sum(trim.kind is TrimKind.ROUGH for trim in cuts.trims)
    assert rough == 2
    plan = offcuts_of(SLAB.panel, cuts.core, cuts.saw_kerfs, rough=rough)
    assert {offcut.cut <= rough for offcut in plan.pieces} == {True, False}
    for offcut in plan.pieces:
        thickness = 55 if offcut.cut <= rough else 42
        weight = thickness * SLAB.panel.substance.density * 1e-9
        assert offcut.mass == pytest.approx(offcut.area * weight)
    # the saw cuts know of their own account what falls
    for number, trim in enumerate(cuts.trims, start=1):
        fell = [offcut.mass for offcut in plan.pieces if offcut.cut == number]
        assert max(fell) == pytest.approx(trim.heaviest, rel=1e-6)


def test_offcuts_are_numbered_by_what_can_be_cut_from_them() -> None:
    """A small clean piece comes before a larger one whose best is spoilt."""
    nails = tuple(
        Defect(f"nail {n}", round_place(Point(640, 60 + 80 * n), 10), frozenset({Spoils.CUTTING}))
        for n in range(5)
    )
    panel = Panel(rectangular_outline(800, 450), 20, defects=nails)
    kerfs = [_box(480, -9, 482, 459), _box(-9, 300, 489, 302)]
    core = Capsule(400, 250).path().placed(Placement(Point(240, 150)))
    first, second = offcuts_of(panel, core, kerfs).pieces
    assert first.clean is not None and second.clean is not None
    assert first.area < second.area
    assert first.clean.area > second.clean.area
    assert (first.number, first.cut, second.number, second.cut) == (1, 2, 2, 1)


def test_a_defect_goes_with_its_offcut_and_out_of_its_clean_part() -> None:
    """A nail in an offcut is named, and the clean rectangle keeps its clearance."""
    nail = Defect("nail", round_place(Point(500, 700), 10), frozenset({Spoils.CUTTING}), 15.0)
    panel = Panel(rectangular_outline(1000, 902), 20, defects=(nail,))
    core, placement = Capsule(900, 400), Placement(Point(500, 250))
    (offcut,) = offcuts_of(panel, core.path().placed(placement), [_box(-9, 500, 1009, 502)]).pieces
    assert offcut.defects == ("nail",)
    assert offcut.clean is not None
    clean = Region.from_rings(offcut.clean.corners)
    assert clean.distance_to(nail.extent) == pytest.approx(15.0, abs=0.11)
    assert offcut.clean.area == pytest.approx(480 * 400, rel=1e-3)


def test_the_clean_rectangle_of_a_rectangle_is_itself() -> None:
    """However it lies, a rectangle's largest rectangle is the whole of it."""
    for turn in (0.0, 0.3, 1.2, -0.7):
        piece = _box(0, 0, 640, 210).placed(Placement(Point(100, 50), turn))
        found = clean_in(piece)
        assert found.box.area == pytest.approx(640 * 210, rel=1e-6)
        assert math.sin(found.box.turn - turn) == pytest.approx(0, abs=1e-5)


@pytest.mark.parametrize(("a", "b"), [(329, 230), (329, 329), (900, 100), (700, 650)])
def test_the_clean_rectangle_of_a_right_triangle_is_half_of_it(a: float, b: float) -> None:
    """The largest rectangle in a triangle has half its area: it is found, and proved within 6 %.

    One with two sides along the legs is x by b(1 − x/a), greatest at x = a/2; one along the
    hypotenuse comes to the same half (reckoned by hand; Euclid, *Elements* VI.27). Of 329 by 230
    a square of 135.4 stands in the way: no small move makes it better.
    """
    found = clean_in(_polygon((0, 0), (a, 0), (0, b)))
    assert 0.99 <= found.box.area / (a * b / 4) <= 1 + 1e-9
    assert a * b / 4 * (1 - 1e-9) <= found.most <= 1.06 * a * b / 4


def test_the_clean_rectangle_of_an_l_is_its_longer_arm() -> None:
    """Of the two arms of an L the larger one is found."""
    ring = ((0, 0), (900, 0), (900, 200), (250, 200), (250, 600), (0, 600))
    box = clean_in(_polygon(*ring)).box
    assert (box.length, box.width) == pytest.approx((900, 200))


def test_the_clean_rectangle_beside_a_hole_keeps_to_one_side() -> None:
    """A hole in the middle of a piece leaves the broader of the two sides."""
    piece = _box(0, 0, 1000, 400).minus(_box(450, 100, 550, 150))
    assert clean_in(piece).box.area == pytest.approx(1000 * 250, rel=1e-6)


@settings(max_examples=10, phases=[Phase.explicit, Phase.generate])
@given(strategies.star_rings())
def test_a_clean_rectangle_lies_in_its_piece(corners: tuple[Point, ...]) -> None:
    """What is called clean is proved inside by geometry, and no glance ruled it out."""
    piece = _polygon(*((p.x, p.y) for p in corners))
    found = clean_in(piece)
    assert found.box.length >= found.box.width > 0
    assert Region.from_rings(found.box.corners).minus(piece).area < 1e-3
    assert may_hold(piece, found.box.length, found.box.width)
    assert found.box.area <= found.most <= piece.area * (1 + 1e-6)


def test_nothing_has_no_clean_rectangle() -> None:
    """An empty region gives no rectangle."""
    assert largest_clean_rectangle(Region.empty()) is None


def test_an_offcut_wider_than_long_cannot_be_wished_for() -> None:
    """The least width of an offcut is not above its least length."""
    with pytest.raises(LayoutError, match="the width is from 0 to the length"):
        OffcutWish(least_length=100, least_width=300)


@pytest.mark.parametrize(("side", "pieces"), [(25.0, 1), (1.1, 1), (0.9, 0)])
def test_what_is_larger_than_a_crumb_is_an_offcut(side: float, pieces: int) -> None:
    """A piece below 1 mm² is dust and counted with the kerf, a larger one is listed."""
    panel = Panel(rectangular_outline(500, 300), 20)
    kerfs = [
        _box(500 - side - 2, -1, 500 - side, side + 2),
        _box(500 - side - 2, side, 501, side + 2),
    ]
    core = Capsule(300, 200).path().placed(Placement(Point(200, 150)))
    found = offcuts_of(panel, core, kerfs)
    assert len(found.pieces) == pieces
    assert abs(found.balance.error) < AREA_BALANCE
