"""The names of pieces on the wall: each of them beside its piece, counted anew while a route is dragged."""

import pytest
from PySide6.QtCore import Qt

from geometry.model import Job, Pipe
from geometry.pipework.cut_list import pieces
from geometry.setting_out.arrangement import suggested_job
from tests.app.canvas.conftest import Hand, Make
from tests.samples import SAMPLES, sample_job

HOT = Pipe(id="hot", service="hot", end="valve.hot", route=((100.0, 600.0), (100.0, 800.0), (335.0, 800.0)))


def piped(make: Make, job: Job) -> Hand:
    hand = make(job, fitted=True)
    hand.canvas.set_stage("piped")
    return hand


def named(hand: Hand) -> list[str]:
    return [name.words for name in hand.canvas.laid.names if name.layer.startswith("pipe-")]


@pytest.mark.parametrize("name", SAMPLES)
def test_every_piece_of_a_sample_is_named_on_the_wall(make: Make, name: str) -> None:
    hand = piped(make, sample_job(name))
    wanted = [piece.name for piece in pieces(hand.document.state.plan)]
    assert sorted(named(hand)) == sorted(wanted)


def test_pieces_are_counted_anew_while_a_corner_is_dragged(make: Make) -> None:
    hand = piped(make, suggested_job(760, 760, "left").but(pipes=(HOT,)))
    hand.choose("pipe", "hot")
    assert sorted(named(hand)) == ["H-1", "H-2", "H-3"]
    hand.press((100.0, 800.0))
    hand.move((130.0, 760.0), Qt.KeyboardModifier.ControlModifier)
    hand.move((160.0, 730.0), Qt.KeyboardModifier.ControlModifier)
    assert named(hand) == ["H-1"]  # no turn is square any more: one piece, bent
    hand.key(Qt.Key.Key_Escape)
    assert sorted(named(hand)) == ["H-1", "H-2", "H-3"]


def test_a_short_piece_is_led_to_by_a_line(make: Make) -> None:
    # 60 mm between two elbows: on the screen no room beside it
    hand = piped(make, suggested_job(760, 760, "left").but(pipes=(
        HOT.but(route=((275.0, 0.0), (275.0, 880.0), (335.0, 880.0))),
    )))  # fmt: skip
    led = {name.words: name.led_to for name in hand.canvas.laid.names if name.led_to is not None}
    assert "H-2" in led
    # from (275, 880) to (335, 880)
    assert led["H-2"] == pytest.approx(hand.canvas.view.to_screen((305.0, 880.0)))


def test_other_stages_keep_the_letters(make: Make) -> None:
    hand = piped(make, suggested_job(760, 760, "left").but(pipes=(HOT,)))
    hand.canvas.set_stage("all")
    assert set(named(hand)) == {"H"}


def test_a_pipe_that_cannot_be_joined_keeps_its_letter(make: Make) -> None:
    hand = piped(
        make, suggested_job(760, 760, "left").but(pipes=(HOT.but(tube="barrier-15", jointing="capillary"),))
    )
    assert set(named(hand)) == {"H"}
