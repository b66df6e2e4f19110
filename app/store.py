"""The file of the open job: reading it, writing it whole, and keeping two windows off it. No widgets.

Every failure is an `InputError` of one sentence, and leaves the file and the open job as they were.
"""

import hashlib
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from PySide6.QtCore import QLockFile

from app.attached import bring_along
from app.document import Document
from app.files import InputError, load_catalogue, load_rules, read_bytes
from app.folders import lock_folder
from app.photo import Photo, load_beside, remove_beside, save_beside, save_points_beside
from export.atomic import write_atomically
from geometry.jobfile import read_job, write_job
from geometry.model import Job
from geometry.plan import Plan


class BusyError(InputError):
    """The job is open in another window."""


class ChangedOutsideError(InputError):
    """Another program has written the file since it was opened."""


class Store:
    """The file behind a document. At most one window holds a file; others may look at it."""

    def __init__(self, document: Document, locks: Path | None = None) -> None:
        self.document = document
        self.look_only = False
        """Whether the file is held by another window, so that this one must save elsewhere."""
        self._locks = locks or lock_folder()
        self._lock: QLockFile | None = None
        self._known: bytes | None = None  # what the file held when it was last read or written
        self._photo_at: Path | None = None  # the file beside which the photograph is as it is shown
        self.caution = ""
        """Why the photograph beside the file that was opened last is not shown; one sentence or nothing."""
        document.keep_photo = self.keep_photo

    @property
    def path(self) -> Path | None:
        """The file of the open job, if it has one."""
        return self.document.path

    def start(self, job: Job, *, saved: bool = True) -> None:
        """Take up a job that has no file yet."""
        self._replace(job, None, saved=saved)
        self._photo_at, self.caution = None, ""
        self._adopt(None, None)

    def open(self, path: Path, *, look_only: bool = False) -> None:
        """Open a job file in place of the open job.

        Raises:
            BusyError: another window holds it; `look_only` opens it all the same.
            InputError: it cannot be read; names file, place and value.
        """
        path = path.absolute()
        with self._held(path, look_only=look_only) as lock:
            job, known = _read(path)
            self._replace(job, path, saved=True)
            self._adopt(lock, known, look_only=lock is None)
            self._show_photo_beside(path)

    def recover(self, job: Job, path: Path | None) -> None:
        """Take up a job that was never saved, as the unsaved state of the file that it came from.

        Where another window holds that file by now, the job must be saved elsewhere.
        """
        if path is None:
            self.start(job, saved=False)
            return
        with self._held(path, look_only=True) as lock:
            self._replace(job, path, saved=False)
            known = _digest(read_bytes(path)) if path.is_file() else None
            self._adopt(lock, known, look_only=lock is None)
            self._show_photo_beside(path)

    def save(self, *, over: bool = False) -> None:
        """Write the job to its file.

        Raises:
            ChangedOutsideError: another program has written the file; `over` writes all the same.
            InputError: it could not be written, or there is no file that may be written.
        """
        if self.path is None or self.look_only:
            raise InputError("This job has no file of its own yet; choose one with Save as.")
        if not over and self._was_changed(self.path):
            raise ChangedOutsideError(
                f"{self.path.name} was changed by another program since it was opened here."
            )
        self._write(self.path)

    def save_as(self, path: Path) -> str | None:
        """Write the job to another file, which is its file from then on.

        Returns:
            A sentence or two if the new file will not open by itself, or will be judged by other limits, as
            when the user's own parts or rules lie beside the old one, or if a photograph of the record
            could not be taken along.

        Raises:
            BusyError: another window holds that file.
            InputError: it could not be written.
        """
        path = path.absolute()
        path = path if path.suffix else path.with_suffix(".json")
        before = self.path
        with self._held(path) as lock:
            self._write(path)
            self._adopt(lock, self._known)
        stayed = bring_along(self.document.kept_job, before.parent, path.parent) if before else ""
        return " ".join(filter(None, (self._other_beside(path), stayed))) or None

    def revert(self, title: str) -> None:
        """Go back to what the file holds, as one step of the history with this title.

        Raises:
            InputError: there is no file, or it cannot be read.
        """
        path = self.path
        if path is None:
            raise InputError("This job has never been saved, so there is nothing to go back to.")
        job, known = _read(path)
        try:
            self.document.edit(title, job)
        except ValueError as problem:
            raise InputError(f"{path}: {problem}") from None
        self._known = known
        self.document.saved_as(path)

    def keep_photo(self, photo: Photo | None) -> None:
        """Show another photograph behind the wall, or none, and keep it beside the file.

        A job that has no file of its own yet keeps it when it is saved.

        Raises:
            InputError: it could not be written; nothing has changed then.
        """
        before, document = self.document.photo, self.document
        if self.path is None or self.look_only:
            self._photo_at = None
            document.history.reset_clean()
        else:
            image_too = before is None or photo is None or before.image is not photo.image
            self._write_photo(self.path, photo, image_too=image_too or self._photo_at != self.path)
        document.show_photo(photo)

    def close(self) -> None:
        """Let go of the file."""
        _release(self._lock)
        self._lock = None

    def _replace(self, job: Job, path: Path | None, *, saved: bool) -> None:
        catalogue, rules = load_catalogue(path), load_rules(path)
        before, self.document.rules = self.document.rules, rules
        try:
            self.document.replace(job, path, saved=saved, catalogue=catalogue)
        except ValueError as problem:
            self.document.rules = before
            raise InputError(f"{path or 'new job'}: {problem}") from None

    def _write(self, path: Path) -> None:
        data = write_job(self.document.kept_job)
        try:
            write_atomically(path, data)
        except OSError as problem:
            raise InputError(f"{path} could not be saved: {problem}") from None
        self._known = _digest(data)
        if self._photo_at != path:
            self._write_photo(path, self.document.photo)
        self.document.saved_as(path)

    def _show_photo_beside(self, path: Path) -> None:
        """Show the photograph beside a file; one that cannot be read does not keep the job from opening."""
        self._photo_at, self.caution = path, ""
        try:
            self.document.show_photo(load_beside(path))
        except (OSError, ValueError) as problem:
            self.caution = f"The photograph of the wall is not shown: {problem}"

    def _write_photo(self, path: Path, photo: Photo | None, *, image_too: bool = True) -> None:
        try:
            if photo is None:
                remove_beside(path)
            elif image_too:
                save_beside(path, photo)
            else:
                save_points_beside(path, photo.backdrop)
        except (OSError, ValueError) as problem:
            raise InputError(f"The photograph beside {path.name} could not be kept: {problem}") from None
        self._photo_at = path

    def _other_beside(self, path: Path) -> str | None:
        try:
            rules = load_rules(path)
            Plan(self.document.kept_job, load_catalogue(path), rules)
        except (ValueError, InputError) as problem:
            return f"Saved, but it will not open there by itself: {problem}. Copy the folder parts beside it."
        if list(rules) != list(self.document.rules):
            return (
                "Saved, but other limits count there than in this window. Copy the folder rules beside it, or"
                " open it again to see what they find."
            )
        return None

    def _was_changed(self, path: Path) -> bool:
        try:
            return path.exists() and _digest(read_bytes(path)) != self._known
        except InputError:
            return True

    def _adopt(self, lock: QLockFile | None, known: bytes | None, *, look_only: bool = False) -> None:
        if lock is not self._lock:
            self.close()
        self._lock, self._known, self.look_only = lock, known, look_only
        self.document.file_changed.emit()

    @contextmanager
    def _held(self, path: Path, *, look_only: bool = False) -> Iterator[QLockFile | None]:
        """Hold a file; if what is done with it fails, let go of it again."""
        lock = self._lock if self._holds(path) else self._try_lock(path)
        if lock is None and not look_only:
            raise BusyError(f"{path.name} is open in another window.")
        try:
            yield lock
        except BaseException:
            if lock is not self._lock:
                _release(lock)
            raise

    def _holds(self, path: Path) -> bool:
        return self._lock is not None and self._lock.fileName() == str(self._lock_path(path))

    def _lock_path(self, path: Path) -> Path:
        key = hashlib.sha256(str(path.resolve()).encode("utf-8", "surrogateescape")).hexdigest()[:24]
        return self._locks / f"{key}.lock"

    def _try_lock(self, path: Path) -> QLockFile | None:
        """Return a lock on a file, or None while another window has it. A dead window has nothing.

        Where no lock can be kept, as on a full disk, one does without.
        """
        with suppress(OSError):
            self._locks.mkdir(parents=True, exist_ok=True)
        lock = QLockFile(str(self._lock_path(path)))
        lock.setStaleLockTime(0)  # a window may be open for days; only a dead one is stale
        free = lock.tryLock(0) or lock.error() != QLockFile.LockError.LockFailedError
        return lock if free else None


def _read(path: Path) -> tuple[Job, bytes]:
    """Return the job of a file, and the digest by which a later change of the file is told."""
    data = read_bytes(path)
    try:
        return read_job(data), _digest(data)
    except ValueError as problem:
        raise InputError(f"{path}: {problem}") from None


def _digest(data: bytes) -> bytes:
    return hashlib.sha256(data).digest()


def _release(lock: QLockFile | None) -> None:
    if lock is not None:
        lock.unlock()
