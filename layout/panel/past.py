"""What a panel was, and what is on its faces: both decide what its dust and vapours carry."""

from __future__ import annotations

from enum import Enum


class Was(Enum):
    """What a panel was before; the value is the name that a job file uses."""

    DOOR = "door"
    FIRE_DOOR = "fire door"
    FURNITURE = "furniture"
    KITCHEN = "kitchen"
    LABORATORY = "laboratory"
    STAGE = "stage"
    FLOOR = "floor"
    OUTDOORS = "outdoors"
    NEW = "new"
    """Board or timber that was never built in: its age is that of what is sold now."""


class Coat(Enum):
    """What is on a face or glued to its back; the value is the name that a job file uses."""

    NONE = "none"
    WAX = "wax"
    OIL = "oil"
    SHELLAC = "shellac"
    VARNISH = "varnish"
    PAINT = "paint"
    LAMINATE = "laminate"
    LINOLEUM = "linoleum"
    VINYL = "vinyl"
    BLACK_GLUE = "black glue"
    HEAT_MAT = "heat mat"
    PRESERVATIVE = "preservative"
    CREOSOTE = "creosote"


LEADED = frozenset({Coat.OIL, Coat.SHELLAC, Coat.VARNISH, Coat.PAINT})
"""Coats that were coloured, or dried, with compounds of lead."""

BACKINGS = frozenset({Coat.LINOLEUM, Coat.VINYL, Coat.BLACK_GLUE, Coat.HEAT_MAT})
"""What was made with asbestos, or stuck down with glue that was."""

TREATMENTS = frozenset({Coat.PRESERVATIVE, Coat.CREOSOTE})
"""What is meant to kill what lives in wood."""
