"""The notebook among the samples runs from top to bottom."""

from __future__ import annotations

from pathlib import Path

import pytest

NOTEBOOK = Path(__file__).parents[2] / "samples" / "boards.ipynb"


@pytest.mark.heavy
def test_the_notebook_runs() -> None:
    """Each cell does, a board and a plan are drawn, and fifty boards are laid out by processes."""
    nbformat = pytest.importorskip("nbformat")
    nbclient = pytest.importorskip("nbclient")
    held = nbformat.read(NOTEBOOK, as_version=4)
    nbclient.NotebookClient(held, timeout=300, kernel_name="python3").execute()
    outputs = [output for cell in held.cells for output in cell.get("outputs", ())]
    assert not [output for output in outputs if output["output_type"] == "error"]
    drawn = [output for output in outputs if "image/svg+xml" in output.get("data", {})]
    assert len(drawn) == 3
    told = "".join(output["text"] for output in outputs if output["output_type"] == "stream")
    assert told.count("a round table of") == 5
