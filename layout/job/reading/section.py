"""One table of a job file, read by the keys it may have."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any, TypeVar

from ...errors import LayoutError
from ...keys.key import Section, keys_by_field
from ...keys.kinds import Held
from ...keys.place import UNREADABLE, Place, closest, shown
from ..keys.table import homes

Made = TypeVar("Made")


@dataclass(frozen=True, slots=True)
class Values:
    """What a table says."""

    section: Section
    place: Place
    """Of the table."""
    held: Mapping[str, Any]
    """What was given and could be read."""
    given: frozenset[str]
    """The keys that stand in the file, whether or not they could be read."""
    meant: frozenset[str] = frozenset()
    """Keys that seem meant by unknown ones; they are not told to be missing on top of it."""

    def __getitem__(self, name: str) -> Held:
        """Return what was given, or else the key's default; None where it could not be read."""
        if name in self.given:
            return self.held.get(name)
        return self.section[name].default

    def at(self, name: str) -> Place:
        """Return the place of a key; of the table, by line, where the key is not given."""
        return self.place / name

    def has(self, name: str) -> bool:
        """Return whether a key was given."""
        return name in self.given

    def lacks(self, name: str) -> bool:
        """Return whether a key is not given, nor anything that seems meant for it."""
        return name not in self.given and name not in self.meant

    def sound(self, *names: str) -> bool:
        """Return whether none of the keys was given and could not be read."""
        return all(name in self.held or name not in self.given for name in names)

    def made(self, cls: type[Made], **filled: Any) -> Made | None:  # noqa: ANN401 - fields of any kind
        """Return the dataclass whose keys these are; None where something is wrong with it.

        Parameters
        ----------
        filled : object
            Fields that more than one key fills, or none.
        """
        if not self.sound(*(key.name for key in self.section.keys)):
            return None
        held = {
            name: self[key.name] for name, key in keys_by_field(cls).items() if self.has(key.name)
        }
        try:
            return cls(**(held | filled))
        except LayoutError as error:
            self.place.wrong(str(error))
            return None

    def only_one_of(self, *names: str) -> bool:
        """Return whether at most one of these keys is given; note the others otherwise."""
        given = [name for name in names if name in self.given]
        for name in given[1:]:
            self.at(name).wrong(f"{name} and {given[0]} say the same thing twice: keep one of them")
        return len(given) < 2

    def not_with(self, name: str, others: Iterable[str], why: str) -> bool:
        """Note the keys that may not stand beside `name`, and return whether there were none."""
        clash = [other for other in others if other in self.given] if name in self.given else []
        if clash:
            verb = "does" if len(clash) == 1 else "do"
            self.at(clash[0]).wrong(f"{' and '.join(clash)} {verb} not go with {name}: {why}")
        return not clash


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
