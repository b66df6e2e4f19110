"""The window: what it shows of the open job, and what it does with files, drops, settings and leftovers."""

from collections.abc import Callable
from pathlib import Path

import pytest
from PySide6.QtCore import QMimeData, QPoint, QPointF, Qt, QUrl
from PySide6.QtGui import QAction, QDragEnterEvent, QDropEvent
from PySide6.QtWidgets import QApplication, QDialog, QLabel
from pytestqt.qtbot import QtBot

from app.actions import ACTIONS
from app.fields import LengthField
from app.recovery import leftovers
from app.recovery_dialog import RecoveryDialog
from app.settings import Settings
from app.window import Window
from geometry.edits.refs import Ref, things
from geometry.jobfile import read_job, write_job
from geometry.setting_out.arrangement import suggested_job
from tests.app.driving import Answers, child, keys, press, write
from tests.app.test_recovery import leave_behind
from tests.samples import SAMPLES, sample_job, sample_path

JOB = suggested_job(760, 760, "left")
RAIL = Ref("fitting", "rail")
Opener = Callable[[], Window]


@pytest.fixture
def file(tmp_path: Path) -> Path:
    path = tmp_path / "bathroom.json"
    path.write_bytes(write_job(JOB))
    return path


def move_rail(window: Window, x: float = 500.0) -> None:
    document = window.open_job.document
    document.edit("Move rail", document.job.moved("rail", x, document.job.fitting("rail").height))


def enabled(window: Window) -> set[str]:
    return {name for name, entry in window.menus.entries.items() if entry.isEnabled()}


def ticked(window: Window) -> set[str]:
    return {name for name, entry in window.menus.entries.items() if entry.isChecked()}


def dropped(window: Window, *paths: Path) -> bool:
    """Drag files over the window and drop them if it takes them."""
    data = QMimeData()
    data.setUrls([QUrl.fromLocalFile(str(path)) for path in paths])
    held = Qt.KeyboardModifier.NoModifier
    copy, left = Qt.DropAction.CopyAction, Qt.MouseButton.LeftButton
    enter = QDragEnterEvent(QPoint(50, 50), copy, data, left, held)
    enter.setAccepted(False)
    QApplication.sendEvent(window, enter)
    if enter.isAccepted():
        QApplication.sendEvent(window, QDropEvent(QPointF(50, 50), copy, data, left, held))
    return enter.isAccepted()


def test_the_first_page_offers_a_start_and_nothing_that_wants_a_job(window: Window) -> None:
    assert not window.has_job
    assert window.windowTitle() == "Chasewright"
    assert enabled(window) == {action.id for action in ACTIONS if not action.needs}


def test_one_press_sets_out_a_job_that_is_checked_at_once(window: Window) -> None:
    press(window.start, "start-job")
    assert window.has_job
    assert window.open_job.document.job == JOB
    assert window.bench.strip.count("clash") == 0
    assert window.bench.strip.count("clear") > 0
    assert window.windowTitle() == "Concealed shower[*] – Chasewright"
    assert not window.isWindowModified()


def test_sizes_that_do_not_fit_are_told_on_the_page(window: Window) -> None:
    window.start.wall_width.setText("700")
    press(window.start, "start-job")
    assert not window.has_job
    assert "wider than the wall" in child(window.start, QLabel, "problem").text()


@pytest.mark.parametrize("sample", SAMPLES)
def test_every_sample_opens_as_a_job_of_ones_own(sample: str, window: Window) -> None:
    window.open_sample(sample_path(sample))
    assert window.open_job.document.job == sample_job(sample)
    assert window.open_job.document.path is None


def test_the_title_has_the_file_and_a_mark_while_it_is_not_saved(window: Window, file: Path) -> None:
    window.open_file(file)
    assert window.windowTitle() == "bathroom.json[*] – Chasewright"
    assert not window.isWindowModified()
    move_rail(window)
    assert window.isWindowModified()
    window.undo()
    assert not window.isWindowModified()
    window.redo()
    keys(window.bench.canvas, "Ctrl+S")
    assert not window.isWindowModified()
    assert read_job(file.read_bytes()) == window.open_job.document.job


def test_undo_and_redo_say_what_they_do(window: Window, file: Path) -> None:
    window.open_file(file)
    assert not {"undo", "redo"} & enabled(window)
    move_rail(window)
    assert window.menus.entries["undo"].text() == "&Undo Move rail"
    keys(window.bench.canvas, "Ctrl+Z")
    assert window.open_job.document.job == JOB
    assert window.menus.entries["redo"].text() == "&Redo Move rail"
    assert window.menus.entries["undo"].text() == "&Undo"
    assert {"undo", "redo"} & enabled(window) == {"redo"}


def test_undo_during_a_gesture_gives_the_gesture_up_first(window: Window, file: Path) -> None:
    window.open_file(file)
    move_rail(window)
    document = window.open_job.document
    document.preview(JOB.moved("valve", 300.0, 900.0))
    window.undo()
    assert document.job == JOB


def test_what_can_be_done_follows_what_is_chosen(window: Window, file: Path) -> None:
    window.open_file(file)
    choosing = {"duplicate", "remove", "plumb", "spread-across"}
    assert choosing & enabled(window) == set()
    window.open_job.selection.choose([RAIL])
    assert choosing & enabled(window) == {"duplicate", "remove"}
    window.open_job.selection.choose(list(things(JOB))[:2])
    assert choosing & enabled(window) == {"duplicate", "remove", "plumb"}
    window.open_job.selection.choose(list(things(JOB))[:3])
    assert choosing & enabled(window) == choosing


def test_every_action_finds_what_does_it(window: Window, file: Path) -> None:
    window.open_file(file)
    for action in ACTIONS:
        found: object = window
        for name in action.handler.split("."):
            found = getattr(found, name)
        assert callable(found), action.id


def test_view_choices_are_no_history(window: Window, file: Path) -> None:
    window.open_file(file)
    assert {"measure", "stage-all"} <= ticked(window)
    for shortcut in ("Alt+1", "Ctrl++", "Ctrl+-", "Ctrl+0", "Ctrl+U", "Ctrl+Shift+D", "Ctrl+Shift+N"):
        keys(window.bench.canvas, shortcut)
    assert "stage-cut" in ticked(window)
    assert "stage-all" not in ticked(window)
    assert window.bench.canvas.stage == "cut"
    assert window.preferences.settings == Settings(
        unit="cm",
        theme="dark",
        snapping=False,
        recent=(str(file),),
        last_folder=str(file.parent),
    )
    assert not window.isWindowModified()
    assert not window.open_job.document.history.can_undo()


def test_dark_and_light_reach_everything(window: Window, file: Path) -> None:
    window.open_file(file)
    light = window.grab().toImage().pixelColor(5, 5).lightness()
    window.preferences.change(theme="dark")
    assert window.grab().toImage().pixelColor(5, 5).lightness() < 60 < light
    assert window.bench.canvas.theme.name == "dark"
    window.preferences.change(theme="light")
    assert window.bench.canvas.theme.name == "light"


def test_a_dropped_job_file_is_opened(window: Window, file: Path) -> None:
    assert dropped(window, file)
    assert window.open_job.document.path == file


@pytest.mark.parametrize("names", [("notes.txt",), ("bathroom.json", "bathroom.json"), ()])
def test_other_drops_are_not_taken(names: tuple[str, ...], window: Window, tmp_path: Path) -> None:
    assert not dropped(window, *(tmp_path / name for name in names))


def test_a_dropped_file_that_is_no_job_is_told(window: Window, file: Path, answers: Answers) -> None:
    file.write_text("{}")
    assert dropped(window, file)
    assert not window.has_job
    assert len(answers.told) == 1


def test_recent_files_are_in_the_menu(window: Window, file: Path) -> None:
    window.open_file(file)
    (entry,) = window.menus.submenus["recent"].actions()
    assert entry.text() == "bathroom.json"
    window.open_sample(sample_path("alcove-760"))
    entry.trigger()
    assert window.open_job.document.path == file
    samples: list[QAction] = window.menus.submenus["samples"].actions()
    assert len(samples) == len(SAMPLES)


def test_a_new_job_goes_through_the_start_page_and_asks_first(
    window: Window, file: Path, answers: Answers
) -> None:
    window.open_file(file)
    move_rail(window)
    keys(window.bench.canvas, "Ctrl+N")
    assert not window.has_job
    press(window.start, "start-job")
    assert answers.asked == ["bathroom.json"]
    assert window.open_job.document.path == file
    answers.unsaved = "discard"
    press(window.start, "start-job")
    assert window.has_job
    assert window.open_job.document.path is None


def test_closing_asks_about_unsaved_work(window: Window, file: Path, answers: Answers) -> None:
    window.open_file(file)
    move_rail(window)
    assert not window.close()
    assert window.isVisible()
    answers.unsaved = "save"
    assert window.close()
    assert read_job(file.read_bytes()) == window.open_job.document.job


def test_a_clean_close_leaves_no_copy_and_no_hold_on_the_file(
    window: Window, file: Path, answers: Answers, open_window: Opener, tmp_path: Path
) -> None:
    window.open_file(file)
    move_rail(window)
    window.keep_work()
    assert any((tmp_path / "recovery").iterdir())
    answers.unsaved = "discard"
    assert window.close()
    assert list((tmp_path / "recovery").iterdir()) == []
    second = open_window()
    second.open_file(file)
    assert second.open_job.store.look_only is False


def test_the_size_of_the_window_is_remembered(
    window: Window, file: Path, open_window: Opener, tmp_path: Path
) -> None:
    window.open_file(file)
    window.resize(1100, 700)
    window.close()
    second = open_window()
    assert (second.width(), second.height()) == (1100, 700)


def test_a_job_of_another_window_says_that_it_is_looked_at_only(
    window: Window, file: Path, answers: Answers, open_window: Opener, tmp_path: Path
) -> None:
    window.open_file(file)
    second = open_window()
    answers.look_only = True
    second.open_file(file)
    assert second.windowTitle() == "bathroom.json (look only)[*] – Chasewright"


def test_losing_the_focus_keeps_the_work(window: Window, file: Path, qtbot: QtBot, tmp_path: Path) -> None:
    window.open_file(file)
    move_rail(window)
    other = QDialog()
    qtbot.addWidget(other)
    other.show()
    other.activateWindow()
    qtbot.waitUntil(lambda: (tmp_path / "recovery").is_dir() and any((tmp_path / "recovery").iterdir()))


def test_unsaved_work_of_a_dead_window_is_offered_and_opened(
    window: Window, file: Path, tmp_path: Path
) -> None:
    leave_behind(tmp_path / "recovery", file)
    window.begin(None)
    dialog = child(window, RecoveryDialog)
    assert dialog.isVisible()
    dialog.open_button.click()
    assert window.has_job
    # the rail of the one that was left behind stands at 444
    assert window.open_job.document.job.fitting("rail").x == 444
    assert window.open_job.document.path == file
    assert window.isWindowModified()
    assert leftovers(tmp_path / "recovery") == ()
    keys(window.bench.canvas, "Ctrl+S")
    assert read_job(file.read_bytes()).fitting("rail").x == 444


def test_with_a_file_it_is_opened_first_and_the_leftover_offered_over_it(
    window: Window, file: Path, tmp_path: Path
) -> None:
    leave_behind(tmp_path / "recovery", file)
    window.wait_for(file)
    window.begin(file)
    assert window.open_job.document.job == JOB
    dialog = child(window, RecoveryDialog)
    dialog.later_button.click()
    assert len(leftovers(tmp_path / "recovery")) == 1


def test_a_file_that_cannot_be_opened_at_the_start_leads_to_the_start_page(
    window: Window, tmp_path: Path, answers: Answers
) -> None:
    window.wait_for(tmp_path / "gone.json")
    window.begin(tmp_path / "gone.json")
    assert len(answers.told) == 1
    assert window.start.isVisible()


def test_what_is_being_typed_is_saved_with_the_rest(window: Window, file: Path) -> None:
    window.open_file(file)
    field = next(f for f in window.bench.panels.findChildren(LengthField) if f.label == "Width")
    field.line.setFocus()
    write(field.line, "950")
    keys(field.line, "Ctrl+S")
    assert read_job(file.read_bytes()).wall.width == 950


@pytest.mark.parametrize(("shortcut", "title"), [("F1", "Shortcuts"), ("Ctrl+,", "Settings")])
def test_settings_and_shortcuts_are_shown_without_stopping_the_program(
    shortcut: str, title: str, window: Window
) -> None:
    keys(window, shortcut)
    assert [d.windowTitle() for d in window.findChildren(QDialog) if d.isVisible()] == [title]
