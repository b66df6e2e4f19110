"""A document, a selection and settings of their own for the tests of the panels, and how one is shown."""

from collections.abc import Callable
from pathlib import Path

import pytest
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from app.document import Document
from app.selection import Selection
from app.settings import Preferences
from geometry.parts.catalogue import generic_parts
from geometry.rules import standard_rules
from geometry.setting_out.arrangement import suggested_job
from tests.app.panels.desk import Desk
from tests.samples import FAULTY, sample_job


def _desk(document: Document, tmp_path: Path) -> Desk:
    return Desk(document, Selection(document), Preferences(tmp_path / "settings.json", document))


@pytest.fixture
def desk(qapp: object, tmp_path: Path) -> Desk:
    """A tray of 760 on a wall of 1200, entered from the left: centre line at 380, tray floor at 30."""
    job = suggested_job(760, 760, "left", 1200)
    return _desk(Document(job, generic_parts(), standard_rules()), tmp_path)


@pytest.fixture
def faulty(qapp: object, tmp_path: Path) -> Desk:
    """The sample with faults planted in it."""
    return _desk(Document(sample_job(FAULTY), generic_parts(), standard_rules()), tmp_path)


@pytest.fixture
def shown(qtbot: QtBot) -> Callable[[QWidget], None]:
    """Show a widget as a window with the keyboard."""

    def show(widget: QWidget) -> None:
        qtbot.addWidget(widget)
        widget.resize(380, 700)
        with qtbot.waitExposed(widget):
            widget.show()
        widget.activateWindow()

    return show
