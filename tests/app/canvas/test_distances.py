"""Typing a distance over a running dimension, and dropping a part from the list.

The suggested job for a tray of 760 with its floor at 30: rail at x 570, its fixings at 1145 and 1795, valve
and outlet both 1000 above the tray's floor.
"""

import pytest
from PySide6.QtCore import QMimeData, QPoint, QPointF, QRect, Qt
from PySide6.QtGui import QDragEnterEvent, QDropEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLineEdit
from pytestqt.qtbot import QtBot

from app.canvas.canvas import PART_MIME
from app.canvas.tags import Tag
from geometry.edits.refs import Ref
from geometry.model import XY
from tests.app.canvas.conftest import Hand, Make

LEFT, NONE = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier


@pytest.fixture
def hand(make: Make) -> Hand:
    """A hand on the whole wall, so that every tag is seen."""
    return make(fitted=True)


def tag(hand: Hand, axis: str, distance: float) -> Tag:
    return next(tag for tag in hand.canvas.laid.tags if (tag.axis, tag.distance) == (axis, distance))


def click_tag(hand: Hand, axis: str, distance: float) -> QLineEdit:
    left, top, right, low = tag(hand, axis, distance).box
    QTest.mouseClick(hand.canvas, LEFT, NONE, QPoint(round((left + right) / 2), round((top + low) / 2)))
    field = hand.canvas.findChild(QLineEdit, "distance")
    assert isinstance(field, QLineEdit)
    return field


def enter(field: QLineEdit, text: str) -> None:
    QTest.keyClicks(field, text)
    QTest.keyClick(field, Qt.Key.Key_Return)


def test_a_typed_distance_moves_the_part_to_it(hand: Hand) -> None:
    # 1115 above the tray's floor is the lower fixing, 25 above the rail's foot
    field = click_tag(hand, "y", 1115.0)
    assert field.isVisible()
    assert field.text() == "1115"
    enter(field, "1200")
    assert hand.place_of("rail") == (570.0, 1205.0)  # 1200 + 30 - 25
    assert hand.titles == ["Move rail"]
    assert not field.isVisible()
    assert hand.canvas.hasFocus()


@pytest.mark.parametrize(
    ("typed", "x"), [("60cm", 600.0), ("380/2", 190.0), ('20"', 508.0), ("760 - 2*100", 560.0)]
)
def test_any_unit_and_sum_is_taken(hand: Hand, typed: str, x: float) -> None:
    hand.choose("fitting", "rail")
    enter(click_tag(hand, "x", 570.0), typed)
    assert hand.place_of("rail")[0] == x


def test_all_that_share_a_dimension_move_with_it(hand: Hand) -> None:
    enter(click_tag(hand, "y", 1000.0), "1050")
    assert (hand.place_of("valve")[1], hand.place_of("outlet")[1]) == (1080.0, 1080.0)
    assert hand.titles == ["Move 2 things"]


def test_only_the_chosen_one_of_those_that_share_a_dimension_moves(hand: Hand) -> None:
    hand.choose("fitting", "outlet")
    enter(click_tag(hand, "y", 1000.0), "1050")
    assert (hand.place_of("valve")[1], hand.place_of("outlet")[1]) == (1030.0, 1080.0)


def test_escape_leaves_everything_as_it_was(hand: Hand) -> None:
    field = click_tag(hand, "y", 1115.0)
    QTest.keyClicks(field, "1300")
    QTest.keyClick(field, Qt.Key.Key_Escape)
    assert not field.isVisible()
    assert hand.titles == []
    assert hand.canvas.hasFocus()


def test_what_is_no_length_is_said_and_can_be_typed_again(hand: Hand) -> None:
    said: list[str] = []
    hand.canvas.hint_changed.connect(said.append)
    field = click_tag(hand, "y", 1115.0)
    enter(field, "wide")
    assert said[-1].startswith("Not a length")
    assert field.isVisible()
    assert hand.titles == []
    enter(field, "1200")
    assert hand.place_of("rail")[1] == 1205.0


def test_a_place_off_the_face_of_the_earth_is_refused(hand: Hand) -> None:
    said: list[str] = []
    hand.canvas.hint_changed.connect(said.append)
    enter(click_tag(hand, "y", 1115.0), "900000")
    assert hand.titles == []
    assert any("20 m" in sentence for sentence in said)


def test_the_field_closes_when_something_else_is_pressed(hand: Hand) -> None:
    field = click_tag(hand, "y", 1115.0)
    hand.click((100.0, 1300.0))
    assert not field.isVisible()
    assert hand.titles == []


def test_the_field_is_large_enough_for_a_finger_and_stays_on_the_canvas(hand: Hand) -> None:
    hand.canvas.resize(400, 500)
    for each in [tag for tag in hand.canvas.laid.tags if tag.refs]:
        field = click_tag(hand, each.axis, each.distance)
        assert field.height() >= 40
        assert hand.canvas.rect().contains(field.geometry())


def test_the_click_is_said_for_others_to_hear(hand: Hand, qtbot: QtBot) -> None:
    with qtbot.waitSignal(hand.canvas.dimension_clicked) as said:
        click_tag(hand, "y", 1115.0)
    ref, axis, box = said.args
    assert (ref, axis) == (Ref("fitting", "rail"), "y")
    assert isinstance(box, QRect)


def test_a_tag_of_a_line_of_the_tray_is_not_typed_over(hand: Hand) -> None:
    click_tag(hand, "x", 760.0)
    assert not hand.canvas.findChild(QLineEdit, "distance").isVisible()  # type: ignore[union-attr]


def test_distances_are_shown_and_read_in_the_unit_that_is_chosen(hand: Hand) -> None:
    hand.canvas.set_options(hand.canvas.options._replace(unit="cm"))
    field = click_tag(hand, "y", 1115.0)
    assert field.text() == "111.5"
    enter(field, "120")
    assert hand.place_of("rail")[1] == 1205.0


# dropping


def drop(hand: Hand, mime: QMimeData, at: XY) -> QDropEvent:
    place = hand.place(at)
    action, moving = Qt.DropAction.CopyAction, Qt.KeyboardModifier.NoModifier
    enter = QDragEnterEvent(place, action, mime, LEFT, moving)
    QApplication.sendEvent(hand.canvas, enter)
    event = QDropEvent(QPointF(place), action, mime, LEFT, moving)
    if enter.isAccepted():
        QApplication.sendEvent(hand.canvas, event)
    else:
        event.ignore()
    return event


def test_a_part_that_is_dropped_is_said_with_its_place(hand: Hand) -> None:
    said: list[tuple[str, XY]] = []
    hand.canvas.part_dropped.connect(lambda part, at: said.append((part, at)))
    mime = QMimeData()
    mime.setData(PART_MIME, b"rail-900")
    assert drop(hand, mime, (200.0, 1500.0)).isAccepted()
    [(part, at)] = said
    assert part == "rail-900"
    assert at == pytest.approx((200.0, 1500.0), abs=2.0)  # to the pixel
    assert hand.titles == []


def test_what_is_no_part_is_not_taken(hand: Hand) -> None:
    mime = QMimeData()
    mime.setText("rail-900")
    assert not drop(hand, mime, (200.0, 1500.0)).isAccepted()
