"""A bench sheet read back as a stranger would: its steps, words, tables and drawings."""

from __future__ import annotations

from dataclasses import dataclass, field
from html.parser import HTMLParser


@dataclass
class PageTable:
    """A table as it stands on the page."""

    headings: list[str] = field(default_factory=list)
    rows: list[list[str]] = field(default_factory=list)
    caption: str = ""


@dataclass
class PageStep:
    """A step as it stands on the page."""

    number: str = ""
    title: str = ""
    words: list[str] = field(default_factory=list)
    points: list[str] = field(default_factory=list)
    tables: list[PageTable] = field(default_factory=list)
    drawing: list[str] = field(default_factory=list)

    @property
    def text(self) -> str:
        """All its words."""
        return " ".join([*self.words, *self.points])


class Page(HTMLParser):
    """Reads a bench sheet."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.steps: list[PageStep] = []
        self.ids: list[str] = []
        self.outside: list[str] = []
        self.size = ""
        self._open: list[tuple[str, str]] = []
        self.feed(html)
        assert self._open == []

    def step(self, title: str) -> PageStep:
        """Return the last step whose title starts so: of a slab the second setting out."""
        return [step for step in self.steps if step.title.startswith(title)][-1]

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Open a tag; begin a step or a row."""
        held = {key: value or "" for key, value in attrs}
        self.ids += [held["id"]] if "id" in held else []
        self.outside += [held[key] for key in ("src", "href", "xlink:href") if key in held]
        kind = held.get("class", "")
        if tag == "meta":
            return
        inside = [name for name, _ in self._open]
        self._open.append((tag, kind))
        if kind == "tick":
            self.steps.append(PageStep())
        elif tag == "table":
            self.steps[-1].tables.append(PageTable())
        elif tag == "tr" and "tbody" in inside:
            self.steps[-1].tables[-1].rows.append([])
        elif tag == "td":
            self.steps[-1].tables[-1].rows[-1].append("")
        elif tag == "th":
            self.steps[-1].tables[-1].headings.append("")

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Take an empty tag."""
        self.handle_starttag(tag, attrs)
        if tag != "meta":
            self._open.pop()

    def handle_endtag(self, tag: str) -> None:
        """Close a tag, which must be the last that was opened."""
        assert self._open.pop()[0] == tag

    def handle_data(self, data: str) -> None:
        """Put words where they belong."""
        words = " ".join(data.split())
        if not words or not self._open:
            return
        tag, kind = self._open[-1]
        names = [name for name, _ in self._open]
        if kind == "size":
            self.size = words
        if not self.steps:
            return
        step = self.steps[-1]
        if "svg" in names:
            if tag in ("text", "title"):
                step.drawing.append(words)
        elif kind == "tick":
            step.number = words
        elif tag == "h3":
            step.title += words
        elif tag == "td":
            step.tables[-1].rows[-1][-1] += words
        elif tag == "th":
            step.tables[-1].headings[-1] += words
        elif tag == "caption":
            step.tables[-1].caption += words
        elif tag == "li":
            step.points.append(words)
        elif tag == "p":
            step.words.append(words)
