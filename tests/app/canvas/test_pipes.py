"""Drawing pipes click by click, and reshaping them by their corners and legs.

The suggested job for a tray of 760 without its pipes: the inlets of its valve at (335, 960) hot and
(425, 960) cold point down, its outlets are at (380, 1100) up and (445, 1030) right; the hand sees y 600 to
1600 at 1 pixel a mm.
"""

import pytest
from PySide6.QtCore import Qt

from geometry.edits.refs import Ref
from geometry.model import XY, Pipe
from geometry.setting_out.arrangement import suggested_job
from tests.app.canvas.conftest import Hand, Make

SHIFT = Qt.KeyboardModifier.ShiftModifier
COLD, OUT = (425.0, 960.0), (380.0, 1100.0)


@pytest.fixture
def bare(make: Make) -> Hand:
    """A hand on the job without pipes."""
    return make(suggested_job(760, 760, "left").but(pipes=()))


@pytest.fixture
def piped(make: Make) -> Hand:
    """A hand on the job with one bent hot pipe, which is chosen, where its legs are seen."""
    route = ((100.0, 600.0), (100.0, 800.0), (335.0, 800.0))
    hot = Pipe(id="hot", service="hot", end="valve.hot", route=route)
    hand = make(suggested_job(760, 760, "left").but(pipes=(hot,)))
    hand.canvas.set_stage("piped")
    hand.canvas.look(hand.canvas.view.panned((0.0, -200.0)))
    hand.choose("pipe", "hot")
    return hand


def pipe(hand: Hand, name: str) -> Pipe:
    return next(pipe for pipe in hand.document.job.pipes if pipe.id == name)


def route(hand: Hand) -> tuple[XY, ...]:
    return pipe(hand, "hot").route


# drawing


def test_a_pipe_from_its_feed_to_a_port(bare: Hand) -> None:
    bare.canvas.draw_pipe("cold")
    bare.click((300.0, 700.0))
    bare.move((422.0, 712.0))
    bare.click((422.0, 712.0))  # nearly level and nearly under the port: it becomes both
    bare.click(COLD)
    assert pipe(bare, "cold").start is None
    assert pipe(bare, "cold").end == "valve.cold"
    assert pipe(bare, "cold").route == ((300.0, 700.0), (425.0, 700.0))
    assert bare.titles == ["Draw cold"]
    assert bare.chosen() == (Ref("pipe", "cold"),)
    assert not bare.canvas.hands.is_busy


def test_a_pipe_from_a_port_that_was_given_to_another(bare: Hand) -> None:
    bare.canvas.draw_pipe("mixed", "valve.out1")
    bare.canvas.look(bare.canvas.view.panned((0.0, 900.0)))
    bare.click((380.0, 2190.0))
    assert (pipe(bare, "mixed").start, pipe(bare, "mixed").end) == ("valve.out1", "head.in")
    assert pipe(bare, "mixed").route == ()


def test_a_pipe_that_begins_with_a_click_on_a_port(bare: Hand) -> None:
    bare.canvas.draw_pipe("cold")
    bare.click(COLD)
    bare.click((428.0, 700.0))
    bare.key(Qt.Key.Key_Return)
    # drawn from the valve down to its feed, kept from the feed up
    assert pipe(bare, "cold") == Pipe(id="cold", service="cold", end="valve.cold", route=((425.0, 700.0),))


def test_legs_are_plumb_or_level_unless_shift_is_held(bare: Hand) -> None:
    bare.canvas.draw_pipe("cold")
    bare.click((300.0, 650.0))
    bare.click((310.0, 750.0))
    bare.click((350.0, 860.0), SHIFT)
    bare.click(COLD)
    assert pipe(bare, "cold").route == ((300.0, 650.0), (300.0, 750.0), (350.0, 860.0))


def test_backspace_takes_back_the_last_point(bare: Hand) -> None:
    bare.canvas.draw_pipe("cold")
    bare.click((300.0, 650.0))
    bare.click((300.0, 750.0))
    bare.key(Qt.Key.Key_Backspace)
    bare.click((410.0, 650.0))
    bare.click(COLD)
    assert pipe(bare, "cold").route == ((300.0, 650.0), (410.0, 650.0))


def test_escape_gives_the_pipe_up_without_a_trace(bare: Hand) -> None:
    before = bare.document.job
    bare.canvas.draw_pipe("hot")
    bare.click((300.0, 650.0))
    bare.key(Qt.Key.Key_Escape)
    bare.click(COLD)
    assert bare.document.job is before
    assert bare.titles == []


def test_enter_without_a_port_says_what_is_missing_and_goes_on(bare: Hand) -> None:
    said: list[str] = []
    bare.canvas.hint_changed.connect(said.append)
    bare.canvas.draw_pipe("hot")
    bare.click((300.0, 650.0))
    bare.key(Qt.Key.Key_Return)
    assert said[-1] == "A pipe must join a port at one end."
    assert bare.document.job.pipes == ()
    assert bare.canvas.hands.is_busy


def test_what_to_do_next_is_said(bare: Hand) -> None:
    said: list[str] = []
    bare.canvas.hint_changed.connect(said.append)
    bare.canvas.draw_pipe("hot")
    bare.click((300.0, 650.0))
    bare.key(Qt.Key.Key_Escape)
    assert "where the hot pipe begins" in said[0]
    assert any("the port where it ends" in sentence for sentence in said)
    assert said[-1] == ""


def test_the_pipe_is_painted_while_it_is_drawn(bare: Hand) -> None:
    bare.canvas.draw_pipe("hot")
    bare.click((300.0, 650.0))
    bare.move((300.0, 800.0))
    assert bare.canvas.hands.feedback.draft == ((300.0, 650.0), (300.0, 800.0))
    assert not bare.canvas.grab().isNull()


def test_an_edit_from_elsewhere_ends_the_drawing(bare: Hand) -> None:
    bare.canvas.draw_pipe("hot")
    bare.click((300.0, 650.0))
    bare.document.edit("Move rail", bare.document.job.moved("rail", 500.0, 1120.0))
    assert not bare.canvas.hands.is_busy
    assert bare.titles == ["Move rail"]


# reshaping


def test_dragging_a_leg_keeps_its_corners_square(piped: Hand) -> None:
    piped.drag((220.0, 800.0), (222.0, 820.0), (225.0, 840.0))
    assert route(piped) == ((100.0, 600.0), (100.0, 840.0), (335.0, 840.0))
    assert piped.titles == ["Reshape hot"]


def test_dragging_a_corner_moves_it_alone(piped: Hand) -> None:
    piped.drag((100.0, 800.0), (120.0, 790.0), (150.0, 770.0))
    assert route(piped) == ((100.0, 600.0), (150.0, 770.0), (335.0, 800.0))


def test_a_corner_is_drawn_to_where_it_is_square(piped: Hand) -> None:
    piped.drag((100.0, 800.0), (120.0, 790.0), (152.0, 796.0))
    assert route(piped)[1] == (152.0, 800.0)


def test_a_reshaped_pipe_is_checked_while_it_is_dragged(piped: Hand) -> None:
    seen: list[object] = []
    piped.document.changed.connect(seen.append)
    piped.press((220.0, 800.0))
    piped.move((222.0, 820.0))
    piped.move((225.0, 840.0))
    assert len(seen) == 2
    piped.key(Qt.Key.Key_Escape)
    assert route(piped) == ((100.0, 600.0), (100.0, 800.0), (335.0, 800.0))
    assert piped.titles == []


def test_a_double_click_adds_a_corner_and_delete_takes_it_away(piped: Hand) -> None:
    before = piped.document.job
    piped.double_click((220.0, 803.0))
    assert route(piped) == ((100.0, 600.0), (100.0, 800.0), (220.0, 800.0), (335.0, 800.0))
    piped.click((220.0, 800.0))
    piped.key(Qt.Key.Key_Delete)
    assert piped.document.job == before
    assert piped.titles == ["Add a corner to hot", "Take a corner from hot"]


def test_delete_without_a_corner_removes_the_pipe(piped: Hand) -> None:
    piped.key(Qt.Key.Key_Delete)
    assert piped.document.job.pipes == ()


def test_dragging_the_feed_moves_it(piped: Hand) -> None:
    piped.drag((100.0, 600.0), (80.0, 605.0), (70.0, 600.0))
    assert route(piped)[0] == (70.0, 600.0)


def test_handles_are_shown_only_for_a_pipe_that_alone_is_chosen(piped: Hand) -> None:
    assert len(piped.canvas._picture().corners) == 3
    piped.selection.choose([Ref("pipe", "hot"), Ref("fitting", "valve")])
    assert piped.canvas._picture().corners == ()


def test_a_part_on_top_of_a_leg_is_dragged_rather_than_the_leg(piped: Hand) -> None:
    # where the pipe runs under the valve's recess, from 935 up; its leg at x 335 ends at 960
    piped.canvas.set_stage("all")
    piped.document.edit("Move valve", piped.document.job.moved("valve", 380.0, 900.0))
    piped.drag((350.0, 935.0), (330.0, 935.0), (310.0, 935.0))
    assert piped.chosen() == (Ref("fitting", "valve"),)
    assert piped.place_of("valve")[0] == pytest.approx(340.0, abs=6.0)
