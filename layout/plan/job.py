"""What the maker wrote: a job file as one value."""

from __future__ import annotations

import math
from dataclasses import dataclass, field, replace
from typing import Any

from ..cutting.mending import why_not
from ..cutting.profile import EdgeProfile
from ..cutting.tools import Tools
from ..errors import LayoutError, PanelError, Problem
from ..fit.wish import AS_FOUND, Keeping, Wish
from ..geometry.point import Point
from ..geometry.tolerance import SAME_POINT
from ..keys.figures import FROM_0, Length, Range
from ..keys.key import Values, hold, key, take
from ..keys.kinds import Choice, Kind, Only, Text, names
from ..keys.plane import Choices, Points
from ..legs.fixings import plate_keeps_in
from ..legs.movement import SWING
from ..legs.table_wish import TableWish
from ..legs.wish import LegsWish
from ..money.price import MoneyWish
from ..offcuts.wish import OffcutWish
from ..panel.defect import clear_of_blades
from ..panel.edges import LETTERS, Edge
from ..panel.named_edges import edge_named, require_opposite, require_straight, turn_along
from ..panel.panel import Panel
from ..template.wish import TemplateWish
from ..units import Tape, Units
from ..work.wish import MaterialsWish, WorkWish

STAND_IN_THICKNESS = 18.0
"""Thickness, mm, that a panel carries where the file gives none: a fit never looks at it, and a
plan refuses it (`Job.missing`). It is the commonest board (common practice)."""

UNITS = Choice(
    {unit.value: unit for unit in Units},
    {"inch": "in", "inches": "in", "feet": "ft", "foot": "ft", "millimetres": "mm"},
)

DAMAGED = Choices(Choice(names(*LETTERS), described='letters, `"A"` to `"O"`'))


UNSAID: Any = None
"""Where nothing is said: a job settles what is held then when it is made."""


@dataclass(frozen=True, slots=True)
class Job:
    """A panel, and what the maker wishes to make of it; a `LayoutError` says what cannot be."""

    panel: Panel
    wish: Wish
    """The tops to look for."""
    tools: Tools = field(default_factory=Tools)
    profile: EdgeProfile = field(default_factory=EdgeProfile)
    """What the edge of the finished top looks like."""
    template: TemplateWish = field(default_factory=TemplateWish)
    offcuts: OffcutWish = field(default_factory=OffcutWish)
    """What is kept of what falls off."""
    legs: LegsWish | None = None
    """None where the job is only a top."""
    table: TableWish = UNSAID
    """What is asked of the table on those legs; as is usual where it is left out."""
    materials: MaterialsWish = field(default_factory=MaterialsWish)
    """Finish and materials."""
    work: WorkWish = field(default_factory=WorkWish)
    """Hours."""
    money: MoneyWish = field(default_factory=MoneyWish)
    """What to ask for it."""
    units: Units = Units.MM
    """What the file is written in."""
    name: str = "job"
    """What the sheets are headed with."""
    margin: float = key(
        0.0,
        FROM_0,
        "Kept to the panel's edges and cut-outs: usually 9, so that a saw has wood on both sides; "
        "6 at sound edges that are routed, 10 at damaged ones",
        "9",
    )
    tape_error: float = key(
        0.0,
        Length(Range(0.0, 20.0), "measure again"),
        "How far any tape may have been out; it widens every margin and clearance",
        "2",
    )
    step: float = key(
        UNSAID,
        Length(Range(0.0, 100.0, above=True), "5 or 1/4 in is usual"),
        "The sheets round the size down to this",
        "10",
        usual=f"{Tape().step:g} mm, or 1/4 in",
    )
    datum: tuple[Point, Point] | None = None
    """Two struck points P and Q to measure from, where the datum edge does not serve."""
    damaged: tuple[str, ...] = ()
    """Letters of corners of the panel, as its datum names them, that are missing or that no tape
    should be held to."""
    missing: tuple[Problem, ...] = ()
    """What a plan needs and the file does not say; empty where it says all."""

    def __post_init__(self) -> None:
        for name, kind in _PARTS.items():
            if getattr(self, name) is not None or name not in ("legs", "datum", "table"):
                object.__setattr__(self, name, take(kind, getattr(self, name), name))
        hold(self, "top")
        if not self.wish.shapes:
            raise LayoutError('top.shape: no shape is wished for: name one, or "any"')
        object.__setattr__(self, "panel", self._panel())
        self._settle()
        object.__setattr__(self, "wish", tied(self.wish, self.panel))
        if self.datum and len(self.datum) > 2:
            raise LayoutError(f"datum: {len(self.datum)} points are no line: strike P and Q")
        if self.datum and self.datum[0].distance_to(self.datum[1]) <= SAME_POINT:
            raise LayoutError("P and Q are one point: strike them far apart")

    def _settle(self) -> None:
        """Settle what hangs on the units, or on the top that the legs go under, and is not told."""
        imperial, legs = self.units.is_imperial, self.legs
        if self.step is None:
            object.__setattr__(self, "step", self.tape.step)
        if self.table is None:
            material = legs.material if legs else ""
            object.__setattr__(self, "table", TableWish.usual(imperial=imperial, material=material))
        if legs is not None:
            keeps = plate_keeps_in(legs, self.panel.build.kind, self.table.holes)
            inside = max(self.profile.keep_in, keeps)
            legs = legs.under(self.panel.made_thickness, inside)
            object.__setattr__(self, "legs", legs)

    def _panel(self) -> Panel:
        """Return the panel with its defects clear of the tools, having held mends to what mends."""
        panel, blades = self.panel, self.tools.reach(self.panel.made_thickness)
        defects = tuple(clear_of_blades(one, panel.grain, blades) for one in panel.defects)
        for one in defects:
            refused = why_not(one, panel.build.kind, panel.finish, self.tape) if one.told else ""
            if refused:
                raise PanelError(f"{one.name}.mend: {refused}")
        return panel if defects == panel.defects else replace(panel, defects=defects)

    def to_toml(self) -> str:
        """Return the job file that gives this job again when it is read.

        A `LayoutError` is raised if the panel has curves that a file cannot hold. What a file has
        no key for is left out: how many steps a search may take, what a printer was corrected by.
        """
        from .as_tables import edge_table, keyed, legs_table, panel_table, top_table
        from .written import written

        units = self.units
        panel = panel_table(self.panel, units)
        if self.missing:
            panel.pop("thickness", None)
        if self.table.swing != SWING:
            panel["moisture"] = [0.0, self.table.swing]
        if self.table.quartered:
            panel["sawn"] = "quarter"
        if self.datum is not None:
            start, end = Points().spelt(self.datum, units)
            panel["datum"] = {"from": start, "to": end}
        if self.damaged:
            panel["damaged"] = list(self.damaged)
        edge = edge_table(self.profile, units)
        top = {**top_table(self.wish, units), **keyed(self, units), **edge}
        tables: dict[str, Any] = {"units": units.value, "name": self.name}
        tables |= {"panel": panel, "top": top}
        if self.legs is not None:
            tables["legs"] = legs_table(self.legs, self.table, units)
        for name in ("tools", "offcuts", "template", "materials", "work", "money"):
            held = keyed(getattr(self, name), units)
            if name == "template" and units.is_imperial:  # there another paper is usual
                held["paper"] = self.template.paper.name
            if held:
                tables[name] = held
        return written(tables)

    def __repr__(self) -> str:
        """Return it in one line."""
        return f"<Job {self.name!r}: {' or '.join(self.wish.shapes)} from {self.panel!r}>"

    @property
    def tape(self) -> Tape:
        """How the sheets of this job write a length."""
        return Tape(self.units.is_imperial)


_PARTS: dict[str, Kind] = {
    **{
        name: Only(cls, f"give {cls.__name__}(…)")
        for name, cls in (
            ("panel", Panel), ("tools", Tools), ("profile", EdgeProfile), ("offcuts", OffcutWish),
            ("template", TemplateWish), ("legs", LegsWish), ("materials", MaterialsWish),
            ("work", WorkWish), ("money", MoneyWish), ("table", TableWish),
        )
    },
    "wish": Only(Wish, 'give Wish(…), such as Wish("oval")'),
    "units": UNITS,
    "name": Text(),
    "datum": Points(2),
    "damaged": DAMAGED,
}  # fmt: skip
"""What each part of a job takes."""


def tied(wish: Wish, panel: Panel, values: Values | None = None) -> Wish:
    """Return the wish with the panel's grain, edges and points; note what the panel has not."""
    if wish.limits.grain_deg is not None and bool(wish.keep) == (wish.keeping is not None):
        return wish
    values = Values.of(wish, "top", beside=[wish.limits]) if values is None else values
    values.not_with("parallel_to", ("most_turn",), "parallel is no turn at all")
    values.not_with("keep", ("parallel_to",), "the top runs along the edge that is kept")
    values.not_with("keep", ("lipping",), "nothing is glued on a kept edge")
    for edge in _edges(values, "parallel_to", panel):
        turn = math.degrees(turn_along(edge))
        wish = replace(wish, limits=replace(wish.limits, grain_deg=turn, most_turn_deg=0.0))
    wish, face = _keeping(wish, values, panel), panel.region("outside")
    for name in ("covers", "avoids"):
        for i, point in enumerate(values[name] or ()):
            if not face.holds_point(point):
                (values.at(name) / i).wrong(
                    "it lies off the panel or in a cut-out: give a point of its face"
                )
    for i, point in enumerate(wish.avoids):
        if point in wish.covers:
            (values.at("avoids") / i).wrong("the top cannot both cover and avoid it: drop one")
    if wish.limits.grain_deg is None:
        wish = replace(wish, limits=replace(wish.limits, grain_deg=panel.grain_deg))
    return wish


def _keeping(wish: Wish, values: Values, panel: Panel) -> Wish:
    edges = _edges(values, "keep", panel)
    if not edges or len(edges) < len(values["keep"]):
        return wish
    place = values.at("keep")
    beside = [shape for shape in wish.shapes if shape != AS_FOUND]
    try:
        if len(edges) == 2 and beside:
            place.wrong(
                f'a "{beside[0]}" lies on one edge: keep one, or wish for a {AS_FOUND} alone'
            )
        elif len(edges) == 2:
            require_opposite(edges[0], edges[1], panel)
        elif beside:
            require_straight(edges[0], edges[0].name)
    except PanelError as error:
        place.wrong(str(error))
    return replace(wish, keeping=Keeping(tuple(edge.path for edge in edges), values["ends"]))


def _edges(values: Values, name: str, panel: Panel) -> list[Edge]:
    """Return the edges that a key names; note those that the panel has not."""
    named = values[name] or ()
    letters = (named,) if isinstance(named, str) else named
    edges = (values.at(name).made(edge_named, panel, pair) for pair in letters)
    return [edge for edge in edges if edge is not None]
