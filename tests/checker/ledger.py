"""What a check has looked at, and what it found wrong."""

from __future__ import annotations

from dataclasses import dataclass, field

Pair = tuple[float, float]


@dataclass
class Ledger:
    """Counts single checks and keeps each failure in words."""

    check: str = ""
    """The check that is running."""
    looked: int = 0
    failures: list[str] = field(default_factory=list)

    def hold(self, right: bool, words: str) -> None:
        """Take one statement; a wrong one is kept with the name of the running check."""
        self.looked += 1
        if not right:
            self.failures.append(f"{self.check}: {words}")

    def near(self, what: str, found: float | None, due: float | None, within: float) -> None:
        """Hold a figure against what it is due to be."""
        if found is None or due is None:
            self.hold(found is due, f"{what} is {found}, due is {due}")
        else:
            self.hold(abs(found - due) <= within, f"{what} is {found:.4f}, due is {due:.4f}")

    def met(self, what: str, found: Pair, due: Pair, within: float = 0.01) -> None:
        """Hold a point against where it is due to be."""
        away = ((found[0] - due[0]) ** 2 + (found[1] - due[1]) ** 2) ** 0.5
        at, right = (f"({p[0]:.3f}, {p[1]:.3f})" for p in (found, due))
        self.hold(away <= within, f"{what} lies at {at}, due is {right}")
