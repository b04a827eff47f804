"""Drawings of what a top touches, and of the other places where it could lie."""

from __future__ import annotations

from ...drawing import layers
from ...drawing.kit.labels import LabelSetter
from ...drawing.kit.picture import DrawingFrame, Stage
from ...drawing.scene import Area, Group, Scene, Text
from ...fit.found import Fit
from ...geometry import Bounds, Point, circle
from ...plan.plan import Plan
from ...words.say import exact_words
from ...words.why import loss_words, turn_words
from .ground import Wood

BEHIND_WIDTH, BEHIND_TALLEST = 116.0, 60.0
"""Of a drawing behind the work, and of what it shows, paper mm."""

_DOT = 1.1
"""Radius of a dot where the top touches, paper mm."""


def contacts_scene(plan: Plan) -> Scene:
    """Return the top in its place, with a numbered dot wherever something holds it."""
    wood = Wood.found(plan, mirrored=False)
    stage = wood.stage(defects=True, width=BEHIND_WIDTH, tallest=BEHIND_TALLEST)
    stage.path(layers.GHOST, plan.fit.core.path().placed(plan.fit.placement), clear=True)
    for contact in plan.contacts:
        if contact.points[0] != contact.points[-1]:  # nor all the way round
            stage.line(layers.CONTACTS, *contact.points)
        for point in contact.points:
            at = stage.frame.at(point)
            stage.add(layers.CONTACTS, Area(circle(at, _DOT)))
            stage.setter.keep_clear(Bounds.about(at, _DOT))
    for number, contact in enumerate(plan.contacts, 1):
        way = plan.fit.placement.centre - contact.middle
        stage.label(layers.CONTACTS, contact.middle, f"{number}", towards=way, bold=True)
    wood.letters(stage)
    return stage.scene("What holds the top")


_COLUMNS = 2
_GAP = 4.0
"""Between two small pictures, paper mm."""

_WORDS, _ROW = 2.5, 4.2
"""Height of their lettering, and from one line of it to the next, paper mm."""

_TALLEST = 60.0
"""Height that a panel has in a small picture at most, paper mm."""


def others_scene(plan: Plan) -> Scene:
    """Return small pictures of the panel: with the top as planned, and with each alternative."""
    fits = (plan.fit, *plan.others)
    wood = Wood.found(plan, mirrored=False)
    extent = wood.boundary.bounds
    wide = (BEHIND_WIDTH - 2 - (_COLUMNS - 1) * _GAP) / _COLUMNS
    scale = max(extent.width / wide, extent.height / _TALLEST)
    high = extent.height / scale + 2 * _ROW + _GAP
    rows = -(-len(fits) // _COLUMNS)
    sheet = Bounds(0.0, 0.0, BEHIND_WIDTH, rows * high + 1)
    groups: list[Group] = []
    for i, fit in enumerate(fits):
        row, column = divmod(i, _COLUMNS)
        left, top = 1 + column * (wide + _GAP), sheet.top - 1 - row * high
        cell = Bounds(left, top - high + _GAP, left + wide, top)
        foot = Point(cell.middle.x, cell.bottom)
        corner = foot - Point(extent.middle.x, extent.bottom) * (1 / scale)
        stage = Stage(DrawingFrame(cell, scale, corner), LabelSetter(cell))
        wood.draw(stage, defects=True)
        stage.path(layers.FINISH, fit.outline.path().placed(fit.placement))
        for k, words in enumerate(_two_lines(plan, fit, i + 1)):
            at = Point(left, top - _WORDS - k * _ROW)
            stage.add(layers.LETTERING, Text(at, words, _WORDS, bold=k == 0))
        groups += stage.groups
    return Scene("Other places for the top", sheet, tuple(groups))


def _two_lines(plan: Plan, fit: Fit, rank: int) -> tuple[str, str]:
    size = f"{rank}: {exact_words(fit.outline, plan.job.tape)}"
    if fit is plan.fit:
        return size, "as planned"
    loss = loss_words(fit, plan.fit, plan.job.wish.goal, plan.job.tape)
    return size, ", ".join(filter(None, (loss, turn_words(fit, plan.fit))))
