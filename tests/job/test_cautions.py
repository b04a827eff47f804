"""The caution card: which panel calls for which warning, by its year, its build and its mass."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from panelwright.layout.geometry.placement import Placement
from panelwright.layout.geometry.point import Point
from panelwright.layout.job.cautions import GRAIN, cautions_for
from panelwright.layout.outlines import Circle, Outline, Oval, Rectangle
from panelwright.layout.panel import Build, Kind, Panel, rectangular_outline
from panelwright.layout.top import Top

OAK = Panel(rectangular_outline(1000, 600), 20, material="oak", year=2010)
LEAD, CORE, LIFTING = "Old paint and varnish", "What the core is", "Lifting"


def top_of(panel: Panel, outline: Outline | None = None, turn: float = 0.0) -> Top:
    """Return a top from the middle of a panel."""
    middle = Placement(Point(500, 300), turn)
    return Top(panel, outline or Rectangle(800, 400), middle)


def subjects(panel: Panel) -> set[str]:
    """Return what a panel is warned of."""
    return {caution.subject for caution in cautions_for(top_of(panel))}


def words(panel: Panel, subject: str) -> str:
    """Return the warning on a subject."""
    (found,) = (c.words for c in cautions_for(top_of(panel)) if c.subject == subject)
    return found


@pytest.mark.parametrize("kind", Kind)
@pytest.mark.parametrize(("year", "warned"), [(None, True), (1977, True), (1978, False)])
def test_a_finish_from_before_1978_may_hold_lead(
    kind: Kind, year: int | None, warned: bool
) -> None:
    """Whatever lies under it: paint with lead was sold to households until 1978 (16 CFR 1303)."""
    panel = replace(OAK, year=year, build=Build(kind), material="")
    assert (LEAD in subjects(panel)) is warned
    if warned:
        assert ("unknown age" if year is None else str(year)) in words(panel, LEAD)


@pytest.mark.parametrize(
    "finish", ["none, bark off", "bare wood, scrubbed for years", "Unfinished"]
)
def test_bare_wood_has_no_coat_that_could_hold_lead(finish: str) -> None:
    """Lead was in paint and varnish: where the maker says that there is none, none is told of."""
    assert LEAD not in subjects(replace(OAK, year=1950, finish=finish))
    assert LEAD in subjects(replace(OAK, year=1950, finish=f"varnish over {finish}"))


def test_nobody_is_told_to_make_a_hole_in_what_may_be_asbestos() -> None:
    """Whoever wants to see the core looks into holes that are there (common practice)."""
    told = words(replace(OAK, build=Build(Kind.HOLLOW), material="", year=1971), CORE)
    assert "do not drill, saw, sand or scrape" in told
    assert "Drill" not in told


@pytest.mark.parametrize("kind", Kind)
@pytest.mark.parametrize(("year", "warned"), [(None, True), (1999, True), (2000, False)])
def test_a_core_from_before_2000_may_hold_asbestos(
    kind: Kind, year: int | None, warned: bool
) -> None:
    """All that has a core under its face is suspect (common practice); a solid board has none."""
    panel = replace(OAK, year=year, build=Build(kind), material="")
    assert (CORE in subjects(panel)) is (warned and kind is not Kind.SOLID)


@pytest.mark.parametrize(("mass", "warned"), [(24.95, False), (25.05, True), (60.0, True)])
@pytest.mark.parametrize("kind", [Kind.SOLID, Kind.MDF])
def test_two_lift_from_25_kilograms(mass: float, warned: bool, kind: Kind) -> None:
    """The old panel is what is lifted, whole, before anything is cut (common practice)."""
    panel = replace(OAK, build=Build(kind), material="")
    panel = replace(panel, thickness=panel.thickness * mass / panel.mass)
    assert (LIFTING in subjects(panel)) is warned
    if warned:
        about = f"{top_of(panel).mass:.0f} kg"
        many = "three" if mass == 60.0 else "two"
        assert f"{mass:.0f} kg and the new top about {about}: {many} people" in words(
            panel, LIFTING
        )


@pytest.mark.parametrize("kind", Kind)
def test_dust_of_glued_board_carries_resin(kind: Kind) -> None:
    """Particles, fibres and veneers are bound with resin; solid and framed wood is not."""
    glued = kind not in (Kind.SOLID, Kind.FRAMED, Kind.HOLLOW)
    assert words(replace(OAK, build=Build(kind), material=""), "Dust").startswith(
        "Board dust carries resin" if glued else "Wood dust harms"
    )


@pytest.mark.parametrize("kind", Kind)
@pytest.mark.parametrize(("degrees", "grain"), [(9.5, 0), (10.5, 0), (-33.8, 0), (88, 90), (0, 90)])
def test_a_top_that_turns_out_of_the_grain_is_told_of(
    kind: Kind, degrees: float, grain: float
) -> None:
    """From ten degrees, in solid wood and veneer; a round top lies no way at all."""
    panel = replace(OAK, build=Build(kind), material="", grain=math.radians(grain))
    off = abs(math.remainder(degrees - grain, 180))
    grained = kind in (Kind.SOLID, Kind.VENEERED)
    told = {
        name: [c.words for c in cautions_for(top_of(panel, outline, math.radians(degrees)))
               if c.subject == GRAIN]
        for name, outline in (("oval", Oval(800, 400)), ("round", Circle(400)))
    }  # fmt: skip
    assert len(told["oval"]) == (grained and off >= 10)
    assert all(f"lies {off:.0f}° from the grain" in words for words in told["oval"])
    assert told["round"] == []
