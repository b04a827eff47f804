"""What is left of the panel, what it is good for, and proof that nothing is lost."""

from .clean import largest_clean_rectangle
from .plan import Balance, Offcut, OffcutPlan, offcuts_of
from .wish import OffcutWish

__all__ = [
    "Balance",
    "Offcut",
    "OffcutPlan",
    "OffcutWish",
    "largest_clean_rectangle",
    "offcuts_of",
]
