"""Files written whole or not at all, handed out and opened with what the system has for them."""

from __future__ import annotations

import contextlib
import glob
import os
import tempfile
from collections.abc import Callable, Iterable, Iterator, Mapping
from functools import wraps
from pathlib import Path
from typing import Any

import click

from .reading import answer, stop


def kept_at(*parts: str) -> Path:
    """Return a place in the user's configuration folder."""
    import platformdirs

    return platformdirs.user_config_path("panelwright", appauthor=False).joinpath(*parts)


def write(folder: Path, files: Mapping[str, str | bytes]) -> tuple[Path, ...]:
    """Write the files as `write_all` does, or end with what is in the way."""
    try:
        return write_all(folder, files)
    except OSError as error:
        stop(f"{error.filename or folder}: cannot be written ({error.strerror or error})")


def hand_out(
    record: Callable[[], Mapping[str, Any]],
    lines: Callable[[], Iterable[str]],
    out: Path | None,
    files: Callable[[], Mapping[str, str | bytes]],
    begin: str,
) -> Path | None:
    """Write sheets into the folder `out`, if one is named, and answer; return the first of them.

    They are written first: where that cannot be, it is all that is answered, and who reads no
    further than the first lines has them too.

    Parameters
    ----------
    record, lines : callable
        As `answer` takes them.
    begin : str
        What to begin with, a blank {} for the first sheet.
    """
    written = () if out is None else write(out, files())

    def told() -> Iterator[str]:
        yield from lines()
        if written:
            yield f"Written to {out}/: {', '.join(path.name for path in written)}"
            yield begin.format(written[0])
        else:
            yield "Nothing was written: name a folder with --out."

    answer(record, told)
    return written[0] if written else None


def write_all(folder: Path, files: Mapping[str, str | bytes]) -> tuple[Path, ...]:
    """Write the files into a folder, made where it is missing, and return their paths.

    All of them are first written in full under passing names beside their places; only when every
    one is safely on the disk are they renamed. An interrupted run so leaves each old file whole,
    and files that this run does not name are never touched. Runs into one folder wait for each
    other, so that what passing files there are were left behind by one that was killed, and go.

    Raises
    ------
    OSError
        If the folder or a file cannot be written; nothing was replaced then, unless the renaming
        itself failed.
    """
    folder.mkdir(parents=True, exist_ok=True)
    with _alone_in(folder) as alone:
        if alone:
            _clear_of_leftovers(folder, files)
        return _written(folder, files)


@contextlib.contextmanager
def _alone_in(folder: Path) -> Iterator[bool]:
    """Wait for other runs that write into a folder, and yield whether there are none for sure."""
    handle = None
    try:
        import fcntl

        handle = os.open(folder, os.O_RDONLY)
        fcntl.flock(handle, fcntl.LOCK_EX)
        alone = True
    except (ImportError, OSError):  # not on this system, or not on this disk
        alone = False
    try:
        yield alone
    finally:
        if handle is not None:
            os.close(handle)


def _clear_of_leftovers(folder: Path, names: Iterable[str]) -> None:
    for name in names:
        for left in folder.glob(f".{glob.escape(name)}.*.part"):
            with contextlib.suppress(OSError):
                left.unlink()


def _written(folder: Path, files: Mapping[str, str | bytes]) -> tuple[Path, ...]:
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


Writing = Callable[..., Path | None]
"""A command that returns the first file that it wrote, None where it wrote none."""


def open_option(*places: str) -> Callable[[Writing], Callable[..., None]]:
    """Give a command the option `--open`.

    Parameters
    ----------
    places : str
        The options of which one must say where something is written.
    """

    def decorated(command: Writing) -> Callable[..., None]:
        @click.option("--open", "opened", is_flag=True, help="Open the first sheet written.")
        @wraps(command)
        def opening(opened: bool, **typed: Any) -> None:  # noqa: ANN401 - as options have it
            if opened and all(typed[place] is None for place in places):
                named = " or ".join(f"--{place}" for place in places)
                raise click.UsageError(f"--open opens what is written: say where with {named}")
            first = command(**typed)
            if opened and first is not None and click.launch(str(first.absolute())) != 0:
                click.echo(f"No program was found that opens {first}.", err=True)

        return opening

    return decorated
