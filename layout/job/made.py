"""From a fit to the top that a job makes of it."""

from __future__ import annotations

from ..fit.found import Fit
from ..fit.points import holds_all
from ..geometry.polygon import Region
from ..geometry.tolerance import CHORD
from .fitting import ground_of
from .job import Job
from .top import Top, top_from


def made_top(job: Job, fit: Fit) -> Top:
    """Return the top that is made, its sizes rounded down where that loses nothing.

    A smaller top could let go of a point that it is to cover, or run its edge through a defect that
    lies wholly inside the found one; then it is made exactly as it was found.
    """
    limits, lipping = job.wish.limits, job.wish.lipping
    top = top_from(fit, limits, step=job.step, lipping=lipping, kept=job.kept)
    held = [island for island in ground_of(job, job.panel).islands if _core(fit).holds(island)]
    held += [Region.at(point) for point in job.wish.covers]
    if not held or holds_all(_within(top), held):
        return top
    return Top(fit.outline, fit.outline, fit.placement, lipping)


def _core(fit: Fit) -> Region:
    return Region.from_rings(fit.placement.of(fit.core.inner(CHORD)))


def _within(top: Top) -> Region:
    return Region.of(top.core_line)
