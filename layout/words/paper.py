"""What is told on the printed template: its cover, its sheets, its figures, its calibration."""

from __future__ import annotations

from collections.abc import Iterator

from ..template.calibration import MOST, CalibrationBars, Correction, WrongPrint
from ..template.content import TemplateContent
from ..template.portions import Portion, Proposal
from ..template.tiles import TilePlan
from ..units import Tape
from .say import counted, listed, unit_words

SIGNS = {
    "point": "point to mark",
    "middle": "middle of the top",
    "centre": "centre of an arc",
    "nail": "nail, its ring as thick as the nail",
    "hole": "hole to drill, its ring of the same size",
}
"""What the signs of the marks mean, in the order of a legend."""

PRINT = "Print at 100 % (actual size). No fitting, no shrinking, no scaling to the page."
BARS = (
    "On each sheet lay a steel rule along both check bars: {across:measure} across and "
    "{up:measure} up."
)
WRONG = "Where both are out alike, this was done to the page; print it again:"
TRIM = (
    "Trim the right and the lower edge of a sheet on its seams, lay it on the strip of its "
    "neighbour so that the numbered register marks make whole rings, and tape it down."
)
CROSSES = "Measure between the corner crosses, diagonals too, before trusting the whole."
SEAM_PLAY = "Each seam on the way may be out by 0.5 mm (1/64 in), not more."
FACE_MARK = {
    False: "On every sheet the flag of the face mark points to the right: the face is up.",
    True: "On every sheet the flag of the face mark points to the left: this is the underside.",
}
"""By whether the sheets are mirrored."""
KEPT = "Where it says kept edge the line lies on the panel's own edge: nothing is cut there."
FLIP = "flip the paper on this line"
TRIM_HERE = "trim here, lay it on sheet {}"
LIES_HERE = "sheet {} lies on this strip"
PARE = "bit stays {out:small} out: pare by hand"  # beside a hollow corner


def sheets_words(count: int) -> str:
    """Return a number of sheets."""
    return counted(count, "sheet") if count else "no sheets"


def shown_words(content: TemplateContent, proposal: Proposal) -> str:
    """Return what is printed, on what, and for which face."""
    plan, name = proposal.plan, proposal.portion.name
    side = "MIRRORED: this is the view from the underside. " if content.mirrored else ""
    if not plan.tiles:
        return (
            f"{side}No sheet is needed: every line of this top that is cut is straight. Join the "
            "marks with a straightedge."
        )
    lie = "on its side" if plan.sheet.landscape else "upright"
    shown = {"whole": "the whole top", "curves": "its curves"}.get(name, f"one {name} of the top")
    paper = plan.paper.name if plan.paper.roll else f"{plan.paper.name} {lie}"
    fixed = "" if plan.correction.is_none else f" Corrected {correction_words(plan.correction)}."
    count = sheets_words(proposal.sheets)
    return f"{side}Full size, {shown}, on {count} of {paper}, after this cover.{fixed}"


def face_words(content: TemplateContent) -> Iterator[str]:
    """Yield which way up the paper is laid on the face that is marked, and for the legs."""
    below = "underside" if content.below else "show face"
    shown = "underside" if content.mirrored else "show face"
    if shown == below:
        yield f"It lies ink up on the face that is marked: the {below}."
    else:
        yield (
            f"It shows the {shown}, but the work is marked on its {below}: lay the paper INK DOWN "
            f"there, or print it {'mirrored' if content.below else 'face up'}."
        )
    if content.has_legs and not content.below:
        lie = "ink up" if content.mirrored else "ink down"
        yield f"Legs and their screws belong on the underside: for them lay the paper there {lie}."


def side_words(content: TemplateContent) -> str:
    """Return in a few words from which side a sheet is seen."""
    side = "MIRRORED: from the underside" if content.mirrored else "face up"
    return side if content.mirrored == content.below else f"{side}; lay it ink down"


def hollow_words(content: TemplateContent) -> str:
    """Return what a round bit leaves at hollow corners; empty where there are none."""
    if not content.hollows:
        return ""
    return content.tape.fill(
        "No bit, bush or bearing goes into a hollow corner: a bit of {bit:thin} stays up to "
        "{out:small} out of it, by any template. Saw and pare what is left by hand, to the line.",
        max(content.hollows, key=lambda hollow: hollow.out),
    )


def read_as(wrong: WrongPrint, bars: tuple[float, float], tape: Tape) -> tuple[str, ...]:
    """Return what the bars read after a wrong print, to the rule's division and in decimals."""
    across, up = (_both(bar * wrong.scale, tape) for bar in bars)
    return f"across {across}", f"up {up}", wrong.done


def length_rows(plan: TilePlan, tape: Tape) -> list[tuple[str, ...]]:
    """Return the check lengths, two to a row: the sides in pairs, the diagonals last."""
    cells = [(f"{c.start} to {c.end}", _both(c.length, tape)) for c in plan.check_lengths]
    return [one + other for one, other in zip(cells[::2], cells[1::2], strict=True)]


def _both(length: float, tape: Tape) -> str:
    return f"{tape.measure(length)} ({tape.exact(length, 1)})"


def use_words(portion: Portion) -> tuple[str, ...]:
    """Return how the paper of a portion is laid down."""
    flips, uses = _flip_lines(portion), portion.uses
    if portion.name == "whole":
        return ("Lay the centrelines of the paper on those of the work.",)
    if portion.name == "curves":
        return (
            "Only the curves are printed. Lay the straight tails on the lines that were drawn "
            "with a straightedge, and the short cross lines on the points where they end.",
        )
    if portion.name in ("end", "corner"):
        return (
            "Draw the straights with a straightedge first. Lay the paper's straight tail on them, "
            "and its short cross lines where they end.",
            f"Turn the paper over for the other {uses - 1}: the drawing is the same when it is "
            f"turned over on {listed(flips)}.",
        )
    also = f", on {flips[1]}, and on the first again" if len(flips) > 1 else ""
    return (
        f"Lay {listed(flips)} of the paper on those of the work and draw round it.",
        f"Then flip the paper over on {flips[0]}{also}: {uses} times in all. Prick the marks "
        "through each time.",
    )


def _flip_lines(portion: Portion) -> list[str]:
    lines = {"the cross centreline": portion.flip_x, "the long centreline": portion.flip_y}
    return [name for name, flips in lines.items() if flips]


def turned_words(portion: Portion) -> str:
    """Return how often a portion is laid down, in one line."""
    lines = _flip_lines(portion)
    if not lines:
        return "laid down once" if portion.name != "none" else "only straight lines"
    on = "both centrelines" if len(lines) == 2 else lines[0]
    return f"laid down {portion.uses} times, flipped on {on}"


def left_out_words(content: TemplateContent, proposal: Proposal) -> tuple[str, ...]:
    """Return how the marks that no sheet shows are set out, each in a line; none where all are."""
    seen = "from the underside" if content.mirrored else "with the face up"
    told = f"From the middle of the top, seen {seen}: right (− left), then up (− down):"
    lines = tuple(
        content.tape.fill(
            "{label}: {at.x:measure}, {at.y:measure}" + ", ø {diameter:thin}" * bool(mark.diameter),
            mark,
        )
        for mark in proposal.marks_left_out(content)
    )
    return (told, *lines) if lines else ()


def figures_words(content: TemplateContent) -> tuple[str, str]:
    """Return what the figures of the finish line are, and how they are used."""
    side = "MIRRORED: seen from the underside" if content.mirrored else "seen with the face up"
    return (
        f"{content.title}, {side}. All in {unit_words(content.tape)}, square from the centrelines.",
        "Set each figure off, drive a pin, bend a batten round the pins and draw along it.",
    )


def alike_words(content: TemplateContent) -> tuple[str, str]:
    """Return which way figures run along the long and the cross centreline."""
    x, y = content.symmetric_x, content.symmetric_y
    return (
        "to the right; to the left the same" if x else "to the right (− to the left)",
        "upwards; downwards the same" if y else "upwards (− downwards)",
    )


def correction_words(correction: Correction) -> str:
    """Return what was corrected for the printer, along each edge of the paper.

    >>> correction_words(Correction(1.004, 1.0, "hall"))
    'for the printer "hall": 0.40 % larger along the short edge, as it is along the long edge'
    """

    def changed(factor: float) -> str:
        way = "larger" if factor > 1 else "smaller"
        return "as it is" if factor == 1 else f"{abs(100 * (factor - 1)):.2f} % {way}"

    whose = f' "{correction.printer}"' if correction.printer else ""
    across, along = changed(correction.across), changed(correction.along)
    return f"for the printer{whose}: {across} along the short edge, {along} along the long edge"


def calibration_words(bars: CalibrationBars, command: tuple[str, ...]) -> tuple[str, ...]:
    """Return what a calibration sheet says below its two figures, a `command` to type in lines."""
    told = ("Then type, with what you read and a name for the printer:", *command)
    return (
        "Print at 100 % (actual size), with the settings, the paper and the feed that the "
        "template will be printed with. Let the paper lie a quarter of an hour.",
        "Measure with a steel rule from outer tick to outer tick, to a quarter of a millimetre or "
        "1/64 in.",
        *(told if command else ()),
        f"The two diagonals should both be {bars.words(bars.diagonal)}. Where they differ by more "
        "than 0.5 mm (1/32 in) the paper ran in askew: load it again.",
        f"More than {100 * MOST:.0f} % is no printer's error but a page fitted to the wrong paper: "
        "it is refused.",
    )
