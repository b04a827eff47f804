"""What is told on the printed template: its cover, its sheets, its figures, its calibration."""

from __future__ import annotations

from collections.abc import Iterator

from ..template.calibration import MOST, CalibrationBars, Correction, WrongPrint
from ..template.content import TemplateContent
from ..template.portions import Portion
from ..template.proposal import Proposal
from ..template.tiles import TilePlan
from ..units import Tape
from .say import counted, listed, thin_words, unit_words

_SEAM_PLAY = 0.5
"""What each joined seam may be out, mm."""

SIGNS = {
    "point": "point to mark",
    "middle": "middle of the top",
    "centre": "centre of an arc",
    "nail": "nail, its ring as thick as the nail",
    "hole": "hole to drill, its ring of the same size",
}
"""What the signs of the marks mean, in the order of a legend."""

_CROSS, _LONG = "the cross centreline", "the long centreline"


def sheets_words(count: int) -> str:
    """Return a number of sheets."""
    return counted(count, "sheet") if count else "no sheets"


def shown_words(content: TemplateContent, proposal: Proposal) -> str:
    """Return what is printed, on what, and for which face."""
    plan, portion = proposal.plan, proposal.portion
    side = "MIRRORED: this is the view from the underside. " if content.mirrored else ""
    if not plan.tiles:
        return (
            f"{side}No sheet is needed: every line of this top that is cut is straight. Join the "
            "marks with a straightedge."
        )
    lie = "on its side" if plan.sheet.landscape else "upright"
    shown = {"whole": "the whole top", "curves": "its curves"}.get(
        portion.name, f"one {portion.name} of the top"
    )
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
    most, tape = max(content.hollows, key=lambda hollow: hollow.out), content.tape
    return (
        f"No bit, bush or bearing goes into a hollow corner: a bit of {thin_words(most.bit, tape)} "
        f"stays up to {tape.small(most.out)} out of it, by any template. Saw and pare what is left "
        "by hand, to the line."
    )


def hollow_label(out: float, tape: Tape) -> str:
    """Return what stands beside a hollow corner on the paper."""
    return f"bit stays {tape.small(out)} out: pare by hand"


def check_words(bars: tuple[float, float], tape: Tape) -> tuple[str, str]:
    """Return what is looked at on each sheet before any cut."""
    return (
        "Print at 100 % (actual size). No fitting, no shrinking, no scaling to the page.",
        f"On each sheet lay a steel rule along both check bars: {tape.measure(bars[0])} across "
        f"and {tape.measure(bars[1])} up.",
    )


WRONG = "Where both are out alike, this was done to the page; print it again:"

TRIM = (
    "Trim the right and the lower edge of a sheet on its seams, lay it on the strip of its "
    "neighbour so that the numbered register marks make whole rings, and tape it down."
)

CROSSES = "Measure between the corner crosses, diagonals too, before trusting the whole."

KEPT = "Where it says kept edge the line lies on the panel's own edge: nothing is cut there."


def seam_play_words(tape: Tape) -> str:
    """Return how far each seam may be out."""
    play = "1/64 in" if tape.imperial else f"{_SEAM_PLAY:g} mm"
    return f"Each seam on the way may be out by {play}, not more."


def face_mark_words(*, mirrored: bool) -> str:
    """Return how the face mark tells the side of a sheet."""
    flies = "left: this is the underside" if mirrored else "right: the face is up"
    return f"On every sheet the flag of the face mark points to the {flies}."


def read_as(wrong: WrongPrint, bars: tuple[float, float], tape: Tape) -> tuple[str, ...]:
    """Return what the bars read after a wrong print, to the rule's division and in decimals."""
    readings = (
        f"{way} {tape.measure(bar * wrong.scale)} ({tape.exact(bar * wrong.scale, 1)})"
        for way, bar in zip(("across", "up"), bars, strict=True)
    )
    done = f"fitted to {wrong.sheet}" if wrong.sheet else "shrunk to the printable area"
    return (*readings, done)


def length_rows(plan: TilePlan, tape: Tape) -> list[tuple[str, ...]]:
    """Return the check lengths, two to a row: the sides in pairs, the diagonals last."""
    cells = [
        (f"{c.start} to {c.end}", f"{tape.measure(c.length)}  ({tape.exact(c.length, 1)})")
        for c in plan.check_lengths
    ]
    return [one + other for one, other in zip(cells[::2], cells[1::2], strict=True)]


def use_words(portion: Portion) -> tuple[str, ...]:
    """Return how the paper of a portion is laid down."""
    if portion.name == "whole":
        return ("Lay the centrelines of the paper on those of the work.",)
    if portion.name == "curves":
        return (
            "Only the curves are printed. Lay the straight tails on the lines that were drawn "
            "with a straightedge, and the short cross lines on the points where they end.",
        )
    flips = flip_lines(portion)
    if portion.name in ("end", "corner"):
        return (
            "Draw the straights with a straightedge first. Lay the paper's straight tail on them, "
            "and its short cross lines where they end.",
            f"Turn the paper over for the other {portion.uses - 1}: the drawing is the same "
            f"when it is turned over on {listed(flips)}.",
        )
    return (
        f"Lay {listed(flips)} of the paper on those of the work and draw round it.",
        f"Then flip the paper over on {flips[0]}"
        + (f", on {flips[1]}, and on the first again" if len(flips) > 1 else "")
        + f": {portion.uses} times in all. Prick the marks through each time.",
    )


def flip_lines(portion: Portion) -> list[str]:
    """Return the lines that the paper of a portion is flipped on."""
    return [name for name, flip in ((_CROSS, portion.flip_x), (_LONG, portion.flip_y)) if flip]


def turned_words(portion: Portion) -> str:
    """Return how often a portion is laid down, in one line."""
    lines = flip_lines(portion)
    if not lines:
        return "laid down once" if portion.name != "none" else "only straight lines"
    on = "both centrelines" if len(lines) == 2 else lines[0]
    return f"laid down {portion.uses} times, flipped on {on}"


def left_out_words(content: TemplateContent, proposal: Proposal) -> tuple[str, ...]:
    """Return how the marks that no sheet shows are set out, each in a line; none where all are."""
    tape = content.tape
    seen = "from the underside" if content.mirrored else "with the face up"
    lines = tuple(
        f"{mark.label}: {tape.measure(mark.at.x)}, {tape.measure(mark.at.y)}"
        + (f", ø {thin_words(mark.diameter, tape)}" if mark.diameter else "")
        for mark in proposal.marks_left_out(content)
    )
    told = f"From the middle of the top, seen {seen}: right (− left), then up (− down):"
    return (told, *lines) if lines else ()


def seam_words(tile: str, *, under: bool) -> str:
    """Return what is done at a seam: the neighbour lies on its strip, or it is trimmed there."""
    return f"sheet {tile} lies on this strip" if under else f"trim here, lay it on sheet {tile}"


FLIP = "flip the paper on this line"


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
