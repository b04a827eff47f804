"""What the work is made of: parts with steps, each in words already, with its picture."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

from ...drawing.scene import Scene
from ...panel.datum import Datum
from ...plan.plan import Plan
from ...words.say import Passage, Say


@dataclass(frozen=True, slots=True)
class Step:
    """One thing to do and tick off, or, behind the work, one thing to know."""

    told: Passage
    drawing: Scene | None = None
    wait: str = ""
    """What is waited for when it is done; a wait is no step."""

    def warned(self, *warnings: str) -> Step:
        """Return it with more warnings, before its own."""
        told = replace(self.told, warnings=(*warnings, *self.told.warnings))
        return replace(self, told=told)


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


def say_of(plan: Plan, datum: Datum | None = None) -> Say:
    """Return what words of a plan are told in, from its own datum or from another."""
    return Say(plan.job.tape, datum or plan.datum, plan.cuts.face.mirrored)
