"""Before buying and after: the sheet for the pocket, two sizes alone, hours, and the listing."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from jobs import PLAIN

from panelwright.cli.main import main
from panelwright.cli.measure import SHAPES
from panelwright.layout.drawing.scene import Text, text_box
from panelwright.layout.geometry.bounds import Bounds
from panelwright.layout.sheets.without_plan import measure_page
from panelwright.layout.template.paper import PAPERS
from panelwright.layout.words.measure import Shape


def run(*words: object) -> Result:
    """Run the command line as a person would, without a terminal."""
    result = CliRunner().invoke(main, [str(word) for word in words])
    if result.exception is not None and not isinstance(result.exception, SystemExit):
        raise result.exception
    return result


def texts_of(shape: Shape, paper: str) -> list[Text]:
    """Return every text of the sheet."""
    scene = measure_page(shape, PAPERS[paper])
    return [item for group in scene.groups for item in group.items if isinstance(item, Text)]


@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("shape", list(Shape))
def test_the_sheet_for_the_pocket_is_one_page(shape: Shape, paper: str) -> None:
    """All of it stands inside the margins, and no words touch others."""
    scene = measure_page(shape, PAPERS[paper])
    room = Bounds(9.0, 9.0, scene.frame.right - 9.0, scene.frame.top - 9.0)
    texts = [t for t in texts_of(shape, paper) if t.words]
    boxes = [text_box(text) for text in texts]
    for text, box in zip(texts, boxes, strict=True):
        assert room.left <= box.left and box.right <= room.right, text.words
        assert room.bottom <= box.bottom and box.top <= room.top, text.words
    for i, one in enumerate(boxes):
        for k, other in enumerate(boxes[:i]):
            apart = (
                one.left >= other.right
                or one.right <= other.left
                or one.bottom >= other.top
                or one.top <= other.bottom
            )
            assert apart, (texts[i].words, texts[k].words)


def test_every_length_and_diagonal_of_a_panel_is_asked_for() -> None:
    """Four sides, two diagonals, four rises, and what a job file asks of the wood."""
    told = [text.words for text in texts_of(Shape.SIDES, "A4")]
    assert {"A–B", "B–C", "C–D", "D–A", "A–C", "B–D"} <= set(told)
    assert told.count("rise ±") == 4
    assert any("Year" in words for words in told)


def test_measure_writes_a_pdf_or_an_svg_and_nothing_else(tmp_path: Path) -> None:
    """The ending decides; another is refused with 2, and no file is touched."""
    assert run("measure", "--out", tmp_path / "pocket.pdf").exit_code == 0
    assert (tmp_path / "pocket.pdf").read_bytes().startswith(b"%PDF")
    run("measure", "--shape", "round", "--out", tmp_path / "pocket.svg")
    assert "<svg" in (tmp_path / "pocket.svg").read_text(encoding="utf-8")
    result = run("measure", "--out", tmp_path / "pocket.txt")
    assert (result.exit_code, (tmp_path / "pocket.txt").exists()) == (2, False)
    assert "neither a .pdf nor an .svg" in result.stderr
    assert "Nothing was written" in run("measure").stdout
    assert tuple(shape.value for shape in Shape) == SHAPES


def test_two_sizes_are_enough_for_a_fit() -> None:
    """The rectangle is the panel itself, whichever size comes first and whatever its unit."""
    result = run("fit", "--size", "33in", "1981.2", "--json")
    assert result.exit_code == 0
    best = json.loads(result.stdout)["fits"][0]
    sizes = best["length"], best["width"]
    assert best["shape"] == "rectangle"
    assert sizes == pytest.approx((1981.2, 838.2), abs=0.01)
    assert run("fit").exit_code == 2
    assert run("fit", "--size", "78in", "33in", "job.toml").exit_code == 2
    assert run("fit", "--size", "0", "33in").exit_code == 2


@pytest.fixture()
def kept(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Keep hours in a folder of the test's own."""
    monkeypatch.setattr("platformdirs.user_config_path", lambda *_, **__: tmp_path / "config")
    return tmp_path / "config" / "hours.json"


def test_own_hours_are_kept_for_every_job(kept: Path, tmp_path: Path) -> None:
    """What is kept shows in the list and in the next plan; what is forgotten does not."""
    assert run("hours", "legs", 10, 12).exit_code == 0
    assert run("hours", "--day", 4).exit_code == 0
    (line,) = [line for line in run("hours").stdout.splitlines() if line.startswith("legs")]
    assert "10 to 12" in line and "yours" in line
    job = tmp_path / "job.toml"
    job.write_text(PLAIN, encoding="utf-8")
    plan = json.loads(run("plan", job, "--json").stdout)
    (legs,) = [task for task in plan["order"]["tasks"] if task["deed"] == "legs"]
    assert (legs["least"], legs["most"]) == (40.0, 48.0)  # four legs
    assert plan["job"]["work"]["day"] == 4
    assert run("hours", "--forget", "legs").exit_code == 0
    assert "yours" not in run("hours").stdout
    assert json.loads(kept.read_text(encoding="utf-8"))["day"] == 4


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("hours", "snad", 1, 2), "did you mean sand"),
        (("hours", "sand", 2, 1), "write the lower one first"),
        (("hours", "sand"), "give the hours"),
        (("hours", "--forget", "sand"), "no hours are kept"),
    ],
)
def test_hours_that_cannot_be_are_refused(kept: Path, words: tuple[object, ...], told: str) -> None:
    """One message, exit code 2, and nothing is kept."""
    result = run(*words)
    assert (result.exit_code, kept.exists()) == (2, False)
    assert told in result.stderr


def test_hours_that_were_spoilt_are_told_of(kept: Path) -> None:
    """A file of another kind is named, with what to do about it."""
    kept.parent.mkdir()
    for text in ("{", "[]", '{"day": 8, "pace": {"sand": [2, 1]}}', '{"day": 8, "pace": 3}'):
        kept.write_text(text, encoding="utf-8")
        result = run("hours")
        assert result.exit_code == 2
        assert "hours.json" in result.stderr and "mend it" in result.stderr
