"""The strip under the wall: counts, the worst finding in words, and messages."""

from collections.abc import Callable

from PySide6.QtCore import QPoint
from PySide6.QtWidgets import QToolButton, QWidget
from pytestqt.qtbot import QtBot

from app.panels.strip import Strip
from geometry.edits.moves import moved
from geometry.edits.refs import Ref
from geometry.finding import STATUSES
from tests.app.panels.desk import Desk, press

Show = Callable[[QWidget], None]


def strip_of(desk: Desk, shown: Show) -> Strip:
    strip = Strip(*desk)
    shown(strip)
    strip.resize(1180, strip.height())
    return strip


def test_the_strip_counts_every_finding_once(faulty: Desk, shown: Show) -> None:
    strip = strip_of(faulty, shown)
    assert sum(strip.count(status) for status in STATUSES) == len(faulty.document.state.findings)
    assert strip.count("clash") > 0


def test_the_strip_says_the_worst_finding_in_words(faulty: Desk, shown: Show) -> None:
    strip = strip_of(faulty, shown)
    worst = faulty.document.state.findings[0]
    assert worst.status == "clash"
    assert strip.words == worst.message


def test_the_strip_follows_an_edit_its_undo_and_a_gesture(desk: Desk, shown: Show) -> None:
    strip = strip_of(desk, shown)
    assert strip.count("clash") == 0
    # the rail stands at 570, the valve on the centre line at 380
    onto_valve = moved(desk.document.state.plan, (Ref("fitting", "rail"),), -190, 0)
    desk.document.preview(onto_valve)
    assert strip.count("clash") > 0
    desk.document.cancel()
    assert strip.count("clash") == 0
    desk.document.edit("Move rail", onto_valve)
    assert strip.count("clash") > 0
    desk.document.history.undo()
    assert strip.count("clash") == 0


def test_a_press_looks_at_the_worst_finding_and_asks_for_the_list(
    faulty: Desk, shown: Show, qtbot: QtBot
) -> None:
    strip = strip_of(faulty, shown)
    button = strip.findChild(QToolButton)
    assert isinstance(button, QToolButton)
    with qtbot.waitSignal(strip.check_wanted):
        press(button)
    assert faulty.selection.finding == faulty.document.state.findings[0]


def test_the_finding_that_is_looked_at_is_followed_as_it_changes(faulty: Desk, shown: Show) -> None:
    strip = strip_of(faulty, shown)
    document, selection = faulty.document, faulty.selection
    hose = next(f for f in document.state.findings if f.rule == "hose.valve" and f.status == "clash")
    selection.look_at(hose)
    document.edit("Move rail", moved(document.state.plan, (Ref("fitting", "rail"),), 20, 0))
    after = selection.finding
    assert after is not None
    assert (after.rule, after.parts) == (hose.rule, hose.parts)
    assert after in document.state.findings
    assert strip.isVisible()
    document.edit("Remove hose", document.job.but(hoses=()))
    assert selection.finding is None


def test_a_message_stands_until_it_is_pressed_or_the_job_changes(faulty: Desk, shown: Show) -> None:
    strip = strip_of(faulty, shown)
    worst = strip.words
    strip.say("The job was saved.")
    assert strip.words == "The job was saved."
    press(strip, QPoint(3, 3))
    assert strip.words == worst
    strip.say("The job was saved.")
    faulty.document.edit("Remove hose", faulty.job.but(hoses=()))
    assert strip.words != "The job was saved."
