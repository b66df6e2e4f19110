"""The table of all parts: the same job as on the wall, for those who read or hear it, and as editable."""

from typing import Any

from PySide6.QtCore import (
    QAbstractTableModel,
    QItemSelection,
    QItemSelectionModel,
    QModelIndex,
    QPersistentModelIndex,
    Qt,
    Signal,
)
from PySide6.QtGui import QColor, QKeyEvent
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QTableView, QVBoxLayout

from app.arranging import Arranging
from app.document import State
from app.look import TARGET
from app.panels.panel import Panel
from app.panels.sentence import colour_of, plainly
from app.panels.statuses import LOOKS, status_word
from app.panels.table_rows import (
    ACROSS,
    COLUMNS,
    MORE,
    NAME,
    PART,
    UP,
    Row,
    edited,
    heading,
    row_of,
)
from geometry.edits.refs import Ref, things
from geometry.edits.renaming import followed
from geometry.finding import Status

Index = QModelIndex | QPersistentModelIndex
_EDITED = {NAME, PART, ACROSS, UP}
_WORST = COLUMNS - 1


class PartsTable(Panel):
    """Every thing of the job in a row; what is chosen here is chosen on the wall."""

    is_slow = True

    def set_up(self) -> None:
        """Make what stands on the panel."""
        self.setAccessibleName(self.tr("Table of all parts"))
        self.arranging = Arranging(self.document, self.selection, self)
        self.arranging.told.connect(self.refused)
        self.model = PartsModel(self)
        self.model.refused.connect(self.refused)
        self.view = _View()
        self.view.setModel(self.model)
        self.view.setAccessibleName(self.tr("All parts"))
        self.view.remove_wanted.connect(self.arranging.remove)
        header = self.view.horizontalHeader()
        header.setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        header.setSectionResizeMode(MORE, QHeaderView.ResizeMode.Stretch)
        self.view.selectionModel().selectionChanged.connect(self._on_rows)
        self._showing = False
        self.setFocusProxy(self.view)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.view)

    def show_state(self, state: State) -> None:
        """Show the job."""
        self._showing = True
        before = self.model.refs
        self.model.show_state(state)
        self.selection.choose(followed(self.selection.refs, before, self.model.refs))
        self._showing = False
        self.show_chosen(self.selection.refs)

    def show_chosen(self, refs: tuple[Ref, ...]) -> None:
        """Mark the rows of what is chosen."""
        wanted = {row for row, ref in enumerate(self.model.refs) if ref in refs}
        rows = self.view.selectionModel()
        if wanted == {index.row() for index in rows.selectedRows()}:
            return
        self._showing = True
        chosen = QItemSelection()
        for row in sorted(wanted):
            chosen.select(self.model.index(row, 0), self.model.index(row, COLUMNS - 1))
        rows.select(chosen, QItemSelectionModel.SelectionFlag.ClearAndSelect)
        if wanted and rows.currentIndex().row() not in wanted:
            first = self.model.index(min(wanted), max(rows.currentIndex().column(), 0))
            rows.setCurrentIndex(first, QItemSelectionModel.SelectionFlag.NoUpdate)
            self.view.scrollTo(first)
        self._showing = False

    def _on_rows(self) -> None:
        if not self._showing:
            rows = sorted(index.row() for index in self.view.selectionModel().selectedRows())
            self.selection.choose(self.model.refs[row] for row in rows)


class _View(QTableView):
    """The table; Delete removes, Enter begins to edit."""

    remove_wanted = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)
        self.setTabKeyNavigation(False)
        self.setWordWrap(False)
        by = QAbstractItemView.EditTrigger
        self.setEditTriggers(by.DoubleClicked | by.EditKeyPressed | by.AnyKeyPressed)
        self.verticalHeader().setVisible(False)
        self.verticalHeader().setDefaultSectionSize(TARGET)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Remove by Delete, edit by Enter."""
        if self.state() != QAbstractItemView.State.EditingState:
            if event.key() == Qt.Key.Key_Delete:
                self.remove_wanted.emit()
                return
            if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and self.currentIndex().isValid():
                self.edit(self.currentIndex())
                return
        super().keyPressEvent(event)


class PartsModel(QAbstractTableModel):
    """The things of a job, a row each; a cell that is edited edits the job."""

    refused = Signal(str)
    """An entry was refused: one sentence."""

    def __init__(self, panel: Panel) -> None:
        super().__init__(panel)
        self._panel = panel
        self._rows: tuple[Row, ...] = ()

    @property
    def refs(self) -> tuple[Ref, ...]:
        """What the rows stand for."""
        return tuple(row.ref for row in self._rows)

    def show_state(self, state: State) -> None:
        """Show the things of a state."""
        worst: dict[str, Status] = {}
        for finding in state.findings:  # the worst come first
            for part in finding.parts:
                worst.setdefault(part, finding.status)
        rows = tuple(
            row_of(state.plan, ref, thing, self._panel.display, worst.get(ref.id))
            for ref, thing in things(state.job).items()
        )
        if len(rows) != len(self._rows):
            self.beginResetModel()
            self._rows = rows
            self.endResetModel()
            return
        changed = [number for number, row in enumerate(rows) if row != self._rows[number]]
        self._rows = rows
        for number in changed:
            self.dataChanged.emit(self.index(number, 0), self.index(number, COLUMNS - 1))
        self.headerDataChanged.emit(Qt.Orientation.Horizontal, 0, COLUMNS - 1)

    def rowCount(self, parent: Index | None = None) -> int:
        """Return how many things there are."""
        return 0 if parent is not None and parent.isValid() else len(self._rows)

    def columnCount(self, parent: Index | None = None) -> int:
        """Return how many columns there are."""
        return 0 if parent is not None and parent.isValid() else COLUMNS

    def flags(self, index: Index) -> Qt.ItemFlag:
        """Let those cells be edited that hold a value of the thing."""
        flags = Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable | Qt.ItemFlag.ItemNeverHasChildren
        if index.isValid() and index.column() in _EDITED and self._rows[index.row()].cells[index.column()]:
            flags |= Qt.ItemFlag.ItemIsEditable
        return flags

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        """Return what a cell shows; heard with its heading."""
        row, column = self._rows[index.row()], index.column()
        status = row.worst
        if column == _WORST:
            text = f"{LOOKS[status].mark} {status_word(status)}" if status else ""
        else:
            text = row.cells[column]
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.EditRole, Qt.ItemDataRole.ToolTipRole):
            return text
        if role == Qt.ItemDataRole.AccessibleTextRole:
            return f"{heading(column, self._panel.display)}: {text}"
        if role == Qt.ItemDataRole.ForegroundRole and column == _WORST and status:
            return QColor(colour_of(LOOKS[status].tone))
        if role == Qt.ItemDataRole.TextAlignmentRole and column in (ACROSS, UP):
            return Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
        return None

    def setData(self, index: Index, value: Any, role: int = Qt.ItemDataRole.EditRole) -> bool:
        """Edit the job by what was typed into a cell."""
        row = self._rows[index.row()]
        if role != Qt.ItemDataRole.EditRole or str(value) == row.cells[index.column()]:
            return False
        plan = self._panel.document.state.plan
        try:
            title, job = edited(plan, row.ref, index.column(), str(value), self._panel.display)
        except ValueError as problem:
            self.refused.emit(plainly(problem))
            return False
        problem_said = self._panel.edit(title, job)
        if problem_said:
            self.refused.emit(problem_said)
        return not problem_said

    def headerData(
        self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole
    ) -> Any:
        """Return the heading of a column."""
        if role == Qt.ItemDataRole.DisplayRole and orientation == Qt.Orientation.Horizontal:
            return heading(section, self._panel.display)
        return None
