"""The open job: the only mutable thing in the program.

It holds the current state (job, plan, findings) and the history. An edit makes a new job; views hear
`changed` and show it. While a gesture lasts its job is only previewed, and becomes one step of the
history when it is committed. What people look at (zoom, selection) is no part of this.
"""

from dataclasses import dataclass
from pathlib import Path

from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QUndoCommand, QUndoStack

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
    file_changed = Signal()
    """The file's name, or whether it holds the job as shown, is another now."""

    def __init__(
        self, job: Job, catalogue: Catalogue, rules: Rulebook, parent: QObject | None = None
    ) -> None:
        super().__init__(parent)
        self.catalogue, self.rules = catalogue, rules
        self.path: Path | None = None
        self.history = QUndoStack(self)
        self.history.setUndoLimit(HISTORY)
        self.history.cleanChanged.connect(self._on_clean_changed)
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
        return self.history.isClean()

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
        self.history.push(_Step(self, title, before, job, merge))

    def preview(self, job: Job) -> None:
        """Show a job while a gesture lasts; `edit` keeps it, `cancel` takes it back."""
        if job != self._shown.job:
            self._show(self._state_of(job))

    def cancel(self) -> None:
        """End a gesture without a trace."""
        if self._shown is not self._kept:
            self._show(self._kept)

    def replace(
        self, job: Job, path: Path | None, *, saved: bool, catalogue: Catalogue | None = None
    ) -> None:
        """Open another job: the history begins anew."""
        self.catalogue = catalogue or self.catalogue
        self._shown = self._state_of(job)
        self.history.clear()
        if not saved:
            self.history.resetClean()
        self.path = path
        self._keep(job)
        self.file_changed.emit()

    def saved_as(self, path: Path) -> None:
        """Note that the file now holds the job."""
        self.path = path
        self.history.setClean()
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


class _Step(QUndoCommand):
    """One step of the history: two jobs that share what did not change.

    What follows from a job is worked out again when a step is undone, with the same parts and rules: to
    keep it would take a fifth of a megabyte a step.
    """

    def __init__(self, document: Document, title: str, before: Job, after: Job, merge: object) -> None:
        super().__init__(title)
        self._document, self._before, self._after, self._merge = document, before, after, merge

    def redo(self) -> None:
        """Show the job after the edit."""
        self._document._keep(self._after)

    def undo(self) -> None:
        """Show the job before the edit."""
        self._document._keep(self._before)

    def id(self) -> int:
        """Return a number that steps which may merge share; -1 for those that stand alone."""
        return -1 if self._merge is None else 1

    def mergeWith(self, other: QUndoCommand) -> bool:
        """Take the step that follows into this one, if both have the same key."""
        if not isinstance(other, _Step) or other._merge != self._merge:
            return False
        self._after = other._after
        return True
