"""Cuts in order: trims, curves, guides, and what the saw may not do."""

from ..marking.step import Figure, Step
from .cut import CurveCut, EdgePoint, Facet, Guide, SkippedTrim, SwungRadius, Trim, TrimKind
from .plan import CutPlan, plan_cuts
from .tools import Tools

__all__ = [
    "CurveCut",
    "CutPlan",
    "EdgePoint",
    "Facet",
    "Figure",
    "Guide",
    "SkippedTrim",
    "Step",
    "SwungRadius",
    "Tools",
    "Trim",
    "TrimKind",
    "plan_cuts",
]
