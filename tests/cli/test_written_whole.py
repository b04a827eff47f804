"""What is written is old or new and never half, whatever stops a run: with real processes."""

from __future__ import annotations

import json
import os
import resource
import shutil
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path
from random import Random
from typing import Any

import pytest
from click.testing import CliRunner

from panelwright.cli.main import main

NAMES = ("one.html", "two.svg", "three.pdf", "four.json")
SIZE = 300_000

WRITE = """
import sys
from pathlib import Path
from panelwright.cli.files import write_all
sign, size, folder, *names = sys.argv[1:]
print("ready", flush=True)
write_all(Path(folder), {name: sign * int(size) for name in names})
"""

COMMAND = (sys.executable, "-c", "from panelwright.cli.main import main; main()")
JOB = (
    '[panel]\noutline = { length = 900, width = 500 }\nthickness = 20\n[top]\nshape = "rectangle"\n'
)


def writer(sign: str, folder: Path, **more: Any) -> subprocess.Popen[bytes]:  # noqa: ANN401
    """Start a process that writes four files full of one sign."""
    return subprocess.Popen(
        [sys.executable, "-c", WRITE, sign, str(SIZE), str(folder), *NAMES],
        stdout=subprocess.PIPE,
        **more,
    )


def written(sign: str, folder: Path) -> int:
    """Let a process write, and return what it ends with."""
    with writer(sign, folder) as run:
        return run.wait()


def contents(folder: Path) -> set[str]:
    """Return what each file of a folder is full of; each is whole."""
    found = set()
    for path in folder.iterdir():
        text = path.read_text(encoding="utf-8")
        if path.suffix != ".part":
            assert len(text) == SIZE and len(set(text)) == 1, f"{path.name} is half written"
            found.add(text[0])
    return found


@pytest.mark.heavy
def test_killed_at_any_moment_each_file_is_old_or_new(tmp_path: Path) -> None:
    """Fifty runs are killed while they write; the next one leaves nothing else behind."""
    folder, draw = tmp_path / "out", Random(1)
    assert written("a", folder) == 0
    killed = 0
    for round_ in range(50):
        with writer("ab"[round_ % 2], folder) as run:
            assert run.stdout is not None
            run.stdout.readline()
            time.sleep(draw.uniform(0.0, 0.012))
            run.send_signal(signal.SIGKILL)
        killed += run.returncode == -signal.SIGKILL
        assert contents(folder) <= {"a", "b"}
        assert {path.name for path in folder.iterdir()} >= set(NAMES)
    assert killed > 10, "the runs were over before they were killed"
    assert written("c", folder) == 0
    assert contents(folder) == {"c"}
    assert {path.name for path in folder.iterdir()} == set(NAMES)


def test_two_runs_at_once_write_one_after_the_other(tmp_path: Path) -> None:
    """The folder holds what one of them wrote, all of it, and nothing that passes."""
    with writer("a", tmp_path) as one, writer("b", tmp_path) as other:
        assert (one.wait(), other.wait()) == (0, 0)
    assert len(contents(tmp_path)) == 1
    assert {path.name for path in tmp_path.iterdir()} == set(NAMES)


def least_files(size: int) -> Callable[[], None]:
    """Return what holds a process to files of at most so many bytes."""

    def hold() -> None:
        signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
        resource.setrlimit(resource.RLIMIT_FSIZE, (size, size))

    return hold


def told(job: Path, out: Path, **more: Any) -> subprocess.CompletedProcess[bytes]:  # noqa: ANN401
    """Plan a job into a folder."""
    typed = [*COMMAND, "plan", str(job), "--out", str(out)]
    return subprocess.run(typed, capture_output=True, check=False, **more)


def drawn(out: Path, **more: Any) -> subprocess.CompletedProcess[bytes]:  # noqa: ANN401
    """Draw a circle into a folder: the quickest command that writes."""
    typed = [*COMMAND, "mark", "circle", "900", "--svg", str(out / "circle.svg")]
    return subprocess.run(typed, capture_output=True, check=False, **more)


@pytest.fixture(name="job")
def _job(tmp_path: Path) -> Path:
    path = tmp_path / "job.toml"
    path.write_text(JOB, encoding="utf-8")
    return path


@pytest.mark.heavy
def test_files_that_may_not_grow_leave_the_old_ones(job: Path, tmp_path: Path) -> None:
    """A plan that is cut off by a limit of file size touches nothing, ends with 2 and one line."""
    out = tmp_path / "out"
    assert told(job, out).returncode == 0
    before = {path.name: path.read_bytes() for path in out.iterdir()}
    job.write_text(JOB.replace("900", "800"), encoding="utf-8")
    result = told(job, out, preexec_fn=least_files(20_000))
    assert result.returncode == 2, result.stderr
    assert b"cannot be written" in result.stderr and b"Traceback" not in result.stderr
    assert {path.name: path.read_bytes() for path in out.iterdir()} == before


def test_a_file_in_the_way_is_told(tmp_path: Path) -> None:
    """A folder that is a file ends with 2 and stays as it is."""
    out = tmp_path / "out"
    out.write_text("kept", encoding="utf-8")
    for folder in (out, out / "deep"):
        result = drawn(folder)
        assert result.returncode == 2 and b"cannot be written" in result.stderr
    assert out.read_text(encoding="utf-8") == "kept"


def test_a_folder_that_may_not_be_written_is_told(tmp_path: Path) -> None:
    """A read-only folder ends with 2 and stays empty; whom nothing stops finds /proc to be one."""
    out = tmp_path / "out" if os.geteuid() else Path("/proc/self")
    if os.geteuid():
        out.mkdir(mode=0o500)
    elif not out.exists():
        pytest.skip("nobody is stopped here")
    result = drawn(out)
    assert result.returncode == 2 and b"cannot be written" in result.stderr
    assert b"Traceback" not in result.stderr


def test_the_file_that_cannot_be_written_is_named_as_it_was_asked_for(tmp_path: Path) -> None:
    """Not by the passing file beside it, whose name is longer than a system allows."""
    out = tmp_path / f"{'x' * 245}.svg"
    result = CliRunner().invoke(main, ["measure", "--out", str(out)])
    assert result.exit_code == 2
    assert result.stderr.startswith(f"{out}: cannot be written (")
    assert ".part" not in result.stderr and list(tmp_path.iterdir()) == []


def test_a_full_disk_leaves_the_old_file(tmp_path: Path) -> None:
    """On a disk without room nothing is replaced and nothing left behind."""
    disk = tmp_path / "disk"
    disk.mkdir()
    typed = ["mount", "-t", "tmpfs", "-o", "size=8k", "tmpfs", str(disk)]
    if shutil.which("mount") is None or subprocess.run(typed, capture_output=True).returncode:
        pytest.skip("nobody may mount a disk here")
    try:
        (disk / "circle.svg").write_text("kept" * 1500, encoding="utf-8")
        result = drawn(disk)
        assert result.returncode == 2 and b"cannot be written" in result.stderr
        assert [path.name for path in disk.iterdir()] == ["circle.svg"]
        assert (disk / "circle.svg").read_text(encoding="utf-8") == "kept" * 1500
    finally:
        subprocess.run(["umount", str(disk)], check=True)


@pytest.mark.heavy
def test_the_same_bytes_come_of_every_surrounding(job: Path, tmp_path: Path) -> None:
    """Hash seeds, locales, time zones, threads and working folders change no byte."""
    surroundings = (
        {"PYTHONHASHSEED": "1"},
        {"PYTHONHASHSEED": "77", "LC_ALL": "C", "TZ": "Pacific/Kiritimati"},
        {"LC_ALL": "tr_TR.UTF-8", "LANG": "tr_TR.UTF-8", "TZ": "America/Lima"},
        {"OPENBLAS_NUM_THREADS": "1", "OMP_NUM_THREADS": "1"},
        {"OPENBLAS_NUM_THREADS": "2", "OMP_NUM_THREADS": "2", "PYTHONUTF8": "0"},
    )
    text = JOB.replace('"rectangle"', '"oval"') + "[legs]\ncount = 4\n"
    text += '[[panel.defects]]\nkind = "hole"\nat = [200, 100]\ndiameter = 30\n'
    job.write_text(text, encoding="utf-8")
    found = []
    for number, surrounding in enumerate(surroundings):
        folder = tmp_path / f"from {number}"
        folder.mkdir()
        out = folder / "out"
        env = {**os.environ, **surrounding}
        result = told(Path(os.path.relpath(job, folder)), Path("out"), cwd=folder, env=env)
        assert result.returncode == 0, result.stderr
        found.append({path.name: path.read_bytes() for path in sorted(out.iterdir())})
    for other in found[1:]:
        assert [name for name in found[0] if found[0][name] != other[name]] == []
        assert found[0].keys() == other.keys()


@pytest.mark.parametrize(
    "words",
    [
        ("plan", "{job}", "--out", "{way}/deep"),
        ("template", "{job}", "--out", "{way}/deep"),
        ("template", "--calibrate", "--out", "{way}/deep"),
        ("legs", "{job}", "--svg", "{way}/legs.svg"),
        ("mark", "circle", "900", "--svg", "{way}/circle.svg"),
        ("measure", "--out", "{way}/pocket.pdf"),
    ],
    ids=" ".join,
)
def test_what_cannot_be_written_is_all_that_is_answered(
    words: tuple[str, ...], job: Path, tmp_path: Path
) -> None:
    """With a file in the way of its folder a command prints one JSON document, the problem."""
    way = tmp_path / "way"
    way.write_text("kept", encoding="utf-8")
    typed = [word.format(job=job, way=way) for word in words]
    result = CliRunner().invoke(main, [*typed, "--json"])
    assert result.exit_code == 2
    (problem,) = json.loads(result.stdout)["problems"]
    assert "cannot be written" in problem["message"]
    assert way.read_text(encoding="utf-8") == "kept"
    assert {path.name for path in tmp_path.iterdir()} == {"job.toml", "way"}


def test_who_reads_no_further_has_the_files_too(job: Path, tmp_path: Path) -> None:
    """A pipe that is closed before a plan says anything, as by `head`, keeps no sheet back."""
    typed = [*COMMAND, "plan", str(job), "--out", str(tmp_path / "out")]
    with subprocess.Popen(typed, stdout=subprocess.PIPE) as run:
        assert run.stdout is not None
        run.stdout.close()
    assert {"bench-sheet.html", "plan.json"} <= {p.name for p in (tmp_path / "out").iterdir()}
