"""The dialog of the settings, built from their record: a row a setting, with its sentence."""

from collections.abc import Callable, Mapping
from typing import Any

from PySide6.QtCore import QCoreApplication
from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QDialog,
    QDialogButtonBox,
    QFormLayout,
    QLabel,
    QLineEdit,
    QVBoxLayout,
    QWidget,
)

from app.bounds import OneOf
from app.settings import Offered, Preferences, offered
from geometry.units import length, shown


def _said(text: str) -> str:
    return QCoreApplication.translate("Settings", text)


class SettingsDialog(QDialog):
    """Shows the settings and changes them all at once, or none."""

    def __init__(self, preferences: Preferences, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle(self.tr("Settings"))
        self.setMinimumWidth(560)
        self._preferences = preferences
        self._read: dict[str, Callable[[], Any]] = {}
        form = QFormLayout()
        form.setVerticalSpacing(4)
        for setting in offered():
            editor = self._editor(setting)
            editor.setObjectName(setting.name)
            editor.setAccessibleName(_said(setting.shown.label))
            editor.setAccessibleDescription(_said(setting.shown.sentence))
            sentence = QLabel(_said(setting.shown.sentence))
            sentence.setWordWrap(True)
            sentence.setContentsMargins(0, 0, 0, 10)
            form.addRow(_said(setting.shown.label), editor)
            form.addRow("", sentence)
        self._problem = QLabel()
        self._problem.setObjectName("problem")
        self._problem.setWordWrap(True)
        buttons = QDialogButtonBox(
            QDialogButtonBox.StandardButton.Ok | QDialogButtonBox.StandardButton.Cancel
        )
        buttons.accepted.connect(self.accept)
        buttons.rejected.connect(self.reject)
        layout = QVBoxLayout(self)
        layout.addLayout(form)
        layout.addWidget(self._problem)
        layout.addWidget(buttons)

    def accept(self) -> None:
        """Put the settings in force, or say which one cannot be."""
        values = {}
        for name, read in self._read.items():
            try:
                values[name] = read()
            except ValueError as problem:
                self._problem.setText(f"{_label(name)}: {problem}")
                return
        try:
            self._preferences.change(**values)
        except ValueError as problem:
            name, _, rest = str(problem).removeprefix(".").partition(": ")
            self._problem.setText(f"{_label(name)}: {rest}")
            return
        super().accept()

    def _editor(self, setting: Offered) -> QWidget:
        value = getattr(self._preferences.settings, setting.name)
        if isinstance(setting.bound, OneOf):
            return self._choice(setting.name, setting.bound.words, value)
        if isinstance(value, bool):
            tick = QCheckBox(self.tr("On"))
            tick.setChecked(value)
            self._read[setting.name] = tick.isChecked
            return tick
        unit = self._preferences.settings.unit
        line = QLineEdit(shown(value, unit))
        self._read[setting.name] = lambda: length(line.text(), unit)
        return line

    def _choice(self, name: str, words: Mapping[str, str], value: str) -> QComboBox:
        box = QComboBox()
        for key, text in words.items():
            box.addItem(_said(text), key)
        box.setCurrentIndex(box.findData(value))
        self._read[name] = box.currentData
        return box


def _label(name: str) -> str:
    return next((_said(setting.shown.label) for setting in offered() if setting.name == name), name)
