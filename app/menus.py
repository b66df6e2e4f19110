"""The menus, built from the table of actions."""

from collections.abc import Callable, Collection, Mapping

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
    """The menus of a window."""

    def __init__(self, bar: QMenuBar, run: Callable[[Action], None]) -> None:
        self.entries: dict[str, Entry] = {}
        self.submenus: dict[str, QMenu] = {}
        menus = {name: bar.addMenu(said(title)) for name, title in MENUS.items()}
        for action in ACTIONS:
            menu = menus[action.menu]
            if action.after_line:
                menu.addSeparator()
            entry = Entry(action, run, menu)
            menu.addAction(entry)
            self.entries[action.id] = entry
            self._add_submenus(menu, action.id)

    def _add_submenus(self, menu: QMenu, after: str) -> None:
        for name, (_, place, title) in SUBMENUS.items():
            if place == after:
                self.submenus[name] = menu.addMenu(said(title))

    def show_facts(self, facts: Collection[Fact]) -> None:
        """Show which actions can be done and which are in force."""
        for entry in self.entries.values():
            entry.show_facts(facts)

    def name(self, names: Mapping[str, str]) -> None:
        """Give actions other words, such as `Undo Move rail`."""
        for key, text in names.items():
            self.entries[key].setText(text)
