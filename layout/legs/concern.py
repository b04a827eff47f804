"""What is wrong, or worth knowing, about the legs: values first, words on request."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import Enum

from ..units import Tape


class Concern(Enum):
    """What a problem is about."""

    BEYOND_EDGE = "beyond the edge"
    NEAR_EDGE = "near the edge"
    STICKS_OUT = "sticks out"
    POOR_BEARING = "poor bearing"
    OVERLAP = "overlap"
    TIPS_BY_ITSELF = "tips by itself"
    TIPS_UNDER_LOAD = "tips under the load"
    ROCKS = "rocks"
    LOOSE = "loose"


@dataclass(frozen=True, slots=True)
class LegProblem:
    """One thing about the legs that the maker should put right or know."""

    concern: Concern
    legs: tuple[int, ...] = ()
    """Numbers of the legs it is about; none where it is about all."""
    distance: float = 0.0
    """What was found, mm, where it is a distance."""
    force: float = field(default=0.0, metadata={"unit": "N"})
    """What was found, N, where it is a force."""
    limit: float = field(default=0.0, metadata={"unit": ""})
    """What the found figure is held against, in its unit."""
    blame: tuple[str, ...] = ()
    """Names of the defects that spoil the place."""

    @property
    def is_grave(self) -> bool:
        """Whether the legs cannot stay as they are; the rest is worth knowing."""
        return self.concern in (
            Concern.BEYOND_EDGE,
            Concern.POOR_BEARING,
            Concern.OVERLAP,
            Concern.TIPS_BY_ITSELF,
        )

    def words(self, tape: Tape) -> str:
        """Return one sentence in the units of the tape: what, how much, and what to do."""
        if self.concern in (Concern.BEYOND_EDGE, Concern.NEAR_EDGE, Concern.STICKS_OUT):
            return self._about_edge(tape)
        who = _legs(self.legs)
        if self.concern is Concern.POOR_BEARING:
            cause = " and ".join(self.blame) or "the edge of the sound wood"
            return f"{who} would bear on {cause}: move it, or mend the place first."
        if self.concern is Concern.OVERLAP:
            return f"{who} would stand in one another: move them apart."
        return self._about_standing(tape)

    def _about_edge(self, tape: Tape) -> str:
        who = _legs(self.legs)
        found, limit = tape.measure(self.distance), tape.measure(self.limit)
        if self.concern is Concern.BEYOND_EDGE:
            return f"{who} would stand past the edge of the top by {found}: move it inwards."
        if self.concern is Concern.NEAR_EDGE:
            return f"{who} stands {found} from the edge, less than {limit}: toes and break-out."
        if len(self.legs) == 1:
            return f"The foot of leg {self.legs[0]} stands {found} past the edge: people trip."
        return f"The feet of {who.lower()} stand up to {found} past the edge: people trip."

    def _about_standing(self, tape: Tape) -> str:
        if self.concern is Concern.TIPS_BY_ITSELF:
            return "The weight lies outside the feet, so it tips by itself: move the legs outwards."
        if self.concern is Concern.TIPS_UNDER_LOAD:
            return (
                f"By estimate it tips at about {tape.force(self.force)} near the edge, below the "
                f"{tape.force(self.limit)} asked for: move the legs outwards, or add weight."
            )
        if self.concern is Concern.ROCKS:
            return "More than three legs rock on an uneven floor: fit adjusters, or level them."
        return "The top lies loose on its legs, so their weight does not hold it down."


def _legs(numbers: tuple[int, ...]) -> str:
    names = [str(number) for number in numbers]
    if len(names) < 2:
        return f"Leg {names[0]}" if names else ""
    return f"Legs {', '.join(names[:-1])} and {names[-1]}"
