"""Every question that stops the work until it is answered, and every sentence that must be read.

They stand in one place, so that tests answer them, and nobody meets two dialogs for the same thing.
"""

from pathlib import Path
from typing import Literal

from PySide6.QtCore import QCoreApplication
from PySide6.QtWidgets import QFileDialog, QMessageBox, QWidget

from app.attached import PRINTED
from app.photo import PICTURES

Button = QMessageBox.StandardButton
Role = QMessageBox.ButtonRole


def tell(parent: QWidget, sentence: str) -> None:
    """Say that something did not work."""
    box = _box(parent, sentence, QMessageBox.Icon.Warning)
    box.addButton(Button.Ok)
    box.exec()


def about(parent: QWidget, text: str) -> None:
    """Say what the program is."""
    QMessageBox.about(parent, "Chasewright", text)


def ask_unsaved(parent: QWidget, name: str) -> Literal["save", "discard", "cancel"]:
    """Ask what becomes of unsaved work."""
    text = QCoreApplication.translate("Questions", "%1 has changes that are not saved.").replace("%1", name)
    box = _box(parent, text, QMessageBox.Icon.Question)
    save = box.addButton(Button.Save)
    discard = box.addButton(Button.Discard)
    box.addButton(Button.Cancel)
    box.setDefaultButton(Button.Save)
    box.exec()
    if box.clickedButton() is save:
        return "save"
    return "discard" if box.clickedButton() is discard else "cancel"


def ask_look_only(parent: QWidget, sentence: str) -> bool:
    """Ask whether a job that another window has is opened all the same, to look at or to save elsewhere."""
    box = _box(parent, sentence, QMessageBox.Icon.Question)
    text = QCoreApplication.translate("Questions", "You can look at it here, and save it under another name.")
    box.setInformativeText(text)
    look = box.addButton(QCoreApplication.translate("Questions", "Look at it"), Role.AcceptRole)
    box.addButton(Button.Cancel)
    box.exec()
    return box.clickedButton() is look


def ask_over(parent: QWidget, sentence: str) -> Literal["over", "save as", "cancel"]:
    """Ask whether a file that another program has written meanwhile is overwritten."""
    box = _box(parent, sentence, QMessageBox.Icon.Warning)
    elsewhere = box.addButton(QCoreApplication.translate("Questions", "Save as…"), Role.AcceptRole)
    over = box.addButton(QCoreApplication.translate("Questions", "Overwrite it"), Role.DestructiveRole)
    box.addButton(Button.Cancel)
    box.exec()
    if box.clickedButton() is over:
        return "over"
    return "save as" if box.clickedButton() is elsewhere else "cancel"


def ask_sure(parent: QWidget, question: str, yes: str) -> bool:
    """Ask before something is lost for good; `yes` is the word on the button."""
    box = _box(parent, question, QMessageBox.Icon.Warning)
    sure = box.addButton(yes, Role.DestructiveRole)
    box.addButton(Button.Cancel)
    box.setDefaultButton(Button.Cancel)
    box.exec()
    return box.clickedButton() is sure


def ask_file_to_open(parent: QWidget, folder: str) -> Path | None:
    """Ask for a job file."""
    title = QCoreApplication.translate("Questions", "Open a job")
    name, _ = QFileDialog.getOpenFileName(parent, title, folder, _kinds())
    return Path(name) if name else None


def ask_photographs(parent: QWidget, folder: str) -> tuple[Path, ...]:
    """Ask for photographs of what was fitted, one or more."""
    title = QCoreApplication.translate("Questions", "Choose photographs for the record")
    pictures = QCoreApplication.translate("Questions", "Photographs")
    kinds = " ".join(f"*{ending} *{ending.upper()}" for ending in PRINTED)
    names, _ = QFileDialog.getOpenFileNames(parent, title, folder, f"{pictures} ({kinds})")
    return tuple(map(Path, names))


def ask_photograph(parent: QWidget, folder: str) -> Path | None:
    """Ask for a photograph of the wall."""
    title = QCoreApplication.translate("Questions", "Choose a photograph of the bare wall")
    pictures = QCoreApplication.translate("Questions", "Photographs")
    kinds = " ".join(f"*{ending} *{ending.upper()}" for ending in PICTURES)
    name, _ = QFileDialog.getOpenFileName(parent, title, folder, f"{pictures} ({kinds})")
    return Path(name) if name else None


def ask_file_to_save(parent: QWidget, suggestion: str) -> Path | None:
    """Ask where to save a job; a name without an ending gets that of job files."""
    title = QCoreApplication.translate("Questions", "Save the job as")
    name, _ = QFileDialog.getSaveFileName(parent, title, suggestion, _kinds())
    if not name:
        return None
    path = Path(name)
    if path.suffix:
        return path
    path = path.with_suffix(".json")
    question = QCoreApplication.translate("Questions", "%1 is there already.").replace("%1", path.name)
    overwrite = QCoreApplication.translate("Questions", "Overwrite it")
    return path if not path.exists() or ask_sure(parent, question, overwrite) else None


def _kinds() -> str:
    job = QCoreApplication.translate("Questions", "Jobs")
    anything = QCoreApplication.translate("Questions", "All files")
    return f"{job} (*.json);;{anything} (*)"


def _box(parent: QWidget, sentence: str, icon: QMessageBox.Icon) -> QMessageBox:
    box = QMessageBox(parent)
    box.setWindowTitle("Chasewright")
    box.setIcon(icon)
    box.setText(sentence)
    return box
