"""Independent readers of written files, for tests that measure what a file really holds."""

from __future__ import annotations

import io
import math
import shutil
import subprocess
from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import pairwise
from pathlib import Path as FilePath

import numpy as np
import pikepdf
import pypdfium2
from numpy.typing import NDArray
from scipy.spatial import cKDTree

from panelwright.layout.drawing.scene import Item, Layer, Scene
from panelwright.layout.geometry.path import Path, four_quarters
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.segments import Arc, EllipticArc, Line, Segment
from panelwright.layout.marking.arcs import EightCentreOval, FourCentreOval

MM_PER_POINT = 25.4 / 72


def on(scene: Scene, layer: Layer) -> tuple[Item, ...]:
    """Return every item of a layer, in order."""
    return tuple(item for group in scene.groups if group.layer == layer for item in group.items)


@dataclass
class Drawn:
    """One path of a PDF page as its operators tell it, mm from the page's lower left corner."""

    layer: str
    width: float
    pieces: list[NDArray[np.float64]] = field(default_factory=list)
    dashes: tuple[float, ...] = ()
    phase: float = 0.0

    def points(self, per_piece: int = 9) -> NDArray[np.float64]:
        """Return points along all lines and cubics."""
        shares = np.linspace(0, 1, per_piece)[:, None]
        held = []
        for corners in self.pieces:
            run = corners
            if len(corners) == 2:
                held.append(run[0] + (run[1] - run[0]) * shares)
            else:
                a, b, c, d = run
                held.append(
                    a * (1 - shares) ** 3
                    + 3 * b * shares * (1 - shares) ** 2
                    + 3 * c * shares**2 * (1 - shares)
                    + d * shares**3
                )
        return np.concatenate(held)


def drawn_on(data: bytes, number: int) -> list[Drawn]:
    """Return the paths of a page, each with the title of its layer."""
    with pikepdf.open(io.BytesIO(data)) as pdf:
        page = pdf.pages[number]
        titles = {str(key): str(group.Name) for key, group in page.Resources.Properties.items()}
        return list(_paths(page, titles))


_NUMERIC = {"cm", "w", "m", "l", "c"}


def _paths(page: pikepdf.Page, titles: dict[str, str]) -> Iterator[Drawn]:
    matrix: NDArray[np.float64] = np.eye(3)
    stack: list[tuple[NDArray[np.float64], float, tuple[float, ...], float]] = []
    layer, width, dashes, phase = "", 1.0, (), 0.0
    at = start = np.zeros(2)
    current: list[NDArray[np.float64]] = []
    for operands, operator in pikepdf.parse_content_stream(page):
        name = str(operator)
        numbers = [float(o) for o in operands] if name in _NUMERIC else []
        if name == "q":
            stack.append((matrix.copy(), width, dashes, phase))
        elif name == "Q":
            matrix, width, dashes, phase = stack.pop()
        elif name == "cm":
            a, b, c, d, e, f = numbers
            matrix = np.array([[a, b, 0], [c, d, 0], [e, f, 1]]) @ matrix
        elif name == "w":
            width = numbers[0] * MM_PER_POINT
        elif name == "d":
            dashes = tuple(float(length) * MM_PER_POINT for length in operands[0])
            phase = float(operands[1]) * MM_PER_POINT
        elif name == "BDC":
            layer = titles[str(operands[1])]
        elif name == "EMC":
            layer = ""
        elif name in ("m", "l", "c"):
            given = np.array(numbers).reshape(-1, 2)
            moved = (np.column_stack([given, np.ones(len(given))]) @ matrix)[:, :2] * MM_PER_POINT
            if name == "m":
                at = start = moved[0]
            else:
                current.append(np.vstack([at, moved]))
                at = moved[-1]
        elif name == "h":
            if not np.allclose(at, start, atol=1e-9):
                current.append(np.vstack([at, start]))
            at = start
        elif name in ("S", "s", "f", "f*", "B", "B*", "b", "n"):
            if current:
                yield Drawn(layer, width, current, dashes, phase)
            current = []


def faults_in(data: bytes, folder: FilePath) -> list[str]:
    """Return what qpdf finds wrong with a PDF: as a library, and the program where there is one."""
    with pikepdf.open(io.BytesIO(data)) as pdf:
        found = [str(fault) for fault in pdf.check_pdf_syntax()]
    program = shutil.which("qpdf")
    if program is not None:
        path = folder / "checked.pdf"
        path.write_bytes(data)
        done = subprocess.run([program, "--check", path], capture_output=True, check=False)
        found += [done.stderr.decode()] if done.returncode else []
    return found


def off_path(points: NDArray[np.float64], path: Path) -> NDArray[np.float64]:
    """Return how far each point, (n, 2) mm, lies from a path."""
    return np.min([_off_segment(points, segment) for segment in path.segments], axis=0)


def _off_segment(points: NDArray[np.float64], segment: Segment) -> NDArray[np.float64]:
    if isinstance(segment, Line):
        return _off_chords(points, np.array([tuple(segment.start), tuple(segment.end)]))
    if isinstance(segment, EllipticArc):
        # chords of equal angle stay within a·step²/8 of the ellipse
        count = math.ceil(abs(segment.sweep) * math.sqrt(segment.half_length / 8e-5))
        chain = np.array([tuple(segment.at(k / count)) for k in range(count + 1)])
        _, near = cKDTree(chain).query(points)
        chains = (chain[max(0, k - 1) : k + 2] for k in near)
        return np.array([_off_chords(p[None], c)[0] for p, c in zip(points, chains, strict=True)])
    centre = np.array(tuple(segment.centre))
    off = points - centre
    ahead = (np.arctan2(off[:, 1], off[:, 0]) - segment.from_angle) * np.sign(segment.sweep)
    within = ahead % math.tau <= abs(segment.sweep)
    ends = np.array([tuple(segment.start), tuple(segment.end)])
    to_ends = np.min([np.hypot(*(points - end).T) for end in ends], axis=0)
    return np.where(within, np.abs(np.hypot(*off.T) - segment.radius), to_ends)


def _off_chords(points: NDArray[np.float64], chain: NDArray[np.float64]) -> NDArray[np.float64]:
    starts, ways = chain[:-1], np.diff(chain, axis=0)
    squares = np.maximum((ways**2).sum(axis=1), 1e-30)
    to = points[:, None] - starts
    shares = np.clip((to * ways).sum(axis=2) / squares, 0, 1)
    return np.sqrt(((to - ways * shares[..., None]) ** 2).sum(axis=2)).min(axis=1)


def shades(data: bytes, number: int, scale: float) -> NDArray[np.uint8]:
    """Return a page drawn by pdfium, (rows, columns), 0 black to 255 white."""
    page = pypdfium2.PdfDocument(data)[number]
    drawn = page.render(scale=scale, grayscale=True).to_numpy()
    return drawn.reshape(drawn.shape[0], drawn.shape[1])


class Raster:
    """A page of a PDF drawn by pdfium, looked at through small windows."""

    def __init__(self, data: bytes, dpi: float = 600) -> None:
        self.pdf = pypdfium2.PdfDocument(data)
        self.dpi = dpi

    def line_offset(
        self, number: int, at: tuple[float, float], normal: float, reach: float = 1.2
    ) -> float:
        """Return how far the ink's middle lies from a point along a normal, mm.

        Only ink within `reach` of the point along the normal, and within 0.4 mm across it, counts.

        Parameters
        ----------
        at : tuple of float
            Sheet mm from the lower left corner.
        normal : float
            Direction, radians.
        """
        page = self.pdf[number]
        scale = self.dpi / 72
        width, height = page.get_size()
        half = (reach + 1.0) / MM_PER_POINT
        x, y = at[0] / MM_PER_POINT, at[1] / MM_PER_POINT
        left, bottom = max(0.0, x - half), max(0.0, y - half)
        crop = (left, bottom, max(0.0, width - x - half), max(0.0, height - y - half))
        image = page.render(scale=scale, crop=crop, grayscale=True).to_numpy()
        dark = 255.0 - image.reshape(image.shape[0], image.shape[1])
        # pdfium fits the page into whole pixels, and cuts whole pixels off it
        pixels = math.ceil(width * scale), math.ceil(height * scale)
        cut_left, cut_top = math.ceil(crop[0] * scale), math.ceil(crop[3] * scale)
        columns = (np.arange(dark.shape[1]) + cut_left + 0.5) * width / pixels[0]
        rows = height - (np.arange(dark.shape[0]) + cut_top + 0.5) * height / pixels[1]
        dx, dy = np.meshgrid((columns - x) * MM_PER_POINT, (rows - y) * MM_PER_POINT)
        along = dx * math.cos(normal) + dy * math.sin(normal)
        across = -dx * math.sin(normal) + dy * math.cos(normal)
        weight = dark * (np.abs(along) <= reach) * (np.abs(across) <= 0.4)
        total = float(weight.sum())
        return float((weight * along).sum() / total) if total > 0 else math.inf


def drawn_by(oval: FourCentreOval | EightCentreOval) -> Path:
    """Return the line that the arcs of an oval draw, anticlockwise from the right end."""
    end, side = Point(oval.end_centre, 0.0), Point(0.0, -oval.side_centre)
    middles = [end, side]
    radii = [oval.end_radius, oval.side_radius]
    if isinstance(oval, EightCentreOval):
        middles.insert(1, oval.middle_centre)
        radii.insert(1, oval.middle_radius)
    joins = [0.0, *((one - other).angle for one, other in pairwise(middles)), math.pi / 2]
    arcs = zip(middles, radii, pairwise(joins), strict=True)
    return four_quarters([Arc(c, r, first, last - first) for c, r, (first, last) in arcs])
