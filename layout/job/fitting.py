"""From a job to its fits: the sound wood that showing asks for, and the search in it."""

from __future__ import annotations

from collections.abc import Callable

from ..fit import best_fits
from ..fit.found import Fit
from ..fit.ground import Ground
from ..panel import Panel, Spoils
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
    ground = ground_of(job, job.panel)
    return best_fits(ground.wood, job.wish, islands=ground.islands, progress=progress)


def ground_of(job: Job, panel: Panel) -> Ground:
    """Return where the tops of a job may lie on its panel, or on that panel with a defect less."""
    wood = panel.sound_for(
        Spoils.SHOWING, margin=job.margin, tape_error=job.tape_error, kept=job.wish.kept
    )
    return Ground(wood, tuple(defect.reach(job.tape_error) for defect in panel.islands))
