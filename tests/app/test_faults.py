"""A fault of the program itself: the work is kept before anybody is told."""

import sys

import pytest
from PySide6.QtWidgets import QApplication

from app.faults import Faults


def raised(fault: BaseException) -> BaseException:
    try:
        raise fault
    except type(fault) as caught:
        return caught


def test_the_work_is_kept_then_one_sentence_is_said(
    qapp: QApplication, capsys: pytest.CaptureFixture[str]
) -> None:
    happened: list[str] = []
    faults = Faults(lambda: happened.append("kept"))
    faults.told.connect(happened.append)
    fault = raised(ZeroDivisionError("by\nnothing"))
    faults.take(type(fault), fault, fault.__traceback__)
    assert happened[0] == "kept"
    assert "ZeroDivisionError: by nothing" in happened[1]
    assert "\n" not in happened[1]
    assert "Your work is kept" in happened[1]
    assert "Traceback" in capsys.readouterr().err


def test_when_the_work_cannot_be_kept_the_user_is_told_to_save_it(
    qapp: QApplication, capsys: pytest.CaptureFixture[str]
) -> None:
    def fail() -> None:
        raise OSError("no room")

    said: list[str] = []
    faults = Faults(fail)
    faults.told.connect(said.append)
    fault = raised(KeyError("rail"))
    faults.take(type(fault), fault, fault.__traceback__)
    assert "Save the job" in said[0]
    assert capsys.readouterr().err.count("Traceback") == 2


def test_faults_are_watched_while_it_is_wanted(qapp: QApplication, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "excepthook", sys.excepthook)
    before = sys.excepthook
    faults = Faults(lambda: None)
    faults.watch()
    assert sys.excepthook == faults.take
    faults.stop()
    assert sys.excepthook is before


def test_an_interruption_by_the_keyboard_is_no_fault(
    qapp: QApplication, monkeypatch: pytest.MonkeyPatch
) -> None:
    passed_on: list[object] = []
    monkeypatch.setattr(sys, "excepthook", lambda *fault: passed_on.append(fault[0]))
    said: list[str] = []
    faults = Faults(lambda: None)
    faults.told.connect(said.append)
    faults.take(KeyboardInterrupt, KeyboardInterrupt(), None)
    assert (passed_on, said) == ([KeyboardInterrupt], [])
