"""What the keys of one table, or the fields of one value, were given, for rules between them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any, TypeVar

from ..errors import LayoutError
from .key import Section, keys_by_field
from .kinds import Held
from .place import Place, Refusal

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
    """The keys that were given, whether or not they could be read."""
    meant: frozenset[str] = frozenset()
    """Keys that seem meant by unknown ones; they are not told to be missing on top of it."""

    @classmethod
    def of(cls, value: Any, *where: str, error: type[LayoutError] = LayoutError) -> Values:  # noqa: ANN401 - any dataclass
        """Return the fields of a value that are other than usual; what is wrong is raised.

        So one rule serves a job file, of which it notes all that is wrong, and a program.
        """
        keys = keys_by_field(type(value))
        told = {own.name: getattr(value, name) for name, own in keys.items()}
        held = {own.name: told[own.name] for own in keys.values() if told[own.name] != own.default}
        section = Section("", "", tuple(keys.values()))
        return cls(section, Place(Refusal(error), where), held, frozenset(held))

    def with_those_of(self, value: Any) -> Values:  # noqa: ANN401 - any dataclass
        """Return them with the fields of another value that stand in the same table."""
        other = Values.of(value)
        section = Section("", "", (*self.section.keys, *other.section.keys))
        held = {**self.held, **other.held}
        return Values(section, self.place, held, self.given | other.given)

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
