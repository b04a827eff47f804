"""What the build asks for: edging, rims, joints, keys, the router's way and its template."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
import shapely
import strategies
from hypothesis import given, settings
from hypothesis import strategies as st
from told import named as mark_called
from told import told
from worked_panels import DOOR, SLAB

from panelwright.layout.cutting.cut import RouterCut
from panelwright.layout.cutting.plan import CutPlan, plan_cuts
from panelwright.layout.cutting.router import bush_offset
from panelwright.layout.cutting.tools import Tools
from panelwright.layout.errors import LayoutError
from panelwright.layout.geometry.placement import Placement, Points
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.polygon import Region
from panelwright.layout.geometry.tolerance import CHORD
from panelwright.layout.outlines import Capsule, Circle, Outline, Oval, Rectangle, RoundedRectangle
from panelwright.layout.panel import (
    Build,
    Face,
    Kind,
    Panel,
    rectangular_outline,
)
from panelwright.layout.panel.datum import Datum, choose_datum
from panelwright.layout.top import Top
from panelwright.layout.units import Tape
from panelwright.layout.words.cuts import words_of
from panelwright.layout.words.say import Passage, Say

MIDDLE = Point(990.5, 419.0)


def panel(kind: Kind, stile: float = 0.0, rail: float = 0.0, grain: float = 0.0) -> Panel:
    """Return a door of this build."""
    return Panel(
        rectangular_outline(1981, 838), 40, build=Build(kind, stile, rail), grain_deg=grain
    )


def plan(
    outline: Outline,
    on: Panel,
    centre: Point = MIDDLE,
    turn: float = 0.0,
    lipping: float = 0.0,
) -> CutPlan:
    """Return the cuts of a top on a panel."""
    return plan_cuts(Top(on, outline, Placement(centre, turn), lipping), choose_datum(on), Tools())


def steps(cuts: CutPlan, title: str, datum: Datum | None = None) -> list[Passage]:
    """Return what is told of the acts whose titles start so."""
    return told(cuts, datum or choose_datum(panel(Kind.SOLID)), title=title)


def test_the_door_is_lipped_with_two_strips() -> None:
    """Round 354 mm a lipping of 6 is laminated 2 × 3 mm, for 354 / 100 bends cold, not 6."""
    edging = DOOR.cuts.edging
    assert edging is not None
    assert (edging.layers, edging.layer, edging.tightest) == (2, 3.0, 354.0)
    (step,) = steps(DOOR.cuts, "Lipping")
    assert "2 strips 3 thick" in step.words[0]


@pytest.mark.parametrize(
    ("outline", "layers", "words"),
    [
        (Circle(800), 2, "laminated"),
        (Circle(812), 1, "bends cold"),
        (Rectangle(1400, 600), 1, "mitred"),
        (RoundedRectangle.with_radius(1400, 600, 106), 6, "laminated"),
        (Oval(1400, 700), 4, "laminated"),
    ],
)
def test_a_strip_bends_cold_up_to_a_hundredth_of_its_radius(
    outline: Outline, layers: int, words: str
) -> None:
    """A lipping is split into strips no thicker than a hundredth of the tightest radius."""
    thickness = 6.0 if not isinstance(outline, Circle) else 4.0
    cuts = plan(outline, panel(Kind.PARTICLEBOARD), lipping=thickness)
    assert cuts.edging is not None
    assert cuts.edging.layers == layers
    assert words in steps(cuts, "Lipping")[0].words[0]


def test_kept_edges_are_not_edged() -> None:
    """Along an edge of the panel that is kept no edging is counted."""
    board = panel(Kind.MDF)
    free = plan(RoundedRectangle.with_radius(1400, 600, 60), board).edging
    kept = plan(RoundedRectangle.with_radius(1400, 600, 60), board, Point(990.5, 300.0)).edging
    assert free is not None
    assert kept is not None
    assert (free.kept, kept.kept) == (0.0, pytest.approx(1280.0))
    assert kept.around == pytest.approx(free.around - 1280.0)
    assert kept.cut_length == pytest.approx(1.1 * kept.around)


def test_solid_wood_needs_no_edging() -> None:
    """A solid top without a lipping has no edging; raw board has."""
    assert plan(Capsule(1400, 600), panel(Kind.SOLID)).edging is None
    assert plan(Capsule(1400, 600), panel(Kind.PLYWOOD)).edging is not None


@pytest.mark.parametrize("kind", list(Kind))
def test_the_show_face_lies_down(kind: Kind) -> None:
    """A saw chips the face that lies up, so each build is sawn from the MIRRORED underside."""
    cuts = plan(Capsule(1400, 600), panel(kind))
    assert cuts.face.mirrored
    say = Say(Tape(), choose_datum(panel(kind)), mirrored=True)
    assert "MIRRORED" in words_of(cuts.face, say).words[0]
    knifed = kind not in (Kind.SOLID, Kind.FRAMED)
    assert bool(steps(cuts, "Knife")) is knifed


def test_a_slab_is_sawn_on_the_face_that_its_line_is_struck_on() -> None:
    """There the show face lies up and its lines are knifed, from the first cut on."""
    assert not SLAB.cuts.face.mirrored
    assert steps(SLAB.cuts, "Knife") != []
    (told,) = (words_of(SLAB.cuts.face, Say(Tape(), SLAB.datum)),)
    assert "show face UP" in told.words[0]


@pytest.mark.parametrize("wished", [Face.UP, Face.DOWN])
def test_the_maker_may_choose_the_face(wished: Face) -> None:
    """A saw that does not chip may run on the show face, and then nothing is mirrored."""
    veneered = panel(Kind.VENEERED)
    tools = Tools(show_face=wished)
    outline = Capsule(1400, 600)
    cuts = plan_cuts(Top(veneered, outline, Placement(MIDDLE)), choose_datum(veneered), tools)
    assert cuts.face.show_face is wished
    assert cuts.face.mirrored is (wished is Face.DOWN)


def test_a_hollow_door_loses_its_rim() -> None:
    """A line inside the rim loses it all the way round; a line in the rim loses nothing."""
    hollow = panel(Kind.HOLLOW, stile=40.0, rail=60.0)
    inside = plan(Rectangle(1400, 600), hollow)
    (step,) = steps(inside, "Hollow")
    assert "4000 in all" in step.words[0]
    assert inside.rim is not None
    assert inside.rim.length == pytest.approx(4000.0, abs=1.0)
    within = plan(Rectangle(1900, 790), hollow)
    assert steps(within, "Hollow") == []
    one_side = plan(Rectangle(1900, 700), hollow, Point(990.5, 370.0))
    assert one_side.rim is not None
    assert one_side.rim.length == pytest.approx(1861.0)


def test_a_cut_through_a_frame_joint_is_named() -> None:
    """Cuts that run through the joint of a stile and a rail are named, each with its corner."""
    framed = panel(Kind.FRAMED, stile=100.0, rail=200.0)
    cuts = plan(Rectangle(1700, 700), framed)
    joints = steps(cuts, "Frame joint")
    assert len(joints) == 4
    assert "Cut 1" in joints[0].words[0]
    assert "lower left" in joints[0].words[0]
    clear = plan(Rectangle(1400, 600), framed)
    assert clear.joints == ()


def test_unknown_frame_widths_are_said() -> None:
    """A framed panel whose widths are not given asks to find the joints."""
    (step,) = steps(plan(Rectangle(1400, 600), panel(Kind.FRAMED)), "Frame")
    assert "not known" in step.words[0]


def test_a_slab_is_marked_again_after_flattening() -> None:
    """After its rough length it is flattened, rests, is marked again, and only then ripped."""
    titles = [step.title for step in steps(SLAB.cuts, "")]
    flat, rest = titles.index("Flatten"), titles.index("Rest, mark again")
    assert titles[flat - 1] == "Saw line 2"
    assert flat < rest < titles.index("Saw line 3")
    figures = steps(SLAB.cuts, "Flatten")[0].figures
    assert [figure for figure, _ in figures] == ["55", "42"]


def test_a_slab_is_measured_from_its_new_ends() -> None:
    """P′ and Q′ stand where P–Q meets the rough cuts; the second marks lie where the first do."""
    again = SLAB.cuts.again
    assert again is not None
    assert again.datum.names == ("P′", "Q′")
    assert again.datum.start == Point(380.0, 0.0)
    assert again.datum.end.distance_to(Point(2100.0, 0.0)) < 1e-9
    for first, second in zip(SLAB.marks.marks, again.marks.marks, strict=True):
        if "edge" not in first.kind.value:
            assert (second.label, second.point) == (first.label, first.point)
            assert second.along == pytest.approx(first.along - 380.0)
            assert second.square == pytest.approx(first.square)
    ends = [m.point.x for m in again.marks.marks if m.label in ("L1", "L2")]
    assert ends == pytest.approx([380.0, 2100.0])


def test_a_slab_is_as_thick_as_it_is_flattened() -> None:
    """Found 55 the rough cuts go 59 deep; flattened to 42 the others go 46, the router 42."""
    cuts = SLAB.cuts
    assert [trim.depths[-1] for trim in cuts.trims] == [59.0, 59.0, 46.0, 46.0, 46.0, 46.0]
    router = cuts.curve_cuts[-1]
    assert isinstance(router, RouterCut)
    assert router.passes * router.depth == pytest.approx(42.0)


def test_a_thick_slab_is_cut_longer_before_it_is_flattened() -> None:
    """Where 5 are left outside the line the rough cuts stand 15 off, so that ends can be sawn."""
    cuts = replace(SLAB, tools=Tools(guide_left=115.0)).cuts
    kinds = ["ROUGH", "ROUGH", "FIRST_RIP", "END", "END", "SIDE"]
    assert [trim.kind.name for trim in cuts.trims] == kinds
    assert [trim.allowance for trim in cuts.trims] == [15.0, 15.0, 5.0, 5.0, 5.0, 5.0]


def test_a_flat_slab_is_not_flattened() -> None:
    """Where no flattened thickness is given it is cut once, from its first marks."""
    cuts = replace(SLAB, panel=replace(SLAB.panel, flattened=None)).cuts
    assert cuts.again is None
    assert [trim.kind.name for trim in cuts.trims] == ["FIRST_RIP", "END", "END", "SIDE"]


@pytest.mark.parametrize(
    ("turn", "grain"), [(0.0, 0.0), (0.0, math.pi / 2), (math.pi / 2, 0.0), (0.3, 0.2), (2.0, 2.1)]
)
def test_the_router_runs_downhill_and_against_its_bit(turn: float, grain: float) -> None:
    """Each quarter ends where the edge is end grain, and runs anticlockwise as the work lies."""
    solid = Panel(rectangular_outline(3000, 3000), 30, grain_deg=math.degrees(grain))
    outline, centre = Oval(900, 600), Point(1500, 1500)
    placement = Placement(centre, turn)
    datum = choose_datum(solid)
    cuts = plan_cuts(Top(solid, outline, placement), datum, Tools())
    from panelwright.layout.marking.marks import marks_for

    marks = marks_for(Top(solid, outline, placement), datum)
    assert len(cuts.feeds) == 4
    assert sum(feed.show_face_up for feed in cuts.feeds) == 2
    fibre = Point.polar(1.0, grain)
    for feed in cuts.feeds:
        start, end = (mark_called(marks, label).point - centre for label in (feed.start, feed.end))
        assert abs(end.unit().dot(fibre)) > abs(start.unit().dot(fibre))
        assert (start.cross(end) > 0) is feed.show_face_up


def test_board_has_no_grain_to_follow() -> None:
    """Board, and solid wood whose grain runs slantwise, has no quarter that is downhill."""
    assert plan(Oval(900, 600), panel(Kind.MDF)).feeds == ()
    assert plan(Oval(900, 600), panel(Kind.SOLID, grain=45)).feeds == ()
    assert len(plan(Circle(700), panel(Kind.SOLID, grain=45)).feeds) == 4


@settings(max_examples=15)
@given(strategies.every_outline, st.floats(12.0, 30.0), st.floats(4.0, 12.0))
def test_a_template_stands_the_bush_offset_inside(
    outline: Outline, bush: float, cutter: float
) -> None:
    """The template is the outline shrunk by half the difference of bush and cutter."""
    if outline.width <= 40.0:
        return
    offset = bush_offset(bush, cutter)
    template = Region.from_rings(outline.line(-bush_offset(bush, cutter)).points(CHORD))
    whole = Region.from_rings(outline.path().points(CHORD))
    for sliver in (
        template.minus(whole.shrunk(offset - 0.01)),
        whole.shrunk(offset).minus(template),
    ):
        assert sliver.shrunk(0.01).is_empty


@pytest.mark.parametrize(
    ("outline", "bush", "cutter"),
    [
        (Oval(900, 600), 17.0, 12.0),
        (Capsule(1400, 600), 30.0, 12.7),
        (RoundedRectangle.with_radius(1200, 500, 80), 10.0, 12.0),
    ],
)
def test_a_router_that_rolls_along_its_template_cuts_the_line(
    outline: Outline, bush: float, cutter: float
) -> None:
    """The bush rolls round the template, the bit turns about its axis: what it leaves is right.

    By the definition of the tool alone, without the formula of its offset: the axis runs half the
    bush outside the template, and all within half the bit of it is gone. Buffers by shapely.
    """
    template = shapely.Polygon(outline.line(-bush_offset(bush, cutter)).points(0.005))
    axis = template.buffer(bush / 2, quad_segs=64)
    left = axis.buffer(-cutter / 2, quad_segs=64)
    wanted = shapely.Polygon(outline.path().points(0.005))
    assert left.hausdorff_distance(wanted) < 0.02


@settings(max_examples=20)
@given(
    st.sampled_from(["oval", "capsule", "circle", "rounded rectangle"]),
    st.floats(400.0, 1600.0),
    st.floats(0.3, 0.95),
    st.floats(3.0, 12.0),
)
def test_no_strip_is_bent_tighter_than_a_hundred_of_its_thicknesses(
    name: str, length: float, ratio: float, thickness: float
) -> None:
    """Measured on the line itself: the circle through any three points of it that lie near by.

    American Wood Council, *National Design Specification for Wood Construction* (2018), section
    5.3.8, from memory: laminations of hardwood are bent to no less than 100 of their thicknesses.
    """
    width = ratio * length
    outline: Outline = {
        "oval": Oval(length, width),
        "capsule": Capsule(length, width),
        "circle": Circle(length),
        "rounded rectangle": RoundedRectangle.with_radius(length, width, width / 4),
    }[name]
    board = Panel(rectangular_outline(2000, 2000), 22, build=Build(Kind.PLYWOOD))
    top = Top(board, outline, Placement(Point(1000, 1000)), thickness)
    edging = plan_cuts(top, choose_datum(board), Tools()).edging
    assert edging is not None and edging.tightest is not None
    measured = _tightest(top.core.points(0.0005))
    assert edging.tightest == pytest.approx(measured, rel=0.02)
    assert edging.layer * 100 <= edging.tightest * (1 + 1e-6)
    assert edging.layers == 1 or thickness / (edging.layers - 1) * 100 > edging.tightest


def _tightest(points: Points) -> float:
    """Return the least radius of a circle through three neighbouring points of a ring, mm."""
    before, after = np.roll(points, 1, axis=0), np.roll(points, -1, axis=0)
    a, b, c = (np.hypot(*d.T) for d in (points - before, after - points, after - before))
    u, v = points - before, after - points
    doubled = np.abs(u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0])
    bent = doubled > 1e-9 * a * b
    radii = (a * b * c)[bent] / (2 * doubled[bent])
    return float(radii.min())


def test_a_bearing_of_the_cutters_size_copies() -> None:
    """A bearing as large as its cutter has no offset, and its template is the outline."""
    assert bush_offset(12.0, 12.0) == 0.0
    assert Oval(900, 600).line(-bush_offset(12.0, 12.0)) == Oval(900, 600).path()
    with pytest.raises(LayoutError, match="above 0"):
        bush_offset(0.0, 12.0)


def test_a_heavy_offcut_wants_a_second_person() -> None:
    """A falling piece over 10 kg wants a second person; a light one is held."""
    board = Panel(rectangular_outline(3000, 600), 38, build=Build(Kind.PARTICLEBOARD))
    cuts = plan(Rectangle(1450, 560), board, Point(895, 295))
    texts = [" ".join(step.points) for step in steps(cuts, "Saw line")]
    assert "second person" in texts[0]
    assert "second person" not in texts[1]


@pytest.mark.parametrize(("degrees", "feeds"), [(25, 4), (35, 0), (55, 0), (65, 4), (-25, 4)])
def test_grain_within_30_degrees_of_an_axis_runs_along_it(degrees: float, feeds: int) -> None:
    """Nearer to a slant than to an axis no quarter is downhill all the way."""
    solid = panel(Kind.SOLID, grain=degrees)
    assert len(plan(Oval(900, 600), solid).feeds) == feeds


def test_the_tightest_of_unlike_corners_bends_the_lipping() -> None:
    """A strip goes round every corner, so the least radius above its thickness sets its layers."""
    top = RoundedRectangle(900, 600, (120.0, 44.0, 80.0, 0.0))
    edging = plan(top, panel(Kind.MDF), lipping=4.0).edging
    assert edging is not None
    assert edging.tightest == pytest.approx(40.0)
    assert edging.layers == 10


def test_a_cut_through_a_lock_rail_tells_its_joint() -> None:
    """A rail between the ends is joined to both stiles; a curve over it runs through both."""
    door = Panel(
        rectangular_outline(2000, 800),
        40,
        build=Build(Kind.FRAMED, stile=100.0, rail=150.0, between=((900.0, 180.0),)),
    )
    names = {joint.name for joint in plan(Rectangle(1860, 700), door).joints}
    rail = {f"{side} end of rail 1 between the ends" for side in ("lower", "upper")}
    assert rail <= names
    inside = {joint.name for joint in plan(Rectangle(1500, 500), door).joints}
    assert not rail & inside
    whole = plan(Rectangle(1600, 800), door, Point(1000.0, 400.0))
    assert not rail & {joint.name for joint in whole.joints}  # along the door's edge nothing is cut
    jigsawn = plan(Capsule(1990, 796), door, Point(1000.0, 400.0))  # too little for a saw's strip
    assert not jigsawn.trims
    assert rail <= {joint.name for joint in jigsawn.joints}
