"""Phrases that several sheets share."""

from __future__ import annotations

from ..template.tiles import TilePlan


def correction_words(plan: TilePlan) -> str:
    """Return what was corrected for the printer, in per cent along each edge of the paper."""
    c = plan.correction
    across, along = (f"{100 * (f - 1):+.2f} %".replace("-", "−") for f in (c.across, c.along))
    return f"{across} along the short edge, {along} along the long edge"
