"""`plan.svg`: everything on the panel, to scale, with a title and a legend."""

from __future__ import annotations

from collections.abc import Iterable

from ..drawing import layers
from ..drawing.kit.frame import BORDER, DrawingFrame
from ..drawing.kit.labels import LabelSetter
from ..drawing.kit.legend import ROW, legend
from ..drawing.scene import Area, Group, Item, Layer, Mark, Scene, Stroke, Text
from ..geometry.bounds import Bounds
from ..geometry.path import Path
from ..geometry.point import Point
from ..plan.plan import Plan
from ..template.paper import A3
from . import panel_drawing as old
from . import top_drawing as new
from .title import size_words, title_items

TITLE_WIDTH = 150.0
"""Width of the title block at most, paper mm; the legend has the rest."""

_COLUMN = 58.0
"""Width of a column of the legend at least, paper mm: the longest title with its sample."""

_TITLE_HEIGHT = 46.0
"""Height of the title block, paper mm."""

_ROUND_A_MARK = 3.0
"""Kept clear round a mark on every side, paper mm, so that its own label stands nearest."""


def plan_scene(plan: Plan, *, mirrored: bool = False) -> Scene:
    """Return the drawing of the panel with the top, its marks, cuts, legs and offcuts on it.

    Parameters
    ----------
    mirrored : bool
        Draw it as seen from the underside, for work done face down.
    """
    panel = plan.job.panel
    frame = plan_frame(plan, mirrored=mirrored)
    groups = [
        *old.face_groups(panel, frame),
        *new.waste_groups(plan, frame),
        *new.offcut_groups(plan, frame),
        *old.defect_groups(panel, frame),
        *old.edge_groups(panel, frame),
        *new.leg_groups(plan, frame),
        *new.cut_groups(plan.cuts, frame),
        *new.line_groups(plan.cuts, frame),
        *new.mark_groups(plan, frame),
    ]
    setter = _setter(groups, frame)
    if plan.datum.struck:
        ends = (frame.at(plan.datum.start), frame.at(plan.datum.end))
        setter.keep_clear_along(Path.through(ends))
    labels: tuple[tuple[Layer, Iterable[Item]], ...] = (
        (layers.MARKS, new.mark_labels(plan, frame, setter)),
        (layers.DIMENSIONS, old.datum_items(plan.datum, panel, frame, setter, plan.job.tape)),
        (layers.SAW_LINE, new.cut_labels(plan, frame, setter)),
        (layers.KEPT, new.kept_labels(plan.cuts, frame, setter)),
        (layers.LEGS, new.leg_labels(plan, frame, setter)),
        (layers.LETTERING, old.defect_labels(panel, frame, setter)),
        (layers.OFFCUTS, new.offcut_labels(plan, frame, setter)),
    )
    groups += [Group(layer, tuple(items)) for layer, items in labels]
    groups = [group for group in groups if group.items]
    used = list(dict.fromkeys(g.layer for g in groups if g.layer is not layers.LETTERING))
    return Scene(
        f"{plan.job.name}: {size_words(plan)}{', MIRRORED' if mirrored else ''}",
        frame.sheet,
        (*groups, *_foot(plan, frame, used)),
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


def _setter(groups: Iterable[Group], frame: DrawingFrame) -> LabelSetter:
    """Return a setter that knows every line that is drawn, so that no label lies on one."""
    setter = LabelSetter(frame.room)
    for group in groups:
        for item in group.items:
            if isinstance(item, Mark):
                setter.keep_clear(Bounds.about(item.at, _ROUND_A_MARK))
            elif isinstance(item, Stroke):
                setter.keep_clear_along(item.path)
            elif isinstance(item, Area) and item.edged:
                setter.keep_clear_along(item.boundary)
    return setter


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
