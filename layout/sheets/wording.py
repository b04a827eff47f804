"""Phrases that several sheets share."""

from __future__ import annotations

from ..template.calibration import Correction


def correction_words(correction: Correction) -> str:
    """Return what was corrected for the printer, along each edge of the paper.

    >>> correction_words(Correction(1.004, 1.0, "hall"))
    'for the printer "hall": 0.40 % larger along the short edge, as it is along the long edge'
    """
    whose = f' "{correction.printer}"' if correction.printer else ""
    across, along = (_changed(factor) for factor in (correction.across, correction.along))
    return f"for the printer{whose}: {across} along the short edge, {along} along the long edge"


def _changed(factor: float) -> str:
    share = 100 * (factor - 1)
    if share == 0:
        return "as it is"
    return f"{abs(share):.2f} % {'larger' if share > 0 else 'smaller'}"
