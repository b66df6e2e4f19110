"""The water: what was read at the taps, what comes out of the shower, and what would change it."""

from typing import Any

from PySide6.QtWidgets import QPushButton, QVBoxLayout, QWidget

from app.document import State
from app.look import TARGET
from app.panels.choice_fields import ChoiceField, TickField
from app.panels.facts import FactsTable
from app.panels.form import Form
from app.panels.lines import Lines
from app.panels.listing import Listing
from app.panels.panel import Panel
from app.panels.section import Column, Section
from app.panels.sentence import Heading, Sentence, Tone
from app.panels.statuses import LOOKS
from app.panels.water_forms import (
    NEW_DRAIN,
    DrainForm,
    SourceForm,
    branch_form,
    readings,
    upstream,
    usual_branch,
    usual_supply,
)
from app.panels.water_late import ChangesBox, Late, PlotBox, SizesBox
from app.panels.water_side import Extras
from app.panels.water_words import (
    Water,
    Way,
    details,
    loss_row,
    losses_head,
    result,
    results_head,
    short,
    water_of,
)
from geometry.finding import Finding
from geometry.model import Supply


class WaterPanel(Panel):
    """Readings, results that follow them, and changes worth trying."""

    is_slow = True

    def set_up(self) -> None:
        """Make what stands on the panel."""
        self.setAccessibleName(self.tr("Water"))
        self.headline = Lines(spacing=2)
        self.start = self._button(self.tr("Start with usual readings"), self._on_start)
        self.remove = self._button(self.tr("Remove the readings"), self._on_remove)
        self.usual = Sentence("tight")
        self._set_up_readings()
        self._set_up_results()
        self._build()

    def _set_up_readings(self) -> None:
        self.source = SourceForm(self)
        self.cold, self.hot = branch_form(self, "cold"), branch_form(self, "hot")
        self.cold_readings, self.hot_readings = readings(self, "cold"), readings(self, "hot")
        self.cold_pipes, self.hot_pipes = upstream(self, "cold"), upstream(self, "hot")
        self.cold_extras, self.hot_extras = Extras(self, "cold"), Extras(self, "hot")
        self.drained = TickField(self.tr("The waste pipe was measured"))
        self.drained.entered.connect(self._on_drained)
        self.drain = DrainForm(self)

    def _set_up_results(self) -> None:
        self.results = FactsTable(self.tr("What comes out"), results_head(), numbers=5)
        self.running = ChoiceField(self.tr("With water running at"))
        self.running.entered.connect(self._on_running)
        self.details = Lines()
        self.losses = FactsTable(self.tr("Where the pressure goes"), losses_head(), numbers=3)
        self.findings = Lines()
        self.plot, self.sizes, self.changes = PlotBox(self), SizesBox(self), ChangesBox(self)
        self._late: tuple[Late, ...] = (self.plot, self.sizes, self.changes)
        self._water = Water((), ())

    def _build(self) -> None:
        self.column = Column()
        self._none = QWidget()
        words = self.tr(
            "Nothing was measured yet. Hold a gauge to a tap, cold and hot: read it with all taps shut, and"
            " again while the tap fills a bucket."
        )
        beginning = QVBoxLayout(self._none)
        beginning.setContentsMargins(4, 8, 4, 8)
        beginning.addWidget(Sentence("words", words))
        beginning.addWidget(self.start)
        self._sections: list[Section] = []
        self.column.add(self._none)
        self._section(self.tr("Hot water"), self.source)
        self._section(self.tr("Cold, as read"), *self._read(self.cold, self.cold_readings, self.cold_pipes))
        self._section(self.tr("Hot, as read"), *self._read(self.hot, self.hot_readings, self.hot_pipes))
        extras = self._section(
            self.tr("Pump, reducing valve, tank"),
            Heading(self.tr("Cold")), self.cold_extras, Heading(self.tr("Hot")), self.hot_extras,
        )  # fmt: skip
        waste = self._section(self.tr("Waste pipe"), self.drained, self.drain)
        for section in (extras, waste):
            section.open(False)
        flowing = Sentence("quiet", self.tr("bar: before the spray. m/s: where the water is fastest."))
        climbing = Sentence("quiet", self.tr("bar: lost in the piece, and to the height that it climbs."))
        self._results = [
            self._section(self.tr("What comes out"), self.results, flowing),
            self._section(
                self.tr("Where the pressure goes"), self.running, self.details, self.losses, climbing
            ),
            self._section(self.tr("Flow against supply pressure"), self.plot),
            self._section(self.tr("Other tubes"), self.sizes),
            self._section(self.tr("Another head, pump or reducing valve"), self.changes),
        ]
        self._said = self._section(self.tr("What the checks say"), self.findings)
        licensed = self.tr(
            "No hotter than 41 °C at the outlet. Hot stored at 60 °C or more, cold below 20 °C. Unvented"
            " cylinders, expansion vessels and all gas are for licensed trades."
        )
        self._section(self.tr("Take care"), Sentence("quiet", licensed), self.remove)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        top = QVBoxLayout()
        top.setContentsMargins(12, 8, 12, 8)
        top.setSpacing(6)
        top.addWidget(self.headline)
        top.addWidget(self.usual)
        layout.addLayout(top)
        layout.addWidget(self.column, 1)

    def _read(self, form: QWidget, taken: QWidget, pipes: QWidget) -> tuple[QWidget, ...]:
        running = Sentence("quiet", self.tr("With water running:"))
        between = Sentence("quiet", self.tr("Pipe between the gauge and the wall:"))
        return form, running, taken, between, pipes

    def show_state(self, state: State) -> None:
        """Show the readings, and what follows from them."""
        supply = state.job.supply
        self._none.setVisible(supply is None)
        for section in self._sections:
            section.setVisible(supply is not None)
        shown: tuple[Form[Any] | Listing[Any] | Extras, ...] = (
            self.source, self.cold, self.hot, self.cold_readings, self.hot_readings, self.cold_pipes,
            self.hot_pipes, self.cold_extras, self.hot_extras, self.drain,
        )  # fmt: skip
        for each in shown:
            each.show_state(state)
        self.drained.show_value(supply is not None and supply.drain is not None)
        self.usual.say(self._usual_words(supply))
        self._show_water(water_of(state.plan))
        found = [one for one in state.findings if one.rule.startswith("supply.") and one.status != "clear"]
        self.findings.say([_said(finding) for finding in found])
        self._said.setVisible(supply is not None and bool(found))

    def _show_water(self, water: Water) -> None:
        self._water = water
        alone = [short(way) for way in water.ways if len(way.names) == 1]
        problems: list[tuple[str, Tone]] = [(sentence, "clash") for sentence in water.lacking]
        self.headline.say([*problems, *alone])
        for section in self._results:
            section.setVisible(bool(water.ways))
        self.results.show_rows([result(way) for way in water.ways])
        self.running.set_choices([(way.names, way.title) for way in water.ways])
        if self.running.value not in self.running.values:
            self.running.show_value(water.ways[0].names if water.ways else None)
        self._show_way()

    def _show_way(self) -> None:
        """Show more of the outlets that run."""
        way = self._way()
        lines: list[tuple[str, Tone]] = []
        if way is not None:
            lines = [(problem.message, "tight") for problem in way.solution.problems]
            lines += [(sentence, "words") for sentence in details(way)]
        self.details.say(lines)
        self.losses.show_rows([loss_row(loss) for loss in way.solution.losses] if way else ())
        for late in self._late:
            late.show_way(way)

    def _way(self) -> Way | None:
        return next((way for way in self._water.ways if way.names == self.running.value), None)

    def _usual_words(self, supply: Supply | None) -> str:
        """Say which side still stands as it began."""
        if supply is None:
            return ""
        cold, hot = supply.cold == usual_branch("cold"), supply.hot == usual_branch("hot")
        if cold and hot:
            return self.tr("These readings are the usual ones, not yours: type over them what you read.")
        if cold or hot:
            words = self.tr("The readings of the %1 water are still the usual ones, not yours.")
            return words.replace("%1", self.tr("cold") if cold else self.tr("hot"))
        return ""

    def _section(self, title: str, *widgets: QWidget) -> Section:
        section = Section(title)
        section.add(*widgets)
        self._sections.append(section)
        self.column.add(section)
        return section

    def _button(self, word: str, slot: Any) -> QPushButton:
        button = QPushButton(word)
        button.setMinimumHeight(TARGET)
        button.clicked.connect(slot)
        return button

    def _on_start(self) -> None:
        self.edit(self.start.text(), self.document.job.but(supply=usual_supply()))

    def _on_remove(self) -> None:
        self.edit(self.remove.text(), self.document.job.but(supply=None))

    def _on_drained(self, measured: bool) -> None:
        job = self.document.job
        if job.supply is not None:
            title = self.tr("Note the waste pipe") if measured else self.tr("Forget the waste pipe")
            drain = NEW_DRAIN if measured else None
            self.edit(title, job.but(supply=job.supply.but(drain=drain)))

    def _on_running(self, names: tuple[str, ...]) -> None:
        self.running.show_value(names)
        self._show_way()


def _said(finding: Finding) -> tuple[str, Tone]:
    look = LOOKS[finding.status]
    return f"{look.mark} {finding.message}", look.tone
