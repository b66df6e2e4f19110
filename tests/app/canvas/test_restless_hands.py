"""Restless hands: any order of presses, moves, keys and undo leaves the job sound and nothing half done.

Exceptions inside Qt's event handlers fail the test, as pytest-qt sees them.
"""

import random
from collections.abc import Callable
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from app.canvas.stages import STAGES
from app.files import open_job
from geometry.edits.refs import things
from geometry.jobfile import read_job, write_job
from tests.app.canvas.conftest import Hand, Make

SAMPLES = Path(__file__).parents[3] / "samples"
KEYS = (
    Qt.Key.Key_Left, Qt.Key.Key_Up, Qt.Key.Key_Tab, Qt.Key.Key_Backtab, Qt.Key.Key_Escape, Qt.Key.Key_Delete,
    Qt.Key.Key_Return, Qt.Key.Key_Backspace, Qt.Key.Key_Plus, Qt.Key.Key_Minus, Qt.Key.Key_0,
)  # fmt: skip
HELD = (
    Qt.KeyboardModifier.NoModifier,
    Qt.KeyboardModifier.ShiftModifier,
    Qt.KeyboardModifier.ControlModifier,
)
STEPS = 250


def one_step(hand: Hand, chance: random.Random) -> None:
    canvas, document = hand.canvas, hand.document
    at = chance.uniform(-100, 900), chance.uniform(-50, 2500)
    if document.job.fittings and chance.random() < 0.7:
        x, y = chance.choice(document.job.fittings).at
        at = x + chance.uniform(-40, 40), y + chance.uniform(-40, 40)

    def look_at_any() -> None:
        hand.selection.look_at(chance.choice((None, *document.state.findings)))

    def choose_any() -> None:
        everything = list(things(document.job))
        hand.selection.choose(chance.sample(everything, min(len(everything), chance.randint(0, 3))))

    def drag_any() -> None:
        hand.press(at, chance.choice(HELD))
        for _ in range(3):
            hand.move((at[0] + chance.uniform(-80, 80), at[1] + chance.uniform(-80, 80)), chance.choice(HELD))

    def draw_any() -> None:
        canvas.draw_pipe(chance.choice(("hot", "cold", "mixed")))
        for _ in range(chance.randint(0, 4)):
            hand.click((at[0] + chance.uniform(-80, 80), at[1] + chance.uniform(-80, 80)))
        if canvas.board.document.state.plan.ports and chance.random() < 0.7:
            hand.click(chance.choice(list(document.state.plan.ports.values())).at)
        if chance.random() < 0.8:
            hand.key(Qt.Key.Key_Escape)

    steps: tuple[Callable[[], object], ...] = (
        drag_any,
        drag_any,
        drag_any,
        lambda: hand.release(at),
        lambda: hand.release(at),
        lambda: hand.click(at, chance.choice(HELD)),
        lambda: hand.double_click(at),
        lambda: hand.key(chance.choice(KEYS), chance.choice(HELD)),
        lambda: hand.key(chance.choice(KEYS)),
        choose_any,
        look_at_any,
        document.history.undo,
        document.history.redo,
        lambda: canvas.set_stage(chance.choice(STAGES)),
        draw_any,
        lambda: canvas.look(canvas.view.zoomed((600.0, 500.0), chance.uniform(0.7, 1.4))),
        lambda: QTest.mouseClick(canvas, Qt.MouseButton.RightButton, HELD[0], hand.place(at)),
    )
    chance.choice(steps)()


@pytest.mark.parametrize("seed", range(3))
@pytest.mark.parametrize("sample", ["corner-1200x800", "planted-faults"])
def test_restless_hands_leave_the_job_sound(make: Make, sample: str, seed: int) -> None:
    hand = make(open_job(SAMPLES / f"{sample}.json"), fitted=True)
    chance = random.Random(seed)
    edits, before = 0, hand.document.job
    for number in range(STEPS):
        one_step(hand, chance)
        edits += hand.document.job is not before
        before = hand.document.job
        if number % 25 == 0:
            assert not hand.canvas.grab().isNull()
    hand.canvas.hands.cancel()
    document = hand.document
    assert edits > STEPS / 8
    assert document.job == document.kept_job
    assert read_job(write_job(document.job)) == document.job
    while document.history.can_undo():
        document.history.undo()
    assert document.job == open_job(SAMPLES / f"{sample}.json")
