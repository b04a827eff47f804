"""What the library adds to the layout: one way from panel to top, plans that show themselves.

Names are handed on by the package itself: ``import panelwright as pw``.
"""

from __future__ import annotations

import dataclasses
import html
from collections.abc import Callable
from pathlib import Path

from .layout import jobfile as reading
from .layout.errors import JobError
from .layout.fit.size_asked import Verdict
from .layout.fit.size_asked import fits as fits_in
from .layout.fit.wish import Wish
from .layout.keys.key import take
from .layout.keys.kinds import Only
from .layout.outlines import Outline
from .layout.panel import Panel
from .layout.plan import plan as plans
from .layout.plan.fitting import best_fit, ground_of
from .layout.plan.fitting import fits as best_fits
from .layout.plan.job import Job

__all__ = ["Plan", "best_fit", "best_fits", "fits", "plan", "read_job"]

Progress = Callable[[int, float, float], bool]
"""Told of steps, score and bound; a search ends early where it returns False."""


class Plan(plans.Plan):
    """Everything worked out for a job: fits, marks, cuts, legs, offcuts, template, cautions."""

    __slots__ = ()

    def files(self) -> dict[str, str | bytes]:
        """Return every file of the plan by its name, as `write` writes them."""
        from .layout.sheets.folder import plan_files

        return plan_files(self)

    def write(self, folder: str | Path) -> tuple[Path, ...]:
        """Write every file of the plan into a folder, whole or not at all; return where they are.

        Raises
        ------
        OSError
            If something cannot be written; then nothing was replaced.
        """
        from .cli.files import write_all

        return write_all(Path(folder), self.files())

    def svg(self, *, mirrored: bool = False) -> str:
        """Return the drawing of the panel with everything on it; from its underside if mirrored."""
        from .layout.drawing.svg import to_svg
        from .layout.sheets.plan_drawing import plan_scene

        return to_svg(plan_scene(self, mirrored=mirrored))

    def dxf(self) -> str:
        """Return the template at full size in one piece."""
        return str(self._template(".dxf"))

    def pdf(self) -> bytes:
        """Return the template at full size, tiled on the job's paper."""
        pages = self._template(".pdf")
        assert isinstance(pages, bytes)
        return pages

    def json(self) -> str:
        """Return every number: mm, mm², degrees, kg, N."""
        from .layout.plan.plan import plan_record
        from .layout.plan.serialise import to_json

        return to_json(plan_record(self))

    def summary(self) -> str:
        """Return the plan in a few lines, as the command line prints it."""
        from .cli.plan import summary

        return "\n".join(summary(self))

    def _template(self, ending: str) -> str | bytes:
        from .layout.sheets.folder import template_files

        files = template_files(self)
        return next(content for name, content in files.items() if name.endswith(ending))

    def _repr_svg_(self) -> str:
        return self.svg()

    def _repr_html_(self) -> str:
        drawing = self.svg().partition("?>\n")[2]
        return f"<pre>{html.escape(self.summary())}</pre>{drawing}"

    def __repr__(self) -> str:
        """Return it in one line."""
        legs = "" if self.legs is None else f", {len(self.legs.legs)} legs"
        outline = self.top.outline
        size = f"{outline.name} {outline.length:g} × {outline.width:g} mm"
        return f"<Plan {self.job.name!r}: {size}{legs}>"


def plan(job: Job, *, progress: Progress | None = None) -> Plan:
    """Return everything worked out for a job.

    Raises
    ------
    JobError
        If something is missing that only a fit can do without: the thickness.
    NothingFitsError
        If no wished-for top fits; the message says why.
    """
    take(Only(Job, "give a job, such as pw.read_job(…) or pw.Job(panel, wish)"), job, "job")
    if job.missing:
        raise JobError(job.missing)
    made = plans.make_plan(job, progress=progress)
    return Plan(**{field.name: getattr(made, field.name) for field in dataclasses.fields(made)})


def read_job(source: str | bytes | Path) -> Job:
    """Return the job of a job file.

    Parameters
    ----------
    source : Path, str or bytes
        The file, or its text: a ``str`` of more than one line is text, of one line a file's name.

    Raises
    ------
    TypeError
        If it is neither.
    JobError
        If anything is wrong with it, with all of it: key, line, what to do.
    OSError
        If the file cannot be read.
    """
    if not isinstance(source, str | bytes | Path):
        raise TypeError(f"a job is read from a file or a text, not from {type(source).__name__}")
    if isinstance(source, Path) or (isinstance(source, str) and "\n" not in source):
        path = Path(source)
        return reading.read_job(path.read_bytes(), source=str(path))
    return reading.read_job(source)


def fits(
    panel: Panel,
    outline: Outline,
    *,
    margin: float = 0.0,
    tape_error: float = 0.0,
    wish: Wish | None = None,
) -> Verdict:
    """Return whether a top of just this size fits on a panel, with its place or what is lacking.

    All defects are heeded by what they spoil. Takes milliseconds; `best_fit` finds the largest.

    Parameters
    ----------
    outline : Outline
        The line that is cut: of a lipped top its core.
    margin : float
        Kept to the panel's edges and cut-outs, mm.
    tape_error : float
        How far any tape may have been out, mm.
    wish : Wish, optional
        Of which grain and turn, and the points to cover and to avoid, count.

    Raises
    ------
    LayoutError
        If anything was given that cannot be.
    """
    take(
        Only(Outline, "give an outline of its own size, such as pw.Oval(1400, 700)"), outline, "top"
    )
    job = Job(panel, wish or Wish(), margin=margin, tape_error=tape_error)
    ground, asked = ground_of(job, job.panel), job.wish
    return fits_in(
        ground.wood,
        outline,
        limits=asked.limits,
        islands=ground.islands,
        covers=asked.covers,
        avoids=asked.avoids,
    )
