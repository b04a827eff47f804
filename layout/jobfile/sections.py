"""Every table of a job file: the keys that fields declare, and those that fill no single field."""

from __future__ import annotations

from ..cutting.profile import EdgeProfile
from ..cutting.tools import Tools
from ..fit.wish import Limits, Wish
from ..keys.figures import ANY_LENGTH, Counts, Number, Range, count
from ..keys.key import Key, Section, Values, keys_of
from ..keys.kinds import Choice, Text, names
from ..keys.place import UNREADABLE, Place, closest, shown
from ..keys.plane import At, Table
from ..legs.foot import Foot
from ..legs.movement import SWING
from ..legs.table_wish import TableWish
from ..legs.wish import FixingPlate, LegsWish
from ..money.price import MoneyWish
from ..offcuts.wish import OffcutWish
from ..panel.build import Build
from ..panel.outline import Measured
from ..panel.panel import Panel
from ..panel.told import Spot, Told
from ..plan.job import DAMAGED, UNITS, Job
from ..template.wish import TemplateWish
from ..units import Units
from ..work.items import ITEMS
from ..work.wish import MaterialsWish, WorkWish

HEAD = Section(
    "",
    "The top of the file, above all tables.",
    (
        Key(
            "units",
            UNITS,
            "What a length counts in that is written as a bare number; the sheets use inches and "
            "fractions for `in` and `ft`, millimetres otherwise",
            Units.MM,
            '"mm"',
            '"in"',
        ),
        Key(
            "name",
            Text(),
            "What the sheets are headed with",
            None,
            "the panel's name",
            '"hall table"',
        ),
        Key("panel", Table("table"), "The old panel", example="{ }"),
        Key("top", Table("table"), "The tops to look for", example="{ }"),
        Key("legs", Table("table"), "The legs; leave the table out for a top alone", example="{ }"),
        Key("tools", Table("table"), "What it is cut with", example="{ }"),
        Key("offcuts", Table("table"), "What is kept of what falls off", example="{ }"),
        Key("template", Table("table"), "The printed template", example="{ }"),
        Key("materials", Table("table"), "Finish and materials", example="{ }"),
        Key("work", Table("table"), "Hours", example="{ }"),
        Key("money", Table("table"), "What to ask for the piece", example="{ }"),
    ),
)

PANEL = Section(
    "[panel]",
    "The old panel as it lies, show face up: the origin at its datum corner A, x along the datum "
    "edge, y up; corners A, B, C, D run anticlockwise. An outline given by points has "
    "a corner where it turns by 30° or more between edges that are not short; A is the one nearest "
    "the lower left. An edge is called by its two corners, `AB`.",
    (
        *keys_of(Panel),
        *keys_of(Build),
        Key(
            "moisture",
            Counts(Number("percent", Range(0, 30)), rising=True),
            "Of solid wood: least and most that its moisture comes to over the year, where the "
            "table will stand; between 6 and 14 in rooms",
            None,
            f"a swing of {SWING:g}, as in heated rooms",
            "[8, 12]",
        ),
        Key(
            "sawn",
            Choice(names("flat", "quarter"), {"plain": "flat", "quarter-sawn": "quarter"}),
            "How solid wood is sawn: on the quarter it moves about half as much",
            "flat",
            '"flat"',
            '"quarter"',
        ),
        Key(
            "datum",
            Table("table, see `[panel.datum]`"),
            "A struck line to measure from",
            usual="the datum edge",
            example="{ from = [100, 50], to = [1900, 50] }",
        ),
        Key(
            "damaged",
            DAMAGED,
            "Corners that are missing, or that no tape should be held to",
            (),
            "none",
            '["A", "C"]',
        ),
    ),
)

OUTLINE = Section(
    "[panel.outline]",
    "Either `length` and `width`, with corners rounded or clipped, or `points`; each edge may bow. "
    "A round panel has a `diameter`, an oval one two `axes`: their box starts at the origin.",
    keys_of(Measured),
)

BOW = Section(
    "[[panel.outline.bows]]",
    "An edge that bows; with `points`, or for single edges of a panel given by its sides.",
    (
        Key(
            "from",
            count(1, 100_000, "count the points from 1"),
            "Number of the corner, from 1, at "
            "which the edge starts, in the order of the file; must be given",
            example="2",
        ),
        Key(
            "rise",
            ANY_LENGTH,
            "How far its middle lies outside the straight line between its "
            "corners; negative inside; must be given",
            example="-8",
        ),
    ),
)

DATUM = Section(
    "[panel.datum]",
    "Two struck points P and Q to measure from where the edge or its corners do not serve.",
    (
        Key("from", At(), "P; must be given", example="[100, 50]"),
        Key("to", At(), "Q; must be given", example="[1900, 50]"),
    ),
)

CUT_OUT = Section(
    "[[panel.cutouts]]", "A cut-out that is round, rectangular or has corners.", keys_of(Spot)
)

DEFECT = Section("[[panel.defects]]", "One defect: where it is, and what it spoils.", keys_of(Told))

TOP = Section(
    "[top]",
    "The tops to look for, and the limits that the finished top keeps. All sizes are of the "
    "finished top, lipping included; its length is its longer side.",
    (*keys_of(Wish), *keys_of(Limits), *keys_of(EdgeProfile), *keys_of(Job)),
)

LEGS = Section(
    "[legs]",
    "The legs. Without this table the job is a top alone.",
    (*keys_of(LegsWish), *keys_of(Foot), *keys_of(FixingPlate), *keys_of(TableWish)),
)

TOOLS = Section("[tools]", "What the top is cut with.", keys_of(Tools))

OFFCUTS = Section("[offcuts]", "What is kept of what falls off.", keys_of(OffcutWish))

TEMPLATE = Section(
    "[template]",
    "The printed template. `panelwright template` takes the same choices on the command line.",
    keys_of(TemplateWish),
)

MATERIALS = Section(
    "[materials]",
    "Finish and materials. All of it is reckoned where the table is left out. `need`, `have` and "
    f"`price` go by these names: {', '.join(f'`{name}`' for name in ITEMS)}.",
    keys_of(MaterialsWish),
)

WORK = Section("[work]", "Hours, by the steps of the work.", keys_of(WorkWish))

MONEY = Section(
    "[money]",
    "What to ask for the piece. Sums are decimals of any currency, worked out without rounding. "
    "What is usually forgotten and left out here is asked for on the sheet.",
    keys_of(MoneyWish),
)

SECTIONS: tuple[Section, ...] = (
    HEAD, PANEL, OUTLINE, BOW, CUT_OUT, DATUM, DEFECT, TOP, LEGS, TOOLS, OFFCUTS, TEMPLATE,
    MATERIALS, WORK, MONEY,
)  # fmt: skip
"""Every table of a job file, in the order of the documents."""


def homes(name: str) -> tuple[str, ...]:
    """Return the headings under which there is a key of that name."""
    return tuple(
        section.heading or "the top of the file"
        for section in SECTIONS
        if section not in (BOW, CUT_OUT) and name in (key.name for key in section.keys)
    )


def read_section(raw: object, section: Section, place: Place) -> Values:
    """Return what a table says, having noted every key that is unknown or cannot be read."""
    keys = {key.name: key for key in section.keys}
    if not isinstance(raw, dict):
        if raw != UNREADABLE:
            place.wrong(f"{shown(raw)} is not a table: {_how(section)}")
        return Values(keys, place, {}, frozenset())
    held, meant = {}, set[str]()
    for name, value in raw.items():
        if name in keys:
            read = keys[name].kind.read(value, place / name)
            if read is not None:
                held[name] = read
        else:
            by_name = {word: key for key in section.keys for word in (*key.mistaken, key.name)}
            key = by_name.get(name) or by_name.get(closest(name, by_name) or "")
            meant.update((key.name,) if key else ())
            if value != UNREADABLE:
                (place / name).wrong(_unknown(name, section, key))
    return Values(keys, place, held, frozenset(keys).intersection(raw), frozenset(meant))


def _unknown(name: str, section: Section, meant: Key | None) -> str:
    """Return what is told of a key that is none of a table, and may be meant for one of its own."""
    elsewhere = homes(name)
    if meant is not None and name in meant.mistaken:
        hint = f"; write {meant.name} = {meant.example}"
    elif elsewhere:
        hint = f"; it belongs under {' or '.join(elsewhere)}"
    else:
        hint = f"; did you mean {meant.name}?" if meant else ""
    where = section.heading or "the top of the file"
    known = ", ".join(key.name for key in section.keys)
    return f"the key is not known in {where}{hint}; known are {known}"


def _how(section: Section) -> str:
    if section.heading.count(".") > 1 or section.heading.startswith("[["):
        return "write { key = value, … }"
    return f"open it with {section.heading} and put its keys below, or write {{ key = value, … }}"
