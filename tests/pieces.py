"""Pieces planned without a search: a top in the middle of its panel, cut and stood as it says."""

from __future__ import annotations

from dataclasses import replace
from random import Random

from random_jobs import job_text

from panelwright.layout.cutting.plan import plan_cuts
from panelwright.layout.geometry.placement import Placement
from panelwright.layout.jobfile import read_job
from panelwright.layout.legs.wish import Fixing
from panelwright.layout.outlines import RoundedRectangle
from panelwright.layout.panel import Coat, Mend, Was
from panelwright.layout.panel.datum import choose_datum
from panelwright.layout.plan.job import Job
from panelwright.layout.plan.standing import stand
from panelwright.layout.top import Top
from panelwright.layout.work.items import NewCoat
from panelwright.layout.work.piece import Piece, finish_of
from panelwright.layout.work.wish import MaterialsWish

TABLE = """
[panel]
outline = {{ length = 1600, width = 800 }}
thickness = 26
material = "oak"
finish = "{finish}"
year = {year}
was = "door"
[legs]
count = 4
fixing = "{fixing}"
[materials]
finish = "{coat}"
"""


def table(
    finish: str = "none", year: int = 2010, fixing: str = "glued", coat: str = "hard-wax oil"
) -> Job:
    """Return a plain table for four."""
    return read_job(TABLE.format(finish=finish, year=year, fixing=fixing, coat=coat))


def top_alone(finish: str = "none", year: int = 2010, coat: str = "hard-wax oil") -> Piece:
    """Return the piece of such a table's top, without its legs."""
    return piece_of(replace(table(finish, year, coat=coat), legs=None))


def aged_job(number: int) -> Job:
    """Return a random job whose panel has a past, an old coat and a new one besides."""
    job, draw = read_job(job_text(number)), Random(number)
    coats = [coat for coat in Coat if coat is not Coat.LAMINATE or not _is_sanded(job)]
    panel = replace(
        job.panel,
        was=draw.choice((None, *Was)),
        year=draw.choice((None, 1931, 1985, 2004)),
        finish=draw.choice(((), *((coat,) for coat in coats))),
    )
    wish = MaterialsWish(finish=draw.choice((None, *NewCoat)))
    return replace(job, panel=panel, materials=wish)


def _is_sanded(job: Job) -> bool:
    return any(defect.mend is Mend.SAND for defect in job.panel.defects)


def piece_of(job: Job, size: tuple[float, float] | None = None) -> Piece:
    """Return the piece of a job: a rounded rectangle over half of its panel, or of a size in mm."""
    box = job.panel.boundary.bounds
    length, width = size or (0.5 * box.width, 0.5 * box.height)
    outline = RoundedRectangle.with_radius(max(length, width), min(length, width), 20.0)
    top = Top(job.panel, outline, Placement(box.middle), job.wish.lipping)
    datum = choose_datum(job.panel, job.datum, frozenset(job.damaged))
    standing = stand(replace(job, table=replace(job.table, counts=())), top)
    legs, table = standing.legs, standing.table
    glued = legs is not None and job.legs is not None and job.legs.fixing is Fixing.GLUED
    finish = finish_of(top, len(legs.legs) if legs and glued else 0, job.materials)
    cuts = plan_cuts(top, datum, job.tools, job.tape)
    return Piece(top, cuts, finish, job.legs, legs, table, sheets=4, paper="A4")
