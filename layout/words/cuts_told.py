"""What is told of an act, by its type: each file of words registers those of its own acts."""

from __future__ import annotations

from functools import singledispatch

from .say import Passage, Say


@singledispatch
def words_of(act: object, say: Say) -> Passage:
    """Return what is told of an act, in the units of a tape and from a datum.

    Raises
    ------
    TypeError
        If nobody has found words for it.
    """
    raise TypeError(f"there are no words for {type(act).__name__}")
