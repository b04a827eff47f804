"""Everything worked out for one job: the crafts called in order, and their results held."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field, fields, replace
from typing import Any

from ..concern import Concern
from ..cutting.cut import Kerf, TrimKind
from ..cutting.plan import CutPlan, plan_cuts
from ..cutting.profile import ProfilePlan, plan_profile
from ..fit.found import Fit
from ..fit.why.contacts import Contact, LimitMet, limits_met
from ..fit.why.costs import Cost
from ..legs.fixings import USUAL
from ..legs.plan import LegsPlan
from ..legs.whole import TablePlan
from ..legs.wish import Fixing
from ..marking.mark import Ground
from ..marking.marks import MarkSet, marks_for
from ..marking.method import Method
from ..marking.methods import methods_for
from ..marking.panel_check import PanelCheck, check_panel
from ..money.price import Money, money_of
from ..offcuts.plan import OffcutPlan, offcuts_of
from ..panel.datum import Datum, choose_datum
from ..template.content import TemplateContent
from ..template.portions import AUTO, Proposal, portions, proposed
from ..top import Top, top_from
from ..work.blades import blades_through, pins_of
from ..work.cautions import Risk, cautions_for
from ..work.materials import Materials, materials_of
from ..work.order import WorkOrder, work_order
from ..work.piece import Finish, Piece, Sale, finish_of, sale_of
from .fitting import along_grain_in, fits_of
from .form import SCHEMA
from .job import Job
from .serialise import fit_record, plain
from .standing import Standing, stand
from .template import template_content
from .why import contacts_in, costs_in, others_in, why_record


@dataclass(frozen=True, slots=True)
class Plan:
    """Every number that any sheet prints."""

    job: Job
    fits: tuple[Fit, ...]
    """Best first; the first is the one that is made."""
    contacts: tuple[Contact, ...]
    """What the first fit touches, in the order of the way round it."""
    limits_met: tuple[LimitMet, ...]
    """The limits of the wish that the first fit has come to."""
    costs: tuple[Cost, ...]
    """What each defect costs the first fit, the dearest first."""
    others: tuple[Fit, ...]
    """Alternatives to the first fit: other places and turns, next in rank."""
    along_grain: Fit | None
    """The best of its shape along the grain, where the first fit lies out of it."""
    top: Top
    """The first fit, with its sizes rounded down."""
    top_mass: float = field(metadata={"unit": "kg"})
    """Of the finished top, kg."""
    datum: Datum
    check: PanelCheck
    """How to see that the panel is what the job says."""
    marks: MarkSet
    methods: tuple[Method, ...]
    """The ways to draw the curves of the top on this panel, the one to use first."""
    cuts: CutPlan
    blades: tuple[Concern, ...]
    """What a blade, bit, screw or pin would meet that must not be cut."""
    profile: ProfilePlan
    """What the edge is given when it is cut."""
    finish: Finish
    legs: LegsPlan | None
    table: TablePlan | None
    """What the table does on those legs."""
    offcuts: OffcutPlan
    template: TemplateContent
    """What is drawn at full size."""
    sheets: Proposal
    """The portion of it that is printed, and on which sheets."""
    order: WorkOrder
    """The whole work, from seeing the panel to weighing the table, with its days."""
    materials: Materials
    money: Money | None
    """What to ask for it; None where nothing is said of money."""
    sale: Sale
    """What it is offered with."""
    cautions: tuple[Concern, ...]
    """The risks that the piece calls up, most urgent first."""

    @property
    def fit(self) -> Fit:
        """The fit that is made."""
        return self.fits[0]


def make_plan(job: Job, *, progress: Callable[[int, float, float], bool] | None = None) -> Plan:
    """Return the plan of a job; a `NothingFitsError` is raised if no wished-for top fits."""
    panel, tools = job.panel, job.tools
    fits = fits_of(job, progress=progress)
    contacts = contacts_in(job, fits[0])
    top = top_from(fits[0], panel, job.wish, step=job.step, tape_error=job.tape_error)
    datum = choose_datum(panel, job.datum, frozenset(job.damaged))
    marks = marks_for(top, datum, tools.workshop())
    cuts = plan_cuts(top, datum, tools, job.tape)
    rough_cuts = sum(trim.kind is TrimKind.ROUGH for trim in cuts.trims)
    standing = stand(job, top)
    legs, table = standing.legs, standing.table
    is_glued = legs is not None and job.legs is not None and job.legs.fixing is Fixing.GLUED
    overhangs = () if legs is None else tuple(leg.overhang for leg in legs.legs)
    template = template_content(job, top, cuts, marks, standing)
    # A portion that the top cannot have gives way to that of the fewest sheets.
    has_portion = job.template.portion in {AUTO, *(portion.name for portion in portions(template))}
    portion = job.template.portion if has_portion else AUTO
    sheets = proposed(template, replace(job.template, portion=portion))
    finish = finish_of(top, len(overhangs) if is_glued else 0, job.materials)
    paper, figures = sheets.plan.paper.name, job.template.ordinates
    piece = Piece(top, cuts, finish, job.legs, legs, table, sheets.sheets, figures, paper)
    order = work_order(piece, job.work)
    materials = materials_of(piece, order, job.materials)
    return Plan(
        job=job,
        fits=fits,
        contacts=contacts,
        limits_met=limits_met(fits[0], job.wish),
        costs=costs_in(job, fits[0], contacts, progress),
        others=others_in(job, fits[0]),
        along_grain=along_grain_in(job, fits[0], progress),
        top=top,
        top_mass=top.mass,
        datum=datum,
        check=check_panel(panel, datum, cuts.core, job.tape),
        marks=marks,
        methods=_methods(job, top, datum, cuts),
        cuts=cuts,
        blades=blades_through(cuts, panel, _bores(job, top, marks, cuts, table)),
        profile=plan_profile(job.profile, top, overhangs, cuts.edging),
        finish=finish,
        legs=legs,
        table=table,
        offcuts=offcuts_of(
            panel,
            cuts.core,
            cuts.saw_kerfs,
            job.offcuts,
            names=tuple(kerf.label for kerf in cuts.kerfs),
            rough=rough_cuts,
        ),
        template=template,
        sheets=sheets,
        order=order,
        materials=materials,
        money=money_of(
            job.money,
            (order.least, order.most),
            materials.cost,
            unpriced=bool(materials.unpriced),
            has_legs=legs is not None,
        ),
        sale=sale_of(piece),
        cautions=cautions_for(
            top, cuts, glued_legs=is_glued, left_out=_left_out(job, standing, has_portion)
        ),
    )


def _left_out(job: Job, standing: Standing, has_portion: bool) -> tuple[Concern, ...]:
    """Return what the job asks for and its top cannot have; the rest is planned without it."""
    left_out = []
    if job.legs is not None and standing.legs is None:
        left_out.append(Concern(Risk.NO_LEGS, limit=job.legs.foot.thin))
    if not has_portion:
        left_out.append(Concern(Risk.NO_PORTION, (job.template.portion,)))
    return tuple(left_out)


def _bores(
    job: Job, top: Top, marks: MarkSet, cuts: CutPlan, table: TablePlan | None
) -> Iterator[Kerf]:
    """Yield the screws that are driven into a top, and the pins that cuts are swung about."""
    places = {mark.label: mark.point for mark in marks.marks}
    yield from pins_of(cuts, places, job.tools.nail)
    if table is None:
        return
    wide = table.screw.screw.diameter if table.screw is not None else USUAL
    for hole in table.holes:
        yield Kerf.bored(f"A screw of leg {hole.leg}", hole.on_panel, wide)
    for number, batten in enumerate(table.battens, start=1):
        for screw in batten.screws:
            yield Kerf.bored(f"A screw of batten {number}", top.placement(screw), wide)


def _methods(job: Job, top: Top, datum: Datum, cuts: CutPlan) -> tuple[Method, ...]:
    """Return the ways to draw the top, on what is left of the panel when it is drawn."""
    again = cuts.again
    if again is not None:
        top, datum = replace(top, panel=replace(job.panel, boundary=again.boundary)), again.datum
    ground = Ground(top, datum)
    return methods_for(top.outline, job.tools.workshop(ground))


ON_THEIR_OWN = ("fits", "top", "contacts", "limits_met", "costs", "others")
"""Fields that stand in the record in a form shared with `fit --json`."""


def plan_record(plan: Plan) -> dict[str, Any]:
    """Return every number of a plan: mm, mm², degrees, kg, N, whatever the job's units.

    ``top`` is the found top as `fit --json` prints it, ``made`` the same with its sizes rounded
    down, as the sheets say it; ``fits`` holds all that were wished for, best first; ``contacts``,
    ``limits_met``, ``costs`` and ``others`` tell why it is not larger, as `fit --why --json` does.
    Seconds are left out, so that the same job gives the same bytes.
    """
    rest = {
        f.name: plain(getattr(plan, f.name)) for f in fields(plan) if f.name not in ON_THEIR_OWN
    }
    return {
        "schema": SCHEMA,
        "top": fit_record(plan.fit),
        "made": plain(plan.top),
        "fits": [fit_record(fit) for fit in plan.fits],
        **why_record(plan.contacts, plan.limits_met, plan.costs, plan.others),
        **rest,
    }
