"""What takes too long for a drag: it is worked out once the hand rests, and pale until then."""

from PySide6.QtCore import QTimer, Signal
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget

from app.panels.facts import FactsTable
from app.panels.lines import Lines
from app.panels.panel import Panel
from app.panels.sentence import Sentence
from app.panels.water_plot import SupplyPlot
from app.panels.water_words import (
    Way,
    best_words,
    changes_head,
    changes_rows,
    legend,
    sizes_head,
    sizes_rows,
)
from geometry.plan import Plan
from geometry.supply.sweep import sweeps

IDLE = 200
"""Milliseconds without a change before anything here is worked out; own choice."""


class Late(QWidget):
    """Shows something about one way of the water; nothing is worked out while it is hidden."""

    rested = Signal()
    """Nothing has changed for as long as is waited for."""

    def __init__(self, panel: Panel) -> None:
        super().__init__()
        self._panel = panel
        self._wanted: Way | None = None
        self._worked: Way | None = None
        self.inside = QVBoxLayout(self)
        self.inside.setContentsMargins(0, 0, 0, 0)
        self.inside.setSpacing(8)
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.setInterval(IDLE)
        self._timer.timeout.connect(self._on_idle)

    @property
    def is_ready(self) -> bool:
        """Whether what is shown is about the way that is wanted."""
        return self._worked == self._wanted

    def show_way(self, way: Way | None) -> None:
        """Show this way as soon as the hand rests."""
        self._wanted = way
        if self.is_ready:
            self._timer.stop()
        else:
            self._timer.start()
        self.setEnabled(self.is_ready)

    def work(self, plan: Plan, way: Way) -> None:
        """Work out and show what is to be said of a way."""
        raise NotImplementedError

    def showEvent(self, event: QShowEvent) -> None:
        """Begin to work out what was wanted while hidden."""
        super().showEvent(event)
        if not self.is_ready:
            self._timer.start()

    def _on_idle(self) -> None:
        document, way = self._panel.document, self._wanted
        self.rested.emit()
        if not self.isVisible():
            return
        if document.job is not document.kept_job:  # a part is being dragged
            self._timer.start()
            return
        if way is not None:
            self.work(document.state.plan, way)
        self._worked = way
        self.setEnabled(True)


class PlotBox(Late):
    """Flow against supply pressure, of every outlet of the valve alone."""

    def __init__(self, panel: Panel) -> None:
        super().__init__(panel)
        self.plot = SupplyPlot()
        self.plot.setAccessibleName(self.tr("Flow against supply pressure"))
        self.legend = Lines()
        key = self.tr(
            "Cross: now, on the upright line of the pressure measured. Ring: from here on the outlet gets"
            " what its maker states. Hot keeps its difference to cold."
        )
        for widget in (self.plot, self.legend, Sentence("quiet", key)):
            self.inside.addWidget(widget)

    def work(self, plan: Plan, way: Way) -> None:
        """Draw the lines."""
        lines = sweeps(way.shower)
        words = tuple(legend(lines))
        self.plot.show_sweeps(lines)
        self.plot.setAccessibleDescription(" ".join(words))
        self.legend.say([(text, "words") for text in words])


class SizesBox(Late):
    """The two usual sizes of tube on each stretch."""

    def __init__(self, panel: Panel) -> None:
        super().__init__(panel)
        self.best = Sentence()
        self.table = FactsTable(self.tr("Other tubes on one stretch"), sizes_head())
        said = Sentence("quiet", self.tr("l/min with another tube on this stretch alone:"))
        for widget in (self.best, said, self.table):
            self.inside.addWidget(widget)

    def work(self, plan: Plan, way: Way) -> None:
        """Try the tubes."""
        self.best.say(best_words(plan, way))
        self.table.show_rows(sizes_rows(plan, way))


class ChangesBox(Late):
    """Other heads, a pump, a reducing valve."""

    def __init__(self, panel: Panel) -> None:
        super().__init__(panel)
        self.table = FactsTable(self.tr("Other changes"), changes_head(), numbers=2)
        self.inside.addWidget(self.table)

    def work(self, plan: Plan, way: Way) -> None:
        """Try the changes."""
        self.table.show_rows(changes_rows(plan, way))
