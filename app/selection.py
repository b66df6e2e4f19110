"""What is chosen: things of the job, and the finding that is looked at. View state, never history."""

from collections.abc import Iterable

from PySide6.QtCore import QObject, Signal

from geometry.edits.refs import Ref
from geometry.finding import Finding


class Selection(QObject):
    """The chosen things in the order of choosing, shared by canvas, panels and table."""

    changed = Signal()
    finding_changed = Signal(object)
    """The Finding now looked at, or None."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._refs: tuple[Ref, ...] = ()
        self._finding: Finding | None = None

    @property
    def refs(self) -> tuple[Ref, ...]:
        """The chosen things."""
        return self._refs

    @property
    def finding(self) -> Finding | None:
        """The finding that is looked at."""
        return self._finding

    def choose(self, refs: Iterable[Ref]) -> None:
        """Choose exactly these things."""
        chosen = tuple(dict.fromkeys(refs))
        if chosen != self._refs:
            self._refs = chosen
            self.changed.emit()

    def toggle(self, ref: Ref) -> None:
        """Add a thing to the chosen ones, or take it out."""
        self.choose([held for held in self._refs if held != ref] if ref in self._refs else [*self._refs, ref])

    def look_at(self, finding: Finding | None) -> None:
        """Look at a finding, or at none."""
        if finding != self._finding:
            self._finding = finding
            self.finding_changed.emit(finding)
