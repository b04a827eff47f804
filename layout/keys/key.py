"""A key, declared at the field that it fills: one declaration for the job file and for programs.

``kerf: float = key(2.4, THIN, "Width of the saw's cut", "2.2")`` is the field of a dataclass.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from functools import cache
from typing import Any

from ..errors import LayoutError
from .kinds import Held, Kind
from .place import Made, Place, Refusal


@dataclass(frozen=True, slots=True)
class Key:
    """One key: how it is read and how it is documented."""

    name: str
    kind: Kind
    meaning: str
    """For the documents, a sentence without its full stop."""
    default: Any = None
    """What the library holds where the file says nothing; None where that means something."""
    usual: str = ""
    """The default in words; empty where its own figure says it, where there is none, or where the
    key must be given."""
    example: str = ""
    """A value, as TOML writes it."""
    mistaken: tuple[str, ...] = ()
    """Names under which makers write it that are no keys here: they are told its own."""
    in_file: bool = True
    """Whether a job file has it; a program alone gives the others."""
    depends: bool = False
    """Whether what holds without it hangs on other keys: where a file has none it is None."""


@dataclass(frozen=True, slots=True)
class Section:
    """A table of a job file."""

    heading: str
    """As a file writes it: ``[panel]``; empty for the top of the file."""
    meaning: str
    """For the documents."""
    keys: tuple[Key, ...]


def key(
    default: Any,  # noqa: ANN401 - whatever the field holds
    kind: Kind,
    meaning: str = "",
    example: str = "",
    *,
    unit: str | None = None,
    **told: Any,  # noqa: ANN401 - as `fills`
) -> Any:  # noqa: ANN401 - as `dataclasses.field`
    """Return the field of a dataclass that a key of the job file fills, as `fills` is told of it.

    `default` is held where nothing is given; `unit` is that of the figure, for the record.
    """
    record = {} if unit is None else {"unit": unit}
    return field(default=default, metadata=fills(kind, meaning, example, **told) | record)


def fills(
    kind: Kind,
    meaning: str = "",
    example: str = "",
    *,
    also: tuple[Key, ...] = (),
    **told: Any,  # noqa: ANN401 - fields of `Key`
) -> dict[str, Any]:
    """Return the metadata of a field that a key fills: alone, of one that a program must give.

    Keys of the file that are in `also` fill the same field behind it. Its name is the field's where
    none is told with the other fields of `Key`.
    """
    return {
        "key": Key(**{"name": "", **told}, kind=kind, meaning=meaning, example=example),
        "also": also,
    }


def keys_by_field(cls: Any) -> Mapping[str, Key]:  # noqa: ANN401 - the class of a dataclass
    """Return the key of each field of a dataclass that has one."""
    return _keys_by_field(cls)


@cache
def _keys_by_field(cls: Any) -> Mapping[str, Key]:  # noqa: ANN401
    found = {}
    for item in dataclasses.fields(cls):
        told: Key | None = item.metadata.get("key")
        if told is not None:
            default = told.default if item.default is dataclasses.MISSING else item.default
            found[item.name] = dataclasses.replace(
                told, name=told.name or item.name, default=default
            )
    return found


def keys_of(cls: type) -> tuple[Key, ...]:
    """Return the keys that a job file has for a dataclass, in the order of its fields."""
    also = {item.name: item.metadata.get("also", ()) for item in dataclasses.fields(cls)}
    keys = (k for name, own in keys_by_field(cls).items() for k in (own, *also[name]))
    return tuple(
        dataclasses.replace(key, default=None) if key.depends else key
        for key in keys
        if key.in_file
    )


def hold(value: Any, *where: str, error: type[LayoutError] = LayoutError) -> None:  # noqa: ANN401 - any dataclass
    """Make each field with a key hold what its kind makes of what was given; for `__post_init__`.

    What a key does not take is raised as an error of the given type, which tells `where` the value
    stands in a job file: ``"tools"``.
    """
    for name, own in keys_by_field(type(value)).items():
        given = getattr(value, name)
        if given is not own.default:
            held = take(own.kind, given, *where, own.name, error=error)
            object.__setattr__(value, name, held)


def take(kind: Kind, value: object, *where: str, error: type[LayoutError] = LayoutError) -> Any:  # noqa: ANN401 - as the kind
    """Return what a kind makes of what a program gave, or raise an error that tells `where`."""
    return kind.read(value, Place(Refusal(error), where))


@dataclass(frozen=True, slots=True)
class Values:
    """What a table says."""

    keys: Mapping[str, Key]
    """What it may say, by name."""
    place: Place
    """Of the table."""
    held: Mapping[str, Any]
    """What was given and could be read."""
    given: frozenset[str]
    """The keys that were given, whether or not they could be read."""
    meant: frozenset[str] = frozenset()
    """Keys that seem meant by unknown ones; they are not told to be missing on top of it."""

    @classmethod
    def of(
        cls,
        value: Any,  # noqa: ANN401 - any dataclass
        *where: str,
        error: type[LayoutError] = LayoutError,
        beside: Iterable[Any] = (),
    ) -> Values:
        """Return the fields of a value that are other than usual; what is wrong is raised.

        With it those of values `beside` it in the same table. So one rule serves a job file, of
        which it notes all that is wrong, and a program.
        """
        fields = [
            (own, getattr(one, name))
            for one in (value, *beside)
            for name, own in keys_by_field(type(one)).items()
        ]
        held = {own.name: told for own, told in fields if told != own.default}
        keys = {own.name: own for own, _ in fields}
        return cls(keys, Place(Refusal(error), where), held, frozenset(held))

    def __getitem__(self, name: str) -> Held:
        """Return what was given, or else the key's default; None where it could not be read."""
        if name in self.given:
            return self.held.get(name)
        return self.keys[name].default

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
        """Return the dataclass of these keys, with other fields `filled`; None if one is wrong."""
        if not self.sound(*self.keys):
            return None
        held = {
            name: self[key.name] for name, key in keys_by_field(cls).items() if self.has(key.name)
        }
        return self.place.made(cls, **(held | filled))

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
