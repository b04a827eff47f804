"""Keys of the top of the file and of the old panel."""

from __future__ import annotations

from ...keys.figures import ABOVE_0, FROM_0, Counts, Number, Range, count, degrees
from ...keys.key import Key, Section
from ...keys.kinds import Choice, Text, names
from ...keys.plane import Choices, Points, Table
from ...legs.movement import SWING
from ...panel.build import Kind as BuildKind
from ...panel.corners import LETTERS
from ...panel.materials import MATERIALS
from ...panel.past import Coat, Was
from ...units import Units

HEAD = Section(
    "",
    "The top of the file, above all tables.",
    (
        Key(
            "units",
            Choice(
                {unit.value: unit for unit in Units},
                {"inch": "in", "inches": "in", "feet": "ft", "foot": "ft", "millimetres": "mm"},
            ),
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
        Key("template", Table("table"), "The printed template", example="{ }"),
    ),
)

PANEL = Section(
    "[panel]",
    "The old panel as it lies, show face up: the origin at its datum corner A, x along the datum "
    "edge, y up; corners A, B, C, D run anticlockwise. An outline given by points has "
    "a corner where it turns by 30° or more between edges that are not short; A is the one nearest "
    "the lower left. An edge is called by its two corners, `AB`.",
    (
        Key("name", Text(), "What the maker calls it", "panel", '"panel"', '"north door"'),
        Key(
            "outline",
            Table("table, see `[panel.outline]`"),
            "Its outline; must be given",
            example="{ length = 1981, width = 838 }",
        ),
        Key(
            "cutouts",
            Table("list of rings `[[x, y], …]` or of tables, see `[[panel.cutouts]]`"),
            "What has been cut out of it; a cut-out may run over an edge",
            (),
            "none",
            "[[[900, 748], [1090, 748], [1090, 838], [900, 838]]]",
        ),
        Key(
            "defects",
            Table("list of tables, see `[[panel.defects]]`"),
            "What is wrong with it",
            (),
            "none",
            "[{ at = [60, 400], diameter = 8 }]",
        ),
        Key("thickness", ABOVE_0, "Its thickness; a plan needs it, a fit does not", example="44"),
        Key(
            "flattened",
            ABOVE_0,
            "Its thickness once both faces are flattened: a slab is cut roughly to length, "
            "flattened, rested and marked again, and legs, weight and cuts follow this figure",
            None,
            "as `thickness`",
            "42",
        ),
        Key(
            "build",
            Choice(
                {kind.value: kind for kind in BuildKind},
                {
                    "solid wood": "solid",
                    "ply": "plywood",
                    "chipboard": "particleboard",
                    "lumber core": "blockboard",
                    "veneered": "veneered board",
                    "solid core": "veneered board",
                    "hollow core": "hollow",
                    "frame and panel": "framed",
                },
            ),
            "How it is built",
            BuildKind.SOLID,
            '"solid"',
            '"veneered board"',
        ),
        Key(
            "stile",
            FROM_0,
            "Solid wood along its long edges, for a hollow or framed build",
            0.0,
            "0",
            "100",
        ),
        Key(
            "rail",
            FROM_0,
            "Solid wood along its short edges, for a hollow or framed build",
            0.0,
            "0",
            "120",
        ),
        Key(
            "between",
            Points(1),
            "Rails between the ends of a framed build, like a door's lock rail: of each how far "
            "its middle lies along the panel from the end nearest to A, and its width",
            (),
            "none",
            "[[965, 200]]",
        ),
        Key(
            "material",
            Choice(names(*MATERIALS), described="a material, listed below"),
            "What it is weighed as",
            "",
            "what is usual for the build",
            '"oak"',
        ),
        Key(
            "grain",
            degrees(-360, 360),
            "Direction of the grain of its show face, from x",
            0.0,
            "0",
            "90",
        ),
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
            "was",
            Choice(
                {was.value: was for was in Was},
                {
                    "flush door": "door",
                    "table": "furniture",
                    "tabletop": "furniture",
                    "desk": "furniture",
                    "worktop": "kitchen",
                    "lab": "laboratory",
                    "lab bench": "laboratory",
                    "floorboard": "floor",
                    "fence": "outdoors",
                    "decking": "outdoors",
                    "sleeper": "outdoors",
                },
            ),
            "What it was: its cautions follow from that",
            None,
            "not known",
            '"door"',
        ),
        Key(
            "finish",
            Choices(
                Choice(
                    {coat.value: coat for coat in Coat},
                    {
                        "bare": "none",
                        "bare wood": "none",
                        "old varnish": "varnish",
                        "lacquer": "varnish",
                        "white paint": "paint",
                        "lino": "linoleum",
                        "melamine": "laminate",
                        "bitumen": "black glue",
                        "tar": "creosote",
                        "treated": "preservative",
                    },
                ),
                one_will_do=True,
            ),
            "What is on its faces, and glued to its back",
            (),
            "not known",
            '["varnish", "black glue"]',
        ),
        Key(
            "year",
            count(1000, 2200, "write the year in four figures"),
            "When it was made, as far as known",
            None,
            "not known",
            "1962",
        ),
        Key(
            "datum",
            Table("table, see `[panel.datum]`"),
            "A struck line to measure from",
            None,
            "the datum edge",
            "{ from = [100, 50], to = [1900, 50] }",
        ),
        Key(
            "damaged",
            Choices(Choice(names(*LETTERS), described='letters, `"A"` to `"O"`')),
            "Corners that are missing, or that no tape should be held to",
            (),
            "none",
            '["A", "C"]',
        ),
    ),
)
