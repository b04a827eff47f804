"""What the acts of a cutting plan are told as."""

from __future__ import annotations

from panelwright.layout.cutting.plan import CutPlan
from panelwright.layout.marking.mark import Mark
from panelwright.layout.marking.marks import MarkSet
from panelwright.layout.panel.datum import Datum
from panelwright.layout.units import Tape
from panelwright.layout.words.cuts import words_of
from panelwright.layout.words.say import Passage, Say


def told(cuts: CutPlan, datum: Datum, tape: Tape | None = None, title: str = "") -> list[Passage]:
    """Return the words of every act whose title starts so, in order."""
    say = Say(tape or Tape(), datum, cuts.face.mirrored)
    passages = [words_of(act, say) for act in cuts.acts]
    return [passage for passage in passages if passage.title.startswith(title)]


def text(passages: list[Passage]) -> str:
    """Return all sentences and warnings, one after the other."""
    return " ".join(words for p in passages for words in (*p.words, *p.points, *p.warnings))


def named(marks: MarkSet, label: str) -> Mark:
    """Return the mark of that label."""
    return next(mark for mark in marks.marks if mark.label == label)
