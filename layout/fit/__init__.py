"""The best top that the sound wood can give: the wish, the search, one file a family."""

from .families import FAMILIES
from .found import Bound, Fit
from .search import best_fits
from .size_asked import Verdict, fits
from .wish import Goal, Limits, Span, Wish

__all__ = [
    "FAMILIES",
    "Bound",
    "Fit",
    "Goal",
    "Limits",
    "Span",
    "Verdict",
    "Wish",
    "best_fits",
    "fits",
]
