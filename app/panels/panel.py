"""What every panel shares: it hears the document, and shows the job while it is seen itself."""

from PySide6.QtCore import QTimer, Signal
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QWidget

from app.document import Document, State
from app.fields import Field
from app.panels.sentence import plainly
from app.selection import Selection
from app.settings import Preferences, Settings
from geometry.edits.refs import Ref
from geometry.model import Job
from geometry.units import Display, with_unit

PAUSE = 100
"""Milliseconds between two looks of a slow panel while something is dragged, so that the wall keeps up."""


class Panel(QWidget):
    """Shows the state of a document and edits it; while hidden it lets changes pass and catches up later."""

    is_slow = False
    """Whether showing a state takes so long that the wall would lag: then a drag is followed in steps."""
    refused = Signal(str)
    """An edit was refused that belongs to no field: one sentence."""

    def __init__(
        self,
        document: Document,
        selection: Selection,
        preferences: Preferences,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.document, self.selection, self.preferences = document, selection, preferences
        self._stale = True
        self._pause = QTimer(self)
        self._pause.setSingleShot(True)
        self._pause.timeout.connect(self._on_pause_over)
        document.changed.connect(self._on_changed)
        selection.changed.connect(self._on_selection_changed)
        preferences.changed.connect(self._on_preferences_changed)
        self.set_up()

    def set_up(self) -> None:
        """Make what stands on the panel."""
        raise NotImplementedError

    def show_state(self, state: State) -> None:
        """Show a state, changing only what differs."""
        raise NotImplementedError

    def show_chosen(self, refs: tuple[Ref, ...]) -> None:
        """Show what is chosen now; nothing unless a panel does more."""

    @property
    def display(self) -> Display:
        """The unit in which lengths are shown."""
        return self.preferences.settings.unit

    def written(self, length: float) -> str:
        """Write a length with its unit as the user wants it."""
        return with_unit(length, self.display)

    def edit(self, title: str, job: Job, *, merge: object = None) -> str:
        """Make an edit; return why it was refused as one sentence, or nothing."""
        try:
            self.document.edit(title, job, merge=merge)
        except ValueError as problem:
            return plainly(problem)
        return ""

    def refresh(self) -> None:
        """Show the document as it is now."""
        self._stale = False
        self.show_state(self.document.state)
        self.show_chosen(self.selection.refs)

    def showEvent(self, event: QShowEvent) -> None:
        """Catch up with what was missed while hidden."""
        if self._stale:
            self.refresh()
        super().showEvent(event)

    def _on_changed(self, state: State) -> None:
        if not self.isVisible():
            self._stale = True
        elif not self.is_slow or state.job is self.document.kept_job:
            self._pause.stop()
            self.show_state(state)
        elif not self._pause.isActive():
            self._pause.start(PAUSE)

    def _on_pause_over(self) -> None:
        if self.isVisible():
            self.show_state(self.document.state)

    def _on_selection_changed(self) -> None:
        if self.isVisible():
            self.show_chosen(self.selection.refs)
        else:
            self._stale = True

    def _on_preferences_changed(self, settings: Settings) -> None:
        for field in self.findChildren(Field):
            field.set_display(settings.unit)
        self._on_changed(self.document.state)
