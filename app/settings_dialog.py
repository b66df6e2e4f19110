"""The dialog of the settings, built from their record: a row a setting, with its sentence."""

from collections.abc import Callable, Mapping
from typing import Any

from PySide6.QtCore import QCoreApplication
from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QDialog,
    QDialogButtonBox,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QVBoxLayout,
    QWidget,
)

from app.bounds import OneOf
from app.panels.choice_fields import ChoiceBox
from app.panels.sentence import bold
from app.settings import Offered, Preferences, offered
from geometry.units import length, shown


def _said(text: str) -> str:
    return QCoreApplication.translate("Settings", text)


class SettingsDialog(QDialog):
    """Shows the settings and changes them all at once, or none."""

    def __init__(self, preferences: Preferences, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle(self.tr("Settings"))
        self._preferences = preferences
        self._read: dict[str, Callable[[], Any]] = {}
        page = QVBoxLayout(self)
        for setting in offered():
            page.addLayout(self._row(setting))
            page.addWidget(QLabel(_said(setting.shown.sentence)))
            page.addSpacing(8)
        self._problem = QLabel()
        self._problem.setObjectName("problem")
        page.addWidget(self._problem)
        buttons = QDialogButtonBox(
            QDialogButtonBox.StandardButton.Ok | QDialogButtonBox.StandardButton.Cancel
        )
        buttons.accepted.connect(self.accept)
        buttons.rejected.connect(self.reject)
        page.addWidget(buttons)

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

    def _row(self, setting: Offered) -> QHBoxLayout:
        name, editor = _said(setting.shown.label), self._editor(setting)
        editor.setObjectName(setting.name)
        editor.setAccessibleName(name)
        editor.setAccessibleDescription(_said(setting.shown.sentence))
        label = QLabel(name)
        label.setFont(bold(label.font()))
        label.setBuddy(editor)
        row = QHBoxLayout()
        row.addWidget(label, 1)
        row.addWidget(editor, 1)
        return row

    def _editor(self, setting: Offered) -> QWidget:
        value = getattr(self._preferences.settings, setting.name)
        if isinstance(setting.bound, OneOf):
            return self._choice(setting.name, setting.bound.words, value)
        if isinstance(value, bool):
            tick = QCheckBox(self.tr("On"))
            tick.setChecked(value)
            self._read[setting.name] = tick.isChecked
            return tick
        return self._length(setting.name, value)

    def _length(self, name: str, value: float) -> QLineEdit:
        unit = self._preferences.settings.unit
        text = shown(value, unit) + ("" if unit == "in" else f" {unit}")
        line = QLineEdit(text)
        # what was not touched stays exact: a tenth of a millimetre is shown as 0 inches
        self._read[name] = lambda: value if line.text() == text else length(line.text(), unit)
        return line

    def _choice(self, name: str, words: Mapping[str, str], value: str) -> QComboBox:
        box = ChoiceBox()
        for key, text in words.items():
            box.addItem(_said(text), key)
        box.setCurrentIndex(box.findData(value))
        self._read[name] = box.currentData
        return box


def _label(name: str) -> str:
    return next((_said(setting.shown.label) for setting in offered() if setting.name == name), name)
