"""The history of the open job: steps that can be undone and done again, each two whole jobs.

Jobs share what an edit does not change, so hundreds of steps cost little. This is a list of our own and
not Qt's undo stack: that one owns commands made in Python, and when the collector frees a document that
is part of a cycle, the two free the same command twice.
"""

from collections.abc import Callable
from typing import NamedTuple

from PySide6.QtCore import QObject, Signal

from geometry.model import Job


class Step(NamedTuple):
    """One step: what it is called, and the jobs before and after it."""

    title: str
    before: Job
    after: Job
    merge: object
    """Steps in a row with the same key become one; None stands alone."""


class History(QObject):
    """The steps of one document, and how many of them are done.

    Args:
        show: called with the job that a step, an undo or a redo leads to.
        limit: how many steps are kept.
        parent: as for every QObject.
    """

    index_changed = Signal(int)
    """How many steps are done is another number now, or the last step another one."""
    clean_changed = Signal(bool)
    """Whether the job is the saved one has changed."""

    def __init__(self, show: Callable[[Job], None], limit: int, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._show, self.limit = show, limit
        self._steps: list[Step] = []
        self._done = 0
        self._clean: int | None = 0

    def push(self, step: Step) -> None:
        """Do a step; what had been undone is forgotten."""
        was_clean = self.is_clean()
        del self._steps[self._done :]
        if self._clean is not None and self._clean > self._done:
            self._clean = None
        last = self._steps[-1] if self._steps else None
        joined = last is not None and step.merge is not None and last.merge == step.merge
        if last is not None and joined and self._clean != self._done:
            self._steps[-1] = last._replace(after=step.after)
        else:
            self._steps.append(step)
            self._done += 1
            self._forget_oldest()
        self._show(step.after)
        self._tell(was_clean)

    def undo(self) -> None:
        """Take the last step back, if there is one."""
        if self.can_undo():
            was_clean = self.is_clean()
            self._done -= 1
            self._show(self._steps[self._done].before)
            self._tell(was_clean)

    def redo(self) -> None:
        """Do again what was taken back, if there is anything."""
        if self.can_redo():
            was_clean = self.is_clean()
            self._done += 1
            self._show(self._steps[self._done - 1].after)
            self._tell(was_clean)

    def clear(self) -> None:
        """Begin anew, with a job that counts as saved."""
        was_clean = self.is_clean()
        self._steps.clear()
        self._done, self._clean = 0, 0
        self._tell(was_clean)

    def can_undo(self) -> bool:
        """Whether there is a step to take back."""
        return self._done > 0

    def can_redo(self) -> bool:
        """Whether there is a step to do again."""
        return self._done < len(self._steps)

    def undo_text(self) -> str:
        """Return what the step that can be taken back is called."""
        return self._steps[self._done - 1].title if self.can_undo() else ""

    def redo_text(self) -> str:
        """Return what the step that can be done again is called."""
        return self._steps[self._done].title if self.can_redo() else ""

    def text(self, index: int) -> str:
        """Return what one step is called, counted from the oldest."""
        return self._steps[index].title

    def count(self) -> int:
        """Return how many steps there are, done or taken back."""
        return len(self._steps)

    def index(self) -> int:
        """Return how many steps are done."""
        return self._done

    def is_clean(self) -> bool:
        """Whether the job is the saved one."""
        return self._clean == self._done

    def set_clean(self) -> None:
        """Note that the job has been saved."""
        was_clean = self.is_clean()
        self._clean = self._done
        self._tell(was_clean)

    def reset_clean(self) -> None:
        """Note that no job of this history is the saved one."""
        was_clean = self.is_clean()
        self._clean = None
        self._tell(was_clean)

    def _forget_oldest(self) -> None:
        if len(self._steps) > self.limit:
            del self._steps[0]
            self._done -= 1
            if self._clean is not None:
                self._clean = self._clean - 1 if self._clean else None

    def _tell(self, was_clean: bool) -> None:
        self.index_changed.emit(self._done)
        if self.is_clean() != was_clean:
            self.clean_changed.emit(not was_clean)
