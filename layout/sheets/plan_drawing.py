"""`plan.svg`: everything on the panel, to scale, with a title and a legend."""

from __future__ import annotations

from ..drawing import layers
from ..drawing.kit.frame import BORDER, DrawingFrame
from ..drawing.kit.labels import LabelSetter
from ..drawing.kit.legend import LETTERS, ROW, legend
from ..drawing.kit.picture import Stage
from ..drawing.scene import Group, Layer, Scene, Stroke, Text
from ..geometry.bounds import Bounds
from ..geometry.path import Path
from ..geometry.point import Point
from ..plan.plan import Plan
from ..template.paper import A3
from .panel_drawing import draw_panel, name_panel
from .title import size_words, title_items
from .top_drawing import draw_top, name_top

TITLE_WIDTH = 150.0
"""Width of the title block at most, paper mm; the legend has the rest."""

_COLUMN = 58.0
"""Width of a column of the legend at least, paper mm: the longest title with its sample."""

_TITLE_HEIGHT = 46.0
"""Height of the title block, paper mm."""


def plan_scene(plan: Plan, *, mirrored: bool = False) -> Scene:
    """Return the drawing of the panel with the top, its marks, cuts, legs and offcuts on it.

    Parameters
    ----------
    mirrored : bool
        Draw it as seen from the underside, for work done face down.
    """
    frame = plan_frame(plan, mirrored=mirrored)
    stage = Stage(frame, LabelSetter(frame.room), letters=LETTERS)
    draw_panel(plan, stage)
    draw_top(plan, stage)
    name_top(plan, stage)
    name_panel(plan, stage)
    used = list(dict.fromkeys(g.layer for g in stage.groups if g.layer is not layers.LETTERING))
    return Scene(
        f"{plan.job.name}: {size_words(plan)}{', MIRRORED' if mirrored else ''}",
        frame.sheet,
        (*stage.groups, *_foot(plan, frame, used)),
    )


def plan_frame(plan: Plan, *, mirrored: bool = False) -> DrawingFrame:
    """Return how the panel lies on the paper that the job names, on its side; a roll is as A3."""
    paper = A3 if plan.job.template.paper.roll else plan.job.template.paper
    sheet = Bounds(0.0, 0.0, paper.length, paper.width)
    foot = 4.0 + max(_TITLE_HEIGHT, 6.0 + _MOST_LAYERS / _columns(sheet) * ROW)
    return DrawingFrame.for_panel(plan.job.panel.boundary.bounds, sheet, foot, mirrored=mirrored)


_MOST_LAYERS = 20
"""Layers that a plan draws, at most."""


def _title_width(sheet: Bounds) -> float:
    return min(TITLE_WIDTH, sheet.width * 0.48)


def _columns(sheet: Bounds) -> int:
    return int((sheet.width - 2 * BORDER - _title_width(sheet) - 8) // _COLUMN)


def _foot(plan: Plan, frame: DrawingFrame, used: list[Layer]) -> list[Group]:
    """Return the title block and the legend under the drawing."""
    room = frame.legend
    line = Path.through((Point(room.left, room.top), Point(room.right, room.top)))
    wide = _title_width(frame.sheet)
    title = Bounds(room.left, room.bottom, room.left + wide, room.top - 4)
    rest = Bounds(room.left + wide + 8, room.bottom, room.right, room.top - 4)
    heading = Text(Point(rest.left, rest.top - 3.5), "Legend", 3.5, bold=True)
    samples = Bounds(rest.left, rest.bottom, rest.right, rest.top - 6)
    return [
        Group(layers.LETTERING, (Stroke(line), heading, *title_items(plan, frame, title))),
        *legend(used, samples, layers.LETTERING, columns=_columns(frame.sheet)),
    ]
