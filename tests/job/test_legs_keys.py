"""[legs]: what each key of the legs and of the table on them becomes."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from panelwright.layout.cutting.profile import EdgeProfile
from panelwright.layout.fit import Wish
from panelwright.layout.jobfile import read_job
from panelwright.layout.legs.fixings import Glue, Screw
from panelwright.layout.legs.foot import LEG_MATERIALS, Foot, FootShape
from panelwright.layout.legs.wish import COUNTS, Fixing, FixingPlate, Goal, Lean, LegsWish
from panelwright.layout.panel import Panel, rectangular_outline
from panelwright.layout.plan.job import Job
from panelwright.layout.units import Units

GROUND = "[panel]\noutline = { length = 1600, width = 700 }\nthickness = 30\n"


def read(text: str, panel: str = "") -> Job:
    """Return the job with these keys of the legs."""
    return read_job(f"{GROUND}{panel}\n[legs]\n{text}")


def wish_of(text: str, panel: str = "") -> LegsWish:
    """Return the legs of that job."""
    legs = read(text, panel).legs
    assert legs is not None
    return legs


def test_without_a_count_the_best_of_several_is_sought() -> None:
    """3, 4, 5, 6 and 8 where nothing is said, else those named; two of slabs."""
    assert read("").table.counts == COUNTS == (3, 4, 5, 6, 8)
    assert read("counts = [6, 4, 6]").table.counts == (6, 4)
    slab = read('foot = "trestle"\nsize = [50, 600]')
    assert slab.table.counts == (2,)
    assert slab.legs is not None
    assert slab.legs.foot == Foot(FootShape.SLAB, 50, 600)
    assert slab.legs.count == 2


def test_a_count_or_places_stand_as_they_are_unless_a_goal_is_named() -> None:
    """A count goes by inset; with a goal it is proposed for."""
    assert read("count = 6").table.counts == ()
    sought = read('count = 6\ngoal = "knees"').table
    assert (sought.counts, sought.goal) == ((6,), Goal.KNEE_ROOM)
    assert read("at = [[-500, -200], [500, -200], [0, 250]]").table.counts == ()


def test_the_leg_follows_from_the_height_of_the_table() -> None:
    """740 of table less 30 of top leave 710 under it, of which a plate takes its thickness."""
    plated = wish_of("table_height = 740\nplate = [90, 60]\nplate_thickness = 5")
    assert plated.height == 710
    assert plated.plate == FixingPlate(90, 60, 5)
    assert plated.leg_length == 705
    flattened = wish_of("table_height = 740", "flattened = 26")
    assert flattened.height == 714


def test_splayed_legs_lean_as_they_are_told() -> None:
    """Degrees become radians, and the way they lean has a short name."""
    leaning = wish_of('splay = 12\nlean = "ends"')
    assert leaning.splay == pytest.approx(math.radians(12))
    assert leaning.lean is Lean.ENDS
    assert leaning.leg_length == pytest.approx(700 / math.cos(math.radians(12)))


@pytest.mark.parametrize(("name", "density"), [("steel", 7850), ("concrete", 2350), ("clay", 1900)])
def test_legs_weigh_what_their_material_weighs(name: str, density: float) -> None:
    """Steel, concrete and fired clay are known too (from memory)."""
    legs = wish_of(f'material = "{name}"')
    assert legs.density == density
    assert legs.material in LEG_MATERIALS
    assert legs.is_masonry == (name != "steel")


def test_fixings_are_those_of_the_file() -> None:
    """Screws, where their holes lie, an apron."""
    table = read("plate = 90\nplate_holes = [65, 60]\nscrew = [5, 30]\napron = true").table
    assert (table.screw, table.holes, table.framed) == (Screw(5, 30), (65, 60), True)
    assert read("plate = 90\nplate_holes = 65").table.holes == (65, 65)


def test_wooden_legs_are_glued_rigidly_and_others_flexibly() -> None:
    """What holds steel or brick is flexible where nothing is said."""
    assert read('fixing = "glue"').table.glue is Glue.RIGID
    assert read('fixing = "glue"\nmaterial = "steel"').table.glue is Glue.FLEXIBLE
    assert read('fixing = "glue"\nglue = "elastic"').table.glue is Glue.FLEXIBLE


def test_a_top_lies_loose_on_masonry_unless_it_is_glued() -> None:
    """Brick takes no screw, so nothing is assumed to hold the top down."""
    assert wish_of('material = "brick"').fixing is Fixing.LOOSE
    assert wish_of('material = "brick"\nfixing = "glued"').fixing is Fixing.GLUED
    assert wish_of('material = "oak"').fixing is Fixing.SCREWED


def test_loads_creep_places_and_moisture_are_those_of_the_file() -> None:
    """What the table has to carry, how it moves, who sits at it."""
    table = read(
        "spread = 50\npress = 800\ncreep = 1.8\nplace = 650", 'moisture = [7, 13]\nsawn = "quarter"'
    ).table
    assert (table.long_term, table.point, table.creep, table.place) == (50, 800, 1.8, 650)
    assert (table.swing, table.quartered) == (6, True)
    usual = read("").table
    assert (usual.swing, usual.quartered, usual.creep) == (4, False, None)


@pytest.mark.parametrize("legs", ["", "[legs]\n"])
@pytest.mark.parametrize(("units", "place"), [("in", 24 * 25.4), ("mm", 600.0)])
def test_a_diner_takes_a_round_figure_of_the_tape(units: str, place: float, legs: str) -> None:
    """24 in or 600 mm of the edge, whether or not the job says anything of legs."""
    panel = "[panel]\noutline = { length = 60, width = 40 }\nthickness = 1\n"
    text = panel.replace("60, width = 40", "1500, width = 900").replace("s = 1", "s = 25")
    job = read_job(f'units = "{units}"\n{panel if units == "in" else text}{legs}')
    assert job.table.place == pytest.approx(place)


def test_a_bevel_keeps_the_legs_inside_it() -> None:
    """10 mm inside a bevel of 30 (practice); none without one."""
    assert wish_of("count = 4\n[top]\nbevel = [30, 12]").keep_in == 40
    assert wish_of("count = 4").keep_in == 0


@pytest.mark.parametrize("units", ["mm", "in"])
@pytest.mark.parametrize("height", [400.0, 690.0])
@pytest.mark.parametrize("material", ["", "steel"])
def test_a_program_gets_what_a_file_gets(units: str, height: float, material: str) -> None:
    """Load, seats, bevel, glue, a diner's width and rounding hang on the table, not on the door."""
    made = f'units = "{units}"\n[panel]\noutline = {{ length = "1600 mm", width = "700 mm" }}\n'
    named = f'material = "{material}"\n' if material else ""
    legs = f'thickness = "30 mm"\n[legs]\ncount = 4\n{named}height = "{height} mm"\n'
    file = read_job(made + legs + '[top]\nshape = "oval"\nbevel = ["30 mm", "12 mm"]')
    panel = Panel(rectangular_outline(1600, 700), 30)
    wish = LegsWish(4, height=height, material=material)
    profile = EdgeProfile(bevel_in=30, bevel_up=12)
    job = Job(panel, Wish("oval"), legs=wish, profile=profile, units=Units(units))
    assert (job.legs, job.table, job.step) == (file.legs, file.table, file.step)
    assert read_job(job.to_toml()).legs == job.legs
    told = replace(wish, load=650, seated=True)
    kept = replace(job, legs=told).legs
    assert kept is not None and (kept.load, kept.seated, kept.keep_in) == (650, True, 40)
