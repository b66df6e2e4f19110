"""The questions: what is asked, and that each answer is understood as it was meant."""

from collections.abc import Callable
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QFileDialog, QMessageBox, QWidget
from pytestqt.qtbot import QtBot

from app import questions

Asked = list[str]


@pytest.fixture
def parent(qtbot: QtBot) -> QWidget:
    widget = QWidget()
    qtbot.addWidget(widget)
    return widget


@pytest.fixture
def answer(monkeypatch: pytest.MonkeyPatch) -> Callable[[str], Asked]:
    """Return what makes the next boxes be answered by the button with a word; "" closes them by Escape."""
    asked: Asked = []

    def answering(word: str) -> Asked:
        def answered(box: QMessageBox) -> int:
            asked.append(box.text())
            wanted = [each for each in box.buttons() if word and each.text().replace("&", "") == word]
            assert wanted or not word, [each.text() for each in box.buttons()]
            if wanted:
                wanted[0].click()
            else:
                box.show()
                QTest.keyClick(box, Qt.Key.Key_Escape)
            return 0

        monkeypatch.setattr(QMessageBox, "exec", answered)
        return asked

    return answering


@pytest.mark.parametrize(
    ("word", "meant"), [("Save", "save"), ("Discard", "discard"), ("Cancel", "cancel"), ("", "cancel")]
)
def test_unsaved_work_is_saved_discarded_or_kept(
    word: str, meant: str, parent: QWidget, answer: Callable[[str], Asked]
) -> None:
    asked = answer(word)
    assert questions.ask_unsaved(parent, "attic & loft.json") == meant
    assert asked == ["attic & loft.json has changes that are not saved."]


@pytest.mark.parametrize(("word", "meant"), [("Look at it", True), ("Cancel", False), ("", False)])
def test_a_busy_job_is_looked_at_only_if_wanted(
    word: str, meant: bool, parent: QWidget, answer: Callable[[str], Asked]
) -> None:
    answer(word)
    assert questions.ask_look_only(parent, "It is open.") is meant


@pytest.mark.parametrize(
    ("word", "meant"),
    [("Overwrite it", "over"), ("Save as…", "save as"), ("Cancel", "cancel"), ("", "cancel")],
)
def test_a_changed_file_is_overwritten_only_if_said(
    word: str, meant: str, parent: QWidget, answer: Callable[[str], Asked]
) -> None:
    answer(word)
    assert questions.ask_over(parent, "It was changed.") == meant


@pytest.mark.parametrize(("word", "meant"), [("Discard it", True), ("Cancel", False), ("", False)])
def test_nothing_is_lost_without_a_clear_yes(
    word: str, meant: bool, parent: QWidget, answer: Callable[[str], Asked]
) -> None:
    answer(word)
    assert questions.ask_sure(parent, "It is lost.", "Discard it") is meant


def test_a_failure_is_told_in_its_own_words(parent: QWidget, answer: Callable[[str], Asked]) -> None:
    asked = answer("OK")
    questions.tell(parent, "The disk is full.")
    assert asked == ["The disk is full."]


def test_a_file_to_open_is_a_path_or_nothing(parent: QWidget, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_: ("/jobs/attic.json", ""))
    assert questions.ask_file_to_open(parent, "") == Path("/jobs/attic.json")
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_: ("", ""))
    assert questions.ask_file_to_open(parent, "") is None


def test_a_file_to_save_gets_the_ending_of_jobs(
    parent: QWidget, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(tmp_path / "attic"), ""))
    assert questions.ask_file_to_save(parent, "") == tmp_path / "attic.json"
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(tmp_path / "attic.job"), ""))
    assert questions.ask_file_to_save(parent, "") == tmp_path / "attic.job"
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: ("", ""))
    assert questions.ask_file_to_save(parent, "") is None


@pytest.mark.parametrize(("word", "goes_on"), [("Overwrite it", True), ("Cancel", False)])
def test_an_ending_that_was_added_overwrites_nothing_unasked(
    word: str,
    goes_on: bool,
    parent: QWidget,
    monkeypatch: pytest.MonkeyPatch,
    tmp_path: Path,
    answer: Callable[[str], Asked],
) -> None:
    (tmp_path / "attic.json").write_text("")
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(tmp_path / "attic"), ""))
    asked = answer(word)
    assert questions.ask_file_to_save(parent, "") == (tmp_path / "attic.json" if goes_on else None)
    assert asked == ["attic.json is there already."]
