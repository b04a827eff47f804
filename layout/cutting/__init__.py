"""Cuts in order: trims, curves, guides, and what the saw may not do."""

from ..marking.step import Figure, Step
from .again import MarkedAgain
from .builds import FrameJoint, RimLoss
from .cut import CurveCut, EdgePoint, Facet, Guide, SkippedTrim, SwungRadius, Trim, TrimKind
from .edging import Edging
from .feed import QuarterFeed
from .kept_edges import KeptEdge
from .mending import Mended, mends_for
from .plan import CutPlan, plan_cuts
from .profile import EdgeProfile, ProfilePlan, plan_profile
from .template_line import TemplateGuide, follower_offset, template_line
from .tools import Tools
from .work_face import WorkFace, work_face

__all__ = [
    "CurveCut",
    "CutPlan",
    "EdgePoint",
    "EdgeProfile",
    "Edging",
    "Facet",
    "Figure",
    "FrameJoint",
    "Guide",
    "KeptEdge",
    "MarkedAgain",
    "Mended",
    "ProfilePlan",
    "QuarterFeed",
    "RimLoss",
    "SkippedTrim",
    "Step",
    "SwungRadius",
    "TemplateGuide",
    "Tools",
    "Trim",
    "TrimKind",
    "WorkFace",
    "follower_offset",
    "mends_for",
    "plan_cuts",
    "plan_profile",
    "template_line",
    "work_face",
]
