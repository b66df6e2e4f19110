"""The offer of unsaved work: open, compare, discard, or later."""

from pathlib import Path

import pytest
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QListWidget, QPlainTextEdit
from pytestqt.qtbot import QtBot

from app import questions
from app.recovery import Leftover
from app.recovery_dialog import RecoveryDialog
from geometry.jobfile import write_job
from geometry.setting_out.arrangement import suggested_job
from tests.app.driving import LEFT, child

JOB = suggested_job(760, 760, "left", title="Attic bathroom")
MOVED = JOB.moved("rail", 512.0, 1120.0)


def left(folder: Path, name: str, path: Path | None) -> Leftover:
    file = folder / f"{name}.json"
    file.write_bytes(b"kept")
    return Leftover(file, path, 1_780_000_000.0, MOVED)


@pytest.fixture
def saved(tmp_path: Path) -> Path:
    path = tmp_path / "attic.job.json"
    path.write_bytes(write_job(JOB))
    return path


@pytest.fixture
def dialog(qtbot: QtBot, tmp_path: Path, saved: Path) -> RecoveryDialog:
    dialog = RecoveryDialog((left(tmp_path, "one", saved), left(tmp_path, "two", None)))
    qtbot.addWidget(dialog)
    dialog.show()
    return dialog


def names(dialog: RecoveryDialog) -> list[str]:
    rows = child(dialog, QListWidget, "leftovers")
    return [rows.item(row).text() for row in range(rows.count())]


def told(dialog: RecoveryDialog) -> str:
    return child(dialog, QPlainTextEdit, "differences").toPlainText()


def test_each_is_named_by_title_and_file(dialog: RecoveryDialog) -> None:
    first, second = names(dialog)
    assert first.startswith("Attic bathroom (attic.job.json), ")
    assert second.startswith("Attic bathroom (never saved), ")


def test_open_hands_on_the_one_that_is_marked(qtbot: QtBot, dialog: RecoveryDialog) -> None:
    child(dialog, QListWidget, "leftovers").setCurrentRow(1)
    with qtbot.waitSignal(dialog.open_requested) as asked:
        QTest.mouseClick(dialog.open_button, LEFT)
    assert asked.args is not None
    assert asked.args[0].path is None
    assert not dialog.isVisible()


def test_compare_tells_the_differences_in_words(dialog: RecoveryDialog) -> None:
    QTest.mouseClick(dialog.compare_button, LEFT)
    assert told(dialog) == "rail: position from the left was 570 mm, is 512 mm"
    child(dialog, QListWidget, "leftovers").setCurrentRow(1)
    assert told(dialog) == ""
    QTest.mouseClick(dialog.compare_button, LEFT)
    assert "never saved" in told(dialog)


def test_compare_with_a_file_that_is_gone_says_so(dialog: RecoveryDialog, saved: Path) -> None:
    saved.unlink()
    QTest.mouseClick(dialog.compare_button, LEFT)
    assert "gone" in told(dialog)


def test_discard_asks_first(dialog: RecoveryDialog, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(questions, "ask_sure", lambda *_: False)
    QTest.mouseClick(dialog.discard_button, LEFT)
    assert (tmp_path / "one.json").exists()
    assert len(names(dialog)) == 2


def test_discard_deletes_the_one_that_is_marked(
    dialog: RecoveryDialog, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(questions, "ask_sure", lambda *_: True)
    QTest.mouseClick(dialog.discard_button, LEFT)
    assert not (tmp_path / "one.json").exists()
    assert (tmp_path / "two.json").exists()
    assert dialog.isVisible()
    QTest.mouseClick(dialog.discard_button, LEFT)
    assert not (tmp_path / "two.json").exists()
    assert not dialog.isVisible()


def test_later_keeps_everything(dialog: RecoveryDialog, tmp_path: Path) -> None:
    QTest.mouseClick(dialog.later_button, LEFT)
    assert not dialog.isVisible()
    assert (tmp_path / "one.json").exists()
