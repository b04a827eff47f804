"""A key, declared at the field that it fills: one declaration for the job file and for programs.

``kerf: float = key(2.4, THIN, "Width of the saw's cut", "2.2")`` is the field of a dataclass. What
reads a job file and what writes its documents take the key from there, and `hold` makes the same
words, limits and messages good for whoever makes the value in a program.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cache
from typing import Any

from ..errors import LayoutError
from .kinds import Kind, written
from .place import Place, Refusal


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
    """The default in words; empty where the key must be given, or has none."""
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

    def __getitem__(self, name: str) -> Key:
        """Return the key of that name."""
        return next(key for key in self.keys if key.name == name)

    def __contains__(self, name: object) -> bool:
        """Return whether there is a key of that name."""
        return any(key.name == name for key in self.keys)


def key(
    default: Any,  # noqa: ANN401 - whatever the field holds
    kind: Kind,
    meaning: str = "",
    example: str = "",
    *,
    unit: str | None = None,
    **told: Any,  # noqa: ANN401 - as `fills`
) -> Any:  # noqa: ANN401 - as `dataclasses.field`
    """Return the field of a dataclass that a key of the job file fills.

    Parameters
    ----------
    default : object
        What is held where nothing is given.
    unit : str, optional
        Of the figure, for the record.
    told : object
        What else `fills` takes.
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

    Parameters
    ----------
    also : tuple of Key
        Keys of the file, behind this one, that fill the same field.
    told : object
        Other fields of `Key`; its name is the field's where none is given.
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
            spelt = told.in_file and not told.usual and default is not None
            usual = written(told.kind, default) if spelt else told.usual
            found[item.name] = dataclasses.replace(
                told, name=told.name or item.name, default=default, usual=usual
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

    Parameters
    ----------
    where : str
        Where the value stands in a job file, for the message: ``"tools"``.

    Raises
    ------
    LayoutError
        Of the given type, if a field was given what its key does not take.
    """
    for name, own in keys_by_field(type(value)).items():
        given = getattr(value, name)
        if given is not own.default:
            held = take(own.kind, given, *where, own.name, error=error)
            object.__setattr__(value, name, held)


def take(kind: Kind, value: object, *where: str, error: type[LayoutError] = LayoutError) -> Any:  # noqa: ANN401 - as the kind
    """Return what a kind makes of what a program gave.

    Raises
    ------
    LayoutError
        Of the given type, if it takes no such value; `where` is told.
    """
    return kind.read(value, Place(Refusal(error), where))
