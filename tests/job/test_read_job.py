"""What a job file says is what the job holds, in millimetres and radians."""

from __future__ import annotations

import math
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panelwright.layout.cutting.tools import Tools
from panelwright.layout.errors import JobError, LayoutError
from panelwright.layout.fit.wish import SHAPES, Goal, Span
from panelwright.layout.geometry.point import Point
from panelwright.layout.jobfile import look_over, read_job
from panelwright.layout.legs.foot import Foot, FootShape
from panelwright.layout.legs.wish import Fixing, LegsWish
from panelwright.layout.panel import MATERIALS, Coat, Defect, Face, Kind, Spoils, Was
from panelwright.layout.panel.defect_kinds import DEFECT_KINDS
from panelwright.layout.plan.job import STAND_IN_THICKNESS, Job
from panelwright.layout.template.paper import LETTER, Margins
from panelwright.layout.template.wish import TemplateWish
from panelwright.layout.units import Tape, Units

LEAST = "[panel]\noutline = { length = 1981, width = 838 }\n"
SAMPLES = Path(__file__).parents[2] / "samples"

WHOLE = """
units = "in"
name = "hall table"
[panel]
name = "north door"
outline = { length = 78, width = "2' 9\\"", radii = [0, 0, 1, 1], bows = [0, 0.125, 0, "-1/4"] }
cutouts = [[[30, 29], [38, 29], [38, 40], [30, 40]], { at = [60, 10], size = [10, 2], turn = 90 }]
thickness = "1 3/4"
build = "hollow core"
stile = 4
rail = 5
material = "Hollow-Core Door"
grain = 90
was = "lab bench"
finish = ["white paint", "lino"]
year = 1962
datum = { from = [4, 2], to = [70, 2] }
damaged = ["C", "a", "C"]
[[panel.defects]]
name = "lock"
spoils = "cutting"
at = [39, 3]
diameter = 2
clear = 0.5
face = "down"
depth = 1
[top]
shape = ["racetrack", "ellipse", "capsule"]
goal = "longest"
least_length = 40
most_length = "5 ft"
width = 24
least_ratio = 1.5
most_ratio = 2.5
least_corner_radius = 2
most_corner_radius = 4
margin = "1/4"
most_turn = 15
lipping = "1/4"
step = "1/2"
gap = 0.01
tape_error = "1/16"
[legs]
at = [[-20, -8], [20, -8], [0, 10]]
foot = "ring"
size = 2
wall = "1/8"
height = 28
mass = 2.5
density = 7850
fixing = "glue"
load = 800
seated = false
[tools]
kerf = "3/32"
guide_left = 5
guide_right = "1 1/2"
allowance = "1/8"
router = false
bit = 0.5
nail = "1/8"
pencil = "1/4"
string_stretch = 0.5
[template]
paper = "letter"
margin = 0.5
overlap = 0.5
portion = "Half"
"""


def test_the_least_job_has_the_documented_defaults() -> None:
    """An outline is enough; everything else has its default, and none is a guess at thickness."""
    job = read_job(LEAST)
    assert (job.units, job.tape, job.name) == (Units.MM, Tape(), "panel")
    assert (job.margin, job.tape_error, job.step) == (0.0, 0.0, 5.0)
    assert (job.legs, job.datum, job.damaged) == (None, None, ())
    assert (job.tools, job.template) == (Tools(), TemplateWish())
    assert job.wish.shapes == SHAPES
    assert (job.wish.goal, job.wish.lipping, job.wish.gap) == (Goal.AREA, 0.0, 0.001)
    limits = job.wish.limits
    assert (limits.length, limits.width) == (Span(), Span())
    assert (limits.ratio, limits.corner_radius) == (Span(1, math.inf), Span(60, 60))
    assert (limits.grain, limits.most_turn) == (0.0, math.pi / 2)
    assert (job.panel.cut_outs, job.panel.defects) == ((), ())
    assert job.panel.thickness == STAND_IN_THICKNESS and [p.key for p in job.missing] == [
        "panel.thickness"
    ]


def test_every_key_arrives_where_it_belongs() -> None:
    """A job that gives every key holds each of them, converted."""
    job = read_job(WHOLE)
    panel = job.panel
    assert (job.units, job.tape, job.name) == (Units.IN, Tape(imperial=True), "hall table")
    assert (panel.name, panel.was, panel.year) == ("north door", Was.LABORATORY, 1962)
    assert panel.finish == (Coat.PAINT, Coat.LINOLEUM)
    assert panel.boundary.bounds.right == pytest.approx(1981.2 + 3.175)
    assert panel.boundary.bounds.top == pytest.approx(838.2)
    assert panel.thickness == pytest.approx(44.45) and job.missing == ()
    assert panel.build.kind is Kind.HOLLOW
    assert (panel.build.stile, panel.build.rail) == pytest.approx((101.6, 127.0))
    assert panel.substance == MATERIALS["hollow-core door"]
    assert panel.grain == pytest.approx(math.pi / 2)
    assert job.datum == (Point(101.6, 50.8), Point(1778.0, 50.8))
    assert job.damaged == ("C", "A")
    assert [round(path.area / 25.4**2, 6) for path in panel.cut_outs] == [88, 20]
    assert panel.cut_outs[1].bounds.height == pytest.approx(254.0)  # turned by 90°
    (lock,) = panel.defects
    assert (lock.name, lock.spoils, lock.face) == ("lock", {Spoils.CUTTING}, Face.DOWN)
    assert (lock.clear, lock.depth) == pytest.approx((12.7, 25.4))
    assert lock.place.bounds.middle.distance_to(Point(990.6, 76.2)) < 1e-9


def test_every_wish_arrives_where_it_belongs() -> None:
    """Limits, legs, tools and template are those of the file, converted."""
    job = read_job(WHOLE)
    wish, limits = job.wish, job.wish.limits
    assert wish.shapes == ("capsule", "oval")
    assert (wish.goal, wish.gap) == (Goal.LENGTH, 0.0001)
    assert wish.lipping == job.margin == 6.35
    assert (limits.length, limits.width) == (Span(1016.0, 1524.0), Span(609.6, 609.6))
    assert (limits.ratio, limits.corner_radius) == (Span(1.5, 2.5), Span(50.8, 101.6))
    assert (limits.grain, limits.most_turn) == pytest.approx((math.pi / 2, math.pi / 12))
    assert (job.step, job.tape_error) == (12.7, 1.5875)
    assert job.legs == LegsWish(
        count=3,
        foot=Foot.ring(50.8, 3.175),
        at=(Point(-508.0, -203.2), Point(508.0, -203.2), Point(0.0, 254.0)),
        height=711.2,
        mass=2.5,
        density=7850.0,
        fixing=Fixing.GLUED,
        load=800.0,
        seated=False,
    )
    assert job.tools == Tools(
        kerf=2.38125,
        guide_left=127.0,
        guide_right=38.1,
        allowance=3.175,
        router=False,
        bit=12.7,
        nail=3.175,
        pencil=6.35,
        string_stretch=0.005,
    )
    assert job.template == TemplateWish(LETTER, Margins.all(12.7), 12.7, "half")


@given(st.sampled_from(Units), st.integers(1, 400))
def test_the_same_panel_in_any_units_is_the_same_job(units: Units, sixteenths: int) -> None:
    """A number in the file's units and a text with its own say the same."""
    inches = sixteenths / 16
    text = f'units = "{units.value}"\npanel.outline = {{ length = "{inches:.4f} in", width = 1 }}'
    bounds = read_job(text).panel.boundary.bounds
    assert bounds.width == pytest.approx(inches * 25.4, abs=1e-9)
    assert bounds.height == units.mm


def test_lengths_in_inches_are_exact() -> None:
    """78 in is 1981.2 mm, not a hair less."""
    job = read_job('units = "in"\npanel.outline = { length = 78, width = 33 }')
    assert job.panel.boundary.bounds.width == 1981.2
    assert job.step == 6.35


@pytest.mark.parametrize("order", [1, -1])
def test_an_outline_by_points_bows_outwards_whichever_way_it_runs(order: int) -> None:
    """A positive rise adds wood, a negative one takes it, clockwise or not; edges count from 1."""
    points = [[0, 0], [1000, 0], [1000, 500], [0, 500]][::order]
    areas = [
        read_job(f"panel.outline = {{ points = {points}, bows = [{bow}] }}").panel.boundary.area
        for bow in ("", "{ from = 1, rise = 20 }", "{ from = 1, rise = -20 }")
    ]
    assert areas[1] - areas[0] == pytest.approx(areas[0] - areas[2])
    # a flat arc over 1000 by 20 holds 2/3 of its box, to a part in a thousand
    assert areas[1] - areas[0] == pytest.approx(2 / 3 * 1000 * 20, rel=2e-3)


def test_bows_of_four_sides_are_told_apart_by_their_place() -> None:
    """Four lengths are the bows of AB, BC, CD, DA; a table names its edge by its first corner."""
    four = read_job("panel.outline = { length = 900, width = 600, bows = [0, 0, 12, 0] }")
    one = read_job(
        "panel.outline = { length = 900, width = 600, bows = [{ from = 3, rise = 12 }] }"
    )
    assert four.panel.boundary == one.panel.boundary
    assert four.panel.boundary.bounds.top == pytest.approx(612)


def test_one_radius_or_clip_is_that_of_all_corners() -> None:
    """A rounded corner loses r²(1 − π/4), a clipped one c²/2."""
    rounded = read_job("panel.outline = { length = 900, width = 600, radius = 50 }")
    clipped = read_job("panel.outline = { length = 900, width = 600, clip = 50 }")
    assert rounded.panel.boundary.area == pytest.approx(540_000 - 4 * 2500 * (1 - math.pi / 4))
    assert clipped.panel.boundary.area == pytest.approx(540_000 - 4 * 1250)


def defect(keys: str) -> Defect:
    """Return the only defect of a panel."""
    (found,) = read_job(f"{LEAST}[[panel.defects]]\n{keys}").panel.defects
    return found


@pytest.mark.parametrize("kind", list(DEFECT_KINDS))
def test_a_kind_of_defect_gives_what_is_usual_for_it(kind: str) -> None:
    """The kind's spoils and clearance hold where the file gives none, and give way to it."""
    usual = DEFECT_KINDS[kind]
    by_kind = defect(f'kind = "{kind}"\nat = [300, 300]\nsize = [80, 20]')
    own = defect(f'kind = "{kind}"\nat = [300, 300]\nsize = 20\nclear = 1\nspoils = ["bearing"]')
    assert by_kind.spoils == set(usual.spoils)
    if Spoils.CUTTING not in usual.spoils:
        assert by_kind.clear == usual.clear
    assert (own.spoils, own.clear) == ({Spoils.BEARING}, 1.0)
    assert by_kind.name == f"{kind} 1"


def test_a_split_is_kept_clear_past_its_tips() -> None:
    """A split drawn by its length reaches 50 past both tips and 6 across (common practice)."""
    bounds = defect('kind = "split"\nat = [500, 300]\nsize = [200, 4]').reach().bounds
    assert (bounds.width, bounds.height) == pytest.approx((200 + 2 * 50, 4 + 2 * 6), abs=0.01)
    across = defect('kind = "split"\nat = [500, 300]\nsize = [4, 200]').reach().bounds
    assert (across.width, across.height) == pytest.approx((16, 300), abs=0.01)


def test_a_split_by_points_is_kept_clear_all_round() -> None:
    """Where nobody knows which way it runs on, the larger clearance holds all round."""
    split = defect('kind = "split"\npoints = [[0, 400], [300, 402], [0, 404]]')
    assert split.clear == 50.0
    assert defect('kind = "split"\npoints = [[0, 400], [300, 402], [0, 404]]\nclear = 3').clear == 3


@pytest.mark.parametrize("shape", ["diameter = 8", "size = 8", "size = [8, 8]"])
def test_a_split_without_a_length_runs_on_along_the_grain(shape: str) -> None:
    """A round or square split reaches 50 both ways along the grain, whatever its clearance."""
    for clear, across in (("", 6.0), ("\nclear = 3", 3.0)):
        split = defect(f'kind = "split"\nat = [500, 300]\n{shape}{clear}')
        bounds = split.reach().bounds
        assert (bounds.width, bounds.height) == pytest.approx((108, 8 + 2 * across), abs=0.02)


@pytest.mark.parametrize(("thickness", "tools", "least"), [
    (18, "", 12.0),  # the router's bit
    (18, "bit = 19", 19.0),
    (18, "router = false", 5.4),  # 3 left by the saw, and its kerf
    (45, "router = false", 7.4),
    (18, "router = false\ncurve_allowance = 8", 10.4),
])  # fmt: skip
def test_what_no_blade_may_cross_is_kept_clear_of_blades(
    thickness: float, tools: str, least: float
) -> None:
    """Whatever its kind, and with none, its usual clearance is what blades and bit need."""
    panel = f"[panel]\noutline = {{ length = 900, width = 600 }}\nthickness = {thickness}\n"
    for kind, usual in (('kind = "pocket"', 6.0), ('spoils = "cutting"', 0.0)):
        hole = f"[[panel.defects]]\n{kind}\nat = [300, 300]\nsize = 40\n"
        (found,) = read_job(f"{panel}{hole}[tools]\n{tools}\n").panel.defects
        assert found.clear == pytest.approx(max(least, usual))


def test_ends_count_only_where_they_are_more_than_the_clearance() -> None:
    """A clearance that is larger than `ends` is kept past the ends too."""
    bounds = defect("at = [500, 300]\nsize = [200, 4]\nclear = 30\nends = 10").reach().bounds
    assert (bounds.width, bounds.height) == pytest.approx((260, 64), abs=0.015)


def test_the_underside_does_not_show() -> None:
    """A defect on the underside spoils bearing only, unless the file says more."""
    below = defect('at = [300, 300]\nsize = 20\nface = "down"')
    assert (below.spoils, below.face) == ({Spoils.BEARING}, Face.DOWN)
    assert defect("at = [300, 300]\nsize = 20").face is Face.THROUGH
    assert defect("at = [300, 300]\nsize = 20\ndepth = 3").face is Face.UP


def test_a_cut_out_may_run_over_an_edge_or_touch_it() -> None:
    """What is left is the panel without it."""
    over = "cutouts = [[[900, 748], [1090, 748], [1090, 900], [900, 900]]]\n"
    touching = over.replace("900]", "838]")
    area = 1981 * 838 - 190 * 90
    for cut_out in (over, touching):
        assert read_job(LEAST + cut_out).panel.area == pytest.approx(area)


def test_the_nearest_goal_takes_its_size_as_a_wish_and_not_as_a_limit() -> None:
    """With goal nearest, length and width are what to be near to; limits stay free beside them."""
    wish = read_job(
        LEAST + '[top]\ngoal = "nearest"\nlength = 1500\nwidth = 700\nmost_width = 750'
    ).wish
    assert wish.wanted == (1500.0, 700.0)
    assert (wish.limits.length, wish.limits.width) == (Span(), Span(0.0, 750.0))


def test_a_size_that_just_fills_the_panel_is_no_problem() -> None:
    """The check of sizes against the panel is a limit, not a margin."""
    assert read_job(LEAST + "[top]\nlength = 1981\nwidth = 838").wish.limits.width.least == 838
    lipped = LEAST + "[top]\nlength = 1993\nwidth = 850\nlipping = 6"
    assert read_job(lipped).wish.lipping == 6.0


def test_legs_may_be_given_by_inset_or_left_to_what_is_usual() -> None:
    """One inset is that of sides and ends; none leaves both open."""
    legs = read_job(LEAST + '[legs]\ninset = 80\nfoot = "rectangular"\nsize = [80, 60]').legs
    assert legs is not None
    assert (legs.inset_side, legs.inset_end, legs.count) == (80.0, 80.0, 4)
    assert legs.foot == Foot(FootShape.RECTANGULAR, 80.0, 60.0)
    open_legs = read_job(LEAST + '[legs]\ncount = 6\nmaterial = "beech"').legs
    assert open_legs is not None
    assert (open_legs.inset_side, open_legs.inset_end, open_legs.count) == (None, None, 6)
    assert open_legs.density == pytest.approx(716.8)  # Wood Handbook, 1000 · 0.64 · 1.12


@pytest.mark.parametrize("path", sorted(SAMPLES.glob("*/job.toml")), ids=lambda p: p.parent.name)
def test_the_samples_are_jobs_that_a_plan_can_be_made_of(path: Path) -> None:
    """Each sample reads without a problem and leaves nothing out."""
    reading = look_over(path.read_bytes(), source=path.name)
    assert reading.job is not None and not reading.problems and not reading.missing


def test_there_are_samples() -> None:
    """The test above has something to look at."""
    assert len(list(SAMPLES.glob("*/job.toml"))) >= 3


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("margin", -1.0),
        ("tape_error", math.inf),
        ("step", 0.0),
        ("datum", (Point(1, 1), Point(1, 1))),
    ],
)
def test_a_job_that_cannot_be_is_not_made(name: str, value: object) -> None:
    """A job is valid once it is made, by hand too."""
    job = read_job(LEAST)
    parts = {field: getattr(job, field) for field in ("panel", "wish")} | {name: value}
    with pytest.raises(LayoutError):
        Job(**parts)


def test_a_round_panel_is_given_by_its_diameter_an_oval_one_by_its_axes() -> None:
    """Both lie with their box at the origin and have the area of circle and ellipse."""
    round_one = read_job("[panel]\noutline = { diameter = 900 }").panel
    assert round_one.boundary.area == pytest.approx(math.pi * 450**2)
    for axes in ([1400, 800], [800, 1400], [800, 800]):
        panel = read_job(f"[panel]\noutline = {{ axes = {axes} }}").panel
        box = panel.boundary.bounds
        assert (box.left, box.bottom) == pytest.approx((0, 0), abs=1e-9)
        assert [box.width, box.height] == pytest.approx(axes)
        assert panel.boundary.area == pytest.approx(math.pi * axes[0] * axes[1] / 4)


@pytest.mark.parametrize(
    ("text", "key", "told"),
    [
        ("diameter = 900, width = 4", "width", "diameter says it all"),
        ("diameter = 900, axes = [3, 4]", "axes", "diameter says it all"),
        ("axes = 900", "axes", "write [length, width]"),
        ("diameter = -3", "diameter", "is not above 0"),
    ],
)
def test_a_round_outline_is_given_once(text: str, key: str, told: str) -> None:
    """What says the same thing otherwise does not stand beside it."""
    with pytest.raises(JobError) as error:
        read_job(f"[panel]\noutline = {{ {text} }}")
    (problem,) = error.value.problems
    assert problem.key == f"panel.outline.{key}"
    assert told in problem.message
