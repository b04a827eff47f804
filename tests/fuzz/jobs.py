"""Job files mutated by their structure: values, keys, tables, lists, points, and then the text."""

# ruff: noqa: E501, ANN401 - lists of odd values read better in long lines
from __future__ import annotations

import copy
import tomllib
from collections.abc import Iterator
from pathlib import Path
from random import Random
from typing import Any

from fuzz.hostile import literal
from random_jobs import Table, random_job

from panelwright.layout.jobfile.sections import SECTIONS
from panelwright.layout.keys.key import Section

SAMPLES = Path(__file__).parents[2] / "samples"
KEPT = [tomllib.loads(path.read_text(encoding="utf-8")) for path in SAMPLES.glob("*/job.toml")]
SMALL: Table = {
    "units": "mm",
    "panel": {"outline": {"length": 1200.0, "width": 600.0}, "thickness": 22.0},
    "top": {"shape": "capsule"},
    "legs": {"count": 4},
}

Spot = tuple[Any, Any]
"""A table or list, and the key or place in it."""


class Literal(str):
    """A value as it is written, right or wrong."""

    __slots__ = ()


def mutated(number: int) -> bytes:
    """Return the job file of a number: a sound job, changed one to six times."""
    draw = Random(f"job {number}")
    job = copy.deepcopy(draw.choice((SMALL, SMALL, draw.choice(KEPT), random_job(draw))))
    for _ in range(draw.choice((1, 1, 1, 2, 2, 3, 6))):
        draw.choice(CHANGES)(draw, job)
    text = written(job)
    if draw.random() < 0.15:
        text = draw.choice(TEXT_CHANGES)(draw, text)
    data = text.encode("utf-8", "surrogatepass")
    return draw.choice(BYTE_CHANGES)(draw, data) if draw.random() < 0.08 else data


def _spots(node: Any) -> Iterator[Spot]:
    items = node.items() if isinstance(node, dict) else enumerate(node)
    for key, value in items:
        yield node, key
        if isinstance(value, dict | list):
            yield from _spots(value)


def _spot(draw: Random, job: Table, *kinds: type) -> Spot:
    found = [s for s in _spots(job) if not kinds or type(s[0][s[1]]) in kinds]
    return draw.choice(found) if found else (job, next(iter(job), "units"))


def _replace(draw: Random, job: Table) -> None:
    node, key = _spot(draw, job)
    node[key] = Literal(literal(draw))


def _scale(draw: Random, job: Table) -> None:
    node, key = _spot(draw, job, int, float)
    if isinstance(node[key], int | float):
        by = draw.choice(
            (0.0, -1.0, 0.1, 0.5, 0.999999999, 1.000000001, 2.0, 10.0, 1e3, 1e-3, 1e9, 1e-9)
        )
        node[key] = node[key] * by


def _nudge(draw: Random, job: Table) -> None:
    node, key = _spot(draw, job, int, float)
    if isinstance(node[key], int | float):
        node[key] = node[key] + draw.choice((1e-9, -1e-9, 1e-6, 0.001, 0.01, 1, -1, 25.4))


def _equal(draw: Random, job: Table) -> None:
    (node, key), (other, name) = (_spot(draw, job, int, float) for _ in range(2))
    node[key] = other[name]


def _swap(draw: Random, job: Table) -> None:
    (node, key), (other, name) = _spot(draw, job), _spot(draw, job)
    node[key] = copy.deepcopy(other[name])


def _remove(draw: Random, job: Table) -> None:
    node, key = _spot(draw, job)
    del node[key]


def _list(draw: Random, job: Table) -> None:
    """Change a list: points double, run backwards, fall on one line, come in another order."""
    node, key = _spot(draw, job, list)
    items = node[key]
    if not isinstance(items, list) or not items:
        return
    at = draw.randrange(len(items))
    match draw.randrange(7):
        case 0:
            items.insert(at, copy.deepcopy(items[at]))
        case 1:
            del items[at]
        case 2:
            items.reverse()
        case 3:
            draw.shuffle(items)
        case 4:
            items[:] = items * draw.choice((2, 3, 40))
        case 5 if all(isinstance(i, list) and len(i) == 2 for i in items):
            before, after = items[at - 1], items[at]
            middle = [_middle(a, b) for a, b in zip(before, after, strict=True)]
            items.insert(at, middle)
        case _:
            items[at] = copy.deepcopy(draw.choice(items))


def _middle(one: Any, other: Any) -> Any:
    numbers = isinstance(one, int | float) and isinstance(other, int | float)
    return (one + other) / 2 if numbers else one


def _tables(job: Table) -> list[tuple[Section, Table]]:
    """Return the tables of a job with what may stand in them."""
    found = [(SECTIONS[0], job)]
    for section in SECTIONS[1:]:
        node: Any = job
        for name in section.heading.strip("[]").split("."):
            node = node.get(name) if isinstance(node, dict) else None
            node = node[0] if isinstance(node, list) and node else node
        if isinstance(node, dict):
            found.append((section, node))
    return found


def _add(draw: Random, job: Table) -> None:
    """Give a table one more of its keys."""
    section, table = draw.choice(_tables(job))
    key = draw.choice(section.keys)
    table[key.name] = Literal(key.example or literal(draw))


def _add_table(draw: Random, job: Table) -> None:
    """Write a table anew from the examples of some of its keys."""
    section = draw.choice(SECTIONS)
    keys = draw.sample(section.keys, k=min(len(section.keys), draw.randint(1, 5)))
    table = {key.name: Literal(key.example or "1") for key in keys}
    *path, last = section.heading.strip("[]").split(".")
    node: Any = job
    for name in path:
        node = node.setdefault(name, {}) if isinstance(node, dict) else {}
    if isinstance(node, dict):
        node[last] = [table] if section.heading.startswith("[[") else table


def _misplace(draw: Random, job: Table) -> None:
    _, table = draw.choice(_tables(job))
    other = draw.choice(SECTIONS)
    key = draw.choice(other.keys)
    name = (
        key.name
        if draw.random() < 0.6
        else draw.choice(("", "a b", "é", key.name[:-1], "__proto__"))
    )
    table[name] = Literal(key.example or literal(draw))


def _units(draw: Random, job: Table) -> None:
    job["units"] = draw.choice(("mm", "cm", "m", "in", "ft", "", "furlong", 5, True))


def _defect(draw: Random, job: Table) -> None:
    """Add a defect: a hair, wider than the panel, off it, over its corner, like another one."""
    panel = job.get("panel")
    if not isinstance(panel, dict):
        return
    defects = panel.setdefault("defects", [])
    if not isinstance(defects, list):
        return
    at = [draw.choice((0.0, 300.0, 600.0, 1200.0, -5.0, 1e4)), draw.choice((0.0, 300.0, 600.0))]
    size = draw.choice((1e-6, 0.01, 0.5, 8.0, 250.0, 599.999, 600.0, 1e4))
    one: Table = {"at": at, "diameter": size}
    if draw.random() < 0.4:
        one = {
            "at": at,
            "size": [size, draw.choice((size, 1e-6, 3.0))],
            "turn": draw.choice((0, 45, 1e9)),
        }
    if draw.random() < 0.3:
        one["spoils"] = draw.choice((["cutting"], ["bearing"], ["showing", "cutting"], []))
    defects.extend(copy.deepcopy(one) for _ in range(draw.choice((1, 1, 2, 30))))


CHANGES = (
    _replace, _replace, _replace, _scale, _scale, _nudge, _equal, _swap, _remove, _list, _list, _add, _add,
    _add_table, _misplace, _units, _defect, _defect,
)  # fmt: skip


def written(job: Table) -> str:
    """Return a table of tables as TOML; what lies deeper is written inline."""
    plain = {key: value for key, value in job.items() if not isinstance(value, dict)}
    rows = [f"{_name(key)} = {_value(value)}" for key, value in plain.items()]
    for key, table in job.items():
        if isinstance(table, dict):
            rows += [f"[{_name(key)}]", *(f"{_name(k)} = {_value(v)}" for k, v in table.items())]
    return "\n".join(rows) + "\n"


def _name(key: object) -> str:
    text = str(key)
    return text if text.replace("_", "a").isalnum() and text.isascii() else _text(text)


def _text(text: str) -> str:
    return (
        '"'
        + "".join(c if c.isprintable() and c not in '"\\' else f"\\U{ord(c):08x}" for c in text)
        + '"'
    )


def _value(value: Any) -> str:
    if isinstance(value, Literal):
        return str(value)
    if isinstance(value, dict):
        return "{ " + ", ".join(f"{_name(k)} = {_value(v)}" for k, v in value.items()) + " }"
    if isinstance(value, list | tuple):
        return "[" + ", ".join(map(_value, value)) + "]"
    if isinstance(value, bool):
        return str(value).lower()
    return _text(value) if isinstance(value, str) else repr(value)


def _cut(draw: Random, text: str) -> str:
    return text[: draw.randrange(len(text) + 1)]


def _slip(draw: Random, text: str) -> str:
    """Return the text with a sign put in, left out or doubled."""
    at = draw.randrange(len(text) + 1)
    sign = draw.choice(
        (
            "",
            '"',
            "'",
            "[",
            "]",
            "{",
            "}",
            "=",
            ",",
            "#",
            "\n",
            "\\",
            "\x00",
            "\x07",
            "\u2028",
            '"""',
        )
    )
    return text[:at] + sign + text[at + draw.choice((0, 0, 1)) :]


def _lines(draw: Random, text: str) -> str:
    rows = text.split("\n")
    match draw.randrange(4):
        case 0:
            rows.insert(draw.randrange(len(rows)), draw.choice(rows))
        case 1:
            draw.shuffle(rows)
        case 2:
            return "\r\n".join(rows)
        case _:
            rows.insert(
                draw.randrange(len(rows)),
                draw.choice(("[" * 300, "a." * 300 + "b = 1", "[[panel]]", "x")),
            )
    return "\n".join(rows)


TEXT_CHANGES = (_cut, _slip, _slip, _lines)


def _flipped(draw: Random, data: bytes) -> bytes:
    at = draw.randrange(max(1, len(data)))
    return data[:at] + bytes([draw.randrange(256)]) + data[at + 1 :]


def _truncated(draw: Random, data: bytes) -> bytes:
    return data[: draw.randrange(len(data) + 1)]


def _marked(draw: Random, data: bytes) -> bytes:
    return draw.choice((b"\xef\xbb\xbf", b"\xff\xfe", b"\0")) + data


BYTE_CHANGES = (_flipped, _truncated, _marked)
