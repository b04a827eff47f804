"""Rooms and imports of a package as a picture: `rooms_picture.py FOLDER SVG TITLE`.

Each room is a stack of its files, as high as they have lines; the files of the package itself stand
as two rooms, those that ask other rooms and those that are asked. An arrow is as wide as there are
imports; one that points upwards is red.
"""

from __future__ import annotations

import ast
import sys
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from pathlib import Path as FilePath

from panelwright.layout.drawing.scene import Area, Group, Item, Layer, Scene, Stroke, Text
from panelwright.layout.drawing.svg import to_svg
from panelwright.layout.geometry import Bounds, Path, Point

ASKS, ASKED = "what asks the rooms", "what all rooms use"

WIDE, BETWEEN, APART, EDGE = 26.0, 6.0, 16.0, 6.0
"""mm on paper: a room, between two of a row, between rows, round all."""

LINES_A_MM = 50.0

_MANY = 4
"""Rooms that ask another one, from which that stands below them."""

FILES = Layer("files", "Files", "#d5dde3", 0.18, hatching="solid")
EDGES = Layer("edges", "Edges of files", "#ffffff", 0.18)
WORDS = Layer("words", "Words", "#202020", 0.18)


def files_of(folder: FilePath) -> dict[str, FilePath]:
    """Return the files of a package by their path in it without ending; its own is ``.``."""
    files = sorted(folder.rglob("*.py"))
    stems = [file.relative_to(folder).with_suffix("").as_posix() for file in files]
    return dict(
        zip(
            [stem.removesuffix("/__init__").replace("__init__", ".") for stem in stems],
            files,
            strict=True,
        )
    )


def _imports(folder: FilePath) -> dict[str, set[str]]:
    """Return what each file of the package imports of it, both by path without ending."""
    names = files_of(folder)
    asked = {}
    for name, file in names.items():
        package = file.parent
        found = set()
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
            if isinstance(node, ast.ImportFrom) and node.level:
                base = package
                for _ in range(node.level - 1):
                    base = base.parent
                stem = base.joinpath(*(node.module or "").split("."))
                for target in [stem, *(stem / alias.name for alias in node.names)]:
                    if target.is_relative_to(folder):
                        found.add(target.relative_to(folder).as_posix())
        asked[name] = (found & set(names)) - {name}
    return asked


def _rooms(asked: dict[str, set[str]]) -> dict[str, str]:
    """Return the room of each file."""
    folders = {name.split("/")[0] for name in asked if "/" in name}
    asking = {(a.split("/")[0], b.split("/")[0]) for a, found in asked.items() for b in found}
    wide = {f for f in folders if sum((other, f) in asking for other in folders - {f}) >= _MANY}
    above: set[str] = {"."}
    while True:
        more = {
            name
            for name, found in asked.items()
            if name.split("/")[0] not in folders
            and any(one.split("/")[0] in folders - wide or one in above - {"."} for one in found)
        }
        if more <= above:
            break
        above |= more
    by_name = {name: ASKS if name in above else ASKED for name in asked}
    return by_name | {n: n.split("/")[0] for n in asked if n.split("/")[0] in folders}


def _floors(arrows: Counter[tuple[str, str]], rooms: Iterable[str]) -> dict[str, int]:
    """Return the floor of each room: the lower, the more rooms ask it."""
    asking = Counter(asked for asks, asked in arrows if asks not in (ASKS, ASKED))
    known = {ASKS: 3, ASKED: 1}
    return {room: known.get(room, 0 if asking[room] >= _MANY else 2) for room in rooms}


def rooms_picture(folder: FilePath, title: str) -> str:
    """Return the picture of a package as SVG."""
    asked = _imports(folder)
    room_of = _rooms(asked)
    between = Counter(
        (room_of[name], room_of[one])
        for name, found in asked.items()
        for one in found
        if room_of[name] != room_of[one]
    )
    lines = {
        name: len(file.read_text(encoding="utf-8").splitlines())
        for name, file in files_of(folder).items()
    }
    rooms: dict[str, list[str]] = {}
    for name in sorted(asked, key=lambda name: -lines[name]):
        rooms.setdefault(room_of[name], []).append(name)
    floors = _floors(between, rooms)
    return to_svg(_drawn(title, rooms, floors, lines, between))


def _drawn(
    title: str,
    rooms: Mapping[str, Sequence[str]],
    floors: Mapping[str, int],
    lines: Mapping[str, int],
    between: Counter[tuple[str, str]],
) -> Scene:
    """Return rooms as stacks of files, floor above floor, and the arrows between them."""
    size = {room: sum(lines[name] for name in names) for room, names in rooms.items()}
    floor = [sorted(room for room in rooms if floors[room] == k) for k in range(4)]
    rows = [row for row in floor if row]
    broad = max(map(len, rows)) * (WIDE + BETWEEN) - BETWEEN
    boxes, y = {}, EDGE
    for row in rows:
        # arrows to a lowest room in the middle would run through the room above it
        share = 0.5 if len(row) > 1 or row[0] in (ASKS, ASKED) else 0.0
        left = EDGE + (broad - len(row) * (WIDE + BETWEEN) + BETWEEN) * share
        high = max(size[room] for room in row) / LINES_A_MM
        for k, room in enumerate(sorted(row, key=lambda room: -size[room])):
            x, up = left + k * (WIDE + BETWEEN), size[room] / LINES_A_MM
            boxes[room] = Bounds(x, y + high - up, x + WIDE, y + high)
        y += high + APART
    files: list[Area] = []
    words: list[Item] = []
    for room, box in boxes.items():
        top = box.top
        for name in rooms[room]:
            low = top - lines[name] / LINES_A_MM
            files.append(Area(Path.round_box(Bounds(box.left, low, box.right, top)), edged=False))
            if top - low > 1.75:
                stem = name.split("/")[-1].removesuffix(".")
                words.append(Text(Point(box.left + 1, (top + low) / 2 - 0.6), stem, 1.25))
            top = low
        told = f"{room}  {size[room]:,}"
        words.append(Text(Point(box.left, box.top + 1.2), told, 1.8, bold=True))
    groups: list[Group] = []
    for (asks, asked), count in sorted(
        between.items(), key=lambda pair: (floors[pair[0][0]] < floors[pair[0][1]], pair)
    ):
        falls = floors[asks] >= floors[asked]
        a, b = _way(boxes[asks], boxes[asked], floors[asks] - floors[asked])
        layer = Layer(
            f"arrow-{len(groups)}",
            f"{count} imports",
            "#56798a" if falls else "#b3321c",
            0.18 + 0.04 * count,
        )
        groups.append(Group(layer, (Stroke(Path.through([a, b])), *_head(a, b))))
    groups += [
        Group(FILES, tuple(files)),
        Group(EDGES, tuple(replace(a, edged=True) for a in files)),
    ]
    told = f"{title}: {sum(lines.values()):,} lines in {len(lines)} files"
    words.append(Text(Point(EDGE, y - APART + 9), told, 2.5, bold=True))
    return Scene(
        title, Bounds(0, 0, broad + 2 * EDGE, y - APART + 16), (*groups, Group(WORDS, tuple(words)))
    )


def _way(start: Bounds, end: Bounds, down: int) -> tuple[Point, Point]:
    """Return where an arrow from one room to another begins and ends."""
    if down > 0:
        return Point(start.middle.x, start.bottom), Point(end.middle.x, end.top + 3.6)
    if down < 0:
        return Point(start.middle.x, start.top + 3.6), Point(end.middle.x, end.bottom)
    y = (max(start.bottom, end.bottom) + min(start.top, end.top)) / 2
    return (
        (Point(start.right, y), Point(end.left, y))
        if start.left < end.left
        else (Point(start.left, y), Point(end.right, y))
    )


def _head(a: Point, b: Point) -> tuple[Item, ...]:
    back = (a - b).unit() * 1.6
    return tuple(Stroke(Path.through([b, b + back.turned(turn)])) for turn in (-0.4, 0.4))


if __name__ == "__main__":
    shown, out = FilePath(sys.argv[1]), FilePath(sys.argv[2])
    out.write_text(rooms_picture(shown, sys.argv[3]), encoding="utf-8")
