"""The finish: where it goes, when, and how much of it."""

from __future__ import annotations

from dataclasses import replace

import pytest

from panelwright.layout.geometry.placement import Placement
from panelwright.layout.outlines import Rectangle
from panelwright.layout.panel import Build, Coat, Kind, Panel, rectangular_outline
from panelwright.layout.top import Top
from panelwright.layout.units import Tape
from panelwright.layout.words.edge import finish_words
from panelwright.layout.work.items import COATINGS, NewCoat
from panelwright.layout.work.piece import finish_of
from panelwright.layout.work.wish import MaterialsWish

OAK = Panel(rectangular_outline(2000, 800), 20, material="oak")


def test_both_faces_and_the_edge_get_a_coat() -> None:
    """1.2 by 0.6 m and 20 mm thick: 2 × 0.72 + 3.6 × 0.02 = 1.512 m² (reckoned by hand)."""
    finish = finish_of(Top(OAK, Rectangle(1200, 600), Placement()))
    assert finish.area == pytest.approx(1.512e6)
    told = finish_words(finish, Tape())
    assert "Both faces and the edge alike" in told.words[0]
    assert "1.512 m²" in told.words[0]
    assert "before anything is fixed underneath" in told.words[0]
    assert "2 thin coats of hard-wax oil, 12 h apart" in told.words[1]


def test_laminate_takes_no_coat() -> None:
    """Only what the cuts lay bare is sealed: 3.6 m of an edge of 20 mm, 0.072 m² (by hand)."""
    board = replace(OAK, build=Build(Kind.PARTICLEBOARD), material="", finish=(Coat.LAMINATE,))
    finish = finish_of(Top(board, Rectangle(1200, 600), Placement()), glued_legs=4)
    assert (finish.faces, finish.masked) == (False, 0)
    assert finish.area == pytest.approx(0.072e6)
    assert "faces" not in finish_words(finish, Tape()).words[0]


def test_glue_is_kept_bare() -> None:
    """Where legs are glued the coat is masked off, for it comes first; bare wood needs no mask."""
    top = Top(OAK, Rectangle(1200, 600), Placement())
    assert finish_of(top, glued_legs=4).masked == 4
    assert finish_of(top, 4, MaterialsWish(finish=NewCoat.NONE)).masked == 0


def test_a_job_overrides_every_figure_of_a_finish() -> None:
    """Coats, coverage, drying and last grit are the maker's where they are given."""
    top = Top(OAK, Rectangle(1200, 600), Placement())
    wish = MaterialsWish(
        finish="lacquer", coats=2, coverage=9.5, recoat=6, use=50, cure=9, last_grit=220
    )
    finish = finish_of(top, 0, wish)
    assert finish.coat is NewCoat.VARNISH
    assert (finish.coats, finish.coverage, finish.recoat, finish.last_grit) == (2, 9.5, 6, 220)
    assert (finish.use, finish.cure) == (50, 9)


@pytest.mark.parametrize("coat", [coat for coat in NewCoat if coat is not NewCoat.NONE])
def test_what_is_reckoned_lies_within_what_labels_promise(coat: NewCoat) -> None:
    """No coverage is better or poorer than any label."""
    coating = COATINGS[coat]
    least, most = coating.label
    assert least <= coating.coverage <= most
    assert coating.coats > 0 and coating.recoat > 0
