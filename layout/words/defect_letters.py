"""Letters of the defects on the first page: few enough to be found again."""

from __future__ import annotations

from ..geometry.polygon import Region
from ..panel.defect import Spoils
from ..plan.plan import Plan

FEW = 8
"""So many defects are all lettered."""

NEAR = 50.0
"""Of more, those are that lie so near to the finished edge, mm, and those that no blade may
cross (our choice)."""

MOST = 14
"""Letters that a page can hold."""

LONGEST = 24
"""Signs of a name in the key; longer ones are cut at a word."""


def letters_of(plan: Plan) -> dict[str, str]:
    """Return the letter of each defect that has one, by its name."""
    defects = plan.job.panel.defects
    if len(defects) > FEW:
        line = Region.line(plan.cuts.finish.points(1.0))
        near = [
            defect
            for defect in defects
            if Spoils.CUTTING in defect.spoils or Region.of(defect.place).distance_to(line) <= NEAR
        ]
        defects = tuple(near[:MOST])
    return {defect.name: chr(ord("a") + i) for i, defect in enumerate(defects)}


def key_of(plan: Plan) -> tuple[tuple[tuple[str, str], ...], str]:
    """Return the key: letters with names, and what is drawn without a letter."""
    letters = letters_of(plan)
    more = len(plan.job.panel.defects) - len(letters)
    rest = [f"and {more} more, listed where the panel is looked at"] if more else []
    rest += ["white field: cut-out"] if plan.job.panel.cut_outs else []
    return tuple((letter, _short(name)) for name, letter in letters.items()), " · ".join(rest)


def _short(name: str) -> str:
    if len(name) <= LONGEST:
        return name
    return f"{name[: LONGEST - 1].rsplit(' ', 1)[0]} …"
