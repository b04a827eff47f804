"""The bench sheet as its reader has it: the first page's figures, and steps with words and tables.

What stands twice, in two units, is read in the sheet's own.
"""

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
    """A step, or something told behind them."""

    title: str = ""
    section: str = ""
    number: str = ""
    words: list[str] = field(default_factory=list)
    points: list[str] = field(default_factory=list)
    figures: list[str] = field(default_factory=list)
    tables: list[SheetTable] = field(default_factory=list)
    drawing: list[str] = field(default_factory=list)
    """Words in its drawing."""
    drawn: bool = False

    @property
    def text(self) -> str:
        """All its words."""
        return " ".join([*self.words, *self.points])


@dataclass
class Figure:
    """A figure of the first page: what it counts along, and a note beside it."""

    axis: str
    text: str = ""
    note: str = ""


@dataclass
class SawRow:
    """A row of the saw table: its number, its cuts, and where line and guide are."""

    number: int
    labels: list[str]
    datum: str
    line: list[Figure] = field(default_factory=list)
    guide: list[Figure] = field(default_factory=list)
    falls: str = ""
    words: str = ""


@dataclass
class MarkRow:
    """A mark of the first page."""

    name: str
    datum: str
    figures: list[Figure] = field(default_factory=list)
    words: str = ""
    """Beside them: the same by two tapes."""

    def figure(self, axis: str) -> str:
        """Return the figure along an axis."""
        return next(figure.text for figure in self.figures if figure.axis == axis)


@dataclass
class Sheet:
    """A bench sheet."""

    steps: list[SheetStep]
    sections: list[str]
    unit: float
    """Millimetres in the unit of its figures."""
    marks: list[MarkRow]
    saws: list[SawRow]
    checks: list[list[str]]
    words: str
    """All of the first page."""
    size: str
    ids: list[str]
    outside: list[str]
    """What the page points to."""

    @classmethod
    def of(cls, page: str, unit: float) -> Sheet:
        """Return what a page says."""
        read = _Reader()
        read.feed(page)
        assert not read.open, read.open
        return cls(
            read.steps,
            read.sections,
            unit,
            read.marks,
            read.saws,
            read.checks,
            " ".join(read.first),
            read.size,
            read.ids,
            read.outside,
        )

    def titled(self, start: str) -> list[SheetStep]:
        """Return the steps whose title starts so, in order."""
        return [step for step in self.steps if step.title.startswith(start)]

    def step(self, start: str) -> SheetStep:
        """Return the last step whose title starts so."""
        return self.titled(start)[-1]

    def mm(self, text: str) -> float:
        """Return the first figure of a text in mm; one behind a sign of its own is negative."""
        met = re.search(r"[-−▼◄]?\d[\d.]*(?:\s+\d+/\d+|/\d+)?", text)
        assert met is not None, f"no figure in {text!r}"
        return written(met[0].replace("▼", "-").replace("◄", "-"), self.unit)

    @property
    def half_division(self) -> float:
        """The most that rounding to the tape's division takes off, mm."""
        return 0.5 if self.unit == 1.0 else 25.4 / 32


_VOID = ("meta", "br", "img", "input", "link", "hr", "col", "path", "circle")
_UNREAD = ("style", "script", "title")


class _Reader(HTMLParser):
    """Reads headings, words, tables and figures."""

    def __init__(self) -> None:
        super().__init__()
        self.steps: list[SheetStep] = []
        self.sections: list[str] = []
        self.marks: list[MarkRow] = []
        self.saws: list[SawRow] = []
        self.checks: list[list[str]] = []
        self.first: list[str] = []
        self.ids: list[str] = []
        self.outside: list[str] = []
        self.size = ""
        self.open: list[tuple[str, dict[str, str]]] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Open a tag; begin a step, a table, a row or a figure."""
        held = {key: value or "" for key, value in attrs}
        self.ids += [held["id"]] if "id" in held else []
        self.outside += [held[key] for key in ("src", "href", "xlink:href") if key in held]
        if tag in _VOID:
            return
        self.open.append((tag, held))
        if self._hidden():
            return
        if "data-cuts" in held:
            labels = held["data-cuts"].split(";")
            self.saws.append(SawRow(int(held["data-line"]), labels, self._datum()))
        elif "data-mark" in held:
            self.marks.append(MarkRow(held["data-mark"], self._datum()))
        elif "data-axis" in held:
            self._figures().append(Figure(held["data-axis"]))
        elif tag == "dt":
            self.checks.append(["", ""])
        elif tag == "h2":
            self.sections.append("")
        elif tag == "h3":
            number = self.steps[-1].number if self.steps and not self.steps[-1].title else ""
            if number:
                self.steps.pop()
            self.steps.append(SheetStep("", self.sections[-1] if self.sections else "", number))
        elif held.get("class") == "no":
            self.steps.append(SheetStep())
        else:
            self._inside(tag)

    def _inside(self, tag: str) -> None:
        """Begin a table, a row, a cell or a drawing of a step."""
        if not self.steps or self._in("first"):
            return
        step, tags = self.steps[-1], [name for name, _ in self.open]
        if tag == "figure":
            step.drawn = True
        elif tag == "table":
            step.tables.append(SheetTable())
        elif step.tables and tag == "tr" and "tbody" in tags:
            step.tables[-1].rows.append([])
        elif step.tables and tag == "td":
            step.tables[-1].rows[-1].append("")
        elif step.tables and tag == "th":
            step.tables[-1].headings.append("")
        elif tag == "li" and tags[-2] == "ol" and self._in("text"):
            step.points.append("")

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Take an empty tag."""
        self.handle_starttag(tag, attrs)
        if tag not in _VOID:
            self.open.pop()

    def handle_endtag(self, tag: str) -> None:
        """Close a tag, which must be the last that was opened."""
        if tag not in _VOID:
            assert self.open.pop()[0] == tag, tag

    def handle_data(self, data: str) -> None:
        """Put words where they belong."""
        words = " ".join(data.split())
        if not words or not self.open or self._hidden():
            return
        tags = [name for name, _ in self.open]
        if any(tag in _UNREAD for tag in tags):
            return
        if self._in("first"):
            self._of_first(words, tags)
        elif "h2" in tags:
            self.sections[-1] = f"{self.sections[-1]} {words}".strip()
        elif self.steps:
            self._of_step(words, tags)

    def _of_first(self, words: str, tags: list[str]) -> None:
        if "svg" in tags:
            return
        self.first.append(words)
        if self._in("size"):
            self.size = f"{self.size} {words}".strip()
        elif "dt" in tags:
            self.checks[-1][0] += words
        elif "dd" in tags:
            self.checks[-1][1] = f"{self.checks[-1][1]} {words}".strip()
        elif any("data-axis" in held for _, held in self.open):
            figure = self._figures()[-1]
            figure.text = f"{figure.text} {words}".strip()
        elif any("data-cuts" in held for _, held in self.open):
            row = self.saws[-1]
            if self._in("note") and self._figures():
                self._figures()[-1].note = words
            if self._in("falls"):
                row.falls = f"{row.falls} {words}".strip()
            row.words = f"{row.words} {words}".strip()
        elif any("data-mark" in held for _, held in self.open):
            self.marks[-1].words = f"{self.marks[-1].words} {words}".strip()

    def _of_step(self, words: str, tags: list[str]) -> None:
        step = self.steps[-1]
        if "svg" in tags:
            step.drawing.append(words)
        elif self.open[-1][1].get("class") == "no":
            step.number = words
        elif "h3" in tags:
            step.title = f"{step.title} {words}".strip()
        elif "table" in tags:
            self._cell(words, tags)
        elif self._in("figs"):
            step.figures.append(words)
        elif step.points and "ol" in tags and self._in("text"):
            step.points[-1] = f"{step.points[-1]} {words}".strip()
        else:
            step.words.append(words)

    def _cell(self, words: str, tags: list[str]) -> None:
        table = self.steps[-1].tables[-1]
        if "caption" in tags:
            table.caption = f"{table.caption} {words}".strip()
        elif "thead" in tags and table.headings:
            table.headings[-1] = f"{table.headings[-1]} {words}".strip()
        elif table.rows and table.rows[-1]:
            table.rows[-1][-1] = f"{table.rows[-1][-1]} {words}".strip()

    def _figures(self) -> list[Figure]:
        """Return the list that a figure belongs to: of a mark, a line or its guide."""
        if any("data-mark" in held for _, held in self.open):
            return self.marks[-1].figures
        guide = any(held.get("data-l") == "guide" for _, held in self.open)
        return self.saws[-1].guide if guide else self.saws[-1].line

    def _datum(self) -> str:
        return next(held["data-datum"] for _, held in reversed(self.open) if "data-datum" in held)

    def _in(self, kind: str) -> bool:
        return any(kind in held.get("class", "").split() for _, held in self.open)

    def _hidden(self) -> bool:
        """Whether this is the page's other unit."""
        return self._in("u2")
