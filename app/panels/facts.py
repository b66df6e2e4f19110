"""A table that is read only: as high as its rows, so that the panel round it scrolls, not the table."""

from collections.abc import Sequence

from PySide6.QtCore import QRect, Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QAbstractItemView, QFrame, QHeaderView, QTableWidget, QTableWidgetItem

Row = tuple[str, ...]
_AROUND = 12  # pixels, above and below the words of a row together
_PADDING = 20  # pixels, left and right of the words of a cell together: 6 by the look's sheet, 3 by the style


class FactsTable(QTableWidget):
    """Rows of words under a head.

    Args:
        name: what the table is called, for those who hear the window.
        head: the words over the columns.
        numbers: how many of the columns, counted from the right, are numbers: they are narrow.
    """

    def __init__(self, name: str, head: Row, *, numbers: int = 0) -> None:
        super().__init__(0, len(head))
        self._numbers = numbers
        self._rows: tuple[Row, ...] = ()
        self.setAccessibleName(name)
        self.setHorizontalHeaderLabels(head)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setSelectionMode(QAbstractItemView.SelectionMode.NoSelection)
        self.setTabKeyNavigation(False)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setShowGrid(False)
        self.setTextElideMode(Qt.TextElideMode.ElideNone)
        self.setAlternatingRowColors(True)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.verticalHeader().hide()
        self.verticalHeader().setMinimumSectionSize(28)
        across = self.horizontalHeader()
        across.setMinimumSectionSize(36)
        across.setSectionsClickable(False)
        across.setHighlightSections(False)
        for column in range(len(head)):
            narrow = self._is_number(column)
            mode = QHeaderView.ResizeMode
            across.setSectionResizeMode(column, mode.ResizeToContents if narrow else mode.Stretch)
            held = self.horizontalHeaderItem(column)
            if held is not None:
                held.setTextAlignment(_side(right=narrow))
        across.sectionResized.connect(self._on_section_resized)
        self._fit()

    @property
    def rows(self) -> tuple[Row, ...]:
        """The words that are shown."""
        return self._rows

    def show_rows(self, rows: Sequence[Row]) -> None:
        """Show other rows; those that are shown already stay."""
        wanted = tuple(rows)
        if wanted == self._rows:
            return
        self._rows = wanted
        self.setRowCount(len(wanted))
        for number, row in enumerate(wanted):
            for column, words in enumerate(row):
                item = self.item(number, column)
                if item is None:
                    item = QTableWidgetItem()
                    item.setTextAlignment(_side(right=self._is_number(column)))
                    self.setItem(number, column, item)
                if item.text() != words:
                    item.setText(words)
        self._fit()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Keep as high as the rows are at this width."""
        super().resizeEvent(event)
        self._fit()

    def _is_number(self, column: int) -> bool:
        return column >= self.columnCount() - self._numbers

    def _on_section_resized(self, _column: int, _before: int, _after: int) -> None:
        self._fit()

    def _fit(self) -> None:
        for number, row in enumerate(self._rows):
            high = max(self._lines_high(column, words) for column, words in enumerate(row)) + _AROUND
            if high != self.rowHeight(number):
                self.setRowHeight(number, high)
        across = self.horizontalHeader()
        high = across.sizeHint().height() + self.verticalHeader().length()
        if high != self.minimumHeight() or high != self.maximumHeight():
            self.setFixedHeight(high)

    def _lines_high(self, column: int, words: str) -> int:
        """Return how high words are when they wrap in a column; Qt's own sum leaves the padding out."""
        if self._is_number(column):
            return self.fontMetrics().height()
        room = QRect(0, 0, max(self.columnWidth(column) - _PADDING, 1), 10_000)
        return self.fontMetrics().boundingRect(room, Qt.TextFlag.TextWordWrap, words).height()


def _side(*, right: bool) -> Qt.AlignmentFlag:
    return Qt.AlignmentFlag.AlignVCenter | (
        Qt.AlignmentFlag.AlignRight if right else Qt.AlignmentFlag.AlignLeft
    )
