"""The step Mark: the sheets to take to the wall, as files, on paper, and as pictures for others."""

import re
from functools import partial
from pathlib import Path
from typing import Any

from PySide6.QtCore import QCoreApplication, QStandardPaths, QTimer, QUrl
from PySide6.QtGui import QDesktopServices, QGuiApplication
from PySide6.QtWidgets import (
    QFileDialog,
    QGridLayout,
    QProgressBar,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from app.document import Document, State
from app.fields import ChoiceField, LengthField, TickField
from app.look import TARGET
from app.panels.page_view import PageView
from app.panels.panel import Panel
from app.panels.printer_truth import PrinterTruth
from app.panels.section import Column, Section
from app.panels.sentence import Sentence, plainly
from app.panels.sheet_tasks import Order, Written, make_and_write, make_pages, with_pages
from app.panels.work import Work
from app.selection import Selection
from app.settings import Preferences
from app.words import QT_TRANSLATE_NOOP
from export.pack import SHEETS
from export.sheets.options import SheetOptions
from export.sheets.paper import SIZES

SCALES = (5, 10, 20, 25, 50, 100)
"""1:N that are offered for the scaled sheets (usual in building; ISO 5455 from memory, and 1:25)."""
SETTLE = 400
"""Milliseconds after the last edit before the preview is made anew."""
WORDS = {
    "elevation": QT_TRANSLATE_NOOP("MarkPanel", "Elevation to scale"),
    "section": QT_TRANSLATE_NOOP("MarkPanel", "Wall sections"),
    "full-size": QT_TRANSLATE_NOOP("MarkPanel", "Full-size marking pages"),
    "dxf": QT_TRANSLATE_NOOP("MarkPanel", "Drawing file (DXF)"),
}
"""What the sheets are called; a sheet without words of its own goes by its name."""


class MarkPanel(Panel):
    """Chooses sheets, makes, shows and prints them."""

    def __init__(
        self,
        document: Document,
        selection: Selection,
        preferences: Preferences,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(document, selection, preferences, parent)
        self.setAccessibleName(self.tr("Sheets"))
        self._work: Work | None = None
        self._preview_work: Work | None = None
        self._previewed: Order | None = None
        self._folders: dict[Path | None, Path] = {}
        self._settle = QTimer(self)
        self._settle.setSingleShot(True)
        self._settle.setInterval(SETTLE)
        self._settle.timeout.connect(self._begin_preview)
        self._make_choices()
        self._make_buttons()
        self._build()
        program = QCoreApplication.instance()
        assert program is not None, "a widget needs an application"
        program.aboutToQuit.connect(self.stop)

    # what is on the panel

    def _make_choices(self) -> None:
        self.ticks = {name: TickField(self._word(name)) for name in SHEETS}
        for name, tick in self.ticks.items():
            tick.entered.connect(partial(self._on_sheet, name))
        self.paper = ChoiceField(self.tr("Paper"), [(name, name) for name in reversed(SIZES)])
        self.paper.entered.connect(self._on_paper)
        fitting = (None, self.tr("Largest that fits"))
        self.scale = ChoiceField(self.tr("Scale"), [fitting, *((n, f"1:{n}") for n in SCALES)])
        self.scale.entered.connect(self._on_scale)
        usual = SheetOptions()
        self.margin = LengthField(self.tr("Margin of full-size pages"), self.display)
        self.margin.show_value(usual.margin)
        self.overlap = LengthField(self.tr("Their overlap"), self.display)
        self.overlap.show_value(usual.overlap)
        for field in (self.margin, self.overlap):
            field.entered.connect(partial(self._on_length, field))
            field.stepped.connect(partial(self._on_length, field))
        self.truth = PrinterTruth(self.display)
        self.truth.stretched.connect(self._on_stretched)
        self.previewed = ChoiceField(self.tr("Show the pages of"))
        self.previewed.entered.connect(self._on_previewed)
        self.preview = PageView()

    def _make_buttons(self) -> None:
        self.caution = Sentence("clash")
        self.folder = Sentence("words")
        self.choose_folder = self._button(self.tr("Another folder…"), self._on_choose_folder)
        self.open = self._button(self.tr("Open the folder"), self.open_folder)
        self.make = self._button(self.tr("Make the sheets"), self.make_sheets)
        self.make.setDefault(True)
        self.print = self._button(self.tr("Print…"), self.print_sheets)
        self.cancel = self._button(self.tr("Cancel"), self.stop)
        self.bar = QProgressBar()
        self.bar.setMinimumHeight(TARGET // 2)
        self.bar.setAccessibleName(self.tr("Sheets made"))
        self.result = Sentence("words")
        self.as_picture = self._button(self.tr("Copy as a picture"), self.copy_png)
        self.as_drawing = self._button(self.tr("Copy as SVG"), self.copy_svg)
        for widget in (self.cancel, self.bar):
            widget.hide()

    def _build(self) -> None:
        column = Column()
        sheets = Section(self.tr("Sheets"))
        sheets.add(self.caution, *self.ticks.values(), _pair(self.paper, self.scale))
        making = Section(self.tr("Make and print"))
        making.add(self.folder, _pair(self.choose_folder, self.open), _pair(self.make, self.print))
        making.add(self.bar, self.cancel, self.result)
        seen = Section(self.tr("Preview"))
        seen.add(self.previewed, self.preview)
        truth = Section(self.tr("Does the printer print true?"), opened=False)
        truth.add(self.truth, _pair(self.margin, self.overlap))
        copy = Section(self.tr("Copy the elevation"), opened=False)
        copy.add(_pair(self.as_picture, self.as_drawing))
        for section in (sheets, making, seen, truth, copy):
            column.add(section)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(column)

    def _button(self, word: str, slot: Any) -> QPushButton:
        button = QPushButton(word)
        button.setMinimumHeight(TARGET)
        button.clicked.connect(slot)
        return button

    def _word(self, name: str) -> str:
        return self.tr(WORDS[name]) if name in WORDS else name.replace("-", " ").capitalize()

    # what is shown

    @property
    def names(self) -> tuple[str, ...]:
        """The sheets that are chosen, in their order."""
        chosen = self.preferences.settings.sheets
        return tuple(name for name in SHEETS if not chosen or name in chosen) or tuple(SHEETS)

    @property
    def target(self) -> Path:
        """The folder that the sheets go into: chosen for this job, or one of its own beside its file.

        A job that has no file yet has one of its own beside the folder that was used last.
        """
        path = self.document.path
        if path in self._folders:
            return self._folders[path]
        if path is not None:
            return path.parent / self.tr("%1 sheets").replace("%1", path.stem)
        last = self.preferences.settings.sheet_folder
        documents = QStandardPaths.StandardLocation.DocumentsLocation
        beside = Path(last).parent if last else Path(QStandardPaths.writableLocation(documents))
        title = re.sub(r"[^\w -]+", " ", self.document.job.about.title).strip()[:60] or self.tr("Shower")
        return beside / self.tr("%1 sheets").replace("%1", title)

    @property
    def is_busy(self) -> bool:
        """Whether sheets are being made."""
        return self._work is not None

    def options(self) -> SheetOptions:
        """Return the choices for the sheets."""
        held = self.preferences.settings
        paper = held.paper if held.paper in SIZES else SheetOptions().paper
        return SheetOptions(
            paper, held.scale, held.stretch_x, held.stretch_y, self.margin.value, self.overlap.value
        )

    def show_state(self, state: State) -> None:
        """Show the choices, and have the preview made anew if it shows something else."""
        held, chosen = self.preferences.settings, self.names
        for name, tick in self.ticks.items():
            tick.show_value(name in chosen)
        self.paper.show_value(self.options().paper)
        self.scale.show_value(held.scale)
        self.truth.show_stretch(held.stretch_x, held.stretch_y)
        self.folder.say(self.tr("Into %1").replace("%1", str(self.target)))
        clashes = sum(finding.status == "clash" for finding in state.findings)
        words = self.tr("%1 findings must change before anything is cut; the sheets say so too.")
        self.caution.say(words.replace("%1", str(clashes)) if clashes else "")
        pages = with_pages(tuple(SHEETS))
        self.previewed.set_choices([(name, self._word(name)) for name in pages])
        if self.previewed.value not in pages:
            self.previewed.show_value(pages[0] if pages else None)
        if state.job is self.document.kept_job:
            self._settle.start()

    # making

    def make_sheets(self) -> None:
        """Make the chosen sheets and write them into the folder."""
        if not self.is_busy:
            folder = self.target
            self.preferences.change(sheet_folder=str(folder))
            self._begin(partial(make_and_write, self._order(self.names), folder), self._on_written)

    def print_sheets(self) -> None:
        """Make the pages of the chosen sheets, and print them through the system's dialogue."""
        names = with_pages(self.names)
        if not names:
            self.result.say(self.tr("None of the chosen sheets has pages to print."), "clash")
        elif not self.is_busy:
            self._begin(partial(make_pages, self._order(names)), self._on_printable)

    def stop(self) -> None:
        """Give up what is being made."""
        for work in (self._work, self._preview_work):
            if work is not None:
                work.give_up()

    def open_folder(self) -> None:
        """Open the folder of the sheets."""
        if self.target.is_dir():
            QDesktopServices.openUrl(QUrl.fromLocalFile(str(self.target)))
        else:
            self.result.say(self.tr("The folder is made with the first sheets."), "words")

    def copy_png(self) -> None:
        """Put the elevation on the clipboard as pixels."""
        from app.panels.pictures import as_pixels

        QGuiApplication.clipboard().setImage(as_pixels(self._svg()))
        self.result.say(self.tr("The elevation is on the clipboard as a picture."), "clear")

    def copy_svg(self) -> None:
        """Put the elevation on the clipboard as a drawing."""
        from app.panels.pictures import svg_data

        QGuiApplication.clipboard().setMimeData(svg_data(self._svg()))
        self.result.say(self.tr("The elevation is on the clipboard as SVG."), "clear")

    def _svg(self) -> bytes:
        from app.panels.pictures import elevation_svg

        state = self.document.state
        return elevation_svg(state.plan, state.findings, self.preferences.settings.scale)

    def _order(self, names: tuple[str, ...]) -> Order:
        state = self.document.state
        return Order(state.plan, state.findings, self.options(), names)

    def _begin(self, job: Any, done: Any) -> None:
        work = Work(job)
        work.answers.progressed.connect(self._on_progress)
        work.answers.done.connect(done)
        work.answers.failed.connect(self._on_failed)
        work.answers.ended.connect(self._on_ended)
        self._work = work
        self.result.say("")
        self._show_busy()
        work.begin()

    def _show_busy(self) -> None:
        for button in (self.make, self.print):
            button.setEnabled(not self.is_busy)
        for widget in (self.bar, self.cancel):
            widget.setVisible(self.is_busy)

    def _on_progress(self, done: int, of: int) -> None:
        self.bar.setMaximum(of)
        self.bar.setValue(done)

    def _on_written(self, written: Written) -> None:
        words = self.tr("%1 files are in the folder %2.")
        words = words.replace("%1", str(len(written.files))).replace("%2", str(written.folder))
        if written.replaced:
            again = self.tr("%1 of them replaced older ones.")
            words = f"{words} {again.replace('%1', str(written.replaced))}"
        self.result.say(words, "clear")

    def _on_printable(self, made: tuple[Order, list[Any]]) -> None:
        from app.panels.printing import ask_and_print

        order, documents = made
        try:
            if ask_and_print(self, documents, order.options.paper):
                words = self.tr("The pages went to the printer. Measure the bars on the first of them.")
                self.result.say(words, "clear")
        except OSError as problem:
            self._on_failed(str(problem))

    def _on_failed(self, problem: str) -> None:
        self.result.say(plainly(problem), "clash")

    def _on_ended(self) -> None:
        if self._work is not None and self._work.is_given_up:
            self.result.say(self.tr("Given up; nothing was written."), "words")
        self._work = None
        self._show_busy()

    # preview

    def _begin_preview(self) -> None:
        """Make the pages of one sheet anew, if they would show something else."""
        if not self.isVisible() or self.previewed.value is None:
            return
        order = self._order((self.previewed.value,))
        if order == self._previewed:
            return
        if self._preview_work is not None:
            self._preview_work.give_up()
        self._previewed = order
        work = Work(partial(make_pages, order))
        work.answers.done.connect(self._on_pages)
        work.answers.failed.connect(self._on_no_pages)
        self._preview_work = work
        work.begin()

    def _on_pages(self, made: tuple[Order, list[Any]]) -> None:
        order, documents = made
        if order == self._previewed:
            self.preview.said.say("")
            self.preview.show_pages(documents[0] if documents else None)

    def _on_no_pages(self, problem: str) -> None:
        self.preview.said.say(plainly(problem), "clash")
        self.preview.show_pages(None)

    # choices

    def _on_sheet(self, name: str, wanted: bool) -> None:
        chosen = {*self.names, name} if wanted else {*self.names} - {name}
        if not chosen:
            self.ticks[name].refuse(self.tr("At least one sheet must be chosen."))
            return
        every = len(chosen) == len(SHEETS)
        self.preferences.change(sheets=() if every else tuple(each for each in SHEETS if each in chosen))

    def _on_paper(self, name: str) -> None:
        self.preferences.change(paper=name)

    def _on_scale(self, scale: int | None) -> None:
        self.preferences.change(scale=scale)

    def _on_stretched(self, across: float, upright: float) -> None:
        self.preferences.change(stretch_x=across, stretch_y=upright)

    def _on_length(self, field: LengthField, value: float) -> None:
        before = field.value
        field.show_value(value)
        try:
            self.options()
        except ValueError as problem:
            field.show_value(before)
            field.refuse(plainly(problem))
        else:
            self._settle.start()

    def _on_previewed(self, name: str) -> None:
        self.previewed.show_value(name)
        self.preview.number = 0
        self._begin_preview()

    def _on_choose_folder(self) -> None:
        start = self.target
        while not start.is_dir() and start != start.parent:
            start = start.parent
        name = QFileDialog.getExistingDirectory(self, self.tr("Folder for the sheets"), str(start))
        if name:
            self._folders[self.document.path] = Path(name)
            self.preferences.change(sheet_folder=name)
            self.show_state(self.document.state)


def _pair(left: QWidget, right: QWidget) -> QWidget:
    """Put two things beside each other."""
    holder = QWidget()
    grid = QGridLayout(holder)
    grid.setContentsMargins(0, 0, 0, 0)
    grid.setHorizontalSpacing(12)
    grid.addWidget(left, 0, 0)
    grid.addWidget(right, 0, 1)
    for column in (0, 1):
        grid.setColumnStretch(column, 1)
    return holder
