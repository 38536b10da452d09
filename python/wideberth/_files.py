"""Files are written whole or not at all: one way for all that writes."""

from __future__ import annotations

import errno
import os
import secrets
import stat
from collections.abc import Sequence
from contextlib import suppress
from os import PathLike
from pathlib import Path

from wideberth import _wideberth as core


def file_at(path: str | PathLike[str], endings: Sequence[str]) -> Path:
    """The path of a file that can be written there and ends as it must.

    Raises:
        InputError: another ending, a directory, a directory that there is not, or a path that no file can have.
        TypeError: something else than a path.

    """
    if not isinstance(path, str | PathLike) or not isinstance(os.fspath(path), str):
        raise TypeError(f"path is {path!r}; it must be a str or a Path")
    path = Path(path)
    if "\0" in str(path):
        raise core.InputError(f"path is {str(path)!r}; it must be free of NUL characters")
    if path.suffix.lower() not in endings:
        allowed = " or ".join(endings) if len(endings) < 3 else f"one of {', '.join(endings)}"
        raise core.InputError(f"path is {str(path)!r}; it must end in {allowed}")
    try:
        has_folder, is_folder = stat.S_ISDIR(_kind(path.parent)), stat.S_ISDIR(_kind(path))
    except (OSError, ValueError) as error:  # A name too long, a loop of links, half a character.
        raise core.InputError(f"path is {str(path)!r}; it must be one that a file can have: {error}") from error
    if not has_folder:
        raise core.InputError(f"path is {str(path)!r}; there is no directory {str(path.parent)!r}: make it first")
    if is_folder:
        raise core.InputError(f"path is {str(path)!r}; that is a directory, it must be a file")
    return path


def _kind(path: Path) -> int:
    """The mode of what there is, 0 where there is nothing."""
    try:
        return path.stat().st_mode
    except (FileNotFoundError, NotADirectoryError):
        return 0


def write_whole(path: Path, content: bytes) -> None:
    """Write a file beside the one that may be there and give it its name once it is whole and on the disk.

    Whatever comes between (a full disk, Ctrl-C, the end of the process) leaves what was there. A link stays a link, and
    a file that is written over keeps its permissions. What is no file but takes bytes, such as a pipe, is written to.

    Raises:
        OSError: the disk is full, or nothing may be written there; it names the path.

    """
    try:
        # The link stays and what it leads to is written.
        real = Path(os.path.realpath(path))
        there = _kind(real)
        if there and not stat.S_ISREG(there):
            real.write_bytes(content)
            return
        if there and not os.access(real, os.W_OK):
            raise PermissionError(errno.EACCES, os.strerror(errno.EACCES))
        beside = real.with_name(f".{secrets.token_hex(8)}.part")
        try:
            # Made anew, so that nobody else's file is written over.
            made = os.open(beside, os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0), 0o666)
            with os.fdopen(made, "wb") as file:
                file.write(content)
                file.flush()
                # Some disks tell only now that they are full; and a name must not come before the content.
                os.fsync(file.fileno())
            if there:
                os.chmod(beside, stat.S_IMODE(there))
            os.replace(beside, real)
        except BaseException:
            with suppress(OSError):
                os.unlink(beside)
            raise
    except OSError as error:
        raise OSError(error.errno, error.strerror, str(path)) from error
