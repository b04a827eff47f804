"""The layers of every drawing: one meaning each, with line types after ISO 128-2."""

from __future__ import annotations

from .scene import Layer


def _dashed(width: float) -> tuple[float, ...]:
    """Dashes of 12 d with gaps of 3 d."""
    return (12 * width, 3 * width)


def _long_dash_dot(width: float) -> tuple[float, ...]:
    """Long dashes of 24 d, gaps of 3 d, dots of 0.5 d: the line of a centre."""
    return (24 * width, 3 * width, 0.5 * width, 3 * width)


PANEL = Layer("panel-edge", "Edge of the old panel", "#5b4a36", 0.5)
WOOD = Layer("panel-face", "Face of the old panel", "#f4ecdd", 0.18, hatching="solid")
CUT_OUT = Layer("cut-out", "Cut-out", "#5b4a36", 0.35)
DEFECT_SHOWING = Layer("spoils-showing", "Defect in the show face", "#a8452c", 0.25, (), "cross")
DEFECT_CUTTING = Layer("spoils-cutting", "No blade, bit or screw", "#7a2d8f", 0.35, (), "cross")
DEFECT_BEARING = Layer("spoils-bearing", "No leg or fixing", "#b07a12", 0.25, hatching="diagonal")
NOTED = Layer("noted", "Spoils nothing", "#6b6257", 0.18)
WASTE = Layer("waste", "Waste side", "#9a9a9a", 0.18, hatching="diagonal")
FINISH = Layer("finish-line", "Finish line", "#000000", 0.7)
CORE = Layer("core-line", "Core line (under the lipping)", "#000000", 0.5, _dashed(0.5))
ROUGH = Layer("rough-cut-line", "Rough-cut line", "#1f5fa8", 0.35, _dashed(0.35))
KEPT = Layer("kept-edge", "Kept edge", "#8a5a1c", 1.0, _long_dash_dot(0.5))
SAW_LINE = Layer("saw-line", "Saw line", "#1f5fa8", 0.5)
GUIDE = Layer("guide", "Edge of the guide", "#1c7c54", 0.25, _long_dash_dot(0.25))
CENTRELINE = Layer("centreline", "Centrelines", "#444444", 0.25, _long_dash_dot(0.25))
MARKS = Layer("marks", "Marks", "#b3123b", 0.35)
MARK_NAMES = Layer("mark-names", "Names of the marks", "#b3123b", 0.18)
DIMENSIONS = Layer("measures", "Measures", "#333333", 0.18)
LEGS = Layer("legs", "Legs", "#00707a", 0.35)
PLATES = Layer("plates", "Plates on the legs", "#00707a", 0.25)
FEET = Layer("feet-on-floor", "Feet on the floor", "#00707a", 0.25, _dashed(0.18))
TIPPING = Layer("tipping-line", "Lines over which it tips", "#b3123b", 0.25, _dashed(0.25))
PRESSED = Layer("tips-first", "Pressed here it tips first", "#b3123b", 0.35)
SEATS = Layer("places-to-sit", "Places to sit", "#1c7c54", 0.7)
SCREWS = Layer("screw-holes", "Screw holes", "#00707a", 0.25)
BATTENS = Layer("battens", "Battens underneath", "#8a5a1c", 0.25, _dashed(0.25))
OFFCUTS = Layer("offcuts", "Offcuts", "#4d7a1f", 0.25)
LETTERING = Layer("lettering", "Lettering", "#000000", 0.25)
SHEET = Layer("sheet-grid", "Seams and register marks", "#000000", 0.18)
MAP_LINE = Layer("map-outline", "Outline on the sheet map", "#000000", 0.35)
FLIP = Layer("flip-line", "Flip lines", "#1c7c54", 0.35, _long_dash_dot(0.35))
CHECK_BARS = Layer("check-bars", "Check bars", "#000000", 0.25)

# drawings of single steps
CONTACTS = Layer("contacts", "Where the top is held", "#b3123b", 0.5, hatching="solid")
DATUM = Layer("datum", "Datum line", "#c2570c", 0.7)
GHOST = Layer("new-top", "The new top", "#8a8175", 0.25)
CHECKS = Layer("check-distances", "Check distances", "#7a2d8f", 0.25)
METHOD = Layer("drawing-tool", "What draws the line", "#00707a", 0.35)
MENDS = Layer("mends", "Mends", "#00707a", 0.35)
FEED = Layer("feed", "Way of the router", "#00707a", 0.5)
SECTION = Layer("section", "Section through the edge", "#5b4a36", 0.5, hatching="diagonal")
GONE = Layer("gone", "What is taken off", "#9a9a9a", 0.25, _dashed(0.18))

# the bench sheet: ink alone, two weights, nothing that a tired printer loses first
INK = Layer("ink", "Ink", "#000000", 0.3, hatching="solid")
PAPER = Layer("paper", "Paper", "#ffffff", 0.3, hatching="solid")
THIN = Layer("thin", "Thin line", "#000000", 0.18)
BENCH_PANEL = Layer("lying-panel", "Edge of the old panel", "#000000", 0.5)
BENCH_FINISH = Layer("lying-finish", "Finished edge", "#000000", 1.1)
BENCH_CORE = Layer("lying-core", "Core", "#000000", 0.3)
BENCH_SAW = Layer("lying-saw", "Saw line", "#000000", 0.32)
BENCH_GUIDE = Layer("lying-guide", "Guide's edge", "#000000", 1.1)
BENCH_CENTRE = Layer("lying-centre", "Centreline", "#000000", 0.18, (6.0, 1.2, 0.6, 1.2))
BENCH_FALLS = Layer("falls", "Falls away", "#000000", 0.18, hatching="diagonal", hatch=(2.6, 0.12))
BENCH_DEFECT = Layer("defect", "Defect", "#000000", 0.25, hatching="cross", hatch=(1.5, 0.22))
BENCH_HOOK = Layer("hook", "Hook of the tape", "#000000", 0.9)
BENCH_MARK = Layer("lying-mark", "Mark", "#000000", 0.4)
