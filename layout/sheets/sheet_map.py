"""The map of a printed template: which sheet lies where, and what runs across it."""

from __future__ import annotations

from collections.abc import Iterator

from ..drawing import layers
from ..drawing.kit.labels import LabelSetter
from ..drawing.lettering import text_box
from ..drawing.scene import Item, Layer, Stroke, Text
from ..geometry import Bounds, Path, Placement, Point
from ..geometry.window import clipped
from ..template.content import TemplateContent
from ..template.portions import Portion
from ..template.proposal import Proposal
from ..template.tiles import Tile
from .template_parts import FACE_MARK, cross_at, face_mark, line, strokes

Drawn = list[tuple[Layer, Item]]

_NAMES = 3.5
_IN_CELL = (
    (0.5, 0.5),
    (0.25, 0.75),
    (0.75, 0.75),
    (0.25, 0.25),
    (0.75, 0.25),
    (0.5, 0.75),
    (0.5, 0.25),
)
"""Where in its cell a sheet's name may stand."""


def sheet_map(content: TemplateContent, proposal: Proposal, box: Bounds) -> Drawn:
    """Return the sheets side by side with the outline, flip lines and corner crosses, to scale."""
    plan, portion = proposal.plan, proposal.portion
    whole, clear = plan.whole, FACE_MARK[0] + 4.0
    scale = min((box.width - 2 * clear) / whole.width, (box.height - 4) / whole.height)
    laid = Placement(box.middle - whole.middle * scale)

    def small(path: Path) -> Path:
        return path.scaled(scale).placed(laid)

    outline = [
        small(piece) for path in portion.outline(content.finish) for piece in clipped(path, whole)
    ]
    flips = [small(piece) for path in _flips(portion, whole) for piece in clipped(path, whole)]
    edges = [small(Path.round_box(tile.window)) for tile in plan.tiles]
    items: Drawn = [(layers.SHEET, Stroke(edge)) for edge in edges]
    items += [(layers.MAP_LINE, Stroke(path)) for path in outline]
    items += [(layers.CENTRELINE, Stroke(path)) for path in flips]
    spots = LabelSetter(box)
    for path in (*outline, *flips, *edges):
        spots.keep_clear_along(path, half=0.2, step=0.8)
    for cross in plan.corner_crosses:
        place = laid(cross.at * scale)
        items += [(layers.CHECK_BARS, item) for item in strokes(cross_at(place, 1.2))]
        spots.keep_clear(Bounds.about(place, 1.2))
        named = spots.set(Text(place, cross.name), off=1.5, within=True)
        items += [(layers.CHECK_BARS, item) for item in named]
    for tile in plan.tiles:
        text = spots.best(_names(tile, scale, laid))
        items += [(layers.LETTERING, text)] if text else []
    flag = Point(box.left, box.top - FACE_MARK[1])
    items += [(layers.LETTERING, i) for i in strokes(face_mark(flag, mirrored=content.mirrored))]
    return items


def _flips(portion: Portion, whole: Bounds) -> Iterator[Path]:
    if portion.flip_x:
        yield line(Point(0.0, whole.bottom), Point(0.0, whole.top))
    if portion.flip_y:
        yield line(Point(whole.left, 0.0), Point(whole.right, 0.0))


def _names(tile: Tile, scale: float, laid: Placement) -> Iterator[tuple[Text, Bounds]]:
    """Yield places for a sheet's name in its cell, as large as the cell allows."""
    cell = tile.cell
    height = min(_NAMES, cell.height * scale / 3, cell.width * scale / 4)
    for right, up in _IN_CELL:
        at = Point(cell.left + cell.width * right, cell.bottom + cell.height * up)
        middle = laid(at * scale) - Point(0.0, height / 2)
        text = Text(middle, tile.name, height, "middle", bold=True)
        yield text, text_box(text)
