"""Panelwright lays out new tabletops on old panels.

``import panelwright as pw`` gives the names that stand in ``__init__.pyi``, each loaded when it is
first asked for; what else there is stands in ``panelwright.layout``. Lengths are in mm, angles in
radians unless a name says otherwise.
"""

from __future__ import annotations

import os.path
from typing import Any

import lazy_loader

_HERE = os.path.dirname(__file__)  # noqa: PTH120 - pathlib takes longer to load than all of this

if not os.path.isdir(os.path.join(_HERE, "layout")):  # noqa: PTH112, PTH118 - as above
    # An editable install from a checkout or archive without symbolic links: layout and cli are
    # found where the links would lead.
    __path__.append(os.path.dirname(os.path.dirname(_HERE)))  # noqa: PTH120 - as above

_load, __dir__, __all__ = lazy_loader.attach_stub(__name__, __file__)


def __getattr__(name: str) -> Any:  # noqa: ANN401 - whatever the name stands for
    """Load a name when it is first asked for: the whole library takes a second."""
    return _version() if name == "__version__" else _load(name)


def _version() -> str:
    from importlib.metadata import PackageNotFoundError, version

    try:
        return version("panelwright")
    except PackageNotFoundError:  # a checkout on the path that was never installed
        return "unknown"
