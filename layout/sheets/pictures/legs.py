"""The legs: on the underside with what holds them, and choices of them side by side on a sheet."""

from __future__ import annotations

import math
from collections.abc import Iterator

from ...drawing import layers
from ...drawing.kit.labels import LabelSetter
from ...drawing.kit.picture import ROW, DrawingFrame, Stage, legend
from ...drawing.scene import Group, Item, Scene, Stroke, Text, fitted_height, paragraph
from ...geometry import Bounds, Path, Placement, Point, Region
from ...geometry.tolerance import SAME_WAY
from ...legs.plan import LegsPlan
from ...legs.room import under_feet
from ...panel import Kind
from ...panel.frame import frame_of
from ...plan.job import Job
from ...plan.plan import Plan
from ...plan.standing import Comparison
from ...words.datum import directions_of
from ...words.leg_concerns import CAUTION, Choice, choices, held_words
from ...words.legs import in_quarters
from ...words.say import outline_words
from .ground import draw_centrelines

WIDE = 420.0  # width of the sheet, mm: A3, landscape; it grows downwards with the number of choices
BORDER, GAP, COLUMNS = 10.0, 8.0, 3
HEAD, FOOT = 20.0, 26.0
_SEAT = 5.0  # how far outside the edge a place to sit is drawn, paper mm
_LINE = 4.4  # from one line of figures to the next, paper mm
QUARTERS = 51.0  # width of the small drawing of the first page, paper mm


def quarters_scene(plan: Plan) -> Scene | None:
    """Return the legs seen from below with O and the centrelines; numbered if quarters differ."""
    if plan.legs is None:
        return None
    # as the top lies, its length across the page: what is at the left stays there
    level = Placement(turn=math.pi if math.cos(plan.top.placement.turn) < -SAME_WAY else 0.0)
    top = plan.top.outline.path().placed(level).mirrored()
    stage = Stage.around(top.bounds, width=QUARTERS, tallest=22.0)
    stage.path(layers.BENCH_FINISH, top, clear=True)
    draw_centrelines(stage, plan.top.outline, layer=layers.BENCH_CENTRE)
    numbered = not in_quarters(plan, plan.legs)
    for leg in plan.legs.legs:
        own = leg.print.placed(plan.top.placement.inverse).placed(level).mirrored()
        is_small = own.bounds.width < 2 * stage.frame.scale
        stage.area(layers.INK if is_small else layers.BENCH_SAW, own)
        place = level(leg.middle)
        middle = Point(-place.x, place.y)
        stage.cross(layers.BENCH_SAW, middle, arm=1.2)
        if numbered:
            stage.label(layers.LETTERING, middle, f"{leg.number}", bold=True, towards=middle)
    stage.label(layers.LETTERING, Point(0, 0), "O", bold=True)
    return stage.scene("The legs, seen from below")


def draw_legs(plan: Plan, stage: Stage, *, arm: float) -> None:
    """Draw legs with their plates and screw holes, and feet that stand elsewhere."""
    legs = () if plan.legs is None else plan.legs.legs
    for leg in legs:
        stage.area(layers.LEGS, leg.print, holes=() if leg.hollow is None else (leg.hollow,))
        stage.cross(layers.LEGS, leg.on_panel, arm=arm)
        if leg.plate is not None:
            stage.path(layers.PLATES, leg.plate, clear=True)
        if leg.floor_print is not None:
            stage.path(layers.FEET, leg.floor_print, clear=True)
    middles = {leg.on_panel for leg in legs}
    holes = () if plan.table is None else plan.table.holes
    drilled = (hole.on_panel for hole in holes if hole.on_panel not in middles)
    stage.cross(layers.SCREWS, *drilled, arm=arm / 2)


def legs_scene(plan: Plan, legs: LegsPlan) -> Scene:
    """Return the legs on the underside of the finished top, with screws and plates."""
    extent = plan.cuts.finish.bounds
    for leg in legs.legs:
        if leg.floor_print is not None:
            extent = extent.joined(leg.floor_print.bounds)
    stage = Stage.around(extent, mirrored=True, heading="seen from below")
    _ground(plan, stage)
    draw_legs(plan, stage, arm=1.0)
    for leg in legs.legs:
        inwards = plan.top.placement.centre - leg.on_panel
        stage.label(layers.LEGS, leg.on_panel, f"{leg.number}", bold=True, towards=inwards)
    return stage.scene("The legs, seen from below")


def battens_scene(plan: Plan) -> Scene | None:
    """Return the battens with their screws, measured from the centrelines; None without any."""
    if plan.table is None or plan.legs is None or not plan.table.battens:
        return None
    place = plan.top.placement
    stage = Stage.around(plan.cuts.finish.bounds, mirrored=True, heading="seen from below")
    _ground(plan, stage)
    for leg in plan.legs.legs:
        stage.path(layers.GHOST, leg.plate or leg.print, clear=True)
    for batten in plan.table.battens:
        stage.path(layers.SECTION, batten.print, clear=True)
        stage.cross(layers.SCREWS, *(place(screw) for screw in batten.screws))
    for number, batten in enumerate(plan.table.battens, start=1):
        end = place(batten.screws[2])
        stage.label(layers.SECTION, end, f"{number}", towards=end - place.centre)
    return stage.scene("Battens across the grain, seen from below")


def _ground(plan: Plan, stage: Stage) -> None:
    """Draw the finished top, the thin panels in it, its centrelines with their names, a bevel."""
    place, frame = plan.top.placement, frame_of(plan.job.panel)
    if frame is not None and plan.job.panel.build.kind is Kind.FRAMED:
        stage.region(layers.DEFECT_BEARING, Region.of(plan.cuts.finish).minus(frame), edged=True)
    stage.path(layers.FINISH, plan.cuts.finish, clear=True)
    draw_centrelines(stage, plan.top.outline, place)
    if plan.profile.bevel_line is not None:
        stage.path(layers.GONE, plan.profile.bevel_line, clear=True)
    places = {mark.label: mark.point for mark in plan.marks.marks}
    ways = directions_of(plan.top, plan.datum, plan.marks.marks)
    for name in ("O", *sorted({*ways.along, *ways.across})):
        if name in places:
            at = places[name]
            stage.label(layers.MARKS, at, name, towards=at - place.centre, bold=True)


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
        _draw_choice(job, found, choice, stage)
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


def _draw_choice(job: Job, found: Comparison, choice: Choice, stage: Stage) -> None:
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
