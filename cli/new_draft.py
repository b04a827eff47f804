"""A job file in the making: its tables, what is wrong with them, and its text."""

from __future__ import annotations

from copy import deepcopy
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from .keys_found import row_at
from .new_puts import Put, Tables

if TYPE_CHECKING:
    from ..layout.errors import Problem
    from ..layout.jobfile.job import Reading
    from ..layout.keys.place import Trail
    from ..layout.plan.job import Job

CORNERED = "corner A is the origin, at the lower left; x runs along the edge AB, y up"
ROUND = "the box round it has its lower left corner at the origin; x runs to the right, y up"
"""Said beside an outline, whose own keys have no lines of their own."""


class RefusedError(ValueError):
    """An answer that cannot be taken; the message says why."""


@dataclass(slots=True)
class Draft:
    """What is known of a job so far."""

    tables: Tables = field(default_factory=dict)
    job: Job | None = None
    """The job as far as it is known; None where it is not whole yet."""

    def take(self, put: Put, answer: str, *about: str) -> None:
        """Take an answer, or leave everything as it was.

        Parameters
        ----------
        about : str
            The keys, with all below them, that the reader must find nothing wrong with then.

        Raises
        ------
        RefusedError
            If the answer has not the form of one, or the reader of job files refuses it.
        """
        tables = deepcopy(self.tables)
        try:
            put(tables, answer)
        except ValueError as error:
            raise RefusedError(str(error)) from None
        reading = _reading(tables)
        wrong = [problem.message for problem in reading.problems if _is_about(problem, about)]
        if wrong:
            raise RefusedError("; ".join(wrong))
        self.tables, self.job = tables, reading.job

    def lacks(self, key: str) -> bool:
        """Return whether the reader finds anything wrong with a key."""
        return any(_is_about(problem, (key,)) for problem in _reading(self.tables).problems)

    def text(self, name: str) -> str:
        """Return the file of this name, with what each key means beside it."""
        from ..layout.jobfile.written import written

        heading = (
            f"Written by `panelwright new`. After a change: panelwright check {name}",
            "More keys, each with an example: panelwright keys WORD, or panelwright keys [top]",
        )
        return written(self.tables, self._remark, heading)

    def _remark(self, trail: Trail) -> str:
        if trail == ("panel", "outline"):
            outline = self.tables["panel"]["outline"]
            return ROUND if outline.keys() & {"diameter", "axes"} else CORNERED
        row = row_at(trail)
        return row.meaning.replace("`", "") if row else ""


def _reading(tables: Tables) -> Reading:
    from ..layout.jobfile import look_over
    from ..layout.jobfile.written import written

    return look_over(written(tables))


def _is_about(problem: Problem, keys: tuple[str, ...]) -> bool:
    return any(problem.key == key or problem.key.startswith((f"{key}.", f"{key}[")) for key in keys)
