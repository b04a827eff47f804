"""The form of all that is given to machines: its version, and how schemas tell of it."""

from __future__ import annotations

from typing import Any

SCHEMA = 3
"""Version of the form; it grows when a key changes its meaning or goes away."""

Schema = dict[str, Any]

DRAFT = "https://json-schema.org/draft/2020-12/schema"
