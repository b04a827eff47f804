"""`check` says what it understood, and what is worth a second look."""

import json
from pathlib import Path

import click
import pytest
from click.testing import CliRunner
from jobs import PLAIN, TEN_MISTAKES
from test_new import run

from panelwright.cli.main import COMMANDS, command_of, main

ROOT = Path(__file__).parents[2]

ROUNDED = """
[panel]
outline = { length = 1200, width = 600, radius = 40 }
thickness = 22
[[panel.defects]]
kind = "ring stain"
at = [700, 320]
diameter = 90
[[panel.defects]]
kind = "screw hole"
at = [60, 400]
diameter = 8
[top]
shape = "capsule"
[legs]
count = 4
"""


SAW = [[1600 - 100 * k, 600 - 100 * (k % 2)] for k in range(16)]
"""Teeth along the upper edge of a slab."""


def checked(tmp_path: Path, text: str) -> str:
    """Return what `check` says of a job that it ends well with."""
    path = tmp_path / "job.toml"
    path.write_text(text, encoding="utf-8")
    result = run("check", path)
    assert result.exit_code == 0, result.stderr
    return " ".join(result.stdout.split())


def test_what_was_understood_is_told(tmp_path: Path) -> None:
    """Size, area and mass of the panel, each defect and what it spoils, top and legs."""
    told = checked(tmp_path, ROUNDED)
    for words in (
        "1200 × 600 × 22 mm, 0.719 m², about 10 kg; solid",
        "measured from the edge A (0, 0) to Q (1110, 0)",
        "90 × 90 mm about (700, 320); spoils nothing: it is in the finish alone",
        "outside the top; no leg or fixing; 6 mm kept clear; 56 mm from DA and 196 mm from CD",
        "capsule, as large as it fits",
        "4, square, 60 mm",
    ):
        assert words in told
    assert "Look again" not in told


@pytest.mark.parametrize(
    ("outline", "told"),
    [
        (
            "points = [[0, 20], [1200, 0], [1230, 400], [900, 650], [30, 600]]",
            "corners A (0, 20), B (1200, 0), C (1230, 400), D (900, 650), E (30, 600); measured "
            "from the edge A to B",
        ),
        (
            "diameter = 900",
            "without corners: counted from the lower left of the box round it; measured from a "
            "line struck from P (0, 450) to Q (900, 450)",
        ),
        (
            f"points = {[[0, 0], [1700, 0], *SAW]}",
            "its 18 corners are too many to have letters",
        ),
    ],
)
def test_corners_and_the_datum_are_told(tmp_path: Path, outline: str, told: str) -> None:
    """A slab's corners come with their letters, and a round panel's line with its two ends."""
    text = f"[panel]\nthickness = 20\noutline = {{ {outline} }}\n[top]\nshape = 'circle'"
    assert told in checked(tmp_path, text)


@pytest.mark.parametrize(
    "path", sorted(ROOT.glob("samples/*/job.toml")), ids=lambda p: p.parent.name
)
def test_the_samples_call_for_no_second_look(path: Path) -> None:
    """Their figures are likely ones."""
    result = run("check", path)
    assert result.exit_code == 0
    assert "Look again" not in result.stdout


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ("thickness = 22", "thickness = 125", "line 4, panel.thickness: 125.0 mm is thicker than"),
        ("thickness = 22", "thickness = 2.2", "is thinner than 5 mm"),
        ("thickness = 22", "thickness = 2.2", "is it written in cm"),
        ("length = 1200, width = 600", "length = 7000, width = 600", "few are longer than"),
        ("length = 1200, width = 600, radius = 40", "length = 1200, width = 140", "narrower than"),
        ("length = 1200, width = 600", "length = 120, width = 90", "is it written in cm?"),
        ('kind = "screw hole"', 'kind = "screw"', 'for the hole that it left write kind = "screw'),
        ('kind = "screw hole"', 'kind = "metal"\nname = "old hole"', "that it left write"),
        ("at = [60, 400]\ndiameter = 8", "at = [600, 300]\ndiameter = 560", "than a foot of 360"),
        ('shape = "capsule"', 'shape = "capsule"\nleast_length = 1400', "no capsule with a length"),
        ("\n[panel]", 'units = "cm"\n[panel]', "is it written in mm?"),
    ],
)
def test_what_is_unlikely_calls_for_a_second_look(
    tmp_path: Path, old: str, new: str, told: str
) -> None:
    """It is told with its line and ends well all the same."""
    text = ROUNDED.replace(old, new)
    if "length = 120," in new:  # defects and corners as small as the panel
        text = text.replace("radius = 40", "radius = 4").replace("[700, 320]", "[70, 32]")
        text = text.replace("[60, 400]", "[6, 40]")
    if "diameter = 560" in new:  # what is left beside so large a hole is narrow
        text = text.replace("count = 4", "count = 4\nsize = 360")
    if "width = 140" in new:
        text = text.replace("[700, 320]", "[700, 60]").replace("[60, 400]", "[60, 40]")
    assert told in checked(tmp_path, text).partition("Look again:")[2]


def test_a_look_is_not_taken_where_it_would_be_long(tmp_path: Path) -> None:
    """With many defects the job is told and no top is looked for; `fit` says that."""
    holes = "".join(
        f'[[panel.defects]]\nkind = "nail"\nat = [{60 * k}, 300]\ndiameter = 4\n'
        for k in range(2, 18)
    )
    told = checked(tmp_path, ROUNDED.replace("[top]", f"{holes}[top]"))
    assert "Defect 18" in told and "first look" not in told


def test_a_job_comes_from_standard_input_too() -> None:
    """`-` is read like a file, problems and all."""
    for words in (("check", "-"), ("fit", "-"), ("fit", "-", "--json")):
        assert CliRunner().invoke(main, words, input=PLAIN).exit_code == 0
    result = CliRunner().invoke(main, ["plan", "-"], input=TEN_MISTAKES)
    assert (result.exit_code, result.stderr.startswith("standard input: ")) == (2, True)


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("fit table.toml --json --foo", "No such option '--foo'"),
        ("check --json", "Missing argument 'JOB'"),
        ("fit --json", "give a job file, or --size"),
        ("legs table.toml --count many --json", "Invalid value for '--count'"),
        ("nonsense table.toml --json", "No such command 'nonsense'"),
        ("--json check table.toml", "No such option '--json'"),
    ],
)
def test_misuse_comes_as_json_where_that_was_asked_for(words: str, told: str) -> None:
    """A command line that cannot be read ends with 2 and one problem, and nothing beside it."""
    result = run(*words.split())
    (problem,) = json.loads(result.stdout)["problems"]
    assert (result.exit_code, result.stderr, problem["line"]) == (2, "", None)
    assert told in problem["message"]
    plain = run(*words.replace("--json", "").split(), "--foo")
    assert (plain.exit_code, plain.stdout) == (2, "")


def test_every_command_speaks_json() -> None:
    """Each command that does something has the option."""
    every = [command_of(name) for name in COMMANDS]
    commands = [c for c in every if not isinstance(c, click.Group)]
    groups = [c for c in every if isinstance(c, click.Group)]
    commands += [inner for group in groups for inner in group.commands.values()]
    assert len(commands) > 10
    for command in commands:
        assert "as_json" in {option.name for option in command.params}, command.name


@pytest.mark.parametrize("command", ["check", "fit", "legs", "plan", "template"])
def test_problems_are_json_too(command: str) -> None:
    """A machine reads each problem with key and line; standard error stays empty."""
    result = CliRunner().invoke(main, [command, "-", "--json"], input=TEN_MISTAKES)
    assert (result.exit_code, result.stderr) == (2, "")
    problems = json.loads(result.stdout)["problems"]
    assert len(problems) >= 10
    assert {k: problems[0][k] for k in ("key", "line")} == {"key": "nmae", "line": 3}


@pytest.mark.parametrize("command", ["fit", "legs", "plan", "template"])
def test_that_nothing_fits_is_json_too(command: str) -> None:
    """It ends with 1 and tells the reason."""
    text = PLAIN.replace('shape = "capsule"', 'shape = "capsule"\nleast_length = 1800')
    result = CliRunner().invoke(main, [command, "-", "--json"], input=text)
    assert (result.exit_code, result.stderr) == (1, "")
    assert "1800 mm" in json.loads(result.stdout)["nothing_fits"]


@pytest.mark.parametrize(("x", "told"), [(0, "50 % of it lies off the panel"), (20, ""), (60, "")])
def test_a_defect_that_hangs_over_the_edge_is_told(tmp_path: Path, x: int, told: str) -> None:
    """Whoever gives a corner for a middle sees it; a recess let in from the edge may run over."""
    panel = "[panel]\noutline = { length = 1200, width = 600 }\nthickness = 22\n"
    defect = f'[[panel.defects]]\nkind = "hole"\nat = [{x}, 300]\nsize = [44, 90]\n'
    said = checked(tmp_path, panel + defect + '[top]\nshape = "capsule"\n')
    assert told in said
    assert ("off the panel" in said) is bool(told)


@pytest.mark.parametrize(
    ("more", "told"),
    [
        ('[template]\nprinter = "nobody"\n', "printer 'nobody' was not measured"),
        ("kerf = 0\n", "tools.kerf: 0 mm is not above 0 mm: measure a test cut"),
    ],
)
def test_what_a_plan_would_refuse_is_told(tmp_path: Path, more: str, told: str) -> None:
    """A printer that was never measured, a saw that cuts nothing: `plan` says the same."""
    path = tmp_path / "job.toml"
    path.write_text(PLAIN + more, encoding="utf-8")
    results = [run("check", path), run("plan", path, "--out", tmp_path / "out")]
    assert [result.exit_code for result in results] == [2, 2]
    assert all(told in result.stderr for result in results)
    assert not (tmp_path / "out").exists()
