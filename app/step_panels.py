"""The panels of the steps; each is made when it is first shown."""

from typing import TYPE_CHECKING, Literal

from PySide6.QtCore import QCoreApplication, Signal
from PySide6.QtWidgets import QStackedWidget, QTabWidget, QVBoxLayout, QWidget

from app.document import Document
from app.panels.panel import Panel
from app.selection import Selection
from app.settings import Preferences
from app.words import QT_TRANSLATE_NOOP

if TYPE_CHECKING:
    from app.panels.check import CheckPanel
    from app.panels.mark import MarkPanel
    from app.panels.pipe import PipePanel
    from app.panels.set_out import SetOutPanel

PanelName = Literal["measure", "build_up", "water", "set_out", "pipe", "check", "mark"]
PANELS: dict[str, tuple[PanelName, ...]] = {
    "measure": ("measure", "build_up", "water"),
    "set_out": ("set_out",),
    "pipe": ("pipe",),
    "check": ("check",),
    "mark": ("mark",),
}
"""The panels of each step; several of them have a tab each."""
_TABS: dict[PanelName, str] = {
    "measure": QT_TRANSLATE_NOOP("StepPanels", "Wall and tray"),
    "build_up": QT_TRANSLATE_NOOP("StepPanels", "What covers it"),
    "water": QT_TRANSLATE_NOOP("StepPanels", "Water"),
}


class StepPanels(QStackedWidget):
    """Shows the panel of one step."""

    said = Signal(str)
    """What a panel tells the user: one sentence."""
    draw_pipe_wanted = Signal(str, object)
    """A pipe is to be drawn: its service, and the port that it starts from or None."""

    outline_wanted = Signal(str)
    """An area of the finish is to be outlined on the wall: its name."""

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
        self.setMinimumWidth(320)

    @property
    def set_out(self) -> "SetOutPanel":
        """The panel of the step Set out, shown if it is not."""
        from app.panels.set_out import SetOutPanel

        self.show_step("set_out")
        panel = self._pages["set_out"]
        assert isinstance(panel, SetOutPanel)
        return panel

    @property
    def pipe(self) -> "PipePanel":
        """The panel of the step Pipe, shown if it is not."""
        from app.panels.pipe import PipePanel

        self.show_step("pipe")
        panel = self._pages["pipe"]
        assert isinstance(panel, PipePanel)
        return panel

    @property
    def check(self) -> "CheckPanel":
        """The panel of the step Check, shown if it is not."""
        from app.panels.check import CheckPanel

        self.show_step("check")
        panel = self._pages["check"]
        assert isinstance(panel, CheckPanel)
        return panel

    @property
    def mark(self) -> "MarkPanel":
        """The panel of the step Mark, shown if it is not."""
        from app.panels.mark import MarkPanel

        self.show_step("mark")
        panel = self._pages["mark"]
        assert isinstance(panel, MarkPanel)
        return panel

    def show_step(self, step: str) -> None:
        """Show the panel of a step."""
        if step not in self._pages:
            self._pages[step] = self._page(step)
            self.addWidget(self._pages[step])
        self.setCurrentWidget(self._pages[step])

    def _page(self, step: str) -> QWidget:
        names = PANELS[step]
        if len(names) == 1:
            return self._made(names[0])
        tabs = _Tabs(names, self)
        tabs.wanted.connect(self._on_tab_wanted)
        self._on_tab_wanted(tabs, names[0])
        return tabs

    def _on_tab_wanted(self, tabs: "_Tabs", name: PanelName) -> None:
        tabs.fill(name, self._made(name))

    def _made(self, name: PanelName) -> Panel:
        panel = self._make(name)
        panel.refused.connect(self.said)
        return panel

    def _make(self, name: PanelName) -> Panel:
        wants = self._document, self._selection, self._preferences, self
        match name:
            case "measure":
                from app.panels.measure import MeasurePanel

                return MeasurePanel(*wants)
            case "build_up":
                from app.panels.build_up import BuildUpPanel

                build_up = BuildUpPanel(*wants)
                build_up.outline_requested.connect(self.outline_wanted)
                return build_up
            case "water":
                from app.panels.water import WaterPanel

                return WaterPanel(*wants)
            case "set_out":
                from app.panels.set_out import SetOutPanel

                return SetOutPanel(*wants)
            case "pipe":
                from app.panels.pipe import PipePanel

                pipe = PipePanel(*wants)
                pipe.draw_pipe_requested.connect(self.draw_pipe_wanted)
                return pipe
            case "check":
                from app.panels.check import CheckPanel

                return CheckPanel(*wants)
            case "mark":
                from app.panels.mark import MarkPanel

                return MarkPanel(*wants)


class _Tabs(QTabWidget):
    """Tabs whose panels are made when they are first shown."""

    wanted = Signal(object, str)
    """A panel is to be made: these tabs, and its name."""

    def __init__(self, names: tuple[PanelName, ...], parent: QWidget) -> None:
        super().__init__(parent)
        self._names, self._empty = names, set(names)
        self._rooms: dict[PanelName, QVBoxLayout] = {}
        self.tabBar().setAccessibleName(self.tr("Parts of this step"))
        self.tabBar().lower()  # so that it is the first of the children, where Tab begins
        for name in names:
            page = QWidget()
            self._rooms[name] = QVBoxLayout(page)
            self._rooms[name].setContentsMargins(0, 0, 0, 0)
            self.addTab(page, QCoreApplication.translate("StepPanels", _TABS[name]))
        self.currentChanged.connect(self._on_current)

    def fill(self, name: PanelName, panel: QWidget) -> None:
        """Put a panel on its page."""
        self._empty.discard(name)
        self._rooms[name].addWidget(panel)
        panel.show()

    def _on_current(self, number: int) -> None:
        if self._names[number] in self._empty:
            self.wanted.emit(self, self._names[number])
