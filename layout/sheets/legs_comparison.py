"""The comparison sheet: each choice of legs drawn small, with what it means under it."""

from __future__ import annotations

import math
from collections.abc import Iterator

from ..drawing import layers
from ..drawing.kit.frame import DrawingFrame
from ..drawing.kit.legend import ROW, legend
from ..drawing.lettering import fitted_height, paragraph
from ..drawing.scene import Area, Group, Item, Mark, Scene, Stroke, Text
from ..geometry.bounds import Bounds
from ..geometry.path import Path
from ..geometry.point import Point
from ..legs.plan import under_feet
from ..plan.job import Job
from ..plan.standing import Comparison
from ..words.legs_compared import CAUTION, Choice, choices, held_words
from ..words.outline import outline_words

WIDE = 420.0
"""Width of the sheet, mm: A3, landscape; it grows downwards with the number of choices."""

BORDER, GAP, COLUMNS = 10.0, 8.0, 3
HEAD, FOOT = 20.0, 26.0

_SEAT = 5.0
"""How far outside the edge a place to sit is drawn, paper mm."""

_LINE = 4.4
"""From one line of figures to the next, paper mm."""


def comparison_scene(job: Job, found: Comparison) -> Scene:
    """Return the sheet, show face up: three choices in a row."""
    held = choices(found, job.tape)
    outline = found.top.outline
    wide = (WIDE - 2 * BORDER - (COLUMNS - 1) * GAP) / COLUMNS
    reach = _reach(found)
    scale = max(2 * reach.x / (wide - 5 * _SEAT), 2 * reach.y / 80.0)
    card = 2 * reach.y / scale + 4 * _SEAT + _LINE * (len(held[0].figures) + 5) + 6
    rows = -(-len(held) // COLUMNS)
    high = 2 * BORDER + HEAD + FOOT + rows * card + (rows - 1) * GAP
    groups: list[Group] = []
    for i, choice in enumerate(held):
        row, column = divmod(i, COLUMNS)
        left = BORDER + column * (wide + GAP)
        top = high - BORDER - HEAD - row * (card + GAP)
        room = Bounds(left, top - card, left + wide, top)
        groups += _card(job, found, choice, room, scale)
    words = (
        f"Legs for {job.name}: {outline_words(outline, job.tape)}",
        f"Compared for: {held_words(found, job.tape)}. Seen from above, show face UP; drawn 1 : "
        f"{scale:.3g}.",
    )
    head = Group(
        layers.LETTERING,
        (
            Text(Point(BORDER, high - BORDER - 5), words[0], 5.0, bold=True),
            Text(Point(BORDER, high - BORDER - 12), words[1], 3.5),
        ),
    )
    groups = [group for group in groups if group.items]
    groups.sort(key=lambda group: group.layer is layers.LETTERING)
    used = list(dict.fromkeys(g.layer for g in groups if g.layer is not layers.LETTERING))
    samples = Bounds(BORDER, BORDER, WIDE - BORDER, BORDER + FOOT - 11)
    foot = legend(used, samples, layers.LETTERING, columns=-(-len(used) // int(14 // ROW)))
    return Scene(
        f"{job.name}: legs compared",
        Bounds(0.0, 0.0, WIDE, high),
        (head, *groups, *foot, _caution(BORDER + FOOT - 8)),
    )


def _caution(y: float) -> Group:
    return Group(layers.LETTERING, (Text(Point(BORDER, y), CAUTION, 2.5),))


def _reach(found: Comparison) -> Point:
    """Return how far anything drawn lies from the middle of the top, mm."""
    outline = found.top.outline
    x, y = outline.length / 2, outline.width / 2
    own = () if found.own is None else (found.own,)
    for proposal in (*own, *found.proposals):
        half = max(proposal.wish.foot.length, proposal.wish.foot.width) / 2
        x = max(x, *(abs(leg.floor.x) + half for leg in proposal.legs.legs))
        y = max(y, *(abs(leg.floor.y) + half for leg in proposal.legs.legs))
    return Point(x, y)


def _card(
    job: Job, found: Comparison, choice: Choice, room: Bounds, scale: float
) -> Iterator[Group]:
    """Yield one choice: its title, its drawing, its figures, what stands against it."""
    drawing = (2 * _reach(found).y) / scale
    middle = Point(room.middle.x, room.top - 7 - 2 * _SEAT - drawing / 2)
    yield Group(layers.LETTERING, (Stroke(Path.round_box(room)),))
    title = Text(Point(room.left + 3, room.top - 6), _title(choice), 3.5, bold=True)
    yield Group(layers.LETTERING, (title,))
    yield from _drawn(job, found, choice, DrawingFrame(room, scale, middle, room, room))
    yield Group(
        layers.LETTERING, tuple(_told(choice, room, middle.y - drawing / 2 - 2 * _SEAT - 5))
    )


def _title(choice: Choice) -> str:
    count, _, about = choice.title.partition(", ")
    return f"{count} legs" + {"": "", "best": ": the best of those compared",
                              "as it is": ": as the job has them"}[about]  # fmt: skip


def _told(choice: Choice, room: Bounds, y: float) -> Iterator[Item]:
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


def _drawn(job: Job, found: Comparison, choice: Choice, frame: DrawingFrame) -> Iterator[Group]:
    """Yield the top from above with legs, feet, seats, and the place where it tips first."""
    outline, proposal = found.top.outline, choice.proposal
    legs = proposal.legs
    yield Group(layers.WOOD, (Area(frame.of(outline.path()), edged=False),))
    yield from _spoilt(job, found, frame)
    ends = (Point(outline.length / 2, 0.0), Point(0.0, outline.width / 2))
    cross = tuple(Stroke(Path.through((frame.at(-end), frame.at(end)))) for end in ends)
    yield Group(layers.CENTRELINE, cross)
    yield Group(layers.FINISH, (Stroke(frame.of(outline.path())),))
    polygon = Path.through([frame.at(foot) for foot in legs.feet], closed=True)
    yield Group(layers.TIPPING, (Stroke(polygon),))
    wish = proposal.wish
    feet = tuple(Area(frame.of(wish.foot.outside(leg.middle))) for leg in legs.legs)
    yield Group(layers.LEGS, feet)
    if wish.splay:
        floor = tuple(Stroke(frame.of(wish.foot.outside(leg.floor))) for leg in legs.legs)
        yield Group(layers.FEET, floor)
    if math.isfinite(legs.weakest.force):
        yield Group(layers.PRESSED, (Mark(frame.at(legs.weakest.place), arm=2.0),))
    half = job.table.place / 2 / frame.scale * 0.85
    seats = []
    for seat in proposal.seating.seats if wish.seated else ():
        ahead = Point.polar(1.0, seat.towards)
        centre = frame.at(seat.place) + ahead * -(_SEAT * 0.6)
        seats.append(
            Stroke(Path.through((centre + ahead.left * half, centre + ahead.left * -half)))
        )
    yield Group(layers.SEATS, tuple(seats))


def _spoilt(job: Job, found: Comparison, frame: DrawingFrame) -> Iterator[Group]:
    """Yield the defects under the top that no foot may stand on."""
    own = found.top.placement.inverse
    spoilt = under_feet(job.panel)
    inside = found.top.outline.bounds
    areas = []
    for defect in spoilt:
        path = defect.place.placed(own)
        b = path.bounds
        if abs(b.middle.x) < inside.right and abs(b.middle.y) < inside.top:
            areas.append(Area(frame.of(path)))
    yield Group(layers.DEFECT_BEARING, tuple(areas))
