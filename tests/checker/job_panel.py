"""The panel of a job by its own figures: outline, cut-outs, thickness, what is wrong with it."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from checker.plane import Frame, Pair, add, arc, bow, disk, distance, grown, sub, unit
from shapely import MultiPoint, Polygon
from shapely.geometry.base import BaseGeometry

Table = dict[str, Any]
Length = Callable[[object], float]

USUAL = {  # README, "kinds of defects": what each spoils, kept clear all round, and past its ends
    "hole": ("showing bearing", 6.0, 0.0),
    "metal": ("cutting bearing", 15.0, 0.0),
    "pocket": ("cutting bearing", 6.0, 0.0),
    "joint": ("cutting bearing", 6.0, 0.0),
    "split": ("showing bearing", 6.0, 50.0),
    "rot": ("showing bearing", 25.0, 0.0),
    "stain": ("showing", 3.0, 0.0),
    "chip": ("showing", 3.0, 0.0),
    "dent": ("showing", 3.0, 0.0),
    "swelling": ("showing bearing", 25.0, 0.0),
    "glued joint": ("", 0.0, 0.0),
    "finish stain": ("", 0.0, 0.0),
}
ALIASES = {"nail": "metal", "screw": "metal", "crack": "split", "mortise": "pocket",
           "screw hole": "hole", "frame joint": "joint", "glue line": "glued joint",
           "ring": "finish stain", "ring stain": "finish stain",
           "water ring": "finish stain"}  # fmt: skip
MENDS = {"keys": "key", "butterfly": "key", "bow-tie": "key", "fill": "filler", "epoxy": "resin",
         "sanding": "sand"}  # fmt: skip


@dataclass(frozen=True)
class Blemish:
    """One defect."""

    name: str
    kind: str
    place: Polygon
    """With what it is drawn out by past its ends."""
    clear: float
    spoils: frozenset[str]
    mend: str | None

    @property
    def reach(self) -> BaseGeometry:
        """What is kept clear round it."""
        return grown(self.place, self.clear)

    @property
    def shows(self) -> bool:
        """Whether it must lie outside the top."""
        return "showing" in self.spoils and self.mend is None

    @property
    def stays_whole(self) -> bool:
        """Whether the edge of the top may not run through it, though it may lie inside."""
        return not self.shows and (
            "cutting" in self.spoils or self.mend in ("plug", "patch", "filler")
        )


def outline_of(table: Table, mm: Length) -> tuple[Polygon, tuple[Pair, ...]]:
    """Return a panel's outline and its nominal corners A, B, C, D (those of its points)."""
    if "points" in table:
        named: tuple[Pair, ...] = tuple((mm(x), mm(y)) for x, y in table["points"])
        rises = [0.0] * len(named)
        for item in table.get("bows", ()):
            rises[item["from"] - 1] = mm(item["rise"])
        ring = [p for i, a in enumerate(named)
                for p in bow(a, named[(i + 1) % len(named)], rises[i])[:-1]]  # fmt: skip
        return Polygon(ring), named
    long, wide = mm(table["length"]), mm(table["width"])
    named = ((0.0, 0.0), (long, 0.0), (long, wide), (0.0, wide))
    radii = [mm(r) for r in table.get("radii", [table.get("radius", 0)] * 4)]
    clips = [mm(c) for c in table.get("clips", [table.get("clip", 0)] * 4)]
    rises = [mm(b) for b in table.get("bows", [0] * 4)]
    ring = []
    for i, corner in enumerate(named):
        back, on = (unit(sub(named[(i + k) % 4], corner)) for k in (-1, 1))
        cut = max(radii[i], clips[i])
        first, last = add(corner, back, cut), add(corner, on, cut)
        if radii[i]:
            centre = add(add(corner, back, cut), on, cut)
            start = math.atan2(first[1] - centre[1], first[0] - centre[0])
            ring += arc(centre, cut, start, math.pi / 2)
        else:
            ring += [first, last] if cut else [corner]
        following = (i + 1) % 4
        end = add(named[following], unit(sub(corner, named[following])),
                  max(radii[following], clips[following]))  # fmt: skip
        if distance(last, end) > 1e-6:
            ring += bow(last, end, rises[i])[1:-1]
    return Polygon([p for p, q in zip(ring, [*ring[1:], ring[0]], strict=True) if p != q]), named


def spot(
    table: Table | list[Any], mm: Length, drawn_out: float = 0.0, grain: float = 0.0
) -> Polygon:
    """Return the ground of a defect or a cut-out.

    Harm runs on unseen past both ends of an oblong; of any other form along the grain.
    """
    ground = _ground(table, mm, drawn_out)
    oblong = isinstance(table, dict) and isinstance(table.get("size"), list)
    if drawn_out == 0 or (oblong and table["size"][0] != table["size"][-1]):
        return ground
    way = (math.cos(grain) * drawn_out, math.sin(grain) * drawn_out)
    ends = [add(corner, way, side) for corner in ground.exterior.coords for side in (-1, 1)]
    return Polygon(MultiPoint(ends).convex_hull)


def _ground(table: Table | list[Any], mm: Length, drawn_out: float) -> Polygon:
    if isinstance(table, list):
        return Polygon([(mm(x), mm(y)) for x, y in table])
    if "points" in table:
        return Polygon([(mm(x), mm(y)) for x, y in table["points"]])
    at: Pair = (mm(table["at"][0]), mm(table["at"][1]))
    if "diameter" in table:
        return disk(at, mm(table["diameter"]) / 2)
    size = table["size"] if isinstance(table["size"], list) else [table["size"]] * 2
    x, y = mm(size[0]) / 2, mm(size[1]) / 2
    x, y = (x + drawn_out, y) if x > y else (x, y + drawn_out) if x < y else (x, y)
    frame = Frame(at, math.radians(table.get("turn", 0)))
    return Polygon([frame.out(p) for p in ((-x, -y), (x, -y), (x, y), (-x, y))])


def blemish(table: Table, number: int, mm: Length, grain: float, blades: float) -> Blemish:
    """Return a defect with what its kind is usually taken to spoil and reach.

    What no blade may cross is kept clear by no less than `blades`, mm, where no `clear` is given.
    """
    kind = ALIASES.get(table.get("kind", ""), table.get("kind", ""))
    spoils, clear, ends = USUAL.get(kind, ("showing bearing", 0.0, 0.0))
    held = set(spoils.split())
    if table.get("face") == "down":
        held -= {"showing"}
    given = table.get("spoils", sorted(held))
    if "clear" in table:
        clear = mm(table["clear"])
    else:
        clear = max(
            clear, ends if "points" in table else 0.0, blades if "cutting" in given else 0.0
        )
    ends = mm(table["ends"]) if "ends" in table else ends
    return Blemish(
        name=table.get("name") or f"{table.get('kind', 'defect')} {number}",
        kind=kind,
        place=spot(table, mm, max(0.0, ends - clear), grain),
        clear=clear,
        spoils=frozenset([given] if isinstance(given, str) else given),
        mend=MENDS.get(table.get("mend", ""), table.get("mend")),
    )
