"""Files written whole or not at all, handed out and opened with what the system has for them."""

from __future__ import annotations

import contextlib
import glob
import os
from collections.abc import Callable, Iterable, Iterator, Mapping
from functools import wraps
from pathlib import Path
from typing import Any

import click

from .reading import answer, stop

FOLDER = click.Path(path_type=Path, file_okay=False)
FILE = click.Path(path_type=Path, dir_okay=False)
"""Types of options that say where to write."""


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


def write_at(path: Path, content: str | bytes) -> Path:
    """Write one file as `write` does."""
    return write(path.parent, {path.name: content})[0]


def hand_out(
    record: Callable[[], Mapping[str, Any]],
    lines: Callable[[], Iterable[str]],
    out: Path | None,
    files: Callable[[], Mapping[str, str | bytes]],
    begin: str,
) -> Path | None:
    """Write sheets into the folder `out`, if one is named, and answer; return the first of them.

    They are written first: where that cannot be, it is all that is answered. `begin` says what to
    begin with, a blank {} for the first sheet.
    """
    written = () if out is None else write(out, files())
    told = ["Nothing was written: name a folder with --out."]
    if written:
        names = ", ".join(path.name for path in written)
        told = [f"Written to {out}/: {names}", begin.format(written[0])]
    answer(record, lambda: (*lines(), *told))
    return written[0] if written else None


def write_all(folder: Path, files: Mapping[str, str | bytes]) -> tuple[Path, ...]:
    """Write the files into a folder, made where it is missing, and return their paths.

    All of them are first written in full under passing names beside their places; only when every
    one is safely on the disk are they renamed. An interrupted run so leaves each old file whole,
    and files that this run does not name are never touched. Runs into one folder wait for each
    other, so that what passing files there are were left behind by one that was killed, and go.

    An `OSError` names the file that cannot be written; nothing was replaced then, unless the
    renaming itself failed.
    """
    folder.mkdir(parents=True, exist_ok=True)
    waiting: list[tuple[Path, Path]] = []
    with _alone_in(folder) as alone:
        left = [p for name in files for p in folder.glob(f".{glob.escape(name)}.*.part")]
        for passing in left if alone else ():
            with contextlib.suppress(OSError):
                passing.unlink()
        try:
            for name, content in files.items():
                place = folder / name
                if place.is_dir():
                    raise IsADirectoryError(f"{place} is a folder: move it away first")
                waiting.append((place.with_name(f".{name}.{os.getpid()}.part"), place))
                with _named(place), waiting[-1][0].open("wb") as stream:
                    stream.write(content.encode("utf-8") if isinstance(content, str) else content)
                    stream.flush()
                    os.fsync(stream.fileno())
            for passing, place in waiting:
                with _named(place):
                    passing.replace(place)
        except BaseException:
            for passing, _ in waiting:
                with contextlib.suppress(OSError):
                    passing.unlink(missing_ok=True)
            raise
    return tuple(place for _, place in waiting)


@contextlib.contextmanager
def _named(place: Path) -> Iterator[None]:
    """Let an error name the file that is asked for, and not the passing one beside it."""
    try:
        yield
    except OSError as error:
        raise OSError(error.errno, error.strerror or str(error), str(place)) from None


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


Writing = Callable[..., Path | None]
"""A command that returns the first file that it wrote, None where it wrote none."""


def open_option(*places: str) -> Callable[[Writing], Callable[..., None]]:
    """Give a command the option `--open`; one of `places` must say where something is written."""

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
