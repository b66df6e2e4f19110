"""The step Pipe: the table, the form of the chosen pipe, and another pipe laid by keyboard alone."""

from collections.abc import Callable

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from app.panels.pipe import PipePanel
from app.panels.points import PointsField
from app.panels.section import Section
from geometry.edits.refs import Ref
from geometry.edits.routes import corners
from tests.app.panels.desk import Desk, choose, key, line_of, press, set_cell, type_into

Show = Callable[[QWidget], None]


@pytest.fixture
def panel(desk: Desk, shown: Show) -> PipePanel:
    made = PipePanel(*desk)
    shown(made)
    return made


def cells(panel: PipePanel, row: int) -> tuple[str, ...]:
    model = panel.model
    return tuple(str(model.data(model.index(row, column))) for column in range(model.columnCount()))


def route_of(panel: PipePanel) -> PointsField:
    field = panel.form.field("Corners on its way")
    assert isinstance(field, PointsField)
    return field


def chosen(panel: PipePanel) -> str:
    row = panel.table.currentIndex().row()
    return panel.model.names[row] if row >= 0 else ""


def test_the_table_tells_letter_ends_and_length_of_each_pipe(panel: PipePanel, desk: Desk) -> None:
    assert panel.model.names == ("hot", "cold", "riser", "branch")
    # from the floor to the inlet, whose place the plan knows
    inlet = desk.document.state.plan.ports["valve.hot"].at[1]
    assert cells(panel, 0) == ("H  hot", "The supply", "hot inlet of valve", f"{inlet:g} mm")
    assert cells(panel, 2)[:3] == ("1  riser", "outlet 1 of valve", "head")


def test_a_row_is_chosen_by_the_keyboard_and_on_the_wall(panel: PipePanel, desk: Desk) -> None:
    panel.table.setFocus()
    key(panel.table, Qt.Key.Key_Down)
    key(panel.table, Qt.Key.Key_Down)
    assert desk.selection.refs == (Ref("pipe", chosen(panel)),)
    desk.selection.choose([Ref("pipe", "riser")])
    assert chosen(panel) == "riser"
    assert panel.form.isVisible()
    assert panel.form.field("Name").value == "riser"


def test_tube_wrap_and_depth_are_changed(panel: PipePanel, desk: Desk) -> None:
    desk.selection.choose([Ref("pipe", "hot")])
    choose(panel.form.field("Tube"), "copper-22")
    type_into(panel.form.field("Wrap all round"), "9")
    type_into(panel.form.field("Depth of its centre"), "25")
    pipe = desk.job.pipes[0]
    assert (pipe.tube, pipe.wrap, pipe.depth) == ("copper-22", 9, 25)
    type_into(panel.form.field("Depth of its centre"), "")
    assert desk.job.pipes[0].depth is None


def test_the_feed_is_moved_by_typing_counted_from_the_tray(panel: PipePanel, desk: Desk) -> None:
    desk.document.edit("Shift", desk.job.but(enclosure=desk.job.enclosure.but(left=100)))
    desk.selection.choose([Ref("pipe", "hot")])
    field = route_of(panel)
    # the feed stands at 335 on the floor; the tray begins at 100 and its floor is at 30
    assert (field.text(0, 0), field.text(0, 1)) == ("235", "-30")
    set_cell(field.table, 0, 0, "200")
    assert desk.job.pipes[0].route[0] == (300.0, 0.0)
    assert desk.undo_text == "Reshape hot"


def test_a_feed_cannot_be_taken_from_a_pipe_that_has_no_other_place(panel: PipePanel, desk: Desk) -> None:
    desk.selection.choose([Ref("pipe", "hot")])
    field = route_of(panel)
    before = desk.job
    many = len(corners(desk.document.state.plan, "hot"))
    for _ in range(many):
        field.table.setCurrentCell(0, 0)
        press(field.remover)
    assert desk.job.pipes[0].route != ()
    assert field.problem == "Must have the place of its supply as its first point, has none."
    assert desk.job.but(pipes=before.pipes) == before


def test_a_corner_is_added_in_the_middle_of_a_straight_pipe(panel: PipePanel, desk: Desk) -> None:
    desk.selection.choose([Ref("pipe", "riser")])
    field = route_of(panel)
    assert field.value == ()
    press(field.adder)
    ports = desk.document.state.plan.ports
    middle = (ports["valve.out1"].at[1] + ports["head.in"].at[1]) / 2
    assert field.value == ((380.0, middle),)


def test_a_pipe_takes_its_feed_from_a_port_and_gives_it_back(panel: PipePanel, desk: Desk) -> None:
    desk.selection.choose([Ref("pipe", "riser")])
    start = panel.form.field("From")
    # the arrow keys pass over the other ports; the last before the feed is that for hot water
    port = desk.document.state.plan.ports["valve.hot"].at
    choose(start, None)
    riser = next(pipe for pipe in desk.job.pipes if pipe.id == "riser")
    assert (riser.start, riser.route[0]) == (None, port)
    choose(start, "valve.hot")
    riser = next(pipe for pipe in desk.job.pipes if pipe.id == "riser")
    assert riser.start == "valve.hot"


def test_another_name_keeps_the_row_and_the_keyboard(panel: PipePanel, desk: Desk) -> None:
    desk.selection.choose([Ref("pipe", "riser")])
    name = panel.form.field("Name")
    type_into(name, "to-the-head")
    assert chosen(panel) == "to-the-head"
    assert desk.selection.refs == (Ref("pipe", "to-the-head"),)
    assert line_of(name).hasFocus()


def test_a_pipe_is_removed(panel: PipePanel, desk: Desk) -> None:
    desk.selection.choose([Ref("pipe", "riser")])
    press(panel.remove)
    assert panel.model.names == ("hot", "cold", "branch")
    assert panel.form.isHidden()
    assert not panel.remove.isEnabled()


def test_drawing_is_asked_for_with_water_and_port(panel: PipePanel, qtbot: QtBot) -> None:
    choose(panel.water, "mixed")
    choose(panel.start, "valve.out2")
    with qtbot.waitSignal(panel.draw_pipe_requested) as heard:
        press(panel.draw)
    assert heard.args == ["mixed", "valve.out2"]


def test_a_missing_pipe_is_suggested_and_laid_without_the_mouse(panel: PipePanel, desk: Desk) -> None:
    desk.selection.choose([Ref("pipe", "cold")])
    press(panel.remove)
    choose(panel.water, "cold")
    assert (panel.start.value, panel.end.value) == (None, "valve.cold")
    panel.lay.setFocus()
    key(panel.lay, Qt.Key.Key_Space)
    pipe = desk.job.pipes[-1]
    assert (pipe.service, pipe.start, pipe.end) == ("cold", None, "valve.cold")
    assert pipe.route == ((425.0, 0.0),)  # plumb under the inlet: 380 + 45
    assert desk.selection.refs == (Ref("pipe", pipe.id),)


def test_a_mixed_pipe_from_a_feed_is_refused(panel: PipePanel, desk: Desk) -> None:
    before = desk.job
    choose(panel.water, "mixed")
    choose(panel.start, None)
    press(panel.lay)
    assert desk.job is before
    assert panel.problem.text() == "A pipe of mixed water must join a port at each end."


def test_tube_is_added_up_by_kind(panel: PipePanel, desk: Desk) -> None:
    desk.document.edit("Only hot", desk.job.but(pipes=desk.job.pipes[:1]))
    inlet = desk.document.state.plan.ports["valve.hot"].at[1]
    assert panel.total.text() == f"Copper 15 x 0.7: {inlet:g} mm"
    desk.document.edit("None", desk.job.but(pipes=()))
    assert panel.total.text() == ""
    assert panel.none.isVisible()
    assert panel.table.isHidden()


def test_lengths_follow_the_unit(panel: PipePanel, desk: Desk) -> None:
    desk.preferences.change(unit="cm")
    inlet = desk.document.state.plan.ports["valve.hot"].at[1]
    assert cells(panel, 0)[3] == f"{inlet / 10:g} cm"


def test_joints_and_turns_of_a_pipe_are_chosen(panel: PipePanel, desk: Desk) -> None:
    desk.selection.choose([Ref("pipe", "hot")])
    choose(panel.form.field("Joints"), "compression")
    choose(panel.form.field("Square turns"), "bends")
    assert (desk.job.pipes[0].jointing, desk.job.pipes[0].turns) == ("compression", "bends")
    choose(panel.form.field("Joints"), None)
    pipe = desk.job.pipes[0]
    assert pipe.jointing is None


def test_tube_to_use_up_measured_sizes_and_photographs_are_noted(panel: PipePanel, desk: Desk) -> None:
    for section in panel.findChildren(Section):
        section.open(True)
    type_into(panel.pipework.field("A new length of tube"), "2 m")
    press(panel.offcuts.adders[0])
    type_into(panel.offcuts.forms[0].field("Length"), "730")
    press(panel.measured.adders[0])
    type_into(panel.measured.forms[0].field("It is"), "13.5")
    press(panel.photographs.listing.adders[0])
    type_into(panel.photographs.listing.forms[0].field("Name of the file"), "wall 1.jpg")
    held = desk.job.pipework
    assert held.stock_length == 2000
    assert [offcut.length for offcut in held.offcuts] == [730]
    assert [size.value for size in held.measured] == [13.5]
    assert [picture.file for picture in held.photographs] == ["wall 1.jpg"]
    press(panel.offcuts.remover)
    assert desk.job.pipework.offcuts == ()
