"""One thing to do at the bench: words with named figures, which a sheet writes in its units."""

from __future__ import annotations

from dataclasses import dataclass, field

from ..units import Tape


@dataclass(frozen=True, slots=True)
class Figure:
    """A length that a step names: mm, exact."""

    name: str
    value: float
    at_least: bool = field(default=False, metadata={"json": False})
    """Whether a figure that is less, be it by rounding, would not do."""


@dataclass(frozen=True, slots=True)
class Step:
    """One thing to do."""

    title: str
    what: str
    """In words; a name in braces stands for the figure of that name."""
    figures: tuple[Figure, ...] = ()
    about: str = ""
    """The cut, mend or part of the build that it is about; empty where it needs no name."""

    @classmethod
    def of(cls, title: str, what: str, *, about: str = "", **lengths: float) -> Step:
        """Return a step whose figures are given by name, mm."""
        figures = tuple(Figure(name, value) for name, value in lengths.items())
        return cls(title, what, figures, about)

    def text(self, tape: Tape) -> str:
        """Return the words with their figures, rounded to the tape's division.

        >>> Step.of("Cut", "saw line at {x}", x=1442.0).text(Tape())
        'saw line at 1442'
        """
        figures = {f.name: tape.figure(f.value, at_least=f.at_least) for f in self.figures}
        return self.what.format(**figures)
