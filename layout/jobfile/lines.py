"""On which line each key of a TOML text stands, which the standard reader does not tell."""

from __future__ import annotations

import re
import tomllib

from ..keys.place import Trail

MOST_LEVELS = 24
"""How deep lists and tables may nest; a job needs six, and recursion must end somewhere."""

_TOKEN = re.compile(
    r'''(?P<text>"""(?:[^"\\]|\\.|"{1,2}(?!"))*"{3,5}|"(?:[^"\\\n]|\\.)*"'''
    r"""|'''(?:[^']|'{1,2}(?!'))*'{3,5}|'[^'\n]*')"""
    r"""|(?P<gap>[ \t]+|\#[^\n]*)|(?P<bare>[A-Za-z0-9_-]+)|(?P<sign>.)""",
    re.DOTALL,
)
_ENDS = ("\n", ",", "]", "}", "")
"""What may follow a value; the last is the end of the text."""


class NestedTooDeepError(ValueError):
    """Lists or tables nest deeper than `MOST_LEVELS`; the one argument is the line."""

    def __init__(self, line: int) -> None:
        self.line = line
        super().__init__(f"line {line} nests deeper than {MOST_LEVELS}")


def lines_of(text: str) -> dict[Trail, int]:
    r"""Return the line, from 1, on which each key, table and list item of a valid TOML text starts.

    Its line ends are ``\n``. Rather than recurse without end, a `NestedTooDeepError` is raised.

    >>> lines_of("a = 1\n[[b]]\nc.d = [\n  2,\n  3]\n")[("b", 0, "c", "d", 1)]
    5
    """
    walk = Walk(text)
    walk.document()
    return walk.lines


class Walk:
    """One walk over the words and signs of one text."""

    def __init__(self, text: str) -> None:
        self.lines: dict[Trail, int] = {}
        self._counts: dict[Trail, int] = {}
        self._tokens: list[tuple[str, int]] = []
        self._here, line = 0, 1
        for match in _TOKEN.finditer(text):
            if match.lastgroup != "gap":
                self._tokens.append((match[0], line))
            line += match[0].count("\n")
        self._tokens.append(("", line))

    def document(self) -> Trail:
        """Walk to the end and return the table that a key written there would belong to."""
        table: Trail = ()
        while self._goes_on():
            if self._take("["):
                table = self._header()
            else:
                self._pair(table, 1)
        return table

    def _header(self) -> Trail:
        line, many = self._line, self._take("[")
        *above, own = self.key()
        table: Trail = ()
        for name in above:
            table = self._last((*table, name), line)
        table += (own,)
        if many:
            self.lines.setdefault(table, line)
            self._counts[table] = self._counts.get(table, 0) + 1
            table = self._last(table, line)
        self.lines[table] = line  # even where a header below it named it first
        self._here += 1 + many
        return table

    def _last(self, trail: Trail, line: int) -> Trail:
        """Return the trail of a table, or of the newest table of a list of them."""
        self.lines.setdefault(trail, line)
        count = self._counts.get(trail, 0)
        return (*trail, count - 1) if count else trail

    def _pair(self, table: Trail, level: int) -> None:
        line, trail = self._line, table
        for name in self.key():
            trail = (*trail, name)
            self.lines.setdefault(trail, line)
        self._here += 1  # the equals sign
        self._value(trail, level)

    def key(self) -> list[str]:
        """Return the names of the dotted key that starts here, and stop behind it."""
        names: list[str] = []
        while not names or self._take("."):
            text, line = self._tokens[self._here]
            if len(names) == MOST_LEVELS:
                raise NestedTooDeepError(line)
            if len(text) > 1 and text[0] in "\"'":
                text = str(tomllib.loads(f"key = {text}")["key"])
            elif not re.match(r"[A-Za-z0-9_-]", text):
                raise ValueError(f"line {line} is no TOML")
            names.append(text)
            self._here += 1
        return names

    def _value(self, trail: Trail, level: int) -> None:
        if level > MOST_LEVELS:
            raise NestedTooDeepError(self._line)
        if self._take("["):
            index = 0
            while self._goes_on() and not self._take("]"):
                self.lines.setdefault((*trail, index), self._line)
                self._value((*trail, index), level + 1)
                index += 1
                self._goes_on()
                self._take(",")
        elif self._take("{"):
            while self._goes_on() and not self._take("}"):
                self._pair(trail, level + 1)
                self._goes_on()
                self._take(",")
        while self._tokens[self._here][0] not in _ENDS:
            self._here += 1

    def _goes_on(self) -> bool:
        """Skip the ends of lines, and return whether anything follows."""
        while self._take("\n"):
            pass
        return bool(self._tokens[self._here][0])

    def _take(self, sign: str) -> bool:
        taken = self._tokens[self._here][0] == sign
        self._here += taken
        return taken

    @property
    def _line(self) -> int:
        return self._tokens[self._here][1]
