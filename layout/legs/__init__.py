"""Legs: where they go, and whether the table stands, holds and stays flat."""

from .concern import Concern, LegProblem
from .foot import Foot, FootShape
from .goals import Goal
from .plan import Leg, LegsPlan, Overhang, place_legs
from .proposal import Proposal, compare, propose
from .room import Insets, insets_for
from .sag import Burden, Deflection, Sag, TopBoard, sag_of
from .table import TableTop
from .tipping import EdgeForce, Tipping, tipping_force, tipping_of
from .wish import Fixing, FixingPlate, Lean, LegsWish

__all__ = [
    "Burden",
    "Concern",
    "Deflection",
    "EdgeForce",
    "Fixing",
    "FixingPlate",
    "Foot",
    "FootShape",
    "Goal",
    "Insets",
    "Lean",
    "Leg",
    "LegProblem",
    "LegsPlan",
    "LegsWish",
    "Overhang",
    "Proposal",
    "Sag",
    "TableTop",
    "Tipping",
    "TopBoard",
    "compare",
    "insets_for",
    "place_legs",
    "propose",
    "sag_of",
    "tipping_force",
    "tipping_of",
]
