"""The history: what is undone and done again, what joins, and when a job counts as saved."""

import gc

from PySide6.QtCore import QObject

from app.history import History, Step
from geometry.model import Job
from geometry.setting_out.arrangement import suggested_job

FIRST = suggested_job(760, 760, "left")


def rail_at(x: float) -> Job:
    return FIRST.moved("rail", x, 1200)


def step(x: float, before: Job = FIRST, merge: object = None) -> Step:
    return Step(f"Move rail to {x:g}", before, rail_at(x), merge)


def history(limit: int = 10) -> tuple[History, list[Job]]:
    shown: list[Job] = []
    return History(shown.append, limit), shown


def test_a_step_is_shown_undone_and_done_again() -> None:
    held, shown = history()
    held.push(step(500))
    held.undo()
    held.redo()
    assert shown == [rail_at(500), FIRST, rail_at(500)]


def test_titles_tell_what_is_undone_and_done_again() -> None:
    held, _ = history()
    held.push(step(500))
    assert (held.undo_text(), held.redo_text()) == ("Move rail to 500", "")
    held.undo()
    assert (held.undo_text(), held.redo_text()) == ("", "Move rail to 500")


def test_a_new_step_forgets_what_was_undone() -> None:
    held, _ = history()
    held.push(step(500))
    held.undo()
    held.push(step(520))
    assert not held.can_redo()
    assert held.count() == 1


def test_steps_in_a_row_with_one_key_are_one_step() -> None:
    held, shown = history()
    held.push(step(500, merge="nudge"))
    held.push(step(501, before=rail_at(500), merge="nudge"))
    assert held.count() == 1
    held.undo()
    assert shown[-1] == FIRST


def test_a_step_does_not_join_one_that_was_saved() -> None:
    held, _ = history()
    held.push(step(500, merge="nudge"))
    held.set_clean()
    held.push(step(501, before=rail_at(500), merge="nudge"))
    assert held.count() == 2
    held.undo()
    assert held.is_clean()


def test_what_was_saved_and_then_forgotten_is_not_clean_again() -> None:
    held, _ = history()
    held.push(step(500))
    held.set_clean()
    held.undo()
    held.push(step(520))
    assert not held.is_clean()
    held.undo()
    assert not held.is_clean()


def test_only_the_newest_steps_are_kept() -> None:
    held, _ = history(limit=3)
    for x in range(500, 510):
        held.push(step(x))
    assert [held.text(index) for index in range(held.count())] == [
        f"Move rail to {x}" for x in (507, 508, 509)
    ]
    assert not held.is_clean()


def test_signals_tell_of_each_change() -> None:
    held, _ = history()
    indexes: list[int] = []
    cleans: list[bool] = []
    held.index_changed.connect(indexes.append)
    held.clean_changed.connect(cleans.append)
    held.push(step(500))
    held.undo()
    held.redo()
    held.set_clean()
    assert indexes == [1, 0, 1, 1]
    assert cleans == [False, True, False, True]


def test_a_history_in_a_cycle_is_collected_in_peace() -> None:
    class Owner(QObject):
        def __init__(self) -> None:
            super().__init__()
            self.me = self
            self.history = History(lambda _job: None, 10, self)

    for _ in range(3):
        owner = Owner()
        owner.history.push(step(500))
        owner.history.push(step(510))
        del owner
        gc.collect()  # with Qt's undo stack this ended the interpreter
