"""What is said at the terminal, and in JSON, of why a top is not larger."""

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from panelwright.cli.main import main

JOB = """
name = "board"
[panel]
outline = { length = 1000, width = 400 }
thickness = 20
[[panel.defects]]
name = "saw cut"
spoils = ["showing"]
at = [702, 200]
size = [4, 400]
[[panel.defects]]
name = "dent"
spoils = ["showing"]
at = [995, 395]
diameter = 6
[top]
shape = ["rectangle", "circle"]
"""


@pytest.fixture()
def job(tmp_path: Path) -> Path:
    """Write a board of 1000 by 400 that is cut through at 700."""
    path = tmp_path / "job.toml"
    path.write_text(JOB, encoding="utf-8")
    return path


def run(*words: object) -> Result:
    """Run the command line as a person would, without a terminal."""
    result = CliRunner().invoke(main, [str(word) for word in words], catch_exceptions=False)
    assert result.exit_code == 0
    return result


def test_a_fit_says_what_it_touches(job: Path) -> None:
    """Edges by their corners, defects by their names, with the two ends of a run."""
    lines = run("fit", job).stdout.splitlines()
    assert "   touches edge A–B from (0, 0) to (700, 0)" in lines
    assert any(line.startswith("   touches saw cut from (700,") for line in lines)
    assert not any("without the" in line or "place 2" in line for line in lines)


def test_why_tells_gains_and_other_places(job: Path) -> None:
    """The cut costs 42 %: up to the dent it is 992 and not 700; the dent costs nothing."""
    lines = run("fit", job, "--why").stdout.splitlines()
    assert any(line.startswith("   without the saw cut: 42 % larger") for line in lines)
    assert any(line.startswith("   nothing worth it alone: dent") for line in lines)
    assert any(line.startswith("   place 2: rectangle") for line in lines)
    assert lines[-1].startswith("2. circle")


def test_json_holds_the_same_under_documented_keys(job: Path) -> None:
    """Contacts and limits always, costs and second opinions with `--why`."""
    plain = json.loads(run("fit", job, "--json").stdout)
    assert set(plain) == {"schema", "fits", "contacts", "limits_met"}
    told = json.loads(run("fit", job, "--json", "--why").stdout)
    both = {"schema", "fits", "contacts", "limits_met", "costs", "others", "along_grain"}
    assert set(told) == both
    for contact in told["contacts"]:
        assert set(contact) == {"what", "name", "points", "clear", "room"}
    first, second = told["costs"]
    assert set(first) == {"names", "gain", "most", "lies", "top"}
    assert first["names"] == ["saw cut"]
    assert first["gain"] == pytest.approx(992 / 700 - 1, rel=0.01)
    assert first["top"]["shape"] == "rectangle"
    assert (second["names"], second["gain"], second["top"]) == (["dent"], 0.0, None)
    assert all(other["bound"] is None for other in told["others"])


def test_the_plan_holds_what_the_fit_tells(job: Path) -> None:
    """`plan.json` has the same contacts, limits, costs and second opinions."""
    told = json.loads(run("fit", job, "--json", "--why").stdout)
    plan = json.loads(run("plan", job, "--json").stdout)
    for key in ("contacts", "limits_met", "costs", "others"):
        assert plan[key] == told[key]


def test_the_summary_says_it_in_three_lines(job: Path) -> None:
    """What is touched, what mending gains, and the next place in rank."""
    lines = run("plan", job).stdout.splitlines()
    at = next(i for i, line in enumerate(lines) if line.startswith("  Why"))
    assert "edge A–B" in lines[at]
    assert "saw cut" in lines[at]
    assert "without the saw cut: 42 % larger" in lines[at + 1]
    assert "next in rank: " in lines[at + 2]


def test_treated_wood_is_told_of_before_anybody_saws(tmp_path: Path) -> None:
    """The summary of a plan says it too, for it is read before the sheet is printed."""
    board = JOB.replace("thickness = 20", 'thickness = 20\nfinish = "{}"')
    for finish, told in (("creosote", True), ("paint", False)):
        path = tmp_path / f"{finish}.toml"
        path.write_text(board.replace("{}", finish), encoding="utf-8")
        said = run("plan", path).stdout
        assert ("is not sawn" in said) is told
