"""The table of actions: all have one place and keys of their own, in menus and on the page of shortcuts."""

import re
from collections import Counter
from collections.abc import Iterator

import pytest
from PySide6.QtGui import QKeySequence
from PySide6.QtWidgets import QMainWindow, QMenu, QTableWidget
from pytestqt.qtbot import QtBot

from app.actions import ACTIONS, MENUS, ON_THE_WALL, SUBMENUS, Action
from app.menus import Menus, key_sequences
from app.shortcuts_page import ShortcutsPage, plain, rows
from tests.app.driving import child


class Bars:
    """A window with nothing but menus, and what was asked of it."""

    def __init__(self, qtbot: QtBot) -> None:
        self.window = QMainWindow()
        qtbot.addWidget(self.window)
        self.ran: list[str] = []
        self.menus = Menus(self.window.menuBar(), self.run)

    def run(self, action: Action) -> None:
        self.ran.append(action.id)


@pytest.fixture
def bars(qtbot: QtBot) -> Bars:
    return Bars(qtbot)


def repeated(values: Iterator[str]) -> list[str]:
    return [value for value, count in Counter(values).items() if count > 1]


def test_every_action_has_a_name_of_its_own() -> None:
    assert repeated(action.id for action in ACTIONS) == []
    assert repeated(plain(action.text) for action in ACTIONS) == []


def test_every_action_has_keys_that_no_other_has() -> None:
    assert [action.id for action in ACTIONS if not action.keys] == []
    assert repeated(keys.toString() for action in ACTIONS for keys in key_sequences(action)) == []
    wall = {QKeySequence(keys).toString() for keys, _ in ON_THE_WALL}
    assert wall & {keys.toString() for action in ACTIONS for keys in key_sequences(action)} == set()


def test_all_keys_are_keys_that_qt_knows() -> None:
    for action in ACTIONS:
        for keys in key_sequences(action):
            assert keys.toString(), action.id


def test_no_keys_that_type_or_move_the_cursor_are_taken_from_fields() -> None:
    for action in ACTIONS:
        for keys in key_sequences(action):
            held = keys.toString().startswith(("Ctrl+", "Alt+", "Shift+F"))
            is_function_key = re.fullmatch(r"F\d+", keys.toString())
            assert held or is_function_key or action.canvas_keys or keys.toString() == "Ins", action.id


@pytest.mark.parametrize("menu", MENUS)
def test_every_entry_of_a_menu_is_reached_by_a_letter_of_its_own(menu: str) -> None:
    texts = [action.text for action in ACTIONS if action.menu == menu]
    texts += [title for where, _, title in SUBMENUS.values() if where == menu]
    assert len(texts) > 1
    assert [text for text in texts if text.count("&") != 1] == []
    assert repeated(text[text.index("&") + 1].lower() for text in texts) == []


def test_the_menus_have_every_action_in_its_place(bars: Bars) -> None:
    assert len(bars.menus.entries) == len(ACTIONS)
    for name, bar_entry in zip(MENUS, bars.window.menuBar().actions(), strict=True):
        menu = bar_entry.menu()
        assert isinstance(menu, QMenu)
        entries = [entry.objectName() for entry in menu.actions() if entry.objectName()]
        assert entries == [action.id for action in ACTIONS if action.menu == name]


def test_an_entry_runs_its_action(bars: Bars) -> None:
    bars.menus.show_facts({"job"})
    bars.menus.entries["save"].trigger()
    assert bars.ran == ["save"]


def test_an_entry_can_be_chosen_only_while_what_it_needs_holds(bars: Bars) -> None:
    bars.menus.show_facts(set())
    assert not bars.menus.entries["save"].isEnabled()
    assert bars.menus.entries["open"].isEnabled()
    bars.menus.entries["save"].trigger()
    assert bars.ran == []


def test_what_is_in_force_is_ticked(bars: Bars) -> None:
    bars.menus.show_facts({"job", "stage:piped"})
    ticked = [name for name, entry in bars.menus.entries.items() if entry.isChecked()]
    assert ticked == ["stage-piped"]


def test_keys_of_the_wall_are_shown_but_left_to_the_wall(bars: Bars) -> None:
    entry = bars.menus.entries["nudge-left"]
    assert entry.shortcuts() == []
    assert entry.text().endswith("\tLeft")


def test_undo_is_called_after_what_it_takes_back(bars: Bars) -> None:
    bars.menus.name({"undo": "Undo Move rail"})
    assert bars.menus.entries["undo"].text() == "Undo Move rail"


def test_the_page_of_shortcuts_has_every_action_with_its_keys(qtbot: QtBot) -> None:
    page = ShortcutsPage()
    qtbot.addWidget(page)
    table = child(page, QTableWidget, "shortcuts")
    shown = {
        tuple(item.text() for column in range(3) if (item := table.item(row, column)) is not None)
        for row in range(table.rowCount())
    }
    assert shown == set(rows("On the wall"))
    assert len(shown) == len(ACTIONS) + len(ON_THE_WALL)
    assert ("File", "Save", "Ctrl+S") in shown
    assert ("Edit", "Redo", "Ctrl+Shift+Z, Ctrl+Y") in shown
