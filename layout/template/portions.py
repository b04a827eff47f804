"""How much of a top is printed; the rest is had by flipping the paper on its centrelines.

A portion shows a little beyond each line it is flipped on, so that the line itself is on paper.
What is not alike on both sides of such a line cannot be flipped: it is left out, and named.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Literal

from ..geometry import Bounds, Line, Path, Point, Segment
from ..geometry.intersect import turn_at
from ..geometry.symmetry import images
from ..geometry.tolerance import SAME_PLACE
from ..geometry.window import clipped
from ..marking.places import MOST_CORNERS, TURNS
from .content import TemplateContent, TemplateMark, mark_ring
from .paper import PaperError

PortionName = Literal["whole", "half", "quarter", "end", "corner", "curves", "none"]

BEYOND = 3.0
"""What is shown past a line that the paper is flipped on, mm."""

TAIL = 40.0
"""How much of a straight is shown before a curve, so that the paper can be laid along it, mm."""

FEW_CURVES = 0.25
"""Where no more than this share of what is cut is curved, a straightedge draws most of a top (our
choice)."""

_FAR = 1e5


_BESIDE = 20.0
"""Most that another outline's curve stands off the finish line's, mm."""


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
        return (2 if self.flip_x else 1) * (2 if self.flip_y else 1)

    def marks(self, content: TemplateContent) -> tuple[TemplateMark, ...]:
        """Return the marks that lie on it and may be flipped, with the names of all they stand for.

        A mark on a flip line stands for itself; others bear the names of their mirror images too.
        """
        shown = []
        for mark in content.marks:
            kin = self._kin(mark, content.marks)
            if self.window.holds(mark.at) and self._leads(mark) and kin is not None:
                shown.append(replace(mark, label="/".join(dict.fromkeys(kin))))
        return tuple(shown)

    def feet(self, content: TemplateContent) -> tuple[Path, ...]:
        """Return the feet that have a mirror image at every flip, cut to the portion."""
        alike = [
            foot
            for foot in content.feet
            if all(any(images(foot, f, flip) for f in content.feet) for flip in self._flips())
        ]
        return tuple(piece for foot in alike for piece in clipped(foot, self.window))

    def outline(self, path: Path) -> tuple[Path, ...]:
        """Return what of an outline it shows; for "curves" the curves with a tail of straight."""
        if self.name == "none":
            return ()
        return curves_of(path) if self.name == "curves" else clipped(path, self.window)

    def paths(self, content: TemplateContent) -> tuple[Path, ...]:
        """Return every line that must be on paper."""
        if self.name in ("curves", "none"):
            return self._curves(content)
        lines = [piece for path in content.outlines for piece in self.outline(path)]
        rings = [
            piece
            for mark in self.marks(content)
            for piece in clipped(mark_ring(mark), self.window.grown(BEYOND))
        ]
        return (*lines, *self.feet(content), *rings)

    def _curves(self, content: TemplateContent) -> tuple[Path, ...]:
        """Return the curves of all outlines; a rough line's own ones round square corners go."""
        finish, *others = (
            [piece for part in content.drawn(path) for piece in self.outline(part)]
            for path in content.outlines
        )
        beside = [piece.bounds.grown(_BESIDE) for piece in finish]
        kept = (p for held in others for p in held if any(b.holds(p.bounds.middle) for b in beside))
        return (*finish, *kept)

    def _images(self, point: Point) -> list[Point]:
        """Return where the flips bring a point."""
        return [Point(sx * point.x, sy * point.y) for sx, sy in self._flips()]

    def _flips(self) -> list[tuple[float, float]]:
        """Return by what x and y are multiplied when the paper is laid down each further time."""
        xs = (1.0, -1.0) if self.flip_x else (1.0,)
        ys = (1.0, -1.0) if self.flip_y else (1.0,)
        return [(sx, sy) for sx in xs for sy in ys][1:]

    def _leads(self, mark: TemplateMark) -> bool:
        """Whether a mark lies on the printed side of the flip lines, or on them."""
        right = not self.flip_x or mark.at.x >= -SAME_PLACE
        return right and (not self.flip_y or mark.at.y >= -SAME_PLACE)

    def _kin(self, mark: TemplateMark, others: Iterable[TemplateMark]) -> list[str] | None:
        """Return the labels of a mark and all its images; None where an image is no mark."""
        labels = [mark.label]
        for image in self._images(mark.at):
            near = [m for m in others if m.at.distance_to(image) <= SAME_PLACE]
            same = [m for m in near if abs(m.diameter - mark.diameter) <= SAME_PLACE]
            if not same:
                return None
            if image.distance_to(mark.at) > SAME_PLACE:
                labels.append(same[0].label)
        return labels


def portions(content: TemplateContent) -> tuple[Portion, ...]:
    """Return every portion that the top's symmetry and its straights allow, largest first."""
    x, y = content.symmetric_x, content.symmetric_y
    found = [Portion("whole", Bounds(-_FAR, -_FAR, _FAR, _FAR))]
    if x:
        found.append(Portion("half", Bounds(-BEYOND, -_FAR, _FAR, _FAR), flip_x=True))
    if y:
        found.append(Portion("half", Bounds(-_FAR, -BEYOND, _FAR, _FAR), flip_y=True))
    if x and y:
        window = Bounds(-BEYOND, -BEYOND, _FAR, _FAR)
        found.append(Portion("quarter", window, flip_x=True, flip_y=True))
    ends = _straight_ends(content.finish)
    if x and ends.along is not None and _is_plain(content.finish, ends.along):
        window = Bounds(ends.along - TAIL, -BEYOND if y else -_FAR, _FAR, _FAR)
        found.append(Portion("end", window, flip_x=True, flip_y=y))
    if x and y and ends.along is not None and ends.across is not None:
        window = Bounds(ends.along - TAIL, ends.across - TAIL, _FAR, _FAR)
        found.append(Portion("corner", window, flip_x=True, flip_y=True))
    share = curved_share(content)
    if 0 < share < 1:
        found.append(Portion("curves", Bounds(-_FAR, -_FAR, _FAR, _FAR)))
    if share == 0:
        found.append(Portion("none", Bounds(-_FAR, -_FAR, _FAR, _FAR)))
    return tuple(found)


def curved_share(content: TemplateContent) -> float:
    """Return what share of the finish line that is cut is curved: from 0 to 1."""
    drawn = content.drawn(content.finish)
    around = sum(part.length for part in drawn)
    curved = (s.length for part in drawn for s, bends in _bends(part) if bends)
    return sum(curved) / around if around else 0.0


def portions_named(content: TemplateContent, name: str) -> tuple[Portion, ...]:
    """Return the portions of that name (a half may be had two ways).

    Raises
    ------
    PaperError
        If this top has none; the message names those that it has.
    """
    every = portions(content)
    named = tuple(portion for portion in every if portion.name == name)
    if not named:
        have = ", ".join(dict.fromkeys(portion.name for portion in every))
        raise PaperError(f"this top has no {name!r} to print: choose from {have}")
    return named


@dataclass(frozen=True, slots=True)
class _StraightEnds:
    """Where, in the first quarter, the straight along the top and the one across its end stop."""

    along: float | None
    across: float | None


def _is_plain(path: Path, along: float) -> bool:
    """Return whether an outline has only its long straights that far each way from the middle.

    What is left out of an end is then drawn with a straightedge.
    """
    box, reach = path.bounds, along - SAME_PLACE
    left_out = clipped(path, Bounds(-reach, -_FAR, reach, _FAR))
    return all(
        isinstance(s, Line) and (_level(s, 1, box.top) or _level(s, 1, box.bottom))
        for piece in left_out
        for s in piece.segments
    )


def _straight_ends(path: Path) -> _StraightEnds:
    """Return the ends of the straights that lie along the box of an outline."""
    box = path.bounds
    xs, ys = [], []
    for segment in path.segments:
        if not isinstance(segment, Line):
            continue
        for end in (segment.start, segment.end):
            if _level(segment, 1, box.top) and end.x > 0:
                xs.append(end.x)
            if _level(segment, 0, box.right) and end.y > 0:
                ys.append(end.y)
    along = max(xs, default=None) if xs and max(xs) < box.right - SAME_PLACE else None
    across = max(ys, default=None) if ys and max(ys) < box.top - SAME_PLACE else None
    return _StraightEnds(along, across)


def _level(line: Line, axis: int, value: float) -> bool:
    return all(abs(tuple(end)[axis] - value) <= SAME_PLACE for end in (line.start, line.end))


def curves_of(path: Path) -> tuple[Path, ...]:
    """Return the curves of a path, each run with up to a tail of the straights beside it."""
    held = _bends(path)
    count = len(held)
    if all(bends for _, bends in held):
        return (path,)
    # a closed path is walked from behind a straight, so that no run goes on over its start
    first = next(i for i, (_, bends) in enumerate(held) if not bends) if path.is_closed else 0
    walk = [held[(first + i) % count] for i in range(count + path.is_closed)]
    found: list[Path] = []
    run: list[Segment] = []
    before: Segment | None = None
    for segment, bends in walk:
        if bends:
            run.append(segment)
            continue
        if run:
            found.append(_with_tails(before, run, segment))
        before, run = segment, []
    if run:
        found.append(_with_tails(before, run, None))
    return tuple(found)


def _bends(path: Path) -> list[tuple[Segment, bool]]:
    """Return the segments of a path, and whether each belongs to a curve.

    An outline drawn by many points is a curve to the eye, though all its segments are straight.
    """
    held = path.segments
    before = (held[-1:] if path.is_closed else ()) + held
    sharp = sum(abs(turn_at(a, b)) > TURNS for a, b in pairwise(before))
    by_points = sharp > MOST_CORNERS
    return [(segment, by_points or not isinstance(segment, Line)) for segment in held]


def _with_tails(before: Segment | None, run: list[Segment], after: Segment | None) -> Path:
    """Return a run of a curve with the ends of the straights before and after it, if any."""
    head = () if before is None else (before.part(1 - _tail(before), 1.0),)
    tail = () if after is None else (after.part(0.0, _tail(after)),)
    return Path((*head, *run, *tail))


def _tail(line: Segment) -> float:
    """Return what share of a straight a tail is: at most half, so that two tails don't overlap."""
    return min(0.5, TAIL / line.length)
