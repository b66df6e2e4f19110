"""The step Pipe: which pipes there are, from where to where, and how each runs."""

from typing import Any

from PySide6.QtCore import QModelIndex, Signal
from PySide6.QtWidgets import (
    QAbstractItemView,
    QGridLayout,
    QHeaderView,
    QPushButton,
    QTableView,
    QVBoxLayout,
    QWidget,
)

from app.document import State
from app.look import TARGET
from app.panels.choice_fields import ChoiceField
from app.panels.form import Form
from app.panels.panel import Panel
from app.panels.photographs_box import PhotographsBox
from app.panels.pipe_form import feed_word, pipe_form
from app.panels.pipes_model import PipesModel
from app.panels.pipework_forms import PipeworkForm, measured, offcuts
from app.panels.routes_box import RoutesBox
from app.panels.section import Column, Section
from app.panels.sentence import Sentence, plainly
from app.panels.words import WATERS, choices
from geometry.edits.contents import removed
from geometry.edits.refs import Ref
from geometry.edits.routes import pipe_drawn
from geometry.model import XY, Job, Pipe
from geometry.model.pipes import PipeService

MOST_ROWS = 6


class PipePanel(Panel):
    """A table of the pipes, the form of the chosen one, and what adds another."""

    draw_pipe_requested = Signal(str, object)
    """A pipe is to be drawn on the wall: what runs in it, and the port it starts from, or None."""

    def set_up(self) -> None:
        """Make what stands on the panel."""
        self.setAccessibleName(self.tr("Pipes"))
        self._chosen: str | None = None
        self.model = PipesModel(self)
        self.table = self._table()
        self.none = Sentence("quiet", self.tr("No pipes yet."))
        self.total = Sentence("quiet")
        self.remove = self._button(self.tr("Remove the pipe"), self._on_remove)
        self.form: Form[Pipe] = pipe_form(self, self._pipe)
        self.routes = RoutesBox(self)
        self.water = ChoiceField(self.tr("Water of a new pipe"), choices(WATERS))
        self.start = ChoiceField(self.tr("It comes from"))
        self.end = ChoiceField(self.tr("It goes to"))
        self.draw = self._button(self.tr("Draw it on the wall"), self._on_draw)
        self.lay = self._button(self.tr("Lay it straight"), self._on_lay)
        self.problem = Sentence("clash")
        self.water.show_value("hot")
        for field in (self.water, self.start, self.end):
            field.entered.connect(field.show_value)
        self.water.entered.connect(self._on_water)
        self.pipework = PipeworkForm(self)
        self.offcuts = offcuts(self)
        self.measured = measured(self)
        self.photographs = PhotographsBox(self)
        self._build()

    def _build(self) -> None:
        column = Column()
        pipes = Section(self.tr("Pipes"))
        pipes.add(self.table, self.none, self.total, self.remove)
        chosen = Section(self.tr("The chosen pipe"))
        chosen.add(self.form)
        self._chosen_section = chosen
        ways = Section(self.tr("Ways to lead it"))
        ways.add(self.routes)
        self._ways_section = ways
        add = Section(self.tr("Add a pipe"))
        holder = QWidget()
        grid = QGridLayout(holder)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setSpacing(8)
        grid.addWidget(self.water, 0, 0, 1, 2)
        grid.addWidget(self.start, 1, 0)
        grid.addWidget(self.end, 1, 1)
        grid.addWidget(self.draw, 2, 0)
        grid.addWidget(self.lay, 2, 1)
        add.add(holder, self.problem)
        buying = Section(self.tr("Tube to buy and to use up"), opened=False)
        buying.add(self.pipework, Sentence("quiet", self.tr("Off-cuts at hand:")), self.offcuts)
        sizes = Section(self.tr("Fittings measured by hand"), opened=False)
        at_hand = self.tr(
            "From a fitting's centre to the stop of its tube; sizes not listed are typical ones."
        )
        sizes.add(Sentence("quiet", at_hand), self.measured)
        pictures = Section(self.tr("Photographs before closing"), opened=False)
        pictures.add(self.photographs)
        for section in (pipes, chosen, ways, add, buying, sizes, pictures):
            column.add(section)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(column)

    def show_state(self, state: State) -> None:
        """Show the pipes."""
        self.model.show_state(state)
        many = self.model.rowCount()
        self.table.setVisible(many > 0)
        self.none.setVisible(many == 0)
        header = self.table.horizontalHeader().sizeHint().height()
        self.table.setFixedHeight(header + min(max(many, 1), MOST_ROWS) * TARGET + 4)
        self._show_row()
        self._show_ports(state)
        self._chosen_section.setVisible(self.form.show_state(state))
        pipe = self._pipe(state.job)
        self._ways_section.setVisible(pipe is not None)
        self.routes.show_pipe(state, pipe)
        self.remove.setEnabled(pipe is not None)
        self.total.say(self._total(state))
        self.pipework.show_state(state)
        for listing in (self.offcuts, self.measured, self.photographs):
            listing.show_state(state)

    def show_chosen(self, refs: tuple[Ref, ...]) -> None:
        """Show the pipe that is chosen on the wall."""
        names = [ref.id for ref in refs if ref.kind == "pipe"]
        if names and names[0] != self._chosen:
            self._chosen = names[0]
            self.show_state(self.document.state)

    def _pipe(self, job: Job) -> Pipe | None:
        return next((pipe for pipe in job.pipes if pipe.id == self._chosen), None)

    def _show_row(self) -> None:
        """Keep the row of the chosen pipe current, under whatever name."""
        names = self.model.names
        if self._chosen is not None and self._chosen not in names:
            self._chosen = self.model.successor(self._chosen)
            if self._chosen is not None:
                self.selection.choose((Ref("pipe", self._chosen),))
        row = names.index(self._chosen) if self._chosen in names else -1
        if row != self.table.currentIndex().row():
            rows = self.table.selectionModel()
            rows.blockSignals(True)
            self.table.setCurrentIndex(self.model.index(row, 0))
            rows.blockSignals(False)
            self.table.viewport().update()

    def _show_ports(self, state: State) -> None:
        ports = [(port.name, port.words) for port in state.plan.ports.values()]
        self.start.set_choices([(None, feed_word()), *ports])
        self.end.set_choices(ports)
        self.end.box.setEnabled(bool(ports))
        self.lay.setEnabled(bool(ports))
        self.draw.setEnabled(bool(ports))
        if self.start.value is not None and self.start.value not in state.plan.ports:
            self.start.show_value(None)
        if self.end.value not in state.plan.ports:
            self._on_water(self.water.value)

    def _total(self, state: State) -> str:
        """Say how much there is of each tube, along its axis."""
        lengths: dict[str, float] = {}
        for pipe in state.job.pipes:
            name = state.plan.tubes[pipe.id].name
            lengths[name] = lengths.get(name, 0.0) + state.plan.courses[pipe.id].length
        return "\n".join(f"{name}: {self.written(length)}" for name, length in lengths.items())

    def _table(self) -> QTableView:
        table = QTableView()
        table.setModel(self.model)
        table.setAccessibleName(self.tr("Pipes"))
        table.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        table.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        table.setTabKeyNavigation(False)
        table.verticalHeader().setVisible(False)
        table.verticalHeader().setDefaultSectionSize(TARGET)
        table.horizontalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Stretch)
        table.selectionModel().currentRowChanged.connect(self._on_row)
        return table

    def _button(self, word: str, slot: Any) -> QPushButton:
        button = QPushButton(word)
        button.setMinimumHeight(TARGET)
        button.clicked.connect(slot)
        return button

    def _on_row(self, current: QModelIndex, _before: QModelIndex) -> None:
        names = self.model.names
        if 0 <= current.row() < len(names):
            self._chosen = names[current.row()]
            self.selection.choose((Ref("pipe", self._chosen),))
            self.show_state(self.document.state)

    def _on_remove(self) -> None:
        if self._chosen is not None:
            title = self.tr("Remove %1").replace("%1", self._chosen)
            self.edit(title, removed(self.document.job, (Ref("pipe", self._chosen),)))

    def _on_water(self, water: PipeService) -> None:
        """Suggest ports for a new pipe: free ones for this water."""
        plan = self.document.state.plan
        used = {end for pipe in plan.job.pipes for end in (pipe.start, pipe.end)}
        fit = [port for port in plan.ports.values() if port.service == water]
        free = [port.name for port in fit if port.name not in used] or [port.name for port in fit]
        if water == "mixed":
            outlets = [name for name in free if not name.endswith(".in")]
            inlets = [name for name in free if name.endswith(".in")]
            self.start.show_value(outlets[0] if outlets else None)
            self.end.show_value(inlets[0] if inlets else None)
        else:
            self.start.show_value(None)
            self.end.show_value(free[0] if free else None)

    def _on_draw(self) -> None:
        self.problem.say("")
        self.draw_pipe_requested.emit(self.water.value, self.start.value)

    def _on_lay(self) -> None:
        """Add the pipe without drawing it: it turns once where it has to; a feed comes up from the floor."""
        plan, end, start = self.document.state.plan, self.end.value, self.start.value
        points: list[XY] = []
        if start is None and end in plan.ports:
            points.append((plan.ports[end].at[0], 0.0))
        try:
            job, ref = pipe_drawn(self.document.job, self.water.value, start, points, end)
        except ValueError as problem:
            self.problem.say(plainly(problem))
            return
        problem_said = self.edit(self.tr("Lay %1").replace("%1", ref.id), job)
        self.problem.say(problem_said)
        if not problem_said:
            self.selection.choose((ref,))
