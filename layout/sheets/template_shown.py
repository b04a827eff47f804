"""What of a template a portion shows, worked out once for all its sheets."""

from __future__ import annotations

from dataclasses import dataclass

from ..drawing import layers
from ..drawing.kit.labels import points_along
from ..drawing.scene import Layer, mark_lines
from ..geometry import Bounds, Path, Points
from ..geometry.window import Cutter, clipped
from ..template.content import TemplateContent, TemplateMark
from ..template.portions import Portion
from ..template.proposal import Proposal
from ..template.tiles import CornerCross
from .template_drawing import lines_of
from .template_parts import drawn_mark, joint_ticks


@dataclass(frozen=True, slots=True)
class Shown:
    """Lines, marks and points of a portion, template mm."""

    content: TemplateContent
    portion: Portion
    lines: tuple[tuple[Layer, Cutter, Bounds], ...]
    """Each line, ready to be cut to sheets, with its layer and its box."""
    marks: tuple[TemplateMark, ...]
    """With the names of all that they stand for."""
    points: Points
    """(n, 2) array: points along all the lines, for words to keep clear of."""
    box: Bounds
    """Of the whole template."""
    crosses: tuple[CornerCross, ...]

    @classmethod
    def of(cls, content: TemplateContent, proposal: Proposal) -> Shown:
        """Return what a proposal's portion shows."""
        portion, box = proposal.portion, content.bounds
        lines: list[tuple[Layer, Path]] = []
        for layer, path in lines_of(content, box):
            if layer == layers.LEGS or (layer == layers.KEPT and portion.name == "curves"):
                continue  # feet are cut below; a kept edge is on the panel itself
            outline = layer != layers.CENTRELINE
            pieces = portion.outline(path) if outline else clipped(path, portion.window)
            lines += [(layer, piece) for piece in pieces]
        lines += [(layers.LEGS, piece) for piece in portion.feet(content)]
        marks = portion.marks(content)
        ticks = joint_ticks(content.finish)
        lines += [(layers.MARKS, tick) for path in ticks for tick in clipped(path, portion.window)]
        lines += [(layers.MARKS, path) for m in marks for path in mark_lines(drawn_mark(m))]
        boxed = tuple((layer, Cutter.of(path), path.bounds) for layer, path in lines)
        points = points_along((path for _, path in lines), step=1.5)
        crosses = proposal.plan.corner_crosses
        return cls(content, portion, boxed, marks, points, box, crosses)
