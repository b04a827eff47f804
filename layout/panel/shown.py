"""How a panel looks: what a defect is drawn as, and a small picture of it for a notebook."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from ..drawing import layers
from ..drawing.scene import Layer
from ..drawing.svg import glance
from ..geometry import Path, Region
from ..geometry.tolerance import SAME_PLACE
from .defect import Defect, Spoils

if TYPE_CHECKING:
    from .panel import Panel


def layer_of(defect: Defect) -> Layer:
    """Return the layer of a defect: that of the gravest thing that it spoils when it is mended."""
    if not defect.spoils:
        return layers.NOTED
    if defect.shows:
        return layers.DEFECT_SHOWING
    if Spoils.CUTTING in defect.spoils:
        return layers.DEFECT_CUTTING
    return layers.DEFECT_BEARING if Spoils.BEARING in defect.spoils else layers.MENDS


def drawn_defects(panel: Panel) -> Iterator[tuple[Defect, tuple[Path, ...]]]:
    """Yield each defect with what of it lies on its panel: exact where it runs over no edge."""
    face = Region.of(panel.boundary, "outside")
    about = face.grown(SAME_PLACE)
    for defect in panel.defects:
        if about.holds(defect.extent):
            yield defect, (defect.place,)
        else:
            pieces = defect.extent.meet(face).pieces
            yield defect, tuple(Path.through_ring(piece.exterior) for piece in pieces)


def panel_svg(panel: Panel) -> str:
    """Return the face of a panel, its cut-outs and its defects as an SVG document."""
    drawn = drawn_defects(panel)
    defects = [(layer_of(defect), path, ()) for defect, paths in drawn for path in paths]
    cut_outs = [(layers.CUT_OUT, path, ()) for path in panel.cut_outs]
    face = (layers.WOOD, panel.boundary, panel.cut_outs)
    return glance(repr(panel), [face, *cut_outs, *defects])
