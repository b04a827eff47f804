"""The way that serves for any outline: a printed template, pricked through."""

from __future__ import annotations

from dataclasses import dataclass

from .method import HandTool, Method


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
    return Method("full-size template", (HandTool.PAPER,), FullSize(length, width))
