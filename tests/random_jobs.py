"""Whole random jobs, as a maker could write them: every shape, build, face and foot.

``job_text(number)`` gives the same job for the same number on every machine, so that figures of a
job can be kept and compared later; ``jobs`` draws them for hypothesis.
"""

from __future__ import annotations

import json
from random import Random
from typing import Any

from hypothesis import strategies as st

Table = dict[str, Any]

INCH = 25.4
BUILDS = ("solid", "plywood", "MDF", "particleboard", "blockboard", "veneered board", "hollow")
SOLID_WOODS = ("oak", "ash", "beech", "pine", "elm", "iroko", "teak", "walnut")
LEG_WOODS = ("oak", "ash", "beech", "pine")
DEFECT_KINDS = (
    "hole", "metal", "pocket", "joint", "split", "rot", "stain", "chip", "dent", "swelling",
)  # fmt: skip
SHAPES = (
    "circle", "rectangle", "rounded rectangle", "capsule", "oval", "superellipse", "hexagon",
    "octagon", "own outline", "piece as found",
)  # fmt: skip
OWN_OUTLINES = (
    ((0, 0), (1, 0), (1, 0.42), (0.45, 0.42), (0.45, 0.8), (0, 0.8)),  # an L
    ((0, 0.1), (0.5, 0), (1, 0.1), (1, 0.5), (0.5, 0.6), (0, 0.5)),  # bowed sides, by corners
    ((0, 0), (1, 0), (0.8, 0.55), (0.2, 0.55)),
)
"""Corners, in lengths of the outline."""

jobs = st.integers(min_value=0, max_value=10**9).map(lambda n: job_text(n))


def job_text(number: int) -> str:
    """Return the job file of a number."""
    return toml_of(random_job(Random(number)))


def random_job(draw: Random) -> Table:
    """Return the tables of a job file: a panel, a top, and mostly legs and tools."""
    shape = draw.choice(SHAPES)
    imperial = draw.random() < 0.2
    unit = INCH if imperial else 1.0
    length, width = draw.uniform(700, 2400), draw.uniform(400, 950)
    length = max(length, width)
    job: Table = {"units": "in" if imperial else "mm", "name": f"{shape} of the lower hall"}
    job["panel"] = _panel(draw, shape, length, width, unit)
    job["top"] = _top(draw, shape, length, width, unit)
    if draw.random() < 0.75:
        job["legs"] = _legs(draw, length, width, unit)
    job["tools"] = _tools(draw, unit)
    job["template"] = _template(draw, shape)
    return job


def _in(unit: float, millimetres: float) -> float:
    """Return a length in the job's units, in sixteenths of an inch or half millimetres."""
    step = INCH / 16 if unit == INCH else 0.5
    return round(round(millimetres / step) * step / unit, 6)


def _panel(draw: Random, shape: str, length: float, width: float, unit: float) -> Table:
    live = shape == "piece as found"
    build = "solid" if live else draw.choice(BUILDS)
    thickness = draw.choice((18, 22, 25, 28, 38, 44) if not live else (42, 48, 55))
    panel: Table = {
        "name": "panel from the drawing room",
        "outline": _live_edges(draw, length, width, unit) if live else
        _outline(draw, length, width, unit),
        "thickness": _in(unit, thickness),
        "build": build,
    }  # fmt: skip
    if build == "solid":
        panel["material"] = draw.choice(SOLID_WOODS)
        if draw.random() < 0.3:
            panel["moisture"] = [7, 12]
        if draw.random() < 0.3:
            panel["flattened"] = _in(unit, thickness - 3)
    if build == "hollow":
        panel |= {"stile": _in(unit, 60), "rail": _in(unit, 80)}
    if draw.random() < 0.3:
        panel["grain"] = draw.choice((0, 90, 30))
    if draw.random() < 0.4:
        panel["year"] = draw.choice((1931, 1962, 1977, 1985, 2004))
    if draw.random() < 0.3:
        panel["finish"] = draw.choice(("old varnish", "white paint", "oil"))
    defects = [_defect(draw, i, length, width, unit) for i in range(draw.choice((0, 1, 2, 3, 5)))]
    if defects:
        panel["defects"] = defects
    if not live and draw.random() < 0.15:
        middle = [_in(unit, length * 0.75), _in(unit, width * 0.6)]
        panel["cutouts"] = [{"at": middle, "diameter": _in(unit, 120)}]
    return panel


def _outline(draw: Random, length: float, width: float, unit: float) -> Table:
    if draw.random() < 0.2:
        skew = draw.uniform(0, 0.12)
        corners = [(0, 0), (length, 0), (length * (1 - skew), width), (length * skew / 2, width)]
        return {"points": [[_in(unit, x), _in(unit, y)] for x, y in corners]}
    outline: Table = {"length": _in(unit, length), "width": _in(unit, width)}
    way = draw.choice(("plain", "plain", "radius", "clips", "bows"))
    if way == "radius":
        outline["radius"] = _in(unit, draw.choice((25, 40, 80)))
    elif way == "clips":
        outline["clips"] = [_in(unit, draw.choice((0, 0, 60, 90))) for _ in range(4)]
    elif way == "bows":
        outline["bows"] = [_in(unit, draw.uniform(-8, 8)) for _ in range(4)]
    return outline


def _live_edges(draw: Random, length: float, width: float, unit: float) -> Table:
    """Return a slab with two wavy edges; its ends are square, so AB and CD are the edges."""
    stations = [length * i / 6 for i in range(7)]
    lower = [(x, -60 + draw.uniform(-12, 12)) for x in stations]
    upper = [(x, width + draw.uniform(-12, 12)) for x in reversed(stations)]
    return {"points": [[_in(unit, x), _in(unit, y)] for x, y in (*lower, *upper)]}


def _defect(draw: Random, index: int, length: float, width: float, unit: float) -> Table:
    at = [_in(unit, draw.uniform(0.03, 0.97) * length), _in(unit, draw.uniform(0.03, 0.97) * width)]
    defect: Table = {"name": f"mark {index + 1}", "at": at}
    if draw.random() < 0.8:
        defect["kind"] = draw.choice(DEFECT_KINDS)
    else:
        spoils = ("showing", "cutting", "bearing")
        defect["spoils"] = draw.sample(spoils, k=draw.choice((1, 2)))
    if draw.random() < 0.5:
        defect["diameter"] = _in(unit, draw.uniform(5, 90))
    else:
        defect["size"] = [_in(unit, draw.uniform(20, 200)), _in(unit, draw.uniform(5, 40))]
        defect["turn"] = draw.choice((0, 0, 90, -40))
    if draw.random() < 0.2:
        defect["mend"] = draw.choice(("patch", "key"))
    elif draw.random() < 0.2:
        defect |= {"face": "down", "depth": _in(unit, draw.uniform(2, 8)), "spoils": ["bearing"]}
    if draw.random() < 0.2:
        defect["clear"] = _in(unit, draw.choice((2, 6, 10)))
    return defect


def _top(draw: Random, shape: str, length: float, width: float, unit: float) -> Table:
    top: Table = {"shape": shape}
    if shape == "own outline":
        outline = draw.choice(OWN_OUTLINES)
        size = 0.5 * min(length, width / 0.55)
        top["outline"] = [[_in(unit, x * size), _in(unit, y * size)] for x, y in outline]
    if shape == "piece as found":
        top |= {"keep": ["AB", "CD"], "ends": draw.choice(("square", "half-round"))}
    if shape == "rounded rectangle" and draw.random() < 0.5:
        top["corner_radius"] = _in(unit, draw.choice((20, 80, 120)))
    if shape == "superellipse":
        top["exponent"] = draw.choice((2.5, 3, 4))
    if shape not in ("own outline", "piece as found"):
        if draw.random() < 0.3:
            top["most_turn"] = draw.choice((0, 5, 15))
        if draw.random() < 0.2:
            top["most_ratio"] = draw.choice((1.6, 2, 3))
        if shape != "superellipse" and draw.random() < 0.2:
            top["lipping"] = _in(unit, draw.choice((5, 8)))
    if draw.random() < 0.6:
        top["margin"] = _in(unit, draw.choice((4, 6, 10)))
    if "lipping" not in top and draw.random() < 0.4:
        top["round_over"] = _in(unit, draw.choice((3, 6)))
    if draw.random() < 0.2:
        top["bevel"] = [_in(unit, 25), _in(unit, 8)]
    return top


def _legs(draw: Random, length: float, width: float, unit: float) -> Table:
    foot = draw.choice(("round", "square", "rectangular", "hexagonal", "ring", "slab"))
    legs: Table = {"foot": foot}
    legs["count"] = 2 if foot == "slab" else draw.choice((3, 4, 4, 4, 6, 8))
    legs["height"] = _in(unit, draw.choice((400, 480, 690, 700, 720)))
    if foot == "slab":
        legs["size"] = [_in(unit, 45), _in(unit, min(width, length) * 0.5)]
    elif foot == "rectangular":
        legs["size"] = [_in(unit, 80), _in(unit, 50)]
    else:
        legs["size"] = _in(unit, draw.choice((40, 50, 60)))
    if foot == "ring":
        legs |= {"wall": _in(unit, 3), "material": "steel"}
    else:
        legs["material"] = draw.choice(LEG_WOODS)
    legs["fixing"] = draw.choice(("screwed", "screwed", "glued", "loose"))
    if draw.random() < 0.3:
        legs["goal"] = draw.choice(("stands firmest", "even overhang", "most knee room"))
    if legs["fixing"] == "screwed" and draw.random() < 0.3:
        legs["plate"] = [_in(unit, 90), _in(unit, 90)]
    if foot in ("round", "square") and draw.random() < 0.3:
        legs |= {"splay": 8, "lean": draw.choice(("outwards", "towards the ends"))}
    if draw.random() < 0.2:
        legs["seated"] = False
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
    if draw.random() < 0.2:
        tools["show_face"] = draw.choice(("up", "down"))
    return tools


def _template(draw: Random, shape: str) -> Table:
    template: Table = {"paper": draw.choice(("A4", "A4", "A3", "Letter"))}
    if draw.random() < 0.2:
        template["mirrored"] = True
    if shape not in ("own outline", "piece as found") and draw.random() < 0.2:
        template["portion"] = draw.choice(("whole", "half"))
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
