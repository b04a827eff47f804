"""Only the rooms that draw or search an outline by its kind ask for its kind."""

from __future__ import annotations

import ast
from pathlib import Path

from panelwright.layout import outlines

ROOT = Path(__file__).parents[2]
KINDS = {
    name for name, kind in vars(outlines).items() if isinstance(kind, type) and name != "Outline"
}
ALLOWED = ("layout/outlines/", "layout/fit/", "layout/jobfile/", "layout/marking/methods.py")
"""The families of fits, the reader of job files, and the ways to draw."""

FILES = [path for room in ("layout", "cli") for path in sorted((ROOT / room).rglob("*.py"))]


def asked_in(path: Path) -> set[str]:
    """Return the kinds of outlines that a source file asks for by isinstance or case."""
    asked: set[str] = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        found: list[ast.AST] = []
        if isinstance(node, ast.Call) and getattr(node.func, "id", "") == "isinstance":
            found = [node.args[1]]
        elif isinstance(node, ast.MatchClass):
            found = [node.cls]
        for part in found:
            asked |= {name.id for name in ast.walk(part) if isinstance(name, ast.Name)}
    return asked & KINDS


def test_nobody_asks_an_outline_for_its_kind() -> None:
    """An outline tells its traits; who asks for its kind forgets the next one."""
    others = [p for p in FILES if not str(p.relative_to(ROOT)).startswith(ALLOWED)]
    assert {str(path): asked_in(path) for path in others if asked_in(path)} == {}


def test_the_rule_has_something_to_hold() -> None:
    """There are kinds to ask for, and the allowed rooms do ask."""
    assert len(KINDS) > 7
    assert asked_in(ROOT / "layout" / "marking" / "methods.py")
