"""On which line each key of a TOML text stands.

The standard reader gives values and no lines. This one walks the same text beside it and keeps
only where each key starts, so it may trust that the text is valid: it is called after the standard
reader took it. What it must get right is what a value can hide (strings of four kinds, comments,
lists and inline tables over many lines) and to which table of a list a header belongs.
"""

from __future__ import annotations

import re
from bisect import bisect_right

from ..keys.place import Trail

MOST_LEVELS = 24
"""How deep lists and tables may nest; a job needs six, and recursion must end somewhere."""

_BLANK = re.compile(r"[ \t]*")
_FILLING = re.compile(r"(?:[ \t\n]+|#[^\n]*)*")
_BARE_KEY = re.compile(r"[A-Za-z0-9_-]+")
_BARE_VALUE = re.compile(r"[^,\]}#\n]*")
_BASIC = re.compile(r'"((?:[^"\\\n]|\\.)*)"')
_LITERAL = re.compile(r"'([^'\n]*)'")
_LONG_BASIC = re.compile(r'"""(?:[^"\\]|\\.|"(?!"")|"{1,2}(?="""))*"""', re.DOTALL)
_LONG_LITERAL = re.compile(r"'''(?:[^']|'(?!'')|'{1,2}(?='''))*'''")


class NestedTooDeepError(ValueError):
    """Lists or tables nest deeper than `MOST_LEVELS`; the one argument is the line."""

    def __init__(self, line: int) -> None:
        self.line = line
        super().__init__(f"line {line} nests deeper than {MOST_LEVELS}")


def lines_of(text: str) -> dict[Trail, int]:
    r"""Return the line, from 1, on which each key, table and list item of a valid TOML text starts.

    Parameters
    ----------
    text : str
        With line ends ``\n``, as the standard reader accepts it.

    Raises
    ------
    NestedTooDeepError
        Rather than recurse without end.

    Examples
    --------
    >>> lines_of("a = 1\n[[b]]\nc.d = [\n  2,\n  3]\n")[("b", 0, "c", "d", 1)]
    5
    """
    walk = Walk(text)
    walk.document()
    return walk.lines


class Walk:
    """One walk over one text."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.position = 0
        self.lines: dict[Trail, int] = {}
        self._breaks = [match.end() for match in re.finditer("\n", text)]
        self._counts: dict[Trail, int] = {}

    def document(self) -> Trail:
        """Walk to the end and return the table that a key written there would belong to."""
        table: Trail = ()
        self._skip(_FILLING)
        while self.position < len(self.text):
            if self._take("["):
                table = self._header()
            else:
                self._pair(table, 1)
            self._skip(_FILLING)
        return table

    def _header(self) -> Trail:
        line, many = self._line(), self._take("[")
        names = self.key()
        table: Trail = ()
        for name in names[:-1]:
            table = self._last((*table, name), line)
        table += (names[-1],)
        if many:
            self.lines.setdefault(table, line)
            self._counts[table] = self._counts.get(table, 0) + 1
            table = self._last(table, line)
        self.lines[table] = line  # even where a header below it named it first
        self.position += 2 if many else 1
        return table

    def _last(self, trail: Trail, line: int) -> Trail:
        """Return the trail of a table, or of the newest table of a list of them."""
        self.lines.setdefault(trail, line)
        count = self._counts.get(trail, 0)
        return (*trail, count - 1) if count else trail

    def _pair(self, table: Trail, level: int) -> None:
        line, trail = self._line(), table
        for name in self.key():
            trail = (*trail, name)
            self.lines.setdefault(trail, line)
        self._skip(_BLANK)
        self.position += 1  # the equals sign
        self._skip(_BLANK)
        self._value(trail, level)

    def key(self) -> list[str]:
        """Return the names of the dotted key that starts here, and stop behind it."""
        names = []
        while True:
            self._skip(_BLANK)
            names.append(self._name())
            self._skip(_BLANK)
            if len(names) > MOST_LEVELS:
                raise NestedTooDeepError(self._line())
            if not self._take("."):
                return names

    def _name(self) -> str:
        start = self.position
        if self.text[start] == '"':
            self._skip(_BASIC)
            return _unescaped(self.text[start : self.position])
        pattern = _LITERAL if self.text[start] == "'" else _BARE_KEY
        self._skip(pattern)
        name = self.text[start : self.position]
        return name[1:-1] if pattern is _LITERAL else name

    def _value(self, trail: Trail, level: int) -> None:
        if level > MOST_LEVELS:
            raise NestedTooDeepError(self._line())
        if self._take("["):
            self._items(trail, level)
        elif self._take("{"):
            self._skip(_FILLING)
            while not self._take("}"):
                self._pair(trail, level + 1)
                self._skip(_FILLING)
                self._take(",")
                self._skip(_FILLING)
        else:
            self._skip(self._scalar())

    def _items(self, trail: Trail, level: int) -> None:
        self._skip(_FILLING)
        index = 0
        while not self._take("]"):
            item = (*trail, index)
            self.lines.setdefault(item, self._line())
            self._value(item, level + 1)
            self._skip(_FILLING)
            self._take(",")
            self._skip(_FILLING)
            index += 1

    def _scalar(self) -> re.Pattern[str]:
        for opening, pattern in (
            ('"""', _LONG_BASIC),
            ("'''", _LONG_LITERAL),
            ('"', _BASIC),
            ("'", _LITERAL),
        ):
            if self.text.startswith(opening, self.position):
                return pattern
        return _BARE_VALUE

    def _skip(self, pattern: re.Pattern[str]) -> None:
        match = pattern.match(self.text, self.position)
        if match is None:
            raise ValueError(f"line {self._line()} is no TOML")
        self.position = match.end()

    def _take(self, sign: str) -> bool:
        taken = self.text.startswith(sign, self.position)
        self.position += taken
        return taken

    def _line(self) -> int:
        return bisect_right(self._breaks, self.position) + 1


def _unescaped(quoted: str) -> str:
    """Return what a quoted key means; a basic string is nearly a JSON one, so let TOML read it."""
    import tomllib

    return str(tomllib.loads(f"key = {quoted}")["key"]) if "\\" in quoted else quoted[1:-1]
