"""The sheet on which words go: the template's own paper, held upright."""

from __future__ import annotations

from ..template.paper import A4, Margins, Paper, Sheet


def upright_sheet(paper: Paper, margins: Margins) -> Sheet:
    """Return the paper upright, and for a roll an A4 page."""
    return Sheet.of(A4 if paper.roll else paper, margins, landscape=False)
