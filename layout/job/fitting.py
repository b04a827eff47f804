"""From a job to its fits: the sound wood that showing asks for, and the search in it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from ..errors import NothingFitsError, UndecidedError
from ..fit import best_fits
from ..fit.found import Fit
from ..fit.ground import Ground
from ..panel import Defect, Panel, Spoils
from .job import Job

Progress = Callable[[int, float, float], bool]

SOON = 40
"""Boxes in which a top must be found for a defect to be blamed: a reason needs no more."""


def fits_of(job: Job, *, progress: Progress | None = None) -> tuple[Fit, ...]:
    """Return the best top of each wished-for shape, best first.

    The top stays clear of what spoils showing; what spoils only cutting may lie wholly inside it or
    wholly outside.

    Raises
    ------
    NothingFitsError
        If no wished-for shape fits; the message says why, and which defect alone is to blame.
    """
    ground = ground_of(job, job.panel)
    try:
        return best_fits(
            ground.wood, job.wish, islands=ground.islands, progress=progress, tape=job.tape
        )
    except UndecidedError:
        raise
    except NothingFitsError as error:
        to_blame = [defect.name for defect in job.panel.defects if _fits_without(defect, job)]
        if not to_blame:
            raise
        without = " or ".join(to_blame)
        raise NothingFitsError(
            f"{error}. Without the {without} one would fit: mend it, or lower what is kept clear"
        ) from None


def _fits_without(defect: Defect, job: Job) -> bool:
    """Return whether a top is soon found once a defect is mended or accepted."""
    if not defect.shows and defect not in job.panel.islands:
        return False
    ground = ground_of(job, job.panel.without_defect(defect.name))
    quick = replace(job.wish, most_steps=SOON)
    try:
        return bool(best_fits(ground.wood, quick, islands=ground.islands))
    except NothingFitsError:
        return False


def ground_of(job: Job, panel: Panel) -> Ground:
    """Return where the tops of a job may lie on its panel, or on that panel with a defect less."""
    wood = panel.sound_for(
        Spoils.SHOWING, margin=job.margin, tape_error=job.tape_error, kept=job.wish.kept
    )
    return Ground(wood, tuple(defect.reach(job.tape_error) for defect in panel.islands))
