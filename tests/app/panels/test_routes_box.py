"""Ways to lead a pipe: found when asked for, said with their reasons, taken with a press as one step."""

from collections.abc import Callable, Iterator

import pytest
from PySide6.QtCore import QCoreApplication, Qt, QThreadPool
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from app.panels.pipe import PipePanel
from app.panels.sentence import Sentence
from app.window import Window
from geometry.edits.refs import Ref
from geometry.model import Opening, Pipe
from tests.app.driving import keys
from tests.app.panels.desk import Desk, choose, key, press
from tests.samples import sample_path

Show = Callable[[QWidget], None]
WAIT = 30_000


@pytest.fixture
def panel(desk: Desk, shown: Show) -> Iterator[PipePanel]:
    made = PipePanel(*desk)
    shown(made)
    yield made
    made.routes.stop()
    QThreadPool.globalInstance().waitForDone()


def pipe_of(desk: Desk, name: str) -> Pipe:
    return next(pipe for pipe in desk.job.pipes if pipe.id == name)


def find(panel: PipePanel, qtbot: QtBot) -> None:
    press(panel.routes.finder)
    assert panel.routes.said.text() == "Looking for ways…"
    qtbot.waitUntil(lambda: panel.routes.said.text() != "Looking for ways…", timeout=WAIT)
    qtbot.waitUntil(lambda: all(button.isVisible() for button in panel.routes.buttons))


def ways(panel: PipePanel) -> list[str]:
    sentences = panel.routes.findChildren(Sentence)
    return [each.text() for each in sentences if each.isVisible() and each.text()[:1].isdigit()]


def test_the_side_that_the_feed_comes_from_now_is_chosen(panel: PipePanel, desk: Desk) -> None:
    assert not panel.routes.isVisible()
    desk.selection.choose([Ref("pipe", "hot")])
    assert panel.routes.side.isVisible()
    assert panel.routes.side.value == "below"
    top = desk.job.wall.height
    hot = pipe_of(desk, "hot").but(route=((335, top),))
    desk.document.edit("Feed it from above", desk.job.but(pipes=(hot, *desk.job.pipes[1:])))
    assert panel.routes.side.value == "above"
    hot = hot.but(route=((335, 400),))
    desk.document.edit("Feed it within the wall", desk.job.but(pipes=(hot, *desk.job.pipes[1:])))
    assert panel.routes.side.value is None


def test_a_pipe_from_a_port_has_no_side(panel: PipePanel, desk: Desk, qtbot: QtBot) -> None:
    desk.selection.choose([Ref("pipe", "riser")])
    assert not panel.routes.side.isVisible()
    find(panel, qtbot)
    assert ways(panel)[0].startswith("1. ")


def test_a_way_is_told_with_its_reasons_and_taken_with_one_press(
    panel: PipePanel, desk: Desk, qtbot: QtBot
) -> None:
    desk.selection.choose([Ref("pipe", "hot")])
    before = pipe_of(desk, "hot").route
    find(panel, qtbot)
    # plumb from the floor to the inlet, as it was laid: nothing level, no turn, so no joint in the wall
    inlet = desk.document.state.plan.ports["valve.hot"].at[1]
    assert ways(panel)[0].startswith(f"1. {inlet:g} mm long")
    assert "0 mm of it level" in ways(panel)[0]
    assert "0 turns" in ways(panel)[0]
    assert "0 joints buried" in ways(panel)[0]
    assert not panel.routes.buttons[0].isEnabled()  # it is led this way now
    choose(panel.routes.side, "left")
    assert panel.routes.buttons == []
    find(panel, qtbot)
    button = panel.routes.buttons[0]
    assert button.accessibleName() == f"Lead it this way: {ways(panel)[0]}"
    button.setFocus()
    key(button, Qt.Key.Key_Space)
    assert pipe_of(desk, "hot").route[0][0] == 0
    assert desk.undo_text == "Lead hot another way"
    assert panel.routes.side.value == "left"
    assert panel.routes.buttons == []
    desk.document.history.undo()
    assert pipe_of(desk, "hot").route == before


def test_what_blocks_every_way_is_told(panel: PipePanel, desk: Desk, qtbot: QtBot) -> None:
    wall = desk.job.wall
    hatch = Opening(id="hatch", x=0, y=300, width=wall.width, height=200)
    desk.document.edit("Add a hatch", desk.job.but(wall=wall.but(openings=(hatch,))))
    desk.selection.choose([Ref("pipe", "hot")])
    find(panel, qtbot)
    assert panel.routes.said.text() == "hot: no way was found. In the way: hatch."
    assert panel.routes.buttons == []


def test_ways_for_a_job_that_has_changed_are_taken_back(panel: PipePanel, desk: Desk, qtbot: QtBot) -> None:
    desk.selection.choose([Ref("pipe", "hot")])
    find(panel, qtbot)
    assert panel.routes.buttons != []
    desk.document.preview(desk.job.but(enclosure=desk.job.enclosure.but(left=20)))
    assert panel.routes.buttons == []
    assert panel.routes.said.text() == ""
    desk.document.cancel()
    press(panel.routes.finder)
    desk.selection.choose([Ref("pipe", "cold")])
    QThreadPool.globalInstance().waitForDone()
    QCoreApplication.processEvents()
    assert panel.routes.buttons == []


@pytest.fixture
def faulty_window(window: Window) -> Window:
    """Return a window in which the job with the planted faults is open."""
    window.open_sample(sample_path("planted-faults"))
    return window


def test_all_pipes_are_led_anew_as_one_step(faulty_window: Window, qtbot: QtBot) -> None:
    document = faulty_window.open_job.document
    before = document.job
    keys(faulty_window.bench.canvas, "Ctrl+Alt+R")
    qtbot.waitUntil(lambda: document.job != before, timeout=WAIT)
    assert document.history.count() == 1
    assert document.history.undo_text() == "Lead all pipes anew"
    assert faulty_window.bench.step == "pipe"
    assert document.job.but(pipes=before.pipes) == before
    keys(faulty_window.bench.canvas, "Ctrl+Z")
    assert document.job == before


def test_pipes_that_run_as_they_would_be_led_make_no_step(panel: PipePanel, desk: Desk, qtbot: QtBot) -> None:
    said: list[str] = []
    panel.refused.connect(said.append)
    panel.routes.lead_all()
    qtbot.waitUntil(lambda: desk.document.history.count() == 1 or said != [], timeout=WAIT)
    many, led = desk.document.history.count(), desk.job
    said.clear()
    panel.routes.lead_all()
    qtbot.waitUntil(lambda: said != [], timeout=WAIT)
    assert said == ["All pipes run already as they would be led."]
    assert (desk.document.history.count(), desk.job) == (many, led)
