"""How true the template's sheets are as poppler draws them: run by hand where `pdftoppm` is.

Writes the sheets of a top 2 m long, has them drawn at 600 dpi, and prints how far the middle of the
ink lies from the finish line, sheet by sheet, at its worst. The tests do the same with pdfium.
"""

from __future__ import annotations

import math
import subprocess
import sys
import tempfile
from dataclasses import replace
from pathlib import Path as FilePath

import numpy as np
from numpy.typing import NDArray
from PIL import Image

from panelwright.layout.drawing import layers
from panelwright.layout.drawing.pdf import to_pdf
from panelwright.layout.geometry.point import Point
from panelwright.layout.outlines import Oval
from panelwright.layout.sheets.folder import template_pages
from panelwright.layout.template.content import TemplateContent
from panelwright.layout.template.paper import A4
from panelwright.layout.template.portions import proposed
from panelwright.layout.template.wish import TemplateWish

DPI = 600
REACH = 1.2
"""How far to either side of the line ink is looked for, mm."""


def offset(dark: NDArray[np.float64], at: Point, normal: float) -> float:
    """Return how far the ink's middle lies from a point along a normal, mm."""
    pixel = 25.4 / DPI
    row, column = dark.shape[0] - at.y / pixel, at.x / pixel
    half = int((REACH + 1.0) / pixel)
    top, left = max(0, int(row) - half), max(0, int(column) - half)
    cut = dark[top : int(row) + half, left : int(column) + half]
    ys, xs = np.mgrid[: cut.shape[0], : cut.shape[1]]
    dx, dy = (xs + left + 0.5 - column) * pixel, (row - (ys + top + 0.5)) * pixel
    along = dx * math.cos(normal) + dy * math.sin(normal)
    across = -dx * math.sin(normal) + dy * math.cos(normal)
    weight = cut * (np.abs(along) <= REACH) * (np.abs(across) <= 0.4)
    return float((weight * along).sum() / weight.sum())


def main() -> None:
    """Print the worst offset of each sheet."""
    content = TemplateContent("Corridor door oval", Oval(2000, 900).path())
    proposal = proposed(content, TemplateWish(A4, portion="whole"))
    sheets = [s for s in template_pages(content, proposal) if s.title.startswith("Sheet ")]
    bare = [
        replace(s, groups=tuple(g for g in s.groups if g.layer == layers.FINISH)) for s in sheets
    ]
    worst = 0.0
    with tempfile.TemporaryDirectory() as folder:
        path = FilePath(folder) / "sheets.pdf"
        path.write_bytes(to_pdf(bare, "sheets"))
        command = ["pdftoppm", "-r", str(DPI), "-gray", str(path), str(FilePath(folder) / "s")]
        subprocess.run(command, check=True)
        drawn = sorted(FilePath(folder).glob("s-*.pgm"))
        for image, scene in zip(drawn, sheets, strict=True):
            tile = proposal.plan.tiles[int(scene.title.split(",")[0].removeprefix("Sheet ")) - 1]
            shift, window = proposal.plan.shift(tile), tile.window.grown(-3.0)
            dark = 255.0 - np.asarray(Image.open(image), dtype=np.float64)
            found = []
            for segment in content.finish.segments:
                for k in range(400):
                    at, ahead = segment.at(k / 400), segment.at(k / 400 + 1e-5)
                    if window.holds(at):
                        normal = (ahead - at).angle - math.pi / 2
                        found.append(abs(offset(dark, at + shift, normal)))
            if found:
                print(f"{tile.name}: {max(found):.4f} mm over {len(found)} places")
                worst = max(worst, *found)
    print(f"worst of {len(sheets)} sheets: {worst:.4f} mm")


if __name__ == "__main__":
    sys.exit(main())
