"""Mutation testing, run by hand: whether the attacks are sharp enough to find a wrong bound.

``tests/mutants.py 5`` changes one thing at a time, five times in each file that a proof rests on
(a sign, a product, a least for a greatest, a sine for a cosine, one side of a comparison), and runs
the tests that attack it. A mutant that survives is printed with its place: either it only makes a
bound looser, which no attack can or need see, or a test is missing. About ten seconds a mutant.
"""

from __future__ import annotations

import ast
import copy
import os
import random
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

ROOT = Path(__file__).parents[1]
HUGGED = "tests/fit/test_clear_rows.py tests/fit/test_hugged.py"
LYING = (
    "tests/fit/test_superellipse.py::test_no_top_touches_an_edge_that_it_lies_along_beyond_its_ends"
)
PROGRAMS = "tests/fit/test_small_programs.py"
LINES = "tests/fit/test_drawn_out.py"
BALLS = "tests/fit/test_superellipse.py"
GROWTH = "tests/fit/test_growth.py"
D_END = "tests/fit/test_d_end.py"
HOLES = "tests/fit/test_many_holes.py"
RECTANGLES = "tests/fit/test_rectangle_bound.py"
CONVEX = "tests/fit/test_convex_outlines.py -k box"
TARGETS = {
    "layout/fit/linear_program.py": PROGRAMS,
    "layout/fit/convex/lift.py": f"{PROGRAMS} {HUGGED} {LYING} -k oval-or-capsule-or-worth-or-lies",
    "layout/fit/convex/sight.py": f"{HUGGED} {LYING} {LINES} -k oval-or-end-or-lies-or-ways",
    "layout/fit/convex/oval.py": f"{HUGGED} {GROWTH} -k oval",
    "layout/fit/convex/superellipse.py": f"{HUGGED} {GROWTH} {LYING} -k superellipse-or-lies",
    "layout/fit/convex/capsule.py": f"{HUGGED} {GROWTH} -k capsule",
    "layout/fit/convex/d_end.py": f"{HUGGED} {GROWTH} {HOLES} {D_END} -k end-or-disk",
    "layout/fit/convex/polygon.py": f"{HUGGED} {GROWTH} -k hexagon",
    "layout/fit/convex/gauge.py": f"{BALLS} {GROWTH} {CONVEX}-or-outgrows",
    "layout/fit/convex/kind.py": f"{HUGGED} {GROWTH} {HOLES} {BALLS} -k disk-or-oval",
    "layout/fit/wood/edges.py": f"{LINES} tests/fit/test_hugged.py -k out-or-oval",
    "layout/fit/rectangles/gap_bound.py": RECTANGLES,
    "layout/fit/rectangles/offset_wood.py": f"{RECTANGLES} tests/fit/test_rounded_rectangle.py",
    "layout/fit/rectangles/slim.py": f"{RECTANGLES} -k slim-or-strip",
    "layout/fit/rectangles/hull_bound.py": "tests/fit/test_rectangle_turns.py",
    "layout/fit/rigid/bounds.py": "tests/fit/test_own_outline_bound.py",
    "layout/fit/on_edge/line.py": "tests/fit/test_kept_edges.py",
    "layout/geometry/stepping.py": "tests/geometry tests/outlines",
    "layout/geometry/superellipse.py": "tests/outlines",
}
"""Files, and what attacks each."""

SWAPPED = {"minimum": "maximum", "min": "max", "sin": "cos", "floor": "ceil"}
SWAPPED |= {other: one for one, other in SWAPPED.items()}

PLUGIN = """
import importlib.abc, importlib.util, os, sys
class Mutated(importlib.abc.MetaPathFinder, importlib.abc.Loader):
    def find_spec(self, name, path, target=None):
        if name == os.environ["MUTANT_NAME"]:
            return importlib.util.spec_from_loader(name, self)
    def exec_module(self, module):
        exec(compile(os.environ["MUTANT_TEXT"], module.__name__, "exec"), module.__dict__)
sys.meta_path.insert(0, Mutated())
import pytest
sys.exit(pytest.main(sys.argv[1:]))
"""


def changes(node: ast.AST) -> Iterator[ast.AST]:
    """Yield what a node may be changed to."""
    swap: dict[type, type] = {ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Lt: ast.Gt, ast.Gt: ast.Lt}
    swap |= {ast.LtE: ast.GtE, ast.GtE: ast.LtE, ast.BitAnd: ast.BitOr, ast.BitOr: ast.BitAnd}
    swap |= {ast.Mult: ast.Div, ast.Div: ast.Mult}
    other = copy.deepcopy(node)
    if isinstance(other, ast.BinOp | ast.AugAssign) and type(other.op) in swap:
        other.op = swap[type(other.op)]()
        yield other
    elif isinstance(other, ast.Compare) and type(other.ops[0]) in swap:
        other.ops[0] = swap[type(other.ops[0])]()
        yield other
    elif isinstance(other, ast.UnaryOp) and isinstance(other.op, ast.USub):
        yield other.operand
    elif isinstance(other, ast.Attribute) and other.attr in SWAPPED:
        other.attr = SWAPPED[other.attr]
        yield other
    elif isinstance(other, ast.Name) and other.id in SWAPPED:
        other.id = SWAPPED[other.id]
        yield other


class _Swap(ast.NodeTransformer):
    """Puts one node in the place of another."""

    def __init__(self, old: ast.AST, new: ast.AST) -> None:
        self.old, self.new = old, new

    def visit(self, node: ast.AST) -> ast.AST:
        """Return the new one for the old one."""
        return self.new if node is self.old else self.generic_visit(node)


def mutants(text: str, most: int, draw: random.Random) -> Iterator[tuple[int, str, str]]:
    """Yield line, change and text of some mutants of a module."""
    tree = ast.parse(text)
    found = [
        (node, new)
        for node in ast.walk(tree)
        for new in changes(node)
        if not isinstance(node, ast.BinOp) or not isinstance(node.left, ast.Name | ast.Constant)
        or "|" not in ast.unparse(node)  # a union of types is no sum
    ]  # fmt: skip
    for node, new in draw.sample(found, min(most, len(found))):
        change = f"{ast.unparse(node)}  ->  {ast.unparse(new)}"
        whole = _Swap(node, new).visit(ast.parse(text) if node is tree else tree)
        yield getattr(node, "lineno", 0), change, ast.unparse(ast.fix_missing_locations(whole))
        _Swap(new, node).visit(tree)


def is_killed(path: str, text: str, tests: str) -> bool:
    """Return whether some test of those fails where a module has that text."""
    name = "panelwright." + path.removesuffix(".py").replace("/", ".")
    env = {**os.environ, "MUTANT_NAME": name, "MUTANT_TEXT": text, "OPENBLAS_NUM_THREADS": "1"}
    words = [word.replace("-or-", " or ") for word in tests.split()]
    command = [sys.executable, "-c", PLUGIN, "-n", "0", "-q", "-x", "-m", "not by_hand", *words]
    done = subprocess.run(command, cwd=ROOT, env=env, capture_output=True, check=False)
    return done.returncode != 0


def main(most: int, only: str = "") -> None:
    """Try so many mutants of each file and tell which lived."""
    draw, killed, tried = random.Random(14), 0, 0
    for path, tests in TARGETS.items():
        if only not in path:
            continue
        text = (ROOT / path).read_text(encoding="utf-8")
        if is_killed(path, text, tests):
            raise SystemExit(f"{path}: its own tests fail as it is")
        lived = []
        for line, change, mutant in mutants(text, most, draw):
            tried += 1
            if is_killed(path, mutant, tests):
                killed += 1
            else:
                lived.append(f"    {path}:{line}: {change}")
        print(f"{path}: {len(lived)} of {most} lived", *lived, sep="\n", flush=True)
    print(f"{killed} of {tried} killed")


if __name__ == "__main__":
    main(int(sys.argv[1]), *sys.argv[2:])
