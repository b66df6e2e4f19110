"""The best starts of the tiles: listed with reasons, shown while pointed at, taken as one step."""

from collections.abc import Callable, Iterator

import pytest
from PySide6.QtCore import QEvent, QPointF, Qt, QThreadPool
from PySide6.QtGui import QEnterEvent
from PySide6.QtWidgets import QApplication, QPushButton, QWidget
from pytestqt.qtbot import QtBot

from app.panels.build_up import BuildUpPanel
from app.panels.section import Section
from geometry.model import XY, Finish, FinishArea, HoseOutlet, Layer, Tiling, Valve
from tests.app.panels.desk import Desk, key, press, type_into

Show = Callable[[QWidget], None]
TILED = FinishArea(id="wall", layers=(Layer(kind="tile", thickness=9.0),))


def start(desk: Desk) -> XY:
    tiling = desk.job.finish.tiling
    assert tiling is not None
    return tiling.start_x, tiling.start_y


def tile(desk: Desk, tiling: Tiling | None) -> None:
    desk.document.edit("Tile", desk.job.but(finish=Finish(areas=(TILED,), tiling=tiling)))


@pytest.fixture
def panel(desk: Desk, shown: Show) -> Iterator[BuildUpPanel]:
    """The panel on a wall of 1200 x 2400, tiled with 300 x 300 without joints; only its valve is on it."""
    wall = desk.job.wall.but(width=1000.0, height=2400.0)
    tray = desk.job.enclosure.but(left=0.0, width=1000.0, floor=0.0, rim=0.0)
    valve = Valve(id="valve", part="valve-two-round", x=500.0, height=1050.0)
    job = desk.job.but(wall=wall, enclosure=tray, fittings=(valve,), hoses=(), pipes=())
    desk.document.edit("Clear the wall", job)
    tile(desk, Tiling(wide=300, high=300, joint=0, border=0))
    made = BuildUpPanel(*desk)
    shown(made)
    section = next(each for each in made.findChildren(Section) if made.starts in each.findChildren(QWidget))
    section.open(True)
    yield made
    made.starts.stop()
    QThreadPool.globalInstance().waitForDone()


def listed(panel: BuildUpPanel, qtbot: QtBot) -> list[str]:
    """Wait for the list; return what each of its buttons says to those who do not see it."""
    qtbot.waitUntil(lambda: bool(panel.starts.buttons))
    return [button.accessibleName() for button in panel.starts.buttons]


def point_at(button: QPushButton) -> None:
    middle = QPointF(button.rect().center())
    QApplication.sendEvent(button, QEnterEvent(middle, middle, button.mapToGlobal(middle)))


def test_starts_are_listed_best_first_with_their_reasons(panel: BuildUpPanel, qtbot: QtBot) -> None:
    # across, 1000 = 200 + 2 x 300 + 200; up, 2400 is 8 whole tiles, and the valve's centre at 1050 is the
    # middle of the tile from 900 to 1200: nothing can be better than that
    best = listed(panel, qtbot)[0]
    assert best.startswith(
        "Start here: First tile 200 mm from the left, 0 mm up; 200 mm or more of a tile at every edge;"
    )
    assert "alike on both sides of the centre line" in best
    assert "valve on the middle of a tile or joint, across and up" in best


def test_a_start_is_shown_while_it_is_pointed_at_and_taken_back_after(
    panel: BuildUpPanel, desk: Desk, qtbot: QtBot
) -> None:
    listed(panel, qtbot)
    button = panel.starts.buttons[0]
    point_at(button)
    assert start(desk) == (200, 0)
    assert desk.document.kept_job.finish.tiling == Tiling(wide=300, high=300, joint=0, border=0)
    QApplication.sendEvent(button, QEvent(QEvent.Type.Leave))
    assert start(desk) == (0, 0)
    assert desk.undo_text == "Tile"
    assert panel.starts.buttons[0] is button  # the list has stayed


def test_a_start_is_taken_by_the_keyboard_as_one_step(panel: BuildUpPanel, desk: Desk, qtbot: QtBot) -> None:
    listed(panel, qtbot)
    button = panel.starts.buttons[0]
    button.setFocus(Qt.FocusReason.TabFocusReason)
    assert start(desk) == (200, 0)
    key(button, Qt.Key.Key_Space)
    assert start(desk) == (200, 0)
    assert desk.undo_text == "Start the tiles at 200 mm, 0 mm"
    assert panel.starts.buttons[0].text() == "They start here now"
    desk.document.history.undo()
    assert start(desk) == (0, 0)
    assert panel.starts.buttons[0].text() == "Start here"


def test_the_list_follows_what_is_changed_but_not_the_start(
    panel: BuildUpPanel, desk: Desk, qtbot: QtBot
) -> None:
    listed(panel, qtbot)
    button = panel.starts.buttons[0]
    tile(desk, Tiling(wide=300, high=300, joint=0, border=0, start_x=17))
    QThreadPool.globalInstance().waitForDone()
    assert panel.starts.buttons[0] is button
    tile(desk, Tiling(wide=400, high=300, joint=0, border=0))
    # 1000 = 300 + 400 + 300, with the valve on the middle
    qtbot.waitUntil(
        lambda: "First tile 300 mm from the left, 0 mm up" in panel.starts.buttons[0].accessibleName()
    )


def test_fittings_may_move_within_what_is_allowed(panel: BuildUpPanel, desk: Desk, qtbot: QtBot) -> None:
    desk.document.edit("Move valve", desk.job.moved("valve", 490.0, 1050.0))
    type_into(panel.starts.tolerance, "10")
    qtbot.waitUntil(
        lambda: bool(panel.starts.buttons) and "to the right" in panel.starts.buttons[0].accessibleName()
    )
    assert "; all fittings 10 mm to the right; " in panel.starts.buttons[0].accessibleName()
    press(panel.starts.buttons[0])
    assert desk.job.fitting("valve").at == (500, 1050)
    assert start(desk) == (200, 0)
    type_into(panel.starts.tolerance, "60")
    assert panel.starts.tolerance.problem == "Must be at least 0 and at most 50 mm."


def test_why_there_is_no_best_start_is_said(panel: BuildUpPanel, desk: Desk, qtbot: QtBot) -> None:
    listed(panel, qtbot)
    tile(desk, None)
    qtbot.waitUntil(lambda: panel.starts.said.text().startswith("Nothing is tiled"))
    assert panel.starts.buttons == []
    # a hole of 30 with 25 on either side wants 80 of a tile of 75, and not all three can cut a joint
    near = [HoseOutlet(id=f"o{x}", part="outlet-round", x=x, height=500) for x in (480, 505, 530)]
    desk.document.edit("Add outlets", desk.job.but(fittings=tuple(near)))
    tile(desk, Tiling(wide=75, high=75, joint=1))
    qtbot.waitUntil(lambda: panel.starts.said.text().startswith("Wherever the tiles start, a hole comes"))
    assert panel.starts.buttons == []
