"""The step Mark: the sheets to take to the wall, as files, on paper, and as pictures for others."""

import re
from functools import partial
from pathlib import Path
from typing import Any

from PySide6.QtCore import QCoreApplication, QStandardPaths, QUrl
from PySide6.QtGui import QDesktopServices, QGuiApplication
from PySide6.QtWidgets import QFileDialog, QHBoxLayout, QProgressBar, QPushButton, QVBoxLayout, QWidget

from app.document import State
from app.look import TARGET
from app.panels.panel import Panel
from app.panels.preview import Preview
from app.panels.section import Column, Section
from app.panels.sentence import Sentence, plainly
from app.panels.sheet_choices import SheetChoices
from app.panels.sheet_tasks import Order, Written, lay_out, make_and_write, with_pages
from app.panels.work import Work


class MarkPanel(Panel):
    """Chooses sheets, makes, shows and prints them."""

    def set_up(self) -> None:
        """Make what stands on the panel."""
        self.setAccessibleName(self.tr("Sheets"))
        self._work: Work | None = None
        self._folders: dict[Path | None, Path] = {}
        self.choices = SheetChoices(self.preferences)
        self.preview = Preview(self._order)
        for field in (self.choices.margin, self.choices.overlap):
            field.entered.connect(self.preview.refresh)
            field.stepped.connect(self.preview.refresh)
        self._make_buttons()
        self._build()
        program = QCoreApplication.instance()
        assert program is not None, "a widget needs an application"
        program.aboutToQuit.connect(self.stop)

    # what is on the panel

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
        sheets.add(self.caution, self.choices)
        making = Section(self.tr("Make and print"))
        making.add(self.folder, _pair(self.choose_folder, self.open), _pair(self.make, self.print))
        making.add(self.bar, self.cancel, self.result)
        seen = Section(self.tr("Preview"))
        seen.add(self.preview)
        truth = Section(self.tr("Does the printer print true?"), opened=False)
        truth.add(self.choices.truth, _pair(self.choices.margin, self.choices.overlap))
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

    # what is shown

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
        words = re.sub(r"[^\w -]+", " ", self.document.job.about.title).split()
        title = " ".join(words)[:60] or self.tr("Shower")
        return beside / self.tr("%1 sheets").replace("%1", title)

    @property
    def is_busy(self) -> bool:
        """Whether sheets are being made."""
        return self._work is not None

    def show_state(self, state: State) -> None:
        """Show the choices, and have the preview made anew if it shows something else."""
        self.choices.show_settings()
        self.folder.say(self.tr("Into %1").replace("%1", str(self.target)))
        clashes = sum(finding.status == "clash" for finding in state.findings)
        words = self.tr("%1 findings must change before anything is cut; the sheets say so too.")
        self.caution.say(words.replace("%1", str(clashes)) if clashes else "")
        if state.job is self.document.kept_job:
            self.preview.refresh()

    # making

    def make_sheets(self) -> None:
        """Make the chosen sheets and write them into the folder."""
        if not self.is_busy:
            folder = self.target
            self.preferences.change(sheet_folder=str(folder))
            self._begin(partial(make_and_write, self._order(self.choices.names), folder), self._on_written)

    def print_sheets(self) -> None:
        """Make the pages of the chosen sheets, and print them through the system's dialogue."""
        names = with_pages(self.choices.names)
        if not names:
            self.result.say(self.tr("None of the chosen sheets has pages to print."), "clash")
        elif not self.is_busy:
            self._begin(partial(lay_out, self._order(names)), self._on_printable)

    def stop(self) -> None:
        """Give up what is being made."""
        self.preview.stop()
        if self._work is not None:
            self._work.give_up()

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
        state, path = self.document.state, self.document.path
        folder = path.parent if path is not None else None
        return Order(state.plan, state.findings, self.choices.options(), names, folder)

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
        if written.lacking:
            lacking = self.tr("Photographs %1.").replace("%1", written.lacking)
            self.result.say(f"{words} {lacking}", "tight")
        else:
            self.result.say(words, "clear")

    def _on_printable(self, made: tuple[Order, list[Any]]) -> None:
        from app.panels.printing import ask_and_print, has_bars

        order, documents = made
        pages = [page for document in documents for page in document.pages]
        try:
            if ask_and_print(self, pages, order.options.paper):
                words = self.tr("The pages went to the printer.")
                measure = self.tr("Measure both bars on a page that has them before anything is marked.")
                self.result.say(f"{words} {measure}" if has_bars(pages) else words, "clear")
        except OSError as problem:
            self._on_failed(str(problem))

    def _on_failed(self, problem: str) -> None:
        self.result.say(plainly(problem), "clash")

    def _on_ended(self) -> None:
        if self._work is not None and self._work.is_given_up:
            self.result.say(self.tr("Given up; nothing was written."), "words")
        self._work = None
        self._show_busy()

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
    row = QHBoxLayout(holder)
    row.setContentsMargins(0, 0, 0, 0)
    row.setSpacing(12)
    row.addWidget(left, 1)
    row.addWidget(right, 1)
    return holder
