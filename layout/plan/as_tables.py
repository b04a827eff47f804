"""A job as the tables of a job file: reading them gives the same again.

Values are written as the kinds of keys read them: a length in a job that counts in mm as a bare
number, in any other with its unit, so that no figure is rounded on the way. A file has no key for
how many steps a search may take, nor for a printer's profile.
"""

from __future__ import annotations

import math
from contextlib import suppress
from typing import Any

from ..cutting.profile import BEVEL, EdgeProfile
from ..errors import LayoutError
from ..fit.wish import Goal, Limits, Wish
from ..fit.wish_kinds import Span
from ..geometry import Arc, EllipticArc, Line, Path, Point, circle
from ..geometry.tolerance import SAME_POINT
from ..geometry.window import split
from ..keys.figures import ANY_LENGTH, FROM_0
from ..keys.key import keys_by_field
from ..keys.plane import At, Four, Ring, Table
from ..legs.foot import SIZE
from ..legs.table_wish import TableWish
from ..legs.wish import PLATE, Fixing, LegsWish
from ..panel import Defect, Panel, outline_through, oval_outline, rectangular_outline, round_outline
from ..panel.defect_kinds import SPOILS
from ..panel.outline import Four as Figures
from ..units import Units

Tables = dict[str, Any]


def panel_table(panel: Panel, units: Units) -> Tables:
    """Return a panel; a `LayoutError` is raised if it has curves that a file cannot hold."""
    held = {**keyed(panel, units), **keyed(panel.build, units)}
    held["outline"] = _outline(panel.boundary, units)
    if panel.cut_outs:
        held["cutouts"] = [_cut_out(path, units) for path in panel.cut_outs]
    if panel.defects:
        held["defects"] = [_defect(defect, units) for defect in panel.defects]
    return held


def _outline(boundary: Path, units: Units) -> Tables:
    """Return the outline of a panel: by its sides where they say it all, else by its corners."""
    box = boundary.bounds
    if box.left == box.bottom == 0.0:
        x, y = (ANY_LENGTH.spelt(side, units) for side in (box.right, box.top))
        if boundary == round_outline(box.right):
            return {"diameter": x}
        if boundary == oval_outline(box.right, box.top):
            return {"axes": [x, y]}
        radii, clips = _cut_corners(boundary)
        with suppress(LayoutError):
            if boundary == rectangular_outline(box.right, box.top, radii=radii, clips=clips):
                cut, four = (("radii", radii), ("clips", clips)), Four(FROM_0)
                told = {name: four.spelt(sizes, units) for name, sizes in cut if any(sizes)}
                return {"length": x, "width": y, **told}
    points, bows = _through(boundary)
    held: Tables = {"points": Ring().spelt(points, units)}
    if bows:
        rises = ((k, ANY_LENGTH.spelt(rise, units)) for k, rise in bows.items())
        held["bows"] = [{"from": k, "rise": rise} for k, rise in rises]
    return held


def _cut_corners(boundary: Path) -> list[Figures]:
    """Return what the corners of the box are rounded by, and what they are clipped by, mm."""
    corners, radii, clips = boundary.bounds.corners, [0.0] * 4, [0.0] * 4
    for segment in boundary.segments:
        away = [(c.distance_to(segment.start), c.distance_to(segment.end)) for c in corners]
        i = away.index(min(away, key=sum))
        if abs(away[i][0] - away[i][1]) <= SAME_POINT:
            (radii if isinstance(segment, Arc) else clips)[i] = round(away[i][0], 9)
    return [(a, b, c, d) for a, b, c, d in (radii, clips)]


def _through(boundary: Path) -> tuple[list[Point], dict[int, float]]:
    """Return the corners of an outline, and the rise of edges that bow by their corner, from 1.

    What arcs leave in the last digits is left out where the outline comes back without.
    """
    points: list[Point] = []
    bows: dict[int, float] = {}
    for segment in boundary.segments:
        if isinstance(segment, EllipticArc):
            raise LayoutError("a job file holds no panel with arcs of ellipses: give it by points")
        for piece in split(segment, math.pi / 2):  # a bow is at most a half circle
            points.append(piece.start)
            if isinstance(piece, Arc):
                rise = 2 * piece.radius * math.sin(piece.sweep / 4) ** 2
                bows[len(points)] = math.copysign(rise, piece.sweep)
    short = [Point(round(point.x, 9), round(point.y, 9)) for point in points]
    rises = {number: round(rise, 9) for number, rise in bows.items()}
    with suppress(LayoutError):
        if outline_through(short, {number - 1: rise for number, rise in rises.items()}) == boundary:
            return short, rises
    return points, bows


def _cut_out(path: Path, units: Units) -> Tables:
    first = path.segments[0]
    if isinstance(first, Arc) and path == circle(first.centre, first.radius):
        at = At().spelt(first.centre, units)
        return {"at": at, "diameter": ANY_LENGTH.spelt(2 * first.radius, units)}
    if not all(isinstance(segment, Line) for segment in path.segments):
        raise LayoutError("a job file holds no cut-out with curves but a circle: give its corners")
    return {"points": Ring().spelt([segment.start for segment in path.segments], units)}


def _defect(defect: Defect, units: Units) -> Tables:
    if defect.told is not None:
        told = keyed(defect.told, units)
        return told | {"kind": defect.told.called} if defect.told.called else told
    held: Tables = {"name": defect.name, **_cut_out(defect.place, units)}
    held["spoils"] = SPOILS.spelt(tuple(sorted(defect.spoils, key=lambda s: s.value)), units)
    held.update(clear=ANY_LENGTH.spelt(defect.clear, units), ends=0, face=defect.face.value)
    if defect.depth is not None:
        held["depth"] = ANY_LENGTH.spelt(defect.depth, units)
    if defect.mend is not None:
        held["mend"] = defect.mend.value
    return held


def top_table(wish: Wish, units: Units) -> Tables:
    """Return the top that is wished for."""
    held = {**keyed(wish, units), "shape": list(wish.shapes), **_limits(wish.limits, units)}
    if wish.goal is Goal.NEAREST and wish.wanted is not None:
        held["length"], held["width"] = (ANY_LENGTH.spelt(side, units) for side in wish.wanted)
    if wish.parallel_to is not None:
        held.pop("most_turn", None)
    return held


def edge_table(profile: EdgeProfile, units: Units) -> Tables:
    """Return the edge of the top."""
    held = keyed(profile, units)
    if profile.bevel_in:
        held["bevel"] = BEVEL.kind.spelt((profile.bevel_in, profile.bevel_up), units)
    return held


def _limits(limits: Limits, units: Units) -> Tables:
    """Return the keys of each span: one figure where it is fixed, else its least and its most."""
    usual, held = Limits(), Tables()
    for name in ("length", "width", "ratio", "corner_radius"):
        span: Span = getattr(limits, name)
        if span == getattr(usual, name):
            continue
        told = {
            end: value if name == "ratio" else ANY_LENGTH.spelt(value, units)
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


def legs_table(legs: LegsWish, table: TableWish, units: Units) -> Tables:
    """Return the legs, and what is asked of the table on them."""
    foot, plate = legs.foot, legs.plate
    sizes = (foot.length, foot.width) if foot.shape.has_two_sizes else (foot.length,)
    held = {**keyed(legs, units), **keyed(table, units), **keyed(foot, units)}
    held.update(size=SIZE.kind.spelt(sizes, units), height=ANY_LENGTH.spelt(legs.height, units))
    held.update(fixing=legs.fixing.value, density=legs.density)
    if plate is not None:
        held.update(keyed(plate, units))
        held["plate"] = PLATE.kind.spelt((plate.length, plate.width), units)
    # What hangs on others has no place beside what those say.
    unsaid = ["density"] if legs.material else []
    unsaid += [] if legs.fixing is Fixing.GLUED else ["glue"]
    unsaid += [] if foot.shape.has_wall else ["wall"]
    if legs.at:
        unsaid += ["count", "counts", "goal"]
    elif not table.counts:
        unsaid += ["counts", "goal"]
    else:
        unsaid += ["counts" if table.counts == (legs.count,) else "count"]
    return {name: value for name, value in held.items() if name not in unsaid}


def keyed(value: Any, units: Units) -> Tables:  # noqa: ANN401 - any dataclass
    """Return the keys of a job file, but for tables, that make a value other than usual."""
    return {
        own.name: own.kind.spelt(getattr(value, name), units)
        for name, own in keys_by_field(type(value)).items()
        if own.in_file
        and not isinstance(own.kind, Table)
        and (own.depends or getattr(value, name) != own.default)
    }
