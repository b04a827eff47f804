"""Score, bound and boxes of every kept case: written to a file, or held against one.

Run it before and after a change to the search: ``fit_table.py before.json``, then
``fit_table.py after.json before.json``, which prints what differs and the seconds of either.
"""

from __future__ import annotations

import json
import sys
import time
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import numpy as np

from panelwright.layout.errors import LayoutError
from panelwright.layout.fit import Goal, Limits, Span, Wish, best_fits
from panelwright.layout.geometry.polygon import Region
from panelwright.layout.panel.sound import SoundWood

CASES = Path(__file__).parents[1] / "fit" / "data" / "fit_cases.json"
SHAPES = (
    *("circle", "capsule", "oval", "superellipse", "hexagon", "octagon"),
    *("rectangle", "rounded rectangle"),
)


def table(shapes: Sequence[str] = SHAPES) -> dict[str, Any]:
    """Return score, bound, boxes and processor seconds of each panel, shape and goal."""
    rows = {}
    for name, case in json.loads(CASES.read_text(encoding="utf-8"))["cases"].items():
        rings = [np.array(ring, dtype=float) for ring in (case["exterior"], *case["holes"])]
        wood = SoundWood.exact(Region.from_rings(rings[0], rings[1:]))
        radius = Span(*[case["corner_radius"] or 0.0] * 2)
        for shape in shapes:
            wishes = {"": Wish((shape,), limits=Limits(corner_radius=radius))}
            if "rectangle" not in shape:
                limits = Limits(corner_radius=radius, ratio=Span(1, 2.5))
                near = Wish((shape,), goal=Goal.NEAREST, wanted=(700.0, 350.0), limits=limits)
                wishes[" near"] = near
            for goal, wish in wishes.items():
                start = time.process_time()
                try:
                    fit = best_fits(wood, wish)[0]
                    row = [fit.score, fit.bound.value if fit.bound else None, fit.steps]
                except LayoutError as error:
                    row = [type(error).__name__, 0.0, 0]
                rows[f"{name}/{shape}{goal}"] = [*row, time.process_time() - start]
    return rows


def compare(rows: dict[str, Any], old: dict[str, Any]) -> None:
    """Print the rows that differ by more than rounding, then boxes and seconds by shape."""
    for key, row in rows.items():
        before = old.get(key, row)
        if isinstance(row[0], str) or isinstance(before[0], str):
            if row[0] != before[0]:
                print(f"{key}: {before[0]} -> {row[0]}")
        elif abs(row[0] / before[0] - 1) > 1e-6:
            print(f"{key}: score {before[0]:.6g} -> {row[0]:.6g}, {row[0] / before[0] - 1:+.2e}")
    for shape in SHAPES:
        own = [key for key in rows if key.split("/")[1].removesuffix(" near") == shape]
        for name, part in (("before", old), ("after", rows)):
            held = [part[key] for key in own if key in part] or [[0.0, 0.0, 0]]
            seconds = [row[3] for row in held if len(row) > 3]
            told = f"median {np.median(seconds):.2f} worst {max(seconds):.2f} s" if seconds else ""
            print(f"{shape:18} {name:7} {sum(row[2] for row in held):6} boxes {told}")


if __name__ == "__main__":
    made = table(sys.argv[3].split(",")) if len(sys.argv) > 3 else table()
    Path(sys.argv[1]).write_text(json.dumps(made, indent=0), encoding="utf-8")
    if len(sys.argv) > 2:
        compare(made, json.loads(Path(sys.argv[2]).read_text(encoding="utf-8")))
