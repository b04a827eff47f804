"""Setting out: where each mark goes, how to find it, and how to see a slip before cutting."""

from .arc_ovals import EightCentreOval, FourCentreOval
from .arcs import ArchTrammel, LargeArc, SprungLath
from .divide import Division, DivisionMark
from .instruments import Ordinate, StringCompass, Swing, TrammelRod, oval_checks
from .mark import Check, Kind, Mark, Proves, Tie, Ties
from .marks import MarkSet, StringKit, marks_for
from .method import HandTool, Method, Pivot, Workshop
from .methods import methods_for
from .off_wood import Ground, OffWood
from .panel_check import BowCheck, Clearance, PanelCheck, RightTriangle, SquareCheck, check_panel
from .quick import (
    mark_arc,
    mark_capsule,
    mark_circle,
    mark_divide,
    mark_oval,
    mark_rounded,
    mark_superellipse,
)
from .squareness import Squareness
from .string_loop import DrawnOval, StringLoop

__all__ = [
    "ArchTrammel",
    "BowCheck",
    "Check",
    "Clearance",
    "Division",
    "DivisionMark",
    "DrawnOval",
    "EightCentreOval",
    "FourCentreOval",
    "Ground",
    "HandTool",
    "Kind",
    "LargeArc",
    "Mark",
    "MarkSet",
    "Method",
    "OffWood",
    "Ordinate",
    "PanelCheck",
    "Pivot",
    "Proves",
    "RightTriangle",
    "SprungLath",
    "SquareCheck",
    "Squareness",
    "StringCompass",
    "StringKit",
    "StringLoop",
    "Swing",
    "Tie",
    "Ties",
    "TrammelRod",
    "Workshop",
    "check_panel",
    "mark_arc",
    "mark_capsule",
    "mark_circle",
    "mark_divide",
    "mark_oval",
    "mark_rounded",
    "mark_superellipse",
    "marks_for",
    "methods_for",
    "oval_checks",
]
