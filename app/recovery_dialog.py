"""The dialog that offers the unsaved work of a window that did not close: open, compare, discard."""

from pathlib import Path

from PySide6.QtCore import QDateTime, QLocale, Signal
from PySide6.QtWidgets import (
    QDialog,
    QHBoxLayout,
    QLabel,
    QListWidget,
    QPlainTextEdit,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from app import questions
from app.differences import differences
from app.recovery import Leftover
from geometry.units import Display


class RecoveryDialog(QDialog):
    """Lists what was left; what is neither opened nor discarded is offered again next time."""

    open_requested = Signal(object)
    """The Leftover to go on with."""

    def __init__(
        self, leftovers: tuple[Leftover, ...], unit: Display = "mm", parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.setWindowTitle(self.tr("Unsaved work"))
        self.resize(640, 480)
        self._leftovers, self._unit = list(leftovers), unit
        self._list = QListWidget()
        self._list.setObjectName("leftovers")
        self._list.setAccessibleName(self.tr("Unsaved work that was found"))
        self._list.addItems([self._name(left) for left in leftovers])
        self._list.setCurrentRow(0)
        self._list.setMaximumHeight(140)
        self._list.currentRowChanged.connect(self._on_row)
        self._told = QPlainTextEdit()
        self._told.setObjectName("differences")
        self._told.setReadOnly(True)
        self._told.setAccessibleName(self.tr("What differs from the saved file"))
        sentence = QLabel(self.tr("The program ended without saving. This work was kept:"))
        sentence.setWordWrap(True)
        layout = QVBoxLayout(self)
        layout.addWidget(sentence)
        layout.addWidget(self._list)
        layout.addWidget(self._told)
        layout.addLayout(self._buttons())

    def _buttons(self) -> QHBoxLayout:
        row = QHBoxLayout()
        self.open_button = QPushButton(self.tr("Open it"))
        self.compare_button = QPushButton(self.tr("Compare with the saved file"))
        self.discard_button = QPushButton(self.tr("Discard it"))
        self.later_button = QPushButton(self.tr("Later"))
        self.open_button.setDefault(True)
        self.open_button.clicked.connect(self._on_open)
        self.compare_button.clicked.connect(self._on_compare)
        self.discard_button.clicked.connect(self._on_discard)
        self.later_button.clicked.connect(self.reject)
        for button in (self.open_button, self.compare_button, self.discard_button, self.later_button):
            button.setAutoDefault(False)
            row.addWidget(button)
        return row

    def _name(self, left: Leftover) -> str:
        when = QLocale().toString(QDateTime.fromSecsSinceEpoch(int(left.at)), QLocale.FormatType.ShortFormat)
        where = self.tr("never saved") if left.path is None else left.path.name
        return f"{left.job.about.title} ({where}), {when}"

    @property
    def _current(self) -> Leftover:
        return self._leftovers[self._list.currentRow()]

    def _on_row(self, _row: int) -> None:
        self._told.clear()

    def _on_open(self) -> None:
        self.open_requested.emit(self._current)
        self.accept()

    def _on_compare(self) -> None:
        left = self._current
        self._told.setPlainText(self._compared(left, left.path))

    def _compared(self, left: Leftover, path: Path | None) -> str:
        if path is None:
            return self.tr("This job was never saved, so there is no file to compare it with.")
        from app.files import InputError, open_job

        try:
            saved = open_job(path)
        except InputError:
            return self.tr("The saved file is gone or cannot be read, so there is nothing to compare with.")
        lines = differences(saved, left.job, self._unit)
        return "\n".join(lines) or self.tr("It is the same as the saved file.")

    def _on_discard(self) -> None:
        question = self.tr("This work is lost for good if it is discarded.")
        if not questions.ask_sure(self, question, self.tr("Discard it")):
            return
        row = self._list.currentRow()
        self._leftovers.pop(row).discard()
        self._list.takeItem(row)
        if not self._leftovers:
            self.accept()
