"""Copies of unsaved work, so that a crash costs seconds; kept among the program's own data, not beside jobs.

A copy is written 2 s after the last edit, and while edits go on at the latest 4 s after the first that
is not in it, which keeps it at most 5 s old on a slow machine too. Each window has one copy, named after its
job's path, its process and its start; the two before it are kept too. A clean close deletes them all.
"""

import hashlib
import os
import time
from contextlib import suppress
from pathlib import Path
from typing import NamedTuple

import msgspec
from PySide6.QtCore import QLockFile, QObject, Qt, QTimer, Signal

from geometry.jobfile import MOST_BYTES, read_job, write_job
from geometry.model import Job

PAUSE = 2000
"""Milliseconds after the last edit."""
LONGEST = 4000
"""Milliseconds after the first edit that is in no copy."""
_SUFFIXES = (".json", ".1", ".2")
"""Of the newest copy and the ones before it."""
_FORMAT = "chasewright recovery"


class _Copy(msgspec.Struct, frozen=True):
    """What a copy holds: the job file as text, and where the job belongs."""

    format: str
    path: str | None
    at: float
    job: str


class Leftover(NamedTuple):
    """The copy of a window that did not close cleanly."""

    file: Path
    path: Path | None
    """The job file that the work belongs to, if it had one."""
    at: float
    """When it was written, in seconds since 1970."""
    job: Job

    def discard(self) -> None:
        """Delete it with the copies before it."""
        _delete(self.file)


class Autosave(QObject):
    """Keeps the copy of one window's unsaved work.

    It is told of edits and asks for the job only when it writes, so it costs an edit nothing.
    """

    failed = Signal(str)
    """The copy could not be written: one sentence, once until it works again."""

    def __init__(self, folder: Path, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.folder = folder
        self._path: Path | None = None
        self._job: Job | None = None
        self._written: tuple[Job, Path | None] | None = None
        self._file: Path | None = None
        self._lock: QLockFile | None = None
        self._failing = False
        self._name = f"{os.getpid()}-{time.time_ns():x}"
        self._pause, self._longest = QTimer(self), QTimer(self)
        for timer, wait in ((self._pause, PAUSE), (self._longest, LONGEST)):
            timer.setSingleShot(True)
            timer.setInterval(wait)
            timer.setTimerType(Qt.TimerType.PreciseTimer)
            timer.timeout.connect(self.flush)

    def note(self, job: Job, path: Path | None, *, saved: bool) -> None:
        """Take note of the job as it stands; a saved one needs no copy, and loses the one it had."""
        if saved:
            self.discard()
        elif job is not self._job or path != self._path:
            self._job, self._path = job, path
            self._pause.start()
            if not self._longest.isActive():
                self._longest.start()

    def flush(self) -> None:
        """Write the copy now, if there is anything that is in none."""
        self._pause.stop()
        self._longest.stop()
        if self._job is None or self._written == (self._job, self._path):
            return
        try:
            self._write(self._job, self._path)
        except OSError as problem:
            if not self._failing:
                self.failed.emit(f"The copy of unsaved work could not be written: {problem}")
            self._failing = True
            self._longest.start()
        else:
            self._failing = False
            self._written = self._job, self._path

    def discard(self) -> None:
        """Delete the copies: the work is saved, or was given up."""
        self._pause.stop()
        self._longest.stop()
        self._job = self._written = None
        self._let_go()

    def _let_go(self) -> None:
        if self._file is not None:
            _delete(self._file)
        if self._lock is not None:
            self._lock.unlock()
        self._file = self._lock = None

    def _write(self, job: Job, path: Path | None) -> None:
        from export.atomic import write_atomically

        self.folder.mkdir(parents=True, exist_ok=True)
        copy = _Copy(_FORMAT, None if path is None else str(path), time.time(), write_job(job).decode())
        file = self.folder / f"{_key(path)}-{self._name}.json"
        lock = self._lock
        if file != self._file:
            lock = _lock(file)
            lock.tryLock(0)
        _rotate(file)
        write_atomically(file, msgspec.json.encode(copy))
        if file != self._file:
            self._let_go()  # of the copy under the name that the job had before
        self._file, self._lock = file, lock


def leftovers(folder: Path) -> tuple[Leftover, ...]:
    """Return what windows left behind whose process is dead, the newest first.

    Copies that cannot be read give way to the ones before them; where none can, they stay for a person
    to look at, and are not offered.
    """
    try:
        files = sorted({copy.with_suffix(".json") for copy in folder.iterdir() if copy.suffix in _SUFFIXES})
    except OSError:
        return ()
    found = (_leftover(file) for file in files if _is_abandoned(file))
    return tuple(sorted((left for left in found if left is not None), key=lambda left: -left.at))


def _is_abandoned(file: Path) -> bool:
    lock = _lock(file)
    if not lock.tryLock(0):
        return lock.error() != QLockFile.LockError.LockFailedError
    lock.unlock()
    return True


def _leftover(file: Path) -> Leftover | None:
    for copy in _rotations(file):
        with suppress(OSError, ValueError, RecursionError):
            if copy.stat().st_size > 2 * MOST_BYTES:
                continue
            held = msgspec.json.decode(copy.read_bytes(), type=_Copy)
            if held.format == _FORMAT:
                path = None if held.path is None else Path(held.path)
                return Leftover(file, path, held.at, read_job(held.job.encode()))
    return None


def _key(path: Path | None) -> str:
    return "new" if path is None else hashlib.sha256(os.fsencode(path)).hexdigest()[:16]


def _lock(file: Path) -> QLockFile:
    lock = QLockFile(f"{file}.lock")
    lock.setStaleLockTime(0)  # only a dead process leaves a stale lock, however old it is
    return lock


def _rotations(file: Path) -> tuple[Path, ...]:
    return tuple(file.with_suffix(suffix) for suffix in _SUFFIXES)


def _rotate(file: Path) -> None:
    """Keep the newest copy as the one before; should all end half way, it is found there."""
    newest, before, oldest = _rotations(file)
    with suppress(FileNotFoundError):
        before.replace(oldest)
    with suppress(FileNotFoundError):
        newest.replace(before)


def _delete(file: Path) -> None:
    for copy in _rotations(file):
        with suppress(OSError):
            copy.unlink()
