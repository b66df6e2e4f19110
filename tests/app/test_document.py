"""The open job and its history: one gesture one step, and what is refused changes nothing."""

from collections.abc import Callable
from pathlib import Path

import pytest
from PySide6.QtWidgets import QApplication

from app.document import HISTORY, Document, State
from geometry.checks.runner import check
from geometry.model import Job
from geometry.parts.catalogue import generic_parts
from geometry.plan import Plan
from geometry.rules import standard_rules
from geometry.setting_out.arrangement import suggested_job

JOB = suggested_job(760, 760, "left")
UNKNOWN = JOB.with_fitting(JOB.fitting("rail").but(part="rail-of-nobody"))


def moved(x: float) -> Job:
    return JOB.moved("rail", x, 1120.0)


@pytest.fixture
def document(qapp: QApplication) -> Document:
    return Document(JOB, generic_parts(), standard_rules())


@pytest.fixture
def shown(document: Document) -> list[Job]:
    """Return the jobs that views were told of."""
    heard: list[Job] = []

    def hear(state: State) -> None:
        heard.append(state.job)

    document.changed.connect(hear)
    return heard


def test_an_edit_is_shown_once_and_can_be_undone_and_redone(document: Document, shown: list[Job]) -> None:
    document.edit("Move rail", moved(500.0))
    document.history.undo()
    document.history.redo()
    assert shown == [moved(500.0), JOB, moved(500.0)]
    assert document.history.undo_text() == "Move rail"


def test_findings_are_those_of_the_job_after_every_step(document: Document) -> None:
    document.edit("Move rail", moved(400.0))
    document.edit("Move rail", moved(300.0))
    for go, job in ((document.history.undo, moved(400.0)), (document.history.undo, JOB)):
        go()
        assert document.state.job == job
        assert document.state.findings == check(Plan(job, document.catalogue, document.rules))


def test_an_edit_that_changes_nothing_is_no_step(document: Document, shown: list[Job]) -> None:
    document.edit("Move rail", moved(570.0))
    assert not document.history.can_undo()
    assert shown == []


def test_a_gesture_is_shown_at_every_step_and_kept_as_one(document: Document, shown: list[Job]) -> None:
    for x in (560.0, 550.0, 540.0):
        document.preview(moved(x))
    assert document.kept_job == JOB
    assert document.is_saved
    document.edit("Move rail", document.job)
    assert shown[:3] == [moved(560.0), moved(550.0), moved(540.0)]
    assert document.history.count() == 1
    document.history.undo()
    assert document.job == JOB


def test_a_gesture_that_is_given_up_leaves_no_trace(document: Document, shown: list[Job]) -> None:
    document.preview(moved(560.0))
    document.cancel()
    assert (document.job, shown) == (JOB, [moved(560.0), JOB])
    assert not document.history.can_undo()


def test_a_gesture_that_comes_back_to_where_it_began_is_no_step(document: Document) -> None:
    document.preview(moved(560.0))
    document.edit("Move rail", moved(570.0))
    assert document.job == JOB
    assert not document.history.can_undo()


WAYS: dict[str, Callable[[Document], None]] = {
    "edit": lambda document: document.edit("Change rail", UNKNOWN),
    "preview": lambda document: document.preview(UNKNOWN),
    "replace": lambda document: document.replace(UNKNOWN, Path("x.json"), saved=True),
}


@pytest.mark.parametrize("way", WAYS)
def test_a_job_with_an_unknown_part_is_refused_and_changes_nothing(way: str, document: Document) -> None:
    document.edit("Move rail", moved(500.0))
    before = document.state
    with pytest.raises(ValueError, match="rail-of-nobody"):
        WAYS[way](document)
    assert document.state is before
    assert (document.kept_job, document.path) == (before.job, None)
    assert document.history.count() == 1


def test_edits_with_one_key_are_one_step_and_others_are_not(document: Document) -> None:
    for x, key in ((569.0, "first"), (568.0, "first"), (567.0, "second"), (566.0, None), (565.0, None)):
        document.edit("Move rail", moved(x), merge=key)
    assert document.history.count() == 4
    undone = []
    while document.history.can_undo():
        document.history.undo()
        undone.append(document.job)
    assert undone == [moved(566.0), moved(567.0), moved(568.0), JOB]


def test_an_edit_after_an_undo_takes_the_redo_away(document: Document) -> None:
    document.edit("Move rail", moved(500.0))
    document.history.undo()
    document.edit("Move rail", moved(490.0))
    assert not document.history.can_redo()


def test_the_history_forgets_what_lies_too_far_back(document: Document) -> None:
    assert document.history.limit == HISTORY


def test_saved_follows_undo_and_redo(document: Document, tmp_path: Path) -> None:
    document.edit("Move rail", moved(500.0))
    document.saved_as(tmp_path / "job.json")
    assert document.is_saved
    document.history.undo()
    assert not document.is_saved
    document.history.redo()
    assert document.is_saved


def test_another_job_begins_another_history(document: Document, tmp_path: Path) -> None:
    document.edit("Move rail", moved(500.0))
    document.replace(moved(400.0), tmp_path / "job.json", saved=False)
    assert (document.job, document.path, document.is_saved) == (moved(400.0), tmp_path / "job.json", False)
    assert not document.history.can_undo()
