"""How a panel looks: what a defect is drawn as, and a small picture of it for a notebook."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..drawing import layers
from ..drawing.scene import Layer
from ..drawing.svg import glance
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


def panel_svg(panel: Panel) -> str:
    """Return the face of a panel, its cut-outs and its defects as an SVG document."""
    defects = [(layer_of(defect), defect.place, ()) for defect in panel.defects]
    cut_outs = [(layers.CUT_OUT, path, ()) for path in panel.cut_outs]
    face = (layers.WOOD, panel.boundary, panel.cut_outs)
    return glance(repr(panel), [face, *cut_outs, *defects])
