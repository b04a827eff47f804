"""Processor time and memory of `check`, `fit` and `plan` on panels that are as hard as the limits allow.

python tests/benchmarks/hard_panels.py check               # each panel, any shape
python tests/benchmarks/hard_panels.py fit oval capsule    # each panel, these shapes one by one
python tests/benchmarks/hard_panels.py plan --only broad   # of the panels whose name says so
"""  # noqa: E501

from __future__ import annotations

import argparse
import contextlib
import io
import math
import os
import resource
import tempfile
import time
from collections.abc import Callable, Iterable
from pathlib import Path

from panelwright.cli.main import main
from panelwright.layout.fit.wish import SHAPES

Points = Iterable[tuple[float, float]]


def outline(points: Points) -> str:
    """Return a panel of these corners, without defects."""
    row = ", ".join(f"[{x:.3f}, {y:.3f}]" for x, y in points)
    return f"[panel]\nthickness = 30\noutline = {{ points = [{row}] }}\n"


def holes(count: int, length: float, width: float, kind: str = "hole") -> str:
    """Return defects, spread over a panel as a sunflower spreads its seeds."""
    golden = math.pi * (3 - math.sqrt(5))
    row = '[[panel.defects]]\nkind = "{}"\nat = [{:.1f}, {:.1f}]\ndiameter = {}\n'
    return "".join(
        row.format(
            kind,
            length / 2 * (1 + 0.97 * math.sqrt(k / count) * math.cos(k * golden)),
            width / 2 * (1 + 0.93 * math.sqrt(k / count) * math.sin(k * golden)),
            6 + k % 7,
        )
        for k in range(count)
    )


def ring(count: int, length: float, width: float) -> str:
    """Return a ring of screw holes, which leaves little outside and much within."""
    row = '[[panel.defects]]\nkind = "screw hole"\nat = [{:.1f}, {:.1f}]\ndiameter = 8\n'
    ways = [math.tau * k / count for k in range(count)]
    return "".join(
        row.format(length * (0.5 + 0.35 * math.cos(w)), width * (0.5 + 0.35 * math.sin(w)))
        for w in ways
    )


def board(length: float, width: float) -> str:
    """Return a plain board."""
    return outline([(0, 0), (length, 0), (length, width), (0, width)])


def round_about(length: float, width: float, count: int, deep: Callable[[int], float]) -> str:
    """Return a panel of so many points on rays from its middle, each so deep."""
    ways = [(k, math.tau * (k + 0.3) / count) for k in range(count)]
    return outline(
        (length / 2 * (1 + deep(k) * math.cos(w)), width / 2 * (1 + deep(k) * math.sin(w)))
        for k, w in ways
    )


def comb(teeth: int, length: float, width: float) -> str:
    """Return a board that is sawn into from one side, many times."""
    pace, upper = length / teeth, [(length, 0.0)]
    for k in reversed(range(teeth)):
        left = k * pace
        upper += [(left + 0.95 * pace, width), (left + 0.05 * pace, width), (left, width / 3)]
    return outline([(0.0, 0.0), *upper[:-1]])


def noise(k: int) -> float:
    """Return a depth from 0.9 to 1 that looks drawn."""
    return 0.9 + 0.1 * (k * 7919 % 1000) / 1000


NEEDLE = outline([(0, 0), (3000, 0), (6000, 1.5), (3000, 3)])
SPLIT = outline([(0, 0), (1800, 0), (1800, 800), (905, 800), (900, 10), (895, 800), (0, 800)])
PANELS = {
    "needle": NEEDLE,
    "split, 40 holes": SPLIT + holes(40, 1800, 800),
    "split, 300 holes": SPLIT + holes(300, 1800, 800),
    "300 holes": board(2000, 900) + holes(300, 2000, 900),
    "15 holes": board(2000, 900) + holes(15, 2000, 900),
    "16 wide stains": board(2000, 900) + holes(16, 2000, 900, "stain").replace("= 6\n", "= 60\n"),
    "ring": board(1800, 800) + ring(40, 1800, 800),
    "ring of 300": board(1800, 800) + ring(300, 1800, 800),
    "L": outline([(0, 0), (1500, 0), (1500, 350), (400, 350), (400, 1200), (0, 1200)]),
    "U": outline(
        [(0, 0), (1500, 0), (1500, 900), (1200, 900), (1200, 300), (300, 300), (300, 900), (0, 900)]
    ),
    "star": round_about(2000, 1200, 40, lambda k: 1.0 if k % 2 else 0.3),
    "star of 5000": round_about(2000, 1200, 5000, lambda k: 1.0 if k % 2 else 0.3),
    "5000 points, round": round_about(2000, 1200, 5000, lambda k: 1.0),
    "5000 points, waves": round_about(2000, 1200, 5000, lambda k: 0.9 + 0.1 * math.sin(k / 90)),
    "5000 points, ragged": round_about(2000, 1200, 5000, noise),
    "star of 490": round_about(2000, 1200, 490, lambda k: 1.0 if k % 2 else 0.3),
    "490 points, round": round_about(2000, 1200, 490, lambda k: 1.0),
    "comb": comb(60, 3000, 800),
    "comb of 1200": comb(1200, 3000, 800),
    "broad 20 m": board(20000, 20000),
    "broad 20 m, 300 holes": board(20000, 20000) + holes(300, 20000, 20000),
    "broad 20 m, 5000 points, 300 holes": round_about(20000, 20000, 5000, noise)
    + holes(300, 20000, 20000),
    "long 20 m": board(20000, 1200) + holes(300, 20000, 1200),
}
"""Panels by their names."""

OWN = "own outline"
TOPS = {OWN: "outline = [[0, 0], [600, 0], [600, 250], [250, 250], [250, 400], [0, 400]]"}
"""What a shape asks for besides its name."""


def job(panel: str, shape: str, more: str = "") -> str:
    """Return the job of a top of a shape on a panel."""
    return f'{panel}[top]\nshape = "{shape}"\n{TOPS.get(shape, "")}\n[legs]\ncount = 4\n{more}'


def spent(command: str, text: str, most: int = 300) -> tuple[int, float, float, str]:
    """Return exit code, processor time, s, memory, MB, and words of a command on a job."""
    with tempfile.TemporaryDirectory() as place, tempfile.TemporaryFile("w+") as told:
        path = Path(place) / "job.toml"
        path.write_text(text, encoding="utf-8")
        child = os.fork()
        if child == 0:
            os.dup2(told.fileno(), 1)
            os.dup2(told.fileno(), 2)
            resource.setrlimit(resource.RLIMIT_CPU, (most, most))
            typed = [command, str(path)]
            with contextlib.suppress(io.UnsupportedOperation):
                try:
                    main(typed + (["--out", f"{place}/out"] if command == "plan" else []))
                except SystemExit as end:
                    os._exit(end.code if isinstance(end.code, int) else 0)
            os._exit(99)
        _, status, used = os.wait4(child, 0)
        told.seek(0)
        code = os.waitstatus_to_exitcode(status)
        return code, used.ru_utime + used.ru_stime, used.ru_maxrss / 1024, told.read()


if __name__ == "__main__":
    parser = argparse.ArgumentParser()
    parser.add_argument("command", choices=["check", "fit", "plan"])
    parser.add_argument("shapes", nargs="*", default=["any"], help=", ".join((*SHAPES, OWN)))
    parser.add_argument("--only", default="")
    parser.add_argument("--above", type=float, default=0.0, help="print from so many seconds on")
    given = parser.parse_args()
    for name, panel in PANELS.items():
        for shape in given.shapes if given.only in name else ():
            began = time.monotonic()
            code, seconds, size, words = spent(given.command, job(panel, shape))
            last = next(iter(reversed(words.strip().splitlines())), "")[:90]
            if seconds >= given.above:
                print(f"{name:35} {shape:18} {code:3} {seconds:6.1f} s {size:5.0f} MB  "
                      f"{time.monotonic() - began:6.1f} s  {last}", flush=True)  # fmt: skip
