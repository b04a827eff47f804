"""Whatever can stand against a piece, or mends it, has a sentence with all of its figures."""

from __future__ import annotations

from enum import Enum

import pytest
from tops import top_of

from panelwright.layout.concern import Concern
from panelwright.layout.cutting.mending import Mended
from panelwright.layout.cutting.plan import CutMatter
from panelwright.layout.geometry.placement import Placement
from panelwright.layout.geometry.point import Point
from panelwright.layout.legs.plan import LegMatter
from panelwright.layout.outlines import Rectangle
from panelwright.layout.panel import Mend
from panelwright.layout.panel.datum import choose_datum
from panelwright.layout.units import Tape
from panelwright.layout.words.cautions import caution_words, concern_words
from panelwright.layout.words.leg_concerns import leg_words
from panelwright.layout.words.panel import mend_words
from panelwright.layout.words.say import Say
from panelwright.layout.work.blades import BladeMatter
from panelwright.layout.work.cautions import Risk

TOP = top_of(Rectangle(1400, 700))
TAPES = (Tape(), Tape(imperial=True))


def told_whole(words: str) -> None:
    """Hold that words are one or more sentences in which no figure is left open."""
    assert not words[0].islower() and words.endswith(".")
    assert not set("{}") & set(words)


@pytest.mark.parametrize("tape", TAPES, ids=["mm", "in"])
@pytest.mark.parametrize("matter", [*LegMatter, *Risk, *CutMatter, *BladeMatter])
def test_a_concern_is_told_with_its_figures(matter: Enum, tape: Tape) -> None:
    """Whatever it is about, of one leg or two cuts, in both units."""
    concern = Concern(matter, ("Cut 1", "Cut 2"), found=23.4, limit=150.0)
    if isinstance(matter, LegMatter):
        told_whole(leg_words(concern, tape))
    elif isinstance(matter, Risk):
        for words in caution_words(concern, TOP, tape).words:
            told_whole(words)
    else:
        told_whole(concern_words(concern, Say(tape, choose_datum(TOP.panel))))


@pytest.mark.parametrize("through", [False, True])
@pytest.mark.parametrize("how", Mend)
def test_a_mend_is_told_with_its_figures(how: Mend, through: bool) -> None:
    """Whatever it is mended by, right through or not."""
    places = (Placement(Point(0, 0)),)
    mend = Mended("knot", how, places, 60.0, 30.0, 12.0, through=through, layers=2)
    for words in mend_words(mend, Say(Tape(), choose_datum(TOP.panel))).words:
        told_whole(words)
