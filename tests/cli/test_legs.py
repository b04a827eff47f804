"""`panelwright legs`: what a person types, what is printed and written, and how it ends."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from jobs import PLAIN

from panelwright.cli.legs import GOALS
from panelwright.cli.main import main
from panelwright.layout.legs.wish import Goal
from panelwright.layout.plan.form import SCHEMA

OPEN = PLAIN.replace("count = 4", "counts = [4, 6]")


def run(*words: object) -> Result:
    """Run the command line as a person would, without a terminal."""
    result = CliRunner().invoke(main, [str(word) for word in words])
    if result.exception is not None and not isinstance(result.exception, SystemExit):
        raise result.exception
    return result


def job(folder: Path, text: str) -> Path:
    """Write a job into a folder."""
    path = folder / "job.toml"
    path.write_text(text, encoding="utf-8")
    return path


def rows(printed: str) -> dict[str, list[str]]:
    """Return the cells of the printed table by the name of their row."""
    held = {}
    for line in printed.splitlines():
        cells = [cell for cell in line.strip().split("  ") if cell]
        if len(cells) > 2:
            held[cells[0]] = [cell.strip() for cell in cells[1:]]
    return held


def test_the_jobs_own_legs_stand_beside_the_best_of_each_count(tmp_path: Path) -> None:
    """A job of four legs sees them as they are, then 3 to 8, each with all that it means."""
    result = run("legs", job(tmp_path, PLAIN))
    assert result.exit_code == 0
    table = rows(result.stdout)
    titles = table["Legs"]
    assert titles[0] == "4, as it is"
    assert titles[1].endswith(", best")
    assert sorted(int(title.split(",")[0]) for title in titles[1:]) == [3, 4, 5, 6, 8]
    assert len(table) == 12
    assert all(len(cells) == len(titles) for cells in table.values())
    assert "estimates" in result.stdout.splitlines()[-1]
    assert "! 3: By estimate" in result.stdout


def test_counts_and_goal_may_be_asked_for(tmp_path: Path) -> None:
    """`--count` narrows the comparison, `--goal` says what is best."""
    result = run("legs", job(tmp_path, OPEN), "--count", 6, "--count", 8, "--goal", "sags least")
    assert result.exit_code == 0
    assert [title.split(",")[0] for title in rows(result.stdout)["Legs"]] in (
        ["6", "8"],
        ["8", "6"],
    )
    assert "sags least" in result.stdout


def test_the_names_of_goals_are_those_of_the_library() -> None:
    """Help knows them without importing anything heavy."""
    assert [goal.value for goal in Goal] == list(GOALS)


def test_a_plan_takes_the_best_where_the_job_names_no_count(tmp_path: Path) -> None:
    """The first of the comparison is what the plan stands on, place for place."""
    path = job(tmp_path, OPEN)
    compared = json.loads(run("legs", path, "--json").stdout)
    plan = json.loads(run("plan", path, "--json").stdout)
    assert compared["schema"] == SCHEMA
    assert compared["own"] is None
    best = compared["proposals"][0]
    assert plan["legs"]["legs"] == best["legs"]["legs"]
    assert plan["table"]["sag"] == best["sag"]
    assert plan["table"]["seating"] == best["seating"]


def test_a_goal_proposes_places_for_the_count_of_the_job(tmp_path: Path) -> None:
    """With a goal a fixed count is proposed for, without one it goes by the usual insets."""
    path = job(tmp_path, PLAIN.replace("count = 4", 'count = 4\ngoal = "most stable"'))
    firm = json.loads(run("plan", path, "--json").stdout)["legs"]["tipping"]["least"]["force"]
    usual = json.loads(run("plan", job(tmp_path, PLAIN), "--json").stdout)
    assert firm > usual["legs"]["tipping"]["least"]["force"]


def test_the_sheet_is_written_where_it_is_asked_for(tmp_path: Path) -> None:
    """`--out` writes legs.svg into a folder, `--svg` a file; the same bytes each time."""
    path = job(tmp_path, OPEN)
    result = run("legs", path, "--out", tmp_path / "out")
    assert result.exit_code == 0
    assert "legs.svg" in result.stdout.splitlines()[-1]
    assert [p.name for p in (tmp_path / "out").iterdir()] == ["legs.svg"]
    quiet = run("legs", path, "--svg", tmp_path / "sheet.svg", "--json")
    json.loads(quiet.stdout)
    assert (tmp_path / "sheet.svg").read_bytes() == (tmp_path / "out" / "legs.svg").read_bytes()


def test_a_sheet_that_cannot_be_written_is_told(tmp_path: Path) -> None:
    """A folder in the way of the file ends with 2 and no traceback."""
    (tmp_path / "sheet.svg").mkdir()
    result = run("legs", job(tmp_path, OPEN), "--out", tmp_path / "job.toml" / "deep")
    assert result.exit_code == 2
    assert "cannot be written" in result.stderr


@pytest.mark.parametrize(
    ("text", "code", "says"),
    [
        (PLAIN.replace("length = 1600", "length = -1"), 2, "1 problem"),
        (PLAIN.replace('"capsule"', '"capsule"\nleast_length = 1800'), 1, "Nothing fits"),
        (PLAIN.replace("count = 4", "size = 600"), 2, "finds no room"),
        (PLAIN.replace("thickness = 26\n", ""), 2, "thickness is missing"),
    ],
)
def test_it_ends_as_the_other_commands_do(tmp_path: Path, text: str, code: int, says: str) -> None:
    """2 for a job that cannot be used, 1 where no top fits, each with its reason."""
    result = run("legs", job(tmp_path, text))
    assert result.exit_code == code
    assert says in result.stderr


def test_a_job_without_legs_is_compared_with_the_usual_ones(tmp_path: Path) -> None:
    """Whoever only thinks of legs yet sees what each number would mean."""
    text = PLAIN.replace("[legs]\ncount = 4\n", "")
    titles = rows(run("legs", job(tmp_path, text)).stdout)["Legs"]
    assert "as it is" not in titles[0]
    assert len(titles) == 5


def test_help_shows_examples() -> None:
    """`legs --help` says what to type."""
    words = run("legs", "--help").stdout
    assert "panelwright legs door.toml --json" in words
    assert "--goal" in words
