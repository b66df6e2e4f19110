"""The step Measure: everything that is measured can be typed, and the panel follows the job."""

from collections.abc import Callable
from typing import Any

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QListWidget, QWidget

from app.fields import LengthField
from app.panels.form import Form
from app.panels.listing import Listing
from app.panels.measure import MeasurePanel
from app.panels.points import PointsField
from app.panels.section import Section
from geometry.edits.refs import Ref
from geometry.model import Accessory, Cable, Door, FarCut, Opening, Screen, Stud
from geometry.model.record import XY
from tests.app.panels.desk import Desk, choose, key, keys, line_of, press, set_cell, tick, type_into

Show = Callable[[QWidget], None]


@pytest.fixture
def panel(desk: Desk, shown: Show) -> MeasurePanel:
    made = MeasurePanel(*desk)
    shown(made)
    for section in made.findChildren(Section):
        section.open(True)
    return made


def add(listing: Listing[Any], place: int = 0) -> None:
    """Press the button that adds, or take an entry of its menu."""
    if listing.menu:
        listing.menu.actions()[place].trigger()
    else:
        press(listing.adders[place])


def open_form(listing: Listing[Any]) -> Form[Any]:
    return next(form for form in listing.forms if not form.isHidden())


def route(desk: Desk) -> tuple[XY, ...]:
    cable = desk.job.services[0]
    assert isinstance(cable, Cable)
    return cable.route


def points_of(form: Form[Any]) -> PointsField:
    field = form.field("Where it runs")
    assert isinstance(field, PointsField)
    return field


def test_a_typed_width_changes_the_wall_in_one_step(panel: MeasurePanel, desk: Desk) -> None:
    type_into(panel.wall.field("Width"), "1,5m")
    assert desk.job.wall.width == 1500
    assert desk.undo_text == "Change width of wall"
    desk.document.history.undo()
    assert desk.job.wall.width == 1200
    assert line_of(panel.wall.field("Width")).text() == "1200"


def test_an_impossible_width_changes_nothing_and_says_why(panel: MeasurePanel, desk: Desk) -> None:
    before = desk.job
    field = panel.wall.field("Width")
    type_into(field, "-5")
    assert desk.job is before
    assert field.problem == "Must be above 0 and at most 20000 mm, got -5."


def test_a_rim_below_the_floor_is_refused_by_the_model_in_words(panel: MeasurePanel, desk: Desk) -> None:
    before = desk.job
    field = panel.tray.field("Height of its rim")
    type_into(field, "10")
    assert desk.job is before
    assert field.problem == "Must not lie below the floor at 30 mm, got 10."


def test_steps_of_an_arrow_key_are_one_step_of_the_history_until_the_field_is_left(
    panel: MeasurePanel, desk: Desk
) -> None:
    line = line_of(panel.tray.field("Left edge, from the left"))
    line.setFocus()
    for _ in range(3):
        key(line, Qt.Key.Key_Up)
    assert desk.job.enclosure.left == 3
    assert desk.document.history.count() == 1
    line_of(panel.wall.field("Width")).setFocus()
    line.setFocus()
    key(line, Qt.Key.Key_Up)
    assert desk.document.history.count() == 2


def test_a_tray_is_taken_from_the_parts_and_stays_where_it_is(panel: MeasurePanel, desk: Desk) -> None:
    choose(panel.tray.field("As bought"), "tray-1200x900")
    tray = desk.job.enclosure
    assert (tray.width, tray.projection, tray.left) == (1200, 900, 0)
    type_into(panel.tray.field("Along the wall"), "1190")
    assert panel.tray.field("As bought").value is None


def test_the_entry_side_is_chosen(panel: MeasurePanel, desk: Desk) -> None:
    choose(panel.tray.field("People step in"), "right")
    assert desk.job.enclosure.entry == "right"


def test_lengths_follow_the_unit_that_is_chosen(panel: MeasurePanel, desk: Desk) -> None:
    desk.preferences.change(unit="cm")
    assert line_of(panel.wall.field("Width")).text() == "120"
    type_into(panel.wall.field("Width"), "130")
    assert desk.job.wall.width == 1300


def test_the_shell_is_asked_for_only_where_a_block_is_hollow(panel: MeasurePanel, desk: Desk) -> None:
    shell = panel.wall.field("Face shell of the block")
    assert shell.isHidden()
    choose(panel.wall.field("Made of"), "hollow_block")
    assert shell.isVisible()
    type_into(shell, "30")
    assert desk.job.wall.shell == 30
    type_into(shell, "")
    assert desk.job.wall.shell is None


def test_the_waste_appears_in_the_middle_when_it_is_known(panel: MeasurePanel, desk: Desk) -> None:
    assert panel.waste.isHidden()
    tick(panel.tray.field("The waste's place is known"))
    waste = desk.job.enclosure.waste
    assert waste is not None
    assert (waste.x, waste.z) == (380, 380)  # 760 / 2 each way
    type_into(panel.waste.field("Waste, from the wall"), "100")
    assert desk.job.enclosure.waste is not None
    assert desk.job.enclosure.waste.z == 100


def test_a_screen_and_a_door_are_added_edited_and_removed(panel: MeasurePanel, desk: Desk) -> None:
    add(panel.panes, 0)
    add(panel.panes, 1)
    (screen,), (door,) = desk.job.enclosure.screens, desk.job.enclosure.doors
    assert isinstance(screen, Screen)
    assert isinstance(door, Door)
    assert panel.panes.list.count() == 2
    assert screen.start[0] == 760  # entered from the left: the pane stands at the right edge
    form = open_form(panel.panes)
    type_into(form.field("Open, angle"), "135")
    assert desk.job.enclosure.doors[0].angle_to == 135
    press(panel.panes.remover)
    assert desk.job.enclosure.doors == ()
    assert desk.undo_text == "Remove door"


def test_a_door_that_would_swing_through_the_wall_is_refused(panel: MeasurePanel, desk: Desk) -> None:
    add(panel.panes, 1)
    form = open_form(panel.panes)
    field = form.field("Open, angle")
    type_into(field, "300")
    assert field.problem == "Must be within 180 degrees of angle_from, is 210 away."  # 300 - 90


@pytest.mark.parametrize(
    ("place", "kind"), [(0, Accessory), (1, Cable), (3, Stud)], ids=["socket", "cable", "stud"]
)
def test_what_is_in_the_wall_is_added_and_chosen_on_the_wall(
    place: int, kind: type, panel: MeasurePanel, desk: Desk
) -> None:
    add(panel.services, place)
    (service,) = desk.job.services
    assert isinstance(service, kind)
    assert desk.selection.refs == (Ref("service", service.id),)


def test_choosing_a_socket_on_the_wall_opens_its_form(panel: MeasurePanel, desk: Desk) -> None:
    add(panel.services, 0)
    add(panel.services, 3)
    first = desk.job.services[0]
    desk.selection.choose([Ref("service", first.id)])
    assert panel.services.index == 0
    form = open_form(panel.services)
    choose(form.field("It is a"), "fan")
    changed = desk.job.services[0]
    assert isinstance(changed, Accessory)
    assert changed.kind == "fan"


def test_a_new_name_keeps_the_thing_chosen(panel: MeasurePanel, desk: Desk) -> None:
    add(panel.services, 0)
    form = open_form(panel.services)
    type_into(form.field("Name"), "shaver-left")
    assert desk.selection.refs == (Ref("service", "shaver-left"),)
    assert panel.services.list.item(0).text().startswith("shaver-left")


def test_a_name_that_stands_already_is_refused(panel: MeasurePanel, desk: Desk) -> None:
    add(panel.services, 0)
    form = open_form(panel.services)
    field = form.field("Name")
    type_into(field, "rail")
    assert field.problem == "The name 'rail' is taken already."
    assert desk.job.services[0].id != "rail"


def test_studs_are_added_one_spacing_apart(panel: MeasurePanel, desk: Desk) -> None:
    add(panel.services, 3)
    add(panel.services, 3)
    places = [service.x for service in desk.job.services if isinstance(service, Stud)]
    assert places == [19, 419]  # half of 38, then 400 on


def test_the_points_of_a_cable_are_typed_added_and_removed(panel: MeasurePanel, desk: Desk) -> None:
    add(panel.services, 1)
    form = open_form(panel.services)
    field = points_of(form)
    set_cell(field.table, 0, 1, "50 cm")
    cable = desk.job.services[0]
    assert isinstance(cable, Cable)
    assert cable.route[0][1] == 500
    assert field.editor.accessibleName() == "Where it runs, cable"
    set_cell(field.table, 0, 1, "high")
    assert field.problem == "Not a length: 'high'."
    assert field.text(0, 1) == "500"
    field.table.setCurrentCell(0, 0)
    press(field.adder)
    assert route(desk)[1] == (910.0, 1450.0)  # midway between 500 and the ceiling at 2400
    press(field.remover)
    assert len(route(desk)) == 2
    assert not field.remover.isEnabled()  # a cable has two ends


def test_an_opening_is_added_at_the_right_end_of_the_wall(panel: MeasurePanel, desk: Desk) -> None:
    add(panel.openings)
    (opening,) = desk.job.wall.openings
    assert isinstance(opening, Opening)
    assert opening.x + opening.width == 1200


def test_the_other_face_is_unknown_until_somebody_has_looked(panel: MeasurePanel, desk: Desk) -> None:
    assert desk.job.wall.other_face is None
    tick(panel.looked_behind)
    assert desk.job.wall.other_face == ()
    add(panel.far_cuts)
    assert desk.job.wall.other_face is not None
    assert isinstance(desk.job.wall.other_face[0], FarCut)


def test_at_least_one_user_must_be_named(panel: MeasurePanel, desk: Desk) -> None:
    field = panel.house.field("Usual height")
    tick(field)
    assert desk.job.house.users == ("usual",)
    assert field.problem == "Must name at least one user, has none."
    tick(panel.house.field("Child"))
    tick(field)
    assert desk.job.house.users == ("child",)


def test_the_title_block_is_typed(panel: MeasurePanel, desk: Desk) -> None:
    type_into(panel.about.field("Title"), "En suite")
    assert desk.job.about.title == "En suite"
    notes = panel.about.field("Notes")
    notes.editor.setFocus()
    keys(notes.editor, "Tile to ceiling")
    key(notes.editor, Qt.Key.Key_Tab)
    assert desk.job.about.notes == "Tile to ceiling"


def test_an_undo_while_the_keyboard_is_in_a_field_keeps_it_there(panel: MeasurePanel, desk: Desk) -> None:
    field = panel.wall.field("Width")
    type_into(field, "1500")
    assert line_of(field).hasFocus()
    desk.document.history.undo()
    assert line_of(field).hasFocus()
    assert line_of(field).text() == "1200"


def test_a_hidden_panel_catches_up_when_it_is_shown(panel: MeasurePanel, desk: Desk) -> None:
    panel.hide()
    desk.document.edit("Widen", desk.job.but(wall=desk.job.wall.but(width=1400)))
    assert line_of(panel.wall.field("Width")).text() == "1200"
    panel.show()
    assert line_of(panel.wall.field("Width")).text() == "1400"


def test_every_field_and_list_of_the_panel_has_a_name_of_its_own(panel: MeasurePanel) -> None:
    fields = [field for field in panel.findChildren(LengthField) if field.isVisible()]
    names = [field.editor.accessibleName() for field in fields]
    assert len(names) == len(set(names))
    assert all(listing.accessibleName() for listing in panel.findChildren(QListWidget))
