"""Every file of a plan, by its name."""

from __future__ import annotations

from ..plan.plan import Plan
from ..plan.record import plan_record
from ..plan.serialise import to_json
from ..words.listing import listing


def plan_files(plan: Plan, *, opened: bool = False) -> dict[str, str | bytes]:
    """Return the content of each file that a plan is written as, by file name.

    Writers are imported here, one by one, so that whoever wants a single drawing pays for one.

    Parameters
    ----------
    opened : bool
        Whether what stands behind the work is unfolded on the bench sheet, so that it is printed.
    """
    from ..drawing.svg import to_svg
    from .bench import bench_sheet
    from .plan_drawing import plan_scene
    from .template_files import template_files

    template = template_files(plan)
    others = ("plan.svg", "plan-underside.svg", *template, "listing.txt", "plan.json")
    return {
        "bench-sheet.html": bench_sheet(plan, files=others, opened=opened),
        "plan.svg": to_svg(plan_scene(plan)),
        "plan-underside.svg": to_svg(plan_scene(plan, mirrored=True)),
        **template,
        "listing.txt": listing(plan),
        "plan.json": to_json(plan_record(plan)),
    }
