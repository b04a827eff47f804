"""Tops in the middle of a panel large enough for any of them."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from panelwright.layout.geometry.placement import Placement
from panelwright.layout.geometry.point import Point
from panelwright.layout.keys.key import keys_by_field
from panelwright.layout.keys.kinds import Choice
from panelwright.layout.legs.arrangement import middles_for
from panelwright.layout.legs.tipping import Stability
from panelwright.layout.legs.wish import LegsWish
from panelwright.layout.outlines import Outline
from panelwright.layout.panel import Build, Kind, Panel, rectangular_outline
from panelwright.layout.panel.materials import MATERIALS, Material, Stiffness
from panelwright.layout.top import Top

ROOM = Panel(rectangular_outline(3000, 3000), 26, material="oak")
PLACE = Placement(Point(1500, 1500))


def top_of(
    outline: Outline,
    material: str = "oak",
    thickness: float = 26.0,
    *,
    kind: Kind = Kind.SOLID,
    grain: float = 0.0,
    panel: Panel = ROOM,
) -> Top:
    """Return a top of a material, cut from the middle of a panel."""
    wood = replace(
        panel,
        material=material,
        thickness=thickness,
        build=Build(kind),
        grain_deg=math.degrees(grain),
    )
    return Top(wood, outline, PLACE)


def feet_of(wish: LegsWish, outline: Outline) -> tuple[Point, ...]:
    """Return where feet stand under a top of a hundred kilograms on legs without weight."""
    stability = Stability.under(replace(wish, mass=0.0), outline, 100.0, 0.0)
    return middles_for(wish, outline, stability)


def known_as(patch: pytest.MonkeyPatch, name: str, density: float, stiffness: Stiffness) -> str:
    """Have a material of that density and stiffness, for one test."""
    make_known(patch, Material(name, density, "test", stiffness=stiffness))
    return name


def make_known(patch: pytest.MonkeyPatch, material: Material) -> None:
    """Make a material one of those that panels may be of, for a test."""
    patch.setitem(MATERIALS, material.name, material)
    kind = keys_by_field(Panel)["material"].kind
    assert isinstance(kind, Choice) and isinstance(kind.options, dict)
    patch.setitem(kind.options, material.name, material.name)
