"""Menus whose entries are files."""

from collections.abc import Callable, Mapping
from functools import partial
from pathlib import Path

from PySide6.QtWidgets import QMenu


def fill(menu: QMenu, files: Mapping[Path, str], do: Callable[[Path], None]) -> None:
    """Put an entry for each file into a menu, in place of those that it had; `do` is given the file."""
    menu.clear()
    for file, text in files.items():
        entry = menu.addAction(text.replace("&", "&&"))
        entry.setToolTip(str(file))
        entry.triggered.connect(partial(_do, do, file))
    menu.setEnabled(bool(files))


def _do(do: Callable[[Path], None], file: Path, _checked: bool = False) -> None:
    do(file)
