"""Dragging things with the mouse: snapping, live findings, one step of history, no trace when given up.

The suggested job for a tray of 760: centre line 380, quarter lines 190 and 570; valve at (380, 1030), outlet
at (570, 1030), rail at (570, 1120). At 1 pixel a mm a line draws within 6 mm, an edge within 3.
"""

from typing import Any

import pytest
from PySide6.QtCore import Qt

from app.document import State
from geometry.edits.refs import Ref
from geometry.finding import Finding
from tests.app.canvas.conftest import Hand, Make

CTRL, SHIFT = Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.ShiftModifier
RAIL_BAR = (570.0, 1300.0)
"""A point on the rail, clear of bracket and handset."""


def clashes(state: State, *parts: str) -> list[Finding]:
    return [f for f in state.findings if f.status == "clash" and set(parts) <= set(f.parts)]


def test_a_drag_is_one_step_of_the_history_with_a_title_that_reads(hand: Hand) -> None:
    hand.drag(RAIL_BAR, (560.0, 1310.0), (500.0, 1350.0), (520.0, 1340.0))
    assert hand.titles == ["Move rail"]
    assert hand.place_of("rail") == (520.0, 1160.0)  # 50 to the left, 40 up
    assert hand.selection.refs == (Ref("fitting", "rail"),)


def test_undo_brings_a_dragged_part_back_in_one_go(hand: Hand) -> None:
    hand.drag(RAIL_BAR, (500.0, 1350.0), (520.0, 1360.0))
    hand.document.history.undo()
    assert hand.place_of("rail") == (570.0, 1120.0)
    assert hand.document.is_saved


def test_near_a_quarter_line_the_rail_snaps_to_it(hand: Hand) -> None:
    # to x 190 + 6: the hand has gone 374 left
    hand.drag(RAIL_BAR, (400.0, 1300.0), (196.0, 1300.0))
    assert hand.place_of("rail")[0] == 190.0


def test_guides_say_to_what_it_has_snapped(hand: Hand) -> None:
    hand.press(RAIL_BAR)
    hand.move((196.0, 1300.0))
    assert [guide.word for guide in hand.canvas.hands.feedback.guides if guide.axis == "x"] == [
        "quarter line"
    ]
    hand.release((196.0, 1300.0))
    assert hand.canvas.hands.feedback.guides == ()


def test_ctrl_suspends_snapping(hand: Hand) -> None:
    hand.press(RAIL_BAR)
    hand.move((193.0, 1300.0), CTRL)
    hand.release((193.0, 1300.0))
    assert hand.place_of("rail")[0] == 193.0


def test_without_snapping_in_the_options_nothing_snaps(hand: Hand) -> None:
    hand.canvas.set_options(hand.canvas.options._replace(snapping=False))
    hand.drag(RAIL_BAR, (400.0, 1300.0), (196.0, 1300.0))
    assert hand.place_of("rail")[0] == 196.0


def test_escape_in_the_middle_of_a_drag_leaves_no_trace(hand: Hand) -> None:
    before = hand.document.job
    hand.press(RAIL_BAR)
    hand.move((300.0, 1400.0))
    assert hand.document.job != before
    hand.key(Qt.Key.Key_Escape)
    hand.move((250.0, 1400.0))
    hand.release((250.0, 1400.0))
    assert hand.document.job is before
    assert hand.titles == []
    assert hand.document.is_saved


def test_a_drag_back_to_where_it_began_is_no_step(hand: Hand) -> None:
    hand.drag(RAIL_BAR, (500.0, 1300.0), RAIL_BAR)
    assert hand.titles == []


def test_a_press_that_hardly_moves_is_a_click(hand: Hand) -> None:
    hand.drag(RAIL_BAR, (572.0, 1301.0))
    assert hand.titles == []
    assert hand.selection.refs == (Ref("fitting", "rail"),)


def test_the_whole_job_is_checked_at_every_step(hand: Hand) -> None:
    seen: list[State] = []
    hand.document.changed.connect(seen.append)
    hand.press(RAIL_BAR)
    for x in (520.0, 430.0, 380.0):
        hand.move((x, 1300.0))
    assert [state.job.fitting("rail").x for state in seen] == [520.0, 430.0, 380.0]
    # from the outlet at 570 to a rail on the centre line the hose hangs across the valve
    assert clashes(seen[-1], "hose", "valve")
    assert not clashes(seen[0], "hose", "valve")
    hand.release((380.0, 1300.0))


def test_the_worst_clearance_is_shown_while_dragging(hand: Hand) -> None:
    hand.press(RAIL_BAR)
    hand.move((380.0, 1300.0))
    worst = hand.canvas.hands.feedback.clearance
    assert worst is not None
    assert worst.status == "clash"
    assert worst in hand.document.state.findings
    assert worst.measured is not None
    hand.move(RAIL_BAR)
    back = hand.canvas.hands.feedback.clearance
    assert back is None or back.status == "tight"
    hand.release(RAIL_BAR)


def test_pulling_the_rail_clear_turns_the_finding_clear(hand: Hand) -> None:
    hand.drag(RAIL_BAR, (400.0, 1300.0), (380.0, 1300.0))
    assert clashes(hand.document.state, "hose", "valve")
    hand.drag((380.0, 1300.0), (400.0, 1300.0), (570.0, 1300.0))
    assert not clashes(hand.document.state, "hose", "valve")
    hand.document.history.undo()
    assert clashes(hand.document.state, "hose", "valve")


def test_several_chosen_things_move_together(hand: Hand) -> None:
    hand.choose("fitting", "rail", "outlet")
    hand.drag(RAIL_BAR, (530.0, 1300.0), (520.0, 1300.0))
    assert (hand.place_of("rail")[0], hand.place_of("outlet")[0]) == (520.0, 520.0)
    assert hand.titles == ["Move 2 things"]


def test_dragging_what_is_not_chosen_chooses_it_alone(hand: Hand) -> None:
    hand.choose("fitting", "valve", "head")
    hand.drag(RAIL_BAR, (530.0, 1300.0), (520.0, 1300.0))
    assert hand.selection.refs == (Ref("fitting", "rail"),)
    assert hand.place_of("valve") == (380.0, 1030.0)


def test_shift_keeps_to_one_axis(hand: Hand) -> None:
    hand.press(RAIL_BAR)
    hand.move((520.0, 1340.0), SHIFT)
    hand.release((520.0, 1340.0))
    assert hand.place_of("rail") == (520.0, 1120.0)


def test_undo_in_the_middle_of_a_drag_ends_it(hand: Hand) -> None:
    hand.drag(RAIL_BAR, (530.0, 1300.0), (520.0, 1300.0))
    hand.press((520.0, 1300.0))
    hand.move((420.0, 1300.0))
    hand.document.history.undo()
    assert not hand.canvas.hands.is_busy
    hand.release((420.0, 1300.0))
    assert hand.place_of("rail") == (570.0, 1120.0)


def test_a_place_is_a_whole_mm_from_the_tray_where_nothing_snaps(make: Make) -> None:
    hand = make(fitted=True)  # about a third of a pixel to the mm
    before = hand.place_of("rail")
    hand.canvas.set_options(hand.canvas.options._replace(snapping=False))
    start = hand.place_of("rail")[0], 1400.0
    hand.drag(start, (480.0, 1420.0), (451.3, 1437.7))
    x, y = hand.place_of("rail")
    assert (x, y) != before
    assert x == round(x)
    assert y - 30 == round(y - 30)  # the tray's floor lies 30 up


def test_a_hose_stays_where_its_ends_are(hand: Hand) -> None:
    hand.choose("hose", "hose")
    before = hand.document.job
    hand.drag((570.0, 960.0), (500.0, 900.0), (450.0, 900.0))
    assert hand.document.job.hoses == before.hoses
    assert hand.titles == []


def test_a_pipe_follows_the_valve_that_is_dragged(hand: Hand) -> None:
    hand.choose("fitting", "valve")
    hand.drag((310.0, 1030.0), (330.0, 1030.0), (340.0, 1030.0))
    # the hot pipe stays plumb under its inlet, 45 mm to the left of the valve
    hot = next(pipe for pipe in hand.document.job.pipes if pipe.id == "hot")
    assert hot.route == ((365.0, 0.0),)


@pytest.mark.parametrize("stage", ["cut", "piped", "finished", "all"])
def test_every_stage_is_painted_during_a_drag(hand: Hand, stage: Any) -> None:
    hand.canvas.set_stage(stage)
    hand.choose("fitting", "valve")
    hand.press((310.0, 1030.0))
    hand.move((330.0, 1030.0))
    assert not hand.canvas.grab().isNull()
    hand.key(Qt.Key.Key_Escape)
