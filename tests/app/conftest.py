"""What the tests of the program share."""

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QCoreApplication, QEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from app.cli import main
from app.look import LIGHT, dress, use_own_font
from app.settings import Preferences
from app.window import Window
from tests.app.driving import Answers


@pytest.fixture(scope="session", autouse=True)
def _clipboard(qapp: QApplication) -> Iterator[None]:
    """Empty the clipboard at the end: without a screen Qt frees it when Python has gone already."""
    yield
    qapp.clipboard().clear()


@pytest.fixture
def started(tmp_path: Path) -> Path:
    """Return the file of a new job, with the trade's own arrangement above a 760 tray."""
    path = tmp_path / "my.json"
    assert main(["start", str(path), "--tray", "760x760", "--entry", "left"]) == 0
    return path


@pytest.fixture
def undressed(qapp: QApplication) -> Iterator[QApplication]:
    """Return the application, which looks afterwards as it did before."""
    palette, font = qapp.palette(), qapp.font()
    yield qapp
    qapp.setStyleSheet("")
    qapp.setPalette(palette)
    qapp.setFont(font)


@pytest.fixture
def dressed(undressed: QApplication) -> QApplication:
    """Return the application in its light look and its own font."""
    use_own_font(undressed)
    dress(undressed, LIGHT)
    return undressed


@pytest.fixture
def answers(monkeypatch: pytest.MonkeyPatch) -> Answers:
    """Return what the user answers to questions; nothing stops and waits."""
    return Answers(monkeypatch)


@pytest.fixture
def open_window(dressed: QApplication, tmp_path: Path, answers: Answers) -> Iterator[Callable[[], Window]]:
    """Return what opens a window on the start page; all have the same folders, which are this test's own."""
    shown: list[Window] = []

    def opened() -> Window:
        preferences = Preferences(tmp_path / "settings.json")
        window = Window(preferences, tmp_path / "recovery", tmp_path / "locks")
        window.show()
        window.activateWindow()
        assert QTest.qWaitForWindowActive(window)
        shown.append(window)
        return window

    yield opened
    answers.unsaved = "discard"
    for window in shown:
        window.close()
        window.deleteLater()
    # without an event loop that runs Qt would keep them, to be dressed again with those of the next test
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete.value)


@pytest.fixture
def window(open_window: Callable[[], Window]) -> Window:
    """Return a window on the start page."""
    return open_window()
