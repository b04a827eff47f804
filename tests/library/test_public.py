"""``import panelwright as pw``: what a program holds in its hands."""

from __future__ import annotations

import json
import pickle
import subprocess
import sys
from functools import cache
from pathlib import Path
from typing import Any

import pytest
import shapely
from jsonschema import Draft202012Validator
from plan_schema import plan_schema

import panelwright as pw


def board() -> pw.Panel:
    """Return a rounded board with a stain in its finish, a screw hole and a nail in it."""
    panel = pw.Panel(pw.rectangular_outline(1200, 600, radii=(40, 40, 40, 40)), 22, name="board")
    for spoilt in (
        pw.defect("ring stain", at=(700, 320), diameter=90),
        pw.defect("screw hole", at=(60, 400), diameter=8),
        pw.defect("nail", at=(600, 300), diameter=4),
    ):
        panel = panel.with_defect(spoilt)
    return panel


@cache
def job() -> pw.Job:
    """Return a job made without a file."""
    legs = pw.LegsWish(4, pw.Foot.round(50))
    panel = board().without_defect("nail 3")
    return pw.Job(panel, pw.Wish("circle"), margin=6, legs=legs, name="Hall table")


@cache
def made() -> pw.Plan:
    """Return its plan."""
    return pw.plan(job())


def test_the_import_is_lazy_and_quick() -> None:
    """Neither numpy nor shapely is loaded before a name is asked for."""
    code = (
        "import sys, time; start = time.process_time(); import panelwright as pw; "
        "spent = time.process_time() - start; "
        "print(spent, 'numpy' in sys.modules, 'shapely' in sys.modules, pw.Oval(3, 2).area)"
    )
    said = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    spent, *loaded, area = said.stdout.split()
    assert float(spent) < 0.25  # 0.03 on a machine at rest
    assert (loaded, float(area)) == (["False", "False"], pytest.approx(4.712, abs=0.001))


def test_every_name_that_is_handed_on_is_there_and_documented() -> None:
    """The stub names what can be loaded, and each has a docstring of its own."""
    assert {"Panel", "Job", "best_fit", "fits", "plan", "read_job"} <= set(dir(pw))
    for name in pw.__all__:
        assert getattr(pw, name).__doc__, name
    with pytest.raises(AttributeError, match="best_fitt"):
        pw.best_fitt  # type: ignore[attr-defined]  # noqa: B018


def test_a_module_runs_as_the_command() -> None:
    """`python -m panelwright` is `panelwright`."""
    command = [sys.executable, "-m", "panelwright", "--version"]
    said = subprocess.run(command, capture_output=True, text=True, check=True)
    assert said.stdout == f"panelwright {pw.__version__}\n"


def test_a_size_is_answered_with_a_place_or_with_what_is_lacking() -> None:
    """All defects are heeded: the nail may lie inside the top, its edge may not cross it."""
    yes, no = pw.fits(board(), pw.Oval(1100, 560), margin=6), pw.fits(board(), pw.Circle(600))
    assert yes.fits and yes.placement is not None
    assert not no.fits or no.clearance == 0
    assert not pw.fits(board(), pw.Oval(1190, 590), margin=6).fits
    plain = pw.Panel(pw.rectangular_outline(400, 400), 22)
    nailed = plain.with_defect(pw.defect("nail", at=(200, 388), diameter=4))
    assert pw.fits(plain, pw.Circle(400)).fits
    assert not pw.fits(nailed, pw.Circle(400)).fits


def test_results_are_polygons_for_whoever_reckons_on() -> None:
    """Tops lie in the sound wood, offcuts beside the top; exact outlines stand beside."""
    plan = made()
    top = plan.fit.polygon
    assert isinstance(top, shapely.Polygon)
    assert plan.fit.path.area == pytest.approx(plan.fit.outline.area)
    assert top.area == pytest.approx(plan.fit.outline.area, rel=1e-3)
    assert top.area <= plan.fit.outline.area
    assert plan.top.polygon.area < top.area
    for offcut in plan.offcuts.pieces:
        assert offcut.polygon.intersection(plan.top.polygon).area < 1


def test_what_is_shown_is_short_and_drawn() -> None:
    """Each says in a line what it is, and draws itself in a notebook."""
    for held in (board(), job(), made(), made().fit):
        assert len(repr(held)) < 160 and "\n" not in repr(held)
    for shown in (board(), made(), made().fit):
        assert shown._repr_svg_().startswith("<?xml")
    assert "<pre>Hall table" in made()._repr_html_()
    assert repr(made()) == "<Plan 'Hall table': circle 585 × 585 mm, 4 legs>"


def test_a_plan_writes_what_the_command_writes(tmp_path: Path) -> None:
    """The files of `plan --out`, and single ones in memory."""
    written = made().write(tmp_path)
    assert [path.name for path in written] == list(made().files())
    assert (tmp_path / "plan.svg").read_text(encoding="utf-8") == made().svg()
    assert (tmp_path / "plan.json").read_text(encoding="utf-8") == made().json()
    assert made().pdf().startswith(b"%PDF")
    assert "SECTION" in made().dxf()
    assert list(Draft202012Validator(plan_schema()).iter_errors(json.loads(made().json()))) == []


def test_values_travel_between_processes() -> None:
    """Panels, jobs, tops and plans come out of a pickle as they went in."""
    for held in (board(), job(), made().fit, made()):
        again = pickle.loads(pickle.dumps(held))
        assert (again, type(again)) == (held, type(held))


def test_a_job_is_read_from_a_file_or_a_text(tmp_path: Path) -> None:
    """A text of one line is a file's name; what is wrong comes with its line."""
    text = "[panel]\noutline = { length = 1200, width = 600 }\n"
    path = tmp_path / "job.toml"
    path.write_text(text, encoding="utf-8")
    assert pw.read_job(text) == pw.read_job(text.encode()) == pw.read_job(path)
    assert pw.read_job(str(path)) == pw.read_job(path)
    with pytest.raises(pw.JobError, match="line 2"):
        pw.read_job(text.replace("600", "-600"))
    with pytest.raises(FileNotFoundError):
        pw.read_job("nowhere.toml")


@pytest.mark.parametrize("wrong", [None, -5, "oval", b"x", [1, 2], float("nan"), object()])
def test_a_wrong_call_is_refused_in_words(wrong: Any) -> None:  # noqa: ANN401
    """It says what goes there; nothing falls through to an attribute that is not there."""
    for call in (
        lambda: pw.plan(wrong),
        lambda: pw.fits(wrong, pw.Circle(300)),
        lambda: pw.fits(board(), wrong),
        lambda: pw.best_fit(wrong, "circle"),
        lambda: pw.fits(board(), pw.Circle(300), margin=wrong),
    ):
        with pytest.raises((pw.LayoutError, TypeError)) as error:
            call()
        assert len(str(error.value)) > 10
    if not isinstance(wrong, str | bytes):
        with pytest.raises(TypeError, match="from a file or a text"):
            pw.read_job(wrong)


def test_a_plan_asks_for_the_thickness() -> None:
    """A fit does without one, a plan says that it is missing."""
    with pytest.raises(pw.JobError, match="thickness"):
        pw.plan(pw.read_job("[panel]\noutline = { length = 1200, width = 600 }\n"))
