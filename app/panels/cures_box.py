"""What cures the clash that is looked at: a button for each cure, worked out off the window's thread."""

from functools import partial
from typing import NamedTuple

from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QPushButton, QVBoxLayout, QWidget

from app.document import State
from app.look import TARGET
from app.panels.panel import Panel
from app.panels.sentence import Sentence
from app.panels.work import Work
from geometry.cures import Cure, cures_for, ways_out
from geometry.finding import Finding

SETTLE = 150
"""Milliseconds of rest before a cure is sought, so that going through the list does not seek them all."""


class Sought(NamedTuple):
    """What a cure is sought for: a finding of a state."""

    state: State
    finding: Finding


class Offer(NamedTuple):
    """What was found: the cures, and in words the ways out that the job cannot express."""

    sought: Sought
    cures: tuple[Cure, ...]
    ways: tuple[str, ...]


class CuresBox(QWidget):
    """Offers cures; a press on one applies it as a step of the history."""

    def __init__(self, panel: Panel) -> None:
        super().__init__()
        self._panel = panel
        self._sought: Sought | None = None
        self._work: Work | None = None
        self._clock = QTimer(self)
        self._clock.setSingleShot(True)
        self._clock.setInterval(SETTLE)
        self._clock.timeout.connect(self._seek)
        self.said = Sentence("quiet")
        self.buttons: list[QPushButton] = []
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(0, 0, 0, 0)
        self._layout.setSpacing(8)
        self._layout.addWidget(self.said)

    def show_finding(self, state: State, finding: Finding | None) -> None:
        """Seek cures for a finding of a state; only clashes have some."""
        if finding is None or finding.status != "clash" or finding not in state.findings:
            self.stop()
            self._sought = None
            self._say("")
            return
        sought = Sought(state, finding)
        if self._sought is not None and self._sought.state is state and self._sought.finding == finding:
            return
        self.stop()
        self._sought = sought
        self._say(self.tr("Looking for what cures it…"))
        self._clock.start()

    def apply_first(self) -> bool:
        """Apply the first cure; return whether there is one."""
        if not self.buttons:
            return False
        self.buttons[0].click()
        return True

    def stop(self) -> None:
        """Give up what is being sought."""
        self._clock.stop()
        if self._work is not None:
            self._work.give_up()
            self._work = None

    def _seek(self) -> None:
        if self._sought is not None:
            self._work = Work(partial(_found, self._sought))
            self._work.answers.done.connect(self._on_found)
            self._work.answers.failed.connect(self._on_failed)
            self._work.begin()

    def _on_found(self, offer: Offer) -> None:
        if offer.sought is not self._sought:
            return  # of a finding, or a state, that is no longer looked at
        words = list(offer.ways)
        if offer.cures:
            words.append(self.tr("Any one of these cures it:"))
        elif not words:
            words = [self.tr("No single change cures it; move the parts on the wall and watch this list.")]
        self._say("\n".join(words))
        for cure in offer.cures:
            self._add(offer.sought, cure)

    def _on_failed(self, problem: str) -> None:
        self._say(self.tr("No cure could be worked out: %1.").replace("%1", problem))

    def _say(self, words: str) -> None:
        """Say something in place of what was offered before."""
        self.said.say(words)
        before, self.buttons = self.buttons, []
        for button in before:
            self._layout.removeWidget(button)
            button.hide()
            button.deleteLater()

    def _add(self, sought: Sought, cure: Cure) -> None:
        button = QPushButton(cure.title)
        button.setMinimumHeight(TARGET)
        button.setAccessibleName(self.tr("Cure: %1").replace("%1", cure.title))
        button.clicked.connect(partial(self._apply, sought, cure))
        self._layout.addWidget(button)
        self.buttons.append(button)

    def _apply(self, sought: Sought, cure: Cure, *_: object) -> None:
        if sought.state.job is not self._panel.document.job:
            return  # the job has changed meanwhile; cures for it are being sought
        problem = self._panel.edit(cure.title, cure.job)
        if problem:
            self._panel.refused.emit(problem)


def _found(sought: Sought, _work: Work) -> Offer:
    state, finding = sought
    cures = cures_for(state.plan, state.findings, finding)
    return Offer(sought, cures, ways_out(state.plan, finding))
