"""What one side of the supply has besides its readings: reducing valve, check valves, tank, pump."""

from PySide6.QtWidgets import QVBoxLayout, QWidget

from app.document import State
from app.panels.choice_fields import TickField
from app.panels.panel import Panel
from app.panels.water_forms import NEW_PUMP, Side, branch_of, extras_form, pump_form, side_words, with_branch


class Extras(QWidget):
    """The forms for one side."""

    def __init__(self, panel: Panel, side: Side) -> None:
        super().__init__()
        self._panel, self._side = panel, side
        self.form = extras_form(panel, side)
        self.pumped = TickField(self.tr("A pump where it begins"))
        self.pumped.name_for(side_words(side, self.tr("water")))
        self.pumped.entered.connect(self._on_pumped)
        self.pump = pump_form(panel, side)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(8)
        for widget in (self.form, self.pumped, self.pump):
            layout.addWidget(widget)

    def show_state(self, state: State) -> None:
        """Show what the side has."""
        branch = branch_of(state.job, self._side)
        self.form.show_state(state)
        self.pumped.show_value(branch is not None and branch.pump is not None)
        self.pump.show_state(state)

    def _on_pumped(self, pumped: bool) -> None:
        words = self.tr("Add %1") if pumped else self.tr("Remove %1")
        title = words.replace("%1", side_words(self._side, self.tr("pump")))
        job = self._panel.document.job
        self._panel.edit(title, with_branch(job, self._side, pump=NEW_PUMP if pumped else None))
