"""A photograph behind the wall: chosen or dropped, its points marked, kept beside the job, or refused."""

from pathlib import Path

import pytest
from PySide6.QtCore import QMimeData, QPointF, Qt, QUrl
from PySide6.QtGui import QColor, QDragEnterEvent, QDropEvent, QImage, QPainter
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QDialogButtonBox

from app import questions
from app.panels.photo_box import PhotoBox
from app.panels.photo_dialog import PhotoDialog
from app.panels.section import Section
from app.window import Window
from geometry.model import XY
from tests.app.driving import Answers, child, keys
from tests.app.panels.desk import choose, key, press, type_into
from tests.samples import sample_job, sample_path

LEFT, NONE = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier
NAME = "alcove-760"
WALL = sample_job(NAME).wall


@pytest.fixture
def working(window: Window, answers: Answers, tmp_path: Path) -> Window:
    """A window in which a job is open that has a file."""
    answers.file = tmp_path / "wall.json"
    window.open_sample(sample_path(NAME))
    assert window.filing.save_as()
    return window


@pytest.fixture
def picture(tmp_path: Path) -> Path:
    """A photograph of 800 x 600: blue left of its middle, red right of it."""
    image = QImage(800, 600, QImage.Format.Format_RGB32)
    image.fill(QColor(0, 0, 255))
    painter = QPainter(image)
    painter.fillRect(400, 0, 400, 600, QColor(255, 0, 0))
    painter.end()
    path = tmp_path / "bare.png"
    assert image.save(str(path))
    return path


def drop(window: Window, path: Path) -> None:
    """Drag a file over the wall and drop it there."""
    canvas, data = window.bench.canvas, QMimeData()
    data.setUrls([QUrl.fromLocalFile(str(path))])
    at, copy = canvas.rect().center(), Qt.DropAction.CopyAction
    enter = QDragEnterEvent(at, copy, data, LEFT, NONE)
    enter.setAccepted(False)
    QApplication.sendEvent(canvas, enter)
    assert enter.isAccepted()
    QApplication.sendEvent(canvas, QDropEvent(QPointF(at), copy, data, LEFT, NONE))


def dialog_of(window: Window) -> PhotoDialog:
    return child(window, PhotoDialog)


def accept(dialog: PhotoDialog) -> None:
    button = child(dialog, QDialogButtonBox).button(QDialogButtonBox.StandardButton.Ok)
    assert button.isEnabled()
    QTest.mouseClick(button, LEFT)


def drag_mark(dialog: PhotoDialog, number: int, to: XY) -> None:
    marks = dialog.marks
    start, end = marks.seen_at(marks.marks[number]).toPoint(), marks.seen_at(to).toPoint()
    QTest.mousePress(marks, LEFT, NONE, start)
    QTest.mouseMove(marks, end)
    QTest.mouseRelease(marks, LEFT, NONE, end)


def lay(window: Window, picture: Path) -> None:
    """Drop the photograph, with its own corners on those of the wall."""
    drop(window, picture)
    dialog = dialog_of(window)
    for number, corner in enumerate(((0, 600), (800, 600), (800, 0), (0, 0))):
        drag_mark(dialog, number, corner)
    accept(dialog)


def colour_at(window: Window, at: XY) -> QColor:
    canvas = window.bench.canvas
    x, y = canvas.view.to_screen(at)
    return QColor(canvas.grab().toImage().pixel(round(x), round(y)))


def test_a_dropped_photograph_lies_to_scale_behind_the_drawing(working: Window, picture: Path) -> None:
    working.bench.show_stage("cut")
    lay(working, picture)
    # the middle of the picture is the middle of the wall; 100 beside it the colours are pure
    high = WALL.height - 60.0
    left, right = (colour_at(working, (WALL.width / 2 + off, high)) for off in (-100.0, 100.0))
    assert left.blue() > left.red() + 100
    assert right.red() > right.blue() + 100


def test_it_is_kept_beside_the_job_and_found_again(working: Window, picture: Path, tmp_path: Path) -> None:
    lay(working, picture)
    assert (tmp_path / "wall.photo.jpg").is_file()
    held = working.open_job.document.photo
    assert held is not None
    working.open_job.store.start(sample_job(NAME))
    assert working.open_job.document.photo is None
    assert (tmp_path / "wall.photo.jpg").is_file()  # starting another job takes nothing away
    working.open_file(tmp_path / "wall.json")
    again = working.open_job.document.photo
    assert again is not None
    assert again.backdrop == held.backdrop
    assert working.open_job.document.is_saved


def test_the_strength_is_changed_and_the_photograph_removed(
    working: Window, picture: Path, tmp_path: Path
) -> None:
    lay(working, picture)
    box = child(working, PhotoBox)
    next(s for s in working.findChildren(Section) if box in s.findChildren(PhotoBox)).open(True)
    box.slider.setFocus()
    key(box.slider, Qt.Key.Key_Home)
    photo = working.open_job.document.photo
    assert photo is not None
    assert photo.backdrop.strength == 0
    working.bench.show_stage("cut")
    bare = colour_at(working, (WALL.width / 2 + 100.0, WALL.height - 60.0))
    assert bare.name() == working.bench.canvas.theme.wall
    assert '"strength": 0.0' in (tmp_path / "wall.photo.json").read_text()
    press(box.remover)
    assert working.open_job.document.photo is None
    assert list(tmp_path.glob("wall.photo.*")) == []
    assert not box.remover.isVisible()


def test_a_job_without_a_file_keeps_it_once_it_is_saved(
    window: Window, answers: Answers, picture: Path, tmp_path: Path
) -> None:
    window.open_sample(sample_path(NAME))
    assert window.open_job.document.is_saved
    lay(window, picture)
    assert not window.open_job.document.is_saved  # so that it is not lost unasked
    answers.file = tmp_path / "new.json"
    keys(window.bench.canvas, "Ctrl+S")
    assert (tmp_path / "new.photo.jpg").is_file()
    assert window.open_job.document.is_saved


def test_points_are_chosen_typed_and_nudged_by_the_keyboard(working: Window, picture: Path) -> None:
    drop(working, picture)
    dialog = dialog_of(working)
    upper_right = (WALL.width, WALL.height)
    choose(dialog.known[2], upper_right)  # it is that corner already; the choice knows it by its place
    type_into(dialog.places[2][0], "700")
    assert dialog.known[2].value == (700.0, WALL.height)
    assert dialog.marks.held == 2
    dialog.marks.setFocus()
    key(dialog.marks, Qt.Key.Key_1)
    key(dialog.marks, Qt.Key.Key_Right)
    key(dialog.marks, Qt.Key.Key_Up, Qt.KeyboardModifier.ShiftModifier)
    # from 15 % within the lower left corner, 120 and 510
    assert dialog.marks.marks[0] == (121, 500)
    assert "Mark 1 at 121, 500 pixels" in dialog.marks.accessibleDescription()
    accept(dialog)
    photo = working.open_job.document.photo
    assert photo is not None
    assert photo.backdrop.wall[2] == (700.0, WALL.height)
    assert photo.backdrop.picture[0] == (121, 500)


def test_points_that_cannot_lie_so_are_told_and_not_taken(working: Window, picture: Path) -> None:
    drop(working, picture)
    dialog = dialog_of(working)
    choose(dialog.known[1], (0.0, 0.0))  # both lower marks on one corner
    button = child(dialog, QDialogButtonBox).button(QDialogButtonBox.StandardButton.Ok)
    assert not button.isEnabled()
    assert "one line" in dialog.problem.text()
    dialog.reject()
    assert working.open_job.document.photo is None


@pytest.mark.no_qt_log  # what the decoder says of a broken file is not a fault of ours
def test_a_hostile_file_is_one_clear_line(working: Window, tmp_path: Path) -> None:
    evil = tmp_path / "evil.png"
    evil.write_bytes(b"\x89PNG\r\n\x1a\n" + bytes(500))
    drop(working, evil)
    assert working.bench.strip.words == "evil.png: broken or cut short: it cannot be read whole."


@pytest.mark.no_qt_log
def test_a_broken_photograph_beside_a_job_does_not_keep_it_from_opening(
    working: Window, picture: Path, tmp_path: Path
) -> None:
    lay(working, picture)
    (tmp_path / "wall.photo.json").write_text("{")
    working.open_file(tmp_path / "wall.json")
    assert working.has_job
    assert working.open_job.document.photo is None
    assert working.bench.strip.words.startswith("The photograph of the wall is not shown: wall.photo.json: ")


def test_a_photograph_is_chosen_from_a_file(
    working: Window, picture: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(questions, "ask_photograph", lambda *_: picture)
    box = child(working, PhotoBox)
    box.chooser.click()
    accept(dialog_of(working))
    assert working.open_job.document.photo is not None
