"""Found tops as other programs read them: `fit --json`, and `plan.json` under ``top``."""

from __future__ import annotations

import math
from typing import Any

from ..fit.found import Fit
from .serialise import corner_radius, own_figures, plain

OUTLINE_TOLERANCE = 0.05
"""The polygon given of an outline stays within this of the curve, inside it, mm."""


def fit_record(fit: Fit, seconds: float | None = None) -> dict[str, Any]:
    """Return a found top as plain JSON values: mm, mm², degrees.

    `bound` and `gap` are None until they are proved; `seconds` is left out where not given. Of an
    outline that comes in one size, `bound` is that of its `clearance`, and `clearance_gap` the mm
    between them.
    """
    outline = fit.outline
    record = {
        "shape": outline.name,
        "length": plain(outline.length),
        "width": plain(outline.width),
        "corner_radius": corner_radius(outline),
        **own_figures(outline),
        "centre": plain(fit.placement.centre),
        "turn_deg": plain(math.degrees(fit.placement.turn)),
        "area": plain(outline.area),
        "bound": plain(fit.bound),
        "gap": None if fit.gap is None else plain(fit.gap),
        **_clearance(fit),
        "seconds": None if seconds is None else round(seconds, 4),
        "outline": plain(fit.points(OUTLINE_TOLERANCE)),
    }
    if seconds is None:
        del record["seconds"]
    return record


def _clearance(fit: Fit) -> dict[str, Any]:
    if fit.clearance is None:
        return {}
    return {"clearance": plain(fit.clearance), "clearance_gap": plain(fit.clearance_gap)}
