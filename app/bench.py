"""The bench: the steps of the job at the left, the panel of the step, the wall, and below what is wrong.

What is shown here (step, stage, zoom, widths) is no part of the job and of its history.
"""

from pathlib import Path
from typing import cast

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QApplication, QHBoxLayout, QSplitter, QVBoxLayout, QWidget

from app.canvas.canvas import Canvas
from app.canvas.options import Options
from app.canvas.stages import Stage
from app.canvas.theme import THEMES
from app.document import Document
from app.look import Look
from app.panels.strip import Strip
from app.selection import Selection
from app.settings import Preferences, Settings
from app.step_panels import StepPanels
from app.steps import STEPS, StepColumn
from app.tab_order import next_stop, takes_tab
from app.view_bar import ViewBar
from geometry.model import XY
from geometry.model.pipes import PipeService

PANEL_WIDTH = 400
"""Pixels, until the user draws the panel wider."""
DIRECTIONS = {"left": (-1.0, 0.0), "right": (1.0, 0.0), "up": (0.0, 1.0), "down": (0.0, -1.0)}


class Bench(QWidget):
    """Where the job is worked."""

    changed = Signal()
    """Step, stage or table is another now."""

    def __init__(
        self,
        document: Document,
        selection: Selection,
        preferences: Preferences,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._document, self._selection, self._preferences = document, selection, preferences
        self.step = ""
        self._table: QWidget | None = None
        self.steps = StepColumn(self)
        self.view_bar = ViewBar(self)
        self.canvas = Canvas(document, selection, self, options=options(preferences.settings))
        self.strip = Strip(document, selection, preferences, self)
        self.panels = StepPanels(document, selection, preferences, self)
        self._lay_out(preferences.settings.panel_width or PANEL_WIDTH)
        self.steps.chosen.connect(self.go_to)
        self.view_bar.stage_chosen.connect(self.show_stage)
        self.view_bar.fit_wanted.connect(self.fit)
        self.view_bar.larger_wanted.connect(self.larger)
        self.view_bar.smaller_wanted.connect(self.smaller)
        self.canvas.part_dropped.connect(self._on_part_dropped)
        self.canvas.photo_dropped.connect(self._on_photo_dropped)
        self.canvas.stage_changed.connect(self._on_stage)
        self.strip.check_wanted.connect(self._on_check_wanted)
        self.panels.said.connect(self.say)
        self.panels.draw_pipe_wanted.connect(self._on_draw_pipe)
        self.panels.outline_wanted.connect(self.canvas.outline)
        preferences.changed.connect(self._on_preferences)
        self.go_to(STEPS[0].id)

    def _lay_out(self, panel_width: int) -> None:
        wall = QWidget(self)
        column = QVBoxLayout(wall)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self.view_bar)
        column.addWidget(self.canvas, 1)
        self._halves = QSplitter(Qt.Orientation.Vertical, self)
        self._halves.addWidget(wall)
        self._split = QSplitter(Qt.Orientation.Horizontal, self)
        self._split.addWidget(self.panels)
        self._split.addWidget(self._halves)
        for splitter in (self._split, self._halves):
            splitter.setChildrenCollapsible(False)
            splitter.setHandleWidth(6)
        self._split.setStretchFactor(1, 1)
        self._split.setSizes([panel_width, 3 * panel_width])
        row = QHBoxLayout()
        row.setSpacing(0)
        row.addWidget(self.steps)
        row.addWidget(self._split, 1)
        page = QVBoxLayout(self)
        page.setContentsMargins(0, 0, 0, 0)
        page.setSpacing(0)
        page.addLayout(row, 1)
        page.addWidget(self.strip)

    def facts(self) -> set[str]:
        """Return the facts about what is shown."""
        facts = {f"step:{self.step}", f"stage:{self.canvas.stage}"}
        return facts | {"table"} if self._table is not None and self._table.isVisibleTo(self) else facts

    @property
    def panel_width(self) -> int:
        """How wide the panel is drawn, in pixels."""
        return self._split.sizes()[0]

    def begin(self) -> None:
        """Show another job: all of it, with nothing chosen, and the keyboard on the wall."""
        self._selection.choose(())
        self._selection.look_at(None)
        self.canvas.fit()
        self.canvas.setFocus()

    def say(self, sentence: str) -> None:
        """Tell the user something in the strip."""
        self.strip.say(sentence)

    def wear(self, look: Look) -> None:
        """Take the colours of a look."""
        self.steps.wear(look)
        self.canvas.set_theme(THEMES[look.name])

    def go_to(self, step: str) -> None:
        """Go to a step: its panel, and the stage of the drawing that it begins with."""
        if step != self.step:
            self.step = step
            self.steps.show_step(step)
            self.panels.show_step(step)
            self.show_stage(next(each.stage for each in STEPS if each.id == step))
            self.changed.emit()

    def show_stage(self, stage: str) -> None:
        """Show a stage of the work."""
        self.canvas.set_stage(cast("Stage", stage))
        self.view_bar.show_stage(stage)
        self.changed.emit()

    def fit(self) -> None:
        """Show the whole wall."""
        self.canvas.fit()

    def larger(self) -> None:
        """Show the wall larger."""
        self.canvas.zoom_in()

    def smaller(self) -> None:
        """Show the wall smaller."""
        self.canvas.zoom_out()

    def toggle_table(self) -> None:
        """Show the table of all parts below the wall, or put it away."""
        if self._table is None:
            from app.panels.table import PartsTable

            self._table = PartsTable(self._document, self._selection, self._preferences, self)
            self._table.refused.connect(self.say)
            self._halves.addWidget(self._table)
            self._halves.setSizes([2 * self.height() // 3, self.height() // 3])
            self._table.setFocus()
        else:
            self._table.setHidden(self._table.isVisibleTo(self))
        self.changed.emit()

    def focusNextPrevChild(self, forward: bool) -> bool:  # as Qt calls it
        """Move the keyboard on for Tab: steps, panel, view, wall, table, strip, and round again."""
        areas = [self.steps, self.panels, self.view_bar, self.canvas, *self._tables(), self.strip]
        focused = QApplication.focusWidget()
        stop = next_stop(areas, focused, forward=forward) if focused is not None else None
        if stop is None:
            return super().focusNextPrevChild(forward)
        reason = Qt.FocusReason.TabFocusReason if forward else Qt.FocusReason.BacktabFocusReason
        stop.setFocus(reason)
        return True

    def _tables(self) -> list[QWidget]:
        return [self._table] if self._table is not None and self._table.isVisibleTo(self) else []

    def next_area(self) -> None:
        """Move the keyboard on: steps, panel, wall, table, strip, and round again."""
        areas = [self.steps.button(self.step), self.panels, self.canvas, *self._tables(), self.strip]
        focused = QApplication.focusWidget()
        here = [area is focused or (focused is not None and area.isAncestorOf(focused)) for area in areas]
        start = here.index(True) if True in here else -1
        for step in range(1, len(areas) + 1):
            if _take_keyboard(areas[(start + step) % len(areas)]):
                return

    def add_part(self) -> None:
        """Go to the list of parts."""
        self.go_to("set_out")
        self.panels.set_out.focus_parts()

    def edit_properties(self) -> None:
        """Go to the fields of what is chosen."""
        if all(ref.kind == "pipe" for ref in self._selection.refs):
            self.go_to("pipe")
            _take_keyboard(self.panels)
        else:
            self.go_to("set_out")
            self.panels.set_out.focus_properties()

    def nudge(self, direction: str) -> None:
        """Move what is chosen by the step of an arrow key."""
        step = self._preferences.settings.nudge
        dx, dy = DIRECTIONS[direction]
        self.canvas.nudge(dx * step, dy * step)

    def draw_pipe(self, service: str) -> None:
        """Begin to draw a pipe on the wall."""
        self._on_draw_pipe(cast("PipeService", service), None)

    def lead_all(self) -> None:
        """Lead all pipes anew, as the program proposes."""
        self.go_to("pipe")
        self.panels.pipe.routes.lead_all()

    def look_at_next(self) -> None:
        """Look at the next finding that wants attention."""
        self._look_at(1)

    def look_at_previous(self) -> None:
        """Look at the finding before."""
        self._look_at(-1)

    def look_at_worst(self) -> None:
        """Look at the worst finding."""
        self._selection.look_at(None)
        self._look_at(1)

    def look_at_none(self) -> None:
        """Stop looking at a finding."""
        self._selection.look_at(None)

    def apply_cure(self) -> None:
        """Apply the first cure of the clash that is looked at, if one has been found."""
        self.go_to("check")
        if not self.panels.check.cures.apply_first():
            self.say(self.tr("No cure has been found for it yet."))

    def make_sheets(self) -> None:
        """Make the chosen sheets."""
        self.go_to("mark")
        self.panels.mark.make_sheets()

    def print_sheets(self) -> None:
        """Print the chosen sheets."""
        self.go_to("mark")
        self.panels.mark.print_sheets()

    def copy_png(self) -> None:
        """Put the elevation on the clipboard as a picture."""
        self.go_to("mark")
        self.panels.mark.copy_png()

    def copy_svg(self) -> None:
        """Put the elevation on the clipboard as a drawing."""
        self.go_to("mark")
        self.panels.mark.copy_svg()

    def open_folder(self) -> None:
        """Open the folder of the sheets."""
        self.go_to("mark")
        self.panels.mark.open_folder()

    def _look_at(self, step: int) -> None:
        wanted = [finding for finding in self._document.state.findings if finding.status != "clear"]
        if not wanted:
            self.say(self.tr("Nothing clashes."))
            return
        finding = self._selection.finding
        place = 0 if step > 0 else -1
        if finding in wanted:
            place = (wanted.index(finding) + step) % len(wanted)
        self.go_to("check")
        self._selection.look_at(wanted[place])
        self.say(wanted[place].message)

    def _on_part_dropped(self, part_id: str, at: XY) -> None:
        self.go_to("set_out")
        self.panels.set_out.add_part(part_id, at)
        self.canvas.setFocus()

    def _on_photo_dropped(self, path: Path) -> None:
        from app.panels.photo_dialog import place_photograph

        self.say(place_photograph(self._document, path, self._preferences.settings.unit, self))

    def _on_draw_pipe(self, service: PipeService, start: str | None) -> None:
        self.go_to("pipe")
        self.canvas.draw_pipe(service, start)

    def _on_stage(self, stage: str) -> None:
        self.view_bar.show_stage(stage)

    def _on_check_wanted(self) -> None:
        self.go_to("check")

    def _on_preferences(self, settings: Settings) -> None:
        self.canvas.set_options(options(settings))


def options(settings: Settings) -> Options:
    """Return what the canvas wants to know of the settings."""
    return Options(*(getattr(settings, name) for name in Options._fields))


def _take_keyboard(area: QWidget) -> bool:
    """Give the keyboard to an area: to itself, or to the first thing in it that takes it."""
    takers = [area, *area.findChildren(QWidget)]
    for widget in takers:
        if takes_tab(widget):
            widget.setFocus(Qt.FocusReason.ShortcutFocusReason)
            return True
    return False
