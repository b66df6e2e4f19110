"""Writing a file so that it is never seen half written: the old file stays until the new one is complete."""

import os
import secrets
import stat
import time
from collections.abc import Iterable, Iterator
from contextlib import ExitStack, contextmanager, suppress
from typing import BinaryIO

# Windows refuses to replace a file for a moment while a virus scanner or a sync program reads it.
# Pauses between attempts, in seconds; common practice, no source.
_PAUSES = (0.01, 0.04, 0.1, 0.4) if os.name == "nt" else ()


def write_atomically(path: str | os.PathLike[str], data: bytes) -> None:
    """Write a whole file, or leave everything as it was; see `write_together`."""
    write_together([(path, data)])


def write_together(files: Iterable[tuple[str | os.PathLike[str], bytes]]) -> None:
    """Write whole files, none of them before all are safe on the disk, or leave everything as it was.

    An existing file keeps its permissions, and a link keeps pointing where it did: the file behind
    it is replaced.

    Args:
        files: The file to write, and all of its content; its folder must exist.

    Raises:
        OSError: One could not be written; the message names the file and the reason.
    """
    with ExitStack() as stack:
        ready = []
        for path, data in files:
            with _naming(path):
                ready.append((path, *_beside(os.path.realpath(path), data, stack)))
        for path, _, file in ready:
            with _naming(path), file:
                os.fsync(file.fileno())
        for path, half_done, _ in ready:
            with _naming(path):
                _replace(half_done, os.path.realpath(path))


@contextmanager
def _naming(path: str | os.PathLike[str]) -> Iterator[None]:
    """Say in an error which file could not be written, and why."""
    try:
        yield
    except OSError as error:
        raise OSError(f"cannot write {os.fspath(path)}: {error.strerror or error}") from error


def _beside(target: str, data: bytes, stack: ExitStack) -> tuple[str, BinaryIO]:
    """Write data to a new file beside its target; what is still there when the stack ends is removed."""
    mode = _mode(target)
    half_done = os.path.join(os.path.dirname(target), f".{secrets.token_hex(8)}.part")
    stack.callback(_remove, half_done)
    file = stack.enter_context(open(half_done, "xb"))  # noqa: SIM115  # the stack closes it
    file.write(data)
    file.flush()
    if mode is not None:
        os.chmod(half_done, mode)
    return half_done, file


def _remove(path: str) -> None:
    with suppress(OSError):
        os.unlink(path)


def _mode(target: str) -> int | None:
    """Return the permissions of a file that may be replaced, None if there is none."""
    if not os.path.exists(target):
        return None
    mode = os.stat(target).st_mode
    if not stat.S_ISREG(mode):
        raise OSError("it is not an ordinary file")
    if not os.access(target, os.W_OK):
        raise OSError("it is write-protected")
    return stat.S_IMODE(mode)


def _replace(source: str, target: str) -> None:
    for pause in _PAUSES:
        try:
            os.replace(source, target)
        except PermissionError:
            time.sleep(pause)
        else:
            return
    os.replace(source, target)
