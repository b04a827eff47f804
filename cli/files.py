"""Files written whole or not at all."""

from __future__ import annotations

import contextlib
import os
import tempfile
from collections.abc import Mapping
from pathlib import Path


def write_all(folder: Path, files: Mapping[str, str | bytes]) -> tuple[Path, ...]:
    """Write the files into a folder, made where it is missing, and return their paths.

    All of them are first written in full under passing names beside their places; only when every
    one is safely on the disk are they renamed. An interrupted run so leaves each old file whole,
    and files that this run does not name are never touched.

    Raises
    ------
    OSError
        If the folder or a file cannot be written; nothing was replaced then, unless the renaming
        itself failed.
    """
    folder.mkdir(parents=True, exist_ok=True)
    waiting: list[tuple[Path, Path]] = []
    try:
        for name, content in files.items():
            place = folder / name
            if place.is_dir():
                raise IsADirectoryError(f"{place} is a folder: move it away first")
            waiting.append((_written_beside(place, content), place))
        for passing, place in waiting:
            passing.replace(place)
    except BaseException:
        for passing, _ in waiting:
            with contextlib.suppress(OSError):
                passing.unlink(missing_ok=True)
        raise
    return tuple(place for _, place in waiting)


def _written_beside(place: Path, content: str | bytes) -> Path:
    data = content.encode("utf-8") if isinstance(content, str) else content
    handle, name = tempfile.mkstemp(prefix=f".{place.name}.", suffix=".part", dir=place.parent)
    passing = Path(name)
    try:
        with os.fdopen(handle, "wb") as stream:
            stream.write(data)
            stream.flush()
            os.fsync(stream.fileno())
        passing.chmod(0o644 & ~_umask())
    except BaseException:
        passing.unlink(missing_ok=True)
        raise
    return passing


def _umask() -> int:
    """Return the mask that new files are made with; reading it means setting it for a moment."""
    mask = os.umask(0o022)
    os.umask(mask)
    return mask
