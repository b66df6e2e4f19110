"""Writing a file so that it is never seen half written: the old file stays until the new one is complete."""

import os
import secrets
import stat
import time
from contextlib import suppress

# Windows refuses to replace a file for a moment while a virus scanner or a sync program reads it.
# Pauses between attempts, in seconds; common practice, no source.
_PAUSES = (0.01, 0.04, 0.1, 0.4) if os.name == "nt" else ()


def write_atomically(path: str | os.PathLike[str], data: bytes) -> None:
    """Write a whole file, or leave everything as it was.

    An existing file keeps its permissions, and a link keeps pointing where it did: the file behind
    it is replaced.

    Args:
        path: The file to write; its folder must exist.
        data: All of its content.

    Raises:
        OSError: It could not be written; the message names the file and the reason.
    """
    try:
        _write(os.path.realpath(path), data)
    except OSError as error:
        raise OSError(f"cannot write {os.fspath(path)}: {error.strerror or error}") from error


def _write(target: str, data: bytes) -> None:
    mode = os.stat(target).st_mode if os.path.exists(target) else None
    if mode is not None and not stat.S_ISREG(mode):
        raise OSError("it is not an ordinary file")
    if mode is not None and not os.access(target, os.W_OK):
        raise OSError("it is write-protected")
    half_done = os.path.join(os.path.dirname(target), f".{secrets.token_hex(8)}.part")
    try:
        with open(half_done, "xb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        if mode is not None:
            os.chmod(half_done, stat.S_IMODE(mode))
        _replace(half_done, target)
    except BaseException:
        with suppress(OSError):
            os.unlink(half_done)
        raise


def _replace(source: str, target: str) -> None:
    for pause in _PAUSES:
        try:
            os.replace(source, target)
        except PermissionError:
            time.sleep(pause)
        else:
            return
    os.replace(source, target)
