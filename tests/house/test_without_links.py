"""A copy of the source in which the two links are missing still imports."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from readme import ROOT


@pytest.mark.parametrize("links", ["files", "nothing"])
def test_the_source_runs_where_its_links_are_missing(tmp_path: Path, links: str) -> None:
    """Git writes small files in their place where links are off; a source archive holds nothing."""
    for room in ("layout", "cli"):
        shutil.copytree(ROOT / room, tmp_path / room)
    package = tmp_path / "src" / "panelwright"
    package.mkdir(parents=True)
    for name in ("__init__.py", "__init__.pyi", "library.py"):
        shutil.copy(ROOT / "src" / "panelwright" / name, package)
    if links == "files":
        (package / "layout").write_text("../../layout")
        (package / "cli").write_text("../../cli")
    script = "import panelwright.cli.main as main; print(main.__file__); main.main()"
    run = subprocess.run(
        [sys.executable, "-c", script, "mark", "oval", "1800", "900"],
        env={**os.environ, "PYTHONPATH": str(tmp_path / "src")},
        cwd=tmp_path,
        capture_output=True,
        text=True,
        check=False,
    )
    assert run.stderr == ""
    assert run.stdout.startswith(str(tmp_path / "cli" / "main.py"))
    assert "1800" in run.stdout
