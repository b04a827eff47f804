"""How much of a top is printed, on how many sheets; the rest is had by flipping the paper.

A portion shows a little beyond each line it is flipped on, so that the line itself is on paper.
What is not alike on both sides of such a line cannot be flipped: it is left out, and named.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Literal

from ..geometry import Bounds, Line, Path, Point, Segment
from ..geometry.intersect import turn_at
from ..geometry.symmetry import images
from ..geometry.tolerance import SAME_PLACE
from ..geometry.window import clipped
from ..marking.places import MOST_CORNERS, TURNS
from .content import TemplateContent, TemplateMark
from .paper import PaperError
from .tiles import TilePlan
from .tiling import tiles_for
from .wish import TemplateWish

PortionName = Literal["whole", "half", "quarter", "end", "corner", "curves", "none"]
BEYOND = 3.0  # what is shown past a line that the paper is flipped on, mm
TAIL = 40.0  # of a straight, shown before a curve so that the paper can be laid along it, mm
FEW_CURVES = 0.25  # share of curves up to which a straightedge draws most of a top (our choice)
_FAR = 1e5
_BESIDE = 20.0  # most that another outline's curve stands off the finish line's, mm


@dataclass(frozen=True, slots=True)
class Portion:
    """A part of the top that is printed."""

    name: PortionName
    window: Bounds
    """What of the top it shows, template mm."""
    flip_x: bool = False
    flip_y: bool = False
    """Whether the paper is flipped on the cross centreline (x = 0) and on the long one (y = 0)."""

    @property
    def uses(self) -> int:
        """How many times the paper is laid down."""
        return 1 + len(self._flips)

    def marks(self, content: TemplateContent) -> tuple[TemplateMark, ...]:
        """Return the marks on it that may be flipped, with the names of all they stand for."""
        shown = []
        for mark in content.marks:
            right = not self.flip_x or mark.at.x >= -SAME_PLACE
            upper = not self.flip_y or mark.at.y >= -SAME_PLACE
            kin = self._kin(mark, content.marks)
            if right and upper and self.window.holds(mark.at) and kin is not None:
                shown.append(replace(mark, label="/".join(dict.fromkeys(kin))))
        return tuple(shown)

    def feet(self, content: TemplateContent) -> tuple[Path, ...]:
        """Return the feet that have a mirror image at every flip, cut to the portion."""
        alike = (
            foot
            for foot in content.feet
            if all(any(images(foot, f, flip) for f in content.feet) for flip in self._flips)
        )
        return tuple(piece for foot in alike for piece in clipped(foot, self.window))

    def outline(self, path: Path) -> tuple[Path, ...]:
        """Return what of an outline it shows; for "curves" the curves with a tail of straight."""
        if self.name == "none":
            return ()
        return curves_of(path) if self.name == "curves" else clipped(path, self.window)

    def paths(self, content: TemplateContent) -> tuple[Path, ...]:
        """Return every line that must be on paper."""
        if self.name in ("curves", "none"):  # a rough line's own ones round square corners go
            finish, *others = (
                [piece for part in content.drawn(path) for piece in self.outline(part)]
                for path in content.outlines
            )
            beside = [piece.bounds.grown(_BESIDE) for piece in finish]
            own = (piece for held in others for piece in held)
            return (*finish, *(p for p in own if any(b.holds(p.bounds.middle) for b in beside)))
        lines = [piece for path in content.outlines for piece in self.outline(path)]
        window, rings = self.window.grown(BEYOND), (mark.ring for mark in self.marks(content))
        shown = (piece for ring in rings for piece in clipped(ring, window))
        return (*lines, *self.feet(content), *shown)

    @property
    def _flips(self) -> list[tuple[float, float]]:
        """By what x and y are multiplied when the paper is laid down each further time."""
        xs, ys = ((1.0, -1.0) if flip else (1.0,) for flip in (self.flip_x, self.flip_y))
        return [(sx, sy) for sx in xs for sy in ys][1:]

    def _kin(self, mark: TemplateMark, others: Iterable[TemplateMark]) -> list[str] | None:
        """Return the labels of a mark and all its images; None where an image is no mark."""
        labels = [mark.label]
        for sx, sy in self._flips:
            image = Point(sx * mark.at.x, sy * mark.at.y)
            near = (m for m in others if m.at.distance_to(image) <= SAME_PLACE)
            same = next((m for m in near if abs(m.diameter - mark.diameter) <= SAME_PLACE), None)
            if same is None:
                return None
            labels.append(same.label)
        return labels


def portions(content: TemplateContent) -> tuple[Portion, ...]:
    """Return every portion that the top's symmetry and its straights allow, largest first."""
    x, y = content.symmetric_x, content.symmetric_y
    share, every = curved_share(content), Bounds(-_FAR, -_FAR, _FAR, _FAR)
    right, upper = replace(every, left=-BEYOND), replace(every, bottom=-BEYOND)
    quarter = replace(right, bottom=-BEYOND)
    found = [Portion("whole", every)]
    found += [Portion("half", right, flip_x=True)] * x
    found += [Portion("half", upper, flip_y=True)] * y
    found += [Portion("quarter", quarter, flip_x=True, flip_y=True)] * (x and y)
    along, across = (_straight_end(content.finish, axis) for axis in (0, 1))
    if x and along is not None and _is_plain(content.finish, along):
        end = replace(quarter if y else right, left=along - TAIL)
        found.append(Portion("end", end, flip_x=True, flip_y=y))
    if x and y and along is not None and across is not None:
        corner = replace(every, left=along - TAIL, bottom=across - TAIL)
        found.append(Portion("corner", corner, flip_x=True, flip_y=True))
    found += [Portion("curves", every)] * (0 < share < 1)
    found += [Portion("none", every)] * (share == 0)
    return tuple(found)


def curved_share(content: TemplateContent) -> float:
    """Return what share of the finish line that is cut is curved: from 0 to 1."""
    drawn = content.drawn(content.finish)
    around = sum(part.length for part in drawn)
    curved = (s.length for part in drawn for s, bends in _bends(part) if bends)
    return sum(curved) / around if around else 0.0


def portions_named(content: TemplateContent, name: str) -> tuple[Portion, ...]:
    """Return the portions of that name (a half may be had two ways); a `PaperError` if none."""
    every = portions(content)
    named = tuple(portion for portion in every if portion.name == name)
    if not named:
        have = ", ".join(dict.fromkeys(portion.name for portion in every))
        raise PaperError(f"this top has no {name!r} to print: choose from {have}")
    return named


def _is_plain(path: Path, along: float) -> bool:
    """Return whether an outline has only its long straights that far each way from the middle."""
    box, reach = path.bounds, along - SAME_PLACE
    left_out = clipped(path, Bounds(-reach, -_FAR, reach, _FAR))
    segments, levels = (s for piece in left_out for s in piece.segments), (box.top, box.bottom)
    return all(isinstance(s, Line) and any(_level(s, 1, y) for y in levels) for s in segments)


def _straight_end(path: Path, axis: int) -> float | None:
    """Return how far along x (0) or y (1) the straight on that side of its box reaches.

    None where there is none, or it goes on to the corner of the box.
    """
    box = path.bounds
    level, most = (box.top, box.right) if axis == 0 else (box.right, box.top)
    beside = [s for s in path.segments if isinstance(s, Line) and _level(s, 1 - axis, level)]
    far = max((tuple(end)[axis] for s in beside for end in (s.start, s.end)), default=0.0)
    return far if 0 < far < most - SAME_PLACE else None


def _level(line: Line, axis: int, value: float) -> bool:
    return all(abs(tuple(end)[axis] - value) <= SAME_PLACE for end in (line.start, line.end))


def curves_of(path: Path) -> tuple[Path, ...]:
    """Return the curves of a path, each run with up to a tail of the straights beside it."""
    held, closed = path.segments, path.is_closed
    bent = {segment for segment, bends in _bends(path) if bends}
    curves = []
    for run in path.runs(bent.__contains__):
        first, after = held.index(run.segments[0]), held.index(run.segments[-1]) + 1
        before, behind = held[first - 1 : first] or held[-1:] * closed, held[after : after + 1]
        head = (s.part(1 - _tail(s), 1.0) for s in before if s not in bent)
        tail = (s.part(0.0, _tail(s)) for s in behind or held[:1] * closed if s not in bent)
        curves.append(Path((*head, *run.segments, *tail)))
    return tuple(curves)


def _bends(path: Path) -> list[tuple[Segment, bool]]:
    """Return segments, and whether each belongs to a curve, as all of a line of many points do."""
    held = path.segments
    before = (held[-1:] if path.is_closed else ()) + held
    by_points = sum(abs(turn_at(a, b)) > TURNS for a, b in pairwise(before)) > MOST_CORNERS
    return [(segment, by_points or not isinstance(segment, Line)) for segment in held]


def _tail(line: Segment) -> float:
    """Return what share of a straight a tail is: at most half, so that two tails don't overlap."""
    return min(0.5, TAIL / line.length)


AUTO = "auto"  # the name under which the least paper is chosen
# Portions that show all the marks; an end, a corner or the curves alone leave some to the rule.
# Where every line is straight nothing needs paper.
_CHOSEN_FROM = ("whole", "half", "quarter", "none")


@dataclass(frozen=True, slots=True)
class Proposal:
    """A portion and the sheets it takes."""

    portion: Portion
    plan: TilePlan

    @property
    def sheets(self) -> int:
        """How many sheets, without the cover."""
        return len(self.plan.tiles)

    def marks_left_out(self, content: TemplateContent) -> tuple[TemplateMark, ...]:
        """Return the marks that no sheet shows: they are set out by measure."""
        windows = [tile.window for tile in self.plan.tiles]
        shown = {
            label
            for mark in self.portion.marks(content)
            if any(window.holds(mark.at) for window in windows)
            for label in mark.label.split("/")
        }
        return tuple(mark for mark in content.marks if mark.label not in shown)


def proposals(
    content: TemplateContent, wish: TemplateWish, among: Sequence[Portion] | None = None
) -> tuple[Proposal, ...]:
    """Return what each portion takes, fewest sheets first; among equals the larger portion."""
    found = [
        Proposal(p, tiles_for(p.paths(content), wish, tied=p.name != "curves"))
        for p in (portions(content) if among is None else among)
    ]
    return tuple(sorted(found, key=lambda proposal: proposal.sheets))


def proposed(content: TemplateContent, wish: TemplateWish) -> Proposal:
    """Return the proposal for a named portion, or with "auto" the one of the fewest sheets.

    "auto" keeps to portions that show every mark; of a top with few curves those alone will do. A
    `PaperError` if the top has no such portion.
    """
    if wish.portion == AUTO:
        few = curved_share(content) <= FEW_CURVES
        among = tuple(p for p in portions(content) if few or p.name in _CHOSEN_FROM)
    else:
        among = portions_named(content, wish.portion)
    return proposals(content, wish, among)[0]
