"""Choosing with clicks and bands, with the keyboard alone, and what a screen reader is told.

The suggested job for a tray of 760: valve at (380, 1030), outlet at (570, 1030), rail at (570, 1120) with a
length of 700.
"""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLineEdit, QVBoxLayout, QWidget
from pytestqt.qtbot import QtBot

from app.canvas.canvas import Canvas
from app.document import Document
from app.selection import Selection
from geometry.edits.refs import Ref, choosable, things
from geometry.parts.catalogue import generic_parts
from geometry.rules import standard_rules
from geometry.setting_out.arrangement import suggested_job
from tests.app.canvas.conftest import Hand, Make

VALVE, RAIL, OUTLET = (Ref("fitting", name) for name in ("valve", "rail", "outlet"))
EMPTY = (100.0, 1300.0)
SHIFT = Qt.KeyboardModifier.ShiftModifier
CTRL, ALT = Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.AltModifier


def test_a_click_chooses_and_a_click_on_the_bare_wall_chooses_nothing(hand: Hand) -> None:
    hand.click((570.0, 1300.0))
    assert hand.chosen() == (RAIL,)
    hand.click(EMPTY)
    assert hand.chosen() == ()


@pytest.mark.parametrize("held", [SHIFT, CTRL])
def test_shift_and_ctrl_add_and_take_away(hand: Hand, held: Qt.KeyboardModifier) -> None:
    hand.click((570.0, 1300.0))
    hand.click((310.0, 1030.0), held)
    assert hand.chosen() == (RAIL, VALVE)
    hand.click((570.0, 1300.0), held)
    assert hand.chosen() == (VALVE,)
    hand.click(EMPTY, held)
    assert hand.chosen() == (VALVE,)


def test_clicking_again_reaches_what_lies_beneath(hand: Hand) -> None:
    at = (380.0, 1112.0)  # the plate, above its controls; the riser's chase lies under it
    hand.click(at)
    first = hand.chosen()
    hand.click(at)
    second = hand.chosen()
    assert {first[0], second[0]} == {VALVE, Ref("pipe", "riser")}


def test_a_band_chooses_what_lies_in_it(hand: Hand) -> None:
    # round outlet and rail, whose handset reaches to y 1690; the picture ends at y 1600
    hand.document.edit(
        "Lower the slider",
        hand.document.job.with_fitting(hand.document.job.fitting("rail").but(slider=100.0)),
    )
    hand.canvas.look(hand.canvas.view.panned((0.0, 300.0)))
    hand.drag((660.0, 1850.0), (600.0, 1200.0), (500.0, 980.0))
    assert set(hand.chosen()) == {RAIL, OUTLET}


def test_a_band_is_given_up_by_escape(hand: Hand) -> None:
    hand.choose("fitting", "valve")
    hand.press((660.0, 1550.0), SHIFT)
    hand.move((500.0, 980.0))
    hand.key(Qt.Key.Key_Escape)
    hand.release((500.0, 980.0))
    assert hand.chosen() == (VALVE,)


# keyboard


def test_tab_goes_through_all_things_and_then_on(hand: Hand) -> None:
    everything = list(things(hand.document.job))
    seen: list[Ref] = []
    for _ in everything:
        hand.key(Qt.Key.Key_Tab)
        seen.extend(hand.chosen())
    assert seen == everything
    hand.key(Qt.Key.Key_Backtab)
    assert hand.chosen() == (everything[-2],)


def test_tab_past_the_last_thing_leaves_the_wall(qtbot: QtBot) -> None:
    page = QWidget()
    qtbot.addWidget(page)
    layout = QVBoxLayout(page)
    document = Document(suggested_job(760, 760, "left"), generic_parts(), standard_rules(), page)
    canvas, after = Canvas(document, Selection(page), page), QLineEdit()
    layout.addWidget(canvas)
    layout.addWidget(after)
    with qtbot.waitExposed(page):
        page.show()
    canvas.setFocus()
    for _ in range(len(choosable(document.job)) + 1):
        QTest.keyClick(canvas, Qt.Key.Key_Tab)
    assert canvas.selection.refs == ()
    assert page.focusWidget() is after


@pytest.mark.parametrize(
    ("key", "held", "expected"),
    [
        (Qt.Key.Key_Left, None, (569.0, 1120.0)),
        (Qt.Key.Key_Right, None, (571.0, 1120.0)),
        (Qt.Key.Key_Up, SHIFT, (570.0, 1130.0)),
        (Qt.Key.Key_Down, SHIFT, (570.0, 1110.0)),
        (Qt.Key.Key_Right, ALT, (570.1, 1120.0)),
    ],
)
def test_arrows_nudge_by_1_10_and_a_tenth(
    hand: Hand, key: Qt.Key, held: Qt.KeyboardModifier | None, expected: tuple[float, float]
) -> None:
    hand.choose("fitting", "rail")
    hand.key(key, held or Qt.KeyboardModifier.NoModifier)
    assert hand.place_of("rail") == expected
    assert hand.titles == ["Move rail"]


def test_the_steps_of_arrows_are_those_of_the_options(hand: Hand) -> None:
    hand.canvas.set_options(hand.canvas.options._replace(nudge=2.5))
    hand.choose("fitting", "rail")
    hand.key(Qt.Key.Key_Left)
    assert hand.place_of("rail") == (567.5, 1120.0)


def test_a_run_of_nudges_is_one_step_of_the_history(hand: Hand) -> None:
    hand.choose("fitting", "rail")
    for key in (Qt.Key.Key_Left, Qt.Key.Key_Left, Qt.Key.Key_Up):
        hand.key(key)
    assert hand.place_of("rail") == (568.0, 1121.0)
    hand.document.history.undo()
    assert hand.place_of("rail") == (570.0, 1120.0)
    assert hand.titles == ["Move rail"]


def test_choosing_something_else_ends_a_run(hand: Hand) -> None:
    hand.choose("fitting", "rail")
    hand.key(Qt.Key.Key_Left)
    hand.choose("fitting", "outlet")
    hand.choose("fitting", "rail")
    hand.key(Qt.Key.Key_Left)
    assert hand.titles == ["Move rail", "Move rail"]


def test_undo_ends_a_run(hand: Hand) -> None:
    hand.choose("fitting", "rail")
    hand.key(Qt.Key.Key_Left)
    hand.key(Qt.Key.Key_Left)
    hand.document.history.undo()
    hand.key(Qt.Key.Key_Right)
    hand.document.history.undo()
    assert hand.place_of("rail") == (570.0, 1120.0)


def test_delete_removes_what_is_chosen_in_one_step(hand: Hand) -> None:
    hand.choose("fitting", "rail", "outlet")
    hand.key(Qt.Key.Key_Delete)
    assert [fitting.id for fitting in hand.document.job.fittings] == ["valve", "head"]
    assert hand.titles == ["Remove 2 things"]
    assert hand.chosen() == ()
    hand.document.history.undo()
    assert len(hand.document.job.fittings) == 4


def test_escape_first_looks_away_and_then_chooses_nothing(hand: Hand) -> None:
    hand.choose("fitting", "rail")
    hand.selection.look_at(hand.document.state.findings[0])
    hand.key(Qt.Key.Key_Escape)
    assert (hand.selection.finding, hand.chosen()) == (None, (RAIL,))
    hand.key(Qt.Key.Key_Escape)
    assert hand.chosen() == ()


# screen readers


def test_a_screen_reader_hears_what_is_chosen_and_where_it_is(hand: Hand) -> None:
    assert hand.canvas.accessibleName() == "Wall"
    hand.choose("fitting", "rail")
    # 570 from the tray's edge at 0; 1120 less the tray's floor at 30
    assert hand.canvas.accessibleDescription() == (
        "rail: Rail 700, 570 mm from tray edge, 1090 mm above tray floor"
    )
    hand.key(Qt.Key.Key_Left)
    assert "569 mm from tray edge" in hand.canvas.accessibleDescription()


def test_a_screen_reader_hears_of_clashes(hand: Hand) -> None:
    hand.choose("fitting", "rail")
    hand.document.edit("Move rail", hand.document.job.moved("rail", 380.0, 1120.0))
    count = sum("rail" in f.parts and f.status == "clash" for f in hand.document.state.findings)
    assert count > 0
    assert f"clashes: {count}" in hand.canvas.accessibleDescription()


def test_a_screen_reader_hears_of_several_without_being_flooded(hand: Hand) -> None:
    hand.choose("fitting", "rail", "outlet", "valve", "head")
    assert hand.canvas.accessibleDescription().endswith("; and 1 more")


def test_places_are_told_in_the_unit_that_is_chosen(make: Make) -> None:
    hand = make()
    hand.canvas.set_options(hand.canvas.options._replace(unit="cm"))
    hand.choose("fitting", "rail")
    assert "57 cm from tray edge, 109 cm above tray floor" in hand.canvas.accessibleDescription()
