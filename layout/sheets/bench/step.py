"""What the work is made of: parts with steps, each in words already, with its picture."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from ...drawing.scene import Scene
from ...plan.plan import Plan
from ...words.say import Passage


@dataclass(frozen=True, slots=True)
class Step:
    """One thing to do and tick off, or, behind the work, one thing to know."""

    told: Passage
    drawing: Scene | None = None
    wait: str = ""
    """What is waited for when it is done; a wait is no step."""


@dataclass(frozen=True, slots=True)
class Part:
    """A part of the work, or one behind it, which is folded up on a screen."""

    title: str
    """Of one behind the work, its result."""
    steps: tuple[Step, ...]
    lies: str = ""
    """How the work lies meanwhile."""
    before: int = 0
    """How many steps come before it."""


@dataclass(frozen=True, slots=True)
class Stage:
    """A part of the work: a row of `stages.STAGES`. One that yields no step is not told of."""

    title: str
    steps: Callable[[Plan], Iterator[Step]]
    lies: Callable[[Plan], str] = lambda _: ""
    """How the work lies meanwhile."""
