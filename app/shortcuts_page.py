"""The page of shortcuts, built from the table of actions, so that it says the same as the menus."""

from collections.abc import Iterator

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QDialog,
    QDialogButtonBox,
    QHeaderView,
    QTableWidget,
    QTableWidgetItem,
    QVBoxLayout,
    QWidget,
)

from app.actions import ACTIONS, MENUS, ON_THE_WALL
from app.menus import key_sequences, said, shown_keys


def plain(text: str) -> str:
    """Return the words of an action without its letter mark and its dots."""
    return text.replace("&", "").removesuffix("…")


def rows(wall: str) -> Iterator[tuple[str, str, str]]:
    """Yield menu, words and keys of every action, then of the keys of the wall."""
    for action in ACTIONS:
        native = ", ".join(shown_keys(keys.toString()) for keys in key_sequences(action))
        yield plain(said(MENUS[action.menu])), plain(said(action.text)), native
    for keys, text in ON_THE_WALL:
        yield wall, said(text), shown_keys(keys)


class ShortcutsPage(QDialog):
    """Every action with its menu and its keys."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle(self.tr("Shortcuts"))
        self.resize(720, 640)
        listed = list(rows(self.tr("On the wall")))
        table = QTableWidget(len(listed), 3, self)
        table.setObjectName("shortcuts")
        table.setAccessibleName(self.tr("Shortcuts"))
        table.setHorizontalHeaderLabels([self.tr("Menu"), self.tr("What it does"), self.tr("Keys")])
        table.verticalHeader().hide()
        table.verticalHeader().setDefaultSectionSize(40)
        table.horizontalHeader().setSectionResizeMode(1, QHeaderView.ResizeMode.Stretch)
        table.setEditTriggers(QTableWidget.EditTrigger.NoEditTriggers)
        table.setSelectionBehavior(QTableWidget.SelectionBehavior.SelectRows)
        table.setTabKeyNavigation(False)
        for row, texts in enumerate(listed):
            for column, text in enumerate(texts):
                item = QTableWidgetItem(text)
                item.setTextAlignment(Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft)
                table.setItem(row, column, item)
        table.setColumnWidth(0, 140)
        table.setColumnWidth(2, 190)
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
        buttons.rejected.connect(self.reject)
        layout = QVBoxLayout(self)
        layout.addWidget(table)
        layout.addWidget(buttons)
