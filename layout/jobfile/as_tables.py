"""A job as the tables of a job file: reading them gives the same job again."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

from ..cutting.profile import EdgeProfile
from ..errors import LayoutError
from ..fit.wish import Goal, Limits
from ..fit.wish_kinds import Span
from ..geometry import Arc, EllipticArc, Line, Path, Point, circle
from ..keys.figures import Length
from ..keys.plane import At, Ring
from ..legs.movement import SWING
from ..legs.table_wish import TableWish
from ..legs.wish import Fixing, LegsWish
from ..panel.defect import Defect
from ..panel.defect_kinds import SPOILS
from ..panel.outline import oval_outline, rectangular_outline, round_outline
from ..units import Units
from .spelt import keyed, spelt

if TYPE_CHECKING:
    from ..plan.job import Job

Tables = dict[str, Any]


def tables_from(job: Job) -> Tables:
    """Return the tables of a job file.

    What a file has no key for is left out: how many steps a search may take, a printer's profile.

    Raises
    ------
    LayoutError
        If the panel has curves that a file cannot hold.
    """
    units = job.units
    tables: Tables = {
        "units": units.value,
        "name": job.name,
        "panel": _panel(job),
        "top": _top(job),
    }
    if job.legs is not None:
        tables["legs"] = _legs(job.legs, job.table, units)
    for name in ("tools", "offcuts", "template", "materials", "work", "money"):
        held = keyed(getattr(job, name), units)
        if name == "template" and units.is_imperial:  # there another paper is usual
            held["paper"] = job.template.paper.name
        if held:
            tables[name] = held
    return tables


def _panel(job: Job) -> Tables:
    panel, units = job.panel, job.units
    held = keyed(panel, units)
    held.update(keyed(panel.build, units))
    if job.missing:
        held.pop("thickness", None)
    held["outline"] = _outline(panel.boundary, units)
    if panel.cut_outs:
        held["cutouts"] = [_cut_out(path, units) for path in panel.cut_outs]
    if panel.defects:
        held["defects"] = [_defect(defect, units) for defect in panel.defects]
    if job.table.swing != SWING:
        held["moisture"] = [0.0, job.table.swing]
    if job.table.quartered:
        held["sawn"] = "quarter"
    if job.datum is not None:
        start, end = (spelt(At(), point, units) for point in job.datum)
        held["datum"] = {"from": start, "to": end}
    if job.damaged:
        held["damaged"] = list(job.damaged)
    return held


def _outline(boundary: Path, units: Units) -> Tables:
    """Return the outline of a panel: by its sides where they say it all, else by its corners."""
    box, length = boundary.bounds, Length()
    if box.left == box.bottom == 0.0:
        x, y = box.right, box.top
        if boundary == round_outline(x):
            return {"diameter": spelt(length, x, units)}
        if boundary == oval_outline(x, y):
            return {"axes": [spelt(length, side, units) for side in (x, y)]}
        radii = _radii(boundary, x, y)
        if radii is not None:
            sides = {"length": spelt(length, x, units), "width": spelt(length, y, units)}
            corners = [spelt(length, radius, units) for radius in radii]
            return {**sides, "radii": corners} if any(radii) else sides
    points, bows = _through(boundary)
    held: Tables = {"points": spelt(Ring(), points, units)}
    told = [{"from": k, "rise": spelt(length, rise, units)} for k, rise in bows.items()]
    return {**held, "bows": told} if told else held


def _radii(boundary: Path, x: float, y: float) -> tuple[float, float, float, float] | None:
    """Return the radii of the corners A, B, C, D of a rectangle; None for any other outline."""
    arcs = [segment for segment in boundary.segments if isinstance(segment, Arc)]

    def radius(corner: Point) -> float:
        near = (arc for arc in arcs if arc.centre.distance_to(corner) < 1.5 * arc.radius)
        return next((arc.radius for arc in near), 0.0)

    a, b, c, d = (radius(corner) for corner in boundary.bounds.corners)
    try:
        same = boundary == rectangular_outline(x, y, radii=(a, b, c, d))
    except LayoutError:
        return None
    return (a, b, c, d) if same else None


def _through(boundary: Path) -> tuple[list[Point], dict[int, float]]:
    """Return the corners of an outline, and the rise of edges that bow by their corner, from 1."""
    points: list[Point] = []
    bows: dict[int, float] = {}
    for segment in boundary.segments:
        if isinstance(segment, EllipticArc):
            raise LayoutError("a job file holds no panel with arcs of ellipses: give it by points")
        turn = segment.sweep if isinstance(segment, Arc) else 0.0
        parts = max(1, math.ceil(abs(turn) / (math.pi / 2)))  # a bow is at most a half circle
        for part in range(parts):
            piece = segment.part(part / parts, (part + 1) / parts)
            points.append(piece.start)
            if isinstance(piece, Arc):
                rise = 2 * piece.radius * math.sin(piece.sweep / 4) ** 2
                bows[len(points)] = math.copysign(rise, piece.sweep)
    return points, bows


def _cut_out(path: Path, units: Units) -> Tables:
    first = path.segments[0]
    if isinstance(first, Arc) and path == circle(first.centre, first.radius):
        at = spelt(At(), first.centre, units)
        return {"at": at, "diameter": spelt(Length(), 2 * first.radius, units)}
    if not all(isinstance(segment, Line) for segment in path.segments):
        raise LayoutError("a job file holds no cut-out with curves but a circle: give its corners")
    return {"points": spelt(Ring(), [segment.start for segment in path.segments], units)}


def _defect(defect: Defect, units: Units) -> Tables:
    if defect.told is not None:
        told = keyed(defect.told, units)
        return told | {"kind": defect.told.called} if defect.told.called else told
    held: Tables = {"name": defect.name, **_cut_out(defect.place, units)}
    held["spoils"] = spelt(SPOILS, tuple(sorted(defect.spoils, key=lambda s: s.value)), units)
    held.update(clear=spelt(Length(), defect.clear, units), ends=0, face=defect.face.value)
    if defect.depth is not None:
        held["depth"] = spelt(Length(), defect.depth, units)
    if defect.mend is not None:
        held["mend"] = defect.mend.value
    return held


def _top(job: Job) -> Tables:
    wish, units = job.wish, job.units
    held = {**keyed(wish, units), "shape": list(wish.shapes), **_limits(wish.limits, units)}
    if wish.goal is Goal.NEAREST and wish.wanted is not None:
        held["length"], held["width"] = (spelt(Length(), side, units) for side in wish.wanted)
    elif wish.parallel_to is None and wish.limits.most_turn_deg != Limits().most_turn_deg:
        held["most_turn"] = wish.limits.most_turn_deg
    if wish.parallel_to is not None:
        held.pop("most_turn", None)
    held.update(keyed(job, units))
    profile: EdgeProfile = job.profile
    held.update(keyed(profile, units))
    if profile.bevel_in:
        bevel = (profile.bevel_in, profile.bevel_up)
        held["bevel"] = [spelt(Length(), side, units) for side in bevel]
    return held


def _limits(limits: Limits, units: Units) -> Tables:
    """Return the keys of each span: one figure where it is fixed, else its least and its most."""
    usual, held = Limits(), Tables()
    for name in ("length", "width", "ratio", "corner_radius"):
        span: Span = getattr(limits, name)
        if span == getattr(usual, name):
            continue
        told = {
            end: value if name == "ratio" else spelt(Length(), value, units)
            for end, value in (("least", span.least), ("most", span.greatest))
            if math.isfinite(value)
        }
        if span.least == span.greatest and name != "ratio":
            held[name] = told["least"]
        else:
            held.update({f"{end}_{name}": value for end, value in told.items()})
    if limits.most_turn_deg != usual.most_turn_deg:
        held["most_turn"] = limits.most_turn_deg
    return held


def _legs(legs: LegsWish, table: TableWish, units: Units) -> Tables:
    foot, plate = legs.foot, legs.plate
    sizes = (foot.length, foot.width) if foot.shape.has_two_sizes else (foot.length,)
    told = [spelt(Length(), side, units) for side in sizes]
    held = {**keyed(legs, units), **keyed(table, units), **keyed(foot, units)}
    held.update(size=told if len(told) > 1 else told[0], height=spelt(Length(), legs.height, units))
    held["fixing"] = legs.fixing.value
    held["density" if not legs.material else "material"] = legs.material or legs.density
    if legs.material:
        held.pop("density", None)
    if plate is not None:
        held.update(keyed(plate, units))
        held["plate"] = [spelt(Length(), side, units) for side in (plate.length, plate.width)]
    for name in _unsaid(legs, table):
        held.pop(name, None)
    return held


def _unsaid(legs: LegsWish, table: TableWish) -> tuple[str, ...]:
    """Return which of the keys that hang on others have no place beside what those say."""
    glue = () if legs.fixing is Fixing.GLUED else ("glue",)
    wall = () if legs.foot.shape.has_wall else ("wall",)
    if legs.at:
        counted: tuple[str, ...] = ("count", "counts", "goal")
    elif not table.counts:
        counted = ("counts", "goal")
    else:
        counted = ("counts",) if table.counts == (legs.count,) else ("count",)
    return (*glue, *wall, *counted)
