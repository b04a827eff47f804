"""How a panel looks: what a defect is drawn as, and a small picture of it for a notebook."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..drawing import layers
from ..drawing.scene import Layer
from ..drawing.svg import glance
from ..geometry import Path, Region
from ..geometry.tolerance import SAME_PLACE
from .defect import Defect
from .defect_kinds import Spoils


def layer_of(defect: Defect) -> Layer:
    """Return the layer of a defect: that of the gravest thing that it spoils when it is mended."""
    if not defect.spoils:
        return layers.NOTED
    if defect.shows:
        return layers.DEFECT_SHOWING
    if Spoils.CUTTING in defect.spoils:
        return layers.DEFECT_CUTTING
    return layers.DEFECT_BEARING if Spoils.BEARING in defect.spoils else layers.MENDS


def drawn_defects(
    boundary: Path, defects: Sequence[Defect]
) -> Iterator[tuple[Defect, tuple[Path, ...]]]:
    """Yield each defect with what of it lies on its panel: exact where it runs over no edge."""
    face = Region.of(boundary, "outside")
    about = face.grown(SAME_PLACE)
    for defect in defects:
        if about.holds(defect.extent):
            yield defect, (defect.place,)
        else:
            pieces = defect.extent.meet(face).pieces
            yield defect, tuple(Path.through_ring(piece.exterior) for piece in pieces)


def face_svg(
    title: str, boundary: Path, cut_outs: Sequence[Path], defects: Sequence[Defect]
) -> str:
    """Return the face of a panel, its cut-outs and its defects as an SVG document."""
    drawn = drawn_defects(boundary, defects)
    spoilt = [(layer_of(defect), path, ()) for defect, paths in drawn for path in paths]
    holes = [(layers.CUT_OUT, path, ()) for path in cut_outs]
    return glance(title, [(layers.WOOD, boundary, cut_outs), *holes, *spoilt])
