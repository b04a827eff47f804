"""The bench sheet as its reader has it: steps in order, their words and tables."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from html.parser import HTMLParser

from checker.lengths import written


@dataclass
class SheetTable:
    """A table of a step."""

    headings: list[str] = field(default_factory=list)
    rows: list[list[str]] = field(default_factory=list)
    caption: str = ""


@dataclass
class SheetStep:
    """A step, or a section that has none."""

    title: str = ""
    section: str = ""
    words: list[str] = field(default_factory=list)
    tables: list[SheetTable] = field(default_factory=list)

    @property
    def text(self) -> str:
        """All its words."""
        return " ".join(self.words)


@dataclass
class Sheet:
    """A bench sheet."""

    steps: list[SheetStep]
    sections: list[str]
    unit: float
    """Millimetres in the unit of its figures."""

    @classmethod
    def of(cls, page: str, unit: float) -> Sheet:
        """Return what a page says."""
        reader = _Reader()
        reader.feed(page)
        return cls(reader.steps, reader.sections, unit)

    def titled(self, start: str) -> list[SheetStep]:
        """Return the steps whose title starts so, in order."""
        return [step for step in self.steps if step.title.startswith(start)]

    def mm(self, text: str) -> float:
        """Return the first figure of a text in mm."""
        met = re.search(r"[-−]?\d[\d.]*(?:\s+\d+/\d+|/\d+)?", text)
        assert met is not None, f"no figure in {text!r}"
        return written(met[0], self.unit)

    @property
    def half_division(self) -> float:
        """The most that rounding to the tape's division takes off, mm."""
        return 0.5 if self.unit == 1.0 else 25.4 / 32


_VOID = ("meta", "br", "img", "input", "link", "hr", "col")


class _Reader(HTMLParser):
    """Reads headings, words and tables; leaves drawings out."""

    def __init__(self) -> None:
        super().__init__()
        self.steps: list[SheetStep] = []
        self.sections: list[str] = []
        self._open: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Open a tag; begin a step, a table or a row."""
        del attrs
        if tag in _VOID:
            return
        self._open.append(tag)
        if tag == "h2":
            self.sections.append("")
        elif tag == "h3":
            self.steps.append(SheetStep(section=self.sections[-1] if self.sections else ""))
        elif not self.steps:
            return
        elif tag == "table":
            self.steps[-1].tables.append(SheetTable())
        elif self.steps[-1].tables:
            table = self.steps[-1].tables[-1]
            if tag == "tr" and "tbody" in self._open:
                table.rows.append([])
            elif tag == "td" and table.rows:
                table.rows[-1].append("")
            elif tag == "th" and "thead" in self._open:
                table.headings.append("")

    def handle_endtag(self, tag: str) -> None:
        """Close a tag."""
        if tag in self._open:
            while self._open.pop() != tag:
                pass

    def handle_data(self, data: str) -> None:
        """Put words where they belong."""
        words = " ".join(data.split())
        if not words or not self._open or "svg" in self._open or "style" in self._open:
            return
        if "h2" in self._open:
            self.sections[-1] += words
        elif not self.steps:
            return
        elif "h3" in self._open:
            self.steps[-1].title = f"{self.steps[-1].title} {words}".strip()
        elif "table" in self._open:
            self._cell(words)
        else:
            self.steps[-1].words.append(words)

    def _cell(self, words: str) -> None:
        table = self.steps[-1].tables[-1]
        if "caption" in self._open:
            table.caption = f"{table.caption} {words}".strip()
        elif "thead" in self._open and table.headings:
            table.headings[-1] += words
        elif table.rows and table.rows[-1]:
            table.rows[-1][-1] = f"{table.rows[-1][-1]} {words}".strip()
