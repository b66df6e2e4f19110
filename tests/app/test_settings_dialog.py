"""The dialog of the settings: all of them or none."""

from pathlib import Path

import pytest
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QCheckBox, QComboBox, QDialog, QDialogButtonBox, QLabel, QLineEdit
from pytestqt.qtbot import QtBot

from app.settings import Preferences, Settings, offered
from app.settings_dialog import SettingsDialog
from tests.app.driving import LEFT, child, write


@pytest.fixture
def preferences(tmp_path: Path) -> Preferences:
    return Preferences(tmp_path / "settings.json")


@pytest.fixture
def dialog(qtbot: QtBot, preferences: Preferences) -> SettingsDialog:
    dialog = SettingsDialog(preferences)
    qtbot.addWidget(dialog)
    dialog.show()
    return dialog


def answer(dialog: SettingsDialog, button: QDialogButtonBox.StandardButton) -> None:
    QTest.mouseClick(child(dialog, QDialogButtonBox).button(button), LEFT)


def test_every_setting_is_offered_with_its_sentence(dialog: SettingsDialog) -> None:
    said = [label.text() for label in dialog.findChildren(QLabel)]
    for setting in offered():
        assert setting.shown.label in said
        assert setting.shown.sentence in said


def test_ok_puts_all_in_force_and_keeps_them(dialog: SettingsDialog, preferences: Preferences) -> None:
    unit, theme = child(dialog, QComboBox, "unit"), child(dialog, QComboBox, "theme")
    unit.setCurrentIndex(unit.findData("in"))
    theme.setCurrentIndex(theme.findData("dark"))
    child(dialog, QCheckBox, "snapping").click()
    write(child(dialog, QLineEdit, "nudge"), "0.5cm")
    answer(dialog, QDialogButtonBox.StandardButton.Ok)
    wanted = Settings(unit="in", theme="dark", snapping=False, nudge=5.0)
    assert preferences.settings == wanted
    assert Preferences(preferences.file).settings == wanted
    assert dialog.result() == QDialog.DialogCode.Accepted


def test_cancel_changes_nothing(dialog: SettingsDialog, preferences: Preferences) -> None:
    write(child(dialog, QLineEdit, "nudge"), "5")
    answer(dialog, QDialogButtonBox.StandardButton.Cancel)
    assert preferences.settings == Settings()


@pytest.mark.parametrize("typed", ["far", "0", "501", ""])
def test_a_value_that_cannot_be_is_told_and_changes_nothing(
    typed: str, dialog: SettingsDialog, preferences: Preferences
) -> None:
    child(dialog, QCheckBox, "snapping").click()
    nudge = child(dialog, QLineEdit, "nudge_far")
    nudge.clear()
    write(nudge, typed)
    answer(dialog, QDialogButtonBox.StandardButton.Ok)
    assert child(dialog, QLabel, "problem").text().startswith("Step with Shift: ")
    assert preferences.settings == Settings()
    assert dialog.isVisible()


def test_steps_are_shown_in_the_unit_that_is_set(qtbot: QtBot, preferences: Preferences) -> None:
    preferences.change(unit="cm")
    dialog = SettingsDialog(preferences)
    qtbot.addWidget(dialog)
    assert child(dialog, QLineEdit, "nudge_far").text() == "1 cm"
    answer(dialog, QDialogButtonBox.StandardButton.Ok)
    assert preferences.settings == Settings(unit="cm")


def test_steps_that_were_not_touched_stay_exact_in_inches(qtbot: QtBot, preferences: Preferences) -> None:
    # 0.1 mm is nearer to 0 than to 1/16 in
    preferences.change(unit="in")
    dialog = SettingsDialog(preferences)
    qtbot.addWidget(dialog)
    write(child(dialog, QLineEdit, "nudge_far"), '1/2"')
    answer(dialog, QDialogButtonBox.StandardButton.Ok)
    assert preferences.settings == Settings(unit="in", nudge_far=12.7)
