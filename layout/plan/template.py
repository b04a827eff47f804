"""What the full-size template of a plan shows, in the frame of the top."""

from __future__ import annotations

from collections.abc import Sequence
from string import ascii_lowercase

from ..cutting.plan import CutPlan
from ..drawing.scene import Sign
from ..geometry import Path, Point
from ..geometry.symmetry import is_symmetric
from ..geometry.tolerance import SAME_PLACE
from ..marking.mark import Kind
from ..marking.marks import MarkSet
from ..template.content import TemplateContent, TemplateMark
from ..top import Top, runs_of
from ..top.runs import hollow_corners
from .job import Job
from .standing import Standing

_SIGNS: dict[Kind, Sign] = {Kind.CENTRE: "middle", Kind.ARC_CENTRE: "centre", Kind.NAIL: "nail"}
"""Marks that are more than a point of the outline."""


def template_content(
    job: Job, top: Top, cuts: CutPlan, marks: MarkSet, standing: Standing
) -> TemplateContent:
    """Return the template of a top, for the face that is asked for, or else that of its cuts."""
    own = top.placement.inverse
    feet = () if standing.legs is None else standing.legs.legs
    middles = [leg.middle for leg in feet]
    finish, rough = top.outline.path(), cuts.rough.placed(own)
    edges = tuple(edge.placed(own) for edge in top.kept)
    core = top.outline.parallel(-top.lipping) if top.lipping else None
    lines = [line for line in (finish, core, rough) if line is not None]
    nail = marks.loop.nail if marks.loop else 0.0
    pricked = []
    for mark in marks.marks:
        if not mark.kind.is_on_panel_edge:
            wide, sign = nail if mark.kind is Kind.NAIL else 0.0, _SIGNS.get(mark.kind, "point")
            pricked.append(TemplateMark(mark.label, own(mark.point), wide, sign))
    pricked += _leg_marks(standing)
    below, asked = cuts.face.mirrored, job.template.mirrored
    content = TemplateContent(
        title=job.name,
        finish=finish,
        core=core,
        rough=rough,
        marks=tuple(pricked),
        feet=tuple((leg.plate or leg.print).placed(own) for leg in feet),
        symmetric_x=_mirrors(lines, "x", middles, [Point(-p.x, p.y) for p in middles]),
        symmetric_y=_mirrors(lines, "y", middles, [Point(p.x, -p.y) for p in middles]),
        tape=job.tape,
        kept=runs_of(rough, edges).kept,
        unlined=runs_of(finish, edges).kept,
        below=below,
        hollows=hollow_corners(core or finish, job.tools.bit) if job.tools.router else (),
    )
    return content.from_underside() if (below if asked is None else asked) else content


def _mirrors(
    lines: Sequence[Path], axis: str, feet: Sequence[Point], flipped: Sequence[Point]
) -> bool:
    """Return whether every line is its own mirror image, and every foot has one."""
    return all(is_symmetric(line, axis) for line in lines) and all(
        min(foot.distance_to(other) for other in feet) <= SAME_PLACE for foot in flipped
    )


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
