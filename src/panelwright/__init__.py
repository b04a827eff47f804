"""Panelwright lays out new tabletops on old panels."""

from importlib.metadata import PackageNotFoundError, version

try:
    __version__ = version("panelwright")
except PackageNotFoundError:  # a checkout on the path that was never installed
    __version__ = "unknown"

__all__ = ["__version__"]
