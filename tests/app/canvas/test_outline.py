"""Outlining an area of the finish: dragged from corner to corner, snapping, one step, or given up."""

import pytest
from PySide6.QtCore import Qt

from geometry.build_up import build_up
from geometry.model import FinishArea, Layer, Region
from geometry.setting_out.arrangement import suggested_job
from tests.app.canvas.conftest import Hand, Make

THIN, THICK = Layer(kind="tile", thickness=9.0), Layer(kind="board", thickness=12.5)


@pytest.fixture
def areas(make: Make) -> Hand:
    """A hand on a wall of which `part` is to be a part, with board under its tiles."""
    job = suggested_job(760, 760, "left")
    areas = (FinishArea(id="part", layers=(THICK, THIN)), FinishArea(id="wall", layers=(THIN,)))
    hand = make(job.but(finish=job.finish.but(areas=areas, tiling=None)))
    hand.canvas.outline("part")
    return hand


def region(hand: Hand) -> Region | None:
    return hand.document.job.finish.areas[0].region


def test_an_area_is_outlined_from_corner_to_corner_as_one_step(areas: Hand) -> None:
    areas.drag((500.0, 1400.0), (300.0, 900.0), (120.0, 700.0))
    assert region(areas) == Region(x=120.0, y=700.0, width=380.0, height=700.0)
    assert areas.titles == ["Outline part"]
    assert areas.canvas.hands.gesture is None
    areas.document.history.undo()
    assert region(areas) is None


def test_the_finished_face_steps_while_the_area_is_dragged(areas: Hand) -> None:
    def thickness(x: float) -> float:
        return build_up(areas.document.job.finish, (x, 800.0)).planned

    assert thickness(600.0) == 21.5  # board and tile everywhere
    areas.press((500.0, 1400.0))
    areas.move((120.0, 700.0))
    assert (thickness(300.0), thickness(600.0)) == (21.5, 9.0)
    assert areas.document.kept_job.finish.areas[0].region is None
    areas.key(Qt.Key.Key_Escape)
    assert thickness(600.0) == 21.5
    assert areas.titles == []


def test_corners_snap_to_edges_and_stay_on_the_wall(areas: Hand) -> None:
    # the wall's left edge at 0 is beyond the pointer; its right edge, and the tray's, is at 760
    areas.drag((-50.0, 1400.0), (700.0, 900.0), (757.0, 800.0))
    assert region(areas) == Region(x=0.0, y=800.0, width=760.0, height=600.0)


def test_a_click_outlines_nothing_and_asks_again(areas: Hand) -> None:
    areas.click((300.0, 900.0))
    assert areas.titles == []
    assert areas.canvas.hands.feedback.hint == "Drag from one corner of part to the opposite one."
    areas.drag((500.0, 1400.0), (300.0, 1000.0))
    assert areas.titles == ["Outline part"]
