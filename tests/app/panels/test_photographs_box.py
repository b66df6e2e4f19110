"""Photographs of the record: chosen from files, copied beside the job, described, missed in a sentence."""

from collections.abc import Callable
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from app import questions
from app.panels.mark import MarkPanel
from app.panels.photographs_box import PhotographsBox
from app.panels.pipe import PipePanel
from app.panels.section import Section
from geometry.model import Photograph, Pipework
from tests.app.panels.desk import Desk, key, keys, press
from tests.export.photographs import photograph

Show = Callable[[QWidget], None]
Choose = Callable[..., None]


@pytest.fixture
def folder(desk: Desk, tmp_path: Path) -> Path:
    """The folder of the job, which has a file, and beside it one with photographs."""
    inner, other = tmp_path / "job", tmp_path / "camera"
    for made in (inner, other):
        made.mkdir()
    desk.document.saved_as(inner / "wall.json")
    (inner / "riser.jpg").write_bytes(photograph(64, 48))
    (other / "riser.jpg").write_bytes(photograph(48, 64))
    (other / "valve.png").write_bytes(photograph(64, 48, kind="PNG"))
    (other / "notes.txt").write_text("no picture")
    return inner


@pytest.fixture
def box(desk: Desk, shown: Show) -> PhotographsBox:
    panel = PipePanel(*desk)
    shown(panel)
    for section in panel.findChildren(Section):
        section.open(section.title == "Photographs before closing")
    QApplication.processEvents()
    return panel.photographs


@pytest.fixture
def choose(monkeypatch: pytest.MonkeyPatch, box: PhotographsBox) -> Choose:
    """Press the button and choose these files."""

    def chosen(*files: Path) -> None:
        monkeypatch.setattr(questions, "ask_photographs", lambda *_: files)
        press(box.chooser)

    return chosen


def files_of(desk: Desk) -> list[str]:
    return [one.file for one in desk.job.pipework.photographs]


def test_what_lies_beside_the_job_is_named_where_it_lies(choose: Choose, desk: Desk, folder: Path) -> None:
    choose(folder / "riser.jpg")
    assert files_of(desk) == ["riser.jpg"]
    assert sorted(path.name for path in folder.iterdir()) == ["riser.jpg"]


def test_others_are_copied_there_in_one_step_and_the_first_is_described(
    choose: Choose, desk: Desk, folder: Path
) -> None:
    other = folder.parent / "camera"
    choose(other / "valve.png", other / "riser.jpg")
    assert files_of(desk) == ["valve.png", "riser 2.jpg"]  # riser.jpg is another picture's name
    for name, copy in (("valve.png", "valve.png"), ("riser.jpg", "riser 2.jpg")):
        assert (folder / copy).read_bytes() == (other / name).read_bytes()
    focused = QApplication.focusWidget()
    assert focused is not None
    keys(focused, "valve, before boarding")
    key(focused, Qt.Key.Key_Return)
    assert desk.job.pipework.photographs[0].shows == "valve, before boarding"
    desk.document.history.undo()
    desk.document.history.undo()
    assert files_of(desk) == []


def test_chosen_again_it_is_neither_copied_nor_listed_twice(choose: Choose, desk: Desk, folder: Path) -> None:
    other = folder.parent / "camera"
    for _ in range(2):
        choose(other / "riser.jpg")
    assert files_of(desk) == ["riser 2.jpg"]
    assert sorted(path.name for path in folder.iterdir()) == ["riser 2.jpg", "riser.jpg"]


def test_what_is_no_picture_is_refused_and_the_others_are_taken(
    choose: Choose, box: PhotographsBox, desk: Desk, folder: Path
) -> None:
    other = folder.parent / "camera"
    choose(other / "notes.txt", other / "lost.jpg", other / "valve.png")
    assert box.problem.text() == "notes.txt: Neither JPEG nor PNG.\nlost.jpg: Not found."
    assert files_of(desk) == ["valve.png"]
    assert not (folder / "notes.txt").exists()


def test_a_job_without_a_file_is_to_be_saved_first(choose: Choose, box: PhotographsBox, desk: Desk) -> None:
    choose(Path("never asked for.jpg"))
    assert box.problem.text() == "Save the job first: its photographs are kept beside its file."
    assert files_of(desk) == []


def test_making_the_sheets_tells_what_the_record_lacks(
    desk: Desk, shown: Show, folder: Path, qtbot: QtBot
) -> None:
    held = Pipework(photographs=(Photograph(file="riser.jpg"), Photograph(file="lost.jpg")))
    desk.document.edit("Photographs", desk.job.but(pipework=held))
    desk.preferences.change(sheets=("as-fitted",))
    panel = MarkPanel(*desk)
    shown(panel)
    press(panel.make)
    qtbot.waitUntil(lambda: not panel.is_busy, timeout=10_000)
    assert panel.result.text().endswith("Photographs not shown in the record: lost.jpg (not found).")
