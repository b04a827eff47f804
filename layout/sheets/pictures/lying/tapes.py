"""The drawn tapes, and the letters of the corners beside them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from math import ceil

from ....drawing import layers
from ....drawing.lettering import text_box
from ....drawing.scene import Anchor, Stroke, Text
from ....geometry import Path, Point
from ....units import MM_PER_INCH, Tape
from ....words.saw_lines import Round
from .parts import (
    BODY,
    CORNER,
    MARK,
    OFF,
    OUT,
    LyingPicture,
)


def draw_tape(picture: LyingPicture, each: Round, side: str, edge: float) -> None:
    """Draw a tape with its hook at the first point of the datum, ticked by the tape's own unit."""
    box, frame, tape = picture.box, picture.frame, picture.plan.job.tape
    level = side == "lower"
    out = OUT[side]
    hook = frame.at(each.datum.start)
    start = hook.x if level else hook.y
    ends = (box.left, box.right) if level else (box.bottom, box.top)
    end = ends[1] if abs(ends[1] - start) > abs(ends[0] - start) else ends[0]
    far = edge + (out.x + out.y) * (OFF + BODY)
    near = edge + (out.x + out.y) * OFF

    def at(along: float, across: float) -> Point:
        return Point(along, across) if level else Point(across, along)

    body = Path.through((at(start, near), at(end, near), at(end, far), at(start, far)), closed=True)
    ticks = [*_ticks(tape, frame.scale, start, end, near, far)]
    picture.add(
        layers.THIN, Stroke(body), *(Stroke(Path.through((at(*a), at(*b)))) for a, b in ticks)
    )
    bar = Path.through((at(start, edge), at(start, far + (far - near) * 0.4)))
    picture.add(layers.BENCH_HOOK, Stroke(bar))
    if len(each.datum.first.name) > 1 or each.datum.first.name in "PQ":
        way = -1 if end > start else 1
        if level:
            anchor: Anchor = "end" if way < 0 else "start"
            words = Text(
                Point(start + way * 1.2, far), each.datum.first.name, MARK, anchor, bold=True
            )
            met = [b for b in picture.corners if min(b.shared(text_box(words))) > 0]
            for letter in met:  # of a corner at the same end: farther out
                x = (letter.left if way < 0 else letter.right) + way
                words = replace(words, at=Point(x, far))
            picture.add(layers.LETTERING, words)
            picture.setter.keep_clear(text_box(words))


def _ticks(
    tape: Tape, scale: float, start: float, end: float, near: float, far: float
) -> Iterator[tuple[tuple[float, float], tuple[float, float]]]:
    """Yield a tick each 100 mm or 4 in short of the end, a long one each fifth."""
    step = (4 * MM_PER_INCH if tape.imperial else 100.0) / scale
    way = 1.0 if end > start else -1.0
    for i in range(1, ceil(abs(end - start) / step - 1e-6)):  # the end is the body's own line
        x = start + way * i * step
        yield (x, near), (x, far if i % 5 == 0 else near + (far - near) * 0.45)


def corner_letters(picture: LyingPicture) -> None:
    """Write the letters of the corners: over or under the panel, those between inside it."""
    box, setter = picture.box, picture.setter
    datum = picture.plan.datum
    for corner in (corner for corner in datum.corners if corner.name in datum.places):
        at = picture.frame.at(corner.point)
        right, up = at.x > box.middle.x, at.y > box.middle.y
        x, y = at.x + (1.3 if right else -1.3), at.y + (2.0 if up else -CORNER - 1.3)
        anchor: Anchor = "start" if right else "end"
        words = Text(Point(x, y), corner.name, CORNER, anchor, bold=True)
        letter = text_box(words).grown(0.4)
        outside = letter.bottom > box.top or letter.top < box.bottom
        if outside and all(min(letter.shared(other)) <= 0 for other in picture.corners):
            picture.corners.append(letter)
            picture.add(layers.LETTERING, words)
        else:
            inside = Text(at, corner.name, CORNER, bold=True, halo=0.7)
            picture.add(layers.LETTERING, *setter.set(inside, towards=box.middle - at, off=1.0))
