"""A top that is asked for in a program is the one that a job file gives: there is one right way."""

from __future__ import annotations

from collections.abc import Mapping
from random import Random
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from random_jobs import random_job, toml_of

from panelwright.layout.cutting.tools import Tools
from panelwright.layout.errors import LayoutError, NothingFitsError
from panelwright.layout.fit.found import Fit
from panelwright.layout.fit.wish import Limits, Wish
from panelwright.layout.jobfile import read_job
from panelwright.layout.panel import (
    Build,
    Panel,
    Spot,
    defect,
    outline_through,
    rectangular_outline,
)
from panelwright.layout.plan.fitting import fits, fits_of, ground_of
from panelwright.layout.plan.job import Job

ANGLES = {"turn": "turn_deg", "grain": "grain_deg", "most_turn": "most_turn_deg"}
COUNTED = {"turn", "grain", "year", "exponent", "most_turn", "most_ratio", "moisture"}

numbers = st.integers(0, 10**9)


def told(table: Mapping[str, Any], units: str) -> dict[str, Any]:
    """Return keys of a job file as a program gives them: lengths with the file's unit."""
    return {
        ANGLES.get(name, name): value if name in COUNTED else _told(value, units)
        for name, value in table.items()
    }


def _told(value: Any, units: str) -> Any:  # noqa: ANN401
    if isinstance(value, list):
        return [_told(item, units) for item in value]
    if isinstance(value, bool) or not isinstance(value, int | float):
        return value
    return f"{value!r} {units}"


def boundary(outline: dict[str, Any]) -> object:
    """Return the outline of a panel as a program makes it."""
    if "points" in outline:
        return outline["points"]
    sizes = {name: outline[name] for name in outline if name not in ("length", "width", "radius")}
    if "radius" in outline:
        sizes["radii"] = [outline["radius"]] * 4
    return rectangular_outline(outline["length"], outline["width"], **sizes)


def parts(table: dict[str, Any]) -> tuple[Panel, Wish, Tools, dict[str, Any]]:
    """Return panel, wish, tools and the rest of a job as a program makes them."""
    units = table["units"]
    panel, top = told(table["panel"], units), told(table["top"], units)
    build = Build(panel["build"], panel.get("stile", 0), panel.get("rail", 0))
    names = ("name", "thickness", "flattened", "material", "grain_deg", "finish", "year")
    wood = Panel(
        boundary(told(table["panel"]["outline"], units)),  # type: ignore[arg-type]
        cut_outs=tuple(Spot(**told(spot, units)).path() for spot in panel.get("cutouts", ())),
        defects=tuple(defect(**told(one, units)) for one in table["panel"].get("defects", ())),
        build=build,
        **{name: panel[name] for name in names if name in panel},
    )
    sizes = {}
    if "corner_radius" in top:
        sizes["corner_radius"] = top["corner_radius"]
    if "most_ratio" in top:
        sizes["ratio"] = (1, top["most_ratio"])
    limits = Limits(most_turn_deg=top.get("most_turn_deg", 90), **sizes)
    asked = {
        {"outline": "own", "shape": "shapes"}.get(name, name): top[name]
        for name in ("shape", "outline", "exponent", "lipping", "keep", "ends")
        if name in top
    }
    rest = {name: top[name] for name in ("margin", "tape_error") if name in top}
    return wood, Wish(limits=limits, **asked), Tools(**told(table["tools"], units)), rest


def both(number: int) -> tuple[Job, Job] | None:
    """Return a random job as its file gives it and as a program does; None where it is refused."""
    table = random_job(Random(number))
    try:
        job = read_job(toml_of(table))
    except LayoutError as refused:
        with pytest.raises(LayoutError):
            program = parts(table)
            Job(*program[:3], **program[3])
            raise refused  # what a program does not hold, such as legs, may be what is refused
        return None
    wood, wish, tools, rest = parts(table)
    return job, Job(wood, wish, tools, **rest)


@given(numbers)
@settings(max_examples=40)
def test_a_program_asks_the_same_of_the_same_wood(number: int) -> None:
    """Panel, defects with their clearances, grain, kept edges and limits are those of the file."""
    same_question(number)


@pytest.mark.heavy
def test_a_program_asks_the_same_of_300_panels() -> None:
    """So it does whatever defects there are: the same question has the same answer."""
    for number in range(300):
        same_question(number)


def same_question(number: int) -> None:
    """Hold what a program asks to what a random job's file asks."""
    asked = both(number)
    if asked is None:
        return
    file, program = asked
    assert program.panel.defects == file.panel.defects
    assert program.panel == file.panel
    assert program.wish == file.wish
    assert (program.tools, program.margin, program.tape_error) == (
        file.tools,
        file.margin,
        file.tape_error,
    )
    assert ground_of(program, program.panel) == ground_of(file, file.panel)


def found(fit: Fit) -> tuple[object, ...]:
    """Return what a fit is, where it lies and how near the best it is."""
    return fit.outline, fit.placement, fit.bound


def same_tops(number: int) -> None:
    """Hold the tops of a random job's file to those that a program finds."""
    table = random_job(Random(number))
    try:
        job = read_job(toml_of(table))
        file = [found(fit) for fit in fits_of(job)]
    except LayoutError as error:
        if isinstance(error, NothingFitsError):
            with pytest.raises(NothingFitsError):
                _asked(table)
        return
    assert [found(fit) for fit in _asked(table)] == file


def _asked(table: dict[str, Any]) -> tuple[Fit, ...]:
    wood, wish, tools, rest = parts(table)
    return fits(wood, wish, tools=tools, **rest)


@pytest.mark.parametrize("number", [3, 5, 8])
def test_a_program_finds_the_same_tops(number: int) -> None:
    """All defects are heeded without a word."""
    same_tops(number)


@pytest.mark.by_hand
@pytest.mark.parametrize("number", range(300))
def test_a_program_finds_the_same_tops_on_300_panels(number: int) -> None:
    """All defects are heeded without a word, whatever their kind."""
    same_tops(number)


def test_outline_of_points_is_closed_as_a_file_closes_it() -> None:
    """Corners given to the panel make the path that `outline_through` makes."""
    corners = [(0, 0), (900, 0), (880, 500), (10, 490)]
    assert Panel(corners, 22).boundary == outline_through(corners)  # type: ignore[arg-type]
