"""From a job to its fits: the sound wood that showing asks for, and the search in it."""

from __future__ import annotations

from collections.abc import Callable

from ..fit import best_fits
from ..fit.found import Fit
from ..panel import Spoils
from .job import Job

Progress = Callable[[int, float, float], bool]


def fits_of(job: Job, *, progress: Progress | None = None) -> tuple[Fit, ...]:
    """Return the best top of each wished-for shape, best first.

    The top stays clear of what spoils showing; what spoils only cutting may lie wholly inside it or
    wholly outside.

    Raises
    ------
    NothingFitsError
        If no wished-for shape fits; the message says why.
    """
    kept = job.wish.keeping.edges if job.wish.keeping else ()
    wood = job.panel.sound_for(
        Spoils.SHOWING, margin=job.margin, tape_error=job.tape_error, kept=kept
    )
    islands = tuple(defect.reach(job.tape_error) for defect in job.panel.islands)
    return best_fits(wood, job.wish, islands=islands, progress=progress)
