"""Panelwright lays out new tabletops on old panels."""

from importlib.metadata import PackageNotFoundError, version
from pathlib import Path

try:
    __version__ = version("panelwright")
except PackageNotFoundError:  # a checkout on the path that was never installed
    __version__ = "unknown"

if not (Path(__file__).parent / "layout").is_dir():
    # An editable install from a checkout or archive without symbolic links: layout and cli are
    # found where the links would lead.
    __path__.append(str(Path(__file__).parents[2]))

__all__ = ["__version__"]
