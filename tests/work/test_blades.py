"""No blade, bit, screw or pin through what must not be cut: every path, with its whole width."""

from __future__ import annotations

import pytest
from bench_page import page_of

from panelwright.layout.concern import Concern
from panelwright.layout.cutting.cut import Kerf
from panelwright.layout.cutting.plan import plan_cuts
from panelwright.layout.cutting.tools import Tools
from panelwright.layout.geometry.placement import Placement
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.polygon import Region
from panelwright.layout.jobfile.job import read_job
from panelwright.layout.outlines import Capsule, Outline, Oval, Rectangle, RoundedRectangle
from panelwright.layout.panel import (
    Defect,
    Mend,
    Panel,
    Spoils,
    rectangular_outline,
    rectangular_place,
    round_place,
)
from panelwright.layout.panel.datum import choose_datum
from panelwright.layout.plan.plan import Plan, make_plan
from panelwright.layout.top import Top
from panelwright.layout.work.blades import BladeMatter, blades_through

WIDE = Panel(rectangular_outline(9000, 7000), 20)
MIDDLE = Point(4500, 3500)
CUTTING = frozenset({Spoils.CUTTING})

DOOR = """
name = "reading table"
[panel]
outline = { length = 1980, width = 838 }
thickness = 44
build = "veneered board"
[[panel.defects]]
name = "lock"
spoils = ["cutting", "bearing"]
at = [1000, 793]
size = [190, 90]
"""

OVAL = """
[top]
shape = "oval"
most_turn = 0
[tools]
guide_left = 115
"""


def nail(off: float, diameter: float = 1.0, clear: float = 0.0) -> Defect:
    """Return a nail so far outside the upper side of a top 600 wide, in its middle."""
    return Defect("nail", round_place(MIDDLE + Point(0, 300 + off), diameter), CUTTING, clear)


def met(
    outline: Outline, defect: Defect, tools: Tools | None = None, *bores: Kerf
) -> list[tuple[BladeMatter, str]]:
    """Return what the cuts of a top meet of a defect, and by which cut."""
    panel = WIDE.with_defect(defect)
    top = Top(panel, outline, Placement(MIDDLE))
    cuts = plan_cuts(top, choose_datum(panel), tools or Tools(guide_left=115.0))
    return [matter(found) for found in blades_through(cuts, panel, bores)]


def matter(found: Concern) -> tuple[BladeMatter, str]:
    """Return what a concern is about, and the cut."""
    assert isinstance(found.matter, BladeMatter)
    assert found.who[1] in ("nail", "lock")
    return found.matter, found.who[0]


@pytest.mark.parametrize(
    ("outline", "off", "cut"),
    [
        (Rectangle(1400, 600), 3.2, "Cut 2"),  # the saw leaves 2 and takes 2.4
        (Rectangle(1400, 600), 1.0, "Router"),
        (Rectangle(1400, 600), 7.0, ""),
        (Capsule(1400, 600), 3.8, "Cut 2"),  # it frees much: the nail is drawn, or it is told of
        (Capsule(1400, 600), 2.0, "Router"),
        (Oval(1400, 600), 3.8, "Cut 2"),
        (Oval(1400, 600), 9.0, ""),  # it has fallen off, though the bit is 12 wide
    ],
)
def test_each_tool_is_held_with_its_width(outline: Outline, off: float, cut: str) -> None:
    """Saw, jigsaw and router meet a nail where their own cut runs through it, and nowhere else."""
    assert met(outline, nail(off)) == ([(BladeMatter.CROSSES, cut)] if cut else [])


def test_a_jigsaw_meets_a_nail_where_no_saw_runs() -> None:
    """At a round end, between the saw across it and the corner cut, its own cut runs through it."""
    place = MIDDLE + Point(400, 0) + Point.polar(303.8, 0.3)
    assert met(Capsule(1400, 600), nail_at(place)) == [(BladeMatter.CROSSES, "Jigsaw")]


def test_a_bit_sweeps_the_corner_that_no_jigsaw_frees() -> None:
    """In the corner of a rounded rectangle the router goes through what the saws have left."""
    place = MIDDLE + Point(700 - 60, 300 - 60) + Point.polar(60 + 2.0, 0.5)
    found = met(RoundedRectangle.with_radius(1400, 600, 60), nail_at(place))
    assert found == [(BladeMatter.CROSSES, "Router")]


def nail_at(place: Point) -> Defect:
    """Return a nail at a place."""
    return Defect("nail", round_place(place, 1.0), CUTTING)


def test_by_hand_nothing_is_planed_through() -> None:
    """Where plane and file take off what the jigsaw leaves, a nail in it is said too."""
    found = met(Oval(1400, 600), nail(1.5), Tools(router=False))
    assert found == [(BladeMatter.CROSSES, "Hand")]


def test_a_cut_that_comes_near_is_swept_again() -> None:
    """A straight cut that only comes closer than the clearance says so, and not that it crosses."""
    found = met(Rectangle(1400, 600), nail(14.0, clear=15.0))
    assert found == [(BladeMatter.NEAR, "Cut 2")]


def test_screws_and_pins_are_held_too() -> None:
    """A screw of 5 meets a lock that it reaches by half its width, and no other."""
    lock = Defect("lock", rectangular_place(MIDDLE, 90, 60), CUTTING)
    bores = [
        Kerf.bored(f"A screw of leg {i}", MIDDLE + Point(45 + x, 0), 5.0)
        for i, x in ((1, 2), (2, 3))
    ]
    assert met(Rectangle(1400, 600), lock, None, *bores) == [
        (BladeMatter.CROSSES, "A screw of leg 1")
    ]


def test_a_mend_bores_into_nothing_else() -> None:
    """The bore of a plug meets a nail beside its hole, and not the hole that it fills."""
    hole = Defect("hole", round_place(MIDDLE, 20), frozenset(Spoils), mend=Mend.PLUG)
    for off, crossed in ((11.2, True), (14.0, False)):
        panel = WIDE.with_defect(hole).with_defect(nail_at(MIDDLE + Point(off, 0)))
        top = Top(panel, Rectangle(1400, 600), Placement(MIDDLE))
        cuts = plan_cuts(top, choose_datum(panel), Tools())
        due = [("The mend of hole", "nail")] if crossed else []
        assert [found.who for found in blades_through(cuts, panel)] == due


@pytest.fixture(scope="module")
def kept_clear() -> Plan:
    """Lay out an oval beside a lock of no named kind and no given clearance."""
    return make_plan(read_job(DOOR + OVAL))


def test_the_fit_keeps_jigsaw_and_router_off_a_lock(kept_clear: Plan) -> None:
    """Neither the jigsaw's kerf nor the bit's way overlaps it, and nothing stands on the sheet."""
    (lock,) = kept_clear.job.panel.defects
    assert lock.clear == 12.0
    core = Region.of(kept_clear.cuts.core)
    swept = [kerf.band for kerf in kept_clear.cuts.kerfs if kerf.label == "Jigsaw"]
    for band in (*swept, core.grown(kept_clear.job.tools.bit)):
        assert band.meet(lock.extent).area < 0.01
    assert not [c for c in kept_clear.blades if c.matter is BladeMatter.CROSSES]


@pytest.mark.heavy
def test_a_lock_that_the_maker_keeps_less_clear_stops_the_sheet() -> None:
    """With a clearance of 1 the jigsaw runs through it: the sheet says first what to take out."""
    plan = make_plan(read_job(DOOR + "clear = 1\n" + OVAL))
    crossed = {c.who for c in plan.blades if c.matter is BladeMatter.CROSSES}
    assert ("Jigsaw", "lock") in crossed
    page = page_of(plan)
    assert "Jigsaw runs through lock: take out any metal first." in page.words
    assert "Jigsaw runs through lock: take out any metal first" in page.step("Jigsaw").text
