"""The coat: where it goes, when, and how much of it."""

from __future__ import annotations

from dataclasses import replace

import pytest

from panelwright.layout.geometry.placement import Placement
from panelwright.layout.outlines import Rectangle
from panelwright.layout.panel import Build, Coat, Kind, Panel, rectangular_outline
from panelwright.layout.top import Top
from panelwright.layout.units import Tape
from panelwright.layout.words.edge import finish_words
from panelwright.layout.work.finish import finish_of

OAK = Panel(rectangular_outline(2000, 800), 20, material="oak")


def test_both_faces_and_the_edge_get_a_coat() -> None:
    """1.2 by 0.6 m and 20 mm thick: 2 × 0.72 + 3.6 × 0.02 = 1.512 m² (reckoned by hand)."""
    finish = finish_of(Top(OAK, Rectangle(1200, 600), Placement()))
    assert finish.area == pytest.approx(1.512e6)
    told = finish_words(finish, Tape())
    assert "Both faces and the edge alike" in told.words[0]
    assert "1.512 m²" in told.words[0]
    assert "before anything is fixed underneath" in told.words[0]


def test_laminate_takes_no_coat() -> None:
    """Only what the cuts lay bare is sealed: 3.6 m of an edge of 20 mm, 0.072 m² (by hand)."""
    board = replace(OAK, build=Build(Kind.PARTICLEBOARD), material="", finish=(Coat.LAMINATE,))
    finish = finish_of(Top(board, Rectangle(1200, 600), Placement()), glued_legs=4)
    assert (finish.faces, finish.masked) == (False, 0)
    assert finish.area == pytest.approx(0.072e6)
    (told,) = finish_words(finish, Tape()).words
    assert "faces" not in told


def test_glue_is_kept_bare() -> None:
    """Where legs are glued the coat is masked off, for it comes first."""
    finish = finish_of(Top(OAK, Rectangle(1200, 600), Placement()), glued_legs=4)
    assert "4 legs" in finish_words(finish, Tape()).words[1]
    assert len(finish_words(replace(finish, masked=0), Tape()).words) == 1
