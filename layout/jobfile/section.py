"""One table of a job file, read by the keys it may have."""

from __future__ import annotations

from ..keys.key import Key, Section
from ..keys.place import UNREADABLE, Place, closest, shown
from ..keys.values import Values
from .sections import homes


def read_section(raw: object, section: Section, place: Place) -> Values:
    """Return what a table says, having noted every key that is unknown or cannot be read."""
    if not isinstance(raw, dict):
        if raw != UNREADABLE:
            place.wrong(f"{shown(raw)} is not a table: {_how(section)}")
        return Values(section, place, {}, frozenset())
    held, meant = {}, set[str]()
    for name, value in raw.items():
        if name in section:
            read = section[name].kind.read(value, place / name)
            if read is not None:
                held[name] = read
        else:
            by_name = {word: key for key in section.keys for word in (*key.mistaken, key.name)}
            key = by_name.get(name) or by_name.get(closest(name, by_name) or "")
            meant.update((key.name,) if key else ())
            if value != UNREADABLE:
                (place / name).wrong(_unknown(name, section, key))
    given = frozenset(raw) & {key.name for key in section.keys}
    return Values(section, place, held, given, frozenset(meant))


def _unknown(name: str, section: Section, meant: Key | None) -> str:
    """Return what is told of a key that is none of a table, and may be meant for one of its own."""
    elsewhere = homes(name)
    if meant is not None and name in meant.mistaken:
        hint = f"; write {meant.name} = {meant.example}"
    elif elsewhere:
        hint = f"; it belongs under {' or '.join(elsewhere)}"
    else:
        hint = f"; did you mean {meant.name}?" if meant else ""
    where = section.heading or "the top of the file"
    known = ", ".join(key.name for key in section.keys)
    return f"the key is not known in {where}{hint}; known are {known}"


def _how(section: Section) -> str:
    if section.heading.count(".") > 1 or section.heading.startswith("[["):
        return "write { key = value, … }"
    return f"open it with {section.heading} and put its keys below, or write {{ key = value, … }}"
