"""What the drawing of the first page is made of: its measures, rings, triangles, thin lines."""

from __future__ import annotations

from dataclasses import dataclass, field

from ....drawing import layers
from ....drawing.kit.picture import Stage
from ....drawing.scene import Area, Stroke, Text
from ....geometry import Bounds, Path, Point, circle
from ....plan.plan import Plan
from ....words.lying import Lying
from ....words.saw_lines import Round

WIDTH = 190.0
"""Of the picture, paper mm: A4 between margins of 10."""

RING = 2.7
"""Radius of the ring round the number of a saw line, paper mm."""

SAW, MARK, NAME, CORNER = 3.8, 3.3, 3.0, 5.0
"""Heights of capitals: figures of saw lines and of marks, names of marks, letters of corners."""

BODY, OFF = 2.0, 1.2
"""How wide a drawn tape is, and how far it lies off the wood, paper mm."""

GAP = 2.2
"""Between two labels of a lane, paper mm."""

FREE = 9.2
"""Kept on the sides that have no tape, paper mm."""

LANE, BEND = 8.6, 3.0
"""From the foot of a tape to that of its labels, and what leaders to labels that stand aside have
more, paper mm."""

ROW = 6.2
"""From one row of labels to the next, paper mm."""

TRIANGLE = 2.4

NAMED_FROM = 80.0
"""A narrower picture has lines and their starts alone."""


OUT = {"upper": Point(0, 1), "lower": Point(0, -1), "left": Point(-1, 0), "right": Point(1, 0)}


@dataclass(slots=True, kw_only=True)
class LyingPicture(Stage):
    """What the drawing holds so far."""

    plan: Plan
    lying: Lying
    rounds: tuple[Round, ...]
    box: Bounds
    """Of the panel, paper mm."""
    plain: bool
    """Whether it has names only: no tapes, no figures."""
    corners: list[Bounds] = field(default_factory=list)
    """Where the letters of corners stand, paper mm."""


def triangle(picture: LyingPicture, tip: Point, way: Point) -> None:
    """Draw the triangle that points the way the saw is pushed."""
    back = tip - way * TRIANGLE
    half = way.left * (TRIANGLE * 0.5)
    picture.add(layers.INK, Area(Path.through((tip, back + half, back - half), closed=True)))


def ring(picture: LyingPicture, at: Point, number: int, radius: float = RING) -> None:
    """Draw a ring with its number."""
    height = 2.5 if radius < RING else 3.0
    picture.add(layers.PAPER, Area(circle(at, radius), edged=False))
    picture.add(layers.BENCH_MARK, Stroke(circle(at, radius)))
    number_text = Text(at + Point(0.0, -height / 2), f"{number}", height, "middle", bold=True)
    picture.add(layers.LETTERING, number_text)
    picture.setter.keep_clear(Bounds.about(at, radius))
