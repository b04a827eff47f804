"""A sheet as a row of items: each element, word, figure and path, with the place where it stands.

All formats come down to the same thing: text with figures in it. Whoever compares two sheets needs
to know no format.
"""

from __future__ import annotations

import io
import json
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from html.parser import HTMLParser
from pathlib import PurePath
from typing import Any

import ezdxf
import pikepdf
from ezdxf.lldxf.tagwriter import TagCollector


@dataclass(frozen=True, slots=True)
class Item:
    """What stands at a place of a sheet; several items may stand at one place."""

    place: str
    text: str


def items(name: str, content: str | bytes) -> list[Item]:
    """Return what is in a file, in its order; the end of its name says how it is read."""
    return list(_READERS[PurePath(name).suffix](name, content))


def _numbers(name: str, content: str | bytes) -> Iterator[Item]:
    yield from _values(json.loads(content), name)


def _values(value: Any, place: str) -> Iterator[Item]:  # noqa: ANN401 - JSON is anything
    if isinstance(value, dict):
        for key, inner in value.items():
            yield from _values(inner, f"{place}, {key}")
    elif isinstance(value, list):
        for number, inner in enumerate(value, start=1):
            yield from _values(inner, f"{place} {number}{_title(inner)}")
    else:
        yield Item(place, str(value))


def _title(value: Any) -> str:  # noqa: ANN401 - JSON is anything
    """Return what a person calls an entry of a list: the step's title, the mark's label."""
    titles = (value.get(key) for key in ("title", "label", "name") if isinstance(value, dict))
    return next((f' "{title}"' for title in titles if title), "")


class _Pages(HTMLParser):
    """Reads HTML and SVG: the headings above an element, and its titles, are its place."""

    LEVELS = ("h2", "step", "h3", "figure", "svg", "title")
    ENDS = ("figure", "svg", "g", "li")
    VOID = ("meta", "link", "br", "img", "hr", "input", "col")

    def __init__(self, name: str) -> None:
        super().__init__()
        self.name = name
        self.found: list[Item] = []
        self._open: list[str] = []
        self._headings: dict[str, str] = {}
        self._bare = False  # whether the last element waits for its words

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        named = dict(attrs)
        if tag == "figure":
            self._head("figure", str(named.get("aria-label")))
        level = "step" if named.get("class") == "no" else tag
        if tag not in self.VOID:
            self._open.append(level)
        self._add(" ".join([tag, *(f'{key}="{value}"' for key, value in sorted(named.items()))]))
        self._bare = True

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.handle_starttag(tag, attrs)
        self.handle_endtag(tag)

    def handle_endtag(self, tag: str) -> None:
        if tag not in self.VOID:
            self._open.pop()
        self._bare = False
        if tag in self.ENDS:
            self._head({"g": "title", "li": "step"}.get(tag, tag), None)

    def handle_data(self, data: str) -> None:
        if not data.strip():
            return
        if self._open[-1] in self.LEVELS:
            self._head(self._open[-1], data.strip())
        if self._bare:
            self._add(f"{self.found.pop().text}: {data.strip()}")
        else:
            self._add(data.strip())
        self._bare = False

    def _head(self, level: str, words: str | None) -> None:
        """Take up a heading, or its end: those below it no longer hold."""
        for lower in self.LEVELS[self.LEVELS.index(level) :]:
            self._headings.pop(lower, None)
        if words is not None:
            self._headings[level] = f"step {words}" if level == "step" else f'"{words}"'

    def _add(self, text: str) -> None:
        self.found.append(Item(", ".join([self.name, *self._headings.values()]), text))


def _page(name: str, content: str | bytes) -> Iterator[Item]:
    reader = _Pages(name)
    reader.feed(str(content))
    reader.close()
    yield from reader.found


HANDLES = (5, 330)
"""Group codes under which a DXF file numbers its entities: no part of the drawing."""


def _entities(name: str, content: str | bytes) -> Iterator[Item]:
    for entity in ezdxf.read(io.StringIO(str(content))).modelspace():
        tags = [tag for tag in TagCollector.dxftags(entity) if tag.code not in HANDLES]
        text = " ".join(f"{tag.code}: {tag.value}" for tag in tags)
        yield Item(f"{name}, layer {entity.dxf.layer}, {entity.dxftype()}", text)


PATH = frozenset(["m", "l", "c", "v", "y", "h", "re"])
"""PDF operators that add to a path; the next operator draws it."""


def _sheets(name: str, content: str | bytes) -> Iterator[Item]:
    assert isinstance(content, bytes)
    with pikepdf.open(io.BytesIO(content)) as document:
        for number, page in enumerate(document.pages, start=1):
            place = f"{name}, sheet {number}"
            yield Item(place, f"paper {page.mediabox}")
            layers = page.resources.get("/Properties", {})
            held: list[str] = []
            for operands, operator in pikepdf.parse_content_stream(page):
                words = [str(operand) for operand in operands]
                if str(operator) == "BDC":
                    place = f'{name}, sheet {number}, "{layers[words[-1]].Name}"'
                held += [*words, str(operator)]
                if str(operator) not in PATH:
                    yield Item(place, " ".join(held))
                    held = []


def _lines(name: str, content: str | bytes) -> Iterator[Item]:
    for part in str(content).split("\n\n"):
        head, *lines = part.split("\n")
        yield from (Item(f'{name}, "{head}"', line) for line in (head, *lines))


_READERS: dict[str, Callable[[str, str | bytes], Iterator[Item]]] = {
    ".json": _numbers,
    ".html": _page,
    ".svg": _page,
    ".dxf": _entities,
    ".pdf": _sheets,
    ".txt": _lines,
}
