"""The open job: the only mutable thing in the program.

It holds the current state (job, plan, findings) and the history. An edit makes a new job; views hear
`changed` and show it. While a gesture lasts its job is only previewed, and becomes one step of the
history when it is committed. What people look at (zoom, selection) is no part of this.
"""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from PySide6.QtCore import QObject, Signal

from app.history import History, Step
from app.photo import Photo
from geometry.checks.runner import check
from geometry.finding import Finding
from geometry.model import Job
from geometry.parts.catalogue import Catalogue
from geometry.plan import Plan
from geometry.rules import Rulebook

HISTORY = 500
"""Steps that can be undone."""


@dataclass(frozen=True)
class State:
    """A job, what follows from it, and what is wrong with it."""

    job: Job
    plan: Plan
    findings: tuple[Finding, ...]


class Document(QObject):
    """A job with its history and the file that it belongs to."""

    changed = Signal(object)
    """The new State, after an edit, an undo, or at a step of a gesture."""
    photo_changed = Signal()
    """Another photograph lies behind the wall, or lies otherwise, or there is none."""
    file_changed = Signal()
    """The file's name, or whether it holds the job as shown, is another now."""

    def __init__(
        self, job: Job, catalogue: Catalogue, rules: Rulebook, parent: QObject | None = None
    ) -> None:
        super().__init__(parent)
        self.catalogue, self.rules = catalogue, rules
        self.path: Path | None = None
        self.photo: Photo | None = None
        """What lies behind the wall; beside the job's file, and no part of its history."""
        self.keep_photo: Callable[[Photo | None], None] = self.show_photo
        """Shows another photograph and keeps it beside the file, if a store is there to do it."""
        self.history = History(self._keep, HISTORY, self)
        self.history.clean_changed.connect(self._on_clean_changed)
        self._kept = self._state_of(job)
        self._shown = self._kept

    @property
    def state(self) -> State:
        """What is shown: the kept state, or the preview of a gesture."""
        return self._shown

    @property
    def job(self) -> Job:
        """The job as shown."""
        return self._shown.job

    @property
    def kept_job(self) -> Job:
        """The job as the history has it, without the preview of a gesture."""
        return self._kept.job

    @property
    def is_saved(self) -> bool:
        """Whether the file holds the job."""
        return self.history.is_clean()

    def edit(self, title: str, job: Job, *, merge: object = None) -> None:
        """Make `job` the current one, as one step of the history that is called `title`.

        Args:
            title: reads well after "Undo": "Move rail".
            job: the new job; if it equals the current one nothing happens.
            merge: edits in a row with the same key become one step, such as the nudges of one hand.

        Raises:
            ValueError: the job names a part or port that does not exist; nothing has changed then.
        """
        before = self._kept.job
        if job == before:
            self.cancel()
            return
        if job is not self._shown.job:  # else a gesture has shown it already
            self._shown = self._state_of(job)
        self.history.push(Step(title, before, job, merge))

    def preview(self, job: Job) -> None:
        """Show a job while a gesture lasts; `edit` keeps it, `cancel` takes it back."""
        if job != self._shown.job:
            self._show(self._state_of(job))

    def cancel(self) -> None:
        """End a gesture without a trace."""
        if self._shown is not self._kept:
            self._show(self._kept)

    def show_photo(self, photo: Photo | None) -> None:
        """Show a photograph behind the wall, or none."""
        self.photo = photo
        self.photo_changed.emit()

    def replace(
        self, job: Job, path: Path | None, *, saved: bool, catalogue: Catalogue | None = None
    ) -> None:
        """Open another job: the history begins anew."""
        self.catalogue = catalogue or self.catalogue
        self._shown = self._state_of(job)
        self.history.clear()
        if not saved:
            self.history.reset_clean()
        self.path = path
        self.show_photo(None)
        self._keep(job)
        self.file_changed.emit()

    def saved_as(self, path: Path) -> None:
        """Note that the file now holds the job."""
        self.path = path
        self.history.set_clean()
        self.file_changed.emit()

    def _state_of(self, job: Job) -> State:
        plan = Plan(job, self.catalogue, self.rules)
        return State(job, plan, check(plan))

    def _keep(self, job: Job) -> None:
        self._kept = self._shown if job is self._shown.job else self._state_of(job)
        self._show(self._kept)

    def _show(self, state: State) -> None:
        self._shown = state
        self.changed.emit(state)

    def _on_clean_changed(self, _clean: bool) -> None:
        self.file_changed.emit()
