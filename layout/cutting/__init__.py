"""Cuts in order: trims, curves, guides, and what the saw may not do."""

from ..marking.step import Figure, Step
from .cut import CurveCut, EdgePoint, Facet, Guide, SkippedTrim, SwungRadius, Trim, TrimKind
from .edging import Edging
from .feed import QuarterFeed
from .plan import CutPlan, plan_cuts
from .template_line import follower_offset, template_line
from .tools import Tools

__all__ = [
    "CurveCut",
    "CutPlan",
    "EdgePoint",
    "Edging",
    "Facet",
    "Figure",
    "Guide",
    "QuarterFeed",
    "SkippedTrim",
    "Step",
    "SwungRadius",
    "Tools",
    "Trim",
    "TrimKind",
    "follower_offset",
    "plan_cuts",
    "template_line",
]
