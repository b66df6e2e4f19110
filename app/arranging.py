"""What the menus Edit and Arrange do to the chosen things. Each is one step of the history."""

from collections.abc import Collection
from typing import Literal

from PySide6.QtCore import QObject, Signal

from app.document import Document
from app.selection import Selection
from geometry.edits.contents import duplicated, removed
from geometry.edits.moves import aligned, distributed, mirrored_wall, other_hand
from geometry.edits.refs import Ref, things
from geometry.model import Job

Axis = Literal["x", "y"]


class Arranging(QObject):
    """Edits of a document by its selection."""

    told = Signal(str)
    """What could not be done: one sentence."""

    def __init__(self, document: Document, selection: Selection, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._document, self._selection = document, selection

    @property
    def chosen(self) -> tuple[Ref, ...]:
        """The chosen things that are in the job."""
        here = things(self._document.job)
        return tuple(ref for ref in self._selection.refs if ref in here)

    def duplicate(self) -> None:
        """Put copies beside the chosen things, and choose the copies."""
        job, copies = duplicated(self._document.state.plan, self.chosen)
        if copies and self._edit(self.tr("Duplicate %1").replace("%1", self._names(self.chosen)), job):
            self._selection.choose(copies)

    def remove(self) -> None:
        """Take the chosen things out of the job."""
        title = self.tr("Remove %1").replace("%1", self._names(self.chosen))
        self._edit(title, removed(self._document.job, self.chosen))

    def choose_all(self) -> None:
        """Choose everything in the job."""
        self._selection.choose(things(self._document.job))

    def choose_none(self) -> None:
        """Choose nothing."""
        self._selection.choose(())

    def align(self, axis: Axis) -> None:
        """Bring the chosen things plumb (`x`) or level (`y`) with the first."""
        title = self.tr("Align %1").replace("%1", self._names(self.chosen))
        self._edit(title, aligned(self._document.state.plan, self.chosen, axis))

    def distribute(self, axis: Axis) -> None:
        """Space the chosen things evenly between the outermost two."""
        title = self.tr("Space %1").replace("%1", self._names(self.chosen))
        self._edit(title, distributed(self._document.state.plan, self.chosen, axis))

    def other_hand(self) -> None:
        """Change the arrangement to the other hand."""
        self._edit(self.tr("Change to the other hand"), other_hand(self._document.job))

    def mirror_wall(self) -> None:
        """Turn the whole job into its mirror image."""
        self._edit(self.tr("Mirror the wall"), mirrored_wall(self._document.job))

    def _edit(self, title: str, job: Job) -> bool:
        try:
            self._document.edit(title, job)
        except ValueError as problem:
            self.told.emit(str(problem))
            return False
        return True

    def _names(self, refs: Collection[Ref]) -> str:
        """Return the name of the one chosen, or how many there are."""
        if len(refs) == 1:
            return next(iter(refs)).id
        return self.tr("%1 things").replace("%1", str(len(refs)))
