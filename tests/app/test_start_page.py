"""The start page: one press gives a sensible job, and everything on it says what it is."""

from pathlib import Path

import pytest
from PySide6.QtWidgets import QAbstractButton, QApplication, QLabel, QLineEdit, QPushButton, QToolButton
from pytestqt.qtbot import QtBot

from app.look import TARGET
from app.samples import sample_files, sample_name
from app.settings import Settings
from app.start_page import StartPage
from tests.app.driving import child, cut_words, keys, press, write
from tests.samples import SAMPLES


@pytest.fixture
def page(qtbot: QtBot, dressed: QApplication) -> StartPage:
    page = StartPage(Settings())
    qtbot.addWidget(page)
    page.show()
    return page


def started(qtbot: QtBot, page: StartPage) -> list[object]:
    with qtbot.waitSignal(page.start_requested) as told:
        press(page, "start-job")
    return list(told.args or [])


def test_one_press_asks_for_a_usual_job(qtbot: QtBot, page: StartPage) -> None:
    assert started(qtbot, page) == [760.0, 760.0, "left", 760.0, 2400.0]


def test_enter_alone_starts_the_usual_job(qtbot: QtBot, page: StartPage) -> None:
    page.activateWindow()
    focused = page.window().focusWidget()
    assert focused is not None
    with qtbot.waitSignal(page.start_requested):
        keys(focused, "Return")


def test_three_presses_choose_entry_and_size(qtbot: QtBot, page: StartPage) -> None:
    press(page, "entry-front")
    press(page, "size-1200x800")
    # the wall follows the tray until somebody types it
    assert started(qtbot, page) == [1200.0, 800.0, "front", 1200.0, 2400.0]


def test_typed_sizes_may_carry_units_and_sums(qtbot: QtBot, page: StartPage) -> None:
    write(page.tray_width, "90cm")
    write(page.projection, "2*380")
    write(page.wall_width, "1,8 m")
    write(page.tray_width, "80cm")
    write(page.wall_height, "2500")
    assert started(qtbot, page) == [800.0, 760.0, "left", 1800.0, 2500.0]


def test_enter_in_a_size_starts_the_job(qtbot: QtBot, page: StartPage) -> None:
    write(page.wall_height, "2300")
    with qtbot.waitSignal(page.start_requested) as told:
        keys(page.wall_height, "Return")
    assert told.args == [760.0, 760.0, "left", 760.0, 2300.0]


def test_nonsense_is_told_in_one_sentence_and_starts_nothing(qtbot: QtBot, page: StartPage) -> None:
    write(page.projection, "wide")
    with qtbot.assertNotEmitted(page.start_requested):
        press(page, "start-job")
    problem = child(page, QLabel, "problem")
    assert "wide" in problem.text()
    assert page.projection.hasFocus()
    write(page.projection, "700")
    assert problem.text() == ""


def test_a_typed_size_ticks_the_button_that_has_it(qtbot: QtBot, page: StartPage) -> None:
    write(page.tray_width, "800")
    assert not any(
        button.isChecked() for button in page.findChildren(QToolButton) if "size" in button.objectName()
    )
    write(page.projection, "800")
    assert child(page, QToolButton, "size-800x800").isChecked()


def test_lengths_follow_the_unit_and_stay_what_they_are(qtbot: QtBot, page: StartPage) -> None:
    page.show_settings(Settings(unit="cm"))
    assert page.tray_width.text() == "76"
    assert child(page, QToolButton, "size-900x760").text() == "90 × 76"
    assert started(qtbot, page) == [760.0, 760.0, "left", 760.0, 2400.0]


def test_recent_files_are_offered(qtbot: QtBot, page: StartPage, tmp_path: Path) -> None:
    page.show_settings(Settings(recent=(str(tmp_path / "attic.json"), str(tmp_path / "en suite.json"))))
    with qtbot.waitSignal(page.file_chosen) as told:
        press(page, "file-en suite")
    assert told.args == [tmp_path / "en suite.json"]
    page.show_settings(Settings(recent=(str(tmp_path / "attic.json"),)))
    qtbot.waitUntil(lambda: page.findChild(QPushButton, "file-en suite") is None)


def test_every_sample_is_offered(qtbot: QtBot, page: StartPage) -> None:
    assert [path.stem for path in sample_files()] == list(SAMPLES)
    for path in sample_files():
        with qtbot.waitSignal(page.sample_chosen) as told:
            press(page, f"file-{path.stem}")
        assert told.args == [path]
    assert sample_name(Path("bath-stud-wall.json")) == "Bath stud wall"


def test_the_keyboard_alone_reaches_everything(qtbot: QtBot, page: StartPage) -> None:
    wanted = {
        widget
        for widget in page.findChildren(QAbstractButton) + page.findChildren(QLineEdit)
        if widget.isVisible()
    }
    page.activateWindow()
    page.start_button.setFocus()
    reached = set()
    for _ in range(3 * len(wanted)):
        focused = page.window().focusWidget()
        reached.add(focused)
        keys(focused, "Tab")
    unreached = {widget.objectName() for widget in wanted - reached if not isinstance(widget, QToolButton)}
    assert unreached == set()


def test_everything_has_a_name_and_a_size_for_wet_hands(qtbot: QtBot, page: StartPage) -> None:
    for button in page.findChildren(QAbstractButton):
        assert button.text() or button.accessibleName()
    for edit in page.findChildren(QLineEdit):
        assert edit.accessibleName()
    assert page.start_button.height() >= TARGET
    assert cut_words(page) == []
