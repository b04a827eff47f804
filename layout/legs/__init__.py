"""Legs: where they go, and whether the table stands, holds and stays flat."""

from .concern import LegMatter
from .foot import Foot, FootShape
from .plan import Leg, LegsPlan, Overhang, place_legs
from .proposal import Proposal, compare, propose
from .room import Insets, insets_for
from .sag import Deflection, Loads, Sag, plate_of, sag_of
from .stance import Stance, as_wished, best_stances
from .table import TableTop
from .table_wish import Glue, TableWish
from .tipping import EdgeForce, Tipping, tipping_force, tipping_of
from .whole import TablePlan, plan_table
from .wish import Fixing, FixingPlate, Goal, Lean, LegsWish

__all__ = [
    "Deflection",
    "EdgeForce",
    "Fixing",
    "FixingPlate",
    "Foot",
    "FootShape",
    "Glue",
    "Goal",
    "Insets",
    "Lean",
    "Leg",
    "LegMatter",
    "LegsPlan",
    "LegsWish",
    "Loads",
    "Overhang",
    "Proposal",
    "Sag",
    "Stance",
    "TablePlan",
    "TableTop",
    "TableWish",
    "Tipping",
    "as_wished",
    "best_stances",
    "compare",
    "insets_for",
    "place_legs",
    "plan_table",
    "plate_of",
    "propose",
    "sag_of",
    "tipping_force",
    "tipping_of",
]
