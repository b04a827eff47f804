"""Mutated jobs, options and calls, each in a process with bounds of its own.

Run by hand over more of them:

    python tests/fuzz/many.py --many 20000
    python tests/fuzz/many.py --only 1234          # one, with its traceback and its job

Each ends with 0, 1 or 2, and with words where it is not 0; where it is not 0 nothing is written; none
takes more than its bound of processor time and memory.
"""

# ruff: noqa: E501 - lists of odd values read better in long lines
from __future__ import annotations

import argparse
import os
import resource
import sys
import tempfile
import traceback
from collections import Counter
from dataclasses import dataclass
from pathlib import Path

os.environ["OPENBLAS_NUM_THREADS"] = "1"
sys.path.insert(0, str(Path(__file__).parents[1]))

import importlib
import pkgutil

import panelwright

for module in pkgutil.walk_packages(panelwright.__path__, "panelwright."):
    importlib.import_module(module.name)  # once, for every process that is forked from this one

from fuzz.calls import arguments, call_library  # noqa: E402
from fuzz.jobs import mutated  # noqa: E402

from panelwright.cli.main import TRACE, main  # noqa: E402

SECONDS = {"check": 4, "fit": 40, "plan": 120}
"""Bounds of processor time, s, with room for slow processors; 60 for other commands."""

BYTES = 1 << 30
"""Bound of memory."""


@dataclass(frozen=True, slots=True)
class Outcome:
    """What came of one mutation."""

    command: str
    code: int
    seconds: float
    megabytes: float
    told: str
    wrong: str
    """What is wrong with it; empty where nothing is."""


def outcome_of(number: int, folder: Path) -> Outcome:
    """Run one mutation in a folder of its own and hold it to what is promised."""
    typed = arguments(number)
    job = folder / "job.toml"
    job.write_bytes(mutated(number))
    name = "calls" if typed is None else typed[0]
    seconds = SECONDS.get(name, 60)
    with (folder.parent / "told").open("w+b") as told:
        child = os.fork()
        if child == 0:
            _run(typed, number, folder, told.fileno(), seconds)
        _, status, used = os.wait4(child, 0)
        told.seek(0)
        words = told.read().decode("utf-8", "replace")
    code = os.waitstatus_to_exitcode(status)
    took, size = used.ru_utime + used.ru_stime, used.ru_maxrss / 1024
    wrong = _wrong(code, words, took, size * 1024 * 1024, seconds)
    left = sorted(p.name for p in folder.iterdir() if p.name != "job.toml")
    if not wrong and code != 0 and left:
        wrong = f"it wrote {left}"
    if not wrong and any(path.suffix == ".part" for path in folder.rglob("*")):
        wrong = "it left passing files"
    return Outcome(name, code, took, size, words, wrong)


def _wrong(code: int, words: str, took: float, size: float, seconds: int) -> str:
    if code not in (0, 1, 2):
        last = words.strip().splitlines()[-1:] or ["no words"]
        return f"it ended with {code}: {last[0][:200]}"
    if code and not words.strip():
        return "it ended without a word"
    if took > seconds:
        return f"it took {took:.1f} s"
    return f"it took {size / 1e6:.0f} MB" if size > BYTES else ""


def _run(typed: list[str] | None, number: int, folder: Path, told: int, seconds: int) -> None:
    """Run a command, or call the library, in the forked process, which ends here."""
    code = 99
    try:
        os.chdir(folder)
        os.environ |= {TRACE: "1", "XDG_CONFIG_HOME": str(folder / "settings")}
        os.dup2(told, 1)
        os.dup2(told, 2)
        os.dup2(os.open(os.devnull, os.O_RDONLY), 0)
        sys.stdin = os.fdopen(0, encoding="utf-8", errors="surrogateescape", closefd=False)
        sys.stdout = os.fdopen(1, "w", encoding="utf-8", errors="surrogateescape", closefd=False)
        sys.stderr = os.fdopen(2, "w", encoding="utf-8", errors="backslashreplace", closefd=False)
        resource.setrlimit(resource.RLIMIT_CPU, (seconds + 1, seconds + 2))
        if typed is None:
            call_library(number)
            code = 0
        else:
            main(typed)
    except SystemExit as end:
        code = end.code if isinstance(end.code, int) else 0 if end.code is None else 98
    except BaseException:
        traceback.print_exc()
    finally:
        sys.stdout.flush()
        sys.stderr.flush()
        os._exit(code)


def run(first: int, count: int, *, show: bool = False) -> int:
    """Run so many mutations; print what was counted and what is wrong, and return how many are."""
    found: dict[int, Outcome] = {}
    for number in range(first, first + count):
        with tempfile.TemporaryDirectory() as place:
            folder = Path(place) / "work"
            folder.mkdir()
            one = found[number] = outcome_of(number, folder)
        if show:
            print(arguments(number), mutated(number).decode("utf-8", "replace"), one.told, sep="\n")
        if one.wrong:
            print(f"{number} {arguments(number)}: {one.wrong}", flush=True)
    for command in sorted({one.command for one in found.values()}):
        _tell(command, {n: one for n, one in found.items() if one.command == command})
    wrong = sum(bool(one.wrong) for one in found.values())
    print(
        f"{count} mutations from {first}, {wrong} wrong, {sum(o.seconds for o in found.values()):.0f} s"
    )
    return wrong


def _tell(command: str, found: dict[int, Outcome]) -> None:
    """Print how often a command ended with what, the slowest and the largest of its runs."""
    codes = Counter(one.code for one in found.values())
    ends = ", ".join(f"{times} with {code}" for code, times in sorted(codes.items()))
    slow = max(found, key=lambda n: found[n].seconds)
    large = max(found, key=lambda n: found[n].megabytes)
    print(f"{command:9} {ends}; {found[slow].seconds:.1f} s (number {slow}), "
          f"{found[large].megabytes:.0f} MB (number {large})", flush=True)  # fmt: skip


if __name__ == "__main__":
    parser = argparse.ArgumentParser()
    parser.add_argument("--many", type=int, default=2000)
    parser.add_argument("--first", type=int, default=0)
    parser.add_argument("--only", type=int)
    given = parser.parse_args()
    if given.only is not None:
        sys.exit(run(given.only, 1, show=True) > 0)
    sys.exit(run(given.first, given.many) > 0)
