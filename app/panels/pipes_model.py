"""The pipes as a table: letter and name, where each comes from and goes to, how long it is."""

from typing import Any

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QPersistentModelIndex, Qt

from app.document import State
from app.panels.panel import Panel
from app.panels.pipe_form import feed_word
from export.drawings.marks import pipe_letter
from geometry.model import Pipe

Index = QModelIndex | QPersistentModelIndex


class PipesModel(QAbstractTableModel):
    """The pipes of a state: letter and name, from, to, length."""

    def __init__(self, panel: Panel) -> None:
        super().__init__(panel)
        self._panel = panel
        self._rows: tuple[tuple[str, ...], ...] = ()
        self._names: tuple[str, ...] = ()
        self._before: tuple[str, ...] = ()

    @property
    def names(self) -> tuple[str, ...]:
        """The names of the pipes, in the order of the rows."""
        return self._names

    def successor(self, name: str) -> str | None:
        """Return what a pipe is called now that was in the table before under another name."""
        if name in self._before and len(self._before) == len(self._names):
            there = self._names[self._before.index(name)]
            return there if there not in self._before else None
        return None

    def show_state(self, state: State) -> None:
        """Show the pipes of a state."""
        rows = tuple(self._row(state, pipe) for pipe in state.job.pipes)
        names = tuple(pipe.id for pipe in state.job.pipes)
        if names != self._names:
            self._before = self._names
        if len(rows) != len(self._rows):
            self.beginResetModel()
            self._rows, self._names = rows, names
            self.endResetModel()
        elif rows != self._rows:
            self._rows, self._names = rows, names
            self.dataChanged.emit(self.index(0, 0), self.index(len(rows) - 1, self.columnCount() - 1))

    def _row(self, state: State, pipe: Pipe) -> tuple[str, ...]:
        course = state.plan.courses[pipe.id]
        start = course.start.words if course.start else feed_word()
        return (
            f"{pipe_letter(pipe)}  {pipe.id}",
            start,
            course.end.words,
            self._panel.written(course.length),
        )

    def rowCount(self, parent: Index | None = None) -> int:
        """Return how many pipes there are."""
        return 0 if parent is not None and parent.isValid() else len(self._rows)

    def columnCount(self, parent: Index | None = None) -> int:
        """Return how many columns there are."""
        return 0 if parent is not None and parent.isValid() else 4

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        """Return what a cell shows."""
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.ToolTipRole):
            return self._rows[index.row()][index.column()]
        return None

    def headerData(
        self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole
    ) -> Any:
        """Return the heading of a column."""
        if role == Qt.ItemDataRole.DisplayRole and orientation == Qt.Orientation.Horizontal:
            return (self.tr("Pipe"), self.tr("From"), self.tr("To"), self.tr("Length"))[section]
        return None
