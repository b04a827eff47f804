"""A job loads no more of the search, and a command no more of the library, than it asks for."""

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

COMMAND = """
import sys
from panelwright.cli.main import main
main([{!r}, "samples/elm-slab/job.toml"], standalone_mode=False)
print(*sys.modules, file=sys.stderr)
"""
WRITERS = ("ezdxf", "jinja2", "reportlab", "svgwrite", "pikepdf", "tomlkit")


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
        ("rectangle", "rectangles.entry", ("kind", "lift", "polygon")),
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


@pytest.mark.parametrize(
    ("command", "most", "others"),
    [
        ("check", 165, ("scipy", "plan.plan", "cutting.plan", "marking.marks", "legs.plate")),
        ("fit", 166, ("scipy", "plan.plan", "cutting.plan", "marking.marks", "legs.whole")),
        (
            "plan",
            224,
            ("scipy.spatial", "sheets.plan_drawing", "drawing.kit.labels", "drawing.svg"),
        ),
    ],
)
def test_a_command_loads_what_it_uses(command: str, most: int, others: tuple[str, ...]) -> None:
    """No sheets where none is written, no plate where none bends, and no more rooms than that."""
    loaded = _loaded(COMMAND.format(command))
    own = {name for name in loaded if name.startswith("panelwright.")}
    assert f"panelwright.cli.{command}" in own
    assert not loaded.intersection(WRITERS)
    assert not {name for name in loaded if name.removeprefix("panelwright.layout.") in others}
    assert len(own) <= most
