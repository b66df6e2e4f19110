"""The table of all parts: what it tells, what can be typed into it, and that it chooses and removes."""

from collections.abc import Callable

import pytest
from PySide6.QtCore import QCoreApplication, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLineEdit, QWidget
from pytestqt.qtbot import QtBot

from app.panels.statuses import LOOKS
from app.panels.table import PartsTable
from app.panels.table_rows import ACROSS, COLUMNS, MORE, NAME, PART, UP, edited, row_of
from geometry.edits.refs import Ref, things
from geometry.model import Accessory, Cable, Joist, Opening, Rail, Service, Stud
from geometry.parts.catalogue import generic_parts
from geometry.plan import Plan
from geometry.rules import standard_rules
from tests.app.panels.desk import LEFT, Desk, key, keys
from tests.samples import SAMPLES, sample_job

Show = Callable[[QWidget], None]
EDIT, ACCESSIBLE = Qt.ItemDataRole.EditRole, Qt.ItemDataRole.AccessibleTextRole


@pytest.fixture
def table(desk: Desk, shown: Show) -> PartsTable:
    made = PartsTable(*desk)
    shown(made)
    made.resize(900, 500)
    return made


def row(table: PartsTable, name: str) -> int:
    return next(number for number, ref in enumerate(table.model.refs) if ref.id == name)


def text(table: PartsTable, name: str, column: int) -> str:
    return str(table.model.data(table.model.index(row(table, name), column)))


def type_cell(table: PartsTable, name: str, column: int, typed: str) -> None:
    """Go to a cell, begin to edit by F2, type, and press Enter."""
    view = table.view
    view.setFocus()
    view.setCurrentIndex(table.model.index(row(table, name), column))
    key(view, Qt.Key.Key_F2)
    editor = QApplication.focusWidget()
    assert isinstance(editor, QLineEdit)
    editor.selectAll()
    keys(editor, typed)
    key(editor, Qt.Key.Key_Return)
    QCoreApplication.processEvents()  # the table takes Enter only when the editor has had it


@pytest.mark.parametrize("name", SAMPLES)
def test_every_thing_of_a_sample_has_a_row_that_can_be_read(name: str) -> None:
    plan = Plan(sample_job(name), generic_parts(), standard_rules())
    for ref, thing in things(plan.job).items():
        cells = row_of(plan, ref, thing, "mm", None).cells
        assert len(cells) == COLUMNS - 1
        assert all(cells[:2])
        assert cells[NAME] == ref.id


def test_places_count_from_the_tray(table: PartsTable, desk: Desk) -> None:
    desk.document.edit("Shift", desk.job.but(enclosure=desk.job.enclosure.but(left=100)))
    # the valve at 380 and 1030, the tray from 100, its floor at 30
    assert (text(table, "valve", ACROSS), text(table, "valve", UP)) == ("280", "1000")
    desk.preferences.change(unit="cm")
    assert (text(table, "valve", ACROSS), text(table, "valve", UP)) == ("28", "100")
    assert table.model.headerData(ACROSS, Qt.Orientation.Horizontal) == "Across, cm"


def test_a_cell_is_heard_with_its_heading(table: PartsTable) -> None:
    index = table.model.index(row(table, "valve"), UP)
    assert table.model.data(index, ACCESSIBLE) == "Up, mm: 1000"


def test_the_worst_finding_of_each_part_is_told_by_mark_and_word(faulty: Desk, shown: Show) -> None:
    table = PartsTable(*faulty)
    shown(table)
    worst = faulty.document.state.findings[0]
    told = text(table, worst.parts[0], COLUMNS - 1)
    assert told == f"{LOOKS['clash'].mark} clash"


def test_a_typed_place_moves_the_part_by_the_keyboard_alone(table: PartsTable, desk: Desk) -> None:
    type_cell(table, "rail", ACROSS, "60 cm")
    assert desk.job.fitting("rail").x == 600
    assert desk.undo_text == "Move rail"
    type_cell(table, "rail", UP, "1000+150")
    assert desk.job.fitting("rail").height == 1180  # 1150 over the tray floor at 30


def test_nonsense_changes_nothing_and_is_said(table: PartsTable, desk: Desk, qtbot: QtBot) -> None:
    before = desk.job
    with qtbot.waitSignal(table.refused) as heard:
        type_cell(table, "rail", ACROSS, "wide")
    assert heard.args == ["Not a length: 'wide'."]
    assert desk.job is before
    assert text(table, "rail", ACROSS) == "570"


def test_a_name_and_a_part_are_typed(table: PartsTable, desk: Desk, qtbot: QtBot) -> None:
    type_cell(table, "rail", PART, "Rail 900")
    assert desk.job.fitting("rail").part == "rail-900"
    type_cell(table, "rail", NAME, "pole")
    assert isinstance(desk.job.fitting("pole"), Rail)
    assert desk.job.hoses[0].rail == "pole"
    with qtbot.waitSignal(table.refused) as heard:
        type_cell(table, "pole", PART, "towel rail")
    assert heard.args == ["No such part: 'towel rail'; there are rail-700, rail-900."]


def test_what_follows_from_others_is_not_edited(table: PartsTable) -> None:
    for name, column in (("hose", ACROSS), ("hot", UP), ("valve", MORE), ("valve", 0)):
        flags = table.model.flags(table.model.index(row(table, name), column))
        assert not flags & Qt.ItemFlag.ItemIsEditable, (name, column)


def test_rows_are_chosen_with_the_wall(table: PartsTable, desk: Desk) -> None:
    desk.selection.choose([Ref("fitting", "rail"), Ref("hose", "hose")])
    rows = {index.row() for index in table.view.selectionModel().selectedRows()}
    assert rows == {row(table, "rail"), row(table, "hose")}
    place = table.view.visualRect(table.model.index(row(table, "head"), NAME)).center()
    QTest.mouseClick(table.view.viewport(), LEFT, Qt.KeyboardModifier.NoModifier, place)
    assert desk.selection.refs == (Ref("fitting", "head"),)
    key(table.view, Qt.Key.Key_Down)
    assert desk.selection.refs == (Ref("fitting", "outlet"),)


def test_a_renamed_thing_stays_chosen_in_its_row(table: PartsTable, desk: Desk) -> None:
    desk.selection.choose([Ref("fitting", "rail")])
    type_cell(table, "rail", NAME, "pole")
    rows = {index.row() for index in table.view.selectionModel().selectedRows()}
    assert rows == {row(table, "pole")}
    assert desk.selection.refs == (Ref("fitting", "pole"),)


def test_delete_removes_what_is_chosen_and_undo_brings_it_back(table: PartsTable, desk: Desk) -> None:
    desk.selection.choose([Ref("fitting", "rail")])
    table.view.setFocus()
    key(table.view, Qt.Key.Key_Delete)
    assert "rail" not in {ref.id for ref in table.model.refs}
    desk.document.history.undo()
    assert "rail" in {ref.id for ref in table.model.refs}


def test_the_table_follows_a_gesture_in_steps(table: PartsTable, desk: Desk, qtbot: QtBot) -> None:
    desk.document.preview(desk.job.moved("rail", 600, 1120))
    assert text(table, "rail", ACROSS) == "570"  # the wall comes first
    qtbot.waitUntil(lambda: text(table, "rail", ACROSS) == "600")
    desk.document.cancel()
    assert text(table, "rail", ACROSS) == "570"


@pytest.mark.parametrize(
    ("thing", "across", "up"),
    [
        (Accessory(id="there", x=1000.0, height=450.0), 1000, 420),
        (Cable(id="there", route=((900.0, 450.0), (900.0, 2400.0))), 900, 420),
        (Stud(id="there", x=800.0), 800, None),
        (Joist(id="there", height=1200.0, left=50.0, right=1000.0), 50, 1170),
    ],
)
def test_what_is_in_the_wall_is_placed_and_moved_too(
    thing: Service, across: float, up: float | None, desk: Desk
) -> None:
    job = desk.job.but(services=(thing,))
    plan = Plan(job, generic_parts(), standard_rules())
    ref = Ref("service", "there")
    cells = row_of(plan, ref, thing, "mm", None).cells
    assert cells[ACROSS] == str(across)
    assert cells[UP] == ("" if up is None else str(up))
    _, moved_job = edited(plan, ref, ACROSS, str(across + 10), "mm")
    after = row_of(Plan(moved_job, generic_parts(), standard_rules()), ref, moved_job.services[0], "mm", None)
    assert after.cells[ACROSS] == str(across + 10)
    assert after.cells[UP] == cells[UP]


def test_an_opening_is_placed_by_its_lower_left_corner(desk: Desk) -> None:
    opening = Opening(id="window", x=700.0, y=1130.0, width=400.0, height=600.0)
    job = desk.job.but(wall=desk.job.wall.but(openings=(opening,)))
    plan = Plan(job, generic_parts(), standard_rules())
    cells = row_of(plan, Ref("opening", "window"), opening, "mm", None).cells
    assert (cells[ACROSS], cells[UP], cells[MORE]) == ("700", "1100", "400 x 600")
    with pytest.raises(ValueError, match="follows from others"):
        edited(plan, Ref("hose", "hose"), ACROSS, "5", "mm")
