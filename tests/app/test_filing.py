"""Opening and saving with the questions that people are asked."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from app.document import Document
from app.filing import Filing, stand_in
from app.recovery import Leftover
from app.settings import Preferences
from app.store import Store
from geometry.jobfile import read_job, write_job
from geometry.model import Job
from geometry.parts.catalogue import generic_parts
from geometry.rules import standard_rules
from geometry.setting_out.arrangement import suggested_job
from tests.app.driving import Answers
from tests.samples import sample_job, sample_path

OTHER = suggested_job(1200, 800, "right", title="Attic & en suite")


@pytest.fixture
def filing(qtbot: QtBot, tmp_path: Path, answers: Answers) -> Iterator[Filing]:
    window = QWidget()
    qtbot.addWidget(window)
    filing = a_filing(window, tmp_path)
    yield filing
    filing.store.close()


def a_filing(window: QWidget, tmp_path: Path) -> Filing:
    document = Document(stand_in(), generic_parts(), standard_rules(), window)
    store = Store(document, tmp_path / "locks")
    return Filing(store, Preferences(tmp_path / "settings.json", window), window)


@pytest.fixture
def file(tmp_path: Path) -> Path:
    path = tmp_path / "bathroom.json"
    path.write_bytes(write_job(OTHER))
    return path


def edited(filing: Filing, x: float = 500.0) -> Job:
    document = filing.store.document
    rail = document.job.fitting("rail")
    document.edit("Move rail", document.job.moved("rail", x, rail.height))
    return document.job


def test_a_new_job_is_set_out_and_needs_no_saving_yet(filing: Filing) -> None:
    assert filing.start(760.0, 760.0, "left", 900.0, 2400.0) is None
    assert filing.store.document.job == suggested_job(760, 760, "left", 900, 2400)
    assert filing.store.document.is_saved
    assert filing.may_leave()


def test_sizes_that_cannot_be_are_told_and_change_nothing(filing: Filing) -> None:
    before = filing.store.document.job
    problem = filing.start(760.0, 760.0, "left", 700.0, 2400.0)
    assert problem is not None
    assert "wider than the wall" in problem
    assert filing.store.document.job == before


def test_an_opened_file_is_remembered(filing: Filing, file: Path, qtbot: QtBot) -> None:
    with qtbot.waitSignal(filing.opened):
        assert filing.open(file)
    assert filing.preferences.settings.recent == (str(file),)
    assert filing.preferences.settings.last_folder == str(file.parent)
    assert filing.name == "bathroom.json"


def test_a_sample_is_opened_as_a_job_of_ones_own(filing: Filing) -> None:
    assert filing.open_sample(sample_path("alcove-760"))
    assert filing.store.document.job == sample_job("alcove-760")
    assert filing.store.path is None
    assert filing.preferences.settings.recent == ()


def test_a_file_that_cannot_be_opened_is_told_in_one_sentence(
    filing: Filing, file: Path, answers: Answers
) -> None:
    file.write_bytes(b"{}")
    assert not filing.open(file)
    (sentence,) = answers.told
    assert "bathroom.json" in sentence
    assert "\n" not in sentence


def test_a_file_that_is_gone_is_recent_no_more(filing: Filing, file: Path, answers: Answers) -> None:
    filing.open(file)
    file.unlink()
    assert not filing.open(file)
    assert filing.preferences.settings.recent == ()


def test_unsaved_work_is_asked_about_before_it_is_left(filing: Filing, file: Path, answers: Answers) -> None:
    filing.open(file)
    job = edited(filing)
    assert not filing.start(760.0, 760.0, "left", 760.0, 2400.0)
    assert answers.asked == ["bathroom.json"]
    assert filing.store.document.job == job
    answers.unsaved = "save"
    assert filing.open_sample(sample_path("alcove-760"))
    assert read_job(file.read_bytes()) == job


def test_discarded_work_is_gone_and_the_file_stays(filing: Filing, file: Path, answers: Answers) -> None:
    filing.open(file)
    edited(filing)
    answers.unsaved = "discard"
    assert filing.open_sample(sample_path("alcove-760"))
    assert read_job(file.read_bytes()) == OTHER


def test_work_is_not_left_when_saving_it_is_given_up(filing: Filing, answers: Answers) -> None:
    filing.start(760.0, 760.0, "left", 760.0, 2400.0)
    job = edited(filing)
    answers.unsaved, answers.file = "save", None
    assert not filing.open_sample(sample_path("alcove-760"))
    assert filing.store.document.job == job


def test_the_first_save_asks_for_a_file_and_suggests_a_name(
    filing: Filing, tmp_path: Path, answers: Answers
) -> None:
    filing.store.start(OTHER)
    answers.file = tmp_path / "attic.json"
    assert filing.save()
    assert answers.asked == ["attic-en-suite.json"]
    assert read_job((tmp_path / "attic.json").read_bytes()) == OTHER
    assert filing.preferences.settings.recent == (str(tmp_path / "attic.json"),)
    edited(filing)
    assert filing.save()
    assert len(answers.asked) == 1


def test_a_save_that_fails_is_told_in_one_sentence(filing: Filing, tmp_path: Path, answers: Answers) -> None:
    filing.store.start(OTHER)
    answers.file = tmp_path / "away" / "attic.json"
    assert not filing.save()
    (sentence,) = answers.told
    assert "attic.json" in sentence
    assert "\n" not in sentence


@pytest.mark.parametrize("answer", ["over", "save as", "cancel"])
def test_a_file_changed_by_another_program_is_asked_about(
    answer: str, filing: Filing, file: Path, tmp_path: Path, answers: Answers
) -> None:
    filing.open(file)
    job = edited(filing)
    file.write_bytes(write_job(stand_in()))
    answers.over, answers.file = answer, tmp_path / "mine.json"
    assert filing.save() == (answer != "cancel")
    assert read_job(file.read_bytes()) == (job if answer == "over" else stand_in())
    assert (tmp_path / "mine.json").exists() == (answer == "save as")


def test_a_job_of_another_window_is_looked_at_only_if_wanted(
    filing: Filing, file: Path, tmp_path: Path, answers: Answers, qtbot: QtBot
) -> None:
    other = QWidget()
    qtbot.addWidget(other)
    second = a_filing(other, tmp_path)
    filing.open(file)
    assert not second.open(file)
    answers.look_only = True
    assert second.open(file)
    edited(second)
    answers.file = tmp_path / "mine.json"
    assert second.save()
    assert answers.asked == [str(file)]
    assert read_job(file.read_bytes()) == OTHER
    second.store.close()


def test_recovered_work_is_unsaved(filing: Filing, file: Path) -> None:
    assert filing.recover(Leftover(file, file, 0.0, stand_in()))
    assert filing.store.document.job == stand_in()
    assert not filing.store.document.is_saved


def test_going_back_to_the_file_is_a_step_that_can_be_undone(filing: Filing, file: Path) -> None:
    filing.open(file)
    job = edited(filing)
    assert filing.revert()
    assert filing.store.document.job == OTHER
    filing.store.document.history.undo()
    assert filing.store.document.job == job


def test_ask_open_opens_what_is_answered(filing: Filing, file: Path, answers: Answers) -> None:
    assert not filing.ask_open()
    answers.file = file
    assert filing.ask_open()
    assert filing.store.path == file
