"""Setting out: where each mark goes, how to find it, and how to see a slip before cutting."""

from .instruments import Ordinate, StringCompass, TrammelRod, oval_checks
from .mark import Check, CrossMeasure, Kind, Mark, Tie
from .marks import MarkSet, StringKit, marks_for
from .string_loop import DrawnOval, StringLoop

__all__ = [
    "Check",
    "CrossMeasure",
    "DrawnOval",
    "Kind",
    "Mark",
    "MarkSet",
    "Ordinate",
    "StringCompass",
    "StringKit",
    "StringLoop",
    "Tie",
    "TrammelRod",
    "marks_for",
    "oval_checks",
]
