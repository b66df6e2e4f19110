"""The preview: the pages of one sheet as they are printed, laid out off the window's thread after an edit."""

from collections.abc import Callable
from functools import partial

from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QVBoxLayout, QWidget

from app.panels.choice_fields import ChoiceField
from app.panels.page_view import PageView
from app.panels.sentence import plainly
from app.panels.sheet_choices import sheet_word
from app.panels.sheet_tasks import Order, lay_out, with_pages
from app.panels.work import Work
from export.pack import SHEETS
from export.recorded import RecordedDocument

SETTLE = 400
"""Milliseconds after the last edit before the pages are made anew."""


class Preview(QWidget):
    """Shows the pages of the sheet that is chosen here.

    Args:
        order: returns what is to be made of the job as it is, given the names of sheets.
    """

    def __init__(self, order: Callable[[tuple[str, ...]], Order]) -> None:
        super().__init__()
        self._order = order
        self._work: Work | None = None
        self._shown: Order | None = None
        self._settle = QTimer(self)
        self._settle.setSingleShot(True)
        self._settle.setInterval(SETTLE)
        self._settle.timeout.connect(self._begin)
        names = with_pages(tuple(SHEETS))
        self.sheet = ChoiceField(self.tr("Show the pages of"), [(name, sheet_word(name)) for name in names])
        self.sheet.show_value(names[0])
        self.sheet.entered.connect(self._on_sheet)
        self.view = PageView()
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(8)
        layout.addWidget(self.sheet)
        layout.addWidget(self.view)

    def refresh(self) -> None:
        """Make the pages anew after a moment's rest, if they would show something else."""
        self._settle.start()

    def stop(self) -> None:
        """Give up what is being made."""
        self._settle.stop()
        if self._work is not None:
            self._work.give_up()

    def _begin(self) -> None:
        order = self._order((self.sheet.value,))
        if not self.isVisible() or order == self._shown:
            return
        if self._work is not None:
            self._work.give_up()
        self._shown = order
        self._work = Work(partial(lay_out, order))
        self._work.answers.done.connect(self._on_pages)
        self._work.answers.failed.connect(self._on_failed)
        self._work.begin()

    def _on_pages(self, made: tuple[Order, list[RecordedDocument]]) -> None:
        order, documents = made
        if order == self._shown:
            self.view.said.say("")
            self.view.show_pages(documents[0].pages if documents else ())

    def _on_failed(self, problem: str) -> None:
        self.view.said.say(plainly(problem), "clash")
        self.view.show_pages(())

    def _on_sheet(self, name: str) -> None:
        self.sheet.show_value(name)
        self.view.number = 0
        self._begin()
