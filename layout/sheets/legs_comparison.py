"""The comparison sheet: each choice of legs drawn small, with what it means under it."""

from __future__ import annotations

import math
from collections.abc import Iterator

from ..drawing import layers
from ..drawing.kit.labels import LabelSetter
from ..drawing.kit.picture import ROW, DrawingFrame, Stage, legend
from ..drawing.scene import Group, Item, Scene, Stroke, Text, fitted_height, paragraph
from ..geometry import Bounds, Path, Point, Region
from ..legs.room import under_feet
from ..plan.job import Job
from ..plan.standing import Comparison
from ..words.leg_concerns import CAUTION, Choice, choices, held_words
from ..words.say import outline_words
from .pictures.ground import draw_centrelines

WIDE = 420.0  # width of the sheet, mm: A3, landscape; it grows downwards with the number of choices

BORDER, GAP, COLUMNS = 10.0, 8.0, 3
HEAD, FOOT = 20.0, 26.0

_SEAT = 5.0  # how far outside the edge a place to sit is drawn, paper mm
_LINE = 4.4  # from one line of figures to the next, paper mm


def comparison_scene(job: Job, found: Comparison) -> Scene:
    """Return the sheet, show face up: three choices in a row."""
    held = choices(found, job.tape)
    wide = (WIDE - 2 * BORDER - (COLUMNS - 1) * GAP) / COLUMNS
    reach = _reach(found)
    scale = max(2 * reach.x / (wide - 5 * _SEAT), 2 * reach.y / 80.0)
    card = 2 * reach.y / scale + 4 * _SEAT + _LINE * (len(held[0].figures) + 5) + 6
    rows = -(-len(held) // COLUMNS)
    sheet = Bounds(0.0, 0.0, WIDE, 2 * BORDER + HEAD + FOOT + rows * (card + GAP) - GAP)
    groups: list[Group] = []
    words: list[Item] = []
    for i, choice in enumerate(held):
        row, column = divmod(i, COLUMNS)
        left = BORDER + column * (wide + GAP)
        top = sheet.top - BORDER - HEAD - row * (card + GAP)
        room = Bounds(left, top - card, left + wide, top)
        middle = Point(room.middle.x, top - 7 - 2 * _SEAT - reach.y / scale)
        stage = Stage(DrawingFrame(sheet, scale, middle), LabelSetter(room))
        _draw(job, found, choice, stage)
        groups += stage.groups
        words += _told(choice, room, middle.y - reach.y / scale - 2 * _SEAT - 5)
    used = list(dict.fromkeys(group.layer for group in groups))
    samples = Bounds(BORDER, BORDER, WIDE - BORDER, BORDER + FOOT - 11)
    foot = legend(used, samples, columns=-(-len(used) // int(14 // ROW)))
    told = (
        f"Compared for: {held_words(found, job.tape)}. Seen from above, show face UP; drawn 1 : "
        f"{scale:.3g}."
    )
    title = f"Legs for {job.name}: {outline_words(found.top.outline, job.tape)}"
    head = (
        Text(Point(BORDER, sheet.top - BORDER - 5), title, 5.0, bold=True),
        Text(Point(BORDER, sheet.top - BORDER - 12), told, 3.5),
        Text(Point(BORDER, BORDER + FOOT - 8), CAUTION, 2.5),
    )
    lettering = Group(layers.LETTERING, (*head, *words))
    return Scene(f"{job.name}: legs compared", sheet, (*groups, lettering, *foot))


def _reach(found: Comparison) -> Point:
    """Return how far anything drawn lies from the middle of the top, mm."""
    outline = found.top.outline
    ends = [Point(outline.length / 2, outline.width / 2)]
    for proposal in filter(None, (found.own, *found.proposals)):
        half = max(proposal.wish.foot.length, proposal.wish.foot.width) / 2
        for leg in proposal.legs.legs:
            ends.append(Point(abs(leg.floor.x) + half, abs(leg.floor.y) + half))
    box = Bounds.around(ends)
    return Point(box.right, box.top)


def _told(choice: Choice, room: Bounds, y: float) -> Iterator[Item]:
    """Yield a card: its edge, its title, from a height on its figures, what stands against it."""
    yield Stroke(Path.round_box(room))
    yield Text(Point(room.left + 3, room.top - 6), choice.heading, 3.5, bold=True)
    for name, figure in choice.figures:
        yield Text(Point(room.left + 3, y), name, 2.5)
        height = fitted_height(figure, 2.5, room.width / 2 - 4, bold=True)
        yield Text(Point(room.right - 3, y), figure, height, "end", bold=True)
        y -= _LINE
    for words in choice.warnings:
        for text in paragraph(Point(room.left + 3, y + 1.0), words, room.width - 6, 2.5):
            yield text
            y = text.at.y
        y -= 3.0


def _draw(job: Job, found: Comparison, choice: Choice, stage: Stage) -> None:
    """Draw the top from above with legs, feet, seats, and the place where it tips first."""
    outline, proposal = found.top.outline, choice.proposal
    legs, wish, path = proposal.legs, proposal.wish, outline.path()
    own, inside = found.top.placement.inverse, outline.bounds
    stage.region(layers.WOOD, Region.of(path))
    for place in (defect.place.placed(own) for defect in under_feet(job.panel)):
        at = place.bounds.middle
        if abs(at.x) < inside.right and abs(at.y) < inside.top:
            stage.area(layers.DEFECT_BEARING, place)
    draw_centrelines(stage, outline)
    stage.path(layers.FINISH, path)
    stage.path(layers.TIPPING, Path.through(legs.feet, closed=True))
    stage.area(layers.LEGS, *(wish.foot.outside(leg.middle) for leg in legs.legs))
    if wish.splay:
        stage.path(layers.FEET, *(wish.foot.outside(leg.floor) for leg in legs.legs))
    if math.isfinite(legs.weakest.force):
        stage.cross(layers.PRESSED, legs.weakest.place, arm=2.0)
    for seat in proposal.seating.seats if wish.seats else ():
        ahead = Point.polar(1.0, seat.towards)
        centre = seat.place - ahead * (_SEAT * 0.6 * stage.frame.scale)
        half = ahead.left * (job.table.place / 2 * 0.85)
        stage.line(layers.SEATS, centre + half, centre - half)
