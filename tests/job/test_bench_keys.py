"""Keys of mending, flattening, the edge and what there is to draw with: read, refused, heeded."""

from __future__ import annotations

import pytest

from panelwright.layout.cutting.profile import EdgeProfile
from panelwright.layout.errors import Problem
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.polygon import Region
from panelwright.layout.geometry.tolerance import CHORD
from panelwright.layout.jobfile import look_over, read_job
from panelwright.layout.legs.plan import LegMatter
from panelwright.layout.marking.method import HandTool
from panelwright.layout.panel import Face, Kind, Mend
from panelwright.layout.plan.plan import Plan, make_plan
from panelwright.layout.units import Tape
from panelwright.layout.words.ways import against_words

GROUND = "[panel]\noutline = { length = 1000, width = 600 }\nthickness = 28\n"
HOLE = '[[panel.defects]]\nname = "hole"\nat = [480, 290]\ndiameter = 35\n'


def plan(text: str) -> Plan:
    """Lay out a job."""
    return make_plan(read_job(text))


def only(text: str) -> Problem:
    """Return the one problem of a text."""
    (found,) = look_over(text).problems
    return found


def test_what_is_read() -> None:
    """Each key arrives where the library wants it."""
    job = read_job(
        GROUND
        + "flattened = 26\n"
        + HOLE
        + 'mend = "plug"\n'
        + '[[panel.defects]]\nkind = "split"\nat = [300, 300]\nsize = [180, 4]\n'
        + 'mend = "butterfly"\n'
        + "[top]\nround_over = 3\nbevel = [30, 12]\n"
        + '[tools]\ndraw_with = ["nails", "rod"]\ntongue = 300\nbush = 24\n'
        + 'pass_depth = 8\nshow_face = "up"\n'
    )
    hole, split = job.panel.defects
    assert (job.panel.thickness, job.panel.flattened, job.panel.made_thickness) == (28, 26, 26)
    assert (hole.mend, hole.drawn_out) == (Mend.PLUG, 0.0)
    assert (split.mend, split.drawn_out) == (Mend.KEY, 44.0)  # 50 past its tips, 6 of it clear
    assert job.profile == EdgeProfile(3.0, 30.0, 12.0)
    tools = job.tools
    assert tools.draw_with == {HandTool.STRING, HandTool.ROD}
    assert (tools.tongue, tools.bush, tools.pass_depth) == (300.0, 24.0, 8.0)
    assert tools.show_face is Face.UP


@pytest.mark.parametrize(
    ("text", "key", "says"),
    [
        (GROUND + "flattened = 30", "panel.flattened", "flattening only takes off"),
        (GROUND + 'flattened = 20\nbuild = "MDF"', "panel.flattened", "is not flattened"),
        (GROUND + "[top]\nbevel = 30", "top.bevel", "write [in, up]"),
        (GROUND + "[top]\nbevel = [30, 28]", "top.bevel", "leave some of it"),
        (GROUND + "[top]\nround_over = 28", "top.round_over", "take 28 mm of an edge of 28 mm"),
        (
            GROUND + "flattened = 20\n[top]\nround_over = 9\nbevel = [30, 12]",
            "top.bevel",
            "an edge of 20 mm",
        ),
        (GROUND + HOLE + 'mend = "plugg"', "panel.defects[1].mend", "did you mean plug?"),
        (
            GROUND + HOLE.replace("35", "120") + 'mend = "plug"',
            "panel.defects[1].mend",
            "larger than any plug",
        ),
        (
            GROUND + '[tools]\ndraw_with = "laser"',
            "tools.draw_with",
            '"laser" is not known',
        ),
        (GROUND + "[tools]\nbush = 0", "tools.bush", "not above 0"),
        (GROUND + "[tools]\npass_depth = -2", "tools.pass_depth", "not above 0"),
    ],
)
def test_slips_are_told_once(text: str, key: str, says: str) -> None:
    """Each slip is told under its own key, with what to do."""
    problem = only(text)
    assert problem.key == key
    assert says in problem.message


@pytest.mark.parametrize("mend", ["plug", "patch"])
def test_a_mended_hole_lies_inside_the_top_or_outside(mend: str) -> None:
    """Mended, a hole costs the top nothing; its edge does not run through the mend."""
    wish = '[top]\nshape = "rectangle"\nmargin = 6\n'
    unmended = plan(GROUND + HOLE + wish)
    mended = plan(GROUND + HOLE + f'mend = "{mend}"\n' + wish)
    whole = plan(GROUND + wish)
    assert unmended.top.area < 0.6 * whole.top.area
    assert mended.top.area == pytest.approx(whole.top.area)
    (print_,) = (place for m in mended.cuts.mends for place in m.prints)
    core = Region.from_rings(mended.cuts.core.points(CHORD))
    assert core.holds(Region.from_rings(print_.points(CHORD)))
    assert unmended.cuts.mends == ()


def test_a_leg_may_stand_on_a_mend() -> None:
    """What is plugged bears again; in a hole that nobody mends a leg is told to stand badly."""
    legs = "[legs]\nat = [[-20, -10], [300, 200], [-300, 200], [0, -220]]\n"
    hole = HOLE + 'spoils = ["bearing"]\n'
    top = '[top]\nshape = "rectangle"\n'
    for mend, poor in (('mend = "plug"\n', 0), ("", 1)):
        found = plan(GROUND + hole + mend + top + legs)
        assert found.legs is not None
        told = [p for p in found.legs.problems if p.matter is LegMatter.POOR_BEARING]
        assert len(told) == poor


def test_the_flattened_thickness_is_what_the_top_is_made_of() -> None:
    """Weight goes by it, and so does the depth of every cut once it is flat."""
    thick, thin = (plan(GROUND + line) for line in ("", "flattened = 14\n"))
    assert thin.top_mass == pytest.approx(thick.top_mass / 2)
    assert thin.profile.edge_left == 14.0
    assert all(trim.depths == (18.0,) for trim in thin.cuts.trims)
    assert thin.job.panel.mass == thick.job.panel.mass  # it is lifted as it is found


def test_what_there_is_to_draw_with_decides_the_method() -> None:
    """With string alone an oval is drawn by string; a rod is truer where there is one."""
    oval = GROUND + '[top]\nshape = "oval"\nlength = 900\nwidth = 500\n'
    assert plan(oval).methods[0].name == "trammel rod"
    string = plan(oval + '[tools]\ndraw_with = "string"\n').methods
    assert string[0].name == "string and nails"
    unfit = {m.name: against_words(m, Tape()) for m in string if not m.serves}
    assert unfit["trammel rod"] == "no rod with two pins at hand"
    assert all(pivot.off is None for pivot in string[0].pivots)


def test_a_centre_off_the_wood_is_said_to_be() -> None:
    """The side centres of four arcs lie beyond the edges: how far, and beyond which, is known."""
    oval = GROUND + '[top]\nshape = "oval"\nlength = 990\nwidth = 590\n'
    (best,) = [m for m in plan(oval).methods if m.name == "four-centre oval, best"]
    off = {pivot.name: pivot.off for pivot in best.pivots if pivot.off is not None}
    assert set(off) == {"side 1", "side 2"}
    assert {o.edge for o in off.values()} == {"A–B", "C–D"}
    centre = Point(500, 300)
    below = centre.y - best.figures.side_centre
    assert off["side 1"].distance == pytest.approx(-below, abs=6.0)


def test_a_router_that_is_not_there_draws_nothing() -> None:
    """Without a router its trammel is listed with why not."""
    capsule = GROUND + '[top]\nshape = "capsule"\n'
    methods = {m.name: m for m in plan(capsule + "[tools]\nrouter = false\n").methods}
    assert against_words(methods["router trammel"], Tape()) == "no router trammel at hand"
    assert plan(capsule).methods[0].draws_line


@pytest.mark.parametrize(
    ("said", "kind"),
    [
        ('material = "chipboard"', Kind.PARTICLEBOARD),
        ('material = "MDF"', Kind.MDF),
        ('material = "hollow-core door"', Kind.HOLLOW),
        ('material = "oak"', Kind.SOLID),
        ('material = "oak"\nbuild = "veneered"', Kind.VENEERED),
    ],
)
def test_a_board_is_built_as_its_material_says(said: str, kind: Kind) -> None:
    """A job need not say twice that a panel is of chipboard; oak may be solid or a veneer."""
    text = f"[panel]\nthickness = 18\n{said}\noutline = {{ length = 900, width = 500 }}\n"
    assert read_job(text + '[top]\nshape = "oval"\n').panel.build.kind is kind
