"""A printer as it was measured, kept as a text that a person can read."""

from __future__ import annotations

import json
from dataclasses import dataclass

from .calibration import READING, CalibrationError, Correction

SCHEMA = 1
"""Version of the text that a profile is kept as."""


@dataclass(frozen=True, slots=True)
class Reading:
    """What one bar of a calibration sheet should measure, and what the maker measured, mm."""

    true: float
    measured: float

    def __post_init__(self) -> None:
        if not (self.true > 0 and self.measured > 0):
            raise CalibrationError(f"a bar of {self.true:g} mm cannot measure {self.measured:g} mm")

    @property
    def factor(self) -> float:
        """By what a page must be written larger; 1 where the difference can't be read."""
        off = abs(self.measured - self.true) < READING
        return 1.0 if off else self.true / self.measured


@dataclass(frozen=True, slots=True)
class PrinterProfile:
    """A printer as it was measured.

    Raises
    ------
    CalibrationError
        If a bar is off by more than 3 %.
    """

    name: str
    """The maker's word for it."""
    across: Reading
    along: Reading
    """The bars along the short and the long edge."""
    paper: str = ""
    """The paper that the bars were printed on."""

    def __post_init__(self) -> None:
        Correction(self.across.factor, self.along.factor)  # refuses what is no printer's error

    @property
    def correction(self) -> Correction:
        """What takes the error out of a page."""
        return Correction(self.across.factor, self.along.factor, self.name)

    def to_json(self) -> str:
        """Return the profile as a text for a file; lengths in mm."""
        bars = {
            edge: {"true": reading.true, "measured": reading.measured}
            for edge, reading in (("across", self.across), ("along", self.along))
        }
        held = {"schema": SCHEMA, "printer": self.name, "paper": self.paper, **bars}
        return json.dumps(held, indent=2, ensure_ascii=False) + "\n"

    @classmethod
    def from_json(cls, text: str) -> PrinterProfile:
        """Return the profile that `to_json` wrote.

        Raises
        ------
        CalibrationError
            If the text is no profile.
        """
        try:
            held = json.loads(text)
            across, along = (
                Reading(float(held[edge]["true"]), float(held[edge]["measured"]))
                for edge in ("across", "along")
            )
            return cls(str(held["printer"]), across, along, str(held.get("paper", "")))
        except CalibrationError:
            raise
        except (ValueError, KeyError, TypeError, AttributeError, RecursionError) as error:
            raise CalibrationError(
                "this is no printer profile: measure the calibration sheet again"
            ) from error
