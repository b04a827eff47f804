"""What the maker should know about the table on its legs: values first, words on request."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import Enum

from ..units import Tape


class Matter(Enum):
    """What a note is about."""

    SAGS = "sags"
    SAG_UNKNOWN = "sag not known"
    HOLLOW = "nothing to bite"
    NO_SCREW = "no screw holds"
    GLUE_FIGHTS = "glue fights the wood"
    METAL_GLUED = "rigid glue on metal or masonry"
    NO_BATTEN = "no room for a batten"
    BATTEN_MISSING = "fewer battens than wished"
    HARD_SEAT = "masonry under the top"
    LOW = "knees touch"
    NOBODY_SITS = "nobody sits"


@dataclass(frozen=True, slots=True)
class TableNote:
    """One thing about the table."""

    matter: Matter
    found: float = field(default=0.0)
    limit: float = field(default=0.0)
    """What was found and what it is held against, mm."""

    def words(self, tape: Tape) -> str:
        """Return one sentence or two in the units of the tape: what, how much, what to do."""
        return _WORDS[self.matter].format(
            found=tape.small(self.found),
            limit=tape.small(self.limit),
            reach=tape.measure(self.found),
            wanted=tape.measure(self.limit),
        )


_WORDS = {
    Matter.SAGS: (
        "By estimate it sags {found}, and {limit} shows: put a rail between the legs or under the "
        "top, move the legs nearer together, or take more of them."
    ),
    Matter.SAG_UNKNOWN: (
        "How far it sags is not told: a hollow or framed door has no single stiffness. Put rails "
        "under it from leg to leg."
    ),
    Matter.HOLLOW: (
        "A hollow door has nothing for a screw or a leg to bear on but its rim: screw a board "
        "from rim to rim under each pair of legs, or fill the hollow there with blocks."
    ),
    Matter.NO_SCREW: (
        "No screw both bites and leaves {wanted} under its tip in a top {reach} thick: glue the "
        "legs, or screw them to battens or a board that is glued under it."
    ),
    Matter.GLUE_FIGHTS: (
        "Rigid glue fights the wood: under one leg it moves {found} over the year, and {limit} "
        "breaks a joint. Screw it through slots, or use a flexible adhesive."
    ),
    Matter.METAL_GLUED: (
        "Rigid wood glue does not hold metal, brick or concrete: use a flexible adhesive."
    ),
    Matter.NO_BATTEN: (
        "No batten finds room across the grain, clear of the legs and the edge: keep the top flat "
        "by an apron with slotted fixings."
    ),
    Matter.BATTEN_MISSING: (
        "One batten finds no room beside the legs: place it by hand, or let an apron do its work."
    ),
    Matter.HARD_SEAT: (
        "Masonry is hard and uneven: three pads of cork or rubber on each leg, and the top held "
        "against sliding by a block screwed under it inside each leg. Do not drill near an edge of "
        "the masonry; ask somebody qualified where it carries more than a table."
    ),
    Matter.LOW: "Only {reach} is free for knees, and {wanted} is usual: make the legs longer.",
    Matter.NOBODY_SITS: (
        "With knees clear of these legs nobody finds a place: move the legs, or take fewer."
    ),
}
