"""Looking about: wheel, two fingers, middle button, Space, touch, pinch, keys; the job is never touched.

The hand's canvas is 1200 x 1000 pixels at 1 pixel a mm, the wall's origin at pixel (200, 1600).
"""

import pytest
from PySide6.QtCore import QEvent, QPoint, QPointF, Qt
from PySide6.QtGui import QNativeGestureEvent, QPointingDevice, QWheelEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.canvas.gestures.look import wheel_view
from app.canvas.view import View
from tests.app.canvas.conftest import Hand, Make

MIDDLE = Qt.MouseButton.MiddleButton
NO_PHASE, SCROLLING = Qt.ScrollPhase.NoScrollPhase, Qt.ScrollPhase.ScrollUpdate
NONE, CTRL = Qt.KeyboardModifier.NoModifier, Qt.KeyboardModifier.ControlModifier
EMPTY = (100.0, 1500.0)
"""A point of the bare wall."""


def turn(
    hand: Hand,
    at: QPoint,
    angle: QPoint,
    pixels: QPoint | None = None,
    *,
    phase: Qt.ScrollPhase = NO_PHASE,
    held: Qt.KeyboardModifier = NONE,
) -> None:
    event = QWheelEvent(
        QPointF(at),
        QPointF(hand.canvas.mapToGlobal(at)),
        pixels or QPoint(0, 0),
        angle,
        Qt.MouseButton.NoButton,
        held,
        phase,
        False,
    )
    QApplication.sendEvent(hand.canvas, event)


def test_a_wheel_zooms_to_the_cursor(hand: Hand) -> None:
    at = QPoint(700, 300)
    under = hand.canvas.view.to_wall((700.0, 300.0))
    turn(hand, at, QPoint(0, 120))
    assert hand.canvas.view.scale == pytest.approx(1.2)  # one notch
    assert hand.canvas.view.to_screen(under) == pytest.approx((700.0, 300.0))
    for _ in range(9):
        turn(hand, at, QPoint(0, -120))
    assert hand.canvas.view.to_screen(under) == pytest.approx((700.0, 300.0))


def test_two_fingers_on_a_trackpad_pan(hand: Hand) -> None:
    turn(hand, QPoint(700, 300), QPoint(0, 40), QPoint(-30, 20), phase=SCROLLING)
    assert hand.canvas.view == View(1.0, 170.0, 1620.0)


def test_two_fingers_pan_even_if_the_trackpad_says_no_pixels(hand: Hand) -> None:
    turn(hand, QPoint(700, 300), QPoint(-30, 20), phase=SCROLLING)
    assert hand.canvas.view == View(1.0, 170.0, 1620.0)


def test_ctrl_and_two_fingers_zoom(hand: Hand) -> None:
    turn(hand, QPoint(700, 300), QPoint(0, 120), QPoint(0, 60), phase=SCROLLING, held=CTRL)
    assert hand.canvas.view.scale == pytest.approx(1.2)


def test_ctrl_and_two_fingers_zoom_even_if_only_pixels_are_said() -> None:
    # as some trackpads do
    view = wheel_view(View(), (0.0, 0.0), (0.0, 0.0), (0.0, 120.0), scrolls=True, zooms=True)
    assert view.scale == pytest.approx(1.2)


def test_the_middle_button_drags_the_wall(hand: Hand) -> None:
    # at 700 over 700: 60 right and 40 up on the screen
    hand.press((500.0, 900.0), button=MIDDLE)
    QTest.mouseMove(hand.canvas, QPoint(700 + 60, 700 - 40))
    hand.release((500.0, 900.0), button=MIDDLE)
    assert hand.canvas.view == View(1.0, 260.0, 1560.0)
    assert hand.titles == []


def test_space_and_drag_pans_even_over_a_part(hand: Hand) -> None:
    QTest.keyPress(hand.canvas, Qt.Key.Key_Space)
    hand.press((570.0, 1300.0))
    QTest.mouseMove(hand.canvas, QPoint(770 + 25, 300 + 35))
    QTest.mouseRelease(hand.canvas, Qt.MouseButton.LeftButton, NONE, QPoint(770 + 25, 300 + 35))
    QTest.keyRelease(hand.canvas, Qt.Key.Key_Space)
    assert hand.canvas.view == View(1.0, 225.0, 1635.0)
    assert hand.place_of("rail") == (570.0, 1120.0)
    assert hand.selection.refs == ()


def test_plus_minus_and_nought_zoom_about_the_middle_and_fit(hand: Hand) -> None:
    middle = hand.canvas.view.to_wall((600.0, 500.0))
    hand.key(Qt.Key.Key_Plus)
    assert hand.canvas.view.scale == pytest.approx(1.25)
    assert hand.canvas.view.to_screen(middle) == pytest.approx((600.0, 500.0))
    hand.key(Qt.Key.Key_Minus)
    assert hand.canvas.view.scale == pytest.approx(1.0)
    hand.key(Qt.Key.Key_0)
    # 1000 - 40 - 70 pixels for 2400 mm of wall, below which the pipes' wrap reaches by 15 / 2 + 4 mm
    assert hand.canvas.view.scale == pytest.approx(890 / 2411.5)


def test_the_wall_cannot_be_pushed_off_the_screen(hand: Hand) -> None:
    for _ in range(100):
        turn(hand, QPoint(700, 300), QPoint(0, 0), QPoint(500, 0), phase=SCROLLING)
    left = hand.canvas.view.to_screen((0.0, 0.0))[0]
    assert left == pytest.approx(1200 - 60)


def test_resizing_keeps_the_middle_of_what_is_seen(hand: Hand) -> None:
    middle = hand.canvas.view.to_wall((600.0, 500.0))
    hand.canvas.resize(900, 700)
    assert hand.canvas.view.to_screen(middle) == pytest.approx((450.0, 350.0))
    assert hand.canvas.view.scale == 1.0


def test_a_wall_that_is_fitted_in_stays_fitted_when_the_window_is_resized(make: Make) -> None:
    hand = make(fitted=True)
    hand.canvas.resize(900, 700)
    assert hand.canvas.view.scale == pytest.approx((700 - 110) / 2411.5)


def test_a_wider_wall_is_fitted_in_again_but_not_under_a_closer_look(make: Make) -> None:
    hand = make(fitted=True)
    job = hand.document.job
    hand.document.edit("Make the wall wider", job.but(wall=job.wall.but(width=4000.0)))
    # 4000 mm in 1200 - 190 - 60 pixels
    assert hand.canvas.view.scale == pytest.approx(950 / 4000)
    hand.canvas.look(View(1.0, 200.0, 1600.0))
    hand.document.history.undo()
    assert hand.canvas.view == View(1.0, 200.0, 1600.0)


# fingers


@pytest.fixture
def screen() -> QPointingDevice:
    return QTest.createTouchDevice()


def test_one_finger_on_the_bare_wall_pans(hand: Hand, screen: QPointingDevice) -> None:
    start = hand.place(EMPTY)
    QTest.touchEvent(hand.canvas, screen).press(0, start)
    QTest.touchEvent(hand.canvas, screen).move(0, start + QPoint(50, 30))
    QTest.touchEvent(hand.canvas, screen).release(0, start + QPoint(50, 30))
    assert hand.canvas.view == View(1.0, 250.0, 1630.0)
    assert hand.selection.refs == ()


def test_one_finger_drags_a_part_from_as_far_off_as_fingers_miss(hand: Hand, screen: QPointingDevice) -> None:
    start = hand.place((596.0, 1300.0))  # 15 mm beside the bar of the rail, whose radius is 11
    QTest.touchEvent(hand.canvas, screen).press(0, start)
    QTest.touchEvent(hand.canvas, screen).move(0, start + QPoint(-30, 0))
    QTest.touchEvent(hand.canvas, screen).move(0, start + QPoint(-50, 0))
    QTest.touchEvent(hand.canvas, screen).release(0, start + QPoint(-50, 0))
    assert hand.titles == ["Move rail"]
    assert hand.place_of("rail")[0] == pytest.approx(520.0, abs=12.0)


def test_a_second_finger_ends_a_drag_without_a_trace(hand: Hand, screen: QPointingDevice) -> None:
    start = hand.place((570.0, 1300.0))
    before = hand.document.job
    QTest.touchEvent(hand.canvas, screen).press(0, start)
    QTest.touchEvent(hand.canvas, screen).move(0, start + QPoint(-40, 0))
    assert hand.document.job != before
    QTest.touchEvent(hand.canvas, screen).move(0, start + QPoint(-40, 0)).press(1, start + QPoint(90, 0))
    assert hand.document.job is before
    QTest.touchEvent(hand.canvas, screen).release(0, start).release(1, start + QPoint(90, 0))
    assert hand.titles == []


def test_two_fingers_zoom_and_pan_so_that_the_wall_sticks_to_them(
    hand: Hand, screen: QPointingDevice
) -> None:
    # Qt's offscreen window stands at (2, 2), and QTest takes places of the window for those of the screen
    off = hand.canvas.mapFromGlobal(QPoint(0, 0))

    def both(verb: str, left: int, right: int) -> None:
        touch = QTest.touchEvent(hand.canvas, screen)  # which is sent when it is forgotten
        getattr(touch, verb)(0, QPoint(left, 400) - off)
        getattr(touch, verb)(1, QPoint(right, 400) - off)

    under = hand.canvas.view.to_wall((650.0, 400.0)), hand.canvas.view.to_wall((750.0, 400.0))
    both("press", 650, 750)
    both("move", 640, 780)
    both("move", 600, 850)
    both("release", 600, 850)
    assert hand.canvas.view.scale == pytest.approx(2.5)  # 250 pixels apart instead of 100
    assert hand.canvas.view.to_screen(under[0]) == pytest.approx((600.0, 400.0))
    assert hand.canvas.view.to_screen(under[1]) == pytest.approx((850.0, 400.0))
    assert hand.titles == []


def test_lifting_one_of_two_fingers_does_not_jump(hand: Hand, screen: QPointingDevice) -> None:
    QTest.touchEvent(hand.canvas, screen).press(0, QPoint(650, 400)).press(1, QPoint(750, 400))
    QTest.touchEvent(hand.canvas, screen).release(0, QPoint(650, 400)).stationary(1)
    before = hand.canvas.view
    QTest.touchEvent(hand.canvas, screen).move(1, QPoint(800, 500))
    QTest.touchEvent(hand.canvas, screen).release(1, QPoint(800, 500))
    assert hand.canvas.view == before


@pytest.mark.parametrize(
    ("kind", "value", "expected"),
    [
        (Qt.NativeGestureType.ZoomNativeGesture, 0.5, View(1.5, -50.0, 2200.0)),
        (Qt.NativeGestureType.RotateNativeGesture, 0.5, View(1.0, 200.0, 1600.0)),
    ],
)
def test_a_trackpad_that_says_its_pinches_itself(
    hand: Hand, kind: Qt.NativeGestureType, value: float, expected: View
) -> None:
    at = QPointF(700, 400)
    device = QPointingDevice.primaryPointingDevice()
    event = QNativeGestureEvent(kind, device, 2, at, at, at, value, QPointF(0, 0))
    QApplication.sendEvent(hand.canvas, event)
    assert hand.canvas.view == pytest.approx(expected)


def test_looking_about_is_no_history_and_is_said(hand: Hand, qtbot: QtBot) -> None:
    with qtbot.waitSignal(hand.canvas.view_changed) as said:
        turn(hand, QPoint(700, 300), QPoint(0, 120))
    assert said.args == [pytest.approx(1.2)]
    assert hand.titles == []
    assert hand.document.is_saved


def test_hovering_names_what_is_pointed_at_and_leaving_forgets_it(hand: Hand) -> None:
    QTest.mouseMove(hand.canvas, hand.place((570.0, 1300.0)))
    assert any(name.words == "rail: Rail 700" for name in hand.canvas.laid.names)
    QApplication.sendEvent(hand.canvas, QEvent(QEvent.Type.Leave))
    assert hand.canvas.hands.pointed is None
