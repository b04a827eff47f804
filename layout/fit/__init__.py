"""The best top that the sound wood can give: the wish, the search, one room a family of tops."""

from typing import TYPE_CHECKING, Any

from .found import Bound, Fit
from .wish import Goal, Limits, Span, Wish

if TYPE_CHECKING:
    from .search import best_fits
    from .size_asked import Verdict, fits

__all__ = ["Bound", "Fit", "Goal", "Limits", "Span", "Verdict", "Wish", "best_fits", "fits"]


def __getattr__(name: str) -> Any:  # noqa: ANN401 - what is asked for
    """Load the search only where it is asked for: to read a job takes none of it."""
    if name == "best_fits":
        from . import search

        return search.best_fits
    if name in ("Verdict", "fits"):
        from . import size_asked

        return getattr(size_asked, name)
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
