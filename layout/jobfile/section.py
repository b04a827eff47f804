"""One table of a job file, read by the keys it may have."""

from __future__ import annotations

from ..keys.key import Section
from ..keys.place import UNREADABLE, Place, closest, shown
from ..keys.values import Values
from .sections import homes


def read_section(raw: object, section: Section, place: Place) -> Values:
    """Return what a table says, having noted every key that is unknown or cannot be read."""
    if not isinstance(raw, dict):
        if raw != UNREADABLE:
            place.wrong(f"{shown(raw)} is not a table: {_how(section)}")
        return Values(section, place, {}, frozenset())
    held, meant = {}, set()
    for name, value in raw.items():
        if name in section:
            read = section[name].kind.read(value, place / name)
            if read is not None:
                held[name] = read
        else:
            known = [key.name for key in section.keys]
            meant.add(closest(name, known))
            if value != UNREADABLE:
                (place / name).wrong(_unknown(name, section, known))
    given = frozenset(raw) & {key.name for key in section.keys}
    return Values(section, place, held, given, frozenset(name for name in meant if name))


def _unknown(name: str, section: Section, known: list[str]) -> str:
    elsewhere = homes(name)
    if elsewhere:
        hint = f"; it belongs under {' or '.join(elsewhere)}"
    else:
        near = closest(name, known)
        hint = f"; did you mean {near}?" if near else ""
    where = section.heading or "the top of the file"
    return f"the key is not known in {where}{hint}; known are {', '.join(known)}"


def _how(section: Section) -> str:
    if section.heading.count(".") > 1 or section.heading.startswith("[["):
        return "write { key = value, … }"
    return f"open it with {section.heading} and put its keys below, or write {{ key = value, … }}"
