"""Legs: where they go, and whether the table stands."""

from .concern import Concern, LegProblem
from .foot import Foot, FootShape
from .plan import Leg, LegsPlan, Overhang, place_legs
from .room import Insets, insets_for
from .tipping import EdgeForce, Tipping, tipping_force, tipping_of
from .wish import Fixing, FixingPlate, Lean, LegsWish

__all__ = [
    "Concern",
    "EdgeForce",
    "Fixing",
    "FixingPlate",
    "Foot",
    "FootShape",
    "Insets",
    "Lean",
    "Leg",
    "LegProblem",
    "LegsPlan",
    "LegsWish",
    "Overhang",
    "Tipping",
    "insets_for",
    "place_legs",
    "tipping_force",
    "tipping_of",
]
