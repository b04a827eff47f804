"""What the full-size template of a plan shows, in the frame of the top."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from string import ascii_lowercase

from ..cutting.plan import CutPlan
from ..geometry import Path, Point
from ..geometry.symmetry import is_symmetric
from ..geometry.tolerance import SAME_PLACE
from ..marking.mark import Kind
from ..marking.marks import MarkSet
from ..template.content import MarkSign, TemplateContent, TemplateMark
from ..top import Top, runs_of
from ..top.runs import hollow_corners
from .job import Job
from .standing import Standing

_SIGNS: dict[Kind, MarkSign] = {Kind.CENTRE: "middle", Kind.ARC_CENTRE: "centre", Kind.NAIL: "nail"}
"""Marks that are more than a point of the outline."""


def template_content(
    job: Job, top: Top, cuts: CutPlan, marks: MarkSet, standing: Standing
) -> TemplateContent:
    """Return the template of a top, for the face that is asked for or else the one it is marked on.

    Parameters
    ----------
    cuts : CutPlan
        Its rough-cut line, and which face is marked.
    """
    own = top.placement.inverse
    feet = () if standing.legs is None else standing.legs.legs
    middles = [leg.middle for leg in feet]
    finish, rough = top.outline.path(), cuts.rough.placed(own)
    edges = tuple(edge.placed(own) for edge in top.kept)
    core = top.outline.parallel(-top.lipping) if top.lipping else None
    lines = [line for line in (finish, core, rough) if line is not None]
    pricked = [
        TemplateMark(mark.label, own(mark.point), *_drawn(mark.kind, marks))
        for mark in marks.marks
        if not mark.kind.is_on_panel_edge
    ]
    pricked += _leg_marks(standing)
    below, asked = cuts.face.mirrored, job.template.mirrored
    content = TemplateContent(
        title=job.name,
        finish=finish,
        core=core,
        rough=rough,
        marks=tuple(pricked),
        feet=tuple((leg.plate or leg.print).placed(own) for leg in feet),
        symmetric_x=_alike(lines, "x") and _mirrors(middles, lambda p: Point(-p.x, p.y)),
        symmetric_y=_alike(lines, "y") and _mirrors(middles, lambda p: Point(p.x, -p.y)),
        tape=job.tape,
        kept=runs_of(rough, edges).kept,
        unlined=runs_of(finish, edges).kept,
        below=below,
        hollows=hollow_corners(core or finish, job.tools.bit) if job.tools.router else (),
    )
    return content.from_underside() if (below if asked is None else asked) else content


def _alike(lines: Sequence[Path], axis: str) -> bool:
    """Return whether every line is its own mirror image, so that the paper can be flipped."""
    return all(is_symmetric(line, axis) for line in lines)


def _leg_marks(standing: Standing) -> list[TemplateMark]:
    """Return the middle of each leg, and the pilot holes of its screws as 1a, 1b, …."""
    table, legs = standing.table, standing.legs
    screw = None if table is None else table.screw
    marks: list[TemplateMark] = []
    for leg in () if legs is None else legs.legs:
        name, middle = f"leg {leg.number}", leg.middle
        if table is None or screw is None:
            marks.append(TemplateMark(name, middle))
            continue
        holes = [hole.place for hole in table.holes if hole.leg == leg.number]
        beside = [place for place in holes if place.distance_to(middle) > SAME_PLACE]
        drilled = (screw.pilot, "hole") if len(beside) < len(holes) else ()
        marks.append(TemplateMark(name, middle, *drilled))
        marks += [
            TemplateMark(f"{leg.number}{letter}", place, screw.pilot, "hole")
            for letter, place in zip(ascii_lowercase, beside, strict=False)
        ]
    return marks


def _drawn(kind: Kind, marks: MarkSet) -> tuple[float, MarkSign]:
    """Return the diameter that a mark is drawn with, and its sign; a nail has its own."""
    nail = marks.loop.nail if kind is Kind.NAIL and marks.loop else 0.0
    return nail, _SIGNS.get(kind, "point")


def _mirrors(middles: Sequence[Point], flip: Callable[[Point], Point]) -> bool:
    """Return whether the mirror image of every foot is a foot."""
    return all(
        min((flip(m).distance_to(other) for other in middles), default=math.inf) <= SAME_PLACE
        for m in middles
    )
