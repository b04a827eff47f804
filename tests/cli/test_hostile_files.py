"""Job files that are none: each is refused or answered, in little time and memory, and exits 2."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner

from panelwright.cli import reading
from panelwright.cli.main import TRACE, UNFORESEEN, main

GOOD = "[panel]\noutline = { length = 1400, width = 600 }\nthickness = 25\n"
DEEP = 100_000
SECONDS, BYTES = 10, 200_000_000
"""Of processor time, five times what is asked for on an idle machine, and memory of a process."""

FILES = {
    "over a million bytes": GOOD + "# " + "x" * 1_000_000,
    "a long text that is never closed": GOOD + 'note = """' + "abc\n" * 200_000,
    "a text that is never closed": 'name = "' + "a" * 900_000,
    "a header nested deep": "[" + ".".join("a" * 10_000) + "]\nx = 1\n",
    "brackets of headers": "[" * 10_000 + "a" + "]" * 10_000 + "\n",
    "lists nested deep": "x = " + "[" * DEEP + "]" * DEEP + "\n" + GOOD,
    "unknown keys": "\n".join(f"k{i} = {i}" for i in range(60_000)) + "\n" + GOOD,
    "unknown keys in a table": GOOD + "".join(f"k{i} = {i}\n" for i in range(60_000)),
    "empty defects": GOOD + "[[panel.defects]]\n" * 50_000,
    "lines of words": "a b c\n" * 150_000,
    "control characters": bytes(range(1, 128)).decode() * 7_000,
    "a survey of eighty thousand points": "[panel]\noutline = { points = ["
    + ",".join(f"[{i},{i % 7}]" for i in range(80_000))
    + "] }\n",
}


RUN = """
import atexit, resource, sys
from pathlib import Path
resource.setrlimit(resource.RLIMIT_CPU, (int(sys.argv[2]),) * 2)
status = Path("/proc/self/status")
atexit.register(lambda: status.exists() and print(status.read_text()))
from panelwright.cli.main import main
main(["check", sys.argv[1]])
"""


@pytest.mark.parametrize("what", FILES)
def test_it_is_answered_soon_and_with_few_words(what: str, tmp_path: Path) -> None:
    """It ends with 2, in at most 54 lines, no traceback, and within its time and memory."""
    job = tmp_path / "job.toml"
    job.write_text(FILES[what], encoding="utf-8")
    done = subprocess.run(
        [sys.executable, "-c", RUN, str(job), str(SECONDS)],
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 2, done.stderr[-500:]
    assert len(done.stderr.splitlines()) <= 54
    assert "Traceback" not in done.stderr
    most = [int(row.split()[1]) for row in done.stdout.splitlines() if row.startswith("VmHWM")]
    assert all(kilobytes * 1024 <= BYTES for kilobytes in most)  # known on Linux alone


def test_what_is_no_file_is_not_waited_for(tmp_path: Path) -> None:
    """A pipe that nobody writes to, a device without end and a folder are refused at once."""
    pipe = tmp_path / "pipe.toml"
    os.mkfifo(pipe)
    for path in (pipe, Path("/dev/zero"), tmp_path):
        result = CliRunner().invoke(main, ["check", str(path)])
        assert result.exit_code == 2
        assert "is no file" in result.stderr


def test_of_many_problems_fifty_are_listed(tmp_path: Path) -> None:
    """The others are counted."""
    job = tmp_path / "job.toml"
    job.write_text("".join(f"k{i} = {i}\n" for i in range(90)) + GOOD, encoding="utf-8")
    lines = CliRunner().invoke(main, ["check", str(job)]).stderr.splitlines()
    assert lines[0].endswith("90 problems")
    assert lines[-2].strip() == "and 40 more"


def test_no_traceback_reaches_a_person(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """What nobody foresaw is told in one line, ends with 3, and can be asked for in full."""
    job = tmp_path / "job.toml"
    job.write_text(GOOD, encoding="utf-8")

    def broken(path: Path) -> reading.Text:
        raise ZeroDivisionError("a figure\nof nothing")

    monkeypatch.setattr("panelwright.cli.check.job_text", broken)
    result = CliRunner().invoke(main, ["check", str(job)])
    assert result.exit_code == UNFORESEEN
    assert len(result.stderr.splitlines()) == 1
    assert "ZeroDivisionError: a figure of nothing" in result.stderr
    monkeypatch.setenv(TRACE, "1")
    assert isinstance(CliRunner().invoke(main, ["check", str(job)]).exception, ZeroDivisionError)
