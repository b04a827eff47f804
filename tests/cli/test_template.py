"""`panelwright template`: portions compared, choices in place of the job's, printers measured."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pikepdf
import pytest
from click.testing import CliRunner, Result
from jobs import PLAIN

from panelwright.cli.files import kept_at
from panelwright.cli.main import main
from panelwright.cli.printers import profile_path
from panelwright.cli.typed import PORTIONS, RELEASES
from panelwright.layout.template import wish


def run(*words: object) -> Result:
    """Run the command line as a person would, without a terminal."""
    result = CliRunner().invoke(main, [str(word) for word in words])
    if result.exception is not None and not isinstance(result.exception, SystemExit):
        raise result.exception
    return result


@pytest.fixture(autouse=True)
def own_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Keep every profile in a folder of the test's own, never in the user's."""
    import platformdirs

    folder = tmp_path / "config"
    monkeypatch.setattr(platformdirs, "user_config_path", lambda *_, **__: folder)
    return folder


@pytest.fixture()
def job(tmp_path: Path) -> Path:
    """Write a plain job into a folder of its own."""
    path = tmp_path / "job.toml"
    path.write_text(PLAIN, encoding="utf-8")
    return path


def measured(*more: object) -> Result:
    """Measure a printer that prints 0.5 % too small across, and true along."""
    return run("template", "--measured-x", 179.1, "--measured-y", 260, "--paper", "A4", *more)


def record(*words: object) -> dict[str, Any]:
    """Return a comparison as JSON."""
    result = run("template", *words, "--json")
    assert result.exit_code == 0, result.stderr
    held: dict[str, Any] = json.loads(result.stdout)
    return held


def page_sizes(path: Path) -> list[tuple[float, float]]:
    """Return the sizes of a file's pages, mm."""
    with pikepdf.open(path) as pdf:
        return [
            (round(float(p.mediabox[2]) * 25.4 / 72), round(float(p.mediabox[3]) * 25.4 / 72))
            for p in pdf.pages
        ]


def test_the_portions_are_compared_and_one_is_proposed(job: Path, tmp_path: Path) -> None:
    """Every portion stands with its sheets, fewest first; the proposed one is the plan's."""
    result = run("template", job)
    assert result.exit_code == 0
    _, *lines, last = result.stdout.splitlines()
    assert last.startswith("Nothing was written")
    names = [line.split()[0] for line in lines]
    assert set(names) == {"whole", "half", "quarter", "end", "curves"}
    sheets = [int(line.split()[1]) for line in lines]
    assert sheets == sorted(sheets)
    (proposed,) = [line for line in lines if "<- proposed" in line]
    assert proposed.split()[0] == "quarter"
    assert all("to the rule" in line for line in lines if line.split()[0] in ("end", "curves"))
    (told,) = [line for line in run("plan", job).stdout.splitlines() if "Template" in line]
    assert f"quarter on {proposed.split()[1]} sheets A4" in told
    assert [path.name for path in tmp_path.iterdir()] == ["job.toml"]


def test_the_record_says_what_is_printed(job: Path) -> None:
    """In JSON one portion is marked as printed, and the one that leaves marks out names them."""
    portions = record(job, "--portion", "end")["portions"]
    (printed,) = [portion for portion in portions if portion["printed"]]
    assert printed["portion"] == "end"
    assert "O" in printed["left_out"]
    whole = next(portion for portion in portions if portion["portion"] == "whole")
    assert whole["left_out"] == []
    assert whole["uses"] == 1
    assert whole["sheets"] <= whole["rows"] * whole["columns"]


def test_choices_go_before_the_jobs(job: Path) -> None:
    """What is typed replaces the job's key; a key that is not typed stays."""
    text = PLAIN + '[template]\npaper = "A3"\nmargin = [4, 5, 6, 7]\noverlap = 20\n'
    job.write_text(text, encoding="utf-8")
    held = record(job)["template"]
    assert held["paper"]["name"] == "A3"
    assert held["margins"] == {"left": 4, "bottom": 5, "right": 6, "top": 7}
    assert held["overlap"] == 20
    typed = record(
        job, "--paper", "13 x 19 in", "--margin", "1/4 in", "--margin-top", 12, "--overlap", 15,
        "--portion", "half", "--mirrored", "--no-ordinates", "--dxf-release", "R12",
    )["template"]  # fmt: skip
    assert typed["paper"]["name"] == "13 × 19 in"
    assert typed["margins"] == {"left": 6.35, "bottom": 6.35, "right": 6.35, "top": 12}
    assert (typed["overlap"], typed["portion"], typed["mirrored"]) == (15, "half", True)
    assert (typed["ordinates"], typed["dxf_release"]) == (False, "R12")
    one_side = record(job, "--margin-left", 9)["template"]["margins"]
    assert one_side == {"left": 9, "bottom": 5, "right": 6, "top": 7}


def test_the_files_are_as_chosen(job: Path, tmp_path: Path) -> None:
    """Letter pages, no ordinates, an old DXF; mirrored files have names of their own."""
    out = tmp_path / "out"
    result = run("template", job, "--paper", "Letter", "--no-ordinates", "--face-up", "--out", out)
    assert result.exit_code == 0
    assert {path.name for path in out.iterdir()} == {
        "template.pdf", "template.svg", "template.dxf",
    }  # fmt: skip
    assert {tuple(sorted(size)) for size in page_sizes(out / "template.pdf")} == {(216, 279)}
    plain = page_sizes(out / "template.pdf")
    kept = (out / "template.svg").read_bytes()
    # the panel is marked show face down, so that is what is drawn where nothing is asked
    run("template", job, "--paper", "Letter", "--dxf-release", "r12", "--out", out)
    assert {path.name for path in out.iterdir()} == {
        f"template{side}.{kind}" for side in ("", "-mirrored") for kind in ("pdf", "svg", "dxf")
    }
    assert (out / "template.svg").read_bytes() == kept
    assert len(page_sizes(out / "template-mirrored.pdf")) == len(plain) + 1
    assert "MIRRORED" in (out / "template-mirrored.svg").read_text(encoding="utf-8")
    assert "AC1009" in (out / "template-mirrored.dxf").read_text(encoding="utf-8")
    assert "AC1024" in (out / "template.dxf").read_text(encoding="utf-8")


def test_a_plan_prints_what_its_job_asks(job: Path, tmp_path: Path) -> None:
    """`plan` heeds the same keys: paper, margins, side, figures, release, printer."""
    assert measured("--printer", "hall").exit_code == 0
    job.write_text(
        PLAIN + '[template]\npaper = [300, 400]\nmargin = [5, 6, 7, 8]\nmirrored = true\n'
        'ordinates = false\ndxf_release = "R12"\nprinter = "hall"\n',
        encoding="utf-8",
    )  # fmt: skip
    out = tmp_path / "out"
    result = run("plan", job, "--out", out)
    assert result.exit_code == 0
    assert 'corrected for the printer "hall": 0.50 % larger along the short edge' in result.stdout
    assert "300 × 400 mm, MIRRORED" in result.stdout
    assert {tuple(sorted(s)) for s in page_sizes(out / "template-mirrored.pdf")} == {(300, 400)}
    assert "AC1009" in (out / "template-mirrored.dxf").read_text(encoding="utf-8")
    held = json.loads((out / "plan.json").read_text(encoding="utf-8"))
    assert held["sheets"]["plan"]["upright_margins"] == {
        "left": 5, "bottom": 6, "right": 7, "top": 8,
    }  # fmt: skip
    assert held["sheets"]["plan"]["correction"]["across"] == pytest.approx(180 / 179.1, abs=1e-6)
    assert held["template"]["mirrored"]


def test_a_calibration_sheet_tells_what_to_type(tmp_path: Path) -> None:
    """It is one page of its paper, and names the command with its paper and margins."""
    out = tmp_path / "out"
    result = run("template", "--calibrate", "--paper", "A3", "--margin", 6, "--out", out)
    assert result.exit_code == 0
    assert page_sizes(out / "calibration.pdf") == [(297, 420)]
    assert '--measured-x … --measured-y … --paper "A3" --printer "NAME" --margin 6' in result.stdout
    import pypdfium2

    page = pypdfium2.PdfDocument(out / "calibration.pdf")[0]
    words = " ".join(page.get_textpage().get_text_bounded().split())
    assert '--paper "A3" --printer "NAME" --margin 6' in words
    assert "should be 260 mm" in words
    told = run("template", "--calibrate", "--paper", "A3")
    assert "along the long edge" in told.stdout
    assert "Nothing was written" in told.stdout


def test_a_calibration_sheet_follows_a_job(job: Path) -> None:
    """With a job the sheet is of its paper, its margins and its printer."""
    text = PLAIN + '[template]\npaper = "Letter"\nmargin = [4, 5, 6, 7]\nprinter = "hall"\n'
    job.write_text(text, encoding="utf-8")
    result = run("template", job, "--calibrate")
    assert result.exit_code == 0
    assert "Letter: 7.5 in (190.5 mm)" in result.stdout


def test_what_was_measured_is_kept_and_taken_out(job: Path, tmp_path: Path) -> None:
    """The profile is a file to read; with its name every sheet says what was corrected."""
    result = measured("--printer", "Hall printer")
    assert result.exit_code == 0
    assert "0.50 % larger along the short edge, as it is along the long edge" in result.stdout
    path = profile_path("hall PRINTER")
    assert str(path) in result.stdout
    held = json.loads(path.read_text(encoding="utf-8"))
    assert held["printer"] == "Hall printer"
    assert held["across"] == {"true": 180.0, "measured": 179.1}
    assert [p.name for p in path.parent.iterdir()] == ["printer-hall-printer.json"]
    out = tmp_path / "out"
    corrected = run("template", job, "--printer", "hall printer", "--out", out)
    assert corrected.exit_code == 0
    assert '"Hall printer": 0.50 % larger' in corrected.stdout
    import pypdfium2

    pdf = pypdfium2.PdfDocument(out / "template-mirrored.pdf")
    for number in range(len(pdf) - 1):
        words = " ".join(pdf[number].get_textpage().get_text_bounded().split())
        assert '"Hall printer"' in words, number
    pdf.close()


def test_a_printer_that_is_true_is_left_alone(job: Path) -> None:
    """Bars that read what they should give a profile that changes nothing."""
    result = run(
        "template", "--measured-x", "7.5 in", "--measured-y", "9 in", "--paper", "Letter",
        "--margin", "6 mm", "--printer", "true one",
    )  # fmt: skip
    assert result.exit_code == 2
    assert "10 in" in result.stderr
    result = run(
        "template", "--measured-x", "7 1/2 in", "--measured-y", "10 in", "--paper", "Letter",
        "--margin", "6 mm", "--printer", "true one",
    )  # fmt: skip
    assert result.exit_code == 0
    assert "prints true" in result.stdout
    assert record(job, "--printer", "true one")["template"]["correction"]["across"] == 1.0


@pytest.mark.parametrize(
    ("x", "y", "says"),
    [
        (180 * 1.04, 260, "should be 180 mm (7.087 in) and read 187.2 mm"),
        (180, 260 * 0.95, "should be 260 mm"),
        (180 * 0.9407, 260 * 0.9407, "fitted to Letter"),
        (180 * 0.9597, 260 * 0.9597, "shrunk to the printable area"),
        (0, 260, "should be 180 mm"),
    ],
)
def test_more_than_a_printers_error_is_refused(x: float, y: float, says: str) -> None:
    """Over 3 %, or what a page reads that was fitted to other paper: no profile is kept."""
    result = run(
        "template", "--measured-x", x, "--measured-y", y, "--paper", "A4", "--printer", "hall"
    )
    assert result.exit_code == 2
    assert says in result.stderr
    assert "no printer's error" in result.stderr
    assert not kept_at("printers").exists()


@pytest.mark.parametrize(
    "content", [b"", b"{", b"[]", b"\xff\xfe\x00", b'{"printer": "x", "across": 1, "along": 2}']
)
def test_a_damaged_profile_is_one_clear_message(job: Path, content: bytes) -> None:
    """The file is named with what to do, exit code 2, and nothing is laid out."""
    path = profile_path("hall")
    path.parent.mkdir(parents=True)
    path.write_bytes(content)
    text = PLAIN + '[template]\nprinter = "hall"\n'
    for words in (("template", job, "--printer", "hall"), ("plan", job)):
        job.write_text(text, encoding="utf-8")
        result = run(*words)
        assert result.exit_code == 2
        assert result.stdout == ""
        (line,) = result.stderr.splitlines()
        assert str(path) in line
        assert "measure the calibration sheet again" in line


def test_a_printer_that_is_not_known_is_told_with_those_that_are(job: Path) -> None:
    """The message names the known ones and how to measure one."""
    first = run("template", job, "--printer", "attic")
    assert first.exit_code == 2
    assert "none yet" in first.stderr
    measured("--printer", "hall")
    second = run("template", job, "--printer", "attic")
    assert "known are: hall" in second.stderr
    assert "--calibrate" in second.stderr


def test_a_profile_for_other_paper_is_used_with_a_word_of_caution(job: Path) -> None:
    """The correction holds, and standard error says that it was measured on other paper."""
    measured("--printer", "hall")
    result = run("template", job, "--printer", "hall", "--paper", "A3")
    assert result.exit_code == 0
    assert "measured on A4" in result.stderr
    assert run("template", job, "--printer", "hall").stderr == ""


@pytest.mark.parametrize("name", ["", "../..", "/", "…", "x" * 41, "-"])
def test_a_name_that_makes_no_file_is_refused(name: str) -> None:
    """A printer's name is letters and digits, so that no file is written elsewhere."""
    result = measured("--printer", name)
    assert result.exit_code == 2
    assert "letters and digits" in result.stderr
    assert not kept_at("printers").exists()


def test_a_name_stays_in_its_folder() -> None:
    """Whatever else is in a name, its file lies in the folder of printers."""
    assert profile_path("../../hall").parent == kept_at("printers")
    assert profile_path("Büro 2").name == "printer-büro-2.json"
    assert profile_path("büro_2") == profile_path("BÜRO  2")


@pytest.mark.parametrize(
    ("words", "says"),
    [
        ((), "name a job file"),
        (("--measured-x", 180, "--paper", "A4", "--printer", "hall"), "give both bars"),
        (("--measured-x", 180, "--measured-y", 260, "--paper", "A4"), "--printer NAME"),
        (("--measured-x", 180, "--measured-y", 260, "--printer", "hall"), "name the paper"),
        (("job.toml", "--measured-x", 180), "alone"),
        (("job.toml", "--portion", "third"), "third"),
        (("job.toml", "--paper", "A9"), "'A9' is not known"),
        (("job.toml", "--margin", "wide"), "is not a length"),
        (("none.toml",), "none.toml"),
    ],
)
def test_what_cannot_be_meant_ends_with_two(words: tuple[object, ...], says: str) -> None:
    """A message says what is missing or wrong, and there is no traceback."""
    result = run("template", *words)
    assert result.exit_code == 2
    assert says in result.stderr


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("--margin", 90), "margins leave 30 by 117 mm"),
        (("--overlap", 3), "overlap of 3 mm"),
        (("--portion", "corner"), "no 'corner' to print: choose from whole"),
    ],
)
def test_a_template_that_cannot_be_ends_with_two(
    job: Path, words: tuple[object, ...], says: str
) -> None:
    """Choices that no sheet can meet are refused with the value and its limit."""
    result = run("template", job, *words)
    assert result.exit_code == 2
    assert says in result.stderr


def test_where_nothing_fits_the_reason_is_given(job: Path) -> None:
    """Exit code 1, as for a plan."""
    job.write_text(PLAIN.replace("margin = 8", "least_width = 690\nmargin = 8"), encoding="utf-8")
    result = run("template", job)
    assert result.exit_code == 1
    assert "width" in result.stderr


def test_the_choices_are_those_of_the_library() -> None:
    """The names that help shows without importing the library are its own."""
    assert PORTIONS == wish.PORTIONS
    assert RELEASES == wish.RELEASES
