"""What a program gives wrongly is refused at the door, with what, where, the limit, what to do."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
import shapely
from hypothesis import example, given, settings
from hypothesis import strategies as st

from panelwright.layout.cutting.profile import EdgeProfile
from panelwright.layout.cutting.tools import Tools
from panelwright.layout.errors import LayoutError, LegsError, NothingFitsError
from panelwright.layout.fit.wish import Limits, Span, Wish
from panelwright.layout.legs.foot import Foot
from panelwright.layout.legs.table_wish import TableWish
from panelwright.layout.legs.wish import Fixing, FixingPlate, LegsWish
from panelwright.layout.outlines import (
    Capsule,
    Circle,
    Oval,
    Rectangle,
    RegularPolygon,
    RoundedRectangle,
    Superellipse,
)
from panelwright.layout.panel import Build, Defect, Panel, Spoils, Spot, defect, rectangular_outline
from panelwright.layout.panel.told import Told
from panelwright.layout.plan.fitting import best_fit
from panelwright.layout.plan.job import Job
from panelwright.layout.template.wish import TemplateWish

CORNERS = [(0, 0), (1200, 0), (1200, 600), (0, 600)]
BOARD = Panel(CORNERS, 22)  # type: ignore[arg-type]
HOLE: dict[str, Any] = {"kind": "hole", "at": (60, 400), "diameter": 8}

CALLS: dict[str, tuple[Callable[..., object], dict[str, Any]]] = {
    "Panel": (Panel, {"boundary": CORNERS, "thickness": 22}),
    "Build": (Build, {"kind": "framed", "stile": 90, "rail": 100}),
    "Spot": (Spot, {"at": (300, 300), "size": (40, 20)}),
    "defect": (defect, HOLE),
    "Defect": (Defect, {"name": "x", "place": CORNERS, "spoils": "showing"}),
    "Tools": (Tools, {}),
    "Span": (Span, {"least": 3, "greatest": 8}),
    "Limits": (Limits, {}),
    "Wish": (Wish, {}),
    "Job": (Job, {"panel": BOARD, "wish": Wish("oval")}),  # type: ignore[arg-type]
    "EdgeProfile": (EdgeProfile, {}),
    "LegsWish": (LegsWish, {}),
    "Foot": (Foot, {"shape": "round", "length": 60, "width": 60}),
    "Foot.round": (Foot.round, {"diameter": 80}),
    "FixingPlate": (FixingPlate, {"length": 90, "width": 90, "thickness": 4}),
    "TableWish": (TableWish, {}),
    "TemplateWish": (TemplateWish, {}),
    "Circle": (Circle, {"diameter": 900}),
    "Rectangle": (Rectangle, {"length": 900, "width": 500}),
    "Oval": (Oval, {"length": 900, "width": 500}),
    "Capsule": (Capsule, {"length": 900, "width": 500}),
    "RoundedRectangle": (
        RoundedRectangle,
        {"length": 900, "width": 500, "radii": (60, 60, 60, 60)},
    ),
    "RegularPolygon": (RegularPolygon, {"sides": 6, "across_flats": 500}),
    "Superellipse": (Superellipse, {"length": 900, "width": 500, "exponent": 2.5}),
    "rectangular_outline": (rectangular_outline, {"length": 900, "width": 500}),
    "sound_for": (BOARD.sound_for, {"purpose": "showing"}),
    "with_defect": (BOARD.with_defect, {"defect": defect(**HOLE)}),
}
"""What a program calls, and what it needs to be called with."""

FIELDS = {
    "defect": [item.name for item in dataclasses.fields(Told)],
    "rectangular_outline": ["length", "width", "radii", "clips", "bows"],
    "sound_for": ["purpose", "margin", "tape_error", "kept"],
    "with_defect": ["defect"],
    "Foot.round": ["diameter"],
}
INSIDE = {"told", "blades", "missing", "correction", "beats"}
"""Fields that the library itself fills."""

FIGURES = [0, -1, 5, 1e9, float("nan"), float("inf"), -float("inf"), 10**400, 3 + 4j, True, None]
WORDS = ["", "x", "12 parsecs", "showing", "oak", b"oak", Spoils.SHOWING, object(), len, Panel]
LISTS = [(), [], {}, {"at": 3}, [1], (1, 2), [[1, 2]], ["AB", "AB", "CD"], {Spoils.CUTTING, "x"}]
RINGS = [
    [[0, 0], [1, 1], [1, 0], [0, 1]],
    [(0, 0), (0, 0), (0, 0)],
    np.zeros((2, 3)),
    np.array(3.0),
]
VALUES = [np.array([np.nan, 1.0]), frozenset({"showing"}), BOARD, Circle(9.0), HOLE, Limits()]
SHAPES = [shapely.Point(1, 2), shapely.Point(), shapely.Polygon(), shapely.MultiPolygon()]
WRONG = st.one_of(
    st.sampled_from([*FIGURES, *WORDS, *LISTS, *RINGS, *VALUES, *SHAPES]),
    st.integers(-(10**6), 10**6),
    st.floats(),
    st.text(max_size=6),
)


def fields_of(name: str) -> list[str]:
    """Return what a call takes."""
    call, _ = CALLS[name]
    if name in FIELDS:
        return FIELDS[name]
    return [f.name for f in dataclasses.fields(call) if f.name not in INSIDE]  # type: ignore[arg-type]


@given(st.sampled_from(sorted(CALLS)), st.data())
@settings(max_examples=1500)
def test_a_wrong_call_is_refused_in_words(name: str, data: st.DataObject) -> None:
    """Whatever is given is taken, or refused with a LayoutError or TypeError that says what."""
    call, right = CALLS[name]
    field = data.draw(st.sampled_from(fields_of(name)))
    try:
        call(**{**right, field: data.draw(WRONG)})
    except (LayoutError, TypeError) as error:
        assert len(str(error)) > 10, error


@given(st.text(max_size=8), WRONG)
@settings(max_examples=40)
@example("shape", "oval")
def test_an_unknown_word_is_a_type_error(word: str, value: object) -> None:
    """A keyword that no defect has is no silent one."""
    if word not in FIELDS["defect"]:
        with pytest.raises(TypeError, match="unexpected keyword"):
            defect(**{**HOLE, word: value})


@given(WRONG)
@settings(max_examples=60)
@example(())
def test_no_fit_of_what_is_no_panel(value: object) -> None:
    """A search wants a panel and a wish, and says so."""
    if not isinstance(value, Panel):
        with pytest.raises(LayoutError, match="panel: "):
            best_fit(value)  # type: ignore[arg-type]
    try:
        best_fit(Panel(CORNERS, 22), value)  # type: ignore[arg-type]
    except NothingFitsError:
        raise
    except LayoutError as error:
        assert "wish" in str(error) or "shape" in str(error)


def test_words_do_for_what_a_defect_spoils() -> None:
    """A word is taken where a file takes it, and the defect is never lost without a word."""
    place = [(500, 300), (560, 300), (560, 340), (500, 340)]
    by_word = Defect("stain", place, frozenset({"showing"}), 3.0)  # type: ignore[arg-type]
    by_member = Defect("stain", place, frozenset({Spoils.SHOWING}), 3.0)  # type: ignore[arg-type]
    assert by_word == by_member and by_word.shows
    with pytest.raises(LayoutError, match=r'stain.spoils.*"shwoing".*did you mean showing'):
        Defect("stain", place, frozenset({"shwoing"}))  # type: ignore[arg-type]


def test_sound_wood_is_asked_for_by_a_word_too() -> None:
    """`sound_for` takes the word of a job file, and refuses one that is none."""
    holed = BOARD.with_defect(defect(**HOLE))
    assert holed.sound_for("showing") == holed.sound_for(Spoils.SHOWING)  # type: ignore[arg-type]
    assert holed.sound_for(Spoils.SHOWING).inner.area < BOARD.sound_for(Spoils.SHOWING).inner.area
    with pytest.raises(LayoutError, match=r"purpose: .*use one of showing, cutting, bearing"):
        holed.sound_for("seeing")  # type: ignore[arg-type]


def test_a_number_stands_for_a_span() -> None:
    """One figure fixes a size, a pair gives least and most, None leaves an end free."""
    assert Limits(length=800) == Limits(length=Span(800, 800))  # type: ignore[arg-type]
    assert Limits(width=(300, None)) == Limits(width=Span(300))  # type: ignore[arg-type]
    with pytest.raises(LayoutError, match=r"top.length"):
        Limits(length="long")  # type: ignore[arg-type]


def test_a_turn_that_cannot_be_meant_is_refused() -> None:
    """A turn is in degrees and says so; radians go by no name."""
    with pytest.raises(LayoutError, match=r"top.most_turn: 91 degrees is above 90 degrees"):
        Limits(most_turn_deg=91)
    with pytest.raises(TypeError, match="most_turn"):
        Limits(most_turn=5)  # type: ignore[call-arg]


@pytest.mark.parametrize(
    "shape",
    [np.array(CORNERS), [list(row) for row in CORNERS], shapely.Polygon(CORNERS), CORNERS[::-1]],
)
def test_an_outline_is_taken_as_people_have_it(shape: object) -> None:
    """Arrays, lists and polygons of other libraries make the same panel."""
    assert Panel(shape, 22).area == pytest.approx(720_000)  # type: ignore[arg-type]


def test_holes_of_a_polygon_are_cut_out() -> None:
    """A polygon with a hole is a panel with a cut-out."""
    hole = [(300, 200), (400, 200), (400, 300), (300, 300)]
    panel = Panel(shapely.Polygon(CORNERS, [hole]), 22)  # type: ignore[arg-type]
    assert len(panel.cut_outs) == 1 and panel.area == pytest.approx(710_000)
    assert dataclasses.replace(panel, thickness=30).cut_outs == panel.cut_outs


def test_a_defect_has_its_kinds_harm_and_clearance_on_its_panel() -> None:
    """Unnamed ones are numbered, a split runs on along the grain, what lies off is refused."""
    crack = defect("crack", at=(600, 300), diameter=10)
    panel = Panel(CORNERS, 22, defects=(defect(**HOLE), crack), grain_deg=90)  # type: ignore[arg-type]
    hole, split = panel.defects
    assert (hole.name, split.name, hole.clear, split.clear) == ("hole 1", "crack 2", 6.0, 6.0)
    box = split.place.bounds
    assert box.height == pytest.approx(98, abs=0.1) and box.width == pytest.approx(10, abs=0.1)
    with pytest.raises(LayoutError, match="off the panel"):
        panel.with_defect(defect("rot", at=(5000, 300), diameter=10))
    with pytest.raises(LayoutError, match="deeper than the panel is thick"):
        panel.with_defect(defect("dent", at=(500, 300), diameter=10, depth=30, face="up"))


def test_legs_weigh_and_hold_by_what_they_are_of() -> None:
    """A material gives the density, and masonry takes no screw, as a job file has it."""
    assert LegsWish(material="steel").density == 7850
    assert LegsWish(material="Brick").fixing is Fixing.LOOSE
    assert Foot("circular", 80, 80) == Foot.round(80)  # type: ignore[arg-type]
    with pytest.raises(LegsError, match=r"legs.foot: .*give a foot, such as Foot.round"):
        LegsWish(foot="round")  # type: ignore[arg-type]


def test_metal_keeps_blades_away_without_a_word() -> None:
    """A job keeps what no blade may cross as far off as its tools need."""
    panel = Panel(CORNERS, 22, defects=(defect("pocket", at=(600, 300), diameter=10),))  # type: ignore[arg-type]
    wide = Job(panel, Wish("oval"), Tools(bit=40))  # type: ignore[arg-type]
    assert panel.defects[0].clear == 6.0 and wide.panel.defects[0].clear == 40.0
