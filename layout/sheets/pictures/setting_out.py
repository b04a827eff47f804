"""The drawing of whether a panel is square."""

from __future__ import annotations

from ...drawing import layers
from ...drawing.scene import Scene
from ...geometry.point import Point
from ...marking.panel_check import RightTriangle, SquareCheck
from ...plan.plan import Plan
from .ground import Wood


def square_scene(plan: Plan) -> Scene:
    """Return how the panel is tried for being square: by its corners, or by 3, 4 and 5."""
    wood = Wood.found(plan, mirrored=False)
    stage = wood.stage()
    wood.base(stage)
    check = plan.check
    lines: list[tuple[Point, Point, str]] = []
    for square in check.squares:
        lines += _square_lines(wood, square)
    if not check.squares and check.triangle is not None:
        lines += _triangle_lines(wood, check.triangle)
    for start, end, _ in lines:
        stage.line(layers.CHECKS, start, end)
    for start, end, words in lines:
        stage.figure_along(layers.CHECKS, start, end, words)
    wood.letters(stage)
    return stage.scene("Is it square?")


def _square_lines(wood: Wood, square: SquareCheck) -> list[tuple[Point, Point, str]]:
    corners = {corner.name: corner.point for corner in wood.datum.corners}
    at, along, across = (corners[n] for n in (square.corner, square.along_to, square.across_to))
    figures = (square.across, square.found.square_diagonal)
    ends = ((at, across), (along, across))
    return [(a, b, wood.tape.figure(f)) for (a, b), f in zip(ends, figures, strict=True)]


def _triangle_lines(wood: Wood, three: RightTriangle) -> list[tuple[Point, Point, str]]:
    datum, tape = wood.datum, wood.tape
    start = datum.held.point
    sides = (Point(three.along, 0.0), Point(0.0, three.across))
    along, up = (start + side.turned(datum.frame.turn) for side in sides)
    return [
        (start, along, tape.figure(three.along)),
        (start, up, tape.figure(three.across)),
        (along, up, tape.figure(three.diagonal)),
    ]
