"""Kinds of defects: what each spoils, how far its harm may run unseen, how it may be mended."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from ..keys.kinds import Choice
from ..keys.plane import Choices


class Spoils(Enum):
    """What a defect spoils; the value is the name that a job file uses."""

    SHOWING = "showing"
    """It must not be seen: it lies outside the top."""
    CUTTING = "cutting"
    """No blade, bit or screw may cross it, and it must not open into the finished edge; it may lie
    wholly inside the top or wholly outside."""
    BEARING = "bearing"
    """No leg or fixing may stand there."""


class Face(Enum):
    """From which face a defect is seen, the panel lying show face up."""

    UP = "up"
    DOWN = "down"
    THROUGH = "through"


class Mend(Enum):
    """How a maker means to mend a defect; the value is the name that a job file uses."""

    PLUG = "plug"
    KEY = "key"
    PATCH = "patch"
    FILLER = "filler"
    RESIN = "resin"
    SAND = "sand"

    @property
    def must_stay_whole(self) -> bool:
        """Whether the edge of the top may not run through the mend.

        A plug, a patch and filler break out there; keys and resin may be cut, and where wood is
        sanded there is nothing to cut.
        """
        return self in (Mend.PLUG, Mend.PATCH, Mend.FILLER)

    @property
    def bears(self) -> bool:
        """Whether the spot bears a leg again; filler and resin hold no screw (common practice)."""
        return self not in (Mend.FILLER, Mend.RESIN)


SPOILS = Choices(Choice({spoilt.value: spoilt for spoilt in Spoils}), one_will_do=True)
FACE = Choice({face.value: face for face in Face}, {"both": "through"})
MEND = Choice(
    {mend.value: mend for mend in Mend},
    {
        **dict.fromkeys(("keys", "butterfly", "bow-tie"), "key"),
        "fill": "filler",
        "epoxy": "resin",
        "sanding": "sand",
    },
)
"""How a job file writes them, and a program may."""


SHOWING, CUTTING, BEARING = Spoils


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

ALIASES = {
    **dict.fromkeys(("nail", "screw", "bolt", "staple"), "metal"),
    **dict.fromkeys(("screw hole", "nail hole", "bolt hole", "tap hole", "cable hole"), "hole"),
    "letterbox": "hole",
    **dict.fromkeys(("loose knot", "dead knot", "knot hole"), "hole"),
    **dict.fromkeys(("crack", "shake", "check"), "split"),
    **dict.fromkeys(("mortise", "lock", "lock mortise"), "pocket"),
    **dict.fromkeys(("hinge", "hinge recess", "hinge housing"), "pocket"),
    "frame joint": "joint",
    "glue line": "glued joint",
    **dict.fromkeys(
        ("ring", "ring stain", "water ring", "coffee ring", "heat mark"), "finish stain"
    ),
    **dict.fromkeys(("burn", "ink", "water stain"), "stain"),
    **dict.fromkeys(("scratch", "gouge"), "dent"),
    **dict.fromkeys(("blister", "loose veneer"), "swelling"),
    "woodworm": "rot",
}
"""Other words that makers use, and the kind that each stands for."""

NOT_KINDS = {
    "knot": 'may be sound or loose: leave a sound one out; write "loose knot" where it is loose or '
    "has fallen out"
}
"""Words that makers use and that are no kind, and why."""
