"""Cuts in order: trims, curves, guides, and what the saw may not do."""

from .acts import Act, CornerCuts, Flatten, KnifeLines, Rest
from .again import MarkedAgain
from .builds import FrameJoint, RimLoss, UnknownFrame
from .cut import (
    CornerCut,
    CurveCut,
    CurveTool,
    EdgePoint,
    Guide,
    HandCut,
    JigsawCut,
    Kerf,
    RouterCut,
    SkippedTrim,
    SkipReason,
    StraightCut,
    SwungRadius,
    Trim,
    TrimKind,
)
from .edging import Edging
from .feed import QuarterFeed
from .kept_edges import KeptEdge
from .mending import Mended, mends_for
from .plan import CutMatter, CutPlan, plan_cuts
from .profile import EdgeProfile, ProfilePlan, plan_profile
from .template_line import TemplateGuide, bush_offset, template_line
from .tools import Stroke, Tools
from .work_face import FaceReason, WorkFace, work_face

__all__ = [
    "Act",
    "CornerCut",
    "CornerCuts",
    "CurveCut",
    "CurveTool",
    "CutMatter",
    "CutPlan",
    "EdgePoint",
    "EdgeProfile",
    "Edging",
    "FaceReason",
    "Flatten",
    "FrameJoint",
    "Guide",
    "HandCut",
    "JigsawCut",
    "KeptEdge",
    "Kerf",
    "KnifeLines",
    "MarkedAgain",
    "Mended",
    "ProfilePlan",
    "QuarterFeed",
    "Rest",
    "RimLoss",
    "RouterCut",
    "SkipReason",
    "SkippedTrim",
    "StraightCut",
    "Stroke",
    "SwungRadius",
    "TemplateGuide",
    "Tools",
    "Trim",
    "TrimKind",
    "UnknownFrame",
    "WorkFace",
    "bush_offset",
    "mends_for",
    "plan_cuts",
    "plan_profile",
    "template_line",
    "work_face",
]
