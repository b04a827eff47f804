"""What a person types, what is printed, how it ends, and which files are touched."""

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from jobs import PLAIN, TEN_MISTAKES, turned_rectangle

from panelwright.cli.main import COMMANDS, command_of, main

FILES = {
    "bench-sheet.html",
    "plan.svg",
    "plan-underside.svg",
    "template-mirrored.pdf",
    "template-mirrored.svg",
    "template-mirrored.dxf",
    "listing.txt",
    "plan.json",
}


def run(*words: object) -> Result:
    """Run the command line as a person would, without a terminal."""
    result = CliRunner().invoke(main, [str(word) for word in words])
    if result.exception is not None and not isinstance(result.exception, SystemExit):
        raise result.exception
    return result


@pytest.fixture()
def job(tmp_path: Path) -> Path:
    """Write a plain job into a folder of its own."""
    path = tmp_path / "job.toml"
    path.write_text(PLAIN, encoding="utf-8")
    return path


def test_a_plan_is_a_summary_and_a_folder_of_files(job: Path, tmp_path: Path) -> None:
    """`plan --out` names the top, writes eight files and says where to start."""
    result = run("plan", job, "--out", tmp_path / "out")
    assert result.exit_code == 0
    assert "capsule" in result.stdout
    assert "bench-sheet.html" in result.stdout.splitlines()[-1]
    assert {path.name for path in (tmp_path / "out").iterdir()} == FILES


def test_a_second_run_gives_the_same_bytes_and_leaves_other_files_alone(
    job: Path, tmp_path: Path
) -> None:
    """Its own files are replaced by the same bytes; a note that lies beside them stays."""
    out = tmp_path / "out"
    run("plan", job, "--out", out)
    first = {path.name: path.read_bytes() for path in out.iterdir()}
    (out / "note.txt").write_text("mine", encoding="utf-8")
    run("plan", job, "--out", out)
    assert {path.name: path.read_bytes() for path in out.iterdir()} == {
        **first,
        "note.txt": b"mine",
    }


@pytest.mark.heavy
def test_the_bytes_do_not_hang_on_how_python_hashes(job: Path, tmp_path: Path) -> None:
    """Two processes with different hash secrets write the same files."""
    import os
    import subprocess
    import sys

    code = "from panelwright.cli.main import main; main()"
    folders = []
    for secret in ("1", "2"):
        out = tmp_path / secret
        subprocess.run(
            [sys.executable, "-c", code, "plan", str(job), "--out", str(out)],
            check=True,
            capture_output=True,
            env={**os.environ, "PYTHONHASHSEED": secret},
        )
        folders.append({path.name: path.read_bytes() for path in out.iterdir()})
    assert folders[0] == folders[1]


@pytest.mark.heavy
def test_an_interrupted_write_leaves_every_old_file_whole(
    job: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Where writing fails half way, no file is changed and no part of one is left."""
    import os

    out = tmp_path / "out"
    run("plan", job, "--out", out)
    before = {path.name: path.read_bytes() for path in out.iterdir()}
    job.write_text(PLAIN.replace("1600", "1500"), encoding="utf-8")
    calls = iter(range(99))

    def fails_at_the_fourth(handle: int) -> None:
        if next(calls) == 3:
            raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", fails_at_the_fourth)
    result = run("plan", job, "--out", out)
    assert result.exit_code == 2
    assert "No space left" in result.stderr
    assert {path.name: path.read_bytes() for path in out.iterdir()} == before


def test_plan_json_holds_the_fit_under_top(job: Path) -> None:
    """The object that `fit --json` prints first is `top` of the plan; seconds only when asked."""
    fits = json.loads(run("fit", job, "--json").stdout)
    plan = json.loads(run("plan", job, "--json").stdout)
    assert fits["schema"] == plan["schema"] == 3
    first = fits["fits"][0]
    assert plan["top"] == first
    assert set(first) == {
        "shape", "length", "width", "corner_radius", "centre", "turn_deg", "area", "bound", "gap",
        "outline",
    }  # fmt: skip
    assert plan["fits"][0] == first
    timed = json.loads(run("fit", job, "--json", "--timed").stdout)["fits"][0]
    assert timed.pop("seconds") >= 0
    assert timed == first


@pytest.mark.parametrize("degrees", [0, 17, -63.5])
def test_a_turned_rectangle_gives_a_capsule_of_its_own_size(tmp_path: Path, degrees: float) -> None:
    """1400 × 600 turned by any angle gives 1400 × 600 to 0.01 mm, and a circle of 600."""
    job = tmp_path / "job.toml"
    job.write_text(turned_rectangle(1400, 600, degrees), encoding="utf-8")
    found = {fit["shape"]: fit for fit in json.loads(run("fit", job, "--json").stdout)["fits"]}
    for shape in ("capsule", "oval", "rectangle", "rounded rectangle"):
        assert found[shape]["length"] == pytest.approx(1400, abs=0.01)
        assert found[shape]["width"] == pytest.approx(600, abs=0.01)
        # an oval hardly shrinks by a small turn, so it may lie a little askew
        askew = 0.1 if shape == "oval" else 0.01
        assert (found[shape]["turn_deg"] - degrees + 90) % 180 - 90 == pytest.approx(0, abs=askew)
    assert found["circle"]["length"] == pytest.approx(600, abs=0.01)
    assert found["rounded rectangle"]["corner_radius"] == 60


def test_every_one_of_ten_mistakes_is_named(tmp_path: Path) -> None:
    """All are listed at once, each with its line and key; close spellings are suggested."""
    job = tmp_path / "job.toml"
    job.write_text(TEN_MISTAKES, encoding="utf-8")
    for command in (("check", job), ("plan", job, "--out", tmp_path / "out"), ("fit", job)):
        result = run(*command)
        assert result.exit_code == 2
        lines = [line for line in result.stderr.splitlines() if line.startswith("  ")]
        assert len(lines) >= 10
        assert all("line" in line for line in lines)
        for word in ("nmae", "furlongs", "soild", "grain", "5000", "knot", "-4", "capsul",
                     "most_length", "six", "count", "kerf"):  # fmt: skip
            assert word in result.stderr, word
        assert "solid" in result.stderr
        assert "capsule" in result.stderr
    assert not (tmp_path / "out").exists()


@pytest.mark.parametrize(
    "content",
    [b"", b"\xff\xfe\x00", b"units = ", b"[panel]\n" * 2, b"[" * 5000, b"panel = 3", b"\x00"],
)
def test_rubbish_ends_with_two_and_a_message(tmp_path: Path, content: bytes) -> None:
    """Whatever the bytes, there is a message, exit code 2 and no traceback."""
    job = tmp_path / "job.toml"
    job.write_bytes(content)
    for command in ("check", "fit", "plan"):
        result = run(command, job)
        assert result.exit_code == 2
        assert "job.toml" in result.stderr


def test_a_missing_file_and_a_folder_end_with_two(tmp_path: Path) -> None:
    """The message names the path."""
    for path in (tmp_path / "none.toml", tmp_path):
        result = run("plan", path)
        assert result.exit_code == 2
        assert str(path) in result.stderr


def test_a_plan_asks_for_the_thickness_that_a_fit_does_without(tmp_path: Path) -> None:
    """`fit` answers; `plan` ends with 2 and names `panel.thickness`; `check` says so."""
    job = tmp_path / "job.toml"
    job.write_text(PLAIN.replace("thickness = 26\n", ""), encoding="utf-8")
    assert run("fit", job).exit_code == 0
    refused = run("plan", job, "--out", tmp_path / "out")
    assert refused.exit_code == 2
    assert "panel.thickness" in refused.stderr
    assert "panel.thickness" in run("check", job).stdout


def test_where_nothing_fits_the_reason_is_given(tmp_path: Path) -> None:
    """Exit code 1 and the limit that cannot be met; no file is written."""
    job = tmp_path / "job.toml"
    job.write_text(PLAIN.replace("margin = 8", "least_width = 690\nmargin = 8"), encoding="utf-8")
    for command in (("fit", job), ("plan", job, "--out", tmp_path / "out")):
        result = run(*command)
        assert result.exit_code == 1
        assert "width" in result.stderr
    assert not (tmp_path / "out").exists()


def test_a_place_that_cannot_be_written_ends_with_two(job: Path, tmp_path: Path) -> None:
    """A file where the folder should be, or a folder where a file should be, is named."""
    (tmp_path / "taken").write_text("", encoding="utf-8")
    assert run("plan", job, "--out", tmp_path / "taken").exit_code == 2
    (tmp_path / "out" / "plan.svg").mkdir(parents=True)
    result = run("plan", job, "--out", tmp_path / "out")
    assert result.exit_code == 2
    assert "plan.svg" in result.stderr
    assert [path.name for path in (tmp_path / "out").iterdir()] == ["plan.svg"]


def test_every_command_has_help_with_examples() -> None:
    """`--help` of each tells what it does and shows how it is typed."""
    assert "Examples" in run("--help").stdout
    for name in COMMANDS:
        text = run(name, "--help").stdout
        assert "Examples" in text
        assert f"panelwright {name}" in text
        assert command_of(name).get_short_help_str()


def test_help_needs_none_of_the_heavy_packages() -> None:
    """Asking for help imports neither numpy nor shapely, so that it answers at once."""
    import subprocess
    import sys

    code = (
        "import sys; from panelwright.cli.main import main\n"
        "try:\n main(['--help'])\nexcept SystemExit: pass\n"
        "sys.exit(bool({'numpy', 'shapely', 'scipy', 'ezdxf', 'reportlab'} & set(sys.modules)))"
    )
    done = subprocess.run([sys.executable, "-c", code], check=False, capture_output=True)
    assert done.returncode == 0


def test_a_time_limit_ends_a_search_with_the_gap_reached(tmp_path: Path) -> None:
    """With next to no time the answer is still a top, and its true gap is told."""
    job = tmp_path / "job.toml"
    job.write_text(PLAIN.replace("margin = 8", "gap = 0.0001\nmargin = 8"), encoding="utf-8")
    short = json.loads(run("fit", job, "--seconds", "1e-9", "--json").stdout)["fits"][0]
    whole = json.loads(run("fit", job, "--json").stdout)["fits"][0]
    assert short["gap"] >= whole["gap"]
    assert short["area"] <= whole["bound"] * (1 + 1e-9)
    assert run("fit", job, "--seconds", "0").exit_code == 2


def test_a_search_that_ends_early_without_a_top_says_that_it_does_not_know(tmp_path: Path) -> None:
    """What was not ruled out is not called impossible."""
    text = PLAIN.replace("margin = 8", "least_length = 1725.1\nmargin = 8")
    job = tmp_path / "job.toml"
    job.write_text(text, encoding="utf-8")
    result = run("fit", job, "--seconds", "1e-9")
    assert result.exit_code == 1
    assert "Undecided" in result.stderr and "not ruled out" in result.stderr


def test_why_nothing_fits_is_told_in_the_units_of_the_job(tmp_path: Path) -> None:
    """In inches where the job is, and with the defect without which one would fit."""
    job = tmp_path / "small.toml"
    job.write_text(
        'units = "in"\n[panel]\noutline = { length = 48, width = 24 }\nthickness = "7/8"\n'
        '[[panel.defects]]\nname = "tap"\nkind = "hole"\nat = [24, 12]\ndiameter = 3\n'
        '[[panel.defects]]\nkind = "hole"\nat = [2, 2]\ndiameter = 0.5\n'
        '[top]\nshape = "capsule"\nleast_length = 40\nleast_width = "20 1/2"\n',
        encoding="utf-8",
    )
    told = run("fit", job).stderr
    assert "a length of at least 40 in and a width of at least 20 1/2 in" in told
    assert "Without the tap one would fit" in told
    assert "mm" not in told


def test_a_plan_without_a_folder_says_that_nothing_was_written(job: Path) -> None:
    """Whoever expects files learns how to get them."""
    assert run("plan", job).stdout.splitlines()[-1].startswith("Nothing was written")


@pytest.mark.parametrize(("status", "told"), [(0, ""), (1, "No program was found that opens")])
def test_the_bench_sheet_can_be_opened_at_once(
    job: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, status: int, told: str
) -> None:
    """`--open` shows the first file; where nothing opens it, that is said."""
    shown: list[str] = []
    monkeypatch.setattr("click.launch", lambda path: shown.append(path) or status)
    result = run("legs", job, "--count", "4", "--svg", tmp_path / "legs.svg", "--open")
    assert (result.exit_code, shown) == (0, [str(tmp_path / "legs.svg")])
    assert told in result.stderr
    assert run("plan", job, "--open").exit_code == 2


def test_the_version_has_a_short_option() -> None:
    """`-V` tells it as `--version` does."""
    assert run("-V").stdout == run("--version").stdout != ""
