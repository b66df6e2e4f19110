"""The list of findings: a model of rows, and how a row is painted, with words that wrap."""

from typing import Any, NamedTuple

from PySide6.QtCore import (
    QAbstractListModel,
    QModelIndex,
    QObject,
    QPersistentModelIndex,
    QRect,
    QSize,
    Qt,
    QTimer,
)
from PySide6.QtGui import QColor, QFontMetrics, QPainter, QResizeEvent
from PySide6.QtWidgets import QListView, QStyle, QStyledItemDelegate, QStyleOptionViewItem, QWidget

from app.look import TARGET
from app.panels.sentence import bold, look_now
from app.panels.statuses import LOOKS, against, counts, status_heading, status_word
from geometry.finding import STATUSES, Finding, Status
from geometry.rules import Rulebook
from geometry.units import Display

Index = QModelIndex | QPersistentModelIndex
_MARK = 26  # pixels, from the left edge of a row to its words
_PAD = 8  # pixels round the words of a row
_GAP = 3  # pixels between the sentence and what was measured
_WRAP = int(Qt.TextFlag.TextWordWrap) | int(Qt.AlignmentFlag.AlignLeft) | int(Qt.AlignmentFlag.AlignTop)


class Row(NamedTuple):
    """One row: the heading of a status, or a finding with what was measured and the source of its limit."""

    status: Status
    text: str
    detail: str = ""
    finding: Finding | None = None


class FindingsModel(QAbstractListModel):
    """Findings under the headings of their statuses."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._rows: tuple[Row, ...] = ()

    def show_findings(
        self, findings: tuple[Finding, ...], rules: Rulebook, display: Display, *, clear: bool
    ) -> None:
        """Show findings, those that are clear only if they are wanted."""
        rows: list[Row] = []
        many = counts(findings)
        for status in STATUSES:
            if many[status] and (clear or status != "clear"):
                rows.append(Row(status, f"{status_heading(status)} ({many[status]})"))
                rows += (
                    Row(status, finding.message, self._detail(finding, rules, display), finding)
                    for finding in findings
                    if finding.status == status
                )
        after = tuple(rows)
        if len(after) != len(self._rows):
            self.beginResetModel()
            self._rows = after
            self.endResetModel()
            return
        changed = [number for number, row in enumerate(after) if row != self._rows[number]]
        self._rows = after
        for number in changed:
            self.dataChanged.emit(self.index(number), self.index(number))

    def row(self, number: int) -> Row:
        """Return one row."""
        return self._rows[number]

    def place_of(self, finding: Finding | None) -> int:
        """Return the row of a finding; -1 if it is not shown."""
        return next((n for n, row in enumerate(self._rows) if finding and row.finding == finding), -1)

    def rowCount(self, parent: Index | None = None) -> int:
        """Return how many rows there are."""
        return 0 if parent is not None and parent.isValid() else len(self._rows)

    def flags(self, index: Index) -> Qt.ItemFlag:
        """Let findings be chosen, and headings not."""
        if index.isValid() and self._rows[index.row()].finding is None:
            return Qt.ItemFlag.ItemIsEnabled
        return Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable | Qt.ItemFlag.ItemNeverHasChildren

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        """Return the words of a row, all of them for those who hear the window."""
        row = self._rows[index.row()]
        if role == Qt.ItemDataRole.DisplayRole:
            return row.text
        if role == Qt.ItemDataRole.AccessibleTextRole:
            if row.finding is None:
                return row.text
            return f"{status_word(row.status)}: {row.text} {row.detail}".rstrip()
        return None

    def _detail(self, finding: Finding, rules: Rulebook, display: Display) -> str:
        parts = (against(finding, rules, display), str(finding.source) if finding.source else "")
        return "; ".join(part for part in parts if part)


class FindingsView(QListView):
    """The list itself."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setItemDelegate(_Painted(self))
        self.setResizeMode(QListView.ResizeMode.Adjust)
        self.setVerticalScrollMode(QListView.ScrollMode.ScrollPerPixel)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOn)  # so that words do not rewrap
        self.setAccessibleName(self.tr("Findings"))

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Wrap the words anew at once; Qt by itself waits a moment."""
        super().resizeEvent(event)
        self.scheduleDelayedItemsLayout()
        QTimer.singleShot(0, self, self._reveal)

    def _reveal(self) -> None:
        """Keep the finding that is looked at in sight when what stands below takes room from the list."""
        if self.currentIndex().isValid():
            self.scrollTo(self.currentIndex())


class _Painted(QStyledItemDelegate):
    """Paints mark, sentence, and below it in quieter words what was measured and by which source."""

    def __init__(self, view: QListView) -> None:
        super().__init__(view)
        self._view = view
        self._heights: dict[tuple[str, str, int], int] = {}

    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:
        """Return the height that the words need at the width of the list."""
        row = _row_of(index)
        width = self._view.viewport().width()
        key = (row.text, row.detail, width)
        if key not in self._heights:
            if len(self._heights) > 2000:
                self._heights.clear()
            self._heights[key] = self._height(row, width)
        return QSize(width, self._heights[key])

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        """Paint a row."""
        row, look = _row_of(index), look_now()
        rect: QRect = option.rect
        state = option.state
        chosen = bool(state & QStyle.StateFlag.State_Selected)
        painter.save()
        if chosen:
            painter.fillRect(rect, QColor(look.chosen))
        if row.finding is None:
            painter.fillRect(rect, QColor(look.page))
            painter.setFont(bold(self._view.font()))
            painter.setPen(QColor(getattr(look, LOOKS[row.status].tone)))
            inner = rect.adjusted(_PAD, 0, -_PAD, 0)
            painter.drawText(inner, int(Qt.AlignmentFlag.AlignVCenter), row.text)
        else:
            self._paint_finding(painter, row, rect, chosen=chosen)
            painter.setPen(QColor(look.line))
            painter.drawLine(rect.bottomLeft(), rect.bottomRight())
        painter.restore()

    def _paint_finding(self, painter: QPainter, row: Row, rect: QRect, *, chosen: bool) -> None:
        look = look_now()
        tone = look.on_chosen if chosen else getattr(look, LOOKS[row.status].tone)
        painter.setFont(bold(self._view.font()))
        painter.setPen(QColor(tone))
        painter.drawText(rect.adjusted(_PAD, _PAD, 0, 0), _WRAP, LOOKS[row.status].mark)
        inner = rect.adjusted(_MARK, _PAD, -_PAD, -_PAD)
        painter.setFont(self._view.font())
        painter.setPen(QColor(look.on_chosen if chosen else look.words))
        painter.drawText(inner, _WRAP, row.text)
        if row.detail:
            high = _text_height(self._view.fontMetrics(), row.text, inner.width())
            painter.setPen(QColor(look.on_chosen if chosen else look.quiet))
            painter.drawText(inner.adjusted(0, high + _GAP, 0, 0), _WRAP, row.detail)

    def _height(self, row: Row, width: int) -> int:
        if row.finding is None:
            return TARGET
        metrics = self._view.fontMetrics()
        inner = width - _MARK - _PAD
        high = _text_height(metrics, row.text, inner)
        if row.detail:
            high += _GAP + _text_height(metrics, row.detail, inner)
        return max(TARGET, high + 2 * _PAD)


def _row_of(index: Index) -> Row:
    model = index.model()
    assert isinstance(model, FindingsModel)
    return model.row(index.row())


def _text_height(metrics: QFontMetrics, text: str, width: int) -> int:
    return metrics.boundingRect(QRect(0, 0, max(width, 1), 10_000), _WRAP, text).height()
