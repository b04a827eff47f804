"""Jobs and calls that once ended with a traceback: each is answered with words."""

from __future__ import annotations

import math
import os
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from panelwright.cli.main import TRACE, main

NARROW = "[panel]\noutline = { length = 1000, width = 160 }\nthickness = 25\n"
WIDE = "[panel]\noutline = { length = 1400, width = 600 }\nthickness = 25\n"
RECTANGLE = '[top]\nshape = "rectangle"\n'
STAR = [
    (500 + reach * math.cos(k * math.pi / 10), 500 + reach * math.sin(k * math.pi / 10))
    for k, reach in enumerate((500.0, 350.0) * 10)
]
"""Twenty corners: more than have letters."""


def rows(count: int) -> str:
    """Return the legs that two rows of feet 60 mm wide make."""
    return f"[legs]\ncount = {count}\nfoot = 'square'\nsize = 60\ninset = 50\n"


def outline(points: list[tuple[float, float]]) -> str:
    """Return a panel through points."""
    return f"[panel]\noutline = {{ points = {[list(p) for p in points]} }}\nthickness = 25\n"


REFUSED = {
    "three feet in a row": (NARROW + RECTANGLE + rows(3), "at most 45 mm"),
    "eight feet on one another": (NARROW + RECTANGLE + rows(8), "no room beside each other"),
    "two legs at one place": (
        WIDE + RECTANGLE + "[legs]\nat = [[0, 0], [0, 0], [100, 100], [200, -100]]\n",
        "legs 1 and 2 stand at one place",
    ),
    "a damaged corner of too many": (
        outline(STAR) + 'damaged = ["A"]\n',
        "the panel has 20 edges, so its corners go without letters",
    ),
    "bad units beside no step": ('units = "furlong"\n' + WIDE + RECTANGLE, "furlong"),
    "units that are no text": ("units = 5\n" + WIDE + RECTANGLE, "units"),
    "a foot wider than the panel": (
        NARROW + RECTANGLE + "[legs]\ncount = 4\nsize = 150\n",
        "finds no room 26.6667 mm inside the edges of a top at most 160 mm wide",
    ),
    "a defect that is less than a hair's breadth of a hair": (
        WIDE + "[[panel.defects]]\nat = [300, 300]\nsize = [1e-300, 20]\n",
        "is not above 0 mm",
    ),
    "more defects than are worked with": (
        WIDE + "[[panel.defects]]\nat = [300, 300]\ndiameter = 5\n" * 17_000,
        "17,000 places are more than the 300",
    ),
    "more cut-outs than are worked with": (
        WIDE + "cutouts = [" + "[[1, 1], [2, 1], [1, 2]]," * 301 + "]\n",
        "301 places are more than the 300",
    ),
}


@pytest.mark.parametrize("what", REFUSED)
def test_it_is_refused_by_check_and_plan_alike(what: str, tmp_path: Path) -> None:
    """What no plan can hold is found before any search, with what to do."""
    text, says = REFUSED[what]
    for command in ("check", "plan"):
        result = run(tmp_path, text, command)
        assert result.exit_code == 2
        assert says in result.stderr


PLANNED = {
    "curves alone of a top with a kept edge": (
        WIDE + '[top]\nshape = "rounded rectangle"\nkeep = "AB"\n[template]\nportion = "curves"\n',
        "Template curves on",
    ),
    "a slab shortened where no edge is left": (
        WIDE + '[top]\nshape = "piece as found"\nkeep = ["AB", "CD"]\nlength = 800\n',
        "piece as found 800 × 600 mm",
    ),
    "a quarter of a top without symmetry": (
        WIDE
        + '[top]\nshape = "own outline"\noutline = [[0, 0], [900, 0], [800, 400], [100, 300]]\n'
        + '[template]\nportion = "quarter"\n',
        "This top has no quarter to print",
    ),
    "feet that find no room under the top alone": (
        outline([(0, 0), (900, 0), (450, 700)])
        + '[top]\nshape = "oval"\n[legs]\ncount = 4\nfoot = "square"\nsize = 400\n',
        "on feet 400 mm wide, find no room to stand apart under this top",
    ),
}


@pytest.mark.parametrize("what", PLANNED)
def test_what_check_passes_is_planned(what: str, tmp_path: Path) -> None:
    """A plan is written whole, and says what of the job is missing in it."""
    text, says = PLANNED[what]
    assert run(tmp_path, text, "check").exit_code == 0
    result = run(tmp_path, text, "plan", "--out", str(tmp_path / "out"))
    assert result.exit_code == 0, result.stderr
    assert says in result.stdout
    assert len(list((tmp_path / "out").iterdir())) == 8
    if "This top" in says:
        assert says in (tmp_path / "out" / "bench-sheet.html").read_text(encoding="utf-8")


def run(folder: Path, text: str, command: str, *options: str) -> Result:
    """Run a command on a job; a traceback would be let through."""
    job = folder / "job.toml"
    job.write_text(text, encoding="utf-8")
    return CliRunner(env={TRACE: "1"}).invoke(
        main, [command, str(job), *options], catch_exceptions=False
    )


def command(*arguments: str | bytes, **more: object) -> subprocess.CompletedProcess[bytes]:
    """Run the real command."""
    return subprocess.run(  # type: ignore[call-overload, no-any-return]
        [sys.executable, "-c", "from panelwright.cli.main import main; main()", *arguments],
        check=False,
        **{"stdout": subprocess.PIPE, "stderr": subprocess.PIPE, **more},
    )


def test_a_printers_name_that_is_no_text_is_refused(tmp_path: Path) -> None:
    """Bytes that are not UTF-8 reach Python as letters that no file can hold."""
    measured = ("--measured-x", "180", "--measured-y", "260", "--paper", "A4")
    told = command(
        "template", *measured, "--printer", b"hall\xff",
        env={**os.environ, "XDG_CONFIG_HOME": str(tmp_path)},
    )  # fmt: skip
    assert told.returncode == 2
    assert b"give it a name of letters and digits" in told.stderr
    assert not list(tmp_path.rglob("*.json"))


def test_output_that_nobody_takes_is_no_fault_of_the_program(tmp_path: Path) -> None:
    """A pipe that is closed ends it without a word, a full device with one line and 2."""
    job = tmp_path / "job.toml"
    job.write_text(WIDE, encoding="utf-8")
    reader, writer = os.pipe()
    os.close(reader)
    told = command("check", str(job), stdout=writer)
    os.close(writer)
    assert (told.returncode, told.stderr) == (1, b"")
    if not Path("/dev/full").exists():
        pytest.skip("this system has no /dev/full")
    with Path("/dev/full").open("wb") as full:
        told = command("check", str(job), stdout=full)
    assert told.returncode == 2
    assert told.stderr.count(b"\n") == 1
