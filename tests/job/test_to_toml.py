"""A job is written as a job file that gives the same job again."""

from __future__ import annotations

import math
import tomllib
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from random_jobs import job_text

from panelwright.layout.errors import LayoutError
from panelwright.layout.fit.wish import Wish
from panelwright.layout.geometry.placement import Placement
from panelwright.layout.geometry.point import Point
from panelwright.layout.jobfile import look_over, read_job
from panelwright.layout.legs.foot import Foot
from panelwright.layout.legs.wish import LegsWish
from panelwright.layout.outlines import Oval
from panelwright.layout.panel import Panel, defect, oval_outline, rectangular_outline, round_outline
from panelwright.layout.plan.job import Job
from panelwright.layout.plan.serialise import plain
from panelwright.layout.plan.written import written
from panelwright.layout.units import Units

ROOT = Path(__file__).parents[2]


def same(job: Job) -> None:
    """Assert that a job comes back; arcs that a file has by their rise do to a millionth."""
    again = replace(read_job(job.to_toml()), missing=())
    assert list(differences(plain(again), plain(replace(job, missing=())))) == []


def differences(one: object, other: object, where: str = "job") -> Iterator[str]:
    """Yield where two records differ."""
    if isinstance(one, dict) and isinstance(other, dict) and list(one) == list(other):
        for name in one:
            yield from differences(one[name], other[name], f"{where}.{name}")
    elif isinstance(one, list) and isinstance(other, list) and len(one) == len(other):
        for i, pair in enumerate(zip(one, other, strict=True)):
            yield from differences(*pair, f"{where}[{i}]")
    elif isinstance(one, float) and isinstance(other, float):
        if abs(math.remainder(one - other, 360.0)) > 2e-6:  # angles come back by whole turns
            yield f"{where}: {one} {other}"
    elif one != other:
        yield f"{where}: {one} {other}"


@pytest.mark.parametrize(
    "path", sorted(ROOT.glob("samples/*/job.toml")), ids=lambda p: p.parent.name
)
def test_the_samples_come_back(path: Path) -> None:
    """In millimetres as in inches."""
    same(read_job(path.read_bytes()))


@pytest.mark.parametrize(
    "number", [pytest.param(k, marks=() if k < 25 else pytest.mark.heavy) for k in range(150)]
)
def test_any_job_comes_back(number: int) -> None:
    """Whatever a job file says is said again."""
    job = look_over(job_text(number)).job
    if job is not None:
        same(job)


@pytest.mark.parametrize(
    "outline",
    [
        rectangular_outline(1200, 600, radii=(40, 0, 300, 10)),
        rectangular_outline(1200, 600, clips=(0, 60, 0, 0), bows=(5, 0, -8, 0)),
        round_outline(900),
        oval_outline(800, 1300),
        [(0, 0), (1600, 0), (1580, 640), (15, 610)],
    ],
)
def test_a_job_that_is_made_in_a_program_comes_back(outline: object) -> None:
    """Its outline by sides, axes or corners, its defects by kind."""
    panel = Panel(outline, 22, name="board", grain_deg=30)  # type: ignore[arg-type]
    panel = panel.with_defect(defect("screw hole", at=(300, 200), diameter=8))
    panel = panel.with_defect(defect("split", at=(500, 300), size=(200, 4), turn_deg=10))
    legs = LegsWish(3, Foot.ring(60, 3), splay_deg=8, material="ash")
    for units in Units:
        same(Job(panel, Wish(["oval", "capsule"]), legs=legs, units=units, margin=6, name="one"))


@pytest.mark.parametrize(
    "outline",
    [
        {"length": 900, "width": 600, "radii": [25, 25, 25, 25]},
        {"length": 900, "width": 600, "radii": [0, 0, 300, 300]},
        {"length": 600, "width": 600, "clips": [0, 0, 40, 0]},
        {"length": 900, "width": 600, "radii": [30, 0, 0, 0], "clips": [0, 40, 0, 20]},
        {"diameter": 900},
        {"points": [[0, 0], [900, 0], [880, 600], [0, 590]], "bows": [{"from": 2, "rise": -8}]},
    ],
)
def test_an_outline_is_written_as_it_was_read(outline: dict[str, Any]) -> None:
    """To the letter: a rounded or clipped panel by its sides, bows by the figures they had."""
    job = read_job(written({"panel": {"outline": outline}}))
    assert tomllib.loads(job.to_toml())["panel"]["outline"] == outline
    assert read_job(job.to_toml()).panel == job.panel


TEXTS = st.text(st.characters(exclude_categories=["Cs"]), max_size=20)
FIGURES = st.floats(allow_nan=False) | st.integers(-(10**18), 10**18) | st.booleans()
VALUES = TEXTS | FIGURES | st.lists(TEXTS, max_size=3) | st.lists(st.lists(FIGURES), max_size=3)
TABLES = st.dictionaries(TEXTS, VALUES | st.dictionaries(TEXTS, VALUES, max_size=2), max_size=4)


@given(TABLES, st.lists(TABLES, min_size=1, max_size=3))
def test_any_tables_come_back(table: dict[str, Any], listed: list[dict[str, Any]]) -> None:
    """Whatever signs its texts and keys have, what is written is TOML and says the same."""
    tables = {"panel": {**table, "defects": listed}}
    assert tomllib.loads(written(tables, lambda trail: "what it means", ["heading"])) == tables


def test_what_no_file_holds_is_refused() -> None:
    """Arcs of ellipses stand nowhere but round a whole panel."""
    moved = Oval(1200, 600).path().placed(Placement(Point(700, 400), 0.3))
    with pytest.raises(LayoutError, match="give it by points"):
        Job(Panel(moved, 22), Wish("circle")).to_toml()
