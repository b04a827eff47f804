"""The panel as it lies: what is drawn of a line stands on the wood that is left for it."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from kept import SAMPLES, plan_of
from readers import on

from panelwright.layout.drawing import layers
from panelwright.layout.drawing.kit.picture import DrawingFrame
from panelwright.layout.drawing.scene import Area, Scene, Stroke, Text, text_box
from panelwright.layout.geometry import ORIGIN, Arc, Path, Point, Region
from panelwright.layout.jobfile import read_job
from panelwright.layout.plan.plan import Plan, make_plan
from panelwright.layout.sheets.pictures.ground import offcuts_scene
from panelwright.layout.sheets.pictures.lying.scene import lying_scene
from panelwright.layout.words.saw_lines import lying_of, rounds_of

SCREWED = """
units = "mm"
[panel]
outline = { length = 1400, width = 600 }
thickness = 26
material = "oak"
[[panel.defects]]
name = "screw"
kind = "metal"
at = [1365, 565]
size = [44, 44]
[top]
shape = "capsule"
[tools]
guide_left = 115
"""


def _lying(plan: Plan) -> Scene:
    return lying_scene(plan, lying_of(plan), rounds_of(plan), tallest=90.0)


def _frame(plan: Plan, scene: Scene) -> DrawingFrame:
    """Return how the panel lies in a scene, by its first saw line."""
    lying, cut = lying_of(plan), (*plan.cuts.trims, *plan.cuts.corner_cuts)[0]
    seen = DrawingFrame(scene.frame, 1.0, ORIGIN, lying.mirrored, lying.turn)
    (drawn, *_) = (item for item in on(scene, layers.BENCH_SAW) if isinstance(item, Stroke))
    ends = drawn.path.segments[0].start, drawn.path.segments[0].end
    one, other = seen.at(cut.start.point), seen.at(cut.end.point)
    scale = one.distance_to(other) / ends[0].distance_to(ends[1])
    return replace(seen, scale=scale, corner=ends[0] - one * (1 / scale))


def _on_panel(frame: DrawingFrame, point: Point) -> Point:
    """Return the place of the panel that is drawn at a point on paper."""
    seen = (point - frame.corner) * frame.scale
    return Point(-seen.x if frame.mirrored else seen.x, seen.y).turned(-frame.turn)


@pytest.mark.parametrize("name", ["elm-slab", "lab-bench"])
def test_starts_and_guides_stand_on_what_is_left(name: str) -> None:
    """Where an earlier line has taken an end off, the saw starts and its guide lies farther in."""
    plan = plan_of(SAMPLES / name)
    scene = _lying(plan)
    frame = _frame(plan, scene)
    lines = [s.path.segments[0] for s in on(scene, layers.BENCH_GUIDE) if isinstance(s, Stroke)]
    bars = [(one.start, other.end) for one, other in zip(lines[::2], lines[1::2], strict=True)]
    every = (*plan.cuts.trims, *plan.cuts.corner_cuts)
    guided = [cut for cut in every if cut.guide is not None]
    for cut, ends in zip(guided, bars, strict=True):
        gone = [piece for before in every[: every.index(cut)] for piece in before.fallen]
        left = plan.job.panel.region().minus(*gone)
        for end in ends:
            assert left.distance_to(Region.at(_on_panel(frame, end))) < 0.1
    tips = [a.boundary.segments[0].start for a in on(scene, layers.INK) if isinstance(a, Area)]
    box = frame.of(plan.job.panel.boundary).bounds
    entered = (frame.at(cut.spans[0][0]) for cut in plan.cuts.trims)
    inside = [start for start in entered if box.grown(-1.5).holds(start)]
    assert inside
    for start in inside:
        assert min(tip.distance_to(start) for tip in tips) < 0.05


def test_no_number_is_printed_over_a_defect() -> None:
    """The ring of a corner cut stands beside metal that lies in the corner, not on it."""
    plan = make_plan(read_job(SCREWED))
    scene = _lying(plan)
    frame = _frame(plan, scene)
    (screw,) = (frame.of(defect.place).bounds for defect in plan.job.panel.defects)
    rings = [
        item.path.bounds
        for item in on(scene, layers.BENCH_MARK)
        if isinstance(item, Stroke) and isinstance(item.path.segments[0], Arc)
    ]
    assert len(rings) >= 3
    assert all(min(ring.shared(screw)) <= 0 for ring in rings)


@pytest.mark.parametrize("name", ["corridor-door", "elm-slab", "lab-bench"])
def test_numbers_of_offcuts_stand_clear_of_edges(name: str) -> None:
    """No number lies over the edge of its piece or of another."""
    scene = offcuts_scene(plan_of(SAMPLES / name))
    texts = [text_box(item) for item in on(scene, layers.OFFCUTS) if isinstance(item, Text)]
    edges = [a.boundary.points(0.1) for a in on(scene, layers.SHEET) if isinstance(a, Area)]
    assert texts
    for box in texts:
        for ring in edges:
            line = Region.line(np.vstack([ring, ring[:1]]))
            assert line.distance_to(Region.of(Path.round_box(box))) > 0
