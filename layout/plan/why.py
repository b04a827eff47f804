"""Why the top of a job is not larger, what mending would gain, and where else it could lie."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import partial
from typing import Any

from ..fit.branch_and_bound import Progress
from ..fit.found import Fit
from ..fit.others import others
from ..fit.why.contacts import Contact, Side, Touched, contacts_of
from ..fit.why.costs import Cost, costs_of
from ..fit.why.limits import LimitMet
from ..geometry import Path, Segment
from ..panel.named_edges import named_edges
from .fitting import ground_of
from .job import Job
from .serialise import fit_record, plain


def contacts_in(job: Job, fit: Fit) -> tuple[Contact, ...]:
    """Return what the core of a fit touches on the panel of a job."""
    return contacts_of(
        fit,
        job.panel,
        margin=job.margin,
        tape_error=job.tape_error,
        sides=tuple(sides_of(job)),
        points=(*job.wish.covers, *job.wish.avoids),
    )


def costs_in(
    job: Job, fit: Fit, contacts: tuple[Contact, ...], progress: Progress | None = None
) -> tuple[Cost, ...]:
    """Return what each defect costs the best fit of a job, the dearest first."""
    touched = [contact.name for contact in contacts if contact.what is Touched.DEFECT]
    alone = replace(job.wish, shapes=(fit.outline.name,))
    return costs_of(fit, job.panel, alone, partial(ground_of, job), touched, progress)


def others_in(job: Job, fit: Fit) -> tuple[Fit, ...]:
    """Return alternatives to the best fit of a job."""
    return others(fit, job.wish, fit.outline.name, ground_of(job, job.panel))


def sides_of(job: Job) -> Iterator[Side]:
    """Yield the parts of the panel's boundary by name; without letters all is "the edge"."""
    kept = {s for path in job.wish.kept for s in path.segments}
    named = {
        segment: f"edge {edge.name[0]}–{edge.name[1]}"
        for edge in named_edges(job.panel)
        for segment in edge.segments
    }
    corners = {edge.segments[-1]: f"corner {edge.name[1]}" for edge in named_edges(job.panel)}
    chain: list[Segment] = []
    name, last = "", "the edge"
    segments = job.panel.boundary.segments
    first = next((i for i, s in enumerate(segments) if s in named), 0)
    for segment in segments[first:] + segments[:first]:
        own = named.get(segment, last)
        if chain and own != name:
            yield Side(name, Path(tuple(chain)), chain[0] in kept)
            chain = []
        chain.append(segment)
        name, last = own, corners.get(segment, last)
    yield Side(name, Path(tuple(chain)), chain[0] in kept)


def why_record(
    contacts: tuple[Contact, ...],
    limits: tuple[LimitMet, ...],
    costs: tuple[Cost, ...] | None = None,
    others: tuple[Fit, ...] | None = None,
    along_grain: Fit | None = None,
) -> dict[str, Any]:
    """Return all of it as plain JSON values; what was not asked for is left out."""
    record: dict[str, Any] = {"contacts": plain(contacts), "limits_met": plain(limits)}
    if costs is not None:
        record["costs"] = [
            {
                "names": list(cost.names),
                "gain": plain(cost.gain),
                "most": plain(cost.most),
                "lies": None if cost.lies is None else cost.lies.value,
                "top": None if cost.fit is None else fit_record(cost.fit),
            }
            for cost in costs
        ]
    if others is not None:
        record["others"] = [fit_record(fit) for fit in others]
        record["along_grain"] = None if along_grain is None else fit_record(along_grain)
    return record
