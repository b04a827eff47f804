"""The drawing as a whole.

Two drawn tapes carry all figures, hooked at the first point of the datum: one along it, one square
from it. Every saw line runs out over a tape to its label.
"""

from __future__ import annotations

from ....drawing import layers
from ....drawing.kit.frame import DrawingFrame
from ....drawing.kit.labels import LabelSetter, points_along
from ....drawing.scene import Area, Scene, Stroke
from ....geometry import Bounds, Path, Point, Region
from ....marking.mark import Kind
from ....plan.plan import Plan
from ....words.lying import Lying
from ....words.saw_lines import Round, SawLine
from .inside import draw_inside
from .lanes import draw_lanes
from .parts import BEND, BODY, FREE, LANE, OFF, WIDTH, LyingPicture


def lying_scene(
    plan: Plan,
    lying: Lying,
    rounds: tuple[Round, ...],
    *,
    tallest: float,
    width: float = WIDTH,
    plain: bool = False,
) -> Scene:
    """Return the drawing.

    Parameters
    ----------
    tallest : float
        Height that it may have at most, paper mm.
    width : float
        paper mm.
    plain : bool
        Leave tapes and figures out, for a narrow screen.
    """
    scene, room = _drawn(_begun(plan, lying, rounds, tallest, width, plain)), tallest
    for _ in range(2):  # leaders that need no room leave it to the panel
        room += tallest - scene.frame.height
        larger = _drawn(_begun(plan, lying, rounds, room, width, plain))
        if scene.frame.height < larger.frame.height <= tallest:
            scene = larger
    return scene


def _drawn(picture: LyingPicture) -> Scene:
    _wood(picture)
    _lines(picture)
    low = draw_lanes(picture)
    draw_inside(picture)
    frame = Bounds(0.0, low, picture.frame.sheet.width, picture.box.top + 10.0)
    title = f"The panel as it lies: {picture.plan.job.name}"
    return Scene(title, frame, tuple(picture.groups))


def _begun(
    plan: Plan, lying: Lying, rounds: tuple[Round, ...], tallest: float, width: float, plain: bool
) -> LyingPicture:
    """Return the empty picture, its panel as large as width and height allow."""
    seen = DrawingFrame(*_NOWHERE, lying.mirrored, lying.turn)
    extent = seen.of(plan.job.panel.boundary).bounds
    tape_side = FREE if plain else (36.5 if plan.job.tape.imperial else 23.5)
    below = 11.0 if plain else 1.0 + len(rounds) * (BODY + OFF + LANE + BEND + 0.5)
    wide, high = width - tape_side - FREE, tallest - 10.0 - below
    scale = max(extent.width / wide, extent.height / high)
    left = tape_side if lying.hand == "left" else FREE
    spare = wide - extent.width / scale
    corner = Point(left + spare / 2, 0.0) - Point(extent.left, extent.bottom) * (1 / scale)
    sheet = Bounds(0.0, -200.0, width, 400.0)
    frame = DrawingFrame(sheet, scale, corner, sheet, sheet, lying.mirrored, lying.turn)
    box = frame.of(plan.job.panel.boundary).bounds
    return LyingPicture(
        frame, LabelSetter(box), plan=plan, lying=lying, rounds=rounds, box=box, plain=plain
    )


_NO_SHEET = Bounds(0.0, 0.0, 1.0, 1.0)
_NOWHERE = (_NO_SHEET, 1.0, Point(0.0, 0.0), _NO_SHEET, _NO_SHEET)


def _wood(picture: LyingPicture) -> None:
    """Draw what falls, what is wrong with it, its edges and cut-outs."""
    plan, frame = picture.plan, picture.frame
    panel = plan.job.panel
    waste = panel.region().minus(Region.of(plan.cuts.finish, "outside"))
    picture.region(layers.BENCH_FALLS, waste)
    for defect in panel.defects:
        picture.add(layers.BENCH_DEFECT, Area(frame.of(defect.place)))
    picture.add(layers.PAPER, *(Area(frame.of(hole), edged=False) for hole in panel.cut_outs))
    picture.region(layers.BENCH_PANEL, panel.region(), edged=True)


def _lines(picture: LyingPicture) -> None:
    """Draw the finished edge, the core where it shows, centrelines, saw lines and guides."""
    plan, frame = picture.plan, picture.frame
    cuts = plan.cuts
    held = picture.rounds[-1].marks or plan.marks
    for kind in (Kind.CENTRELINE, Kind.CROSS_CENTRELINE):
        ends = [frame.at(mark.point) for mark in held.of(kind)]
        if len(ends) == 2:  # names may stand on it
            picture.add(layers.BENCH_CENTRE, Stroke(Path.through(ends)))
    if plan.top.lipping / frame.scale > 0.8:
        picture.path(layers.BENCH_CORE, *cuts.drawn(cuts.core))
    finish = [frame.of(path) for path in cuts.drawn(cuts.finish)]
    picture.add(layers.BENCH_FINISH, *(Stroke(path) for path in finish))
    for x, y in points_along(finish, step=1.2):  # no words on it at all
        picture.setter.keep_clear(Bounds.about(Point(x, y), 0.9))
    for each in picture.rounds:
        for line in each.lines:
            _saw_line(picture, line)
        for corner in each.corners:
            for cut in corner.cuts:
                picture.line(layers.BENCH_SAW, cut.start.point, cut.end.point)


def _saw_line(picture: LyingPicture, line: SawLine) -> None:
    """Draw a line, and its guide as a bar at both of its ends."""
    cut, frame = line.cut, picture.frame
    picture.line(layers.BENCH_SAW, cut.start.point, cut.end.point)
    if cut.guide is None:
        return
    one, other = frame.at(cut.guide.start.point), frame.at(cut.guide.end.point)
    along = (other - one).unit() * 6.0
    bars = (Path.through((one, one + along)), Path.through((other - along, other)))
    picture.add(layers.BENCH_GUIDE, *(Stroke(bar) for bar in bars))
    for bar in bars:
        picture.setter.keep_clear_along(bar, half=0.8, step=1.5)
