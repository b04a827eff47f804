"""The way that serves for any outline: a printed template, pricked through."""

from __future__ import annotations

from dataclasses import dataclass

from .method import SETTING, HandTool, Method, together
from .step import Step


@dataclass(frozen=True, slots=True)
class FullSize:
    """A template as large as the top."""

    length: float
    width: float
    """Of the top, mm."""


def full_size_template(length: float, width: float) -> Method:
    """Return how a printed template, `length` by `width` mm, draws an outline.

    The paper is laid, and the line pricked through it, each as well as a tape is read.
    """
    steps = (
        Step.of(
            "Sheets",
            "print the template at 100 % and prove both bars on it; joined, it is {length} long "
            "and {width} wide",
            length=length,
            width=width,
        ),
        Step(
            "Lay",
            "its centrelines on those of the panel, and tape it down; look at the marks that both "
            "have",
        ),
        Step("Prick", "through the line every 20 mm, closer where it bends; join with a lath"),
    )
    return Method(
        "full-size template",
        (HandTool.PAPER,),
        FullSize(length, width),
        (),
        steps,
        0.0,
        together(SETTING, SETTING),
        leaves_hole=False,
    )
