"""The step Set out: parts are added, placed by number, arranged and named; pipes and hoses follow."""

from collections.abc import Callable
from typing import Any

import pytest
from PySide6.QtCore import QMimeData, QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from app.canvas.canvas import PART_MIME
from app.fields import Field
from app.panels import parts_list
from app.panels.choice_fields import ChoiceField
from app.panels.set_out import SetOutPanel, usual_place
from geometry.edits.refs import TILES, Ref
from geometry.model import Head, Rail, Valve
from geometry.parts.catalogue import generic_parts
from geometry.parts.records import HandsetPart, OutletPart, RailPart
from tests.app.panels.desk import LEFT, Desk, choose, key, keys, line_of, press, type_into

Show = Callable[[QWidget], None]


@pytest.fixture
def panel(desk: Desk, shown: Show) -> SetOutPanel:
    made = SetOutPanel(*desk)
    made.resize(400, 1400)
    shown(made)
    return made


def field(panel: SetOutPanel, label: str) -> Field:
    assert panel.properties.form is not None
    return panel.properties.form.field(label)


def fitting(name: str) -> Ref:
    return Ref("fitting", name)


def test_nothing_chosen_shows_no_form_and_says_what_to_do(panel: SetOutPanel) -> None:
    assert panel.properties.form is None
    assert panel.chosen.text().startswith("Nothing yet")
    assert not panel.buttons["duplicate"].isEnabled()
    assert panel.buttons["hand"].isEnabled()


def test_the_place_is_shown_from_the_tray_and_from_the_wall(panel: SetOutPanel, desk: Desk) -> None:
    desk.document.edit("Shift", desk.job.but(enclosure=desk.job.enclosure.but(left=100)))
    desk.selection.choose([fitting("valve")])
    # the valve stays at 380 and 1030; the tray begins at 100 and its floor is at 30
    assert line_of(field(panel, "From the tray's left")).text() == "280"
    assert line_of(field(panel, "Above the tray floor")).text() == "1000"
    assert line_of(field(panel, "From the wall's left")).text() == "380"
    assert line_of(field(panel, "Above the finished floor")).text() == "1030"


def test_places_count_from_the_bath_where_there_is_one(panel: SetOutPanel, desk: Desk) -> None:
    desk.selection.choose([fitting("valve")])
    desk.document.edit("Change", desk.job.but(enclosure=desk.job.enclosure.but(kind="bath")))
    assert line_of(field(panel, "From the bath's left")).accessibleName() == "From the bath's left"
    assert line_of(field(panel, "Above the bath floor")).text() == "1000"  # 1030 less the floor at 30


def test_a_typed_height_moves_the_valve_and_its_straight_pipes(panel: SetOutPanel, desk: Desk) -> None:
    desk.selection.choose([fitting("valve")])
    type_into(field(panel, "Above the tray floor"), "1100")
    assert desk.job.fitting("valve").at == (380, 1130)
    assert desk.undo_text == "Move valve"
    type_into(field(panel, "From the tray's left"), "400")
    plan = desk.document.state.plan
    # the feeds stay plumb under the inlets: 45 either side of the centre
    assert plan.courses["hot"].points[0][0] == 355
    assert plan.courses["cold"].points[0][0] == 445


def test_a_recess_is_set_by_hand_and_given_back_to_the_finish(panel: SetOutPanel, desk: Desk) -> None:
    desk.selection.choose([fitting("valve")])
    recess = field(panel, "Depth of its recess")
    target = desk.document.state.plan.depths["valve"].target
    assert line_of(recess).placeholderText() == f"{target:g} mm if empty"
    type_into(recess, "65")
    valve = desk.job.fitting("valve")
    assert isinstance(valve, Valve)
    assert valve.recess == 65
    type_into(recess, "")
    valve = desk.job.fitting("valve")
    assert isinstance(valve, Valve)
    assert valve.recess is None


def test_side_reach_slider_and_hose_are_chosen(panel: SetOutPanel, desk: Desk) -> None:
    desk.selection.choose([fitting("valve")])
    choose(field(panel, "An outlet leaves it on the"), "left")
    desk.selection.choose([fitting("head")])
    type_into(field(panel, "Reach from the finished face"), "300")
    desk.selection.choose([fitting("rail")])
    type_into(field(panel, "Slider above the rail's foot"), "400")
    desk.selection.choose([Ref("hose", "hose")])
    choose(field(panel, "Part"), "hose-1750")
    valve, head, rail = (desk.job.fitting(name) for name in ("valve", "head", "rail"))
    assert isinstance(valve, Valve)
    assert valve.side == "left"
    assert isinstance(head, Head)
    assert head.reach == 300
    assert isinstance(rail, Rail)
    assert rail.slider == 400
    assert desk.job.hoses[0].part == "hose-1750"


def test_only_parts_of_the_same_kind_can_take_a_place(panel: SetOutPanel, desk: Desk) -> None:
    desk.selection.choose([fitting("rail")])
    part = field(panel, "Part")
    assert isinstance(part, ChoiceField)
    rails = [held.id for held in generic_parts() if isinstance(held, RailPart)]
    assert list(part.values) == rails
    choose(part, "rail-900")
    assert desk.job.fitting("rail").part == "rail-900"


def test_a_part_without_the_ports_in_use_is_refused_in_a_sentence(panel: SetOutPanel, desk: Desk) -> None:
    desk.selection.choose([fitting("valve")])
    before = desk.job
    part = field(panel, "Part")
    part.entered.emit("valve-one-round")
    assert desk.job is before
    assert part.problem.startswith("No port is called 'valve.out2'")


def test_a_new_name_goes_along_hoses_and_pipes_and_stays_chosen(panel: SetOutPanel, desk: Desk) -> None:
    desk.selection.choose([fitting("outlet")])
    name = field(panel, "Name")
    type_into(name, "elbow")
    assert desk.job.hoses[0].outlet == "elbow"
    assert next(pipe for pipe in desk.job.pipes if pipe.id == "branch").end == "elbow.in"
    assert desk.selection.refs == (fitting("elbow"),)
    assert line_of(name).hasFocus()
    desk.document.history.undo()
    assert desk.selection.refs == (fitting("outlet"),)


@pytest.mark.parametrize("bad", ["rail", "a.b", ""])
def test_a_name_that_is_taken_or_impossible_is_refused(bad: str, panel: SetOutPanel, desk: Desk) -> None:
    desk.selection.choose([fitting("outlet")])
    before = desk.job
    type_into(field(panel, "Name"), bad)
    assert desk.job is before
    assert field(panel, "Name").problem != ""


def test_a_part_is_found_by_words_and_added_by_enter(panel: SetOutPanel, desk: Desk) -> None:
    panel.focus_parts()
    keys(panel.parts.filter, "rail 900")
    assert panel.parts.list.count() == 1
    key(panel.parts.filter, Qt.Key.Key_Return)
    added = desk.job.fittings[-1]
    assert (added.part, added.id) == ("rail-900", "rail-2")
    assert desk.selection.refs == (fitting("rail-2"),)
    assert desk.undo_text == "Add rail-2"
    # the quarter line at 570 is taken: 100 aside
    assert added.at == (670, 1120)


def test_parts_are_added_from_the_list_by_key_button_and_double_click(panel: SetOutPanel, desk: Desk) -> None:
    choose(panel.parts.kind, "head")
    assert panel.parts.list.count() == 4
    many = len(desk.job.fittings)
    panel.parts.list.setFocus()
    key(panel.parts.list, Qt.Key.Key_Down)
    key(panel.parts.list, Qt.Key.Key_Return)
    assert isinstance(desk.job.fittings[-1], Head)
    assert desk.job.fittings[-1].part == "head-wall-250"
    press(panel.parts.add)
    place = panel.parts.list.visualItemRect(panel.parts.list.item(0)).center()
    press(panel.parts.list.viewport(), place)  # a double click begins with a click
    QTest.mouseDClick(panel.parts.list.viewport(), LEFT, Qt.KeyboardModifier.NoModifier, place)
    assert len(desk.job.fittings) == many + 3


def test_words_that_no_part_has_leave_nothing_to_add(panel: SetOutPanel) -> None:
    keys(panel.parts.filter, "boiler")
    assert panel.parts.list.count() == 0
    assert not panel.parts.add.isEnabled()


def test_a_second_hose_is_refused_while_there_is_nothing_to_hang_it_on(
    panel: SetOutPanel, desk: Desk, qtbot: QtBot
) -> None:
    with qtbot.waitSignal(panel.refused) as heard:
        panel.add_part("hose-1500")
    assert heard.args == ["A hose wants an outlet and a rail that have none yet."]
    assert len(desk.job.hoses) == 1


def test_a_part_is_dragged_out_of_the_list(panel: SetOutPanel, monkeypatch: pytest.MonkeyPatch) -> None:
    dragged: list[str] = []

    class FakeDrag:
        """Stands in for the system's drag, which would wait for a drop."""

        def __init__(self, source: QWidget) -> None:
            self.source = source

        def setMimeData(self, data: QMimeData) -> None:  # noqa: N802
            dragged.append(bytes(data.data(PART_MIME).data()).decode())

        def exec(self, _action: Any) -> None:
            pass

    monkeypatch.setattr(parts_list, "QDrag", FakeDrag)
    view = panel.parts.list.viewport()
    at = panel.parts.list.visualItemRect(panel.parts.list.item(1)).center()
    QTest.mousePress(view, LEFT, Qt.KeyboardModifier.NoModifier, at)
    QTest.mouseMove(view, at + QPoint(2, 0))
    assert dragged == []
    QTest.mouseMove(view, at + QPoint(60, 0))
    QTest.mouseRelease(view, LEFT, Qt.KeyboardModifier.NoModifier, at)
    assert dragged == ["valve-two-round"]


def test_two_things_are_brought_level_and_three_spaced(panel: SetOutPanel, desk: Desk) -> None:
    desk.selection.choose([fitting("valve"), fitting("outlet")])
    assert panel.buttons["level"].isEnabled()
    assert not panel.buttons["across"].isEnabled()
    assert panel.properties.form is None
    press(panel.buttons["plumb"])
    assert desk.job.fitting("outlet").x == 380
    desk.document.history.undo()
    desk.selection.choose([fitting("valve"), fitting("outlet"), fitting("head")])
    press(panel.buttons["up"])
    heights = sorted(desk.job.fitting(name).height for name in ("valve", "outlet", "head"))
    assert heights[1] - heights[0] == pytest.approx(heights[2] - heights[1], abs=0.1)


def test_the_other_hand_duplicate_and_remove(panel: SetOutPanel, desk: Desk) -> None:
    press(panel.buttons["hand"])
    assert desk.job.fitting("rail").x == 190  # the quarter line on the left: 760 / 4
    desk.selection.choose([fitting("rail")])
    press(panel.buttons["duplicate"])
    assert isinstance(desk.job.fittings[-1], Rail)
    press(panel.buttons["remove"])
    assert [f.id for f in desk.job.fittings] == ["valve", "head", "outlet", "rail"]


def test_a_removed_thing_leaves_no_form(panel: SetOutPanel, desk: Desk) -> None:
    desk.selection.choose([fitting("rail")])
    press(panel.buttons["remove"])
    assert panel.properties.form is None
    assert not panel.buttons["remove"].isEnabled()


def test_the_form_follows_a_drag_on_the_wall(panel: SetOutPanel, desk: Desk) -> None:
    desk.selection.choose([fitting("rail")])
    desk.document.preview(desk.job.moved("rail", 600, 1120))
    assert line_of(field(panel, "From the wall's left")).text() == "600"
    desk.document.cancel()
    assert line_of(field(panel, "From the wall's left")).text() == "570"


def test_a_handset_has_no_place_of_its_own(desk: Desk) -> None:
    handset = next(part for part in generic_parts() if isinstance(part, HandsetPart))
    with pytest.raises(ValueError, match="is not fitted to the wall by itself"):
        usual_place(desk.job, handset)


def test_a_new_outlet_goes_to_the_rails_quarter_line(desk: Desk) -> None:
    bare = desk.job.but(fittings=(), hoses=(), pipes=())
    part = generic_parts().find("outlet-round", OutletPart)
    assert usual_place(bare, part) == (570, 1030)  # 760 * 3/4, and 1000 over the tray floor at 30


def test_chosen_tiles_are_told(panel: SetOutPanel, desk: Desk) -> None:
    desk.selection.choose([TILES])
    assert panel.chosen.text() == "The tiles, moved by the corner of the first one."
    assert not panel.buttons["remove"].isEnabled()
