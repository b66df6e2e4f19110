"""A field for the points of a line: a small table of two lengths a row."""

import math
from collections.abc import Callable
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QAbstractItemView,
    QHBoxLayout,
    QHeaderView,
    QPushButton,
    QTableWidget,
    QTableWidgetItem,
    QWidget,
)

from app.fields import Field
from app.look import TARGET
from app.panels.sentence import plainly
from geometry.model import XY
from geometry.units import Display, length, on_grid, shown

_ROWS = 5  # seen without scrolling
_ON = 100.0  # mm, by which a point added at the end lies beyond the last one


class PointsField(Field):
    """Shows points as lengths from an origin, in a table whose cells are typed into.

    Args:
        label: what the points are of.
        display: the unit.
        across: heading of the first column; x.
        up: heading of the second column; y.
        least: how many points there must be.
    """

    def __init__(
        self,
        label: str,
        display: Display = "mm",
        *,
        across: str,
        up: str,
        least: int = 0,
        parent: QWidget | None = None,
    ) -> None:
        self.table = QTableWidget(0, 2)
        super().__init__(label, self.table, parent)
        self._display, self._least = display, least
        self._origin: XY = (0.0, 0.0)
        self._ends: tuple[XY | None, XY | None] = (None, None)
        self.table.setHorizontalHeaderLabels([across, up])
        self.table.horizontalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Stretch)
        self.table.verticalHeader().setDefaultSectionSize(TARGET)
        self.table.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.table.setTabKeyNavigation(False)  # Tab leaves the table; the arrow keys move in it
        self.table.cellChanged.connect(self._on_cell)
        self.table.currentCellChanged.connect(self._on_current)
        self._buttons = QHBoxLayout()
        self.adder = self._button(self.tr("Add a point"), self._on_add)
        self.remover = self._button(self.tr("Remove the point"), self._on_remove)
        layout = self.layout()
        assert layout is not None, "a field has a layout"
        holder = QWidget()
        holder.setLayout(self._buttons)
        self._buttons.setContentsMargins(0, 4, 0, 0)
        layout.addWidget(holder)

    def set_display(self, display: Display) -> None:
        """Show and read lengths in another unit."""
        if display != self._display:
            self._display = display
            self._show()

    def set_headings(self, across: str, up: str) -> None:
        """Say from where the points count."""
        self.table.setHorizontalHeaderLabels([across, up])

    def set_origin(self, origin: XY) -> None:
        """Count from another point."""
        if origin != self._origin:
            self._origin = origin
            self._show()

    def set_ends(self, start: XY | None, end: XY | None) -> None:
        """Say where the line comes from and goes to beyond its points, if anywhere."""
        self._ends = start, end

    def show_value(self, value: Any, *, afresh: bool = False) -> None:
        """Show points."""
        super().show_value(tuple(value or ()), afresh=afresh)

    def text(self, row: int, column: int) -> str:
        """Return what a cell shows."""
        item = self.table.item(row, column)
        return item.text() if item else ""

    def _show(self) -> None:
        points: tuple[XY, ...] = self._value or ()
        self.table.blockSignals(True)
        self.table.setRowCount(len(points))
        for row, point in enumerate(points):
            for column in (0, 1):
                text = shown(on_grid(point[column] - self._origin[column]), self._display)
                item = self.table.item(row, column)
                if item is None:
                    item = QTableWidgetItem()
                    item.setTextAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
                    self.table.setItem(row, column, item)
                if item.text() != text:
                    item.setText(text)
        self.table.blockSignals(False)
        rows = min(max(len(points), 1), _ROWS)
        self.table.setFixedHeight(self.table.horizontalHeader().sizeHint().height() + rows * TARGET + 4)
        self._on_current()

    def _enter(self, points: tuple[XY, ...]) -> None:
        self.refuse("")
        if points != self._value:
            self.entered.emit(points)
        self._show()

    def _on_cell(self, row: int, column: int) -> None:
        points: list[XY] = list(self._value)
        try:
            typed = length(self.text(row, column), self._display) + self._origin[column]
        except ValueError as problem:
            self.refuse(plainly(problem))
            self._show()
            return
        x, y = points[row]
        points[row] = (on_grid(typed), y) if column == 0 else (x, on_grid(typed))
        self._enter(tuple(points))

    def _on_add(self) -> None:
        """Add a point midway to the next; with no row chosen, in the longest leg; else beyond the last."""
        points: tuple[XY, ...] = self._value
        start, end = self._ends
        line = [*([start] if start else []), *points, *([end] if end else [])]
        skip = 1 if start else 0
        row = self.table.currentRow()
        if row < 0 and len(line) > 1:
            longest = max(range(len(line) - 1), key=lambda leg: math.dist(line[leg], line[leg + 1]))
            row = longest - skip
        elif row < 0:
            row = len(points) - 1
        after = row + skip
        if 0 <= after < len(line) - 1:
            (x0, y0), (x1, y1) = line[after], line[after + 1]
            new = on_grid((x0 + x1) / 2), on_grid((y0 + y1) / 2)
        else:
            x, y = line[-1] if line else self._origin
            new = x, y + _ON
        self._enter((*points[: row + 1], new, *points[row + 1 :]))
        self.table.setCurrentCell(min(row + 1, self.table.rowCount() - 1), 0)

    def _on_remove(self) -> None:
        row = self.table.currentRow()
        if 0 <= row < len(self._value):
            self._enter((*self._value[:row], *self._value[row + 1 :]))

    def _on_current(self, *_: int) -> None:
        may_lose = len(self._value or ()) > self._least
        self.remover.setEnabled(may_lose and 0 <= self.table.currentRow() < self.table.rowCount())

    def _button(self, word: str, slot: Callable[[], None]) -> QPushButton:
        button = QPushButton(word)
        button.setAccessibleName(f"{word}, {self.label}")
        button.setMinimumHeight(TARGET)
        button.clicked.connect(slot)
        self._buttons.addWidget(button)
        return button
