"""The step Check: every finding with what was measured and by which source, and what cures it."""

from PySide6.QtCore import QModelIndex
from PySide6.QtWidgets import QPushButton, QVBoxLayout

from app.document import State
from app.look import TARGET
from app.panels.choice_fields import TickField
from app.panels.cures_box import CuresBox
from app.panels.findings_list import FindingsModel, FindingsView
from app.panels.panel import Panel
from app.panels.sentence import Heading, Sentence
from app.panels.statuses import counts, status_word
from geometry.edits.refs import Ref, things
from geometry.finding import STATUSES, Finding
from geometry.questions import open_questions


class CheckPanel(Panel):
    """The findings grouped by status; the one that is chosen is looked at on the wall."""

    is_slow = True

    def set_up(self) -> None:
        """Make what stands on the panel."""
        self.setAccessibleName(self.tr("Findings"))
        self._following = False
        self.heading = Heading(" ")
        self.model = FindingsModel(self)
        self.view = FindingsView()
        self.view.setModel(self.model)
        self.view.selectionModel().currentChanged.connect(self._on_current)
        self.show_clear = TickField(self.tr("Show what is clear too"))
        self.show_clear.show_value(False)
        self.show_clear.entered.connect(self._on_show_clear)
        self.nothing = Sentence("clear")
        self.questions = Sentence("refer")
        self.choose_parts = self._button(self.tr("Choose its parts"))
        self.choose_parts.clicked.connect(self._on_choose_parts)
        self.cures = CuresBox(self)
        self.selection.finding_changed.connect(self._on_finding)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(8, 8, 8, 8)
        layout.setSpacing(8)
        layout.addWidget(self.heading)
        layout.addWidget(self.nothing)
        layout.addWidget(self.questions)
        layout.addWidget(self.view, 1)
        layout.addWidget(self.cures)
        layout.addWidget(self.choose_parts)
        layout.addWidget(self.show_clear)

    def show_state(self, state: State) -> None:
        """Show the findings of a state."""
        many = counts(state.findings)
        self.heading.say(
            ", ".join(f"{many[status]} {status_word(status)}" for status in STATUSES if many[status])
        )
        self._following = True
        self.model.show_findings(
            state.findings, self.document.rules, self.display, clear=self.show_clear.value
        )
        self._following = False
        wanting = len(state.findings) - many["clear"]
        words = self.tr("Nothing wants attention; %1 checks are clear.").replace("%1", str(many["clear"]))
        self.nothing.say("" if wanting else words)
        asked = " ".join(one.asked.capitalize() for one in open_questions(state.job, state.findings))
        self.questions.say(self.tr("Answer first, under Measure: %1").replace("%1", asked) if asked else "")
        self._follow(self.selection.finding)

    def _button(self, word: str) -> QPushButton:
        button = QPushButton(word)
        button.setMinimumHeight(TARGET)
        return button

    def _follow(self, finding: Finding | None) -> None:
        """Show which finding is looked at, and what can be done about it."""
        place = self.model.place_of(finding)
        if place != self.view.currentIndex().row():
            self._following = True
            self.view.setCurrentIndex(self.model.index(place))
            self._following = False
        everything = things(self.document.job)
        self.choose_parts.setEnabled(any(ref.id in finding.parts for ref in everything) if finding else False)
        self.cures.show_finding(self.document.state, finding)

    def _on_current(self, current: QModelIndex, _before: QModelIndex) -> None:
        if self._following or not current.isValid():
            return
        finding = self.model.row(current.row()).finding
        if finding is not None:
            self.selection.look_at(finding)

    def _on_finding(self, finding: Finding | None) -> None:
        if self.isVisible():
            self._follow(finding)

    def _on_show_clear(self, wanted: bool) -> None:
        self.show_clear.show_value(wanted)
        self.show_state(self.document.state)

    def _on_choose_parts(self) -> None:
        finding = self.selection.finding
        if finding is not None:
            named: list[Ref] = [ref for ref in things(self.document.job) if ref.id in finding.parts]
            self.selection.choose(named)
