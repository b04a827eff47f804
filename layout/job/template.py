"""What the full-size template of a plan shows, in the frame of the top."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

from ..geometry.path import Path
from ..geometry.placement import Placement
from ..geometry.point import Point
from ..legs.plan import LegsPlan
from ..marking.mark import Kind
from ..marking.marks import MarkSet
from ..outlines import RoundedRectangle
from ..template.content import TemplateContent, TemplateMark
from ..units import Tape
from .top import Top

_ON_THE_PANEL = (Kind.CENTRELINE, Kind.CROSS_CENTRELINE)
"""Marks at the edge of the old panel: off the template."""

_ALIKE = 0.01
"""Feet nearer than this to the mirror image of another are its mirror image, mm."""


def template_content(
    name: str, top: Top, rough: Path, marks: MarkSet, legs: LegsPlan | None, tape: Tape
) -> TemplateContent:
    """Return the template of a top.

    Parameters
    ----------
    rough : Path
        The rough-cut line on the panel.
    """
    own = Placement(-top.placement.centre.turned(-top.placement.turn), -top.placement.turn)
    feet = () if legs is None else legs.legs
    middles = [leg.middle for leg in feet]
    round_alike = not isinstance(top.outline, RoundedRectangle) or len(set(top.outline.radii)) == 1
    pricked = [
        TemplateMark(mark.label, own(mark.point))
        for mark in marks.marks
        if mark.kind not in _ON_THE_PANEL
    ]
    pricked += [TemplateMark(f"leg {leg.number}", leg.middle) for leg in feet]
    return TemplateContent(
        title=name,
        finish=top.outline.path(),
        core=top.outline.parallel(-top.lipping) if top.lipping else None,
        rough=rough.placed(own),
        marks=tuple(pricked),
        feet=tuple(leg.print.placed(own) for leg in feet),
        symmetric_x=round_alike and _mirrors(middles, lambda p: Point(-p.x, p.y)),
        symmetric_y=round_alike and _mirrors(middles, lambda p: Point(p.x, -p.y)),
        tape=tape,
    )


def _mirrors(middles: Sequence[Point], flip: Callable[[Point], Point]) -> bool:
    """Return whether the mirror image of every foot is a foot."""
    return all(
        min((flip(m).distance_to(other) for other in middles), default=math.inf) <= _ALIKE
        for m in middles
    )
