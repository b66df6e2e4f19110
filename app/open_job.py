"""All that a job is worked with: document, selection, store, and the bench that shows them."""

from pathlib import Path

from PySide6.QtCore import QObject, Signal
from PySide6.QtWidgets import QWidget

from app.arranging import Arranging
from app.bench import Bench
from app.document import Document
from app.files import load_catalogue, load_rules
from app.filing import Filing, stand_in
from app.recovery import Autosave
from app.selection import Selection
from app.settings import Preferences
from app.store import Store


class OpenJob(QObject):
    """Makes the parts of the open job know each other, and says what can be done with it."""

    changed = Signal()
    """What can be done may be another now."""
    told = Signal(str)
    """One sentence for the user."""

    def __init__(self, preferences: Preferences, recovery: Path, locks: Path | None, window: QWidget) -> None:
        super().__init__(window)
        self.autosave = Autosave(recovery, self)
        self.document = Document(stand_in(), load_catalogue(), load_rules(), self)
        self.selection = Selection(self)
        self.store = Store(self.document, locks)
        self.filing = Filing(self.store, preferences, window)
        self.arranging = Arranging(self.document, self.selection, self)
        self.bench = Bench(self.document, self.selection, preferences, window)
        self.autosave.failed.connect(self.told)
        self.filing.told.connect(self.told)
        self.arranging.told.connect(self.told)
        self.bench.changed.connect(self.changed)
        self.selection.changed.connect(self.changed)
        self.selection.finding_changed.connect(self._on_finding)
        self.document.history.index_changed.connect(self._on_step)
        self.document.file_changed.connect(self._on_file)

    def facts(self) -> set[str]:
        """Return the facts by which actions can be done, of a job that is shown."""
        document, finding = self.document, self.selection.finding
        chosen = len(self.arranging.chosen)
        held = {
            "job": True,
            "revertible": document.path is not None and not document.is_saved,
            "undo": document.history.can_undo(),
            "redo": document.history.can_redo(),
            "chosen": chosen > 0,
            "two": chosen > 1,
            "three": chosen > 2,
            "finding": finding is not None,
            "curable": finding is not None and finding.status == "clash",
        }
        return {fact for fact, holds in held.items() if holds} | self.bench.facts()

    def may_close(self) -> bool:
        """Ask about unsaved work; return whether the window may close."""
        return self.filing.may_leave()

    def close(self) -> None:
        """Let go of the file and the copy; nothing is heard of the document any more."""
        self.autosave.discard()
        self.document.history.index_changed.disconnect(self._on_step)
        self.store.close()

    def _note(self) -> None:
        document = self.document
        self.autosave.note(document.kept_job, document.path, saved=document.is_saved)

    def _on_step(self, _index: int) -> None:
        self._note()
        self.changed.emit()

    def _on_file(self) -> None:
        self._note()
        self.changed.emit()

    def _on_finding(self, _finding: object) -> None:
        self.changed.emit()
