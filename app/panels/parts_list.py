"""The list of parts that can be fitted: filtered, added by Enter or a button, or dragged onto the wall."""

from PySide6.QtCore import QByteArray, QMimeData, QPoint, QSize, Qt, Signal
from PySide6.QtGui import QDrag, QKeyEvent, QMouseEvent
from PySide6.QtWidgets import (
    QApplication,
    QHBoxLayout,
    QLineEdit,
    QListWidget,
    QListWidgetItem,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from app.canvas.canvas import PART_MIME
from app.look import TARGET
from app.panels.choice_fields import ChoiceField
from app.panels.sentence import Sentence
from app.panels.words import PARTS, choices
from geometry.parts.catalogue import Catalogue
from geometry.parts.records import Part

ROWS = 5
"""Rows that are seen without scrolling."""
_ID = Qt.ItemDataRole.UserRole


class PartsList(QWidget):
    """Shows the parts that are fitted to a wall, those of a user's own among them."""

    wanted = Signal(str)
    """A part is to be added: its id."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._parts: tuple[Part, ...] = ()
        self.kind = ChoiceField(self.tr("Kind"), [("", self.tr("All kinds")), *choices(PARTS)])
        self.kind.show_value("")
        self.kind.entered.connect(self._on_kind)
        self.filter = QLineEdit()
        self.filter.setPlaceholderText(self.tr("Find by words"))
        self.filter.setAccessibleName(self.tr("Find parts by words"))
        self.filter.setMinimumHeight(TARGET)
        self.filter.setClearButtonEnabled(True)
        self.filter.textChanged.connect(self._on_words)
        self.filter.returnPressed.connect(self._on_add)
        self.list = _Dragged()
        self.list.setAccessibleName(self.tr("Parts to add"))
        self.list.setFixedHeight(ROWS * TARGET + 2 * self.list.frameWidth())
        self.list.entered_part.connect(self._on_add)
        self.list.itemDoubleClicked.connect(self._on_add)
        self._none = Sentence("quiet")
        self.add = QPushButton(self.tr("Add to the wall"))
        self.add.setMinimumHeight(TARGET)
        self.add.clicked.connect(self._on_add)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(8)
        row = QHBoxLayout()
        row.setSpacing(8)
        row.addWidget(self.kind, 1)
        row.addWidget(self.filter, 1, Qt.AlignmentFlag.AlignBottom)
        layout.addLayout(row)
        for widget in (self.list, self._none, self.add):
            layout.addWidget(widget)

    def show_parts(self, catalogue: Catalogue) -> None:
        """Show the parts of a catalogue that are fitted to the wall by themselves."""
        parts = tuple(part for part in catalogue if _kind(part) in PARTS)
        if parts != self._parts:
            self._parts = parts
            self._fill()

    def _fill(self) -> None:
        kind, words = self.kind.value, self.filter.text().casefold().split()
        chosen = self.list.part_id
        self.list.clear()
        order = list(PARTS)
        for part in sorted(self._parts, key=lambda part: order.index(_kind(part))):
            said = f"{part.name} {part.id}".casefold()
            if kind in ("", _kind(part)) and all(word in said for word in words):
                item = QListWidgetItem(part.name)
                item.setData(_ID, part.id)
                item.setSizeHint(QSize(0, TARGET))
                self.list.addItem(item)
                if part.id == chosen:
                    self.list.setCurrentItem(item)
        if self.list.currentRow() < 0 and self.list.count():
            self.list.setCurrentRow(0)
        self.add.setEnabled(self.list.count() > 0)
        self._none.say("" if self.list.count() else self.tr("No part has these words."))

    def _on_kind(self, kind: str) -> None:
        self.kind.show_value(kind)
        self._fill()

    def _on_words(self) -> None:
        self._fill()

    def _on_add(self) -> None:
        part_id = self.list.part_id
        if part_id:
            self.wanted.emit(part_id)


class _Dragged(QListWidget):
    """A list whose rows can be dragged onto the wall."""

    entered_part = Signal()

    def __init__(self) -> None:
        super().__init__()
        self._pressed_at: QPoint | None = None

    @property
    def part_id(self) -> str:
        """The id of the part in the current row; empty if there is none."""
        row = self.currentRow()
        return str(self.item(row).data(_ID)) if row >= 0 else ""

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Add by Enter."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.entered_part.emit()
        else:
            super().keyPressEvent(event)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Note where a drag may begin."""
        super().mousePressEvent(event)
        self._pressed_at = event.position().toPoint()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Begin to drag once the pointer has gone far enough."""
        part_id = self.part_id
        if self._pressed_at is None or not part_id or not event.buttons() & Qt.MouseButton.LeftButton:
            return
        way = event.position().toPoint() - self._pressed_at
        if way.manhattanLength() >= QApplication.startDragDistance():
            self._pressed_at = None
            drag = QDrag(self)
            drag.setMimeData(part_data(part_id))
            drag.exec(Qt.DropAction.CopyAction)


def part_data(part_id: str) -> QMimeData:
    """Return what is dragged for a part."""
    data = QMimeData()
    data.setData(PART_MIME, QByteArray(part_id.encode()))
    return data


def _kind(part: Part) -> str:
    return str(part.__struct_config__.tag)
