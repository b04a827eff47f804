"""The best top that the sound wood can give: the wish, the search, one room a family of tops.

Each name is loaded when it is first asked for: to read a job takes nothing that searches.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import lazy_loader

if TYPE_CHECKING:
    from .found import Bound, Fit
    from .search import best_fits
    from .size_asked import Verdict, fits
    from .wish import Goal, Limits, Span, Wish

__all__ = ["Bound", "Fit", "Goal", "Limits", "Span", "Verdict", "Wish", "best_fits", "fits"]

__getattr__, __dir__, _ = lazy_loader.attach(
    __name__,
    submod_attrs={
        "found": ["Bound", "Fit"],
        "search": ["best_fits"],
        "size_asked": ["Verdict", "fits"],
        "wish": ["Goal", "Limits", "Span", "Wish"],
    },
)
