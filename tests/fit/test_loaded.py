"""A job loads no more of the search than it asks for."""

from __future__ import annotations

import subprocess
import sys

import pytest

SEARCHES = (".search", ".family", ".places", ".tops", ".square_ends", ".round_ends")
READING = """
import sys
from pathlib import Path
from panelwright.layout.jobfile import read_job
read_job(Path("samples/corridor-door/job.toml").read_text(encoding="utf-8"))
print(*(name for name in sys.modules if "layout.fit" in name), file=sys.stderr)
"""
SEARCH = """
import sys
import numpy as np
from panelwright.layout.fit import Wish, best_fits
from panelwright.layout.geometry.polygon import Region
from panelwright.layout.panel.sound import SoundWood
board = Region.from_rings(np.array([[0.0, 0.0], [900.0, 0.0], [900.0, 500.0], [0.0, 500.0]]))
best_fits(SoundWood.exact(board), Wish(({!r},)))
print(*(name for name in sys.modules if "layout.fit" in name), file=sys.stderr)
"""


def _loaded(code: str) -> set[str]:
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    return set(done.stderr.split())


def test_to_read_a_job_takes_no_search() -> None:
    """What is read of a job speaks of wishes and tops found, and of nothing that searches."""
    loaded = _loaded(READING)
    assert "panelwright.layout.fit.wish" in loaded
    assert not {name for name in loaded if name.endswith(SEARCHES)}


@pytest.mark.parametrize(
    ("shape", "kind", "others"),
    [
        ("capsule", "convex.capsule", ("oval", "superellipse", "polygon")),
        ("rectangle", "rectangles.family", ("kind", "lift", "polygon")),
    ],
)
def test_a_search_loads_its_own_family_alone(
    shape: str, kind: str, others: tuple[str, ...]
) -> None:
    """Neither other rooms nor other kinds of the same room."""
    loaded = _loaded(SEARCH.format(shape))
    assert f"panelwright.layout.fit.{kind}" in loaded
    assert not {name for name in loaded if name.endswith(tuple(f".{one}" for one in others))}
    assert not {name for name in loaded if ".fit.live_edge" in name or ".fit.why" in name}
