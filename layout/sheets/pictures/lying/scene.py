"""The drawing as a whole, and what stands inside it: marks, letters of defects, the radius.

Two drawn tapes carry all figures, hooked at the first point of the datum: one along it, one square
from it. Every saw line runs out over a tape to its label.
"""

from __future__ import annotations

import math
from dataclasses import replace

from ....cutting.cut import StraightCut
from ....cutting.sawn import extent_of, line_of
from ....drawing import layers
from ....drawing.kit.labels import LabelSetter, points_along
from ....drawing.kit.picture import DrawingFrame
from ....drawing.scene import Area, Mark, Scene, Stroke, Text, line, text_box
from ....geometry import ORIGIN, Bounds, Path, Point, Region, at_most
from ....marking.instruments import Swing
from ....marking.mark import Kind
from ....panel.shown import drawn_defects
from ....plan.plan import Plan
from ....words.first_page import drawn_marks, letters_of
from ....words.saw_lines import Lying, Round
from .lanes import draw_lanes
from .picture import BEND, BODY, FREE, LANE, NAME, OFF, WIDTH, LyingPicture

_RADIUS_FROM = 12.0  # a radius is drawn where it is so long on paper, mm
NAMED_FROM = 80.0  # a narrower picture has lines and their starts alone


def lying_scene(
    plan: Plan,
    lying: Lying,
    rounds: tuple[Round, ...],
    *,
    tallest: float,
    width: float = WIDTH,
    plain: bool = False,
) -> Scene:
    """Return the drawing, at most `tallest` high, paper mm; `plain` without tapes and figures."""

    def begun(room: float) -> LyingPicture:
        """Return the empty picture, its panel as large as the width and so much height allow."""
        seen = DrawingFrame(Bounds(0.0, 0.0, 1.0, 1.0), 1.0, ORIGIN, lying.mirrored, lying.turn)
        extent = seen.of(plan.job.panel.boundary).bounds
        tape_side = FREE if plain else (36.5 if plan.job.tape.imperial else 23.5)
        below = 11.0 if plain else 1.0 + len(rounds) * (BODY + OFF + LANE + BEND + 0.5)
        wide, high = width - tape_side - FREE, room - 10.0 - below
        scale = max(extent.width / wide, extent.height / high)
        left = tape_side if lying.hand == "left" else FREE
        spare = wide - extent.width / scale
        corner = Point(left + spare / 2, 0.0) - Point(extent.left, extent.bottom) * (1 / scale)
        frame = replace(seen, sheet=Bounds(0.0, -200.0, width, 400.0), scale=scale, corner=corner)
        box = frame.of(plan.job.panel.boundary).bounds
        return LyingPicture(
            frame, LabelSetter(box), plan=plan, lying=lying, rounds=rounds, box=box, plain=plain
        )

    picture, room = begun(tallest), tallest
    scene = _drawn(picture)
    for _ in range(2):  # leaders that need no room leave it to the panel
        left = tallest - scene.frame.height
        room += left
        larger = begun(room)
        if at_most(left, 0.0) or larger.frame == picture.frame:
            break
        picture, drawn = larger, _drawn(larger)
        if scene.frame.height < drawn.frame.height and at_most(drawn.frame.height, tallest):
            scene = drawn
    return scene


def _drawn(picture: LyingPicture) -> Scene:
    plan, frame = picture.plan, picture.frame
    panel = plan.job.panel
    # what falls, what is wrong with it, its edges and cut-outs
    waste = panel.region().minus(Region.of(plan.cuts.finish, "outside"))
    picture.region(layers.BENCH_FALLS, waste)
    for _, paths in drawn_defects(panel.boundary, panel.defects):
        picture.add(layers.BENCH_DEFECT, *(Area(frame.of(path)) for path in paths))
    picture.add(layers.PAPER, *(Area(frame.of(hole), edged=False) for hole in panel.cut_outs))
    picture.region(layers.BENCH_PANEL, panel.region(), edged=True)
    _lines(picture)
    low = draw_lanes(picture)
    draw_inside(picture)
    extent = Bounds(0.0, low, frame.sheet.width, picture.box.top + 10.0)
    return Scene(f"The panel as it lies: {plan.job.name}", extent, tuple(picture.groups))


def _lines(picture: LyingPicture) -> None:
    """Draw the finished edge, the core where it shows, centrelines, saw lines and guides."""
    plan, frame = picture.plan, picture.frame
    cuts, held = plan.cuts, picture.rounds[-1].marks or plan.marks
    for kind in (Kind.CENTRELINE, Kind.CROSS_CENTRELINE):
        ends = [frame.at(mark.point) for mark in held.of(kind)]
        if len(ends) == 2:  # names may stand on it
            picture.add(layers.BENCH_CENTRE, line(*ends))
    if plan.top.lipping / frame.scale > 0.8:
        picture.path(layers.BENCH_CORE, *cuts.drawn(cuts.core))
    finish = [frame.of(path) for path in cuts.drawn(cuts.finish)]
    picture.add(layers.BENCH_FINISH, *(Stroke(path) for path in finish))
    for x, y in points_along(finish, step=1.2):  # no words on it at all
        picture.setter.keep_clear(Bounds.about(Point(x, y), 0.9))
    shown = [saw.cut for each in picture.rounds for saw in each.lines]
    shown += [cut for each in picture.rounds for corner in each.corners for cut in corner.cuts]
    wood = plan.job.panel.region()
    for cut in (*plan.cuts.trims, *plan.cuts.corner_cuts):
        if cut in shown:
            picture.line(layers.BENCH_SAW, cut.start.point, cut.end.point)
            _guide(picture, cut, wood)
        sawn = line_of(cut)
        if not sawn.stops:
            wood = wood.minus(sawn.beyond(extent_of(wood)))


def _guide(picture: LyingPicture, cut: StraightCut, wood: Region) -> None:
    """Draw a bar at both ends of a guide, on the wood that is left when its line is sawn."""
    guide = cut.guide
    spans = () if guide is None else wood.chord(guide.start.point, guide.end.point)
    if not spans:
        return
    one, other = picture.frame.at(spans[0][0]), picture.frame.at(spans[-1][1])
    along = (other - one).unit() * 6.0
    bars = line(one, one + along), line(other - along, other)
    picture.add(layers.BENCH_GUIDE, *bars)
    for bar in bars:
        picture.setter.keep_clear_along(bar.path, half=0.8, step=1.5)


def draw_inside(picture: LyingPicture) -> None:
    """Write what stands inside: names of marks, letters of defects, numbers of corner cuts."""
    plan, frame, setter = picture.plan, picture.frame, picture.setter
    if picture.frame.sheet.width < NAMED_FROM:
        return
    held = picture.rounds[-1].marks
    marks = () if held is None else drawn_marks(plan, held)
    for mark in marks:
        at = frame.at(mark.point)
        picture.add(layers.BENCH_MARK, Mark(at, arm=1.6))
        setter.keep_clear(Bounds.about(at, 1.7))
    for corner in (corner for each in picture.rounds for corner in each.corners):
        for cut in corner.cuts:
            _corner_ring(picture, cut, corner.number)
    if not picture.plain:
        _radius(picture)
    for mark in marks if not picture.plain else marks[:1]:  # bound to their places: first
        at = frame.at(mark.point)
        inwards = frame.at(plan.top.placement.centre) - at
        label = Text(at, mark.label, NAME, bold=True, halo=0.7)
        for item in setter.set(label, towards=inwards):
            picture.add(layers.LETTERING if isinstance(item, Text) else layers.THIN, item)
    letters = letters_of(plan)
    for defect in (defect for defect in plan.job.panel.defects if defect.name in letters):
        middle, leader = setter.boxed(frame.at(defect.place.bounds.middle), half=2.1)
        box = Path.round_box(Bounds.about(middle, 2.1))
        picture.add(layers.PAPER, Area(box, edged=False))
        picture.add(layers.BENCH_MARK, Stroke(box))
        if leader is not None:
            picture.add(layers.THIN, Stroke(leader))
        foot = middle + Point(0.0, -1.3)
        picture.add(layers.LETTERING, Text(foot, letters[defect.name], 2.7, "middle", bold=True))


def _radius(picture: LyingPicture) -> None:
    """Draw the radius that a curve is swung with, where it has room on the page."""
    plan, frame = picture.plan, picture.frame
    figures = plan.methods[0].figures if plan.methods else None
    if not isinstance(figures, Swing) or figures.radius / frame.scale < _RADIUS_FROM:
        return
    own, place = figures.centres[0], plan.top.placement
    words = f"R {plan.job.tape.figure(figures.radius)}"
    out = own.unit() if own.norm > 0 else Point(1.0, 0.0)
    start = frame.at(place(own))
    offers = []
    for turn in (40, -40, 65, -65, 25, -25):
        end = frame.at(place(own + out.turned(math.radians(turn)) * figures.radius))
        at = start + (end - start) * 0.55 - Point(0.0, NAME / 2)
        text = Text(at, words, NAME, "middle", bold=True, halo=0.9)
        box = text_box(text).grown(0.4)
        if picture.setter.is_free(box):
            offers.append(((end, text), box))
    chosen = picture.off_defects().best(offers, within=False)
    if chosen is not None:  # else the table has it
        end, text = chosen
        picture.thin(start, end)
        picture.add(layers.LETTERING, text)
        picture.setter.keep_clear(text_box(text))


def _corner_ring(picture: LyingPicture, cut: StraightCut, number: int) -> None:
    """Draw the number of a corner cut in the triangle that falls, or beside it."""
    frame = picture.frame
    middle = frame.at(cut.start.point.midpoint(cut.end.point))
    out = frame.way(cut.waste)
    offered = (
        middle + out * reach + out.left * aside
        for reach in (3.4, 2.9, 4.5, -3.6, 6.0, -5.0, 8.0, -8.0, -11.0)
        for aside in (0.0, 2.5, -2.5, 5.0, -5.0, 8.0, -8.0)
    )
    boxes = ((place, Bounds.about(place, 2.4)) for place in offered)
    chosen = picture.off_defects().best(boxes, within=False)
    assert chosen is not None
    picture.ring(chosen, number, radius=2.2)
