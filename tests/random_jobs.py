"""Whole random jobs, as a maker could write them: every shape, build, face and foot.

``job_text(number)`` gives the same job for the same number on every machine, so that figures of a
job can be kept and compared later; ``jobs`` draws them for hypothesis.
"""

from __future__ import annotations

import json
from random import Random
from typing import Any

from hypothesis import strategies as st

from panelwright.layout.legs.foot import FootShape
from panelwright.layout.panel.build import Kind
from panelwright.layout.panel.defect_kinds import DEFECT_KINDS as KINDS
from panelwright.layout.panel.defect_kinds import Mend

Table = dict[str, Any]

INCH = 25.4
UNITS = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "in": INCH, "ft": 12 * INCH}
"""Millimetres in each unit that a job file may count in."""

BUILDS = tuple(kind.value for kind in Kind)
FOOT_SHAPES = tuple(shape.value for shape in FootShape)
DEFECT_KINDS = tuple(KINDS)
MENDS = tuple(mend.value for mend in Mend)
"""Every choice that a job file has, so that a new one is drawn as soon as it is there."""

FRAMED = ("hollow", "framed")
SOLID_WOODS = ("oak", "ash", "beech", "pine", "elm", "iroko", "teak", "walnut")
LEG_WOODS = ("oak", "ash", "beech", "pine")
SHAPES = (
    "circle", "rectangle", "rounded rectangle", "capsule", "oval", "superellipse", "hexagon",
    "octagon", "own outline", "piece as found",
)  # fmt: skip
LONG_SIDED = ("rectangle", "rounded rectangle", "capsule")
"""Shapes a long side of which may lie on a factory edge that is kept."""
OWN_OUTLINES = (
    ((0, 0), (1, 0), (1, 0.42), (0.45, 0.42), (0.45, 0.8), (0, 0.8)),  # an L
    ((0, 0.1), (0.5, 0), (1, 0.1), (1, 0.5), (0.5, 0.6), (0, 0.5)),  # bowed sides, by corners
    ((0, 0), (1, 0), (0.8, 0.55), (0.2, 0.55)),
)
"""Corners, in lengths of the outline."""

jobs = st.integers(min_value=0, max_value=10**9).map(lambda n: job_text(n))


def job_text(number: int, shape: str | None = None) -> str:
    """Return the job file of a number, of any shape or of the one that is named."""
    return toml_of(random_job(Random(number), shape))


def random_job(draw: Random, shape: str | None = None, *, defects: int | None = None) -> Table:
    """Return the tables of a job file: a panel, a top, and mostly legs and tools.

    Parameters
    ----------
    defects : int, optional
        How many the panel has; else as many as are drawn.
    """
    drawn = draw.choice(SHAPES)
    shape = shape or drawn
    units = draw.choice(("mm",) * 6 + ("in", "in", "cm", "m", "ft"))
    unit = UNITS[units]
    length, width = draw.uniform(700, 2400), draw.uniform(400, 950)
    length = max(length, width)
    job: Table = {"units": units, "name": f"{shape} of the lower hall"}
    kept = shape in LONG_SIDED and draw.random() < 0.25
    job["panel"] = _panel(draw, shape, length, width, unit, kept=kept)
    if defects is not None:
        size, build = (length, width), job["panel"]["build"]
        held = [_defect(draw, i, size, unit, 0.05, build) for i in range(defects)]
        job["panel"]["defects"] = held
    job["top"] = _top(draw, shape, length, width, unit, kept=kept)
    if draw.random() < 0.85:
        job["legs"] = _legs(draw, length, width, unit)
        if job["panel"]["build"] in FRAMED and job["legs"].get("goal") == "sags least":
            job["legs"]["goal"] = "most stable"  # nobody knows how stiff such a panel is
    job["tools"] = _tools(draw, unit)
    job["template"] = _template(draw, shape)
    return job


def _in(unit: float, millimetres: float) -> float:
    """Return a length in the job's units, in sixteenths of an inch or half millimetres."""
    step = INCH / 16 if unit % INCH == 0 else 0.5
    return round(round(millimetres / step) * step / unit, 6)


def _panel(
    draw: Random, shape: str, length: float, width: float, unit: float, *, kept: bool
) -> Table:
    live = shape == "piece as found"
    outline = (
        _live_edges(draw, length, width, unit)
        if live
        else _outline(draw, length, width, unit, kept=kept)
    )
    is_round = outline.get("radius", 0) == outline.get("width", 0) / 2 > 0
    length = width if is_round else length
    build = "solid" if live else draw.choice((*BUILDS, "solid", "solid"))
    thickness = draw.choice((18, 22, 25, 28, 38, 44) if not live else (42, 48, 55))
    panel: Table = {
        "name": "panel from the drawing room",
        "outline": outline,
        "thickness": _in(unit, thickness),
        "build": build,
    }
    if build == "solid":
        panel["material"] = draw.choice(SOLID_WOODS)
        if draw.random() < 0.3:
            panel["moisture"] = [7, 12]
        if draw.random() < 0.2:
            panel["sawn"] = "quarter"
        if draw.random() < 0.3:
            panel["flattened"] = _in(unit, thickness - 3)
    if build in FRAMED and draw.random() < 0.8:
        panel |= {"stile": _in(unit, 60), "rail": _in(unit, 80)}
    if draw.random() < 0.3:
        panel["grain"] = draw.choice((0, 90, 30))
    if draw.random() < 0.4:
        panel["year"] = draw.choice((1931, 1962, 1977, 1985, 2004))
    if draw.random() < 0.3:
        panel["finish"] = draw.choice(("old varnish", "white paint", "wax"))
    panel |= _datum(draw, length, width, unit, corners=not is_round)
    near = 0.2 if is_round else 0.03
    count = draw.choice((0, 1, 2, 3, 5))
    defects = [_defect(draw, i, (length, width), unit, near, build) for i in range(count)]
    if defects:
        panel["defects"] = defects
    if not live and draw.random() < 0.15:
        middle = [_in(unit, length * 0.75), _in(unit, width * 0.6)]
        panel["cutouts"] = [{"at": middle, "diameter": _in(unit, 120)}]
    return panel


def _datum(draw: Random, length: float, width: float, unit: float, *, corners: bool) -> Table:
    """Return what is measured from: mostly the edge, else a struck line or fewer corners."""
    way = draw.choice(("edge",) * 7 + ("struck", "one corner", "two corners"))
    way = way if corners or way == "struck" else "edge"
    if way == "struck":
        start = [_in(unit, length * 0.1), _in(unit, width * draw.uniform(0.05, 0.3))]
        end = [_in(unit, length * 0.9), _in(unit, width * draw.uniform(0.05, 0.3))]
        return {"datum": {"from": start, "to": end}}
    if way == "edge":
        return {}
    return {"damaged": draw.sample("ABCD", k=1 if way == "one corner" else 2)}


def _outline(draw: Random, length: float, width: float, unit: float, *, kept: bool) -> Table:
    if not kept and draw.random() < 0.2:
        skew = draw.uniform(0, 0.12)
        corners = [(0, 0), (length, 0), (length * (1 - skew), width), (length * skew / 2, width)]
        return {"points": [[_in(unit, x), _in(unit, y)] for x, y in corners]}
    outline: Table = {"length": _in(unit, length), "width": _in(unit, width)}
    ways = ("plain", "plain", "radius", "clips", "bows", "round")
    way = "plain" if kept else draw.choice(ways)
    if way == "radius":
        outline["radius"] = _in(unit, draw.choice((25, 40, 80)))
    elif way == "clips":
        outline["clips"] = [_in(unit, draw.choice((0, 0, 60, 90))) for _ in range(4)]
    elif way == "bows":
        outline["bows"] = [_in(unit, draw.uniform(-8, 8)) for _ in range(4)]
    elif way == "round":
        outline |= {"length": _in(unit, width), "radius": _in(unit, width) / 2}
    return outline


def _live_edges(draw: Random, length: float, width: float, unit: float) -> Table:
    """Return a slab with two wavy edges; its ends are square, so AB and CD are the edges."""
    stations = [length * i / 6 for i in range(7)]
    lower = [(x, -60 + draw.uniform(-12, 12)) for x in stations]
    upper = [(x, width + draw.uniform(-12, 12)) for x in reversed(stations)]
    return {"points": [[_in(unit, x), _in(unit, y)] for x, y in (*lower, *upper)]}


def _defect(
    draw: Random, index: int, size: tuple[float, float], unit: float, near: float, build: str
) -> Table:
    at = [_in(unit, draw.uniform(near, 1 - near) * long) for long in size]
    defect: Table = {"name": f"mark {index + 1}"}
    named = draw.random() < 0.8
    if named:
        defect["kind"] = draw.choice(DEFECT_KINDS)
    else:
        spoils = ("showing", "cutting", "bearing")
        defect["spoils"] = draw.sample(spoils, k=draw.choice((1, 2)))
    form = draw.choice(("round", "round", "long", "long", "cornered"))
    if form == "round":
        defect |= {"at": at, "diameter": _in(unit, draw.uniform(5, 90))}
    elif form == "long":
        defect |= {"at": at, "turn": draw.choice((0, 0, 90, -40))}
        defect["size"] = [_in(unit, draw.uniform(20, 200)), _in(unit, draw.uniform(5, 40))]
        if draw.random() < 0.2:
            defect["ends"] = _in(unit, draw.choice((20, 80)))
    else:
        reach = _in(unit, draw.uniform(10, 60))
        x, y = at
        corners = ((x, y), (x + reach, y), (x + reach, y + reach), (x, y + reach / 2))
        defect["points"] = [[round(px, 6), round(py, 6)] for px, py in corners]
    if draw.random() < 0.2:
        narrow = form == "round" and defect["diameter"] * unit < 14
        small = form == "round" and defect["diameter"] * unit < 30
        left_out = {"sand"} | ({"filler"} if not narrow else set()) | (set() if small else {"plug"})
        defect["mend"] = draw.choice([mend for mend in MENDS if mend not in left_out])
        if "sand" in MENDS and build == "solid" and draw.random() < 0.3:
            depth = 0.5 / unit if unit % INCH else 1 / 32 / (unit / INCH)
            defect |= {"mend": "sand", "face": "up", "depth": depth}
    elif draw.random() < 0.25:
        face = draw.choice(("down", "down", "up"))
        defect |= {"face": face, "depth": _in(unit, draw.uniform(2, 8))}
        defect["spoils"] = ["bearing"] if face == "down" else ["showing", "bearing"]
    if draw.random() < 0.2:
        defect["clear"] = _in(unit, draw.choice((2, 6, 10)))
    return defect


def _top(
    draw: Random, shape: str, length: float, width: float, unit: float, *, kept: bool
) -> Table:
    top: Table = {"shape": shape}
    if shape == "own outline":
        outline = draw.choice(OWN_OUTLINES)
        size = 0.5 * min(length, width / 0.55)
        top["outline"] = [[_in(unit, x * size), _in(unit, y * size)] for x, y in outline]
    if shape == "piece as found":
        edges = draw.choice((["AB", "CD"], ["AB", "CD"], ["AB"]))
        top |= {"keep": edges, "ends": draw.choice(("square", "half-round"))}
        if len(edges) == 1:
            top["ends"] = "square"
    if kept:
        top["keep"] = draw.choice(("AB", "CD"))
    if shape == "rounded rectangle" and draw.random() < 0.5:
        top["corner_radius"] = _in(unit, draw.choice((20, 80, 120)))
    if shape == "superellipse":
        top["exponent"] = draw.choice((2.5, 3, 4))
    if shape not in ("own outline", "piece as found"):
        if draw.random() < 0.3:
            top["most_turn"] = draw.choice((0, 5, 15))
        if draw.random() < 0.2:
            top["most_ratio"] = draw.choice((1.6, 2, 3))
        if draw.random() < 0.1:
            top["tape_error"] = _in(unit, 2)
        if shape != "superellipse" and not kept and draw.random() < 0.25:
            top["lipping"] = _in(unit, draw.choice((5, 8)))
    if draw.random() < 0.6:
        top["margin"] = _in(unit, draw.choice((4, 6, 10)))
    if draw.random() < 0.2:
        top["step"] = _in(unit, draw.choice((1, 10)))
    if "lipping" not in top and draw.random() < 0.4:
        top["round_over"] = _in(unit, draw.choice((3, 6)))
    if draw.random() < 0.2:
        top["bevel"] = [_in(unit, 25), _in(unit, 8)]
    return top


def _legs(draw: Random, length: float, width: float, unit: float) -> Table:
    foot = draw.choice(FOOT_SHAPES)
    legs: Table = {"foot": foot}
    slab, tube = foot == "slab", "tube" in foot or foot == "ring"
    count = 2 if slab else draw.choice((3, 4, 4, 4, 6, 8))
    placed = not slab and draw.random() < 0.12
    if placed:
        x, y = _in(unit, 0.15 * width), _in(unit, 0.12 * width)
        legs["at"] = [[-x, -y], [x, -y], [0, y]] if count == 3 else [
            [-x, -y], [x, -y], [x, y], [-x, y]
        ]  # fmt: skip
    elif draw.random() < 0.15 and not slab:
        legs["counts"] = [4, count] if count != 4 else [3, 4]
    else:
        legs["count"] = count
    legs["height"] = _in(unit, draw.choice((400, 480, 690, 700, 720)))
    if slab:
        legs["size"] = [_in(unit, 45), _in(unit, width * 0.35)]
    elif foot == "rectangular":
        legs["size"] = [_in(unit, 80), _in(unit, 50)]
    else:
        legs["size"] = _in(unit, draw.choice((40, 50, 60)))
    legs["material"] = draw.choice(LEG_WOODS)
    if tube:
        legs |= {"wall": _in(unit, 3), "material": "steel"}
    elif foot == "rectangular" and draw.random() < 0.3:
        legs["material"] = draw.choice(("brick", "fired clay", "concrete"))
    masonry = legs["material"] in ("brick", "fired clay", "concrete")
    fixings = ("glued", "loose") if masonry else ("screwed", "screwed", "glued", "loose")
    legs["fixing"] = draw.choice(fixings)
    if legs["fixing"] == "glued" and draw.random() < 0.4:
        legs["glue"] = draw.choice(("rigid", "flexible"))
    if "count" in legs and not slab and draw.random() < 0.25:
        legs["goal"] = draw.choice(("most stable", "sags least", "even overhang", "most knee room"))
    elif "count" in legs and draw.random() < 0.25:
        legs["inset"] = _in(unit, draw.choice((40, 60)))
    if legs["fixing"] == "screwed" and draw.random() < 0.3:
        legs["plate"] = [_in(unit, 90), _in(unit, 90)]
        if draw.random() < 0.4:
            legs["plate_holes"] = [_in(unit, 60), _in(unit, 60)]
    if foot in ("round", "square") and draw.random() < 0.3:
        leans = ("outwards", "towards the ends", "towards the sides")
        legs |= {"splay": 8, "lean": draw.choice(leans)}
    if draw.random() < 0.2:
        legs["seated"] = False
    if draw.random() < 0.15:
        legs["apron"] = True
    return legs


def _tools(draw: Random, unit: float) -> Table:
    tools: Table = {"kerf": _in(unit, draw.choice((2, 2.5, 3)))}
    if draw.random() < 0.6:
        tools["guide_left"] = _in(unit, 115)
    if draw.random() < 0.4:
        tools["guide_right"] = _in(unit, 38)
    if draw.random() < 0.3:
        tools["router"] = False
    if draw.random() < 0.3:
        tools["allowance"] = _in(unit, draw.choice((1, 2, 4)))
    if draw.random() < 0.15:
        tools["end_allowance"] = _in(unit, 5)
    if draw.random() < 0.15:
        tools["curve_allowance"] = _in(unit, draw.choice((2, 4)))
    if draw.random() < 0.3:
        tools["show_face"] = draw.choice(("up", "down"))
    if draw.random() < 0.2:
        tools |= {"bit": _in(unit, 16), "bush": _in(unit, 24)}
    if draw.random() < 0.15:
        tools["pass_depth"] = _in(unit, 8)
    return tools


def _template(draw: Random, shape: str) -> Table:
    template: Table = {"paper": draw.choice(("A4", "A4", "A3", "Letter"))}
    if draw.random() < 0.2:
        template["mirrored"] = True
    if shape not in ("own outline", "piece as found") and draw.random() < 0.2:
        template["portion"] = "whole"
    return template


def toml_of(job: Table) -> str:
    """Return a job file of a table of tables; what lies deeper is written inline."""
    lines = [f"{key} = {_value(value)}" for key, value in job.items() if _is_plain(value)]
    for name, table in job.items():
        if not _is_plain(table):
            lines += ["", f"[{name}]", *(f"{key} = {_value(v)}" for key, v in table.items())]
    return "\n".join(lines) + "\n"


def _is_plain(value: object) -> bool:
    return not isinstance(value, dict)


def _value(value: object) -> str:
    if isinstance(value, dict):
        return "{ " + ", ".join(f"{key} = {_value(v)}" for key, v in value.items()) + " }"
    if isinstance(value, list | tuple):
        return "[" + ", ".join(map(_value, value)) + "]"
    return json.dumps(value)
