"""Opening and saving as people do it: the questions round the store, and what is said when it fails."""

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QObject, Signal
from PySide6.QtWidgets import QWidget

from app import questions
from app.files import InputError, open_job
from app.recovery import Leftover
from app.settings import Preferences
from app.store import BusyError, ChangedOutsideError, Store
from geometry.model import Job
from geometry.model.enclosure import Entry
from geometry.setting_out.arrangement import suggested_job


class Filing(QObject):
    """What the menu File does. Each method returns whether it was done."""

    opened = Signal()
    """Another job is shown."""
    told = Signal(str)
    """Something went well: one sentence."""

    def __init__(self, store: Store, preferences: Preferences, parent: QWidget) -> None:
        super().__init__(parent)
        self.store, self.preferences, self._window = store, preferences, parent

    @property
    def name(self) -> str:
        """What the open job is called."""
        path = self.store.path
        return self.store.document.kept_job.about.title if path is None else path.name

    def may_leave(self) -> bool:
        """Ask what becomes of unsaved work; return whether the job may be left."""
        self.store.document.cancel()
        if self.store.document.is_saved:
            return True
        answer = questions.ask_unsaved(self._window, self.name)
        return answer == "discard" or (answer == "save" and self.save())

    def start(
        self, tray_width: float, projection: float, entry: Entry, wall_width: float, wall_height: float
    ) -> str | None:
        """Begin a new job, set out by the trade's rule; return what is wrong with the sizes, if anything."""
        try:
            job = suggested_job(tray_width, projection, entry, wall_width, wall_height)
        except ValueError as problem:
            return str(problem).lstrip(".")
        if self.may_leave() and self._tried(lambda: self.store.start(job)):
            self.opened.emit()
        return None

    def open_sample(self, path: Path) -> bool:
        """Open a sample as a job of one's own, which has no file yet."""

        def begin() -> None:
            self.store.start(open_job(path))

        return self.may_leave() and self._tried(begin) and self._show()

    def ask_open(self) -> bool:
        """Ask for a job file and open it."""
        path = questions.ask_file_to_open(self._window, self.preferences.settings.last_folder)
        return path is not None and self.open(path)

    def open(self, path: Path) -> bool:
        """Open a job file in place of the open job."""
        if not self.may_leave():
            return False
        try:
            self.store.open(path)
        except BusyError as busy:
            look = questions.ask_look_only(self._window, str(busy))
            if not look or not self._tried(lambda: self.store.open(path, look_only=True)):
                return False
        except InputError as problem:
            self._forget(path)
            questions.tell(self._window, str(problem))
            return False
        self._remember(path)
        return self._show()

    def recover(self, left: Leftover) -> bool:
        """Go on with the unsaved work of a window that did not close."""
        return (
            self.may_leave() and self._tried(lambda: self.store.recover(left.job, left.path)) and self._show()
        )

    def save(self) -> bool:
        """Save the job; one that has no file of its own yet asks for it."""
        if self.store.path is None or self.store.look_only:
            return self.save_as()
        try:
            self.store.save()
        except ChangedOutsideError as changed:
            answer = questions.ask_over(self._window, str(changed))
            if answer == "save as":
                return self.save_as()
            if answer == "cancel" or not self._tried(lambda: self.store.save(over=True)):
                return False
        except InputError as problem:
            questions.tell(self._window, str(problem))
            return False
        self.told.emit(self.tr("Saved."))
        return True

    def save_as(self) -> bool:
        """Ask for a file and save the job to it."""
        path = questions.ask_file_to_save(self._window, self._suggestion())
        if path is None:
            return False
        try:
            warning = self.store.save_as(path)
        except InputError as problem:
            questions.tell(self._window, str(problem))
            return False
        if warning is not None:
            questions.tell(self._window, warning)
        self._remember(path)
        self.told.emit(self.tr("Saved."))
        return True

    def revert(self) -> bool:
        """Go back to the saved file; this can be undone."""
        return self._tried(lambda: self.store.revert(self.tr("Go back to the saved file")))

    def _suggestion(self) -> str:
        if self.store.path is not None:
            return str(self.store.path)
        words = "".join(mark if mark.isalnum() or mark in " -_" else " " for mark in self.name)
        return str(
            Path(self.preferences.settings.last_folder) / f"{'-'.join(words.lower().split()) or 'job'}.json"
        )

    def _show(self) -> bool:
        self.opened.emit()
        if self.store.caution:
            self.told.emit(self.store.caution)
        return True

    def _remember(self, path: Path) -> None:
        self.preferences.use(self.preferences.settings.with_recent(path))

    def _forget(self, path: Path) -> None:
        """Take a file that cannot be opened from the recent ones, if it is gone."""
        if not path.exists():
            recent = tuple(name for name in self.preferences.settings.recent if name != str(path))
            self.preferences.change(recent=recent)

    def _tried(self, do: Callable[[], object]) -> bool:
        try:
            do()
        except InputError as problem:
            questions.tell(self._window, str(problem))
            return False
        return True


def stand_in() -> Job:
    """Return the job that stands in for none while the window shows the start page."""
    return suggested_job(760.0, 760.0, "left")
