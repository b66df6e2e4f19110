"""Where the program keeps its own files on this computer. Nothing here makes a folder or reads one."""

from pathlib import Path

from PySide6.QtCore import QStandardPaths

_NAME = "chasewright"


def settings_file() -> Path:
    """Return the file that holds the settings."""
    return _folder(QStandardPaths.StandardLocation.GenericConfigLocation) / "settings.json"


def recovery_folder() -> Path:
    """Return the folder for the copies of unsaved work."""
    return _folder(QStandardPaths.StandardLocation.GenericDataLocation) / "recovery"


def lock_folder() -> Path:
    """Return the folder for the marks that say which job is open in a window."""
    return _folder(QStandardPaths.StandardLocation.GenericDataLocation) / "open"


def _folder(kind: QStandardPaths.StandardLocation) -> Path:
    return Path(QStandardPaths.writableLocation(kind)) / _NAME
