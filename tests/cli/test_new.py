"""A job file from answers, from options and from a sample."""

import shutil
import signal
import sys
from functools import partial
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from panelwright.cli.main import main
from panelwright.cli.new import SAMPLES
from panelwright.layout.jobfile import read_job

TALK = (
    "furlong", "mm", "Hall table", "1200 x 600", "400", "40", "no", "22", "soild", "",
    "screw hole", "8 x", "8", "60, 9000", "60, 400", "ring stain", "back", "ring stain", "90",
    "700, 300", "", "capsul", "capsule", "-3", "", "", "", "round", "0", "50", "", "", "maybe",
    "yes", "letter",
)  # fmt: skip
"""Good answers and bad ones, in the order of the questions."""

BAD = ("furlong", "400", "soild", "8 x", "60, 9000", "capsul", "-3", "0", "maybe")
"""Those of them that are refused; `back` is no answer."""

GOOD = tuple(word for word in TALK if word not in BAD)


def run(*words: object, typed: str = "") -> Result:
    """Run the command line with what a person types; at its end the input is closed."""
    result = CliRunner().invoke(main, [str(word) for word in words], input=typed)
    if result.exception is not None and not isinstance(result.exception, SystemExit):
        raise result.exception
    return result


def lines(answers: tuple[str, ...]) -> str:
    """Return answers as they are typed."""
    return "".join(f"{answer}\n" for answer in answers)


def test_options_write_a_job_that_reads_back(tmp_path: Path) -> None:
    """The file holds what was asked for, and every key has its meaning beside it."""
    path = tmp_path / "table.toml"
    size = ("--panel", "1200x600", "--radius", "40", "--thickness", "22")
    options = (*size, "--top", "capsule", "--legs", "4")
    defects = ("--defect", "screw hole 8 at 60,400", "--defect", "split 250 x 4 at 300, 120")
    result = run("new", path, *options, *defects)
    assert result.exit_code == 0, result.stderr
    job = read_job(path.read_bytes())
    assert job.panel.thickness == 22
    assert [defect.name for defect in job.panel.defects] == ["screw hole 1", "split 2"]
    assert job.wish.shapes == ("capsule",)
    assert job.legs is not None and job.legs.count == 4
    assert job.missing == ()
    assert run("check", path).exit_code == 0


@pytest.mark.parametrize(
    ("options", "told"),
    [
        (("--panel", "1200xx"), "is not a size"),
        (("--panel", "1200x600", "--radius", "400"), "make them smaller"),
        (("--panel", "1200x600", "--top", "capsul"), "did you mean capsule"),
        (("--panel", "1200x600", "--defect", "hole"), "is no defect"),
        (("--panel", "1200x600", "--defect", "hole 8 at 5000,3"), "lies off the panel"),
        (("--panel", "1200x600", "--legs", "1"), "is below 2"),
        (("--panel", "1200x600", "--keep", "AC"), "no edge 'AC'"),
        (("--panel", "1200x600", "--top", "live edge"), "name them, --keep AB"),
        (("--thickness", "22"), "--panel 1200x600"),
        (("--sample", "elm-slab", "--legs", "4"), "--sample takes no --legs"),
        (("--sample", "oak"), "is not one of"),
    ],
)
def test_a_bad_option_is_told_and_nothing_is_written(
    tmp_path: Path, options: tuple[str, ...], told: str
) -> None:
    """It ends with 2, names the option, and leaves no file."""
    result = run("new", tmp_path / "table.toml", *options)
    assert result.exit_code == 2
    assert told in result.stderr
    assert list(tmp_path.iterdir()) == []


def test_what_a_plan_still_needs_is_told(tmp_path: Path) -> None:
    """A round panel without its thickness is written, and both are said of it."""
    result = run("new", tmp_path / "table.toml", "--panel", "900")
    assert result.exit_code == 0
    assert "first add panel.thickness" in result.stdout
    text = (tmp_path / "table.toml").read_text(encoding="utf-8")
    assert "the box round it" in text and "corner A" not in text


@pytest.mark.parametrize("name", SAMPLES)
def test_a_sample_is_copied_as_it_stands(tmp_path: Path, name: str) -> None:
    """The copy holds the bytes of the sample, remarks and all."""
    path = tmp_path / "mine.toml"
    assert run("new", path, "--sample", name).exit_code == 0
    sample = Path(__file__).parents[2] / "samples" / name / "job.toml"
    assert path.read_bytes() == sample.read_bytes()


def test_an_old_file_is_never_replaced(tmp_path: Path) -> None:
    """Whatever is there already stays as it is, a link to nowhere too."""
    path, link = tmp_path / "table.toml", tmp_path / "link.toml"
    path.write_text("mine", encoding="utf-8")
    link.symlink_to(tmp_path / "nowhere")
    for taken in (path, link):
        for options in ((), ("--panel", "1200x600"), ("--sample", "elm-slab")):
            result = run("new", taken, *options)
            assert result.exit_code == 2
            assert "never replaced" in result.stderr
    assert path.read_text(encoding="utf-8") == "mine"
    assert not link.exists()


def test_a_name_that_no_file_can_have_is_told(tmp_path: Path) -> None:
    """Too long, or under what is no folder."""
    (tmp_path / "file").write_text("", encoding="utf-8")
    for name in ("x" * 400 + ".toml", "file/table.toml", "nowhere/table.toml"):
        result = run("new", tmp_path / name, "--panel", "1200x600")
        assert (result.exit_code, result.stdout) == (2, "")
        assert result.stderr.count("\n") == 1


def test_answers_make_a_job(tmp_path: Path) -> None:
    """Bad answers are refused on the spot, and `back` takes one away."""
    path = tmp_path / "hall.toml"
    result = run("new", path, typed=lines(TALK))
    assert result.exit_code == 0, result.stdout
    assert result.stdout.count("   ! ") == len(BAD)
    job = read_job(path.read_bytes())
    assert (job.name, len(job.panel.defects)) == ("Hall table", 2)
    assert job.legs is not None and job.legs.foot.length == 50
    assert job.template.paper.name == "Letter"
    assert [path] == list(tmp_path.iterdir())


def test_corners_are_given_several_on_a_line(tmp_path: Path) -> None:
    """They are drawn, by their letters, as soon as there are three; before that nothing is."""
    path = tmp_path / "slab.toml"
    corners = ("points", "0,0 1600,0", "[1580, 640], [15]", "[1580, 640], [15, 610]")
    rest = ("", "40", *[""] * 5, "0", "", "", "")
    shown = run("new", path, typed=lines(("", "", *corners, *rest))).stdout
    before, _, _ = shown.partition("Corner 5")
    assert "is not of the form x, y" in before
    assert before.count("corners by their letters") == 1 and "10 ×" not in before
    assert "D..." in before and "A..." in before
    job, other = read_job(path.read_bytes()), tmp_path / "other.toml"
    kept = ("--keep", "ab, CD", "--top", "live edge")
    run("new", other, "--panel", "0,0 1600,0 1580,640 15,610", *kept)
    assert len(read_job(other.read_bytes()).wish.kept) == 2
    assert job.panel.boundary == read_job(other.read_bytes()).panel.boundary


@pytest.mark.parametrize(("units", "margin"), [("mm", 9.0), ("in", 9.525)])
def test_the_saw_gets_its_margin_unasked(tmp_path: Path, units: str, margin: float) -> None:
    """Options leave at the panel's edges what the questions propose, and the file says it."""
    paths = tmp_path / "options.toml", tmp_path / "answers.toml"
    run("new", paths[0], "--panel", "48 x 24", "--units", units)
    run(
        "new",
        paths[1],
        typed=lines((units, "", "48 x 24", *[""] * 2, "1", *[""] * 5, "0", *[""] * 3)),
    )
    for path in paths:
        assert read_job(path.read_bytes()).margin == margin
        assert "a saw has wood on both sides" in path.read_text(encoding="utf-8")


def test_corners_are_given_one_by_one(tmp_path: Path) -> None:
    """A ring that crosses itself is refused when it is closed, and `back` takes a corner away."""
    path = tmp_path / "slab.toml"
    corners = ("points", "0,0", "1600,0", "0", "15,610", "1580,640", "", "back", "back")
    rest = ("1580,640", "15,610", "", "40", "", "", "live edge", "AC", "AB, CD", "", "", "0")
    result = run("new", path, typed=lines(("", "", *corners, *rest, "", "", "")))
    assert result.exit_code == 0, result.stdout
    job = read_job(path.read_bytes())
    assert job.panel.boundary.bounds.width == 1600
    assert (job.wish.shapes, len(job.wish.kept)) == (("piece as found",), 2)
    assert job.legs is None


@pytest.fixture(scope="module")
def in_one_sitting(tmp_path_factory: pytest.TempPathFactory) -> str:
    """Return the file that comes of all answers at once."""
    path = tmp_path_factory.mktemp("whole") / "hall.toml"
    run("new", path, typed=lines(TALK))
    return path.read_text(encoding="utf-8")


@pytest.mark.parametrize(
    "after",
    [pytest.param(k, marks=() if k % 14 == 0 else pytest.mark.heavy) for k in range(len(TALK))],
)
def test_answers_are_kept_and_taken_up_again(
    tmp_path: Path, in_one_sitting: str, after: int
) -> None:
    """Wherever the input ends, the rest typed later gives the file of one sitting."""
    path = tmp_path / "hall.toml"
    first = run("new", path, typed=lines(TALK[:after]))
    assert (first.exit_code, path.exists()) == (130, False)
    assert run("new", path, typed=lines(TALK[after:])).exit_code == 0
    assert list(tmp_path.iterdir()) == [path]
    assert path.read_text(encoding="utf-8") == in_one_sitting


def test_leaving_is_no_failure_and_broken_answers_are_told(tmp_path: Path) -> None:
    """`leave` ends with 0; a file of answers that is none ends with 2 and stays."""
    path = tmp_path / "hall.toml"
    assert run("new", path, typed="mm\n?\nleave\n").exit_code == 0
    kept = tmp_path / "hall.toml.answers"
    assert kept.exists()
    kept.write_text("{}", encoding="utf-8")
    result = run("new", path, typed="mm\n")
    assert result.exit_code == 2
    assert kept.read_text(encoding="utf-8") == "{}"


def in_a_terminal(path: Path, answers: tuple[str, ...], *, interrupt: bool) -> tuple[str, int]:
    """Type answers in a pseudo-terminal, then Ctrl-C; return what was shown and the exit code."""
    pexpect = pytest.importorskip("pexpect", reason="no pseudo-terminals here")
    program = shutil.which("panelwright", path=str(Path(sys.executable).parent))
    child = pexpect.spawn(
        program or sys.executable,
        (["new"] if program else ["-m", "panelwright", "new"]) + [str(path)],
        encoding="utf-8",
        timeout=60,
        # a run in the background ignores Ctrl-C, and what it starts would too
        preexec_fn=partial(signal.signal, signal.SIGINT, signal.SIG_DFL),
    )
    shown = ""
    for answer in answers:
        child.expect("> $")
        shown += child.before
        child.sendline(answer)
    if interrupt:
        child.expect("> $")
        # one that comes between the prompt and the wait for an answer is seen with the next one
        for _ in range(12):
            child.sendintr()
            if child.expect([pexpect.EOF, pexpect.TIMEOUT], timeout=5) == 0:
                break
    else:
        child.expect(pexpect.EOF)
    child.close()
    return shown + child.before, child.exitstatus


def test_it_talks_in_a_terminal(tmp_path: Path) -> None:
    """With good answers and bad ones a person gets the same file as without a terminal."""
    path = tmp_path / "hall.toml"
    shown, code = in_a_terminal(path, TALK, interrupt=False)
    assert code == 0, shown
    assert "1200 × 600 mm" in shown and "oooo" in shown
    assert shown.count("   ! ") == len(BAD)
    assert read_job(path.read_bytes()).name == "Hall table"


@pytest.mark.parametrize(
    "after",
    [pytest.param(k, marks=() if k in (0, 20) else pytest.mark.heavy) for k in range(len(GOOD))],
)
def test_ctrl_c_keeps_the_answers_at_each_question(tmp_path: Path, after: int) -> None:
    """It ends with 130 and no traceback, writes no job, and keeps what was answered."""
    path = tmp_path / "hall.toml"
    shown, code = in_a_terminal(path, GOOD[:after], interrupt=True)
    assert code == 130
    assert "Traceback" not in shown and "Abort" not in shown
    assert not path.exists()
    assert (tmp_path / "hall.toml.answers").exists() == (after > 0)
