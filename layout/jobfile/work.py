"""[materials], [work] and [money]: tables whose keys each fill one field."""

from __future__ import annotations

from typing import TypeVar

from ..keys.key import Section
from ..keys.place import Place
from ..money.wish import MoneyWish
from ..work.wish import MaterialsWish, WorkWish
from .section import read_section
from .sections import MATERIALS, MONEY, WORK

Made = TypeVar("Made")


def read_materials(raw: object, place: Place) -> MaterialsWish | None:
    """Return what is said of materials; None where something is wrong with it."""
    return _made(raw, MATERIALS, place, MaterialsWish)


def read_work(raw: object, place: Place) -> WorkWish | None:
    """Return what is said of hours; None where something is wrong with it."""
    return _made(raw, WORK, place, WorkWish)


def read_money(raw: object, place: Place) -> MoneyWish | None:
    """Return what is said of money; None where something is wrong with it."""
    return _made(raw, MONEY, place, MoneyWish)


def _made(raw: object, section: Section, place: Place, made: type[Made]) -> Made | None:
    return read_section(raw, section, place).made(made)
