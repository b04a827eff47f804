"""A job file written anew: tables and values as TOML, with what they mean beside them."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from textwrap import wrap
from typing import Any

import tomlkit
from tomlkit.items import Item, Table

from ..keys.place import Trail

LINE = 100
"""Signs of a line, its remark included; a longer remark stands above its key."""


def written(
    tables: Mapping[str, Any],
    remark: Callable[[Trail], str] | None = None,
    heading: Iterable[str] = (),
) -> str:
    """Return the text of a job file from its tables, as a reader finds them.

    `remark` says what stands as a comment beside the key of a trail, `heading` above everything.

    >>> print(written({"panel": {"outline": {"length": 900.0, "width": 400}}}), end="")
    [panel]
    outline = {length = 900, width = 400}
    """
    document = tomlkit.document()
    for line in heading:
        document.add(tomlkit.comment(line))
    _fill(document, tables, (), remark or _unsaid)
    return tomlkit.dumps(document)


def _fill(
    table: tomlkit.TOMLDocument | Table,
    values: Mapping[str, Any],
    trail: Trail,
    remark: Callable[[Trail], str],
) -> None:
    """Put values first and tables behind them: what follows a table would belong to it."""
    for name, value in sorted(values.items(), key=lambda item: _is_table(item[1], trail)):
        here = (*trail, name)
        if not _is_table(value, trail):
            _pair(table, name, _item(value), remark(here))
            continue
        held, said = tomlkit.aot(), remark
        for inner in (value,) if isinstance(value, Mapping) else value:
            held.append(tomlkit.table())
            _fill(held[-1], inner, here, said)
            said = _unsaid  # what a key means is told once, where it comes first
        table.add(name, held[0] if isinstance(value, Mapping) else held)


def _unsaid(trail: Trail) -> str:
    return ""


def _is_table(value: object, trail: Trail) -> bool:
    """Return whether a value is written under a heading of its own."""
    if isinstance(value, Mapping):
        return not trail
    return isinstance(value, list | tuple) and bool(value) and isinstance(value[0], Mapping)


def _pair(table: tomlkit.TOMLDocument | Table, name: str, item: Item, remark: str) -> None:
    if remark and len(f"{name} = {item.as_string()}   # {remark}") <= LINE:
        item.comment(remark)
    else:
        for line in wrap(remark, LINE - 2):
            table.add(tomlkit.comment(line))
    table.add(name, item)


def _item(value: object) -> Item:
    if isinstance(value, Mapping):
        inline = tomlkit.inline_table()
        for name, inner in value.items():
            inline.append(name, _item(inner))
        return inline
    if isinstance(value, list | tuple):
        row = tomlkit.array()
        for inner in value:
            row.append(_item(inner))
        return row
    if isinstance(value, float) and value.is_integer() and abs(value) < 1e15:
        return tomlkit.item(int(value))
    return tomlkit.item(value)
