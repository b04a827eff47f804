"""The legs of a job: placed as it says, or the best of those compared."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from ..errors import LegsError
from ..legs.foot import FootShape
from ..legs.plan import LegsPlan
from ..legs.room import TableTop
from ..legs.search import best_stances
from ..legs.stance import Sought, Stance
from ..legs.whole import TablePlan, plan_table
from ..legs.wish import COUNTS, Goal, LegsWish
from ..top import Top
from .job import Job


@dataclass(frozen=True, slots=True)
class Standing:
    """The legs and what the table does on them; both None where the job is a top alone."""

    legs: LegsPlan | None = None
    table: TablePlan | None = None


def stand(job: Job, top: Top) -> Standing:
    """Return the legs of a job under its top, if any that find room there."""
    wish, asked = job.legs, job.table
    if wish is None:
        return Standing()
    table = TableTop(top, job.tape_error)
    try:
        stance = (
            best_stances(wish, table, asked.goal, asked.counts, asked.place)[0]
            if asked.counts
            else Sought(wish, table, place=asked.place).as_wished()
        )
        return Standing(stance.legs, plan_table(asked, stance, table))
    except LegsError:
        return Standing()


@dataclass(frozen=True, slots=True)
class Comparison:
    """Legs set side by side."""

    top: Top
    goal: Goal
    load: float = field(metadata={"unit": "N"})
    """Downward force at the edge that they are held against, N."""
    own: Stance | None
    """The legs as the job has them, where it says where they stand or how many."""
    proposals: tuple[Stance, ...]
    """The best of each count, best first."""


def compare_legs(
    job: Job, top: Top, counts: tuple[int, ...] = (), goal: Goal | None = None
) -> Comparison:
    """Return the best legs of each count, and the job's own beside them.

    Counts and goal go before those of the job. A `LegsError` is raised if no foot finds room.
    """
    asked = job.table if goal is None else replace(job.table, goal=goal)
    wish, table = job.legs or LegsWish(), TableTop(top, job.tape_error)
    loads = asked.loads(job.panel.substance.name)
    own = None
    if job.legs is not None and not asked.counts:
        own = Sought(wish, table, asked.goal, asked.place).as_wished()
    usual = (2,) if wish.foot.shape is FootShape.SLAB else COUNTS
    counts = counts or asked.counts or usual
    found = best_stances(own.wish if own else wish, table, asked.goal, counts, asked.place)
    return Comparison(
        top,
        asked.goal,
        wish.pressed,
        own and own.sagging(table, loads),
        tuple(stance.sagging(table, loads) for stance in found),
    )
