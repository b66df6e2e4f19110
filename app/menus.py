"""The menus, built from the table of actions."""

from collections.abc import Callable, Collection, Mapping
from functools import cached_property

from PySide6.QtCore import QCoreApplication, QObject
from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QMenu, QMenuBar

from app.actions import ACTIONS, MENUS, SUBMENUS, Action, Fact


def said(text: str) -> str:
    """Return a text of the table of actions in the user's language."""
    return QCoreApplication.translate("Actions", text)


def key_sequences(action: Action) -> list[QKeySequence]:
    """Return the shortcuts of an action."""
    return [QKeySequence(keys) for keys in action.keys.split(", ") if keys]


def shown_keys(keys: str) -> str:
    """Write the first shortcut as this computer writes it."""
    return QKeySequence(keys.split(", ")[0]).toString(QKeySequence.SequenceFormat.NativeText)


class Entry(QAction):
    """One action in its menu."""

    def __init__(self, action: Action, run: Callable[[Action], None], parent: QObject) -> None:
        super().__init__(said(action.text), parent)
        self.action, self._run_action = action, run
        self.setObjectName(action.id)
        if action.canvas_keys:  # shown, but the wall takes these keys by itself
            self.setText(f"{self.text()}\t{shown_keys(action.keys)}")
        else:
            self.setShortcuts(key_sequences(action))
        self.setCheckable(bool(action.ticked))
        self.triggered.connect(self._on_triggered)

    def show_facts(self, facts: Collection[Fact]) -> None:
        """Show whether it can be done and whether it is in force."""
        self.setEnabled(not self.action.needs or self.action.needs in facts)
        if self.action.ticked:
            self.setChecked(self.action.ticked in facts)

    def _on_triggered(self) -> None:
        self._run_action(self.action)


class Menus:
    """The menus of a window; what is in them is made when it is first wanted."""

    def __init__(self, bar: QMenuBar, run: Callable[[Action], None]) -> None:
        self._run = run
        self._menus = {name: bar.addMenu(said(title)) for name, title in MENUS.items()}
        self._submenus: dict[str, QMenu] = {}

    @cached_property
    def entries(self) -> dict[str, Entry]:
        """The entry of every action."""
        entries = {}
        for action in ACTIONS:
            menu = self._menus[action.menu]
            if action.after_line:
                menu.addSeparator()
            entries[action.id] = Entry(action, self._run, menu)
            menu.addAction(entries[action.id])
            for name, (_, place, title) in SUBMENUS.items():
                if place == action.id:
                    self._submenus[name] = menu.addMenu(said(title))
        return entries

    @property
    def submenus(self) -> dict[str, QMenu]:
        """The menus in menus, whose entries the window fills in."""
        _ = self.entries
        return self._submenus

    def show_facts(self, facts: Collection[Fact]) -> None:
        """Show which actions can be done and which are in force."""
        for entry in self.entries.values():
            entry.show_facts(facts)

    def name(self, names: Mapping[str, str]) -> None:
        """Give actions other words, such as `Undo Move rail`."""
        for key, text in names.items():
            self.entries[key].setText(text)
