"""The files of a template, read back by independent readers and measured as wholes."""

from __future__ import annotations

import io
import math
import re
import xml.etree.ElementTree as ET
from collections import Counter
from dataclasses import replace
from pathlib import Path as FilePath

import ezdxf
import numpy as np
import pikepdf
import pytest
import svgelements
from ezdxf.document import Drawing
from ezdxf.entities import DXFEntity
from readers import Drawn, drawn_on, faults_in, off_path

from panelwright.layout.drawing import layers
from panelwright.layout.drawing.dxf import Release, to_dxf
from panelwright.layout.drawing.pdf import to_pdf
from panelwright.layout.drawing.svg import to_svg
from panelwright.layout.geometry.path import Path, circle
from panelwright.layout.geometry.point import Point
from panelwright.layout.outlines import Oval
from panelwright.layout.sheets.folder import template_pages
from panelwright.layout.sheets.template_drawing import template_drawing
from panelwright.layout.template.content import TemplateContent, TemplateMark
from panelwright.layout.template.paper import A4
from panelwright.layout.template.portions import proposed
from panelwright.layout.template.wish import TemplateWish

VECTOR_ERROR = 0.001
SVG = "{http://www.w3.org/2000/svg}"


def _door_top() -> TemplateContent:
    """Return an oval 2 m long with every kind of line and mark, mm."""
    top = Oval(2000, 900)
    feet = [Point(sx * 600, sy * 220) for sx in (1, -1) for sy in (1, -1)]
    marks = [TemplateMark("O", Point(0, 0), sign="middle")]
    marks += [
        TemplateMark(f"N{n}", Point(x, 0), 3.0, "nail")
        for n, x in enumerate((-math.sqrt(1000**2 - 450**2), math.sqrt(1000**2 - 450**2)), 1)
    ]
    marks += [TemplateMark(f"leg {n}", at, 3.5, "hole") for n, at in enumerate(feet, 1)]
    return TemplateContent(
        "Corridor door oval",
        top.path(),
        core=top.parallel(-6.0),
        rough=top.parallel(3.0),
        marks=tuple(marks),
        feet=tuple(circle(at, 35) for at in feet),
        symmetric_x=True,
        symmetric_y=True,
    )


CONTENT = _door_top()
LINES: dict[str, tuple[Path, ...]] = {
    layers.FINISH.key: (CONTENT.finish,),
    layers.CORE.key: (CONTENT.core,) if CONTENT.core else (),
    layers.ROUGH.key: (CONTENT.rough,) if CONTENT.rough else (),
    layers.LEGS.key: CONTENT.feet,
}


def _off(points: np.ndarray, paths: tuple[Path, ...]) -> float:
    return float(np.min([off_path(points, path) for path in paths], axis=0).max())


def test_the_svg_is_true_over_two_metres() -> None:
    """Finish, core and rough-cut line and the feet lie within 0.001 mm, as svgelements has them."""
    scene = template_drawing(CONTENT)
    root = ET.fromstring(to_svg(scene))
    groups = {group.attrib["id"]: group for group in root.findall(f"{SVG}g")}
    for key, paths in LINES.items():
        held = [svgelements.Path(p.attrib["d"]) for p in groups[key].iter(f"{SVG}path")]
        assert len(held) == len(paths)
        points = np.array(
            [
                (
                    segment.point(share).x + scene.frame.left,
                    scene.frame.top - segment.point(share).y,
                )
                for path in held
                for segment in path
                if not isinstance(segment, svgelements.Move | svgelements.Close)
                for share in np.linspace(0, 1, 5)
            ]
        )
        assert _off(points, paths) < VECTOR_ERROR
    names = [t.text for p in groups["marks"].iter(f"{SVG}path") for t in p.findall(f"{SVG}title")]
    assert names == [mark.label for mark in CONTENT.marks]


@pytest.mark.parametrize("release", ["R2010", "R12"])
def test_the_dxf_is_true_over_two_metres(release: Release) -> None:
    """The same lines, and each mark at its place with its own ring, as ezdxf has them."""
    document = ezdxf.read(io.StringIO(to_dxf(template_drawing(CONTENT), release)))
    auditor = document.audit()
    assert not auditor.errors
    assert not auditor.fixes
    for key, paths in LINES.items():
        points = np.concatenate([_points_on(e) for e in _on(document, key, release)])
        assert _off(points, paths) < VECTOR_ERROR
    marks = _on(document, "marks", release)
    points = {tuple(round(v, 6) for v in e.dxf.location)[:2] for e in marks if _is(e, "POINT")}
    assert points == {(round(m.at.x, 6), round(m.at.y, 6)) for m in CONTENT.marks}
    rings = sorted(round(2 * e.dxf.radius, 6) for e in marks if _is(e, "CIRCLE"))
    assert rings == sorted(m.diameter for m in CONTENT.marks if m.diameter)


@pytest.mark.parametrize("release", ["R2010", "R12"])
def test_a_machine_meets_nothing_twice(release: Release) -> None:
    """No point, circle or line of a whole template comes twice, whatever its layer."""
    document = ezdxf.read(io.StringIO(to_dxf(template_drawing(CONTENT), release)))
    keys = Counter(
        (e.dxftype(), *(round(float(v), 4) for v in _figures(e)))
        for e in document.modelspace()
        if e.dxftype() in ("POINT", "CIRCLE", "LINE", "ARC", "ELLIPSE")
    )
    assert max(keys.values()) == 1


def _is(entity: DXFEntity, kind: str) -> bool:
    return bool(entity.dxftype() == kind)


def _on(document: Drawing, key: str, release: Release) -> list[DXFEntity]:
    name = key.upper().replace("-", "_") if release == "R12" else key
    return [entity for entity in document.modelspace() if entity.dxf.layer == name]


def _figures(entity: DXFEntity) -> list[float]:
    kind, held = entity.dxftype(), entity.dxf
    if kind == "POINT":
        return list(held.location)
    if kind == "LINE":
        return [v for end in sorted([tuple(held.start), tuple(held.end)]) for v in end]
    if kind == "ELLIPSE":
        return [*held.center, *held.major_axis, held.start_param, held.end_param]
    angles = [held.start_angle, held.end_angle] if kind == "ARC" else []
    return [*held.center, held.radius, *angles]


def _points_on(entity: DXFEntity) -> np.ndarray:
    kind = entity.dxftype()
    if kind == "CIRCLE":
        return np.array([tuple(v)[:2] for v in entity.vertices(np.linspace(0, 360, 25))])
    if kind == "ARC":
        return np.array([tuple(v)[:2] for v in entity.vertices(entity.angles(5))])
    if kind == "ELLIPSE":
        return np.array([tuple(v)[:2] for v in entity.vertices(entity.params(145))])
    if kind == "LINE":
        return np.array([tuple(entity.dxf.start)[:2], tuple(entity.dxf.end)[:2]])
    return np.concatenate([_points_on(part) for part in entity.virtual_entities()])


class Printed:
    """The sheets of the whole template on A4, written and read back."""

    def __init__(self) -> None:
        self.proposal = proposed(CONTENT, TemplateWish(A4, portion="whole"))
        scenes = template_pages(CONTENT, self.proposal)
        self.data = to_pdf(scenes, CONTENT.title)
        self.by_tile = {
            scene.title.split(",")[0].removeprefix("Sheet "): number
            for number, scene in enumerate(scenes)
            if scene.title.startswith("Sheet ")
        }

    def on(self, tile: str, layer: str) -> list[Drawn]:
        """Return what a sheet shows on a layer, in template mm."""
        shift = self.proposal.plan.shift(self.proposal.plan.tiles[int(tile) - 1])
        return [
            replace(drawn, pieces=[piece - tuple(shift) for piece in drawn.pieces])
            for drawn in drawn_on(self.data, self.by_tile[tile])
            if drawn.layer == layer
        ]


@pytest.fixture(scope="module")
def printed() -> Printed:
    """Print the template once."""
    return Printed()


def test_the_pdf_is_true_over_two_metres(printed: Printed) -> None:
    """All lines of all sheets, joined as the plan says, lie within 0.001 mm of the template."""
    titles = {layer.key: layer.title for layer in (layers.FINISH, layers.CORE, layers.ROUGH,
                                                   layers.LEGS)}  # fmt: skip
    for key, paths in LINES.items():
        drawn = [d.points(17) for tile in printed.by_tile for d in printed.on(tile, titles[key])]
        assert _off(np.concatenate(drawn), paths) < VECTOR_ERROR


def test_register_marks_meet_across_every_seam(printed: Printed) -> None:
    """Both sheets of a seam show the ring of each register mark at the same place."""
    plan = printed.proposal.plan
    for mark in plan.register_marks:
        for name in mark.tiles:
            # of a ring every point is 2 mm away; nothing else is drawn so near
            near = [
                d.points(9) - tuple(mark.at)
                for d in printed.on(name, layers.SHEET.title)
                if np.hypot(*(d.points(9) - tuple(mark.at)).T).max() < 2.5
            ]
            assert near, (mark, name)
            assert np.abs(np.hypot(*np.concatenate(near).T) - 2.0).max() < VECTOR_ERROR
    assert len(plan.register_marks) > 20


def test_dashes_carry_on_from_sheet_to_sheet(printed: Printed) -> None:
    """Where a dashed line crosses a seam, both sheets are at the same place in its dashes."""
    rough = CONTENT.rough
    assert rough is not None
    repeat = sum(layers.ROUGH.dashes)
    plan = printed.proposal.plan
    compared = 0
    for tile in plan.tiles:
        for name, axis, level in (
            (tile.right, 0, tile.cell.right),
            (tile.below, 1, tile.cell.bottom),
        ):
            if not name:
                continue
            sides = [_in_dashes(printed.on(n, "Rough-cut line"), axis, level)
                     for n in (tile.name, name)]  # fmt: skip
            for at, phase in sides[0]:
                crossing = Point(level, at) if axis == 0 else Point(at, level)
                if crossing.distance_to(rough.segments[0].start) < 0.01:
                    continue  # dashes do not close on themselves: both sheets break here
                (other,) = [p for b, p in sides[1] if abs(b - at) < 0.01]
                apart = (phase - other) % repeat
                assert min(apart, repeat - apart) < 0.02
                compared += 1
    assert compared >= 10


def _in_dashes(lines: list[Drawn], axis: int, level: float) -> list[tuple[float, float]]:
    """Return where lines cross a seam, and how far into their dashes they are there, mm."""
    found = []
    for drawn in lines:
        assert drawn.dashes == pytest.approx(layers.ROUGH.dashes, abs=1e-3)
        points = drawn.points(33)
        along = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(points, axis=0).T))])
        before = points[:-1, axis] - level
        after = points[1:, axis] - level
        for k in np.flatnonzero((before < 0) != (after < 0)):
            share = before[k] / (before[k] - after[k])
            at = points[k, 1 - axis] * (1 - share) + points[k + 1, 1 - axis] * share
            reached = along[k] + share * (along[k + 1] - along[k])
            found.append((float(at), float(drawn.phase + reached)))
    return found


def test_the_pdf_is_sound_and_can_be_switched(printed: Printed, tmp_path: FilePath) -> None:
    """It passes the checks of qpdf; finish, rough cut, marks, legs and grid are layers of it."""
    assert faults_in(printed.data, tmp_path) == []
    with pikepdf.open(io.BytesIO(printed.data)) as pdf:
        titles = {str(group.Name) for group in pdf.Root.OCProperties.OCGs}
        assert pdf.Root.ViewerPreferences.PrintScaling == pikepdf.Name("/None")
        assert str(pdf.docinfo["/Title"]) == CONTENT.title
    wanted = (layers.FINISH, layers.CORE, layers.ROUGH, layers.MARKS, layers.LEGS, layers.SHEET)
    assert {layer.title for layer in wanted} <= titles


def test_signs_tell_marks_apart_where_no_letter_shows() -> None:
    """Without its words the drawing still tells middle, nail and hole by lines of their own."""
    root = ET.fromstring(to_svg(template_drawing(CONTENT)))
    (marks,) = [g for g in root.findall(f"{SVG}g") if g.attrib["id"] == "marks"]
    shapes = {
        title.text: re.sub(r"[-\d. ]+", "", path.attrib["d"])
        for path in marks.iter(f"{SVG}path")
        for title in path.findall(f"{SVG}title")
    }
    kinds = [shapes["O"], shapes["N1"], shapes["leg 1"]]
    assert len(set(kinds)) == 3
    assert shapes["N1"] == shapes["N2"]
    assert shapes["leg 1"] == shapes["leg 4"]


def test_mirrored_files_say_so_in_every_format() -> None:
    """The word stands in the SVG, the DXF and its title; places have left and right swapped."""
    seen = CONTENT.from_underside()
    scene = template_drawing(seen)
    assert "MIRRORED" in scene.title
    assert "MIRRORED" in to_svg(scene)
    document = ezdxf.read(io.StringIO(to_dxf(scene)))
    assert any("MIRRORED" in e.dxf.text for e in document.modelspace().query("TEXT"))
    by_name = {mark.label: mark.at for mark in seen.marks}
    assert by_name["leg 1"] == Point(-600, 220)
