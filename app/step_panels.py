"""The panels of the steps; each is made when its step is first gone to."""

from collections.abc import Callable

from PySide6.QtCore import QCoreApplication, Signal
from PySide6.QtWidgets import QStackedWidget, QTabWidget, QWidget

from app.document import Document
from app.panels.panel import Panel
from app.selection import Selection
from app.settings import Preferences
from app.words import QT_TRANSLATE_NOOP

Maker = Callable[[Document, Selection, Preferences, QWidget], Panel]


def _measure(document: Document, selection: Selection, preferences: Preferences, parent: QWidget) -> Panel:
    from app.panels.measure import MeasurePanel

    return MeasurePanel(document, selection, preferences, parent)


def _build_up(document: Document, selection: Selection, preferences: Preferences, parent: QWidget) -> Panel:
    from app.panels.build_up import BuildUpPanel

    return BuildUpPanel(document, selection, preferences, parent)


def _set_out(document: Document, selection: Selection, preferences: Preferences, parent: QWidget) -> Panel:
    from app.panels.set_out import SetOutPanel

    return SetOutPanel(document, selection, preferences, parent)


def _pipe(document: Document, selection: Selection, preferences: Preferences, parent: QWidget) -> Panel:
    from app.panels.pipe import PipePanel

    return PipePanel(document, selection, preferences, parent)


def _check(document: Document, selection: Selection, preferences: Preferences, parent: QWidget) -> Panel:
    from app.panels.check import CheckPanel

    return CheckPanel(document, selection, preferences, parent)


def _mark(document: Document, selection: Selection, preferences: Preferences, parent: QWidget) -> Panel:
    from app.panels.mark import MarkPanel

    return MarkPanel(document, selection, preferences, parent)


PANELS: dict[str, tuple[tuple[str, Maker], ...]] = {
    "measure": (
        (QT_TRANSLATE_NOOP("StepPanels", "Wall and tray"), _measure),
        (QT_TRANSLATE_NOOP("StepPanels", "What covers it"), _build_up),
    ),
    "set_out": ((QT_TRANSLATE_NOOP("StepPanels", "Set out"), _set_out),),
    "pipe": ((QT_TRANSLATE_NOOP("StepPanels", "Pipe"), _pipe),),
    "check": ((QT_TRANSLATE_NOOP("StepPanels", "Check"), _check),),
    "mark": ((QT_TRANSLATE_NOOP("StepPanels", "Mark"), _mark),),
}
"""The panels of each step with their words; several of them have a tab each."""


class StepPanels(QStackedWidget):
    """Shows the panel of one step."""

    said = Signal(str)
    """What a panel tells the user: one sentence."""
    draw_pipe_wanted = Signal(str, object)
    """A pipe is to be drawn: its service, and the port that it starts from or None."""

    def __init__(
        self,
        document: Document,
        selection: Selection,
        preferences: Preferences,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._document, self._selection, self._preferences = document, selection, preferences
        self._pages: dict[str, QWidget] = {}
        self._panels: dict[Maker, Panel] = {}
        self.setMinimumWidth(320)

    def show_step(self, step: str) -> None:
        """Show the panel of a step."""
        if step not in self._pages:
            self._pages[step] = self._page(step)
            self.addWidget(self._pages[step])
        self.setCurrentWidget(self._pages[step])

    def panel(self, kind: type[Panel]) -> Panel:
        """Return the panel of a kind, of a step that was gone to."""
        return next(panel for panel in self._panels.values() if isinstance(panel, kind))

    def _page(self, step: str) -> QWidget:
        made = [(words, self._made(make)) for words, make in PANELS[step]]
        if len(made) == 1:
            return made[0][1]
        tabs = QTabWidget(self)
        for words, panel in made:
            tabs.addTab(panel, QCoreApplication.translate("StepPanels", words))
        return tabs

    def _made(self, make: Maker) -> Panel:
        panel = make(self._document, self._selection, self._preferences, self)
        panel.refused.connect(self.said)
        self._panels[make] = panel
        return panel
