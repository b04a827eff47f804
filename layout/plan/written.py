"""A job file written anew: tables and values as TOML, with what they mean beside them."""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from textwrap import wrap
from typing import Any

from ..keys.place import Trail

LINE = 100
"""Signs of a line, its remark included; a longer remark stands above its key."""

Remark = Callable[[Trail], str]


def written(
    tables: Mapping[str, Any], remark: Remark = lambda trail: "", heading: Iterable[str] = ()
) -> str:
    """Return the text of a job file from its tables, as a reader finds them.

    `remark` says what stands as a comment beside the key of a trail, `heading` above everything.

    >>> print(written({"panel": {"outline": {"length": 900.0, "width": 400}}}), end="")
    [panel]
    outline = {length = 900, width = 400}
    """
    rows = [*(f"# {line}" for line in heading), *_rows(tables, (), remark)]
    return "\n".join(rows).lstrip("\n") + "\n"


def _rows(values: Mapping[str, Any], trail: Trail, remark: Remark) -> Iterator[str]:
    """Yield values first and tables behind them: what follows a table would belong to it."""
    for name, value in sorted(values.items(), key=lambda item: _is_table(item[1], trail)):
        here = (*trail, name)
        if not _is_table(value, trail):
            yield from _pair(name, _value(value), remark(here))
        elif isinstance(value, Mapping):
            yield from ("", f"[{_key(name)}]", *_rows(value, here, remark))
        else:
            for number, inner in enumerate(value):
                # What a key means is said once, where it comes first.
                said = remark if not number else lambda trail: ""
                table = ".".join(_key(str(part)) for part in here)
                yield from ("", f"[[{table}]]", *_rows(inner, here, said))


def _is_table(value: object, trail: Trail) -> bool:
    """Return whether a value is written under a heading of its own."""
    if isinstance(value, Mapping):
        return not trail
    return isinstance(value, list | tuple) and bool(value) and isinstance(value[0], Mapping)


def _pair(name: str, value: str, remark: str) -> Iterator[str]:
    row = f"{_key(name)} = {value}"
    if remark and len(f"{name} = {value}   # {remark}") <= LINE:
        yield f"{row} # {remark}"
    else:
        yield from (f"# {line}" for line in wrap(remark, LINE - 2))
        yield row


def _key(name: str) -> str:
    return name if re.fullmatch(r"[A-Za-z0-9_-]+", name) else _value(name)


def _value(value: object) -> str:
    if isinstance(value, Mapping):
        return f"{{{', '.join(f'{_key(name)} = {_value(held)}' for name, held in value.items())}}}"
    if isinstance(value, list | tuple):
        return f"[{', '.join(map(_value, value))}]"
    if isinstance(value, str):  # as JSON has it, which leaves one control character
        return json.dumps(value, ensure_ascii=False).replace("\x7f", "\\u007f")
    if isinstance(value, float):
        return repr(int(value) if value.is_integer() and abs(value) < 1e15 else value)
    return str(value).lower()
