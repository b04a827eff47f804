"""Kinds of defects: what each spoils and how far its harm may run unseen."""

from __future__ import annotations

from dataclasses import dataclass

from ...panel.defect import Spoils

SHOWING, CUTTING, BEARING = Spoils.SHOWING, Spoils.CUTTING, Spoils.BEARING


@dataclass(frozen=True, slots=True)
class DefectKind:
    """What a kind of defect spoils where the maker does not say."""

    spoils: tuple[Spoils, ...]
    clear: float
    """Kept clear all round it, mm."""
    ends: float = 0.0
    """Kept clear past both ends of its length, mm; where it is more than `clear`."""


# Clearances of metal, hole, split, stain and swelling: common practice. The others follow the one
# whose harm is most like theirs: a chip and a dent hide as much as a stain, rot as a swelling. A
# sound glue line is as strong as the wood beside it (Wood Handbook (2010), chapter 10), and a stain
# that the finish alone has comes off with it: both are told of and spoil nothing.
DEFECT_KINDS: dict[str, DefectKind] = {
    "hole": DefectKind((SHOWING, BEARING), 6.0),
    "metal": DefectKind((CUTTING, BEARING), 15.0),
    "pocket": DefectKind((CUTTING, BEARING), 6.0),
    "joint": DefectKind((CUTTING, BEARING), 6.0),
    "glued joint": DefectKind((), 0.0),
    "split": DefectKind((SHOWING, BEARING), 6.0, ends=50.0),
    "rot": DefectKind((SHOWING, BEARING), 25.0),
    "stain": DefectKind((SHOWING,), 3.0),
    "finish stain": DefectKind((), 0.0),
    "chip": DefectKind((SHOWING,), 3.0),
    "dent": DefectKind((SHOWING,), 3.0),
    "swelling": DefectKind((SHOWING, BEARING), 25.0),
}
"""Every kind by the name that a job file uses."""

UNNAMED = DefectKind((SHOWING, BEARING), 0.0)
"""A defect of no named kind: seen and weak, and kept clear only as far as the maker says."""
