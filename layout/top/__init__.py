"""The top: an outline in its place on its panel, what of its line is cut, and what size is made."""

from .runs import Runs, runs_of
from .top import Top, top_from

__all__ = ["Runs", "Top", "runs_of", "top_from"]
