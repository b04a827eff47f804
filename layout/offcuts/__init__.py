"""What is left of the panel, what it is good for, and proof that nothing is lost."""

from .clean import Clean, largest_clean_rectangle
from .plan import Balance, Offcut, OffcutPlan, Worth, offcuts_of
from .wish import OffcutWish

__all__ = [
    "Balance",
    "Clean",
    "Offcut",
    "OffcutPlan",
    "OffcutWish",
    "Worth",
    "largest_clean_rectangle",
    "offcuts_of",
]
