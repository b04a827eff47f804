"""Each sample still comes out as it was kept: word by word, figure by figure, path by path."""

from __future__ import annotations

from pathlib import Path

import pytest
from alike import differences
from kept import plan_of, sample_folders

from panelwright.layout.sheets.folder import plan_files

TOLD = 12
"""Lines for each sheet that a person still reads."""


def test_there_are_samples() -> None:
    """The workshop's three jobs are there, each with a story."""
    assert [folder.name for folder in sample_folders()] == [
        "corridor-door",
        "elm-slab",
        "lab-bench",
    ]
    assert all((folder / "README.md").is_file() for folder in sample_folders())


@pytest.mark.parametrize("folder", sample_folders(), ids=lambda folder: folder.name)
def test_a_sample_comes_out_as_it_was_kept(folder: Path) -> None:
    """No sheet is missing or new, and each says and draws what the kept one does."""
    files = plan_files(plan_of(folder))
    assert {path.name for path in (folder / "expected").iterdir()} == set(files)
    told: list[str] = []
    for name, content in files.items():
        kept = (folder / "expected" / name).read_bytes()
        lines = differences(name, kept if isinstance(content, bytes) else kept.decode(), content)
        told += lines[:TOLD]
        if len(lines) > TOLD:
            told.append(f"{name}: and {len(lines) - TOLD} more")
    if told:
        pytest.fail("\n".join(told), pytrace=False)


def test_inch_sheets_speak_of_inches() -> None:
    """The kept sheet of the door names no unit twice, and no stand-in for its material."""
    text = (sample_folders()[0] / "expected" / "bench-sheet.html").read_text(encoding="utf-8")
    assert "all figures in inches" in text
    assert " in in " not in text
    assert "solid-core door" not in text
