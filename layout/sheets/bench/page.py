"""`bench-sheet.html`: one self-contained page, made to be printed and ticked off."""

from __future__ import annotations

from ...job.plan import Plan
from ..title import exact_words, size_words
from .after import after
from .before import before
from .cuts import cuts
from .marks import marks

TEMPLATE = "page.html.j2"


def bench_sheet(plan: Plan, drawing: str, *, files: tuple[str, ...] = ()) -> str:
    """Return the page: cautions, the drawing, then every step with its numbers.

    Parameters
    ----------
    drawing : str
        The SVG of the plan, which is set into the page.
    files : tuple of str
        Names of the other files of the plan, to point to.
    """
    from jinja2 import Environment, PackageLoader, StrictUndefined

    environment = Environment(
        loader=PackageLoader(__package__, "."),
        autoescape=True,
        trim_blocks=True,
        lstrip_blocks=True,
        undefined=StrictUndefined,
        keep_trailing_newline=True,
    )
    return environment.get_template(TEMPLATE).render(
        title=plan.job.name,
        size=size_words(plan),
        exact=exact_words(plan.top.exact, plan.job.tape),
        proof=_proof(plan),
        unit=plan.job.tape.unit,
        panel=plan.job.panel.name,
        cautions=plan.cautions,
        drawing=drawing[drawing.index("<svg") :],
        sections=(before(plan), marks(plan), cuts(plan), after(plan)),
        files=files,
    )


def _proof(plan: Plan) -> str:
    """Return one sentence on how far from the best this top can be."""
    gap = plan.fit.gap
    if gap is None:
        return ""
    if gap < 0.0005:
        return f"No larger {plan.top.outline.name} fits, to within {max(gap, 0.0001):.2%}: proved."
    return f"No {plan.top.outline.name} that is more than {gap:.1%} better fits: proved."
