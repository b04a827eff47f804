"""What stands inside the drawing: names of marks, letters of defects, the radius."""

from __future__ import annotations

import math

from ....cutting.cut import StraightCut
from ....drawing import layers
from ....drawing.lettering import text_box
from ....drawing.scene import Area, Mark, Stroke, Text
from ....geometry import Bounds, Path, Point
from ....geometry.alike import first_of_best
from ....geometry.tolerance import ROUNDING
from ....marking.mark import Mark as PlacedMark
from ....marking.string_loop import Swing
from ....words.first_page import drawn_marks
from ....words.lying import letters_of
from .parts import NAME, NAMED_FROM, LyingPicture, ring


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
        _named(picture, mark)
    letters = letters_of(plan)
    for defect in plan.job.panel.defects:
        if defect.name in letters:
            _boxed(picture, frame.at(defect.place.bounds.middle), letters[defect.name])


def _named(picture: LyingPicture, mark: PlacedMark) -> None:
    frame = picture.frame
    at = frame.at(mark.point)
    inwards = frame.at(picture.plan.top.placement.centre) - at
    label = Text(at, mark.label, NAME, bold=True, halo=0.7)
    for item in picture.setter.set(label, towards=inwards):
        picture.add(layers.LETTERING if isinstance(item, Text) else layers.THIN, item)


def _radius(picture: LyingPicture) -> None:
    """Draw the radius that a curve is swung with, where it has room on the page."""
    plan, frame = picture.plan, picture.frame
    figures = plan.methods[0].figures if plan.methods else None
    if not isinstance(figures, Swing) or figures.radius / frame.scale < _RADIUS_FROM:
        return
    own = figures.centres[0]
    place = plan.top.placement
    words = f"R {plan.job.tape.figure(figures.radius)}"
    out = own.unit() if own.norm > 0 else Point(1.0, 0.0)
    start = frame.at(place(own))
    offered = []
    for turn in (40, -40, 65, -65, 25, -25):
        end = frame.at(place(own + out.turned(math.radians(turn)) * figures.radius))
        at = start + (end - start) * 0.55 - Point(0.0, NAME / 2)
        text = Text(at, words, NAME, "middle", bold=True, halo=0.9)
        spoilt = sum(
            max(0.0, min(text_box(text).shared(frame.of(defect.place).bounds)))
            for defect in plan.job.panel.defects
        )
        offered.append((picture.setter.cost(text_box(text).grown(0.4)) + spoilt, end, text))
    _, end, text = first_of_best(offered, lambda offer: -offer[0], tolerance=ROUNDING)
    if not picture.setter.is_free(text_box(text).grown(0.4)):
        return  # the table has it
    picture.add(layers.THIN, Stroke(Path.through((start, end))))
    picture.add(layers.LETTERING, text)
    picture.setter.keep_clear(text_box(text))


_RADIUS_FROM = 12.0
"""A radius is drawn where it is so long on paper, mm."""


def _corner_ring(picture: LyingPicture, cut: StraightCut, number: int) -> None:
    """Draw the number of a corner cut in the triangle that falls, or beside it."""
    frame = picture.frame
    middle = frame.at(cut.start.point.midpoint(cut.end.point))
    out = frame.way(cut.waste)
    offered = [
        middle + out * reach + out.left * aside
        for reach in (3.4, 2.9, 4.5, -3.6, 6.0, -5.0, 8.0, -8.0, -11.0)
        for aside in (0.0, 2.5, -2.5, 5.0, -5.0, 8.0, -8.0)
    ]
    at = first_of_best(
        offered,
        lambda place: -picture.setter.cost(Bounds.about(place, 2.4)),
        tolerance=ROUNDING,
    )
    ring(picture, at, number, radius=2.2)


def _boxed(picture: LyingPicture, at: Point, letter: str) -> None:
    """Write a letter in a box on a defect, or beside it with a leader."""
    middle, leader = picture.setter.boxed(at, half=2.1)
    picture.add(layers.PAPER, Area(Path.round_box(Bounds.about(middle, 2.1)), edged=False))
    picture.add(layers.BENCH_MARK, Stroke(Path.round_box(Bounds.about(middle, 2.1))))
    if leader is not None:
        picture.add(layers.THIN, Stroke(leader))
    text = Text(middle + Point(0.0, -1.3), letter, 2.7, "middle", bold=True)
    picture.add(layers.LETTERING, text)
