"""Random templates and papers."""

from __future__ import annotations

import strategies
from hypothesis import strategies as st

from panelwright.layout.drawing.scene import Scene
from panelwright.layout.geometry.path import circle
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.symmetry import is_symmetric
from panelwright.layout.outlines import Capsule, Outline
from panelwright.layout.template.calibration import Correction
from panelwright.layout.template.content import TemplateContent, TemplateMark
from panelwright.layout.template.paper import PAPERS, Margins, Paper

papers = st.one_of(
    st.sampled_from(list(PAPERS.values())),
    st.builds(Paper.custom, st.floats(150.0, 900.0), st.floats(150.0, 900.0)),
)
whites = st.floats(0.0, 25.0)
margins = st.builds(Margins, whites, whites, whites, whites)
factors = st.floats(0.97, 1.03)
corrections = st.one_of(st.just(Correction()), st.builds(Correction, factors, factors))
overlaps = st.floats(8.0, 25.0)


_LONGEST = 1400.0
"""Longer tops on small paper take hundreds of sheets and show nothing new, mm."""


@st.composite
def contents(draw: st.DrawFn) -> TemplateContent:
    """Draw templates of up to 1.4 m with marks, some of them with feet and a rough-cut line."""
    outline: Outline = draw(strategies.every_outline.filter(lambda o: o.length <= _LONGEST))
    path = outline.path()
    share = st.floats(-0.4, 0.4)
    marks = tuple(
        TemplateMark(f"M{n}", Point(draw(share) * outline.length, draw(share) * outline.width), d)
        for n, d in enumerate(draw(st.lists(st.sampled_from([0.0, 3.0, 22.0]), max_size=3)), 1)
    )
    reach = outline.length / 4
    feet = tuple(circle(Point(x, 0.0), outline.width / 10) for x in (-reach, reach))
    content = TemplateContent(
        "Stage board, cut to a top",
        path,
        rough=outline.parallel(3.0) if draw(st.booleans()) else None,
        marks=marks,
        feet=feet if draw(st.booleans()) else (),
        symmetric_x=is_symmetric(path, "x"),
        symmetric_y=is_symmetric(path, "y"),
    )
    return content.from_underside() if draw(st.booleans()) else content


def bench_top() -> TemplateContent:
    """Return the template of a capsule with its legs, alike in all quarters."""
    top = Capsule(1200, 700)
    feet = [Point(sx * 330, sy * 180) for sx in (1, -1) for sy in (1, -1)]
    marks = [TemplateMark(f"F{n}", at, 5.0) for n, at in enumerate(feet, 1)]
    marks += [TemplateMark("C1", Point(-250, 0)), TemplateMark("C2", Point(250, 0))]
    return TemplateContent(
        "Lab bench top",
        top.path(),
        rough=top.parallel(3.0),
        marks=tuple(marks),
        feet=tuple(circle(at, 30) for at in feet),
        symmetric_x=True,
        symmetric_y=True,
    )


def tile_scenes(scenes: tuple[Scene, ...]) -> list[tuple[int, str]]:
    """Return the page number and the tile's name of every template sheet."""
    return [
        (number, scene.title.split(",")[0].removeprefix("Sheet "))
        for number, scene in enumerate(scenes)
        if scene.title.startswith("Sheet ")
    ]
