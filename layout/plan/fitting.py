"""From a job to its fits: the sound wood that showing asks for, and the search in it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from ..cutting.tools import Tools
from ..errors import NothingFitsError, UndecidedError
from ..fit import best_fits
from ..fit.branch_and_bound import Progress
from ..fit.found import Fit
from ..fit.points import Ground
from ..fit.wish import EVERY, Wish
from ..panel import Panel, Spoils
from ..top import Top
from ..work.cautions import OFF_GRAIN, off_grain
from .job import Job

_ALIKE = 1e-4
"""Share of its score, some hundredths of a millimetre of its size, that a top along the grain may
be less: nobody can cut the difference."""

SOON, MOST_BLAMED = 40, 12
"""Boxes in which a top must be found for a defect to be blamed, or to lie along the grain and be as
good, and how many defects are asked about: a reason needs no more."""


def fits(
    panel: Panel,
    wish: Wish | str | Sequence[str] = EVERY,
    *,
    tools: Tools | None = None,
    margin: float = 0.0,
    tape_error: float = 0.0,
    progress: Progress | None = None,
) -> tuple[Fit, ...]:
    """Return the best top of each wished-for shape on a panel, best first, as a job has them.

    All defects are heeded by what they spoil, metal and mends within the top included, and so are
    the panel's grain and what the tools take outside the line. As a wish the name of a shape will
    do, or several. `margin` is kept to the panel's edges and cut-outs, and `tape_error` is what any
    tape may have been out, mm. A `NothingFitsError` says why no wished-for shape fits, another
    `LayoutError` what was given that cannot be.
    """
    asked = wish if isinstance(wish, Wish) else Wish(wish)  # type: ignore[arg-type]
    held = Tools() if tools is None else tools
    job = Job(panel, asked, held, margin=margin, tape_error=tape_error)
    return fits_of(job, progress=progress)


def best_fit(
    panel: Panel,
    wish: Wish | str | Sequence[str] = EVERY,
    **more: Any,  # noqa: ANN401 - as `fits`
) -> Fit:
    """Return the best top on a panel: the first of `fits`, which says what else may be given.

    >>> from panelwright.layout.panel import Panel, defect
    >>> board = Panel([(0, 0), (1200, 0), (1200, 600), (0, 600)], 22)
    >>> holed = board.with_defect(defect("screw hole", at=(60, 400), diameter=8))
    >>> found = best_fit(holed, "rectangle", margin=6)
    >>> round(found.outline.length), round(found.outline.width)
    (1124, 588)
    """
    return fits(panel, wish, **more)[0]


def fits_of(job: Job, *, progress: Progress | None = None) -> tuple[Fit, ...]:
    """Return the best top of each wished-for shape, best first.

    The top stays clear of what spoils showing; what spoils only cutting may lie wholly inside it or
    wholly outside. A `NothingFitsError` says why none fits, and which defect alone is to blame.
    """
    ground = ground_of(job, job.panel)
    try:
        best, *rest = best_fits(
            ground.wood, job.wish, islands=ground.islands, progress=progress, tape=job.tape
        )
        # One along the grain that is no worse goes before it: on a round panel, say.
        soon = replace(job.wish, beats=(1 - _ALIKE) * best.score, most_steps=SOON)
        along = along_grain_in(replace(job, wish=soon), best, progress)
        if along is not None:
            best = replace(along, bound=best.bound, steps=best.steps + along.steps)
        return (best, *rest)
    except UndecidedError:
        raise
    except NothingFitsError as error:
        suspects = [one for one in job.panel.defects if one.shows or one in job.panel.islands]
        if len(suspects) > MOST_BLAMED:
            raise
        soon, names = replace(job.wish, most_steps=SOON), [defect.name for defect in suspects]
        to_blame = [n for n in names if _best(job, job.panel.without_defect(n), soon) is not None]
        if not to_blame:
            raise
        without = " or ".join(to_blame)
        raise NothingFitsError(
            f"{error}. Without the {without} one would fit: mend it, or lower what is kept clear"
        ) from None


def along_grain_in(job: Job, fit: Fit, progress: Progress | None = None) -> Fit | None:
    """Return the best top of the shape along the grain; None where the fit is, or none is found."""
    if off_grain(Top(job.panel, fit.outline, fit.placement)) is None:
        return None
    limits = replace(job.wish.limits, most_turn_deg=OFF_GRAIN)
    wish = replace(job.wish, shapes=(fit.outline.name,), limits=limits)
    return _best(job, job.panel, wish, progress)


def _best(job: Job, panel: Panel, wish: Wish, progress: Progress | None = None) -> Fit | None:
    """Return the best of the tops wished for on such a panel; None where none is found."""
    ground = ground_of(job, panel)
    try:
        return best_fits(ground.wood, wish, islands=ground.islands, progress=progress)[0]
    except NothingFitsError:
        return None


def ground_of(job: Job, panel: Panel) -> Ground:
    """Return where the tops of a job may lie on its panel, or on that panel with a defect less."""
    wood = panel.sound_for(
        Spoils.SHOWING, margin=job.margin, tape_error=job.tape_error, kept=job.wish.kept
    )
    return Ground(wood, tuple(defect.reach(job.tape_error) for defect in panel.islands))
