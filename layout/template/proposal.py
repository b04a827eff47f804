"""From a top to the paper that it takes: the portion with the fewest sheets."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from .content import TemplateContent, TemplateMark
from .portions import FEW_CURVES, Portion, curved_share, portions, portions_named
from .tiles import TilePlan
from .tiling import tiles_for
from .wish import TemplateWish

AUTO = "auto"
"""The name under which the least paper is chosen."""

_CHOSEN_FROM = ("whole", "half", "quarter", "none")
"""Portions that show all the marks; an end, a corner or the curves alone leave some to the rule.
Where every line is straight nothing needs paper."""


@dataclass(frozen=True, slots=True)
class Proposal:
    """A portion and the sheets it takes."""

    portion: Portion
    plan: TilePlan

    @property
    def sheets(self) -> int:
        """How many sheets, without the cover."""
        return len(self.plan.tiles)

    def marks_left_out(self, content: TemplateContent) -> tuple[TemplateMark, ...]:
        """Return the marks that no sheet shows: they are set out by measure."""
        windows = [tile.window for tile in self.plan.tiles]
        shown = {
            label
            for mark in self.portion.marks(content)
            if any(window.holds(mark.at) for window in windows)
            for label in mark.label.split("/")
        }
        return tuple(mark for mark in content.marks if mark.label not in shown)


def proposals(
    content: TemplateContent, wish: TemplateWish, among: Sequence[Portion] | None = None
) -> tuple[Proposal, ...]:
    """Return what each portion takes, fewest sheets first; among equals the larger portion."""
    found = [
        Proposal(p, tiles_for(p.paths(content), wish, tied=p.name != "curves"))
        for p in (portions(content) if among is None else among)
    ]
    return tuple(sorted(found, key=lambda proposal: proposal.sheets))


def proposed(content: TemplateContent, wish: TemplateWish) -> Proposal:
    """Return the proposal for a named portion, or with "auto" the one of the fewest sheets.

    "auto" keeps to whole, half and quarter, which show every mark that has its mirror images; of a
    top with few curves, whose straights a straightedge draws, those alone will do, and a top
    without any needs no sheet. A `PaperError` if the top has no such portion.
    """
    if wish.portion == AUTO:
        few = curved_share(content) <= FEW_CURVES
        among = tuple(p for p in portions(content) if few or p.name in _CHOSEN_FROM)
    else:
        among = portions_named(content, wish.portion)
    return proposals(content, wish, among)[0]
