"""The window: menus, the start page, and the bench on which a job is worked. What it shows is no history.

The start page needs little, so it is painted first; the bench and all that it needs are brought in right
after, or when the first job is opened.
"""

import sys
from functools import partial
from operator import attrgetter
from pathlib import Path
from typing import TYPE_CHECKING, cast

from PySide6.QtCore import QEvent, QMimeData, QSize, Qt, QTimer, Signal
from PySide6.QtGui import QCloseEvent, QDragEnterEvent, QDropEvent, QPaintEvent
from PySide6.QtWidgets import (
    QApplication,
    QDialog,
    QLabel,
    QLineEdit,
    QMainWindow,
    QPlainTextEdit,
    QStackedWidget,
)

from app.actions import Action
from app.faults import Faults
from app.folders import recovery_folder
from app.look import LOOKS, STYLE, Look, dress, look_for, use_own_font
from app.menus import Menus
from app.recent_menu import fill
from app.samples import sample_files, sample_name
from app.settings import Preferences
from app.start_page import StartPage
from geometry.units import Display

if TYPE_CHECKING:
    from app.arranging import Arranging
    from app.bench import Bench
    from app.filing import Filing
    from app.open_job import OpenJob
    from app.recovery import Leftover
    from geometry.model.enclosure import Entry

NAME = "Chasewright"
SIZE = QSize(1280, 800)
_UNITS: tuple[Display, ...] = ("mm", "cm", "in")


class Window(QMainWindow):
    """The one window of the program."""

    painted = Signal()
    """The window has been painted for the first time."""

    def __init__(
        self, preferences: Preferences, recovery: Path | None = None, locks: Path | None = None
    ) -> None:
        super().__init__()
        self.setWindowTitle(NAME)
        self.setAcceptDrops(True)
        self.preferences, self._locks = preferences, locks
        self._look = look_for(preferences.settings.theme)
        _dress(self._look)  # before there is anything that would have to be dressed anew
        self.recovery = recovery or recovery_folder()
        self._open_job: OpenJob | None = None
        self._was_painted = False
        self.menus = Menus(self.menuBar(), self.run)
        self._pages = QStackedWidget(self)
        self.start = StartPage(preferences.settings, self._look, self._pages)
        self.start.start_requested.connect(self._on_start)
        self.start.file_chosen.connect(self.open_file)
        self.start.sample_chosen.connect(self.open_sample)
        self.start.open_requested.connect(self._on_open)
        self._pages.addWidget(self.start)
        self.setCentralWidget(self._pages)
        size = preferences.settings.window_size
        self.resize(SIZE if size is None else QSize(*size))
        preferences.changed.connect(self._on_preferences)
        preferences.failed.connect(self.say)
        QApplication.styleHints().colorSchemeChanged.connect(self._on_scheme)
        self.painted.connect(self._on_painted)

    @property
    def open_job(self) -> "OpenJob":
        """What a job is worked with; brought in when it is first wanted."""
        if self._open_job is None:
            from app.open_job import OpenJob

            self._open_job = opened = OpenJob(self.preferences, self.recovery, self._locks, self)
            opened.changed.connect(self.show_facts)
            opened.told.connect(self.say)
            opened.filing.opened.connect(self.show_bench)
            opened.bench.wear(self._look)
            self._pages.addWidget(opened.bench)
        return self._open_job

    @property
    def filing(self) -> "Filing":
        """Opening and saving."""
        return self.open_job.filing

    @property
    def arranging(self) -> "Arranging":
        """Edits of what is chosen."""
        return self.open_job.arranging

    @property
    def bench(self) -> "Bench":
        """Where a job is worked."""
        return self.open_job.bench

    @property
    def has_job(self) -> bool:
        """Whether a job is shown, and not the start page."""
        return self._open_job is not None and self._pages.currentWidget() is self._open_job.bench

    def run(self, action: Action) -> None:
        """Do what an action of the menus says; what is being typed is entered first."""
        _finish_typing()
        handler = attrgetter(action.handler)(self)
        if action.argument:
            handler(action.argument)
        else:
            handler()
        self.show_facts()

    def begin(self, file: Path | None) -> None:
        """Do what is left until the window is painted: bring in the bench, open the file, offer recovery."""
        for problem in self.preferences.problems:
            self.say(problem)
        if file is None or not self.filing.open(file):
            self._pages.setCurrentWidget(self.start)
        self.offer_recovery()
        _ = self.open_job

    def wait_for(self, file: Path) -> None:
        """Show that a file is being opened."""
        page = QLabel(self.tr("Opening %1…").replace("%1", file.name))
        page.setAlignment(Qt.AlignmentFlag.AlignCenter)
        self._pages.addWidget(page)
        self._pages.setCurrentWidget(page)

    def open_file(self, path: Path) -> None:
        """Open a job file."""
        self.filing.open(path)

    def open_sample(self, path: Path) -> None:
        """Open a sample as a job of one's own."""
        self.filing.open_sample(path)

    def offer_recovery(self) -> None:
        """Offer the unsaved work of windows that did not close, if there is any."""
        from app.recovery import leftovers

        found = leftovers(self.recovery)
        if found:
            from app.recovery_dialog import RecoveryDialog

            dialog = RecoveryDialog(found, self.preferences.settings.unit, self)
            dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
            dialog.open_requested.connect(self._on_recover)
            dialog.open()

    def keep_work(self) -> None:
        """Write the copy of unsaved work now."""
        if self._open_job is not None:
            self._open_job.autosave.flush()

    def show_start(self) -> None:
        """Show the start page; the open job stays until another is begun."""
        self._pages.setCurrentWidget(self.start)
        self.start.start_button.setFocus()
        self.show_facts()

    def show_bench(self) -> None:
        """Show the job."""
        self._pages.setCurrentWidget(self.bench)
        self.bench.begin()
        self.show_facts()

    def show_settings(self) -> None:
        """Let the user change the settings."""
        from app.settings_dialog import SettingsDialog

        self._show_dialog(SettingsDialog(self.preferences, self))

    def show_shortcuts(self) -> None:
        """Show the page of shortcuts."""
        from app.shortcuts_page import ShortcutsPage

        self._show_dialog(ShortcutsPage(self))

    def show_about(self) -> None:
        """Say what the program is."""
        from app import questions

        questions.about(
            self,
            self.tr(
                "Chasewright plans a concealed shower on one wall before anybody cuts it.\n\n"
                "It does not replace an engineer, an electrician or the water company: findings marked"
                " “refer” are for them."
            ),
        )

    def undo(self) -> None:
        """Take back the last step of the history."""
        self.open_job.document.cancel()
        self.open_job.document.history.undo()

    def redo(self) -> None:
        """Do again what was taken back."""
        self.open_job.document.cancel()
        self.open_job.document.history.redo()

    def toggle_snapping(self) -> None:
        """Turn snapping on or off."""
        self.preferences.change(snapping=not self.preferences.settings.snapping)

    def next_unit(self) -> None:
        """Show lengths in the next unit."""
        unit = self.preferences.settings.unit
        self.preferences.change(unit=_UNITS[(_UNITS.index(unit) + 1) % len(_UNITS)])

    def toggle_dark(self) -> None:
        """Change from light to dark or back."""
        self.preferences.change(theme="light" if self._look.name == "dark" else "dark")

    def toggle_full_screen(self) -> None:
        """Fill the screen, or stop filling it."""
        self.setWindowState(self.windowState() ^ Qt.WindowState.WindowFullScreen)

    def say(self, sentence: str) -> None:
        """Tell the user something that does not stop the work."""
        if self.has_job:
            self.bench.say(sentence)
        else:
            self.start.complain(sentence)

    def wear(self, look: Look) -> None:
        """Give the program a look."""
        self._look = look
        _dress(look)
        self.start.wear(look)
        if self._open_job is not None:
            self._open_job.bench.wear(look)

    def show_facts(self) -> None:
        """Show in menus and title what can be done and what is in force."""
        facts = {"snapping"} if self.preferences.settings.snapping else set()
        facts |= {"dark"} if self._look is LOOKS["dark"] else set()
        facts |= {"full-screen"} if self.isFullScreen() else set()
        if self.has_job:
            facts |= self.open_job.facts()
        self.menus.show_facts(facts)
        self._show_title()

    def _show_title(self) -> None:
        if not self.has_job:
            self.setWindowModified(False)
            self.setWindowTitle(NAME)
            return
        document, store = self.open_job.document, self.open_job.store
        look_only = self.tr(" (look only)") if store.look_only else ""
        self.setWindowTitle(f"{self.filing.name}{look_only}[*] – {NAME}")
        self.setWindowModified(not document.is_saved)
        names = {"undo": self.tr("&Undo"), "redo": self.tr("&Redo")}
        texts = {"undo": document.history.undo_text(), "redo": document.history.redo_text()}
        self.menus.name({key: f"{name} {texts[key]}".rstrip() for key, name in names.items()})

    def _fill_menus(self) -> None:
        recent = [Path(name) for name in self.preferences.settings.recent]
        fill(self.menus.submenus["recent"], {path: path.name for path in recent}, self.open_file)
        samples = {path: sample_name(path) for path in sample_files()}
        fill(self.menus.submenus["samples"], samples, self.open_sample)

    def _show_dialog(self, dialog: QDialog) -> None:
        dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        dialog.open()

    def _on_start(
        self, tray_width: float, projection: float, entry: str, wall_width: float, wall_height: float
    ) -> None:
        problem = self.filing.start(tray_width, projection, cast("Entry", entry), wall_width, wall_height)
        if problem is not None:
            self.start.complain(problem)

    def _on_open(self) -> None:
        self.filing.ask_open()

    def _on_recover(self, left: "Leftover") -> None:
        if self.filing.recover(left):
            self.keep_work()  # the work is in a copy of ours before the other one goes
            left.discard()

    def _on_painted(self) -> None:
        self._fill_menus()
        self.show_facts()

    def _on_preferences(self) -> None:
        look = look_for(self.preferences.settings.theme)
        if look is not self._look:
            self.wear(look)
        self.start.show_settings(self.preferences.settings)
        self._fill_menus()
        self.show_facts()

    def _on_scheme(self, _scheme: Qt.ColorScheme) -> None:
        self._on_preferences()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Note when the window is first painted; what was put off begins once all of it is."""
        super().paintEvent(event)
        if not self._was_painted:
            self._was_painted = True
            QTimer.singleShot(0, self.painted.emit)

    def changeEvent(self, event: QEvent) -> None:
        """Keep a copy of unsaved work when the window loses the focus."""
        super().changeEvent(event)
        if event.type() == QEvent.Type.ActivationChange and not self.isActiveWindow():
            self.keep_work()

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        """Take a job file that is dragged here."""
        if _dropped(event.mimeData()) is not None:
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:
        """Open a job file that is dropped here."""
        path = _dropped(event.mimeData())
        if path is not None:
            event.acceptProposedAction()
            self.open_file(path)

    def closeEvent(self, event: QCloseEvent) -> None:
        """Close, unless unsaved work is to stay."""
        _finish_typing()
        if self._open_job is not None and not self._open_job.may_close():
            event.ignore()
            return
        self._remember_sizes()
        if self._open_job is not None:
            self._open_job.close()
        super().closeEvent(event)

    def _remember_sizes(self) -> None:
        settings = self.preferences.settings
        if not self.isFullScreen() and not self.isMaximized():
            settings = settings.but(window_size=(self.width(), self.height()))
        if self.has_job:
            settings = settings.but(panel_width=min(max(self.bench.panel_width, 200), 2000))
        self.preferences.use(settings)


def _dropped(data: QMimeData) -> Path | None:
    """Return the job file that is dragged, if it is one file that may be a job."""
    paths = [Path(url.toLocalFile()) for url in data.urls() if url.isLocalFile()]
    return paths[0] if len(paths) == 1 and paths[0].suffix.lower() == ".json" else None


def _dress(look: Look) -> None:
    application = QApplication.instance()
    assert isinstance(application, QApplication)
    dress(application, look)


def _finish_typing() -> None:
    """Have what is being typed into a field entered, as leaving the field would."""
    focused = QApplication.focusWidget()
    if isinstance(focused, QLineEdit | QPlainTextEdit):
        focused.clearFocus()
        focused.setFocus(Qt.FocusReason.OtherFocusReason)


def open_window(file: Path | None) -> int:
    """Open the window, on a job file or on the start page; return the exit code when it is closed."""
    held = QApplication.instance()
    application = held if isinstance(held, QApplication) else QApplication([*sys.argv[:1], "-style", STYLE])
    application.setApplicationName(NAME)
    application.setDesktopFileName(NAME.lower())
    use_own_font(application)
    preferences = Preferences()
    window = Window(preferences)
    faults = Faults(window.keep_work, window)
    faults.told.connect(window.say)
    faults.watch()
    if file is not None:
        window.wait_for(file)
    window.painted.connect(partial(window.begin, file))
    window.show()
    try:
        return application.exec()
    finally:
        faults.stop()
